//! Every kind of screen of a visit on the demo election, measured and drawn.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test may panic")]
#![expect(
    clippy::disallowed_methods,
    reason = "a copy of the demo in another language is a folder"
)]

#[path = "support/draw.rs"]
mod draw;
#[path = "support/walk.rs"]
mod walk;

use std::collections::BTreeSet;
use std::path::PathBuf;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::palette::colours;
use evenhand_app::pane::{PageFace, ground};
use evenhand_app::scene::{Mark, Scene};
use evenhand_app::shapes::Shapes;
use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Palette, RowKind, ScreenKind, Target, TypeSize, View};
use evenhand_words::Catalogue;
use iced::advanced::renderer::Headless as _;
use walk::{Walk, every_screen};

const LANDSCAPE: (f32, f32) = (1920.0, 1080.0);
const PORTRAIT: (f32, f32) = (1080.0, 1920.0);

/// The sizes in which languages other than the demo's are looked at.
const SIZES_OF_OTHERS: [TypeSize; 2] = [TypeSize::Medium, TypeSize::Largest];
/// Every screen that a voter or a worker can meet.
const KINDS: usize = 30;

fn overlap(one: Rect, other: Rect) -> bool {
    one.x < other.right()
        && other.x < one.right()
        && one.y < other.bottom()
        && other.y < one.bottom()
}

/// What must hold of any screen.
fn check(walk: &Walk, view: &View, scene: &Scene, whose: &str) {
    let screen = walk.screen;
    let glass =
        Rect { x: Micrometres(0), y: Micrometres(0), width: screen.width, height: screen.height };
    for mark in &scene.marks {
        let area = mark.area();
        assert!(
            area.x >= glass.x
                && area.y >= glass.y
                && area.right() <= glass.right()
                && area.bottom() <= glass.bottom(),
            "{whose}: {area:?} is outside the glass"
        );
    }
    for (index, touch) in scene.touches.iter().enumerate() {
        let area = touch.area;
        assert!(area.width.0 >= 12_700 && area.height.0 >= 12_700, "{whose}: {touch:?} is small");
        for other in &scene.touches[index + 1..] {
            let grown = area.grown(Micrometres(2_540));
            assert!(!overlap(grown, other.area), "{whose}: {touch:?} is too near {other:?}");
        }
    }
    let mut expected: BTreeSet<_> = view.targets().into_iter().collect();
    // A row of keys is touched key by key.
    expected.retain(|target| {
        let Target::Row(row) = target else { return true };
        !matches!(view.rows[usize::from(*row)].kind, RowKind::Keys(_))
    });
    let touchable: BTreeSet<_> = scene.touches.iter().map(|touch| touch.target).collect();
    assert!(expected.is_subset(&touchable), "{whose}: {expected:?} {touchable:?}");
    let (head, head_room) = scene.head_bottom;
    assert!(head <= head_room, "{whose}: the head is {} too high", head.0 - head_room.0);
    let (rows, rows_room) = scene.rows_bottom;
    assert!(rows <= rows_room, "{whose}: the rows are {} too high", rows.0 - rows_room.0);
    let texts: Vec<Rect> = scene
        .marks
        .iter()
        .filter(|mark| matches!(mark, Mark::Text { .. }))
        .map(Mark::area)
        .collect();
    for (index, text) in texts.iter().enumerate() {
        for other in &texts[index + 1..] {
            assert!(!overlap(*text, *other), "{whose}: {text:?} lies over {other:?}");
        }
    }
}

fn walk_and_check(pixels: (f32, f32), language: &str, size: TypeSize) {
    let walk = every_screen(pixels, language, (size, Palette::DarkOnLight));
    let kinds: BTreeSet<ScreenKind> = walk.shown.iter().map(|view| view.screen).collect();
    assert_eq!(kinds.len(), KINDS, "{kinds:?}");
    for (index, view) in walk.shown.iter().enumerate() {
        let scene = walk.stage().scene(view);
        let whose = format!("{language} {size:?} {pixels:?} {:?} #{index}", view.screen);
        check(&walk, view, &scene, &whose);
    }
}

#[test]
fn nothing_is_cut_and_nothing_overlaps() {
    for pixels in [LANDSCAPE, PORTRAIT] {
        for language in Catalogue::shipped_tags() {
            // The demo's own languages in every size, the others in the default and the largest.
            let is_of_demo = ["en", "es"].contains(&language);
            let sizes = TypeSize::ALL.into_iter();
            for size in sizes.filter(|size| is_of_demo || SIZES_OF_OTHERS.contains(size)) {
                walk_and_check(pixels, language, size);
            }
        }
    }
}

/// Screens in each language that isn't the demo's, in the largest type, to be looked at.
#[test]
fn screens_are_drawn_in_every_language() {
    let mut renderer = draw::renderer();
    for language in Catalogue::shipped_tags().filter(|tag| !["en", "es"].contains(tag)) {
        for (size, pixels) in SIZES_OF_OTHERS.into_iter().zip([LANDSCAPE, PORTRAIT]) {
            let walk = every_screen(pixels, language, (size, Palette::DarkOnLight));
            let mut kinds = BTreeSet::new();
            for view in walk.shown.iter().filter(|view| view.comfort.size == size) {
                if kinds.insert(view.screen) {
                    let name = format!("{language}-{size:?}-{:?}", view.screen);
                    draw_one(&walk, view, &mut renderer, (pixels, Palette::DarkOnLight), &name);
                }
            }
            assert!(kinds.len() >= KINDS - 1, "{language}: {kinds:?}");
        }
    }
}

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
