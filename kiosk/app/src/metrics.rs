//! Every size and gap on the screen, in micrometres of glass. What a voter sees depends on the
//! pixel pitch that the office sets for its screens: millimetres on glass can't be measured here.

use evenhand_lettering::{Face, Family, Shaper};
use evenhand_rules::Micrometres;
use evenhand_visit::TypeSize;

/// The width of a pixel in nanometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PixelPitch(
    // Invariant: never 0.
    u32,
);

impl PixelPitch {
    /// A 24 inch screen of 1920 × 1080: 0.2767 mm (computed from 609.6 mm and 2202.9 pixels).
    pub const USUAL: Self = Self(276_700);

    /// A pitch in nanometres, from 0.05 to 1 mm.
    pub const fn new(nanometres: u32) -> Option<Self> {
        if nanometres >= 50_000 && nanometres <= 1_000_000 { Some(Self(nanometres)) } else { None }
    }

    /// In nanometres.
    pub const fn in_nanometres(self) -> u32 {
        self.0
    }

    /// As the command line has it: micrometres with one decimal.
    pub fn in_micrometres(self) -> String {
        format!("{}.{}", self.0 / 1000, self.0 % 1000 / 100)
    }

    /// A distance in pixels.
    #[expect(clippy::cast_precision_loss, reason = "distances on a screen are below 2^24 µm")]
    pub fn pixels(self, distance: Micrometres) -> f32 {
        distance.0 as f32 * 1000.0 / self.0 as f32
    }

    /// Pixels as a distance, rounded down.
    #[expect(clippy::cast_possible_truncation, reason = "held to a screen's size by the caller")]
    #[expect(clippy::cast_precision_loss, reason = "a pitch is below 2^24 nm")]
    pub fn distance(self, pixels: f32) -> Micrometres {
        Micrometres((pixels * self.0 as f32 / 1000.0) as i32)
    }
}

const fn tenths(tenths_of_millimetre: i32) -> Micrometres {
    Micrometres(tenths_of_millimetre * 100)
}

/// The least width and height of what can be touched: VVSG 2.0 7.2-I (from memory) asks for
/// 12.7 mm.
pub const TOUCH_MIN: Micrometres = tenths(130);
/// The least gap between two touch areas: VVSG 2.0 7.2-I (from memory) asks for 2.54 mm. Ours is
/// wide enough for the outline of the focus to stand clear in it.
pub const GAP: Micrometres = tenths(45);
/// From the edge of the screen to what is drawn.
pub const MARGIN: Micrometres = tenths(120);
/// Between the two columns of a wide screen.
pub const GUTTER: Micrometres = tenths(160);
/// From an edge of a row to its words, up and down.
pub const PADDING: Micrometres = tenths(32);
/// From an edge of a row to its words, left and right.
pub const PADDING_SIDE: Micrometres = tenths(50);
/// The edge of something that can be pressed.
pub const EDGE: Micrometres = tenths(4);
/// The edge of a chosen row.
pub const EDGE_CHOSEN: Micrometres = tenths(9);
/// The corners of rows.
pub const CORNER: Micrometres = tenths(20);
/// From a row's edge to the focus outline.
pub const FOCUS_CLEAR: Micrometres = tenths(5);
/// Each of the two parts of the focus outline.
pub const FOCUS_PART: Micrometres = tenths(12);
/// The stroke of an oval, in per mille of its height: the sheet's is 0.3 mm of 3.3 mm.
pub const OVAL_STROKE: i32 = 91;
/// An oval's width, in per mille of its height: the sheet's is 6.35 mm by 3.3 mm.
pub const OVAL_WIDTH: i32 = 1_924;
/// The height of the picture of a written name.
pub const PICTURE_HEIGHT: Micrometres = tenths(160);
/// The longest line of text, in ems: 60 characters at half an em each, which is the mean advance
/// of English text in our face within a twentieth (measured).
pub const MEASURE_EMS: i32 = 30;
/// A stripe of the worker's band.
pub const STRIPE: Micrometres = tenths(60);
/// The height of the worker's band.
pub const BAND: Micrometres = tenths(100);

/// What a type is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Lines, small print, states, the bar: the size that the voter chose.
    Text,
    /// The names in rows.
    Name,
    /// The title.
    Heading,
}

/// From one line to the next, in per cent of the em that was asked for. Marks are stacked above and
/// below the letters in some scripts; how high they reach was measured in drawn pixels.
const fn leading_percent(family: Family, is_tight: bool) -> i32 {
    match family {
        // Letters of this face reach over 117 per cent at most (the font's own bounds).
        Family::Legible if is_tight => 119,
        Family::Legible | Family::Wide => 130,
        Family::Korean | Family::Chinese => 135,
        Family::Bengali => 170,
        Family::Khmer => 185,
        Family::Arabic => 175,
    }
}

/// A face and its em.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Type {
    /// The face.
    pub face: Face,
    /// The em.
    pub em: Micrometres,
    /// True where room is short and lines stand closer.
    pub is_tight: bool,
}

impl Type {
    /// From one line to the next, in letters of this family.
    pub const fn leading(self, family: Family) -> Micrometres {
        Micrometres(self.em.times(leading_percent(family, self.is_tight)).0 / 100)
    }
}

/// The least height of a capital I at a size: the lower end of that size's band of VVSG 2.0 7.1-G
/// (from memory).
pub const fn capital_least(size: TypeSize) -> Micrometres {
    tenths(match size {
        TypeSize::Small => 35,
        TypeSize::Medium => 48,
        TypeSize::Large => 64,
        TypeSize::Largest => 85,
    })
}

/// Down to this share a type is set smaller within its band only: names and titles give up what
/// they have over it, and the rest a little.
pub const IN_BAND_PERCENT: i32 = 60;

/// A type of this role where a text is to be set smaller: at `percent` of its size, but not below
/// the band of the size. Below [`IN_BAND_PERCENT`] it leaves the band, since a text that is too
/// small is better than one that is cut: 95 per cent of the band's lower end at 50, and so on down.
#[must_use]
pub fn smaller(of: Type, size: TypeSize, role: Role, percent: i32) -> Type {
    let whole = capital(size, role).0.max(1);
    let em_least = (of.em.times(capital_least(size).0).0 + whole - 1) / whole;
    let em = if percent >= IN_BAND_PERCENT {
        em_least.max(of.em.times(percent).0 / 100)
    } else {
        (em_least * (percent + 45) / 100).min(em_least)
    };
    Type { em: Micrometres(em), is_tight: percent < 100, ..of }
}

/// The height of a capital I. The smallest type of each size is in that size's band of VVSG 2.0
/// 7.1-G (from memory).
pub const fn capital(size: TypeSize, role: Role) -> Micrometres {
    let (text, name, heading) = match size {
        TypeSize::Small => (38, 44, 54),
        TypeSize::Medium => (50, 58, 70),
        TypeSize::Large => (67, 74, 84),
        TypeSize::Largest => (87, 90, 100),
    };
    tenths(match role {
        Role::Text => text,
        Role::Name => name,
        Role::Heading => heading,
    })
}

/// The type for a role at a size. Names are bold where `is_bold`; headings always.
pub fn type_for(shaper: &Shaper, size: TypeSize, role: Role, is_bold: bool) -> Type {
    let face = if is_bold || role == Role::Heading { Face::BOLD } else { Face::REGULAR };
    let thousand = Micrometres(1_000_000);
    let cap = i64::from(shaper.cap_height(face, thousand).0).max(1);
    // em = capital height ÷ (capital height of one em), rounded up so that no size falls short.
    let em = (i64::from(capital(size, role).0) * 1_000_000 + cap - 1) / cap;
    Type { face, em: Micrometres(i32::try_from(em).unwrap_or(i32::MAX)), is_tight: false }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_size_is_in_its_band() {
        let bands = [(3_500, 4_200), (4_800, 5_600), (6_400, 7_100), (8_500, 9_000)];
        for (size, (least, most)) in TypeSize::ALL.into_iter().zip(bands) {
            let shaper = Shaper::new();
            let text = type_for(&shaper, size, Role::Text, false);
            let drawn = shaper.cap_height(text.face, text.em).0;
            assert!((least..=most).contains(&drawn), "{size:?}: {drawn}");
        }
    }

    #[test]
    fn a_text_that_gives_way_stays_in_its_band_first() {
        let shaper = Shaper::new();
        for size in TypeSize::ALL {
            for role in [Role::Text, Role::Name, Role::Heading] {
                let full = type_for(&shaper, size, role, false);
                let capital_at = |percent| {
                    let of = smaller(full, size, role, percent);
                    shaper.cap_height(of.face, of.em).0
                };
                let least = capital_least(size).0;
                assert!(capital_at(100) >= capital(size, role).0);
                assert!((least..=least + 20).contains(&capital_at(IN_BAND_PERCENT)), "{size:?}");
                assert!(capital_at(IN_BAND_PERCENT - 10) < least);
            }
        }
    }

    #[test]
    fn the_focus_fits_between_two_rows() {
        assert!(FOCUS_CLEAR.plus(FOCUS_PART.times(2)) < GAP);
        const { assert!(GAP.0 >= 2_540 && TOUCH_MIN.0 >= 12_700) }
    }

    #[test]
    fn pixels_and_distances_agree() {
        let pitch = PixelPitch::USUAL;
        let screen = pitch.distance(1920.0);
        assert!((530_000..=532_000).contains(&screen.0), "{screen:?}");
        assert!((pitch.pixels(screen) - 1920.0).abs() < 0.1);
        assert_eq!(PixelPitch::new(0), None);
    }
}
