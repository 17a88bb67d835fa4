//! Property tests of the door that definitions come in by: arbitrary bytes, and sound definitions
//! with spans deleted, repeated or replaced and with values swapped. Nothing panics, and what
//! loads keeps every limit. (The corpus of single errors is in `bad_definitions.rs`.)
#![expect(clippy::disallowed_methods, reason = "tests read files and the environment")]
#![expect(clippy::expect_used, clippy::print_stdout, reason = "a test's helpers may")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use evenhand_definitions::{DefinitionError, limits, load, settings};
use evenhand_rules::{Contest, Election, Item, OptionKind, Rule, Selections, Text};
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
                let lines = bytes.split(|byte| *byte == b'\n').count();
                let line = error.line().map_or(1, |line| line as usize);
                prop_assert!((1..=lines).contains(&line), "line {line} of {lines}: {error}");
                // The pass that notes lines never refuses what the parser takes.
                if serde_json::from_slice::<Value>(&bytes).is_ok() {
                    prop_assert!(!matches!(error, DefinitionError::NotJson { .. }), "{error}");
                }
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

/// A change that leaves the file sound more often than not.
#[derive(Clone, Debug)]
enum Nudge {
    Text(prop::sample::Index, String),
    Number(prop::sample::Index, i64),
    Variation(prop::sample::Index, &'static str),
    SwapItems(prop::sample::Index, prop::sample::Index, prop::sample::Index),
    DropItem(prop::sample::Index, prop::sample::Index),
}

fn nudge() -> impl Strategy<Value = Nudge> {
    let at = any::<prop::sample::Index>;
    let variations = prop::sample::select(vec![
        "approval",
        "borda",
        "cumulative",
        "majority",
        "n-of-m",
        "plurality",
        "range",
        "rcv",
        "super-majority",
    ]);
    prop_oneof![
        (at(), "\\PC{1,60}|[ \t\na-zé]{1,300}").prop_map(|(at, text)| Nudge::Text(at, text)),
        (at(), -1..13i64).prop_map(|(at, number)| Nudge::Number(at, number)),
        (at(), variations).prop_map(|(at, variation)| Nudge::Variation(at, variation)),
        (at(), at(), at()).prop_map(|(list, a, b)| Nudge::SwapItems(list, a, b)),
        (at(), at()).prop_map(|(list, item)| Nudge::DropItem(list, item)),
    ]
}

/// The places of values that a test picks, as JSON pointers.
fn chosen(value: &Value, pick: impl Fn(&str, &Value) -> bool) -> Vec<String> {
    let mut all = Vec::new();
    places(value, "", &mut all);
    let name = |place: &str| place.rsplit('/').next().unwrap_or_default().to_owned();
    all.retain(|place| value.pointer(place).is_some_and(|value| pick(&name(place), value)));
    all
}

fn nudged(value: &mut Value, nudge: &Nudge) {
    let texts = |name: &str, _: &Value| ["Content", "ReadName", "Name"].contains(&name);
    let lists = |_: &str, value: &Value| value.as_array().is_some_and(|list| list.len() > 1);
    let (places, at) = match nudge {
        Nudge::Text(at, _) => (chosen(value, |n, v| texts(n, v) && v.is_string()), at),
        Nudge::Number(at, _) => (chosen(value, |name, _| name.ends_with("sAllowed")), at),
        Nudge::Variation(at, _) => (chosen(value, |name, _| name == "VoteVariation"), at),
        Nudge::SwapItems(at, _, _) | Nudge::DropItem(at, _) => (chosen(value, lists), at),
    };
    let Some(place) = value.pointer_mut(at.get(&places).as_str()) else { return };
    match nudge {
        Nudge::Text(_, text) => *place = text.as_str().into(),
        Nudge::Number(_, number) => *place = (*number).into(),
        Nudge::Variation(_, variation) => *place = (*variation).into(),
        Nudge::SwapItems(_, one, other) => {
            if let Some(list) = place.as_array_mut() {
                let (one, other) = (one.index(list.len()), other.index(list.len()));
                list.swap(one, other);
            }
        }
        Nudge::DropItem(_, item) => {
            if let Some(list) = place.as_array_mut() {
                let item = item.index(list.len());
                list.remove(item);
            }
        }
    }
}

/// Small changes: what loads keeps every limit, and enough of them load for that to say something.
#[test]
fn nudged_definitions_keep_the_limits() {
    let (cases, loaded_min) = (512, 150);
    let config = ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() };
    let mut runner = proptest::test_runner::TestRunner::new(config);
    let (seeds, loaded) = (seeds(), std::cell::Cell::new(0));
    let strategy = (0..4usize, prop::collection::vec(nudge(), 1..3));
    let run = runner.run(&strategy, |(seed, nudges)| {
        let seed = &seeds[seed % seeds.len()];
        let mut value: Value = serde_json::from_slice(seed).expect("a seed is JSON");
        for nudge in &nudges {
            nudged(&mut value, nudge);
        }
        if let Ok(election) = load(value.to_string().as_bytes()) {
            loaded.set(loaded.get() + 1);
            check(election.election());
        }
        Ok(())
    });
    assert!(run.is_ok(), "{run:?}");
    println!("{} of {cases} nudged definitions loaded", loaded.get());
    assert!(loaded.get() >= loaded_min, "only {} of {cases} loaded", loaded.get());
}

#[test]
fn seeds_pass_the_check() {
    for seed in seeds() {
        check(load(&seed).expect("a seed loads").election());
    }
}

/// The check can fail.
#[test]
#[should_panic(expected = "Choose { max: 0 }")]
fn a_contest_for_nobody_fails_the_check() {
    let mut election = load(&seeds()[0]).expect("the base loads").into_election();
    for item in &mut election.styles[0].items {
        if let Item::Contest(contest) = item {
            contest.rule = Rule::Choose { max: 0 };
        }
    }
    check(&election);
}
