//! A language without a synthetic voice is heard by recordings alone: all that a visit says, on every
//! kind of screen, is one of the texts that the office is told to have recorded, or made of them.

use std::collections::BTreeSet;

use evenhand_rules::Language;
use evenhand_visit::{Palette, TypeSize};
use evenhand_words::SpokenTexts;

use crate::walk::{Walk, every_screen};
use crate::{LANDSCAPE, figures};

/// A text as recordings are looked up: without the comma that only tells a voice to go on.
fn key(text: &str) -> &str {
    text.trim().trim_end_matches(',')
}

/// How many phrases are one recording, how many are made of parts, and those that neither can say.
fn heard(walk: &Walk, texts: &BTreeSet<String>) -> (usize, usize, BTreeSet<String>) {
    let stage = walk.stage();
    let language = walk.view().comfort.language;
    let (mut whole, mut in_parts, mut silent) = (0, 0, BTreeSet::new());
    for phrase in walk.said.iter().flat_map(|said| &said.parts).map(|part| &part.phrase) {
        // The opening's words in the election's other languages have a voice of their own.
        if phrase.language.is_some_and(|other| other != language) {
            continue;
        }
        for heard in stage.words.heard(phrase, language) {
            let parts = stage.words.heard_in_parts(phrase, language);
            if key(&heard.text).is_empty() || texts.contains(key(&heard.text)) {
                whole += 1;
            } else if !parts.is_empty() && parts.iter().all(|part| texts.contains(key(part))) {
                in_parts += 1;
            } else {
                silent.insert(format!("{:?}: {:?}", phrase.message, heard.text));
            }
        }
    }
    (whole, in_parts, silent)
}

#[test]
fn all_that_is_said_can_be_recorded() {
    for tag in ["km", "fil", "ar", "en"] {
        let walk = every_screen(LANDSCAPE, tag, (TypeSize::Medium, Palette::DarkOnLight));
        let election = walk.stage().words.election();
        let listed = SpokenTexts::of(election, &Language::new(tag)).unwrap().texts;
        let texts: BTreeSet<String> = listed.iter().map(|text| key(text).to_owned()).collect();
        let (whole, in_parts, silent) = heard(&walk, &texts);
        assert!(silent.is_empty(), "{tag}: {silent:#?}");
        assert!(whole > 100 && in_parts > 50, "{tag}: {whole}, {in_parts}");
        figures::note(
            &format!("heard by recordings alone, {tag}"),
            &format!("{} texts, {whole} phrases whole, {in_parts} in parts", texts.len()),
        );
        // Without one number the sentences that hold it are silent.
        let fewer = texts.iter().filter(|text| *text != "2").cloned().collect();
        assert!(!heard(&walk, &fewer).2.is_empty(), "{tag}");
    }
}
