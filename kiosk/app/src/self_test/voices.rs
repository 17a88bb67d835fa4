//! Voices: what will be heard of each language that the station offers.

use evenhand_definitions::Coverage;
use evenhand_rules::{Election, Language};
use evenhand_speech::Fault;

use super::{Outcome, Why, count};
use crate::recorded::Recorded;

/// What says a language's texts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heard {
    /// A synthetic voice, and recordings where there are some.
    Voice {
        /// How many of the texts are recorded.
        recorded: u32,
        /// Of how many.
        of: u32,
    },
    /// Recordings alone, which are all there.
    Recordings {
        /// How many.
        recorded: u32,
    },
}

/// Asks the speech service which languages it speaks, and looks up what is recorded: one outcome a
/// language, in their order. Waits for the service for 2 seconds at most.
pub fn voices(
    election: &Election,
    languages: &[Language],
    recorded: &Recorded,
) -> Vec<(Language, Outcome<Heard>)> {
    outcomes(election, languages, recorded, evenhand_speech::voices().as_deref())
}

/// The same for voices that the speech service has named, or why it didn't.
///
/// Without a service nothing passes, however much is recorded: it couldn't be asked, and words that
/// aren't recorded whole would be met by silence.
pub fn outcomes(
    election: &Election,
    languages: &[Language],
    recorded: &Recorded,
    voices: Result<&[String], &Fault>,
) -> Vec<(Language, Outcome<Heard>)> {
    let heard = |language: &Language| {
        let voices = voices.map_err(|fault| Why::from(*fault))?;
        let coverage = recorded.coverage(election, language, voices);
        heard(&coverage.map_err(|_| Why::NoMessages)?)
    };
    languages.iter().map(|language| (language.clone(), heard(language).into())).collect()
}

fn heard(coverage: &Coverage) -> Result<Heard, Why> {
    let (of, missing) = (count(coverage.texts), count(coverage.unrecorded.len()));
    let recorded = of.saturating_sub(missing);
    match (coverage.has_voice, missing) {
        (true, _) => Ok(Heard::Voice { recorded, of }),
        (false, 0) if of > 0 => Ok(Heard::Recordings { recorded }),
        (false, missing) if missing == of => Err(Why::NotHeard),
        (false, missing) => Err(Why::RecordingsIncomplete { missing, of }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_heard_goes_by_voice_and_recordings() {
        let of = |has_voice, texts: usize, missing: usize| {
            heard(&Coverage {
                language: Language::new("km"),
                has_voice,
                texts,
                recorded: texts - missing,
                generated: 0,
                unrecorded: vec!["text".to_owned(); missing],
            })
        };
        assert_eq!(of(true, 9, 9), Ok(Heard::Voice { recorded: 0, of: 9 }));
        assert_eq!(of(true, 9, 2), Ok(Heard::Voice { recorded: 7, of: 9 }));
        assert_eq!(of(false, 9, 0), Ok(Heard::Recordings { recorded: 9 }));
        assert_eq!(of(false, 9, 1), Err(Why::RecordingsIncomplete { missing: 1, of: 9 }));
        assert_eq!(of(false, 9, 9), Err(Why::NotHeard));
        assert_eq!(of(false, 0, 0), Err(Why::NotHeard));
    }
}
