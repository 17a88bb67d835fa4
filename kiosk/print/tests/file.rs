//! The file itself: equal bytes for equal content, equal length for every marking, nothing that
//! tells when, where or how often.
#![expect(clippy::unwrap_used, reason = "a failed test panics")]
#![expect(clippy::print_stdout, reason = "a process tells the other what it printed")]

#[path = "../../sheet/tests/support/county.rs"]
#[expect(dead_code, unreachable_pub, reason = "each test uses a part of what they share")]
mod county;
#[path = "support/voter.rs"]
#[expect(unreachable_pub, reason = "shared by path with other tests")]
mod voter;

use std::ops::Range;

use evenhand_print::{Marks, PrintError, WrittenName, pdf, test_sheet};
use evenhand_rules::{ContestIndex, Election, OptionIndex, OvalId, WriteInText};
use evenhand_sheet::{Ballot, BallotState, Edition, compose};

fn ballot(election: &Election) -> Ballot {
    let languages = county::both();
    let edition = Edition { languages: &languages, wording: &county::PlainWording };
    compose(election, &election.styles[0], 0, &edition, BallotState::Test).unwrap()
}

fn marked(election: &Election, ballot: &Ballot, seed: u64) -> Vec<u8> {
    let style = &election.styles[0];
    pdf(ballot, Some(&Marks::of(&voter::selections(style, seed), style))).unwrap()
}

/// Where the bytes of uncompressed streams lie: the ink.
fn inks(bytes: &[u8]) -> Vec<Range<usize>> {
    let find = |what: &[u8], from: usize| {
        bytes[from..].windows(what.len()).position(|part| part == what).map(|at| from + at)
    };
    let mut ranges = Vec::new();
    let mut from = 0;
    while let Some(start) = find(b"stream\nq 0 g\n", from) {
        let end = find(b"endstream", start).unwrap();
        ranges.push(start..end);
        from = end;
    }
    ranges
}

#[test]
fn the_hundredth_print_equals_the_first() {
    let election = county::mixed();
    let sheet = ballot(&election);
    let first = marked(&election, &sheet, 7);
    let other_election = county::election(vec![]);
    let other_sheet = ballot(&other_election);
    for again in 0..98 {
        // Others in between, as on a day of voting.
        marked(&other_election, &other_sheet, again);
    }
    assert!(marked(&election, &sheet, 7) == first);
}

#[test]
fn two_processes_write_the_same_bytes() {
    const ASK: &str = "EVENHAND_PRINT_TEST_CHILD";
    let bytes = marked(&county::mixed(), &ballot(&county::mixed()), 11);
    let sum = bytes.iter().fold(0xcbf2_9ce4_8422_2325u64, |sum, byte| {
        (sum ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    let line = format!("bytes: {} sum: {sum:016x}", bytes.len());
    if child::asked(ASK) {
        println!("{line}");
        return;
    }
    let said = child::run(ASK, "two_processes_write_the_same_bytes");
    assert!(said.contains(&line), "here {line}, there {said}");
}

mod child {
    //! Runs one test of this file in a process of its own.
    #![expect(clippy::disallowed_methods, reason = "the test needs a second process")]

    pub(super) fn asked(by: &str) -> bool {
        std::env::var(by).is_ok()
    }
    pub(super) fn run(ask: &str, test: &str) -> String {
        let program = std::env::current_exe().unwrap();
        let mut command = std::process::Command::new(program);
        let output = command.env(ask, "1").args(["--exact", test, "--nocapture"]).output().unwrap();
        String::from_utf8(output.stdout).unwrap()
    }
}

#[test]
fn every_marking_has_the_blank_ones_length_and_differs_only_in_the_ink() {
    let election = county::mixed();
    let sheet = ballot(&election);
    let blank = pdf(&sheet, None).unwrap();
    let inks = inks(&blank);
    assert_eq!(inks.len(), sheet.pages.len(), "one stream of ink a page");
    let mut different = 0;
    for seed in 0..40 {
        let marked = marked(&election, &sheet, seed);
        assert_eq!(marked.len(), blank.len(), "seed {seed}");
        for (at, (a, b)) in marked.iter().zip(&blank).enumerate() {
            assert!(a == b || inks.iter().any(|ink| ink.contains(&at)), "byte {at}, seed {seed}");
        }
        different += usize::from(marked != blank);
    }
    assert!(different > 30, "markings do show");
}

#[test]
fn nothing_marked_is_the_blank_ballot() {
    let election = county::mixed();
    let sheet = ballot(&election);
    assert_eq!(pdf(&sheet, Some(&Marks::default())), pdf(&sheet, None));
}

#[test]
fn no_date_no_id_no_maker() {
    let bytes = pdf(&ballot(&county::mixed()), None).unwrap();
    for word in ["/ID", "/Info", "Date", "Producer", "Creator", "/Metadata", "printpdf", "/Title"] {
        let found = bytes.windows(word.len()).any(|part| part == word.as_bytes());
        assert!(!found, "the file says {word}");
    }
}

#[test]
fn page_boxes_are_exact_points() {
    let bytes = pdf(&ballot(&county::mixed()), None).unwrap();
    let text = String::from_utf8_lossy(&bytes);
    let boxes: Vec<&str> = text.split("/MediaBox").skip(1).collect();
    assert!(!boxes.is_empty());
    for media_box in boxes {
        let inner = media_box.split(['[', ']']).nth(1).unwrap();
        let numbers: Vec<f64> =
            inner.split_whitespace().map(|number| number.parse().unwrap()).collect();
        assert_eq!(numbers, [0.0, 0.0, 612.0, 1008.0]);
    }
}

#[test]
fn marks_without_a_place_are_refused() {
    let sheet = ballot(&county::mixed());
    let oval = |contest, option| OvalId {
        contest: ContestIndex(contest),
        option: OptionIndex(option),
        rank: None,
    };
    let refused = |marks: Marks| pdf(&sheet, Some(&marks)).unwrap_err();
    let no_such = Marks { ovals: vec![oval(99, 0)], names: vec![] };
    assert_eq!(refused(no_such), PrintError::NoSuchOval);
    let twice = Marks { ovals: vec![oval(0, 0), oval(0, 0)], names: vec![] };
    assert_eq!(refused(twice), PrintError::NoSuchOval);
    let name = |contest, option| WrittenName {
        contest: ContestIndex(contest),
        option: OptionIndex(option),
        name: WriteInText::new(),
    };
    let not_a_line = Marks { ovals: vec![], names: vec![name(0, 0)] };
    assert_eq!(refused(not_a_line), PrintError::NoSuchLine);
    let twice = Marks { ovals: vec![], names: vec![name(1, 3), name(1, 3)] };
    assert_eq!(refused(twice), PrintError::NoSuchLine);
}

#[test]
fn debug_prints_no_name() {
    let mut text = WriteInText::new();
    "ZEBEDIAH".chars().for_each(|letter| text.push(letter).unwrap());
    let name = WrittenName { contest: ContestIndex(1), option: OptionIndex(3), name: text };
    let marks = Marks { ovals: vec![], names: vec![name.clone()] };
    assert_eq!(format!("{name:?} {marks:?}"), "WrittenName(..) Marks(..)");
}

#[test]
fn a_test_sheet_fills_what_no_voter_may_and_is_never_official() {
    let election = county::mixed();
    let style = &election.styles[0];
    let sheet = ballot(&election);
    let all = style.ovals();
    let full = test_sheet(&sheet, &all).unwrap();
    let blank = pdf(&sheet, None).unwrap();
    assert_eq!(test_sheet(&sheet, &[]).unwrap(), blank, "no oval is the blank sheet");
    let fills = |bytes: &[u8]| {
        let ink = inks(bytes).into_iter().flat_map(|range| bytes[range].to_vec());
        String::from_utf8(ink.collect()).unwrap().lines().filter(|l| l.ends_with("c f")).count()
    };
    assert_eq!((fills(&full), fills(&blank)), (all.len(), 0));
    let languages = county::both();
    let edition = Edition { languages: &languages, wording: &county::PlainWording };
    let official = compose(&election, style, 0, &edition, BallotState::Official).unwrap();
    assert_eq!(test_sheet(&official, &all).unwrap_err(), PrintError::NoStamp);
}
