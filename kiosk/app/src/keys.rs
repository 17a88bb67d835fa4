//! The window's keys and mouse buttons, as the names that the table of bindings has, and its
//! presses as the visit's commands.

use evenhand_duty::Button as Numbered;
use evenhand_input::Bindings;
use evenhand_input::press::{Button, Key, MouseButton, Press};
use evenhand_visit::Command;
use iced::keyboard::{self, key};
use iced::mouse;

/// What a press means to the visit.
pub const fn command(press: Press) -> Command {
    match press {
        Press::Next => Command::Next,
        Press::FirstSwitch => Command::Step,
        Press::Previous => Command::Previous,
        Press::Choose | Press::SecondSwitch => Command::Choose,
        Press::Back => Command::Back,
        Press::Forward => Command::Forward,
        Press::NextGroup => Command::MoreBelow,
        Press::PreviousGroup => Command::MoreAbove,
        Press::Repeat => Command::Repeat,
        Press::Louder => Command::Louder,
        Press::Softer => Command::Softer,
        Press::Faster => Command::Faster,
        Press::Slower => Command::Slower,
        Press::Pause => Command::Pause,
        Press::SentenceBack => Command::SentenceBack,
        Press::SentenceOn => Command::SentenceOn,
        Press::Spell => Command::Spell,
        Press::HideScreen => Command::HideScreen,
        Press::IsHidden => Command::IsHidden,
        Press::Help => Command::Help,
        Press::Comfort => Command::Comfort,
        Press::Worker => Command::Worker,
    }
}

/// A key of the window, as much of it as has a meaning here.
pub fn key_of(key: &keyboard::Key, modifiers: keyboard::Modifiers) -> Option<Key> {
    match key {
        keyboard::Key::Named(named) => named_key(*named, modifiers),
        keyboard::Key::Character(text) => {
            let mut characters = text.chars();
            let first = characters.next()?;
            characters.next().is_none().then(|| Key::from_char(first))
        }
        keyboard::Key::Unidentified => None,
    }
}

fn named_key(named: key::Named, modifiers: keyboard::Modifiers) -> Option<Key> {
    use key::Named;
    const FUNCTIONS: [Named; 12] = [
        Named::F1,
        Named::F2,
        Named::F3,
        Named::F4,
        Named::F5,
        Named::F6,
        Named::F7,
        Named::F8,
        Named::F9,
        Named::F10,
        Named::F11,
        Named::F12,
    ];
    const TABLE: [(Named, Key); 13] = [
        (Named::ArrowUp, Key::Up),
        (Named::ArrowDown, Key::Down),
        (Named::ArrowLeft, Key::Left),
        (Named::ArrowRight, Key::Right),
        (Named::Enter, Key::Enter),
        (Named::Space, Key::Space),
        (Named::Escape, Key::Escape),
        (Named::Backspace, Key::Backspace),
        (Named::PageUp, Key::PageUp),
        (Named::PageDown, Key::PageDown),
        (Named::Home, Key::Home),
        (Named::End, Key::End),
        (Named::Tab, Key::Tab),
    ];
    if named == Named::Tab && modifiers.shift() {
        return Some(Key::BackTab);
    }
    let function = || {
        let place = FUNCTIONS.iter().position(|of| *of == named)?;
        u8::try_from(place + 1).ok().map(Key::Function)
    };
    TABLE.iter().find(|(of, _)| *of == named).map(|(_, key)| *key).or_else(function)
}

/// A button of the mouse, as much of it as has a meaning here.
pub const fn mouse_button_of(button: mouse::Button) -> Option<MouseButton> {
    match button {
        mouse::Button::Left => Some(MouseButton::Left),
        mouse::Button::Right => Some(MouseButton::Right),
        mouse::Button::Middle => Some(MouseButton::Middle),
        mouse::Button::Back | mouse::Button::Forward | mouse::Button::Other(_) => None,
    }
}

/// The keys that have a meaning in a visit, each once, as the self-test has them pressed; the switches
/// have a step of their own. Shift with Tab is Tab, and what gives a plus sign or an equals sign is one
/// key.
pub fn tested_keys() -> impl Iterator<Item = Key> {
    let rows = Bindings::default();
    let switches = |press| matches!(press, Press::FirstSwitch | Press::SecondSwitch);
    rows.rows().filter(move |(_, press)| !switches(*press)).filter_map(|(button, _)| {
        let Button::Key(key) = button else { return None };
        let is_twice = matches!(key, Key::BackTab | Key::Char('='));
        (!is_twice).then_some(key)
    })
}

/// The number of a key that is pressed in the test; another's is past the last.
pub fn tested_key_number(button: Button) -> Numbered {
    let key = match button {
        Button::Key(Key::BackTab) => Key::Tab,
        Button::Key(Key::Char('=')) => Key::Char('+'),
        Button::Key(key) => key,
        Button::Mouse(_) | Button::Pad(_) => return Numbered(u16::MAX),
    };
    let place = tested_keys().position(|of| of == key).and_then(|place| u16::try_from(place).ok());
    Numbered(place.unwrap_or(u16::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_have_their_names() {
        let none = keyboard::Modifiers::empty();
        let named = |named| keyboard::Key::Named(named);
        let text = |text: &str| keyboard::Key::Character(text.into());
        for (key, name) in [
            (named(key::Named::ArrowDown), Some(Key::Down)),
            (named(key::Named::F2), Some(Key::Function(2))),
            (named(key::Named::Space), Some(Key::Space)),
            (named(key::Named::Shift), None),
            (text("1"), Some(Key::Char('1'))),
            (text("R"), Some(Key::Char('r'))),
            (text("ab"), None),
            (keyboard::Key::Unidentified, None),
        ] {
            assert_eq!(key_of(&key, none), name, "{key:?}");
        }
        let tab = named(key::Named::Tab);
        assert_eq!(key_of(&tab, none), Some(Key::Tab));
        assert_eq!(key_of(&tab, keyboard::Modifiers::SHIFT), Some(Key::BackTab));
    }
}
