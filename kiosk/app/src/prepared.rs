//! An election's folder made ready for a visit: definition, settings, the voter's style, its sheet
//! and its words.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use evenhand_definitions::seal::{SealError, TrustError};
use evenhand_definitions::{
    DefinitionError, Opening, SettingsError, StationSettings, StreetsError,
};
use evenhand_rules::{BallotState, Election, Language, Style};
use evenhand_sheet::{Ballot, ComposeError, Edition, compose};
use evenhand_visit::{Begin, LOUDNESS_DEFAULT, LanguageIndex, Pressing};
use evenhand_words::{CatalogueError, PaperWords, Words, WordsError};
use thiserror::Error;

use crate::recorded::{Recorded, RecordedError};
use crate::source::{Opened, Source};

/// Why a visit can't be made ready. What to do stands in each.
#[derive(Debug, Error)]
pub enum PrepareError {
    /// A file of the election's folder can't be read.
    #[error(
        "{path} can't be read: {why}. Name an election that is there, or choose one (evenhand set-up)."
    )]
    File {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// The definition isn't one.
    #[error("the ballot definition: {0}")]
    Definition(#[from] DefinitionError),
    /// The settings aren't ones that this election can use.
    #[error(transparent)]
    Settings(#[from] SettingsError),
    /// The streets are wrong.
    #[error(transparent)]
    Streets(#[from] StreetsError),
    /// No such style, or one that can't be marked here.
    #[error("there is no ballot style {code:?}. Choose one of: {offered}.")]
    NoSuchStyle {
        /// What was asked for.
        code: String,
        /// The styles that there are.
        offered: String,
    },
    /// The voter's language isn't offered.
    #[error("the language {tag:?} isn't offered here. Choose one of: {offered}.")]
    NoSuchLanguage {
        /// What was asked for.
        tag: String,
        /// The languages that there are.
        offered: String,
    },
    /// The words of a language are wrong.
    #[error(transparent)]
    Words(#[from] WordsError),
    /// The words on paper are wrong.
    #[error(transparent)]
    Paper(#[from] CatalogueError),
    /// The list of officials' keys can't be used.
    #[error("{path}: {why}")]
    Trust {
        /// The file.
        path: PathBuf,
        /// What is wrong, and what to do.
        why: TrustError,
    },
    /// The sealed election is refused.
    #[error("{path} is refused: {why}")]
    Seal {
        /// The file.
        path: PathBuf,
        /// What failed, and what to do.
        why: SealError,
    },
    /// The recorded sound is wrong.
    #[error(transparent)]
    Recorded(#[from] RecordedError),
    /// The sheet can't be composed.
    #[error("the sheet of style {style}: {why}")]
    Compose {
        /// The style's code.
        style: String,
        /// Why not.
        why: ComposeError,
    },
}

/// All that a visit needs, read once.
#[derive(Debug)]
pub struct Prepared {
    /// The voter's style.
    pub style: Arc<Style>,
    /// Its sheet.
    pub ballot: Arc<Ballot>,
    /// The words.
    pub words: Words,
    /// The languages that a voter may choose.
    pub languages: Vec<Language>,
    /// What the visit starts from.
    pub begin: Begin,
    /// The recorded sound.
    pub recorded: Recorded,
}

impl Prepared {
    /// Reads the folder at `election` and makes the style of this code ready: the first one where
    /// none is named. The first screen is in `language`, else in the office's default.
    ///
    /// # Errors
    /// [`PrepareError`] says what is wrong and what to do.
    pub fn load(
        election: &Path,
        style: Option<&str>,
        language: Option<&str>,
    ) -> Result<Self, PrepareError> {
        let opened = Source::Folder(election.to_owned()).open()?;
        Self::of(&opened, Opening::Test, style, language)
    }

    /// Makes a style of an election that is open ready, as [`Prepared::load`] does. What isn't sealed
    /// is a demo, whatever the polls are open for.
    ///
    /// # Errors
    /// [`PrepareError`] says what is wrong and what to do.
    pub fn of(
        opened: &Opened,
        opening: Opening,
        style: Option<&str>,
        language: Option<&str>,
    ) -> Result<Self, PrepareError> {
        let definition = opened.loaded.election().clone();
        let settings = &opened.settings;
        let languages = settings.offered(&definition).to_vec();
        let first_language = first_language(&languages, language, settings)?;
        let definition = Arc::new(definition);
        let (index, style) = style_of(&definition, style)?;
        let style = Arc::new(style.clone());
        let state = opened.loaded.ballot_state(opening);
        let ballot = sheet(&definition, &style, index, settings, state)?;
        let words = Words::load(&languages, Arc::clone(&definition), Arc::clone(&style))?;
        let begin = Begin {
            style: Arc::clone(&style),
            languages: u8::try_from(languages.len()).unwrap_or(u8::MAX),
            first_language,
            state,
            replacements_max: settings.max_replacements,
            sheets: ballot.sheet_count(),
            pressing: Pressing::default(),
            loudness: LOUDNESS_DEFAULT,
            waits: settings.waits,
            is_attended: false,
        };
        let recorded = opened.recorded.clone();
        Ok(Self { style, ballot: Arc::new(ballot), words, languages, begin, recorded })
    }
}

fn first_language(
    offered: &[Language],
    wanted: Option<&str>,
    settings: &StationSettings,
) -> Result<LanguageIndex, PrepareError> {
    let tag = wanted.unwrap_or_else(|| settings.default_language.tag());
    let index = offered.iter().position(|language| language.tag() == tag);
    let index = index.and_then(|index| u8::try_from(index).ok());
    index.map(LanguageIndex).ok_or_else(|| PrepareError::NoSuchLanguage {
        tag: tag.to_owned(),
        offered: joined(offered.iter().map(Language::tag)),
    })
}

fn style_of<'a>(
    election: &'a Election,
    wanted: Option<&str>,
) -> Result<(u16, &'a Style), PrepareError> {
    let mut styles = (0u16..).zip(&election.styles);
    let found = match wanted {
        Some(code) => styles.find(|(_, style)| style.code == code),
        None => styles.next(),
    };
    found.ok_or_else(|| PrepareError::NoSuchStyle {
        code: wanted.unwrap_or_default().to_owned(),
        offered: joined(election.styles.iter().map(|style| style.code.as_str())),
    })
}

fn joined<'a>(items: impl Iterator<Item = &'a str>) -> String {
    items.collect::<Vec<_>>().join(", ")
}

/// The sheet in the languages of the edition that the office prints, whatever the voter reads. The
/// style is the election's of this index.
///
/// # Errors
/// [`PrepareError`]: there are no words for paper, or the sheet can't be composed.
pub fn sheet(
    election: &Election,
    style: &Style,
    index: u16,
    settings: &StationSettings,
    state: BallotState,
) -> Result<Ballot, PrepareError> {
    let wording = PaperWords::load(&settings.printed_languages)?;
    let edition = Edition { languages: &settings.printed_languages, wording: &wording };
    compose(election, style, index, &edition, state)
        .map_err(|why| PrepareError::Compose { style: style.code.clone(), why })
}
