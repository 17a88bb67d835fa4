//! Paper: putting in, taking out what is stuck.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

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

    pub(super) fn take_paper(&mut self, place: Place) -> Vec<Output> {
        match (self.at.clone(), place) {
            (At::Paper, Place::Row(0)) => self.go(At::PaperCount { typed: String::new() }),
            (At::Paper, Place::Row(_)) => {
                self.work_with(Tone::News, Message::PaperJamDone);
                return vec![Output::Record(Deed::JamCleared)];
            }
            (At::PaperCount { .. }, Place::Row(_)) => return self.delete(),
            (At::PaperCount { typed }, Place::Forward) => {
                if let Some(count) = number(&typed).filter(|count| *count > 0) {
                    self.work_with(Tone::News, Message::PaperAdded);
                    return vec![Output::Record(Deed::PaperAdded(count))];
                }
            }
            (At::PaperCount { .. }, _) => self.go(At::Paper),
            (_, _) => self.go(if self.has_visit { At::Entry } else { At::Home }),
        }
        Vec::new()
    }
}
