//! What is on a worker's screen, as plain data.

use alloc::collections::BTreeSet;
use alloc::string::String;
use alloc::vec::Vec;

use crate::{Button, Command, Message};

/// What goes into a message.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Arg {
    /// A whole number.
    Number(u32),
    /// A number of tenths: 240 is said as 24.0.
    Tenths(u32),
    /// The name of a button.
    Button(Button),
    /// The names of several, in a list.
    Buttons(Vec<Button>),
    /// A name or a text that the office has given.
    Text(String),
    /// Another message without arguments.
    Message(Message),
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
    /// Something worth knowing, and nothing is wrong.
    News,
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
    /// A key, by its place in [`Sheet::keys`].
    Key(u16),
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
    /// The letters or figures that can be typed here, in rows of ten.
    pub keys: Vec<char>,
    /// The words for going back, where there is something to go back to.
    pub back: Option<Line>,
    /// The words for going on, where that is possible.
    pub forward: Option<Line>,
    /// The box that is matched with a card: its width and height in pixels.
    pub card: Option<(u16, u16)>,
    /// Cells that cover the screen: how many columns and rows, and which were touched. They are
    /// taken as [`Place::Key`].
    pub grid: Option<((u16, u16), BTreeSet<u16>)>,
    /// True where the palettes' grounds and inks are shown.
    pub shows_colors: bool,
    /// What has the focus.
    pub focus: Option<Place>,
    /// True where whatever is pressed is meant as a switch: only touches of what is shown, and
    /// Escape, are commands.
    pub takes_switches: bool,
    /// True where every key is meant as itself, Escape too.
    pub takes_keys: bool,
}

impl Sheet {
    /// A screen with this title and nothing else.
    pub(crate) fn blank(heading: Message) -> Self {
        Self::of(Line::new(heading))
    }

    /// A screen with this title and nothing else.
    pub(crate) const fn of(heading: Line) -> Self {
        Self {
            place: None,
            heading,
            lines: Vec::new(),
            notice: None,
            rows: Vec::new(),
            keys: Vec::new(),
            back: None,
            forward: None,
            card: None,
            grid: None,
            shows_colors: false,
            focus: None,
            takes_switches: false,
            takes_keys: false,
        }
    }

    /// Moves the focus as a command says; the place that is taken, if it takes one.
    pub(crate) fn walk(&self, focus: &mut Option<Place>, command: Command) -> Option<Place> {
        let places: Vec<Place> = self.places().collect();
        let now = places.iter().position(|place| Some(*place) == *focus).unwrap_or(0);
        match command {
            Command::Next => {
                *focus = places.get(now.saturating_add(1)).or(places.first()).copied();
                None
            }
            Command::Previous => {
                let before = now.checked_sub(1).and_then(|before| places.get(before));
                *focus = before.or(places.last()).copied();
                None
            }
            Command::Choose => places.get(now).copied(),
            Command::Back => Some(Place::Back),
            Command::Forward => Some(Place::Forward),
            Command::Pick(place) => {
                if places.contains(&place) {
                    *focus = Some(place);
                }
                Some(place)
            }
        }
        // What isn't shown can't be taken.
        .filter(|place| places.contains(place) || self.is_cell(*place))
    }

    /// True for a cell of the grid: it is touched and never has the focus.
    fn is_cell(&self, place: Place) -> bool {
        matches!((place, &self.grid), (Place::Key(_), Some(_)))
    }

    /// Everything that can have the focus, in its order.
    pub fn places(&self) -> impl Iterator<Item = Place> {
        let keys = (0u16..).zip(&self.keys).map(|(key, _)| Place::Key(key));
        let rows = (0u16..).zip(&self.rows).map(|(row, _)| Place::Row(row));
        let forward = self.forward.iter().map(|_| Place::Forward);
        keys.chain(rows).chain(forward).chain(self.back.iter().map(|_| Place::Back))
    }
}
