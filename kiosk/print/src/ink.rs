//! The voter's marks as one stream of fixed length a page: a slot for each oval and each line.

use std::fmt;
use std::fmt::Write as _;

use evenhand_lettering::{Face, Shaper};
use evenhand_rules::{
    ContestIndex, Micrometres, OptionIndex, OvalId, Selections, Style, WRITE_IN_LEN_MAX,
    WriteInText,
};
use evenhand_sheet::{Ballot, CellRow, Oval, Page};

use crate::PrintError;
use crate::fonts::{CutFont, resource_name};
use crate::units::{ellipse, push_operand};

/// How far a fill stays within the outline's outer edge, so that no pixel outside turns darker.
const FILL_INSET: Micrometres = Micrometres(40);

/// What is to be marked on a ballot. Its `Debug` prints no content.
#[derive(Clone, Default)]
pub struct Marks {
    /// The ovals to be filled.
    pub ovals: Vec<OvalId>,
    /// The names to be printed on write-in lines.
    pub names: Vec<WrittenName>,
}

/// A name on one write-in line. Its `Debug` prints no content.
#[derive(Clone)]
pub struct WrittenName {
    /// The contest.
    pub contest: ContestIndex,
    /// The write-in option.
    pub option: OptionIndex,
    /// The name, one character a cell.
    pub name: WriteInText,
}

impl fmt::Debug for Marks {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Marks(..)")
    }
}

impl fmt::Debug for WrittenName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("WrittenName(..)")
    }
}

impl Marks {
    /// The marks that a voter's selections make on paper. A written name is printed only where its
    /// option is chosen or ranked.
    pub fn of(selections: &Selections, style: &Style) -> Self {
        let mut names = Vec::new();
        for (contest, _) in style.contests() {
            for option in selections.marked(contest) {
                match selections.written(contest, option) {
                    Some(name) if !name.is_blank() => {
                        names.push(WrittenName { contest, option, name: name.clone() });
                    }
                    Some(_) | None => {}
                }
            }
        }
        Self { ovals: selections.ovals(style), names }
    }

    /// Checks that each mark has its place on this ballot, once.
    pub(crate) fn check(&self, ballot: &Ballot) -> Result<(), PrintError> {
        let mut ovals = self.ovals.clone();
        ovals.sort_unstable();
        let has_oval = |id| ballot.pages.iter().flat_map(|page| &page.ovals).any(|o| o.id == id);
        if ovals.windows(2).any(|pair| pair.first() == pair.last())
            || !ovals.into_iter().all(has_oval)
        {
            return Err(PrintError::NoSuchOval);
        }
        let mut lines: Vec<_> = self.names.iter().map(|name| (name.contest, name.option)).collect();
        lines.sort_unstable();
        let has_line = |line| {
            let mut all = ballot.pages.iter().flat_map(|page| &page.write_ins);
            all.any(|there| (there.contest, there.option) == line)
        };
        if lines.windows(2).any(|pair| pair.first() == pair.last())
            || !lines.into_iter().all(has_line)
        {
            return Err(PrintError::NoSuchLine);
        }
        Ok(())
    }
}

/// A page's ink: the same number of bytes whatever is marked.
pub(crate) fn stream(
    page: &Page,
    length: Micrometres,
    marks: Option<&Marks>,
    font: &CutFont,
    shaper: &Shaper,
) -> Result<Vec<u8>, PrintError> {
    let mut ink = String::from("q 0 g\n");
    for oval in &page.ovals {
        let is_marked = marks.is_some_and(|marks| marks.ovals.contains(&oval.id));
        slot(&mut ink, is_marked, &filled(oval, length));
    }
    for line in &page.write_ins {
        let here = |name: &&WrittenName| (name.contest, name.option) == (line.contest, line.option);
        let name = marks.and_then(|marks| marks.names.iter().find(here));
        let (start, end) = letters_frame(&line.cells, length);
        slot(&mut ink, name.is_some(), &start);
        let name = name.map_or("", |name| name.name.as_str());
        for cell in 0..WRITE_IN_LEN_MAX {
            match name.chars().nth(cell) {
                Some(character) => letter(&mut ink, character, font, shaper)?,
                None => ink.push_str(NO_LETTER),
            }
        }
        slot(&mut ink, !name.is_empty(), end);
    }
    ink.push_str("Q\n");
    Ok(ink.into_bytes())
}

/// Adds the bytes, or as many spaces.
fn slot(ink: &mut String, is_marked: bool, bytes: &str) {
    if is_marked {
        ink.push_str(bytes);
    } else {
        ink.extend(std::iter::repeat_n(' ', bytes.len()));
    }
    ink.push('\n');
}

/// An oval filled to its outline's outer edge.
fn filled(oval: &Oval, length: Micrometres) -> String {
    let (start, rest) = ellipse(oval.area.grown(oval.stroke.half().minus(FILL_INSET)));
    let centre = oval.area.centre();
    let (x, y) = (i64::from(centre.x.0), i64::from(length.minus(centre.y).0));
    let mut path = String::with_capacity(256);
    let at = |path: &mut String, (dx, dy): (i64, i64)| {
        push_operand(path, x.saturating_add(dx));
        push_operand(path, y.saturating_add(dy));
    };
    at(&mut path, start);
    path.push_str("m ");
    for curve in rest.chunks(3) {
        for point in curve {
            at(&mut path, *point);
        }
        path.push_str("c ");
    }
    path.push('f');
    path
}

/// What stands before and after a row of letters: font, place and the letters' bracket. A cell is the
/// face's own advance rounded to a micrometre, so letters that follow each other stay in their cells.
fn letters_frame(cells: &CellRow, length: Micrometres) -> (String, &'static str) {
    let y = length.minus(cells.origin.y).minus(cells.baseline);
    let mut frame = format!("BT /{} ", resource_name(Face::FIXED));
    push_operand(&mut frame, i64::from(CellRow::LETTER_SIZE.0));
    frame.push_str("Tf ");
    push_operand(&mut frame, i64::from(cells.origin.x.0));
    push_operand(&mut frame, i64::from(y.0));
    frame.push_str("Td [");
    (frame, "] TJ ET")
}

/// As long as a letter.
const NO_LETTER: &str = "      ";

fn letter(
    ink: &mut String,
    character: char,
    font: &CutFont,
    shaper: &Shaper,
) -> Result<(), PrintError> {
    let glyph = shaper.glyph_of(character, Face::FIXED).map_or(0, |id| font.glyph(id));
    if glyph == 0 {
        return Err(PrintError::Alphabet);
    }
    write!(ink, "<{glyph:04x}>").map_err(|_| PrintError::Alphabet)
}
