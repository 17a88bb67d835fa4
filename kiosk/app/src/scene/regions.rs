//! Which part of the glass is for what. On a wide screen the question stands at the left and what
//! can be chosen at the right; on a high one the question stands above.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::View;

use super::{Stage, bands, bar, head};
use crate::metrics::{GAP, GUTTER, MARGIN};

/// The glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Screen {
    /// Its width.
    pub width: Micrometres,
    /// Its height.
    pub height: Micrometres,
}

impl Screen {
    /// True where question and rows stand side by side: wider than five to four.
    pub const fn is_wide(self) -> bool {
        self.width.times(4).0 >= self.height.times(5).0
    }
}

/// Where everything goes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Regions {
    pub(super) head: Rect,
    pub(super) rows: Rect,
    pub(super) bar: Rect,
}

/// The share of the width that the question has on a wide screen, in per cent.
const HEAD_SHARE: i32 = 36;
/// The most of the height that the question takes on a high screen, in per cent, where rows stand
/// under it.
const HEAD_HEIGHT_MAX: i32 = 60;

impl Regions {
    pub(super) fn of(stage: &Stage<'_>, view: &View) -> Self {
        let screen = stage.screen;
        let bar_height = bar::height(stage, view);
        let bar = Rect {
            x: MARGIN,
            y: screen.height.minus(bar_height).minus(GAP),
            width: screen.width.minus(MARGIN.times(2)),
            height: bar_height,
        };
        let top = bands::bottom(stage, view).plus(MARGIN);
        let content = Rect {
            x: MARGIN,
            y: top,
            width: bar.width,
            height: bar.y.minus(GAP.times(2)).minus(top),
        };
        if screen.is_wide() {
            Self::side_by_side(content, bar)
        } else {
            Self::above(stage, view, content, bar)
        }
    }

    const fn side_by_side(content: Rect, bar: Rect) -> Self {
        let width = Micrometres(content.width.times(HEAD_SHARE).0 / 100);
        let head = Rect { width, ..content };
        let x = head.right().plus(GUTTER);
        let rows = Rect { x, width: content.right().minus(x), ..content };
        Self { head, rows, bar }
    }

    fn above(stage: &Stage<'_>, view: &View, content: Rect, bar: Rect) -> Self {
        let share = if view.rows.is_empty() { 100 } else { HEAD_HEIGHT_MAX };
        let height = Micrometres(content.height.times(share).0 / 100);
        let head = Rect { height, ..content };
        let used = head::brick(stage, view, head.width, height).height;
        let y = content.y.plus(used).plus(GAP.times(2));
        let rows = Rect { y, height: content.bottom().minus(y), ..content };
        Self { head, rows, bar }
    }
}
