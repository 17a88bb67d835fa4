//! Every kind of screen of a visit on the demo election, measured and drawn.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::print_stderr,
    dead_code,
    unreachable_pub,
    clippy::wrong_self_convention,
    clippy::wildcard_enum_match_arm,
    reason = "a test or a benchmark stops where its ground is missing, and uses a part of the shared support"
)]

#[path = "support/draw.rs"]
mod draw;
#[path = "support/walk.rs"]
mod walk;

use std::collections::BTreeSet;
use std::path::PathBuf;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::scene::Scene;
use evenhand_sheet::Rect;
use evenhand_visit::{Palette, ScreenKind, TypeSize, View};

use walk::{Walk, every_screen};

const LANDSCAPE: (f32, f32) = (1920.0, 1080.0);
const PORTRAIT: (f32, f32) = (1080.0, 1920.0);

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
    let glass = Rect {
        x: evenhand_rules::Micrometres(0),
        y: evenhand_rules::Micrometres(0),
        width: screen.width,
        height: screen.height,
    };
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
            let grown = area.grown(evenhand_rules::Micrometres(2_540));
            assert!(!overlap(grown, other.area), "{whose}: {touch:?} is too near {other:?}");
        }
    }
    let mut expected: BTreeSet<_> = view.targets().into_iter().collect();
    expected.retain(|target| match target {
        // A row of keys is touched key by key.
        evenhand_visit::Target::Row(row) => {
            !matches!(view.rows[usize::from(*row)].kind, evenhand_visit::RowKind::Keys(_))
        }
        _ => true,
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
        .filter_map(|mark| match mark {
            evenhand_app::scene::Mark::Text { area, .. } => Some(*area),
            _ => None,
        })
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
        for language in ["en", "es"] {
            for size in TypeSize::ALL {
                walk_and_check(pixels, language, size);
            }
        }
    }
}

/// Pairs of size and palette, each pair once, over both shapes of screen and both languages.
#[test]
fn every_screen_is_drawn_in_every_palette_and_size() {
    let mut renderer = draw::renderer();
    for (number, (size, palette)) in
        TypeSize::ALL.into_iter().flat_map(|s| Palette::ALL.map(|p| (s, p))).enumerate()
    {
        let pixels = if number % 2 == 0 { LANDSCAPE } else { PORTRAIT };
        let language = if number / 2 % 2 == 0 { "en" } else { "es" };
        let walk = every_screen(pixels, language, (size, palette));
        let mut seen = BTreeSet::new();
        let views = walk.shown.iter().filter(|view| view.comfort.palette == palette);
        for (index, view) in views.enumerate() {
            let all = std::env::var_os("EVENHAND_PICTURES_ALL").is_some();
            if seen.insert(view.screen) || all {
                let name = format!("{number:02}-{index:03}-{:?}", view.screen);
                draw_one(&walk, view, &mut renderer, pixels, &name);
            }
        }
        // The opening and the first language screen come before the palette is set.
        assert!(seen.len() >= KINDS - 2, "{seen:?}");
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole pixels")]
fn draw_one(
    walk: &Walk,
    view: &View,
    renderer: &mut iced::Renderer,
    pixels: (f32, f32),
    name: &str,
) {
    let (width, height) = (pixels.0 as u32, pixels.1 as u32);
    let scene = walk.stage().scene(view);
    let palette = view.comfort.palette;
    let picture = draw::picture(renderer, &scene, palette, (width, height));
    let colours = evenhand_app::palette::colours(palette);
    let (ground, ink) = (colours.ground, colours.ink);
    let has = |of: evenhand_app::palette::Colour| {
        picture.chunks_exact(4).any(|pixel| pixel == [of.0, of.1, of.2, 255])
    };
    assert!(has(ground) && has(ink), "{name}: ground and ink are drawn");
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
