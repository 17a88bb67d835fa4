//! A contest on the review, as a small piece of the ballot: its title, its filled ovals with their
//! names, and in words what is left.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Arg, Message, Phrase, Row, Target, View};

use super::brick::Brick;
use super::option::{oval_size, stroke};
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
    let title = stage.of_type(view, Role::Text, true, percent);
    let text = stage.of_type(view, Role::Text, false, percent);
    let room = width.minus(PADDING_SIDE.times(2));
    let measure = Micrometres(room.0.min(text.em.times(MEASURE_EMS).0));
    let lines = stage.typesetter.lines(&stage.seen(view, &row.label), title, measure);
    let mut y = brick.lines(&lines, title, Tint::Ink, PADDING_SIDE, PADDING);
    match row.detail.as_ref().map(|detail| (detail, chosen(detail))) {
        Some((_, names)) if !names.is_empty() => {
            let (oval_width, oval_height) = oval_size(text.em);
            let x = PADDING_SIDE.plus(oval_width).plus(text.em.half());
            let room = width.minus(x).minus(PADDING_SIDE);
            for name in names {
                let leading = stage.leading(view, name, text);
                let top = y.plus(leading.minus(oval_height).half());
                let area = Rect { x: PADDING_SIDE, y: top, width: oval_width, height: oval_height };
                let stroke = stroke(oval_height);
                brick.marks.push(Mark::Oval { area, stroke, is_filled: true });
                let lines = stage.typesetter.lines(&stage.seen(view, name), text, room);
                y = brick.lines(&lines, text, Tint::Ink, x, y);
            }
        }
        Some((detail, _)) => {
            let lines = stage.typesetter.lines(&stage.seen(view, detail), text, measure);
            y = brick.lines(&lines, text, Tint::Ink, PADDING_SIDE, y);
        }
        None => {}
    }
    if let Some(state) = &row.state {
        let lines = stage.typesetter.lines(&stage.seen(view, state), text, measure);
        y = brick.lines(&lines, text, Tint::Ink, PADDING_SIDE, y);
    }
    brick.height = Micrometres(y.plus(PADDING).0.max(TOUCH_MIN.0));
    let area = Rect { x: Micrometres(0), y: Micrometres(0), width, height: brick.height };
    let edge = Some((Tint::Press, EDGE));
    brick.marks.insert(0, Mark::Box { area, fill: None, edge, corner: CORNER });
    brick.touch(Target::Row(0), area);
    brick
}

/// The chosen names of a review's line, one a phrase.
fn chosen(detail: &Phrase) -> Vec<&Phrase> {
    if detail.message != Message::ReviewChosen {
        return Vec::new();
    }
    let mut names = Vec::new();
    for (_, arg) in &detail.args {
        let Arg::List(items) = arg else { continue };
        for item in items {
            if let Arg::Phrase(phrase) = item {
                names.push(phrase);
            }
        }
    }
    names
}
