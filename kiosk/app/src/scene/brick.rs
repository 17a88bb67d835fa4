//! A part of a screen before it has its place: what is drawn from its top left corner on.

use evenhand_rules::Micrometres;
use evenhand_sheet::{Point, Rect};
use evenhand_visit::Target;

use super::{Mark, Touch};
use crate::metrics::Type;
use crate::palette::Tint;
use crate::typesetter::Lines;

/// Marks from (0, 0) on, and how high they are together.
#[derive(Clone, Debug, Default)]
pub(super) struct Brick {
    pub(super) height: Micrometres,
    pub(super) marks: Vec<Mark>,
    pub(super) touches: Vec<Touch>,
}

impl Brick {
    /// Sets lines at `x` from `top` down, and gives their bottom.
    pub(super) fn lines(
        &mut self,
        lines: &Lines,
        of: Type,
        tint: Tint,
        x: Micrometres,
        top: Micrometres,
    ) -> Micrometres {
        let mut y = top;
        let leading = lines.leading(of);
        for line in &lines.lines {
            let area = Rect { x, y, width: line.width, height: leading };
            self.marks.push(Mark::Text {
                area,
                words: line.words.clone(),
                face: line.face,
                em: line.em,
                is_rtl: line.is_rtl,
                tint,
            });
            y = area.bottom();
        }
        y
    }

    /// The same, each line in the middle of `within`.
    pub(super) fn centred(&mut self, lines: &Lines, of: Type, tint: Tint, within: Rect) {
        let leading = lines.leading(of);
        let count = i32::try_from(lines.lines.len()).unwrap_or(0);
        let spare = within.height.minus(leading.times(count)).half();
        let mut y = within.y.plus(spare);
        for line in &lines.lines {
            let x = within.x.plus(within.width.minus(line.width).half());
            let area = Rect { x, y, width: line.width, height: leading };
            self.marks.push(Mark::Text {
                area,
                words: line.words.clone(),
                face: line.face,
                em: line.em,
                is_rtl: line.is_rtl,
                tint,
            });
            y = area.bottom();
        }
    }

    /// Puts left to right and right to left within this width.
    pub(super) fn mirror(&mut self, width: Micrometres) {
        let mirror = |area: &mut Rect| area.x = width.minus(area.right());
        self.marks.iter_mut().for_each(|mark| mirror(mark.area_mut()));
        self.touches.iter_mut().for_each(|touch| mirror(&mut touch.area));
    }

    /// Makes an area of this brick touchable. Which row it is comes with [`Brick::is_row`].
    pub(super) fn touch(&mut self, target: Target, area: Rect) {
        self.touches.push(Touch { target, area });
    }

    /// Says which row this is.
    pub(super) fn is_row(&mut self, index: u16) {
        for touch in &mut self.touches {
            touch.target = match touch.target {
                Target::Row(_) => Target::Row(index),
                Target::Key { key, .. } => Target::Key { row: index, key },
                other @ (Target::Block(_)
                | Target::BackOne(_)
                | Target::BlockStart(_)
                | Target::Group
                | Target::MoreAbove
                | Target::MoreBelow
                | Target::Forward
                | Target::Back
                | Target::HearAgain
                | Target::Comfort
                | Target::Help) => other,
            };
        }
    }
}

impl Mark {
    /// This mark, moved.
    pub(super) fn moved(mut self, by: Point) -> Self {
        match &mut self {
            Self::Box { area, .. }
            | Self::Oval { area, .. }
            | Self::Text { area, .. }
            | Self::Arrow { area, .. }
            | Self::Stripes(area)
            | Self::Sign { area, .. }
            | Self::Picture { area, .. } => *area = area.moved(by),
        }
        self
    }
}
