//! Every screen of a worker's day that can be reached: all that is shown is taken, and everything
//! that can come from outside comes.

use std::collections::{BTreeMap, VecDeque};

use evenhand_duty::day::{Checked, Day, Input, LogFault, VisitNews};
use evenhand_duty::{
    Arg, Button, Command, Counts, Entry, Message, Outcome, Place, Polls, Purpose, Role, Sheet,
    Standing, Station, Step, Why, Worker,
};

/// A screen, and where one gets from it: by what a worker does, and by what comes from outside.
#[derive(Debug)]
pub(crate) struct Reached {
    pub(crate) sheet: Sheet,
    pub(crate) by_worker: Vec<usize>,
    pub(crate) by_others: Vec<usize>,
}

/// A station with the longest names that files may have here, and so many workers that they take two
/// screens.
pub(crate) fn station(is_sealed: bool) -> Station {
    let names = ["Anastasia Featherstonehaugh-Okonkwo", "Bo Li", "Cy Orr", "Dee Ash", "Ed Fox"];
    let names = names.into_iter().chain(["Flo Gray", "Gus Hill", "Ida Jay"]);
    let role = |at: usize| [Role::Lead, Role::Worker, Role::Technician][at.min(2) % 3];
    let workers =
        names.enumerate().map(|(at, name)| Worker { name: name.to_owned(), role: role(at % 2) });
    let entry = |number: u16| Entry {
        label: format!("Precinct {number}77-B, Northern Lakes and Farms, Prairie Party"),
        style: number,
        houses: None,
    };
    Station {
        election: "Quillbrook County General Election and Bond Measures".to_owned(),
        date: "2027-11-02".to_owned(),
        place: "Larkfield Elementary School Gymnasium".to_owned(),
        number: "12".to_owned(),
        is_sealed,
        may_be_official: is_sealed,
        workers: workers.collect(),
        entries: (1..=6).map(entry).collect(),
        touch_cells: (2, 1),
        keys: 2,
    }
}

/// Why a step that the station does by itself may not pass.
const WHYS: [Why; 12] = [
    Why::NotSealed,
    Why::NotWhole,
    Why::ClockFar,
    Why::NoRoom,
    Why::NoVoice,
    Why::NoSpeech,
    Why::NoPaper,
    Why::PaperStuck,
    Why::NoAnswer,
    Why::NoSheet,
    Why::OvalsDiffer,
    Why::NeedsOther,
];

/// What can come from outside, whatever is shown.
fn outside() -> Vec<Input> {
    let checked = [Checked::Right, Checked::Wrong, Checked::Wait(120)].map(Input::CodeChecked);
    let visit = [
        VisitNews::Printed,
        VisitNews::WorkerHere,
        VisitNews::Finished,
        VisitNews::Stopped,
        VisitNews::Died,
        VisitNews::NotOpened,
    ]
    .map(Input::Visit);
    let counts = Counts { paper_in: 20, started: 2, finished: 1, ..Counts::default() };
    let mut all = vec![
        Input::Switch(Button(0)),
        Input::Switch(Button(1)),
        Input::Tested(Outcome::Passed),
        Input::Tested(Outcome::Failed(Why::NoAnswer)),
        Input::Printed(true),
        Input::Printed(false),
        Input::Exported(true),
        Input::Exported(false),
        Input::Counted(counts),
        Input::LogFailed(LogFault::Full),
        Input::LogFailed(LogFault::Other),
    ];
    all.extend(checked);
    all.extend(visit);
    all
}

/// True where enough was typed, but for a code, which takes six figures.
fn is_long(sheet: &Sheet) -> bool {
    let is_code = sheet.heading.message == Message::CodeHeading;
    sheet.lines.iter().flat_map(|line| &line.args).any(|(name, arg)| match (*name, arg) {
        ("text", Arg::Text(text)) => text.len() >= 2,
        ("count", Arg::Number(count)) => *count >= if is_code { 7 } else { 10 },
        _ => false,
    })
}

/// Every screen from here on, the first being the one at the beginning. Two states that show the
/// same for the same purpose are one.
pub(crate) fn explore(begin: Vec<Day>) -> Vec<Reached> {
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    let mut reached = Vec::new();
    let mut waiting = VecDeque::new();
    let mut place_of = |day: Day, reached: &mut Vec<Reached>, waiting: &mut VecDeque<Day>| {
        let mut sheet = day.sheet();
        sheet.focus = None;
        // What is asked of a worker can look the same for two purposes.
        let whole = format!("{day:?}");
        let purpose = whole.split(" at: ").nth(1).and_then(|rest| rest.split(", polls: ").next());
        let tests = whole.split(" tests: ").nth(1).and_then(|rest| rest.split(", last_").next());
        let tests = tests.map(|tests| (tests.contains("Failed"), tests.contains("Skipped")));
        let station = (whole.contains("is_sealed: true"), whole.matches("Worker {").count());
        let key = format!("{sheet:?} {purpose:?} {tests:?} {station:?}");
        *known.entry(key).or_insert_with(|| {
            reached.push(Reached {
                sheet: day.sheet(),
                by_worker: Vec::new(),
                by_others: Vec::new(),
            });
            waiting.push_back(day);
            reached.len() - 1
        })
    };
    for day in begin {
        place_of(day, &mut reached, &mut waiting);
    }
    let mut at = 0;
    while let Some(day) = waiting.pop_front() {
        let sheet = day.sheet();
        let mut inputs: Vec<Input> = sheet
            .places()
            // Keys type what `Type` types, and a name of every length is no other screen.
            .filter(|place| !matches!(place, Place::Key(_)))
            .map(|place| Input::Press(Command::Pick(place)))
            .collect();
        if let Some(((columns, rows), _)) = sheet.grid {
            inputs.extend(
                (0..columns * rows).map(|cell| Input::Press(Command::Pick(Place::Key(cell)))),
            );
        }
        // A longer text, and another seal, lead to no other screen.
        if !is_long(&sheet) {
            inputs.push(Input::Type('7'));
        }
        let has_seal = sheet.lines.iter().any(|line| line.message == Message::SealsNoted);
        inputs.retain(|input| {
            let Input::Press(Command::Pick(Place::Row(row))) = input else { return true };
            let row = sheet.rows.get(usize::from(*row)).map(|line| line.message);
            !has_seal || row != Some(Message::SealsMore)
        });
        let own = inputs.len();
        inputs.extend(outside());
        for (number, input) in inputs.into_iter().enumerate() {
            let mut next = day.clone();
            next.handle(input);
            let place = place_of(next, &mut reached, &mut waiting);
            let ways = &mut reached[at];
            if number < own { &mut ways.by_worker } else { &mut ways.by_others }.push(place);
        }
        at += 1;
    }
    reached
}

/// How a day can begin: closed, open, suspended, cut; sealed or not; tested or not.
pub(crate) fn beginnings() -> Vec<Day> {
    let polls = [
        Polls::Closed,
        Polls::Open(Purpose::Test),
        Polls::Open(Purpose::Official),
        Polls::Suspended(Purpose::Official),
    ];
    let counts = Counts { paper_in: 7, ..Counts::default() };
    let two = |is_sealed, count: usize| Station {
        workers: station(true).workers[..count].to_vec(),
        ..station(is_sealed)
    };
    let mut all = Vec::new();
    for polls in polls {
        for is_visit_cut in [false, true] {
            let has_paper_out = is_visit_cut && polls == Polls::Open(Purpose::Test);
            let standing =
                Standing { polls, counts, is_visit_cut, has_paper_out, has_spoiled: is_visit_cut };
            all.push(Day::begin(two(true, 2), standing));
        }
    }
    let closed = Standing {
        polls: Polls::Closed,
        counts,
        is_visit_cut: false,
        has_paper_out: false,
        has_spoiled: false,
    };
    all.push(Day::begin(two(false, 2), closed));
    let made_as_test = Station { may_be_official: false, ..two(true, 3) };
    all.push(Day::begin(made_as_test, closed));
    // With nobody who could be the second.
    all.push(Day::begin(two(true, 1), closed));
    // Every step tested, with each of the ends that a step may have.
    all.extend(WHYS.map(|why| tested(two(true, 2), closed, Outcome::Failed(why))));
    all.push(tested(two(true, 2), closed, Outcome::Skipped(Why::NotSealed)));
    all.push(tested(two(true, 2), closed, Outcome::Passed));
    all
}

/// So many workers that they take two screens.
pub(crate) fn many_workers() -> Day {
    let standing = Standing {
        polls: Polls::Closed,
        counts: Counts::default(),
        is_visit_cut: false,
        has_paper_out: false,
        has_spoiled: false,
    };
    let mut day = Day::begin(station(true), standing);
    day.handle(Input::Press(Command::Pick(Place::Row(0))));
    day
}

/// A day on which every step that the station does by itself ended so, and the others passed.
fn tested(station: Station, standing: Standing, outcome: Outcome) -> Day {
    let mut day = Day::begin(station, standing);
    let pick = |place| Input::Press(Command::Pick(place));
    day.handle(pick(Place::Row(0)));
    day.handle(pick(Place::Row(0)));
    "777777".chars().for_each(|figure| {
        day.handle(Input::Type(figure));
    });
    day.handle(pick(Place::Forward));
    day.handle(Input::CodeChecked(Checked::Right));
    for _ in Step::ALL.into_iter().filter(|step| step.is_automatic()) {
        day.handle(Input::Tested(outcome));
    }
    day.handle(pick(Place::Row(0)));
    for cell in 0..2 {
        day.handle(pick(Place::Key(cell)));
    }
    day.handle(pick(Place::Row(0)));
    day.handle(pick(Place::Row(0)));
    // The two switches, then the two keys.
    for button in [0, 1, 0, 1] {
        day.handle(Input::Switch(Button(button)));
    }
    assert_eq!(day.sheet().heading.message, Message::TestDoneHeading);
    day
}
