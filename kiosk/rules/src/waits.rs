//! How long a station waits for its voter.

use core::ops::RangeInclusive;

use crate::Millis;

/// How long the station waits for a press while nothing is being said. VVSG 2.0 7.2-O (from memory)
/// asks for 2 to 5 minutes, then 20 to 45 seconds to answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Waits {
    // Invariant: within the bounds.
    idle: Millis,
    answer: Millis,
}

impl Waits {
    /// The bounds of the wait before the question, in seconds.
    pub const IDLE_S: RangeInclusive<u16> = 120..=300;
    /// The bounds of the wait for its answer, in seconds.
    pub const ANSWER_S: RangeInclusive<u16> = 20..=45;

    /// Waits of so many seconds; `None` where one is out of its bounds.
    pub fn new(idle_s: u16, answer_s: u16) -> Option<Self> {
        let millis = |seconds: u16| Millis(u64::from(seconds).saturating_mul(1_000));
        (Self::IDLE_S.contains(&idle_s) && Self::ANSWER_S.contains(&answer_s))
            .then(|| Self { idle: millis(idle_s), answer: millis(answer_s) })
    }
    /// Before the voter is asked whether more time is needed.
    pub const fn idle(self) -> Millis {
        self.idle
    }
    /// From the end of that question until a worker is called.
    pub const fn answer(self) -> Millis {
        self.answer
    }
}

impl Default for Waits {
    /// Three minutes, then thirty seconds.
    fn default() -> Self {
        Self { idle: Millis(180_000), answer: Millis(30_000) }
    }
}
