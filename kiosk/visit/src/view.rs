//! What is on the screen, as plain data: the window, the voice and the golden texts are made of it.

use alloc::vec::Vec;

use evenhand_rules::{ContestIndex, OptionIndex, Rank};

use crate::scan::GROUP;
use crate::{BallotState, Block, Comfort, Phrase, ScreenKind, TypeSize};

/// Something that can have the focus and be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Target {
    /// A row, by its place in [`View::rows`].
    Row(u16),
    /// A key of a row of keys.
    Key {
        /// The row.
        row: u16,
        /// The key within it.
        key: u16,
    },
    /// A block of rows, by its place in [`View::blocks`].
    Block(u16),
    /// After the last row of this block: back to that row.
    BackOne(u16),
    /// After that: back to the first row of this block.
    BlockStart(u16),
    /// Show what is above.
    MoreAbove,
    /// Show what is below.
    MoreBelow,
    /// All places of the bar but going on, as one.
    Group,
    /// One screen on.
    Forward,
    /// One screen back.
    Back,
    /// Say this screen again.
    HearAgain,
    /// Type, contrast, speech, language.
    Comfort,
    /// Help.
    Help,
}

/// What a row looks like.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowKind {
    /// An option with the paper's oval.
    Oval {
        /// True where it is chosen: the oval is drawn solid.
        filled: bool,
    },
    /// An option of a ranked contest: one oval a rank is drawn, this one solid.
    Ranked {
        /// How many ranks there are.
        ranks: u8,
        /// Its rank.
        rank: Option<Rank>,
    },
    /// Something to do.
    Action,
    /// One contest on the review: can be taken to go there.
    Summary,
    /// Something to read only: never has the focus.
    Passage,
    /// A row of keys.
    Keys(Vec<char>),
    /// A written name's picture from the paper, with its words: read only.
    Picture(ContestIndex, OptionIndex),
}

impl RowKind {
    /// True where the row can have the focus.
    pub const fn takes_focus(&self) -> bool {
        match self {
            Self::Oval { .. }
            | Self::Ranked { .. }
            | Self::Action
            | Self::Summary
            | Self::Keys(_) => true,
            Self::Passage | Self::Picture(..) => false,
        }
    }
}

/// One row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it looks like.
    pub kind: RowKind,
    /// Its name, in the larger type.
    pub label: Phrase,
    /// Smaller under it.
    pub detail: Option<Phrase>,
    /// Its state in words ("chosen").
    pub state: Option<Phrase>,
}

/// How grave a notice is. Each has a word and a shape beside its colour (VVSG 2.0 7.1-E, F; from
/// memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Information.
    Normal,
    /// Caution.
    Caution,
    /// A fault.
    Fault,
}

/// A clear band at the top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// How grave.
    pub tone: Tone,
    /// What happened, whether one can go on, what to do.
    pub phrase: Phrase,
}

/// Which rows are shown, and how many more there are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Page {
    /// The first row shown.
    pub first: u16,
    /// How many are shown.
    pub shown: u16,
    /// How many are above.
    pub above: u16,
    /// How many are below.
    pub below: u16,
}

/// One place of the bar at the bottom; its place never moves, though it may be empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// What it does.
    pub target: Target,
    /// Its words; `None` where there is nothing to do: the place stays empty.
    pub label: Option<Phrase>,
}

/// Everything on one screen.
#[derive(Clone, Debug, PartialEq, Eq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a question that the window asks by itself"
)]
pub struct View {
    /// Which screen it is.
    pub screen: ScreenKind,
    /// True while a worker is asked for a code or is in: the voter's window is closed, so that what
    /// lies behind it is seen.
    pub is_away: bool,
    /// True where the screen is hidden and a worker called: nothing of the voter's is in the rest.
    pub is_hidden: bool,
    /// True where the voter has hidden the screen and listens: nothing of the rest is drawn.
    pub is_covered: bool,
    /// Demo, test or official: said on every screen.
    pub state: BallotState,
    /// The words for that state, `None` on an official ballot.
    pub state_words: Option<Phrase>,
    /// A band at the top.
    pub notice: Option<Notice>,
    /// Where the voter is.
    pub place: Option<Phrase>,
    /// The title.
    pub heading: Phrase,
    /// Lines under the title: the limit, what is left, a short text.
    pub lines: Vec<Phrase>,
    /// All rows, shown or not.
    pub rows: Vec<Row>,
    /// Which of them are shown.
    pub page: Page,
    /// True where two switches go through the rows block by block: a long list.
    pub has_blocks: bool,
    /// The blocks, where there are.
    pub blocks: Vec<Block>,
    /// "4 more above", where there are.
    pub more_above: Option<Phrase>,
    /// "4 more below", where there are.
    pub more_below: Option<Phrase>,
    /// The bar, in the order of its places from left to right: back, hear again, comfort, help,
    /// next.
    pub bar: [Bar; 5],
    /// What has the focus.
    pub focus: Option<Target>,
    /// The voter's settings.
    pub comfort: Comfort,
}

impl View {
    /// The rows that are shown, with their places.
    pub fn shown_rows(&self) -> impl Iterator<Item = (u16, &Row)> {
        (0u16..)
            .zip(&self.rows)
            .skip(usize::from(self.page.first))
            .take(usize::from(self.page.shown))
    }

    /// Everything that keys can give the focus to, in the order in which it moves: rows, more, next,
    /// back, hear again, comfort, help.
    pub fn targets(&self) -> Vec<Target> {
        let mut targets: Vec<Target> = self.focus_rows().map(Target::Row).collect();
        targets.extend(self.more_targets());
        let order = core::iter::once(Target::Forward).chain(GROUP);
        targets.extend(order.filter(|target| self.bar_label(*target).is_some()));
        targets
    }

    /// What keys go to from `focus`: on by one, or back.
    pub(crate) fn moved(&self, focus: Option<Target>, is_back: bool) -> Option<Target> {
        let targets = self.targets();
        if let Some(Target::Key { row, key }) = focus {
            let before = key.checked_sub(1).map(|key| Target::Key { row, key });
            return Some(if is_back {
                before.unwrap_or(Target::Row(row))
            } else {
                self.next_key(row, key)
            });
        }
        let row_of = |block: u16, is_last: bool| {
            let block = self.blocks.get(usize::from(block))?;
            Some(Target::Row(if is_last { block.last() } else { block.first }))
        };
        // Where only switches go, keys go on from the nearest of their own places.
        let focus = match focus {
            Some(Target::Block(block)) => row_of(block, false),
            Some(Target::BackOne(block) | Target::BlockStart(block)) => row_of(block, true),
            Some(Target::Group) => self.group().first().copied(),
            focus => focus,
        };
        let Some(now) = targets.iter().position(|target| Some(*target) == focus) else {
            return targets.first().copied();
        };
        let next = if is_back { now.checked_sub(1) } else { Some(now.saturating_add(1)) };
        match next {
            None => targets.last().copied(),
            Some(next) => targets.get(next).or(targets.first()).copied(),
        }
    }

    /// The words on one place of the bar.
    pub fn bar_label(&self, target: Target) -> Option<&Phrase> {
        self.bar.iter().find(|bar| bar.target == target).and_then(|bar| bar.label.as_ref())
    }
}

/// Knows how much fits on the screen. The window implements it with its fonts and sizes; tests with
/// a number. It must be a pure function of the view's texts and settings.
pub trait Ruler {
    /// How many rows of `view`, from row `first` on, fit under its heading and lines; at least 1.
    /// [`View::page`] and [`View::blocks`] are not to be looked at: they aren't known yet.
    fn rows_that_fit(&self, view: &View, first: u16) -> u16;

    /// The largest letters that the screen can show: with larger ones a screen would lose a part.
    fn size_most(&self) -> TypeSize {
        TypeSize::Largest
    }
}
