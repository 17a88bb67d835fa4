//! Shapes text with the station's faces.

use alloc::boxed::Box;
use alloc::string::String;
use alloc::vec::Vec;
use core::cell::OnceCell;

use evenhand_rules::Micrometres;
use rustybuzz::{Direction, GlyphBuffer, ShapePlan, UnicodeBuffer, script};
use unicode_bidi::BidiInfo;
use unicode_script::{Script, UnicodeScript};

use crate::{Face, Family, Glyph, Run, font_bytes, lines};

/// Holds the parsed faces. Making one takes well under a millisecond, shaping a line about ten
/// microseconds: make one per document and keep it.
pub struct Shaper {
    // Invariant: one entry for each face, in the order of `Face::ALL`; each is parsed when it is
    // first asked for, since a visit needs the faces of two scripts at most.
    faces: Box<[OnceCell<LoadedFace>]>,
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

/// What a text is set in: the face that has its letters, its em, and the em that was asked for.
#[derive(Clone, Copy)]
struct Set {
    face: Face,
    size: Micrometres,
    asked: Micrometres,
    is_rtl: bool,
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
        Self { faces: Face::ALL.iter().map(|_| OnceCell::new()).collect() }
    }

    /// The face of this weight that has a glyph for every character of the text: of the first family
    /// that has them all, so that no word mixes two looks. Where none has, the face asked for.
    pub fn face_for(&self, text: &str, wanted: Face) -> Face {
        let families = Family::ALL.into_iter();
        let mut faces = families.map(|family| wanted.in_family(family));
        faces.find(|face| self.lacking(text, *face).is_none()).unwrap_or(wanted)
    }

    /// What a text is set in where this is asked for.
    fn set_for(&self, text: &str, wanted: Face, asked: Micrometres) -> Set {
        let face = self.face_for(text, wanted);
        let size = self.size_in(face, wanted, asked);
        Set { face, size, asked, is_rtl: is_right_to_left(text) }
    }

    /// The em at which `face` has capitals as high as `wanted` has at `size`: what looks as large.
    fn size_in(&self, face: Face, wanted: Face, size: Micrometres) -> Micrometres {
        let cap = |face| i64::from(self.cap_height(face, Micrometres(1_000_000)).0).max(1);
        let (wanted, own) = (cap(wanted), cap(face));
        if wanted == own {
            return size;
        }
        // Rounded up, so that no size falls short of its band.
        let em = i64::from(size.0).saturating_mul(wanted).saturating_add(own.saturating_sub(1));
        Micrometres(i32::try_from(em.div_euclid(own)).unwrap_or(i32::MAX))
    }

    /// Shapes one line of text. Runs of white space count as one space, ends are trimmed, and lines
    /// with right-to-left words are put in visual order (UAX 9). The run's own face and em are those
    /// of [`Shaper::face_for`], its capitals as high as `face` has them at `size`.
    pub fn shape(&self, text: &str, face: Face, size: Micrometres) -> Run {
        let text = clean(text);
        let set = self.set_for(&text, face, size);
        self.shape_clean(text, set)
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
        let set = self.set_for(&text, face, size);
        let whole = self.shape_clean(text, set);
        if whole.width <= width {
            return alloc::vec![whole];
        }
        // A line that is cut out of a longer one loses the kerning at its ends and can come out a
        // little wider than it was within: then lines are broken for a slightly narrower column.
        for slack in [0, size.0.div_euclid(20), size.0.div_euclid(5)] {
            let runs =
                self.shape_lines(&lines::split(&whole, width.minus(Micrometres(slack))), set);
            if runs.iter().all(|run| run.width <= width || run.glyphs.len() <= 1) {
                return runs;
            }
        }
        self.shape_lines(&lines::split(&whole, width), set)
    }

    /// Checks that there is a face with a glyph for every character of `text`, white space and marks
    /// of direction aside.
    ///
    /// # Errors
    /// [`MissingCharacter`] names the first one that the face asked for lacks, or, where that is one
    /// which another face has, the first one that this other face lacks.
    pub fn covers(&self, text: &str, face: Face) -> Result<(), MissingCharacter> {
        let found = self.face_for(text, face);
        let Some(missing) = self.lacking(text, found) else { return Ok(()) };
        let families = Family::ALL.into_iter().map(|family| face.in_family(family));
        // A text in another script lacks its first Latin letter nowhere: the odd one out is named.
        let fewest = families.min_by_key(|face| self.lacks_of(text, *face));
        let fewest = fewest.unwrap_or(face);
        let character = self.lacking(text, fewest).unwrap_or(missing);
        Err(MissingCharacter { character, face: fewest })
    }

    fn lacks(&self, character: char, face: Face) -> bool {
        !is_unseen(character) && self.glyph_of(character, face).is_none()
    }
    fn lacking(&self, text: &str, face: Face) -> Option<char> {
        text.chars().find(|character| self.lacks(*character, face))
    }
    fn lacks_of(&self, text: &str, face: Face) -> usize {
        text.chars().filter(|character| self.lacks(*character, face)).count()
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

    /// Shapes the lines that a text was split into.
    fn shape_lines(&self, lines: &[&str], set: Set) -> Vec<Run> {
        let shape = |line: &&str| {
            // A later line is read in the direction of the whole, whatever it begins with.
            let is_astray = set.is_rtl && !is_right_to_left(line);
            let mark = if is_astray { RIGHT_TO_LEFT_MARK } else { "" };
            self.shape_clean([mark, line].concat(), set)
        };
        lines.iter().map(shape).collect()
    }

    /// Shapes text that [`clean`] has been over.
    fn shape_clean(&self, text: String, set: Set) -> Run {
        let Set { face, size, asked, .. } = set;
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
        let is_rtl = is_right_to_left(&text);
        Run { face, size, asked, glyphs: pen.glyphs, width, text, is_rtl }
    }

    #[expect(clippy::expect_used, reason = "each face has its place, and a test loads each")]
    fn loaded(&self, face: Face) -> &LoadedFace {
        self.faces.get(face.index()).expect("a place for each face").get_or_init(|| load(face))
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
    /// Writes text of one direction, each script by its own rules.
    fn write(&mut self, text: &str, start: usize, direction: Direction) {
        if text.is_ascii() || direction == Direction::RightToLeft {
            return self.write_script(text, start, direction);
        }
        let mut from = 0;
        for end in script_ends(text) {
            let piece = text.get(from..end).unwrap_or_default();
            self.write_script(piece, start.saturating_add(from), direction);
            from = end;
        }
    }

    fn write_script(&mut self, text: &str, start: usize, direction: Direction) {
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

/// Where text of one script ends and another's begins, and the end of the text. Signs and spaces
/// belong to what stands before them.
fn script_ends(text: &str) -> Vec<usize> {
    let mut ends = Vec::new();
    let mut current = None;
    for (at, character) in text.char_indices() {
        let script = character.script();
        if matches!(script, Script::Common | Script::Inherited | Script::Unknown) {
            continue;
        }
        if current.is_some_and(|current| current != script) {
            ends.push(at);
        }
        current = Some(script);
    }
    ends.push(text.len());
    ends
}

/// True where a text is read from right to left: by its first letter with a direction (UAX 9, P2).
fn is_right_to_left(text: &str) -> bool {
    !text.is_ascii()
        && matches!(unicode_bidi::get_base_direction(text), unicode_bidi::Direction::Rtl)
}

/// A sign that isn't seen and makes what it begins be read from the right (UAX 9).
const RIGHT_TO_LEFT_MARK: &str = "\u{200f}";

/// White space, and signs that are never drawn: marks of direction, joiners, soft hyphens.
fn is_unseen(character: char) -> bool {
    character.is_whitespace()
        || matches!(character, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2066}'..='\u{2069}')
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
    fn each_script_has_its_family_and_thai_is_named_as_missing() {
        let shaper = Shaper::new();
        for (text, family) in [
            ("¿Aprueba la emisión de bonos? ¡Sí! Ñandú “vote” –", Family::Legible),
            ("Nguyễn Thị Ánh, cử tri", Family::Wide),
            ("Избирательный бюллетень № 3", Family::Wide),
            ("بطاقة الاقتراع 12، Maria", Family::Arabic),
            ("ব্যালট, Maria 12।", Family::Bengali),
            ("សន្លឹកឆ្នោត Maria 12", Family::Khmer),
            ("투표용지 Maria 12", Family::Korean),
            ("選票,Maria 12 張", Family::Chinese),
        ] {
            for wanted in [Face::REGULAR, Face::BOLD] {
                assert_eq!(shaper.covers(text, wanted), Ok(()), "{text}");
                let run = shaper.shape(text, wanted, TEN_POINT);
                assert_eq!(run.face, wanted.in_family(family), "{text}");
                assert!(run.glyphs.iter().all(|glyph| glyph.id != 0), "{text}");
                assert_eq!(run.is_rtl, family == Family::Arabic);
                let capital = shaper.cap_height(run.face, run.size);
                let asked = shaper.cap_height(wanted, TEN_POINT);
                assert!((0..=2).contains(&capital.minus(asked).0), "{text}: {capital:?} {asked:?}");
            }
        }
        let missing = shaper.covers("Li ก", Face::REGULAR);
        assert_eq!(missing, Err(MissingCharacter { character: 'ก', face: Face::REGULAR }));
    }

    #[test]
    fn a_text_of_two_scripts_is_shaped_by_the_rules_of_each() {
        // Bengali vowel sign i stands before its consonant; so it must beside Latin words too.
        let shaper = Shaper::new();
        let alone = shaper.shape("কি", Face::REGULAR, TEN_POINT);
        let beside = shaper.shape("AV কি", Face::REGULAR, TEN_POINT);
        let ids = |run: &Run| run.glyphs.iter().map(|glyph| glyph.id).collect::<Vec<_>>();
        assert!(ids(&beside).ends_with(&ids(&alone)));
        assert_eq!(script_ends("AV কি 12 x"), [3, "AV কি 12 ".len(), "AV কি 12 x".len()]);
    }

    #[test]
    fn the_fixed_face_is_fixed() {
        let shaper = Shaper::new();
        for character in evenhand_rules::WRITE_IN_CHARACTERS.chars() {
            // 632 of 1000 units (the font's hmtx table, read with fontTools).
            assert_eq!(shaper.advance_of(character, Face::FIXED, TEN_POINT), Micrometres(2230));
        }
    }

    #[test]
    fn metrics_are_those_of_the_font_tables() {
        // OS/2 sCapHeight 668, hhea ascent 984, descent -316 (read with fontTools).
        let shaper = Shaper::new();
        let em = Micrometres(100_000);
        assert_eq!(shaper.cap_height(Face::BOLD, em), Micrometres(66_800));
        assert_eq!(shaper.ascent(Face::REGULAR, em), Micrometres(98_400));
        assert_eq!(shaper.descent(Face::FIXED, em), Micrometres(31_600));
    }

    #[test]
    fn a_capital_a_is_as_wide_as_its_table_says() {
        let run = Shaper::new().shape("A", Face::REGULAR, Micrometres(100_000));
        assert_eq!(run.width, Micrometres(62_600));
        assert_eq!(run.glyphs.len(), 1);
    }

    #[test]
    fn pairs_are_kerned() {
        let shaper = Shaper::new();
        let em = Micrometres(100_000);
        let apart = shaper
            .shape("A", Face::REGULAR, em)
            .width
            .plus(shaper.shape("V", Face::REGULAR, em).width);
        assert!(shaper.shape("AV", Face::REGULAR, em).width < apart);
    }

    #[test]
    fn white_space_collapses() {
        let run = Shaper::new().shape("  Maria\t\n  Okafor ", Face::BOLD, TEN_POINT);
        assert_eq!(run.text, "Maria Okafor");
        assert_eq!(clean("one\u{a0}two"), "one\u{a0}two");
    }

    #[test]
    fn positions_add_up() {
        let text = "Shall the county keep its libraries open on Sundays?";
        let run = Shaper::new().shape(text, Face::REGULAR, TEN_POINT);
        let sum = run.glyphs.iter().fold(Micrometres(0), |sum, glyph| sum.plus(glyph.advance));
        assert_eq!(sum, run.width);
    }

    #[test]
    fn right_to_left_words_stand_in_visual_order() {
        // The faces lack Hebrew: its letters come out as glyph 0, and only the order is of interest.
        let run = Shaper::new().shape("אב 12 cd", Face::REGULAR, TEN_POINT);
        let first = run.glyphs.first().map(|glyph| glyph.cluster);
        let last = run.glyphs.last().map(|glyph| glyph.cluster);
        // In a right-to-left paragraph the Latin word, last in reading order, is leftmost.
        assert_eq!(first, Some(8));
        assert_eq!(last, Some(0));
    }
}
