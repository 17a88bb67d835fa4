//! Elections from bytes that others read: NIST SP 1500-20 Ballot Definition JSON (version 1.0.0),
//! the station's settings, recorded sound, and the workers' codes.
//!
//! Invariant: an [`Election`](evenhand_rules::Election) that comes out of [`load`] keeps every
//! limit in [`limits`] and every rule of SP 1500-20 that a voter or a sheet depends on: no
//! dangling reference, no empty text, no contest without options, no order that leaves one out.
//! `Verified` would have its private constructor here; nothing is sealed yet, so everything opens
//! as [`Loaded::Unsealed`], which puts "demo" on every screen and sheet.
//!
//! What it must not know: files, folders, clocks, screens, selections.
//!
//! What it reads past, on purpose, and [`unshown`] lists: `Physical` (the sheet is composed, not
//! taken over), pro and con statements, slogans, pictures, a style's `Language`.
//! Offices and persons are for the office and are passed over as well.
//!
//! Start reading at [`load`], then `contest.rs` and `style.rs`.
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

mod book;
mod classes;
mod contest;
mod coverage;
mod error;
pub mod limits;
mod lines;
mod load;
mod object;
mod options;
mod recording;
mod settings;
mod sound;
mod style;
mod unshown;
mod words;
pub mod workers;

pub use classes::fields_of;
pub use coverage::Coverage;
pub use error::{DefinitionError, Fault, Place};
pub use load::{Loaded, load};
pub use recording::{Measured, Recording, RecordingFault};
pub use settings::{SettingsError, StationSettings, settings};
pub use sound::{Entry, EntryFault, Maker, SoundList, SoundListError};
pub use unshown::unshown;
pub use workers::{Code, CodeError, Role, Tries, Worker, Workers, WorkersError};
