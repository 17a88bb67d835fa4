//! What tests have measured, for a table that is made from their own results.

use std::fs::OpenOptions;
use std::io::Write as _;

/// Appends a line `name`, a tab, `value` to the file that the environment variable
/// `EVENHAND_FIGURES` names; does nothing where it names none.
///
/// # Panics
/// The file can't be written: figures that are lost without a word would leave an old table.
#[expect(clippy::expect_used, reason = "see above")]
pub fn note(name: &str, value: &str) {
    let Some(path) = std::env::var_os("EVENHAND_FIGURES") else { return };
    let line = format!("{}\t{}\n", on_one_line(name), on_one_line(value));
    let file = OpenOptions::new().create(true).append(true).open(&path);
    // In one write, so that lines of several tests don't mix.
    file.and_then(|mut file| file.write_all(line.as_bytes()))
        .expect("the file that EVENHAND_FIGURES names can be written");
}

/// The text without the signs that part lines and columns.
fn on_one_line(text: &str) -> String {
    text.split(['\t', '\n', '\r']).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::on_one_line;

    #[test]
    fn a_line_stays_one_line_of_two_columns() {
        assert_eq!(on_one_line("a\tb\nc\r\nd"), "a b c  d");
    }
}
