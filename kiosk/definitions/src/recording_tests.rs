//! Tests of recordings: files made here, good and bad.
#![expect(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test's own numbers and files"
)]

use super::*;

/// A wav file of 16-bit samples.
fn wav(rate: u32, channels: u16, samples: &[i16]) -> Vec<u8> {
    let data: Vec<u8> = samples.iter().flat_map(|sample| sample.to_le_bytes()).collect();
    let size = u32::try_from(data.len()).unwrap();
    let mut out = Vec::new();
    out.extend(b"RIFF");
    out.extend((36 + size).to_le_bytes());
    out.extend(b"WAVEfmt ");
    out.extend(16u32.to_le_bytes());
    out.extend(1u16.to_le_bytes());
    out.extend(channels.to_le_bytes());
    out.extend(rate.to_le_bytes());
    out.extend((rate * u32::from(channels) * 2).to_le_bytes());
    out.extend((channels * 2).to_le_bytes());
    out.extend(16u16.to_le_bytes());
    out.extend(b"data");
    out.extend(size.to_le_bytes());
    out.extend(data);
    out
}

/// A tone of this length and amplitude (of full scale) at 22,050 samples a second.
#[expect(clippy::cast_possible_truncation, reason = "the amplitude is at most full scale")]
fn tone(millis: u32, amplitude: f64) -> Vec<i16> {
    let sample = |at: u32| {
        let turn = f64::from(at) * 440.0 / 22_050.0;
        ((turn * std::f64::consts::TAU).sin() * amplitude * 32_767.0) as i16
    };
    (0..millis * 22_050 / 1_000).map(sample).collect()
}

fn check(bytes: Vec<u8>) -> Result<Measured, String> {
    Recording::check(bytes).map_err(|fault| fault.to_string())
}

#[test]
fn a_good_recording_is_decoded_and_measured() {
    let mut samples = vec![0; 22_050];
    samples.extend(tone(1_000, 0.12));
    samples.extend(vec![0; 22_050]);
    let measured = check(wav(22_050, 1, &samples)).unwrap();
    assert!((measured.seconds - 3.0).abs() < 0.001, "{measured:?}");
    assert!((measured.peak_db - 20.0 * 0.12f64.log10()).abs() < 0.1, "{measured:?}");
    // Silence at both ends doesn't make it softer; a sine's loudness is 3 dB below its peak.
    assert!((measured.rms_db - (measured.peak_db - 3.01)).abs() < 0.1, "{measured:?}");
    let decoded: Vec<i16> =
        Recording::open(wav(22_050, 1, &samples)).unwrap().flat_map(Result::unwrap).collect();
    assert_eq!(decoded, samples);
}

#[test]
fn two_channels_become_their_mean() {
    let samples: Vec<i16> = tone(500, 0.2).into_iter().flat_map(|left| [left, 0]).collect();
    let mono: Vec<i16> = tone(500, 0.2).iter().map(|left| left / 2).collect();
    let recording = Recording::open(wav(44_100, 2, &samples)).unwrap();
    assert_eq!(recording.rate(), 44_100);
    assert_eq!(recording.flat_map(Result::unwrap).collect::<Vec<_>>(), mono);
}

#[test]
fn what_is_beyond_a_limit_is_refused_and_says_what_to_do() {
    let good = tone(1_000, 0.12);
    let hours: Vec<i16> = std::iter::repeat_n(good.clone(), 121).flatten().collect();
    for (bytes, says) in [
        (wav(16_000, 1, &good), "16000 samples a second"),
        (wav(96_000, 1, &good), "96000 samples a second"),
        (wav(22_050, 3, &good), "3 channels"),
        (wav(22_050, 1, &tone(90, 0.12)), "shorter than 100 ms"),
        (wav(22_050, 1, &vec![0; 22_050]), "silent"),
        (wav(22_050, 1, &vec![100; 22_050]), "silent"),
        (wav(22_050, 1, &hours), "longer than 120 s"),
        (wav(22_050, 1, &tone(1_000, 1.0)), "Record it again with less gain"),
        (wav(22_050, 1, &tone(1_000, 0.03)), "loudness is -33."),
        (wav(22_050, 1, &tone(1_000, 0.4)), "loudness is -11."),
        (vec![0; RECORDING_BYTES_MAX + 1], "more than 25165824 bytes"),
        (b"no sound at all, only words, and more of them".repeat(50), "can't be decoded"),
        (Vec::new(), "can't be decoded"),
        (wav(22_050, 1, &good)[..30].to_vec(), "can't be decoded"),
    ] {
        let error = check(bytes).unwrap_err();
        assert!(error.contains(says), "{says}: {error}");
    }
}

/// Whatever the bytes are, they are refused or within the limits, and nothing panics.
#[test]
fn damaged_files_never_break_it() {
    let good = wav(22_050, 1, &tone(200, 0.12));
    for at in 0..60 {
        for value in [0, 1, 0x7f, 0x80, 0xff] {
            let mut bytes = good.clone();
            bytes[at] = value;
            if let Ok(measured) = Recording::check(bytes) {
                assert!(measured.seconds <= 120.0 && measured.peak_db <= PEAK_DB_MAX);
            }
        }
    }
}

/// Vorbis by another's encoder: `oggenc` of Xiph's vorbis-tools (Debian: `vorbis-tools`).
#[test]
#[expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::cast_precision_loss,
    reason = "this test runs the encoder, or says that it was skipped; counts of samples"
)]
fn ogg_vorbis_is_decoded_as_the_sound_that_was_encoded() {
    use std::io::Write as _;
    use std::process::{Command, Stdio};
    let samples = tone(2_000, 0.12);
    let source = wav(22_050, 1, &samples);
    let encoder = Command::new("oggenc")
        .args(["--quiet", "--quality", "5", "--output", "-", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn();
    let Ok(mut encoder) = encoder else {
        assert!(std::env::var_os("CI").is_none(), "oggenc is not installed");
        println!("skipped: ogg vorbis (no oggenc; Debian: vorbis-tools)");
        return;
    };
    let mut input = encoder.stdin.take().unwrap();
    let wav_bytes = source.clone();
    let writer = std::thread::spawn(move || input.write_all(&wav_bytes));
    let encoded = encoder.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    assert!(encoded.stdout.starts_with(b"OggS"), "{:?}", encoded.status);

    let measured = check(encoded.stdout.clone()).unwrap();
    let original = check(source).unwrap();
    assert!((measured.seconds - original.seconds).abs() < 0.01, "{measured:?}");
    assert!((measured.rms_db - original.rms_db).abs() < 0.3, "{measured:?} {original:?}");
    // Sample by sample: what differs is 20 dB below the sound.
    let decoded: Vec<i16> =
        Recording::open(encoded.stdout.clone()).unwrap().flat_map(Result::unwrap).collect();
    let square = |value: f64| value * value;
    let pairs = || samples.iter().zip(&decoded).map(|(a, b)| (f64::from(*a), f64::from(*b)));
    let noise: f64 = pairs().map(|(a, b)| square(a - b)).sum::<f64>() / samples.len() as f64;
    let sound: f64 = pairs().map(|(a, _)| square(a)).sum::<f64>() / samples.len() as f64;
    assert!(10.0 * (sound / noise).log10() > 20.0, "{}", 10.0 * (sound / noise).log10());

    // A file that breaks off is refused or ends early; it never fails.
    for length in (0..encoded.stdout.len()).step_by(997) {
        let cut = encoded.stdout[..length].to_vec();
        if let Ok(short) = check(cut) {
            assert!(short.seconds <= original.seconds + 0.01, "{length}: {short:?}");
        }
    }
}
