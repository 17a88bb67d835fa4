//! Paper without a printer: PDF bytes, and poppler's pictures of them. Poppler shares no code with
//! the station's own rasteriser, so a fault in one can't hide in the other.
#![expect(
    clippy::disallowed_methods,
    reason = "tests run poppler and the independent scripts as processes of their own"
)]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use evenhand_marks::{Alphabet, Dpi, Reader, SpecimenRow};
use evenhand_print::{Marks, alphabet_pdf, pdf};
use evenhand_rules::{Selections, Style};
use evenhand_scan::{PrintedBytes, Scanner};
use evenhand_sheet::Ballot;
use image::GrayImage;

/// Dots an inch of every picture here: what a ballot scanner usually takes.
pub const RESOLUTION: u16 = 200;

/// The PDF of a ballot with these selections; without any, the blank one.
pub fn printed(ballot: &Ballot, style: &Style, selections: Option<&Selections>) -> Vec<u8> {
    let marks = selections.map(|selections| Marks::of(selections, style));
    pdf(ballot, marks.as_ref()).expect("the ballot prints")
}

/// Every page as poppler draws it, in grey.
pub fn rasterised(document: &[u8], dpi: u16) -> Vec<GrayImage> {
    let mut poppler = Command::new("pdftoppm")
        .args(["-r", &dpi.to_string(), "-gray", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("pdftoppm runs: install poppler-utils");
    // Poppler takes in the whole document before it draws, so writing first can't block.
    let mut input = poppler.stdin.take().expect("it was piped");
    input.write_all(document).expect("poppler takes the document");
    drop(input);
    let output = poppler.wait_with_output().expect("poppler ends");
    assert!(output.status.success(), "pdftoppm: {}", output.status);
    grey_maps(&output.stdout)
}

/// Every page as the demo's scanner sees it, in grey.
pub fn scanned(document: &[u8], dpi: u16) -> Vec<GrayImage> {
    let mut scanner = PrintedBytes::new(document.to_vec(), evenhand_scan::Dpi(dpi));
    let sides = scanner.scan().expect("the station's own print can be scanned");
    sides.into_iter().map(|side| side.picture).collect()
}

/// The look of the printer's letters.
pub fn alphabet() -> Alphabet {
    let specimen = alphabet_pdf().expect("the alphabet prints");
    let picture = scanned(&specimen.pdf, RESOLUTION).remove(0);
    let rows: Vec<SpecimenRow<'_>> = specimen
        .rows
        .iter()
        .map(|row| SpecimenRow { cells: &row.cells, characters: &row.characters })
        .collect();
    Alphabet::from_picture(&picture, Dpi(RESOLUTION), &rows).expect("the alphabet can be learned")
}

/// The reader of a ballot, which knows its blank as the demo's scanner sees it.
pub fn reader(ballot: &Ballot, style: &Style) -> Reader {
    let blanks = scanned(&printed(ballot, style, None), RESOLUTION);
    Reader::new(ballot, &blanks, Dpi(RESOLUTION), alphabet()).expect("the blank reads as blank")
}

/// Portable grey maps one after another (Netpbm's raw PGM, "P5"), as poppler writes pages.
fn grey_maps(mut bytes: &[u8]) -> Vec<GrayImage> {
    let mut pages = Vec::new();
    while !bytes.is_empty() {
        let mut fields = Vec::new();
        while fields.len() < 4 {
            let end = bytes.iter().position(u8::is_ascii_whitespace).expect("a header has fields");
            fields.push(std::str::from_utf8(&bytes[..end]).expect("a header is text").to_owned());
            bytes = &bytes[end + 1..];
        }
        let number = |at: usize| fields[at].parse::<u32>().expect("a header has numbers");
        assert_eq!((fields[0].as_str(), number(3)), ("P5", 255), "a grey map of one byte a pixel");
        let (width, height) = (number(1), number(2));
        let size = usize::try_from(u64::from(width) * u64::from(height)).expect("it fits");
        let (pixels, rest) = bytes.split_at(size);
        bytes = rest;
        pages.push(GrayImage::from_raw(width, height, pixels.to_vec()).expect("the size is right"));
    }
    pages
}

/// Runs one of the independent Python scripts, by the Python in `EVENHAND_PYTHON` if that is set,
/// and hands out what it printed.
///
/// # Errors
/// What it printed, where it ended with anything but success.
pub fn python(script: &str, arguments: &[&Path]) -> Result<String, String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("independent").join(script);
    let python = std::env::var_os("EVENHAND_PYTHON").unwrap_or_else(|| "python3".into());
    let output = Command::new(&python)
        .arg(path)
        .args(arguments)
        .output()
        .map_err(|error| format!("{} doesn't run: {error}", python.display()))?;
    let text = String::from_utf8_lossy(&output.stdout).into_owned()
        + &String::from_utf8_lossy(&output.stderr);
    if output.status.success() { Ok(text) } else { Err(format!("{script}: {text}")) }
}
