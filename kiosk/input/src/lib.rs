//! Keys, pads, mouse buttons and switches to [`Press`]es.
//!
//! Invariant: it sees buttons, never selections. Whatever road a press takes (a key, a mouse
//! button, a pad), the same [`Press`] comes out, so that no screen can tell roads apart.
//! No press needs to be held, timed, repeated quickly or combined with another: there is no
//! meaning here that depends on how long, how often or together with what a button is down.
//!
//! Start reading at [`bindings`] (the one table), then [`names`], [`hold_off`] and [`touch`] (what
//! counts as one press), then [`pads`] (the only part with a thread and a device).

pub mod bindings;
pub mod hold_off;
pub mod names;
pub mod pads;
pub mod press;
pub mod touch;

pub use bindings::{Bindings, MouseRoad};
pub use hold_off::{HoldOff, Millis, Shape};
pub use names::NoSuchButton;
pub use pads::{PadEvent, PadNumber, Pads, StartError};
pub use press::{Button, Key, MouseButton, PadButton, Press};
pub use touch::Touches;
