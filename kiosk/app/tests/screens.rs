//! Every kind of screen of a visit on the demo election, measured and drawn.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test may panic")]
#![expect(
    clippy::disallowed_methods,
    reason = "a copy of the demo in another language is a folder"
)]

#[path = "screens/capitals.rs"]
mod capitals;
#[path = "support/draw.rs"]
mod draw;
#[path = "screens/drawn.rs"]
mod drawn;
#[expect(unreachable_pub, reason = "the tests over the whole use it too")]
#[path = "../../../tests/src/figures.rs"]
mod figures;
#[path = "support/glass.rs"]
mod glass;
#[path = "screens/grey.rs"]
mod grey;
#[path = "support/layout.rs"]
mod layout;
#[path = "screens/layouts.rs"]
mod layouts;
#[path = "screens/palettes.rs"]
mod palettes;
#[path = "support/pixels.rs"]
mod pixels;
#[path = "screens/recorded_alone.rs"]
mod recorded_alone;
#[path = "support/walk.rs"]
mod walk;

use std::collections::BTreeSet;
use std::path::PathBuf;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::palette::colours;
use evenhand_app::pane::{PageFace, ground};
use evenhand_app::shapes::Shapes;
use evenhand_visit::{Palette, ScreenKind, TypeSize, View};
use iced::advanced::renderer::Headless as _;
use walk::{Walk, every_screen};

const LANDSCAPE: (f32, f32) = (1920.0, 1080.0);
const PORTRAIT: (f32, f32) = (1080.0, 1920.0);

/// Every screen that a voter or a worker can meet.
const KINDS: usize = 35;

/// A screen as it was drawn.
type Drawing = (ScreenKind, TypeSize, Palette);

/// Each kind of screen in each size and in each palette, and each size in each palette, over both
/// shapes of screen and both languages.
#[test]
fn every_screen_is_drawn_in_every_size_and_palette() {
    let mut renderer = draw::renderer();
    let mut drawn: BTreeSet<Drawing> = BTreeSet::new();
    for (number, size) in TypeSize::ALL.into_iter().enumerate() {
        let pixels = if number % 2 == 0 { LANDSCAPE } else { PORTRAIT };
        let language = if number < 2 { "en" } else { "es" };
        let walk = every_screen(pixels, language, (size, Palette::DarkOnLight));
        for (index, view) in walk.shown.iter().enumerate() {
            let kind = view.screen as usize;
            let palette = Palette::ALL[(kind + number) % Palette::ALL.len()];
            let is_of_size = view.comfort.size == size;
            if is_of_size && drawn.insert((view.screen, size, palette)) {
                let name = format!("{number}-{index:03}-{:?}-{palette:?}", view.screen);
                draw_one(&walk, view, &mut renderer, (pixels, palette), &name);
            }
        }
    }
    let count =
        |of: fn(&Drawing) -> (usize, usize)| drawn.iter().map(of).collect::<BTreeSet<_>>().len();
    // The opening is shown in the default size alone: nothing can be set before it.
    let wanted = (KINDS - 1) * 4;
    assert!(count(|(kind, size, _)| (*kind as usize, *size as usize)) >= wanted);
    assert!(count(|(kind, _, palette)| (*kind as usize, *palette as usize)) >= wanted);
    assert_eq!(count(|(_, size, palette)| (*size as usize, *palette as usize)), 16);
}

/// Draws with pixels a half wider than usual: a screen of the same size in fewer of them.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole pixels")]
fn draw_one(
    walk: &Walk,
    view: &View,
    renderer: &mut iced::Renderer,
    (pixels, palette): ((f32, f32), Palette),
    name: &str,
) {
    let (width, height) = ((pixels.0 / 1.5) as u32, (pixels.1 / 1.5) as u32);
    let pitch = PixelPitch::new(415_050).unwrap();
    let scene = walk.stage().scene(view);
    draw::record(
        (renderer, &mut Shapes::new()),
        &scene,
        (palette, pitch, PageFace::Front),
        (width, height),
    );
    let colours = colours(palette);
    let picture = renderer.screenshot(iced::Size::new(width, height), 1.0, ground(colours));
    for of in [colours.ground, colours.ink] {
        let wanted = [of.0, of.1, of.2, 255];
        let count = picture.chunks_exact(4).filter(|pixel| **pixel == wanted).count();
        assert!(count > 100, "{name}: {of:?} is drawn in {count} pixels");
    }
    if let Some(folder) = std::env::var_os("EVENHAND_PICTURES").map(PathBuf::from) {
        let image = image::RgbaImage::from_raw(width, height, picture).unwrap();
        image.save(folder.join(format!("{name}.png"))).unwrap();
    }
}

#[test]
fn a_pixel_of_the_usual_pitch_is_what_the_scene_is_measured_with() {
    let walk = Walk::begin(LANDSCAPE, "en");
    let width = PixelPitch::USUAL.pixels(walk.screen.width);
    assert!((width - LANDSCAPE.0).abs() < 0.1);
}
