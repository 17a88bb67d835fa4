//! What a voter's own presses say about the settings that would help.
//!
//! Invariant: only times are kept, and only while the voter is at the practice question.

use alloc::vec::Vec;

use evenhand_rules::Millis;

use crate::{ACCEPT_STEPS, IGNORE_STEPS, PressShape, Pressing, SCAN_STEPS, Switches};

/// The most presses that are looked at.
const PRESSES_MAX: usize = 24;
/// Fewer presses say nothing. Own choice.
const PRESSES_MIN: usize = 3;
/// A press that comes sooner than this after the same switch was let go was hardly meant: a choice
/// between two presses takes longer. Own choice.
const REPEAT_MAX: Millis = Millis(150);
/// Of so many presses one must be a repeat, or short, before anything is proposed. Own choice.
const ONE_IN: usize = 5;
/// The scan interval is the mean reaction time divided by 0.65 (Simpson, Koester and
/// others 2007).
const REACTION_PER_CENT: u64 = 65;

/// The times of a voter's presses at the practice question.
#[derive(Clone, Debug, Default)]
pub(crate) struct Presses {
    shapes: Vec<PressShape>,
    reactions: Vec<Millis>,
}

impl Presses {
    /// A button was let go.
    pub(crate) fn shaped(&mut self, shape: PressShape) {
        if self.shapes.len() < PRESSES_MAX {
            self.shapes.push(shape);
        }
    }

    /// A press came so long after the item had the focus.
    pub(crate) fn reacted(&mut self, after: Millis) {
        if self.reactions.len() < PRESSES_MAX {
            self.reactions.push(after);
        }
    }

    /// The settings that these presses ask for; `None` where they ask for none but the present ones.
    pub(crate) fn proposal(&self, now: Pressing) -> Option<Pressing> {
        let proposed = Pressing {
            switches: now.switches,
            scan: self.scan(now).unwrap_or(now.scan),
            accept: self.accept().map_or(now.accept, |step| step.max(now.accept)),
            ignore: self.ignore(now).map_or(now.ignore, |step| step.max(now.ignore)),
        };
        (proposed != now).then_some(proposed)
    }

    /// The first interval that is no shorter than the mean reaction divided by 0.65.
    fn scan(&self, now: Pressing) -> Option<u8> {
        let count = u64::try_from(self.reactions.len()).ok()?;
        if now.switches != Switches::One || self.reactions.len() < PRESSES_MIN {
            return None;
        }
        let sum = self.reactions.iter().fold(0u64, |sum, time| sum.saturating_add(time.0));
        let mean = sum.checked_div(count)?;
        step_of(&SCAN_STEPS, mean.saturating_mul(100).checked_div(REACTION_PER_CENT)?)
    }

    /// Half again as long as the longest gap before a repeat, where repeats are common. A worker who has
    /// turned ignoring off isn't contradicted.
    fn ignore(&self, now: Pressing) -> Option<u8> {
        if now.ignore == 0 {
            return None;
        }
        let gaps: Vec<u64> =
            self.shapes.iter().filter_map(|shape| shape.gap).map(|gap| gap.0).collect();
        let repeats: Vec<u64> = gaps.into_iter().filter(|gap| *gap < REPEAT_MAX.0).collect();
        if !self.is_common(repeats.len()) {
            return None;
        }
        let longest = repeats.into_iter().max()?;
        step_of(&IGNORE_STEPS, longest.saturating_add(longest.saturating_div(2)).saturating_add(1))
    }

    /// Midway between the longest of the short presses and the shortest of the others, where short
    /// ones are common: shorter than a third of the middle length.
    fn accept(&self) -> Option<u8> {
        let mut held: Vec<u64> = self.shapes.iter().map(|shape| shape.held.0).collect();
        held.sort_unstable();
        let middle = held.get(held.len().saturating_div(2)).copied()?;
        let (short, others): (Vec<u64>, Vec<u64>) =
            held.into_iter().partition(|held| held.saturating_mul(3) < middle);
        if !self.is_common(short.len()) {
            return None;
        }
        let (longest, shortest) = (short.into_iter().max()?, others.into_iter().min()?);
        let between = longest.saturating_add(shortest).saturating_div(2);
        // The step may not be longer than the presses that were meant.
        let step = ACCEPT_STEPS.iter().rposition(|step| *step <= between)?;
        u8::try_from(step).ok().filter(|step| *step > 0)
    }

    fn is_common(&self, few: usize) -> bool {
        self.shapes.len() >= PRESSES_MIN
            && few > 0
            && few.saturating_mul(ONE_IN) >= self.shapes.len()
    }
}

/// The first step that is no shorter, or the last.
fn step_of(steps: &[u64], wanted: u64) -> Option<u8> {
    let last = steps.len().checked_sub(1)?;
    let step = steps.iter().position(|step| *step >= wanted).unwrap_or(last);
    u8::try_from(step).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(held: u64, gap: Option<u64>) -> PressShape {
        PressShape { held: Millis(held), gap: gap.map(Millis) }
    }

    fn presses(shapes: &[PressShape]) -> Presses {
        let mut presses = Presses::default();
        for shape in shapes {
            presses.shaped(*shape);
        }
        presses
    }

    #[test]
    fn steady_presses_ask_for_nothing() {
        let steady = presses(&[
            shape(120, None),
            shape(150, Some(900)),
            shape(110, Some(1_200)),
            shape(140, Some(700)),
        ]);
        assert_eq!(steady.proposal(Pressing::default()), None);
    }

    #[test]
    fn doubled_presses_ask_for_a_longer_wait() {
        let doubled = presses(&[
            shape(120, None),
            shape(90, Some(90)),
            shape(150, Some(1_100)),
            shape(80, Some(140)),
        ]);
        let proposed = doubled.proposal(Pressing::default()).unwrap();
        // 140 ms and half of it is 211: the next step is 300.
        assert_eq!(proposed.ignore_time(), Millis(300));
        let off = Pressing { ignore: 0, ..Pressing::default() };
        assert_eq!(doubled.proposal(off), None);
    }

    #[test]
    fn short_touches_ask_for_a_longer_press() {
        let touched = presses(&[
            shape(600, None),
            shape(40, Some(900)),
            shape(700, Some(900)),
            shape(60, Some(800)),
            shape(640, Some(900)),
        ]);
        let proposed = touched.proposal(Pressing::default()).unwrap();
        // Between 60 and 600 lies 330: the step below is 300.
        assert_eq!(proposed.accept_time(), Millis(300));
    }

    #[test]
    fn one_switch_is_given_the_voters_own_pace() {
        let mut presses = Presses::default();
        for time in [1_200, 1_400, 1_300] {
            presses.reacted(Millis(time));
        }
        let one = Pressing { switches: Switches::One, ..Pressing::default() };
        // 1300 ms / 0.65 = 2000 ms, which is in force: nothing is proposed.
        assert_eq!(presses.proposal(one), None);
        presses.reacted(Millis(2_700));
        // 1650 / 0.65 = 2538: the next step is 2800.
        assert_eq!(presses.proposal(one).unwrap().scan_time(), Millis(2_800));
        assert_eq!(presses.proposal(Pressing::default()), None, "two switches need no interval");
    }
}
