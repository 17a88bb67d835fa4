//! Recordings that are played where a text would else be spoken by the synthetic voice.
//!
//! Invariant: a recording is found by its whole text and its language only, so it never says other
//! words than those asked for. It must not know files: whoever adds a recording brings a function
//! that opens it.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

use crate::segment::spoken;

/// An opened recording.
pub struct Sound {
    /// Samples a second.
    pub rate: u32,
    /// The samples, of one channel, in pieces; an error where it can't be decoded on.
    pub samples: Box<dyn Iterator<Item = Result<Vec<i16>, Unreadable>> + Send>,
}

/// A recording can't be opened or decoded on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unreadable;

/// Opens a recording, each time from its beginning.
pub type Open = Arc<dyn Fn() -> Result<Sound, Unreadable> + Send + Sync>;

/// The recordings of an election.
#[derive(Clone, Default)]
pub struct Recordings {
    by_language: BTreeMap<String, BTreeMap<String, Recording>>,
}

impl Recordings {
    /// Adds the recording of a text exactly as it is spoken; of two for one text the later counts.
    pub fn add(&mut self, text: &str, language: &str, open: Open) {
        let texts = self.by_language.entry(language.to_ascii_lowercase()).or_default();
        texts.insert(key(text), Recording(open));
    }

    /// Whether any text of this language has a recording.
    pub fn has_language(&self, language: &str) -> bool {
        self.by_language.contains_key(&language.to_ascii_lowercase())
    }

    /// The recording of this text.
    pub(crate) fn find(&self, text: &str, language: &str) -> Option<&Recording> {
        let texts = self.by_language.get(&language.to_ascii_lowercase())?;
        texts.get(&key(text))
    }
}

impl fmt::Debug for Recordings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let count: usize = self.by_language.values().map(BTreeMap::len).sum();
        f.debug_struct("Recordings").field("count", &count).finish()
    }
}

/// One recording.
#[derive(Clone)]
pub(crate) struct Recording(Open);

impl Recording {
    /// Its sound from the beginning.
    pub(crate) fn open(&self) -> Result<Sound, Unreadable> {
        (self.0)()
    }
}

impl PartialEq for Recording {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl Eq for Recording {}

impl fmt::Debug for Recording {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Recording")
    }
}

/// A text as a voice gets it, without the comma that only tells it to go on.
fn key(text: &str) -> String {
    spoken(text).trim_end_matches(',').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recording_is_found_by_its_whole_text_and_language() {
        let mut recordings = Recordings::default();
        recordings.add("Maria  Okafor", "zh-Hant", Arc::new(|| Err(Unreadable)));
        assert!(recordings.find("\u{2068}Maria Okafor\u{2069},", "zh-hant").is_some());
        for (text, language) in
            [("Maria Okafor.", "zh-Hant"), ("Maria", "zh-Hant"), ("Maria Okafor", "zh"), ("", "en")]
        {
            assert!(recordings.find(text, language).is_none(), "{text}, {language}");
        }
        assert!(recordings.has_language("zh-Hant") && !recordings.has_language("en"));
        assert_eq!(format!("{recordings:?}"), "Recordings { count: 1 }");
    }
}
