//! The log as the station writes it: events in, the bytes to append out.
//!
//! Invariant: what it has given out is a chain that `verify` finds nothing wrong with. It opens no
//! file: the caller appends the bytes, makes sure that they are on the disk, and only then goes on.
//! Where that fails the caller drops the `Log` and recovers from what the file holds.

use thiserror::Error;

use crate::limits::{CHECKPOINT_EVERY, FILE_BYTES_MAX, LINES_MAX, RESERVE_BYTES, ZEROS_MAX};
use crate::line::{CheckpointLine, EntryLine, FORM, HeadLine, HeadWords, Line};
use crate::replay::{Power, Replay, VisitPaper};
use crate::{
    Counts, Device, Digest, Event, Label, Moment, Offset, Polls, PublicKey, Stamp, StationKey,
};

/// What a new log is told once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// The station's number.
    pub station: Label,
    /// How far local time is from UTC.
    pub offset: Offset,
    /// The head digest of the station's log before this one.
    pub previous: Option<Digest>,
}

/// A log that is being written.
#[derive(Debug)]
pub struct Log {
    key: StationKey,
    head: Head,
    next: u64,
    last: Digest,
    bytes: usize,
    since_checkpoint: u64,
    replay: Replay,
}

/// What was found when a log was taken up again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Recovered {
    /// So many bytes of the file are whole: cut the file to this length first.
    pub kept: usize,
    /// So many bytes after them are a line that was never finished, with the zeros that a file
    /// system left where bytes never came.
    pub cut: usize,
    /// Then append these: the entry that says so, and a checkpoint. Empty where nothing is owed.
    pub append: Vec<u8>,
}

/// Why an event wasn't taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum AppendError {
    /// The file would be longer than it may be.
    #[error(
        "the log is full. Close the polls, export the log, and begin a new one that names this one's head digest."
    )]
    Full,
    /// A voter's own device, while polls are open.
    #[error(
        "that headphones or switches came or went isn't logged while polls are open: it would tell how a voter votes. Leave it out."
    )]
    Personal,
    /// A seal's number, in a visit.
    #[error("a seal's number isn't noted during a visit. Note it when the visit is over.")]
    InVisit,
}

/// Why a log can't be taken up again.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum RecoverError {
    /// No whole line.
    #[error(
        "the file's {bytes} bytes hold no whole line. Ask the election office, then begin a new log (evenhand new-log)."
    )]
    NoHead {
        /// How many bytes there are.
        bytes: usize,
    },
    /// Longer than a log may be.
    #[error(
        "the log has more than {FILE_BYTES_MAX} bytes. Ask the election office, then begin a new log (evenhand new-log)."
    )]
    TooLong,
    /// Another station's.
    #[error(
        "the log was begun with another station's key. Bring this station's own log, or ask the election office and begin a new one (evenhand new-log)."
    )]
    OtherKey,
    /// Something that no loss of power explains.
    #[error(
        "line {line} of the log is wrong ({what}), which no loss of power explains. Nothing was mended: keep the file as it is, ask the election office, verify it with `log verify`, and begin a new log (evenhand new-log)."
    )]
    Wrong {
        /// The line, from 1.
        line: u64,
        /// What is wrong.
        what: &'static str,
    },
}

impl Log {
    /// Begins a log, and gives the bytes that its file begins with.
    pub fn start(key: StationKey, head: Head, now: Moment) -> (Self, Vec<u8>) {
        let at = Stamp::of(now, head.offset, false);
        let words = HeadWords {
            form: FORM,
            station: head.station.clone(),
            key: key.public(),
            utc_offset: head.offset,
            previous: head.previous,
        };
        let mut log = Self {
            key,
            head,
            next: 0,
            last: Digest([0; 32]),
            bytes: 0,
            since_checkpoint: 0,
            replay: Replay::new(at),
        };
        let mut out = Vec::new();
        log.write(&Line::Head(HeadLine { n: 0, at, head: words }), &mut out);
        (log, out)
    }

    /// Takes an event, and gives the bytes to append to the file: the entry, and a checkpoint where
    /// one is due. The time is made coarse here.
    ///
    /// # Errors
    /// [`AppendError`]; the log is then as it was.
    pub fn append(&mut self, event: Event, now: Moment) -> Result<Vec<u8>, AppendError> {
        if let Event::DeviceLost { device } | Event::DeviceBack { device } = &event
            && device.is_personal()
            && (self.replay.polls != Polls::Closed || self.replay.is_visit)
        {
            return Err(AppendError::Personal);
        }
        if matches!(event, Event::SealNoted { .. }) && self.replay.is_visit {
            return Err(AppendError::InVisit);
        }
        let reserve = if event == Event::VisitStarted { RESERVE_BYTES } else { 0 };
        // An entry and its checkpoint are two lines.
        let most = 2 * (crate::limits::LINE_BYTES_MAX + 1);
        let bytes = self.bytes.saturating_add(most).saturating_add(reserve);
        let lines = self.next.saturating_add(2).saturating_add(reserve as u64 / 128);
        if bytes > FILE_BYTES_MAX || lines > LINES_MAX as u64 {
            return Err(AppendError::Full);
        }
        Ok(self.record(event, now))
    }

    /// Takes up a log from its file's bytes. A last line that was cut short, at whatever byte, is
    /// left out, and an entry says how many bytes it had. Zeros at the very end count as cut: file
    /// systems lengthen a file before its new bytes are on the disk.
    ///
    /// # Errors
    /// [`RecoverError`], where anything else is wrong: nothing is mended in silence.
    pub fn recover(
        key: StationKey,
        bytes: &[u8],
        now: Moment,
    ) -> Result<(Self, Recovered), RecoverError> {
        if bytes.len() > FILE_BYTES_MAX {
            return Err(RecoverError::TooLong);
        }
        // No line holds a zero byte.
        let zeros = bytes.iter().rev().take_while(|byte| **byte == 0).count();
        let (written, _) = bytes.split_at(bytes.len().saturating_sub(zeros));
        let kept =
            written.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at.saturating_add(1));
        let (whole, tail) = written.split_at(kept);
        let mut lines = whole.split(|byte| *byte == b'\n');
        // What stands after the last line feed is empty here.
        lines.next_back();
        let first = lines.next().ok_or(RecoverError::NoHead { bytes: bytes.len() })?;
        let mut log = Self::from_head(key, first)?;
        let mut is_owed = false;
        for bytes in lines {
            is_owed = log.take_up(bytes)?;
        }
        if !could_be_cut(tail, log.next) {
            return Err(log.wrong("it doesn't begin as the next line would"));
        }
        if zeros > ZEROS_MAX {
            return Err(log.wrong("more zeros follow than one write leaves"));
        }
        let cut = tail.len().saturating_add(zeros);
        let mut append = Vec::new();
        if cut > 0 {
            let bytes = u32::try_from(cut).unwrap_or(u32::MAX);
            if log.is_behind(now) {
                append = log.record(Event::ClockLooksWrong, now);
            }
            append.extend(log.record(Event::LogRecovered { bytes }, now));
        } else if is_owed {
            log.write_checkpoint(&mut append);
        }
        Ok((log, Recovered { kept, cut, append }))
    }

    /// The digest of the last line, and with it of all before. Printed when polls close and on an
    /// export, it lets everybody see later whether the end is missing.
    pub fn head_digest(&self) -> Digest {
        self.last
    }

    /// How many lines the log has: the head, entries and checkpoints.
    pub fn lines(&self) -> u64 {
        self.next
    }

    /// How many bytes its file has.
    pub fn bytes(&self) -> usize {
        self.bytes
    }

    /// The station, the offset, the log before.
    pub fn head(&self) -> &Head {
        &self.head
    }

    /// The key that others verify it with.
    pub fn public_key(&self) -> PublicKey {
        self.key.public()
    }

    /// How the polls stand by the entries.
    pub fn polls(&self) -> Polls {
        self.replay.polls
    }

    /// True where the entries say that a visit is going on: after a loss of power the caller must
    /// say how it ended.
    pub fn is_visit(&self) -> bool {
        self.replay.is_visit
    }

    /// What is known of the ballots of the visit that goes on.
    pub fn visit_paper(&self) -> VisitPaper {
        if self.replay.is_visit { self.replay.paper } else { VisitPaper::default() }
    }

    /// True where the station was started and not shut down: a caller that has just started logs
    /// [`Event::PowerLost`] first.
    pub fn is_running(&self) -> bool {
        self.replay.power == Power::On
    }

    /// True where the entries end with a station that was shut down in order: it neither runs nor
    /// has lost power since it last started.
    pub fn is_shut_down(&self) -> bool {
        self.replay.power == Power::Off
    }

    /// The election that was accepted last, by its digest.
    pub fn election(&self) -> Option<Digest> {
        self.replay.election
    }

    /// True where an entry of this moment would be earlier than the last one: the caller logs
    /// [`Event::ClockLooksWrong`] first.
    pub fn is_behind(&self, now: Moment) -> bool {
        let is_coarse = self.replay.polls != Polls::Closed || self.replay.is_visit;
        let at = Stamp::of(now, self.head.offset, is_coarse);
        self.replay.last_at.is_some_and(|last| at.is_before(last))
    }

    /// How many codes were refused since somebody of that role last logged in: of workers, leads,
    /// technicians.
    pub fn refused(&self) -> [u32; 3] {
        self.replay.refused
    }

    /// True where the entries say that this device doesn't answer.
    pub fn is_lost(&self, device: Device) -> bool {
        self.replay.lost.contains(&device)
    }

    /// True where polls were opened and closed again in this log.
    pub fn has_closed(&self) -> bool {
        self.replay.has_closed()
    }

    /// What the entries since the last opening add up to, to be added to the counts of the opening
    /// for [`Event::Closed`]. Sheets printed and the printer's life are 0: no entry counts them.
    pub fn tally(&self) -> Counts {
        self.replay.tally()
    }

    fn record(&mut self, event: Event, now: Moment) -> Vec<u8> {
        let at = Stamp::of(now, self.head.offset, self.replay.is_coarse(&event));
        self.replay.take(self.next, at, &event, &mut Vec::new());
        let is_sealed = event.is_sealed();
        let entry = EntryLine { n: self.next, at, event, before: self.last };
        let mut out = Vec::new();
        self.write(&Line::Entry(entry), &mut out);
        if is_sealed || self.since_checkpoint >= CHECKPOINT_EVERY {
            self.write_checkpoint(&mut out);
        }
        out
    }

    fn write_checkpoint(&mut self, out: &mut Vec<u8>) {
        let checkpoint = self.key.sign_checkpoint(self.next.saturating_sub(1), &self.last);
        let line = CheckpointLine { n: self.next, checkpoint, before: self.last };
        self.write(&Line::Checkpoint(line), out);
    }

    fn write(&mut self, line: &Line, out: &mut Vec<u8>) {
        let bytes = line.encode();
        self.step(line, &bytes);
        out.extend(bytes);
        out.push(b'\n');
    }

    /// Counts a line that the file has, or will have.
    fn step(&mut self, line: &Line, bytes: &[u8]) {
        self.next = self.next.saturating_add(1);
        self.last = Digest::of(bytes);
        self.bytes = self.bytes.saturating_add(bytes.len()).saturating_add(1);
        let is_checkpoint = matches!(line, Line::Checkpoint(_));
        self.since_checkpoint =
            if is_checkpoint { 0 } else { self.since_checkpoint.saturating_add(1) };
    }

    fn from_head(key: StationKey, bytes: &[u8]) -> Result<Self, RecoverError> {
        let wrong = |what| RecoverError::Wrong { line: 1, what };
        let line = Line::decode(bytes).ok_or(wrong("it is no line of a log"))?;
        let Line::Head(head) = &line else { return Err(wrong("it isn't a log's first line")) };
        if head.head.key != key.public() {
            return Err(RecoverError::OtherKey);
        }
        let words = Head {
            station: head.head.station.clone(),
            offset: head.head.utc_offset,
            previous: head.head.previous,
        };
        let replay = Replay::new(head.at);
        let last = Digest([0; 32]);
        let mut log =
            Self { key, head: words, next: 0, last, bytes: 0, since_checkpoint: 0, replay };
        log.step(&line, bytes);
        Ok(log)
    }

    /// Takes a line that the file has; true where a checkpoint must come next.
    fn take_up(&mut self, bytes: &[u8]) -> Result<bool, RecoverError> {
        let line = Line::decode(bytes).ok_or(self.wrong("it is no line of a log"))?;
        if line.number() != self.next {
            return Err(self.wrong("its number isn't the next one"));
        }
        if line.before() != Some(self.last) {
            return Err(self.wrong("it doesn't follow the line before"));
        }
        let mut is_owed = false;
        match &line {
            Line::Head(_) => return Err(self.wrong("a log has one first line")),
            Line::Entry(entry) => {
                self.replay.take(entry.n, entry.at, &entry.event, &mut Vec::new());
                let since = self.since_checkpoint.saturating_add(1);
                is_owed = entry.event.is_sealed() || since >= CHECKPOINT_EVERY;
            }
            Line::Checkpoint(checkpoint) => {
                let number = self.next.saturating_sub(1);
                if !self.key.public().has_signed(&checkpoint.checkpoint, number, &self.last) {
                    return Err(self.wrong("its signature isn't this station's"));
                }
            }
        }
        self.step(&line, bytes);
        Ok(is_owed)
    }

    fn wrong(&self, what: &'static str) -> RecoverError {
        RecoverError::Wrong { line: self.next.saturating_add(1), what }
    }
}

/// True where these bytes can be the beginning of the line with this number.
fn could_be_cut(tail: &[u8], number: u64) -> bool {
    let beginning = format!("{{\"n\":{number},\"");
    let both = tail.len().min(beginning.len());
    tail.get(..both) == beginning.as_bytes().get(..both)
        && tail.len() <= crate::limits::LINE_BYTES_MAX
}
