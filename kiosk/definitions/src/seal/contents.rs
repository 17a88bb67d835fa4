//! What is sealed: one tar file with a manifest, the definition, the settings, the streets, the list
//! of recordings and the recordings.
//!
//! Invariant: every file is in the manifest with its length and digest, every file of the manifest
//! is there in the same order, each is one that a station reads, and definition, settings, streets
//! and list of recordings are sound. Whether the recordings can be played is checked by whoever packs and
//! by the station before its first voter ([`Recording::check`](crate::Recording::check)).
//!
//! What it must not know: who signs it.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::ops::Range;

use evenhand_rules::Election;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::error::DefinitionError;
use crate::limits::{
    DEFINITION_BYTES_MAX, MANIFEST_BYTES_MAX, RECORDING_BYTES_MAX, SEALED_BYTES_MAX,
    SEALED_FILES_MAX, SETTINGS_BYTES_MAX, SOUND_LIST_BYTES_MAX, STREETS_BYTES_MAX,
};
use crate::object::short;
use crate::seal::archive::{self, ArchiveError, Entry};
use crate::seal::canonical;
use crate::settings::{self, SettingsError, StationSettings};
use crate::sound::{SoundList, SoundListError};
use crate::streets::{Streets, StreetsError};
use crate::{Digest, load};

/// The first field of every manifest.
const FORM: &str = "Evenhand manifest, form 1";
const MANIFEST: &str = "manifest.json";
const DEFINITION: &str = "definition.json";
const SETTINGS: &str = "settings.json";
const SOUND_LIST: &str = "sound/list.json";
const STREETS: &str = "streets.csv";

/// An election's files in the one form in which they are signed.
#[derive(Clone, PartialEq, Eq)]
pub struct Contents {
    // Invariant: the whole tar file; the places lie in it.
    bytes: Vec<u8>,
    digest: Digest,
    files: BTreeMap<String, (Range<usize>, Digest)>,
    election: Election,
    settings: StationSettings,
    sound: SoundList,
    streets: Streets,
}

/// Why files can't be packed, or bytes aren't packed files.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum ContentsError {
    /// More bytes than a sealed election may have.
    #[error(
        "the contents have {bytes} bytes and the limit is {SEALED_BYTES_MAX}. Save the recordings as ogg vorbis, or leave some out."
    )]
    TooLong {
        /// The bytes given.
        bytes: usize,
    },
    /// Not a tar file as Evenhand writes it.
    #[error("contents.tar: {0}")]
    Archive(#[from] ArchiveError),
    /// No manifest at the start.
    #[error("contents.tar doesn't begin with {MANIFEST}. Copy it again from the office.")]
    NoManifest,
    /// The manifest isn't one.
    #[error("{MANIFEST}: {reason}. Copy the sealed election again from the office.")]
    Manifest {
        /// What is wrong.
        reason: String,
    },
    /// A file that the manifest doesn't have at this place.
    #[error(
        "{path} stands where the manifest has {listed}. Don't use it: a file was added, taken out or moved."
    )]
    NotListed {
        /// The file.
        path: String,
        /// What the manifest has there.
        listed: String,
    },
    /// The manifest lists files that aren't there.
    #[error("{path} is in the manifest and not there. Copy the sealed election again.")]
    Missing {
        /// The first of them.
        path: String,
    },
    /// Bytes that don't have the manifest's length or digest.
    #[error("{path} isn't the file that the manifest lists. Copy the sealed election again.")]
    Changed {
        /// The file.
        path: String,
    },
    /// No definition.
    #[error("there is no {DEFINITION}. Give a folder that holds an election.")]
    NoDefinition,
    /// A file that no station reads.
    #[error(
        "{path} is a file that no station reads. An election has {DEFINITION}, {SETTINGS}, {STREETS}, {SOUND_LIST} and the recordings that this list names; take it out."
    )]
    NotRead {
        /// The file.
        path: String,
    },
    /// A recording that the list names.
    #[error("{path} is in {SOUND_LIST} and not there. Put it there or take it out of the list.")]
    NoRecording {
        /// The file.
        path: String,
    },
    /// The definition isn't one.
    #[error("{DEFINITION}: {0}")]
    Definition(#[from] DefinitionError),
    /// The settings aren't ones that this election can use.
    #[error(transparent)]
    Settings(#[from] SettingsError),
    /// The list of recordings is wrong.
    #[error(transparent)]
    SoundList(#[from] SoundListError),
    /// The streets are wrong.
    #[error(transparent)]
    Streets(#[from] StreetsError),
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Manifest {
    form: String,
    files: Vec<Listed>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Listed {
    path: String,
    bytes: u64,
    sha256: Digest,
}

impl Contents {
    /// Packs files by their paths, as in an election's folder.
    ///
    /// # Errors
    /// [`ContentsError`] where they are no election that a station could open.
    pub fn pack(files: &BTreeMap<String, Vec<u8>>) -> Result<Self, ContentsError> {
        let listed = files.iter().map(|(path, bytes)| Listed {
            path: path.clone(),
            bytes: u64::try_from(bytes.len()).unwrap_or(u64::MAX),
            sha256: Digest::of(bytes),
        });
        let manifest = Manifest { form: FORM.to_owned(), files: listed.collect() };
        let manifest = canonical::write(&manifest);
        let mut entries: Vec<(&str, &[u8])> = vec![(MANIFEST, &manifest)];
        entries.extend(files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())));
        Self::read(archive::write(&entries)?)
    }

    /// Reads what [`Contents::pack`] made, and nothing else.
    ///
    /// # Errors
    /// [`ContentsError`] for the first thing that is wrong.
    pub fn read(bytes: Vec<u8>) -> Result<Self, ContentsError> {
        if bytes.len() > SEALED_BYTES_MAX {
            return Err(ContentsError::TooLong { bytes: bytes.len() });
        }
        let entries = archive::read(&bytes, SEALED_FILES_MAX.saturating_add(1), bytes_max)?;
        let files = listed(&bytes, &entries)?;
        let find = |path: &str| {
            let (place, _) = files.get(path)?;
            bytes.get(place.clone())
        };
        let definition = find(DEFINITION).ok_or(ContentsError::NoDefinition)?;
        let election = load(definition)?.into_election();
        let settings = find(SETTINGS).map(settings::settings).transpose()?.unwrap_or_default();
        settings.check_against(&election)?;
        let sound = find(SOUND_LIST).map(SoundList::read).transpose()?.unwrap_or_default();
        hold_to_what_is_read(&files, &sound)?;
        let streets = find(STREETS).map(|bytes| Streets::read(bytes, &election)).transpose()?;
        let streets = streets.unwrap_or_default();
        let digest = Digest::of(&bytes);
        Ok(Self { bytes, digest, files, election, settings, sound, streets })
    }

    /// What officials sign: a sentence of its own, so that no signature under anything else counts
    /// here, then the length and the SHA-256 of the contents' own bytes. It is text, so that
    /// whoever signs can read it, and so that other programs can check a signature.
    pub fn message(&self) -> Vec<u8> {
        message(&self.digest, self.bytes.len())
    }

    /// The tar file.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// The digest of the tar file.
    pub fn digest(&self) -> Digest {
        self.digest
    }

    /// The election of the definition.
    pub fn election(&self) -> &Election {
        &self.election
    }

    /// The office's settings for its stations.
    pub fn settings(&self) -> &StationSettings {
        &self.settings
    }

    /// The list of recordings, empty where there are none.
    pub fn sound(&self) -> &SoundList {
        &self.sound
    }

    /// The streets, none where there is no such file.
    pub fn streets(&self) -> &Streets {
        &self.streets
    }

    /// The bytes of a recording, by the name that the list gives it.
    pub fn recording(&self, file: &str) -> Option<&[u8]> {
        self.sound.entries().iter().find(|entry| entry.file == file)?;
        self.file(&recording_path(file))
    }

    /// The bytes of a file by its path.
    pub fn file(&self, path: &str) -> Option<&[u8]> {
        let (place, _) = self.files.get(path)?;
        self.bytes.get(place.clone())
    }

    /// Path, length in bytes and digest of every file, by path; the manifest is not among them.
    pub fn files(&self) -> impl Iterator<Item = (&str, usize, Digest)> {
        self.files.iter().map(|(path, (place, digest))| (path.as_str(), place.len(), *digest))
    }
}

impl fmt::Debug for Contents {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Contents").field("digest", &self.digest).finish_non_exhaustive()
    }
}

/// See [`Contents::message`].
pub(crate) fn message(digest: &Digest, len: usize) -> Vec<u8> {
    format!("Evenhand sealed election, form 1\ncontents.tar, {len} bytes, SHA-256\n{digest}\n")
        .into_bytes()
}

/// The files as the manifest lists them, each held to its length and digest.
fn listed(
    bytes: &[u8],
    entries: &[Entry],
) -> Result<BTreeMap<String, (Range<usize>, Digest)>, ContentsError> {
    let Some((first, entries)) = entries.split_first() else {
        return Err(ContentsError::NoManifest);
    };
    if first.path != MANIFEST {
        return Err(ContentsError::NoManifest);
    }
    let bad = |reason| ContentsError::Manifest { reason };
    let text = bytes.get(first.place.clone()).unwrap_or_default();
    let manifest: Manifest = canonical::read(text).map_err(bad)?;
    if manifest.form != FORM {
        let form = short(&manifest.form);
        return Err(bad(format!("this is \"{form}\" and must be \"{FORM}\"")));
    }
    if !manifest.files.is_sorted_by(|one, next| one.path < next.path) {
        return Err(bad("the paths aren't in order, or one is there twice".to_owned()));
    }
    let mut listed = manifest.files.into_iter();
    let mut files = BTreeMap::new();
    for entry in entries {
        let path = entry.path.clone();
        let next = listed.next();
        let there = next.as_ref().map_or("nothing more", |next| next.path.as_str());
        let Some(listed) = next.as_ref().filter(|next| next.path == path) else {
            return Err(ContentsError::NotListed { path, listed: short(there) });
        };
        let found = bytes.get(entry.place.clone()).unwrap_or_default();
        let len = u64::try_from(found.len()).unwrap_or(u64::MAX);
        if len != listed.bytes || Digest::of(found) != listed.sha256 {
            return Err(ContentsError::Changed { path });
        }
        files.insert(path, (entry.place.clone(), listed.sha256));
    }
    match listed.next() {
        None => Ok(files),
        Some(listed) => Err(ContentsError::Missing { path: short(&listed.path) }),
    }
}

/// Every file is one that a station reads, and every recording of the list is there.
fn hold_to_what_is_read(
    files: &BTreeMap<String, (Range<usize>, Digest)>,
    sound: &SoundList,
) -> Result<(), ContentsError> {
    let recordings = sound.entries().iter().map(|entry| recording_path(&entry.file));
    let recordings: BTreeSet<String> = recordings.collect();
    if let Some(path) = recordings.iter().find(|path| !files.contains_key(*path)) {
        return Err(ContentsError::NoRecording { path: path.clone() });
    }
    let is_read = |path: &&String| {
        matches!(path.as_str(), DEFINITION | SETTINGS | SOUND_LIST | STREETS)
            || recordings.contains(*path)
    };
    match files.keys().find(|path| !is_read(path)) {
        None => Ok(()),
        Some(path) => Err(ContentsError::NotRead { path: path.clone() }),
    }
}

fn recording_path(file: &str) -> String {
    format!("sound/{file}")
}

/// The most bytes that a file of the contents may have.
fn bytes_max(path: &str) -> usize {
    match path {
        MANIFEST => MANIFEST_BYTES_MAX,
        DEFINITION => DEFINITION_BYTES_MAX,
        SETTINGS => SETTINGS_BYTES_MAX,
        SOUND_LIST => SOUND_LIST_BYTES_MAX,
        STREETS => STREETS_BYTES_MAX,
        _ => RECORDING_BYTES_MAX,
    }
}
