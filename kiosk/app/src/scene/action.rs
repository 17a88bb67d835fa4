//! Something to do: a plain box with words.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Row, Target, View};

use super::brick::Brick;
use super::{Mark, Stage};
use crate::metrics::{CORNER, EDGE, MEASURE_EMS, PADDING, PADDING_SIDE, Role, TOUCH_MIN};
use crate::palette::Tint;

pub(super) fn brick(
    stage: &Stage<'_>,
    view: &View,
    row: &Row,
    width: Micrometres,
    percent: i32,
) -> Brick {
    let mut brick = Brick::default();
    let name = stage.of_type(view, Role::Name, false, percent);
    let text = stage.of_type(view, Role::Text, false, percent);
    let room = width.minus(PADDING_SIDE.times(2));
    let measure = |em: Micrometres| Micrometres(room.0.min(em.times(MEASURE_EMS).0));
    let lines = stage.typesetter.lines(&stage.seen(view, &row.label), name, measure(name.em));
    let mut y = brick.lines(&lines, name, Tint::Ink, PADDING_SIDE, PADDING);
    for phrase in row.detail.iter().chain(&row.state) {
        let lines = stage.typesetter.lines(&stage.seen(view, phrase), text, measure(text.em));
        y = brick.lines(&lines, text, Tint::Ink, PADDING_SIDE, y);
    }
    brick.height = Micrometres(y.plus(PADDING).0.max(TOUCH_MIN.0));
    let area = Rect { x: Micrometres(0), y: Micrometres(0), width, height: brick.height };
    let edge = Some((Tint::Press, EDGE.times(2)));
    brick.marks.insert(0, Mark::Box { area, fill: None, edge, corner: CORNER });
    brick.touch(Target::Row(0), area);
    brick
}
