//! Nothing by colour alone (VVSG 2.0 7.1-F, from memory): every frame is looked at in grey, by the
//! luminance of its pixels, and what differs in meaning must differ there. And nothing flashes.

use evenhand_app::palette::{Colour, contrast};
use evenhand_app::scene::{Mark, Scene};
use evenhand_rules::{Micrometres, Millis};
use evenhand_sheet::Rect;
use evenhand_visit::{Command, Input, Palette, ScreenKind, Target, Tone, TypeSize, View};

use crate::draw;
use crate::glass::GLASSES;
use crate::pixels::Frame;
use crate::walk::Walk;

/// How many pixels of an area differ in luminance by 3:1 or more (WCAG 2.1, 1.4.11, from memory).
fn differing(one: &Frame, other: &Frame, area: Rect) -> usize {
    let span = one.span(area);
    let all = (span.top..span.bottom).flat_map(|y| (span.left..span.right).map(move |x| (x, y)));
    all.filter(|(x, y)| contrast(one.colour(*x, *y), other.colour(*x, *y)) >= 3.0).count()
}

fn frame(renderer: &mut iced::Renderer, scene: &Scene, palette: Palette) -> Frame {
    Frame::draw(renderer, scene, (palette, GLASSES[0].pitch()), GLASSES[0].size())
}

/// A contest, and its first row.
fn contest() -> (Walk, Rect) {
    let mut walk = Walk::begin_on(GLASSES[0].screen(), "en");
    walk.press(Command::Choose).comfort(TypeSize::Medium, Palette::DarkOnLight);
    walk.forward_to(ScreenKind::Contest);
    let row = walk.stage().scene(walk.view()).rows[0].1;
    (walk, row)
}

/// The pixels in an area.
fn size(frame: &Frame, area: Rect) -> usize {
    let span = frame.span(area);
    ((span.right - span.left) * (span.bottom - span.top)) as usize
}

fn oval_of(scene: &Scene) -> Rect {
    let is_oval = |mark: &&Mark| matches!(mark, Mark::Oval { .. });
    scene.marks.iter().find(is_oval).unwrap().area()
}

#[test]
fn a_chosen_row_differs_in_grey() {
    let (mut walk, _) = contest();
    let before = walk.stage().scene(walk.view());
    walk.press(Command::Pick(Target::Row(0)));
    let after = walk.stage().scene(walk.view());
    let mut renderer = draw::renderer();
    for palette in Palette::ALL {
        let (one, other) =
            (frame(&mut renderer, &before, palette), frame(&mut renderer, &after, palette));
        let oval = oval_of(&before);
        // The inside of an ellipse is three quarters of its box, less the outline.
        let least = size(&one, oval) / 2;
        let found = differing(&one, &other, oval);
        assert!(found >= least, "{palette:?}: {found} of {least}");
        assert_eq!(differing(&one, &one, oval), 0);
    }
    // In words too, which have nothing to do with pixels.
    assert!(before.words().any(|word| word == "not chosen"));
    assert!(after.words().any(|word| word == "chosen"));
}

fn unfocused(view: &View) -> View {
    View { focus: None, ..view.clone() }
}

#[test]
fn the_focus_differs_in_grey() {
    let (mut walk, row) = contest();
    while walk.view().focus != Some(Target::Row(0)) {
        walk.press(Command::Next);
    }
    let with = walk.stage().scene(walk.view());
    let without = walk.stage().scene(&unfocused(walk.view()));
    let mut renderer = draw::renderer();
    for palette in Palette::ALL {
        let (one, other) =
            (frame(&mut renderer, &with, palette), frame(&mut renderer, &without, palette));
        let found = differing(&one, &other, row.grown(Micrometres(4_000)));
        // One of its two parts, of 1.2 mm, goes all round the row.
        let pixels = |length: Micrometres| one.pitch.pixels(length);
        let round = 2.0 * (pixels(row.width) + pixels(row.height)) * pixels(Micrometres(1_000));
        #[expect(clippy::cast_precision_loss, reason = "some thousand pixels")]
        let found = found as f32;
        assert!(found >= round, "{palette:?}: {found} of {round}");
    }
}

/// A notice in each tone: the shapes of the three signs differ when each is seen as two greys, its
/// sign and its block, whatever these are.
#[test]
fn notices_differ_in_grey() {
    let (mut walk, _) = contest();
    walk.input(Input::SpeechLost);
    let view = walk.view().clone();
    assert!(view.notice.is_some(), "losing the voice puts a notice up");
    let mut renderer = draw::renderer();
    for palette in Palette::ALL {
        let shapes: Vec<Vec<bool>> = [Tone::Normal, Tone::Caution, Tone::Fault]
            .into_iter()
            .map(|tone| {
                let mut toned = view.clone();
                toned.notice.iter_mut().for_each(|notice| notice.tone = tone);
                let scene = walk.stage().scene(&toned);
                let is_sign = |mark: &&Mark| matches!(mark, Mark::Sign { .. });
                let area = scene.marks.iter().find(is_sign).unwrap().area();
                let frame = frame(&mut renderer, &scene, palette);
                shape(&frame, area)
            })
            .collect();
        for (index, one) in shapes.iter().enumerate() {
            for other in &shapes[index + 1..] {
                let differ = one.iter().zip(other).filter(|(one, other)| one != other).count();
                // A tenth of the sign's box: own choice, far above what smoothing makes.
                assert!(differ * 10 >= one.len(), "{palette:?}: {differ} of {}", one.len());
            }
        }
    }
}

/// An area in two greys: true where a pixel is nearer to the sign's than to the block's, which is in
/// the corner.
fn shape(frame: &Frame, area: Rect) -> Vec<bool> {
    let span = frame.span(area);
    let block = frame.colour(span.left, span.top);
    let middle = frame
        .colour(span.left + (span.right - span.left) / 4, u32::midpoint(span.top, span.bottom));
    let all = (span.top..span.bottom).flat_map(|y| (span.left..span.right).map(move |x| (x, y)));
    all.map(|(x, y)| {
        let colour = frame.colour(x, y);
        contrast(colour, block) > contrast(colour, middle)
    })
    .collect()
}

/// Two colours of one luminance are one grey: what differs by colour alone is found to be the same.
#[test]
fn colours_of_one_luminance_are_the_same_here() {
    let (walk, row) = contest();
    let scene = walk.stage().scene(walk.view());
    let mut renderer = draw::renderer();
    let plain = frame(&mut renderer, &scene, Palette::DarkOnLight);
    let mut red = frame(&mut renderer, &scene, Palette::DarkOnLight);
    let mut green = frame(&mut renderer, &scene, Palette::DarkOnLight);
    // 5.25:1 and 5.14:1 on white: told apart by their colour alone.
    for (frame, colour) in [(&mut red, Colour(0xd0, 0, 0x20)), (&mut green, Colour(0, 0x80, 0))] {
        let span = plain.span(row);
        for y in span.top..span.bottom {
            for x in span.left..span.right {
                frame.image.put_pixel(x, y, image::Rgba([colour.0, colour.1, colour.2, 255]));
            }
        }
    }
    assert_eq!(differing(&red, &green, row), 0);
    assert!(differing(&red, &plain, row) > 0);
}

/// Nothing on a screen changes more than three times in a second while nobody presses (WCAG 2.1,
/// 2.3.1, from memory). The window draws when the visit shows a view and at no other time, so time
/// going by is all that could make it flash: five minutes of it, a twentieth of a second each.
#[test]
fn nothing_flashes_as_time_goes_by() {
    let (mut walk, _) = contest();
    let mut changes: Vec<u64> = Vec::new();
    let mut before = walk.stage().scene(walk.view());
    for now in (0..300_000).step_by(50) {
        let shown = walk.shown.len();
        walk.now = Millis(now);
        walk.input(Input::SpeechEnded);
        walk.input(Input::Tick);
        for view in &walk.shown[shown..] {
            let scene = walk.stage().scene(view);
            if scene != before {
                changes.push(now);
            }
            before = scene;
        }
    }
    let within =
        |from: &u64| changes.iter().filter(|at| (*from..*from + 1_000).contains(at)).count();
    assert!(changes.iter().all(|from| within(from) <= 3), "{changes:?}");
}
