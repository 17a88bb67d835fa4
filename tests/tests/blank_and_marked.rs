//! A blank ballot and a marked one, as poppler draws them, differ only inside ovals and on write-in
//! lines: for every style of the demo, and for ballots marked at random.

use evenhand_rules::{OvalId, Selections, Style};
use evenhand_sheet::{Page, Rect};
use evenhand_tests::chance::{self, Chance};
use evenhand_tests::paper::{RESOLUTION, printed, rasterised};
use evenhand_tests::stage::Stage;
use image::GrayImage;

/// Random ballots a style.
const BALLOTS: u64 = 3;

/// Pixels that a box covers, also in part: left, top, right, bottom, the last two exclusive.
#[derive(Clone, Copy)]
struct Pixels(i64, i64, i64, i64);

impl Pixels {
    fn of(area: Rect) -> Self {
        // 25,400 µm are an inch.
        let floor = |um: i32| (i64::from(um) * i64::from(RESOLUTION)).div_euclid(25_400);
        let ceil = |um: i32| -((-i64::from(um) * i64::from(RESOLUTION)).div_euclid(25_400));
        Self(floor(area.x.0), floor(area.y.0), ceil(area.right().0), ceil(area.bottom().0))
    }
    fn has(&self, (x, y): (i64, i64)) -> bool {
        (self.0..self.2).contains(&x) && (self.1..self.3).contains(&y)
    }
}

/// Every pixel that differs.
fn differing(blank: &GrayImage, marked: &GrayImage) -> Vec<(i64, i64)> {
    assert_eq!(blank.dimensions(), marked.dimensions(), "pages of two sizes");
    let pairs = blank.enumerate_pixels().zip(marked.pixels());
    pairs
        .filter(|((_, _, before), after)| before != after)
        .map(|((x, y, _), _)| (i64::from(x), i64::from(y)))
        .collect()
}

/// What differs on one page, by where it may.
struct Seen {
    /// Ovals with differing pixels inside their outline's outer edge.
    ovals: Vec<OvalId>,
    /// Write-in lines with differing pixels.
    lines: Vec<(u16, u16)>,
    /// Differing pixels anywhere else.
    outside: Vec<(i64, i64)>,
}

fn look(page: &Page, blank: &GrayImage, marked: &GrayImage) -> Seen {
    let mut rest = differing(blank, marked);
    let mut take = |area: Rect| {
        let before = rest.len();
        let pixels = Pixels::of(area);
        rest.retain(|at| !pixels.has(*at));
        rest.len() < before
    };
    let ovals = page.ovals.iter().filter(|oval| take(oval.area.grown(oval.stroke.half())));
    let ovals: Vec<OvalId> = ovals.map(|oval| oval.id).collect();
    let lines = page.write_ins.iter().filter(|line| take(line.area));
    let lines = lines.map(|line| (line.contest.0, line.option.0)).collect();
    Seen { ovals, lines, outside: rest }
}

/// The write-in lines that a ballot has a name on.
fn named_lines(style: &Style, marked: &Selections) -> Vec<(u16, u16)> {
    let ovals = marked.ovals(style);
    let named = ovals.iter().filter(|oval| {
        marked.written(oval.contest, oval.option).is_some_and(|name| !name.is_blank())
    });
    named.map(|oval| (oval.contest.0, oval.option.0)).collect()
}

#[test]
fn blank_and_marked_differ_only_where_a_voter_marks() {
    let stage = Stage::demo();
    assert!(stage.election.styles.len() >= 4, "the demo has four styles at least");
    let (mut ovals, mut lines) = (0, 0);
    for index in 0..stage.election.styles.len() {
        let style = &stage.election.styles[index];
        let ballot = stage.ballot(index);
        let document = printed(&ballot, style, None);
        let blank = rasterised(&document, RESOLUTION);
        assert_eq!(blank.len(), ballot.pages.len(), "a picture a page");
        for seed in 0..BALLOTS {
            let chosen = chance::selections(style, &mut Chance::new(100 + seed));
            let with_marks = printed(&ballot, style, Some(&chosen));
            assert_eq!(with_marks.len(), document.len(), "style {index}: the length tells");
            let marked = rasterised(&with_marks, RESOLUTION);
            let mut seen_ovals = Vec::new();
            let mut seen_lines = Vec::new();
            for ((page, blank), marked) in ballot.pages.iter().zip(&blank).zip(&marked) {
                let seen = look(page, blank, marked);
                let first = seen.outside.first();
                assert!(first.is_none(), "style {index}, seed {seed}: a pixel at {first:?}");
                seen_ovals.extend(seen.ovals);
                seen_lines.extend(seen.lines);
            }
            seen_ovals.sort_unstable();
            seen_lines.sort_unstable();
            let mut named = named_lines(style, &chosen);
            named.sort_unstable();
            // Each marked oval differs and no other does: else the check above could see nothing.
            assert_eq!(seen_ovals, chosen.ovals(style), "style {index}, seed {seed}");
            assert_eq!(seen_lines, named, "style {index}, seed {seed}");
            ovals += seen_ovals.len();
            lines += seen_lines.len();
        }
    }
    assert!(ovals > 100 && lines > 10, "too little was marked: {ovals} ovals, {lines} lines");
}

#[test]
fn one_pixel_elsewhere_is_seen() {
    let stage = Stage::demo();
    let ballot = stage.ballot(0);
    let style = &stage.election.styles[0];
    let blank = rasterised(&printed(&ballot, style, None), RESOLUTION);
    let (page, blank) = (&ballot.pages[0], &blank[0]);
    let area = page.ovals[0].area.grown(page.ovals[0].stroke.half());
    let Pixels(left, top, _, _) = Pixels::of(area);
    for (at, is_outside) in [((left - 1, top), true), ((left, top), false)] {
        let mut altered = blank.clone();
        let (x, y) = (u32::try_from(at.0).unwrap(), u32::try_from(at.1).unwrap());
        altered.get_pixel_mut(x, y).0[0] ^= 0x80;
        assert_eq!(!look(page, blank, &altered).outside.is_empty(), is_outside, "{at:?}");
    }
}
