//! Recorded sound of an election's folder: the list, the files behind it, and what isn't heard.
//!
//! A file is opened each time that it is played, so that hours of sound cost no memory.
#![expect(clippy::disallowed_methods, reason = "the app is the crate that opens files")]

use std::fs::{self, File};
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use evenhand_definitions::limits::{RECORDING_BYTES_MAX, SOUND_LIST_BYTES_MAX};
use evenhand_definitions::{
    Coverage, Loaded, Recording, RecordingFault, SoundList, SoundListError,
};
use evenhand_rules::{Election, Language};
use evenhand_speech::language::choose;
use evenhand_speech::{Recordings, Sound, Unreadable};
use evenhand_words::{CatalogueError, SpokenTexts};
use thiserror::Error;

/// Why an election's recordings can't be used.
#[derive(Debug, Error)]
pub enum RecordedError {
    /// A file can't be read.
    #[error("{path} can't be read: {why}. Put the file there, or take it out of sound/list.json.")]
    File {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// The list is wrong.
    #[error(transparent)]
    List(#[from] SoundListError),
    /// A recording is beyond a limit.
    #[error("{path}: {fault}")]
    Recording {
        /// The file.
        path: PathBuf,
        /// What is wrong, and what to do.
        fault: RecordingFault,
    },
}

/// The recordings of one election.
#[derive(Clone, Debug, Default)]
pub struct Recorded {
    files: Files,
    list: SoundList,
}

/// Where the recordings are.
#[derive(Clone, Debug)]
enum Files {
    /// In this folder.
    Folder(PathBuf),
    /// In a sealed election.
    Sealed(Arc<Loaded>),
}

impl Default for Files {
    fn default() -> Self {
        Self::Folder(PathBuf::new())
    }
}

impl Files {
    fn read(&self, file: &str) -> io::Result<Vec<u8>> {
        match self {
            Self::Folder(folder) => read(&folder.join(file), RECORDING_BYTES_MAX),
            Self::Sealed(loaded) => match &**loaded {
                Loaded::Sealed(verified) => verified.recording(file).map(<[u8]>::to_vec),
                Loaded::Unsealed(_) => None,
            }
            .ok_or_else(|| io::ErrorKind::NotFound.into()),
        }
    }

    fn path(&self, file: &str) -> PathBuf {
        match self {
            Self::Folder(folder) => folder.join(file),
            Self::Sealed(_) => Path::new("sound").join(file),
        }
    }
}

impl Recorded {
    /// Reads `sound/list.json` in the election's folder; none where there isn't one.
    ///
    /// # Errors
    /// [`RecordedError`] where it can't be read or is wrong.
    pub fn load(election: &Path) -> Result<Self, RecordedError> {
        let folder = election.join("sound");
        let path = folder.join("list.json");
        let bytes = match read(&path, SOUND_LIST_BYTES_MAX) {
            Ok(bytes) => bytes,
            Err(why) if why.kind() == io::ErrorKind::NotFound => return Ok(Self::default()),
            Err(why) => return Err(RecordedError::File { path, why }),
        };
        Ok(Self { files: Files::Folder(folder), list: SoundList::read(&bytes)? })
    }

    /// The recordings of a sealed election; none of one that isn't sealed.
    pub fn sealed(loaded: Arc<Loaded>) -> Self {
        let list = match &*loaded {
            Loaded::Sealed(verified) => verified.sound().clone(),
            Loaded::Unsealed(_) => SoundList::default(),
        };
        Self { files: Files::Sealed(loaded), list }
    }

    /// Decodes every recording and holds it to the limits. For the station, before its first visit:
    /// it takes a second for some minutes of sound.
    ///
    /// # Errors
    /// [`RecordedError`] for the first that can't be read or played.
    pub fn check(&self) -> Result<(), RecordedError> {
        for entry in self.list.entries() {
            let path = || self.files.path(&entry.file);
            let bytes = match self.files.read(&entry.file) {
                Ok(bytes) => bytes,
                Err(why) => return Err(RecordedError::File { path: path(), why }),
            };
            if let Err(fault) = Recording::check(bytes) {
                return Err(RecordedError::Recording { path: path(), fault });
            }
        }
        Ok(())
    }

    /// The recordings as the voice needs them.
    pub fn for_voice(&self) -> Recordings {
        let mut recordings = Recordings::default();
        for entry in self.list.entries() {
            let (files, file) = (self.files.clone(), entry.file.clone());
            let open = move || open(&files, &file);
            recordings.add(&entry.text, entry.language.tag(), Arc::new(open));
        }
        recordings
    }

    /// The languages of which something won't be heard, with these voices of the speech service.
    ///
    /// # Errors
    /// The station has no messages in one of the languages.
    pub fn gaps(
        &self,
        election: &Election,
        languages: &[Language],
        voices: &[String],
    ) -> Result<Vec<Coverage>, CatalogueError> {
        let mut gaps = Vec::new();
        for language in languages {
            let coverage = self.coverage(election, language, voices)?;
            gaps.extend(coverage.is_incomplete().then_some(coverage));
        }
        Ok(gaps)
    }

    /// What will be heard of a language, with these voices of the speech service.
    ///
    /// # Errors
    /// The station has no messages in this language.
    pub fn coverage(
        &self,
        election: &Election,
        language: &Language,
        voices: &[String],
    ) -> Result<Coverage, CatalogueError> {
        let spoken = SpokenTexts::of(election, language)?;
        let has_voice = choose(voices, language.tag()).is_some();
        Ok(Coverage::of(&self.list, language, &spoken.texts, has_voice))
    }
}

/// Opens a recording to be played. That it can't be is no end of speech: the voice says its text.
fn open(files: &Files, file: &str) -> Result<Sound, Unreadable> {
    let bytes = files.read(file).map_err(|_| Unreadable)?;
    let recording = Recording::open(bytes).map_err(|_| Unreadable)?;
    let rate = recording.rate();
    Ok(Sound { rate, samples: Box::new(recording.map(|piece| piece.map_err(|_| Unreadable))) })
}

/// Reads one byte more than the limit at most: who gets them then says that they are too many.
pub(crate) fn read(path: &Path, limit: usize) -> io::Result<Vec<u8>> {
    let length = usize::try_from(fs::metadata(path)?.len()).unwrap_or(usize::MAX);
    let mut bytes = Vec::with_capacity(length.min(limit));
    let most = u64::try_from(limit).unwrap_or(u64::MAX).saturating_add(1);
    File::open(path)?.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}
