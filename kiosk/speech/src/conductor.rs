//! Every decision of the voice, without I/O: inputs and the time in, actions out.
//!
//! Invariant: what was asked for is either sounding, waiting for a service that is being brought
//! up, or answered by a fault and a tone; it is never silently forgotten. At most one piece of
//! text is with the speech service at a time, so that an end can't be mistaken for another's.
//! It must not know threads, the speech service's protocol or the sound server.

use std::collections::VecDeque;
use std::time::Duration;

use crate::fault::{Fault, ToneOutcome};
use crate::recorded::{Recording, Recordings};
use crate::segment::{Segment, Serial, ready};
use crate::settings::{Loudness, Pace};
use crate::utterance::{Phase, Utterance};
use crate::voice::VoiceEvent;

/// The service must take a piece of text, or answer a check, within this. It takes a few
/// milliseconds; a loaded machine may need some hundred (measured, see `benches/latency.rs`).
const ANSWER_MAX: Duration = Duration::from_secs(2);
/// Connecting and listing voices must be done within this (1.4 s with every variant installed).
const OPEN_MAX: Duration = Duration::from_secs(4);
/// A silent warm-up word ends within this or nobody would hear speech (0.9 s when cold).
const WARM_UP_MAX: Duration = Duration::from_secs(3);
/// How often a connected service is asked whether it lives.
const CHECK_EVERY: Duration = Duration::from_secs(1);
/// A tone ends within this or counts as unheard.
const TONE_MAX: Duration = Duration::from_secs(2);
/// First wait before the next try; doubled up to [`RETRY_MAX`].
const RETRY_MIN: Duration = Duration::from_millis(250);
/// A recording's end must come within this: the longest one (120 s, see the limits in
/// `definitions`) and some. A sound server that dies is noticed by other ways within a second.
const RECORDING_MAX: Duration = Duration::from_secs(125);
/// Longest wait between tries.
const RETRY_MAX: Duration = Duration::from_secs(4);
/// A service that hangs costs a thread a try; after this many it is left to the next process.
const HUNG_MAX: u32 = 16;

/// Which connection to the service a report belongs to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Generation(pub(crate) u32);

/// Which request for speech a report belongs to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Ticket(pub(crate) u64);

/// What happens to the conductor.
pub(crate) enum Input {
    /// The app wants this said now.
    Say(Vec<Segment>, Serial),
    /// The app wants this said now, and to be able to go on after it with what was said before.
    Aside(Vec<Segment>, Serial),
    /// The app wants silence.
    Stop,
    /// The app wants the words said last otherwise.
    Listen(Listening),
    /// The app changed the pace, for what is said next.
    SetPace(Pace),
    /// The app changed the loudness, at once.
    SetLoudness(Loudness),
    /// The connection of this generation reports.
    Mouth(Generation, Report),
    /// The player of recordings reports.
    Player(Played),
    /// The headphones' output is there.
    SoundFound,
    /// The headphones' output or the sound server is gone.
    SoundLost,
    /// A tone was played, or not.
    Tone(ToneOutcome),
    /// Nothing but time passed.
    Tick,
}

/// What a voter asks of the words said last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Listening {
    /// Silence, until they are asked for again.
    Pause,
    /// Say the sentence again at which they were paused, and go on.
    GoOn,
    /// Say the sentence before, and go on.
    SentenceBack,
    /// Say the sentence after, and go on.
    SentenceOn,
}

/// What a connection reports.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Report {
    /// Connected; the languages of its voices.
    Open(Vec<String>),
    /// Couldn't connect.
    CannotOpen(Fault),
    /// The text of this ticket is with the service.
    Accepted(Ticket),
    /// No voice speaks the language of this ticket.
    NoVoice(Ticket),
    /// The sound of this ticket ended.
    Ended(Ticket),
    /// The service dropped this ticket's text.
    Cut(Ticket),
    /// It lives.
    Alive,
    /// The connection is dead.
    Lost,
}

/// What the player of recordings reports.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Played {
    /// The recording of this ticket begins to sound.
    Begun(Ticket),
    /// It sounded to its end.
    Ended(Ticket),
    /// It can't be opened, decoded or played.
    Failed(Ticket),
}

/// What is to be done.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Action {
    /// Connect to the speech service.
    Open(Generation),
    /// Forget the connection, if any.
    Close,
    /// Hand this text to the service, cutting what it says.
    Speak { ticket: Ticket, segment: Segment, pace: Pace, silent: bool, cut: bool },
    /// Silence of the voice.
    Hush,
    /// Play this, cutting what is being played.
    Play { ticket: Ticket, recording: Recording },
    /// Silence of the player.
    Halt,
    /// Ask whether the connection lives.
    Check,
    /// Set the gain of the headphones' output.
    Gain(Loudness),
    /// Play the stored tone.
    Tone,
    /// Tell the app.
    Tell(VoiceEvent),
}

/// See the module's documentation.
pub(crate) struct Conductor {
    service: Service,
    generation: Generation,
    tickets: Ticket,
    languages: Vec<String>,
    warm_languages: Vec<String>,
    recordings: Recordings,
    utterance: Option<Utterance>,
    /// What was being said before an aside: where listening goes on.
    kept: Option<Utterance>,
    /// The language that the app was told has no voice, while this utterance is said.
    unvoiced: Option<String>,
    pace: Pace,
    sound_lost: bool,
    told: Told,
    check: Check,
    tone_until: Option<Duration>,
    retry_after: Duration,
    hung: u32,
}

/// What the app was told last about the service.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Told {
    /// Nothing yet.
    Nothing,
    /// That it can hear speech.
    Well,
    /// That it can't.
    Fault,
}

/// The state of the way to the headphones.
enum Service {
    /// Connecting.
    Opening { until: Duration },
    /// Saying a silent word in each language, to warm the voices and to see sound end.
    Warming { left: VecDeque<String>, ticket: Ticket, until: Duration },
    /// Sound ends: speech works.
    Up,
    /// Connected but unheard; warmed again at this time.
    Muted { retry: Duration },
    /// Not connected; tried again at this time, or never.
    Down { retry: Option<Duration> },
}

/// Who makes the sound of a piece.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Holder {
    Service,
    Player,
}

impl Holder {
    /// What silences it.
    fn silence(self) -> Action {
        match self {
            Self::Service => Action::Hush,
            Self::Player => Action::Halt,
        }
    }
}

/// The check of an idle or speaking connection.
enum Check {
    At(Duration),
    Due(Duration),
}

impl Conductor {
    /// A conductor that will warm a voice in each of these languages; the first action is to open.
    pub(crate) fn new(
        warm_languages: Vec<String>,
        recordings: Recordings,
        pace: Pace,
        now: Duration,
        out: &mut Vec<Action>,
    ) -> Self {
        let mut new = Self {
            service: Service::Down { retry: None },
            generation: Generation(0),
            tickets: Ticket(0),
            languages: Vec::new(),
            warm_languages,
            recordings,
            utterance: None,
            kept: None,
            unvoiced: None,
            pace,
            sound_lost: false,
            told: Told::Nothing,
            check: Check::At(now + CHECK_EVERY),
            tone_until: None,
            retry_after: RETRY_MIN,
            hung: 0,
        };
        new.open(now, out);
        new
    }

    /// Takes one input; afterwards looks at what is overdue.
    pub(crate) fn handle(&mut self, now: Duration, input: Input, out: &mut Vec<Action>) {
        match input {
            Input::Say(segments, serial) => {
                let cut = self.holder();
                self.kept = None;
                self.say(now, (segments, serial), cut, out);
            }
            Input::Aside(segments, serial) => {
                let cut = self.holder();
                if self.kept.is_none() {
                    self.kept = self.utterance.take();
                    self.kept.iter_mut().for_each(Utterance::pause);
                }
                self.say(now, (segments, serial), cut, out);
            }
            Input::Stop => self.stop(out),
            Input::Listen(listening) => self.listen(now, listening, out),
            Input::SetPace(pace) => self.pace = pace,
            Input::SetLoudness(loudness) => out.push(Action::Gain(loudness)),
            Input::Mouth(generation, report) if generation == self.generation => {
                self.report(now, report, out);
            }
            Input::Mouth(..) | Input::Tick => {}
            Input::Player(played) => self.played(now, played, out),
            Input::SoundFound => self.sound_found(now, out),
            Input::SoundLost => {
                self.sound_lost = true;
                self.mute(now, Fault::NoSound, out);
            }
            Input::Tone(outcome) => self.tone_ended(outcome, out),
        }
        self.overdue(now, out);
    }

    /// When [`Input::Tick`] is due, if nothing else happens.
    pub(crate) fn deadline(&self) -> Option<Duration> {
        let service = match &self.service {
            Service::Opening { until } | Service::Warming { until, .. } => Some(*until),
            Service::Up => Some(match self.check {
                Check::At(at) | Check::Due(at) => at,
            }),
            Service::Muted { retry } => (!self.sound_lost).then_some(*retry),
            Service::Down { retry } => *retry,
        };
        let utterance = self.utterance.as_ref().and_then(Utterance::deadline);
        [service, utterance, self.tone_until].into_iter().flatten().min()
    }

    fn say(
        &mut self,
        now: Duration,
        (segments, serial): (Vec<Segment>, Serial),
        cut: Option<Holder>,
        out: &mut Vec<Action>,
    ) {
        let Some(utterance) = Utterance::new(ready(segments, &self.recordings), serial) else {
            out.extend(cut.map(Holder::silence));
            self.utterance = None;
            out.push(Action::Tell(VoiceEvent::Ended(serial)));
            return;
        };
        self.utterance = Some(utterance);
        self.unvoiced = None;
        self.begin(now, cut, out);
    }

    /// Says what waits, as soon as there is speech.
    fn begin(&mut self, now: Duration, cut: Option<Holder>, out: &mut Vec<Action>) {
        match self.service {
            Service::Up => self.speak_next(now, cut, out),
            Service::Opening { .. } | Service::Warming { .. } if self.told != Told::Fault => {}
            Service::Opening { .. }
            | Service::Warming { .. }
            | Service::Muted { .. }
            | Service::Down { .. } => self.tone(now, out),
        }
    }

    fn stop(&mut self, out: &mut Vec<Action>) {
        out.extend(self.holder().map(Holder::silence));
        self.utterance = None;
        self.kept = None;
    }

    /// Pauses, goes on or moves by sentences; with nothing said yet there is nothing to do.
    fn listen(&mut self, now: Duration, listening: Listening, out: &mut Vec<Action>) {
        let cut = self.holder();
        if let Some(kept) = self.kept.take() {
            // The aside has been heard, or is cut.
            self.utterance = Some(kept);
            if listening == Listening::GoOn {
                out.extend(cut.map(Holder::silence));
            }
        }
        let Some(utterance) = &mut self.utterance else { return };
        match listening {
            Listening::Pause => {
                utterance.pause();
                out.extend(cut.map(Holder::silence));
                return;
            }
            Listening::GoOn if utterance.phase == Phase::Paused => utterance.phase = Phase::Waiting,
            Listening::GoOn => return,
            Listening::SentenceBack => utterance.move_back(),
            Listening::SentenceOn => utterance.move_on(),
        }
        self.begin(now, cut, out);
    }

    /// Who has a piece of the utterance, if anyone.
    fn holder(&self) -> Option<Holder> {
        let utterance = self.utterance.as_ref()?;
        utterance.ticket()?;
        Some(if utterance.is_recorded() { Holder::Player } else { Holder::Service })
    }

    /// Hands out the piece that is next; `cut` still sounds and must not.
    fn speak_next(&mut self, now: Duration, cut: Option<Holder>, out: &mut Vec<Action>) {
        let Some(utterance) = &mut self.utterance else { return };
        let Some(piece) = utterance.piece().cloned() else {
            utterance.phase = Phase::Over;
            out.push(Action::Tell(VoiceEvent::Ended(utterance.serial)));
            return;
        };
        let ticket = Ticket(self.tickets.0 + 1);
        self.tickets = ticket;
        utterance.phase = Phase::Asked { ticket, until: now + ANSWER_MAX };
        let (segment, pace) = (piece.segment, self.pace);
        if let Some(recording) = piece.recording {
            // One recording cuts another by itself.
            out.extend(cut.filter(|holder| *holder == Holder::Service).map(Holder::silence));
            out.push(Action::Play { ticket, recording });
        } else {
            out.extend(cut.filter(|holder| *holder == Holder::Player).map(Holder::silence));
            let cut = cut == Some(Holder::Service);
            out.push(Action::Speak { ticket, segment, pace, silent: false, cut });
        }
    }

    /// The player's reports count while speech works and its ticket is the current one.
    fn played(&mut self, now: Duration, played: Played, out: &mut Vec<Action>) {
        let (Played::Begun(ticket) | Played::Ended(ticket) | Played::Failed(ticket)) = played;
        if self.current() != Some(ticket) || !matches!(self.service, Service::Up) {
            return;
        }
        match played {
            Played::Begun(_) => {
                if let Some(utterance) = &mut self.utterance {
                    utterance.phase = Phase::Sounding { ticket, until: now + RECORDING_MAX };
                }
            }
            Played::Ended(_) => self.advance(now, out),
            Played::Failed(_) => {
                if let Some(utterance) = &mut self.utterance {
                    utterance.drop_recording();
                }
                self.speak_next(now, None, out);
            }
        }
    }

    fn report(&mut self, now: Duration, report: Report, out: &mut Vec<Action>) {
        match report {
            Report::Open(languages) => {
                self.languages = languages;
                self.warm(now, out);
            }
            Report::CannotOpen(fault) => self.down(now, fault, out),
            Report::Accepted(ticket) => self.accepted(now, ticket),
            Report::NoVoice(ticket) => self.no_voice(now, ticket, out),
            Report::Ended(ticket) => self.ended(now, ticket, out),
            Report::Cut(ticket) => {
                if self.current() == Some(ticket) {
                    self.mute(now, Fault::NeverEnded, out);
                }
            }
            Report::Alive => self.check = Check::At(now + CHECK_EVERY),
            Report::Lost => self.down(now, Fault::ServiceDied, out),
        }
    }

    /// The ticket that the utterance or the warm-up waits for.
    fn current(&self) -> Option<Ticket> {
        if let Service::Warming { ticket, .. } = self.service {
            return Some(ticket);
        }
        self.utterance.as_ref().and_then(Utterance::ticket)
    }

    fn accepted(&mut self, now: Duration, accepted: Ticket) {
        let Some(utterance) = &mut self.utterance else { return };
        if let Phase::Asked { ticket, .. } = utterance.phase
            && ticket == accepted
        {
            let length = utterance.segment().map_or(Duration::ZERO, |s| length_max(s, self.pace));
            utterance.phase = Phase::Sounding { ticket, until: now + length };
        }
    }

    fn ended(&mut self, now: Duration, ended: Ticket, out: &mut Vec<Action>) {
        if self.current() != Some(ended) {
            return;
        }
        if matches!(self.service, Service::Warming { .. }) {
            self.warm_next(now, out);
        } else {
            self.advance(now, out);
        }
    }

    /// A piece is over: pause, then the one after it.
    fn advance(&mut self, now: Duration, out: &mut Vec<Action>) {
        let Some(utterance) = &mut self.utterance else { return };
        match utterance.pass() {
            None => self.speak_next(now, None, out),
            Some(pause) => utterance.phase = Phase::Pausing { until: now + pause },
        }
    }

    fn no_voice(&mut self, now: Duration, ticket: Ticket, out: &mut Vec<Action>) {
        if self.current() != Some(ticket) {
            return;
        }
        if matches!(self.service, Service::Warming { .. }) {
            self.warm_next(now, out);
            return;
        }
        let language = self
            .utterance
            .as_ref()
            .and_then(Utterance::segment)
            .map(|s| s.language.clone())
            .unwrap_or_default();
        if self.unvoiced.as_ref() != Some(&language) {
            self.unvoiced = Some(language.clone());
            out.push(Action::Tell(VoiceEvent::NoVoice { language }));
        }
        self.tone(now, out);
        self.advance(now, out);
    }

    fn open(&mut self, now: Duration, out: &mut Vec<Action>) {
        self.generation = Generation(self.generation.0 + 1);
        self.service = Service::Opening { until: now + OPEN_MAX };
        out.push(Action::Close);
        out.push(Action::Open(self.generation));
    }

    /// Warms every voice; what waits is said when the last has ended.
    fn warm(&mut self, now: Duration, out: &mut Vec<Action>) {
        if self.sound_lost {
            // Warmed when the sound is found again.
            self.service = Service::Muted { retry: now };
            return;
        }
        let mut left: VecDeque<String> = self.warm_languages.iter().cloned().collect();
        if left.is_empty() {
            left.push_back("en".to_owned());
        }
        self.service = Service::Warming { left, ticket: self.tickets, until: now };
        self.warm_next(now, out);
    }

    fn warm_next(&mut self, now: Duration, out: &mut Vec<Action>) {
        let Service::Warming { left, .. } = &mut self.service else { return };
        let Some(language) = left.pop_front() else {
            self.up(now, out);
            return;
        };
        let left = std::mem::take(left);
        let ticket = Ticket(self.tickets.0 + 1);
        self.tickets = ticket;
        self.service = Service::Warming { left, ticket, until: now + WARM_UP_MAX };
        let segment = Segment::new("a", language);
        out.push(Action::Speak { ticket, segment, pace: Pace::FASTEST, silent: true, cut: false });
    }

    fn up(&mut self, now: Duration, out: &mut Vec<Action>) {
        self.service = Service::Up;
        self.check = Check::At(now + CHECK_EVERY);
        self.retry_after = RETRY_MIN;
        self.hung = 0;
        match self.told {
            Told::Nothing => {
                let languages = self.languages.clone();
                out.push(Action::Tell(VoiceEvent::Ready { languages }));
            }
            Told::Fault => out.push(Action::Tell(VoiceEvent::Restored)),
            Told::Well => {}
        }
        self.told = Told::Well;
        if self.utterance.as_ref().is_some_and(|u| u.phase == Phase::Waiting) {
            self.speak_next(now, None, out);
        }
    }

    fn sound_found(&mut self, now: Duration, out: &mut Vec<Action>) {
        self.sound_lost = false;
        if matches!(self.service, Service::Muted { .. }) {
            self.warm(now, out);
        }
    }

    /// Connected, but what is said isn't heard.
    fn mute(&mut self, now: Duration, fault: Fault, out: &mut Vec<Action>) {
        self.tell_fault(now, fault, out);
        match self.service {
            Service::Up | Service::Warming { .. } | Service::Muted { .. } => {
                out.push(Action::Hush);
                self.service = Service::Muted { retry: now + self.retry_after };
                self.retry_after = (self.retry_after * 2).min(RETRY_MAX);
            }
            Service::Opening { .. } | Service::Down { .. } => {}
        }
    }

    /// Not connected any more.
    fn down(&mut self, now: Duration, fault: Fault, out: &mut Vec<Action>) {
        self.tell_fault(now, fault, out);
        out.push(Action::Close);
        self.generation = Generation(self.generation.0 + 1);
        let hung_too_often = fault == Fault::ServiceHung && {
            self.hung += 1;
            self.hung >= HUNG_MAX
        };
        let give_up = fault == Fault::NoAddress || hung_too_often;
        self.service =
            Service::Down { retry: if give_up { None } else { Some(now + self.retry_after) } };
        self.retry_after = (self.retry_after * 2).min(RETRY_MAX);
    }

    /// Tells the app once until speech is restored, and sounds the tone.
    fn tell_fault(&mut self, now: Duration, fault: Fault, out: &mut Vec<Action>) {
        if self.holder() == Some(Holder::Player) {
            out.push(Action::Halt);
        }
        if let Some(utterance) = &mut self.utterance {
            utterance.interrupt();
        }
        if self.told != Told::Fault {
            self.told = Told::Fault;
            out.push(Action::Tell(VoiceEvent::Fault(fault)));
            self.tone(now, out);
        }
    }

    fn tone(&mut self, now: Duration, out: &mut Vec<Action>) {
        if self.tone_until.is_none() {
            self.tone_until = Some(now + TONE_MAX);
            out.push(Action::Tone);
        }
    }

    fn tone_ended(&mut self, outcome: ToneOutcome, out: &mut Vec<Action>) {
        if self.tone_until.take().is_some() {
            out.push(Action::Tell(VoiceEvent::Tone(outcome)));
        }
    }

    fn overdue(&mut self, now: Duration, out: &mut Vec<Action>) {
        if self.tone_until.is_some_and(|until| now >= until) {
            self.tone_ended(ToneOutcome::Unheard, out);
        }
        match &self.service {
            Service::Opening { until } if now >= *until => {
                self.down(now, Fault::ServiceHung, out);
            }
            Service::Warming { until, .. } if now >= *until => {
                self.mute(now, Fault::NeverEnded, out);
            }
            Service::Muted { retry } if now >= *retry && !self.sound_lost => self.warm(now, out),
            Service::Down { retry: Some(retry) } if now >= *retry => self.open(now, out),
            Service::Up => self.overdue_speech(now, out),
            Service::Opening { .. }
            | Service::Warming { .. }
            | Service::Muted { .. }
            | Service::Down { .. } => {}
        }
    }

    fn overdue_speech(&mut self, now: Duration, out: &mut Vec<Action>) {
        match self.check {
            Check::At(at) if now >= at => {
                self.check = Check::Due(now + ANSWER_MAX);
                out.push(Action::Check);
            }
            Check::Due(until) if now >= until => {
                self.down(now, Fault::ServiceHung, out);
                return;
            }
            Check::At(_) | Check::Due(_) => {}
        }
        let Some(utterance) = &self.utterance else { return };
        match utterance.phase {
            // A player that hangs does so with the sound server; the service may well live.
            Phase::Asked { until, .. } if now >= until && utterance.is_recorded() => {
                self.mute(now, Fault::NeverEnded, out);
            }
            Phase::Asked { until, .. } if now >= until => self.down(now, Fault::ServiceHung, out),
            Phase::Sounding { until, .. } if now >= until => {
                self.mute(now, Fault::NeverEnded, out);
            }
            Phase::Pausing { until } if now >= until => self.speak_next(now, None, out),
            Phase::Waiting
            | Phase::Asked { .. }
            | Phase::Sounding { .. }
            | Phase::Pausing { .. }
            | Phase::Paused
            | Phase::Over => {}
        }
    }
}

/// The longest that a segment may sound: generous, because a false alarm cuts a voter off, while
/// a lost sound server or a dead service is noticed by other ways within a second.
///
/// At the default pace a letter of an alphabet takes about 0.08 s, a syllable sign about 0.3 s, a
/// digit up to 0.6 s ("1" within a large number). Twice that, and two seconds (measured, no source).
fn length_max(segment: &Segment, pace: Pace) -> Duration {
    let at_default: u64 = segment
        .text
        .chars()
        .map(|c| match c {
            '0'..='9' => 1_200,
            c if c.is_ascii_punctuation() => 400,
            c if c <= '\u{24F}' => 160,
            _ => 600,
        })
        .sum();
    let default = u64::from(Pace::default().words_a_minute());
    Duration::from_millis(2_000 + at_default * default / u64::from(pace.words_a_minute()))
}

#[cfg(test)]
#[path = "conductor_tests.rs"]
mod tests;
