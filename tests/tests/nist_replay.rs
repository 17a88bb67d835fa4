//! Every cast record of NIST's test elections, voted with two switches, printed, drawn by poppler and
//! read back: the reading is the record, and the readings' totals are NIST's published results.
#![expect(clippy::print_stdout, reason = "what was compared is told, also where all is well")]
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a broken expectation stops the test and says why"
)]
#![expect(
    clippy::disallowed_methods,
    reason = "the list of overvotes and the readings for the independent count are files"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use evenhand_marks::Reader;
use evenhand_rules::{OvalId, Rank, Reading, Selections, Style, Verdict, WRITE_IN_CHARACTERS};
use evenhand_sheet::Ballot;
use evenhand_tests::paper::{RESOLUTION, printed, python, rasterised, reader};
use evenhand_tests::pilot::{Mark, Pilot, Plan};
use evenhand_tests::records::{ElectionFiles, Record, nist_elections, read_records, votes};
use evenhand_tests::stage::{Play, Rows, Stage};
use serde_json::{Value, json};

/// Records of each of the three elections that were at hand when this was written. Fewer is a failure.
const RECORDS: [(&str, usize); 3] = [("gen-01", 40), ("gen-02", 63), ("prim-01", 40)];
/// Overvoted contests of each: they are in the committed list, one by one.
const OVERVOTES: [(&str, usize); 3] = [("gen-01", 0), ("gen-02", 39), ("prim-01", 0)];
/// Ovals that are compared, and names that are read, in each.
const COMPARED: [(&str, (usize, usize)); 3] =
    [("gen-01", (1440, 94)), ("gen-02", (3969, 57)), ("prim-01", (3240, 32))];
/// Written names of each with a letter that the keyboard lacks (Ë).
const LACKING: [(&str, usize); 3] = [("gen-01", 2), ("gen-02", 1), ("prim-01", 0)];
/// Rows that fit on the replay's screen: so few that long contests and the keyboard scroll.
const ROWS: Rows = Rows(7);
/// Records are replayed on so many threads at once.
const THREADS: usize = 2;

/// What one election's replay came to.
#[derive(Debug, Default)]
struct Tally {
    records: usize,
    ovals: usize,
    marked: usize,
    names: usize,
    presses: u64,
    substituted: usize,
    /// Record and contest of every overvote that was left out.
    left_out: BTreeSet<(String, String)>,
    /// A line of JSON a record.
    readings: BTreeMap<usize, Value>,
    faults: Vec<String>,
}

#[test]
fn every_cast_record_is_voted_printed_and_read_back() {
    let Some(elections) = nist_elections("nist replay") else { return };
    let mut overvotes = listed_overvotes();
    let (mut seen, mut faults) = (Vec::new(), Vec::new());
    for files in &elections {
        let tally = replay(files);
        println!(
            "{}: {} records, {} ovals compared ({} marked), {} written names, {} presses",
            files.name, tally.records, tally.ovals, tally.marked, tally.names, tally.presses
        );
        if !tally.faults.is_empty() {
            // All elections are played before anything is said: one fault seldom comes alone.
            faults.push(format!("{}:\n{}", files.name, tally.faults.join("\n")));
            overvotes.remove(&files.name);
            continue;
        }
        let listed = overvotes.remove(&files.name).unwrap_or_default();
        assert_eq!(tally.left_out, listed, "{}: overvotes and the list differ", files.name);
        check_counts(files, &tally);
        check_totals(files, &tally);
        seen.push(files.name.clone());
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(overvotes.is_empty(), "the list of overvotes names other elections: {overvotes:?}");
    for (name, _) in RECORDS {
        assert!(seen.iter().any(|seen| seen == name), "the election {name} is gone");
    }
}

fn check_counts(files: &ElectionFiles, tally: &Tally) {
    fn known<T: Copy>(list: &[(&str, T); 3], files: &ElectionFiles) -> Option<T> {
        list.iter().find(|(name, _)| *name == files.name).map(|(_, count)| *count)
    }
    assert!(tally.records > 0 && tally.ovals > 0 && tally.marked > 0, "{}: nothing", files.name);
    if let Some(records) = known(&RECORDS, files) {
        assert_eq!(tally.records, records, "{}: records replayed", files.name);
    }
    if let Some(compared) = known(&COMPARED, files) {
        assert_eq!((tally.ovals, tally.names), compared, "{}: ovals and names", files.name);
    }
    if let Some(overvotes) = known(&OVERVOTES, files) {
        assert_eq!(tally.left_out.len(), overvotes, "{}: overvotes left out", files.name);
    }
    if let Some(lacking) = known(&LACKING, files) {
        let expected = if WRITE_IN_CHARACTERS.contains('Ë') { 0 } else { lacking };
        assert_eq!(tally.substituted, expected, "{}: letters without their sign", files.name);
    }
}

/// The independent script counts the readings and compares them with the published results.
fn check_totals(files: &ElectionFiles, tally: &Tally) {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{}.jsonl", files.name));
    let lines: Vec<String> = tally.readings.values().map(Value::to_string).collect();
    std::fs::write(&path, lines.join("\n")).expect("the readings can be written");
    match python("nist_totals.py", &[&files.definition, &files.results, &path]) {
        Ok(said) => println!("{}: {}", files.name, said.trim()),
        Err(said) => panic!("{}: totals differ\n{said}", files.name),
    }
}

#[test]
fn the_independent_count_tells_the_straight_party_rules_apart() {
    let said = python("nist_totals.py", &[Path::new("--self-test")]);
    assert!(said.is_ok(), "{said:?}");
}

/// The committed list: election to record and contest.
fn listed_overvotes() -> BTreeMap<String, BTreeSet<(String, String)>> {
    let path: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("nist-overvotes.txt");
    let text = std::fs::read_to_string(path).expect("the list of overvotes is committed");
    let mut listed: BTreeMap<String, BTreeSet<(String, String)>> = BTreeMap::new();
    for line in text.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty()) {
        let mut words = line.split_whitespace().map(str::to_owned);
        let (Some(election), Some(record), Some(contest), Some(_marked), Some(_reason)) =
            (words.next(), words.next(), words.next(), words.next(), words.next())
        else {
            panic!("not \"election record contest marked/allowed reason\": {line}");
        };
        let is_new = listed.entry(election).or_default().insert((record, contest));
        assert!(is_new, "twice in the list: {line}");
    }
    listed
}

/// One style with its ballot and its reader.
struct Known {
    index: usize,
    ballot: Ballot,
    reader: Reader,
}

fn replay(files: &ElectionFiles) -> Tally {
    let stage = Stage::from_definition(&files.definition);
    assert!(stage.election.refused.is_empty(), "{}: a style was refused", files.name);
    let records = read_records(&files.records);
    let ids: BTreeSet<&String> = records.iter().map(|record| &record.id).collect();
    assert_eq!(ids.len(), records.len(), "{}: two records of one name", files.name);
    let known: Vec<Known> = (0..stage.election.styles.len())
        .map(|index| {
            let ballot = stage.ballot(index);
            let reader = reader(&ballot, &stage.election.styles[index]);
            Known { index, ballot, reader }
        })
        .collect();
    let tally = Mutex::new(Tally::default());
    let next = AtomicUsize::new(0);
    std::thread::scope(|scope| {
        for _ in 0..THREADS {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some(record) = records.get(at) else { break };
                    replay_record(&stage, &known, at, record, &tally);
                }
            });
        }
    });
    tally.into_inner().expect("no thread broke")
}

fn replay_record(stage: &Stage, known: &[Known], at: usize, record: &Record, tally: &Mutex<Tally>) {
    let has_unit = |known: &&Known| stage.election.styles[known.index].units.contains(&record.unit);
    let outcome = match known.iter().find(has_unit) {
        Some(known) => vote(stage, known, record),
        None => Err(format!("no style for the unit {}", record.unit)),
    };
    let mut tally = tally.lock().expect("no thread broke");
    tally.records += 1;
    match outcome {
        Ok(cast) => {
            tally.ovals += cast.ovals;
            tally.marked += cast.marked;
            tally.names += cast.names;
            tally.presses += u64::from(cast.presses);
            tally.substituted += cast.substituted;
            for contest in cast.left_out {
                tally.left_out.insert((record.id.clone(), contest));
            }
            tally.readings.insert(at, cast.reading);
        }
        Err(fault) => tally.faults.push(format!("{}: {fault}", record.id)),
    }
}

/// What one record's ballot came to.
struct Cast {
    ovals: usize,
    marked: usize,
    names: usize,
    presses: u32,
    substituted: usize,
    left_out: Vec<String>,
    reading: Value,
}

fn vote(stage: &Stage, known: &Known, record: &Record) -> Result<Cast, String> {
    let style = &stage.election.styles[known.index];
    let wanted = votes(record, style);
    let plan = Plan { language: None, contests: Some(wanted.contests.clone()) };
    let mut pilot = Pilot::new(plan);
    let mut play = Play::begin(stage.begin(known.index, known.ballot.sheet_count()), ROWS);
    let selections = play.until_print(&mut pilot)?;
    check_selections(style, &wanted.contests, &selections)?;
    let document = printed(&known.ballot, style, Some(&selections));
    let pictures = rasterised(&document, RESOLUTION);
    let seen = known.reader.read(&pictures).map_err(|refused| refused.to_string())?;
    check_reading(style, &wanted.contests, &seen.reading)?;
    // The voter's own way on: the paper agrees, is read aloud once, and is accepted.
    play.give(evenhand_visit::Input::Printed(Ok(())));
    play.give(evenhand_visit::Input::Read(Ok(seen.reading.clone())));
    play.until_idle(&mut pilot)?;
    if play.view.screen != evenhand_visit::ScreenKind::Ended {
        return Err(format!("the visit stands still on {:?}", play.view.screen));
    }
    let names = wanted.contests.iter().flatten();
    let names = names.filter(|mark| mark.name.as_ref().is_some_and(|name| !name.is_empty()));
    Ok(Cast {
        ovals: style.ovals().len(),
        marked: seen.reading.marked().count(),
        names: names.count(),
        presses: pilot.presses(),
        substituted: wanted.substituted,
        left_out: wanted.left_out.iter().map(|left| left.contest.clone()).collect(),
        reading: as_json(style, record, &seen.reading),
    })
}

/// The ovals that a plan marks, in paper order.
fn planned_ovals(style: &Style, contests: &[Vec<Mark>]) -> Vec<OvalId> {
    let mut ovals = Vec::new();
    for ((contest, _), marks) in style.contests().zip(contests) {
        for mark in marks {
            let option = evenhand_rules::OptionIndex(mark.option);
            ovals.push(OvalId { contest, option, rank: mark.rank.map(Rank) });
        }
    }
    ovals.sort_unstable();
    ovals
}

fn check_selections(
    style: &Style,
    contests: &[Vec<Mark>],
    selections: &Selections,
) -> Result<(), String> {
    if selections.ovals(style) != planned_ovals(style, contests) {
        return Err("what the visit asked to print isn't the record".into());
    }
    for ((contest, _), marks) in style.contests().zip(contests) {
        for mark in marks {
            let option = evenhand_rules::OptionIndex(mark.option);
            let written =
                selections.written(contest, option).map(evenhand_rules::WriteInText::as_str);
            if written != mark.name.as_deref() {
                return Err(format!("contest {}: a written name differs", contest.0));
            }
        }
    }
    Ok(())
}

/// Every oval and every write-in line of the reading against the record.
fn check_reading(style: &Style, contests: &[Vec<Mark>], reading: &Reading) -> Result<(), String> {
    let read: Vec<OvalId> = reading.marked().collect();
    if read != planned_ovals(style, contests) {
        return Err("the ovals on paper aren't the record's".into());
    }
    if reading.doubts().count() > 0 {
        return Err("an oval is doubtful".into());
    }
    let all: Vec<OvalId> =
        reading.contests.iter().flat_map(|contest| &contest.ovals).map(|oval| oval.oval).collect();
    if all != style.ovals() {
        return Err("the reading hasn't every oval of the ballot".into());
    }
    for line in &reading.write_ins {
        let marks = &contests[usize::from(line.contest.0)];
        let mark = marks.iter().find(|mark| mark.option == line.option.0);
        let wanted = mark.and_then(|mark| mark.name.as_deref()).filter(|name| !name.is_empty());
        if line.text.as_deref() != wanted || line.inked != wanted.is_some() {
            let (contest, option) = (line.contest.0, line.option.0);
            return Err(format!(
                "line {contest}.{option}: read {:?}, the record has {wanted:?}",
                line.text
            ));
        }
    }
    Ok(())
}

/// A reading by the definition's own ids, for a script that knows nothing of Evenhand.
fn as_json(style: &Style, record: &Record, reading: &Reading) -> Value {
    let mut contests = serde_json::Map::new();
    for contest in &reading.contests {
        let definition = style.contest(contest.contest).expect("the reading is of this style");
        let marks: Vec<Value> = contest
            .ovals
            .iter()
            .filter(|oval| oval.verdict == Verdict::Marked)
            .map(|oval| {
                let option = definition.option(oval.oval.option).expect("it is on the ballot");
                let rank = oval.oval.rank.map(|rank| rank.0);
                json!({ "option": option.id, "rank": rank })
            })
            .collect();
        contests.insert(definition.id.clone(), marks.into());
    }
    json!({ "record": record.id, "unit": record.unit, "contests": contests })
}
