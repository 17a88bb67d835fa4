//! The limit on everything that a definition or a settings file may hold, each with its reason.
//!
//! Where no source is named the number is our own choice: well above what NIST's samples and a
//! large county's ballot need, and low enough that a hostile file can't tie up the station.

/// The longest definition, in bytes. NIST's samples have 37 to 88 kB.
pub const DEFINITION_BYTES_MAX: usize = 8 * 1024 * 1024;
/// The longest settings file, in bytes: four short fields.
pub const SETTINGS_BYTES_MAX: usize = 16 * 1024;
/// How deep objects and arrays may lie in each other. SP 1500-20 needs about 12, and two more for
/// each header within a header.
pub const NESTING_MAX: usize = 64;
/// How many values (objects, arrays, strings, numbers) a file may hold: about 70 MB in memory.
pub const VALUES_MAX: usize = 400_000;
/// How many headers may lie in each other.
pub const HEADER_DEPTH_MAX: usize = 8;

/// Ballot styles of one election. The sheet's code numbers them with two bytes.
pub const STYLES_MAX: usize = 2_000;
/// Units that share one style; their names stand on the voter's first screen.
pub const UNITS_A_STYLE_MAX: usize = 50;
/// Contests of one style. Long ballots have about 100 (from memory).
pub const CONTESTS_A_STYLE_MAX: usize = 200;
/// Headers of one style.
pub const HEADERS_A_STYLE_MAX: usize = 200;
/// Text of all contests of all styles, in bytes: a style holds its contests' texts itself, so a
/// small file with many styles of long contests would fill the memory.
pub const STYLE_TEXT_BYTES_MAX: usize = 128 * 1024 * 1024;
/// Contests of one election, over all styles.
pub const CONTESTS_MAX: usize = 5_000;
/// Options of one contest, write-in lines included.
pub const OPTIONS_A_CONTEST_MAX: usize = 100;
/// People on one ticket.
pub const CANDIDATES_AN_OPTION_MAX: usize = 8;
/// Parties beside one name.
pub const PARTIES_AN_OPTION_MAX: usize = 8;
/// Ranks of a ranked contest: more columns of ovals don't fit a column of the sheet.
pub const RANKS_MAX: u8 = 10;
/// Votes of a contest: what the schema's plain integer must still be sane for.
pub const VOTES_ALLOWED_MAX: u16 = 1_000;

/// Languages of one text. No county is known to need more than seven (requirements, section 8).
pub const LANGUAGES_MAX: usize = 20;
/// The longest language tag (RFC 5646, section 4.4.1 asks for room for 35 characters).
pub const LANGUAGE_TAG_LEN_MAX: usize = 35;
/// The longest `@id`, in bytes.
pub const ID_LEN_MAX: usize = 128;
/// The longest name of a person, party, unit or answer, in characters.
pub const NAME_LEN_MAX: usize = 200;
/// The longest title or second line of a contest, header or election, in characters.
pub const TITLE_LEN_MAX: usize = 500;
/// The longest short text of a measure, in characters.
pub const SUMMARY_LEN_MAX: usize = 4_000;
/// The longest full text of a measure, in characters: about 15 pages of a sheet.
pub const FULL_TEXT_LEN_MAX: usize = 40_000;
/// Paragraphs of a full text.
pub const PARAGRAPHS_MAX: usize = 400;

/// Replacements of a spoiled sheet that an office may allow. State laws give two or three (from
/// memory).
pub const REPLACEMENTS_MAX: u8 = 20;
/// Languages on one sheet: English, or two languages.
pub const PRINTED_LANGUAGES_MAX: usize = 2;

/// The longest list of recordings, in bytes: [`RECORDINGS_MAX`] texts of 300 letters.
pub const SOUND_LIST_BYTES_MAX: usize = 8 * 1024 * 1024;
/// Recordings of one election: 20 languages of 1,000 texts.
pub const RECORDINGS_MAX: usize = 20_000;
/// The longest name of a sound file, with its folder, in bytes.
pub const SOUND_FILE_NAME_LEN_MAX: usize = 128;
/// The largest sound file, in bytes: two minutes of wav at the highest rate, in two channels.
pub const RECORDING_BYTES_MAX: usize = 24 * 1024 * 1024;
/// The longest recording, in seconds: a paragraph of 250 words.
pub const RECORDING_SECONDS_MAX: u64 = 120;
/// The shortest recording, in milliseconds: a letter's name takes twice as long.
pub const RECORDING_MILLIS_MIN: u32 = 100;
/// The fewest samples a second: sound up to 10 kHz (VVSG 2.0 7.1-L, from memory) needs more than
/// 20,000 (sampling theorem), and this is the next usual rate.
pub const SAMPLE_RATE_MIN: u32 = 22_050;
/// The most samples a second that are usual for speech.
pub const SAMPLE_RATE_MAX: u32 = 48_000;
/// Channels of a recording; two are mixed to one.
pub const RECORDING_CHANNELS_MAX: usize = 2;
/// The loudest sample, in dB of full scale: one that reaches it may have been cut off.
pub const PEAK_DB_MAX: f64 = -1.0;
/// The softest recording, as the root of the mean square in dB of full scale. The synthetic voice
/// has -24 to -21 in eight languages (measured at the loudest step): about 6 dB around them, so
/// that a voter who hears both need not change the loudness.
pub const RMS_DB_MIN: f64 = -29.0;
/// The loudest recording; see [`RMS_DB_MIN`].
pub const RMS_DB_MAX: f64 = -16.0;

/// The longest file of streets, in bytes: [`STREET_ROWS_MAX`] rows of 80.
pub const STREETS_BYTES_MAX: usize = 4 * 1024 * 1024;
/// Rows of the file of streets, and ballots that they lead to: every block of a city of half a
/// million where one has 10. With [`STYLES_MAX`] they stay below what two bytes count, by which a
/// worker's screen numbers them.
pub const STREET_ROWS_MAX: usize = 50_000;
/// The longest name of a street, in characters: more doesn't fit a row of the worker's screen.
pub const STREET_NAME_LEN_MAX: usize = 80;
/// The highest number of a house: rural ones have five digits (from memory), and one more.
pub const HOUSE_NUMBER_MAX: u32 = 999_999;
/// Codes of styles that an error lists; one who looks for the right one needs no more.
pub(crate) const STYLES_NAMED_MAX: usize = 40;

/// The longest sealed election, in bytes: it is held in memory as a whole, and 12 hours of sound as
/// ogg vorbis have 400 MB or so.
pub const SEALED_BYTES_MAX: usize = 512 * 1024 * 1024;
/// Files of a sealed election: definition, settings, streets, the list of recordings, and the
/// recordings.
pub const SEALED_FILES_MAX: usize = 4 + RECORDINGS_MAX;
/// The longest path in a sealed election, in bytes: what the name of a plain header holds (POSIX
/// ustar, from memory), so that no path is ever in two pieces.
pub const SEALED_PATH_LEN_MAX: usize = 100;
/// The longest manifest, in bytes: [`SEALED_FILES_MAX`] entries of 250.
pub const MANIFEST_BYTES_MAX: usize = 8 * 1024 * 1024;
/// The longest list of signatures, in bytes: [`OFFICIALS_MAX`] entries of 270.
pub const SIGNATURES_BYTES_MAX: usize = 16 * 1024;
/// Officials whose keys one station trusts, and so signatures under one election: more than any
/// canvassing board is known to have (own choice).
pub const OFFICIALS_MAX: usize = 32;
/// The longest trust file, in bytes: [`OFFICIALS_MAX`] names of the greatest length.
pub const TRUST_BYTES_MAX: usize = 64 * 1024;
/// Groups of four digits on one line of a digest that is read aloud: as many as fit in one breath
/// and in short memory (own choice).
pub const ALOUD_GROUPS_A_LINE: usize = 4;
/// The longest list of workers, in bytes: [`WORKERS_MAX`] of them with the longest names need half.
pub const WORKERS_BYTES_MAX: usize = 128 * 1024;
/// Workers of one list: those of a few polling places.
pub const WORKERS_MAX: usize = 100;
/// The longest name of a worker, in characters: more doesn't fit a badge.
pub const WORKER_NAME_LEN_MAX: usize = 60;
/// The shortest code of a worker, in digits: a million of them, at 30 seconds a try and more.
pub const CODE_LEN_MIN: usize = 6;
/// The longest code of a worker, in digits: nobody types more without a mistake.
pub const CODE_LEN_MAX: usize = 12;
