//! Every screen in every size, language and resolution, as boxes: touch areas and gaps (VVSG 2.0
//! 7.2-I, from memory), every message there once, whole, in its size, within its box, over nothing.
//!
//! All combinations of the four resolutions, ten languages and four sizes are walked; palettes change
//! no box.

use std::collections::{BTreeMap, BTreeSet};

use evenhand_app::scene::{Mark, Scene};
use evenhand_lettering::Shaper;
use evenhand_rules::Micrometres;
use evenhand_visit::{Command, Message, Palette, ScreenKind, TypeSize, View};
use evenhand_words::Catalogue;

use crate::glass::{GLASSES, Glass, SMALLER, TOO_SMALL};
use crate::layout::{Least, faults};
use crate::walk::{Walk, through_every_screen};
use crate::{KINDS, figures};

/// On a 24 inch screen, in the largest letters: the languages in which the demo's longest measure
/// doesn't fit beside its two answers, so that its text is set smaller than the size asks for. No
/// other check is waived for it. A known limit, said in the README.
const GIVES_WAY: [&str; 5] = ["ar", "bn", "es", "km", "ru"];

/// There, too: a contest of three long names in the review, beside a high heading.
const GIVES_WAY_IN_REVIEW: (&str, ScreenKind) = ("bn", ScreenKind::Review);

/// On smaller glasses, in the largest letters that they hold: where the same measure is set smaller.
const GIVES_WAY_ON_SMALLER: [(&str, ScreenKind); 3] = [
    ("16in-landscape", ScreenKind::Contest),
    ("16in-portrait", ScreenKind::Contest),
    ("19in-landscape", ScreenKind::Contest),
];

fn walk_on(glass: Glass, language: &str, size: TypeSize) -> Walk {
    through_every_screen(Walk::begin_on(glass.screen(), language), (size, Palette::DarkOnLight))
}

fn may_give_way(glass: Glass, language: &str, size: TypeSize, screen: ScreenKind) -> bool {
    glass.name.starts_with("24in")
        && size == TypeSize::Largest
        && GIVES_WAY.contains(&language)
        && (matches!(screen, ScreenKind::Contest | ScreenKind::FullText)
            || (language, screen) == GIVES_WAY_IN_REVIEW)
}

#[test]
fn every_screen_holds_in_every_size_language_and_resolution() {
    let shaper = Shaper::new();
    let mut least = Least::default();
    let mut found = Vec::new();
    let mut gave_way = BTreeSet::new();
    let mut screens = 0;
    let mut smaller_type: BTreeMap<_, usize> = BTreeMap::new();
    let all = GLASSES.map(|glass| (glass, TypeSize::Largest));
    // On smaller glasses the largest letters that they hold; the others have more room.
    let smaller = SMALLER.map(|(glass, most)| (glass, most));
    for (glass, most) in all.into_iter().chain(smaller) {
        assert_eq!(glass.screen().size_most(), Some(most), "{}", glass.name);
        let is_smaller = !GLASSES.contains(&glass);
        for language in Catalogue::shipped_tags() {
            for size in TypeSize::ALL.into_iter().filter(|size| !is_smaller || *size == most) {
                let walk = walk_on(glass, language, size);
                let kinds: BTreeSet<_> = walk.shown.iter().map(|view| view.screen).collect();
                assert_eq!(kinds.len(), KINDS, "{kinds:?}");
                screens += walk.shown.len();
                let stage = walk.stage();
                for view in &walk.shown {
                    let scene = stage.scene(view);
                    for fault in faults(&stage, &shaper, view, &scene, &mut least) {
                        let is_size = fault.starts_with("capital");
                        if is_size && may_give_way(glass, language, size, view.screen) {
                            gave_way.insert(language);
                            continue;
                        }
                        if is_size && is_smaller {
                            *smaller_type.entry((glass.name, view.screen)).or_insert(0) += 1;
                            continue;
                        }
                        let screen = view.screen;
                        found.push(format!(
                            "{} {language} {size:?} {screen:?}: {fault}",
                            glass.name
                        ));
                    }
                }
            }
        }
    }
    figures::note("screens laid out", &screens.to_string());
    figures::note("least touch area", &format!("{} µm", least.touch));
    figures::note("least gap of touch areas", &format!("{} µm", least.gap));
    assert!(found.is_empty(), "{}\n{} faults", found.join("\n"), found.len());
    assert_eq!(smaller_type.into_keys().collect::<Vec<_>>(), GIVES_WAY_ON_SMALLER);
    // What isn't met any more is no limit any more.
    assert_eq!(gave_way, BTreeSet::from(GIVES_WAY));
}

#[test]
fn a_glass_that_is_too_small_is_known() {
    for glass in TOO_SMALL {
        assert_eq!(glass.screen().size_most(), None, "{}", glass.name);
    }
}

/// On a smaller glass letters grow as far as it holds them, and the next press says why no further.
#[test]
fn letters_grow_no_larger_than_the_glass_holds() {
    for (glass, most) in SMALLER {
        let mut walk = Walk::begin_on(glass.screen(), "en");
        walk.press(Command::Comfort);
        walk.row_of(Message::ComfortLarger);
        walk.row_of(Message::ComfortLarger);
        let view = walk.view();
        assert_eq!(view.comfort.size, most, "{}", glass.name);
        let notice = view.notice.as_ref().map(|notice| notice.phrase.message);
        assert_eq!(notice, Some(Message::SizeIsMost), "{}", glass.name);
    }
}

/// What is found after a screen was spoiled, by the word that each fault begins with.
fn after(spoil: impl Fn(&mut Scene)) -> BTreeMap<String, usize> {
    let walk = walk_on(GLASSES[0], "en", TypeSize::Medium);
    let is_full = |view: &&View| view.screen == ScreenKind::Contest && view.more_below.is_some();
    let view = walk.shown.iter().find(is_full).unwrap();
    let stage = walk.stage();
    let mut scene = stage.scene(view);
    spoil(&mut scene);
    let mut words = BTreeMap::new();
    for fault in faults(&stage, &Shaper::new(), view, &scene, &mut Least::default()) {
        let word = fault.split([' ', ':']).next().unwrap_or_default().to_owned();
        *words.entry(word).or_insert(0) += 1;
    }
    words
}

/// The first text of a scene that is in a row.
fn text_of(scene: &mut Scene) -> &mut Mark {
    let row = scene.rows[0].1;
    let is_in = |mark: &&mut Mark| {
        matches!(mark, Mark::Text { .. }) && crate::layout::holds(row, mark.area())
    };
    scene.marks.iter_mut().find(is_in).unwrap()
}

fn changed(mark: &mut Mark, change: impl Fn(&mut evenhand_sheet::Rect, &mut Micrometres)) {
    let Mark::Text { area, em, .. } = mark else { panic!("not a text") };
    change(area, em);
}

#[test]
fn each_check_finds_its_fault() {
    assert_eq!(after(|_| {}), BTreeMap::new());
    let has = |word: &str, spoil: &dyn Fn(&mut Scene)| {
        let found = after(spoil);
        assert!(found.contains_key(word), "{word}: {found:?}");
    };
    has("box", &|scene| {
        changed(text_of(scene), |area, _| area.width = Micrometres(area.width.0 * 9 / 10));
    });
    has("touch", &|scene| scene.touches[0].area.height = Micrometres(12_000));
    has("touch", &|scene| {
        // Two millimetres to the next.
        let next = scene.touches[1].area.y;
        let area = &mut scene.touches[0].area;
        area.height = next.minus(Micrometres(2_000)).minus(area.y);
    });
    has("touch", &|scene| {
        scene.touches.remove(0);
    });
    has("message", &|scene| {
        let is_text = |mark: &Mark| matches!(mark, Mark::Text { .. });
        let last = scene.marks.iter().rposition(is_text).unwrap();
        scene.marks.remove(last);
    });
    has("message", &|scene| {
        let copy = text_of(scene).clone();
        scene.marks.push(copy);
    });
    has("capital", &|scene| {
        changed(text_of(scene), |_, em| *em = Micrometres(em.0 * 7 / 10));
    });
    has("over", &|scene| {
        let to = scene.marks.iter().rfind(|mark| matches!(mark, Mark::Text { .. })).unwrap().area();
        changed(text_of(scene), |area, _| (area.x, area.y) = (to.x, to.y));
    });
    has("edge", &|scene| {
        changed(text_of(scene), |area, _| area.y = area.y.minus(Micrometres(8_000)));
    });
    has("glass", &|scene| changed(text_of(scene), |area, _| area.x = Micrometres(-1)));
    has("head", &|scene| scene.head_bottom.0 = scene.head_bottom.1.plus(Micrometres(1)));
    has("rows", &|scene| scene.rows_bottom.0 = scene.rows_bottom.1.plus(Micrometres(1)));
}

#[test]
fn a_word_that_is_cut_is_found() {
    use crate::layout::cuts_a_word;
    assert!(!cuts_a_word("Keep my choices", &["Keep my", "choices"]));
    assert!(cuts_a_word("Keep my choices", &["Keep my cho", "ices"]));
    assert!(!cuts_a_word("請看您的紙本", &["請看您", "的紙本"]));
}

/// In a screen that is read from the right the rows stand at its other side, and the letters of the
/// keyboard, which are Latin, still go from left to right.
#[test]
fn the_keyboard_goes_from_left_to_right_in_every_language() {
    for language in ["en", "ar"] {
        let walk = walk_on(GLASSES[0], language, TypeSize::Medium);
        let view = walk.shown.iter().find(|view| view.screen == ScreenKind::WriteIn).unwrap();
        let scene = walk.stage().scene(view);
        let place = |word: &str| {
            let is_it = |mark: &&Mark| matches!(mark, Mark::Text { words, .. } if words.as_str().ends_with(word));
            scene.marks.iter().find(is_it).unwrap().area().x
        };
        assert!(place("A") < place("B") && place("B") < place("F"), "{language}");
        let quarter = Micrometres(walk.screen.width.0 / 4);
        assert_eq!(scene.rows[0].1.x < quarter, language == "ar", "{language}");
    }
}
