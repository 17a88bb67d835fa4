//! Texts: white space made plain, characters that can't be shown truthfully refused, languages
//! checked.
//!
//! Unicode composition (NFC or not) is left as the file has it: shaping handles both, and the
//! office's own spelling is not ours to change.

use std::collections::BTreeSet;

use evenhand_rules::{Language, Text};

use crate::classes::ManyLanguages;
use crate::error::{DefinitionError, Fault};
use crate::limits::{LANGUAGE_TAG_LEN_MAX, LANGUAGES_MAX, PARAGRAPHS_MAX};
use crate::lines::Step;
use crate::object::{Object, short};

/// A text of one paragraph in its languages; the election's first one must be among them.
pub(crate) fn text(
    object: Object<'_>,
    field: &str,
    given: &ManyLanguages,
    limit: usize,
    first: Option<&Language>,
) -> Result<Text, DefinitionError> {
    let entries = entries(object, field, given, first)?
        .into_iter()
        .map(|(language, content, steps)| {
            let words = plain(content, limit).map_err(|fault| object.fault_at(&steps, fault))?;
            Ok((language, words))
        })
        .collect::<Result<_, DefinitionError>>()?;
    Ok(Text::new(entries))
}

/// A text split where blank lines are, the same number of paragraphs in each language.
pub(crate) fn paragraphs(
    object: Object<'_>,
    field: &str,
    given: &ManyLanguages,
    limit: usize,
    first: Option<&Language>,
) -> Result<Vec<Text>, DefinitionError> {
    let mut split: Vec<Vec<(Language, String)>> = Vec::new();
    for (index, (language, content, steps)) in
        entries(object, field, given, first)?.into_iter().enumerate()
    {
        let at = |fault| object.fault_at(&steps, fault);
        hold_length(content, limit).map_err(at)?;
        let parts = split_at_blank_lines(content)
            .iter()
            .map(|part| plain(part, limit))
            .collect::<Result<Vec<_>, _>>()
            .map_err(at)?;
        if parts.is_empty() {
            return Err(at(Fault::EmptyText));
        }
        object.hold(field, "paragraphs", parts.len(), PARAGRAPHS_MAX)?;
        if index == 0 {
            split = parts.into_iter().map(|part| vec![(language.clone(), part)]).collect();
        } else if parts.len() == split.len() {
            for (paragraph, part) in split.iter_mut().zip(parts) {
                paragraph.push((language.clone(), part));
            }
        } else {
            let (first, other, tag) = (split.len(), parts.len(), language.tag().to_owned());
            return Err(at(Fault::UnevenParagraphs { first, other, tag }));
        }
    }
    Ok(split.into_iter().map(Text::new).collect())
}

/// A text without a language of its own, which counts as the election's first one.
pub(crate) fn untagged(
    object: Object<'_>,
    field: &str,
    content: &str,
    limit: usize,
    language: &Language,
) -> Result<Text, DefinitionError> {
    let words = plain(content, limit).map_err(|fault| object.fault(field, fault))?;
    Ok(Text::new(vec![(language.clone(), words)]))
}

/// Several texts as one, language by language: those that all have, else the first's first one.
pub(crate) fn joined(texts: &[Text], between: &str) -> Text {
    let Some((head, tail)) = texts.split_first() else { return Text::default() };
    let whole = |language: &Language| {
        let words: Vec<&str> = texts.iter().map(|text| text.in_language(language)).collect();
        (language.clone(), words.join(between))
    };
    let common = head
        .entries()
        .iter()
        .filter(|(language, _)| tail.iter().all(|text| text.exact(language).is_some()))
        .map(|(language, _)| whole(language))
        .collect::<Vec<_>>();
    if common.is_empty() {
        return Text::new(head.entries().iter().take(1).map(|(first, _)| whole(first)).collect());
    }
    Text::new(common)
}

/// A language from its tag, its letters' case made the usual one (RFC 5646, section 2.1.1).
pub(crate) fn language(tag: &str) -> Result<Language, Fault> {
    let bad = || Fault::BadLanguage { tag: short(tag) };
    let subtag_fits = |part: &str| {
        (1..=8).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_alphanumeric())
    };
    let mut parts = tag.split('-');
    let primary = parts.next().unwrap_or_default();
    let primary_fits =
        (2..=8).contains(&primary.len()) && primary.bytes().all(|byte| byte.is_ascii_alphabetic());
    if tag.len() > LANGUAGE_TAG_LEN_MAX || !primary_fits || !parts.clone().all(subtag_fits) {
        return Err(bad());
    }
    let mut usual = primary.to_ascii_lowercase();
    for part in parts {
        usual.push('-');
        let letters = part.bytes().all(|byte| byte.is_ascii_alphabetic());
        match part.len() {
            2 if letters => usual.push_str(&part.to_ascii_uppercase()),
            4 if letters => {
                let lower = part.to_ascii_lowercase();
                let (head, tail) = lower.split_at(1);
                usual.push_str(&head.to_ascii_uppercase());
                usual.push_str(tail);
            }
            _ => usual.push_str(&part.to_ascii_lowercase()),
        }
    }
    Ok(Language::new(usual))
}

type Entry<'t> = (Language, &'t str, Vec<Step>);

fn entries<'t>(
    object: Object<'_>,
    field: &str,
    given: &'t ManyLanguages,
    first: Option<&Language>,
) -> Result<Vec<Entry<'t>>, DefinitionError> {
    let steps = |rest: &[Step]| {
        let mut steps = vec![Step::Field(field.to_owned()), Step::Field("Text".to_owned())];
        steps.extend_from_slice(rest);
        steps
    };
    if given.text.is_empty() {
        return Err(object.fault_at(&steps(&[]), Fault::EmptyText));
    }
    if given.text.len() > LANGUAGES_MAX {
        let (count, limit) = (given.text.len(), LANGUAGES_MAX);
        let fault = Fault::TooMany { what: "languages", count, limit };
        return Err(object.fault_at(&steps(&[]), fault));
    }
    let mut seen = BTreeSet::new();
    let mut entries = Vec::new();
    for (index, entry) in given.text.iter().enumerate() {
        let of = |name: &str| steps(&[Step::Item(index), Step::Field(name.to_owned())]);
        let tagged =
            language(&entry.language).map_err(|fault| object.fault_at(&of("Language"), fault))?;
        if !seen.insert(tagged.clone()) {
            let fault = Fault::RepeatedLanguage { tag: tagged.tag().to_owned() };
            return Err(object.fault_at(&of("Language"), fault));
        }
        entries.push((tagged, entry.content.as_str(), of("Content")));
    }
    match first {
        Some(first) if !seen.contains(first) => {
            let fault = Fault::MissingLanguage { tag: first.tag().to_owned() };
            Err(object.fault_at(&steps(&[]), fault))
        }
        _ => Ok(entries),
    }
}

/// One line of words: white space collapsed and trimmed, every character one that can be shown.
pub(crate) fn plain(content: &str, limit: usize) -> Result<String, Fault> {
    let words = content.split_whitespace().collect::<Vec<_>>().join(" ");
    if let Some(bad) = words.chars().find(|character| !is_showable(*character)) {
        return Err(Fault::BadCharacter { character: format!("U+{:04X}", u32::from(bad)) });
    }
    if words.is_empty() {
        return Err(Fault::EmptyText);
    }
    hold_length(&words, limit)?;
    Ok(words)
}

fn hold_length(words: &str, limit: usize) -> Result<(), Fault> {
    let len = words.chars().count();
    if len > limit { Err(Fault::TextTooLong { len, limit }) } else { Ok(()) }
}

fn split_at_blank_lines(content: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    // U+2029 is Unicode's own paragraph separator.
    let lines = content.replace('\u{2029}', "\n\n");
    for line in lines.lines() {
        if line.trim().is_empty() {
            parts.push(String::new());
        } else if let Some(part) = parts.last_mut() {
            part.push_str(line);
            part.push('\n');
        }
    }
    parts.retain(|part| !part.is_empty());
    parts
}

/// Refused are controls; marks that turn the direction of what follows (Unicode UAX 9, section 2),
/// with which a name can be made to read otherwise than it is stored; characters without a shape,
/// which make two names look the same; and those that no font has (private use, noncharacters,
/// the replacement character, which says that the file was damaged before).
/// The joiners U+200C and U+200D and the break U+200B stay: several scripts need them.
fn is_showable(character: char) -> bool {
    let hidden = matches!(character,
        '\u{00ad}' | '\u{034f}' | '\u{061c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}'
        | '\u{180e}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
        | '\u{3164}' | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffd}'
        | '\u{e000}'..='\u{f8ff}' | '\u{fdd0}'..='\u{fdef}' | '\u{e0000}'..='\u{10ffff}');
    let noncharacter = u32::from(character) & 0xfffe == 0xfffe;
    !character.is_control() && !hidden && !noncharacter
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn white_space_becomes_plain() {
        assert_eq!(plain(" Edris\n\t\tThomas \u{a0}", 20).unwrap(), "Edris Thomas");
        assert_eq!(plain(" \n", 20), Err(Fault::EmptyText));
        assert_eq!(plain("abc", 2), Err(Fault::TextTooLong { len: 3, limit: 2 }));
    }

    #[test]
    fn letters_of_many_scripts_are_kept() {
        for name in ["Zoë O’Brien-Peña", "ស្រី\u{200b}ពៅ", "محمد علی\u{200c}نژاد", "陳大文", "Ķ̆"]
        {
            assert_eq!(plain(name, 40).unwrap(), name);
        }
    }

    #[test]
    fn what_misleads_is_refused() {
        for c in ['\u{7}', '\u{202e}', '\u{200f}', '\u{2066}', '\u{ad}', '\u{feff}', '\u{fffd}'] {
            let named = format!("A{c}b");
            assert!(matches!(plain(&named, 9), Err(Fault::BadCharacter { .. })), "{named:?}");
        }
    }

    #[test]
    fn tags_get_their_usual_case() {
        let tag = |tag: &str| language(tag).map(|language| language.tag().to_owned());
        assert_eq!(tag("EN").unwrap(), "en");
        assert_eq!(tag("zh-hant-tw").unwrap(), "zh-Hant-TW");
        assert_eq!(tag("es-419").unwrap(), "es-419");
        for bad in ["", "e", "english-", "en_US", "en--us", "12", "en-abcdefghi", "ñu"] {
            assert!(tag(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn blank_lines_end_paragraphs_and_single_ones_do_not() {
        assert_eq!(split_at_blank_lines("a\n b\r\n \r\nc\u{2029}d\n\n"), ["a\n b\n", "c\n", "d\n"]);
    }
}
