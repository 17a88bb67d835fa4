//! What a log may hold at most. Each number has its reason; where none is published, it is ours.

/// The longest file. A busy day at one station is some thousand lines, under 1 MiB; this holds
/// years, and can be read whole on the smallest machine that runs a station.
pub const FILE_BYTES_MAX: usize = 64 * 1024 * 1024;

/// The longest line, without its line feed. The longest that this crate writes, with every count
/// at its largest, has under 480 bytes (a test measures it).
pub const LINE_BYTES_MAX: usize = 1024;

/// The most lines that are looked at: no line that this crate writes has fewer than 128 bytes, so a
/// file with more lines isn't a log, and reading it must not fill the memory.
pub const LINES_MAX: usize = FILE_BYTES_MAX / 128;

/// What is left free at the end of the file when the last visit begins, so that a day can still be
/// closed, exported and shut down in order: over 100 lines.
pub const RESERVE_BYTES: usize = 64 * 1024;

/// The most zeros at the file's end that count as a write that power cut: one block of the usual
/// file systems (4 KiB, from memory). An entry and its checkpoint, which are written at once, are
/// half of that; more zeros lie where lines had been written before.
pub const ZEROS_MAX: usize = 4096;

/// A checkpoint comes after this many lines at the latest: with fewer, signatures would be most of
/// the file; with more, too much would hang on the chain alone.
pub const CHECKPOINT_EVERY: u64 = 64;

/// The longest seal number or station number: what is stamped on seals is 6 to 12 characters (common
/// practice, no source).
pub const LABEL_LEN_MAX: usize = 16;

/// The farthest local time may be from UTC, in minutes: UTC+14 and UTC-12 are in use (the zones of
/// the IANA time zone database), this is a day.
pub const OFFSET_MINUTES_MAX: i32 = 24 * 60 - 1;

/// The last minute that can be stamped, 9999-12-31 23:59 local time: RFC 3339 years have 4 digits.
pub const MINUTE_MAX: u32 = 4_223_371_679;

/// The most findings that a report lists; a file in which everything is wrong needs no more.
pub const FINDINGS_MAX: usize = 1000;
