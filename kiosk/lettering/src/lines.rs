//! Where a line of text may be broken, and where it is.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use evenhand_rules::Micrometres;
use icu_segmenter::LineSegmenter;
use icu_segmenter::options::LineBreakOptions;

use crate::Run;

/// Where a line of this text may end, in bytes: UAX 14, and a dictionary for scripts that put no
/// spaces between words. The end of the text is one of them.
pub fn line_breaks(text: &str) -> Vec<usize> {
    LineSegmenter::new_auto(LineBreakOptions::default()).segment_str(text).collect()
}

/// Splits a shaped text into pieces no wider than `width`, by the widths that it already has.
///
/// Greedy: each line takes as many words as it holds. Trailing spaces don't count.
pub(crate) fn split(whole: &Run, width: Micrometres) -> Vec<&str> {
    let text = whole.text.as_str();
    let widths = widths_to(whole);
    let mut lines = Vec::new();
    let mut start = 0;
    let mut last_fit = 0;
    for end in line_breaks(text) {
        while width_between(&widths, text, start, end) > width {
            let cut =
                if last_fit > start { last_fit } else { cut_word(&widths, text, start, width) };
            if cut >= end {
                // A single character that is wider than the line stands alone.
                break;
            }
            lines.push(text.get(start..cut).unwrap_or_default().trim_end());
            start = cut;
        }
        last_fit = end;
    }
    lines.push(text.get(start..).unwrap_or_default().trim_end());
    lines.retain(|line| !line.is_empty());
    lines
}

/// The pen's way before each cluster, by its place in the text.
fn widths_to(whole: &Run) -> BTreeMap<usize, i32> {
    let mut own: BTreeMap<usize, i32> = BTreeMap::new();
    for glyph in &whole.glyphs {
        let at = usize::try_from(glyph.cluster).unwrap_or(usize::MAX);
        let sum = own.entry(at).or_insert(0);
        *sum = sum.saturating_add(glyph.advance.0);
    }
    let mut way = 0i32;
    let mut to = BTreeMap::new();
    for (at, advance) in own {
        to.insert(at, way);
        way = way.saturating_add(advance);
    }
    to.insert(whole.text.len(), way);
    to
}

/// The width of a piece, its trailing spaces left out.
fn width_between(to: &BTreeMap<usize, i32>, text: &str, start: usize, end: usize) -> Micrometres {
    let kept = text.get(start..end).map_or(0, |piece| piece.trim_end().len());
    let way = |at: usize| to.range(..=at).next_back().map_or(0, |(_, way)| *way);
    Micrometres(way(start.saturating_add(kept)).saturating_sub(way(start)))
}

/// Where a word that is wider than a line must be cut: after its last character that fits, and
/// after its first at the least.
fn cut_word(to: &BTreeMap<usize, i32>, text: &str, start: usize, width: Micrometres) -> usize {
    let mut cut = start;
    for end in to.keys().copied().filter(|at| *at > start && text.is_char_boundary(*at)) {
        if cut > start && width_between(to, text, start, end) > width {
            break;
        }
        cut = end;
    }
    if cut == start { text.len() } else { cut }
}

#[cfg(test)]
mod tests {
    use alloc::string::String;
    use alloc::vec::Vec;

    use evenhand_rules::Micrometres;

    use crate::{Face, Run, Shaper};

    const TEN_POINT: Micrometres = Micrometres(3528);

    /// Breaks text at this width and checks what must hold of any breaking.
    fn broken(text: &str, width: i32) -> Vec<String> {
        let width = Micrometres(width);
        let runs: Vec<Run> = Shaper::new().break_lines(text, Face::REGULAR, TEN_POINT, width);
        for run in &runs {
            let single = run.text.chars().count() == 1;
            assert!(run.width <= width || single, "{:?} is {:?} wide", run.text, run.width);
            assert!(!run.text.is_empty());
        }
        let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
        let joined: String = runs.iter().map(|run| run.text.as_str()).collect();
        assert_eq!(letters(&joined), letters(text), "no letter is lost or doubled");
        runs.into_iter().map(|run| run.text).collect()
    }

    #[test]
    fn short_text_is_one_line() {
        assert_eq!(broken("County Clerk", 90_000), ["County Clerk"]);
        assert!(broken(" \n\t ", 90_000).is_empty());
    }

    #[test]
    fn lines_break_between_words() {
        let lines = broken("Shall the county build a footbridge over the Alder River?", 50_000);
        assert!(lines.len() >= 2);
        assert!(lines.iter().all(|line| !line.starts_with(' ') && !line.ends_with(' ')));
    }

    #[test]
    fn a_long_word_is_broken_by_characters() {
        let lines = broken("Aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", 20_000);
        assert!(lines.len() > 3);
    }

    #[test]
    fn a_long_word_after_a_short_one_starts_its_own_line() {
        let lines = broken("at Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww end", 30_000);
        assert_eq!(lines.first().map(String::as_str), Some("at"));
        assert!(lines.last().is_some_and(|line| line.ends_with("end")));
    }

    #[test]
    fn a_column_narrower_than_a_letter_still_ends() {
        assert_eq!(broken("WWW", 100), ["W", "W", "W"]);
    }

    #[test]
    fn many_widths_hold_the_rules() {
        let text = "José Ñandú-Smith y María d'Ávila: ¿deben seguir en el cargo? (Distrito 12)";
        for width in (1_000..60_000).step_by(997) {
            broken(text, width);
        }
    }
}
