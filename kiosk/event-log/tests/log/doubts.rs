//! What a whole log says is held together: counts and entries, openings and visits, the clock.
//! Each case is one mistake of a station, and the finding that it must give; none is a forgery.

use super::day::{Day, public};
use evenhand_event_log::{
    AppendError, Content, Counts, Device, Event, Moment, Published, State, StopCause, StopPlace,
    StopReason, Trust, verify,
};

/// Puts one count wrong.
type Wrong = fn(&mut Counts);

fn said(day: &Day) -> Vec<String> {
    let report = verify(&day.file, Trust::Key(public(1)), &Published::default());
    assert!(report.faults.is_empty(), "{:?}", report.faults);
    report.doubts.iter().map(ToString::to_string).collect()
}

/// A day with polls open for a test and so many visits, to be closed by the test.
fn open(visits: u32) -> Day {
    let mut day = Day::begin();
    day.open(State::Test, 0);
    (0..visits).for_each(|number| day.visit(number));
    day
}

fn right(day: &Day) -> Counts {
    let tally = day.log.tally();
    Counts { sheets_printed: 99, lifetime_sheets: 200, ..tally }
}

#[test]
fn counts_that_the_entries_bear_out_give_no_doubt() {
    let mut day = open(6);
    let counts = right(&day);
    assert_eq!(counts.visits_started, 6);
    assert_eq!((counts.ballots_left, counts.ballots_spoiled), (1, 1));
    day.add(Event::Closed { counts });
    assert_eq!(said(&day), Vec::<String>::new());
}

/// Each count that entries add up to, one too high: the closing is named, and the count.
#[test]
fn every_wrong_count_is_found() {
    let wrongs: [(Wrong, &str); 8] = [
        (|c| c.ballots_printed += 1, "ballots printed"),
        (|c| c.ballots_spoiled += 1, "ballots spoiled"),
        (|c| c.test_sheets += 1, "test sheets"),
        (|c| c.sheets_jammed += 1, "paper jams"),
        (|c| c.ballots_left += 1, "ballots left behind"),
        (|c| c.visits_started += 1, "visits started"),
        (|c| c.visits_finished += 1, "visits finished"),
        (|c| c.visits_stopped += 1, "visits stopped"),
    ];
    for (wrong, what) in wrongs {
        let mut day = open(6);
        let mut counts = right(&day);
        wrong(&mut counts);
        day.add(Event::Closed { counts });
        let found = said(&day);
        assert_eq!(found.len(), 1, "{what}: {found:?}");
        assert!(found[0].contains(&format!(": {what}: the count says")), "{found:?}");
    }
    for (wrong, what) in [
        ((|c| c.sheets_printed = 3) as Wrong, "sheets printed, fewer than ballots"),
        (|c| c.lifetime_sheets = 98, "sheets in the printer's life, fewer than sheets"),
    ] {
        let mut day = open(6);
        let mut counts = right(&day);
        wrong(&mut counts);
        day.add(Event::Closed { counts });
        assert!(said(&day)[0].contains(what), "{:?}", said(&day));
    }
}

#[test]
fn counts_that_fall_are_found() {
    let mut day = open(2);
    let counts = right(&day);
    day.add(Event::Closed { counts });
    let fallen = Counts { ballots_printed: 1, ..counts };
    day.add(Event::Opened { state: State::Test, counts: fallen });
    let entry = day.log.lines() - 2;
    let from = counts.ballots_printed;
    assert_eq!(
        said(&day),
        [format!("entry {entry}: ballots printed: the count fell from {from} to 1.")]
    );
    // All at zero is a new beginning; the printer's life is never.
    let mut day = open(2);
    day.add(Event::Closed { counts });
    day.add(Event::Opened { state: State::Test, counts: Counts::default() });
    assert_eq!(said(&day).len(), 1);
    assert!(said(&day)[0].contains("sheets in the printer's life: the count fell from 200 to 0."));
}

#[test]
fn events_out_of_place_are_found() {
    let stop = StopReason { place: StopPlace::BeforePrint, cause: StopCause::VotersWish };
    let cases: [(&[Event], &str); 9] = [
        (&[Event::VisitFinished], "\"visit-finished\" can't come here: no visit was going on."),
        (&[Event::VisitStarted, Event::VisitStarted], "a visit was going on already"),
        (&[Event::Resumed], "polls weren't suspended"),
        (
            &[Event::Opened { state: State::Test, counts: Counts::default() }],
            "polls were open already",
        ),
        (&[Event::Suspended, Event::VisitStarted], "\"visit-started\" while no polls are open."),
        (&[Event::StationStarted], "no entry says that power was lost"),
        (&[Event::VisitStopped { reason: stop }], "no visit was going on"),
        (&[Event::BallotPrinted], "no visit was going on"),
        (&[Event::Suspended, Event::Suspended], "polls weren't open"),
    ];
    for (events, expected) in cases {
        let mut day = open(1);
        for event in events {
            day.add(event.clone());
        }
        let found = said(&day);
        assert_eq!(found.len(), 1, "{expected}: {found:?}");
        assert!(found[0].contains(expected), "{found:?}");
    }
    let mut day = open(0);
    day.add(Event::VisitStarted);
    let counts = right(&day);
    day.add(Event::Closed { counts });
    assert!(said(&day)[0].contains("\"closed\" can't come here: a visit was going on"));
    let mut day = Day::begin();
    day.add(Event::VisitStarted);
    assert!(said(&day)[0].contains("\"visit-started\" while no polls are open."));
    let mut day = Day::begin();
    day.add(Event::Opened { state: State::Official, counts: Counts::default() });
    assert!(said(&day)[0].contains("no sealed election was accepted in this log"));
}

#[test]
fn paper_that_nobody_accounted_for_is_found() {
    let mut day = open(1);
    day.add(Event::PaperJammed);
    let counts = right(&day);
    day.add(Event::Closed { counts });
    assert!(said(&day)[0].contains("1 times paper jammed or was left and wasn't accounted for."));
}

#[test]
fn a_clock_that_goes_back_is_found_unless_an_entry_says_why() {
    let mut day = Day::begin();
    day.now -= 7200;
    day.add(Event::PaperAdded);
    assert!(said(&day)[0].contains("its time is earlier than that of the entry before"));
    for why in [Event::ClockSet, Event::ClockLooksWrong] {
        let mut day = Day::begin();
        day.now -= 7200;
        day.add(why);
        day.add(Event::PaperAdded);
        assert_eq!(said(&day), Vec::<String>::new());
    }
}

/// Within an hour of open polls, and in a visit at any time, no two times differ; before and after
/// they are minutes.
#[test]
fn times_are_hours_while_polls_are_open() {
    let mut day = Day::begin();
    day.open(State::Official, 0);
    let opened = day.log.lines();
    day.now = super::day::MORNING - super::day::MORNING % 3600 + 3600;
    for number in 0..8 {
        day.visit(number);
    }
    assert!(day.now % 3600 < 3500, "all within one hour");
    day.add(Event::Suspended);
    day.add(Event::PaperAdded);
    day.add(Event::PowerLost);
    day.add(Event::StationStarted);
    day.add(Event::Resumed);
    let counts = right(&day);
    day.add(Event::Closed { counts });
    let closed = day.log.lines();
    day.add(Event::Exported);
    day.add(Event::VisitStarted);
    let report = verify(&day.file, Trust::Key(public(1)), &Published::default());
    let mut open = std::collections::BTreeSet::new();
    for line in &report.lines {
        let Content::Event(event) = &line.content else { continue };
        let is_open = (opened..closed).contains(&line.number);
        assert_eq!(line.at.is_coarse(), is_open || event.is_of_visit(), "{line:?}");
        if is_open && line.at.is_coarse() {
            open.insert(line.at.hour());
        }
    }
    assert!(open.len() <= 2, "{open:?}");
    // What the file itself holds: no minute anywhere between.
    let text = String::from_utf8(day.file.clone()).unwrap();
    let between = text.lines().skip(usize::try_from(opened).unwrap());
    let count = usize::try_from(closed - opened).unwrap();
    assert!(between.take(count).all(|line| !line.contains("minute")));
}

#[test]
fn what_would_tell_how_a_voter_votes_is_not_taken() {
    let mut day = open(0);
    for device in [Device::Headphones, Device::Switches] {
        for event in [Event::DeviceLost { device }, Event::DeviceBack { device }] {
            let before = day.log.head_digest();
            assert_eq!(day.log.append(event, Moment(day.now)), Err(AppendError::Personal));
            assert_eq!(day.log.head_digest(), before);
        }
    }
    day.add(Event::DeviceLost { device: Device::Scanner });
    day.add(Event::VisitStarted);
    let seal = Event::SealNoted { seal: "A1".parse().unwrap() };
    assert_eq!(day.log.append(seal, Moment(day.now)), Err(AppendError::InVisit));
    for wrong in ["", "a1", "MARÍA", "A 1", "A123456789012345B", "A\"}"] {
        assert!(wrong.parse::<evenhand_event_log::Label>().is_err(), "{wrong}");
    }
}

fn most() -> Counts {
    let most = u32::MAX;
    Counts {
        sheets_printed: most,
        ballots_printed: most,
        ballots_spoiled: most,
        test_sheets: most,
        sheets_jammed: most,
        ballots_left: most,
        visits_started: most,
        visits_finished: most,
        visits_stopped: most,
        lifetime_sheets: most,
    }
}

/// A file as long as it may be: visits stop being taken first, so that polls can still be closed;
/// then nothing is taken; and the whole of it can be verified and taken up.
#[test]
fn a_full_log_can_still_be_closed_and_read() {
    use evenhand_event_log::limits::FILE_BYTES_MAX;
    let mut day = Day::begin();
    let mut after_the_last_visit = 0;
    loop {
        let now = Moment(day.now);
        let is_visit_refused = FILE_BYTES_MAX - day.log.bytes() < 100_000
            && day.log.append(Event::VisitStarted, now).map(|bytes| day.file.extend(bytes))
                == Err(AppendError::Full);
        match day.log.append(Event::Closed { counts: most() }, now) {
            Ok(bytes) => day.file.extend(bytes),
            Err(error) => {
                assert_eq!(error, AppendError::Full);
                break;
            }
        }
        after_the_last_visit += usize::from(is_visit_refused);
    }
    assert!(day.file.len() <= FILE_BYTES_MAX && day.file.len() + 3000 > FILE_BYTES_MAX);
    assert!(after_the_last_visit >= 70, "{after_the_last_visit}");
    let report = verify(&day.file, Trust::Key(public(1)), &Published::default());
    assert_eq!(report.faults, []);
    assert_eq!(report.lines.len() as u64, day.log.lines());
    let taken = evenhand_event_log::Log::recover(super::day::key(1), &day.file, Moment(0));
    assert_eq!(taken.unwrap().0.append(Event::PaperAdded, Moment(0)), Err(AppendError::Full));
}

/// The longest line that a log can hold fits.
#[test]
fn the_longest_line_fits() {
    let counts = most();
    let mut day = Day::begin();
    day.now = u64::MAX - 200;
    day.add(Event::Opened { state: State::Official, counts });
    let longest = super::day::lines(&day.file).iter().map(Vec::len).max();
    let Some(longest) = longest else { panic!("no line") };
    assert!((400..480).contains(&longest), "{longest}");
    let shortest = super::day::lines(&day.file).iter().map(Vec::len).min();
    assert!(shortest > Some(128), "{shortest:?}");
}
