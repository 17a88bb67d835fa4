//! The counts of sheets. No entry of the log holds them, since how many sheets a ballot has would
//! tell styles apart; so they are a file of their own, of two sums.
//!
//! Invariant: `printed` is never more than `lifetime`, which never falls.

use std::num::NonZeroU16;

use serde::{Deserialize, Serialize};

use super::error::LedgerError;
use super::folder::{SHEETS, StationFolder};

/// The longest file: two numbers and their names.
const BYTES_MAX: usize = 1024;

/// Sheets that the printer has given out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sheets {
    /// Of ballots, since polls were opened.
    pub(super) printed: u32,
    /// Of any kind, in the printer's life.
    pub(super) lifetime: u32,
}

impl Sheets {
    /// Reads the file; nothing where there is none.
    pub(super) fn read(folder: &StationFolder) -> Result<Option<Self>, LedgerError> {
        let Some(bytes) = folder.read(SHEETS, BYTES_MAX)? else { return Ok(None) };
        let bad = |why: String| LedgerError::BadSheets { path: folder.at(SHEETS), why };
        let sheets: Self = serde_json::from_slice(&bytes).map_err(|why| bad(why.to_string()))?;
        if sheets.printed > sheets.lifetime {
            return Err(bad("more sheets since the opening than in the printer's life".to_owned()));
        }
        Ok(Some(sheets))
    }

    /// Writes the file: whole or not at all.
    pub(super) fn write(self, folder: &StationFolder) -> Result<(), LedgerError> {
        let text = format!("{{\"printed\":{},\"lifetime\":{}}}\n", self.printed, self.lifetime);
        folder.replace(SHEETS, text.as_bytes())
    }

    /// With the sheets of a ballot.
    pub(super) fn with_ballot(self, sheets: NonZeroU16) -> Self {
        let more = u32::from(sheets.get());
        Self {
            printed: self.printed.saturating_add(more),
            lifetime: self.lifetime.saturating_add(more),
        }
    }

    /// With one sheet that is no ballot's.
    pub(super) fn with_test_sheet(self) -> Self {
        Self { lifetime: self.lifetime.saturating_add(1), ..self }
    }

    /// As it is when polls open.
    pub(super) fn opened(self) -> Self {
        Self { printed: 0, ..self }
    }
}
