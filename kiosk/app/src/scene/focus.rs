//! What has the focus: an outline that stands clear of it, dark and light together, so that it shows
//! on any ground.

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Target, View};

use super::{Mark, Scene};
use crate::metrics::{CORNER, FOCUS_CLEAR, FOCUS_PART};
use crate::palette::Tint;

/// The outlines: one, or one for each action where the group has the focus.
pub(super) fn marks(view: &View, scene: &Scene) -> Vec<Mark> {
    areas(view, scene).into_iter().flat_map(outlines).collect()
}

fn areas(view: &View, scene: &Scene) -> Vec<Rect> {
    let Some(target) = view.focus else { return Vec::new() };
    let touched = |target: Target| scene.touches.iter().find(|touch| touch.target == target);
    if target == Target::Group {
        return view.group().into_iter().filter_map(touched).map(|touch| touch.area).collect();
    }
    if let Target::Block(block) = target {
        let block = view.blocks.get(usize::from(block));
        let rows = scene.rows.iter().filter(|(row, _)| block.is_some_and(|b| b.holds(*row)));
        return rows.map(|(_, area)| *area).reduce(around).into_iter().collect();
    }
    let area = touched(target).map(|touch| touch.area).or_else(|| {
        // A row of keys is touched key by key, and has the focus as a whole.
        let Target::Row(wanted) = target else { return None };
        scene.rows.iter().find(|(row, _)| *row == wanted).map(|(_, area)| *area)
    });
    area.into_iter().collect()
}

/// The box around two boxes.
fn around(one: Rect, other: Rect) -> Rect {
    let (x, y) = (one.x.min(other.x), one.y.min(other.y));
    Rect {
        x,
        y,
        width: one.right().max(other.right()).minus(x),
        height: one.bottom().max(other.bottom()).minus(y),
    }
}

pub(super) fn outlines(area: Rect) -> [Mark; 2] {
    let outline = |grown: Micrometres, tint| Mark::Box {
        area: area.grown(grown),
        fill: None,
        edge: Some((tint, FOCUS_PART)),
        corner: CORNER.plus(grown),
    };
    let inner = FOCUS_CLEAR.plus(FOCUS_PART);
    [outline(inner, Tint::FocusDark), outline(inner.plus(FOCUS_PART), Tint::FocusLight)]
}
