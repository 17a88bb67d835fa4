//! A contest as bricks: its head, and its text and options, which a column may end between only
//! where the contest is longer than a column.

use alloc::string::String;
use alloc::vec::Vec;

use evenhand_lettering::{Face, MissingCharacter};
use evenhand_rules::{
    Contest, ContestIndex, ContestKind, ContestOption, Micrometres, OptionIndex, OptionKind,
    OvalId, Rank, Rule as ContestRule, Style as BallotStyle, Text, WRITE_IN_LEN_MAX,
};

use crate::brick::Brick;
use crate::metrics::{
    BOX_PADDING, CELL_BASELINE, CELL_HEIGHT, COLUMN_MIN, HAIRLINE, INDENT, INSET, NAME_INDENT,
    NORMAL, OVAL_HEIGHT, OVAL_STROKE, OVAL_WIDTH, PARAGRAPH_GAP, RANK_GAP, RANK_STEP_MIN,
    RANKED_NAME_MIN, ROW_PADDING, SMALL, TITLE, WRITE_IN_CLEAR, WRITE_IN_HEIGHT, WRITE_IN_RULE,
};
use crate::setter::{Setter, Slot, Style, capital_middle, leading_of, line_in, middle_of};
use crate::{CellRow, Oval, Point, Rect, Rule, WriteInLine};

/// A contest's bricks in a column of one width.
#[derive(Debug)]
pub(crate) struct ContestBricks {
    /// Title, subtitle and limit.
    pub(crate) head: Brick,
    /// What stands at the top of a second and later part; empty where every column holds the whole.
    pub(crate) repeated_head: Brick,
    /// Text and options.
    pub(crate) body: Vec<Brick>,
}

impl ContestBricks {
    /// What the whole contest takes of a column.
    fn height(&self) -> Micrometres {
        let head = self.head.height.plus(BOX_PADDING);
        self.body.iter().fold(head, |sum, brick| sum.plus(brick.height))
    }
}

/// Why a contest has no bricks of this width.
#[derive(Debug)]
pub(crate) enum ContestFault {
    /// A character that no face has.
    MissingCharacter(MissingCharacter),
    /// More ranks than stand beside the names.
    RanksTooWide,
}

impl From<MissingCharacter> for ContestFault {
    fn from(missing: MissingCharacter) -> Self {
        Self::MissingCharacter(missing)
    }
}

/// Builds contests of one style in columns of one width.
pub(crate) struct ContestBuilder<'a> {
    pub(crate) setter: &'a Setter<'a>,
    pub(crate) style: &'a BallotStyle,
    pub(crate) width: Micrometres,
}

impl ContestBuilder<'_> {
    /// The bricks of a contest.
    pub(crate) fn build(
        &self,
        index: ContestIndex,
        contest: &Contest,
    ) -> Result<ContestBricks, ContestFault> {
        let grid = self.grid(contest)?;
        let mut head = self.title(contest, false)?;
        self.limit(&mut head, contest)?;
        self.note(&mut head, contest)?;
        if let Some(grid) = grid {
            self.rank_headings(&mut head, grid)?;
        }
        let mut body = self.question(contest)?;
        let is_beside = self.names_fit_beside(contest, grid)?;
        for (option, definition) in contest.indexed_options() {
            let row = Row { contest, index, option, grid, is_beside };
            body.push(match (definition.kind, grid) {
                (OptionKind::Listed, _) => self.listed(&row, definition)?,
                (OptionKind::WriteIn, None) => self.write_in(&row)?,
                (OptionKind::WriteIn, Some(_)) => self.ranked_write_in(&row)?,
            });
        }
        let is_question = matches!(contest.kind, ContestKind::Measure | ContestKind::Retention);
        if is_question || contest.options.len() <= SHORT_LIST {
            keep_together(&mut body, contest.options.len());
        }
        let mut bricks = ContestBricks { head, repeated_head: Brick::default(), body };
        if bricks.height() > COLUMN_MIN {
            bricks.repeated_head = self.repeated_head(contest, grid)?;
        }
        Ok(bricks)
    }

    fn repeated_head(
        &self,
        contest: &Contest,
        grid: Option<Grid>,
    ) -> Result<Brick, MissingCharacter> {
        let mut head = self.title(contest, true)?;
        self.limit(&mut head, contest)?;
        if let Some(grid) = grid {
            self.rank_headings(&mut head, grid)?;
        }
        Ok(head)
    }

    /// Title and subtitle, or the title alone with its "continued".
    fn title(&self, contest: &Contest, is_continued: bool) -> Result<Brick, MissingCharacter> {
        let mut brick = Brick::space(BOX_PADDING);
        let (first, second) = (Style::bold(TITLE), Style::regular(NORMAL));
        let titles = if is_continued {
            let title = &contest.title.shown;
            self.setter.words(|w, language| w.continued(title.in_language(language), language))
        } else {
            self.setter.texts(&contest.title.shown)
        };
        self.setter.add_each(&mut brick, &titles, first, second, self.whole())?;
        if let (Some(subtitle), false) = (&contest.subtitle, is_continued) {
            let texts = self.setter.texts(&subtitle.shown);
            let style = Style::regular(SMALL);
            self.setter.add_beside(&mut brick, &texts, style, style, self.whole())?;
        }
        brick.height = brick.height.plus(PARAGRAPH_GAP.half());
        brick.keeps_next = true;
        Ok(brick)
    }

    /// How many may be marked.
    fn limit(&self, brick: &mut Brick, contest: &Contest) -> Result<(), MissingCharacter> {
        let limit = self.setter.words(|wording, language| wording.limit(contest, language));
        let (bold, regular) = (Style::bold(SMALL), Style::regular(SMALL));
        self.setter.add_beside(brick, &limit, bold, regular, self.whole())?;
        brick.height = brick.height.plus(PARAGRAPH_GAP.half());
        Ok(())
    }

    /// What else the voter must know.
    fn note(&self, brick: &mut Brick, contest: &Contest) -> Result<(), MissingCharacter> {
        let note = self.setter.words(|w, language| w.note(self.style, contest, language));
        let style = Style::regular(SMALL);
        let before = brick.height;
        self.setter.add_each(brick, &note, style, style, self.whole())?;
        if brick.height > before {
            brick.height = brick.height.plus(PARAGRAPH_GAP.half());
        }
        Ok(())
    }

    /// The summary and the whole text, a brick a line, so that a long one may go on elsewhere.
    fn question(&self, contest: &Contest) -> Result<Vec<Brick>, MissingCharacter> {
        let mut body = Vec::new();
        if let Some(summary) = &contest.summary {
            for text in self.setter.texts(summary) {
                self.paragraph(&mut body, &text, NORMAL)?;
            }
        }
        for language in 0..self.setter.edition.languages.len() {
            for text in &contest.full_text {
                let texts = self.setter.texts(text);
                self.paragraph(&mut body, texts.get(language).map_or("", String::as_str), SMALL)?;
            }
        }
        Ok(body)
    }

    fn paragraph(
        &self,
        body: &mut Vec<Brick>,
        text: &str,
        size: Micrometres,
    ) -> Result<(), MissingCharacter> {
        let style = Style::regular(size);
        let lines = self.setter.lines(text, style, self.whole().width)?;
        let count = lines.len();
        for (at, run) in lines.into_iter().enumerate() {
            let mut brick = Brick::space(leading_of(&run));
            brick.texts.push(line_in(self.whole(), Micrometres(0), run));
            // A paragraph's first line and its last don't stand alone.
            let from_end = count.saturating_sub(at);
            brick.keeps_next = count > 1 && (at == 0 || from_end == 2);
            if from_end == 1 {
                brick.height = brick.height.plus(PARAGRAPH_GAP);
            }
            body.push(brick);
        }
        Ok(())
    }

    /// An option with its names.
    fn listed(&self, row: &Row<'_>, option: &ContestOption) -> Result<Brick, MissingCharacter> {
        let mut brick = Brick::space(ROW_PADDING);
        let slot = self.names(row.grid);
        let (bold, regular) = (Style::bold(NORMAL), Style::regular(NORMAL));
        let top = brick.height;
        for name in &option.names {
            let texts = self.setter.texts(&name.shown);
            if row.is_beside {
                self.setter.add_beside(&mut brick, &texts, bold, regular, slot)?;
            } else {
                self.setter.add_each(&mut brick, &texts, bold, regular, slot)?;
            }
        }
        let middle = middle_of_first(&brick, top);
        self.detail(&mut brick, option.detail.as_ref(), slot)?;
        let least = ROW_PADDING.plus(crate::setter::leading(NORMAL));
        brick.height = brick.height.max(least).plus(ROW_PADDING);
        Self::ovals(&mut brick, row, middle);
        self.row_end(&mut brick, row);
        Ok(brick)
    }

    /// True where every name of a contest has its languages on one line: all of them, or none.
    fn names_fit_beside(
        &self,
        contest: &Contest,
        grid: Option<Grid>,
    ) -> Result<bool, MissingCharacter> {
        let (bold, regular) = (Style::bold(NORMAL), Style::regular(NORMAL));
        let width = self.names(grid).width;
        for name in contest.options.iter().flat_map(|option| &option.names) {
            let texts = self.setter.texts(&name.shown);
            if !self.setter.fits_beside(&texts, bold, regular, width)? {
                return Ok(false);
            }
        }
        Ok(true)
    }

    fn detail(
        &self,
        brick: &mut Brick,
        detail: Option<&Text>,
        slot: Slot,
    ) -> Result<(), MissingCharacter> {
        let Some(detail) = detail else { return Ok(()) };
        let style = Style::regular(SMALL);
        self.setter.add_beside(brick, &self.setter.texts(detail), style, style, slot)
    }

    /// A line to write on, with its oval at the left and its label below.
    fn write_in(&self, row: &Row<'_>) -> Result<Brick, MissingCharacter> {
        let mut brick = Brick::space(ROW_PADDING.half());
        let middle = brick.height.plus(WRITE_IN_HEIGHT).minus(CELL_HEIGHT.half());
        self.line(&mut brick, row);
        self.write_in_label(&mut brick, row, self.names(None))?;
        brick.height = brick.height.plus(ROW_PADDING.half());
        Self::ovals(&mut brick, row, middle);
        Ok(brick)
    }

    /// A ranked write-in: label beside its ovals, the line below them, where there is its width.
    fn ranked_write_in(&self, row: &Row<'_>) -> Result<Brick, MissingCharacter> {
        let mut brick = Brick::space(ROW_PADDING);
        let middle = brick.height.plus(capital_middle(NORMAL));
        self.write_in_label(&mut brick, row, self.names(row.grid))?;
        brick.height = brick.height.plus(ROW_PADDING.half());
        Self::ovals(&mut brick, row, middle);
        self.line(&mut brick, row);
        brick.height = brick.height.plus(ROW_PADDING);
        Ok(brick)
    }

    fn write_in_label(
        &self,
        brick: &mut Brick,
        row: &Row<'_>,
        slot: Slot,
    ) -> Result<(), MissingCharacter> {
        let label = self.setter.words(|wording, language| wording.write_in(row.contest, language));
        let style = Style::regular(SMALL);
        self.setter.add_beside(brick, &label, style, style, slot)
    }

    /// The cells of a written name and the ruled line under them.
    fn line(&self, brick: &mut Brick, row: &Row<'_>) {
        let cell = self.setter.shaper.advance_of('A', Face::FIXED, SMALL);
        let count = u16::try_from(WRITE_IN_LEN_MAX).unwrap_or(u16::MAX);
        let width = cell.times(i32::from(count));
        let top = brick.height;
        let area = Rect { x: NAME_INDENT, y: top, width, height: WRITE_IN_HEIGHT };
        let cells = CellRow {
            origin: Point { x: NAME_INDENT, y: area.bottom().minus(CELL_HEIGHT) },
            width: cell,
            height: CELL_HEIGHT,
            baseline: CELL_BASELINE,
            count,
        };
        let y = area.bottom().plus(WRITE_IN_CLEAR);
        let ruled = Rect { x: NAME_INDENT, y, width, height: WRITE_IN_RULE };
        brick.rules.push(Rule { area: ruled, black: 1000 });
        brick.height = ruled.bottom();
        let (contest, option) = (row.index, row.option);
        brick.write_ins.push(WriteInLine { contest, option, area, cells });
    }

    /// The option's oval, or its oval for each rank, the middles at this height.
    fn ovals(brick: &mut Brick, row: &Row<'_>, middle: Micrometres) {
        let y = middle.minus(OVAL_HEIGHT.half());
        let mut push = |x: Micrometres, rank: Option<Rank>| {
            let area = Rect { x, y, width: OVAL_WIDTH, height: OVAL_HEIGHT };
            let id = OvalId { contest: row.index, option: row.option, rank };
            brick.ovals.push(Oval { id, area, stroke: OVAL_STROKE });
        };
        match row.grid {
            None => push(INDENT, None),
            Some(grid) => {
                for rank in grid.ranks() {
                    push(grid.column(rank).x.plus(grid.step.minus(OVAL_WIDTH).half()), Some(rank));
                }
            }
        }
    }

    /// How a ranked contest's columns stand; `None` for other contests.
    fn grid(&self, contest: &Contest) -> Result<Option<Grid>, ContestFault> {
        let ContestRule::Rank { ranks } = contest.rule else { return Ok(None) };
        let mut widest = RANK_STEP_MIN;
        for rank in (1..=ranks).map(Rank) {
            for heading in
                self.setter.words(|wording, language| wording.rank_heading(rank, language))
            {
                for word in heading.split_whitespace() {
                    let run = self.setter.shaper.shape(word, Face::BOLD, SMALL);
                    widest = widest.max(run.width.plus(RANK_GAP));
                }
            }
        }
        let grid = Grid { ranks, step: widest };
        if self.names(Some(grid)).width < RANKED_NAME_MIN {
            return Err(ContestFault::RanksTooWide);
        }
        Ok(Some(grid))
    }

    /// The names of the ranks over their columns, standing on one line at the lower end.
    fn rank_headings(&self, brick: &mut Brick, grid: Grid) -> Result<(), MissingCharacter> {
        let mut columns = Vec::new();
        for rank in grid.ranks() {
            let mut column = Brick::default();
            let headings =
                self.setter.words(|wording, language| wording.rank_heading(rank, language));
            let slot = Slot { x: Micrometres(0), width: grid.step };
            let (bold, regular) = (Style::bold(SMALL), Style::regular(SMALL));
            self.setter.add_each(&mut column, &headings, bold, regular, slot)?;
            for text in &mut column.texts {
                let spare = grid.step.minus(text.run.width).half();
                text.origin.x = grid.column(rank).x.plus(spare);
            }
            columns.push(column);
        }
        let tallest = columns.iter().map(|column| column.height).max().unwrap_or_default();
        let top = brick.height.plus(PARAGRAPH_GAP.half());
        for column in columns {
            let at = Point { x: Micrometres(0), y: top.plus(tallest).minus(column.height) };
            brick.texts.extend(column.texts.into_iter().map(|mut text| {
                text.origin = text.origin.moved(at);
                text
            }));
        }
        brick.height = top.plus(tallest).plus(PARAGRAPH_GAP.half());
        self.hairline(brick);
        Ok(())
    }

    /// A thin line under a ranked row, to lead the eye to its name; none where the box ends.
    fn row_end(&self, brick: &mut Brick, row: &Row<'_>) {
        let is_last = usize::from(row.option.0).saturating_add(1) == row.contest.options.len();
        if row.grid.is_some() && !is_last {
            self.hairline(brick);
        }
    }

    /// A thin line across the box at the brick's lower end.
    fn hairline(&self, brick: &mut Brick) {
        let width = self.width.minus(INDENT).minus(INDENT);
        let area = Rect { x: INDENT, y: brick.height, width, height: HAIRLINE };
        brick.rules.push(Rule { area, black: 1000 });
        brick.height = brick.height.plus(HAIRLINE);
    }

    /// Where titles and questions stand.
    fn whole(&self) -> Slot {
        Slot { x: INDENT, width: self.width.minus(INDENT).minus(INDENT) }
    }

    /// Where names stand.
    fn names(&self, grid: Option<Grid>) -> Slot {
        let x = grid.map_or(NAME_INDENT, |grid| grid.end().plus(PARAGRAPH_GAP));
        Slot { x, width: self.width.minus(x).minus(INSET) }
    }
}

/// Up to this many options are never parted from each other, nor from the question.
const SHORT_LIST: usize = 4;

/// Which option of which contest a row is for.
struct Row<'a> {
    contest: &'a Contest,
    index: ContestIndex,
    option: OptionIndex,
    grid: Option<Grid>,
    is_beside: bool,
}

/// The columns of a ranked contest's ovals.
#[derive(Clone, Copy, Debug)]
struct Grid {
    ranks: u8,
    step: Micrometres,
}

impl Grid {
    fn ranks(self) -> impl Iterator<Item = Rank> {
        (1..=self.ranks).map(Rank)
    }
    fn column(self, rank: Rank) -> Slot {
        let before = i32::from(rank.0.saturating_sub(1));
        Slot {
            x: INDENT.minus(PARAGRAPH_GAP.half()).plus(self.step.times(before)),
            width: self.step,
        }
    }
    fn end(self) -> Micrometres {
        self.column(Rank(self.ranks.saturating_add(1))).x
    }
}

/// Keeps the last `count` bricks together, and with the one before them.
fn keep_together(body: &mut [Brick], count: usize) {
    let first = body.len().saturating_sub(count.saturating_add(1));
    let last = body.len().saturating_sub(1);
    for brick in body.iter_mut().take(last).skip(first) {
        brick.keeps_next = true;
    }
}

/// Where an oval stands beside the first of these lines; `top` is where a line would begin if there
/// is none.
fn middle_of_first(brick: &Brick, top: Micrometres) -> Micrometres {
    brick.texts.first().map_or_else(|| top.plus(capital_middle(NORMAL)), middle_of)
}
