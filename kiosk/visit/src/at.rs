//! Where a voter is. Each place holds its own data.

use evenhand_rules::{ContestIndex, OptionIndex, WriteInText};

use crate::{Pressing, PrintFault, ReadFault};

/// Why a worker was called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WorkerReason {
    /// The voter asked.
    Asked,
    /// The voter said that this isn't their ballot.
    NotMyBallot,
    /// The voter wants more replacements than the office allows.
    NoMoreReplacements,
    /// A device failed.
    Device,
    /// Nobody pressed anything for a long time, nor answered the question about it.
    NoPress,
    /// A worker pressed the worker's key.
    Came,
}

/// Which screen it is, without its data.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each name says which screen it is; the texts are in locales/")]
pub enum ScreenKind {
    Opening,
    Languages,
    Comfort,
    Presses,
    AskHide,
    Practice,
    PressOffer,
    HowTo,
    Contest,
    Limit,
    RankPick,
    RankChange,
    LowerRanks,
    WriteIn,
    BlankName,
    WriteInChange,
    FullText,
    Review,
    AskPrint,
    Printing,
    PrintFault,
    ReadingPaper,
    ReadFault,
    CheckPaper,
    ReadBack,
    Differs,
    Spoil,
    Done,
    Listen,
    MoreTime,
    Help,
    Explain,
    Worker,
    ConfirmEnd,
    Ended,
}

/// A place with its data.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum At {
    /// The first screen; `turn` counts the languages in which its first words were said.
    Opening {
        turn: u8,
        repeats: bool,
    },
    Languages,
    Comfort,
    /// How switches and presses are taken.
    Presses,
    /// A voter who touches the screen wants it hidden: touch will then do nothing.
    AskHide,
    /// What would suit the presses that the practice question has seen.
    PressOffer {
        offered: Pressing,
    },
    /// The practice question: what is chosen, and whether a second choice was just refused.
    Practice {
        chosen: Option<u8>,
        was_refused: bool,
    },
    HowTo,
    Contest {
        contest: ContestIndex,
        from_review: bool,
    },
    /// The contest is full; `wanted` was asked for.
    Limit {
        contest: ContestIndex,
        wanted: OptionIndex,
    },
    RankPick {
        contest: ContestIndex,
        option: OptionIndex,
        name: Option<WriteInText>,
    },
    RankChange {
        contest: ContestIndex,
        option: OptionIndex,
    },
    LowerRanks {
        contest: ContestIndex,
        option: OptionIndex,
    },
    WriteIn {
        contest: ContestIndex,
        option: OptionIndex,
        name: WriteInText,
    },
    BlankName {
        contest: ContestIndex,
        option: OptionIndex,
    },
    WriteInChange {
        contest: ContestIndex,
        option: OptionIndex,
    },
    FullText {
        contest: ContestIndex,
    },
    Review,
    AskPrint,
    Printing,
    PrintFault(PrintFault),
    ReadingPaper,
    ReadFault(ReadFault),
    CheckPaper,
    ReadBack,
    Differs,
    /// The paper is spoiled: by the voter's word, or because a device failed.
    Spoil {
        by_voter: bool,
    },
    Done,
    /// The screen below is heard sentence by sentence.
    Listen,
    /// The question whether the voter needs more time.
    MoreTime,
    Help,
    Explain {
        about: ScreenKind,
    },
    /// A worker was called; `is_here` once one wants in: until the station answers nothing is taken,
    /// shown or said.
    Worker {
        reason: WorkerReason,
        is_here: bool,
    },
    ConfirmEnd,
    Ended,
}

impl At {
    pub(crate) const fn kind(&self) -> ScreenKind {
        match self {
            Self::Opening { .. } => ScreenKind::Opening,
            Self::Languages => ScreenKind::Languages,
            Self::Comfort => ScreenKind::Comfort,
            Self::Presses => ScreenKind::Presses,
            Self::AskHide => ScreenKind::AskHide,
            Self::PressOffer { .. } => ScreenKind::PressOffer,
            Self::Practice { .. } => ScreenKind::Practice,
            Self::HowTo => ScreenKind::HowTo,
            Self::Contest { .. } => ScreenKind::Contest,
            Self::Limit { .. } => ScreenKind::Limit,
            Self::RankPick { .. } => ScreenKind::RankPick,
            Self::RankChange { .. } => ScreenKind::RankChange,
            Self::LowerRanks { .. } => ScreenKind::LowerRanks,
            Self::WriteIn { .. } => ScreenKind::WriteIn,
            Self::BlankName { .. } => ScreenKind::BlankName,
            Self::WriteInChange { .. } => ScreenKind::WriteInChange,
            Self::FullText { .. } => ScreenKind::FullText,
            Self::Review => ScreenKind::Review,
            Self::AskPrint => ScreenKind::AskPrint,
            Self::Printing => ScreenKind::Printing,
            Self::PrintFault(_) => ScreenKind::PrintFault,
            Self::ReadingPaper => ScreenKind::ReadingPaper,
            Self::ReadFault(_) => ScreenKind::ReadFault,
            Self::CheckPaper => ScreenKind::CheckPaper,
            Self::ReadBack => ScreenKind::ReadBack,
            Self::Differs => ScreenKind::Differs,
            Self::Spoil { .. } => ScreenKind::Spoil,
            Self::Done => ScreenKind::Done,
            Self::Listen => ScreenKind::Listen,
            Self::MoreTime => ScreenKind::MoreTime,
            Self::Help => ScreenKind::Help,
            Self::Explain { .. } => ScreenKind::Explain,
            Self::Worker { .. } => ScreenKind::Worker,
            Self::ConfirmEnd => ScreenKind::ConfirmEnd,
            Self::Ended => ScreenKind::Ended,
        }
    }

    /// True where the comfort and help places of the bar are offered.
    pub(crate) const fn has_help(&self) -> bool {
        !matches!(
            self,
            Self::Help
                | Self::Explain { .. }
                // It lies on any other screen: were help offered here, screens would pile up.
                | Self::Listen
                | Self::MoreTime
                | Self::Worker { .. }
                | Self::ConfirmEnd
                | Self::Ended
                | Self::Printing
                | Self::ReadingPaper
        )
    }
}
