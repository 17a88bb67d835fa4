//! What must hold of every composed ballot, whatever is on it.

use evenhand_rules::{Micrometres, OptionKind, Style};
use evenhand_sheet::{Ballot, Page, Point, Rect, Side, TextLine};

/// Checks everything that must hold of a style's ballot. Panics with the page and the shape.
pub fn check(ballot: &Ballot, style: &Style) {
    let lengths = [279_400, 355_600, 431_800];
    assert_eq!(ballot.width, Micrometres(215_900));
    assert!(lengths.contains(&ballot.length.0));
    let ovals: Vec<_> =
        ballot.pages.iter().flat_map(|page| &page.ovals).map(|oval| oval.id).collect();
    assert_eq!(ovals, style.ovals(), "each oval once, in ballot order");
    let lines: Vec<_> = (ballot.pages.iter().flat_map(|page| &page.write_ins))
        .map(|line| (line.contest, line.option))
        .collect();
    assert_eq!(lines, write_in_options(style), "each write-in line once, in ballot order");
    for (number, page) in ballot.pages.iter().enumerate() {
        let side = if number % 2 == 0 { Side::Front } else { Side::Back };
        assert_eq!((usize::from(page.sheet), page.side), (number / 2 + 1, side));
        check_page(page, ballot);
    }
}

/// What the code is called in messages.
const CODE: &str = "the code";

fn write_in_options(
    style: &Style,
) -> Vec<(evenhand_rules::ContestIndex, evenhand_rules::OptionIndex)> {
    let mut lines = Vec::new();
    for (index, contest) in style.contests() {
        for (option, definition) in contest.indexed_options() {
            if definition.kind == OptionKind::WriteIn {
                lines.push((index, option));
            }
        }
    }
    lines
}

fn check_page(page: &Page, ballot: &Ballot) {
    let paper =
        Rect { x: Micrometres(0), y: Micrometres(0), width: ballot.width, height: ballot.length };
    let printable = paper.grown(Micrometres(-8_000));
    let shapes = shapes(page);
    for (what, area) in &shapes {
        // The code's quiet zone is paper without ink, and may reach into the edge.
        let ink = if *what == CODE { area.grown(Micrometres(-800)) } else { *area };
        assert!(within(ink, printable), "{what} leaves the printable area: {area:?}");
    }
    for (at, (what, area)) in shapes.iter().enumerate() {
        for (other, there) in shapes.iter().skip(at + 1) {
            assert!(!overlap(*area, *there), "{what} {area:?} overlaps {other} {there:?}");
        }
    }
    for rule in &page.rules {
        assert!(within(rule.area, printable), "a rule leaves the printable area: {rule:?}");
        for (what, area) in &shapes {
            assert!(!overlap(rule.area, *area), "a rule {:?} crosses {what} {area:?}", rule.area);
        }
    }
    for text in page.texts.iter().chain(&page.stamp.texts) {
        assert!(text.run.size >= Micrometres(3_528), "10 pt at least: {:?}", text.run.text);
        assert!(text.run.glyphs.iter().all(|glyph| glyph.id != 0), "a glyph is missing");
    }
    let modules = usize::from(page.code.columns) * usize::from(page.code.columns);
    assert_eq!(page.code.modules.len(), modules);
    assert!(page.code.module >= Micrometres(700));
    assert_eq!(page.corners.iter().filter(|corner| corner.is_first).count(), 1);
}

/// Everything on a page that must not touch anything else, with its name.
fn shapes(page: &Page) -> Vec<(String, Rect)> {
    let mut shapes = Vec::new();
    for text in page.texts.iter().chain(&page.stamp.texts) {
        shapes.push((format!("text {:?}", text.run.text), letters(text)));
    }
    for oval in &page.ovals {
        shapes.push((format!("{:?}", oval.id), oval.area.grown(oval.stroke.half())));
    }
    for sample in &page.samples {
        shapes.push(("a sample".into(), sample.area.grown(sample.stroke.half())));
    }
    for line in &page.write_ins {
        let cells = Rect {
            x: line.cells.origin.x,
            y: line.cells.origin.y,
            width: line.cells.width.times(i32::from(line.cells.count)),
            height: line.cells.height,
        };
        assert!(within(cells, line.area), "cells lie in their area");
        assert_eq!(usize::from(line.cells.count), evenhand_rules::WRITE_IN_LEN_MAX);
        shapes.push((format!("the line of {:?} {:?}", line.contest, line.option), line.area));
    }
    for corner in &page.corners {
        let Point { x, y } = corner.centre;
        let zero = Micrometres(0);
        let square = Rect { x, y, width: zero, height: zero }.grown(corner.diameter.half());
        shapes.push(("a corner figure".into(), square));
    }
    let side = page.code.module.times(i32::from(page.code.columns));
    let code = Rect { x: page.code.origin.x, y: page.code.origin.y, width: side, height: side };
    // ISO/IEC 16022 asks for a quiet zone of one module.
    shapes.push((CODE.into(), code.grown(page.code.module)));
    shapes
}

/// Where a line's letters have ink: capitals with accents above, descenders below (0.93 and 0.22 em,
/// measured on our faces).
fn letters(text: &TextLine) -> Rect {
    let size = text.run.size.0;
    let (over, under) = (Micrometres(size * 90 / 100), Micrometres(size * 22 / 100));
    Rect {
        x: text.origin.x,
        y: text.origin.y.minus(over),
        width: text.run.width,
        height: over.plus(under),
    }
}

fn within(inner: Rect, outer: Rect) -> bool {
    inner.x >= outer.x
        && inner.y >= outer.y
        && inner.right() <= outer.right()
        && inner.bottom() <= outer.bottom()
}

fn overlap(a: Rect, b: Rect) -> bool {
    a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom()
}
