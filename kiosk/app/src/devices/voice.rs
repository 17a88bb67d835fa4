//! The headphones: turns what the visit wants said into finished segments, and the voice's events
//! into the visit's inputs.

use std::io;
use std::thread;

use crossbeam_channel::unbounded;
use evenhand_rules::Language;
use evenhand_speech::{
    Config, Loudness, Pace, Pause, Segment, Serial, StartError, Voice, VoiceEvent,
};
use evenhand_visit::{Comfort, LOUDNESS_STEPS, Phrase, Utterance};
use evenhand_words::{Heard, Words};

use super::{Report, Reports};

/// What a voice's event is to the visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Nothing.
    Nothing,
    /// The last words ended.
    Ended,
    /// There is no speech.
    Lost,
    /// There is speech again.
    Back,
}

/// The voice, with what it was told last.
#[derive(Debug)]
pub struct Speaker {
    voice: Voice,
    serial: Serial,
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
        headphones: Option<String>,
        reports: Reports,
    ) -> Result<Self, StartError> {
        let (events, received) = unbounded();
        let config = Config {
            languages: languages.iter().map(|language| language.tag().to_owned()).collect(),
            pace: Pace::default(),
            loudness: loudness(evenhand_visit::LOUDNESS_DEFAULT),
            sink: headphones,
        };
        let voice = Voice::start(config, events)?;
        forward(received, reports)?;
        Ok(Self {
            voice,
            serial: Serial(0),
            pace: evenhand_visit::PACE_DEFAULT,
            loudness: evenhand_visit::LOUDNESS_DEFAULT,
            is_lost: false,
        })
    }

    /// Says this in place of what is being said. False where the voice's thread is gone.
    #[must_use]
    pub fn say(&mut self, utterance: &Utterance, words: &Words, comfort: &Comfort) -> bool {
        self.serial = Serial(self.serial.0.saturating_add(1));
        self.voice.say(segments(utterance, words, *comfort), self.serial).is_ok()
    }

    /// Silence at once. False where the voice's thread is gone.
    #[must_use]
    pub fn hush(&self) -> bool {
        self.voice.stop().is_ok()
    }

    /// Takes over what the voter has set. False where the voice's thread is gone.
    #[must_use]
    pub fn set(&mut self, comfort: &Comfort) -> bool {
        let mut is_there = true;
        if comfort.pace != self.pace {
            self.pace = comfort.pace;
            is_there &= self.voice.set_pace(Pace::from_step(comfort.pace)).is_ok();
        }
        if comfort.loudness != self.loudness {
            self.loudness = comfort.loudness;
            is_there &= self.voice.set_loudness(loudness(comfort.loudness)).is_ok();
        }
        is_there
    }

    /// What an event is to the visit.
    pub fn meaning(&mut self, event: &VoiceEvent) -> Meaning {
        match event {
            VoiceEvent::Ended(serial) if *serial == self.serial => Meaning::Ended,
            VoiceEvent::Fault(_) | VoiceEvent::NoVoice { .. } => {
                self.is_lost = true;
                Meaning::Lost
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

/// The visit's steps as the voice's: the softest and the loudest are the same, and between them
/// steps are spread evenly where the two have not the same number.
fn loudness(step: u8) -> Loudness {
    let top = u16::from(Loudness::LOUDEST.step());
    let steps = u16::from(LOUDNESS_STEPS.saturating_sub(1)).max(1);
    let spread = u16::from(step).saturating_mul(top) / steps;
    Loudness::from_step(u8::try_from(spread).unwrap_or(u8::MAX))
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
/// where the visit asks for one.
fn segments(utterance: &Utterance, words: &Words, comfort: Comfort) -> Vec<Segment> {
    let mut segments = Vec::new();
    for part in &utterance.parts {
        for heard in heard(&part.phrase, words, comfort) {
            let text = if part.pause { heard.text } else { with_comma(heard.text) };
            let pause = if part.pause { Pause::Short } else { Pause::None };
            segments.push(Segment::new(text, heard.language.tag()).then(pause));
        }
    }
    segments
}

fn heard(phrase: &Phrase, words: &Words, comfort: Comfort) -> Vec<Heard> {
    words.heard(phrase, comfort.language)
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
    use super::*;

    #[test]
    fn phrases_of_a_sentence_are_kept_apart() {
        assert_eq!(with_comma("Maria Okafor".to_owned()), "Maria Okafor,");
        assert_eq!(with_comma("Chosen: 1. ".to_owned()), "Chosen: 1. ");
        assert_eq!(with_comma(String::new()), "");
    }

    #[test]
    fn the_ends_of_loudness_are_the_voices_ends() {
        assert_eq!(loudness(0), Loudness::SOFTEST);
        assert_eq!(loudness(LOUDNESS_STEPS - 1), Loudness::LOUDEST);
        let steps: Vec<_> = (0..LOUDNESS_STEPS).map(loudness).collect();
        assert!(steps.windows(2).all(|pair| pair[0] < pair[1]), "each step is louder");
    }
}
