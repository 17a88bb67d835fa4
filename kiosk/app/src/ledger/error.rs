//! Why the ledger can't be opened or written, with what to do. The sentences are for the log of the
//! machine and for the office; what a worker reads on the screen comes from the locales.

use std::io;
use std::path::{Path, PathBuf};

use evenhand_event_log::limits::FILE_BYTES_MAX;
use evenhand_event_log::{AppendError, KeyError, Label, RecoverError};
use thiserror::Error;

/// Why the ledger can't be opened or written.
#[derive(Debug, Error)]
pub enum LedgerError {
    /// A file or the folder can't be made, read or written. What was to be noted isn't.
    #[error("{path}: {why}. See that the station's folder is there and can be written to.")]
    File {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// There is no room left. What was to be noted isn't.
    #[error(
        "{path}: the storage is full. Begin no visit; make room on the disk, or use another station."
    )]
    StorageFull {
        /// The file.
        path: PathBuf,
    },
    /// Writing failed, and so did taking back what was written of it.
    #[error(
        "{path}: {why}. It isn't known whether what was to be noted stands in it; the next call looks. See that the disk is sound."
    )]
    Unsure {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// Another process has the folder.
    #[error(
        "{path}: another station writes in this folder. Close it, or give this one its own folder."
    )]
    InUse {
        /// The folder.
        path: PathBuf,
    },
    /// Others than the station's own user may read or write.
    #[error(
        "{path}: others may use it (mode {mode:o}). Find out who could have; then `chmod {wanted:o}` it."
    )]
    OthersMay {
        /// The file or the folder.
        path: PathBuf,
        /// Its mode.
        mode: u32,
        /// What it must be.
        wanted: u32,
    },
    /// A file is longer than it can be.
    #[error("{path}: it has more than {most} bytes, so it isn't the station's. {ANEW}")]
    TooLarge {
        /// The file.
        path: PathBuf,
        /// The most it may have.
        most: usize,
    },
    /// There is a log, and no key.
    #[error(
        "{path}: the station's key is gone, and its log is there. Put the key back; where it is lost, put the whole folder away, and publish the key of the new one that the station then makes."
    )]
    KeyLost {
        /// The key's file.
        path: PathBuf,
    },
    /// The key's file holds no key.
    #[error("{path}: {why}")]
    BadKey {
        /// The key's file.
        path: PathBuf,
        /// What is wrong.
        why: KeyError,
    },
    /// No random numbers for a key.
    #[error("the system gives no random numbers for the station's key. Start the machine anew.")]
    NoChance,
    /// The station was used, and its log is gone.
    #[error("{path}: the station's log is gone. Put it back where it was moved. {ANEW}")]
    LogLost {
        /// The log's file.
        path: PathBuf,
    },
    /// The log can't be taken up.
    #[error("{path}: {why}")]
    Log {
        /// The log's file.
        path: PathBuf,
        /// What is wrong, and what to do.
        why: RecoverError,
    },
    /// The log on the disk lacks what was written to it.
    #[error(
        "{path}: entries that this station wrote are gone from its log. Stop using the station and keep its folder for the election office."
    )]
    Shortened {
        /// The log's file.
        path: PathBuf,
    },
    /// The folder is another station's.
    #[error(
        "{path}: the log is of station {there}, and this is station {given}. Give this station its own folder."
    )]
    OtherStation {
        /// The log's file.
        path: PathBuf,
        /// The station that the log names.
        there: Label,
        /// The station that this is.
        given: Label,
    },
    /// The counts of sheets are gone.
    #[error("{path}: the counts of printed sheets are gone. Put the file back. {ANEW}")]
    SheetsLost {
        /// The file.
        path: PathBuf,
    },
    /// The counts of sheets can't be read.
    #[error("{path}: {why}. Put the right file back, or move this one away. {ANEW}")]
    BadSheets {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        why: String,
    },
    /// More files put aside than is sane.
    #[error(
        "{path}: there are too many files that were put aside. Look why the station loses power, and move them to the election office."
    )]
    TooManyAside {
        /// The folder.
        path: PathBuf,
    },
    /// The log doesn't take it. Nothing was written.
    #[error(transparent)]
    Refused(#[from] AppendError),
    /// An event that has a call of its own. Nothing was written.
    #[error("\"{id}\" is noted by `{call}`, which knows what belongs to it.")]
    OwnCall {
        /// The event's id.
        id: &'static str,
        /// The call.
        call: &'static str,
    },
    /// Polls are open. Nothing was written.
    #[error("polls are open. Close them first.")]
    PollsOpen,
    /// Polls aren't open. Nothing was written.
    #[error("polls aren't open. Open them first.")]
    PollsClosed,
    /// A visit is going on. Nothing was written.
    #[error("a visit is going on. Finish or stop it first.")]
    InVisit,
}

/// What to do where the log can't go on.
const ANEW: &str = "Else keep the folder as it is, ask the election office, and begin a new log (evenhand new-log).";

impl LedgerError {
    /// What the system said of a file.
    pub(super) fn of_file(path: &Path, why: io::Error) -> Self {
        let path = path.to_owned();
        if is_full(&why) { Self::StorageFull { path } } else { Self::File { path, why } }
    }

    /// The log is longer than a log may be.
    pub(super) fn too_large(path: &Path, most: usize) -> Self {
        let path = path.to_owned();
        if most == FILE_BYTES_MAX {
            return Self::Log { path, why: RecoverError::TooLong };
        }
        Self::TooLarge { path, most }
    }
}

fn is_full(why: &io::Error) -> bool {
    matches!(why.kind(), io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded)
}
