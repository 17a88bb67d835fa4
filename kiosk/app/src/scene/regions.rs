//! Which part of the glass is for what. On a wide screen the question stands at the left and what
//! can be chosen at the right; on a high one the question stands above.

use evenhand_duty::{SIDE_LONG_LEAST, SIDE_SHORT_LEAST};
use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{TypeSize, View};

use super::{Stage, bands, bar, head};
use crate::metrics::{GAP, GUTTER, IN_BAND_PERCENT, MARGIN};

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

    /// The largest letters in which every screen of a ballot holds whole on this glass; `None` where
    /// not even the usual ones do, so that it can't be voted on.
    ///
    /// The least sides were found by laying out the demo's screens in ten languages on glasses of
    /// 10 to 32 in (`tests/screens/layouts.rs` holds them to it; own measurement, no source).
    pub fn size_most(self) -> Option<TypeSize> {
        let holds = |wide: Least, high: Least| {
            let (width, height) = if self.is_wide() { wide } else { high };
            self.width >= width && self.height >= height
        };
        let found = SIDES_LEAST.iter().find(|(_, wide, high)| holds(*wide, *high));
        found.map(|(size, _, _)| *size)
    }
}

/// A width and a height.
type Least = (Micrometres, Micrometres);

const fn millimetres(width: i32, height: i32) -> Least {
    (Micrometres(width * 1_000), Micrometres(height * 1_000))
}

/// The least glass for each size of letters, wide and high, largest letters first.
const SIDES_LEAST: [(TypeSize, Least, Least); 3] = [
    (TypeSize::Largest, millimetres(515, 295), millimetres(295, 515)),
    (TypeSize::Large, millimetres(375, 265), millimetres(265, 375)),
    (TypeSize::Medium, (SIDE_LONG_LEAST, SIDE_SHORT_LEAST), (SIDE_SHORT_LEAST, SIDE_LONG_LEAST)),
];

/// Where everything goes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Regions {
    pub(super) head: Rect,
    pub(super) rows: Rect,
    pub(super) bar: Rect,
}

/// The share of the width that the question has on a wide screen, in per cent: the first, unless its
/// text needs more to stay in the voter's size.
const HEAD_SHARES: [i32; 6] = [36, 42, 48, 54, 60, 66];
/// The most of the height that the question takes on a high screen, in per cent, where rows stand
/// under it.
const HEAD_HEIGHTS: [i32; 3] = [60, 68, 76];

impl Regions {
    pub(super) fn of(stage: &Stage<'_>, view: &View) -> Self {
        let screen = stage.screen;
        let width = screen.width.minus(MARGIN.times(2));
        let bar_height = bar::height(stage, view, width);
        let bar = Rect {
            x: MARGIN,
            y: screen.height.minus(bar_height).minus(GAP),
            width,
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
            Self::side_by_side(stage, view, content, bar)
        } else {
            Self::above(stage, view, content, bar)
        }
    }

    fn side_by_side(stage: &Stage<'_>, view: &View, content: Rect, bar: Rect) -> Self {
        let part = |share: i32| Micrometres(content.width.times(share).0 / 100);
        let fits = |share: i32, percent| {
            head::brick_at(stage, view, part(share), percent).height <= content.height
        };
        let width = part(first_that(&HEAD_SHARES, fits));
        let head = Rect { width, ..content };
        let x = head.right().plus(GUTTER);
        let rows = Rect { x, width: content.right().minus(x), ..content };
        Self { head, rows, bar }
    }

    fn above(stage: &Stage<'_>, view: &View, content: Rect, bar: Rect) -> Self {
        let part = |share: i32| Micrometres(content.height.times(share).0 / 100);
        let fits = |share: i32, percent| {
            head::brick_at(stage, view, content.width, percent).height <= part(share)
        };
        let share = if view.rows.is_empty() { 100 } else { first_that(&HEAD_HEIGHTS, fits) };
        let height = part(share);
        let head = Rect { height, ..content };
        let used = head::brick(stage, view, head.width, height).height;
        let y = content.y.plus(used).plus(GAP.times(2));
        let rows = Rect { y, height: content.bottom().minus(y), ..content };
        Self { head, rows, bar }
    }
}

/// The first share in which the question fits in its full size, else the first in which it fits
/// without leaving the voter's size, else the last: it has the most room.
fn first_that(shares: &[i32], fits: impl Fn(i32, i32) -> bool) -> i32 {
    let first = |percent| shares.iter().copied().find(|share| fits(*share, percent));
    let found = first(100).or_else(|| first(IN_BAND_PERCENT));
    found.or_else(|| shares.last().copied()).unwrap_or(100)
}
