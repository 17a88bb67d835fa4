//! A shaped line of text: which glyphs, and where.

use alloc::string::String;
use alloc::vec::Vec;

use evenhand_rules::Micrometres;

use crate::Face;

/// One line of text in one face and size, shaped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// The face.
    pub face: Face,
    /// The em: 10 pt is 3,528 µm.
    pub size: Micrometres,
    /// The em that was asked for, in the face that was asked for: its capitals are as high.
    pub asked: Micrometres,
    /// The glyphs from left to right.
    pub glyphs: Vec<Glyph>,
    /// How far the pen moves from the line's left end to its right end.
    pub width: Micrometres,
    /// The words that the glyphs show, in reading order.
    pub text: String,
    /// True where they are read from right to left: such a line stands at the right.
    pub is_rtl: bool,
}

/// One placed glyph.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Glyph {
    /// The glyph's number in its font file.
    pub id: u16,
    /// From the line's left end to the glyph's origin.
    pub x: Micrometres,
    /// From the baseline to the glyph's origin, downwards.
    pub y: Micrometres,
    /// How far the pen moves.
    pub advance: Micrometres,
    /// Where this glyph's characters begin in [`Run::text`], in bytes. Glyphs of one cluster share
    /// it.
    pub cluster: u32,
}
