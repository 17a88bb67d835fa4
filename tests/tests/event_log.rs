//! The event log against the outside: NIST's schema of SP 1500-101 by two validators, openssl for
//! keys and signatures, Python's hashlib for the chain, GNU date for times, Python's HTML parser and
//! HTML Tidy for the observer's page.
//!
//! NIST's files are looked for as in `schema.rs`. What a log holds against cuts and changes is
//! tested in its own crate (`kiosk/event-log/tests/`).
#![expect(
    clippy::disallowed_methods,
    reason = "tests read files and the environment, and run reference programs"
)]
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test's helpers may"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use evenhand_event_log::{
    Content, Counts, Device, Digest, Event, Head, Log, Maker, Moment, Offset, Outcome, PublicKey,
    Published, Report, Role, State, StationKey, Step, StopCause, StopPlace, StopReason, Trust,
    checkpoint_bytes, describe, export, page, verify,
};
use serde_json::{Value, json};

const START: u64 = 1_825_154_100;

/// A folder of this test's own, removed at the end.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("evenhand-{name}-{}", std::process::id()));
        fs::create_dir_all(&path).expect("the folder can be made");
        Self(path)
    }

    fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.0.join(name);
        fs::write(&path, bytes).expect("the file can be written");
        path
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).expect("the folder can be removed");
    }
}

/// NIST's schema of event logs, or nothing where it isn't at hand and no CI asks for it.
fn schema(test: &str) -> Option<PathBuf> {
    let folder = std::env::var("EVENHAND_NIST").map_or_else(
        |_| Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/nist"),
        PathBuf::from,
    );
    let path = folder.join("schemas/NIST_V1_election_event_logging.json");
    if path.is_file() {
        return Some(path);
    }
    assert!(std::env::var("CI").is_err(), "{test}: no NIST file at {}", path.display());
    println!("skipped: {test} (no NIST file at {})", path.display());
    None
}

fn python(script: &str, arguments: &[&Path]) -> Output {
    let python = std::env::var("EVENHAND_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    Command::new(python).arg("-c").arg(script).args(arguments).output().expect("python3 runs")
}

fn key() -> StationKey {
    // PKCS#8 of RFC 8410 with the seed of RFC 8032, section 7.1, test 1.
    let mut bytes = vec![0x30, 0x2e, 2, 1, 0, 0x30, 5, 6, 3, 0x2b, 0x65, 0x70, 4, 0x22, 4, 0x20];
    bytes.extend([
        0x9d, 0x61, 0xb1, 0x9d, 0xef, 0xfd, 0x5a, 0x60, 0xba, 0x84, 0x4a, 0xf4, 0x92, 0xec, 0x2c,
        0xc4, 0x44, 0x49, 0xc5, 0x69, 0x7b, 0x32, 0x69, 0x19, 0x70, 0x3b, 0xac, 0x03, 0x1c, 0xae,
        0x7f, 0x60,
    ]);
    StationKey::from_pkcs8(&mut bytes).expect("a key pair")
}

/// The events of a day on which everything happens once: every kind, every step, device and role.
fn every_event() -> Vec<Event> {
    let digest = Digest::of(b"an election");
    let one = Counts {
        sheets_printed: 2,
        ballots_printed: 2,
        ballots_spoiled: 1,
        sheets_jammed: 1,
        ballots_left: 1,
        visits_started: 2,
        visits_finished: 1,
        visits_stopped: 1,
        lifetime_sheets: 3,
        ..Counts::default()
    };
    let zero = Counts { lifetime_sheets: 1, ..Counts::default() };
    let (place, cause) = (StopPlace::SheetInReader, StopCause::VoterLeft);
    let mut events = vec![
        Event::StationStarted,
        Event::PowerLost,
        Event::StationStarted,
        Event::LogRecovered { bytes: 17 },
        Event::ClockLooksWrong,
        Event::ClockSet,
        Event::SoftwareChanged { digest },
        Event::StationFileChanged,
        Event::ElectionRefused { digest },
        Event::ElectionAccepted { digest },
        Event::LogInRefused { role: Role::Worker },
        Event::LogInDelayed,
        Event::LoggedIn { role: Role::Lead },
        Event::LoggedOut { role: Role::Technician },
        Event::TestSheetPrinted,
        Event::PaperAdded,
        Event::SealNoted { seal: "A-0042".parse().expect("a seal") },
        Event::DeviceLost { device: Device::Headphones },
        Event::DeviceBack { device: Device::Switches },
    ];
    for (step, outcome) in [
        (Step::ScreenColors, Outcome::Passed),
        (Step::Voice, Outcome::Failed),
        (Step::LeftEar, Outcome::Skipped),
    ] {
        events.push(Event::SelfTestStep { step, outcome });
    }
    events.extend([
        Event::SelfTestDone { outcome: Outcome::Failed },
        Event::Opened { state: State::Official, counts: zero },
        Event::VisitStarted,
        Event::BallotPrinted,
        Event::BallotSpoiled,
        Event::PaperJammed,
        Event::PaperAccounted,
        Event::WorkerEntered,
        Event::VisitReturnedTo,
        Event::BallotPrinted,
        Event::VisitFinished,
        Event::VisitStarted,
        Event::VisitStopped { reason: StopReason { place, cause } },
        Event::PaperAccounted,
        Event::Suspended,
        Event::DeviceLost { device: Device::Printer },
        Event::StorageFull,
        Event::Resumed,
        Event::Closed { counts: one },
        Event::Exported,
        Event::ShutDown,
    ]);
    events
}

/// The log of that day, its report, and the log's file.
fn day() -> (Log, Vec<u8>, Report) {
    let head = Head {
        station: "Q-07".parse().expect("a number"),
        offset: Offset::minutes(-360).expect("an offset"),
        previous: Some(Digest::of(b"before")),
    };
    let (mut log, mut file) = Log::start(key(), head, Moment(START));
    for (at, event) in (0..).zip(every_event()) {
        file.extend(log.append(event, Moment(START + at * 90)).expect("it is taken"));
    }
    let published = Published { digest: Some(log.head_digest()), lines: Some(log.lines()) };
    let report = verify(&file, Trust::Key(log.public_key()), &published);
    assert!(report.is_clean(), "{:#?}", report.finding_sentences());
    (log, file, report)
}

fn exported() -> Value {
    let text = export(&day().2, &Maker::EVENHAND, Moment(START));
    serde_json::from_str(&text).expect("the export is JSON")
}

fn described() -> Value {
    let text = describe(&Maker::EVENHAND, Moment(START));
    serde_json::from_str(&text).expect("the documentation is JSON")
}

/// Exports with one thing wrong, each.
fn broken() -> Vec<(&'static str, Value)> {
    let change = |what, at: &str, to: Value| {
        let mut value = exported();
        *value.pointer_mut(at).unwrap_or_else(|| panic!("no {at}")) = to;
        (what, value)
    };
    let mut found = vec![
        change("a disposition", "/Device/0/Event/3/Disposition", json!("succeeded")),
        change("a sequence as a number", "/Device/0/Event/3/Sequence", json!(3)),
        change("a time without its date", "/Device/0/Event/3/TimeStamp", json!("08:15")),
        change("a device's type", "/Device/0/Type", json!("kiosk")),
        change("a kind of hash", "/Device/0/HashType", json!("sha256")),
        change("a class", "/@type", json!("EventLogging.Log")),
    ];
    let mut value = exported();
    value["Device"][0]["Event"][3]["Voter"] = json!("x");
    found.push(("a field", value));
    let mut value = described();
    value["EventIdDescription"] = json!([]);
    found.push(("documentation without ids", value));
    found
}

#[test]
fn exports_keep_the_schema() {
    let Some(path) = schema("exports_keep_the_schema") else { return };
    let schema: Value =
        serde_json::from_slice(&fs::read(&path).expect("the schema is read")).expect("JSON");
    let validator = jsonschema::options()
        .should_validate_formats(true)
        .build(&schema)
        .expect("NIST's schema is a schema");
    for value in [exported(), described()] {
        let errors: Vec<String> = validator
            .iter_errors(&value)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect();
        assert!(errors.is_empty(), "{errors:#?}");
    }
    for (what, value) in broken() {
        assert!(!validator.is_valid(&value), "{what} passes");
    }
    println!(
        "{} events keep the schema",
        exported()["Device"][0]["Event"].as_array().map_or(0, Vec::len)
    );
}

/// The same by Python's jsonschema; formats aren't its business without further packages.
#[test]
fn exports_keep_the_schema_by_another_validator() {
    let Some(path) = schema("exports_keep_the_schema_by_another_validator") else { return };
    let script = "import json,sys,jsonschema\n\
        schema=json.load(open(sys.argv[1]))\n\
        jsonschema.Draft4Validator.check_schema(schema)\n\
        v=jsonschema.Draft4Validator(schema)\n\
        print(*['ok' if v.is_valid(json.load(open(f))) else 'no' for f in sys.argv[2:]])";
    let folder = Folder::new("event-log-schema");
    let mut values = vec![exported(), described()];
    let bad = broken().into_iter().filter(|(what, _)| *what != "a time without its date");
    values.extend(bad.map(|(_, value)| value));
    let files: Vec<PathBuf> = (0..)
        .zip(&values)
        .map(|(at, value): (usize, _)| {
            folder.file(&format!("{at}.json"), value.to_string().as_bytes())
        })
        .collect();
    let arguments: Vec<&Path> =
        std::iter::once(path.as_path()).chain(files.iter().map(PathBuf::as_path)).collect();
    let output = python(script, &arguments);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let expected = ["ok ok".to_owned(), vec!["no"; files.len() - 2].join(" ")].join(" ");
    assert_eq!(said.trim(), expected);
}

/// What an export says is what the log says: every line once, in order, with its digest; ids and
/// types are all documented; roles are the only users.
#[test]
fn an_export_holds_every_line() {
    let (_, file, report) = day();
    let value = exported();
    let device = &value["Device"][0];
    assert_eq!((&device["Id"], &device["Type"]), (&json!("Q-07"), &json!("bmd")));
    let events = device["Event"].as_array().expect("events");
    let lines: Vec<&[u8]> = file.split(|byte| *byte == b'\n').filter(|l| !l.is_empty()).collect();
    assert_eq!(events.len(), lines.len());
    for ((at, event), line) in (0..).zip(events).zip(&lines) {
        let at: usize = at;
        assert_eq!(event["Sequence"], at.to_string());
        assert_eq!(event["Hash"], Digest::of(line).to_string());
    }
    let documented = described();
    let all = |list: &str, field: &str| -> BTreeSet<String> {
        let entries = documented[list].as_array().expect("a list");
        entries.iter().map(|entry| entry[field].as_str().unwrap_or_default().to_owned()).collect()
    };
    let (ids, types) = (all("EventIdDescription", "Id"), all("EventTypeDescription", "Type"));
    for event in events {
        assert!(ids.contains(event["Id"].as_str().expect("an id")));
        assert!(types.contains(event["Type"].as_str().expect("a type")));
        let user = event["UserId"].as_str();
        assert!(user.is_none_or(|user| ["worker", "lead", "technician"].contains(&user)));
    }
    // The day has every kind of event, and so the checks above have seen each.
    let seen: BTreeSet<&str> = events.iter().filter_map(|event| event["Id"].as_str()).collect();
    assert_eq!(seen.len(), Event::KINDS.len() + 2);
    assert_eq!(ids.len(), seen.len());
    let dispositions: BTreeSet<&str> =
        events.iter().filter_map(|event| event["Disposition"].as_str()).collect();
    assert_eq!(dispositions, BTreeSet::from(["failure", "na", "success"]));
    assert!(report.lines.iter().any(|line| line.content == Content::Checkpoint));
}

/// DEVELOPERS.md lists the events that there are, no more and no fewer.
#[test]
fn the_list_for_developers_is_whole() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../DEVELOPERS.md");
    let text = fs::read_to_string(path).expect("the file is read");
    let listed = text
        .lines()
        .find_map(|line| line.strip_prefix("**What may be logged**"))
        .and_then(|line| line.split_once("): "))
        .and_then(|(_, list)| list.split_once('.'))
        .map(|(list, _)| list.split(", ").collect::<Vec<_>>());
    let ids: Vec<&str> = Event::KINDS.iter().map(|kind| kind.id).collect();
    assert_eq!(listed, Some(ids));
}

/// RFC 8032, section 7.1, test 1 gives the public key of this seed.
#[test]
fn the_public_key_is_that_of_the_rfc() {
    let expected = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a";
    assert_eq!(key().public().to_string(), expected);
}

fn openssl(arguments: &[&str], files: &[(&str, &Path)]) -> Output {
    let mut command = Command::new("openssl");
    command.args(arguments);
    for (name, path) in files {
        command.arg(name).arg(path);
    }
    command.output().expect("openssl runs")
}

/// Every checkpoint's signature is good by openssl, over the bytes that the docs describe; one
/// changed byte isn't. A key pair that openssl makes is taken, and its public half in DER.
#[test]
fn openssl_agrees_on_keys_and_signatures() {
    let folder = Folder::new("event-log-openssl");
    let pair = folder.0.join("pair.der");
    let made =
        openssl(&["genpkey", "-algorithm", "ed25519", "-outform", "DER"], &[("-out", &pair)]);
    assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
    let public =
        openssl(&["pkey", "-inform", "DER", "-pubout", "-outform", "DER"], &[("-in", &pair)]);
    let mut bytes = fs::read(&pair).expect("openssl wrote it");
    let key = StationKey::from_pkcs8(&mut bytes).expect("openssl's key pair is taken");
    assert_eq!(PublicKey::from_file(&public.stdout), Ok(key.public()));
    let public = folder.file("public.der", &public.stdout);

    let head =
        Head { station: "1".parse().expect("a number"), offset: Offset::UTC, previous: None };
    let (mut log, mut file) = Log::start(key, head, Moment(START));
    for event in [Event::StationStarted, Event::Exported, Event::ShutDown] {
        file.extend(log.append(event, Moment(START)).expect("it is taken"));
    }
    let text = String::from_utf8(file).expect("a log is UTF-8");
    let (mut checkpoints, mut last) = (0, String::new());
    for line in text.lines() {
        let value: Value = serde_json::from_str(line).expect("a line is JSON");
        if let Some(signature) = value["checkpoint"].as_str() {
            let number = value["n"].as_u64().expect("a number") - 1;
            let mut message = checkpoint_bytes(number, &Digest::of(last.as_bytes()));
            let signature = folder.file("signature", &unhex(signature));
            let is_good = |message: &[u8]| {
                let message = folder.file("message", message);
                let arguments = ["pkeyutl", "-verify", "-pubin", "-keyform", "DER", "-rawin"];
                let files =
                    [("-inkey", public.as_path()), ("-in", &message), ("-sigfile", &signature)];
                openssl(&arguments, &files).status.success()
            };
            assert!(is_good(&message), "checkpoint {number}");
            message[0] ^= 1;
            assert!(!is_good(&message), "openssl takes anything");
            checkpoints += 1;
        }
        line.clone_into(&mut last);
    }
    assert_eq!(checkpoints, 2);
}

fn unhex(text: &str) -> Vec<u8> {
    let digit = |at| u8::from_str_radix(&text[at..at + 2], 16).expect("hex");
    (0..text.len()).step_by(2).map(digit).collect()
}

/// Python reads the file by its documented form alone and finds the chain whole.
#[test]
fn python_agrees_on_the_chain() {
    let script = "import hashlib,json,sys\n\
        last=None\n\
        for n,line in enumerate(open(sys.argv[1],'rb').read().split(b'\\n')[:-1]):\n\
        \x20   value=json.loads(line)\n\
        \x20   assert value['n']==n and value.get('before')==last,n\n\
        \x20   assert json.dumps(value,separators=(',',':')).encode()==line,n\n\
        \x20   last=hashlib.sha256(line).hexdigest()\n\
        print(last)";
    let (log, bytes, _) = day();
    let folder = Folder::new("event-log-chain");
    let output = python(script, &[&folder.file("log", &bytes)]);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(String::from_utf8_lossy(&output.stdout).trim(), log.head_digest().to_string());
    let text = String::from_utf8(bytes).expect("a log is UTF-8");
    let changed = folder.file("log", text.replace("\"lead\"", "\"worker\"").as_bytes());
    assert!(!python(script, &[&changed]).status.success(), "the script finds nothing");
}

/// GNU date names the same minute of 4000 moments, from 1970 to 9999.
#[test]
fn gnu_date_agrees_on_times() {
    let last = 253_402_300_799;
    let moments: Vec<u64> = (0..4000).map(|at| last / 4000 * at + at * at % 86_400).collect();
    let asked: Vec<String> = moments.iter().map(|moment| format!("@{moment}\n")).collect();
    let folder = Folder::new("event-log-date");
    let file = folder.file("moments", asked.concat().as_bytes());
    let output = Command::new("date").args(["-u", "+%FT%R:00+00:00", "-f"]).arg(file).output();
    let said = String::from_utf8(output.expect("date runs").stdout).expect("UTF-8");
    assert_eq!(said.lines().count(), moments.len());
    for (moment, line) in moments.iter().zip(said.lines()) {
        assert_eq!(Moment(*moment).rfc3339(Offset::UTC), line);
    }
}

/// The observer's page is well formed, loads nothing, and has a row for every line.
#[test]
fn pages_are_whole_and_stand_alone() {
    let script = "import sys\n\
        from html.parser import HTMLParser\n\
        class P(HTMLParser):\n\
        \x20   def __init__(s):\n\
        \x20       super().__init__(); s.open=[]; s.rows=0; s.bad=[]\n\
        \x20   def handle_starttag(s,tag,attrs):\n\
        \x20       if tag in('script','link','img','iframe','object','form'): s.bad.append(tag)\n\
        \x20       if any(k.startswith('on') or k in('src','href') for k,_ in attrs): s.bad.append(tag)\n\
        \x20       if tag=='tr': s.rows+=1\n\
        \x20       if tag!='meta': s.open.append(tag)\n\
        \x20   def handle_endtag(s,tag):\n\
        \x20       if not s.open or s.open.pop()!=tag: s.bad.append('/'+tag)\n\
        text=open(sys.argv[1],encoding='utf-8').read()\n\
        p=P(); p.feed(text); p.close()\n\
        assert not p.open and not p.bad and 'url(' not in text and '://' not in text,(p.open,p.bad)\n\
        print(p.rows)";
    let (_, _, report) = day();
    let folder = Folder::new("event-log-page");
    let text = page(&report);
    let output = python(script, &[&folder.file("page.html", text.as_bytes())]);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let rows: usize = String::from_utf8_lossy(&output.stdout).trim().parse().expect("a number");
    assert!(rows > report.lines.len());
    for line in &report.lines {
        let row = format!("<td class=\"number\">{}</td><td class=\"time\">", line.number);
        assert_eq!(text.matches(&row).count(), 1, "{row}");
    }
    assert!(text.contains("not certified voting equipment"));
    let broken = text.replacen("</table>", "<script>", 1);
    let output = python(script, &[&folder.file("page.html", broken.as_bytes())]);
    assert!(!output.status.success(), "the check finds nothing");
}

/// HTML Tidy, a checker that isn't ours, has nothing to say against a page, whatever was found.
#[test]
fn tidy_finds_nothing_wrong_with_pages() {
    let folder = Folder::new("event-log-tidy");
    let tidy = |text: &str| {
        let file = folder.file("page.html", text.as_bytes());
        let output = Command::new("tidy").args(["-errors", "-quiet"]).arg(file).output();
        let output = output.expect("tidy runs");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        if output.status.success() && said.is_empty() { Ok(()) } else { Err(said) }
    };
    let (_, file, whole) = day();
    assert_eq!(tidy(&page(&whole)), Ok(()));
    // Changed, cut, empty: findings and notes of every kind.
    let mut changed = file.clone();
    changed[file.len() / 2] ^= 1;
    for bytes in [&changed[..], &file[..file.len() - 9], &[]] {
        let report = verify(bytes, Trust::Itself, &Published::default());
        assert!(!report.is_clean());
        assert_eq!(tidy(&page(&report)), Ok(()));
    }
    for (from, to) in [("</h3>", ""), ("<li>", "<b>"), ("<title>", "<titel>")] {
        let report = verify(&changed, Trust::Itself, &Published::default());
        let broken = page(&report).replacen(from, to, 1);
        assert!(tidy(&broken).is_err(), "tidy takes {to:?} for {from:?}");
    }
}

/// Where there are no notes, the page doesn't speak of any.
#[test]
fn a_page_speaks_of_notes_only_where_there_are_some() {
    let (_, file, report) = day();
    let trust = Trust::Key(key().public());
    let published = Published { digest: report.head_digest(), lines: None };
    for (published, has_notes) in [(published, false), (Published::default(), true)] {
        let report = verify(&file, trust, &published);
        assert_eq!(report.note_sentences().is_empty(), !has_notes);
        let text = page(&report);
        assert_eq!(text.contains("as far as the notes below allow"), has_notes);
        assert_eq!(text.contains("<h3>What this check can&#39;t say</h3>"), has_notes);
    }
}
