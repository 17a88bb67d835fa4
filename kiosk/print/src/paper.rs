//! What paper a finished document needs: its size and its sides, read from its own pages, so that a
//! printer is told what the bytes really are.

use evenhand_rules::Micrometres;
use lopdf::{Dictionary, Document, Object};

/// The paper of a document, all its pages alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DocumentPaper {
    /// Width.
    pub width: Micrometres,
    /// Length.
    pub length: Micrometres,
    /// How many sides are printed, at least 1: the pages of the document.
    pub sides: u16,
}

/// How many levels of page trees are gone up: ours have one.
const LEVELS_MAX: usize = 8;
/// The longest side: a page of 50 inches.
const POINTS_MAX: f32 = 3_600.0;

/// The paper of a document; none where it is no PDF with pages of one size that start at 0.
pub fn paper_of(document: &[u8]) -> Option<DocumentPaper> {
    let document = Document::load_mem(document).ok()?;
    let pages = document.get_pages();
    let mut sizes =
        pages.values().map(|page| size(&document, document.get_dictionary(*page).ok()?));
    let (width, length) = sizes.next()??;
    if !sizes.all(|size| size == Some((width, length))) {
        return None;
    }
    Some(DocumentPaper { width, length, sides: u16::try_from(pages.len()).ok()? })
}

fn size(document: &Document, page: &Dictionary) -> Option<(Micrometres, Micrometres)> {
    let bounds = inherited(document, page)?;
    let bounds = match bounds.as_reference() {
        Ok(id) => document.get_object(id).ok()?,
        Err(_) => bounds,
    };
    let sides: Vec<f32> =
        bounds.as_array().ok()?.iter().map(Object::as_float).collect::<Result<_, _>>().ok()?;
    let &[left, bottom, width, length] = sides.as_slice() else { return None };
    (left == 0.0 && bottom == 0.0).then_some((micrometres(width)?, micrometres(length)?))
}

/// A page's own bounds, or those of the tree that it hangs on (ISO 32000-1, 7.7.3.4).
fn inherited<'a>(document: &'a Document, page: &'a Dictionary) -> Option<&'a Object> {
    let mut level = page;
    for _ in 0..LEVELS_MAX {
        if let Ok(bounds) = level.get(b"MediaBox") {
            return Some(bounds);
        }
        let parent = level.get(b"Parent").and_then(Object::as_reference).ok()?;
        level = document.get_dictionary(parent).ok()?;
    }
    None
}

/// A point is 1/72 in (ISO 32000-1, 8.3.2.3); rounded to what paper is cut to, a thousandth of an
/// inch.
#[expect(clippy::cast_possible_truncation, reason = "held to the range first")]
fn micrometres(points: f32) -> Option<Micrometres> {
    if !(1.0..=POINTS_MAX).contains(&points) {
        return None;
    }
    let mil = (f64::from(points) / 72.0 * 1_000.0).round() as i32;
    Some(Micrometres(mil.saturating_mul(254) / 10))
}
