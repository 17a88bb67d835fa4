//! The steps of the self-test that the station does by itself, each on the device itself.

use std::path::Path;
use std::sync::Arc;

use evenhand_definitions::Loaded;
use evenhand_duty::day::Input;
use evenhand_duty::{Outcome, Step, Why};
use evenhand_event_log::Event;
use evenhand_speech::{Ear, EarOutcome, sound_ear};

use super::{AtWork, Told, moment, spawn, test_sheet};
use crate::ledger::LedgerError;
use crate::self_test::{self, clock, paper, storage, voices};
use crate::worker_window::After;

impl AtWork {
    /// Begins a step; how it went comes back through [`Told::Tested`].
    pub(super) fn test(&mut self, step: Step) {
        let told = self.told.clone();
        let done = move |(outcome, sheets, reader)| {
            told.unbounded_send(Told::Tested { outcome, sheets, reader }).unwrap_or_default();
        };
        match step {
            Step::SealedElection => done((self.seal(), 0, None)),
            Step::Log => done((whole(self.is_log_whole()), 0, None)),
            Step::Clock => done((self.clock(), 0, None)),
            Step::Storage => {
                let folder = self.options.folder.clone();
                self.in_background(move || done((stored(&folder), 0, None)));
            }
            Step::Voice => {
                let (election, recorded) =
                    (Arc::clone(&self.election), self.opened.recorded.clone());
                let languages = self.opened.settings.offered(&election).to_vec();
                self.in_background(move || {
                    let found = voices::voices(&election, &languages, &recorded);
                    let failed = found.into_iter().map(|(_, outcome)| outcome_of(&outcome));
                    let first = failed.into_iter().find(|outcome| *outcome != Outcome::Passed);
                    done((first.unwrap_or(Outcome::Passed), 0, None));
                });
            }
            Step::PrinterSheet => {
                let (opened, printer) = (self.opened.clone(), self.options.printer.clone());
                self.in_background(move || {
                    let mut path = printer.open();
                    let found = test_sheet(&opened)
                        .map(|(ballot, style)| paper::paper(path.as_mut(), &ballot, &style));
                    done(match found {
                        Ok(check) => {
                            let (printer, reader) = parted(&check.outcome);
                            (printer, check.sheets, Some(reader))
                        }
                        Err(_) => (Outcome::Failed(Why::NotWhole), 0, None),
                    });
                });
            }
            // Done together with the printer's: it read what was printed then.
            Step::Scanner => {
                let found = self.reader.take();
                done((found.unwrap_or(Outcome::Skipped(Why::NeedsOther)), 0, None));
            }
            // These take a person.
            Step::ScreenColors
            | Step::TouchGrid
            | Step::LeftEar
            | Step::RightEar
            | Step::Switches
            | Step::Keys => {}
        }
    }

    fn in_background(&self, work: impl FnOnce() + Send + 'static) {
        if spawn("self-test", work).is_some() {
            let outcome = Outcome::Failed(Why::NotWhole);
            self.send(Told::Tested { outcome, sheets: 0, reader: None });
        }
    }

    /// Verified anew from the file: it may have been changed since the start.
    fn seal(&self) -> Outcome {
        match &*self.opened.loaded {
            Loaded::Unsealed(_) => Outcome::Skipped(Why::NotSealed),
            Loaded::Sealed(_) => {
                let again = self.options.source.open();
                whole(again.is_ok_and(|again| again.digest() == self.opened.digest()))
            }
        }
    }

    fn clock(&self) -> Outcome {
        let now = i64::try_from(moment().0).unwrap_or(i64::MAX);
        let offset = self.options.offset.into();
        let found = clock::clock(now, offset, &self.election.date, clock::BUILT);
        outcome_of(&found)
    }

    /// A step went so; the test sheets that it took are counted.
    pub(super) fn tested(
        &mut self,
        outcome: Outcome,
        sheets: u32,
        reader: Option<Outcome>,
    ) -> After {
        if let Some(reader) = reader {
            self.reader = Some(reader);
        }
        for _ in 0..sheets {
            let noted: Result<(), LedgerError> = match &mut self.ledger {
                Some(ledger) => ledger.record(Event::TestSheetPrinted, moment()),
                None => Ok(()),
            };
            if let Err(error) = noted {
                return self.log_failed(&error);
            }
        }
        self.input(Input::Tested(outcome))
    }

    /// Sounds the tone at one ear. Whether it was heard the worker says.
    pub(super) fn sound(&self, step: Step) {
        let ear = if step == Step::RightEar { Ear::Right } else { Ear::Left };
        let headphones = self.options.headphones.clone();
        let sound = move || {
            let outcome = sound_ear(ear, headphones.as_deref());
            if outcome != EarOutcome::Sounded {
                use std::io::Write as _;
                writeln!(std::io::stderr(), "evenhand: the tone for one ear: {outcome:?}")
                    .unwrap_or_default();
            }
        };
        // Where there is no thread there is no tone, and the worker says so.
        drop(spawn("ear", sound));
    }
}

const fn whole(is_whole: bool) -> Outcome {
    if is_whole { Outcome::Passed } else { Outcome::Failed(Why::NotWhole) }
}

fn stored(folder: &Path) -> Outcome {
    outcome_of(&storage::storage(folder, storage::ROOM_LEAST_MIB))
}

/// What was found of the printer, and of the reader.
fn parted<T>(found: &self_test::Outcome<T>) -> (Outcome, Outcome) {
    use self_test::Why as Found;
    let why = match found {
        self_test::Outcome::Passed(_) => return (Outcome::Passed, Outcome::Passed),
        self_test::Outcome::Caution(why)
        | self_test::Outcome::Failed(why)
        | self_test::Outcome::Skipped(why) => *why,
    };
    let is_printers = matches!(
        why,
        Found::NoPaper
            | Found::PaperJam
            | Found::PrinterOffline
            | Found::SheetNotMade
            | Found::ReaderNotReady
    );
    if is_printers {
        (Outcome::Failed(why_of(why)), Outcome::Skipped(Why::NeedsOther))
    } else {
        (Outcome::Passed, Outcome::Failed(why_of(why)))
    }
}

/// What may be as it should is for a person to say, who finds it among the failed steps.
fn outcome_of<T>(found: &self_test::Outcome<T>) -> Outcome {
    match found {
        self_test::Outcome::Passed(_) => Outcome::Passed,
        self_test::Outcome::Caution(why) | self_test::Outcome::Failed(why) => {
            Outcome::Failed(why_of(*why))
        }
        self_test::Outcome::Skipped(why) => Outcome::Skipped(why_of(*why)),
    }
}

/// A device's reason in a worker's words.
const fn why_of(why: self_test::Why) -> Why {
    use self_test::Why as Found;
    match why {
        Found::NoPaper => Why::NoPaper,
        Found::PaperJam => Why::PaperStuck,
        Found::PrinterOffline | Found::ScannerOffline => Why::NoAnswer,
        Found::SheetNotMade | Found::ReaderNotReady | Found::ElectionDayUnknown => Why::NotWhole,
        Found::SheetMissing
        | Found::PictureUnusable
        | Found::SheetUnreadable
        | Found::OtherSheet
        | Found::PrintDiffers => Why::NoSheet,
        Found::OvalsNotMarked { .. }
        | Found::OvalsNotEmpty { .. }
        | Found::LinesNotEmpty { .. } => Why::OvalsDiffer,
        Found::NotWritten
        | Found::NotReadBack
        | Found::ReadBackDiffers
        | Found::NotRemoved
        | Found::RoomUnknown
        | Found::RoomShort { .. } => Why::NoRoom,
        Found::ClockBeforeProgram { .. }
        | Found::ElectionFarAhead { .. }
        | Found::ElectionOver { .. } => Why::ClockFar,
        Found::NoSpeechService | Found::SpeechServiceSilent => Why::NoSpeech,
        Found::NotHeard | Found::RecordingsIncomplete { .. } | Found::NoMessages => Why::NoVoice,
    }
}
