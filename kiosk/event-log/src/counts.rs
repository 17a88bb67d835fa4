//! The public counters, as they stand when polls open and close.

use serde::{Deserialize, Serialize};

/// What a station has counted since its counters were last set to zero; `lifetime_sheets` never is.
///
/// All are sums over many voters: none is noted at a visit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Counts {
    /// Sheets of ballots that the printer has given out. No entry counts sheets one by one: how many
    /// a ballot has would tell styles apart.
    pub sheets_printed: u32,
    /// Ballots of which all sheets were printed.
    pub ballots_printed: u32,
    /// Ballots given up for new ones.
    pub ballots_spoiled: u32,
    /// Sheets printed by tests.
    pub test_sheets: u32,
    /// Times that paper jammed.
    pub sheets_jammed: u32,
    /// Ballots that a stopped visit left in the tray or the reader.
    pub ballots_left: u32,
    /// Visits that began.
    pub visits_started: u32,
    /// Visits that ended with a ballot taken.
    pub visits_finished: u32,
    /// Visits that were stopped.
    pub visits_stopped: u32,
    /// Sheets of any kind that the printer has printed in its life.
    pub lifetime_sheets: u32,
}

impl Counts {
    /// Every count with its name as a person reads it, in the order of the form.
    pub fn named(&self) -> [(&'static str, u32); 10] {
        [
            ("sheets printed", self.sheets_printed),
            ("ballots printed", self.ballots_printed),
            ("ballots spoiled", self.ballots_spoiled),
            ("test sheets", self.test_sheets),
            ("paper jams", self.sheets_jammed),
            ("ballots left behind", self.ballots_left),
            ("visits started", self.visits_started),
            ("visits finished", self.visits_finished),
            ("visits stopped", self.visits_stopped),
            ("sheets in the printer's life", self.lifetime_sheets),
        ]
    }
}
