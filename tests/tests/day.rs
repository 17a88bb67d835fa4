//! The office, the workers and three voters, through the real programs and windows on a virtual
//! display: keys, seals, set-up, self-test, opening by two, three visits (in the largest letters by
//! touch, by two switches with a paper that is spoiled and replaced, in Spanish by keys), a fourth
//! that a worker comes into twice and stops, closing, the log verified by the office and its export
//! held to NIST's schema. Pictures of every worker's screen are left where `EVENHAND_PICTURES` says.
//!
//! Runs where `tests/run` has started a speech service (`EVENHAND_SPEECH_TESTS`).
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "this test looks at what programs leave, and stops where that isn't as it must be"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use evenhand_app::prepared::Prepared;
use evenhand_app::source::Source;
use evenhand_definitions::Opening;
use evenhand_tests::desk::{DayStation, Desk, SIZE, Starting, WORKER, office, prepare, setup};
use evenhand_tests::display::{Keysym, VirtualDisplay};
use evenhand_tests::figures::note;
use evenhand_tests::open::Room;
use evenhand_tests::pilot::{Pilot, Plan};
use evenhand_tests::player::{Player, Road, Setup};
use evenhand_tests::records::nist_folder;
use evenhand_visit::{
    Command as Press, LanguageIndex, Message, ScreenKind, Target, TypeSize, View, WorkerSays,
};

const BACKSPACE: Keysym = Keysym(0xff08);

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
    fs::create_dir(room.path("taught")).expect("a folder");
    let display = VirtualDisplay::start(SIZE).expect("a display");
    let desk = Desk::at_display(&room, &display, "day");
    let mut set_up = DayStation::set_up(&room, &display, "taught/station.json");
    desk.at("election-heading").takes_keys().sets_up();
    // It ends on this, and shows nothing more.
    desk.eyes.key(Keysym::RIGHT).expect("a key");
    set_up.ends();
    let starting = Starting { station_file: Some("taught/station.json"), ..Starting::USUAL };
    let mut station = DayStation::start(&room, &display, starting);
    desk.at("home-closed-heading").takes_keys();
    desk.self_test([Keysym::ONE, Keysym::TWO]).key(Keysym::DOWN).key(Keysym::RETURN);
    open(&desk);
    voters(&room, &display, &desk);
    stopped(&room, &display, &desk);
    close(&desk);
    station.ends();
    what_is_left(&room);
}

/// A wrong code first; then two workers, a test, 60 sheets, a seal.
fn open(desk: &Desk<'_>) {
    desk.at("home-closed-heading").row("home-open").at("who-heading").nth(0).code("739155");
    desk.told("code-wrong").code("739154").at("who-second-heading").nth(0).code(WORKER);
    desk.at("purpose-heading").row("purpose-test").at("open-paper-heading").write("600");
    desk.key(BACKSPACE).key(Keysym::RETURN).at("seals-heading").write("b-0417");
    desk.key(Keysym::RETURN).at("open-test-heading").key(Keysym::RETURN).at("home-open-heading");
    desk.told("report-done");
}

fn opened(room: &Room) -> evenhand_app::source::Opened {
    let source =
        Source::Sealed { file: room.path("election.sealed.tar"), trust: room.path("trust.json") };
    source.open().expect("it is sealed")
}

fn ready(opened: &evenhand_app::source::Opened, style: &str) -> Prepared {
    let mut prepared =
        Prepared::of(opened, Opening::Test, Some(style), None).expect("the style is there");
    prepared.begin.is_attended = true;
    prepared
}

fn voters(room: &Room, display: &VirtualDisplay, desk: &Desk<'_>) {
    let opened = opened(room);
    for (road, style, language) in
        [(Road::Mouse, "101-A", 0), (Road::Switches, "102", 0), (Road::Keys, "103", 1)]
    {
        desk.starts(style, WORKER);
        let prepared = ready(&opened, style);
        let mut pilot =
            Pilot::new(Plan::of_firsts(&prepared.style, Some(LanguageIndex(language)), 1));
        if road == Road::Mouse {
            pilot = pilot.with_largest_letters();
        }
        if road == Road::Switches {
            pilot = pilot.with_a_spoiled_paper();
        }
        let mut sizes = Vec::new();
        let setup = setup(room, display, road);
        let played = voted(&prepared, &setup, pilot, &mut sizes);
        desk.told("visit-finished").at("home-open-heading");
        if road == Road::Mouse {
            assert_eq!(sizes.last(), Some(&TypeSize::Largest), "the letters became the largest");
        }
        let printed = newest(&room.path("tray"));
        assert!(printed == played, "{style}: the sheet isn't what was asked for");
        desk.takes_keys();
    }
}

/// Lets a pilot play a visit to its end; returns the ballot that must have been printed last.
fn voted(
    prepared: &Prepared,
    setup: &Setup,
    mut pilot: Pilot,
    sizes: &mut Vec<TypeSize>,
) -> Vec<u8> {
    let mut player = Player::begin(prepared, setup).expect("the window is there");
    while let Some(command) = player.next(&mut pilot) {
        player.press(command).expect("the window follows");
        if player.has_ended() {
            return player.played().document.clone();
        }
        sizes.push(player.view().comfort.size);
    }
    panic!("the visit stopped on {:?}: {:?}", player.view().screen, pilot.fault());
}

/// The fourth voter's visit, found by house and street in a precinct that is split: a worker comes in
/// by the key and goes out again, the voter calls one, and that one stops the visit before anything
/// is printed.
fn stopped(room: &Room, display: &VirtualDisplay, desk: &Desk<'_>) {
    desk.starts("300 her", WORKER);
    let opened = opened(room);
    let prepared = ready(&opened, "101-B");
    let setup = setup(room, display, Road::Keys);
    let mut player = Player::begin(&prepared, &setup).expect("the window is there");
    player.press(Press::Choose).expect("a language is chosen");
    let before = View { notice: None, ..player.view() };
    player.worker_comes().expect("the key is there");
    desk.at("code-heading").takes_keys().code(WORKER).at("entry-heading").row("entry-go-on");
    player.is_back(WorkerSays::GoOn).expect("the visit goes on");
    // On a busy machine the sound may be lost for a moment.
    assert_eq!(View { notice: None, ..player.view() }, before, "where it was");
    let take = |player: &mut Player<'_>, wanted: &dyn Fn(&View) -> bool| {
        for _ in 0..60 {
            if wanted(&player.view()) {
                return;
            }
            player.press(Press::Next).expect("the focus goes on");
        }
        panic!("it isn't on {:?}", player.view().screen);
    };
    take(&mut player, &|view| view.focus == Some(Target::Help));
    player.press(Press::Choose).expect("help is taken");
    take(&mut player, &|view| focused(view, Message::HelpWorker));
    player.press(Press::Choose).expect("a worker is called");
    assert_eq!(player.view().screen, ScreenKind::Worker);
    take(&mut player, &|view| focused(view, Message::WorkerHere));
    player.choose_without_waiting().expect("the row is taken");
    desk.at("code-heading").takes_keys().code(WORKER).at("entry-heading").row("entry-stop");
    desk.at("stop-heading").row("stop-wish").at("stop-paper-heading").row("paper-nowhere");
    desk.told("stop-done").at("home-open-heading");
}

/// True where the focus is on the row with this message.
fn focused(view: &View, message: Message) -> bool {
    let Some(Target::Row(row)) = view.focus else { return false };
    view.rows.get(usize::from(row)).is_some_and(|row| row.label.message == message)
}

/// What the printer got last.
fn newest(tray: &Path) -> Vec<u8> {
    let entries = fs::read_dir(tray).expect("the tray is there");
    let mut files: Vec<PathBuf> =
        entries.map(|entry| entry.expect("an entry").path()).filter(|p| p.is_file()).collect();
    files.sort_by_key(|file| fs::metadata(file).and_then(|data| data.modified()).ok());
    fs::read(files.last().expect("something was printed")).expect("it can be read")
}

fn close(desk: &Desk<'_>) {
    desk.row("home-close").two_codes().at("close-left-heading");
    // Two copies of the opening's report came out of the same printer.
    let left = 60 - desk.sheets() - 2;
    desk.write(&left.to_string()).key(Keysym::RETURN).at("seals-heading").write("b-0420");
    desk.key(Keysym::RETURN).at("close-heading").key(Keysym::RETURN).at("closed-heading");
    desk.told("report-done").row("closed-export").told("export-done");
    desk.key(Keysym::DOWN).key(Keysym::RETURN).at("home-closed-heading");
    // The one who was here last needs only the code.
    desk.row("home-shut-down").code(WORKER);
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
    assert_eq!((count("ballot-printed"), count("opened"), count("closed")), (4, 1, 1));
    assert_eq!(count("ballot-spoiled"), 1, "one paper was spoiled and replaced");
    assert_eq!((count("worker-entered"), count("visit-returned-to")), (2, 1));
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
    // Each report has the seals that were noted for it, and no others.
    let opening = report("opening-1.pdf");
    assert!(opening.contains("B-0417") && !opening.contains("B-0420"), "{opening}");
    assert!(closing.contains("B-0420") && !closing.contains("B-0417"), "{closing}");
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
