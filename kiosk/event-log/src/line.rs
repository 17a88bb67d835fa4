//! One line of the file: its form, and the only way in which it is written and read.
//!
//! Invariant: a line that doesn't encode to the very bytes that it was read from is refused, so that
//! no two files say the same.

use serde::{Deserialize, Serialize};

use crate::key::Signature;
use crate::limits::LINE_BYTES_MAX;
use crate::{Digest, Event, Label, Offset, PublicKey, Stamp};

/// The version of the form.
pub(crate) const FORM: u32 = 1;

/// Which log this is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(crate) struct HeadWords {
    pub(crate) form: u32,
    pub(crate) station: Label,
    pub(crate) key: PublicKey,
    pub(crate) utc_offset: Offset,
    pub(crate) previous: Option<Digest>,
}

/// A line: the head (the first), an entry, or a checkpoint.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub(crate) enum Line {
    Head(HeadLine),
    Entry(EntryLine),
    Checkpoint(CheckpointLine),
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HeadLine {
    pub(crate) n: u64,
    pub(crate) at: Stamp,
    pub(crate) head: HeadWords,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct EntryLine {
    pub(crate) n: u64,
    pub(crate) at: Stamp,
    pub(crate) event: Event,
    pub(crate) before: Digest,
}

/// A checkpoint has no time of its own: what it holds follows from the lines before and the key.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CheckpointLine {
    pub(crate) n: u64,
    pub(crate) checkpoint: Signature,
    pub(crate) before: Digest,
}

impl Line {
    /// The bytes of the line, without its line feed.
    #[expect(clippy::expect_used, reason = "numbers, fixed words and hex always encode")]
    pub(crate) fn encode(&self) -> Vec<u8> {
        serde_json::to_vec(self).expect("a line has no map with odd keys")
    }

    /// Reads a line, without its line feed.
    pub(crate) fn decode(bytes: &[u8]) -> Option<Self> {
        if bytes.len() > LINE_BYTES_MAX {
            return None;
        }
        let line: Self = serde_json::from_slice(bytes).ok()?;
        let is_sound = match &line {
            Self::Head(head) => {
                head.n == 0
                    && head.head.form == FORM
                    && !head.at.is_coarse()
                    && head.at.is_possible()
            }
            Self::Entry(entry) => entry.n > 0 && entry.at.is_possible(),
            Self::Checkpoint(checkpoint) => checkpoint.n > 0,
        };
        (is_sound && line.encode() == bytes).then_some(line)
    }

    /// Its number: the head has 0.
    pub(crate) fn number(&self) -> u64 {
        match self {
            Self::Head(line) => line.n,
            Self::Entry(line) => line.n,
            Self::Checkpoint(line) => line.n,
        }
    }

    /// The digest of the line before; the head has none.
    pub(crate) fn before(&self) -> Option<Digest> {
        match self {
            Self::Head(_) => None,
            Self::Entry(line) => Some(line.before),
            Self::Checkpoint(line) => Some(line.before),
        }
    }
}
