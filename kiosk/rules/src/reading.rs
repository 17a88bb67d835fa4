//! What was read from a picture of the paper: each oval's darkness and verdict, each written name.
//!
//! Invariant: a reading is made from pictures alone. It is compared with selections only by
//! [`Reading::differences`], which never changes either.

use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

use crate::{ContestIndex, OptionIndex, OvalId, Permille, Selections, Style};

/// Whether an oval is taken as a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Filled, beyond doubt.
    Marked,
    /// Empty, beyond doubt.
    Empty,
    /// Between the two: a person must look.
    Doubtful,
}

/// One oval as it was read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct OvalReading {
    /// Which oval.
    pub oval: OvalId,
    /// The share of ink inside its outline, 0 white to 1000 black.
    pub darkness: Permille,
    /// What that means.
    pub verdict: Verdict,
    /// How far the darkness lies from the nearer threshold; small is unsure.
    pub margin: Permille,
}

impl fmt::Debug for OvalReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("OvalReading(..)")
    }
}

/// What stands on a write-in line.
#[derive(Clone, PartialEq, Eq)]
pub struct WriteInReading {
    /// The contest.
    pub contest: ContestIndex,
    /// The write-in option.
    pub option: OptionIndex,
    /// True where there is any ink on the line.
    pub inked: bool,
    /// The name, where it could be read with confidence.
    pub text: Option<String>,
}

impl fmt::Debug for WriteInReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("WriteInReading(..)")
    }
}

/// One contest as it was read: its marked options in paper order.
#[derive(Clone, PartialEq, Eq)]
pub struct ContestReading {
    /// The contest.
    pub contest: ContestIndex,
    /// Its ovals in paper order.
    pub ovals: Vec<OvalReading>,
}

impl fmt::Debug for ContestReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("ContestReading(..)")
    }
}

/// A whole ballot as it was read, all of its sheets together.
#[derive(Clone, PartialEq, Eq)]
pub struct Reading {
    /// Every contest in ballot order.
    pub contests: Vec<ContestReading>,
    /// Every write-in line in paper order.
    pub write_ins: Vec<WriteInReading>,
}

impl fmt::Debug for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Reading(..)")
    }
}

/// Why a person should look at this contest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// An oval lies between marked and empty.
    Oval(OvalId),
}

/// One difference between the paper and the selections.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Difference {
    /// An oval that should be filled and isn't, or the other way round, or is doubtful.
    Oval(OvalId),
    /// A write-in line whose name isn't the one written.
    WriteIn(ContestIndex, OptionIndex),
}

impl fmt::Debug for Difference {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Difference(..)")
    }
}

impl Reading {
    /// The ovals read as marked, in paper order.
    pub fn marked(&self) -> impl Iterator<Item = OvalId> {
        self.ovals().filter(|oval| oval.verdict == Verdict::Marked).map(|oval| oval.oval)
    }

    /// The ovals that a person must look at.
    pub fn doubts(&self) -> impl Iterator<Item = Doubt> {
        self.ovals()
            .filter(|oval| oval.verdict == Verdict::Doubtful)
            .map(|oval| Doubt::Oval(oval.oval))
    }

    /// What stands on this write-in line.
    pub fn write_in(&self, contest: ContestIndex, option: OptionIndex) -> Option<&WriteInReading> {
        self.write_ins.iter().find(|line| line.contest == contest && line.option == option)
    }

    /// Where the paper says something else than the selections; empty where they agree.
    ///
    /// A written name counts as equal when it was read and is the same letter for letter (spaces at
    /// the ends aside); a name that can't be read is a difference, since it can't be vouched for.
    pub fn differences(&self, style: &Style, selections: &Selections) -> Vec<Difference> {
        let mut found = Vec::new();
        let wanted = selections.ovals(style);
        for id in style.ovals() {
            let verdict = self.ovals().find(|oval| oval.oval == id).map(|oval| oval.verdict);
            let expected = if wanted.contains(&id) { Verdict::Marked } else { Verdict::Empty };
            if verdict != Some(expected) {
                found.push(Difference::Oval(id));
            }
        }
        for (contest, definition) in style.contests() {
            for (option, _) in definition.indexed_options() {
                let Some(written) = selections.written(contest, option) else { continue };
                let wanted = if selections.is_marked(contest, option) {
                    written.as_str().trim()
                } else {
                    ""
                };
                let same = self.write_in(contest, option).is_some_and(|line| {
                    if wanted.is_empty() {
                        !line.inked
                    } else {
                        line.text.as_deref() == Some(wanted)
                    }
                });
                if !same {
                    found.push(Difference::WriteIn(contest, option));
                }
            }
        }
        found
    }

    fn ovals(&self) -> impl Iterator<Item = &OvalReading> {
        self.contests.iter().flat_map(|contest| &contest.ovals)
    }
}
