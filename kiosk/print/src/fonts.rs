//! Fonts cut to the glyphs that a document uses.
//!
//! The fixed-width face always carries the whole write-in alphabet, so that the font in a marked
//! ballot's file doesn't tell which letters were written.

use std::collections::BTreeMap;

use evenhand_lettering::{Face, Glyph, Run, Shaper, font_bytes, font_name};
use evenhand_rules::WRITE_IN_CHARACTERS;
use evenhand_sheet::{Page, TextLine};
use printpdf::{FontId, PdfFont, PdfFontParseWarning};
use subsetter::GlyphRemapper;

use crate::PrintError;

/// A face cut to its used glyphs, which are numbered anew.
pub(crate) struct CutFont {
    /// The name by which pages refer to it.
    pub(crate) id: FontId,
    /// The font as the PDF writer takes it.
    pub(crate) font: PdfFont,
    mapper: GlyphRemapper,
    widths: BTreeMap<u16, u16>,
    meanings: BTreeMap<u16, String>,
}

impl CutFont {
    /// The new number of a glyph; glyph 0 (nothing) for one that isn't in the cut font.
    pub(crate) fn glyph(&self, id: u16) -> u16 {
        self.mapper.get(id).unwrap_or(0)
    }
    /// Every glyph by its new number, and the characters that it stands for.
    pub(crate) fn meanings(&self) -> impl Iterator<Item = (u16, &str)> {
        self.meanings.iter().map(|(glyph, text)| (*glyph, text.as_str()))
    }
    /// The advance of a glyph by its new number, in thousandths of an em.
    pub(crate) fn advance(&self, glyph: u16) -> i32 {
        i32::from(self.widths.get(&glyph).copied().unwrap_or(0))
    }
}

/// Every face that a document uses.
pub(crate) struct Fonts {
    cut: BTreeMap<Face, CutFont>,
}

impl Fonts {
    /// Cuts the faces to what a ballot's pages use. The fixed-width one is always among them.
    pub(crate) fn of_pages(pages: &[Page], shaper: &Shaper) -> Result<Self, PrintError> {
        let mut used: BTreeMap<Face, Used> = BTreeMap::new();
        let fixed = used.entry(Face::FIXED).or_default();
        for character in WRITE_IN_CHARACTERS.chars() {
            let id = shaper.glyph_of(character, Face::FIXED).ok_or(PrintError::Alphabet)?;
            fixed.add(id, || character.to_string());
        }
        Self::with(used, pages.iter().flat_map(lines))
    }

    /// Cuts the faces to what these lines use.
    pub(crate) fn of_lines<'a>(
        lines: impl Iterator<Item = &'a TextLine>,
    ) -> Result<Self, PrintError> {
        Self::with(BTreeMap::new(), lines)
    }

    fn with<'a>(
        mut used: BTreeMap<Face, Used>,
        lines: impl Iterator<Item = &'a TextLine>,
    ) -> Result<Self, PrintError> {
        for run in lines.map(|line| &line.run) {
            let used = used.entry(run.face).or_default();
            for glyph in &run.glyphs {
                used.add(glyph.id, || cluster_text(run, glyph));
            }
        }
        let cut = used.into_iter().map(|(face, used)| Ok((face, cut_font(face, used)?)));
        Ok(Self { cut: cut.collect::<Result<_, PrintError>>()? })
    }

    /// The cut font of a face that the document uses.
    pub(crate) fn get(&self, face: Face) -> Option<&CutFont> {
        self.cut.get(&face)
    }

    /// All of them, in the order of the faces.
    pub(crate) fn all(&self) -> impl Iterator<Item = &CutFont> {
        self.cut.values()
    }
}

/// Every line of text on a page.
pub(crate) fn lines(page: &Page) -> impl Iterator<Item = &TextLine> {
    page.texts.iter().chain(&page.stamp.texts)
}

/// The name of a face's font in page resources.
pub(crate) fn resource_name(face: Face) -> &'static str {
    font_name(face)
}

/// The glyphs of a face that a document uses, and what each stands for.
#[derive(Default)]
struct Used {
    mapper: GlyphRemapper,
    meanings: BTreeMap<u16, String>,
}

impl Used {
    fn add(&mut self, id: u16, text: impl FnOnce() -> String) {
        let glyph = self.mapper.remap(id);
        self.meanings.entry(glyph).or_insert_with(text);
    }
}

/// The characters that a glyph stands for, so that text can be searched and read by machines.
fn cluster_text(run: &Run, glyph: &Glyph) -> String {
    let start = usize::try_from(glyph.cluster).unwrap_or(usize::MAX);
    let after = run.glyphs.iter().map(|glyph| glyph.cluster).filter(|at| *at > glyph.cluster);
    let end = after.min().map_or(run.text.len(), |at| usize::try_from(at).unwrap_or(0));
    run.text.get(start..end).unwrap_or_default().to_owned()
}

fn cut_font(face: Face, used: Used) -> Result<CutFont, PrintError> {
    let Used { mapper, meanings } = used;
    let bytes =
        subsetter::subset(font_bytes(face), 0, &mapper).map_err(|_| PrintError::Font(face))?;
    let mut warnings: Vec<PdfFontParseWarning> = Vec::new();
    let parsed = printpdf::ParsedFont::from_bytes(&bytes, 0, &mut warnings);
    let mut parsed = parsed.ok_or(PrintError::Font(face))?;
    // ISO 32000-1, 9.6.4: six letters and a plus sign mark a cut font. Ours are the same always.
    parsed.font_name = Some(format!("EVENHA+{}", font_name(face)));
    let per_em = u32::from(parsed.units_per_em).max(1);
    let thousandths = |width: u16| u16::try_from(u32::from(width) * 1000 / per_em).unwrap_or(0);
    let widths = parsed.glyph_widths.iter().map(|(id, width)| (*id, thousandths(*width)));
    let widths = widths.collect();
    let id = FontId(resource_name(face).to_owned());
    Ok(CutFont { id, font: PdfFont::new(parsed), mapper, widths, meanings })
}
