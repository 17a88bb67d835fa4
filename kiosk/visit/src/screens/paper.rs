//! The screens after printing. What they say of the paper comes from the reading alone.

use alloc::vec::Vec;

use evenhand_rules::{
    Contest, ContestIndex, ContestReading, Difference, OptionKind, OvalId, Reading, Verdict,
};

use super::{Content, passage};
use crate::at::{At, WorkerReason};
use crate::turn::Act;
use crate::visit::Visit;
use crate::{Arg, Message, Phrase, ReadFault, Row, RowKind, TextRef};

pub(super) fn reading() -> Content {
    Content::titled(Message::ReadingHeading).line(Message::ReadingLine)
}

pub(super) fn read_fault(fault: ReadFault) -> Content {
    let what = match fault {
        ReadFault::NoSheet => Message::FaultNoSheet,
        ReadFault::Unreadable => Message::FaultUnreadable,
        ReadFault::OtherBallot => Message::FaultOtherBallot,
        ReadFault::PrintDiffers => Message::FaultPrintDiffers,
    };
    Content::titled(Message::ReadFaultHeading)
        .line(what)
        .line(Message::FaultKept)
        .action(Message::ReadAgain, Act::ReadAgain)
        .action(Message::NewSheet, Act::SpoilByDevice)
        .action(Message::CallWorker, Act::CallWorker(WorkerReason::Device))
}

pub(super) fn check(visit: &Visit) -> Content {
    Content::titled(Message::CheckHeading)
        .line(Message::CheckLine)
        .phrase(Phrase::new(Message::CheckSheets).number("sheets", visit.begin.sheets))
        .action(Message::CheckRead, Act::Push(At::ReadBack))
        .action(Message::CheckYes, Act::Accept)
        .action(Message::CheckNo, Act::Push(At::Spoil { by_voter: true }))
}

pub(super) fn read_back(visit: &Visit) -> Content {
    let mut screen = Content::titled(Message::ReadBackHeading).line(Message::ReadBackLine);
    if let Some(reading) = &visit.paper {
        for contest in &reading.contests {
            screen.rows.extend(
                contest_rows(visit, reading, contest).into_iter().map(|row| (row, Act::Nothing)),
            );
        }
    }
    screen.is_continuous = true;
    screen.back(Message::BarBack, Act::Leave)
}

/// One contest as it stands on the paper: a line in words, and each written name with its picture.
fn contest_rows(visit: &Visit, reading: &Reading, contest: &ContestReading) -> Vec<Row> {
    let mut rows = Vec::new();
    let Some(definition) = visit.begin.style.contest(contest.contest) else { return rows };
    let names: Vec<Arg> = contest
        .ovals
        .iter()
        .filter(|oval| oval.verdict == Verdict::Marked)
        .map(|oval| Arg::Phrase(marked_phrase(definition, reading, oval.oval)))
        .collect();
    let detail = if names.is_empty() {
        Phrase::new(Message::PaperNothing)
    } else {
        Phrase::new(Message::PaperMarked).with("names", Arg::List(names))
    };
    let doubtful = contest.ovals.iter().any(|oval| oval.verdict == Verdict::Doubtful);
    let label = Phrase::new(Message::PaperContest).text("title", TextRef::Title(contest.contest));
    rows.push(Row {
        detail: Some(detail),
        state: doubtful.then(|| Phrase::new(Message::PaperDoubt)),
        ..passage(label)
    });
    for line in reading.write_ins.iter().filter(|line| line.contest == contest.contest) {
        if line.inked {
            let kind = RowKind::Picture(line.contest, line.option);
            rows.push(Row { kind, ..passage(written_phrase(reading, line.contest, line.option)) });
        }
    }
    rows
}

/// The name beside a filled oval, with its rank where it gives one.
fn marked_phrase(definition: &Contest, reading: &Reading, oval: OvalId) -> Phrase {
    let is_write_in =
        definition.option(oval.option).is_some_and(|option| option.kind == OptionKind::WriteIn);
    let name = if is_write_in {
        written_phrase(reading, oval.contest, oval.option)
    } else {
        Phrase::of(TextRef::OptionName(oval.contest, oval.option))
    };
    match oval.rank {
        Some(rank) => {
            Phrase::new(Message::PaperRank).number("rank", rank.0).with("name", Arg::Phrase(name))
        }
        None => name,
    }
}

fn written_phrase(
    reading: &Reading,
    contest: ContestIndex,
    option: evenhand_rules::OptionIndex,
) -> Phrase {
    match reading.write_in(contest, option) {
        Some(line) if line.inked => match &line.text {
            Some(text) => {
                Phrase::new(Message::PaperWriteInRead).with("name", Arg::Read(text.clone()))
            }
            None => Phrase::new(Message::PaperWriteInUnread),
        },
        _ => Phrase::new(Message::PaperWriteInNone),
    }
}

pub(super) fn differs(visit: &Visit) -> Content {
    let mut screen = Content::titled(Message::DiffersHeading).line(Message::DiffersLine);
    if let Some(reading) = &visit.paper {
        let mut contests: Vec<ContestIndex> = reading
            .differences(&visit.begin.style, &visit.selections)
            .into_iter()
            .map(|difference| match difference {
                Difference::Oval(oval) => oval.contest,
                Difference::WriteIn(contest, _) => contest,
            })
            .collect();
        contests.dedup();
        let titles = contests.into_iter().map(|c| Arg::Text(TextRef::Title(c))).collect();
        screen =
            screen.phrase(Phrase::new(Message::DiffersWhere).with("contests", Arg::List(titles)));
    }
    screen
        .action(Message::NewSheet, Act::SpoilByDevice)
        .action(Message::CheckRead, Act::Push(At::ReadBack))
        .action(Message::ReadAgain, Act::ReadAgain)
        .action(Message::CallWorker, Act::CallWorker(WorkerReason::Device))
}

pub(super) fn spoil(visit: &Visit, by_voter: bool) -> Content {
    let left = visit.replacements_left();
    if !by_voter {
        return Content::titled(Message::SpoilDeviceHeading)
            .line(Message::SpoilLine)
            .action(Message::SpoilKeep, Act::Spoiled { by_voter, keep: true })
            .action(Message::SpoilFresh, Act::Spoiled { by_voter, keep: false });
    }
    let screen = Content::titled(Message::SpoilHeading);
    if left == 0 {
        return screen
            .line(Message::SpoilNone)
            .action(Message::CallWorker, Act::CallWorker(WorkerReason::NoMoreReplacements))
            .back(Message::SpoilCancel, Act::Leave);
    }
    screen
        .line(Message::SpoilLine)
        .phrase(Phrase::new(Message::SpoilLeft).number("left", left))
        .action(Message::SpoilKeep, Act::Spoiled { by_voter, keep: true })
        .action(Message::SpoilFresh, Act::Spoiled { by_voter, keep: false })
        .back(Message::SpoilCancel, Act::Leave)
}

pub(super) fn done(visit: &Visit) -> Content {
    Content::titled(Message::DoneHeading)
        .line(Message::DoneLine)
        .phrase(Phrase::new(Message::DoneSheets).number("sheets", visit.begin.sheets))
        .line(Message::DoneThanks)
        .action(Message::DoneLeave, Act::Finish)
}
