//! The tone for one ear, recorded in stereo: the other ear is silent.
//!
//! Runs where `demo/speech-service start` prepared the environment; elsewhere each test says that it
//! was skipped. The demo's own output has one channel, so the test loads one with two beside it.
#![expect(clippy::disallowed_methods, reason = "the test listens in real time and asks pactl")]
#![expect(clippy::expect_used, clippy::unwrap_used, reason = "a test's helpers fail the test")]
#![expect(clippy::print_stdout, reason = "a skipped test must say so")]
#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "counts of samples, and samples, in the measures of speech"
)]

#[expect(unreachable_pub, reason = "the tests over the whole use it too")]
#[path = "../../../tests/src/figures.rs"]
mod figures;
#[path = "support/measure.rs"]
mod measure;
#[expect(dead_code, reason = "this test records in stereo only")]
#[path = "support/recording.rs"]
mod recording;
#[expect(dead_code, reason = "this test ends no daemon")]
#[path = "support/service.rs"]
mod service;

use std::process::Command;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread::sleep;
use std::time::Duration;

use evenhand_speech::{Ear, EarOutcome, Loudness, ToneOutcome, outputs, sound_at, sound_ear};
use figures::note;
use recording::Recording;

/// The other ear is softer by so much at least (own choice: what is softer isn't heard beside it).
const APART_DB_MIN: f64 = 40.0;
/// What the tone lasts at least, of its half second.
const TONE_MIN: Duration = Duration::from_millis(400);
/// Sound comes out of the recorder so long after it was played at most.
const RECORDER_LATE: Duration = Duration::from_millis(300);

/// One service, one test at a time.
static SERVICE: Mutex<()> = Mutex::new(());

/// Starts what isn't running, or says that the test is skipped.
fn alone(test: &str) -> Option<MutexGuard<'static, ()>> {
    if service::folder().is_none() {
        println!("skipped: {test} (no private speech service; see demo/speech-service)");
        return None;
    }
    let alone = SERVICE.lock().unwrap_or_else(PoisonError::into_inner);
    service::start();
    Some(alone)
}

/// An output with two channels that nobody hears. Dropping it takes it away.
struct Stereo {
    module: String,
}

impl Stereo {
    const NAME: &str = "evenhand-ears";

    fn load() -> Self {
        let output = Command::new("pactl")
            .args(["load-module", "module-null-sink", "sink_name=evenhand-ears"])
            .args(["format=float32le", "rate=44100", "channels=2"])
            .output()
            .expect("pactl runs");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        Self { module: String::from_utf8(output.stdout).unwrap().trim().to_owned() }
    }
}

impl Drop for Stereo {
    fn drop(&mut self) {
        let status = Command::new("pactl").args(["unload-module", &self.module]).status();
        assert!(status.expect("pactl runs").success(), "the test's output stays");
    }
}

/// By how much `ear` is louder than the other in samples that are left and right in turn.
fn apart_db(samples: &[f32], ear: Ear) -> Result<f64, String> {
    let side = |at: usize| samples.iter().skip(at).step_by(2).copied().collect::<Vec<f32>>();
    let (heard, other) = match ear {
        Ear::Left => (side(0), side(1)),
        Ear::Right => (side(1), side(0)),
    };
    measure::heard(&heard, TONE_MIN)?;
    Ok(measure::energy_db(&heard) - measure::energy_db(&other).max(SILENCE_DB))
}

/// What stands for silence, so that the figure is a number: the least that 24 bits can hold.
const SILENCE_DB: f64 = -140.0;

#[test]
fn each_ear_is_heard_alone() {
    let Some(_alone) = alone("each_ear_is_heard_alone") else { return };
    let stereo = Stereo::load();
    let recording = Recording::of(&format!("{}.monitor", Stereo::NAME), 2).unwrap();
    for ear in [Ear::Left, Ear::Right] {
        recording.take();
        assert_eq!(sound_ear(ear, Some(Stereo::NAME)), EarOutcome::Sounded);
        sleep(RECORDER_LATE);
        let samples = recording.take();
        let apart = apart_db(&samples, ear).unwrap_or_else(|why| panic!("{ear:?}: {why}"));
        println!("{ear:?}: the other ear is {apart:.1} dB softer");
        let name = if ear == Ear::Left { "left" } else { "right" };
        note(
            &format!("sound in the {name} ear: the other is softer by"),
            &format!("{apart:.0} dB"),
        );
        assert!(apart >= APART_DB_MIN, "{ear:?}: {apart:.1} dB");
    }
    drop(stereo);
}

#[test]
fn outputs_are_told_and_the_tone_is_as_loud_as_asked() {
    let test = "outputs_are_told_and_the_tone_is_as_loud_as_asked";
    let Some(_alone) = alone(test) else { return };
    let stereo = Stereo::load();
    let told = outputs().expect("the server answers");
    assert!(told.iter().any(|output| output.name == Stereo::NAME), "{told:?}");
    let recording = Recording::of(&format!("{}.monitor", Stereo::NAME), 2).unwrap();
    let energy = |step: u8| {
        recording.take();
        let played = sound_at(Some(Stereo::NAME), Loudness::from_step(step));
        assert_eq!(played, ToneOutcome::Sounded);
        sleep(RECORDER_LATE);
        measure::energy_db(&recording.take())
    };
    // Two steps of 10 dB each (`settings.rs`); the rest is the recorder's silence around the tone.
    let apart = energy(7) - energy(5);
    assert!((18.0..=22.0).contains(&apart), "{apart:.1} dB");
    let nowhere = sound_at(Some("no-such-output"), Loudness::default());
    assert_eq!(nowhere, ToneOutcome::Unheard);
    drop(stereo);
}

#[test]
fn an_output_of_one_channel_or_none_says_so() {
    let Some(_alone) = alone("an_output_of_one_channel_or_none_says_so") else { return };
    assert_eq!(sound_ear(Ear::Left, Some("evenhand")), EarOutcome::OneChannel);
    assert_eq!(sound_ear(Ear::Left, Some("no-such-output")), EarOutcome::Unheard);
}

#[test]
fn the_measure_refuses_both_ears_and_silence() {
    let tone = |at: u16| (f32::from(at) * 0.07).sin() * 0.25;
    let both: Vec<f32> = (0..30_000).flat_map(|at| [tone(at), tone(at)]).collect();
    assert!(apart_db(&both, Ear::Left).unwrap() < 1.0);
    let left: Vec<f32> = (0..30_000).flat_map(|at| [tone(at), 0.0]).collect();
    assert!(apart_db(&left, Ear::Left).unwrap() > 100.0);
    assert!(apart_db(&left, Ear::Right).is_err(), "the right ear hears nothing");
    let leaking: Vec<f32> = (0..30_000).flat_map(|at| [tone(at), tone(at) * 0.02]).collect();
    assert!(apart_db(&leaking, Ear::Left).unwrap() < APART_DB_MIN, "34 dB are too few");
}
