//! Two large places under the rows: what is above, what is below. They stay where they are while a
//! voter turns pages. Two switches find the ways back into a block of rows in the same place.

use std::rc::Rc;

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Message, Phrase, Target, View};

use super::brick::Brick;
use super::{Mark, SMALLEST_PERCENT, Scene, Stage};
use crate::metrics::{
    CORNER, EDGE, GAP, IN_BAND_PERCENT, PADDING, PADDING_SIDE, Role, TOUCH_MIN, Type,
};
use crate::palette::Tint;
use crate::typesetter::Lines;

/// The most lines of words in a place.
const LINES_MAX: i32 = 3;

/// The room that they take, with the gap over them, under rows of this width.
pub(super) fn height(stage: &Stage<'_>, view: &View, rows: Micrometres) -> Micrometres {
    box_height(stage, view, rows).plus(GAP)
}

fn place_width(rows: Micrometres) -> Micrometres {
    rows.minus(GAP).half()
}

/// As many lines as two figures need in the voter's size: the same for every page of a list.
fn box_height(stage: &Stage<'_>, view: &View, rows: Micrometres) -> Micrometres {
    let text = stage.of_type(view, Role::Text, false, 100);
    let all = [Message::MoreAbove, Message::MoreBelow, Message::BlockBackOne, Message::BlockStart];
    let messages = if view.has_blocks { &all[..] } else { &all[..2] };
    let fits = |lines: &i32| {
        messages.iter().all(|message| {
            let words = stage.seen(view, &Phrase::new(*message).number("count", 20u32));
            let set = set(stage, view, &words, place_width(rows), IN_BAND_PERCENT);
            i32::try_from(set.lines.lines.len()).is_ok_and(|count| count <= *lines)
                && !set.lines.cuts_a_word
        })
    };
    let lines = (1..=LINES_MAX).find(fits).unwrap_or(LINES_MAX);
    let high = stage.own_leading(view, text).times(lines).plus(PADDING.times(2));
    Micrometres(high.0.max(TOUCH_MIN.0))
}

/// The words of a place beside its arrow.
struct Set {
    of: Type,
    arrow: Micrometres,
    x: Micrometres,
    lines: Rc<Lines>,
}

fn set(stage: &Stage<'_>, view: &View, words: &str, width: Micrometres, percent: i32) -> Set {
    let of = stage.of_type(view, Role::Text, false, percent);
    let arrow = Micrometres(of.em.times(7).0 / 10);
    let x = PADDING_SIDE.plus(arrow).plus(PADDING);
    Set { of, arrow, x, lines: stage.typesetter.lines(words, of, width.minus(x).minus(PADDING)) }
}

pub(super) fn place(stage: &Stage<'_>, view: &View, rows: Rect, scene: &mut Scene) {
    let height = box_height(stage, view, rows.width);
    let width = place_width(rows.width);
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
        let Set { of: text, arrow, x, lines } = set(stage, view, &words, width, percent);
        let high = lines.leading(text).times(i32::try_from(lines.lines.len()).unwrap_or(LINES_MAX));
        let fits = high <= height.minus(PADDING) && !lines.cuts_a_word;
        if !fits && percent > SMALLEST_PERCENT {
            percent -= 10;
            continue;
        }
        brick.lines(&lines, text, Tint::Ink, x, height.minus(high).half());
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
