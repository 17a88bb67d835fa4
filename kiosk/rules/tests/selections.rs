//! A selection that breaks its contest's rule can't be built, whatever is asked for.

use evenhand_rules::{
    Contest, ContestIndex, ContestKind, ContestOption, ContestReading, Difference, Item, Language,
    LowerRanks, Name, OptionIndex, OptionKind, OvalId, OvalReading, Permille, Rank, Reading,
    Refusal, Rule, Selections, Style, Text, Verdict, WRITE_IN_CHARACTERS, WRITE_IN_LEN_MAX,
    WriteInReading, WriteInText,
};
use proptest::prelude::*;

fn text(words: &str) -> Text {
    Text::new(vec![(Language::new("en"), words.into())])
}

fn contest(rule: Rule, listed: usize, write_ins: usize) -> Item {
    let option = |kind, name: String| ContestOption {
        id: name.clone(),
        kind,
        names: vec![Name::plain(text(&name))],
        detail: None,
    };
    let mut options: Vec<ContestOption> =
        (0..listed).map(|n| option(OptionKind::Listed, format!("Person {n}"))).collect();
    options.extend((0..write_ins).map(|n| option(OptionKind::WriteIn, format!("Line {n}"))));
    Item::Contest(Contest {
        id: "contest".into(),
        title: Name::plain(text("Office")),
        subtitle: None,
        kind: ContestKind::Office,
        is_approval: false,
        rule,
        summary: None,
        full_text: Vec::new(),
        affects: Vec::new(),
        options,
    })
}

fn style() -> Style {
    Style {
        code: "1".into(),
        units: vec!["unit".into()],
        precinct: text("North"),
        party: None,
        items: vec![
            contest(Rule::Choose { max: 1 }, 3, 1),
            contest(Rule::Choose { max: 3 }, 6, 2),
            contest(Rule::Rank { ranks: 4 }, 5, 1),
        ],
    }
}

const FIRST: ContestIndex = ContestIndex(0);
const SECOND: ContestIndex = ContestIndex(1);
const RANKED: ContestIndex = ContestIndex(2);

#[test]
fn a_choice_over_the_limit_is_refused_and_changes_nothing() {
    let style = style();
    let mut selections = Selections::none(&style);
    assert_eq!(selections.choose(&style, FIRST, OptionIndex(0)), Ok(()));
    let before = selections.clone();
    assert_eq!(selections.choose(&style, FIRST, OptionIndex(1)), Err(Refusal::LimitReached));
    assert_eq!(selections, before);
    assert_eq!(selections.choose(&style, FIRST, OptionIndex(0)), Ok(()), "choosing twice is one");
    assert_eq!(selections.count(FIRST), 1);
}

#[test]
fn a_person_has_one_rank_and_a_rank_one_person() {
    let style = style();
    let mut selections = Selections::none(&style);
    let (a, b) = (OptionIndex(0), OptionIndex(1));
    assert_eq!(selections.rank(&style, RANKED, a, Rank(2)), Ok(()));
    assert_eq!(selections.rank(&style, RANKED, b, Rank(2)), Err(Refusal::RankTaken(a)));
    assert_eq!(selections.rank(&style, RANKED, a, Rank(3)), Err(Refusal::AlreadyRanked(Rank(2))));
    for wrong in [Rank(0), Rank(5)] {
        assert_eq!(selections.rank(&style, RANKED, b, wrong), Err(Refusal::NoSuchOption));
    }
    assert_eq!(selections.choose(&style, RANKED, b), Err(Refusal::NoSuchOption));
    assert_eq!(selections.rank(&style, FIRST, b, Rank(1)), Err(Refusal::NoSuchOption));
}

#[test]
fn lower_ranks_move_up_or_stay_as_asked() {
    let style = style();
    let mut selections = Selections::none(&style);
    for rank in 1..=4 {
        let option = OptionIndex(u16::from(rank));
        assert_eq!(selections.rank(&style, RANKED, option, Rank(rank)), Ok(()));
    }
    let mut stays = selections.clone();
    stays.undo(RANKED, OptionIndex(2), LowerRanks::Stay);
    assert_eq!(stays.at_rank(RANKED, Rank(2)), None);
    assert_eq!(stays.at_rank(RANKED, Rank(3)), Some(OptionIndex(3)));
    selections.undo(RANKED, OptionIndex(2), LowerRanks::MoveUp);
    assert_eq!(selections.at_rank(RANKED, Rank(2)), Some(OptionIndex(3)));
    assert_eq!(selections.at_rank(RANKED, Rank(3)), Some(OptionIndex(4)));
    assert_eq!(selections.at_rank(RANKED, Rank(4)), None);
}

#[test]
fn a_written_name_is_bounded_and_goes_with_its_choice() {
    let style = style();
    let mut selections = Selections::none(&style);
    let line = OptionIndex(3);
    let mut name = WriteInText::new();
    assert_eq!(name.push('a'), Err(Refusal::NoSuchCharacter));
    for letter in WRITE_IN_CHARACTERS.chars().cycle().take(WRITE_IN_LEN_MAX) {
        assert_eq!(name.push(letter), Ok(()));
    }
    assert_eq!(name.push('A'), Err(Refusal::NameTooLong));
    assert_eq!(selections.write_in(FIRST, line, name.clone()), Ok(()));
    assert_eq!(selections.choose(&style, FIRST, line), Ok(()));
    assert_eq!(selections.write_in(FIRST, OptionIndex(0), name), Err(Refusal::NoSuchOption));
    selections.undo(FIRST, line, LowerRanks::Stay);
    assert_eq!(selections.written(FIRST, line).map(WriteInText::as_str), Some(""));
}

#[test]
fn debug_prints_no_choice() {
    let style = style();
    let mut selections = Selections::none(&style);
    let mut name = WriteInText::new();
    for letter in "SECRETNAME".chars() {
        name.push(letter).expect("it is on the keyboard");
    }
    let shown = format!("{name:?}");
    assert!(!shown.contains("SECRET"), "{shown}");
    selections.write_in(SECOND, OptionIndex(6), name).expect("it is a line");
    selections.choose(&style, SECOND, OptionIndex(6)).expect("there is room");
    assert_eq!(format!("{selections:?}"), format!("{:?}", Selections::none(&style)));
}

/// The reading that a perfect printer and reader would give.
fn perfect(style: &Style, selections: &Selections) -> Reading {
    let wanted = selections.ovals(style);
    let contests = style
        .contests()
        .map(|(contest, definition)| ContestReading {
            contest,
            ovals: definition
                .ovals(contest)
                .into_iter()
                .map(|oval| {
                    let marked = wanted.contains(&oval);
                    let verdict = if marked { Verdict::Marked } else { Verdict::Empty };
                    let darkness = Permille(if marked { 1000 } else { 0 });
                    OvalReading { oval, darkness, verdict, margin: Permille(400) }
                })
                .collect(),
        })
        .collect();
    let mut write_ins = Vec::new();
    for (contest, definition) in style.contests() {
        for (option, _) in definition.indexed_options() {
            let Some(name) = selections.written(contest, option) else { continue };
            let name =
                if selections.is_marked(contest, option) { name.as_str().trim() } else { "" };
            write_ins.push(WriteInReading {
                contest,
                option,
                inked: !name.is_empty(),
                text: (!name.is_empty()).then(|| name.to_owned()),
            });
        }
    }
    Reading { contests, write_ins }
}

#[derive(Clone, Debug)]
enum Deed {
    Choose(u16, u16),
    Rank(u16, u16, u8),
    Undo(u16, u16, bool),
    Write(u16, u16, String),
}

fn deed() -> impl Strategy<Value = Deed> {
    let (contest, option) = (0u16..4, 0u16..9);
    prop_oneof![
        (contest.clone(), option.clone()).prop_map(|(c, o)| Deed::Choose(c, o)),
        (contest.clone(), option.clone(), 0u8..6).prop_map(|(c, o, r)| Deed::Rank(c, o, r)),
        (contest.clone(), option.clone(), any::<bool>()).prop_map(|(c, o, m)| Deed::Undo(c, o, m)),
        (contest, option, "[A-ZÑ '.-]{0,45}").prop_map(|(c, o, n)| Deed::Write(c, o, n)),
    ]
}

fn apply(deed: &Deed, style: &Style, selections: &mut Selections) {
    // What is refused must change nothing; the invariants are checked after every deed.
    let before = selections.clone();
    let done = match deed {
        Deed::Choose(c, o) => selections.choose(style, ContestIndex(*c), OptionIndex(*o)),
        Deed::Rank(c, o, r) => selections.rank(style, ContestIndex(*c), OptionIndex(*o), Rank(*r)),
        Deed::Undo(c, o, up) => {
            let lower = if *up { LowerRanks::MoveUp } else { LowerRanks::Stay };
            selections.undo(ContestIndex(*c), OptionIndex(*o), lower);
            Ok(())
        }
        Deed::Write(c, o, letters) => {
            let mut name = WriteInText::new();
            let fits = letters.chars().try_for_each(|letter| name.push(letter));
            fits.and_then(|()| selections.write_in(ContestIndex(*c), OptionIndex(*o), name))
        }
    };
    if done.is_err() {
        assert_eq!(*selections, before, "a refused {deed:?} changed something");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]
    #[test]
    fn no_sequence_breaks_a_rule(deeds in prop::collection::vec(deed(), 0..60)) {
        let style = style();
        let mut selections = Selections::none(&style);
        for deed in &deeds {
            apply(deed, &style, &mut selections);
            for (index, contest) in style.contests() {
                prop_assert!(selections.count(index) <= contest.limit());
            }
            let ranks: Vec<Rank> = (0..6)
                .filter_map(|o| selections.rank_of(&style, RANKED, OptionIndex(o)))
                .collect();
            let mut once = ranks.clone();
            once.sort_unstable();
            once.dedup();
            prop_assert_eq!(once.len(), ranks.len());
            prop_assert!(ranks.iter().all(|rank| (1..=4).contains(&rank.0)));
        }
        prop_assert!(perfect(&style, &selections).differences(&style, &selections).is_empty());
    }
}

#[test]
fn every_kind_of_difference_is_found() {
    let style = style();
    let mut selections = Selections::none(&style);
    selections.choose(&style, FIRST, OptionIndex(0)).expect("there is room");
    let mut name = WriteInText::new();
    "ANA".chars().try_for_each(|letter| name.push(letter)).expect("they are on the keyboard");
    selections.write_in(SECOND, OptionIndex(6), name).expect("it is a line");
    selections.choose(&style, SECOND, OptionIndex(6)).expect("there is room");
    let good = perfect(&style, &selections);
    let oval = OvalId { contest: FIRST, option: OptionIndex(0), rank: None };

    for verdict in [Verdict::Empty, Verdict::Doubtful] {
        let mut bad = good.clone();
        bad.contests[0].ovals[0].verdict = verdict;
        assert_eq!(bad.differences(&style, &selections), [Difference::Oval(oval)]);
    }
    let mut missing = good.clone();
    missing.contests[0].ovals.remove(0);
    assert_eq!(missing.differences(&style, &selections), [Difference::Oval(oval)]);

    let line = Difference::WriteIn(SECOND, OptionIndex(6));
    for (inked, text) in [(true, Some("ANE")), (true, None), (false, None)] {
        let mut bad = good.clone();
        let found = bad.write_ins.iter_mut().find(|l| l.option == OptionIndex(6)).expect("a line");
        (found.inked, found.text) = (inked, text.map(str::to_owned));
        assert_eq!(bad.differences(&style, &selections), [line]);
    }
    let mut stray = good;
    stray.write_ins.iter_mut().for_each(|l| l.inked = true);
    assert!(stray.differences(&style, &selections).len() >= 2, "ink on an unused line is found");
}
