//! Whom a station trusts: the officials' names and public keys, and how many must have signed.
//! Installed at set-up; a form of our own in JSON.
//!
//! Invariant: from 1 to [`OFFICIALS_MAX`] officials, each name and each key once, and a threshold
//! that they can reach.

use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::Digest;
use crate::limits::{NAME_LEN_MAX, OFFICIALS_MAX, TRUST_BYTES_MAX};
use crate::object::short;
use crate::seal::PublicKey;
use crate::seal::canonical;
use crate::words;

/// The first field of every trust file.
const FORM: &str = "Evenhand trust, form 1";

/// How many officials must sign where the office says nothing.
pub const THRESHOLD_USUAL: u8 = 2;

/// Whom a station trusts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trust {
    threshold: u8,
    // Invariant: see above.
    officials: Vec<Official>,
}

/// An official who may seal elections.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Official {
    /// The name, as it is shown to workers.
    pub name: String,
    /// The public key.
    pub key: PublicKey,
}

/// Why a trust file can't be used.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum TrustError {
    /// More bytes than the limit.
    #[error(
        "trust: the file has more than {TRUST_BYTES_MAX} bytes. Give the trust file that the office made."
    )]
    FileTooLong,
    /// Not JSON, or a field that is missing, unknown or wrong.
    #[error(
        "trust, line {line}, field {field}: {reason}. Get the trust file from the office again."
    )]
    Field {
        /// The line, from 1.
        line: usize,
        /// The field, or `(whole file)`.
        field: String,
        /// What is wrong.
        reason: String,
    },
    /// Another kind of file.
    #[error(
        "trust, field form: this is \"{form}\" and must be \"{FORM}\". Give the trust file that the office made."
    )]
    Form {
        /// What it says.
        form: String,
    },
    /// Nobody, or too many.
    #[error("trust: there are {count} officials. Give from 1 to {OFFICIALS_MAX}.")]
    Count {
        /// How many there are.
        count: usize,
    },
    /// A threshold that is none, or that can't be reached.
    #[error(
        "trust: {threshold} of {officials} officials must sign. Give a number from 1 to {officials}; {THRESHOLD_USUAL} is usual."
    )]
    Threshold {
        /// The threshold.
        threshold: u8,
        /// How many officials there are.
        officials: usize,
    },
    /// A name that can't be shown.
    #[error("trust, the name \"{name}\": {reason}")]
    Name {
        /// The name.
        name: String,
        /// What is wrong, and what to do.
        reason: String,
    },
    /// One name twice.
    #[error("trust: {name} is there twice. One official has one key: keep the right one.")]
    RepeatedName {
        /// The name.
        name: String,
    },
    /// One key under two names.
    #[error(
        "trust: {name} and {other} have the same key, so one could sign for both. Make a key for each."
    )]
    RepeatedKey {
        /// The one.
        name: String,
        /// The other.
        other: String,
    },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    form: String,
    threshold: u8,
    officials: Vec<Official>,
}

impl Trust {
    /// Trust in these officials, of whom so many must sign.
    ///
    /// # Errors
    /// [`TrustError`] where nobody could or anybody would be trusted.
    pub fn new(threshold: u8, given: Vec<Official>) -> Result<Self, TrustError> {
        if given.is_empty() || given.len() > OFFICIALS_MAX {
            return Err(TrustError::Count { count: given.len() });
        }
        if threshold == 0 || usize::from(threshold) > given.len() {
            return Err(TrustError::Threshold { threshold, officials: given.len() });
        }
        let mut officials: Vec<Official> = Vec::new();
        for Official { name, key } in given {
            let name = official_name(&name)?;
            // Two names that differ in capitals only are one to whoever hears them.
            let is_same = |other: &&Official| other.name.to_lowercase() == name.to_lowercase();
            if officials.iter().any(|other| is_same(&other)) {
                return Err(TrustError::RepeatedName { name });
            }
            if let Some(other) = officials.iter().find(|other| other.key == key) {
                return Err(TrustError::RepeatedKey { name, other: other.name.clone() });
            }
            officials.push(Official { name, key });
        }
        Ok(Self { threshold, officials })
    }

    /// Reads a trust file.
    ///
    /// # Errors
    /// [`TrustError`] says what is wrong and what to do.
    pub fn read(bytes: &[u8]) -> Result<Self, TrustError> {
        if bytes.len() > TRUST_BYTES_MAX {
            return Err(TrustError::FileTooLong);
        }
        let mut deserializer = serde_json::Deserializer::from_slice(bytes);
        let written: Written =
            serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
                let path = error.path().to_string();
                let is_whole = path == "." || path == "?";
                bad_field(if is_whole { "(whole file)" } else { &path }, error.inner())
            })?;
        deserializer.end().map_err(|error| bad_field("(whole file)", &error))?;
        if written.form != FORM {
            return Err(TrustError::Form { form: short(&written.form) });
        }
        Self::new(written.threshold, written.officials)
    }

    /// The trust file.
    pub fn write(&self) -> Vec<u8> {
        canonical::write(&Written {
            form: FORM.to_owned(),
            threshold: self.threshold,
            officials: self.officials.clone(),
        })
    }

    /// How many officials must have signed.
    pub fn threshold(&self) -> u8 {
        self.threshold
    }

    /// The officials in the file's order.
    pub fn officials(&self) -> &[Official] {
        &self.officials
    }

    /// The official with the key of this name.
    pub fn find(&self, key: &Digest) -> Option<&Official> {
        self.officials.iter().find(|official| official.key.id() == *key)
    }
}

/// The name of an official as it is shown: one line of characters that can be told apart.
///
/// # Errors
/// [`TrustError::Name`].
pub fn official_name(name: &str) -> Result<String, TrustError> {
    words::plain(name, NAME_LEN_MAX)
        .map_err(|fault| TrustError::Name { name: short(name), reason: fault.to_string() })
}

fn bad_field(path: &str, error: &serde_json::Error) -> TrustError {
    TrustError::Field { line: error.line(), field: short(path), reason: short(&error.to_string()) }
}
