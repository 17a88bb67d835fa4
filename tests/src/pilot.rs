//! Votes a whole visit with two switches: it sees only the `View` and sends only `Step` and `Choose`.
//!
//! Invariant: a pilot knows its plan, what is on the screen, and which option it took last. It never
//! looks at the state machine, the selections or the paper. The same views give the same presses.
//!
//! Start reading at [`Pilot::next`].

use evenhand_rules::{Rule, Style};
use evenhand_visit::{
    Arg, Command, LanguageIndex, Message, Phrase, RowKind, ScreenKind, Target, TypeSize, View,
};
use thiserror::Error;

/// The most presses before a pilot gives up. A visit over 30 contests with two written names takes
/// about 1,000; own choice.
const PRESSES_MAX: u32 = 20_000;

/// One option that is to be marked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The option's place in its contest, from 0.
    pub option: u16,
    /// Its rank, in ranked contests.
    pub rank: Option<u8>,
    /// The name to write where it is a write-in line; empty leaves the line blank.
    pub name: Option<String>,
}

/// What a pilot is to bring about.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// The language to choose; `None` takes the one that is offered first.
    pub language: Option<LanguageIndex>,
    /// The marks of every contest in ballot order; `None` leaves all contests as they are.
    pub contests: Option<Vec<Vec<Mark>>>,
}

impl Plan {
    /// The first option of each contest of a style; of a ranked one, the option at this place as
    /// the first rank.
    pub fn of_firsts(style: &Style, language: Option<LanguageIndex>, ranked: u16) -> Self {
        let mark = |option, rank| Mark { option, rank, name: None };
        let marks = style.contests().map(|(_, contest)| match contest.rule {
            Rule::Rank { .. } => vec![mark(ranked, Some(1))],
            Rule::Choose { .. } => vec![mark(0, None)],
        });
        Self { language, contests: Some(marks.collect()) }
    }
}

/// Why a pilot gave up. It names screens and places, and no name.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum PilotError {
    /// Too many presses.
    #[error("gave up after {presses} presses, on screen {screen:?}")]
    TooManyPresses {
        /// How many were sent.
        presses: u32,
        /// Where it was.
        screen: ScreenKind,
    },
    /// What it wants to take is not on this screen.
    #[error("screen {screen:?} has no {wanted:?}, which the plan needs")]
    NoSuchTarget {
        /// The screen.
        screen: ScreenKind,
        /// What was wanted.
        wanted: Target,
    },
    /// A screen that this plan never leads to.
    #[error("screen {screen:?} came up and the plan has no use for it")]
    Unexpected {
        /// The screen.
        screen: ScreenKind,
    },
}

/// Drives one visit.
#[derive(Clone, Debug)]
pub struct Pilot {
    plan: Plan,
    presses: u32,
    presses_max: u32,
    /// The option that was taken last, on whose account a keyboard or a list of ranks is open.
    taken: Option<Mark>,
    has_read_back: bool,
    has_tried_again: bool,
    /// Makes letters as large as they get.
    wants_largest: bool,
    /// Has this many papers more to spoil.
    spoils: u8,
    fault: Option<PilotError>,
}

impl Pilot {
    /// A pilot with a plan.
    pub fn new(plan: Plan) -> Self {
        Self {
            plan,
            presses: 0,
            presses_max: PRESSES_MAX,
            taken: None,
            has_read_back: false,
            has_tried_again: false,
            wants_largest: false,
            spoils: 0,
            fault: None,
        }
    }

    /// The same pilot, which gives up after so many presses.
    #[must_use]
    pub fn with_presses_max(mut self, presses_max: u32) -> Self {
        self.presses_max = presses_max;
        self
    }

    /// The same pilot, which first makes letters as large as they get.
    #[must_use]
    pub fn with_largest_letters(mut self) -> Self {
        self.wants_largest = true;
        self
    }

    /// The same pilot, which says of its first paper that it isn't right and gets another.
    #[must_use]
    pub fn with_a_spoiled_paper(mut self) -> Self {
        self.spoils = 1;
        self
    }

    /// How many presses it has sent.
    pub fn presses(&self) -> u32 {
        self.presses
    }

    /// Why it gave up, if it did.
    pub fn fault(&self) -> Option<&PilotError> {
        self.fault.as_ref()
    }

    /// The next press, or nothing: while a device works, at the end of the visit, or after giving up
    /// (then [`Pilot::fault`] says why).
    pub fn next(&mut self, view: &View) -> Option<Command> {
        let command = match self.press(view) {
            Ok(command) => command?,
            Err(fault) => {
                self.fault = Some(fault);
                return None;
            }
        };
        if self.presses >= self.presses_max {
            let (presses, screen) = (self.presses, view.screen);
            self.fault = Some(PilotError::TooManyPresses { presses, screen });
            return None;
        }
        self.presses += 1;
        Some(command)
    }

    fn press(&mut self, view: &View) -> Result<Option<Command>, PilotError> {
        let Some(wanted) = self.wanted(view)? else { return Ok(None) };
        let command = towards(view, wanted)?;
        if command == Command::Choose && view.focus == Some(wanted) {
            self.note(view, wanted);
        }
        Ok(Some(command))
    }

    /// Remembers what a press does that the next screen doesn't say.
    fn note(&mut self, view: &View, wanted: Target) {
        match (view.screen, wanted) {
            (ScreenKind::Contest, Target::Row(row)) => {
                let planned = contest_of(view)
                    .and_then(|contest| self.marks(contest))
                    .and_then(|marks| marks.iter().find(|mark| mark.option == row));
                self.taken = planned.cloned();
            }
            (ScreenKind::CheckPaper, Target::Row(0)) => self.has_read_back = true,
            // The next paper is read to the voter anew.
            (ScreenKind::Spoil, Target::Row(0)) => {
                (self.has_read_back, self.spoils) = (false, self.spoils.saturating_sub(1));
            }
            (ScreenKind::ReadFault, Target::Row(0)) => self.has_tried_again = true,
            _ => {}
        }
    }

    fn marks(&self, contest: usize) -> Option<&[Mark]> {
        self.plan.contests.as_ref()?.get(contest).map(Vec::as_slice)
    }

    /// What this screen's next step is; `None` where there is nothing to press.
    fn wanted(&self, view: &View) -> Result<Option<Target>, PilotError> {
        let unexpected = Err(PilotError::Unexpected { screen: view.screen });
        let target = match view.screen {
            ScreenKind::Opening
            | ScreenKind::AskPrint
            | ScreenKind::Done
            | ScreenKind::Worker
            | ScreenKind::ConfirmEnd
            | ScreenKind::Differs => Target::Row(0),
            ScreenKind::MoreTime => Target::Row(0),
            ScreenKind::AskHide | ScreenKind::PressOffer => Target::Row(1),
            ScreenKind::Presses | ScreenKind::Listen => Target::Forward,
            ScreenKind::Languages => self.language(view),
            ScreenKind::Comfort if self.wants_largest && view.comfort.size < TypeSize::Largest => {
                Target::Row(0)
            }
            ScreenKind::Comfort | ScreenKind::Practice | ScreenKind::HowTo | ScreenKind::Review => {
                Target::Forward
            }
            ScreenKind::Contest => self.contest(view),
            ScreenKind::RankPick => match self.taken.as_ref().and_then(|mark| mark.rank) {
                Some(rank) => Target::Row(u16::from(rank.saturating_sub(1))),
                None => Target::Back,
            },
            ScreenKind::RankChange if self.has_plan() => Target::Row(0),
            // Those below keep their ranks: the plan says each one's own.
            ScreenKind::LowerRanks if self.has_plan() => Target::Row(1),
            ScreenKind::WriteIn => match &self.taken {
                Some(mark) => keyboard(view, mark.name.as_deref().unwrap_or_default()),
                None => Target::Back,
            },
            ScreenKind::BlankName if self.taken.is_some() => Target::Row(1),
            ScreenKind::WriteInChange if self.has_plan() => {
                Target::Row(u16::from(self.taken.is_none()))
            }
            // Everything above a limit was undone first, so a plan never meets it.
            ScreenKind::Limit if self.has_plan() => return unexpected,
            ScreenKind::Limit
            | ScreenKind::RankChange
            | ScreenKind::LowerRanks
            | ScreenKind::BlankName
            | ScreenKind::WriteInChange
            | ScreenKind::FullText
            | ScreenKind::Help
            | ScreenKind::Explain => Target::Back,
            // The second row prints again; the first calls a worker.
            ScreenKind::PrintFault => Target::Row(1),
            ScreenKind::ReadFault => Target::Row(u16::from(self.has_tried_again)),
            ScreenKind::CheckPaper if self.has_read_back && self.spoils > 0 => Target::Row(2),
            ScreenKind::CheckPaper => Target::Row(u16::from(self.has_read_back)),
            ScreenKind::ReadBack if view.more_below.is_some() => Target::MoreBelow,
            ScreenKind::ReadBack => Target::Back,
            // Keep my choices; where no more sheets may be had, the way out is back.
            ScreenKind::Spoil if view.rows.len() > 1 => Target::Row(0),
            ScreenKind::Spoil => Target::Back,
            ScreenKind::Printing | ScreenKind::ReadingPaper | ScreenKind::Ended => return Ok(None),
        };
        Ok(Some(target))
    }

    fn has_plan(&self) -> bool {
        self.plan.contests.is_some()
    }

    fn language(&self, view: &View) -> Target {
        let Some(language) = self.plan.language else { return Target::Forward };
        let row = u16::from(language.0);
        match view.rows.get(usize::from(row)).map(|row| &row.kind) {
            Some(RowKind::Oval { filled: false }) => Target::Row(row),
            _ => Target::Forward,
        }
    }

    /// The first row that isn't as planned: those to be undone first, then those to be marked.
    fn contest(&self, view: &View) -> Target {
        let marks = contest_of(view).and_then(|contest| self.marks(contest));
        let Some(marks) = marks else { return Target::Forward };
        let planned = |row: u16| marks.iter().find(|mark| mark.option == row);
        let rows = || (0u16..).zip(&view.rows);
        let to_undo = rows().find(|(index, row)| match (&row.kind, planned(*index)) {
            (RowKind::Oval { filled: true }, None) => true,
            (RowKind::Oval { filled: true }, Some(mark)) => has_other_name(&row.label, mark),
            (RowKind::Ranked { rank: Some(rank), .. }, mark) => {
                mark.and_then(|mark| mark.rank) != Some(rank.0)
            }
            _ => false,
        });
        let to_mark = || {
            rows().find(|(index, row)| {
                let is_empty = matches!(
                    row.kind,
                    RowKind::Oval { filled: false } | RowKind::Ranked { rank: None, .. }
                );
                is_empty && planned(*index).is_some()
            })
        };
        to_undo.or_else(to_mark).map_or(Target::Forward, |(index, _)| Target::Row(index))
    }
}

/// Which contest is on the screen, from 0: as the screen itself says ("contest 3 of 18").
fn contest_of(view: &View) -> Option<usize> {
    let place = view.place.as_ref().filter(|place| place.message == Message::ContestPlace)?;
    let number = place.args.iter().find_map(|(name, arg)| match arg {
        Arg::Number(number) if *name == "contest" => Some(*number),
        _ => None,
    })?;
    usize::try_from(number).ok()?.checked_sub(1)
}

/// The name that a phrase shows, where it shows one that was written.
fn written_in(phrase: &Phrase) -> Option<&str> {
    phrase.args.iter().find_map(|(_, arg)| match arg {
        Arg::Written(name) => Some(name.as_str()),
        _ => None,
    })
}

/// True where a marked write-in line shows another name than the planned one.
fn has_other_name(label: &Phrase, mark: &Mark) -> bool {
    let wanted = mark.name.as_deref().unwrap_or_default();
    written_in(label).unwrap_or_default().trim() != wanted.trim()
}

/// What stands on the keyboard's screen so far.
pub fn typed(view: &View) -> &str {
    let line = view.lines.iter().find(|line| line.message == Message::WriteInSoFar);
    line.and_then(written_in).unwrap_or_default()
}

/// The next thing to take on the keyboard: a letter, "delete" after a wrong one, or "finish".
fn keyboard(view: &View, name: &str) -> Target {
    let typed = typed(view);
    let row_of = |message| {
        let row = (0u16..).zip(&view.rows).find(|(_, row)| row.label.message == message);
        Target::Row(row.map_or(u16::MAX, |(index, _)| index))
    };
    match name.strip_prefix(typed) {
        Some("") => row_of(Message::WriteInFinish),
        None => row_of(Message::WriteInDelete),
        Some(rest) => {
            let letter = rest.chars().next().unwrap_or_default();
            let place = (0u16..).zip(&view.rows).find_map(|(index, row)| match &row.kind {
                RowKind::Keys(keys) => {
                    let key = keys.iter().position(|key| *key == letter)?;
                    Some(Target::Key { row: index, key: u16::try_from(key).ok()? })
                }
                _ => None,
            });
            place.unwrap_or(Target::Row(u16::MAX))
        }
    }
}

/// One press towards a target: on to the next item, or into what holds it, or taking it.
///
/// # Errors
/// The screen has no such target.
pub fn towards(view: &View, wanted: Target) -> Result<Command, PilotError> {
    let is_there = match wanted {
        Target::Key { row, key } => view.key_at(row, key).is_some(),
        Target::Row(row) => {
            view.rows.get(usize::from(row)).is_some_and(|row| row.kind.takes_focus())
        }
        Target::MoreAbove => view.more_above.is_some(),
        Target::MoreBelow => view.more_below.is_some(),
        other => view.targets().contains(&other),
    };
    if !is_there {
        return Err(PilotError::NoSuchTarget { screen: view.screen, wanted });
    }
    let leads = view.focus.is_some_and(|focus| focus == wanted || leads_to(view, focus, wanted));
    Ok(if leads { Command::Choose } else { Command::Step })
}

/// Whether taking what has the focus comes nearer to the target than going on.
fn leads_to(view: &View, focus: Target, wanted: Target) -> bool {
    let row = match wanted {
        Target::Row(row) | Target::Key { row, .. } => Some(row),
        _ => None,
    };
    match (focus, row) {
        (Target::Row(_), Some(row)) => focus == Target::Row(row),
        (Target::Block(block) | Target::BlockStart(block), Some(row)) => {
            view.block_of(row).is_some_and(|(holder, _)| holder == block)
        }
        (Target::BackOne(block), Some(row)) => {
            view.block_of(row).is_some_and(|(holder, rows)| holder == block && rows.last() == row)
        }
        (Target::Group, None) => view.group().contains(&wanted),
        // Only where the page doesn't go with the focus.
        (Target::MoreAbove, Some(row)) => row < view.page.first,
        (Target::MoreBelow, Some(row)) => row >= view.page.first.saturating_add(view.page.shown),
        _ => false,
    }
}
