//! What stands on a write-in line: whether there is ink, its picture, and the name where it is sure.

use evenhand_rules::WriteInReading;
use evenhand_sheet::{CellRow, WriteInLine};
use image::{GrayImage, Luma};

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
/// Edge of the line's area that isn't searched for ink: the ruled line may blur into it. Micrometres.
const RIM: f64 = 250.0;
/// From one look for ink to the next. Micrometres.
const STEP: f64 = 254.0;
/// White left around a picture that is handed out. Micrometres.
const PICTURE_RIM: f64 = 500.0;
/// How often the whole row is moved to coincide with what was recognised.
const MOVES: usize = 2;

/// Reads one line. The picture is given where something is written.
pub(crate) fn read(
    sight: &Sight<'_>,
    line: &WriteInLine,
    alphabet: &Alphabet,
) -> (WriteInReading, Option<GrayImage>) {
    let inked = ink_area(sight, line, None) >= WRITTEN_MIN;
    let text = if inked { name(sight, line, alphabet) } else { None };
    let picture = inked.then(|| picture(sight, line));
    (WriteInReading { contest: line.contest, option: line.option, inked, text }, picture)
}

/// Ink in mm² on a line; only what lies outside these cells, where they are given.
fn ink_area(sight: &Sight<'_>, line: &WriteInLine, outside: Option<&CellRow>) -> f32 {
    let (left, top) = (f64::from(line.area.x.0) + RIM, f64::from(line.area.y.0) + RIM);
    let right = f64::from(line.area.x.plus(line.area.width).0) - RIM;
    let bottom = f64::from(line.area.y.plus(line.area.height).0) - RIM;
    let in_cells = |x: f64, y: f64| {
        outside.is_some_and(|cells| {
            let (x, y) = (x - f64::from(cells.origin.x.0), y - f64::from(cells.origin.y.0));
            let width = f64::from(cells.width.0) * f64::from(cells.count);
            // Letters may blur a little out of their cells.
            (-STEP..=width + STEP).contains(&x)
                && (-STEP..=f64::from(cells.height.0) + STEP).contains(&y)
        })
    };
    let mut sum = 0.0;
    let mut y = top;
    while y < bottom {
        let mut x = left;
        while x < right {
            if !in_cells(x, y) {
                let moved = sight.moves.at(x, y);
                let half = STEP / 4.0;
                let ink = [(-half, -half), (half, -half), (-half, half), (half, half)]
                    .iter()
                    .map(|(across, down)| sight.ink(x + across, y + down, moved))
                    .sum::<f32>()
                    / 4.0;
                sum += if ink > NOISE { ink } else { 0.0 };
            }
            x += STEP;
        }
        y += STEP;
    }
    #[expect(clippy::cast_possible_truncation, reason = "0.0645")]
    let point = (STEP * STEP / 1e6) as f32;
    sum * point
}

/// The line's picture, upright, 200 points an inch, with a little of its surroundings.
fn picture(sight: &Sight<'_>, line: &WriteInLine) -> GrayImage {
    let left = f64::from(line.area.x.0) - PICTURE_RIM;
    let top = f64::from(line.area.y.0) - PICTURE_RIM;
    let size = |length: i32| {
        let points = (f64::from(length) + 2.0 * PICTURE_RIM) / LETTER_PITCH;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held to the range, and a line is shorter than the paper"
        )]
        let points = points.round().clamp(1.0, 4000.0) as u32;
        points
    };
    let (width, height) = (size(line.area.width.0), size(line.area.height.0));
    let mut out = GrayImage::new(width, height);
    for (row, pixels) in (0_u32..).zip(out.rows_mut()) {
        let y = top + (f64::from(row) + 0.5) * LETTER_PITCH;
        for (column, pixel) in (0_u32..).zip(pixels) {
            let x = left + (f64::from(column) + 0.5) * LETTER_PITCH;
            let ink = sight.ink(x, y, sight.moves.at(x, y));
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a share of 0 to 1 times 255"
            )]
            let grey = ((1.0 - ink) * 255.0).round() as u8;
            *pixel = Luma([grey]);
        }
    }
    out
}

/// The name, where every cell is sure and nothing stands outside them.
fn name(sight: &Sight<'_>, line: &WriteInLine, alphabet: &Alphabet) -> Option<String> {
    let cells = &line.cells;
    if ink_area(sight, line, Some(cells)) > OUTSIDE_MAX {
        return None;
    }
    let middle = f64::from(cells.origin.y.0) + f64::from(cells.height.0) / 2.0;
    let mut moved = sight.moves.at(f64::from(cells.origin.x.0), middle);
    let mut seen = Vec::new();
    for round in 0..=MOVES {
        seen = look(sight, cells, alphabet, moved);
        if round < MOVES {
            let (across, down) = push(&seen);
            if across.hypot(down) < 3.0 {
                break;
            }
            moved = (moved.0 + across, moved.1 + down);
        }
    }
    let mut text = String::new();
    for cell in &seen {
        match cell {
            Cell::Bare => text.push(' '),
            Cell::Letter { letter, likeness, lead, .. } => {
                if *likeness < LIKENESS_MIN || *lead < LEAD_MIN {
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
    Letter { letter: &'a Letter, likeness: f32, lead: f32, ink: Vec<f32> },
    Unknown,
}

/// Looks at every cell of a row that is moved by `moved`.
fn look<'a>(
    sight: &Sight<'_>,
    cells: &CellRow,
    alphabet: &'a Alphabet,
    moved: (f64, f64),
) -> Vec<Cell<'a>> {
    (0..cells.count)
        .map(|cell| {
            let ink = cell_ink(sight, cells, cell, alphabet, moved);
            let strong: f32 = ink.iter().filter(|&&ink| ink > NOISE).sum();
            if strong < INK_MIN {
                return Cell::Bare;
            }
            recognise(ink, alphabet)
        })
        .collect()
}

fn recognise(ink: Vec<f32>, alphabet: &Alphabet) -> Cell<'_> {
    let Some(seen) = shape(&ink) else { return Cell::Unknown };
    let likenesses: Vec<(f32, &Letter)> = alphabet
        .letters
        .iter()
        .filter_map(|letter| Some((correlation(&seen, letter.shape.as_ref()?), letter)))
        .collect();
    let most = likenesses.iter().map(|known| known.0).fold(f32::MIN, f32::max);
    let rivals: Vec<(f32, f32, &Letter)> = likenesses
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
    Cell::Letter { letter, likeness, lead, ink }
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
    let mut y = f64::from(cells.origin.y.0) + LETTER_PITCH / 2.0;
    for _ in 0..alphabet.rows {
        let mut x = left + LETTER_PITCH / 2.0;
        for _ in 0..alphabet.columns {
            ink.push(sight.ink(x, y, moved));
            x += LETTER_PITCH;
        }
        y += LETTER_PITCH;
    }
    ink
}

/// By how many micrometres the row should be moved so that what was seen coincides with the letters
/// it was taken for: one step of least squares on their slopes (Lucas and Kanade's method, 1981).
fn push(seen: &[Cell<'_>]) -> (f64, f64) {
    let (mut across, mut both, mut down) = (0.0_f32, 0.0_f32, 0.0_f32);
    let (mut right, mut below) = (0.0_f32, 0.0_f32);
    for cell in seen {
        let Cell::Letter { letter, ink, .. } = cell else { continue };
        let off: Vec<f32> = ink.iter().zip(&letter.ink).map(|(seen, known)| seen - known).collect();
        across += correlation(&letter.slope_across, &letter.slope_across);
        both += correlation(&letter.slope_across, &letter.slope_down);
        down += correlation(&letter.slope_down, &letter.slope_down);
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
