//! A polling place for a test: the office's keys and sealed election, the station's program on a
//! virtual display, and a worker's hands and eyes at its screens.
//!
//! Invariant: a worker knows what the screen's trace says and presses keys; nothing of the station's
//! inside is reached for.
//!
//! Start reading at [`prepare`], then [`DayStation::start`] and [`Desk`].
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::panic,
    reason = "it starts programs, waits for screens, and stops a test where one doesn't come"
)]

use std::cell::Cell;
use std::fs;
use std::io;
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::metrics::PixelPitch;

use crate::display::{Display, Keysym, VirtualDisplay};
use crate::open::{Room, program};
use crate::player::{Road, Setup};
use crate::reading::read_by_eye;
use crate::stage::demo_folder;

/// The display's size in pixels: at the usual width of a pixel, a screen of 24 inches.
pub const SIZE: (u16, u16) = (1920, 1080);
/// The sealed election and who may have sealed it, as a station is told of them.
const SEALED: [&str; 4] = ["--sealed", "election.sealed.tar", "--trust", "trust.json"];
/// The output that `demo/speech-service` makes.
pub const HEADPHONES: &str = "evenhand";
/// The lead's code.
pub const LEAD: &str = "739154";
/// The worker's code.
pub const WORKER: &str = "820461";
/// Within the place at the lower right, where going on is touched.
const GOING_ON: (i16, i16) = (1_577, 1_030);
/// How long a screen may take to come in a debug build: the self-test of printer and reader is the
/// longest.
pub const COMES_WITHIN: Duration = Duration::from_mins(2);

/// Runs the office's program in a room, and returns what it said.
pub fn office(room: &Room, arguments: &[&str]) -> String {
    let program = program().expect("the station is built").with_file_name("evenhand-office");
    let output = Command::new(program).current_dir(room.folder()).args(arguments).output();
    let output = output.expect("the office's program is built: cargo build -p evenhand-office");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let (said, fault) = (text(&output.stdout), text(&output.stderr));
    assert!(output.status.success(), "{arguments:?}: {said}{fault}");
    said
}

/// Keys, a sealed election with two signatures, a lead and a worker, and a list with the lead alone.
pub fn prepare(room: &Room) {
    prepare_with(room, &demo_folder());
}

/// The same, with the election of this folder.
pub fn prepare_with(room: &Room, folder: &Path) {
    for (name, passphrase) in [("noor", "seven green bridges"), ("tam", "a quiet harbor wall")] {
        fs::write(room.path(&format!("{name}.pass")), passphrase).expect("a file");
        let (key, pass) = (format!("{name}.key"), format!("{name}.pass"));
        office(room, &["key", "new", "--name", name, "--to", &key, "--passphrase-file", &pass]);
    }
    let keys = ["--key", "Noor Haddad=noor.pub", "--key", "Tam Whitlock=tam.pub"];
    office(room, &[&["trust", "--to", "trust.json", "--threshold", "2"][..], &keys].concat());
    let folder = folder.to_str().expect("a path in UTF-8");
    office(room, &["pack", folder, "--to", "election.sealed.tar"]);
    for name in ["noor", "tam"] {
        let (key, pass) = (format!("{name}.key"), format!("{name}.pass"));
        office(room, &["sign", "election.sealed.tar", "--key", &key, "--passphrase-file", &pass]);
    }
    let seen = office(room, &["inspect", "election.sealed.tar", "--trust", "trust.json"]);
    assert!(seen.contains("Noor Haddad") && seen.contains("Tam Whitlock"), "{seen}");
    for (list, name, role, code) in [
        ("workers.json", "Ana Ruiz", "lead", LEAD),
        ("workers.json", "Ben Osei", "worker", WORKER),
        ("alone.json", "Ana Ruiz", "lead", LEAD),
    ] {
        fs::write(room.path("code"), code).expect("a file");
        let to = ["--to", list, "--code-file", "code"];
        office(room, &[&["worker", "add", "--name", name, "--role", role][..], &to].concat());
    }
}

/// How a voter's visit is played at this station.
pub fn setup(room: &Room, display: &VirtualDisplay, road: Road) -> Setup {
    Setup {
        size: SIZE,
        pitch: PixelPitch::USUAL,
        road,
        display: display.name().to_owned(),
        trace: Some(room.path("trace")),
        pictures: None,
        spoken: None,
        pause: Duration::ZERO,
    }
}

/// How a station is started.
#[derive(Clone, Copy, Debug)]
pub struct Starting<'a> {
    /// The workers' list.
    pub workers: &'a str,
    /// The station's folder, in the room.
    pub folder: &'a str,
    /// The file of what the station was taught at set-up, in the room: its election then; `None`
    /// takes the sealed election that lies there.
    pub station_file: Option<&'a str>,
    /// The time that its clock shows, as `faketime` takes it; `None` leaves the clock as it is.
    pub clock: Option<&'a str>,
}

impl Starting<'_> {
    /// Both workers, and the clock as it is.
    pub const USUAL: Self =
        Self { workers: "workers.json", folder: "station", station_file: None, clock: None };
}

/// The station's process, which ends with this value.
#[derive(Debug)]
pub struct DayStation(pub Child);

impl Drop for DayStation {
    fn drop(&mut self) {
        // It may have ended by itself.
        drop(self.end());
    }
}

impl DayStation {
    /// Starts a day.
    pub fn start(room: &Room, display: &VirtualDisplay, starting: Starting<'_>) -> Self {
        let program = program().expect("the station is built");
        let mut command = match starting.clock {
            Some(time) => {
                let mut command = Command::new("faketime");
                command.args(["-f", time]).arg(program);
                command
            }
            None => Command::new(program),
        };
        let taught = starting.station_file.map(|file| ["--station-file", file]);
        let election = taught.as_ref().map_or(&SEALED[..], |taught| &taught[..]);
        // What an earlier one showed says nothing of this one.
        drop(fs::remove_file(room.path("worker-trace")));
        let child = command
            .current_dir(room.folder())
            .env("DISPLAY", display.name())
            .arg("day")
            .args(election)
            .args(["--workers", starting.workers, "--station-folder", starting.folder])
            .args(["--export-folder", "export", "--printer-folder", "tray"])
            .args(["--headphones", HEADPHONES])
            .args(["--place", "Larkfield School", "--number", "7", "--utc-offset", "-360"])
            .args(["--window", "1920x1080", "--ignore-again", "0"])
            .args(["--trace", "trace", "--worker-trace", "worker-trace"])
            .stdout(Stdio::null())
            .process_group(0)
            .spawn()
            .expect("the station starts; with another clock: install faketime");
        Self(child)
    }

    /// Starts setting up, with the sealed elections of the room to choose from. No device of this
    /// machine is asked.
    pub fn set_up(room: &Room, display: &VirtualDisplay, station_file: &str) -> Self {
        let child = Command::new(program().expect("the station is built"))
            .current_dir(room.folder())
            .env("DISPLAY", display.name())
            .env("SANE_CONFIG_DIR", "/nowhere")
            .args(["set-up", "--window", "1920x1080", "--print-service", "/nowhere/print-service"])
            .args(["--elections", ".", "--trust", "trust.json", "--station-file", station_file])
            .args(["--worker-trace", "worker-trace"])
            .stdout(Stdio::null())
            .process_group(0)
            .spawn()
            .expect("set-up starts");
        Self(child)
    }

    /// Waits until it has ended by itself, well.
    pub fn ends(&mut self) {
        let ended = self.0.wait().expect("it ends");
        assert!(ended.success(), "{ended}");
    }

    /// Power is lost: the process is gone at once, and so is what it started.
    pub fn loses_power(mut self) {
        self.end().expect("it can be ended");
    }

    /// Ends it with all that it started: it leads a group of processes.
    fn end(&mut self) -> io::Result<()> {
        let group = format!("-{}", self.0.id());
        Command::new("kill").args(["-KILL", "--", &group]).stderr(Stdio::null()).status()?;
        self.0.wait().map(drop)
    }
}

/// A worker at the station: looks at the trace for which screen is there, and presses keys.
#[derive(Debug)]
pub struct Desk<'a> {
    room: &'a Room,
    /// The display's hands and eyes.
    pub eyes: Display,
    /// Where pictures of the screens are left, and how their names begin.
    pictures: Option<(PathBuf, &'static str)>,
    taken: Cell<usize>,
}

impl<'a> Desk<'a> {
    /// Sits down at this display. Pictures are left where `EVENHAND_PICTURES` says.
    pub fn at_display(room: &'a Room, display: &VirtualDisplay, name: &'static str) -> Self {
        let pictures = std::env::var_os("EVENHAND_PICTURES").map(PathBuf::from);
        Self {
            room,
            eyes: Display::open(display.name()).expect("the display answers"),
            pictures: pictures.map(|folder| (folder, name)),
            taken: Cell::new(0),
        }
    }

    /// The screens so far.
    pub fn lines(&self) -> Vec<String> {
        let trace = fs::read_to_string(self.room.path("worker-trace")).unwrap_or_default();
        // Whole lines only.
        let whole = trace.rsplit_once('\n').map_or("", |(whole, _)| whole);
        whole.lines().map(str::to_owned).collect()
    }

    /// The parts of the last line: heading, notice, going on, rows.
    pub fn now(&self) -> [String; 4] {
        let last = self.lines().pop().unwrap_or_default();
        let mut parts = last.split(" | ").map(str::to_owned);
        std::array::from_fn(|_| parts.next().unwrap_or_default())
    }

    /// Waits until this is true of what is shown.
    pub fn waits(&self, what: &str, is_so: impl Fn(&[String; 4]) -> bool) -> &Self {
        let until = Instant::now() + COMES_WITHIN;
        while !is_so(&self.now()) {
            assert!(Instant::now() < until, "{what} doesn't come: {:?}", self.lines());
            sleep(Duration::from_millis(20));
        }
        self.keep(what);
        self
    }

    /// Waits until the screen with this heading is there.
    pub fn at(&self, heading: &str) -> &Self {
        self.waits(heading, |now| now[0] == heading)
    }

    /// Waits until this is said.
    pub fn told(&self, notice: &str) -> &Self {
        self.waits(notice, |now| now[1] == notice)
    }

    /// Waits until this row is there.
    pub fn offers(&self, row: &str) -> &Self {
        self.waits(row, |now| now[3].split(' ').any(|shown| shown == row))
    }

    fn keep(&self, name: &str) {
        let Some((folder, whose)) = &self.pictures else { return };
        sleep(Duration::from_millis(300));
        let number = self.taken.replace(self.taken.get() + 1);
        let picture = self.eyes.picture().expect("a picture");
        picture.save(folder.join(format!("{whose}-{number:03}-{name}.png"))).expect("it is kept");
    }

    /// Presses a key, and waits until the station has taken it.
    pub fn key(&self, key: Keysym) -> &Self {
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
    pub fn row(&self, id: &str) -> &Self {
        let [heading, _, _, rows] = self.now();
        let row = rows.split(' ').position(|row| row == id);
        let row = row.unwrap_or_else(|| panic!("{id} isn't on {heading}: {rows}"));
        self.nth(row)
    }

    /// Takes the row at this place: the focus begins at the first.
    pub fn nth(&self, row: usize) -> &Self {
        for _ in 0..row {
            self.key(Keysym::DOWN);
        }
        self.key(Keysym::RETURN)
    }

    /// Types this.
    pub fn write(&self, text: &str) -> &Self {
        for letter in text.chars() {
            self.key(Keysym(u32::from(letter.to_ascii_lowercase())));
        }
        self
    }

    /// A code, and Enter.
    pub fn code(&self, code: &str) -> &Self {
        self.at("code-heading").write(code).key(Keysym::RETURN)
    }

    /// Says on the screen for a code that they are somebody else: backwards from its first key lie
    /// back and that row.
    pub fn is_somebody_else(&self) -> &Self {
        self.at("code-heading")
            .key(Keysym::UP)
            .key(Keysym::UP)
            .key(Keysym::RETURN)
            .at("who-heading")
    }

    /// The lead's code, then the worker's.
    pub fn two_codes(&self) -> &Self {
        self.at("who-heading").nth(0).code(LEAD);
        self.at("who-second-heading").nth(0).code(WORKER)
    }

    /// Has the keyboard: with no window manager nobody else gives it to the worker's window. The
    /// voter's must have gone, and this one be there.
    pub fn takes_keys(&self) -> &Self {
        let until = Instant::now() + COMES_WITHIN;
        while self.eyes.has_window("Evenhand").expect("the display answers")
            || self.eyes.give_keys_to("Evenhand worker").is_err()
        {
            assert!(Instant::now() < until, "the worker's window isn't the only one");
            sleep(Duration::from_millis(20));
        }
        self
    }

    /// Two workers open the polls as a test, with so many sheets and one seal.
    pub fn opens(&self, sheets: u32) -> &Self {
        self.at("home-closed-heading").row("home-open").two_codes();
        self.opens_after_codes(sheets)
    }

    /// The same, both codes being given.
    pub fn opens_after_codes(&self, sheets: u32) -> &Self {
        self.at("purpose-heading").row("purpose-test").at("open-paper-heading");
        self.write(&sheets.to_string()).key(Keysym::RETURN).at("seals-heading").write("b-0417");
        self.key(Keysym::RETURN).at("open-test-heading").key(Keysym::RETURN);
        self.at("home-open-heading").told("report-done")
    }

    /// Finds the ballot with these letters and starts the voter.
    pub fn starts(&self, find: &str, code: &str) -> &Self {
        // The last visit's trace says nothing of this one.
        drop(fs::remove_file(self.room.path("trace")));
        self.row("home-voter").code(code).at("find-heading");
        self.starts_after_code(find)
    }

    /// The same, the code being given.
    pub fn starts_after_code(&self, find: &str) -> &Self {
        self.finds(find).voters_window_opens()
    }

    /// Finds the ballot, the code being given, and has the voter's window opened.
    pub fn finds(&self, find: &str) -> &Self {
        self.write(find);
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

    /// Waits until the voter's window has drawn its first screen.
    fn voters_window_opens(&self) -> &Self {
        let until = Instant::now() + COMES_WITHIN;
        let trace = self.room.path("trace");
        while !fs::read_to_string(&trace).unwrap_or_default().contains("settled") {
            assert!(Instant::now() < until, "the voter's window doesn't open");
            sleep(Duration::from_millis(10));
        }
        self
    }

    /// Set-up: the sealed election is chosen and compared, the card fits, two keys are the switches,
    /// and no device is chosen: this place has the demo's.
    pub fn sets_up(&self) -> &Self {
        self.waits("election-heading", |now| {
            now[0] == "election-heading" && now[3].contains("worker-plain")
        });
        self.nth(0).at("election-compare-heading");
        // The focus begins at "back".
        self.key(Keysym::DOWN).key(Keysym::RETURN).at("keys-compare-heading");
        self.key(Keysym::DOWN).key(Keysym::RETURN).at("card-heading").key(Keysym::RIGHT);
        self.at("switch-first-heading").key(Keysym::ONE).key(Keysym::ONE);
        self.at("switch-second-heading").key(Keysym::TWO).key(Keysym::TWO).at("try-heading");
        self.key(Keysym::ONE).key(Keysym::TWO);
        self.waits("try-heading", |now| now[2] == "worker-bar-next");
        // Every key is a switch here: going on is touched.
        self.eyes.click(GOING_ON).expect("a click");
        for heading in
            ["printer-heading", "scanner-heading", "headphones-heading", "loudness-heading"]
        {
            self.at(heading).key(Keysym::RIGHT);
        }
        self.at("keep-heading").key(Keysym::RIGHT).at("kept-heading")
    }

    /// The self-test: what takes a person is done as a person would, and the ears are left out: the
    /// sound here has one channel. These are the station's two switches.
    pub fn self_test(&self, [first, second]: [Keysym; 2]) -> &Self {
        self.at("home-closed-heading").row("home-test").at("who-heading").nth(0).code(LEAD);
        self.offers("colors-yes").row("colors-yes");
        for row in 0..4i16 {
            for column in 0..6i16 {
                self.eyes.click((160 + 320 * column, 135 + 270 * row)).expect("a click");
                sleep(Duration::from_millis(60));
            }
        }
        self.offers("ear-yes").row("test-skip");
        self.offers("ear-yes").row("test-skip");
        self.waits("the switches", |now| now[3] == "test-skip").key(first).key(second);
        // The station's keys that have a meaning, without the switches; Escape comes last.
        self.waits("the keys", |now| now[0] == "test-heading" && now[2] == "-");
        for key in [0xff54, 0xff52, 0xff51, 0xff53, 0xff09, 0xff0d, 0x20, 0xff56, 0xff55] {
            self.key(Keysym(key));
        }
        for key in "r=-][p,.svwhc".chars() {
            self.key(Keysym(u32::from(key)));
        }
        for key in [0xffbe, 0xffbf, 0xffc7] {
            self.key(Keysym(key));
        }
        self.key(Keysym(0xff1b)).at("test-done-heading")
    }

    /// How often the station's log has this event.
    pub fn logged(&self, event: &str) -> usize {
        let log = fs::read_to_string(self.room.path("station/log.txt")).expect("the log is there");
        log.matches(&format!("\"{event}\"")).count()
    }

    /// Ballots' sheets that the station has counted.
    pub fn sheets(&self) -> u32 {
        let kept = fs::read_to_string(self.room.path("station/sheets.json"));
        let kept: serde_json::Value =
            serde_json::from_str(&kept.expect("sheets are counted")).expect("it is JSON");
        let printed = kept.get("printed").and_then(serde_json::Value::as_u64);
        u32::try_from(printed.expect("a count")).expect("few")
    }

    /// Waits until a person could read this on the display: a screen is noted before it is drawn.
    pub fn can_read(&self, text: &str) -> &Self {
        let until = Instant::now() + COMES_WITHIN;
        let mut read = self.reads();
        while !read.contains(text) {
            assert!(Instant::now() < until, "{text} can't be read: {read}");
            read = self.reads();
        }
        self
    }

    /// What a person could read on the display now, by tesseract.
    pub fn reads(&self) -> String {
        // A screen is noted before it is drawn.
        sleep(Duration::from_millis(300));
        read_by_eye(&self.eyes.picture().expect("a picture")).expect("tesseract is there")
    }
}
