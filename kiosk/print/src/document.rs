//! The PDF file: the blank ballot by printpdf, the ink beside it, and nothing that tells more.

use std::io::Write as _;

use evenhand_lettering::{Face, MissingCharacter, Shaper};
use evenhand_rules::OvalId;
use evenhand_sheet::{Ballot, Page};
use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream};
use printpdf::{
    Codepoint, Op, PdfDocument, PdfFontHandle, PdfPage, PdfSaveOptions, Pt, TextItem, to_lopdf_doc,
};

use crate::Marks;
use crate::blank;
use crate::fonts::Fonts;
use crate::ink;

/// Why there is no PDF. Carries nothing of the voter's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PrintError {
    /// A mark for an oval that isn't on this ballot, or one oval twice: a caller's mistake.
    #[error("a mark names an oval that isn't on this ballot, or names one twice")]
    NoSuchOval,
    /// A name for a line that isn't on this ballot, or two for one: a caller's mistake.
    #[error("a name is for a write-in line that isn't on this ballot, or for one that has a name")]
    NoSuchLine,
    /// A test sheet that would look like a ballot: a caller's mistake.
    #[error("a page has nothing in its stamp's area: compose the ballot as a test, then print")]
    NoStamp,
    /// The fixed-width face lacks a character of the write-in alphabet: a bug.
    #[error("the fixed-width face lacks a character of the write-in alphabet")]
    Alphabet,
    /// A face couldn't be cut to its used glyphs: a bug.
    #[error("the face {0:?} can't be cut to its used glyphs")]
    Font(Face),
    /// No face has all of the letters of a report's text: a caller's mistake.
    #[error("{0}: write this text of the report with other letters")]
    Letter(MissingCharacter),
    /// A report is too long: a caller's mistake.
    #[error(
        "the report takes more than {} pages, or one of its rows more than one: shorten it",
        crate::report::PAGES_MAX
    )]
    TooLong,
    /// The PDF writer made something else than was asked for: a bug.
    #[error("the PDF writer: {0}")]
    Writer(&'static str),
}

/// The ballot as PDF, blank or with marks.
///
/// Equal content gives equal bytes, and the length depends on the ballot alone.
///
/// # Errors
/// [`PrintError`]; the first two are the caller's, the others bugs.
pub fn pdf(ballot: &Ballot, marks: Option<&Marks>) -> Result<Vec<u8>, PrintError> {
    if let Some(marks) = marks {
        marks.check(ballot)?;
    }
    let shaper = Shaper::new();
    let fonts = Fonts::of_pages(&ballot.pages, &shaper)?;
    let fixed = fonts.get(Face::FIXED).ok_or(PrintError::Alphabet)?;
    let draw = |page: &Page| blank::page(page, ballot.width, ballot.length, &fonts);
    let pages = ballot.pages.iter().map(draw).collect();
    let mut inks = Vec::new();
    for page in &ballot.pages {
        inks.push(ink::stream(page, ballot.length, marks, fixed, &shaper)?);
    }
    assemble(pages, inks, &fonts, Sides::Both)
}

/// A test sheet: the ballot with these ovals filled, be they as many as they are, which no voter
/// could choose. It must say what it is.
///
/// # Errors
/// [`PrintError::NoStamp`] for an official ballot; else as [`pdf`].
pub fn test_sheet(ballot: &Ballot, ovals: &[OvalId]) -> Result<Vec<u8>, PrintError> {
    if ballot.pages.iter().any(|page| page.stamp.texts.is_empty()) {
        return Err(PrintError::NoStamp);
    }
    pdf(ballot, Some(&Marks { ovals: ovals.to_vec(), names: Vec::new() }))
}

/// How paper is printed.
#[derive(Clone, Copy)]
pub(crate) enum Sides {
    /// Front and back.
    Both,
    /// The front alone.
    One,
}

/// Joins drawn pages, and a stream of ink for each, into a file.
pub(crate) fn assemble(
    mut pages: Vec<PdfPage>,
    inks: Vec<Vec<u8>>,
    fonts: &Fonts,
    sides: Sides,
) -> Result<Vec<u8>, PrintError> {
    pages.push(legend_page(fonts));
    let mut source = PdfDocument::new("");
    source.pages = pages;
    for font in fonts.all() {
        source.resources.fonts.map.insert(font.id.clone(), font.font.clone());
    }
    let options = PdfSaveOptions {
        optimize: true,
        subset_fonts: false,
        secure: true,
        image_optimization: None,
    };
    let mut warnings = Vec::new();
    let mut document = to_lopdf_doc(&source, &options, &mut warnings);
    drop_last_page(&mut document)?;
    keep_no_traces(&mut document, sides)?;
    compress(&mut document)?;
    add_inks(&mut document, inks)?;
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).map_err(|_| PrintError::Writer("the file wasn't written"))?;
    Ok(bytes)
}

/// A page that shows every glyph of every font once, with what it stands for. The writer embeds
/// widths and meanings only of glyphs that stand on a page, and the last page's meanings count: this
/// one brings in the whole write-in alphabet. Then [`drop_last_page`] takes the page away again.
fn legend_page(fonts: &Fonts) -> PdfPage {
    let mut ops = vec![Op::StartTextSection];
    for cut in fonts.all() {
        let codepoint = |(glyph, text): (u16, &str)| Codepoint::with_cid(glyph, 0.0, text.into());
        let glyphs = cut.meanings().map(codepoint).collect();
        let font = PdfFontHandle::External(cut.id.clone());
        ops.push(Op::SetFont { font, size: Pt(10.0) });
        ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(glyphs)] });
    }
    ops.push(Op::EndTextSection);
    blank::sized(evenhand_rules::Micrometres::INCH, evenhand_rules::Micrometres::INCH, ops)
}

/// Takes the last page out of the page tree, with its own objects.
fn drop_last_page(document: &mut Document) -> Result<(), PrintError> {
    const FAULT: PrintError = PrintError::Writer("the page tree isn't as it was");
    let root =
        document.catalog().and_then(|root| root.get(b"Pages")).and_then(Object::as_reference);
    let root = root.map_err(|_| FAULT)?;
    let tree = document.get_dictionary_mut(root).map_err(|_| FAULT)?;
    let kids = tree.get_mut(b"Kids").and_then(Object::as_array_mut).map_err(|_| FAULT)?;
    let last = kids.pop().ok_or(FAULT)?.as_reference().map_err(|_| FAULT)?;
    let count = i64::try_from(kids.len()).unwrap_or(0);
    tree.set("Count", count);
    let page = document.get_dictionary(last).map_err(|_| FAULT)?;
    let own = |key: &[u8]| page.get(key).and_then(Object::as_reference).map_err(|_| FAULT);
    let gone = [own(b"Resources")?, own(b"Contents")?, last];
    for id in gone {
        document.objects.remove(&id);
    }
    Ok(())
}

/// Removes dates, ids and names of the making, and asks the printer for the true size and these sides.
fn keep_no_traces(document: &mut Document, sides: Sides) -> Result<(), PrintError> {
    if let Ok(info) = document.trailer.get(b"Info").and_then(Object::as_reference) {
        document.objects.remove(&info);
    }
    document.trailer.remove(b"Info");
    document.trailer.remove(b"ID");
    document.version = String::from("1.7");
    // ISO 32000-1, 12.2: a viewer that scaled the page to its margins would move every oval.
    let duplex: &[u8] = match sides {
        Sides::Both => b"DuplexFlipLongEdge",
        Sides::One => b"Simplex",
    };
    let wishes = Dictionary::from_iter([
        ("PrintScaling", Object::Name(b"None".to_vec())),
        ("Duplex", Object::Name(duplex.to_vec())),
    ]);
    let catalog = document.catalog_mut().map_err(|_| PrintError::Writer("no catalog"))?;
    catalog.set("ViewerPreferences", wishes);
    Ok(())
}

/// Compresses every stream so far. lopdf's own way takes the slowest level: a third of
/// the whole time, for a file a fifth shorter.
fn compress(document: &mut Document) -> Result<(), PrintError> {
    for object in document.objects.values_mut() {
        let Object::Stream(stream) = object else { continue };
        let mut encoder = ZlibEncoder::new(Vec::new(), Compression::fast());
        let compressed = encoder.write_all(&stream.content).and_then(|()| encoder.finish());
        let compressed = compressed.map_err(|_| PrintError::Writer("compression"))?;
        stream.dict.set("Filter", "FlateDecode");
        stream.set_content(compressed);
    }
    Ok(())
}

/// Adds each page's ink after its blank content. Ink is never compressed: its length must not tell.
fn add_inks(document: &mut Document, inks: Vec<Vec<u8>>) -> Result<(), PrintError> {
    const FAULT: PrintError = PrintError::Writer("a page has no content of its own");
    let pages: Vec<ObjectId> = document.get_pages().into_values().collect();
    if pages.len() != inks.len() {
        return Err(PrintError::Writer("the number of pages changed"));
    }
    for (page, ink) in pages.into_iter().zip(inks) {
        let stream = Stream::new(Dictionary::new(), ink).with_compression(false);
        let ink = document.add_object(stream);
        let page = document.get_dictionary_mut(page).map_err(|_| FAULT)?;
        let blank = page.get(b"Contents").and_then(Object::as_reference).map_err(|_| FAULT)?;
        page.set("Contents", vec![Object::Reference(blank), Object::Reference(ink)]);
    }
    Ok(())
}
