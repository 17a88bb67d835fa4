//! What a voter has chosen on one ballot, always within each contest's rule.
//!
//! Invariant: no contest ever holds more than its limit, a rank never has two options nor an option
//! two ranks. The values are wiped when they go, and `Debug` prints no content.

use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

use zeroize::{Zeroize, Zeroizing};

use crate::{Contest, ContestIndex, OptionIndex, OptionKind, OvalId, Rank, Rule, Style};

/// The longest name that can be written in, in characters. Own choice: one line of the sheet's
/// fixed-width letters at 10 pt in the narrower column; NIST's test elections go up to 38.
pub const WRITE_IN_LEN_MAX: usize = 38;

/// Every character that a written-in name may hold, in the order of the screen's keyboard: the
/// alphabet, what joins names, then the accented letters of Spanish and of the names in NIST's test
/// elections.
pub const WRITE_IN_CHARACTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZ -'.ÁÉÍÓÚÜÑÄËÏÖÇ";

/// A written-in name: at most [`WRITE_IN_LEN_MAX`] characters, all from [`WRITE_IN_CHARACTERS`].
#[derive(Clone, Default, PartialEq, Eq)]
pub struct WriteInText(Zeroizing<String>);

impl WriteInText {
    /// The empty name, with room for the longest, so that typing never moves it in memory.
    pub fn new() -> Self {
        Self(Zeroizing::new(String::with_capacity(WRITE_IN_LEN_MAX.saturating_mul(2))))
    }
    /// Adds one character.
    ///
    /// # Errors
    /// [`Refusal::NameTooLong`] at the limit, [`Refusal::NoSuchCharacter`] for one that isn't on the
    /// keyboard; the name is unchanged.
    pub fn push(&mut self, character: char) -> Result<(), Refusal> {
        if !WRITE_IN_CHARACTERS.contains(character) {
            return Err(Refusal::NoSuchCharacter);
        }
        if self.0.chars().count() >= WRITE_IN_LEN_MAX {
            return Err(Refusal::NameTooLong);
        }
        self.0.push(character);
        Ok(())
    }
    /// Takes the last character off and hands it out.
    pub fn pop(&mut self) -> Option<char> {
        self.0.pop()
    }
    /// The name as it will be printed.
    pub fn as_str(&self) -> &str {
        &self.0
    }
    /// True where nothing (or only spaces) has been written.
    pub fn is_blank(&self) -> bool {
        self.0.trim().is_empty()
    }
}

impl fmt::Debug for WriteInText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("WriteInText(..)")
    }
}

/// Why a change to the selections was not made. Nothing was changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The contest already holds the most it allows.
    LimitReached,
    /// The rank is held by another option.
    RankTaken(OptionIndex),
    /// The option already has a rank.
    AlreadyRanked(Rank),
    /// No such contest, option or rank, or the wrong kind of contest: a caller's mistake.
    NoSuchOption,
    /// The name is as long as it may be.
    NameTooLong,
    /// The character isn't on the keyboard.
    NoSuchCharacter,
}

/// What becomes of the ranks below one that is undone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LowerRanks {
    /// Each moves up by one.
    MoveUp,
    /// They stay, and leave a gap.
    Stay,
}

/// One contest's marks: a flag or a rank for each option (0 = none), and its written names.
struct Marks {
    ranks: Zeroizing<Vec<u8>>,
    names: Vec<(OptionIndex, WriteInText)>,
}

/// One voter's selections on one style.
pub struct Selections {
    // Invariant: one entry a contest, each with one mark an option, all within the contest's rule.
    contests: Vec<Marks>,
}

impl fmt::Debug for Selections {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Selections(..)")
    }
}

impl Clone for Selections {
    fn clone(&self) -> Self {
        let copy = |marks: &Marks| Marks { ranks: marks.ranks.clone(), names: marks.names.clone() };
        Self { contests: self.contests.iter().map(copy).collect() }
    }
}

impl PartialEq for Selections {
    fn eq(&self, other: &Self) -> bool {
        self.contests.len() == other.contests.len()
            && self
                .contests
                .iter()
                .zip(&other.contests)
                .all(|(a, b)| a.ranks == b.ranks && a.names == b.names)
    }
}

impl Eq for Selections {}

impl Selections {
    /// Nothing chosen, with room for everything that can be.
    pub fn none(style: &Style) -> Self {
        let contests = style
            .contests()
            .map(|(_, contest)| Marks {
                ranks: Zeroizing::new(alloc::vec![0; contest.options.len()]),
                names: contest
                    .indexed_options()
                    .filter(|(_, option)| option.kind == OptionKind::WriteIn)
                    .map(|(index, _)| (index, WriteInText::new()))
                    .collect(),
            })
            .collect();
        Self { contests }
    }

    /// Chooses an option of a choose-up-to-`max` contest. Choosing a chosen one changes nothing.
    ///
    /// # Errors
    /// [`Refusal::LimitReached`] where the contest is full, [`Refusal::NoSuchOption`] where there is
    /// no such option or the contest is ranked.
    pub fn choose(
        &mut self,
        style: &Style,
        contest: ContestIndex,
        option: OptionIndex,
    ) -> Result<(), Refusal> {
        let Some(Contest { rule: Rule::Choose { max }, .. }) = style.contest(contest) else {
            return Err(Refusal::NoSuchOption);
        };
        let count = self.count(contest);
        let mark = self.mark_mut(contest, option).ok_or(Refusal::NoSuchOption)?;
        if *mark != 0 {
            return Ok(());
        }
        if count >= *max {
            return Err(Refusal::LimitReached);
        }
        *mark = 1;
        Ok(())
    }

    /// Gives an option a rank.
    ///
    /// # Errors
    /// [`Refusal::AlreadyRanked`] where the option has another rank, [`Refusal::RankTaken`] where
    /// another option has this one, [`Refusal::NoSuchOption`] where there is no such thing.
    pub fn rank(
        &mut self,
        style: &Style,
        contest: ContestIndex,
        option: OptionIndex,
        rank: Rank,
    ) -> Result<(), Refusal> {
        let Some(Contest { rule: Rule::Rank { ranks }, .. }) = style.contest(contest) else {
            return Err(Refusal::NoSuchOption);
        };
        if rank.0 == 0 || rank.0 > *ranks {
            return Err(Refusal::NoSuchOption);
        }
        match self.at_rank(contest, rank) {
            Some(holder) if holder == option => return Ok(()),
            Some(holder) => return Err(Refusal::RankTaken(holder)),
            None => {}
        }
        let mark = self.mark_mut(contest, option).ok_or(Refusal::NoSuchOption)?;
        if *mark != 0 {
            return Err(Refusal::AlreadyRanked(Rank(*mark)));
        }
        *mark = rank.0;
        Ok(())
    }

    /// Takes an option's mark away and wipes its written name. Undoing what isn't chosen changes
    /// nothing.
    pub fn undo(&mut self, contest: ContestIndex, option: OptionIndex, lower: LowerRanks) {
        let Some(marks) = self.contests.get_mut(usize::from(contest.0)) else { return };
        let Some(mark) = marks.ranks.get_mut(usize::from(option.0)) else { return };
        let undone = core::mem::take(mark);
        if let Some((_, name)) = marks.names.iter_mut().find(|(index, _)| *index == option) {
            name.0.zeroize();
        }
        if undone != 0 && lower == LowerRanks::MoveUp {
            for rank in marks.ranks.iter_mut().filter(|rank| **rank > undone) {
                *rank = rank.saturating_sub(1);
            }
        }
    }

    /// Sets the name on a write-in line. It isn't a choice until the option is chosen or ranked.
    ///
    /// # Errors
    /// [`Refusal::NoSuchOption`] where that option is not a write-in line.
    pub fn write_in(
        &mut self,
        contest: ContestIndex,
        option: OptionIndex,
        name: WriteInText,
    ) -> Result<(), Refusal> {
        let marks = self.contests.get_mut(usize::from(contest.0)).ok_or(Refusal::NoSuchOption)?;
        let slot = marks.names.iter_mut().find(|(index, _)| *index == option);
        slot.ok_or(Refusal::NoSuchOption)?.1 = name;
        Ok(())
    }

    /// The name on a write-in line; `None` where that option isn't one.
    pub fn written(&self, contest: ContestIndex, option: OptionIndex) -> Option<&WriteInText> {
        let marks = self.contests.get(usize::from(contest.0))?;
        marks.names.iter().find(|(index, _)| *index == option).map(|(_, name)| name)
    }

    /// How many options of this contest are marked.
    pub fn count(&self, contest: ContestIndex) -> u16 {
        let marked = self.ranks(contest).iter().filter(|rank| **rank != 0).count();
        u16::try_from(marked).unwrap_or(u16::MAX)
    }

    /// True where this option is chosen or has any rank.
    pub fn is_marked(&self, contest: ContestIndex, option: OptionIndex) -> bool {
        self.ranks(contest).get(usize::from(option.0)).is_some_and(|rank| *rank != 0)
    }

    /// The rank of an option in a ranked contest.
    pub fn rank_of(
        &self,
        style: &Style,
        contest: ContestIndex,
        option: OptionIndex,
    ) -> Option<Rank> {
        let Rule::Rank { .. } = style.contest(contest)?.rule else { return None };
        self.ranks(contest).get(usize::from(option.0)).filter(|rank| **rank != 0).map(|r| Rank(*r))
    }

    /// The option that holds this rank. Only meaningful in a ranked contest.
    pub fn at_rank(&self, contest: ContestIndex, rank: Rank) -> Option<OptionIndex> {
        let held = self.ranks(contest).iter().position(|held| *held == rank.0 && rank.0 != 0)?;
        u16::try_from(held).ok().map(OptionIndex)
    }

    /// The marked options of a contest in ballot order.
    pub fn marked(&self, contest: ContestIndex) -> impl Iterator<Item = OptionIndex> {
        (0u16..)
            .map(OptionIndex)
            .zip(self.ranks(contest))
            .filter(|(_, rank)| **rank != 0)
            .map(|(option, _)| option)
    }

    /// Every oval to be filled, in the order of the paper.
    pub fn ovals(&self, style: &Style) -> Vec<OvalId> {
        let mut ovals = Vec::new();
        for (contest, definition) in style.contests() {
            let ranked = matches!(definition.rule, Rule::Rank { .. });
            for option in self.marked(contest) {
                let rank = if ranked { self.rank_of(style, contest, option) } else { None };
                ovals.push(OvalId { contest, option, rank });
            }
        }
        ovals
    }

    fn ranks(&self, contest: ContestIndex) -> &[u8] {
        self.contests.get(usize::from(contest.0)).map_or(&[], |marks| &marks.ranks)
    }

    fn mark_mut(&mut self, contest: ContestIndex, option: OptionIndex) -> Option<&mut u8> {
        self.contests.get_mut(usize::from(contest.0))?.ranks.get_mut(usize::from(option.0))
    }
}
