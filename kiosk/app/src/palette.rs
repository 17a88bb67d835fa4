//! The four palettes: every colour that the window draws, as plain data, and how contrast is
//! measured.

use evenhand_visit::{Palette, Tone};

/// A colour in sRGB, eight bits a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub u8, pub u8, pub u8);

/// What something is drawn in. The palette says which colour that is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tint {
    /// Behind everything.
    Ground,
    /// Words, ovals, all that carries meaning.
    Ink,
    /// The edge of what can be pressed.
    Press,
    /// The band that names the state of the ballot, and the plain stripes of a worker's band.
    Band,
    /// The light part of the focus outline.
    FocusLight,
    /// The dark part of the focus outline.
    FocusDark,
    /// The block of a notice of this tone.
    Block(Tone),
    /// The sign within a block of this tone: whichever of ink and ground is seen better on it.
    SignOn(Tone),
}

/// One palette's colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colours {
    /// See [`Tint::Ground`].
    pub ground: Colour,
    /// See [`Tint::Ink`].
    pub ink: Colour,
    /// See [`Tint::Press`].
    pub press: Colour,
    /// See [`Tint::Band`].
    pub band: Colour,
    /// See [`Tint::FocusLight`].
    pub focus_light: Colour,
    /// See [`Tint::FocusDark`].
    pub focus_dark: Colour,
    /// [`Tint::Block`] of a notice that informs.
    pub normal: Colour,
    /// [`Tint::Block`] of a notice that warns.
    pub caution: Colour,
    /// [`Tint::Block`] of a notice of a fault.
    pub fault: Colour,
}

const WHITE: Colour = Colour(0xff, 0xff, 0xff);
const BLACK: Colour = Colour(0, 0, 0);

/// Black on white: words at 21:1 (VVSG 2.0 7.1-D asks for 20:1, from memory).
const DARK_ON_LIGHT: Colours = Colours {
    ground: WHITE,
    ink: BLACK,
    press: Colour(0x14, 0x34, 0x6b),
    band: Colour(0xff, 0xff, 0xff),
    focus_light: WHITE,
    focus_dark: BLACK,
    normal: Colour(0x14, 0x34, 0x6b),
    caution: Colour(0xff, 0xb8, 0x1c),
    // So dark a red that the sign on it has 10:1.
    fault: Colour(0x8a, 0x00, 0x08),
};

/// White on black: words at 21:1.
const LIGHT_ON_DARK: Colours = Colours {
    ground: BLACK,
    ink: WHITE,
    press: Colour(0xb8, 0xcf, 0xff),
    band: BLACK,
    focus_light: WHITE,
    focus_dark: BLACK,
    normal: Colour(0xb8, 0xcf, 0xff),
    caution: Colour(0xff, 0xb8, 0x1c),
    fault: Colour(0xff, 0x8f, 0x8f),
};

/// Dimmed yellow on black: words between 7:1 and 15:1.
const YELLOW_ON_DARK: Colours = Colours {
    ground: BLACK,
    ink: Colour(0xe6, 0xcf, 0x3c),
    press: Colour(0xe6, 0xcf, 0x3c),
    band: BLACK,
    focus_light: Colour(0xe6, 0xcf, 0x3c),
    focus_dark: BLACK,
    normal: Colour(0xe6, 0xcf, 0x3c),
    caution: Colour(0xff, 0xb8, 0x1c),
    fault: Colour(0xff, 0x8f, 0x8f),
};

/// Softer: everything between 4.5:1 and 8:1.
const LOW_CONTRAST: Colours = Colours {
    ground: Colour(0xe4, 0xdf, 0xd3),
    ink: Colour(0x42, 0x45, 0x48),
    press: Colour(0x3a, 0x4a, 0x66),
    band: Colour(0xe4, 0xdf, 0xd3),
    focus_light: Colour(0xe4, 0xdf, 0xd3),
    focus_dark: Colour(0x42, 0x45, 0x48),
    normal: Colour(0x3a, 0x4a, 0x66),
    caution: Colour(0x6b, 0x4a, 0x00),
    fault: Colour(0x8a, 0x1f, 0x27),
};

/// The colours of a palette.
pub const fn colours(palette: Palette) -> &'static Colours {
    match palette {
        Palette::DarkOnLight => &DARK_ON_LIGHT,
        Palette::LightOnDark => &LIGHT_ON_DARK,
        Palette::YellowOnDark => &YELLOW_ON_DARK,
        Palette::LowContrast => &LOW_CONTRAST,
    }
}

impl Colours {
    /// The colour of a tint.
    pub fn of(&self, tint: Tint) -> Colour {
        match tint {
            Tint::Ground => self.ground,
            Tint::Ink => self.ink,
            Tint::Press => self.press,
            Tint::Band => self.band,
            Tint::FocusLight => self.focus_light,
            Tint::FocusDark => self.focus_dark,
            Tint::Block(tone) => self.block(tone),
            Tint::SignOn(tone) => {
                let block = self.block(tone);
                let ink_is_better = contrast(self.ink, block) >= contrast(self.ground, block);
                if ink_is_better { self.ink } else { self.ground }
            }
        }
    }

    const fn block(&self, tone: Tone) -> Colour {
        match tone {
            Tone::Normal => self.normal,
            Tone::Caution => self.caution,
            Tone::Fault => self.fault,
        }
    }
}

/// The contrast of two colours, from 1 to 21: WCAG 2.2, "contrast ratio".
pub fn contrast(one: Colour, other: Colour) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// WCAG 2.2, "relative luminance".
fn luminance(colour: Colour) -> f64 {
    let linear = |channel: u8| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.040_45 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(colour.0) + 0.7152 * linear(colour.1) + 0.0722 * linear(colour.2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Computed from the WCAG formula and rounded to three places (requirements table, section 2).
    #[test]
    fn contrast_is_as_published() {
        for (one, other, published) in [
            (BLACK, WHITE, 21.0),
            (Colour(0x76, 0x76, 0x76), WHITE, 4.542),
            (Colour(0x77, 0x77, 0x77), WHITE, 4.478),
            (Colour(0x94, 0x94, 0x94), WHITE, 3.033),
            (Colour(0x95, 0x95, 0x95), WHITE, 2.995),
            (Colour(0x59, 0x59, 0x59), WHITE, 7.005),
            (Colour(0x5a, 0x5a, 0x5a), WHITE, 6.897),
            (Colour(0x75, 0x75, 0x75), BLACK, 4.558),
            (Colour(0xff, 0, 0), WHITE, 3.998),
            (Colour(0, 0, 0xff), WHITE, 8.592),
            (Colour(0, 0x80, 0), WHITE, 5.137),
            (Colour(0xff, 0xff, 0), BLACK, 19.556),
        ] {
            let found = contrast(one, other);
            assert!((found - published).abs() < 0.0005, "{one:?} {other:?}: {found}");
            assert!((contrast(other, one) - found).abs() < f64::EPSILON);
        }
    }

    /// Holds the contrast of `tint` on the ground to a range.
    fn check(palette: Palette, tint: Tint, least: f64, most: f64) {
        let colours = colours(palette);
        let found = contrast(colours.of(tint), colours.ground);
        assert!((least..=most).contains(&found), "{palette:?} {tint:?}: {found:.2}");
    }

    /// VVSG 2.0 7.1-C and 7.1-D, from memory.
    #[test]
    fn palettes_keep_their_ranges() {
        for palette in [Palette::DarkOnLight, Palette::LightOnDark] {
            check(palette, Tint::Ink, 20.0, 21.0);
            check(palette, Tint::Press, 10.0, 21.0);
        }
        for tint in [Tint::Ink, Tint::Press] {
            check(Palette::YellowOnDark, tint, 7.0, 15.0);
            check(Palette::LowContrast, tint, 4.5, 8.0);
        }
    }

    /// WCAG 2.2, 1.4.11: parts of a picture that are needed to understand it.
    #[test]
    fn a_notice_and_its_sign_can_be_seen() {
        for palette in Palette::ALL {
            let colours = colours(palette);
            for tone in [Tone::Normal, Tone::Caution, Tone::Fault] {
                let found = contrast(colours.of(Tint::Block(tone)), colours.of(Tint::SignOn(tone)));
                // 10:1 in the default palette: VVSG 2.0 7.1-C (from memory).
                let least = if palette == Palette::DarkOnLight { 10.0 } else { 3.0 };
                assert!(found >= least, "{palette:?} {tone:?}: {found:.2}");
            }
        }
    }

    #[test]
    fn the_focus_has_a_dark_and_a_light_part() {
        for palette in Palette::ALL {
            let colours = colours(palette);
            assert!(contrast(colours.focus_light, colours.focus_dark) >= 4.5, "{palette:?}");
        }
    }
}
