//! Pictures of a PDF by poppler's `pdftoppm`, a rasteriser that shares nothing with ours.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stderr,
    reason = "tests hand files to poppler and qpdf, and say when those aren't there"
)]

use std::path::PathBuf;
use std::process::{Command, Output};

use evenhand_rules::Micrometres;

/// One page in shades of grey, 0 black to 255 white.
pub struct Picture {
    /// Pixels in a row.
    pub width: usize,
    /// Rows.
    pub height: usize,
    /// Rows top down.
    pub pixels: Vec<u8>,
    dpi: u32,
}

impl Picture {
    /// A distance on paper in pixels.
    pub fn pixels(&self, distance: Micrometres) -> f64 {
        f64::from(distance.0) * f64::from(self.dpi) / 25_400.0
    }
    /// The shade of a pixel.
    pub fn at(&self, x: usize, y: usize) -> u8 {
        self.pixels[y * self.width + x]
    }
}

/// True where a program is there; else says that this test is skipped.
pub fn has(program: &str, test: &str) -> bool {
    let found = Command::new(program).arg("--version").output().is_ok();
    if !found {
        eprintln!("skipped: {test} needs {program}");
    }
    found
}

/// A file in the tests' own folder.
pub fn file(name: &str, bytes: &[u8]) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, bytes).unwrap();
    path
}

/// Runs a program on a file.
pub fn run(program: &str, arguments: &[&str], file: &std::path::Path) -> Output {
    Command::new(program).args(arguments).arg(file).output().unwrap()
}

/// Every page of a PDF at this many dots per inch.
pub fn pictures(name: &str, pdf: &[u8], dpi: u32) -> Vec<Picture> {
    let path = file(name, pdf);
    let resolution = dpi.to_string();
    let output = run("pdftoppm", &["-gray", "-r", &resolution], &path);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let mut rest = output.stdout.as_slice();
    let mut pages = Vec::new();
    while !rest.is_empty() {
        let (picture, after) = pgm(rest, dpi);
        pages.push(picture);
        rest = after;
    }
    pages
}

/// Reads one binary PGM picture and hands out what follows it.
fn pgm(bytes: &[u8], dpi: u32) -> (Picture, &[u8]) {
    let mut at = 0;
    let mut words = Vec::new();
    while words.len() < 4 {
        let end = at + bytes[at..].iter().position(u8::is_ascii_whitespace).unwrap();
        words.push(std::str::from_utf8(&bytes[at..end]).unwrap());
        at = end + 1;
    }
    assert_eq!((words[0], words[3]), ("P5", "255"));
    let (width, height) = (words[1].parse().unwrap(), words[2].parse().unwrap());
    let end = at + width * height;
    (Picture { width, height, pixels: bytes[at..end].to_vec(), dpi }, &bytes[end..])
}

/// What a program left in a file.
pub fn read(path: &std::path::Path) -> Vec<u8> {
    std::fs::read(path).unwrap()
}
