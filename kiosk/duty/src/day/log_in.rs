//! Who it is, and the code.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::typing::{CODE_LEN_MAX, CODE_LEN_MIN, FIGURES};
use super::{Answer, At, Checked, Day, Deed, Output, Secret, Task};
use crate::station::{Role, Worker};
use crate::{Arg, Line, Message, Place, Sheet, Tone};

/// Names on one screen (own choice: they fit on the smallest, two side by side).
const NAMES_MAX: usize = 6;

/// What a code is wanted for, and who has given the first of two.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted {
    pub(super) task: Task,
    pub(super) first: Option<u16>,
}

impl Day {
    /// Asks who it is; the one who was here last needs only the code.
    pub(super) fn ask_who(&mut self, wanted: Wanted) {
        let Wanted { task, first } = wanted;
        if let Some(worker) = self.last_worker.filter(|_| !task.takes_two()) {
            self.ask_code(wanted, worker);
        } else {
            self.go(At::Who { task, first, page: 0 });
        }
    }

    fn ask_code(&mut self, Wanted { task, first }: Wanted, worker: u16) {
        // Room for all of it: a text that grows leaves its letters behind.
        let typed = Secret::new(String::with_capacity(CODE_LEN_MAX));
        self.go(At::Code { task, first, worker, typed, is_checking: false });
    }

    fn worker(&self, worker: u16) -> Option<&Worker> {
        self.station.workers.get(usize::from(worker))
    }

    fn role(&self, worker: u16) -> Role {
        self.worker(worker).map_or(Role::Worker, |worker| worker.role)
    }

    /// The workers that may be asked for: the second isn't the first, one of two is the lead, and
    /// technicians neither open nor close nor start a voter.
    fn may(&self, Wanted { task, first }: Wanted) -> Vec<u16> {
        let is_lead = |worker: u16| self.role(worker) == Role::Lead;
        let workers = (0u16..).zip(&self.station.workers);
        let may = |worker: u16, role: Role| {
            let is_of_polls = matches!(task, Task::Test | Task::ShutDown);
            (is_of_polls || role != Role::Technician)
                && first != Some(worker)
                && first.is_none_or(|first| is_lead(first) || is_lead(worker))
        };
        workers.filter(|(at, worker)| may(*at, worker.role)).map(|(at, _)| at).collect()
    }

    pub(super) fn who(&self, task: Task, first: Option<u16>, page: u16) -> Sheet {
        let mut sheet = Sheet::blank(if first.is_some() {
            Message::WhoSecondHeading
        } else {
            Message::WhoHeading
        });
        if task.takes_two() {
            sheet.lines = vec![Line::new(Message::WhoTwo)];
        }
        let may = self.may(Wanted { task, first });
        if may.is_empty() {
            // With one worker alone nothing is opened or closed.
            sheet.lines = vec![Line::new(Message::WhoNobody), Line::new(Message::WhoNobodyDo)];
        }
        let names = may.iter().skip(usize::from(page).saturating_mul(NAMES_MAX));
        let shown = names.clone().take(NAMES_MAX).filter_map(|at| self.worker(*at));
        let name = |worker: &Worker| {
            Line::new(Message::Plain).with("text", Arg::Text(worker.name.clone()))
        };
        sheet.rows = shown.map(name).collect();
        if names.count() > NAMES_MAX || page > 0 {
            sheet.rows.push(Line::new(Message::WhoMore));
        }
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }

    pub(super) fn take_who(
        &mut self,
        task: Task,
        first: Option<u16>,
        page: u16,
        place: Place,
    ) -> Vec<Output> {
        let wanted = Wanted { task, first };
        let may = self.may(wanted);
        let Place::Row(row) = place else {
            return self.leave(task);
        };
        let skipped = usize::from(page).saturating_mul(NAMES_MAX);
        let shown = may.len().saturating_sub(skipped).min(NAMES_MAX);
        let at = skipped.saturating_add(usize::from(row));
        if usize::from(row) < shown {
            if let Some(worker) = may.get(at) {
                self.ask_code(wanted, *worker);
            }
        } else {
            let is_more = may.len() > skipped.saturating_add(NAMES_MAX);
            let page = if is_more { page.saturating_add(1) } else { 0 };
            self.go(At::Who { task, first, page });
        }
        Vec::new()
    }

    /// A code isn't given: a visit into which somebody wanted stays hidden, and paper that was left
    /// is still to be accounted for.
    fn leave(&mut self, task: Task) -> Vec<Output> {
        match task {
            Task::Entry => {
                self.go(At::Visit);
                return vec![Output::Answer(Answer::NotIn)];
            }
            Task::Account(search, _) => self.go(At::Search(search)),
            Task::Test
            | Task::Open
            | Task::Voter
            | Task::Paper
            | Task::Suspend
            | Task::Resume
            | Task::Close
            | Task::ShutDown => self.go(At::Home),
        }
        Vec::new()
    }

    pub(super) fn code(
        &self,
        (task, first): (Task, Option<u16>),
        worker: u16,
        typed: &str,
        is_checking: bool,
    ) -> Sheet {
        let name = self.worker(worker).map(|worker| worker.name.clone()).unwrap_or_default();
        let mut sheet = Sheet::of(Line::new(Message::CodeHeading).with("name", Arg::Text(name)));
        if is_checking {
            sheet.lines = vec![Line::new(Message::CodeChecking)];
            return sheet;
        }
        if task.takes_two() {
            let message = if first.is_some() { Message::CodeSecond } else { Message::CodeFirst };
            sheet.lines.push(Line::new(message));
        }
        let count = u32::try_from(typed.chars().count()).unwrap_or(u32::MAX);
        sheet.lines.push(Line::new(Message::CodeTyped).with("count", Arg::Number(count)));
        sheet.keys = FIGURES.chars().collect();
        sheet.rows = vec![Line::new(Message::TypeDelete), Line::new(Message::CodeOther)];
        sheet.back = Some(Line::new(Message::BarBack));
        if typed.chars().count() >= CODE_LEN_MIN {
            sheet.forward = Some(Line::new(Message::BarNext));
        }
        sheet
    }

    pub(super) fn take_code(
        &mut self,
        (task, first): (Task, Option<u16>),
        worker: u16,
        typed: Secret,
        is_checking: bool,
        place: Place,
    ) -> Vec<Output> {
        if is_checking {
            return Vec::new();
        }
        match place {
            Place::Row(0) => self.delete(),
            Place::Row(_) => {
                self.go(At::Who { task, first, page: 0 });
                Vec::new()
            }
            Place::Forward => {
                // What was typed stays nowhere but in the message that carries it.
                let empty = Secret::default();
                self.at = At::Code { task, first, worker, typed: empty, is_checking: true };
                vec![Output::CheckCode { worker, code: typed }]
            }
            Place::Back | Place::Key(_) => self.leave(task),
        }
    }

    pub(super) fn code_checked(&mut self, checked: Checked) -> Vec<Output> {
        let At::Code { task, first, worker, is_checking: true, .. } = self.at else {
            return Vec::new();
        };
        let wanted = Wanted { task, first };
        match checked {
            Checked::Wrong => {
                self.ask_code(wanted, worker);
                self.notice = Some((Tone::Caution, Line::new(Message::CodeWrong)));
                vec![Output::Record(Deed::LogInRefused(self.role(worker)))]
            }
            Checked::Wait(seconds) => {
                self.ask_code(wanted, worker);
                let line =
                    Line::new(Message::CodeWait).with("seconds", Arg::Number(seconds.max(1)));
                self.notice = Some((Tone::Caution, line));
                vec![Output::Record(Deed::LogInDelayed)]
            }
            Checked::Right => {
                self.logged_in.push(self.role(worker));
                let mut out = vec![Output::Record(Deed::LoggedIn(self.role(worker)))];
                if task.takes_two() && first.is_none() {
                    self.go(At::Who { task, first: Some(worker), page: 0 });
                } else {
                    self.last_worker = Some(worker);
                    out.extend(self.allowed(task));
                }
                out
            }
        }
    }
}
