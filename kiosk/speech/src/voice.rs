//! The handle that the app holds, and the thread that carries out what the conductor decides.

use std::fmt;
use std::thread;
use std::time::{Duration, Instant};

use crossbeam_channel::{Receiver, Sender, bounded, never, unbounded};
use thiserror::Error;

use crate::conductor::{Action, Conductor, Generation, Input, Listening, Report};
use crate::fault::{Fault, ToneOutcome};
use crate::mouth::{self, Request};
use crate::player;
use crate::recorded::Recordings;
use crate::segment::{Segment, Serial};
use crate::settings::{Loudness, Pace};
use crate::{sink, tone};

/// How long the end of a voice waits for silence, so that a process doesn't leave words behind.
const SILENCE_MAX: Duration = Duration::from_millis(500);

/// What a voice needs to know at the start.
#[derive(Clone, Debug, Default)]
pub struct Config {
    /// The languages to warm, as BCP 47 tags, so that the first words in each come fast.
    pub languages: Vec<String>,
    /// The pace to begin with.
    pub pace: Pace,
    /// The loudness to begin with.
    pub loudness: Loudness,
    /// The sound server's name of the headphones' output; none for its default. The speech
    /// service must use the same (environment variable `PULSE_SINK` in its own environment).
    pub sink: Option<String>,
    /// What is played in place of the synthetic voice. The pace doesn't change it.
    pub recordings: Recordings,
}

/// What a voice tells the app.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum VoiceEvent {
    /// The first sound ended: speech works. Sent once, unless the start failed.
    Ready {
        /// The service's languages, as it names them.
        languages: Vec<String>,
    },
    /// The sound of this utterance's last sentence ended. Utterances that were cut get no such
    /// event, one that is paused gets it once it went on to its end, and one whose last sentence
    /// is asked for again gets it again.
    Ended(Serial),
    /// Speech can't be had. The voice keeps trying; a tone is played now and instead of every
    /// utterance, and its outcome follows as [`VoiceEvent::Tone`].
    Fault(Fault),
    /// Speech works after a fault; the latest utterance that hasn't ended is said again.
    Restored,
    /// What became of the tone. [`ToneOutcome::Unheard`] means that only the screen can tell.
    Tone(ToneOutcome),
    /// No voice speaks this language; its segments are skipped and the tone is played.
    NoVoice {
        /// The language asked for, as a BCP 47 tag.
        language: String,
    },
}

/// The voice in the headphones. Dropping it silences it.
pub struct Voice {
    inputs: Sender<Wire>,
}

/// The voice couldn't be started.
#[derive(Debug, Error)]
#[error("the system refuses another thread: {0}")]
pub struct StartError(#[from] std::io::Error);

/// The voice's thread has ended; that is a defect, and the app must treat it as a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("the voice's thread has ended")]
pub struct VoiceGone;

impl Voice {
    /// Starts the voice; [`VoiceEvent::Ready`] or [`VoiceEvent::Fault`] follows within seconds.
    ///
    /// Utterances may be given at once: they wait until the voices are warm. `events` should be
    /// unbounded: a full channel would stop the voice.
    ///
    /// # Errors
    /// The system refuses another thread. A missing speech service is an event, not an error.
    pub fn start(config: Config, events: Sender<VoiceEvent>) -> Result<Self, StartError> {
        let (inputs, inbox) = unbounded();
        let (reports, reported) = unbounded();
        let gains = sink::watch(config.sink.clone(), config.loudness, reports.clone())?;
        let player = player::start(config.sink.clone(), reports.clone())?;
        let sink = config.sink.clone();
        let runner = Runner { events, reports, gains, player, mouth: None, sink };
        thread::Builder::new()
            .name("voice".to_owned())
            .spawn(move || runner.run(config, &inbox, &reported))?;
        Ok(Self { inputs })
    }

    /// Says the segments in order, each in its language's voice, cutting what is being said. They
    /// are kept until other words are said, so that a sentence can be heard again.
    ///
    /// [`VoiceEvent::Ended`] with this serial follows when the sound has ended, unless other words
    /// or [`Voice::stop`] cut it.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn say(&self, segments: Vec<Segment>, serial: Serial) -> Result<(), VoiceGone> {
        self.send(Input::Say(segments, serial))
    }

    /// Says the segments like [`Voice::say`], and keeps what was said before: the commands for
    /// listening go on with that.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn say_aside(&self, segments: Vec<Segment>, serial: Serial) -> Result<(), VoiceGone> {
        self.send(Input::Aside(segments, serial))
    }

    /// Silence, at once; what was being said is forgotten.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn stop(&self) -> Result<(), VoiceGone> {
        self.send(Input::Stop)
    }

    /// Silence, as soon as [`Voice::stop`] would give it; the sentence that sounded is remembered,
    /// and nothing is told as ended. Nothing where nothing is being said.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn pause(&self) -> Result<(), VoiceGone> {
        self.send(Input::Listen(Listening::Pause))
    }

    /// Goes on after [`Voice::pause`], from the beginning of the sentence that was cut by it.
    /// Nothing where nothing is paused.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn go_on(&self) -> Result<(), VoiceGone> {
        self.send(Input::Listen(Listening::GoOn))
    }

    /// Says the sentence before the one that is being said, paused at, or was said last, and goes
    /// on from there; the first one is said again. After the end of all: the last one.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn sentence_back(&self) -> Result<(), VoiceGone> {
        self.send(Input::Listen(Listening::SentenceBack))
    }

    /// Says the sentence after the one that is being said or paused at, and goes on from there;
    /// the last one is said again.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn sentence_on(&self) -> Result<(), VoiceGone> {
        self.send(Input::Listen(Listening::SentenceOn))
    }

    /// Sets how fast the next sentences are said; what is sounding goes on as it is.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn set_pace(&self, pace: Pace) -> Result<(), VoiceGone> {
        self.send(Input::SetPace(pace))
    }

    /// Sets how loud the headphones are, at once.
    ///
    /// # Errors
    /// The voice's thread has ended.
    pub fn set_loudness(&self, loudness: Loudness) -> Result<(), VoiceGone> {
        self.send(Input::SetLoudness(loudness))
    }

    fn send(&self, input: Input) -> Result<(), VoiceGone> {
        self.inputs.send(Wire::Input(input)).map_err(|_| VoiceGone)
    }
}

impl fmt::Debug for Voice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Voice")
    }
}

impl Drop for Voice {
    fn drop(&mut self) {
        let (done, wait) = bounded(1);
        if self.inputs.send(Wire::Finish(done)).is_ok() {
            // Late silence is no reason to hold up the end of a visit for longer.
            wait.recv_timeout(SILENCE_MAX).unwrap_or_default();
        }
    }
}

/// From the handle to the thread.
enum Wire {
    Input(Input),
    Finish(Sender<()>),
}

/// Carries out actions.
struct Runner {
    events: Sender<VoiceEvent>,
    reports: Sender<Input>,
    gains: Sender<Loudness>,
    player: Sender<player::Request>,
    mouth: Option<Sender<Request>>,
    sink: Option<String>,
}

/// The app, or a thread of our own, is gone.
struct Gone;

impl Runner {
    fn run(mut self, config: Config, inbox: &Receiver<Wire>, reported: &Receiver<Input>) {
        let start = Instant::now();
        let mut actions = Vec::new();
        let Config { languages, recordings, pace, .. } = config;
        let mut conductor =
            Conductor::new(languages, recordings, pace, start.elapsed(), &mut actions);
        loop {
            for action in actions.drain(..) {
                if self.perform(action).is_err() {
                    return;
                }
            }
            let timer = conductor.deadline().map_or_else(never, |at| {
                crossbeam_channel::after(at.saturating_sub(start.elapsed()))
            });
            let input = crossbeam_channel::select_biased! {
                recv(inbox) -> wire => match wire {
                    Ok(Wire::Input(input)) => input,
                    Ok(Wire::Finish(done)) => return self.finish(done),
                    Err(_) => return,
                },
                recv(reported) -> report => report.unwrap_or(Input::Tick),
                recv(timer) -> _ => Input::Tick,
            };
            conductor.handle(start.elapsed(), input, &mut actions);
        }
    }

    fn perform(&mut self, action: Action) -> Result<(), Gone> {
        match action {
            Action::Open(generation) => self.open(generation),
            Action::Close => {
                self.mouth = None;
                Ok(())
            }
            Action::Speak { ticket, segment, pace, silent, cut } => {
                self.ask(Request::Speak { ticket, segment, pace, silent, cut });
                Ok(())
            }
            Action::Hush => {
                self.ask(Request::Hush);
                Ok(())
            }
            Action::Play { ticket, recording } => {
                self.player.send(player::Request::Play(ticket, recording)).map_err(|_| Gone)
            }
            Action::Halt => self.player.send(player::Request::Halt).map_err(|_| Gone),
            Action::Check => {
                self.ask(Request::Check);
                Ok(())
            }
            Action::Gain(loudness) => self.gains.send(loudness).map_err(|_| Gone),
            Action::Tone => self.tone(),
            Action::Tell(event) => self.events.send(event).map_err(|_| Gone),
        }
    }

    fn open(&mut self, generation: Generation) -> Result<(), Gone> {
        if let Ok(requests) = mouth::open(generation, self.reports.clone()) {
            self.mouth = Some(requests);
            return Ok(());
        }
        let report = Input::Mouth(generation, Report::CannotOpen(Fault::NoService));
        self.reports.send(report).map_err(|_| Gone)
    }

    /// A connection whose thread has ended reported why, so a refused request is no news.
    fn ask(&self, request: Request) {
        if let Some(mouth) = &self.mouth {
            mouth.send(request).unwrap_or_default();
        }
    }

    fn tone(&self) -> Result<(), Gone> {
        let (reports, sink) = (self.reports.clone(), self.sink.clone());
        let played = thread::Builder::new().name("tone".to_owned()).spawn(move || {
            reports.send(Input::Tone(tone::play(sink.as_deref()))).unwrap_or_default();
        });
        match played {
            Ok(_) => Ok(()),
            Err(_) => self.reports.send(Input::Tone(ToneOutcome::Unheard)).map_err(|_| Gone),
        }
    }

    fn finish(self, done: Sender<()>) {
        // The player falls silent with its sender, which goes at the end of this.
        if let Some(mouth) = self.mouth {
            mouth.send(Request::Finish(done)).unwrap_or_default();
        }
    }
}
