//! Public keys: Ed25519 (RFC 8032) in their standard envelope (RFC 8410), and what they verify.
//!
//! What it must not know: private keys; the office has those.

use std::fmt;

use base64ct::{Base64, Encoding as _};
use ring::signature::{ED25519, UnparsedPublicKey};
use serde::{Deserialize, Serialize};

use crate::Digest;

/// What stands before the 32 bytes of a public key in DER: a sequence with the algorithm's object
/// identifier 1.3.101.112 and the head of a bit string (RFC 8410, sections 3, 4 and 10.1).
const ENVELOPE: [u8; 12] = [0x30, 0x2a, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x03, 0x21, 0x00];

/// The public key of an official.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct PublicKey([u8; 32]);

impl PublicKey {
    /// A key from its 32 bytes (RFC 8032, section 5.1.5).
    pub fn from_raw(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// A key from its `SubjectPublicKeyInfo` in DER; none for another algorithm or form.
    pub fn from_spki(der: &[u8]) -> Option<Self> {
        let raw = der.strip_prefix(&ENVELOPE)?;
        raw.try_into().ok().map(Self)
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
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        let der = Base64::decode_vec(&text).ok();
        der.and_then(|der| Self::from_spki(&der))
            .ok_or("it is no Ed25519 public key in base64 (SubjectPublicKeyInfo, RFC 8410)")
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
        assert_eq!(PublicKey::from_spki(&key.to_spki()), Some(key));
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
