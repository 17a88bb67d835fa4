//! One picture for each language with every kind of screen on it, small, in the largest letters: to be
//! looked at. `cargo run -p evenhand-app --example contact-sheets -- FOLDER`; `demo/run` does so.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a tool of the demo may stop where it stands"
)]
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a tool of the demo writes its pictures and says where"
)]

#[path = "../tests/support/draw.rs"]
mod draw;
#[path = "../tests/support/walk.rs"]
mod walk;

use std::collections::BTreeMap;
use std::path::PathBuf;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::palette::colours;
use evenhand_app::pane::{PageFace, ground};
use evenhand_app::shapes::Shapes;
use evenhand_visit::{Palette, ScreenKind, TypeSize, View};
use evenhand_words::Catalogue;
use iced::advanced::renderer::Headless as _;
use image::imageops::{self, FilterType};
use image::{Rgba, RgbaImage};
use walk::{Walk, every_screen};

/// A 24 inch screen.
const SIZE: (u16, u16) = (1920, 1080);
/// Each screen on the sheet, a third as wide and as high.
const SMALL: (u32, u32) = (640, 360);
/// Screens beside each other, and the gap between two.
const COLUMNS: u32 = 5;
const GAP: u32 = 16;

fn main() {
    let folder =
        PathBuf::from(std::env::args_os().nth(1).unwrap_or_else(|| "contact-sheets".into()));
    std::fs::create_dir_all(&folder).unwrap();
    let mut renderer = draw::renderer();
    for language in Catalogue::shipped_tags() {
        let walk = walk_in(language);
        let views = kinds(&walk);
        let rows = u32::try_from(views.len()).unwrap().div_ceil(COLUMNS);
        let size = (COLUMNS * (SMALL.0 + GAP) + GAP, rows * (SMALL.1 + GAP) + GAP);
        let mut sheet = RgbaImage::from_pixel(size.0, size.1, Rgba([0x80, 0x80, 0x80, 0xff]));
        for (number, view) in (0u32..).zip(views) {
            let picture = drawn(&mut renderer, &walk, view);
            let small = imageops::resize(&picture, SMALL.0, SMALL.1, FilterType::Triangle);
            let x = GAP + number % COLUMNS * (SMALL.0 + GAP);
            let y = GAP + number / COLUMNS * (SMALL.1 + GAP);
            imageops::replace(&mut sheet, &small, i64::from(x), i64::from(y));
        }
        sheet.save(folder.join(format!("{language}.png"))).unwrap();
    }
    println!("a sheet for each language is in {}", folder.display());
}

fn walk_in(language: &str) -> Walk {
    let comfort = (TypeSize::Largest, Palette::DarkOnLight);
    every_screen((f32::from(SIZE.0), f32::from(SIZE.1)), language, comfort)
}

/// Each kind of screen once, the one with the most rows.
fn kinds(walk: &Walk) -> Vec<&View> {
    let mut kinds: BTreeMap<ScreenKind, &View> = BTreeMap::new();
    for view in &walk.shown {
        let kept = kinds.entry(view.screen).or_insert(view);
        let is_larger = view.comfort.size > kept.comfort.size;
        if is_larger || view.page.shown > kept.page.shown {
            *kept = view;
        }
    }
    kinds.into_values().collect()
}

fn drawn(renderer: &mut iced::Renderer, walk: &Walk, view: &View) -> RgbaImage {
    let scene = walk.stage().scene(view);
    let palette = Palette::DarkOnLight;
    let how = (palette, PixelPitch::USUAL, PageFace::Front);
    let (width, height) = (u32::from(SIZE.0), u32::from(SIZE.1));
    draw::record((renderer, &mut Shapes::new()), &scene, how, (width, height));
    let size = iced::Size::new(width, height);
    let pixels = renderer.screenshot(size, 1.0, ground(colours(palette)));
    RgbaImage::from_raw(width, height, pixels).unwrap()
}
