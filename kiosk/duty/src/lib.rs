//! A worker's screens as state machines: input in, outputs out, and the [`Sheet`] of every screen.
//! [`SetUp`] measures the screen with a card and learns two switches; [`day::Day`] is the day itself:
//! testing, opening, each voter, paper, suspending, closing.
//!
//! Invariant: no clock, file, thread, screen, sentence or election is known here, and nothing of a
//! voter's: this crate can't name a contest or a choice, and imports nothing that can. `handle` is
//! total: it never fails and never panics.
//!
//! Start reading at [`SetUp`], then [`Sheet`].
#![no_std]
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

extern crate alloc;

mod card;
pub mod day;
mod elections;
mod equipment;
mod message;
mod self_test;
mod set_up;
mod sheet;
mod station;

pub use card::{CARD_HEIGHT, CARD_WIDTH, Glass, SIDE_LONG_LEAST, SIDE_SHORT_LEAST};
pub use elections::{Election, Elections, Refusal, Sealed};
pub use equipment::{Device, Equipment, Named};
pub use message::Message;
pub use self_test::{Outcome, Step, Why};
pub use set_up::{Button, Command, Input, Learned, Output, SetUp};
pub use sheet::{Arg, Line, Place, Sheet, Tone};
pub use station::{Counts, Entry, Houses, Polls, Purpose, Role, Side, Standing, Station, Worker};
