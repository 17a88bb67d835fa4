//! What must hold of the boxes of any screen, as a list of what doesn't.

use std::collections::BTreeSet;

use evenhand_app::scene::{Mark, Scene, Screen, Stage};
use evenhand_lettering::{Face, Shaper, line_breaks};
use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Arg, Message, Phrase, Row, RowKind, Target, TypeSize, View};

/// The least side of what can be touched, and the least gap between two: VVSG 2.0 7.2-I (from
/// memory).
pub(crate) const TOUCH_LEAST: i32 = 12_700;
pub(crate) const GAP_LEAST: i32 = 2_540;

/// The band of capital heights of each size, in micrometres: VVSG 2.0 7.1-G (from memory).
pub(crate) const fn band(size: TypeSize) -> (i32, i32) {
    match size {
        TypeSize::Small => (3_500, 4_200),
        TypeSize::Medium => (4_800, 5_600),
        TypeSize::Large => (6_400, 7_100),
        TypeSize::Largest => (8_500, 9_000),
    }
}

/// The least that was met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Least {
    pub(crate) touch: i32,
    pub(crate) gap: i32,
}

impl Default for Least {
    fn default() -> Self {
        Self { touch: i32::MAX, gap: i32::MAX }
    }
}

/// One line of text as it is placed.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Placed<'a> {
    pub(crate) area: Rect,
    pub(crate) words: &'a str,
    pub(crate) face: Face,
    pub(crate) em: Micrometres,
}

pub(crate) fn texts(scene: &Scene) -> Vec<Placed<'_>> {
    let placed = |mark| {
        let &Mark::Text { area, ref words, face, em, .. } = mark else { return None };
        Some(Placed { area, words: words.as_str(), face, em })
    };
    scene.marks.iter().filter_map(placed).collect()
}

pub(crate) const fn overlap(one: Rect, other: Rect) -> bool {
    one.x.0 < other.right().0
        && other.x.0 < one.right().0
        && one.y.0 < other.bottom().0
        && other.y.0 < one.bottom().0
}

pub(crate) const fn holds(outer: Rect, inner: Rect) -> bool {
    inner.x.0 >= outer.x.0
        && inner.y.0 >= outer.y.0
        && inner.right().0 <= outer.right().0
        && inner.bottom().0 <= outer.bottom().0
}

/// All that is wrong with a screen's boxes.
pub(crate) fn faults(
    stage: &Stage<'_>,
    shaper: &Shaper,
    view: &View,
    scene: &Scene,
    least: &mut Least,
) -> Vec<String> {
    let mut faults = Vec::new();
    in_the_glass(stage.screen, scene, &mut faults);
    touches(view, scene, least, &mut faults);
    let (head, head_room) = scene.head_bottom;
    if head > head_room {
        faults.push(format!("head: {} too high", head.0 - head_room.0));
    }
    let (rows, rows_room) = scene.rows_bottom;
    if rows > rows_room {
        faults.push(format!("rows: {} too high", rows.0 - rows_room.0));
    }
    let texts = texts(scene);
    lines(shaper, view, scene, &texts, &mut faults);
    messages(stage, view, &texts, &mut faults);
    faults
}

fn in_the_glass(screen: Screen, scene: &Scene, faults: &mut Vec<String>) {
    let zero = Micrometres(0);
    let glass = Rect { x: zero, y: zero, width: screen.width, height: screen.height };
    let outside = scene.marks.iter().map(Mark::area).filter(|area| !holds(glass, *area));
    faults.extend(outside.map(|area| format!("glass: {area:?} is outside")));
}

fn touches(view: &View, scene: &Scene, least: &mut Least, faults: &mut Vec<String>) {
    for (index, touch) in scene.touches.iter().enumerate() {
        let side = touch.area.width.0.min(touch.area.height.0);
        least.touch = least.touch.min(side);
        if side < TOUCH_LEAST {
            faults.push(format!("touch: {:?} is {side} small", touch.target));
        }
        for other in &scene.touches[index + 1..] {
            let gap = gap(touch.area, other.area);
            least.gap = least.gap.min(gap);
            if gap < GAP_LEAST {
                faults.push(format!("touch: {:?} is {gap} to {:?}", touch.target, other.target));
            }
        }
    }
    if view.is_covered {
        return;
    }
    let mut expected: BTreeSet<_> = view.targets().into_iter().collect();
    expected.extend(view.more_above.iter().map(|_| Target::MoreAbove));
    expected.extend(view.more_below.iter().map(|_| Target::MoreBelow));
    // A row of keys is touched key by key, and rows on other pages aren't there.
    expected.retain(|target| {
        let Target::Row(row) = target else { return true };
        let is_shown = view.shown_rows().any(|(shown, _)| shown == *row);
        is_shown && !matches!(view.rows[usize::from(*row)].kind, RowKind::Keys(_))
    });
    let touchable: BTreeSet<_> = scene.touches.iter().map(|touch| touch.target).collect();
    faults.extend(expected.difference(&touchable).map(|target| format!("touch: no {target:?}")));
}

/// How far two areas are apart: the larger of the gaps across and down, below 0 where they overlap.
fn gap(one: Rect, other: Rect) -> i32 {
    let between = |start: (i32, i32), end: (i32, i32)| (start.1 - end.0).max(start.0 - end.1);
    let across = between((one.x.0, other.x.0), (one.right().0, other.right().0));
    let down = between((one.y.0, other.y.0), (one.bottom().0, other.bottom().0));
    across.max(down)
}

/// Each line is as wide as its words, in the voter's size, and crosses no edge and no other line.
fn lines(
    shaper: &Shaper,
    view: &View,
    scene: &Scene,
    texts: &[Placed<'_>],
    faults: &mut Vec<String>,
) {
    let (band_least, _) = band(view.comfort.size);
    for (index, text) in texts.iter().enumerate() {
        let whose = kind_of(scene, text.area);
        let run = shaper.shape(text.words, text.face, text.em);
        // A line of Latin letters within a text of another script is set in that script's face; alone
        // it is shaped in its own. Such lines are looked at in drawn pixels.
        if run.face == text.face && run.width.0 > text.area.width.0 + 1 {
            faults.push(format!("box {whose}: {} of {}", text.area.width.0, run.width.0));
        }
        let capital = shaper.cap_height(text.face, text.em).0;
        if capital < band_least {
            faults.push(format!("capital {whose}: {capital} of {band_least}"));
        }
        for other in &texts[index + 1..] {
            if overlap(text.area, other.area) {
                faults.push(format!("over {whose}: {:?} and {:?}", text.area, other.area));
            }
        }
        for mark in &scene.marks {
            if let Mark::Box { area, .. } = mark
                && overlap(*area, text.area)
                && !holds(*area, text.area)
            {
                faults.push(format!("edge {whose}: {area:?} cuts {:?}", text.area));
            }
        }
    }
}

/// What a line belongs to.
fn kind_of(scene: &Scene, area: Rect) -> String {
    let touch = scene.touches.iter().find(|touch| overlap(touch.area, area));
    match touch.map(|touch| touch.target) {
        Some(Target::Row(_)) => "row".to_owned(),
        Some(Target::Key { .. }) => "key".to_owned(),
        Some(other) => format!("{other:?}"),
        None if scene.rows.iter().any(|(_, row)| overlap(*row, area)) => "passage".to_owned(),
        None => "head".to_owned(),
    }
}

/// Every message of the view is there, once, whole, and with no word cut.
fn messages(stage: &Stage<'_>, view: &View, texts: &[Placed<'_>], faults: &mut Vec<String>) {
    let bares: Vec<String> = texts.iter().map(|text| bare(text.words)).collect();
    let mut is_used = vec![false; texts.len()];
    for (what, text) in expected(stage, view) {
        let wanted = bare(&text);
        if wanted.is_empty() {
            continue;
        }
        let Some(range) = run_of(&bares, &is_used, &wanted) else {
            faults.push(format!("message: {what} is not there"));
            continue;
        };
        is_used[range.clone()].fill(true);
        let lines: Vec<&str> = texts[range].iter().map(|text| text.words).collect();
        if cuts_a_word(&text, &lines) {
            faults.push(format!("word: {what} is cut"));
        }
    }
    let left = is_used.iter().filter(|is_used| !**is_used).count();
    if left > 0 {
        faults.push(format!("message: {left} lines belong to none"));
    }
}

/// The lines that make up this text, one after the other.
fn run_of(bares: &[String], is_used: &[bool], wanted: &str) -> Option<std::ops::Range<usize>> {
    (0..bares.len()).find_map(|start| {
        let mut rest = wanted;
        for (end, line) in bares.iter().enumerate().skip(start) {
            if is_used[end] {
                return None;
            }
            rest = rest.strip_prefix(line.as_str())?;
            if rest.is_empty() {
                return Some(start..end + 1);
            }
        }
        None
    })
}

/// True where a line ends where none may (UAX 14).
pub(crate) fn cuts_a_word(text: &str, lines: &[&str]) -> bool {
    // The place of each break, counted in letters: lines have lost the spaces at their ends.
    let mut may: BTreeSet<usize> = BTreeSet::new();
    for end in line_breaks(text) {
        may.insert(bare(&text[..end]).chars().count());
    }
    let mut at = 0;
    lines.iter().any(|line| {
        at += bare(line).chars().count();
        !may.contains(&at)
    })
}

/// A text without spaces and signs that aren't seen.
fn bare(text: &str) -> String {
    let is_unseen = |c: char| {
        c.is_whitespace()
            || matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2066}'..='\u{2069}')
    };
    text.chars().filter(|c| !is_unseen(*c)).collect()
}

/// Every text that this view must show, with what it is.
fn expected(stage: &Stage<'_>, view: &View) -> Vec<(String, String)> {
    let seen = |phrase: &Phrase| stage.words.seen(phrase, view.comfort.language);
    let mut texts: Vec<(String, String)> = Vec::new();
    let mut add = |what: &str, phrase: &Phrase| texts.push((what.to_owned(), seen(phrase)));
    if let Some(words) = &view.state_words {
        add("state of the ballot", words);
    }
    if view.is_covered {
        // Nothing of the voter's: only that the screen is hidden.
        add("heading", &Phrase::new(Message::WorkerHeading));
        add("line", &Phrase::new(Message::CoverLine));
        return texts;
    }
    if let Some(notice) = &view.notice {
        add("notice", &notice.phrase);
    }
    if let Some(place) = &view.place {
        add("place", place);
    }
    add("heading", &view.heading);
    view.lines.iter().for_each(|line| add("line", line));
    for (_, row) in view.shown_rows() {
        for (what, phrase) in &row_phrases(row) {
            add(what, phrase);
        }
    }
    for (what, phrase) in [("more above", &view.more_above), ("more below", &view.more_below)] {
        if let Some(phrase) = phrase {
            add(what, phrase);
        }
    }
    for place in &view.bar {
        place.label.iter().for_each(|label| add("bar", label));
    }
    for (_, row) in view.shown_rows() {
        if let RowKind::Ranked { ranks, .. } = row.kind {
            texts.extend((1..=ranks).map(|rank| ("rank".to_owned(), rank.to_string())));
        }
    }
    texts
}

fn row_phrases(row: &Row) -> Vec<(&'static str, Phrase)> {
    let label = ("label", row.label.clone());
    let state = row.state.iter().map(|state| ("state", state.clone()));
    match &row.kind {
        RowKind::Keys(letters) => {
            let key = |letter: &char| {
                Phrase::new(Message::KeyName).with("letter", Arg::Character(*letter))
            };
            letters.iter().map(|letter| ("key", key(letter))).collect()
        }
        RowKind::Picture(..) => vec![label],
        RowKind::Summary => {
            let details = row.detail.iter().flat_map(details_of).map(|detail| ("detail", detail));
            std::iter::once(label).chain(details).chain(state).collect()
        }
        RowKind::Oval { .. } | RowKind::Ranked { .. } | RowKind::Action | RowKind::Passage => {
            let detail = row.detail.iter().map(|detail| ("detail", detail.clone()));
            std::iter::once(label).chain(detail).chain(state).collect()
        }
    }
}

/// The review says each chosen name on a line of its own.
fn details_of(detail: &Phrase) -> Vec<Phrase> {
    let mut names = Vec::new();
    for (_, arg) in detail.args.iter().filter(|_| detail.message == Message::ReviewChosen) {
        let Arg::List(items) = arg else { continue };
        names.extend(items.iter().filter_map(|item| {
            let Arg::Phrase(phrase) = item else { return None };
            Some(phrase.clone())
        }));
    }
    if names.is_empty() { vec![detail.clone()] } else { names }
}
