//! Languages and texts by language.

use alloc::string::String;
use alloc::vec::Vec;

/// A language as a BCP 47 tag (`en`, `es`, `zh-Hant`).
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Language(String);

impl Language {
    /// The language of this tag. No check of registration is made; `definitions` limits its length.
    pub fn new(tag: impl Into<String>) -> Self {
        Self(tag.into())
    }
    /// The tag.
    pub fn tag(&self) -> &str {
        &self.0
    }
}

/// One text in one or more languages, in the order of its source.
///
/// Invariant: where [`Text::is_empty`] is false, [`Text::in_language`] always finds something.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text(Vec<(Language, String)>);

impl Text {
    /// A text from its languages, first the one to fall back to.
    pub fn new(entries: Vec<(Language, String)>) -> Self {
        Self(entries)
    }
    /// True where no language has any words.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|(_, words)| words.is_empty())
    }
    /// The words in `language`, else in the text's first language, else nothing.
    pub fn in_language(&self, language: &Language) -> &str {
        self.exact(language)
            .or_else(|| self.0.first().map(|(_, words)| words.as_str()))
            .unwrap_or_default()
    }
    /// The words in just this language.
    pub fn exact(&self, language: &Language) -> Option<&str> {
        self.0.iter().find(|(tag, _)| tag == language).map(|(_, words)| words.as_str())
    }
    /// Every language and its words, in the source's order.
    pub fn entries(&self) -> &[(Language, String)] {
        &self.0
    }
}

/// A text that is shown, and how it is said where the spelling would mislead a voice.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Name {
    /// What is read.
    pub shown: Text,
    /// What is said instead (SP 1500-20 `ReadName`), where the definition gives it.
    pub said: Option<Text>,
}

impl Name {
    /// A name that is said as it is shown.
    pub fn plain(shown: Text) -> Self {
        Self { shown, said: None }
    }
    /// What a voice says in `language`: the phonetic text where it has that language or the shown
    /// text does not, else what is shown.
    pub fn heard_in(&self, language: &Language) -> &str {
        let said = self.said.as_ref().map_or("", |said| said.in_language(language));
        if said.is_empty() { self.shown.in_language(language) } else { said }
    }
}
