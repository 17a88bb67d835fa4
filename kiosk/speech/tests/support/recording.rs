//! The private output's samples as they are, in 32-bit floats: soft ones keep their shape, loud
//! ones show by how much they are too loud.

use std::io::{Error, Read};
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

/// The recorder. Dropping it ends the recording.
pub(crate) struct Recording {
    recorder: Child,
    samples: Arc<Mutex<Vec<f32>>>,
}

impl Recording {
    /// Starts recording and waits for the first sample.
    pub(crate) fn start() -> Result<Self, Error> {
        Self::of("evenhand.monitor", 1)
    }

    /// Starts recording a source in so many channels, whose samples come in turn, and waits for the
    /// first one.
    pub(crate) fn of(source: &str, channels: u8) -> Result<Self, Error> {
        let mut recorder = Command::new("parec")
            .args(["-d", source, "--raw", "--format=float32le", "--rate=44100"])
            .args([&format!("--channels={channels}"), "--latency-msec=20"])
            .stdout(Stdio::piped())
            .spawn()?;
        let mut stdout =
            recorder.stdout.take().ok_or_else(|| Error::other("no output of parec"))?;
        let samples = Arc::new(Mutex::new(Vec::new()));
        let shared = Arc::clone(&samples);
        thread::spawn(move || {
            let mut buffer = [0; 16_384];
            let mut rest: Vec<u8> = Vec::new();
            while let Ok(count @ 1..) = stdout.read(&mut buffer) {
                rest.extend_from_slice(&buffer[..count]);
                let whole = rest.len() / 4 * 4;
                let new = rest[..whole]
                    .chunks_exact(4)
                    .map(|b| f32::from_le_bytes([b[0], b[1], b[2], b[3]]));
                shared.lock().unwrap_or_else(PoisonError::into_inner).extend(new);
                rest.drain(..whole);
            }
        });
        let recording = Self { recorder, samples };
        let start = Instant::now();
        while recording.take().is_empty() {
            if start.elapsed() > Duration::from_secs(5) {
                return Err(Error::other("parec gave no sample within five seconds"));
            }
            thread::sleep(Duration::from_millis(5));
        }
        Ok(recording)
    }

    /// What was recorded since the last time.
    pub(crate) fn take(&self) -> Vec<f32> {
        std::mem::take(&mut *self.samples.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Drop for Recording {
    fn drop(&mut self) {
        // It may have ended with the sound server.
        self.recorder.kill().unwrap_or_default();
        self.recorder.wait().map(|_| ()).unwrap_or_default();
    }
}
