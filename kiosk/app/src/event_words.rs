//! The closed list of events as words: what the visit's process writes to its pipe, one a line, and
//! the station's process reads.

use evenhand_visit::{Event, PrintFault, ReadFault, WorkerSays};

/// Every event with its word.
const TABLE: [(Event, &str); 19] = [
    (Event::VisitBegun, "visit-begun"),
    (Event::BallotPrinted, "ballot-printed"),
    (Event::PrintFailed(PrintFault::OutOfPaper), "print-failed-out-of-paper"),
    (Event::PrintFailed(PrintFault::Jam), "print-failed-jam"),
    (Event::PrintFailed(PrintFault::Offline), "print-failed-offline"),
    (Event::PrintFailed(PrintFault::NotMade), "print-failed-not-made"),
    (Event::ReadFailed(ReadFault::NoSheet), "read-failed-no-sheet"),
    (Event::ReadFailed(ReadFault::Unreadable), "read-failed-unreadable"),
    (Event::ReadFailed(ReadFault::OtherBallot), "read-failed-other-ballot"),
    (Event::ReadFailed(ReadFault::PrintDiffers), "read-failed-print-differs"),
    (Event::PaperDiffered, "paper-differed"),
    (Event::SpoiledByVoter, "ballot-spoiled-by-voter"),
    (Event::SpoiledByDevice, "ballot-spoiled-by-device"),
    (Event::WorkerCalled, "worker-called"),
    (Event::WorkerHere, "worker-here"),
    (Event::SpeechLost, "speech-lost"),
    (Event::SpeechBack, "speech-back"),
    (Event::VisitFinished, "visit-finished"),
    (Event::VisitStopped, "visit-stopped"),
];

/// What the station answers to a worker who wants in, the other way.
const ANSWERS: [(WorkerSays, &str); 3] =
    [(WorkerSays::NotIn, "not-in"), (WorkerSays::GoOn, "go-on"), (WorkerSays::Stop, "stop")];

/// The word of an answer; none where the table lacks it, which a test holds against.
pub fn answer_word(says: WorkerSays) -> &'static str {
    ANSWERS.iter().find(|(of, _)| *of == says).map_or("", |(_, word)| *word)
}

/// The answer of a word.
pub fn answer(word: &str) -> Option<WorkerSays> {
    ANSWERS.iter().find(|(_, of)| *of == word).map(|(says, _)| *says)
}

/// The word of an event; none where the table lacks it, which a test holds against.
pub fn word(event: Event) -> &'static str {
    TABLE.iter().find(|(of, _)| *of == event).map_or("", |(_, word)| *word)
}

/// The event of a word.
pub fn event(word: &str) -> Option<Event> {
    TABLE.iter().find(|(_, of)| *of == word).map(|(event, _)| *event)
}

/// True for an event after which a visit is over.
pub fn is_end(event: Event) -> bool {
    matches!(event, Event::VisitFinished | Event::VisitStopped)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A new event or fault doesn't compile here until it has its word.
    fn named(event: Event) -> bool {
        match event {
            Event::VisitBegun
            | Event::BallotPrinted
            | Event::PrintFailed(
                PrintFault::OutOfPaper
                | PrintFault::Jam
                | PrintFault::Offline
                | PrintFault::NotMade,
            )
            | Event::ReadFailed(
                ReadFault::NoSheet
                | ReadFault::Unreadable
                | ReadFault::OtherBallot
                | ReadFault::PrintDiffers,
            )
            | Event::PaperDiffered
            | Event::SpoiledByVoter
            | Event::SpoiledByDevice
            | Event::WorkerCalled
            | Event::WorkerHere
            | Event::SpeechLost
            | Event::SpeechBack
            | Event::VisitFinished
            | Event::VisitStopped => TABLE.iter().any(|(of, _)| *of == event),
        }
    }

    #[test]
    fn words_and_events_go_both_ways() {
        for (of, text) in TABLE {
            assert!(named(of));
            assert_eq!(word(of), text);
            assert_eq!(event(text), Some(of));
        }
        for (of, text) in ANSWERS {
            match of {
                WorkerSays::NotIn | WorkerSays::GoOn | WorkerSays::Stop => {}
            }
            assert_eq!(answer_word(of), text);
            assert_eq!(answer(text), Some(of));
        }
        assert_eq!(answer("go-on "), None);
        assert_eq!(event("chosen"), None);
        assert_eq!(event("visit-begun "), None);
    }
}
