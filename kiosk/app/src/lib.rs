//! The station: one process that starts a visit after the other and keeps the log, and one process
//! for each visit, which is the voter's window.
//!
//! Invariant: choices are in the visit's process only, in its `Visit`. The station's process gets a
//! closed list of events and nothing else. No file, no line of a log and no debug print of this
//! crate holds a choice; what the demo's printer writes is the paper.
//!
//! Start reading at [`command_line`], then [`station`] and [`window`]; what is drawn is in [`scene`].

pub mod command_line;
pub mod confine;
pub mod day;
pub mod devices;
pub mod event_words;
pub mod events;
pub mod keys;
pub mod ledger;
pub mod metrics;
mod own;
pub mod palette;
pub mod pane;
pub mod prepared;
pub mod recorded;
mod ruler;
pub mod scene;
pub mod sealed_files;
pub mod self_test;
pub mod set_up;
pub mod shapes;
pub mod source;
pub mod station;
pub mod station_file;
pub mod trace;
pub mod typesetter;
pub mod window;
pub mod worker_window;
