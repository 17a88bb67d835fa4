//! The next voter: the ballot is found by precinct, party or street, and the voter's window opens.
//! What happens there comes back as [`VisitNews`]: never a choice.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::log_in::Wanted;
use super::typing::LETTERS;
use super::{At, Day, Deed, Output, PaperAt, Search, StopCause, Task, VisitNews};
use crate::station::Entry;
use crate::{Arg, Line, Message, Place, Sheet, Tone};

/// Rows that are shown of those found (own choice: they fit on the smallest screen, two side by
/// side, with the keys).
const FOUND_MAX: usize = 4;

impl Day {
    fn found_by(&self, typed: &str) -> Vec<(u16, &Entry)> {
        let entries = (0u16..).zip(&self.station.entries);
        entries.filter(|(_, entry)| entry.is_found_by(typed)).collect()
    }

    pub(super) fn find(&self, typed: &str) -> Sheet {
        let mut sheet = Sheet::blank(Message::FindHeading);
        sheet.lines = vec![if typed.is_empty() {
            Line::new(Message::FindType)
        } else {
            Line::new(Message::TypedText).with("text", Arg::Text(typed.into()))
        }];
        let found = self.found_by(typed);
        let more = found.len().saturating_sub(FOUND_MAX);
        if found.is_empty() {
            sheet.lines.push(Line::new(Message::FindNothing));
        } else if more > 0 {
            let more = u32::try_from(more).unwrap_or(u32::MAX);
            sheet.lines.push(Line::new(Message::FindMore).with("count", Arg::Number(more)));
        }
        sheet.rows = found.iter().take(FOUND_MAX).map(|(_, entry)| plain(&entry.label)).collect();
        sheet.rows.push(Line::new(Message::TypeDelete));
        sheet.keys = LETTERS.chars().collect();
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }

    pub(super) fn found(&self, entry: u16) -> Sheet {
        let mut sheet = Sheet::blank(Message::FoundHeading);
        let label = self.station.entries.get(usize::from(entry)).map(|entry| plain(&entry.label));
        sheet.lines = label.into_iter().chain([Line::new(Message::FoundDo)]).collect();
        sheet.back = Some(Line::new(Message::BarBack));
        sheet.forward = Some(Line::new(Message::FoundStart));
        sheet
    }

    pub(super) fn take_voter(&mut self, place: Place) -> Vec<Output> {
        match (self.at.clone(), place) {
            (At::Find { typed }, Place::Row(row)) => {
                let found = self.found_by(&typed);
                let shown = found.len().min(FOUND_MAX);
                match found.get(usize::from(row)) {
                    Some((entry, _)) if usize::from(row) < shown => {
                        let entry = *entry;
                        self.go(At::Found { entry });
                        Vec::new()
                    }
                    _ => self.delete(),
                }
            }
            (At::Found { entry }, Place::Forward) => {
                let Some(style) =
                    self.station.entries.get(usize::from(entry)).map(|entry| entry.style)
                else {
                    return Vec::new();
                };
                self.has_paper_out = false;
                self.go(At::Visit);
                vec![Output::Record(Deed::VisitStarted), Output::StartVisit(style)]
            }
            (At::Found { .. }, _) => {
                self.go(At::Find { typed: String::new() });
                Vec::new()
            }
            (_, _) => {
                self.go(At::Home);
                Vec::new()
            }
        }
    }

    pub(super) fn visit_news(&mut self, news: VisitNews) -> Vec<Output> {
        match news {
            VisitNews::Printed => self.has_paper_out = true,
            VisitNews::Spoiled => self.has_paper_out = false,
            VisitNews::Finished if self.is_visit() => {
                self.has_paper_out = false;
                self.home_with(Tone::News, Message::VisitFinished);
                return vec![Output::Record(Deed::VisitFinished)];
            }
            // Whoever stopped it says why, and where the paper is.
            VisitNews::Stopped if self.is_visit() => {
                self.ask_who(Wanted { task: Task::Stopped, first: None });
            }
            VisitNews::Died if self.is_visit() => self.go(At::Search(Search::WindowDied)),
            VisitNews::NotOpened if self.is_visit() => {
                self.home_with(Tone::Fault, Message::VisitNotOpened);
                let cause = StopCause::VotersWish;
                return vec![Output::Record(Deed::VisitStopped(PaperAt::Nowhere, cause))];
            }
            VisitNews::Finished | VisitNews::Stopped | VisitNews::Died | VisitNews::NotOpened => {}
        }
        Vec::new()
    }

    pub(super) fn stop_cause() -> Sheet {
        let mut sheet = Sheet::blank(Message::StopHeading);
        sheet.lines = vec![Line::new(Message::StopLine)];
        sheet.rows = vec![Line::new(Message::StopWish), Line::new(Message::StopLeft)];
        sheet
    }

    pub(super) fn stop_paper(&self) -> Sheet {
        let mut sheet = Sheet::blank(Message::StopPaperHeading);
        sheet.lines = vec![Line::new(Message::FaceDown), Line::new(Message::StopPaperSpoil)];
        if self.has_paper_out {
            sheet.notice = Some((Tone::Caution, Line::new(Message::StopPaperOut)));
        }
        sheet.rows = vec![
            Line::new(Message::PaperNowhere),
            Line::new(Message::PaperTray),
            Line::new(Message::PaperReader),
        ];
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }

    pub(super) fn search(search: Search) -> Sheet {
        let mut sheet = Sheet::blank(match search {
            Search::PowerLost => Message::SearchPowerHeading,
            Search::WindowDied => Message::SearchDiedHeading,
        });
        sheet.lines = vec![
            Line::new(Message::SearchDo),
            Line::new(Message::FaceDown),
            Line::new(Message::SearchAgain),
        ];
        sheet.rows = vec![
            Line::new(Message::PaperNowhere),
            Line::new(Message::PaperTray),
            Line::new(Message::PaperReader),
        ];
        sheet
    }

    /// What a stopped or cut visit left behind is accounted for.
    pub(super) fn take_paper_left(&mut self, place: Place) -> Vec<Output> {
        match (self.at.clone(), place) {
            (At::StopCause, Place::Row(row)) => {
                let cause = if row == 0 { StopCause::VotersWish } else { StopCause::VoterLeft };
                self.go(At::StopPaper(cause));
                Vec::new()
            }
            (At::StopPaper(_), Place::Back) => {
                self.go(At::StopCause);
                Vec::new()
            }
            (At::StopPaper(cause), Place::Row(row)) => self.stopped(cause, row),
            (At::Search(_), Place::Row(row)) => {
                let mut out = self.stopped(StopCause::VoterLeft, row);
                out.push(Output::Record(Deed::PaperAccounted));
                out
            }
            (_, _) => Vec::new(),
        }
    }

    fn stopped(&mut self, cause: StopCause, row: u16) -> Vec<Output> {
        let paper = match row {
            0 => PaperAt::Nowhere,
            1 => PaperAt::Tray,
            _ => PaperAt::Reader,
        };
        let mut out = Vec::new();
        // A ballot that its voter didn't take is spoiled: nobody else may cast it.
        if paper != PaperAt::Nowhere {
            out.push(Output::Record(Deed::Spoiled));
        }
        out.push(Output::Record(Deed::VisitStopped(paper, cause)));
        self.has_paper_out = false;
        let message =
            if paper == PaperAt::Nowhere { Message::StopDone } else { Message::StopDoneSpoiled };
        self.home_with(Tone::News, message);
        out
    }
}

/// A text as it is.
pub(super) fn plain(text: &str) -> Line {
    Line::new(Message::Plain).with("text", Arg::Text(text.into()))
}
