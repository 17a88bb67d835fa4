//! Draws a scene without a window, by the same renderer.

use evenhand_app::metrics::PixelPitch;
use evenhand_app::palette::colours;
use evenhand_app::pane::{FAMILY, PageFace, Pane, Pictures};
use evenhand_app::scene::Scene;
use evenhand_app::shapes::Shapes;
use evenhand_lettering::{Face, font_bytes};
use evenhand_visit::{Palette, Target};
use iced::advanced::renderer::{Headless, Style};
use iced::futures::executor::block_on;
use iced::{Color, Font, Pixels, Renderer, Size, Theme, mouse};
use iced_test::runtime::UserInterface;
use iced_test::runtime::user_interface::Cache;

/// A renderer with our faces.
pub(crate) fn renderer() -> Renderer {
    let mut fonts = iced::advanced::graphics::text::font_system().write().unwrap();
    for face in Face::ALL {
        fonts.load_font(font_bytes(face).into());
    }
    drop(fonts);
    let font = Font::with_name(FAMILY);
    block_on(<Renderer as Headless>::new(font, Pixels(16.0), Some("tiny-skia"))).unwrap()
}

/// Records a scene in the renderer, without rasterising it.
#[expect(clippy::cast_precision_loss, reason = "a screen has fewer than 2^24 pixels a side")]
pub(crate) fn record(
    (renderer, shapes): (&mut Renderer, &mut Shapes),
    scene: &Scene,
    (palette, pitch, face): (Palette, PixelPitch, PageFace),
    (width, height): (u32, u32),
) {
    let pictures = Pictures::new();
    let colours = colours(palette);
    shapes.prepare(scene, colours, pitch);
    let both = (&pictures, &*shapes);
    let pane = Pane::new(scene, colours, pitch, both, |target: Target, _| target).on(face);
    let size = Size::new(width as f32, height as f32);
    let mut interface: UserInterface<'_, Target, Theme, Renderer> =
        UserInterface::build(pane, size, Cache::default(), renderer);
    interface.draw(
        renderer,
        &Theme::Light,
        &Style { text_color: Color::BLACK },
        mouse::Cursor::Unavailable,
    );
}
