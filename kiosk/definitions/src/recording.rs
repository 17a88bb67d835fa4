//! One recording of an election's folder: decoded piece by piece, within limits.
//!
//! Invariant: what comes out has one channel of 16-bit samples at [`Recording::rate`], and never
//! more than [`RECORDING_SECONDS_MAX`] of it, whatever the file says about itself.

use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};

use symphonia::core::audio::Channels;
use symphonia::core::codecs::audio::{AudioDecoder, AudioDecoderOptions};
use symphonia::core::errors::Error;
use symphonia::core::formats::probe::Hint;
use symphonia::core::formats::{FormatOptions, FormatReader, TrackType};
use symphonia::core::io::{MediaSourceStream, MediaSourceStreamOptions};
use symphonia::core::meta::MetadataOptions;
use thiserror::Error;

use crate::limits::{
    PEAK_DB_MAX, RECORDING_BYTES_MAX, RECORDING_CHANNELS_MAX, RECORDING_MILLIS_MIN,
    RECORDING_SECONDS_MAX, RMS_DB_MAX, RMS_DB_MIN, SAMPLE_RATE_MAX, SAMPLE_RATE_MIN,
};
use crate::object::short;

/// A sample above this is sound: -47 dB of full scale, well above a quiet room's noise and well
/// below speech (own choice; the tests over speech use the same).
const AUDIBLE: u16 = 150;
/// Full scale of 16 bits.
const FULL_SCALE: f64 = 32_768.0;

/// Why a recording can't be played.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum RecordingFault {
    /// More bytes than the limit.
    #[error("it has more than {RECORDING_BYTES_MAX} bytes. Save it as ogg vorbis, or cut it.")]
    TooManyBytes,
    /// Neither wav nor ogg vorbis, or damaged.
    #[error("it can't be decoded ({reason}). Save it as wav (PCM) or ogg vorbis again.")]
    Undecodable {
        /// What the decoder says.
        reason: String,
    },
    /// Samples a second outside the limits.
    #[error(
        "it has {rate} samples a second and must have from {SAMPLE_RATE_MIN} to {SAMPLE_RATE_MAX}. Save it with 44100."
    )]
    SampleRate {
        /// Samples a second.
        rate: u32,
    },
    /// More channels than two.
    #[error("it has {channels} channels. Save it with one.")]
    Channels {
        /// The channels.
        channels: usize,
    },
    /// It ends too soon.
    #[error(
        "it is shorter than {RECORDING_MILLIS_MIN} ms, or silent. Record the whole text again."
    )]
    TooShort,
    /// It goes on too long.
    #[error("it is longer than {RECORDING_SECONDS_MAX} s. Cut it, one file for each paragraph.")]
    TooLong,
    /// It is or was clipped.
    #[error(
        "its loudest sample is {peak_db:.1} dB of full scale, above {PEAK_DB_MAX:.1}, so it may be distorted. Record it again with less gain."
    )]
    Clipped {
        /// The loudest sample, in dB of full scale.
        peak_db: f64,
    },
    /// Far softer or louder than the voice.
    #[error(
        "its loudness is {rms_db:.1} dB of full scale and must be from {RMS_DB_MIN:.0} to {RMS_DB_MAX:.0}, as the voice's is. Change its gain."
    )]
    Loudness {
        /// The root of the mean square from the first sound to the last, in dB of full scale.
        rms_db: f64,
    },
}

/// What a recording was found to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Its length in seconds.
    pub seconds: f64,
    /// Its loudest sample, in dB of full scale.
    pub peak_db: f64,
    /// The root of the mean square from the first sound to the last, in dB of full scale.
    pub rms_db: f64,
}

/// A recording that is being decoded: an iterator of pieces of a few milliseconds.
pub struct Recording {
    format: Box<dyn FormatReader>,
    decoder: Box<dyn AudioDecoder>,
    track: u32,
    rate: u32,
    // Invariant: 1 or more.
    channels: usize,
    frames_left: usize,
    is_over: bool,
}

impl Recording {
    /// Opens the bytes of a wav or ogg vorbis file; decoding happens as the pieces are taken.
    ///
    /// # Errors
    /// [`RecordingFault`] where it is too long in bytes, of another format, or beyond the limits of
    /// rate and channels.
    pub fn open(bytes: Vec<u8>) -> Result<Self, RecordingFault> {
        guarded(|| Self::opened(bytes))
    }

    fn opened(bytes: Vec<u8>) -> Result<Self, RecordingFault> {
        if bytes.len() > RECORDING_BYTES_MAX {
            return Err(RecordingFault::TooManyBytes);
        }
        let stream = MediaSourceStream::new(
            Box::new(Cursor::new(bytes)),
            MediaSourceStreamOptions::default(),
        );
        let (format, metadata) = (FormatOptions::default(), MetadataOptions::default());
        let format = symphonia::default::get_probe()
            .probe(&Hint::new(), stream, format, metadata)
            .map_err(|error| undecodable(&error))?;
        let nothing = || RecordingFault::Undecodable { reason: "no sound in it".to_owned() };
        let track = format.default_track(TrackType::Audio).ok_or_else(nothing)?;
        let parameters =
            track.codec_params.as_ref().and_then(|given| given.audio()).ok_or_else(nothing)?;
        let rate = parameters.sample_rate.ok_or_else(nothing)?;
        if !(SAMPLE_RATE_MIN..=SAMPLE_RATE_MAX).contains(&rate) {
            return Err(RecordingFault::SampleRate { rate });
        }
        let channels = parameters.channels.as_ref().map_or(0, Channels::count);
        if !(1..=RECORDING_CHANNELS_MAX).contains(&channels) {
            return Err(RecordingFault::Channels { channels });
        }
        let decoder = symphonia::default::get_codecs()
            .make_audio_decoder(parameters, &AudioDecoderOptions::default())
            .map_err(|error| undecodable(&error))?;
        let seconds = usize::try_from(RECORDING_SECONDS_MAX).unwrap_or(usize::MAX);
        let frames_left = usize::try_from(rate).unwrap_or(0).saturating_mul(seconds);
        let track = track.id;
        Ok(Self { format, decoder, track, rate, channels, frames_left, is_over: false })
    }

    /// Samples a second.
    pub fn rate(&self) -> u32 {
        self.rate
    }

    /// Decodes all of a file and holds it to every limit.
    ///
    /// # Errors
    /// [`RecordingFault`], the first one found.
    pub fn check(bytes: Vec<u8>) -> Result<Measured, RecordingFault> {
        let recording = Self::open(bytes)?;
        let rate = f64::from(recording.rate);
        let mut meter = Meter::default();
        for piece in recording {
            piece?.iter().for_each(|sample| meter.add(*sample));
        }
        let seconds = meter.samples / rate;
        if meter.sounding == 0.0 || seconds * 1_000.0 < f64::from(RECORDING_MILLIS_MIN) {
            return Err(RecordingFault::TooShort);
        }
        let peak_db = 20.0 * (f64::from(meter.peak) / FULL_SCALE).log10();
        if peak_db > PEAK_DB_MAX {
            return Err(RecordingFault::Clipped { peak_db });
        }
        let rms_db = 10.0 * (meter.squares / meter.sounding).log10();
        if !(RMS_DB_MIN..=RMS_DB_MAX).contains(&rms_db) {
            return Err(RecordingFault::Loudness { rms_db });
        }
        Ok(Measured { seconds, peak_db, rms_db })
    }

    fn piece(&mut self) -> Result<Option<Vec<i16>>, RecordingFault> {
        loop {
            let packet = match self.format.next_packet() {
                Ok(Some(packet)) => packet,
                Ok(None) => return Ok(None),
                Err(error) => return Err(undecodable(&error)),
            };
            if packet.track_id != self.track {
                continue;
            }
            let decoded = self.decoder.decode(&packet).map_err(|error| undecodable(&error))?;
            let mut samples: Vec<i16> = Vec::new();
            decoded.copy_to_vec_interleaved(&mut samples);
            let mono: Vec<i16> = samples.chunks_exact(self.channels).map(mixed).collect();
            self.frames_left =
                self.frames_left.checked_sub(mono.len()).ok_or(RecordingFault::TooLong)?;
            if !mono.is_empty() {
                return Ok(Some(mono));
            }
        }
    }
}

impl std::fmt::Debug for Recording {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Recording").field("rate", &self.rate).finish_non_exhaustive()
    }
}

impl Iterator for Recording {
    type Item = Result<Vec<i16>, RecordingFault>;

    /// The next piece, or once why there is none.
    fn next(&mut self) -> Option<Self::Item> {
        if self.is_over {
            return None;
        }
        let piece = guarded(|| self.piece());
        self.is_over = !matches!(piece, Ok(Some(_)));
        piece.transpose()
    }
}

/// The decoder adds up numbers of a file unchecked in places (a wav's header of 65,535 channels):
/// where it breaks off, the file is at fault and nobody else.
fn guarded<T>(decode: impl FnOnce() -> Result<T, RecordingFault>) -> Result<T, RecordingFault> {
    let reason = || "its numbers make no sense".to_owned();
    catch_unwind(AssertUnwindSafe(decode))
        .unwrap_or_else(|_| Err(RecordingFault::Undecodable { reason: reason() }))
}

/// The mean of a frame's channels.
fn mixed(frame: &[i16]) -> i16 {
    let sum = frame.iter().fold(0i32, |sum, sample| sum.saturating_add(i32::from(*sample)));
    let mean = i32::try_from(frame.len()).ok().and_then(|count| sum.checked_div(count));
    mean.and_then(|mean| i16::try_from(mean).ok()).unwrap_or(0)
}

fn undecodable(error: &Error) -> RecordingFault {
    RecordingFault::Undecodable { reason: short(&error.to_string()) }
}

/// Counts what a recording is. Numbers of samples are floats: they are far below 2⁵³.
#[derive(Default)]
struct Meter {
    samples: f64,
    peak: u16,
    /// Squares, of full scale, and number of the samples from the first sound to the last.
    squares: f64,
    sounding: f64,
    /// The same of those since the last sound.
    squares_since: f64,
    since: f64,
}

impl Meter {
    fn add(&mut self, sample: i16) {
        self.samples += 1.0;
        self.peak = self.peak.max(sample.unsigned_abs());
        let is_sound = sample.unsigned_abs() > AUDIBLE;
        if !is_sound && self.sounding == 0.0 {
            return;
        }
        self.squares_since += (f64::from(sample) / FULL_SCALE).powi(2);
        self.since += 1.0;
        if is_sound {
            self.squares += self.squares_since;
            self.sounding += self.since;
            (self.squares_since, self.since) = (0.0, 0.0);
        }
    }
}

#[cfg(test)]
#[path = "recording_tests.rs"]
mod tests;
