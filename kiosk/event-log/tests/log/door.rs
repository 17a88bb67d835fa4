//! Property tests of the doors: arbitrary bytes, and logs with spans deleted, repeated or replaced,
//! never make reading panic; and any events that are taken come back as they went in.

use evenhand_event_log::{
    Content, Counts, Device, Digest, Event, Label, Log, Maker, Moment, Outcome, Published, Role,
    State, Step, StopCause, StopPlace, StopReason, Trust, export, page, verify,
};
use proptest::prelude::*;

use super::day::{Day, head, key, public};

/// Everything that can be done with bytes.
fn all_doors(bytes: &[u8]) -> bool {
    let _ = Log::recover(key(1), bytes, Moment(1));
    let report = verify(bytes, Trust::Key(public(1)), &Published::default());
    let made = export(&report, &Maker::EVENHAND, Moment(1));
    assert!(serde_json::from_str::<serde_json::Value>(&made).is_ok());
    let shown = page(&report);
    assert!(!shown.contains("<script") && shown.ends_with("</html>\n"));
    assert_eq!(report.findings(), report.finding_sentences().len());
    // A good log of this key is good by its own key too.
    assert_eq!(
        report.findings() == 0,
        verify(bytes, Trust::Itself, &Published::default()).is_clean()
            && report.key == Some(public(1))
    );
    !report.faults.is_empty()
}

fn counts() -> impl Strategy<Value = Counts> {
    any::<[u32; 10]>().prop_map(|all| Counts {
        sheets_printed: all[0],
        ballots_printed: all[1],
        ballots_spoiled: all[2],
        test_sheets: all[3],
        sheets_jammed: all[4],
        ballots_left: all[5],
        visits_started: all[6],
        visits_finished: all[7],
        visits_stopped: all[8],
        lifetime_sheets: all[9],
    })
}

fn role() -> impl Strategy<Value = Role> {
    prop::sample::select(vec![Role::Worker, Role::Lead, Role::Technician])
}

fn outcome() -> impl Strategy<Value = Outcome> {
    prop::sample::select(vec![Outcome::Passed, Outcome::Failed, Outcome::Skipped])
}

fn step() -> impl Strategy<Value = Step> {
    use Step::{
        Clock, Keys, LeftEar, Log, PrinterSheet, RightEar, Scanner, ScreenColors, SealedElection,
        Storage, Switches, TouchGrid, Voice,
    };
    prop::sample::select(vec![
        ScreenColors,
        TouchGrid,
        LeftEar,
        RightEar,
        Switches,
        Keys,
        PrinterSheet,
        Scanner,
        Clock,
        Storage,
        SealedElection,
        Log,
        Voice,
    ])
}

fn device() -> impl Strategy<Value = Device> {
    use Device::{Clock, Headphones, Printer, Scanner, Screen, Storage, Switches};
    prop::sample::select(vec![Printer, Scanner, Headphones, Switches, Screen, Storage, Clock])
}

fn reason() -> impl Strategy<Value = StopReason> {
    let places = vec![StopPlace::BeforePrint, StopPlace::SheetInTray, StopPlace::SheetInReader];
    let causes =
        vec![StopCause::VotersWish, StopCause::VoterLeft, StopCause::NotOpened, StopCause::Cut];
    (prop::sample::select(places), prop::sample::select(causes))
        .prop_map(|(place, cause)| StopReason { place, cause })
}

/// Events without data.
fn plain() -> Vec<Event> {
    vec![
        Event::StationStarted,
        Event::PowerLost,
        Event::ShutDown,
        Event::StationFileChanged,
        Event::ClockSet,
        Event::ClockLooksWrong,
        Event::StorageFull,
        Event::LogInDelayed,
        Event::Suspended,
        Event::Resumed,
        Event::VisitStarted,
        Event::VisitFinished,
        Event::WorkerEntered,
        Event::VisitReturnedTo,
        Event::BallotPrinted,
        Event::BallotSpoiled,
        Event::TestSheetPrinted,
        Event::PaperJammed,
        Event::PaperAccounted,
        Event::PaperAdded,
        Event::Exported,
    ]
}

fn event() -> impl Strategy<Value = Event> {
    let digest = any::<[u8; 32]>().prop_map(Digest);
    let seal = "[A-Z0-9-]{1,16}".prop_map(|text| text.parse::<Label>().unwrap());
    let state = prop::sample::select(vec![State::Test, State::Official]);
    prop_oneof![
        21 => prop::sample::select(plain()),
        1 => digest.clone().prop_map(|digest| Event::ElectionAccepted { digest }),
        1 => digest.clone().prop_map(|digest| Event::ElectionRefused { digest }),
        1 => digest.prop_map(|digest| Event::SoftwareChanged { digest }),
        1 => (step(), outcome()).prop_map(|(step, outcome)| Event::SelfTestStep { step, outcome }),
        1 => outcome().prop_map(|outcome| Event::SelfTestDone { outcome }),
        1 => role().prop_map(|role| Event::LoggedIn { role }),
        1 => role().prop_map(|role| Event::LoggedOut { role }),
        1 => role().prop_map(|role| Event::LogInRefused { role }),
        2 => (state, counts()).prop_map(|(state, counts)| Event::Opened { state, counts }),
        2 => counts().prop_map(|counts| Event::Closed { counts }),
        2 => reason().prop_map(|reason| Event::VisitStopped { reason }),
        1 => device().prop_map(|device| Event::DeviceLost { device }),
        1 => device().prop_map(|device| Event::DeviceBack { device }),
        1 => seal.prop_map(|seal| Event::SealNoted { seal }),
        1 => any::<u32>().prop_map(|bytes| Event::LogRecovered { bytes }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn any_bytes_are_looked_at_and_never_pass(
        bytes in prop::collection::vec(any::<u8>(), 0..3000)
    ) {
        prop_assert!(all_doors(&bytes));
    }

    /// Pieces of real lines, in any order, with other pieces between.
    #[test]
    fn pieces_of_a_log_never_pass(
        pieces in prop::collection::vec((any::<prop::sample::Index>(), 1usize..600), 0..8),
        glue in prop::collection::vec("[\\{\\}\":,n0-9\n\\\\a-f]{0,9}", 8),
    ) {
        let file = Day::whole(2, 1).file;
        let mut bytes = Vec::new();
        for ((at, length), glue) in pieces.iter().zip(&glue) {
            let at = at.index(file.len());
            bytes.extend(&file[at..file.len().min(at + length)]);
            bytes.extend(glue.as_bytes());
        }
        // A whole log's beginning may come out by chance; everything else has a fault.
        let is_beginning = file.starts_with(&bytes) && bytes.ends_with(b"\n");
        prop_assert!(all_doors(&bytes) || is_beginning);
    }

    /// A log with one span replaced.
    #[test]
    fn a_log_with_a_span_replaced_never_passes(
        at in any::<prop::sample::Index>(),
        length in 0usize..400,
        other in prop::collection::vec(any::<u8>(), 0..40),
    ) {
        let file = Day::whole(2, 1).file;
        let at = at.index(file.len());
        let end = file.len().min(at + length);
        let bytes = [&file[..at], &other, &file[end..]].concat();
        let is_beginning = file.starts_with(&bytes) && bytes.ends_with(b"\n");
        prop_assert!(bytes == file || is_beginning || all_doors(&bytes));
    }

    /// Whatever happens, and at whatever times: what was taken comes back in order, the file is
    /// whole, and taking it up again leads to the same log.
    #[test]
    fn events_come_back_as_they_went_in(
        events in prop::collection::vec((event(), any::<u64>()), 0..150)
    ) {
        let (mut log, mut file) = Log::start(key(1), head(), Moment(1));
        let mut taken = Vec::new();
        for (event, now) in events {
            if let Ok(bytes) = log.append(event.clone(), Moment(now)) {
                file.extend(bytes);
                taken.push(event);
            }
        }
        let published = Published { digest: Some(log.head_digest()), lines: Some(log.lines()) };
        let report = verify(&file, Trust::Key(public(1)), &published);
        prop_assert_eq!(&report.faults, &Vec::new());
        let back: Vec<Event> = report
            .lines
            .iter()
            .filter_map(|line| match &line.content {
                Content::Event(event) => Some(event.clone()),
                Content::Head | Content::Checkpoint => None,
            })
            .collect();
        prop_assert_eq!(back, taken);
        let since = report.lines.last().unwrap().number - report.covered.map_or(0, |n| n + 1);
        prop_assert!(since <= 64, "a checkpoint every 64 lines");
        let (mut again, found) = Log::recover(key(1), &file, Moment(2)).unwrap();
        prop_assert!(found.append.is_empty());
        prop_assert_eq!(
            again.append(Event::PaperAdded, Moment(3)),
            log.append(Event::PaperAdded, Moment(3))
        );
        prop_assert!(!all_doors(&file));
    }
}

/// Every kind has its own id, and every event's id in a line is its kind's.
#[test]
fn ids_are_one_each_and_those_of_the_lines() {
    let mut ids: Vec<&str> = Event::KINDS.iter().map(|kind| kind.id).collect();
    for event in plain() {
        let text = serde_json::to_string(&event).unwrap();
        assert_eq!(text, format!("{{\"id\":\"{}\"}}", event.kind().id));
        assert!(event.sentence().ends_with('.'));
    }
    for kind in Event::KINDS {
        assert!(kind.id.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{}", kind.id);
        assert!(kind.description.ends_with('.'), "{}", kind.id);
    }
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), Event::KINDS.len());
    assert_eq!(ids.len(), 36);
}
