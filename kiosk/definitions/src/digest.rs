//! SHA-256 digests (FIPS 180-4) as values: told apart from other bytes, written as hexadecimal, and
//! laid out so that two people can compare them aloud.
//!
//! What it must not know: what the bytes are for.

use std::fmt;

use ring::digest::{Context, SHA256};
use serde::{Deserialize, Serialize};

use crate::limits::ALOUD_GROUPS_A_LINE;

/// The SHA-256 of some bytes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Digest([u8; 32]);

impl Digest {
    /// The digest of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self::of_pieces([bytes])
    }

    /// The digest of the pieces as if they were one, for what is too long to hold.
    pub fn of_pieces<P: AsRef<[u8]>>(pieces: impl IntoIterator<Item = P>) -> Self {
        let mut context = Context::new(&SHA256);
        for piece in pieces {
            context.update(piece.as_ref());
        }
        let mut digest = [0; 32];
        for (to, from) in digest.iter_mut().zip(context.finish().as_ref()) {
            *to = *from;
        }
        Self(digest)
    }

    /// The 32 bytes.
    pub fn bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// The digest to be read aloud: four numbered lines of four groups of four digits each.
    pub fn aloud(&self) -> String {
        let text = self.to_string();
        let groups: Vec<_> = text.as_bytes().chunks(4).map(String::from_utf8_lossy).collect();
        let mut aloud = String::new();
        for (number, line) in (1..).zip(groups.chunks(ALOUD_GROUPS_A_LINE)) {
            aloud.extend(["  ", &u8::to_string(&number), ":  ", &line.join("  "), "\n"]);
        }
        aloud
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&hex(&self.0))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl From<Digest> for String {
    fn from(digest: Digest) -> Self {
        digest.to_string()
    }
}

impl TryFrom<String> for Digest {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        from_hex(&text).map(Self).ok_or("a SHA-256 digest is 64 digits from 0 to 9 and a to f")
    }
}

/// Bytes as small hexadecimal digits.
pub(crate) fn hex(bytes: &[u8]) -> String {
    let digit = |value: u8| char::from_digit(u32::from(value), 16).unwrap_or_default();
    bytes.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}

/// As many bytes as asked for from small hexadecimal digits; capital ones are refused, so that one
/// value has one text.
pub(crate) fn from_hex<const N: usize>(text: &str) -> Option<[u8; N]> {
    let value = |digit: u8| match digit {
        b'0'..=b'9' => Some(digit.saturating_sub(b'0')),
        b'a'..=b'f' => Some(digit.saturating_sub(b'a').saturating_add(10)),
        _ => None,
    };
    let (pairs, rest) = text.as_bytes().as_chunks::<2>();
    if pairs.len() != N || !rest.is_empty() {
        return None;
    }
    let mut bytes = [0; N];
    for (to, [high, low]) in bytes.iter_mut().zip(pairs) {
        *to = value(*high)? << 4 | value(*low)?;
    }
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-2, appendix B.1 and B.2, the worked examples of SHA-256 (values from memory;
    /// `kiosk/office/tests/seal.rs` compares with sha256sum).
    #[test]
    fn digests_are_those_of_the_standard() {
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(Digest::of(b"abc").to_string(), abc);
        assert_eq!(Digest::of_pieces(["a", "", "bc"]), Digest::of(b"abc"));
        let two = "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1";
        let message = b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
        assert_eq!(Digest::of(message).to_string(), two);
    }

    #[test]
    fn every_digit_is_read_aloud_in_order() {
        let digest = Digest::of(b"abc");
        let aloud = digest.aloud();
        let first = aloud.lines().next();
        assert_eq!(first, Some("  1:  ba78  16bf  8f01  cfea"), "{aloud}");
        assert_eq!(aloud.lines().count(), 4);
        let digits: String =
            aloud.lines().filter_map(|line| line.split_once(':')).map(|(_, rest)| rest).collect();
        assert_eq!(digits.replace(' ', ""), digest.to_string());
    }

    #[test]
    fn one_value_has_one_text() {
        assert_eq!(from_hex::<2>("0aff"), Some([10, 255]));
        for bad in ["0aF0", "0af", "0aff0", "0aff00", "0ag0", "", "0a 0", "é0a"] {
            assert_eq!(from_hex::<2>(bad), None, "{bad}");
        }
    }
}
