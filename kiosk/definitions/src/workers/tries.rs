//! How long the next try at a code must wait after wrong ones.
//!
//! Invariant: a wait is never longer than [`WAIT_MAX`], whatever the clock does. It must not know a
//! clock, a name or a code: moments come in, and a worker is a place in the list.
//!
//! Nothing is kept on the disk here: a station that is started anew counts what its event log says
//! was refused ([`Tries::after_start`]), of all workers together.

use std::collections::BTreeMap;

use evenhand_rules::Millis;

use super::Role;
use crate::limits::WORKERS_MAX;

/// From this many wrong codes at one worker on there is a wait (our own choice, no source).
pub const WRONG_OF_ONE: u32 = 3;
/// From this many wrong codes at all workers together on everybody waits (our own choice).
pub const WRONG_OF_ALL: u32 = 10;
/// The first wait; each further wrong code doubles it (our own choice).
pub const WAIT_FIRST: Millis = Millis(30_000);
/// The longest wait (our own choice: a lead who mistyped can still open the polls).
pub const WAIT_MAX: Millis = Millis(15 * 60_000);

/// Wrong codes so far, and until when the next try waits.
///
/// Ask [`Tries::wait`] before a code is looked at, then say [`Tries::wrong`] or [`Tries::right`].
/// What all workers have together is the sum of what each has: a right code takes away its own
/// worker's wrong ones and nobody else's, so that one who knows their own code can't use it to go
/// on guessing another's.
#[derive(Clone, Debug, Default)]
pub struct Tries {
    /// By place; none is kept that has no wrong code.
    each: BTreeMap<usize, Wrong>,
    all: Option<Wait>,
    /// Those before the start, by role.
    before: [u32; 3],
}

#[derive(Clone, Copy, Debug)]
struct Wrong {
    count: u32,
    wait: Option<Wait>,
}

#[derive(Clone, Copy, Debug)]
struct Wait {
    since: Millis,
    span: Millis,
}

impl Tries {
    /// With so many codes that were refused before the station was started anew, of workers, leads and
    /// technicians: nobody knows any more whose they were, so they count towards what makes everybody
    /// wait.
    pub fn after_start(refused: [u32; 3], now: Millis) -> Self {
        let mut tries = Self { before: refused, ..Self::default() };
        tries.all = Wait::after(tries.together(), WRONG_OF_ALL, now);
        tries
    }

    /// All wrong codes.
    fn together(&self) -> u32 {
        let each = self.each.values().map(|wrong| wrong.count);
        each.chain(self.before).fold(0, u32::saturating_add)
    }

    /// How long a try at this worker's code must still wait; nothing where it need not.
    pub fn wait(&self, place: usize, now: Millis) -> Option<Millis> {
        let own = self.each.get(&slot(place)).and_then(|wrong| wrong.wait);
        [own, self.all].into_iter().flatten().filter_map(|wait| wait.left(now)).max()
    }

    /// A wrong code was given for this worker: how long the next try for them waits, if it does.
    pub fn wrong(&mut self, place: usize, now: Millis) -> Option<Millis> {
        let own = self.each.entry(slot(place)).or_insert(Wrong { count: 0, wait: None });
        own.count = own.count.saturating_add(1);
        own.wait = Wait::after(own.count, WRONG_OF_ONE, now);
        let together = self.together();
        // A wait that is going on isn't made shorter by a right code since.
        self.all = Wait::after(together, WRONG_OF_ALL, now).or(self.all);
        self.wait(place, now)
    }

    /// The right code of this worker, who has this role, was given: their wrong ones are forgotten, and
    /// those of the role from before the start, as the log counts them.
    pub fn right(&mut self, place: usize, role: Role) {
        self.each.remove(&slot(place));
        let [worker, lead, technician] = &mut self.before;
        *match role {
            Role::Worker => worker,
            Role::Lead => lead,
            Role::Technician => technician,
        } = 0;
    }
}

impl Wait {
    /// The wait after so many wrong codes, where it begins with `first` of them.
    fn after(count: u32, first: u32, since: Millis) -> Option<Self> {
        let doublings = count.checked_sub(first)?;
        let span = 1_u64.checked_shl(doublings).and_then(|times| times.checked_mul(WAIT_FIRST.0));
        let span = Millis(span.map_or(WAIT_MAX.0, |span| span.min(WAIT_MAX.0)));
        Some(Self { since, span })
    }

    /// What is left of it. A clock that went back makes it begin again, never longer.
    fn left(self, now: Millis) -> Option<Millis> {
        let gone = now.0.saturating_sub(self.since.0);
        let left = self.span.0.saturating_sub(gone);
        (left > 0).then_some(Millis(left))
    }
}

/// Places that no list has share one count, so that the map can't grow.
fn slot(place: usize) -> usize {
    place.min(WORKERS_MAX)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const SECOND: u64 = 1_000;

    #[test]
    fn three_wrong_codes_wait_and_each_further_one_twice_as_long() {
        let mut tries = Tries::default();
        let mut now = Millis(5);
        let mut seen = Vec::new();
        for _ in 0..9 {
            let wait = tries.wrong(4, now);
            seen.push(wait.map_or(0, |wait| wait.0 / SECOND));
            assert_eq!(tries.wait(4, now), wait);
            let Some(wait) = wait else { continue };
            // Not a millisecond early, and no other worker waits.
            assert_eq!(tries.wait(4, now.after(Millis(wait.0 - 1))), Some(Millis(1)));
            assert_eq!(tries.wait(3, now), None);
            now = now.after(wait);
            assert_eq!(tries.wait(4, now), None);
        }
        assert_eq!(seen, [0, 0, 30, 60, 120, 240, 480, 900, 900]);
    }

    #[test]
    fn ten_wrong_codes_of_all_together_make_everybody_wait() {
        let mut tries = Tries::default();
        let mut now = Millis(0);
        for place in 0..9 {
            assert_eq!(tries.wrong(place % 5, now), None, "{place}");
        }
        // The tenth is only the second at this worker.
        let mut seen = Vec::new();
        for place in 10..17 {
            let wait = tries.wrong(place, now).expect("everybody waits");
            assert!((0..40).all(|other| tries.wait(other, now) == Some(wait)), "{place}");
            seen.push(wait.0 / SECOND);
            now = now.after(wait);
            assert!((0..40).all(|other| tries.wait(other, now).is_none()), "{place}");
        }
        assert_eq!(seen, [30, 60, 120, 240, 480, 900, 900]);
    }

    #[test]
    fn a_start_forgets_no_wrong_code() {
        let mut tries = Tries::after_start([4, 5, 0], Millis(0));
        assert_eq!(tries.wait(2, Millis(0)), None);
        // The tenth of all, though it is the first at this worker.
        assert_eq!(tries.wrong(2, Millis(0)), Some(WAIT_FIRST));
        assert_eq!(tries.wait(7, Millis(0)), Some(WAIT_FIRST));
        // A right code forgives what was refused of its role, and no more.
        tries.right(2, Role::Worker);
        let later = Millis(0).after(WAIT_MAX);
        for _ in 0..4 {
            assert_eq!(tries.wrong(3, later).filter(|wait| *wait > Millis(60_000)), None);
        }
        tries.right(3, Role::Technician);
        assert_eq!((tries.together(), tries.wait(0, later)), (5, None));
        // Where there were ten, everybody waits from the start on, once.
        let tries = Tries::after_start([11, 0, 0], Millis(7));
        assert_eq!(tries.wait(0, Millis(7)), Some(Millis(60 * SECOND)));
        assert_eq!(tries.wait(0, Millis(7 + 60 * SECOND)), None);
        assert_eq!(Tries::after_start([0; 3], Millis(0)).wait(0, Millis(0)), None);
        let all = Tries::after_start([u32::MAX; 3], Millis(0));
        assert_eq!(all.wait(0, Millis(0)), Some(WAIT_MAX));
    }

    #[test]
    fn a_right_code_forgives_its_own_worker_only() {
        let mut tries = Tries::default();
        for _ in 0..2 {
            assert_eq!(tries.wrong(0, Millis(0)), None);
            assert_eq!(tries.wrong(1, Millis(0)), None);
        }
        tries.right(0, Role::Worker);
        assert_eq!(tries.wrong(0, Millis(0)), None);
        assert_eq!(tries.wrong(1, Millis(0)), Some(WAIT_FIRST));
        // A right code during a wait of all doesn't end it.
        let mut tries = Tries::default();
        for place in 0..10 {
            tries.wrong(place, Millis(0));
        }
        tries.right(0, Role::Worker);
        assert_eq!(tries.wait(0, Millis(0)), Some(WAIT_FIRST));
        // Whoever has one right code can't guess on at another's place: 2 wrong, 1 right, and so on.
        let mut tries = Tries::default();
        let mut waits = 0;
        for _ in 0..30 {
            waits += u32::from(tries.wrong(7, Millis(0)).is_some());
            tries.right(0, Role::Worker);
        }
        assert_eq!(waits, 28);
    }

    proptest! {
        /// Whatever comes, at whatever moments: no wait is longer than the longest, none is there
        /// before the third wrong code since the last right one, and every one ends.
        #[test]
        fn waits_are_bounded_and_end(
            steps in prop::collection::vec((any::<bool>(), 0_usize..200, 0_u64..1 << 62), 0..80)
        ) {
            let mut tries = Tries::default();
            let mut wrong = BTreeMap::new();
            let mut last = 0;
            for (is_right, place, now) in steps {
                if is_right {
                    tries.right(place, Role::Lead);
                    wrong.remove(&place.min(WORKERS_MAX));
                } else {
                    let count: &mut u32 = wrong.entry(place.min(WORKERS_MAX)).or_default();
                    *count = count.saturating_add(1);
                    let wait = tries.wrong(place, Millis(now));
                    let own = wrong.get(&place.min(WORKERS_MAX)).copied().unwrap_or(0);
                    prop_assert!(own < WRONG_OF_ONE || wait >= Some(WAIT_FIRST));
                }
                last = now.max(last);
                prop_assert!(tries.wait(place, Millis(now)) <= Some(WAIT_MAX));
                prop_assert_eq!(tries.wait(place, Millis(last).after(WAIT_MAX)), None);
            }
            prop_assert!(tries.each.len() <= WORKERS_MAX + 1);
        }
    }
}
