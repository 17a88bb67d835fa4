//! Paper: putting in, taking out what is stuck.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::opening::counting;
use super::typing::number;
use super::{At, Day, Deed, Output};
use crate::{Line, Message, Place, Sheet, Tone};

impl Day {
    pub(super) fn paper() -> Sheet {
        let mut sheet = Sheet::blank(Message::PaperHeading);
        sheet.lines = vec![Line::new(Message::PaperJamDo), Line::new(Message::FaceDown)];
        sheet.rows = vec![Line::new(Message::PaperAdd), Line::new(Message::PaperJamCleared)];
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }

    /// How many sheets were taken out: what had come out of a ballot before it was stuck, too. The
    /// ballot is printed anew as a whole.
    pub(super) fn jam_count(typed: &str) -> Sheet {
        let mut sheet = counting(Message::JamCountHeading, typed);
        sheet.lines.push(Line::new(Message::JamCountDo));
        sheet.lines.push(Line::new(Message::FaceDown));
        sheet
    }

    pub(super) fn take_paper(&mut self, place: Place) -> Vec<Output> {
        match (self.at.clone(), place) {
            (At::Paper, Place::Row(0)) => self.go(At::PaperCount { typed: String::new() }),
            (At::Paper, Place::Row(_)) => {
                self.go(At::JamCount { typed: String::new() });
            }
            (At::PaperCount { .. } | At::JamCount { .. }, Place::Row(_)) => return self.delete(),
            // None, where the paper that was stuck goes on.
            (At::JamCount { typed }, Place::Forward) => {
                if let Some(count) = number(&typed).and_then(|count| u16::try_from(count).ok()) {
                    self.has_counted |= self.has_visit && count > 0;
                    let done = if count > 0 { Message::PaperJamDone } else { Message::PaperAdded };
                    self.work_with(Tone::News, done);
                    return vec![Output::Record(Deed::JamCleared(count))];
                }
            }
            (At::PaperCount { typed }, Place::Forward) => {
                if let Some(count) = number(&typed).filter(|count| *count > 0) {
                    self.work_with(Tone::News, Message::PaperAdded);
                    return vec![Output::Record(Deed::PaperAdded(count))];
                }
            }
            (At::PaperCount { .. } | At::JamCount { .. }, _) => self.go(At::Paper),
            (_, _) => self.go(if self.has_visit { At::Entry } else { At::Home }),
        }
        Vec::new()
    }
}
