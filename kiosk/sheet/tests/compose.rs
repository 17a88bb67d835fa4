//! Composed ballots: what must hold of any, and the cases that have their own rules.
#![expect(clippy::unwrap_used, reason = "a failed test panics")]

#[path = "support/checks.rs"]
#[expect(unreachable_pub, reason = "shared by path with other tests")]
mod checks;
#[path = "support/county.rs"]
#[expect(dead_code, unreachable_pub, reason = "each test uses a part of what they share")]
mod county;

use county::PlainWording;
use evenhand_rules::{
    ContestIndex, ContestKind, Election, Header, Item, Language, OptionIndex, Rule, Text,
};
use evenhand_sheet::{Ballot, BallotState, ComposeError, Edition, Payload, Side, compose};
use proptest::prelude::*;

fn composed(election: &Election, languages: &[Language]) -> Result<Ballot, ComposeError> {
    composed_as(election, languages, BallotState::Official)
}

fn composed_as(
    election: &Election,
    languages: &[Language],
    state: BallotState,
) -> Result<Ballot, ComposeError> {
    let edition = Edition { languages, wording: &PlainWording };
    let ballot = compose(election, &election.styles[0], 3, &edition, state)?;
    checks::check(&ballot, &election.styles[0]);
    Ok(ballot)
}

#[test]
fn eighteen_contests_stand_on_one_sheet() {
    let ballot = composed(&county::mixed(), &county::english()).unwrap();
    assert_eq!((ballot.sheet_count(), ballot.length.0), (1, 431_800));
}

#[test]
fn two_languages_need_more_room() {
    let ballot = composed(&county::mixed(), &county::both()).unwrap();
    assert_eq!(ballot.sheet_count(), 2);
}

#[test]
fn a_short_ballot_takes_the_shortest_paper() {
    let office = county::office("clerk", county::person("Clerk"), 3, 1, 1, true);
    let ballot = composed(&county::election(vec![Item::Contest(office)]), &county::english());
    let ballot = ballot.unwrap();
    assert_eq!((ballot.pages.len(), ballot.length.0), (1, 279_400));
    // The instructions have the first column alone, since that costs nothing.
    let middle = ballot.width.half();
    assert!(ballot.pages[0].ovals.iter().all(|oval| oval.area.x > middle));
    assert!(ballot.pages[0].samples.iter().all(|sample| sample.area.right() < middle));
}

#[test]
fn only_the_stamp_tells_a_test_ballot() {
    let election = county::mixed();
    let of = |state| composed_as(&election, &county::both(), state).unwrap();
    let official = of(BallotState::Official);
    for state in [BallotState::Test, BallotState::Demo] {
        let mut other = of(state);
        for (page, official) in other.pages.iter_mut().zip(&official.pages) {
            assert!(!page.stamp.texts.is_empty() && official.stamp.texts.is_empty());
            for text in &page.stamp.texts {
                let right = text.origin.x.plus(text.run.width);
                assert!(text.origin.x >= page.stamp.area.x && right <= page.stamp.area.right());
                assert!(text.origin.y <= page.stamp.area.bottom());
            }
            page.stamp.texts.clear();
        }
        assert_eq!(other, official);
    }
}

#[test]
fn the_code_says_election_style_sheet_and_side() {
    let ballot = composed(&county::mixed(), &county::both()).unwrap();
    for page in &ballot.pages {
        let columns = usize::from(page.code.columns);
        let bytes = datamatrix::DataMatrix::decode(&page.code.modules, columns).unwrap();
        let payload = Payload::decode(&bytes).unwrap();
        let election = [0x0e, 0x4b, 0xff, 0x00];
        assert_eq!(payload, Payload { election, style: 3, sheet: page.sheet, side: page.side });
        assert_eq!(page.code.origin.x, ballot.pages[0].code.origin.x);
        assert_eq!(page.code.origin.y, ballot.pages[0].code.origin.y);
    }
    assert_eq!(ballot.pages[1].side, Side::Back);
}

#[test]
fn many_ranks_take_the_whole_width() {
    let narrow = county::election(vec![Item::Contest(county::ranked("mayor", 5, 3))]);
    let wide = county::election(vec![Item::Contest(county::ranked("mayor", 5, 9))]);
    let columns = |election| {
        let ballot = composed(election, &county::english()).unwrap();
        let xs = ballot.pages[0].texts.iter().filter(|text| text.run.text == "Ines Ávila");
        xs.map(|text| text.origin.x.0).collect::<Vec<_>>()
    };
    assert!(columns(&narrow)[0] > 107_950, "beside the instructions");
    assert!(columns(&wide)[0] < 150_000);
}

#[test]
fn an_oval_stands_left_of_its_name() {
    let ballot = composed(&county::mixed(), &county::english()).unwrap();
    let page = &ballot.pages[0];
    let name = page.texts.iter().find(|text| text.run.text == "Augusta Ávila").unwrap();
    let capitals = name.run.size.0 * 334 / 1000;
    let middle = name.origin.y.0 - capitals;
    let beside = page.ovals.iter().filter(|oval| (oval.area.centre().y.0 - middle).abs() < 50);
    let right = beside.filter(|oval| oval.area.right() < name.origin.x).count();
    assert_eq!(right, 1);
}

#[test]
fn a_long_question_goes_on_under_a_repeated_title() {
    let election = county::election(vec![Item::Contest(county::measure("measure", 40))]);
    let ballot = composed(&election, &county::english()).unwrap();
    let titles = ballot.pages.iter().flat_map(|page| &page.texts);
    let again = titles.filter(|text| text.run.text.ends_with("(continued)")).count();
    assert!(again >= 1, "{} pages", ballot.pages.len());
    // Its answers are together, on the last page.
    let ovals = &ballot.pages.last().unwrap().ovals;
    assert_eq!(ovals.len(), 2);
}

/// A ballot that can't be composed, and the reason that the office must hear.
fn check_refused(election: &Election, languages: &[Language], expected: &ComposeError) {
    assert_eq!(&composed(election, languages).unwrap_err(), expected);
}

#[test]
fn what_cannot_stand_on_paper_is_named() {
    let office = |people| county::office("clerk", county::person("Clerk"), people, 1, 0, false);
    let one = |contest| county::election(vec![Item::Contest(contest)]);
    let english = county::english();
    let (contest, id) = (ContestIndex(0), String::from("clerk"));

    check_refused(&one(office(2)), &[], &ComposeError::Languages(0));

    let mut foreign = office(2);
    foreign.options[1].names = vec![county::person("กานต์")];
    let missing = evenhand_lettering::MissingCharacter {
        character: 'ก',
        face: evenhand_lettering::Face::BOLD,
    };
    let id_too = id.clone();
    let expected = ComposeError::ContestMissingCharacter { contest, id: id_too, missing };
    check_refused(&one(foreign), &english, &expected);

    let expected = ComposeError::RanksTooWide { contest, id: "mayor".into() };
    check_refused(&one(county::ranked("mayor", 3, 20)), &english, &expected);

    let mut long = office(2);
    long.options[1].names = vec![county::person(&"Maximiliana ".repeat(900))];
    let option = Some(OptionIndex(1));
    check_refused(&one(long), &english, &ComposeError::TooTall { contest, id, option });

    let items = (0..400).map(|_| Item::Contest(office(12))).collect();
    match composed(&county::election(items), &english) {
        Err(ComposeError::TooManySheets { needed, most: 6 }) => assert!(needed > 6),
        other => panic!("{:?}", other.map(|ballot| ballot.pages.len())),
    }

    let mut election = one(office(2));
    election.name = Text::new(vec![(Language::new("en"), "Wahl \u{13000}".into())]);
    let missing = evenhand_lettering::MissingCharacter {
        character: '\u{13000}',
        face: evenhand_lettering::Face::BOLD,
    };
    check_refused(&election, &english, &ComposeError::MissingCharacter(missing));
}

/// A contest of any kind that has its place on paper.
fn any_contest() -> impl Strategy<Value = evenhand_rules::Contest> {
    let words = prop::collection::vec("[A-ZÁÉÑa-záéíñü'.-]{1,24}", 1..7);
    (0..6u8, 1..30usize, 1..5u16, 0..4usize, any::<bool>(), words).prop_map(
        |(kind, people, max, lines, party, words)| {
            let title = county::name(&words.join(" "), &words.concat());
            match kind {
                0 => county::ranked("ranked", people.min(12), u8::try_from(max).unwrap()),
                1 => county::measure("measure", people.min(9)),
                2 => county::ticket("ticket"),
                3 => {
                    let rule = Rule::Choose { max: 1 };
                    let options = vec![county::answer(&words.join(" "), &words.concat())];
                    county::contest("question", title, ContestKind::Retention, rule, options)
                }
                _ => county::office("office", title, people, max, lines, party),
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 30, ..ProptestConfig::default() })]
    #[test]
    fn any_ballot_holds_the_rules(
        contests in prop::collection::vec((any_contest(), any::<bool>()), 1..24),
        two_languages in any::<bool>(),
    ) {
        let mut items = Vec::new();
        for (contest, has_header) in contests {
            if has_header {
                let name = county::name("County offices", "Cargos del condado");
                items.push(Item::Header(Header { content: Some(name.shown.clone()), name }));
            }
            items.push(Item::Contest(contest));
        }
        let languages = if two_languages { county::both() } else { county::english() };
        // `composed` checks every shape on every page.
        match composed(&county::election(items), &languages) {
            Ok(_) | Err(ComposeError::TooManySheets { .. }) => {}
            Err(error) => prop_assert!(false, "{error}"),
        }
    }
}
