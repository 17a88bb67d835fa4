//! First use, reopening, and what a loss of power at first use or between two logs leaves.

use std::os::unix::fs::PermissionsExt as _;
use std::process::Command;
use std::{fs, io};

use evenhand_app::ledger::{Found, Ledger, LedgerError, RunsWith, Start};
use evenhand_event_log::{Device, Digest, Event, Polls, Role, State};

use crate::{Home, NOW, check_clean, ids, report, small_day, station};

#[test]
fn first_use_makes_what_is_needed_for_the_stations_user_only() {
    let home = Home::new("first");
    let (ledger, found) = home.open().unwrap();
    let expected = Found {
        start: Start::First,
        cut: 0,
        polls: Polls::Closed,
        is_visit: false,
        paper: evenhand_event_log::VisitPaper::default(),
        are_sheets_short: false,
        refused: [0; 3],
    };
    assert_eq!(found, expected);
    assert_eq!(ledger.counts(), evenhand_event_log::Counts::default());
    let mode = |path: &std::path::Path| fs::metadata(path).unwrap().permissions().mode() & 0o7777;
    assert_eq!(mode(&home.station()), 0o700);
    let files = home.files();
    assert_eq!(
        files.keys().collect::<Vec<_>>(),
        ["log.txt", "reserve.bin", "sheets.json", "station.key"]
    );
    for name in files.keys() {
        assert_eq!(mode(&home.station().join(name)), 0o600, "{name}");
    }
    check_clean(&home.log(), ledger.public_key());
    assert_eq!(ids(&home.log(), ledger.public_key()), ["station-started"]);
    // Two stations have two keys.
    let other = Home::new("first-other");
    assert_ne!(other.open().unwrap().0.public_key(), ledger.public_key());
    // openssl takes the key, and finds the same public half.
    let output = Command::new("openssl")
        .args(["pkey", "-inform", "DER", "-pubout", "-outform", "DER", "-in"])
        .arg(home.station().join("station.key"))
        .output()
        .unwrap();
    assert_eq!(
        evenhand_event_log::PublicKey::from_file(&output.stdout),
        Ok(ledger.public_key()),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
}

#[test]
fn a_station_goes_on_where_it_was() {
    let home = Home::new("again");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    let (key, counts, lines) = (ledger.public_key(), ledger.counts(), ledger.lines());
    let digest = ledger.shut_down(NOW).unwrap();
    let (ledger, found) = home.open().unwrap();
    assert_eq!((found.start, found.cut), (Start::AfterShutDown, 0));
    assert_eq!(found.polls, Polls::Open(State::Official));
    assert_eq!((ledger.public_key(), ledger.counts()), (key, counts));
    assert_eq!(ledger.election(), Some(Digest::of(b"an election")));
    // Shut down with its checkpoint, started.
    assert_eq!(ledger.lines(), lines + 3);
    assert!(report(&home.log(), key).lines.iter().any(|line| line.digest == digest));
    assert_eq!(report(&home.log(), key).head_digest(), Some(ledger.head_digest()));
    check_clean(&home.log(), key);
}

#[test]
fn a_station_that_wasnt_shut_down_says_so() {
    let home = Home::new("lost");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    ledger.record(Event::VisitStarted, NOW).unwrap();
    ledger.record(Event::Suspended, NOW).unwrap();
    drop(ledger);
    let (ledger, found) = home.open().unwrap();
    let expected = Found {
        start: Start::AfterPowerLoss,
        cut: 0,
        polls: Polls::Suspended(State::Official),
        is_visit: true,
        paper: evenhand_event_log::VisitPaper::default(),
        are_sheets_short: false,
        refused: [0; 3],
    };
    assert_eq!(found, expected);
    let ids = ids(&home.log(), ledger.public_key());
    assert_eq!(ids[ids.len() - 2..], ["power-lost", "station-started"]);
    check_clean(&home.log(), ledger.public_key());
    // Lost again just after its loss was noted.
    drop(ledger);
    let (ledger, _) = home.open().unwrap();
    let key = ledger.public_key();
    drop(ledger);
    let log = home.log();
    let lines: Vec<&[u8]> = log.split_inclusive(|byte| *byte == b'\n').collect();
    fs::write(home.station().join("log.txt"), lines[..lines.len() - 1].concat()).unwrap();
    assert_eq!(home.open().unwrap().1.start, Start::AfterPowerLoss);
    check_clean(&home.log(), key);
}

/// The lock holds within one process and between two: `flock` of util-linux can't take it.
#[test]
fn two_stations_cant_write_one_folder() {
    let home = Home::new("two");
    let (ledger, _) = home.open().unwrap();
    home.check_refused("another station writes in this folder");
    assert!(matches!(home.open(), Err(LedgerError::InUse { .. })));
    let flock = || {
        Command::new("flock").arg("--nonblock").arg(home.station()).arg("true").status().unwrap()
    };
    assert!(!flock().success());
    drop(ledger);
    assert!(flock().success());
    assert!(home.open().is_ok());
}

/// Whatever of first use a loss of power leaves, the next start ends it, with the same key.
#[test]
fn first_use_is_ended_after_a_loss_of_power() {
    let home = Home::new("first-cut");
    let (ledger, _) = home.open().unwrap();
    let key = ledger.public_key();
    drop(ledger);
    let whole = home.files();
    let with = |names: &[(&str, &str)]| {
        home.fill(
            &names.iter().map(|(from, to)| ((*to).to_owned(), whole[*from].clone())).collect(),
        );
        let (ledger, found) = home.open().unwrap();
        check_clean(&home.log(), ledger.public_key());
        let names: Vec<String> = home.files().into_keys().collect();
        assert_eq!(names, ["log.txt", "reserve.bin", "sheets.json", "station.key"]);
        (found.start, ledger.public_key() == key)
    };
    let key = ("station.key", "station.key");
    assert_eq!(with(&[]), (Start::First, false));
    assert_eq!(with(&[("station.key", "station.key.new")]), (Start::First, false));
    assert_eq!(with(&[key]), (Start::First, true));
    assert_eq!(with(&[key, ("log.txt", "log.txt.new")]), (Start::First, true));
    assert_eq!(with(&[key, ("log.txt", "log.txt")]), (Start::AfterPowerLoss, true));
    assert_eq!(
        with(&[key, ("log.txt", "log.txt"), ("sheets.json", "sheets.json.new")]),
        (Start::AfterPowerLoss, true)
    );
}

#[test]
fn a_new_election_begins_a_new_log_that_names_the_old_one() {
    let home = Home::new("elections");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    let other = Digest::of(b"another election");
    assert!(matches!(ledger.accept_election(other, NOW), Err(LedgerError::PollsOpen)));
    assert!(matches!(ledger.begin_log(NOW), Err(LedgerError::PollsOpen)));
    ledger.accept_election(Digest::of(b"an election"), NOW).unwrap();
    let counts = ledger.close_polls(NOW).unwrap();
    assert_eq!((counts.sheets_printed, counts.lifetime_sheets), (3, 3));
    // The same election goes on in the same log.
    ledger.accept_election(Digest::of(b"an election"), NOW).unwrap();
    let (key, digest) = (ledger.public_key(), ledger.head_digest());
    let before = home.log();
    ledger.accept_election(other, NOW).unwrap();
    assert_eq!(fs::read(home.station().join("log-1.txt")).unwrap(), before);
    assert_eq!(report(&home.log(), key).previous, Some(digest));
    assert_eq!(ids(&home.log(), key), ["station-started", "election-accepted"]);
    ledger.open_polls(State::Official, NOW).unwrap();
    assert_eq!((ledger.counts().sheets_printed, ledger.counts().lifetime_sheets), (0, 3));
    assert_eq!(ledger.close_polls(NOW).unwrap().lifetime_sheets, 3);
    let digest = ledger.head_digest();
    ledger.begin_log(NOW).unwrap();
    assert_eq!(report(&home.log(), key).previous, Some(digest));
    drop(ledger);
    let (ledger, found) = home.open().unwrap();
    assert_eq!((found.start, ledger.election()), (Start::AfterPowerLoss, None));
    for (name, bytes) in home.files().iter().filter(|(name, _)| name.starts_with("log")) {
        println!("{name}: {} bytes", bytes.len());
        check_clean(bytes, key);
    }
    assert_eq!(home.files().keys().filter(|name| name.starts_with("log")).count(), 3);
}

/// A loss of power at each step at which a new log takes the old one's place.
#[test]
fn a_new_log_is_ended_after_a_loss_of_power() {
    let home = Home::new("new-log-cut");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    ledger.close_polls(NOW).unwrap();
    let (key, digest) = (ledger.public_key(), ledger.head_digest());
    let old = home.files();
    ledger.begin_log(NOW).unwrap();
    drop(ledger);
    let new = home.log();
    let check = |names: &[(&str, &[u8])], previous: Option<Digest>, logs: &[&str]| {
        let mut files = old.clone();
        files.remove("log.txt");
        files.extend(names.iter().map(|(name, bytes)| ((*name).to_owned(), bytes.to_vec())));
        home.fill(&files);
        let (ledger, found) = home.open().unwrap();
        assert_eq!(found.start, Start::AfterPowerLoss);
        assert_eq!(ledger.public_key(), key);
        assert_eq!(report(&home.log(), key).previous, previous);
        let found: Vec<String> =
            home.files().into_keys().filter(|name| name.starts_with("log")).collect();
        assert_eq!(found, logs);
        check_clean(&home.log(), key);
    };
    let log = old["log.txt"].as_slice();
    // While it is written, whole, and when the old one has been put aside.
    for length in [0, 1, new.len() / 2, new.len() - 1, new.len()] {
        check(&[("log.txt", log), ("log.txt.new", &new[..length])], None, &["log.txt"]);
    }
    let both = ["log-1.txt", "log.txt"];
    check(&[("log-1.txt", log), ("log.txt.new", &new)], Some(digest), &both);
    check(&[("log-1.txt", log), ("log.txt", &new)], Some(digest), &both);
    // A new log that doesn't follow the one put aside isn't taken.
    let mut files = old.clone();
    files.remove("log.txt");
    files.insert("log-1.txt".to_owned(), new.clone());
    files.insert("log.txt.new".to_owned(), new);
    home.fill(&files);
    assert!(matches!(home.open(), Err(LedgerError::LogLost { .. })));
}

/// A technician's way out of a log that can't be taken up: it is kept as it is.
#[test]
fn a_bad_log_is_put_aside_as_it_is() {
    let home = Home::new("anew");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    let key = ledger.public_key();
    drop(ledger);
    let bad = String::from_utf8(home.log()).unwrap().replace("visit-finished", "visit-started");
    fs::write(home.station().join("log.txt"), &bad).unwrap();
    home.check_refused("which no loss of power explains");
    let anew =
        || Ledger::begin_anew(&home.station(), station(), evenhand_event_log::Offset::UTC, NOW);
    let (ledger, found) = anew().unwrap();
    assert_eq!((found.start, found.polls), (Start::Anew, Polls::Closed));
    assert_eq!((ledger.counts().sheets_printed, ledger.counts().lifetime_sheets), (0, 3));
    assert_eq!(ledger.public_key(), key);
    check_clean(&home.log(), key);
    assert_eq!(fs::read(home.station().join("log-1.txt")).unwrap(), bad.as_bytes());
    drop(ledger);
    // Also where the log is gone.
    fs::remove_file(home.station().join("log.txt")).unwrap();
    home.check_refused("the station's log is gone");
    drop(anew().unwrap());
    assert!(home.open().is_ok());
    let gone: io::Result<_> = fs::remove_file(home.station().join("station.key"));
    gone.unwrap();
    assert!(matches!(anew(), Err(LedgerError::KeyLost { .. })));
}

/// What the station runs with is noted where it changes, and not where it doesn't.
#[test]
fn a_changed_program_or_station_file_is_noted() {
    let home = Home::new("runs-with");
    let start = |program: &[u8], taught: &[u8]| {
        let (mut ledger, found) = home.open().unwrap();
        let with = RunsWith { program: Digest::of(program), station_file: Digest::of(taught) };
        ledger.runs_with(with, found.start, NOW).unwrap();
        let (key, log) = (ledger.public_key(), home.log());
        ledger.shut_down(NOW).unwrap();
        check_clean(&home.log(), key);
        let count = |id: &str| ids(&log, key).iter().filter(|of| **of == id).count();
        (count("software-changed"), count("station-file-changed"))
    };
    assert_eq!(start(b"one", b"card"), (0, 0), "nothing ran before");
    assert_eq!(start(b"one", b"card"), (0, 0));
    assert_eq!(start(b"two", b"card"), (1, 0));
    assert_eq!(start(b"two", b"switches"), (1, 1));
    assert_eq!(start(b"two", b"switches"), (1, 1));
    // Whoever takes the note of what ran before away has it noted that nobody knows.
    let before = home.station().join("before.json");
    fs::remove_file(&before).unwrap();
    assert_eq!(start(b"two", b"switches"), (2, 2));
    for bad in [&b"{"[..], &[b' '; 5000], b"{\"program\":\"zz\",\"station_file\":null}"] {
        fs::write(&before, bad).unwrap();
        let (programs, _) = start(b"two", b"switches");
        assert_eq!(start(b"two", b"switches").0, programs);
    }
    assert_eq!(start(b"two", b"switches"), (5, 5));
}

/// A clock that goes back says so before anything else is written: verification asks for it.
#[test]
fn a_clock_that_went_back_is_noted_once() {
    let home = Home::new("behind");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    let key = ledger.public_key();
    let earlier = evenhand_event_log::Moment(NOW.0 - 3 * 3_600);
    ledger.record(Event::PaperAdded, earlier).unwrap();
    ledger.record(Event::PaperAdded, earlier).unwrap();
    ledger.close_polls(earlier).unwrap();
    // To the minute, once polls are closed.
    for moment in [earlier.0, earlier.0 - 120] {
        ledger.record(Event::Exported, evenhand_event_log::Moment(moment)).unwrap();
    }
    let all = ids(&home.log(), key);
    assert_eq!(all.iter().filter(|id| **id == "clock-looks-wrong").count(), 2, "{all:?}");
    check_clean(&home.log(), key);
}

/// Power and the clock may go together: what was cut is said after the clock.
#[test]
fn a_cut_log_and_a_clock_that_went_back() {
    let home = Home::new("cut-and-behind");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    let key = ledger.public_key();
    drop(ledger);
    let log = home.log();
    fs::write(home.station().join("log.txt"), &log[..log.len() - 9]).unwrap();
    let earlier = evenhand_event_log::Moment(NOW.0 - 40 * 24 * 3_600);
    let opened = Ledger::open(&home.station(), station(), evenhand_event_log::Offset::UTC, earlier);
    let (_, found) = opened.unwrap();
    assert!(found.cut > 0);
    let ids = ids(&home.log(), key);
    assert_eq!(
        ids[ids.len() - 4..],
        ["clock-looks-wrong", "log-recovered", "power-lost", "station-started"]
    );
    check_clean(&home.log(), key);
}

/// A device that didn't answer before a start is known not to, until it does.
#[test]
fn a_lost_device_is_known_after_a_start() {
    let home = Home::new("lost");
    let (mut ledger, _) = home.open().unwrap();
    assert!(!ledger.is_lost(Device::Printer));
    ledger.record(Event::DeviceLost { device: Device::Printer }, NOW).unwrap();
    ledger.shut_down(NOW).unwrap();
    let (mut ledger, _) = home.open().unwrap();
    assert!(ledger.is_lost(Device::Printer) && !ledger.is_lost(Device::Scanner));
    ledger.record(Event::DeviceBack { device: Device::Printer }, NOW).unwrap();
    assert!(!ledger.is_lost(Device::Printer));
}

/// Refused codes are known after a start, of each role until it logs in.
#[test]
fn refused_codes_are_counted_over_a_start() {
    let home = Home::new("refused-codes");
    let (mut ledger, found) = home.open().unwrap();
    assert_eq!(found.refused, [0; 3]);
    for (role, times) in [(Role::Worker, 4), (Role::Lead, 3)] {
        for _ in 0..times {
            ledger.record(Event::LogInRefused { role }, NOW).unwrap();
        }
    }
    ledger.record(Event::LoggedIn { role: Role::Worker }, NOW).unwrap();
    ledger.shut_down(NOW).unwrap();
    assert_eq!(home.open().unwrap().1.refused, [0, 3, 0], "a code forgives no other role's");
}

/// The technician's command: a log that can be taken up is left alone, one that can't is kept, and the
/// new one is clean.
#[test]
fn the_command_for_a_new_log() {
    let home = Home::new("new-log");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    let key = ledger.public_key();
    drop(ledger);
    let run = || {
        let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
            .args(["new-log", "--number", "Q-07", "--utc-offset", "-360", "--station-folder"])
            .arg(home.station())
            .output()
            .unwrap();
        let said = [output.stdout, output.stderr].concat();
        (output.status.success(), String::from_utf8(said).unwrap())
    };
    let before = home.files();
    let (is_done, said) = run();
    assert!(!is_done && said.contains("nothing was changed"), "{said}");
    assert_eq!(home.files(), before);
    // Of a folder that isn't there no station is made.
    let moved = home.station().with_extension("moved");
    fs::rename(home.station(), &moved).unwrap();
    let (is_done, said) = run();
    assert!(!is_done && said.contains("is there and can be written to"), "{said}");
    assert!(!home.station().exists());
    fs::rename(moved, home.station()).unwrap();
    let bad = String::from_utf8(home.log()).unwrap().replace("visit-finished", "visit-started");
    fs::write(home.station().join("log.txt"), &bad).unwrap();
    let (is_done, said) = run();
    assert!(is_done && said.contains("which no loss of power explains"), "{said}");
    assert!(said.contains(&key.to_string()) && said.contains("log-N.txt"), "{said}");
    assert_eq!(fs::read(home.station().join("log-1.txt")).unwrap(), bad.as_bytes());
    check_clean(&home.log(), key);
    let (ledger, found) = home.open().unwrap();
    assert_eq!((found.start, found.polls), (Start::AfterShutDown, Polls::Closed));
    drop(ledger);
}
