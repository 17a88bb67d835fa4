//! The demo's scanner: it rasterises the bytes that the printer received, so that what is read back
//! is what was printed and never what was meant.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_interpret::util::TransformExt;
use hayro::hayro_syntax::{Pdf, page::Page};
use hayro::vello_cpu::{
    Pixmap, RasterizerSettings, RenderContext, Resources, TargetInit, color::palette::css::WHITE,
};
use hayro::{RenderCache, RenderSettings, render_into};
use image::GrayImage;

use crate::scanner::{BYTES_MAX, check_pixels, check_resolution};
use crate::{Dpi, PAGES_MAX, ScanError, Scanner, SheetPicture};

/// Points in an inch (ISO 32000-1, 8.3.2.3: default user space).
const POINTS_PER_INCH: f64 = 72.0;

/// A scanner whose sheets are the pages of a PDF, each a side.
pub struct PrintedBytes {
    document: Arc<Vec<u8>>,
    dpi: Dpi,
}

impl core::fmt::Debug for PrintedBytes {
    /// Prints no byte: the document shows how somebody voted.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("PrintedBytes(..)")
    }
}

impl PrintedBytes {
    /// Lays in what the printer received, to be seen at `dpi` (usually
    /// [`RESOLUTION_USUAL`](crate::RESOLUTION_USUAL)).
    pub fn new(document: Vec<u8>, dpi: Dpi) -> Self {
        Self { document: Arc::new(document), dpi }
    }
}

impl Scanner for PrintedBytes {
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        check_resolution(self.dpi)?;
        let found = self.document.len();
        if found == 0 {
            return Err(ScanError::NoSheets);
        }
        if found > BYTES_MAX {
            return Err(ScanError::TooManyBytes { side: 1, found });
        }
        let document = Arc::clone(&self.document);
        let dpi = self.dpi;
        // The rasteriser is somebody else's code and the bytes may be anything: a panic in it is an
        // unreadable document, not the end of the visit.
        catch_unwind(AssertUnwindSafe(move || rasterise(document, dpi)))
            .unwrap_or(Err(ScanError::NotADocument))
    }
}

fn rasterise(document: Arc<Vec<u8>>, dpi: Dpi) -> Result<Vec<SheetPicture>, ScanError> {
    let pdf = Pdf::new(document).map_err(|_| ScanError::NotADocument)?;
    let found = pdf.pages().len();
    if found == 0 {
        return Err(ScanError::NoSheets);
    }
    if found > PAGES_MAX {
        return Err(ScanError::TooManySides { found });
    }
    let cache = RenderCache::new();
    (1..)
        .zip(pdf.pages().iter())
        .map(|(side, page)| {
            let picture = rasterise_page(side, page, &cache, dpi)?;
            Ok(SheetPicture { picture, dpi })
        })
        .collect()
}

/// One page in grey. Text isn't hinted: a scanner sees outlines where they are, not where a pixel
/// grid would like them.
fn rasterise_page<'a>(
    side: usize,
    page: &'a Page<'a>,
    cache: &RenderCache<'a>,
    dpi: Dpi,
) -> Result<GrayImage, ScanError> {
    let scale = f64::from(dpi.0) / POINTS_PER_INCH;
    let (width_points, height_points) = page.render_dimensions();
    let width = whole_pixels(f64::from(width_points) * scale);
    let height = whole_pixels(f64::from(height_points) * scale);
    check_pixels(side, width, height)?;
    let too_many = |_| ScanError::TooManyPixels { side, width, height };
    let columns = u16::try_from(width).map_err(too_many)?;
    let rows = u16::try_from(height).map_err(too_many)?;
    if columns == 0 || rows == 0 {
        return Err(ScanError::NotADocument);
    }
    let mut context = RenderContext::new(columns, rows);
    let transform = page.initial_transform(true).to_kurbo().then_scale(scale);
    let interpreter = InterpreterSettings::default();
    let settings = RenderSettings { hinting: false, ..RenderSettings::default() };
    render_into(page, cache, &interpreter, &settings, &mut context, transform);
    context.flush();
    let mut pixmap = Pixmap::new(columns, rows);
    context.render_with(
        &mut pixmap,
        &mut Resources::default(),
        RasterizerSettings { target_init: TargetInit::Clear(WHITE), ..Default::default() },
    );
    let grey = pixmap.data().iter().map(|pixel| luma(pixel.r, pixel.g, pixel.b)).collect();
    GrayImage::from_raw(width, height, grey).ok_or(ScanError::NotADocument)
}

/// Rounds to the nearest pixel: 612 points at 200 dpi are 1700 pixels however a float falls.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to the range of u32 first; casts from float saturate"
)]
fn whole_pixels(length: f64) -> u32 {
    length.round().clamp(0.0, f64::from(u32::MAX)) as u32
}

/// Brightness of a colour, by the weights of ITU-R BT.601, 2.5.1.
fn luma(red: u8, green: u8, blue: u8) -> u8 {
    let sum = u32::from(red)
        .saturating_mul(299)
        .saturating_add(u32::from(green).saturating_mul(587))
        .saturating_add(u32::from(blue).saturating_mul(114));
    u8::try_from(sum.saturating_add(500) / 1000).unwrap_or(u8::MAX)
}
