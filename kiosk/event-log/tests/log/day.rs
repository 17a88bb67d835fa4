//! A station's key and a day of it, for the tests of the log.
#![expect(clippy::unwrap_used, reason = "a test's helpers may")]

use evenhand_event_log::{
    Counts, Device, Digest, Event, Head, Label, Log, Moment, Offset, Outcome, Polls, PublicKey,
    Role, State, StationKey, Step, StopCause, StopPlace, StopReason,
};

/// A quarter past five in the morning of 2 November 2027, six hours west of UTC.
pub(crate) const MORNING: u64 = 1_825_154_100;

/// The key pair of this seed, as RFC 8410 puts it into PKCS#8.
pub(crate) fn key(seed: u8) -> StationKey {
    let mut bytes = vec![0x30, 0x2e, 2, 1, 0, 0x30, 5, 6, 3, 0x2b, 0x65, 0x70, 4, 0x22, 4, 0x20];
    bytes.extend([seed; 32]);
    let key = StationKey::from_pkcs8(&mut bytes).unwrap();
    assert!(bytes.iter().all(|byte| *byte == 0), "the caller's bytes are overwritten");
    key
}

pub(crate) fn public(seed: u8) -> PublicKey {
    key(seed).public()
}

pub(crate) fn head() -> Head {
    Head {
        station: "Q-07".parse().unwrap(),
        offset: Offset::minutes(-360).unwrap(),
        previous: Some(Digest::of(b"the log before")),
    }
}

/// A log, its file, and a clock that goes on by 100 seconds an event.
pub(crate) struct Day {
    pub(crate) log: Log,
    pub(crate) file: Vec<u8>,
    pub(crate) now: u64,
}

impl Day {
    pub(crate) fn begin() -> Self {
        let (log, file) = Log::start(key(1), head(), Moment(MORNING));
        Self { log, file, now: MORNING }
    }

    pub(crate) fn add(&mut self, event: Event) {
        self.now += 100;
        let bytes = self.log.append(event, Moment(self.now)).unwrap();
        self.file.extend(bytes);
    }

    /// Starting, with a self-test of this many steps, and opening.
    pub(crate) fn open(&mut self, state: State, steps: usize) {
        self.add(Event::StationStarted);
        self.add(Event::ElectionAccepted { digest: Digest::of(b"the sealed election") });
        self.add(Event::LoggedIn { role: Role::Lead });
        let all = [Step::ScreenColors, Step::PrinterSheet, Step::Scanner, Step::Log];
        for step in all.into_iter().cycle().take(steps) {
            self.add(Event::SelfTestStep { step, outcome: Outcome::Passed });
        }
        self.add(Event::SealNoted { seal: "A-0042".parse::<Label>().unwrap() });
        self.add(Event::Opened { state, counts: Counts::default() });
    }

    pub(crate) fn visit(&mut self, number: u32) {
        self.add(Event::VisitStarted);
        if number % 5 == 4 {
            let (place, cause) = (StopPlace::SheetInTray, StopCause::VoterLeft);
            self.add(Event::BallotPrinted);
            self.add(Event::WorkerEntered);
            self.add(Event::VisitStopped { reason: StopReason { place, cause } });
            self.add(Event::PaperAccounted);
            return;
        }
        self.add(Event::BallotPrinted);
        if number % 3 == 1 {
            self.add(Event::BallotSpoiled);
            self.add(Event::BallotPrinted);
        }
        self.add(Event::VisitFinished);
    }

    /// Closing with the right counts, and shutting down.
    pub(crate) fn close(&mut self) {
        assert_ne!(self.log.polls(), Polls::Closed);
        let tally = self.log.tally();
        let sheets = tally.ballots_printed * 2;
        let lifetime_sheets = sheets + tally.test_sheets;
        let counts = Counts { sheets_printed: sheets, lifetime_sheets, ..tally };
        self.add(Event::Closed { counts });
        self.add(Event::DeviceBack { device: Device::Headphones });
        self.add(Event::Exported);
        self.add(Event::ShutDown);
    }

    /// A whole day of so many visits.
    pub(crate) fn whole(visits: u32, steps: usize) -> Self {
        let mut day = Self::begin();
        day.open(State::Official, steps);
        for number in 0..visits {
            day.visit(number);
        }
        day.close();
        day
    }
}

/// The lines of a file, each with its line feed.
pub(crate) fn lines(file: &[u8]) -> Vec<Vec<u8>> {
    file.split_inclusive(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect()
}
