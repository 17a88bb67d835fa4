//! The bar at the bottom: five places that never move, back at the left, next at the right.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Bar, Message, Phrase, Target, View};

use super::brick::Brick;
use super::regions::Regions;
use super::{Mark, SMALLEST_PERCENT, Scene, Stage};
use crate::metrics::{CORNER, EDGE, EDGE_CHOSEN, GAP, IN_BAND_PERCENT, PADDING, Role, TOUCH_MIN};
use crate::palette::Tint;

/// Lines of words that a place has room for at least.
const LINES_MAX: usize = 2;
/// The most lines before words are set smaller.
const LINES_MOST: usize = 4;
/// All that can stand in a place.
const LABELS: [Message; 11] = [
    Message::BarBack,
    Message::BarNext,
    Message::BarHearAgain,
    Message::BarComfort,
    Message::BarHelp,
    Message::BarDone,
    Message::BarSkip,
    Message::BarToReview,
    Message::BarKeep,
    Message::SpoilCancel,
    Message::ReviewPrint,
];

/// How the places lie: the same on every screen at one size of type.
struct Places {
    width: Micrometres,
    height: Micrometres,
    is_in_two_rows: bool,
}

impl Places {
    /// Of the ways in which every label of the language fits in the voter's size, the lowest: one
    /// row or two, of as few lines as that needs.
    fn of(stage: &Stage<'_>, view: &View, width: Micrometres) -> Self {
        let leading = stage.own_leading(view, stage.of_type(view, Role::Text, true, 100));
        let fifth = Micrometres(width.minus(GAP.times(4)).0 / 5);
        let third = Micrometres(width.minus(GAP.times(2)).0 / 3);
        let way = |place: Micrometres, is_in_two_rows| {
            let lines =
                (LINES_MAX..=LINES_MOST).find(|lines| all_fit(stage, view, place, *lines))?;
            let high = leading.times(i32::try_from(lines).ok()?).plus(PADDING);
            let height = Micrometres(high.0.max(TOUCH_MIN.0));
            Some(Self { width: place, height, is_in_two_rows })
        };
        let ways = [way(fifth, false), way(third, true)].into_iter().flatten();
        ways.min_by_key(Self::whole_height).unwrap_or(Self {
            width: third,
            height: Micrometres(leading.times(2).plus(PADDING).0.max(TOUCH_MIN.0)),
            is_in_two_rows: true,
        })
    }

    /// The left top of a place within the bar. In two rows, back and next are the lower ones, at the
    /// left and at the right.
    const fn place(&self, target: Target) -> (Micrometres, Micrometres) {
        let (one_row, two_rows) = match target {
            Target::Back => (0, (0, 1)),
            Target::HearAgain => (1, (0, 0)),
            Target::Comfort => (2, (1, 0)),
            Target::Help => (3, (2, 0)),
            Target::Forward
            | Target::Row(_)
            | Target::Key { .. }
            | Target::Block(_)
            | Target::BackOne(_)
            | Target::BlockStart(_)
            | Target::Group
            | Target::MoreAbove
            | Target::MoreBelow => (4, (2, 1)),
        };
        let (column, row) = if self.is_in_two_rows { two_rows } else { (one_row, 0) };
        (self.width.plus(GAP).times(column), self.height.plus(GAP).times(row))
    }

    const fn whole_height(&self) -> Micrometres {
        if self.is_in_two_rows { self.height.times(2).plus(GAP) } else { self.height }
    }
}

/// The same on every screen at one size of type.
pub(super) fn height(stage: &Stage<'_>, view: &View, width: Micrometres) -> Micrometres {
    Places::of(stage, view, width).whole_height()
}

pub(super) fn place(stage: &Stage<'_>, view: &View, regions: &Regions, scene: &mut Scene) {
    let bar = regions.bar;
    let places = Places::of(stage, view, bar.width);
    for place in &view.bar {
        let (x, y) = places.place(place.target);
        if let Some(brick) = brick(stage, view, place, places.width, places.height) {
            scene.place(brick, bar.x.plus(x), bar.y.plus(y));
        }
    }
}

fn brick(
    stage: &Stage<'_>,
    view: &View,
    place: &Bar,
    width: Micrometres,
    height: Micrometres,
) -> Option<Brick> {
    let words = stage.seen(view, place.label.as_ref()?);
    let zero = Micrometres(0);
    let area = Rect { x: zero, y: zero, width, height };
    let mut brick = Brick { height, ..Brick::default() };
    // Going on is what a voter does most: its words are bold and its edge is thick.
    let is_forward = place.target == Target::Forward;
    let edge = if is_forward { EDGE_CHOSEN.plus(EDGE) } else { EDGE };
    brick.marks.push(Mark::Box {
        area,
        fill: None,
        edge: Some((Tint::Press, edge)),
        corner: CORNER,
    });
    let mut percent = 100;
    loop {
        let text = stage.of_type(view, Role::Text, is_forward, percent);
        let lines = stage.typesetter.lines(&words, text, width.minus(PADDING.times(2)));
        let lines_max = LINES_MAX.max(lines_in(height, lines.leading(text)));
        let fits = lines.lines.len() <= lines_max && !lines.cuts_a_word;
        if fits || percent <= SMALLEST_PERCENT {
            brick.centred(&lines, text, Tint::Ink, area);
            break;
        }
        percent -= 5;
    }
    brick.touch(place.target, area);
    Some(brick)
}

/// True where every label fits in a place of this width, in the voter's size.
fn all_fit(stage: &Stage<'_>, view: &View, width: Micrometres, lines_max: usize) -> bool {
    LABELS.into_iter().all(|label| {
        let words = stage.seen(view, &Phrase::new(label));
        // Going on is set in bold, which is wider.
        let of = stage.of_type(view, Role::Text, true, IN_BAND_PERCENT);
        let lines = stage.typesetter.lines(&words, of, width.minus(PADDING.times(2)));
        lines.lines.len() <= lines_max && !lines.cuts_a_word
    })
}

fn lines_in(height: Micrometres, leading: Micrometres) -> usize {
    usize::try_from(height.minus(PADDING).0 / leading.0.max(1)).unwrap_or(LINES_MAX)
}
