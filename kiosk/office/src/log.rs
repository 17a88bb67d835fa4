//! What the office does with a station's event log: verify it, export it as NIST SP 1500-101 has
//! it, make the observer's page, and list what can stand in one.
//!
//! It says what it found and ends with an error where anything was; it never mends a log.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a command line opens the files that it is told to, prints, and says when a file was made"
)]

use std::io::Read as _;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use clap::{Args, Subcommand};
use evenhand_event_log::limits::FILE_BYTES_MAX;
use evenhand_event_log::{
    Digest, DigestError, Event, KeyError, Maker, Moment, PublicKey, Published, Report, Trust,
    describe, export, page, verify,
};
use thiserror::Error;

/// A file with a public key has at most 64 digits, a line end and spaces.
const KEY_BYTES_MAX: u64 = 1024;

#[derive(Subcommand)]
pub(crate) enum LogTask {
    /// Say whether a log is whole, and what was removed, changed or put elsewhere where it isn't.
    Verify {
        /// The log's file.
        file: PathBuf,
        #[command(flatten)]
        known: KnownKey,
        #[command(flatten)]
        published: PublishedEnd,
    },
    /// Write a log as NIST SP 1500-101 JSON (`ElectionEventLog`).
    Export {
        /// The log's file.
        file: PathBuf,
        /// The JSON file to write.
        #[arg(long)]
        to: PathBuf,
        #[command(flatten)]
        known: OptionalKey,
        #[command(flatten)]
        published: PublishedEnd,
    },
    /// Write the observer's page of a log: one HTML file that any browser shows and prints.
    Page {
        /// The log's file.
        file: PathBuf,
        /// The HTML file to write.
        #[arg(long)]
        to: PathBuf,
        #[command(flatten)]
        known: OptionalKey,
        #[command(flatten)]
        published: PublishedEnd,
    },
    /// List every event that can stand in a log, or write the list as NIST SP 1500-101 JSON
    /// (`ElectionEventLogDocumentation`).
    Events {
        /// The JSON file to write, instead of the list.
        #[arg(long)]
        to: Option<PathBuf>,
    },
}

#[derive(Args)]
pub(crate) struct KnownKey {
    /// The station's public key: 64 hex digits, or a file with them, with the 32 bytes, or in DER.
    #[arg(long)]
    station_key: String,
}

#[derive(Args)]
pub(crate) struct OptionalKey {
    /// The station's public key, as `verify` takes it. Without it the log's own word is taken, and
    /// what is written says so.
    #[arg(long)]
    station_key: Option<String>,
}

#[derive(Args)]
pub(crate) struct PublishedEnd {
    /// A head digest that was published, such as the one printed at closing.
    #[arg(long)]
    head: Option<String>,
    /// How many lines the log had then.
    #[arg(long)]
    lines: Option<u64>,
}

/// What went wrong, or was found.
#[derive(Debug, Error)]
pub(crate) enum LogError {
    #[error("{0}: {1}. Give the log's file.")]
    Read(PathBuf, std::io::Error),
    #[error("{0}: {1}. Give a file in a folder that can be written.")]
    Write(PathBuf, std::io::Error),
    #[error(
        "--station-key {0}: these are no 64 hex digits, and as a file: {1}. Give the station's public key."
    )]
    KeyFile(PathBuf, std::io::Error),
    #[error("--station-key {0}: {1}")]
    Key(String, KeyError),
    #[error("--head: {0}")]
    Head(#[from] DigestError),
    #[error("{0}: {1} finding(s), listed above. Keep the file as it is and look into each.")]
    Found(PathBuf, usize),
}

pub(crate) fn run(task: LogTask) -> Result<(), LogError> {
    match task {
        LogTask::Verify { file, known, published } => {
            let report = report(&file, Some(&known.station_key), &published)?;
            said(&file, &report)
        }
        LogTask::Export { file, to, known, published } => {
            let report = report(&file, known.station_key.as_deref(), &published)?;
            write(&to, &export(&report, &Maker::EVENHAND, now()))?;
            said(&file, &report)
        }
        LogTask::Page { file, to, known, published } => {
            let report = report(&file, known.station_key.as_deref(), &published)?;
            write(&to, &page(&report))?;
            said(&file, &report)
        }
        LogTask::Events { to: Some(to) } => write(&to, &describe(&Maker::EVENHAND, now())),
        LogTask::Events { to: None } => {
            for kind in Event::KINDS {
                println!("{} ({}): {}", kind.id, kind.event_type.id(), kind.description);
            }
            Ok(())
        }
    }
}

fn report(file: &Path, key: Option<&str>, end: &PublishedEnd) -> Result<Report, LogError> {
    let digest = end.head.as_deref().map(str::parse::<Digest>).transpose()?;
    let published = Published { digest, lines: end.lines };
    let trust = key.map_or(Ok(Trust::Itself), |key| key_of(key).map(Trust::Key))?;
    // One byte more than may be: verification then says that it is too long.
    let bytes = read(file, FILE_BYTES_MAX as u64 + 1)
        .map_err(|error| LogError::Read(file.to_owned(), error))?;
    Ok(verify(&bytes, trust, &published))
}

/// Prints what was found and what the reader must know; an error where anything was found.
fn said(file: &Path, report: &Report) -> Result<(), LogError> {
    let station = report.station.as_ref().map_or("unknown", |station| station.as_str());
    println!("Station {station}, {} lines.", report.lines.len());
    if let Some(digest) = report.head_digest() {
        println!("Head digest:\n{}", digest.groups());
    }
    for sentence in report.finding_sentences() {
        println!("Found: {sentence}");
    }
    for sentence in report.note_sentences() {
        println!("Note: {sentence}");
    }
    if report.is_clean() {
        println!("Nothing was found.");
        Ok(())
    } else {
        Err(LogError::Found(file.to_owned(), report.findings()))
    }
}

/// A key from hex digits, else from the file of that name.
fn key_of(given: &str) -> Result<PublicKey, LogError> {
    let failed = |error| LogError::Key(given.to_owned(), error);
    match given.parse() {
        Ok(key) => return Ok(key),
        Err(weak @ KeyError::Weak) => return Err(failed(weak)),
        Err(KeyError::NotAPublicKey | KeyError::NotAKeyPair) => {}
    }
    let path = Path::new(given);
    let bytes =
        read(path, KEY_BYTES_MAX).map_err(|error| LogError::KeyFile(path.to_owned(), error))?;
    PublicKey::from_file(&bytes).map_err(failed)
}

fn read(path: &Path, most: u64) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    std::fs::File::open(path)?.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn write(path: &Path, text: &str) -> Result<(), LogError> {
    std::fs::write(path, text).map_err(|error| LogError::Write(path.to_owned(), error))?;
    println!("Wrote {}.", path.display());
    Ok(())
}

fn now() -> Moment {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    // A clock before 1970 gives 1970, which anybody sees to be wrong.
    Moment(since.map_or(0, |since| since.as_secs()))
}
