//! The self-test's checks on the demo's devices and on devices that fail in each way.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test may panic")]
#![expect(
    clippy::disallowed_methods,
    reason = "a test looks into folders and asks df and pdftotext"
)]
#![expect(clippy::print_stdout, reason = "a skipped test says so, and figures are shown")]

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use evenhand_app::devices::paper::{DemoPaperPath, PaperPath, reader};
use evenhand_app::prepared::sheet;
use evenhand_app::recorded::Recorded;
use evenhand_app::self_test::clock::{BUILT, ClockFigures, clock};
use evenhand_app::self_test::paper::{PaperCheck, PaperTest, paper};
use evenhand_app::self_test::storage::{FILE, ROOM_LEAST_MIB, StorageFigures, storage};
use evenhand_app::self_test::voices::{Heard, outcomes, voices};
use evenhand_app::self_test::{Outcome, Why};
use evenhand_definitions::{StationSettings, load, settings};
use evenhand_marks::{EMPTY_MAX, MARKED_MIN};
use evenhand_print::{Marks, WrittenName, pdf, test_sheet};
use evenhand_rules::{BallotState, Election, Language, Micrometres, OvalId, WriteInText};
use evenhand_scan::{PrintedBytes, RESOLUTION_USUAL, ScanError, Scanner as _, SheetPicture};
use evenhand_sheet::{Ballot, Rect};
use evenhand_speech::Fault;
use evenhand_visit::PrintFault;

/// The demo's election.
struct Demo {
    election: Election,
    settings: StationSettings,
}

impl Demo {
    fn folder() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../ballot-definitions/quillbrook-county-general-2027")
    }

    fn load() -> Self {
        let read = |name: &str| std::fs::read(Self::folder().join(name)).unwrap();
        let election = load(&read("definition.json")).unwrap().into_election();
        Self { election, settings: settings(&read("settings.json")).unwrap() }
    }

    fn ballot(&self, style: usize, state: BallotState) -> Ballot {
        let index = u16::try_from(style).unwrap();
        sheet(&self.election, &self.election.styles[style], index, &self.settings, state).unwrap()
    }

    /// Checks the paper path with the first style's test sheet, which is learned once.
    fn check(&self, path: &mut dyn PaperPath) -> PaperCheck {
        static FIRST: OnceLock<PaperTest> = OnceLock::new();
        let learn = || {
            PaperTest::new(&self.ballot(0, BallotState::Test), &self.election.styles[0]).unwrap()
        };
        FIRST.get_or_init(learn).run(path)
    }

    /// How many ovals the first style has.
    fn ovals(&self) -> u32 {
        u32::try_from(self.election.styles[0].ovals().len()).unwrap()
    }
}

/// An empty place for the tests' files.
fn place(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("self-test-{name}"));
    if folder.exists() {
        std::fs::remove_dir_all(&folder).unwrap();
    }
    folder
}

#[test]
fn every_style_passes_on_the_demos_devices() {
    let demo = Demo::load();
    for (index, style) in demo.election.styles.iter().enumerate() {
        let tray = place(&format!("tray-{index}"));
        let ballot = demo.ballot(index, BallotState::Test);
        let check = paper(&mut DemoPaperPath::new(tray.clone()), &ballot, style);
        let Outcome::Passed(figures) = check.outcome else { panic!("{}: {check:?}", style.code) };
        println!("style {}: {} sheets, {figures:?}", style.code, check.sheets);
        let ovals = u32::try_from(style.ovals().len()).unwrap();
        assert_eq!((figures.marked, figures.empty), (ovals, ovals));
        assert_eq!(check.sheets, 2 * u32::from(ballot.sheet_count()));
        // As sure as a printer's fills are said to be (`kiosk/marks/src/ovals.rs`): over 950 of
        // 1000 ink, and under 20 where there is none.
        assert!(figures.margin_marked.0 > 950 - MARKED_MIN.0, "{figures:?}");
        assert!(figures.margin_empty.0 > EMPTY_MAX.0 - 20, "{figures:?}");
        for name in ["ballot-1.pdf", "ballot-2.pdf"] {
            assert_ne!(says_test(&tray.join(name)), Some(false), "{name}");
        }
        assert!(!tray.join("ballot-3.pdf").exists(), "nothing else is printed");
    }
}

/// Whether every page says that it is a test, in poppler's words; none where poppler isn't there.
fn says_test(document: &Path) -> Option<bool> {
    let output = Command::new("pdftotext").args([document, Path::new("-")]).output();
    let Ok(output) = output else {
        println!("skipped: that the sheet says that it is a test needs pdftotext");
        return None;
    };
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).unwrap();
    let pages: Vec<&str> = text.trim_end_matches('\u{c}').split('\u{c}').collect();
    Some(pages.iter().all(|page| page.to_lowercase().contains("test ballot")))
}

/// A printer with a fault of its own.
struct FaultyPrinter(PrintFault);

impl PaperPath for FaultyPrinter {
    fn print(&mut self, _: &[u8]) -> Result<(), PrintFault> {
        Err(self.0)
    }
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        panic!("what wasn't printed isn't scanned")
    }
}

#[test]
fn a_printers_fault_is_told_and_no_sheet_is_counted() {
    let demo = Demo::load();
    for (fault, why) in [
        (PrintFault::OutOfPaper, Why::NoPaper),
        (PrintFault::Jam, Why::PaperJam),
        (PrintFault::Offline, Why::PrinterOffline),
        (PrintFault::NotMade, Why::SheetNotMade),
    ] {
        let check = demo.check(&mut FaultyPrinter(fault));
        assert_eq!(check, PaperCheck { outcome: Outcome::Failed(why), sheets: 0 });
    }
}

/// Devices that print well; what is scanned is up to the test, which is given what was printed and
/// how many documents there were.
struct Scanned<F>(Vec<u8>, u32, F);

impl<F> PaperPath for Scanned<F>
where
    F: FnMut(&[u8], u32) -> Result<Vec<SheetPicture>, ScanError> + Send,
{
    fn print(&mut self, document: &[u8]) -> Result<(), PrintFault> {
        self.0 = document.to_vec();
        self.1 += 1;
        Ok(())
    }
    fn scan(&mut self) -> Result<Vec<SheetPicture>, ScanError> {
        (self.2)(&self.0, self.1)
    }
}

fn scanned<F>(scan: F) -> Scanned<F>
where
    F: FnMut(&[u8], u32) -> Result<Vec<SheetPicture>, ScanError> + Send,
{
    Scanned(Vec::new(), 0, scan)
}

fn pictures(document: &[u8]) -> Result<Vec<SheetPicture>, ScanError> {
    PrintedBytes::new(document.to_vec(), RESOLUTION_USUAL).scan()
}

#[test]
fn a_scanners_fault_is_told() {
    let demo = Demo::load();
    for (error, why) in [
        (ScanError::Device { detail: "no such device".to_owned() }, Why::ScannerOffline),
        (ScanError::NoSheets, Why::SheetMissing),
        (ScanError::NotAPicture { side: 1 }, Why::PictureUnusable),
    ] {
        let check = demo.check(&mut scanned(|_, _| Err(error.clone())));
        assert_eq!(check.outcome, Outcome::Failed(why));
        assert_eq!(check.sheets, u32::from(demo.ballot(0, BallotState::Test).sheet_count()));
    }
}

/// What the check says where this is scanned in place of the first sheet.
fn instead(demo: &Demo, other: &[u8]) -> Outcome<()> {
    let check = demo.check(&mut scanned(|_, _| pictures(other)));
    let Outcome::Failed(why) = check.outcome else { panic!("{check:?}") };
    Outcome::Failed(why)
}

#[test]
fn a_blank_sheet_and_a_missing_oval_are_counted() {
    let demo = Demo::load();
    let ballot = demo.ballot(0, BallotState::Test);
    let of = demo.ovals();
    let blank = pdf(&ballot, None).unwrap();
    let differ = |differ| Outcome::Failed(Why::OvalsNotMarked { differ, of });
    assert_eq!(instead(&demo, &blank), differ(of));
    let mut ovals = demo.election.styles[0].ovals();
    let last = ovals.len() - 1;
    for gone in [0, last / 2, last - 2] {
        ovals.remove(gone);
    }
    let marks = Marks { ovals: ovals.clone(), names: Vec::new() };
    assert_eq!(instead(&demo, &pdf(&ballot, Some(&marks)).unwrap()), differ(3));
    let mut all = demo.election.styles[0].ovals();
    all.pop();
    let marks = Marks { ovals: all, names: Vec::new() };
    assert_eq!(instead(&demo, &pdf(&ballot, Some(&marks)).unwrap()), differ(1));
}

#[test]
fn a_doubtful_oval_is_one_that_is_not_marked() {
    let demo = Demo::load();
    let ballot = demo.ballot(0, BallotState::Test);
    let oval = ballot.pages[0].ovals[0];
    // White over all but the right sixth of the oval's inside: more ink than an empty one may
    // have, less than a marked one must.
    let inside = oval.area.grown(oval.stroke.times(-1));
    let white = Rect { width: Micrometres(inside.width.0 * 5 / 6), ..inside };
    let faded = |document: &[u8]| {
        let mut sides = pictures(document)?;
        let dots = |distance: Micrometres| u32::try_from(distance.0 * 200 / 25_400).unwrap();
        for y in dots(white.y)..dots(white.bottom()) {
            for x in dots(white.x)..dots(white.right()) {
                sides[0].picture.get_pixel_mut(x, y).0 = [255];
            }
        }
        Ok(sides)
    };
    let all = demo.election.styles[0].ovals();
    let sides: Result<Vec<SheetPicture>, ScanError> = faded(&test_sheet(&ballot, &all).unwrap());
    let sides: Vec<_> = sides.unwrap().into_iter().map(|side| side.picture).collect();
    let seen = reader(&ballot).unwrap().read(&sides).unwrap().reading;
    assert_eq!((seen.doubts().count(), seen.marked().count()), (1, all.len() - 1));
    let why = Why::OvalsNotMarked { differ: 1, of: demo.ovals() };
    let mut path = scanned(|document, _| faded(document));
    assert_eq!(demo.check(&mut path).outcome, Outcome::Failed(why));
}

#[test]
fn another_sheet_is_refused() {
    let demo = Demo::load();
    let other = pdf(&demo.ballot(1, BallotState::Test), None).unwrap();
    assert_eq!(instead(&demo, &other), Outcome::Failed(Why::OtherSheet));
    let official = pdf(&demo.ballot(0, BallotState::Official), None).unwrap();
    assert_eq!(instead(&demo, &official), Outcome::Failed(Why::PrintDiffers));
    let white = pictures(&pdf(&demo.ballot(0, BallotState::Test), None).unwrap()).unwrap();
    let mut path = scanned(|_, _| {
        let mut sides = white.clone();
        for side in &mut sides {
            side.picture.fill(255);
        }
        Ok(sides)
    });
    assert_eq!(demo.check(&mut path).outcome, Outcome::Failed(Why::SheetUnreadable));
    let mut path = scanned(|document, _| {
        let mut sides = pictures(document)?;
        sides.pop();
        Ok(sides)
    });
    assert_eq!(demo.check(&mut path).outcome, Outcome::Failed(Why::SheetMissing));
}

#[test]
fn what_stays_from_the_first_sheet_fails_the_blank_one() {
    let demo = Demo::load();
    let ballot = demo.ballot(0, BallotState::Test);
    let of = demo.ovals();
    let marked = |ovals: Vec<OvalId>, names| pdf(&ballot, Some(&Marks { ovals, names })).unwrap();
    let all = demo.election.styles[0].ovals();
    let line = ballot.pages.iter().flat_map(|page| &page.write_ins).next().unwrap();
    let mut name = WriteInText::new();
    name.push('X').unwrap();
    let name = WrittenName { contest: line.contest, option: line.option, name };
    for (second, why) in [
        (marked(all.clone(), vec![]), Why::OvalsNotEmpty { differ: of, of }),
        (marked(vec![all[2]], vec![]), Why::OvalsNotEmpty { differ: 1, of }),
        (marked(vec![], vec![name]), Why::LinesNotEmpty { differ: 1 }),
    ] {
        let mut path = scanned(
            |document, number| {
                if number == 1 { pictures(document) } else { pictures(&second) }
            },
        );
        let check = demo.check(&mut path);
        assert_eq!(check.outcome, Outcome::Failed(why));
        assert_eq!(check.sheets, 2 * u32::from(ballot.sheet_count()));
    }
}

#[test]
fn what_is_no_test_sheet_of_the_style_is_never_printed() {
    let demo = Demo::load();
    let nothing = PaperCheck { outcome: Outcome::Failed(Why::SheetNotMade), sheets: 0 };
    let mut path = scanned(|_, _| panic!("nothing was to be printed"));
    let official = demo.ballot(0, BallotState::Official);
    assert_eq!(paper(&mut path, &official, &demo.election.styles[0]), nothing);
    // An option that has no oval on the sheet couldn't be marked.
    let mut lacking = demo.ballot(0, BallotState::Test);
    lacking.pages[0].ovals.pop();
    assert_eq!(paper(&mut path, &lacking, &demo.election.styles[0]), nothing);
    assert_eq!(path.1, 0);
}

/// MiB that a user may still write, as GNU df says it.
fn df(folder: &Path) -> u32 {
    let output =
        Command::new("df").args(["--output=avail", "-B1"]).arg(folder).output().unwrap().stdout;
    let text = String::from_utf8(output).unwrap();
    let bytes: u64 = text.lines().nth(1).unwrap().trim().parse().unwrap();
    u32::try_from(bytes / (1024 * 1024)).unwrap()
}

#[test]
fn storage_is_written_read_back_and_left_as_it_was() {
    let folder = place("storage");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join("kept"), "kept").unwrap();
    // What an earlier test left when the power failed.
    std::fs::write(folder.join(FILE), "half").unwrap();
    let Outcome::Passed(StorageFigures { free_mib }) = storage(&folder, 1) else {
        panic!("{:?}", storage(&folder, 1))
    };
    // Others build on the same disk meanwhile: within 1 GiB.
    assert!(free_mib.abs_diff(df(&folder)) < 1024, "{free_mib} and {}", df(&folder));
    let files: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|f| f.unwrap().path()).collect();
    assert_eq!(files, [folder.join("kept")]);
    assert_eq!(ROOM_LEAST_MIB, 200);
}

#[test]
fn storage_that_fails_says_how() {
    let folder = place("storage-fails");
    std::fs::create_dir_all(&folder).unwrap();
    let Outcome::Failed(Why::RoomShort { free_mib, least_mib: u32::MAX }) =
        storage(&folder, u32::MAX)
    else {
        panic!("{:?}", storage(&folder, u32::MAX))
    };
    assert!(free_mib.abs_diff(df(&folder)) < 1024);
    assert!(!folder.join(FILE).exists(), "nothing is written where there is no room");
    let gone = folder.join("no-such-folder");
    assert_eq!(storage(&gone, 0), Outcome::Failed(Why::RoomUnknown));
    // Something that can't be replaced by a file stands in the way.
    std::fs::create_dir(folder.join(FILE)).unwrap();
    assert_eq!(storage(&folder, 0), Outcome::Failed(Why::NotWritten));
    // No file can be made in /proc, not even by root.
    assert_eq!(storage(Path::new("/proc"), 0), Outcome::Failed(Why::NotWritten));
}

#[test]
fn the_clock_is_held_to_program_and_election() {
    // Seconds by GNU date: `date -u -d '2027-11-02 12:00' +%s`, and the others from it.
    const NOON: i64 = 1_825_156_800;
    const DAY: i64 = 86_400;
    let day = "2027-11-02";
    let at = |days: i64| clock(NOON + days * DAY, 0, day, BUILT);
    for days in [-60, -1, 0, 1, 2] {
        let days_ahead = i32::try_from(-days).unwrap();
        assert_eq!(at(days), Outcome::Passed(ClockFigures { days_ahead }));
    }
    assert_eq!(at(-61), Outcome::Caution(Why::ElectionFarAhead { days: 61 }));
    assert_eq!(at(3), Outcome::Caution(Why::ElectionOver { days: 3 }));
    // 23:00 in New York is the next day in Greenwich.
    let late = NOON + 15 * 3_600;
    assert_eq!(clock(late, -240, day, BUILT), Outcome::Passed(ClockFigures { days_ahead: 0 }));
    assert_eq!(clock(late, 0, day, BUILT), Outcome::Passed(ClockFigures { days_ahead: -1 }));
    // A clock without a battery begins in 1970; the program's year begins at its first second.
    let before = |year| Outcome::Failed(Why::ClockBeforeProgram { year });
    assert_eq!(clock(0, 0, day, BUILT), before(1970));
    assert_eq!(clock(-DAY * 366, 0, day, BUILT), before(1968));
    // `date -u -d 2026-01-01 +%s`.
    let new_year = 1_767_225_600;
    assert_eq!(clock(new_year - 1, 0, day, 2026), before(2025));
    assert!(matches!(clock(new_year, 0, day, 2026), Outcome::Caution(_)));
    assert_eq!(clock(NOON, 0, "2027-02-30", BUILT), Outcome::Failed(Why::ElectionDayUnknown));
    for far in [i64::MAX, i64::MAX / 2] {
        assert!(matches!(clock(far, 1_440, day, BUILT), Outcome::Caution(_)), "{far}");
    }
    assert!(matches!(clock(i64::MIN, 0, day, BUILT), Outcome::Failed(_)));
}

fn languages(tags: &[&str]) -> Vec<Language> {
    tags.iter().map(|tag| Language::new(*tag)).collect()
}

#[test]
fn each_language_has_its_outcome() {
    let demo = Demo::load();
    let recorded = Recorded::load(&Demo::folder()).unwrap();
    let asked = languages(&["en", "es", "km", "xx"]);
    let voices = ["en-us", "es-419"].map(str::to_owned);
    let found = outcomes(&demo.election, &asked, &recorded, Ok(voices.as_slice()));
    let tags: Vec<&str> = found.iter().map(|(language, _)| language.tag()).collect();
    assert_eq!(tags, ["en", "es", "km", "xx"]);
    let got: Vec<&Outcome<Heard>> = found.iter().map(|(_, outcome)| outcome).collect();
    for heard in &got[..2] {
        assert!(matches!(heard, Outcome::Passed(Heard::Voice { recorded: 0, of: 200.. })));
    }
    assert_eq!(*got[2], Outcome::Failed(Why::NotHeard));
    assert_eq!(*got[3], Outcome::Failed(Why::NoMessages));
    for (fault, why) in
        [(Fault::NoAddress, Why::NoSpeechService), (Fault::ServiceHung, Why::SpeechServiceSilent)]
    {
        let found = outcomes(&demo.election, &asked, &recorded, Err(&fault));
        assert!(found.iter().all(|(_, outcome)| *outcome == Outcome::Failed(why)));
    }
}

#[test]
fn the_real_speech_service_is_asked() {
    let demo = Demo::load();
    let recorded = Recorded::load(&Demo::folder()).unwrap();
    let found = voices(&demo.election, &languages(&["en", "km"]), &recorded);
    let got: Vec<&Outcome<Heard>> = found.iter().map(|(_, outcome)| outcome).collect();
    if std::env::var_os("SPEECHD_ADDRESS").is_none() {
        // Without one nothing passes.
        assert!(got.iter().all(|outcome| **outcome == Outcome::Failed(Why::NoSpeechService)));
        println!("skipped: the service itself (no speech service; see demo/speech-service)");
        return;
    }
    assert!(matches!(got[0], Outcome::Passed(Heard::Voice { .. })), "{got:?}");
    // espeak-ng 1.51 has no Khmer.
    assert_eq!(*got[1], Outcome::Failed(Why::NotHeard));
}
