//! The station's own program, opened on a display for a test.
#![expect(
    clippy::disallowed_methods,
    reason = "it starts the station, waits for its window, and reads what the system knows of it"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// How long a window may take to open in a debug build on a busy machine.
const OPENS_WITHIN: Duration = Duration::from_secs(30);

/// How long a visit may outlive its station.
const ENDS_WITHIN: Duration = Duration::from_secs(5);

/// The station's program, which lies in the folder that the running test or benchmark was built in.
///
/// # Errors
/// It isn't there: a sentence that says how to build it.
pub fn program() -> Result<PathBuf, String> {
    let this = std::env::current_exe().map_err(|error| error.to_string())?;
    // target/PROFILE/deps/this
    let folder = this.ancestors().nth(2).ok_or("the test lies in no target folder")?;
    let program = folder.join("evenhand");
    if program.exists() {
        return Ok(program);
    }
    Err(format!("{}: build it first: cargo build -p evenhand-app", program.display()))
}

/// A folder that goes with this value.
#[derive(Debug)]
pub struct Room(PathBuf);

impl Room {
    /// Makes a folder of this name, this process's own.
    ///
    /// # Errors
    /// What the system says.
    pub fn new(name: &str) -> Result<Self, String> {
        let folder = std::env::temp_dir().join(format!("evenhand-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
        Ok(Self(folder))
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.0
    }

    /// What has this name in it.
    pub fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Room {
    fn drop(&mut self) {
        // Nobody needs what is left.
        drop(fs::remove_dir_all(&self.0));
    }
}

/// What a station is opened with.
#[derive(Clone, Debug)]
pub struct Opening<'a> {
    /// The station's program.
    pub program: &'a Path,
    /// The display's name.
    pub display: &'a str,
    /// The window's size in pixels.
    pub size: (u16, u16),
    /// The election's folder.
    pub election: &'a Path,
    /// The ballot style's code.
    pub style: &'a str,
    /// Where the log, the trace and the tray with printed ballots lie.
    pub folder: &'a Path,
    /// What the station was taught, if anything.
    pub station_file: Option<&'a Path>,
}

/// A station that ends with this value.
#[derive(Debug)]
pub struct Station {
    process: Child,
    folder: PathBuf,
}

impl Station {
    /// Starts the station. Its window may not be there yet.
    ///
    /// # Errors
    /// A sentence that says what couldn't be started.
    pub fn start(opening: &Opening<'_>) -> Result<Self, String> {
        let path = |name: &str| opening.folder.join(name);
        let log = fs::File::create(path("log")).map_err(|error| error.to_string())?;
        let (width, height) = opening.size;
        let process = Command::new(opening.program)
            .env("DISPLAY", opening.display)
            .args(["station", "--style", opening.style, "--ignore-again", "0"])
            .args(["--window", &format!("{width}x{height}")])
            .arg("--election")
            .arg(opening.election)
            .arg("--printer-folder")
            .arg(path("tray"))
            .arg("--trace")
            .arg(path("trace"))
            .args(
                opening
                    .station_file
                    .map(|file| ["--station-file".as_ref(), file.as_os_str()])
                    .into_iter()
                    .flatten(),
            )
            .stdout(log)
            .stderr(Stdio::inherit())
            .spawn()
            .map_err(|error| format!("{}: {error}; build it first", opening.program.display()))?;
        Ok(Self { process, folder: opening.folder.to_owned() })
    }

    /// The file in which the window notes what it shows.
    pub fn trace(&self) -> PathBuf {
        self.folder.join("trace")
    }

    /// Waits until the window has drawn its first screen.
    ///
    /// # Errors
    /// It didn't within 30 s.
    pub fn wait_for_window(&self) -> Result<(), String> {
        wait("the window did not open", || {
            let trace = fs::read_to_string(self.trace()).unwrap_or_default();
            trace.contains("settled").then_some(())
        })
    }

    /// The process's id.
    pub fn id(&self) -> u32 {
        self.process.id()
    }

    /// The process of the visit that is under way.
    ///
    /// # Errors
    /// There is none within 30 s.
    pub fn visit(&self) -> Result<u32, String> {
        wait("no visit began", || child_of(self.id()))
    }

    /// The process of the visit that comes after this one.
    ///
    /// # Errors
    /// There is none within 30 s.
    pub fn visit_after(&self, last: u32) -> Result<u32, String> {
        wait("the next visit did not open", || child_of(self.id()).filter(|next| *next != last))
    }
}

impl Drop for Station {
    fn drop(&mut self) {
        let visit = child_of(self.id());
        // It may have ended by itself.
        drop(self.process.kill());
        drop(self.process.wait());
        // The visit falls silent and ends by itself when its station is gone. It is waited for, since
        // a test's next window would share the display with it.
        let until = Instant::now() + ENDS_WITHIN;
        while visit.is_some_and(|visit| memory_of(visit).is_ok()) && Instant::now() < until {
            std::thread::sleep(Duration::from_millis(5));
        }
    }
}

fn wait<T>(what: &str, ready: impl Fn() -> Option<T>) -> Result<T, String> {
    let until = Instant::now() + OPENS_WITHIN;
    loop {
        match ready() {
            Some(value) => return Ok(value),
            None if Instant::now() > until => return Err(what.to_owned()),
            None => std::thread::sleep(Duration::from_millis(5)),
        }
    }
}

/// The process whose parent is this one: the fourth field of `/proc/PID/stat` (proc(5)).
fn child_of(parent: u32) -> Option<u32> {
    let entries = fs::read_dir("/proc").ok()?;
    let ids = entries.filter_map(|entry| entry.ok()?.file_name().to_str()?.parse::<u32>().ok());
    let mut children = ids.filter(|id| {
        let stat = fs::read_to_string(format!("/proc/{id}/stat")).unwrap_or_default();
        let after_name = stat.rsplit(')').next().unwrap_or_default();
        let mut fields = after_name.split_whitespace();
        // A process that has ended stays listed (Z) until its parent has asked for it.
        let is_alive = fields.next().is_some_and(|state| state != "Z");
        is_alive && fields.next().and_then(|id| id.parse().ok()) == Some(parent)
    });
    children.next()
}

/// What a process holds in memory, in KiB: now, and at most so far (`VmRSS` and `VmHWM` in proc(5)).
///
/// # Errors
/// The process is gone.
pub fn memory_of(process: u32) -> Result<(u64, u64), String> {
    let path = format!("/proc/{process}/status");
    let status = fs::read_to_string(&path).map_err(|error| format!("{path}: {error}"))?;
    let field = |name: &str| {
        let line = status.lines().find_map(|line| line.strip_prefix(name));
        line.and_then(|line| line.trim().strip_suffix(" kB")?.parse().ok())
    };
    field("VmRSS:").zip(field("VmHWM:")).ok_or_else(|| format!("{path} doesn't say"))
}
