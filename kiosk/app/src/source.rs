//! Where an election comes from: a folder, which makes a demo, or a sealed file that officials whom
//! this station trusts have signed.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use evenhand_definitions::limits::{
    DEFINITION_BYTES_MAX, SEALED_BYTES_MAX, SETTINGS_BYTES_MAX, STREETS_BYTES_MAX, TRUST_BYTES_MAX,
};
use evenhand_definitions::seal::{Trust, verify};
use evenhand_definitions::{Digest, Loaded, StationSettings, Streets, load, settings};

use crate::prepared::PrepareError;
use crate::recorded::{Recorded, read};

/// Where an election comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Source {
    /// A folder with `definition.json`: always a demo.
    Folder(PathBuf),
    /// A sealed election, and the officials' keys that this station trusts.
    Sealed {
        /// The sealed election.
        file: PathBuf,
        /// The station's list of keys.
        trust: PathBuf,
    },
}

/// An election with what belongs to it.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The election, and how far it is trusted.
    pub loaded: Arc<Loaded>,
    /// The office's settings.
    pub settings: StationSettings,
    /// The recorded sound.
    pub recorded: Recorded,
    /// The streets, none where the office gave no such file.
    pub streets: Streets,
}

impl Source {
    /// Reads it, and verifies what is sealed.
    ///
    /// # Errors
    /// [`PrepareError`] says what is wrong and what to do. Nothing of an election that isn't whole is
    /// used.
    pub fn open(&self) -> Result<Opened, PrepareError> {
        match self {
            Self::Folder(folder) => {
                let loaded =
                    load(&limited(&folder.join("definition.json"), DEFINITION_BYTES_MAX)?)?;
                let path = folder.join("settings.json");
                let settings = match read(&path, SETTINGS_BYTES_MAX) {
                    Ok(bytes) => settings(&bytes)?,
                    Err(why) if why.kind() == io::ErrorKind::NotFound => StationSettings::default(),
                    Err(why) => return Err(PrepareError::File { path, why }),
                };
                let path = folder.join("streets.csv");
                let streets = match read(&path, STREETS_BYTES_MAX) {
                    Ok(bytes) => Streets::read(&bytes, loaded.election())?,
                    Err(why) if why.kind() == io::ErrorKind::NotFound => Streets::default(),
                    Err(why) => return Err(PrepareError::File { path, why }),
                };
                let recorded = Recorded::load(folder)?;
                settings.check_against(loaded.election())?;
                Ok(Opened { loaded: Arc::new(loaded), settings, recorded, streets })
            }
            Self::Sealed { file, trust } => {
                let trust = Trust::read(&limited(trust, TRUST_BYTES_MAX)?)
                    .map_err(|why| PrepareError::Trust { path: trust.clone(), why })?;
                let verified = verify(limited(file, SEALED_BYTES_MAX)?, &trust)
                    .map_err(|why| PrepareError::Seal { path: file.clone(), why })?;
                let settings = verified.settings().clone();
                let streets = verified.streets().clone();
                let loaded = Arc::new(Loaded::from(verified));
                let recorded = Recorded::sealed(Arc::clone(&loaded));
                settings.check_against(loaded.election())?;
                Ok(Opened { loaded, settings, recorded, streets })
            }
        }
    }
}

impl Opened {
    /// The digest of the sealed file; none of a folder.
    pub fn digest(&self) -> Option<Digest> {
        match &*self.loaded {
            Loaded::Unsealed(_) => None,
            Loaded::Sealed(verified) => Some(verified.file_digest()),
        }
    }
}

fn limited(path: &Path, limit: usize) -> Result<Vec<u8>, PrepareError> {
    read(path, limit).map_err(|why| PrepareError::File { path: path.to_owned(), why })
}
