//! Whatever a print service answers, the asker gives an error or what was asked for, and never panics
//! or goes on for ever.
#![expect(clippy::unwrap_used, reason = "a test may panic")]

use std::io::{self, Cursor, Read, Write};

use evenhand_printers::{JobNumber, Queue, condition, job, jobs, print, printers, remove};
use proptest::prelude::*;

/// A service that says this and hears everything.
struct Says(Cursor<Vec<u8>>);

impl Read for Says {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        self.0.read(to)
    }
}

impl Write for Says {
    fn write(&mut self, from: &[u8]) -> io::Result<usize> {
        Ok(from.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Asks everything, and counts what was answered.
fn ask_all(answer: &[u8]) -> usize {
    let says = || Says(Cursor::new(answer.to_vec()));
    let queue: Queue = "ballots".parse().unwrap();
    let number = JobNumber(1);
    let paper = evenhand_printers::Paper { width_mil: 8_500, length_mil: 11_000, sides: 1 };
    [
        printers(says()).is_ok(),
        condition(says(), &queue).is_ok(),
        job(says(), &queue, number).is_ok(),
        jobs(says(), &queue).is_ok(),
        remove(says(), &queue, number).is_ok(),
        print(says(), &queue, b"document", paper).is_ok(),
    ]
    .into_iter()
    .filter(|is_answered| *is_answered)
    .count()
}

/// An attribute (RFC 8010, 3.1.4): tag, name, value.
fn attribute(tag: u8, name: &str, value: &[u8]) -> Vec<u8> {
    let length = |bytes: &[u8]| u16::try_from(bytes.len()).unwrap().to_be_bytes();
    let name = name.as_bytes();
    [&[tag][..], &length(name), name, &length(value), value].concat()
}

/// An answer, written by hand after RFC 8010 (tags 0x21 integer, 0x23 enum, 0x44 keyword), that has
/// a printer and a job in it.
fn whole() -> Vec<u8> {
    let body = [
        vec![2, 0, 0, 0, 0, 0, 0, 1, 1],
        attribute(0x47, "attributes-charset", b"utf-8"),
        attribute(0x48, "attributes-natural-language", b"en"),
        vec![4],
        attribute(0x42, "printer-name", b"ballots"),
        attribute(0x23, "printer-state", &[0, 0, 0, 5]),
        attribute(0x44, "printer-state-reasons", b"media-jam-error"),
        attribute(0x44, "", b"media-empty-error"),
        vec![2],
        attribute(0x21, "job-id", &[0, 0, 0, 7]),
        attribute(0x23, "job-state", &[0, 0, 0, 9]),
        vec![3],
    ]
    .concat();
    let head = format!("HTTP/1.1 200 OK\r\nContent-Length: {}\r\n\r\n", body.len());
    [head.as_bytes(), &body].concat()
}

#[test]
fn a_whole_answer_answers_everything() {
    assert_eq!(ask_all(&whole()), 6);
    let queue: Queue = "ballots".parse().unwrap();
    let found = condition(Says(Cursor::new(whole())), &queue).unwrap();
    assert!(found.is_stopped && found.troubles.len() == 2, "{found:?}");
}

#[test]
fn an_answer_that_is_cut_answers_nothing() {
    let whole = whole();
    for end in 0..whole.len() {
        assert_eq!(ask_all(&whole[..end]), 0, "{end}");
    }
}

/// An answer of HTTP with these attributes in the group of a printer.
fn with(attributes: &[Vec<u8>]) -> Vec<u8> {
    let body = [vec![2, 0, 0, 0, 0, 0, 0, 1, 4], attributes.concat(), vec![3]].concat();
    let head = format!("HTTP/1.1 200 OK\r\nContent-Length: {}\r\n\r\n", body.len());
    [head.as_bytes(), &body].concat()
}

/// Why the service's printers can't be told.
fn refusal(answer: &[u8]) -> String {
    printers(Says(Cursor::new(answer.to_vec()))).unwrap_err().to_string()
}

/// RFC 8010, 3.9: `textWithLanguage` and `nameWithLanguage` hold two lengths of their own.
#[test]
fn a_language_that_reaches_past_its_value_is_refused() {
    let name = |value: &[u8]| with(&[attribute(0x36, "printer-name", value)]);
    assert!(printers(Says(Cursor::new(name(b"\x00\x02en\x00\x07ballots")))).is_ok());
    for (value, why) in [
        (b"".as_slice(), "it is cut"),
        (b"\x00", "it is cut"),
        (b"\x00\x07en", "a length reaches past its end"),
        (b"\x00\x02en", "it is cut"),
        (b"\x00\x02en\x00\x08ballots", "a length reaches past its end"),
        (b"\x00\x02en\x00\x06ballots", "a text is shorter than its value"),
    ] {
        let said = refusal(&name(value));
        assert!(said.contains(why), "{value:?}: {said}");
    }
}

/// RFC 8010, 3.1.6: a collection begins with 0x34 and ends with 0x37; a member's name is 0x4a.
#[test]
fn collections_are_bounded() {
    let nested = |begun: usize, ended: usize| {
        let deeper = [attribute(0x34, "", b""), attribute(0x4a, "", b"deeper")].concat();
        let end = attribute(0x37, "", b"");
        with(&[attribute(0x44, "media-col", b""), deeper.repeat(begun), end.repeat(ended)])
    };
    assert!(printers(Says(Cursor::new(nested(8, 8)))).is_ok());
    assert!(refusal(&nested(9, 9)).contains("too many collections"));
    assert!(refusal(&nested(40_000, 40_000)).contains("too many collections"));
    assert!(refusal(&nested(2, 1)).contains("not ended"));
    assert!(refusal(&nested(1, 2)).contains("not begun"));
}

/// Every byte of a whole answer as every other: all of them, not some by chance.
#[test]
fn every_change_of_a_byte_is_survived() {
    let whole = whole();
    for at in 0..whole.len() {
        for byte in 0..=u8::MAX {
            let mut changed = whole.clone();
            changed[at] = byte;
            ask_all(&changed);
        }
    }
}

proptest! {
    #[test]
    fn any_bytes_are_survived(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        ask_all(&bytes);
        let head = b"HTTP/1.1 200 OK\r\n\r\n".as_slice();
        ask_all(&[head, &bytes].concat());
        let chunked = b"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n".as_slice();
        ask_all(&[chunked, &bytes].concat());
    }

    /// Attributes whose outer lengths are right and whose values are anything.
    #[test]
    fn any_values_are_survived(
        values in prop::collection::vec((any::<u8>(), "[a-z-]{0,20}", prop::collection::vec(any::<u8>(), 0..20)), 0..20)
    ) {
        let attributes: Vec<_> =
            values.iter().map(|(tag, name, value)| attribute(*tag, name, value)).collect();
        ask_all(&with(&attributes));
    }
}
