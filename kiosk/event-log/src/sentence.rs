//! Events as plain sentences, for the election office and observers.
//!
//! What these say stands here and not in `locales/`: like all of the office's words they are in
//! English, beside an English standard, and never before a voter.

use crate::{
    Content, Counts, Device, Event, Label, Outcome, Role, State, Step, StopCause, StopPlace,
};

impl Content {
    /// What the line says, in one sentence.
    pub fn sentence(&self) -> String {
        match self {
            Self::Head => "The log was begun.".to_owned(),
            Self::Event(event) => event.sentence(),
            Self::Checkpoint => "The station signed everything up to here.".to_owned(),
        }
    }
}

impl Event {
    /// What happened, in one sentence.
    #[expect(
        clippy::wildcard_enum_match_arm,
        reason = "what holds no data is said by its description"
    )]
    pub fn sentence(&self) -> String {
        match self {
            Self::ElectionAccepted { digest } => {
                format!("A sealed election was accepted; its digest is {digest}.")
            }
            Self::ElectionRefused { digest } => format!(
                "An election was refused because its seal isn't right; its digest is {digest}."
            ),
            Self::SoftwareChanged { digest } => format!(
                "The station's program isn't the one that ran before; its digest is {digest}."
            ),
            Self::SelfTestStep { step, outcome } => {
                format!("Self-test, {}: {}.", step.name(), outcome.name())
            }
            Self::SelfTestDone { outcome } => format!("The self-test ended: {}.", outcome.name()),
            Self::LoggedIn { role } => format!("{} logged in.", role.name()),
            Self::LoggedOut { role } => format!("{} logged out.", role.name()),
            Self::LogInRefused { role } => format!("A log-in as {} was refused.", role.lower()),
            Self::Opened { state, counts } => {
                format!("Polls were opened ({}), with {}.", state.name(), listed(counts))
            }
            Self::Closed { counts } => format!("Polls were closed, with {}.", listed(counts)),
            Self::VisitStopped { reason } => format!(
                "A voter's visit was stopped, {}; {}.",
                reason.cause.name(),
                reason.place.name()
            ),
            Self::DeviceLost { device } => format!("{} doesn't answer.", device.name()),
            Self::DeviceBack { device } => format!("{} answers again.", device.name()),
            Self::SealNoted { seal } => {
                format!("The seal number {} was noted.", Label::as_str(seal))
            }
            Self::LogRecovered { bytes } => format!(
                "The log's last line had been cut, as when power is lost while it is written; its {bytes} bytes were taken off."
            ),
            _ => self.kind().description.to_owned(),
        }
    }
}

fn listed(counts: &Counts) -> String {
    let all: Vec<String> =
        counts.named().iter().map(|(what, count)| format!("{what} {count}")).collect();
    format!("these counts: {}", all.join(", "))
}

impl Role {
    /// As a sentence begins with it.
    fn name(self) -> &'static str {
        match self {
            Self::Worker => "A worker",
            Self::Lead => "The lead worker",
            Self::Technician => "A technician",
        }
    }

    fn lower(self) -> &'static str {
        match self {
            Self::Worker => "a worker",
            Self::Lead => "the lead worker",
            Self::Technician => "a technician",
        }
    }

    /// The word that stands in an export as the user.
    pub fn id(self) -> &'static str {
        match self {
            Self::Worker => "worker",
            Self::Lead => "lead",
            Self::Technician => "technician",
        }
    }
}

impl State {
    fn name(self) -> &'static str {
        match self {
            Self::Test => "test",
            Self::Official => "official",
        }
    }
}

impl Outcome {
    fn name(self) -> &'static str {
        match self {
            Self::Passed => "passed",
            Self::Failed => "FAILED",
            Self::Skipped => "not done",
        }
    }
}

impl Device {
    fn name(self) -> &'static str {
        match self {
            Self::Printer => "The printer",
            Self::Scanner => "The scanner",
            Self::Headphones => "The headphones' socket",
            Self::Switches => "The switches' socket",
            Self::Screen => "The screen",
            Self::Storage => "The storage",
            Self::Clock => "The clock",
        }
    }
}

impl Step {
    fn name(self) -> &'static str {
        match self {
            Self::ScreenColors => "the screen's colors",
            Self::TouchGrid => "the touch grid",
            Self::LeftEar => "sound in the left ear",
            Self::RightEar => "sound in the right ear",
            Self::Switches => "switches",
            Self::Keys => "keys",
            Self::PrinterSheet => "a sheet from the printer",
            Self::Scanner => "a sheet through the scanner",
            Self::Clock => "the clock",
            Self::Storage => "the storage",
            Self::SealedElection => "the sealed election",
            Self::Log => "this log",
            Self::Voice => "the voice",
        }
    }
}

impl StopPlace {
    fn name(self) -> &'static str {
        match self {
            Self::BeforePrint => "nothing was printed",
            Self::SheetInTray => "the ballot lay in the printer's tray",
            Self::SheetInReader => "the ballot was in the reader",
        }
    }
}

impl StopCause {
    fn name(self) -> &'static str {
        match self {
            Self::VotersWish => "as the voter wished",
            Self::VoterLeft => "since the voter had left",
            Self::NotOpened => "since the voter's screen could not be opened",
            Self::Cut => "since the station or the voter's screen had stopped by itself",
        }
    }
}
