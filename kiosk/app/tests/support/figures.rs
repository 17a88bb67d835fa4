//! Figures that a test has measured, for whoever writes the report: where `EVENHAND_FIGURES` names a
//! file, each is a line at its end, its name and its value with a tab between them.

use std::fs::OpenOptions;
use std::io::Write;

/// Notes one figure.
pub(crate) fn note(name: &str, value: &str) {
    let Some(path) = std::env::var_os("EVENHAND_FIGURES") else { return };
    let mut file = OpenOptions::new().create(true).append(true).open(path).unwrap();
    // One write, so that tests beside each other don't mix their lines.
    file.write_all(format!("{name}\t{value}\n").as_bytes()).unwrap();
}
