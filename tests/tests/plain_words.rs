//! How hard the station's own English is to read, screen by screen: the Flesch–Kincaid grade, measured
//! by GNU style (Debian package `diction`). Grade 6 or lower is our own aim, after the guidance on
//! plain language in the requirements table, section 4.
//!
//! Left out: what the county wrote (titles, names, measures) and the letters of the keyboard. Where a
//! sentence has such a text in it, a short name stands for it. A label without a full stop counts as a
//! sentence.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a test that runs another program, and tells its figures"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write as _;
use std::process::{Command, Stdio};

use evenhand_rules::{Millis, Verdict};
use evenhand_tests::figures;
use evenhand_tests::journey::reading_of;
use evenhand_tests::scanning::{Map, at, kinds, marks};
use evenhand_tests::stage::{Play, Rows, Stage};
use evenhand_visit::{
    Arg, Command as Press, Input, LanguageIndex, Message, Phrase, PressShape, PrintFault,
    ReadFault, Row, RowKind, ScreenKind, Target, View,
};
use evenhand_words::Words;

const GRADE_MAX: f64 = 6.0;

/// GNU style's Flesch–Kincaid grade; `None` where the program isn't there.
fn grade(text: &str) -> Option<f64> {
    let mut style =
        Command::new("style").stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().ok()?;
    style.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    let out = String::from_utf8(style.wait_with_output().unwrap().stdout).unwrap();
    let line = out.lines().find_map(|line| line.trim().strip_prefix("Kincaid:"));
    Some(line.unwrap_or_else(|| panic!("style says no grade of: {text}")).trim().parse().unwrap())
}

/// A phrase with a short name for each text that isn't ours.
fn ours(phrase: &Phrase) -> Option<Phrase> {
    if phrase.message == Message::Plain || phrase.language.is_some_and(|l| l != LanguageIndex(0)) {
        return None;
    }
    let mut phrase = phrase.clone();
    for (_, arg) in &mut phrase.args {
        *arg = ours_in(arg);
    }
    Some(phrase)
}

fn ours_in(arg: &Arg) -> Arg {
    match arg {
        Arg::Phrase(phrase) => ours(phrase).map_or_else(|| Arg::Read("Ann".into()), Arg::Phrase),
        Arg::List(items) => Arg::List(items.iter().map(ours_in).collect()),
        Arg::Number(number) => Arg::Number(*number),
        Arg::Text(_)
        | Arg::Written(_)
        | Arg::Read(_)
        | Arg::Character(_)
        | Arg::Spelled(_)
        | Arg::SpelledText(_) => Arg::Read("Ann".into()),
    }
}

/// All that a voter reads on a screen, a sentence each.
fn text_of(view: &View, words: &Words) -> String {
    let head = view.notice.as_ref().map(|notice| &notice.phrase).into_iter();
    let head = head.chain(&view.place).chain(std::iter::once(&view.heading)).chain(&view.lines);
    let rows = view.rows.iter().filter(|row| !matches!(row.kind, RowKind::Keys(_)));
    let rows =
        rows.flat_map(|row| std::iter::once(&row.label).chain(&row.state).chain(&row.detail));
    // Without the bar: its words are the same everywhere, and so short that they would hide the rest.
    let mut text = String::new();
    for phrase in head.chain(rows).filter_map(ours) {
        let sentence = words.seen(&phrase, LanguageIndex(0));
        let sentence = sentence.trim();
        text.push_str(sentence);
        if !sentence.ends_with(['.', '?', '!']) {
            text.push('.');
        }
        text.push('\n');
    }
    text
}

/// Every view that two switches lead to, with the devices' answers.
fn views(stage: &Stage) -> Vec<View> {
    let mut views = Vec::new();
    let mut starts = Vec::new();
    for (index, (_, contest)) in kinds(stage).iter().enumerate() {
        let start = Play::begin(stage.begin_with(contest), Rows(8));
        if index == 0 {
            starts.extend(after_print(stage, &at(start.clone(), ScreenKind::Printing)));
        }
        starts.push(start);
    }
    starts.extend(before_the_first_contest(stage));
    for start in starts {
        let map = Map::explore(start, usize::MAX, short_key, |play| {
            play.view.screen != ScreenKind::Ended && marks(&play.view).len() < 3
        });
        views.extend(map.nodes.into_iter().map(|node| node.play.view));
    }
    views
}

/// The screens that a touch and unsteady presses lead to.
fn before_the_first_contest(stage: &Stage) -> [Play; 2] {
    let mut hiding = at(Play::begin(stage.begin(0, 1), Rows(20)), ScreenKind::Comfort);
    let hide = |row: &Row| row.label.message == Message::ComfortHide;
    let row = hiding.view.rows.iter().position(hide).expect("there is a way to hide");
    hiding.press(Press::Pick(Target::Row(u16::try_from(row).unwrap())));
    let mut shaken = at(Play::begin(stage.begin(0, 1), Rows(20)), ScreenKind::Practice);
    for held in [600, 40, 500, 50, 700] {
        let gap = Some(Millis(100));
        shaken.give(Input::Pressed(PressShape { held: Millis(held), gap }));
    }
    shaken.press(Press::Forward);
    [hiding, shaken]
}

/// What comes of a print: each fault, a paper that agrees and one that differs, and waiting too long.
fn after_print(stage: &Stage, printing: &Play) -> Vec<Play> {
    let mut plays = Vec::new();
    let mut answered = |play: &Play, input: Input| {
        let mut play = play.clone();
        play.give(input);
        plays.push(play.clone());
        play
    };
    for fault in [PrintFault::OutOfPaper, PrintFault::Jam, PrintFault::Offline, PrintFault::NotMade]
    {
        answered(printing, Input::Printed(Err(fault)));
    }
    let printed = answered(printing, Input::Printed(Ok(())));
    for fault in
        [ReadFault::NoSheet, ReadFault::Unreadable, ReadFault::OtherBallot, ReadFault::PrintDiffers]
    {
        answered(&printed, Input::Read(Err(fault)));
    }
    let selections = printing.asked_to_print().expect("it asks to print");
    let style = stage.begin_with(&kinds(stage)[0].1).style;
    let reading = reading_of(&style, &selections);
    let mut altered = reading.clone();
    altered.contests[0].ovals[0].verdict = Verdict::Marked;
    answered(&printed, Input::Read(Ok(altered)));
    let mut waiting = answered(&printed, Input::Read(Ok(reading)));
    waiting.give(Input::SpeechEnded);
    waiting.now = waiting.now.after(Millis(300_000));
    answered(&waiting, Input::Tick);
    plays
}

/// Two states with the same kind of screen, layers and messages read alike.
fn short_key(play: &Play) -> String {
    let view = &play.view;
    let messages: Vec<Message> = std::iter::once(view.heading.message)
        .chain(view.lines.iter().map(|line| line.message))
        .chain(view.rows.iter().map(|row| row.label.message))
        .collect();
    format!("{:?} {messages:?} {:?} {:?}", view.screen, view.focus, view.comfort.speech)
}

#[test]
fn every_screen_reads_at_grade_six_or_lower() {
    if grade("One. Two.").is_none() {
        assert!(std::env::var("CI").is_err(), "GNU style is missing: install the package diction");
        println!("skipped: every_screen_reads_at_grade_six_or_lower (no GNU style)");
        return;
    }
    let stage = Stage::demo();
    let words = stage.words(0);
    let mut worst: BTreeMap<ScreenKind, (f64, String)> = BTreeMap::new();
    let mut texts = BTreeSet::new();
    for view in views(&stage) {
        let text = text_of(&view, &words);
        if !texts.insert(text.clone()) {
            continue;
        }
        let grade = grade(&text).unwrap();
        let entry = worst.entry(view.screen).or_insert((f64::MIN, String::new()));
        if grade > entry.0 {
            *entry = (grade, text);
        }
    }
    let mut grades: Vec<(f64, ScreenKind)> =
        worst.iter().map(|(screen, (grade, _))| (*grade, *screen)).collect();
    grades.sort_by(|one, other| other.0.total_cmp(&one.0));
    let listed: Vec<String> =
        grades.iter().take(5).map(|(grade, screen)| format!("{screen:?} {grade:.1}")).collect();
    println!("kinds: {:?}", worst.keys());
    println!(
        "{} texts on {} kinds of screens; hardest: {}",
        texts.len(),
        worst.len(),
        listed.join(", ")
    );
    for (grade, screen) in &grades {
        assert!(*grade <= GRADE_MAX, "{screen:?} reads at grade {grade}:\n{}", worst[screen].1);
    }
    assert!(worst.len() >= 33, "only {} kinds of screens were read", worst.len());
    figures::note(
        "reading grade (Flesch-Kincaid), the five hardest screens",
        &format!("{} of {} kinds, {} texts", listed.join(", "), worst.len(), texts.len()),
    );
}

#[test]
fn hard_words_would_be_found() {
    let hard = "Notwithstanding the aforementioned provisions, individuals experiencing \
                accessibility requirements should immediately notify administrative personnel.";
    if let Some(grade) = grade(hard) {
        assert!(grade > GRADE_MAX, "{grade}");
    }
}
