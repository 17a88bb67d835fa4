//! The headphones: turns what the visit wants said into finished segments, and the voice's events
//! into the visit's inputs.

use std::io;
use std::thread;

use crossbeam_channel::unbounded;
use evenhand_rules::Language;
use evenhand_speech::{
    Config, Fault, Loudness, Pace, Pause, Recordings, Segment, Serial, StartError, Voice,
    VoiceEvent,
};
use evenhand_visit::{Comfort, Listen, Utterance};
use evenhand_words::Words;

use super::{Report, Reports};
use crate::recorded::Recorded;

/// What a voice's event is to the visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Nothing.
    Nothing,
    /// The last words ended.
    Ended,
    /// There is no speech: why, or none where the language has no voice.
    Lost(Option<Fault>),
    /// There is speech again.
    Back,
}

/// The voice, with what it was told last.
#[derive(Debug)]
pub struct Speaker {
    voice: Voice,
    recordings: Recordings,
    /// The last number that was given to words.
    last: Serial,
    /// The words whose end is waited for.
    serial: Serial,
    /// The words that the voter can go back and forth in.
    listened: Serial,
    pace: u8,
    loudness: u8,
    is_lost: bool,
}

impl Speaker {
    /// Starts the voice; it warms up on its own thread.
    ///
    /// # Errors
    /// The system refuses a thread. A missing speech service is a report, not an error.
    pub fn start(
        languages: &[Language],
        recorded: &Recorded,
        headphones: Option<String>,
        reports: Reports,
    ) -> Result<Self, StartError> {
        let (events, received) = unbounded();
        let config = Config {
            languages: languages.iter().map(|language| language.tag().to_owned()).collect(),
            pace: Pace::default(),
            loudness: Loudness::from_step(evenhand_visit::LOUDNESS_DEFAULT),
            sink: headphones,
            recordings: recorded.for_voice(),
        };
        let recordings = config.recordings.clone();
        let voice = Voice::start(config, events)?;
        forward(received, reports)?;
        Ok(Self {
            voice,
            recordings,
            last: Serial(0),
            serial: Serial(0),
            listened: Serial(0),
            pace: evenhand_visit::PACE_DEFAULT,
            loudness: evenhand_visit::LOUDNESS_DEFAULT,
            is_lost: false,
        })
    }

    /// Says this in place of what is being said. False where the voice's thread is gone.
    #[must_use]
    pub fn say(&mut self, utterance: &Utterance, words: &Words, comfort: Comfort) -> bool {
        self.last = Serial(self.last.0.saturating_add(1));
        self.serial = self.last;
        let segments = segments(utterance, words, comfort, &self.recordings);
        if utterance.is_aside {
            return self.voice.say_aside(segments, self.serial).is_ok();
        }
        self.listened = self.serial;
        self.voice.say(segments, self.serial).is_ok()
    }

    /// Goes on with what was said last. False where the voice's thread is gone.
    #[must_use]
    pub fn listen(&mut self, listen: Listen) -> bool {
        // What ends now is what was said before any asides.
        self.serial = self.listened;
        let sent = match listen {
            Listen::Pause => self.voice.pause(),
            Listen::GoOn => self.voice.go_on(),
            Listen::Back => self.voice.sentence_back(),
            Listen::On => self.voice.sentence_on(),
        };
        sent.is_ok()
    }

    /// Silence at once. False where the voice's thread is gone.
    #[must_use]
    pub fn hush(&self) -> bool {
        self.voice.stop().is_ok()
    }

    /// Takes over what the voter has set. False where the voice's thread is gone.
    #[must_use]
    pub fn set(&mut self, comfort: Comfort) -> bool {
        let mut is_there = true;
        if comfort.pace != self.pace {
            self.pace = comfort.pace;
            is_there &= self.voice.set_pace(Pace::from_step(comfort.pace)).is_ok();
        }
        if comfort.loudness != self.loudness {
            self.loudness = comfort.loudness;
            is_there &= self.voice.set_loudness(Loudness::from_step(comfort.loudness)).is_ok();
        }
        is_there
    }

    /// What an event is to the visit.
    pub fn meaning(&mut self, event: &VoiceEvent) -> Meaning {
        match event {
            VoiceEvent::Ended(serial) if *serial == self.serial => Meaning::Ended,
            // A text that is missing among recordings is answered by the tone: the next one may well
            // be heard, and the station said at its start what is missing.
            VoiceEvent::NoVoice { language } if self.recordings.has_language(language) => {
                Meaning::Nothing
            }
            VoiceEvent::Fault(fault) => {
                self.is_lost = true;
                Meaning::Lost(Some(*fault))
            }
            VoiceEvent::NoVoice { .. } => {
                self.is_lost = true;
                Meaning::Lost(None)
            }
            VoiceEvent::Restored if self.is_lost => {
                self.is_lost = false;
                Meaning::Back
            }
            // The voice sounds the tone by itself; where even that is unheard, the screen has
            // said so since the fault.
            VoiceEvent::Ended(_)
            | VoiceEvent::Ready { .. }
            | VoiceEvent::Restored
            | VoiceEvent::Tone(_) => Meaning::Nothing,
        }
    }
}

/// A thread that hands the voice's events on.
fn forward(received: crossbeam_channel::Receiver<VoiceEvent>, reports: Reports) -> io::Result<()> {
    thread::Builder::new().name("voice-reports".to_owned()).spawn(move || {
        for event in received {
            if reports.unbounded_send(Report::Voice(event)).is_err() {
                return;
            }
        }
    })?;
    Ok(())
}

/// The words of an utterance: phrases that belong together are one sentence, and a pause follows
/// where the visit asks for one. Languages with recordings get the parts of each phrase, too.
fn segments(
    utterance: &Utterance,
    words: &Words,
    comfort: Comfort,
    recordings: &Recordings,
) -> Vec<Segment> {
    let mut segments = Vec::new();
    for part in &utterance.parts {
        for heard in words.heard(&part.phrase, comfort.language) {
            let text = if part.pause { heard.text } else { with_comma(heard.text) };
            let pause = if part.pause { Pause::Short } else { Pause::None };
            let tag = heard.language.tag();
            let parts = if recordings.has_language(tag) {
                words.heard_in_parts(&part.phrase, comfort.language)
            } else {
                Vec::new()
            };
            segments.push(Segment::new(text, tag).in_parts(parts).then(pause));
        }
    }
    segments
}

/// A voice runs two phrases together unless a sign stands between them.
fn with_comma(mut text: String) -> String {
    if text.trim_end().ends_with(char::is_alphanumeric) {
        text.truncate(text.trim_end().len());
        text.push(',');
    }
    text
}

#[cfg(test)]
mod tests {
    use evenhand_visit::{LOUDNESS_DEFAULT, LOUDNESS_STEPS, PACE_DEFAULT, PACE_STEPS};

    use super::*;

    #[test]
    fn phrases_of_a_sentence_are_kept_apart() {
        assert_eq!(with_comma("Maria Okafor".to_owned()), "Maria Okafor,");
        assert_eq!(with_comma("Chosen: 1. ".to_owned()), "Chosen: 1. ");
        assert_eq!(with_comma(String::new()), "");
    }

    #[test]
    fn the_visits_steps_are_the_voices_steps() {
        assert_eq!(LOUDNESS_STEPS - 1, Loudness::LOUDEST.step());
        assert_eq!(LOUDNESS_DEFAULT, Loudness::default().step());
        assert_eq!(PACE_STEPS - 1, Pace::FASTEST.step());
        assert_eq!(PACE_DEFAULT, Pace::default().step());
    }
}
