//! Disks that are full or can't be written: a small disk in memory, mounted in a mount namespace of
//! the test's own (`unshare` of util-linux), which goes with it.

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use evenhand_app::ledger::{LedgerError, Start};
use evenhand_event_log::{Event, Polls, State};

use crate::{Home, NOW, check_clean, files, ids, open, sheets, small_day};

/// Names the small disk to the test that runs on it.
const SMALL_DISK: &str = "EVENHAND_SMALL_DISK";

/// Runs the ignored test of this name on a small disk of its own.
fn on_a_small_disk(test: &str) {
    let home = Home::new(test);
    let mount = "mount -t tmpfs -o size=128k,mode=700 none \"$0\" && exec \"$@\"";
    let run = |unshare: &[&str], command: &[&str]| {
        let own = std::env::current_exe().unwrap();
        let mut all = Command::new("unshare");
        all.args(unshare).args(["sh", "-c", mount]).arg(home.station());
        if command.is_empty() {
            all.arg(own).args(["--exact", test, "--ignored", "--nocapture"]);
        } else {
            all.args(command);
        }
        all.env(SMALL_DISK, home.station()).output().unwrap()
    };
    fs::create_dir(home.station()).unwrap();
    // As root, else as the root of a namespace of users.
    let ways: [&[&str]; 2] = [&["--mount"], &["--user", "--map-root-user", "--mount"]];
    let Some(way) = ways.into_iter().find(|way| run(way, &["true"]).status.success()) else {
        assert!(std::env::var("CI").is_err(), "{test}: no disk can be mounted here");
        println!("skipped: {test} (no disk can be mounted here)");
        return;
    };
    let output = run(way, &[]);
    let said = String::from_utf8_lossy(&[output.stdout, output.stderr].concat()).into_owned();
    assert!(output.status.success() && said.contains("1 passed"), "{said}");
    println!("{said}");
}

/// The small disk, for a test that was started on it.
fn small_disk() -> PathBuf {
    PathBuf::from(std::env::var(SMALL_DISK).unwrap())
}

/// Fills what is left of the disk; its file is removed to make room.
fn fill(disk: &Path) -> PathBuf {
    let path = disk.join("filler");
    let mut file = fs::File::create(&path).unwrap();
    // Block by block, and then the last block's bytes.
    for block in [vec![0; 4096], vec![0; 1]] {
        while file.write_all(&block).is_ok() {}
    }
    path
}

#[test]
fn a_full_disk() {
    on_a_small_disk("disk::on_a_full_disk");
}

#[test]
fn a_disk_that_cant_be_written() {
    on_a_small_disk("disk::on_a_read_only_disk");
}

#[test]
#[ignore = "runs on a small disk: `a_full_disk` starts it"]
fn on_a_full_disk() {
    let disk = small_disk();
    let folder = disk.join("station");
    let (mut ledger, _) = open(&folder).unwrap();
    small_day(&mut ledger);
    let key = ledger.public_key();
    let filler = fill(&disk);
    // The log's last block has some room yet: the entry for which there is none is written in part.
    let mut noted = 0;
    let error = loop {
        match ledger.record(Event::PaperAdded, NOW) {
            Ok(()) => noted += 1,
            Err(error) => break error,
        }
        assert!(noted < 1_000, "the disk is never full");
    };
    assert!(matches!(error, LedgerError::StorageFull { .. }), "{error}");
    assert!(error.to_string().contains("the storage is full"), "{error}");
    println!("{noted} entries until the disk was full");
    // What was noted is there, and nothing of what wasn't.
    let log = fs::read(folder.join("log.txt")).unwrap();
    check_clean(&log, key);
    assert!(log.len() % 4096 > 3_500, "the last entry wasn't written in part: {}", log.len());
    assert_eq!(ids(&log, key).iter().filter(|id| **id == "paper-added").count(), noted);
    let (counts, digest, before) = (ledger.counts(), ledger.head_digest(), files(&folder));
    // Again and again: neither counts nor files change.
    for _ in 0..3 {
        assert!(matches!(
            ledger.record_printed(sheets(2), NOW),
            Err(LedgerError::StorageFull { .. })
        ));
        assert!(matches!(
            ledger.record(Event::VisitStarted, NOW),
            Err(LedgerError::StorageFull { .. })
        ));
        assert!(matches!(ledger.close_polls(NOW), Err(LedgerError::StorageFull { .. })));
        assert_eq!((ledger.counts(), ledger.head_digest()), (counts, digest));
        assert_eq!(ledger.polls(), Polls::Open(State::Official));
        assert_eq!(files(&folder), before);
    }
    // In the room that was kept the log says so, and no more.
    ledger.note_full(NOW).unwrap();
    let log = fs::read(folder.join("log.txt")).unwrap();
    check_clean(&log, key);
    assert_eq!(ids(&log, key).last(), Some(&"storage-full"));
    drop(ledger);
    for _ in 0..2 {
        let before = files(&folder);
        assert!(matches!(open(&folder), Err(LedgerError::StorageFull { .. })));
        assert_eq!(files(&folder), before, "a start that is refused writes nothing");
    }
    fs::remove_file(&filler).unwrap();
    let filler = fill(&disk);
    // A start on the full disk is refused, also after a cut, and loses nothing.
    fs::write(folder.join("log.txt"), &log[..log.len() - 9]).unwrap();
    let before = files(&folder);
    assert!(matches!(open(&folder), Err(LedgerError::StorageFull { .. })));
    assert_eq!(files(&folder), before);
    // With room again it goes on.
    fs::remove_file(filler).unwrap();
    let (mut ledger, found) = open(&folder).unwrap();
    assert!(found.cut > 0 && found.start == Start::AfterPowerLoss);
    let filler = fill(&disk);
    while ledger.record(Event::PaperAdded, NOW).is_ok() {}
    fs::remove_file(filler).unwrap();
    ledger.record(Event::StorageFull, NOW).unwrap();
    ledger.record(Event::VisitStarted, NOW).unwrap();
    ledger.record_printed(sheets(1), NOW).unwrap();
    ledger.record(Event::VisitFinished, NOW).unwrap();
    assert_eq!(ledger.close_polls(NOW).unwrap().sheets_printed, 4);
    ledger.shut_down(NOW).unwrap();
    check_clean(&fs::read(folder.join("log.txt")).unwrap(), key);
}

#[test]
#[ignore = "runs on a small disk: `a_disk_that_cant_be_written` starts it"]
fn on_a_read_only_disk() {
    let disk = small_disk();
    let remount = |how: &str| {
        let done = Command::new("mount").args(["-o", how]).arg(&disk).status().unwrap();
        assert!(done.success(), "{how}");
    };
    let folder = disk.join("station");
    let refused = |what: &Path| {
        let error = open(what).map(|(_, found)| found).unwrap_err().to_string();
        assert!(error.contains("can be written to"), "{error}");
    };
    remount("remount,ro");
    refused(&folder);
    remount("remount,rw");
    let (mut ledger, _) = open(&folder).unwrap();
    small_day(&mut ledger);
    let key = ledger.public_key();
    drop(ledger);
    let before = files(&folder);
    remount("remount,ro");
    refused(&folder);
    assert_eq!(files(&folder), before);
    remount("remount,rw");
    let (ledger, found) = open(&folder).unwrap();
    assert_eq!((found.start, ledger.counts().sheets_printed), (Start::AfterPowerLoss, 3));
    check_clean(&fs::read(folder.join("log.txt")).unwrap(), key);
}
