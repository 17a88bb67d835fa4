//! Shapes text with the station's faces.

use alloc::string::{String, ToString};
use alloc::vec::Vec;

use evenhand_rules::Micrometres;
use rustybuzz::{Direction, GlyphBuffer, ShapePlan, UnicodeBuffer, script};
use unicode_bidi::BidiInfo;

use crate::{Face, Glyph, Run, font_bytes, lines};

/// Holds the parsed faces. Making one takes well under a millisecond, shaping a line about ten
/// microseconds: make one per document and keep it.
pub struct Shaper {
    // Invariant: one entry for each face, in the order of `Face::ALL`.
    faces: [LoadedFace; 3],
}

/// A character that a face has no glyph for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the face {face:?} has no glyph for {character:?}")]
pub struct MissingCharacter {
    /// The character.
    pub character: char,
    /// The face that lacks it.
    pub face: Face,
}

/// A parsed face with the plan for its most common kind of text.
struct LoadedFace {
    font: rustybuzz::Face<'static>,
    latin: ShapePlan,
}

impl Default for Shaper {
    fn default() -> Self {
        Self::new()
    }
}

impl Shaper {
    /// Parses the faces.
    pub fn new() -> Self {
        Self { faces: Face::ALL.map(load) }
    }

    /// Shapes one line of text. Runs of white space count as one space, ends are trimmed, and lines
    /// with right-to-left words are put in visual order (UAX 9).
    pub fn shape(&self, text: &str, face: Face, size: Micrometres) -> Run {
        self.shape_clean(clean(text), face, size)
    }

    /// Shapes text into as many lines as it needs to be no wider than `width`. Lines break where
    /// UAX 14 allows it; a word that is wider than a line is broken between characters. A character
    /// that is itself wider than the line stands alone.
    ///
    /// Returns no line for text that is empty or all white space.
    pub fn break_lines(
        &self,
        text: &str,
        face: Face,
        size: Micrometres,
        width: Micrometres,
    ) -> Vec<Run> {
        let text = clean(text);
        if text.is_empty() {
            return Vec::new();
        }
        let whole = self.shape_clean(text, face, size);
        if whole.width <= width {
            return alloc::vec![whole];
        }
        // A line that is cut out of a longer one loses the kerning at its ends and can come out a
        // little wider than it was within: then lines are broken for a slightly narrower column.
        for slack in [0, size.0.div_euclid(20), size.0.div_euclid(5)] {
            let runs =
                self.shape_lines(&lines::split(&whole, width.minus(Micrometres(slack))), &whole);
            if runs.iter().all(|run| run.width <= width || run.glyphs.len() <= 1) {
                return runs;
            }
        }
        self.shape_lines(&lines::split(&whole, width), &whole)
    }

    /// Checks that `face` has a glyph for every character of `text`, white space aside.
    ///
    /// # Errors
    /// [`MissingCharacter`] names the first one that it lacks.
    pub fn covers(&self, text: &str, face: Face) -> Result<(), MissingCharacter> {
        let lacks = |character: &char| {
            !character.is_whitespace() && self.glyph_of(*character, face).is_none()
        };
        match text.chars().find(lacks) {
            Some(character) => Err(MissingCharacter { character, face }),
            None => Ok(()),
        }
    }

    /// The glyph that stands for a character on its own.
    pub fn glyph_of(&self, character: char, face: Face) -> Option<u16> {
        self.loaded(face).font.glyph_index(character).map(|id| id.0)
    }

    /// How far the pen moves over a character that stands on its own.
    pub fn advance_of(&self, character: char, face: Face, size: Micrometres) -> Micrometres {
        let font = &self.loaded(face).font;
        let advance = font.glyph_index(character).and_then(|id| font.glyph_hor_advance(id));
        self.scaled(i32::from(advance.unwrap_or(0)), face, size)
    }

    /// The height of capital letters over the baseline.
    pub fn cap_height(&self, face: Face, size: Micrometres) -> Micrometres {
        let height = self.loaded(face).font.capital_height().unwrap_or(0);
        self.scaled(i32::from(height), face, size)
    }

    /// How far a line reaches over its baseline, accents included.
    pub fn ascent(&self, face: Face, size: Micrometres) -> Micrometres {
        self.scaled(i32::from(self.loaded(face).font.ascender()), face, size)
    }

    /// How far a line reaches below its baseline.
    pub fn descent(&self, face: Face, size: Micrometres) -> Micrometres {
        let below = i32::from(self.loaded(face).font.descender());
        self.scaled(below.saturating_neg(), face, size)
    }

    /// Shapes the lines that `whole` was split into.
    fn shape_lines(&self, lines: &[&str], whole: &Run) -> Vec<Run> {
        let shape = |line: &&str| self.shape_clean(line.to_string(), whole.face, whole.size);
        lines.iter().map(shape).collect()
    }

    /// Shapes text that [`clean`] has been over.
    fn shape_clean(&self, text: String, face: Face, size: Micrometres) -> Run {
        let mut pen = Pen { shaper: self, face, size, x: 0, glyphs: Vec::new() };
        if text.is_ascii() {
            pen.write(&text, 0, Direction::LeftToRight);
        } else {
            let bidi = BidiInfo::new(&text, None);
            for paragraph in &bidi.paragraphs {
                let (levels, runs) = bidi.visual_runs(paragraph, paragraph.range.clone());
                for run in runs {
                    let is_rtl = levels.get(run.start).is_some_and(unicode_bidi::Level::is_rtl);
                    let direction =
                        if is_rtl { Direction::RightToLeft } else { Direction::LeftToRight };
                    pen.write(text.get(run.clone()).unwrap_or_default(), run.start, direction);
                }
            }
        }
        let width = self.scaled(pen.x, face, size);
        Run { face, size, glyphs: pen.glyphs, width, text }
    }

    fn loaded(&self, face: Face) -> &LoadedFace {
        let [regular, bold, fixed] = &self.faces;
        match face {
            Face::Regular => regular,
            Face::Bold => bold,
            Face::Fixed => fixed,
        }
    }

    /// Font units as a distance, rounded to the nearest micrometre.
    fn scaled(&self, units: i32, face: Face, size: Micrometres) -> Micrometres {
        let per_em = i64::from(self.loaded(face).font.units_per_em()).max(1);
        let doubled = i64::from(units).saturating_mul(i64::from(size.0)).saturating_mul(2);
        // Adding one em to the doubled product rounds half up, for either sign.
        let rounded = doubled.saturating_add(per_em).div_euclid(per_em.saturating_mul(2));
        Micrometres(i32::try_from(rounded).unwrap_or(i32::MAX))
    }
}

/// Writes runs one after the other. Positions are summed in font units and rounded once, so that
/// roundings don't add up along a line.
struct Pen<'a> {
    shaper: &'a Shaper,
    face: Face,
    size: Micrometres,
    x: i32,
    glyphs: Vec<Glyph>,
}

impl Pen<'_> {
    fn write(&mut self, text: &str, start: usize, direction: Direction) {
        let shaped = shape_run(self.shaper.loaded(self.face), text, direction);
        let start = u32::try_from(start).unwrap_or(u32::MAX);
        for (info, position) in shaped.glyph_infos().iter().zip(shaped.glyph_positions()) {
            let at = |units| self.shaper.scaled(units, self.face, self.size);
            let end = self.x.saturating_add(position.x_advance);
            self.glyphs.push(Glyph {
                id: u16::try_from(info.glyph_id).unwrap_or(0),
                x: at(self.x.saturating_add(position.x_offset)),
                y: at(position.y_offset.saturating_neg()),
                advance: at(end).minus(at(self.x)),
                cluster: info.cluster.saturating_add(start),
            });
            self.x = end;
        }
    }
}

/// White space collapsed to single spaces and trimmed. No-break spaces stay: they are meant.
fn clean(text: &str) -> String {
    let is_gap = |c: char| c.is_whitespace() && !matches!(c, '\u{a0}' | '\u{202f}');
    let mut out = String::with_capacity(text.len());
    for word in text.split(is_gap).filter(|word| !word.is_empty()) {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    out
}

#[expect(clippy::expect_used, reason = "the fonts are part of this crate and a test parses each")]
fn load(face: Face) -> LoadedFace {
    let font = rustybuzz::Face::from_slice(font_bytes(face), 0).expect("our own fonts parse");
    let latin = ShapePlan::new(&font, Direction::LeftToRight, Some(script::LATIN), None, &[]);
    LoadedFace { font, latin }
}

/// Shapes one run of one direction, by the stored plan where the script is Latin or neutral.
fn shape_run(face: &LoadedFace, text: &str, direction: Direction) -> GlyphBuffer {
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(text);
    buffer.guess_segment_properties();
    buffer.set_direction(direction);
    let is_latin = matches!(buffer.script(), script::LATIN | script::UNKNOWN | script::COMMON);
    if is_latin && direction == Direction::LeftToRight {
        buffer.set_script(script::LATIN);
        // The plan has no language, so the buffer's own guess isn't asked for either.
        rustybuzz::shape_with_plan(&face.font, &face.latin, buffer)
    } else {
        rustybuzz::shape(&face.font, &[], buffer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEN_POINT: Micrometres = Micrometres(3528);

    #[test]
    fn every_face_parses_and_covers_the_write_in_alphabet() {
        let shaper = Shaper::new();
        for face in Face::ALL {
            assert_eq!(shaper.covers(evenhand_rules::WRITE_IN_CHARACTERS, face), Ok(()));
        }
    }

    #[test]
    fn spanish_is_covered_and_chinese_is_named_as_missing() {
        let shaper = Shaper::new();
        assert_eq!(
            shaper.covers("¿Aprueba la emisión de bonos? ¡Sí! Ñandú “vote” –", Face::Bold),
            Ok(())
        );
        let missing = shaper.covers("Li 李", Face::Regular);
        assert_eq!(missing, Err(MissingCharacter { character: '李', face: Face::Regular }));
    }

    #[test]
    fn the_fixed_face_is_fixed() {
        let shaper = Shaper::new();
        for character in evenhand_rules::WRITE_IN_CHARACTERS.chars() {
            // 632 of 1000 units (the font's hmtx table, read with fontTools).
            assert_eq!(shaper.advance_of(character, Face::Fixed, TEN_POINT), Micrometres(2230));
        }
    }

    #[test]
    fn metrics_are_those_of_the_font_tables() {
        // OS/2 sCapHeight 668, hhea ascent 984, descent -316 (read with fontTools).
        let shaper = Shaper::new();
        let em = Micrometres(100_000);
        assert_eq!(shaper.cap_height(Face::Bold, em), Micrometres(66_800));
        assert_eq!(shaper.ascent(Face::Regular, em), Micrometres(98_400));
        assert_eq!(shaper.descent(Face::Fixed, em), Micrometres(31_600));
    }

    #[test]
    fn a_capital_a_is_as_wide_as_its_table_says() {
        let run = Shaper::new().shape("A", Face::Regular, Micrometres(100_000));
        assert_eq!(run.width, Micrometres(62_600));
        assert_eq!(run.glyphs.len(), 1);
    }

    #[test]
    fn pairs_are_kerned() {
        let shaper = Shaper::new();
        let em = Micrometres(100_000);
        let apart = shaper
            .shape("A", Face::Regular, em)
            .width
            .plus(shaper.shape("V", Face::Regular, em).width);
        assert!(shaper.shape("AV", Face::Regular, em).width < apart);
    }

    #[test]
    fn white_space_collapses() {
        let run = Shaper::new().shape("  Maria\t\n  Okafor ", Face::Bold, TEN_POINT);
        assert_eq!(run.text, "Maria Okafor");
        assert_eq!(clean("one\u{a0}two"), "one\u{a0}two");
    }

    #[test]
    fn positions_add_up() {
        let text = "Shall the county keep its libraries open on Sundays?";
        let run = Shaper::new().shape(text, Face::Regular, TEN_POINT);
        let sum = run.glyphs.iter().fold(Micrometres(0), |sum, glyph| sum.plus(glyph.advance));
        assert_eq!(sum, run.width);
    }

    #[test]
    fn right_to_left_words_stand_in_visual_order() {
        // The faces lack Hebrew: its letters come out as glyph 0, and only the order is of interest.
        let run = Shaper::new().shape("אב 12 cd", Face::Regular, TEN_POINT);
        let first = run.glyphs.first().map(|glyph| glyph.cluster);
        let last = run.glyphs.last().map(|glyph| glyph.cluster);
        // In a right-to-left paragraph the Latin word, last in reading order, is leftmost.
        assert_eq!(first, Some(8));
        assert_eq!(last, Some(0));
    }
}
