//! The page's own grid, on which a picture is compared with the blank sheet, and the blank on it.
//!
//! A grid point every 0.254 mm (100 an inch): at 200 dpi two pixels, fine enough that a letter of
//! 10 pt differs from another by several points, coarse enough that noise averages out.
#![expect(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::cast_possible_wrap,
    reason = "loops over grid points: columns and rows are held to the grid's own size, which is \
              below 2^12 either way; ink sums of a tile fit in f32 and i32"
)]

use evenhand_rules::Micrometres;
use evenhand_sheet::{Ballot, Page, Rect};

use crate::mapping::Mapping;
use crate::plane::Plane;

/// Micrometres from one grid point to the next.
pub(crate) const PITCH: f64 = 254.0;
/// Grid points along a tile: 8.1 mm, the patch that is aligned and compared as one.
pub(crate) const TILE: usize = 32;
/// A tile with one grid point more on every side.
pub(crate) const WIDE: usize = TILE + 2;

/// Ink of a blank's grid point, of 255, above which it counts as print.
const PRINT_INK: u8 = 40;
/// How far, in grid points, the neighbourhood of print reaches: 1 mm. Within it a difference is an
/// altered letter; outside it is a stray mark.
const NEAR: usize = 4;
/// Clear strip at the paper's edges that isn't compared: a scanner's shadow falls there. Micrometres.
const EDGE: i32 = 2_500;
/// Room around ovals and codes that isn't compared: ink spreads and pictures blur. Micrometres.
const SPREAD: i32 = 250;

/// How a grid point is compared.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Care {
    /// Not at all: inside an oval, on a write-in line, in the code, at the paper's edge.
    None,
    /// As print.
    Print,
    /// As bare paper.
    Paper,
}

/// One tile of a page.
pub(crate) struct Tile {
    pub(crate) column: usize,
    pub(crate) row: usize,
    pub(crate) kind: TileKind,
}

/// What a tile holds.
pub(crate) enum TileKind {
    /// Some print: sums of squared slopes of its ink (across, both, down), to align by.
    Print([f32; 3]),
    /// Bare paper.
    Paper,
}

/// A blank page on its grid.
pub(crate) struct BlankGrid {
    pub(crate) columns: usize,
    pub(crate) rows: usize,
    /// Ink, 0 to 255.
    pub(crate) ink: Vec<u8>,
    pub(crate) care: Vec<Care>,
    pub(crate) tiles: Vec<Tile>,
}

impl BlankGrid {
    /// The blank picture laid on the grid. `fine` is it at about 100 pixels an inch, `mapping` leads
    /// from the page to `fine`, `ink` from grey to ink.
    pub(crate) fn new(
        ballot: &Ballot,
        page: &Page,
        fine: &Plane,
        mapping: &Mapping,
        table: &[u8; 256],
    ) -> Self {
        let columns = points(ballot.width);
        let rows = points(ballot.length);
        let mut ink = vec![0_u8; columns * rows];
        for (row, line) in ink.chunks_exact_mut(columns.max(1)).enumerate() {
            // Mapped tile by tile, so that a slight keystone is followed.
            for (tile, part) in line.chunks_mut(TILE).enumerate() {
                sample(fine, mapping, ((tile * TILE) as f64, row as f64), PITCH, part);
                for value in part {
                    *value = table[usize::from(*value)];
                }
            }
        }
        let care = cares(page, &ink, columns, rows);
        let mut grid = Self { columns, rows, ink, care, tiles: Vec::new() };
        grid.tiles = grid.lay_tiles();
        grid
    }

    /// The blank's ink at a grid point; none outside the page.
    pub(crate) fn ink_at(&self, column: isize, row: isize) -> u8 {
        let inside = column >= 0 && row >= 0;
        if inside && (column as usize) < self.columns && (row as usize) < self.rows {
            self.ink[row as usize * self.columns + column as usize]
        } else {
            0
        }
    }

    fn lay_tiles(&self) -> Vec<Tile> {
        let mut tiles = Vec::new();
        for row in (0..self.rows).step_by(TILE) {
            for column in (0..self.columns).step_by(TILE) {
                let (mut printed, mut compared) = (false, false);
                let mut slopes = [0.0_f32; 3];
                for y in row..(row + TILE).min(self.rows) {
                    for x in column..(column + TILE).min(self.columns) {
                        match self.care[y * self.columns + x] {
                            Care::None => {}
                            Care::Paper => compared = true,
                            Care::Print => {
                                (compared, printed) = (true, true);
                                let (across, down) = self.slope(x, y);
                                let (across, down) = (across as f32, down as f32);
                                slopes[0] += across * across;
                                slopes[1] += across * down;
                                slopes[2] += down * down;
                            }
                        }
                    }
                }
                if printed {
                    tiles.push(Tile { column, row, kind: TileKind::Print(slopes) });
                } else if compared {
                    tiles.push(Tile { column, row, kind: TileKind::Paper });
                }
            }
        }
        tiles
    }

    /// How the blank's ink changes to the right and downwards, in 255ths a grid point, doubled.
    pub(crate) fn slope(&self, column: usize, row: usize) -> (i32, i32) {
        let (x, y) = (column as isize, row as isize);
        let ink = |x, y| i32::from(self.ink_at(x, y));
        (ink(x + 1, y) - ink(x - 1, y), ink(x, y + 1) - ink(x, y - 1))
    }
}

/// Samples a row of points that stand `pitch` micrometres apart, from `(column, row)` on. Point `n`
/// stands in the middle of its square, at `n + 0.5` pitches.
pub(crate) fn sample(
    plane: &Plane,
    mapping: &Mapping,
    (column, row): (f64, f64),
    pitch: f64,
    out: &mut [u8],
) {
    let Some(last) = out.len().checked_sub(1) else { return };
    let y = (row + 0.5) * pitch;
    let start = mapping.at((column + 0.5) * pitch, y);
    let end = mapping.at((column + 0.5 + last as f64) * pitch, y);
    let steps = last.max(1) as f64;
    let step = ((end.x - start.x) / steps, (end.y - start.y) / steps);
    plane.view().row((start.x, start.y), step, u8::MAX, out);
}

fn points(length: Micrometres) -> usize {
    (f64::from(length.0.max(0)) / PITCH).round() as usize
}

/// How every grid point is compared.
fn cares(page: &Page, ink: &[u8], columns: usize, rows: usize) -> Vec<Care> {
    let mut care = vec![Care::Paper; columns * rows];
    spread_print(ink, columns, rows, &mut care);
    let edge = (f64::from(EDGE) / PITCH) as usize;
    for row in 0..rows {
        for column in 0..columns {
            let at_edge =
                row < edge || column < edge || row + edge >= rows || column + edge >= columns;
            let at = row * columns + column;
            if at_edge && care[at] == Care::Paper {
                care[at] = Care::None;
            }
        }
    }
    let mut clear = |area: &Rect, inside: &dyn Fn(f64, f64) -> bool| {
        let first = |edge: i32| (f64::from(edge) / PITCH).floor().max(0.0) as usize;
        let bottom = first(area.y.0 + area.height.0) + 1;
        let right = first(area.x.0 + area.width.0) + 1;
        for row in first(area.y.0)..bottom.min(rows) {
            for column in first(area.x.0)..right.min(columns) {
                let x = ((column as f64 + 0.5) * PITCH - f64::from(area.x.0))
                    / f64::from(area.width.0.max(1));
                let y = ((row as f64 + 0.5) * PITCH - f64::from(area.y.0))
                    / f64::from(area.height.0.max(1));
                if inside(x, y) {
                    care[row * columns + column] = Care::None;
                }
            }
        }
    };
    let in_oval = |x: f64, y: f64| (2.0 * x - 1.0).hypot(2.0 * y - 1.0) <= 1.0;
    for oval in &page.ovals {
        clear(&grown(&oval.area, SPREAD + oval.stroke.0 / 2), &in_oval);
    }
    for line in &page.write_ins {
        clear(&line.area, &|_, _| true);
    }
    let code = &page.code;
    let code_rows = code.modules.len() / usize::from(code.columns.max(1));
    let code_area = Rect {
        x: code.origin.x,
        y: code.origin.y,
        width: code.module.times(i32::from(code.columns)),
        height: code.module.times(code_rows as i32),
    };
    clear(&grown(&code_area, SPREAD), &|_, _| true);
    care
}

/// Marks the neighbourhood of print, first along rows, then along columns.
fn spread_print(ink: &[u8], columns: usize, rows: usize, care: &mut [Care]) {
    let mut near = vec![false; ink.len()];
    for row in 0..rows {
        for column in 0..columns {
            if ink[row * columns + column] > PRINT_INK {
                let right = (column + NEAR + 1).min(columns);
                let start = row * columns;
                near[start + column.saturating_sub(NEAR)..start + right].fill(true);
            }
        }
    }
    for row in 0..rows {
        let above = row.saturating_sub(NEAR);
        let below = (row + NEAR + 1).min(rows);
        for column in 0..columns {
            if near[row * columns + column] {
                for y in above..below {
                    care[y * columns + column] = Care::Print;
                }
            }
        }
    }
}

fn grown(area: &Rect, by: i32) -> Rect {
    let by = Micrometres(by);
    Rect {
        x: area.x.minus(by),
        y: area.y.minus(by),
        width: area.width.plus(by.times(2)),
        height: area.height.plus(by.times(2)),
    }
}
