//! The connections to the speech service: one thread that owns every `Tts`.
//!
//! Invariant: everything that may block in the client library happens here, so that a service
//! that hangs costs this thread and not the voice. It decides nothing.

use std::collections::{BTreeMap, VecDeque};
use std::mem;
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use crossbeam_channel::{Receiver, Sender, unbounded};
use tts::{Backends, Tts, UtteranceId};

use crate::conductor::{Generation, Input, Report, Ticket};
use crate::fault::Fault;
use crate::language::choose;
use crate::leftover;
use crate::segment::{Segment, paced};
use crate::settings::Pace;

/// The volume asked of the service, on its scale of −100 to 100, which is espeak-ng's amplitude
/// 75 of 200: the loudest sounds of eleven languages then stay 0.9 dB below full scale; at
/// amplitude 100 Spanish and Vietnamese reach it and clip (measured). Loudness is set at the
/// output instead.
const VOLUME: f32 = -25.0;
/// The volume of a warm-up word: zero, so that it isn't heard.
const SILENT: f32 = -100.0;

/// What the thread is asked to do. Holds text, so it has no debug output.
pub(crate) enum Request {
    /// Say this.
    Speak { ticket: Ticket, segment: Segment, pace: Pace, silent: bool, cut: bool },
    /// Say no more.
    Hush,
    /// Does the connection live?
    Check,
    /// Say no more and tell when it is done; the last request.
    Finish(Sender<()>),
}

/// Starts the thread of a connection; it ends when the returned sender is dropped.
///
/// # Errors
/// The system refuses another thread.
pub(crate) fn open(
    generation: Generation,
    reports: Sender<Input>,
) -> Result<Sender<Request>, std::io::Error> {
    let (requests, inbox) = unbounded();
    thread::Builder::new()
        .name(format!("speech-{}", generation.0))
        .spawn(move || run(generation, &inbox, &reports))?;
    Ok(requests)
}

fn run(generation: Generation, inbox: &Receiver<Request>, reports: &Sender<Input>) {
    let report = |report| {
        // When nobody listens the voice is gone, and so is the sender of requests.
        reports.send(Input::Mouth(generation, report)).is_ok()
    };
    if std::env::var_os("SPEECHD_ADDRESS").is_none() {
        report(Report::CannotOpen(Fault::NoAddress));
        return;
    }
    let Ok(mut mouth) = Mouth::open(generation, reports) else {
        report(Report::CannotOpen(Fault::NoService));
        return;
    };
    if !report(Report::Open(mouth.languages.clone())) {
        return;
    }
    let mut waiting = VecDeque::new();
    loop {
        let Some(request) = next(&mut waiting, inbox) else { break };
        let answer = match request {
            Request::Speak { ticket, segment, pace, silent, cut } => {
                match mouth.speak(ticket, &segment, pace, silent, cut) {
                    Ok(true) => Report::Accepted(ticket),
                    Ok(false) => Report::NoVoice(ticket),
                    Err(_) => Report::Lost,
                }
            }
            Request::Hush => match mouth.hush() {
                Ok(()) => continue,
                Err(_) => Report::Lost,
            },
            Request::Check => match mouth.check() {
                Ok(()) => Report::Alive,
                Err(_) => Report::Lost,
            },
            Request::Finish(done) => {
                // Whether it could be silenced changes nothing any more: the voice is ending.
                let silenced = mouth.hush().is_ok();
                mouth.forget();
                if silenced {
                    // The one who waits may have given up.
                    done.send(()).unwrap_or_default();
                }
                return;
            }
        };
        if !report(answer) {
            break;
        }
    }
    mouth.forget();
}

/// The next request that still matters: words that newer words cut anyway aren't begun, so that
/// fast presses don't queue up behind each other. None when the voice has dropped the connection.
fn next(waiting: &mut VecDeque<Request>, inbox: &Receiver<Request>) -> Option<Request> {
    if waiting.is_empty() {
        waiting.push_back(inbox.recv().ok()?);
    }
    waiting.extend(inbox.try_iter());
    let mut cut_before = false;
    while let Some(request) = waiting.pop_front() {
        let superseded = waiting
            .iter()
            .any(|later| matches!(later, Request::Hush | Request::Speak { cut: true, .. }));
        match request {
            Request::Speak { cut, .. } if superseded => cut_before |= cut,
            Request::Speak { ticket, segment, pace, silent, cut } => {
                let cut = cut || cut_before;
                return Some(Request::Speak { ticket, segment, pace, silent, cut });
            }
            other @ (Request::Hush | Request::Check | Request::Finish(_)) => return Some(other),
        }
    }
    None
}

/// Which ticket a message of the service is.
type Tickets = Arc<Mutex<BTreeMap<u64, Ticket>>>;
/// Ends that came before the service's answer to the request that they belong to.
type Early = Arc<Mutex<BTreeMap<u64, Fate>>>;

/// How a message ended.
#[derive(Clone, Copy)]
enum Fate {
    Ended,
    Cut,
}

impl Fate {
    fn report(self, ticket: Ticket) -> Report {
        match self {
            Self::Ended => Report::Ended(ticket),
            Self::Cut => Report::Cut(ticket),
        }
    }
}

/// All connections to the service: one line for each voice in use.
///
/// A line keeps its voice: crate `tts` lists all voices again whenever one is set, and a service
/// that is asked for the list while it is being cut stops answering for ever (speech-dispatcher
/// 0.11.4: once in some 200 changes of language; never seen since each voice has its line).
struct Mouth {
    voices: Vec<tts::Voice>,
    languages: Vec<String>,
    /// The line that listed the voices, until the first voice takes it.
    spare: Option<Line>,
    /// By the index of the voice.
    lines: BTreeMap<usize, Line>,
    /// The line that spoke last.
    speaking: Option<usize>,
    generation: Generation,
    reports: Sender<Input>,
}

impl Mouth {
    fn open(generation: Generation, reports: &Sender<Input>) -> Result<Self, tts::Error> {
        let line = Line::open(generation, reports)?;
        let voices = line.tts.voices()?;
        let languages = voices.iter().map(|v| v.language().to_string()).collect();
        // After the list, see above; before the first words, so that it can't cut them.
        leftover::ask().map_err(|_| tts::Error::NoneError)?;
        Ok(Self {
            voices,
            languages,
            spare: Some(line),
            lines: BTreeMap::new(),
            speaking: None,
            generation,
            reports: reports.clone(),
        })
    }

    /// Says a segment; false when no voice speaks its language.
    fn speak(
        &mut self,
        ticket: Ticket,
        segment: &Segment,
        pace: Pace,
        silent: bool,
        cut: bool,
    ) -> Result<bool, tts::Error> {
        if cut {
            self.hush()?;
        }
        let Some(index) = choose(&self.languages, &segment.language) else { return Ok(false) };
        if !self.lines.contains_key(&index) {
            let line = self.new_line(index)?;
            self.lines.insert(index, line);
        }
        let Some(line) = self.lines.get_mut(&index) else { return Ok(false) };
        self.speaking = Some(index);
        line.speak(ticket, &segment.text, pace, silent)?;
        Ok(true)
    }

    fn new_line(&mut self, index: usize) -> Result<Line, tts::Error> {
        let mut line = match self.spare.take() {
            Some(line) => line,
            None => Line::open(self.generation, &self.reports)?,
        };
        if let Some(voice) = self.voices.get(index) {
            line.tts.set_voice(voice)?;
        }
        Ok(line)
    }

    fn hush(&mut self) -> Result<(), tts::Error> {
        if let Some(line) = self.last_line() {
            line.tts.stop()?;
        }
        Ok(())
    }

    /// Setting the rate to what it is costs one round trip and changes nothing.
    fn check(&mut self) -> Result<(), tts::Error> {
        if let Some(line) = self.last_line() {
            line.tts.set_rate(rate(line.pace))?;
        }
        Ok(())
    }

    fn last_line(&mut self) -> Option<&mut Line> {
        self.speaking.and_then(|index| self.lines.get_mut(&index)).or(self.spare.as_mut())
    }

    /// Leaves the connections to the end of the process.
    ///
    /// Dropping a `Tts` unregisters its callbacks while the library's thread may still call them,
    /// and crate `tts` would then panic across a C frame, which aborts the process. Connections
    /// are given up once in a service's lifetime, so the leak is small.
    fn forget(self) {
        for line in self.lines.into_values().chain(self.spare) {
            mem::forget(line.tts);
        }
    }
}

/// A connection to the service, for one voice.
struct Line {
    tts: Tts,
    pace: Pace,
    silent: bool,
    tickets: Tickets,
    early: Early,
    reports: Sender<Input>,
    generation: Generation,
}

impl Line {
    fn open(generation: Generation, reports: &Sender<Input>) -> Result<Self, tts::Error> {
        let mut tts = Tts::new(Backends::SpeechDispatcher)?;
        tts.set_volume(VOLUME)?;
        let pace = Pace::default();
        tts.set_rate(rate(pace))?;
        let tickets = Tickets::default();
        let early = Early::default();
        let on = |fate: Fate| {
            let (tickets, early) = (Arc::clone(&tickets), Arc::clone(&early));
            let reports = reports.clone();
            Box::new(move |id: UtteranceId| {
                let UtteranceId::SpeechDispatcher(message) = id;
                let mut known = tickets.lock().unwrap_or_else(PoisonError::into_inner);
                if let Some(ticket) = known.remove(&message) {
                    // A voice that is gone needs no report.
                    let report = Input::Mouth(generation, fate.report(ticket));
                    reports.send(report).unwrap_or_default();
                } else {
                    let mut early = early.lock().unwrap_or_else(PoisonError::into_inner);
                    early.insert(message, fate);
                }
            })
        };
        tts.on_utterance_end(Some(on(Fate::Ended)))?;
        tts.on_utterance_stop(Some(on(Fate::Cut)))?;
        let reports = reports.clone();
        Ok(Self { tts, pace, silent: false, tickets, early, reports, generation })
    }

    fn speak(
        &mut self,
        ticket: Ticket,
        text: &str,
        pace: Pace,
        silent: bool,
    ) -> Result<(), tts::Error> {
        if self.pace != pace {
            self.tts.set_rate(rate(pace))?;
            self.pace = pace;
        }
        if self.silent != silent {
            self.tts.set_volume(if silent { SILENT } else { VOLUME })?;
            self.silent = silent;
        }
        let id = self.tts.speak(paced(text, pace), false)?;
        let Some(UtteranceId::SpeechDispatcher(message)) = id else {
            return Err(tts::Error::NoneError);
        };
        // Both locks are taken in the callbacks' order, so that an end is seen exactly once.
        let mut known = self.tickets.lock().unwrap_or_else(PoisonError::into_inner);
        let mut early = self.early.lock().unwrap_or_else(PoisonError::into_inner);
        let fate = early.remove(&message);
        early.clear();
        // Older messages were cut by this one, or lost; their reports are of no use.
        known.clear();
        if let Some(fate) = fate {
            let report = fate.report(ticket);
            self.reports.send(Input::Mouth(self.generation, report)).unwrap_or_default();
        } else {
            known.insert(message, ticket);
        }
        Ok(())
    }
}

/// The service's rate, −100 to 100, for a pace.
fn rate(pace: Pace) -> f32 {
    RATES.get(usize::from(pace.step())).copied().unwrap_or(0.0)
}

/// Rates by step, for the service's settings in `demo/speech-service`: espeak-ng's own words a
/// minute are 80 at −100, 170 at 0 and 449 at 100. Texts differ: at 110 of its own, nine English
/// texts of the station and the demo give 108 to 136 real words a minute, 121 on the average
/// (measured; between sentences the station adds some milliseconds); `tests/measured.rs` holds each step to a paragraph in the middle of them. It can't
/// speak slower than about 95, so the two slowest steps also get pauses
/// ([`crate::segment::paced`]).
const RATES: [f32; 7] = [-100.0, -100.0, -92.0, -65.0, -36.0, 1.0, 16.0];

/// The crate `tts` logs each text that it speaks at the level `trace`. This fails to compile if a build could ever write them.
const _: () = assert!(
    log::STATIC_MAX_LEVEL as usize <= log::LevelFilter::Info as usize,
    "spoken text could be logged"
);
