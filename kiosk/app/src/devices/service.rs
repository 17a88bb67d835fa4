//! A real printer, by the system's print service (CUPS) over its own socket: the document goes there
//! from memory, and is followed until it is printed or has failed.
//!
//! Invariant: a unix socket and nothing else, so no network. What failed is cancelled, and what the
//! service kept is removed, so that nothing comes out later by surprise.
#![expect(clippy::disallowed_methods, reason = "an answer is waited for, within a limit")]

use std::io::{self, Read, Write};
use std::os::unix::net::UnixStream;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use crossbeam_channel::after;
use evenhand_print::paper_of;
use evenhand_printers::{
    Condition, Job, JobNumber, JobState, Paper, Printer, Queue, ServiceError, Trouble, Verdict,
    Watch, cancel, condition, job, jobs, print, printers, remove,
};
use evenhand_visit::PrintFault;
use thiserror::Error;

/// Where CUPS listens on Debian.
pub const SOCKET_USUAL: &str = "/run/cups/cups.sock";

/// How long one question to the service may take in all.
const CALL_MAX: Duration = Duration::from_secs(10);
/// How often printer and job are looked at.
const LOOK_EVERY: Duration = Duration::from_millis(250);
/// How many looks may fail one after the other: the service may be starting anew.
const SILENT_MAX: u32 = 8;

/// Why a document isn't printed.
#[derive(Debug, Error)]
pub enum NotPrinted {
    /// Its pages can't be told from its bytes: a defect.
    #[error("the document has no pages of one size: this is a defect of Evenhand")]
    NoPages,
    /// The printer says why.
    #[error("the printer: {0:?}. See what its own display says, then print again")]
    Trouble(Trouble),
    /// The service doesn't answer, or not as it should.
    #[error(transparent)]
    Service(#[from] ServiceError),
}

/// A printer at the print service.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ServicePrinter {
    socket: PathBuf,
    queue: Queue,
}

/// The printers that the service on this socket knows.
///
/// # Errors
/// [`ServiceError`].
pub fn service_printers(socket: &Path) -> Result<Vec<Printer>, ServiceError> {
    printers(Call::to(socket)?)
}

impl ServicePrinter {
    /// The printer of this name at the service on this socket.
    pub const fn new(socket: PathBuf, queue: Queue) -> Self {
        Self { socket, queue }
    }

    /// Prints a document, and returns when it is printed or has failed. Where it failed it is
    /// cancelled.
    ///
    /// # Errors
    /// [`NotPrinted`].
    pub fn print(&self, document: &[u8]) -> Result<(), NotPrinted> {
        let paper = paper(document).ok_or(NotPrinted::NoPages)?;
        // What a process that died has left must not come out now.
        self.clear()?;
        let before = condition(self.call()?, &self.queue)?;
        if before.is_stopped {
            return Err(NotPrinted::Trouble(trouble_of(&before)));
        }
        let followed = match print(self.call()?, &self.queue, document, paper) {
            Ok(number) => self.follow(number, &before),
            Err(error) => Err(error.into()),
        };
        // Printed or not, nothing of it stays with the service.
        if let Err(error) = self.clear() {
            tell(&format!("a document may still lie with the print service: {error}"));
        }
        followed
    }

    fn call(&self) -> Result<Call, ServiceError> {
        Ok(Call::to(&self.socket)?)
    }

    /// Cancels and removes all that the service still has of ours: after a visit, whose process may
    /// have ended before its printer did.
    ///
    /// # Errors
    /// [`ServiceError`].
    pub fn clear(&self) -> Result<(), ServiceError> {
        for number in jobs(self.call()?, &self.queue)? {
            remove(self.call()?, &self.queue, number)?;
        }
        Ok(())
    }

    /// Looks until the document is printed or has failed.
    fn follow(&self, number: JobNumber, before: &Condition) -> Result<(), NotPrinted> {
        let mut watch = Watch::new(before);
        let (start, mut silent) = (Instant::now(), 0);
        loop {
            let trouble = match self.look(number) {
                Ok((condition, job)) => {
                    silent = 0;
                    match watch.look(start.elapsed(), &condition, &job) {
                        Verdict::Wait => None,
                        Verdict::Printed => return Ok(()),
                        Verdict::Failed(trouble) => Some(NotPrinted::Trouble(trouble)),
                    }
                }
                Err(error) => {
                    silent += 1;
                    (silent >= SILENT_MAX).then_some(NotPrinted::Service(error))
                }
            };
            if let Some(trouble) = trouble {
                return self.give_up(number).ok_or(trouble);
            }
            pause(LOOK_EVERY);
        }
    }

    fn look(&self, number: JobNumber) -> Result<(Condition, Job), ServiceError> {
        let job = job(self.call()?, &self.queue, number)?;
        Ok((condition(self.call()?, &self.queue)?, job))
    }

    /// Cancels the document. Something where it came out meanwhile all the same.
    fn give_up(&self, number: JobNumber) -> Option<()> {
        match self.call().and_then(|call| cancel(call, &self.queue, number)) {
            Ok(true) => None,
            Ok(false) => {
                let (_, job) = self.look(number).ok()?;
                (job.state == JobState::Completed).then_some(())
            }
            Err(error) => {
                tell(&format!("a document that failed could not be cancelled: {error}"));
                None
            }
        }
    }
}

/// What a voter and the log are told. An open cover and used-up ink are faults of a printer that
/// answers: a worker sees which on the printer itself.
pub fn fault_of(error: &NotPrinted) -> PrintFault {
    match error {
        NotPrinted::Trouble(Trouble::NoPaper) => PrintFault::OutOfPaper,
        NotPrinted::Trouble(Trouble::Jam) => PrintFault::Jam,
        NotPrinted::NoPages
        | NotPrinted::Trouble(Trouble::Refused)
        | NotPrinted::Service(ServiceError::NotMade(_)) => PrintFault::NotMade,
        NotPrinted::Trouble(
            Trouble::CoverOpen | Trouble::NoInk | Trouble::Offline | Trouble::Stopped,
        )
        | NotPrinted::Service(_) => PrintFault::Offline,
    }
}

fn trouble_of(condition: &Condition) -> Trouble {
    condition.troubles.first().copied().unwrap_or(Trouble::Stopped)
}

/// The paper in the measure that printers are told.
pub(crate) fn paper(document: &[u8]) -> Option<Paper> {
    let found = paper_of(document)?;
    let mil =
        |length: evenhand_rules::Micrometres| u32::try_from(length.0.checked_mul(10)? / 254).ok();
    Some(Paper { width_mil: mil(found.width)?, length_mil: mil(found.length)?, sides: found.sides })
}

/// Waits so long.
pub(crate) fn pause(time: Duration) {
    // A channel that only ever says that the time is over.
    after(time).into_iter().take(1).for_each(|_| {});
}

/// Says something to whoever keeps the station's log.
pub(crate) fn tell(line: &str) {
    // With no standard error there is nobody to tell; the fault itself is told all the same.
    writeln!(io::stderr(), "evenhand: {line}").unwrap_or_default();
}

/// A connection to the service that ends when its time is over, however slowly the other side
/// speaks.
struct Call {
    stream: UnixStream,
    until: Instant,
}

impl Call {
    fn to(socket: &Path) -> io::Result<Self> {
        let stream = UnixStream::connect(socket)?;
        Ok(Self { stream, until: Instant::now() + CALL_MAX })
    }

    fn left(&self) -> io::Result<Option<Duration>> {
        let left = self.until.saturating_duration_since(Instant::now());
        if left.is_zero() { Err(io::ErrorKind::TimedOut.into()) } else { Ok(Some(left)) }
    }
}

impl Read for Call {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        self.stream.set_read_timeout(self.left()?)?;
        self.stream.read(to)
    }
}

impl Write for Call {
    fn write(&mut self, from: &[u8]) -> io::Result<usize> {
        self.stream.set_write_timeout(self.left()?)?;
        self.stream.write(from)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.stream.flush()
    }
}
