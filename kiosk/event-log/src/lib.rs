//! The station's event log: a chain of lines, signed by the station at checkpoints, which anybody
//! can verify; its export as NIST SP 1500-101; and a page for observers.
//!
//! Invariant: it can't name a selection, a contest, a style or a voter. Entries are a closed enum
//! ([`Event`]) with coarse data and counts; the only text is a seal's number ([`Label`]).
//!
//! What it must not know: files, the clock, chance. Bytes and moments come in, bytes go out.
//!
//! # What its times and its order tell
//! While polls are open, and always for what happens in a visit, a time is a whole hour
//! ([`Stamp`]), rounded here. So times can't put voters in order. **The order of entries is left**:
//! a chain has one. Therefore nothing of one visit is in it but that it was started, finished or
//! stopped (and where the paper was then), that its ballot was printed or spoiled, that paper
//! jammed, and that a worker entered. Somebody who noted who came, and in what order, could learn
//! from the log that a certain person's visit was stopped, or a ballot spoiled, or that a worker
//! helped; no more, and nothing of how anybody voted. Where fewer than about 10 ballots are
//! expected from a station, others should be invited to use it too, so that its few ballots aren't
//! known by their being marked here.
//!
//! Start reading at [`Event`], then [`Log`] and [`verify`].
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

mod counts;
mod digest;
mod event;
mod export;
mod key;
mod label;
pub mod limits;
mod line;
mod log;
mod page;
mod replay;
mod sentence;
mod stamp;
mod verify;

pub use counts::Counts;
pub use digest::{Digest, DigestError};
pub use event::{
    Device, Disposition, Event, EventType, Kind, Outcome, Role, Severity, State, Step, StopCause,
    StopPlace, StopReason,
};
pub use export::{Maker, describe, export};
pub use key::{KeyError, PublicKey, StationKey, checkpoint_bytes};
pub use label::{Label, LabelError};
pub use log::{AppendError, Head, Log, RecoverError, Recovered};
pub use page::page;
pub use replay::{Doubt, Polls, VisitPaper};
pub use stamp::{Moment, Offset, Stamp};
pub use verify::{Content, Fault, Kept, Published, Report, Trust, verify};
