//! The command line: `station` keeps the log and starts visits, `visit` is one voter's window.

use std::env;
use std::ffi::OsString;
use std::io::{self, Write};
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Args, Parser, Subcommand};
use evenhand_definitions::Opening;
use evenhand_event_log::{Label, Offset};
use evenhand_input::MouseRoad;
use evenhand_speech::Fault;
use evenhand_visit::{ACCEPT_STEPS, IGNORE_STEPS, Pressing, SCAN_DEFAULT, SCAN_STEPS, Switches};
use thiserror::Error;

use crate::confine::{Memory, confine, keep_panics_quiet};
use crate::day::{self, DayError, DayOptions};
use crate::devices::paper::PaperDevices;
use crate::devices::scanner::ScanProgram;
use crate::devices::service::{SOCKET_USUAL, ServicePrinter};
use crate::events::EventPipe;
use crate::ledger::{Ledger, LedgerError};
use crate::metrics::PixelPitch;
use crate::prepared::{PrepareError, Prepared};
use crate::sealed_files::{Shelf, ShelfError};
use crate::set_up::{self, SetUpError};
use crate::source::Source;
use crate::station::{self, StationError};
use crate::station_file::{StationFile, StationFileError};
use crate::trace::Trace;
use crate::window::{self, Options, StationPipes, WindowError};

/// A station that marks a county's own paper ballot for a voter, and keeps no vote.
#[derive(Debug, Parser)]
#[command(name = "evenhand", version)]
struct CommandLine {
    #[command(subcommand)]
    task: Task,
}

#[derive(Debug, Subcommand)]
enum Task {
    /// Check the election, start visits one after the other, and log what happens on standard output
    Station(StationArguments),
    /// Open the window for one visit, until standard input ends, and write its events on standard
    /// output, one a line
    Visit(VisitOnly),
    /// Open a worker's window for the day: test the station, open the polls with two workers, start
    /// each voter, close, and keep the log
    Day(DayArguments),
    /// For a technician with the election office's word, where a station's log can't be taken up: keep
    /// it as it is, and begin a new one that names its last line. Polls are closed in the new one
    NewLog(NewLogArguments),
    /// Open a worker's window: choose and verify a sealed election, measure the screen with a card, teach the station its two switches,
    /// choose printer, reader and headphones, and keep all of it in the station's file
    SetUp(SetUpArguments),
}

#[derive(Args, Debug)]
struct SetUpArguments {
    /// The station's file, which is made where there is none
    #[arg(long, value_name = "FILE")]
    station_file: PathBuf,
    /// A folder with sealed elections to choose from, such as a removable drive: the chosen one is
    /// copied beside the station's file. If left out, that step is left out
    #[arg(long, value_name = "DIR", requires = "trust")]
    elections: Option<PathBuf>,
    /// The officials' keys that the station is to trust (evenhand-office trust)
    #[arg(long, value_name = "FILE", requires = "elections")]
    trust: Option<PathBuf>,
    /// The print service's socket
    #[arg(long, value_name = "SOCKET", default_value = SOCKET_USUAL)]
    print_service: PathBuf,
    /// Note each worker's screen in this file, by the ids of its messages, for tests
    #[arg(long, value_name = "FILE")]
    worker_trace: Option<PathBuf>,
    /// The worker's language: en or es
    #[arg(long, value_name = "TAG", default_value = "en")]
    language: String,
    /// The window's size in pixels, where the screen is a virtual one; else the whole screen is
    /// filled, as it must be to be measured
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = size)]
    window: Option<(u16, u16)>,
}

#[derive(Args, Debug)]
struct VisitOnly {
    /// Ballots count: with a sealed election only, and only where workers have opened the polls
    #[arg(long = "official", conflicts_with = "election")]
    is_official: bool,
    /// A worker comes in through the station, with a code: what it answers comes on standard input
    #[arg(long = "attended")]
    is_attended: bool,
    #[command(flatten)]
    visit: VisitArguments,
}

#[derive(Args, Debug)]
struct DayArguments {
    /// The station's own folder: its key, its log, its reports. Made where there is none
    #[arg(long, value_name = "DIR")]
    station_folder: PathBuf,
    /// The list of workers and their codes (evenhand-office worker add)
    #[arg(long, value_name = "FILE")]
    workers: PathBuf,
    /// Where the log and its copies go, such as a folder of a removable drive
    #[arg(long, value_name = "DIR")]
    export_folder: PathBuf,
    /// The polling place, as it stands on screens and reports
    #[arg(long, value_name = "NAME")]
    place: String,
    /// This station's number: capitals, digits and hyphens
    #[arg(long, value_name = "NUMBER")]
    number: Label,
    /// The local time, in minutes from UTC: -360 is six hours behind
    #[arg(long, value_name = "MINUTES", default_value = "0", allow_hyphen_values = true, value_parser = offset)]
    utc_offset: Offset,
    /// The worker's language: en or es
    #[arg(long, value_name = "TAG", default_value = "en")]
    worker_language: String,
    /// Note each worker's screen in this file, by the ids of its messages, for tests
    #[arg(long, value_name = "FILE")]
    worker_trace: Option<PathBuf>,
    #[command(flatten)]
    visit: VisitArguments,
}

#[derive(Args, Debug)]
struct NewLogArguments {
    /// The station's own folder
    #[arg(long, value_name = "DIR")]
    station_folder: PathBuf,
    /// This station's number: capitals, digits and hyphens
    #[arg(long, value_name = "NUMBER")]
    number: Label,
    /// The local time, in minutes from UTC: -360 is six hours behind. The new log keeps it
    #[arg(long, value_name = "MINUTES", allow_hyphen_values = true, value_parser = offset)]
    utc_offset: Offset,
}

#[derive(Args, Debug)]
struct StationArguments {
    /// Stop after one visit
    #[arg(long)]
    once: bool,
    #[command(flatten)]
    visit: VisitArguments,
}

#[derive(Args, Clone, Debug)]
struct VisitArguments {
    /// The election's folder: definition.json and, where the office has one, settings.json. If this
    /// and --sealed are left out, the sealed election that was chosen (see --station-file)
    #[arg(long, value_name = "DIR")]
    election: Option<PathBuf>,
    /// A sealed election (evenhand-office pack and sign), in place of a folder
    #[arg(long, value_name = "FILE", requires = "trust", conflicts_with = "election")]
    sealed: Option<PathBuf>,
    /// The officials' keys that this station trusts (evenhand-office trust)
    #[arg(long, value_name = "FILE", requires = "sealed")]
    trust: Option<PathBuf>,
    /// The demo's printer: a folder that printed ballots fall into as PDF. If left out, the printer
    /// and the reader that were chosen (see --station-file)
    #[arg(long, value_name = "DIR")]
    printer_folder: Option<PathBuf>,
    /// The print service's socket
    #[arg(long, value_name = "SOCKET", default_value = SOCKET_USUAL)]
    print_service: PathBuf,
    /// The voter's ballot style, by its code; the first one if left out
    #[arg(long, value_name = "CODE")]
    style: Option<String>,
    /// The language of the first screen; the office's default if left out
    #[arg(long, value_name = "TAG")]
    language: Option<String>,
    /// The window's size in pixels
    #[arg(long, value_name = "WIDTHxHEIGHT", value_parser = size, default_value = "1280x800")]
    window: (u16, u16),
    /// Fill the whole screen
    #[arg(long, conflicts_with = "window")]
    full_screen: bool,
    /// The width of the screen's pixels in micrometres; sizes on the glass follow from it. If left
    /// out, as it was measured (see --station-file), else 276.7
    #[arg(long, value_name = "MICROMETRES", value_parser = pitch)]
    pixel_pitch: Option<PixelPitch>,
    /// What a worker has taught this station (evenhand set-up): its election, screen, switches and
    /// devices
    #[arg(long, value_name = "FILE")]
    station_file: Option<PathBuf>,
    /// How long the same key, switch or touch is ignored after it was let go, in milliseconds: 0,
    /// 50, 100, 200, 300, 500, 700, 1000, 1500 or 2000
    #[arg(long, value_name = "MILLISECONDS", value_parser = ignore_step, default_value = "50")]
    ignore_again: u8,
    /// How long a press must last to count, in milliseconds: 0, 100, 200, 300, 500, 700, 1000, 1500
    /// or 2000
    #[arg(long, value_name = "MILLISECONDS", value_parser = accept_step, default_value = "0")]
    count_after: u8,
    /// The voter has one switch: the station moves on by itself after so many milliseconds: 500, 700,
    /// 1000, 1400, 2000, 2800, 4000, 5600, 8000 or 10000
    #[arg(long, value_name = "MILLISECONDS", value_parser = scan_step)]
    one_switch: Option<u8>,
    /// The mouse's left and right buttons are the first and the second switch
    #[arg(long)]
    mouse_switches: bool,
    /// The sound server's name of the headphones' output. If left out, the one that was chosen (see
    /// --station-file), else the server's default
    #[arg(long, value_name = "NAME")]
    headphones: Option<String>,
    /// Note each shown screen's kind and focus in this file, for tests; not on an official ballot
    #[arg(long, value_name = "FILE")]
    trace: Option<PathBuf>,
}

/// Why the program stops.
#[derive(Debug, Error)]
enum AppError {
    #[error(transparent)]
    Prepare(#[from] PrepareError),
    #[error(transparent)]
    Station(#[from] StationError),
    #[error(transparent)]
    Window(#[from] WindowError),
    #[error("the system: {0}")]
    System(#[from] io::Error),
    #[error("there is no display: set DISPLAY or WAYLAND_DISPLAY")]
    NoDisplay,
    #[error(transparent)]
    StationFile(#[from] StationFileError),
    #[error("no station file at {0}: set the station up first (evenhand set-up)")]
    NoStationFile(PathBuf),
    #[error(transparent)]
    SetUp(#[from] SetUpError),
    #[error(transparent)]
    Day(#[from] DayError),
    #[error(
        "no printer is chosen: choose one (evenhand set-up --station-file FILE) and give that file, \
         or give --printer-folder for a demo"
    )]
    NoPrinter,
    #[error(
        "no reader is chosen: choose one (evenhand set-up --station-file FILE), or give \
         --printer-folder for a demo"
    )]
    NoScanner,
    #[error(
        "no election is chosen: choose a sealed one (evenhand set-up --station-file FILE --elections \
         DIR --trust FILE) and give that station file, or give --sealed FILE --trust FILE, or \
         --election DIR for a demo"
    )]
    NoElection,
    #[error(transparent)]
    Ledger(#[from] LedgerError),
    #[error("the station's log can be taken up: nothing was changed")]
    LogIsWhole,
    #[error(transparent)]
    Shelf(#[from] ShelfError),
    #[error("a trace is to be had in a demo or a test only")]
    TraceOfOfficial,
}

/// Runs what the command line asks for.
pub fn run() -> ExitCode {
    let result = match CommandLine::parse().task {
        Task::Station(arguments) => run_station(&arguments),
        Task::Visit(arguments) => run_visit(arguments),
        Task::Day(arguments) => run_day(arguments),
        Task::NewLog(arguments) => run_new_log(&arguments, &mut io::stdout()),
        Task::SetUp(arguments) => run_set_up(arguments),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            // With no standard error there is nobody to tell; the exit code still says it.
            writeln!(io::stderr(), "evenhand: {error}").unwrap_or_default();
            ExitCode::FAILURE
        }
    }
}

fn run_station(arguments: &StationArguments) -> Result<(), AppError> {
    // A bad election or station file is found before a voter stands there.
    let taught = arguments.visit.taught()?;
    let visit = arguments.visit.with_election(&taught)?;
    let devices = visit.paper(&taught)?;
    let prepared = visit.prepared(Opening::Test)?;
    prepared.recorded.check().map_err(PrepareError::from)?;
    tell_unheard(&prepared, &mut io::stdout())?;
    let words = visit.to_words();
    station::run(&words, &devices, arguments.once, &mut io::stdout())?;
    Ok(())
}

/// Says at the start which languages won't be heard whole.
fn tell_unheard(prepared: &Prepared, log: &mut dyn Write) -> Result<(), AppError> {
    // Without a service each visit says that there is no speech at all.
    let Ok(voices) = evenhand_speech::voices() else { return Ok(()) };
    let gaps = prepared.recorded.gaps(prepared.words.election(), &prepared.languages, &voices);
    for coverage in gaps.map_err(PrepareError::from)? {
        writeln!(log, "not everything is heard in {coverage}")?;
    }
    log.flush()?;
    Ok(())
}

fn run_set_up(arguments: SetUpArguments) -> Result<(), AppError> {
    need_display()?;
    let path = arguments.station_file;
    let program = ScanProgram::default();
    let shelf = match (arguments.elections, &arguments.trust) {
        (Some(folder), Some(trust)) => Some(Shelf::new(folder, trust)?),
        (_, _) => None,
    };
    let places = set_up::Places {
        file: path,
        socket: arguments.print_service,
        program,
        shelf,
        trace: arguments.worker_trace,
    };
    let known = StationFile::load(&places.file)?;
    set_up::run(known, places, &arguments.language, arguments.window)?;
    Ok(())
}

fn run_day(arguments: DayArguments) -> Result<(), AppError> {
    need_display()?;
    let taught = arguments.visit.taught()?;
    let visit = arguments.visit.with_election(&taught)?;
    day::run(DayOptions {
        source: visit.source(),
        visit: visit.to_words(),
        workers: arguments.workers,
        folder: arguments.station_folder,
        export: arguments.export_folder,
        printer: visit.paper(&taught)?,
        headphones: visit.headphones.clone().or_else(|| taught.headphones.clone()),
        place: arguments.place,
        number: arguments.number,
        offset: arguments.utc_offset,
        language: arguments.worker_language,
        size: (!visit.full_screen).then_some(visit.window),
        taught,
        trace: arguments.worker_trace,
    })?;
    Ok(())
}

/// A log that can be taken up is not put aside.
fn run_new_log(arguments: &NewLogArguments, out: &mut dyn Write) -> Result<(), AppError> {
    let NewLogArguments { station_folder, number, utc_offset } = arguments;
    let now = day::moment();
    let Some(why) = Ledger::why_not(station_folder, number, now)? else {
        return Err(AppError::LogIsWhole);
    };
    writeln!(out, "Why the log can't be taken up: {why}")?;
    let (ledger, _) = Ledger::begin_anew(station_folder, number.clone(), *utc_offset, now)?;
    let key = ledger.public_key();
    let head = ledger.shut_down(now)?;
    writeln!(
        out,
        "What was there is kept beside the new log as log-N.txt with the highest N: give it to the \
         election office. In the new log polls are closed. The station's key is still {key}. The \
         new log's last line:\n{}",
        head.groups()
    )?;
    Ok(())
}

/// Without a display the toolkit would panic.
fn need_display() -> Result<(), AppError> {
    let names = ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"];
    if names.map(env::var_os).iter().all(Option::is_none) {
        return Err(AppError::NoDisplay);
    }
    Ok(())
}

fn run_visit(only: VisitOnly) -> Result<(), AppError> {
    let VisitOnly { is_official, is_attended, visit: arguments } = only;
    keep_panics_quiet();
    if confine()? == Memory::NotLocked {
        writeln!(io::stderr(), "memory is not locked: set LimitMEMLOCK=infinity")?;
    }
    let taught = arguments.taught()?;
    let arguments = arguments.with_election(&taught)?;
    let mut prepared =
        arguments.prepared(if is_official { Opening::Election } else { Opening::Test })?;
    prepared.begin.pressing = arguments.pressing();
    prepared.begin.is_attended = is_attended;
    prepared.begin.loudness = taught.loudness;
    let path = arguments.paper(&taught)?.open();
    need_display()?;
    if arguments.trace.is_some() && prepared.begin.state == evenhand_rules::BallotState::Official {
        return Err(AppError::TraceOfOfficial);
    }
    let options = Options {
        size: (!arguments.full_screen).then_some(arguments.window),
        pitch: taught.pitch,
        mouse_road: arguments.mouse_road(),
        switches: taught.switches,
        headphones: arguments.headphones.or(taught.headphones),
        trace: arguments.trace.as_deref().map(Trace::to_file).transpose()?,
    };
    let pipes =
        StationPipes { events: EventPipe::new(io::stdout()), station: Box::new(io::stdin()) };
    let ran = window::run(prepared, path, pipes, options);
    // A visit that ends before its time may leave words with the speech service: nobody else is there
    // to silence them where the station itself has ended.
    if ran.is_err()
        && let Err(fault) = evenhand_speech::silence()
        && fault != Fault::NoAddress
    {
        writeln!(io::stderr(), "evenhand: speech could not be silenced ({fault:?})")?;
    }
    Ok(ran?)
}

impl VisitArguments {
    /// The same with an election: where the command line names none, the one that was chosen. A
    /// station gives it to each visit, so that they have the same even if it is set up anew meanwhile.
    fn with_election(&self, taught: &StationFile) -> Result<Self, AppError> {
        if self.election.is_some() || self.sealed.is_some() {
            return Ok(self.clone());
        }
        let chosen = self.station_file.as_ref().zip(taught.sealed.as_ref());
        let (file, names) = chosen.ok_or(AppError::NoElection)?;
        let (sealed, trust) = (names.sealed_beside(file), names.trust_beside(file));
        Ok(Self { sealed: Some(sealed), trust: Some(trust), ..self.clone() })
    }

    /// Where the election comes from: one of both is there ([`Self::with_election`]).
    fn source(&self) -> Source {
        match (&self.sealed, &self.trust) {
            (Some(file), Some(trust)) => {
                Source::Sealed { file: file.clone(), trust: trust.clone() }
            }
            (_, _) => Source::Folder(self.election.clone().unwrap_or_default()),
        }
    }

    fn prepared(&self, opening: Opening) -> Result<Prepared, PrepareError> {
        let opened = self.source().open()?;
        Prepared::of(&opened, opening, self.style.as_deref(), self.language.as_deref())
    }

    const fn mouse_road(&self) -> MouseRoad {
        if self.mouse_switches { MouseRoad::TwoSwitches } else { MouseRoad::Pointing }
    }

    /// What the station was taught, what the command line says going first.
    fn taught(&self) -> Result<StationFile, AppError> {
        let usual = StationFile::with_pitch(PixelPitch::USUAL);
        let taught = match &self.station_file {
            Some(path) => {
                StationFile::load(path)?.ok_or_else(|| AppError::NoStationFile(path.clone()))?
            }
            None => usual,
        };
        Ok(StationFile { pitch: self.pixel_pitch.unwrap_or(taught.pitch), ..taught })
    }

    /// The devices that sheets go through: the demo's folder, or what was chosen.
    fn paper(&self, taught: &StationFile) -> Result<PaperDevices, AppError> {
        if let Some(folder) = &self.printer_folder {
            return Ok(PaperDevices::Folder(folder.clone()));
        }
        let queue = taught.printer.clone().ok_or(AppError::NoPrinter)?;
        let scanner = taught.scanner.clone().ok_or(AppError::NoScanner)?;
        let printer = ServicePrinter::new(self.print_service.clone(), queue);
        Ok(PaperDevices::Real { printer, scanner, program: ScanProgram::default() })
    }

    fn pressing(&self) -> Pressing {
        Pressing {
            switches: if self.one_switch.is_some() { Switches::One } else { Switches::Two },
            scan: self.one_switch.unwrap_or(SCAN_DEFAULT),
            accept: self.count_after,
            ignore: self.ignore_again,
        }
    }

    /// These arguments as they are given to a visit's process.
    fn to_words(&self) -> Vec<OsString> {
        let mut words: Vec<OsString> = Vec::new();
        let mut pair = |name: &str, value: OsString| words.extend([name.into(), value]);
        for (name, path) in
            [("--election", &self.election), ("--sealed", &self.sealed), ("--trust", &self.trust)]
        {
            if let Some(path) = path {
                pair(name, path.clone().into());
            }
        }
        if let Some(folder) = &self.printer_folder {
            pair("--printer-folder", folder.clone().into());
        }
        pair("--print-service", self.print_service.clone().into());
        if let Some(pitch) = self.pixel_pitch {
            pair("--pixel-pitch", pitch.in_micrometres().into());
        }
        if let Some(path) = &self.station_file {
            pair("--station-file", path.clone().into());
        }
        let pressing = self.pressing();
        pair("--ignore-again", pressing.ignore_time().0.to_string().into());
        pair("--count-after", pressing.accept_time().0.to_string().into());
        if self.one_switch.is_some() {
            pair("--one-switch", pressing.scan_time().0.to_string().into());
        }
        for (name, value) in [
            ("--style", &self.style),
            ("--language", &self.language),
            ("--headphones", &self.headphones),
        ] {
            if let Some(value) = value {
                pair(name, value.into());
            }
        }
        if let Some(trace) = &self.trace {
            pair("--trace", trace.clone().into());
        }
        if self.full_screen {
            words.push("--full-screen".into());
        } else {
            let (width, height) = self.window;
            pair("--window", format!("{width}x{height}").into());
        }
        if self.mouse_switches {
            words.push("--mouse-switches".into());
        }
        words
    }
}

/// Minutes from UTC.
fn offset(text: &str) -> Result<Offset, String> {
    let minutes = text.parse().ok().and_then(Offset::minutes);
    minutes.ok_or_else(|| "write it in minutes, from -840 to 840".to_owned())
}

/// "1920x1080", each side from 640 to 16,000.
fn size(text: &str) -> Result<(u16, u16), String> {
    let parse = |side: &str| side.parse().ok().filter(|side| (640..=16_000).contains(side));
    let sides = text.split_once('x').and_then(|(w, h)| Some((parse(w)?, parse(h)?)));
    sides.ok_or_else(|| "write it as 1920x1080, each side from 640 to 16000".to_owned())
}

fn ignore_step(text: &str) -> Result<u8, String> {
    step(&IGNORE_STEPS, text)
}

fn accept_step(text: &str) -> Result<u8, String> {
    step(&ACCEPT_STEPS, text)
}

fn scan_step(text: &str) -> Result<u8, String> {
    step(&SCAN_STEPS, text)
}

/// The place of so many milliseconds among the steps.
fn step(steps: &[u64], text: &str) -> Result<u8, String> {
    let wanted = text.parse::<u64>().ok();
    let step = steps.iter().position(|step| Some(*step) == wanted);
    step.and_then(|step| u8::try_from(step).ok()).ok_or_else(|| {
        let steps: Vec<String> = steps.iter().map(u64::to_string).collect();
        format!("give one of {}", steps.join(", "))
    })
}

/// Micrometres with at most one decimal.
fn pitch(text: &str) -> Result<PixelPitch, String> {
    let (whole, tenths) = text.split_once('.').unwrap_or((text, "0"));
    let whole: Option<u32> = whole.parse().ok().filter(|whole| *whole <= 1_000);
    let tenths: Option<u32> = tenths.parse().ok().filter(|tenths| *tenths <= 9);
    let pitch = whole.zip(tenths).and_then(|(w, t)| PixelPitch::new(w * 1_000 + t * 100));
    pitch.ok_or_else(|| "write it as 276.7, from 50 to 1000".to_owned())
}

#[cfg(test)]
mod tests {
    use evenhand_scan::ScannerChoice;

    use super::*;
    use crate::station_file::SealedNames;

    #[test]
    fn a_visit_gets_the_stations_arguments() {
        let station = [
            "evenhand",
            "station",
            "--once",
            "--election",
            "e",
            "--printer-folder",
            "p",
            "--print-service",
            "q",
            "--style",
            "101-A",
            "--window",
            "1080x1920",
            "--pixel-pitch",
            "250.5",
            "--station-file",
            "s",
            "--mouse-switches",
            "--trace",
            "t",
            "--language",
            "es",
            "--ignore-again",
            "300",
            "--count-after",
            "200",
            "--one-switch",
            "2800",
        ];
        let Task::Station(station) = CommandLine::parse_from(station).task else { panic!() };
        let words = station.visit.to_words();
        let again = ["evenhand".into(), "visit".into()].into_iter().chain(words);
        let Task::Visit(visit) = CommandLine::parse_from(again).task else { panic!() };
        assert_eq!(format!("{:?}", station.visit), format!("{:?}", visit.visit));
    }

    #[test]
    fn sheets_go_through_the_folder_or_through_what_was_chosen() {
        let visit = |more: &[&str]| {
            let words = ["evenhand", "visit", "--election", "e"].iter().chain(more);
            let Task::Visit(only) = CommandLine::parse_from(words).task else { panic!() };
            only.visit
        };
        let mut taught = StationFile::with_pitch(PixelPitch::USUAL);
        let folder = visit(&["--printer-folder", "p"]).paper(&taught).unwrap();
        assert_eq!(folder, PaperDevices::Folder("p".into()));
        let error = |taught: &StationFile| visit(&[]).paper(taught).unwrap_err().to_string();
        assert!(error(&taught).contains("no printer") && error(&taught).contains("set-up"));
        taught.printer = Some("ballots".parse().unwrap());
        assert!(error(&taught).contains("no reader") && error(&taught).contains("set-up"));
        let scanner = ScannerChoice::new("a:0".to_owned(), Vec::new(), true, true).unwrap();
        taught.scanner = Some(scanner.clone());
        let printer = ServicePrinter::new("s".into(), "ballots".parse().unwrap());
        let program = ScanProgram::default();
        assert_eq!(
            visit(&["--print-service", "s"]).paper(&taught).unwrap(),
            PaperDevices::Real { printer, scanner, program }
        );
        // What is asked for goes first.
        let folder = visit(&["--printer-folder", "p"]).paper(&taught).unwrap();
        assert_eq!(folder, PaperDevices::Folder("p".into()));
    }

    #[test]
    fn the_chosen_election_is_used_where_none_is_named() {
        let visit = |more: &[&str]| {
            let words = ["evenhand", "visit", "--station-file", "a/s.json"].iter().chain(more);
            let Task::Visit(only) = CommandLine::parse_from(words).task else { panic!() };
            only.visit
        };
        let mut taught = StationFile::with_pitch(PixelPitch::USUAL);
        let error = visit(&[]).with_election(&taught).unwrap_err().to_string();
        assert!(error.contains("no election") && error.contains("set-up"), "{error}");
        taught.sealed = SealedNames::new("e.sealed.tar".to_owned(), "t.json".to_owned());
        let (file, trust) = ("a/e.sealed.tar".into(), "a/t.json".into());
        let chosen = visit(&[]).with_election(&taught).unwrap();
        assert_eq!(chosen.source(), Source::Sealed { file, trust });
        // A visit gets it by name, whatever the station's file says by then.
        let words = format!("{:?}", chosen.to_words());
        assert!(words.contains("a/e.sealed.tar") && words.contains("a/t.json"), "{words}");
        // What is asked for goes first.
        let folder = visit(&["--election", "e"]).with_election(&taught).unwrap();
        assert_eq!(folder.source(), Source::Folder("e".into()));
        let (file, trust) = ("x".into(), "y".into());
        let other = visit(&["--sealed", "x", "--trust", "y"]).with_election(&taught).unwrap();
        assert_eq!(other.source(), Source::Sealed { file, trust });
    }

    #[test]
    fn sizes_and_pitches_are_held_to_their_ranges() {
        assert_eq!(size("1920x1080"), Ok((1920, 1080)));
        for bad in ["", "1920", "1920x", "x", "1920x1", "1920X1080", "99999x1080", "-1x1080"] {
            assert!(size(bad).is_err(), "{bad}");
        }
        assert_eq!(pitch("276.7"), Ok(PixelPitch::USUAL));
        for bad in ["", "0", "49", "1001", "276.77", "a", "-3", "1.x"] {
            assert!(pitch(bad).is_err(), "{bad}");
        }
    }
}
