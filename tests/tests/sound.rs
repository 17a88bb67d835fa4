//! The real window and real sound: a press is followed by its words, and the old words stop.
//!
//! Runs where `tests/run` has started a speech service (`EVENHAND_SPEECH_TESTS`). How soon is a
//! benchmark: `tests/benches/station.rs`.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::print_stdout,
    clippy::panic,
    reason = "this test starts a display and the station, and listens"
)]

use std::path::{Path, PathBuf};
use std::process::Command;
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::prepared::Prepared;
use evenhand_tests::display::VirtualDisplay;
use evenhand_tests::listening::{Listener, STYLE, listen};
use evenhand_tests::open::{self, Opening, Room, Station, memory_of};
use evenhand_tests::stage::demo_folder;
use evenhand_visit::LanguageIndex;

const TIMES: u64 = 5;
/// The long name sounds for about five seconds: what ends within this was cut.
const CUT_MAX: Duration = Duration::from_secs(1);

/// The station's program, or none where no speech service was started for tests.
fn program(test: &str) -> Option<PathBuf> {
    if std::env::var_os("EVENHAND_SPEECH_TESTS").is_none() {
        println!("skipped: {test}: tests/run starts the speech service that it needs");
        return None;
    }
    Some(open::program().expect("the station is built"))
}

#[test]
fn a_press_is_followed_by_its_words_and_the_old_words_stop_in_each_language() {
    let Some(program) = program("a press is followed by its words") else { return };
    let prepared = Prepared::load(&demo_folder(), Some(STYLE), None).expect("the demo loads");
    assert!(prepared.languages.len() >= 2, "the demo has two languages");
    for (index, language) in prepared.languages.iter().enumerate() {
        let tag = language.tag();
        let room = Room::new(&format!("sound-{tag}")).expect("a folder can be made");
        let index = LanguageIndex(u8::try_from(index).expect("few languages"));
        let heard = listen(&program, room.folder(), index, TIMES)
            .unwrap_or_else(|what| panic!("{tag}: {what}"));
        assert_eq!(heard.len(), 5, "{tag}: each pair of presses was heard");
        for heard in heard {
            println!("{tag}: {heard:?}");
            assert!(heard.silent < CUT_MAX, "{tag}: the old words go on: {heard:?}");
        }
    }
}

/// Starts a station, kills one of its two processes while the first words sound, and expects both
/// to be gone and nothing more to be heard.
fn killed(program: &Path, name: &str, which: impl Fn(&Station) -> u32) {
    let room = Room::new(&format!("sound-{name}")).expect("a folder can be made");
    let display = VirtualDisplay::start((1280, 800)).expect("a display can be started");
    let listener = Listener::start().expect("the output can be recorded");
    let opening = Opening {
        program,
        display: display.name(),
        size: (1280, 800),
        election: &demo_folder(),
        style: STYLE,
        folder: room.folder(),
        station_file: None,
    };
    let start = Instant::now();
    let station = Station::start(&opening).expect("the station starts");
    let visit = station.visit().expect("a visit begins");
    listener.onset(start).unwrap_or_else(|what| panic!("{name}: {what}"));
    let killed = Command::new("kill").arg("-9").arg(which(&station).to_string()).status();
    assert!(killed.expect("kill runs").success());
    sleep(CUT_MAX);
    let quiet_from = Instant::now();
    sleep(Duration::from_secs(2));
    assert_eq!(listener.last_sound(quiet_from), None, "{name}: the words go on");
    assert!(memory_of(visit).is_err(), "{name}: the visit's process lives");
    assert!(memory_of(station.id()).is_err(), "{name}: the station's process lives");
}

#[test]
fn a_visit_that_dies_leaves_silence() {
    let Some(program) = program("a visit that dies") else { return };
    killed(&program, "visit-dies", |station| station.visit().expect("it is there"));
}

#[test]
fn a_station_that_dies_takes_its_visit_with_it() {
    let Some(program) = program("a station that dies") else { return };
    killed(&program, "station-dies", Station::id);
}
