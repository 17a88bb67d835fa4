//! The reports on paper: what is on them, and how they get there.

use std::fs;
use std::io;
use std::path::Path;

use evenhand_definitions::Loaded;
use evenhand_duty::day::{Input, Reconciled, ReportKind};
use evenhand_duty::{Arg, Line, Message, Outcome, Polls, Purpose, Step};
use evenhand_print::{Report, report};

use super::{AtWork, COPIES, Told, moment, spawn, tell};
use crate::ledger::Ledger;
use crate::worker_window::After;

/// Below so many voters nobody's ballot is hidden among the others (own inference, no source).
const FEW_VOTERS: u32 = 10;

impl AtWork {
    fn say(&self, message: Message) -> String {
        self.words.seen(&Line::new(message), &|_| String::new())
    }

    /// Makes a report, keeps it in the station's folder and prints its copies.
    pub(super) fn print(&mut self, kind: ReportKind, tests: &[(Step, Outcome)]) {
        let made = self.report(kind, tests);
        self.are_seals_printed |= matches!(kind, ReportKind::Opening | ReportKind::Closing);
        let bytes = report(&made).inspect_err(|error| tell(error)).ok();
        let is_kept = bytes.as_ref().map(|bytes| kept(&self.options.folder, kind, bytes));
        if let Some(Err(error)) = is_kept {
            tell(&error);
        }
        self.reports.push_back(bytes);
        if self.reports.len() == 1 {
            self.print_first();
        }
    }

    /// Prints the copies of the report that waits first, on a thread of its own.
    fn print_first(&self) {
        let Some(first) = self.reports.front().cloned() else { return };
        // One that couldn't be made comes in its turn too: each is told of once.
        let Some(bytes) = first else { return self.send(Told::Printed(false)) };
        let (printer, told) = (self.options.printer.clone(), self.told.clone());
        let print = move || {
            let mut path = printer.open();
            let is_printed = (0..COPIES).all(|_| path.print(&bytes).is_ok());
            told.unbounded_send(Told::Printed(is_printed)).unwrap_or_default();
        };
        if spawn("report", print).is_some() {
            self.send(Told::Printed(false));
        }
    }

    /// A report that comes out while polls are open takes of the paper that was put in.
    pub(super) fn report_printed(&mut self, is_printed: bool) -> After {
        self.reports.pop_front();
        self.print_first();
        if is_printed && matches!(self.day.polls(), Polls::Open(_)) {
            let copies = u32::try_from(COPIES).unwrap_or(u32::MAX);
            self.paper.reports = self.paper.reports.saturating_add(copies);
            if let Err(error) = self.paper.keep(&self.options.folder) {
                return self.log_failed(&error);
            }
            let counts = self.counts();
            self.day.handle(Input::Counted(counts));
        }
        self.input(Input::Printed(is_printed))
    }

    fn report(&self, kind: ReportKind, tests: &[(Step, Outcome)]) -> Report {
        let title = match kind {
            ReportKind::SelfTest => Message::ReportTest,
            ReportKind::Opening => Message::ReportOpening,
            ReportKind::Closing => Message::ReportClosing,
        };
        let purpose = match self.day.polls() {
            Polls::Open(purpose) | Polls::Suspended(purpose) => Some(purpose),
            Polls::Closed => self.opened_for,
        };
        let state = match (kind, purpose) {
            (ReportKind::Opening | ReportKind::Closing, Some(Purpose::Official)) => {
                self.say(Message::ReportStateOfficial)
            }
            (ReportKind::Opening | ReportKind::Closing, Some(Purpose::Test)) => {
                self.say(Message::ReportStateTest)
            }
            (_, _) => String::new(),
        };
        let mut made = Report {
            title: self.say(title),
            state,
            facts: self.facts(),
            notes: vec![self.say(Message::ReportNotCertified)],
            signatures: vec![self.say(Message::ReportFirst), self.say(Message::ReportSecond)],
            digest: self.digest(),
            ..Report::default()
        };
        match kind {
            ReportKind::SelfTest => made.results = self.results(tests),
            ReportKind::Opening => {
                made.facts.push(self.sealed_doors());
                made.counts = self.counted(false);
            }
            ReportKind::Closing => {
                made.facts.push(self.sealed_doors());
                made.counts = self.counted(true);
                let reconciled = Reconciled::of(self.counts(), self.left);
                made.notes.insert(0, self.words.seen(&reconciled.line(), &|_| String::new()));
                if self.counts().finished < FEW_VOTERS {
                    made.notes.push(self.say(Message::ReportFew));
                }
            }
        }
        made
    }

    fn facts(&self) -> Vec<(String, String)> {
        let sealed = match &*self.opened.loaded {
            Loaded::Sealed(verified) => verified.signers().join(", "),
            Loaded::Unsealed(_) => self.say(Message::ReportNotSealed),
        };
        let first = &self.opened.settings.default_language;
        let election = format!("{}, {}", self.election.name.in_language(first), self.election.date);
        let time = moment().plain(self.options.offset);
        vec![
            (self.say(Message::ReportElection), election),
            (self.say(Message::ReportSealed), sealed),
            (self.say(Message::ReportPlace), self.options.place.clone()),
            (self.say(Message::ReportStation), self.options.number.to_string()),
            (self.say(Message::ReportTime), time),
        ]
    }

    /// The numbers of the seals on the station's doors.
    fn sealed_doors(&self) -> (String, String) {
        let seals = if self.seals.is_empty() {
            self.say(Message::SealsNone)
        } else {
            self.seals.join(", ")
        };
        (self.say(Message::ReportSeals), seals)
    }

    fn counted(&self, is_closing: bool) -> Vec<(String, u32)> {
        let counts = self.counts();
        let mut all = vec![
            (Message::ReportBallots, counts.ballots),
            (Message::ReportSpoiled, counts.spoiled),
            (Message::ReportStarted, counts.started),
            (Message::ReportFinished, counts.finished),
            (Message::ReportStopped, counts.stopped),
            (Message::ReportSheets, counts.sheets),
            (Message::ReportTestSheets, counts.test_sheets),
            (Message::ReportJams, counts.jams),
            (Message::ReportLifetime, counts.lifetime),
            (Message::ReportPaperIn, counts.paper_in),
            (Message::ReportReports, counts.reports),
        ];
        if is_closing {
            all.push((Message::ReportPaperLeft, self.left));
        }
        all.into_iter().map(|(message, count)| (self.say(message), count)).collect()
    }

    fn results(&self, tests: &[(Step, Outcome)]) -> Vec<(String, String, String)> {
        let result = |(step, outcome): &(Step, Outcome)| {
            let (name, why) = match outcome {
                Outcome::Passed => (Message::OutcomePassed, None),
                Outcome::Failed(why) => (Message::OutcomeFailed, Some(*why)),
                Outcome::Skipped(why) => (Message::OutcomeSkipped, Some(*why)),
            };
            let why = why.map(|why| self.say(why.words())).unwrap_or_default();
            (self.say(step.name()), self.say(name), why)
        };
        tests.iter().map(result).collect()
    }

    /// What the log's last line is, to be read aloud and compared.
    fn digest(&self) -> Option<(String, Vec<String>)> {
        let ledger: &Ledger = self.ledger.as_ref()?;
        let lines = u32::try_from(ledger.lines()).unwrap_or(u32::MAX);
        let label = Line::new(Message::ReportDigest).with("count", Arg::Number(lines));
        let groups = ledger.head_digest().groups();
        let label = self.words.seen(&label, &|_| String::new());
        Some((label, groups.lines().map(str::to_owned).collect()))
    }
}

/// Keeps a report in the station's folder, under the next free number.
fn kept(folder: &Path, kind: ReportKind, bytes: &[u8]) -> io::Result<()> {
    let name = match kind {
        ReportKind::SelfTest => "self-test",
        ReportKind::Opening => "opening",
        ReportKind::Closing => "closing",
    };
    let folder = folder.join("reports");
    fs::create_dir_all(&folder)?;
    let free = (1..).map(|number| folder.join(format!("{name}-{number}.pdf")));
    let mut free = free.skip_while(|path| path.exists());
    match free.next() {
        Some(path) => fs::write(path, bytes),
        None => Ok(()),
    }
}
