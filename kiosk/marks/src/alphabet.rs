//! How each letter of the printer's fixed-width face looks, learned from a printed specimen.

use evenhand_rules::Micrometres;
use evenhand_sheet::CellRow;
use image::GrayImage;

use crate::Dpi;
use crate::plane::View;

/// From one point of a letter's picture to the next: 200 an inch. Micrometres.
pub(crate) const LETTER_PITCH: f64 = 127.0;
/// The most points in a letter's picture, either way: 8 mm. Own limit.
const SIDE_MAX: usize = 64;

/// The letters that can be read, all in cells of one size.
#[derive(Clone, Debug)]
pub struct Alphabet {
    pub(crate) columns: usize,
    pub(crate) rows: usize,
    pub(crate) letters: Vec<Letter>,
}

/// One letter.
#[derive(Clone, Debug)]
pub(crate) struct Letter {
    pub(crate) character: char,
    /// Ink, 0 to 1, row by row.
    pub(crate) ink: Vec<f32>,
    /// The same, moved to mean 0 and scaled to length 1; `None` for a letter without ink (a space).
    pub(crate) shape: Option<Vec<f32>>,
    /// How the ink changes to the right, a point.
    pub(crate) slope_across: Vec<f32>,
    /// How the ink changes downwards, a point.
    pub(crate) slope_down: Vec<f32>,
    /// Sums of the slopes' squares and products: across, both, down.
    pub(crate) slopes: [f32; 3],
}

impl Letter {
    /// A letter whose ink is `ink` divided by `count`, in rows of `columns`.
    fn new(character: char, mut ink: Vec<f32>, count: f32, columns: usize) -> Self {
        for ink in &mut ink {
            *ink /= count;
        }
        let at = |index: Option<usize>| index.and_then(|at| ink.get(at)).copied().unwrap_or(0.0);
        let slope = |step: usize| {
            let here = |index: usize| at(index.checked_add(step)) - at(index.checked_sub(step));
            (0..ink.len()).map(|index| here(index) / 2.0).collect()
        };
        let (slope_across, slope_down): (Vec<f32>, Vec<f32>) = (slope(1), slope(columns));
        let shape = shape(&ink);
        let slopes = [
            correlation(&slope_across, &slope_across),
            correlation(&slope_across, &slope_down),
            correlation(&slope_down, &slope_down),
        ];
        Self { character, ink, shape, slope_across, slope_down, slopes }
    }

    /// How unlike this letter some ink is, wherever within three quarters of a point it lies: the
    /// sum of squares that no small move of the letter explains.
    pub(crate) fn unlike(&self, ink: &[f32]) -> f32 {
        let off: Vec<f32> = ink.iter().zip(&self.ink).map(|(seen, known)| seen - known).collect();
        let [across, both, down] = self.slopes;
        let (across, down) = (across + STEADY, down + STEADY);
        let right = correlation(&off, &self.slope_across);
        let below = correlation(&off, &self.slope_down);
        let size = across * down - both * both;
        let x = ((down * right - both * below) / size).clamp(-NUDGE_MAX, NUDGE_MAX);
        let y = ((across * below - both * right) / size).clamp(-NUDGE_MAX, NUDGE_MAX);
        let slopes = self.slope_across.iter().zip(&self.slope_down);
        off.iter()
            .zip(slopes)
            .map(|(off, (across, down))| {
                let left = off - across * x - down * y;
                left * left
            })
            .sum()
    }
}

/// The farthest that one letter may lie off its row, in points: poppler sets letters to quarters of a
/// pixel across and whole pixels down, and printers waver as much.
const NUDGE_MAX: f32 = 0.75;
/// Added to sums of squared slopes, so that a letter of one stroke has a firm answer.
const STEADY: f32 = 0.1;

/// One row of the specimen: its cells, and the character in each from the left.
#[derive(Clone, Copy, Debug)]
pub struct SpecimenRow<'a> {
    /// Where its cells stand.
    pub cells: &'a CellRow,
    /// The characters, at most one a cell.
    pub characters: &'a [char],
}

/// Why a specimen can't be learned from.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AlphabetError {
    /// The specimen names no character.
    #[error("the specimen has no letters")]
    Empty,
    /// A cell lies outside the picture, has no size, or differs in size from the first.
    #[error("the cell of {character:?} lies outside the specimen, or isn't as large as the first")]
    Cell {
        /// Whose cell.
        character: char,
    },
    /// Two letters look the same, so neither could ever be read.
    #[error("{first:?} and {second:?} look the same on the specimen")]
    Alike {
        /// One of them.
        first: char,
        /// The other.
        second: char,
    },
}

/// Points of full ink by which two letters must differ wherever they lie: 0.03 mm². Own choice.
const ALIKE: f32 = 2.0;

impl Alphabet {
    /// Learns the letters from a picture of a specimen page, taken upright at `dpi`. A character that
    /// stands in several rows is learned as the mean of them, so that it doesn't depend on how pixels
    /// happened to cut it.
    ///
    /// # Errors
    /// [`AlphabetError`] where there is nothing to learn or two letters can't be told apart.
    pub fn from_picture(
        picture: &GrayImage,
        dpi: Dpi,
        rows: &[SpecimenRow<'_>],
    ) -> Result<Self, AlphabetError> {
        let first = rows.first().ok_or(AlphabetError::Empty)?.cells;
        let (columns, lines) = (points(first.width), points(first.height));
        let mut learned: Vec<(char, Vec<f32>, f32)> = Vec::new();
        for row in rows {
            for (cell, &character) in (0_u16..).zip(row.characters) {
                let fits = row.cells.width == first.width
                    && row.cells.height == first.height
                    && cell < row.cells.count
                    && (2..=SIDE_MAX).contains(&columns)
                    && (2..=SIDE_MAX).contains(&lines);
                let ink = fits
                    .then(|| specimen_cell(picture, dpi, row.cells, cell, columns, lines))
                    .flatten()
                    .ok_or(AlphabetError::Cell { character })?;
                let known = learned.iter_mut().find(|(known, _, _)| *known == character);
                if let Some((_, sum, count)) = known {
                    sum.iter_mut().zip(ink).for_each(|(sum, more)| *sum += more);
                    *count += 1.0;
                } else {
                    learned.push((character, ink, 1.0));
                }
            }
        }
        if learned.is_empty() {
            return Err(AlphabetError::Empty);
        }
        let letters = learned
            .into_iter()
            .map(|(character, ink, count)| Letter::new(character, ink, count, columns))
            .collect();
        let alphabet = Self { columns, rows: lines, letters };
        alphabet.check()?;
        Ok(alphabet)
    }

    /// Refuses two letters of one look.
    fn check(&self) -> Result<(), AlphabetError> {
        for (index, one) in self.letters.iter().enumerate() {
            for other in self.letters.iter().skip(index.saturating_add(1)) {
                let alike = match (&one.shape, &other.shape) {
                    (Some(_), Some(_)) => one.unlike(&other.ink) < ALIKE,
                    (None, None) => true,
                    (Some(_), None) | (None, Some(_)) => false,
                };
                if alike {
                    let (first, second) = (one.character, other.character);
                    return Err(AlphabetError::Alike { first, second });
                }
            }
        }
        Ok(())
    }
}

/// The product of two shapes of length 1: 1 where they are the same.
pub(crate) fn correlation(left: &[f32], right: &[f32]) -> f32 {
    // Eight sums side by side, so that the processor can keep them apart.
    let mut sums = [0.0_f32; 8];
    let (left, right) = (left.chunks_exact(8), right.chunks_exact(8));
    let rest: f32 = left.remainder().iter().zip(right.remainder()).map(|(a, b)| a * b).sum();
    for (a, b) in left.zip(right) {
        for ((sum, a), b) in sums.iter_mut().zip(a).zip(b) {
            *sum += a * b;
        }
    }
    sums.iter().sum::<f32>() + rest
}

/// Ink moved to mean 0 and scaled to length 1, or nothing where there is hardly any ink.
pub(crate) fn shape(ink: &[f32]) -> Option<Vec<f32>> {
    let total: f32 = ink.iter().sum();
    if total < INK_MIN {
        return None;
    }
    #[expect(clippy::cast_precision_loss, reason = "at most 64 x 64 points")]
    let mean = total / ink.len().max(1) as f32;
    let length = ink.iter().map(|v| (v - mean) * (v - mean)).sum::<f32>().sqrt();
    (length > 0.0).then(|| ink.iter().map(|v| (v - mean) / length).collect())
}

/// Points of full ink in a cell below which it holds nothing: 0.06 mm². A full stop has 0.25 mm².
pub(crate) const INK_MIN: f32 = 4.0;

/// The number of points that fit best.
pub(crate) fn points(length: Micrometres) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not negative, and casts from float are held to the range"
    )]
    let count = (f64::from(length.0.max(0)) / LETTER_PITCH).round() as usize;
    count
}

/// One cell's ink, from a specimen that is upright at a known scale.
fn specimen_cell(
    picture: &GrayImage,
    dpi: Dpi,
    cells: &CellRow,
    cell: u16,
    columns: usize,
    rows: usize,
) -> Option<Vec<f32>> {
    let scale = f64::from(dpi.0) / f64::from(Micrometres::INCH.0);
    let view = View::of(picture);
    let left = f64::from(cells.origin.x.0) + f64::from(cell) * f64::from(cells.width.0);
    let top = f64::from(cells.origin.y.0);
    let mut ink = Vec::with_capacity(columns.saturating_mul(rows));
    let mut y = top + LETTER_PITCH / 2.0;
    for _ in 0..rows {
        let mut x = left + LETTER_PITCH / 2.0;
        for _ in 0..columns {
            #[expect(clippy::cast_possible_truncation, reason = "positions are far within f32")]
            let grey = view.at((x * scale) as f32, (y * scale) as f32)?;
            ink.push(1.0 - grey / 255.0);
            x += LETTER_PITCH;
        }
        y += LETTER_PITCH;
    }
    Some(ink)
}
