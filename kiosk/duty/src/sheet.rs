//! What is on a worker's screen, as plain data.

use alloc::vec::Vec;

use crate::{Button, Message};

/// What goes into a message.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arg {
    /// A whole number.
    Number(u32),
    /// A number of tenths: 240 is said as 24.0.
    Tenths(u32),
    /// The name of a button.
    Button(Button),
}

/// A message with its arguments.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Which message.
    pub message: Message,
    /// Its arguments by name.
    pub args: Vec<(&'static str, Arg)>,
}

impl Line {
    /// A message without arguments.
    pub const fn new(message: Message) -> Self {
        Self { message, args: Vec::new() }
    }

    /// The same with one more argument.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: Arg) -> Self {
        self.args.push((name, arg));
        self
    }
}

/// How grave a notice is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Something isn't as it should be, and can be put right here.
    Caution,
    /// Something failed.
    Fault,
}

/// Something that can have the focus and be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// A row, by its place in [`Sheet::rows`].
    Row(u16),
    /// To the screen before.
    Back,
    /// To the screen after.
    Forward,
}

/// Everything on one screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Which step this is, of how many.
    pub place: Option<Line>,
    /// The title.
    pub heading: Line,
    /// Lines under the title.
    pub lines: Vec<Line>,
    /// A band at the top.
    pub notice: Option<(Tone, Line)>,
    /// What can be done here.
    pub rows: Vec<Line>,
    /// The words for going back, where there is something to go back to.
    pub back: Option<Line>,
    /// The words for going on, where that is possible.
    pub forward: Option<Line>,
    /// The box that is matched with a card: its width and height in pixels.
    pub card: Option<(u16, u16)>,
    /// What has the focus.
    pub focus: Option<Place>,
    /// True where whatever is pressed is meant as a switch: only touches of what is shown, and
    /// Escape, are commands.
    pub takes_switches: bool,
}

impl Sheet {
    /// Everything that can have the focus, in its order.
    pub fn places(&self) -> impl Iterator<Item = Place> {
        let rows = (0u16..).zip(&self.rows).map(|(row, _)| Place::Row(row));
        let forward = self.forward.iter().map(|_| Place::Forward);
        rows.chain(forward).chain(self.back.iter().map(|_| Place::Back))
    }
}
