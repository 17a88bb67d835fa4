//! Tidiness: walls that the compiler doesn't see, and the shape of the tree.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "this test reads the source tree, and fails where it can't"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The crates that have no standard library.
const NO_STD: [&str; 5] = ["rules", "visit", "duty", "lettering", "sheet"];

/// The longest source file, in lines (house style).
const LINES_MAX: usize = 800;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests/ lies in the workspace")
}

/// Every file that git tracks or would track.
fn files() -> Vec<PathBuf> {
    let output = Command::new("git")
        .current_dir(root())
        .args(["ls-files", "--cached", "--others", "--exclude-standard"])
        .output()
        .expect("git runs");
    let listed = String::from_utf8(output.stdout).expect("paths are UTF-8");
    let files: Vec<PathBuf> =
        listed.lines().map(PathBuf::from).filter(|path| root().join(path).is_file()).collect();
    assert!(files.len() > 50, "git listed only {} files", files.len());
    files
}

fn sources() -> Vec<(PathBuf, String)> {
    let is_rust = |path: &PathBuf| path.extension().is_some_and(|end| end == "rs");
    files()
        .into_iter()
        .filter(is_rust)
        .map(|path| {
            let text = fs::read_to_string(root().join(&path)).expect("the file can be read");
            (path, text)
        })
        .collect()
}

#[test]
fn the_top_level_is_the_agreed_one() {
    let agreed = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "kiosk",
        "locales",
        "ballot-definitions",
        "tests",
        "demo",
    ];
    for file in files() {
        let top = file.iter().next().and_then(|part| part.to_str()).unwrap_or_default();
        assert!(agreed.contains(&top) || top.starts_with('.'), "{top} is not an agreed entry");
    }
}

#[test]
fn crates_without_std_stay_so() {
    for room in NO_STD {
        let path = root().join("kiosk").join(room).join("src/lib.rs");
        let text = fs::read_to_string(path).expect("the crate is there");
        assert!(text.contains("#![no_std]"), "{room} is not no_std");
    }
    for (path, text) in sources() {
        let in_room = |room: &&str| path.starts_with(Path::new("kiosk").join(room).join("src"));
        if NO_STD.iter().any(in_room) {
            let extern_std = concat!("extern crate ", "std");
            assert!(!text.contains(extern_std), "{} brings std back", path.display());
        }
    }
}

#[test]
fn nothing_speaks_to_a_network() {
    for (path, text) in sources() {
        let network = concat!("std::", "net");
        assert!(!text.contains(network), "{} names the network", path.display());
    }
}

#[test]
fn every_source_file_says_what_it_is_and_is_not_too_long() {
    for (path, text) in sources() {
        assert!(text.starts_with("//!"), "{} has no header", path.display());
        let lines = text.lines().count();
        assert!(lines <= LINES_MAX, "{} has {lines} lines", path.display());
    }
}

/// Sentences for voters stand in `locales/` only: no string literal of the crates that make screens
/// holds one. A sentence is taken to be three words or more that end in a full stop or question
/// mark, outside comments, attributes and tests.
#[test]
fn no_sentence_for_voters_stands_in_the_code() {
    for (path, text) in sources() {
        let is_screen =
            ["visit", "sheet"].iter().any(|room| path.starts_with(format!("kiosk/{room}/src")));
        if !is_screen {
            continue;
        }
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        for (number, line) in code.lines().enumerate() {
            let line = line.trim();
            if ["//", "#[", "#![", "reason", "clippy::"].iter().any(|start| line.starts_with(start))
                || line.contains("debug_assert")
                || line.contains(".expect(")
                || line.contains("#[error")
                || line.contains("reason =")
            {
                continue;
            }
            for literal in line.split('"').skip(1).step_by(2) {
                let ends = literal.ends_with('.') || literal.ends_with('?');
                let is_sentence = ends && literal.split(' ').count() >= 3;
                let in_error = path.ends_with("error.rs") || code.contains("thiserror");
                assert!(
                    !is_sentence || in_error,
                    "{}:{}: \"{literal}\" belongs in locales/",
                    path.display(),
                    number + 1
                );
            }
        }
    }
}

/// Every file that holds a test's expectation is named, or its folder is, by a test.
#[test]
fn every_golden_file_is_used() {
    let golden: Vec<PathBuf> = files()
        .into_iter()
        .filter(|path| path.starts_with("tests") && !path.starts_with("tests/src"))
        .filter(|path| {
            let end = path.extension().and_then(|end| end.to_str()).unwrap_or_default();
            matches!(end, "txt" | "json" | "case" | "png" | "pgm")
        })
        .collect();
    let tests: String = sources().into_iter().map(|(_, text)| text).collect();
    for path in golden {
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        let folder = path
            .parent()
            .and_then(Path::file_name)
            .and_then(|folder| folder.to_str())
            .unwrap_or_default();
        let is_used = tests.contains(name) || (folder != "tests" && tests.contains(folder));
        assert!(is_used, "{} is used by no test", path.display());
    }
}

/// The whole of the repository names no path of the machine that it was made on.
#[test]
fn no_file_names_this_machine() {
    for path in files() {
        let Ok(text) = fs::read_to_string(root().join(&path)) else { continue };
        for prefix in [concat!("/wo", "rk/"), concat!("/ro", "ot/")] {
            assert!(!text.contains(prefix), "{} names {prefix}", path.display());
        }
    }
}
