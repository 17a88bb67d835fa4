//! Units and indices as types, so that no bare number crosses a crate's edge.

/// A distance on paper or glass, in micrometres (a thousandth of a millimetre).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Micrometres(pub i32);

impl Micrometres {
    /// One inch: 25.4 mm exactly (international inch).
    pub const INCH: Self = Self(25_400);
    /// The sum, held at the ends of the range.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
    /// The difference, held at the ends of the range.
    #[must_use]
    pub const fn minus(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
    /// This distance `n` times, held at the ends of the range.
    #[must_use]
    pub const fn times(self, n: i32) -> Self {
        Self(self.0.saturating_mul(n))
    }
    /// Half of this distance, rounded towards zero.
    #[must_use]
    pub const fn half(self) -> Self {
        Self(self.0 / 2)
    }
    /// A distance in typographic points (1/72 inch), given in tenths of a point.
    #[must_use]
    pub const fn from_decipoints(tenths: i32) -> Self {
        // 25,400 µm / 720 tenths = 635 / 18.
        Self(tenths.saturating_mul(635) / 18)
    }
}

/// A moment or a span in milliseconds, counted from the start of the visit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Millis(pub u64);

impl Millis {
    /// The moment `span` later, held at the end of the range.
    #[must_use]
    pub const fn after(self, span: Self) -> Self {
        Self(self.0.saturating_add(span.0))
    }
}

/// A share in thousandths: 0 is none, 1000 is all.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Permille(pub u16);

/// A contest's place in its style, from 0, headers not counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ContestIndex(pub u16);

/// An option's place in its contest as that style orders it, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OptionIndex(pub u16);

/// A rank in a ranked contest, from 1 (the first choice).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Rank(pub u8);

/// Which oval of a style: `rank` is `None` save in ranked contests, where an option has one oval
/// for each rank. The order of the fields gives the order on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OvalId {
    /// The contest.
    pub contest: ContestIndex,
    /// The option within the contest.
    pub option: OptionIndex,
    /// The rank that this oval gives, in ranked contests.
    pub rank: Option<Rank>,
}
