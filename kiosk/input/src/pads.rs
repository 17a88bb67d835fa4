//! Switches and pads that show up as a game controller, on a thread of their own.
//!
//! What gilrs can't do: it ignores a device with no button or fewer than two axes, so a plain
//! two-button interface may be invisible to it; set such an interface to be a keyboard or a mouse.
//! Not tried on hardware; the station's self-test asks for a press of every switch.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use crossbeam_channel::{Sender, bounded};
use gilrs::ev::{Axis, Code};
use gilrs::{EventType, Gilrs, GilrsBuilder};
use thiserror::Error;

use crate::press::PadButton;

/// How often the thread looks whether it is still wanted.
const LOOK_EVERY: Duration = Duration::from_millis(250);
/// The first key code of plain numbered buttons, `BTN_MISC` in Linux's `input-event-codes.h`.
const NUMBERED_FIRST: u32 = 0x100;
/// The first key code of joystick buttons, `BTN_JOYSTICK` in the same file.
const JOYSTICK_FIRST: u32 = 0x120;
/// A direction counts as pressed from here (of −1 to 1) …
const DIRECTION_DOWN: f32 = 0.6;
/// … and as let go below here, so that a worn stick doesn't chatter.
const DIRECTION_UP: f32 = 0.4;

/// What the pads report.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PadEvent {
    /// A button went down (true) or up. What it means, and whether it counts, is the window's to
    /// say: all roads share one table and one filter.
    Button(PadButton, bool),
    /// A pad was plugged in, or was there at the start.
    Connected(PadNumber),
    /// A pad was unplugged or its battery is empty: a voter who depends on it needs the worker.
    Lost(PadNumber),
}

/// Which pad, in the order in which they were first seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PadNumber(pub usize);

/// The pads couldn't be started.
#[derive(Debug, Error)]
pub enum StartError {
    /// The system refuses another thread.
    #[error("the system refuses another thread: {0}")]
    Thread(#[from] std::io::Error),
    /// The system's list of devices can't be opened.
    #[error("the list of pads can't be opened: {0}")]
    Devices(String),
}

/// The thread that reads the pads. Dropping it ends the thread.
#[derive(Debug)]
pub struct Pads {
    finished: Arc<AtomicBool>,
}

impl Pads {
    /// Reads every pad, now and when it is plugged in later; no pad at all is fine.
    ///
    /// `events` should be unbounded; the thread ends when its receiver is gone.
    ///
    /// # Errors
    /// The system refuses a thread or the list of devices.
    pub fn start(events: Sender<PadEvent>) -> Result<Self, StartError> {
        let finished = Arc::new(AtomicBool::new(false));
        let (started, outcome) = bounded(1);
        let stop = Arc::clone(&finished);
        thread::Builder::new().name("pads".to_owned()).spawn(move || match open() {
            Ok(gilrs) => {
                if started.send(Ok(())).is_ok() {
                    run(gilrs, Translator::default(), &events, &stop);
                }
            }
            // The one who asked is waiting, so this can't fail.
            Err(error) => started.send(Err(error)).unwrap_or_default(),
        })?;
        match outcome.recv() {
            Ok(Ok(())) => Ok(Self { finished }),
            Ok(Err(error)) => Err(error),
            Err(_) => Err(StartError::Devices("the thread ended at its start".to_owned())),
        }
    }
}

impl Drop for Pads {
    fn drop(&mut self) {
        self.finished.store(true, Ordering::Relaxed);
    }
}

/// Without gilrs's filters: they panic on events of a pad that they don't know, and one turns
/// directions into buttons, which is done here instead.
fn open() -> Result<Gilrs, StartError> {
    GilrsBuilder::new()
        .with_default_filters(false)
        .with_force_feedback(false)
        .build()
        .map_err(|error| StartError::Devices(error.to_string()))
}

fn run(
    mut gilrs: Gilrs,
    mut translator: Translator,
    events: &Sender<PadEvent>,
    finished: &AtomicBool,
) {
    while !finished.load(Ordering::Relaxed) {
        let Some(event) = gilrs.next_event_blocking(Some(LOOK_EVERY)) else { continue };
        let pad = PadNumber(usize::from(event.id));
        for event in translator.translate(pad, event.event) {
            if events.send(event).is_err() {
                return;
            }
        }
    }
}

/// Turns gilrs's events into ours.
#[derive(Default)]
struct Translator {
    pads: BTreeMap<PadNumber, Pad>,
}

/// What is known of a pad.
#[derive(Default)]
struct Pad {
    /// The buttons that are down, those of the cross's axes too.
    down: BTreeSet<PadButton>,
}

impl Translator {
    fn translate(&mut self, number: PadNumber, event: EventType) -> Vec<PadEvent> {
        let pad = self.pads.entry(number).or_default();
        match event {
            EventType::ButtonPressed(button, code) => pad.down(name(button, code)),
            EventType::ButtonReleased(button, code) => pad.up(name(button, code)),
            EventType::AxisChanged(Axis::DPadX, value, _) => {
                pad.direction(value, (PadButton::Left, PadButton::Right))
            }
            EventType::AxisChanged(Axis::DPadY, value, _) => {
                pad.direction(value, (PadButton::Down, PadButton::Up))
            }
            EventType::Connected => vec![PadEvent::Connected(number)],
            EventType::Disconnected => {
                // What was down is let go: it may never say so itself.
                let pad = self.pads.remove(&number).unwrap_or_default();
                let ups = pad.down.into_iter().map(|button| PadEvent::Button(button, false));
                ups.chain(std::iter::once(PadEvent::Lost(number))).collect()
            }
            // Sticks and triggers' travel mean nothing; auto-repeat is no press.
            EventType::ButtonRepeated(..)
            | EventType::ButtonChanged(..)
            | EventType::AxisChanged(..)
            | EventType::Dropped
            | EventType::ForceFeedbackEffectCompleted
            | _ => Vec::new(),
        }
    }
}

impl Pad {
    fn down(&mut self, button: PadButton) -> Vec<PadEvent> {
        self.down.insert(button);
        vec![PadEvent::Button(button, true)]
    }

    fn up(&mut self, button: PadButton) -> Vec<PadEvent> {
        self.down.remove(&button);
        vec![PadEvent::Button(button, false)]
    }

    /// Follows one axis of a cross from −1 to 1.
    fn direction(&mut self, value: f32, (low, high): (PadButton, PadButton)) -> Vec<PadEvent> {
        let before = [low, high].into_iter().find(|button| self.down.contains(button));
        let after = if value <= -DIRECTION_DOWN {
            Some(low)
        } else if value >= DIRECTION_DOWN {
            Some(high)
        } else if value.abs() < DIRECTION_UP {
            None
        } else {
            before
        };
        if after == before {
            return Vec::new();
        }
        let mut events = before.map_or_else(Vec::new, |button| self.up(button));
        events.extend(after.into_iter().flat_map(|button| self.down(button)));
        events
    }
}

/// Our name of a button: by its place if gilrs knows it, else by its number on the device.
fn name(button: gilrs::Button, code: Code) -> PadButton {
    match button {
        gilrs::Button::South => PadButton::South,
        gilrs::Button::East => PadButton::East,
        gilrs::Button::North => PadButton::North,
        gilrs::Button::West => PadButton::West,
        gilrs::Button::DPadUp => PadButton::Up,
        gilrs::Button::DPadDown => PadButton::Down,
        gilrs::Button::DPadLeft => PadButton::Left,
        gilrs::Button::DPadRight => PadButton::Right,
        gilrs::Button::LeftTrigger | gilrs::Button::LeftTrigger2 => PadButton::LeftShoulder,
        gilrs::Button::RightTrigger | gilrs::Button::RightTrigger2 => PadButton::RightShoulder,
        gilrs::Button::Select => PadButton::Select,
        gilrs::Button::Start => PadButton::Start,
        gilrs::Button::C
        | gilrs::Button::Z
        | gilrs::Button::Mode
        | gilrs::Button::LeftThumb
        | gilrs::Button::RightThumb
        | gilrs::Button::Unknown => PadButton::Numbered(number(code)),
    }
}

/// A button's number on its device, from 1; 0 for a key that is no numbered button.
fn number(code: Code) -> u16 {
    // The lower half is the key code, the upper the kind of event.
    let key = code.into_u32() & 0xFFFF;
    let first = if key >= JOYSTICK_FIRST { JOYSTICK_FIRST } else { NUMBERED_FIRST };
    key.checked_sub(first).and_then(|above| u16::try_from(above + 1).ok()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use crossbeam_channel::unbounded;
    use gilrs::{Event, GamepadId};
    use serde_json::json;

    use super::*;
    use crate::bindings::Bindings;
    use crate::press::Press;

    /// gilrs gives no way to make these but serde.
    fn pad(id: usize) -> GamepadId {
        serde_json::from_value(json!(id)).unwrap()
    }

    fn code(kind: u16, code: u16) -> Code {
        serde_json::from_value(json!({ "kind": kind, "code": code })).unwrap()
    }

    const EV_KEY: u16 = 1;
    const EV_ABS: u16 = 3;

    fn down(button: gilrs::Button, key: u16) -> EventType {
        EventType::ButtonPressed(button, code(EV_KEY, key))
    }

    fn up(button: gilrs::Button, key: u16) -> EventType {
        EventType::ButtonReleased(button, code(EV_KEY, key))
    }

    fn cross(axis: Axis, value: f32) -> EventType {
        EventType::AxisChanged(axis, value, code(EV_ABS, 16))
    }

    /// Sends events of one pad through gilrs itself and our thread's loop.
    fn check(events: &[EventType], expected: &[PadEvent]) {
        let mut gilrs = open().unwrap();
        for event in events {
            gilrs.insert_event(Event::new(pad(0), *event));
        }
        let (sender, receiver) = unbounded();
        let finished = Arc::new(AtomicBool::new(false));
        let stop = Arc::clone(&finished);
        let thread = thread::spawn(move || run(gilrs, Translator::default(), &sender, &stop));
        for wanted in expected {
            let event = receiver.recv_timeout(Duration::from_secs(5)).unwrap();
            assert_eq!(event, *wanted);
        }
        let extra = receiver.recv_timeout(Duration::from_millis(30));
        assert!(extra.is_err(), "{extra:?}");
        finished.store(true, Ordering::Relaxed);
        thread.join().unwrap();
    }

    fn pressed(button: PadButton) -> PadEvent {
        PadEvent::Button(button, true)
    }

    fn let_go(button: PadButton) -> PadEvent {
        PadEvent::Button(button, false)
    }

    #[test]
    fn the_first_two_buttons_are_the_switches() {
        use gilrs::Button::{East, South, Unknown};
        let bindings = Bindings::default();
        // A pad; a joystick (BTN_TRIGGER, BTN_THUMB); a device with plain buttons (BTN_0, BTN_1).
        for (first, second, keys, names) in [
            (South, East, (0x130, 0x131), (PadButton::South, PadButton::East)),
            (Unknown, Unknown, (0x120, 0x121), (PadButton::Numbered(1), PadButton::Numbered(2))),
            (Unknown, Unknown, (0x100, 0x101), (PadButton::Numbered(1), PadButton::Numbered(2))),
        ] {
            let events = [
                down(first, keys.0),
                EventType::ButtonChanged(first, 1.0, code(EV_KEY, keys.0)),
                up(first, keys.0),
                down(second, keys.1),
                up(second, keys.1),
            ];
            let expected = [pressed(names.0), let_go(names.0), pressed(names.1), let_go(names.1)];
            check(&events, &expected);
            assert_eq!(bindings.from_pad(names.0), Some(Press::FirstSwitch));
            assert_eq!(bindings.from_pad(names.1), Some(Press::SecondSwitch));
        }
    }

    #[test]
    fn the_cross_moves_whether_it_is_buttons_or_axes() {
        use PadButton::{Down, Left, Right, Up};
        let buttons = [
            down(gilrs::Button::DPadDown, 0x221),
            down(gilrs::Button::DPadUp, 0x220),
            down(gilrs::Button::DPadRight, 0x223),
            down(gilrs::Button::DPadLeft, 0x222),
        ];
        check(&buttons, &[Down, Up, Right, Left].map(pressed));
        let axes = [
            cross(Axis::DPadY, -1.0),
            cross(Axis::DPadY, 1.0),
            cross(Axis::DPadY, 0.0),
            cross(Axis::DPadX, 1.0),
            cross(Axis::DPadX, 0.5),
            cross(Axis::DPadX, 0.9),
            cross(Axis::DPadX, -0.7),
        ];
        let moves = [
            pressed(Down),
            let_go(Down),
            pressed(Up),
            let_go(Up),
            pressed(Right),
            let_go(Right),
            pressed(Left),
        ];
        check(&axes, &moves);
    }

    #[test]
    fn sticks_and_triggers_mean_nothing_nor_do_unknown_buttons() {
        check(
            &[
                EventType::AxisChanged(Axis::LeftStickX, 1.0, code(EV_ABS, 0)),
                EventType::ButtonChanged(gilrs::Button::LeftTrigger2, 0.7, code(EV_ABS, 2)),
                EventType::ButtonRepeated(gilrs::Button::South, code(EV_KEY, 0x130)),
                EventType::Dropped,
                EventType::ForceFeedbackEffectCompleted,
            ],
            &[],
        );
        for key in [0x2FF, 0] {
            let button = name(gilrs::Button::Unknown, code(EV_KEY, key));
            assert_eq!(Bindings::default().from_pad(button), None, "{button:?}");
        }
    }

    #[test]
    fn plugging_in_and_out_is_told_and_lets_go() {
        let south = down(gilrs::Button::South, 0x130);
        check(
            &[EventType::Connected, south, EventType::Disconnected, EventType::Connected, south],
            &[
                PadEvent::Connected(PadNumber(0)),
                pressed(PadButton::South),
                let_go(PadButton::South),
                PadEvent::Lost(PadNumber(0)),
                PadEvent::Connected(PadNumber(0)),
                pressed(PadButton::South),
            ],
        );
    }

    #[test]
    fn starting_without_a_pad_is_fine() {
        let (sender, receiver) = unbounded();
        let pads = Pads::start(sender).unwrap();
        drop(pads);
        // The thread ends and lets go of the channel.
        loop {
            match receiver.recv_timeout(Duration::from_secs(5)) {
                Ok(PadEvent::Connected(_)) => {}
                Ok(event) => panic!("{event:?}"),
                Err(error) => {
                    assert_eq!(error, crossbeam_channel::RecvTimeoutError::Disconnected);
                    break;
                }
            }
        }
    }
}
