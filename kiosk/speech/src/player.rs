//! Plays recordings: one thread, a stream of its own at the sound server, on the same output as
//! the voice, so that the same gain holds.
//!
//! Invariant: a new request cuts the one before within a slice of 20 ms. It decides nothing.

use std::thread;
use std::time::Duration;

use crossbeam_channel::{Receiver, Sender, TryRecvError, unbounded};
use libpulse_binding::def::BufferAttr;
use libpulse_binding::sample::{Format, Spec};
use libpulse_binding::stream::Direction;
use libpulse_simple_binding::Simple;

use crate::conductor::{Input, Played, Ticket};
use crate::recorded::{Recording, Sound};

/// So much is handed to the sound server at a time.
const SLICE: Duration = Duration::from_millis(20);
/// So much waits at the sound server, so that a busy machine leaves no gap (own choice).
const AHEAD: Duration = Duration::from_millis(120);
/// Bytes of a sample.
const SAMPLE_BYTES: u32 = 2;

/// What the thread is asked to do.
pub(crate) enum Request {
    /// Play this, in place of what is being played.
    Play(Ticket, Recording),
    /// Silence.
    Halt,
}

/// Starts the thread; it ends when the returned sender is dropped.
///
/// # Errors
/// The system refuses another thread.
pub(crate) fn start(
    sink: Option<String>,
    reports: Sender<Input>,
) -> Result<Sender<Request>, std::io::Error> {
    let (requests, inbox) = unbounded();
    thread::Builder::new().name("recorded".to_owned()).spawn(move || {
        let player = Player { sink, inbox, reports };
        let mut next = player.inbox.recv().ok();
        while let Some(request) = next {
            let cut = match request {
                Request::Play(ticket, recording) => player.play(ticket, &recording),
                Request::Halt => None,
            };
            next = cut.or_else(|| player.inbox.recv().ok());
        }
    })?;
    Ok(requests)
}

struct Player {
    sink: Option<String>,
    inbox: Receiver<Request>,
    reports: Sender<Input>,
}

/// Why a recording wasn't played to its end.
enum End {
    /// Another request came, or the voice is gone.
    Cut(Option<Request>),
    /// It can't be opened or decoded, or the sound server refuses it.
    Failed,
}

impl Player {
    /// Plays to the end and tells so; what cut it is given back.
    fn play(&self, ticket: Ticket, recording: &Recording) -> Option<Request> {
        let played = match self.sound(ticket, recording) {
            Ok(()) => Played::Ended(ticket),
            Err(End::Failed) => Played::Failed(ticket),
            Err(End::Cut(request)) => return request,
        };
        // A voice that is gone needs no report.
        self.reports.send(Input::Player(played)).unwrap_or_default();
        None
    }

    fn sound(&self, ticket: Ticket, recording: &Recording) -> Result<(), End> {
        let Sound { rate, samples } = recording.open().map_err(|_| End::Failed)?;
        let spec = Spec { format: Format::S16le, channels: 1, rate };
        let ahead = BufferAttr {
            maxlength: u32::MAX,
            tlength: bytes_in(AHEAD, rate),
            prebuf: u32::MAX,
            minreq: u32::MAX,
            fragsize: u32::MAX,
        };
        let sink = self.sink.as_deref();
        let (play, name) = (Direction::Playback, "recording");
        let stream = Simple::new(None, "Evenhand", play, sink, name, &spec, None, Some(&ahead))
            .map_err(|_| End::Failed)?;
        self.reports.send(Input::Player(Played::Begun(ticket))).unwrap_or_default();
        let slice = usize::try_from(bytes_in(SLICE, rate)).unwrap_or(1);
        for piece in samples {
            let piece = piece.map_err(|_| End::Failed)?;
            let bytes: Vec<u8> = piece.iter().flat_map(|sample| sample.to_le_bytes()).collect();
            for slice in bytes.chunks(slice) {
                self.stay(&stream)?;
                stream.write(slice).map_err(|_| End::Failed)?;
            }
        }
        // A short recording waits for more until it is told that none comes; that also waits for
        // the end of a long one, so most of it passes here, where it can still be cut.
        while let Ok(left) = stream.get_latency()
            && left.0 > 3 * u64::try_from(SLICE.as_micros()).unwrap_or(0)
        {
            self.stay(&stream)?;
            thread::sleep(SLICE);
        }
        stream.drain().map_err(|_| End::Failed)
    }

    /// Goes on unless something else is asked for: then what waits at the sound server is dropped.
    fn stay(&self, stream: &Simple) -> Result<(), End> {
        let cut = match self.inbox.try_recv() {
            Err(TryRecvError::Empty) => return Ok(()),
            Err(TryRecvError::Disconnected) => None,
            Ok(request) => Some(request),
        };
        // A sound server that is gone plays nothing either.
        stream.flush().unwrap_or_default();
        Err(End::Cut(cut))
    }
}

/// The bytes of so much sound, whole samples.
fn bytes_in(length: Duration, rate: u32) -> u32 {
    let millis = u32::try_from(length.as_millis()).unwrap_or(0);
    rate * millis / 1_000 * SAMPLE_BYTES
}
