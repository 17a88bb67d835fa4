//! Text to lines of a width, by the same line breaking as on paper. Ruler and drawing share it, so
//! what is measured is what is drawn.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use evenhand_lettering::{Face, Shaper, line_breaks};
use evenhand_rules::Micrometres;
use evenhand_visit::TypeSize;

use crate::metrics::{Role, Type, type_for};

/// Words to be drawn. They may be a choice, so `Debug` prints none of them.
#[derive(Clone, PartialEq, Eq)]
pub struct Words(Rc<str>);

impl Words {
    /// The words.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Debug for Words {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Words(..)")
    }
}

/// One line: its words, what they are drawn in and how wide they are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The words.
    pub words: Words,
    /// The face that has their letters.
    pub face: Face,
    /// Its em, at which capitals are as high as the type asked for has them.
    pub em: Micrometres,
    /// From the line's left end to its right end.
    pub width: Micrometres,
    /// True where it is read from the right.
    pub is_rtl: bool,
}

/// A text broken into lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lines {
    /// The lines, top down.
    pub lines: Vec<Line>,
    /// True where a word was too wide for a line and was cut.
    pub cuts_a_word: bool,
}

impl Lines {
    /// From one line to the next: by the letters that are there, whatever the screen's language.
    pub fn leading(&self, of: Type) -> Micrometres {
        let families = self.lines.iter().map(|line| line.face.family());
        let leadings = families.map(|family| of.leading(family));
        leadings.max().unwrap_or_else(|| of.leading(of.face.family()))
    }

    /// The width of the widest line.
    pub fn width(&self) -> Micrometres {
        self.lines.iter().map(|line| line.width).max().unwrap_or_default()
    }
}

/// How many texts are remembered. A screen has some hundred; beyond this all are forgotten.
const REMEMBERED_MAX: usize = 4_000;

type Key = (Face, i32, i32, String);

/// Breaks text into lines, and remembers.
pub struct Typesetter {
    shaper: Shaper,
    remembered: RefCell<BTreeMap<Key, Rc<Lines>>>,
}

impl Default for Typesetter {
    fn default() -> Self {
        Self::new()
    }
}

impl Typesetter {
    /// Loads the faces.
    pub fn new() -> Self {
        Self { shaper: Shaper::new(), remembered: RefCell::new(BTreeMap::new()) }
    }

    /// The type for a role at a size.
    pub fn type_for(&self, size: TypeSize, role: Role, is_bold: bool) -> Type {
        type_for(&self.shaper, size, role, is_bold)
    }

    /// The lines of a text no wider than `width`.
    pub fn lines(&self, text: &str, of: Type, width: Micrometres) -> Rc<Lines> {
        let key = (of.face, of.em.0, width.0, text.to_owned());
        if let Some(known) = self.remembered.borrow().get(&key) {
            return Rc::clone(known);
        }
        let lines = Rc::new(self.broken(text, of, width));
        let mut remembered = self.remembered.borrow_mut();
        if remembered.len() >= REMEMBERED_MAX {
            remembered.clear();
        }
        remembered.insert(key, Rc::clone(&lines));
        lines
    }

    /// The width of a text on one line.
    pub fn width(&self, text: &str, of: Type) -> Micrometres {
        self.lines(text, of, Micrometres(i32::MAX)).width()
    }

    fn broken(&self, text: &str, of: Type, width: Micrometres) -> Lines {
        let runs = self.shaper.break_lines(text, of.face, of.em, width);
        let cuts_a_word =
            runs.len() > 1 && cuts_a_word(text, runs.iter().map(|run| run.text.as_str()));
        let lines = runs
            .into_iter()
            .map(|run| Line {
                words: Words(Rc::from(run.text.as_str())),
                face: run.face,
                em: run.size,
                width: run.width,
                is_rtl: run.is_rtl,
            })
            .collect();
        Lines { lines, cuts_a_word }
    }
}

/// True where a line ends where none may (UAX 14): within a word. Scripts that put no spaces between
/// words have places to break all the same.
fn cuts_a_word<'a>(text: &str, lines: impl Iterator<Item = &'a str>) -> bool {
    // Lines have lost the spaces at their ends, and may have a mark of direction put before them.
    let is_unseen = |c: char| c.is_whitespace() || c == '\u{200f}';
    let letters = |part: &str| part.chars().filter(|c| !is_unseen(*c)).count();
    let before = |end: usize| letters(text.get(..end).unwrap_or_default());
    let may: BTreeSet<usize> = line_breaks(text).into_iter().map(before).collect();
    let mut end = 0;
    lines.into_iter().any(|line| {
        end += letters(line);
        !may.contains(&end)
    })
}

impl std::fmt::Debug for Typesetter {
    /// Prints no text: one may be a choice.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Typesetter(..)")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_word_that_is_too_wide_is_cut() {
        let setter = Typesetter::new();
        let of = setter.type_for(TypeSize::Medium, Role::Text, false);
        let wide = Micrometres(60_000);
        assert!(!setter.lines("Keep my choices as they are now", of, wide).cuts_a_word);
        assert!(!setter.lines("Drive-in and walk-in voters, half-and-half", of, wide).cuts_a_word);
        assert!(setter.lines("Keep Donaudampfschifffahrtsgesellschaft", of, wide).cuts_a_word);
        // No spaces, and yet places to break.
        let narrow = Micrometres(40_000);
        for text in ["請看您的紙本選票上的每一項選舉", "សូមមើលសន្លឹកឆ្នោតរបស់អ្នកដែលបានបោះពុម្ព"]
        {
            let lines = setter.lines(text, of, narrow);
            assert!(lines.lines.len() > 1 && !lines.cuts_a_word, "{text}");
        }
        let lines = setter.lines("يرجى النظر إلى كل منافسة على البطاقة", of, narrow);
        assert!(lines.lines.len() > 1 && !lines.cuts_a_word);
    }

    #[test]
    fn a_remembered_text_is_the_same_text() {
        let setter = Typesetter::new();
        let of = setter.type_for(TypeSize::Large, Role::Heading, true);
        let first = setter.lines("County Clerk", of, Micrometres(40_000));
        assert_eq!(first, setter.lines("County Clerk", of, Micrometres(40_000)));
        assert!(first.width() <= Micrometres(40_000));
    }
}
