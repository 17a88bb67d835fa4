//! Pictures that must not be read, each with its expected refusal, and arbitrary ones that must not
//! bring the reader down.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests: a broken expectation stops the test; numbers are of pixels"
)]
#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_wrap,
    reason = "numbers of pixels in tests"
)]

#[path = "../../sheet/tests/support/county.rs"]
#[expect(dead_code, unreachable_pub, reason = "shared support: each test uses a part of it")]
mod county;
#[path = "support/sheets.rs"]
#[expect(dead_code, reason = "shared support: each test uses a part of it")]
mod sheets;

use std::sync::LazyLock;

use evenhand_marks::{PIXELS_MAX, Reader, ReaderError, Refused};
use evenhand_print::{Marks, pdf};
use evenhand_rules::{BallotState, Item, Micrometres};
use evenhand_sheet::{Ballot, Code, Page, Point, Rect, Side};
use image::imageops::{flip_horizontal, rotate90, rotate180};
use image::{GrayImage, Luma};
use proptest::prelude::*;
use sheets::{AS_PRINTED, Chance, Scan, scanned};

struct Bench {
    ballot: Ballot,
    reader: Reader,
    /// The pages at 200 dpi, marked and with names.
    good: Vec<GrayImage>,
    marks: Marks,
}

static BENCH: LazyLock<Bench> = LazyLock::new(|| {
    let ballot = sheets::ballot(&county::mixed(), BallotState::Demo);
    let reader = sheets::reader(&ballot);
    let marks = sheets::random_marks(&ballot, &mut Chance(21), 0.4);
    let good = printed(&ballot, &marks);
    Bench { ballot, reader, good, marks }
});

fn printed(ballot: &Ballot, marks: &Marks) -> Vec<GrayImage> {
    sheets::by_hayro(pdf(ballot, Some(marks)).unwrap(), 200)
}

fn front() -> GrayImage {
    BENCH.good[0].clone()
}

fn refusal(picture: &GrayImage) -> Refused {
    BENCH.reader.read_page(picture).expect_err("the picture was read")
}

/// Refused as altered print, within 15 mm of a place.
fn differs_near(picture: &GrayImage, at: Point) {
    let why = refusal(picture);
    let Refused::PrintDiffers { area, .. } = why else { panic!("{why}") };
    let near = area.grown(Micrometres(15_000));
    let inside =
        (near.x..=near.right()).contains(&at.x) && (near.y..=near.bottom()).contains(&at.y);
    assert!(inside, "{area:?} isn't near {at:?}");
}

fn differs(picture: &GrayImage) {
    let why = refusal(picture);
    assert!(matches!(why, Refused::PrintDiffers { .. }), "{why}");
}

/// Pixels at 200 dpi.
fn pixels(length: Micrometres) -> i64 {
    i64::from(length.0) * 200 / 25_400
}

/// Fills a box of the page, given in micrometres.
fn fill(picture: &mut GrayImage, area: Rect, grey: u8) {
    for y in pixels(area.y)..pixels(area.bottom()) {
        for x in pixels(area.x)..pixels(area.right()) {
            let (Ok(x), Ok(y)) = (u32::try_from(x), u32::try_from(y)) else { continue };
            if let Some(pixel) = picture.get_pixel_mut_checked(x, y) {
                *pixel = Luma([grey]);
            }
        }
    }
}

fn square(x: i32, y: i32, side: i32) -> Rect {
    let (x, y, side) = (Micrometres(x), Micrometres(y), Micrometres(side));
    Rect { x, y, width: side, height: side }
}

fn code_area(code: &Code) -> Rect {
    let side = code.module.times(i32::from(code.columns));
    Rect { x: code.origin.x, y: code.origin.y, width: side, height: side }
}

fn corner(index: usize) -> Rect {
    let figure = &BENCH.ballot.pages[0].corners[index];
    let half = figure.diameter.half().0 + 1000;
    square(figure.centre.x.0 - half, figure.centre.y.0 - half, 2 * half)
}

/// The first page with one change to its geometry, printed.
fn altered(change: impl FnOnce(&mut Page)) -> GrayImage {
    let mut ballot = BENCH.ballot.clone();
    change(&mut ballot.pages[0]);
    printed(&ballot, &BENCH.marks).remove(0)
}

#[test]
fn the_good_ones_are_read() {
    for (picture, page) in BENCH.good.iter().zip(&BENCH.ballot.pages) {
        let seen = BENCH.reader.read_page(picture).unwrap();
        assert_eq!((seen.sheet, seen.side), (page.sheet, page.side));
    }
}

#[test]
fn a_bare_page() {
    assert_eq!(refusal(&GrayImage::from_pixel(1700, 2200, Luma([255]))), Refused::Faint);
}

#[test]
fn a_black_page() {
    assert_eq!(refusal(&GrayImage::from_pixel(1700, 2200, Luma([0]))), Refused::Faint);
}

#[test]
fn noise() {
    let mut chance = Chance(3);
    let noise = GrayImage::from_fn(1700, 2200, |_, _| Luma([chance.grey()]));
    assert_eq!(refusal(&noise), Refused::CornersMissing { found: 0 });
}

#[test]
fn a_page_of_text_without_figures() {
    let mut picture = front();
    (0..4).for_each(|index| fill(&mut picture, corner(index), 255));
    assert_eq!(refusal(&picture), Refused::CornersMissing { found: 0 });
}

#[test]
fn each_corner_covered() {
    for index in 0..4 {
        let mut picture = front();
        fill(&mut picture, corner(index), 255);
        assert_eq!(refusal(&picture), Refused::CornersMissing { found: 3 }, "corner {index}");
    }
}

#[test]
fn a_corner_half_torn_off() {
    let mut picture = front();
    let mut half = corner(3);
    half.width = half.width.half();
    fill(&mut picture, half, 255);
    assert_eq!(refusal(&picture), Refused::CornersMissing { found: 3 });
}

#[test]
fn the_lower_half_cut_off() {
    let picture = image::imageops::crop_imm(&front(), 0, 0, 1700, 1500).to_image();
    assert_eq!(refusal(&picture), Refused::CornersMissing { found: 2 });
}

#[test]
fn the_right_half_cut_off() {
    let picture = image::imageops::crop_imm(&front(), 0, 0, 1200, 2800).to_image();
    assert_eq!(refusal(&picture), Refused::CornersMissing { found: 2 });
}

#[test]
fn too_small() {
    let picture = image::imageops::thumbnail(&front(), 850, 1400);
    assert_eq!(refusal(&picture), Refused::TooSmall { width: 850, height: 1400 });
}

#[test]
fn a_small_sheet_on_a_large_bed() {
    let small = image::imageops::thumbnail(&front(), 1020, 1680);
    let mut bed = GrayImage::from_pixel(1700, 2800, Luma([255]));
    image::imageops::replace(&mut bed, &small, 100, 100);
    // Its figures are a little over half as large as they should be.
    let why = refusal(&bed);
    assert!(matches!(why, Refused::TooSmall { .. } | Refused::CornersMissing { .. }), "{why}");
}

#[test]
fn more_pixels_than_are_read() {
    let side = 8001;
    assert!(u64::from(side) * u64::from(side) > PIXELS_MAX);
    let picture = GrayImage::from_pixel(side, side, Luma([255]));
    assert_eq!(refusal(&picture), Refused::TooLarge { width: side, height: side });
}

#[test]
fn no_pixels_and_hardly_any() {
    for (width, height) in [(0, 0), (1, 1), (2200, 1), (1, 2200), (1700, 0)] {
        assert_eq!(refusal(&GrayImage::new(width, height)), Refused::TooSmall { width, height });
    }
}

#[test]
fn in_a_mirror() {
    assert_eq!(refusal(&flip_horizontal(&front())), Refused::Mirrored);
    assert_eq!(refusal(&rotate180(&flip_horizontal(&front()))), Refused::Mirrored);
}

#[test]
fn a_negative() {
    let mut picture = front();
    picture.pixels_mut().for_each(|Luma([value])| *value = 255 - *value);
    assert_eq!(refusal(&picture), Refused::MostlyDark);
}

#[test]
fn lying_on_its_side() {
    assert_eq!(refusal(&rotate90(&front())), Refused::Turned { degrees: 90 });
}

#[test]
fn turned_too_far() {
    let page = front();
    let mut bed = GrayImage::from_pixel(page.width() + 700, page.height() + 400, Luma([255]));
    image::imageops::replace(&mut bed, &page, 350, 200);
    let scan = Scan { degrees: 9.0, ..AS_PRINTED };
    assert_eq!(refusal(&scanned(&bed, &scan, &mut Chance(1))), Refused::Turned { degrees: 9 });
}

#[test]
fn too_pale() {
    let scan = Scan { levels: (200.0, 235.0), ..AS_PRINTED };
    assert_eq!(refusal(&scanned(&front(), &scan, &mut Chance(1))), Refused::Faint);
}

#[test]
fn squeezed() {
    let scan = Scan { scale: (1.0, 0.8), ..AS_PRINTED };
    assert_eq!(refusal(&scanned(&front(), &scan, &mut Chance(1))), Refused::OtherLength);
}

#[test]
fn smeared_beyond_reading() {
    let scan = Scan { blur: 6.0, ..AS_PRINTED };
    let why = refusal(&scanned(&front(), &scan, &mut Chance(1)));
    let expected = matches!(
        why,
        Refused::CornersMissing { .. } | Refused::CodeUnreadable | Refused::PrintDiffers { .. }
    );
    assert!(expected, "{why}");
}

#[test]
fn a_code_scratched_beyond_repair() {
    let mut picture = front();
    let mut area = code_area(&BENCH.ballot.pages[0].code);
    area.width = area.width.half();
    fill(&mut picture, area, 255);
    assert_eq!(refusal(&picture), Refused::CodeUnreadable);
}

#[test]
fn a_code_scratched_a_little_is_read() {
    let mut picture = front();
    let area = code_area(&BENCH.ballot.pages[0].code);
    fill(&mut picture, square(area.x.0 + 5000, area.y.0 + 5000, 2000), 255);
    assert!(BENCH.reader.read_page(&picture).is_ok());
}

#[test]
fn a_code_of_something_else() {
    let symbol =
        datamatrix::DataMatrix::encode(b"PARCEL", datamatrix::SymbolSize::Square16).unwrap();
    let picture = altered(|page| page.code.modules = symbol.bitmap().bits().to_vec());
    assert_eq!(refusal(&picture), Refused::CodeUnreadable);
}

#[test]
fn another_election() {
    let mut election = county::mixed();
    election.fingerprint[0] ^= 1;
    let ballot = sheets::ballot(&election, BallotState::Demo);
    assert_eq!(refusal(&printed(&ballot, &BENCH.marks)[0]), Refused::OtherElection);
}

/// An election of two styles with these items.
fn two_styles(first: usize, second: usize) -> evenhand_rules::Election {
    let mut election = county::mixed();
    let mut other = election.styles[0].clone();
    election.styles[0].items.truncate(first);
    other.items.truncate(second);
    election.styles.push(other);
    election
}

#[test]
fn another_style() {
    let election = two_styles(3, 4);
    let (ours, other) = (
        sheets::ballot(&election, BallotState::Demo),
        sheets::ballot_of(&election, 1, BallotState::Demo),
    );
    assert_eq!(ours.length, other.length);
    let blank = sheets::by_hayro(pdf(&other, None).unwrap(), 200);
    let why = sheets::reader(&ours).read_page(&blank[0]).expect_err("it was read");
    assert_eq!(why, Refused::OtherStyle);
}

#[test]
fn another_style_on_shorter_paper() {
    let ballot = sheets::ballot_of(&two_styles(20, 4), 1, BallotState::Demo);
    assert!(ballot.length < BENCH.ballot.length);
    let blank = sheets::by_hayro(pdf(&ballot, None).unwrap(), 200);
    assert_eq!(refusal(&blank[0]), Refused::OtherLength);
}

#[test]
fn a_sheet_that_the_style_does_not_have() {
    let mut short = BENCH.ballot.clone();
    short.pages.truncate(2);
    let reader = sheets::reader(&short);
    let expected = Refused::NoSuchSide { sheet: 2, side: Side::Front };
    assert_eq!(reader.read_page(&BENCH.good[2]).expect_err("it was read"), expected);
}

#[test]
fn a_side_twice_and_a_side_missing() {
    let mut pictures = BENCH.good.clone();
    pictures.push(front());
    let twice = Refused::SideTwice { sheet: 1, side: Side::Front };
    assert_eq!(BENCH.reader.read(&pictures).expect_err("it was read"), twice);
    let missing = Refused::SideMissing { sheet: 2, side: Side::Back };
    assert_eq!(BENCH.reader.read(&BENCH.good[..3]).expect_err("it was read"), missing);
    let missing = Refused::SideMissing { sheet: 1, side: Side::Front };
    assert_eq!(BENCH.reader.read(&[]).expect_err("it was read"), missing);
}

#[test]
fn two_names_swapped() {
    let mut election = county::mixed();
    let mut swapped = 0;
    for item in &mut election.styles[0].items {
        if let Item::Contest(contest) = item
            && contest.id == "commission"
        {
            contest.options.swap(1, 3);
            swapped += 1;
        }
    }
    assert_eq!(swapped, 1);
    let ballot = sheets::ballot(&election, BallotState::Demo);
    let refused = printed(&ballot, &BENCH.marks)
        .iter()
        .filter(|picture| {
            matches!(BENCH.reader.read_page(picture), Err(Refused::PrintDiffers { .. }))
        })
        .count();
    assert_eq!(refused, 1);
}

#[test]
fn one_letter_of_a_name_is_another() {
    let mut election = county::mixed();
    for item in &mut election.styles[0].items {
        if let Item::Contest(contest) = item
            && contest.id == "clerk"
        {
            let name =
                contest.options[0].names[0].shown.in_language(&county::english()[0]).to_owned();
            assert!(name.contains('b'), "{name}");
            contest.options[0].names[0] = county::person(&name.replacen('b', "h", 1));
        }
    }
    let ballot = sheets::ballot(&election, BallotState::Demo);
    assert!(printed(&ballot, &BENCH.marks).iter().any(|picture| matches!(
        BENCH.reader.read_page(picture),
        Err(Refused::PrintDiffers { .. })
    )));
}

/// A line of text that stands well inside the page.
fn some_line() -> usize {
    let at = |line: &evenhand_sheet::TextLine| {
        line.origin.y.0 > 90_000 && line.run.text.chars().count() > 8
    };
    BENCH.ballot.pages[0].texts.iter().position(at).unwrap()
}

#[test]
fn a_line_of_text_missing() {
    let line = some_line();
    let at = BENCH.ballot.pages[0].texts[line].origin;
    let picture = altered(|page| {
        page.texts.remove(line);
    });
    differs_near(&picture, at);
}

#[test]
fn a_word_more() {
    let line = some_line();
    let at = BENCH.ballot.pages[0].texts[line].origin;
    let end = BENCH.ballot.pages[0].texts[line].run.width;
    let extra = Point { x: at.x.plus(end).plus(Micrometres(2_000)), y: at.y };
    let picture = altered(|page| {
        let mut more = page.texts[line].clone();
        more.origin = extra;
        page.texts.push(more);
    });
    differs(&picture);
}

#[test]
fn a_line_of_text_moved_by_two_millimetres() {
    let line = some_line();
    let at = BENCH.ballot.pages[0].texts[line].origin;
    let picture = altered(|page| page.texts[line].origin.x.0 += 2_000);
    differs_near(&picture, at);
}

#[test]
fn an_oval_moved_by_a_millimetre() {
    let at = BENCH.ballot.pages[0].ovals[3].area.centre();
    for (x, y) in [(1000, 0), (0, 1000), (-1000, 0), (0, -1000)] {
        let picture = altered(|page| {
            page.ovals[3].area.x.0 += x;
            page.ovals[3].area.y.0 += y;
        });
        differs_near(&picture, at);
    }
}

#[test]
fn an_oval_missing() {
    let at = BENCH.ballot.pages[0].ovals[3];
    let picture = altered(|page| {
        page.ovals.remove(3);
    });
    differs_near(&picture, at.area.centre());
}

#[test]
fn an_oval_more() {
    let picture = altered(|page| {
        let mut more = page.ovals[3];
        more.area.x.0 += 30_000;
        page.ovals.push(more);
    });
    differs(&picture);
}

#[test]
fn a_contest_box_without_its_edge() {
    let picture = altered(|page| {
        let longest = page
            .rules
            .iter()
            .enumerate()
            .max_by_key(|(_, rule)| rule.area.height)
            .map(|(index, _)| index)
            .unwrap();
        page.rules.remove(longest);
    });
    differs(&picture);
}

#[test]
fn another_stamp() {
    let ballot = sheets::ballot(&county::mixed(), BallotState::Official);
    differs(&printed(&ballot, &BENCH.marks)[0]);
    let ballot = sheets::ballot(&county::mixed(), BallotState::Test);
    differs(&printed(&ballot, &BENCH.marks)[0]);
}

#[test]
fn a_blot_on_bare_paper() {
    let page = &BENCH.ballot.pages[0];
    let low = page.code.origin.y.0 - 12_000;
    let mut picture = front();
    fill(&mut picture, square(60_000, low, 3_000), 20);
    differs(&picture);
}

#[test]
fn a_speck_on_bare_paper_is_let_pass() {
    // Between the note beside the code and the corner figure the paper is bare.
    let code = code_area(&BENCH.ballot.pages[0].code);
    let mut picture = front();
    fill(&mut picture, square(165_000, code.y.0 + 4_000, 700), 20);
    let seen = BENCH.reader.read_page(&picture);
    assert!(seen.is_ok(), "{seen:?}");
}

#[test]
fn a_line_of_ink_through_the_page() {
    let mut picture = front();
    let line = Rect {
        width: Micrometres(150_000),
        height: Micrometres(400),
        ..square(30_000, 140_000, 0)
    };
    fill(&mut picture, line, 40);
    differs(&picture);
}

#[test]
fn a_reader_is_not_made_from_wrong_blanks() {
    let ballot = &BENCH.ballot;
    let blanks = sheets::by_hayro(pdf(ballot, None).unwrap(), 200);
    let made = |blanks: &[GrayImage], dpi| {
        Reader::new(ballot, blanks, evenhand_marks::Dpi(dpi), sheets::alphabet())
            .expect_err("a reader was made")
    };
    let short = ReaderError::BlankCount { pages: ballot.pages.len(), blanks: 1 };
    assert_eq!(made(&blanks[..1], 200), short);
    assert_eq!(made(&blanks, 300), ReaderError::BlankSize { page: 0 });
    assert_eq!(made(&blanks, 0), ReaderError::BlankSize { page: 0 });
    assert_eq!(made(&BENCH.good, 200), ReaderError::NotBlank { page: 0 });
    let mut mixed_up = blanks.clone();
    mixed_up.swap(0, 1);
    assert!(matches!(
        made(&mixed_up, 200),
        ReaderError::Blank { .. } | ReaderError::NotBlank { .. }
    ));
    let mut bare = blanks;
    bare[0] = GrayImage::from_pixel(bare[0].width(), bare[0].height(), Luma([255]));
    assert_eq!(made(&bare, 200), ReaderError::Blank { page: 0, why: Refused::Faint });
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Any bytes of any small size are refused, and nothing falls over.
    #[test]
    fn arbitrary_small_pictures_are_refused(
        width in 0_u32..300,
        height in 0_u32..300,
        seed in any::<u64>(),
    ) {
        let mut chance = Chance(seed | 1);
        let picture = GrayImage::from_fn(width, height, |_, _| Luma([chance.grey()]));
        prop_assert!(BENCH.reader.read_page(&picture).is_err());
    }

    /// A good sheet with any box of it overwritten is read or refused, and nothing falls over. Where it
    /// is read, no oval outside the box has changed.
    #[test]
    fn any_box_overwritten(
        x in -20_000_i32..215_000,
        y in -20_000_i32..279_000,
        width in 0_i32..120_000,
        height in 0_i32..120_000,
        grey in any::<u8>(),
    ) {
        let mut picture = front();
        let area = Rect {
            width: Micrometres(width),
            height: Micrometres(height),
            ..square(x, y, 0)
        };
        fill(&mut picture, area, grey);
        if let Ok(seen) = BENCH.reader.read_page(&picture) {
            for (oval, known) in seen.ovals.iter().zip(&BENCH.ballot.pages[0].ovals) {
                let apart = known.area.right() < area.x
                    || known.area.x > area.right()
                    || known.area.bottom() < area.y
                    || known.area.y > area.bottom();
                let wanted = BENCH.marks.ovals.contains(&oval.oval);
                let is_marked = oval.verdict == evenhand_rules::Verdict::Marked;
                prop_assert!(!apart || is_marked == wanted);
            }
        }
    }

    /// Figures and code where they should be, anything else anywhere: no panic at odd sizes.
    #[test]
    fn odd_crops(left in 0_u32..800, top in 0_u32..800, right in 0_u32..800, bottom in 0_u32..800) {
        let picture = front();
        let (width, height) = (picture.width() - left - right, picture.height() - top - bottom);
        let part = image::imageops::crop_imm(&picture, left, top, width, height).to_image();
        let _ = BENCH.reader.read_page(&part);
    }
}
