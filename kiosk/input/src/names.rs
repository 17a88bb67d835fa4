//! Buttons by name, as the station's file has them: `key 1`, `key space`, `mouse left`, `pad south`,
//! `pad 5`. The names are our own.

use core::fmt;
use core::str::FromStr;

use thiserror::Error;

use crate::press::{Button, Key, MouseButton, PadButton};

/// A text that names no button.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error(
    "{0:?} names no button: write \"key\", \"mouse\" or \"pad\", a blank, and its name (key 1, mouse left, pad south)"
)]
pub struct NoSuchButton(pub String);

const KEYS: &[(&str, Key)] = &[
    ("up", Key::Up),
    ("down", Key::Down),
    ("left", Key::Left),
    ("right", Key::Right),
    ("tab", Key::Tab),
    ("shift-tab", Key::BackTab),
    ("enter", Key::Enter),
    ("space", Key::Space),
    ("escape", Key::Escape),
    ("backspace", Key::Backspace),
    ("page-up", Key::PageUp),
    ("page-down", Key::PageDown),
    ("home", Key::Home),
    ("end", Key::End),
];

const MOUSE: &[(&str, MouseButton)] =
    &[("left", MouseButton::Left), ("right", MouseButton::Right), ("middle", MouseButton::Middle)];

const PADS: &[(&str, PadButton)] = &[
    ("south", PadButton::South),
    ("east", PadButton::East),
    ("north", PadButton::North),
    ("west", PadButton::West),
    ("up", PadButton::Up),
    ("down", PadButton::Down),
    ("left", PadButton::Left),
    ("right", PadButton::Right),
    ("left-shoulder", PadButton::LeftShoulder),
    ("right-shoulder", PadButton::RightShoulder),
    ("select", PadButton::Select),
    ("start", PadButton::Start),
];

fn named<T: Copy>(table: &[(&str, T)], name: &str) -> Option<T> {
    table.iter().find(|(of, _)| *of == name).map(|(_, value)| *value)
}

fn name_in<T: Copy + PartialEq>(table: &[(&'static str, T)], value: T) -> Option<&'static str> {
    table.iter().find(|(_, of)| *of == value).map(|(name, _)| *name)
}

impl fmt::Display for Button {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Key(Key::Function(number)) => write!(f, "key f{number}"),
            Self::Key(Key::Char(c)) => write!(f, "key {c}"),
            Self::Key(key) => write!(f, "key {}", name_in(KEYS, *key).unwrap_or_default()),
            Self::Mouse(button) => {
                write!(f, "mouse {}", name_in(MOUSE, *button).unwrap_or_default())
            }
            Self::Pad(PadButton::Numbered(number)) => write!(f, "pad {number}"),
            Self::Pad(button) => write!(f, "pad {}", name_in(PADS, *button).unwrap_or_default()),
        }
    }
}

impl FromStr for Button {
    type Err = NoSuchButton;

    fn from_str(text: &str) -> Result<Self, NoSuchButton> {
        let found = text.split_once(' ').and_then(|(road, name)| match road {
            "key" => {
                named(KEYS, name).or_else(|| function(name)).or_else(|| sign(name)).map(Self::Key)
            }
            "mouse" => named(MOUSE, name).map(Self::Mouse),
            "pad" => named(PADS, name)
                .or_else(|| name.parse().ok().map(PadButton::Numbered))
                .map(Self::Pad),
            _ => None,
        });
        found.ok_or_else(|| NoSuchButton(text.to_owned()))
    }
}

/// `f1` to `f24`.
fn function(name: &str) -> Option<Key> {
    let number = name.strip_prefix('f')?.parse().ok()?;
    (1..=24).contains(&number).then_some(Key::Function(number))
}

/// A key that is named by the one sign that it gives.
fn sign(name: &str) -> Option<Key> {
    let mut signs = name.chars();
    let first = signs.next().filter(|c| !c.is_control() && !c.is_whitespace())?;
    signs.next().is_none().then(|| Key::from_char(first))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_button_is_found_again_by_its_name() {
        let keys = KEYS.iter().map(|(_, key)| *key);
        let signs = ['1', 'a', 'ñ', ']', 'f'].map(Key::Char);
        let keys = keys.chain(signs).chain((1..=24).map(Key::Function)).map(Button::Key);
        let mouse = MOUSE.iter().map(|(_, button)| Button::Mouse(*button));
        let pads = PADS.iter().map(|(_, button)| *button);
        let pads = pads.chain([0, 1, u16::MAX].map(PadButton::Numbered)).map(Button::Pad);
        for button in keys.chain(mouse).chain(pads) {
            assert_eq!(button.to_string().parse(), Ok(button), "{button}");
        }
    }

    #[test]
    fn what_names_no_button_is_refused_by_its_name() {
        for bad in [
            "",
            "key",
            "key ",
            "key  ",
            "key ab",
            "key f0",
            "key f25",
            "mouse 1",
            "1",
            "pad 65536",
            "pad x",
            "Key 1",
            "foot left",
        ] {
            let refused = bad.parse::<Button>().map_err(|error| error.to_string());
            assert!(
                refused.as_ref().is_err_and(|text| text.contains(&format!("{bad:?}"))),
                "{refused:?}"
            );
        }
    }
}
