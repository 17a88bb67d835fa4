//! A written name as it stands on the paper: its picture, large, and the words for it.

use evenhand_rules::{ContestIndex, Micrometres, OptionIndex};
use evenhand_sheet::Rect;
use evenhand_visit::{Row, View};

use super::brick::Brick;
use super::{Mark, Stage};
use crate::metrics::{EDGE, MEASURE_EMS, PADDING, PICTURE_HEIGHT, Role};
use crate::palette::Tint;

pub(super) fn brick(
    stage: &Stage<'_>,
    view: &View,
    row: &Row,
    (contest, option): (ContestIndex, OptionIndex),
    width: Micrometres,
    percent: i32,
) -> Brick {
    let mut brick = Brick::default();
    let text = stage.of_type(view, Role::Text, false, percent);
    let measure = Micrometres(width.0.min(text.em.times(MEASURE_EMS).0));
    let zero = Micrometres(0);
    let lines = stage.typesetter.lines(&stage.seen(view, &row.label), text, measure);
    let mut y = brick.lines(&lines, text, Tint::Ink, zero, zero);
    let size = stage.pictures.get(&(contest, option));
    if let Some((columns, rows)) = size.filter(|(columns, rows)| *columns > 0 && *rows > 0) {
        let highest = Micrometres(PICTURE_HEIGHT.times(percent.max(40)).0 / 100);
        let (wide, high) = fitted((*columns, *rows), width.minus(PADDING), highest);
        let area =
            Rect { x: EDGE, y: y.plus(EDGE).plus(PADDING.half()), width: wide, height: high };
        brick.marks.push(Mark::Box {
            area: area.grown(EDGE),
            fill: None,
            edge: Some((Tint::Ink, EDGE)),
            corner: zero,
        });
        brick.marks.push(Mark::Picture { area, contest, option });
        y = area.bottom().plus(EDGE);
    }
    brick.height = y.plus(PADDING);
    brick
}

/// The picture's proportions within a width and a height.
fn fitted(
    (columns, rows): (u32, u32),
    width: Micrometres,
    height: Micrometres,
) -> (Micrometres, Micrometres) {
    let (columns, rows) = (i64::from(columns), i64::from(rows));
    let (wide, high) = (i64::from(width.0), i64::from(height.0));
    let (wide, high) = if wide * rows <= high * columns {
        (wide, wide * rows / columns)
    } else {
        (high * columns / rows, high)
    };
    let held = |length: i64| Micrometres(i32::try_from(length).unwrap_or(i32::MAX));
    (held(wide), held(high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_keeps_its_proportions() {
        let room = (Micrometres(200_000), Micrometres(16_000));
        assert_eq!(fitted((500, 50), room.0, room.1), (Micrometres(160_000), Micrometres(16_000)));
        assert_eq!(fitted((500, 20), room.0, room.1), (Micrometres(200_000), Micrometres(8_000)));
    }
}
