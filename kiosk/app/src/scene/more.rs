//! Two large places under the rows: what is above, what is below. They stay where they are while a
//! voter turns pages. Two switches find the ways back into a block of rows in the same place.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Message, Phrase, Target, View};

use super::brick::Brick;
use super::{Mark, SMALLEST_PERCENT, Scene, Stage};
use crate::metrics::{CORNER, EDGE, GAP, PADDING, PADDING_SIDE, Role, TOUCH_MIN};
use crate::palette::Tint;

/// The room that they take, with the gap over them.
pub(super) fn height(stage: &Stage<'_>, view: &View) -> Micrometres {
    box_height(stage, view).plus(GAP)
}

fn box_height(stage: &Stage<'_>, view: &View) -> Micrometres {
    let text = stage.of_type(view, Role::Text, false, 100);
    Micrometres(text.leading().plus(PADDING.times(2)).0.max(TOUCH_MIN.0))
}

pub(super) fn place(stage: &Stage<'_>, view: &View, rows: Rect, scene: &mut Scene) {
    let height = box_height(stage, view);
    let width = rows.width.minus(GAP).half();
    let y = rows.bottom().minus(height);
    let right = rows.x.plus(width).plus(GAP);
    for ((target, phrase), x) in places(view).into_iter().zip([rows.x, right]) {
        if let Some(phrase) = phrase {
            scene.place(brick(stage, view, (target, &phrase), width, height), x, y);
        }
    }
}

/// While the scan is past a block's last row, the two ways back into it stand there.
fn places(view: &View) -> [(Target, Option<Phrase>); 2] {
    if let Some(Target::BackOne(block) | Target::BlockStart(block)) = view.focus {
        return [
            (Target::BackOne(block), Some(Phrase::new(Message::BlockBackOne))),
            (Target::BlockStart(block), Some(Phrase::new(Message::BlockStart))),
        ];
    }
    [(Target::MoreAbove, view.more_above.clone()), (Target::MoreBelow, view.more_below.clone())]
}

fn brick(
    stage: &Stage<'_>,
    view: &View,
    (target, phrase): (Target, &Phrase),
    width: Micrometres,
    height: Micrometres,
) -> Brick {
    let mut brick = Brick { height, ..Brick::default() };
    let zero = Micrometres(0);
    let area = Rect { x: zero, y: zero, width, height };
    let edge = Some((Tint::Press, EDGE.times(2)));
    brick.marks.push(Mark::Box { area, fill: None, edge, corner: CORNER });
    let words = stage.seen(view, phrase);
    let mut percent = 100;
    loop {
        let text = stage.of_type(view, Role::Text, false, percent);
        let arrow = Micrometres(text.em.times(7).0 / 10);
        let x = PADDING_SIDE.plus(arrow).plus(PADDING);
        let lines = stage.typesetter.lines(&words, text, width.minus(x).minus(PADDING));
        if lines.lines.len() > 1 && percent > SMALLEST_PERCENT {
            percent -= 10;
            continue;
        }
        let top = height.minus(text.leading()).half();
        brick.lines(&lines, text, Tint::Ink, x, top);
        brick.marks.push(Mark::Arrow {
            area: Rect {
                x: PADDING_SIDE,
                y: height.minus(arrow).half(),
                width: arrow,
                height: arrow,
            },
            is_up: phrase.message != Message::MoreBelow,
        });
        break;
    }
    brick.touch(target, area);
    brick
}
