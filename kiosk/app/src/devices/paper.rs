//! The printer and the scanner of a visit, and the thread that works with them.
//!
//! The ballot goes to the printer from memory. What is read back comes from the scanner's pictures:
//! this thread forgets the choices as soon as the bytes are made.
#![expect(clippy::disallowed_methods, reason = "the demo's devices read what a drill plays")]

use std::fs::{self, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::PathBuf;
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use crossbeam_channel::{Receiver, Sender, unbounded};
use evenhand_marks::{
    Alphabet, AlphabetError, BallotReading, Dpi as ReaderDpi, Reader, ReaderError, Refused,
    SpecimenRow,
};
use evenhand_print::{Marks, PrintError, alphabet_pdf, pdf};
use evenhand_printers::Paper;
use evenhand_rules::{Selections, Style};
use evenhand_scan::{
    PrintedBytes, RESOLUTION_USUAL, ScanError, Scanner, ScannerChoice, SheetPicture,
};
use evenhand_sheet::Ballot;
use evenhand_visit::{PrintFault, ReadFault};
use image::GrayImage;
use thiserror::Error;
use zeroize::Zeroizing;

use super::scanner::ScanProgram;
use super::service::{self, ServicePrinter, fault_of, tell};
use super::{Report, Reports};

/// The way of a ballot through a station's devices: onto paper, and from paper to pictures.
pub trait PaperPath: Send {
    /// Prints a document of this many bytes on as many sheets as it has.
    ///
    /// # Errors
    /// [`PrintFault`]: nothing, or not all of it, came out.
    fn print(&mut self, document: &[u8]) -> Result<(), PrintFault>;

    /// Takes pictures of the sheets that were printed last.
    ///
    /// # Errors
    /// [`ScanError`]: there are no pictures.
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError>;
}

/// The demo's devices. Its printer is a folder, which stands for the tray that paper falls into:
/// what lies in it is the ballot on paper and nothing else. Its scanner rasterises the bytes that
/// the printer received.
///
/// For drills both fail as a file in the folder says: `printer.txt` with `out-of-paper`, `jam`,
/// `offline` or `slow` (the paper comes out, and nothing is told until the file is gone), and
/// `reader.txt` with `unplugged`.
#[derive(Debug)]
pub struct DemoPaperPath {
    tray: PathBuf,
    received: Zeroizing<Vec<u8>>,
}

impl DemoPaperPath {
    /// Devices whose paper falls into this folder.
    pub fn new(tray: PathBuf) -> Self {
        Self { tray, received: Zeroizing::new(Vec::new()) }
    }

    /// What the file of a drill says, where there is one.
    fn played(&self, name: &str) -> String {
        let mut text = String::new();
        let read = fs::File::open(self.tray.join(name))
            .and_then(|file| file.take(PLAYED_BYTES_MAX).read_to_string(&mut text));
        // Without such a file the device works, which is the usual case.
        read.map_or(String::new(), |_| text.trim().to_owned())
    }

    /// Lays a document into the tray under the next free number.
    fn lay(&self, document: &[u8]) -> io::Result<()> {
        fs::create_dir_all(&self.tray)?;
        for number in 1..=TRAY_MAX {
            let path = self.tray.join(format!("ballot-{number}.pdf"));
            match OpenOptions::new().write(true).create_new(true).open(path) {
                Ok(mut file) => {
                    file.write_all(document)?;
                    return file.sync_all();
                }
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(error),
            }
        }
        Err(io::Error::other("the tray is full"))
    }
}

/// The files of a drill.
const PRINTER_PLAYED: &str = "printer.txt";
const READER_PLAYED: &str = "reader.txt";
/// The longest such file.
const PLAYED_BYTES_MAX: u64 = 32;
/// How often a slow printer looks whether it may go on.
const LOOKS_AGAIN: Duration = Duration::from_millis(20);

/// The most documents in the demo's tray. Own choice.
const TRAY_MAX: u32 = 100_000;

impl PaperPath for DemoPaperPath {
    fn print(&mut self, document: &[u8]) -> Result<(), PrintFault> {
        self.received = Zeroizing::new(Vec::new());
        match self.played(PRINTER_PLAYED).as_str() {
            "out-of-paper" => return Err(PrintFault::OutOfPaper),
            "jam" => return Err(PrintFault::Jam),
            "offline" => return Err(PrintFault::Offline),
            _ => {}
        }
        // A folder that can't be written to is a printer that doesn't answer.
        self.lay(document).map_err(|_| PrintFault::Offline)?;
        self.received = Zeroizing::new(document.to_vec());
        while self.played(PRINTER_PLAYED) == "slow" {
            thread::sleep(LOOKS_AGAIN);
        }
        Ok(())
    }

    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        if self.played(READER_PLAYED) == "unplugged" {
            return Err(ScanError::NoSheets);
        }
        PrintedBytes::new(self.received.to_vec(), RESOLUTION_USUAL).scan()
    }
}

/// The devices that sheets go through, by what is kept of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PaperDevices {
    /// The demo's: a folder.
    Folder(PathBuf),
    /// A printer at the print service, and a scanner.
    Real {
        /// The printer.
        printer: ServicePrinter,
        /// The scanner.
        scanner: ScannerChoice,
        /// What speaks to it.
        program: ScanProgram,
    },
}

impl PaperDevices {
    /// After a visit, however it ended: nothing of it comes out of the printer later. The demo's
    /// printer keeps nothing.
    pub fn forget(&self) {
        if let Self::Real { printer, .. } = self
            && let Err(error) = printer.clear()
        {
            tell(&format!("a document may still lie with the print service: {error}"));
        }
    }

    /// The way through them.
    pub fn open(&self) -> Box<dyn PaperPath> {
        match self {
            Self::Folder(tray) => Box::new(DemoPaperPath::new(tray.clone())),
            Self::Real { printer, scanner, program } => Box::new(RealPaperPath {
                printer: printer.clone(),
                scanner: scanner.clone(),
                program: program.clone(),
                printed: None,
            }),
        }
    }
}

/// A real printer and a real scanner. What it remembers of a document is its paper.
#[derive(Debug)]
struct RealPaperPath {
    printer: ServicePrinter,
    scanner: ScannerChoice,
    program: ScanProgram,
    printed: Option<Paper>,
}

impl PaperPath for RealPaperPath {
    fn print(&mut self, document: &[u8]) -> Result<(), PrintFault> {
        self.printed = None;
        self.printer.print(document).map_err(|error| {
            tell(&error.to_string());
            fault_of(&error)
        })?;
        self.printed = service::paper(document);
        Ok(())
    }

    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        let paper = self.printed.ok_or(ScanError::NoSheets)?;
        self.program.scan(&self.scanner, paper).inspect_err(|error| tell(&error.to_string()))
    }
}

/// Why the reader of sheets couldn't be made ready: a defect of the sheet or of this program.
#[derive(Debug, Error)]
pub enum PaperError {
    /// The blank ballot or the alphabet can't be printed.
    #[error("the blank ballot can't be printed: {0}")]
    Print(#[from] PrintError),
    /// It can't be rasterised.
    #[error("the blank ballot can't be rasterised: {0}")]
    Scan(#[from] ScanError),
    /// The page with the alphabet has no picture.
    #[error("the alphabet has no picture")]
    NoAlphabet,
    /// The letters can't be learned.
    #[error("the letters of the write-in alphabet: {0}")]
    Alphabet(#[from] AlphabetError),
    /// The blank can't be learned.
    #[error("the blank ballot can't be learned: {0}")]
    Reader(#[from] ReaderError),
}

/// What the thread is asked for.
enum Job {
    Print(Selections),
    Read,
}

/// The thread's handle.
#[derive(Debug)]
pub struct PaperDesk {
    jobs: Sender<Job>,
}

impl PaperDesk {
    /// Starts the thread, which first learns the blank sheet: that takes some tenths of a second,
    /// and a job that comes earlier waits.
    ///
    /// # Errors
    /// The system refuses a thread.
    pub fn start(
        style: Arc<Style>,
        ballot: Arc<Ballot>,
        path: Box<dyn PaperPath>,
        reports: Reports,
    ) -> io::Result<Self> {
        let (jobs, asked) = unbounded();
        let thread = thread::Builder::new().name("paper".to_owned());
        thread.spawn(move || run(&Desk { style, ballot }, path, &asked, &reports))?;
        Ok(Self { jobs })
    }

    /// Prints a ballot with these selections; [`Report::Printed`] follows. False where the thread
    /// is gone.
    #[must_use]
    pub fn print(&self, selections: Selections) -> bool {
        self.jobs.send(Job::Print(selections)).is_ok()
    }

    /// Reads the sheets; [`Report::Read`] follows. False where the thread is gone.
    #[must_use]
    pub fn read(&self) -> bool {
        self.jobs.send(Job::Read).is_ok()
    }
}

struct Desk {
    style: Arc<Style>,
    ballot: Arc<Ballot>,
}

fn run(desk: &Desk, mut path: Box<dyn PaperPath>, asked: &Receiver<Job>, reports: &Reports) {
    let reader = match reader(&desk.ballot) {
        Ok(reader) => reader,
        Err(error) => {
            // The window ends the visit on this report; if it is gone, so is the visit.
            reports.unbounded_send(Report::PaperBroken(error)).unwrap_or_default();
            return;
        }
    };
    for job in asked {
        let report = match job {
            Job::Print(selections) => Report::Printed(desk.print(&selections, path.as_mut())),
            Job::Read => Report::Read(read(&reader, path.as_mut()).map(Box::new)),
        };
        if reports.unbounded_send(report).is_err() {
            return;
        }
    }
}

/// A reader that has learned this style's blank sheet and the printer's letters.
///
/// # Errors
/// [`PaperError`]: a defect of the sheet or of this program.
pub fn reader(ballot: &Ballot) -> Result<Reader, PaperError> {
    let blanks = pictures(pdf(ballot, None)?)?;
    Ok(Reader::new(ballot, &blanks, ReaderDpi(RESOLUTION_USUAL.0), alphabet()?)?)
}

impl Desk {
    fn print(&self, selections: &Selections, path: &mut dyn PaperPath) -> Result<(), PrintFault> {
        let marks = Marks::of(selections, &self.style);
        let document = pdf(&self.ballot, Some(&marks)).map_err(|_| PrintFault::NotMade)?;
        path.print(&Zeroizing::new(document))
    }
}

fn alphabet() -> Result<Alphabet, PaperError> {
    let alphabet = alphabet_pdf()?;
    let rows: Vec<SpecimenRow<'_>> = alphabet
        .rows
        .iter()
        .map(|row| SpecimenRow { cells: &row.cells, characters: &row.characters })
        .collect();
    let pictures = pictures(alphabet.pdf)?;
    let picture = pictures.first().ok_or(PaperError::NoAlphabet)?;
    Ok(Alphabet::from_picture(picture, ReaderDpi(RESOLUTION_USUAL.0), &rows)?)
}

fn pictures(document: Vec<u8>) -> Result<Vec<GrayImage>, ScanError> {
    let sides = PrintedBytes::new(document, RESOLUTION_USUAL).scan()?;
    Ok(sides.into_iter().map(|side| side.picture).collect())
}

fn read(reader: &Reader, path: &mut dyn PaperPath) -> Result<BallotReading, ReadFault> {
    let sides = path.scan().map_err(|error| {
        if matches!(error, ScanError::NoSheets) {
            ReadFault::NoSheet
        } else {
            ReadFault::Unreadable
        }
    })?;
    let pictures: Vec<GrayImage> = sides.into_iter().map(|side| side.picture).collect();
    reader.read(&pictures).map_err(|refused| fault(&refused))
}

/// What a refusal is to the voter.
pub fn fault(refused: &Refused) -> ReadFault {
    match refused {
        Refused::TooSmall { .. }
        | Refused::TooLarge { .. }
        | Refused::Faint
        | Refused::MostlyDark
        | Refused::CornersMissing { .. }
        | Refused::Turned { .. }
        | Refused::Mirrored
        | Refused::CodeUnreadable => ReadFault::Unreadable,
        Refused::OtherElection
        | Refused::OtherStyle
        | Refused::OtherLength
        | Refused::NoSuchSide { .. } => ReadFault::OtherBallot,
        Refused::PrintDiffers { .. } => ReadFault::PrintDiffers,
        Refused::SideTwice { .. } | Refused::SideMissing { .. } => ReadFault::NoSheet,
    }
}
