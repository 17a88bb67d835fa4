//! What a client that is gone left with the speech service.
//!
//! The service says to the end what a client asked for, also when that client's process has died:
//! the words of a visit that was stopped in mid-sentence would sound in the next voter's ears.

use std::thread;
use std::time::Duration;

use crossbeam_channel::bounded;
use speech_dispatcher::{Connection, Mode};

use crate::fault::Fault;

/// Longest wait for the service's answer.
const ANSWER_MAX: Duration = Duration::from_secs(2);

/// Drops every text that any client has with the service, at once; what sounds is cut.
///
/// For the station, when a visit's process has ended. Waits for the answer for 2 seconds at most.
///
/// # Errors
/// [`Fault`]: no address, no service, or a service that doesn't answer in time.
pub fn silence() -> Result<(), Fault> {
    if std::env::var_os("SPEECHD_ADDRESS").is_none() {
        return Err(Fault::NoAddress);
    }
    let (done, wait) = bounded(1);
    thread::Builder::new()
        .name("silence".to_owned())
        .spawn(move || {
            // The one who waits may have given up.
            done.send(ask()).unwrap_or_default();
        })
        .map_err(|_| Fault::NoService)?;
    wait.recv_timeout(ANSWER_MAX).map_err(|_| Fault::ServiceHung)?
}

/// The same without a limit: it may hang with the service.
pub(crate) fn ask() -> Result<(), Fault> {
    // The crate asks for notices, which a connection without a thread of its own can't have.
    let connection = Connection::open("evenhand", "silence", "evenhand", Mode::Threaded)
        .map_err(|_| Fault::NoService)?;
    connection.cancel_all().map_err(|_| Fault::NoService)
}
