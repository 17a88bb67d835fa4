//! The blank ballot as the PDF writer's operations, and the canvas that other pages are drawn on
//! too.

use std::collections::BTreeMap;

use evenhand_lettering::{Glyph, Run};
use evenhand_rules::Micrometres;
use evenhand_sheet::{Code, CornerFigure, Oval, Page, Point, Rect, Rule, TextLine};
use printpdf::{
    Codepoint, Color, DictItem, Greyscale, LinePoint, Op, PaintMode, PdfFontHandle, PdfPage,
    Polygon, PolygonRing, Pt, TextItem, TextMatrix, WindingOrder,
};

use crate::fonts::{CutFont, Fonts, lines};
use crate::units::{ellipse, points};

/// Least drift of the pen that is corrected, in thousandths of an em: about 4 µm at 10 pt.
const DRIFT_MIN: i32 = 1;

/// Draws a page without any mark.
pub(crate) fn page(page: &Page, width: Micrometres, length: Micrometres, fonts: &Fonts) -> PdfPage {
    let mut canvas = Canvas::new(length);
    canvas.rules(&page.rules);
    canvas.code(&page.code);
    for corner in &page.corners {
        canvas.corner(corner);
    }
    canvas.outlines(&page.ovals);
    for sample in &page.samples {
        canvas.outline(sample.area, sample.stroke);
        if sample.is_filled {
            canvas.fill(vec![round(sample.area)], WindingOrder::NonZero);
        }
    }
    canvas.texts(lines(page), fonts, Extracted::Glyphs);
    canvas.into_page(width)
}

/// What a program gets that takes a page's text out.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Extracted {
    /// What each glyph stands for, glyph by glyph.
    Glyphs,
    /// The words as they were given, also where letters are joined, stacked or stand in another
    /// order than they are read.
    Words,
}

/// A page with exact boxes: `PdfPage::new` takes millimetres and comes out a pixel too large.
pub(crate) fn sized(width: Micrometres, length: Micrometres, ops: Vec<Op>) -> PdfPage {
    let paper = printpdf::Rect {
        x: Pt(0.0),
        y: Pt(0.0),
        width: Pt(points(width)),
        height: Pt(points(length)),
        mode: None,
        winding_order: None,
    };
    PdfPage { media_box: paper.clone(), trim_box: paper.clone(), crop_box: paper, ops }
}

/// A ring of points on the page, y downwards, and whether each is a control point.
type Ring = Vec<(Point, bool)>;

/// Collects a page's operations; its y runs downwards, the PDF's upwards.
pub(crate) struct Canvas {
    length: Micrometres,
    ops: Vec<Op>,
    black: Option<u16>,
}

impl Canvas {
    /// An empty page of this length.
    pub(crate) const fn new(length: Micrometres) -> Self {
        Self { length, ops: Vec::new(), black: None }
    }

    /// The page.
    pub(crate) fn into_page(self, width: Micrometres) -> PdfPage {
        sized(width, self.length, self.ops)
    }

    /// Draws rules; what follows is solid black.
    pub(crate) fn rules(&mut self, rules: &[Rule]) {
        for rule in rules {
            self.ink(rule.black);
            self.fill(vec![rectangle(rule.area)], WindingOrder::NonZero);
        }
        self.ink(1000);
    }

    /// Writes lines in their order.
    pub(crate) fn texts<'a>(
        &mut self,
        lines: impl Iterator<Item = &'a TextLine>,
        fonts: &Fonts,
        extracted: Extracted,
    ) {
        self.ops.push(Op::StartTextSection);
        for line in lines {
            let Some(font) = fonts.get(line.run.face) else { continue };
            if extracted == Extracted::Words {
                self.ops.push(actual_text(&line.run.text));
            }
            self.text(line, font);
            if extracted == Extracted::Words {
                self.ops.push(Op::EndMarkedContent);
            }
        }
        self.ops.push(Op::EndTextSection);
    }

    /// Sets the ink for what follows, 0 none to 1000 solid.
    fn ink(&mut self, black: u16) {
        if self.black != Some(black) {
            self.black = Some(black);
            let percent = f32::from(1000u16.saturating_sub(black)) / 1000.0;
            let col = Color::Greyscale(Greyscale { percent, icc_profile: None });
            self.ops.push(Op::SetFillColor { col: col.clone() });
            self.ops.push(Op::SetOutlineColor { col });
        }
    }

    fn fill(&mut self, rings: Vec<Ring>, winding_order: WindingOrder) {
        self.polygon(rings, PaintMode::Fill, winding_order);
    }

    fn polygon(&mut self, rings: Vec<Ring>, mode: PaintMode, winding_order: WindingOrder) {
        let place = |(point, bezier): (Point, bool)| LinePoint { p: self.placed(point), bezier };
        let ring = |ring: Ring| PolygonRing { points: ring.into_iter().map(place).collect() };
        let rings = rings.into_iter().map(ring).collect();
        self.ops.push(Op::DrawPolygon { polygon: Polygon { rings, mode, winding_order } });
    }

    fn placed(&self, point: Point) -> printpdf::Point {
        let y = self.length.minus(point.y);
        printpdf::Point { x: Pt(points(point.x)), y: Pt(points(y)) }
    }

    fn outlines(&mut self, ovals: &[Oval]) {
        for oval in ovals {
            self.outline(oval.area, oval.stroke);
        }
    }

    fn outline(&mut self, area: Rect, stroke: Micrometres) {
        self.ops.push(Op::SetOutlineThickness { pt: Pt(points(stroke)) });
        self.polygon(vec![round(area)], PaintMode::Stroke, WindingOrder::NonZero);
    }

    /// A ring with a disc in it; the first figure is the ring alone.
    fn corner(&mut self, corner: &CornerFigure) {
        let mut rings = vec![
            round(square(corner.centre, corner.diameter)),
            round(square(corner.centre, corner.ring_inner())),
        ];
        rings.extend(corner.disc().map(|disc| round(square(corner.centre, disc))));
        self.fill(rings, WindingOrder::EvenOdd);
    }

    /// The code's modules as one path, so that no hair lines show between neighbours.
    fn code(&mut self, code: &Code) {
        let columns = usize::from(code.columns).max(1);
        let mut rings = Vec::new();
        let mut y = code.origin.y;
        for row in code.modules.chunks(columns) {
            let mut x = code.origin.x;
            for run in row.chunk_by(|a, b| a == b) {
                let count = i32::try_from(run.len()).unwrap_or(0);
                let width = code.module.times(count);
                if run.first() == Some(&true) {
                    rings.push(rectangle(Rect { x, y, width, height: code.module }));
                }
                x = x.plus(width);
            }
            y = y.plus(code.module);
        }
        self.fill(rings, WindingOrder::NonZero);
    }

    fn text(&mut self, line: &TextLine, font: &CutFont) {
        let run = &line.run;
        let handle = PdfFontHandle::External(font.id.clone());
        self.ops.push(Op::SetFont { font: handle, size: Pt(points(run.size)) });
        for piece in run.glyphs.chunk_by(|a, b| a.y == b.y) {
            let Some(first) = piece.first() else { continue };
            let at = self.placed(line.origin.moved(Point { x: first.x, y: first.y }));
            self.ops.push(Op::SetTextMatrix { matrix: TextMatrix::Translate(at.x, at.y) });
            let glyphs = codepoints(run, piece, font);
            self.ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(glyphs)] });
        }
    }
}

/// Begins what stands for these words (ISO 32000-1, 14.9.4), in UTF-16 with its mark.
fn actual_text(words: &str) -> Op {
    let units = std::iter::once(0xfeff).chain(words.encode_utf16());
    let data = units.flat_map(u16::to_be_bytes).collect();
    let words = DictItem::String { data, literal: false };
    let map = BTreeMap::from([(String::from("ActualText"), words)]);
    Op::BeginMarkedContentWithProperties {
        tag: String::from("Span"),
        properties: DictItem::Dict { map },
    }
}

/// Glyphs of one height, each with how far the pen must go back after it (kerning).
fn codepoints(run: &Run, piece: &[Glyph], font: &CutFont) -> Vec<Codepoint> {
    let size = i64::from(run.size.0).max(1);
    let start = piece.first().map_or(0, |glyph| i64::from(glyph.x.0));
    let mut pen = 0i32;
    let mut out = Vec::with_capacity(piece.len());
    for (at, glyph) in piece.iter().enumerate() {
        let id = font.glyph(glyph.id);
        pen = pen.saturating_add(font.advance(id));
        let mut back = 0;
        if let Some(next) = piece.get(at.saturating_add(1)) {
            let wanted = (i64::from(next.x.0).saturating_sub(start)).saturating_mul(1000);
            let wanted = i32::try_from((wanted + size / 2).div_euclid(size)).unwrap_or(i32::MAX);
            let drift = pen.saturating_sub(wanted);
            if drift.abs() > DRIFT_MIN {
                back = drift;
                pen = wanted;
            }
        }
        out.push(Codepoint::new(id, small(back)));
    }
    out
}

#[expect(clippy::cast_precision_loss, reason = "kerning is far below 2^24 thousandths of an em")]
fn small(number: i32) -> f32 {
    number as f32
}

fn rectangle(area: Rect) -> Ring {
    let corner = |x, y| (Point { x, y }, false);
    vec![
        corner(area.x, area.y),
        corner(area.right(), area.y),
        corner(area.right(), area.bottom()),
        corner(area.x, area.bottom()),
    ]
}

fn square(centre: Point, side: Micrometres) -> Rect {
    let (x, y) = (centre.x.minus(side.half()), centre.y.minus(side.half()));
    Rect { x, y, width: side, height: side }
}

/// The ellipse in a box.
fn round(area: Rect) -> Ring {
    let centre = area.centre();
    let at = |(x, y): (i64, i64)| {
        let by = |offset: i64| Micrometres(i32::try_from(offset).unwrap_or(0));
        Point { x: centre.x.plus(by(x)), y: centre.y.minus(by(y)) }
    };
    let (start, rest) = ellipse(area);
    let mut ring = vec![(at(start), false)];
    let is_control = [true, true, false].into_iter().cycle();
    ring.extend(rest.into_iter().zip(is_control).map(|(point, control)| (at(point), control)));
    ring
}
