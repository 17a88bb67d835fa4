//! An election's folder, opened.

use std::io::Read as _;
use std::path::{Path, PathBuf};

use evenhand_definitions::limits::{
    DEFINITION_BYTES_MAX, RECORDING_BYTES_MAX, SETTINGS_BYTES_MAX, SOUND_LIST_BYTES_MAX,
    STREETS_BYTES_MAX,
};
use evenhand_definitions::{
    DefinitionError, Loaded, Place, Recording, RecordingFault, SettingsError, SoundList,
    SoundListError, StationSettings, Streets, StreetsError,
};
use evenhand_words::CatalogueError;
use thiserror::Error;

use crate::seal::SealTaskError;

/// What went wrong, and what to do.
#[derive(Debug, Error)]
pub(crate) enum OfficeError {
    #[error("{0}: {1}. Give the folder that holds definition.json and what that folder needs.")]
    Read(PathBuf, std::io::Error),
    #[error("{0}: {1}. Give a file in a folder that can be written.")]
    Write(PathBuf, std::io::Error),
    #[error(transparent)]
    Definition(#[from] DefinitionError),
    #[error(transparent)]
    Settings(#[from] SettingsError),
    #[error(transparent)]
    Catalogue(#[from] CatalogueError),
    #[error(transparent)]
    SoundList(#[from] SoundListError),
    #[error(transparent)]
    Streets(#[from] StreetsError),
    #[error(transparent)]
    Log(#[from] crate::log::LogError),
    #[error(transparent)]
    Compare(#[from] crate::software::CompareError),
    #[error(transparent)]
    Worker(#[from] crate::worker::WorkerError),
    #[error("sound/{0}: {1}")]
    Recording(String, RecordingFault),
    #[error("style {0}: {1}")]
    Compose(String, String),
    #[error("{0}")]
    Print(String),
    #[error("there is no style {wanted}; the styles are {there}")]
    NoSuchStyle { wanted: String, there: String },
    #[error(transparent)]
    Seal(#[from] SealTaskError),
}

/// An election with its settings.
pub(crate) struct Opened {
    pub(crate) loaded: Loaded,
    pub(crate) settings: StationSettings,
    pub(crate) sound: SoundList,
    pub(crate) streets: Streets,
    /// What the definition holds for voters and is neither shown nor printed.
    pub(crate) unshown: Vec<Place>,
}

impl Opened {
    /// Opens `definition.json` and, where they are there, `settings.json`, `streets.csv` and the
    /// list of recordings.
    pub(crate) fn from_folder(folder: &Path) -> Result<Self, OfficeError> {
        let definition = read(&folder.join("definition.json"), DEFINITION_BYTES_MAX)?;
        let loaded = evenhand_definitions::load(&definition)?;
        let path = folder.join("settings.json");
        let bytes = if path.exists() { read(&path, SETTINGS_BYTES_MAX)? } else { b"{}".to_vec() };
        let settings = evenhand_definitions::settings(&bytes)?;
        let unshown = evenhand_definitions::unshown(&definition)?;
        let path = folder.join("sound/list.json");
        let sound = if path.exists() {
            SoundList::read(&read(&path, SOUND_LIST_BYTES_MAX)?)?
        } else {
            SoundList::default()
        };
        let path = folder.join("streets.csv");
        let streets = if path.exists() {
            Streets::read(&read(&path, STREETS_BYTES_MAX)?, loaded.election())?
        } else {
            Streets::default()
        };
        Ok(Self { loaded, settings, sound, streets, unshown })
    }

    /// Decodes every recording and gives the length of all in seconds.
    pub(crate) fn check_recordings(&self, folder: &Path) -> Result<f64, OfficeError> {
        let mut seconds = 0.0;
        for entry in self.sound.entries() {
            let bytes = read(&folder.join("sound").join(&entry.file), RECORDING_BYTES_MAX)?;
            let measured = Recording::check(bytes)
                .map_err(|fault| OfficeError::Recording(entry.file.clone(), fault))?;
            seconds += measured.seconds;
        }
        Ok(seconds)
    }
}

/// Reads one byte more than the limit at most: the loader then says that it is too long.
fn read(path: &Path, limit: usize) -> Result<Vec<u8>, OfficeError> {
    let failed = |error| OfficeError::Read(path.to_owned(), error);
    let file = std::fs::File::open(path).map_err(failed)?;
    let mut bytes = Vec::new();
    let most = u64::try_from(limit).unwrap_or(u64::MAX).saturating_add(1);
    file.take(most).read_to_end(&mut bytes).map_err(failed)?;
    Ok(bytes)
}
