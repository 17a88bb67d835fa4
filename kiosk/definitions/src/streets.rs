//! The streets of an election: `streets.csv` beside the definition, by which a worker finds a
//! voter's ballot from the number of the house. Where a precinct is split, its name isn't enough.
//!
//! Invariant: each row leads to a style that the definition has, and holds at least one house; no
//! house has two rows whose ballots are of one party, so that no address leads to two ballots but
//! where the voter has a party to choose.
//!
//! What it must not know: files, screens, voters. No name of a person has a place here.
//!
//! The file, a format of our own: comma-separated values (RFC 4180) in UTF-8, this line first.
//! ```csv
//! street,from,to,side,style
//! Heron Bend Road,1,399,odd,101-A
//! ```
//!
//! Start reading at [`Streets::read`].

use std::collections::BTreeMap;

use csv::{ReaderBuilder, StringRecord};
use evenhand_rules::{Election, Style};

use crate::error::Fault;
use crate::limits::{
    HOUSE_NUMBER_MAX, STREET_NAME_LEN_MAX, STREET_ROWS_MAX, STREETS_BYTES_MAX, STYLES_NAMED_MAX,
};
use crate::object::short;
use crate::words;

mod error;

pub use error::StreetsError;

/// The first line of the file, column by column.
const HEADER: [&str; 5] = ["street", "from", "to", "side", "style"];

/// The rows of the file in its order; none where there is no file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Streets {
    // Invariant: see above.
    rows: Vec<StreetRow>,
}

/// Houses of a street whose voters get one style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StreetRow {
    /// The line of the file, from 1.
    pub line: u64,
    /// The street, as the worker reads it.
    pub street: String,
    /// The first number, from 1.
    pub from: u32,
    /// The last number.
    pub to: u32,
    /// Which numbers between them.
    pub side: StreetSide,
    /// The style's code.
    pub code: String,
    /// The styles with this code, by their places in the election. None where the style was refused:
    /// its voters mark by hand.
    pub styles: Vec<u16>,
}

/// Which numbers of a row are meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StreetSide {
    /// All of them.
    All,
    /// The odd ones.
    Odd,
    /// The even ones.
    Even,
}

impl Streets {
    /// Reads the streets of this election.
    ///
    /// # Errors
    /// [`StreetsError`] with the line, what is wrong and what to do.
    pub fn read(bytes: &[u8], election: &Election) -> Result<Self, StreetsError> {
        let bytes = text_of(bytes)?;
        // Rows of another length are told by a sentence of ours, and so is the first line.
        let mut reader =
            ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes.as_bytes());
        let codes = Codes::of(election);
        let mut rows = Vec::new();
        let mut ballots: usize = 0;
        let mut has_header = false;
        for record in reader.records() {
            let record = record.map_err(|error| StreetsError::NotRead {
                line: error.position().map_or(0, csv::Position::line),
                reason: short(&error.to_string()),
            })?;
            let line = line_of(&bytes, &record);
            if !has_header {
                check_header(&record, line)?;
                has_header = true;
                continue;
            }
            let row = row(&record, line, &codes)?;
            ballots = ballots.saturating_add(row.styles.len().max(1));
            if ballots > STREET_ROWS_MAX {
                return Err(StreetsError::TooManyRows { line });
            }
            rows.push(row);
        }
        if rows.is_empty() {
            return Err(if has_header { StreetsError::NoRows } else { StreetsError::NoHeader });
        }
        hold_to_one_row_a_house(&rows, &codes)?;
        Ok(Self { rows })
    }

    /// The rows in the file's order.
    pub fn rows(&self) -> &[StreetRow] {
        &self.rows
    }

    /// How many streets there are, however their names' letters are cased.
    pub fn street_count(&self) -> usize {
        let mut names: Vec<String> =
            self.rows.iter().map(|row| row.street.to_lowercase()).collect();
        names.sort_unstable();
        names.dedup();
        names.len()
    }

    /// The styles that no row leads to, though there are streets.
    pub fn styles_without_streets<'e>(&self, election: &'e Election) -> Vec<&'e Style> {
        if self.rows.is_empty() {
            return Vec::new();
        }
        let mut is_led_to = vec![false; election.styles.len()];
        for style in self.rows.iter().flat_map(|row| &row.styles) {
            if let Some(is_led_to) = is_led_to.get_mut(usize::from(*style)) {
                *is_led_to = true;
            }
        }
        let styles = election.styles.iter().zip(is_led_to);
        styles.filter_map(|(style, is_led_to)| (!is_led_to).then_some(style)).collect()
    }
}

impl StreetRow {
    /// True where a house of this row has this number.
    pub fn holds(&self, number: u32) -> bool {
        let is_on_side = match self.side {
            StreetSide::All => true,
            StreetSide::Odd => !number.is_multiple_of(2),
            StreetSide::Even => number.is_multiple_of(2),
        };
        (self.from..=self.to).contains(&number) && is_on_side
    }

    /// The first and the last number that are really meant; none where there is no house.
    pub fn ends(&self) -> Option<(u32, u32)> {
        self.ends_on(self.side)
    }

    /// The first and the last number of a side.
    fn ends_on(&self, side: StreetSide) -> Option<(u32, u32)> {
        let rest = match side {
            StreetSide::All => return Some((self.from, self.to)),
            StreetSide::Odd => 1,
            StreetSide::Even => 0,
        };
        let first = self.from.saturating_add(u32::from(self.from % 2 != rest));
        let last = self.to.saturating_sub(u32::from(self.to % 2 != rest));
        (first <= last).then_some((first, last))
    }
}

impl StreetSide {
    /// As the file has it.
    pub fn id(self) -> &'static str {
        match self {
            Self::All => "all",
            Self::Odd => "odd",
            Self::Even => "even",
        }
    }

    fn of(id: &str) -> Option<Self> {
        [Self::All, Self::Odd, Self::Even].into_iter().find(|side| side.id() == id)
    }
}

/// The election's styles by their codes.
struct Codes<'e> {
    /// None where the style was refused.
    styles: BTreeMap<&'e str, Vec<u16>>,
    /// For each style the first one with the same party.
    party: Vec<usize>,
}

impl<'e> Codes<'e> {
    fn of(election: &'e Election) -> Self {
        let mut styles: BTreeMap<&str, Vec<u16>> = BTreeMap::new();
        for refused in &election.refused {
            styles.entry(&refused.style).or_default();
        }
        for (index, style) in (0u16..).zip(&election.styles) {
            styles.entry(&style.code).or_default().push(index);
        }
        let first = |style: &Style| {
            election.styles.iter().position(|other| other.party == style.party).unwrap_or_default()
        };
        Self { styles, party: election.styles.iter().map(first).collect() }
    }

    /// The parties of a row's ballots; of a refused style none is known, so it counts as one more.
    fn parties(&self, row: &StreetRow) -> Vec<Option<usize>> {
        if row.styles.is_empty() {
            return vec![None];
        }
        row.styles.iter().map(|style| self.party.get(usize::from(*style)).copied()).collect()
    }

    /// The codes for a sentence.
    fn there(&self) -> String {
        let mut there: Vec<&str> = self.styles.keys().take(STYLES_NAMED_MAX).copied().collect();
        if self.styles.len() > STYLES_NAMED_MAX {
            there.push("…");
        }
        there.join(", ")
    }
}

/// The file's text, held to its limit, without a byte order mark and with every quote closed.
fn text_of(bytes: &[u8]) -> Result<String, StreetsError> {
    if bytes.len() > STREETS_BYTES_MAX {
        return Err(StreetsError::FileTooLong { bytes: bytes.len() });
    }
    // A byte order mark says nothing in UTF-8, and spreadsheets write one.
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let sound = bytes.get(..error.valid_up_to()).unwrap_or_default();
        StreetsError::NotText { line: lines_before(sound).saturating_add(1) }
    })?;
    // The parser closes a quote at the file's end by itself, and what was swallowed would be lost.
    if !text.matches('"').count().is_multiple_of(2) {
        return Err(StreetsError::OpenQuote);
    }
    Ok(text.to_owned())
}

/// The line that a record begins on: the parser's own count stands before empty lines.
fn line_of(text: &str, record: &StringRecord) -> u64 {
    let Some(position) = record.position() else { return 0 };
    let start = usize::try_from(position.byte()).unwrap_or(usize::MAX);
    let rest = text.as_bytes().get(start..).unwrap_or_default();
    let empty = rest.iter().position(|byte| !matches!(byte, b'\n' | b'\r')).unwrap_or_default();
    position.line().saturating_add(lines_before(rest.get(..empty).unwrap_or_default()))
}

fn lines_before(bytes: &[u8]) -> u64 {
    let lines = bytes.split(|byte| *byte == b'\n').count().saturating_sub(1);
    u64::try_from(lines).unwrap_or(u64::MAX)
}

fn check_header(record: &StringRecord, line: u64) -> Result<(), StreetsError> {
    if record.iter().eq(HEADER) {
        return Ok(());
    }
    let found = short(&record.iter().collect::<Vec<_>>().join(","));
    Err(StreetsError::Header { line, found })
}

fn row(record: &StringRecord, line: u64, codes: &Codes<'_>) -> Result<StreetRow, StreetsError> {
    let fields: Vec<&str> = record.iter().take(HEADER.len().saturating_add(1)).collect();
    let &[street, from, to, side, code] = fields.as_slice() else {
        return Err(StreetsError::Fields { line, count: record.len() });
    };
    // A quote that was meant otherwise makes one field of several, or of several lines.
    if let Some(bad) = fields.iter().find(|field| field.contains(['"', '\n', '\r'])) {
        return Err(StreetsError::Quote { line, field: short(bad) });
    }
    let street = words::plain(street, STREET_NAME_LEN_MAX).map_err(|fault| {
        if fault == Fault::EmptyText {
            StreetsError::NoStreet { line }
        } else {
            StreetsError::Street { line, reason: fault.to_string() }
        }
    })?;
    let (from, to) = (number(from, "from", line)?, number(to, "to", line)?);
    if from > to {
        return Err(StreetsError::Backwards { line, from, to });
    }
    let side = StreetSide::of(side.trim())
        .ok_or_else(|| StreetsError::Side { line, found: short(side) })?;
    let code = code.trim();
    let Some(styles) = codes.styles.get(code) else {
        return Err(StreetsError::NoSuchStyle { line, code: short(code), there: codes.there() });
    };
    let (code, styles) = (code.to_owned(), styles.clone());
    let row = StreetRow { line, street, from, to, side, code, styles };
    if row.ends().is_none() {
        return Err(StreetsError::NoHouse { line, from, side: side.id() });
    }
    Ok(row)
}

fn number(given: &str, column: &'static str, line: u64) -> Result<u32, StreetsError> {
    let digits = given.trim();
    // `parse` would take a plus sign.
    let is_plain = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    let number = if is_plain { digits.parse::<u32>().ok() } else { None };
    let is_house = |number: &u32| (1..=HOUSE_NUMBER_MAX).contains(number);
    number.filter(is_house).ok_or_else(|| StreetsError::Number {
        line,
        column,
        found: short(given),
    })
}

/// Where the houses of two rows lie that could meet: street, side and party.
type Meeting<'r> = BTreeMap<(String, StreetSide, Option<usize>), Vec<(u32, u32, &'r StreetRow)>>;

/// No house has two rows of one party. Each side of a street is looked at by itself.
fn hold_to_one_row_a_house(rows: &[StreetRow], codes: &Codes<'_>) -> Result<(), StreetsError> {
    let mut meeting: Meeting<'_> = BTreeMap::new();
    for row in rows {
        let sides = match row.side {
            StreetSide::All => &[StreetSide::Odd, StreetSide::Even][..],
            StreetSide::Odd => &[StreetSide::Odd],
            StreetSide::Even => &[StreetSide::Even],
        };
        for side in sides {
            let Some((first, last)) = row.ends_on(*side) else { continue };
            for party in codes.parties(row) {
                let key = (row.street.to_lowercase(), *side, party);
                meeting.entry(key).or_default().push((first, last, row));
            }
        }
    }
    for houses in meeting.values_mut() {
        houses.sort_by_key(|(first, _, row)| (*first, row.line));
        // In this order two that meet anywhere meet their neighbor.
        for pair in houses.windows(2) {
            if let [(_, last, one), (first, _, other)] = pair
                && first <= last
            {
                return Err(StreetsError::of_two(one, other, *first));
            }
        }
    }
    Ok(())
}
