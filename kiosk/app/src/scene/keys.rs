//! A row of the keyboard: equal keys, each as large as a finger needs.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Arg, Message, Phrase, Target, View};

use super::brick::Brick;
use super::{Mark, SMALLEST_PERCENT, Stage};
use crate::metrics::{CORNER, EDGE, GAP, PADDING, Role, TOUCH_MIN};
use crate::palette::Tint;

/// Keys that a row is divided for, also where it has fewer: columns stay columns.
const KEYS_IN_A_ROW: i32 = 6;

pub(super) fn brick(stage: &Stage<'_>, view: &View, keys: &[char], width: Micrometres) -> Brick {
    let mut brick = Brick::default();
    let words: Vec<String> = keys.iter().map(|letter| words_of(stage, view, *letter)).collect();
    let (widths, percent) = widths(stage, view, &words, width);
    let of = stage.of_type(view, Role::Name, false, 100);
    let height = Micrometres(of.leading().plus(PADDING).0.max(TOUCH_MIN.0));
    brick.height = height;
    let of = of.scaled(percent);
    let mut x = Micrometres(0);
    for ((index, words), key_width) in (0u16..).zip(&words).zip(widths) {
        let area = Rect { x, y: Micrometres(0), width: key_width, height };
        let edge = Some((Tint::Press, EDGE));
        brick.marks.push(Mark::Box { area, fill: None, edge, corner: CORNER });
        let lines = stage.typesetter.lines(words, of, key_width.minus(PADDING));
        brick.centred(&lines, of, Tint::Ink, area);
        brick.touch(Target::Key { row: 0, key: index }, area);
        x = area.right().plus(GAP);
    }
    brick
}

fn words_of(stage: &Stage<'_>, view: &View, letter: char) -> String {
    stage.seen(view, &Phrase::new(Message::KeyName).with("letter", Arg::Character(letter)))
}

/// The keys' widths, and the share of the type's size at which their words fit. All keys of a row
/// are equal, in the columns of the other rows, unless a sign's name needs more than a column.
fn widths(
    stage: &Stage<'_>,
    view: &View,
    words: &[String],
    width: Micrometres,
) -> (Vec<Micrometres>, i32) {
    let columns = KEYS_IN_A_ROW.max(count(words.len()));
    let column = Micrometres(width.minus(GAP.times(columns - 1)).0 / columns);
    let mut percent = 100;
    loop {
        let of = stage.of_type(view, Role::Name, false, percent);
        let needed = |words: &String| {
            let wide = stage.typesetter.width(words, of).plus(PADDING.times(2));
            Micrometres(wide.0.max(TOUCH_MIN.0))
        };
        let needed: Vec<Micrometres> = words.iter().map(needed).collect();
        if needed.iter().all(|needed| *needed <= column) {
            return (vec![column; words.len()], percent);
        }
        let sum: i32 = needed.iter().map(|needed| needed.0).sum();
        let room = width.minus(GAP.times(count(words.len()) - 1));
        if sum <= room.0 || percent <= SMALLEST_PERCENT {
            // What is over goes to all alike, up to the width of a full row.
            let spare = if count(words.len()) == columns { room.0 - sum } else { 0 };
            let each = Micrometres(spare.max(0) / count(words.len()).max(1));
            return (needed.into_iter().map(|needed| needed.plus(each)).collect(), percent);
        }
        percent -= 10;
    }
}

fn count(keys: usize) -> i32 {
    i32::try_from(keys).unwrap_or(KEYS_IN_A_ROW)
}
