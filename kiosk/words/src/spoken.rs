//! Every text of an election that is spoken as it stands, for whoever records them.
//!
//! It can't list everything: a message that holds a number or a name ("Chosen: …", "Contest 3 of
//! 18") is another text each time. Those are named instead.

use std::collections::BTreeSet;

use evenhand_rules::{Contest, Election, Item, Language, Name, Style, Text};
use evenhand_visit::Message;
use fluent::FluentArgs;

use crate::{Catalogue, CatalogueError, letters};

/// What is spoken in one language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpokenTexts {
    /// The language.
    pub language: Language,
    /// The election's texts and then the station's, each once.
    pub texts: Vec<String>,
    /// The station's messages that hold a number, a name or another text, by their ids.
    pub varying: Vec<&'static str>,
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
        let (nothing, mut varying) = (FluentArgs::new(), Vec::new());
        let between = catalogue.words("ticket-separator", &nothing, true).unwrap_or_default();
        for style in &election.styles {
            list.style(style, &between);
        }
        let joins = ["list-separator", "ticket-separator"];
        let ids = Message::ALL.iter().map(|message| message.id());
        let letters = letters::IDS.into_iter().filter(|id| !joins.contains(id));
        for id in ids.chain(letters) {
            match catalogue.words(id, &nothing, true) {
                Some(words) => list.add(&words),
                None => varying.push(id),
            }
        }
        Ok(Self { language: language.clone(), texts: list.texts, varying })
    }
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
