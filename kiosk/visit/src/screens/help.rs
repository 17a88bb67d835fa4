//! Help, and the screens that a worker is called to: nothing of a choice stands on them.

use super::Content;
use crate::at::{At, ScreenKind, WorkerReason};
use crate::turn::Act;
use crate::visit::Visit;
use crate::{Message, Phrase};

pub(super) fn help(visit: &Visit) -> Content {
    let about = visit.below_top();
    Content::titled(Message::HelpHeading)
        .action(Message::HelpExplain, Act::Push(At::Explain { about }))
        .action(Message::HelpWorker, Act::CallWorker(WorkerReason::Asked))
        .back(Message::BarBack, Act::Leave)
}

pub(super) fn explain(about: ScreenKind) -> Content {
    let message = match about {
        ScreenKind::Opening => Message::ExplainOpening,
        ScreenKind::Languages => Message::ExplainLanguages,
        ScreenKind::Comfort => Message::ExplainComfort,
        ScreenKind::Presses | ScreenKind::PressOffer => Message::ExplainPresses,
        ScreenKind::AskHide => Message::ExplainHide,
        ScreenKind::Practice => Message::ExplainPractice,
        ScreenKind::HowTo => Message::ExplainHowTo,
        ScreenKind::Contest => Message::ExplainContest,
        ScreenKind::Limit => Message::ExplainLimit,
        ScreenKind::RankPick | ScreenKind::RankChange | ScreenKind::LowerRanks => {
            Message::ExplainRank
        }
        ScreenKind::WriteIn | ScreenKind::BlankName | ScreenKind::WriteInChange => {
            Message::ExplainWriteIn
        }
        ScreenKind::FullText => Message::ExplainFullText,
        ScreenKind::Review => Message::ExplainReview,
        ScreenKind::AskPrint | ScreenKind::Printing => Message::ExplainPrint,
        ScreenKind::PrintFault | ScreenKind::ReadFault | ScreenKind::Differs => {
            Message::ExplainFault
        }
        ScreenKind::ReadingPaper | ScreenKind::CheckPaper | ScreenKind::ReadBack => {
            Message::ExplainPaper
        }
        ScreenKind::Spoil => Message::ExplainSpoil,
        ScreenKind::Done
        | ScreenKind::Listen
        | ScreenKind::MoreTime
        | ScreenKind::Help
        | ScreenKind::Explain
        | ScreenKind::Worker
        | ScreenKind::ConfirmEnd
        | ScreenKind::Ended => Message::ExplainDone,
    };
    let mut screen = Content::titled(Message::ExplainHeading)
        .passage(Phrase::new(message))
        .passage(Phrase::new(Message::ExplainTouch))
        .passage(Phrase::new(Message::ExplainKeys))
        .passage(Phrase::new(Message::ExplainSwitches));
    screen.is_continuous = true;
    screen.back(Message::BarBack, Act::Leave)
}

pub(super) fn worker(visit: &Visit, reason: WorkerReason) -> Content {
    let why = match reason {
        WorkerReason::Asked => Message::WorkerAsked,
        WorkerReason::NotMyBallot => Message::WorkerNotMine,
        WorkerReason::NoMoreReplacements => Message::WorkerReplacements,
        WorkerReason::Device => Message::WorkerDevice,
        WorkerReason::NoPress => Message::WorkerNoPress,
        WorkerReason::Came => Message::WorkerCame,
    };
    let screen = Content::titled(Message::WorkerHeading).line(Message::WorkerLine).line(why);
    if !visit.begin.is_attended {
        return screen
            .action(Message::WorkerReturn, Act::Leave)
            .action(Message::WorkerEnd, Act::Push(At::ConfirmEnd));
    }
    // Where nobody has answered somebody else may stand there: a worker with a code goes on.
    let screen = if reason == WorkerReason::NoPress {
        screen
    } else {
        screen.action(Message::WorkerReturn, Act::Leave)
    };
    screen.action(Message::WorkerHere, Act::WorkerHere)
}

pub(super) fn confirm_end() -> Content {
    Content::titled(Message::ConfirmEndHeading)
        .line(Message::ConfirmEndLine)
        .action(Message::ConfirmEndNo, Act::Leave)
        .action(Message::ConfirmEndYes, Act::Stop)
}

pub(super) fn ended() -> Content {
    Content::titled(Message::EndedHeading).line(Message::EndedLine)
}
