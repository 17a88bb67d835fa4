//! The station's own process: starts a visit after the other, each in a process of its own, and
//! keeps the log of what they tell.
//!
//! Invariant: it never receives a choice. All that comes from a visit is a closed list of events.
#![expect(clippy::disallowed_methods, reason = "only the station starts the visit's process")]

use std::env;
use std::ffi::OsString;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::process::{ChildStdin, ChildStdout, Command, ExitStatus, Stdio};

use evenhand_speech::Fault;
use evenhand_visit::Event;
use thiserror::Error;

use crate::devices::paper::PaperDevices;
use crate::devices::scanner::end_what_was_left;
use crate::event_words::{event, is_end, word};

/// The longest line that a visit may write. The longest word has 25 letters.
const LINE_BYTES_MAX: u64 = 64;

/// Why the station stops.
#[derive(Debug, Error)]
pub enum StationError {
    /// The system refuses a process, or the log can't be written.
    #[error("the system: {0}")]
    System(#[from] io::Error),
    /// A visit's process ended without saying that the visit is over.
    #[error("a visit ended before its time ({0}): call a worker, and see what lies in the printer")]
    EndedEarly(ExitStatus),
    /// A visit wrote something that isn't an event.
    #[error("a visit wrote something that isn't an event: stop using this station")]
    NotAnEvent,
}

/// Runs visits with these arguments on these devices: one, or one after the other.
///
/// # Errors
/// [`StationError`]: the station stops and a worker is needed.
pub fn run(
    arguments: &[OsString],
    devices: &PaperDevices,
    once: bool,
    log: &mut dyn Write,
) -> Result<(), StationError> {
    loop {
        let visited = one_visit(arguments, log);
        devices.forget();
        visited?;
        if once {
            return Ok(());
        }
    }
}

fn one_visit(arguments: &[OsString], log: &mut dyn Write) -> Result<(), StationError> {
    // Held until the visit has ended: it ends when this end of the pipe does.
    let mut line = None;
    let followed =
        follow(arguments, &mut |pipe| line = Some(pipe), &mut |event| write_log(event, log));
    drop(line);
    // A visit that ended by itself has fallen silent by itself; one that died hasn't.
    let silenced = evenhand_speech::silence();
    // Without a service nothing was said.
    if let Err(fault) = silenced
        && fault != Fault::NoAddress
    {
        writeln!(log, "the speech service could not be told to be silent ({fault:?})")?;
        log.flush()?;
    }
    followed
}

/// Starts a visit's process with these arguments, gives away the pipe on which it is answered, hands
/// on each event that it tells, and returns when it has ended. The visit ends when the pipe does.
///
/// # Errors
/// [`StationError`]: it ended otherwise than by saying that the visit is over, or an event couldn't
/// be handed on: then it is ended.
pub(crate) fn follow(
    arguments: &[OsString],
    give: &mut dyn FnMut(ChildStdin),
    tell: &mut dyn FnMut(Event) -> io::Result<()>,
) -> Result<(), StationError> {
    let mut child = Command::new(env::current_exe()?)
        .arg("visit")
        .args(arguments)
        // Sizes are in millimetres by the pixel pitch: the display's own factor is left out.
        .env("WINIT_X11_SCALE_FACTOR", "1")
        // The pictures of sheets are large and short-lived: their memory goes back at once.
        .env("MALLOC_ARENA_MAX", "2")
        .env("MALLOC_MMAP_THRESHOLD_", "131072")
        .env("MALLOC_TRIM_THRESHOLD_", "131072")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    // `Child::wait` would close it at once, and so end the visit.
    child.stdin.take().into_iter().for_each(give);
    let read = child.stdout.take().map_or(Ok(false), |pipe| read_events(pipe, tell));
    if read.is_err() {
        // A visit that can't be followed mustn't go on.
        child.kill()?;
    }
    let status = child.wait()?;
    // A visit that a worker stops doesn't wait for its scanner.
    end_what_was_left(child.id())?;
    if !read? || !status.success() {
        return Err(StationError::EndedEarly(status));
    }
    Ok(())
}

/// Hands on each event until the visit closes its pipe. True where it said that it was over.
fn read_events(
    pipe: ChildStdout,
    tell: &mut dyn FnMut(Event) -> io::Result<()>,
) -> Result<bool, StationError> {
    let mut lines = BufReader::new(pipe);
    let mut is_over = false;
    loop {
        let mut line = String::new();
        let read = lines.by_ref().take(LINE_BYTES_MAX).read_line(&mut line);
        match read {
            Ok(0) => return Ok(is_over),
            Ok(_) => {}
            Err(error) if error.kind() == io::ErrorKind::InvalidData => {
                return Err(StationError::NotAnEvent);
            }
            Err(error) => return Err(error.into()),
        }
        let event = line.strip_suffix('\n').and_then(event).ok_or(StationError::NotAnEvent)?;
        is_over |= is_end(event);
        tell(event)?;
    }
}

/// A line of the log in plain words.
fn write_log(event: Event, log: &mut dyn Write) -> io::Result<()> {
    writeln!(log, "{}", word(event).replace('-', " "))?;
    log.flush()
}
