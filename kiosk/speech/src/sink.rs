//! The headphones' output at the sound server: one gain for speech and tone, and a watch on
//! whether it is there.
//!
//! The speech service alone can't tell: with no sound server its words begin and never end.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::thread;
use std::time::{Duration, Instant};

use crossbeam_channel::{Receiver, RecvTimeoutError, Sender, unbounded};
use libpulse_binding::callbacks::ListResult;
use libpulse_binding::context::{Context, FlagSet, State};
use libpulse_binding::mainloop::standard::{IterateResult, Mainloop};
use libpulse_binding::time::MicroSeconds;
use libpulse_binding::volume::{ChannelVolumes, Volume, VolumeDB};

use crate::conductor::Input;
use crate::settings::Loudness;

/// How often the connection is looked after when there is nothing to do.
const LOOK_EVERY: Duration = Duration::from_millis(200);
/// The server must answer within this.
const ANSWER_MAX: Duration = Duration::from_millis(1_500);
/// Wait between tries to connect.
const RETRY: Duration = Duration::from_millis(500);

/// The server's name for its default output.
const DEFAULT: &str = "@DEFAULT_SINK@";

/// How many channels an output has (a sink's name, or none for the server's default); none where it
/// isn't there or the server doesn't answer in time.
pub(crate) fn channels(sink: Option<&str>) -> Option<u8> {
    Server::connect()?.channels(sink.unwrap_or(DEFAULT))
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
    found.sort_by(|a, b| a.name.cmp(&b.name));
    found.truncate(OUTPUTS_MAX);
    Some(found)
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
        let name = sink.unwrap_or_else(|| DEFAULT.to_owned());
        let mut watch = Watch { name, loudness, inbox, reports, was_there: None };
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
        if !server.set_gain(&self.name, self.loudness) {
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
                    if !server.lives() {
                        return End::Lost;
                    }
                }
                Err(RecvTimeoutError::Disconnected) => return End::Finished,
            }
        }
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

/// A connection to the sound server. The context goes before the loop that it hangs on.
struct Server {
    context: Context,
    mainloop: Mainloop,
}

impl Server {
    fn connect() -> Option<Self> {
        let mainloop = Mainloop::new()?;
        let mut context = Context::new(&mainloop, "Evenhand")?;
        context.connect(None, FlagSet::NOAUTOSPAWN, None).ok()?;
        let mut server = Self { context, mainloop };
        let ready = server.until(|context| context.get_state() == State::Ready);
        ready.then_some(server)
    }

    /// Turns the loop until the condition holds; false when the server is gone or too slow.
    fn until(&mut self, mut done: impl FnMut(&Context) -> bool) -> bool {
        let start = Instant::now();
        while !done(&self.context) {
            if !self.context.get_state().is_good() || start.elapsed() > ANSWER_MAX {
                return false;
            }
            let turned = self
                .mainloop
                .prepare(Some(MicroSeconds(20_000)))
                .and_then(|()| self.mainloop.poll())
                .and_then(|_| self.mainloop.dispatch());
            if turned.is_err() {
                return false;
            }
        }
        true
    }

    /// Whether the server still speaks to us.
    fn lives(&mut self) -> bool {
        // Without blocking, as long as there is something to do.
        while let IterateResult::Success(handled) = self.mainloop.iterate(false) {
            if handled == 0 {
                break;
            }
        }
        self.context.get_state() == State::Ready
    }

    /// How many channels an output has; none where it isn't there or the server doesn't answer.
    fn channels(&mut self, name: &str) -> Option<u8> {
        let channels = Rc::new(Cell::new(None));
        let seen = Rc::clone(&channels);
        let asked =
            self.context.introspect().get_sink_info_by_name(name, move |found| match found {
                ListResult::Item(sink) => seen.set(Some(sink.volume.len())),
                ListResult::End | ListResult::Error => seen.set(seen.get().or(Some(0))),
            });
        let answered = self.until(|_| channels.get().is_some());
        drop(asked);
        channels.get().filter(|count| answered && *count > 0)
    }

    /// Every output; none where the server doesn't answer.
    fn outputs(&mut self) -> Option<Vec<Output>> {
        let found = Rc::new(RefCell::new((Vec::new(), false)));
        let seen = Rc::clone(&found);
        let asked = self.context.introspect().get_sink_info_list(move |one| {
            let mut seen = seen.borrow_mut();
            match one {
                ListResult::Item(sink) => {
                    let text = |text: &Option<std::borrow::Cow<'_, str>>| {
                        text.as_deref().unwrap_or_default().to_owned()
                    };
                    seen.0.push(Output { name: text(&sink.name), about: text(&sink.description) });
                }
                ListResult::End | ListResult::Error => seen.1 = true,
            }
        });
        let answered = self.until(|_| found.borrow().1);
        drop(asked);
        let outputs = core::mem::take(&mut found.borrow_mut().0);
        answered.then_some(outputs)
    }

    /// Sets the gain; false when the output isn't there or the server doesn't answer.
    fn set_gain(&mut self, name: &str, loudness: Loudness) -> bool {
        let Some(count) = self.channels(name) else { return false };
        let mut volumes = ChannelVolumes::default();
        volumes.set(count, Volume::from(VolumeDB(f64::from(loudness.gain_db()))));
        let outcome = Rc::new(Cell::new(None));
        let told = Rc::clone(&outcome);
        let asked = self.context.introspect().set_sink_volume_by_name(
            name,
            &volumes,
            Some(Box::new(move |fine| told.set(Some(fine)))),
        );
        let answered = self.until(|_| outcome.get().is_some());
        drop(asked);
        answered && outcome.get() == Some(true)
    }
}
