//! A worker's report on letter paper, to be read across a table: what, when, who, results, and lines
//! to sign.
//!
//! Invariant: every word is the caller's, and equal reports give equal bytes. Nothing stands outside
//! the margins, nothing is cut off: a text that is too wide goes on below, rows that don't fit go on
//! to another page, which has the title again. Where the title is read from the right, the whole
//! page is mirrored.
//!
//! What it must not know: ballots, selections, files. Start reading at [`report()`]; sizes follow it.

use evenhand_lettering::{Face, Run, Shaper};
use evenhand_rules::Micrometres;
use evenhand_sheet::{Point, Rect, Rule, Slot, TextLine, leading_of, line_from, text_lines};
use printpdf::PdfPage;

use crate::PrintError;
use crate::blank::{Canvas, Extracted};
use crate::document::{Sides, assemble};
use crate::fonts::Fonts;

/// What a report says. A part that is empty takes no room.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// The title, at the head of every page. Its direction is the page's.
    pub title: String,
    /// What it is worth, such as "TEST", framed beside the title; empty for none.
    pub state: String,
    /// Labels and what they say: the election, the station, when, who.
    pub facts: Vec<(String, String)>,
    /// Labels and counts.
    pub counts: Vec<(String, u32)>,
    /// What was done, how it came out, and why so (empty where there is nothing to say).
    pub results: Vec<(String, String, String)>,
    /// A label and the lines of a digest in groups, in the face of fixed width.
    pub digest: Option<(String, Vec<String>)>,
    /// Sentences, each a paragraph.
    pub notes: Vec<String>,
    /// What stands under each line to sign.
    pub signatures: Vec<String>,
}

/// The most pages that a report may have. Own limit: more than any day of voting gives.
pub(crate) const PAGES_MAX: usize = 20;

/// Prints a report: one letter page, and more where the rows don't fit on it.
///
/// # Errors
/// [`PrintError::Letter`] and [`PrintError::TooLong`] are the caller's; the others are bugs.
pub fn report(report: &Report) -> Result<Vec<u8>, PrintError> {
    let shaper = Shaper::new();
    let title = shaper.shape(&report.title, TITLE.0, TITLE.1);
    let setter = Setter { shaper: &shaper, is_rtl: title.is_rtl };
    let head = setter.head(report)?;
    if head.height > HEIGHT.half() {
        return Err(PrintError::TooLong);
    }
    let blocks = setter.blocks(report)?;
    let pages = placed(&blocks, HEIGHT.minus(head.height).minus(head.gap))?;
    let mut laid = Vec::new();
    for (number, content) in (1..).zip(&pages) {
        let mut page = Laid::default();
        page.put(&head, Micrometres(0));
        for (block, y) in content {
            page.put(block, head.height.plus(head.gap).plus(*y));
        }
        if pages.len() > 1 {
            page.put(&setter.number(number, pages.len())?, HEIGHT);
        }
        laid.push(page);
    }
    let fonts = Fonts::of_lines(laid.iter().flat_map(|page| &page.texts))?;
    let inks = laid.iter().map(|_| b"q Q\n".to_vec()).collect();
    let pages = laid.iter().map(|page| page.drawn(&fonts)).collect();
    assemble(pages, inks, &fonts, Sides::One)
}

/// Width of the paper: letter, 8.5 in.
const PAPER_WIDTH: Micrometres = Micrometres(215_900);
/// Length of the paper: 11 in.
const PAPER_LENGTH: Micrometres = Micrometres(279_400);
/// Clear edge. Own choice: room for the holes of a binder.
const MARGIN: Micrometres = Micrometres(18_000);
/// The page's number stands in so much of the height above the lower margin.
const FOOT: Micrometres = Micrometres(9_000);
/// Width within the margins.
const WIDTH: Micrometres = PAPER_WIDTH.minus(MARGIN.times(2));
/// Height within the margins and above the foot.
const HEIGHT: Micrometres = PAPER_LENGTH.minus(MARGIN.times(2)).minus(FOOT);

/// A face and its em. Sizes are rounded up to a micrometre, never under the named one.
type Type = (Face, Micrometres);
/// 12 pt, the least on a report: read across a table (own choice).
const SMALLEST: Micrometres = Micrometres(4_234);
/// The title: 24 pt.
const TITLE: Type = (Face::BOLD, Micrometres(8_467));
/// Counts, and what the report is worth: 14 pt.
const FIGURE: Type = (Face::BOLD, Micrometres(4_939));
/// What counts are of.
const COUNTED: Type = (Face::REGULAR, Micrometres(4_939));
/// Facts and results: 14 pt.
const VALUE: Type = (Face::BOLD, Micrometres(4_939));
/// What was tested.
const STEP: Type = (Face::REGULAR, Micrometres(4_939));
/// Labels, notes and page numbers: 12 pt.
const LABEL: Type = (Face::REGULAR, SMALLEST);
/// Digests: 14 pt, so that group after group can be compared aloud.
const DIGEST: Type = (Face::FIXED, Micrometres(4_939));

/// Between columns.
const GUTTER: Micrometres = Micrometres(5_000);
/// Above and below the lines of a row.
const ROW_PADDING: Micrometres = Micrometres(300);
/// Between the parts of a report.
const PART_GAP: Micrometres = Micrometres(3_000);
/// Between paragraphs.
const PARAGRAPH_GAP: Micrometres = Micrometres(1_800);
/// Width of the labels of facts.
const LABELS: Micrometres = Micrometres(58_000);
/// Width of counts: ten figures of 14 pt.
const FIGURES: Micrometres = Micrometres(42_000);
/// Width of what was tested, and of how it came out.
const STEPS: Micrometres = Micrometres(76_000);
const OUTCOMES: Micrometres = Micrometres(32_000);
/// The widest that the frame at the title may be.
const STATE: Micrometres = Micrometres(56_000);
/// The frame's edge to its words.
const STATE_PADDING: Micrometres = Micrometres(3_000);
/// Room for a hand over a line to sign.
const SIGN_HEIGHT: Micrometres = Micrometres(11_000);
/// The line under the title, and the frame beside it: 1.25 pt.
const EDGE: Micrometres = Micrometres(450);
/// A line to sign: 0.75 pt.
const SIGN_RULE: Micrometres = Micrometres(270);
/// A line below a row: 0.5 pt, in a quiet grey.
const ROW_RULE: Micrometres = Micrometres(180);
const ROW_RULE_BLACK: u16 = 450;

/// Where in its slot a text stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stands {
    /// Where reading begins.
    AtStart,
    /// Where a line ends.
    AtEnd,
}

/// A text in its slot.
struct Cell<'a> {
    text: &'a str,
    set: Type,
    slot: Slot,
    stands: Stands,
}

/// What is never divided between two pages, from its own top left corner.
#[derive(Clone, Debug, Default)]
struct Block {
    /// The room over it, unless it is the first on its page.
    gap: Micrometres,
    height: Micrometres,
    texts: Vec<TextLine>,
    rules: Vec<Rule>,
    /// True where the page shouldn't end after it.
    keeps_next: bool,
}

/// Sets a report's texts into blocks.
struct Setter<'a> {
    shaper: &'a Shaper,
    is_rtl: bool,
}

impl Setter<'_> {
    /// The title and what the report is worth.
    fn head(&self, report: &Report) -> Result<Block, PrintError> {
        let mut block = Block { gap: PART_GAP, ..Block::default() };
        let inner = STATE.minus(STATE_PADDING.times(2));
        let state = self.lines(&report.state, FIGURE, inner)?;
        let mut title_width = WIDTH;
        if let Some(widest) = state.iter().map(|run| run.width).max() {
            let frame = widest.plus(STATE_PADDING.times(2));
            title_width = WIDTH.minus(frame).minus(GUTTER);
            let x = title_width.plus(GUTTER);
            let slot = Slot { x: x.plus(STATE_PADDING), width: widest };
            block.height = STATE_PADDING.half();
            self.push(&mut block, state, slot, Stands::AtStart);
            block.height = block.height.plus(STATE_PADDING.half());
            let area = self.area(Slot { x, width: frame }, Micrometres(0), block.height);
            block.rules.extend(frame_of(area));
        }
        let frame_height = block.height;
        let mut title = Block::default();
        let slot = Slot { x: Micrometres(0), width: title_width };
        self.push(
            &mut title,
            self.lines(&report.title, TITLE, title_width)?,
            slot,
            Stands::AtStart,
        );
        // What is read first comes first in the file.
        title.texts.append(&mut block.texts);
        block.texts = title.texts;
        block.height = frame_height.max(title.height).plus(PARAGRAPH_GAP);
        self.rule(&mut block, whole(), (EDGE, 1000));
        Ok(block)
    }

    /// Everything below the head, in order.
    fn blocks(&self, report: &Report) -> Result<Vec<Block>, PrintError> {
        let mut parts = vec![Vec::new(), Vec::new(), Vec::new()];
        if let [facts, counts, results] = parts.as_mut_slice() {
            for (label, value) in &report.facts {
                facts.push(self.fact(label, value)?);
            }
            for (label, count) in &report.counts {
                counts.push(self.count(label, *count)?);
            }
            for row in &report.results {
                results.push(self.result(row)?);
            }
        }
        if let Some((label, lines)) = &report.digest {
            parts.push(self.digest(label, lines)?);
        }
        let note = |note: &String| self.paragraph(note, LABEL, PARAGRAPH_GAP);
        parts.push(report.notes.iter().map(note).collect::<Result<_, _>>()?);
        let pairs = report.signatures.chunks(2).map(|pair| self.signatures(pair));
        let mut signatures = pairs.collect::<Result<Vec<_>, _>>()?;
        keep_together(&mut signatures);
        parts.push(signatures);
        for first in parts.iter_mut().filter_map(|part| part.first_mut()) {
            first.gap = PART_GAP;
        }
        Ok(parts.into_iter().flatten().collect())
    }

    fn fact(&self, label: &str, value: &str) -> Result<Block, PrintError> {
        let x = LABELS.plus(GUTTER);
        let labels = Slot { x: Micrometres(0), width: LABELS };
        let values = Slot { x, width: WIDTH.minus(x) };
        self.row(&[cell(label, LABEL, labels), cell(value, VALUE, values)])
    }

    fn count(&self, label: &str, count: u32) -> Result<Block, PrintError> {
        let x = WIDTH.minus(FIGURES);
        let labels = Slot { x: Micrometres(0), width: x.minus(GUTTER) };
        let figure = count.to_string();
        let slot = Slot { x, width: FIGURES };
        let figure = Cell { text: &figure, set: FIGURE, slot, stands: Stands::AtEnd };
        self.row(&[cell(label, COUNTED, labels), figure])
    }

    fn result(&self, (step, outcome, why): &(String, String, String)) -> Result<Block, PrintError> {
        let outcomes = STEPS.plus(GUTTER);
        let whys = outcomes.plus(OUTCOMES).plus(GUTTER);
        self.row(&[
            cell(step, STEP, Slot { x: Micrometres(0), width: STEPS }),
            cell(outcome, VALUE, Slot { x: outcomes, width: OUTCOMES }),
            cell(why, LABEL, Slot { x: whys, width: WIDTH.minus(whys) }),
        ])
    }

    fn digest(&self, label: &str, lines: &[String]) -> Result<Vec<Block>, PrintError> {
        let mut blocks = vec![self.paragraph(label, LABEL, PART_GAP)?];
        for (at, line) in lines.iter().enumerate() {
            let gap = if at == 0 { PARAGRAPH_GAP.half() } else { Micrometres(0) };
            blocks.push(self.paragraph(line, DIGEST, gap)?);
        }
        keep_together(&mut blocks);
        Ok(blocks)
    }

    /// One or two lines to sign, side by side.
    fn signatures(&self, labels: &[String]) -> Result<Block, PrintError> {
        let width = WIDTH.minus(GUTTER).half();
        let mut block = Block::default();
        let slots = [Micrometres(0), width.plus(GUTTER)].map(|x| Slot { x, width });
        for (label, slot) in labels.iter().zip(slots) {
            let mut one = Block { height: SIGN_HEIGHT, ..Block::default() };
            self.rule(&mut one, slot, (SIGN_RULE, 1000));
            one.height = one.height.plus(ROW_PADDING.half());
            self.push(&mut one, self.lines(label, LABEL, slot.width)?, slot, Stands::AtStart);
            block.height = block.height.max(one.height);
            block.texts.extend(one.texts);
            block.rules.extend(one.rules);
        }
        Ok(block)
    }

    fn paragraph(&self, text: &str, set: Type, gap: Micrometres) -> Result<Block, PrintError> {
        let mut block = Block { gap, ..Block::default() };
        self.push(&mut block, self.lines(text, set, WIDTH)?, whole(), Stands::AtStart);
        Ok(block)
    }

    /// Which page this is, in the foot: `block` is placed at its upper edge.
    fn number(&self, number: usize, of: usize) -> Result<Block, PrintError> {
        let mut block = Block::default();
        let lines = self.lines(&format!("{number} / {of}"), LABEL, WIDTH)?;
        block.height = FOOT.minus(lines.first().map_or(FOOT, leading_of));
        self.push(&mut block, lines, whole(), Stands::AtEnd);
        Ok(block)
    }

    /// Cells side by side on one first baseline, with a quiet line below.
    fn row(&self, cells: &[Cell<'_>]) -> Result<Block, PrintError> {
        let mut columns = Vec::new();
        for cell in cells {
            let mut column = Block::default();
            let lines = self.lines(cell.text, cell.set, cell.slot.width)?;
            self.push(&mut column, lines, cell.slot, cell.stands);
            columns.push(column);
        }
        let first = |column: &Block| column.texts.first().map(|line| line.origin.y);
        let baseline = columns.iter().filter_map(first).max().unwrap_or_default();
        let mut row = Block::default();
        for column in columns {
            let down = baseline.minus(first(&column).unwrap_or(baseline)).plus(ROW_PADDING);
            row.height = row.height.max(down.plus(column.height));
            let by = Point { x: Micrometres(0), y: down };
            row.texts.extend(moved_texts(&column.texts, by));
        }
        row.height = row.height.plus(ROW_PADDING);
        self.rule(&mut row, whole(), (ROW_RULE, ROW_RULE_BLACK));
        Ok(row)
    }

    fn lines(&self, text: &str, set: Type, width: Micrometres) -> Result<Vec<Run>, PrintError> {
        text_lines(self.shaper, text, set, SMALLEST, width).map_err(PrintError::Letter)
    }

    /// Adds lines at the block's lower end.
    fn push(&self, block: &mut Block, lines: Vec<Run>, slot: Slot, stands: Stands) {
        let slot = self.slot(slot);
        for run in lines {
            let from_right = match stands {
                Stands::AtStart => self.is_rtl || run.is_rtl,
                Stands::AtEnd => !self.is_rtl,
            };
            let step = leading_of(&run);
            block.texts.push(line_from(slot, block.height, run, from_right));
            block.height = block.height.plus(step);
        }
    }

    /// Adds a line across a slot at the block's lower end.
    fn rule(&self, block: &mut Block, slot: Slot, (thickness, black): (Micrometres, u16)) {
        block.rules.push(Rule { area: self.area(slot, block.height, thickness), black });
        block.height = block.height.plus(thickness);
    }

    fn area(&self, slot: Slot, y: Micrometres, height: Micrometres) -> Rect {
        let Slot { x, width } = self.slot(slot);
        Rect { x, y, width, height }
    }

    /// The slot as it is on this page: mirrored where it is read from the right.
    fn slot(&self, slot: Slot) -> Slot {
        let mirrored = WIDTH.minus(slot.x).minus(slot.width);
        Slot { x: if self.is_rtl { mirrored } else { slot.x }, ..slot }
    }
}

fn cell(text: &str, set: Type, slot: Slot) -> Cell<'_> {
    Cell { text, set, slot, stands: Stands::AtStart }
}

const fn whole() -> Slot {
    Slot { x: Micrometres(0), width: WIDTH }
}

/// The four edges of a frame, within its area.
fn frame_of(area: Rect) -> [Rule; 4] {
    let low = area.bottom().minus(EDGE);
    let right = area.right().minus(EDGE);
    let edges = [
        Rect { height: EDGE, ..area },
        Rect { y: low, height: EDGE, ..area },
        Rect { width: EDGE, ..area },
        Rect { x: right, width: EDGE, ..area },
    ];
    edges.map(|area| Rule { area, black: 1000 })
}

fn keep_together(blocks: &mut [Block]) {
    if let Some((_, others)) = blocks.split_last_mut() {
        for block in others {
            block.keeps_next = true;
        }
    }
}

fn moved_texts(texts: &[TextLine], by: Point) -> impl Iterator<Item = TextLine> {
    texts.iter().map(move |line| TextLine { origin: line.origin.moved(by), run: line.run.clone() })
}

/// A block and where it begins on its page, from below the head.
type Placed<'a> = (&'a Block, Micrometres);

/// Divides blocks among pages of this height, in order.
fn placed(blocks: &[Block], height: Micrometres) -> Result<Vec<Vec<Placed<'_>>>, PrintError> {
    let mut pages: Vec<Vec<Placed<'_>>> = vec![Vec::new()];
    let mut y = Micrometres(0);
    for (at, block) in blocks.iter().enumerate() {
        if block.height > height {
            return Err(PrintError::TooLong);
        }
        let rest = blocks.get(at..).unwrap_or_default();
        let unit = unit_height(rest);
        // What can't stay together anyway begins where it is.
        let wanted = if unit > height { block.height } else { unit };
        let is_first = pages.last().is_none_or(Vec::is_empty);
        if !is_first && y.plus(block.gap).plus(wanted) > height {
            pages.push(Vec::new());
            y = Micrometres(0);
        } else if !is_first {
            y = y.plus(block.gap);
        }
        if let Some(page) = pages.last_mut() {
            page.push((block, y));
        }
        y = y.plus(block.height);
    }
    if pages.len() > PAGES_MAX { Err(PrintError::TooLong) } else { Ok(pages) }
}

/// The height of the first block and all that it is to stay with.
fn unit_height(blocks: &[Block]) -> Micrometres {
    let mut height = Micrometres(0);
    for (at, block) in blocks.iter().enumerate() {
        let gap = if at == 0 { Micrometres(0) } else { block.gap };
        height = height.plus(gap).plus(block.height);
        if !block.keeps_next {
            break;
        }
    }
    height
}

/// What stands on one page, from its top left corner.
#[derive(Default)]
struct Laid {
    texts: Vec<TextLine>,
    rules: Vec<Rule>,
}

impl Laid {
    /// Puts a block so far below the upper margin.
    fn put(&mut self, block: &Block, y: Micrometres) {
        let by = Point { x: MARGIN, y: MARGIN.plus(y) };
        self.texts.extend(moved_texts(&block.texts, by));
        self.rules.extend(block.rules.iter().map(|r| Rule { area: r.area.moved(by), ..*r }));
    }

    fn drawn(&self, fonts: &Fonts) -> PdfPage {
        let mut canvas = Canvas::new(PAPER_LENGTH);
        canvas.rules(&self.rules);
        canvas.texts(self.texts.iter(), fonts, Extracted::Words);
        canvas.into_page(PAPER_WIDTH)
    }
}
