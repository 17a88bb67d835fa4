//! Contrast on drawn frames: the colours are those of pixels, not those that a palette was written
//! with. Every kind of screen in each of the four palettes.
//!
//! What must hold is VVSG 2.0 7.1-C and 7.1-D (from memory): in the default palette 10:1 for all that
//! conveys information; text at 20:1 in dark on light and in light on dark, 7:1 to 15:1 in yellow on
//! dark, 4.5:1 to 8:1 in low contrast. What isn't text has 3:1 at least in the other palettes (WCAG
//! 2.1, 1.4.11, from memory). The picture of a written name is the paper's and has the paper's
//! contrast.

use std::collections::BTreeMap;

use evenhand_app::palette::Tint;
use evenhand_app::palette::contrast;
use evenhand_app::scene::{Mark, Scene};
use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Palette, ScreenKind, TypeSize, View};

use crate::glass::GLASSES;
use crate::pixels::{Frame, Pair};
use crate::walk::{Walk, through_every_screen};
use crate::{KINDS, draw, figures};

/// What a palette promises.
struct Promise {
    text: (f64, f64),
    other: f64,
    is_dark_on_light: bool,
}

const fn promise(palette: Palette) -> Promise {
    let (text, other, is_dark_on_light) = match palette {
        Palette::DarkOnLight => ((20.0, 21.0), 10.0, true),
        Palette::LightOnDark => ((20.0, 21.0), 3.0, false),
        Palette::YellowOnDark => ((7.0, 15.0), 3.0, false),
        Palette::LowContrast => ((4.5, 8.0), 3.0, true),
    };
    Promise { text, other, is_dark_on_light }
}

/// What was measured: the least contrast of each sort of mark.
type Leasts = BTreeMap<&'static str, f64>;

/// The middle fifth of a box's upper edge, and as much of what is under it.
fn upper_edge(area: Rect, edge: Micrometres) -> Rect {
    let fifth = Micrometres(area.width.0 / 5);
    let height = edge.times(2).plus(Micrometres(600));
    Rect { x: area.x.plus(fifth.times(2)), y: area.y, width: fifth, height }
}

/// The two colours of a mark, with its sort. A box without an edge is a ground.
fn pair_of(frame: &Frame, mark: &Mark) -> Option<(&'static str, Pair)> {
    let (sort, area) = match mark {
        Mark::Text { area, .. } => ("text", *area),
        Mark::Oval { area, .. } => ("oval", *area),
        Mark::Arrow { area, .. } => ("arrow", *area),
        Mark::Sign { area, .. } => ("sign", *area),
        Mark::Stripes(area) => ("stripes", *area),
        Mark::Box { area, edge: Some((tint, edge)), .. } => match tint {
            Tint::FocusDark | Tint::FocusLight => return None,
            Tint::Ground
            | Tint::Ink
            | Tint::Press
            | Tint::Band
            | Tint::Block(_)
            | Tint::SignOn(_) => ("edge", upper_edge(*area, *edge)),
        },
        Mark::Box { .. } | Mark::Picture { .. } => return None,
    };
    Some((sort, frame.pair(area)))
}

/// The focus: both parts against each other, and the one that is seen against the ground.
fn focus(frame: &Frame, scene: &Scene) -> Option<[(&'static str, f64); 2]> {
    let part = |wanted: Tint| {
        scene.marks.iter().find_map(|mark| {
            let Mark::Box { area, edge: Some((tint, edge)), .. } = mark else { return None };
            let middle = Rect {
                x: area.x.plus(Micrometres(area.width.0 / 2)),
                y: area.y.plus(Micrometres(edge.0 / 2)),
                width: Micrometres(1_000),
                height: Micrometres(1_000),
            };
            let span = frame.span(middle);
            (*tint == wanted).then(|| frame.colour(span.left, span.top))
        })
    };
    let (dark, light) = (part(Tint::FocusDark)?, part(Tint::FocusLight)?);
    let ground = frame.corner();
    let seen = contrast(dark, ground).max(contrast(light, ground));
    Some([("focus, its two parts", contrast(dark, light)), ("focus on the ground", seen)])
}

/// What a frame doesn't keep of what a palette promises.
fn broken(frame: &Frame, scene: &Scene, palette: Palette, leasts: &mut Leasts) -> Vec<String> {
    let Promise { text, other, is_dark_on_light } = promise(palette);
    let mut broken = Vec::new();
    let mut note = |sort, contrast: f64| {
        let least = leasts.entry(sort).or_insert(f64::MAX);
        *least = least.min(contrast);
    };
    for mark in &scene.marks {
        let Some((sort, pair)) = pair_of(frame, mark) else { continue };
        let contrast = pair.contrast();
        note(sort, contrast);
        let (least, most) = if sort == "text" { text } else { (other, 21.0) };
        // Two places of the ratio are what is published.
        if contrast < least - 0.005 || contrast > most + 0.005 {
            broken.push(format!("{sort} {contrast:.2}: {pair:?}"));
        }
        if sort == "text" && pair.is_dark_on_light() != is_dark_on_light {
            broken.push(format!("{sort} is the wrong way round"));
        }
    }
    for (sort, contrast) in focus(frame, scene).into_iter().flatten() {
        note(sort, contrast);
        if contrast < other {
            broken.push(format!("{sort} {contrast:.2}"));
        }
    }
    broken
}

fn walk() -> Walk {
    let begun = Walk::begin_on(GLASSES[0].screen(), "en");
    through_every_screen(begun, (TypeSize::Medium, Palette::DarkOnLight))
}

/// Each kind of screen once; and each with a notice.
fn kinds(walk: &Walk) -> Vec<&View> {
    let mut kinds: BTreeMap<(ScreenKind, Option<usize>, bool), &View> = BTreeMap::new();
    for view in &walk.shown {
        let tone = view.notice.as_ref().map(|notice| notice.tone as usize);
        kinds.entry((view.screen, tone, view.focus.is_some())).or_insert(view);
    }
    kinds.into_values().collect()
}

fn drawn(renderer: &mut iced::Renderer, scene: &Scene, palette: Palette) -> Frame {
    Frame::draw(renderer, scene, (palette, GLASSES[0].pitch()), GLASSES[0].size())
}

#[test]
fn every_screen_keeps_what_each_palette_promises() {
    let walk = walk();
    let views = kinds(&walk);
    assert!(views.len() >= KINDS);
    let mut renderer = draw::renderer();
    let mut faults = Vec::new();
    for palette in Palette::ALL {
        let mut leasts = Leasts::new();
        for view in &views {
            let scene = walk.stage().scene(view);
            let frame = drawn(&mut renderer, &scene, palette);
            for fault in broken(&frame, &scene, palette, &mut leasts) {
                faults.push(format!("{palette:?} {:?}: {fault}", view.screen));
            }
        }
        for (sort, least) in &leasts {
            figures::note(&format!("least contrast, {palette:?}, {sort}"), &format!("{least:.2}"));
        }
        let sorts = ["text", "edge", "oval", "arrow", "sign", "stripes", "focus on the ground"];
        assert!(sorts.iter().all(|sort| leasts.contains_key(sort)), "{leasts:?}");
    }
    assert!(faults.is_empty(), "{}\n{} faults", faults.join("\n"), faults.len());
}

#[test]
fn a_frame_in_another_palette_is_found_out() {
    let walk = walk();
    let view = walk.shown.iter().find(|view| view.screen == ScreenKind::Contest).unwrap();
    let scene = walk.stage().scene(view);
    let mut renderer = draw::renderer();
    for palette in Palette::ALL {
        let frame = drawn(&mut renderer, &scene, palette);
        for other in Palette::ALL {
            let faults = broken(&frame, &scene, other, &mut Leasts::new());
            assert_eq!(faults.is_empty(), palette == other, "{palette:?} as {other:?}: {faults:?}");
        }
    }
}
