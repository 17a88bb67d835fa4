//! Every journey in `journeys/` gives just what its file says: screens, words, paper, records.
#![expect(
    clippy::disallowed_methods,
    reason = "the journeys are files, and UPDATE_GOLDEN=1 writes them anew"
)]

use std::path::{Path, PathBuf};

use evenhand_tests::journey::transcript;
use evenhand_tests::stage::Stage;

/// What must be told; a journey that is gone fails.
const WANTED: [&str; 12] = [
    "device-faults.txt",
    "limit-and-undo.txt",
    "paper-differs.txt",
    "ranks.txt",
    "speech-lost-and-back.txt",
    "spanish-by-keys.txt",
    "spoil-and-keep.txt",
    "spoil-until-the-limit.txt",
    "two-switches.txt",
    "undervotes.txt",
    "worker.txt",
    "write-in.txt",
];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("journeys")
}

#[test]
fn every_journey_is_as_it_was_told() {
    let update = std::env::var("UPDATE_GOLDEN").is_ok_and(|value| value == "1");
    let mut names: Vec<String> = std::fs::read_dir(folder())
        .expect("the folder of journeys is there")
        .map(|entry| entry.expect("it can be listed").file_name())
        .map(|name| name.into_string().expect("names are plain"))
        .collect();
    names.sort();
    for name in WANTED {
        assert!(names.iter().any(|found| found == name), "the journey {name} is gone");
    }
    let stage = Stage::demo();
    let mut faults = Vec::new();
    for name in &names {
        let path = folder().join(name);
        let told = std::fs::read_to_string(&path).expect("it can be read");
        match transcript(&stage, &told) {
            Ok(played) if update => std::fs::write(&path, played).expect("it can be written"),
            Ok(played) if played == told => {}
            Ok(played) => faults.push(format!("{name}: {}", first_difference(&told, &played))),
            Err(fault) => faults.push(format!("{name}: {fault}")),
        }
    }
    assert!(faults.is_empty(), "UPDATE_GOLDEN=1 rewrites\n{}", faults.join("\n"));
}

/// The first line that differs, as told and as played.
fn first_difference(told: &str, played: &str) -> String {
    let mut pairs = (1..).zip(told.lines().zip(played.lines()));
    match pairs.find(|(_, (told, played))| told != played) {
        Some((line, (told, played))) => {
            format!("line {line}\n    told:   {told}\n    played: {played}")
        }
        None => format!("{} lines told, {} played", told.lines().count(), played.lines().count()),
    }
}
