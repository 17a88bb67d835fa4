//! The stored tone that sounds when speech can't, in both ears, and in one for the self-test:
//! generated samples, straight to the sound server.

use libpulse_binding::sample::{Format, Spec};
use libpulse_binding::stream::Direction;
use libpulse_simple_binding::Simple;

use crate::fault::ToneOutcome;
use crate::settings::Loudness;
use crate::sink::{channels, set_loudness, unmute};

/// Samples a second.
const RATE: u32 = 22_050;
/// Two falling notes, in hertz: E5 and A4, well apart and within any headphone's range.
const NOTES: [f64; 2] = [659.26, 440.0];
/// Each note's length in samples: a quarter of a second.
const NOTE_SAMPLES: u32 = RATE / 4;
/// Fade in and out in samples (10 ms), so that it doesn't click.
const FADE_SAMPLES: u32 = RATE / 100;
/// Bytes of a sample.
const SAMPLE_BYTES: usize = 2;
/// A sample of silence.
const SILENCE: [u8; SAMPLE_BYTES] = [0; SAMPLE_BYTES];
/// A quarter of full scale, about as loud as speech.
const PEAK: f64 = 8_192.0;

/// An ear of the headphones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ear {
    /// The left one.
    Left,
    /// The right one.
    Right,
}

/// What became of a tone for one ear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EarOutcome {
    /// The sound server played it to the end: ask in which ear it was heard.
    Sounded,
    /// The output has one channel, so both ears always hear the same. Nothing was played.
    OneChannel,
    /// It couldn't be played, or there is no such output.
    Unheard,
}

/// Plays the tone in one ear to its end, and nothing in the other; blocks for about half a second,
/// or as long as the server hangs. `sink` is the sound server's name of the headphones' output; none
/// for its default.
pub fn sound_ear(ear: Ear, sink: Option<&str>) -> EarOutcome {
    match channels(sink) {
        Some(2..) => {}
        Some(1) => return EarOutcome::OneChannel,
        Some(_) | None => return EarOutcome::Unheard,
    }
    if !unmute(sink) {
        return EarOutcome::Unheard;
    }
    match written(sink, 2, &in_ear(ear)) {
        ToneOutcome::Sounded => EarOutcome::Sounded,
        ToneOutcome::Unheard => EarOutcome::Unheard,
    }
}

/// Plays the tone in both ears at this loudness, which stays set; blocks for about half a second, or as
/// long as the server hangs. `sink` is the sound server's name of the headphones' output; none for
/// its default.
pub fn sound_at(sink: Option<&str>, loudness: Loudness) -> ToneOutcome {
    if set_loudness(sink, loudness) { play(sink) } else { ToneOutcome::Unheard }
}

/// Plays the tone to its end; blocks for about half a second, or as long as the server hangs.
pub(crate) fn play(sink: Option<&str>) -> ToneOutcome {
    written(sink, 1, &samples())
}

/// Plays samples of so many channels to their end.
fn written(sink: Option<&str>, channels: u8, samples: &[u8]) -> ToneOutcome {
    let spec = Spec { format: Format::S16le, channels, rate: RATE };
    let played =
        Simple::new(None, "Evenhand", Direction::Playback, sink, "tone", &spec, None, None)
            .and_then(|stream| {
                stream.write(samples)?;
                stream.drain()
            });
    match played {
        Ok(()) => ToneOutcome::Sounded,
        Err(_) => ToneOutcome::Unheard,
    }
}

/// The tone in two channels, left and right in turn, one of them silent. PulseAudio's own order of
/// two channels is left, right (its documentation of `pa_channel_map_init_auto`).
fn in_ear(ear: Ear) -> Vec<u8> {
    let tone = samples();
    let both = tone.chunks(SAMPLE_BYTES).flat_map(|sample| match ear {
        Ear::Left => [sample, &SILENCE],
        Ear::Right => [&SILENCE, sample],
    });
    both.flatten().copied().collect()
}

/// The tone as 16-bit little-endian samples, one channel, 22,050 a second.
#[expect(clippy::cast_possible_truncation, reason = "|sample| is at most PEAK, which fits")]
fn samples() -> Vec<u8> {
    let mut out = Vec::new();
    for note in NOTES {
        for at in 0..NOTE_SAMPLES {
            let edge = at.min(NOTE_SAMPLES - at);
            let fade = f64::from(edge.min(FADE_SAMPLES)) / f64::from(FADE_SAMPLES);
            let turn = f64::from(at) * note / f64::from(RATE);
            let sample = (turn * std::f64::consts::TAU).sin() * PEAK * fade;
            out.extend_from_slice(&(sample as i16).to_le_bytes());
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tone_is_half_a_second_audible_and_unclipped() {
        let samples: Vec<i16> =
            samples().chunks_exact(2).map(|b| i16::from_le_bytes([b[0], b[1]])).collect();
        assert_eq!(samples.len(), 2 * NOTE_SAMPLES as usize);
        let peak = samples.iter().map(|s| s.unsigned_abs()).max().unwrap();
        assert!((8_000..=8_192).contains(&peak), "{peak}");
        assert_eq!(samples.first(), Some(&0), "starts without a click");
        // Zero crossings count the notes' frequencies: two a turn.
        for (note, half) in NOTES.iter().zip(samples.chunks(NOTE_SAMPLES as usize)) {
            let crossings = half.windows(2).filter(|p| (p[0] < 0) != (p[1] < 0)).count();
            let hertz = f64::from(u32::try_from(crossings).unwrap()) / 2.0 * 4.0;
            assert!((hertz - note).abs() < 8.0, "{hertz} for {note}");
        }
    }
    #[test]
    fn one_ear_has_the_tone_and_the_other_nothing() {
        let whole = |bytes: Vec<u8>| {
            bytes.chunks_exact(2).map(|b| i16::from_le_bytes([b[0], b[1]])).collect::<Vec<_>>()
        };
        let tone = whole(samples());
        for (ear, heard) in [(Ear::Left, 0), (Ear::Right, 1)] {
            let both = whole(in_ear(ear));
            let side = |at: usize| both.iter().skip(at).step_by(2).copied().collect::<Vec<_>>();
            assert_eq!(side(heard), tone);
            assert!(side(1 - heard).iter().all(|sample| *sample == 0));
        }
    }
}
