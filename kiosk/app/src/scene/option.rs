//! An option with the paper's oval, or with one oval for each rank.

use evenhand_rules::{Micrometres, Rank};
use evenhand_sheet::Rect;
use evenhand_visit::{Row, RowKind, Target, View};

use super::brick::Brick;
use super::{Mark, Stage};
use crate::metrics::{
    CORNER, EDGE, EDGE_CHOSEN, MEASURE_EMS, OVAL_STROKE, OVAL_WIDTH, PADDING, PADDING_SIDE, Role,
    TOUCH_MIN,
};
use crate::palette::Tint;

/// One oval, the name, small print under it, the state at the right or under that.
pub(super) fn oval(
    stage: &Stage<'_>,
    view: &View,
    row: &Row,
    is_filled: bool,
    width: Micrometres,
    percent: i32,
) -> Brick {
    let name = stage.of_type(view, Role::Name, is_filled, percent);
    let (oval_width, oval_height) = oval_size(name.em);
    let mut brick = Brick::default();
    let x = PADDING_SIDE.plus(oval_width).plus(PADDING_SIDE);
    let end = words(stage, view, row, &mut brick, (x, width), is_filled, percent);
    // The oval stands beside the first line of the name, as on paper.
    let leading = stage.leading(view, &row.label, name);
    let line = first_line(stage, view, row, is_filled, percent);
    let top = line.plus(leading.minus(oval_height).half());
    let area = Rect { x: PADDING_SIDE, y: top, width: oval_width, height: oval_height };
    brick.marks.push(Mark::Oval { area, stroke: stroke(oval_height), is_filled });
    finish(&mut brick, end, width, is_filled);
    brick
}

/// The name with its ovals under it, one a rank, each with its number.
pub(super) fn ranked(
    stage: &Stage<'_>,
    view: &View,
    row: &Row,
    (ranks, rank): (u8, Option<Rank>),
    width: Micrometres,
    percent: i32,
) -> Brick {
    let is_ranked = rank.is_some();
    let mut brick = Brick::default();
    let y = words(stage, view, row, &mut brick, (PADDING_SIDE, width), is_ranked, percent);
    let text = stage.of_type(view, Role::Text, false, percent);
    let (oval_width, oval_height) = oval_size(text.em);
    let number_width = text.em;
    let step = number_width.plus(oval_width).plus(text.em);
    let room = width.minus(PADDING_SIDE.times(2));
    let a_line = i32::max(room.plus(text.em).0 / step.0.max(1), 1);
    // Numbers are in Latin letters' figures, in every language.
    let leading = text.leading(text.face.family());
    let line_height = Micrometres(leading.0.max(oval_height.0));
    let mut end = y;
    for index in 0..i32::from(ranks) {
        let x = PADDING_SIDE.plus(step.times(index % a_line));
        let top = y.plus(line_height.times(index / a_line));
        let is_bold = rank == u8::try_from(index.saturating_add(1)).ok().map(Rank);
        let of = stage.of_type(view, Role::Text, is_bold, percent);
        let number = (index + 1).to_string();
        let lines = stage.typesetter.lines(&number, of, number_width);
        let right = x.plus(number_width).minus(lines.width()).minus(text.em.half().half());
        brick.lines(&lines, of, Tint::Ink, right, top);
        let y = top.plus(leading.minus(oval_height).half());
        let x = x.plus(number_width);
        let area = Rect { x, y, width: oval_width, height: oval_height };
        brick.marks.push(Mark::Oval { area, stroke: stroke(oval_height), is_filled: is_bold });
        end = top.plus(line_height);
    }
    finish(&mut brick, end, width, is_ranked);
    brick
}

/// Name, small print and state from `x` on; gives their bottom.
fn words(
    stage: &Stage<'_>,
    view: &View,
    row: &Row,
    brick: &mut Brick,
    (x, width): (Micrometres, Micrometres),
    is_chosen: bool,
    percent: i32,
) -> Micrometres {
    let name = stage.of_type(view, Role::Name, is_chosen, percent);
    let text = stage.of_type(view, Role::Text, false, percent);
    let state_type = stage.of_type(view, Role::Text, is_chosen, percent);
    let beside = state_column(stage, view, (x, width), percent);
    let room = width.minus(x).minus(PADDING_SIDE).minus(beside.unwrap_or_default());
    let measure = |em: Micrometres| Micrometres(room.0.min(em.times(MEASURE_EMS).0));
    let lines = stage.typesetter.lines(&stage.seen(view, &row.label), name, measure(name.em));
    let first = first_line(stage, view, row, is_chosen, percent);
    let mut y = brick.lines(&lines, name, Tint::Ink, x, first);
    if let Some(detail) = &row.detail {
        let lines = stage.typesetter.lines(&stage.seen(view, detail), text, measure(text.em));
        y = brick.lines(&lines, text, Tint::Ink, x, y);
    }
    let Some(state) = &row.state else { return y };
    let words = stage.seen(view, state);
    let Some(column) = beside else {
        let lines = stage.typesetter.lines(&words, state_type, measure(text.em));
        return brick.lines(&lines, state_type, Tint::Ink, x, y);
    };
    let lines = stage.typesetter.lines(&words, state_type, column);
    let left = width.minus(PADDING_SIDE).minus(lines.width());
    // On the name's line: the two types stand on one middle line.
    let leading = stage.leading(view, &row.label, name);
    let top = first.plus(leading.minus(lines.leading(state_type)).half());
    let bottom = brick.lines(&lines, state_type, Tint::Ink, left, top);
    Micrometres(y.0.max(bottom.minus(PADDING).plus(EDGE_CHOSEN.times(2)).0))
}

/// The top of a row's first line: lower where the state beside the name is in letters that stand so
/// high that they would cross the row's edge.
fn first_line(
    stage: &Stage<'_>,
    view: &View,
    row: &Row,
    is_chosen: bool,
    percent: i32,
) -> Micrometres {
    let Some(state) = &row.state else { return PADDING };
    let name = stage.of_type(view, Role::Name, is_chosen, percent);
    let of_state = stage.of_type(view, Role::Text, is_chosen, percent);
    let higher = stage.leading(view, state, of_state).minus(stage.leading(view, &row.label, name));
    Micrometres(PADDING.0.max(higher.half().plus(EDGE_CHOSEN.times(2)).0))
}

/// How wide a column for the states must be, where there is room for one beside the names: it is
/// the same for every row of the screen, shown or not.
fn state_column(
    stage: &Stage<'_>,
    view: &View,
    (x, width): (Micrometres, Micrometres),
    percent: i32,
) -> Option<Micrometres> {
    let of = stage.of_type(view, Role::Text, true, percent);
    let is_option = |row: &&Row| matches!(row.kind, RowKind::Oval { .. } | RowKind::Ranked { .. });
    let widest = view
        .rows
        .iter()
        .filter(is_option)
        .filter_map(|row| row.state.as_ref())
        .map(|state| stage.typesetter.width(&stage.seen(view, state), of))
        .max()?;
    let column = widest.plus(of.em);
    // The names keep at least 16 ems, about 32 letters.
    let names = width.minus(x).minus(PADDING_SIDE).minus(column);
    (names >= of.em.times(16)).then_some(column)
}

/// Height, edge and touch area.
fn finish(brick: &mut Brick, end: Micrometres, width: Micrometres, is_chosen: bool) {
    brick.height = Micrometres(end.plus(PADDING).0.max(TOUCH_MIN.0));
    let area = Rect { x: Micrometres(0), y: Micrometres(0), width, height: brick.height };
    let edge = if is_chosen { (Tint::Ink, EDGE_CHOSEN) } else { (Tint::Press, EDGE) };
    brick.marks.insert(0, Mark::Box { area, fill: None, edge: Some(edge), corner: CORNER });
    brick.touch(Target::Row(0), area);
}

/// An oval beside type of this em: as high as its capitals and a little more.
pub(super) const fn oval_size(em: Micrometres) -> (Micrometres, Micrometres) {
    let height = em.times(72).0 / 100;
    (Micrometres(Micrometres(height).times(OVAL_WIDTH).0 / 1000), Micrometres(height))
}

pub(super) const fn stroke(oval_height: Micrometres) -> Micrometres {
    Micrometres(oval_height.times(OVAL_STROKE).0 / 1000)
}
