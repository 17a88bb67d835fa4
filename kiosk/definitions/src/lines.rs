//! Which line of the file each value stands on. `serde_json` reads the values; this pass over the
//! same bytes only notes lines, counts, and refuses what `serde_json` would let through (a field
//! given twice, of which it keeps the last).
//!
//! Invariant: total on any bytes, and its depth and size are held by [`crate::limits`].

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use crate::limits::{NESTING_MAX, VALUES_MAX};

/// One value's line, counted from 1, and those of the values in it.
#[derive(Debug)]
pub(crate) struct Lines {
    /// The line that the value begins on.
    pub(crate) line: u32,
    kids: Kids,
}

#[derive(Debug)]
enum Kids {
    None,
    Items(Vec<Lines>),
    /// By name: a hostile file may have very many.
    Fields(BTreeMap<String, Field>),
}

#[derive(Debug)]
struct Field {
    line: u32,
    value: Lines,
}

/// A step from a value to one within it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Step {
    Field(String),
    Item(usize),
}

/// Why no lines were noted.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum ScanError {
    TooDeep { line: u32 },
    TooManyValues { line: u32 },
    RepeatedField { line: u32, field: String },
    Malformed { line: u32 },
}

impl Lines {
    /// The lines of a whole file.
    pub(crate) fn of(bytes: &[u8]) -> Result<Self, ScanError> {
        let mut scanner = Scanner { bytes, at: 0, line: 1, values: 0 };
        let lines = scanner.value(0)?;
        scanner.skip_space();
        if scanner.peek().is_some() { Err(scanner.malformed()) } else { Ok(lines) }
    }
    /// The lines of a field's value.
    pub(crate) fn field(&self, name: &str) -> Option<&Self> {
        self.entry(name).map(|field| &field.value)
    }
    /// The lines of an array's values.
    pub(crate) fn items(&self) -> &[Self] {
        match &self.kids {
            Kids::Items(items) => items,
            Kids::None | Kids::Fields(_) => &[],
        }
    }
    /// The line at the end of these steps, or of the last step that leads somewhere. A field's
    /// line is that of its name.
    pub(crate) fn along(&self, steps: &[Step]) -> u32 {
        let mut here = self;
        let mut line = self.line;
        for step in steps {
            let next = match step {
                Step::Field(name) => here.entry(name).map(|field| (field.line, &field.value)),
                Step::Item(index) => here.items().get(*index).map(|item| (item.line, item)),
            };
            let Some((next_line, next)) = next else { return line };
            line = next_line;
            here = next;
        }
        line
    }
    fn entry(&self, name: &str) -> Option<&Field> {
        match &self.kids {
            Kids::Fields(fields) => fields.get(name),
            Kids::None | Kids::Items(_) => None,
        }
    }
}

struct Scanner<'a> {
    bytes: &'a [u8],
    at: usize,
    line: u32,
    values: usize,
}

impl Scanner<'_> {
    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }
    fn next(&mut self) -> Option<u8> {
        let byte = self.peek()?;
        self.at = self.at.saturating_add(1);
        if byte == b'\n' {
            self.line = self.line.saturating_add(1);
        }
        Some(byte)
    }
    fn skip_space(&mut self) {
        while self.peek().is_some_and(|byte| matches!(byte, b' ' | b'\t' | b'\r' | b'\n')) {
            self.next();
        }
    }
    fn malformed(&self) -> ScanError {
        ScanError::Malformed { line: self.line }
    }
    fn expect(&mut self, byte: u8) -> Result<(), ScanError> {
        if self.peek() == Some(byte) {
            self.next();
            Ok(())
        } else {
            Err(self.malformed())
        }
    }

    fn value(&mut self, depth: usize) -> Result<Lines, ScanError> {
        self.skip_space();
        let line = self.line;
        if depth > NESTING_MAX {
            return Err(ScanError::TooDeep { line });
        }
        self.values = self.values.saturating_add(1);
        if self.values > VALUES_MAX {
            return Err(ScanError::TooManyValues { line });
        }
        let kids = match self.peek() {
            Some(b'{') => Kids::Fields(self.fields(depth)?),
            Some(b'[') => Kids::Items(self.items(depth)?),
            Some(b'"') => {
                self.string()?;
                Kids::None
            }
            Some(_) => {
                self.word()?;
                Kids::None
            }
            None => return Err(self.malformed()),
        };
        Ok(Lines { line, kids })
    }

    fn fields(&mut self, depth: usize) -> Result<BTreeMap<String, Field>, ScanError> {
        self.expect(b'{')?;
        let mut fields = BTreeMap::new();
        self.skip_space();
        if self.peek() == Some(b'}') {
            self.next();
            return Ok(fields);
        }
        loop {
            self.skip_space();
            let line = self.line;
            let name = self.string()?;
            let Entry::Vacant(place) = fields.entry(name.clone()) else {
                return Err(ScanError::RepeatedField { line, field: name });
            };
            self.skip_space();
            self.expect(b':')?;
            let value = self.value(depth.saturating_add(1))?;
            place.insert(Field { line, value });
            self.skip_space();
            match self.next() {
                Some(b',') => {}
                Some(b'}') => return Ok(fields),
                _ => return Err(self.malformed()),
            }
        }
    }

    fn items(&mut self, depth: usize) -> Result<Vec<Lines>, ScanError> {
        self.expect(b'[')?;
        let mut items = Vec::new();
        self.skip_space();
        if self.peek() == Some(b']') {
            self.next();
            return Ok(items);
        }
        loop {
            items.push(self.value(depth.saturating_add(1))?);
            self.skip_space();
            match self.next() {
                Some(b',') => {}
                Some(b']') => return Ok(items),
                _ => return Err(self.malformed()),
            }
        }
    }

    /// A string, with its escapes undone (a name could be spelled with them to hide a repetition).
    fn string(&mut self) -> Result<String, ScanError> {
        let start = self.at;
        self.expect(b'"')?;
        loop {
            match self.next() {
                Some(b'\\') => {
                    self.next();
                }
                Some(b'"') => break,
                Some(_) => {}
                None => return Err(self.malformed()),
            }
        }
        let raw = self.bytes.get(start..self.at).unwrap_or_default();
        serde_json::from_slice(raw).map_err(|_| self.malformed())
    }

    /// A number, `true`, `false` or `null`; `serde_json` judges its spelling.
    fn word(&mut self) -> Result<(), ScanError> {
        let start = self.at;
        while self.peek().is_some_and(|byte| byte.is_ascii_alphanumeric() || b"+-.".contains(&byte))
        {
            self.next();
        }
        if self.at == start { Err(self.malformed()) } else { Ok(()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_has_the_line_of_its_name() {
        let lines = Lines::of(b"\n{ \"a\" :\n [ 1,\n {\"b\": true} ] }").unwrap();
        assert_eq!(lines.line, 2);
        let steps = [Step::Field("a".into()), Step::Item(1), Step::Field("b".into())];
        assert_eq!(lines.along(&steps[..1]), 2);
        assert_eq!(lines.along(&steps), 4);
        assert_eq!(lines.along(&[Step::Field("none".into())]), 2);
    }

    #[test]
    fn a_repetition_can_not_hide_behind_an_escape() {
        let error = Lines::of(b"{\"a\": 1,\n \"\\u0061\": 2}").unwrap_err();
        assert_eq!(error, ScanError::RepeatedField { line: 2, field: "a".into() });
    }

    #[test]
    fn depth_and_number_are_held() {
        let deep = "[".repeat(100_000);
        assert_eq!(Lines::of(deep.as_bytes()).unwrap_err(), ScanError::TooDeep { line: 1 });
        let many = format!("[{}0]", "0,".repeat(VALUES_MAX));
        assert_eq!(Lines::of(many.as_bytes()).unwrap_err(), ScanError::TooManyValues { line: 1 });
    }
}
