//! Helpers that the tests over the whole of Evenhand share.
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::print_stderr,
    clippy::missing_panics_doc,
    clippy::wildcard_enum_match_arm,
    clippy::indexing_slicing,
    reason = "this crate is tests only: a broken expectation stops the test and says why"
)]

pub mod chance;
pub mod desk;
pub mod display;
pub mod ears;
pub mod figures;
pub mod journey;
pub mod listening;
pub mod open;
pub mod paper;
pub mod pilot;
pub mod player;
pub mod reading;
pub mod records;
pub mod scanning;
pub mod sealing;
pub mod stage;
