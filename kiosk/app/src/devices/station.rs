//! The station's process, as a visit hears of it: its answers to a worker who wants in, and its end.
//! Its end of the pipe closes when it ends, however it ends.
//!
//! A visit without its station is one that nobody follows: it would go on with a window, a voice and
//! choices beside whatever is started next.

use std::io::{self, BufRead, BufReader, Read};
use std::thread;

use super::{Report, Reports};
use crate::event_words::answer;

/// The longest line that the station may write. The longest word has six letters.
const LINE_BYTES_MAX: u64 = 64;

/// Reports each answer as [`Report::Worker`], and [`Report::StationGone`] when the pipe has come to
/// its end, or says what isn't an answer.
///
/// # Errors
/// The system refuses a thread.
pub fn watch(pipe: Box<dyn Read + Send>, reports: Reports) -> io::Result<()> {
    thread::Builder::new().name("station".to_owned()).spawn(move || {
        let mut lines = BufReader::new(pipe);
        loop {
            let mut line = String::new();
            // A pipe that can't be read tells as much as one that ended.
            let report = match lines.by_ref().take(LINE_BYTES_MAX).read_line(&mut line) {
                Ok(_) => line.strip_suffix('\n').and_then(answer).map(Report::Worker),
                Err(_) => None,
            };
            let is_over = report.is_none();
            let sent = reports.unbounded_send(report.unwrap_or(Report::StationGone));
            if is_over || sent.is_err() {
                return;
            }
        }
    })?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use evenhand_visit::WorkerSays;

    use super::super::channel;
    use super::*;

    /// What is reported of these bytes.
    fn reports(bytes: &'static [u8]) -> Vec<Report> {
        let (reports, inbox) = channel();
        watch(Box::new(Cursor::new(bytes)), reports).expect("a thread");
        iced::futures::executor::block_on_stream(inbox.stream()).collect()
    }

    #[test]
    fn answers_are_reported_and_then_the_end() {
        use Report::{StationGone, Worker};
        use WorkerSays::{GoOn, NotIn, Stop};
        let told = reports(b"not-in\ngo-on\nstop\n");
        assert!(
            matches!(told[..], [Worker(NotIn), Worker(GoOn), Worker(Stop), StationGone]),
            "{told:?}"
        );
        // What isn't an answer, is cut or too long ends it, and nothing after it is taken.
        for bytes in [&b"open\ngo-on\n"[..], b"go-on", b"\xff\ngo-on\n", &[b'g'; 70]] {
            let told = reports(bytes);
            assert!(matches!(told[..], [StationGone]), "{told:?}");
        }
    }
}
