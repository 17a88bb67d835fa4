//! What the station ran with at its last start: whoever changes the program or what the station was
//! taught finds it said in the log at the next start.
//!
//! Invariant: the entry is written before the file, so that a loss of power in between says it twice
//! and never not at all.

use evenhand_event_log::Digest;
use serde::{Deserialize, Serialize};

use super::error::LedgerError;
use super::folder::{BEFORE, StationFolder};

/// The longest file: two digests and their names.
const BYTES_MAX: usize = 1024;

/// What a station runs with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunsWith {
    /// The digest of the program's file.
    pub program: Digest,
    /// The digest of what a worker has taught the station, or of what holds where it was taught
    /// nothing.
    pub station_file: Digest,
}

impl RunsWith {
    /// What was written at the last start; nothing where it isn't there or can't be read: then what
    /// runs now isn't known to be the same.
    pub(super) fn read(folder: &StationFolder) -> Result<Option<Self>, LedgerError> {
        match folder.read(BEFORE, BYTES_MAX) {
            Ok(bytes) => Ok(bytes.and_then(|bytes| serde_json::from_slice(&bytes).ok())),
            Err(LedgerError::TooLarge { .. }) => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// Writes the file: whole or not at all.
    pub(super) fn write(self, folder: &StationFolder) -> Result<(), LedgerError> {
        let Self { program, station_file } = self;
        let text = format!("{{\"program\":\"{program}\",\"station_file\":\"{station_file}\"}}\n");
        folder.replace(BEFORE, text.as_bytes())
    }
}
