//! What tests measured, for the table that is made of it.

use std::io::Write as _;

/// Adds `name<TAB>value` to the file that `EVENHAND_FIGURES` names, if it is set.
///
/// # Panics
/// The file can't be written.
pub fn note(name: &str, value: &str) {
    let Some(path) = std::env::var_os("EVENHAND_FIGURES") else { return };
    let mut file = std::fs::OpenOptions::new()
        .create(true)
        .append(true)
        .open(&path)
        .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    // One write, so that tests that run beside one another don't mix their lines.
    file.write_all(format!("{name}\t{value}\n").as_bytes()).expect("the figures can be written");
}
