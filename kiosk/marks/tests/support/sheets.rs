//! Printed sheets to read in tests and benchmarks, and what a scanner may do to their pictures.
//!
//! Included by path: no crate ships it. It needs `county.rs` of the sheet's tests beside it as
//! `crate::county`.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::disallowed_methods,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "helpers of tests: a broken expectation stops the test; poppler is run by files"
)]

use std::io::Write;
use std::process::Command;

use evenhand_marks::{Alphabet, Dpi, Reader, SpecimenRow};
use evenhand_print::{Marks, WrittenName, alphabet_pdf, pdf};
use evenhand_rules::{BallotState, Election, OvalId, WriteInText};
use evenhand_scan::{PrintedBytes, Scanner};
use evenhand_sheet::{Ballot, Edition, compose};
use image::{GrayImage, Luma};

use crate::county;

/// The first style's ballot as the office prints it in English and Spanish.
pub(crate) fn ballot(election: &Election, state: BallotState) -> Ballot {
    ballot_of(election, 0, state)
}

/// A style's ballot as the office prints it in English and Spanish.
pub(crate) fn ballot_of(election: &Election, style: u16, state: BallotState) -> Ballot {
    let languages = county::both();
    let edition = Edition { languages: &languages, wording: &county::PlainWording };
    let of = &election.styles[usize::from(style)];
    compose(election, of, style, &edition, state).unwrap()
}

/// The pages of a document as hayro draws them.
pub(crate) fn by_hayro(document: Vec<u8>, dpi: u16) -> Vec<GrayImage> {
    let mut scanner = PrintedBytes::new(document, evenhand_scan::Dpi(dpi));
    scanner.scan().unwrap().into_iter().map(|side| side.picture).collect()
}

/// The pages of a document as poppler's pdftoppm draws them: a rasteriser that shares no code.
pub(crate) fn by_poppler(document: &[u8], dpi: u16) -> Vec<GrayImage> {
    let folder = tempfile();
    let file = folder.join("ballot.pdf");
    std::fs::File::create(&file).unwrap().write_all(document).unwrap();
    let status = Command::new("pdftoppm")
        .args(["-gray", "-r", &dpi.to_string()])
        .arg(&file)
        .arg(folder.join("page"))
        .status()
        .expect("poppler-utils is installed");
    assert!(status.success());
    let mut files: Vec<_> = std::fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "pgm"))
        .collect();
    files.sort();
    let pages = files.iter().map(|path| image::open(path).unwrap().into_luma8()).collect();
    std::fs::remove_dir_all(folder).unwrap();
    pages
}

fn tempfile() -> std::path::PathBuf {
    use std::sync::atomic::{AtomicU32, Ordering};
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let number = NEXT.fetch_add(1, Ordering::Relaxed);
    let folder = std::env::temp_dir().join(format!("evenhand-{}-{number}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// The letters of the printer's specimen.
pub(crate) fn alphabet() -> Alphabet {
    let specimen = alphabet_pdf().unwrap();
    let picture = by_hayro(specimen.pdf, 200).remove(0);
    let rows: Vec<SpecimenRow<'_>> = specimen
        .rows
        .iter()
        .map(|row| SpecimenRow { cells: &row.cells, characters: &row.characters })
        .collect();
    Alphabet::from_picture(&picture, Dpi(200), &rows).unwrap()
}

/// A reader that knows the ballot from its blank as hayro draws it.
pub(crate) fn reader(ballot: &Ballot) -> Reader {
    let blanks = by_hayro(pdf(ballot, None).unwrap(), 200);
    Reader::new(ballot, &blanks, Dpi(200), alphabet()).unwrap()
}

/// A repeatable source of numbers (Marsaglia's xorshift).
pub(crate) struct Chance(pub(crate) u64);

impl Chance {
    /// A number below `limit`.
    pub(crate) fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % limit as u64) as usize
    }
    /// Any grey value.
    pub(crate) fn grey(&mut self) -> u8 {
        self.below(256) as u8
    }
    /// A number from -1 to 1.
    pub(crate) fn even(&mut self) -> f64 {
        self.below(2_000_001) as f64 / 1e6 - 1.0
    }
    /// About normal with deviation 1: the sum of twelve even numbers.
    pub(crate) fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even() / 2.0).sum()
    }
}

/// A written name.
pub(crate) fn written(words: &str) -> WriteInText {
    let mut text = WriteInText::new();
    words.chars().for_each(|character| text.push(character).unwrap());
    text
}

/// Marks that no rule binds: each oval with the chance `share`, and a name on each write-in line with
/// a mark.
pub(crate) fn random_marks(ballot: &Ballot, chance: &mut Chance, share: f64) -> Marks {
    let mut marks = Marks { ovals: Vec::new(), names: Vec::new() };
    for page in &ballot.pages {
        for oval in &page.ovals {
            if chance.even() < share * 2.0 - 1.0 {
                marks.ovals.push(oval.id);
            }
        }
        for line in &page.write_ins {
            if chance.even() < share * 2.0 - 1.0 {
                let name = written(&random_name(chance, usize::from(line.cells.count)));
                marks.names.push(WrittenName { contest: line.contest, option: line.option, name });
            }
        }
    }
    marks
}

/// A name of every letter that can be printed, without spaces at its ends.
pub(crate) fn random_name(chance: &mut Chance, longest: usize) -> String {
    let letters: Vec<char> = evenhand_rules::WRITE_IN_CHARACTERS.chars().collect();
    let length = 1 + chance.below(longest.min(38));
    let mut name: Vec<char> = (0..length).map(|_| letters[chance.below(letters.len())]).collect();
    for end in [0, length - 1] {
        while name[end] == ' ' {
            name[end] = letters[chance.below(letters.len())];
        }
    }
    name.into_iter().collect()
}

/// The ovals that a reading has as marked, in order.
pub(crate) fn sorted(mut ovals: Vec<OvalId>) -> Vec<OvalId> {
    ovals.sort();
    ovals
}

/// What a scanner does to a sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scan {
    /// Turned clockwise.
    pub(crate) degrees: f64,
    /// Stretched across and down.
    pub(crate) scale: (f64, f64),
    /// Moved, in pixels.
    pub(crate) shift: (f64, f64),
    /// Deviation of the noise in grey values.
    pub(crate) noise: f64,
    /// What black and white become.
    pub(crate) levels: (f64, f64),
    /// Deviation of the blur in pixels.
    pub(crate) blur: f64,
    /// Grey of what lies around the sheet.
    pub(crate) around: u8,
}

/// As it came from the printer.
pub(crate) const AS_PRINTED: Scan = Scan {
    degrees: 0.0,
    scale: (1.0, 1.0),
    shift: (0.0, 0.0),
    noise: 0.0,
    levels: (0.0, 255.0),
    blur: 0.0,
    around: 255,
};

/// A picture as a scanner might have taken it, on a bed half an inch larger at each edge.
pub(crate) fn scanned(picture: &GrayImage, scan: &Scan, chance: &mut Chance) -> GrayImage {
    let rim = f64::from(picture.width()) / 17.0;
    let (width, height) = (f64::from(picture.width()), f64::from(picture.height()));
    let size = |length: f64| (length + 2.0 * rim).round() as u32;
    let (sine, cosine) = scan.degrees.to_radians().sin_cos();
    let mut out = GrayImage::new(size(width), size(height));
    let middle = (f64::from(out.width()) / 2.0, f64::from(out.height()) / 2.0);
    for (column, row, pixel) in out.enumerate_pixels_mut() {
        let x = f64::from(column) + 0.5 - middle.0 - scan.shift.0;
        let y = f64::from(row) + 0.5 - middle.1 - scan.shift.1;
        let back = (
            (x * cosine + y * sine) / scan.scale.0 + width / 2.0,
            (-x * sine + y * cosine) / scan.scale.1 + height / 2.0,
        );
        *pixel = Luma([looked_up(picture, back, scan.around)]);
    }
    let mut out = if scan.blur > 0.0 { blurred(&out, scan.blur) } else { out };
    for Luma([value]) in out.pixels_mut() {
        let (black, white) = scan.levels;
        let grey = black + f64::from(*value) / 255.0 * (white - black);
        let noise = if scan.noise > 0.0 { chance.normal() * scan.noise } else { 0.0 };
        *value = (grey + noise).round().clamp(0.0, 255.0) as u8;
    }
    out
}

fn looked_up(picture: &GrayImage, (x, y): (f64, f64), around: u8) -> u8 {
    let get = |x: f64, y: f64| {
        let inside = x >= 0.0
            && y >= 0.0
            && x < f64::from(picture.width())
            && y < f64::from(picture.height());
        let value = if inside { picture.get_pixel(x as u32, y as u32).0[0] } else { around };
        f64::from(value)
    };
    let (x, y) = (x - 0.5, y - 0.5);
    let (left, top) = (x.floor(), y.floor());
    let (right, down) = (x - left, y - top);
    let above = get(left, top) * (1.0 - right) + get(left + 1.0, top) * right;
    let below = get(left, top + 1.0) * (1.0 - right) + get(left + 1.0, top + 1.0) * right;
    (above * (1.0 - down) + below * down).round() as u8
}

/// A Gaussian blur, along rows and then along columns.
fn blurred(picture: &GrayImage, deviation: f64) -> GrayImage {
    let reach = (deviation * 3.0).ceil() as i64;
    let weights: Vec<f64> = (-reach..=reach)
        .map(|at| (-(at * at) as f64 / (2.0 * deviation * deviation)).exp())
        .collect();
    let total: f64 = weights.iter().sum();
    let pass = |source: &GrayImage, across: i64, down: i64| {
        GrayImage::from_fn(source.width(), source.height(), |x, y| {
            let sum: f64 = (-reach..=reach)
                .zip(&weights)
                .map(|(at, weight)| {
                    let x = (i64::from(x) + at * across).clamp(0, i64::from(source.width()) - 1);
                    let y = (i64::from(y) + at * down).clamp(0, i64::from(source.height()) - 1);
                    f64::from(source.get_pixel(x as u32, y as u32).0[0]) * weight
                })
                .sum();
            Luma([(sum / total).round() as u8])
        })
    };
    pass(&pass(picture, 1, 0), 0, 1)
}
