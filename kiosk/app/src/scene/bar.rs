//! The bar at the bottom: five places that never move, back at the left, next at the right.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Bar, Target, View};

use super::brick::Brick;
use super::regions::Regions;
use super::{Mark, SMALLEST_PERCENT, Scene, Stage};
use crate::metrics::{CORNER, EDGE, EDGE_CHOSEN, GAP, PADDING, Role, TOUCH_MIN};
use crate::palette::Tint;

/// Lines of words that a place has room for.
const LINES_MAX: usize = 2;

/// The same on every screen at one size of type.
pub(super) fn height(stage: &Stage<'_>, view: &View) -> Micrometres {
    let text = stage.of_type(view, Role::Text, true, 100);
    Micrometres(text.leading().times(2).plus(PADDING).0.max(TOUCH_MIN.0))
}

pub(super) fn place(stage: &Stage<'_>, view: &View, regions: &Regions, scene: &mut Scene) {
    let bar = regions.bar;
    let width = Micrometres(bar.width.minus(GAP.times(4)).0 / 5);
    let mut x = bar.x;
    for place in &view.bar {
        let area = Rect { x, y: bar.y, width, height: bar.height };
        if let Some(brick) = brick(stage, view, place, width, bar.height) {
            scene.place(brick, area.x, area.y);
        }
        x = area.right().plus(GAP);
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
        let lines_max = LINES_MAX.max(lines_in(height, text.leading()));
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

fn lines_in(height: Micrometres, leading: Micrometres) -> usize {
    usize::try_from(height.minus(PADDING).0 / leading.0.max(1)).unwrap_or(LINES_MAX)
}
