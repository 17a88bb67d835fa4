//! `log verify`, `export`, `page` and `events` as the office runs them: what they print and write,
//! and that they end with an error where anything was found.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "this test makes files and runs the program"
)]

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use evenhand_event_log::{Counts, Event, Head, Log, Moment, Offset, Role, State, StationKey};

/// A folder with a log, removed at the end.
struct Folder {
    path: PathBuf,
    key: String,
    head: String,
}

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("evenhand-{name}-{}", std::process::id()));
        fs::create_dir_all(&path).unwrap();
        // PKCS#8 of RFC 8410 with a seed of 7s.
        let mut bytes =
            vec![0x30, 0x2e, 2, 1, 0, 0x30, 5, 6, 3, 0x2b, 0x65, 0x70, 4, 0x22, 4, 0x20];
        bytes.extend([7; 32]);
        let key = StationKey::from_pkcs8(&mut bytes).unwrap();
        let head = Head { station: "Q-07".parse().unwrap(), offset: Offset::UTC, previous: None };
        let (mut log, mut file) = Log::start(key, head, Moment(1_825_154_100));
        let one = Counts {
            sheets_printed: 1,
            ballots_printed: 1,
            visits_started: 1,
            visits_finished: 1,
            lifetime_sheets: 1,
            ..Counts::default()
        };
        for event in [
            Event::StationStarted,
            Event::LoggedIn { role: Role::Lead },
            Event::Opened { state: State::Test, counts: Counts::default() },
            Event::VisitStarted,
            Event::BallotPrinted,
            Event::VisitFinished,
            Event::Closed { counts: one },
        ] {
            file.extend(log.append(event, Moment(1_825_154_100)).unwrap());
        }
        fs::write(path.join("log"), file).unwrap();
        let (key, head) = (log.public_key().to_string(), log.head_digest().groups());
        Self { path, key, head }
    }

    fn at(&self, name: &str) -> String {
        self.path.join(name).to_string_lossy().into_owned()
    }

    /// Whether it ended well, and everything that it printed.
    fn run(arguments: &[&str]) -> (bool, String) {
        let program = env!("CARGO_BIN_EXE_evenhand-office");
        let log = ["log", arguments[0]];
        let output = Command::new(program).args(log).args(&arguments[1..]).output().unwrap();
        let said = [output.stdout, output.stderr].concat();
        (output.status.success(), String::from_utf8(said).unwrap())
    }

    /// Another file, with one word of the log replaced.
    fn changed(&self, from: &str, to: &str) -> String {
        let text = fs::read_to_string(self.at("log")).unwrap();
        assert!(text.contains(from));
        fs::write(self.at("changed"), text.replace(from, to)).unwrap();
        self.at("changed")
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.path).unwrap();
    }
}

#[test]
fn a_whole_log_passes_and_a_changed_one_does_not() {
    let folder = Folder::new("log-verify");
    let file = folder.at("log");
    fs::write(folder.at("key"), format!("{}\n", folder.key)).unwrap();
    for key in [folder.key.clone(), folder.at("key")] {
        let wanted = ["verify", &file, "--station-key", &key, "--head", &folder.head];
        let (is_good, said) = Folder::run(&wanted);
        assert!(is_good && said.contains("Nothing was found."), "{said}");
        assert!(said.contains(&folder.head), "{said}");
    }
    let changed = folder.changed("\"lead\"", "\"worker\"");
    let (is_good, said) = Folder::run(&["verify", &changed, "--station-key", &folder.key]);
    assert!(!is_good && said.contains("Found: entry 2 was changed."), "{said}");
    // The end cut off at a line: only the head digest, or the number of lines, tells.
    let text = fs::read_to_string(&file).unwrap();
    let kept: Vec<&str> = text.lines().take(5).collect();
    fs::write(folder.at("short"), kept.join("\n") + "\n").unwrap();
    let short = folder.at("short");
    let (is_good, said) = Folder::run(&["verify", &short, "--station-key", &folder.key]);
    assert!(is_good && said.contains("Note: Whether the end is missing"), "{said}");
    for known in [["--head", folder.head.as_str()], ["--lines", "10"]] {
        let (is_good, said) =
            Folder::run(&["verify", &short, "--station-key", &folder.key, known[0], known[1]]);
        assert!(!is_good && said.contains("Found: the end is missing"), "{said}");
    }
}

#[test]
fn bad_arguments_are_named_with_what_to_do() {
    let folder = Folder::new("log-bad");
    let file = folder.at("log");
    let other = "02".repeat(32);
    let weak = "00".repeat(32);
    for (arguments, says) in [
        (vec!["verify", &file], "--station-key"),
        (vec!["verify", &file, "--station-key", "no such file"], "Give the station's public key."),
        (vec!["verify", &file, "--station-key", &file], "this is no Ed25519 public key"),
        (vec!["verify", &file, "--station-key", &folder.key, "--head", "12"], "--head: this is no"),
        (vec!["verify", "gone", "--station-key", &folder.key], "Give the log's file."),
        (vec!["verify", &file, "--station-key", &other], "names another station's key"),
        (vec!["verify", &file, "--station-key", &weak], "this is a weak Ed25519 key"),
        (vec!["page", &file, "--to", "no/such/folder/page.html"], "Give a file in a folder"),
    ] {
        let (is_good, said) = Folder::run(&arguments);
        assert!(!is_good && said.contains(says), "{arguments:?}: {said}");
    }
}

#[test]
fn export_and_page_say_what_was_found() {
    let folder = Folder::new("log-export");
    let (file, json, html) = (folder.at("log"), folder.at("out.json"), folder.at("out.html"));
    let (is_good, said) = Folder::run(&["export", &file, "--to", &json]);
    assert!(is_good && said.contains("the key that the log itself names"), "{said}");
    let text = fs::read_to_string(&json).unwrap();
    assert!(text.contains("Verification found nothing."), "{text}");
    assert!(text.contains("\"visit-started\"") && text.contains("EventLogging.ElectionEventLog"));
    let key = folder.key.as_str();
    assert!(Folder::run(&["page", &file, "--to", &html, "--station-key", key]).0);
    let shown = fs::read_to_string(&html).unwrap();
    assert!(shown.contains("Nothing was found") && shown.contains("not certified"), "{shown}");

    let changed = folder.changed("\"lead\"", "\"worker\"");
    let (is_good, _) = Folder::run(&["export", &changed, "--to", &json, "--station-key", key]);
    assert!(!is_good);
    assert!(
        fs::read_to_string(&json).unwrap().contains("VERIFICATION FOUND: entry 2 was changed.")
    );
    assert!(!Folder::run(&["page", &changed, "--to", &html, "--station-key", key]).0);
    let shown = fs::read_to_string(&html).unwrap();
    assert!(shown.contains("This log is not whole.") && shown.contains("Entry 2 was changed."));
}

#[test]
fn every_event_is_listed() {
    let folder = Folder::new("log-events");
    let (is_good, said) = Folder::run(&["events"]);
    assert!(is_good);
    assert_eq!(said.lines().count(), Event::KINDS.len());
    let json = folder.at("events.json");
    assert!(Folder::run(&["events", "--to", &json]).0);
    let text = fs::read_to_string(&json).unwrap();
    assert!(Event::KINDS.iter().all(|kind| text.contains(&format!("\"{}\"", kind.id))));
}
