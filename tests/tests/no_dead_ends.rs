//! No dead ends, by exhaustion: every state of a visit that two switches can lead to, for each kind of
//! contest. From each, print, help and the screens before the first contest can be reached, and every action on the screen
//! can be taken.
//!
//! Abstracted: which name is written (only whether it has no letter, one or more), the settings of
//! comfort (they move nothing but what is seen and heard; the walk over every screen and size is
//! another test), and what the presses at the practice question were like.

use evenhand_rules::{Contest, Millis};
use evenhand_tests::figures;
use evenhand_tests::pilot::towards;
use evenhand_tests::scanning::{Map, ROWS, at, kinds, letters, marks};
use evenhand_tests::stage::{Play, Rows, Stage};
use evenhand_visit::{Command, Input, ScreenKind, Switches, Target};

/// Far more than any contest of the demo has.
const STATES_MAX: usize = 60_000;
/// More than the longest round of a screen.
const PRESSES_MAX: usize = 80;

/// What tells two states apart, with names abstracted.
fn key(play: &Play) -> String {
    let view = &play.view;
    format!("{} {:?} {}", play.place(), marks(view), letters(view).min(2))
}

/// The screens that lead into settings and devices are looked at, and not gone through: what is
/// behind them doesn't depend on the contest.
fn is_gone_through(play: &Play) -> bool {
    !matches!(
        play.view.screen,
        ScreenKind::Opening
            | ScreenKind::Comfort
            | ScreenKind::Languages
            | ScreenKind::Printing
            | ScreenKind::Ended
    )
}

fn explore(stage: &Stage, contest: &Contest) -> Map {
    let start = at(Play::begin(stage.begin_with(contest), Rows(ROWS)), ScreenKind::HowTo);
    Map::explore(start, STATES_MAX, key, is_gone_through)
}

/// The states from which a screen of this kind can't be reached.
fn without(map: &Map, screen: ScreenKind) -> Vec<String> {
    let reaches = map.can_reach(|play| play.view.screen == screen);
    let left = map.nodes.iter().zip(reaches).filter(|(node, reaches)| {
        // Behind these lies what isn't gone through.
        !reaches && is_gone_through(&node.play)
    });
    left.map(|(node, _)| key(&node.play)).collect()
}

/// What can't be taken on this screen by two switches.
fn out_of_reach(play: &Play) -> Vec<String> {
    let mut lost = Vec::new();
    for target in play.view.targets() {
        let mut here = play.clone();
        let screen = here.view.screen;
        let mut presses = 0;
        while here.view.focus != Some(target) && presses < PRESSES_MAX {
            match towards(&here.view, target) {
                Ok(command) => here.press(command),
                Err(_) => break,
            }
            presses += 1;
            if here.view.screen != screen {
                break;
            }
        }
        if here.view.focus != Some(target) || here.view.screen != screen {
            lost.push(format!("{target:?} on {screen:?}"));
        }
    }
    lost
}

#[test]
fn every_kind_of_contest_has_a_way_out() {
    let stage = Stage::demo();
    let mut counts = Vec::new();
    for (kind, contest) in kinds(&stage) {
        let map = explore(&stage, &contest);
        for screen in [ScreenKind::Printing, ScreenKind::Help, ScreenKind::Practice] {
            let stuck = without(&map, screen);
            assert!(
                stuck.is_empty(),
                "{kind}: {} of {} states don't lead to {screen:?}, such as {}",
                stuck.len(),
                map.nodes.len(),
                stuck[0]
            );
        }
        let mut seen = std::collections::BTreeSet::new();
        for node in &map.nodes {
            // The same screen with the focus elsewhere offers the same.
            let view = &node.play.view;
            let screen = format!("{:?} {:?} {:?}", view.screen, marks(view), view.targets());
            if seen.insert(screen) {
                let lost = out_of_reach(&node.play);
                assert!(lost.is_empty(), "{kind}: can't be taken: {}", lost.join(", "));
            }
        }
        counts.push(format!("{kind} {}", map.nodes.len()));
    }
    assert!(counts.len() >= 8, "{counts:?}");
    figures::note("states without a dead end, by two switches", &counts.join(", "));
}

#[test]
fn one_switch_gets_everywhere_too() {
    // The station moves, the switch takes: a tick is a step.
    let stage = Stage::demo();
    let contest = &kinds(&stage)[0].1;
    let mut begin = stage.begin_with(contest);
    begin.pressing.switches = Switches::One;
    let mut play = Play::begin(begin, Rows(ROWS));
    let mut waited = 0;
    while play.view.screen != ScreenKind::Printing && waited < 2_000 {
        // Words end, the wait is over, and the focus has moved.
        play.now = play.now.after(Millis(5_000));
        play.give(Input::SpeechEnded);
        let is_asked = matches!(play.view.screen, ScreenKind::Opening | ScreenKind::AskPrint);
        let wanted = if is_asked { Target::Row(0) } else { Target::Forward };
        if play.view.focus == Some(wanted) {
            play.press(Command::Step);
        } else {
            play.now = play.now.after(play.view.comfort.pressing.scan_time());
            play.give(Input::Tick);
        }
        waited += 1;
    }
    assert_eq!(play.view.screen, ScreenKind::Printing, "after {waited} steps");
}

#[test]
fn the_search_would_find_a_dead_end() {
    // A map in which one state leads only to itself.
    let stage = Stage::demo();
    let mut map = explore(&stage, &kinds(&stage)[0].1);
    let place = map
        .nodes
        .iter()
        .position(|node| node.play.view.screen == ScreenKind::Review)
        .expect("there is a review");
    map.nodes[place].next = [place, place];
    assert!(!without(&map, ScreenKind::Printing).is_empty());
}
