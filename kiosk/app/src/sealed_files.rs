//! Sealed elections at hand while a station is set up, such as on a removable drive: they are listed,
//! verified with the keys that the station is to trust, and the chosen one is copied beside the
//! station's file.
//!
//! Invariant: the copy is the file whose digest a worker has compared, byte for byte, and it opens as
//! the station will open it; else nothing is left of it.
//!
//! What it must not know: screens.
#![expect(clippy::disallowed_methods, reason = "the app is the crate that opens files")]

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use evenhand_definitions::limits::{SEALED_BYTES_MAX, TRUST_BYTES_MAX};
use evenhand_definitions::seal::{SealError, Trust, TrustError, verify};
use evenhand_definitions::{Digest, SettingsError};
use thiserror::Error;

use crate::prepared::PrepareError;
use crate::recorded::read;
use crate::source::Source;
use crate::station_file::{SealedNames, folder_of};

/// How the name of a sealed election ends.
const ENDING: &str = ".sealed.tar";
/// The most files that are listed: a county has a few elections (own choice).
pub const ELECTIONS_MAX: usize = 100;
/// The most names that are looked at, so that a drive full of other things ends too (own choice).
const NAMES_MAX: usize = 10_000;
/// The most letters of a file's name that are shown (own choice: `tests/desk.rs` lays out so many).
const LABEL_MAX: usize = 50;
/// Digits of a digest within a name: enough to tell a station's files apart.
const NAME_DIGITS: usize = 16;

/// Why the sealed elections at hand can't be looked at.
#[derive(Debug, Error)]
pub enum ShelfError {
    /// The list of officials' keys can't be read.
    #[error("{path}: {why}. Name the trust file that the office made.")]
    TrustFile {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// The list of officials' keys can't be used.
    #[error("{path}: {why}")]
    Trust {
        /// The file.
        path: PathBuf,
        /// What is wrong, and what to do.
        why: TrustError,
    },
    /// The folder can't be read.
    #[error("{path}: {why}. Put the drive in, and name a folder with sealed elections.")]
    Folder {
        /// The folder.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// There are too many files.
    #[error(
        "{path}: it holds more than {NAMES_MAX} files or more than {ELECTIONS_MAX} sealed elections. \
         Put the sealed elections into a folder of their own."
    )]
    TooMany {
        /// The folder.
        path: PathBuf,
    },
}

/// Why a sealed election is refused.
#[derive(Debug, Error)]
pub enum CheckError {
    /// It can't be read.
    #[error("{path}: {why}. Look at the drive, and choose it again.")]
    File {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// Its seal.
    #[error("{path} is refused: {why}")]
    Seal {
        /// The file.
        path: PathBuf,
        /// What failed, and what to do.
        why: SealError,
    },
    /// Its settings aren't for this election.
    #[error("{path} is refused: {why}")]
    Settings {
        /// The file.
        path: PathBuf,
        /// What is wrong, and what to do.
        why: SettingsError,
    },
}

/// Why a sealed election isn't copied.
#[derive(Debug, Error)]
pub enum InstallError {
    /// It can't be read again, or the copy can't be written.
    #[error("{path}: {why}. See that the drive is in and that there is room, then save again.")]
    File {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// It isn't what was compared.
    #[error(
        "{path} has changed since its digest was compared. Don't use it: call the election office."
    )]
    Changed {
        /// The file.
        path: PathBuf,
    },
    /// The copy doesn't open.
    #[error("the copy can't be used: {0}")]
    Copy(#[from] PrepareError),
}

/// What a verified file is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// The election's name, in its first language.
    pub name: String,
    /// The election's date.
    pub date: String,
    /// Who sealed it.
    pub signers: Vec<String>,
    /// The digest of the whole file.
    pub digest: Digest,
    /// That of the list of keys that it was verified with.
    pub keys_digest: Digest,
}

/// A folder with sealed elections, and the keys that they are verified with.
#[derive(Clone, Debug)]
pub struct Shelf {
    folder: PathBuf,
    trust: Arc<Trust>,
    /// As the office wrote it: it is read once, so that what verified is what is copied.
    trust_bytes: Arc<Vec<u8>>,
}

impl Shelf {
    /// Reads the keys. The folder may come later, as a drive does.
    ///
    /// # Errors
    /// [`ShelfError`] where the keys can't be used.
    pub fn new(folder: PathBuf, trust: &Path) -> Result<Self, ShelfError> {
        let path = trust.to_owned();
        let bytes = match read(trust, TRUST_BYTES_MAX) {
            Ok(bytes) => bytes,
            Err(why) => return Err(ShelfError::TrustFile { path, why }),
        };
        let trust = Trust::read(&bytes).map_err(|why| ShelfError::Trust { path, why })?;
        Ok(Self { folder, trust: Arc::new(trust), trust_bytes: Arc::new(bytes) })
    }

    /// The sealed elections' files, each with its name as it is shown. Links and pipes are none.
    ///
    /// # Errors
    /// [`ShelfError`] where the folder can't be read or holds too much.
    pub fn find(&self) -> Result<Vec<(String, PathBuf)>, ShelfError> {
        let system = |why| ShelfError::Folder { path: self.folder.clone(), why };
        let mut found = Vec::new();
        for (count, entry) in fs::read_dir(&self.folder).map_err(system)?.enumerate() {
            let entry = entry.map_err(system)?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if name.ends_with(ENDING) && entry.file_type().map_err(system)?.is_file() {
                found.push((name, entry.path()));
            }
            if count >= NAMES_MAX || found.len() > ELECTIONS_MAX {
                return Err(ShelfError::TooMany { path: self.folder.clone() });
            }
        }
        found.sort();
        Ok(found.into_iter().map(|(name, path)| (label(&name), path)).collect())
    }

    /// Reads a file and verifies it.
    ///
    /// # Errors
    /// [`CheckError`] says what failed.
    pub fn check(&self, file: &Path) -> Result<Checked, CheckError> {
        let path = file.to_owned();
        let bytes = match read(file, SEALED_BYTES_MAX) {
            Ok(bytes) => bytes,
            Err(why) => return Err(CheckError::File { path, why }),
        };
        let verified = match verify(bytes, &self.trust) {
            Ok(verified) => verified,
            Err(why) => return Err(CheckError::Seal { path, why }),
        };
        let election = verified.election();
        if let Err(why) = verified.settings().check_against(election) {
            return Err(CheckError::Settings { path, why });
        }
        let first = election.languages.first();
        Ok(Checked {
            name: first
                .map(|first| election.name.in_language(first))
                .unwrap_or_default()
                .to_owned(),
            date: election.date.clone(),
            signers: verified.signers().to_vec(),
            digest: verified.file_digest(),
            keys_digest: Digest::of(&self.trust_bytes),
        })
    }

    /// Copies the file of this digest, and the keys, beside the station's file. Their names come from
    /// their digests, so that what the station's file names now stays until it names these.
    ///
    /// # Errors
    /// [`InstallError`]; then nothing that was there has changed.
    pub fn install(
        &self,
        file: &Path,
        digest: Digest,
        station_file: &Path,
    ) -> Result<SealedNames, InstallError> {
        let system = |path: &Path| {
            let path = path.to_owned();
            move |why| InstallError::File { path, why }
        };
        let bytes = read(file, SEALED_BYTES_MAX).map_err(system(file))?;
        if Digest::of(&bytes) != digest {
            return Err(InstallError::Changed { path: file.to_owned() });
        }
        let names = names_of(digest, Digest::of(&self.trust_bytes))
            .ok_or_else(|| InstallError::Changed { path: file.to_owned() })?;
        let (sealed, trust) = (names.sealed_beside(station_file), names.trust_beside(station_file));
        let written = Written([new_name(&sealed), new_name(&trust)]);
        let [new_sealed, new_trust] = &written.0;
        write(new_sealed, &bytes).map_err(system(new_sealed))?;
        write(new_trust, &self.trust_bytes).map_err(system(new_trust))?;
        drop(bytes);
        // As the station will open it.
        let copy = Source::Sealed { file: new_sealed.clone(), trust: new_trust.clone() };
        if copy.open()?.digest() != Some(digest) {
            return Err(InstallError::Changed { path: new_sealed.clone() });
        }
        fs::rename(new_trust, &trust).map_err(system(&trust))?;
        fs::rename(new_sealed, &sealed).map_err(system(&sealed))?;
        let folder = folder_of(station_file);
        // The folder holds the new names only when it is written too.
        File::open(folder).and_then(|folder| folder.sync_all()).map_err(system(folder))?;
        Ok(names)
    }
}

/// Files under new names, which go unless they were renamed.
struct Written([PathBuf; 2]);

impl Drop for Written {
    fn drop(&mut self) {
        for path in &self.0 {
            // It has its final name, or was never made; what can't be removed is used by nobody.
            fs::remove_file(path).unwrap_or_default();
        }
    }
}

/// A file's name as it is shown: not longer than a screen has room for, in letters that can be seen.
fn label(name: &str) -> String {
    let seen = |letter: char| if letter.is_control() { '?' } else { letter };
    let mut label: String = name.chars().map(seen).take(LABEL_MAX).collect();
    if name.chars().count() > LABEL_MAX {
        label.pop();
        label.push('…');
    }
    label
}

fn names_of(sealed: Digest, trust: Digest) -> Option<SealedNames> {
    let digits = |digest: Digest| digest.to_string().chars().take(NAME_DIGITS).collect::<String>();
    SealedNames::new(
        format!("election-{}{ENDING}", digits(sealed)),
        format!("trust-{}.json", digits(trust)),
    )
}

fn new_name(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".new");
    name.into()
}

fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}
