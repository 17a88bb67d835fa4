//! What a person could read on a picture of the display: tesseract's eye.
#![expect(clippy::disallowed_methods, reason = "it runs a program and gives it a file")]

use std::process::Command;

use image::RgbImage;

/// The fewest letters of a word that tells screens apart.
const LETTERS_MIN: usize = 5;

/// The text of a picture, as tesseract reads it.
///
/// # Errors
/// tesseract isn't there, or a file can't be written.
pub fn read_by_eye(picture: &RgbImage) -> Result<String, String> {
    let told = |error: &dyn std::fmt::Display| format!("reading a picture: {error}");
    let name = format!("evenhand-seen-{}.png", std::process::id());
    let path = std::env::temp_dir().join(name);
    picture.save(&path).map_err(|error| told(&error))?;
    let output = Command::new("tesseract").arg(&path).args(["stdout", "--psm", "11"]).output();
    let output = output.map_err(|error| told(&error))?;
    std::fs::remove_file(&path).map_err(|error| told(&error))?;
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
