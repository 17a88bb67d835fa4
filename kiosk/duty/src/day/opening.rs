//! Opening the polls: for what, with how much paper, which seals, and once more before it counts.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::typing::{FIGURES, LETTERS, number};
use super::{Day, Deed, Output, ReportKind};
use crate::self_test::Outcome;
use crate::station::{Polls, Purpose};
use crate::{Arg, Line, Message, Place, Sheet, Tone};

/// The most seals that are noted at a time (own choice: a station has four or five doors).
const SEALS_MAX: usize = 8;

/// Where opening stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum At {
    /// A test, or the election itself?
    Purpose,
    /// How many sheets are in the printer?
    Paper { purpose: Purpose, typed: String },
    /// The seals' numbers.
    Seals { purpose: Purpose, paper: u32, typed: String, noted: Vec<String> },
    /// All of it once more.
    Confirm { purpose: Purpose, paper: u32, noted: Vec<String> },
}

impl Day {
    pub(super) fn opening(&self, at: &At) -> Sheet {
        let mut sheet = match at {
            At::Paper { typed, .. } => counting(Message::OpenPaperHeading, typed),
            At::Seals { typed, noted, .. } => seals(typed, noted),
            At::Confirm { purpose, paper, noted } => self.confirm_opening(*purpose, *paper, noted),
            At::Purpose => self.purpose(),
        };
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }

    fn purpose(&self) -> Sheet {
        let mut sheet = Sheet::blank(Message::PurposeHeading);
        sheet.rows = vec![Line::new(Message::PurposeTest)];
        let line = if !self.station.is_sealed {
            Message::PurposeNotSealed
        } else if self.station.may_be_official {
            sheet.rows.push(Line::new(Message::PurposeOfficial));
            Message::PurposeLine
        } else {
            Message::PurposeIsTest
        };
        sheet.lines = vec![Line::new(line)];
        sheet
    }

    fn confirm_opening(&self, purpose: Purpose, paper: u32, noted: &[String]) -> Sheet {
        let mut sheet = Sheet::blank(match purpose {
            Purpose::Test => Message::OpenTestHeading,
            Purpose::Official => Message::OpenOfficialHeading,
        });
        sheet.lines = vec![
            Line::new(Message::HomeElection)
                .with("election", Arg::Text(self.station.election.clone()))
                .with("date", Arg::Text(self.station.date.clone())),
            Line::new(Message::OpenPlace)
                .with("place", Arg::Text(self.station.place.clone()))
                .with("number", Arg::Text(self.station.number.clone())),
            Line::new(Message::OpenZero),
            Line::new(Message::OpenPaperLine).with("paper", Arg::Number(paper)),
            seals_line(noted),
        ];
        if !matches!(super::whole(&self.tests), Outcome::Passed) || self.tests.is_empty() {
            sheet.notice = Some((Tone::Caution, Line::new(Message::OpenNotTested)));
        }
        sheet.forward = Some(Line::new(Message::OpenNow));
        sheet
    }

    pub(super) fn take_opening(&mut self, at: At, place: Place) -> Vec<Output> {
        let next = match (at, place) {
            (At::Purpose, Place::Row(row)) => {
                let purpose = if row == 0 { Purpose::Test } else { Purpose::Official };
                At::Paper { purpose, typed: String::new() }
            }
            (At::Paper { .. } | At::Seals { .. }, Place::Row(0)) => return self.delete(),
            (At::Paper { purpose, typed }, Place::Forward) => match number(&typed) {
                Some(paper) => {
                    At::Seals { purpose, paper, typed: String::new(), noted: Vec::new() }
                }
                None => At::Paper { purpose, typed },
            },
            (At::Seals { purpose, paper, typed, mut noted }, Place::Row(_)) => {
                noted.push(typed);
                At::Seals { purpose, paper, typed: String::new(), noted }
            }
            (At::Seals { purpose, paper, typed, mut noted }, Place::Forward) => {
                noted.extend(Some(typed).filter(|typed| !typed.is_empty()));
                At::Confirm { purpose, paper, noted }
            }
            (At::Confirm { purpose, paper, noted }, Place::Forward) => {
                return self.open(purpose, paper, noted);
            }
            (At::Seals { purpose, .. }, _) => At::Paper { purpose, typed: String::new() },
            (At::Confirm { purpose, paper, .. }, _) => {
                At::Seals { purpose, paper, typed: String::new(), noted: Vec::new() }
            }
            (At::Paper { .. }, _) => At::Purpose,
            (At::Purpose, _) => {
                self.go(super::At::Home);
                return Vec::new();
            }
        };
        self.go(super::At::Opening(next));
        Vec::new()
    }

    fn open(&mut self, purpose: Purpose, paper: u32, noted: Vec<String>) -> Vec<Output> {
        self.polls = Polls::Open(purpose);
        self.has_paper_out = false;
        self.home_with(Tone::News, Message::OpenDone);
        // Seals are noted while polls are closed: then their times are in minutes.
        let mut out: Vec<Output> =
            noted.into_iter().map(|seal| Output::Record(Deed::SealNoted(seal))).collect();
        out.push(Output::Record(Deed::Opened(purpose, paper)));
        out.push(self.print(ReportKind::Opening));
        out
    }
}

/// A screen on which a count of sheets is typed.
pub(super) fn counting(heading: Message, typed: &str) -> Sheet {
    let mut sheet = Sheet::blank(heading);
    sheet.lines = vec![match number(typed) {
        Some(count) => Line::new(Message::TypedCount).with("count", Arg::Number(count)),
        None => Line::new(Message::TypedNothing),
    }];
    sheet.keys = FIGURES.chars().collect();
    sheet.rows = vec![Line::new(Message::TypeDelete)];
    sheet.back = Some(Line::new(Message::BarBack));
    sheet.forward = number(typed).map(|_| Line::new(Message::BarNext));
    sheet
}

/// The screen on which the seals' numbers are typed, one after the other.
pub(super) fn seals(typed: &str, noted: &[String]) -> Sheet {
    let mut sheet = Sheet::blank(Message::SealsHeading);
    sheet.lines = vec![
        if typed.is_empty() {
            Line::new(Message::TypedNothing)
        } else {
            Line::new(Message::TypedText).with("text", Arg::Text(typed.into()))
        },
        seals_line(noted),
    ];
    sheet.keys = LETTERS.trim_end().chars().collect();
    sheet.rows = vec![Line::new(Message::TypeDelete)];
    if !typed.is_empty() && noted.len() < SEALS_MAX {
        sheet.rows.push(Line::new(Message::SealsMore));
    }
    sheet.back = Some(Line::new(Message::BarBack));
    sheet.forward = Some(Line::new(Message::BarNext));
    sheet
}

/// The seals that are noted.
pub(super) fn seals_line(noted: &[String]) -> Line {
    if noted.is_empty() {
        Line::new(Message::SealsNone)
    } else {
        Line::new(Message::SealsNoted).with("seals", Arg::Text(noted.join(", ")))
    }
}
