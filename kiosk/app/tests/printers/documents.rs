//! Documents to print: real ballots of the demo election.

use std::path::Path;

use evenhand_app::prepared::Prepared;
use evenhand_print::{Marks, paper_of, pdf};
use evenhand_rules::{ContestIndex, Micrometres, OptionIndex, Selections};

pub(crate) fn prepared(style: Option<&str>) -> Prepared {
    let folder = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../ballot-definitions/quillbrook-county-general-2027"
    );
    Prepared::load(Path::new(folder), style, None).unwrap()
}

/// One choice in the first contest, which is a straight-party one, and in the third.
pub(crate) fn selections(prepared: &Prepared) -> Selections {
    let mut selections = Selections::none(&prepared.style);
    for (contest, option) in [(0, 1), (2, 0)] {
        selections.choose(&prepared.style, ContestIndex(contest), OptionIndex(option)).unwrap();
    }
    selections
}

/// A marked ballot's bytes.
pub(crate) fn ballot(prepared: &Prepared) -> Vec<u8> {
    let marks = Marks::of(&selections(prepared), &prepared.style);
    pdf(&prepared.ballot, Some(&marks)).unwrap()
}

#[test]
fn the_paper_of_a_ballot_is_what_its_sheet_says() {
    let prepared = prepared(None);
    let found = paper_of(&ballot(&prepared)).unwrap();
    let sides = u16::try_from(prepared.ballot.pages.len()).unwrap();
    assert_eq!(found.sides, sides);
    // To a thousandth of an inch.
    let near = |a: Micrometres, b: Micrometres| (a.0 - b.0).abs() <= 26;
    assert!(near(found.width, prepared.ballot.width) && near(found.length, prepared.ballot.length));
    for rubbish in [&b""[..], b"%PDF-1.7\n%%EOF", b"hello", &ballot(&prepared)[..5_000]] {
        assert_eq!(paper_of(rubbish), None);
    }
}
