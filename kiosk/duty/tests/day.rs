//! A worker's day through its screens, as a worker presses them: a whole day, and the incidents that
//! workers are trained for. What is counted here is what the log is told ([`Deed`]), as the station
//! counts it.
#![expect(
    clippy::panic,
    clippy::expect_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test stops where a row isn't shown, and looks at the deeds that it counts"
)]

use evenhand_duty::day::{
    Answer, Checked, Day, Deed, Input, LogFault, Output, PaperAt, ReportKind, StopCause, VisitNews,
};
use evenhand_duty::{
    Arg, Button, Command, Counts, Entry, Houses, Message, Outcome, Place, Polls, Purpose, Role,
    Side, Standing, Station, Step, Tone, Why, Worker,
};

fn station() -> Station {
    let worker = |name: &str, role| Worker { name: name.to_owned(), role };
    let entry = |label: &str, style| Entry { label: label.to_owned(), style, houses: None };
    let mut entries = vec![entry("Precinct 101-A", 0), entry("Precinct 102-B", 1)];
    for side in [Side::Odd, Side::Even] {
        let style = if side == Side::Odd { 2 } else { 3 };
        let street = "Mill Road".to_owned();
        let houses = Some(Houses { street, from: 1, to: 99, side });
        entries.push(Entry { label: "Mill Road 1 to 99".to_owned(), style, houses });
    }
    Station {
        election: "General Election".to_owned(),
        date: "2027-11-02".to_owned(),
        place: "Larkfield School".to_owned(),
        number: "7".to_owned(),
        is_sealed: true,
        may_be_official: true,
        workers: vec![
            worker("Ana Ruiz", Role::Lead),
            worker("Ben Osei", Role::Worker),
            worker("Cleo Marsh", Role::Technician),
        ],
        entries,
        touch_cells: (2, 2),
        keys: 3,
    }
}

/// The day with all that it asked for, and counts kept as the station keeps them.
struct Table {
    day: Day,
    out: Vec<Output>,
    counts: Counts,
    /// What codes are answered with.
    codes: Vec<Checked>,
}

impl Table {
    fn begin(polls: Polls) -> Self {
        let standing = Standing {
            polls,
            counts: Counts::default(),
            is_visit_cut: false,
            has_paper_out: false,
            has_spoiled: false,
        };
        Self::from(Day::begin(station(), standing))
    }

    fn from(day: Day) -> Self {
        Self { counts: day.counts(), day, out: Vec::new(), codes: Vec::new() }
    }

    fn give(&mut self, input: Input) -> &mut Self {
        let mut waiting = self.day.handle(input);
        while !waiting.is_empty() {
            let output = waiting.remove(0);
            if let Output::Record(deed) = &output {
                self.count(deed);
                self.day.handle(Input::Counted(self.counts));
            }
            if let Output::CheckCode { .. } = output {
                let checked =
                    if self.codes.is_empty() { Checked::Right } else { self.codes.remove(0) };
                waiting.extend(self.day.handle(Input::CodeChecked(checked)));
            }
            self.out.push(output);
        }
        self
    }

    fn count(&mut self, deed: &Deed) {
        match deed {
            Deed::Opened(_, paper) => {
                self.counts = Counts { paper_in: *paper, ..Counts::default() };
            }
            Deed::VisitStarted => self.counts.started += 1,
            Deed::VisitFinished => self.counts.finished += 1,
            Deed::VisitStopped(..) => self.counts.stopped += 1,
            Deed::Spoiled => self.counts.spoiled += 1,
            Deed::SheetsFound(count) => {
                self.counts.ballots += 1;
                self.counts.sheets += u32::from(*count);
            }
            Deed::PaperAdded(count) => self.counts.paper_in += count,
            Deed::JamCleared(count) => self.counts.sheets += u32::from(*count),
            _ => {}
        }
    }

    fn message(&self) -> Message {
        self.day.sheet().heading.message
    }

    fn notice(&self) -> Option<(Tone, Message)> {
        self.day.sheet().notice.map(|(tone, line)| (tone, line.message))
    }

    fn pick(&mut self, place: Place) -> &mut Self {
        self.give(Input::Press(Command::Pick(place)))
    }

    /// Takes the row with this message, or with this text.
    fn row(&mut self, message: Message) -> &mut Self {
        let sheet = self.day.sheet();
        let row = sheet.rows.iter().position(|line| line.message == message);
        let row = row.unwrap_or_else(|| panic!("{message:?} isn't on {:?}", sheet.heading));
        self.pick(Place::Row(u16::try_from(row).expect("few rows")))
    }

    fn name(&mut self, name: &str) -> &mut Self {
        let sheet = self.day.sheet();
        let is_it =
            |args: &[(&str, Arg)]| args.iter().any(|(_, arg)| *arg == Arg::Text(name.into()));
        let row = sheet.rows.iter().position(|line| is_it(&line.args));
        let row = row.unwrap_or_else(|| panic!("{name} isn't on {:?}", sheet.heading));
        self.pick(Place::Row(u16::try_from(row).expect("few rows")))
    }

    /// Is this worker, whoever was here last.
    fn worker(&mut self, name: &str) -> &mut Self {
        let heading = self.day.sheet().heading;
        if heading.message == Message::CodeHeading {
            if heading.args.contains(&("name", Arg::Text(name.into()))) {
                return self;
            }
            self.row(Message::CodeOther);
        }
        self.name(name)
    }

    fn forward(&mut self) -> &mut Self {
        assert!(self.day.sheet().forward.is_some(), "{:?} leads nowhere", self.message());
        self.pick(Place::Forward)
    }

    fn write(&mut self, text: &str) -> &mut Self {
        text.chars().for_each(|letter| {
            self.give(Input::Type(letter));
        });
        self
    }

    fn code(&mut self) -> &mut Self {
        self.write("739154").forward()
    }

    fn two_codes(&mut self) -> &mut Self {
        self.name("Ana Ruiz").code().name("Ben Osei").code()
    }

    fn open(purpose: Message) -> Self {
        let mut table = Self::begin(Polls::Closed);
        table.row(Message::HomeOpen).two_codes().row(purpose).write("50").forward();
        table.write("B-0417").row(Message::SealsMore).write("B-0418").forward();
        table.forward();
        table
    }

    /// What is printed is out by then.
    fn voter(&mut self, find: &str) -> &mut Self {
        self.give(Input::Printed(true))
            .row(Message::HomeVoter)
            .worker("Ben Osei")
            .code()
            .write(find)
            .pick(Place::Row(0))
            .forward()
    }

    /// The voter's window tells that a ballot of one sheet came out.
    fn prints(&mut self) -> &mut Self {
        self.counts.ballots += 1;
        self.counts.sheets += 1;
        self.give(Input::Counted(self.counts)).give(Input::Visit(VisitNews::Printed))
    }

    /// A worker comes into the visit.
    fn enters(&mut self) -> &mut Self {
        self.give(Input::Visit(VisitNews::WorkerHere)).code()
    }

    /// The worker in the visit stops it, and its window ends.
    fn stops(&mut self, cause: Message) -> &mut Self {
        self.row(Message::EntryStop).row(cause);
        assert_eq!(self.out.last(), Some(&Output::Answer(Answer::Stop)));
        self.give(Input::Visit(VisitNews::Stopped))
    }

    fn deeds(&self) -> Vec<&Deed> {
        let deed = |output: &'_ Output| matches!(output, Output::Record(_));
        let deeds = self.out.iter().filter(|output| deed(output));
        deeds
            .filter_map(|output| if let Output::Record(deed) = output { Some(deed) } else { None })
            .collect()
    }

    fn close(&mut self, left: &str) -> &mut Self {
        self.row(Message::HomeClose).two_codes().write(left).forward();
        self.write("B-0420").forward()
    }
}

#[test]
fn a_whole_day_is_counted_and_comes_out_even() {
    let mut table = Table::open(Message::PurposeOfficial);
    assert_eq!(table.day.polls(), Polls::Open(Purpose::Official));
    assert_eq!(table.notice(), Some((Tone::News, Message::OpenDone)));
    assert!(table.out.contains(&Output::Print(ReportKind::Opening, Vec::new())));
    let seals: Vec<_> = table
        .deeds()
        .into_iter()
        .filter(|deed| matches!(deed, Deed::SealNoted(_)))
        .cloned()
        .collect();
    assert_eq!(seals, ["B-0417", "B-0418"].map(|seal| Deed::SealNoted(seal.into())));
    for (find, style) in [("101", 0), ("102-b", 1), ("15 mill", 2), ("16 mill", 3)] {
        table.voter(find);
        assert!(table.out.contains(&Output::StartVisit(style)), "{find}");
        table.prints().give(Input::Visit(VisitNews::Finished));
        assert_eq!(table.notice(), Some((Tone::News, Message::VisitFinished)));
    }
    table.close("46");
    let sheet = table.day.sheet();
    assert_eq!(sheet.heading.message, Message::CloseHeading);
    assert!(sheet.lines.iter().any(|line| line.message == Message::ReconcileEven), "{sheet:?}");
    table.forward();
    assert_eq!(table.day.polls(), Polls::Closed);
    assert!(table.deeds().contains(&&Deed::Closed(46)));
    table.row(Message::ClosedExport);
    assert_eq!(table.out.last(), Some(&Output::Export));
    let counts = table.day.counts();
    assert_eq!((counts.started, counts.finished, counts.stopped, counts.spoiled), (4, 4, 0, 0));
}

#[test]
fn what_isnt_sealed_opens_as_a_test_only() {
    let standing = Standing {
        polls: Polls::Closed,
        counts: Counts::default(),
        is_visit_cut: false,
        has_paper_out: false,
        has_spoiled: false,
    };
    let mut table = Table::from(Day::begin(
        Station { is_sealed: false, may_be_official: false, ..station() },
        standing,
    ));
    table.row(Message::HomeOpen).two_codes();
    let rows: Vec<_> = table.day.sheet().rows.into_iter().map(|line| line.message).collect();
    assert_eq!(rows, [Message::PurposeTest]);
    // Nor by a row that isn't shown.
    table.pick(Place::Row(1));
    assert_eq!(table.message(), Message::PurposeHeading);
}

/// Drills 1 to 3: the voter leaves before the print, with the sheet in the tray, in the reader.
#[test]
fn a_voter_who_left_is_accounted_for_at_each_stage() {
    for (row, paper, spoiled) in [
        (Message::PaperNowhere, PaperAt::Nowhere, 0),
        (Message::PaperTray, PaperAt::Tray, 1),
        (Message::PaperReader, PaperAt::Reader, 1),
    ] {
        let mut table = Table::open(Message::PurposeTest);
        table.voter("101");
        if spoiled > 0 {
            table.prints();
        }
        table.enters().stops(Message::StopLeft);
        let warned = table.notice() == Some((Tone::Caution, Message::StopPaperOut));
        assert_eq!(warned, spoiled > 0, "a ballot that came out is to be looked for");
        table.row(row);
        assert!(table.deeds().contains(&&Deed::VisitStopped(paper, StopCause::VoterLeft)));
        // Else the log is found to have paper that nobody accounted for.
        assert_eq!(table.deeds().contains(&&Deed::PaperAccounted), spoiled > 0);
        let counts = table.day.counts();
        assert_eq!((counts.started, counts.stopped, counts.spoiled), (1, 1, spoiled));
        assert_eq!(table.message(), Message::HomeOpenHeading);
    }
}

/// The same while the sheets are coming out: the station was never told that they had, so they are
/// counted by the worker.
#[test]
fn sheets_that_came_out_uncounted_are_counted_by_the_worker() {
    let mut table = Table::open(Message::PurposeTest);
    table.voter("101").enters().stops(Message::StopLeft).row(Message::PaperTray);
    assert_eq!(table.message(), Message::FoundCountHeading);
    table.write("0").pick(Place::Forward);
    assert_eq!(table.message(), Message::FoundCountHeading, "some sheet was found");
    table.give(Input::Delete).write("2").forward();
    let counts = table.day.counts();
    assert_eq!((counts.ballots, counts.sheets, counts.spoiled), (1, 2, 1));
    // 50 were put in, and two of them came out.
    table.close("48");
    assert_eq!(table.day.sheet().notice, None);
}

/// What was taken out of a jam is counted then, and not again where the visit is stopped after it; who
/// looked in the wrong place goes back.
#[test]
fn sheets_taken_out_of_a_jam_are_not_counted_again() {
    let mut table = Table::open(Message::PurposeTest);
    table.voter("101").enters().row(Message::HomePaper).row(Message::PaperJamCleared);
    table.write("2").forward().stops(Message::StopWish).row(Message::PaperTray);
    let lines: Vec<_> = table.day.sheet().lines.iter().map(|line| line.message).collect();
    assert!(lines.contains(&Message::FoundCountOther), "{lines:?}");
    let mut back = Table::from(table.day.clone());
    back.pick(Place::Back);
    assert_eq!(back.message(), Message::StopPaperHeading);
    back.row(Message::PaperNowhere);
    assert_eq!((back.day.counts().stopped, back.day.counts().ballots), (1, 0));
    table.write("0").forward();
    let counts = table.day.counts();
    assert_eq!((counts.ballots, counts.sheets, counts.stopped, counts.spoiled), (0, 2, 1, 0));
    table.close("48");
    assert_eq!(table.notice(), None);
}

/// A ballot that was spoiled is counted once, wherever its sheets lie.
#[test]
fn a_spoiled_ballots_sheets_are_not_counted_again() {
    let mut table = Table::open(Message::PurposeTest);
    table.voter("101").prints();
    // The station tells it, and has logged it.
    table.counts.spoiled += 1;
    table.give(Input::Counted(table.counts)).give(Input::Visit(VisitNews::Spoiled));
    table.enters().stops(Message::StopWish).row(Message::PaperReader);
    let lines: Vec<_> = table.day.sheet().lines.iter().map(|line| line.message).collect();
    assert!(lines.contains(&Message::FoundCountOther), "{lines:?}");
    table.write("0").forward();
    let counts = table.day.counts();
    assert_eq!((counts.ballots, counts.sheets, counts.spoiled), (1, 1, 1));
    assert!(table.deeds().ends_with(&[
        &Deed::VisitStopped(PaperAt::Reader, StopCause::VotersWish),
        &Deed::PaperAccounted,
        &Deed::LoggedOut(Role::Worker)
    ]));
    // The next voter has nothing of it.
    table.voter("101").enters().stops(Message::StopWish).row(Message::PaperTray);
    table.write("0").pick(Place::Forward);
    assert_eq!(table.message(), Message::FoundCountHeading);
}

/// A worker comes in at any time: nothing but a code opens the voter's window, and it goes on where
/// it was.
#[test]
fn a_worker_comes_in_by_a_code_and_goes_out_again() {
    let mut table = Table::open(Message::PurposeOfficial);
    table.voter("101").give(Input::Visit(VisitNews::WorkerHere));
    // Whoever gives no code isn't in, and the visit stays hidden.
    table.pick(Place::Back);
    assert_eq!(table.out.last(), Some(&Output::Answer(Answer::NotIn)));
    assert!(table.message() == Message::VisitHeading && table.day.is_visit());
    table.codes = vec![Checked::Wrong, Checked::Right];
    table.give(Input::Visit(VisitNews::WorkerHere)).code();
    assert_eq!(table.notice(), Some((Tone::Caution, Message::CodeWrong)));
    assert!(!table.out.contains(&Output::Answer(Answer::GoOn)));
    table.code();
    assert_eq!(table.message(), Message::EntryHeading);
    // Paper is put in, and the worker is where they were.
    table.row(Message::HomePaper).row(Message::PaperAdd).write("20").forward();
    assert_eq!((table.message(), table.day.counts().paper_in), (Message::EntryHeading, 70));
    // Stopping it can be thought over.
    table.row(Message::EntryStop).pick(Place::Back).row(Message::EntryGoOn);
    assert_eq!(table.out.last(), Some(&Output::Answer(Answer::GoOn)));
    assert!(table.deeds().ends_with(&[
        &Deed::PaperAdded(20),
        &Deed::VisitReturnedTo,
        &Deed::LoggedOut(Role::Worker)
    ]));
    let entered = table.deeds().iter().filter(|deed| ***deed == Deed::WorkerEntered).count();
    assert_eq!(entered, 1);
    table.prints().give(Input::Visit(VisitNews::Finished));
    let counts = table.day.counts();
    assert_eq!((counts.started, counts.finished, counts.stopped), (1, 1, 0));
}

/// The voter's window may end by itself while a worker is in, or be gone when it is told to stop.
#[test]
fn a_window_that_ends_while_a_worker_is_in_leads_to_the_paper() {
    let mut table = Table::open(Message::PurposeTest);
    table.voter("101").prints().enters().give(Input::Visit(VisitNews::Died));
    assert_eq!(table.message(), Message::SearchDiedHeading);
    table.row(Message::PaperTray).code();
    assert_eq!((table.day.counts().stopped, table.day.counts().spoiled), (1, 1));
    table.voter("101").enters().row(Message::EntryStop).row(Message::StopWish);
    assert_eq!(table.message(), Message::EndingHeading);
    table.give(Input::Visit(VisitNews::Died)).row(Message::PaperNowhere);
    assert_eq!(table.day.counts().stopped, 2);
    // It is over once: what comes after it changes nothing.
    table.give(Input::Visit(VisitNews::Stopped)).give(Input::Visit(VisitNews::Finished));
    assert_eq!((table.message(), table.day.counts().finished), (Message::HomeOpenHeading, 0));
}

/// Drill 4: paper is stuck. Drill 5: it has run out.
#[test]
fn stuck_and_missing_paper_are_counted() {
    let mut table = Table::open(Message::PurposeTest);
    // Of a ballot of two sheets the first came out and the second was torn.
    table.voter("101").enters().row(Message::HomePaper).row(Message::PaperJamCleared);
    assert_eq!(table.message(), Message::JamCountHeading);
    table.pick(Place::Back).row(Message::PaperJamCleared).write("2").forward();
    assert_eq!(table.message(), Message::EntryHeading);
    table.row(Message::EntryGoOn).prints().give(Input::Visit(VisitNews::Finished));
    table.row(Message::HomePaper).code().row(Message::PaperAdd).write("25").forward();
    let counts = table.day.counts();
    assert_eq!((counts.sheets, counts.ballots, counts.paper_in), (3, 1, 75));
    assert_eq!(table.notice(), Some((Tone::News, Message::PaperAdded)));
    // Nothing was lost of what was stuck: that is said too.
    table.row(Message::HomePaper).code().row(Message::PaperJamCleared).write("0").forward();
    assert_eq!(table.deeds().last(), Some(&&Deed::LoggedOut(Role::Worker)));
    assert!(table.deeds().contains(&&Deed::JamCleared(0)));
    let mut lost = Table::from(table.day.clone());
    lost.close("71");
    assert_eq!(lost.notice(), Some((Tone::Caution, Message::ReconcileMissing)));
    table.close("72");
    assert_eq!(table.notice(), None);
}

/// Drill 6: power is lost while a ballot is printed.
#[test]
fn after_a_blackout_a_sheet_is_looked_for_before_anything_else() {
    let counts = Counts { started: 1, ballots: 1, sheets: 1, paper_in: 50, ..Counts::default() };
    let polls = Polls::Open(Purpose::Official);
    let mut table = Table::from(Day::begin(
        station(),
        Standing { polls, counts, is_visit_cut: true, has_paper_out: true, has_spoiled: false },
    ));
    assert_eq!(table.message(), Message::SearchPowerHeading);
    let sheet = table.day.sheet();
    assert!(sheet.lines.iter().any(|line| line.message == Message::FaceDown));
    // There is no way round it, and nobody accounts for it without a code.
    table.pick(Place::Back).pick(Place::Forward);
    assert_eq!(table.message(), Message::SearchPowerHeading);
    table.row(Message::PaperNowhere).pick(Place::Back);
    assert_eq!(table.message(), Message::SearchPowerHeading);
    table.row(Message::PaperTray).worker("Ben Osei").code();
    assert_eq!(
        table.deeds(),
        [
            &Deed::LoggedIn(Role::Worker),
            &Deed::Spoiled,
            &Deed::VisitStopped(PaperAt::Tray, StopCause::Cut),
            &Deed::PaperAccounted,
            &Deed::LoggedOut(Role::Worker)
        ]
    );
    let counts = table.day.counts();
    assert_eq!((counts.started, counts.stopped, counts.spoiled), (1, 1, 1));
    assert_eq!(table.message(), Message::HomeOpenHeading);
}

/// The same where the voter's window ended by itself, or never opened.
#[test]
fn a_window_that_ends_by_itself_leads_to_the_paper() {
    let mut table = Table::open(Message::PurposeTest);
    table.voter("101").give(Input::Visit(VisitNews::Died));
    assert_eq!(table.message(), Message::SearchDiedHeading);
    table.row(Message::PaperNowhere).code();
    table.voter("101").give(Input::Visit(VisitNews::NotOpened));
    assert_eq!(table.notice(), Some((Tone::Fault, Message::VisitNotOpened)));
    assert_eq!(table.day.counts().stopped, 2);
}

/// Drill 7: the wrong ballot was chosen, seen before the start, and after it.
#[test]
fn a_wrong_ballot_is_put_right() {
    let mut table = Table::open(Message::PurposeTest);
    table.give(Input::Printed(true)).row(Message::HomeVoter);
    table.worker("Ben Osei").code().write("102").pick(Place::Row(0));
    assert_eq!(table.message(), Message::FoundHeading);
    table.pick(Place::Back);
    assert_eq!((table.message(), table.day.counts().started), (Message::FindHeading, 0));
    table.write("101").pick(Place::Row(0)).forward();
    assert_eq!(table.out.last(), Some(&Output::StartVisit(0)));
    // The voter sees that it isn't theirs, and a worker stops the visit.
    table.enters().stops(Message::StopWish).row(Message::PaperNowhere).voter("102");
    assert_eq!(table.out.last(), Some(&Output::StartVisit(1)));
}

/// Drill 8: wrong codes, and the wait after them.
#[test]
fn a_wrong_code_changes_nothing_and_too_many_must_wait() {
    let mut table = Table::begin(Polls::Open(Purpose::Official));
    table.codes = vec![Checked::Wrong, Checked::Wait(30)];
    table.row(Message::HomeVoter).worker("Ben Osei").code();
    assert_eq!(table.notice(), Some((Tone::Caution, Message::CodeWrong)));
    table.code();
    assert_eq!(table.notice(), Some((Tone::Caution, Message::CodeWait)));
    assert_eq!(table.deeds(), [&Deed::LogInRefused(Role::Worker), &Deed::LogInDelayed]);
    assert!(!table.out.iter().any(|output| matches!(output, Output::StartVisit(_))));
    // What was typed is gone, and less than six figures can't be given.
    table.write("12345");
    assert_eq!(table.day.sheet().forward, None);
}

/// Drill 9: the second worker is missing, or is the same person, or neither leads.
#[test]
fn nothing_opens_or_closes_without_a_second_worker() {
    let mut table = Table::begin(Polls::Closed);
    table.row(Message::HomeOpen).name("Ben Osei").code();
    assert_eq!(table.message(), Message::WhoSecondHeading);
    let rows = table.day.sheet().rows;
    let name = Arg::Text("Ana Ruiz".into());
    assert_eq!(rows.len(), 1, "the lead alone may be the second: {rows:?}");
    assert_eq!(rows[0].args, [("text", name)]);
    table.pick(Place::Back);
    assert_eq!(table.day.polls(), Polls::Closed);
    let one = Station { workers: station().workers[..1].to_vec(), ..station() };
    let standing = Standing {
        polls: Polls::Closed,
        counts: Counts::default(),
        is_visit_cut: false,
        has_paper_out: false,
        has_spoiled: false,
    };
    let mut table = Table::from(Day::begin(one, standing));
    table.row(Message::HomeOpen).name("Ana Ruiz").code();
    assert_eq!(table.day.sheet().lines[0].message, Message::WhoNobody);
    assert!(table.day.sheet().rows.is_empty());
}

/// Drill 10: the clock is wrong. Drill 11: the reader is unplugged. Both are found by the self-test.
#[test]
fn the_self_test_says_what_fails_and_why() {
    let mut table = Table::begin(Polls::Closed);
    table.row(Message::HomeTest).name("Cleo Marsh").code();
    for step in Step::ALL.into_iter().filter(|step| step.is_automatic()) {
        assert_eq!(table.out.last(), Some(&Output::Test(step)));
        table.give(Input::Tested(match step {
            Step::Clock => Outcome::Failed(Why::ClockFar),
            Step::Scanner => Outcome::Failed(Why::NoAnswer),
            _ => Outcome::Passed,
        }));
    }
    table.row(Message::ColorsYes);
    for cell in 0..4 {
        table.pick(Place::Key(cell));
    }
    assert_eq!(table.out.last(), Some(&Output::SoundEar(Step::LeftEar)));
    table.row(Message::EarYes).row(Message::TestSkip);
    table.give(Input::Switch(Button(0))).give(Input::Switch(Button(5)));
    table.give(Input::Switch(Button(1)));
    for key in [1, 0, 7, 1, 2] {
        assert!(table.day.sheet().takes_keys);
        table.give(Input::Switch(Button(key)));
    }
    assert_eq!(table.message(), Message::TestDoneHeading);
    assert_eq!(table.notice(), Some((Tone::Fault, Message::HomeTestFailed)));
    let results = table.day.sheet().lines;
    let named: Vec<_> = results.iter().filter(|line| line.message == Message::TestResult).collect();
    assert_eq!(named.len(), 3, "{named:?}");
    assert!(named[0].args.contains(&("why", Arg::Message(Message::WhyClockFar))));
    let printed = table.out.iter().find_map(|output| match output {
        Output::Print(ReportKind::SelfTest, tests) => Some(tests.len()),
        _ => None,
    });
    assert_eq!(printed, Some(Step::ALL.len()), "every step is on the report");
    // Opening then warns.
    table.forward().row(Message::HomeOpen).two_codes().row(Message::PurposeTest);
    table.write("9").forward().forward();
    assert_eq!(table.notice(), Some((Tone::Caution, Message::OpenNotTested)));
}

/// A key or a switch that doesn't answer fails its step by the key that leads back, and nothing passes
/// that wasn't pressed.
#[test]
fn dead_switches_and_keys_fail() {
    let mut table = Table::begin(Polls::Closed);
    table.row(Message::HomeTest).name("Cleo Marsh").code();
    for _ in Step::ALL.into_iter().filter(|step| step.is_automatic()) {
        table.give(Input::Tested(Outcome::Passed));
    }
    table.row(Message::ColorsYes).pick(Place::Key(0)).pick(Place::Back);
    table.row(Message::EarYes).row(Message::EarYes);
    table.give(Input::Switch(Button(1))).give(Input::Press(Command::Back));
    let left = |table: &Table| {
        let sheet = table.day.sheet();
        let line = sheet.lines.iter().find(|line| line.message == Message::KeysLeft).cloned();
        line.and_then(|line| line.args.into_iter().next()).map(|(_, keys)| keys)
    };
    assert_eq!(left(&table), Some(Arg::Buttons(vec![Button(0), Button(1), Button(2)])));
    // Another that is pressed three times running says that this one is dead, whichever it is.
    table.give(Input::Switch(Button(2))).give(Input::Switch(Button(0)));
    assert_eq!(left(&table), Some(Arg::Buttons(vec![Button(1)])));
    let mut whole = Table::from(table.day.clone());
    whole.give(Input::Switch(Button(1)));
    assert_eq!(whole.deeds()[0], &Deed::Tested(Step::Keys, Outcome::Passed));
    for _ in 0..3 {
        assert!(table.day.sheet().takes_keys);
        table.give(Input::Switch(Button(9)));
    }
    let failed = Outcome::Failed(Why::WorkerSays);
    for step in [Step::TouchGrid, Step::Switches, Step::Keys] {
        assert!(table.deeds().contains(&&Deed::Tested(step, failed)), "{step:?}");
    }
}

/// Whoever gives a code gives it for one task: the log says when that is over.
#[test]
fn everybody_who_logs_in_is_logged_out() {
    let mut table = Table::open(Message::PurposeOfficial);
    table.voter("101").prints().enters().row(Message::EntryGoOn);
    table.give(Input::Visit(VisitNews::Finished));
    // Given up half-way, by the first of two.
    table.row(Message::HomeSuspend).code().pick(Place::Back);
    table.row(Message::HomeClose).name("Ana Ruiz").code().pick(Place::Back);
    table.close("49").forward().give(Input::Printed(true)).forward();
    table.row(Message::HomeShutDown).code();
    let roles = |is_in: bool| {
        let deeds = table.deeds().into_iter().filter_map(move |deed| match deed {
            Deed::LoggedIn(role) if is_in => Some(*role),
            Deed::LoggedOut(role) if !is_in => Some(*role),
            _ => None,
        });
        deeds.collect::<Vec<_>>()
    };
    assert_eq!(roles(true), roles(false));
    assert_eq!(roles(true).len(), 9);
    assert_eq!(table.deeds().last(), Some(&&Deed::ShutDown));
}

/// Two documents at once could cancel each other at the printer: they go one after the other.
#[test]
fn a_report_is_out_before_anything_else_is_printed() {
    let mut table = Table::open(Message::PurposeTest);
    let printed = |table: &Table| {
        table.out.iter().filter(|output| matches!(output, Output::Print(..))).count()
    };
    assert_eq!(printed(&table), 1);
    table.row(Message::HomeVoter);
    assert_eq!(table.message(), Message::HomeOpenHeading);
    assert_eq!(table.notice(), Some((Tone::Caution, Message::ReportComing)));
    table.give(Input::Printed(true)).voter("101").prints();
    table.give(Input::Visit(VisitNews::Finished)).close("49").forward();
    assert_eq!(printed(&table), 2);
    // Asked for again before it is out: it comes first, and the station isn't shut down either.
    table.row(Message::ClosedPrintAgain);
    assert_eq!(table.notice(), Some((Tone::Caution, Message::ReportComing)));
    assert_eq!(printed(&table), 2);
    table.forward().row(Message::HomeShutDown);
    assert_eq!(table.notice(), Some((Tone::Caution, Message::ReportComing)));
    table.give(Input::Printed(false)).row(Message::HomeShutDown).code();
    assert_eq!(table.out.last(), Some(&Output::ShutDown));
    // Nothing comes out twice: one that follows another is made at once, and waits at the printer.
    let mut table = Table::begin(Polls::Closed);
    table.row(Message::HomeTest).name("Cleo Marsh").code();
    for _ in Step::ALL.into_iter().filter(|step| step.is_automatic()) {
        table.give(Input::Tested(Outcome::Passed));
    }
    table.row(Message::TestSkip).pick(Place::Back).row(Message::TestSkip).row(Message::TestSkip);
    table.row(Message::TestSkip).row(Message::TestSkip).forward();
    table.row(Message::HomeOpen).two_codes().row(Message::PurposeTest).write("9").forward();
    table.forward().forward();
    assert_eq!(printed(&table), 2);
    table.give(Input::Printed(true)).row(Message::HomeVoter);
    assert_eq!(table.message(), Message::HomeOpenHeading);
    table.give(Input::Printed(true)).row(Message::HomeVoter);
    assert_eq!(table.message(), Message::CodeHeading);
}

/// Drill 12: storage is full. Nothing goes on that the log doesn't have.
#[test]
fn without_a_log_the_station_stops() {
    for (fault, says) in
        [(LogFault::Full, Message::HaltedFull), (LogFault::Other, Message::HaltedOther)]
    {
        let mut table = Table::open(Message::PurposeOfficial);
        table.give(Input::LogFailed(fault));
        let sheet = table.day.sheet();
        assert_eq!((sheet.heading.message, sheet.lines[0].message), (Message::HaltedHeading, says));
        assert_eq!(sheet.rows.len(), 1);
        table.pick(Place::Back);
        assert_eq!(table.message(), Message::HaltedHeading);
        table.row(Message::HomeShutDown);
        assert_eq!(table.out.last(), Some(&Output::ShutDown));
    }
}

#[test]
fn a_night_and_a_report_that_didnt_print() {
    let mut table = Table::open(Message::PurposeOfficial);
    table.give(Input::Printed(false));
    assert_eq!(table.notice(), Some((Tone::Fault, Message::ReportFailed)));
    table.row(Message::HomeSuspend).worker("Ana Ruiz").code().forward();
    assert_eq!(table.day.polls(), Polls::Suspended(Purpose::Official));
    assert!(!table.day.sheet().rows.iter().any(|row| row.message == Message::HomeVoter));
    table.row(Message::HomeResume).two_codes();
    assert_eq!(table.day.polls(), Polls::Open(Purpose::Official));
    assert!(table.deeds().contains(&&Deed::Resumed));
}

/// While a voter is there nothing that a worker types or presses does anything.
#[test]
fn during_a_visit_the_workers_screens_are_dead() {
    let mut table = Table::open(Message::PurposeOfficial);
    table.voter("101");
    let before = table.out.len();
    for place in [Place::Row(0), Place::Row(3), Place::Back, Place::Forward, Place::Key(1)] {
        table.pick(place);
    }
    table.write("739154").give(Input::Delete).give(Input::Switch(Button(0)));
    assert!(table.day.is_visit() && table.out.len() == before);
    let sheet = table.day.sheet();
    assert!(sheet.rows.is_empty() && sheet.keys.is_empty());
}
