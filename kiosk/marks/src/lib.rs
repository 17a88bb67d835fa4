//! A picture of a sheet to what stands on it: which ovals are filled and how sure that is, what is
//! written on the write-in lines, and whether the rest of the print is the blank sheet's.
//!
//! Invariant: the reading comes from the paper alone. Only the sheet's geometry, pictures of the blank
//! sheet and the look of the printer's letters are known here; no selection ever comes in.
//!
//! What it must not know: the printer, the visit, files. Floats are fine here; they never leave.
//!
//! Start reading at [`Reader`]: a picture is made smaller (`plane`), the sheet found by its corner
//! figures (`corners`, `mapping`), its code read (`code`), its print compared with the blank's
//! (`grid`, `compare`), then ovals (`ovals`) and write-ins (`writing`, `alphabet`) are read.
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

mod alphabet;
mod blobs;
mod code;
mod compare;
mod corners;
mod grid;
mod levels;
mod mapping;
mod ovals;
mod plane;
mod reader;
mod refused;
mod writing;

pub use alphabet::{Alphabet, AlphabetError, SpecimenRow};
pub use ovals::{EMPTY_MAX, MARKED_MIN};
pub use reader::{BallotReading, Dpi, Fit, PIXELS_MAX, PageReading, Reader, WriteInSeen};
pub use refused::{ReaderError, Refused};
pub use writing::{LEAD_MIN, LIKENESS_MIN};
