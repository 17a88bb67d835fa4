//! The options of a contest: people, tickets and write-in lines, parties, answers.

use evenhand_rules::{ContestOption, Name, OptionKind, Text};

use crate::book::{Book, in_list};
use crate::classes::{Answer, CandidateOption, PartyOption};
use crate::error::{DefinitionError, Fault};
use crate::limits::{CANDIDATES_AN_OPTION_MAX, NAME_LEN_MAX, PARTIES_AN_OPTION_MAX};
use crate::object::Object;
use crate::words;

/// Between several parties beside one name.
const BETWEEN_PARTIES: &str = ", ";

/// The class of option that a class of contest has here. The schema lets any contest hold any
/// option; its text says which belongs to which.
pub(crate) fn class_for(contest: &str) -> &'static str {
    match contest {
        "CandidateContest" => "CandidateOption",
        "ActivationContest" => "ActivationOption",
        "BallotMeasureContest" | "RetentionContest" => "BallotMeasureOption",
        _ => "PartyOption",
    }
}

/// One option, whatever its class.
pub(crate) fn option(object: Object<'_>, book: &Book) -> Result<ContestOption, DefinitionError> {
    match object.class() {
        "CandidateOption" => people(object, book),
        "PartyOption" => parties(object, book),
        _ => answer(object, book),
    }
}

/// Whether an option of an activation contest is one that lets the controlled contests count.
pub(crate) fn activates(object: Object<'_>) -> Result<bool, DefinitionError> {
    object.read::<Answer>().map(|answer| answer.causes_activation)
}

fn people(object: Object<'_>, book: &Book) -> Result<ContestOption, DefinitionError> {
    let read: CandidateOption = object.read()?;
    let field = "CandidateIds";
    object.hold(field, "candidates", read.candidate_ids.len(), CANDIDATES_AN_OPTION_MAX)?;
    object.each_once(field, &read.candidate_ids)?;
    let endorsed = "EndorsementPartyIds";
    let count = read.endorsement_party_ids.len();
    object.hold(endorsed, "parties", count, PARTIES_AN_OPTION_MAX)?;
    let endorsements = book.parties(object, endorsed, &read.endorsement_party_ids)?;

    let id = object.id().to_owned();
    if read.is_write_in {
        if !read.candidate_ids.is_empty() {
            return Err(object.fault(field, Fault::NamedWriteIn));
        }
        return Ok(ContestOption {
            id,
            kind: OptionKind::WriteIn,
            names: Vec::new(),
            detail: None,
        });
    }
    if read.candidate_ids.is_empty() {
        return Err(object.fault(field, Fault::NobodyNamed));
    }
    let mut names = Vec::new();
    let mut own_parties: Vec<Text> = Vec::new();
    for (index, id) in read.candidate_ids.iter().enumerate() {
        let person = book.candidate(object, &in_list(field, index), id)?;
        names.push(person.name.clone());
        own_parties.extend(
            person
                .party
                .iter()
                .filter(|party| !own_parties.contains(party))
                .cloned()
                .collect::<Vec<_>>(),
        );
    }
    // Where the option says for which parties it stands, the candidate's own registration would
    // mislead: one person may stand as several options, each for another party.
    let parties = if endorsements.is_empty() { own_parties } else { endorsements };
    let detail = (!parties.is_empty()).then(|| words::joined(&parties, BETWEEN_PARTIES));
    Ok(ContestOption { id, kind: OptionKind::Listed, names, detail })
}

fn parties(object: Object<'_>, book: &Book) -> Result<ContestOption, DefinitionError> {
    let read: PartyOption = object.read()?;
    let field = "PartyIds";
    object.hold(field, "parties", read.party_ids.len(), PARTIES_AN_OPTION_MAX)?;
    if read.party_ids.is_empty() {
        return Err(object.fault(field, Fault::NoParty));
    }
    let names = book.parties(object, field, &read.party_ids)?.into_iter().map(Name::plain);
    Ok(listed(object, names.collect()))
}

fn answer(object: Object<'_>, book: &Book) -> Result<ContestOption, DefinitionError> {
    let read: Answer = object.read()?;
    let words = words::text(object, "Selection", &read.selection, NAME_LEN_MAX, Some(&book.first))?;
    Ok(listed(object, vec![Name::plain(words)]))
}

fn listed(object: Object<'_>, names: Vec<Name>) -> ContestOption {
    ContestOption { id: object.id().to_owned(), kind: OptionKind::Listed, names, detail: None }
}
