//! When a document is printed, and when it has failed: decided from what the service says and how
//! long it says so. The clock arrives as a value.

use core::time::Duration;

use crate::{Condition, Job, JobState, Trouble};

/// How long a trouble must last to count: what goes by itself isn't told. Own choice.
const SETTLE: Duration = Duration::from_secs(2);
/// How long where the printer said the same before the document was sent: it may be what is left of
/// the document before, and not be taken back until a sheet has come out. Own choice.
const SETTLE_OLD: Duration = Duration::from_secs(20);
/// How long the service may try to reach a printer. Own choice.
const CONNECT: Duration = Duration::from_secs(20);
/// How long a document may take in all: four sheets on a slow printer that has to warm up. Own
/// choice.
pub const TIME_MAX: Duration = Duration::from_mins(2);

/// What is known of a document that was sent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Look again soon.
    Wait,
    /// It is printed.
    Printed,
    /// It isn't: cancel it.
    Failed(Trouble),
}

/// Follows one document.
#[derive(Clone, Debug)]
pub struct Watch {
    old: Vec<Trouble>,
    /// What troubles the printer without a pause, and since when.
    since: Vec<(Trouble, Duration)>,
    connecting_since: Option<Duration>,
}

impl Watch {
    /// Begins with the printer as it stood before the document was sent.
    pub fn new(before: &Condition) -> Self {
        Self { old: before.troubles.clone(), since: Vec::new(), connecting_since: None }
    }

    /// One look at printer and job, so long after the document was sent.
    pub fn look(&mut self, at: Duration, condition: &Condition, job: &Job) -> Verdict {
        let troubles = Self::troubles(condition);
        // What is new says more than what may be left of the document before.
        let is_new = |trouble: &&Trouble| !self.old.contains(trouble);
        let trouble = troubles.iter().find(is_new).or(troubles.first()).copied();
        match job.state {
            JobState::Completed => return Verdict::Printed,
            JobState::Canceled | JobState::Aborted => {
                let why = if job.is_refused { Some(Trouble::Refused) } else { trouble };
                return Verdict::Failed(why.unwrap_or(Trouble::Stopped));
            }
            JobState::Open => {}
        }
        self.connecting_since =
            condition.is_connecting.then(|| self.connecting_since.unwrap_or(at));
        let known = core::mem::take(&mut self.since);
        let since =
            |trouble| known.iter().find(|(one, _)| *one == trouble).map_or(at, |(_, at)| *at);
        self.since = troubles.iter().map(|trouble| (*trouble, since(*trouble))).collect();
        let lasts = |(trouble, since): &&(Trouble, Duration)| {
            // A printer that is stopped doesn't take up a sheet by which it would say otherwise.
            let is_old = self.old.contains(trouble) && !condition.is_stopped;
            at.saturating_sub(*since) >= if is_old { SETTLE_OLD } else { SETTLE }
        };
        if let Some((trouble, _)) = self.since.iter().find(lasts) {
            return Verdict::Failed(*trouble);
        }
        let is_unreached = |since| at.saturating_sub(since) >= CONNECT;
        if self.connecting_since.is_some_and(is_unreached) {
            return Verdict::Failed(Trouble::Offline);
        }
        if at >= TIME_MAX {
            return Verdict::Failed(trouble.unwrap_or(Trouble::Offline));
        }
        Verdict::Wait
    }

    fn troubles(condition: &Condition) -> Vec<Trouble> {
        if condition.troubles.is_empty() && condition.is_stopped {
            vec![Trouble::Stopped]
        } else {
            condition.troubles.clone()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OPEN: Job = Job { state: JobState::Open, is_refused: false };

    fn with(troubles: &[Trouble]) -> Condition {
        Condition { is_stopped: false, is_connecting: false, troubles: troubles.to_vec() }
    }

    const fn seconds(count: u64) -> Duration {
        Duration::from_secs(count)
    }

    #[test]
    fn a_trouble_counts_when_it_lasts() {
        let mut watch = Watch::new(&with(&[]));
        let (empty, fine) = (with(&[Trouble::NoPaper]), with(&[]));
        assert_eq!(watch.look(seconds(0), &empty, &OPEN), Verdict::Wait);
        assert_eq!(watch.look(seconds(1), &fine, &OPEN), Verdict::Wait, "it went by itself");
        assert_eq!(watch.look(seconds(2), &empty, &OPEN), Verdict::Wait);
        assert_eq!(watch.look(seconds(3), &empty, &OPEN), Verdict::Wait);
        let failed = Verdict::Failed(Trouble::NoPaper);
        assert_eq!(watch.look(seconds(4), &empty, &OPEN), failed);
    }

    #[test]
    fn what_was_said_before_counts_later() {
        let empty = with(&[Trouble::NoPaper]);
        let mut watch = Watch::new(&empty);
        assert_eq!(watch.look(seconds(0), &empty, &OPEN), Verdict::Wait);
        assert_eq!(watch.look(seconds(19), &empty, &OPEN), Verdict::Wait);
        assert_eq!(watch.look(seconds(20), &empty, &OPEN), Verdict::Failed(Trouble::NoPaper));
        let stopped = Condition { is_stopped: true, ..empty };
        let mut watch = Watch::new(&stopped);
        assert_eq!(watch.look(seconds(0), &stopped, &OPEN), Verdict::Wait);
        assert_eq!(watch.look(seconds(2), &stopped, &OPEN), Verdict::Failed(Trouble::NoPaper));
    }

    #[test]
    fn what_is_new_is_told_before_what_is_left() {
        let mut watch = Watch::new(&with(&[Trouble::Jam]));
        let both = with(&[Trouble::Jam, Trouble::NoPaper]);
        assert_eq!(watch.look(seconds(0), &both, &OPEN), Verdict::Wait);
        assert_eq!(watch.look(seconds(2), &both, &OPEN), Verdict::Failed(Trouble::NoPaper));
    }

    #[test]
    fn what_never_ends_has_failed() {
        let mut watch = Watch::new(&with(&[]));
        assert_eq!(watch.look(seconds(119), &with(&[]), &OPEN), Verdict::Wait);
        let failed = Verdict::Failed(Trouble::Offline);
        assert_eq!(watch.look(seconds(120), &with(&[]), &OPEN), failed);
        let connecting = Condition { is_connecting: true, ..with(&[]) };
        let mut watch = Watch::new(&with(&[]));
        assert_eq!(watch.look(seconds(5), &connecting, &OPEN), Verdict::Wait);
        assert_eq!(watch.look(seconds(25), &connecting, &OPEN), failed);
    }

    #[test]
    fn an_end_is_an_end() {
        let (empty, fine) = (with(&[Trouble::NoPaper]), with(&[]));
        for (state, is_refused, verdict) in [
            (JobState::Completed, false, Verdict::Printed),
            (JobState::Canceled, false, Verdict::Failed(Trouble::NoPaper)),
            (JobState::Aborted, false, Verdict::Failed(Trouble::NoPaper)),
            (JobState::Aborted, true, Verdict::Failed(Trouble::Refused)),
        ] {
            let job = Job { state, is_refused };
            assert_eq!(Watch::new(&fine).look(seconds(0), &empty, &job), verdict);
        }
        let aborted = Job { state: JobState::Aborted, is_refused: false };
        let failed = Verdict::Failed(Trouble::Stopped);
        assert_eq!(Watch::new(&fine).look(seconds(0), &fine, &aborted), failed);
    }
}
