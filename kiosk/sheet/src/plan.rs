//! Which brick stands in which column of which page. Heights only; nothing is drawn here.

use alloc::vec::Vec;

use evenhand_rules::Micrometres;

use crate::metrics::{BLOCK_GAP, BOX_PADDING};

/// What is to be placed, in ballot order.
#[derive(Debug)]
pub(crate) enum Block {
    /// A header of this height. It stays with the block after it.
    Heading(Micrometres),
    /// A contest.
    Contest {
        /// Height of the first part's head.
        head: Micrometres,
        /// Height of every later part's head.
        repeated_head: Micrometres,
        /// Height of each brick, and whether it stays with the next.
        body: Vec<(Micrometres, bool)>,
    },
}

/// The columns that blocks are placed in.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Frame {
    /// Columns a page.
    pub(crate) columns: u8,
    /// Top of every column.
    pub(crate) top: Micrometres,
    /// Bottom of every column.
    pub(crate) bottom: Micrometres,
    /// Height of the instructions, first in the first column.
    pub(crate) instructions: Micrometres,
    /// True where no contest follows the instructions in their column.
    pub(crate) instructions_alone: bool,
}

/// Where one part of one block stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Placed {
    /// Which block.
    pub(crate) block: usize,
    /// Which page, from 0.
    pub(crate) page: u16,
    /// Which column of the page, from 0.
    pub(crate) column: u8,
    /// Top of the part.
    pub(crate) y: Micrometres,
    /// The part's first brick.
    pub(crate) first: usize,
    /// One past the part's last brick.
    pub(crate) end: usize,
    /// Height of the part, head included.
    pub(crate) height: Micrometres,
}

/// Where everything stands.
#[derive(Debug)]
pub(crate) struct Plan {
    pub(crate) placed: Vec<Placed>,
    pub(crate) pages: u16,
    /// How often a contest goes on in another column.
    pub(crate) splits: u16,
}

/// A block with a part that is taller than a whole column.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TooTall {
    /// Which block.
    pub(crate) block: usize,
}

/// Places every block: in order, each whole where a column can hold it.
pub(crate) fn plan(blocks: &[Block], frame: Frame) -> Result<Plan, TooTall> {
    let mut cursor = Cursor::new(frame);
    let mut headings: Vec<(usize, Micrometres)> = Vec::new();
    for (at, block) in blocks.iter().enumerate() {
        match block {
            Block::Heading(height) => headings.push((at, *height)),
            Block::Contest { .. } => {
                cursor.contest(at, block, &headings)?;
                headings.clear();
            }
        }
    }
    // Headers with no contest after them still stand on the paper.
    for (at, height) in headings {
        cursor.make_room(height);
        cursor.heading(at, height);
    }
    let pages = cursor.page.saturating_add(1);
    Ok(Plan { placed: cursor.placed, pages, splits: cursor.splits })
}

/// Where the next block goes.
struct Cursor {
    frame: Frame,
    page: u16,
    column: u8,
    y: Micrometres,
    /// True where nothing stands in this column yet.
    is_fresh: bool,
    placed: Vec<Placed>,
    splits: u16,
}

impl Cursor {
    fn new(frame: Frame) -> Self {
        let y = frame.top.plus(frame.instructions);
        let placed = Vec::new();
        let mut cursor = Self { frame, page: 0, column: 0, y, is_fresh: false, placed, splits: 0 };
        if frame.instructions_alone {
            cursor.next_column();
        }
        cursor
    }

    fn next_column(&mut self) {
        self.column = self.column.saturating_add(1);
        if self.column >= self.frame.columns {
            self.column = 0;
            self.page = self.page.saturating_add(1);
        }
        self.y = self.frame.top;
        self.is_fresh = true;
    }

    /// Room from the next block's top to the column's end.
    fn room(&self) -> Micrometres {
        let gap = if self.is_fresh { Micrometres(0) } else { BLOCK_GAP };
        self.frame.bottom.minus(self.y).minus(gap)
    }

    fn make_room(&mut self, height: Micrometres) {
        if self.room() < height && !self.is_fresh {
            self.next_column();
        }
    }

    fn push(&mut self, block: usize, height: Micrometres, bricks: core::ops::Range<usize>) {
        if !self.is_fresh {
            self.y = self.y.plus(BLOCK_GAP);
        }
        let (first, end) = (bricks.start, bricks.end);
        let (page, column, y) = (self.page, self.column, self.y);
        self.placed.push(Placed { block, page, column, y, first, end, height });
        self.y = self.y.plus(height);
        self.is_fresh = false;
    }

    fn heading(&mut self, block: usize, height: Micrometres) {
        self.push(block, height, 0..0);
    }

    fn contest(
        &mut self,
        at: usize,
        block: &Block,
        headings: &[(usize, Micrometres)],
    ) -> Result<(), TooTall> {
        let Block::Contest { head, repeated_head, body } = block else { return Ok(()) };
        let over = headings.iter().fold(Micrometres(0), |sum, (_, h)| sum.plus(*h).plus(BLOCK_GAP));
        let inner = body.iter().fold(Micrometres(0), |sum, (height, _)| sum.plus(*height));
        let whole = head.plus(inner).plus(BOX_PADDING);
        let column = self.frame.bottom.minus(self.frame.top);
        let is_long = whole > column;
        // A long contest begins where a good part of it has room, else in a column of its own.
        let start = if is_long { column.half() } else { whole };
        self.make_room(over.plus(start));
        for (block, height) in headings {
            self.make_room(*height);
            self.heading(*block, *height);
        }
        if !is_long {
            // Headers that leave no room for it are the only thing that parts it from them.
            self.make_room(whole);
            self.push(at, whole, 0..body.len());
            return Ok(());
        }
        let mut first = 0;
        let mut head = *head;
        while first < body.len() {
            let room = self.room().minus(head).minus(BOX_PADDING);
            let (end, height) = fitting(body, first, room);
            if end > first {
                self.push(at, head.plus(height).plus(BOX_PADDING), first..end);
                first = end;
                if first == body.len() {
                    break;
                }
                head = *repeated_head;
                self.splits = self.splits.saturating_add(1);
            } else if self.is_fresh {
                return Err(TooTall { block: at });
            }
            self.next_column();
        }
        Ok(())
    }
}

/// The bricks from `first` that have room, and their height. A column doesn't end after a brick that
/// stays with the next, unless nothing else is possible.
fn fitting(body: &[(Micrometres, bool)], first: usize, room: Micrometres) -> (usize, Micrometres) {
    let mut best = (first, Micrometres(0));
    let mut any = best;
    let mut height = Micrometres(0);
    for (at, (brick, keeps_next)) in body.iter().enumerate().skip(first) {
        height = height.plus(*brick);
        if height > room {
            break;
        }
        any = (at.saturating_add(1), height);
        if !keeps_next || any.0 == body.len() {
            best = any;
        }
    }
    if best.0 == first { any } else { best }
}

#[cfg(test)]
#[expect(clippy::arithmetic_side_effects, reason = "a test may panic")]
mod tests {
    use super::*;

    fn frame(columns: u8, height: i32) -> Frame {
        Frame {
            columns,
            top: Micrometres(20_000),
            bottom: Micrometres(20_000 + height),
            instructions: Micrometres(10_000),
            instructions_alone: false,
        }
    }

    fn contest(rows: usize, row: i32) -> Block {
        Block::Contest {
            head: Micrometres(10_000),
            repeated_head: Micrometres(8_000),
            body: alloc::vec![(Micrometres(row), false); rows],
        }
    }

    /// What must hold of any plan.
    fn check(blocks: &[Block], frame: Frame) -> Plan {
        let plan = plan(blocks, frame).unwrap();
        for pair in plan.placed.windows(2) {
            let [a, b] = pair else { continue };
            let same = (a.page, a.column) == (b.page, b.column);
            assert!((a.page, a.column) <= (b.page, b.column), "columns in order");
            assert!(!same || b.y >= a.y.plus(a.height), "no overlap: {a:?} {b:?}");
        }
        for part in &plan.placed {
            assert!(part.y >= frame.top && part.y.plus(part.height) <= frame.bottom, "{part:?}");
        }
        for (at, block) in blocks.iter().enumerate() {
            let parts: Vec<_> = plan.placed.iter().filter(|part| part.block == at).collect();
            if let Block::Contest { head, body, .. } = block {
                let placed: usize = parts.iter().map(|part| part.end - part.first).sum();
                assert_eq!(placed, body.len(), "each brick once");
                let inner: i32 = body.iter().map(|(height, _)| height.0).sum();
                let whole = head.0 + inner + BOX_PADDING.0;
                if whole <= frame.bottom.0 - frame.top.0 {
                    assert_eq!(parts.len(), 1, "a contest that a column can hold isn't split");
                }
            }
        }
        plan
    }

    #[test]
    fn contests_fill_columns_in_order() {
        let blocks: Vec<Block> = (0..9).map(|_| contest(4, 7_000)).collect();
        let plan = check(&blocks, frame(2, 100_000));
        assert_eq!(plan.splits, 0);
        assert_eq!(plan.pages, 3);
    }

    #[test]
    fn a_header_goes_with_its_contest() {
        let blocks = [contest(9, 7_000), Block::Heading(Micrometres(9_000)), contest(3, 5_000)];
        let plan = check(&blocks, frame(2, 100_000));
        let [_, heading, under] = plan.placed.as_slice() else { panic!("{plan:?}") };
        assert_eq!((heading.page, heading.column), (under.page, under.column));
        assert_eq!((heading.page, heading.column), (0, 1));
    }

    #[test]
    fn a_long_contest_is_split_between_rows() {
        let plan = check(&[contest(40, 7_000)], frame(2, 100_000));
        assert!(plan.splits >= 2);
    }

    #[test]
    fn a_row_taller_than_a_column_is_refused() {
        let too_tall = plan(&[contest(2, 5_000), contest(1, 95_000)], frame(1, 100_000));
        assert_eq!(too_tall.unwrap_err().block, 1);
    }

    #[test]
    fn a_column_does_not_end_after_a_brick_that_keeps_the_next() {
        let body = [(Micrometres(5), false), (Micrometres(5), true), (Micrometres(5), false)];
        assert_eq!(fitting(&body, 0, Micrometres(12)), (1, Micrometres(5)));
        assert_eq!(fitting(&body, 0, Micrometres(15)), (3, Micrometres(15)));
        assert_eq!(fitting(&body, 1, Micrometres(5)), (2, Micrometres(5)));
    }

    #[test]
    fn instructions_may_have_their_column_alone() {
        let alone = Frame { instructions_alone: true, ..frame(2, 100_000) };
        let plan = check(&[contest(2, 5_000)], alone);
        assert_eq!(plan.placed.first().map(|part| part.column), Some(1));
    }
}
