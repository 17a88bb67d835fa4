//! A number that is stamped on a thing: a station's, or a seal's. The only text in a log.
//!
//! Invariant: 1 to 16 of A to Z, 0 to 9 and the hyphen, so that it can't hold a sentence, markup or
//! anything of a line's form.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::limits::LABEL_LEN_MAX;

/// The number of a station or a seal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Label(
    // Invariant: 1 to LABEL_LEN_MAX of A-Z, 0-9 and the hyphen.
    String,
);

/// Why a text is no number of a station or a seal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error(
    "this can't be a station's or a seal's number. Give 1 to {LABEL_LEN_MAX} capitals A to Z, digits and hyphens."
)]
pub struct LabelError;

impl Label {
    /// The number as it is written.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for Label {
    type Err = LabelError;

    fn from_str(text: &str) -> Result<Self, LabelError> {
        let may = |byte: u8| byte.is_ascii_uppercase() || byte.is_ascii_digit() || byte == b'-';
        let is_right = (1..=LABEL_LEN_MAX).contains(&text.len()) && text.bytes().all(may);
        if is_right { Ok(Self(text.to_owned())) } else { Err(LabelError) }
    }
}

impl TryFrom<String> for Label {
    type Error = LabelError;

    fn try_from(text: String) -> Result<Self, LabelError> {
        text.parse()
    }
}

impl From<Label> for String {
    fn from(label: Label) -> Self {
        label.0
    }
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
