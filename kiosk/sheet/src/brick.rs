//! A piece of the page that is never divided: what stands in it, from its own top left corner.

use alloc::vec::Vec;

use evenhand_rules::Micrometres;

use crate::{CellRow, Oval, Page, Point, Rule, SampleOval, TextLine, WriteInLine};

/// An undivided piece of the page.
#[derive(Clone, Debug, Default)]
pub(crate) struct Brick {
    /// How much of the column it takes.
    pub(crate) height: Micrometres,
    pub(crate) texts: Vec<TextLine>,
    pub(crate) rules: Vec<Rule>,
    pub(crate) ovals: Vec<Oval>,
    pub(crate) write_ins: Vec<WriteInLine>,
    pub(crate) samples: Vec<SampleOval>,
    /// True where a column must not end after this brick.
    pub(crate) keeps_next: bool,
}

impl Brick {
    /// An empty space.
    pub(crate) fn space(height: Micrometres) -> Self {
        Self { height, ..Self::default() }
    }

    /// Puts everything on a page, the brick's top left corner at `at`.
    pub(crate) fn place(&self, at: Point, page: &mut Page) {
        page.texts.extend(
            self.texts
                .iter()
                .map(|text| TextLine { origin: text.origin.moved(at), run: text.run.clone() }),
        );
        page.rules.extend(self.rules.iter().map(|r| Rule { area: r.area.moved(at), ..*r }));
        page.ovals.extend(self.ovals.iter().map(|o| Oval { area: o.area.moved(at), ..*o }));
        let sample = |s: &SampleOval| SampleOval { area: s.area.moved(at), ..*s };
        page.samples.extend(self.samples.iter().map(sample));
        page.write_ins.extend(self.write_ins.iter().map(|line| WriteInLine {
            area: line.area.moved(at),
            cells: CellRow { origin: line.cells.origin.moved(at), ..line.cells },
            ..*line
        }));
    }
}
