//! The steps of the self-test, and how each went.

use crate::Message;

/// One step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// The sealed election is whole.
    SealedElection,
    /// The log is whole.
    Log,
    /// The clock.
    Clock,
    /// Where files are kept.
    Storage,
    /// A voice or recordings in each language.
    Voice,
    /// The printer fills every oval of a sheet.
    PrinterSheet,
    /// The reader finds them filled.
    Scanner,
    /// A person looks at the colors.
    ScreenColors,
    /// A person touches every part of the screen.
    TouchGrid,
    /// A person hears the left side.
    LeftEar,
    /// A person hears the right side.
    RightEar,
    /// A person presses both switches.
    Switches,
    /// A person presses every key that has a meaning in a visit.
    Keys,
}

impl Step {
    /// Every step, in the order in which they are done.
    pub const ALL: [Self; 13] = [
        Self::SealedElection,
        Self::Log,
        Self::Clock,
        Self::Storage,
        Self::Voice,
        Self::PrinterSheet,
        Self::Scanner,
        Self::ScreenColors,
        Self::TouchGrid,
        Self::LeftEar,
        Self::RightEar,
        Self::Switches,
        Self::Keys,
    ];

    /// True where the station tests by itself.
    pub const fn is_automatic(self) -> bool {
        !matches!(
            self,
            Self::ScreenColors
                | Self::TouchGrid
                | Self::LeftEar
                | Self::RightEar
                | Self::Switches
                | Self::Keys
        )
    }

    /// Its name.
    pub const fn name(self) -> Message {
        match self {
            Self::SealedElection => Message::StepSealedElection,
            Self::Log => Message::StepLog,
            Self::Clock => Message::StepClock,
            Self::Storage => Message::StepStorage,
            Self::Voice => Message::StepVoice,
            Self::PrinterSheet => Message::StepPrinterSheet,
            Self::Scanner => Message::StepScanner,
            Self::ScreenColors => Message::StepScreenColors,
            Self::TouchGrid => Message::StepTouchGrid,
            Self::LeftEar => Message::StepLeftEar,
            Self::RightEar => Message::StepRightEar,
            Self::Switches => Message::StepSwitches,
            Self::Keys => Message::StepKeys,
        }
    }
}

/// Why a step didn't pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The worker says so.
    WorkerSays,
    /// The election isn't sealed.
    NotSealed,
    /// Something isn't as it was made or signed.
    NotWhole,
    /// The clock is far from the election's day.
    ClockFar,
    /// Too little room, or it can't be written.
    NoRoom,
    /// A language has neither voice nor all recordings.
    NoVoice,
    /// No speech service.
    NoSpeech,
    /// No paper.
    NoPaper,
    /// Paper is stuck.
    PaperStuck,
    /// The device doesn't answer.
    NoAnswer,
    /// The reader got no sheet, or one that it can't read.
    NoSheet,
    /// Some ovals were read otherwise than they were printed.
    OvalsDiffer,
    /// The step that it needs didn't pass.
    NeedsOther,
}

impl Why {
    /// Its words.
    pub const fn words(self) -> Message {
        match self {
            Self::WorkerSays => Message::WhyWorkerSays,
            Self::NotSealed => Message::WhyNotSealed,
            Self::NotWhole => Message::WhyNotWhole,
            Self::ClockFar => Message::WhyClockFar,
            Self::NoRoom => Message::WhyNoRoom,
            Self::NoVoice => Message::WhyNoVoice,
            Self::NoSpeech => Message::WhyNoSpeech,
            Self::NoPaper => Message::WhyNoPaper,
            Self::PaperStuck => Message::WhyPaperStuck,
            Self::NoAnswer => Message::WhyNoAnswer,
            Self::NoSheet => Message::WhyNoSheet,
            Self::OvalsDiffer => Message::WhyOvalsDiffer,
            Self::NeedsOther => Message::WhyNeedsOther,
        }
    }
}

/// How a step went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// As it should.
    Passed,
    /// Not as it should.
    Failed(Why),
    /// It wasn't done.
    Skipped(Why),
}
