//! Every size on the sheet, in one place. Own design, in micrometres; type sizes are the em.

use evenhand_rules::Micrometres;

/// Width of the paper: 8.5 in.
pub(crate) const PAPER_WIDTH: Micrometres = Micrometres(215_900);
/// Lengths of the paper, shortest first: 11, 14 and 17 in.
pub(crate) const PAPER_LENGTHS: [Micrometres; 3] =
    [Micrometres(279_400), Micrometres(355_600), Micrometres(431_800)];
/// Most sheets in one ballot. Own limit: what a person can carry and a scanner take as one ballot.
pub(crate) const SHEETS_MAX: u8 = 6;

/// Clear edge. Office printers leave about 4.3 mm unprinted (from memory).
pub(crate) const MARGIN: Micrometres = Micrometres(8_000);
/// Between the two columns.
pub(crate) const GUTTER: Micrometres = Micrometres(4_000);
/// The shortest column that a page may have. A contest that is no longer is never split.
pub(crate) const COLUMN_MIN: Micrometres = Micrometres(120_000);
/// Between a header and what follows, and between contests.
pub(crate) const BLOCK_GAP: Micrometres = Micrometres(3_200);

/// Outer diameter of a corner figure.
pub(crate) const CORNER: Micrometres = Micrometres(6_000);
/// Side of a module of the code. At least 0.7 mm were needed for noisy pictures at 150 dpi.
pub(crate) const MODULE: Micrometres = Micrometres(800);
/// Clear of the corner figures and the code. ISO/IEC 16022 asks for one module around the code.
pub(crate) const CLEAR: Micrometres = Micrometres(4_000);
/// What the foot of a page takes: margin, code and the space over it.
pub(crate) const FOOT: Micrometres = Micrometres(24_600);
/// The widest part of the page's head that text may take; the stamp stands to its right.
pub(crate) const STAMP_WIDTH: Micrometres = Micrometres(46_000);
/// Height of the stamp's area.
pub(crate) const STAMP_HEIGHT: Micrometres = Micrometres(14_000);

/// Left edge of a box to the left edge of its ovals and titles.
pub(crate) const INDENT: Micrometres = Micrometres(2_600);
/// Left edge of a box to names and write-in cells.
pub(crate) const NAME_INDENT: Micrometres = Micrometres(11_700);
/// Right edge of a box to the end of its lines.
pub(crate) const INSET: Micrometres = Micrometres(1_500);
/// Above the title and below the last row of a contest.
pub(crate) const BOX_PADDING: Micrometres = Micrometres(1_700);
/// Above and below an option's lines.
pub(crate) const ROW_PADDING: Micrometres = Micrometres(1_150);
/// Between paragraphs.
pub(crate) const PARAGRAPH_GAP: Micrometres = Micrometres(1_400);

/// Width of an oval, to the middle of its outline (0.25 in).
pub(crate) const OVAL_WIDTH: Micrometres = Micrometres(6_350);
/// Height of an oval, to the middle of its outline (0.13 in).
pub(crate) const OVAL_HEIGHT: Micrometres = Micrometres(3_300);
/// The oval's outline: 0.85 pt.
pub(crate) const OVAL_STROKE: Micrometres = Micrometres(300);
/// Least distance between the middles of ovals side by side.
pub(crate) const RANK_STEP_MIN: Micrometres = Micrometres(8_600);
/// Between the headings of ranks.
pub(crate) const RANK_GAP: Micrometres = Micrometres(2_300);
/// Least room for names beside a grid of ranks.
pub(crate) const RANKED_NAME_MIN: Micrometres = Micrometres(38_000);

/// A contest box's top edge: 1.25 pt.
pub(crate) const TOP_EDGE: Micrometres = Micrometres(450);
/// A contest box's other edges: 0.5 pt.
pub(crate) const EDGE: Micrometres = Micrometres(180);
/// Lines between rows of a grid: 0.35 pt.
pub(crate) const HAIRLINE: Micrometres = Micrometres(125);
/// The ruled line of a write-in: 0.6 pt.
pub(crate) const WRITE_IN_RULE: Micrometres = Micrometres(220);

/// Height of the area over a write-in's ruled line: room for a hand as well.
pub(crate) const WRITE_IN_HEIGHT: Micrometres = Micrometres(7_200);
/// Between that area and the ruled line.
pub(crate) const WRITE_IN_CLEAR: Micrometres = Micrometres(250);
/// Height of a printed letter's cell.
pub(crate) const CELL_HEIGHT: Micrometres = Micrometres(5_000);
/// A cell's top to its letters' baseline.
pub(crate) const CELL_BASELINE: Micrometres = Micrometres(3_700);

/// 10 pt, the least on the sheet (VVSG 2.0, 7.1-I). Sizes are rounded up, never under the named one.
pub(crate) const SMALL: Micrometres = Micrometres(3_528);
/// 11 pt: names and instructions.
pub(crate) const NORMAL: Micrometres = Micrometres(3_881);
/// 12 pt: titles.
pub(crate) const TITLE: Micrometres = Micrometres(4_234);
/// 14 pt: headers, the election's name, the stamp.
pub(crate) const LARGE: Micrometres = Micrometres(4_939);
