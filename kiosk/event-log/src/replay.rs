//! What the entries mean together: whether polls are open, whether a visit is going on, what was
//! counted; and what can't be right, though nobody need have changed the file.
//!
//! The log uses it to know how coarse a time must be; verification uses the same to look for
//! doubts. It is fed one entry after another and never fails.

use thiserror::Error;

use crate::{Counts, Device, Digest, Event, Role, Stamp, State, StopPlace};

/// How the polls stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Polls {
    /// Not opened yet, or closed.
    Closed,
    /// Open.
    Open(State),
    /// Opened and suspended: still open as far as times are concerned, or the minutes of a pause
    /// would stand around a voter.
    Suspended(State),
}

/// What doesn't agree within a log. That is for the election office to explain: a broken station
/// or a mistake makes it as well as a forger.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Doubt {
    /// A visit's event while no polls are open.
    #[error("entry {entry}: \"{id}\" while no polls are open.")]
    NotOpen {
        /// The entry.
        entry: u64,
        /// The event's id.
        id: &'static str,
    },
    /// An event that can't come here.
    #[error("entry {entry}: \"{id}\" can't come here: {why}.")]
    OutOfPlace {
        /// The entry.
        entry: u64,
        /// The event's id.
        id: &'static str,
        /// Why not.
        why: &'static str,
    },
    /// A count that isn't what the entries add up to.
    #[error(
        "entry {entry}: {what}: the count says {said}, the entries since the opening say {tallied}."
    )]
    CountDiffers {
        /// The entry.
        entry: u64,
        /// Which count.
        what: &'static str,
        /// What the entry says.
        said: u32,
        /// What the entries say.
        tallied: u32,
    },
    /// A count that never falls fell.
    #[error("entry {entry}: {what}: the count fell from {from} to {to}.")]
    CountFell {
        /// The entry.
        entry: u64,
        /// Which count.
        what: &'static str,
        /// The count before.
        from: u32,
        /// The count now.
        to: u32,
    },
    /// Paper that jammed or was left and that nobody accounted for.
    #[error("entry {entry}: {pieces} times paper jammed or was left and wasn't accounted for.")]
    NotAccounted {
        /// The entry that closes the polls.
        entry: u64,
        /// How many times.
        pieces: u32,
    },
    /// The clock went back and no entry says why.
    #[error(
        "entry {entry}: its time is earlier than that of the entry before, and no entry says that the clock was set."
    )]
    TimeWentBack {
        /// The entry.
        entry: u64,
    },
    /// A time that is finer or coarser than it may be.
    #[error(
        "entry {entry}: its time is given to the {given} and must be given to the {wanted} here."
    )]
    TimeTooFine {
        /// The entry.
        entry: u64,
        /// How fine it is.
        given: &'static str,
        /// How fine it must be.
        wanted: &'static str,
    },
}

/// How the station last came to a stop, if it did.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Power {
    /// Not started yet, or shut down.
    Off,
    /// Started.
    On,
    /// Started, and an entry says that power was lost since.
    Lost,
}

/// What is known of a visit's ballots on paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct VisitPaper {
    /// One was printed and isn't spoiled.
    pub is_out: bool,
    /// One was spoiled.
    pub has_spoiled: bool,
}

/// The state that entries lead to.
#[derive(Clone, Debug)]
pub(crate) struct Replay {
    pub(crate) polls: Polls,
    pub(crate) is_visit: bool,
    /// Of the visit that goes on.
    pub(crate) paper: VisitPaper,
    /// What the entries of the whole log add up to; sheets of ballots and the lifetime stay 0.
    pub(crate) whole: Counts,
    pub(crate) power: Power,
    /// The election that was accepted last.
    pub(crate) election: Option<Digest>,
    /// Refused codes by role, in the order of [`Role`], since that role last logged in.
    pub(crate) refused: [u32; 3],
    /// The devices that don't answer; each once.
    pub(crate) lost: Vec<Device>,
    /// What the entries since the opening add up to.
    tally: Counts,
    accounted: u32,
    opened_with: Option<Counts>,
    closed_with: Option<Counts>,
    pub(crate) last_at: Option<Stamp>,
    may_go_back: bool,
}

impl Replay {
    /// The state at a log's head.
    pub(crate) fn new(at: Stamp) -> Self {
        Self {
            polls: Polls::Closed,
            is_visit: false,
            paper: VisitPaper::default(),
            whole: Counts::default(),
            power: Power::Off,
            election: None,
            refused: [0; 3],
            lost: Vec::new(),
            tally: Counts::default(),
            accounted: 0,
            opened_with: None,
            closed_with: None,
            last_at: Some(at),
            may_go_back: false,
        }
    }

    /// True where this event's time must not be finer than an hour.
    pub(crate) fn is_coarse(&self, event: &Event) -> bool {
        self.polls != Polls::Closed || self.is_visit || event.is_of_visit()
    }

    /// Takes one entry.
    #[expect(clippy::wildcard_enum_match_arm, reason = "only these two bring counts")]
    pub(crate) fn take(&mut self, entry: u64, at: Stamp, event: &Event, doubts: &mut Vec<Doubt>) {
        self.look_at_time(entry, at, event, doubts);
        if let Some(why) = self.why_not(event) {
            let id = event.kind().id;
            doubts.push(match why {
                Why::NotOpen => Doubt::NotOpen { entry, id },
                Why::OutOfPlace(why) => Doubt::OutOfPlace { entry, id, why },
            });
        }
        match event {
            Event::Opened { counts, .. } => self.look_at_opening(entry, counts, doubts),
            Event::Closed { counts } => self.look_at_closing(entry, counts, doubts),
            _ => {}
        }
        self.count(event);
        self.go_on(event);
    }

    fn look_at_time(&mut self, entry: u64, at: Stamp, event: &Event, doubts: &mut Vec<Doubt>) {
        let (minute, hour) = ("minute", "hour");
        match (self.is_coarse(event), at.is_coarse()) {
            (true, false) => {
                doubts.push(Doubt::TimeTooFine { entry, given: minute, wanted: hour });
            }
            (false, true) => {
                doubts.push(Doubt::TimeTooFine { entry, given: hour, wanted: minute });
            }
            (true, true) | (false, false) => {}
        }
        let explains = matches!(event, Event::ClockSet | Event::ClockLooksWrong);
        let went_back = self.last_at.is_some_and(|last| at.is_before(last));
        if went_back && !explains && !self.may_go_back {
            doubts.push(Doubt::TimeWentBack { entry });
        }
        self.may_go_back = explains;
        self.last_at = Some(at);
    }

    /// Why this event can't come now.
    #[expect(clippy::wildcard_enum_match_arm, reason = "most events can come at any time")]
    fn why_not(&self, event: &Event) -> Option<Why> {
        let out_of_place = |is: bool, why| is.then_some(Why::OutOfPlace(why));
        let is_open = matches!(self.polls, Polls::Open(_));
        match event {
            Event::VisitStarted if self.is_visit => {
                Some(Why::OutOfPlace("a visit was going on already"))
            }
            Event::VisitStarted => (!is_open).then_some(Why::NotOpen),
            // A visit may be stopped, or finished, after polls were suspended or power was lost.
            _ if event.is_of_visit() => out_of_place(!self.is_visit, "no visit was going on"),
            Event::Opened { state: State::Official, .. } if self.election.is_none() => {
                Some(Why::OutOfPlace("no sealed election was accepted in this log"))
            }
            Event::Opened { .. } => {
                out_of_place(self.polls != Polls::Closed, "polls were open already")
            }
            Event::Suspended => out_of_place(!is_open, "polls weren't open"),
            Event::Resumed => {
                out_of_place(!matches!(self.polls, Polls::Suspended(_)), "polls weren't suspended")
            }
            Event::Closed { .. } if self.is_visit => Some(Why::OutOfPlace("a visit was going on")),
            Event::Closed { .. } => out_of_place(self.polls == Polls::Closed, "polls weren't open"),
            Event::StationStarted => out_of_place(
                self.power == Power::On,
                "the station hadn't been shut down, and no entry says that power was lost",
            ),
            Event::DeviceLost { device } | Event::DeviceBack { device } => out_of_place(
                device.is_personal() && (self.polls != Polls::Closed || self.is_visit),
                "while polls are open this would tell how a voter votes",
            ),
            Event::SealNoted { .. } => out_of_place(self.is_visit, "a visit was going on"),
            _ => None,
        }
    }

    fn look_at_opening(&self, entry: u64, counts: &Counts, doubts: &mut Vec<Doubt>) {
        let Some(last) = &self.closed_with else { return };
        let from = last.lifetime_sheets;
        if counts.lifetime_sheets < from {
            let (what, to) = ("sheets in the printer's life", counts.lifetime_sheets);
            doubts.push(Doubt::CountFell { entry, what, from, to });
        }
        let zero = Counts { lifetime_sheets: counts.lifetime_sheets, ..Counts::default() };
        if *counts == zero {
            return;
        }
        for ((what, from), (_, to)) in last.named().into_iter().zip(counts.named()) {
            if to < from && what != "sheets in the printer's life" {
                doubts.push(Doubt::CountFell { entry, what, from, to });
            }
        }
    }

    fn look_at_closing(&self, entry: u64, counts: &Counts, doubts: &mut Vec<Doubt>) {
        let Some(opened) = &self.opened_with else { return };
        let rows = counts.named().into_iter().zip(opened.named()).zip(self.tally.named());
        for (((what, to), (_, from)), (_, tallied)) in rows {
            // No entry counts sheets, so these are held against each other below.
            let is_tallied = !what.starts_with("sheets ");
            if to < from {
                doubts.push(Doubt::CountFell { entry, what, from, to });
            } else if is_tallied && to.saturating_sub(from) != tallied {
                let said = to.saturating_sub(from);
                doubts.push(Doubt::CountDiffers { entry, what, said, tallied });
            }
        }
        let grown = |of: fn(&Counts) -> u32| of(counts).saturating_sub(of(opened));
        let sheets = grown(|counts| counts.sheets_printed);
        let ballots = grown(|counts| counts.ballots_printed);
        if sheets < ballots {
            let what = "sheets printed, fewer than ballots";
            doubts.push(Doubt::CountDiffers { entry, what, said: sheets, tallied: ballots });
        }
        let all = sheets.saturating_add(grown(|counts| counts.test_sheets));
        let said = grown(|counts| counts.lifetime_sheets);
        if said < all {
            let what = "sheets in the printer's life, fewer than sheets of ballots and tests";
            doubts.push(Doubt::CountDiffers { entry, what, said, tallied: all });
        }
        let paper = self.tally.sheets_jammed.saturating_add(self.tally.ballots_left);
        let pieces = paper.saturating_sub(self.accounted);
        if pieces > 0 {
            doubts.push(Doubt::NotAccounted { entry, pieces });
        }
    }

    fn count(&mut self, event: &Event) {
        if *event == Event::PaperAccounted {
            self.accounted = self.accounted.saturating_add(1);
        }
        add(&mut self.tally, event);
        add(&mut self.whole, event);
    }

    #[expect(clippy::wildcard_enum_match_arm, reason = "most events leave the state as it is")]
    fn go_on(&mut self, event: &Event) {
        match event {
            Event::StationStarted => self.power = Power::On,
            Event::PowerLost => self.power = Power::Lost,
            Event::ShutDown => self.power = Power::Off,
            Event::ElectionAccepted { digest } => self.election = Some(*digest),
            Event::DeviceLost { device } if !self.lost.contains(device) => self.lost.push(*device),
            Event::DeviceBack { device } => self.lost.retain(|lost| lost != device),
            Event::LoggedIn { role } => *self.refused_of(*role) = 0,
            Event::LogInRefused { role } => {
                let count = self.refused_of(*role);
                *count = count.saturating_add(1);
            }
            Event::Opened { state, counts } => {
                self.polls = Polls::Open(*state);
                self.opened_with = Some(*counts);
                self.tally = Counts::default();
                self.accounted = 0;
            }
            Event::Suspended => {
                if let Polls::Open(state) = self.polls {
                    self.polls = Polls::Suspended(state);
                }
            }
            Event::Resumed => {
                if let Polls::Suspended(state) = self.polls {
                    self.polls = Polls::Open(state);
                }
            }
            Event::Closed { counts } => {
                self.polls = Polls::Closed;
                self.closed_with = Some(*counts);
                self.opened_with = None;
            }
            Event::VisitStarted => {
                (self.is_visit, self.paper) = (true, VisitPaper::default());
            }
            Event::VisitFinished | Event::VisitStopped { .. } => self.is_visit = false,
            Event::BallotPrinted => self.paper.is_out = true,
            Event::BallotSpoiled => {
                self.paper = VisitPaper { is_out: false, has_spoiled: true };
            }
            _ => {}
        }
    }

    fn refused_of(&mut self, role: Role) -> &mut u32 {
        let [worker, lead, technician] = &mut self.refused;
        match role {
            Role::Worker => worker,
            Role::Lead => lead,
            Role::Technician => technician,
        }
    }

    /// True where polls were opened and closed again.
    pub(crate) fn has_closed(&self) -> bool {
        self.closed_with.is_some()
    }

    /// What the entries since the last opening add up to.
    pub(crate) fn tally(&self) -> Counts {
        self.tally
    }
}

/// Why an event can't come.
enum Why {
    NotOpen,
    OutOfPlace(&'static str),
}

#[expect(clippy::wildcard_enum_match_arm, reason = "most events aren't counted")]
fn add(to: &mut Counts, event: &Event) {
    let left = |place| place != StopPlace::BeforePrint;
    if matches!(event, Event::VisitStopped { reason } if left(reason.place)) {
        to.ballots_left = to.ballots_left.saturating_add(1);
    }
    let count = match event {
        Event::VisitStarted => &mut to.visits_started,
        Event::VisitFinished => &mut to.visits_finished,
        Event::VisitStopped { .. } => &mut to.visits_stopped,
        Event::BallotPrinted => &mut to.ballots_printed,
        Event::BallotSpoiled => &mut to.ballots_spoiled,
        Event::TestSheetPrinted => &mut to.test_sheets,
        Event::PaperJammed => &mut to.sheets_jammed,
        _ => return,
    };
    *count = count.saturating_add(1);
}
