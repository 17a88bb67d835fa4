//! What a definition holds for voters and this station doesn't show: a list for the office, so
//! that nothing is lost without a word.

use serde_json::Value;

use crate::error::{DefinitionError, Place};
use crate::lines::{Lines, Step};
use crate::load::parse;
use crate::object::short;

/// Classes and the fields of theirs that voters might be meant to see and don't.
const UNSHOWN: &[(&str, &[&str])] = &[
    ("Candidate", &["CampaignSlogan"]),
    ("BallotStyle", &["ImageUri", "Language"]),
    ("OrderedContest", &["Physical"]),
    ("BallotMeasureContest", MEASURE),
    ("RetentionContest", MEASURE),
];

/// What both kinds of questions may have.
const MEASURE: &[&str] = &["ConStatement", "InfoUri", "ProStatement"];

/// The fields of a definition that are meant for voters and are neither shown nor printed here, in
/// the file's order. `Language` of a style is among them: every style is offered in every language
/// of the election. `Physical` is, since the sheet is composed here and not taken over.
///
/// # Errors
/// [`DefinitionError`] where the bytes are no JSON within the limits; whether they are a sound
/// definition is for [`load`](crate::load) to say.
pub fn unshown(bytes: &[u8]) -> Result<Vec<Place>, DefinitionError> {
    let (value, lines) = parse(bytes)?;
    let mut found = Vec::new();
    collect(&value, &lines, &mut found);
    found.sort_by_key(|place| place.line);
    Ok(found)
}

fn collect(value: &Value, lines: &Lines, found: &mut Vec<Place>) {
    if let Some(items) = value.as_array() {
        for (item, lines) in items.iter().zip(lines.items()) {
            collect(item, lines, found);
        }
    }
    let Some(fields) = value.as_object() else { return };
    let text = |field: &str| fields.get(field).and_then(Value::as_str);
    let class = text("@type").and_then(|class| class.strip_prefix("BallotDefinition."));
    let unshown = UNSHOWN.iter().find(|(name, _)| Some(*name) == class);
    for (name, field) in fields {
        if let Some((class, _)) = unshown.filter(|(_, fields)| fields.contains(&name.as_str())) {
            found.push(Place {
                line: lines.along(&[Step::Field(name.clone())]),
                class: (*class).to_owned(),
                id: text("@id").or_else(|| text("ContestId")).map(short),
                field: Some(name.clone()),
            });
        } else if let Some(lines) = lines.field(name) {
            collect(field, lines, found);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_shown_is_listed_with_its_line() {
        let file = br#"{"Candidate": [
            {"@type": "BallotDefinition.Candidate", "@id": "c",
             "CampaignSlogan": {}, "BallotName": {}}]}"#;
        let said: Vec<String> = unshown(file).unwrap().iter().map(ToString::to_string).collect();
        assert_eq!(said, [r#"line 3, Candidate "c", field CampaignSlogan"#]);
    }
}
