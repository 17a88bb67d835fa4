//! SHA-256 digests (FIPS 180-4): of lines, which make the chain, and of sealed elections and
//! programs, which callers bring.

use std::fmt;
use std::str::FromStr;

use ring::digest::{SHA256, digest};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// 32 bytes of SHA-256.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Digest(pub [u8; 32]);

/// Why a text is no digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error(
    "this is no digest. Give its 64 characters 0 to 9 and A to F, with or without spaces, as printed."
)]
pub struct DigestError;

impl Digest {
    /// The digest of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        let mut own = [0; 32];
        own.copy_from_slice(digest(&SHA256, bytes).as_ref());
        Self(own)
    }

    /// In 16 groups of four capitals and digits, four groups a row, so that two people can compare
    /// it aloud and on paper: `3F2A 91BC …`. [`Digest::from_str`] takes it back.
    pub fn groups(&self) -> String {
        let text = hex(&self.0).to_uppercase();
        let mut out = String::with_capacity(80);
        for (at, sign) in text.chars().enumerate() {
            if at > 0 && at % 16 == 0 {
                out.push('\n');
            } else if at > 0 && at % 4 == 0 {
                out.push(' ');
            }
            out.push(sign);
        }
        out
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&hex(&self.0))
    }
}

impl FromStr for Digest {
    type Err = DigestError;

    /// Takes capitals, small letters, spaces and line ends: a person may have typed it from paper.
    fn from_str(text: &str) -> Result<Self, DigestError> {
        let kept: String = text.chars().filter(|sign| !sign.is_whitespace()).take(65).collect();
        bytes_of(&kept.to_ascii_lowercase()).map(Self).ok_or(DigestError)
    }
}

impl TryFrom<String> for Digest {
    type Error = DigestError;

    /// In a line: 64 small hex digits and nothing else.
    fn try_from(text: String) -> Result<Self, DigestError> {
        bytes_of(&text).map(Self).ok_or(DigestError)
    }
}

impl From<Digest> for String {
    fn from(digest: Digest) -> Self {
        digest.to_string()
    }
}

/// Small hex digits.
pub(crate) fn hex(bytes: &[u8]) -> String {
    const DIGITS: [char; 16] =
        ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f'];
    let digit = |value: u8| DIGITS.get(usize::from(value)).copied().unwrap_or('0');
    bytes.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}

/// The bytes of small hex digits; nothing where the text is longer, shorter or something else.
pub(crate) fn bytes_of<const N: usize>(text: &str) -> Option<[u8; N]> {
    if text.len() != N.checked_mul(2)? || text.bytes().any(|byte| byte.is_ascii_uppercase()) {
        return None;
    }
    let mut out = [0; N];
    for (byte, pair) in out.iter_mut().zip(text.as_bytes().chunks_exact(2)) {
        let pair = std::str::from_utf8(pair).ok()?;
        if !pair.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return None;
        }
        *byte = u8::from_str_radix(pair, 16).ok()?;
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples "abc" and the empty message of NIST's FIPS 180-4 example values.
    #[test]
    fn digests_are_nists() {
        assert_eq!(
            Digest::of(b"abc").to_string(),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert_eq!(
            Digest::of(b"").groups(),
            "E3B0 C442 98FC 1C14\n9AFB F4C8 996F B924\n27AE 41E4 649B 934C\nA495 991B 7852 B855"
        );
    }

    #[test]
    fn groups_are_taken_back_and_other_texts_are_not() {
        let digest = Digest::of(b"x");
        assert_eq!(digest.groups().parse(), Ok(digest));
        assert_eq!(digest.to_string().parse(), Ok(digest));
        let text = digest.to_string();
        for wrong in ["", "00", &text[1..], &format!("{text}0"), &text.replacen('2', "g", 1)] {
            assert_eq!(wrong.parse::<Digest>(), Err(DigestError), "{wrong}");
        }
        assert_eq!(Digest::try_from(text.to_uppercase()), Err(DigestError));
        assert_eq!(bytes_of::<1>("+f"), None);
    }
}
