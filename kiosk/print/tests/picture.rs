//! Printed pages as poppler sees them: ovals where the geometry says, ink nowhere else.
#![expect(clippy::unwrap_used, reason = "a failed test panics")]

#[path = "../../sheet/tests/support/county.rs"]
#[expect(dead_code, unreachable_pub, reason = "each test uses a part of what they share")]
mod county;
#[path = "support/poppler.rs"]
#[expect(unreachable_pub, reason = "shared by path with other tests")]
mod poppler;
#[path = "support/voter.rs"]
#[expect(unreachable_pub, reason = "shared by path with other tests")]
mod voter;

use evenhand_print::{Marks, alphabet_pdf, pdf};
use evenhand_rules::{Election, Micrometres};
use evenhand_sheet::{Ballot, BallotState, CellRow, Edition, Page, Rect, compose};
use poppler::{Picture, file, has, pictures, run};

fn ballot(election: &Election, state: BallotState) -> Ballot {
    let languages = county::both();
    let edition = Edition { languages: &languages, wording: &county::PlainWording };
    compose(election, &election.styles[0], 0, &edition, state).unwrap()
}

/// The pixels that a box touches, held within the picture.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "pixels of a page")]
fn touched(picture: &Picture, area: Rect) -> (std::ops::Range<usize>, std::ops::Range<usize>) {
    let range = |from: Micrometres, to: Micrometres, end: usize| {
        let from = picture.pixels(from).floor().max(0.0) as usize;
        from..(picture.pixels(to).ceil().max(0.0) as usize).min(end)
    };
    let (width, height) = (picture.width, picture.height);
    (range(area.x, area.right(), width), range(area.y, area.bottom(), height))
}

/// The middle and the mean darkness of the ink in a box, by pixels.
fn ink(picture: &Picture, area: Rect) -> (f64, f64, f64) {
    let (columns, rows) = touched(picture, area);
    let (mut sum, mut sum_x, mut sum_y, mut count) = (0.0, 0.0, 0.0, 0.0);
    for y in rows {
        for x in columns.clone() {
            let dark = 255.0 - f64::from(picture.at(x, y));
            sum += dark;
            sum_x += dark * (pixel(x) + 0.5);
            sum_y += dark * (pixel(y) + 0.5);
            count += 255.0;
        }
    }
    (sum_x / sum, sum_y / sum, sum / count)
}

#[expect(clippy::cast_precision_loss, reason = "pixels of a page")]
fn pixel(at: usize) -> f64 {
    at as f64
}

#[test]
fn pages_have_the_papers_size_to_the_pixel() {
    if !has("pdftoppm", "pages_have_the_papers_size_to_the_pixel") {
        return;
    }
    let sheet = ballot(&county::mixed(), BallotState::Official);
    let bytes = pdf(&sheet, None).unwrap();
    for dpi in [200, 300] {
        let pages = pictures("size.pdf", &bytes, dpi);
        assert_eq!(pages.len(), sheet.pages.len());
        for page in pages {
            let inches = |distance: Micrometres| usize::try_from(distance.0).unwrap();
            let expected = |distance| inches(distance) * dpi as usize / 25_400;
            assert_eq!((page.width, page.height), (expected(sheet.width), expected(sheet.length)));
        }
    }
}

#[test]
fn ovals_stand_where_the_geometry_says() {
    if !has("pdftoppm", "ovals_stand_where_the_geometry_says") {
        return;
    }
    let election = county::mixed();
    let sheet = ballot(&election, BallotState::Official);
    let style = &election.styles[0];
    let marks = Marks { ovals: style.ovals(), names: vec![] };
    for dpi in [200, 300] {
        let blank = pictures("ovals-blank.pdf", &pdf(&sheet, None).unwrap(), dpi);
        let full = pictures("ovals-full.pdf", &pdf(&sheet, Some(&marks)).unwrap(), dpi);
        let mut seen = 0;
        for (page, (blank, full)) in sheet.pages.iter().zip(blank.iter().zip(&full)) {
            for oval in &page.ovals {
                let around = oval.area.grown(Micrometres(500));
                let centre = oval.area.centre();
                for (picture, darkest) in [(blank, 0.40), (full, 1.0)] {
                    let (x, y, dark) = ink(picture, around);
                    let (dx, dy) = (x - picture.pixels(centre.x), y - picture.pixels(centre.y));
                    assert!(dx.abs() < 0.1 && dy.abs() < 0.1, "{:?}: {dx} {dy} px", oval.id);
                    assert!(dark < darkest, "{:?} blank is {dark} dark", oval.id);
                }
                // The ellipse inscribed in a box covers π/4 of it.
                let inner = oval.area.grown(Micrometres(-300));
                let (_, _, dark) = ink(full, inner);
                assert!(dark > 0.78, "{:?} filled is {dark} dark", oval.id);
                let third = Rect {
                    x: centre.x.minus(Micrometres(1_000)),
                    y: centre.y.minus(Micrometres(500)),
                    width: Micrometres(2_000),
                    height: Micrometres(1_000),
                };
                assert!(ink(full, third).2 > 0.999, "solid");
                assert!(ink(blank, third).2 < 0.001 || ink(blank, third).2.is_nan(), "empty");
                seen += 1;
            }
        }
        assert_eq!(seen, style.ovals().len());
    }
}

/// True where a pixel lies in an oval (outline included) or in a write-in line's area.
fn may_differ(page: &Page, picture: &Picture, x: usize, y: usize) -> bool {
    let ovals = page.ovals.iter().map(|oval| oval.area.grown(oval.stroke.half()));
    ovals.chain(page.write_ins.iter().map(|line| line.area)).any(|area| {
        let (columns, rows) = touched(picture, area);
        columns.contains(&x) && rows.contains(&y)
    })
}

#[test]
fn a_marked_ballot_differs_only_in_ovals_and_on_write_in_lines() {
    if !has("pdftoppm", "a_marked_ballot_differs_only_in_ovals_and_on_write_in_lines") {
        return;
    }
    let election = county::mixed();
    let style = &election.styles[0];
    let sheet = ballot(&election, BallotState::Official);
    let blank = pictures("differs-blank.pdf", &pdf(&sheet, None).unwrap(), 300);
    for seed in [1, 2, 3] {
        let marks = Marks::of(&voter::selections(style, seed), style);
        let name = format!("differs-{seed}.pdf");
        let marked = pictures(&name, &pdf(&sheet, Some(&marks)).unwrap(), 300);
        let mut changed = 0;
        for (page, (blank, marked)) in sheet.pages.iter().zip(blank.iter().zip(&marked)) {
            for y in 0..blank.height {
                for x in 0..blank.width {
                    if blank.at(x, y) != marked.at(x, y) {
                        changed += 1;
                        let allowed = may_differ(page, blank, x, y);
                        assert!(allowed, "sheet {} {:?}: {x} {y}", page.sheet, page.side);
                    }
                }
            }
        }
        assert!(changed > 10_000, "marks show: {changed} pixels");
    }
}

#[test]
fn a_test_ballot_differs_only_in_the_stamps_area() {
    if !has("pdftoppm", "a_test_ballot_differs_only_in_the_stamps_area") {
        return;
    }
    let of = |state, name| {
        let sheet = ballot(&county::mixed(), state);
        let pages = pictures(name, &pdf(&sheet, None).unwrap(), 200);
        (sheet, pages)
    };
    let (sheet, official) = of(BallotState::Official, "official.pdf");
    let (_, test) = of(BallotState::Test, "test.pdf");
    for (page, (official, test)) in sheet.pages.iter().zip(official.iter().zip(&test)) {
        let (columns, rows) = touched(official, page.stamp.area);
        let mut changed = 0;
        for y in 0..official.height {
            for x in 0..official.width {
                if official.at(x, y) != test.at(x, y) {
                    changed += 1;
                    assert!(columns.contains(&x) && rows.contains(&y), "{x} {y}");
                }
            }
        }
        assert!(changed > 100, "the stamp shows");
    }
}

/// A cell of a row, one pixel clear of its neighbours at 300 dpi.
fn cell(cells: &CellRow, at: usize) -> Rect {
    let x = cells.origin.x.plus(cells.width.times(i32::try_from(at).unwrap()));
    Rect { x, y: cells.origin.y, width: cells.width, height: cells.height }
}

#[test]
fn each_letter_of_a_name_stands_in_its_cell() {
    if !has("pdftoppm", "each_letter_of_a_name_stands_in_its_cell") {
        return;
    }
    let election = county::mixed();
    let style = &election.styles[0];
    let sheet = ballot(&election, BallotState::Official);
    let selections = voter::selections(style, 8);
    let bytes = pdf(&sheet, Some(&Marks::of(&selections, style))).unwrap();
    let pages = pictures("letters.pdf", &bytes, 300);
    let mut letters = 0;
    for (page, picture) in sheet.pages.iter().zip(&pages) {
        for line in &page.write_ins {
            let name = selections.written(line.contest, line.option).unwrap();
            let marked = selections.is_marked(line.contest, line.option);
            let name: Vec<char> = if marked { name.as_str().chars().collect() } else { vec![] };
            for at in 0..usize::from(line.cells.count) {
                let (_, _, dark) = ink(picture, cell(&line.cells, at));
                let is_letter = name.get(at).is_some_and(|letter| *letter != ' ');
                letters += usize::from(is_letter);
                // A neighbour's edge may grey the pixels that cells share, but only that.
                assert_eq!(dark > 0.012, is_letter, "cell {at} of {:?} is {dark}", line.contest);
            }
        }
    }
    assert!(letters > 40, "only {letters} letters were printed");
}

#[test]
fn the_alphabet_stands_in_its_cells() {
    if !has("pdftoppm", "the_alphabet_stands_in_its_cells") {
        return;
    }
    let alphabet = alphabet_pdf().unwrap();
    assert_eq!(alphabet_pdf().unwrap().pdf, alphabet.pdf);
    let pages = pictures("alphabet.pdf", &alphabet.pdf, 300);
    let [picture] = pages.as_slice() else { panic!("one page") };
    for row in &alphabet.rows {
        for (at, character) in row.characters.iter().enumerate() {
            let (_, _, dark) = ink(picture, cell(&row.cells, at));
            assert_eq!(dark > 0.012, *character != ' ', "{character} is {dark} dark");
        }
    }
}

#[test]
fn qpdf_finds_nothing_wrong() {
    if !has("qpdf", "qpdf_finds_nothing_wrong") {
        return;
    }
    let election = county::mixed();
    let style = &election.styles[0];
    let sheet = ballot(&election, BallotState::Test);
    let marks = Marks::of(&voter::selections(style, 4), style);
    for (name, bytes) in [
        ("check-blank.pdf", pdf(&sheet, None).unwrap()),
        ("check-marked.pdf", pdf(&sheet, Some(&marks)).unwrap()),
        ("check-alphabet.pdf", alphabet_pdf().unwrap().pdf),
    ] {
        let output = run("qpdf", &["--check"], &file(name, &bytes));
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
        assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    }
}

#[test]
fn fonts_are_embedded_and_cut() {
    if !has("pdffonts", "fonts_are_embedded_and_cut") {
        return;
    }
    let bytes = pdf(&ballot(&county::mixed(), BallotState::Test), None).unwrap();
    let output = run("pdffonts", &[], &file("fonts.pdf", &bytes));
    let table = String::from_utf8(output.stdout).unwrap();
    let rows: Vec<&str> = table.lines().skip(2).collect();
    assert_eq!(rows.len(), 3, "{table}");
    // The columns are: embedded, subset, with a map to Unicode.
    assert!(rows.iter().all(|row| row.contains("yes yes yes")), "{table}");
}

#[test]
fn names_can_be_found_as_text() {
    if !has("pdftotext", "names_can_be_found_as_text") {
        return;
    }
    let bytes = pdf(&ballot(&county::mixed(), BallotState::Test), None).unwrap();
    let output = run("pdftotext", &["-layout"], &file("text.pdf", &bytes));
    assert!(output.status.success());
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("text.txt");
    let text = String::from_utf8(poppler::read(&path)).unwrap();
    for words in ["Augusta Ávila", "Vote for up to 3", "Alcaldía de Saltmarsh", "José Lindqvist"]
    {
        assert!(text.contains(words), "{words} isn't in the text");
    }
}
