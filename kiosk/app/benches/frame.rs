//! From a press to a changed frame, without a display: the visit takes the press, the screen is laid
//! out anew, and what has changed of it is drawn by the window's own software renderer, into memory
//! that keeps the frame before, as the window does. Also with the whole frame drawn anew, which is
//! what a window does once, when it opens. Not in it: the toolkit's event loop and the display server.
//!
//! Run: `cargo bench -p evenhand-app --bench frame`. Prints milliseconds by screen size.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a benchmark may panic")]
#![expect(clippy::disallowed_methods, reason = "a benchmark looks at the clock")]
#![expect(clippy::print_stdout, reason = "a benchmark prints its figures")]

#[path = "../tests/support/draw.rs"]
mod draw;
#[path = "../tests/support/walk.rs"]
mod walk;

use std::time::Instant;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::pane::PageFace;
use evenhand_app::scene::Scene;
use evenhand_app::shapes::Shapes;
use evenhand_visit::{Command, Palette, ScreenKind, TypeSize};
use hdrhistogram::Histogram;
use iced::advanced::graphics::{Viewport, damage};
use iced::{Color, Rectangle, Size};
use iced_tiny_skia::Layer;
use tiny_skia::{Mask, Pixmap};
use walk::Walk;

/// Presses that are measured for each size of screen.
const PRESSES: usize = 200;

fn main() {
    println!("from a press, in ms: laid out | changed frame | whole frame anew");
    println!("{:>11} {:>15} {:>15} {:>15}", "screen", "p50 p95", "p50 p95", "p50 p95");
    for (width, height) in [(1920u16, 1080u16), (1080, 1920), (3840, 2160)] {
        measure(width, height);
    }
    whole_visit();
}

/// Moves and choices over the contests of a style, at the default size of type.
fn measure(width: u16, height: u16) {
    let mut renderer = draw::renderer();
    let size = (u32::from(width), u32::from(height));
    let mut walk = Walk::begin((f32::from(width), f32::from(height)), "en");
    walk.forward_to(ScreenKind::Contest);
    let (mut laid, mut changed, mut whole) = (histogram(), histogram(), histogram());
    let mut glass = Glass::new(size);
    let (mut before, mut face) = (Scene::default(), PageFace::default());
    let mut shapes = Shapes::new();
    let presses = [Command::Next, Command::Next, Command::Choose, Command::Choose];
    for number in 0..PRESSES {
        let is_last = number % 8 == 7 && walk.view().screen == ScreenKind::Contest;
        let command = if is_last { Command::Forward } else { presses[number % presses.len()] };
        let start = Instant::now();
        walk.press(command);
        let scene = walk.stage().scene(walk.view());
        face = face.after(&before, &scene);
        laid.record(micros(start)).unwrap();
        let with = (&mut renderer, &mut shapes);
        draw::record(with, &scene, (Palette::DarkOnLight, PixelPitch::USUAL, face), size);
        glass.draw_changes(&mut renderer);
        changed.record(micros(start)).unwrap();
        let start = Instant::now();
        glass.draw_all(&mut renderer);
        whole.record(micros(start)).unwrap();
        before = scene;
    }
    let pair =
        |of: &Histogram<u64>| format!("{:.2} {:.2}", milliseconds(of, 0.5), milliseconds(of, 0.95));
    println!(
        "{:>11} {:>15} {:>15} {:>15}",
        format!("{width}x{height}"),
        pair(&laid),
        pair(&changed),
        pair(&whole)
    );
}

/// Memory for a frame, which keeps the frame before.
struct Glass {
    pixels: Pixmap,
    mask: Mask,
    viewport: Viewport,
    before: Vec<Layer>,
}

impl Glass {
    fn new((width, height): (u32, u32)) -> Self {
        Self {
            pixels: Pixmap::new(width, height).unwrap(),
            mask: Mask::new(width, height).unwrap(),
            viewport: Viewport::with_physical_size(Size::new(width, height), 1.0),
            before: Vec::new(),
        }
    }

    /// What the window's compositor does with each frame after its first.
    fn draw_changes(&mut self, renderer: &mut iced::Renderer) {
        let glass = Rectangle::with_size(self.viewport.logical_size());
        let changes = damage::diff(
            &self.before,
            renderer.layers(),
            |layer| vec![layer.bounds],
            Layer::damage,
        );
        self.before = renderer.layers().to_vec();
        if !changes.is_empty() {
            self.draw(renderer, &damage::group(changes, glass));
        }
    }

    fn draw_all(&mut self, renderer: &mut iced::Renderer) {
        let glass = Rectangle::with_size(self.viewport.logical_size());
        self.draw(renderer, &[glass]);
    }

    fn draw(&mut self, renderer: &mut iced::Renderer, areas: &[Rectangle]) {
        let mut pixels = self.pixels.as_mut();
        renderer.draw(&mut pixels, &mut self.mask, &self.viewport, areas, Color::WHITE);
    }
}

/// Every screen of a visit laid out once, at the largest type: the worst that the ruler does.
fn whole_visit() {
    let start = Instant::now();
    let comfort = (TypeSize::Largest, Palette::DarkOnLight);
    let walk = walk::every_screen((1080.0, 1920.0), "es", comfort);
    let each = micros(start) / u64::try_from(walk.shown.len()).unwrap();
    println!("a visit of {} screens, largest type: {each} us a screen", walk.shown.len());
}

fn histogram() -> Histogram<u64> {
    Histogram::new_with_bounds(1, 10_000_000, 3).unwrap()
}

fn micros(start: Instant) -> u64 {
    u64::try_from(start.elapsed().as_micros()).unwrap().max(1)
}

#[expect(clippy::cast_precision_loss, reason = "figures for people")]
fn milliseconds(histogram: &Histogram<u64>, quantile: f64) -> f64 {
    histogram.value_at_quantile(quantile) as f64 / 1000.0
}
