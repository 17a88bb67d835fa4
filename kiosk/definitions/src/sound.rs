//! The list of an election's recordings: `sound/list.json` beside the definition.
//!
//! A format of our own, since SP 1500-20 has no place for sound: each entry names a text exactly
//! as it is spoken, its language, the file that holds it, and who made that: a person, or a
//! program. Files are opened by others; [`Recording`](crate::Recording) decodes what they read.

use std::collections::BTreeMap;

use evenhand_rules::Language;
use serde::Deserialize;
use thiserror::Error;

use crate::limits::{
    FULL_TEXT_LEN_MAX, RECORDINGS_MAX, SOUND_FILE_NAME_LEN_MAX, SOUND_LIST_BYTES_MAX,
};
use crate::object::short;
use crate::words;

/// Who made a recording.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Maker {
    /// A person spoke it.
    Recorded,
    /// A program made it, and nobody who knows the language has to have listened to it.
    Generated,
}

/// One recording of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The text as it is spoken, white space made plain.
    pub text: String,
    /// Its language.
    pub language: Language,
    /// The file, within `sound/`: a name, or a folder and a name.
    pub file: String,
    /// Who made it.
    pub made: Maker,
}

/// The recordings of an election.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SoundList {
    // Invariant: each text once in each language.
    entries: Vec<Entry>,
    places: BTreeMap<(Language, String), usize>,
}

/// Why a list of recordings can't be used.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum SoundListError {
    /// More bytes than the limit.
    #[error(
        "sound/list.json: the file has more than {SOUND_LIST_BYTES_MAX} bytes. Leave out recordings of texts that this election doesn't have."
    )]
    FileTooLong,
    /// Not JSON, or a field that is missing, unknown or of the wrong type.
    #[error("sound/list.json, line {line}, {field}: {reason}. Correct the entry.")]
    Field {
        /// The line, from 1.
        line: usize,
        /// The field, or `(whole file)`.
        field: String,
        /// What the parser says.
        reason: String,
    },
    /// More entries than the limit.
    #[error(
        "sound/list.json: there are {count} recordings and the limit is {RECORDINGS_MAX}. Leave out those of texts that this election doesn't have."
    )]
    TooMany {
        /// How many there are.
        count: usize,
    },
    /// An entry is at fault.
    #[error("sound/list.json, recording {number} ({file}): {fault}")]
    Entry {
        /// The entry, from 1.
        number: usize,
        /// The file that it names.
        file: String,
        /// What is wrong.
        fault: EntryFault,
    },
}

/// What is wrong with an entry, and what to do.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum EntryFault {
    /// The text is empty, too long or holds what can't be shown.
    #[error("{reason}")]
    Text {
        /// What is wrong with it, and what to do.
        reason: String,
    },
    /// Not a BCP 47 tag.
    #[error("\"{tag}\" is not a language tag. Use BCP 47, such as en, es or zh-Hant.")]
    Language {
        /// The tag given.
        tag: String,
    },
    /// A name that could lead out of the folder, or to another kind of file.
    #[error(
        "the file's name can't be used. Use letters, digits, \"-\" and \"_\", at most one folder, and .wav or .ogg at the end, as in km/title-1.ogg."
    )]
    FileName,
    /// The text is there already.
    #[error("recording {first} has the same text in {tag}. Delete one.")]
    Repeated {
        /// The other entry, from 1.
        first: usize,
        /// The language.
        tag: String,
    },
}

impl SoundList {
    /// Reads `sound/list.json`.
    ///
    /// # Errors
    /// [`SoundListError`] names the entry, what is wrong and what to do.
    pub fn read(bytes: &[u8]) -> Result<Self, SoundListError> {
        if bytes.len() > SOUND_LIST_BYTES_MAX {
            return Err(SoundListError::FileTooLong);
        }
        let mut deserializer = serde_json::Deserializer::from_slice(bytes);
        let raw: Raw = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
            let path = error.path().to_string();
            bad_field(
                if path == "." || path == "?" { "(whole file)" } else { &path },
                error.inner(),
            )
        })?;
        deserializer.end().map_err(|error| bad_field("(whole file)", &error))?;
        if raw.recordings.len() > RECORDINGS_MAX {
            return Err(SoundListError::TooMany { count: raw.recordings.len() });
        }
        let mut list = Self::default();
        for (number, given) in (1..).zip(&raw.recordings) {
            list.add(given).map_err(|fault| SoundListError::Entry {
                number,
                file: short(&given.file),
                fault,
            })?;
        }
        Ok(list)
    }

    /// The recordings in the list's order.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The recording of a text as it is spoken, if there is one.
    pub fn find(&self, text: &str, language: &Language) -> Option<&Entry> {
        let place = self.places.get(&(language.clone(), plain(text)))?;
        self.entries.get(*place)
    }

    fn add(&mut self, given: &RawEntry) -> Result<(), EntryFault> {
        let text = words::plain(&given.text, FULL_TEXT_LEN_MAX)
            .map_err(|fault| EntryFault::Text { reason: fault.to_string() })?;
        let language = words::language(&given.language)
            .map_err(|_| EntryFault::Language { tag: short(&given.language) })?;
        if !is_file_name(&given.file) {
            return Err(EntryFault::FileName);
        }
        let place = self.entries.len();
        if let Some(first) = self.places.insert((language.clone(), plain(&text)), place) {
            let tag = language.tag().to_owned();
            return Err(EntryFault::Repeated { first: first.saturating_add(1), tag });
        }
        self.entries.push(Entry { text, language, file: given.file.clone(), made: given.made });
        Ok(())
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    recordings: Vec<RawEntry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawEntry {
    text: String,
    language: String,
    file: String,
    made: Maker,
}

/// Blanks as one; a comma at the end, which only tells a voice to go on, is no part of a text.
fn plain(text: &str) -> String {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    text.trim_end_matches(',').to_owned()
}

/// Whether this names a sound file in the folder or one folder below: no way out of it.
fn is_file_name(name: &str) -> bool {
    let (path, kind) = name.rsplit_once('.').unwrap_or_default();
    let fits = |part: &str| {
        let fits = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'-' || byte == b'_';
        !part.is_empty() && part.bytes().all(fits)
    };
    name.len() <= SOUND_FILE_NAME_LEN_MAX
        && matches!(kind, "wav" | "ogg")
        && path.split('/').count() <= 2
        && path.split('/').all(fits)
}

fn bad_field(path: &str, error: &serde_json::Error) -> SoundListError {
    SoundListError::Field {
        line: error.line(),
        field: short(path),
        reason: short(&error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn list(entries: &str) -> Result<SoundList, String> {
        let text = format!("{{\"recordings\": [{entries}]}}");
        SoundList::read(text.as_bytes()).map_err(|error| error.to_string())
    }

    fn entry(text: &str, language: &str, file: &str) -> String {
        format!(
            r#"{{"text": "{text}", "language": "{language}", "file": "{file}", "made": "recorded"}}"#
        )
    }

    #[test]
    fn a_text_is_found_as_it_is_spoken() {
        let both = format!(
            "{},{}",
            entry("Maria  Okafor", "en", "a.wav"),
            entry("Maria Okafor", "KM", "km/a.ogg")
        );
        let list = list(&both).unwrap();
        let find = |text: &str, tag: &str| {
            list.find(text, &Language::new(tag)).map(|entry| entry.file.as_str())
        };
        assert_eq!(find("Maria Okafor", "en"), Some("a.wav"));
        assert_eq!(find(" Maria\n Okafor, ", "km"), Some("km/a.ogg"));
        for (text, tag) in [("Maria Okafor.", "en"), ("maria okafor", "en"), ("Maria Okafor", "es")]
        {
            assert_eq!(find(text, tag), None, "{text}, {tag}");
        }
    }

    #[test]
    fn who_made_it_is_kept() {
        let text = entry("a", "en", "a.wav").replace("recorded", "generated");
        let list = list(&text).unwrap();
        assert_eq!(list.entries().first().map(|entry| entry.made), Some(Maker::Generated));
    }

    #[test]
    fn a_bad_entry_is_refused_by_name() {
        let good = entry("a", "en", "a.wav");
        for (bad, says) in [
            (good.replace("recorded", "spoken"), "unknown variant"),
            (good.replace("\"made\"", "\"by\""), "unknown field"),
            (good.replace(", \"made\": \"recorded\"", ""), "missing field"),
            (entry("", "en", "a.wav"), "recording 1 (a.wav): the text is empty"),
            (entry("a\\u202e", "en", "a.wav"), "U+202E"),
            (entry(&"a".repeat(FULL_TEXT_LEN_MAX + 1), "en", "a.wav"), "the limit is 40000"),
            (entry("a", "e", "a.wav"), "\"e\" is not a language tag"),
            (
                format!("{good},{}", entry(" a ", "en", "b.wav")),
                "recording 2 (b.wav): recording 1 has the same text",
            ),
            (entry("a", "en", "../a.wav"), "name can't be used"),
            (entry("a", "en", "/a.wav"), "name can't be used"),
            (entry("a", "en", "a/b/c.wav"), "name can't be used"),
            (entry("a", "en", "a.mp3"), "name can't be used"),
            (entry("a", "en", ".wav"), "name can't be used"),
            (entry("a", "en", "a b.wav"), "name can't be used"),
            (
                entry("a", "en", &format!("{}.wav", "a".repeat(SOUND_FILE_NAME_LEN_MAX))),
                "name can't be used",
            ),
        ] {
            let error = list(&bad).unwrap_err();
            assert!(error.contains(says), "{bad}: {error}");
        }
        assert!(list("{").unwrap_err().contains("line 1"));
    }

    #[test]
    fn bytes_and_entries_are_limited() {
        let long = vec![b' '; SOUND_LIST_BYTES_MAX + 1];
        assert_eq!(SoundList::read(&long), Err(SoundListError::FileTooLong));
        let many: Vec<String> =
            (0..=RECORDINGS_MAX).map(|at| entry(&at.to_string(), "en", "a.wav")).collect();
        assert!(list(&many.join(",")).unwrap_err().contains("20001 recordings"));
        assert_eq!(list("").unwrap(), SoundList::default());
    }
}
