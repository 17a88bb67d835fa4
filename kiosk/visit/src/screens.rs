//! The content of each screen: what it says and what each row does. Which row has the focus and what
//! fits is `visit`'s and the ruler's.

mod contest;
mod help;
mod listen;
mod paper;
mod presses;
mod review;
mod start;
mod write_in;

use alloc::vec::Vec;

use evenhand_rules::ContestIndex;

pub(crate) use contest::option_phrase;
pub(crate) use listen::spelled;
pub(crate) use presses::{accept_step, ignore_step, scan_step, switches_message};
pub(crate) use start::{opening_lines, palette_message, setting_step, size_message};

use crate::at::At;
use crate::turn::Act;
use crate::visit::Visit;
use crate::{Message, Phrase, Row, RowKind};

/// A screen before anything is measured.
pub(crate) struct Content {
    pub(crate) place: Option<Phrase>,
    pub(crate) heading: Phrase,
    pub(crate) lines: Vec<Phrase>,
    pub(crate) rows: Vec<(Row, Act)>,
    /// The words of "back" and what it does; `None` where there is no way back.
    pub(crate) back: Option<(Message, Act)>,
    /// The words of "next" and what it does.
    pub(crate) forward: Option<(Message, Act)>,
    /// True where all rows are said at once, also those that don't fit on the screen.
    pub(crate) is_continuous: bool,
}

impl Content {
    fn new(heading: Phrase) -> Self {
        Self {
            place: None,
            heading,
            lines: Vec::new(),
            rows: Vec::new(),
            back: None,
            forward: None,
            is_continuous: false,
        }
    }
    fn titled(heading: Message) -> Self {
        Self::new(Phrase::new(heading))
    }
    fn line(mut self, message: Message) -> Self {
        self.lines.push(Phrase::new(message));
        self
    }
    fn phrase(mut self, phrase: Phrase) -> Self {
        self.lines.push(phrase);
        self
    }
    fn row(mut self, row: Row, act: Act) -> Self {
        self.rows.push((row, act));
        self
    }
    fn action(self, message: Message, act: Act) -> Self {
        self.row(action(Phrase::new(message)), act)
    }
    fn passage(self, phrase: Phrase) -> Self {
        self.row(passage(phrase), Act::Nothing)
    }
    fn back(mut self, message: Message, act: Act) -> Self {
        self.back = Some((message, act));
        self
    }
    fn forward(mut self, message: Message, act: Act) -> Self {
        self.forward = Some((message, act));
        self
    }
}

pub(crate) fn content(visit: &Visit, at: &At) -> Content {
    match at {
        At::Opening { .. } => start::opening(visit),
        At::Languages => start::languages(visit),
        At::Comfort => start::comfort(visit),
        At::Presses => presses::presses(visit),
        At::AskHide => presses::ask_hide(),
        At::PressOffer { offered } => presses::offer(visit, *offered),
        At::Practice { chosen, was_refused } => start::practice(*chosen, *was_refused),
        At::HowTo => start::how_to(),
        At::Contest { contest, from_review } => contest::contest(visit, *contest, *from_review),
        At::Limit { contest, wanted } => contest::limit(visit, *contest, *wanted),
        At::RankPick { contest, option, name } => {
            contest::rank_pick(visit, *contest, *option, name.as_ref())
        }
        At::RankChange { contest, option } => contest::rank_change(visit, *contest, *option),
        At::LowerRanks { contest, option } => contest::lower_ranks(*contest, *option),
        At::FullText { contest } => contest::full_text(visit, *contest),
        At::WriteIn { contest, option, name } => write_in::write_in(*contest, *option, name),
        At::BlankName { contest, option } => write_in::blank(*contest, *option),
        At::WriteInChange { contest, option } => write_in::change(visit, *contest, *option),
        At::Review => review::review(visit),
        At::AskPrint => review::ask_print(visit),
        At::Printing => review::printing(),
        At::PrintFault(fault) => review::print_fault(*fault),
        At::ReadingPaper => paper::reading(),
        At::ReadFault(fault) => paper::read_fault(*fault),
        At::CheckPaper => paper::check(visit),
        At::ReadBack => paper::read_back(visit),
        At::Differs => paper::differs(visit),
        At::Spoil { by_voter } => paper::spoil(visit, *by_voter),
        At::Done => paper::done(visit),
        At::Listen => listen::listen(visit),
        At::MoreTime => listen::more_time(),
        At::Help => help::help(visit),
        At::Explain { about } => help::explain(*about),
        At::Worker { reason, .. } => help::worker(visit, *reason),
        At::ConfirmEnd => help::confirm_end(),
        At::Ended => help::ended(),
    }
}

fn action(label: Phrase) -> Row {
    Row { kind: RowKind::Action, label, detail: None, state: None }
}

fn passage(label: Phrase) -> Row {
    Row { kind: RowKind::Passage, label, detail: None, state: None }
}

/// The words for whether something is chosen.
fn chosen_state(is_chosen: bool) -> Phrase {
    Phrase::new(if is_chosen { Message::StateChosen } else { Message::StateNotChosen })
}

/// How many are marked in a contest and how many are left, in words.
pub(crate) fn contest_count(visit: &Visit, at: ContestIndex) -> Phrase {
    match visit.begin.style.contest(at) {
        Some(definition) => contest::count(visit, at, definition),
        None => Phrase::new(Message::ReviewNothing),
    }
}
