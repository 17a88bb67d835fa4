//! A real scanner, by SANE's program `scanimage`: it is started for one ballot, and its pictures come
//! through pipes into memory.
//!
//! Invariant: no picture lies on a disk. The program can feed several sheets only into files of its
//! own naming, so the names that it will use are pipes before it starts, in a folder that only this
//! user can enter. Bytes and time are limited; what takes too long is ended.
#![expect(clippy::disallowed_methods, reason = "the app is the crate that starts programs")]

use std::fs::{self, DirBuilder, File, OpenOptions};
use std::io::{self, Read};
use std::os::unix::fs::{DirBuilderExt as _, MetadataExt as _, OpenOptionsExt as _};
use std::os::unix::process::CommandExt as _;
use std::path::PathBuf;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use crossbeam_channel::{Receiver, bounded};
use evenhand_printers::Paper;
use evenhand_scan::{
    BYTES_MAX, Ended, GivenPicture, GivenPictures, LIST_BYTES_MAX, LIST_FORMAT, PAGES_MAX,
    RESOLUTION_USUAL, ScanError, Scanner as _, ScannerChoice, SheetPicture, found_scanners, ways,
    without_empty_back,
};
use rustix::fs::{CWD, FileType, Mode, OFlags, mknodat};
use rustix::process::{Pid, Signal, getuid, kill_process_group};

use super::service::pause;

/// The program, wherever the system has it.
const PROGRAM_USUAL: &str = "scanimage";
/// How long a ballot may take in all: 32 sides on a slow scanner that has to warm up. Own choice.
const SCAN_MAX: Duration = Duration::from_mins(3);
/// How long a side may take to begin, or to go on once it has begun.
const STILL_MAX: Duration = Duration::from_secs(40);
/// How long the list of devices, and of one's options, may take: SANE asks every driver it has.
const LIST_MAX: Duration = Duration::from_secs(40);
/// How often pipes and program are looked at: a pipe holds 64 KiB, so this is 30 MB a second.
const LOOK_EVERY: Duration = Duration::from_millis(2);
/// How much of what the program says is kept.
const SAID_BYTES_MAX: u64 = 4_096;
/// How much of a picture is read at once.
const CHUNK: usize = 64 * 1024;

/// The program, and where it finds its settings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScanProgram {
    /// Its name or its file.
    pub program: PathBuf,
    /// A folder in place of the system's own (SANE's `SANE_CONFIG_DIR`).
    pub settings: Option<PathBuf>,
}

impl Default for ScanProgram {
    fn default() -> Self {
        Self { program: PROGRAM_USUAL.into(), settings: None }
    }
}

impl ScanProgram {
    /// The scanners that the system knows, each once for each of its sources: how it is called, and
    /// what is kept of it. Takes some seconds.
    ///
    /// # Errors
    /// [`ScanError::Device`]: the program isn't there, fails, or takes too long.
    pub fn scanners(&self) -> Result<Vec<(String, ScannerChoice)>, ScanError> {
        let mut all = Vec::new();
        for found in found_scanners(&self.answer(&["-f", LIST_FORMAT])?) {
            // A device that doesn't tell its options now can't be used now.
            let device = found.device.as_str();
            let Ok(options) = self.answer(&["--device-name", device, "--all-options"]) else {
                continue;
            };
            for (source, choice) in ways(&found, &options) {
                let parts = [found.about.as_str(), source.as_str(), device];
                let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
                all.push((parts.join(", "), choice));
            }
        }
        Ok(all)
    }

    /// Takes pictures of the sheets of this paper that lie in the scanner.
    ///
    /// # Errors
    /// [`ScanError`].
    pub fn scan(
        &self,
        choice: &ScannerChoice,
        paper: Paper,
    ) -> Result<Vec<SheetPicture>, ScanError> {
        let until = Instant::now() + SCAN_MAX;
        let sides = usize::from(paper.sides);
        let runs = if choice.feeds() { 1 } else { sides };
        let mut pictures = Vec::new();
        for _ in 0..runs {
            pictures.extend(self.run(choice, paper, until)?);
        }
        let given = |bytes| GivenPicture { bytes, dpi: RESOLUTION_USUAL };
        let seen = GivenPictures::new(pictures.into_iter().map(given).collect()).scan()?;
        Ok(if choice.feeds() { without_empty_back(seen, sides) } else { seen })
    }

    /// One run of the program: the bytes of each picture.
    fn run(
        &self,
        choice: &ScannerChoice,
        paper: Paper,
        until: Instant,
    ) -> Result<Vec<Vec<u8>>, ScanError> {
        let pages = if choice.feeds() { PAGES_MAX } else { 1 };
        let pipes = Pipes::make(pages).map_err(|error| device(&error))?;
        // Thousandths of an inch to tenths of a millimetre.
        let tenths = |mil: u32| mil.saturating_mul(254) / 1_000;
        let size = (tenths(paper.width_mil), tenths(paper.length_mil));
        let mut program =
            Program::start(self, &choice.arguments(size, &pipes.pattern()), Stdio::null())?;
        pipes.note(&program).map_err(|error| device(&error))?;
        let taken = take(&pipes, pages, &mut program, until);
        let (status, said) = program.end();
        let pictures = taken?;
        let code = status.ok().and_then(|status| status.code());
        Ended { code, said, pictures: pictures.len() }.check()?;
        Ok(pictures)
    }

    /// What the program answers on its standard output.
    fn answer(&self, words: &[&str]) -> Result<Vec<u8>, ScanError> {
        let words: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
        let mut program = Program::start(self, &words, Stdio::piped())?;
        let output = program.child.stdout.take();
        let (give, answered) = bounded(1);
        let read = move || {
            let mut bytes = Vec::new();
            let limit = u64::try_from(LIST_BYTES_MAX).unwrap_or(u64::MAX);
            let read = output.map_or(Ok(0), |pipe| pipe.take(limit).read_to_end(&mut bytes));
            // Nobody waits any more where it took too long.
            give.send(read.map(|_| bytes)).unwrap_or_default();
        };
        let reading = thread::Builder::new().name("scanner-list".to_owned()).spawn(read);
        reading.map_err(|error| device(&error))?;
        let read = answered.recv_timeout(LIST_MAX);
        let (status, said) = program.end();
        let Ok(read) = read else {
            return Err(ScanError::Device { detail: "it takes too long to answer".to_owned() });
        };
        let read = read.map_err(|error| device(&error))?;
        match status {
            Ok(status) if status.success() => Ok(read),
            // "No device" is an answer without a line.
            Ok(_) if read.is_empty() && said.contains("no SANE devices") => Ok(read),
            Ok(_) | Err(_) => Err(ScanError::Device { detail: said }),
        }
    }
}

/// Takes what comes through the pipes until the program has ended.
fn take(
    pipes: &Pipes,
    pages: usize,
    program: &mut Program,
    until: Instant,
) -> Result<Vec<Vec<u8>>, ScanError> {
    let mut pictures: Vec<Vec<u8>> = Vec::new();
    let mut piece = vec![0; CHUNK];
    for side in 1..=pages {
        let mut pipe = pipes.open(side).map_err(|error| device(&error))?;
        let mut picture: Vec<u8> = Vec::new();
        let mut last = Instant::now();
        loop {
            // Looked at before the pipe is: what a program has written before it ended is there.
            let is_over = program.is_over();
            match pipe.read(&mut piece) {
                Ok(0) if !picture.is_empty() => break,
                Ok(0) if is_over => return Ok(pictures),
                Ok(0) => {}
                Ok(count) => {
                    picture.extend_from_slice(piece.get(..count).unwrap_or_default());
                    last = Instant::now();
                    if picture.len() > BYTES_MAX {
                        return Err(ScanError::TooManyBytes { side, found: picture.len() });
                    }
                    continue;
                }
                Err(error) if error.kind() == io::ErrorKind::WouldBlock => {}
                Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
                Err(error) => return Err(device(&error)),
            }
            let now = Instant::now();
            if now >= until || now.duration_since(last) >= STILL_MAX {
                let detail = "it takes too long".to_owned();
                return Err(ScanError::Device { detail });
            }
            pause(LOOK_EVERY);
        }
        pictures.push(picture);
    }
    Ok(pictures)
}

fn device(error: &io::Error) -> ScanError {
    ScanError::Device { detail: error.to_string() }
}

/// The program while it runs. It doesn't outlive this value.
struct Program {
    child: Child,
    said: Receiver<String>,
}

impl Program {
    fn start(how: &ScanProgram, words: &[String], output: Stdio) -> Result<Self, ScanError> {
        let settings = how.settings.iter().map(|folder| ("SANE_CONFIG_DIR", folder));
        let started = Command::new(&how.program)
            .envs(settings)
            .args(words)
            // A group of its own: drivers start programs too, and these are ended with it.
            .process_group(0)
            .stdin(Stdio::null())
            .stdout(output)
            .stderr(Stdio::piped())
            .spawn();
        let mut child = started.map_err(|error| {
            let detail = if error.kind() == io::ErrorKind::NotFound {
                format!("there is no {}: install SANE's sane-utils", how.program.display())
            } else {
                error.to_string()
            };
            ScanError::Device { detail }
        })?;
        let errors = child.stderr.take();
        // Read to its end, however much it is, so that the program never waits for us.
        let (tell, said) = bounded(1);
        let listen = move || {
            // Nobody listens any more where the program was ended.
            tell.send(errors.map(last_line).unwrap_or_default()).unwrap_or_default();
        };
        let program = Self { child, said };
        let listening = thread::Builder::new().name("scanner-says".to_owned()).spawn(listen);
        listening.map_err(|error| device(&error))?;
        Ok(program)
    }

    fn is_over(&mut self) -> bool {
        // A program that can't be asked is as good as gone.
        self.child.try_wait().map_or(true, |status| status.is_some())
    }

    /// Ends it where it hasn't ended, and gives how it did and what it said last.
    fn end(&mut self) -> (io::Result<ExitStatus>, String) {
        // One that has closed its pipes ends in a moment, with its own code.
        let until = Instant::now() + Duration::from_millis(500);
        while !self.is_over() && Instant::now() < until {
            pause(LOOK_EVERY);
        }
        self.kill();
        let status = self.child.wait();
        // What it started has been ended with it; what got away isn't waited for.
        let said = self.said.recv_timeout(Duration::from_secs(1));
        (status, said.unwrap_or_default())
    }

    /// Ends it and all that it started.
    fn kill(&mut self) {
        let group = i32::try_from(self.child.id()).ok().and_then(Pid::from_raw);
        if let Some(group) = group {
            // Where all of it has ended by itself, that is as well.
            kill_process_group(group, Signal::KILL).unwrap_or_default();
        }
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        self.kill();
        drop(self.child.wait());
    }
}

/// The last line that isn't the program's count of pages, of the first few kilobytes.
fn last_line(mut errors: impl Read) -> String {
    let mut kept = Vec::new();
    // What can't be read was not said.
    errors.by_ref().take(SAID_BYTES_MAX).read_to_end(&mut kept).unwrap_or_default();
    io::copy(&mut errors, &mut io::sink()).unwrap_or_default();
    let text = String::from_utf8_lossy(&kept);
    let is_count = |line: &&str| line.starts_with("Batch terminated") || line.starts_with("Scan");
    let mut said = text.lines().map(str::trim).filter(|line| !line.is_empty());
    said.rfind(|line| !is_count(line)).unwrap_or_default().to_owned()
}

/// Ends the program that a process which has ended has left, with all that it started, and takes
/// its pipes away. A visit that a worker stops doesn't wait for its devices.
///
/// # Errors
/// What the system says of pipes that can't be taken away.
pub fn end_what_was_left(process: u32) -> io::Result<()> {
    let begins = format!("evenhand-scan-{process}-");
    for entry in fs::read_dir(std::env::temp_dir())? {
        let entry = entry?;
        let is_own = entry.metadata()?.uid() == getuid().as_raw();
        if !is_own || !entry.file_name().to_string_lossy().starts_with(&begins) {
            continue;
        }
        let group = fs::read_to_string(entry.path().join(GROUP)).unwrap_or_default();
        if let Some(group) = group.trim().parse().ok().and_then(Pid::from_raw) {
            // It may have ended by itself.
            kill_process_group(group, Signal::KILL).unwrap_or_default();
        }
        fs::remove_dir_all(entry.path())?;
    }
    Ok(())
}

/// The file beside the pipes that names the program's group.
const GROUP: &str = "group";

/// Pipes by the names that the program will write to. They go with this value.
struct Pipes {
    folder: PathBuf,
}

impl Pipes {
    fn make(pages: usize) -> io::Result<Self> {
        let folder = new_folder()?;
        let pipes = Self { folder };
        for side in 1..=pages {
            mknodat(CWD, pipes.path(side), FileType::Fifo, Mode::RUSR | Mode::WUSR, 0)?;
        }
        Ok(pipes)
    }

    /// Notes whose they are, for whoever finds them left.
    fn note(&self, program: &Program) -> io::Result<()> {
        fs::write(self.folder.join(GROUP), program.child.id().to_string())
    }

    fn pattern(&self) -> String {
        self.folder.join("%d").display().to_string()
    }

    /// The program writes to the name with `.part` behind it, and renames that in the end.
    fn path(&self, side: usize) -> PathBuf {
        self.folder.join(format!("{side}.part"))
    }

    /// Doesn't wait for a writer.
    fn open(&self, side: usize) -> io::Result<File> {
        let flags = i32::try_from(OFlags::NONBLOCK.bits()).unwrap_or_default();
        OpenOptions::new().read(true).custom_flags(flags).open(self.path(side))
    }
}

impl Drop for Pipes {
    fn drop(&mut self) {
        // Empty pipes that are left hold nothing.
        drop(fs::remove_dir_all(&self.folder));
    }
}

/// A folder that wasn't there and that nobody else can enter.
fn new_folder() -> io::Result<PathBuf> {
    let top = std::env::temp_dir();
    let own = std::process::id();
    for number in 0..1_000 {
        let folder = top.join(format!("evenhand-scan-{own}-{number}"));
        match DirBuilder::new().mode(0o700).create(&folder) {
            Ok(()) => return Ok(folder),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(io::Error::other("no folder for the scanner's pipes: empty the temporary folder"))
}
