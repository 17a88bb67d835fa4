//! The station's typefaces, and text turned into lines of placed glyphs.
//!
//! Invariant: the only owner of fonts. Screen, sheet and printer take their faces from here, so a
//! name has the same shape on glass and on paper. All distances that leave this crate are integers.
//!
//! What it must not know: ballots, pages, files. Start reading at [`Shaper`].
#![no_std]
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

extern crate alloc;

mod face;
mod lines;
mod run;
mod shaper;

pub use face::{Face, Family, Weight, family_name, font_bytes, font_name};
pub use lines::line_breaks;
pub use run::{Glyph, Run};
pub use shaper::{MissingCharacter, Shaper};
