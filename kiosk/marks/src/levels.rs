//! What is paper white and what is ink black in one picture.

use crate::corners::{Figures, ink_of_figures};
use crate::mapping::Mapping;
use crate::plane::Plane;

/// The grey values that count as no ink and as full ink.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Levels {
    pub(crate) white: f32,
    pub(crate) black: f32,
}

/// Least difference between white and black, in grey values of 255. Own choice: below it, the noise
/// of an ordinary scan (a few values) is no longer small beside the print.
pub(crate) const CONTRAST_MIN: f32 = 50.0;

/// What the brightness of the whole picture says.
pub(crate) enum Brightness {
    Usual(Levels),
    /// More than half of it is nearer to black than to white.
    MostlyDark,
    /// Paper and print can't be told apart.
    Faint,
}

/// A first estimate from a small plane of the whole picture. White is the middle of the brighter
/// values; black the darkest thousandth, which the corner figures and the code alone make up.
pub(crate) fn estimate(plane: &Plane) -> Brightness {
    let mut counts = [0_u32; 256];
    for &value in plane.pixels() {
        if let Some(count) = counts.get_mut(usize::from(value)) {
            *count = count.saturating_add(1);
        }
    }
    let total: u32 = counts.iter().sum();
    let black = value_at(&counts, total / 1000);
    let bright = value_at(&counts, total.saturating_sub(total / 1000));
    let middle = f32::midpoint(black, bright);
    if bright - black < CONTRAST_MIN {
        return Brightness::Faint;
    }
    let median = value_at(&counts, total / 2);
    if median < middle {
        return Brightness::MostlyDark;
    }
    Brightness::Usual(Levels { white: median, black })
}

/// The grey value that `rank` pixels lie below.
fn value_at(counts: &[u32; 256], rank: u32) -> f32 {
    let mut seen = 0_u32;
    for (value, &count) in (0_u16..).zip(counts) {
        seen = seen.saturating_add(count);
        if seen > rank {
            return f32::from(value);
        }
    }
    255.0
}

impl Levels {
    /// The share of ink, 0 to 1, of a grey value.
    pub(crate) fn ink(self, value: f32) -> f32 {
        ((self.white - value) / (self.white - self.black)).clamp(0.0, 1.0)
    }

    /// The same white, and black as the corner figures have it: they are known to be solid.
    pub(crate) fn with_black_of(self, plane: &Plane, mapping: &Mapping, figures: &Figures) -> Self {
        ink_of_figures(plane, mapping, figures).map_or(self, |black| Self { black, ..self })
    }

    /// The grey value half way between.
    pub(crate) fn middle(self) -> f32 {
        f32::midpoint(self.white, self.black)
    }

    /// For every grey value its ink, 0 to 255.
    pub(crate) fn table(self) -> [u8; 256] {
        let mut table = [0_u8; 256];
        for (value, ink) in (0_u8..=255).zip(table.iter_mut()) {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a share of 0 to 1 times 255"
            )]
            let share = (self.ink(f32::from(value)) * 255.0).round() as u8;
            *ink = share;
        }
        table
    }
}
