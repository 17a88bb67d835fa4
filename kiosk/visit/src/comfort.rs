//! What a voter may set for comfort. All of it is forgotten with the visit.

use evenhand_rules::Millis;

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

/// How long the station waits on an item before it moves on by itself, in milliseconds: half a second
/// to ten (own steps, each about 1.4 times the one before).
pub const SCAN_STEPS: [u64; 10] =
    [500, 700, 1_000, 1_400, 2_000, 2_800, 4_000, 5_600, 8_000, 10_000];
/// The step of [`SCAN_STEPS`] that is in force until a voter or a worker sets another.
pub const SCAN_DEFAULT: u8 = 4;
/// How long a press must last to count, in milliseconds (own steps; the longest as for
/// [`IGNORE_STEPS`]).
pub const ACCEPT_STEPS: [u64; 9] = [0, 100, 200, 300, 500, 700, 1_000, 1_500, 2_000];
/// How long the same switch is ignored after it was let go, in milliseconds: none to two seconds
/// (the upper end is that of filters for bounced keys, from memory).
pub const IGNORE_STEPS: [u64; 10] = [0, 50, 100, 200, 300, 500, 700, 1_000, 1_500, 2_000];
/// The step of [`IGNORE_STEPS`] that every visit starts with: contacts bounce for 20 to 50 ms (from
/// memory).
pub const IGNORE_DEFAULT: u8 = 1;

/// How many switches a voter has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Switches {
    /// The first goes to the next item, the second takes it.
    #[default]
    Two,
    /// The station goes to the next item by itself, and any switch takes it.
    One,
}

/// How presses are taken. Each field but the first is a step of its list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pressing {
    /// One switch or two.
    pub switches: Switches,
    /// The pace at which the station moves on by itself: a step of [`SCAN_STEPS`].
    pub scan: u8,
    /// How long a press must last: a step of [`ACCEPT_STEPS`].
    pub accept: u8,
    /// How long a repeat is ignored: a step of [`IGNORE_STEPS`].
    pub ignore: u8,
}

impl Default for Pressing {
    fn default() -> Self {
        Self { switches: Switches::Two, scan: SCAN_DEFAULT, accept: 0, ignore: IGNORE_DEFAULT }
    }
}

impl Pressing {
    /// The wait before the station moves on by itself.
    pub fn scan_time(self) -> Millis {
        Millis(at(&SCAN_STEPS, self.scan))
    }
    /// How long a press must last to count.
    pub fn accept_time(self) -> Millis {
        Millis(at(&ACCEPT_STEPS, self.accept))
    }
    /// How long a repeat is ignored.
    pub fn ignore_time(self) -> Millis {
        Millis(at(&IGNORE_STEPS, self.ignore))
    }
}

/// A step past the end is the last one.
fn at(steps: &[u64], step: u8) -> u64 {
    steps.get(usize::from(step)).or(steps.last()).copied().unwrap_or_default()
}

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
    /// Whether the voter, who listens, has hidden the screen.
    pub is_screen_hidden: bool,
    /// How presses are taken.
    pub pressing: Pressing,
}

impl Comfort {
    /// What every visit starts with.
    pub const fn fresh(language: LanguageIndex, pressing: Pressing) -> Self {
        Self {
            language,
            size: TypeSize::Medium,
            palette: Palette::DarkOnLight,
            speech: true,
            pace: PACE_DEFAULT,
            loudness: LOUDNESS_DEFAULT,
            is_screen_hidden: false,
            pressing,
        }
    }
}
