//! What the day's machine does as entries of the log, and the counts that come back.

use std::fs;
use std::io;
use std::num::NonZeroU16;
use std::path::Path;

use evenhand_duty::day::{Deed, PaperAt, StopCause as Cause};
use evenhand_duty::{Counts, Outcome, Polls, Purpose, Role, Step, Why};
use evenhand_event_log as log;
use evenhand_event_log::Event;

use super::{AtWork, moment};
use crate::ledger::{Ledger, LedgerError};

/// The file of the station's folder that holds [`Paper`].
const PAPER: &str = "paper.txt";
/// The file while it is written.
const PAPER_NEW: &str = "paper.new";

/// Notes that a device answers, or doesn't, where the log says otherwise. Of a reader nothing is said in
/// a visit: that would tell that a voter had the paper read.
pub(super) fn answers(
    ledger: &mut Ledger,
    device: log::Device,
    answers: bool,
    now: log::Moment,
) -> Result<(), LedgerError> {
    match (ledger.is_lost(device), answers) {
        (true, true) => ledger.record(Event::DeviceBack { device }, now),
        (false, false) => ledger.record(Event::DeviceLost { device }, now),
        (true, false) | (false, true) => Ok(()),
    }
}

/// What a step of the self-test says of a device or of the clock, beside how it ended.
fn after_test(
    ledger: &mut Ledger,
    (step, outcome): (Step, Outcome),
    now: log::Moment,
) -> Result<(), LedgerError> {
    let device = if step == Step::PrinterSheet {
        log::Device::Printer
    } else if step == Step::Scanner {
        log::Device::Scanner
    } else if step == Step::Clock && matches!(outcome, Outcome::Failed(_)) {
        return ledger.record(Event::ClockLooksWrong, now);
    } else {
        return Ok(());
    };
    match outcome {
        Outcome::Passed => answers(ledger, device, true, now),
        Outcome::Failed(Why::NoAnswer) => answers(ledger, device, false, now),
        Outcome::Failed(_) | Outcome::Skipped(_) => Ok(()),
    }
}

impl AtWork {
    /// Notes where somebody has set the clock.
    pub(super) fn look_at_clock(&mut self) -> Result<(), LedgerError> {
        match &mut self.ledger {
            Some(ledger) if self.clock.was_set() => ledger.record(Event::ClockSet, moment()),
            Some(_) | None => Ok(()),
        }
    }

    /// Writes what was done to the log, and with it what else must be kept.
    pub(super) fn record(&mut self, deed: &Deed) -> Result<(), LedgerError> {
        let now = moment();
        let folder = self.options.folder.clone();
        if *deed == Deed::ShutDown {
            return self.ledger.take().map_or(Ok(()), |ledger| ledger.shut_down(now).map(drop));
        }
        let Some(ledger) = &mut self.ledger else { return Ok(()) };
        match deed {
            Deed::Opened(purpose, paper) => {
                ledger.open_polls(state(*purpose), now)?;
                self.paper = Paper { put_in: *paper, reports: 0 };
                self.opened_for = Some(*purpose);
                self.paper.keep(&folder)
            }
            Deed::PaperAdded(count) => {
                ledger.record(Event::PaperAdded, now)?;
                self.paper.put_in = self.paper.put_in.saturating_add(*count);
                self.paper.keep(&folder)
            }
            // One ballot, of so many sheets.
            Deed::SheetsFound(count) => {
                let sheets = NonZeroU16::new(*count).unwrap_or(NonZeroU16::MIN);
                ledger.record_printed(sheets, now)
            }
            Deed::Closed(left) => {
                self.left = *left;
                ledger.close_polls(now).map(drop)
            }
            Deed::Tested(step, outcome) => {
                event(deed).map_or(Ok(()), |event| ledger.record(event, now))?;
                after_test(ledger, (*step, *outcome), now)
            }
            // Those of the report that comes next.
            Deed::SealNoted(seal) => {
                if std::mem::take(&mut self.are_seals_printed) {
                    self.seals.clear();
                }
                self.seals.push(seal.clone());
                event(deed).map_or(Ok(()), |event| ledger.record(event, now))
            }
            // All of it came out, or was stuck and can't be voted on any more.
            Deed::JamCleared(count) => ledger.record_jam_cleared(*count, now),
            Deed::LoggedIn(_)
            | Deed::LoggedOut(_)
            | Deed::LogInRefused(_)
            | Deed::LogInDelayed
            | Deed::TestDone(_)
            | Deed::VisitStarted
            | Deed::VisitFinished
            | Deed::WorkerEntered
            | Deed::VisitReturnedTo
            | Deed::VisitStopped(..)
            | Deed::Spoiled
            | Deed::PaperAccounted
            | Deed::Suspended
            | Deed::Resumed
            | Deed::Exported
            | Deed::ShutDown => match event(deed) {
                Some(event) => ledger.record(event, now),
                None => Ok(()),
            },
        }
    }
}

/// The entry of a deed that brings no counts with it.
fn event(deed: &Deed) -> Option<Event> {
    Some(match deed {
        Deed::LoggedIn(role) => Event::LoggedIn { role: role_of(*role) },
        Deed::LoggedOut(role) => Event::LoggedOut { role: role_of(*role) },
        Deed::LogInRefused(role) => Event::LogInRefused { role: role_of(*role) },
        Deed::LogInDelayed => Event::LogInDelayed,
        Deed::Tested(step, outcome) => {
            Event::SelfTestStep { step: step_of(*step), outcome: outcome_of(*outcome) }
        }
        Deed::TestDone(outcome) => Event::SelfTestDone { outcome: outcome_of(*outcome) },
        // The machine takes the letters of a label only, and no more of them.
        Deed::SealNoted(seal) => Event::SealNoted { seal: seal.parse().ok()? },
        Deed::VisitStarted => Event::VisitStarted,
        Deed::VisitFinished => Event::VisitFinished,
        Deed::WorkerEntered => Event::WorkerEntered,
        Deed::VisitReturnedTo => Event::VisitReturnedTo,
        Deed::VisitStopped(paper, cause) => {
            let place = match paper {
                PaperAt::Nowhere => log::StopPlace::BeforePrint,
                PaperAt::Tray => log::StopPlace::SheetInTray,
                PaperAt::Reader => log::StopPlace::SheetInReader,
            };
            let cause = match cause {
                Cause::VotersWish => log::StopCause::VotersWish,
                Cause::VoterLeft => log::StopCause::VoterLeft,
                Cause::NotOpened => log::StopCause::NotOpened,
                Cause::Cut => log::StopCause::Cut,
            };
            Event::VisitStopped { reason: log::StopReason { place, cause } }
        }
        Deed::Spoiled => Event::BallotSpoiled,
        Deed::PaperAccounted => Event::PaperAccounted,
        Deed::Suspended => Event::Suspended,
        Deed::Resumed => Event::Resumed,
        Deed::Exported => Event::Exported,
        Deed::Opened(..)
        | Deed::PaperAdded(_)
        | Deed::SheetsFound(_)
        | Deed::JamCleared(_)
        | Deed::Closed(_)
        | Deed::ShutDown => return None,
    })
}

const fn role_of(role: Role) -> log::Role {
    match role {
        Role::Worker => log::Role::Worker,
        Role::Lead => log::Role::Lead,
        Role::Technician => log::Role::Technician,
    }
}

const fn outcome_of(outcome: Outcome) -> log::Outcome {
    match outcome {
        Outcome::Passed => log::Outcome::Passed,
        Outcome::Failed(_) => log::Outcome::Failed,
        Outcome::Skipped(_) => log::Outcome::Skipped,
    }
}

const fn step_of(step: Step) -> log::Step {
    match step {
        Step::SealedElection => log::Step::SealedElection,
        Step::Log => log::Step::Log,
        Step::Clock => log::Step::Clock,
        Step::Storage => log::Step::Storage,
        Step::Voice => log::Step::Voice,
        Step::PrinterSheet => log::Step::PrinterSheet,
        Step::Scanner => log::Step::Scanner,
        Step::ScreenColors => log::Step::ScreenColors,
        Step::TouchGrid => log::Step::TouchGrid,
        Step::LeftEar => log::Step::LeftEar,
        Step::RightEar => log::Step::RightEar,
        Step::Switches => log::Step::Switches,
        Step::Keys => log::Step::Keys,
    }
}

const fn state(purpose: Purpose) -> log::State {
    match purpose {
        Purpose::Test => log::State::Test,
        Purpose::Official => log::State::Official,
    }
}

/// What polls that are open are open for.
pub(super) const fn purpose(polls: log::Polls) -> Option<Purpose> {
    match polls {
        log::Polls::Closed => None,
        log::Polls::Open(log::State::Test) | log::Polls::Suspended(log::State::Test) => {
            Some(Purpose::Test)
        }
        log::Polls::Open(log::State::Official) | log::Polls::Suspended(log::State::Official) => {
            Some(Purpose::Official)
        }
    }
}

/// The polls as the log has them.
pub(super) const fn polls(polls: log::Polls) -> Polls {
    match (polls, purpose(polls)) {
        (log::Polls::Open(_), Some(purpose)) => Polls::Open(purpose),
        (log::Polls::Suspended(_), Some(purpose)) => Polls::Suspended(purpose),
        (_, _) => Polls::Closed,
    }
}

/// The log's counts as the screens have them.
pub(super) const fn counts(counts: &log::Counts, paper: Paper) -> Counts {
    Counts {
        sheets: counts.sheets_printed,
        ballots: counts.ballots_printed,
        spoiled: counts.ballots_spoiled,
        test_sheets: counts.test_sheets,
        jams: counts.sheets_jammed,
        started: counts.visits_started,
        finished: counts.visits_finished,
        stopped: counts.visits_stopped,
        lifetime: counts.lifetime_sheets,
        paper_in: paper.put_in,
        reports: paper.reports,
    }
}

/// What the log doesn't count: sheets put in since the opening, and those that reports took.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Paper {
    pub(super) put_in: u32,
    pub(super) reports: u32,
}

impl Paper {
    /// As it was kept; none where nothing is kept: then the paper doesn't come out even, and the
    /// worker counts again.
    pub(super) fn kept(folder: &Path) -> Self {
        let text = fs::read_to_string(folder.join(PAPER)).unwrap_or_default();
        let mut numbers = text.split_whitespace().map(|number| number.parse().unwrap_or(0));
        let mut next = || numbers.next().unwrap_or(0);
        Self { put_in: next(), reports: next() }
    }

    /// Keeps it, whole or not at all.
    pub(super) fn keep(self, folder: &Path) -> Result<(), LedgerError> {
        let (path, new) = (folder.join(PAPER), folder.join(PAPER_NEW));
        let keep = || -> io::Result<()> {
            fs::write(&new, format!("{} {}\n", self.put_in, self.reports))?;
            fs::File::open(&new)?.sync_all()?;
            fs::rename(&new, &path)
        };
        keep().map_err(|why| {
            if why.kind() == io::ErrorKind::StorageFull {
                LedgerError::StorageFull { path: path.clone() }
            } else {
                LedgerError::File { path: path.clone(), why }
            }
        })
    }
}

impl AtWork {
    /// Whether the log is whole, by the station's own key.
    pub(super) fn is_log_whole(&self) -> bool {
        let Some(ledger) = &self.ledger else { return false };
        let Ok(bytes) = fs::read(self.options.folder.join(LOG)) else { return false };
        let trust = log::Trust::Key(ledger.public_key());
        log::verify(&bytes, trust, &log::Published::default()).faults.is_empty()
    }

    /// The log, its export as SP 1500-101 and the observers' page, into the export folder.
    pub(super) fn export(&self) -> io::Result<()> {
        let gone = || io::Error::from(io::ErrorKind::NotFound);
        let ledger: &Ledger = self.ledger.as_ref().ok_or_else(gone)?;
        let bytes = fs::read(self.options.folder.join(LOG))?;
        let trust = log::Trust::Key(ledger.public_key());
        let report = log::verify(&bytes, trust, &log::Published::default());
        let (to, now) = (&self.options.export, moment());
        fs::create_dir_all(to)?;
        let export = log::export(&report, &log::Maker::EVENHAND, now);
        for (name, bytes) in [
            ("log.txt", bytes.as_slice()),
            ("log-sp1500-101.json", export.as_bytes()),
            ("log.html", log::page(&report).as_bytes()),
            ("station-key.txt", format!("{}\n", ledger.public_key()).as_bytes()),
        ] {
            let path = to.join(name);
            fs::write(&path, bytes)?;
            fs::File::open(&path)?.sync_all()?;
        }
        Ok(())
    }
}

/// The log's file in the station's folder.
const LOG: &str = "log.txt";
