//! What stands on a write-in line: whether there is ink, its picture, and the name where it is sure.

use evenhand_rules::WriteInReading;
use evenhand_sheet::{CellRow, WriteInLine};
use image::GrayImage;

use crate::alphabet::{Alphabet, INK_MIN, LETTER_PITCH, Letter, correlation, shape};
use crate::ovals::Sight;

/// Correlation with a letter's picture from which on it may be that letter. Own choice: printed
/// letters reach 0.96 and more at 200 dpi, blurred and noisy ones 0.9; writing by hand stays below 0.7.
pub const LIKENESS_MIN: f32 = 0.85;
/// How far the ink must lie on the best letter's side where it and its rival differ: 1 is the letter
/// exactly, 0 half way between, -1 the rival. Own choice: half way between 0 and 1. So an accent or
/// the tail of a Q alone decides, however small it is beside the whole letter.
pub const LEAD_MIN: f32 = 0.5;
/// How far below the best correlation a letter is no rival any more. A missing accent costs 0.1.
const RIVAL_WITHIN: f32 = 0.25;
/// Ink on the line, in mm², from which on something is written. A full stop has 0.25.
const WRITTEN_MIN: f32 = 0.1;
/// Ink outside the cells, in mm², beyond which the name isn't the printer's alone.
const OUTSIDE_MAX: f32 = 0.4;
/// A share of ink that paper's noise doesn't reach.
const NOISE: f32 = 0.25;
/// The same of 255.
const NOISE_INK: u32 = 64;
/// Edge of the line's area that isn't searched for ink: the ruled line may blur into it. Micrometres.
const RIM: f64 = 250.0;
/// How far letters may blur out of their cells. Micrometres.
const BLUR: f64 = 254.0;
/// White left around a picture that is handed out. Micrometres.
const PICTURE_RIM: f64 = 500.0;
/// How often the whole row is moved to coincide with what was recognised.
const MOVES: usize = 2;
/// How many letters that is judged by.
const GLANCES: usize = 12;

/// Reads one line. The picture is given where something is written.
pub(crate) fn read(
    sight: &Sight<'_>,
    line: &WriteInLine,
    alphabet: &Alphabet,
) -> (WriteInReading, Option<GrayImage>) {
    let strip = Strip::of(sight, line);
    let inked = strip.ink_area(line, None) >= WRITTEN_MIN;
    let text = if inked { name(sight, line, &strip, alphabet) } else { None };
    let picture = if inked { strip.picture() } else { None };
    (WriteInReading { contest: line.contest, option: line.option, inked, text }, picture)
}

/// A line's ink and a little of its surroundings, upright, 200 points an inch.
struct Strip {
    left: f64,
    top: f64,
    columns: usize,
    ink: Vec<u8>,
}

impl Strip {
    fn of(sight: &Sight<'_>, line: &WriteInLine) -> Self {
        let area = line.area;
        let left = f64::from(area.x.0) - PICTURE_RIM;
        let top = f64::from(area.y.0) - PICTURE_RIM;
        let size = |length: i32| {
            let points = (f64::from(length) + 2.0 * PICTURE_RIM) / LETTER_PITCH;
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "held to the range, and a line is shorter than the paper"
            )]
            let points = points.round().clamp(1.0, 4000.0) as usize;
            points
        };
        let (columns, rows) = (size(area.width.0), size(area.height.0));
        let middle = area.centre();
        let moved = sight.moves.at(f64::from(middle.x.0), f64::from(middle.y.0));
        let mut ink = vec![0; columns.saturating_mul(rows)];
        let mut y = top + LETTER_PITCH / 2.0;
        for row in ink.chunks_exact_mut(columns) {
            sight.row(left + LETTER_PITCH / 2.0, y, LETTER_PITCH, moved, row);
            y += LETTER_PITCH;
        }
        Self { left, top, columns, ink }
    }

    /// Ink in mm² on the line, its rim left aside; only what lies outside these cells, where they are
    /// given. Four points are taken together, so that noise is halved.
    fn ink_area(&self, line: &WriteInLine, outside: Option<&CellRow>) -> f32 {
        let (first, highest) = (f64::from(line.area.x.0) + RIM, f64::from(line.area.y.0) + RIM);
        let last = f64::from(line.area.right().0) - RIM;
        let lowest = f64::from(line.area.bottom().0) - RIM;
        let in_cells = |x: f64, y: f64| {
            outside.is_some_and(|cells| {
                let (x, y) = (x - f64::from(cells.origin.x.0), y - f64::from(cells.origin.y.0));
                let width = f64::from(cells.width.0) * f64::from(cells.count);
                // Letters may blur a little out of their cells.
                (-BLUR..=width + BLUR).contains(&x)
                    && (-BLUR..=f64::from(cells.height.0) + BLUR).contains(&y)
            })
        };
        let mut sum = 0_u32;
        let mut y = self.top + LETTER_PITCH;
        for pair in self.ink.chunks_exact(self.columns.saturating_mul(2)) {
            let (upper, lower) = pair.split_at(self.columns);
            let mut x = self.left + LETTER_PITCH;
            for (above, below) in upper.chunks_exact(2).zip(lower.chunks_exact(2)) {
                let four = above.iter().chain(below);
                let ink = four.fold(0_u32, |sum, &ink| sum.saturating_add(u32::from(ink))) / 4;
                let inside = (first..last).contains(&x) && (highest..lowest).contains(&y);
                if ink > NOISE_INK && inside && !in_cells(x, y) {
                    sum = sum.saturating_add(ink);
                }
                x += 2.0 * LETTER_PITCH;
            }
            y += 2.0 * LETTER_PITCH;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_precision_loss,
            reason = "at most 2^14 groups of 255; the area of a group is 0.0645 mm²"
        )]
        let area = sum as f32 / 255.0 * (4.0 * LETTER_PITCH * LETTER_PITCH / 1e6) as f32;
        area
    }

    fn picture(&self) -> Option<GrayImage> {
        let rows = self.ink.len().checked_div(self.columns)?;
        let grey = self.ink.iter().map(|ink| u8::MAX.saturating_sub(*ink)).collect();
        let (width, height) = (u32::try_from(self.columns).ok()?, u32::try_from(rows).ok()?);
        GrayImage::from_raw(width, height, grey)
    }
}

/// The name, where every cell is sure and nothing stands outside them.
fn name(
    sight: &Sight<'_>,
    line: &WriteInLine,
    strip: &Strip,
    alphabet: &Alphabet,
) -> Option<String> {
    let cells = &line.cells;
    if strip.ink_area(line, Some(cells)) > OUTSIDE_MAX {
        return None;
    }
    let middle = f64::from(cells.origin.y.0) + f64::from(cells.height.0) / 2.0;
    let mut moved = sight.moves.at(f64::from(cells.origin.x.0), middle);
    for _ in 0..MOVES {
        let (across, down) = push(&glance(sight, cells, alphabet, moved));
        if across.hypot(down) < 3.0 {
            break;
        }
        moved = (moved.0 + across, moved.1 + down);
    }
    let mut text = String::new();
    for cell in 0..cells.count {
        match look(sight, cells, cell, alphabet, moved) {
            Cell::Bare => text.push(' '),
            Cell::Letter { letter, likeness, lead } => {
                if likeness < LIKENESS_MIN || lead < LEAD_MIN {
                    return None;
                }
                text.push(letter.character);
            }
            Cell::Unknown => return None,
        }
    }
    let text = text.trim();
    (!text.is_empty()).then(|| text.to_owned())
}

/// One cell as it was seen.
enum Cell<'a> {
    Bare,
    Letter { letter: &'a Letter, likeness: f32, lead: f32 },
    Unknown,
}

/// Takes the first few inked cells of a row for the letters they are most like.
fn glance<'a>(
    sight: &Sight<'_>,
    cells: &CellRow,
    alphabet: &'a Alphabet,
    moved: (f64, f64),
) -> Vec<(&'a Letter, Vec<f32>)> {
    (0..cells.count)
        .filter_map(|cell| {
            let ink = cell_ink(sight, cells, cell, alphabet, moved);
            let known = likenesses(&ink, alphabet)?;
            let (_, letter) = known.into_iter().max_by(|one, other| one.0.total_cmp(&other.0))?;
            Some((letter, ink))
        })
        .take(GLANCES)
        .collect()
}

/// Correlation with every letter that has ink; nothing for a cell that has none.
fn likenesses<'a>(ink: &[f32], alphabet: &'a Alphabet) -> Option<Vec<(f32, &'a Letter)>> {
    let strong: f32 = ink.iter().filter(|&&ink| ink > NOISE).sum();
    if strong < INK_MIN {
        return None;
    }
    let seen = shape(ink)?;
    let letters = alphabet.letters.iter();
    Some(
        letters
            .filter_map(|letter| Some((correlation(&seen, letter.shape.as_ref()?), letter)))
            .collect(),
    )
}

/// Looks at one cell of a row that is moved by `moved`.
fn look<'a>(
    sight: &Sight<'_>,
    cells: &CellRow,
    cell: u16,
    alphabet: &'a Alphabet,
    moved: (f64, f64),
) -> Cell<'a> {
    let ink = cell_ink(sight, cells, cell, alphabet, moved);
    let Some(known) = likenesses(&ink, alphabet) else { return Cell::Bare };
    let most = known.iter().map(|(likeness, _)| *likeness).fold(f32::MIN, f32::max);
    let rivals: Vec<(f32, f32, &Letter)> = known
        .into_iter()
        .filter(|(likeness, _)| *likeness >= most - RIVAL_WITHIN)
        .map(|(likeness, letter)| {
            (letter.unlike(&with_strength_of(&ink, letter)), likeness, letter)
        })
        .collect();
    let best = rivals.iter().min_by(|one, other| one.0.total_cmp(&other.0));
    let Some(&(unlike, likeness, letter)) = best else { return Cell::Unknown };
    let lead = rivals
        .iter()
        .filter(|(_, _, rival)| rival.character != letter.character)
        .map(|(rivals_unlike, _, rival)| {
            (rivals_unlike - unlike) / rival.unlike(&letter.ink).max(0.01)
        })
        .fold(1.0, f32::min);
    Cell::Letter { letter, likeness, lead }
}

/// The ink as strong as the letter's own: print may be pale or bold.
fn with_strength_of(ink: &[f32], letter: &Letter) -> Vec<f32> {
    let strength = correlation(ink, &letter.ink) / correlation(&letter.ink, &letter.ink).max(0.1);
    let strength = strength.clamp(0.6, 1.6);
    ink.iter().map(|ink| ink / strength).collect()
}

/// A cell's ink, point by point as the alphabet's letters are.
fn cell_ink(
    sight: &Sight<'_>,
    cells: &CellRow,
    cell: u16,
    alphabet: &Alphabet,
    moved: (f64, f64),
) -> Vec<f32> {
    let left = f64::from(cells.origin.x.0) + f64::from(cell) * f64::from(cells.width.0);
    let mut ink = Vec::with_capacity(alphabet.columns.saturating_mul(alphabet.rows));
    let mut row = vec![0; alphabet.columns];
    let mut y = f64::from(cells.origin.y.0) + LETTER_PITCH / 2.0;
    for _ in 0..alphabet.rows {
        sight.row(left + LETTER_PITCH / 2.0, y, LETTER_PITCH, moved, &mut row);
        ink.extend(row.iter().map(|&ink| f32::from(ink) / 255.0));
        y += LETTER_PITCH;
    }
    ink
}

/// By how many micrometres the row should be moved so that what was seen coincides with the letters
/// it was taken for: one step of least squares on their slopes (Lucas and Kanade's method, 1981).
fn push(seen: &[(&Letter, Vec<f32>)]) -> (f64, f64) {
    let (mut across, mut both, mut down) = (0.0_f32, 0.0_f32, 0.0_f32);
    let (mut right, mut below) = (0.0_f32, 0.0_f32);
    for (letter, ink) in seen {
        let off: Vec<f32> = ink.iter().zip(&letter.ink).map(|(seen, known)| seen - known).collect();
        let [letter_across, letter_both, letter_down] = letter.slopes;
        across += letter_across;
        both += letter_both;
        down += letter_down;
        right += correlation(&off, &letter.slope_across);
        below += correlation(&off, &letter.slope_down);
    }
    let size = across * down - both * both;
    if size < 1.0 {
        return (0.0, 0.0);
    }
    let x = -(down * right - both * below) / size;
    let y = -(across * below - both * right) / size;
    let held = |step: f32| f64::from(step.clamp(-1.5, 1.5)) * LETTER_PITCH;
    (held(x), held(y))
}
