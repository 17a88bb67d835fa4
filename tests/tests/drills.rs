//! The incidents that workers are trained for, each through the real windows of one station on a
//! virtual display: the voter leaves at each stage, paper is stuck or runs out, the reader is
//! unplugged, a worker interrupts, the wrong ballot, wrong codes, the headphones out, power lost in
//! mid-print, the second worker is missing, the clock is wrong, storage is full. Each time the log's
//! counts are right, the worker is told what to do, and no choice can be seen.
//!
//! The printer, the reader, the sound, the clock and the disk are made to fail as a test can; what
//! real ones do is seen with real ones (README, Limits). Pictures are left where `EVENHAND_PICTURES`
//! says. Runs where `tests/run` has started a speech service (`EVENHAND_SPEECH_TESTS`).
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "drills make devices fail, look at what is left, and stop where that isn't as it must be"
)]

use std::fs;
use std::path::Path;
use std::process::Command;
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::prepared::Prepared;
use evenhand_app::source::{Opened, Source};
use evenhand_app::trace::SPEECH_BACK;
use evenhand_definitions::Opening;
use evenhand_tests::desk::{
    COMES_WITHIN, DayStation, Desk, HEADPHONES, LEAD, SIZE, Starting, WORKER, prepare, setup,
};
use evenhand_tests::display::{Keysym, VirtualDisplay};
use evenhand_tests::figures::note;
use evenhand_tests::open::Room;
use evenhand_tests::pilot::{Pilot, Plan};
use evenhand_tests::player::{Player, Road, Setup};
use evenhand_visit::{
    Command as Press, Message, PrintFault, ReadFault, ScreenKind, Target, View, WorkerSays,
};

/// The style that drills are voted on: the demo's shortest.
const STYLE: &str = "103";
const ESCAPE: Keysym = Keysym(0xff1b);

/// The polling place.
struct Polls<'a> {
    room: &'a Room,
    desk: Desk<'a>,
    setup: Setup,
    opened: Opened,
}

/// What the log has counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Count {
    finished: usize,
    stopped: usize,
    printed: usize,
    spoiled: usize,
    entered: usize,
    returned: usize,
}

impl Polls<'_> {
    fn prepared(&self, style: &str) -> Prepared {
        let mut prepared = Prepared::of(&self.opened, Opening::Test, Some(style), None)
            .expect("the style is there");
        prepared.begin.is_attended = true;
        prepared
    }

    fn count(&self) -> Count {
        let logged = |event| self.desk.logged(event);
        Count {
            finished: logged("visit-finished"),
            stopped: logged("visit-stopped"),
            printed: logged("ballot-printed"),
            spoiled: logged("ballot-spoiled"),
            entered: logged("worker-entered"),
            returned: logged("visit-returned-to"),
        }
    }

    /// What a device of the demo is made to do; an empty word mends it.
    fn device(&self, file: &str, word: &str) {
        let tray = self.room.path("tray");
        fs::create_dir_all(&tray).expect("a tray");
        if word.is_empty() {
            fs::remove_file(tray.join(file)).expect("it was there");
        } else {
            fs::write(tray.join(file), word).expect("a file");
        }
    }

    /// A drill: what it adds to the log's counts is as it must be, and work can go on.
    fn drill(&self, name: &str, added: Count, play: impl FnOnce(&Self)) {
        let (before, began) = (self.count(), Instant::now());
        play(self);
        let after = self.count();
        let grown = Count {
            finished: after.finished - before.finished,
            stopped: after.stopped - before.stopped,
            printed: after.printed - before.printed,
            spoiled: after.spoiled - before.spoiled,
            entered: after.entered - before.entered,
            returned: after.returned - before.returned,
        };
        assert_eq!(grown, added, "{name}");
        println!("drill: {name}: {:.1} s", began.elapsed().as_secs_f32());
        note(&format!("drill: {name}"), "as it must be");
    }

    /// A worker with a code comes to a visit whose window has just closed.
    fn comes_in(&self) -> &Desk<'_> {
        self.desk.at("code-heading").takes_keys().code(WORKER).at("entry-heading")
    }

    /// The worker stops the visit and says where the paper is.
    fn stops(&self, cause: &str, paper: &str, then: &str) {
        self.desk.row("entry-stop").at("stop-heading").row(cause).at("stop-paper-heading");
        self.shows_no_choice();
        self.desk.row(paper).told(then).at("home-open-heading");
    }

    /// Nothing that is on the display names a contest's options.
    fn shows_no_choice(&self) {
        let read = self.desk.reads();
        let prepared = self.prepared(STYLE);
        for (_, contest) in prepared.style.contests() {
            for name in contest.options.iter().flat_map(|option| &option.names) {
                let name = name.shown.in_language(&prepared.languages[0]);
                let is_told = name.len() > 3 && read.contains(name);
                assert!(!is_told, "the worker can read {name:?}: {read}");
            }
        }
    }
}

/// Plays a visit by keys until this screen is there.
fn until(player: &mut Player<'_>, pilot: &mut Pilot, screen: ScreenKind) {
    while player.view().screen != screen {
        let command = player.next(pilot).unwrap_or_else(|| panic!("{:?}", pilot.fault()));
        player.press(command).expect("the window follows");
    }
}

/// Takes the row with this message.
fn take(player: &mut Player<'_>, message: Message) {
    focus(player, message);
    player.press(Press::Choose).expect("it is taken");
}

fn focus(player: &mut Player<'_>, message: Message) {
    let is_there = |view: &View| {
        let Some(Target::Row(row)) = view.focus else { return false };
        view.rows.get(usize::from(row)).is_some_and(|row| row.label.message == message)
    };
    for _ in 0..60 {
        if is_there(&player.view()) {
            return;
        }
        player.press(Press::Next).expect("the focus goes on");
    }
    panic!("{message:?} isn't on {:?}", player.view().screen);
}

/// Plays the visit to its end.
fn finish(player: &mut Player<'_>, pilot: &mut Pilot) {
    while !player.has_ended() {
        let command = player.next(pilot).unwrap_or_else(|| panic!("{:?}", pilot.fault()));
        player.press(command).expect("the window follows");
    }
}

/// A voter on [`STYLE`] who is let do something.
fn voter(polls: &Polls<'_>, play: impl FnOnce(&mut Player<'_>, &mut Pilot)) {
    started_by(polls, WORKER, play);
}

/// A view without its notice: on a busy machine the sound may be lost for a moment.
fn quiet(view: View) -> View {
    View { notice: None, ..view }
}

/// The same, started by whoever has this code and was here last.
fn started_by(polls: &Polls<'_>, code: &str, play: impl FnOnce(&mut Player<'_>, &mut Pilot)) {
    polls.desk.takes_keys().starts(STYLE, code);
    plays(polls, play);
}

/// A voter whose window is open.
fn plays(polls: &Polls<'_>, play: impl FnOnce(&mut Player<'_>, &mut Pilot)) {
    let prepared = polls.prepared(STYLE);
    let mut pilot = Pilot::new(Plan::of_firsts(&prepared.style, None, 0));
    let mut player = Player::begin(&prepared, &polls.setup).expect("the window is there");
    play(&mut player, &mut pilot);
}

const fn count(finished: usize, stopped: usize, printed: usize, spoiled: usize) -> Count {
    Count { finished, stopped, printed, spoiled, entered: 0, returned: 0 }
}

#[test]
fn twelve_incidents_and_more_through_the_real_windows() {
    if std::env::var_os("EVENHAND_SPEECH_TESTS").is_none() {
        println!("skipped: the drills: tests/run starts the speech service that they need");
        return;
    }
    let room = Room::new("drills").expect("a folder can be made");
    prepare(&room);
    let display = VirtualDisplay::start(SIZE).expect("a display");
    let source =
        Source::Sealed { file: room.path("election.sealed.tar"), trust: room.path("trust.json") };
    let polls = Polls {
        room: &room,
        desk: Desk::at_display(&room, &display, "drill"),
        setup: setup(&room, &display, Road::Keys),
        opened: source.open().expect("it is sealed"),
    };
    let station = DayStation::start(&room, &display, Starting::USUAL);
    polls.desk.at("home-closed-heading").takes_keys().opens(200);
    voters_who_leave(&polls);
    devices_that_fail(&polls);
    workers_who_interrupt(&polls);
    codes_and_sound(&polls);
    let station = a_loss_of_power(&polls, &display, station);
    the_paper_comes_out_even(&polls);
    drop(station);
    a_missing_worker(&polls, &display);
    a_wrong_clock(&polls, &display);
    a_full_disk(&polls, &display);
}

/// The voter leaves before the print, with the sheet in the tray, with the sheet in the reader.
fn voters_who_leave(polls: &Polls<'_>) {
    for (name, screen, paper, told, added) in [
        (
            "the voter leaves before the print",
            ScreenKind::Review,
            "paper-nowhere",
            "stop-done",
            Count { entered: 1, ..count(0, 1, 0, 0) },
        ),
        (
            "the voter leaves with the sheet in the tray",
            ScreenKind::CheckPaper,
            "paper-tray",
            "stop-done-spoiled",
            Count { entered: 1, ..count(0, 1, 1, 1) },
        ),
        (
            "the voter leaves with the sheet in the reader",
            ScreenKind::ReadBack,
            "paper-reader",
            "stop-done-spoiled",
            Count { entered: 1, ..count(0, 1, 1, 1) },
        ),
    ] {
        polls.drill(name, added, |polls| {
            voter(polls, |player, pilot| {
                until(player, pilot, screen);
                player.worker_comes().expect("the key is there");
            });
            polls.comes_in();
            polls.shows_no_choice();
            polls.stops("stop-left", paper, told);
        });
    }
}

/// Paper is stuck, runs out; the reader is unplugged. The voter calls a worker, who mends it and gives
/// the station back, and the ballot is printed with the choices that were kept.
fn devices_that_fail(polls: &Polls<'_>) {
    type Mend = fn(&Polls<'_>);
    let jam: Mend = |polls| {
        polls.desk.row("home-paper").at("paper-heading").row("paper-jam-cleared");
        polls.desk.at("jam-count-heading").write("1").key(Keysym::RETURN).told("paper-jam-done");
    };
    let paper: Mend = |polls| {
        polls.desk.row("home-paper").at("paper-heading").row("paper-add");
        polls.desk.at("paper-add-heading").write("20").key(Keysym::RETURN).told("paper-added");
    };
    let plug: Mend = |_| {};
    let printer = ("printer.txt", ScreenKind::PrintFault);
    let reader = ("reader.txt", ScreenKind::ReadFault);
    let (empty, stuck) = (PrintFault::OutOfPaper, PrintFault::Jam);
    for (name, (file, screen), word, faults, mend) in [
        ("paper is stuck", printer, "jam", (Some(stuck), None), jam),
        ("paper runs out", printer, "out-of-paper", (Some(empty), None), paper),
        ("the reader is unplugged", reader, "unplugged", (None, Some(ReadFault::NoSheet)), plug),
    ] {
        let added = Count { entered: 1, returned: 1, ..count(1, 0, 1, 0) };
        polls.drill(name, added, |polls| {
            polls.device(file, word);
            voter(polls, |player, pilot| {
                player.expect_devices(faults.0, faults.1);
                until(player, pilot, screen);
                take(player, Message::CallWorker);
                focus(player, Message::WorkerHere);
                player.choose_without_waiting().expect("the row is taken");
                polls.comes_in();
                polls.shows_no_choice();
                mend(polls);
                polls.desk.at("entry-heading").row("entry-go-on");
                polls.device(file, "");
                player.expect_devices(None, None);
                player.is_back(WorkerSays::GoOn).expect("the visit goes on");
                assert_eq!(player.view().screen, screen, "where the voter was");
                finish(player, pilot);
            });
            polls.desk.told("visit-finished").at("home-open-heading");
        });
    }
    assert_eq!(polls.desk.logged("paper-jammed"), 1);
}

/// A worker interrupts in the middle of a contest, once without a code and once with one; a voter
/// has been given the wrong ballot.
fn workers_who_interrupt(polls: &Polls<'_>) {
    let added = Count { entered: 1, returned: 1, ..count(1, 0, 1, 0) };
    polls.drill("a worker interrupts", added, |polls| {
        voter(polls, |player, pilot| {
            until(player, pilot, ScreenKind::Contest);
            player.press(Press::Choose).expect("the first is chosen");
            let before = quiet(player.view());
            player.worker_comes().expect("the key is there");
            polls.desk.at("code-heading").takes_keys().code("111222").told("code-wrong");
            polls.shows_no_choice();
            // Without a code nobody is in: the voter has the window back, hidden.
            polls.desk.key(ESCAPE).at("visit-heading");
            player.is_back(WorkerSays::NotIn).expect("the window is there");
            polls.shows_no_choice();
            take(player, Message::WorkerReturn);
            assert_eq!(quiet(player.view()), before, "the voter goes back by themselves");
            player.worker_comes().expect("the key is there");
            polls.comes_in();
            polls.shows_no_choice();
            polls.desk.row("entry-go-on");
            player.is_back(WorkerSays::GoOn).expect("the visit goes on");
            assert_eq!(quiet(player.view()), before, "it goes on where it was");
            finish(player, pilot);
        });
        polls.desk.told("visit-finished").at("home-open-heading");
    });
    let added = Count { entered: 1, ..count(1, 1, 1, 0) };
    polls.drill("the wrong ballot", added, |polls| {
        voter(polls, |player, _| {
            take(player, Message::OpeningNotMine);
            focus(player, Message::WorkerHere);
            player.choose_without_waiting().expect("the row is taken");
        });
        polls.comes_in();
        polls.stops("stop-wish", "paper-nowhere", "stop-done");
        voter(polls, finish);
        polls.desk.told("visit-finished").at("home-open-heading");
    });
}

/// Wrong codes; then headphones that are pulled out in mid-visit and put in again.
fn codes_and_sound(polls: &Polls<'_>) {
    polls.drill("wrong codes", count(1, 0, 1, 0), |polls| {
        let (refused, delayed) =
            (polls.desk.logged("log-in-refused"), polls.desk.logged("log-in-delayed"));
        polls.desk.takes_keys().row("home-voter");
        for _ in 0..3 {
            polls.desk.code("111333").told("code-wrong");
        }
        polls.desk.code(WORKER).told("code-wait");
        assert_eq!(polls.desk.logged("log-in-refused") - refused, 3);
        assert_eq!(polls.desk.logged("log-in-delayed") - delayed, 1);
        // Who hasn't typed a wrong one needn't wait.
        polls.desk.is_somebody_else().nth(0).code(LEAD).at("find-heading");
        drop(fs::remove_file(polls.room.path("trace")));
        polls.desk.starts_after_code(STYLE);
        plays(polls, finish);
        polls.desk.told("visit-finished").at("home-open-heading");
    });
    polls.drill("the headphones are pulled out", count(1, 0, 1, 0), |polls| {
        started_by(polls, LEAD, |player, pilot| {
            until(player, pilot, ScreenKind::Contest);
            pactl(&["unload-module", &headphones_module()]);
            // The voter sees that there is no sound, and goes on with the screen.
            let until_lost = Instant::now() + COMES_WITHIN;
            while player.view().notice.is_none() {
                assert!(Instant::now() < until_lost, "nobody notices that the sound is gone");
                player.press(Press::Next).expect("the window follows");
            }
            let sink = format!("sink_name={HEADPHONES}");
            let one = ["format=float32le", "rate=44100", "channels=1"];
            pactl(&[&["load-module", "module-null-sink", &sink][..], &one].concat());
            // They are in again: the voter hears on.
            if !hears_on(&polls.room.path("trace")) {
                // Seen once: what whoever runs the system's service does then.
                println!("the speech service didn't speak again; it is started anew");
                note("headphones put in again", "the speech service was started anew");
                println!("{}", pactl(&["list", "sink-inputs"]));
                speech_starts_anew();
                assert!(hears_on(&polls.room.path("trace")), "the sound doesn't come back");
            }
            finish(player, pilot);
        });
        polls.desk.told("visit-finished").at("home-open-heading");
    });
}

/// Whether the window has told that it is heard again.
fn hears_on(trace: &Path) -> bool {
    let until = Instant::now() + Duration::from_secs(40);
    while !fs::read_to_string(trace).unwrap_or_default().contains(SPEECH_BACK) {
        if Instant::now() > until {
            return false;
        }
        sleep(Duration::from_millis(50));
    }
    true
}

/// Ends the private speech service and starts it again.
fn speech_starts_anew() {
    let folder = std::env::var_os("EVENHAND_SPEECH_DIR").expect("tests/run has started it");
    let id = fs::read_to_string(Path::new(&folder).join("speech-dispatcher.pid")).expect("its id");
    let killed = Command::new("kill").args(["-KILL", id.trim()]).status().expect("kill runs");
    assert!(killed.success());
    let script = evenhand_tests::stage::workspace().join("demo/speech-service");
    let output = Command::new(script).arg("start").arg(folder).output().expect("it runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

/// Asks the sound server of these tests, as a plug that is pulled does.
fn pactl(arguments: &[&str]) -> String {
    let output = Command::new("pactl").args(arguments).output().expect("pactl runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// What the sound server calls the headphones' driver.
fn headphones_module() -> String {
    let listed = pactl(&["list", "short", "modules"]);
    let wanted = format!("sink_name={HEADPHONES}");
    let line = listed.lines().find(|line| line.split_whitespace().any(|word| word == wanted));
    let number = line.and_then(|line| line.split_whitespace().next());
    number.expect("the headphones are there").to_owned()
}

/// Power is lost while a sheet comes out: the station starts with the search for it.
fn a_loss_of_power(polls: &Polls<'_>, display: &VirtualDisplay, station: DayStation) -> DayStation {
    let mut running = Some(station);
    let mut started = None;
    polls.drill("power is lost in mid-print", count(0, 1, 1, 1), |polls| {
        let sheets = polls.desk.sheets();
        polls.device("printer.txt", "slow");
        let ballots = |room: &Room| fs::read_dir(room.path("tray")).expect("a tray").count();
        let before = ballots(polls.room);
        started_by(polls, LEAD, |player, pilot| {
            until(player, pilot, ScreenKind::AskPrint);
            player.choose_without_waiting().expect("print is taken");
        });
        let until = Instant::now() + COMES_WITHIN;
        while ballots(polls.room) == before {
            assert!(Instant::now() < until, "nothing is printed");
            sleep(Duration::from_millis(20));
        }
        running.take().expect("it runs").loses_power();
        // The voter's window goes with it.
        let until = Instant::now() + COMES_WITHIN;
        while polls.desk.eyes.has_window("Evenhand").expect("the display answers") {
            assert!(Instant::now() < until, "the voter's window outlives its station");
            sleep(Duration::from_millis(20));
        }
        polls.device("printer.txt", "");
        started = Some(DayStation::start(polls.room, display, Starting::USUAL));
        polls.desk.at("search-power-heading").takes_keys();
        polls.shows_no_choice();
        polls.desk.row("paper-tray").at("who-heading").nth(0).code(LEAD);
        polls.desk.at("found-count-heading").write("2").key(Keysym::RETURN);
        polls.desk.told("stop-done-spoiled").at("home-open-heading");
        assert_eq!(polls.desk.sheets() - sheets, 2, "the sheets that were found are counted");
    });
    assert_eq!(polls.desk.logged("power-lost"), 1);
    started.expect("it was started")
}

/// After all this the paper still comes out even, and the station closes.
fn the_paper_comes_out_even(polls: &Polls<'_>) {
    let desk = &polls.desk;
    desk.row("home-close").two_codes().at("close-left-heading");
    // 200 and 20 were put in; two copies of a report came out.
    let left = 220 - desk.sheets() - 2;
    desk.write(&left.to_string()).key(Keysym::RETURN).at("seals-heading").write("b-0421");
    desk.key(Keysym::RETURN).at("close-heading");
    assert_eq!(desk.now()[1], "-", "the paper comes out even");
    desk.key(Keysym::RETURN).at("closed-heading").told("report-done");
    desk.row("closed-export").told("export-done");
    let report = polls.room.path("station/reports/closing-1.pdf");
    let text = Command::new("pdftotext").arg("-layout").arg(report).arg("-").output();
    let text = String::from_utf8_lossy(&text.expect("poppler is there").stdout).into_owned();
    assert!(text.contains("The paper is all accounted for"), "{text}");
    let key = fs::read_to_string(polls.room.path("export/station-key.txt")).expect("a key");
    let log = ["log", "verify", "export/log.txt", "--station-key", key.trim()];
    evenhand_tests::desk::office(polls.room, &log);
}

/// The lead is alone: nothing is opened.
fn a_missing_worker(polls: &Polls<'_>, display: &VirtualDisplay) {
    let starting = Starting { workers: "alone.json", folder: "alone", ..Starting::USUAL };
    let station = DayStation::start(polls.room, display, starting);
    let desk = &polls.desk;
    desk.at("home-closed-heading").takes_keys().row("home-open").at("who-heading").nth(0);
    desk.code(LEAD).at("who-second-heading");
    assert_eq!(desk.now()[3], "", "nobody can be taken");
    desk.can_read("nobody who may do this");
    desk.key(ESCAPE).at("home-closed-heading");
    let log = fs::read_to_string(polls.room.path("alone/log.txt")).expect("a log");
    assert!(!log.contains("\"opened\""));
    note("drill: the second worker is missing", "as it must be");
    drop(station);
}

/// The clock stands years ago: the self-test says so, and opening warns.
fn a_wrong_clock(polls: &Polls<'_>, display: &VirtualDisplay) {
    let starting =
        Starting { clock: Some("@2001-01-01 08:00:00"), folder: "clock", ..Starting::USUAL };
    let station = DayStation::start(polls.room, display, starting);
    let desk = &polls.desk;
    desk.at("home-closed-heading").takes_keys().self_test([Keysym::DOWN, Keysym::RETURN]);
    let says = desk.lines().iter().any(|line| line.contains("| home-test-failed |"));
    assert!(says, "{:?}", desk.lines());
    let log = fs::read_to_string(polls.room.path("clock/log.txt")).expect("a log");
    let failed = log.lines().any(|line| line.contains("\"clock\"") && line.contains("failed"));
    assert!(failed && log.contains("\"clock-looks-wrong\""), "{log}");
    desk.key(Keysym::DOWN).key(Keysym::RETURN).at("home-closed-heading").row("home-open");
    desk.two_codes().at("purpose-heading").row("purpose-test").at("open-paper-heading");
    desk.write("9").key(Keysym::RETURN).at("seals-heading").write("b-1").key(Keysym::RETURN);
    desk.at("open-test-heading").told("open-not-tested");
    note("drill: the clock is wrong", "as it must be");
    drop(station);
}

/// A small file system, which goes with this value.
struct SmallDisk<'a>(&'a Path);

impl Drop for SmallDisk<'_> {
    fn drop(&mut self) {
        drop(Command::new("umount").arg("--lazy").arg(self.0).status());
    }
}

/// The disk is full: the station stops before anything goes on that its log doesn't have, and goes
/// on where it was when there is room.
fn a_full_disk(polls: &Polls<'_>, display: &VirtualDisplay) {
    let folder = polls.room.path("small");
    fs::create_dir_all(&folder).expect("a folder");
    let mounted = Command::new("mount")
        .args(["-t", "tmpfs", "-o", "size=256k,mode=700", "tmpfs"])
        .arg(&folder)
        .status()
        .expect("mount runs");
    if !mounted.success() {
        assert!(std::env::var_os("CI").is_none(), "a small disk can't be made");
        println!("skipped: the drill of the full disk: only root can make a small disk");
        return;
    }
    let disk = SmallDisk(&folder);
    let starting = Starting { folder: "small", ..Starting::USUAL };
    let mut station = DayStation::start(polls.room, display, starting);
    let desk = &polls.desk;
    desk.at("home-closed-heading").takes_keys().opens(50);
    let filler = folder.join("filler");
    // Until the last byte is taken.
    let filled = fs::write(&filler, vec![0u8; 512 * 1024]);
    assert!(filled.is_err(), "the disk isn't full");
    // The log's last page still has room for some entries.
    let is_either = |heading: &str| {
        desk.waits(heading, |now| now[0] == heading || now[0] == "halted-heading");
        desk.now()[0] == "halted-heading"
    };
    for _ in 0..40 {
        desk.row("home-paper").code(WORKER);
        if is_either("paper-heading") {
            break;
        }
        desk.row("paper-jam-cleared").at("jam-count-heading").write("1").key(Keysym::RETURN);
        if is_either("home-open-heading") {
            break;
        }
    }
    desk.at("halted-heading");
    desk.can_read("storage is full");
    // It ends on this, and shows nothing more.
    desk.eyes.key(Keysym::RETURN).expect("a key");
    station.0.wait().expect("it ends");
    let log = fs::read_to_string(folder.join("log.txt")).expect("a log");
    assert!(log.contains("\"storage-full\""), "in the room that was kept the log says why: {log}");
    fs::remove_file(&filler).expect("it was there");
    let station = DayStation::start(polls.room, display, starting);
    desk.at("home-open-heading").takes_keys().row("home-suspend").at("who-heading").nth(0);
    desk.code(LEAD).at("suspend-heading").key(Keysym::RETURN).at("home-suspended-heading");
    note("drill: storage is full", "as it must be");
    drop(station);
    drop(disk);
}
