//! A sentence by reference: which message, and what goes into it. `words` turns it into a language.

use alloc::string::String;
use alloc::vec::Vec;

use evenhand_rules::{ContestIndex, OptionIndex, WriteInText};

use crate::{LanguageIndex, Message};

/// A text of the election, by its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextRef {
    /// The election's name.
    ElectionName,
    /// The jurisdiction that holds the election.
    Jurisdiction,
    /// The precinct of this ballot.
    Precinct,
    /// The party of this ballot.
    Party,
    /// The header over a contest.
    Header(ContestIndex),
    /// What is said under that header, before the first contest.
    HeaderContent(ContestIndex),
    /// A contest's title.
    Title(ContestIndex),
    /// A contest's second line.
    Subtitle(ContestIndex),
    /// A contest's short text.
    Summary(ContestIndex),
    /// One paragraph of a contest's full text.
    Paragraph(ContestIndex, u16),
    /// An option's name or names, as one phrase.
    OptionName(ContestIndex, OptionIndex),
    /// An option's party or small print.
    OptionDetail(ContestIndex, OptionIndex),
}

/// What goes into a message.
#[derive(Clone, PartialEq, Eq)]
pub enum Arg {
    /// A number, for counting and plurals.
    Number(u32),
    /// A text of the election.
    Text(TextRef),
    /// A name that the voter wrote.
    Written(WriteInText),
    /// A name that was read from the paper.
    Read(String),
    /// A single character, said as its name.
    Character(char),
    /// A written name, to be spelled.
    Spelled(WriteInText),
    /// A text of the election, to be spelled.
    SpelledText(TextRef),
    /// Another phrase.
    Phrase(Phrase),
    /// Several, joined as the language joins a list.
    List(Vec<Arg>),
}

/// A message with its arguments.
#[derive(Clone, PartialEq, Eq)]
pub struct Phrase {
    /// Which message.
    pub message: Message,
    /// Its arguments by name.
    pub args: Vec<(&'static str, Arg)>,
    /// The language to use instead of the voter's, as on the language screen.
    pub language: Option<LanguageIndex>,
}

impl Phrase {
    /// A message without arguments.
    pub const fn new(message: Message) -> Self {
        Self { message, args: Vec::new(), language: None }
    }
    /// The same with one more argument.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: Arg) -> Self {
        self.args.push((name, arg));
        self
    }
    /// The same with a number.
    #[must_use]
    pub fn number(self, name: &'static str, number: impl Into<u32>) -> Self {
        self.with(name, Arg::Number(number.into()))
    }
    /// The same with a text of the election.
    #[must_use]
    pub fn text(self, name: &'static str, text: TextRef) -> Self {
        self.with(name, Arg::Text(text))
    }
    /// The same in another language than the voter's.
    #[must_use]
    pub fn in_language(mut self, language: LanguageIndex) -> Self {
        self.language = Some(language);
        self
    }
    /// Just a text of the election.
    pub fn of(text: TextRef) -> Self {
        Self::new(Message::Plain).text("text", text)
    }
}

impl core::fmt::Debug for Phrase {
    /// Prints the message and no argument: arguments may hold a choice.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "Phrase({:?}, {} args)", self.message, self.args.len())
    }
}

impl core::fmt::Debug for Arg {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("Arg(..)")
    }
}
