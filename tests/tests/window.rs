//! The real window on a virtual display: a whole visit by real key events, and again with the mouse.
//!
//! Runs where `tests/run` has started a speech service that keeps every text that it is given in a
//! file (`EVENHAND_SPOKEN`): what is seen is compared with what really came to the voice.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::print_stdout,
    clippy::panic,
    reason = "this test starts a display and the station, and looks at what they leave"
)]

use std::collections::BTreeSet;
use std::fs;
use std::io::{Read as _, Seek as _, SeekFrom};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_rules::{Item, OptionKind, Rule, Style};
use evenhand_tests::display::VirtualDisplay;
use evenhand_tests::open::{Opening, Room, Station, program};
use evenhand_tests::pilot::{Mark, Pilot, Plan};
use evenhand_tests::player::{Played, Road, Seen, Setup, play};
use evenhand_tests::stage::demo_folder;
use evenhand_visit::{LanguageIndex, ScreenKind};

const SIZE: (u16, u16) = (1080, 1920);
/// A name so long that no memory holds it by chance.
const MARKER: &str = "ZEBULON QUINCEY XAVIER OBERHAUSENWALD";

/// Votes for the first listed option everywhere, and writes the marker in where two or more may be
/// chosen.
fn plan(style: &Style, language: u8, marker: &str) -> Plan {
    let mut is_written = false;
    let contests = style
        .contests()
        .map(|(_, contest)| {
            let mark = |option, rank| Mark { option, rank, name: None };
            let line =
                contest.indexed_options().find(|(_, option)| option.kind == OptionKind::WriteIn);
            match (contest.rule, line) {
                (Rule::Rank { .. }, _) => vec![mark(1, Some(1)), mark(0, Some(3))],
                (Rule::Choose { max }, Some((line, _))) if max > 1 && !is_written => {
                    is_written = true;
                    let name = Some(marker.to_owned());
                    vec![mark(0, None), Mark { option: line.0, rank: None, name }]
                }
                (Rule::Choose { .. }, _) => vec![mark(0, None)],
            }
        })
        .collect();
    assert!(is_written, "the style has a contest with room for a written name");
    Plan { language: Some(LanguageIndex(language)), contests: Some(contests) }
}

struct Run {
    played: Played,
    printed: Vec<u8>,
    log: String,
    room: Room,
    marker_in_visit: bool,
    marker_in_station: bool,
    marker_in_next_visit: bool,
}

fn run(name: &str, road: Road, language: u8, marker: &str) -> Run {
    let room = Room::new(name).expect("a folder can be made");
    let display = VirtualDisplay::start(SIZE).expect("a display can be started");
    let path = |name: &str| room.path(name);
    fs::create_dir_all(path("pictures")).expect("a folder can be made");
    let opening = Opening {
        program: &program().expect("the station is built"),
        display: display.name(),
        size: SIZE,
        election: &demo_folder(),
        style: "101-A",
        folder: room.folder(),
        station_file: None,
    };
    let station = Station::start(&opening).expect("the station starts");
    station.wait_for_window().expect("the window opens");
    let prepared = Prepared::load(&demo_folder(), Some("101-A"), None).expect("the demo loads");
    let setup = Setup {
        size: SIZE,
        pitch: PixelPitch::USUAL,
        road,
        display: display.name().to_owned(),
        trace: Some(station.trace()),
        pictures: Some(path("pictures")),
        spoken: std::env::var_os("EVENHAND_SPOKEN").map(PathBuf::from),
        pause: Duration::ZERO,
    };
    let mut marker_in_visit = false;
    let voter = station.visit().expect("the visit is a process of its own");
    let pilot = Pilot::new(plan(&prepared.style, language, marker));
    let played = play(&prepared, &setup, pilot, &mut |screen| {
        if screen == ScreenKind::Review {
            marker_in_visit |= holds(voter, marker);
        }
    })
    .unwrap_or_else(|what| panic!("{name}: {what}"));
    // The station opens the next visit by itself.
    let next = station.visit_after(voter).expect("the next visit opens");
    let marker_in_station = holds(station.id(), marker);
    let marker_in_next_visit = holds(next, marker);
    drop(station);
    let printed = fs::read(path("tray").join("ballot-1.pdf")).expect("a ballot was printed");
    let log = fs::read_to_string(path("log")).expect("the log is there");
    Run { played, printed, log, room, marker_in_visit, marker_in_station, marker_in_next_visit }
}

/// Whether a process's memory holds a text.
fn holds(process: u32, text: &str) -> bool {
    let maps = fs::read_to_string(format!("/proc/{process}/maps")).expect("it lives");
    let mut memory = fs::File::open(format!("/proc/{process}/mem")).expect("it may be read");
    let mut searched = 0usize;
    let mut found = false;
    for line in maps.lines() {
        let mut fields = line.split_whitespace();
        let (range, rights) = (fields.next().unwrap_or(""), fields.next().unwrap_or(""));
        if !rights.starts_with("rw") {
            continue;
        }
        let Some((from, to)) = range.split_once('-') else { continue };
        let number = |text| u64::from_str_radix(text, 16).expect("an address");
        let (from, to) = (number(from), number(to));
        let mut bytes = vec![0; usize::try_from(to - from).expect("it fits")];
        // Some ranges, such as a device's, can't be read.
        if memory.seek(SeekFrom::Start(from)).is_err() || memory.read_exact(&mut bytes).is_err() {
            continue;
        }
        searched += bytes.len();
        found |= bytes.windows(text.len()).any(|window| window == text.as_bytes());
    }
    assert!(searched > 100_000, "only {searched} bytes of the process could be read");
    found
}

fn is_asked_for() -> bool {
    let asked = std::env::var_os("EVENHAND_SPOKEN").is_some();
    if !asked {
        println!("skipped: the real window: tests/run starts the speech service that it needs");
    }
    asked
}

/// What must hold after any whole visit.
fn check(run: &Run) {
    assert_eq!(run.printed, run.played.document, "the print is what the state machine asked for");
    assert!(run.marker_in_visit, "the search finds the name where it must be");
    assert!(!run.marker_in_station, "the station's process never gets a choice");
    assert!(!run.marker_in_next_visit, "the next visit's process has nothing of the last one");
    let kinds: BTreeSet<&str> = run.played.screens.iter().map(|s| s.kind.as_str()).collect();
    for kind in ["Opening", "Contest", "WriteIn", "RankPick", "Review", "CheckPaper", "ReadBack"] {
        assert!(kinds.contains(kind), "the visit went through {kind}");
    }
    assert!(kinds.contains("Done"), "the visit came to its end");
    for word in names_of_the_ballot() {
        assert!(!run.log.contains(&word), "the station's log names {word}");
    }
    assert!(!run.log.contains(MARKER));
    assert!(run.log.lines().count() >= 3, "the station logs that a visit began, printed, ended");
    for file in files_below(run.room.folder()) {
        let is_paper = file.extension().is_some_and(|end| end == "pdf" || end == "png");
        let bytes = fs::read(&file).expect("it can be read");
        let has_marker = bytes.windows(MARKER.len()).any(|window| window == MARKER.as_bytes());
        assert!(is_paper || !has_marker, "{} holds a choice", file.display());
    }
}

/// Titles and names of the demo's ballot.
fn names_of_the_ballot() -> Vec<String> {
    let prepared = Prepared::load(&demo_folder(), Some("101-A"), None).expect("the demo loads");
    let mut names = Vec::new();
    for item in &prepared.style.items {
        let Item::Contest(contest) = item else { continue };
        let listed = contest.options.iter().flat_map(|option| &option.names);
        for name in listed.chain([&contest.title]) {
            names.extend(name.shown.entries().iter().map(|(_, words)| words.clone()));
        }
    }
    assert!(names.len() > 100);
    names
}

fn files_below(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("the folder is there").flatten() {
        let path = entry.path();
        if path.is_dir() {
            found.extend(files_below(&path));
        } else {
            found.push(path);
        }
    }
    found
}

/// The words that tesseract is sure of on a picture.
fn words_on(picture: &Path, language: &str) -> Vec<String> {
    let output = Command::new("tesseract")
        .arg(picture)
        .args(["stdout", "-l", language, "--psm", "11", "tsv"])
        .env("OMP_THREAD_LIMIT", "1")
        .output()
        .expect("tesseract runs: install tesseract-ocr");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout)
        .lines()
        .filter_map(|line| {
            let fields: Vec<&str> = line.split('\t').collect();
            let sure: f64 = fields.get(10)?.parse().ok()?;
            (sure >= 90.0).then(|| (*fields.get(11).unwrap_or(&"")).to_owned())
        })
        .flat_map(|word| plain(&word))
        .collect()
}

/// Words as they can be compared: letters only, small, without accents, three letters or more.
fn plain(text: &str) -> Vec<String> {
    let letters: String = text
        .to_lowercase()
        .chars()
        .map(|letter| match letter {
            'á' | 'ä' => 'a',
            'é' | 'ë' => 'e',
            'í' | 'ï' => 'i',
            'ó' | 'ö' => 'o',
            'ú' | 'ü' => 'u',
            'ñ' => 'n',
            'ç' => 'c',
            '\'' | '’' => ' ',
            letter => letter,
        })
        .map(|letter| if letter.is_alphabetic() { letter } else { ' ' })
        .collect();
    letters.split_whitespace().filter(|word| word.len() >= 3).map(str::to_owned).collect()
}

/// Names whose spelling would mislead a voice are said by another: both are right.
fn respelled() -> BTreeSet<String> {
    let prepared = Prepared::load(&demo_folder(), Some("101-A"), None).expect("the demo loads");
    let mut words = BTreeSet::new();
    for item in &prepared.style.items {
        let Item::Contest(contest) = item else { continue };
        for name in contest.options.iter().flat_map(|option| &option.names) {
            if let Some(said) = &name.said {
                let texts = name.shown.entries().iter().chain(said.entries());
                words.extend(texts.flat_map(|(_, text)| plain(text)));
            }
        }
    }
    words
}

/// Words that are said only: they tell where an item is or what has just changed, which a screen
/// shows by place and by the filled oval.
const CUES: [&str; 16] = [
    "option", "opcion", "accent", "acento", "tilde", "dots", "cedilla", "dieresis", "now", "ahora",
    // Which rows a block has, and what the group has in it.
    "from", "to", "more", "de", "a", "mas",
];

/// Names of letters and signs, which are heard where the sign is seen.
const SIGNS: [&str; 12] = [
    "space",
    "hyphen",
    "apostrophe",
    "period",
    "espacio",
    "guion",
    "apostrofo",
    "punto",
    "with",
    "two",
    "con",
    "ene",
];

fn seen_is_heard(run: &Run, language: &str) {
    let respelled = respelled();
    let mut compared = 0usize;
    for screen in &run.played.screens {
        let heard: BTreeSet<String> = screen.spoken.iter().flat_map(|line| plain(line)).collect();
        let picture = screen.picture.as_ref().expect("a picture was taken");
        for word in words_on(&run.room.path("pictures").join(picture), language) {
            compared += 1;
            assert!(
                heard.contains(&word) || respelled.contains(&word),
                "{picture}: \"{word}\" is seen and not heard"
            );
        }
        heard_is_seen(screen, &heard, &respelled);
    }
    println!("{compared} words read by tesseract on {} screens", run.played.screens.len());
    assert!(compared > 1_000, "tesseract read only {compared} words");
}

/// The other way round, against the lines that the frame was drawn from: tesseract misses words in
/// large bold type, so its silence proves nothing.
fn heard_is_seen(screen: &Seen, heard: &BTreeSet<String>, respelled: &BTreeSet<String>) {
    let seen: BTreeSet<String> = screen.lines.iter().flat_map(|line| plain(line)).collect();
    if ["FullText", "ReadBack", "Opening"].contains(&screen.kind.as_str()) {
        // These say more than one page or one language at once: that is their purpose.
        return;
    }
    for word in heard {
        let is_known = seen.contains(word)
            || respelled.contains(word)
            || CUES.contains(&word.as_str())
            || SIGNS.contains(&word.as_str());
        assert!(is_known, "{}: \"{word}\" is heard and not seen", screen.kind);
    }
}

#[test]
fn a_whole_visit_by_two_switches() {
    if !is_asked_for() {
        return;
    }
    let run = run("switches", Road::Switches, 0, MARKER);
    check(&run);
    seen_is_heard(&run, "eng");
}

#[test]
fn a_whole_visit_by_mouse_in_spanish() {
    if !is_asked_for() {
        return;
    }
    let run = run("mouse", Road::Mouse, 1, MARKER);
    check(&run);
    seen_is_heard(&run, "spa");
}
