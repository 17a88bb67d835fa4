//! Measured sound: whether each language is heard, how loud each step is, how fast each pace.
//!
//! The checks are functions over recorded samples (`support/measure.rs`), each with a test that it
//! refuses what it must; those run anywhere. The recordings are made where
//! `demo/speech-service start` prepared the environment; elsewhere each test says that it was
//! skipped. The figures go to the file that `EVENHAND_FIGURES` names (`tests/src/figures.rs`).
#![expect(clippy::disallowed_methods, reason = "the tests listen in real time, and read locales/")]
#![expect(clippy::expect_used, clippy::unwrap_used, reason = "a test's helpers fail the test")]
#![expect(clippy::print_stdout, reason = "a skipped test must say so")]
#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "counts of samples, and samples"
)]

#[expect(unreachable_pub, reason = "the tests over the whole use it too")]
#[path = "../../../tests/src/figures.rs"]
mod figures;
#[path = "support/measure.rs"]
mod measure;
#[path = "support/recording.rs"]
mod recording;
#[expect(dead_code, reason = "this test ends no daemon")]
#[path = "support/service.rs"]
mod service;

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread::sleep;
use std::time::Duration;

use crossbeam_channel::{Receiver, unbounded};
use evenhand_speech::{Config, Loudness, Pace, Recordings, Segment, Serial, Voice, VoiceEvent};
use figures::note;
use recording::Recording;

/// One service, one test at a time.
static SERVICE: Mutex<()> = Mutex::new(());

/// The languages of `locales/` that espeak-ng 1.51 speaks, and the two that it doesn't.
const SPOKEN: [&str; 8] = ["en", "es", "vi", "zh-Hant", "ko", "bn", "ar", "ru"];
const UNSPOKEN: [&str; 2] = ["fil", "km"];

/// What a listener hears at least of `languages-heading` at the fastest pace: every language says it
/// in a few words (own choice).
const SENTENCE_MIN: Duration = Duration::from_millis(400);
/// The paragraph whose words are counted: a question's short text of the demo. Of nine texts of
/// the station and the demo it is in the middle: at the default pace they have 108 to 136 words a
/// minute, by the length of their words and sentences.
const PARAGRAPH: &str = "If more than half of the votes are Yes, the mayor leaves office. The next \
                         contest then decides who takes her place.";
/// So far may a step be from what it aims at (own choice; the texts themselves differ by more).
const PACE_TOLERANCE: f64 = 0.1;
/// Sound comes out of the recorder so long after it was played at most.
const RECORDER_LATE: Duration = Duration::from_millis(300);

struct Rig {
    voice: Voice,
    events: Receiver<VoiceEvent>,
    recording: Recording,
    said: u64,
    _alone: MutexGuard<'static, ()>,
}

impl Rig {
    /// A voice that is ready and a recorder, or none when there is no service to test with.
    fn new(test: &str, languages: &[&str]) -> Option<Self> {
        if service::folder().is_none() {
            println!("skipped: {test} (no private speech service; see demo/speech-service)");
            return None;
        }
        let alone = SERVICE.lock().unwrap_or_else(PoisonError::into_inner);
        service::start();
        let (sender, events) = unbounded();
        let config = Config {
            languages: languages.iter().map(|&language| language.to_owned()).collect(),
            pace: Pace::default(),
            loudness: Loudness::default(),
            sink: Some("evenhand".to_owned()),
            recordings: Recordings::default(),
        };
        let voice = Voice::start(config, sender).unwrap();
        let ready = events.recv_timeout(Duration::from_secs(15)).expect("an event");
        assert!(matches!(ready, VoiceEvent::Ready { .. }), "{ready:?}");
        let recording = Recording::start().unwrap();
        Some(Self { voice, events, recording, said: 0, _alone: alone })
    }

    /// Says a text and gives back all that sounded.
    fn record(&mut self, text: &str, language: &str) -> Vec<f32> {
        self.said += 1;
        // The gain of the output, if it was set just now, is there by then.
        sleep(Duration::from_millis(100));
        self.recording.take();
        self.voice.say(vec![Segment::new(text, language)], Serial(self.said)).unwrap();
        let event = self.events.recv_timeout(Duration::from_mins(1)).expect("an event");
        assert_eq!(event, VoiceEvent::Ended(Serial(self.said)), "{language}");
        sleep(RECORDER_LATE);
        self.recording.take()
    }

    fn at(&mut self, loudness: Loudness, text: &str, language: &str) -> Vec<f32> {
        self.voice.set_loudness(loudness).unwrap();
        self.record(text, language)
    }
}

/// A message of a language, as `locales/` has it.
fn message(language: &str, id: &str) -> String {
    let path = format!("{}/../../locales/{language}/visit.ftl", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the language is there");
    let line = text.lines().find_map(|line| line.strip_prefix(id)?.strip_prefix(" = "));
    line.expect("the message is there, on one line").to_owned()
}

fn letters(text: &str) -> usize {
    text.chars().filter(|letter| letter.is_alphanumeric()).count()
}

/// Words can't be counted alike in all languages (Chinese writes none apart), so this tells letters
/// a minute, and holds them to nothing.
#[test]
fn every_language_is_heard_over_forty_decibels_without_clipping() {
    let name = "every_language_is_heard_over_forty_decibels_without_clipping";
    let Some(mut rig) = Rig::new(name, &SPOKEN) else { return };
    rig.voice.set_pace(Pace::FASTEST).unwrap();
    for language in SPOKEN {
        let text = message(language, "languages-heading");
        let softest = rig.at(Loudness::SOFTEST, &text, language);
        let usual = rig.at(Loudness::default(), &text, language);
        let loudest = rig.at(Loudness::LOUDEST, &text, language);
        let check =
            |what: Result<f64, String>| what.unwrap_or_else(|what| panic!("{language}: {what}"));
        check(measure::heard(&loudest, SENTENCE_MIN).map(|long| long.as_secs_f64()));
        let peak = 20.0 * check(measure::unclipped(&loudest).map(f64::from)).log10();
        let span = check(measure::span(&softest, &loudest));
        let below = measure::energy_db(&loudest) - measure::energy_db(&usual);
        assert!((29.5..=30.5).contains(&below), "{language}: the default is {below:.1} dB down");
        let rms = check(measure::rms_db(&loudest));
        let minute = check(measure::a_minute(&loudest, letters(&text)));
        println!(
            "{language}: peak {peak:.1} dB, RMS {rms:.1} dB, span {span:.1} dB, {minute:.0} letters a minute"
        );
        for (what, figure) in [
            ("peak at the loudest step, of full scale", format!("{peak:.1} dB")),
            ("RMS at the loudest step, of full scale", format!("{rms:.1} dB")),
            ("from the softest to the loudest step", format!("{span:.1} dB")),
            ("fastest pace", format!("{minute:.0} letters a minute")),
        ] {
            note(&format!("sound {language}: {what}"), &figure);
        }
    }
}

#[test]
fn every_loudness_step_is_at_most_ten_decibels() {
    let Some(mut rig) = Rig::new("every_loudness_step_is_at_most_ten_decibels", &["en"]) else {
        return;
    };
    rig.voice.set_pace(Pace::FASTEST).unwrap();
    let text = message("en", "languages-heading");
    let all = (0..=Loudness::LOUDEST.step()).map(Loudness::from_step);
    let recordings: Vec<Vec<f32>> = all.map(|loudness| rig.at(loudness, &text, "en")).collect();
    let steps = measure::ladder(&recordings).unwrap();
    println!("loudness steps: {steps:.2?} dB");
    let widest = steps.iter().copied().fold(0.0, f64::max);
    note("sound en: widest of the loudness steps", &format!("{widest:.2} dB"));
    note("sound en: loudness steps", &(steps.len() + 1).to_string());
}

#[test]
fn every_pace_is_as_fast_as_it_says() {
    let Some(mut rig) = Rig::new("every_pace_is_as_fast_as_it_says", &["en"]) else { return };
    rig.voice.set_loudness(Loudness::LOUDEST).unwrap();
    let mut figures = Vec::new();
    for step in 0..=Pace::FASTEST.step() {
        let pace = Pace::from_step(step);
        rig.voice.set_pace(pace).unwrap();
        let samples = rig.record(PARAGRAPH, "en");
        let minute = measure::a_minute(&samples, PARAGRAPH.split(' ').count()).unwrap();
        println!("pace {step}: {minute:.1} words a minute, aims at {}", pace.words_a_minute());
        note(&format!("sound en: pace step {step}"), &format!("{minute:.0} words a minute"));
        figures.push(minute);
    }
    measure::paces(&figures).unwrap();
    for (step, minute) in figures.iter().enumerate() {
        let aim = f64::from(Pace::from_step(u8::try_from(step).unwrap()).words_a_minute());
        let off = (minute / aim - 1.0).abs();
        assert!(off <= PACE_TOLERANCE, "step {step}: {minute:.1} for {aim}");
    }
}

#[test]
fn a_language_without_a_voice_says_so() {
    let Some(rig) = Rig::new("a_language_without_a_voice_says_so", &["en"]) else { return };
    for (serial, language) in (1..).zip(UNSPOKEN) {
        let text = message(language, "done-line");
        rig.voice.say(vec![Segment::new(text, language)], Serial(serial)).unwrap();
        let event = rig.events.recv_timeout(Duration::from_secs(5)).expect("an event");
        assert_eq!(event, VoiceEvent::NoVoice { language: language.to_owned() });
        let end = |event: &VoiceEvent| *event == VoiceEvent::Ended(Serial(serial));
        assert!(rig.events.iter().any(|event| end(&event)));
    }
}
