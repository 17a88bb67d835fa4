//! What isn't a box or words: ovals, arrows, stripes and signs, each drawn once and then kept as a
//! picture. The window's renderer would draw them anew in every frame, changed or not, and with a
//! mask as large as the screen for each.
//!
//! Invariant: only the shapes of one scene are kept.

use evenhand_sheet::Rect;
use evenhand_visit::Tone;
use iced::advanced::image::Handle;
use tiny_skia::{
    Color, FillRule, Paint, Path, PathBuilder, Pixmap, Rect as PixelRect, Stroke, Transform,
};

use crate::metrics::{PixelPitch, STRIPE};
use crate::palette::{Colour, Colours, Tint};
use crate::scene::{Mark, Scene};

/// The least width of an oval's outline, in pixels: it stays dark between two of them.
const OUTLINE_MIN: f32 = 1.5;

/// A shape and all that its picture depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Shape {
    kind: Kind,
    /// In whole pixels.
    size: (u32, u32),
    /// What it is drawn in, and what is drawn within it.
    inks: (Colour, Colour),
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Oval { stroke: f32, is_filled: bool },
    Arrow { is_up: bool },
    Stripes { stripe: f32 },
    Sign(Tone),
}

/// The pictures of a scene's shapes.
#[derive(Debug, Default)]
pub struct Shapes {
    kept: Vec<(Shape, Handle)>,
}

impl Shapes {
    /// None.
    pub const fn new() -> Self {
        Self { kept: Vec::new() }
    }

    /// Draws what the scene needs and isn't there, and forgets what it doesn't need.
    pub fn prepare(&mut self, scene: &Scene, colours: &Colours, pitch: PixelPitch) {
        let before = std::mem::take(&mut self.kept);
        for mark in &scene.marks {
            let Some(shape) = shape_of(mark, colours, pitch) else { continue };
            if self.kept.iter().any(|(kept, _)| *kept == shape) {
                continue;
            }
            let known = before.iter().find(|(kept, _)| *kept == shape);
            let handle = known.map(|(_, handle)| handle.clone()).or_else(|| shape.draw());
            self.kept.extend(handle.map(|handle| (shape, handle)));
        }
    }

    /// The picture of a mark, where it is a shape of the scene that was prepared last.
    pub fn of(&self, mark: &Mark, colours: &Colours, pitch: PixelPitch) -> Option<&Handle> {
        let shape = shape_of(mark, colours, pitch)?;
        self.kept.iter().find(|(kept, _)| *kept == shape).map(|(_, handle)| handle)
    }
}

fn shape_of(mark: &Mark, colours: &Colours, pitch: PixelPitch) -> Option<Shape> {
    let ink = colours.of(Tint::Ink);
    let in_ink = |area: &Rect, kind| Shape { kind, size: size_of(*area, pitch), inks: (ink, ink) };
    match mark {
        Mark::Oval { area, stroke, is_filled } => {
            let stroke = pitch.pixels(*stroke).max(OUTLINE_MIN);
            Some(in_ink(area, Kind::Oval { stroke, is_filled: *is_filled }))
        }
        Mark::Arrow { area, is_up } => Some(in_ink(area, Kind::Arrow { is_up: *is_up })),
        Mark::Stripes(area) => Some(in_ink(area, Kind::Stripes { stripe: pitch.pixels(STRIPE) })),
        Mark::Sign { area, tone } => Some(Shape {
            inks: (colours.of(Tint::SignOn(*tone)), colours.of(Tint::Block(*tone))),
            ..in_ink(area, Kind::Sign(*tone))
        }),
        Mark::Box { .. } | Mark::Text { .. } | Mark::Picture { .. } => None,
    }
}

/// Whole pixels, at least one each way.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place on a screen, at least 1"
)]
fn size_of(area: Rect, pitch: PixelPitch) -> (u32, u32) {
    let whole = |distance| pitch.pixels(distance).round().max(1.0) as u32;
    (whole(area.width), whole(area.height))
}

impl Shape {
    /// The picture; `None` for a size that can't be one.
    fn draw(self) -> Option<Handle> {
        let (width, height) = self.size;
        let mut pixels = Pixmap::new(width, height)?;
        let canvas = Canvas { width: small(width), height: small(height), inks: self.inks };
        match self.kind {
            Kind::Oval { stroke, is_filled } => canvas.oval(&mut pixels, stroke, is_filled),
            Kind::Arrow { is_up } => canvas.arrow(&mut pixels, is_up),
            Kind::Stripes { stripe } => canvas.stripes(&mut pixels, stripe),
            Kind::Sign(tone) => canvas.sign(&mut pixels, tone),
        }?;
        let colours = pixels.pixels().iter().flat_map(|pixel| {
            let plain = pixel.demultiply();
            [plain.red(), plain.green(), plain.blue(), plain.alpha()]
        });
        Some(Handle::from_rgba(width, height, colours.collect::<Vec<u8>>()))
    }
}

#[expect(clippy::cast_precision_loss, reason = "a screen has fewer than 2^24 pixels a side")]
const fn small(pixels: u32) -> f32 {
    pixels as f32
}

/// Draws on a picture. Each returns `None` where there is nothing to draw in so small a picture.
#[derive(Clone, Copy)]
struct Canvas {
    width: f32,
    height: f32,
    inks: (Colour, Colour),
}

impl Canvas {
    fn fill(pixels: &mut Pixmap, path: &Path, ink: Colour) {
        let (rule, whole) = (FillRule::Winding, Transform::identity());
        pixels.fill_path(path, &paint(ink), rule, whole, None);
    }

    fn oval(self, pixels: &mut Pixmap, stroke: f32, is_filled: bool) -> Option<()> {
        if is_filled {
            Self::fill(pixels, &self.ellipse(0.0)?, self.inks.0);
        } else {
            let outline = Stroke { width: stroke, ..Stroke::default() };
            let (path, whole) = (self.ellipse(stroke / 2.0)?, Transform::identity());
            pixels.stroke_path(&path, &paint(self.inks.0), &outline, whole, None);
        }
        Some(())
    }

    /// An ellipse, `inset` from the edges: four Bézier curves with the same constant as the sheet's
    /// ovals.
    fn ellipse(self, inset: f32) -> Option<Path> {
        /// Four thirds of (√2 − 1): the curve that is nearest to a quarter of a circle.
        const K: f32 = 0.552_284_8;
        let (cx, cy) = (self.width / 2.0, self.height / 2.0);
        let (rx, ry) = (cx - inset, cy - inset);
        let at = |x: f32, y: f32| (cx + rx * x, cy + ry * y);
        let mut path = PathBuilder::new();
        let start = at(1.0, 0.0);
        path.move_to(start.0, start.1);
        let quarters = [
            [at(1.0, K), at(K, 1.0), at(0.0, 1.0)],
            [at(-K, 1.0), at(-1.0, K), at(-1.0, 0.0)],
            [at(-1.0, -K), at(-K, -1.0), at(0.0, -1.0)],
            [at(K, -1.0), at(1.0, -K), at(1.0, 0.0)],
        ];
        for [one, two, end] in quarters {
            path.cubic_to(one.0, one.1, two.0, two.1, end.0, end.1);
        }
        path.close();
        path.finish()
    }

    fn arrow(self, pixels: &mut Pixmap, is_up: bool) -> Option<()> {
        let (tip, base) = if is_up { (0.1, 0.9) } else { (0.9, 0.1) };
        let path = self.polygon(&[(0.5, tip), (1.0, base), (0.0, base)])?;
        Self::fill(pixels, &path, self.inks.0);
        Some(())
    }

    /// Stripes that lean, over the whole width.
    fn stripes(self, pixels: &mut Pixmap, stripe: f32) -> Option<()> {
        let mut x = -self.height;
        while x < self.width {
            let mut path = PathBuilder::new();
            path.move_to(x, self.height);
            path.line_to(x + self.height, 0.0);
            path.line_to(x + self.height + stripe, 0.0);
            path.line_to(x + stripe, self.height);
            path.close();
            Self::fill(pixels, &path.finish()?, self.inks.0);
            x += stripe * 2.0;
        }
        Some(())
    }

    /// A disc that informs, a triangle that warns, a square on its corner for a fault; in each the
    /// same stroke and dot.
    fn sign(self, pixels: &mut Pixmap, tone: Tone) -> Option<()> {
        let shape = match tone {
            Tone::Normal => self.ellipse(self.width * 0.02)?,
            Tone::Caution => self.polygon(&[(0.5, 0.04), (1.0, 0.94), (0.0, 0.94)])?,
            Tone::Fault => self.polygon(&[(0.5, 0.0), (1.0, 0.5), (0.5, 1.0), (0.0, 0.5)])?,
        };
        Self::fill(pixels, &shape, self.inks.0);
        for (top, part) in [(0.3, 0.3), (0.68, 0.1)] {
            let (left, top) = (self.width * 0.45, self.height * top);
            let rect = PixelRect::from_xywh(left, top, self.width * 0.1, self.height * part)?;
            pixels.fill_rect(rect, &paint(self.inks.1), Transform::identity(), None);
        }
        Some(())
    }

    /// Corners as parts of the width and the height.
    fn polygon(self, corners: &[(f32, f32)]) -> Option<Path> {
        let mut path = PathBuilder::new();
        for (place, (x, y)) in corners.iter().enumerate() {
            let (x, y) = (self.width * x, self.height * y);
            if place == 0 {
                path.move_to(x, y);
            } else {
                path.line_to(x, y);
            }
        }
        path.close();
        path.finish()
    }
}

fn paint(Colour(red, green, blue): Colour) -> Paint<'static> {
    let mut paint = Paint { anti_alias: true, ..Paint::default() };
    paint.set_color(Color::from_rgba8(red, green, blue, 255));
    paint
}
