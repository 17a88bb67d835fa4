//! A row of the keyboard: equal keys, each as large as a finger needs.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Arg, Message, Phrase, Target, View};

use super::brick::Brick;
use super::{Mark, Stage};
use crate::metrics::{CORNER, EDGE, GAP, PADDING, Role, TOUCH_MIN};
use crate::palette::Tint;

/// Keys that a row is divided for, also where it has fewer: columns stay columns.
const KEYS_IN_A_ROW: i32 = 6;

pub(super) fn brick(stage: &Stage<'_>, view: &View, keys: &[char], width: Micrometres) -> Brick {
    let mut brick = Brick::default();
    let of = stage.of_type(view, Role::Name, false, 100);
    let count = KEYS_IN_A_ROW.max(i32::try_from(keys.len()).unwrap_or(KEYS_IN_A_ROW));
    let key_width = Micrometres(width.minus(GAP.times(count - 1)).0 / count);
    let height = Micrometres(of.leading().plus(PADDING).0.max(TOUCH_MIN.0));
    brick.height = height;
    for (index, letter) in (0u16..).zip(keys) {
        let x = key_width.plus(GAP).times(i32::from(index));
        let area = Rect { x, y: Micrometres(0), width: key_width, height };
        let edge = Some((Tint::Press, EDGE));
        brick.marks.push(Mark::Box { area, fill: None, edge, corner: CORNER });
        let phrase = Phrase::new(Message::KeyName).with("letter", Arg::Character(*letter));
        let words = stage.seen(view, &phrase);
        let mut percent = 100;
        loop {
            let of = stage.of_type(view, Role::Name, false, percent);
            let lines = stage.typesetter.lines(&words, of, key_width.minus(PADDING));
            if lines.lines.len() <= 1 || percent <= super::SMALLEST_PERCENT {
                brick.centred(&lines, of, Tint::Ink, area);
                break;
            }
            percent -= 10;
        }
        brick.touch(Target::Key { row: 0, key: index }, area);
    }
    brick
}
