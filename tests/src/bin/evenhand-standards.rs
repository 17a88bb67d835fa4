//! Writes the page of standards' rows with the figures that the tests have measured.
//!
//! `evenhand-standards ROWS FIGURES` reads the rows (tab-separated, `#` opens a comment) and the file
//! that `EVENHAND_FIGURES` named during the tests, and prints the page. A row whose figures are missing
//! is an error: a page with old figures would be worse than none.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a small program that reads two files and prints a page"
)]

use std::collections::BTreeMap;
use std::fs;
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let (Some(rows), Some(figures)) = (arguments.next(), arguments.next()) else {
        eprintln!("evenhand-standards ROWS FIGURES");
        return ExitCode::FAILURE;
    };
    match page(&rows, &figures) {
        Ok(page) => {
            print!("{page}");
            ExitCode::SUCCESS
        }
        Err(fault) => {
            eprintln!("evenhand-standards: {fault}");
            ExitCode::FAILURE
        }
    }
}

fn page(rows: &str, figures: &str) -> Result<String, String> {
    let read = |path: &str| fs::read_to_string(path).map_err(|error| format!("{path}: {error}"));
    let figures: BTreeMap<String, String> = read(figures)?
        .lines()
        .filter_map(|line| line.split_once('\t'))
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect();
    let mut page = String::from(HEAD);
    for line in read(rows)?.lines().filter(|line| !line.starts_with('#')) {
        let cells: Vec<&str> = line.split('\t').collect();
        let [requirement, source, how, state, test, wanted] = cells[..] else {
            return Err(format!("a row has {} cells, not 6: {line}", cells.len()));
        };
        let seen = seen(&figures, wanted).map_err(|name| {
            format!("no test has told \"{name}\", which stands in: {requirement}")
        })?;
        let cells = [requirement, source, how, state, test, &seen];
        page.push_str("| ");
        page.push_str(&cells.join(" | "));
        page.push_str(" |\n");
    }
    Ok(page)
}

const HEAD: &str = "# Standards that apply, and what the tests measured

Written by `tests/run` from the tests' own results; not to be edited by hand (its rows are in
`rows.tsv` beside it). Not a claim of conformance: this is not certified equipment, and where a
number is from memory the standard's own text was not at hand.

| requirement | source, and where its number is from | how it is met | state | test | measured |
|---|---|---|---|---|---|
";

/// The figures of a row: names parted by `|`, where `*` stands for any end.
fn seen(figures: &BTreeMap<String, String>, wanted: &str) -> Result<String, String> {
    if wanted == "-" {
        return Ok("–".to_owned());
    }
    let mut parts = Vec::new();
    for name in wanted.split('|') {
        let found: Vec<String> = figures
            .iter()
            .filter(|(known, _)| match name.strip_suffix('*') {
                Some(start) => known.starts_with(start),
                None => known.as_str() == name,
            })
            .map(|(known, value)| format!("{known}: {value}"))
            .collect();
        if found.is_empty() {
            return Err(name.to_owned());
        }
        parts.extend(found);
    }
    Ok(parts.join("; "))
}
