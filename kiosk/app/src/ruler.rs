//! How much fits on the glass, for the visit: the same computation that places what is drawn.

use evenhand_visit::{Ruler, TypeSize, View};

use crate::scene::Stage;

impl Ruler for Stage<'_> {
    fn rows_that_fit(&self, view: &View, first: u16) -> u16 {
        Stage::rows_that_fit(self, view, first)
    }

    fn size_most(&self) -> TypeSize {
        // Where not even the usual letters fit the window says so and opens nothing.
        self.screen.size_most().unwrap_or(TypeSize::Medium)
    }
}
