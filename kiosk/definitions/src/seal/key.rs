//! Public keys: Ed25519 (RFC 8032) in their standard envelope (RFC 8410), and what they verify.
//!
//! What it must not know: private keys; the office has those.

use std::fmt;

use base64ct::{Base64, Encoding as _};
use ring::signature::{ED25519, UnparsedPublicKey};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::Digest;
use crate::digest::hex;

/// What stands before the 32 bytes of a public key in DER: a sequence with the algorithm's object
/// identifier 1.3.101.112 and the head of a bit string (RFC 8410, sections 3, 4 and 10.1).
const ENVELOPE: [u8; 12] = [0x30, 0x2a, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x03, 0x21, 0x00];

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

/// The public key of an official.
///
/// Invariant: no point of small order.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct PublicKey([u8; 32]);

/// Why bytes are no public key that can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum PublicKeyError {
    /// Another algorithm or form.
    #[error("it is no Ed25519 public key in base64 (SubjectPublicKeyInfo, RFC 8410)")]
    NotEd25519,
    /// A point of small order, which no honest key is.
    #[error(
        "it is a weak Ed25519 key (a point of small order), under which anybody can sign. Nobody makes one by chance: ask where it comes from, and have its official make a new key"
    )]
    SmallOrder,
}

impl PublicKey {
    /// A key from its 32 bytes (RFC 8032, section 5.1.5).
    ///
    /// # Errors
    /// [`PublicKeyError::SmallOrder`].
    pub fn from_raw(bytes: [u8; 32]) -> Result<Self, PublicKeyError> {
        let mut y = bytes;
        // The highest bit is that of `x`.
        if let Some(last) = y.last_mut() {
            *last &= 0x7f;
        }
        let y = hex(&y);
        if SMALL_ORDER.contains(&y.as_str()) {
            return Err(PublicKeyError::SmallOrder);
        }
        Ok(Self(bytes))
    }

    /// A key from its `SubjectPublicKeyInfo` in DER.
    ///
    /// # Errors
    /// [`PublicKeyError`].
    pub fn from_spki(der: &[u8]) -> Result<Self, PublicKeyError> {
        let raw = der.strip_prefix(&ENVELOPE).ok_or(PublicKeyError::NotEd25519)?;
        Self::from_raw(raw.try_into().map_err(|_| PublicKeyError::NotEd25519)?)
    }

    /// The key as `SubjectPublicKeyInfo` in DER.
    pub fn to_spki(&self) -> Vec<u8> {
        [ENVELOPE.as_slice(), &self.0].concat()
    }

    /// What names the key: the digest of its `SubjectPublicKeyInfo`.
    pub fn id(&self) -> Digest {
        Digest::of(&self.to_spki())
    }

    /// Whether this key's owner signed the message (RFC 8032, section 5.1.7).
    pub fn has_signed(&self, message: &[u8], signature: &[u8]) -> bool {
        UnparsedPublicKey::new(&ED25519, self.0).verify(message, signature).is_ok()
    }
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "PublicKey({})", self.id())
    }
}

impl From<PublicKey> for String {
    fn from(key: PublicKey) -> Self {
        Base64::encode_string(&key.to_spki())
    }
}

impl TryFrom<String> for PublicKey {
    type Error = PublicKeyError;

    fn try_from(text: String) -> Result<Self, PublicKeyError> {
        let der = Base64::decode_vec(&text).map_err(|_| PublicKeyError::NotEd25519)?;
        Self::from_spki(&der)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 8410, section 10.1: its example of a public key (from memory; what OpenSSL reads is in
    /// `kiosk/office/tests/seal.rs`).
    const RFC_8410: &str = "MCowBQYDK2VwAyEAGb9ECWmEzf6FQbrBZ9w7lshQhqowtrbLDFw4rXAxZuE=";

    #[test]
    fn the_standards_example_is_read() {
        let key = PublicKey::try_from(RFC_8410.to_owned()).unwrap();
        assert_eq!(String::from(key), RFC_8410);
        assert_eq!(PublicKey::from_spki(&key.to_spki()), Ok(key));
    }

    #[test]
    fn one_key_has_one_text() {
        // The last digit before the padding has two bits that no byte uses.
        let loose = RFC_8410.replace("ZuE=", "ZuF=");
        let other = RFC_8410.replace("K2Vw", "K2Vv");
        let cut = RFC_8410.trim_end_matches('=');
        for bad in [loose.as_str(), &other, cut, "", &format!("{RFC_8410}\n"), "MCow"] {
            assert!(PublicKey::try_from(bad.to_owned()).is_err(), "{bad}");
        }
    }
}
