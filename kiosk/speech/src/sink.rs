//! The headphones' output at the sound server: one gain for speech and tone, and a watch on
//! whether it is there: pulled out of the machine it is gone, pulled out of their jack its port isn't
//! available, where the sound card can tell.
//!
//! A sound server moves what sounds to another output where one is pulled out: a ballot would be heard
//! at a loudspeaker, and go on there when the headphones are back. So where an output was chosen every
//! other one is muted, and what sounds elsewhere is brought here.
//!
//! The speech service alone can't tell: with no sound server its words begin and never end.

mod server;

use std::thread;
use std::time::Duration;

use crossbeam_channel::{Receiver, RecvTimeoutError, Sender, unbounded};

use crate::conductor::Input;
use crate::settings::Loudness;
use server::Server;

/// How often the connection is looked after when there is nothing to do.
const LOOK_EVERY: Duration = Duration::from_millis(200);
/// Wait between tries to connect.
const RETRY: Duration = Duration::from_millis(500);

/// The server's name for its default output.
const DEFAULT: &str = "@DEFAULT_SINK@";

/// How many channels an output has (a sink's name, or none for the server's default); none where it
/// isn't there or the server doesn't answer in time.
pub(crate) fn channels(sink: Option<&str>) -> Option<u8> {
    Server::connect()?.look(sink.unwrap_or(DEFAULT)).map(|seen| seen.channels)
}

/// An output of the sound server.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Output {
    /// The server's name of it.
    pub name: String,
    /// What the server says of it, for people; perhaps nothing.
    pub about: String,
}

/// The most outputs that are told of. Own choice.
const OUTPUTS_MAX: usize = 64;

/// The outputs that the sound server knows, by name; none where it doesn't answer in time.
pub fn outputs() -> Option<Vec<Output>> {
    let mut found = Server::connect()?.outputs()?;
    found.retain(|output| output.name != server::SILENCE);
    found.sort_by(|a, b| a.name.cmp(&b.name));
    found.truncate(OUTPUTS_MAX);
    Some(found)
}

/// Lets an output be heard that was muted while another was chosen; false where it isn't there or the
/// server doesn't answer in time.
pub(crate) fn unmute(sink: Option<&str>) -> bool {
    Server::connect().is_some_and(|mut server| server.unmute(sink.unwrap_or(DEFAULT)))
}

/// Sets an output's gain; false where it isn't there or the server doesn't answer in time.
pub(crate) fn set_loudness(sink: Option<&str>, loudness: Loudness) -> bool {
    let server = Server::connect();
    server.is_some_and(|mut server| server.set_gain(sink.unwrap_or(DEFAULT), loudness))
}

/// Starts the watch on an output (a sink's name, or none for the server's default); it ends when
/// the returned sender is dropped.
///
/// # Errors
/// The system refuses another thread.
pub(crate) fn watch(
    sink: Option<String>,
    loudness: Loudness,
    reports: Sender<Input>,
) -> Result<Sender<Loudness>, std::io::Error> {
    let (wanted, inbox) = unbounded();
    thread::Builder::new().name("sound-output".to_owned()).spawn(move || {
        let is_chosen = sink.is_some();
        let name = sink.unwrap_or_else(|| DEFAULT.to_owned());
        let mut watch = Watch { name, is_chosen, loudness, inbox, reports, was_there: None };
        watch.run();
    })?;
    Ok(wanted)
}

/// Why a connection was given up.
enum End {
    /// The voice is gone.
    Finished,
    /// The server or the output is gone.
    Lost,
}

struct Watch {
    name: String,
    /// False for the server's default: then others are let be.
    is_chosen: bool,
    loudness: Loudness,
    inbox: Receiver<Loudness>,
    reports: Sender<Input>,
    was_there: Option<bool>,
}

impl Watch {
    fn run(&mut self) {
        loop {
            match Server::connect().map_or(End::Lost, |mut server| self.attend(&mut server)) {
                End::Finished => return,
                End::Lost => {}
            }
            if !self.tell(false) {
                return;
            }
            match self.inbox.recv_timeout(RETRY) {
                Ok(loudness) => self.loudness = loudness,
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => return,
            }
        }
    }

    /// Keeps the gain as wanted until the connection or the voice ends.
    fn attend(&mut self, server: &mut Server) -> End {
        let Some(seen) = server.look(&self.name).filter(|seen| seen.is_plugged) else {
            return End::Lost;
        };
        let is_usual = !self.is_chosen || server.make_usual(&self.name);
        if !is_usual || !self.is_heard_alone(server) || !server.set_gain(&self.name, self.loudness)
        {
            return End::Lost;
        }
        if !self.tell(true) {
            return End::Finished;
        }
        loop {
            match self.inbox.recv_timeout(LOOK_EVERY) {
                Ok(loudness) => {
                    // Only the latest counts when a voter presses fast.
                    self.loudness = self.inbox.try_iter().last().unwrap_or(loudness);
                    if !server.set_gain(&self.name, self.loudness) {
                        return End::Lost;
                    }
                }
                Err(RecvTimeoutError::Timeout) => {
                    // Another in its place hasn't its gain.
                    let is_same = server.lives() && server.look(&self.name) == Some(seen);
                    if !is_same || !self.is_heard_alone(server) {
                        return End::Lost;
                    }
                }
                Err(RecvTimeoutError::Disconnected) => return End::Finished,
            }
        }
    }

    /// Makes sure that the chosen output isn't muted and that others are; false where the server
    /// doesn't answer.
    fn is_heard_alone(&self, server: &mut Server) -> bool {
        !self.is_chosen || server.leave_alone(&self.name)
    }

    /// Reports a change; false when nobody listens.
    fn tell(&mut self, there: bool) -> bool {
        if self.was_there == Some(there) {
            return true;
        }
        self.was_there = Some(there);
        self.reports.send(if there { Input::SoundFound } else { Input::SoundLost }).is_ok()
    }
}
