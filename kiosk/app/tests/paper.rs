//! The printer's and the scanner's thread: what is printed is what is read, an altered print is read
//! as altered, and each device's fault is told as what it is.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test may panic")]
#![expect(clippy::disallowed_methods, reason = "a test looks into the demo's tray")]

use std::path::Path;
use std::sync::Arc;

use evenhand_app::devices::paper::{DemoPaperPath, PaperDesk, PaperPath};
use evenhand_app::devices::{Report, channel};
use evenhand_app::prepared::Prepared;
use evenhand_marks::BallotReading;
use evenhand_print::{Marks, pdf};
use evenhand_rules::{ContestIndex, OptionIndex, Selections};
use evenhand_scan::{PrintedBytes, RESOLUTION_USUAL, ScanError, Scanner as _, SheetPicture};
use evenhand_sheet::Ballot;
use evenhand_visit::{PrintFault, ReadFault};
use iced::futures::StreamExt as _;
use iced::futures::executor::block_on;

fn prepared() -> Prepared {
    let folder = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../ballot-definitions/quillbrook-county-general-2027"
    );
    Prepared::load(Path::new(folder), None, None).unwrap()
}

/// Runs a print, then a read, and gives both reports.
fn print_and_read(
    prepared: &Prepared,
    path: impl PaperPath + 'static,
    selections: Selections,
) -> (Result<(), PrintFault>, Result<BallotReading, ReadFault>) {
    let (reports, inbox) = channel();
    let (style, ballot) = (Arc::clone(&prepared.style), Arc::clone(&prepared.ballot));
    let desk = PaperDesk::start(style, ballot, Box::new(path), reports).unwrap();
    assert!(desk.print(selections) && desk.read());
    let mut received = inbox.stream();
    let printed = match block_on(received.next()) {
        Some(Report::Printed(printed)) => printed,
        other => panic!("{other:?}"),
    };
    match block_on(received.next()) {
        Some(Report::Read(read)) => (printed, read.map(|read| *read)),
        other => panic!("{other:?}"),
    }
}

/// One choice in the first contest, which is a straight-party one, and in the third.
fn selections(prepared: &Prepared) -> Selections {
    let mut selections = Selections::none(&prepared.style);
    for (contest, option) in [(0, 1), (2, 0)] {
        let (contest, option) = (ContestIndex(contest), OptionIndex(option));
        selections.choose(&prepared.style, contest, option).unwrap();
    }
    selections
}

fn tray(name: &str) -> std::path::PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    if folder.exists() {
        std::fs::remove_dir_all(&folder).unwrap();
    }
    folder
}

#[test]
fn what_is_printed_is_what_is_read() {
    let prepared = prepared();
    let chosen = selections(&prepared);
    let tray = tray("right");
    let path = DemoPaperPath::new(tray.clone());
    let (printed, read) = print_and_read(&prepared, path, chosen.clone());
    assert_eq!(printed, Ok(()));
    let read = read.unwrap();
    assert!(read.reading.differences(&prepared.style, &chosen).is_empty());
    // The tray holds the sheet, and nothing else.
    let files: Vec<_> =
        std::fs::read_dir(&tray).unwrap().map(|file| file.unwrap().path()).collect();
    assert_eq!(files, [tray.join("ballot-1.pdf")]);
    let marks = Marks::of(&chosen, &prepared.style);
    let expected = pdf(&prepared.ballot, Some(&marks)).unwrap();
    assert_eq!(std::fs::read(&files[0]).unwrap(), expected);
}

/// A printer that prints other marks than it was sent.
struct AlteringPath {
    ballot: Arc<Ballot>,
    marks: Marks,
    received: Vec<u8>,
}

impl PaperPath for AlteringPath {
    fn print(&mut self, _: &[u8]) -> Result<(), PrintFault> {
        self.received = pdf(&self.ballot, Some(&self.marks)).unwrap();
        Ok(())
    }
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        PrintedBytes::new(self.received.clone(), RESOLUTION_USUAL).scan()
    }
}

#[test]
fn an_altered_print_is_read_as_it_is() {
    let prepared = prepared();
    let chosen = selections(&prepared);
    let mut other = Selections::none(&prepared.style);
    let (contest, option) = (ContestIndex(0), OptionIndex(2));
    other.choose(&prepared.style, contest, option).unwrap();
    let marks = Marks::of(&other, &prepared.style);
    let ballot = Arc::clone(&prepared.ballot);
    let path = AlteringPath { ballot, marks, received: Vec::new() };
    let (_, read) = print_and_read(&prepared, path, chosen.clone());
    let reading = read.unwrap().reading;
    assert!(reading.differences(&prepared.style, &other).is_empty());
    assert!(!reading.differences(&prepared.style, &chosen).is_empty());
}

/// Devices that fail.
struct BrokenPath(PrintFault);

impl PaperPath for BrokenPath {
    fn print(&mut self, _: &[u8]) -> Result<(), PrintFault> {
        Err(self.0)
    }
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        Err(ScanError::NoSheets)
    }
}

#[test]
fn a_fault_is_told_as_what_it_is() {
    let prepared = prepared();
    for fault in [PrintFault::OutOfPaper, PrintFault::Jam] {
        let path = BrokenPath(fault);
        let (printed, read) = print_and_read(&prepared, path, selections(&prepared));
        assert_eq!(printed, Err(fault));
        assert_eq!(read.err(), Some(ReadFault::NoSheet));
    }
}

#[test]
fn a_tray_that_cannot_be_written_is_a_printer_that_does_not_answer() {
    let prepared = prepared();
    let blocked = tray("blocked");
    std::fs::write(&blocked, "a file where the folder should be").unwrap();
    let path = DemoPaperPath::new(blocked.clone());
    let (printed, read) = print_and_read(&prepared, path, selections(&prepared));
    std::fs::remove_file(blocked).unwrap();
    assert_eq!(printed, Err(PrintFault::Offline));
    assert_eq!(read.err(), Some(ReadFault::NoSheet));
}
