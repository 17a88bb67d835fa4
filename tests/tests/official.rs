//! An official opening through the real windows, on the real print service and SANE's program: an
//! election that its office has sealed for the day itself, two workers, one voter, closing, the log
//! verified. A window that marks official ballots writes no trace, so its screens are read off the
//! display by tesseract. Sheets come out of CUPS's backend, which here is a script; somebody lays each
//! side on the scanner, which here is another.
//!
//! Runs where `tests/run` has started a speech service (`EVENHAND_SPEECH_TESTS`).
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "this test looks at what programs leave, and stops where that isn't as it must be"
)]

#[path = "../../kiosk/app/tests/printers/service.rs"]
#[expect(
    dead_code,
    clippy::unwrap_used,
    clippy::print_stderr,
    reason = "the app's own tests of printing look at more of it"
)]
mod service;

use std::fs;
use std::os::unix::fs::PermissionsExt as _;
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_app::source::Source;
use evenhand_app::station_file::{SealedNames, StationFile};
use evenhand_definitions::Opening;
use evenhand_rules::BallotState;
use evenhand_scan::ScannerChoice;
use evenhand_tests::desk::{
    COMES_WITHIN, DayStation, Desk, SIZE, WORKER, office, prepare_with, setup,
};
use evenhand_tests::display::{Keysym, VirtualDisplay};
use evenhand_tests::figures::note;
use evenhand_tests::open::{Room, program};
use evenhand_tests::pilot::{Pilot, Plan};
use evenhand_tests::player::{Player, Road, Setup};
use evenhand_tests::stage::demo_folder;

use service::{PrintService, need};

/// The demo's shortest style.
const STYLE: &str = "103";

/// The demo's election as its office would publish it for the day itself.
fn official_folder(room: &Room) -> PathBuf {
    let folder = room.path("general");
    fs::create_dir(&folder).expect("a folder");
    for name in ["definition.json", "settings.json", "streets.csv"] {
        fs::copy(demo_folder().join(name), folder.join(name)).expect("the demo's file");
    }
    let path = folder.join("definition.json");
    let test = fs::read_to_string(&path).expect("the definition");
    let official = test.replacen("\"IsTest\": true", "\"IsTest\": false", 1);
    assert_ne!(test, official, "the demo's election is a test");
    fs::write(path, official).expect("a file");
    folder
}

#[test]
fn polls_open_officially_by_two_workers_and_ballots_count() {
    if std::env::var_os("EVENHAND_SPEECH_TESTS").is_none() {
        println!("skipped: an official opening: tests/run starts the speech service that it needs");
        return;
    }
    let room = Room::new("official").expect("a folder can be made");
    prepare_with(&room, &official_folder(&room));
    let display = VirtualDisplay::start(SIZE).expect("a display");
    let desk = Desk::at_display(&room, &display, "official");
    let (Some(printer), Some(scanimage)) = (PrintService::start(), need("scanimage", "sane-utils"))
    else {
        return;
    };
    let mut station = begins(&room, &display, &printer, &scanimage);
    desk.at("home-closed-heading").takes_keys().row("home-open").two_codes();
    desk.at("purpose-heading").row("purpose-official").at("open-paper-heading").write("50");
    desk.key(Keysym::RETURN).at("seals-heading").write("b-0417").key(Keysym::RETURN);
    desk.at("open-official-heading").can_read("OFFICIAL").key(Keysym::RETURN);
    desk.at("home-open-heading").told("report-done");
    desk.row("home-voter").code(WORKER).at("find-heading").finds(STYLE);
    let printed = a_voter(&room, &display, &desk);
    desk.told("visit-finished").at("home-open-heading").takes_keys();
    desk.row("home-close").two_codes().at("close-left-heading");
    // Two copies of the opening's report came out of the same printer.
    let left = 50 - desk.sheets() - 2;
    desk.write(&left.to_string()).key(Keysym::RETURN).at("seals-heading").write("b-0420");
    desk.key(Keysym::RETURN).at("close-heading");
    assert_eq!(desk.now()[1], "-", "the paper comes out even");
    desk.key(Keysym::RETURN).at("closed-heading").told("report-done");
    desk.row("closed-export").told("export-done").key(Keysym::DOWN).key(Keysym::RETURN);
    desk.at("home-closed-heading").row("home-shut-down").code(WORKER);
    station.ends();
    what_is_left(&room, &printer, &printed);
    no_trace_of_official_ballots(&room, &display);
}

/// The station as set-up leaves it, with the printer and a scanner into which somebody lays the next
/// side of what came out last.
fn begins(
    room: &Room,
    display: &VirtualDisplay,
    printer: &PrintService,
    scanimage: &Path,
) -> DayStation {
    let scanner = ScannerChoice::new("pnm:0".to_owned(), Vec::new(), false, false);
    let sealed = SealedNames::new("election.sealed.tar".to_owned(), "trust.json".to_owned());
    let taught = StationFile {
        printer: Some("ballots".parse().expect("a printer's name")),
        scanner: Some(scanner.expect("a scanner's name")),
        sealed: Some(sealed.expect("two names")),
        ..StationFile::with_pitch(PixelPitch::USUAL)
    };
    taught.save(&room.path("station.json")).expect("a file");
    printer.set("rasterise", "");
    let script = format!(
        "#!/bin/sh\n\
         turn=$(( $(cat {out}turn 2>/dev/null || echo 0) + 1 ))\n\
         echo $turn >{out}turn\n\
         side=$(ls {out}side-*.pgm | sed -n \"${{turn}}p\")\n\
         exec {scanimage} \"$@\" --filename=\"$side\"\n",
        out = printer.out("").display(),
        scanimage = scanimage.display(),
    );
    fs::create_dir_all(room.path("bin")).expect("a folder");
    fs::write(room.path("bin/scanimage"), script).expect("a file");
    let executable = fs::Permissions::from_mode(0o700);
    fs::set_permissions(room.path("bin/scanimage"), executable).expect("its mode");
    let path = std::env::var("PATH").expect("a path");
    let child = Command::new(program().expect("the station is built"))
        .current_dir(room.folder())
        .env("DISPLAY", display.name())
        .env("PATH", format!("{}:{path}", room.path("bin").display()))
        .args(["day", "--station-file", "station.json", "--workers", "workers.json"])
        .args(["--station-folder", "station", "--export-folder", "export"])
        .args(["--place", "Larkfield School", "--number", "7", "--utc-offset", "-360"])
        .args(["--window", "1920x1080", "--ignore-again", "0"])
        .args(["--worker-trace", "worker-trace", "--print-service"])
        .arg(printer.socket())
        .stdout(Stdio::null())
        .process_group(0)
        .spawn()
        .expect("the station starts");
    DayStation(child)
}

/// Plays a visit by keys; returns the ballot that must have been printed, and that was.
fn a_voter(room: &Room, display: &VirtualDisplay, desk: &Desk<'_>) -> Vec<u8> {
    let until = Instant::now() + COMES_WITHIN;
    while !desk.eyes.has_window("Evenhand").expect("the display answers") {
        assert!(Instant::now() < until, "the voter's window doesn't open");
        sleep(Duration::from_millis(20));
    }
    let source =
        Source::Sealed { file: room.path("election.sealed.tar"), trust: room.path("trust.json") };
    let opened = source.open().expect("it is sealed");
    let mut prepared =
        Prepared::of(&opened, Opening::Election, Some(STYLE), None).expect("a style");
    assert_eq!(prepared.begin.state, BallotState::Official);
    prepared.begin.is_attended = true;
    let setup = Setup { trace: None, ..setup(room, display, Road::Keys) };
    let mut pilot = Pilot::new(Plan::of_firsts(&prepared.style, None, 0));
    let mut player = Player::begin(&prepared, &setup).expect("the window is there");
    while let Some(command) = player.next(&mut pilot) {
        player.press(command).expect("the window follows");
        if player.has_ended() {
            return player.played().document.clone();
        }
    }
    panic!("the visit stopped on {:?}: {:?}", player.view().screen, pilot.fault());
}

fn text_of(path: &Path) -> String {
    let output = Command::new("pdftotext").arg("-layout").arg(path).arg("-").output();
    String::from_utf8_lossy(&output.expect("poppler is there").stdout).into_owned()
}

/// The sheet is the one that was asked for and says neither "test" nor "demo", and the print service
/// keeps nothing of it; reports and log say "official", and the office's check of the log finds
/// nothing.
fn what_is_left(room: &Room, printer: &PrintService, printed: &[u8]) {
    // Two copies of the report before it and two after it.
    let came_out = printer.sheets();
    assert_eq!(came_out.len(), 5);
    assert!(came_out[2] == printed, "the sheet that was asked for came out");
    assert_eq!(printer.spooled(), Vec::<PathBuf>::new());
    fs::write(room.path("ballot.pdf"), printed).expect("a file");
    let text = text_of(&room.path("ballot.pdf")).to_uppercase();
    for word in ["TEST", "DEMO", "PRUEBA"] {
        assert!(!text.split(|c: char| !c.is_alphabetic()).any(|of| of == word), "{word}: {text}");
    }
    assert!(text.contains("QUILLBROOK"), "{text}");
    for name in ["opening-1.pdf", "closing-1.pdf"] {
        let text = text_of(&room.path("station/reports").join(name));
        assert!(text.contains("OFFICIAL") && text.contains("not certified"), "{name}: {text}");
    }
    let key = fs::read_to_string(room.path("export/station-key.txt")).expect("the key is there");
    let told = office(room, &["log", "verify", "export/log.txt", "--station-key", key.trim()]);
    note("an official opening: what the office says of its log", told.lines().next().unwrap_or(""));
    let log = fs::read_to_string(room.path("export/log.txt")).expect("the log is there");
    assert!(log.contains("\"state\":\"official\""), "{log}");
    let count = |id: &str| log.matches(&format!("\"{id}\"")).count();
    assert_eq!((count("visit-finished"), count("ballot-printed")), (1, 1));
    let whole = fs::read_to_string(room.path("station/log.txt")).expect("the log is there");
    let count = |id: &str| whole.matches(&format!("\"{id}\"")).count();
    assert_eq!((count("logged-in"), count("logged-out")), (6, 6), "each code is for one task");
}

/// Nobody can have a window with official ballots note its screens.
fn no_trace_of_official_ballots(room: &Room, display: &VirtualDisplay) {
    let output = Command::new(program().expect("the station is built"))
        .current_dir(room.folder())
        .env("DISPLAY", display.name())
        .args(["visit", "--official", "--sealed", "election.sealed.tar", "--trust", "trust.json"])
        .args(["--printer-folder", "tray", "--trace", "trace"])
        .output()
        .expect("it starts");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(!output.status.success() && said.contains("a demo or a test only"), "{said}");
    assert!(!room.path("trace").exists());
}
