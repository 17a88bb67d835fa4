//! What was asked for last, cut into pieces, and how far it is: pausing and moving by sentences.
//!
//! Invariant: there is at least one piece; `next` is a piece's place, or the number of pieces once
//! all have been said. It must not know the time's source, the service or the sound server.

use std::time::Duration;

use crate::conductor::Ticket;
use crate::segment::{Piece, Segment, Serial};

/// What the app asked for last. It stays after its end, so that a sentence can be said again.
pub(crate) struct Utterance {
    pub(crate) serial: Serial,
    // Invariant: never empty; the first opens a sentence.
    pieces: Vec<Piece>,
    next: usize,
    pub(crate) phase: Phase,
}

/// How far an utterance is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Phase {
    /// The piece at `next` is to be said as soon as the service is up.
    Waiting,
    /// The service was handed this ticket and must take it by then.
    Asked { ticket: Ticket, until: Duration },
    /// It is sounding and must end by then.
    Sounding { ticket: Ticket, until: Duration },
    /// The silence before the piece at `next`.
    Pausing { until: Duration },
    /// The voter paused: the sentence at `next` is said again when it goes on.
    Paused,
    /// All of it was said.
    Over,
}

impl Utterance {
    /// Before its first piece; none where there is nothing to say.
    pub(crate) fn new(pieces: Vec<Piece>, serial: Serial) -> Option<Self> {
        let new = Self { serial, pieces, next: 0, phase: Phase::Waiting };
        (!new.pieces.is_empty()).then_some(new)
    }

    /// The piece to be said, or being said.
    pub(crate) fn piece(&self) -> Option<&Piece> {
        self.pieces.get(self.next)
    }

    /// That piece's recording can't be played: the voice says it.
    pub(crate) fn drop_recording(&mut self) {
        if let Some(piece) = self.pieces.get_mut(self.next) {
            piece.recording = None;
        }
    }

    /// Whether that piece is played, not spoken.
    pub(crate) fn is_recorded(&self) -> bool {
        self.piece().is_some_and(|piece| piece.recording.is_some())
    }

    /// The words of that piece.
    pub(crate) fn segment(&self) -> Option<&Segment> {
        self.piece().map(|piece| &piece.segment)
    }

    /// The ticket that is asked for or sounds.
    pub(crate) fn ticket(&self) -> Option<Ticket> {
        match self.phase {
            Phase::Asked { ticket, .. } | Phase::Sounding { ticket, .. } => Some(ticket),
            Phase::Waiting | Phase::Pausing { .. } | Phase::Paused | Phase::Over => None,
        }
    }

    /// When something is overdue.
    pub(crate) fn deadline(&self) -> Option<Duration> {
        match self.phase {
            Phase::Asked { until, .. }
            | Phase::Sounding { until, .. }
            | Phase::Pausing { until } => Some(until),
            Phase::Waiting | Phase::Paused | Phase::Over => None,
        }
    }

    /// The piece at `next` is over; the silence that follows it, where another piece follows.
    pub(crate) fn pass(&mut self) -> Option<Duration> {
        let pause = self.segment().map_or(0, |segment| segment.pause_after.millis());
        self.next += 1;
        (pause > 0 && self.piece().is_some()).then(|| Duration::from_millis(pause))
    }

    /// Speech was lost while this was said: all of it is said again.
    pub(crate) fn interrupt(&mut self) {
        match self.phase {
            Phase::Asked { .. } | Phase::Sounding { .. } | Phase::Pausing { .. } => {
                self.next = 0;
                self.phase = Phase::Waiting;
            }
            Phase::Waiting | Phase::Paused | Phase::Over => {}
        }
    }

    /// Stops at the sentence that is being said, and remembers it; nothing where all was said.
    pub(crate) fn pause(&mut self) {
        if self.phase != Phase::Over {
            self.next = self.start_of(self.next);
            self.phase = Phase::Paused;
        }
    }

    /// To the sentence before; the first stays. Once all was said, to the last.
    pub(crate) fn move_back(&mut self) {
        let start = self.start_of(self.next);
        self.next = match self.phase {
            Phase::Over => self.start_of(self.pieces.len()),
            Phase::Waiting
            | Phase::Asked { .. }
            | Phase::Sounding { .. }
            | Phase::Pausing { .. }
            | Phase::Paused => start.checked_sub(1).map_or(0, |before| self.start_of(before)),
        };
        self.phase = Phase::Waiting;
    }

    /// To the sentence after; the last stays, also once all was said. In the silence between two
    /// sentences the second is the one after.
    pub(crate) fn move_on(&mut self) {
        let begun = match self.phase {
            Phase::Pausing { .. } => self.next,
            Phase::Waiting
            | Phase::Asked { .. }
            | Phase::Sounding { .. }
            | Phase::Paused
            | Phase::Over => self.next + 1,
        };
        let later = self.pieces.iter().enumerate().skip(begun);
        let after = later.filter(|(_, piece)| piece.opens_sentence).map(|(at, _)| at).next();
        self.next = after.unwrap_or_else(|| self.start_of(self.next));
        self.phase = Phase::Waiting;
    }

    /// Where the sentence that holds this piece begins; past the end: the last sentence.
    fn start_of(&self, place: usize) -> usize {
        let upto = self.pieces.iter().enumerate().take(place.saturating_add(1));
        upto.filter(|(_, piece)| piece.opens_sentence).map(|(at, _)| at).next_back().unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recorded::Recordings;
    use crate::segment::{Pause, ready};

    /// Three sentences; the second is of two pieces.
    fn three() -> Utterance {
        let segments = vec![
            Segment::new("One. Two", "en").then(Pause::Long),
            Segment::new("goes on. Three.", "en"),
        ];
        let mut pieces = ready(segments, &Recordings::default());
        assert_eq!(pieces.len(), 4);
        pieces[2].opens_sentence = false;
        Utterance::new(pieces, Serial(1)).unwrap()
    }

    fn places(mut from: Utterance, moves: &[fn(&mut Utterance)]) -> Vec<usize> {
        let mut out = Vec::new();
        for step in moves {
            step(&mut from);
            out.push(from.next);
        }
        out
    }

    #[test]
    fn moves_go_by_sentences_and_stay_at_both_ends() {
        let back: fn(&mut Utterance) = Utterance::move_back;
        let on: fn(&mut Utterance) = Utterance::move_on;
        assert_eq!(places(three(), &[on, on, on, back, back, back]), [1, 3, 3, 1, 0, 0]);
    }

    #[test]
    fn the_middle_of_a_sentence_belongs_to_it() {
        for (step, expected) in [
            (Utterance::pause as fn(&mut Utterance), 1),
            (Utterance::move_back, 0),
            (Utterance::move_on, 3),
        ] {
            let mut utterance = three();
            utterance.next = 2;
            assert_eq!(places(utterance, &[step]), [expected]);
        }
    }

    #[test]
    fn after_the_end_both_moves_say_the_last_sentence() {
        for step in [Utterance::move_back as fn(&mut Utterance), Utterance::move_on] {
            let mut utterance = three();
            utterance.next = 4;
            utterance.phase = Phase::Over;
            assert_eq!(places(utterance, &[step]), [3]);
        }
    }

    #[test]
    fn in_the_silence_between_two_sentences_on_says_the_second() {
        let mut utterance = three();
        utterance.next = 1;
        utterance.phase = Phase::Pausing { until: Duration::ZERO };
        assert_eq!(places(utterance, &[Utterance::move_on]), [1]);
    }
}
