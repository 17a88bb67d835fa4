//! What is pressed, and what it means. Plain names: the window's and the pad library's own types
//! are mapped to these at the rim.

/// What a voter, or a worker, means by a press.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Press {
    /// To the next item.
    Next,
    /// To the previous item.
    Previous,
    /// Choose the item in focus, or undo it.
    Choose,
    /// To the screen before.
    Back,
    /// To the screen after.
    Forward,
    /// To the next group of items: the next rows of a long contest.
    NextGroup,
    /// To the previous group of items.
    PreviousGroup,
    /// Hear again.
    Repeat,
    /// One step louder.
    Louder,
    /// One step softer.
    Softer,
    /// One step faster.
    Faster,
    /// One step slower.
    Slower,
    /// Stop talking, or go on.
    Pause,
    /// Hear the sentence before.
    SentenceBack,
    /// Hear the next sentence.
    SentenceOn,
    /// Spell the name in focus.
    Spell,
    /// Hide the screen, or show it.
    HideScreen,
    /// Hear whether the screen is hidden.
    IsHidden,
    /// Help.
    Help,
    /// The settings for comfort.
    Comfort,
    /// The first of two switches: what it means is the screen's to say (usually the next item).
    FirstSwitch,
    /// The second of two switches (usually choose).
    SecondSwitch,
    /// A worker wants in.
    Worker,
}

/// A key of a keyboard, as much of it as has a meaning here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// Tab.
    Tab,
    /// Tab with Shift.
    BackTab,
    /// Enter, of either block.
    Enter,
    /// The space bar.
    Space,
    /// Escape.
    Escape,
    /// Backspace.
    Backspace,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
    /// Home.
    Home,
    /// End.
    End,
    /// A function key, 1 to 24.
    Function(u8),
    /// A key that gives a letter, digit or sign, in lower case.
    Char(char),
}

impl Key {
    /// The key of a character: blank, tab and line end are the keys of that name, letters become
    /// lower case (a caps lock must not change what a key means).
    pub fn from_char(c: char) -> Self {
        match c {
            ' ' => Self::Space,
            '\t' => Self::Tab,
            '\n' | '\r' => Self::Enter,
            '\u{1B}' => Self::Escape,
            c => Self::Char(c.to_lowercase().next().unwrap_or(c)),
        }
    }
}

/// A button of a mouse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MouseButton {
    /// Left; also what a touch looks like.
    Left,
    /// Right.
    Right,
    /// Middle.
    Middle,
}

/// A button of a pad, by where it lies or by its number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PadButton {
    /// The lower of the four under the thumb; also the first trigger of a joystick.
    South,
    /// The right of the four; also the second of a joystick.
    East,
    /// The upper of the four.
    North,
    /// The left of the four.
    West,
    /// Direction up.
    Up,
    /// Direction down.
    Down,
    /// Direction left.
    Left,
    /// Direction right.
    Right,
    /// The left shoulder.
    LeftShoulder,
    /// The right shoulder.
    RightShoulder,
    /// The small one at the left of the middle.
    Select,
    /// The small one at the right of the middle.
    Start,
    /// A button without a name, by its number on the device, from 1 (0: unknown).
    Numbered(u16),
}

/// Anything that is pressed; what [`crate::HoldOff`] keeps apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Button {
    /// A key.
    Key(Key),
    /// A mouse button.
    Mouse(MouseButton),
    /// A pad's button.
    Pad(PadButton),
}
