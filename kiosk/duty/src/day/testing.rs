//! The self-test, a step after the other: the station's own first, then those that take a person.

use alloc::collections::BTreeSet;
use alloc::vec;
use alloc::vec::Vec;

use super::{Day, Deed, Output, ReportKind};
use crate::self_test::{Outcome, Step, Why};
use crate::{Arg, Button, Line, Message, Place, Sheet, Tone};

/// So many presses of one key running fail the keys' step.
const TIMES_THAT_FAIL: u8 = 3;

/// Where the self-test stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum At {
    /// The station does this step.
    Running(Step),
    /// A person does.
    Asking(Step),
    /// A person touches the cells.
    Touching { touched: BTreeSet<u16> },
    /// A person presses the switches.
    Pressing { first: bool, second: bool },
    /// A person presses the keys.
    Keying {
        pressed: BTreeSet<u16>,
        /// The key that was pressed last, and how many times running.
        last: (u16, u8),
    },
    /// All are done.
    Done,
}

impl At {
    /// Before the first step.
    pub(super) const FIRST: Option<Step> = None;
}

impl Day {
    /// Goes on after this step, or to the first.
    pub(super) fn next_test(&mut self, after: Option<Step>) -> Vec<Output> {
        let mut steps = Step::ALL.into_iter().skip_while(|step| after.is_some_and(|a| *step <= a));
        match steps.next() {
            Some(step) if step.is_automatic() => {
                self.go(super::At::Testing(At::Running(step)));
                vec![Output::Test(step)]
            }
            Some(step) => {
                self.go(super::At::Testing(begun(step)));
                let is_ear = matches!(step, Step::LeftEar | Step::RightEar);
                if is_ear { vec![Output::SoundEar(step)] } else { Vec::new() }
            }
            None => {
                self.go(super::At::Testing(At::Done));
                let mut out = vec![Output::Record(Deed::TestDone(super::whole(&self.tests)))];
                out.push(self.print(ReportKind::SelfTest));
                out
            }
        }
    }

    fn step_done(&mut self, step: Step, outcome: Outcome) -> Vec<Output> {
        self.tests.push((step, outcome));
        let mut out = vec![Output::Record(Deed::Tested(step, outcome))];
        out.extend(self.next_test(Some(step)));
        out
    }

    /// The station's own step went so.
    pub(super) fn tested(&mut self, outcome: Outcome) -> Vec<Output> {
        if let super::At::Testing(At::Running(step)) = self.at {
            self.step_done(step, outcome)
        } else {
            Vec::new()
        }
    }

    /// A cell of the grid was touched.
    pub(super) fn touched_cell(&mut self, at: &At, cell: u16) -> Vec<Output> {
        let At::Touching { touched } = at else { return Vec::new() };
        let mut touched = touched.clone();
        touched.insert(cell);
        let cells = self.cells();
        if touched.len() >= usize::from(cells) {
            return self.step_done(Step::TouchGrid, Outcome::Passed);
        }
        self.at = super::At::Testing(At::Touching { touched });
        Vec::new()
    }

    /// How many cells the grid has.
    fn cells(&self) -> u16 {
        let (columns, rows) = self.station.touch_cells;
        columns.saturating_mul(rows)
    }

    pub(super) fn tested_button(&mut self, button: Button) -> Vec<Output> {
        let super::At::Testing(at) = &self.at else { return Vec::new() };
        match at {
            At::Pressing { first, second } => self.tested_switch(button, *first, *second),
            At::Keying { pressed, last } => self.tested_key(button, pressed.clone(), *last),
            At::Running(_) | At::Asking(_) | At::Touching { .. } | At::Done => Vec::new(),
        }
    }

    /// A key was pressed. Whichever is pressed three times running says that another doesn't answer:
    /// any may be the dead one.
    fn tested_key(
        &mut self,
        Button(key): Button,
        mut pressed: BTreeSet<u16>,
        last: (u16, u8),
    ) -> Vec<Output> {
        let times = if last.0 == key { last.1.saturating_add(1) } else { 1 };
        if times >= TIMES_THAT_FAIL {
            return self.step_done(Step::Keys, Outcome::Failed(Why::WorkerSays));
        }
        let keys = self.station.keys;
        if key < keys {
            pressed.insert(key);
        }
        if pressed.len() >= usize::from(keys) {
            return self.step_done(Step::Keys, Outcome::Passed);
        }
        self.at = super::At::Testing(At::Keying { pressed, last: (key, times) });
        Vec::new()
    }

    fn tested_switch(&mut self, button: Button, first: bool, second: bool) -> Vec<Output> {
        let (first, second) = (first || button == Button(0), second || button == Button(1));
        if first && second {
            return self.step_done(Step::Switches, Outcome::Passed);
        }
        self.at = super::At::Testing(At::Pressing { first, second });
        Vec::new()
    }

    pub(super) fn take_test(&mut self, at: At, place: Place) -> Vec<Output> {
        let failed = Outcome::Failed(Why::WorkerSays);
        let skipped = Outcome::Skipped(Why::WorkerSays);
        match (at, place) {
            (At::Asking(step), Place::Row(row)) => match row {
                0 => self.step_done(step, Outcome::Passed),
                1 => self.step_done(step, failed),
                2 => self.step_done(step, skipped),
                _ => vec![Output::SoundEar(step)],
            },
            (At::Touching { .. }, Place::Back) => self.step_done(Step::TouchGrid, failed),
            (At::Pressing { .. }, Place::Row(_)) => self.step_done(Step::Switches, skipped),
            (At::Pressing { .. }, Place::Back) => self.step_done(Step::Switches, failed),
            (At::Keying { .. }, Place::Row(row)) => {
                self.step_done(Step::Keys, if row == 0 { failed } else { skipped })
            }
            (At::Done, Place::Row(_)) => self.print_again(ReportKind::SelfTest),
            (At::Done, Place::Forward) => {
                self.go(super::At::Home);
                Vec::new()
            }
            (_, _) => Vec::new(),
        }
    }

    pub(super) fn test(&self, at: &At) -> Sheet {
        match at {
            At::Running(step) => {
                let mut sheet = named(*step);
                sheet.lines = vec![Line::new(Message::TestRunning)];
                sheet
            }
            At::Asking(step) => asking(*step),
            At::Touching { touched } => {
                let mut sheet = named(Step::TouchGrid);
                let left = usize::from(self.cells()).saturating_sub(touched.len());
                let left = u32::try_from(left).unwrap_or(u32::MAX);
                sheet.lines = vec![Line::new(Message::TouchAll).with("count", Arg::Number(left))];
                // Nothing else lies on the glass: the key that leads back says that it fails.
                sheet.back = Some(Line::new(Message::TouchFails));
                sheet.grid = Some((self.station.touch_cells, touched.clone()));
                sheet
            }
            At::Pressing { first, second } => pressing(*first, *second),
            At::Keying { pressed, .. } => keying(self.station.keys, pressed),
            At::Done => self.tests_done(),
        }
    }

    fn tests_done(&self) -> Sheet {
        let mut sheet = Sheet::blank(Message::TestDoneHeading);
        let name = |outcome: &Outcome| match outcome {
            Outcome::Passed => Message::OutcomePassed,
            Outcome::Failed(_) => Message::OutcomeFailed,
            Outcome::Skipped(_) => Message::OutcomeSkipped,
        };
        let count = |wanted: Message| {
            let count = self.tests.iter().filter(|(_, outcome)| name(outcome) == wanted).count();
            u32::try_from(count).unwrap_or(u32::MAX)
        };
        sheet.lines = vec![
            Line::new(Message::TestCounts)
                .with("passed", Arg::Number(count(Message::OutcomePassed)))
                .with("failed", Arg::Number(count(Message::OutcomeFailed)))
                .with("skipped", Arg::Number(count(Message::OutcomeSkipped))),
        ];
        for (step, outcome) in &self.tests {
            let (Outcome::Failed(why) | Outcome::Skipped(why)) = outcome else { continue };
            sheet.lines.push(
                Line::new(Message::TestResult)
                    .with("step", Arg::Message(step.name()))
                    .with("result", Arg::Message(name(outcome)))
                    .with("why", Arg::Message(why.words())),
            );
        }
        let (tone, message) = match super::whole(&self.tests) {
            Outcome::Passed => (Tone::News, Message::HomeTestPassed),
            Outcome::Failed(_) => (Tone::Fault, Message::HomeTestFailed),
            Outcome::Skipped(_) => (Tone::Caution, Message::HomeTestSkipped),
        };
        sheet.notice = Some((tone, Line::new(message)));
        sheet.rows = vec![Line::new(Message::ClosedPrintAgain)];
        sheet.forward = Some(Line::new(Message::BarDone));
        sheet
    }
}

/// Where a step begins that takes a person.
fn begun(step: Step) -> At {
    if step == Step::TouchGrid {
        At::Touching { touched: BTreeSet::new() }
    } else if step == Step::Switches {
        At::Pressing { first: false, second: false }
    } else if step == Step::Keys {
        At::Keying { pressed: BTreeSet::new(), last: (0, 0) }
    } else {
        At::Asking(step)
    }
}

fn pressing(first: bool, second: bool) -> Sheet {
    let mut sheet = named(Step::Switches);
    let state =
        |is_pressed| if is_pressed { Message::SwitchWasPressed } else { Message::SwitchToPress };
    sheet.lines = vec![
        Line::new(Message::SwitchesPress),
        Line::new(state(first)).with("switch", Arg::Number(1)),
        Line::new(state(second)).with("switch", Arg::Number(2)),
    ];
    sheet.rows = vec![Line::new(Message::TestSkip)];
    sheet.back = Some(Line::new(Message::SwitchFails));
    sheet.takes_switches = true;
    sheet
}

fn keying(keys: u16, pressed: &BTreeSet<u16>) -> Sheet {
    let mut sheet = named(Step::Keys);
    let left = (0..keys).filter(|key| !pressed.contains(key)).map(Button).collect();
    sheet.lines = vec![
        Line::new(Message::KeysPress),
        Line::new(Message::KeysLeft).with("keys", Arg::Buttons(left)),
        Line::new(Message::KeysFail),
    ];
    sheet.rows = vec![Line::new(Message::TestFails), Line::new(Message::TestSkip)];
    sheet.takes_keys = true;
    sheet
}

/// A screen with the step as its title.
fn named(step: Step) -> Sheet {
    Sheet::of(Line::new(Message::TestHeading).with("step", Arg::Message(step.name())))
}

fn asking(step: Step) -> Sheet {
    let mut sheet = named(step);
    let (line, yes) = if step == Step::LeftEar {
        (Message::EarLeft, Message::EarYes)
    } else if step == Step::RightEar {
        (Message::EarRight, Message::EarYes)
    } else {
        (Message::ColorsLook, Message::ColorsYes)
    };
    sheet.lines = vec![Line::new(line)];
    sheet.rows = vec![Line::new(yes), Line::new(Message::TestFails), Line::new(Message::TestSkip)];
    if step == Step::ScreenColors {
        sheet.shows_colors = true;
    } else {
        sheet.rows.push(Line::new(Message::EarAgain));
    }
    sheet
}
