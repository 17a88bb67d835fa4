//! The shipped catalogues: every message in every language, with the same variables as English.
#![expect(clippy::expect_used, reason = "a test stops where its own ground is missing")]

use std::collections::BTreeSet;
use std::sync::Arc;

use evenhand_lettering::{Face, Shaper};
use evenhand_rules::{Election, Language, Style, Text, WriteInText};
use evenhand_visit::{Arg, LanguageIndex, Message, Phrase};
use evenhand_words::{Catalogue, CatalogueError, PaperWords, Sense, Words};
use fluent::FluentArgs;

const VISIT: [(&str, &str); 10] = [
    ("en", include_str!("../../../locales/en/visit.ftl")),
    ("es", include_str!("../../../locales/es/visit.ftl")),
    ("zh-Hant", include_str!("../../../locales/zh-Hant/visit.ftl")),
    ("vi", include_str!("../../../locales/vi/visit.ftl")),
    ("ko", include_str!("../../../locales/ko/visit.ftl")),
    ("fil", include_str!("../../../locales/fil/visit.ftl")),
    ("km", include_str!("../../../locales/km/visit.ftl")),
    ("bn", include_str!("../../../locales/bn/visit.ftl")),
    ("ar", include_str!("../../../locales/ar/visit.ftl")),
    ("ru", include_str!("../../../locales/ru/visit.ftl")),
];
const PAPER: [(&str, &str); 10] = [
    ("en", include_str!("../../../locales/en/paper.ftl")),
    ("es", include_str!("../../../locales/es/paper.ftl")),
    ("zh-Hant", include_str!("../../../locales/zh-Hant/paper.ftl")),
    ("vi", include_str!("../../../locales/vi/paper.ftl")),
    ("ko", include_str!("../../../locales/ko/paper.ftl")),
    ("fil", include_str!("../../../locales/fil/paper.ftl")),
    ("km", include_str!("../../../locales/km/paper.ftl")),
    ("bn", include_str!("../../../locales/bn/paper.ftl")),
    ("ar", include_str!("../../../locales/ar/paper.ftl")),
    ("ru", include_str!("../../../locales/ru/paper.ftl")),
];

const WORKER: [(&str, &str); 2] = [
    ("en", include_str!("../../../locales/en/worker.ftl")),
    ("es", include_str!("../../../locales/es/worker.ftl")),
];

fn language(tag: &str) -> Language {
    Language::new(tag)
}

/// Each message of a Fluent text with the variables that stand in it, by a plain reading of the
/// lines that is independent of the Fluent library.
fn variables(source: &str) -> Vec<(String, BTreeSet<String>)> {
    let mut found: Vec<(String, BTreeSet<String>)> = Vec::new();
    for line in source.lines().filter(|line| !line.starts_with('#')) {
        let starts = line.starts_with(|c: char| c.is_ascii_lowercase());
        if let (true, Some((id, _))) = (starts, line.split_once(" =")) {
            found.push((id.to_owned(), BTreeSet::new()));
        }
        for part in line.split('$').skip(1) {
            let name: String =
                part.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '-').collect();
            found.last_mut().expect("a variable stands in a message").1.insert(name);
        }
    }
    found
}

#[test]
fn every_language_has_the_same_messages_and_variables() {
    for sources in [&VISIT[..], &PAPER, &WORKER] {
        let mut english = variables(sources[0].1);
        english.sort();
        assert!(english.len() > 10, "the English messages were not found");
        for (tag, source) in &sources[1..] {
            let mut other = variables(source);
            other.sort();
            assert_eq!(english, other, "locales/{tag} differs from locales/en");
        }
    }
}

#[test]
fn no_message_is_unused() {
    let used: BTreeSet<&str> = Message::ALL.iter().map(|message| message.id()).collect();
    let others = ["letter-", "list-separator", "ticket-separator"];
    for (id, _) in variables(VISIT[0].1) {
        let is_helper = others.iter().any(|start| id.starts_with(start));
        assert!(used.contains(id.as_str()) || is_helper, "locales/en/visit.ftl: {id} is unused");
    }
    let worker: BTreeSet<&str> =
        evenhand_duty::Message::ALL.iter().map(|message| message.id()).collect();
    for (id, _) in variables(WORKER[0].1) {
        let is_used = worker.contains(id.as_str()) || id.starts_with("button-");
        assert!(is_used, "locales/en/worker.ftl: {id} is unused");
    }
    let catalogue = include_str!("../src/paper.rs");
    for (id, _) in variables(PAPER[0].1) {
        assert!(catalogue.contains(&format!("\"{id}\"")), "locales/en/paper.ftl: {id} is unused");
    }
}

#[test]
fn a_catalogue_with_a_hole_is_refused() {
    let without = VISIT[0].1.replace("bar-help = Help\n", "");
    let error = Catalogue::from_sources(&language("en"), &[&without, PAPER[0].1])
        .expect_err("a message is missing");
    assert_eq!(error, CatalogueError::Missing { language: "en".into(), id: "bar-help" });
    let twice = format!("{}\nbar-help = Help\n", VISIT[0].1);
    assert!(matches!(
        Catalogue::from_sources(&language("en"), &[&twice, PAPER[0].1]),
        Err(CatalogueError::Syntax { .. })
    ));
    let broken = format!("{}\nbar-help2 = {{ $name\n", VISIT[0].1);
    assert!(matches!(
        Catalogue::from_sources(&language("en"), &[&broken, PAPER[0].1]),
        Err(CatalogueError::Syntax { .. })
    ));
    assert!(matches!(
        Catalogue::shipped(&language("xx")),
        Err(CatalogueError::NoSuchLanguage(tag)) if tag == "xx"
    ));
}

#[test]
fn a_message_with_a_missing_argument_gives_nothing() {
    let catalogue = Catalogue::shipped(&language("en")).expect("English is there");
    assert_eq!(catalogue.words("more-below", &FluentArgs::new(), Sense::Seen), None);
}

fn words() -> Words {
    let text = |words: &str| Text::new(vec![(language("en"), words.into())]);
    let election = Election {
        name: text("Election"),
        jurisdiction: text("County"),
        date: "2027-11-02".into(),
        is_test: true,
        fingerprint: [0; 8],
        languages: vec![language("en")],
        styles: Vec::new(),
        refused: Vec::new(),
    };
    let style = Style {
        code: "1".into(),
        units: Vec::new(),
        precinct: text("North"),
        party: None,
        items: Vec::new(),
    };
    let languages = [language("en"), language("es")];
    Words::load(&languages, Arc::new(election), Arc::new(style)).expect("both languages ship")
}

#[test]
fn numbers_have_their_plurals() {
    let words = words();
    let more = |count: u32| Phrase::new(Message::CheckSheets).number("sheets", count);
    assert_eq!(words.seen(&more(1), LanguageIndex(0)), "Your ballot is on 1 sheet.");
    assert_eq!(words.seen(&more(2), LanguageIndex(0)), "Your ballot is on 2 sheets.");
    assert_eq!(words.seen(&more(1), LanguageIndex(1)), "Su boleta está en 1 hoja.");
    assert_eq!(words.seen(&more(3), LanguageIndex(1)), "Su boleta está en 3 hojas.");
}

#[test]
fn a_letter_is_heard_by_its_name_and_seen_as_itself() {
    let words = words();
    let key = Phrase::new(Message::KeyName).with("letter", Arg::Character('Ñ'));
    assert_eq!(words.seen(&key, LanguageIndex(0)), "Ñ");
    assert_eq!(words.heard(&key, LanguageIndex(0))[0].text, "N with a tilde");
    assert_eq!(words.heard(&key, LanguageIndex(1))[0].text, "eñe");
}

#[test]
fn a_written_name_is_spelled_letter_by_letter() {
    let words = words();
    let mut name = WriteInText::new();
    for letter in "O'B".chars() {
        name.push(letter).expect("it is on the keyboard");
    }
    let spelled = Phrase::new(Message::WriteInSpelled).with("letters", Arg::Spelled(name.clone()));
    assert_eq!(words.heard(&spelled, LanguageIndex(0))[0].text, "O, apostrophe, B");
    let named = Phrase::new(Message::WriteInNamed).with("name", Arg::Written(name));
    assert_eq!(words.seen(&named, LanguageIndex(0)), "Write-in: O'B");
    assert_eq!(words.heard(&named, LanguageIndex(0))[0].text, "Write-in: O'B");
}

#[test]
fn the_paper_has_its_words_in_both_languages() {
    use evenhand_sheet::Wording as _;
    let paper = PaperWords::load(&[language("en"), language("es")]).expect("both languages ship");
    assert_eq!(paper.date("2027-11-02", &language("en")), "November 2, 2027");
    assert_eq!(paper.date("2027-11-02", &language("es")), "2 de noviembre de 2027");
    assert_eq!(paper.date("soon", &language("en")), "soon");
}

/// How much longer than English a label may be: it stands in large type in a place that never grows.
/// Counted in characters that take room: marks over or under a letter take none.
#[test]
fn labels_of_the_bar_are_short_in_every_language() {
    let id = |message: Message| message.id();
    let bar = [
        id(Message::BarBack),
        id(Message::BarNext),
        id(Message::BarHearAgain),
        id(Message::BarComfort),
        id(Message::BarHelp),
        id(Message::BarDone),
        id(Message::BarSkip),
        id(Message::BarToReview),
        id(Message::BarKeep),
    ];
    for tag in Catalogue::shipped_tags() {
        let catalogue = Catalogue::shipped(&language(tag)).expect("it loads");
        for id in bar {
            let words =
                catalogue.words(id, &FluentArgs::new(), Sense::Seen).expect("it has no variable");
            let wide = words.chars().filter(|c| c.is_alphanumeric() || *c == ' ').count();
            assert!(wide <= 24, "locales/{tag}: {id} is {wide} long: \"{words}\"");
        }
    }
}

/// Every character of every message has a glyph in one of the station's faces, and each whole
/// message in a single one, so that no sentence mixes two looks.
#[test]
fn the_faces_draw_every_message() {
    let shaper = Shaper::new();
    for (tag, source) in VISIT.iter().chain(&PAPER) {
        for line in source.lines().filter(|line| !line.starts_with('#')) {
            let said = line.contains(".heard");
            for face in [Face::REGULAR, Face::BOLD] {
                assert!(said || shaper.covers(line, face).is_ok(), "locales/{tag}: {line}");
            }
        }
    }
    assert!(shaper.covers("Quillbrook ก", Face::BOLD).is_err(), "Thai isn't among them");
}

#[test]
fn arabic_is_read_from_the_right_and_names_keep_their_order() {
    let arabic = Catalogue::shipped(&language("ar")).expect("it loads");
    let mut args = FluentArgs::new();
    args.set("name", "Maria Okafor");
    let seen = arabic.words("said-chosen", &args, Sense::Seen).expect("it has its variable");
    assert!(seen.starts_with('\u{200f}') && seen.contains("\u{2068}Maria Okafor\u{2069}"));
    let heard = arabic.words("said-chosen", &args, Sense::Heard).expect("it has its variable");
    assert!(heard.contains("Maria Okafor"));
    assert!(!heard.contains(['\u{200f}', '\u{2068}', '\u{2069}']), "a voice gets no marks");
    let english = Catalogue::shipped(&language("en")).expect("it loads");
    assert!(
        !english.words("said-chosen", &args, Sense::Seen).expect("it has it").contains('\u{2068}')
    );
    assert!(arabic.is_right_to_left() && !english.is_right_to_left());
}
