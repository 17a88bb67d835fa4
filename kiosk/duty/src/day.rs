//! A worker's day: testing, opening, each voter, paper, suspending, closing.
//!
//! Invariant: what changes the polls or the counts goes out as a [`Deed`] before anything follows
//! from it, so that the log has it; where the log can't be written the day stands still
//! ([`Input::LogFailed`]). Opening and closing take two workers, one of them the lead, each with a
//! code. It must not know: clocks, files, voters' choices, contests.
//!
//! Start reading at [`Day::handle`]; what each screen shows and does is in `day/`.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use crate::self_test::{Outcome, Step, Why};
use crate::station::{Counts, Polls, Purpose, Role, Standing, Station};
use crate::{Arg, Button, Command, Line, Message, Place, Sheet, Tone};

mod closing;
mod home;
mod log_in;
mod opening;
mod paper;
mod testing;
mod typing;
mod voter;

pub use closing::Reconciled;
use opening::counting;

/// What is wiped when it goes.
pub type Secret = zeroize::Zeroizing<String>;

/// What happens to the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    /// A command.
    Press(Command),
    /// A letter or a figure is typed.
    Type(char),
    /// The last one is taken away.
    Delete,
    /// A button goes down where [`Sheet::takes_switches`] is true: 0 is the first switch, 1 the
    /// second; or where [`Sheet::takes_keys`] is: the key, by its place among those to be tested.
    Switch(Button),
    /// Whether a code was right.
    CodeChecked(Checked),
    /// How the step that was asked for last went.
    Tested(Outcome),
    /// The voter's window tells.
    Visit(VisitNews),
    /// What is counted now.
    Counted(Counts),
    /// A report was printed, or wasn't: once for each [`Output::Print`].
    Printed(bool),
    /// The log and its copies were written, or weren't.
    Exported(bool),
    /// The log can't be written.
    LogFailed(LogFault),
}

/// Whether a code was right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Checked {
    /// It was.
    Right,
    /// It wasn't.
    Wrong,
    /// After wrong ones no code is taken for so many seconds.
    Wait(u32),
}

/// Why the log can't be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LogFault {
    /// There is no room.
    Full,
    /// Anything else.
    Other,
}

/// What a voter's window tells: never a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VisitNews {
    /// A ballot came out of the printer.
    Printed,
    /// A ballot was spoiled.
    Spoiled,
    /// A worker stands there and wants in: the visit is hidden and silent until it is answered.
    WorkerHere,
    /// The voter accepted the paper.
    Finished,
    /// The visit was stopped, as it was told ([`Answer::Stop`]).
    Stopped,
    /// The window ended by itself.
    Died,
    /// The window couldn't be opened.
    NotOpened,
}

/// What a voter's window is told when a worker wants in there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answer {
    /// No code was given: it stays hidden, and waits.
    NotIn,
    /// It goes on where it was.
    GoOn,
    /// It is over.
    Stop,
}

/// Where the paper was when a visit was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperAt {
    /// Nothing was printed.
    Nowhere,
    /// In the printer's tray.
    Tray,
    /// In the reader.
    Reader,
}

/// Why a visit was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StopCause {
    /// The voter wished it.
    VotersWish,
    /// The voter had left.
    VoterLeft,
    /// The voter's screen could not be opened.
    NotOpened,
    /// The station or the voter's screen had stopped by itself.
    Cut,
}

/// What is done and must stand in the log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Deed {
    /// Somebody logged in.
    LoggedIn(Role),
    /// What they logged in for is done, or left: the next task takes a code again.
    LoggedOut(Role),
    /// A code was wrong.
    LogInRefused(Role),
    /// No code is taken for a while.
    LogInDelayed,
    /// A step of the self-test.
    Tested(Step, Outcome),
    /// The self-test is over.
    TestDone(Outcome),
    /// Polls are open, with this paper put in.
    Opened(Purpose, u32),
    /// A seal's number.
    SealNoted(String),
    /// A voter's visit starts.
    VisitStarted,
    /// The voter finished.
    VisitFinished,
    /// A worker with a code came into a visit.
    WorkerEntered,
    /// The visit goes on where it was.
    VisitReturnedTo,
    /// A worker stopped the visit.
    VisitStopped(PaperAt, StopCause),
    /// So many sheets were found that the station hadn't counted: it was stopped while they were
    /// printed.
    SheetsFound(u16),
    /// A ballot that a voter left, or that was found, is spoiled.
    Spoiled,
    /// A sheet that was found has been put aside, or none was there.
    PaperAccounted,
    /// So many sheets were put in.
    PaperAdded(u32),
    /// Stuck paper was taken out: so many sheets, which are counted as printed.
    JamCleared(u16),
    /// Polls are suspended.
    Suspended,
    /// Polls are open again.
    Resumed,
    /// Polls are closed, with so many sheets left over.
    Closed(u32),
    /// The log and its copies go out.
    Exported,
    /// The station is shut down.
    ShutDown,
}

/// Which report.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReportKind {
    /// Of the self-test.
    SelfTest,
    /// At opening.
    Opening,
    /// At closing.
    Closing,
}

/// What the day wants done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Output {
    /// Check this worker's code, then tell with [`Input::CodeChecked`].
    CheckCode {
        /// The worker, by place.
        worker: u16,
        /// The code, which is wiped when it goes.
        code: Secret,
    },
    /// Write this to the log, then tell the counts.
    Record(Deed),
    /// Open a voter's window on this style.
    StartVisit(u16),
    /// Tell the voter's window this.
    Answer(Answer),
    /// Do this step, then tell with [`Input::Tested`].
    Test(Step),
    /// Sound the tone of this step, at one ear.
    SoundEar(Step),
    /// Make a report, keep it, and print two copies, after those that are being printed; then tell with
    /// [`Input::Printed`].
    Print(ReportKind, Vec<(Step, Outcome)>),
    /// Write the log and its copies for the office and the observers.
    Export,
    /// It is over.
    ShutDown,
}

/// What a code is wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Task {
    Test,
    Open,
    Voter,
    /// A worker wants into a visit that is going on.
    Entry,
    /// Paper that a cut visit left.
    Account(Search, PaperAt),
    Paper,
    Suspend,
    Resume,
    Close,
    ShutDown,
}

impl Task {
    /// Two workers, one of them the lead.
    const fn takes_two(self) -> bool {
        matches!(self, Self::Open | Self::Close | Self::Resume)
    }
}

/// Why a sheet is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Search {
    /// Power was lost while a voter was there.
    PowerLost,
    /// The voter's window ended by itself.
    WindowDied,
}

/// A visit that was stopped or cut: why, where its paper was, and why it was looked for, if it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stopped {
    cause: StopCause,
    paper: PaperAt,
    search: Option<Search>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum At {
    Home,
    Who {
        task: Task,
        first: Option<u16>,
        page: u16,
    },
    Code {
        task: Task,
        first: Option<u16>,
        worker: u16,
        typed: Secret,
        is_checking: bool,
    },
    Testing(testing::At),
    Opening(opening::At),
    Find {
        typed: String,
    },
    Found {
        entry: u16,
    },
    Visit,
    /// A worker is in the visit.
    Entry,
    StopCause,
    /// The voter's window is told to end.
    Ending(StopCause),
    StopPaper(StopCause),
    /// How many sheets were found that nobody has counted.
    FoundCount {
        stopped: Stopped,
        typed: String,
    },
    Search(Search),
    Paper,
    PaperCount {
        typed: String,
    },
    /// How many sheets were taken out where paper was stuck.
    JamCount {
        typed: String,
    },
    Closing(closing::At),
    SuspendConfirm,
    Halted(LogFault),
}

/// The day, where it stands.
#[derive(Clone, Debug)]
pub struct Day {
    station: Station,
    at: At,
    /// True while a voter's window is there, seen or not.
    has_visit: bool,
    /// True where the visit that is going on, or was cut, has printed and its ballot isn't spoiled.
    has_paper_out: bool,
    /// True where sheets of that visit are counted and may lie there: of a ballot that was spoiled, or
    /// taken out where paper was stuck.
    has_counted: bool,
    polls: Polls,
    counts: Counts,
    tests: Vec<(Step, Outcome)>,
    last_worker: Option<u16>,
    /// Who has given a code for the task that goes on.
    logged_in: Vec<Role>,
    /// How many reports are being printed, one after the other: meanwhile nothing else may go to the
    /// printer.
    reports: u8,
    notice: Option<(Tone, Line)>,
    focus: Option<Place>,
}

impl Day {
    /// Begins as the station is found.
    pub fn begin(station: Station, standing: Standing) -> Self {
        let mut day = Self {
            station,
            at: At::Home,
            has_visit: false,
            has_paper_out: standing.has_paper_out,
            has_counted: standing.has_spoiled,
            polls: standing.polls,
            counts: standing.counts,
            tests: Vec::new(),
            last_worker: None,
            logged_in: Vec::new(),
            reports: 0,
            notice: None,
            focus: None,
        };
        let at = if standing.is_visit_cut { At::Search(Search::PowerLost) } else { At::Home };
        day.go(at);
        day
    }

    /// The polls as they are.
    pub const fn polls(&self) -> Polls {
        self.polls
    }

    /// What is counted.
    pub const fn counts(&self) -> Counts {
        self.counts
    }

    /// True while a voter's window is there, also where a worker's screen lies over it.
    pub const fn is_visit(&self) -> bool {
        self.has_visit
    }

    /// Takes one input.
    pub fn handle(&mut self, input: Input) -> Vec<Output> {
        let mut out = self.take_input(input);
        // Whoever gave a code gave it for one task. It stands in the log before anything follows.
        if matches!(self.at, At::Home | At::Visit) {
            let is_deed = |output: &Output| matches!(output, Output::Record(_));
            let at = out.iter().position(|output| !is_deed(output)).unwrap_or(out.len());
            out.splice(at..at, self.log_out());
        }
        out
    }

    fn take_input(&mut self, input: Input) -> Vec<Output> {
        match input {
            Input::Press(command) => match self.sheet().walk(&mut self.focus, command) {
                Some(Place::Key(key)) => self.key(key),
                Some(place) => self.take(place),
                None => Vec::new(),
            },
            Input::Type(letter) => {
                let out = self.letter(letter);
                // Whoever types on a keyboard goes on by Enter.
                if self.sheet().forward.is_some() {
                    self.focus = Some(Place::Forward);
                }
                out
            }
            Input::Delete => self.delete(),
            Input::Switch(button) => self.tested_button(button),
            Input::CodeChecked(checked) => self.code_checked(checked),
            Input::Tested(outcome) => self.tested(outcome),
            Input::Visit(news) => self.visit_news(news),
            Input::Counted(counts) => {
                self.counts = counts;
                Vec::new()
            }
            Input::Printed(is_printed) => self.report_printed(is_printed),
            Input::Exported(is_written) => {
                let (tone, message) = if is_written {
                    (Tone::News, Message::ExportDone)
                } else {
                    (Tone::Fault, Message::ExportFailed)
                };
                self.notice = Some((tone, Line::new(message)));
                Vec::new()
            }
            Input::LogFailed(fault) => {
                self.logged_in.clear();
                self.go(At::Halted(fault));
                Vec::new()
            }
        }
    }

    /// Takes a row, back or forward of the screen that is shown.
    fn take(&mut self, place: Place) -> Vec<Output> {
        self.notice = None;
        match self.at.clone() {
            At::Home => self.take_home(place),
            At::Who { task, first, page } => self.take_who(task, first, page, place),
            At::Code { task, first, worker, typed, is_checking } => {
                self.take_code((task, first), worker, typed, is_checking, place)
            }
            At::Testing(at) => self.take_test(at, place),
            At::Opening(at) => self.take_opening(at, place),
            At::Find { .. } | At::Found { .. } => self.take_voter(place),
            At::Entry => self.take_entry(place),
            At::StopCause | At::StopPaper(_) | At::Search(_) | At::FoundCount { .. } => {
                self.take_paper_left(place)
            }
            At::Paper | At::PaperCount { .. } | At::JamCount { .. } => self.take_paper(place),
            At::Closing(at) => self.take_closing(at, place),
            At::SuspendConfirm => self.take_suspend(place),
            At::Visit | At::Ending(_) => Vec::new(),
            At::Halted(_) => vec![Output::ShutDown],
        }
    }

    /// The screen.
    pub fn sheet(&self) -> Sheet {
        let mut sheet = match &self.at {
            At::Home => self.home(),
            At::Who { task, first, page } => self.who(*task, *first, *page),
            At::Code { task, first, worker, typed, is_checking } => {
                self.code((*task, *first), *worker, typed, *is_checking)
            }
            At::Testing(at) => self.test(at),
            At::Opening(at) => self.opening(at),
            At::Find { typed } => self.find(typed),
            At::Found { entry } => self.found(*entry),
            At::Visit => Sheet::blank(Message::VisitHeading),
            At::Entry => Self::entry(),
            At::StopCause => Self::stop_cause(),
            At::Ending(_) => Sheet::blank(Message::EndingHeading),
            At::StopPaper(_) => self.stop_paper(),
            At::Search(search) => self.search(*search),
            At::FoundCount { typed, .. } => self.found_count(typed),
            At::Paper => Self::paper(),
            At::PaperCount { typed } => counting(Message::PaperAddHeading, typed),
            At::JamCount { typed } => Self::jam_count(typed),
            At::Closing(at) => self.closing(at),
            At::SuspendConfirm => Self::suspend(),
            At::Halted(fault) => halted(*fault),
        };
        if self.notice.is_some() {
            sheet.notice.clone_from(&self.notice);
        }
        sheet.place = Some(self.whose());
        sheet.focus = self.focus.filter(|focus| sheet.places().any(|place| place == *focus));
        if sheet.focus.is_none() {
            let first = sheet.places().next();
            sheet.focus = first;
        }
        sheet
    }

    /// The place, the station, and whether ballots count: on every screen.
    fn whose(&self) -> Line {
        let message = match self.polls {
            Polls::Closed => Message::BandClosed,
            Polls::Open(Purpose::Test) | Polls::Suspended(Purpose::Test) => Message::BandTest,
            Polls::Open(Purpose::Official) | Polls::Suspended(Purpose::Official) => {
                Message::BandOfficial
            }
        };
        Line::new(message)
            .with("place", Arg::Text(self.station.place.clone()))
            .with("number", Arg::Text(self.station.number.clone()))
    }

    fn go(&mut self, at: At) {
        self.at = at;
        self.notice = None;
        self.focus = self.sheet().places().next();
    }

    /// Goes there, with something to say.
    fn go_with(&mut self, at: At, tone: Tone, line: Line) {
        self.go(at);
        self.notice = Some((tone, line));
    }

    /// Nobody is logged in any more.
    fn log_out(&mut self) -> Vec<Output> {
        let left = self.logged_in.drain(..);
        left.map(|role| Output::Record(Deed::LoggedOut(role))).collect()
    }

    /// Has a report made, kept and printed, after those that are being printed.
    fn print(&mut self, kind: ReportKind) -> Output {
        self.reports = self.reports.saturating_add(1);
        let is_test = kind == ReportKind::SelfTest;
        Output::Print(kind, if is_test { self.tests.clone() } else { Vec::new() })
    }

    /// The same once more, where none is being printed.
    fn print_again(&mut self, kind: ReportKind) -> Vec<Output> {
        if self.is_printing() {
            return Vec::new();
        }
        vec![self.print(kind)]
    }

    /// True while a report is printed, which is said: two documents at once could cancel each other at
    /// the printer.
    fn is_printing(&mut self) -> bool {
        if self.reports > 0 {
            self.notice = Some((Tone::Caution, Line::new(Message::ReportComing)));
        }
        self.reports > 0
    }

    /// Where a report didn't come out it can be printed again from the home screen.
    fn report_printed(&mut self, is_printed: bool) -> Vec<Output> {
        self.reports = self.reports.saturating_sub(1);
        let (tone, message) = if is_printed {
            (Tone::News, Message::ReportDone)
        } else {
            (Tone::Fault, Message::ReportFailed)
        };
        self.notice = Some((tone, Line::new(message)));
        Vec::new()
    }
}

fn halted(fault: LogFault) -> Sheet {
    let mut sheet = Sheet::blank(Message::HaltedHeading);
    let why = match fault {
        LogFault::Full => Message::HaltedFull,
        LogFault::Other => Message::HaltedOther,
    };
    sheet.lines = vec![Line::new(why), Line::new(Message::HaltedDo)];
    sheet.rows = vec![Line::new(Message::HomeShutDown)];
    sheet
}

/// How a whole self-test went, of how its steps went.
fn whole(tests: &[(Step, Outcome)]) -> Outcome {
    let has = |wanted: fn(&Outcome) -> bool| tests.iter().any(|(_, outcome)| wanted(outcome));
    if has(|outcome| matches!(outcome, Outcome::Failed(_))) {
        Outcome::Failed(Why::NeedsOther)
    } else if has(|outcome| matches!(outcome, Outcome::Skipped(_))) {
        Outcome::Skipped(Why::NeedsOther)
    } else {
        Outcome::Passed
    }
}
