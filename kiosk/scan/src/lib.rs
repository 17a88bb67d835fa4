//! Where pictures of sheets come from: a scanner, pictures that were scanned elsewhere, or the bytes
//! that a demo printer received.
//!
//! Invariant: knows no ballot. It hands out grey pictures with their resolution, and opens no file:
//! bytes are given to it. Everything read is held to limits before memory is taken for it.
//!
//! Start reading at [`Scanner`].
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

mod pictures;
mod printed;
mod program;
mod scanner;

pub use pictures::{GivenPicture, GivenPictures};
pub use printed::PrintedBytes;
pub use program::{
    Ended, FoundScanner, LIST_BYTES_MAX, LIST_FORMAT, NoSuchScanner, SCANNERS_MAX, ScannerChoice,
    found_scanners, ways, without_empty_back,
};
pub use scanner::{
    BYTES_MAX, Dpi, PAGES_MAX, PIXELS_MAX, RESOLUTION_MAX, RESOLUTION_MIN, RESOLUTION_USUAL,
    ScanError, Scanner, SheetPicture,
};
