//! Everything in the file that others refer to, by id.

use std::collections::BTreeMap;

use evenhand_rules::{Language, Name, Text};
use serde_json::Value;

use crate::classes::{Candidate, Headered, Named};
use crate::error::{DefinitionError, Fault, Place};
use crate::limits::{ID_LEN_MAX, NAME_LEN_MAX, SUMMARY_LEN_MAX, TITLE_LEN_MAX};
use crate::lines::{Lines, Step};
use crate::object::{Object, short};
use crate::words;

/// One person as an option shows them.
pub(crate) struct Person {
    pub(crate) name: Name,
    pub(crate) party: Option<Text>,
}

/// A header as voters see it.
#[derive(Clone, PartialEq, Eq)]
pub(crate) struct HeaderWords {
    pub(crate) name: Text,
    pub(crate) content: Option<Text>,
}

/// What options and styles refer to.
pub(crate) struct Book {
    /// The first language of the election's name.
    pub(crate) first: Language,
    /// Units; one without a name is there without a text.
    units: BTreeMap<String, Option<Text>>,
    parties: BTreeMap<String, Text>,
    headers: BTreeMap<String, HeaderWords>,
    candidates: BTreeMap<String, Person>,
}

impl Book {
    /// Reads the lists of the file and its election.
    pub(crate) fn new(
        root: Object<'_>,
        election: Object<'_>,
        first: Language,
    ) -> Result<Self, DefinitionError> {
        let mut book = Self {
            first,
            units: BTreeMap::new(),
            parties: BTreeMap::new(),
            headers: BTreeMap::new(),
            candidates: BTreeMap::new(),
        };
        for unit in root.list("GpUnit", &["ReportingUnit"])? {
            let name = book.name_of(unit, NAME_LEN_MAX)?;
            book.units.insert(unit.id().to_owned(), name);
        }
        for party in root.list("Party", &["Party", "Coalition"])? {
            if let Some(name) = book.name_of(party, NAME_LEN_MAX)? {
                book.parties.insert(party.id().to_owned(), name);
            }
        }
        for header in root.list("Header", &["Header"])? {
            if let Some(name) = book.name_of(header, TITLE_LEN_MAX)? {
                let Headered { headered_content } = header.read()?;
                let content = headered_content
                    .map(|text| {
                        let (field, first) = ("HeaderedContent", Some(&book.first));
                        words::text(header, field, &text, SUMMARY_LEN_MAX, first)
                    })
                    .transpose()?;
                book.headers.insert(header.id().to_owned(), HeaderWords { name, content });
            }
        }
        for candidate in election.list("Candidate", &["Candidate"])? {
            let person = book.person(candidate)?;
            book.candidates.insert(candidate.id().to_owned(), person);
        }
        Ok(book)
    }

    fn name_of(&self, object: Object<'_>, limit: usize) -> Result<Option<Text>, DefinitionError> {
        let Named { name } = object.read()?;
        name.map(|name| words::text(object, "Name", &name, limit, Some(&self.first))).transpose()
    }

    fn person(&self, object: Object<'_>) -> Result<Person, DefinitionError> {
        let read: Candidate = object.read()?;
        let shown =
            words::text(object, "BallotName", &read.ballot_name, NAME_LEN_MAX, Some(&self.first))?;
        let said = read
            .read_name
            .map(|said| words::untagged(object, "ReadName", &said, NAME_LEN_MAX, &self.first))
            .transpose()?;
        let party = read
            .party_id
            .map(|id| self.party(object, &[Step::Field("PartyId".into())], &id).cloned())
            .transpose()?;
        Ok(Person { name: Name { shown, said }, party })
    }

    /// The unit of this id, which may have no name.
    pub(crate) fn unit(
        &self,
        from: Object<'_>,
        steps: &[Step],
        id: &str,
    ) -> Result<Option<&Text>, DefinitionError> {
        found(&self.units, "ReportingUnit", from, steps, id).map(Option::as_ref)
    }
    /// The party of this id.
    pub(crate) fn party(
        &self,
        from: Object<'_>,
        steps: &[Step],
        id: &str,
    ) -> Result<&Text, DefinitionError> {
        found(&self.parties, "Party or Coalition", from, steps, id)
    }
    /// The parties in a list of ids.
    pub(crate) fn parties(
        &self,
        from: Object<'_>,
        field: &str,
        ids: &[String],
    ) -> Result<Vec<Text>, DefinitionError> {
        from.each_once(field, ids)?;
        ids.iter()
            .enumerate()
            .map(|(index, id)| self.party(from, &in_list(field, index), id).cloned())
            .collect()
    }
    /// The header of this id.
    pub(crate) fn header(
        &self,
        from: Object<'_>,
        steps: &[Step],
        id: &str,
    ) -> Result<&HeaderWords, DefinitionError> {
        found(&self.headers, "Header", from, steps, id)
    }
    /// The candidate of this id.
    pub(crate) fn candidate(
        &self,
        from: Object<'_>,
        steps: &[Step],
        id: &str,
    ) -> Result<&Person, DefinitionError> {
        found(&self.candidates, "Candidate", from, steps, id)
    }
}

/// The way to an entry of a list.
pub(crate) fn in_list(field: &str, index: usize) -> [Step; 2] {
    [Step::Field(field.to_owned()), Step::Item(index)]
}

/// The entry of this id, or an error where the reference stands.
pub(crate) fn found<'b, T>(
    map: &'b BTreeMap<String, T>,
    class: &'static str,
    from: Object<'_>,
    steps: &[Step],
    id: &str,
) -> Result<&'b T, DefinitionError> {
    map.get(id).ok_or_else(|| from.fault_at(steps, Fault::NoSuchObject { id: short(id), class }))
}

/// Checks that every `@id` of the file, in whatever class, can be used and is there once.
pub(crate) fn check_ids(value: &Value, lines: &Lines) -> Result<(), DefinitionError> {
    check_ids_under(value, lines, &mut BTreeMap::new())
}

fn check_ids_under<'a>(
    value: &'a Value,
    lines: &'a Lines,
    seen: &mut BTreeMap<&'a str, u32>,
) -> Result<(), DefinitionError> {
    if let Some(items) = value.as_array() {
        for (item, lines) in items.iter().zip(lines.items()) {
            check_ids_under(item, lines, seen)?;
        }
    }
    let Some(fields) = value.as_object() else { return Ok(()) };
    if let Some(id) = fields.get("@id") {
        let line = lines.along(&[Step::Field("@id".into())]);
        let at = |fault| {
            let class = fields.get("@type").and_then(Value::as_str).unwrap_or("object");
            let class = short(class.trim_start_matches("BallotDefinition."));
            let (id, field) = (id.as_str().map(short), Some("@id".to_owned()));
            let place = Place { line, class, id, field };
            DefinitionError::Object { place: Box::new(place), fault: Box::new(fault) }
        };
        let usable = |id: &&str| {
            let bad = |c: char| c.is_whitespace() || c.is_control();
            !id.is_empty() && id.len() <= ID_LEN_MAX && !id.contains(bad)
        };
        let id = id.as_str().filter(usable).ok_or_else(|| at(Fault::BadId))?;
        if let Some(first_line) = seen.insert(id, line) {
            return Err(at(Fault::RepeatedId { first_line }));
        }
    }
    for (name, field) in fields {
        if let Some(lines) = lines.field(name) {
            check_ids_under(field, lines, seen)?;
        }
    }
    Ok(())
}
