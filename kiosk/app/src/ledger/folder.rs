//! The station's folder: what lies in it, who may see it, and how its files are written so that a
//! loss of power at any moment leaves each of them whole, or its end unfinished.
//!
//! Invariant: while a `StationFolder` lives, no other process of ours has the folder; nobody but
//! the station's own user can read or write in it. A file that is replaced is written beside, synced
//! and then renamed. It must not know what an entry or a count means.
//!
//! | file | what it is |
//! |---|---|
//! | `station.key` | the station's key pair, PKCS#8, mode 0600 |
//! | `log.txt` | the log that is being written |
//! | `log-1.txt`, … | the logs before, in their order; `log.txt` names the last one's head digest |
//! | `sheets.json` | the counts of sheets that no entry holds |
//! | `before.json` | the digests of the program and of the station's file at the last start |
//! | `reserve.bin` | room for the log's last words where the storage is full |
//! | `cut-1.bin`, … | what was cut off the log's end, as it was |
//! | `….new` | a file that was being written; of no meaning but for [`StationFolder::finish`] |
#![expect(clippy::disallowed_methods, reason = "the app is the crate that opens files")]

use std::fs::{self, DirBuilder, File, OpenOptions, TryLockError};
use std::io::{self, Read as _, Write as _};
use std::os::unix::fs::{DirBuilderExt as _, OpenOptionsExt as _, PermissionsExt as _};
use std::path::{Path, PathBuf};

use evenhand_event_log::limits::FILE_BYTES_MAX;
use evenhand_event_log::{Digest, Head, Log, Moment, StationKey};
use ring::rand::{SecureRandom as _, SystemRandom};
use zeroize::Zeroizing;

use super::error::LedgerError;

/// The log that is being written.
pub(super) const LOG: &str = "log.txt";
/// The counts of sheets.
pub(super) const SHEETS: &str = "sheets.json";
/// What the station ran with at its last start.
pub(super) const BEFORE: &str = "before.json";
/// Room that is given free where the storage is full.
const RESERVE: &str = "reserve.bin";
/// Its bytes: an entry, its checkpoint and the signature need some hundreds; a file system gives
/// room by blocks.
const RESERVE_BYTES: usize = 16 * 1024;
const KEY: &str = "station.key";
const NEW_LOG: &str = "log.txt.new";

/// The longest key file: PKCS#8 of Ed25519 has 48 to 83 bytes (RFC 8410).
const KEY_BYTES_MAX: usize = 1024;
/// What stands before the seed in the PKCS#8 of an Ed25519 key (RFC 8410, section 7).
const KEY_START: [u8; 16] =
    [0x30, 0x2e, 2, 1, 0, 0x30, 5, 6, 3, 0x2b, 0x65, 0x70, 4, 0x22, 4, 0x20];
/// The bytes of the seed (RFC 8032, section 5.1.5).
const SEED_LEN: usize = 32;
/// The most files of one kind that are put aside: a station that lost power every hour of a year
/// while writing would have fewer.
const ASIDE_MAX: u32 = 9_999;

/// The folder, locked for this process.
#[derive(Debug)]
pub(super) struct StationFolder {
    path: PathBuf,
    /// The folder itself: locked while it is open, and synced where names change.
    handle: File,
}

impl StationFolder {
    /// Makes the folder where there is none, and locks it.
    pub(super) fn open(path: &Path) -> Result<Self, LedgerError> {
        let failed = |why| LedgerError::of_file(path, why);
        match DirBuilder::new().mode(0o700).create(path) {
            Ok(()) => sync_parent(path).map_err(failed)?,
            Err(why) if why.kind() == io::ErrorKind::AlreadyExists => {}
            Err(why) => return Err(failed(why)),
        }
        let handle = File::open(path).map_err(failed)?;
        let found = handle.metadata().map_err(failed)?;
        if !found.is_dir() {
            return Err(failed(io::Error::from(io::ErrorKind::NotADirectory)));
        }
        refuse_others(path, found.permissions().mode(), 0o700)?;
        match handle.try_lock() {
            Ok(()) => Ok(Self { path: path.to_owned(), handle }),
            Err(TryLockError::WouldBlock) => Err(LedgerError::InUse { path: path.to_owned() }),
            Err(TryLockError::Error(why)) => Err(failed(why)),
        }
    }

    /// Locks the folder of a station; one that isn't there isn't made.
    pub(super) fn of_station(path: &Path) -> Result<Self, LedgerError> {
        match fs::metadata(path) {
            Ok(_) => Self::open(path),
            Err(why) => Err(LedgerError::of_file(path, why)),
        }
    }

    /// A file's path.
    pub(super) fn at(&self, name: &str) -> PathBuf {
        self.path.join(name)
    }

    /// What an error of one file says.
    pub(super) fn failed(&self, name: &str, why: io::Error) -> LedgerError {
        LedgerError::of_file(&self.at(name), why)
    }

    pub(super) fn has(&self, name: &str) -> Result<bool, LedgerError> {
        fs::exists(self.at(name)).map_err(|why| self.failed(name, why))
    }

    /// True where a station wrote here before: then its key and its log must be there.
    pub(super) fn is_used(&self) -> Result<bool, LedgerError> {
        Ok(self.has(SHEETS)? || self.newest("log-", ".txt")?.is_some())
    }

    /// Reads a file of so many bytes at most; nothing where there is none.
    pub(super) fn read(&self, name: &str, most: usize) -> Result<Option<Vec<u8>>, LedgerError> {
        let failed = |why| self.failed(name, why);
        let file = match File::open(self.at(name)) {
            Ok(file) => file,
            Err(why) if why.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(why) => return Err(failed(why)),
        };
        // Room for a whole key: a buffer that grew would leave parts of it behind.
        let mut bytes = Vec::with_capacity(most.min(KEY_BYTES_MAX).saturating_add(64));
        file.take(most as u64 + 1).read_to_end(&mut bytes).map_err(failed)?;
        if bytes.len() > most {
            return Err(LedgerError::too_large(&self.at(name), most));
        }
        Ok(Some(bytes))
    }

    /// Opens the log to append to it.
    pub(super) fn log(&self) -> Result<File, LedgerError> {
        let file = OpenOptions::new().append(true).open(self.at(LOG));
        file.map_err(|why| self.failed(LOG, why))
    }

    /// Replaces a file, or makes it: whole or not at all.
    pub(super) fn replace(&self, name: &str, bytes: &[u8]) -> Result<(), LedgerError> {
        let beside = format!("{name}.new");
        self.write_beside(&beside, bytes)?;
        self.rename(&beside, name)
    }

    /// The station's key; nothing where there is no file.
    pub(super) fn key(&self) -> Result<Option<StationKey>, LedgerError> {
        let Some(mut bytes) = self.read(KEY, KEY_BYTES_MAX)? else { return Ok(None) };
        let path = self.at(KEY);
        // Wiped by `from_pkcs8`, whatever follows.
        let key = StationKey::from_pkcs8(&mut bytes);
        let found = fs::metadata(&path).map_err(|why| self.failed(KEY, why))?;
        refuse_others(&path, found.permissions().mode(), 0o600)?;
        key.map(Some).map_err(|why| LedgerError::BadKey { path, why })
    }

    /// The station's key, where the station can't have lost it.
    pub(super) fn known_key(&self) -> Result<StationKey, LedgerError> {
        self.key()?.ok_or(LedgerError::KeyLost { path: self.at(KEY) })
    }

    /// Makes the station's key: an Ed25519 seed from the system's source of chance, in PKCS#8 of
    /// version 1, which openssl takes too. ring's own copy isn't wiped: ring offers no way to.
    pub(super) fn make_key(&self) -> Result<StationKey, LedgerError> {
        let mut bytes = Zeroizing::new([0; KEY_START.len() + SEED_LEN]);
        let (start, seed) = bytes.split_at_mut(KEY_START.len());
        start.copy_from_slice(&KEY_START);
        SystemRandom::new().fill(seed).map_err(|_| LedgerError::NoChance)?;
        self.replace(KEY, bytes.as_slice())?;
        self.known_key()
    }

    /// Puts a log's first bytes in the log's place, and the log before it, where there is one,
    /// aside. A loss of power in between is mended by [`StationFolder::finish`].
    pub(super) fn begin_log(&self, bytes: &[u8]) -> Result<(), LedgerError> {
        self.write_beside(NEW_LOG, bytes)?;
        if self.has(LOG)? {
            let aside = self.next("log-", ".txt")?;
            self.rename(LOG, &aside)?;
        }
        self.rename(NEW_LOG, LOG)
    }

    /// Ends what a loss of power interrupted: a new log whose place is free takes it, where it
    /// follows the log that was put aside; other files that were being written are removed.
    pub(super) fn finish(&self, now: Moment) -> Result<(), LedgerError> {
        for name in [KEY, SHEETS, BEFORE] {
            self.remove(&format!("{name}.new"))?;
        }
        if !self.has(LOG)? && self.follows(now)? {
            return self.rename(NEW_LOG, LOG);
        }
        self.remove(NEW_LOG)
    }

    /// True where the new log is whole, this station's, and follows the newest one put aside.
    fn follows(&self, now: Moment) -> Result<bool, LedgerError> {
        let Some(bytes) = self.read(NEW_LOG, FILE_BYTES_MAX)? else { return Ok(false) };
        let Some(aside) = self.newest("log-", ".txt")? else { return Ok(false) };
        let Some(key) = self.key()? else { return Ok(false) };
        let before = self.read(&format!("log-{aside}.txt"), FILE_BYTES_MAX)?;
        let previous = before.as_deref().and_then(last_digest);
        Ok(Log::recover(key, &bytes, now)
            .is_ok_and(|(log, found)| found.cut == 0 && log.head().previous == previous))
    }

    /// Makes sure that there is room for the log's last words. Not zeros: a file system may give them
    /// no room.
    pub(super) fn reserve(&self) -> Result<(), LedgerError> {
        let there = fs::metadata(self.at(RESERVE)).map(|found| found.len());
        if there.is_ok_and(|length| length == RESERVE_BYTES as u64) {
            return Ok(());
        }
        let mut bytes = vec![0; RESERVE_BYTES];
        SystemRandom::new().fill(&mut bytes).map_err(|_| LedgerError::NoChance)?;
        self.write_beside(RESERVE, &bytes)
    }

    /// Gives that room free.
    pub(super) fn free_reserve(&self) -> Result<(), LedgerError> {
        self.remove(RESERVE)
    }

    /// Keeps bytes that are cut off the log, as they were.
    pub(super) fn keep_cut(&self, bytes: &[u8]) -> Result<(), LedgerError> {
        let name = self.next("cut-", ".bin")?;
        self.write_new(&name, bytes)?;
        self.sync(&name)
    }

    /// The name of the next file of a kind.
    fn next(&self, start: &str, end: &str) -> Result<String, LedgerError> {
        let number = self.newest(start, end)?.unwrap_or(0).saturating_add(1);
        if number > ASIDE_MAX {
            return Err(LedgerError::TooManyAside { path: self.path.clone() });
        }
        Ok(format!("{start}{number}{end}"))
    }

    /// The number of the newest file of a kind.
    fn newest(&self, start: &str, end: &str) -> Result<Option<u32>, LedgerError> {
        let failed = |why| LedgerError::of_file(&self.path, why);
        let mut newest = None;
        for entry in fs::read_dir(&self.path).map_err(failed)? {
            let name = entry.map_err(failed)?.file_name();
            let number = name
                .to_str()
                .and_then(|name| name.strip_prefix(start)?.strip_suffix(end)?.parse::<u32>().ok());
            newest = newest.max(number);
        }
        Ok(newest)
    }

    /// Writes a file that is renamed next; one that a write left behind that failed is removed.
    fn write_beside(&self, name: &str, bytes: &[u8]) -> Result<(), LedgerError> {
        self.remove(name)?;
        self.write_new(name, bytes)
    }

    /// Writes a file that isn't there, for the station's user only, and makes sure of its bytes. A
    /// file that can't be written whole is removed again.
    fn write_new(&self, name: &str, bytes: &[u8]) -> Result<(), LedgerError> {
        let path = self.at(name);
        let made = OpenOptions::new().write(true).create_new(true).mode(0o600).open(&path);
        let mut file = made.map_err(|why| self.failed(name, why))?;
        let written = file.write_all(bytes).and_then(|()| file.sync_all());
        written.map_err(|why| {
            // Where this fails too, `finish` removes it, or it lies there as a part of what was cut.
            drop(fs::remove_file(&path));
            self.failed(name, why)
        })
    }

    fn rename(&self, from: &str, to: &str) -> Result<(), LedgerError> {
        fs::rename(self.at(from), self.at(to)).map_err(|why| self.failed(to, why))?;
        self.sync(to)
    }

    /// The folder holds a new name only when it is written too.
    fn sync(&self, name: &str) -> Result<(), LedgerError> {
        self.handle.sync_all().map_err(|why| self.failed(name, why))
    }

    fn remove(&self, name: &str) -> Result<(), LedgerError> {
        match fs::remove_file(self.at(name)) {
            Err(why) if why.kind() != io::ErrorKind::NotFound => Err(self.failed(name, why)),
            Ok(()) | Err(_) => Ok(()),
        }
    }
}

/// The first bytes of a log: its head, and that the station runs, so that what it says of power can
/// be read without the log before it.
pub(super) fn first_bytes(
    key: StationKey,
    head: Head,
    now: Moment,
) -> Result<Vec<u8>, LedgerError> {
    let (mut log, mut bytes) = Log::start(key, head, now);
    bytes.extend(log.append(evenhand_event_log::Event::StationStarted, now)?);
    Ok(bytes)
}

/// The digest of the last whole line of a log.
pub(super) fn last_digest(bytes: &[u8]) -> Option<Digest> {
    let end = bytes.iter().rposition(|byte| *byte == b'\n')?;
    let whole = bytes.get(..end)?;
    let start = whole.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at.saturating_add(1));
    whole.get(start..).map(Digest::of)
}

fn refuse_others(path: &Path, mode: u32, wanted: u32) -> Result<(), LedgerError> {
    match mode & 0o077 {
        0 => Ok(()),
        _ => Err(LedgerError::OthersMay { path: path.to_owned(), mode: mode & 0o7777, wanted }),
    }
}

fn sync_parent(path: &Path) -> io::Result<()> {
    let parent = path.parent().filter(|parent| !parent.as_os_str().is_empty());
    File::open(parent.unwrap_or_else(|| Path::new(".")))?.sync_all()
}
