//! What is typed: figures of codes and counts, letters of streets and seals.

use alloc::string::String;
use alloc::vec::Vec;

use super::{At, Day, Output, closing, opening};

/// Figures, as they are typed.
pub(super) const FIGURES: &str = "1234567890";
/// Letters and figures.
pub(super) const LETTERS: &str = "1234567890ABCDEFGHIJKLMNOPQRSTUVWXYZ- ";
/// The most figures of a code.
pub(super) const CODE_LEN_MAX: usize = 12;
/// The least figures of a code.
pub(super) const CODE_LEN_MIN: usize = 6;
/// The most figures of a count of sheets.
const COUNT_LEN_MAX: usize = 4;
/// The longest seal.
const SEAL_LEN_MAX: usize = 16;
/// The most letters that a row is looked for with.
const FIND_LEN_MAX: usize = 30;

impl Day {
    /// What is being typed here: where it stands, what it may hold, and how long it may be.
    fn typed(&mut self) -> Option<(&mut String, &'static str, usize)> {
        match &mut self.at {
            At::Code { typed, is_checking: false, .. } => Some((typed, FIGURES, CODE_LEN_MAX)),
            At::Opening(opening::At::Paper { typed, .. })
            | At::PaperCount { typed }
            | At::JamCount { typed }
            | At::FoundCount { typed, .. }
            | At::Closing(closing::At::Left { typed }) => Some((typed, FIGURES, COUNT_LEN_MAX)),
            At::Opening(opening::At::Seals { typed, .. })
            | At::Closing(closing::At::Seals { typed, .. }) => {
                Some((typed, LETTERS.trim_end(), SEAL_LEN_MAX))
            }
            At::Find { typed } => Some((typed, LETTERS, FIND_LEN_MAX)),
            At::Home
            | At::Who { .. }
            | At::Code { .. }
            | At::Testing(_)
            | At::Opening(_)
            | At::Found { .. }
            | At::Visit
            | At::Entry
            | At::StopCause
            | At::Ending(_)
            | At::StopPaper(_)
            | At::Search(_)
            | At::Paper
            | At::Closing(_)
            | At::SuspendConfirm
            | At::Halted(_) => None,
        }
    }

    pub(super) fn key(&mut self, key: u16) -> Vec<Output> {
        if let At::Testing(at) = self.at.clone() {
            return self.touched_cell(&at, key);
        }
        match self.sheet().keys.get(usize::from(key)).copied() {
            Some(letter) => self.letter(letter),
            None => Vec::new(),
        }
    }

    pub(super) fn letter(&mut self, letter: char) -> Vec<Output> {
        let letter = letter.to_ascii_uppercase();
        if let Some((typed, letters, len_max)) = self.typed()
            && letters.contains(letter)
            && typed.chars().count() < len_max
        {
            typed.push(letter);
            self.notice = None;
        }
        Vec::new()
    }

    pub(super) fn delete(&mut self) -> Vec<Output> {
        if let Some((typed, _, _)) = self.typed() {
            typed.pop();
            self.notice = None;
        }
        Vec::new()
    }
}

/// A count that was typed.
pub(super) fn number(typed: &str) -> Option<u32> {
    typed.parse().ok()
}
