//! Elections from bytes that others read: NIST SP 1500-20 Ballot Definition JSON (version 1.0.0),
//! the station's settings, the streets, recorded sound, the workers' codes, and the seal over an
//! election.
//!
//! Invariant: an [`Election`](evenhand_rules::Election) that comes out of [`load`] keeps every
//! limit in [`limits`] and every rule of SP 1500-20 that a voter or a sheet depends on: no
//! dangling reference, no empty text, no contest without options, no order that leaves one out.
//! Only [`seal::verify`] makes a [`seal::Verified`]; what isn't sealed opens as
//! [`Loaded::Unsealed`], which puts "demo" on every screen and sheet
//! ([`Loaded::ballot_state`]).
//!
//! What it must not know: files, folders, clocks, screens, selections, private keys.
//!
//! What it reads past, on purpose, and [`unshown`] lists: `Physical` (the sheet is composed, not
//! taken over), pro and con statements, slogans, pictures, a style's `Language`.
//! Offices and persons are for the office and are passed over as well.
//!
//! Start reading at [`load`], then `contest.rs` and `style.rs`; for seals at [`seal`].
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

mod book;
mod classes;
mod contest;
mod coverage;
mod digest;
mod error;
pub mod limits;
mod lines;
mod load;
mod object;
mod options;
mod recording;
pub mod seal;
mod settings;
mod sound;
mod streets;
mod style;
mod unshown;
mod words;
pub mod workers;

pub use classes::fields_of;
pub use coverage::Coverage;
pub use digest::Digest;
pub use error::{DefinitionError, Fault, Place};
pub use load::{Loaded, Opening, load};
pub use recording::{Measured, Recording, RecordingFault};
pub use settings::{SettingsError, StationSettings, settings};
pub use sound::{Entry, EntryFault, Maker, SoundList, SoundListError};
pub use streets::{StreetRow, StreetSide, Streets, StreetsError};
pub use unshown::unshown;
pub use workers::{Code, CodeError, Role, Tries, Worker, Workers, WorkersError};
