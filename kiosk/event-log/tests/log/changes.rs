//! Every single-bit change of a log, every removal, every swap, every repeat: each is found, and
//! named by the entries' numbers.

use super::day::{Day, key, lines, public};
use evenhand_event_log::{Event, Fault, Log, Moment, Published, Report, State, Trust, verify};

fn look(file: &[u8]) -> Report {
    verify(file, Trust::Key(public(1)), &Published::default())
}

fn said(file: &[u8]) -> Vec<String> {
    look(file).finding_sentences()
}

/// A log that ends with a checkpoint, as at closing or shutting down.
fn small() -> Vec<u8> {
    let day = Day::whole(1, 1);
    assert_eq!(said(&day.file), Vec::<String>::new());
    day.file
}

#[test]
fn every_single_bit_change_is_refused() {
    let file = small();
    let mut refused = 0;
    for at in 0..file.len() {
        for bit in 0..8 {
            let mut changed = file.clone();
            changed[at] ^= 1 << bit;
            let report = look(&changed);
            assert!(!report.faults.is_empty(), "byte {at}, bit {bit}");
            // Taking it up again is refused as well, but for the last line's end, which is a cut.
            let taken = Log::recover(key(1), &changed, Moment(0));
            assert_eq!(taken.is_ok(), at == file.len() - 1, "byte {at}, bit {bit}");
            refused += 1;
        }
    }
    assert_eq!(refused, file.len() * 8);
    println!("{refused} single-bit changes of {} lines, all refused", lines(&file).len());
}

/// What comes after the last checkpoint: a change of the very last entry is found with the
/// published head digest only, all others by the chain.
#[test]
fn every_single_bit_change_after_the_last_checkpoint_is_found_with_the_head_digest() {
    let mut day = Day::begin();
    day.open(State::Test, 0);
    day.visit(0);
    let published = Published { digest: Some(day.log.head_digest()), lines: Some(day.log.lines()) };
    let trust = Trust::Key(public(1));
    assert!(verify(&day.file, trust, &published).is_clean());
    let mut only_by_digest = 0;
    for at in 0..day.file.len() {
        for bit in 0..8 {
            let mut changed = day.file.clone();
            changed[at] ^= 1 << bit;
            assert!(!verify(&changed, trust, &published).faults.is_empty(), "byte {at}, bit {bit}");
            only_by_digest += usize::from(look(&changed).faults.is_empty());
        }
    }
    println!("{} changes, {only_by_digest} found only with the head digest", day.file.len() * 8);
    assert!(only_by_digest > 0, "or the test is blind to what it says");
    let last = lines(&day.file).last().unwrap().len();
    assert!(only_by_digest < last * 8);
}

#[test]
fn every_change_of_an_entry_is_named() {
    let file = Day::whole(4, 4).file;
    let all = lines(&file);
    let mut named = 0;
    for at in 0..all.len() {
        let text = String::from_utf8(all[at].clone()).unwrap();
        // A later time of the same kind; checkpoints have none.
        let Some(hour) = ["\"minute\":", "\"hour\":"]
            .into_iter()
            .find_map(|word| text.find(word).map(|place| place + word.len()))
        else {
            continue;
        };
        let digit = if &text[hour..=hour] == "3" { "4" } else { "3" };
        let mut changed = all.clone();
        changed[at] = format!("{}{digit}{}", &text[..hour], &text[hour + 1..]).into_bytes();
        assert_eq!(said(&changed.concat()), [format!("entry {at} was changed.")]);
        named += 1;
    }
    assert!(named > 20, "{named}");
    println!("{named} changed entries, each named");
}

#[test]
fn every_removal_is_named() {
    let file = Day::whole(4, 4).file;
    let all = lines(&file);
    let mut named = 0;
    for first in 0..all.len() {
        for last in first..all.len().min(first + 4) {
            let left = [&all[..first], &all[last + 1..]].concat().concat();
            let faults = look(&left).faults;
            let (from, to) = (first as u64, last as u64);
            if last + 1 == all.len() {
                // The end: nothing but a published digest or count can tell.
                let told = look_published(&left, &file, all.len() as u64);
                assert!(told.contains(&Fault::EndMissing), "{first} to {last}: {told:?}");
                assert!(told.iter().any(|fault| matches!(fault, Fault::TooShort { .. })));
            } else {
                assert_eq!(faults, [Fault::Missing { first: from, last: to }]);
            }
            named += 1;
        }
    }
    let gone = [&all[..12], &all[15..]].concat().concat();
    assert_eq!(said(&gone), ["entries 12 to 14 are missing."]);
    println!("{named} removals of 1 to 4 entries, each named");
}

fn look_published(file: &[u8], whole: &[u8], lines: u64) -> Vec<Fault> {
    let digest = look(whole).head_digest();
    let published = Published { digest, lines: Some(lines) };
    verify(file, Trust::Key(public(1)), &published).faults
}

#[test]
fn every_swap_is_named() {
    let file = Day::whole(4, 4).file;
    let all = lines(&file);
    let mut named = 0;
    for first in 0..all.len() {
        for last in first + 1..all.len() {
            let mut swapped = all.clone();
            swapped.swap(first, last);
            let (first, last) = (first as u64, last as u64);
            assert_eq!(look(&swapped.concat()).faults, [Fault::OutOfOrder { first, last }]);
            named += 1;
        }
    }
    let mut swapped = all;
    swapped.swap(20, 21);
    assert_eq!(said(&swapped.concat()), ["entries 20 and 21 are out of order."]);
    println!("{named} swaps, each named");
}

#[test]
fn every_repeat_is_named() {
    let file = Day::whole(4, 4).file;
    let all = lines(&file);
    let mut named = 0;
    for of in 0..all.len() {
        for at in 0..=all.len() {
            let mut repeated = all.clone();
            repeated.insert(at, all[of].clone());
            let twice = Fault::Twice { entry: of as u64, differs: false };
            assert_eq!(look(&repeated.concat()).faults.first(), Some(&twice), "{of} at {at}");
            named += 1;
        }
    }
    println!("{named} repeats, each named");
}

/// Somebody without the key who makes the chain anew after a change is caught by the signatures.
#[test]
fn a_chain_made_anew_without_the_key_is_refused() {
    let file = Day::whole(4, 4).file;
    let mut forged: Vec<String> = Vec::new();
    for (at, line) in lines(&file).into_iter().enumerate() {
        let mut text = String::from_utf8(line).unwrap().trim_end().to_owned();
        if at == 3 {
            text = text.replace("\"lead\"", "\"technician\"");
        }
        if let (Some(before), Some(last)) = (text.find("\"before\":\""), forged.last()) {
            let digest = evenhand_event_log::Digest::of(last.as_bytes());
            text = format!("{}\"before\":\"{digest}\"}}", &text[..before]);
        }
        forged.push(text);
    }
    let forged = forged.join("\n") + "\n";
    let faults = look(forged.as_bytes()).faults;
    let checkpoints = forged.matches("\"checkpoint\"").count();
    assert!(checkpoints >= 4);
    assert_eq!(faults.len(), checkpoints, "{faults:?}");
    assert!(faults.iter().all(|fault| matches!(fault, Fault::BadSignature { .. })), "{faults:?}");
    // With a key of their own they are caught by the trusted one.
    let (mut log, mut own) = Log::start(key(2), super::day::head(), Moment(super::day::MORNING));
    own.extend(log.append(Event::Exported, Moment(super::day::MORNING)).unwrap());
    assert_eq!(look(&own).faults, [Fault::OtherKey, Fault::BadSignature { entry: 2 }]);
    let report = verify(&own, Trust::Itself, &Published::default());
    assert!(report.is_clean() && report.note_sentences()[0].contains("A forger can name"));
}

/// The notes that say how far verification reaches.
#[test]
fn what_the_last_checkpoint_covers_is_said() {
    let mut day = Day::begin();
    day.open(State::Test, 0);
    let at_opening = day.log.head_digest();
    day.visit(0);
    let report = look(&day.file);
    let covered = report.covered.unwrap();
    let note = format!(
        "The last checkpoint covers entry {covered}: of what comes after only the chain speaks."
    );
    assert!(report.note_sentences().contains(&note));
    let published = Published { digest: Some(at_opening), lines: None };
    let report = verify(&day.file, Trust::Key(public(1)), &published);
    assert!(report.is_clean());
    assert_eq!(report.published_at, Some(covered + 1));
}

/// The limits are held at the door.
#[test]
fn what_is_too_long_is_refused() {
    use evenhand_event_log::limits::{FILE_BYTES_MAX, LINE_BYTES_MAX, LINES_MAX};
    assert_eq!(look(&[]).faults, [Fault::Empty]);
    assert_eq!(look(&vec![b'\n'; LINES_MAX + 1]).faults, [Fault::TooLong]);
    assert_eq!(look(&vec![b'x'; FILE_BYTES_MAX + 1]).faults, [Fault::TooLong]);
    let long = [vec![b' '; LINE_BYTES_MAX + 1], b"\n".to_vec()].concat();
    assert_eq!(look(&long).faults[0], Fault::Unreadable { line: 1, entry: 0 });
}
