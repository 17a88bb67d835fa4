//! Printer and scanner: a test sheet with every oval filled, then a blank one, each printed, scanned
//! and read.
//!
//! Every place that a voter could mark is so seen once marked and once empty, by the same program
//! that prints and reads ballots. What is read comes from the scanner's pictures alone.

use evenhand_marks::Reader;
use evenhand_print::test_sheet;
use evenhand_rules::{OvalId, OvalReading, Permille, Reading, Style, Verdict};
use evenhand_scan::ScanError;
use evenhand_sheet::Ballot;
use evenhand_visit::{PrintFault, ReadFault};

use super::{Outcome, Why, count};
use crate::devices::paper::{PaperPath, fault, reader};

/// What was seen of a printer and a scanner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PaperCheck {
    /// How it ended.
    pub outcome: Outcome<PaperFigures>,
    /// How many sheets of paper the printer said it printed, to be accounted for.
    pub sheets: u32,
}

/// What was seen where all is as it should be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PaperFigures {
    /// How many ovals were filled and read as marked.
    pub marked: u32,
    /// How many ovals of the blank sheet were read as empty.
    pub empty: u32,
    /// How far the least sure of the marked ones was from being doubtful, in thousandths of ink.
    pub margin_marked: Permille,
    /// The same of the empty ones.
    pub margin_empty: Permille,
}

/// Prints and reads two documents: the style's sheets with every oval filled, and blank. `ballot` is
/// the style's, composed as a test (`prepared::sheet` with `BallotState::Test`): an official one is
/// refused, since what is printed must say that it is a test. Takes some seconds; nothing more is
/// printed after what fails.
pub fn paper(path: &mut dyn PaperPath, ballot: &Ballot, style: &Style) -> PaperCheck {
    match PaperTest::new(ballot, style) {
        Ok(test) => test.run(path),
        Err(why) => PaperCheck { outcome: Outcome::Failed(why), sheets: 0 },
    }
}

/// The check of [`paper`] made ready for a style, to be run as often as is wanted: what takes long is
/// learning the blank sheet.
#[derive(Debug)]
pub struct PaperTest {
    full: Vec<u8>,
    blank: Vec<u8>,
    sheets: u32,
    // Invariant: the style's, each once, and there are some.
    ovals: Vec<OvalId>,
    reader: Reader,
}

impl PaperTest {
    /// Makes both documents, and learns the blank sheet.
    ///
    /// # Errors
    /// [`Why::SheetNotMade`]: the ballot is official, or not this style's.
    /// [`Why::ReaderNotReady`]: a defect.
    pub fn new(ballot: &Ballot, style: &Style) -> Result<Self, Why> {
        let ovals = every_oval(ballot, style)?;
        let document = |ovals: &[OvalId]| test_sheet(ballot, ovals).map_err(|_| Why::SheetNotMade);
        let (full, blank) = (document(&ovals)?, document(&[])?);
        let reader = reader(ballot).map_err(|_| Why::ReaderNotReady)?;
        Ok(Self { full, blank, sheets: u32::from(ballot.sheet_count()), ovals, reader })
    }

    /// Prints and reads.
    pub fn run(&self, path: &mut dyn PaperPath) -> PaperCheck {
        let mut sheets = 0;
        let outcome = self.check(path, &mut sheets).into();
        PaperCheck { outcome, sheets }
    }

    fn check(&self, path: &mut dyn PaperPath, sheets: &mut u32) -> Result<PaperFigures, Why> {
        let of = count(self.ovals.len());
        let mut run = |document: &[u8]| {
            path.print(document).map_err(print_reason)?;
            *sheets += self.sheets;
            read(&self.reader, path)
        };
        let differ = |differ| Why::OvalsNotMarked { differ, of };
        let (marked, margin_marked) =
            judged(&run(&self.full)?, &self.ovals, Verdict::Marked, differ)?;
        let differ = |differ| Why::OvalsNotEmpty { differ, of };
        let (empty, margin_empty) =
            judged(&run(&self.blank)?, &self.ovals, Verdict::Empty, differ)?;
        Ok(PaperFigures { marked, empty, margin_marked, margin_empty })
    }
}

/// The style's ovals, which must be the sheet's: an option without an oval couldn't be marked.
fn every_oval(ballot: &Ballot, style: &Style) -> Result<Vec<OvalId>, Why> {
    let mut printed: Vec<OvalId> =
        ballot.pages.iter().flat_map(|page| &page.ovals).map(|oval| oval.id).collect();
    let mut wanted = style.ovals();
    printed.sort_unstable();
    wanted.sort_unstable();
    if printed == wanted && !wanted.is_empty() { Ok(wanted) } else { Err(Why::SheetNotMade) }
}

fn read(reader: &Reader, path: &mut dyn PaperPath) -> Result<Reading, Why> {
    let sides = path.scan().map_err(|error| scan_reason(&error))?;
    let pictures: Vec<_> = sides.into_iter().map(|side| side.picture).collect();
    let seen = reader.read(&pictures).map_err(|refused| read_reason(fault(&refused)))?;
    Ok(seen.reading)
}

/// How many ovals were read, all with this verdict, and the least margin.
fn judged(
    reading: &Reading,
    ovals: &[OvalId],
    wanted: Verdict,
    differ: impl FnOnce(u32) -> Why,
) -> Result<(u32, Permille), Why> {
    let seen: Vec<&OvalReading> =
        reading.contests.iter().flat_map(|contest| &contest.ovals).collect();
    let as_wanted = |id: &&OvalId| {
        let mut found = seen.iter().filter(|oval| oval.oval == **id);
        found.next().is_some_and(|oval| oval.verdict == wanted) && found.next().is_none()
    };
    let right = ovals.iter().filter(as_wanted).count();
    if right != ovals.len() {
        return Err(differ(count(ovals.len().saturating_sub(right))));
    }
    let inked = reading.write_ins.iter().filter(|line| line.inked).count();
    if inked > 0 {
        return Err(Why::LinesNotEmpty { differ: count(inked) });
    }
    let margin = seen.iter().map(|oval| oval.margin).min().unwrap_or_default();
    Ok((count(right), margin))
}

fn print_reason(fault: PrintFault) -> Why {
    match fault {
        PrintFault::OutOfPaper => Why::NoPaper,
        PrintFault::Jam => Why::PaperJam,
        PrintFault::Offline => Why::PrinterOffline,
        PrintFault::NotMade => Why::SheetNotMade,
    }
}

fn scan_reason(error: &ScanError) -> Why {
    match error {
        ScanError::NoSheets => Why::SheetMissing,
        ScanError::Device { .. } => Why::ScannerOffline,
        ScanError::TooManySides { .. }
        | ScanError::TooManyBytes { .. }
        | ScanError::TooManyPixels { .. }
        | ScanError::NotAPicture { .. }
        | ScanError::BrokenPicture { .. }
        | ScanError::Resolution { .. }
        | ScanError::NotADocument => Why::PictureUnusable,
    }
}

fn read_reason(fault: ReadFault) -> Why {
    match fault {
        ReadFault::NoSheet => Why::SheetMissing,
        ReadFault::Unreadable => Why::SheetUnreadable,
        ReadFault::OtherBallot => Why::OtherSheet,
        ReadFault::PrintDiffers => Why::PrintDiffers,
    }
}
