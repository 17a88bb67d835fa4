//! What a worker's day is about, as plain values that others bring: the place, the workers, the
//! voters' precincts, and what has been counted.

use alloc::string::String;
use alloc::vec::Vec;

/// What a worker may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// A poll worker.
    Worker,
    /// The lead poll worker: one of the two who open and close.
    Lead,
    /// A technician of the election office: sets up and tests, and doesn't open or close.
    Technician,
}

/// One who works here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Worker {
    /// As on the badge.
    pub name: String,
    /// What this worker may do.
    pub role: Role,
}

/// The houses of a street that a row stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Houses {
    /// The street.
    pub street: String,
    /// The first number.
    pub from: u32,
    /// The last number.
    pub to: u32,
    /// Which of them.
    pub side: Side,
}

/// Which numbers of a range are meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// All of them.
    Both,
    /// Odd numbers.
    Odd,
    /// Even numbers.
    Even,
}

impl Houses {
    fn holds(&self, number: u32) -> bool {
        let is_on_side = match self.side {
            Side::Both => true,
            Side::Odd => !number.is_multiple_of(2),
            Side::Even => number.is_multiple_of(2),
        };
        (self.from..=self.to).contains(&number) && is_on_side
    }
}

/// A row in which a worker finds a voter's ballot: a precinct with its party, or a part of a street.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What the worker reads.
    pub label: String,
    /// The ballot style, by its place in the election.
    pub style: u16,
    /// The houses, where it is a part of a street.
    pub houses: Option<Houses>,
}

impl Entry {
    /// True where each word that was typed begins a word of the label, or is a number of its houses.
    /// Of a part of a street one must be of the street's name, or nothing but numbers was typed:
    /// else a precinct's name would find all its streets. One number is a house, the others are the
    /// street's own.
    pub fn is_found_by(&self, typed: &str) -> bool {
        let Some(houses) = &self.houses else {
            return typed.split_whitespace().all(|typed| has_word(&self.label, typed));
        };
        let is_number = |typed: &str| typed.parse::<u32>().is_ok();
        let mut is_of_street = typed.split_whitespace().all(is_number);
        let mut has_house = false;
        typed.split_whitespace().enumerate().all(|(place, typed)| {
            if let Ok(number) = typed.parse::<u32>() {
                // One that doesn't stand first can be the street's own: "150 State Route 9". One
                // number at most is a house.
                let is_name = place > 0 && words(&houses.street).any(|word| word == typed);
                let is_house = !is_name && !has_house && houses.holds(number);
                has_house |= is_house;
                return is_name || is_house;
            }
            let is_name = has_word(&houses.street, typed);
            is_of_street |= is_name;
            is_name || has_word(&self.label, typed)
        }) && is_of_street
    }
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|letter: char| !letter.is_alphanumeric() && letter != '-')
}

/// True where a word of the text begins with these letters.
fn has_word(text: &str, with: &str) -> bool {
    words(text).any(|word| begins(word, with))
}

/// True where a word begins with these letters, in whatever case.
fn begins(word: &str, with: &str) -> bool {
    let mut letters = word.chars().flat_map(char::to_lowercase);
    with.chars().flat_map(char::to_lowercase).all(|letter| letters.next() == Some(letter))
}

/// The station and its election.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Station {
    /// The election's name.
    pub election: String,
    /// The election's day.
    pub date: String,
    /// The polling place.
    pub place: String,
    /// This station's number.
    pub number: String,
    /// True where officials have signed the election.
    pub is_sealed: bool,
    /// True where its ballots can count: it is sealed, and the office hasn't made it as a test.
    pub may_be_official: bool,
    /// Who works here.
    pub workers: Vec<Worker>,
    /// How voters' ballots are found.
    pub entries: Vec<Entry>,
    /// How many columns and rows of cells cover the screen in its test.
    pub touch_cells: (u16, u16),
    /// How many keys its test wants pressed.
    pub keys: u16,
}

/// Whether ballots count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// Ballots say "test".
    Test,
    /// Ballots count.
    Official,
}

/// The polls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Polls {
    /// Closed.
    Closed,
    /// Open.
    Open(Purpose),
    /// Open, and nobody votes for a while: a night, or a cut of power.
    Suspended(Purpose),
}

/// What was counted since polls were opened. Never by style.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Sheets that came out of the printer.
    pub sheets: u32,
    /// Ballots printed.
    pub ballots: u32,
    /// Ballots spoiled.
    pub spoiled: u32,
    /// Test sheets.
    pub test_sheets: u32,
    /// Times that paper jammed.
    pub jams: u32,
    /// Visits started.
    pub started: u32,
    /// Visits that a voter finished.
    pub finished: u32,
    /// Visits that a worker stopped.
    pub stopped: u32,
    /// Sheets that this station has printed in its life.
    pub lifetime: u32,
    /// Sheets of paper put in.
    pub paper_in: u32,
    /// Sheets that reports have taken of them.
    pub reports: u32,
}

/// How a station is found when its program starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    /// The polls.
    pub polls: Polls,
    /// What was counted.
    pub counts: Counts,
    /// True where power was lost while a voter was there.
    pub is_visit_cut: bool,
    /// True where that voter's ballot was counted as printed, and isn't spoiled.
    pub has_paper_out: bool,
    /// True where a ballot of that voter was spoiled.
    pub has_spoiled: bool,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_voters_row_is_found_by_words_and_house_numbers() {
        let street = "Mill Road".into();
        let houses = Some(Houses { street, from: 2, to: 98, side: Side::Even });
        let street =
            Entry { label: "Mill Road 2 to 98, even: Precinct 7".into(), style: 1, houses };
        for found in ["", "mill", "14 mi", "MILL ROAD 98", "prec mill"] {
            assert!(street.is_found_by(found), "{found}");
        }
        for other in ["mull", "15 mill", "100 mill", "ill", "prec", "14 prec", "99"] {
            assert!(!street.is_found_by(other), "{other}");
        }
        // A street whose name has a number of its own; the precinct's number is no house.
        let houses =
            Some(Houses { street: "State Route 9".into(), from: 100, to: 200, side: Side::Both });
        let street =
            Entry { label: "State Route 9 100–200: Precinct 7".into(), style: 1, houses };
        for found in ["150 state route 9", "state route 9", "route 9 150", "150 route"] {
            assert!(street.is_found_by(found), "{found}");
        }
        for other in ["9 state route", "9 route 9", "99 state route 9", "7 state", "state 7"] {
            assert!(!street.is_found_by(other), "{other}");
        }
        // One number is a house, and no other number may be one too.
        let houses = Houses { street: "County Road 20".into(), from: 1, to: 99, side: Side::Both };
        let label = "County Road 20 1–99: Precinct 7".into();
        let street = Entry { label, style: 1, houses: Some(houses) };
        assert!(street.is_found_by("12 county road 20") && street.is_found_by("county road 20"));
        assert!(!street.is_found_by("12 county road 14") && !street.is_found_by("12 14"));
        let precinct =
            Entry { label: "Precinct 101, Green Party (101-A)".into(), style: 0, houses: None };
        assert!(
            precinct.is_found_by("101 green")
                && precinct.is_found_by("101-a")
                && !precinct.is_found_by("102")
        );
    }
}
