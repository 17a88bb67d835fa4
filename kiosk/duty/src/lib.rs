//! A worker's screens as a state machine: input in, outputs out, and the [`Sheet`] of every screen.
//! So far one task: [`SetUp`], in which a worker measures the screen with a card and teaches the
//! station its two switches.
//!
//! Invariant: no clock, file, thread, screen, sentence or election is known here, and nothing of a
//! voter: this crate can't name a contest, a choice or a visit. [`SetUp::handle`] is total: it never
//! fails and never panics.
//!
//! Start reading at [`SetUp`], then [`Sheet`].
#![no_std]
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

extern crate alloc;

mod card;
mod message;
mod set_up;
mod sheet;

pub use card::{CARD_HEIGHT, CARD_WIDTH, Glass, SIDE_LONG_LEAST, SIDE_SHORT_LEAST};
pub use message::Message;
pub use set_up::{Button, Command, Input, Learned, Output, SetUp};
pub use sheet::{Arg, Line, Place, Sheet, Tone};
