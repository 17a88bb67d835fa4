//! The one way in which Evenhand writes a tar file, and a reader that takes nothing else.
//!
//! Invariant: whatever [`read`] accepts, [`write`] would write bit for bit. So no padding, no unused
//! field of a header and no byte behind the end can carry anything, and a signature over the files
//! alone could not be told from one over the whole.
//!
//! The format is POSIX ustar: regular files only, mode 0644, no owner, no time, short plain paths,
//! two blocks of zeros at the end and nothing behind them. Nothing is ever written to a disk from
//! here, and nothing is allocated by what a header claims.

use std::collections::BTreeSet;
use std::ops::Range;

use tar::{EntryType, Header};
use thiserror::Error;

use crate::limits::SEALED_PATH_LEN_MAX;
use crate::object::short;

/// A tar file is made of blocks of this many bytes.
const BLOCK: usize = 512;
/// What stands behind the last file.
const END: [u8; 2 * BLOCK] = [0; 2 * BLOCK];

/// Why bytes are not a tar file as Evenhand writes it.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum ArchiveError {
    /// It ends within a file or before its end mark.
    #[error("it is cut short in {place}. Copy it again, whole.")]
    CutShort {
        /// Where it ends.
        place: String,
    },
    /// Something else than a regular file.
    #[error(
        "{path} is {kind} and must be a plain file. Don't use it: Evenhand never writes that. Get it anew from the office."
    )]
    NotAFile {
        /// The path.
        path: String,
        /// What it is.
        kind: &'static str,
    },
    /// A path that climbs, is absolute, hidden, too long or has letters that are not allowed.
    #[error(
        "the path \"{path}\" can't be used. Paths have small letters, digits, \"-\", \"_\" and \".\", folders parted by \"/\", no part that begins with \".\" or \"-\", and {SEALED_PATH_LEN_MAX} bytes at most. Rename the file in the election's folder."
    )]
    BadPath {
        /// The path, cut to a sane length.
        path: String,
    },
    /// One path twice.
    #[error("{path} is there twice. Don't use it: Evenhand never writes that.")]
    Repeated {
        /// The path.
        path: String,
    },
    /// More bytes than a limit.
    #[error("{path} has {bytes} bytes and the limit is {limit}. Make that file shorter.")]
    TooLong {
        /// The path.
        path: String,
        /// The bytes that it is said to have.
        bytes: u64,
        /// The limit.
        limit: usize,
    },
    /// More files than a limit.
    #[error("it holds more than {limit} files. Leave out recordings that aren't needed.")]
    TooMany {
        /// The limit.
        limit: usize,
    },
    /// A header that differs from what Evenhand would write for this file.
    #[error(
        "the header of {path} isn't as Evenhand writes it. Don't pack or unpack it with other programs; copy it again from the office."
    )]
    Header {
        /// The path.
        path: String,
    },
    /// Something behind a file's end, before the next.
    #[error("there are bytes between the end of {path} and what follows. Copy it again.")]
    Padding {
        /// The path.
        path: String,
    },
    /// The end mark is wrong or something follows it.
    #[error("it doesn't end as Evenhand ends it: bytes were added or changed. Copy it again.")]
    End,
}

/// A file of an archive, by its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Entry {
    /// Its path.
    pub(crate) path: String,
    /// Where its bytes are.
    pub(crate) place: Range<usize>,
}

/// Finds the files of an archive, at most so many, each at most as long as `limit_of` its path says.
pub(crate) fn read(
    bytes: &[u8],
    files_max: usize,
    limit_of: fn(&str) -> usize,
) -> Result<Vec<Entry>, ArchiveError> {
    let mut entries: Vec<Entry> = Vec::new();
    let mut seen = BTreeSet::new();
    let mut at = 0;
    loop {
        let rest = bytes.get(at..).unwrap_or_default();
        if rest == END {
            return Ok(entries);
        }
        let Some(block) = rest.first_chunk::<BLOCK>() else {
            let place = entries.last().map_or("its first header", |entry| entry.path.as_str());
            return Err(ArchiveError::CutShort { place: place.to_owned() });
        };
        if is_empty(block) {
            return Err(ArchiveError::End);
        }
        if entries.len() >= files_max {
            return Err(ArchiveError::TooMany { limit: files_max });
        }
        let (path, len) = header(block, limit_of)?;
        if !seen.insert(path.clone()) {
            return Err(ArchiveError::Repeated { path });
        }
        let start = at.saturating_add(BLOCK);
        let end = start.saturating_add(len);
        at = end.next_multiple_of(BLOCK);
        match bytes.get(end..at) {
            None => return Err(ArchiveError::CutShort { place: path }),
            Some(padding) if !is_empty(padding) => return Err(ArchiveError::Padding { path }),
            Some(_) => entries.push(Entry { path, place: start..end }),
        }
    }
}

/// Writes files in the order given.
pub(crate) fn write(files: &[(&str, &[u8])]) -> Result<Vec<u8>, ArchiveError> {
    let room = files.iter().map(|(_, bytes)| bytes.len().saturating_add(2 * BLOCK));
    let mut archive = Vec::with_capacity(room.fold(END.len(), usize::saturating_add));
    for (path, bytes) in files {
        let header = written(path, bytes.len())
            .ok_or_else(|| ArchiveError::BadPath { path: short(path) })?;
        archive.extend_from_slice(header.as_bytes());
        archive.extend_from_slice(bytes);
        archive.resize(archive.len().next_multiple_of(BLOCK), 0);
    }
    archive.extend_from_slice(&END);
    Ok(archive)
}

/// Path and length of a file from its header.
fn header(
    block: &[u8; BLOCK],
    limit_of: fn(&str) -> usize,
) -> Result<(String, usize), ArchiveError> {
    let header = Header::from_byte_slice(block);
    let path = String::from_utf8_lossy(&header.path_bytes()).into_owned();
    if let Some(kind) = other_kind(header.entry_type()) {
        return Err(ArchiveError::NotAFile { path: short(&path), kind });
    }
    if !is_path(&path) {
        return Err(ArchiveError::BadPath { path: short(&path) });
    }
    let Ok(bytes) = header.entry_size() else { return Err(ArchiveError::Header { path }) };
    let limit = limit_of(&path);
    let Some(len) = usize::try_from(bytes).ok().filter(|len| *len <= limit) else {
        return Err(ArchiveError::TooLong { path, bytes, limit });
    };
    match written(&path, len) {
        Some(ours) if ours.as_bytes() == block => Ok((path, len)),
        _ => Err(ArchiveError::Header { path }),
    }
}

/// The header of a file, or none for a path that can't be used.
fn written(path: &str, len: usize) -> Option<Header> {
    if !is_path(path) {
        return None;
    }
    let mut header = Header::new_ustar();
    header.set_path(path).ok()?;
    header.set_entry_type(EntryType::Regular);
    header.set_mode(0o644);
    header.set_uid(0);
    header.set_gid(0);
    header.set_mtime(0);
    header.set_size(u64::try_from(len).ok()?);
    header.set_cksum();
    Some(header)
}

/// Whether a path is short and plain: what two people can tell apart, and no way out of a folder.
fn is_path(path: &str) -> bool {
    let is_plain = |byte: u8| matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'.' | b'_' | b'-');
    path.len() <= SEALED_PATH_LEN_MAX
        && path.split('/').all(|part| {
            !part.is_empty() && !part.starts_with(['.', '-']) && part.bytes().all(is_plain)
        })
}

fn is_empty(bytes: &[u8]) -> bool {
    bytes.iter().all(|byte| *byte == 0)
}

/// What an entry is that isn't a regular file.
fn other_kind(kind: EntryType) -> Option<&'static str> {
    // The crate's enum is open: what it doesn't know is refused as well.
    #[expect(clippy::wildcard_enum_match_arm, reason = "an open enum of another crate")]
    match kind {
        EntryType::Regular => None,
        EntryType::Link => Some("a hard link"),
        EntryType::Symlink => Some("a symbolic link"),
        EntryType::Directory => Some("a folder"),
        EntryType::Char | EntryType::Block => Some("a device"),
        EntryType::Fifo => Some("a pipe"),
        EntryType::GNULongName | EntryType::GNULongLink => Some("a long name"),
        EntryType::GNUSparse => Some("a file with holes"),
        EntryType::XHeader | EntryType::XGlobalHeader => Some("an extended header"),
        _ => Some("of an unknown kind"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_plain() {
        for good in ["definition.json", "sound/km/title-1.ogg", "a", "0/_", &"a".repeat(100)] {
            assert!(is_path(good), "{good}");
        }
        let bad = ["", "/a", "a/", "a//b", "..", "../a", "a/../b", "./a", ".a", "a/.b", "A", "é"];
        for bad in bad.into_iter().chain(["a b", "a\\b", "a:b", "-a", "a\0", &"a".repeat(101)]) {
            assert!(!is_path(bad), "{bad:?}");
            let refused = write(&[(bad, b"")]);
            assert!(matches!(refused, Err(ArchiveError::BadPath { .. })), "{bad:?}");
        }
    }

    #[test]
    fn what_is_written_is_read() {
        let long = [7; 1025];
        let block = [8; BLOCK];
        let files: [(&str, &[u8]); 4] = [("b", b""), ("a", b"x"), ("c/d", &block), ("e", &long)];
        let archive = write(&files).unwrap();
        let read = read(&archive, 4, |_| 1025).unwrap();
        let found: Vec<(&str, &[u8])> = read
            .iter()
            .map(|entry| {
                (entry.path.as_str(), archive.get(entry.place.clone()).unwrap_or_default())
            })
            .collect();
        assert_eq!(found, files);
    }

    #[test]
    fn files_and_bytes_are_limited() {
        let archive = write(&[("a", b"12"), ("b", b"")]).unwrap();
        assert_eq!(read(&archive, 1, |_| 9), Err(ArchiveError::TooMany { limit: 1 }));
        let too_long = ArchiveError::TooLong { path: "a".to_owned(), bytes: 2, limit: 1 };
        assert_eq!(read(&archive, 2, |_| 1), Err(too_long));
    }
}
