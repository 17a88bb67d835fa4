//! What is asked of the speech service once, without a voice: its languages, and silence.
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
    in_time("silence", ask)
}

/// The languages of the service's voices, as it names them; see [`crate::language::choose`].
///
/// For the station, before its first visit. Waits for the answer for 2 seconds at most.
///
/// # Errors
/// [`Fault`]: no address, no service, or a service that doesn't answer in time.
pub fn voices() -> Result<Vec<String>, Fault> {
    in_time("voices", || {
        let connection = open()?;
        let voices = connection.list_synthesis_voices().map_err(|_| Fault::NoService)?;
        Ok(voices.into_iter().map(|voice| voice.language).collect())
    })
}

/// Asks on a thread of its own, which may hang with the service.
fn in_time<T: Send + 'static>(
    name: &str,
    ask: impl FnOnce() -> Result<T, Fault> + Send + 'static,
) -> Result<T, Fault> {
    if std::env::var_os("SPEECHD_ADDRESS").is_none() {
        return Err(Fault::NoAddress);
    }
    let (done, wait) = bounded(1);
    thread::Builder::new()
        .name(name.to_owned())
        .spawn(move || {
            // The one who waits may have given up.
            done.send(ask()).unwrap_or_default();
        })
        .map_err(|_| Fault::NoService)?;
    wait.recv_timeout(ANSWER_MAX).map_err(|_| Fault::ServiceHung)?
}

/// Silence without a limit: it may hang with the service.
pub(crate) fn ask() -> Result<(), Fault> {
    open()?.cancel_all().map_err(|_| Fault::NoService)
}

fn open() -> Result<Connection, Fault> {
    // The crate asks for notices, which a connection without a thread of its own can't have.
    Connection::open("evenhand", "silence", "evenhand", Mode::Threaded)
        .map_err(|_| Fault::NoService)
}
