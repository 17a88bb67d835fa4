//! What a person could read on a picture of the display: tesseract's eye.
#![expect(clippy::disallowed_methods, reason = "it runs a program")]

use std::io::{Cursor, Write as _};
use std::process::{Command, Stdio};

use image::{ImageFormat, RgbImage};

/// The fewest letters of a word that tells screens apart.
const LETTERS_MIN: usize = 5;

/// The text of a picture, as tesseract reads it.
///
/// # Errors
/// tesseract isn't there, or fails.
pub fn read_by_eye(picture: &RgbImage) -> Result<String, String> {
    let told = |error: &dyn std::fmt::Display| format!("reading a picture: {error}");
    let mut png = Cursor::new(Vec::new());
    picture.write_to(&mut png, ImageFormat::Png).map_err(|error| told(&error))?;
    let mut tesseract = Command::new("tesseract")
        .args(["stdin", "stdout", "--psm", "11"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(|error| told(&error))?;
    // It says nothing before it has read the whole picture; its input ends with this.
    let mut input = tesseract.stdin.take().ok_or("tesseract has no input")?;
    input.write_all(png.get_ref()).map_err(|error| told(&error))?;
    drop(input);
    let output = tesseract.wait_with_output().map_err(|error| told(&error))?;
    if !output.status.success() {
        return Err(told(&output.status));
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The longer words of a text, each once, in their order, in small letters.
pub fn long_words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split(|letter: char| !letter.is_alphabetic()) {
        let word = word.to_lowercase();
        if word.chars().count() >= LETTERS_MIN && !words.contains(&word) {
            words.push(word);
        }
    }
    words
}
