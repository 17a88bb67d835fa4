//! The bands along the top: a worker's stripes, the state of the ballot, a notice.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Notice, Tone, View};

use super::brick::Brick;
use super::regions::Regions;
use super::{Mark, Scene, Stage};
use crate::metrics::{BAND, EDGE, GAP, MARGIN, PADDING, PADDING_SIDE, Role, TOUCH_MIN, Type};
use crate::palette::Tint;
use crate::typesetter::Typesetter;

/// The bottom of the bands.
pub(super) fn bottom(stage: &Stage<'_>, view: &View) -> Micrometres {
    let notice = view
        .notice
        .as_ref()
        .map_or(Micrometres(0), |notice| notice_brick(stage, view, notice).height.plus(GAP));
    worker_height(view).plus(state_brick(stage, view).height).plus(notice)
}

pub(super) fn place(stage: &Stage<'_>, view: &View, _regions: &Regions, scene: &mut Scene) {
    let worker = worker_height(view);
    if view.is_hidden {
        let zero = Micrometres(0);
        let width = stage.screen.width;
        scene.marks.push(Mark::Stripes(Rect { x: zero, y: zero, width, height: worker }));
    }
    let state = state_brick(stage, view);
    let y = worker.plus(state.height);
    scene.place(state, Micrometres(0), worker);
    if let Some(notice) = &view.notice {
        scene.place(notice_brick(stage, view, notice), MARGIN, y.plus(GAP));
    }
}

const fn worker_height(view: &View) -> Micrometres {
    if view.is_hidden { BAND } else { Micrometres(0) }
}

/// The words of the state over the whole width, with a line under them.
fn state_brick(stage: &Stage<'_>, view: &View) -> Brick {
    let mut brick = Brick::default();
    let Some(words) = &view.state_words else { return brick };
    let of = stage.of_type(view, Role::Text, false, 100);
    let width = stage.screen.width;
    let lines = stage.typesetter.lines(&stage.seen(view, words), of, width.minus(MARGIN.times(2)));
    let end = brick.lines(&lines, of, Tint::Ink, MARGIN, PADDING.half());
    brick.height = end.plus(PADDING.half()).plus(EDGE);
    let y = brick.height.minus(EDGE);
    brick.marks.push(Mark::Box {
        area: Rect { x: Micrometres(0), y, width, height: EDGE },
        fill: Some(Tint::Ink),
        edge: None,
        corner: Micrometres(0),
    });
    brick
}

fn notice_brick(stage: &Stage<'_>, view: &View, notice: &Notice) -> Brick {
    let of = stage.of_type(view, Role::Text, true, 100);
    let width = stage.screen.width.minus(MARGIN.times(2));
    notice_of(stage.typesetter, &stage.seen(view, &notice.phrase), of, notice.tone, width)
}

/// A block with a sign, then the words, with an edge around both.
pub(super) fn notice_of(
    typesetter: &Typesetter,
    words: &str,
    of: Type,
    tone: Tone,
    width: Micrometres,
) -> Brick {
    let mut brick = Brick::default();
    let block = TOUCH_MIN;
    let x = block.plus(PADDING_SIDE);
    let room = width.minus(x).minus(PADDING_SIDE);
    let lines = typesetter.lines(words, of, room);
    let end = brick.lines(&lines, of, Tint::Ink, x, PADDING);
    brick.height = Micrometres(end.plus(PADDING).0.max(block.0));
    let tint = Tint::Block(tone);
    let whole = Rect { x: Micrometres(0), y: Micrometres(0), width, height: brick.height };
    let frame = |area, fill, edge| Mark::Box { area, fill, edge, corner: Micrometres(0) };
    brick.marks.push(frame(Rect { width: block, ..whole }, Some(tint), None));
    // The edge is in ink, over the block: amber alone is hardly seen on white.
    brick.marks.push(frame(whole, None, Some((Tint::Ink, EDGE.times(2)))));
    let side = Micrometres(block.times(7).0 / 10);
    brick.marks.push(Mark::Sign {
        area: Rect {
            x: block.minus(side).half(),
            y: brick.height.minus(side).half(),
            width: side,
            height: side,
        },
        tone,
    });
    brick
}
