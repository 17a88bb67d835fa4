//! The one widget of the window: draws a [`Scene`] and says what was touched.
//!
//! A touch counts where the finger or the button is lifted, if that is where it was put down: a
//! voter who lands on the wrong place can slide off it (WCAG 2.2, 2.5.2).

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use evenhand_lettering::Face;
use evenhand_rules::{ContestIndex, OptionIndex};
use evenhand_sheet::Rect;
use evenhand_visit::{Target, Tone};
use iced::advanced::graphics::geometry::Renderer as _;
use iced::advanced::image::Renderer as _;
use iced::advanced::renderer::{Quad, Renderer as _, Style};
use iced::advanced::text::{
    Alignment, LineHeight, Renderer as _, Shaping, Text as TextToDraw, Wrapping,
};
use iced::advanced::widget::{Tree, tree};
use iced::advanced::{Clipboard, Layout, Shell, Widget, image, layout, mouse};
use iced::widget::canvas::{Frame, Path, Stroke};
use iced::{
    Background, Border, Color, Event, Font, Length, Pixels, Point, Rectangle, Renderer, Size,
    Theme, Vector, alignment, border, font, touch,
};

use crate::metrics::{EDGE, PixelPitch, STRIPE};
use crate::palette::{Colour, Colours, Tint};
use crate::scene::{Mark, Scene};

/// The family of the faces, as their files name it.
pub const FAMILY: &str = "Atkinson Hyperlegible Next";

/// The pictures of written names, ready to be drawn.
pub type Pictures = BTreeMap<(ContestIndex, OptionIndex), image::Handle>;

/// Draws a scene.
#[derive(Debug)]
pub struct Pane<'a, Message> {
    scene: &'a Scene,
    colours: &'a Colours,
    pitch: PixelPitch,
    pictures: &'a Pictures,
    touched: fn(Target) -> Message,
    drawn: Option<Drawn>,
}

/// Counts what was drawn, for the trace.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// Which view this is.
    pub view: u64,
    /// The latest view that was drawn.
    pub latest: Arc<AtomicU64>,
}

impl<'a, Message> Pane<'a, Message> {
    /// A pane that shows this scene, and makes a message of what is touched.
    pub const fn new(
        scene: &'a Scene,
        colours: &'a Colours,
        pitch: PixelPitch,
        pictures: &'a Pictures,
        touched: fn(Target) -> Message,
    ) -> Self {
        Self { scene, colours, pitch, pictures, touched, drawn: None }
    }

    /// The same, that also counts what it draws.
    #[must_use]
    pub fn counted(mut self, drawn: Option<Drawn>) -> Self {
        self.drawn = drawn;
        self
    }

    fn target_at(&self, position: Point) -> Option<Target> {
        self.scene.target_at(self.pitch.distance(position.x), self.pitch.distance(position.y))
    }

    fn colour(&self, tint: Tint) -> Color {
        let Colour(red, green, blue) = self.colours.of(tint);
        Color::from_rgb8(red, green, blue)
    }

    fn area(&self, area: Rect) -> Rectangle {
        let pixels = |distance| self.pitch.pixels(distance);
        Rectangle {
            x: pixels(area.x),
            y: pixels(area.y),
            width: pixels(area.width),
            height: pixels(area.height),
        }
    }

    fn draw_box(
        &self,
        renderer: &mut Renderer,
        area: Rect,
        fill: Option<Tint>,
        (edge, corner): (Option<(Tint, f32)>, f32),
    ) {
        let border = edge.map_or_else(Border::default, |(tint, width)| Border {
            color: self.colour(tint),
            width: width.max(1.0),
            radius: border::radius(corner),
        });
        let background = fill.map_or(Color::TRANSPARENT, |tint| self.colour(tint));
        let quad = Quad { bounds: self.area(area), border, ..Quad::default() };
        renderer.fill_quad(quad, Background::Color(background));
    }

    fn draw_text(
        &self,
        renderer: &mut Renderer,
        area: Rect,
        words: &str,
        (face, em, tint): (Face, f32, Tint),
    ) {
        let bounds = self.area(area);
        // One line: room to spare at its right, so that rounding never breaks it.
        let room = Size::new(bounds.width + em * 2.0, bounds.height);
        let text = TextToDraw {
            content: words.to_owned(),
            bounds: room,
            size: Pixels(em),
            line_height: LineHeight::Absolute(Pixels(bounds.height)),
            font: font_of(face),
            align_x: Alignment::Left,
            align_y: alignment::Vertical::Top,
            shaping: Shaping::Advanced,
            wrapping: Wrapping::None,
        };
        let clip = Rectangle::new(bounds.position(), room).expand(em);
        renderer.fill_text(text, bounds.position(), self.colour(tint), clip);
    }

    /// Draws shapes within an area; the closure's frame has the area's top left at (0, 0).
    fn draw_shape(renderer: &mut Renderer, area: Rectangle, draw: impl FnOnce(&mut Frame)) {
        let mut frame = Frame::new(renderer, area.size());
        draw(&mut frame);
        let geometry = frame.into_geometry();
        renderer.with_translation(Vector::new(area.x, area.y), |renderer| {
            renderer.draw_geometry(geometry);
        });
    }

    fn draw_oval(&self, renderer: &mut Renderer, area: Rect, stroke: f32, is_filled: bool) {
        let area = self.area(area);
        let ink = self.colour(Tint::Ink);
        Self::draw_shape(renderer, area, |frame| {
            let stroke = stroke.max(1.5);
            let outline = ellipse(area.size(), stroke / 2.0);
            if is_filled {
                frame.fill(&ellipse(area.size(), 0.0), ink);
            } else {
                frame.stroke(&outline, Stroke::default().with_color(ink).with_width(stroke));
            }
        });
    }

    fn draw_arrow(&self, renderer: &mut Renderer, area: Rect, is_up: bool) {
        let area = self.area(area);
        let ink = self.colour(Tint::Ink);
        Self::draw_shape(renderer, area, |frame| {
            let (tip, base) = if is_up { (0.1, 0.9) } else { (0.9, 0.1) };
            let at = |x: f32, y: f32| Point::new(area.width * x, area.height * y);
            let path = Path::new(|path| {
                path.move_to(at(0.5, tip));
                path.line_to(at(1.0, base));
                path.line_to(at(0.0, base));
                path.close();
            });
            frame.fill(&path, ink);
        });
    }

    /// Stripes that lean, over the whole width.
    fn draw_stripes(&self, renderer: &mut Renderer, area: Rect) {
        let area = self.area(area);
        let ink = self.colour(Tint::Ink);
        let stripe = self.pitch.pixels(STRIPE);
        Self::draw_shape(renderer, area, |frame| {
            let mut x = -area.height;
            while x < area.width {
                let path = Path::new(|path| {
                    path.move_to(Point::new(x, area.height));
                    path.line_to(Point::new(x + area.height, 0.0));
                    path.line_to(Point::new(x + area.height + stripe, 0.0));
                    path.line_to(Point::new(x + stripe, area.height));
                    path.close();
                });
                frame.fill(&path, ink);
                x += stripe * 2.0;
            }
        });
    }

    /// A disc that informs, a triangle that warns, a square on its corner for a fault; in each the
    /// same stroke and dot.
    fn draw_sign(&self, renderer: &mut Renderer, area: Rect, tone: Tone) {
        let area = self.area(area);
        let sign = self.colour(Tint::SignOn(tone));
        let block = self.colour(Tint::Block(tone));
        Self::draw_shape(renderer, area, |frame| {
            let at = |x: f32, y: f32| Point::new(area.width * x, area.height * y);
            let shape = Path::new(|path| match tone {
                Tone::Normal => path.circle(at(0.5, 0.5), area.width * 0.48),
                Tone::Caution => polygon(path, &[at(0.5, 0.04), at(1.0, 0.94), at(0.0, 0.94)]),
                Tone::Fault => {
                    polygon(path, &[at(0.5, 0.0), at(1.0, 0.5), at(0.5, 1.0), at(0.0, 0.5)]);
                }
            });
            frame.fill(&shape, sign);
            let stroke = Size::new(area.width * 0.1, area.height * 0.3);
            frame.fill_rectangle(at(0.45, 0.3), stroke, block);
            let dot = Size::new(area.width * 0.1, area.height * 0.1);
            frame.fill_rectangle(at(0.45, 0.68), dot, block);
        });
    }

    fn draw_mark(&self, renderer: &mut Renderer, mark: &Mark) {
        let pixels = |distance| self.pitch.pixels(distance);
        match mark {
            Mark::Box { area, fill, edge, corner } => {
                let edge = edge.map(|(tint, width)| (tint, pixels(width)));
                self.draw_box(renderer, *area, *fill, (edge, pixels(*corner)));
            }
            Mark::Oval { area, stroke, is_filled } => {
                self.draw_oval(renderer, *area, pixels(*stroke), *is_filled);
            }
            Mark::Text { area, words, face, em, tint } => {
                self.draw_text(renderer, *area, words.as_str(), (*face, pixels(*em), *tint));
            }
            Mark::Arrow { area, is_up } => self.draw_arrow(renderer, *area, *is_up),
            Mark::Stripes(area) => self.draw_stripes(renderer, *area),
            Mark::Sign { area, tone } => self.draw_sign(renderer, *area, *tone),
            Mark::Picture { area, contest, option } => {
                if let Some(handle) = self.pictures.get(&(*contest, *option)) {
                    let area = self.area(*area);
                    renderer.draw_image(image::Image::new(handle.clone()), area, area);
                }
            }
        }
    }
}

/// The font of a face.
fn font_of(face: Face) -> Font {
    let family = |name, weight| Font { family: font::Family::Name(name), weight, ..Font::DEFAULT };
    match face {
        Face::Regular => family(FAMILY, font::Weight::Normal),
        Face::Bold => family(FAMILY, font::Weight::Bold),
        Face::Fixed => family("Atkinson Hyperlegible Mono", font::Weight::Normal),
    }
}

fn polygon(path: &mut iced::widget::canvas::path::Builder, corners: &[Point]) {
    let mut corners = corners.iter();
    if let Some(first) = corners.next() {
        path.move_to(*first);
        for corner in corners {
            path.line_to(*corner);
        }
        path.close();
    }
}

/// An ellipse within a size, `inset` from its edges: four Bézier curves with the same constant as
/// the sheet's ovals.
fn ellipse(size: Size, inset: f32) -> Path {
    /// Four thirds of (√2 − 1): the curve that is nearest to a quarter of a circle.
    const K: f32 = 0.552_284_8;
    let (cx, cy) = (size.width / 2.0, size.height / 2.0);
    let (rx, ry) = (cx - inset, cy - inset);
    let at = |x: f32, y: f32| Point::new(cx + rx * x, cy + ry * y);
    Path::new(|path| {
        path.move_to(at(1.0, 0.0));
        path.bezier_curve_to(at(1.0, K), at(K, 1.0), at(0.0, 1.0));
        path.bezier_curve_to(at(-K, 1.0), at(-1.0, K), at(-1.0, 0.0));
        path.bezier_curve_to(at(-1.0, -K), at(-K, -1.0), at(0.0, -1.0));
        path.bezier_curve_to(at(K, -1.0), at(1.0, -K), at(1.0, 0.0));
        path.close();
    })
}

/// What is held down, until it is lifted.
#[derive(Debug, Default)]
struct Held {
    by_mouse: Option<Target>,
    by_finger: Option<(touch::Finger, Target)>,
}

impl<Message> Widget<Message, Theme, Renderer> for Pane<'_, Message> {
    fn size(&self) -> Size<Length> {
        Size::new(Length::Fill, Length::Fill)
    }

    fn layout(&mut self, _: &mut Tree, _: &Renderer, limits: &layout::Limits) -> layout::Node {
        layout::Node::new(limits.max())
    }

    fn tag(&self) -> tree::Tag {
        tree::Tag::of::<Held>()
    }

    fn state(&self) -> tree::State {
        tree::State::new(Held::default())
    }

    fn draw(
        &self,
        _: &Tree,
        renderer: &mut Renderer,
        _: &Theme,
        _: &Style,
        layout: Layout<'_>,
        _: mouse::Cursor,
        _: &Rectangle,
    ) {
        let ground = Quad { bounds: layout.bounds(), ..Quad::default() };
        renderer.fill_quad(ground, Background::Color(self.colour(Tint::Ground)));
        for mark in &self.scene.marks {
            self.draw_mark(renderer, mark);
        }
        if let Some(drawn) = &self.drawn {
            drawn.latest.store(drawn.view, Ordering::Release);
        }
    }

    fn update(
        &mut self,
        tree: &mut Tree,
        event: &Event,
        _: Layout<'_>,
        cursor: mouse::Cursor,
        _: &Renderer,
        _: &mut dyn Clipboard,
        shell: &mut Shell<'_, Message>,
        _: &Rectangle,
    ) {
        let held = tree.state.downcast_mut::<Held>();
        let touched = match event {
            Event::Mouse(mouse::Event::ButtonPressed(mouse::Button::Left)) => {
                held.by_mouse = cursor.position().and_then(|position| self.target_at(position));
                None
            }
            Event::Mouse(mouse::Event::ButtonReleased(mouse::Button::Left)) => {
                let now = cursor.position().and_then(|position| self.target_at(position));
                held.by_mouse.take().filter(|target| now == Some(*target))
            }
            Event::Touch(touch::Event::FingerPressed { id, position }) => {
                // A second finger means nothing while the first is down.
                if held.by_finger.is_none() {
                    held.by_finger = self.target_at(*position).map(|target| (*id, target));
                }
                None
            }
            Event::Touch(touch::Event::FingerLifted { id, position }) => {
                let mine = held.by_finger.take_if(|(finger, _)| finger == id);
                let now = self.target_at(*position);
                mine.map(|(_, target)| target).filter(|target| now == Some(*target))
            }
            Event::Touch(touch::Event::FingerLost { id, .. }) => {
                held.by_finger.take_if(|(finger, _)| finger == id);
                None
            }
            Event::Keyboard(_)
            | Event::Mouse(_)
            | Event::Window(_)
            | Event::Touch(_)
            | Event::InputMethod(_) => None,
        };
        if let Some(target) = touched {
            shell.publish((self.touched)(target));
            shell.capture_event();
        }
    }
}

impl<'a, Message: 'a> From<Pane<'a, Message>> for iced::Element<'a, Message> {
    fn from(pane: Pane<'a, Message>) -> Self {
        Self::new(pane)
    }
}

/// The least that an edge is drawn with is a pixel; at usual pitches ours are wider.
const _: () = assert!(EDGE.0 >= 277, "an edge is at least a pixel of a usual screen");
