//! Folders that lack something or that others may use, and events that have a call of their own:
//! each is refused with words, and nothing is changed.

use std::fs;

use evenhand_app::ledger::{Ledger, LedgerError};
use evenhand_event_log::{Counts, Digest, Event, Offset, Polls, State, StopPlace};

use crate::{Home, NOW, check_clean, set_mode, sheets, small_day, stopped};

/// A folder after a small day.
fn used(name: &str) -> Home {
    let home = Home::new(name);
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    ledger.shut_down(NOW).unwrap();
    home
}

#[test]
fn what_others_may_use_is_refused() {
    let home = used("modes");
    let key = home.station().join("station.key");
    for mode in [0o644, 0o640, 0o604, 0o660, 0o601] {
        set_mode(&key, mode);
        home.check_refused("others may use it");
        home.check_refused("`chmod 600`");
    }
    set_mode(&key, 0o600);
    for mode in [0o755, 0o777, 0o750, 0o701] {
        set_mode(&home.station(), mode);
        home.check_refused("`chmod 700`");
    }
    set_mode(&home.station(), 0o700);
    assert!(home.open().is_ok());
}

#[test]
fn what_is_missing_or_wrong_is_named() {
    let home = used("missing");
    let whole = home.files();
    let without = |names: &[&str]| {
        let mut files = whole.clone();
        files.retain(|name, _| !names.contains(&name.as_str()));
        home.fill(&files);
    };
    let with = |name: &str, bytes: &[u8]| {
        let mut files = whole.clone();
        files.insert(name.to_owned(), bytes.to_vec());
        home.fill(&files);
    };
    without(&["station.key"]);
    home.check_refused("the station's key is gone, and its log is there");
    without(&["station.key", "log.txt"]);
    home.check_refused("the station's key is gone");
    without(&["log.txt"]);
    home.check_refused("the station's log is gone");
    without(&["sheets.json"]);
    home.check_refused("the counts of printed sheets are gone");
    for bad in [
        "",
        "{}",
        "{\"printed\":4,\"lifetime\":3}",
        "{\"printed\":-1,\"lifetime\":3}",
        "{\"printed\":1,\"lifetime\":3,\"style\":1}",
    ] {
        with("sheets.json", bad.as_bytes());
        home.check_refused("Put the right file back");
    }
    with("sheets.json", &[b' '; 1025]);
    home.check_refused("more than 1024 bytes");
    with("station.key", b"no key");
    home.check_refused("no Ed25519 key pair");
    with("station.key", &[0; 1025]);
    home.check_refused("more than 1024 bytes");
    let other = used("missing-other");
    with("station.key", &other.files()["station.key"]);
    home.check_refused("begun with another station's key");
    with("log.txt", b"not a log\n");
    home.check_refused("line 1 of the log is wrong");
    let mut changed = whole["log.txt"].clone();
    let at = changed.len() / 2;
    changed[at] ^= 1;
    with("log.txt", &changed);
    home.check_refused("which no loss of power explains");

    home.fill(&whole);
    let wrong = Ledger::open(&home.station(), "Q-08".parse().unwrap(), Offset::UTC, NOW);
    let error = wrong.map(|(_, found)| found).unwrap_err().to_string();
    assert!(error.contains("the log is of station Q-07, and this is station Q-08"), "{error}");
    assert_eq!(home.files(), whole);
    let file = home.station().join("log.txt");
    let wrong = Ledger::open(&file, crate::station(), Offset::UTC, NOW);
    let error = wrong.map(|(_, found)| found).unwrap_err().to_string();
    assert!(error.contains("not a directory"), "{error}");
    let wrong = Ledger::open(&home.station().join("a/b"), crate::station(), Offset::UTC, NOW);
    assert!(matches!(wrong, Err(LedgerError::File { .. })));
    assert!(home.open().is_ok());
}

/// An older count of sheets than the log's is said, since no loss of power makes it.
#[test]
fn an_older_count_is_said() {
    let home = used("older");
    fs::write(home.station().join("sheets.json"), "{\"printed\":1,\"lifetime\":1}").unwrap();
    assert!(home.open().unwrap().1.are_sheets_short);
}

#[test]
fn events_with_a_call_of_their_own_are_refused() {
    let home = Home::new("own");
    let (mut ledger, _) = home.open().unwrap();
    let before = home.files();
    let (counts, digest) = (Counts::default(), Digest::of(b"an election"));
    for event in [
        Event::StationStarted,
        Event::PowerLost,
        Event::ShutDown,
        Event::ElectionAccepted { digest },
        Event::Opened { state: State::Test, counts },
        Event::Closed { counts },
        Event::BallotPrinted,
        Event::LogRecovered { bytes: 1 },
    ] {
        let error = ledger.record(event, NOW).unwrap_err();
        assert!(matches!(error, LedgerError::OwnCall { .. }), "{error}");
    }
    assert!(matches!(ledger.close_polls(NOW), Err(LedgerError::PollsClosed)));
    assert_eq!(home.files(), before);
    small_day(&mut ledger);
    ledger.record(Event::VisitStarted, NOW).unwrap();
    let before = home.files();
    assert!(matches!(ledger.close_polls(NOW), Err(LedgerError::InVisit)));
    assert!(matches!(ledger.open_polls(State::Test, NOW), Err(LedgerError::PollsOpen)));
    let seal = "A-1".parse().unwrap();
    assert!(matches!(ledger.record(Event::SealNoted { seal }, NOW), Err(LedgerError::Refused(_))));
    assert_eq!(home.files(), before);
    // The ledger goes on after each refusal.
    ledger.record_printed(sheets(1), NOW).unwrap();
    ledger.record(stopped(StopPlace::BeforePrint), NOW).unwrap();
    ledger.close_polls(NOW).unwrap();
    assert_eq!(ledger.polls(), Polls::Closed);
    check_clean(&home.log(), ledger.public_key());
}
