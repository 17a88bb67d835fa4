//! A message's words in the parts that can be recorded each for itself.
//!
//! Invariant: a part holds a letter or a digit, and neither blanks nor signs at its ends.

use crate::catalogue::ISOLATES;

/// Ends a part: the sign that also ends an argument.
pub(crate) const PART_END: char = ISOLATES[1];

/// Signs at the ends of a part that nobody speaks.
const SIGNS: &str = ".,:;!?\u{2026}\"'()\u{201c}\u{201d}\u{2018}\u{2019}\u{ab}\u{bb}\u{bf}\u{a1}\u{60c}\u{61b}\u{61f}\u{964}\u{17d4}\u{17d6}\u{3001}\u{3002}\u{ff01}\u{ff08}\u{ff09}\u{ff0c}\u{ff1a}\u{ff1b}\u{ff1f}\u{300c}\u{300d}";

/// The parts of words in which arguments stand between isolates.
pub(crate) fn parts(parted: &str) -> Vec<String> {
    let found = parted.split(ISOLATES).map(part);
    found.filter(|part| part.chars().any(char::is_alphanumeric)).map(str::to_owned).collect()
}

fn part(of: &str) -> &str {
    of.trim_matches(|c: char| c.is_whitespace() || SIGNS.contains(c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_end_where_arguments_do() {
        for (parted, expected) in [
            ("Vote for \u{2068}3\u{2069}.", vec!["Vote for", "3"]),
            (
                "\u{2068}Maria\u{2069}: \u{2068}\u{2068}1\u{2069} of \u{2068}2\u{2069}\u{2069}",
                vec!["Maria", "1", "of", "2"],
            ),
            ("\u{2068}A\u{2069}B\u{2069}", vec!["A", "B"]),
            ("\u{17d4} \u{2068}\u{1787}\u{17b6}\u{2069}\u{17d4}", vec!["\u{1787}\u{17b6}"]),
            (" \u{2068}.\u{2069} ", vec![]),
            ("Whole words.", vec!["Whole words"]),
        ] {
            assert_eq!(parts(parted), expected, "{parted:?}");
        }
    }
}
