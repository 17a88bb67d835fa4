//! The touch grid: cells that together cover a screen, each to be touched by a person.

use evenhand_rules::Micrometres;
use evenhand_sheet::{Point, Rect};

/// The longest that a cell may be either way. Own choice: a screen of 22 in has 84 cells, which are
/// touched within two minutes.
pub const CELL_MAX: Micrometres = Micrometres(40_000);
/// The longest side of a screen that a grid is made for: three metres. Own limit.
const SIDE_MAX: i32 = 3_000_000;

/// A screen's cells, row by row from the top left. They cover every place once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TouchGrid {
    // Invariant: both from 1 µm to SIDE_MAX.
    width: Micrometres,
    height: Micrometres,
}

impl TouchGrid {
    /// The grid of a screen of this size; none where it isn't one that can be.
    pub fn new(width: Micrometres, height: Micrometres) -> Option<Self> {
        let is_side = |side: Micrometres| (1..=SIDE_MAX).contains(&side.0);
        (is_side(width) && is_side(height)).then_some(Self { width, height })
    }

    /// How many cells there are in a row.
    pub fn columns(self) -> i32 {
        parts(self.width)
    }

    /// How many rows there are.
    pub fn rows(self) -> i32 {
        parts(self.height)
    }

    /// Every cell, row by row.
    pub fn cells(self) -> Vec<Rect> {
        let (columns, rows) = (self.columns(), self.rows());
        let mut cells = Vec::new();
        for row in 0..rows {
            let (y, bottom) = (edge(self.height, rows, row), edge(self.height, rows, row + 1));
            for column in 0..columns {
                let x = edge(self.width, columns, column);
                let right = edge(self.width, columns, column + 1);
                cells.push(Rect { x, y, width: right.minus(x), height: bottom.minus(y) });
            }
        }
        cells
    }

    /// Which of [`TouchGrid::cells`] a place is in; none beside the screen.
    pub fn cell_at(self, place: Point) -> Option<usize> {
        let is_in = |cell: &Rect| {
            let across = cell.x <= place.x && place.x < cell.right();
            across && cell.y <= place.y && place.y < cell.bottom()
        };
        self.cells().iter().position(is_in)
    }
}

/// The fewest equal parts of a side that are no longer than a cell may be.
fn parts(side: Micrometres) -> i32 {
    side.0.saturating_add(CELL_MAX.0 - 1) / CELL_MAX.0
}

/// Where a part begins. Parts differ by a micrometre at most.
fn edge(side: Micrometres, parts: i32, part: i32) -> Micrometres {
    let at = i64::from(side.0) * i64::from(part) / i64::from(parts.max(1));
    Micrometres(i32::try_from(at).unwrap_or(side.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_cover_every_place_once_and_none_is_too_large() {
        for (width, height, columns, rows) in [
            (477_000, 268_000, 12, 7),
            (527_040, 296_460, 14, 8),
            (40_000, 40_000, 1, 1),
            (40_001, 80_000, 2, 2),
            (1, 1, 1, 1),
            (SIDE_MAX, 123_457, 75, 4),
        ] {
            let grid = TouchGrid::new(Micrometres(width), Micrometres(height)).unwrap();
            assert_eq!((grid.columns(), grid.rows()), (columns, rows));
            let cells = grid.cells();
            assert_eq!(cells.len(), usize::try_from(columns * rows).unwrap());
            let area = |cell: &Rect| i64::from(cell.width.0) * i64::from(cell.height.0);
            let sum: i64 = cells.iter().map(area).sum();
            assert_eq!(sum, i64::from(width) * i64::from(height), "no gap, no overlap");
            for (at, cell) in cells.iter().enumerate() {
                assert!(cell.width <= CELL_MAX && cell.height <= CELL_MAX, "{cell:?}");
                assert!(cell.width.0 > 0 && cell.height.0 > 0);
                let last = Point {
                    x: cell.right().minus(Micrometres(1)),
                    y: cell.bottom().minus(Micrometres(1)),
                };
                for place in [Point { x: cell.x, y: cell.y }, cell.centre(), last] {
                    assert_eq!(grid.cell_at(place), Some(at));
                }
            }
            let beside = Point { x: Micrometres(width), y: Micrometres(0) };
            assert_eq!(grid.cell_at(beside), None);
        }
    }

    #[test]
    fn what_is_no_screen_has_no_grid() {
        for (width, height) in [(0, 10), (10, 0), (-5, 10), (SIDE_MAX + 1, 10)] {
            assert_eq!(TouchGrid::new(Micrometres(width), Micrometres(height)), None);
        }
    }
}
