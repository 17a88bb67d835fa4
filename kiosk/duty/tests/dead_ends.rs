//! From every screen of a worker's day a way leads home or out, whatever comes from outside.

#![expect(clippy::print_stdout, reason = "a test says what it found")]

#[path = "support/explore.rs"]
mod explore;

use evenhand_duty::Message;
use explore::{Reached, beginnings, explore, many_workers};

/// The screens from which work goes on, or that end it.
const HOME: [Message; 4] = [
    Message::HomeClosedHeading,
    Message::HomeOpenHeading,
    Message::HomeSuspendedHeading,
    Message::HaltedHeading,
];

/// True where the station or a voter goes on, and the worker waits for that.
fn is_waiting(one: &Reached) -> bool {
    matches!(one.sheet.heading.message, Message::VisitHeading | Message::EndingHeading)
        || one
            .sheet
            .lines
            .iter()
            .any(|line| matches!(line.message, Message::TestRunning | Message::CodeChecking))
        || one.sheet.takes_switches
}

/// Which screens lead home, the station being stopped by a log that can't be written left out.
fn leads_home(reached: &[Reached]) -> Vec<bool> {
    let is_halted = |place: usize| reached[place].sheet.heading.message == Message::HaltedHeading;
    let mut leads: Vec<bool> =
        reached.iter().map(|one| HOME.contains(&one.sheet.heading.message)).collect();
    loop {
        let before = leads.iter().filter(|leads| **leads).count();
        for (place, one) in reached.iter().enumerate() {
            let others = one.by_others.iter().filter(|_| is_waiting(one));
            let mut ways = one.by_worker.iter().chain(others).filter(|next| !is_halted(**next));
            leads[place] = leads[place] || ways.any(|next| leads[*next]);
        }
        if leads.iter().filter(|leads| **leads).count() == before {
            return leads;
        }
    }
}

#[test]
fn every_screen_leads_home() {
    let begin = beginnings().into_iter().chain([many_workers()]);
    let mut reached = explore(begin.collect());
    let leads = leads_home(&reached);
    let dead: Vec<_> = reached
        .iter()
        .zip(&leads)
        .filter(|(_, leads)| !**leads)
        .map(|(one, _)| one.sheet.heading.message)
        .collect();
    assert!(dead.is_empty(), "{dead:?}");
    assert!(reached.len() > 200, "only {} screens were reached", reached.len());
    println!("{} screens of a worker's day lead home", reached.len());
    for one in &reached {
        assert!(is_waiting(one) || one.sheet.places().next().is_some(), "{:?}", one.sheet.heading);
    }
    // Without the ways out of one screen it is found.
    let stop = reached.iter().position(|one| one.sheet.heading.message == Message::StopHeading);
    let stop = stop.expect("a visit can be stopped");
    reached[stop].by_worker.clear();
    assert!(!leads_home(&reached)[stop]);
}
