//! From a style to its pages: the arrangement with the fewest sheets, then the shortest paper.

use alloc::string::String;
use alloc::vec::Vec;

use evenhand_lettering::{MissingCharacter, Shaper};
use evenhand_rules::{
    ContestIndex, Election, Item, Micrometres, OptionIndex, Style as BallotStyle,
};

use crate::brick::Brick;
use crate::contest::{ContestBricks, ContestBuilder, ContestFault};
use crate::instructions::{heading, instructions, page_head, stamp_area};
use crate::metrics::{
    BLOCK_GAP, CLEAR, COLUMN_MIN, CORNER, EDGE, FOOT, GUTTER, INDENT, LARGE, MARGIN, MODULE,
    NORMAL, PAPER_LENGTHS, PAPER_WIDTH, SHEETS_MAX, SMALL, TITLE, TOP_EDGE,
};
use crate::plan::{Block, Frame, Placed, Plan, TooTall, plan};
use crate::setter::{Setter, Slot, Style};
use crate::{
    Ballot, BallotState, CODE_SIDE, CornerFigure, Edition, NextPage, Page, PagePlace, Payload,
    Point, Rect, Rule, Side, Stamp,
};

/// Why a style can't be put on paper. The office must change the definition or the edition.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ComposeError {
    /// An edition has one language or two.
    #[error("an edition has one language or two, not {0}")]
    Languages(usize),
    /// The head, a header, the instructions or the foot has a character that the faces lack.
    #[error("in the page's head, foot, headers or instructions: {0}")]
    MissingCharacter(MissingCharacter),
    /// A contest has a character that the faces lack.
    #[error("contest {id}: {missing}")]
    ContestMissingCharacter {
        /// The contest.
        contest: ContestIndex,
        /// Its id in the definition.
        id: String,
        /// The character.
        missing: MissingCharacter,
    },
    /// A ranked contest has more ranks than stand beside the names on the widest column.
    #[error("contest {id}: its ranks leave no room for names")]
    RanksTooWide {
        /// The contest.
        contest: ContestIndex,
        /// Its id in the definition.
        id: String,
    },
    /// One option, with the contest's title, is taller than the longest paper's column.
    #[error("contest {id}: its title and one option are longer than a column")]
    TooTall {
        /// The contest.
        contest: ContestIndex,
        /// Its id in the definition.
        id: String,
        /// The option, or `None` where it is a header.
        option: Option<OptionIndex>,
    },
    /// The head and the instructions leave no column at all.
    #[error("the page's head and the instructions leave no room for contests")]
    NoRoom,
    /// The ballot needs more sheets than one ballot may have.
    #[error("the ballot needs {needed} sheets; at most {most} may be one ballot")]
    TooManySheets {
        /// Sheets of the longest paper that it needs.
        needed: u16,
        /// The most there may be.
        most: u8,
    },
    /// The code's nine bytes didn't fit their symbol: a bug, not a fault of the definition.
    #[error("the code can't be made")]
    Code,
}

impl From<MissingCharacter> for ComposeError {
    fn from(missing: MissingCharacter) -> Self {
        Self::MissingCharacter(missing)
    }
}

/// Composes a style's ballot.
///
/// `style_index` is the style's place in `election.styles`; it goes into the code. Two columns,
/// unless a contest needs the width of one. Among 11, 14 and 17 in papers the one with the fewest
/// sheets is taken, then the one that splits the fewest contests, then the shortest; the
/// instructions have their column alone where that costs nothing.
///
/// # Errors
/// [`ComposeError`] names the contest and the cause.
pub fn compose(
    election: &Election,
    style: &BallotStyle,
    style_index: u16,
    edition: &Edition<'_>,
    state: BallotState,
) -> Result<Ballot, ComposeError> {
    if !(1..=2).contains(&edition.languages.len()) {
        return Err(ComposeError::Languages(edition.languages.len()));
    }
    let shaper = Shaper::new();
    let setter = Setter { shaper: &shaper, edition: *edition };
    let content = match Content::build(&setter, election, style, 2) {
        Err(ComposeError::RanksTooWide { .. }) => Content::build(&setter, election, style, 1)?,
        other => other?,
    };
    let (length, plan) = content.best_plan()?;
    let sheets = u8::try_from(sheets_of(&plan)).unwrap_or(u8::MAX);
    let sheet = Drawing { setter, content, election, style_index, state, length, sheets };
    let mut pages = Vec::new();
    for page in 0..plan.pages {
        pages.push(sheet.page(page, &plan)?);
    }
    Ok(Ballot { width: PAPER_WIDTH, length, pages })
}

/// Everything that is to be placed, in columns of one width.
struct Content {
    columns: u8,
    column_width: Micrometres,
    head: Brick,
    instructions: Brick,
    items: Vec<Built>,
}

/// One item of the ballot as bricks.
enum Built {
    Heading(Brick),
    Contest(ContestIndex, String, ContestBricks),
}

impl Content {
    fn build(
        setter: &Setter<'_>,
        election: &Election,
        style: &BallotStyle,
        columns: u8,
    ) -> Result<Self, ComposeError> {
        let across = PAPER_WIDTH.minus(MARGIN.times(2));
        let width = if columns == 1 { across } else { across.minus(GUTTER).half() };
        let builder = ContestBuilder { setter, style, width };
        let mut items = Vec::new();
        let mut contests = style.contests();
        for item in &style.items {
            items.push(match item {
                Item::Header(header) => Built::Heading(heading(setter, header, width)?),
                Item::Contest(contest) => {
                    let index = contests.next().map_or(ContestIndex(0), |(index, _)| index);
                    let id = contest.id.clone();
                    match builder.build(index, contest) {
                        Ok(bricks) => Built::Contest(index, id, bricks),
                        Err(ContestFault::RanksTooWide) => {
                            return Err(ComposeError::RanksTooWide { contest: index, id });
                        }
                        Err(ContestFault::MissingCharacter(missing)) => {
                            let contest = index;
                            return Err(ComposeError::ContestMissingCharacter {
                                contest,
                                id,
                                missing,
                            });
                        }
                    }
                }
            });
        }
        let head = page_head(setter, election, style)?;
        let instructions = instructions(setter, width)?;
        Ok(Self { columns, column_width: width, head, instructions, items })
    }

    /// The paper's length and the plan that is best on it.
    fn best_plan(&self) -> Result<(Micrometres, Plan), ComposeError> {
        let blocks: Vec<Block> = self.items.iter().map(Built::block).collect();
        let mut best: Option<(Micrometres, Plan)> = None;
        let mut fault = ComposeError::NoRoom;
        for length in PAPER_LENGTHS {
            // In this order a plan with the instructions alone wins where it is as good as without.
            for instructions_alone in [true, false] {
                let frame = self.frame(length, instructions_alone);
                if instructions_alone && self.columns == 1
                    || frame.bottom.minus(frame.top) < COLUMN_MIN
                {
                    continue;
                }
                match plan(&blocks, frame) {
                    Err(too_tall) => fault = self.too_tall(too_tall),
                    Ok(plan) => {
                        let rank = |plan: &Plan| (sheets_of(plan), plan.splits);
                        if best.as_ref().is_none_or(|(_, old)| rank(&plan) < rank(old)) {
                            best = Some((length, plan));
                        }
                    }
                }
            }
        }
        let (length, plan) = best.ok_or(fault)?;
        let needed = sheets_of(&plan);
        if needed > u16::from(SHEETS_MAX) {
            return Err(ComposeError::TooManySheets { needed, most: SHEETS_MAX });
        }
        Ok((length, plan))
    }

    fn frame(&self, length: Micrometres, instructions_alone: bool) -> Frame {
        let top = MARGIN.plus(self.head.height).plus(BLOCK_GAP);
        let bottom = length.minus(FOOT);
        let instructions = self.instructions.height;
        Frame { columns: self.columns, top, bottom, instructions, instructions_alone }
    }

    fn too_tall(&self, too_tall: TooTall) -> ComposeError {
        match self.items.get(too_tall.block) {
            Some(Built::Contest(contest, id, bricks)) => {
                let tallest = bricks.body.iter().max_by_key(|brick| brick.height);
                let oval = tallest.and_then(|brick| brick.ovals.first());
                let option = oval.map(|oval| oval.id.option);
                ComposeError::TooTall { contest: *contest, id: id.clone(), option }
            }
            Some(Built::Heading(_)) | None => ComposeError::NoRoom,
        }
    }
}

impl Built {
    fn block(&self) -> Block {
        match self {
            Self::Heading(brick) => Block::Heading(brick.height),
            Self::Contest(_, _, bricks) => Block::Contest {
                head: bricks.head.height,
                repeated_head: bricks.repeated_head.height,
                body: bricks.body.iter().map(|brick| (brick.height, brick.keeps_next)).collect(),
            },
        }
    }
}

fn sheets_of(plan: &Plan) -> u16 {
    plan.pages.div_ceil(2)
}

/// Draws pages by a plan.
struct Drawing<'a> {
    setter: Setter<'a>,
    content: Content,
    election: &'a Election,
    style_index: u16,
    state: BallotState,
    length: Micrometres,
    sheets: u8,
}

impl Drawing<'_> {
    fn page(&self, number: u16, plan: &Plan) -> Result<Page, ComposeError> {
        let sheet = u8::try_from(number / 2).unwrap_or(u8::MAX).saturating_add(1);
        let side = if number.is_multiple_of(2) { Side::Front } else { Side::Back };
        let mut page = Page {
            sheet,
            side,
            texts: Vec::new(),
            rules: Vec::new(),
            ovals: Vec::new(),
            write_ins: Vec::new(),
            samples: Vec::new(),
            corners: self.corners(),
            code: self.code(sheet, side)?,
            stamp: self.stamp()?,
        };
        let top_left = Point { x: MARGIN, y: MARGIN };
        self.content.head.place(top_left, &mut page);
        if number == 0 {
            let y = self.content.frame(self.length, false).top;
            self.content.instructions.place(Point { x: MARGIN, y }, &mut page);
        }
        for part in plan.placed.iter().filter(|part| part.page == number) {
            self.part(part, &mut page);
        }
        let is_last = number.saturating_add(1) == plan.pages;
        let next = match (is_last, side) {
            (true, _) => NextPage::End,
            (false, Side::Front) => NextPage::OtherSide,
            (false, Side::Back) => NextPage::NextSheet,
        };
        self.foot(PagePlace { sheet, sheets: self.sheets, side, next }, &mut page)?;
        Ok(page)
    }

    /// A header, or a contest's part in its box.
    fn part(&self, part: &Placed, page: &mut Page) {
        let step = self.content.column_width.plus(GUTTER);
        let x = MARGIN.plus(step.times(i32::from(part.column)));
        let mut at = Point { x, y: part.y };
        let bricks = match self.content.items.get(part.block) {
            Some(Built::Contest(_, _, bricks)) => bricks,
            Some(Built::Heading(brick)) => return brick.place(at, page),
            None => return,
        };
        let head = if part.first == 0 { &bricks.head } else { &bricks.repeated_head };
        head.place(at, page);
        at.y = at.y.plus(head.height);
        let count = part.end.saturating_sub(part.first);
        for brick in bricks.body.iter().skip(part.first).take(count) {
            brick.place(at, page);
            at.y = at.y.plus(brick.height);
        }
        let width = self.content.column_width;
        frame_box(Rect { x, y: part.y, width, height: part.height }, page);
    }

    fn corners(&self) -> [CornerFigure; 4] {
        let near = MARGIN.plus(CORNER.half());
        let (right, low) = (PAPER_WIDTH.minus(near), self.length.minus(near));
        let figure =
            |x, y, is_first| CornerFigure { centre: Point { x, y }, diameter: CORNER, is_first };
        [
            figure(near, near, true),
            figure(right, near, false),
            figure(near, low, false),
            figure(right, low, false),
        ]
    }

    fn code(&self, sheet: u8, side: Side) -> Result<crate::Code, ComposeError> {
        let [e0, e1, e2, e3, ..] = self.election.fingerprint;
        let payload = Payload { election: [e0, e1, e2, e3], style: self.style_index, sheet, side };
        let y = self.length.minus(MARGIN).minus(code_size());
        let origin = Point { x: MARGIN.plus(CORNER).plus(CLEAR), y };
        payload.code_at(origin, MODULE).ok_or(ComposeError::Code)
    }

    fn stamp(&self) -> Result<Stamp, ComposeError> {
        let area = stamp_area();
        let mut brick = Brick::default();
        let words = self.setter.words(|wording, language| wording.stamp(self.state, language));
        let slot = Slot { x: Micrometres(0), width: area.width };
        self.setter.add_each(
            &mut brick,
            &words,
            Style::bold(LARGE),
            Style::regular(TITLE),
            slot,
        )?;
        let at = Point { x: area.x, y: area.y };
        let mut texts = brick.texts;
        for text in &mut texts {
            text.origin = text.origin.moved(at);
        }
        Ok(Stamp { area, texts })
    }

    /// The note at the page's foot, beside the code.
    fn foot(&self, place: PagePlace, page: &mut Page) -> Result<(), ComposeError> {
        let mut brick = Brick::default();
        let x = page.code.origin.x.plus(code_size()).plus(CLEAR);
        let end = PAPER_WIDTH.minus(MARGIN).minus(CORNER).minus(CLEAR);
        let slot = Slot { x, width: end.minus(x) };
        let note = self.setter.words(|wording, language| wording.page_note(place, language));
        self.setter.add_each(
            &mut brick,
            &note,
            Style::bold(NORMAL),
            Style::regular(SMALL),
            slot,
        )?;
        // The note stands on the code's lower edge.
        let y = self.length.minus(MARGIN).minus(brick.height).minus(INDENT.half());
        brick.place(Point { x: Micrometres(0), y }, page);
        Ok(())
    }
}

fn code_size() -> Micrometres {
    MODULE.times(i32::from(CODE_SIDE))
}

/// The edges of a contest's box: a strong one at the top, thin ones at the other sides.
fn frame_box(area: Rect, page: &mut Page) {
    let Rect { x, y, width, height } = area;
    let edges = [
        Rect { height: TOP_EDGE, ..area },
        Rect { y: y.plus(height).minus(EDGE), height: EDGE, ..area },
        Rect { width: EDGE, ..area },
        Rect { x: x.plus(width).minus(EDGE), width: EDGE, ..area },
    ];
    page.rules.extend(edges.map(|area| Rule { area, black: 1000 }));
}
