//! Power lost while the log is written: its real file, cut at every byte of its last entries and at
//! many other places, is taken up, and the day can be ended with nothing for verification to find.

use std::fs;

use evenhand_app::ledger::{LedgerError, Start};
use evenhand_event_log::{Event, Polls, StopPlace};

use crate::{Home, NOW, check_clean, ids, report, sheets, small_day, stopped};

#[test]
fn a_log_cut_at_any_byte_is_taken_up() {
    let home = Home::new("cuts");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    ledger.record(Event::VisitStarted, NOW).unwrap();
    ledger.record_printed(sheets(1), NOW).unwrap();
    let key = ledger.public_key();
    drop(ledger);
    let whole = home.files();
    let log = &whole["log.txt"];
    let ends: Vec<usize> = (1..=log.len()).filter(|end| log[end - 1] == b'\n').collect();
    // Every byte of the last three lines, which are entries.
    let mut places: Vec<usize> = (ends[ends.len() - 4]..=log.len()).collect();
    let last = places.len();
    // And fifty more after the first line, by a fixed row of numbers (Knuth's MMIX generator, from
    // memory).
    let mut chance = 7_u64;
    for _ in 0..50 {
        chance =
            chance.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let span = u64::try_from(log.len() - ends[0] - 1).unwrap();
        places.push(ends[0] + 1 + usize::try_from((chance >> 16) % span).unwrap());
    }
    println!("{} places, {last} of them in the last three entries", places.len());
    assert!(last > 400);
    for place in places {
        let mut files = whole.clone();
        files.insert("log.txt".to_owned(), log[..place].to_vec());
        home.fill(&files);
        let kept = ends.iter().copied().filter(|end| *end <= place).max().unwrap();
        let (mut ledger, found) = home.open().unwrap();
        assert_eq!((found.start, found.cut), (Start::AfterPowerLoss, place - kept), "{place}");
        assert!(!found.are_sheets_short);
        // Nothing whole was touched, and what was cut is kept as it was.
        let files = home.files();
        assert_eq!(files["log.txt"][..kept], log[..kept], "{place}");
        let cut = files.get("cut-1.bin").map(Vec::as_slice);
        assert_eq!(cut, (place > kept).then(|| &log[kept..place]), "{place}");
        let report = report(&files["log.txt"], key);
        assert!(report.is_clean(), "{place}: {:#?}", report.finding_sentences());
        let said = ids(&files["log.txt"], key).contains(&"log-recovered");
        assert_eq!(said, place > kept, "{place}");
        // The day goes on and ends.
        if found.is_visit {
            ledger.record(stopped(StopPlace::SheetInTray), NOW).unwrap();
            ledger.record(Event::PaperAccounted, NOW).unwrap();
        }
        if found.polls != Polls::Closed {
            ledger.close_polls(NOW).unwrap();
        }
        ledger.shut_down(NOW).unwrap();
        check_clean(&home.log(), key);
        assert_eq!(home.open().unwrap().1.start, Start::AfterShutDown, "{place}");
    }
}

/// The first line is written whole before it has its name, so a cut there isn't a loss of power.
#[test]
fn a_log_without_its_first_line_is_refused_and_left() {
    let home = Home::new("headless");
    drop(home.open().unwrap());
    let whole = home.files();
    let end = whole["log.txt"].iter().position(|byte| *byte == b'\n').unwrap();
    for place in [0, 1, end / 2, end] {
        let mut files = whole.clone();
        files.insert("log.txt".to_owned(), whole["log.txt"][..place].to_vec());
        home.fill(&files);
        home.check_refused("hold no whole line");
    }
}

/// A second loss of power, after what was cut is kept and before the log is mended; and cuts that
/// follow each other.
#[test]
fn every_cut_is_kept() {
    let home = Home::new("cut-twice");
    let (ledger, _) = home.open().unwrap();
    let key = ledger.public_key();
    drop(ledger);
    let mut log = home.log();
    for number in 1..=3 {
        log.extend(format!("{{\"n\":{}", report(&log, key).lines.len()).bytes());
        fs::write(home.station().join("log.txt"), &log).unwrap();
        // Left by the loss before: whatever is in it, it is put away.
        fs::write(home.station().join("log.txt.new"), b"half of it").unwrap();
        let (_, found) = home.open().unwrap();
        assert!(found.cut > 4);
        log = home.log();
        check_clean(&log, key);
        assert!(home.station().join(format!("cut-{number}.bin")).exists());
        assert!(!home.station().join("log.txt.new").exists());
    }
    fs::write(home.station().join("cut-9999.bin"), b"").unwrap();
    log.push(b'{');
    fs::write(home.station().join("log.txt"), &log).unwrap();
    assert!(matches!(home.open(), Err(LedgerError::TooManyAside { .. })));
    assert_eq!(home.log(), log);
}

/// A file system that had lengthened the file and not written its bytes leaves zeros: they are kept
/// beside as what was cut, and the day goes on.
#[test]
fn zeros_at_the_end_are_taken_off_and_kept() {
    let home = Home::new("zeros");
    let (mut ledger, _) = home.open().unwrap();
    small_day(&mut ledger);
    let key = ledger.public_key();
    drop(ledger);
    let whole = home.files();
    let log = &whole["log.txt"];
    let before = log[..log.len() - 1].iter().rposition(|byte| *byte == b'\n').unwrap() + 1;
    for (kept, part) in [(log.len(), 0), (before, 0), (before, 1), (before, 40)] {
        for zeros in [1, 300, 4096] {
            let mut files = whole.clone();
            let mut bytes = log[..kept + part].to_vec();
            bytes.resize(kept + part + zeros, 0);
            files.insert("log.txt".to_owned(), bytes.clone());
            home.fill(&files);
            let (ledger, found) = home.open().unwrap();
            assert_eq!((found.start, found.cut), (Start::AfterPowerLoss, part + zeros));
            drop(ledger);
            let files = home.files();
            assert_eq!(files["cut-1.bin"], bytes[kept..]);
            assert_eq!(files["log.txt"][..kept], log[..kept]);
            assert!(report(&files["log.txt"], key).is_clean());
            assert!(ids(&files["log.txt"], key).contains(&"log-recovered"));
        }
    }
}
