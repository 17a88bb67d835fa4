//! The height of a capital I on the drawn frame, in millimetres of glass, against the bands of VVSG
//! 2.0 7.1-G (from memory): the smallest text of each size in its band, and no voter's text below it.
//!
//! The screens are real ones whose every text begins with an I. The height is that of the I's ink in
//! the column of pixels that has most of it; a row that is inked in part counts by its part, so that
//! coarse pixels need no allowance but that of eight-bit colours.

use std::collections::BTreeMap;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::scene::Mark;
use evenhand_lettering::Shaper;
use evenhand_sheet::Rect;
use evenhand_visit::{Arg, Message, Palette, Phrase, RowKind, TypeSize, View};

use crate::glass::{Glass, glass};
use crate::layout::band;
use crate::pixels::Frame;
use crate::walk::{Walk, through_every_screen};
use crate::{draw, figures};

/// From the finest pixels to the coarsest that VVSG 2.0 8.1-A allows (0.3 mm; from memory).
const MEASURED: [Measured; 6] = [
    measured("10in-1024x768", (1024, 768), 198_437, TypeSize::Small),
    measured("15in-1024x768", (1024, 768), 298_800, TypeSize::Medium),
    measured("24in-1920x1080", (1920, 1080), 276_700, TypeSize::Largest),
    measured("24in-1080x1920", (1080, 1920), 276_700, TypeSize::Largest),
    measured("32in-3840x2160", (3840, 2160), 184_480, TypeSize::Largest),
    measured("32in-2160x3840", (2160, 3840), 184_480, TypeSize::Largest),
];

/// A screen, and the largest letters that it holds.
#[derive(Clone, Copy)]
struct Measured {
    glass: Glass,
    holds: TypeSize,
}

const fn measured(name: &'static str, pixels: (u16, u16), pitch: u32, holds: TypeSize) -> Measured {
    Measured { glass: glass(name, pixels, pitch), holds }
}

/// What eight-bit colours can hide of a height, in millimetres.
const ROUNDING: f64 = 0.01;

/// The same phrase with an I before it.
fn with_capital(walk: &Walk, view: &View, phrase: &Phrase) -> Phrase {
    let text = walk.stage().words.seen(phrase, view.comfort.language);
    Phrase::new(Message::Plain).with("text", Arg::Read(format!("I {text}")))
}

/// The view with an I before each text that a voter reads; as many rows as then fit.
fn capitals(walk: &Walk, view: &View) -> View {
    let mut new = view.clone();
    let change = |phrase: &mut Phrase| *phrase = with_capital(walk, view, phrase);
    change(&mut new.heading);
    new.lines.iter_mut().for_each(change);
    let singles = [&mut new.state_words, &mut new.place, &mut new.more_above, &mut new.more_below];
    singles.into_iter().flatten().for_each(change);
    new.notice.iter_mut().for_each(|notice| change(&mut notice.phrase));
    new.bar.iter_mut().filter_map(|bar| bar.label.as_mut()).for_each(change);
    for row in &mut new.rows {
        if !matches!(row.kind, RowKind::Keys(_)) {
            change(&mut row.label);
        }
        row.detail.iter_mut().chain(&mut row.state).for_each(change);
    }
    let fitting = walk.stage().rows_that_fit(&new, new.page.first);
    let left = u16::try_from(new.rows.len()).unwrap() - new.page.first;
    new.page.shown = fitting.min(left);
    new
}

/// The height of the ink in that column of an area that has most of it, in millimetres.
fn ink_height(frame: &Frame, area: Rect) -> f64 {
    let span = frame.span(area);
    let pair = frame.pair(area);
    let green = |x, y| f64::from(frame.colour(x, y).1);
    let (ground, ink) = (f64::from(pair.ground.1), f64::from(pair.ink.1));
    let inked = |x, y| ((green(x, y) - ground) / (ink - ground)).clamp(0.0, 1.0);
    let column = |x| (span.top..span.bottom).map(|y| inked(x, y)).sum::<f64>();
    let strength = |x| (span.top..span.bottom).map(|y| inked(x, y)).fold(0.01, f64::max);
    let rows =
        (span.left..span.right).map(|x| column(x) / strength(x).max(0.5)).fold(0.0, f64::max);
    rows * f64::from(frame.pitch.distance(1000.0).0) / 1_000_000.0
}

/// The heights of the capitals that begin a text of this view, in millimetres, drawn with one pitch
/// and measured with another, by what the text belongs to.
fn heights(
    renderer: &mut iced::Renderer,
    walk: &Walk,
    view: &View,
    glass: Glass,
    measured_with: PixelPitch,
) -> Vec<(f64, String)> {
    let shaper = Shaper::new();
    let scene = walk.stage().scene(&capitals(walk, view));
    let with = (Palette::DarkOnLight, glass.pitch());
    let mut frame = Frame::draw(renderer, &scene, with, glass.size());
    // Boxes are found with the pitch that they were drawn with; ink is measured with the other.
    let found = scene.marks.iter().filter_map(|mark| {
        let Mark::Text { area, words, face, em, .. } = mark else { return None };
        if !words.as_str().starts_with("I ") {
            return None;
        }
        let width = shaper.advance_of('I', *face, *em);
        Some((ink_height(&frame, Rect { width, ..*area }), words.as_str().to_owned()))
    });
    let found: Vec<_> = found.collect();
    let scale = f64::from(measured_with.distance(100_000.0).0)
        / f64::from(glass.pitch().distance(100_000.0).0);
    frame.pitch = measured_with;
    found.into_iter().map(|(height, words)| (height * scale, words)).collect()
}

/// One view of each make: which kinds of row, a notice or none, more to see or not.
fn makes(walk: &Walk, size: TypeSize) -> Vec<&View> {
    let mut found = BTreeMap::new();
    for view in walk.shown.iter().filter(|view| view.comfort.size == size) {
        let of = |kind: &RowKind| match kind {
            RowKind::Oval { .. } => 1,
            RowKind::Ranked { .. } => 2,
            RowKind::Action => 4,
            RowKind::Summary => 8,
            RowKind::Passage => 16,
            RowKind::Keys(_) => 32,
            RowKind::Picture(..) => 64,
        };
        let kinds = view.shown_rows().fold(0, |kinds, (_, row)| kinds | of(&row.kind));
        let make = (kinds, view.notice.is_some(), view.more_below.is_some());
        found.entry(make).or_insert(view);
    }
    found.into_values().collect()
}

fn walk_on(glass: Glass, language: &str, size: TypeSize) -> Walk {
    through_every_screen(Walk::begin_on(glass.screen(), language), (size, Palette::DarkOnLight))
}

#[test]
fn every_text_has_the_height_of_its_size() {
    let mut renderer = draw::renderer();
    let mut faults = Vec::new();
    for size in TypeSize::ALL {
        let (low, high) = band(size);
        let (low, high) = (f64::from(low) / 1000.0, f64::from(high) / 1000.0);
        for Measured { glass, holds } in MEASURED {
            // Small screens hold the small sizes only.
            if holds < size {
                continue;
            }
            let walk = walk_on(glass, "en", size);
            let mut least = f64::MAX;
            let mut count = 0;
            for view in makes(&walk, size) {
                for (height, words) in heights(&mut renderer, &walk, view, glass, glass.pitch()) {
                    count += 1;
                    least = least.min(height);
                    if height < low - ROUNDING {
                        let screen = view.screen;
                        faults.push(format!(
                            "{} {size:?} {screen:?} {height:.2}: {words}",
                            glass.name
                        ));
                    }
                }
            }
            assert!(count > 100, "{}: only {count} capitals", glass.name);
            figures::note(
                &format!("capital I, {size:?}, {}", glass.name),
                &format!("{least:.2} mm least of {count}"),
            );
            if least > high + ROUNDING {
                faults.push(format!("{} {size:?}: {least:.2} is above the band", glass.name));
            }
        }
    }
    assert!(faults.is_empty(), "{}\n{} faults", faults.join("\n"), faults.len());
}

#[test]
fn a_frame_drawn_with_another_pitch_fails() {
    let mut renderer = draw::renderer();
    let glass = MEASURED[2].glass;
    for size in TypeSize::ALL {
        let walk = walk_on(glass, "en", size);
        let (low, high) = band(size);
        for wrong in [glass.pitch_nm * 85 / 100, glass.pitch_nm * 125 / 100] {
            let wrong = PixelPitch::new(wrong).unwrap();
            let found = makes(&walk, size).into_iter();
            let found = found.flat_map(|view| heights(&mut renderer, &walk, view, glass, wrong));
            let least = found.map(|(height, _)| height).fold(f64::MAX, f64::min) * 1000.0;
            assert!(
                least < f64::from(low) || least > f64::from(high),
                "{size:?}: {least} µm with {wrong:?}"
            );
        }
    }
}
