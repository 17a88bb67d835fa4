//! The clock: milliseconds since the visit's window started, and wake-ups.
#![expect(clippy::disallowed_methods, reason = "here the time becomes a value")]

use std::io;
use std::thread;
use std::time::{Duration, Instant};

use crossbeam_channel::{Receiver, RecvTimeoutError, Sender, unbounded};
use evenhand_rules::Millis;

use super::{Report, Reports};

/// What a wake-up is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wake {
    /// The visit asked for a tick.
    Visit,
    /// A button has been down long enough to count.
    Press,
    /// The last screen has been shown long enough.
    Leave,
}

/// Tells the time and wakes.
#[derive(Debug)]
pub struct Clock {
    start: Instant,
    wanted: Sender<(Wake, Millis)>,
}

impl Clock {
    /// Starts at 0.
    ///
    /// # Errors
    /// The system refuses a thread.
    pub fn start(reports: Reports) -> io::Result<Self> {
        let (wanted, asked) = unbounded();
        let start = Instant::now();
        thread::Builder::new()
            .name("clock".to_owned())
            .spawn(move || run(start, &asked, &reports))?;
        Ok(Self { start, wanted })
    }

    /// Milliseconds since the start.
    pub fn now(&self) -> Millis {
        now(self.start)
    }

    /// Reports [`Report::Woken`] at this time. False where the clock's thread is gone.
    #[must_use]
    pub fn wake_at(&self, wake: Wake, at: Millis) -> bool {
        self.wanted.send((wake, at)).is_ok()
    }
}

fn now(start: Instant) -> Millis {
    Millis(u64::try_from(start.elapsed().as_millis()).unwrap_or(u64::MAX))
}

/// Keeps the moments that are wanted and reports each when it has come.
fn run(start: Instant, asked: &Receiver<(Wake, Millis)>, reports: &Reports) {
    let mut wanted: Vec<(Wake, Millis)> = Vec::new();
    loop {
        let at = now(start);
        let (due, later): (Vec<_>, Vec<_>) = wanted.into_iter().partition(|(_, due)| *due <= at);
        wanted = later;
        for (wake, _) in due {
            if reports.unbounded_send(Report::Woken(wake, at)).is_err() {
                return;
            }
        }
        let next = wanted.iter().map(|(_, due)| *due).min();
        let received = match next {
            Some(due) => asked.recv_timeout(Duration::from_millis(due.0.saturating_sub(at.0))),
            None => asked.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        match received {
            // A newer wish of the same kind takes the place of the older one.
            Ok(more) => {
                wanted.retain(|(wake, _)| *wake != more.0);
                wanted.push(more);
            }
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => return,
        }
    }
}
