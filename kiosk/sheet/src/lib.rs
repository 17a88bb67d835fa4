//! Where everything stands on the paper ballot: pages, lines of text, ovals, write-in lines, corner
//! figures and the code, in micrometres from the page's top left corner, y downwards.
//!
//! Invariant: no floats, no files, and nothing of a voter's. The same election, style and edition
//! give the same geometry. The printer and the reader share this geometry and nothing else.
//!
//! What it must not know: a sentence for a voter (they come in by [`Wording`]), a selection, PDF,
//! pictures. Start reading at [`compose`]; sizes are in `metrics.rs`.
#![no_std]
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

extern crate alloc;

mod brick;
mod code;
mod compose;
mod contest;
mod geometry;
mod instructions;
mod metrics;
mod plan;
mod setter;
mod wording;

pub use code::{CODE_SIDE, Payload, PayloadError};
pub use compose::{ComposeError, compose};
pub use evenhand_rules::BallotState;
pub use geometry::{
    Ballot, CellRow, Code, CornerFigure, Oval, Page, Point, Rect, Rule, SampleOval, Side, Stamp,
    TextLine, WriteInLine,
};
pub use setter::{Slot, leading_of, line_from, text_lines};
pub use wording::{
    Edition, InstructionStep, InstructionTexts, NextPage, PagePlace, StepPicture, Wording,
};
