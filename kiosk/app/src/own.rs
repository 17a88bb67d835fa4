//! What the station runs with, and by what clock: the digest of its own program, and whether somebody
//! has set the clock.
#![expect(clippy::disallowed_methods, reason = "the app reads its program's file and the clock")]

use std::fs::File;
use std::io::{self, Read as _};
use std::time::{Duration, SystemTime};

use evenhand_event_log::Digest;
use ring::digest::{Context, SHA256};
use rustix::time::{ClockId, clock_gettime};

/// The program that runs, also where its file was replaced since.
const OWN: &str = "/proc/self/exe";
/// The longest program: a build for debugging has 230 MB. Own choice.
const BYTES_MAX: u64 = 2 * 1024 * 1024 * 1024;
/// How much is read at once.
const CHUNK: usize = 256 * 1024;
/// From this on the clock was set, and hasn't only run a little wrong between two looks. Own choice:
/// clocks of computers are wrong by seconds a day.
const SET_FROM: Duration = Duration::from_mins(1);

/// The digest of the program that runs, as `sha256sum` gives it for the file.
///
/// # Errors
/// The file can't be read, or is too long.
pub(crate) fn program_digest() -> io::Result<Digest> {
    let mut file = File::open(OWN)?.take(BYTES_MAX + 1);
    let (mut context, mut chunk) = (Context::new(&SHA256), vec![0; CHUNK]);
    let mut length = 0_u64;
    loop {
        let count = file.read(&mut chunk)?;
        if count == 0 {
            break;
        }
        length = length.saturating_add(count as u64);
        if length > BYTES_MAX {
            return Err(io::Error::other("the program's file is too long"));
        }
        context.update(chunk.get(..count).unwrap_or_default());
    }
    let mut digest = [0; 32];
    digest.copy_from_slice(context.finish().as_ref());
    Ok(Digest(digest))
}

/// Looks whether somebody has set the clock: it then moves otherwise than the time since the machine
/// started, which goes on while it sleeps.
#[derive(Debug)]
pub(crate) struct ClockWatch {
    wall: SystemTime,
    running: Duration,
}

impl ClockWatch {
    /// Begins now.
    pub(crate) fn start() -> Self {
        Self { wall: SystemTime::now(), running: running() }
    }

    /// True where the clock was set since the last look.
    pub(crate) fn was_set(&mut self) -> bool {
        let now = Self::start();
        let before = std::mem::replace(self, now);
        is_set(before.moved_to(self), self.running.saturating_sub(before.running))
    }

    /// By how many nanoseconds the clock moved.
    fn moved_to(&self, now: &Self) -> i128 {
        let nanos = |time: SystemTime| {
            let since = time.duration_since(SystemTime::UNIX_EPOCH);
            since.map_or_else(|before| -nanos_of(before.duration()), nanos_of)
        };
        nanos(now.wall).saturating_sub(nanos(self.wall))
    }
}

/// True where a clock that moved by so many nanoseconds was set, of time that truly passed.
fn is_set(moved: i128, passed: Duration) -> bool {
    moved.saturating_sub(nanos_of(passed)).unsigned_abs() >= SET_FROM.as_nanos()
}

fn nanos_of(duration: Duration) -> i128 {
    i128::try_from(duration.as_nanos()).unwrap_or(i128::MAX)
}

/// How long the machine runs.
fn running() -> Duration {
    let time = clock_gettime(ClockId::Boottime);
    Duration::try_from(time).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// coreutils' `sha256sum` gives the same for the same file.
    #[test]
    fn the_digest_is_that_of_sha256sum() {
        let told = std::process::Command::new("sha256sum")
            .arg(std::env::current_exe().expect("this test has a file"))
            .output()
            .expect("coreutils are there");
        let own = program_digest().expect("the file can be read").to_string();
        assert!(String::from_utf8_lossy(&told.stdout).contains(&own), "{own}");
    }

    #[test]
    fn a_clock_that_jumps_was_set() {
        let seconds = |seconds: i128| seconds * 1_000_000_000;
        let hour = Duration::from_hours(1);
        assert!(!is_set(seconds(3_600), hour));
        assert!(!is_set(seconds(3_659), hour) && !is_set(seconds(3_541), hour));
        assert!(is_set(seconds(3_660), hour) && is_set(seconds(3_540), hour));
        assert!(is_set(seconds(-86_400), Duration::ZERO));
        let mut watch = ClockWatch::start();
        assert!(!watch.was_set());
        watch.wall = watch.wall.checked_sub(hour).expect("there was an hour before");
        assert!(watch.was_set(), "an hour on, in no time");
        assert!(!watch.was_set(), "it is said once");
    }
}
