//! What a voter would hear: records the private output's monitor and tells when it was loud.
//!
//! Times are those at which the samples came out of the recorder, so they include its buffer.

use std::io::{Error, Read};
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

/// Samples a second.
const RATE: u32 = 44_100;
/// Samples in a bin of one millisecond.
const BIN: usize = 44;
/// A sample above this is sound, about -47 dB of full scale: far above the dither, far below any
/// speech at the loudest step (which peaks at about -8 dB).
pub(crate) const AUDIBLE: u16 = 150;

/// Zero crossings a millisecond from which a sound is an "s": the voices' vowels have at most 7,
/// their "s" about 20 (measured).
const HISSING: usize = 12;

/// A millisecond of recording.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bin {
    /// When it came out of the recorder.
    pub(crate) at: Instant,
    /// The largest sample, without its sign.
    pub(crate) peak: u16,
    /// How often it crossed zero: see [`HISSING`].
    pub(crate) crossings: usize,
}

/// The recorder. Dropping it ends the recording.
pub(crate) struct Headphones {
    recorder: Child,
    bins: Arc<Mutex<Vec<Bin>>>,
}

impl Headphones {
    /// Starts recording and waits for the first sample.
    pub(crate) fn put_on() -> Result<Self, Error> {
        Self::at("evenhand.monitor")
    }

    /// The same at another output.
    pub(crate) fn at(monitor: &str) -> Result<Self, Error> {
        let mut recorder = Command::new("parec")
            .args(["-d", monitor, "--raw", "--format=s16le", "--rate=44100"])
            .args(["--channels=1", "--latency-msec=5", "--process-time-msec=2"])
            .stdout(Stdio::piped())
            .spawn()?;
        let stdout = recorder.stdout.take().ok_or_else(|| Error::other("no output of parec"))?;
        let bins = Arc::new(Mutex::new(Vec::new()));
        let shared = Arc::clone(&bins);
        thread::spawn(move || record(stdout, &shared));
        let headphones = Self { recorder, bins };
        let start = Instant::now();
        while headphones.bins().is_empty() {
            if start.elapsed() > Duration::from_secs(5) {
                return Err(Error::other("parec gave no sample within five seconds"));
            }
            thread::sleep(Duration::from_millis(5));
        }
        Ok(headphones)
    }

    /// The recording so far.
    pub(crate) fn bins(&self) -> MutexGuard<'_, Vec<Bin>> {
        self.bins.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// When sound began after `from`.
    pub(crate) fn onset(&self, from: Instant) -> Option<Instant> {
        self.bins().iter().find(|b| b.at > from && b.peak > AUDIBLE).map(|b| b.at)
    }

    /// The last sound between two times.
    pub(crate) fn last_sound(&self, from: Instant, to: Instant) -> Option<Instant> {
        let bins = self.bins();
        bins.iter().rev().find(|b| b.at > from && b.at <= to && b.peak > AUDIBLE).map(|b| b.at)
    }

    /// Forgets what was recorded.
    pub(crate) fn forget(&self) {
        self.bins().clear();
    }

    /// When an "s" began after `from`: three milliseconds of many zero crossings. In words whose
    /// other sounds are vowels this tells new words from old ones that they cut.
    pub(crate) fn hiss(&self, from: Instant) -> Option<Instant> {
        let bins = self.bins();
        let after = bins.iter().position(|b| b.at > from)?;
        bins[after..]
            .windows(3)
            .find(|run| run.iter().all(|b| b.peak > AUDIBLE / 2 && b.crossings >= HISSING))
            .map(|run| run[0].at)
    }
}

impl Drop for Headphones {
    fn drop(&mut self) {
        // It may have ended with the sound server.
        self.recorder.kill().unwrap_or_default();
        self.recorder.wait().map(|_| ()).unwrap_or_default();
    }
}

fn record(mut from: impl Read, bins: &Mutex<Vec<Bin>>) {
    let mut buffer = [0; 16_384];
    let mut rest: Vec<u8> = Vec::new();
    while let Ok(count) = from.read(&mut buffer) {
        if count == 0 {
            return;
        }
        let now = Instant::now();
        rest.extend_from_slice(&buffer[..count]);
        let samples = rest.len() / 2;
        let whole = samples / BIN;
        let mut bins = bins.lock().unwrap_or_else(PoisonError::into_inner);
        for bin in 0..whole {
            let bytes = &rest[bin * BIN * 2..(bin + 1) * BIN * 2];
            let values: Vec<i16> =
                bytes.chunks_exact(2).map(|b| i16::from_le_bytes([b[0], b[1]])).collect();
            let peak = values.iter().map(|v| v.unsigned_abs()).max().unwrap_or(0);
            let crossings = values.windows(2).filter(|v| (v[0] < 0) != (v[1] < 0)).count();
            let later = u32::try_from(samples - bin * BIN).unwrap_or(0);
            let before = Duration::from_secs(1) * later / RATE;
            bins.push(Bin { at: now.checked_sub(before).unwrap_or(now), peak, crossings });
        }
        rest.drain(..whole * BIN * 2);
    }
}
