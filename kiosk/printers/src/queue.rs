//! A printer's name at the print service.

use core::fmt;
use core::fmt::Write as _;
use core::str::FromStr;

/// The longest name: CUPS's own limit (its manual page `lpadmin(8)`: 127 printable characters).
const BYTES_MAX: usize = 127;

/// The name of a printer, as the print service knows it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Queue(
    // Invariant: 1 to 127 bytes; no control character, space, slash, number sign or question mark.
    String,
);

/// A text that can't be a printer's name.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "{0:?} can't be a printer's name: it has 1 to 127 bytes, and no space, slash, number sign or \
     question mark"
)]
pub struct NoSuchQueue(pub String);

impl FromStr for Queue {
    type Err = NoSuchQueue;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let is_good = |letter: char| {
            !letter.is_control() && !letter.is_whitespace() && !['/', '#', '?'].contains(&letter)
        };
        if (1..=BYTES_MAX).contains(&text.len()) && text.chars().all(is_good) {
            Ok(Self(text.to_owned()))
        } else {
            Err(NoSuchQueue(text.to_owned()))
        }
    }
}

impl fmt::Display for Queue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Queue {
    /// Where the service keeps it, every byte but the unreserved ones percent-encoded (RFC 3986,
    /// 2.1 and 2.3).
    pub(crate) fn path(&self) -> String {
        let mut path = "/printers/".to_owned();
        for byte in self.0.bytes() {
            if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
                path.push(char::from(byte));
            } else {
                // Writing to a text can't fail.
                write!(path, "%{byte:02X}").unwrap_or_default();
            }
        }
        path
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_held_to_its_letters() {
        let long = "a".repeat(128);
        for bad in ["", "a b", "a/b", "a#", "a?b", "a\n", "\u{7f}", long.as_str()] {
            assert!(bad.parse::<Queue>().is_err(), "{bad:?}");
        }
        let queue: Queue = "Zähler%1".parse().unwrap();
        assert_eq!(queue.path(), "/printers/Z%C3%A4hler%251");
        assert_eq!(queue.to_string(), "Zähler%1");
    }
}
