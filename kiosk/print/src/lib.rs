//! A sheet and its marks as PDF bytes.
//!
//! Invariant: a blank ballot and a marked one differ only inside ovals and on write-in lines, and
//! their files have the same length. Equal content gives equal bytes, in any process and however
//! many were printed before: no date, no counter, no random id.
//!
//! How: the blank ballot is drawn by printpdf and compressed as it likes. What is the voter's stands
//! in one further stream a page, which is never compressed and has a slot of fixed length for each
//! oval and each write-in line: an unmarked one holds spaces.
//!
//! Also a worker's reports ([`report()`]), on the same canvas and with the same faces.
//!
//! What it must not know: the visit, files, the reader of sheets. Start reading at [`pdf`].
#![deny(clippy::indexing_slicing)]

mod alphabet;
mod blank;
mod document;
mod fonts;
mod ink;
mod paper;
mod report;
mod units;

pub use alphabet::{Alphabet, AlphabetRow, alphabet_pdf};
pub use document::{PrintError, pdf, test_sheet};
pub use ink::{Marks, WrittenName};
pub use paper::{DocumentPaper, paper_of};
pub use report::{Report, report};
