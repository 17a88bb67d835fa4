//! The station's key pair, and the public key that others trust.
//!
//! Signatures are Ed25519 (RFC 8032), made by ring. What is signed begins with its own words, so
//! that a signature of a checkpoint is never one of anything else.

use std::fmt;
use std::str::FromStr;

use ring::signature::{ED25519, Ed25519KeyPair, KeyPair as _, UnparsedPublicKey};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::Digest;
use crate::digest::{bytes_of, hex};

/// What stands before everything that a checkpoint signs.
const CHECKPOINT: &[u8] = b"Evenhand event log, form 1, checkpoint\0";

/// The points whose multiples are at most eight others, by their `y` as RFC 8032, section 5.1.2,
/// writes it and without the bit of `x`: with such a key some signatures hold under every message,
/// and ring's verification takes them. No RFC lists them; `tests/tests/weak_keys.rs` works them out
/// from the curve of RFC 8032, section 5.1. The last two are 0 and 1 written as `p` and `p + 1`.
const SMALL_ORDER: [&str; 7] = [
    "0000000000000000000000000000000000000000000000000000000000000000",
    "0100000000000000000000000000000000000000000000000000000000000000",
    "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05",
    "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a",
    "ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
    "edffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
    "eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
];

/// Why bytes are no key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum KeyError {
    /// Not an Ed25519 key pair in PKCS#8 (RFC 8410).
    #[error(
        "this is no Ed25519 key pair in PKCS#8. Give the file that was made for this station; `openssl genpkey -algorithm ed25519 -outform DER` makes one."
    )]
    NotAKeyPair,
    /// Not a public key.
    #[error(
        "this is no Ed25519 public key. Give 64 hex digits, or a file with them, with the 32 bytes, or as `openssl pkey -pubout -outform DER` writes it."
    )]
    NotAPublicKey,
    /// A point of small order, which no honest key is.
    #[error(
        "this is a weak Ed25519 key (a point of small order), under which anybody can sign. Nobody makes one by chance: ask where it comes from, and get the station's key from the election office."
    )]
    Weak,
}

/// The station's key pair.
pub struct StationKey(Ed25519KeyPair);

impl StationKey {
    /// Takes a key pair from PKCS#8 (version 1 or 2) and overwrites the bytes that it was given,
    /// also where they are no key. ring keeps its own copy, which it does not overwrite when it goes.
    ///
    /// # Errors
    /// [`KeyError::NotAKeyPair`].
    pub fn from_pkcs8(bytes: &mut [u8]) -> Result<Self, KeyError> {
        let pair = Ed25519KeyPair::from_pkcs8_maybe_unchecked(bytes);
        bytes.fill(0);
        // Keeps the filling from being taken away as useless.
        std::hint::black_box(&bytes);
        pair.map(Self).map_err(|_| KeyError::NotAKeyPair)
    }

    /// The public half.
    pub fn public(&self) -> PublicKey {
        let mut bytes = [0; 32];
        bytes.copy_from_slice(self.0.public_key().as_ref());
        PublicKey(bytes)
    }

    pub(crate) fn sign_checkpoint(&self, number: u64, digest: &Digest) -> Signature {
        let mut bytes = [0; 64];
        bytes.copy_from_slice(self.0.sign(&checkpoint_bytes(number, digest)).as_ref());
        Signature(bytes)
    }
}

impl fmt::Debug for StationKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "StationKey({})", self.public())
    }
}

/// A station's public key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct PublicKey(pub [u8; 32]);

impl PublicKey {
    /// A key from a file: hex digits, the 32 bytes, or DER as RFC 8410 has it.
    ///
    /// # Errors
    /// [`KeyError::NotAPublicKey`], [`KeyError::Weak`].
    pub fn from_file(bytes: &[u8]) -> Result<Self, KeyError> {
        // The SubjectPublicKeyInfo of an Ed25519 key up to its 32 bytes (RFC 8410, section 4).
        const DER: [u8; 12] = [0x30, 0x2a, 0x30, 5, 6, 3, 0x2b, 0x65, 0x70, 3, 0x21, 0];
        let own = bytes.strip_prefix(&DER).unwrap_or(bytes);
        if let Ok(key) = <[u8; 32]>::try_from(own) {
            return Self(key).strong();
        }
        std::str::from_utf8(bytes).map_err(|_| KeyError::NotAPublicKey)?.parse()
    }

    pub(crate) fn has_signed(&self, signature: &Signature, number: u64, digest: &Digest) -> bool {
        let key = UnparsedPublicKey::new(&ED25519, &self.0);
        let is_good = key.verify(&checkpoint_bytes(number, digest), &signature.0).is_ok();
        // The bytes can have been put here without being looked at.
        is_good && self.strong().is_ok()
    }

    /// The key, where it is no point of small order.
    fn strong(self) -> Result<Self, KeyError> {
        let mut y = self.0;
        // The highest bit is that of `x`.
        if let Some(last) = y.last_mut() {
            *last &= 0x7f;
        }
        if SMALL_ORDER.contains(&hex(&y).as_str()) { Err(KeyError::Weak) } else { Ok(self) }
    }
}

impl FromStr for PublicKey {
    type Err = KeyError;

    fn from_str(text: &str) -> Result<Self, KeyError> {
        let bytes = bytes_of(&text.trim().to_ascii_lowercase()).ok_or(KeyError::NotAPublicKey)?;
        Self(bytes).strong()
    }
}

impl TryFrom<String> for PublicKey {
    type Error = KeyError;

    fn try_from(text: String) -> Result<Self, KeyError> {
        Self(bytes_of(&text).ok_or(KeyError::NotAPublicKey)?).strong()
    }
}

impl From<PublicKey> for String {
    fn from(key: PublicKey) -> Self {
        key.to_string()
    }
}

impl fmt::Display for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&hex(&self.0))
    }
}

/// A checkpoint's signature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub(crate) struct Signature(pub(crate) [u8; 64]);

impl TryFrom<String> for Signature {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, &'static str> {
        bytes_of(&text).map(Self).ok_or("a signature has 128 hex digits")
    }
}

impl From<Signature> for String {
    fn from(signature: Signature) -> Self {
        hex(&signature.0)
    }
}

/// What a checkpoint signs: its own words, the number of the line that it covers up to (8 bytes,
/// big end first) and that line's digest.
pub fn checkpoint_bytes(number: u64, digest: &Digest) -> Vec<u8> {
    let mut bytes = CHECKPOINT.to_vec();
    bytes.extend(number.to_be_bytes());
    bytes.extend(digest.0);
    bytes
}
