//! The one widget of the window: draws a [`Scene`] and says what was touched.
//!
//! A touch counts where the finger or the button is lifted, if that is where it was put down: a
//! voter who lands on the wrong place can slide off it (WCAG 2.2, 2.5.2).

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

use evenhand_lettering::{Face, Weight, family_name};
use evenhand_rules::{ContestIndex, OptionIndex};
use evenhand_sheet::Rect;
use evenhand_visit::Target;
use iced::advanced::image::Renderer as _;
use iced::advanced::renderer::{Quad, Renderer as _, Style};
use iced::advanced::text::{
    Alignment, LineHeight, Renderer as _, Shaping, Text as TextToDraw, Wrapping,
};
use iced::advanced::widget::{Tree, tree};
use iced::advanced::{Clipboard, Layout, Shell, Widget, image, layout, mouse};
use iced::{
    Background, Border, Color, Event, Font, Length, Pixels, Point, Rectangle, Renderer, Size,
    Theme, Vector, alignment, border, font, touch,
};

use crate::devices::{Report, Reports};
use crate::metrics::{EDGE, PixelPitch};
use crate::palette::{Colour, Colours, Tint};
use crate::scene::{Mark, Scene};
use crate::shapes::Shapes;

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
    shapes: &'a Shapes,
    touched: fn(Target, Duration) -> Message,
    face: PageFace,
    drawn: Option<Drawn>,
}

/// Which face of a page is up. The renderer draws only what has changed since the last frame, piece
/// by piece, which is quick for a few pieces and many times as slow as a whole frame for a new
/// screen. When the face has changed it draws the whole frame once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PageFace {
    /// The one.
    #[default]
    Front,
    /// The other.
    Back,
}

impl PageFace {
    /// The face for a scene that comes after another: the other one where a good part of it differs.
    #[must_use]
    pub fn after(self, before: &Scene, now: &Scene) -> Self {
        /// Pieces that are drawn one by one in less time than a whole frame. Measured.
        const FEW: usize = 12;
        let changed = before.marks.iter().zip(&now.marks).filter(|(a, b)| a != b).count();
        let more = before.marks.len().abs_diff(now.marks.len());
        if changed + more <= FEW {
            return self;
        }
        match self {
            Self::Front => Self::Back,
            Self::Back => Self::Front,
        }
    }

    /// The layer that a scene is drawn on. The renderer takes a layer with other bounds for a new
    /// one; both cover the screen.
    fn layer(self, screen: Rectangle) -> Rectangle {
        match self {
            Self::Front => screen,
            Self::Back => screen.expand(1.0),
        }
    }
}

/// Reports what was drawn, for the trace: each view once.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// Which view this is.
    pub view: u64,
    /// The view that was reported last.
    pub reported: Arc<AtomicU64>,
    /// Where reports go. They are taken up after the frame has been handed to the display, because
    /// the same thread does both.
    pub reports: Reports,
}

impl<'a, Message> Pane<'a, Message> {
    /// A pane that shows this scene, and makes a message of what is touched.
    pub const fn new(
        scene: &'a Scene,
        colours: &'a Colours,
        pitch: PixelPitch,
        (pictures, shapes): (&'a Pictures, &'a Shapes),
        touched: fn(Target, Duration) -> Message,
    ) -> Self {
        Self {
            scene,
            colours,
            pitch,
            pictures,
            shapes,
            touched,
            face: PageFace::Front,
            drawn: None,
        }
    }

    /// The same, on this face.
    #[must_use]
    pub const fn on(mut self, face: PageFace) -> Self {
        self.face = face;
        self
    }

    /// The same, that also reports what it draws.
    #[must_use]
    pub fn reporting(mut self, drawn: Option<Drawn>) -> Self {
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
            width: width.round().max(1.0),
            radius: border::radius(corner),
        });
        let background = fill.map_or(Color::TRANSPARENT, |tint| self.colour(tint));
        let quad = Quad { bounds: on_whole_pixels(self.area(area)), border, ..Quad::default() };
        renderer.fill_quad(quad, Background::Color(background));
    }

    fn draw_text(
        &self,
        renderer: &mut Renderer,
        area: Rect,
        words: &str,
        (face, em, is_rtl, tint): (Face, f32, bool, Tint),
    ) {
        let bounds = self.area(area);
        // One line: room to spare at its end, so that rounding never breaks it. The toolkit sets a
        // line that is read from the right at the right of its room.
        let spare = em * 2.0;
        let room = Size::new(bounds.width + spare, bounds.height);
        let start = if is_rtl { Vector::new(-spare, 0.0) } else { Vector::ZERO };
        let place = bounds.position() + start;
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
        // The line's own box: a larger one would overlap the lines beside it, and a piece that is
        // drawn anew would cut through them.
        let clip = Rectangle {
            x: place.x - RIM,
            width: room.width + 2.0 * RIM,
            ..Rectangle::new(place, room)
        };
        renderer.fill_text(text, place, self.colour(tint), clip);
    }

    /// Draws a shape's picture on whole pixels, so that its edges stay as they were drawn.
    fn draw_shape(&self, renderer: &mut Renderer, mark: &Mark) {
        if let Some(handle) = self.shapes.of(mark, self.colours, self.pitch) {
            let area = self.area(mark.area());
            let place = Rectangle {
                x: area.x.round(),
                y: area.y.round(),
                width: area.width.round().max(1.0),
                height: area.height.round().max(1.0),
            };
            renderer.draw_image(image::Image::new(handle.clone()), place, place);
        }
    }

    fn draw_mark(&self, renderer: &mut Renderer, mark: &Mark) {
        let pixels = |distance| self.pitch.pixels(distance);
        match mark {
            Mark::Box { area, fill, edge, corner } => {
                let edge = edge.map(|(tint, width)| (tint, pixels(width)));
                self.draw_box(renderer, *area, *fill, (edge, pixels(*corner)));
            }
            Mark::Oval { .. } | Mark::Arrow { .. } | Mark::Stripes(_) | Mark::Sign { .. } => {
                self.draw_shape(renderer, mark);
            }
            Mark::Text { area, words, face, em, is_rtl, tint } => {
                let how = (*face, pixels(*em), *is_rtl, *tint);
                self.draw_text(renderer, *area, words.as_str(), how);
            }
            Mark::Picture { area, contest, option } => {
                if let Some(handle) = self.pictures.get(&(*contest, *option)) {
                    let area = self.area(*area);
                    renderer.draw_image(image::Image::new(handle.clone()), area, area);
                }
            }
        }
    }
}

/// How many pixels a letter may reach out of its line's box at either side: the smoothing of its edge
/// and a little overhang (seen: one).
const RIM: f32 = 2.0;

/// The nearest whole pixels: an edge that lies between two of them would be smoothed, and so be
/// paler than its palette says.
fn on_whole_pixels(area: Rectangle) -> Rectangle {
    let (x, y) = (area.x.round(), area.y.round());
    let width = ((area.x + area.width).round() - x).max(1.0);
    let height = ((area.y + area.height).round() - y).max(1.0);
    Rectangle { x, y, width, height }
}

/// The colour of the ground.
pub fn ground(colours: &Colours) -> Color {
    let Colour(red, green, blue) = colours.of(Tint::Ground);
    Color::from_rgb8(red, green, blue)
}

/// The font of a face.
fn font_of(face: Face) -> Font {
    let weight = match face.weight() {
        Weight::Regular | Weight::Fixed => font::Weight::Normal,
        Weight::Bold => font::Weight::Bold,
    };
    Font { family: font::Family::Name(family_name(face)), weight, ..Font::DEFAULT }
}

/// What is held down and since when, until it is lifted.
#[derive(Debug, Default)]
struct Held {
    by_mouse: Option<(Target, Instant)>,
    by_finger: Option<(touch::Finger, Target, Instant)>,
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
        // The ground is the window's own background, which costs the renderer no masks.
        renderer.with_layer(self.face.layer(layout.bounds()), |renderer| {
            for mark in &self.scene.marks {
                self.draw_mark(renderer, mark);
            }
        });
        if let Some(drawn) = &self.drawn
            && drawn.reported.swap(drawn.view, Ordering::Relaxed) != drawn.view
        {
            // If nobody takes reports any more, the window is closing.
            drawn.reports.unbounded_send(Report::Drawn(drawn.view)).unwrap_or_default();
        }
    }

    #[expect(clippy::disallowed_methods, reason = "how long a touch lasted is known here only")]
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
                let target = cursor.position().and_then(|position| self.target_at(position));
                held.by_mouse = target.map(|target| (target, Instant::now()));
                None
            }
            Event::Mouse(mouse::Event::ButtonReleased(mouse::Button::Left)) => {
                let now = cursor.position().and_then(|position| self.target_at(position));
                held.by_mouse.take().filter(|(target, _)| now == Some(*target))
            }
            Event::Touch(touch::Event::FingerPressed { id, position }) => {
                // A second finger means nothing while the first is down.
                if held.by_finger.is_none() {
                    let target = self.target_at(*position);
                    held.by_finger = target.map(|target| (*id, target, Instant::now()));
                }
                None
            }
            Event::Touch(touch::Event::FingerLifted { id, position }) => {
                let mine = held.by_finger.take_if(|(finger, _, _)| finger == id);
                let now = self.target_at(*position);
                mine.map(|(_, target, since)| (target, since))
                    .filter(|(target, _)| now == Some(*target))
            }
            Event::Touch(touch::Event::FingerLost { id, .. }) => {
                held.by_finger.take_if(|(finger, _, _)| finger == id);
                None
            }
            Event::Keyboard(_)
            | Event::Mouse(_)
            | Event::Window(_)
            | Event::Touch(_)
            | Event::InputMethod(_) => None,
        };
        if let Some((target, since)) = touched {
            shell.publish((self.touched)(target, since.elapsed()));
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
