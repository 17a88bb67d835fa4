//! Printed sheets are read as they were marked, however a scanner took them.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    dead_code,
    unreachable_pub,
    reason = "a test stops where its ground is missing, and uses a part of the shared support"
)]
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "helpers of tests: a broken expectation stops the test; numbers are of pixels"
)]

#[path = "../../sheet/tests/support/county.rs"]
#[expect(dead_code, unreachable_pub, reason = "shared support: each test uses a part of it")]
mod county;
#[path = "support/sheets.rs"]
#[expect(dead_code, reason = "shared support: each test uses a part of it")]
mod sheets;

use evenhand_marks::Reader;
use evenhand_print::{Marks, pdf};
use evenhand_rules::{BallotState, Verdict};
use evenhand_sheet::Ballot;
use image::GrayImage;
use sheets::{AS_PRINTED, Chance, Scan, scanned, sorted};

/// Reads the pictures and holds the reading against the marks that were printed.
fn check(reader: &Reader, ballot: &Ballot, marks: &Marks, pictures: &[GrayImage], what: &str) {
    for picture in pictures {
        let page = reader.read_page(picture).unwrap_or_else(|why| panic!("{what}: {why}"));
        println!("{what}: {page:?}");
    }
    let read = reader.read(pictures).unwrap_or_else(|why| panic!("{what}: {why}"));
    let marked: Vec<_> = read.reading.marked().collect();
    assert_eq!(sorted(marked), sorted(marks.ovals.clone()), "{what}");
    assert_eq!(read.reading.doubts().count(), 0, "{what}");
    let ovals: usize = ballot.pages.iter().map(|page| page.ovals.len()).sum();
    let seen = read.reading.contests.iter().flat_map(|contest| &contest.ovals);
    assert_eq!(seen.clone().count(), ovals);
    for oval in seen {
        let least = if oval.verdict == Verdict::Marked { 600 } else { 20 };
        assert!(oval.margin.0 >= least, "{what}: {} {}", oval.darkness.0, oval.margin.0);
    }
    for line in &read.reading.write_ins {
        let name = marks
            .names
            .iter()
            .find(|name| name.contest == line.contest && name.option == line.option)
            .map(|name| name.name.as_str());
        assert_eq!(line.inked, name.is_some(), "{what}");
        assert_eq!(line.text.as_deref(), name, "{what}");
    }
    assert_eq!(read.write_in_pictures.len(), marks.names.len());
}

struct Bench {
    ballot: Ballot,
    reader: Reader,
    marks: Marks,
    document: Vec<u8>,
}

fn mixed(seed: u64) -> Bench {
    let ballot = sheets::ballot(&county::mixed(), BallotState::Demo);
    let reader = sheets::reader(&ballot);
    let marks = sheets::random_marks(&ballot, &mut Chance(seed), 0.4);
    let document = pdf(&ballot, Some(&marks)).unwrap();
    Bench { ballot, reader, marks, document }
}

#[test]
fn as_hayro_and_poppler_draw_it_at_200_and_300_dpi() {
    let bench = mixed(11);
    for dpi in [200, 300] {
        let hayro = sheets::by_hayro(bench.document.clone(), dpi);
        check(&bench.reader, &bench.ballot, &bench.marks, &hayro, &format!("hayro {dpi}"));
        let poppler = sheets::by_poppler(&bench.document, dpi);
        check(&bench.reader, &bench.ballot, &bench.marks, &poppler, &format!("poppler {dpi}"));
    }
}

#[test]
fn turned_shifted_scaled_noisy_pale_and_blurred() {
    let bench = mixed(12);
    let scans = [
        ("turned right", Scan { degrees: 3.0, ..AS_PRINTED }),
        ("turned left", Scan { degrees: -3.0, ..AS_PRINTED }),
        ("upside down", Scan { degrees: 180.0, ..AS_PRINTED }),
        ("upside down, turned", Scan { degrees: 177.3, ..AS_PRINTED }),
        ("shifted", Scan { shift: (31.3, -27.6), ..AS_PRINTED }),
        ("larger", Scan { scale: (1.02, 1.02), ..AS_PRINTED }),
        ("smaller", Scan { scale: (0.98, 0.98), ..AS_PRINTED }),
        ("stretched", Scan { scale: (0.98, 1.02), ..AS_PRINTED }),
        ("noisy", Scan { noise: 16.0, ..AS_PRINTED }),
        ("pale", Scan { levels: (70.0, 200.0), ..AS_PRINTED }),
        ("blurred", Scan { blur: 1.0, ..AS_PRINTED }),
        ("dark bed", Scan { degrees: 1.5, around: 30, ..AS_PRINTED }),
        (
            "all at once",
            Scan {
                degrees: -2.4,
                scale: (1.013, 0.988),
                shift: (11.4, 18.2),
                noise: 10.0,
                levels: (35.0, 230.0),
                blur: 0.7,
                around: 240,
            },
        ),
    ];
    for dpi in [200, 300] {
        let pages = sheets::by_poppler(&bench.document, dpi);
        for (name, scan) in &scans {
            let mut chance = Chance(77);
            let pictures: Vec<_> =
                pages.iter().map(|page| scanned(page, scan, &mut chance)).collect();
            check(&bench.reader, &bench.ballot, &bench.marks, &pictures, &format!("{name} {dpi}"));
        }
    }
}
