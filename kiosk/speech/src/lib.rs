//! Finished text to the headphones.
//!
//! What it is: a [`Voice`] takes finished [`Segment`]s of text, speaks them in order, each in its
//! language's voice or from a recording, and tells by [`VoiceEvent`]s when the sound really ended or why there is none.
//!
//! Invariant: it sees strings, never selections, and no text leaves it except to the speech
//! service: debug output prints lengths only, and the logging of the crates below is compiled out
//! above the level `info` (the crate `tts` would else trace every sentence it speaks).
//!
//! Start reading at [`voice`] (the handle), then `conductor` (every decision, without I/O).
#![expect(
    clippy::disallowed_methods,
    reason = "the watchdog needs the clock and the service's address lies in the environment"
)]

mod conductor;
pub mod fault;
pub mod language;
mod leftover;
mod mouth;
mod player;
pub mod recorded;
pub mod segment;
mod sentence;
pub mod settings;
mod sink;
mod tone;
mod utterance;
pub mod voice;

pub use fault::{Fault, ToneOutcome};
pub use leftover::{silence, voices};
pub use recorded::{Recordings, Sound, Unreadable};
pub use segment::{Pause, Segment, Serial};
pub use settings::{Loudness, Pace};
pub use sink::{Output, outputs};
pub use tone::{Ear, EarOutcome, sound_at, sound_ear};
pub use voice::{Config, StartError, Voice, VoiceEvent, VoiceGone};
