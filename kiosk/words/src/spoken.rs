//! Everything that is spoken at an election, for whoever records it: texts as they stand, and of
//! messages that are another text each time ("Contest 3 of 18") their parts: what stands around the
//! arguments, numbers, letters.
//!
//! Names that are spoken otherwise than they are written ([`Name::heard_in`]) stand here as they are
//! spoken.

use std::collections::BTreeSet;

use evenhand_rules::{Contest, Election, Item, Language, Name, Style, Text, WRITE_IN_CHARACTERS};
use evenhand_visit::Message;
use fluent::{FluentArgs, FluentValue};

use crate::catalogue::Sense;
use crate::letters::{self, name_of};
use crate::parts::parts;
use crate::{Catalogue, CatalogueError};

/// The variables of the visit's messages that are a text; a part of this word is one of theirs.
const TEXTS: [&str; 15] = [
    "contests", "first", "from", "items", "last", "letter", "letters", "name", "names", "party",
    "precinct", "text", "title", "to", "wanted",
];
/// Stands for such a text: a letter of private use, which no message has.
const STAND_IN: &str = "\u{e000}a";
/// The variables that are a number.
const NUMBERS: [&str; 12] = [
    "chosen", "complete", "contest", "count", "left", "limit", "option", "options", "rank",
    "sheets", "step", "steps",
];
/// Numbers that have all of the plural forms of Unicode's CLDR 44 rules for our languages (Arabic:
/// 0, 1, 2, 3 to 10, 11 to 99, 100; Russian: 1, 2, 5, 21).
const OF_EACH_PLURAL: [u32; 8] = [0, 1, 2, 3, 5, 11, 21, 100];
/// Steps and other small numbers are heard in every election.
const NUMBERS_LEAST: usize = 20;
/// More rows than a contest has options, or a review contests: those for going on and the like.
const ROWS_BESIDES: usize = 10;

/// What is spoken in one language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpokenTexts {
    /// The language.
    pub language: Language,
    /// The election's texts, then the station's and their parts, numbers and letters, each once.
    pub texts: Vec<String>,
}

impl SpokenTexts {
    /// The texts of all styles of an election in this language.
    ///
    /// # Errors
    /// [`CatalogueError`] where the station has no messages in it.
    pub fn of(election: &Election, language: &Language) -> Result<Self, CatalogueError> {
        let catalogue = Catalogue::shipped(language)?;
        let mut list = List { language, seen: BTreeSet::new(), texts: Vec::new() };
        list.text(&election.name);
        list.text(&election.jurisdiction);
        let nothing = FluentArgs::new();
        let between =
            catalogue.words("ticket-separator", &nothing, Sense::Heard).unwrap_or_default();
        for style in &election.styles {
            list.style(style, &between);
        }
        let joins = ["list-separator", "ticket-separator"];
        let ids = Message::ALL.iter().map(|message| message.id());
        let letters = letters::IDS.into_iter().filter(|id| !joins.contains(id));
        for id in ids.chain(letters) {
            match catalogue.words(id, &nothing, Sense::Heard) {
                Some(words) => list.add(&words),
                None => list.parts_of(&catalogue, id)?,
            }
        }
        (0..=numbers_of(election)).for_each(|number| list.add(&number.to_string()));
        list.letters(election);
        Ok(Self { language: language.clone(), texts: list.texts })
    }
}

/// The largest number that is heard: of contests, of options and the rows beside them.
fn numbers_of(election: &Election) -> usize {
    let contests = |style: &Style| usize::from(style.contest_count());
    let options = |style: &Style| {
        let contests = style.items.iter().filter_map(|item| match item {
            Item::Contest(contest) => Some(contest.options.len()),
            Item::Header(_) => None,
        });
        contests.max().unwrap_or(0)
    };
    let most = election.styles.iter().map(|style| contests(style).max(options(style)));
    most.max().unwrap_or(0).saturating_add(ROWS_BESIDES).max(NUMBERS_LEAST)
}

struct List<'a> {
    language: &'a Language,
    seen: BTreeSet<String>,
    texts: Vec<String>,
}

impl List<'_> {
    fn add(&mut self, words: &str) {
        if !words.trim().is_empty() && self.seen.insert(words.to_owned()) {
            self.texts.push(words.to_owned());
        }
    }

    /// What stands around the arguments of a message, in each of its plural forms.
    fn parts_of(&mut self, catalogue: &Catalogue, id: &'static str) -> Result<(), CatalogueError> {
        for number in OF_EACH_PLURAL {
            let mut args = FluentArgs::new();
            for name in TEXTS {
                args.set(name, STAND_IN);
            }
            for name in NUMBERS {
                args.set(name, FluentValue::from(number));
            }
            // Once a number of contests, once a list of them.
            for contests in [FluentValue::from(number), FluentValue::from(STAND_IN)] {
                args.set("contests", contests);
                let words = catalogue.words(id, &args, Sense::Parted).ok_or_else(|| {
                    CatalogueError::UnknownVariable { language: self.language.tag().into(), id }
                })?;
                for part in parts(&words) {
                    if part != STAND_IN && part != number.to_string() {
                        self.add(&part);
                    }
                }
            }
        }
        Ok(())
    }

    /// The letters that can be written, and those of what is spelled on request.
    fn letters(&mut self, election: &Election) {
        let mut all: BTreeSet<String> = WRITE_IN_CHARACTERS.chars().filter_map(own_name).collect();
        for item in election.styles.iter().flat_map(|style| &style.items) {
            let Item::Contest(contest) = item else { continue };
            for name in contest.options.iter().flat_map(|option| &option.names) {
                all.extend(name.shown.in_language(self.language).chars().filter_map(own_name));
            }
        }
        for letter in &all {
            self.add(letter);
        }
    }

    fn text(&mut self, text: &Text) {
        self.add(text.in_language(self.language));
    }

    fn name(&mut self, name: &Name) {
        self.add(name.heard_in(self.language));
    }

    fn style(&mut self, style: &Style, between: &str) {
        self.text(&style.precinct);
        style.party.iter().for_each(|party| self.text(party));
        for item in &style.items {
            match item {
                Item::Header(header) => {
                    self.name(&header.name);
                    header.content.iter().for_each(|content| self.text(content));
                }
                Item::Contest(contest) => self.contest(contest, between),
            }
        }
    }

    fn contest(&mut self, contest: &Contest, between: &str) {
        self.name(&contest.title);
        contest.subtitle.iter().for_each(|subtitle| self.name(subtitle));
        contest.summary.iter().for_each(|summary| self.text(summary));
        contest.full_text.iter().for_each(|paragraph| self.text(paragraph));
        for option in &contest.options {
            let names: Vec<&str> =
                option.names.iter().map(|name| name.heard_in(self.language)).collect();
            self.add(&names.join(between));
            option.detail.iter().for_each(|detail| self.text(detail));
        }
    }
}

/// A letter that is called as it is written, as one that is recorded.
fn own_name(letter: char) -> Option<String> {
    let is_own = name_of(letter).is_none() && letter.is_alphanumeric();
    is_own.then(|| letter.to_uppercase().to_string())
}
