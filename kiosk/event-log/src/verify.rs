//! Whether a log is whole, and what was removed, changed or put elsewhere where it isn't.
//!
//! Invariant: every line is looked at, whatever is wrong with others; nothing is taken on a line's
//! own word. Faults are what no honest station writes; doubts (`replay.rs`) are what doesn't agree
//! in a log that is whole.
//!
//! Start reading at [`verify`].

use std::collections::{BTreeMap, BTreeSet};

use thiserror::Error;

use crate::limits::{FILE_BYTES_MAX, FINDINGS_MAX, LINES_MAX};
use crate::line::{HeadLine, Line};
use crate::replay::Replay;
use crate::{Counts, Digest, Doubt, Event, Label, Offset, PublicKey, Stamp};

/// Whose signatures are believed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trust {
    /// This key's, which came another way than the log.
    Key(PublicKey),
    /// Those of the key that the log names: a forger can name their own.
    Itself,
}

/// What is known of the log from elsewhere, such as from the slip that was printed at closing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Published {
    /// A head digest.
    pub digest: Option<Digest>,
    /// How many lines the log had.
    pub lines: Option<u64>,
}

/// What is wrong with a log's file. Lines are called entries and counted from 0, the head.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Fault {
    /// Nothing there.
    #[error("the file is empty.")]
    Empty,
    /// Longer than a log may be.
    #[error(
        "the file has more than {FILE_BYTES_MAX} bytes or {LINES_MAX} lines: no station writes that, and nothing else was looked at."
    )]
    TooLong,
    /// A line that isn't one of a log, or is written otherwise than a station writes it.
    #[error("line {line} of the file can't be read: entry {entry} was changed.")]
    Unreadable {
        /// The line, from 1.
        line: u64,
        /// The entry that it seems to be.
        entry: u64,
    },
    /// Entries whose digest isn't the one that the next one keeps.
    #[error("{} changed.", were(*first, *last))]
    Changed {
        /// The first.
        first: u64,
        /// The last.
        last: u64,
    },
    /// One of two neighbors.
    #[error("entry {first} or entry {last} was changed.")]
    OneChanged {
        /// The first.
        first: u64,
        /// The second.
        last: u64,
    },
    /// Numbers that aren't there.
    #[error("{} missing.", are(*first, *last))]
    Missing {
        /// The first.
        first: u64,
        /// The last.
        last: u64,
    },
    /// Entries that don't stand in the order of their numbers.
    #[error("{} out of order.", are(*first, *last))]
    OutOfOrder {
        /// The lowest.
        first: u64,
        /// The highest.
        last: u64,
    },
    /// A number that is there more than once.
    #[error("entry {entry} is there more than once{}.", if *differs { ", and not the same each time" } else { "" })]
    Twice {
        /// The number.
        entry: u64,
        /// True where they differ.
        differs: bool,
    },
    /// A checkpoint that the station's key didn't make.
    #[error(
        "the signature of checkpoint {entry} isn't the station's: it, or anything before it back to the last good checkpoint, may have been changed."
    )]
    BadSignature {
        /// The checkpoint.
        entry: u64,
    },
    /// The log names another key than the trusted one.
    #[error("the log names another station's key.")]
    OtherKey,
    /// Bytes after the last line's end.
    #[error("the last {bytes} bytes are no whole line: the log's end was cut.")]
    CutShort {
        /// How many.
        bytes: usize,
    },
    /// The published head digest isn't in the log.
    #[error("the end is missing: no entry has the published head digest.")]
    EndMissing,
    /// Fewer lines than were published.
    #[error("the end is missing: the log ends with entry {last}, and {lines} lines, the last of them entry {}, were published.", lines.saturating_sub(1))]
    TooShort {
        /// The last entry.
        last: u64,
        /// How many lines were published.
        lines: u64,
    },
    /// The list of findings is full.
    #[error("there is more: only the first {FINDINGS_MAX} findings are listed.")]
    More,
}

fn were(first: u64, last: u64) -> String {
    if first == last {
        format!("entry {first} was")
    } else {
        format!("entries {first} to {last} were")
    }
}

fn are(first: u64, last: u64) -> String {
    match last.saturating_sub(first) {
        0 => format!("entry {first} is"),
        1 => format!("entries {first} and {last} are"),
        _ => format!("entries {first} to {last} are"),
    }
}

/// What a line says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Content {
    /// The log began.
    Head,
    /// Something happened.
    Event(Event),
    /// The station signed.
    Checkpoint,
}

/// A line that could be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// Its number: the head has 0.
    pub number: u64,
    /// When; a checkpoint has the time of the line before.
    pub at: Stamp,
    /// What.
    pub content: Content,
    /// Its digest.
    pub digest: Digest,
}

/// What verification found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// Whose signatures were believed.
    pub trust: Trust,
    /// What is wrong with the file.
    pub faults: Vec<Fault>,
    /// What doesn't agree, where the file is whole.
    pub doubts: Vec<Doubt>,
    /// The station's number, where the head could be read.
    pub station: Option<Label>,
    /// The log's offset from UTC.
    pub offset: Offset,
    /// The key that the log names.
    pub key: Option<PublicKey>,
    /// The head digest of the log before this one.
    pub previous: Option<Digest>,
    /// Every line that could be read, in the order of the file.
    pub lines: Vec<Kept>,
    /// What the entries add up to over the whole log.
    pub tally: Counts,
    /// The last entry that a good signature covers.
    pub covered: Option<u64>,
    /// The entry that has the published head digest.
    pub published_at: Option<u64>,
}

impl Report {
    /// True where nothing was found.
    pub fn is_clean(&self) -> bool {
        self.faults.is_empty() && self.doubts.is_empty()
    }

    /// How much was found.
    pub fn findings(&self) -> usize {
        self.faults.len().saturating_add(self.doubts.len())
    }

    /// The digest of the last line that could be read.
    pub fn head_digest(&self) -> Option<Digest> {
        self.lines.last().map(|line| line.digest)
    }

    /// What was found, a sentence each.
    pub fn finding_sentences(&self) -> Vec<String> {
        let faults = self.faults.iter().map(ToString::to_string);
        faults.chain(self.doubts.iter().map(ToString::to_string)).collect()
    }

    /// What the reader must know besides, a sentence each.
    pub fn note_sentences(&self) -> Vec<String> {
        let mut notes = Vec::new();
        if self.trust == Trust::Itself {
            notes.push("The signatures were checked with the key that the log itself names. A forger can name their own: give the station's key as the election office published it.".to_owned());
        }
        let last = self.lines.last().map_or(0, |line| line.number);
        match self.covered {
            None => notes.push("No checkpoint covers anything yet: only the chain speaks, and whoever has the file can make it anew.".to_owned()),
            Some(covered) if covered.saturating_add(1) < last => notes.push(format!(
                "The last checkpoint covers entry {covered}: of what comes after only the chain speaks."
            )),
            Some(_) => {}
        }
        match self.published_at {
            Some(entry) if entry < last => notes.push(format!(
                "The published head digest is that of entry {entry}: what comes after was written later."
            )),
            Some(_) => {}
            None => notes.push("Whether the end is missing can be said only with a head digest that was published, such as the one printed at closing.".to_owned()),
        }
        if !self.faults.is_empty() {
            notes.push(
                "Since the file isn't whole, counts and order of events were not checked."
                    .to_owned(),
            );
        }
        notes
    }
}

/// Looks at every line of a log.
pub fn verify(bytes: &[u8], trust: Trust, published: &Published) -> Report {
    let mut report = Report {
        trust,
        faults: Vec::new(),
        doubts: Vec::new(),
        station: None,
        offset: Offset::UTC,
        key: None,
        previous: None,
        lines: Vec::new(),
        tally: Counts::default(),
        covered: None,
        published_at: None,
    };
    let lines = bytes.split(|byte| *byte == b'\n').take(LINES_MAX.saturating_add(2)).count();
    // What stands after the last line feed is counted as a line here.
    if bytes.len() > FILE_BYTES_MAX || lines > LINES_MAX.saturating_add(1) {
        report.faults.push(Fault::TooLong);
        return report;
    }
    if bytes.is_empty() {
        report.faults.push(Fault::Empty);
        return report;
    }
    let kept = bytes.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at.saturating_add(1));
    let (whole, tail) = bytes.split_at(kept);
    let slots = Slots::read(whole);
    slots.look_at_lines(&mut report.faults);
    slots.look_at_numbers(&mut report.faults);
    slots.look_at_order(&mut report.faults);
    let key = slots.look_at_head(&mut report);
    let good = slots.look_at_signatures(key, &mut report.faults);
    slots.look_at_links(&good, &mut report.faults);
    if !tail.is_empty() {
        report.faults.push(Fault::CutShort { bytes: tail.len() });
    }
    report.covered = good.last().map(|number| number.saturating_sub(1));
    slots.replay(&mut report);
    look_at_published(published, &mut report);
    if report.faults.len() > FINDINGS_MAX {
        report.faults.truncate(FINDINGS_MAX);
        report.faults.push(Fault::More);
    }
    if !report.faults.is_empty() {
        report.doubts.clear();
    }
    report.doubts.truncate(FINDINGS_MAX);
    report
}

fn look_at_published(published: &Published, report: &mut Report) {
    if let Some(digest) = published.digest {
        let found = report.lines.iter().rfind(|line| line.digest == digest);
        report.published_at = found.map(|line| line.number);
        if found.is_none() {
            report.faults.push(Fault::EndMissing);
        }
    }
    let last = report.lines.iter().map(|line| line.number).max().unwrap_or(0);
    if let Some(lines) = published.lines
        && last.saturating_add(1) < lines
    {
        report.faults.push(Fault::TooShort { last, lines });
    }
}

/// One line of the file.
struct Slot {
    /// What it says; nothing where it can't be read.
    line: Option<Line>,
    digest: Digest,
    /// Its own number, or the one after the line before.
    number: u64,
}

/// All lines of the file.
struct Slots {
    slots: Vec<Slot>,
    /// Where each number stands, of lines that can be read.
    places: BTreeMap<u64, Vec<usize>>,
}

impl Slots {
    fn read(whole: &[u8]) -> Self {
        let mut slots: Vec<Slot> = Vec::new();
        let mut places = BTreeMap::<u64, Vec<usize>>::new();
        let mut next = 0;
        for bytes in whole.split_inclusive(|byte| *byte == b'\n') {
            let bytes = bytes.strip_suffix(b"\n").unwrap_or(bytes);
            let line = Line::decode(bytes);
            let number = line.as_ref().map_or(next, Line::number);
            if line.is_some() {
                places.entry(number).or_default().push(slots.len());
            }
            slots.push(Slot { line, digest: Digest::of(bytes), number });
            next = number.saturating_add(1);
        }
        Self { slots, places }
    }

    fn at(&self, number: u64) -> impl Iterator<Item = &Slot> {
        self.places.get(&number).into_iter().flatten().filter_map(|place| self.slots.get(*place))
    }

    fn look_at_lines(&self, faults: &mut Vec<Fault>) {
        for (line, slot) in (1..).zip(&self.slots) {
            if slot.line.is_none() {
                faults.push(Fault::Unreadable { line, entry: slot.number });
            }
        }
    }

    fn look_at_numbers(&self, faults: &mut Vec<Fault>) {
        let mut numbers: Vec<u64> = self.slots.iter().map(|slot| slot.number).collect();
        numbers.sort_unstable();
        numbers.dedup();
        let mut expected = 0;
        for number in numbers {
            if number > expected {
                faults.push(Fault::Missing { first: expected, last: number.saturating_sub(1) });
            }
            expected = number.saturating_add(1);
        }
        for (entry, places) in &self.places {
            if places.len() > 1 {
                let mut digests = self.at(*entry).map(|slot| slot.digest);
                let first = digests.next();
                let differs = digests.any(|digest| Some(digest) != first);
                faults.push(Fault::Twice { entry: *entry, differs });
            }
        }
    }

    /// Blocks that begin and end where everything before is lower and everything after higher.
    fn look_at_order(&self, faults: &mut Vec<Fault>) {
        let numbers: Vec<u64> =
            self.slots.iter().filter(|slot| slot.line.is_some()).map(|slot| slot.number).collect();
        let mut lowest_after = numbers.clone();
        for pair in (1..lowest_after.len()).rev() {
            let after = lowest_after.get(pair).copied().unwrap_or(u64::MAX);
            if let Some(own) = lowest_after.get_mut(pair.saturating_sub(1)) {
                *own = (*own).min(after);
            }
        }
        let after = lowest_after.into_iter().skip(1).chain([u64::MAX]);
        let mut block: Option<(u64, u64, usize)> = None;
        for (number, after) in numbers.into_iter().zip(after) {
            let (first, last, length) = block.unwrap_or((number, number, 0));
            let (first, last) = (first.min(number), last.max(number));
            let length = length.saturating_add(1);
            if last > after {
                block = Some((first, last, length));
            } else {
                if length > 1 {
                    faults.push(Fault::OutOfOrder { first, last });
                }
                block = None;
            }
        }
    }

    /// Takes what the head says, and gives the key that signatures are checked with.
    fn look_at_head(&self, report: &mut Report) -> Option<PublicKey> {
        let head = self.at(0).find_map(|slot| match &slot.line {
            Some(Line::Head(HeadLine { head, .. })) => Some(head),
            Some(Line::Entry(_) | Line::Checkpoint(_)) | None => None,
        });
        if let Some(head) = head {
            report.station = Some(head.station.clone());
            report.offset = head.utc_offset;
            report.key = Some(head.key);
            report.previous = head.previous;
        }
        match report.trust {
            Trust::Itself => report.key,
            Trust::Key(key) => {
                if report.key.is_some_and(|own| own != key) {
                    report.faults.push(Fault::OtherKey);
                }
                Some(key)
            }
        }
    }

    /// The checkpoints with good signatures, in the order of their numbers.
    fn look_at_signatures(&self, key: Option<PublicKey>, faults: &mut Vec<Fault>) -> Vec<u64> {
        let mut good = Vec::new();
        for slot in self.places.values().flatten().filter_map(|place| self.slots.get(*place)) {
            let Some(Line::Checkpoint(line)) = &slot.line else { continue };
            let covers = line.n.saturating_sub(1);
            if key.is_some_and(|key| key.has_signed(&line.checkpoint, covers, &line.before)) {
                good.push(line.n);
            } else {
                faults.push(Fault::BadSignature { entry: line.n });
            }
        }
        good
    }

    /// Whether an entry keeps the digest of the one before; nothing where one of them isn't there.
    fn is_linked(&self, number: u64) -> Option<bool> {
        // A set: a file may repeat one number half a million times.
        let before: BTreeSet<Digest> =
            self.at(number.checked_sub(1)?).map(|slot| slot.digest).collect();
        let own = |slot: &Slot| slot.line.as_ref().and_then(Line::before);
        let mut kept = self.at(number).filter_map(own).peekable();
        kept.peek()?;
        if before.is_empty() {
            return None;
        }
        Some(kept.any(|digest| before.contains(&digest)))
    }

    /// Names what was changed, from which links are broken. An entry that was changed breaks the
    /// link after it; where the digest that it keeps was changed as well, also its own.
    fn look_at_links(&self, good: &[u64], faults: &mut Vec<Fault>) {
        let mut run: Option<(u64, u64)> = None;
        for number in self.places.keys().copied() {
            let is_next = run.is_none_or(|(_, last)| last.saturating_add(1) == number);
            if let Some((first, last)) = run
                && !is_next
            {
                faults.push(named(first, last, good.binary_search(&last).is_ok()));
                run = None;
            }
            match (self.is_linked(number), run) {
                (Some(false), Some((first, _))) => run = Some((first, number)),
                (Some(false), None) => run = Some((number, number)),
                // The entry keeps the right digest, so the one before is as it was.
                (Some(true), Some((first, last))) => {
                    faults.push(named(first, last, true));
                    run = None;
                }
                (None, Some((first, last))) => {
                    faults.push(named(first, last, good.binary_search(&last).is_ok()));
                    run = None;
                }
                (Some(true) | None, None) => {}
            }
        }
        if let Some((first, last)) = run {
            faults.push(named(first, last, good.binary_search(&last).is_ok()));
        }
    }

    /// Runs through what can be read, in the order of the numbers.
    fn replay(&self, report: &mut Report) {
        let mut at = Stamp::Minute(0);
        for slot in &self.slots {
            let content = match &slot.line {
                None => continue,
                Some(Line::Head(line)) => {
                    at = line.at;
                    Content::Head
                }
                Some(Line::Entry(line)) => {
                    at = line.at;
                    Content::Event(line.event.clone())
                }
                Some(Line::Checkpoint(_)) => Content::Checkpoint,
            };
            report.lines.push(Kept { number: slot.number, at, content, digest: slot.digest });
        }
        let first = report.lines.first().map_or(Stamp::Minute(0), |line| line.at);
        let mut replay = Replay::new(first);
        for line in &report.lines {
            if let Content::Event(event) = &line.content {
                replay.take(line.number, line.at, event, &mut report.doubts);
            }
        }
        report.tally = replay.whole;
    }
}

/// What a run of broken links says: those from `first` to `last` don't keep the digest of the entry
/// before. `is_sure` where `last` itself is known to be as it was.
fn named(first: u64, last: u64, is_sure: bool) -> Fault {
    let before = first.saturating_sub(1);
    match (first == last, is_sure) {
        (true, true) => Fault::Changed { first: before, last: before },
        (true, false) => Fault::OneChanged { first: before, last },
        (false, _) => Fault::Changed { first, last: last.saturating_sub(1) },
    }
}
