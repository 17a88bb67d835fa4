//! The station's ledger on real files: first use, reopening, power loss at every byte, disks that are
//! full or can't be written, folders that lack something, and the counts of a whole day.
#![expect(clippy::unwrap_used, clippy::print_stdout, reason = "tests may")]
#![expect(clippy::disallowed_methods, reason = "tests make files and run programs")]

mod cuts;
mod day;
mod disk;
mod first;
mod refused;

use std::collections::BTreeMap;
use std::fs;
use std::num::NonZeroU16;
use std::os::unix::fs::DirBuilderExt as _;
use std::path::{Path, PathBuf};

use evenhand_app::ledger::{Found, Ledger, LedgerError};
use evenhand_event_log::{
    Content, Digest, Event, Label, Moment, Offset, PublicKey, Published, Report, State, StopCause,
    StopPlace, StopReason, Trust, verify,
};

/// 2027-11-02, a morning.
const NOW: Moment = Moment(1_825_154_100);

/// A folder of one test's own, removed at the end; the station's folder lies in it.
struct Home(PathBuf);

impl Home {
    fn new(name: &str) -> Self {
        let path =
            std::env::temp_dir().join(format!("evenhand-ledger-{name}-{}", std::process::id()));
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    /// The station's folder.
    fn station(&self) -> PathBuf {
        self.0.join("station")
    }

    /// Opens it. A child that another test starts holds the folder's lock too, from its fork until
    /// it runs its own program; on a busy machine that is long enough to be met, so it is waited for.
    fn open(&self) -> Result<(Ledger, Found), LedgerError> {
        let (_sender, never) = std::sync::mpsc::channel::<()>();
        for _ in 0..100 {
            match open(&self.station()) {
                Err(LedgerError::InUse { .. }) => {}
                other => return other,
            }
            assert!(never.recv_timeout(std::time::Duration::from_millis(10)).is_err());
        }
        open(&self.station())
    }

    /// Opens it and asks for this error: its sentence has these words, and nothing in the folder
    /// was changed.
    fn check_refused(&self, words: &str) {
        let before = self.files();
        let error = self.open().map(|(_, found)| found).unwrap_err().to_string();
        assert!(error.contains(words), "{error}");
        assert_eq!(self.files(), before, "{error}");
    }

    /// Every file of the station's folder.
    fn files(&self) -> BTreeMap<String, Vec<u8>> {
        files(&self.station())
    }

    fn log(&self) -> Vec<u8> {
        fs::read(self.station().join("log.txt")).unwrap()
    }

    /// Puts these files into a new folder of the station.
    fn fill(&self, files: &BTreeMap<String, Vec<u8>>) {
        if self.station().exists() {
            fs::remove_dir_all(self.station()).unwrap();
        }
        fs::DirBuilder::new().mode(0o700).create(self.station()).unwrap();
        for (name, bytes) in files {
            let path = self.station().join(name);
            fs::write(&path, bytes).unwrap();
            set_mode(&path, 0o600);
        }
    }
}

impl Drop for Home {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    entries
        .map(|entry| {
            let name = entry.file_name().into_string().unwrap();
            (name, fs::read(entry.path()).unwrap())
        })
        .collect()
}

fn set_mode(path: &Path, mode: u32) {
    use std::os::unix::fs::PermissionsExt as _;
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
}

fn station() -> Label {
    "Q-07".parse().unwrap()
}

fn open(folder: &Path) -> Result<(Ledger, Found), LedgerError> {
    Ledger::open(folder, station(), Offset::UTC, NOW)
}

fn sheets(count: u16) -> NonZeroU16 {
    NonZeroU16::new(count).unwrap()
}

fn report(log: &[u8], key: PublicKey) -> Report {
    verify(log, Trust::Key(key), &Published::default())
}

/// Asks that verification finds nothing: neither a fault nor a doubt.
fn check_clean(log: &[u8], key: PublicKey) {
    let report = report(log, key);
    assert!(report.is_clean(), "{:#?}", report.finding_sentences());
    assert_eq!(report.station, Some(station()));
}

/// The ids of the log's events, in order.
fn ids(log: &[u8], key: PublicKey) -> Vec<&'static str> {
    let lines = report(log, key).lines;
    let id = |content: &Content| match content {
        Content::Event(event) => Some(event.kind().id),
        Content::Head | Content::Checkpoint => None,
    };
    lines.iter().filter_map(|line| id(&line.content)).collect()
}

fn stopped(place: StopPlace) -> Event {
    Event::VisitStopped { reason: StopReason { place, cause: StopCause::VoterLeft } }
}

/// A small day: an election, two visits, the second one of two sheets.
fn small_day(ledger: &mut Ledger) {
    ledger.accept_election(Digest::of(b"an election"), NOW).unwrap();
    ledger.open_polls(State::Official, NOW).unwrap();
    for count in [1, 2] {
        ledger.record(Event::VisitStarted, NOW).unwrap();
        ledger.record_printed(sheets(count), NOW).unwrap();
        ledger.record(Event::VisitFinished, NOW).unwrap();
    }
}
