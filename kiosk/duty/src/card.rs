//! The size of the screen, measured with a card of a known size.

use evenhand_rules::Micrometres;

/// The width of an identification card of the size ID-1 (ISO/IEC 7810): bank cards, driver licenses.
pub const CARD_WIDTH: Micrometres = Micrometres(85_600);
/// Its height.
pub const CARD_HEIGHT: Micrometres = Micrometres(53_980);

/// The longer side of the smallest screen on which a ballot can be voted in the usual letters: about
/// 15 in across (found by laying out the demo's screens; no source).
pub const SIDE_LONG_LEAST: Micrometres = Micrometres(300_000);
/// Its shorter side.
pub const SIDE_SHORT_LEAST: Micrometres = Micrometres(190_000);
/// The largest screen, across its corners: 32 in, and 3 % for a card held a pixel or two off.
const DIAGONAL_MOST: Micrometres = Micrometres(837_200);

/// A screen as it was measured: its pixels, and how many of them a card is wide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Glass {
    width: u16,
    height: u16,
    card: u16,
}

impl Glass {
    /// A screen of so many pixels, each so many nanometres wide.
    pub fn new((width, height): (u16, u16), pitch: u32) -> Self {
        let nanometres = CARD_WIDTH.0.unsigned_abs().saturating_mul(1_000);
        let half = pitch.checked_div(2).unwrap_or(0);
        let card = nanometres.saturating_add(half).checked_div(pitch).unwrap_or(0);
        Self { width, height, card: 0 }.with_card(u16::try_from(card).unwrap_or(u16::MAX))
    }

    /// The same, the card being so many pixels wide; held to what fits on the screen and to pixels
    /// of 0.05 to 1 mm.
    #[must_use]
    pub fn with_card(self, card: u16) -> Self {
        let most = self.width.clamp(86, 1_712);
        Self { card: card.clamp(86, most), ..self }
    }

    /// The same pixels on a screen of another size.
    #[must_use]
    pub fn of_pixels(self, width: u16, height: u16) -> Self {
        Self { width, height, ..self }.with_card(self.card)
    }

    /// How many pixels a card is wide.
    pub const fn card_width(self) -> u16 {
        self.card
    }

    /// How many pixels a card is high, to the nearest.
    pub fn card_height(self) -> u16 {
        let wide = u32::from(self.card).saturating_mul(CARD_HEIGHT.0.unsigned_abs());
        let width = CARD_WIDTH.0.unsigned_abs();
        let high = wide.saturating_add(width.checked_div(2).unwrap_or(0)).checked_div(width);
        high.and_then(|high| u16::try_from(high).ok()).unwrap_or(u16::MAX)
    }

    /// The width of a pixel in nanometres.
    pub fn pitch(self) -> u32 {
        let nanometres = CARD_WIDTH.0.unsigned_abs().saturating_mul(1_000);
        nanometres.checked_div(u32::from(self.card)).unwrap_or(nanometres)
    }

    /// So many pixels in micrometres.
    fn distance(self, pixels: u16) -> u64 {
        u64::from(pixels).saturating_mul(u64::from(self.pitch())).checked_div(1_000).unwrap_or(0)
    }

    /// Width and height in whole millimetres.
    pub fn millimetres(self) -> (u32, u32) {
        let whole = |pixels| {
            let rounded = self.distance(pixels).saturating_add(500).checked_div(1_000).unwrap_or(0);
            u32::try_from(rounded).unwrap_or(u32::MAX)
        };
        (whole(self.width), whole(self.height))
    }

    /// Across the corners, in tenths of an inch.
    pub fn tenths_of_inch(self) -> u32 {
        let tenths = self.diagonal().saturating_add(1_270).checked_div(2_540).unwrap_or(0);
        u32::try_from(tenths).unwrap_or(u32::MAX)
    }

    /// Whether ballots can be voted on such a screen: about 15 to 32 in across.
    pub fn is_in_range(self) -> bool {
        let bounds = [SIDE_LONG_LEAST, SIDE_SHORT_LEAST, DIAGONAL_MOST];
        let [long_least, short_least, most] = bounds.map(|side| u64::from(side.0.unsigned_abs()));
        let sides = (self.distance(self.width), self.distance(self.height));
        let (long, short) = (sides.0.max(sides.1), sides.0.min(sides.1));
        long >= long_least && short >= short_least && self.diagonal() <= most
    }

    fn diagonal(self) -> u64 {
        let square = |pixels: u16| self.distance(pixels).saturating_pow(2);
        square(self.width).saturating_add(square(self.height)).isqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_usual_screen_of_24_inches_is_measured_as_such() {
        let glass = Glass::new((1920, 1080), 276_700);
        assert_eq!(glass.card_width(), 309);
        assert_eq!(glass.card_height(), 195);
        assert_eq!(glass.pitch(), 277_022);
        assert_eq!(glass.millimetres(), (532, 299));
        assert_eq!(glass.tenths_of_inch(), 240);
        assert!(glass.is_in_range());
    }

    #[test]
    fn every_pixel_counts_and_nothing_leaves_its_bounds() {
        let glass = Glass::new((3840, 2160), 138_350);
        for card in 86..=1_712 {
            let measured = glass.with_card(card);
            assert_eq!(measured.card_width(), card);
            assert!((50_000..=1_000_000).contains(&measured.pitch()), "{card}");
            // Measured again from its own pitch it is the same.
            assert_eq!(Glass::new((3840, 2160), measured.pitch()), measured);
        }
        assert_eq!(glass.with_card(0).card_width(), 86);
        assert_eq!(glass.with_card(u16::MAX).card_width(), 1_712);
        assert_eq!(Glass::new((0, 0), 0).card_width(), 86);
    }

    #[test]
    fn only_screens_of_15_to_32_inches_are_in_range() {
        // 1024 x 768 pixels have 1280 across their corners.
        let at = |inches_tenths: u32| {
            let pitch = inches_tenths * 2_540_000 / 1_280;
            Glass::new((1024, 768), pitch)
        };
        assert!(!at(100).is_in_range());
        assert!(!at(140).is_in_range());
        assert!(at(150).is_in_range());
        let large = |tenths: u32| Glass::new((3840, 2160), tenths * 2_540_000 / 4_406);
        assert!(large(320).is_in_range());
        assert!(!large(340).is_in_range());
    }
}
