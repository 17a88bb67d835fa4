//! One command by which anybody checks what runs on a station: the digests of its programs and of
//! its sealed election, held against a published list.
//!
//! The list is what GNU `sha256sum` writes, so that `sha256sum --check` does the same with no program
//! of ours. Files are matched by the last part of their paths: a station's folders differ from the
//! office's.
//!
//! What it must not know: what is in the files, but for a sealed election that is verified too.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

use clap::Args;
use evenhand_definitions::Digest;
use evenhand_definitions::limits::{SEALED_BYTES_MAX, TRUST_BYTES_MAX};
use evenhand_definitions::seal::{SealError, Trust, TrustError, verify};
use thiserror::Error;

use crate::keys::{self, KeyError};

/// The longest list, in bytes: [`FILES_MAX`] lines of 250.
const LIST_BYTES_MAX: usize = 256 * 1024;
/// Files of a list, or below the folders that are looked at (own choice: a station has ten).
const FILES_MAX: usize = 1_000;
/// Folders within folders (own choice).
const DEPTH_MAX: usize = 16;

/// What is compared.
#[derive(Args)]
pub(crate) struct Compare {
    /// The programs, the sealed election and whatever else is listed, or folders that hold them.
    #[arg(required = true)]
    paths: Vec<PathBuf>,
    /// The published list, as `sha256sum` writes it. Without it the digests are only printed.
    #[arg(long, value_name = "LIST")]
    list: Option<PathBuf>,
    /// A sealed election whose signatures are checked too.
    #[arg(long, requires = "trust", value_name = "FILE.sealed.tar")]
    sealed: Option<PathBuf>,
    /// The trust file of the stations.
    #[arg(long, requires = "sealed", value_name = "FILE")]
    trust: Option<PathBuf>,
}

/// What went wrong, and what to do.
#[derive(Debug, Error)]
pub(crate) enum CompareError {
    #[error(transparent)]
    File(#[from] KeyError),
    #[error("{0}: {1}. Name a folder that can be read.")]
    Folder(PathBuf, io::Error),
    #[error(
        "{0} is neither a file nor a folder. Name the programs and the sealed election themselves."
    )]
    Neither(PathBuf),
    #[error("there are more than {FILES_MAX} files. Name those that the list has.")]
    TooMany,
    #[error("{0} lies more than {DEPTH_MAX} folders deep. Name the folder that holds the files.")]
    TooDeep(PathBuf),
    #[error("{0} and {1} have one name, and a list tells files by their names. Name one of them.")]
    SameName(PathBuf, PathBuf),
    #[error(
        "{list}, line {line}: {what}. Give the list that the office published, as sha256sum writes it."
    )]
    List { list: PathBuf, line: usize, what: &'static str },
    #[error(transparent)]
    Trust(#[from] TrustError),
    #[error("{0} is NOT sealed: {1}")]
    Refused(PathBuf, SealError),
    #[error(
        "NOT as published: {0}. Don't use this station; keep it as it is and call the election office."
    )]
    Differ(String),
}

/// Prints each file's digest, and compares them with the list.
pub(crate) fn compare(task: &Compare) -> Result<(), CompareError> {
    let listed = task.list.as_deref().map(read_list).transpose()?;
    let mut files = Vec::new();
    for path in &task.paths {
        gather(path, 0, &mut files)?;
    }
    if let (Some(sealed), Some(trust)) = (&task.sealed, &task.trust) {
        // It stands among the rest as well, so that it is in the list too.
        if !files.contains(sealed) {
            gather(sealed, 0, &mut files)?;
        }
        check_seal(sealed, trust)?;
    }
    let found = by_name(files)?;
    let mut findings = Vec::new();
    let mut digests = BTreeMap::new();
    for (name, path) in &found {
        let digest = keys::digest(path)?;
        let says = match listed.as_ref().map(|listed| listed.get(name)) {
            None => "",
            Some(Some(published)) if *published == digest => ": as published",
            Some(Some(_)) => {
                findings.push(format!("{name} differs"));
                ": DIFFERS from the list"
            }
            Some(None) => {
                findings.push(format!("{name} isn't in the list"));
                ": NOT IN THE LIST"
            }
        };
        println!("{}{says}", path.display());
        print!("{}", digest.aloud());
        digests.insert(name, digest);
    }
    let Some(listed) = listed else { return Ok(()) };
    for name in listed.keys().filter(|name| !digests.contains_key(name)) {
        println!("{name}: IN THE LIST AND NOT THERE");
        findings.push(format!("{name} isn't there"));
    }
    if !findings.is_empty() {
        return Err(CompareError::Differ(findings.join(", ")));
    }
    println!("All {} files are as published, and none is missing.", listed.len());
    Ok(())
}

fn check_seal(sealed: &Path, trust: &Path) -> Result<(), CompareError> {
    let trust = Trust::read(&keys::read(trust, TRUST_BYTES_MAX)?)?;
    let verified = verify(keys::read(sealed, SEALED_BYTES_MAX)?, &trust)
        .map_err(|why| CompareError::Refused(sealed.to_owned(), why))?;
    println!("{}: sealed by {}.", sealed.display(), verified.signers().join(", "));
    Ok(())
}

/// The files at a path: itself, or all below a folder. Links are followed: what they lead to runs.
fn gather(path: &Path, depth: usize, files: &mut Vec<PathBuf>) -> Result<(), CompareError> {
    if depth > DEPTH_MAX {
        return Err(CompareError::TooDeep(path.to_owned()));
    }
    let failed = |error| CompareError::Folder(path.to_owned(), error);
    let kind = std::fs::metadata(path).map_err(failed)?;
    if kind.is_file() {
        if files.len() == FILES_MAX {
            return Err(CompareError::TooMany);
        }
        files.push(path.to_owned());
        return Ok(());
    }
    if !kind.is_dir() {
        return Err(CompareError::Neither(path.to_owned()));
    }
    for entry in std::fs::read_dir(path).map_err(failed)? {
        gather(&entry.map_err(failed)?.path(), depth.saturating_add(1), files)?;
    }
    Ok(())
}

/// The files by the last part of their paths.
fn by_name(files: Vec<PathBuf>) -> Result<BTreeMap<String, PathBuf>, CompareError> {
    let mut found: BTreeMap<String, PathBuf> = BTreeMap::new();
    for path in files {
        // A name that isn't UTF-8 can't be in the list, and is shown as it can be.
        let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned();
        if let Some(other) = found.get(&name) {
            return Err(CompareError::SameName(other.clone(), path));
        }
        found.insert(name, path);
    }
    Ok(found)
}

/// The published digests by file name. A line is 64 hexadecimal digits, two signs (a blank, then a
/// blank or a star) and a name (GNU coreutils, "md5sum invocation").
fn read_list(path: &Path) -> Result<BTreeMap<String, Digest>, CompareError> {
    let bytes = keys::read(path, LIST_BYTES_MAX)?;
    let bad = |line: usize, what| CompareError::List { list: path.to_owned(), line, what };
    let text = std::str::from_utf8(&bytes).map_err(|_| bad(1, "the list isn't UTF-8 text"))?;
    let mut listed = BTreeMap::new();
    for (line, row) in (1..).zip(text.lines()) {
        let is_row = "it isn't a digest of 64 digits, two blanks and a file's name";
        if row.starts_with('\\') {
            return Err(bad(line, "the name holds a backslash or a line's end"));
        }
        let (digest, rest) = row.split_once(' ').ok_or_else(|| bad(line, is_row))?;
        let name = rest.strip_prefix([' ', '*']).ok_or_else(|| bad(line, is_row))?;
        let digest = Digest::try_from(digest.to_owned()).map_err(|_| bad(line, is_row))?;
        let name = name.rsplit('/').next().unwrap_or_default();
        if name.is_empty() {
            return Err(bad(line, is_row));
        }
        if listed.len() == FILES_MAX {
            return Err(bad(line, "the list has more than a thousand files"));
        }
        if listed.insert(name.to_owned(), digest).is_some() {
            return Err(bad(line, "a file of this name is in the list already"));
        }
    }
    if listed.is_empty() {
        return Err(bad(1, "the list is empty"));
    }
    Ok(listed)
}
