//! A visit's phrases in words: what is seen, and what is heard.

use std::sync::Arc;

use evenhand_rules::{Contest, Election, Language, Name, OptionKind, Style, Text};
use evenhand_visit::{Arg, LanguageIndex, Message, Phrase, TextRef};
use fluent::{FluentArgs, FluentValue};
use thiserror::Error;

use crate::catalogue::Sense;
use crate::letters::name_of;
use crate::parts::{PART_END, parts};
use crate::{Catalogue, CatalogueError};

/// Why no words can be had.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum WordsError {
    /// A language's messages are wrong.
    #[error(transparent)]
    Catalogue(#[from] CatalogueError),
    /// No language was asked for.
    #[error("the station has no language: name at least one in settings.json")]
    NoLanguage,
}

/// Finished words for the voice.
#[derive(Clone, PartialEq, Eq)]
pub struct Heard {
    /// The words.
    pub text: String,
    /// The language whose voice says them.
    pub language: Language,
}

/// All words of one visit: the station's messages and the election's texts.
#[derive(Debug)]
pub struct Words {
    // Invariant: never empty.
    catalogues: Vec<Catalogue>,
    election: Arc<Election>,
    style: Arc<Style>,
}

impl Words {
    /// The words of a visit on `style` in these languages, in the station's order.
    ///
    /// # Errors
    /// [`WordsError`] where a language has no messages or its messages are wrong.
    pub fn load(
        languages: &[Language],
        election: Arc<Election>,
        style: Arc<Style>,
    ) -> Result<Self, WordsError> {
        let catalogues = languages.iter().map(Catalogue::shipped).collect::<Result<Vec<_>, _>>()?;
        if catalogues.is_empty() {
            return Err(WordsError::NoLanguage);
        }
        Ok(Self { catalogues, election, style })
    }

    /// The election.
    pub fn election(&self) -> &Election {
        &self.election
    }

    /// True where this language is read from right to left.
    pub fn is_right_to_left(&self, language: LanguageIndex) -> bool {
        self.catalogue(language).is_right_to_left()
    }

    /// What is read.
    pub fn seen(&self, phrase: &Phrase, language: LanguageIndex) -> String {
        self.phrase(phrase, language, Sense::Seen)
    }

    /// What is said. Each piece is in one language.
    pub fn heard(&self, phrase: &Phrase, language: LanguageIndex) -> Vec<Heard> {
        let text = self.phrase(phrase, language, Sense::Heard);
        let language = self.catalogue(phrase.language.unwrap_or(language)).language().clone();
        vec![Heard { text, language }]
    }

    /// What is said, in the parts that can be recorded each for itself: what stands around the
    /// arguments, numbers, names, and a written name letter by letter. [`SpokenTexts`] lists them.
    ///
    /// [`SpokenTexts`]: crate::SpokenTexts
    pub fn heard_in_parts(&self, phrase: &Phrase, language: LanguageIndex) -> Vec<String> {
        parts(&self.phrase(phrase, language, Sense::Parted))
    }

    fn catalogue(&self, language: LanguageIndex) -> &Catalogue {
        let wanted = self.catalogues.get(usize::from(language.0));
        #[expect(clippy::expect_used, reason = "`load` refuses an empty list")]
        wanted.or(self.catalogues.first()).expect("there is at least one language")
    }

    fn phrase(&self, phrase: &Phrase, language: LanguageIndex, sense: Sense) -> String {
        let language = phrase.language.unwrap_or(language);
        let catalogue = self.catalogue(language);
        let mut args = FluentArgs::new();
        for (name, arg) in &phrase.args {
            args.set(*name, self.arg(arg, language, sense));
        }
        let id = phrase.message.id();
        // A message without its words is a bug that the tests over every screen find. The voter
        // still gets the message's name rather than nothing.
        catalogue.words(id, &args, sense).unwrap_or_else(|| id.replace('-', " "))
    }

    fn arg(&self, arg: &Arg, language: LanguageIndex, sense: Sense) -> FluentValue<'static> {
        match arg {
            Arg::Number(number) => FluentValue::from(*number),
            Arg::Text(text) => FluentValue::from(self.text(*text, language, sense)),
            // Nobody can have recorded a name that was written here.
            Arg::Written(name) if sense == Sense::Parted => {
                FluentValue::from(self.spelled(name.as_str().trim(), language, sense))
            }
            Arg::Read(name) if sense == Sense::Parted => {
                FluentValue::from(self.spelled(name, language, sense))
            }
            Arg::Written(name) => {
                FluentValue::from(Self::name_in_capitals(name.as_str().trim(), sense))
            }
            Arg::Read(name) => FluentValue::from(Self::name_in_capitals(name, sense)),
            Arg::Character(letter) => FluentValue::from(self.letter(*letter, language, sense)),
            Arg::Spelled(name) => FluentValue::from(self.spelled(name.as_str(), language, sense)),
            Arg::SpelledText(text) => {
                // The letters as they are printed, also where the name has other words to be said.
                let text = self.text(*text, language, Sense::Seen);
                FluentValue::from(self.spelled(&text, language, sense))
            }
            Arg::Phrase(phrase) => FluentValue::from(self.phrase(phrase, language, sense)),
            Arg::List(items) => {
                let items: Vec<String> = items
                    .iter()
                    .map(|item| match self.arg(item, language, sense) {
                        FluentValue::String(words) => words.into_owned(),
                        FluentValue::Number(number) => number.as_string().into_owned(),
                        FluentValue::Custom(_) | FluentValue::None | FluentValue::Error => {
                            String::new()
                        }
                    })
                    .collect();
                FluentValue::from(items.join(&self.between(language, sense)))
            }
        }
    }

    /// What stands between the items of a list: when it is recorded, nothing.
    fn between(&self, language: LanguageIndex, sense: Sense) -> String {
        match sense {
            Sense::Seen | Sense::Heard => self.message("list-separator", language),
            Sense::Parted => PART_END.to_string(),
        }
    }

    fn spelled(&self, text: &str, language: LanguageIndex, sense: Sense) -> String {
        let letters: Vec<String> =
            text.chars().map(|letter| self.letter(letter, language, sense)).collect();
        letters.join(&self.between(language, sense))
    }

    /// Written names are in capitals; a voice would spell some of those, so it gets ordinary case.
    fn name_in_capitals(name: &str, sense: Sense) -> String {
        if sense == Sense::Seen {
            return name.to_owned();
        }
        let mut starts_word = true;
        name.chars()
            .flat_map(|letter| {
                let cased: String =
                    if starts_word { letter.to_string() } else { letter.to_lowercase().collect() };
                starts_word = !letter.is_alphabetic();
                cased.chars().collect::<Vec<_>>()
            })
            .collect()
    }

    fn letter(&self, letter: char, language: LanguageIndex, sense: Sense) -> String {
        match name_of(letter) {
            Some(id) => self
                .catalogue(language)
                .words(id, &FluentArgs::new(), sense)
                .unwrap_or_else(|| letter.to_string()),
            // One recording of a letter, however it is written.
            None if sense == Sense::Parted => letter.to_uppercase().to_string(),
            None => letter.to_string(),
        }
    }

    fn message(&self, id: &str, language: LanguageIndex) -> String {
        self.catalogue(language).words(id, &FluentArgs::new(), Sense::Seen).unwrap_or_default()
    }

    fn text(&self, text: TextRef, language: LanguageIndex, sense: Sense) -> String {
        let tag = self.catalogue(language).language().clone();
        let shown = |text: &Text| text.in_language(&tag).to_owned();
        let named = |name: &Name| match sense {
            Sense::Seen => name.shown.in_language(&tag).to_owned(),
            Sense::Heard | Sense::Parted => name.heard_in(&tag).to_owned(),
        };
        let contest = |at| self.style.contest(at);
        let found = match text {
            TextRef::ElectionName => Some(shown(&self.election.name)),
            TextRef::Jurisdiction => Some(shown(&self.election.jurisdiction)),
            TextRef::Precinct => Some(shown(&self.style.precinct)),
            TextRef::Party => self.style.party.as_ref().map(shown),
            TextRef::Header(at) => self.style.header_of(at).map(|header| named(&header.name)),
            TextRef::HeaderContent(at) => {
                self.style.header_opened_by(at).and_then(|h| h.content.as_ref()).map(shown)
            }
            TextRef::Title(at) => contest(at).map(|c| named(&c.title)),
            TextRef::Subtitle(at) => contest(at).and_then(|c| c.subtitle.as_ref()).map(named),
            TextRef::Summary(at) => contest(at).and_then(|c| c.summary.as_ref()).map(shown),
            TextRef::Paragraph(at, index) => {
                contest(at).and_then(|c| c.full_text.get(usize::from(index))).map(shown)
            }
            TextRef::OptionName(at, option) => {
                contest(at).map(|c| self.option_name(c, option, language, &named))
            }
            TextRef::OptionDetail(at, option) => contest(at)
                .and_then(|c| c.option(option))
                .and_then(|option| option.detail.as_ref())
                .map(shown),
        };
        found.unwrap_or_default()
    }

    fn option_name(
        &self,
        contest: &Contest,
        option: evenhand_rules::OptionIndex,
        language: LanguageIndex,
        named: &dyn Fn(&Name) -> String,
    ) -> String {
        let Some(option) = contest.option(option) else { return String::new() };
        if option.kind == OptionKind::WriteIn {
            return self.message(Message::WriteInRow.id(), language);
        }
        let names: Vec<String> = option.names.iter().map(named).collect();
        names.join(&self.message("ticket-separator", language))
    }
}
