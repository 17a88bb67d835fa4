//! The command that compares a station's programs and sealed election with a published list, beside
//! GNU `sha256sum`, which writes the list and must say the same of it.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "this test makes a folder and runs programs"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A folder that is removed at the end.
struct Room(PathBuf);

impl Room {
    /// With a folder of two programs and a list that `sha256sum` made of them.
    fn new(name: &str) -> Self {
        let room =
            std::env::temp_dir().join(format!("evenhand-compare-{name}-{}", std::process::id()));
        fs::create_dir_all(room.join("station/within")).unwrap();
        fs::copy(office(), room.join("station/evenhand-office")).unwrap();
        fs::write(room.join("station/within/evenhand"), b"a program").unwrap();
        let room = Self(room);
        let list = room.run("sha256sum", &["station/evenhand-office", "station/within/evenhand"]);
        assert!(list.status.success());
        fs::write(room.0.join("list"), list.stdout).unwrap();
        room
    }

    fn run(&self, program: &str, arguments: &[&str]) -> Output {
        Command::new(program).current_dir(&self.0).args(arguments).output().unwrap()
    }

    /// What the command prints, or its output and error where it fails.
    fn compare(&self, arguments: &[&str]) -> Result<String, String> {
        let output = self.run(office(), &[&["compare"], arguments].concat());
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        let said = text(&output.stdout);
        if output.status.success() { Ok(said) } else { Err(said + &text(&output.stderr)) }
    }

    /// Whether `sha256sum` finds the listed files as they were.
    fn sha256sum_agrees(&self) -> bool {
        self.run("sha256sum", &["--check", "--strict", "--quiet", "list"]).status.success()
    }

    fn list(&self) -> String {
        fs::read_to_string(self.0.join("list")).unwrap()
    }

    fn write(&self, name: &str, bytes: &[u8]) {
        fs::write(self.0.join(name), bytes).unwrap();
    }
}

impl Drop for Room {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

fn office() -> &'static str {
    env!("CARGO_BIN_EXE_evenhand-office")
}

#[test]
fn what_is_as_published_passes_and_its_digests_are_those_of_sha256sum() {
    let room = Room::new("good");
    assert!(room.sha256sum_agrees());
    let said = room.compare(&["station", "--list", "list"]).unwrap();
    assert!(said.contains("All 2 files are as published, and none is missing."), "{said}");
    for line in room.list().lines() {
        let groups = line.as_bytes()[..16].chunks(4).map(String::from_utf8_lossy);
        let first = format!("  1:  {}\n", groups.collect::<Vec<_>>().join("  "));
        assert!(said.contains(&first), "{said} {first}");
    }
    // Named one by one, with a list of binary files, and without a list.
    let files = ["station/within/evenhand", "station/evenhand-office"];
    let list = room.run("sha256sum", &[&["--binary"], &files[..]].concat());
    room.write("binary", &list.stdout);
    assert!(room.compare(&[&files[..], &["--list", "binary"]].concat()).is_ok());
    assert!(room.compare(&files).unwrap().contains("station/within/evenhand\n  1:  "));
}

#[test]
fn what_is_not_as_published_is_named() {
    let room = Room::new("bad");
    let refused = |says: &str| {
        let error = room.compare(&["station", "--list", "list"]).unwrap_err();
        assert!(error.contains(says) && error.contains("NOT as published"), "{error}");
        assert!(error.contains("call the election office"), "{error}");
    };
    // One bit of a program; sha256sum sees it too.
    room.write("station/within/evenhand", b"a programm");
    refused("station/within/evenhand: DIFFERS from the list");
    assert!(!room.sha256sum_agrees());
    room.write("station/within/evenhand", b"a program");
    // A file more, which `sha256sum --check` doesn't see.
    room.write("station/other", b"");
    refused("station/other: NOT IN THE LIST");
    fs::remove_file(room.0.join("station/other")).unwrap();
    assert!(room.compare(&["station", "--list", "list"]).is_ok());
    // A file less.
    fs::remove_file(room.0.join("station/within/evenhand")).unwrap();
    refused("evenhand: IN THE LIST AND NOT THERE");
    assert!(!room.sha256sum_agrees());
}

#[test]
fn lists_and_paths_that_are_wrong_say_what_to_do() {
    let room = Room::new("wrong");
    let list = room.list();
    let first = list.lines().next().unwrap().to_owned();
    for (bytes, says) in [
        (String::new(), "list, line 1: the list is empty"),
        ("abc  x\n".to_owned(), "list, line 1: it isn't a digest of 64 digits"),
        (list.replace("  ", " "), "list, line 1: it isn't a digest"),
        (list.to_uppercase(), "list, line 1: it isn't a digest"),
        (format!("{list}\n"), "list, line 3: it isn't a digest"),
        (format!("{first}/\n"), "list, line 1: it isn't a digest"),
        (format!("{list}{first}\n"), "list, line 3: a file of this name is in the list already"),
        (format!("\\{first}\\n\n"), "list, line 1: the name holds a backslash"),
    ] {
        room.write("list", bytes.as_bytes());
        let error = room.compare(&["station", "--list", "list"]).unwrap_err();
        assert!(error.starts_with(says), "{error}");
        assert!(error.contains("Give the list that the office published"), "{error}");
    }
    room.write("list", &[0xff]);
    assert!(room.compare(&["station", "--list", "list"]).unwrap_err().contains("isn't UTF-8"));
    room.write("list", &vec![b'0'; 256 * 1024 + 1]);
    assert!(room.compare(&["station", "--list", "list"]).unwrap_err().contains("file too large"));
    assert!(room.compare(&["nowhere"]).unwrap_err().contains("Name a folder that can be read"));
    assert!(room.compare(&["/dev/null"]).unwrap_err().contains("neither a file nor a folder"));
    let twice = room.compare(&["station", "station/within"]).unwrap_err();
    assert!(twice.contains("have one name"), "{twice}");
    // A folder that holds itself by a link ends.
    std::os::unix::fs::symlink(".", room.0.join("station/again")).unwrap();
    assert!(room.compare(&["station"]).is_err());
}

/// The sealed election is verified and listed like the programs.
#[test]
fn the_sealed_election_is_checked_in_the_same_call() {
    let room = Room::new("sealed");
    room.write("passphrase", b"several words that nobody guesses\n");
    let ask = |arguments: &[&str]| {
        let output = room.run(office(), arguments);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    };
    let demo = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../ballot-definitions/quillbrook-county-general-2027");
    let with = ["--passphrase-file", "passphrase"];
    ask(&[&["key", "new", "--name", "Ines Marlow", "--to", "ines.key"], &with[..]].concat());
    ask(&["trust", "--threshold", "1", "--key", "Ines Marlow=ines.pub", "--to", "trust.json"]);
    ask(&["pack", demo.to_str().unwrap(), "--to", "e.sealed.tar"]);
    let seal = ["--sealed", "e.sealed.tar", "--trust", "trust.json"];
    let unsigned = room.compare(&[&["station", "--list", "list"], &seal[..]].concat());
    assert!(unsigned.unwrap_err().contains("e.sealed.tar is NOT sealed: it has 0 of the 1"));
    ask(&[&["sign", "e.sealed.tar", "--key", "ines.key"], &with[..]].concat());
    // Sealed, and not in the list.
    let unlisted = room.compare(&[&["station", "--list", "list"], &seal[..]].concat());
    assert!(unlisted.unwrap_err().contains("e.sealed.tar: NOT IN THE LIST"));
    let line = room.run("sha256sum", &["e.sealed.tar"]).stdout;
    room.write("list", &[room.list().as_bytes(), &line].concat());
    assert!(room.sha256sum_agrees());
    let said = room.compare(&[&["station", "--list", "list"], &seal[..]].concat()).unwrap();
    assert!(said.contains("e.sealed.tar: sealed by Ines Marlow."), "{said}");
    assert!(said.contains("All 3 files are as published"), "{said}");
}
