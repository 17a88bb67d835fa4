//! Where a sentence ends: a voter can pause at one, hear it again and skip it.
//!
//! The rules are those of Unicode (UAX 29, section 5), with one exception of our own: a shortened
//! word ("Dr.", "J.", "U.S.") ends none, nor does a number that opens a line ("3. Governor"). Where
//! that is wrong two sentences count as one, which costs a voter less than a pause in a name.

use unicode_segmentation::UnicodeSegmentation as _;

/// Signs that end a sentence in the languages of `locales/`.
const ENDS: [char; 12] = ['.', '!', '?', '…', '。', '！', '？', '।', '॥', '؟', '۔', '។'];
/// Signs that may follow the end of a sentence and belong to it.
const CLOSERS: [char; 10] = ['"', '\'', ')', ']', '»', '”', '’', '」', '』', '）'];
/// A Latin word without any of these is shortened.
const VOWELS: [char; 11] = ['a', 'e', 'i', 'o', 'u', 'y', 'A', 'E', 'I', 'O', 'U'];
/// Shortened words before names that a reader could take for a whole one: unlike "Dr." or "St."
/// they have a vowel (own choice, from English and Spanish ballots in general).
const SHORTENED: [&str; 11] =
    ["Ave", "Co", "Dra", "Gen", "Gov", "Hon", "No", "Rep", "Rev", "Sen", "Sra"];

/// The sentences of a text, in order; together they are the text, but for blanks between them.
pub(crate) fn sentences(text: &str) -> Vec<&str> {
    let mut out = Vec::new();
    let mut start = 0;
    for (at, piece) in text.split_sentence_bound_indices() {
        let end = at + piece.len();
        let sentence = text.get(start..end).unwrap_or_default().trim();
        if ends_sentence(sentence) {
            out.push(sentence);
            start = end;
        }
    }
    let rest = text.get(start..).unwrap_or_default().trim();
    if !rest.is_empty() {
        out.push(rest);
    }
    out
}

/// Whether a text ends where its last sentence does.
pub(crate) fn ends_sentence(text: &str) -> bool {
    let text = text.trim_end().trim_end_matches(CLOSERS);
    text.ends_with(ENDS) && !ends_shortened(text)
}

/// Whether the full stop at the end belongs to a shortened word or to the number of a line.
fn ends_shortened(text: &str) -> bool {
    let Some(before) = text.strip_suffix('.') else { return false };
    let word = before.rsplit(char::is_whitespace).next().unwrap_or_default();
    let is_number_of_line =
        word.len() == before.len() && !word.is_empty() && word.chars().all(char::is_numeric);
    let is_consonants =
        |part: &str| part.chars().all(|c| c.is_ascii_alphabetic()) && !part.contains(VOWELS);
    let is_shortened = word.starts_with(char::is_uppercase)
        && (SHORTENED.contains(&word)
            || word.split('.').all(|part| part.chars().count() == 1 || is_consonants(part)));
    is_number_of_line || is_shortened
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sentences_end_where_a_reader_would_stop() {
        for (text, expected) in [
            (
                "Maria Okafor, not chosen. Option 2 of 7.",
                &["Maria Okafor, not chosen.", "Option 2 of 7."][..],
            ),
            (
                "Shall it be built? The cost is $3.5 million. (It is shared.)",
                &["Shall it be built?", "The cost is $3.5 million.", "(It is shared.)"],
            ),
            (
                "Dr. John Q. Public Jr. is now choice 1.",
                &["Dr. John Q. Public Jr. is now choice 1."],
            ),
            ("U.S. Senator for St. Anne", &["U.S. Senator for St. Anne"]),
            ("3. Governor. Nothing chosen", &["3. Governor.", "Nothing chosen"]),
            ("Yes. Two. Rev. Lee", &["Yes.", "Two.", "Rev. Lee"]),
            ("Vote for up to 3. Maria", &["Vote for up to 3.", "Maria"]),
            ("¿Está bien? ¡Sí!", &["¿Está bien?", "¡Sí!"]),
            ("請選擇一項。您可以更改。", &["請選擇一項。", "您可以更改。"]),
            ("একটি বেছে নিন। পরে বদলাতে পারবেন।", &["একটি বেছে নিন।", "পরে বদলাতে পারবেন।"]),
            ("هل هذا صحيح؟ نعم.", &["هل هذا صحيح؟", "نعم."]),
            ("ជ្រើសរើស។ បន្ទាប់", &["ជ្រើសរើស។", "បន្ទាប់"]),
            ("no end", &["no end"]),
            ("", &[]),
        ] {
            assert_eq!(sentences(text), expected, "{text}");
        }
    }

    #[test]
    fn no_word_is_lost_or_said_twice() {
        let text = "A. Bee. \"Cee!\" 4. dee... Eff… ? (Gee) 橋。H. i?! J";
        let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
        assert_eq!(letters(&sentences(text).concat()), letters(text));
    }
}
