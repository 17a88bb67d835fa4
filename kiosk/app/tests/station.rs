//! The program's two processes from outside, without a display.
#![expect(clippy::unwrap_used, reason = "a test may panic")]
#![expect(clippy::disallowed_methods, reason = "a test starts the program")]

use std::process::{Command, Output};

const ELECTION: &str =
    concat!(env!("CARGO_MANIFEST_DIR"), "/../../ballot-definitions/quillbrook-county-general-2027");

/// Runs the program with no display at all.
fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .args(arguments)
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .env_remove("SPEECHD_ADDRESS")
        .output()
        .unwrap()
}

/// Expects a failure whose message has these words, and nothing on standard output.
fn check(arguments: &[&str], words: &str) {
    let output = run(arguments);
    let errors = String::from_utf8(output.stderr).unwrap();
    assert!(!output.status.success(), "{arguments:?}");
    assert!(errors.contains(words), "{arguments:?}: {errors}");
    assert_eq!(String::from_utf8(output.stdout).unwrap(), "", "{arguments:?}");
}

#[test]
fn a_station_finds_a_bad_election_before_a_voter_does() {
    let with = |more: &[&'static str]| {
        let mut all = vec!["station", "--once", "--printer-folder", "nowhere"];
        all.extend(more);
        all
    };
    check(&with(&["--election", "/no/such/folder"]), "definition.json can't be read");
    check(&with(&["--election", ELECTION, "--style", "999"]), "Choose one of: 101-A");
    check(&with(&["--election", ELECTION, "--language", "xx"]), "Choose one of: en, es");
    check(&with(&[]), "--election");
}

#[test]
fn a_visit_without_a_display_says_so() {
    let visit = ["visit", "--election", ELECTION, "--printer-folder", "nowhere"];
    check(&visit, "there is no display");
}

#[test]
fn a_visit_that_ends_early_stops_the_station() {
    let station = ["station", "--election", ELECTION, "--printer-folder", "nowhere"];
    check(&station, "a visit ended before its time");
}
