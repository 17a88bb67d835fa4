//! What the office decides for its stations: `settings.json` beside the definition.

use evenhand_rules::{Election, Language, Waits};
use serde::Deserialize;
use thiserror::Error;

use crate::limits::{LANGUAGES_MAX, PRINTED_LANGUAGES_MAX, REPLACEMENTS_MAX, SETTINGS_BYTES_MAX};
use crate::object::short;
use crate::words;

/// The office's settings for its stations.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StationSettings {
    /// How often one voter may have a spoiled sheet replaced; 2 where nothing is said. A device's
    /// fault never counts.
    pub max_replacements: u8,
    /// How long the station waits for a press, and then for an answer; three minutes and thirty
    /// seconds where nothing is said.
    pub waits: Waits,
    /// The languages of the printed edition, one or two, in their order on paper. Where nothing is
    /// said: English.
    pub printed_languages: Vec<Language>,
    /// The languages that voters may choose, in the order in which they are offered. Where nothing
    /// is said: empty, which means every language of the election.
    pub station_languages: Vec<Language>,
    /// The language until the voter chooses one. Where nothing is said: the first of
    /// `station_languages`, else the first of `printed_languages`.
    pub default_language: Language,
}

/// Why bytes are not settings that this election can use.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum SettingsError {
    /// More bytes than the limit.
    #[error(
        "settings: the file has {bytes} bytes and the limit is {SETTINGS_BYTES_MAX}. It needs six short fields only."
    )]
    FileTooLong {
        /// The bytes given.
        bytes: usize,
    },
    /// Not JSON, or a field that is unknown or of the wrong type.
    #[error("settings, line {line}, field {field}: {reason}. Correct or delete the field.")]
    Field {
        /// The line, from 1.
        line: usize,
        /// The field, or `(whole file)`.
        field: String,
        /// What the parser says.
        reason: String,
    },
    /// A number above its limit.
    #[error(
        "settings, field max_replacements: {value} is more than {REPLACEMENTS_MAX}. Give a smaller number."
    )]
    TooManyReplacements {
        /// The number given.
        value: u8,
    },
    /// Waits out of their bounds.
    #[error(
        "settings, fields ask_after_s and answer_within_s: {ask} and {answer} seconds. Give 120 to 300 and 20 to 45, or delete the fields."
    )]
    Waits {
        /// The first, in seconds.
        ask: u16,
        /// The second, in seconds.
        answer: u16,
    },
    /// A list that is empty or too long.
    #[error(
        "settings, field {field}: there are {count} languages. Give from 1 to {most}, or delete the field."
    )]
    LanguageCount {
        /// The field.
        field: &'static str,
        /// How many there are.
        count: usize,
        /// The most allowed.
        most: usize,
    },
    /// Not a BCP 47 tag.
    #[error(
        "settings, field {field}: \"{tag}\" is not a language tag. Use BCP 47, such as en, es or zh-Hant."
    )]
    BadLanguage {
        /// The field.
        field: &'static str,
        /// The tag given.
        tag: String,
    },
    /// One language twice.
    #[error("settings, field {field}: {tag} is given twice. Delete one.")]
    RepeatedLanguage {
        /// The field.
        field: &'static str,
        /// The tag.
        tag: String,
    },
    /// A default that can't be chosen.
    #[error(
        "settings, field default_language: {tag} is not one of station_languages. Add it there or choose another."
    )]
    DefaultNotOffered {
        /// The tag.
        tag: String,
    },
    /// A language that the ballot isn't in.
    #[error(
        "settings, field {field}: the definition does not have every text in {tag}. Add the texts or take the language out."
    )]
    NotInElection {
        /// The field.
        field: &'static str,
        /// The tag.
        tag: String,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    max_replacements: Option<u8>,
    ask_after_s: Option<u16>,
    answer_within_s: Option<u16>,
    printed_languages: Option<Vec<String>>,
    station_languages: Option<Vec<String>>,
    default_language: Option<String>,
}

/// Reads the station's settings. Every field may be left out; see [`StationSettings`] for what
/// then holds.
///
/// # Errors
/// [`SettingsError`] for what isn't JSON, an unknown field (named), a wrong type, or a value
/// outside its limits.
pub fn settings(bytes: &[u8]) -> Result<StationSettings, SettingsError> {
    if bytes.len() > SETTINGS_BYTES_MAX {
        return Err(SettingsError::FileTooLong { bytes: bytes.len() });
    }
    let mut deserializer = serde_json::Deserializer::from_slice(bytes);
    let raw: Raw = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
        let path = error.path().to_string();
        bad_field(if path == "." || path == "?" { "(whole file)" } else { &path }, error.inner())
    })?;
    deserializer.end().map_err(|error| bad_field("(whole file)", &error))?;
    if let Some(value) = raw.max_replacements.filter(|value| *value > REPLACEMENTS_MAX) {
        return Err(SettingsError::TooManyReplacements { value });
    }
    let printed = languages("printed_languages", raw.printed_languages, PRINTED_LANGUAGES_MAX)?
        .unwrap_or_else(|| vec![Language::new("en")]);
    let station =
        languages("station_languages", raw.station_languages, LANGUAGES_MAX)?.unwrap_or_default();
    let first = station.first().or_else(|| printed.first());
    let fallback = first.cloned().unwrap_or_else(|| Language::new("en"));
    let default_language =
        raw.default_language.map_or(Ok(fallback), |tag| language("default_language", &tag))?;
    if !station.is_empty() && !station.contains(&default_language) {
        let tag = default_language.tag().to_owned();
        return Err(SettingsError::DefaultNotOffered { tag });
    }
    let (ask, answer) = (raw.ask_after_s.unwrap_or(180), raw.answer_within_s.unwrap_or(30));
    let waits = Waits::new(ask, answer).ok_or(SettingsError::Waits { ask, answer })?;
    Ok(StationSettings {
        max_replacements: raw.max_replacements.unwrap_or(2),
        waits,
        printed_languages: printed,
        station_languages: station,
        default_language,
    })
}

impl Default for StationSettings {
    /// What holds where there is no `settings.json`.
    fn default() -> Self {
        let english = Language::new("en");
        Self {
            max_replacements: 2,
            waits: Waits::default(),
            printed_languages: vec![english.clone()],
            station_languages: Vec::new(),
            default_language: english,
        }
    }
}

impl StationSettings {
    /// Checks these settings against the election that they are for.
    ///
    /// # Errors
    /// [`SettingsError::NotInElection`] for the first language that not every text has.
    pub fn check_against(&self, election: &Election) -> Result<(), SettingsError> {
        let lists = [
            ("printed_languages", self.printed_languages.as_slice()),
            ("station_languages", self.station_languages.as_slice()),
            ("default_language", std::slice::from_ref(&self.default_language)),
        ];
        for (field, list) in lists {
            if let Some(missing) = list.iter().find(|tag| !election.languages.contains(tag)) {
                let tag = missing.tag().to_owned();
                return Err(SettingsError::NotInElection { field, tag });
            }
        }
        Ok(())
    }
    /// The languages to offer for this election, in their order.
    pub fn offered<'a>(&'a self, election: &'a Election) -> &'a [Language] {
        if self.station_languages.is_empty() {
            &election.languages
        } else {
            &self.station_languages
        }
    }
}

fn bad_field(path: &str, error: &serde_json::Error) -> SettingsError {
    SettingsError::Field {
        line: error.line(),
        field: short(path),
        reason: short(&error.to_string()),
    }
}

fn languages(
    field: &'static str,
    tags: Option<Vec<String>>,
    most: usize,
) -> Result<Option<Vec<Language>>, SettingsError> {
    let Some(tags) = tags else { return Ok(None) };
    if tags.is_empty() || tags.len() > most {
        return Err(SettingsError::LanguageCount { field, count: tags.len(), most });
    }
    let mut languages = Vec::new();
    for tag in &tags {
        let language = language(field, tag)?;
        if languages.contains(&language) {
            let tag = language.tag().to_owned();
            return Err(SettingsError::RepeatedLanguage { field, tag });
        }
        languages.push(language);
    }
    Ok(Some(languages))
}

fn language(field: &'static str, tag: &str) -> Result<Language, SettingsError> {
    words::language(tag).map_err(|_| SettingsError::BadLanguage { field, tag: short(tag) })
}
