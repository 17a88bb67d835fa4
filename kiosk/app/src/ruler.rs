//! How much fits on the glass, for the visit: the same computation that places what is drawn.

use evenhand_visit::{Ruler, View};

use crate::scene::Stage;

impl Ruler for Stage<'_> {
    fn rows_that_fit(&self, view: &View, first: u16) -> u16 {
        Stage::rows_that_fit(self, view, first)
    }
}
