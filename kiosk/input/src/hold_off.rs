//! What counts as one press: a held key is one, and a tremor's second touch can be ignored.
//!
//! Pure: time comes in as a value.

use std::collections::BTreeMap;

use crate::press::Button;

/// A time or a length of time in milliseconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Millis(pub u64);

/// How a press was made, raw: before any filter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shape {
    /// How long the button was down.
    pub held: Millis,
    /// How long it had been up before; `None` at its first press.
    pub gap: Option<Millis>,
}

/// Lets through what was meant as a press and holds off the rest.
///
/// Three rules. A button that is down can't be pressed again until it was let go: key auto-repeat
/// is one press. A down that comes less than `ignore` after a press of the same button is the same
/// press (contacts bounce for 20 to 50 ms; a voter's tremor may need up to two seconds, 36 CFR 1194
/// app. C 407.4), and so is the next one after that. And where `accept` isn't zero, a press counts
/// only once the button has been down so long: a brush with the hand is no press. Other buttons
/// are never held off: two switches stay independent.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct HoldOff {
    accept: Millis,
    ignore: Millis,
    buttons: BTreeMap<Button, State>,
}

/// What is known of a button.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum State {
    Down { since: Millis, gap: Option<Millis>, is: Fate },
    Up { since: Millis, at: Millis, was: Fate },
}

/// What became of a down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fate {
    /// It isn't down long enough yet.
    Pending,
    /// It counted as a press.
    Counted,
    /// It came too soon after one.
    Ignored,
}

impl HoldOff {
    /// Contact bounce only.
    pub const BOUNCE: Millis = Millis(40);
    /// The longest that can be set.
    pub const LONGEST: Millis = Millis(2_000);

    /// Counts a press once it is `accept` long, and ignores the same button for `ignore` after it
    /// was let go; each at most [`Self::LONGEST`].
    pub fn new(accept: Millis, ignore: Millis) -> Self {
        let mut hold_off = Self::default();
        hold_off.set(accept, ignore);
        hold_off
    }

    /// How long the same button is ignored.
    pub fn ignore(&self) -> Millis {
        self.ignore
    }

    /// How long a press must be.
    pub fn accept(&self) -> Millis {
        self.accept
    }

    /// Changes both; buttons that are down stay down, so no press comes of it.
    pub fn set(&mut self, accept: Millis, ignore: Millis) {
        self.accept = accept.min(Self::LONGEST);
        self.ignore = ignore.min(Self::LONGEST);
    }

    /// A button went down, or its auto-repeat says so again. Whether it counts as a press now; where
    /// a press must be long it doesn't yet, and [`Self::due`] tells when it does.
    pub fn down(&mut self, button: Button, now: Millis) -> bool {
        let fresh = if self.accept == Millis(0) { Fate::Counted } else { Fate::Pending };
        let gap_since = |at: Millis| Millis(now.0.saturating_sub(at.0));
        let (since, gap, is) = match self.buttons.get(&button) {
            Some(State::Down { .. }) => return false,
            None => (now, None, fresh),
            Some(State::Up { at, was: Fate::Pending, since })
                if gap_since(*at) < Self::BOUNCE && fresh == Fate::Pending =>
            {
                // The contact bounced, or the hand shook, while the button was being held.
                (*since, Some(gap_since(*at)), Fate::Pending)
            }
            Some(State::Up { at, was: Fate::Counted | Fate::Ignored, .. })
                if gap_since(*at) < self.ignore =>
            {
                (now, Some(gap_since(*at)), Fate::Ignored)
            }
            Some(State::Up { at, .. }) => (now, Some(gap_since(*at)), fresh),
        };
        self.buttons.insert(button, State::Down { since, gap, is });
        is == Fate::Counted
    }

    /// A button was let go. How it was pressed, if it was down.
    pub fn up(&mut self, button: Button, now: Millis) -> Option<Shape> {
        let Some(State::Down { since, gap, is }) = self.buttons.get(&button).copied() else {
            return None;
        };
        self.buttons.insert(button, State::Up { since, at: now, was: is });
        Some(Shape { held: Millis(now.0.saturating_sub(since.0)), gap })
    }

    /// The buttons that have now been down long enough to count, in no order that matters: each
    /// once.
    pub fn due(&mut self, now: Millis) -> Vec<Button> {
        let accept = self.accept;
        let mut due = Vec::new();
        for (button, state) in &mut self.buttons {
            if let State::Down { since, is, .. } = state
                && *is == Fate::Pending
                && now.0.saturating_sub(since.0) >= accept.0
            {
                *is = Fate::Counted;
                due.push(*button);
            }
        }
        due
    }

    /// When [`Self::due`] must be asked, if no button moves before.
    pub fn next_due(&self) -> Option<Millis> {
        let pending = self.buttons.values().filter_map(|state| match state {
            State::Down { since, is: Fate::Pending, .. } => Some(since.0),
            State::Down { .. } | State::Up { .. } => None,
        });
        pending.min().map(|since| Millis(since.saturating_add(self.accept.0)))
    }

    /// The device went away, or the window lost the keyboard: nothing is down any more.
    pub fn forget(&mut self) {
        self.buttons.clear();
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::press::{Key, PadButton};

    const FIRST: Button = Button::Key(Key::Char('1'));
    const SECOND: Button = Button::Pad(PadButton::Numbered(2));

    #[test]
    fn a_held_key_is_one_press() {
        let mut hold_off = HoldOff::new(Millis(0), HoldOff::BOUNCE);
        // The usual auto-repeat: after 500 ms, then every 33 ms, for ten seconds.
        let counted = std::iter::once(0)
            .chain((0..300).map(|n| 500 + 33 * n))
            .filter(|&at| hold_off.down(FIRST, Millis(at)))
            .count();
        assert_eq!(counted, 1);
        hold_off.up(FIRST, Millis(10_500));
        assert!(hold_off.down(FIRST, Millis(10_600)));
    }

    #[test]
    fn a_bounce_is_the_same_press_and_a_bounce_does_not_extend_it() {
        let mut hold_off = HoldOff::new(Millis(0), Millis(40));
        assert!(hold_off.down(FIRST, Millis(0)));
        hold_off.up(FIRST, Millis(5));
        assert!(!hold_off.down(FIRST, Millis(10)));
        hold_off.up(FIRST, Millis(15));
        assert!(!hold_off.down(FIRST, Millis(30)));
        hold_off.up(FIRST, Millis(60));
        assert!(hold_off.down(FIRST, Millis(100)));
    }

    #[test]
    fn the_limit_holds_and_the_lost_device_lets_go() {
        assert_eq!(HoldOff::new(Millis(0), Millis(60_000)).ignore(), HoldOff::LONGEST);
        let mut hold_off = HoldOff::new(Millis(0), Millis(0));
        assert!(hold_off.down(FIRST, Millis(0)));
        hold_off.forget();
        assert!(hold_off.down(FIRST, Millis(1)));
        // An up without a down is no news.
        hold_off.up(SECOND, Millis(2));
        assert!(hold_off.down(SECOND, Millis(2)));
    }

    #[test]
    fn a_brush_is_no_press_and_a_held_one_counts_once_while_it_is_held() {
        let mut hold_off = HoldOff::new(Millis(300), Millis(500));
        assert!(!hold_off.down(FIRST, Millis(0)));
        assert_eq!(hold_off.next_due(), Some(Millis(300)));
        assert_eq!(hold_off.up(FIRST, Millis(90)), Some(Shape { held: Millis(90), gap: None }));
        assert_eq!(hold_off.next_due(), None);
        // The brush does not hold off the press that is meant.
        assert!(!hold_off.down(FIRST, Millis(200)));
        assert_eq!(hold_off.due(Millis(499)), []);
        assert_eq!(hold_off.due(Millis(500)), [FIRST]);
        assert_eq!(hold_off.due(Millis(900)), []);
        hold_off.up(FIRST, Millis(950));
        // A long one that comes too soon is the same press.
        assert!(!hold_off.down(FIRST, Millis(1_100)));
        assert_eq!(hold_off.due(Millis(2_000)), []);
    }

    #[test]
    fn a_shaken_contact_is_still_held() {
        let mut hold_off = HoldOff::new(Millis(300), Millis(50));
        hold_off.down(FIRST, Millis(0));
        hold_off.up(FIRST, Millis(150));
        hold_off.down(FIRST, Millis(170));
        assert_eq!(hold_off.due(Millis(300)), [FIRST]);
    }

    /// Numbers by a rule (Knuth's linear congruential generator, from memory), the same in each run.
    struct Chance(u64);

    impl Chance {
        fn between(&mut self, low: u64, high: u64) -> u64 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            low + (self.0 >> 33) % (high - low + 1)
        }
        fn is(&mut self, percent: u64) -> bool {
            self.between(1, 100) <= percent
        }
    }

    /// Presses of unsteady hands: a long press is meant; about it the hand brushes either switch for
    /// a short time, and taps the same switch again once or more as it goes. Lengths and gaps are our
    /// own, about the ranges of the practitioners' handbook in the requirements.
    fn tremor(chance: &mut Chance, presses: usize) -> (Vec<(u64, Button, bool)>, Vec<Button>) {
        let (mut now, mut edges, mut meant) = (1_000, Vec::new(), Vec::new());
        let mut tap = |now: &mut u64, button, held| {
            edges.push((*now, button, true));
            *now += held;
            edges.push((*now, button, false));
        };
        for _ in 0..presses {
            let (button, other) = if chance.is(60) { (FIRST, SECOND) } else { (SECOND, FIRST) };
            meant.push(button);
            if chance.is(30) {
                let brushed = if chance.is(50) { other } else { button };
                tap(&mut now, brushed, chance.between(20, 180));
                now += chance.between(60, 250);
            }
            tap(&mut now, button, chance.between(450, 1_200));
            while chance.is(45) {
                now += chance.between(50, 350);
                tap(&mut now, button, chance.between(30, 450));
            }
            now += chance.between(1_500, 3_500);
        }
        (edges, meant)
    }

    /// What comes of it: each press in order, and how many differ from what was meant, counted as
    /// missing, extra or wrong where the two lists part.
    fn wrong(edges: &[(u64, Button, bool)], meant: &[Button], accept: u64, ignore: u64) -> usize {
        let mut hold_off = HoldOff::new(Millis(accept), Millis(ignore));
        let mut out = Vec::new();
        for (at, button, is_down) in edges {
            while let Some(due) = hold_off.next_due().filter(|due| due.0 <= *at) {
                out.extend(hold_off.due(due));
            }
            if *is_down {
                out.extend(hold_off.down(*button, Millis(*at)).then_some(*button));
            } else {
                hold_off.up(*button, Millis(*at));
            }
        }
        distance(&out, meant)
    }

    /// The fewest insertions, deletions and changes from one list to the other (Levenshtein).
    fn distance(one: &[Button], other: &[Button]) -> usize {
        let mut before: Vec<usize> = (0..=other.len()).collect();
        for (row, left) in one.iter().enumerate() {
            let mut now = vec![row + 1];
            for (column, right) in other.iter().enumerate() {
                let change = before[column] + usize::from(left != right);
                now.push(change.min(before[column + 1] + 1).min(now[column] + 1));
            }
            before = now;
        }
        before[other.len()]
    }

    #[test]
    fn tremor_gives_fewer_than_one_wrong_press_in_a_hundred() {
        let (edges, meant) = tremor(&mut Chance(7), 2_000);
        let filtered = wrong(&edges, &meant, 300, 500);
        assert!(filtered * 100 < meant.len(), "{filtered} of {}", meant.len());
        // The same hands without the filters, with the default, and with each filter alone: were
        // these few too, the patterns would prove nothing.
        for (accept, ignore) in [(0, 0), (0, 50), (300, 50), (0, 500)] {
            let unfiltered = wrong(&edges, &meant, accept, ignore);
            assert!(unfiltered * 100 > meant.len() * 5, "{accept} {ignore}: {unfiltered}");
        }
    }

    /// Presses of two switches as a person and a contact make them: for each, the gap since the
    /// last was let go (longer than `ignore`), the time held with auto-repeat, and its bounces.
    fn pattern() -> impl Strategy<Value = (u64, Vec<(u64, u64, Vec<u64>)>)> {
        (0u64..=2_000).prop_flat_map(|ignore| {
            let press =
                (ignore..ignore + 3_000, 1u64..1_500, prop::collection::vec(1u64..=9, 0..4));
            (Just(ignore), prop::collection::vec(press, 0..40))
        })
    }

    /// The downs (true) and ups (false) of a pattern with their times.
    fn edges(presses: &[(u64, u64, Vec<u64>)], bounce: bool) -> Vec<(u64, bool)> {
        let mut out = Vec::new();
        let mut now = 0;
        for (gap, held, bounces) in presses {
            now += gap;
            out.push((now, true));
            if bounce {
                // Open and closed again within a few milliseconds.
                for length in bounces {
                    out.push((now + 1, false));
                    now += 1 + length;
                    out.push((now, true));
                }
            }
            out.extend(
                (0..).map(|n| 500 + 33 * n).take_while(|at| at < held).map(|at| (now + at, true)),
            );
            now += held;
            out.push((now, false));
        }
        out
    }

    proptest! {
        #[test]
        fn as_many_presses_come_out_as_were_made(
            (ignore, first) in pattern(),
            (_, second) in pattern(),
        ) {
            // Bounces of up to 10 ms can be told from presses only when more is ignored.
            let bounce = ignore > 10;
            let mut all: Vec<(u64, bool, Button)> = Vec::new();
            all.extend(edges(&first, bounce).into_iter().map(|(at, down)| (at, down, FIRST)));
            // The second switch shares the same hold-off time; keep its own gaps long enough.
            let second: Vec<_> =
                second.into_iter().map(|(gap, held, b)| (gap + ignore, held, b)).collect();
            all.extend(edges(&second, bounce).into_iter().map(|(at, down)| (at, down, SECOND)));
            // A stable sort: edges of one switch at the same time stay in their order.
            all.sort_by_key(|(at, ..)| *at);
            let mut hold_off = HoldOff::new(Millis(0), Millis(ignore));
            let mut counted = (0, 0);
            for (at, down, button) in all {
                if !down {
                    hold_off.up(button, Millis(at));
                } else if hold_off.down(button, Millis(at)) {
                    if button == FIRST { counted.0 += 1 } else { counted.1 += 1 }
                }
            }
            prop_assert_eq!(counted, (first.len(), second.len()));
        }

        #[test]
        fn any_noise_never_gives_more_presses_than_downs_after_ups(
            ignore in 0u64..3_000,
            noise in prop::collection::vec((0u64..200, any::<bool>()), 0..200),
        ) {
            let mut hold_off = HoldOff::new(Millis(0), Millis(ignore));
            let (mut now, mut closed, mut closings, mut counted) = (0, false, 0, 0);
            for (gap, down) in noise {
                now += gap;
                if down {
                    closings += usize::from(!closed);
                    counted += usize::from(hold_off.down(FIRST, Millis(now)));
                } else {
                    hold_off.up(FIRST, Millis(now));
                }
                closed = down;
            }
            prop_assert!(counted <= closings);
            prop_assert!((counted > 0) == (closings > 0), "the first is never swallowed");
        }
    }
}
