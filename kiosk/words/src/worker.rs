//! A worker's lines in words. Worker's screens are read, not heard.

use evenhand_duty::{Button, Line, Message};
use evenhand_rules::Language;
use fluent::FluentArgs;
use fluent::FluentValue;

use crate::catalogue::{Bundle, CatalogueError, Sense};

/// The messages that ship with the station, by language.
const SHIPPED: [(&str, &str); 2] = [
    ("en", include_str!("../../../locales/en/worker.ftl")),
    ("es", include_str!("../../../locales/es/worker.ftl")),
];

/// How buttons are called, by the message's id.
const BUTTONS: [&str; 11] = [
    "button-key",
    "button-mouse-left",
    "button-mouse-right",
    "button-mouse-middle",
    "button-pad",
    "button-up",
    "button-down",
    "button-left",
    "button-right",
    "button-space",
    "button-sign",
];

/// One language's messages for workers.
#[derive(Debug)]
pub struct WorkerWords(Bundle);

impl WorkerWords {
    /// The shipped messages of a language.
    ///
    /// # Errors
    /// [`CatalogueError`] says what is missing or wrong.
    pub fn shipped(language: &Language) -> Result<Self, CatalogueError> {
        let found = SHIPPED.iter().find(|(tag, _)| *tag == language.tag());
        let (_, source) =
            found.ok_or_else(|| CatalogueError::NoSuchLanguage(language.tag().into()))?;
        let ids = Message::ALL.iter().map(|message| message.id()).chain(BUTTONS);
        Ok(Self(Bundle::from_sources(language, &[source], ids)?))
    }

    /// The languages that workers' screens are in, as BCP 47 tags.
    pub fn shipped_tags() -> impl Iterator<Item = &'static str> {
        SHIPPED.iter().map(|(tag, _)| *tag)
    }

    /// What is read. `name_of` tells how a button is called in the station's file ("key 1").
    pub fn seen(&self, line: &Line, name_of: &dyn Fn(Button) -> String) -> String {
        let mut args = FluentArgs::new();
        for (name, arg) in &line.args {
            args.set(*name, self.arg(arg, name_of));
        }
        let id = line.message.id();
        // A message without its words is a bug that the tests over every screen find.
        self.0.words(id, &args, Sense::Seen).unwrap_or_else(|| id.replace('-', " "))
    }

    fn arg(
        &self,
        arg: &evenhand_duty::Arg,
        name_of: &dyn Fn(Button) -> String,
    ) -> FluentValue<'static> {
        match arg {
            evenhand_duty::Arg::Number(number) => FluentValue::from(*number),
            evenhand_duty::Arg::Tenths(tenths) => {
                FluentValue::from(format!("{}.{}", tenths / 10, tenths % 10))
            }
            evenhand_duty::Arg::Button(button) => FluentValue::from(self.button(&name_of(*button))),
            evenhand_duty::Arg::Buttons(buttons) => {
                let names = buttons.iter().map(|button| self.short(&name_of(*button)));
                FluentValue::from(names.collect::<Vec<_>>().join(", "))
            }
            evenhand_duty::Arg::Text(text) => FluentValue::from(text.clone()),
            evenhand_duty::Arg::Message(message) => {
                FluentValue::from(self.seen(&Line::new(*message), name_of))
            }
        }
    }

    /// The same in a list of keys: only what stands on the key.
    fn short(&self, name: &str) -> String {
        match name.strip_prefix("key ") {
            Some("up" | "down" | "left" | "right" | "space") | None => self.button(name),
            Some(sign) if sign.chars().all(|c| !c.is_alphanumeric()) => {
                self.named("button-sign", sign)
            }
            Some(key) => key.replace('-', " ").to_uppercase(),
        }
    }

    /// A button's name in the station's file as a worker says it.
    fn button(&self, name: &str) -> String {
        let (road, own) = name.split_once(' ').unwrap_or(("key", name));
        let id = match (road, own) {
            ("key", "up" | "down" | "left" | "right" | "space") => format!("button-{own}"),
            ("mouse", own) => format!("button-mouse-{own}"),
            ("pad", _) => "button-pad".to_owned(),
            _ => "button-key".to_owned(),
        };
        self.named(&id, &own.to_uppercase())
    }

    fn named(&self, id: &str, name: &str) -> String {
        let mut args = FluentArgs::new();
        args.set("name", name.to_owned());
        self.0.words(id, &args, Sense::Seen).unwrap_or_else(|| name.to_owned())
    }
}
