//! A file in which tests see what the window shows: for each shown screen its kind and where the
//! focus is, then `settled` when it has been drawn. It holds no label and no choice, and is to be had
//! in a demo or a test only.
#![expect(clippy::disallowed_methods, reason = "a test's file")]

use std::fmt::Write as _;
use std::fs::File;
use std::io::{self, Write as _};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;
use std::time::Duration;

use crossbeam_channel::{Receiver, RecvTimeoutError, Sender, unbounded};
use evenhand_visit::{Target, View};

/// How often the thread looks whether a frame has been drawn.
const LOOK_EVERY: Duration = Duration::from_millis(4);
/// How long after a frame was drawn it counts as settled, if nothing newer was shown: the toolkit
/// hands it to the display right after drawing.
const SETTLE: Duration = Duration::from_millis(20);

/// The writing end.
#[derive(Debug)]
pub struct Trace {
    lines: Sender<(u64, String)>,
    latest: Arc<AtomicU64>,
}

impl Trace {
    /// Writes to a new file at `path`.
    ///
    /// # Errors
    /// The file can't be made, or the system refuses a thread.
    pub fn to_file(path: &Path) -> io::Result<Self> {
        let mut file = File::create(path)?;
        let (lines, received) = unbounded();
        let latest = Arc::new(AtomicU64::new(0));
        let drawn = Arc::clone(&latest);
        thread::Builder::new()
            .name("trace".to_owned())
            .spawn(move || run(&mut file, &received, &drawn).unwrap_or_default())?;
        Ok(Self { lines, latest })
    }

    /// The number of the view that was drawn last.
    pub const fn latest(&self) -> &Arc<AtomicU64> {
        &self.latest
    }

    /// Notes a view under its number.
    pub fn shown(&self, number: u64, view: &View) {
        // If the thread is gone the file is full or closed, and the test that reads it fails.
        self.lines.send((number, line(view))).unwrap_or_default();
    }
}

/// `shown <kind> <focus> first <row> of <rows>`: kinds and places, no labels.
pub fn line(view: &View) -> String {
    let mut line = format!("shown {:?} ", view.screen);
    let focus = match view.focus {
        Some(Target::Row(row)) => format!("row-{row}"),
        Some(Target::Key { row, key }) => format!("key-{row}-{key}"),
        Some(Target::MoreAbove) => "more-above".to_owned(),
        Some(Target::MoreBelow) => "more-below".to_owned(),
        Some(Target::Forward) => "forward".to_owned(),
        Some(Target::Back) => "back".to_owned(),
        Some(Target::HearAgain) => "hear-again".to_owned(),
        Some(Target::Comfort) => "comfort".to_owned(),
        Some(Target::Help) => "help".to_owned(),
        None => "none".to_owned(),
    };
    line.push_str(&focus);
    let (first, count) = (view.page.first, view.rows.len());
    // Writing to a string can't fail.
    write!(line, " first {first} of {count}").unwrap_or_default();
    line
}

fn run(file: &mut File, received: &Receiver<(u64, String)>, drawn: &AtomicU64) -> io::Result<()> {
    let mut waiting = None;
    loop {
        let next = match waiting {
            Some(_) => received.recv_timeout(LOOK_EVERY),
            None => received.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        match (next, waiting) {
            (Ok((number, line)), _) => {
                writeln!(file, "{line}")?;
                waiting = Some(number);
            }
            (Err(RecvTimeoutError::Timeout), Some(number))
                if drawn.load(Ordering::Acquire) >= number =>
            {
                if let Ok((number, line)) = received.recv_timeout(SETTLE) {
                    writeln!(file, "{line}")?;
                    waiting = Some(number);
                } else {
                    writeln!(file, "settled")?;
                    waiting = None;
                }
            }
            (Err(RecvTimeoutError::Timeout), _) => {}
            (Err(RecvTimeoutError::Disconnected), _) => return Ok(()),
        }
    }
}
