//! Every case under `tests/bad-definitions/`: a good file with edits, and the error that the
//! station must give, which names object, id, field, line and remedy.
//!
//! A case is a file of `key: value` lines: `about`, then edits (`in` an anchor, after which the
//! first `replace` becomes `with`, that `times`; `{n}` in it counts), `at` (a text whose line the
//! error must name, found independently of the loader) and `expect`. In values `\n`, `\\` and
//! `\xNN` stand for a line end, a backslash and a byte. `base` names the good file.
//! `UPDATE_GOLDEN=1` writes `expect`; a case without it, and a folder without cases, fail.
#![expect(clippy::disallowed_methods, reason = "tests read cases and the environment")]
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test's helpers may"
)]

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use evenhand_definitions::{DefinitionError, load, settings};
use evenhand_rules::Language;

/// Fewer error cases than this, and some were lost.
const ERRORS_MIN: usize = 45;

struct Case {
    base: String,
    edits: Vec<Edit>,
    at: String,
    expect: Option<String>,
}

#[derive(Default)]
struct Edit {
    anchor: Option<Vec<u8>>,
    replace: Vec<u8>,
    with: Vec<u8>,
    times: usize,
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("bad-definitions")
}

fn unescape(value: &str) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut rest = value.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'\\' {
            bytes.push(byte);
            continue;
        }
        match rest.next().expect("something follows a backslash") {
            b'n' => bytes.push(b'\n'),
            b'\\' => bytes.push(b'\\'),
            b'x' => {
                let digits = [rest.next().expect("a digit"), rest.next().expect("a digit")];
                let digits = std::str::from_utf8(&digits).expect("two hexadecimal digits");
                bytes.push(u8::from_str_radix(digits, 16).expect("two hexadecimal digits"));
            }
            other => panic!("\\{} is no escape", char::from(other)),
        }
    }
    bytes
}

fn parse(text: &str) -> Case {
    let (mut base, mut at, mut expect) = ("base.json".to_owned(), None, None);
    let mut edits: Vec<Edit> = Vec::new();
    let mut anchor = None;
    let mut about = false;
    for line in text.lines().filter(|line| !line.is_empty()) {
        let (key, value) = line.split_once(':').expect("each line is `key: value`");
        let value = value.strip_prefix(' ').unwrap_or(value);
        match key {
            "about" => about = true,
            "base" => value.clone_into(&mut base),
            "in" => anchor = Some(unescape(value)),
            "replace" => {
                let (anchor, replace) = (anchor.take(), unescape(value));
                edits.push(Edit { anchor, replace, times: 1, ..Edit::default() });
            }
            "with" => edits.last_mut().expect("replace comes first").with = unescape(value),
            "times" => {
                edits.last_mut().expect("replace comes first").times =
                    value.parse().expect("a number");
            }
            "at" => at = Some(value.to_owned()),
            "expect" => expect = Some(value.to_owned()),
            other => panic!("{other} is no key"),
        }
    }
    assert!(about, "a case says what it is about");
    Case { base, edits, at: at.expect("a case says where"), expect }
}

fn find(text: &[u8], part: &[u8], from: usize) -> Option<usize> {
    text[from..].windows(part.len()).position(|window| window == part).map(|at| at + from)
}

impl Case {
    fn edited(&self) -> Vec<u8> {
        let mut text = fs::read(folder().join(&self.base)).expect("the base is there");
        for edit in &self.edits {
            let from = edit.anchor.as_ref().map_or(0, |anchor| {
                let at = find(&text, anchor, 0).expect("the anchor is in the base");
                assert!(find(&text, anchor, at + 1).is_none(), "the anchor is there once");
                at
            });
            let at = find(&text, &edit.replace, from).expect("what is replaced is in the base");
            let with: Vec<u8> = (0..edit.times)
                .flat_map(|n| {
                    let mut piece = edit.with.clone();
                    while let Some(at) = find(&piece, b"{n}", 0) {
                        piece.splice(at..at + 3, n.to_string().into_bytes());
                    }
                    piece
                })
                .collect();
            text.splice(at..at + edit.replace.len(), with);
        }
        text
    }

    /// The line of `at`, after the last edit's anchor where there is one.
    fn line(&self, text: &[u8]) -> Option<u32> {
        if self.at == "(none)" {
            return None;
        }
        let anchor = self.edits.last().and_then(|edit| edit.anchor.as_ref());
        let from = anchor.and_then(|anchor| find(text, anchor, 0)).unwrap_or(0);
        let at = find(text, &unescape(&self.at), from).expect("`at` is in the edited file");
        let lines = text[..at].split(|byte| *byte == b'\n').count();
        Some(u32::try_from(lines).expect("a short file"))
    }
}

/// What the loader says, as one line, and the line of the file that it names.
fn outcome(text: &[u8]) -> (String, Option<u32>, bool) {
    match load(text) {
        Err(error) => {
            if let DefinitionError::Object { place, .. } = &error {
                assert!(!place.class.is_empty(), "an error names the class");
            }
            (error.to_string(), error.line(), true)
        }
        Ok(loaded) => {
            let election = loaded.election();
            let mut said = String::from("loads:");
            for style in &election.styles {
                let shown: Vec<String> = style
                    .contests()
                    .map(|(_, contest)| format!("{}/{}", contest.options.len(), contest.limit()))
                    .collect();
                write!(said, " {} ({})", style.code, shown.join(" ")).expect("a string takes it");
            }
            for refused in &election.refused {
                write!(
                    said,
                    "; refused {}: {}: {}",
                    refused.style, refused.contest, refused.reason
                )
                .expect("a string takes it");
            }
            let languages: Vec<&str> = election.languages.iter().map(Language::tag).collect();
            write!(said, "; in {}", languages.join(", ")).expect("a string takes it");
            (said, None, false)
        }
    }
}

fn settings_outcome(text: &[u8]) -> (String, Option<u32>, bool) {
    match settings(text) {
        Err(error) => (error.to_string(), None, true),
        Ok(settings) => (format!("reads: {settings:?}"), None, false),
    }
}

#[test]
fn every_case_gets_its_error() {
    let update = std::env::var("UPDATE_GOLDEN").is_ok_and(|value| value == "1");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder())
        .expect("the folder of cases is there")
        .map(|entry| entry.expect("the folder can be read").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "case"))
        .collect();
    paths.sort();
    let mut errors = 0;
    let mut failures = Vec::new();
    for path in &paths {
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        let written = fs::read_to_string(path).expect("the case can be read");
        let case = parse(&written);
        let text = case.edited();
        let is_settings = case.base.contains("settings");
        let (said, line, is_error) =
            if is_settings { settings_outcome(&text) } else { outcome(&text) };
        errors += usize::from(is_error);
        if !is_settings && line != case.line(&text) {
            failures.push(format!("{name}: line {line:?}, wanted {:?}: {said}", case.line(&text)));
        }
        if update {
            let kept = written.lines().filter(|line| !line.starts_with("expect:"));
            let kept = kept.collect::<Vec<_>>().join("\n");
            fs::write(path, format!("{kept}\nexpect: {said}\n")).expect("the case can be written");
        } else if case.expect.as_deref() != Some(said.as_str()) {
            failures.push(format!("{name}:\n  wanted {:?}\n  got    {said}", case.expect));
        }
    }
    assert!(failures.is_empty(), "{} cases failed:\n{}", failures.len(), failures.join("\n"));
    assert!(errors >= ERRORS_MIN, "only {errors} cases of errors");
    println!("{} cases, {errors} of them errors", paths.len());
}
