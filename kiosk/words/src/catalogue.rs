//! One language's messages, as Fluent has them.

use evenhand_rules::Language;
use evenhand_visit::Message;
use fluent::concurrent::FluentBundle;
use fluent::{FluentArgs, FluentResource};
use thiserror::Error;

/// The messages that ship with the station: language, the visit's, the paper's.
const SHIPPED: [(&str, &str, &str); 10] = [
    (
        "en",
        include_str!("../../../locales/en/visit.ftl"),
        include_str!("../../../locales/en/paper.ftl"),
    ),
    (
        "es",
        include_str!("../../../locales/es/visit.ftl"),
        include_str!("../../../locales/es/paper.ftl"),
    ),
    (
        "zh-Hant",
        include_str!("../../../locales/zh-Hant/visit.ftl"),
        include_str!("../../../locales/zh-Hant/paper.ftl"),
    ),
    (
        "vi",
        include_str!("../../../locales/vi/visit.ftl"),
        include_str!("../../../locales/vi/paper.ftl"),
    ),
    (
        "ko",
        include_str!("../../../locales/ko/visit.ftl"),
        include_str!("../../../locales/ko/paper.ftl"),
    ),
    (
        "fil",
        include_str!("../../../locales/fil/visit.ftl"),
        include_str!("../../../locales/fil/paper.ftl"),
    ),
    (
        "km",
        include_str!("../../../locales/km/visit.ftl"),
        include_str!("../../../locales/km/paper.ftl"),
    ),
    (
        "bn",
        include_str!("../../../locales/bn/visit.ftl"),
        include_str!("../../../locales/bn/paper.ftl"),
    ),
    (
        "ar",
        include_str!("../../../locales/ar/visit.ftl"),
        include_str!("../../../locales/ar/paper.ftl"),
    ),
    (
        "ru",
        include_str!("../../../locales/ru/visit.ftl"),
        include_str!("../../../locales/ru/paper.ftl"),
    ),
];

/// Languages that are read from right to left.
const RIGHT_TO_LEFT: [&str; 1] = ["ar"];
/// A sign that isn't seen and makes a line begin at the right, whatever it begins with (UAX 9).
const RIGHT_TO_LEFT_MARK: char = '\u{200f}';
/// The signs that Fluent puts around an argument, so that a name in other letters keeps its order
/// where lines are read from the right; elsewhere they only tell what is an argument.
pub(crate) const ISOLATES: [char; 2] = ['\u{2068}', '\u{2069}'];

/// What a message is wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// The eye.
    Seen,
    /// The ear, by a voice.
    Heard,
    /// The ear, by recordings: as heard, with the signs U+2068 and U+2069 (isolates) around each
    /// argument, so that the parts can be told apart.
    Parted,
}

/// Why a language's messages can't be used. The office must mend the file and build again.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum CatalogueError {
    /// There are no messages in this language.
    #[error(
        "no messages in language \"{0}\": add its files in locales/{0}, and name them in the catalogue"
    )]
    NoSuchLanguage(String),
    /// The tag isn't a language.
    #[error("\"{0}\" is not a language tag (BCP 47)")]
    NotALanguage(String),
    /// The file has a syntax error or says a message twice.
    #[error("locales/{language}: {what}")]
    Syntax {
        /// The language.
        language: String,
        /// What the parser said.
        what: String,
    },
    /// A message is missing.
    #[error("locales/{language}: message \"{id}\" is missing")]
    Missing {
        /// The language.
        language: String,
        /// The message.
        id: &'static str,
    },
    /// A message has an argument that the list of spoken texts doesn't know.
    #[error("locales/{language}: message \"{id}\" names a variable that spoken.rs doesn't know")]
    UnknownVariable {
        /// The language.
        language: String,
        /// The message.
        id: &'static str,
    },
}

/// One language's messages for a visit.
#[derive(Debug)]
pub struct Catalogue(Bundle);

impl Catalogue {
    /// The shipped messages of a language.
    ///
    /// # Errors
    /// [`CatalogueError`] says what is missing or wrong.
    pub fn shipped(language: &Language) -> Result<Self, CatalogueError> {
        let found = SHIPPED.iter().find(|(tag, _, _)| *tag == language.tag());
        let Some((_, visit, paper)) = found else {
            return Err(CatalogueError::NoSuchLanguage(language.tag().into()));
        };
        Self::from_sources(language, &[visit, paper])
    }

    /// Messages from the text of Fluent files.
    ///
    /// # Errors
    /// [`CatalogueError`] on any syntax error, repeated or missing message: a catalogue with a hole
    /// would leave a voter without words.
    pub fn from_sources(language: &Language, sources: &[&str]) -> Result<Self, CatalogueError> {
        let ids = Message::ALL.iter().map(|message| message.id());
        let ids = ids.chain(crate::paper::IDS).chain(crate::letters::IDS);
        Ok(Self(Bundle::from_sources(language, sources, ids)?))
    }

    /// The language.
    pub fn language(&self) -> &Language {
        &self.0.language
    }

    /// True where the language is read from right to left.
    pub fn is_right_to_left(&self) -> bool {
        self.0.is_right_to_left()
    }

    /// The languages that ship with the station, as BCP 47 tags.
    pub fn shipped_tags() -> impl Iterator<Item = &'static str> {
        SHIPPED.iter().map(|(tag, _, _)| *tag)
    }

    /// A message's words. `None` where it doesn't exist or an argument is missing: a sentence with a
    /// hole is never shown.
    pub fn words(&self, id: &str, args: &FluentArgs<'_>, sense: Sense) -> Option<String> {
        self.0.words(id, args, sense)
    }
}

/// One language's messages, whoever reads them.
pub(crate) struct Bundle {
    language: Language,
    messages: FluentBundle<FluentResource>,
}

impl std::fmt::Debug for Bundle {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Bundle({})", self.language.tag())
    }
}

impl Bundle {
    /// Messages from the text of Fluent files, in which each of `ids` must be.
    pub(crate) fn from_sources(
        language: &Language,
        sources: &[&str],
        ids: impl Iterator<Item = &'static str>,
    ) -> Result<Self, CatalogueError> {
        let tag = language.tag().to_owned();
        let identifier = tag
            .parse::<unic_langid::LanguageIdentifier>()
            .map_err(|_| CatalogueError::NotALanguage(tag.clone()))?;
        let mut messages = FluentBundle::new_concurrent(vec![identifier]);
        messages.set_use_isolating(true);
        for source in sources {
            let resource =
                FluentResource::try_new((*source).to_owned()).map_err(|(_, errors)| {
                    CatalogueError::Syntax { language: tag.clone(), what: list(&errors) }
                })?;
            messages.add_resource(resource).map_err(|errors| CatalogueError::Syntax {
                language: tag.clone(),
                what: list(&errors),
            })?;
        }
        let bundle = Self { language: language.clone(), messages };
        for id in ids {
            if !bundle.has(id) {
                return Err(CatalogueError::Missing { language: tag, id });
            }
        }
        Ok(bundle)
    }

    fn is_right_to_left(&self) -> bool {
        RIGHT_TO_LEFT.contains(&self.language.tag())
    }

    fn has(&self, id: &str) -> bool {
        self.messages.get_message(id).is_some_and(|message| message.value().is_some())
    }

    /// As [`Catalogue::words`].
    pub(crate) fn words(&self, id: &str, args: &FluentArgs<'_>, sense: Sense) -> Option<String> {
        let message = self.messages.get_message(id)?;
        let heard = if sense == Sense::Seen { None } else { message.get_attribute("heard") };
        let pattern = match heard {
            Some(attribute) => attribute.value(),
            None => message.value()?,
        };
        let mut errors = Vec::new();
        let words = self.messages.format_pattern(pattern, Some(args), &mut errors);
        if !errors.is_empty() {
            return None;
        }
        Some(match (sense, self.is_right_to_left()) {
            (Sense::Seen, false) => words.replace(ISOLATES, ""),
            (Sense::Seen, true) => format!("{RIGHT_TO_LEFT_MARK}{words}"),
            (Sense::Heard, _) => words.replace(ISOLATES, "").replace(RIGHT_TO_LEFT_MARK, ""),
            (Sense::Parted, _) => words.replace(RIGHT_TO_LEFT_MARK, ""),
        })
    }
}

fn list<E: std::fmt::Display>(errors: &[E]) -> String {
    errors.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}
