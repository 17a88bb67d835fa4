//! Why a picture isn't read, or a reader can't be made.

use evenhand_sheet::{Rect, Side};

use crate::reader::PIXELS_MAX;

/// Why a picture isn't read. Nothing that stands on it is handed out then.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// Too few pixels to compare letters.
    #[error("the picture ({width} x {height}) is too small: scan at 200 dpi")]
    TooSmall {
        /// In pixels.
        width: u32,
        /// In pixels.
        height: u32,
    },
    /// More pixels than are read.
    #[error("the picture ({width} x {height}) has more than {PIXELS_MAX} pixels: scan at 200 dpi")]
    TooLarge {
        /// In pixels.
        width: u32,
        /// In pixels.
        height: u32,
    },
    /// Paper and print can't be told apart: nothing is printed, or the scan is pale.
    #[error("nothing printed can be seen: lay the printed side down, then scan again")]
    Faint,
    /// More of the picture is dark than bright.
    #[error("the picture is mostly dark: close the scanner's cover, see that it isn't inverted")]
    MostlyDark,
    /// Not all four corner figures are there, or they don't make the sheet's shape.
    #[error("{found} of the 4 corner figures were found: scan the whole sheet again, uncovered")]
    CornersMissing {
        /// How many looked like one, at most 4.
        found: u8,
    },
    /// The sheet is longer or shorter than this ballot's: another style's, or the picture is squeezed.
    #[error("the sheet is longer or shorter than this ballot: it is of another ballot style")]
    OtherLength,
    /// The sheet is turned by too much to be read.
    #[error("the sheet is turned by {degrees} degrees: lay it in straight, then scan again")]
    Turned {
        /// Clockwise, rounded.
        degrees: i16,
    },
    /// The sheet is seen as in a mirror.
    #[error("the picture is mirrored: it isn't one of a sheet's printed side")]
    Mirrored,
    /// The code is damaged beyond repair, or isn't one of Evenhand's.
    #[error("the square code can't be read: scan the sheet again, or print a new one")]
    CodeUnreadable,
    /// A sheet of another election.
    #[error("the sheet belongs to another election")]
    OtherElection,
    /// A sheet of this election in another style.
    #[error("the sheet is of another ballot style")]
    OtherStyle,
    /// The code names a side that this style doesn't have.
    #[error("this ballot style has no sheet {sheet}, {side:?}")]
    NoSuchSide {
        /// The sheet named, from 1.
        sheet: u8,
        /// The side named.
        side: Side,
    },
    /// What is printed outside the ovals and write-in lines isn't what the blank has, or there is ink
    /// where there should be none.
    #[error("sheet {sheet}, {side:?}: the print isn't the ballot's own at {area:?}")]
    PrintDiffers {
        /// Which sheet.
        sheet: u8,
        /// Which side.
        side: Side,
        /// About where on the page.
        area: Rect,
    },
    /// One side came twice.
    #[error("sheet {sheet}, {side:?} was scanned twice")]
    SideTwice {
        /// Which sheet.
        sheet: u8,
        /// Which side.
        side: Side,
    },
    /// One side didn't come.
    #[error("sheet {sheet}, {side:?} is missing: scan all sheets, both sides")]
    SideMissing {
        /// Which sheet.
        sheet: u8,
        /// Which side.
        side: Side,
    },
}

/// Why a reader can't be made. `page` counts from 0 in the ballot's order.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReaderError {
    /// There must be one blank picture a page, and at least one page.
    #[error("{blanks} blank pictures were given for {pages} pages")]
    BlankCount {
        /// Pages of the ballot.
        pages: usize,
        /// Pictures given.
        blanks: usize,
    },
    /// The blank isn't as large as the paper at its resolution.
    #[error("the blank picture of page {page} isn't as large as its paper")]
    BlankSize {
        /// Which page.
        page: usize,
    },
    /// The page's own code can't be decoded.
    #[error("the code of page {page} can't be decoded")]
    Code {
        /// Which page.
        page: usize,
    },
    /// The corner figures aren't where the page has them, or none (or all) differ.
    #[error("the corner figures of page {page} aren't where they should be")]
    Figures {
        /// Which page.
        page: usize,
    },
    /// The blank itself isn't read.
    #[error("the blank picture of page {page} isn't read: {why}")]
    Blank {
        /// Which page.
        page: usize,
        /// Why not.
        why: Refused,
    },
    /// Something is marked or written on the blank.
    #[error("the blank picture of page {page} isn't blank")]
    NotBlank {
        /// Which page.
        page: usize,
    },
}
