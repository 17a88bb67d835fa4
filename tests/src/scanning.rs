//! What two switches cost, and where they lead: searched over the real state machine.
//!
//! Invariant: only `Step` and `Choose` are pressed, and only the `View` and the place are looked at.
//!
//! Start reading at [`Map::explore`].

use std::collections::BTreeMap;

use evenhand_rules::{Contest, ContestKind, Rule};
use evenhand_visit::{Command, RowKind, ScreenKind, View};

use crate::pilot::{Pilot, Plan, typed};
use crate::stage::{Play, Rows, Stage};

/// How many rows the small screen of these tests has: fewer than long contests need.
pub const ROWS: u16 = 8;

/// The two presses.
pub const PRESSES: [Command; 2] = [Command::Step, Command::Choose];

/// A state, and where each of the two presses leads from it.
#[derive(Clone, Debug)]
pub struct Node {
    /// The visit.
    pub play: Play,
    /// Where `Step` and `Choose` lead.
    pub next: [usize; 2],
}

/// All states that two switches can lead to from one.
#[derive(Clone, Debug)]
pub struct Map {
    /// The first is where it began.
    pub nodes: Vec<Node>,
}

impl Map {
    /// Explores from a visit. Where `is_within` says no, the state is kept and nothing is pressed: it
    /// leads to itself.
    ///
    /// # Panics
    /// There are more states than `most`.
    pub fn explore(
        start: Play,
        most: usize,
        key: impl Fn(&Play) -> String,
        is_within: impl Fn(&Play) -> bool,
    ) -> Self {
        let mut known = BTreeMap::from([(key(&start), 0)]);
        let mut nodes = vec![Node { play: start, next: [0, 0] }];
        let mut at = 0;
        while at < nodes.len() {
            assert!(
                nodes.len() <= most,
                "more than {most} states, such as {}",
                key(&nodes[at].play)
            );
            let here = nodes[at].play.clone();
            for (which, command) in PRESSES.into_iter().enumerate() {
                nodes[at].next[which] = if is_within(&here) {
                    let mut play = here.clone();
                    play.press(command);
                    let fresh = nodes.len();
                    let place = *known.entry(key(&play)).or_insert(fresh);
                    if place == fresh {
                        nodes.push(Node { play, next: [fresh, fresh] });
                    }
                    place
                } else {
                    at
                };
            }
            at += 1;
        }
        Self { nodes }
    }

    /// The fewest presses that lead from the start to a state like this.
    pub fn path(&self, is_goal: impl Fn(&Play) -> bool) -> Option<Vec<Command>> {
        let mut came: Vec<Option<(usize, Command)>> = vec![None; self.nodes.len()];
        let mut queue = std::collections::VecDeque::from([0]);
        while let Some(at) = queue.pop_front() {
            if is_goal(&self.nodes[at].play) {
                let back = std::iter::successors(came[at], |(before, _)| came[*before]);
                let mut path: Vec<Command> = back.map(|(_, command)| command).collect();
                path.reverse();
                return Some(path);
            }
            for (next, command) in self.nodes[at].next.into_iter().zip(PRESSES) {
                if next != 0 && came[next].is_none() {
                    came[next] = Some((at, command));
                    queue.push_back(next);
                }
            }
        }
        None
    }

    /// The expected presses from the start to a state like this, pressed as well as can be, where a
    /// share of all steps goes one item too far.
    pub fn expected(&self, overshoot: f64, is_goal: impl Fn(&Play) -> bool) -> f64 {
        let goals: Vec<bool> = self.nodes.iter().map(|node| is_goal(&node.play)).collect();
        // Costs settle from below (value iteration); where there is no way to the goal they have no end.
        let reaches = self.can_reach(&is_goal);
        let mut costs: Vec<f64> =
            reaches.iter().map(|reaches| if *reaches { 0.0 } else { f64::INFINITY }).collect();
        for _ in 0..10_000 {
            let before = costs.clone();
            for (at, node) in self.nodes.iter().enumerate() {
                if goals[at] || !reaches[at] {
                    continue;
                }
                let [step, choose] = node.next;
                let too_far = self.nodes[step].next[0];
                // A step that ends the search can't go too far.
                let slip = if goals[step] { before[step] } else { before[too_far] };
                let stepping = if overshoot == 0.0 {
                    before[step]
                } else {
                    (1.0 - overshoot) * before[step] + overshoot * slip
                };
                costs[at] = 1.0 + stepping.min(before[choose]);
            }
            let is_settled = |(now, before): (&f64, &f64)| now.is_infinite() || now - before < 1e-9;
            if costs.iter().zip(&before).all(is_settled) {
                break;
            }
        }
        costs[0]
    }

    /// For each state whether a state like this can be reached from it.
    pub fn can_reach(&self, is_goal: impl Fn(&Play) -> bool) -> Vec<bool> {
        let mut before: Vec<Vec<usize>> = vec![Vec::new(); self.nodes.len()];
        for (at, node) in self.nodes.iter().enumerate() {
            for next in node.next {
                before[next].push(at);
            }
        }
        let mut reaches = vec![false; self.nodes.len()];
        let goals = self.nodes.iter().enumerate().filter(|(_, node)| is_goal(&node.play));
        let mut queue: Vec<usize> = goals.map(|(at, _)| at).collect();
        while let Some(at) = queue.pop() {
            if !std::mem::replace(&mut reaches[at], true) {
                queue.extend(&before[at]);
            }
        }
        reaches
    }
}

/// What tells two states of one contest apart: where the voter is, what is marked on this screen and
/// what is written.
pub fn key(play: &Play) -> String {
    let view = &play.view;
    format!("{} {:?} {}", play.place(), marks(view), typed(view))
}

/// Which rows are marked, with their ranks.
pub fn marks(view: &View) -> Vec<(usize, u8)> {
    let marked = |kind: &RowKind| match kind {
        RowKind::Oval { filled: true } => Some(0),
        RowKind::Ranked { rank: Some(rank), .. } => Some(rank.0),
        _ => None,
    };
    let rows = view.rows.iter().enumerate();
    rows.filter_map(|(row, shown)| Some((row, marked(&shown.kind)?))).collect()
}

/// How many letters the name on the keyboard's screen has.
pub fn letters(view: &View) -> usize {
    typed(view).chars().count()
}

/// A visit at the first contest of a ballot that has this contest alone, come to by two switches.
pub fn at_contest(stage: &Stage, contest: &Contest) -> Play {
    at(Play::begin(stage.begin_with(contest), Rows(ROWS)), ScreenKind::Contest)
}

/// The visit where two switches have led to this screen.
///
/// # Panics
/// The screen isn't come to.
pub fn at(mut play: Play, screen: ScreenKind) -> Play {
    let mut pilot = Pilot::new(Plan::default());
    while play.view.screen != screen {
        let command = pilot.next(&play.view).expect("the visit leads there");
        play.press(command);
    }
    play
}

/// Whether the voter has gone on from the contest.
pub fn went_on(play: &Play) -> bool {
    play.view.screen == ScreenKind::Review
}

/// One contest of each kind that the demo has.
pub fn kinds(stage: &Stage) -> Vec<(String, Contest)> {
    let mut found: Vec<(String, Contest)> = Vec::new();
    for style in &stage.election.styles {
        for (_, contest) in style.contests() {
            let kind = match (contest.kind, contest.rule) {
                (_, Rule::Rank { .. }) => "ranked".to_owned(),
                (ContestKind::Office, Rule::Choose { .. }) if contest.is_approval => {
                    "approval".to_owned()
                }
                (ContestKind::Office, Rule::Choose { max: 1 }) if contest.options.len() > 12 => {
                    "a long list".to_owned()
                }
                (ContestKind::Office, Rule::Choose { max }) => format!("vote for {max}"),
                (kind, Rule::Choose { .. }) => format!("{kind:?}"),
            };
            if !found.iter().any(|(known, _)| *known == kind) {
                found.push((kind, contest.clone()));
            }
        }
    }
    found
}
