//! A worker's day in a worker's window: what the day's machine asks for is done here, on the
//! station's ledger, its printer and its voters' processes.
//!
//! Invariant: nothing that must stand in the log goes on without it: where the ledger can't be
//! written the machine is told and stops. A voter's process tells a closed list of events and
//! nothing else. It must not know: a choice.
//!
//! Start reading at [`run`], then `AtWork::input`.
#![expect(clippy::disallowed_methods, reason = "the station reads the clock and writes its folder")]

mod deeds;
mod report;
mod streets;
mod testing;

use std::collections::VecDeque;
use std::ffi::OsString;
use std::io::{self, Write as _};
use std::num::NonZeroU16;
use std::path::{Path, PathBuf};
use std::process::ChildStdin;
use std::sync::Arc;
use std::thread;
use std::time::{Instant, SystemTime, UNIX_EPOCH};

use evenhand_definitions::limits::{SEALED_BYTES_MAX, WORKERS_BYTES_MAX};
use evenhand_definitions::workers::{Code, Tries, Workers};
use evenhand_definitions::{Loaded, Opening};
use evenhand_duty::day::{Answer, Checked, Day, Input, LogFault, Output, VisitNews};
use evenhand_duty::{
    Button as Numbered, Command, Entry, Outcome, Polls, Purpose, Role, Sheet, Standing, Station,
    Worker,
};
use evenhand_event_log::{Event, Label, Moment, Offset};
use evenhand_input::Button;
use evenhand_rules::{Election, Millis};
use evenhand_sheet::Ballot;
use evenhand_visit::{self as visit, PrintFault, WorkerSays};
use evenhand_words::WorkerWords;
use iced::futures::channel::mpsc;
use thiserror::Error;

use crate::devices::channel;
use crate::devices::paper::PaperDevices;
use crate::event_words::answer_word;
use crate::keys;
use crate::ledger::{Ledger, LedgerError, RunsWith};
use crate::own::{ClockWatch, program_digest};
use crate::prepared::{self, PrepareError, Prepared};
use crate::recorded::read;
use crate::source::{Opened, Source};
use crate::station::{self, StationError};
use crate::station_file::StationFile;
use crate::trace::Screens;
use crate::worker_window::{self, After, Job, WorkerWindowError, words_in};

/// Columns and rows of the cells that cover the screen in its test.
const TOUCH_CELLS: (u16, u16) = (6, 4);
/// Copies of each report: one to be posted or sent in, one for the observers.
const COPIES: usize = 2;

/// What the day is begun with.
#[derive(Debug)]
pub struct DayOptions {
    /// The election.
    pub source: Source,
    /// What a visit's process is started with, but for the style and whether ballots count.
    pub visit: Vec<OsString>,
    /// The workers' list.
    pub workers: PathBuf,
    /// The station's own folder: its key, its log, its reports.
    pub folder: PathBuf,
    /// Where the log and its copies go.
    pub export: PathBuf,
    /// Printer and scanner.
    pub printer: PaperDevices,
    /// The sound server's name of the headphones' output.
    pub headphones: Option<String>,
    /// The polling place.
    pub place: String,
    /// This station's number.
    pub number: Label,
    /// The local time, from UTC.
    pub offset: Offset,
    /// The worker's language.
    pub language: String,
    /// In pixels; `None` is the full screen.
    pub size: Option<(u16, u16)>,
    /// What the station was taught.
    pub taught: StationFile,
    /// Where a test sees which screens are shown.
    pub trace: Option<PathBuf>,
}

/// Why the day can't begin, or ended before its time.
#[derive(Debug, Error)]
pub enum DayError {
    /// The election.
    #[error(transparent)]
    Prepare(#[from] PrepareError),
    /// The workers' list.
    #[error("{path}: {why}")]
    Workers {
        /// The file.
        path: PathBuf,
        /// What is wrong, and what to do.
        why: String,
    },
    /// The station's folder.
    #[error(transparent)]
    Ledger(#[from] LedgerError),
    /// The window.
    #[error(transparent)]
    Window(#[from] WorkerWindowError),
    /// The system refuses a thread or a file.
    #[error("the system: {0}")]
    System(#[from] io::Error),
}

/// What the day's own threads report.
#[derive(Debug)]
pub(crate) enum Told {
    /// Whether a worker's code was right.
    Code(usize, bool),
    /// After wrong codes none is taken for so many seconds.
    CodeWaits(u32),
    /// How a step went, and what the next one would find (the reader's step is done with the
    /// printer's).
    Tested { outcome: Outcome, sheets: u32, reader: Option<Outcome> },
    /// A voter's process has started, and is answered here.
    VisitLine(ChildStdin),
    /// A voter's process tells.
    Visit(visit::Event),
    /// A voter's process has ended.
    VisitOver,
    /// A report came out of the printer, or didn't.
    Printed(bool),
}

/// The day with all that it works on.
struct AtWork {
    day: Day,
    options: DayOptions,
    opened: Opened,
    election: Arc<Election>,
    workers: Arc<Workers>,
    tries: Tries,
    /// Whether somebody sets the clock.
    clock: ClockWatch,
    ledger: Option<Ledger>,
    words: WorkerWords,
    paper: deeds::Paper,
    /// The reports that wait for the printer, the first of them being printed.
    reports: VecDeque<Option<Vec<u8>>>,
    /// Sheets of a ballot of the style that a voter has now.
    sheets: NonZeroU16,
    /// True once the voter's process has shown something.
    has_begun: bool,
    /// Where the voter's process is answered; it ends when this does.
    line: Option<ChildStdin>,
    /// How the voter's process has said that the visit ended.
    end: Option<VisitNews>,
    /// What the reader's step of the self-test found together with the printer's.
    reader: Option<Outcome>,
    /// What polls were opened for last, for the report after they have closed.
    opened_for: Option<Purpose>,
    /// The seals that were noted for the report that comes next, or came last.
    seals: Vec<String>,
    are_seals_printed: bool,
    /// What was left of the paper at closing.
    left: u32,
    started: Instant,
    told: mpsc::UnboundedSender<Told>,
    trace: Screens,
}

impl std::fmt::Debug for AtWork {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("AtWork")
    }
}

/// Opens the window, and returns when the station is shut down.
///
/// # Errors
/// [`DayError`].
pub fn run(options: DayOptions) -> Result<(), DayError> {
    let words = words_in(&options.language)?;
    let workers = read_workers(&options.workers)?;
    let now = moment();
    let (mut ledger, found) =
        Ledger::open(&options.folder, options.number.clone(), options.offset, now)?;
    let station_file = options.taught.digest().map_err(io::Error::other)?;
    let with = RunsWith { program: program_digest()?, station_file };
    ledger.runs_with(with, found.start, now)?;
    let opened = match options.source.open() {
        Ok(opened) => opened,
        Err(error) => {
            note_refused(&mut ledger, &options.source, &error)?;
            return Err(error.into());
        }
    };
    opened.recorded.check().map_err(PrepareError::from)?;
    if let Some(digest) = opened.digest() {
        let digest = evenhand_event_log::Digest(*digest.bytes());
        ledger.accept_election(digest, now)?;
    }
    let election = Arc::new(opened.loaded.election().clone());
    let paper = deeds::Paper::kept(&options.folder);
    let standing = Standing {
        polls: deeds::polls(found.polls),
        counts: deeds::counts(&ledger.counts(), paper),
        is_visit_cut: found.is_visit,
        has_paper_out: found.paper.is_out,
        has_spoiled: found.paper.has_spoiled,
    };
    let station = station_of(&options, &opened, &election, &workers);
    let (told, inbox) = channel();
    let (size, pitch) = (options.size, options.taught.pitch);
    let switches = options.taught.switches;
    let mut work = AtWork {
        day: Day::begin(station, standing),
        opened,
        election,
        workers: Arc::new(workers),
        tries: Tries::after_start(found.refused, Millis(0)),
        clock: ClockWatch::start(),
        ledger: Some(ledger),
        words: words_in(&options.language)?,
        paper,
        reports: VecDeque::new(),
        sheets: NonZeroU16::MIN,
        has_begun: false,
        line: None,
        end: None,
        reader: None,
        opened_for: deeds::purpose(found.polls),
        seals: Vec::new(),
        are_seals_printed: false,
        left: 0,
        started: Instant::now(),
        told,
        trace: Screens::to_file(options.trace.as_deref())?,
        options,
    };
    work.shown();
    let opening = worker_window::Opening { words, size, pitch, switches };
    worker_window::run(work, inbox, opening).map_err(WorkerWindowError::from)?;
    Ok(())
}

/// Where nobody reads it, the screen says that something failed.
fn tell(error: &dyn std::fmt::Display) {
    writeln!(io::stderr(), "evenhand: {error}").unwrap_or_default();
}

/// Runs this on a thread; where the system refuses one the window ends.
fn spawn(name: &str, work: impl FnOnce() + Send + 'static) -> Option<After> {
    let spawned = thread::Builder::new().name(name.to_owned()).spawn(work);
    spawned.err().map(|error| After::Fail(error.into()))
}

/// Why the log can't be written, as the screen says it.
const fn fault_of(error: &LedgerError) -> LogFault {
    if matches!(error, LedgerError::StorageFull { .. }) { LogFault::Full } else { LogFault::Other }
}

/// Now, to the second.
pub(crate) fn moment() -> Moment {
    // Before 1970 the clock is wrong, which the self-test says.
    Moment(SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs()))
}

fn read_workers(path: &Path) -> Result<Workers, DayError> {
    let failed = |why: String| DayError::Workers { path: path.to_owned(), why };
    let bytes = read(path, WORKERS_BYTES_MAX)
        .map_err(|why| failed(format!("{why}. Make the list with evenhand-office worker add.")))?;
    Workers::read(&bytes).map_err(|why| failed(why.to_string()))
}

/// A sealed election that was refused stands in the log with its digest.
fn note_refused(
    ledger: &mut Ledger,
    source: &Source,
    error: &PrepareError,
) -> Result<(), DayError> {
    if let (Source::Sealed { file, .. }, PrepareError::Seal { .. }) = (source, error)
        && let Ok(bytes) = read(file, SEALED_BYTES_MAX)
    {
        let digest = evenhand_event_log::Digest::of(&bytes);
        ledger.record(Event::ElectionRefused { digest }, moment())?;
    }
    Ok(())
}

fn station_of(
    options: &DayOptions,
    opened: &Opened,
    election: &Election,
    workers: &Workers,
) -> Station {
    use evenhand_definitions::workers::Role as Given;
    let first = &opened.settings.default_language;
    let worker = |worker: &evenhand_definitions::workers::Worker| Worker {
        name: worker.name.clone(),
        role: match worker.role {
            Given::Worker => Role::Worker,
            Given::Lead => Role::Lead,
            Given::Technician => Role::Technician,
        },
    };
    let entries = (0u16..).zip(&election.styles).map(|(index, style)| {
        let precinct = style.precinct.in_language(first);
        let party = style.party.as_ref().map(|party| party.in_language(first));
        let party = party.map(|party| format!(", {party}")).unwrap_or_default();
        Entry { label: format!("{precinct}{party} ({})", style.code), style: index, houses: None }
    });
    Station {
        election: election.name.in_language(first).to_owned(),
        date: election.date.clone(),
        place: options.place.clone(),
        number: options.number.to_string(),
        is_sealed: matches!(&*opened.loaded, Loaded::Sealed(_)),
        may_be_official: opened.loaded.ballot_state(Opening::Election)
            == evenhand_rules::BallotState::Official,
        workers: workers.list().iter().map(worker).collect(),
        entries: entries
            .chain(streets::entries(&opened.streets, &election.styles, first))
            .collect(),
        touch_cells: TOUCH_CELLS,
        keys: u16::try_from(keys::tested_keys().count()).unwrap_or(u16::MAX),
    }
}

impl AtWork {
    /// Gives this to the machine, and does all that it then wants, in its order.
    fn input(&mut self, input: Input) -> After {
        if let Err(error) = self.look_at_clock() {
            return self.log_failed(&error);
        }
        let mut waiting: VecDeque<Output> = self.day.handle(input).into();
        while let Some(output) = waiting.pop_front() {
            match self.do_one(output) {
                Ok(Some(after)) => return after,
                Ok(None) => {}
                Err(error) => {
                    // What follows would go on without the log.
                    return self.log_failed(&error);
                }
            }
        }
        self.shown();
        After::Show
    }

    /// Without the log nothing goes on, a visit least of all: without its line it falls silent and
    /// ends.
    fn log_failed(&mut self, error: &LedgerError) -> After {
        tell(error);
        if let (LedgerError::StorageFull { .. }, Some(ledger)) = (error, &mut self.ledger)
            && let Err(error) = ledger.note_full(moment())
        {
            // The log ends before it.
            tell(&error);
        }
        self.line = None;
        self.day.handle(Input::LogFailed(fault_of(error)));
        self.shown();
        After::ShowOnTop
    }

    /// Notes for a test which screen is shown.
    fn shown(&mut self) {
        if let Err(error) = self.trace.shown(&self.day.sheet()) {
            tell(&error);
        }
    }

    fn do_one(&mut self, output: Output) -> Result<Option<After>, LedgerError> {
        match output {
            Output::CheckCode { worker, code } => return Ok(self.check_code(worker, &code)),
            Output::Record(deed) => {
                self.record(&deed)?;
                let counts = self.counts();
                self.day.handle(Input::Counted(counts));
            }
            Output::StartVisit(style) => self.start_visit(style),
            Output::Answer(answer) => self.answer(answer),
            Output::Test(step) => self.test(step),
            Output::SoundEar(step) => self.sound(step),
            Output::Print(kind, tests) => self.print(kind, &tests),
            Output::Export => {
                let exported = self.export();
                if let Err(error) = &exported {
                    tell(error);
                }
                self.day.handle(Input::Exported(exported.is_ok()));
            }
            Output::ShutDown => return Ok(Some(After::Leave)),
        }
        Ok(None)
    }

    fn counts(&self) -> evenhand_duty::Counts {
        let counts = self.ledger.as_ref().map(Ledger::counts).unwrap_or_default();
        deeds::counts(&counts, self.paper)
    }

    fn now(&self) -> Millis {
        Millis(u64::try_from(self.started.elapsed().as_millis()).unwrap_or(u64::MAX))
    }

    /// The hash takes a while, so it is made on a thread of its own.
    fn check_code(&mut self, worker: u16, typed: &str) -> Option<After> {
        let place = usize::from(worker);
        if let Some(wait) = self.tries.wait(place, self.now()) {
            let seconds = u32::try_from(wait.0.div_ceil(1_000)).unwrap_or(u32::MAX);
            self.send(Told::CodeWaits(seconds));
            return None;
        }
        let (workers, told) = (Arc::clone(&self.workers), self.told.clone());
        let code = Code::new(typed);
        let check = move || {
            let is_right = code.is_ok_and(|code| workers.is_code_of(place, &code));
            // Where the window is gone nobody waits for it.
            told.unbounded_send(Told::Code(place, is_right)).unwrap_or_default();
        };
        spawn("code", check)
    }

    fn code_checked(&mut self, place: usize, is_right: bool) -> After {
        let checked = if is_right {
            self.tries.right(place, self.workers.role_of(place));
            Checked::Right
        } else {
            self.tries.wrong(place, self.now());
            Checked::Wrong
        };
        self.input(Input::CodeChecked(checked))
    }

    fn purpose(&self) -> Purpose {
        match self.day.polls() {
            Polls::Open(purpose) | Polls::Suspended(purpose) => purpose,
            Polls::Closed => Purpose::Test,
        }
    }

    /// The style's sheet, composed for what the polls are open for.
    fn ballot(&self, style: u16, opening: Opening) -> Result<Ballot, PrepareError> {
        let code = self.election.styles.get(usize::from(style)).map(|style| style.code.as_str());
        Ok(Arc::unwrap_or_clone(Prepared::of(&self.opened, opening, code, None)?.ballot))
    }

    fn start_visit(&mut self, style: u16) {
        let opening = match self.purpose() {
            Purpose::Official => Opening::Election,
            Purpose::Test => Opening::Test,
        };
        let sheets = self.ballot(style, opening).map(|ballot| u16::from(ballot.sheet_count()));
        let sheets = match sheets {
            Ok(sheets) => sheets,
            Err(error) => {
                tell(&error);
                0
            }
        };
        let code = self.election.styles.get(usize::from(style)).map(|style| style.code.clone());
        let (Some(sheets), Some(code)) = (NonZeroU16::new(sheets), code) else {
            self.send(Told::VisitOver);
            return;
        };
        self.sheets = sheets;
        self.has_begun = false;
        self.end = None;
        let mut arguments = self.options.visit.clone();
        arguments.extend(["--style".into(), code.into(), "--attended".into()]);
        if opening == Opening::Election {
            arguments.push("--official".into());
        }
        let (told, devices) = (self.told.clone(), self.options.printer.clone());
        let follow = move || {
            let gone = |_| io::Error::from(io::ErrorKind::BrokenPipe);
            // Where the window is gone the line is, and the visit with it.
            let mut give = |line| drop(told.unbounded_send(Told::VisitLine(line)));
            let mut tell = |event| told.unbounded_send(Told::Visit(event)).map_err(gone);
            let followed: Result<(), StationError> =
                station::follow(&arguments, &mut give, &mut tell);
            if let Err(error) = &followed {
                writeln!(io::stderr(), "evenhand: {error}").unwrap_or_default();
            }
            // What a visit that died left with the speech service isn't said after it.
            if let Err(fault) = evenhand_speech::silence() {
                writeln!(io::stderr(), "evenhand: speech could not be silenced ({fault:?})")
                    .unwrap_or_default();
            }
            devices.forget();
            told.unbounded_send(Told::VisitOver).unwrap_or_default();
        };
        if spawn("visit", follow).is_some() {
            self.send(Told::VisitOver);
        }
    }

    /// Answers the voter's process about a worker who wants in.
    fn answer(&mut self, answer: Answer) {
        let says = match answer {
            Answer::NotIn => WorkerSays::NotIn,
            Answer::GoOn => WorkerSays::GoOn,
            Answer::Stop => WorkerSays::Stop,
        };
        let Some(line) = &mut self.line else { return };
        if let Err(error) = writeln!(line, "{}", answer_word(says)) {
            // It has ended, or can't be told: without its line it ends.
            tell(&error);
            self.line = None;
        }
    }

    /// To this window itself, after what is being done.
    fn send(&self, told: Told) {
        // The window's end of it lives as long as the window.
        self.told.unbounded_send(told).unwrap_or_default();
    }

    /// What a voter's process tells is noted, then told to the machine.
    fn visit_event(&mut self, event: visit::Event) -> After {
        self.has_begun = true;
        let noted = self.look_at_clock().and_then(|()| self.note(event));
        if let Err(error) = noted {
            return self.log_failed(&error);
        }
        let counts = self.counts();
        self.day.handle(Input::Counted(counts));
        match event {
            visit::Event::BallotPrinted => self.input(Input::Visit(VisitNews::Printed)),
            visit::Event::SpoiledByVoter | visit::Event::SpoiledByDevice => {
                self.input(Input::Visit(VisitNews::Spoiled))
            }
            // Told once the process has ended: until then its window and its words are there.
            visit::Event::VisitFinished => {
                self.end = Some(VisitNews::Finished);
                After::Show
            }
            visit::Event::VisitStopped => {
                self.end = Some(VisitNews::Stopped);
                After::Show
            }
            visit::Event::WorkerHere => self.worker_here(),
            visit::Event::VisitBegun
            | visit::Event::PrintFailed(_)
            | visit::Event::ReadFailed(_)
            | visit::Event::PaperDiffered
            | visit::Event::WorkerCalled
            | visit::Event::SpeechLost
            | visit::Event::SpeechBack => After::Show,
        }
    }

    /// What of a visit stands in the log: paper, and nothing of how the voter votes.
    fn note(&mut self, event: visit::Event) -> Result<(), LedgerError> {
        use evenhand_event_log::Device;
        let (now, sheets) = (moment(), self.sheets);
        let Some(ledger) = &mut self.ledger else { return Ok(()) };
        match event {
            visit::Event::BallotPrinted => {
                deeds::answers(ledger, Device::Printer, true, now)?;
                ledger.record_printed(sheets, now)
            }
            visit::Event::SpoiledByVoter | visit::Event::SpoiledByDevice => {
                ledger.record(Event::BallotSpoiled, now)
            }
            visit::Event::PrintFailed(PrintFault::Jam) => ledger.record(Event::PaperJammed, now),
            visit::Event::PrintFailed(PrintFault::Offline) => {
                deeds::answers(ledger, Device::Printer, false, now)
            }
            // The machine notes how a visit begins and ends; the rest stands in no log.
            visit::Event::PrintFailed(PrintFault::OutOfPaper | PrintFault::NotMade)
            | visit::Event::VisitBegun
            | visit::Event::ReadFailed(_)
            | visit::Event::PaperDiffered
            | visit::Event::WorkerCalled
            | visit::Event::WorkerHere
            | visit::Event::SpeechLost
            | visit::Event::SpeechBack
            | visit::Event::VisitFinished
            | visit::Event::VisitStopped => Ok(()),
        }
    }

    /// The voter's window is closed by its process; this one is behind it.
    fn worker_here(&mut self) -> After {
        on_top(self.input(Input::Visit(VisitNews::WorkerHere)))
    }

    fn visit_over(&mut self) -> After {
        self.line = None;
        let by_itself = if self.has_begun { VisitNews::Died } else { VisitNews::NotOpened };
        let news = self.end.take().unwrap_or(by_itself);
        self.input(Input::Visit(news))
    }
}

impl Job for AtWork {
    type Told = Told;

    fn sheet(&self) -> Sheet {
        self.day.sheet()
    }

    fn name_of(&self, key: Numbered) -> String {
        let key = keys::tested_keys().nth(usize::from(key.0));
        key.map(|key| Button::Key(key).to_string()).unwrap_or_default()
    }

    /// The voter's pads and switches mustn't press what a worker reads.
    fn takes_pads(&self) -> bool {
        !self.day.is_visit()
    }

    fn press(&mut self, command: Command) -> After {
        self.input(Input::Press(command))
    }

    fn switch(&mut self, button: Button) -> After {
        if self.day.sheet().takes_keys {
            return self.input(Input::Switch(keys::tested_key_number(button)));
        }
        let usual =
            (Button::Key(evenhand_input::Key::Down), Button::Key(evenhand_input::Key::Enter));
        let (first, second) = self.options.taught.switches.unwrap_or(usual);
        let number = if button == first {
            0
        } else if button == second {
            1
        } else {
            2
        };
        self.input(Input::Switch(Numbered(number)))
    }

    fn letter(&mut self, letter: char) -> After {
        self.input(Input::Type(letter))
    }

    fn delete(&mut self) -> After {
        self.input(Input::Delete)
    }

    fn told(&mut self, told: Told) -> After {
        match told {
            Told::Code(place, is_right) => self.code_checked(place, is_right),
            Told::CodeWaits(seconds) => self.input(Input::CodeChecked(Checked::Wait(seconds))),
            Told::Tested { outcome, sheets, reader } => self.tested(outcome, sheets, reader),
            Told::Visit(event) => self.visit_event(event),
            Told::VisitLine(line) => {
                self.line = Some(line);
                After::Show
            }
            Told::VisitOver => on_top(self.visit_over()),
            Told::Printed(is_printed) => self.report_printed(is_printed),
        }
    }
}

/// The same, with the keyboard.
fn on_top(after: After) -> After {
    if matches!(after, After::Show) { After::ShowOnTop } else { after }
}

/// The test's sheet: the first style's, as a test.
fn test_sheet(opened: &Opened) -> Result<(Ballot, Arc<evenhand_rules::Style>), PrepareError> {
    let prepared = Prepared::of(opened, Opening::Test, None, None)?;
    let election = opened.loaded.election();
    let state = evenhand_rules::BallotState::Test;
    let ballot = prepared::sheet(election, &prepared.style, 0, &opened.settings, state)?;
    Ok((ballot, prepared.style))
}
