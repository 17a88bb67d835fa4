//! Where the voter is, the title, and the lines under it.

use evenhand_rules::Micrometres;
use evenhand_visit::{Message, View};

use super::brick::Brick;
use super::{SMALLEST_PERCENT, Stage};
use crate::metrics::{IN_BAND_PERCENT, MEASURE_EMS, Role};
use crate::palette::Tint;

/// The place, the title and the lines, in smaller type where they are higher than `room`: nothing
/// is cut.
pub(super) fn brick(
    stage: &Stage<'_>,
    view: &View,
    width: Micrometres,
    room: Micrometres,
) -> Brick {
    let mut percent = 100;
    loop {
        let brick = brick_at(stage, view, width, percent);
        if brick.height <= room || percent <= SMALLEST_PERCENT {
            return brick;
        }
        percent -= 10;
    }
}

/// The same in smaller type, whatever its height.
pub(super) fn brick_at(stage: &Stage<'_>, view: &View, width: Micrometres, percent: i32) -> Brick {
    let mut brick = Brick::default();
    let text = stage.of_type(view, Role::Text, false, percent);
    let measure = Micrometres(width.0.min(text.em.times(MEASURE_EMS).0));
    // Where room is short, the gaps give way before the letters do.
    let gap = if percent < 100 { text.em.half().half() } else { text.em.half() };
    let zero = Micrometres(0);
    let mut y = zero;
    if let Some(place) = &view.place {
        let lines = stage.typesetter.lines(&stage.seen(view, place), text, measure);
        y = brick.lines(&lines, text, Tint::Ink, zero, y).plus(gap.half());
    }
    // A title keeps more of its size than lines do, and never cuts a word.
    let mut heading_percent = percent.max(IN_BAND_PERCENT);
    let words = stage.seen(view, &view.heading);
    loop {
        let heading = stage.of_type(view, Role::Heading, true, heading_percent);
        let lines = stage.typesetter.lines(&words, heading, width);
        if !lines.cuts_a_word || heading_percent <= SMALLEST_PERCENT {
            y = brick.lines(&lines, heading, Tint::Ink, zero, y);
            break;
        }
        heading_percent -= 10;
    }
    let limit = stage.of_type(view, Role::Text, true, percent);
    let mut is_after_limit = false;
    for line in &view.lines {
        // The limit is what a voter must not miss; what is left belongs to it.
        let is_limit = is_limit(line.message);
        let of = if is_limit { limit } else { text };
        let lines = stage.typesetter.lines(&stage.seen(view, line), of, measure);
        if !lines.lines.is_empty() {
            let top = if is_after_limit { y } else { y.plus(gap) };
            y = brick.lines(&lines, of, Tint::Ink, zero, top);
        }
        is_after_limit = is_limit;
    }
    brick.height = y;
    brick
}

const fn is_limit(message: Message) -> bool {
    matches!(
        message,
        Message::LimitOne
            | Message::LimitMany
            | Message::LimitAny
            | Message::LimitRanks
            | Message::LimitMeasure
    )
}
