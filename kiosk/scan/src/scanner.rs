//! What every scanner offers, and what can go wrong with it.

use core::fmt;

use image::GrayImage;

/// Dots in an inch, the same across and down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Dpi(pub u16);

/// The resolution that the reader of ballots is made for.
pub const RESOLUTION_USUAL: Dpi = Dpi(200);
/// The least resolution that makes sense: below it 10 pt letters can't be told apart. Own choice.
pub const RESOLUTION_MIN: Dpi = Dpi(100);
/// The greatest resolution; more adds time and no certainty. Own choice.
pub const RESOLUTION_MAX: Dpi = Dpi(600);
/// The most bytes that one picture or one document may have. A grey letter side at 600 dpi is 34 MB
/// before compression; own choice.
pub const BYTES_MAX: usize = 64 * 1024 * 1024;
/// The most pixels in one picture: a 17 in page at 600 dpi is 52 million. Own choice.
pub const PIXELS_MAX: u64 = 64_000_000;
/// The most sides that one scan may have: 16 sheets. Own choice, far above any ballot.
pub const PAGES_MAX: usize = 32;

/// The picture of one side of one sheet.
#[derive(Clone)]
pub struct SheetPicture {
    /// 0 black to 255 white, as it came: perhaps turned, shifted or upside down.
    pub picture: GrayImage,
    /// The resolution that it was taken at.
    pub dpi: Dpi,
}

impl fmt::Debug for SheetPicture {
    /// Prints the size and no pixel: the picture shows how somebody voted.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (width, height) = self.picture.dimensions();
        write!(f, "SheetPicture({width} x {height} at {} dpi)", self.dpi.0)
    }
}

/// Something that hands out pictures of the sheets laid into it.
pub trait Scanner {
    /// Takes in all the sheets that lie ready and hands out every side in the order they came.
    ///
    /// # Errors
    /// [`ScanError`] says what was wrong, with which side, and what to do. No side is handed out
    /// then: half a ballot is never taken for a whole one.
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError>;
}

/// Why there are no pictures. `side` counts from 1 in the order of scanning.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ScanError {
    /// Nothing lay ready.
    #[error("there is no sheet to read: lay the printed sheets in, then read again")]
    NoSheets,
    /// More sides than any ballot has.
    #[error(
        "there are {found} sides, and at most {PAGES_MAX} are read: lay in one ballot at a time"
    )]
    TooManySides {
        /// How many there were.
        found: usize,
    },
    /// The bytes of one picture or document are too many.
    #[error(
        "side {side} has {found} bytes, and at most {BYTES_MAX} are read: scan in grey at 200 dpi"
    )]
    TooManyBytes {
        /// Which side.
        side: usize,
        /// How many there were.
        found: usize,
    },
    /// The picture is too large, as its own header says or as its page would come out.
    #[error(
        "side {side} has {width} x {height} pixels, more than the {PIXELS_MAX} that are read: scan \
         in grey at 200 dpi"
    )]
    TooManyPixels {
        /// Which side.
        side: usize,
        /// Its width in pixels.
        width: u32,
        /// Its height in pixels.
        height: u32,
    },
    /// The bytes are no PNG and no portable grey map.
    #[error("side {side} is neither PNG nor PGM: scan again, and save in one of these")]
    NotAPicture {
        /// Which side.
        side: usize,
    },
    /// The bytes begin as a picture should and then break.
    #[error("the picture of side {side} is broken ({detail}): scan it again")]
    BrokenPicture {
        /// Which side.
        side: usize,
        /// What the decoder said.
        detail: String,
    },
    /// The resolution isn't one that is read.
    #[error(
        "{} dpi is outside the {} to {} dpi that are read: scan at 200 dpi",
        found.0, RESOLUTION_MIN.0, RESOLUTION_MAX.0
    )]
    Resolution {
        /// What was asked for.
        found: Dpi,
    },
    /// What the printer received is no PDF that can be drawn.
    #[error("what the printer received can't be drawn as a PDF: print the ballot again")]
    NotADocument,
    /// A real scanner's fault, in its own words.
    #[error(
        "the scanner failed ({detail}): see that it is on and its cover closed, then read again"
    )]
    Device {
        /// What the device said.
        detail: String,
    },
}

/// Refuses a resolution outside the range that is read.
pub(crate) fn check_resolution(dpi: Dpi) -> Result<(), ScanError> {
    if (RESOLUTION_MIN..=RESOLUTION_MAX).contains(&dpi) {
        Ok(())
    } else {
        Err(ScanError::Resolution { found: dpi })
    }
}

/// Refuses a picture with more pixels than are read. Called before memory is taken for it.
pub(crate) fn check_pixels(side: usize, width: u32, height: u32) -> Result<(), ScanError> {
    if u64::from(width).saturating_mul(u64::from(height)) > PIXELS_MAX {
        Err(ScanError::TooManyPixels { side, width, height })
    } else {
        Ok(())
    }
}
