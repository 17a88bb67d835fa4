//! A print service of a test's own: CUPS on a unix socket in a folder of its own, with one printer
//! whose backend is a script. What the script gets is the paper that comes out.

use std::fs::{self, Permissions};
use std::os::unix::fs::{PermissionsExt as _, symlink};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::devices::service::{ServicePrinter, service_printers};

/// The printer's program. It waits while there is trouble, saying so as CUPS's own programs do
/// (manual page `backend(7)`), and never takes back what it said: CUPS is left to forget it.
const BACKEND: &str = r#"#!/bin/sh
here=${DEVICE_URI#play:}
[ $# -ge 5 ] || exit 0
if [ $# -ge 6 ]; then exec <"$6"; fi
[ ! -e "$here/breaks" ] || exit 1
while [ -e "$here/trouble" ]; do
    echo "STATE: +$(cat "$here/trouble" 2>/dev/null)" >&2
    sleep 0.05
done
[ ! -e "$here/slow" ] || sleep "$(cat "$here/slow")"
printf '%s\n' "$3|$4|$5" >>"$here/options"
cat >"$here/coming"
mv "$here/coming" "$here/sheet-$1.pdf"
if [ -e "$here/rasterise" ]; then
    rm -f "$here"/turn "$here"/side-*
    pdftoppm -r 200 -gray "$here/sheet-$1.pdf" "$here/side"
fi
"#;

/// The service, which ends with this value.
pub(crate) struct PrintService {
    process: Child,
    folder: PathBuf,
}

/// The program, or none where it isn't installed and needn't be.
///
/// # Panics
/// It isn't installed, and `CI` says that all tests must run.
pub(crate) fn need(program: &str, package: &str) -> Option<PathBuf> {
    let folders = ["/usr/sbin", "/usr/bin", "/usr/local/bin"].map(Path::new);
    let found = folders.iter().map(|folder| folder.join(program)).find(|path| path.exists());
    if found.is_none() {
        assert!(std::env::var_os("CI").is_none(), "{program} is missing: install {package}");
        eprintln!("skipped: {program} is not installed ({package})");
    }
    found
}

/// A number that no other folder of this run has.
fn next() -> u32 {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    NEXT.fetch_add(1, Ordering::Relaxed)
}

/// A folder beside what was built, which the next run empties.
pub(crate) fn kept_folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}-{}", next()));
    if folder.exists() {
        fs::remove_dir_all(&folder).unwrap();
    }
    fs::create_dir_all(&folder).unwrap();
    folder
}

/// A folder that no other test has. Whoever takes it removes it.
pub(crate) fn folder(name: &str) -> PathBuf {
    let number = next();
    // A socket's path may have 107 bytes: not every checkout lies so near the top.
    let folder =
        std::env::temp_dir().join(format!("evenhand-{name}-{}-{number}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    fs::set_permissions(&folder, Permissions::from_mode(0o711)).unwrap();
    folder
}

impl PrintService {
    /// Starts it; none where CUPS isn't installed and needn't be.
    pub(crate) fn start() -> Option<Self> {
        let program = need("cupsd", "cups-daemon")?;
        let folder = folder("cups");
        let at = |name: &str| folder.join(name);
        for part in
            ["root", "bin/backend", "bin/daemon", "spool", "tmp", "cache", "state", "log", "out"]
        {
            fs::create_dir_all(at(part)).unwrap();
        }
        symlink("/usr/lib/cups/daemon/cups-exec", at("bin/daemon/cups-exec")).unwrap();
        fs::write(at("bin/backend/play"), BACKEND).unwrap();
        fs::set_permissions(at("bin/backend/play"), Permissions::from_mode(0o700)).unwrap();
        let here = folder.display();
        // Files are kept as CUPS keeps them by default, so that it shows who removes them.
        let service = format!(
            "Listen {here}/cups.sock\nBrowsing No\nWebInterface No\nDefaultAuthType None\n\
             LogLevel debug\nPreserveJobFiles 1d\nPreserveJobHistory Yes\n\
             <Location />\nOrder allow,deny\nAllow all\n</Location>\n\
             <Policy default>\n<Limit All>\nOrder deny,allow\n</Limit>\n</Policy>\n"
        );
        fs::write(at("cupsd.conf"), service).unwrap();
        let files = format!(
            "ServerRoot {here}/root\nServerBin {here}/bin\nRequestRoot {here}/spool\n\
             TempDir {here}/tmp\nCacheDir {here}/cache\nStateDir {here}/state\n\
             AccessLog {here}/log/access\nErrorLog {here}/log/error\nPageLog {here}/log/page\n"
        );
        fs::write(at("cups-files.conf"), files).unwrap();
        let printer = format!(
            "<Printer ballots>\nInfo Ballot printer\nDeviceURI play:{here}/out\nState Idle\n\
             Accepting Yes\nErrorPolicy abort-job\n</Printer>\n\
             <Printer asleep>\nInfo Stopped printer\nDeviceURI play:{here}/out\nState Stopped\n\
             Accepting Yes\n</Printer>\n"
        );
        fs::write(at("root/printers.conf"), printer).unwrap();
        let process = Command::new(program)
            .arg("-f")
            .args(["-c".into(), at("cupsd.conf"), "-s".into(), at("cups-files.conf")])
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let service = Self { process, folder };
        service.wait("the service", || service_printers(&service.socket()).is_ok());
        Some(service)
    }

    pub(crate) fn socket(&self) -> PathBuf {
        self.folder.join("cups.sock")
    }

    pub(crate) fn printer(&self) -> ServicePrinter {
        ServicePrinter::new(self.socket(), "ballots".parse().unwrap())
    }

    /// Where the script finds its troubles and leaves what it printed.
    pub(crate) fn out(&self, name: &str) -> PathBuf {
        self.folder.join("out").join(name)
    }

    pub(crate) fn set(&self, name: &str, content: &str) {
        fs::write(self.out(name), content).unwrap();
    }

    pub(crate) fn unset(&self, name: &str) {
        fs::remove_file(self.out(name)).unwrap();
    }

    /// Every sheet that came out, in the order of its name.
    pub(crate) fn sheets(&self) -> Vec<Vec<u8>> {
        let mut found: Vec<PathBuf> = fs::read_dir(self.folder.join("out"))
            .unwrap()
            .map(|file| file.unwrap().path())
            .filter(|path| path.extension().is_some_and(|end| end == "pdf"))
            .collect();
        found.sort();
        found.iter().map(|path| fs::read(path).unwrap()).collect()
    }

    /// What the service keeps of jobs: files that hold documents.
    pub(crate) fn spooled(&self) -> Vec<PathBuf> {
        let all = ["spool", "tmp"].map(|part| fs::read_dir(self.folder.join(part)).unwrap());
        let files = all.into_iter().flatten().map(|file| file.unwrap().path());
        // CUPS's own names: `d…` is a document, `c…` what is known of a job.
        let is_control = |path: &PathBuf| {
            path.file_name().is_some_and(|name| name.as_encoded_bytes().starts_with(b"c"))
        };
        files.filter(|path| path.is_file() && !is_control(path)).collect()
    }

    /// Whether any file of the service's own holds this.
    pub(crate) fn holds(&self, content: &[u8]) -> bool {
        let mut folders: Vec<PathBuf> =
            ["spool", "tmp", "cache", "state", "log"].map(|part| self.folder.join(part)).into();
        while let Some(folder) = folders.pop() {
            for entry in fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    folders.push(path);
                } else if path.is_file() {
                    let bytes = fs::read(&path).unwrap_or_default();
                    if bytes.windows(content.len()).any(|window| window == content) {
                        return true;
                    }
                }
            }
        }
        false
    }

    pub(crate) fn wait(&self, what: &str, mut is_so: impl FnMut() -> bool) {
        let until = Instant::now() + Duration::from_secs(10);
        while !is_so() {
            let log = || fs::read_to_string(self.folder.join("log/error")).unwrap_or_default();
            assert!(Instant::now() < until, "waited for {what}:\n{}", log());
            sleep(Duration::from_millis(20));
        }
    }
}

impl Drop for PrintService {
    fn drop(&mut self) {
        // It may have ended by itself.
        drop(self.process.kill());
        drop(self.process.wait());
        if std::thread::panicking() {
            let log = fs::read_to_string(self.folder.join("log/error")).unwrap_or_default();
            let ours = |line: &&str| {
                (line.contains("[Job") && !line.contains("STATE")) || line.starts_with('E')
            };
            log.lines().filter(ours).for_each(|line| eprintln!("{line}"));
        }
        drop(fs::remove_dir_all(&self.folder));
    }
}
