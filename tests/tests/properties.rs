//! Whatever is pressed, the rules hold: no contest over its limit, no choice lost to a setting, help
//! and a way out on every screen, and print within reach of two switches. And whatever is marked,
//! paper says it back.
//!
//! The cases are the same every run: the source of chance is fixed, so a failure stays.
#![expect(
    clippy::expect_used,
    clippy::wildcard_enum_match_arm,
    reason = "a broken expectation stops the test and says why; a new kind of row is no mark"
)]

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use evenhand_rules::{Contest, ContestIndex, Millis, Rule, Selections, Style};
use evenhand_tests::chance::{self, Chance};
use evenhand_tests::journey::reading_of;
use evenhand_tests::paper::{RESOLUTION, printed, reader, scanned};
use evenhand_tests::pilot::{Pilot, Plan};
use evenhand_tests::stage::{Play, Rows, Stage};
use evenhand_visit::{
    Arg, Command, Input, Message, PressShape, PrintFault, ReadFault, RowKind, ScreenKind, Target,
    View,
};
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};
use proptest::{collection::vec, prelude::*};

/// Two switches must reach print (or the end of a printed ballot) in so many presses from anywhere.
/// Own choice: 20 contests with 20 items each, to and fro.
const PRESSES_MAX: u32 = 1_500;
/// How many random visits are played.
const CASES: u32 = 500;
/// Screens that the random visits must have been on.
const WANTED: [ScreenKind; 27] = [
    ScreenKind::Opening,
    ScreenKind::Languages,
    ScreenKind::Comfort,
    ScreenKind::Practice,
    ScreenKind::HowTo,
    ScreenKind::Contest,
    ScreenKind::Limit,
    ScreenKind::RankPick,
    ScreenKind::RankChange,
    ScreenKind::LowerRanks,
    ScreenKind::WriteIn,
    ScreenKind::BlankName,
    ScreenKind::WriteInChange,
    ScreenKind::FullText,
    ScreenKind::Review,
    ScreenKind::AskPrint,
    ScreenKind::Printing,
    ScreenKind::PrintFault,
    ScreenKind::ReadingPaper,
    ScreenKind::CheckPaper,
    ScreenKind::ReadBack,
    ScreenKind::Spoil,
    ScreenKind::Done,
    ScreenKind::Help,
    ScreenKind::Explain,
    ScreenKind::Worker,
    ScreenKind::ConfirmEnd,
];
/// How many random ballots are printed and read back.
const BALLOTS: u64 = 12;

fn runner(cases: u32) -> TestRunner {
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

/// One thing that happens, from two random numbers.
fn happening(view: &View, kind: u8, number: u16) -> Input {
    let shown = |target: &Target| match target {
        Target::Row(row) => view.shown_rows().any(|(index, _)| index == *row),
        _ => true,
    };
    let targets: Vec<Target> = view.targets().into_iter().filter(shown).collect();
    let any = || targets.get(usize::from(number) % targets.len().max(1)).copied();
    let last = match view.screen {
        // Keep it marked with no name.
        ScreenKind::BlankName => Some(Target::Row(1)),
        _ => targets.iter().rfind(|target| matches!(target, Target::Row(_))).copied(),
    };
    let press = Input::Press;
    match kind {
        // Most presses are of what is there, as most of a voter's are.
        0..=29 => any().map_or(press(Command::Next), |target| press(Command::Pick(target))),
        30..=35 => press(Command::Next),
        36..=44 => press(Command::Step),
        45..=58 => press(Command::Choose),
        // The last row is a write-in line, or the end of a name: seldom hit by chance.
        59..=64 => last.map_or(press(Command::Choose), |target| press(Command::Pick(target))),
        65..=67 => press(Command::Previous),
        68..=72 => press(Command::Forward),
        73 => press(Command::Back),
        74 => press(Command::Repeat),
        75 => press(Command::Louder),
        76 => press(Command::Softer),
        77 => press(Command::Faster),
        78 => press(Command::Slower),
        79 => press(Command::Help),
        80 => press(Command::Comfort),
        81 => press(Command::MoreAbove),
        82 => press(Command::MoreBelow),
        // What isn't there, or may not be.
        83 => press(Command::Pick(Target::Row(number))),
        84 => press(Command::Pick(Target::Key { row: number % 9, key: number % 7 })),
        85 => press(Command::Pick(Target::Forward)),
        86 => press(Command::Pick(Target::Back)),
        87 => Input::SpeechLost,
        88 => Input::SpeechBack,
        89 => Input::SpeechEnded,
        90 => Input::Tick,
        91 => match number % 9 {
            0 => press(Command::Pause),
            1 => press(Command::SentenceBack),
            2 => press(Command::SentenceOn),
            3 => press(Command::Spell),
            4 => press(Command::HideScreen),
            5 => press(Command::IsHidden),
            6 => press(Command::Pick(Target::Block(number % 4))),
            7 => Input::Pressed(PressShape { held: Millis(u64::from(number)), gap: None }),
            _ => Input::Resized,
        },
        92 => Input::Printed(Err(PrintFault::Jam)),
        93 => Input::Read(Err(ReadFault::Unreadable)),
        94..=96 => Input::Printed(Ok(())),
        _ => any().map_or(press(Command::Choose), |target| press(Command::Pick(target))),
    }
}

#[test]
fn any_presses_keep_the_rules() {
    let stage = Stage::demo();
    let style = stage.style(0);
    let lengths = vec((0u8..100, any::<u16>()), 1..240);
    // Which screens were reached, and how often: chance that never gets anywhere proves nothing.
    let reached: RefCell<BTreeMap<ScreenKind, u32>> = RefCell::default();
    let outcome = runner(CASES).run(&(lengths, 2u16..12, any::<u64>()), |(steps, rows, seed)| {
        let mut play = Play::begin(stage.begin(0, 1), Rows(rows));
        let mut last_print = None;
        // Most cases start somewhere on the way: chance alone seldom gets far.
        play.press(Command::Pick(Target::Row(0)));
        for _ in 0..seed % 26 {
            play.press(Command::Forward);
        }
        for (kind, number) in steps {
            let before = play.view.clone();
            let mut input = happening(&play.view, kind, number);
            if play.view.screen == ScreenKind::ReadingPaper {
                let printed: &Selections = last_print.as_ref().expect("it was printed before");
                input = Input::Read(Ok(reading_of(&style, printed)));
            }
            play.give(input);
            if let Some(printed) = play.asked_to_print() {
                check_printed(&style, &printed)?;
                last_print = Some(printed);
            }
            *reached.borrow_mut().entry(play.view.screen).or_default() += 1;
            check_view(&style, &play.view)?;
            check_one_change(&before, &play.view)?;
        }
        check_settings_keep_choices(&stage, &style, &play, last_print.as_ref(), seed)
    });
    outcome.unwrap_or_else(|fault| panic!("{fault}"));
    let reached: BTreeSet<ScreenKind> = reached.into_inner().into_keys().collect();
    let missing: Vec<&ScreenKind> = WANTED.iter().filter(|kind| !reached.contains(kind)).collect();
    assert!(missing.is_empty(), "chance never got to {missing:?}");
}

fn check_printed(style: &Style, printed: &Selections) -> Result<(), TestCaseError> {
    for (contest, definition) in style.contests() {
        prop_assert!(printed.count(contest) <= definition.limit(), "over a limit on paper");
        if let Rule::Rank { ranks } = definition.rule {
            for rank in (1..=ranks).map(evenhand_rules::Rank) {
                let holders = printed
                    .marked(contest)
                    .filter(|option| printed.rank_of(style, contest, *option) == Some(rank));
                prop_assert!(holders.count() <= 1, "one rank for two");
            }
        }
    }
    Ok(())
}

fn contest_of<'a>(style: &'a Style, view: &View) -> Option<&'a Contest> {
    let place = view.place.as_ref().filter(|place| place.message == Message::ContestPlace)?;
    place.args.iter().find_map(|(name, arg)| match arg {
        Arg::Number(number) if *name == "contest" => {
            style.contest(ContestIndex(u16::try_from(*number).ok()?.checked_sub(1)?))
        }
        _ => None,
    })
}

fn check_view(style: &Style, view: &View) -> Result<(), TestCaseError> {
    let targets = view.targets();
    let screen = view.screen;
    match view.focus {
        Some(Target::Key { row, key }) => {
            prop_assert!(targets.contains(&Target::Row(row)), "{screen:?}: focus in no row");
            let RowKind::Keys(keys) = &view.rows[usize::from(row)].kind else {
                return Err(TestCaseError::fail("focus on a key of a row without keys"));
            };
            prop_assert!(usize::from(key) < keys.len(), "{screen:?}: focus on no key");
        }
        Some(Target::BackOne(block) | Target::BlockStart(block)) => {
            prop_assert!(usize::from(block) < view.blocks.len(), "{screen:?}: focus past no block");
        }
        Some(target) => {
            let is_there = targets.contains(&target) || view.outer().contains(&target);
            prop_assert!(is_there, "{screen:?}: focus on nothing: {target:?}");
            if let Target::Row(row) = target {
                let is_shown = view.shown_rows().any(|(shown, _)| shown == row);
                prop_assert!(is_shown, "{screen:?}: focus on a row that isn't shown");
            }
        }
        None => prop_assert!(targets.is_empty(), "{screen:?}: no focus"),
    }
    let (page, rows) = (view.page, view.rows.len());
    prop_assert_eq!(usize::from(page.above + page.shown + page.below), rows, "{:?}", screen);
    prop_assert!(page.shown > 0 || rows == 0, "{screen:?}: nothing shown");
    prop_assert_eq!(page.above > 0, view.more_above.is_some());
    prop_assert_eq!(page.below > 0, view.more_below.is_some());
    if let Some(contest) = contest_of(style, view) {
        let mut ranks: Vec<u8> = Vec::new();
        let mut filled = 0;
        for row in &view.rows {
            match row.kind {
                RowKind::Oval { filled: true } => filled += 1,
                RowKind::Ranked { rank: Some(rank), .. } => ranks.push(rank.0),
                _ => {}
            }
        }
        prop_assert!(
            filled + ranks.len() <= usize::from(contest.limit()),
            "over a limit on screen"
        );
        let all = ranks.len();
        ranks.sort_unstable();
        ranks.dedup();
        prop_assert_eq!(ranks.len(), all, "one rank for two on screen");
    }
    check_way_out(view, &targets)
}

/// Until print every screen has help (or is help), and back (or the one way on from a layer).
fn check_way_out(view: &View, targets: &[Target]) -> Result<(), TestCaseError> {
    let screen = view.screen;
    let has = |target| targets.contains(&target);
    let out = has(Target::Back);
    // On a small screen the first row may be on another page.
    let any_row = targets.iter().any(|target| matches!(target, Target::Row(_)));
    match screen {
        ScreenKind::Opening => prop_assert!(has(Target::Help)),
        // Opened over another screen, or from the review, "done" goes back there.
        ScreenKind::Languages | ScreenKind::Comfort | ScreenKind::Contest => {
            prop_assert!(has(Target::Help) && has(Target::Forward), "{screen:?}: no way on");
        }
        ScreenKind::Practice
        | ScreenKind::HowTo
        | ScreenKind::Limit
        | ScreenKind::RankPick
        | ScreenKind::RankChange
        | ScreenKind::LowerRanks
        | ScreenKind::WriteIn
        | ScreenKind::BlankName
        | ScreenKind::WriteInChange
        | ScreenKind::FullText
        | ScreenKind::Review
        | ScreenKind::AskPrint
        | ScreenKind::PrintFault
        | ScreenKind::ReadBack => prop_assert!(has(Target::Help) && out, "{screen:?}: no way back"),
        ScreenKind::Listen => prop_assert!(has(Target::Forward), "{screen:?}: no way on"),
        ScreenKind::Presses => {
            prop_assert!(has(Target::Help) && has(Target::Forward), "{screen:?}: no way on");
        }
        ScreenKind::AskHide | ScreenKind::PressOffer => {
            prop_assert!(has(Target::Help) && out, "{screen:?}: no way back");
        }
        // Any press leaves it.
        ScreenKind::MoreTime => {}
        ScreenKind::Help | ScreenKind::Explain => prop_assert!(out, "{screen:?}: no way back"),
        ScreenKind::CheckPaper
        | ScreenKind::ReadFault
        | ScreenKind::Differs
        | ScreenKind::Spoil
        | ScreenKind::Done => prop_assert!(has(Target::Help) && any_row),
        ScreenKind::Worker | ScreenKind::ConfirmEnd => prop_assert!(any_row),
        ScreenKind::Printing | ScreenKind::ReadingPaper | ScreenKind::Ended => {}
    }
    Ok(())
}

/// Nothing is swapped: on one contest's screen a press changes one option's mark at most.
fn check_one_change(before: &View, after: &View) -> Result<(), TestCaseError> {
    let both = before.screen == ScreenKind::Contest && after.screen == ScreenKind::Contest;
    if both && before.place == after.place {
        let rows = before.rows.iter().zip(&after.rows);
        let changed = rows.filter(|(before, after)| before.kind != after.kind).count();
        prop_assert!(changed <= 1, "one press changed {changed} marks");
    }
    Ok(())
}

/// Drives a copy with two switches to print, or to the end where it was printed before.
fn by_two_switches(
    stage: &Stage,
    style: &Style,
    play: &Play,
    last_print: Option<&Selections>,
) -> Result<Option<Selections>, TestCaseError> {
    let mut play = play.clone();
    let mut pilot = Pilot::new(Plan::default()).with_presses_max(PRESSES_MAX);
    let mut last_print = last_print.cloned();
    debug_assert!(!stage.languages().is_empty());
    for _ in 0..8 {
        while let Some(command) = pilot.next(&play.view) {
            play.press_or_wait(command);
            if let Some(printed) = play.asked_to_print() {
                return Ok(Some(printed));
            }
        }
        if let Some(fault) = pilot.fault() {
            return Err(TestCaseError::fail(format!("print is out of reach: {fault}")));
        }
        match play.view.screen {
            ScreenKind::Printing => return Ok(last_print),
            ScreenKind::ReadingPaper => {
                let printed = last_print.take().expect("it was printed before");
                play.give(Input::Read(Ok(reading_of(style, &printed))));
            }
            ScreenKind::Ended => return Ok(None),
            other => return Err(TestCaseError::fail(format!("nothing to press on {other:?}"))),
        }
    }
    Err(TestCaseError::fail("neither print nor an end"))
}

/// The choices that would be printed are the same after any change of comfort.
fn check_settings_keep_choices(
    stage: &Stage,
    style: &Style,
    play: &Play,
    last_print: Option<&Selections>,
    seed: u64,
) -> Result<(), TestCaseError> {
    let before = by_two_switches(stage, style, play, last_print)?;
    let mut changed = play.clone();
    let mut chance = Chance::new(seed);
    changed.press(Command::Comfort);
    for _ in 0..24 {
        let on_settings =
            matches!(changed.view.screen, ScreenKind::Comfort | ScreenKind::Languages);
        if on_settings {
            let rows = changed.view.rows.len().max(1);
            let row = u16::try_from(chance.below(rows)).expect("few rows");
            changed.press(Command::Pick(Target::Row(row)));
        }
        let keys = [Command::Louder, Command::Softer, Command::Faster, Command::Slower];
        changed.press(keys[chance.below(keys.len())]);
        changed.give(Input::Resized);
    }
    let after = by_two_switches(stage, style, &changed, last_print)?;
    prop_assert!(before == after, "a setting changed a choice");
    Ok(())
}

#[test]
fn paper_says_back_what_was_marked() {
    let stage = Stage::demo();
    let mut names = 0;
    for index in 0..stage.election.styles.len() {
        let style = &stage.election.styles[index];
        let ballot = stage.ballot(index);
        let reader = reader(&ballot, style);
        for seed in (0..BALLOTS).filter(|seed| seed % 4 == u64::try_from(index % 4).unwrap()) {
            let marked = chance::selections(style, &mut Chance::new(seed + 1));
            let pictures = scanned(&printed(&ballot, style, Some(&marked)), RESOLUTION);
            let seen = reader.read(&pictures).unwrap_or_else(|why| panic!("seed {seed}: {why}"));
            let differences = seen.reading.differences(style, &marked);
            assert!(differences.is_empty(), "seed {seed}, style {index}: {}", differences.len());
            // `differences` is the station's own judge, so the names are compared here again.
            for line in &seen.reading.write_ins {
                let written = marked.written(line.contest, line.option).expect("it is a line");
                let wanted = Some(written.as_str()).filter(|name| !name.is_empty());
                assert_eq!(line.text.as_deref(), wanted, "seed {seed}, style {index}");
                names += usize::from(wanted.is_some());
            }
        }
    }
    assert!(names > 10, "only {names} names were printed");
}
