//! A log cut at every byte, as by a loss of power: what is whole is kept, what was cut is said, and
//! the log goes on. What no cut explains is refused.

use super::day::{Day, key, lines, public};
use evenhand_event_log::limits::ZEROS_MAX;
use evenhand_event_log::{
    Content, Event, Fault, Log, Moment, Published, RecoverError, State, Trust, verify,
};

fn clean(file: &[u8], what: &str) -> evenhand_event_log::Report {
    let report = verify(file, Trust::Key(public(1)), &Published::default());
    assert!(report.is_clean(), "{what}: {:#?}", report.finding_sentences());
    report
}

#[test]
fn every_cut_is_recovered_from_or_leaves_no_log() {
    let day = Day::whole(16, 2);
    let report = clean(&day.file, "the whole day");
    let count = report.lines.len();
    assert!(count > 75, "{count} lines: too few for a checkpoint by number");
    let (mut recovered, mut none, mut without_a_cut) = (0, 0, 0);
    let first = lines(&day.file)[0].len();
    for length in 0..=day.file.len() {
        let cut = &day.file[..length];
        let now = Moment(day.now + 1000);
        let taken = Log::recover(key(1), cut, now);
        if length < first {
            assert_eq!(taken.unwrap_err(), RecoverError::NoHead { bytes: length });
            none += 1;
            continue;
        }
        let (mut log, found) = taken.unwrap();
        // What is kept is every line that is whole, and nothing else.
        let whole = cut.iter().rposition(|byte| *byte == b'\n').unwrap() + 1;
        assert_eq!((found.kept, found.cut), (whole, length - whole));
        let mut file = cut[..found.kept].to_vec();
        file.extend(&found.append);
        let after = clean(&file, "after recovery");
        let said = after.lines.iter().rev().find_map(|line| match &line.content {
            Content::Event(Event::LogRecovered { bytes }) => Some(*bytes as usize),
            Content::Head | Content::Event(_) | Content::Checkpoint => None,
        });
        assert_eq!(said, (found.cut > 0).then_some(found.cut));
        if found.cut > 0 {
            // The entry that says so is covered by a signature at once.
            assert_eq!(after.covered.unwrap() + 1, after.lines.last().unwrap().number);
        } else {
            without_a_cut += 1;
        }
        file.extend(log.append(Event::PowerLost, now).unwrap());
        file.extend(log.append(Event::StationStarted, now).unwrap());
        let report = clean(&file, "after going on");
        assert_eq!(report.head_digest(), Some(log.head_digest()));
        assert_eq!(log.lines(), report.lines.len() as u64);
        assert_eq!(log.bytes(), file.len());
        recovered += 1;
    }
    println!(
        "a log of {count} lines, {} bytes, cut at every length: {recovered} recovered ({without_a_cut} of them at a line's end), {none} with no whole line",
        day.file.len()
    );
    assert_eq!(recovered + none, day.file.len() + 1);
    assert_eq!(without_a_cut, count);
}

/// A recovered log is the one that was written: it goes on with the same bytes.
#[test]
fn a_log_taken_up_goes_on_with_the_same_bytes() {
    let mut day = Day::whole(3, 1);
    let (mut other, found) = Log::recover(key(1), &day.file, Moment(day.now)).unwrap();
    assert!(found.append.is_empty() && found.cut == 0 && found.kept == day.file.len());
    for event in [Event::StationStarted, Event::PaperAdded, Event::Suspended] {
        let now = Moment(day.now);
        assert_eq!(day.log.append(event.clone(), now), other.append(event, now));
    }
    assert_eq!(day.log.tally(), other.tally());
    day.now += 1;
}

/// The checkpoint that was lost with its line is made up for.
#[test]
fn a_checkpoint_lost_at_a_lines_end_is_made_up_for() {
    let day = Day::whole(2, 1);
    let all = lines(&day.file);
    // The last line is the checkpoint after shutting down.
    let before = all[..all.len() - 1].concat();
    let (_, found) = Log::recover(key(1), &before, Moment(day.now)).unwrap();
    assert_eq!(found.append, all[all.len() - 1]);
}

#[test]
fn what_no_cut_explains_is_refused() {
    let day = Day::whole(2, 1);
    let all = lines(&day.file);
    let take_up = |file: &[u8]| Log::recover(key(1), file, Moment(day.now)).map(|_| ());
    assert_eq!(take_up(&day.file), Ok(()));
    assert_eq!(
        Log::recover(key(2), &day.file, Moment(day.now)).unwrap_err(),
        RecoverError::OtherKey
    );
    let wrong = |line, what| Err(RecoverError::Wrong { line, what });
    let number = "its number isn't the next one";
    let follow = "it doesn't follow the line before";
    let read = "it is no line of a log";
    let joined = |parts: &[&[Vec<u8>]]| parts.concat().concat();
    assert_eq!(take_up(&joined(&[&all[..3], &all[4..]])), wrong(4, number));
    assert_eq!(take_up(&joined(&[&all[..4], &all[3..]])), wrong(5, number));
    assert_eq!(take_up(&joined(&[&all[1..]])), wrong(1, "it isn't a log's first line"));
    let mut blank = all.clone();
    blank.insert(2, b"\n".to_vec());
    assert_eq!(take_up(&blank.concat()), wrong(3, read));
    // The lead becomes a worker: the next line knows.
    let mut changed = all.clone();
    let text = String::from_utf8(changed[3].clone()).unwrap();
    assert!(text.contains("\"lead\""));
    changed[3] = text.replace("\"lead\"", "\"worker\"").into_bytes();
    assert_eq!(take_up(&changed.concat()), wrong(5, follow));
    // A checkpoint with another's signature, at the very end.
    let mut forged = all.clone();
    let last = forged.len() - 1;
    let text = String::from_utf8(forged[last].clone()).unwrap();
    let other = if text.contains("checkpoint\":\"0") { "1" } else { "0" };
    let at = text.find("checkpoint\":\"").unwrap() + 13;
    forged[last] = format!("{}{other}{}", &text[..at], &text[at + 1..]).into_bytes();
    let line = u64::try_from(last).unwrap() + 1;
    assert_eq!(take_up(&forged.concat()), wrong(line, "its signature isn't this station's"));
    // Bytes after the end that aren't the beginning of the next line.
    for tail in [&b"\0\0\0x"[..], b"x", b"x\0\0", b"{\"n\":3,", b"{\"n\":3,\0", b" "] {
        let mut file = day.file.clone();
        file.extend(tail);
        let line = u64::try_from(all.len()).unwrap() + 1;
        assert_eq!(take_up(&file), wrong(line, "it doesn't begin as the next line would"));
    }
    // More zeros than one write leaves: lines that were written before lay there.
    let mut file = day.file.clone();
    file.resize(day.file.len() + ZEROS_MAX + 1, 0);
    let line = u64::try_from(all.len()).unwrap() + 1;
    assert_eq!(take_up(&file), wrong(line, "more zeros follow than one write leaves"));
    // Zeros within the file, before a line.
    let mut file = all[..4].concat();
    file.extend([0; 9]);
    file.extend(&all[4]);
    assert_eq!(take_up(&file), wrong(5, read));
    // And verification says of a cut that the end was cut.
    let cut = &day.file[..day.file.len() - 1];
    let report = verify(cut, Trust::Key(public(1)), &Published::default());
    let bytes = all[last].len() - 1;
    assert_eq!(report.faults, [Fault::CutShort { bytes }]);
}

/// Takes up this much of a log with so many zeros after it, as a file system leaves them that had
/// lengthened the file and not written its bytes.
fn with_zeros(day: &Day, length: usize, zeros: usize) -> (Vec<u8>, usize) {
    let cut = &day.file[..length];
    let whole = cut.iter().rposition(|byte| *byte == b'\n').unwrap() + 1;
    let mut file = cut.to_vec();
    file.resize(length + zeros, 0);
    let (_, found) = Log::recover(key(1), &file, Moment(day.now)).unwrap();
    assert_eq!((found.kept, found.cut), (whole, length - whole + zeros), "{length}, {zeros}");
    (found.append, whole)
}

/// What the log says after that: verification is content, and the entry has the number of bytes.
fn look_at_zeros(day: &Day, length: usize, zeros: usize) {
    let (append, whole) = with_zeros(day, length, zeros);
    let mut file = day.file[..whole].to_vec();
    file.extend(append);
    let after = clean(&file, "after zeros");
    let bytes = u32::try_from(length - whole + zeros).unwrap();
    let said = Content::Event(Event::LogRecovered { bytes });
    assert_eq!(after.lines.iter().filter(|line| line.content == said).count(), 1);
    assert_eq!(after.covered.unwrap() + 1, after.lines.last().unwrap().number);
}

#[test]
fn zeros_at_the_end_are_recovered_from_as_a_cut_is() {
    let mut day = Day::begin();
    day.open(State::Official, 2);
    let all = lines(&day.file);
    let mut boundary = 0;
    let mut count = 0;
    for line in &all {
        // After each line, as many zeros as are ever taken.
        boundary += line.len();
        for zeros in 1..=ZEROS_MAX {
            with_zeros(&day, boundary, zeros);
            count += 1;
        }
        for zeros in [1, 2, 511, 512, 513, ZEROS_MAX] {
            look_at_zeros(&day, boundary, zeros);
        }
    }
    assert_eq!(ZEROS_MAX, 4096);
    // After each part of each line but the first, which is renamed into its place whole.
    for length in all[0].len()..day.file.len() {
        for zeros in [1, 2, 511, 512, 513, ZEROS_MAX] {
            look_at_zeros(&day, length, zeros);
            count += 1;
        }
    }
    for zeros in 1..=ZEROS_MAX {
        with_zeros(&day, day.file.len() - 7, zeros);
        count += 1;
    }
    println!(
        "{} lines, {} bytes: {count} files with zeros at their end",
        all.len(),
        day.file.len()
    );
}
