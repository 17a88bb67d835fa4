//! What the speech service was really given to say, from the file in which
//! `demo/speech-service start … --capture FILE` keeps every text for tests.
#![expect(clippy::disallowed_methods, reason = "it waits for words, and reads a test's file")]

use std::fs;
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// The longest wait for words to reach the service on a busy machine.
const WAIT_MAX: Duration = Duration::from_secs(30);

/// A listener to the file of texts. It begins at the file's end.
#[derive(Debug)]
pub struct Ears {
    file: PathBuf,
    lines_heard: usize,
}

impl Ears {
    /// Begins to listen.
    ///
    /// # Errors
    /// The file isn't there.
    pub fn open(file: PathBuf) -> Result<Self, String> {
        let mut ears = Self { file, lines_heard: 0 };
        ears.lines_heard = ears.texts()?.len();
        Ok(ears)
    }

    /// Waits until these words were given to the service, one after the other and without others
    /// between them, and returns the texts that it was given since: what a screen that came and went
    /// by itself has said before is left out.
    ///
    /// # Errors
    /// They weren't within 30 s.
    pub fn hear(&mut self, words: &[String]) -> Result<Vec<String>, String> {
        let wanted = letters(&words.concat());
        let until = Instant::now() + WAIT_MAX;
        loop {
            let texts = self.texts()?;
            let mut new = texts.get(self.lines_heard..).unwrap_or_default();
            if has(new, &wanted) {
                self.lines_heard = texts.len();
                while let Some((_, later)) = new.split_first()
                    && has(later, &wanted)
                {
                    new = later;
                }
                return Ok(new.to_vec());
            }
            if Instant::now() > until {
                return Err(format!("never said: {}; said: {}", words.join(" "), new.join(" | ")));
            }
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// The texts in the file: each line is a time, a tab and the text. A line that is still being
    /// written is left for the next look.
    fn texts(&self) -> Result<Vec<String>, String> {
        let name = self.file.display();
        let text = fs::read_to_string(&self.file).map_err(|error| format!("{name}: {error}"))?;
        let whole = text.rfind('\n').map_or("", |end| text.get(..end).unwrap_or_default());
        let texts = whole.lines().map(|line| line.split_once('\t').map_or(line, |(_, said)| said));
        Ok(texts.map(str::to_owned).collect())
    }
}

fn has(texts: &[String], wanted: &str) -> bool {
    letters(&texts.concat()).contains(wanted)
}

/// Letters and digits only: signs and spaces change on their way, as pauses.
fn letters(text: &str) -> String {
    text.chars().filter(|letter| letter.is_alphanumeric()).collect()
}
