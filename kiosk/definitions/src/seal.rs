//! Sealed elections: what the office's officials have signed, and a station's refusal of anything
//! else.
//!
//! A sealed election is a tar file of exactly two: `contents.tar`, which holds the election's files
//! and a manifest of their digests, and `signatures.json`. Each signature is over the contents' own
//! bytes ([`Contents::message`]). Both tar files and all JSON of ours have one form only
//! (`archive.rs`, `canonical.rs`), so every bit of the file counts: change one and it is refused.
//!
//! Invariant: a [`Verified`] is made by [`verify`] and by nothing else. Signatures are checked
//! before a byte of the contents is looked at.
//!
//! What it must not know: files, private keys, clocks.
//!
//! Start reading at [`verify`].

mod archive;
mod canonical;
mod contents;
mod key;
mod trust;

use std::fmt;
use std::ops::Deref;

use serde::{Deserialize, Serialize};
use thiserror::Error;

pub use self::archive::ArchiveError;
pub use self::contents::{Contents, ContentsError};
pub use self::key::{PublicKey, PublicKeyError};
pub use self::trust::{Official, THRESHOLD_USUAL, Trust, TrustError, official_name};
use crate::Digest;
use crate::digest::{from_hex, hex};
use crate::limits::{OFFICIALS_MAX, SEALED_BYTES_MAX, SIGNATURES_BYTES_MAX};
use crate::object::short;
use crate::seal::archive::Entry;

/// The first field of every list of signatures.
const FORM: &str = "Evenhand signatures, form 1";
const CONTENTS: &str = "contents.tar";
const SIGNATURES: &str = "signatures.json";

/// An election that enough trusted officials have sealed, with all its files.
#[derive(Clone, PartialEq, Eq)]
pub struct Verified {
    // Invariant: made by `verify` only.
    contents: Contents,
    digest: Digest,
    signers: Vec<String>,
}

/// Why a file isn't a sealed election that may be opened here.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum SealError {
    /// More bytes than the limit.
    #[error(
        "the sealed election has {bytes} bytes and the limit is {SEALED_BYTES_MAX}. Give the file that the office sealed."
    )]
    TooLong {
        /// The bytes given.
        bytes: usize,
    },
    /// Not a tar file as Evenhand writes it.
    #[error("the sealed election: {0}")]
    Archive(#[from] ArchiveError),
    /// Other files in it.
    #[error(
        "the sealed election holds {found}, and must hold {CONTENTS} and {SIGNATURES}. Give the file that the office sealed."
    )]
    Entries {
        /// The files that it holds.
        found: String,
    },
    /// The list of signatures isn't one.
    #[error("{SIGNATURES}: {reason}. Copy the sealed election again from the office.")]
    Signatures {
        /// What is wrong.
        reason: String,
    },
    /// More signatures than officials can be.
    #[error(
        "{SIGNATURES}: there are {count} signatures and the limit is {OFFICIALS_MAX}. Don't use it."
    )]
    TooManySignatures {
        /// How many there are.
        count: usize,
    },
    /// One key twice.
    #[error(
        "the key {key} has signed already, and one official counts once. Let another official sign."
    )]
    SignedTwice {
        /// The key.
        key: Digest,
    },
    /// A key that isn't trusted here.
    #[error(
        "it is signed with the key {key}, which isn't trusted here. Have it sealed by officials whose keys were installed at set-up, and by nobody else."
    )]
    UnknownKey {
        /// The key.
        key: Digest,
    },
    /// A signature under something else.
    #[error(
        "the signature of {name} is not under these contents: one of the two was changed. Don't use it; tell the office, and copy it again."
    )]
    BadSignature {
        /// Whose, by name or by key.
        name: String,
    },
    /// Too few signatures.
    #[error(
        "it has {found} of the {threshold} signatures that are needed here. Let more officials sign it."
    )]
    TooFew {
        /// How many there are.
        found: usize,
        /// How many are needed.
        threshold: u8,
    },
    /// Signed, and still not an election.
    #[error(transparent)]
    Contents(#[from] ContentsError),
}

/// Opens a sealed election: every signature must be a trusted official's and under these very
/// contents, there must be enough of them, and the contents must be an election.
///
/// # Errors
/// [`SealError`] for the first thing that fails, with what to do.
pub fn verify(bytes: Vec<u8>, trust: &Trust) -> Result<Verified, SealError> {
    let digest = Digest::of(&bytes);
    let envelope = Envelope::open(bytes)?;
    let signers = envelope.signers(trust)?;
    Ok(Verified { contents: envelope.into_contents()?, digest, signers })
}

impl Verified {
    /// The digest of the whole file, to be compared with what the office wrote down.
    pub fn file_digest(&self) -> Digest {
        self.digest
    }

    /// The names of the officials who signed, in the order of their keys.
    pub fn signers(&self) -> &[String] {
        &self.signers
    }
}

/// What was verified is read like any contents.
impl Deref for Verified {
    type Target = Contents;

    fn deref(&self) -> &Contents {
        &self.contents
    }
}

impl fmt::Debug for Verified {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Verified")
            .field("digest", &self.digest)
            .field("signers", &self.signers)
            .finish_non_exhaustive()
    }
}

/// An election on its way from hand to hand in the office: packed, and signed by none or some.
/// It is not [`Verified`]: nobody has said whom to trust.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SealedElection {
    contents: Contents,
    // Invariant: in the order of their keys, each key once.
    signatures: Vec<Signature>,
}

impl SealedElection {
    /// Contents that nobody has signed.
    pub fn unsigned(contents: Contents) -> Self {
        Self { contents, signatures: Vec::new() }
    }

    /// Reads a file that was packed, whoever has signed it.
    ///
    /// # Errors
    /// [`SealError`] for what Evenhand didn't write. Signatures are not checked: see [`verify`].
    pub fn read(bytes: Vec<u8>) -> Result<Self, SealError> {
        let envelope = Envelope::open(bytes)?;
        let signatures = envelope.signatures.clone();
        Ok(Self { contents: envelope.into_contents()?, signatures })
    }

    /// Adds a signature under [`Contents::message`].
    ///
    /// # Errors
    /// [`SealError::BadSignature`], [`SealError::SignedTwice`] or [`SealError::TooManySignatures`].
    pub fn add(&mut self, key: &PublicKey, signature: &[u8]) -> Result<(), SealError> {
        let id = key.id();
        let bad = || SealError::BadSignature { name: format!("the key {id}") };
        if !key.has_signed(&self.contents.message(), signature) {
            return Err(bad());
        }
        let signature = Signature { key: id, signature: signature.try_into().map_err(|()| bad())? };
        let place = self.signatures.binary_search_by_key(&id, |signature| signature.key);
        let Err(place) = place else { return Err(SealError::SignedTwice { key: id }) };
        if self.signatures.len() >= OFFICIALS_MAX {
            let count = self.signatures.len().saturating_add(1);
            return Err(SealError::TooManySignatures { count });
        }
        self.signatures.insert(place, signature);
        Ok(())
    }

    /// The file.
    ///
    /// # Errors
    /// [`SealError::TooLong`] where the signatures make it longer than the limit.
    pub fn to_bytes(&self) -> Result<Vec<u8>, SealError> {
        let signatures = canonical::write(&SignatureList {
            form: FORM.to_owned(),
            signatures: self.signatures.clone(),
        });
        let files = [(CONTENTS, self.contents.bytes()), (SIGNATURES, signatures.as_slice())];
        let bytes = archive::write(&files)?;
        let is_short = bytes.len() <= SEALED_BYTES_MAX;
        if is_short { Ok(bytes) } else { Err(SealError::TooLong { bytes: bytes.len() }) }
    }

    /// What is sealed.
    pub fn contents(&self) -> &Contents {
        &self.contents
    }

    /// The keys that have signed, in order.
    pub fn keys(&self) -> impl Iterator<Item = Digest> {
        self.signatures.iter().map(|signature| signature.key)
    }
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SignatureList {
    form: String,
    signatures: Vec<Signature>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Signature {
    key: Digest,
    signature: SignatureBytes,
}

/// The 64 bytes of an Ed25519 signature (RFC 8032, section 5.1.6).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct SignatureBytes([u8; 64]);

impl From<SignatureBytes> for String {
    fn from(signature: SignatureBytes) -> Self {
        hex(&signature.0)
    }
}

impl TryFrom<String> for SignatureBytes {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        from_hex(&text).map(Self).ok_or("a signature is 128 digits from 0 to 9 and a to f")
    }
}

impl TryFrom<&[u8]> for SignatureBytes {
    type Error = ();

    fn try_from(bytes: &[u8]) -> Result<Self, Self::Error> {
        bytes.try_into().map(Self).map_err(|_| ())
    }
}

/// The outer file, opened: its contents are bytes that nobody has looked into.
struct Envelope {
    bytes: Vec<u8>,
    contents: Entry,
    signatures: Vec<Signature>,
}

impl Envelope {
    fn open(bytes: Vec<u8>) -> Result<Self, SealError> {
        if bytes.len() > SEALED_BYTES_MAX {
            return Err(SealError::TooLong { bytes: bytes.len() });
        }
        let mut entries = archive::read(&bytes, 2, bytes_max)?;
        let paths: Vec<&str> = entries.iter().map(|entry| entry.path.as_str()).collect();
        if paths != [CONTENTS, SIGNATURES] {
            let found = if paths.is_empty() { "nothing".to_owned() } else { paths.join(", ") };
            return Err(SealError::Entries { found: short(&found) });
        }
        let list = entries.pop().and_then(|entry| bytes.get(entry.place)).unwrap_or_default();
        let signatures = signatures(list)?;
        let Some(contents) = entries.pop() else {
            return Err(SealError::Entries { found: SIGNATURES.to_owned() });
        };
        Ok(Self { bytes, contents, signatures })
    }

    /// Who signed, where everyone who did is trusted, has signed this, and they are enough.
    fn signers(&self, trust: &Trust) -> Result<Vec<String>, SealError> {
        let contents = self.bytes.get(self.contents.place.clone()).unwrap_or_default();
        let message = contents::message(&Digest::of(contents), contents.len());
        let mut signers = Vec::new();
        for Signature { key, signature } in &self.signatures {
            let official = trust.find(key).ok_or(SealError::UnknownKey { key: *key })?;
            if !official.key.has_signed(&message, &signature.0) {
                return Err(SealError::BadSignature { name: official.name.clone() });
            }
            signers.push(official.name.clone());
        }
        let (found, threshold) = (signers.len(), trust.threshold());
        if found < usize::from(threshold) {
            return Err(SealError::TooFew { found, threshold });
        }
        Ok(signers)
    }

    /// The contents, moved to the front of the bytes that there are: they may be hundreds of
    /// megabytes.
    fn into_contents(self) -> Result<Contents, ContentsError> {
        let Self { mut bytes, contents: Entry { place, .. }, .. } = self;
        bytes.truncate(place.end);
        bytes.drain(..place.start.min(bytes.len()));
        Contents::read(bytes)
    }
}

fn signatures(list: &[u8]) -> Result<Vec<Signature>, SealError> {
    let list: SignatureList =
        canonical::read(list).map_err(|reason| SealError::Signatures { reason })?;
    if list.form != FORM {
        let reason = format!("this is \"{}\" and must be \"{FORM}\"", short(&list.form));
        return Err(SealError::Signatures { reason });
    }
    let signatures = list.signatures;
    if signatures.len() > OFFICIALS_MAX {
        return Err(SealError::TooManySignatures { count: signatures.len() });
    }
    for (one, next) in signatures.iter().zip(signatures.iter().skip(1)) {
        if one.key == next.key {
            return Err(SealError::SignedTwice { key: one.key });
        }
        if one.key > next.key {
            let reason = "the signatures aren't in the order of their keys".to_owned();
            return Err(SealError::Signatures { reason });
        }
    }
    Ok(signatures)
}

fn bytes_max(path: &str) -> usize {
    if path == SIGNATURES { SIGNATURES_BYTES_MAX } else { SEALED_BYTES_MAX }
}
