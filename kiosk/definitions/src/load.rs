//! From bytes to an election.

use std::collections::BTreeMap;

use evenhand_rules::{BallotState, Election, Item, Language, Style, Text};
use serde_json::Value;

use crate::book::{self, Book, found, in_list};
use crate::classes::{self, CONTESTS};
use crate::contest;
use crate::error::{DefinitionError, Fault};
use crate::limits::{
    CONTESTS_MAX, DEFINITION_BYTES_MAX, NAME_LEN_MAX, STYLE_TEXT_BYTES_MAX, STYLES_MAX,
    TITLE_LEN_MAX,
};
use crate::lines::{Lines, ScanError, Step};
use crate::object::{Object, short};
use crate::seal::Verified;
use crate::style::{self, Contests, Outcome};
use crate::words;

/// An election, and how far it can be trusted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Loaded {
    /// Read and sound, with no seal: "demo" stands on every screen and every sheet.
    Unsealed(Election),
    /// Sealed by officials whom this station trusts.
    Sealed(Box<Verified>),
}

/// What a worker opens a station for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opening {
    /// To try it: nothing counts.
    Test,
    /// For voters.
    Election,
}

impl Loaded {
    /// The election.
    pub fn election(&self) -> &Election {
        match self {
            Self::Unsealed(election) => election,
            Self::Sealed(verified) => verified.election(),
        }
    }
    /// The election, taken out.
    pub fn into_election(self) -> Election {
        match self {
            Self::Unsealed(election) => election,
            Self::Sealed(verified) => verified.election().clone(),
        }
    }
    /// Whether "demo" must stand on every screen and sheet.
    pub fn is_demo(&self) -> bool {
        match self {
            Self::Unsealed(_) => true,
            Self::Sealed(_) => false,
        }
    }
    /// What ballots that are marked here are good for. An election that isn't sealed makes demo
    /// ballots, and one whose definition says that it is a test makes test ballots, whatever the
    /// station is opened for.
    pub fn ballot_state(&self, opening: Opening) -> BallotState {
        match (self, opening) {
            (Self::Unsealed(_), _) => BallotState::Demo,
            (Self::Sealed(verified), Opening::Election) if !verified.election().is_test => {
                BallotState::Official
            }
            (Self::Sealed(_), Opening::Election | Opening::Test) => BallotState::Test,
        }
    }
}

impl From<Verified> for Loaded {
    fn from(verified: Verified) -> Self {
        Self::Sealed(Box::new(verified))
    }
}

/// Reads one election from the bytes of a NIST SP 1500-20 Ballot Definition in JSON.
///
/// A style with a contest that can't be marked here lands in [`Election::refused`]; the other
/// styles load.
///
/// # Errors
/// [`DefinitionError`] with the object, its id, the field, the line and what to do, for anything
/// that breaks the format, a limit or a rule, anywhere in the file; also where no style is left.
pub fn load(bytes: &[u8]) -> Result<Loaded, DefinitionError> {
    let (value, lines) = parse(bytes)?;
    book::check_ids(&value, &lines)?;
    let root = Object::new(&value, &lines, &["BallotDefinition"])?;
    let file: classes::BallotDefinition = root.read()?;
    if file.version != "1.0.0" {
        return Err(root.fault("Version", Fault::Version { version: short(&file.version) }));
    }
    let elections = root.list("Election", &["Election"])?;
    let &[object] = elections.as_slice() else {
        return Err(root.fault("Election", Fault::NotOneElection { count: elections.len() }));
    };
    let read: classes::Election = object.read()?;
    check_dates(object, &read)?;
    let first = first_language(object, &read)?;
    let name = words::text(object, "Name", &read.name, TITLE_LEN_MAX, Some(&first))?;
    let book = Book::new(root, object, first)?;
    let scope = [Step::Field("ElectionScopeId".into())];
    let jurisdiction = match book.unit(object, &scope, &read.scope_id)? {
        Some(unit) => unit.clone(),
        None => words::untagged(root, "Issuer", &file.issuer, NAME_LEN_MAX, &book.first)?,
    };
    let contests = contests(object, &book)?;
    let mut election = Election {
        name,
        jurisdiction,
        date: read.start_date,
        is_test: file.is_test.unwrap_or(false),
        fingerprint: fingerprint(bytes),
        languages: Vec::new(),
        styles: Vec::new(),
        refused: Vec::new(),
    };
    add_styles(object, &book, &contests, &mut election)?;
    election.languages = common_languages(&election);
    Ok(Loaded::Unsealed(election))
}

pub(crate) fn parse(bytes: &[u8]) -> Result<(Value, Lines), DefinitionError> {
    if bytes.len() > DEFINITION_BYTES_MAX {
        return Err(DefinitionError::FileTooLong { bytes: bytes.len() });
    }
    // A byte order mark says nothing in UTF-8, and some editors write one.
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    if let Err(error) = std::str::from_utf8(bytes) {
        let sound = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let breaks = sound.split(|byte| *byte == b'\n').count();
        let line = u32::try_from(breaks).unwrap_or(u32::MAX);
        return Err(DefinitionError::NotText { line });
    }
    // The scan comes first: it holds depth and size before anything is built.
    let scanned = Lines::of(bytes).map_err(|error| match error {
        ScanError::TooDeep { line } => DefinitionError::TooDeep { line },
        ScanError::TooManyValues { line } => DefinitionError::TooManyValues { line },
        ScanError::RepeatedField { line, field } => {
            DefinitionError::RepeatedField { line, field: short(&field) }
        }
        ScanError::Malformed { line } => {
            DefinitionError::NotJson { line, reason: "a value ends too early".to_owned() }
        }
    });
    let parsed = || {
        serde_json::from_slice(bytes).map_err(|error| {
            // Column 0 is the line end before: what is wrong stands on that line.
            let line = error.line().saturating_sub(usize::from(error.column() == 0));
            DefinitionError::NotJson {
                line: u32::try_from(line.max(1)).unwrap_or(u32::MAX),
                reason: short(&error.to_string()),
            }
        })
    };
    match scanned {
        Ok(lines) => Ok((parsed()?, lines)),
        // The parser's own words say more about a malformed file.
        Err(malformed @ DefinitionError::NotJson { .. }) => {
            let _: Value = parsed()?;
            Err(malformed)
        }
        Err(error) => Err(error),
    }
}

fn first_language(
    object: Object<'_>,
    read: &classes::Election,
) -> Result<Language, DefinitionError> {
    let mut steps = vec![Step::Field("Name".into()), Step::Field("Text".into())];
    let Some(first) = read.name.text.first() else {
        return Err(object.fault_at(&steps, Fault::EmptyText));
    };
    steps.extend([Step::Item(0), Step::Field("Language".into())]);
    words::language(&first.language).map_err(|fault| object.fault_at(&steps, fault))
}

fn check_dates(object: Object<'_>, read: &classes::Election) -> Result<(), DefinitionError> {
    for (field, value) in [("StartDate", &read.start_date), ("EndDate", &read.end_date)] {
        if !is_date(value) {
            return Err(object.fault(field, Fault::BadDate { value: short(value) }));
        }
    }
    // ISO 8601 dates of one length sort as texts.
    if read.end_date < read.start_date {
        return Err(
            object.fault("EndDate", Fault::EndBeforeStart { start: read.start_date.clone() })
        );
    }
    Ok(())
}

/// Whether this is a day of the Gregorian calendar, written as ISO 8601 has it.
fn is_date(text: &str) -> bool {
    let mut parts = text.split('-');
    let mut part = |len: usize| {
        let digits = parts.next().filter(|part| part.len() == len)?;
        let only_digits = digits.bytes().all(|byte| byte.is_ascii_digit());
        digits.parse::<u32>().ok().filter(|_| only_digits)
    };
    let (Some(year), Some(month), Some(day)) = (part(4), part(2), part(2)) else { return false };
    let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    let days = match month {
        2 if is_leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        _ => 0,
    };
    parts.next().is_none() && (1..=days).contains(&day)
}

fn contests<'a>(election: Object<'a>, book: &Book) -> Result<Contests<'a>, DefinitionError> {
    let mut contests = Contests::new();
    for object in election.short_list("Contest", CONTESTS, "contests", CONTESTS_MAX)? {
        contests.insert(object.id().to_owned(), contest::entry(object, book)?);
    }
    for (id, entry) in &contests {
        let field = "ControlledContestIds";
        entry.object.each_once(field, &entry.controls)?;
        for (index, controlled) in entry.controls.iter().enumerate() {
            let steps = in_list(field, index);
            found(&contests, "contest", entry.object, &steps, controlled)?;
            if controlled == id {
                return Err(entry.object.fault_at(&steps, Fault::ControlsItself));
            }
        }
    }
    Ok(contests)
}

fn add_styles(
    object: Object<'_>,
    book: &Book,
    contests: &Contests<'_>,
    election: &mut Election,
) -> Result<(), DefinitionError> {
    let given = object.short_list("BallotStyle", &["BallotStyle"], "ballot styles", STYLES_MAX)?;
    if given.is_empty() {
        return Err(object.fault("BallotStyle", Fault::NoStyles));
    }
    let mut seen = BTreeMap::new();
    let mut text_bytes = 0usize;
    for given in given {
        match style::style(given, book, contests)? {
            Outcome::Markable(style) => {
                each_text(&style, &mut |text| {
                    for (_, words) in text.entries() {
                        text_bytes = text_bytes.saturating_add(words.len());
                    }
                });
                if text_bytes > STYLE_TEXT_BYTES_MAX {
                    return Err(given.fault_of(Fault::TooMuchText));
                }
                let party = style.party.as_ref().map(|party| party.in_language(&book.first));
                let key = (style.code.clone(), style.units.clone(), party.map(str::to_owned));
                if let Some(first_line) = seen.insert(key, given.line()) {
                    return Err(given.fault_of(Fault::SameStyle { first_line }));
                }
                election.styles.push(style);
            }
            Outcome::Refused(refused) => election.refused.push(refused),
        }
    }
    if election.styles.is_empty() {
        let refused = election.refused.clone();
        return Err(object.fault("BallotStyle", Fault::AllRefused { refused }));
    }
    Ok(())
}

/// The first eight bytes of the SHA-256 (FIPS 180-4) of the file as it is.
fn fingerprint(bytes: &[u8]) -> [u8; 8] {
    let digest = ring::digest::digest(&ring::digest::SHA256, bytes);
    let mut first = [0; 8];
    for (to, from) in first.iter_mut().zip(digest.as_ref()) {
        *to = *from;
    }
    first
}

/// The languages that every text shown on any style has, in the order of the election's name. The
/// first language of that name is always one of them: every text was held to it.
fn common_languages(election: &Election) -> Vec<Language> {
    let mut common: Vec<Language> =
        election.name.entries().iter().map(|(language, _)| language.clone()).collect();
    let mut hold = |text: &Text| common.retain(|language| text.exact(language).is_some());
    hold(&election.jurisdiction);
    for style in &election.styles {
        each_text(style, &mut hold);
    }
    common
}

/// Every text that a style shows.
fn each_text(style: &Style, see: &mut impl FnMut(&Text)) {
    see(&style.precinct);
    style.party.iter().for_each(&mut *see);
    for item in &style.items {
        match item {
            Item::Header(header) => {
                see(&header.name.shown);
                header.content.iter().for_each(&mut *see);
            }
            Item::Contest(contest) => {
                see(&contest.title.shown);
                contest.subtitle.iter().for_each(|subtitle| see(&subtitle.shown));
                contest.summary.iter().for_each(&mut *see);
                contest.full_text.iter().for_each(&mut *see);
                for option in &contest.options {
                    option.names.iter().for_each(|name| see(&name.shown));
                    option.detail.iter().for_each(&mut *see);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::is_date;

    #[test]
    fn dates_are_days_of_the_calendar() {
        for good in ["2027-05-04", "2000-02-29", "2028-02-29", "1999-12-31"] {
            assert!(is_date(good), "{good}");
        }
        let bad = [
            "",
            "2027-5-4",
            "2027-02-29",
            "1900-02-29",
            "2027-13-01",
            "2027-00-01",
            "2027-01-00",
            "2027-04-31",
            "2027-05-04T00:00",
            "+027-05-04",
            "2027-05-04-",
        ];
        for bad in bad {
            assert!(!is_date(bad), "{bad}");
        }
    }
}
