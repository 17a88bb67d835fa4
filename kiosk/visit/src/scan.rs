//! The order in which the first of two switches goes through a screen: options one by one, or block
//! by block where there are many, then going on, then the other actions as one group.
//!
//! Invariant: going on and on reaches every row and every action, and comes round again.
//!
//! Start reading at [`View::step`].

use alloc::vec::Vec;

use crate::{RowKind, Target, View};

/// Up to so many rows are gone through one by one; more are scanned by blocks. With blocks of five,
/// twelve rows cost as many presses on average either way (own computation).
pub const ROWS_WITHOUT_BLOCKS_MAX: usize = 12;
/// The most rows of a block. About the square root of 22, the longest list of names that the
/// demo has: the mean of the presses to a block and within it is then least.
const ROWS_OF_A_BLOCK_MAX: u16 = 5;

/// Rows that are scanned as one before they are gone through: neighbours on one page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Block {
    /// The first row.
    pub first: u16,
    /// How many there are, at least 1.
    pub count: u16,
}

impl Block {
    /// The last row.
    pub const fn last(self) -> u16 {
        self.first.saturating_add(self.count).saturating_sub(1)
    }

    /// Whether it has this row.
    pub const fn holds(self, row: u16) -> bool {
        row >= self.first && row <= self.last()
    }
}

/// Cuts pages into blocks of nearly equal length. `starts` holds the first row of each page, in
/// order.
pub(crate) fn blocks(starts: &[u16], rows: u16) -> Vec<Block> {
    let mut blocks = Vec::new();
    let ends = starts.iter().copied().skip(1).chain(core::iter::once(rows));
    for (start, end) in starts.iter().copied().zip(ends) {
        let mut first = start;
        let mut left = end.saturating_sub(start);
        while left > 0 {
            let parts = left.div_ceil(ROWS_OF_A_BLOCK_MAX);
            let count = left.div_ceil(parts.max(1)).max(1);
            blocks.push(Block { first, count });
            first = first.saturating_add(count);
            left = left.saturating_sub(count);
        }
    }
    blocks
}

/// The actions that make one group: all of the bar but going on.
pub(crate) const GROUP: [Target; 4] =
    [Target::Back, Target::HearAgain, Target::Comfort, Target::Help];

impl View {
    /// What the first switch goes to from `focus`.
    pub fn step(&self, focus: Option<Target>) -> Option<Target> {
        let first = || self.outer().first().copied();
        match focus {
            None => first(),
            Some(Target::Key { row, key }) => Some(self.next_key(row, key)),
            Some(Target::BackOne(block)) => Some(Target::BlockStart(block)),
            Some(Target::BlockStart(block)) => self.after(Target::Block(block)),
            Some(Target::Row(row)) if !self.blocks.is_empty() => self.after_in_block(row),
            Some(target) if GROUP.contains(&target) && self.has_group() => {
                let group = self.group();
                let place = group.iter().position(|there| *there == target);
                let next = place.and_then(|place| group.get(place.saturating_add(1)).copied());
                next.or_else(first)
            }
            Some(target) => self.after(target),
        }
    }

    /// What stands in the outer round: rows or blocks, what is more, going on, the group.
    pub fn outer(&self) -> Vec<Target> {
        let mut outer: Vec<Target> = if self.blocks.is_empty() {
            self.focus_rows().map(Target::Row).collect()
        } else {
            (0u16..).zip(&self.blocks).map(|(block, _)| Target::Block(block)).collect()
        };
        outer.extend(self.more_targets());
        if self.bar_label(Target::Forward).is_some() {
            outer.push(Target::Forward);
        }
        if self.has_group() {
            outer.push(Target::Group);
        } else {
            outer.extend(self.group());
        }
        outer
    }

    /// The actions of the group that this screen has.
    pub fn group(&self) -> Vec<Target> {
        GROUP.into_iter().filter(|target| self.bar_label(*target).is_some()).collect()
    }

    /// Whether there are enough of them to be a group.
    pub fn has_group(&self) -> bool {
        self.group().len() > 1
    }

    /// The block that holds a row, with its place among the blocks.
    pub fn block_of(&self, row: u16) -> Option<(u16, Block)> {
        (0u16..).zip(self.blocks.iter().copied()).find(|(_, block)| block.holds(row))
    }

    /// True where the whole list can be gone through row by row: the page then goes with the focus.
    /// Where some rows are only read, pages are turned by hand.
    pub fn page_follows(&self) -> bool {
        !self.rows.is_empty() && self.rows.iter().all(|row| row.kind.takes_focus())
    }

    /// The rows that can have the focus now.
    pub(crate) fn focus_rows(&self) -> impl Iterator<Item = u16> {
        let (first, count) = if self.page_follows() {
            (0, u16::try_from(self.rows.len()).unwrap_or(u16::MAX))
        } else {
            (self.page.first, self.page.shown)
        };
        (0u16..)
            .zip(&self.rows)
            .skip(usize::from(first))
            .take(usize::from(count))
            .filter(|(_, row)| row.kind.takes_focus())
            .map(|(index, _)| index)
    }

    /// The buttons that turn pages, where the focus doesn't.
    pub(crate) fn more_targets(&self) -> impl Iterator<Item = Target> {
        let is_there = !self.page_follows();
        let below = (is_there && self.more_below.is_some()).then_some(Target::MoreBelow);
        let above = (is_there && self.more_above.is_some()).then_some(Target::MoreAbove);
        below.into_iter().chain(above)
    }

    /// The next of the outer round.
    fn after(&self, target: Target) -> Option<Target> {
        let outer = self.outer();
        let place = outer.iter().position(|there| *there == target);
        let next = place.and_then(|place| outer.get(place.saturating_add(1)));
        next.or_else(|| outer.first()).copied()
    }

    fn after_in_block(&self, row: u16) -> Option<Target> {
        let Some((place, block)) = self.block_of(row) else { return self.outer().first().copied() };
        if row < block.last() {
            Some(Target::Row(row.saturating_add(1)))
        } else {
            Some(Target::BackOne(place))
        }
    }

    /// The next key of a row; past its end the focus goes back to the row itself.
    pub(crate) fn next_key(&self, row: u16, key: u16) -> Target {
        let next = key.saturating_add(1);
        if self.key_at(row, next).is_some() {
            Target::Key { row, key: next }
        } else {
            Target::Row(row)
        }
    }

    /// A key of a row of keys.
    pub fn key_at(&self, row: u16, key: u16) -> Option<char> {
        match &self.rows.get(usize::from(row))?.kind {
            RowKind::Keys(keys) => keys.get(usize::from(key)).copied(),
            RowKind::Oval { .. }
            | RowKind::Ranked { .. }
            | RowKind::Action
            | RowKind::Summary
            | RowKind::Passage
            | RowKind::Picture(..) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lengths(starts: &[u16], rows: u16) -> Vec<u16> {
        blocks(starts, rows).iter().map(|block| block.count).collect()
    }

    #[test]
    fn blocks_are_nearly_equal_and_keep_to_their_pages() {
        assert_eq!(lengths(&[0], 22), [5, 5, 4, 4, 4]);
        assert_eq!(lengths(&[0, 8, 16], 22), [4, 4, 4, 4, 3, 3]);
        assert_eq!(lengths(&[0, 3], 4), [3, 1]);
        assert_eq!(lengths(&[0], 0), [] as [u16; 0]);
    }
}
