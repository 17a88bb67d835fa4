//! The station's self-test: checks of devices that need no person, and what the checks need that a
//! person makes (the touch grid; the tone for one ear is `evenhand_speech::sound_ear`).
//!
//! Invariant: each check does what it says on the device itself and nothing is taken for granted: a
//! check that couldn't look doesn't pass. Why one didn't pass is one of a closed list, with figures
//! and no sentence; the words come from `locales/` by [`Why::name`]. None names a contest, an
//! option or an oval.
//!
//! What it must not know: screens, sentences, who is testing. Start reading at [`Outcome`].

pub mod clock;
pub mod paper;
pub mod storage;
pub mod touch;
pub mod voices;

use evenhand_speech::Fault;

/// How a check ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome<T> {
    /// All is as it should be, with the figures that were seen.
    Passed(T),
    /// It may be as it should: a person must say.
    Caution(Why),
    /// It isn't as it should be.
    Failed(Why),
    /// It wasn't looked at.
    Skipped(Why),
}

impl<T> From<Result<T, Why>> for Outcome<T> {
    fn from(result: Result<T, Why>) -> Self {
        match result {
            Ok(figures) => Self::Passed(figures),
            Err(why) => Self::Failed(why),
        }
    }
}

macro_rules! reasons {
    ($($(#[$doc:meta])* $variant:ident $({ $($(#[$field_doc:meta])* $field:ident: $of:ty),+ $(,)? })? => $name:literal,)+) => {
        /// Why a check didn't pass: a closed list.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Why {
            $($(#[$doc])* $variant $({ $($(#[$field_doc])* $field: $of),+ })?,)+
        }

        impl Why {
            /// Every name, in the order of the list.
            pub const NAMES: &[&str] = &[$($name),+];

            /// The name by which its words are looked up.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant { .. } => $name,)+ }
            }

            /// Its figures by name, for the words to hold.
            pub fn figures(self) -> Vec<(&'static str, i64)> {
                match self {
                    $(Self::$variant $({ $($field),+ })? => {
                        vec![$($((stringify!($field), i64::from($field))),+)?]
                    })+
                }
            }
        }
    };
}

reasons! {
    /// The printer has no paper.
    NoPaper => "no-paper",
    /// Paper is stuck.
    PaperJam => "paper-jam",
    /// The printer doesn't answer.
    PrinterOffline => "printer-offline",
    /// The test sheet couldn't be made: it isn't a test's, or its ovals aren't the style's.
    SheetNotMade => "sheet-not-made",
    /// The reader of sheets couldn't be made ready: a defect.
    ReaderNotReady => "reader-not-ready",
    /// The scanner gave no sheet, or not every side once.
    SheetMissing => "sheet-missing",
    /// The scanner doesn't answer, or isn't there.
    ScannerOffline => "scanner-offline",
    /// The scanner gave what isn't a picture that can be read.
    PictureUnusable => "picture-unusable",
    /// The sheet couldn't be found in the picture, or its code couldn't be read.
    SheetUnreadable => "sheet-unreadable",
    /// It is a sheet of another style or election.
    OtherSheet => "other-sheet",
    /// What is printed beside the ovals isn't this sheet's.
    PrintDiffers => "print-differs",
    /// Ovals that were filled weren't read as marked.
    OvalsNotMarked {
        /// How many.
        differ: u32,
        /// Of how many.
        of: u32,
    } => "ovals-not-marked",
    /// Ovals of a blank sheet weren't read as empty.
    OvalsNotEmpty {
        /// How many.
        differ: u32,
        /// Of how many.
        of: u32,
    } => "ovals-not-empty",
    /// Write-in lines with ink on them, where none was printed.
    LinesNotEmpty {
        /// How many.
        differ: u32,
    } => "lines-not-empty",
    /// A file couldn't be written and made sure of in the folder.
    NotWritten => "storage-not-written",
    /// What was written couldn't be read back.
    NotReadBack => "storage-not-read-back",
    /// What was read back isn't what was written.
    ReadBackDiffers => "storage-differs",
    /// The test's file couldn't be removed.
    NotRemoved => "storage-not-removed",
    /// The system doesn't say how much room there is.
    RoomUnknown => "storage-room-unknown",
    /// There is too little room.
    RoomShort {
        /// What there is, in MiB.
        free_mib: u32,
        /// What there should be, in MiB.
        least_mib: u32,
    } => "storage-room-short",
    /// The clock stands before the year in which this program was built.
    ClockBeforeProgram {
        /// The year that the clock shows.
        year: i32,
    } => "clock-before-program",
    /// The election's day isn't a date.
    ElectionDayUnknown => "election-day-unknown",
    /// The election's day is far ahead.
    ElectionFarAhead {
        /// In so many days.
        days: i32,
    } => "election-far-ahead",
    /// The election's day is over.
    ElectionOver {
        /// For so many days.
        days: i32,
    } => "election-over",
    /// There is no speech service.
    NoSpeechService => "no-speech-service",
    /// The speech service doesn't answer.
    SpeechServiceSilent => "speech-service-silent",
    /// No voice speaks the language, and there is no recording either.
    NotHeard => "not-heard",
    /// No voice speaks the language, and of its texts some aren't recorded.
    RecordingsIncomplete {
        /// How many.
        missing: u32,
        /// Of how many.
        of: u32,
    } => "recordings-incomplete",
    /// The station has no messages in the language.
    NoMessages => "no-messages",
}

impl From<Fault> for Why {
    fn from(fault: Fault) -> Self {
        match fault {
            Fault::NoAddress | Fault::NoService | Fault::ServiceDied => Self::NoSpeechService,
            Fault::ServiceHung | Fault::NeverEnded | Fault::NoSound => Self::SpeechServiceSilent,
        }
    }
}

/// A count for a report. There are never as many as `u32::MAX`.
fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn each_reason_has_a_name_of_its_own_and_its_figures() {
        let names: BTreeSet<&str> = Why::NAMES.iter().copied().collect();
        assert_eq!(names.len(), Why::NAMES.len());
        let is_id = |name: &str| name.chars().all(|c| c.is_ascii_lowercase() || c == '-');
        assert!(names.iter().all(|name| is_id(name)));
        let short = Why::RoomShort { free_mib: 7, least_mib: 200 };
        assert_eq!(short.name(), "storage-room-short");
        assert_eq!(short.figures(), [("free_mib", 7), ("least_mib", 200)]);
        assert!(Why::PaperJam.figures().is_empty());
    }
}
