//! From a press to a changed frame, without a display: the visit takes the press, the screen is laid
//! out anew and the whole of it is drawn by the same software renderer as the window's. The window
//! draws only what has changed, so this is the most that a frame takes. Not in it: the display server.
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
use evenhand_visit::{Command, Palette, ScreenKind, TypeSize};
use hdrhistogram::Histogram;
use walk::Walk;

/// Presses that are measured for each size of screen.
const PRESSES: usize = 200;

fn main() {
    println!("press to laid out, and to a whole new frame, in ms");
    println!(
        "{:>11} {:>7} {:>7} {:>7} {:>7}",
        "screen", "lay p50", "lay p95", "all p50", "all p95"
    );
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
    let mut laid = histogram();
    let mut drawn = histogram();
    let presses = [Command::Next, Command::Next, Command::Choose, Command::Choose];
    for number in 0..PRESSES {
        let is_last = number % 8 == 7 && walk.view().screen == ScreenKind::Contest;
        let command = if is_last { Command::Forward } else { presses[number % presses.len()] };
        let start = Instant::now();
        walk.press(command);
        let scene = walk.stage().scene(walk.view());
        laid.record(micros(start)).unwrap();
        draw::record(&mut renderer, &scene, (Palette::DarkOnLight, PixelPitch::USUAL), size);
        draw::rasterise(&mut renderer, size);
        drawn.record(micros(start)).unwrap();
    }
    println!(
        "{:>11} {:>7.2} {:>7.2} {:>7.2} {:>7.2}",
        format!("{width}x{height}"),
        milliseconds(&laid, 0.5),
        milliseconds(&laid, 0.95),
        milliseconds(&drawn, 0.5),
        milliseconds(&drawn, 0.95)
    );
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
