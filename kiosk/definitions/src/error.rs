//! What can be wrong with a definition: where it is (class, id, field, line), what it is, and what
//! to do. The sentences are for the election office, which reads them beside an English standard.

use std::fmt;

use evenhand_rules::RefusedStyle;
use thiserror::Error;

use crate::limits;

/// Why bytes are not an election that this station can use.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum DefinitionError {
    /// More bytes than [`limits::DEFINITION_BYTES_MAX`].
    #[error(
        "the file has {bytes} bytes and the limit is {}. Make one file for each election.",
        limits::DEFINITION_BYTES_MAX
    )]
    FileTooLong {
        /// The bytes given.
        bytes: usize,
    },
    /// Not UTF-8.
    #[error(
        "line {line}: the bytes here are not UTF-8 text. Save the file as UTF-8 and check this line's names."
    )]
    NotText {
        /// The line, from 1.
        line: u32,
    },
    /// Not JSON.
    #[error(
        "line {line}: the file is not JSON here ({reason}). Export it again, or mend the line by hand."
    )]
    NotJson {
        /// The line, from 1.
        line: u32,
        /// What the JSON parser says.
        reason: String,
    },
    /// Objects within objects beyond [`limits::NESTING_MAX`].
    #[error(
        "line {line}: values lie more than {} deep in each other. No definition needs that; export the file again.",
        limits::NESTING_MAX
    )]
    TooDeep {
        /// The line, from 1.
        line: u32,
    },
    /// More values than [`limits::VALUES_MAX`].
    #[error(
        "line {line}: the file holds more than {} values. Make one file for each election.",
        limits::VALUES_MAX
    )]
    TooManyValues {
        /// The line, from 1.
        line: u32,
    },
    /// An object gives one field twice.
    #[error(
        "line {line}: the field {field} is given twice in one object. Keep the right one and delete the other."
    )]
    RepeatedField {
        /// The line of the second one, from 1.
        line: u32,
        /// The field.
        field: String,
    },
    /// One object of the file is at fault.
    #[error("{place}: {fault}")]
    Object {
        /// Where.
        place: Box<Place>,
        /// What, and what to do.
        fault: Box<Fault>,
    },
}

impl DefinitionError {
    /// The line of the file, from 1, where there is one.
    pub fn line(&self) -> Option<u32> {
        match self {
            Self::FileTooLong { .. } => None,
            Self::NotText { line }
            | Self::NotJson { line, .. }
            | Self::TooDeep { line }
            | Self::TooManyValues { line }
            | Self::RepeatedField { line, .. } => Some(*line),
            Self::Object { place, .. } => Some(place.line),
        }
    }
}

/// Where in a definition something is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The line, from 1.
    pub line: u32,
    /// The class of the object, as `@type` gives it without `BallotDefinition.`.
    pub class: String,
    /// The object's `@id`; for a style, which has none, its code; for an entry of a style's order,
    /// the id that it refers to.
    pub id: Option<String>,
    /// The field, with the way into it where it holds more (`BallotName.Text[0].Content`).
    pub field: Option<String>,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}, {}", self.line, self.class)?;
        if let Some(id) = &self.id {
            write!(f, " \"{id}\"")?;
        }
        if let Some(field) = &self.field {
            write!(f, ", field {field}")?;
        }
        Ok(())
    }
}

/// What is wrong with an object, and what to do.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Fault {
    /// Not an object where one must stand.
    #[error("this is {found} and must be an object. Give the object in braces, with its @type.")]
    NotAnObject {
        /// What stands there.
        found: &'static str,
    },
    /// Not a list where one must stand.
    #[error("this is {found} and must be a list. Put it in square brackets.")]
    NotAList {
        /// What stands there.
        found: &'static str,
    },
    /// No `@type`, or not a text.
    #[error("the object has no @type. Add one of: {expected}.")]
    NoClass {
        /// The classes that may stand here.
        expected: String,
    },
    /// A class that may not stand here.
    #[error("the @type is {found}. Here only this may stand: {expected}.")]
    WrongClass {
        /// The class given.
        found: String,
        /// The classes that may stand here.
        expected: String,
    },
    /// A field that must be there is not.
    #[error("the field is missing. SP 1500-20 requires it in {class}; add it.")]
    Missing {
        /// The object's class.
        class: String,
    },
    /// A field that the standard doesn't have, most likely a misspelled one.
    #[error(
        "{class} has no such field in SP 1500-20. Correct its spelling or delete it, else what it says would be lost."
    )]
    UnknownField {
        /// The object's class.
        class: String,
    },
    /// `null`, which SP 1500-20 never allows.
    #[error("the field is null. Give it a value or delete it.")]
    Null,
    /// A value of the wrong type.
    #[error("the value can't be read ({reason}). Give it what SP 1500-20 asks for.")]
    WrongType {
        /// What the parser says.
        reason: String,
    },
    /// More entries than a limit.
    #[error("there are {count} {what} and the limit is {limit}. Split or shorten the list.")]
    TooMany {
        /// What is counted.
        what: &'static str,
        /// How many there are.
        count: usize,
        /// The limit.
        limit: usize,
    },
    /// A text beyond its limit.
    #[error("the text has {len} characters and the limit is {limit}. Shorten it.")]
    TextTooLong {
        /// The characters given.
        len: usize,
        /// The limit.
        limit: usize,
    },
    /// No words.
    #[error(
        "the text is empty. Write what voters are to read, or delete the field where it may be left out."
    )]
    EmptyText,
    /// A character that can't be shown, printed or told from others.
    #[error(
        "the text holds {character}, which can't be shown or printed truthfully. Delete it or type the name again."
    )]
    BadCharacter {
        /// The character as `U+0007`.
        character: String,
    },
    /// Not a BCP 47 tag.
    #[error("\"{tag}\" is not a language tag. Use BCP 47, such as en, es or zh-Hant.")]
    BadLanguage {
        /// The tag given, cut to a sane length.
        tag: String,
    },
    /// One language twice in one text.
    #[error("the language {tag} is given twice in one text. Keep the right one.")]
    RepeatedLanguage {
        /// The tag.
        tag: String,
    },
    /// The election's first language is missing.
    #[error(
        "the text is not there in \"{tag}\", the first language of the election's Name. Add it, so that every voter reads something."
    )]
    MissingLanguage {
        /// The election's first language.
        tag: String,
    },
    /// Languages of a text that differ in paragraphs.
    #[error(
        "the text has {first} paragraphs in its first language and {other} in {tag}. Put blank lines at the same places in each language."
    )]
    UnevenParagraphs {
        /// Paragraphs in the first language.
        first: usize,
        /// Paragraphs in the other.
        other: usize,
        /// The other language.
        tag: String,
    },
    /// An `@id` that can't be used.
    #[error(
        "the id is empty, longer than {} bytes, or holds spaces or control characters. Give a short one.",
        limits::ID_LEN_MAX
    )]
    BadId,
    /// An `@id` that another object has.
    #[error("the id is already used on line {first_line}. Give each object an id of its own.")]
    RepeatedId {
        /// Where the first one is.
        first_line: u32,
    },
    /// A reference to nothing.
    #[error(
        "it refers to \"{id}\", and there is no {class} with that id. Correct the id or add the object."
    )]
    NoSuchObject {
        /// The id referred to.
        id: String,
        /// The class it must have.
        class: &'static str,
    },
    /// One thing twice in a list where each may stand once.
    #[error("\"{id}\" stands in the list twice. Delete one.")]
    Repeated {
        /// The id.
        id: String,
    },
    /// Another version of the standard.
    #[error(
        "the version is \"{version}\". This station reads 1.0.0; export the file in that version."
    )]
    Version {
        /// The version given.
        version: String,
    },
    /// Not one election.
    #[error("the file holds {count} elections. A station runs one: make one file for each.")]
    NotOneElection {
        /// How many.
        count: usize,
    },
    /// Not a date.
    #[error("\"{value}\" is not a date. Write year, month and day, as in 2027-05-04.")]
    BadDate {
        /// The text given, cut to a sane length.
        value: String,
    },
    /// The end before the start.
    #[error("the election ends before it starts ({start}). Correct one of the two.")]
    EndBeforeStart {
        /// The first day.
        start: String,
    },
    /// No styles.
    #[error("there is no ballot style. Add a BallotStyle for each ballot that voters get.")]
    NoStyles,
    /// Every style was refused.
    #[error(
        "none of the ballot styles can be marked here: {}. Their voters mark by hand; give this station a definition with other styles.",
        refused_list(refused)
    )]
    AllRefused {
        /// Which, and why.
        refused: Vec<RefusedStyle>,
    },
    /// A style with no contests.
    #[error("the ballot style has no contests. List them in OrderedContent, or delete the style.")]
    NoContests,
    /// The styles' texts together are too long.
    #[error(
        "with this ballot style the texts of all styles come to more than {} bytes. Make one file for each part of the county.",
        limits::STYLE_TEXT_BYTES_MAX
    )]
    TooMuchText,
    /// Two styles that no one could tell apart.
    #[error(
        "another ballot style (line {first_line}) has the same code, units and party. Give each its own ExternalIdentifier."
    )]
    SameStyle {
        /// Where the first one is.
        first_line: u32,
    },
    /// A style's unit without a name, and a style without a code to show instead.
    #[error(
        "the style is for a unit that has no Name, so voters could not tell whose ballot it is. Name the unit, or give the style an ExternalIdentifier."
    )]
    NamelessUnit,
    /// A style without units.
    #[error("the style is for no unit. Name the precincts or splits that use it.")]
    NoUnits,
    /// Headers too deep in each other.
    #[error(
        "headers lie more than {} deep in each other. Use fewer levels.",
        limits::HEADER_DEPTH_MAX
    )]
    HeadersTooDeep,
    /// A contest without options.
    #[error("the contest has no options. Add them, or take the contest out of the file.")]
    NoOptions,
    /// A number outside its range.
    #[error("the number is {value} and must be from {least} to {most}.")]
    OutOfRange {
        /// The number given.
        value: i64,
        /// The least allowed.
        least: i64,
        /// The most allowed.
        most: i64,
    },
    /// A ranked contest that doesn't say how many ranks.
    #[error(
        "a ranked contest (VoteVariation rcv) must say how many ranks there are. Add RanksAllowed."
    )]
    NoRanks,
    /// Ranks on a contest that isn't ranked.
    #[error(
        "RanksAllowed is for ranked contests only. Set VoteVariation to rcv, or delete RanksAllowed."
    )]
    RanksWithoutRanking,
    /// An approval contest for one.
    #[error(
        "an approval contest lets voters choose as many as they like, and VotesAllowed is 1. Set it to the number of options, or VoteVariation to n-of-m."
    )]
    ApprovalOfOne,
    /// An option with neither people nor a line to write on.
    #[error(
        "the option names nobody. Give CandidateIds, or set IsWriteIn to true for a write-in line."
    )]
    NobodyNamed,
    /// A party option without a party.
    #[error("the option names no party. Give PartyIds.")]
    NoParty,
    /// A write-in line that also names someone.
    #[error(
        "the option is a write-in line and names a candidate too. Delete CandidateIds, or set IsWriteIn to false."
    )]
    NamedWriteIn,
    /// An activation contest that activates nothing.
    #[error(
        "no answer of this activation contest has CausesActivation true, so it decides nothing. Set it on one."
    )]
    NothingActivates,
    /// A contest that controls itself.
    #[error("the contest is in its own ControlledContestIds. Delete it there.")]
    ControlsItself,
    /// An order that leaves an option out.
    #[error("the order leaves out the option \"{id}\". List every option of the contest once.")]
    OrderMisses {
        /// The option's id.
        id: String,
    },
    /// An order that names another contest's option.
    #[error("the contest {contest} has no option \"{id}\". List every option of the contest once.")]
    OrderOfAnother {
        /// The option's id.
        id: String,
        /// The contest's id.
        contest: String,
    },
}

fn refused_list(refused: &[RefusedStyle]) -> String {
    let shown = 5;
    let mut list: Vec<String> = refused
        .iter()
        .take(shown)
        .map(|style| format!("style {}: {}: {}", style.style, style.contest, style.reason))
        .collect();
    let more = refused.len().saturating_sub(shown);
    if more > 0 {
        list.push(format!("and {more} more"));
    }
    list.join("; ")
}
