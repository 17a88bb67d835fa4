//! Every text that is spoken is listed, whole or in its parts.

use std::collections::BTreeSet;

use evenhand_rules::{
    Contest, ContestKind, ContestOption, Election, Item, Language, Name, OptionKind, Rule, Style,
    Text,
};
use evenhand_words::{Catalogue, SpokenTexts};

fn text(words: &str) -> Text {
    Text::new(vec![(Language::new("km"), words.to_owned())])
}

fn name(words: &str) -> Name {
    Name::plain(text(words))
}

fn option(id: &str, names: Vec<Name>, detail: Option<Text>) -> ContestOption {
    ContestOption { id: id.to_owned(), kind: OptionKind::Listed, names, detail }
}

fn election() -> Election {
    let contest = Contest {
        id: "c".to_owned(),
        title: name("Title"),
        subtitle: Some(name("Subtitle")),
        kind: ContestKind::Measure,
        is_approval: false,
        rule: Rule::Choose { max: 1 },
        summary: Some(text("Summary.")),
        full_text: vec![text("First paragraph."), text("Second paragraph.")],
        affects: Vec::new(),
        options: vec![
            option("a", vec![name("Alone")], Some(text("Party"))),
            option(
                "b",
                vec![Name { shown: text("Xiulan"), said: Some(text("Shoo-lan")) }, name("Lee")],
                None,
            ),
        ],
    };
    let style = Style {
        code: "1".to_owned(),
        units: vec!["u".to_owned()],
        precinct: text("Precinct"),
        party: None,
        items: vec![Item::Contest(contest.clone()), Item::Contest(contest)],
    };
    Election {
        name: text("Election"),
        jurisdiction: text("County"),
        date: "2027-05-04".to_owned(),
        is_test: false,
        fingerprint: [0; 8],
        languages: vec![Language::new("km")],
        styles: vec![style],
        refused: Vec::new(),
    }
}

#[test]
fn an_elections_texts_are_listed_once_as_they_are_heard() {
    let spoken = SpokenTexts::of(&election(), &Language::new("km")).unwrap();
    let own = [
        "Election",
        "County",
        "Precinct",
        "Title",
        "Subtitle",
        "Summary.",
        "First paragraph.",
        "Second paragraph.",
        "Alone",
        "Party",
    ];
    assert_eq!(spoken.texts[..own.len()], own);
    let ticket = &spoken.texts[own.len()];
    assert!(ticket.starts_with("Shoo-lan") && ticket.ends_with("Lee"), "{ticket}");
    let once: BTreeSet<&String> = spoken.texts.iter().collect();
    assert_eq!(once.len(), spoken.texts.len());
}

#[test]
fn messages_are_listed_whole_or_in_their_parts() {
    for tag in Catalogue::shipped_tags() {
        let spoken = SpokenTexts::of(&election(), &Language::new(tag)).unwrap();
        let signs = ['{', '\u{2068}', '\u{2069}', '\u{200f}', '\u{e000}'];
        let whole = spoken.texts.iter().all(|text| !text.contains(signs));
        assert!(whole, "{tag}: a text holds what isn't spoken");
        for text in ["0", "20", "A", "Z"] {
            assert!(spoken.texts.iter().any(|other| other == text), "{tag}: {text}");
        }
    }
    let english = SpokenTexts::of(&election(), &Language::new("en")).unwrap();
    for words in [
        "Hear again",
        "Take your paper to the ballot box, or to the ballot scanner. It counts only when you put it in.",
        "A with an accent",
        // Parts of "Contest 3 of 18", of "2 contests have choices left" and of "1 contest has …".
        "Contest",
        "of",
        "contest has choices left. It comes first. That is fine if you want it so",
        "contests have choices left. They come first. That is fine if you want it so",
    ] {
        assert!(english.texts.iter().any(|text| text == words), "{words}");
    }
}

#[test]
fn a_language_without_messages_is_an_error() {
    assert!(SpokenTexts::of(&election(), &Language::new("xx")).is_err());
}
