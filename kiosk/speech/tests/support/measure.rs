//! What recorded samples say: whether a sentence is heard, how loud, how fast. Each check is a
//! function over samples, and each has a test that it refuses what it must.

use std::ops::RangeInclusive;
use std::time::Duration;

/// Samples a second of every recording.
pub(crate) const RATE: u32 = 44_100;
/// A sample above this is sound: -47 dB of full scale, as in `headphones.rs`.
const AUDIBLE: f32 = 150.0 / 32_768.0;
/// From here on a sample counts as clipped: 16 bits end at 0.99997 of full scale.
const FULL_SCALE: f32 = 0.999;

/// The widest step of loudness (VVSG 2.0 7.1-K, from memory), with half a decibel for measuring.
const STEP_DB_MAX: f64 = 10.5;
/// A step that can't be told from none (own choice: half a decibel).
const STEP_DB_MIN: f64 = 0.5;
/// The least span of all steps (own choice: half of the 80 dB that 7.1-K asks for is certainly
/// there in software; the rest depends on the amplifier).
const SPAN_DB_MIN: f64 = 40.0;

/// Words a minute (VVSG 2.0 7.1-K, from memory): the slowest, the default, the fastest.
pub(crate) const SLOWEST: RangeInclusive<f64> = 60.0..=70.0;
pub(crate) const DEFAULT: RangeInclusive<f64> = 120.0..=125.0;
pub(crate) const FASTEST: RangeInclusive<f64> = 240.0..=250.0;

/// How long it sounded, from the first audible sample to the last.
///
/// # Errors
/// It sounded for less than `least`, or not at all.
pub(crate) fn heard(samples: &[f32], least: Duration) -> Result<Duration, String> {
    let is_audible = |sample: &f32| sample.abs() > AUDIBLE;
    let first = samples.iter().position(is_audible).ok_or("nothing sounds")?;
    let last = samples.iter().rposition(is_audible).unwrap_or(first);
    let length = Duration::from_secs_f64((last - first) as f64 / f64::from(RATE));
    if length < least {
        return Err(format!("it sounds for {length:?} only, and {least:?} were to be heard"));
    }
    Ok(length)
}

/// All of its energy, in dB of one second at full scale: silence around it changes nothing, so
/// that the same sentence can be compared at every loudness.
pub(crate) fn energy_db(samples: &[f32]) -> f64 {
    let squares: f64 = samples.iter().map(|sample| f64::from(*sample).powi(2)).sum();
    10.0 * (squares / f64::from(RATE)).log10()
}

/// The root of the mean square between the first audible sample and the last, in dB of full scale.
///
/// # Errors
/// Nothing sounds.
pub(crate) fn rms_db(samples: &[f32]) -> Result<f64, String> {
    let length = heard(samples, Duration::from_millis(1))?;
    Ok(energy_db(samples) - 10.0 * length.as_secs_f64().log10())
}

/// The largest sample, of full scale.
///
/// # Errors
/// A sample is at full scale or above.
pub(crate) fn unclipped(samples: &[f32]) -> Result<f32, String> {
    let peak = samples.iter().fold(0.0, |peak: f32, sample| peak.max(sample.abs()));
    match samples.iter().filter(|sample| sample.abs() >= FULL_SCALE).count() {
        0 => Ok(peak),
        clipped => Err(format!("{clipped} samples are at full scale")),
    }
}

/// The steps between recordings of one sentence, from the softest to the loudest, in dB.
///
/// # Errors
/// A step is too wide or none.
pub(crate) fn ladder(recordings: &[Vec<f32>]) -> Result<Vec<f64>, String> {
    let levels: Vec<f64> = recordings.iter().map(|samples| energy_db(samples)).collect();
    let steps: Vec<f64> = levels.windows(2).map(|pair| pair[1] - pair[0]).collect();
    match steps.iter().find(|step| !(STEP_DB_MIN..=STEP_DB_MAX).contains(*step)) {
        Some(step) => Err(format!("a step of {step:.1} dB in {levels:.1?}")),
        None => Ok(steps),
    }
}

/// How far the loudest is above the softest, in dB.
///
/// # Errors
/// Not far enough.
pub(crate) fn span(softest: &[f32], loudest: &[f32]) -> Result<f64, String> {
    let span = energy_db(loudest) - energy_db(softest);
    if span.is_finite() && span >= SPAN_DB_MIN {
        Ok(span)
    } else {
        Err(format!("the loudest is {span:.1} dB above the softest: {SPAN_DB_MIN} are wanted"))
    }
}

/// Words (or letters) a minute, from the onset of the first to the end of the last.
///
/// # Errors
/// Nothing sounds.
pub(crate) fn a_minute(samples: &[f32], count: usize) -> Result<f64, String> {
    Ok(count as f64 * 60.0 / heard(samples, Duration::from_millis(1))?.as_secs_f64())
}

/// Checks the paces of all steps, the slowest first.
///
/// # Errors
/// The slowest, the default (the middle one) or the fastest is out of its range, or one step isn't
/// faster than the one before.
pub(crate) fn paces(figures: &[f64]) -> Result<(), String> {
    let ends = [(0, SLOWEST), (figures.len() / 2, DEFAULT), (figures.len() - 1, FASTEST)];
    for (step, range) in ends {
        if !figures.get(step).is_some_and(|figure| range.contains(figure)) {
            return Err(format!("step {step} isn't in {range:?}: {figures:.1?}"));
        }
    }
    if figures.windows(2).any(|pair| pair[0] >= pair[1]) {
        return Err(format!("a step isn't faster than the one before: {figures:.1?}"));
    }
    Ok(())
}

/// A second of a 440 Hz tone of this amplitude, between two halves of silence.
fn tone(amplitude: f64) -> Vec<f32> {
    let mut samples = vec![0.0; RATE as usize / 2];
    samples.extend((0..RATE).map(|at| {
        let turn = f64::from(at) * 440.0 / f64::from(RATE);
        ((turn * std::f64::consts::TAU).sin() * amplitude) as f32
    }));
    samples.extend(vec![0.0; RATE as usize / 2]);
    samples
}

/// Tones, each so many dB below full scale.
fn tones(levels_db: &[f64]) -> Vec<Vec<f32>> {
    levels_db.iter().map(|level| tone(10f64.powf(level / 20.0))).collect()
}

#[test]
fn a_muted_or_short_sentence_is_not_heard() {
    assert!(heard(&tone(0.5), Duration::from_millis(995)).is_ok());
    assert!(heard(&tone(0.5), Duration::from_millis(1_005)).is_err(), "too short");
    assert!(heard(&tone(0.0), Duration::ZERO).is_err(), "muted");
    assert!(heard(&tone(0.004), Duration::ZERO).is_err(), "too soft to be heard");
    assert!(heard(&[], Duration::ZERO).is_err(), "nothing recorded");
}

#[test]
fn levels_are_what_they_are_known_to_be() {
    // A full sine is 3 dB below its peak.
    assert!((rms_db(&tone(1.0)).unwrap() + 3.01).abs() < 0.05);
    assert!((rms_db(&tone(0.1)).unwrap() + 23.01).abs() < 0.05);
    assert!(rms_db(&tone(0.0)).is_err());
}

#[test]
fn a_clipped_sentence_is_refused() {
    assert!((unclipped(&tone(0.9)).unwrap() - 0.9).abs() < 0.001);
    assert!(unclipped(&tone(1.0)).is_err());
    let too_loud: Vec<f32> = tone(1.5).iter().map(|sample| sample.clamp(-1.0, 1.0)).collect();
    assert!(unclipped(&too_loud).is_err());
    assert!(unclipped(&tone(1.5)).is_err(), "above full scale");
}

#[test]
fn a_step_of_twelve_decibels_or_of_none_is_refused() {
    let steps = ladder(&tones(&[-80.0, -70.0, -60.0, -51.0])).unwrap();
    let known = [10.0, 10.0, 9.0];
    assert!(steps.iter().zip(known).all(|(step, known)| (step - known).abs() < 0.05), "{steps:?}");
    assert!(ladder(&tones(&[-80.0, -70.0, -58.0])).is_err(), "12 dB");
    assert!(ladder(&tones(&[-80.0, -70.0, -70.0])).is_err(), "none");
    assert!(ladder(&tones(&[-60.0, -70.0])).is_err(), "softer");
    assert!(ladder(&[tone(0.0), tone(0.1)]).is_err(), "from silence");
}

#[test]
fn a_small_span_is_refused() {
    assert!(span(&tone(0.001), &tone(0.5)).is_ok());
    assert!(span(&tone(0.01), &tone(0.5)).is_err());
    assert!(span(&tone(0.0), &tone(0.5)).is_err(), "silence isn't the softest");
    assert!(span(&tone(0.001), &tone(0.0)).is_err());
}

#[test]
fn a_pace_out_of_range_is_refused() {
    assert!((a_minute(&tone(0.5), 2).unwrap() - 120.0).abs() < 0.5);
    assert!(a_minute(&tone(0.0), 2).is_err());
    let good = [62.0, 77.0, 97.0, 122.0, 154.0, 194.0, 244.0];
    assert!(paces(&good).is_ok());
    for (step, wrong) in [
        (0, 58.0),
        (0, 72.0),
        (3, 118.0),
        (3, 127.0),
        (6, 236.0),
        (6, 255.0),
        (2, 76.0),
        (4, 121.0),
    ] {
        let mut figures = good;
        figures[step] = wrong;
        assert!(paces(&figures).is_err(), "step {step} at {wrong}");
    }
}
