//! How long it takes to read one side from decoded pixels: a letter side, a side of 17 in paper, one with
//! write-ins.
//!
//! With `EVENHAND_PICTURES` set to a folder the letter side is written there as `side.png`, for
//! `tests/compare/opencv_read.py`.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a benchmark that leaves its picture for another, and stops where its sheet can't be made"
)]

#[path = "../../sheet/tests/support/county.rs"]
#[expect(dead_code, unreachable_pub, reason = "shared support: each test uses a part of it")]
mod county;
#[path = "../tests/support/sheets.rs"]
#[expect(dead_code, reason = "shared support: each test uses a part of it")]
mod sheets;

use std::hint::black_box;
use std::sync::LazyLock;

use evenhand_marks::Reader;
use evenhand_print::pdf;
use evenhand_rules::{BallotState, Election};
use image::GrayImage;
use sheets::{AS_PRINTED, Chance, Scan, scanned};

fn main() {
    if let Ok(folder) = std::env::var("EVENHAND_PICTURES") {
        let path = std::path::Path::new(&folder).join("side.png");
        LETTER.straight.save(path).unwrap();
    }
    divan::main();
}

/// Contests on the letter sheet.
const LETTER_CONTESTS: usize = 15;

struct Bench {
    reader: Reader,
    straight: GrayImage,
    turned: GrayImage,
    fine: GrayImage,
}

static SIXTY: LazyLock<Bench> = LazyLock::new(|| bench(&county::sixty()));
static LETTER: LazyLock<Bench> = LazyLock::new(|| {
    let mut election = county::sixty();
    // As many contests as stand on one letter sheet, front and back.
    election.styles[0].items.truncate(LETTER_CONTESTS);
    bench(&election)
});
static MIXED: LazyLock<Bench> = LazyLock::new(|| bench(&county::mixed()));

fn bench(election: &Election) -> Bench {
    let ballot = sheets::ballot(election, BallotState::Demo);
    let reader = sheets::reader(&ballot);
    let mut chance = Chance(5);
    let marks = sheets::random_marks(&ballot, &mut chance, 0.3);
    let document = pdf(&ballot, Some(&marks)).unwrap();
    let straight = sheets::by_hayro(document.clone(), 200).remove(1);
    let fine = sheets::by_hayro(document, 300).remove(1);
    let scan = Scan { degrees: 2.0, noise: 8.0, blur: 0.5, ..AS_PRINTED };
    let turned = scanned(&straight, &scan, &mut chance);
    Bench { reader, straight, turned, fine }
}

/// The figure to reach: a letter side at 200 dpi.
#[divan::bench(sample_count = 300)]
fn letter_side_200_dpi(bencher: divan::Bencher<'_, '_>) {
    let bench = &*LETTER;
    assert_eq!(bench.straight.dimensions(), (1700, 2200), "letter paper");
    bencher.bench(|| bench.reader.read_page(black_box(&bench.straight)).unwrap());
}

#[divan::bench(sample_count = 300)]
fn letter_side_200_dpi_turned_and_noisy(bencher: divan::Bencher<'_, '_>) {
    let bench = &*LETTER;
    bencher.bench(|| bench.reader.read_page(black_box(&bench.turned)).unwrap());
}

#[divan::bench(sample_count = 200)]
fn sixty_contests_200_dpi(bencher: divan::Bencher<'_, '_>) {
    let bench = &*SIXTY;
    bencher.bench(|| bench.reader.read_page(black_box(&bench.straight)).unwrap());
}

#[divan::bench(sample_count = 200)]
fn sixty_contests_200_dpi_turned_and_noisy(bencher: divan::Bencher<'_, '_>) {
    let bench = &*SIXTY;
    bencher.bench(|| bench.reader.read_page(black_box(&bench.turned)).unwrap());
}

#[divan::bench(sample_count = 100)]
fn sixty_contests_300_dpi(bencher: divan::Bencher<'_, '_>) {
    let bench = &*SIXTY;
    bencher.bench(|| bench.reader.read_page(black_box(&bench.fine)).unwrap());
}

#[divan::bench(sample_count = 100)]
fn mixed_with_write_ins_200_dpi(bencher: divan::Bencher<'_, '_>) {
    let bench = &*MIXED;
    bencher.bench(|| bench.reader.read_page(black_box(&bench.straight)).unwrap());
}
