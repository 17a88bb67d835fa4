//! Real programs in the way of a sheet: the system's print service on a socket of its own with a
//! printer that plays its troubles, and SANE's `scanimage`. The references are CUPS, SANE's own
//! backends for tests, and poppler.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::unwrap_used,
    reason = "these tests start programs and look at what they leave"
)]

mod documents;
mod prints;
mod rubbish;
mod scans;
mod service;
mod whole;
