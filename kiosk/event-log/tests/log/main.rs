//! The tests of the log: a day of a station, cut, changed, doubted, and fed with anything.
#![expect(clippy::unwrap_used, clippy::print_stdout, reason = "tests may")]

mod changes;
mod cuts;
mod day;
mod door;
mod doubts;
