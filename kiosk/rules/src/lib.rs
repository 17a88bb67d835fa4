//! Elections, styles, contests, options, `Selections` and `Reading`: what a ballot is and what may
//! be marked on it.
//!
//! Invariant: a selection that breaks its contest's rule can't be built. Every change to
//! [`Selections`] goes through [`Selections::choose`], [`Selections::rank`] and their undoing twins,
//! which refuse what the contest doesn't allow.
//!
//! What it must not know: files, clocks, screens, sentences. Texts are the election's own, by
//! language; nothing here is worded for a voter.
//!
//! Start reading at [`Style`] and [`Selections`].
#![no_std]
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

extern crate alloc;

mod election;
mod language;
mod reading;
mod selections;
mod units;
mod waits;

pub use election::{
    BallotState, Contest, ContestKind, ContestOption, Election, Header, Item, OptionKind,
    RefusedStyle, Rule, Style,
};
pub use language::{Language, Name, Text};
pub use reading::{
    ContestReading, Difference, Doubt, OvalReading, Reading, Verdict, WriteInReading,
};
pub use selections::{
    LowerRanks, Refusal, Selections, WRITE_IN_CHARACTERS, WRITE_IN_LEN_MAX, WriteInText,
};
pub use units::{ContestIndex, Micrometres, Millis, OptionIndex, OvalId, Permille, Rank};
pub use waits::Waits;
