//! A connection to the sound server: what outputs there are, and what is asked of them.
//!
//! Invariant: every question is answered within [`ANSWER_MAX`] or counts as not answered.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::{Duration, Instant};

use libpulse_binding::callbacks::ListResult;
use libpulse_binding::context::introspect::SinkInfo;
use libpulse_binding::context::{Context, FlagSet, State};
use libpulse_binding::def::PortAvailable;
use libpulse_binding::mainloop::standard::{IterateResult, Mainloop};
use libpulse_binding::operation::Operation;
use libpulse_binding::time::MicroSeconds;
use libpulse_binding::volume::{ChannelVolumes, Volume, VolumeDB};

use super::Output;
use crate::settings::Loudness;

/// The server must answer within this.
const ANSWER_MAX: Duration = Duration::from_millis(1_500);
/// An output of our own at which nothing is heard: what sounds is moved there where the headphones are
/// pulled out. Without another output the sound server ends the streams.
pub(super) const SILENCE: &str = "evenhand-silence";
/// The property that names the output that one passes its sound on to.
const MASTER: &str = "device.master_device";

/// What is seen of an output.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Seen {
    /// The server's number of it: one that was pulled out and put in again has another.
    index: u32,
    pub(super) channels: u8,
    /// False where its jack says that nothing is in it, or where a loudspeaker has taken its place.
    pub(super) is_plugged: bool,
}

impl Seen {
    fn of(sink: &SinkInfo<'_>) -> Self {
        let ports: Vec<&str> = sink.ports.iter().filter_map(|port| port.name.as_deref()).collect();
        let active = sink.active_port.as_ref();
        let active = active.map(|port| (port.name.as_deref().unwrap_or_default(), port.available));
        Self {
            index: sink.index,
            channels: sink.volume.len(),
            is_plugged: is_plugged(&ports, active),
        }
    }
}

/// Whether headphones are in an output with these ports. A card often has one output for headphones
/// and a loudspeaker, and turns to the loudspeaker when the headphones go: where a port is for
/// headphones by its name (as ALSA's and PulseAudio's own profiles call them, from memory), it must be
/// the active one.
fn is_plugged(ports: &[&str], active: Option<(&str, PortAvailable)>) -> bool {
    let is_for_ears = |name: &str| {
        let name = name.to_lowercase();
        ["headphone", "headset"].iter().any(|word| name.contains(word))
    };
    let has_one_for_ears = ports.iter().any(|port| is_for_ears(port));
    active.is_none_or(|(name, available)| {
        available != PortAvailable::No && (!has_one_for_ears || is_for_ears(name))
    })
}

/// An output, as far as it matters who hears it.
struct Heard {
    index: u32,
    name: String,
    /// The output that it passes its sound on to, where it is none of its own.
    master: Option<String>,
    is_muted: bool,
}

/// The numbers of an output and of those that it passes its sound on to.
fn passes_on(outputs: &[Heard], name: &str) -> Vec<u32> {
    let mut own = Vec::new();
    let mut next = Some(name.to_owned());
    while let Some(output) =
        next.take().and_then(|name| outputs.iter().find(|output| output.name == name))
    {
        if own.contains(&output.index) {
            break;
        }
        own.push(output.index);
        next.clone_from(&output.master);
    }
    own
}

/// What was collected of a list, and whether that is all of it.
type Collected<T> = Rc<RefCell<(Vec<T>, bool)>>;
/// Tells whether something was done.
type Teller = Box<dyn FnMut(bool)>;

/// A connection to the sound server. The context goes before the loop that it hangs on.
pub(super) struct Server {
    context: Context,
    mainloop: Mainloop,
}

impl Server {
    pub(super) fn connect() -> Option<Self> {
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
    pub(super) fn lives(&mut self) -> bool {
        // Without blocking, as long as there is something to do.
        while let IterateResult::Success(handled) = self.mainloop.iterate(false) {
            if handled == 0 {
                break;
            }
        }
        self.context.get_state() == State::Ready
    }

    /// What is seen of an output; none where it isn't there or the server doesn't answer.
    pub(super) fn look(&mut self, name: &str) -> Option<Seen> {
        let answer = Rc::new(Cell::new(None));
        let told = Rc::clone(&answer);
        let asked = self.context.introspect().get_sink_info_by_name(name, move |found| {
            let seen = match found {
                ListResult::Item(sink) => Some(Seen::of(sink)),
                ListResult::End | ListResult::Error => told.get().flatten(),
            };
            told.set(Some(seen));
        });
        let answered = self.until(|_| answer.get().is_some());
        drop(asked);
        answer.get().flatten().filter(|seen| answered && seen.channels > 0)
    }

    /// Every output; none where the server doesn't answer.
    pub(super) fn outputs(&mut self) -> Option<Vec<Output>> {
        self.each_sink(|sink| {
            let text = |text: &Option<std::borrow::Cow<'_, str>>| {
                text.as_deref().unwrap_or_default().to_owned()
            };
            Output { name: text(&sink.name), about: text(&sink.description) }
        })
    }

    /// This of every output; none where the server doesn't answer.
    fn each_sink<T: 'static>(
        &mut self,
        of: impl Fn(&SinkInfo<'_>) -> T + 'static,
    ) -> Option<Vec<T>> {
        let found: Collected<T> = Rc::new(RefCell::new((Vec::new(), false)));
        let seen = Rc::clone(&found);
        let asked = self.context.introspect().get_sink_info_list(move |one| {
            let mut seen = seen.borrow_mut();
            match one {
                ListResult::Item(sink) => seen.0.push(of(sink)),
                ListResult::End | ListResult::Error => seen.1 = true,
            }
        });
        let answered = self.until(|_| found.borrow().1);
        drop(asked);
        let outputs = core::mem::take(&mut found.borrow_mut().0);
        answered.then_some(outputs)
    }

    /// The streams of programs: the number of each and of the output that it sounds at. None where
    /// the server doesn't answer.
    fn streams(&mut self) -> Option<Vec<(u32, u32)>> {
        let found: Collected<(u32, u32)> = Rc::default();
        let seen = Rc::clone(&found);
        let asked = self.context.introspect().get_sink_input_info_list(move |one| {
            let mut seen = seen.borrow_mut();
            match one {
                // Those of no client pass an output's sound on to another.
                ListResult::Item(stream) if stream.client.is_some() => {
                    seen.0.push((stream.index, stream.sink));
                }
                ListResult::Item(_) => {}
                ListResult::End | ListResult::Error => seen.1 = true,
            }
        });
        let answered = self.until(|_| found.borrow().1);
        drop(asked);
        let streams = core::mem::take(&mut found.borrow_mut().0);
        answered.then_some(streams)
    }

    /// Has all that sounds sound at this output and at no other: others are muted, but for those that
    /// it passes its sound on to; what sounds elsewhere is moved here, and what comes after begins
    /// here. False where the server doesn't answer.
    pub(super) fn leave_alone(&mut self, name: &str) -> bool {
        let outputs = self.each_sink(|sink| Heard {
            index: sink.index,
            name: sink.name.as_deref().unwrap_or_default().to_owned(),
            master: sink.proplist.get_str(MASTER),
            is_muted: sink.mute,
        });
        let Some(outputs) = outputs else { return false };
        let own = passes_on(&outputs, name);
        // Without the chosen one there is nothing that it must be kept from.
        let Some(chosen) = own.first().copied() else { return true };
        if outputs.iter().all(|output| output.name != SILENCE) && !self.make_silence() {
            return false;
        }
        for output in outputs.iter().filter(|output| output.is_muted == own.contains(&output.index))
        {
            if !self.mute(output.index, !output.is_muted) {
                return false;
            }
        }
        let Some(streams) = self.streams() else { return false };
        let elsewhere: Vec<u32> =
            streams.into_iter().filter(|(_, at)| *at != chosen).map(|(stream, _)| stream).collect();
        elsewhere.is_empty()
            || (self.make_usual(name) && elsewhere.into_iter().all(|one| self.bring(one, chosen)))
    }

    /// False where the server doesn't answer. One that refuses has other outputs, or none: then it is
    /// as it was.
    fn make_silence(&mut self) -> bool {
        let outcome = Rc::new(Cell::new(None));
        let told = Rc::clone(&outcome);
        let arguments = format!("sink_name={SILENCE} sink_properties=device.description={SILENCE}");
        let done =
            self.context.introspect().load_module("module-null-sink", &arguments, move |_| {
                told.set(Some(()));
            });
        let answered = self.until(|_| outcome.get().is_some());
        drop(done);
        answered
    }

    fn mute(&mut self, index: u32, is_muted: bool) -> bool {
        // One that has just been pulled out can't be muted, and needn't be.
        self.ask(|context, told| {
            context.introspect().set_sink_mute_by_index(index, is_muted, Some(told))
        })
        .is_some()
    }

    fn bring(&mut self, stream: u32, to: u32) -> bool {
        // One that has just ended can't be moved, and needn't be.
        self.ask(|context, told| {
            context.introspect().move_sink_input_by_index(stream, to, Some(told))
        })
        .is_some()
    }

    /// Makes it the output that streams begin at; false where the server doesn't answer.
    pub(super) fn make_usual(&mut self, name: &str) -> bool {
        self.ask(|context, told| context.set_default_sink(name, told)).is_some()
    }

    /// Lets an output be heard that was muted while another was chosen; false when it isn't there or
    /// the server doesn't answer.
    pub(super) fn unmute(&mut self, name: &str) -> bool {
        self.ask(|context, told| {
            context.introspect().set_sink_mute_by_name(name, false, Some(told))
        }) == Some(true)
    }

    /// Sets the gain; false when the output isn't there or the server doesn't answer.
    pub(super) fn set_gain(&mut self, name: &str, loudness: Loudness) -> bool {
        let Some(seen) = self.look(name).filter(|_| self.unmute(name)) else { return false };
        let mut volumes = ChannelVolumes::default();
        volumes.set(seen.channels, Volume::from(VolumeDB(f64::from(loudness.gain_db()))));
        self.ask(|context, told| {
            context.introspect().set_sink_volume_by_name(name, &volumes, Some(told))
        }) == Some(true)
    }

    /// Asks for something; whether it was done, or none where the server doesn't answer.
    fn ask(
        &mut self,
        ask: impl FnOnce(&mut Context, Teller) -> Operation<dyn FnMut(bool)>,
    ) -> Option<bool> {
        let outcome = Rc::new(Cell::new(None));
        let told = Rc::clone(&outcome);
        let asked = ask(&mut self.context, Box::new(move |fine| told.set(Some(fine))));
        let answered = self.until(|_| outcome.get().is_some());
        drop(asked);
        outcome.get().filter(|_| answered)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headphones_whose_card_turns_to_a_loudspeaker_are_out() {
        use PortAvailable::{No, Unknown, Yes};
        let both = ["analog-output-speaker", "analog-output-headphones"];
        let active = |name, available| Some((name, available));
        assert!(is_plugged(&both, active("analog-output-headphones", Yes)));
        assert!(!is_plugged(&both, active("analog-output-headphones", No)));
        assert!(!is_plugged(&both, active("analog-output-speaker", Unknown)));
        assert!(!is_plugged(&["[Out] Speaker", "[Out] Headphones"], active("[Out] Speaker", Yes)));
        assert!(is_plugged(&["[Out] Headset"], active("[Out] Headset", Unknown)));
        // Nothing is known of these but what their jack says.
        assert!(is_plugged(&["analog-output"], active("analog-output", Unknown)));
        assert!(!is_plugged(&["analog-output-lineout"], active("analog-output-lineout", No)));
        assert!(is_plugged(&[], None));
    }

    #[test]
    fn what_an_output_passes_its_sound_on_to_is_found() {
        let output = |index, name: &str, master: Option<&str>| Heard {
            index,
            name: name.to_owned(),
            master: master.map(str::to_owned),
            is_muted: false,
        };
        let outputs = [
            output(3, "card", None),
            output(5, "loudspeaker", None),
            output(7, "headphones", Some("softer")),
            output(8, "softer", Some("card")),
            // Two that name one another, and one that names nobody.
            output(9, "this", Some("that")),
            output(10, "that", Some("this")),
            output(11, "lost", Some("gone")),
        ];
        assert_eq!(passes_on(&outputs, "headphones"), [7, 8, 3]);
        assert_eq!(passes_on(&outputs, "loudspeaker"), [5]);
        assert_eq!(passes_on(&outputs, "this"), [9, 10]);
        assert_eq!(passes_on(&outputs, "lost"), [11]);
        assert_eq!(passes_on(&outputs, "nowhere"), Vec::<u32>::new());
    }
}
