//! The station as its user has it: the real window on a virtual display, real key events, and the
//! sound that comes out.
//!
//! - from a press to the changed frame on the display, over a whole visit by two
//!   switches through every screen, and the visit's memory at its end, at two screen sizes;
//! - from a press to the sound of the right words, from silence and while other words sound, and
//!   until the old words are silent, in each language of the demo;
//! - from the start of the station's program to its first frame and to its first words.
//!
//! `-- sound 40` presses 40 pairs instead of 100.
//!
//! It needs a private speech service:
//! `env=$(demo/speech-service start DIR) && eval "$env" && cargo bench -p evenhand-tests`.
//! A time begins before the event is handed to the display and ends when the display or the
//! recorder has told us, so both ways are in it.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a benchmark looks at the clock, prints its figures, and stops where it can't go on"
)]

use std::path::Path;
use std::time::{Duration, Instant};

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_rules::{OptionKind, Rule, Style};
use evenhand_tests::display::VirtualDisplay;
use evenhand_tests::listening::{Failure, Listener, STYLE, listen, within};
use evenhand_tests::open::{Opening, Room, Station, memory_of, program};
use evenhand_tests::pilot::{Mark, Pilot, Plan};
use evenhand_tests::player::{Player, Road, Setup};
use evenhand_tests::stage::demo_folder;
use evenhand_visit::{LanguageIndex, ScreenKind};
use hdrhistogram::Histogram;

/// Pairs of presses a language: one from silence, one that cuts the words of the first.
const PAIRS: u64 = 100;
/// Starts of the program.
const STARTS: u32 = 10;

fn main() -> Result<(), Failure> {
    if std::env::var_os("EVENHAND_SPEECH_TESTS").is_none() {
        println!("skipped: station (no private speech service; see demo/speech-service)");
        return Ok(());
    }
    let only = std::env::args().nth(1).filter(|name| !name.starts_with('-'));
    let is_wanted = |name: &str| only.as_deref().is_none_or(|only| only == name);
    println!("{:<42} {:>7} {:>7} {:>7} {:>7}  ms", "", "p50", "p95", "p99", "max");
    if is_wanted("start") {
        starts()?;
    }
    if is_wanted("frames") {
        for size in [(1920, 1080), (3840, 2160)] {
            frames(size)?;
        }
    }
    if is_wanted("sound") {
        for (language, tag) in [(0, "en"), (1, "es")] {
            sounds(language, tag)?;
        }
    }
    Ok(())
}

fn histogram() -> Histogram<u64> {
    Histogram::new(3).unwrap()
}

fn record(into: &mut Histogram<u64>, time: Duration) -> Result<(), Failure> {
    into.record(u64::try_from(time.as_micros())?.max(1))?;
    Ok(())
}

fn report(name: &str, times: &Histogram<u64>) {
    // Recorded in microseconds.
    let ms = |micros: u64| format!("{}.{}", micros / 1_000, micros % 1_000 / 100);
    println!(
        "{name:<42} {:>7} {:>7} {:>7} {:>7}  ({} times)",
        ms(times.value_at_quantile(0.5)),
        ms(times.value_at_quantile(0.95)),
        ms(times.value_at_quantile(0.99)),
        ms(times.max()),
        times.len()
    );
}

fn opening<'a>(
    program: &'a Path,
    display: &'a VirtualDisplay,
    size: (u16, u16),
    election: &'a Path,
    room: &'a Room,
) -> Opening<'a> {
    Opening {
        program,
        display: display.name(),
        size,
        election,
        style: STYLE,
        folder: room.folder(),
        station_file: None,
    }
}

fn setup(display: &VirtualDisplay, size: (u16, u16), road: Road, station: &Station) -> Setup {
    Setup {
        size,
        pitch: PixelPitch::USUAL,
        road,
        display: display.name().to_owned(),
        trace: Some(station.trace()),
        pictures: None,
        spoken: None,
        pause: Duration::from_millis(300),
    }
}

// ---- start ----

fn starts() -> Result<(), Failure> {
    let size = (1920, 1080);
    let (mut frame, mut words) = (histogram(), histogram());
    let program = program()?;
    for _ in 0..STARTS {
        let room = Room::new("start")?;
        let display = VirtualDisplay::start(size)?;
        let eyes = evenhand_tests::display::Display::open(display.name())?;
        let listener = Listener::start()?;
        // The service says to the end what the last visit, which was killed, had asked for.
        listener.silence(Duration::from_secs(3))?;
        let drawn = eyes.watch()?;
        let start = Instant::now();
        let _station = Station::start(&opening(&program, &display, size, &demo_folder(), &room))?;
        let spoken = listener.speech(start)?;
        if std::env::var_os("EVENHAND_BENCH_LIST").is_some() {
            println!("first words {:?}", spoken - start);
        }
        record(&mut frame, first_frame(&drawn, start)? - start)?;
        record(&mut words, spoken - start)?;
    }
    report("start of the station to its first frame", &frame);
    report("start of the station to its first words", &words);
    Ok(())
}

/// When the display first showed something else than its empty ground.
fn first_frame(drawn: &evenhand_tests::display::Watch, start: Instant) -> Result<Instant, Failure> {
    within("first frame", || drawn.first_after(start))
}

// ---- frames and memory ----

fn frames(size: (u16, u16)) -> Result<(), Failure> {
    let room = Room::new("frames")?;
    let display = VirtualDisplay::start(size)?;
    let program = program()?;
    let station = Station::start(&opening(&program, &display, size, &demo_folder(), &room))?;
    station.wait_for_window()?;
    let prepared = Prepared::load(&demo_folder(), Some(STYLE), None)?;
    let setup = setup(&display, size, Road::Switches, &station);
    let visit = station.visit()?;
    let mut player = Player::begin(&prepared, &setup)?;
    let drawn = player.display().watch()?;
    let mut pilot = Pilot::new(everything(&prepared.style));
    let mut times = histogram();
    let mut kinds = Vec::new();
    let mut memory = (0, 0);
    while let Some(command) = player.next(&mut pilot) {
        let before = player.view().screen;
        let at = player.press(command)?;
        if player.has_ended() {
            break;
        }
        let kind = player.view().screen;
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
        // After the press that prints, the paper comes and goes before the next screen.
        if before != ScreenKind::AskPrint || kind != ScreenKind::CheckPaper {
            let changed = within("a changed frame", || drawn.first_after(at))?;
            record(&mut times, changed - at)?;
            if std::env::var_os("EVENHAND_BENCH_LIST").is_some() {
                println!("{before:?} {command:?} {kind:?} {:?}", changed - at);
            }
        }
        memory = memory_of(visit)?;
    }
    if kinds.last() != Some(&ScreenKind::Done) {
        return Err(format!("the visit stopped on {:?}: {:?}", kinds.last(), pilot.fault()).into());
    }
    let (width, height) = size;
    report(&format!("{width}x{height}: press to changed frame"), &times);
    let mib = |kib: u64| format!("{}.{}", kib / 1024, kib % 1024 * 10 / 1024);
    println!(
        "{width}x{height}: memory of the visit's process after {} kinds of screen: {} MiB, at most {} MiB",
        kinds.len(),
        mib(memory.0),
        mib(memory.1)
    );
    Ok(())
}

/// The first option everywhere, one name written in, two ranks.
fn everything(style: &Style) -> Plan {
    let mut is_written = false;
    let contests = style
        .contests()
        .map(|(_, contest)| {
            let mark = |option, rank| Mark { option, rank, name: None };
            let mut options = contest.indexed_options();
            let line = options.find(|(_, option)| option.kind == OptionKind::WriteIn);
            match (contest.rule, line) {
                (Rule::Rank { .. }, _) => vec![mark(1, Some(1)), mark(0, Some(3))],
                (Rule::Choose { max }, Some((line, _))) if max > 1 && !is_written => {
                    is_written = true;
                    let name = Some("ANA O'NEILL".to_owned());
                    vec![mark(0, None), Mark { option: line.0, rank: None, name }]
                }
                (Rule::Choose { .. }, _) => vec![mark(0, None)],
            }
        })
        .collect();
    Plan { language: Some(LanguageIndex(0)), contests: Some(contests) }
}

// ---- sound ----

fn sounds(language: u8, tag: &str) -> Result<(), Failure> {
    let room = Room::new("sound")?;
    let pairs = std::env::args().nth(2).and_then(|pairs| pairs.parse().ok()).unwrap_or(PAIRS);
    let heard = listen(&program()?, room.folder(), LanguageIndex(language), pairs)?;
    println!("{tag}: {} of {pairs} pairs of presses could be told apart", heard.len());
    let (mut idle, mut cutting, mut silent) = (histogram(), histogram(), histogram());
    for heard in heard {
        record(&mut idle, heard.idle)?;
        record(&mut cutting, heard.cutting)?;
        record(&mut silent, heard.silent)?;
    }
    report(&format!("{tag}: press to words, from silence"), &idle);
    report(&format!("{tag}: press to new words, cutting"), &cutting);
    report(&format!("{tag}: press to the end of the old"), &silent);
    Ok(())
}
