//! Whether the print of a sheet is the blank's, ovals and write-in lines aside.
//!
//! The page is looked at tile by tile. A tile with print is laid on the picture where its
//! neighbours lay, moved until the print coincides (up to half a millimetre: paper stretches and
//! scanners waver), and then ink is compared grid point by grid point, smoothed over 0.8 mm so that
//! blur and noise cancel out and letters don't. A tile of bare paper is only searched for ink.
#![expect(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::cast_possible_wrap,
    reason = "loops over the points of a tile, which is a fixed square; sums are of at most 1,156 \
              values below 2^16, and places are held to the grid's size"
)]

use std::thread;

use crate::grid::{BlankGrid, Care, PITCH, TILE, Tile, TileKind, WIDE, sample};
use crate::mapping::Mapping;
use crate::plane::Plane;

/// Ink, of 255, that a smoothed difference near print may have before it counts. Own choice, from
/// renderings by hayro and poppler, blurred and noisy: such differences stay below 40.
const PRINT_TOLERANCE: i32 = 45;
/// Ink, of 255, that bare paper may seem to have before it counts.
const PAPER_TOLERANCE: i32 = 50;
/// Square millimetres of full ink, beyond the tolerance and within 3 mm, at which print differs.
/// Own choice: good sheets, turned, noisy and blurred, stay below 0.02 (`kiosk/marks/tests/reads.rs`);
/// a missing hair line of 0.18 mm gives 0.09, one letter for another of like shape 0.1 and more.
pub(crate) const PRINT_LIMIT: f32 = 0.06;
/// Square millimetres of full ink on bare paper within 12 mm at which it is a stray mark. Own choice:
/// a speck of dust is less, a short printed word more.
pub(crate) const STRAY_LIMIT: f32 = 1.5;
/// Square millimetres of one grid point.
const POINT_AREA: f32 = 0.254 * 0.254;
/// The farthest that a tile is moved, in grid points: 0.5 mm.
const MOVE_MAX: f32 = 2.0;
/// A score at which a tile is good as it lies, in mm².
const SETTLED: f32 = 0.015;
/// How often a tile is moved at most.
const MOVES: usize = 5;
/// Grid points along a cell in which differences near print are summed.
const CELL: usize = 4;
/// Grid points along a square in which stray ink is summed.
const SQUARE: usize = 16;

/// Parts of the page that are compared side by side. Always so many, so that what is found doesn't
/// depend on the machine: the tiles at a part's top don't know how those above them lay.
const BANDS: usize = 4;

/// Where tiles lay: how far each had to be moved, in grid points.
pub(crate) struct Moves {
    tiles_across: usize,
    moves: Vec<(f32, f32)>,
}

impl Moves {
    /// How far the page lies off its mapping at a place, in micrometres of the page.
    pub(crate) fn at(&self, x: f64, y: f64) -> (f64, f64) {
        let tile = |value: f64| (value / (PITCH * TILE as f64)).max(0.0) as usize;
        let column = tile(x).min(self.tiles_across.saturating_sub(1));
        let (across, down) =
            self.moves.get(tile(y) * self.tiles_across + column).copied().unwrap_or_default();
        (f64::from(across) * PITCH, f64::from(down) * PITCH)
    }
}

/// What the comparison found.
pub(crate) struct Comparison {
    pub(crate) moves: Moves,
    /// The most altered print within 3 mm, in mm² of ink, and its grid point.
    pub(crate) print: (f32, (usize, usize)),
    /// The most stray ink within 12 mm, in mm², and its grid point.
    pub(crate) stray: (f32, (usize, usize)),
}

/// A picture in two sizes, found and with its ink known.
pub(crate) struct Found<'a> {
    /// About 100 pixels an inch.
    pub(crate) fine: &'a Plane,
    /// Half as large.
    pub(crate) coarse: &'a Plane,
    /// From the page to `fine`.
    pub(crate) mapping: Mapping,
    /// From grey to ink, 0 to 255.
    pub(crate) table: [u8; 256],
}

/// Compares a picture with the blank.
pub(crate) fn compare(blank: &BlankGrid, found: &Found<'_>) -> Comparison {
    let coarse_mapping = found.mapping.shrunk(2.0);
    let tiles_across = blank.columns.div_ceil(TILE);
    let tiles_down = blank.rows.div_ceil(TILE);
    let mut moves = Moves { tiles_across, moves: vec![(0.0, 0.0); tiles_across * tiles_down] };
    let mut sums = Sums::new(blank.columns, blank.rows);
    thread::scope(|scope| {
        let each = tiles_down.div_ceil(BANDS).max(1);
        let per_row = |size: usize| each * (TILE / size) * (TILE / size) * tiles_across;
        let cells = sums.cells.chunks_mut(per_row(CELL));
        let squares = sums.squares.chunks_mut(per_row(SQUARE));
        let moves = moves.moves.chunks_mut(each * tiles_across);
        for (number, ((moves, cells), squares)) in moves.zip(cells).zip(squares).enumerate() {
            let rows = number * each..(number + 1) * each;
            let mut band = Band { first: rows.start, tiles_across, moves, cells, squares };
            let coarse_mapping = &coarse_mapping;
            scope.spawn(move || {
                let mut seen = Seen::default();
                for tile in blank.tiles.iter().filter(|tile| rows.contains(&(tile.row / TILE))) {
                    band.compare(blank, found, coarse_mapping, tile, &mut seen);
                }
            });
        }
    });
    spread_moves(blank, &mut moves);
    Comparison { moves, print: sums.worst_print(), stray: sums.worst_stray() }
}

/// Some rows of tiles: what is found out of them goes into their part of the page's lists.
struct Band<'a> {
    /// The first of the rows.
    first: usize,
    tiles_across: usize,
    moves: &'a mut [(f32, f32)],
    cells: &'a mut [f32],
    squares: &'a mut [f32],
}

impl Band<'_> {
    fn compare(
        &mut self,
        blank: &BlankGrid,
        found: &Found<'_>,
        coarse_mapping: &Mapping,
        tile: &Tile,
        seen: &mut Seen,
    ) {
        match tile.kind {
            TileKind::Paper => seen.search(blank, found, coarse_mapping, tile),
            TileKind::Print(slopes) => {
                let row = tile.row / TILE - self.first;
                let index = row * self.tiles_across + tile.column / TILE;
                let start = guess(self.moves, index, self.tiles_across);
                self.moves[index] = seen.align(blank, found, tile, slopes, start);
            }
        }
        let across = |size: usize| self.tiles_across * (TILE / size);
        let place = (tile.column, tile.row - self.first * TILE);
        put(self.cells, across(CELL), &seen.print, CELL, place);
        put(self.squares, across(SQUARE), &seen.stray, SQUARE, place);
    }
}

/// Where the tiles to the left and above lay.
fn guess(moves: &[(f32, f32)], index: usize, across: usize) -> (f32, f32) {
    let left = if index.is_multiple_of(across) { None } else { moves.get(index - 1) };
    let above = index.checked_sub(across).and_then(|at| moves.get(at));
    match (left, above) {
        (Some(a), Some(b)) => (f32::midpoint(a.0, b.0), f32::midpoint(a.1, b.1)),
        (Some(a), None) | (None, Some(a)) => *a,
        (None, None) => (0.0, 0.0),
    }
}

/// Bare tiles lie as the printed tile to their left does: a write-in line may run through them.
fn spread_moves(blank: &BlankGrid, moves: &mut Moves) {
    let mut printed = vec![false; moves.moves.len()];
    for tile in &blank.tiles {
        if matches!(tile.kind, TileKind::Print(_)) {
            printed[tile.row / TILE * moves.tiles_across + tile.column / TILE] = true;
        }
    }
    for row in 0..moves.moves.len() / moves.tiles_across.max(1) {
        let mut last = (0.0, 0.0);
        for column in 0..moves.tiles_across {
            let at = row * moves.tiles_across + column;
            if printed[at] {
                last = moves.moves[at];
            } else {
                moves.moves[at] = last;
            }
        }
    }
}

/// One tile as it was seen, and how it differs.
struct Seen {
    /// Ink with one point more on every side.
    ink: [u8; WIDE * WIDE],
    /// Ink that bare paper seems to have here: shading and noise.
    haze: i32,
    /// Altered print in cells, mm².
    print: [f32; (TILE / CELL) * (TILE / CELL)],
    /// Stray ink in squares, mm².
    stray: [f32; (TILE / SQUARE) * (TILE / SQUARE)],
}

impl Default for Seen {
    fn default() -> Self {
        Self {
            ink: [0; WIDE * WIDE],
            haze: 0,
            print: [0.0; (TILE / CELL) * (TILE / CELL)],
            stray: [0.0; (TILE / SQUARE) * (TILE / SQUARE)],
        }
    }
}

impl Seen {
    /// Samples a tile's ink, the tile moved by `moved` grid points.
    fn look(&mut self, blank: &BlankGrid, found: &Found<'_>, tile: &Tile, moved: (f32, f32)) {
        let column = tile.column as f64 - 1.0 + f64::from(moved.0);
        let mut line = [0_u8; WIDE];
        for (row, out) in self.ink.chunks_exact_mut(WIDE).enumerate() {
            let y = tile.row as f64 - 1.0 + row as f64 + f64::from(moved.1);
            sample(found.fine, &found.mapping, (column, y), PITCH, &mut line);
            for (ink, grey) in out.iter_mut().zip(line) {
                *ink = found.table[usize::from(grey)];
            }
        }
        self.haze = self.paper_ink(blank, tile);
    }

    /// Searches a tile of bare paper for ink, on every second point either way.
    fn search(&mut self, blank: &BlankGrid, found: &Found<'_>, mapping: &Mapping, tile: &Tile) {
        const HALF: usize = TILE / 2;
        let mut ink = [0_u8; HALF * HALF];
        let (mut sum, mut count) = (0_i32, 0_i32);
        let (column, first) = ((tile.column / 2) as f64, tile.row / 2);
        for (row, line) in ink.chunks_exact_mut(HALF).enumerate() {
            sample(found.coarse, mapping, (column, (first + row) as f64), 2.0 * PITCH, line);
            for value in line {
                *value = found.table[usize::from(*value)];
                let bare = *value < 64;
                sum += if bare { i32::from(*value) } else { 0 };
                count += i32::from(bare);
            }
        }
        let haze = sum / count.max(1);
        self.print.fill(0.0);
        self.stray.fill(0.0);
        for (at, &value) in ink.iter().enumerate() {
            let over = i32::from(value) - haze;
            if over <= PAPER_TOLERANCE {
                continue;
            }
            let (x, y) = (at % HALF * 2, at / HALF * 2);
            let (column, row) = (tile.column + x, tile.row + y);
            let compared = column < blank.columns
                && row < blank.rows
                && blank.care[row * blank.columns + column] == Care::Paper;
            if compared {
                let square = y / SQUARE * (TILE / SQUARE) + x / SQUARE;
                self.stray[square] += over as f32 * (4.0 * POINT_AREA / 255.0);
            }
        }
    }

    /// The mean ink where the blank has none, strong ink (a stray mark) left aside.
    fn paper_ink(&self, blank: &BlankGrid, tile: &Tile) -> i32 {
        let (mut sum, mut count) = (0_i32, 0_i32);
        for y in 0..TILE {
            let row = tile.row + y;
            if row >= blank.rows {
                break;
            }
            let width = TILE.min(blank.columns - tile.column);
            let from = row * blank.columns + tile.column;
            let wanted = &blank.ink[from..from + width];
            let seen = &self.ink[(y + 1) * WIDE + 1..(y + 1) * WIDE + 1 + width];
            for (&want, &ink) in wanted.iter().zip(seen) {
                let bare = want == 0 && ink < 64;
                sum += if bare { i32::from(ink) } else { 0 };
                count += i32::from(bare);
            }
        }
        sum / count.max(1)
    }

    /// Moves the tile until its print coincides, scores it, and says how far it was moved.
    fn align(
        &mut self,
        blank: &BlankGrid,
        found: &Found<'_>,
        tile: &Tile,
        slopes: [f32; 3],
        start: (f32, f32),
    ) -> (f32, f32) {
        let mut at = start;
        let mut best = (f32::INFINITY, start);
        for step in 0..MOVES {
            self.look(blank, found, tile, at);
            let score = self.score(blank, tile);
            if score < best.0 {
                best = (score, at);
            }
            if score < SETTLED / 4.0 {
                return at;
            }
            let push = self.push(blank, tile, slopes);
            if score < SETTLED {
                // Good as it lies. Half of the push is handed on, for the neighbours' start.
                let handed = (at.0 + push.0 / 2.0, at.1 + push.1 / 2.0);
                return held(handed);
            }
            if step + 1 == MOVES || push.0.hypot(push.1) < 0.03 {
                break;
            }
            at = held((at.0 + push.0, at.1 + push.1));
        }
        self.look(blank, found, tile, best.1);
        self.score(blank, tile);
        best.1
    }

    /// By how much the tile should be moved: one step of least squares on the slopes of the blank's
    /// ink (Lucas and Kanade's method, 1981).
    fn push(&self, blank: &BlankGrid, tile: &Tile, [across, both, down]: [f32; 3]) -> (f32, f32) {
        let (mut right, mut below) = (0_i64, 0_i64);
        for y in 0..TILE.min(blank.rows - tile.row) {
            for x in 0..TILE.min(blank.columns - tile.column) {
                let (column, row) = (tile.column + x, tile.row + y);
                let at = row * blank.columns + column;
                if blank.care[at] != Care::Print {
                    continue;
                }
                let ink = i32::from(self.ink[(y + 1) * WIDE + x + 1]) - self.haze;
                let off = ink - i32::from(blank.ink[at]);
                let (slope_x, slope_y) = blank.slope(column, row);
                right += i64::from(off * slope_x);
                below += i64::from(off * slope_y);
            }
        }
        // Slopes are doubled, so the sums of squares are four times and the products twice as large.
        let (right, below) = (right as f32 / 2.0, below as f32 / 2.0);
        let (across, both, down) = (across / 4.0, both / 4.0, down / 4.0);
        // A little is added to both squares, so that a lone ruled line doesn't send the tile along it.
        let steady = 0.05 * (across + down) + 1000.0;
        let (across, down) = (across + steady, down + steady);
        let size = across * down - both * both;
        let x = -(down * right - both * below) / size;
        let y = -(across * below - both * right) / size;
        (x.clamp(-1.0, 1.0), y.clamp(-1.0, 1.0))
    }

    /// Sums the differences in cells and squares. Gives the worst of the cells, with its neighbours
    /// in this tile.
    fn score(&mut self, blank: &BlankGrid, tile: &Tile) -> f32 {
        self.print.fill(0.0);
        self.stray.fill(0.0);
        let mut off = [0_i16; WIDE * WIDE];
        self.differences(blank, tile, &mut off);
        let mut sums = [0_i32; (TILE / CELL) * (TILE / CELL)];
        let mut rows = [[0_i16; TILE]; WIDE];
        for (wide, narrow) in off.chunks_exact(WIDE).zip(rows.iter_mut()) {
            for (sum, three) in narrow.iter_mut().zip(wide.windows(3)) {
                *sum = three[0] + three[1] + three[2];
            }
        }
        let height = TILE.min(blank.rows - tile.row);
        for y in 0..height {
            let mut line = [0_i32; TILE];
            let (above, here, below) = (&rows[y], &rows[y + 1], &rows[y + 2]);
            for (x, value) in line.iter_mut().enumerate() {
                let nine = i32::from(above[x] + here[x] + below[x]).abs();
                *value = (nine - 9 * PRINT_TOLERANCE).max(0);
            }
            let cells = &mut sums[y / CELL * (TILE / CELL)..];
            for (cell, part) in cells.iter_mut().zip(line.chunks_exact(CELL)) {
                *cell += part.iter().sum::<i32>();
            }
        }
        for (area, sum) in self.print.iter_mut().zip(sums) {
            *area = sum as f32 * (POINT_AREA / (9.0 * 255.0));
        }
        worst_window(&self.print, TILE / CELL).0
    }

    /// Seen ink less wanted ink where it is to be compared as print; on bare paper the stray ink is
    /// summed instead.
    fn differences(&mut self, blank: &BlankGrid, tile: &Tile, off: &mut [i16; WIDE * WIDE]) {
        for y in 0..WIDE {
            let row = tile.row as isize + y as isize - 1;
            if row < 0 || row as usize >= blank.rows {
                continue;
            }
            let first = usize::from(tile.column == 0);
            let last = WIDE.min(blank.columns + 1 - tile.column);
            let from = row as usize * blank.columns + tile.column + first - 1;
            let width = last - first;
            let care = &blank.care[from..from + width];
            let want = &blank.ink[from..from + width];
            let at = y * WIDE + first;
            let seen = &self.ink[at..at + width];
            let out = &mut off[at..at + width];
            let inner = (1..=TILE).contains(&y);
            for (x, (((care, &want), &seen), out)) in
                care.iter().zip(want).zip(seen).zip(out.iter_mut()).enumerate()
            {
                let ink = i32::from(seen) - self.haze;
                match care {
                    Care::None => {}
                    Care::Print => *out = (ink - i32::from(want)) as i16,
                    Care::Paper => {
                        let column = x + first;
                        if ink > PAPER_TOLERANCE && inner && (1..=TILE).contains(&column) {
                            let square = (y - 1) / SQUARE * (TILE / SQUARE) + (column - 1) / SQUARE;
                            self.stray[square] += ink as f32 * (POINT_AREA / 255.0);
                        }
                    }
                }
            }
        }
    }
}

fn held(moved: (f32, f32)) -> (f32, f32) {
    (moved.0.clamp(-MOVE_MAX, MOVE_MAX), moved.1.clamp(-MOVE_MAX, MOVE_MAX))
}

/// The greatest sum of a cell and its eight neighbours, and the cell.
fn worst_window(cells: &[f32], across: usize) -> (f32, (usize, usize)) {
    let rows = cells.len() / across.max(1);
    let mut worst = (0.0, (0, 0));
    for row in 0..rows {
        for column in 0..across {
            if cells[row * across + column] <= 0.0 {
                continue;
            }
            let mut sum = 0.0;
            for y in row.saturating_sub(1)..(row + 2).min(rows) {
                let line = y * across;
                let part = column.saturating_sub(1)..(column + 2).min(across);
                sum += cells[line + part.start..line + part.end].iter().sum::<f32>();
            }
            if sum > worst.0 {
                worst = (sum, (column, row));
            }
        }
    }
    worst
}

/// Differences of the whole page.
struct Sums {
    cells_across: usize,
    cells: Vec<f32>,
    squares_across: usize,
    squares: Vec<f32>,
}

impl Sums {
    fn new(columns: usize, rows: usize) -> Self {
        let (across, down) = (columns.div_ceil(TILE), rows.div_ceil(TILE));
        let per_tile = |size: usize| (TILE / size) * (TILE / size);
        Self {
            cells_across: across * (TILE / CELL),
            cells: vec![0.0; across * down * per_tile(CELL)],
            squares_across: across * (TILE / SQUARE),
            squares: vec![0.0; across * down * per_tile(SQUARE)],
        }
    }

    fn worst_print(&self) -> (f32, (usize, usize)) {
        let (sum, (column, row)) = worst_window(&self.cells, self.cells_across);
        (sum, (column * CELL, row * CELL))
    }

    fn worst_stray(&self) -> (f32, (usize, usize)) {
        let (sum, (column, row)) = worst_window(&self.squares, self.squares_across);
        (sum, (column * SQUARE, row * SQUARE))
    }
}

fn put(page: &mut [f32], across: usize, tile: &[f32], size: usize, (column, row): (usize, usize)) {
    let per_row = TILE / size;
    for (line, part) in tile.chunks_exact(per_row).enumerate() {
        let from = (row / size + line) * across + column / size;
        page[from..from + per_row].copy_from_slice(part);
    }
}
