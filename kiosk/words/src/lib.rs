//! Fluent messages: turns the phrases of a `View` into what is read and what is heard, in a
//! language, and gives the sentences that stand on paper.
//!
//! Invariant: seen and heard come from one message (a `.heard` attribute where they differ), so
//! they can't drift apart. Every message has every argument that it names, or loading fails.

mod catalogue;
mod letters;
mod paper;
mod parts;
mod spoken;
mod words;
mod worker;

pub use catalogue::{Catalogue, CatalogueError, Sense};
pub use paper::PaperWords;
pub use spoken::SpokenTexts;
pub use words::{Heard, Words, WordsError};
pub use worker::WorkerWords;
