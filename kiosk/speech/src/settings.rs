//! How fast and how loud: steps that a voter can count, and what they mean to the devices.

/// How fast the voice speaks: seven steps from half the default to double.
///
/// VVSG 2.0 7.1-K asks for a default of 120 to 125 words a minute, a range of about 60-70 to
/// 240-250 and 6 to 8 steps. The steps are even to the ear: each is the cube root of 2 faster.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Pace(
    // Invariant: 0 to 6.
    u8,
);

/// Words a minute by step: 122 × 2^((step − 3) / 3), rounded.
const WORDS_A_MINUTE: [u16; 7] = [61, 77, 97, 122, 154, 194, 244];

impl Pace {
    /// Half the default.
    pub const SLOWEST: Self = Self(0);
    /// Double the default.
    pub const FASTEST: Self = Self(6);

    /// The pace of a step, 0 to 6; a higher step gives the fastest.
    pub fn from_step(step: u8) -> Self {
        Self(step.min(Self::FASTEST.0))
    }

    /// The step, 0 to 6.
    pub fn step(self) -> u8 {
        self.0
    }

    /// One step faster, or the fastest.
    #[must_use]
    pub fn faster(self) -> Self {
        Self::from_step(self.0.saturating_add(1))
    }

    /// One step slower, or the slowest.
    #[must_use]
    pub fn slower(self) -> Self {
        Self(self.0.saturating_sub(1))
    }

    /// Words a minute that this step aims at.
    pub fn words_a_minute(self) -> u16 {
        WORDS_A_MINUTE.get(usize::from(self.0)).copied().unwrap_or(122)
    }
}

impl Default for Pace {
    fn default() -> Self {
        Self(3)
    }
}

/// How loud the headphones are: nine steps of 10 dB.
///
/// VVSG 2.0 7.1-K asks for 20 to 100 dB of sound pressure, steps of at most 10 dB and a default
/// of 60 to 70 dB for each session. The amplifier is set once, with a meter, so that the top step
/// gives 100 dB; what software decides is the gain below that. Not measured on hardware.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Loudness(
    // Invariant: 0 to 8.
    u8,
);

impl Loudness {
    /// 20 dB of sound pressure.
    pub const SOFTEST: Self = Self(0);
    /// 100 dB of sound pressure.
    pub const LOUDEST: Self = Self(8);

    /// The loudness of a step, 0 to 8; a higher step gives the loudest.
    pub fn from_step(step: u8) -> Self {
        Self(step.min(Self::LOUDEST.0))
    }

    /// The step, 0 to 8.
    pub fn step(self) -> u8 {
        self.0
    }

    /// One step louder, or the loudest.
    #[must_use]
    pub fn louder(self) -> Self {
        Self::from_step(self.0.saturating_add(1))
    }

    /// One step softer, or the softest.
    #[must_use]
    pub fn softer(self) -> Self {
        Self(self.0.saturating_sub(1))
    }

    /// The gain at the headphones' output in dB, −80 to 0: never above 0, so that it can't clip.
    pub fn gain_db(self) -> i32 {
        (i32::from(self.0) - i32::from(Self::LOUDEST.0)) * 10
    }
}

impl Default for Loudness {
    fn default() -> Self {
        Self(5)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paces_span_half_to_double_in_even_steps() {
        let all: Vec<u16> = (0..=6).map(|s| Pace::from_step(s).words_a_minute()).collect();
        let normal = Pace::default().words_a_minute();
        assert!((120..=125).contains(&normal));
        assert_eq!((all[0] * 2, all[6]), (normal, normal * 2));
        for pair in all.windows(2) {
            let ratio = f64::from(pair[1]) / f64::from(pair[0]);
            assert!((1.24..=1.28).contains(&ratio), "{pair:?}");
        }
    }

    #[test]
    fn steps_stop_at_both_ends() {
        assert_eq!(Pace::FASTEST.faster(), Pace::FASTEST);
        assert_eq!(Pace::SLOWEST.slower(), Pace::SLOWEST);
        assert_eq!(Pace::from_step(200), Pace::FASTEST);
        assert_eq!(Loudness::LOUDEST.louder(), Loudness::LOUDEST);
        assert_eq!(Loudness::SOFTEST.softer(), Loudness::SOFTEST);
        assert_eq!(Loudness::from_step(200), Loudness::LOUDEST);
    }

    #[test]
    fn loudness_steps_are_ten_decibels_and_never_amplify() {
        let all: Vec<i32> = (0..=8).map(|s| Loudness::from_step(s).gain_db()).collect();
        assert_eq!((all[0], all[8]), (-80, 0));
        assert!(all.windows(2).all(|p| p[1] - p[0] == 10));
        // 100 dB at the top step, so the default is 70 dB.
        assert_eq!(100 + Loudness::default().gain_db(), 70);
    }
}
