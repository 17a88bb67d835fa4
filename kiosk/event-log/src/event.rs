//! What a station may log: a closed list. Nothing of a selection, contest, style or voter has a
//! name here, nor how long a visit took, its language, how it was pressed, seen or heard.
//!
//! Invariant: each event has one id that never changes its meaning, one type of VVSG 2.0, 15.1-D,
//! and one sentence that describes it; the compiler asks for all three (the table at the end).
//!
//! Of one visit there is that it was started, finished or stopped (and then where the paper was),
//! that its ballot was printed or spoiled, that paper jammed, and that a worker entered. A ballot is
//! one entry however many sheets it has, since their number would tell styles apart.

use serde::{Deserialize, Serialize};

use crate::{Counts, Digest, Label};

/// Who logged in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// A poll worker.
    Worker,
    /// The lead poll worker.
    Lead,
    /// A technician of the election office.
    Technician,
}

/// A part of the station.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Device {
    /// The printer.
    Printer,
    /// The reader of printed sheets.
    Scanner,
    /// Headphones, the station's or a voter's own.
    Headphones,
    /// Switches, the station's or a voter's own.
    Switches,
    /// The screen.
    Screen,
    /// Where files are kept.
    Storage,
    /// The clock.
    Clock,
}

impl Device {
    /// True for what a voter may bring: that it comes or goes tells how a voter votes.
    pub fn is_personal(self) -> bool {
        matches!(self, Self::Headphones | Self::Switches)
    }
}

/// A step of the self-test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Step {
    /// The screen's colors.
    ScreenColors,
    /// The touch grid.
    TouchGrid,
    /// Sound in the left ear.
    LeftEar,
    /// Sound in the right ear.
    RightEar,
    /// The two switches.
    Switches,
    /// The keys.
    Keys,
    /// A sheet from the printer.
    PrinterSheet,
    /// A sheet through the scanner.
    Scanner,
    /// The clock.
    Clock,
    /// The storage.
    Storage,
    /// The sealed election.
    SealedElection,
    /// This log.
    Log,
    /// The voice.
    Voice,
}

/// How a test ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// It passed.
    Passed,
    /// It failed.
    Failed,
    /// It wasn't done.
    Skipped,
}

/// Official or test: a log has no third.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// Test: "test" stands on every sheet.
    Test,
    /// Official.
    Official,
}

/// Where the paper was when a visit was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StopPlace {
    /// Nothing was printed.
    BeforePrint,
    /// In the printer's tray.
    SheetInTray,
    /// In the reader.
    SheetInReader,
}

/// Why a visit was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StopCause {
    /// The voter wished it.
    VotersWish,
    /// The voter had left.
    VoterLeft,
    /// The voter's screen could not be opened.
    NotOpened,
    /// The station or the voter's screen had stopped by itself.
    Cut,
}

/// Where the paper was, and why a visit was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StopReason {
    /// Where the paper was.
    pub place: StopPlace,
    /// Why.
    pub cause: StopCause,
}

/// The kind of an event, as VVSG 2.0, 15.1-D lists what is logged; `Log` is of the log itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EventType {
    /// The station started.
    Boot,
    /// The station was shut down.
    Shutdown,
    /// Power.
    Power,
    /// Something failed.
    Error,
    /// Polls opened, closed, suspended, resumed.
    OpenClose,
    /// Log-ins and their failures.
    LogIn,
    /// Configuration, clock, software.
    Change,
    /// Self-tests.
    SelfTest,
    /// Devices that come and go, seals and paper.
    Device,
    /// Visits start and end.
    BallotActivation,
    /// Printing and jams.
    Printing,
    /// Something was cancelled.
    Cancel,
    /// The log itself.
    Log,
}

impl EventType {
    /// Every type.
    pub const ALL: [Self; 13] = [
        Self::Boot,
        Self::Shutdown,
        Self::Power,
        Self::Error,
        Self::OpenClose,
        Self::LogIn,
        Self::Change,
        Self::SelfTest,
        Self::Device,
        Self::BallotActivation,
        Self::Printing,
        Self::Cancel,
        Self::Log,
    ];

    /// The word that stands in an export.
    pub fn id(self) -> &'static str {
        match self {
            Self::Boot => "boot",
            Self::Shutdown => "shutdown",
            Self::Power => "power",
            Self::Error => "error",
            Self::OpenClose => "open-close",
            Self::LogIn => "log-in",
            Self::Change => "change",
            Self::SelfTest => "self-test",
            Self::Device => "device",
            Self::BallotActivation => "ballot-activation",
            Self::Printing => "printing",
            Self::Cancel => "cancel",
            Self::Log => "log",
        }
    }

    /// What it means.
    pub fn description(self) -> &'static str {
        match self {
            Self::Boot => "The station's program started.",
            Self::Shutdown => "The station was shut down in order.",
            Self::Power => "The station lost power.",
            Self::Error => "Something failed or looks wrong.",
            Self::OpenClose => "Polls were opened, suspended, resumed or closed.",
            Self::LogIn => "Somebody logged in or out, or a log-in was refused.",
            Self::Change => "Configuration, clock, software or election changed.",
            Self::SelfTest => "The station's self-test.",
            Self::Device => "A device came or went, paper was added, or a seal was noted.",
            Self::BallotActivation => "A visit was started, entered or finished.",
            Self::Printing => "A ballot or a test sheet was printed, or paper jammed.",
            Self::Cancel => "A visit was stopped or a ballot was spoiled.",
            Self::Log => "The log itself: its head, its signatures, its recovery, its export.",
        }
    }
}

/// How an event ended, in the words of NIST SP 1500-101 (`EventDispositionType`; its "other" isn't
/// used).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Disposition {
    /// It succeeded.
    Success,
    /// It failed.
    Failure,
    /// Neither can be said of it.
    Na,
}

impl Disposition {
    /// The word of SP 1500-101.
    pub fn id(self) -> &'static str {
        match self {
            Self::Success => "success",
            Self::Failure => "failure",
            Self::Na => "na",
        }
    }
}

/// How grave an event is. SP 1500-101 leaves the words open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Severity {
    /// As it should be.
    Information,
    /// A person should look.
    Warning,
    /// The station can't go on as it is.
    Error,
}

impl Severity {
    /// The word that stands in an export.
    pub fn id(self) -> &'static str {
        match self {
            Self::Information => "information",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// What is always true of events with one id.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kind {
    /// The id: words with hyphens, the same in every version.
    pub id: &'static str,
    /// The type.
    pub event_type: EventType,
    /// How such an event ends, where its data don't say otherwise.
    pub disposition: Disposition,
    /// How grave it is.
    pub severity: Severity,
    /// What it means.
    pub description: &'static str,
}

/// One thing that happened.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "id", rename_all = "kebab-case", rename_all_fields = "kebab-case")]
#[expect(missing_docs, reason = "the table at the end of this file describes each")]
pub enum Event {
    StationStarted,
    PowerLost,
    ShutDown,
    ElectionAccepted { digest: Digest },
    ElectionRefused { digest: Digest },
    StationFileChanged,
    SoftwareChanged { digest: Digest },
    ClockSet,
    ClockLooksWrong,
    StorageFull,
    SelfTestStep { step: Step, outcome: Outcome },
    SelfTestDone { outcome: Outcome },
    LoggedIn { role: Role },
    LoggedOut { role: Role },
    LogInRefused { role: Role },
    LogInDelayed,
    Opened { state: State, counts: Counts },
    Suspended,
    Resumed,
    Closed { counts: Counts },
    VisitStarted,
    VisitFinished,
    VisitStopped { reason: StopReason },
    WorkerEntered,
    VisitReturnedTo,
    BallotPrinted,
    BallotSpoiled,
    TestSheetPrinted,
    PaperJammed,
    PaperAccounted,
    PaperAdded,
    DeviceLost { device: Device },
    DeviceBack { device: Device },
    SealNoted { seal: Label },
    LogRecovered { bytes: u32 },
    Exported,
}

impl Event {
    /// How it ended.
    pub fn disposition(&self) -> Disposition {
        if let Self::SelfTestStep { outcome, .. } | Self::SelfTestDone { outcome } = self {
            return match outcome {
                Outcome::Passed => Disposition::Success,
                Outcome::Failed => Disposition::Failure,
                Outcome::Skipped => Disposition::Na,
            };
        }
        self.kind().disposition
    }

    /// How grave it is.
    pub fn severity(&self) -> Severity {
        match self.disposition() {
            Disposition::Failure if self.kind().event_type == EventType::SelfTest => {
                Severity::Error
            }
            Disposition::Success | Disposition::Failure | Disposition::Na => self.kind().severity,
        }
    }

    /// Who, where the event is of somebody.
    pub fn role(&self) -> Option<Role> {
        if let Self::LoggedIn { role } | Self::LoggedOut { role } | Self::LogInRefused { role } =
            self
        {
            return Some(*role);
        }
        None
    }

    /// True for what happens in a visit or at its edges: its time is never finer than an hour,
    /// whatever the polls are.
    pub fn is_of_visit(&self) -> bool {
        matches!(
            self,
            Self::VisitStarted
                | Self::VisitFinished
                | Self::VisitStopped { .. }
                | Self::WorkerEntered
                | Self::VisitReturnedTo
                | Self::BallotPrinted
                | Self::BallotSpoiled
        )
    }

    /// True where a checkpoint follows at once.
    pub(crate) fn is_sealed(&self) -> bool {
        matches!(
            self,
            Self::Opened { .. }
                | Self::Closed { .. }
                | Self::Suspended
                | Self::ShutDown
                | Self::LogRecovered { .. }
                | Self::Exported
        )
    }
}

/// Gives each event its kind. A variant without a row doesn't compile.
macro_rules! kinds {
    ($($variant:ident: $id:literal, $type:ident, $disposition:ident, $severity:ident, $description:literal;)*) => {
        impl Event {
            /// What is always true of events like this one.
            pub fn kind(&self) -> &'static Kind {
                match self {
                    $(Self::$variant { .. } => &Kind {
                        id: $id,
                        event_type: EventType::$type,
                        disposition: Disposition::$disposition,
                        severity: Severity::$severity,
                        description: $description,
                    },)*
                }
            }

            /// Every kind, in the order of the table.
            pub const KINDS: &'static [Kind] = &[$(Kind {
                id: $id,
                event_type: EventType::$type,
                disposition: Disposition::$disposition,
                severity: Severity::$severity,
                description: $description,
            },)*];
        }
    };
}

kinds! {
    StationStarted: "station-started", Boot, Success, Information, "The station's program started.";
    PowerLost: "power-lost", Power, Failure, Warning, "The station had stopped without being shut down, as when power is lost.";
    ShutDown: "shut-down", Shutdown, Success, Information, "The station was shut down.";
    ElectionAccepted: "election-accepted", Change, Success, Information, "A sealed election was accepted.";
    ElectionRefused: "election-refused", Error, Failure, Error, "An election was refused because its seal isn't right.";
    StationFileChanged: "station-file-changed", Change, Success, Information, "What a worker has taught this station was changed.";
    SoftwareChanged: "software-changed", Change, Na, Warning, "The station's program isn't the one that ran before.";
    ClockSet: "clock-set", Change, Success, Information, "The clock was set.";
    ClockLooksWrong: "clock-looks-wrong", Error, Failure, Warning, "The clock's time can't be right.";
    StorageFull: "storage-full", Error, Failure, Error, "The storage is full.";
    SelfTestStep: "self-test-step", SelfTest, Na, Information, "One step of the self-test ended.";
    SelfTestDone: "self-test-done", SelfTest, Na, Information, "The self-test ended.";
    LoggedIn: "logged-in", LogIn, Success, Information, "Somebody logged in.";
    LoggedOut: "logged-out", LogIn, Success, Information, "What somebody had logged in for was done or left; the next task takes a code again.";
    LogInRefused: "log-in-refused", LogIn, Failure, Warning, "A log-in was refused.";
    LogInDelayed: "log-in-delayed", LogIn, Failure, Warning, "After refused log-ins the station makes the next one wait.";
    Opened: "opened", OpenClose, Success, Information, "Polls were opened. The public counts stand beside it.";
    Suspended: "suspended", OpenClose, Success, Information, "Polls were suspended.";
    Resumed: "resumed", OpenClose, Success, Information, "Polls were resumed.";
    Closed: "closed", OpenClose, Success, Information, "Polls were closed. The public counts stand beside it.";
    VisitStarted: "visit-started", BallotActivation, Success, Information, "A voter's visit was started.";
    VisitFinished: "visit-finished", BallotActivation, Success, Information, "A voter's visit ended with a ballot taken.";
    VisitStopped: "visit-stopped", Cancel, Success, Warning, "A voter's visit was stopped.";
    WorkerEntered: "worker-entered", BallotActivation, Na, Information, "A worker's screen was opened during a visit.";
    VisitReturnedTo: "visit-returned-to", BallotActivation, Success, Information, "The worker's screen was left and the visit went on.";
    BallotPrinted: "ballot-printed", Printing, Success, Information, "All sheets of a ballot were printed.";
    BallotSpoiled: "ballot-spoiled", Cancel, Success, Information, "A printed ballot was given up for a new one.";
    TestSheetPrinted: "test-sheet-printed", Printing, Success, Information, "A test sheet was printed.";
    PaperJammed: "paper-jammed", Printing, Failure, Error, "Paper jammed.";
    PaperAccounted: "paper-accounted", Printing, Success, Information, "Paper that had jammed or that a visit had left was taken out and accounted for.";
    PaperAdded: "paper-added", Device, Success, Information, "Paper was added.";
    DeviceLost: "device-lost", Device, Failure, Warning, "A device doesn't answer.";
    DeviceBack: "device-back", Device, Success, Information, "A device answers again.";
    SealNoted: "seal-noted", Device, Na, Information, "The number of a seal was noted.";
    LogRecovered: "log-recovered", Log, Success, Warning, "The log's end was cut, as when power is lost while it is written, and was taken off.";
    Exported: "exported", Log, Success, Information, "The log was exported.";
}
