//! Closing the polls: the paper that is left, the seals, the reconciliation, the report and the
//! copies.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::opening::{counting, seals, seals_line};
use super::typing::number;
use super::{Day, Deed, Output, ReportKind};
use crate::station::{Counts, Polls};
use crate::{Arg, Line, Message, Place, Sheet, Tone};

/// Where closing stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum At {
    /// How many sheets are left?
    Left { typed: String },
    /// The seals' numbers.
    Seals { left: u32, typed: String, noted: Vec<String> },
    /// All of it once more.
    Confirm { left: u32, noted: Vec<String> },
    /// It is done: the report to be signed, the copies.
    Closed { left: u32 },
}

/// What paper and visits come to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reconciled {
    /// Sheets that are missing (above 0) or too many (below 0): put in, less printed (reports too), less left.
    pub sheets: i64,
    /// Visits that were started and neither finished nor stopped.
    pub visits: i64,
}

impl Reconciled {
    /// Of these counts, with so many sheets left in the printer.
    pub fn of(counts: Counts, left: u32) -> Self {
        let used = [counts.sheets, counts.test_sheets, counts.reports];
        let used = used.into_iter().map(i64::from).fold(0, i64::saturating_add);
        let sheets =
            i64::from(counts.paper_in).saturating_sub(used).saturating_sub(i64::from(left));
        let ended = i64::from(counts.finished).saturating_add(i64::from(counts.stopped));
        Self { sheets, visits: i64::from(counts.started).saturating_sub(ended) }
    }

    /// True where nothing is missing.
    pub const fn is_even(self) -> bool {
        self.sheets == 0 && self.visits == 0
    }

    /// How the paper comes out, in words.
    pub fn line(self) -> Line {
        let count = u32::try_from(self.sheets.unsigned_abs()).unwrap_or(u32::MAX);
        match self.sheets {
            0 => Line::new(Message::ReconcileEven),
            1.. => Line::new(Message::ReconcileMissing).with("count", Arg::Number(count)),
            _ => Line::new(Message::ReconcileOver).with("count", Arg::Number(count)),
        }
    }
}

impl Day {
    pub(super) fn closing(&self, at: &At) -> Sheet {
        match at {
            At::Left { typed } => {
                let mut sheet = counting(Message::CloseLeftHeading, typed);
                sheet.lines.insert(0, Line::new(Message::CloseLeftDo));
                sheet
            }
            At::Seals { typed, noted, .. } => seals(typed, noted),
            At::Confirm { left, noted } => self.confirm_closing(*left, noted),
            At::Closed { left } => self.closed(*left),
        }
    }

    fn confirm_closing(&self, left: u32, noted: &[String]) -> Sheet {
        let mut sheet = Sheet::blank(Message::CloseHeading);
        sheet.lines = self.counted();
        sheet.lines.push(Line::new(Message::CloseLeft).with("count", Arg::Number(left)));
        let reconciled = Reconciled::of(self.counts, left);
        if reconciled.is_even() {
            sheet.lines.push(reconciled.line());
        } else {
            sheet.notice = Some((Tone::Caution, reconciled.line()));
        }
        sheet.lines.push(seals_line(noted));
        sheet.back = Some(Line::new(Message::BarBack));
        sheet.forward = Some(Line::new(Message::CloseNow));
        sheet
    }

    fn closed(&self, left: u32) -> Sheet {
        let mut sheet = Sheet::blank(Message::ClosedHeading);
        sheet.lines = self.counted();
        sheet.lines.push(Reconciled::of(self.counts, left).line());
        sheet.lines.push(Line::new(Message::ClosedSign));
        sheet.rows = vec![Line::new(Message::ClosedPrintAgain), Line::new(Message::ClosedExport)];
        sheet.forward = Some(Line::new(Message::BarDone));
        sheet
    }

    pub(super) fn take_closing(&mut self, at: At, place: Place) -> Vec<Output> {
        let next = match (at, place) {
            (At::Left { .. } | At::Seals { .. }, Place::Row(0)) => return self.delete(),
            (At::Left { typed }, Place::Forward) => match number(&typed) {
                Some(left) => At::Seals { left, typed: String::new(), noted: Vec::new() },
                None => At::Left { typed },
            },
            (At::Seals { left, typed, mut noted }, Place::Row(_)) => {
                noted.push(typed);
                At::Seals { left, typed: String::new(), noted }
            }
            (At::Seals { left, typed, mut noted }, Place::Forward) => {
                noted.extend(Some(typed).filter(|typed| !typed.is_empty()));
                At::Confirm { left, noted }
            }
            (At::Seals { .. }, _) => At::Left { typed: String::new() },
            (At::Confirm { left, noted }, Place::Forward) => return self.close(left, noted),
            (At::Confirm { left, .. }, _) => {
                At::Seals { left, typed: String::new(), noted: Vec::new() }
            }
            (At::Closed { .. }, Place::Row(0)) => {
                return self.print_again(ReportKind::Closing);
            }
            (At::Closed { .. }, Place::Row(_)) => {
                return vec![Output::Record(Deed::Exported), Output::Export];
            }
            (At::Left { .. } | At::Closed { .. }, _) => {
                self.go(super::At::Home);
                return Vec::new();
            }
        };
        self.go(super::At::Closing(next));
        Vec::new()
    }

    fn close(&mut self, left: u32, noted: Vec<String>) -> Vec<Output> {
        self.polls = Polls::Closed;
        self.tests.clear();
        self.go(super::At::Closing(At::Closed { left }));
        // Seals are noted once polls are closed.
        let mut out = vec![Output::Record(Deed::Closed(left))];
        out.extend(noted.into_iter().map(|seal| Output::Record(Deed::SealNoted(seal))));
        out.push(self.print(ReportKind::Closing));
        out
    }
}
