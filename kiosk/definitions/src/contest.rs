//! A contest as the file has it, before a style orders its options.

use evenhand_rules::{Contest, ContestKind, Name, Rule, Text};

use crate::book::Book;
use crate::classes::{self, VoteVariation};
use crate::error::{DefinitionError, Fault};
use crate::limits::{
    FULL_TEXT_LEN_MAX, OPTIONS_A_CONTEST_MAX, RANKS_MAX, SUMMARY_LEN_MAX, TITLE_LEN_MAX,
    VOTES_ALLOWED_MAX,
};
use crate::lines::Step;
use crate::object::Object;
use crate::{options, words};

/// A contest, or why it can't be marked here.
pub(crate) struct Entry<'a> {
    /// Where it stands in the file.
    pub(crate) object: Object<'a>,
    /// The contest with its options in its own order and `affects` empty, or the reason that it
    /// can't be marked, in plain English.
    pub(crate) contest: Result<Contest, Unsupported>,
    /// The ids of the contests that it controls.
    pub(crate) controls: Vec<String>,
}

/// A contest that is sound and can't be marked here.
#[derive(Clone)]
pub(crate) struct Unsupported {
    /// Its name as the office knows it.
    pub(crate) contest: String,
    /// Why.
    pub(crate) reason: String,
}

/// Reads one contest. References to other contests are checked later, when all are known.
pub(crate) fn entry<'a>(object: Object<'a>, book: &Book) -> Result<Entry<'a>, DefinitionError> {
    let read: classes::Contest = object.read()?;
    book.unit(object, &[Step::Field("ElectionDistrictId".into())], &read.election_district_id)?;
    let title = title(object, &read, book)?;
    let option_class = options::class_for(object.class());
    let given =
        object.short_list("ContestOption", &[option_class], "options", OPTIONS_A_CONTEST_MAX)?;
    if given.is_empty() {
        return Err(object.fault("ContestOption", Fault::NoOptions));
    }
    let options =
        given.iter().map(|option| options::option(*option, book)).collect::<Result<Vec<_>, _>>()?;
    if object.class() == "ActivationContest" {
        let activating = given
            .iter()
            .map(|option| options::activates(*option))
            .collect::<Result<Vec<_>, _>>()?;
        if !activating.contains(&true) {
            return Err(object.fault("ContestOption", Fault::NothingActivates));
        }
    }
    let option_count = u16::try_from(options.len()).unwrap_or(u16::MAX);
    let ruled = rule(object, &read, option_count)?;
    let texts = texts(object, &read, book)?;
    let unsupported = |reason| Unsupported {
        contest: format!("{} ({})", title.in_language(&book.first), object.id()),
        reason,
    };
    let contest = kind_of(object.class()).and_then(|kind| Ok((kind, ruled?))).map_or_else(
        |reason| Err(unsupported(reason)),
        |(kind, rule)| {
            Ok(Contest {
                id: object.id().to_owned(),
                title: Name::plain(title.clone()),
                subtitle: texts.subtitle,
                kind,
                is_approval: read.vote_variation == Some(VoteVariation::Approval)
                    && rule == Rule::Choose { max: option_count },
                rule,
                summary: texts.summary,
                full_text: texts.full_text,
                affects: Vec::new(),
                options,
            })
        },
    );
    Ok(Entry { object, contest, controls: read.controlled_contest_ids })
}

fn title(
    object: Object<'_>,
    read: &classes::Contest,
    book: &Book,
) -> Result<Text, DefinitionError> {
    // `Name` is checked even where the title hides it: errors and refusals show it.
    let name = words::untagged(object, "Name", &read.name, TITLE_LEN_MAX, &book.first)?;
    match &read.ballot_title {
        Some(title) => words::text(object, "BallotTitle", title, TITLE_LEN_MAX, Some(&book.first)),
        None => Ok(name),
    }
}

struct Texts {
    subtitle: Option<Name>,
    summary: Option<Text>,
    full_text: Vec<Text>,
}

fn texts(
    object: Object<'_>,
    read: &classes::Contest,
    book: &Book,
) -> Result<Texts, DefinitionError> {
    let first = Some(&book.first);
    let officer = read
        .candidate_id
        .as_ref()
        .map(|id| book.candidate(object, &[Step::Field("CandidateId".into())], id))
        .transpose()?;
    let subtitle = read
        .ballot_sub_title
        .as_ref()
        .map(|text| words::text(object, "BallotSubTitle", text, TITLE_LEN_MAX, first))
        .transpose()?
        .map(Name::plain)
        // Who is to be kept or recalled must be seen: without a line of its own, the name is it.
        .or_else(|| officer.map(|person| person.name.clone()));
    let summary = read
        .summary_text
        .as_ref()
        .map(|text| words::text(object, "SummaryText", text, SUMMARY_LEN_MAX, first))
        .transpose()?;
    let mut full_text = Vec::new();
    // What it takes to pass and what an empty contest does are read with the text, after it.
    for (field, text) in [
        ("FullText", &read.full_text),
        ("PassageThreshold", &read.passage_threshold),
        ("EffectOfAbstain", &read.effect_of_abstain),
    ] {
        if let Some(text) = text {
            full_text.extend(words::paragraphs(object, field, text, FULL_TEXT_LEN_MAX, first)?);
        }
    }
    Ok(Texts { subtitle, summary, full_text })
}

fn kind_of(class: &str) -> Result<ContestKind, String> {
    match class {
        "CandidateContest" => Ok(ContestKind::Office),
        "BallotMeasureContest" => Ok(ContestKind::Measure),
        "RetentionContest" => Ok(ContestKind::Retention),
        "StraightPartyContest" => Ok(ContestKind::StraightParty),
        "ActivationContest" => Ok(ContestKind::Activation),
        "PartyPreferenceContest" => Err("it is a party preference contest, whose choice decides \
             which other contests count; this station can't mark one yet"
            .to_owned()),
        _ => Err("it is a vote for a party list; this station can't mark one yet".to_owned()),
    }
}

/// What may be marked: the inner error is a sound way of voting that can't be marked here, the
/// outer one a fault of the file.
fn rule(
    object: Object<'_>,
    read: &classes::Contest,
    options: u16,
) -> Result<Result<Rule, String>, DefinitionError> {
    let votes = in_range(object, "VotesAllowed", read.votes_allowed, VOTES_ALLOWED_MAX)?;
    let ranks = in_range(object, "RanksAllowed", read.ranks_allowed, u16::from(RANKS_MAX))?;
    let variation = read.vote_variation.unwrap_or(VoteVariation::NOfM);
    let is_office = object.class() == "CandidateContest";
    let no_ranks = || match ranks {
        Some(_) => Err(object.fault("RanksAllowed", Fault::RanksWithoutRanking)),
        None => Ok(()),
    };
    // More votes (or ranks) than there are options could never all be given: NIST allows it, and
    // here the limit is then the number of options, so that "how many are left" tells the truth.
    let choose = |max: u16| Ok(Rule::Choose { max: max.min(options) });
    let not_yet =
        |way: &str| Err(format!("it is counted by {way}; this station can't mark one yet"));
    Ok(match variation {
        VoteVariation::NOfM
        | VoteVariation::Plurality
        | VoteVariation::Majority
        | VoteVariation::SuperMajority => {
            no_ranks()?;
            choose(votes.unwrap_or(1))
        }
        VoteVariation::Approval => {
            no_ranks()?;
            if votes == Some(1) && options > 1 {
                return Err(object.fault("VotesAllowed", Fault::ApprovalOfOne));
            }
            choose(votes.unwrap_or(options))
        }
        // `VotesAllowed`, which the schema asks of every office, says nothing about ranks.
        VoteVariation::Rcv if is_office => {
            let ranks =
                ranks.ok_or_else(|| object.fault("RanksAllowed", Fault::NoRanks))?.min(options);
            Ok(Rule::Rank { ranks: u8::try_from(ranks).unwrap_or(RANKS_MAX) })
        }
        VoteVariation::Rcv => not_yet("ranked choice without candidates"),
        VoteVariation::Borda => not_yet("points for ranks (borda)"),
        VoteVariation::Cumulative => not_yet("several votes for one option (cumulative)"),
        VoteVariation::Proportional => not_yet("votes split over options (proportional)"),
        VoteVariation::Range => not_yet("a score for each option (range)"),
        VoteVariation::Other => {
            let other = read.other_vote_variation.as_deref().unwrap_or("not named");
            not_yet(&format!("another way ({})", crate::object::short(other)))
        }
    })
}

fn in_range(
    object: Object<'_>,
    field: &str,
    value: Option<i64>,
    most: u16,
) -> Result<Option<u16>, DefinitionError> {
    let Some(value) = value else { return Ok(None) };
    match u16::try_from(value) {
        Ok(number) if (1..=most).contains(&number) => Ok(Some(number)),
        _ => {
            let most = i64::from(most);
            Err(object.fault(field, Fault::OutOfRange { value, least: 1, most }))
        }
    }
}
