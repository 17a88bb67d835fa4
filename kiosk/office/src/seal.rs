//! The office's commands for sealed elections: keys, trust, pack, sign, inspect, digest.
//!
//! What a sealed election is stands in [`evenhand_definitions::seal`]; here are only the files.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

use clap::Subcommand;
use evenhand_definitions::limits::{
    DEFINITION_BYTES_MAX, RECORDING_BYTES_MAX, SEALED_BYTES_MAX, SETTINGS_BYTES_MAX,
    SOUND_LIST_BYTES_MAX, STREETS_BYTES_MAX, TRUST_BYTES_MAX,
};
use evenhand_definitions::seal::{
    Contents, ContentsError, Official, SealError, SealedElection, THRESHOLD_USUAL, Trust,
    TrustError, official_name, verify,
};
use evenhand_definitions::{Digest, Recording};
use thiserror::Error;

use crate::election::{OfficeError, Opened};
use crate::keys::{self, KeyError, OpenKey};

#[derive(Subcommand)]
pub(crate) enum SealTask {
    /// Make an official's key.
    #[command(subcommand)]
    Key(KeyTask),
    /// Write the file that tells a station whose seals to trust.
    Trust {
        /// How many officials must have signed.
        #[arg(long, default_value_t = THRESHOLD_USUAL)]
        threshold: u8,
        /// An official's name and public key. Once for each official.
        #[arg(long = "key", value_name = "NAME=FILE.pub", required = true)]
        keys: Vec<String>,
        /// The file to write.
        #[arg(long)]
        to: PathBuf,
    },
    /// Check an election's folder and pack it, to be signed.
    Pack {
        /// The folder with definition.json.
        election: PathBuf,
        /// The file to write.
        #[arg(long, value_name = "FILE.sealed.tar")]
        to: PathBuf,
    },
    /// Sign a packed election with one official's key.
    Sign {
        /// The packed election.
        file: PathBuf,
        /// The official's private key.
        #[arg(long, value_name = "FILE.key")]
        key: PathBuf,
        /// A file with the passphrase. Without it the terminal is asked.
        #[arg(long)]
        passphrase_file: Option<PathBuf>,
    },
    /// Check a sealed election as a station does, and say what is in it.
    Inspect {
        /// The sealed election.
        file: PathBuf,
        /// The trust file of the stations.
        #[arg(long)]
        trust: PathBuf,
    },
    /// Print the SHA-256 of files, such as a station's program, to be compared aloud.
    Digest {
        /// The files.
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
}

#[derive(Subcommand)]
pub(crate) enum KeyTask {
    /// Make a key pair: FILE.key, encrypted, for the official alone, and FILE.pub for everybody.
    New {
        /// The official's name.
        #[arg(long)]
        name: String,
        /// The private key's file.
        #[arg(long, value_name = "FILE.key")]
        to: PathBuf,
        /// A file with the passphrase. Without it the terminal is asked, twice.
        #[arg(long)]
        passphrase_file: Option<PathBuf>,
    },
}

/// What went wrong, and what to do.
#[derive(Debug, Error)]
pub(crate) enum SealTaskError {
    #[error(transparent)]
    Key(#[from] KeyError),
    #[error(transparent)]
    Trust(#[from] TrustError),
    #[error("not sealed: {0}")]
    Refused(SealError),
    #[error(transparent)]
    Seal(#[from] SealError),
    #[error(transparent)]
    Contents(#[from] ContentsError),
    #[error(transparent)]
    Election(Box<OfficeError>),
    #[error("\"{0}\" is not NAME=FILE.pub. Write it as in --key \"Maria Okafor=maria.pub\".")]
    NotNamed(String),
    #[error("{0} is no name for a key's file. Let it end in .key.")]
    KeyName(PathBuf),
    #[error("{0}: {1}. The file is as it was; free the disk or name another, and try again.")]
    Replace(PathBuf, io::Error),
    #[error("{0}: {1}. Name a folder that can be read.")]
    Folder(PathBuf, io::Error),
}

impl From<OfficeError> for SealTaskError {
    fn from(error: OfficeError) -> Self {
        Self::Election(Box::new(error))
    }
}

/// Does what was asked for.
pub(crate) fn run(task: SealTask) -> Result<(), SealTaskError> {
    match task {
        SealTask::Key(KeyTask::New { name, to, passphrase_file }) => {
            new_key(&name, &to, passphrase_file.as_deref())
        }
        SealTask::Trust { threshold, keys, to } => trust(threshold, &keys, &to),
        SealTask::Pack { election, to } => pack(&election, &to),
        SealTask::Sign { file, key, passphrase_file } => {
            sign(&file, &key, passphrase_file.as_deref())
        }
        SealTask::Inspect { file, trust } => inspect(&file, &trust),
        SealTask::Digest { files } => files.iter().try_for_each(|file| digest(file)),
    }
}

fn new_key(name: &str, to: &Path, passphrase_file: Option<&Path>) -> Result<(), SealTaskError> {
    if to.extension().is_none_or(|end| end != "key") {
        return Err(SealTaskError::KeyName(to.to_owned()));
    }
    // A name that the trust file would refuse is refused here already.
    let name = official_name(name)?;
    let (public_path, public) = keys::make(&name, to, passphrase_file)?;
    println!("Wrote {}: keep it and its passphrase apart, and give it to nobody.", to.display());
    println!("Wrote {}: for the trust file of the stations, as", public_path.display());
    println!("  --key \"{name}={}\"", public_path.display());
    print!("The key's own digest, to be compared aloud:\n{}", public.id().aloud());
    Ok(())
}

fn trust(threshold: u8, keys: &[String], to: &Path) -> Result<(), SealTaskError> {
    let mut officials = Vec::new();
    for given in keys {
        let (name, file) =
            given.split_once('=').ok_or_else(|| SealTaskError::NotNamed(given.clone()))?;
        officials.push(Official { name: name.to_owned(), key: keys::public(Path::new(file))? });
    }
    let trust = Trust::new(threshold, officials)?;
    let bytes = trust.write();
    keys::create(to, &bytes, 0o644)?;
    warn_of_one(&trust);
    println!("Wrote {}: {threshold} of these must sign:", to.display());
    for official in trust.officials() {
        println!("{}, key\n{}", official.name, official.key.id().aloud());
    }
    print!(
        "The trust file's digest, to be compared before set-up:\n{}",
        Digest::of(&bytes).aloud()
    );
    Ok(())
}

fn warn_of_one(trust: &Trust) {
    if trust.threshold() == 1 {
        eprintln!(
            "WARNING: one person alone can seal an election for these stations. Let two sign."
        );
    }
}

fn pack(folder: &Path, to: &Path) -> Result<(), SealTaskError> {
    let opened = Opened::from_folder(folder)?;
    for (index, style) in (0u16..).zip(&opened.loaded.election().styles) {
        opened.compose(index, style)?;
    }
    let files = gather(folder, &opened)?;
    let contents = Contents::pack(&files)?;
    // What is checked are the very bytes that were packed.
    for entry in contents.sound().entries() {
        let bytes = contents.recording(&entry.file).unwrap_or_default().to_vec();
        Recording::check(bytes)
            .map_err(|fault| OfficeError::Recording(entry.file.clone(), fault))?;
    }
    let sealed = SealedElection::unsigned(contents);
    keys::create(to, &sealed.to_bytes()?, 0o644)?;
    println!("Wrote {}, signed by nobody yet.", to.display());
    describe(sealed.contents());
    for place in &opened.unshown {
        println!("Neither shown nor printed: {place}");
    }
    for refused in &opened.loaded.election().refused {
        println!("Refused: style {}: {}: {}", refused.style, refused.contest, refused.reason);
    }
    let mut there = Vec::new();
    list(folder, "", &mut there)?;
    for path in there.iter().filter(|path| !files.contains_key(*path)) {
        println!("Left out, since no station reads it: {path}");
    }
    Ok(())
}

/// The files of an election's folder that a station reads, by their paths.
fn gather(folder: &Path, opened: &Opened) -> Result<BTreeMap<String, Vec<u8>>, SealTaskError> {
    let mut files = BTreeMap::new();
    let mut take = |path: &str, bytes_max: usize| -> Result<(), SealTaskError> {
        files.insert(path.to_owned(), keys::read(&folder.join(path), bytes_max)?);
        Ok(())
    };
    take("definition.json", DEFINITION_BYTES_MAX)?;
    for (path, bytes_max) in [
        ("settings.json", SETTINGS_BYTES_MAX),
        ("streets.csv", STREETS_BYTES_MAX),
        ("sound/list.json", SOUND_LIST_BYTES_MAX),
    ] {
        if folder.join(path).exists() {
            take(path, bytes_max)?;
        }
    }
    for entry in opened.sound.entries() {
        take(&format!("sound/{}", entry.file), RECORDING_BYTES_MAX)?;
    }
    Ok(files)
}

/// Every file below a folder; links are named, not followed.
fn list(folder: &Path, within: &str, into: &mut Vec<String>) -> Result<(), SealTaskError> {
    let failed = |error| SealTaskError::Folder(folder.to_owned(), error);
    let mut entries =
        fs::read_dir(folder).and_then(Iterator::collect::<io::Result<Vec<_>>>).map_err(failed)?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let path = format!("{within}{}", entry.file_name().to_string_lossy());
        if entry.file_type().map_err(failed)?.is_dir() {
            list(&entry.path(), &format!("{path}/"), into)?;
        } else {
            into.push(path);
        }
    }
    Ok(())
}

fn describe(contents: &Contents) {
    let election = contents.election();
    let first = &contents.settings().default_language;
    println!("{}, {}", election.name.in_language(first), election.date);
    if election.is_test {
        println!("The definition says that it is a test: it makes no official ballots.");
    }
    println!("{} files, {} ballot styles", contents.files().count(), election.styles.len());
    print!("What is signed (contents.tar), SHA-256:\n{}", contents.digest().aloud());
}

fn sign(file: &Path, key: &Path, passphrase_file: Option<&Path>) -> Result<(), SealTaskError> {
    let mut sealed = SealedElection::read(keys::read(file, SEALED_BYTES_MAX)?)?;
    describe(sealed.contents());
    for signed in sealed.keys() {
        println!("Signed already with the key {signed}");
    }
    let key = OpenKey::open(key, passphrase_file)?;
    let public = key.public()?;
    sealed.add(&public, &key.sign(&sealed.contents().message()))?;
    replace(file, &sealed.to_bytes()?)?;
    println!("Signed with the key {}; {} signature(s) now.", public.id(), sealed.keys().count());
    Ok(())
}

/// Puts a file in the place of another at once: whoever reads finds the old one or the new one.
fn replace(path: &Path, bytes: &[u8]) -> Result<(), SealTaskError> {
    let mut name = path.as_os_str().to_owned();
    name.push(".new");
    let new = PathBuf::from(name);
    keys::create(&new, bytes, 0o644)?;
    let failed = |error| SealTaskError::Replace(path.to_owned(), error);
    if let Err(error) = fs::rename(&new, path) {
        // What was meant for its place must not lie in the way of the next try.
        fs::remove_file(&new).map_err(failed)?;
        return Err(failed(error));
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let folder = File::open(folder.unwrap_or(Path::new("."))).map_err(failed)?;
    folder.sync_all().map_err(failed)
}

fn inspect(file: &Path, trust: &Path) -> Result<(), SealTaskError> {
    let trust = Trust::read(&keys::read(trust, TRUST_BYTES_MAX)?)?;
    warn_of_one(&trust);
    let bytes = keys::read(file, SEALED_BYTES_MAX)?;
    let verified = verify(bytes, &trust).map_err(SealTaskError::Refused)?;
    println!("Sealed by {}.", verified.signers().join(", "));
    describe(&verified);
    for (path, bytes, digest) in verified.files() {
        println!("{digest}  {path} ({bytes} bytes)");
    }
    print!("The whole file, SHA-256:\n{}", verified.file_digest().aloud());
    Ok(())
}

fn digest(path: &Path) -> Result<(), SealTaskError> {
    let digest = keys::digest(path)?;
    print!("{}\n{digest}\n{}", path.display(), digest.aloud());
    Ok(())
}
