//! Drawn frames against the boxes that were laid out: no ink outside a box, and none at its upper or
//! lower end, where a letter would be cut.
//!
//! Drawn in the suite: a choice in which each pair of kind of screen, language, size, palette and
//! resolution occurs. `EVENHAND_LAYOUTS=all` draws all of them.

use std::collections::BTreeSet;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::scene::{Mark, Scene};
use evenhand_rules::Micrometres;
use evenhand_visit::{Palette, ScreenKind, TypeSize, View};
use evenhand_words::Catalogue;

use crate::glass::{GLASSES, Glass};
use crate::pixels::{Frame, Span};
use crate::walk::{Walk, through_every_screen};
use crate::{KINDS, draw, figures};

/// A frame's boxes and what else is drawn, as a mask: true where ink may be.
struct Mask {
    width: u32,
    may: Vec<bool>,
}

impl Mask {
    fn new((width, height): (u32, u32)) -> Self {
        Self { width, may: vec![false; width as usize * height as usize] }
    }
    fn allow(&mut self, span: Span) {
        for y in span.top..span.bottom {
            let row = (y * self.width) as usize;
            self.may[row + span.left as usize..row + span.right as usize].fill(true);
        }
    }
    fn at(&self, x: u32, y: u32) -> bool {
        self.may[(y * self.width + x) as usize]
    }
}

/// How far letters may reach over the ends of their line, in ems: the pen moves by an advance, and
/// the ink of a letter is a little to the side of it. Own choice; a letter that is too much is wider.
const OVERHANG_EMS: f32 = 0.1;

/// Where the ink of a mark may be: the pixels that its box touches, however little, and at the ends
/// of a line its letters' overhang.
fn room(frame: &Frame, mark: &Mark) -> Span {
    // A pixel further out on each side: boxes are drawn on the nearest whole pixels, and `span`
    // rounds.
    let mut area = mark.area().grown(Micrometres(frame.pitch.distance(1.0).0 + 1));
    if let Mark::Text { em, .. } = mark {
        let overhang = frame.pitch.distance(frame.pitch.pixels(*em) * OVERHANG_EMS);
        area.x = area.x.minus(overhang);
        area.width = area.width.plus(overhang.times(2));
    }
    frame.span(area)
}

/// What is drawn outside the boxes of these marks, in pixels.
pub(crate) fn ink_outside(frame: &Frame, marks: &[Mark]) -> usize {
    let mut mask = Mask::new(frame.image.dimensions());
    for mark in marks {
        mask.allow(room(frame, mark));
    }
    let ground = frame.corner();
    let (width, height) = frame.image.dimensions();
    let all = (0..height).flat_map(|y| (0..width).map(move |x| (x, y)));
    all.filter(|(x, y)| !mask.at(*x, *y) && frame.colour(*x, *y) != ground).count()
}

/// Lines with ink in the first or the last row of pixels of their box: letters that are cut there.
pub(crate) fn cut_lines(frame: &Frame, marks: &[Mark]) -> Vec<String> {
    let ground = frame.corner();
    let is_inked =
        |span: Span, y: u32| (span.left..span.right).any(|x| frame.colour(x, y) != ground);
    let mut cut = Vec::new();
    for mark in marks {
        let Mark::Text { area, words, .. } = mark else { continue };
        let span = frame.span(*area);
        if span.bottom - span.top > 3
            && (is_inked(span, span.top) || is_inked(span, span.bottom - 1))
        {
            cut.push(words.as_str().to_owned());
        }
    }
    cut
}

/// The scene's lines of text alone.
pub(crate) fn text_alone(scene: &Scene) -> Scene {
    let is_text = |mark: &&Mark| matches!(mark, Mark::Text { .. });
    Scene { marks: scene.marks.iter().filter(is_text).cloned().collect(), ..Scene::default() }
}

/// One frame of the choice: places in the lists of resolutions, languages, sizes, palettes, and the
/// kind of screen.
type Choice = [usize; 5];

/// What each place of a choice counts to.
fn counts() -> Choice {
    [
        GLASSES.len(),
        Catalogue::shipped_tags().count(),
        TypeSize::ALL.len(),
        Palette::ALL.len(),
        KINDS,
    ]
}

/// The pairs that a choice has.
fn pairs_of(choice: Choice) -> impl Iterator<Item = (usize, usize, usize, usize)> {
    (0..5).flat_map(move |one| {
        (one + 1..5).map(move |other| (one, choice[one], other, choice[other]))
    })
}

/// Choices in which every pair occurs: each next one has, of some that are tried, most pairs that
/// are still missing. The same every time.
fn pairwise() -> Vec<Choice> {
    let counts = counts();
    let mut missing = BTreeSet::new();
    for one in 0..5 {
        for other in one + 1..5 {
            for a in 0..counts[one] {
                missing.extend((0..counts[other]).map(|b| (one, a, other, b)));
            }
        }
    }
    let mut chance = 1u64;
    let mut next = |below: usize| {
        // Knuth's MMIX generator: no cryptography is asked for.
        chance =
            chance.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(chance >> 33).unwrap() % below
    };
    let mut choices = Vec::new();
    while let Some((one, a, other, b)) = missing.iter().next_back().copied() {
        let tries = (0..60).map(|_| {
            let mut choice = counts.map(&mut next);
            (choice[one], choice[other]) = (a, b);
            choice
        });
        let gain =
            |choice: &Choice| pairs_of(*choice).filter(|pair| missing.contains(pair)).count();
        let best = tries.max_by_key(gain).unwrap();
        pairs_of(best).for_each(|pair| {
            missing.remove(&pair);
        });
        choices.push(best);
    }
    choices
}

fn every() -> Vec<Choice> {
    let counts = counts();
    let total: usize = counts.iter().product();
    (0..total)
        .map(|mut number| {
            counts.map(|count| {
                let place = number % count;
                number /= count;
                place
            })
        })
        .collect()
}

/// The views to be drawn of a walk: one of each kind, the one with the most on it.
fn fullest(walk: &Walk, size: TypeSize) -> Vec<&View> {
    let mut kinds: std::collections::BTreeMap<ScreenKind, (usize, &View)> =
        std::collections::BTreeMap::new();
    for view in &walk.shown {
        // The opening is shown before a size can be set.
        if view.comfort.size != size && view.screen != ScreenKind::Opening {
            continue;
        }
        let count = walk.stage().scene(view).marks.len();
        let kept = kinds.entry(view.screen).or_insert((count, view));
        if count > kept.0 {
            *kept = (count, view);
        }
    }
    kinds.into_values().map(|(_, view)| view).collect()
}

/// Draws one view twice: whole, and its text alone.
fn check(
    renderer: &mut iced::Renderer,
    scene: &Scene,
    (palette, pitch): (Palette, PixelPitch),
    size: (u32, u32),
    whose: &str,
) -> Vec<String> {
    let mut faults = Vec::new();
    let whole = Frame::draw(renderer, scene, (palette, pitch), size);
    if let Some(folder) = std::env::var_os("EVENHAND_PICTURES") {
        let name = whose.replace(' ', "-");
        whole.image.save(std::path::Path::new(&folder).join(format!("{name}.png"))).unwrap();
    }
    let outside = ink_outside(&whole, &scene.marks);
    if outside > 0 {
        faults.push(format!("{whose}: {outside} pixels outside every box"));
    }
    let text = text_alone(scene);
    let frame = Frame::draw(renderer, &text, (palette, pitch), size);
    let outside = ink_outside(&frame, &text.marks);
    if outside > 0 {
        faults.push(format!("{whose}: {outside} pixels of text outside its boxes"));
    }
    for line in cut_lines(&frame, &text.marks) {
        faults.push(format!("{whose}: \"{line}\" is cut"));
    }
    faults
}

#[test]
fn ink_stays_in_its_boxes() {
    let wants_all = std::env::var("EVENHAND_LAYOUTS").is_ok_and(|value| value == "all");
    let mut choices = if wants_all { every() } else { pairwise() };
    choices.sort_unstable();
    let tags: Vec<&str> = Catalogue::shipped_tags().collect();
    let mut renderer = draw::renderer();
    let mut faults = Vec::new();
    let mut drawn = 0;
    for same in choices.chunk_by(|one, other| one[..3] == other[..3]) {
        let [glass, language, size, ..] = same[0];
        let (glass, language, size): (Glass, _, _) =
            (GLASSES[glass], tags[language], TypeSize::ALL[size]);
        let begun = Walk::begin_on(glass.screen(), language);
        let walk = through_every_screen(begun, (size, Palette::DarkOnLight));
        let views = fullest(&walk, size);
        assert_eq!(views.len(), KINDS);
        for [.., palette, kind] in same {
            let (view, palette) = (views[*kind], Palette::ALL[*palette]);
            let scene = walk.stage().scene(view);
            let whose = format!("{} {language} {size:?} {palette:?} {:?}", glass.name, view.screen);
            let with = (palette, glass.pitch());
            let found = check(&mut renderer, &scene, with, glass.size(), &whose);
            faults.extend(found);
            drawn += 1;
        }
    }
    figures::note("frames drawn, ink within its boxes", &drawn.to_string());
    assert!(faults.is_empty(), "{}\n{} faults", faults.join("\n"), faults.len());
}

/// A scene to be spoiled, with what it is drawn with.
fn one() -> (Scene, Glass) {
    let glass = GLASSES[0];
    let begun = Walk::begin_on(glass.screen(), "en");
    let walk = through_every_screen(begun, (TypeSize::Medium, Palette::DarkOnLight));
    let view = walk.shown.iter().find(|view| view.screen == ScreenKind::CheckPaper).unwrap();
    (walk.stage().scene(view), glass)
}

#[test]
fn every_pair_is_drawn() {
    let found: BTreeSet<_> = pairwise().into_iter().flat_map(pairs_of).collect();
    let counts = counts();
    let wanted: usize = (0..5)
        .map(|one| (one + 1..5).map(|other| counts[one] * counts[other]).sum::<usize>())
        .sum();
    assert_eq!(found.len(), wanted);
    assert_eq!(every().len(), counts.iter().product::<usize>());
}

#[test]
fn ink_outside_a_box_is_seen() {
    let (scene, glass) = one();
    let mut renderer = draw::renderer();
    let with = (Palette::DarkOnLight, glass.pitch());
    assert_eq!(check(&mut renderer, &scene, with, glass.size(), "as it is"), Vec::<String>::new());
    let text = text_alone(&scene);
    let frame = Frame::draw(&mut renderer, &text, with, glass.size());
    // A box that is too narrow for its words.
    let mut narrow = text.clone();
    let Some(Mark::Text { area, .. }) = narrow.marks.first_mut() else { panic!("no text") };
    area.width = Micrometres(area.width.0 * 8 / 10);
    assert!(ink_outside(&frame, &narrow.marks) > 0);
    // A line that was dropped from the boxes.
    assert!(ink_outside(&frame, &text.marks[1..]) > 0);
    // A box that is too low for its letters: they are cut.
    let mut low = text.clone();
    for mark in &mut low.marks {
        let Mark::Text { area, .. } = mark else { continue };
        area.height = Micrometres(area.height.0 * 5 / 10);
    }
    let frame = Frame::draw(&mut renderer, &low, with, glass.size());
    assert!(!cut_lines(&frame, &low.marks).is_empty());
}
