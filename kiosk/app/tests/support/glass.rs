//! The screens that layouts are looked at on: so many pixels of such a width.

use evenhand_app::metrics::PixelPitch;
use evenhand_app::scene::Screen;

/// One screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Glass {
    pub(crate) name: &'static str,
    /// Its pixels, across and down.
    pub(crate) pixels: (u16, u16),
    /// The width of one in nanometres.
    pub(crate) pitch_nm: u32,
}

impl Glass {
    pub(crate) fn pitch(self) -> PixelPitch {
        PixelPitch::new(self.pitch_nm).unwrap()
    }

    /// Its size in millimetres, as the window computes it.
    pub(crate) fn screen(self) -> Screen {
        let side = |pixels: u16| self.pitch().distance(f32::from(pixels));
        Screen { width: side(self.pixels.0), height: side(self.pixels.1) }
    }

    pub(crate) fn size(self) -> (u32, u32) {
        (u32::from(self.pixels.0), u32::from(self.pixels.1))
    }
}

pub(crate) const fn glass(name: &'static str, pixels: (u16, u16), pitch_nm: u32) -> Glass {
    Glass { name, pixels, pitch_nm }
}

/// Pitches are computed from the diagonal: inches times 25.4, by the diagonal in pixels. Smaller
/// screens than these can't hold the largest letters: see the README's limits.
pub(crate) const GLASSES: [Glass; 4] = [
    glass("24in-landscape", (1920, 1080), 276_700),
    glass("24in-portrait", (1080, 1920), 276_700),
    glass("32in-landscape", (3840, 2160), 184_480),
    glass("32in-portrait", (2160, 3840), 184_480),
];
