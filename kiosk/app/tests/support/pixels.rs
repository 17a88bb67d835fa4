//! A drawn frame, and what is measured in it. Nothing here asks a palette or a font: only pixels.

use std::collections::BTreeMap;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::palette::{Colour, colours, contrast};
use evenhand_app::pane::{PageFace, ground};
use evenhand_app::scene::Scene;
use evenhand_app::shapes::Shapes;
use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::Palette;
use iced::advanced::renderer::Headless as _;
use image::RgbaImage;

use crate::draw;

/// The most that eight bits can tell apart.
type Key = (u8, u8, u8);

/// A frame as it was drawn, and the pitch that it is measured with.
pub(crate) struct Frame {
    pub(crate) image: RgbaImage,
    pub(crate) pitch: PixelPitch,
}

/// Pixels from the first column and row to the last, these not included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Span {
    pub(crate) left: u32,
    pub(crate) top: u32,
    pub(crate) right: u32,
    pub(crate) bottom: u32,
}

impl Frame {
    /// Draws a scene as the window does.
    pub(crate) fn draw(
        renderer: &mut iced::Renderer,
        scene: &Scene,
        (palette, pitch): (Palette, PixelPitch),
        (width, height): (u32, u32),
    ) -> Self {
        let how = (palette, pitch, PageFace::Front);
        draw::record((renderer, &mut Shapes::new()), scene, how, (width, height));
        let size = iced::Size::new(width, height);
        let pixels = renderer.screenshot(size, 1.0, ground(colours(palette)));
        Self { image: RgbaImage::from_raw(width, height, pixels).unwrap(), pitch }
    }

    pub(crate) fn colour(&self, x: u32, y: u32) -> Colour {
        let [red, green, blue, _] = self.image.get_pixel(x, y).0;
        Colour(red, green, blue)
    }

    /// The colour of the ground: that of the lowest pixel at the left, where nothing ever stands.
    pub(crate) fn corner(&self) -> Colour {
        self.colour(0, self.image.height() - 1)
    }

    /// The pixels that lie within an area, each at least by a half.
    pub(crate) fn span(&self, area: Rect) -> Span {
        let (width, height) = self.image.dimensions();
        Span {
            left: self.whole(area.x).min(width),
            top: self.whole(area.y).min(height),
            right: self.whole(area.right()).min(width),
            bottom: self.whole(area.bottom()).min(height),
        }
    }

    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held to 0")]
    fn whole(&self, distance: Micrometres) -> u32 {
        self.pitch.pixels(distance).round().max(0.0) as u32
    }

    /// How often each colour stands in an area.
    fn histogram(&self, area: Rect) -> BTreeMap<Key, usize> {
        let span = self.span(area);
        let mut counts = BTreeMap::new();
        for y in span.top..span.bottom {
            for x in span.left..span.right {
                let Colour(red, green, blue) = self.colour(x, y);
                *counts.entry((red, green, blue)).or_insert(0) += 1;
            }
        }
        counts
    }

    /// The two colours of an area: the one that most of it has, and the one that stands out most
    /// from it.
    pub(crate) fn pair(&self, area: Rect) -> Pair {
        /// Fewer pixels of a colour are not what a reader sees.
        const SEEN: usize = 3;
        let counts = self.histogram(area);
        let most = counts.iter().max_by_key(|(_, count)| **count);
        let ground = most.map_or((0, 0, 0), |(key, _)| *key);
        let to = |key: Key| contrast(of(key), of(ground));
        let seen = counts.iter().filter(|(_, count)| **count >= SEEN).map(|(key, _)| *key);
        let ink = seen.max_by(|one, other| to(*one).total_cmp(&to(*other))).unwrap_or(ground);
        Pair { ground: of(ground), ink: of(ink) }
    }
}

const fn of((red, green, blue): Key) -> Colour {
    Colour(red, green, blue)
}

/// Two colours beside each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pair {
    pub(crate) ground: Colour,
    pub(crate) ink: Colour,
}

impl Pair {
    pub(crate) fn contrast(self) -> f64 {
        contrast(self.ground, self.ink)
    }
    /// True where the ground is the lighter of the two.
    pub(crate) fn is_dark_on_light(self) -> bool {
        let black = Colour(0, 0, 0);
        contrast(self.ground, black) > contrast(self.ink, black)
    }
}
