//! A page with every letter of the write-in alphabet in known cells, from which the reader learns
//! how each looks. It is printed by the same code as a voter's name.

use evenhand_lettering::{Face, Shaper};
use evenhand_rules::{Micrometres, WRITE_IN_CHARACTERS};
use evenhand_sheet::{CellRow, Point};
use printpdf::{Codepoint, Op, PdfFontHandle, Pt, TextItem, TextMatrix};

use crate::PrintError;
use crate::document::{Sides, assemble};
use crate::fonts::Fonts;
use crate::{blank, units};

/// Rows on the page. Each is moved by a fraction of a pixel against the others, so that letters are
/// seen as a scanner's grid may cut them.
const ROWS: i32 = 16;
/// Four such steps are a pixel at 200 dpi (127 µm).
const STEP: Micrometres = Micrometres(32);
/// From row to row: 100 pixels at 200 dpi.
const PITCH: Micrometres = Micrometres(12_700);
/// Edge of the page to the first row.
const EDGE: Micrometres = Micrometres(12_700);

/// The page and what stands where on it.
#[derive(Clone, Debug)]
pub struct Alphabet {
    /// The PDF of one page.
    pub pdf: Vec<u8>,
    /// Width of the page.
    pub width: Micrometres,
    /// Length of the page.
    pub length: Micrometres,
    /// The rows, top down.
    pub rows: Vec<AlphabetRow>,
}

/// A row of cells and the character in each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlphabetRow {
    /// The cells.
    pub cells: CellRow,
    /// The character in each cell, from the left. The space's cell is empty.
    pub characters: Vec<char>,
}

/// Prints the alphabet.
///
/// # Errors
/// [`PrintError`]: bugs only.
pub fn alphabet_pdf() -> Result<Alphabet, PrintError> {
    let (width, length) = (Micrometres::INCH.times(17).half(), Micrometres::INCH.times(11));
    let shaper = Shaper::new();
    let fonts = Fonts::of_pages(&[], &shaper)?;
    let fixed = fonts.get(Face::FIXED).ok_or(PrintError::Alphabet)?;
    let cell = shaper.advance_of('A', Face::FIXED, CellRow::LETTER_SIZE);
    let characters: Vec<char> = WRITE_IN_CHARACTERS.chars().collect();
    let row_end = EDGE.plus(cell.times(i32::try_from(characters.len()).unwrap_or(i32::MAX)));
    debug_assert!(row_end.plus(EDGE) <= width, "a row of the alphabet fits on the page");
    let mut rows = Vec::new();
    let mut ops = vec![Op::StartTextSection];
    let font = PdfFontHandle::External(fixed.id.clone());
    ops.push(Op::SetFont { font, size: Pt(units::points(CellRow::LETTER_SIZE)) });
    for row in 0..ROWS {
        let x = EDGE.plus(STEP.times(row % 4));
        let y = EDGE.plus(PITCH.times(row)).plus(STEP.times(row / 4));
        let cells = CellRow {
            origin: Point { x, y },
            width: cell,
            height: CellRow::HEIGHT,
            baseline: CellRow::BASELINE,
            count: u16::try_from(characters.len()).unwrap_or(u16::MAX),
        };
        let baseline = length.minus(y).minus(cells.baseline);
        let at = TextMatrix::Translate(Pt(units::points(x)), Pt(units::points(baseline)));
        ops.push(Op::SetTextMatrix { matrix: at });
        let codepoint = |character: &char| {
            let id = shaper.glyph_of(*character, Face::FIXED).map_or(0, |id| fixed.glyph(id));
            Codepoint::new(id, 0.0)
        };
        let glyphs = characters.iter().map(codepoint).collect();
        ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(glyphs)] });
        rows.push(AlphabetRow { cells, characters: characters.clone() });
    }
    ops.push(Op::EndTextSection);
    let page = blank::sized(width, length, ops);
    let pdf = assemble(vec![page], vec![b"q Q\n".to_vec()], &fonts, Sides::Both)?;
    Ok(Alphabet { pdf, width, length, rows })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_stays_on_the_page() {
        let alphabet = alphabet_pdf().unwrap();
        for row in &alphabet.rows {
            let cells = &row.cells;
            let right = cells.origin.x.plus(cells.width.times(i32::from(cells.count)));
            assert!(right.plus(EDGE) <= alphabet.width, "the alphabet is wider than the page");
            assert!(cells.origin.y.plus(cells.height).plus(EDGE) <= alphabet.length);
            assert_eq!(row.characters.len(), WRITE_IN_CHARACTERS.chars().count());
        }
    }
}
