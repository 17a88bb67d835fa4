//! NIST's cast vote records (SP 1500-103 in JSON), as much of them as a replay needs.
#![expect(
    clippy::disallowed_methods,
    reason = "tests read the elections that they are pointed at, and where those are from the environment"
)]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use evenhand_rules::{OptionKind, Style, WRITE_IN_CHARACTERS};
use serde_json::Value;

use crate::pilot::Mark;
use crate::stage::workspace;

/// An election with cast records.
#[derive(Clone, Debug)]
pub struct ElectionFiles {
    /// The folder's name.
    pub name: String,
    /// The ballot definition.
    pub definition: PathBuf,
    /// The cast records: the raw ones where there are any, since those say what stood on paper.
    pub records: PathBuf,
    /// The published results.
    pub results: PathBuf,
}

/// The folder that holds NIST's test elections: `$EVENHAND_NIST`, else `../shared/nist`.
pub fn nist_folder() -> PathBuf {
    match std::env::var("EVENHAND_NIST") {
        Ok(folder) => PathBuf::from(folder),
        Err(_) => workspace().join("..").join("shared").join("nist"),
    }
}

/// NIST's test elections, or `None` where they aren't there. Under CI they must be.
///
/// # Panics
/// Where the variable `CI` is set and the elections are missing: a check that is skipped unseen
/// proves nothing.
pub fn nist_elections(who: &str) -> Option<Vec<ElectionFiles>> {
    let folder = nist_folder();
    let found = elections_in(&folder.join("elections"));
    if found.is_empty() {
        assert!(
            std::env::var("CI").is_err(),
            "{who}: no elections under {}; set EVENHAND_NIST to NIST's test elections",
            folder.display()
        );
        eprintln!("skipped: {who}: no elections under {}", folder.display());
        return None;
    }
    Some(found)
}

/// Every folder with a definition, cast records and results, in the order of their names.
fn elections_in(folder: &Path) -> Vec<ElectionFiles> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let mut folders: Vec<PathBuf> =
        entries.filter_map(Result::ok).map(|entry| entry.path()).filter(|p| p.is_dir()).collect();
    folders.sort();
    folders.iter().filter_map(|folder| files_of(folder)).collect()
}

fn files_of(folder: &Path) -> Option<ElectionFiles> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .ok()?
        .filter_map(Result::ok)
        .filter_map(|entry| entry.file_name().into_string().ok())
        .filter(|name| Path::new(name).extension().is_some_and(|ending| ending == "json"))
        .collect();
    names.sort();
    let find = |start: &str| {
        names.iter().find(|name| name.starts_with(start)).map(|name| folder.join(name))
    };
    Some(ElectionFiles {
        name: folder.file_name()?.to_str()?.to_owned(),
        definition: find("bd-")?,
        records: find("raw-cvr-").or_else(|| find("cvr-"))?,
        results: find("err-")?,
    })
}

/// One cast record: a ballot's unit and the marks in each contest, by the definition's ids.
#[derive(Clone, Debug)]
pub struct Record {
    /// The snapshot's id, which names the record.
    pub id: String,
    /// The unit that names the ballot style.
    pub unit: String,
    /// Each contest's marks.
    pub contests: BTreeMap<String, Vec<RecordMark>>,
}

/// One mark of a record.
#[derive(Clone, Debug)]
pub struct RecordMark {
    /// The option's id.
    pub option: String,
    /// Its rank.
    pub rank: Option<u8>,
    /// The written name as the record has it.
    pub name: Option<String>,
}

/// Reads every record of a file.
///
/// # Panics
/// Where the file isn't as the records that were looked at: better than guessing a vote.
pub fn read_records(path: &Path) -> Vec<Record> {
    let bytes = std::fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let file: Value = serde_json::from_slice(&bytes).expect("the records are JSON");
    list(&file, "CVR").iter().map(record).collect()
}

fn record(cvr: &Value) -> Record {
    let id = text(cvr, "CurrentSnapshotId");
    let is_current = |snapshot: &&Value| snapshot["@id"].as_str() == Some(&id);
    let snapshots = list(cvr, "CVRSnapshot");
    let snapshot = snapshots.iter().find(is_current).expect("the current snapshot is there");
    let mut contests = BTreeMap::new();
    for contest in list(snapshot, "CVRContest") {
        let marks = list(contest, "CVRContestSelection").iter().flat_map(marks).collect();
        let before: Option<Vec<RecordMark>> = contests.insert(text(contest, "ContestId"), marks);
        assert!(before.is_none(), "record {id} has a contest twice");
    }
    Record { id, unit: text(cvr, "BallotStyleUnitId"), contests }
}

fn marks(selection: &Value) -> Vec<RecordMark> {
    let option = text(selection, "ContestSelectionId");
    list(selection, "SelectionPosition")
        .iter()
        .filter(|position| position["HasIndication"].as_str() == Some("yes"))
        .map(|position| {
            assert_eq!(position["NumberVotes"].as_u64(), Some(1), "one oval is one vote");
            let rank = position.get("Rank").and_then(Value::as_u64);
            let written = position.get("CVRWriteIn");
            RecordMark {
                option: option.clone(),
                rank: rank.map(|rank| u8::try_from(rank).expect("few ranks")),
                name: written.map(|written| written["Text"].as_str().unwrap_or("").to_owned()),
            }
        })
        .collect()
}

fn list<'a>(value: &'a Value, field: &str) -> &'a [Value] {
    value.get(field).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

fn text(value: &Value, field: &str) -> String {
    value[field].as_str().unwrap_or_else(|| panic!("no {field}")).to_owned()
}

/// Why one contest of a record is left empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOut {
    /// The contest.
    pub contest: String,
    /// How many options are marked.
    pub marked: usize,
    /// How many may be.
    pub limit: u16,
}

/// A record as a plan: marks in ballot order, and the contests that no station can mark.
#[derive(Clone, Debug)]
pub struct Votes {
    /// The marks of every contest in ballot order.
    pub contests: Vec<Vec<Mark>>,
    /// The overvoted contests, left empty in `contests`.
    pub left_out: Vec<LeftOut>,
    /// Letters of written names that the keyboard lacks and that were written without their sign.
    pub substituted: usize,
}

/// Turns a record into marks on its style.
///
/// # Panics
/// Where the record marks a contest or an option that the style doesn't have.
pub fn votes(record: &Record, style: &Style) -> Votes {
    let mut votes = Votes { contests: Vec::new(), left_out: Vec::new(), substituted: 0 };
    let mut used = 0;
    for (_, contest) in style.contests() {
        let marked = record.contests.get(&contest.id).map_or(&[][..], Vec::as_slice);
        used += marked.len();
        let mut marks = Vec::new();
        for mark in marked {
            let (index, option) = contest
                .indexed_options()
                .find(|(_, option)| option.id == mark.option)
                .unwrap_or_else(|| panic!("{} has no option {}", contest.id, mark.option));
            let name = (option.kind == OptionKind::WriteIn).then(|| {
                let (name, count) = on_keyboard(mark.name.as_deref().unwrap_or_default());
                votes.substituted += count;
                name
            });
            assert!(mark.name.is_none() || name.is_some(), "a name on a listed option");
            marks.push(Mark { option: index.0, rank: mark.rank, name });
        }
        if marks.len() > usize::from(contest.limit()) {
            let (marked, limit) = (marks.len(), contest.limit());
            votes.left_out.push(LeftOut { contest: contest.id.clone(), marked, limit });
            marks.clear();
        }
        votes.contests.push(marks);
    }
    let all: usize = record.contests.values().map(Vec::len).sum();
    assert_eq!(used, all, "record {} marks a contest that isn't on its ballot", record.id);
    votes
}

/// A record's name as the screen's keyboard can write it: capitals, no space at the ends, and a
/// letter whose sign the keyboard lacks without that sign, as a voter would write it. Returns how
/// many letters lost their sign.
fn on_keyboard(name: &str) -> (String, usize) {
    let mut substituted = 0;
    let written = name
        .trim()
        .to_uppercase()
        .chars()
        .map(|letter| {
            if WRITE_IN_CHARACTERS.contains(letter) {
                return letter;
            }
            substituted += 1;
            match letter {
                'Ë' => 'E',
                other => panic!("the keyboard has no {other:?} and no letter to stand for it"),
            }
        })
        .collect();
    (written, substituted)
}
