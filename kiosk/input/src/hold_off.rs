//! What counts as one press: a held key is one, and a tremor's second touch can be ignored.
//!
//! Pure: time comes in as a value.

use std::collections::BTreeMap;

use crate::press::Button;

/// A time or a length of time in milliseconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Millis(pub u64);

/// Lets the first of a button's downs through and holds off the rest.
///
/// Two rules. A button that is down can't be pressed again until it was let go: key auto-repeat
/// is one press. And a down that comes less than `ignore` after the same button was let go is
/// the same press (contacts bounce for 20 to 50 ms; a voter's tremor may need up to two seconds,
/// 36 CFR 1194 app. C 407.4). Other buttons are never held off: two switches stay independent.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct HoldOff {
    ignore: Millis,
    buttons: BTreeMap<Button, State>,
}

/// What is known of a button.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum State {
    Down,
    LetGo(Millis),
}

impl HoldOff {
    /// Contact bounce only.
    pub const BOUNCE: Millis = Millis(40);
    /// The longest that can be set.
    pub const LONGEST: Millis = Millis(2_000);

    /// Ignores the same button for this long after it was let go, at most [`Self::LONGEST`].
    pub fn new(ignore: Millis) -> Self {
        Self { ignore: ignore.min(Self::LONGEST), buttons: BTreeMap::new() }
    }

    /// How long the same button is ignored.
    pub fn ignore(&self) -> Millis {
        self.ignore
    }

    /// Changes how long; buttons that are down stay down, so no press comes of it.
    pub fn set_ignore(&mut self, ignore: Millis) {
        self.ignore = ignore.min(Self::LONGEST);
    }

    /// A button went down, or its auto-repeat says so again. Whether it counts as a press.
    pub fn down(&mut self, button: Button, now: Millis) -> bool {
        let before = self.buttons.insert(button, State::Down);
        match before {
            None => true,
            Some(State::Down) => false,
            Some(State::LetGo(at)) => now.0.saturating_sub(at.0) >= self.ignore.0,
        }
    }

    /// A button was let go.
    pub fn up(&mut self, button: Button, now: Millis) {
        if self.buttons.get(&button) == Some(&State::Down) {
            self.buttons.insert(button, State::LetGo(now));
        }
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
        let mut hold_off = HoldOff::new(HoldOff::BOUNCE);
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
        let mut hold_off = HoldOff::new(Millis(40));
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
        assert_eq!(HoldOff::new(Millis(60_000)).ignore(), HoldOff::LONGEST);
        let mut hold_off = HoldOff::new(Millis(0));
        assert!(hold_off.down(FIRST, Millis(0)));
        hold_off.forget();
        assert!(hold_off.down(FIRST, Millis(1)));
        // An up without a down is no news.
        hold_off.up(SECOND, Millis(2));
        assert!(hold_off.down(SECOND, Millis(2)));
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
            let mut hold_off = HoldOff::new(Millis(ignore));
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
            let mut hold_off = HoldOff::new(Millis(ignore));
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
