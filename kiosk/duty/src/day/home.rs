//! The screen from which everything starts, and suspending.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::log_in::Wanted;
use super::{At, Day, Deed, Output, Task, closing, opening, testing};
use crate::self_test::Outcome;
use crate::station::Polls;
use crate::{Arg, Line, Message, Place, Sheet, Tone};

impl Day {
    /// What can be done from the home screen, in the order of its rows.
    fn tasks(&self) -> Vec<(Message, Task)> {
        match self.polls {
            Polls::Closed => vec![
                (Message::HomeTest, Task::Test),
                (Message::HomeOpen, Task::Open),
                (Message::HomeShutDown, Task::ShutDown),
            ],
            Polls::Open(_) => vec![
                (Message::HomeVoter, Task::Voter),
                (Message::HomePaper, Task::Paper),
                (Message::HomeSuspend, Task::Suspend),
                (Message::HomeClose, Task::Close),
            ],
            Polls::Suspended(_) => {
                vec![(Message::HomeResume, Task::Resume), (Message::HomeShutDown, Task::ShutDown)]
            }
        }
    }

    pub(super) fn home(&self) -> Sheet {
        let mut sheet = Sheet::blank(match self.polls {
            Polls::Closed => Message::HomeClosedHeading,
            Polls::Open(_) => Message::HomeOpenHeading,
            Polls::Suspended(_) => Message::HomeSuspendedHeading,
        });
        sheet.lines = vec![
            Line::new(Message::HomeElection)
                .with("election", Arg::Text(self.station.election.clone()))
                .with("date", Arg::Text(self.station.date.clone())),
        ];
        if !self.station.is_sealed {
            sheet.lines.push(Line::new(Message::HomeNotSealed));
        }
        match self.polls {
            Polls::Closed => sheet.lines.push(self.tested_line()),
            Polls::Open(_) | Polls::Suspended(_) => sheet.lines.extend(self.counted()),
        }
        sheet.rows = self.tasks().into_iter().map(|(message, _)| Line::new(message)).collect();
        sheet
    }

    fn tested_line(&self) -> Line {
        if self.tests.is_empty() {
            return Line::new(Message::HomeNotTested);
        }
        Line::new(match super::whole(&self.tests) {
            Outcome::Passed => Message::HomeTestPassed,
            Outcome::Failed(_) => Message::HomeTestFailed,
            Outcome::Skipped(_) => Message::HomeTestSkipped,
        })
    }

    /// The public counts.
    pub(super) fn counted(&self) -> Vec<Line> {
        let counts = self.counts;
        vec![
            Line::new(Message::CountBallots)
                .with("ballots", Arg::Number(counts.ballots))
                .with("spoiled", Arg::Number(counts.spoiled)),
            Line::new(Message::CountVisits)
                .with("started", Arg::Number(counts.started))
                .with("finished", Arg::Number(counts.finished))
                .with("stopped", Arg::Number(counts.stopped)),
            Line::new(Message::CountSheets)
                .with("sheets", Arg::Number(counts.sheets))
                .with("paper", Arg::Number(counts.paper_in)),
        ]
    }

    pub(super) fn take_home(&mut self, place: Place) -> Vec<Output> {
        let Place::Row(row) = place else { return Vec::new() };
        let Some((_, task)) = self.tasks().get(usize::from(row)).copied() else {
            return Vec::new();
        };
        if matches!(task, Task::Test | Task::Voter | Task::ShutDown) && self.is_printing() {
            return Vec::new();
        }
        self.ask_who(Wanted { task, first: None });
        Vec::new()
    }

    /// Somebody who may has logged in.
    pub(super) fn allowed(&mut self, task: Task) -> Vec<Output> {
        match task {
            Task::Test => self.begin_tests(),
            Task::Open => {
                self.go(At::Opening(opening::At::Purpose));
                Vec::new()
            }
            Task::Voter => {
                self.go(At::Find { typed: String::new() });
                Vec::new()
            }
            Task::Entry => {
                self.go(At::Entry);
                vec![Output::Record(Deed::WorkerEntered)]
            }
            Task::Account(search, paper) => self.account(search, paper),
            Task::Paper => {
                self.go(At::Paper);
                Vec::new()
            }
            Task::Suspend => {
                self.go(At::SuspendConfirm);
                Vec::new()
            }
            Task::Resume => {
                if let Polls::Suspended(purpose) = self.polls {
                    self.polls = Polls::Open(purpose);
                }
                self.go(At::Home);
                vec![Output::Record(Deed::Resumed)]
            }
            Task::Close => {
                self.go(At::Closing(closing::At::Left { typed: String::new() }));
                Vec::new()
            }
            Task::ShutDown => {
                let mut out = self.log_out();
                out.extend([Output::Record(Deed::ShutDown), Output::ShutDown]);
                out
            }
        }
    }

    pub(super) fn suspend() -> Sheet {
        let mut sheet = Sheet::blank(Message::SuspendHeading);
        sheet.lines = vec![Line::new(Message::SuspendDo), Line::new(Message::SuspendAfter)];
        sheet.back = Some(Line::new(Message::BarBack));
        sheet.forward = Some(Line::new(Message::SuspendNow));
        sheet
    }

    pub(super) fn take_suspend(&mut self, place: Place) -> Vec<Output> {
        let Polls::Open(purpose) = self.polls else { return Vec::new() };
        if place != Place::Forward {
            self.go(At::Home);
            return Vec::new();
        }
        self.polls = Polls::Suspended(purpose);
        self.go(At::Home);
        vec![Output::Record(Deed::Suspended)]
    }

    /// Starts the self-test with its first step.
    fn begin_tests(&mut self) -> Vec<Output> {
        self.tests.clear();
        self.next_test(testing::At::FIRST)
    }

    /// Says that something was done: on the home screen, or where a worker is in a visit.
    pub(super) fn work_with(&mut self, tone: Tone, message: Message) {
        let at = if self.has_visit { At::Entry } else { At::Home };
        self.go_with(at, tone, Line::new(message));
    }

    /// Says that something was done, on the home screen.
    pub(super) fn home_with(&mut self, tone: Tone, message: Message) {
        self.go_with(At::Home, tone, Line::new(message));
    }
}
