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

proptest! {
    #[test]
    fn any_bytes_are_survived(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        ask_all(&bytes);
        let head = b"HTTP/1.1 200 OK\r\n\r\n".as_slice();
        ask_all(&[head, &bytes].concat());
        let chunked = b"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n".as_slice();
        ask_all(&[chunked, &bytes].concat());
    }

    #[test]
    fn any_change_is_survived(at in any::<prop::sample::Index>(), byte in any::<u8>()) {
        let mut bytes = whole();
        let at = at.index(bytes.len());
        bytes[at] = byte;
        ask_all(&bytes);
    }
}
