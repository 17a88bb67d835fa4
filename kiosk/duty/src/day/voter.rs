//! The next voter: the ballot is found by precinct, party or street, and the voter's window opens.
//! What happens there comes back as [`VisitNews`]: never a choice. A worker comes in by a code, when
//! the window is hidden and silent; what a visit left behind is accounted for.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::log_in::Wanted;
use super::opening::counting;
use super::typing::{LETTERS, number};
use super::{Answer, At, Day, Deed, Output, PaperAt, Search, StopCause, Stopped, Task, VisitNews};
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
                (self.has_paper_out, self.has_counted) = (false, false);
                self.has_visit = true;
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
            VisitNews::Spoiled => (self.has_paper_out, self.has_counted) = (false, true),
            VisitNews::WorkerHere if self.at == At::Visit => {
                self.ask_who(Wanted { task: Task::Entry, first: None });
            }
            VisitNews::WorkerHere => {}
            VisitNews::Finished | VisitNews::Stopped | VisitNews::Died | VisitNews::NotOpened => {
                return self.visit_over(news);
            }
        }
        Vec::new()
    }

    /// The voter's window is gone.
    fn visit_over(&mut self, news: VisitNews) -> Vec<Output> {
        // Where the log can't be written nothing follows.
        if !core::mem::take(&mut self.has_visit) || matches!(self.at, At::Halted(_)) {
            return Vec::new();
        }
        match (news, self.at.clone()) {
            (VisitNews::Finished, _) => {
                self.has_paper_out = false;
                self.home_with(Tone::News, Message::VisitFinished);
                return vec![Output::Record(Deed::VisitFinished)];
            }
            (VisitNews::NotOpened, _) => {
                self.home_with(Tone::Fault, Message::VisitNotOpened);
                let cause = StopCause::NotOpened;
                return vec![Output::Record(Deed::VisitStopped(PaperAt::Nowhere, cause))];
            }
            // However it ended: a worker has stopped it, and says where the paper is.
            (_, At::Ending(cause)) => self.go(At::StopPaper(cause)),
            (_, _) => self.go(At::Search(Search::WindowDied)),
        }
        Vec::new()
    }

    /// What a worker can do in a visit: nothing of it is seen.
    pub(super) fn entry() -> Sheet {
        let mut sheet = Sheet::blank(Message::EntryHeading);
        sheet.lines = vec![Line::new(Message::EntryLine)];
        sheet.rows = vec![
            Line::new(Message::EntryGoOn),
            Line::new(Message::HomePaper),
            Line::new(Message::EntryStop),
        ];
        sheet
    }

    pub(super) fn take_entry(&mut self, place: Place) -> Vec<Output> {
        match place {
            Place::Row(0) => {
                self.go(At::Visit);
                return vec![Output::Record(Deed::VisitReturnedTo), Output::Answer(Answer::GoOn)];
            }
            Place::Row(1) => self.go(At::Paper),
            Place::Row(_) => self.go(At::StopCause),
            Place::Back | Place::Forward | Place::Key(_) => {}
        }
        Vec::new()
    }

    pub(super) fn stop_cause() -> Sheet {
        let mut sheet = Sheet::blank(Message::StopHeading);
        sheet.lines = vec![Line::new(Message::StopLine)];
        sheet.rows = vec![Line::new(Message::StopWish), Line::new(Message::StopLeft)];
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }

    pub(super) fn stop_paper(&self) -> Sheet {
        let mut sheet = Sheet::blank(Message::StopPaperHeading);
        sheet.lines = vec![
            Line::new(Message::StopGone),
            Line::new(Message::FaceDown),
            Line::new(Message::StopPaperSpoil),
        ];
        self.paper_rows(&mut sheet);
        sheet
    }

    pub(super) fn search(&self, search: Search) -> Sheet {
        let mut sheet = Sheet::blank(match search {
            Search::PowerLost => Message::SearchPowerHeading,
            Search::WindowDied => Message::SearchDiedHeading,
        });
        sheet.lines = vec![
            Line::new(Message::SearchDo),
            Line::new(Message::FaceDown),
            Line::new(Message::SearchAgain),
        ];
        self.paper_rows(&mut sheet);
        sheet
    }

    /// Where a sheet may lie, with a warning where one was printed.
    fn paper_rows(&self, sheet: &mut Sheet) {
        if self.has_paper_out {
            sheet.notice = Some((Tone::Caution, Line::new(Message::StopPaperOut)));
        }
        sheet.rows = vec![
            Line::new(Message::PaperNowhere),
            Line::new(Message::PaperTray),
            Line::new(Message::PaperReader),
        ];
    }

    pub(super) fn found_count(&self, typed: &str) -> Sheet {
        let mut sheet = counting(Message::FoundCountHeading, typed);
        if self.has_counted {
            sheet.lines.push(Line::new(Message::FoundCountOther));
        }
        sheet.lines.push(Line::new(Message::FaceDown));
        sheet
    }

    /// What a stopped or cut visit left behind is accounted for.
    pub(super) fn take_paper_left(&mut self, place: Place) -> Vec<Output> {
        match (self.at.clone(), place) {
            (At::StopCause, Place::Row(row)) => {
                let cause = if row == 0 { StopCause::VotersWish } else { StopCause::VoterLeft };
                self.go(At::Ending(cause));
                return vec![Output::Answer(Answer::Stop)];
            }
            (At::StopCause, _) => self.go(At::Entry),
            (At::StopPaper(cause), Place::Row(row)) => {
                return self.left(Stopped { cause, paper: paper_at(row), search: None });
            }
            // Whoever looked for it says who they are.
            (At::Search(search), Place::Row(row)) => {
                let task = Task::Account(search, paper_at(row));
                self.ask_who(Wanted { task, first: None });
            }
            (At::FoundCount { .. }, Place::Row(_)) => return self.delete(),
            (At::FoundCount { stopped, typed }, Place::Forward) => {
                let count = number(&typed).and_then(|count| u16::try_from(count).ok());
                match count {
                    // All that lies there is counted.
                    Some(0) if self.has_counted => return self.stopped(stopped, false),
                    Some(0) | None => {}
                    Some(count) => {
                        let mut out = vec![Output::Record(Deed::SheetsFound(count))];
                        out.extend(self.stopped(stopped, true));
                        return out;
                    }
                }
            }
            // It lies elsewhere, or nowhere.
            (At::FoundCount { stopped, .. }, Place::Back) => self.go(match stopped.search {
                Some(search) => At::Search(search),
                None => At::StopPaper(stopped.cause),
            }),
            (_, _) => {}
        }
        Vec::new()
    }

    /// A worker has said where the paper of a cut visit is.
    pub(super) fn account(&mut self, search: Search, paper: PaperAt) -> Vec<Output> {
        self.left(Stopped { cause: StopCause::Cut, paper, search: Some(search) })
    }

    /// Paper that nobody has counted is counted first.
    fn left(&mut self, stopped: Stopped) -> Vec<Output> {
        if stopped.paper != PaperAt::Nowhere && !self.has_paper_out {
            self.go(At::FoundCount { stopped, typed: String::new() });
            return Vec::new();
        }
        let is_spoiled = stopped.paper != PaperAt::Nowhere;
        self.stopped(stopped, is_spoiled)
    }

    /// A ballot that its voter didn't take is spoiled: nobody else may cast it.
    fn stopped(&mut self, stopped: Stopped, is_spoiled: bool) -> Vec<Output> {
        let Stopped { cause, paper, search } = stopped;
        let mut out = Vec::new();
        if is_spoiled {
            out.push(Output::Record(Deed::Spoiled));
        }
        out.push(Output::Record(Deed::VisitStopped(paper, cause)));
        // Whoever says where it is has put it into the envelope.
        if search.is_some() || paper != PaperAt::Nowhere {
            out.push(Output::Record(Deed::PaperAccounted));
        }
        self.has_paper_out = false;
        let message =
            if paper == PaperAt::Nowhere { Message::StopDone } else { Message::StopDoneSpoiled };
        self.home_with(Tone::News, message);
        out
    }
}

const fn paper_at(row: u16) -> PaperAt {
    match row {
        0 => PaperAt::Nowhere,
        1 => PaperAt::Tray,
        _ => PaperAt::Reader,
    }
}

/// A text as it is.
pub(super) fn plain(text: &str) -> Line {
    Line::new(Message::Plain).with("text", Arg::Text(text.into()))
}
