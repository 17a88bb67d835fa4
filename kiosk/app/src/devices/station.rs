//! Whether the station's process is still there: its end of a pipe closes when it ends, however it
//! ends.
//!
//! A visit without its station is one that nobody follows: it would go on with a window, a voice and
//! choices beside whatever is started next.

use std::io::{self, Read};
use std::thread;

use super::{Report, Reports};

/// Reports [`Report::StationGone`] when the pipe has come to its end.
///
/// # Errors
/// The system refuses a thread.
pub fn watch(mut pipe: Box<dyn Read + Send>, reports: Reports) -> io::Result<()> {
    thread::Builder::new().name("station".to_owned()).spawn(move || {
        // Nothing is ever written into it. A pipe that can't be read tells as much as one that ended.
        match io::copy(&mut pipe, &mut io::sink()) {
            Ok(_) | Err(_) => reports.unbounded_send(Report::StationGone).unwrap_or_default(),
        }
    })?;
    Ok(())
}
