//! A worker comes into a visit, at every step of many visits: from the press on, nothing of a choice
//! is shown or said, whatever the voter presses and the devices answer, until the station says that
//! the visit goes on; then it goes on where it was.
#![expect(
    clippy::print_stdout,
    clippy::wildcard_enum_match_arm,
    reason = "a test says what it did, and presses on every screen but three"
)]

use evenhand_rules::{Millis, OptionIndex, Selections, Style};
use evenhand_tests::chance::{Chance, selections};
use evenhand_tests::figures::note;
use evenhand_tests::journey::reading_of;
use evenhand_tests::pilot::{Mark, Pilot, Plan};
use evenhand_tests::stage::{Play, Rows, Stage};
use evenhand_visit::{
    Begin, Command, Event, Input, Message, Output, PressShape, PrintFault, ReadFault, ScreenKind,
    Target, View, WorkerSays,
};

/// What the station may hear while a worker is in.
const QUIET: [Event; 4] =
    [Event::BallotPrinted, Event::SpeechLost, Event::SpeechBack, Event::WorkerCalled];

fn attended(stage: &Stage, style: usize) -> Begin {
    Begin { is_attended: true, ..stage.begin(style, 1) }
}

/// A plan that makes these marks.
fn plan(style: &Style, wanted: &Selections) -> Plan {
    let contests = style.contests().map(|(contest, _)| {
        let mark = |option: OptionIndex| Mark {
            option: option.0,
            rank: wanted.rank_of(style, contest, option).map(|rank| rank.0),
            name: wanted.written(contest, option).map(|name| name.as_str().to_owned()),
        };
        wanted.marked(contest).map(mark).collect()
    });
    Plan { language: None, contests: Some(contests.collect()) }
}

/// Nothing that could tell a choice is shown or said.
fn is_quiet(play: &Play) -> bool {
    play.out.iter().all(|output| match output {
        Output::Show(view) => {
            let rows = view.rows.iter().all(|row| {
                matches!(row.label.message, Message::WorkerReturn | Message::WorkerHere)
                    && row.label.args.is_empty()
                    && row.state.is_none()
            });
            view.is_hidden && view.is_away && view.place.is_none() && view.notice.is_none() && rows
        }
        Output::Say(words) => {
            let said: Vec<_> = words.parts.iter().map(|part| part.phrase.message).collect();
            said == [Message::WorkerCame]
        }
        Output::Record(event) => QUIET.contains(event) || *event == Event::WorkerHere,
        Output::Hush | Output::WakeAt(_) | Output::ReadSheets | Output::SoundTone => true,
        Output::Listen(_) | Output::Print(_) | Output::End => false,
    })
}

/// A worker presses the key, the voter and the devices go on, and the visit is given back.
fn enters_and_leaves(play: &Play, chance: &mut Chance) {
    let before = (play.view.clone(), play.place());
    let mut play = play.clone();
    play.press(Command::Worker);
    let screen = before.0.screen;
    assert!(play.view.is_away && is_quiet(&play), "{screen:?}: {:?}", play.out);
    let told = play.out.iter().any(|out| matches!(out, Output::Record(Event::WorkerHere)));
    assert!(told, "{screen:?}: the station isn't told");
    let presses = [
        Command::Next,
        Command::Step,
        Command::Choose,
        Command::Back,
        Command::Forward,
        Command::Repeat,
        Command::HideScreen,
        Command::Help,
        Command::Comfort,
        Command::Louder,
        Command::Worker,
        Command::Pick(Target::Row(0)),
        Command::Pick(Target::Row(1)),
    ];
    for _ in 0..6 {
        let press = presses[chance.below(presses.len())];
        play.press(press);
        assert!(play.out.is_empty(), "{screen:?}: {press:?} is taken: {:?}", play.out);
    }
    let held = PressShape { held: Millis(90), gap: None };
    for input in [Input::SpeechEnded, Input::Tick, Input::Pressed(held), Input::Resized] {
        play.now = play.now.after(Millis(600_000));
        play.give(input);
        assert!(is_quiet(&play), "{screen:?}: {:?}", play.out);
    }
    let mut other = play.clone();
    play.give(Input::Worker(WorkerSays::GoOn));
    if screen == ScreenKind::MoreTime {
        // The question is answered by whoever came; under it lies the screen that it was asked on.
        assert!(play.view.screen != screen && !play.view.is_hidden, "{:?}", play.view.screen);
    } else if screen == ScreenKind::Listen {
        // What was paused is no more: the voter hears where they are.
        assert_eq!((play.view.screen, play.view.focus), (screen, before.0.focus));
    } else {
        // What the last press was answered with may be gone: it isn't said again.
        let notice = before.0.notice.clone().filter(|_| play.view.notice.is_some());
        let view = View { notice, ..before.0.clone() };
        assert_eq!((&play.view, play.place()), (&view, before.1), "it goes on where it was");
    }
    assert!(
        play.out.iter().any(|output| matches!(output, Output::Say(_) | Output::Hush)),
        "{screen:?}: the voter hears where they are"
    );
    // Without a code it stays hidden, and without an answer to somebody it does nothing.
    other.give(Input::Worker(WorkerSays::NotIn));
    assert!(other.view.is_hidden && !other.view.is_away, "{screen:?}");
    other.give(Input::Worker(WorkerSays::GoOn));
    assert!(other.out.is_empty() && other.view.is_hidden, "{screen:?}");
    // Stopped, it forgets and ends without a word.
    other.press(Command::Worker);
    other.give(Input::Worker(WorkerSays::Stop));
    let ends = other.out.iter().any(|output| matches!(output, Output::End));
    let stopped =
        other.out.iter().any(|output| matches!(output, Output::Record(Event::VisitStopped)));
    let speaks = |output: &Output| matches!(output, Output::Show(_) | Output::Say(_));
    assert!(ends && stopped && !other.out.iter().any(speaks), "{screen:?}: {:?}", other.out);
}

#[test]
fn a_worker_sees_and_hears_nothing_at_any_step_of_a_visit() {
    let stage = Stage::demo();
    let mut chance = Chance::new(4);
    let (mut entered, mut screens) = (0, std::collections::BTreeSet::new());
    for round in 0..12 {
        let index = round % stage.election.styles.len();
        let style = stage.style(index);
        let wanted = selections(&style, &mut chance);
        let mut pilot = Pilot::new(plan(&style, &wanted));
        let mut play = Play::begin(attended(&stage, index), Rows(5));
        let mut printed = None;
        for _ in 0..30_000 {
            let is_over = play.view.screen == ScreenKind::Ended;
            if !is_over && (chance.percent(8) || screens.insert(play.view.screen)) {
                enters_and_leaves(&play, &mut chance);
                entered += 1;
            }
            match play.view.screen {
                ScreenKind::Ended => break,
                ScreenKind::Printing => play.give(Input::Printed(Ok(()))),
                ScreenKind::ReadingPaper => {
                    let printed: &Selections = printed.as_ref().expect("it was printed");
                    play.give(Input::Read(Ok(reading_of(&style, printed))));
                }
                _ => match pilot.next(&play.view) {
                    Some(command) => play.press(command),
                    None => panic!("the pilot stands still: {:?}", pilot.fault()),
                },
            }
            printed = play.asked_to_print().or(printed);
        }
        assert_eq!(play.view.screen, ScreenKind::Ended, "the visit is played to its end");
    }
    assert!(entered > 300 && screens.len() > 12, "{entered} times on {screens:?}");
    let kinds = screens.len();
    println!("a worker came into a visit {entered} times, on {kinds} kinds of screens");
    note(
        "a worker came into a visit, nothing shown or said",
        &format!("{entered} times, on {kinds} kinds of screens"),
    );
}

/// What the devices answer, well or not, and what time does, in a visit that wanders.
fn from_outside(play: &mut Play, style: &Style, printed: Option<&Selections>, chance: &mut Chance) {
    match play.view.screen {
        ScreenKind::Printing => {
            let faults = [PrintFault::Jam, PrintFault::OutOfPaper, PrintFault::Offline];
            let fault = faults[chance.below(faults.len())];
            play.give(Input::Printed(if chance.percent(25) { Err(fault) } else { Ok(()) }));
        }
        ScreenKind::ReadingPaper => {
            let read = match printed.filter(|_| chance.percent(60)) {
                Some(printed) => Ok(reading_of(style, printed)),
                // Another's paper, or none.
                None if chance.percent(50) => Ok(reading_of(style, &selections(style, chance))),
                None => Err(ReadFault::NoSheet),
            };
            play.give(Input::Read(read));
        }
        _ if chance.percent(1) => {
            play.now = play.now.after(Millis(200_000));
            play.give(Input::SpeechEnded);
            play.give(Input::Tick);
        }
        _ => {
            let held = PressShape { held: Millis(40), gap: Some(Millis(60)) };
            play.give(Input::Pressed(held));
        }
    }
}

/// What a voter presses who wanders: mostly on, and each help and setting too.
fn wandering(play: &mut Play, chance: &mut Chance) {
    const RARE: [Command; 9] = [
        Command::Help,
        Command::Comfort,
        Command::Repeat,
        Command::HideScreen,
        Command::Back,
        Command::Step,
        Command::Previous,
        Command::Spell,
        Command::MoreBelow,
    ];
    let press = match chance.below(10) {
        0..3 => Command::Choose,
        3..6 => Command::Next,
        6..8 => Command::Forward,
        // By touch: then hiding the screen is asked about first.
        8 => Command::Pick(Target::Row(u16::try_from(chance.below(7)).unwrap_or(0))),
        _ => RARE[chance.below(RARE.len())],
    };
    play.press(press);
}

/// A visit that wanders comes to every kind of screen that a visit has, and a worker into each.
#[test]
fn a_worker_comes_into_every_kind_of_screen() {
    let stage = Stage::demo();
    let mut chance = Chance::new(11);
    let (mut entered, mut screens) = (0, std::collections::BTreeSet::new());
    for round in 0..400 {
        let index = round % stage.election.styles.len();
        let style = stage.style(index);
        let mut play = Play::begin(attended(&stage, index), Rows(5));
        let mut printed = None;
        for _ in 0..400 {
            let screen = play.view.screen;
            if screen == ScreenKind::Ended {
                break;
            }
            // Who called a worker, or left, is hidden already: that is a test of its own.
            let can_enter = screen != ScreenKind::Worker;
            if can_enter && (screens.insert(screen) || chance.percent(2)) {
                enters_and_leaves(&play, &mut chance);
                entered += 1;
            }
            let waits = matches!(screen, ScreenKind::Printing | ScreenKind::ReadingPaper);
            if waits || chance.percent(5) {
                from_outside(&mut play, &style, printed.as_ref(), &mut chance);
            } else if screen == ScreenKind::Worker && chance.percent(20) {
                play.press(Command::Worker);
                play.give(Input::Worker(WorkerSays::GoOn));
            } else {
                wandering(&mut play, &mut chance);
            }
            printed = play.asked_to_print().or(printed);
        }
    }
    println!("a worker came into a wandering visit {entered} times, on {screens:?}");
    // Of 35: an ended visit has no screen, ending by oneself is for demos without workers, and the
    // worker's own screen has the test below.
    assert_eq!(screens.len(), 32, "{screens:?}");
    note(
        "a worker came into a wandering visit, nothing shown or said",
        &format!("{entered} times, on {} kinds of screens", screens.len()),
    );
}

/// What is being printed and read goes on behind the worker's screen, and the visit with it.
#[test]
fn devices_go_on_while_a_worker_is_in() {
    let stage = Stage::demo();
    let style = stage.style(0);
    let answers: [(Input, Input, ScreenKind); 4] = [
        (
            Input::Printed(Ok(())),
            Input::Read(Ok(reading_of(&style, &Selections::none(&style)))),
            ScreenKind::CheckPaper,
        ),
        (Input::Printed(Err(PrintFault::Jam)), Input::SpeechLost, ScreenKind::PrintFault),
        (Input::Printed(Ok(())), Input::Read(Err(ReadFault::NoSheet)), ScreenKind::ReadFault),
        (Input::Printed(Err(PrintFault::OutOfPaper)), Input::SpeechBack, ScreenKind::PrintFault),
    ];
    for (first, second, then) in answers {
        let mut play = Play::begin(attended(&stage, 0), Rows(8));
        for _ in 0..200 {
            if play.view.screen == ScreenKind::Review {
                break;
            }
            let opening = matches!(play.view.screen, ScreenKind::Opening);
            play.press(if opening { Command::Choose } else { Command::Forward });
        }
        play.press(Command::Forward);
        play.press(Command::Choose);
        assert_eq!(play.view.screen, ScreenKind::Printing);
        play.press(Command::Worker);
        for input in [first, second] {
            play.give(input);
            let is_quiet = play.out.iter().all(|output| match output {
                Output::Show(view) => view.is_away,
                Output::Record(event) => {
                    QUIET.contains(event)
                        || matches!(event, Event::PrintFailed(_) | Event::ReadFailed(_))
                }
                Output::Say(_) | Output::Listen(_) | Output::Print(_) | Output::End => false,
                Output::Hush | Output::WakeAt(_) | Output::ReadSheets | Output::SoundTone => true,
            });
            assert!(is_quiet && play.view.is_away, "{:?}", play.out);
        }
        play.give(Input::Worker(WorkerSays::GoOn));
        assert_eq!(play.view.screen, then);
    }
}

/// Whoever called goes back by themselves; where nobody answered it takes a worker, and in a demo
/// without workers anybody goes on.
#[test]
fn after_a_long_silence_only_a_worker_goes_on() {
    let stage = Stage::demo();
    let rows = |play: &Play| -> Vec<Message> {
        play.view.rows.iter().map(|row| row.label.message).collect()
    };
    for (is_attended, shown) in
        [(true, &[Message::WorkerHere][..]), (false, &[Message::WorkerReturn, Message::WorkerEnd])]
    {
        let begin = Begin { is_attended, ..stage.begin(0, 1) };
        let mut play = Play::begin(begin, Rows(8));
        play.press(Command::Choose);
        for _ in 0..2 {
            play.give(Input::SpeechEnded);
            play.now = play.now.after(Millis(3_600_000));
            play.give(Input::Tick);
        }
        assert_eq!((play.view.screen, rows(&play)), (ScreenKind::Worker, shown.to_vec()));
    }
    let mut play = Play::begin(attended(&stage, 0), Rows(8));
    play.press(Command::Choose);
    let before = play.view.clone();
    play.press(Command::Help);
    play.press(Command::Pick(Target::Row(1)));
    assert_eq!(rows(&play), [Message::WorkerReturn, Message::WorkerHere]);
    play.press(Command::Pick(Target::Row(0)));
    assert_eq!(play.view.rows, before.rows);
    // Who called and left isn't gone back to by somebody else, nor where a question wasn't answered.
    play.press(Command::Help);
    play.press(Command::Pick(Target::Row(1)));
    play.give(Input::SpeechEnded);
    play.now = play.now.after(Millis(3_600_000));
    play.give(Input::Tick);
    assert_eq!(rows(&play), [Message::WorkerHere]);
    let mut play = Play::begin(attended(&stage, 0), Rows(8));
    play.press(Command::Choose);
    play.give(Input::SpeechEnded);
    play.now = play.now.after(Millis(3_600_000));
    play.give(Input::Tick);
    assert_eq!(play.view.screen, ScreenKind::MoreTime);
    play.press(Command::Worker);
    play.give(Input::Worker(WorkerSays::NotIn));
    assert_eq!(rows(&play), [Message::WorkerHere]);
}

/// What was refused last may name a letter of a written name: it isn't shown on the hidden screen.
#[test]
fn what_was_refused_is_hidden_too() {
    let stage = Stage::demo();
    for is_attended in [true, false] {
        let begin = Begin { is_attended, ..stage.begin(0, 1) };
        let mut play = Play::begin(begin, Rows(8));
        play.press(Command::Choose);
        play.press(Command::Spell);
        assert!(play.view.notice.is_some(), "there is nothing to spell");
        play.press(Command::Worker);
        assert!(play.view.is_hidden && play.view.notice.is_none());
        play.give(Input::Worker(WorkerSays::NotIn));
        assert!(play.view.is_hidden && play.view.notice.is_none());
    }
}
