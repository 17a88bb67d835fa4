//! The one table of which button means what.

use crate::press::{Button, Key, MouseButton, PadButton, Press};

/// Whether mouse buttons are two switches.
///
/// Most switch interfaces can present themselves as a mouse. The left button is also what a touch
/// looks like, so this road is open only when the office's settings say that it is in use.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MouseRoad {
    /// The mouse points; its buttons aren't switches.
    #[default]
    Pointing,
    /// Left is the first switch, right the second.
    TwoSwitches,
}

/// Which button means what. One table, so that help texts and tests can list it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Bindings {
    mouse_road: MouseRoad,
    learned: Option<(Button, Button)>,
}

/// The table. Reading order: moving, choosing, screens, sound, help, switches.
const TABLE: &[(Button, Press)] = &[
    (Button::Key(Key::Down), Press::Next),
    (Button::Key(Key::Tab), Press::Next),
    (Button::Key(Key::Up), Press::Previous),
    (Button::Key(Key::BackTab), Press::Previous),
    (Button::Pad(PadButton::Down), Press::Next),
    (Button::Pad(PadButton::Up), Press::Previous),
    (Button::Key(Key::Enter), Press::Choose),
    (Button::Key(Key::Space), Press::Choose),
    (Button::Key(Key::Right), Press::Forward),
    (Button::Key(Key::Left), Press::Back),
    (Button::Key(Key::Escape), Press::Back),
    (Button::Pad(PadButton::Right), Press::Forward),
    (Button::Pad(PadButton::Left), Press::Back),
    (Button::Key(Key::PageDown), Press::NextGroup),
    (Button::Key(Key::PageUp), Press::PreviousGroup),
    (Button::Key(Key::Char('r')), Press::Repeat),
    (Button::Pad(PadButton::North), Press::Repeat),
    (Button::Key(Key::Char('+')), Press::Louder),
    (Button::Key(Key::Char('=')), Press::Louder),
    (Button::Key(Key::Char('-')), Press::Softer),
    (Button::Key(Key::Char(']')), Press::Faster),
    (Button::Key(Key::Char('[')), Press::Slower),
    (Button::Key(Key::Char('p')), Press::Pause),
    (Button::Key(Key::Char(',')), Press::SentenceBack),
    (Button::Key(Key::Char('.')), Press::SentenceOn),
    (Button::Key(Key::Char('s')), Press::Spell),
    (Button::Key(Key::Char('v')), Press::HideScreen),
    (Button::Key(Key::Char('w')), Press::IsHidden),
    (Button::Key(Key::Function(1)), Press::Help),
    (Button::Key(Key::Char('h')), Press::Help),
    (Button::Pad(PadButton::Select), Press::Help),
    (Button::Key(Key::Function(2)), Press::Comfort),
    (Button::Key(Key::Char('c')), Press::Comfort),
    (Button::Pad(PadButton::Start), Press::Comfort),
    (Button::Key(Key::Char('1')), Press::FirstSwitch),
    (Button::Key(Key::Char('2')), Press::SecondSwitch),
    (Button::Pad(PadButton::South), Press::FirstSwitch),
    (Button::Pad(PadButton::East), Press::SecondSwitch),
    (Button::Pad(PadButton::Numbered(1)), Press::FirstSwitch),
    (Button::Pad(PadButton::Numbered(2)), Press::SecondSwitch),
    (Button::Pad(PadButton::West), Press::Choose),
    (Button::Key(Key::Function(10)), Press::Worker),
];

/// The mouse buttons' rows, in force on [`MouseRoad::TwoSwitches`] only.
const MOUSE_TABLE: &[(Button, Press)] = &[
    (Button::Mouse(MouseButton::Left), Press::FirstSwitch),
    (Button::Mouse(MouseButton::Right), Press::SecondSwitch),
];

impl Bindings {
    /// The table with this use of the mouse.
    pub fn new(mouse_road: MouseRoad) -> Self {
        Self { mouse_road, learned: None }
    }

    /// The same, with the first and the second switch that a worker has taught the station. What
    /// these two buttons mean else they don't mean any more; the table's own switches stay switches.
    #[must_use]
    pub fn with_learned(self, learned: Option<(Button, Button)>) -> Self {
        Self { learned, ..self }
    }

    /// True where the mouse's left button, which is also what a touch looks like, is a switch: then
    /// a touch means the switch and not its place.
    pub fn is_touch_a_switch(&self) -> bool {
        self.press(Button::Mouse(MouseButton::Left)).is_some()
    }

    /// What a button means, if anything.
    pub fn press(&self, button: Button) -> Option<Press> {
        match self.learned {
            Some((first, _)) if first == button => Some(Press::FirstSwitch),
            Some((_, second)) if second == button => Some(Press::SecondSwitch),
            Some(_) | None => self.rows().find(|(of, _)| *of == button).map(|(_, press)| press),
        }
    }

    /// What a key means, if anything. In a write-in typed on a keyboard the app asks this only
    /// for keys that aren't text.
    pub fn from_key(&self, key: Key) -> Option<Press> {
        self.press(Button::Key(key))
    }

    /// What a mouse button means, if anything.
    pub fn from_mouse(&self, button: MouseButton) -> Option<Press> {
        self.press(Button::Mouse(button))
    }

    /// What a pad's button means, if anything.
    pub fn from_pad(&self, button: PadButton) -> Option<Press> {
        self.press(Button::Pad(button))
    }

    /// The table's rows, in reading order.
    pub fn rows(&self) -> impl Iterator<Item = (Button, Press)> + use<> {
        let mouse = match self.mouse_road {
            MouseRoad::Pointing => &[],
            MouseRoad::TwoSwitches => MOUSE_TABLE,
        };
        TABLE.iter().chain(mouse).copied()
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn no_button_has_two_meanings() {
        let rows: Vec<_> = Bindings::new(MouseRoad::TwoSwitches).rows().collect();
        let buttons: BTreeSet<_> = rows.iter().map(|(button, _)| button).collect();
        assert_eq!(buttons.len(), rows.len());
    }

    #[test]
    fn every_meaning_has_a_key() {
        let all = [
            Press::Next,
            Press::Previous,
            Press::Choose,
            Press::Back,
            Press::Forward,
            Press::NextGroup,
            Press::PreviousGroup,
            Press::Repeat,
            Press::Louder,
            Press::Softer,
            Press::Faster,
            Press::Slower,
            Press::Pause,
            Press::SentenceBack,
            Press::SentenceOn,
            Press::Spell,
            Press::HideScreen,
            Press::IsHidden,
            Press::Help,
            Press::Comfort,
            Press::FirstSwitch,
            Press::SecondSwitch,
            Press::Worker,
        ];
        let by_key: BTreeSet<_> = Bindings::default()
            .rows()
            .filter(|(button, _)| matches!(button, Button::Key(_)))
            .map(|(_, press)| press)
            .collect();
        assert_eq!(by_key, all.into_iter().collect());
    }

    #[test]
    fn switches_work_by_key_pad_and_mouse() {
        let bindings = Bindings::new(MouseRoad::TwoSwitches);
        assert_eq!(bindings.from_key(Key::from_char('1')), Some(Press::FirstSwitch));
        assert_eq!(bindings.from_key(Key::from_char('2')), Some(Press::SecondSwitch));
        assert_eq!(bindings.from_mouse(MouseButton::Left), Some(Press::FirstSwitch));
        assert_eq!(bindings.from_mouse(MouseButton::Right), Some(Press::SecondSwitch));
        assert_eq!(bindings.from_pad(PadButton::Numbered(2)), Some(Press::SecondSwitch));
        assert_eq!(bindings.from_mouse(MouseButton::Middle), None);
    }

    #[test]
    fn a_touch_is_no_switch_unless_the_settings_say_so() {
        assert_eq!(Bindings::default().from_mouse(MouseButton::Left), None);
        assert_eq!(Bindings::default().from_mouse(MouseButton::Right), None);
    }

    #[test]
    fn a_learned_switch_goes_before_the_table() {
        let (enter, left) = (Button::Key(Key::Enter), Button::Mouse(MouseButton::Left));
        let bindings = Bindings::default();
        assert!(!bindings.is_touch_a_switch());
        let bindings = bindings.with_learned(Some((left, enter)));
        assert!(bindings.is_touch_a_switch());
        assert_eq!(bindings.press(left), Some(Press::FirstSwitch));
        assert_eq!(bindings.press(enter), Some(Press::SecondSwitch));
        assert_eq!(bindings.from_key(Key::Char('1')), Some(Press::FirstSwitch));
        assert_eq!(bindings.from_key(Key::Down), Some(Press::Next));
        assert_eq!(bindings.from_mouse(MouseButton::Right), None);
    }

    #[test]
    fn caps_lock_changes_nothing() {
        let bindings = Bindings::default();
        for (c, press) in [('R', Press::Repeat), ('H', Press::Help), (' ', Press::Choose)] {
            assert_eq!(bindings.from_key(Key::from_char(c)), Some(press));
        }
        assert_eq!(bindings.from_key(Key::from_char('\r')), Some(Press::Choose));
        assert_eq!(bindings.from_key(Key::from_char('\u{1B}')), Some(Press::Back));
        assert_eq!(bindings.from_key(Key::from_char('ß')), None);
    }
}
