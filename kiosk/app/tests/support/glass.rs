//! The screens that layouts are looked at on: so many pixels of such a width.

use evenhand_app::metrics::PixelPitch;
use evenhand_app::scene::Screen;
use evenhand_visit::TypeSize;

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

/// Those that hold letters of every size. Pitches are computed from the diagonal: inches times 25.4, by
/// the diagonal in pixels.
pub(crate) const GLASSES: [Glass; 4] = [
    glass("24in-landscape", (1920, 1080), 276_700),
    glass("24in-portrait", (1080, 1920), 276_700),
    glass("32in-landscape", (3840, 2160), 184_480),
    glass("32in-portrait", (2160, 3840), 184_480),
];

/// Smaller ones, each with the largest letters that it is to hold.
pub(crate) const SMALLER: [(Glass, TypeSize); 7] = [
    (glass("21in-landscape", (1920, 1080), 247_900), TypeSize::Large),
    (glass("19in-landscape", (1280, 1024), 294_400), TypeSize::Large),
    (glass("19in-portrait", (1024, 1280), 294_400), TypeSize::Large),
    (glass("17in-landscape", (1280, 1024), 263_400), TypeSize::Medium),
    (glass("15in-landscape", (1024, 768), 297_600), TypeSize::Medium),
    (glass("16in-landscape", (1920, 1080), 179_900), TypeSize::Medium),
    (glass("16in-portrait", (1080, 1920), 179_900), TypeSize::Medium),
];

/// Some on which nobody can vote.
pub(crate) const TOO_SMALL: [Glass; 4] = [
    glass("10in-landscape", (1024, 768), 198_400),
    glass("10in-portrait", (800, 1280), 169_900),
    glass("12in-landscape", (1280, 800), 203_600),
    glass("14in-landscape", (1920, 1080), 161_400),
];
