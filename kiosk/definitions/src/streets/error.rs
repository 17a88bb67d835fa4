//! What can be wrong with the file of streets: the line, what it is, and what to do.

use thiserror::Error;

use super::{HEADER, StreetRow};
use crate::limits::{HOUSE_NUMBER_MAX, STREET_ROWS_MAX, STREETS_BYTES_MAX};
use crate::object::short;

/// Why bytes aren't the streets of an election.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum StreetsError {
    /// More bytes than the limit.
    #[error(
        "streets.csv has {bytes} bytes and the limit is {STREETS_BYTES_MAX}. Leave out the streets that no voter of these stations lives in."
    )]
    FileTooLong {
        /// The bytes given.
        bytes: usize,
    },
    /// Not UTF-8.
    #[error(
        "streets.csv, line {line}: the bytes here are not UTF-8 text. Save the file as CSV in UTF-8, and check this line's street."
    )]
    NotText {
        /// The line, from 1.
        line: u64,
    },
    /// The parser can't go on.
    #[error("streets.csv, line {line}: {reason}. Save the file as CSV again.")]
    NotRead {
        /// The line, from 1.
        line: u64,
        /// What the parser says.
        reason: String,
    },
    /// An odd number of quotes.
    #[error(
        "streets.csv: a field begins with a quote (\") that nothing closes, or a quote stands alone. Look for it, delete it or close it."
    )]
    OpenQuote,
    /// Nothing there.
    #[error("streets.csv is empty. Begin it with the line {}, or delete the file.", HEADER.join(","))]
    NoHeader,
    /// Another first line.
    #[error("streets.csv, line {line}: the first line is \"{found}\" and must be {}.", HEADER.join(","))]
    Header {
        /// The line, from 1.
        line: u64,
        /// What stands there.
        found: String,
    },
    /// The first line and nothing else.
    #[error("streets.csv holds no street. Add the streets, or delete the file.")]
    NoRows,
    /// More rows than the limit.
    #[error(
        "streets.csv, line {line}: the rows up to here lead to more than {STREET_ROWS_MAX} ballots. Leave out the streets that no voter of these stations lives in."
    )]
    TooManyRows {
        /// The first line too many, from 1.
        line: u64,
    },
    /// Too few fields, or too many.
    #[error(
        "streets.csv, line {line}: the row has {count} fields and must have {}: {}. Put quotes around a street with a comma in it.",
        HEADER.len(),
        HEADER.join(", ")
    )]
    Fields {
        /// The line, from 1.
        line: u64,
        /// How many there are.
        count: usize,
    },
    /// A quote or a new line within a field.
    #[error(
        "streets.csv, line {line}: the field \"{field}\" holds a quote (\") or goes on over the line's end. Delete the quote, or close it in its own line."
    )]
    Quote {
        /// The line where the row begins, from 1.
        line: u64,
        /// The field.
        field: String,
    },
    /// No street.
    #[error("streets.csv, line {line}: the street is empty. Write its name, or delete the row.")]
    NoStreet {
        /// The line, from 1.
        line: u64,
    },
    /// A street that can't be shown.
    #[error("streets.csv, line {line}: the street: {reason}")]
    Street {
        /// The line, from 1.
        line: u64,
        /// What is wrong, and what to do.
        reason: String,
    },
    /// Not a house's number.
    #[error(
        "streets.csv, line {line}: {column} is \"{found}\" and must be a number from 1 to {HOUSE_NUMBER_MAX}, in digits alone. Houses with letters go with their number: write 12 for 12A."
    )]
    Number {
        /// The line, from 1.
        line: u64,
        /// The column.
        column: &'static str,
        /// What stands there.
        found: String,
    },
    /// The last number before the first.
    #[error(
        "streets.csv, line {line}: from is {from} and to is {to}. Write the smaller one first."
    )]
    Backwards {
        /// The line, from 1.
        line: u64,
        /// The first number.
        from: u32,
        /// The last number.
        to: u32,
    },
    /// Another word for the side.
    #[error("streets.csv, line {line}: side is \"{found}\" and must be all, odd or even.")]
    Side {
        /// The line, from 1.
        line: u64,
        /// What stands there.
        found: String,
    },
    /// One number, and the other side.
    #[error(
        "streets.csv, line {line}: the only number is {from}, and side is {side}, so the row holds no house. Correct one of the two."
    )]
    NoHouse {
        /// The line, from 1.
        line: u64,
        /// The number.
        from: u32,
        /// The side.
        side: &'static str,
    },
    /// A style that the definition doesn't have.
    #[error(
        "streets.csv, line {line}: there is no style \"{code}\" in the definition. Choose one of: {there}."
    )]
    NoSuchStyle {
        /// The line, from 1.
        line: u64,
        /// The code given.
        code: String,
        /// The codes that there are.
        there: String,
    },
    /// One row twice.
    #[error("streets.csv, line {line}: the row is on line {first_line} already. Delete one.")]
    Repeated {
        /// The line, from 1.
        line: u64,
        /// Where the first one is.
        first_line: u64,
    },
    /// A house in two rows.
    #[error(
        "streets.csv, line {line}: {street} {number} leads to style {code} here and to style {first_code} on line {first_line}. Let each house be in one row."
    )]
    Overlap {
        /// The line, from 1.
        line: u64,
        /// Where the first one is.
        first_line: u64,
        /// The street.
        street: String,
        /// The first house that is in both.
        number: u32,
        /// The style's code.
        code: String,
        /// The code in the first one.
        first_code: String,
    },
}

impl StreetsError {
    /// Two rows with this house.
    pub(super) fn of_two(one: &StreetRow, other: &StreetRow, number: u32) -> Self {
        let (first, second) = if one.line <= other.line { (one, other) } else { (other, one) };
        let says = |row: &StreetRow| (row.from, row.to, row.side, row.code.clone());
        if says(first) == says(second) {
            return Self::Repeated { line: second.line, first_line: first.line };
        }
        Self::Overlap {
            line: second.line,
            first_line: first.line,
            street: short(&second.street),
            number,
            code: short(&second.code),
            first_code: short(&first.code),
        }
    }
}
