//! Switches and pads that show up as a game controller, on a thread of their own.
//!
//! What gilrs can't do: it ignores a device with no button or fewer than two axes, so a plain
//! two-button interface may be invisible to it; set such an interface to be a keyboard or a mouse.
//! Not tried on hardware; the station's self-test asks for a press of every switch.
#![expect(clippy::disallowed_methods, reason = "the hold-off of a pad's buttons needs the clock")]

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use crossbeam_channel::{Sender, bounded};
use gilrs::ev::{Axis, Code};
use gilrs::{EventType, Gilrs, GilrsBuilder};
use thiserror::Error;

use crate::bindings::Bindings;
use crate::hold_off::{HoldOff, Millis};
use crate::press::{Button, PadButton, Press};

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
    /// A button with a meaning was pressed.
    Press(Press),
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
    pub fn start(
        bindings: Bindings,
        ignore: Millis,
        events: Sender<PadEvent>,
    ) -> Result<Self, StartError> {
        let finished = Arc::new(AtomicBool::new(false));
        let (started, outcome) = bounded(1);
        let stop = Arc::clone(&finished);
        thread::Builder::new().name("pads".to_owned()).spawn(move || match open() {
            Ok(gilrs) => {
                if started.send(Ok(())).is_ok() {
                    run(gilrs, Translator::new(bindings, ignore), &events, &stop);
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
    let start = Instant::now();
    while !finished.load(Ordering::Relaxed) {
        let Some(event) = gilrs.next_event_blocking(Some(LOOK_EVERY)) else { continue };
        let now = Millis(u64::try_from(start.elapsed().as_millis()).unwrap_or(u64::MAX));
        let pad = PadNumber(usize::from(event.id));
        if let Some(event) = translator.translate(pad, event.event, now)
            && events.send(event).is_err()
        {
            return;
        }
    }
}

/// Turns gilrs's events into ours. Pure: time comes in as a value.
struct Translator {
    bindings: Bindings,
    ignore: Millis,
    pads: BTreeMap<PadNumber, Pad>,
}

/// What is known of a pad.
struct Pad {
    hold_off: HoldOff,
    /// The direction that each axis of its cross is pressed in.
    across: Option<PadButton>,
    along: Option<PadButton>,
}

impl Translator {
    fn new(bindings: Bindings, ignore: Millis) -> Self {
        Self { bindings, ignore, pads: BTreeMap::new() }
    }

    fn translate(&mut self, number: PadNumber, event: EventType, now: Millis) -> Option<PadEvent> {
        let ignore = self.ignore;
        let pad = self.pads.entry(number).or_insert_with(|| Pad {
            hold_off: HoldOff::new(ignore),
            across: None,
            along: None,
        });
        let button = match event {
            EventType::ButtonPressed(button, code) => Some(name(button, code)),
            EventType::ButtonReleased(button, code) => {
                pad.hold_off.up(Button::Pad(name(button, code)), now);
                None
            }
            EventType::AxisChanged(Axis::DPadX, value, _) => {
                let ends = (PadButton::Left, PadButton::Right);
                direction(&mut pad.across, value, ends, &mut pad.hold_off, now)
            }
            EventType::AxisChanged(Axis::DPadY, value, _) => {
                let ends = (PadButton::Down, PadButton::Up);
                direction(&mut pad.along, value, ends, &mut pad.hold_off, now)
            }
            EventType::Connected => return Some(PadEvent::Connected(number)),
            EventType::Disconnected => {
                self.pads.remove(&number);
                return Some(PadEvent::Lost(number));
            }
            // Sticks and triggers' travel mean nothing; auto-repeat is no press.
            EventType::ButtonRepeated(..)
            | EventType::ButtonChanged(..)
            | EventType::AxisChanged(..)
            | EventType::Dropped
            | EventType::ForceFeedbackEffectCompleted
            | _ => None,
        }?;
        let counts = pad.hold_off.down(Button::Pad(button), now);
        let press = self.bindings.from_pad(button)?;
        counts.then_some(PadEvent::Press(press))
    }
}

/// Follows one axis of a cross from −1 to 1; the button that it presses now, if it is a new one.
fn direction(
    before: &mut Option<PadButton>,
    value: f32,
    (low, high): (PadButton, PadButton),
    hold_off: &mut HoldOff,
    now: Millis,
) -> Option<PadButton> {
    let after = if value <= -DIRECTION_DOWN {
        Some(low)
    } else if value >= DIRECTION_DOWN {
        Some(high)
    } else if value.abs() < DIRECTION_UP {
        None
    } else {
        *before
    };
    if after == *before {
        return None;
    }
    if let Some(button) = *before {
        hold_off.up(Button::Pad(button), now);
    }
    *before = after;
    after
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
    fn check(ignore: u64, events: &[EventType], expected: &[PadEvent]) {
        let mut gilrs = open().unwrap();
        for event in events {
            gilrs.insert_event(Event::new(pad(0), *event));
        }
        let (sender, receiver) = unbounded();
        let finished = Arc::new(AtomicBool::new(false));
        let stop = Arc::clone(&finished);
        let translator = Translator::new(Bindings::default(), Millis(ignore));
        let thread = thread::spawn(move || run(gilrs, translator, &sender, &stop));
        for wanted in expected {
            let event = receiver.recv_timeout(Duration::from_secs(5)).unwrap();
            assert_eq!(event, *wanted);
        }
        let extra = receiver.recv_timeout(Duration::from_millis(30));
        assert!(extra.is_err(), "{extra:?}");
        finished.store(true, Ordering::Relaxed);
        thread.join().unwrap();
    }

    #[test]
    fn the_first_two_buttons_are_the_switches() {
        use gilrs::Button::{East, South, Unknown};
        let switches = [PadEvent::Press(Press::FirstSwitch), PadEvent::Press(Press::SecondSwitch)];
        // A pad; a joystick (BTN_TRIGGER, BTN_THUMB); a device with plain buttons (BTN_0, BTN_1).
        for (first, second, keys) in [
            (South, East, (0x130, 0x131)),
            (Unknown, Unknown, (0x120, 0x121)),
            (Unknown, Unknown, (0x100, 0x101)),
        ] {
            let events = [
                down(first, keys.0),
                EventType::ButtonChanged(first, 1.0, code(EV_KEY, keys.0)),
                up(first, keys.0),
                down(second, keys.1),
                up(second, keys.1),
            ];
            check(40, &events, &switches);
        }
    }

    #[test]
    fn the_cross_moves_whether_it_is_buttons_or_axes() {
        let buttons = [
            down(gilrs::Button::DPadDown, 0x221),
            down(gilrs::Button::DPadUp, 0x220),
            down(gilrs::Button::DPadRight, 0x223),
            down(gilrs::Button::DPadLeft, 0x222),
        ];
        let axes = [
            cross(Axis::DPadY, -1.0),
            cross(Axis::DPadY, 1.0),
            cross(Axis::DPadY, 0.0),
            cross(Axis::DPadX, 1.0),
            cross(Axis::DPadX, 0.5),
            cross(Axis::DPadX, 0.9),
            cross(Axis::DPadX, -0.7),
        ];
        let moves =
            [Press::Next, Press::Previous, Press::Forward, Press::Back].map(PadEvent::Press);
        check(0, &buttons, &moves);
        check(0, &axes, &moves);
    }

    #[test]
    fn sticks_triggers_and_unknown_buttons_mean_nothing() {
        check(
            0,
            &[
                EventType::AxisChanged(Axis::LeftStickX, 1.0, code(EV_ABS, 0)),
                EventType::ButtonChanged(gilrs::Button::LeftTrigger2, 0.7, code(EV_ABS, 2)),
                EventType::ButtonRepeated(gilrs::Button::South, code(EV_KEY, 0x130)),
                EventType::Dropped,
                EventType::ForceFeedbackEffectCompleted,
                down(gilrs::Button::Unknown, 0x2FF),
                down(gilrs::Button::Unknown, 0),
            ],
            &[],
        );
    }

    #[test]
    fn plugging_in_and_out_is_told_and_lets_go() {
        let south = down(gilrs::Button::South, 0x130);
        check(
            2_000,
            &[EventType::Connected, south, EventType::Disconnected, EventType::Connected, south],
            &[
                PadEvent::Connected(PadNumber(0)),
                PadEvent::Press(Press::FirstSwitch),
                PadEvent::Lost(PadNumber(0)),
                PadEvent::Connected(PadNumber(0)),
                PadEvent::Press(Press::FirstSwitch),
            ],
        );
    }

    #[test]
    fn a_bounce_is_one_press_and_two_pads_are_independent() {
        let mut translator = Translator::new(Bindings::default(), Millis(40));
        let mut presses = Vec::new();
        let (on, off) = (down(gilrs::Button::South, 0x130), up(gilrs::Button::South, 0x130));
        for (at, number, event) in [
            (0, 0, on),
            (3, 0, off),
            (6, 0, on),
            (7, 1, on),
            (90, 0, off),
            (100, 0, on),
            (200, 0, off),
            (300, 0, on),
        ] {
            if translator.translate(PadNumber(number), event, Millis(at)).is_some() {
                presses.push((at, number));
            }
        }
        assert_eq!(presses, [(0, 0), (7, 1), (300, 0)]);
    }

    #[test]
    fn starting_without_a_pad_is_fine() {
        let (sender, receiver) = unbounded();
        let pads = Pads::start(Bindings::default(), HoldOff::BOUNCE, sender).unwrap();
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
