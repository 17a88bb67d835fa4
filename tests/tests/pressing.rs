//! What two switches cost, against the fewest presses that could do: searched over the state machine.
//!
//! The aim for one of k options, going on included, is our own: 1.25 times (k + 1) / 2 moves, one to
//! take it, one to go on (requirements table, section 6, two-switch model). It holds where one choice
//! is all that may be made; where more may be, going on lies behind the rest of the list.
#![expect(
    clippy::print_stdout,
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a test tells its figures, and stops where it can't go on"
)]

use evenhand_rules::{Contest, OptionKind, Rule};
use evenhand_tests::figures;
use evenhand_tests::records::nist_elections;
use evenhand_tests::scanning::{Map, at_contest, key, letters, marks, went_on};
use evenhand_tests::stage::{Play, Stage};
use evenhand_visit::ScreenKind;

/// How much more than the linear model may be needed.
const WITHIN: f64 = 1.25;
/// One step in so many goes too far.
const OVERSHOOT: f64 = 1.0 / 20.0;
/// A name of fifteen letters, the space counted.
const NAME: &str = "MARIANNE HOLLIS";
const PRESSES_A_LETTER_MAX: f64 = 5.5;

/// The linear model's presses for one of k options and going on.
fn model(k: f64) -> f64 {
    f64::midpoint(k, 1.0) + 1.0 + 1.0
}

/// Where more may be chosen, the rest of the list lies between the choice and going on: the whole
/// list once, one to take it, one to go on, and where people are ranked one to take the rank.
fn round_of_all(contest: &Contest) -> f64 {
    let rows = f64::from(u16::try_from(contest.options.len()).unwrap());
    rows + 2.0 + if matches!(contest.rule, Rule::Rank { .. }) { 1.0 } else { 0.0 }
}

/// No scheme of two switches needs fewer on average: each press tells one of two things, and the last
/// goes on.
fn bound(k: f64) -> f64 {
    k.log2() + 1.0
}

/// What is to be marked for one choice: the row, with rank 1 in ranked contests.
fn wanted(contest: &Contest, row: usize) -> Vec<(usize, u8)> {
    vec![(row, u8::from(matches!(contest.rule, Rule::Rank { .. })))]
}

/// The contest's screens while nothing else is marked than this row.
fn map_of(stage: &Stage, contest: &Contest, row: usize) -> Map {
    let wanted = wanted(contest, row);
    Map::explore(at_contest(stage, contest), 20_000, key, move |play| {
        let marked = marks(&play.view);
        let is_unmarked = marked.is_empty() || marked == wanted;
        play.view.screen == ScreenKind::RankPick
            || (play.view.screen == ScreenKind::Contest && is_unmarked)
    })
}

/// The presses for one option, from the contest's screen to the next: the best, and with overshoots.
fn cost(stage: &Stage, contest: &Contest, row: usize) -> (f64, f64) {
    let mut map = map_of(stage, contest, row);
    let wanted = wanted(contest, row);
    // From an unmarked contest one may go on too: such an end isn't a goal.
    for at in 0..map.nodes.len() {
        let [step, choose] = map.nodes[at].next;
        let is_marked = marks(&map.nodes[at].play.view) == wanted;
        if !is_marked && choose != at && went_on(&map.nodes[choose].play) {
            map.nodes[at].next = [step, at];
        }
    }
    let best = map.path(went_on).expect("each option can be chosen").len();
    (f64::from(u16::try_from(best).unwrap()), map.expected(OVERSHOOT, went_on))
}

/// The presses for a name, from its line in the contest to the next contest, and of them those for
/// the letters alone. Each letter is searched for itself: its presses don't depend on the others.
fn name_cost(stage: &Stage, contest: &Contest) -> (u32, u32) {
    let mut play = at_contest(stage, contest);
    let mut presses = 0;
    let go = |play: &mut Play, is_goal: &dyn Fn(&Play) -> bool| {
        let screen = play.view.screen;
        let start = letters(&play.view);
        let map = Map::explore(play.clone(), 20_000, key, |play| {
            play.view.screen == screen && letters(&play.view) == start
        });
        let path = map.path(is_goal).expect("it can be done");
        for command in &path {
            play.press(*command);
        }
        u32::try_from(path.len()).unwrap()
    };
    presses += go(&mut play, &|play| play.view.screen == ScreenKind::WriteIn);
    let mut for_letters = 0;
    for count in 1..=NAME.chars().count() {
        let so_far: String = NAME.chars().take(count).collect();
        for_letters += go(&mut play, &|play| evenhand_tests::pilot::typed(&play.view) == so_far);
    }
    presses += go(&mut play, &|play| play.view.screen == ScreenKind::Contest);
    presses += go(&mut play, &|play| play.view.screen == ScreenKind::Review);
    (presses + for_letters, for_letters)
}

/// The presses for the first, the median and the last option, and their mean, of a contest.
struct Costs {
    all: Vec<(f64, f64)>,
}

impl Costs {
    fn of(stage: &Stage, contest: &Contest) -> Self {
        let rows =
            contest.indexed_options().filter(|(_, option)| option.kind == OptionKind::Listed);
        Self { all: rows.map(|(row, _)| cost(stage, contest, usize::from(row.0))).collect() }
    }
    fn k(&self) -> f64 {
        f64::from(u16::try_from(self.all.len()).unwrap())
    }
    fn mean(&self) -> (f64, f64) {
        let sum = |each: fn(&(f64, f64)) -> f64| self.all.iter().map(each).sum::<f64>();
        (sum(|cost| cost.0) / self.k(), sum(|cost| cost.1) / self.k())
    }
    fn at(&self, place: usize) -> f64 {
        self.all[place.min(self.all.len() - 1)].0
    }
}

fn check(stage: &Stage, whose: &str) {
    let mut ballot = [0.0; 3];
    let mut bounds = 0.0;
    let mut worst: f64 = 0.0;
    let mut seen = Vec::new();
    for style in &stage.election.styles {
        for (_, contest) in style.contests() {
            if seen.contains(&contest.id) {
                continue;
            }
            seen.push(contest.id.clone());
            let costs = Costs::of(stage, contest);
            let (k, (mean, slipping)) = (costs.k(), costs.mean());
            let is_one = contest.limit() == 1;
            let modelled = if is_one { model(k) } else { round_of_all(contest) };
            let most = WITHIN * modelled;
            assert!(mean <= most, "{whose} {}: {mean:.2} presses, at most {most:.2}", contest.id);
            assert!(
                slipping <= most,
                "{whose} {}: {slipping:.2} presses with overshoots, at most {most:.2}",
                contest.id
            );
            assert!(mean + 1e-9 >= bound(k), "{mean} is below what is possible: {}", bound(k));
            worst = worst.max(slipping / modelled);
            for (sum, place) in
                ballot.iter_mut().zip([0, costs.all.len().div_ceil(2) - 1, usize::MAX])
            {
                *sum += costs.at(place);
            }
            bounds += bound(k);
            println!(
                "{whose} {}: k {k}, first {}, median {}, last {}, mean {mean:.2}, with overshoots {slipping:.2}; model {modelled:.2}, bound {:.2}",
                contest.id,
                costs.at(0),
                costs.at(costs.all.len().div_ceil(2) - 1),
                costs.at(usize::MAX),
                bound(k)
            );
        }
    }
    let [first, median, last] = ballot;
    let count = seen.len();
    figures::note(
        &format!("presses, {whose}"),
        &format!(
            "{count} contests voted in ballot order: {first} presses taking the first option of each, {median} the median, {last} the last; no two-switch scheme can do with fewer than {bounds:.0} on average; worst contest {worst:.2} times the linear model, overshoots counted"
        ),
    );
}

#[test]
fn the_demo_s_contests_cost_few_presses() {
    check(&Stage::demo(), "demo");
}

#[test]
fn nist_s_contests_cost_few_presses() {
    let Some(elections) = nist_elections("nist_s_contests_cost_few_presses") else { return };
    for files in elections {
        check(&Stage::from_definition(&files.definition), &files.name);
    }
}

#[test]
fn a_written_name_costs_few_presses_a_letter() {
    let stage = Stage::demo();
    let contest = stage.election.styles[0]
        .contests()
        .map(|(_, contest)| contest)
        .find(|contest| {
            contest.limit() == 1
                && contest.options.iter().any(|option| option.kind == OptionKind::WriteIn)
        })
        .expect("the demo has write-ins");
    let (all, for_letters) = name_cost(&stage, contest);
    let letters = f64::from(u16::try_from(NAME.len()).unwrap());
    let each = f64::from(for_letters) / letters;
    assert!(each < PRESSES_A_LETTER_MAX, "{each:.2} presses a letter");
    figures::note(
        "presses, a written name",
        &format!(
            "{NAME} ({letters} letters): {each:.2} presses a letter, {all} presses from the contest's screen to the next, its line and finishing counted"
        ),
    );
}

#[test]
fn a_slow_scheme_would_fail() {
    // A list without blocks or a short way on: i moves, one to take it, k - i + 1 to the end, one on.
    let linear = |k: f64| k + 2.0;
    assert!(linear(22.0) > WITHIN * model(22.0));
    assert!(linear(5.0) > WITHIN * model(5.0));
}
