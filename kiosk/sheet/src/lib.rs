//! Where everything stands on the paper ballot: pages, lines of text, ovals, write-in lines, corner
//! figures and the code, in micrometres from the page's top left corner, y downwards.
//!
//! Invariant: no floats, no files, and nothing of a voter's. The same election, style and edition
//! give the same geometry. The printer and the reader share this geometry and nothing else.
#![no_std]
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

extern crate alloc;

mod geometry;

pub use geometry::{
    Ballot, CellRow, Code, CornerFigure, Oval, Page, Point, Rect, Rule, Side, Stamp, TextLine,
    WriteInLine,
};
