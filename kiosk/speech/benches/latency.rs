//! From `Voice::say` to the first audible sound of the new words, idle and while other words sound, and from
//! `Voice::stop` to silence, in each language of the demo.
//!
//! It needs a private service: `env=$(demo/speech-service start DIR) && eval "$env" &&
//! cargo bench -p evenhand-speech`. Times are those at which the recorder gave the samples out,
//! so they hold its buffer of about 3 ms, and the 16 ms in which an "s" swells.
#![expect(clippy::disallowed_methods, reason = "it measures real time")]
#![expect(clippy::print_stdout, reason = "its output is the report")]

#[path = "../tests/support/headphones.rs"]
mod headphones;

use std::error::Error;
use std::thread::sleep;
use std::time::{Duration, Instant};

use crossbeam_channel::{Receiver, unbounded};
use evenhand_speech::{Config, Loudness, Recordings, Segment, Serial, Voice, VoiceEvent};
use hdrhistogram::Histogram;
use headphones::Headphones;

/// Presses for each figure.
const PRESSES: u64 = 120;
/// Vowels without a gap or an "s", long enough to be cut.
const OLD: &str = "aeoaeuiaoeuiaoeuiaeoaeuiaoeuiaeoaeuiaoeuiaoeuiaeoaeuiaoeuia";
/// After a cut the service's stream keeps up to 10 ms of the old words and plays them before the
/// next: no new words, and too short to be understood. New words are told by their "s".
const LEFT_OVER: Duration = Duration::from_millis(60);
/// New words that begin with an "s", by which they are told from the old.
const WORDS: [(&str, [&str; 4]); 2] = [
    ("en", ["Susan Ellery, not chosen.", "Seven left.", "Sixteen of 18.", "Selected: Sam Reed."]),
    ("es", ["Susana Ortega, no elegida.", "Siete más.", "Son dieciséis.", "Se eligió a Samuel."]),
];

struct Bench {
    voice: Voice,
    events: Receiver<VoiceEvent>,
    headphones: Headphones,
    serial: u64,
}

fn main() -> Result<(), Box<dyn Error>> {
    if std::env::var_os("EVENHAND_SPEECH_TESTS").is_none() {
        println!("skipped: latency (no private speech service; see demo/speech-service)");
        return Ok(());
    }
    let (sender, events) = unbounded();
    let config = Config {
        languages: WORDS.iter().map(|(language, _)| (*language).to_owned()).collect(),
        loudness: Loudness::LOUDEST,
        sink: Some("evenhand".to_owned()),
        recordings: Recordings::default(),
        ..Config::default()
    };
    let start = Instant::now();
    let voice = Voice::start(config, sender)?;
    let event = events.recv_timeout(Duration::from_secs(10))?;
    if !matches!(event, VoiceEvent::Ready { .. }) {
        return Err(format!("{event:?} instead of a ready voice").into());
    }
    println!("start to both voices warm: {} ms", start.elapsed().as_millis());
    let headphones = Headphones::put_on()?;
    let mut bench = Bench { voice, events, headphones, serial: 0 };
    println!("{:<34} {:>7} {:>7} {:>7} {:>7}  ms", "", "p50", "p95", "p99", "max");
    for (language, words) in WORDS {
        let mut idle = Histogram::new(3)?;
        let mut cutting = Histogram::new(3)?;
        let mut silent = Histogram::new(3)?;
        for press in 0..PRESSES {
            let text = words[usize::try_from(press % 4)?];
            let phase = Duration::from_millis(press * 7 % 60);
            idle.record(bench.idle(text, language)?)?;
            cutting.record(bench.cutting(text, language, phase)?)?;
            silent.record(bench.silent(language, phase)?)?;
        }
        report(&format!("{language}: say to sound, idle"), &idle);
        report(&format!("{language}: say to new words, cutting"), &cutting);
        report(&format!("{language}: stop to silence"), &silent);
    }
    Ok(())
}

fn report(name: &str, times: &Histogram<u64>) {
    // Recorded in microseconds.
    let ms = |micros: u64| format!("{}.{}", micros / 1_000, micros % 1_000 / 100);
    println!(
        "{name:<34} {:>7} {:>7} {:>7} {:>7}  ({} presses)",
        ms(times.value_at_quantile(0.5)),
        ms(times.value_at_quantile(0.95)),
        ms(times.value_at_quantile(0.99)),
        ms(times.max()),
        times.len()
    );
}

impl Bench {
    fn say(&mut self, text: &str, language: &str) -> Result<Instant, Box<dyn Error>> {
        self.serial += 1;
        let start = Instant::now();
        self.voice.say(vec![Segment::new(text, language)], Serial(self.serial))?;
        Ok(start)
    }

    fn quiet(&mut self) -> Result<(), Box<dyn Error>> {
        self.voice.stop()?;
        sleep(Duration::from_millis(250));
        if let Some(event) = self.events.try_iter().next() {
            return Err(format!("{event:?} in the middle of the measurement").into());
        }
        self.headphones.forget();
        Ok(())
    }

    /// Waits for what `find` looks for; the time from `start` in microseconds.
    fn heard(
        &self,
        start: Instant,
        find: impl Fn(&Headphones) -> Option<Instant>,
    ) -> Result<u64, Box<dyn Error>> {
        while start.elapsed() < Duration::from_secs(2) {
            if let Some(at) = find(&self.headphones) {
                return Ok(u64::try_from((at - start).as_micros())?);
            }
            sleep(Duration::from_millis(4));
        }
        Err("nothing heard within two seconds".into())
    }

    fn idle(&mut self, text: &str, language: &str) -> Result<u64, Box<dyn Error>> {
        self.quiet()?;
        let start = self.say(text, language)?;
        self.heard(start, |headphones| headphones.hiss(start))
    }

    /// Begins the old words. What is left over of earlier words can last longer on a machine that
    /// is busy; then they are begun again, because new words couldn't be told from them.
    fn old_words(&mut self, language: &str, phase: Duration) -> Result<(), Box<dyn Error>> {
        for _ in 0..5 {
            self.quiet()?;
            let start = self.say(OLD, language)?;
            self.heard(start, |headphones| headphones.onset(start))?;
            sleep(Duration::from_millis(300) + phase);
            if self.headphones.hiss(start + LEFT_OVER).is_none() {
                return Ok(());
            }
            println!("begun again: an \"s\" was left over of the words before");
        }
        Err("the old words hiss like new ones".into())
    }

    fn cutting(
        &mut self,
        text: &str,
        language: &str,
        phase: Duration,
    ) -> Result<u64, Box<dyn Error>> {
        self.old_words(language, phase)?;
        let press = self.say(text, language)?;
        self.heard(press, |headphones| headphones.hiss(press))
    }

    /// From stop to the last audible sample.
    fn silent(&mut self, language: &str, phase: Duration) -> Result<u64, Box<dyn Error>> {
        self.old_words(language, phase)?;
        let press = Instant::now();
        self.voice.stop()?;
        sleep(Duration::from_millis(300));
        let last = self.headphones.last_sound(press, Instant::now()).unwrap_or(press);
        Ok(u64::try_from((last - press).as_micros())?)
    }
}
