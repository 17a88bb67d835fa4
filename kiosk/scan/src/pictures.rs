//! Pictures that were scanned elsewhere: PNG or PGM bytes that somebody else has read.

use std::io::Cursor;

use image::{GrayImage, ImageDecoder, ImageFormat, ImageReader, Limits};

use crate::scanner::{BYTES_MAX, check_pixels, check_resolution};
use crate::{Dpi, PAGES_MAX, PIXELS_MAX, ScanError, Scanner, SheetPicture};

/// The bytes of one picture with the resolution it was taken at.
#[derive(Clone, PartialEq, Eq)]
pub struct GivenPicture {
    /// A PNG or a PGM (portable grey map, plain or raw).
    pub bytes: Vec<u8>,
    /// The resolution: neither format is trusted to say it.
    pub dpi: Dpi,
}

impl core::fmt::Debug for GivenPicture {
    /// Prints no byte: the picture shows how somebody voted.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("GivenPicture(..)")
    }
}

/// A scanner whose sheets are pictures at hand, one a side, in the order given.
#[derive(Debug)]
pub struct GivenPictures {
    pictures: Vec<GivenPicture>,
}

impl GivenPictures {
    /// Lays the pictures in.
    pub fn new(pictures: Vec<GivenPicture>) -> Self {
        Self { pictures }
    }
}

impl Scanner for GivenPictures {
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        let found = self.pictures.len();
        if found == 0 {
            return Err(ScanError::NoSheets);
        }
        if found > PAGES_MAX {
            return Err(ScanError::TooManySides { found });
        }
        (1..).zip(&self.pictures).map(|(side, given)| decode(side, given)).collect()
    }
}

/// One picture's bytes to grey pixels, within the limits.
fn decode(side: usize, given: &GivenPicture) -> Result<SheetPicture, ScanError> {
    check_resolution(given.dpi)?;
    let found = given.bytes.len();
    if found > BYTES_MAX {
        return Err(ScanError::TooManyBytes { side, found });
    }
    let broken =
        |error: image::ImageError| ScanError::BrokenPicture { side, detail: error.to_string() };
    let Ok(format @ (ImageFormat::Png | ImageFormat::Pnm)) = image::guess_format(&given.bytes)
    else {
        return Err(ScanError::NotAPicture { side });
    };
    let mut reader = ImageReader::with_format(Cursor::new(given.bytes.as_slice()), format);
    let mut limits = Limits::default();
    // Four channels of two bytes are the most that either format can hold for a pixel.
    limits.max_alloc = Some(PIXELS_MAX.saturating_mul(8));
    reader.limits(limits);
    let decoder = reader.into_decoder().map_err(broken)?;
    let (width, height) = decoder.dimensions();
    check_pixels(side, width, height)?;
    if width == 0 || height == 0 {
        return Err(ScanError::BrokenPicture { side, detail: "it has no pixels".to_owned() });
    }
    let picture: GrayImage =
        image::DynamicImage::from_decoder(decoder).map_err(broken)?.into_luma8();
    Ok(SheetPicture { picture, dpi: given.dpi })
}
