//! The office, the workers and three voters, through the real programs and windows on a virtual
//! display: keys, seals, self-test, opening by two, three visits (by touch, by
//! two switches, in Spanish by keys), a fourth that a worker stops, closing, the log verified by the
//! office and its export held to NIST's schema. Pictures of every worker's screen are left where
//! `EVENHAND_PICTURES` says.
//!
//! Runs where `tests/run` has started a speech service (`EVENHAND_SPEECH_TESTS`).
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "this test starts a display and programs, and looks at what they leave"
)]

use std::cell::Cell;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_app::source::Source;
use evenhand_definitions::Opening;
use evenhand_rules::Style;
use evenhand_tests::display::{Display, Keysym, VirtualDisplay};
use evenhand_tests::figures::note;
use evenhand_tests::open::{Room, program};
use evenhand_tests::pilot::{Mark, Pilot, Plan};
use evenhand_tests::player::{Player, Road, Setup, play};
use evenhand_tests::records::nist_folder;
use evenhand_tests::stage::demo_folder;
use evenhand_visit::{Command as Press, LanguageIndex, ScreenKind, Target};

const SIZE: (u16, u16) = (1920, 1080);
const BACKSPACE: Keysym = Keysym(0xff08);
/// How long a screen may take to come in a debug build: the self-test of printer and reader is the
/// longest.
const COMES_WITHIN: Duration = Duration::from_mins(2);

fn office(room: &Room, arguments: &[&str]) -> String {
    let program = program().expect("the station is built").with_file_name("evenhand-office");
    let output = Command::new(program).current_dir(room.folder()).args(arguments).output();
    let output = output.expect("the office's program is built: cargo build -p evenhand-office");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    assert!(output.status.success(), "{arguments:?}: {}", text(&output.stderr));
    text(&output.stdout)
}

/// Keys, a sealed election with two signatures, and two workers.
fn prepare(room: &Room) {
    for (name, passphrase) in [("noor", "seven green bridges"), ("tam", "a quiet harbor wall")] {
        fs::write(room.path(&format!("{name}.pass")), passphrase).expect("a file");
        let (key, pass) = (format!("{name}.key"), format!("{name}.pass"));
        office(room, &["key", "new", "--name", name, "--to", &key, "--passphrase-file", &pass]);
    }
    let keys = ["--key", "Noor Haddad=noor.pub", "--key", "Tam Whitlock=tam.pub"];
    office(room, &[&["trust", "--to", "trust.json", "--threshold", "2"][..], &keys].concat());
    let folder = demo_folder();
    let folder = folder.to_str().expect("a path in UTF-8");
    office(room, &["pack", folder, "--to", "election.sealed.tar"]);
    for name in ["noor", "tam"] {
        let (key, pass) = (format!("{name}.key"), format!("{name}.pass"));
        office(room, &["sign", "election.sealed.tar", "--key", &key, "--passphrase-file", &pass]);
    }
    let seen = office(room, &["inspect", "election.sealed.tar", "--trust", "trust.json"]);
    assert!(seen.contains("Noor Haddad") && seen.contains("Tam Whitlock"), "{seen}");
    for (name, role, code) in [("Ana Ruiz", "lead", "739154"), ("Ben Osei", "worker", "820461")] {
        fs::write(room.path("code"), code).expect("a file");
        let to = ["--to", "workers.json", "--code-file", "code"];
        office(room, &[&["worker", "add", "--name", name, "--role", role][..], &to].concat());
    }
}

/// The station's process, ended with this value.
struct Station(Child);

impl Drop for Station {
    fn drop(&mut self) {
        // It may have ended by itself.
        drop(self.0.kill());
        drop(self.0.wait());
    }
}

fn start(room: &Room, display: &VirtualDisplay) -> Station {
    let child = Command::new(program().expect("the station is built"))
        .current_dir(room.folder())
        .env("DISPLAY", display.name())
        .args(["day", "--sealed", "election.sealed.tar", "--trust", "trust.json"])
        .args(["--workers", "workers.json", "--station-folder", "station"])
        .args(["--export-folder", "export", "--printer-folder", "tray"])
        .args(["--place", "Larkfield School", "--number", "7", "--utc-offset", "-360"])
        .args(["--window", "1920x1080", "--ignore-again", "0"])
        .args(["--trace", "trace", "--worker-trace", "worker-trace"])
        .stdout(Stdio::null())
        .spawn()
        .expect("the station starts");
    Station(child)
}

/// A worker at the station: looks at the trace for which screen is there, and presses keys.
struct AtDesk<'a> {
    room: &'a Room,
    eyes: Display,
    pictures: Option<PathBuf>,
    taken: Cell<usize>,
}

impl AtDesk<'_> {
    fn lines(&self) -> Vec<String> {
        let trace = fs::read_to_string(self.room.path("worker-trace")).unwrap_or_default();
        trace.lines().map(str::to_owned).collect()
    }

    /// The parts of the last line: heading, notice, going on, rows.
    fn now(&self) -> [String; 4] {
        let last = self.lines().pop().unwrap_or_default();
        let mut parts = last.split(" | ").map(str::to_owned);
        std::array::from_fn(|_| parts.next().unwrap_or_default())
    }

    /// Waits until the screen with this heading is there.
    fn at(&self, heading: &str) -> &Self {
        let until = Instant::now() + COMES_WITHIN;
        while self.now()[0] != heading {
            assert!(Instant::now() < until, "{heading} doesn't come: {:?}", self.lines());
            sleep(Duration::from_millis(20));
        }
        self.keep(heading);
        self
    }

    fn keep(&self, name: &str) {
        let Some(folder) = &self.pictures else { return };
        sleep(Duration::from_millis(300));
        let number = self.taken.replace(self.taken.get() + 1);
        let picture = self.eyes.picture().expect("a picture");
        picture.save(folder.join(format!("day-{number:03}-{name}.png"))).expect("it is kept");
    }

    /// Presses a key, and waits until the station has taken it.
    fn key(&self, key: Keysym) -> &Self {
        let before = self.lines().len();
        self.eyes.key(key).expect("a key");
        let until = Instant::now() + COMES_WITHIN;
        while self.lines().len() == before {
            assert!(Instant::now() < until, "a key isn't taken: {:?}", self.now());
            sleep(Duration::from_millis(5));
        }
        self
    }

    /// Takes the row with this message, by keys.
    fn row(&self, id: &str) -> &Self {
        let [heading, _, _, rows] = self.now();
        let row = rows.split(' ').position(|row| row == id);
        let row = row.unwrap_or_else(|| panic!("{id} isn't on {heading}: {rows}"));
        self.nth(row)
    }

    /// Takes the row at this place: the focus begins at the first.
    fn nth(&self, row: usize) -> &Self {
        for _ in 0..row {
            self.key(Keysym::DOWN);
        }
        self.key(Keysym::RETURN)
    }

    fn write(&self, text: &str) -> &Self {
        for letter in text.chars() {
            self.key(Keysym(u32::from(letter.to_ascii_lowercase())));
        }
        self
    }

    /// A code, and Enter.
    fn code(&self, code: &str) -> &Self {
        self.at("code-heading").write(code).key(Keysym::RETURN)
    }

    fn two_codes(&self) -> &Self {
        self.at("who-heading").nth(0).code("739154");
        self.at("who-second-heading").nth(0).code("820461")
    }

    fn takes_keys(&self) {
        self.eyes.give_keys_to("Evenhand worker").expect("the window takes keys");
    }

    /// Finds the ballot with these letters and starts the voter.
    fn starts(&self, find: &str, code: &str) -> &Self {
        // The last visit's trace says nothing of this one.
        drop(fs::remove_file(self.room.path("trace")));
        self.row("home-voter").code(code).at("find-heading").write(find);
        // The precinct's row comes first; parts of streets may follow. Before the first key lie,
        // backwards: back, delete, and the rows that were found.
        let rows = self.now()[3].clone();
        let found = rows.split(' ').filter(|row| *row == "worker-plain").count();
        assert!(found > 0 && rows.ends_with("worker-plain type-delete"), "{find} finds {rows}");
        for _ in 0..found + 2 {
            self.key(Keysym::UP);
        }
        self.key(Keysym::RETURN);
        self.at("found-heading").key(Keysym::RETURN).at("visit-heading")
    }
}

fn plan(style: &Style, language: u8) -> Plan {
    let mark = |option, rank| Mark { option, rank, name: None };
    let marks = style.contests().map(|(_, contest)| match contest.rule {
        evenhand_rules::Rule::Rank { .. } => vec![mark(1, Some(1))],
        evenhand_rules::Rule::Choose { .. } => vec![mark(0, None)],
    });
    Plan { language: Some(LanguageIndex(language)), contests: Some(marks.collect()) }
}

fn setup(room: &Room, display: &VirtualDisplay, road: Road) -> Setup {
    Setup {
        size: SIZE,
        pitch: PixelPitch::USUAL,
        road,
        display: display.name().to_owned(),
        trace: room.path("trace"),
        pictures: None,
        spoken: None,
        pause: Duration::ZERO,
    }
}

/// Waits until the voter's window has drawn its first screen.
fn opens(room: &Room) {
    let until = Instant::now() + COMES_WITHIN;
    while !fs::read_to_string(room.path("trace")).unwrap_or_default().contains("settled") {
        assert!(Instant::now() < until, "the voter's window doesn't open");
        sleep(Duration::from_millis(10));
    }
}

/// The self-test: what takes a person is done as a person would, and the ears are left out: the
/// sound here has one channel.
fn self_test(desk: &AtDesk<'_>) {
    desk.at("home-closed-heading").row("home-test").at("who-heading").nth(0).code("739154");
    let waits = |row: &str| {
        let until = Instant::now() + COMES_WITHIN;
        while !desk.now()[3].split(' ').any(|shown| shown == row) {
            assert!(Instant::now() < until, "{row} doesn't come: {:?}", desk.lines());
            sleep(Duration::from_millis(20));
        }
        desk.keep(row);
    };
    waits("colors-yes");
    desk.row("colors-yes");
    for row in 0..4i16 {
        for column in 0..6i16 {
            desk.eyes.click((160 + 320 * column, 135 + 270 * row)).expect("a click");
            sleep(Duration::from_millis(60));
        }
    }
    waits("ear-yes");
    desk.row("test-skip");
    waits("ear-yes");
    desk.row("test-skip");
    waits("test-fails");
    desk.key(Keysym::DOWN).key(Keysym::RETURN).at("test-done-heading");
    desk.key(Keysym::DOWN).key(Keysym::RETURN).at("home-closed-heading");
}

#[test]
fn a_whole_day_from_the_offices_keys_to_the_verified_log() {
    if std::env::var_os("EVENHAND_SPEECH_TESTS").is_none() {
        println!(
            "skipped: the walk of a whole day: tests/run starts the speech service that it needs"
        );
        return;
    }
    let room = Room::new("day").expect("a folder can be made");
    prepare(&room);
    let display = VirtualDisplay::start(SIZE).expect("a display");
    let mut station = start(&room, &display);
    let desk = AtDesk {
        room: &room,
        eyes: Display::open(display.name()).expect("the display answers"),
        pictures: std::env::var_os("EVENHAND_PICTURES").map(PathBuf::from),
        taken: Cell::new(0),
    };
    desk.at("home-closed-heading");
    sleep(Duration::from_secs(1));
    desk.takes_keys();
    self_test(&desk);
    open(&desk);
    voters(&room, &display, &desk);
    close(&desk, &room);
    let ended = station.0.wait().expect("it ends");
    assert!(ended.success(), "{ended}");
    what_is_left(&room);
}

/// A wrong code first; then two workers, a test, 60 sheets, a seal.
fn open(desk: &AtDesk<'_>) {
    desk.row("home-open").at("who-heading").nth(0).code("739155");
    let until = Instant::now() + COMES_WITHIN;
    while desk.now()[1] != "code-wrong" {
        assert!(Instant::now() < until, "a wrong code isn't refused: {:?}", desk.lines());
        sleep(Duration::from_millis(20));
    }
    desk.code("739154").at("who-second-heading").nth(0).code("820461");
    desk.at("purpose-heading").row("purpose-test").at("open-paper-heading").write("600");
    desk.key(BACKSPACE).key(Keysym::RETURN).at("seals-heading").write("b-0417");
    desk.key(Keysym::RETURN).at("open-test-heading").key(Keysym::RETURN).at("home-open-heading");
    let until = Instant::now() + COMES_WITHIN;
    while desk.now()[1] != "report-done" {
        assert!(Instant::now() < until, "no report: {:?}", desk.lines());
        sleep(Duration::from_millis(20));
    }
}

fn voters(room: &Room, display: &VirtualDisplay, desk: &AtDesk<'_>) {
    let source =
        Source::Sealed { file: room.path("election.sealed.tar"), trust: room.path("trust.json") };
    let opened = source.open().expect("it is sealed");
    let ready = |style: &str| {
        Prepared::of(&opened, Opening::Test, Some(style), None).expect("the style is there")
    };
    for (road, style, language) in
        [(Road::Mouse, "101-A", 0), (Road::Switches, "102", 0), (Road::Keys, "103", 1)]
    {
        desk.starts(style, "820461");
        opens(room);
        let prepared = ready(style);
        let pilot = Pilot::new(plan(&prepared.style, language));
        let mut watch = |_: ScreenKind| {};
        let setup = setup(room, display, road);
        let played = play(&prepared, &setup, pilot, &mut watch).expect("the visit is played");
        desk.at("home-open-heading");
        assert_eq!(desk.now()[1], "visit-finished", "{style}");
        let printed = newest(&room.path("tray"));
        assert!(printed == played.document, "{style}: the sheet isn't what was asked for");
        desk.takes_keys();
    }
    // The fourth is found by house and street, in a precinct that is split, and calls a worker, who
    // ends the visit before anything is printed.
    desk.starts("300 her", "820461");
    opens(room);
    let prepared = ready("101-B");
    let setup = setup(room, display, Road::Keys);
    let mut player = Player::begin(&prepared, &setup).expect("the window is there");
    player.press(Press::Choose).expect("a language is chosen");
    let take = |player: &mut Player<'_>, wanted: &dyn Fn(&evenhand_visit::View) -> bool| {
        for _ in 0..60 {
            if wanted(&player.view()) {
                return player.press(Press::Choose).expect("it is taken");
            }
            player.press(Press::Next).expect("the focus goes on");
        }
        panic!("it isn't on {:?}", player.view().screen);
    };
    take(&mut player, &|view| view.focus == Some(Target::Help));
    take(&mut player, &|view| focused(view, evenhand_visit::Message::HelpWorker));
    assert_eq!(player.view().screen, ScreenKind::Worker);
    take(&mut player, &|view| focused(view, evenhand_visit::Message::WorkerEnd));
    take(&mut player, &|view| focused(view, evenhand_visit::Message::ConfirmEndYes));
    desk.at("code-heading");
    sleep(Duration::from_millis(500));
    desk.takes_keys();
    desk.code("820461").at("stop-heading").row("stop-wish");
    desk.at("stop-paper-heading").row("paper-nowhere").at("home-open-heading");
}

/// True where the focus is on the row with this message.
fn focused(view: &evenhand_visit::View, message: evenhand_visit::Message) -> bool {
    let Some(Target::Row(row)) = view.focus else { return false };
    view.rows.get(usize::from(row)).is_some_and(|row| row.label.message == message)
}

/// What the printer got last.
fn newest(tray: &Path) -> Vec<u8> {
    let entries = fs::read_dir(tray).expect("the tray is there");
    let mut files: Vec<PathBuf> =
        entries.map(|entry| entry.expect("an entry").path()).filter(|p| p.is_file()).collect();
    files.sort();
    fs::read(files.last().expect("something was printed")).expect("it can be read")
}

fn close(desk: &AtDesk<'_>, room: &Room) {
    desk.row("home-close").two_codes().at("close-left-heading");
    let used = sheets(room);
    // Two copies of the opening's report came out of the same printer.
    let left = 60 - used - 2;
    desk.write(&left.to_string()).key(Keysym::RETURN).at("seals-heading").write("b-0420");
    desk.key(Keysym::RETURN).at("close-heading").key(Keysym::RETURN).at("closed-heading");
    let until = Instant::now() + COMES_WITHIN;
    while desk.now()[1] != "report-done" {
        assert!(Instant::now() < until, "no report: {:?}", desk.lines());
        sleep(Duration::from_millis(20));
    }
    desk.row("closed-export");
    assert_eq!(desk.now()[1], "export-done");
    desk.key(Keysym::DOWN).key(Keysym::RETURN).at("home-closed-heading");
    // The one who was here last needs only the code.
    desk.row("home-shut-down").code("820461");
}

/// Ballots' sheets that the station has counted.
fn sheets(room: &Room) -> u32 {
    let kept = fs::read_to_string(room.path("station/sheets.json")).expect("sheets are counted");
    let kept: serde_json::Value = serde_json::from_str(&kept).expect("it is JSON");
    let printed = kept.get("printed").and_then(serde_json::Value::as_u64);
    u32::try_from(printed.expect("a count")).expect("few")
}

/// The log is whole by the office's own check, tells what was done, names nobody, and its export
/// keeps NIST's schema (SP 1500-101).
fn what_is_left(room: &Room) {
    let key = fs::read_to_string(room.path("export/station-key.txt")).expect("the key is there");
    let verified = office(room, &["log", "verify", "export/log.txt", "--station-key", key.trim()]);
    note("the walk: what the office says of its log", verified.lines().next().unwrap_or_default());
    let log = fs::read_to_string(room.path("export/log.txt")).expect("the log is there");
    let count = |id: &str| log.matches(&format!("\"{id}\"")).count();
    assert_eq!(count("visit-started"), 4, "{log}");
    assert_eq!((count("visit-finished"), count("visit-stopped")), (3, 1));
    assert_eq!((count("ballot-printed"), count("opened"), count("closed")), (3, 1, 1));
    assert_eq!((count("log-in-refused"), count("seal-noted")), (1, 2));
    for hidden in ["Ana", "Ben", "101-A", "\"102\"", "Precinct", "\"es\"", "\"739154\""] {
        assert!(!log.contains(hidden), "the log names {hidden}");
    }
    let mut reports: Vec<String> = fs::read_dir(room.path("station/reports"))
        .expect("reports are kept")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .collect();
    reports.sort();
    assert_eq!(reports, ["closing-1.pdf", "opening-1.pdf", "self-test-1.pdf"]);
    let report = |name: &str| {
        let output = Command::new("pdftotext")
            .args(["-layout", &format!("station/reports/{name}"), "-"])
            .current_dir(room.folder())
            .output()
            .expect("poppler is there");
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    // Readable across a table, and one page each: a copy takes one sheet of the printer's paper.
    for name in &reports {
        let output = Command::new("pdfinfo")
            .arg(room.path("station/reports").join(name))
            .output()
            .expect("poppler is there");
        let told = String::from_utf8_lossy(&output.stdout).into_owned();
        let pages = told.lines().find_map(|line| line.strip_prefix("Pages:"));
        assert_eq!(pages.map(str::trim), Some("1"), "{name}: {told}");
    }
    let closing = report("closing-1.pdf");
    for words in ["Polls closed", "TEST", "Larkfield School", "The paper is all accounted for"] {
        assert!(closing.contains(words), "{words}: {closing}");
    }
    assert!(report("self-test-1.pdf").contains("passed"), "{}", report("self-test-1.pdf"));
    if let Some(folder) = std::env::var_os("EVENHAND_PICTURES") {
        for name in &reports {
            let to = Path::new(&folder).join(format!("day-{name}"));
            fs::copy(room.path("station/reports").join(name), to).expect("it is kept");
        }
    }
    keeps_the_schema(room);
}

fn keeps_the_schema(room: &Room) {
    let path = nist_folder().join("schemas/NIST_V1_election_event_logging.json");
    let Ok(schema) = fs::read_to_string(&path) else {
        assert!(std::env::var_os("CI").is_none(), "NIST's schema isn't at {}", path.display());
        note("skipped", "the walk's export against NIST's schema: EVENHAND_NIST has none");
        return;
    };
    let schema: serde_json::Value = serde_json::from_str(&schema).expect("it is JSON");
    let export = fs::read_to_string(room.path("export/log-sp1500-101.json")).expect("the export");
    let export: serde_json::Value = serde_json::from_str(&export).expect("it is JSON");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    assert!(validator.is_valid(&export), "the export breaks NIST's schema");
}
