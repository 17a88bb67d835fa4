//! What counts as a touch of the screen. It is known when the finger has left, with how long it was
//! there.
//!
//! Pure: time comes in as a value.

use crate::hold_off::Millis;

/// Lets through what was meant as a touch and holds off the rest, by the same two times as
/// [`crate::HoldOff`]: a touch that is shorter than `accept` is a brush, and one that begins less
/// than `ignore` after the last one left is the same touch, wherever it is: a second touch right
/// after the first would undo what it did.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Touches {
    /// When the last touch left that counted, or one that belonged to it.
    left: Option<Millis>,
}

impl Touches {
    /// A finger has left at `now`, after it was there for `held`. Whether that counts.
    pub fn counts(
        &mut self,
        held: Millis,
        now: Millis,
        (accept, ignore): (Millis, Millis),
    ) -> bool {
        let began = now.0.saturating_sub(held.0);
        if self.left.is_some_and(|left| began < left.0.saturating_add(ignore.0)) {
            self.left = Some(now);
            return false;
        }
        if held < accept {
            return false;
        }
        self.left = Some(now);
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_brush_is_no_touch_and_a_second_touch_right_after_is_the_same() {
        let mut touches = Touches::default();
        let filters = (Millis(300), Millis(500));
        assert!(!touches.counts(Millis(90), Millis(100), filters));
        assert!(touches.counts(Millis(400), Millis(600), filters), "a brush holds nothing off");
        assert!(!touches.counts(Millis(400), Millis(1_400), filters), "it began 400 ms after");
        assert!(touches.counts(Millis(400), Millis(2_300), filters), "it began 500 ms after");
    }

    /// Numbers by a rule (Knuth's linear congruential generator, from memory), the same in each run.
    struct Chance(u64);

    impl Chance {
        fn between(&mut self, low: u64, high: u64) -> u64 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            low + (self.0 >> 33) % (high - low + 1)
        }
    }

    /// Touches of an unsteady hand, as how long each was and when it left, and whether it was meant:
    /// brushes before it, taps after it. Lengths are our own, about the ranges of the practitioners'
    /// handbook in the requirements.
    fn tremor(touches: usize) -> Vec<(Millis, Millis, bool)> {
        let (mut chance, mut now, mut made) = (Chance(3), 1_000, Vec::new());
        let mut touch = |now: &mut u64, held, is_meant| {
            *now += held;
            made.push((Millis(held), Millis(*now), is_meant));
        };
        for _ in 0..touches {
            if chance.between(1, 100) <= 30 {
                touch(&mut now, chance.between(20, 180), false);
                now += chance.between(60, 250);
            }
            touch(&mut now, chance.between(450, 1_200), true);
            while chance.between(1, 100) <= 45 {
                now += chance.between(50, 350);
                touch(&mut now, chance.between(30, 450), false);
            }
            now += chance.between(1_500, 3_500);
        }
        made
    }

    #[test]
    fn tremor_gives_fewer_than_one_wrong_touch_in_a_hundred() {
        let made = tremor(2_000);
        let wrong = |accept, ignore| {
            let mut touches = Touches::default();
            let filters = (Millis(accept), Millis(ignore));
            made.iter()
                .filter(|(held, now, meant)| touches.counts(*held, *now, filters) != *meant)
                .count()
        };
        assert!(wrong(300, 500) < 20, "{}", wrong(300, 500));
        // Without the filters, with the default and with each alone the same hand goes wrong often.
        for (accept, ignore) in [(0, 0), (0, 50), (300, 50), (0, 500)] {
            assert!(wrong(accept, ignore) > 100, "{accept} {ignore}: {}", wrong(accept, ignore));
        }
    }
}
