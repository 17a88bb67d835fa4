//! Which texts of an election will be heard: those with a recording, and all where there is a voice.

use std::fmt;

use evenhand_rules::Language;

use crate::object::short;
use crate::sound::{Maker, SoundList};

/// Missing texts that a report quotes (own choice: enough to see what kind they are).
const QUOTED_MAX: usize = 3;
/// Characters of each.
const QUOTED_LEN_MAX: usize = 60;

/// The languages of `locales/` that the usual voice (espeak-ng 1.51) can't say: its own list has
/// neither. A station asks its own speech service instead.
const WITHOUT_USUAL_VOICE: [&str; 2] = ["fil", "km"];

/// What will be heard of one language. Shown, it is a report for the office.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Coverage {
    /// The language.
    pub language: Language,
    /// Whether a synthetic voice says what isn't recorded.
    pub has_voice: bool,
    /// How many texts there are.
    pub texts: usize,
    /// How many of them a person recorded.
    pub recorded: usize,
    /// How many of them a program made.
    pub generated: usize,
    /// The texts without a recording, in their order.
    pub unrecorded: Vec<String>,
}

impl Coverage {
    /// Whether the usual voice speaks a language, as far as is known without asking it.
    pub fn has_usual_voice(language: &Language) -> bool {
        let primary = language.tag().split('-').next().unwrap_or_default();
        !WITHOUT_USUAL_VOICE.contains(&primary)
    }

    /// Looks each text up in the list of recordings.
    pub fn of(list: &SoundList, language: &Language, texts: &[String], has_voice: bool) -> Self {
        let made = |text: &String| list.find(text, language).map(|entry| entry.made);
        let count = |maker| texts.iter().filter(|text| made(text) == Some(maker)).count();
        Self {
            language: language.clone(),
            has_voice,
            texts: texts.len(),
            recorded: count(Maker::Recorded),
            generated: count(Maker::Generated),
            unrecorded: texts.iter().filter(|text| made(text).is_none()).cloned().collect(),
        }
    }

    /// Whether anything won't be heard.
    pub fn is_incomplete(&self) -> bool {
        !self.has_voice && !self.unrecorded.is_empty()
    }
}

impl fmt::Display for Coverage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { language, texts, recorded, generated, .. } = self;
        write!(f, "{}: of {texts} texts {recorded} are recorded by a person", language.tag())?;
        if *generated > 0 {
            write!(f, " and {generated} made by a program (unreviewed)")?;
        }
        if self.has_voice {
            return write!(f, "; the synthetic voice says the others.");
        }
        let missing = self.unrecorded.len();
        write!(f, "; no synthetic voice speaks this language, so {missing} are NOT HEARD")?;
        let quoted: Vec<String> = self
            .unrecorded
            .iter()
            .take(QUOTED_MAX)
            .map(|text| {
                let cut: String = text.chars().take(QUOTED_LEN_MAX).collect();
                let end = if cut.len() < text.len() { "…" } else { "" };
                format!("\"{}{end}\"", short(&cut))
            })
            .collect();
        if !quoted.is_empty() {
            let more = missing.saturating_sub(quoted.len());
            write!(f, " ({}", quoted.join(", "))?;
            write!(f, "{})", if more > 0 { format!(", and {more} more") } else { String::new() })?;
        }
        write!(f, ".")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn coverage(tag: &str, has_voice: bool) -> Coverage {
        let list = r#"{"recordings": [
            {"text": "one", "language": "km", "file": "a.wav", "made": "recorded"},
            {"text": "two", "language": "km", "file": "b.wav", "made": "generated"},
            {"text": "three", "language": "es", "file": "c.wav", "made": "recorded"}]}"#;
        let texts = ["one", "two", "three", "four", "five", "six"].map(str::to_owned);
        let language = Language::new(tag);
        Coverage::of(&SoundList::read(list.as_bytes()).unwrap(), &language, &texts, has_voice)
    }

    #[test]
    fn what_is_not_heard_is_counted_and_quoted() {
        let report = coverage("km", false).to_string();
        for part in [
            "km: of 6 texts 1 are recorded by a person and 1 made by a program (unreviewed)",
            "so 4 are NOT HEARD (\"three\", \"four\", \"five\", and 1 more)",
        ] {
            assert!(report.contains(part), "{part}: {report}");
        }
        assert!(coverage("km", false).is_incomplete());
    }

    #[test]
    fn with_a_voice_everything_is_heard() {
        let report = coverage("es", true);
        assert!(!report.is_incomplete());
        let says =
            "es: of 6 texts 1 are recorded by a person; the synthetic voice says the others.";
        assert_eq!(report.to_string(), says);
    }

    #[test]
    fn the_usual_voice_lacks_two_languages() {
        for (tag, has) in
            [("km", false), ("fil", false), ("km-KH", false), ("en", true), ("zh-Hant", true)]
        {
            assert_eq!(Coverage::has_usual_voice(&Language::new(tag)), has, "{tag}");
        }
    }
}
