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
