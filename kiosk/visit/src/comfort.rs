//! What a voter may set for comfort. All of it is forgotten with the visit.

/// One of the station's languages, by its place in the station's list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LanguageIndex(pub u8);

/// Four type sizes, one in each band of VVSG 2.0 7.1-G (from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum TypeSize {
    /// Capitals of 3.5–4.2 mm.
    Small,
    /// Capitals of 4.8–5.6 mm: the default.
    Medium,
    /// Capitals of 6.4–7.1 mm.
    Large,
    /// Capitals of 8.5–9.0 mm.
    Largest,
}

impl TypeSize {
    /// All, small to large.
    pub const ALL: [Self; 4] = [Self::Small, Self::Medium, Self::Large, Self::Largest];
    /// The next larger, or the same at the end.
    #[must_use]
    pub const fn larger(self) -> Self {
        match self {
            Self::Small => Self::Medium,
            Self::Medium => Self::Large,
            Self::Large | Self::Largest => Self::Largest,
        }
    }
    /// The next smaller, or the same at the end.
    #[must_use]
    pub const fn smaller(self) -> Self {
        match self {
            Self::Small | Self::Medium => Self::Small,
            Self::Large => Self::Medium,
            Self::Largest => Self::Large,
        }
    }
}

/// Four palettes (VVSG 2.0 7.1-D, from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Palette {
    /// Black on white: the default.
    DarkOnLight,
    /// White on black.
    LightOnDark,
    /// Dimmed yellow on black.
    YellowOnDark,
    /// Softer, 4.5:1 to 8:1.
    LowContrast,
}

impl Palette {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 4] =
        [Self::DarkOnLight, Self::LightOnDark, Self::YellowOnDark, Self::LowContrast];
    /// The next one, round and round.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::DarkOnLight => Self::LightOnDark,
            Self::LightOnDark => Self::YellowOnDark,
            Self::YellowOnDark => Self::LowContrast,
            Self::LowContrast => Self::DarkOnLight,
        }
    }
}

/// How many speeds of speech there are; step 0 is the slowest.
pub const PACE_STEPS: u8 = 7;
/// The speed that each visit starts with.
pub const PACE_DEFAULT: u8 = 3;
/// How many loudnesses there are; step 0 is the softest. VVSG 2.0 7.1-K asks for 20 to 100 dB of
/// sound pressure in steps of at most 10 dB: nine steps of 10 dB.
pub const LOUDNESS_STEPS: u8 = 9;
/// The loudness that each visit starts with: 70 dB, where 7.1-K asks for 60 to 70.
pub const LOUDNESS_DEFAULT: u8 = 5;

/// All that a voter has set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Comfort {
    /// The language on screen and in the headphones.
    pub language: LanguageIndex,
    /// The size of type.
    pub size: TypeSize,
    /// The colours.
    pub palette: Palette,
    /// Whether there is speech.
    pub speech: bool,
    /// Speed of speech, 0 to [`PACE_STEPS`] - 1.
    pub pace: u8,
    /// Loudness of speech, 0 to [`LOUDNESS_STEPS`] - 1.
    pub loudness: u8,
}

impl Comfort {
    /// What every visit starts with.
    pub const fn fresh(language: LanguageIndex) -> Self {
        Self {
            language,
            size: TypeSize::Medium,
            palette: Palette::DarkOnLight,
            speech: true,
            pace: PACE_DEFAULT,
            loudness: LOUDNESS_DEFAULT,
        }
    }
}
