//! One object of the file with its class, its lines, and ways into it that name what is wrong.

use std::collections::BTreeSet;

use serde::Deserialize;
use serde_json::{Map, Value};
use serde_path_to_error::Segment;

use crate::classes::Class;
use crate::error::{DefinitionError, Fault, Place};
use crate::lines::{Lines, Step};

/// What stands before every class name in `@type`.
const PREFIX: &str = "BallotDefinition.";

/// An object whose class is known and whose fields are all ones that the class has.
///
/// Invariant: made by [`Object::new`] only, so required fields are there and none is null.
#[derive(Clone, Copy)]
pub(crate) struct Object<'a> {
    value: &'a Value,
    fields: &'a Map<String, Value>,
    lines: &'a Lines,
    class: &'static Class,
}

impl<'a> Object<'a> {
    /// The object in `value`, which must be of one of these classes.
    pub(crate) fn new(
        value: &'a Value,
        lines: &'a Lines,
        expected: &[&str],
    ) -> Result<Self, DefinitionError> {
        let at = |fault| nameless(value, lines.line, expected, fault);
        let fields =
            value.as_object().ok_or_else(|| at(Fault::NotAnObject { found: kind_of(value) }))?;
        let full = fields
            .get("@type")
            .and_then(Value::as_str)
            .ok_or_else(|| at(Fault::NoClass { expected: prefixed(expected) }))?;
        let class = full
            .strip_prefix(PREFIX)
            .filter(|name| expected.contains(name))
            .and_then(Class::named)
            .ok_or_else(|| {
                let found = short(full);
                at(Fault::WrongClass { found, expected: prefixed(expected) })
            })?;
        let object = Self { value, fields, lines, class };
        object.check_fields()?;
        Ok(object)
    }

    fn check_fields(self) -> Result<(), DefinitionError> {
        for (field, value) in self.fields {
            if field != "@type" && !self.class.has(field) {
                let class = self.class.name.to_owned();
                return Err(self.fault(&short(field), Fault::UnknownField { class }));
            }
            if value.is_null() {
                return Err(self.fault(field, Fault::Null));
            }
        }
        for field in self.class.required {
            if !self.fields.contains_key(*field) {
                let class = self.class.name.to_owned();
                return Err(self.fault(field, Fault::Missing { class }));
            }
        }
        Ok(())
    }

    /// The class, without `BallotDefinition.`.
    pub(crate) fn class(self) -> &'static str {
        self.class.name
    }
    /// The line that the object begins on.
    pub(crate) fn line(self) -> u32 {
        self.lines.line
    }
    /// The object's `@id`, or nothing for a class that has none.
    pub(crate) fn id(self) -> &'a str {
        self.text_field("@id").unwrap_or_default()
    }
    /// Whether the field is there and not an empty list.
    pub(crate) fn has(self, field: &str) -> bool {
        self.fields
            .get(field)
            .is_some_and(|value| value.as_array().is_none_or(|list| !list.is_empty()))
    }
    fn text_field(self, field: &str) -> Option<&'a str> {
        self.fields.get(field).and_then(Value::as_str)
    }

    /// The objects in a list, which may be absent.
    pub(crate) fn list(
        self,
        field: &str,
        expected: &[&str],
    ) -> Result<Vec<Object<'a>>, DefinitionError> {
        let (Some(value), Some(lines)) = (self.fields.get(field), self.lines.field(field)) else {
            return Ok(Vec::new());
        };
        let items = value
            .as_array()
            .ok_or_else(|| self.fault(field, Fault::NotAList { found: kind_of(value) }))?;
        items
            .iter()
            .zip(lines.items())
            .map(|(item, lines)| Object::new(item, lines, expected))
            .collect()
    }

    /// [`Self::list`] with a limit on its length.
    pub(crate) fn short_list(
        self,
        field: &str,
        expected: &[&str],
        what: &'static str,
        limit: usize,
    ) -> Result<Vec<Object<'a>>, DefinitionError> {
        let count = self.fields.get(field).and_then(Value::as_array).map_or(0, Vec::len);
        self.hold(field, what, count, limit)?;
        self.list(field, expected)
    }

    /// A fault where there are more than `limit`.
    pub(crate) fn hold(
        self,
        field: &str,
        what: &'static str,
        count: usize,
        limit: usize,
    ) -> Result<(), DefinitionError> {
        if count > limit {
            return Err(self.fault(field, Fault::TooMany { what, count, limit }));
        }
        Ok(())
    }

    /// The object's fields as a type of ours; an error names the field, however deep it is.
    pub(crate) fn read<T: Deserialize<'a>>(self) -> Result<T, DefinitionError> {
        serde_path_to_error::deserialize(self.value).map_err(|error| {
            let steps: Vec<Step> = error.path().iter().filter_map(step).collect();
            let reason = error.inner().to_string();
            let reason = reason.replace("i64", "a whole number").replace("variant", "value");
            let reason = short(&reason);
            self.fault_at(&steps, Fault::WrongType { reason })
        })
    }

    /// An error about a field.
    pub(crate) fn fault(self, field: &str, fault: Fault) -> DefinitionError {
        self.fault_at(&[Step::Field(field.to_owned())], fault)
    }
    /// An error about the whole object.
    pub(crate) fn fault_of(self, fault: Fault) -> DefinitionError {
        self.fault_at(&[], fault)
    }
    /// An error about something deeper in the object.
    pub(crate) fn fault_at(self, steps: &[Step], fault: Fault) -> DefinitionError {
        let place = Place {
            line: self.lines.along(steps),
            class: self.class.name.to_owned(),
            id: self.name().map(short),
            field: path_of(steps),
        };
        DefinitionError::Object { place: Box::new(place), fault: Box::new(fault) }
    }
    /// What tells this object from its like: its `@id`, else what the class has instead.
    fn name(self) -> Option<&'a str> {
        let code = || {
            let first = |field| self.fields.get(field).and_then(|list: &Value| list.get(0));
            let code = first("ExternalIdentifier").and_then(|code| code.get("Value"));
            code.or_else(|| first("GpUnitIds")).and_then(Value::as_str)
        };
        self.text_field("@id")
            .or_else(|| self.text_field("ContestId"))
            .or_else(|| self.text_field("HeaderId"))
            .or_else(|| (self.class.name == "BallotStyle").then(code).flatten())
    }

    /// Checks that a list of ids names nothing twice.
    pub(crate) fn each_once(self, field: &str, ids: &[String]) -> Result<(), DefinitionError> {
        let mut seen = BTreeSet::new();
        for (index, id) in ids.iter().enumerate() {
            if !seen.insert(id) {
                let steps = [Step::Field(field.to_owned()), Step::Item(index)];
                return Err(self.fault_at(&steps, Fault::Repeated { id: short(id) }));
            }
        }
        Ok(())
    }
}

/// A text from the file, cut so that an error message stays readable.
pub(crate) fn short(text: &str) -> String {
    let most = 240;
    let printable = |c: char| if c.is_control() { '\u{fffd}' } else { c };
    let mut cut: String = text.chars().take(most).map(printable).collect();
    if text.chars().count() > most {
        cut.push('…');
    }
    cut
}

/// An error about something that is no object of an expected class.
fn nameless(value: &Value, line: u32, expected: &[&str], fault: Fault) -> DefinitionError {
    // Of the many classes of contests the sentence says enough.
    let class = if expected.len() > 3 { "Contest".to_owned() } else { expected.join(" or ") };
    let id = value.get("@id").and_then(Value::as_str).map(short);
    let place = Place { line, class, id, field: value.is_object().then(|| "@type".to_owned()) };
    DefinitionError::Object { place: Box::new(place), fault: Box::new(fault) }
}

fn prefixed(classes: &[&str]) -> String {
    classes.iter().map(|class| format!("{PREFIX}{class}")).collect::<Vec<_>>().join(", ")
}

fn step(segment: &Segment) -> Option<Step> {
    match segment {
        Segment::Seq { index } => Some(Step::Item(*index)),
        Segment::Map { key } => Some(Step::Field(key.clone())),
        Segment::Enum { .. } | Segment::Unknown => None,
    }
}

fn path_of(steps: &[Step]) -> Option<String> {
    let mut path = String::new();
    for step in steps {
        match step {
            Step::Field(name) if path.is_empty() => path.push_str(name),
            Step::Field(name) => {
                path.push('.');
                path.push_str(name);
            }
            Step::Item(index) => path.extend(["[", &index.to_string(), "]"]),
        }
    }
    (!path.is_empty()).then_some(path)
}

fn kind_of(value: &Value) -> &'static str {
    match value {
        Value::Null => "null",
        Value::Bool(_) => "true or false",
        Value::Number(_) => "a number",
        Value::String(_) => "a text",
        Value::Array(_) => "a list",
        Value::Object(_) => "an object",
    }
}
