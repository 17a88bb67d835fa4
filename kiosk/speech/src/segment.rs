//! Text made ready for a voice: segments, pauses, and the cleaning that every text goes through.

use std::fmt;

use crate::recorded::{Recording, Recordings};
use crate::sentence::{ends_sentence, sentences};
use crate::settings::Pace;

/// Longest text spoken in one go, in bytes; longer texts are cut into pieces of at most this.
///
/// The speech service holds a piece in memory and can't report progress within it; a 300-word
/// measure is about 2,000 bytes. From experience with this service, no published source.
const PIECE_BYTES_MAX: usize = 2_000;

/// A number that the caller gives to an utterance and gets back when its sound ended.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Serial(pub u64);

/// The silence after a segment.
///
/// The voice makes its own pause at the end of whatever it is given, about half a second at the
/// default pace and a tenth of that at the fastest; a segment in another language than the one
/// before it can't follow sooner.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pause {
    /// None: the next segment follows as if it were the same sentence.
    #[default]
    None,
    /// As at a comma: between an item and its state.
    Short,
    /// As after a paragraph: before an instruction.
    Long,
}

impl Pause {
    /// The silence on top of the voice's own, in milliseconds (tried by ear of a program only:
    /// no source, and no voter asked).
    pub(crate) fn millis(self) -> u64 {
        match self {
            Self::None | Self::Short => 0,
            Self::Long => 300,
        }
    }
}

/// A piece of finished text in one language. Its debug output tells lengths, never the text.
#[derive(Clone, PartialEq, Eq)]
pub struct Segment {
    /// What is said. Direction marks, zero-width spaces and control characters are dropped.
    pub text: String,
    /// The language as a BCP 47 tag ("en", "es", "zh-Hant").
    pub language: String,
    /// The silence that follows.
    pub pause_after: Pause,
    /// The same words in parts that may be recorded each for itself; none where there are none.
    pub parts: Vec<String>,
}

impl Segment {
    /// A segment with no pause after it.
    pub fn new(text: impl Into<String>, language: impl Into<String>) -> Self {
        let (text, language) = (text.into(), language.into());
        Self { text, language, pause_after: Pause::None, parts: Vec::new() }
    }

    /// The same segment with its parts: where all of them have a recording and the whole has none,
    /// they are played one after the other.
    #[must_use]
    pub fn in_parts(mut self, parts: Vec<String>) -> Self {
        self.parts = parts;
        self
    }

    /// The same segment with a pause after it.
    #[must_use]
    pub fn then(mut self, pause: Pause) -> Self {
        self.pause_after = pause;
        self
    }
}

impl fmt::Debug for Segment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Segment")
            .field("text_bytes", &self.text.len())
            .field("language", &self.language)
            .field("pause_after", &self.pause_after)
            .field("parts", &self.parts.len())
            .finish()
    }
}

/// What is said in one go: a sentence, or a part of a very long one.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Piece {
    /// The words.
    pub(crate) segment: Segment,
    /// Whether a sentence begins here: a voter can come back to it.
    pub(crate) opens_sentence: bool,
    /// Whether one ends here: what follows opens the next.
    closes_sentence: bool,
    /// What is played in place of the synthetic voice.
    pub(crate) recording: Option<Recording>,
}

/// Cleans the segments, joins neighbours that belong to one sentence and cuts at every sentence.
///
/// Segments without anything to say vanish; their pause goes to the segment before. Neighbours of
/// one language become one text up to the end of a sentence, so that the voice makes the pauses
/// within it: given one by one, each would be followed by its pause at the end of a text. Between
/// sentences that pause is the same, whether they are given together or not (espeak-ng 1.51, at
/// the default pace 0.53 s, measured).
///
/// A segment that has a recording, or a sentence of one, is a piece of its own: the voice says
/// what stands before and after it. So is each part of a segment of which all parts have one.
pub(crate) fn ready(segments: Vec<Segment>, recordings: &Recordings) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::with_capacity(segments.len());
    for segment in segments {
        let text = spoken(&segment.text);
        let whole = recordings.find(&text, &segment.language);
        let parts: Vec<_> = segment.parts.iter().map(|part| spoken(part)).collect();
        let recorded: Option<Vec<_>> =
            parts.iter().map(|part| recordings.find(part, &segment.language)).collect();
        if whole.is_some() {
            add(&mut out, &text, &segment.language, whole);
        } else if let Some(recorded) = recorded.filter(|recorded| !recorded.is_empty()) {
            for (part, recording) in parts.iter().zip(recorded) {
                add(&mut out, part, &segment.language, Some(recording));
            }
            if let Some(last) = out.last_mut() {
                last.closes_sentence = ends_sentence(&text);
            }
        } else {
            for sentence in sentences(&text) {
                let recording = recordings.find(sentence, &segment.language);
                add(&mut out, sentence, &segment.language, recording);
            }
        }
        if let Some(last) = out.last_mut() {
            let pause = &mut last.segment.pause_after;
            // Where the text was empty, the pause before it still holds.
            *pause =
                if text.is_empty() { segment.pause_after.max(*pause) } else { segment.pause_after };
        }
    }
    out
}

/// Adds a sentence or the end of one to what is being said before it.
fn add(out: &mut Vec<Piece>, text: &str, language: &str, recording: Option<&Recording>) {
    let mut opens_sentence = true;
    if let Some(Piece { segment: last, recording: played, closes_sentence, .. }) = out.last_mut()
        && last.pause_after < Pause::Long
        && last.language == language
        && !*closes_sentence
    {
        opens_sentence = false;
        if last.pause_after == Pause::Short && last.text.ends_with(char::is_alphanumeric) {
            last.text.push(',');
        }
        let is_spoken = played.is_none() && recording.is_none();
        if is_spoken && last.text.len() + text.len() < PIECE_BYTES_MAX {
            last.text.push(' ');
            last.text.push_str(text);
            *closes_sentence = ends_sentence(&last.text);
            return;
        }
    }
    let parts = if recording.is_some() { vec![text] } else { parts(text) };
    for part in parts {
        let segment = Segment::new(part, language);
        let closes_sentence = ends_sentence(&segment.text);
        out.push(Piece { segment, opens_sentence, closes_sentence, recording: recording.cloned() });
        opens_sentence = false;
    }
}

/// The text as a voice should get it: no direction marks, zero-width spaces or soft hyphens
/// (a voice may spell them out), control characters and runs of blanks as one blank.
///
/// Joiners (U+200C, U+200D) stay: they change how Indic and Arabic-script words are read.
pub(crate) fn spoken(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut blank = false;
    for c in text.chars() {
        match c {
            '\u{2066}'..='\u{2069}'
            | '\u{202A}'..='\u{202E}'
            | '\u{200B}'
            | '\u{200E}'
            | '\u{200F}'
            | '\u{2060}'
            | '\u{FEFF}'
            | '\u{AD}' => {}
            c if c.is_whitespace() || c.is_control() => blank = true,
            c => {
                if blank && !out.is_empty() {
                    out.push(' ');
                }
                blank = false;
                out.push(c);
            }
        }
    }
    out
}

/// The text with a comma after every second or third word at the two slowest paces: the voice
/// itself can't speak slower than about 93 words a minute (see the rates in `mouth`).
pub(crate) fn paced(text: &str, pace: Pace) -> String {
    let every = match pace.step() {
        0 => 2,
        1 => 3,
        _ => return text.to_owned(),
    };
    let mut out = String::with_capacity(text.len() + text.len() / 8);
    let mut since_pause = 0;
    for word in text.split(' ') {
        if !out.is_empty() {
            if since_pause >= every && out.ends_with(char::is_alphanumeric) {
                out.push(',');
                since_pause = 0;
            }
            out.push(' ');
        }
        out.push_str(word);
        since_pause = if word.ends_with(char::is_alphanumeric) { since_pause + 1 } else { 0 };
    }
    out
}

/// Cuts a sentence that is too long at the last blank before the limit.
fn parts(text: &str) -> Vec<&str> {
    let mut out = Vec::new();
    let mut rest = text;
    while rest.len() > PIECE_BYTES_MAX {
        let mut end = PIECE_BYTES_MAX;
        while !rest.is_char_boundary(end) {
            end -= 1;
        }
        let head = rest.get(..end).unwrap_or(rest);
        let (part, tail) = rest.split_at(head.rfind(' ').filter(|at| *at > 0).unwrap_or(end));
        out.push(part.trim());
        rest = tail.trim_start();
    }
    if !rest.is_empty() {
        out.push(rest);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn debug_output_holds_no_text() {
        let segment = Segment::new("Zyxwvut Okafor", "en");
        assert!(!format!("{segment:?} {segment:#?}").contains("Zyx"));
        assert!(format!("{segment:?}").contains("text_bytes: 14"));
    }

    #[test]
    fn text_is_cleaned_for_speech() {
        for (raw, clean) in [
            ("You chose \u{2068}3\u{2069} of \u{2068}4\u{2069}.", "You chose 3 of 4."),
            ("  a\tb\n\nc  ", "a b c"),
            ("nul\0inside", "nul inside"),
            ("\u{17A2}\u{200B}\u{178F}", "\u{17A2}\u{178F}"),
            ("co\u{AD}op", "coop"),
            ("\u{200E}\u{200F}\u{202A}x\u{202C}\u{FEFF}", "x"),
            ("\u{995}\u{9CD}\u{200D}\u{9B7}", "\u{995}\u{9CD}\u{200D}\u{9B7}"),
            ("\u{2068}\u{2069}", ""),
        ] {
            assert_eq!(spoken(raw), clean, "{raw:?}");
        }
    }

    fn ready(segments: Vec<Segment>) -> Vec<Piece> {
        super::ready(segments, &Recordings::default())
    }

    #[test]
    fn a_recording_is_a_piece_of_its_own_within_its_sentence() {
        let mut recordings = Recordings::default();
        for text in ["Maria Okafor", "Both. Of them."] {
            recordings.add(text, "en", std::sync::Arc::new(|| Err(crate::recorded::Unreadable)));
        }
        let out = super::ready(
            vec![
                Segment::new("Chosen:", "en"),
                Segment::new("Maria Okafor", "en").then(Pause::Short),
                Segment::new("not", "en"),
                Segment::new("chosen. Both. Of them.", "en"),
                Segment::new("Both. Of them.", "en"),
                Segment::new("Both. Of them.", "es"),
            ],
            &recordings,
        );
        let seen: Vec<_> = out
            .iter()
            .map(|p| (p.segment.text.as_str(), p.opens_sentence, p.recording.is_some()))
            .collect();
        assert_eq!(
            seen,
            [
                ("Chosen:", true, false),
                ("Maria Okafor,", false, true),
                ("not chosen.", false, false),
                ("Both.", true, false),
                ("Of them.", true, false),
                ("Both. Of them.", true, true),
                ("Both.", true, false),
                ("Of them.", true, false),
            ]
        );
    }

    #[test]
    fn a_sentence_is_played_in_parts_where_each_has_a_recording() {
        let mut recordings = Recordings::default();
        for text in ["Contest", "3", "of", "18"] {
            recordings.add(text, "km", std::sync::Arc::new(|| Err(crate::recorded::Unreadable)));
        }
        let segment = |parts: &[&str]| {
            let parts = parts.iter().map(|part| (*part).to_owned()).collect();
            Segment::new("Contest 3 of 18.", "km").in_parts(parts).then(Pause::Short)
        };
        let seen = |segments: Vec<Segment>, recordings: &Recordings| -> Vec<_> {
            super::ready(segments, recordings)
                .into_iter()
                .map(|p| (p.segment.text, p.opens_sentence, p.recording.is_some()))
                .collect()
        };
        let all = seen(vec![segment(&["Contest", "3", "of", "18"]); 2], &recordings);
        let once = [("Contest", true), ("3", false), ("of", false), ("18", false)];
        let expected: Vec<_> = once
            .iter()
            .chain(&once)
            .map(|(text, opens)| ((*text).to_owned(), *opens, true))
            .collect();
        assert_eq!(all, expected);
        // One that is missing: the voice says the whole, or the tone sounds.
        let whole = vec![("Contest 3 of 18.".to_owned(), true, false)];
        assert_eq!(seen(vec![segment(&["Contest", "4", "of", "18"])], &recordings), whole);
        assert_eq!(seen(vec![segment(&[])], &recordings), whole);
        // The whole is better than its parts.
        recordings.add(
            "Contest 3 of 18.",
            "km",
            std::sync::Arc::new(|| Err(crate::recorded::Unreadable)),
        );
        let whole = vec![("Contest 3 of 18.".to_owned(), true, true)];
        assert_eq!(seen(vec![segment(&["Contest", "3", "of", "18"])], &recordings), whole);
    }

    /// The texts, with the pauses after them and whether a sentence begins there.
    fn texts(pieces: &[Piece]) -> Vec<(&str, Pause, bool)> {
        let one = |p: &'_ Piece| (p.segment.pause_after, p.opens_sentence);
        pieces.iter().map(|p| (p.segment.text.as_str(), one(p).0, one(p).1)).collect()
    }

    #[test]
    fn neighbours_of_one_language_become_one_text_up_to_the_end_of_the_sentence() {
        let out = ready(vec![
            Segment::new("Maria Okafor", "en"),
            Segment::new("\u{2068}\u{2069}", "en").then(Pause::Short),
            Segment::new("not chosen.", "en").then(Pause::Short),
            Segment::new("", "en"),
            Segment::new("Option 2", "en"),
            Segment::new("of 7.", "en").then(Pause::Long),
            Segment::new("Press the first switch. Then listen", "en").then(Pause::Short),
            Segment::new("Opción 2", "es"),
        ]);
        assert_eq!(
            texts(&out),
            [
                ("Maria Okafor, not chosen.", Pause::Short, true),
                ("Option 2 of 7.", Pause::Long, true),
                ("Press the first switch.", Pause::None, true),
                ("Then listen", Pause::Short, true),
                ("Opción 2", Pause::None, true),
            ]
        );
        assert_eq!(out[4].segment.language, "es");
        assert!(ready(vec![Segment::new(" \u{200B}", "en")]).is_empty());
    }

    #[test]
    fn slow_paces_pause_between_words_and_change_none() {
        let text = "Vote for up to 3. Maria Okafor, not chosen";
        for (step, expected) in [
            (0, "Vote for, up to, 3. Maria Okafor, not chosen"),
            (1, "Vote for up, to 3. Maria Okafor, not chosen"),
            (2, text),
            (6, text),
        ] {
            assert_eq!(paced(text, Pace::from_step(step)), expected);
        }
    }

    #[test]
    fn a_long_text_is_cut_and_loses_nothing() {
        let text = "Shall the county build a bridge? ñandú 橋. ".repeat(200);
        let out = ready(vec![Segment::new(text.as_str(), "en").then(Pause::Long)]);
        assert_eq!(out.len(), 400);
        assert!(out.iter().all(|piece| piece.opens_sentence));
        let joined: Vec<_> = out.iter().map(|piece| piece.segment.text.as_str()).collect();
        assert_eq!(joined.join(" "), text.trim());
        assert_eq!(out.last().map(|piece| piece.segment.pause_after), Some(Pause::Long));
    }

    #[test]
    fn a_sentence_that_is_too_long_is_cut_and_stays_one_sentence() {
        for text in ["橋".repeat(3_000), "bridge ".repeat(1_000)] {
            let out = ready(vec![Segment::new(text.as_str(), "zh").then(Pause::Long)]);
            assert!(out.len() > 3);
            assert!(out.iter().all(|p| (1..=PIECE_BYTES_MAX).contains(&p.segment.text.len())));
            let opens: Vec<bool> = out.iter().map(|piece| piece.opens_sentence).collect();
            assert!(opens[0] && opens[1..].iter().all(|opens| !opens));
            let all: String = out.iter().map(|piece| piece.segment.text.replace(' ', "")).collect();
            assert_eq!(all, text.replace(' ', ""));
            assert_eq!(out.last().map(|piece| piece.segment.pause_after), Some(Pause::Long));
        }
    }
}
