//! Property tests of the door that definitions come in by: arbitrary bytes, and sound definitions
//! with spans deleted, repeated or replaced and with values swapped. Nothing panics, and what
//! loads keeps every limit. (The corpus of single errors is in `bad_definitions.rs`.)
#![expect(clippy::disallowed_methods, reason = "tests read files and the environment")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use evenhand_definitions::{limits, load, settings};
use evenhand_rules::{Contest, Election, OptionKind, Rule, Selections, Text};
use proptest::prelude::*;
use serde_json::Value;

/// Sound definitions to start from: our base, the demo, and NIST's where they are at hand.
fn seeds() -> Vec<Vec<u8>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let nist =
        std::env::var("EVENHAND_NIST").map_or_else(|_| root.join("../shared/nist"), PathBuf::from);
    let mut paths = vec![root.join("tests/bad-definitions/base.json")];
    for name in ["gen-01", "gen-02", "prim-01"] {
        paths.push(nist.join(format!("elections/{name}/bd-{name}.json")));
    }
    let here = paths.into_iter().filter(|path| path.is_file());
    let seeds: Vec<Vec<u8>> = here.map(|path| fs::read(path).expect("the seed is read")).collect();
    assert!(seeds.len() == 4 || std::env::var("CI").is_err(), "NIST's elections are missing");
    seeds
}

fn check_text(text: &Text, limit: usize) {
    assert!(!text.entries().is_empty() && text.entries().len() <= limits::LANGUAGES_MAX);
    for (language, words) in text.entries() {
        assert!(language.tag().len() <= limits::LANGUAGE_TAG_LEN_MAX);
        assert!(!words.is_empty() && words == words.trim(), "{words:?}");
        assert!(words.chars().count() <= limit, "{} characters", words.chars().count());
        assert!(
            !words.contains(|c: char| c.is_control() || ('\u{202a}'..='\u{202e}').contains(&c))
        );
    }
}

fn check_contest(contest: &Contest, contests: u16) {
    check_text(&contest.title.shown, limits::TITLE_LEN_MAX);
    contest.summary.iter().for_each(|text| check_text(text, limits::SUMMARY_LEN_MAX));
    contest.full_text.iter().for_each(|text| check_text(text, limits::FULL_TEXT_LEN_MAX));
    let options = contest.options.len();
    assert!((1..=limits::OPTIONS_A_CONTEST_MAX).contains(&options));
    assert!((1..=options).contains(&usize::from(contest.limit())), "{:?}", contest.rule);
    if let Rule::Rank { ranks } = contest.rule {
        assert!(ranks <= limits::RANKS_MAX);
    }
    assert!(contest.affects.iter().all(|at| at.0 < contests));
    let ids: BTreeSet<&str> = contest.options.iter().map(|option| option.id.as_str()).collect();
    assert_eq!(ids.len(), options, "no option is there twice");
    for option in &contest.options {
        assert_eq!(option.names.is_empty(), option.kind == OptionKind::WriteIn);
        option.names.iter().for_each(|name| check_text(&name.shown, limits::NAME_LEN_MAX));
        let detail = limits::PARTIES_AN_OPTION_MAX * (limits::NAME_LEN_MAX + 2);
        option.detail.iter().for_each(|text| check_text(text, detail));
    }
}

/// What must hold of any election that comes in, whatever the file.
fn check(election: &Election) {
    check_text(&election.name, limits::TITLE_LEN_MAX);
    assert!(!election.styles.is_empty() && election.styles.len() <= limits::STYLES_MAX);
    assert!(!election.languages.is_empty());
    assert_eq!(Some(&election.languages[0]), election.name.entries().first().map(|e| &e.0));
    for style in &election.styles {
        let count = style.contest_count();
        assert!((1..=limits::CONTESTS_A_STYLE_MAX).contains(&usize::from(count)));
        assert!(!style.units.is_empty() && !style.code.is_empty());
        style.contests().for_each(|(_, contest)| check_contest(contest, count));
        // Every language that the election says it has is in every text.
        for (_, contest) in style.contests() {
            for language in &election.languages {
                assert!(contest.title.shown.exact(language).is_some());
                assert!(contest.full_text.iter().all(|text| text.exact(language).is_some()));
            }
        }
        let _ = Selections::none(style);
    }
}

/// One change to the bytes of a definition.
#[derive(Clone, Debug)]
enum Change {
    Delete { at: prop::sample::Index, len: usize },
    Repeat { at: prop::sample::Index, len: usize },
    Overwrite { at: prop::sample::Index, with: Vec<u8> },
    Move { from: prop::sample::Index, len: usize, to: prop::sample::Index },
}

fn change() -> impl Strategy<Value = Change> {
    let at = any::<prop::sample::Index>;
    prop_oneof![
        (at(), 1..200usize).prop_map(|(at, len)| Change::Delete { at, len }),
        (at(), 1..2_000usize).prop_map(|(at, len)| Change::Repeat { at, len }),
        (at(), prop::collection::vec(any::<u8>(), 1..8))
            .prop_map(|(at, with)| Change::Overwrite { at, with }),
        (at(), "[ -~]{1,8}").prop_map(|(at, with)| Change::Overwrite { at, with: with.into() }),
        (at(), 1..500usize, at()).prop_map(|(from, len, to)| Change::Move { from, len, to }),
    ]
}

fn apply(bytes: &mut Vec<u8>, change: &Change) {
    if bytes.is_empty() {
        return;
    }
    let span = |at: &prop::sample::Index, len: usize, bytes: &[u8]| {
        let start = at.index(bytes.len());
        start..bytes.len().min(start + len)
    };
    match change {
        Change::Delete { at, len } => drop(bytes.drain(span(at, *len, bytes))),
        Change::Repeat { at, len } => {
            let span = span(at, *len, bytes);
            let copy = bytes[span.clone()].to_vec();
            bytes.splice(span.start..span.start, copy);
        }
        Change::Overwrite { at, with } => {
            let span = span(at, with.len(), bytes);
            bytes.splice(span, with.iter().copied());
        }
        Change::Move { from, len, to } => {
            let moved: Vec<u8> = bytes.drain(span(from, *len, bytes)).collect();
            let to = if bytes.is_empty() { 0 } else { to.index(bytes.len()) };
            bytes.splice(to..to, moved);
        }
    }
}

/// The places of all values under a value, as JSON pointers.
fn places(value: &Value, here: &str, into: &mut Vec<String>) {
    into.push(here.to_owned());
    match value {
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                places(item, &format!("{here}/{index}"), into);
            }
        }
        Value::Object(fields) => {
            for (name, field) in fields {
                places(field, &format!("{here}/{name}"), into);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

/// Values that often break readers.
fn odd_values() -> Vec<Value> {
    serde_json::from_str(
        r#"[null, true, 0, 1, -1, 2, 3, 100, 18446744073709551615, 1e300, 0.5, "", " ", "\u0000",
            "\u202e", "x", "en", "rcv", "approval", "cumulative", [], {}, [[]], [{}], [""]]"#,
    )
    .expect("a list of values")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_are_taken_calmly(bytes in prop::collection::vec(any::<u8>(), 0..2_000)) {
        prop_assert!(load(&bytes).is_err());
        let _ = settings(&bytes);
    }

    #[test]
    fn any_json_like_text_is_taken_calmly(
        text in r#"[\[\]{},:"a-c0-9\\@ \n]{0,200}"#,
    ) {
        prop_assert!(load(text.as_bytes()).is_err());
        let _ = settings(text.as_bytes());
    }

    #[test]
    fn changed_bytes_never_break_a_rule(
        seed in 0..4usize,
        changes in prop::collection::vec(change(), 1..4),
    ) {
        let seeds = seeds();
        let mut bytes = seeds[seed % seeds.len()].clone();
        for change in &changes {
            apply(&mut bytes, change);
        }
        match load(&bytes) {
            Ok(loaded) => check(loaded.election()),
            Err(error) => {
                let lines = bytes.iter().filter(|byte| **byte == b'\n').count() + 1;
                let line = error.line().map_or(1, |line| line as usize);
                prop_assert!((1..=lines).contains(&line), "line {line} of {lines}: {error}");
            }
        }
    }

    #[test]
    fn changed_values_never_break_a_rule(
        seed in 0..4usize,
        swaps in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 0..3),
        odd in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 0..3),
    ) {
        let seeds = seeds();
        let mut value: Value =
            serde_json::from_slice(&seeds[seed % seeds.len()]).expect("a seed is JSON");
        for (one, other) in &swaps {
            let mut all = Vec::new();
            places(&value, "", &mut all);
            let (one, other) = (one.get(&all).clone(), other.get(&all).clone());
            let taken = value.pointer(&other).cloned();
            let given = value.pointer(&one).cloned();
            if let (Some(place), Some(taken)) = (value.pointer_mut(&one), taken) {
                *place = taken;
            }
            if let (Some(place), Some(given)) = (value.pointer_mut(&other), given) {
                *place = given;
            }
        }
        for (place, with) in &odd {
            let mut all = Vec::new();
            places(&value, "", &mut all);
            if let Some(place) = value.pointer_mut(place.get(&all).as_str()) {
                *place = with.get(&odd_values()).clone();
            }
        }
        if let Ok(loaded) = load(value.to_string().as_bytes()) {
            check(loaded.election());
        }
    }
}

/// The check above can fail, and the seeds pass it.
#[test]
fn seeds_are_sound_and_the_check_can_fail() {
    for seed in seeds() {
        check(load(&seed).expect("a seed loads").election());
    }
    let mut election = load(&seeds()[0]).expect("the base loads").into_election();
    let evenhand_rules::Item::Contest(contest) = &mut election.styles[0].items[1] else {
        panic!("the first item under the header is a contest")
    };
    contest.rule = Rule::Choose { max: 0 };
    assert!(std::panic::catch_unwind(|| check(&election)).is_err());
}
