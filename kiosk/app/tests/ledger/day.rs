//! A whole day: visits that finish, spoil, jam and stop; power lost in between; the counts at each
//! point, and the log that the office verifies.

use std::fs;
use std::path::Path;
use std::process::Command;

use evenhand_app::ledger::{Found, Ledger};
use evenhand_event_log::{Counts, Digest, Event, Polls, Role, State, StopPlace};

use crate::{Home, NOW, check_clean, ids, report, sheets, stopped};

/// One visit of a ballot of so many sheets, with so many spoiled before.
fn visit(ledger: &mut Ledger, count: u16, spoiled: u16) {
    ledger.record(Event::VisitStarted, NOW).unwrap();
    for _ in 0..spoiled {
        ledger.record_printed(sheets(count), NOW).unwrap();
        ledger.record(Event::BallotSpoiled, NOW).unwrap();
    }
    ledger.record_printed(sheets(count), NOW).unwrap();
    ledger.record(Event::VisitFinished, NOW).unwrap();
}

/// Power is lost, and the station starts again.
fn lose_power(home: &Home, ledger: Ledger) -> (Ledger, Found) {
    let counts = ledger.counts();
    drop(ledger);
    let (ledger, found) = home.open().unwrap();
    assert_eq!(ledger.counts(), counts);
    (ledger, found)
}

#[test]
fn the_counts_of_a_day_are_those_of_its_visits() {
    let home = Home::new("day");
    let (mut ledger, _) = home.open().unwrap();
    let election = Digest::of(b"an election");
    // The evening before: a test election, with its own counts.
    ledger.accept_election(election, NOW).unwrap();
    ledger.record(Event::TestSheetPrinted, NOW).unwrap();
    ledger.open_polls(State::Test, NOW).unwrap();
    visit(&mut ledger, 2, 0);
    let closed = ledger.close_polls(NOW).unwrap();
    assert_eq!((closed.sheets_printed, closed.lifetime_sheets), (2, 3));
    ledger.shut_down(NOW).unwrap();

    let (mut ledger, _) = home.open().unwrap();
    ledger.accept_election(election, NOW).unwrap();
    ledger.record(Event::LoggedIn { role: Role::Lead }, NOW).unwrap();
    ledger.record(Event::TestSheetPrinted, NOW).unwrap();
    ledger.open_polls(State::Official, NOW).unwrap();
    assert_eq!(ledger.counts(), Counts { lifetime_sheets: 4, ..Counts::default() });
    for at in 0..40 {
        visit(&mut ledger, 1 + at % 2, u16::from(at % 10 == 0));
    }
    // 20 ballots of one sheet and 20 of two, and four of one sheet spoiled.
    let (ledger, found) = lose_power(&home, ledger);
    assert_eq!((found.is_visit, found.polls), (false, Polls::Open(State::Official)));
    let (mut ledger, _) = lose_power(&home, ledger);
    // Paper jams after the first of two sheets; the voter goes.
    ledger.record(Event::VisitStarted, NOW).unwrap();
    ledger.record(Event::PaperJammed, NOW).unwrap();
    ledger.record_jam_cleared(1, NOW).unwrap();
    ledger.record(Event::WorkerEntered, NOW).unwrap();
    let (mut ledger, found) = lose_power(&home, ledger);
    assert!(found.is_visit);
    ledger.record(stopped(StopPlace::BeforePrint), NOW).unwrap();
    // Another leaves a ballot of two sheets in the tray.
    ledger.record(Event::VisitStarted, NOW).unwrap();
    ledger.record_printed(sheets(2), NOW).unwrap();
    ledger.record(stopped(StopPlace::SheetInTray), NOW).unwrap();
    ledger.record(Event::PaperAccounted, NOW).unwrap();
    ledger.record(Event::Suspended, NOW).unwrap();
    ledger.record(Event::TestSheetPrinted, NOW).unwrap();
    let (mut ledger, found) = lose_power(&home, ledger);
    assert_eq!(found.polls, Polls::Suspended(State::Official));
    ledger.record(Event::Resumed, NOW).unwrap();
    let expected = Counts {
        sheets_printed: 20 + 40 + 4 + 1 + 2,
        ballots_printed: 40 + 4 + 1,
        ballots_spoiled: 4,
        test_sheets: 1,
        sheets_jammed: 1,
        ballots_left: 1,
        visits_started: 42,
        visits_finished: 40,
        visits_stopped: 2,
        lifetime_sheets: 4 + 67 + 1,
    };
    assert_eq!(ledger.close_polls(NOW).unwrap(), expected);
    assert_eq!((ledger.counts(), ledger.polls()), (expected, Polls::Closed));
    ledger.record(Event::Exported, NOW).unwrap();
    let (key, digest, lines) = (ledger.public_key(), ledger.head_digest(), ledger.lines());
    check_clean(&home.log(), key);
    assert_eq!(u64::try_from(report(&home.log(), key).lines.len()).unwrap(), lines);
    // No entry of a ballot says how many sheets it had.
    let text = String::from_utf8(home.log()).unwrap();
    let printed: Vec<&str> =
        text.lines().filter(|line| line.contains("ballot-printed\"")).collect();
    assert!(printed.iter().all(|line| line.contains("\"event\":{\"id\":\"ballot-printed\"}")));
    assert_eq!(printed.len(), 46);
    assert_eq!(ids(&home.log(), key).iter().filter(|id| **id == "power-lost").count(), 4);

    // The office's own command finds nothing, and what the station printed is the log's end.
    let file = home.station().join("log.txt");
    let (is_good, said) = office(&file, &key.to_string(), &digest.groups(), lines);
    assert!(is_good && said.contains("Nothing was found."), "{said}");
    assert!(said.contains(&digest.groups()), "{said}");
    // One word changed, and it does.
    fs::write(&file, text.replacen("\"lead\"", "\"worker\"", 1)).unwrap();
    let (is_good, said) = office(&file, &key.to_string(), &digest.groups(), lines);
    assert!(!is_good && said.contains("was changed"), "{said}");
}

/// `evenhand-office log verify`, built by cargo where it isn't yet.
fn office(file: &Path, key: &str, head: &str, lines: u64) -> (bool, String) {
    let output = Command::new(env!("CARGO"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(["run", "--quiet", "--locked", "--offline", "-p", "evenhand-office", "--"])
        .args(["log", "verify"])
        .arg(file)
        .args(["--station-key", key, "--head", head, "--lines", &lines.to_string()])
        .output()
        .unwrap();
    let said = [output.stdout, output.stderr].concat();
    (output.status.success(), String::from_utf8(said).unwrap())
}
