//! The shapes that stand on a page. Plain data: made by `compose`, read by `print` and `marks`.

use alloc::vec::Vec;

use evenhand_rules::{ContestIndex, Micrometres, OptionIndex, OvalId};

/// A point on a page, from its top left corner, y downwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Point {
    /// To the right.
    pub x: Micrometres,
    /// Downwards.
    pub y: Micrometres,
}

impl Point {
    /// This point, moved.
    #[must_use]
    pub const fn moved(self, by: Self) -> Self {
        Self { x: self.x.plus(by.x), y: self.y.plus(by.y) }
    }
}

/// A box on a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rect {
    /// Left edge.
    pub x: Micrometres,
    /// Top edge.
    pub y: Micrometres,
    /// Width, never negative.
    pub width: Micrometres,
    /// Height, never negative.
    pub height: Micrometres,
}

impl Rect {
    /// This box, moved.
    #[must_use]
    pub const fn moved(self, by: Point) -> Self {
        Self { x: self.x.plus(by.x), y: self.y.plus(by.y), ..self }
    }
    /// The middle of this box, rounded towards the top left.
    #[must_use]
    pub const fn centre(self) -> Point {
        Point { x: self.x.plus(self.width.half()), y: self.y.plus(self.height.half()) }
    }
    /// The right edge.
    #[must_use]
    pub const fn right(self) -> Micrometres {
        self.x.plus(self.width)
    }
    /// The bottom edge.
    #[must_use]
    pub const fn bottom(self) -> Micrometres {
        self.y.plus(self.height)
    }
    /// This box with each edge moved outwards by `by` (inwards where it is negative).
    #[must_use]
    pub const fn grown(self, by: Micrometres) -> Self {
        Self {
            x: self.x.minus(by),
            y: self.y.minus(by),
            width: self.width.plus(by.times(2)),
            height: self.height.plus(by.times(2)),
        }
    }
}

/// A front or a back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// The first side of a sheet.
    Front,
    /// The second side of a sheet.
    Back,
}

/// Every page of one style's ballot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ballot {
    /// Width of the paper: 8.5 in.
    pub width: Micrometres,
    /// Length of the paper: 11, 14 or 17 in.
    pub length: Micrometres,
    /// Pages in reading order: sheet 1 front, sheet 1 back, sheet 2 front …
    pub pages: Vec<Page>,
}

impl Ballot {
    /// How many sheets of paper the ballot is on.
    pub fn sheet_count(&self) -> u8 {
        self.pages.last().map_or(0, |page| page.sheet)
    }
}

/// One side of one sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// Which sheet, from 1.
    pub sheet: u8,
    /// Which side of it.
    pub side: Side,
    /// Lines of text, shaped.
    pub texts: Vec<TextLine>,
    /// Ruled lines and box edges, as filled rectangles.
    pub rules: Vec<Rule>,
    /// The ovals in paper order.
    pub ovals: Vec<Oval>,
    /// The write-in lines in paper order.
    pub write_ins: Vec<WriteInLine>,
    /// Ovals in the instructions that show how to mark. They can't be voted on.
    pub samples: Vec<SampleOval>,
    /// The four registration figures: top left, top right, bottom left, bottom right.
    pub corners: [CornerFigure; 4],
    /// The machine-readable code.
    pub code: Code,
    /// The fixed area in which "test ballot" or "demo ballot" stands, or nothing.
    pub stamp: Stamp,
}

/// A filled rectangle: a ruled line or a box's edge. `black` in per mille of ink.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rule {
    /// Where it is.
    pub area: Rect,
    /// Ink, 0 none to 1000 solid black.
    pub black: u16,
}

/// One shaped line of text in one face and size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextLine {
    /// Left end of the baseline.
    pub origin: Point,
    /// The shaped run: face, size, glyphs with their positions from `origin`, and the words.
    pub run: evenhand_lettering::Run,
}

/// A target to be filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Oval {
    /// What it marks.
    pub id: OvalId,
    /// The box of the outline's middle line.
    pub area: Rect,
    /// Width of the outline's stroke.
    pub stroke: Micrometres,
}

/// An oval in the instructions. It is the same on every sheet of a style and marks nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SampleOval {
    /// The box of the outline's middle line.
    pub area: Rect,
    /// Width of the outline's stroke.
    pub stroke: Micrometres,
    /// True where it is shown filled.
    pub is_filled: bool,
}

/// A line on which a name is printed or written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WriteInLine {
    /// The contest.
    pub contest: ContestIndex,
    /// The write-in option. (A ranked contest has one line an option.)
    pub option: OptionIndex,
    /// All that may hold ink of the name.
    pub area: Rect,
    /// The cells that printed letters stand in, one a character, from the left.
    pub cells: CellRow,
}

/// A row of equal cells for fixed-width letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CellRow {
    /// Top left of the first cell.
    pub origin: Point,
    /// Width of one cell: the advance of the fixed-width face.
    pub width: Micrometres,
    /// Height of a cell.
    pub height: Micrometres,
    /// Baseline of the letters, down from `origin`.
    pub baseline: Micrometres,
    /// How many cells there are.
    pub count: u16,
}

impl CellRow {
    /// The em of the letters in a cell: 10 pt.
    pub const LETTER_SIZE: Micrometres = crate::metrics::SMALL;
    /// Height of a cell.
    pub const HEIGHT: Micrometres = crate::metrics::CELL_HEIGHT;
    /// Baseline of the letters, down from a cell's top.
    pub const BASELINE: Micrometres = crate::metrics::CELL_BASELINE;
}

/// A registration figure in a corner of the page: a ring with a solid disc in its middle, and in
/// the first corner (top left) the ring alone. A page upside down shows its open ring at the bottom
/// right. All four rings are equal, so one search finds them, and each one's middle is its centre.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CornerFigure {
    /// Its middle.
    pub centre: Point,
    /// Its outer diameter: the ring's outer edge.
    pub diameter: Micrometres,
    /// True for the one figure that differs, so that up and down can be told.
    pub is_first: bool,
}

impl CornerFigure {
    /// Diameter of the ring's inner edge: seven tenths of the outer.
    #[must_use]
    pub const fn ring_inner(&self) -> Micrometres {
        Micrometres(self.diameter.times(7).0 / 10)
    }
    /// Diameter of the solid disc in the middle, four tenths of the outer; the first figure has none.
    #[must_use]
    pub const fn disc(&self) -> Option<Micrometres> {
        if self.is_first { None } else { Some(Micrometres(self.diameter.times(4).0 / 10)) }
    }
}

/// A Data Matrix code (ISO/IEC 16022) as a grid of modules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    /// Top left of the first module (quiet zone outside).
    pub origin: Point,
    /// Side of a module; at least 0.7 mm.
    pub module: Micrometres,
    /// Modules in a row.
    pub columns: u16,
    /// Rows top down, true where black; `columns` entries a row.
    pub modules: Vec<bool>,
}

/// What stands in the fixed area for the state of the ballot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// The area kept clear for it on every sheet.
    pub area: Rect,
    /// The shaped words, empty on an official ballot.
    pub texts: Vec<TextLine>,
}
