//! The station's ledger: its own folder with its key, its event log and its counts, which outlives
//! every visit, election and loss of power.
//!
//! Invariant: what a call returned well from is on the disk; what a call failed with is not in the
//! log, or the error says that this isn't known. Nothing half-written is trusted: after a write that
//! failed the log is read anew from its file. It names no choice and no voter: the log's closed list
//! of events is all it takes.
//!
//! What it must not know: the clock (moments come in), screens, a visit's content.
//!
//! # What a loss of power leads to
//! - While an entry is written: the log's last line is unfinished, or zeros stand where its bytes
//!   should. It is kept as `cut-N.bin`, taken off, and an entry says how many bytes it had.
//! - Between the count of sheets and the entry of their ballot: the sheets are counted and the
//!   ballot isn't. They came out of the printer, so the count of sheets is right. The visit is then
//!   still going on by the log, and a worker says how it ended. At closing, sheets may be more than
//!   ballots, and verification takes that.
//! - Between setting the count of sheets to zero and the entry of the opening: polls are closed, and
//!   the count of sheets since the last opening is zero already.
//! - While a new log takes the old one's place: the next start ends what was begun.
//!
//! The times of these files tell when the last entry was written, to the second: whoever can look
//! into the folder while polls are open sees that. Nobody but the station's user can.
//!
//! Start reading at [`Ledger::open`] and [`Ledger::record`].

mod before;
mod error;
mod folder;
mod sheets;

use std::fs::File;
use std::io::Write as _;
use std::num::NonZeroU16;
use std::path::Path;

use evenhand_event_log::limits::FILE_BYTES_MAX;
use evenhand_event_log::{
    Counts, Device, Digest, Event, Head, Label, Log, Moment, Offset, Polls, PublicKey, State,
    StationKey, VisitPaper,
};

pub use before::RunsWith;
pub use error::LedgerError;

use folder::{LOG, SHEETS, StationFolder, first_bytes, last_digest};
use sheets::Sheets;

/// The devices that the log says are lost or back.
const PAPER_DEVICES: [Device; 2] = [Device::Printer, Device::Scanner];

/// The lines of a log that holds its head and its first entry only.
const LINES_AT_FIRST: u64 = 2;

/// The station's ledger, open for writing.
#[derive(Debug)]
pub struct Ledger {
    folder: StationFolder,
    station: Label,
    offset: Offset,
    /// None after a write that failed, until the file is read anew.
    writing: Option<Writing>,
    seen: Seen,
    sheets: Sheets,
}

/// How the station came to start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// For the first time: key and log were made.
    First,
    /// After it was shut down in order.
    AfterShutDown,
    /// After it had stopped without being shut down, or while it was.
    AfterPowerLoss,
    /// A technician began a new log.
    Anew,
}

/// What was found when the ledger was opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Found {
    /// How the station came to start.
    pub start: Start,
    /// How many bytes of an unfinished line were taken off the log and kept beside it.
    pub cut: usize,
    /// How the polls stand.
    pub polls: Polls,
    /// True where a visit was going on: a worker must say how it ended before another begins.
    pub is_visit: bool,
    /// What is known of that visit's ballots.
    pub paper: VisitPaper,
    /// True where fewer sheets were counted than ballots since the opening, which no loss of power
    /// explains: somebody put an older `sheets.json` there. Verification will doubt the closing.
    pub are_sheets_short: bool,
    /// How many codes the log says were refused since somebody of that role last logged in: of workers,
    /// leads, technicians.
    pub refused: [u32; 3],
}

#[derive(Debug)]
struct Writing {
    log: Log,
    file: File,
}

/// What the log on the disk says, kept for those who ask after a write that failed.
#[derive(Clone, Copy, Debug)]
struct Seen {
    polls: Polls,
    is_visit: bool,
    paper: VisitPaper,
    tally: Counts,
    digest: Digest,
    lines: u64,
    previous: Option<Digest>,
    election: Option<Digest>,
    has_closed: bool,
    refused: [u32; 3],
    /// Of [`PAPER_DEVICES`].
    lost: [bool; 2],
    key: PublicKey,
}

impl Ledger {
    /// Opens the station's folder: makes it, its key and its log at first use, takes its log up
    /// otherwise, and notes that the station started and, where it wasn't shut down, that it had lost
    /// power. `offset` is for logs that begin; one that is there keeps its own.
    ///
    /// # Errors
    /// [`LedgerError`]: nothing of the log's history was changed.
    pub fn open(
        folder: &Path,
        station: Label,
        offset: Offset,
        now: Moment,
    ) -> Result<(Self, Found), LedgerError> {
        let folder = StationFolder::open(folder)?;
        folder.finish(now)?;
        match (folder.key()?, folder.has(LOG)?) {
            (Some(key), true) => Self::go_on(folder, key, station, offset, now),
            (None, true) => Err(LedgerError::KeyLost { path: folder.at("station.key") }),
            (key, false) if folder.is_used()? => Err(match key {
                Some(_) => LedgerError::LogLost { path: folder.at(LOG) },
                None => LedgerError::KeyLost { path: folder.at("station.key") },
            }),
            (key, false) => {
                let key = key.map_or_else(|| folder.make_key(), Ok)?;
                let head = Head { station: station.clone(), offset, previous: None };
                folder.begin_log(&first_bytes(key, head, now)?)?;
                // Last: that it is there says that the station was used.
                Sheets::default().write(&folder)?;
                Self::begun(folder, station, offset, Start::First, now)
            }
        }
    }

    /// Why the station's log can't be taken up; none where it can. Nothing is written.
    ///
    /// # Errors
    /// [`LedgerError`] where there is no station's folder, or it can't be read.
    pub fn why_not(
        folder: &Path,
        station: &Label,
        now: Moment,
    ) -> Result<Option<LedgerError>, LedgerError> {
        let folder = StationFolder::of_station(folder)?;
        let key = folder.known_key()?;
        let path = folder.at(LOG);
        let bytes = match folder.read(LOG, FILE_BYTES_MAX) {
            Ok(Some(bytes)) => bytes,
            Ok(None) => return Ok(Some(LedgerError::LogLost { path })),
            Err(why @ LedgerError::Log { .. }) => return Ok(Some(why)),
            Err(why) => return Err(why),
        };
        let log = match Log::recover(key, &bytes, now) {
            Ok((log, _)) => log,
            Err(why) => return Ok(Some(LedgerError::Log { path, why })),
        };
        let there = log.head().station.clone();
        if there != *station {
            return Err(LedgerError::OtherStation { path, there, given: station.clone() });
        }
        let has_sheets = Sheets::read(&folder)?.is_some() || log.lines() <= LINES_AT_FIRST;
        Ok((!has_sheets).then(|| LedgerError::SheetsLost { path: folder.at(SHEETS) }))
    }

    /// Puts the log aside as it is, whatever is wrong with it or where it is gone, and begins a new
    /// one with the station's key. For a technician with the election office's word: if polls were
    /// open, the log that is put aside says so and the new one doesn't.
    ///
    /// # Errors
    /// [`LedgerError`].
    pub fn begin_anew(
        folder: &Path,
        station: Label,
        offset: Offset,
        now: Moment,
    ) -> Result<(Self, Found), LedgerError> {
        let folder = StationFolder::open(folder)?;
        folder.finish(now)?;
        let key = folder.known_key()?;
        // Of a log that is too long to be read the digest isn't known either.
        let previous = match folder.read(LOG, FILE_BYTES_MAX) {
            Ok(bytes) => bytes.as_deref().and_then(last_digest),
            Err(LedgerError::Log { .. }) => None,
            Err(why) => return Err(why),
        };
        let sheets = Sheets::read(&folder)?.unwrap_or_default();
        let head = Head { station: station.clone(), offset, previous };
        folder.begin_log(&first_bytes(key, head, now)?)?;
        sheets.opened().write(&folder)?;
        Self::begun(folder, station, offset, Start::Anew, now)
    }

    /// Notes what happened. Where this fails, see [`LedgerError`] for whether it is noted; the next
    /// call reads the log anew.
    ///
    /// # Errors
    /// [`LedgerError::StorageFull`] and others; [`LedgerError::OwnCall`] for events that bring
    /// counts with them or are noted by this type itself.
    pub fn record(&mut self, event: Event, now: Moment) -> Result<(), LedgerError> {
        if let Some(call) = own_call(&event) {
            return Err(LedgerError::OwnCall { id: event.kind().id, call });
        }
        if event == Event::TestSheetPrinted {
            return self.count_and_write(self.sheets.with_test_sheet(), event, now);
        }
        self.write(event, now)
    }

    /// Notes that all sheets of a ballot were printed, and counts them. The entry doesn't say how
    /// many they were.
    ///
    /// # Errors
    /// As [`Ledger::record`].
    pub fn record_printed(&mut self, sheets: NonZeroU16, now: Moment) -> Result<(), LedgerError> {
        self.count_and_write(self.sheets.with_ballot(sheets), Event::BallotPrinted, now)
    }

    /// Notes that stuck paper was accounted for, and counts the sheets that were taken out, as when
    /// paper jams after the first of two.
    ///
    /// # Errors
    /// As [`Ledger::record`].
    pub fn record_jam_cleared(&mut self, sheets: u16, now: Moment) -> Result<(), LedgerError> {
        match NonZeroU16::new(sheets) {
            Some(sheets) => {
                let counted = self.sheets.with_ballot(sheets);
                self.count_and_write(counted, Event::PaperAccounted, now)
            }
            None => self.write(Event::PaperAccounted, now),
        }
    }

    /// Notes what the station runs with, where that isn't what it ran with at its last start.
    ///
    /// # Errors
    /// As [`Ledger::record`].
    pub fn runs_with(
        &mut self,
        now_with: RunsWith,
        start: Start,
        now: Moment,
    ) -> Result<(), LedgerError> {
        let before = RunsWith::read(&self.folder)?;
        if before == Some(now_with) {
            return Ok(());
        }
        if start != Start::First {
            if before.is_none_or(|before| before.program != now_with.program) {
                self.write(Event::SoftwareChanged { digest: now_with.program }, now)?;
            }
            if before.is_none_or(|before| before.station_file != now_with.station_file) {
                self.write(Event::StationFileChanged, now)?;
            }
        }
        now_with.write(&self.folder)
    }

    /// Notes that the storage is full, in the room that was kept for that.
    ///
    /// # Errors
    /// As [`Ledger::record`]: where the room was taken too nothing is noted.
    pub fn note_full(&mut self, now: Moment) -> Result<(), LedgerError> {
        self.folder.free_reserve()?;
        self.write(Event::StorageFull, now)
    }

    /// Notes that the election with this digest was accepted. Where polls of another election have
    /// been closed in this log, a new log is begun for it first.
    ///
    /// # Errors
    /// [`LedgerError::PollsOpen`] where the polls of another one are open; else as
    /// [`Ledger::record`].
    pub fn accept_election(&mut self, digest: Digest, now: Moment) -> Result<(), LedgerError> {
        let is_another = self.seen.election != Some(digest);
        if is_another && self.seen.polls != Polls::Closed {
            return Err(LedgerError::PollsOpen);
        }
        if is_another && self.seen.has_closed {
            self.begin_log(now)?;
        }
        self.write(Event::ElectionAccepted { digest }, now)
    }

    /// Notes that polls were opened, with the counts at zero but for the printer's life.
    ///
    /// # Errors
    /// [`LedgerError::PollsOpen`], or as [`Ledger::record`].
    pub fn open_polls(&mut self, state: State, now: Moment) -> Result<(), LedgerError> {
        if self.seen.polls != Polls::Closed {
            return Err(LedgerError::PollsOpen);
        }
        if self.seen.is_visit {
            return Err(LedgerError::InVisit);
        }
        let sheets = self.sheets.opened();
        let counts = Counts { lifetime_sheets: sheets.lifetime, ..Counts::default() };
        self.count_and_write(sheets, Event::Opened { state, counts }, now)
    }

    /// Notes that polls were closed, with the counts as [`Ledger::counts`] has them, and gives them.
    ///
    /// # Errors
    /// [`LedgerError::PollsClosed`], [`LedgerError::InVisit`], or as [`Ledger::record`].
    pub fn close_polls(&mut self, now: Moment) -> Result<Counts, LedgerError> {
        if self.seen.polls == Polls::Closed {
            return Err(LedgerError::PollsClosed);
        }
        if self.seen.is_visit {
            return Err(LedgerError::InVisit);
        }
        let counts = self.counts();
        self.write(Event::Closed { counts }, now)?;
        Ok(counts)
    }

    /// Begins a new log that names this one's head digest, and puts this one aside as `log-N.txt`:
    /// for a log that is full. Accept the election again afterwards: each log is read alone.
    ///
    /// # Errors
    /// [`LedgerError::PollsOpen`], [`LedgerError::InVisit`], or as [`Ledger::record`].
    pub fn begin_log(&mut self, now: Moment) -> Result<(), LedgerError> {
        if self.seen.polls != Polls::Closed {
            return Err(LedgerError::PollsOpen);
        }
        if self.seen.is_visit {
            return Err(LedgerError::InVisit);
        }
        let previous = Some(self.take_up(now)?.log.head_digest());
        let head = Head { station: self.station.clone(), offset: self.offset, previous };
        let bytes = first_bytes(self.folder.known_key()?, head, now)?;
        // From here on what is open is the old log's file, also where this fails half-way.
        self.folder.begin_log(&bytes)?;
        let writing = self.take_up(now)?;
        self.writing = Some(writing);
        Ok(())
    }

    /// Notes that the station was shut down, and gives the head digest to be printed.
    ///
    /// # Errors
    /// As [`Ledger::record`]; the folder is then let go all the same.
    pub fn shut_down(mut self, now: Moment) -> Result<Digest, LedgerError> {
        self.write(Event::ShutDown, now)?;
        Ok(self.head_digest())
    }

    /// What was counted since polls were last opened; while they are closed, until they were. The
    /// entries of the log are counted, and the sheets that callers gave.
    pub fn counts(&self) -> Counts {
        Counts {
            sheets_printed: self.sheets.printed,
            lifetime_sheets: self.sheets.lifetime,
            ..self.seen.tally
        }
    }

    /// How the polls stand.
    pub fn polls(&self) -> Polls {
        self.seen.polls
    }

    /// True where the log says that the printer or the reader doesn't answer; of other devices nothing is
    /// known.
    pub fn is_lost(&self, device: Device) -> bool {
        PAPER_DEVICES.iter().zip(self.seen.lost).any(|(of, is_lost)| *of == device && is_lost)
    }

    /// True while a visit is going on.
    pub fn is_visit(&self) -> bool {
        self.seen.is_visit
    }

    /// The digest of the last line, which stands for all: printed when polls close.
    pub fn head_digest(&self) -> Digest {
        self.seen.digest
    }

    /// How many lines the log has, to be printed beside the head digest.
    pub fn lines(&self) -> u64 {
        self.seen.lines
    }

    /// The election that was accepted last in this log.
    pub fn election(&self) -> Option<Digest> {
        self.seen.election
    }

    /// The key that others verify the log with: published by the office, apart from the log.
    pub fn public_key(&self) -> PublicKey {
        self.seen.key
    }

    /// Takes up the log that is there.
    fn go_on(
        folder: StationFolder,
        key: StationKey,
        station: Label,
        offset: Offset,
        now: Moment,
    ) -> Result<(Self, Found), LedgerError> {
        let sheets = Sheets::read(&folder)?;
        // First: where there is no room for it nothing is written.
        folder.reserve()?;
        let (writing, cut) = taken_up(&folder, key, &station, now)?;
        let sheets = match sheets {
            Some(sheets) => sheets,
            // Power was lost at first use, before the counts were written.
            None if writing.log.lines() <= LINES_AT_FIRST => {
                Sheets::default().write(&folder)?;
                Sheets::default()
            }
            None => return Err(LedgerError::SheetsLost { path: folder.at(SHEETS) }),
        };
        let is_running = writing.log.is_running();
        // Power may have been lost again just after its loss was noted, or while it was shut down.
        let start = if writing.log.is_shut_down() && cut == 0 {
            Start::AfterShutDown
        } else {
            Start::AfterPowerLoss
        };
        let seen = Seen::of(&writing.log);
        let mut ledger = Self { folder, station, offset, writing: Some(writing), seen, sheets };
        if is_running {
            ledger.write(Event::PowerLost, now)?;
        }
        ledger.write(Event::StationStarted, now)?;
        let found = ledger.found(start, cut);
        Ok((ledger, found))
    }

    /// Takes up a log that was just begun.
    fn begun(
        folder: StationFolder,
        station: Label,
        offset: Offset,
        start: Start,
        now: Moment,
    ) -> Result<(Self, Found), LedgerError> {
        let sheets = Sheets::read(&folder)?.unwrap_or_default();
        let key = folder.known_key()?;
        let (writing, cut) = taken_up(&folder, key, &station, now)?;
        let seen = Seen::of(&writing.log);
        let ledger = Self { folder, station, offset, writing: Some(writing), seen, sheets };
        ledger.folder.reserve()?;
        let found = ledger.found(start, cut);
        Ok((ledger, found))
    }

    fn found(&self, start: Start, cut: usize) -> Found {
        Found {
            start,
            cut,
            polls: self.seen.polls,
            is_visit: self.seen.is_visit,
            paper: self.seen.paper,
            are_sheets_short: self.seen.polls != Polls::Closed
                && self.sheets.printed < self.seen.tally.ballots_printed,
            refused: self.seen.refused,
        }
    }

    /// Counts first, then writes the entry; where the entry isn't in the log, the count is as it
    /// was.
    fn count_and_write(
        &mut self,
        sheets: Sheets,
        event: Event,
        now: Moment,
    ) -> Result<(), LedgerError> {
        let before = self.sheets;
        self.count(sheets)?;
        let written = self.write(event, now);
        match &written {
            // Where it may be in the log the sheets stay: never fewer than the ballots.
            Ok(()) | Err(LedgerError::Unsure { .. }) => written,
            Err(_) => match self.count(before) {
                Ok(()) => written,
                Err(LedgerError::File { path, why }) => Err(LedgerError::Unsure { path, why }),
                Err(other) => Err(other),
            },
        }
    }

    fn count(&mut self, sheets: Sheets) -> Result<(), LedgerError> {
        sheets.write(&self.folder)?;
        self.sheets = sheets;
        Ok(())
    }

    /// Appends an entry and makes sure that it is on the disk.
    fn write(&mut self, event: Event, now: Moment) -> Result<(), LedgerError> {
        let mut writing = self.take_up(now)?;
        // Else verification asks why the time went back.
        let explains = matches!(event, Event::ClockLooksWrong | Event::ClockSet);
        if writing.log.is_behind(now) && !explains {
            self.writing = Some(writing);
            self.write(Event::ClockLooksWrong, now)?;
            writing = self.take_up(now)?;
        }
        let length = writing.log.bytes();
        let bytes = match writing.log.append(event, now) {
            Ok(bytes) => bytes,
            Err(why) => {
                self.writing = Some(writing);
                return Err(LedgerError::Refused(why));
            }
        };
        // On any error the log is dropped here, and read anew by the next call.
        append(&self.folder, &mut writing.file, length, &bytes)?;
        self.seen = Seen::of(&writing.log);
        self.writing = Some(writing);
        Ok(())
    }

    /// The log that is open, or read anew after a write that failed.
    fn take_up(&mut self, now: Moment) -> Result<Writing, LedgerError> {
        if let Some(writing) = self.writing.take() {
            return Ok(writing);
        }
        self.folder.finish(now)?;
        let key = self.folder.known_key()?;
        let (writing, _) = taken_up(&self.folder, key, &self.station, now)?;
        let previous = writing.log.head().previous;
        let is_whole = if previous == self.seen.previous {
            writing.log.lines() >= self.seen.lines
        } else {
            previous == Some(self.seen.digest)
        };
        if !is_whole {
            return Err(LedgerError::Shortened { path: self.folder.at(LOG) });
        }
        self.seen = Seen::of(&writing.log);
        Ok(writing)
    }
}

impl Seen {
    fn of(log: &Log) -> Self {
        Self {
            polls: log.polls(),
            is_visit: log.is_visit(),
            paper: log.visit_paper(),
            tally: log.tally(),
            digest: log.head_digest(),
            lines: log.lines(),
            previous: log.head().previous,
            election: log.election(),
            has_closed: log.has_closed(),
            refused: log.refused(),
            lost: PAPER_DEVICES.map(|device| log.is_lost(device)),
            key: log.public_key(),
        }
    }
}

/// Reads the log and recovers it: an unfinished line is kept in a file beside, and the log without
/// it, but with the entry that says so, takes the log's place as a whole. The number of bytes that
/// were taken off comes with it.
fn taken_up(
    folder: &StationFolder,
    key: StationKey,
    station: &Label,
    now: Moment,
) -> Result<(Writing, usize), LedgerError> {
    let path = folder.at(LOG);
    let bytes = folder.read(LOG, FILE_BYTES_MAX)?;
    let bytes = bytes.ok_or(LedgerError::LogLost { path: path.clone() })?;
    let (log, found) = Log::recover(key, &bytes, now)
        .map_err(|why| LedgerError::Log { path: path.clone(), why })?;
    if log.head().station != *station {
        let there = log.head().station.clone();
        return Err(LedgerError::OtherStation { path, there, given: station.clone() });
    }
    if found.cut > 0 {
        let (whole, cut) = bytes.split_at(found.kept);
        folder.keep_cut(cut)?;
        folder.replace(LOG, &[whole, &found.append].concat())?;
    }
    let mut file = folder.log()?;
    if found.cut == 0 && !found.append.is_empty() {
        append(folder, &mut file, found.kept, &found.append)?;
    }
    Ok((Writing { log, file }, found.cut))
}

/// Appends bytes to the log's file, which has `length` bytes, and syncs it. What can't be written
/// whole is taken back.
fn append(
    folder: &StationFolder,
    file: &mut File,
    length: usize,
    bytes: &[u8],
) -> Result<(), LedgerError> {
    let Err(why) = file.write_all(bytes).and_then(|()| file.sync_data()) else { return Ok(()) };
    match file.set_len(length as u64).and_then(|()| file.sync_data()) {
        Ok(()) => Err(folder.failed(LOG, why)),
        Err(why) => Err(LedgerError::Unsure { path: folder.at(LOG), why }),
    }
}

/// The call that notes this event, where `record` doesn't.
#[expect(clippy::wildcard_enum_match_arm, reason = "most events are noted by `record`")]
fn own_call(event: &Event) -> Option<&'static str> {
    match event {
        Event::StationStarted | Event::PowerLost | Event::LogRecovered { .. } => {
            Some("Ledger::open")
        }
        Event::ElectionAccepted { .. } => Some("Ledger::accept_election"),
        Event::Opened { .. } => Some("Ledger::open_polls"),
        Event::Closed { .. } => Some("Ledger::close_polls"),
        Event::BallotPrinted => Some("Ledger::record_printed"),
        Event::ShutDown => Some("Ledger::shut_down"),
        _ => None,
    }
}
