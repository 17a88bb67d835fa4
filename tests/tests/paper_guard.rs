//! The paper guard: of 200 faults planted on printed sheets every one is caught, by refusing the sheet or
//! by a difference from what was chosen, and 200 good sheets pass.
//!
//! Sheets are drawn by poppler at 200 dpi and read by a reader that knows the blank as the demo's
//! scanner draws it. A quarter lie upside down.
#![allow(clippy::expect_used, clippy::panic, reason = "a test stops where its ground is missing")]

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use evenhand_marks::{Reader, Refused};
use evenhand_print::{Marks, pdf};
use evenhand_rules::{OptionKind, Selections, Style, WRITE_IN_CHARACTERS};
use evenhand_sheet::Ballot;
use evenhand_tests::chance::{self, Chance};
use evenhand_tests::paper::{RESOLUTION, rasterised, reader};
use evenhand_tests::stage::Stage;

/// Good sheets, and as many with a fault.
const SHEETS: u64 = 200;
/// Ways in which a sheet may be wrong.
const FAULTS: [Fault; 6] = [
    Fault::Moved,
    Fault::Missing,
    Fault::Extra,
    Fault::NamesSwapped,
    Fault::LetterChanged,
    Fault::OtherStyle,
];

#[derive(Clone, Copy, Debug)]
enum Fault {
    /// A filled oval is another option's.
    Moved,
    /// An oval that should be filled isn't.
    Missing,
    /// One more oval is filled.
    Extra,
    /// Two people's names stand in each other's place.
    NamesSwapped,
    /// One letter of a written name is another.
    LetterChanged,
    /// A sheet of another style, marked in the same places as far as it has them.
    OtherStyle,
}

/// A style with all that is needed to print and read it.
struct Known {
    index: usize,
    style: Arc<Style>,
    ballot: Ballot,
    reader: Reader,
}

fn demo() -> (Stage, Vec<Known>) {
    let stage = Stage::demo();
    let known = (0..stage.election.styles.len())
        .map(|index| {
            let (style, ballot) = (stage.style(index), stage.ballot(index));
            let reader = reader(&ballot, &style);
            Known { index, style, ballot, reader }
        })
        .collect();
    (stage, known)
}

/// What the guard says of a document: refused, or how many differences.
fn guard(
    known: &Known,
    selections: &Selections,
    document: &[u8],
    turned: bool,
) -> Result<usize, Refused> {
    let mut pictures = rasterised(document, RESOLUTION);
    if turned {
        pictures.reverse();
        for picture in &mut pictures {
            image::imageops::rotate180_in_place(picture);
        }
    }
    let seen = known.reader.read(&pictures)?;
    assert_eq!(seen.reading.doubts().count(), 0, "what a printer fills is never in doubt");
    Ok(seen.reading.differences(&known.style, selections).len())
}

/// Selections with something of each kind, so that every fault finds its place.
fn full_selections(style: &Style, seed: u64) -> Selections {
    let mut chance = Chance::new(seed);
    loop {
        let selections = chance::selections(style, &mut chance);
        let marks = Marks::of(&selections, style);
        let room = style.ovals().len() > marks.ovals.len();
        if room && !marks.ovals.is_empty() && !marks.names.is_empty() {
            return selections;
        }
    }
}

/// Runs `job` for every seed on two threads: poppler is a process of its own.
fn for_all_seeds(job: &(dyn Fn(u64) + Sync)) {
    let next = AtomicU64::new(0);
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed >= SHEETS {
                        break;
                    }
                    job(seed);
                }
            });
        }
    });
}

#[test]
fn good_sheets_pass() {
    let (_, known) = demo();
    let passed = AtomicU64::new(0);
    for_all_seeds(&|seed| {
        let known = &known[usize::try_from(seed).expect("small") % known.len()];
        let selections = full_selections(&known.style, seed + 1);
        let marks = Marks::of(&selections, &known.style);
        let document = pdf(&known.ballot, Some(&marks)).expect("it prints");
        let said = guard(known, &selections, &document, seed % 4 == 3);
        assert_eq!(said, Ok(0), "seed {seed}");
        passed.fetch_add(1, Ordering::Relaxed);
    });
    assert_eq!(passed.into_inner(), SHEETS);
}

#[test]
fn planted_faults_are_caught() {
    let (stage, known) = demo();
    let caught = AtomicU64::new(0);
    for_all_seeds(&|seed| {
        let at = usize::try_from(seed).expect("small");
        let fault = FAULTS[at % FAULTS.len()];
        let style = &known[(at / FAULTS.len()) % known.len()];
        let selections = full_selections(&style.style, seed + 1000);
        let document = faulty(&stage, &known, style, &selections, fault, seed);
        let said = guard(style, &selections, &document, seed % 4 == 3);
        let is_caught = match (fault, &said) {
            (Fault::OtherStyle, said) => {
                matches!(said, Err(Refused::OtherStyle | Refused::OtherLength))
            }
            (Fault::NamesSwapped, said) => matches!(said, Err(Refused::PrintDiffers { .. })),
            (Fault::Moved, Ok(found)) => *found == 2,
            (Fault::Missing | Fault::Extra | Fault::LetterChanged, Ok(found)) => *found == 1,
            (_, Err(_)) => false,
        };
        assert!(is_caught, "seed {seed}, {fault:?}: {said:?}");
        caught.fetch_add(1, Ordering::Relaxed);
    });
    assert_eq!(caught.into_inner(), SHEETS);
}

/// The document that a printer with this fault would have made.
fn faulty(
    stage: &Stage,
    all: &[Known],
    known: &Known,
    selections: &Selections,
    fault: Fault,
    seed: u64,
) -> Vec<u8> {
    let mut chance = Chance::new(seed + 9000);
    let mut marks = Marks::of(selections, &known.style);
    let empty: Vec<_> =
        known.style.ovals().into_iter().filter(|id| !marks.ovals.contains(id)).collect();
    let somewhere = empty[chance.below(empty.len())];
    let mut ballot = known.ballot.clone();
    match fault {
        Fault::Moved => {
            let at = chance.below(marks.ovals.len());
            marks.ovals[at] = somewhere;
        }
        Fault::Missing => {
            let at = chance.below(marks.ovals.len());
            marks.ovals.remove(at);
        }
        Fault::Extra => marks.ovals.push(somewhere),
        Fault::NamesSwapped => ballot = with_names_swapped(stage, known, &mut chance),
        Fault::LetterChanged => {
            let at = chance.below(marks.names.len());
            let other = letter_changed(marks.names[at].name.as_str(), &mut chance);
            marks.names[at].name = chance::written(&other);
        }
        Fault::OtherStyle => {
            let others: Vec<_> = all.iter().filter(|other| other.index != known.index).collect();
            // A whole ballot of another style, with marks of its own.
            let other = others[chance.below(others.len())];
            marks = Marks::of(&full_selections(&other.style, seed), &other.style);
            ballot = other.ballot.clone();
        }
    }
    pdf(&ballot, Some(&marks)).expect("it prints")
}

/// The style's ballot with two people of one contest in each other's place.
fn with_names_swapped(stage: &Stage, known: &Known, chance: &mut Chance) -> Ballot {
    let mut election = (*stage.election).clone();
    let style = &mut election.styles[known.index];
    let mut pairs = Vec::new();
    for (contest, definition) in style.contests() {
        let listed: Vec<_> = definition
            .indexed_options()
            .filter(|(_, option)| option.kind == OptionKind::Listed)
            .collect();
        for (at, (one, first)) in listed.iter().enumerate() {
            let later = listed.iter().skip(at + 1);
            pairs.extend(
                later
                    .filter(|(_, second)| first.names != second.names)
                    .map(|(other, _)| (contest, *one, *other)),
            );
        }
    }
    let (contest, one, other) = pairs[chance.below(pairs.len())];
    let mut count = 0;
    for item in &mut style.items {
        if let evenhand_rules::Item::Contest(definition) = item {
            if count == contest.0 {
                let (one, other) = (usize::from(one.0), usize::from(other.0));
                let first = definition.options[one].names.clone();
                let second = std::mem::replace(&mut definition.options[other].names, first);
                definition.options[one].names = second;
            }
            count += 1;
        }
    }
    let mut altered = Stage::demo();
    altered.election = Arc::new(election);
    altered.ballot(known.index)
}

/// The name with one letter that is another. No space comes to an end, where none can be seen.
fn letter_changed(name: &str, chance: &mut Chance) -> String {
    let letters: Vec<char> = WRITE_IN_CHARACTERS.chars().filter(|letter| *letter != ' ').collect();
    let mut changed: Vec<char> = name.chars().collect();
    let at = chance.below(changed.len());
    loop {
        let letter = letters[chance.below(letters.len())];
        if letter != changed[at] {
            changed[at] = letter;
            return changed.into_iter().collect();
        }
    }
}
