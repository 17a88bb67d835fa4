//! What is said to the system's print service (CUPS) about a document, and what its answers mean: IPP
//! (RFC 8010, RFC 8011) in one HTTP request, over a stream that somebody else has opened.
//!
//! Invariant: no socket, file or clock is opened here, and no ballot is known: a document is bytes
//! and a size of paper. Everything read is held to limits, and every answer may be rubbish.
//!
//! Start reading at [`print()`] (what is asked), then [`Watch`] (when a document is printed, and when
//! it has failed).
#![deny(clippy::indexing_slicing, clippy::arithmetic_side_effects)]

mod ask;
mod encoding;
mod error;
mod paper;
mod queue;
mod trouble;
mod watch;
mod wire;

pub use ask::{
    Condition, JOBS_MAX, Job, JobNumber, JobState, PRINTERS_MAX, Printer, cancel, condition, job,
    jobs, print, printers, remove,
};
pub use error::ServiceError;
pub use paper::Paper;
pub use queue::{NoSuchQueue, Queue};
pub use trouble::Trouble;
pub use watch::{TIME_MAX, Verdict, Watch};
pub use wire::ANSWER_BYTES_MAX;
