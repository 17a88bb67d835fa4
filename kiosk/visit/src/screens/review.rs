//! The review, and the way to paper: ask, print, a printer's fault.

use alloc::vec::Vec;

use evenhand_rules::{Contest, ContestIndex, OptionIndex, Rule};

use super::contest::option_phrase;
use super::{Content, action};
use crate::at::{At, WorkerReason};
use crate::turn::Act;
use crate::visit::Visit;
use crate::{Arg, Message, Phrase, PrintFault, Row, RowKind, TextRef};

pub(super) fn review(visit: &Visit) -> Content {
    let contests: Vec<(ContestIndex, &Contest)> = visit.begin.style.contests().collect();
    let left = left_count(visit);
    let total = u32::from(visit.begin.style.contest_count());
    let mut screen = Content::titled(Message::ReviewHeading).phrase(
        Phrase::new(Message::ReviewComplete)
            .number("complete", total.saturating_sub(left))
            .number("contests", total),
    );
    if left > 0 {
        screen = screen.phrase(Phrase::new(Message::ReviewLeft).number("left", left));
    }
    screen = screen.line(Message::ReviewHow);
    // Those with choices left come first: that is what a voter may want to go back to.
    let (open, full): (Vec<_>, Vec<_>) =
        contests.into_iter().partition(|(index, contest)| is_open(visit, *index, contest));
    for (index, contest) in open.into_iter().chain(full) {
        let row = summary(visit, index, contest);
        screen = screen.row(row, Act::Go(At::Contest { contest: index, from_review: true }));
    }
    screen
        .back(Message::BarBack, Act::Go(visit.last_contest()))
        .forward(Message::ReviewPrint, Act::Go(At::AskPrint))
}

/// True where fewer are marked than may be. Where any number may be chosen, one is enough.
fn is_open(visit: &Visit, index: ContestIndex, contest: &Contest) -> bool {
    let chosen = visit.selections.count(index);
    if contest.is_approval { chosen == 0 } else { chosen < contest.limit() }
}

fn left_count(visit: &Visit) -> u32 {
    let open =
        visit.begin.style.contests().filter(|(index, contest)| is_open(visit, *index, contest));
    u32::try_from(open.count()).unwrap_or(u32::MAX)
}

fn summary(visit: &Visit, index: ContestIndex, contest: &Contest) -> Row {
    let label = Phrase::new(Message::ReviewTitle)
        .number("contest", u32::from(index.0).saturating_add(1))
        .text("title", TextRef::Title(index));
    let names = match contest.rule {
        Rule::Choose { .. } => {
            visit.selections.marked(index).map(|option| name(visit, index, option)).collect()
        }
        Rule::Rank { ranks } => ranked(visit, index, ranks),
    };
    let chosen: Vec<Arg> = names;
    let left = u32::from(contest.limit().saturating_sub(visit.selections.count(index)));
    let detail = if chosen.is_empty() {
        Phrase::new(Message::ReviewNothing)
    } else {
        Phrase::new(Message::ReviewChosen).with("names", Arg::List(chosen))
    };
    let state = if is_open(visit, index, contest) {
        Phrase::new(Message::ReviewMoreLeft).number("left", left)
    } else {
        Phrase::new(Message::ReviewFull)
    };
    Row { kind: RowKind::Summary, label, detail: Some(detail), state: Some(state) }
}

fn name(visit: &Visit, contest: ContestIndex, option: OptionIndex) -> Arg {
    Arg::Phrase(option_phrase(visit, contest, option))
}

fn ranked(visit: &Visit, contest: ContestIndex, ranks: u8) -> Vec<Arg> {
    (1..=ranks)
        .filter_map(|rank| {
            let option = visit.selections.at_rank(contest, evenhand_rules::Rank(rank))?;
            let named = Phrase::new(Message::ReviewRanked)
                .number("rank", rank)
                .with("name", name(visit, contest, option));
            Some(Arg::Phrase(named))
        })
        .collect()
}

pub(super) fn ask_print(visit: &Visit) -> Content {
    let mut screen = Content::titled(Message::AskPrintHeading).line(Message::AskPrintLine);
    let left = left_count(visit);
    if left > 0 {
        screen = screen.phrase(Phrase::new(Message::AskPrintLeft).number("left", left));
    }
    screen
        .action(Message::AskPrintYes, Act::Print)
        .action(Message::AskPrintNo, Act::Go(At::Review))
        .back(Message::BarBack, Act::Go(At::Review))
}

pub(super) fn printing() -> Content {
    Content::titled(Message::PrintingHeading).line(Message::PrintingLine)
}

pub(super) fn print_fault(fault: PrintFault) -> Content {
    let what = match fault {
        PrintFault::OutOfPaper => Message::FaultPaper,
        PrintFault::Jam => Message::FaultJam,
        PrintFault::Offline => Message::FaultOffline,
        PrintFault::NotMade => Message::FaultNotMade,
    };
    Content::titled(Message::PrintFaultHeading)
        .line(what)
        .line(Message::FaultKept)
        .row(action(Phrase::new(Message::CallWorker)), Act::CallWorker(WorkerReason::Device))
        .action(Message::PrintAgain, Act::Print)
        .back(Message::BarBack, Act::Go(At::Review))
}
