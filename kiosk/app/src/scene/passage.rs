//! Something to read: no edge, no focus, lines of at most 60 letters.

use evenhand_rules::Micrometres;
use evenhand_visit::{Row, View};

use super::Stage;
use super::brick::Brick;
use crate::metrics::{MEASURE_EMS, PADDING, Role};
use crate::palette::Tint;

pub(super) fn brick(
    stage: &Stage<'_>,
    view: &View,
    row: &Row,
    width: Micrometres,
    percent: i32,
) -> Brick {
    let mut brick = Brick::default();
    let has_more = row.detail.is_some() || row.state.is_some();
    // Where more stands under it, the label is its title.
    let label = stage.of_type(view, Role::Text, has_more, percent);
    let text = stage.of_type(view, Role::Text, false, percent);
    let measure = Micrometres(width.0.min(text.em.times(MEASURE_EMS).0));
    let zero = Micrometres(0);
    let lines = stage.typesetter.lines(&stage.seen(view, &row.label), label, measure);
    let mut y = brick.lines(&lines, label, Tint::Ink, zero, zero);
    for phrase in row.detail.iter().chain(&row.state) {
        let lines = stage.typesetter.lines(&stage.seen(view, phrase), text, measure);
        y = brick.lines(&lines, text, Tint::Ink, zero, y);
    }
    brick.height = y.plus(PADDING);
    brick
}
