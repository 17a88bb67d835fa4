//! What the office does with the list of workers: add one with a code, and show who is in it.
//!
//! Invariant: a code is typed or read, hashed, and wiped; it is never shown, printed or written.
//! The list is written whole or not at all.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a command line opens the files that it is told to, and prints"
)]

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::os::unix::fs::OpenOptionsExt as _;
use std::path::{Path, PathBuf};

use clap::{Subcommand, ValueEnum};
use evenhand_definitions::limits::{CODE_LEN_MAX, CODE_LEN_MIN, WORKERS_BYTES_MAX};
use evenhand_definitions::{Code, CodeError, Role, Workers, WorkersError};
use ring::rand::{SecureRandom as _, SystemRandom};
use thiserror::Error;
use zeroize::Zeroizing;

/// The longest file with a code: its digits, a line end, and a little more to say what is wrong.
const CODE_BYTES_MAX: u64 = 64;

#[derive(Subcommand)]
pub(crate) enum WorkerTask {
    /// Add a worker to the list, which is made where there is none. The code, 6 to 12 digits, is
    /// asked for twice and not shown.
    Add {
        /// The name, as it stands on the worker's badge.
        #[arg(long)]
        name: String,
        /// What the worker may do.
        #[arg(long, value_enum)]
        role: RoleWord,
        /// The list, a file of its own (`evenhand day --workers`).
        #[arg(long)]
        to: PathBuf,
        /// Take the code from this file instead: one line. For scripts; remove the file afterwards.
        #[arg(long)]
        code_file: Option<PathBuf>,
    },
    /// Say who is in the list. Codes can't be shown: nobody has them.
    List {
        /// The list.
        file: PathBuf,
    },
}

/// A role, as it is typed.
#[derive(Clone, Copy, ValueEnum)]
pub(crate) enum RoleWord {
    /// A poll worker.
    Worker,
    /// The lead poll worker.
    Lead,
    /// A technician of the election office.
    Technician,
}

/// What went wrong, and what to do.
#[derive(Debug, Error)]
pub(crate) enum WorkerError {
    #[error("{0}: {1}. Give the list of workers, which `worker add` makes.")]
    Read(PathBuf, io::Error),
    #[error("{0}: {1}. Give a file in a folder that can be written. The list is as it was.")]
    Write(PathBuf, io::Error),
    #[error(
        "{0} is there: somebody else is writing the list, or was stopped while doing so. Where nobody is, remove it."
    )]
    Beside(PathBuf),
    #[error("--code-file {0}: {1}. Give a file with the code's digits in one line.")]
    CodeFile(PathBuf, io::Error),
    #[error("--code-file {0}: the file holds no text of one line. Give the code's digits only.")]
    CodeFileText(PathBuf),
    #[error("no code can be asked for here ({0}). Run this at a terminal, or give --code-file.")]
    Terminal(io::Error),
    #[error("the two codes differ. Nothing was changed; begin again.")]
    Differ,
    #[error("the system gives no random numbers. Nothing was changed; start the machine anew.")]
    NoChance,
    #[error(transparent)]
    Code(#[from] CodeError),
    #[error(transparent)]
    List(#[from] WorkersError),
}

pub(crate) fn run(task: WorkerTask) -> Result<(), WorkerError> {
    match task {
        WorkerTask::Add { name, role, to, code_file } => {
            add(&name, role.into(), &to, code_file.as_deref())
        }
        WorkerTask::List { file } => list(&file),
    }
}

impl From<RoleWord> for Role {
    fn from(word: RoleWord) -> Self {
        match word {
            RoleWord::Worker => Self::Worker,
            RoleWord::Lead => Self::Lead,
            RoleWord::Technician => Self::Technician,
        }
    }
}

fn word(role: Role) -> &'static str {
    match role {
        Role::Worker => "worker",
        Role::Lead => "lead",
        Role::Technician => "technician",
    }
}

fn add(name: &str, role: Role, to: &Path, code_file: Option<&Path>) -> Result<(), WorkerError> {
    let code = code_file.map_or_else(typed, from_file)?;
    let mut salt = [0; 16];
    SystemRandom::new().fill(&mut salt).map_err(|_| WorkerError::NoChance)?;
    // From here on no other call can write the list, so none of two is lost.
    let beside = Beside::new(to)?;
    let list = match read(to) {
        Err(WorkerError::Read(_, why)) if why.kind() == io::ErrorKind::NotFound => {
            Workers::default()
        }
        read => read?,
    };
    let list = list.with(name, role, &code, salt)?;
    beside.write(list.to_json().as_bytes())?;
    if let Some(added) = list.list().last() {
        println!("Added {}, {}.", added.name, word(added.role));
    }
    println!("{} lists {} worker(s).", to.display(), list.list().len());
    Ok(())
}

fn list(file: &Path) -> Result<(), WorkerError> {
    for worker in read(file)?.list() {
        println!("{}, {}", worker.name, word(worker.role));
    }
    Ok(())
}

/// A code typed twice at the terminal, not shown.
fn typed() -> Result<Code, WorkerError> {
    let ask = |prompt: String| {
        rpassword::prompt_password(prompt).map(Zeroizing::new).map_err(WorkerError::Terminal)
    };
    let first = ask(format!("Code, {CODE_LEN_MIN} to {CODE_LEN_MAX} digits (not shown): "))?;
    let code = Code::new(&first)?;
    let second = ask("The same code again: ".to_owned())?;
    if *first == *second { Ok(code) } else { Err(WorkerError::Differ) }
}

fn from_file(path: &Path) -> Result<Code, WorkerError> {
    // As much room as is ever needed: a buffer that grew would leave parts of the code behind.
    let mut bytes = Zeroizing::new(Vec::with_capacity(128));
    File::open(path)
        .and_then(|file| file.take(CODE_BYTES_MAX).read_to_end(&mut bytes))
        .map_err(|why| WorkerError::CodeFile(path.to_owned(), why))?;
    let text =
        std::str::from_utf8(&bytes).map_err(|_| WorkerError::CodeFileText(path.to_owned()))?;
    let line = text.strip_suffix('\n').unwrap_or(text);
    if line.contains('\n') {
        return Err(WorkerError::CodeFileText(path.to_owned()));
    }
    Ok(Code::new(line.strip_suffix('\r').unwrap_or(line))?)
}

/// Reads one byte more than the limit at most: the list then says that it is too long.
fn read(path: &Path) -> Result<Workers, WorkerError> {
    let mut bytes = Vec::new();
    let most = WORKERS_BYTES_MAX as u64 + 1;
    File::open(path)
        .and_then(|file| file.take(most).read_to_end(&mut bytes))
        .map_err(|why| WorkerError::Read(path.to_owned(), why))?;
    Ok(Workers::read(&bytes)?)
}

/// The new list while it is written: a file beside the old one, which takes its place at the end.
/// It is there from before the old one is read, so that two calls can't lose each other's worker.
struct Beside<'a> {
    path: PathBuf,
    to: &'a Path,
    file: File,
    is_done: bool,
}

impl<'a> Beside<'a> {
    fn new(to: &'a Path) -> Result<Self, WorkerError> {
        let path = to.with_extension("json.new");
        // Hashes are for the office's eyes only.
        let made = OpenOptions::new().write(true).create_new(true).mode(0o600).open(&path);
        match made {
            Ok(file) => Ok(Self { path, to, file, is_done: false }),
            Err(why) if why.kind() == io::ErrorKind::AlreadyExists => {
                Err(WorkerError::Beside(path))
            }
            Err(why) => Err(WorkerError::Write(path, why)),
        }
    }

    /// Whole or not at all, also where the power fails meanwhile.
    fn write(mut self, bytes: &[u8]) -> Result<(), WorkerError> {
        let folder = self.to.parent().filter(|folder| !folder.as_os_str().is_empty());
        let folder = folder.unwrap_or_else(|| Path::new("."));
        let written = (|| {
            // A list that others were let read stays so.
            if let Ok(old) = fs::metadata(self.to) {
                self.file.set_permissions(old.permissions())?;
            }
            self.file.write_all(bytes)?;
            self.file.sync_all()?;
            fs::rename(&self.path, self.to)?;
            self.is_done = true;
            File::open(folder)?.sync_all()
        })();
        written.map_err(|why| WorkerError::Write(self.to.to_owned(), why))
    }
}

impl Drop for Beside<'_> {
    fn drop(&mut self) {
        if !self.is_done {
            // Where this fails too the next call says what lies there, and what to do.
            drop(fs::remove_file(&self.path));
        }
    }
}
