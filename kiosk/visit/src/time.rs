//! What happens by itself: the opening's words in turn, moving on for one switch, and the question
//! whether more time is needed. Times come in as values.
//!
//! Invariant: every wait begins when nothing is being said, so that nobody is hurried by the voice.

use alloc::vec::Vec;

use evenhand_rules::Millis;

use crate::at::{At, WorkerReason};
use crate::turn::Turn;
use crate::visit::Visit;
use crate::{LanguageIndex, Output, Ruler, Switches, Target, say};

/// How long the opening waits in silence before it says its first words in the next language.
const OPENING_PAUSE: Millis = Millis(1_500);
/// How often the station goes through all items by itself before it waits for a press.
const LAPS_MAX: u8 = 2;

/// What the visit knows of time.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Times {
    /// The time of the input that is being handled.
    pub(crate) now: Millis,
    /// Since when nothing is said and nothing was pressed; `None` while words are being said.
    pub(crate) quiet_since: Option<Millis>,
    /// The wake-up that was asked for last.
    wake: Option<Millis>,
    /// How often the focus has gone round by itself since the last press.
    laps: u8,
}

impl Times {
    pub(crate) fn starting(now: Millis) -> Self {
        Self { now, ..Self::default() }
    }
}

impl Visit {
    /// Notes what an input brought about, and asks for the wake-up that comes next.
    pub(crate) fn keep_time(&mut self, from: usize, out: &mut Vec<Output>) {
        let mut spoke = false;
        let mut fell_silent = false;
        for output in out.iter().skip(from) {
            match output {
                Output::Say(_) => (spoke, fell_silent) = (true, false),
                Output::Hush => (spoke, fell_silent) = (false, true),
                Output::Listen(listen) => {
                    let is_pause = *listen == crate::Listen::Pause;
                    (spoke, fell_silent) = (!is_pause, is_pause);
                }
                Output::Show(_)
                | Output::SoundTone
                | Output::Print(_)
                | Output::ReadSheets
                | Output::Record(_)
                | Output::WakeAt(_)
                | Output::End => {}
            }
        }
        if spoke && self.speech_works {
            self.times.quiet_since = None;
        } else if spoke || fell_silent {
            self.times.quiet_since = Some(self.times.now);
        }
        let wake = self.next_wake();
        if wake != self.times.wake {
            self.times.wake = wake;
            out.extend(wake.map(Output::WakeAt));
        }
    }

    /// A press: nothing has been waited for yet.
    pub(crate) fn pressed_now(&mut self) {
        self.times.laps = 0;
        if self.times.quiet_since.is_some() {
            self.times.quiet_since = Some(self.times.now);
        }
    }

    /// The words that were asked for last have ended.
    pub(crate) fn fell_silent(&mut self) {
        if self.times.quiet_since.is_none() {
            self.times.quiet_since = Some(self.times.now);
        }
    }

    fn next_wake(&self) -> Option<Millis> {
        let since = self.times.quiet_since?;
        if self.opening_repeats() {
            return Some(since.after(OPENING_PAUSE));
        }
        let scan = self.moves_by_itself().then(|| since.after(self.comfort.pressing.scan_time()));
        let idle = self.patience().map(|wait| since.after(wait));
        scan.into_iter().chain(idle).min()
    }

    fn opening_repeats(&self) -> bool {
        matches!(self.top().at, At::Opening { repeats: true, .. })
    }

    /// How long the station waits on this screen for a press; `None` where it waits for a device or a
    /// worker.
    pub(crate) fn patience(&self) -> Option<Millis> {
        let waits = self.begin.waits;
        let at = &self.top().at;
        if matches!(at, At::Worker { reason, is_here: false } if *reason != WorkerReason::NoPress)
            && self.begin.is_attended
        {
            // Whoever called a worker and left mustn't be gone back to by somebody else.
            return Some(waits.idle());
        }
        let wait = if matches!(at, At::MoreTime) { waits.answer() } else { waits.idle() };
        (!self.waits_for_others()).then_some(wait)
    }

    /// True where the station waits for a device or a worker.
    pub(crate) fn waits_for_others(&self) -> bool {
        matches!(
            self.top().at,
            At::Worker { .. } | At::ConfirmEnd | At::Ended | At::Printing | At::ReadingPaper
        )
    }

    /// Whether the focus moves without a press. Never where a worker is called: a worker has keys
    /// and touch, and a visit must not be ended by waiting.
    pub(crate) fn moves_by_itself(&self) -> bool {
        self.comfort.pressing.switches == Switches::One
            && self.times.laps < LAPS_MAX
            && !self.waits_for_others()
            && !matches!(self.top().at, At::MoreTime)
    }

    /// Whether the station, having gone round, waits for a press that starts it again.
    pub(crate) fn waits_for_start(&self) -> bool {
        self.comfort.pressing.switches == Switches::One && self.times.laps >= LAPS_MAX
    }

    /// The moment has come that was asked for, or one that was asked for before.
    pub(crate) fn tick(&mut self, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        self.times.wake = None;
        let Some(since) = self.times.quiet_since else { return };
        let is_over = |wait: Millis| self.times.now >= since.after(wait);
        if self.opening_repeats() {
            if is_over(OPENING_PAUSE) {
                self.next_opening(out);
            }
        } else if self.patience().is_some_and(is_over) {
            let turn = if matches!(self.top().at, At::MoreTime) {
                self.leave();
                self.call_worker(WorkerReason::NoPress, out)
            } else if matches!(self.top().at, At::Worker { .. }) {
                self.swap(At::Worker { reason: WorkerReason::NoPress, is_here: false })
            } else {
                self.push(At::MoreTime)
            };
            self.tell(turn, ruler, out);
        } else if self.moves_by_itself() && is_over(self.comfort.pressing.scan_time()) {
            self.move_on(ruler, out);
        }
    }

    fn next_opening(&mut self, out: &mut Vec<Output>) {
        let languages = self.begin.languages.max(1);
        let first = self.begin.first_language.0;
        if let At::Opening { turn, repeats: true } = &mut self.top_mut().at {
            *turn = turn.saturating_add(1).checked_rem(languages).unwrap_or(0);
            let index = turn.saturating_add(first).checked_rem(languages).unwrap_or(0);
            let words = say::opening(self, LanguageIndex(index));
            self.say(words, out);
        }
    }

    /// The station goes on by one item.
    fn move_on(&mut self, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let view = self.settled_view(ruler);
        let next = view.step(view.focus);
        // A round ends where it began; a round within a row of keys or a group counts too.
        let is_round = match next {
            Some(Target::Row(row)) => {
                view.outer().first() == Some(&Target::Row(row))
                    || matches!(view.focus, Some(Target::Key { .. }))
            }
            next => view.outer().first().copied() == next,
        };
        if is_round {
            self.times.laps = self.times.laps.saturating_add(1);
        }
        self.top_mut().focus = next;
        self.tell_focus(Vec::new(), ruler, out);
        // Where nothing is said, the next wait begins here.
        if !self.comfort.speech || !self.speech_works {
            self.times.quiet_since = Some(self.times.now);
        }
    }

    /// Any press answers the question whether more time is needed.
    pub(crate) fn answer_more_time(&mut self) -> Option<Turn> {
        matches!(self.top().at, At::MoreTime).then(|| self.leave())
    }
}
