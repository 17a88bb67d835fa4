//! One voter's visit (the NIST glossary's voting session) as a state machine: input in, outputs
//! out, and the [`View`] of every screen.
//!
//! Invariant: no clock, file, thread, screen, paper or sentence is known here. The same inputs give
//! the same outputs, and nothing outlives the visit: the choices are wiped with the [`Visit`].
//! [`Visit::handle`] is total: it never fails and never panics.
//!
//! Start reading at [`Visit`], then [`View`].
#![no_std]
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

extern crate alloc;

mod at;
mod comfort;
mod message;
mod phrase;
mod ports;
mod proposal;
mod say;
mod scan;
mod screens;
mod time;
mod turn;
mod view;
mod visit;

pub use evenhand_rules::{BallotState, Waits};

pub use at::{ScreenKind, WorkerReason};
pub use comfort::{
    ACCEPT_STEPS, Comfort, IGNORE_DEFAULT, IGNORE_STEPS, LOUDNESS_DEFAULT, LOUDNESS_STEPS,
    LanguageIndex, PACE_DEFAULT, PACE_STEPS, Palette, Pressing, SCAN_DEFAULT, SCAN_STEPS, Switches,
    TypeSize,
};
pub use message::Message;
pub use phrase::{Arg, Phrase, TextRef};
pub use ports::{
    Begin, Command, Event, Input, Listen, Output, Part, PressShape, PrintFault, ReadFault,
    Utterance, WorkerSays,
};
pub use scan::{Block, ROWS_WITHOUT_BLOCKS_MAX};
pub use view::{Bar, Notice, Page, Row, RowKind, Ruler, Target, Tone, View};
pub use visit::Visit;
