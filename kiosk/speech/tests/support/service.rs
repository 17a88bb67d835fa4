//! The private speech service: whether it is there, its daemons' ids, ending and starting them.
#![expect(clippy::disallowed_methods, reason = "tests end and start daemons by hand")]

use std::path::PathBuf;
use std::process::Command;

/// The service's folder if `demo/speech-service start` set up this environment, else none.
pub(crate) fn folder() -> Option<PathBuf> {
    let wanted = std::env::var_os("EVENHAND_SPEECH_TESTS").is_some();
    wanted.then(|| std::env::var_os("EVENHAND_SPEECH_DIR").map(PathBuf::from)).flatten()
}

/// The process id of a daemon that the service started.
pub(crate) fn id(daemon: &str) -> String {
    let file = folder().expect("only asked when it is there").join(format!("{daemon}.pid"));
    std::fs::read_to_string(&file).expect("the service keeps it").trim().to_owned()
}

/// Sends a signal to a daemon.
pub(crate) fn signal(daemon: &str, signal: &str) {
    let status = Command::new("kill").arg(signal).arg(id(daemon)).status().expect("kill runs");
    assert!(status.success(), "kill {signal} {daemon}");
}

/// Starts whatever isn't running.
pub(crate) fn start() {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/speech-service");
    let output = Command::new(script)
        .arg("start")
        .arg(folder().expect("only asked when it is there"))
        .output()
        .expect("the script runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}
