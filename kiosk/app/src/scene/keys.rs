//! A row of the keyboard: equal keys, each as large as a finger needs.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Arg, Message, Phrase, Target, View};

use super::brick::Brick;
use super::{Mark, SMALLEST_PERCENT, Stage};
use crate::metrics::{CORNER, EDGE, GAP, IN_BAND_PERCENT, PADDING, Role, TOUCH_MIN};
use crate::palette::Tint;

/// Keys that a row is divided for, also where it has fewer: columns stay columns.
const KEYS_IN_A_ROW: i32 = 6;

pub(super) fn brick(stage: &Stage<'_>, view: &View, keys: &[char], width: Micrometres) -> Brick {
    let mut brick = Brick::default();
    let words: Vec<String> = keys.iter().map(|letter| words_of(stage, view, *letter)).collect();
    let (widths, percent) = widths(stage, view, &words, width);
    let of = stage.of_type(view, Role::Name, false, 100);
    // As high as the names of signs need: all rows of keys alike.
    let leading = stage.own_leading(view, of);
    let height = Micrometres(leading.plus(PADDING).0.max(TOUCH_MIN.0));
    let of = stage.of_type(view, Role::Name, false, percent);
    let (mut x, mut y) = (Micrometres(0), Micrometres(0));
    for ((index, words), key_width) in (0u16..).zip(&words).zip(widths) {
        // Names of signs that need more than a line go on in the next.
        if x.0 > 0 && x.plus(key_width) > width {
            (x, y) = (Micrometres(0), y.plus(height).plus(GAP));
        }
        let area = Rect { x, y, width: key_width, height };
        let edge = Some((Tint::Press, EDGE));
        brick.marks.push(Mark::Box { area, fill: None, edge, corner: CORNER });
        let lines = stage.typesetter.lines(words, of, key_width.minus(PADDING));
        brick.centred(&lines, of, Tint::Ink, area);
        brick.touch(Target::Key { row: 0, key: index }, area);
        x = area.right().plus(GAP);
    }
    brick.height = y.plus(height);
    if stage.words.is_right_to_left(view.comfort.language) {
        // The letters are Latin and go from left to right; the whole screen is mirrored later.
        brick.mirror(width);
    }
    brick
}

fn words_of(stage: &Stage<'_>, view: &View, letter: char) -> String {
    stage.seen(view, &Phrase::new(Message::KeyName).with("letter", Arg::Character(letter)))
}

/// The keys' widths, and how far their words are set smaller. All keys of a row are equal, in the
/// columns of the other rows, unless a sign's name needs more than a column. Where they need more
/// than a line together, each is as wide as its words and they go on in the next line.
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
        if sum <= room.0 {
            // What is over goes to all alike, up to the width of a full row.
            let spare = if count(words.len()) == columns { room.0 - sum } else { 0 };
            let each = Micrometres(spare.max(0) / count(words.len()).max(1));
            return (needed.into_iter().map(|needed| needed.plus(each)).collect(), percent);
        }
        let fits_alone = needed.iter().all(|needed| *needed <= width);
        if percent <= IN_BAND_PERCENT && (fits_alone || percent <= SMALLEST_PERCENT) {
            return (
                needed.into_iter().map(|key| Micrometres(key.0.min(width.0))).collect(),
                percent,
            );
        }
        percent -= 10;
    }
}

fn count(keys: usize) -> i32 {
    i32::try_from(keys).unwrap_or(KEYS_IN_A_ROW)
}
