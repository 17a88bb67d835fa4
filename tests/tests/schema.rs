//! The loader against NIST's own files: the schema of SP 1500-20, three elections, three examples
//! and a sample with a physical layout; and the demo's definition against that schema.
//!
//! NIST's files are looked for in `$EVENHAND_NIST`, else in `../shared/nist` beside the workspace.
//! Without them a test says that it was skipped; in CI it fails.
#![expect(clippy::disallowed_methods, reason = "tests read files and the environment")]
#![expect(
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a test's helpers may"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use evenhand_definitions::{
    DefinitionError, Fault, SettingsError, StationSettings, fields_of, load, settings,
};
use evenhand_rules::{ContestKind, Election, Item, Language, OptionKind, Rule, Style};
use serde_json::{Value, json};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// NIST's folder, or nothing where it isn't at hand and no CI asks for it.
fn nist(test: &str) -> Option<PathBuf> {
    let folder = std::env::var("EVENHAND_NIST")
        .map_or_else(|_| root().join("../shared/nist"), PathBuf::from);
    if folder.is_dir() {
        return Some(folder);
    }
    assert!(std::env::var("CI").is_err(), "{test}: no NIST files at {}", folder.display());
    println!("skipped: {test} (no NIST files at {})", folder.display());
    None
}

fn bytes(path: &Path) -> Vec<u8> {
    fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn json_of(path: &Path) -> Value {
    serde_json::from_slice(&bytes(path)).expect("the file is JSON")
}

fn election(path: &Path) -> Election {
    match load(&bytes(path)) {
        Ok(loaded) => loaded.into_election(),
        Err(error) => panic!("{}: {error}", path.display()),
    }
}

/// Every `bd-*.json` under `elections/`.
fn definitions(nist: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for folder in fs::read_dir(nist.join("elections")).expect("NIST's elections are there") {
        let folder = folder.expect("the folder can be read").path();
        let Some(name) = folder.file_name().map(|name| name.to_string_lossy().into_owned()) else {
            continue;
        };
        let path = folder.join(format!("bd-{name}.json"));
        if path.is_file() {
            found.push(path);
        }
    }
    found.sort();
    assert!(found.len() >= 3, "fewer than NIST's three elections in {}", nist.display());
    found
}

fn texts<'v>(value: &'v Value, list: &str) -> Vec<&'v str> {
    value[list].as_array().map_or(Vec::new(), |ids| ids.iter().filter_map(Value::as_str).collect())
}

fn list<'v>(value: &'v Value, name: &str) -> &'v [Value] {
    value[name].as_array().map_or(&[], Vec::as_slice)
}

fn by_id<'v>(objects: &'v [Value], id: &str) -> &'v Value {
    objects.iter().find(|object| object["@id"] == id).unwrap_or_else(|| panic!("no {id}"))
}

/// The contests of a style in the raw JSON, headers aside, however deep.
fn ordered_contests<'v>(holder: &'v Value, into: &mut Vec<&'v Value>) {
    for entry in list(holder, "OrderedContent") {
        if entry["@type"] == "BallotDefinition.OrderedContest" {
            into.push(entry);
        }
        ordered_contests(entry, into);
    }
}

/// Compares one loaded style with the raw JSON: contests, options and their order, limits, names.
fn check_style(style: &Style, raw: &Value, raw_election: &Value) -> (usize, usize) {
    assert_eq!(style.units, texts(raw, "GpUnitIds"));
    let mut order = Vec::new();
    ordered_contests(raw, &mut order);
    assert_eq!(usize::from(style.contest_count()), order.len());
    let mut options = 0;
    for ((_, contest), entry) in style.contests().zip(&order) {
        assert_eq!(entry["ContestId"], contest.id.as_str());
        let raw = by_id(list(raw_election, "Contest"), &contest.id);
        let own: Vec<&str> =
            list(raw, "ContestOption").iter().filter_map(|option| option["@id"].as_str()).collect();
        let given = texts(entry, "OrderedContestOptionIds");
        let wanted = if given.is_empty() { own } else { given };
        let got: Vec<&str> = contest.options.iter().map(|option| option.id.as_str()).collect();
        assert_eq!(got, wanted, "{}", contest.id);
        options += got.len();
        let limit = if raw["VoteVariation"] == "rcv" { "RanksAllowed" } else { "VotesAllowed" };
        let limit = raw[limit].as_u64().unwrap_or(1).min(got.len() as u64);
        assert_eq!(u64::from(contest.limit()), limit, "{}", contest.id);
        for option in &contest.options {
            let raw = by_id(list(raw, "ContestOption"), &option.id);
            assert_eq!(raw["IsWriteIn"] == true, option.kind == OptionKind::WriteIn);
            let people = texts(raw, "CandidateIds");
            if option.kind == OptionKind::Listed && !people.is_empty() {
                let names: Vec<String> = people
                    .iter()
                    .map(|id| by_id(list(raw_election, "Candidate"), id))
                    .map(|person| person["BallotName"]["Text"][0]["Content"].as_str().unwrap())
                    .map(|name| name.split_whitespace().collect::<Vec<_>>().join(" "))
                    .collect();
                let shown: Vec<&str> = option
                    .names
                    .iter()
                    .map(|name| name.shown.in_language(&Language::new("en")))
                    .collect();
                assert_eq!(shown, names);
            }
        }
    }
    (order.len(), options)
}

#[test]
fn nist_elections_load_whole() {
    let Some(nist) = nist("nist_elections_load_whole") else { return };
    for path in definitions(&nist) {
        let election = election(&path);
        let raw = json_of(&path);
        let raw = &raw["Election"][0];
        assert!(election.refused.is_empty(), "{:?}", election.refused);
        assert_eq!(election.styles.len(), list(raw, "BallotStyle").len());
        let (mut contests, mut options) = (0, 0);
        for (style, raw_style) in election.styles.iter().zip(list(raw, "BallotStyle")) {
            let (more_contests, more_options) = check_style(style, raw_style, raw);
            contests += more_contests;
            options += more_options;
        }
        println!(
            "{}: {} styles, {contests} contests, {options} options over all styles",
            path.display(),
            election.styles.len()
        );
    }
}

/// Figures that NIST's READMEs state, so that the walk above isn't the only witness.
#[test]
fn nist_elections_have_what_their_readmes_say() {
    let Some(nist) = nist("nist_elections_have_what_their_readmes_say") else { return };
    let of = |name: &str| election(&nist.join(format!("elections/{name}/bd-{name}.json")));

    let gen_01 = of("gen-01");
    assert_eq!(gen_01.styles.len(), 4);
    for style in &gen_01.styles {
        let (_, party) = style.contests().next().expect("a contest");
        assert_eq!(party.kind, ContestKind::StraightParty);
        // Every affected contest is one of parties; measures and the dog catcher are not.
        assert!(party.affects.iter().all(|at| {
            style.contest(*at).is_some_and(|contest| contest.kind == ContestKind::Office)
        }));
        assert_eq!(party.affects.len(), 7);
    }

    // "15 contests compiled into 3 ballot styles"; RCV with 3 ranks; a recall.
    let gen_02 = of("gen-02");
    assert_eq!(gen_02.styles.len(), 3);
    for style in &gen_02.styles {
        let ranked: Vec<_> = style
            .contests()
            .filter(|(_, contest)| contest.rule == Rule::Rank { ranks: 3 })
            .map(|(_, contest)| contest.options.len())
            .collect();
        assert_eq!(ranked, [9]);
        let (_, recall) = style
            .contests()
            .find(|(_, contest)| contest.kind == ContestKind::Activation)
            .expect("the recall");
        let affected = style.contest(recall.affects[0]).expect("the successor");
        assert_eq!(affected.id, "cc-recall-governor");
        assert!(recall.summary.is_some());
    }

    // Flat headers: one stands before each party's six contests.
    let prim_01 = of("prim-01");
    for style in &prim_01.styles {
        let headers = style.items.iter().filter(|item| matches!(item, Item::Header(_))).count();
        assert_eq!((headers, style.contest_count()), (5, 30));
    }
}

#[test]
fn nist_physical_sample_loads() {
    let Some(nist) = nist("nist_physical_sample_loads") else { return };
    let election = election(&nist.join("physical/physical_ballot_def_3.json"));
    assert_eq!(election.styles[0].contest_count(), 25);
    assert_eq!(election.styles[0].code, "01-0052-01");
    // The file has tabs and line ends within names.
    let (_, governor) = election.styles[0].contests().next().expect("a contest");
    let names: Vec<&str> = governor
        .options
        .iter()
        .flat_map(|option| &option.names)
        .map(|name| name.shown.in_language(&Language::new("en")))
        .collect();
    assert!(names.contains(&"Edward FitzGerald and Sharen Swartz Neuhardt"), "{names:?}");
}

/// NIST's examples have no ballot style: that is their error. With a style that lists all their
/// contests, two load and the party preference one is refused by name.
#[test]
fn nist_examples_behave() {
    let Some(nist) = nist("nist_examples_behave") else { return };
    for (name, preference) in
        [("activation", false), ("partisan_preference", true), ("straight_party", false)]
    {
        let mut raw = json_of(&nist.join(format!("examples/controlling_contest_{name}.json")));
        let Err(DefinitionError::Object { fault, .. }) = load(raw.to_string().as_bytes()) else {
            panic!("{name} has no style")
        };
        assert_eq!(*fault, Fault::NoStyles);
        let contests: Vec<Value> = list(&raw["Election"][0], "Contest")
            .iter()
            .map(|contest| {
                json!({"@type": "BallotDefinition.OrderedContest", "ContestId": contest["@id"]})
            })
            .collect();
        let unit = raw["GpUnit"][0]["@id"].clone();
        raw["Election"][0]["BallotStyle"] = json!([{
            "@type": "BallotDefinition.BallotStyle",
            "GpUnitIds": [unit],
            "OrderedContent": contests,
        }]);
        match load(raw.to_string().as_bytes()) {
            Ok(loaded) => {
                assert!(!preference, "{name} loads");
                let election = loaded.election();
                let (_, first) = election.styles[0].contests().next().expect("a contest");
                assert!(!first.affects.is_empty());
            }
            Err(error) => {
                assert!(preference, "{name}: {error}");
                let said = error.to_string();
                assert!(said.contains("Open Primary (cc-party-preference)"), "{said}");
                assert!(said.contains("party preference contest"), "{said}");
            }
        }
    }
}

/// The table of fields in the crate is the schema's, class by class.
#[test]
fn fields_are_those_of_the_schema() {
    let Some(nist) = nist("fields_are_those_of_the_schema") else { return };
    let schema = json_of(&nist.join("schemas/NIST_V1_ballot_definition.json"));
    let definitions = schema["definitions"].as_object().expect("definitions");
    let mut known = 0;
    for (name, definition) in definitions {
        let Some(class) = name.strip_prefix("BallotDefinition.") else { continue };
        let Some((required, optional)) = fields_of(class) else { continue };
        known += 1;
        let wanted: BTreeSet<&str> =
            texts(definition, "required").into_iter().filter(|field| *field != "@type").collect();
        assert_eq!(required.iter().copied().collect::<BTreeSet<_>>(), wanted);
        let all: BTreeSet<&str> = required.iter().chain(optional).copied().collect();
        let properties = definition["properties"].as_object().expect("properties");
        let wanted: BTreeSet<&str> =
            properties.keys().map(String::as_str).filter(|field| *field != "@type").collect();
        assert_eq!(all, wanted, "{class}");
    }
    assert_eq!(known, 21);
}

/// Each definition of ours, and each of NIST's, keeps NIST's schema by a validator that isn't ours;
/// and the validator can say no.
#[test]
fn definitions_keep_the_schema() {
    let Some(nist) = nist("definitions_keep_the_schema") else { return };
    let schema = json_of(&nist.join("schemas/NIST_V1_ballot_definition.json"));
    let validator = jsonschema::options()
        .should_validate_formats(true)
        .build(&schema)
        .expect("NIST's schema is a schema");
    let mut paths = definitions(&nist);
    paths.push(root().join("tests/bad-definitions/base.json"));
    let ours = demo_folders();
    paths.extend(ours.iter().map(|folder| folder.join("definition.json")));
    for path in &paths {
        let value = json_of(path);
        let errors: Vec<String> = validator
            .iter_errors(&value)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect();
        assert!(errors.is_empty(), "{}: {errors:#?}", path.display());
    }
    let mut broken = json_of(&paths[0]);
    broken["Election"][0]["Contest"][0]["VotesAllowd"] = json!(1);
    assert!(!validator.is_valid(&broken));
    println!("{} definitions keep the schema, {} of them ours", paths.len(), ours.len());
}

fn demo_folders() -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = fs::read_dir(root().join("ballot-definitions"))
        .expect("ballot-definitions is there")
        .map(|entry| entry.expect("the folder can be read").path())
        .filter(|path| path.is_dir())
        .collect();
    folders.sort();
    assert!(!folders.is_empty(), "no election in ballot-definitions");
    folders
}

/// What the demo must hold, as the task lists it.
#[test]
fn demo_elections_load_with_all_that_they_must_show() {
    for folder in demo_folders() {
        let election = election(&folder.join("definition.json"));
        let settings = settings(&bytes(&folder.join("settings.json"))).expect("settings");
        settings.check_against(&election).expect("settings fit the election");
        let absent = StationSettings {
            station_languages: vec![Language::new("en"), Language::new("vi")],
            ..settings.clone()
        };
        let tag = "vi".to_owned();
        let field = "station_languages";
        assert_eq!(
            absent.check_against(&election),
            Err(SettingsError::NotInElection { field, tag })
        );
        assert!(election.is_test && election.refused.is_empty());
        assert_eq!(election.languages, [Language::new("en"), Language::new("es")]);
        assert!(election.styles.len() >= 4);

        let contests: Vec<_> =
            election.styles.iter().flat_map(|style| style.contests().map(|(_, c)| c)).collect();
        let any = |name: &str, found: bool| assert!(found, "the demo has no {name}");
        let longest = election.styles.iter().map(Style::contest_count).max();
        any("style of 18 contests", longest >= Some(18));
        any("vote for 1", contests.iter().any(|c| c.rule == Rule::Choose { max: 1 }));
        any("vote for 3", contests.iter().any(|c| c.rule == Rule::Choose { max: 3 }));
        any("ranked contest", contests.iter().any(|c| matches!(c.rule, Rule::Rank { .. })));
        any("approval", contests.iter().any(|c| c.is_approval));
        any("ticket", contests.iter().any(|c| c.options.iter().any(|o| o.names.len() == 2)));
        any(
            "22 candidates",
            contests
                .iter()
                .any(|c| c.options.iter().filter(|o| o.kind == OptionKind::Listed).count() == 22),
        );
        any(
            "write-in",
            contests.iter().any(|c| c.options.iter().any(|o| o.kind == OptionKind::WriteIn)),
        );
        any(
            "name said otherwise",
            contests
                .iter()
                .any(|c| c.options.iter().any(|o| o.names.iter().any(|name| name.said.is_some()))),
        );
        for kind in [
            ContestKind::Measure,
            ContestKind::Retention,
            ContestKind::StraightParty,
            ContestKind::Activation,
        ] {
            any("contest of a kind", contests.iter().any(|c| c.kind == kind));
        }
        let english = Language::new("en");
        any(
            "measure of 300 words",
            contests.iter().any(|c| {
                let words = |text: &evenhand_rules::Text| {
                    text.in_language(&english).split_whitespace().count()
                };
                c.full_text.iter().map(words).sum::<usize>() >= 300
            }),
        );
    }
}
