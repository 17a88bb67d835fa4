//! The door that streets come in by: what a good file gives, the sentence for each thing that can be
//! wrong, and arbitrary bytes. What comes in keeps its invariants, by a slow check of every house.
//! Python's own `csv` reads the same rows (RFC 4180), and a sealed election carries them.
#![expect(clippy::disallowed_methods, reason = "tests read files and run programs")]
#![expect(clippy::expect_used, clippy::print_stdout, reason = "a test's helpers may")]

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;

use evenhand_definitions::limits::{
    HOUSE_NUMBER_MAX, STREET_NAME_LEN_MAX, STREET_ROWS_MAX, STREETS_BYTES_MAX,
};
use evenhand_definitions::seal::{Contents, ContentsError, verify};
use evenhand_definitions::{StreetSide, Streets, StreetsError, load};
use evenhand_rules::{Election, Language, RefusedStyle, Text};
use evenhand_tests::sealing::{files, sealed, trust};
use proptest::prelude::*;

const HEADER: &str = "street,from,to,side,style\n";

fn demo_file(name: &str) -> Vec<u8> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("../ballot-definitions/quillbrook-county-general-2027");
    fs::read(folder.join(name)).expect("the demo's file is read")
}

/// The demo's election: styles 101-A, 101-B, 102 and 103.
fn election() -> &'static Election {
    static DEMO: OnceLock<Election> = OnceLock::new();
    DEMO.get_or_init(|| load(&demo_file("definition.json")).expect("it loads").into_election())
}

/// The same with a style for each of two parties in precinct 103, and one that was refused.
fn primary() -> Election {
    let mut election = election().clone();
    let party = |name: &str| Some(Text::new(vec![(Language::new("en"), name.to_owned())]));
    let mut other = election.styles[3].clone();
    election.styles[3].party = party("Heron");
    other.party = party("Larch");
    "103-L".clone_into(&mut other.code);
    election.styles.push(other);
    let (style, contest, reason) = ("104".to_owned(), "c".to_owned(), "r".to_owned());
    election.refused.push(RefusedStyle { style, contest, reason });
    election
}

fn read(rows: &str) -> Result<Streets, StreetsError> {
    Streets::read(format!("{HEADER}{rows}").as_bytes(), election())
}

#[test]
fn the_demos_streets_lead_to_every_style() {
    let streets = Streets::read(&demo_file("streets.csv"), election()).expect("they are read");
    assert!(streets.styles_without_streets(election()).is_empty());
    // A split street: which side and which number decide.
    let leads = |street: &str, number: u32| {
        let rows = streets.rows().iter().filter(|row| row.street == street && row.holds(number));
        rows.map(|row| row.code.as_str()).collect::<Vec<_>>()
    };
    assert_eq!(leads("Heron Bend Road", 301), ["101-A"]);
    assert_eq!(leads("Heron Bend Road", 300), ["101-B"]);
    assert_eq!(leads("Heron Bend Road", 298), ["101-A"]);
    assert_eq!(leads("Heron Bend Road", 401), ["101-B"]);
    assert_eq!(leads("Larkspur Court, North", 40), ["102"]);
    assert_eq!(leads("Larkspur Court, North", 41), Vec::<&str>::new());
}

/// Python's module `csv`, a reader that isn't ours, gives the same fields (RFC 4180).
#[test]
fn python_reads_the_same_rows() {
    let tricky = format!(
        "\u{feff}{HEADER}\r\n\"Mill Road\",1,9,odd,102\r\n\n\"A, B\",\"2\",8,even,\"103\"\nCalle Peña,7,7,all,101-A"
    );
    let folder = std::env::temp_dir().join(format!("evenhand-streets-{}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder is made");
    for (name, bytes) in [("demo", demo_file("streets.csv")), ("tricky", tricky.into_bytes())] {
        let file = folder.join(name);
        fs::write(&file, &bytes).expect("it is written");
        let script = "import csv, sys\n\
             rows = csv.reader(open(sys.argv[1], encoding='utf-8-sig', newline=''), strict=True)\n\
             for row in list(filter(None, rows))[1:]: print('|'.join(row))";
        let python = std::env::var("EVENHAND_PYTHON").unwrap_or_else(|_| "python3".to_owned());
        let mut command = Command::new(python);
        let output = command.args(["-X", "utf8", "-c", script]).arg(&file).output();
        let output = output.expect("python3 runs");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let mut ours = String::new();
        for row in Streets::read(&bytes, election()).expect("they are read").rows() {
            let (street, side, code) = (&row.street, row.side.id(), &row.code);
            writeln!(ours, "{street}|{}|{}|{side}|{code}", row.from, row.to).expect("it fits");
        }
        assert_eq!(ours, String::from_utf8_lossy(&output.stdout), "{name}");
    }
    fs::remove_dir_all(&folder).expect("the folder is removed");
}

/// Each thing that can be wrong, with the beginning of its sentence after "streets.csv, ".
#[test]
fn each_error_says_line_what_and_what_to_do() {
    let good = "Mill Road,1,99,odd,102\n";
    let long = format!("{},1,2,all,102", "x".repeat(STREET_NAME_LEN_MAX + 1));
    let cases: &[(&str, &str)] = &[
        ("Mill Road,1,99,odd\n", "line 3: the row has 4 fields and must have 5"),
        ("Mill Road, North,1,99,odd,102\n", "line 3: the row has 6 fields"),
        (" ,1,99,odd,102", "line 3: the street is empty. Write its name, or delete the row."),
        ("\u{202e}Mill,1,99,odd,102", "line 3: the street: the text holds U+202E"),
        (&long, "line 3: the street: the text has 81 characters and the limit is 80"),
        ("Elm,,9,all,102", "line 3: from is \"\" and must be a number from 1 to 999999"),
        ("Elm,0,9,all,102", "line 3: from is \"0\" and must be"),
        ("Elm,1,1000000,all,102", "line 3: to is \"1000000\" and must be"),
        ("Elm,1,99999999999,all,102", "line 3: to is \"99999999999\" and must be"),
        ("Elm,12A,14,all,102", "line 3: from is \"12A\" and must be"),
        ("Elm,+1,14,all,102", "line 3: from is \"+1\" and must be"),
        ("Elm,-1,14,all,102", "line 3: from is \"-1\" and must be"),
        ("Elm,1,١٤,all,102", "line 3: to is \"١٤\" and must be"),
        ("Elm,15,14,all,102", "line 3: from is 15 and to is 14. Write the smaller one first."),
        ("Elm,1,14,both,102", "line 3: side is \"both\" and must be all, odd or even."),
        ("Elm,1,14,Odd,102", "line 3: side is \"Odd\" and must be"),
        ("Elm,14,14,odd,102", "line 3: the only number is 14, and side is odd"),
        (
            "Elm,1,14,all,104",
            "line 3: there is no style \"104\" in the definition. Choose one of: 101-A, 101-B, 102, 103.",
        ),
        ("Elm,1,14,all,", "line 3: there is no style \"\" in the definition."),
        ("Mill Road,1,99,odd,102", "line 3: the row is on line 2 already. Delete one."),
        ("\n\n mill  ROAD,1,99,odd,102", "line 5: the row is on line 2 already."),
        (
            "Mill Road,99,120,all,103",
            "line 3: Mill Road 99 leads to style 103 here and to style 102 on line 2.",
        ),
        (
            "Mill Road,5,7,all,102",
            "line 3: Mill Road 5 leads to style 102 here and to style 102 on line 2.",
        ),
        (
            "\"Elm\n\",1,9,all,102",
            "line 3: the field \"Elm\u{fffd}\" holds a quote (\") or goes on",
        ),
        ("Elm \"East\",1,9,all,102", "line 3: the field \"Elm \"East\"\" holds a quote"),
    ];
    for (row, says) in cases {
        let error = read(&format!("{good}{row}")).expect_err(row).to_string();
        assert!(error.starts_with(&format!("streets.csv, {says}")), "{row:?}: {error}");
        let remedy = error.trim_end_matches('.').split_once(". ");
        let tells = |word: &str| error.contains(word);
        assert!(remedy.is_some() || tells("must be"), "{row:?} says no remedy: {error}");
    }
    // What isn't a row of its own.
    let whole = |bytes: &[u8]| Streets::read(bytes, election()).expect_err("it is refused");
    assert_eq!(whole(b""), StreetsError::NoHeader);
    assert_eq!(whole(b"\n\r\n"), StreetsError::NoHeader);
    assert_eq!(whole(HEADER.as_bytes()), StreetsError::NoRows);
    assert_eq!(
        whole(b"\n\nstreet,from,to,style\n").to_string(),
        "streets.csv, line 3: the first line is \"street,from,to,style\" and must be street,from,to,side,style."
    );
    assert_eq!(read("a,1,2,all,102\n\"b,1,2,all,102\n"), Err(StreetsError::OpenQuote));
    let broken = [HEADER.as_bytes(), b"a,1,2,all,102\nCalle Pe\xf1a,1,2,all,102\n"].concat();
    assert_eq!(whole(&broken), StreetsError::NotText { line: 3 });
    let long = vec![b'\n'; STREETS_BYTES_MAX + 1];
    assert_eq!(whole(&long), StreetsError::FileTooLong { bytes: long.len() });
}

#[test]
fn rows_are_limited_and_their_lines_are_right() {
    let rows = |count: usize| {
        (0..count).fold(String::new(), |mut rows, number| {
            writeln!(rows, "S{number},1,1,all,102").expect("it fits");
            rows
        })
    };
    let most = read(&rows(STREET_ROWS_MAX)).expect("as many as may be");
    assert_eq!(most.rows().len(), STREET_ROWS_MAX);
    let line = STREET_ROWS_MAX as u64 + 2;
    assert_eq!(read(&rows(STREET_ROWS_MAX + 1)), Err(StreetsError::TooManyRows { line }));
    let streets = read("a,1,2,all,102\r\n\r\n\r\nb,1,2,all,102\n\n\nc,1,2,all,102").expect("good");
    assert_eq!(streets.rows().iter().map(|row| row.line).collect::<Vec<_>>(), [2, 5, 8]);
}

#[test]
fn houses_of_two_parties_have_two_rows_and_refused_styles_none_to_show() {
    let election = primary();
    let read =
        |rows: &str| Streets::read(format!("{HEADER}{rows}").as_bytes(), &election).map(|_| ());
    assert_eq!(read("Elm,1,9,all,103\nElm,1,9,all,103-L\n"), Ok(()));
    assert!(read("Elm,1,9,all,103\nElm,1,9,all,103\n").is_err());
    assert!(read("Elm,1,9,all,103-L\nElm,9,19,odd,103-L\n").is_err());
    let streets = format!("{HEADER}Elm,1,9,all,104\n");
    let streets = Streets::read(streets.as_bytes(), &election).expect("the code is known");
    assert!(streets.rows()[0].styles.is_empty());
    assert_eq!(streets.styles_without_streets(&election).len(), election.styles.len());
}

#[test]
fn a_sealed_election_carries_its_streets() {
    let mut files = files(false);
    let good = format!("{HEADER}Fen Way,1,9,all,1\n").into_bytes();
    files.insert("streets.csv".to_owned(), good.clone());
    let contents = Contents::pack(&files).expect("it can be packed");
    assert!(contents.files().any(|(path, _, _)| path == "streets.csv"));
    let verified = verify(sealed(contents.bytes(), &[1, 2]), &trust(2, 2)).expect("it is sealed");
    assert_eq!(verified.streets().rows()[0].street, "Fen Way");
    assert_eq!(verified.file("streets.csv"), Some(good.as_slice()));
    // One that is wrong can't be packed, nor a file beside it.
    files.insert("streets.csv".to_owned(), b"street\n".to_vec());
    assert!(matches!(Contents::pack(&files), Err(ContentsError::Streets(_))));
    files.insert("streets.csv".to_owned(), good);
    files.insert("streets-2.csv".to_owned(), Vec::new());
    assert!(matches!(Contents::pack(&files), Err(ContentsError::NotRead { .. })));
}

/// What must hold of any streets that come in, looked at slowly: every house of every row.
fn check(streets: &Streets, election: &Election) -> usize {
    assert!((1..=STREET_ROWS_MAX).contains(&streets.rows().len()));
    let mut seen: BTreeMap<(String, u32), Vec<&str>> = BTreeMap::new();
    let mut looked_at = 0;
    for row in streets.rows() {
        assert!(!row.street.is_empty() && row.street == row.street.trim());
        assert!(row.street.chars().count() <= STREET_NAME_LEN_MAX);
        assert!(!row.street.contains(|c: char| c.is_control() || c == '"' || c == '\u{202e}'));
        assert!(1 <= row.from && row.from <= row.to && row.to <= HOUSE_NUMBER_MAX);
        let refused = election.refused.iter().any(|refused| refused.style == row.code);
        assert_ne!(row.styles.is_empty(), election.styles.iter().any(|s| s.code == row.code));
        assert!(refused || !row.styles.is_empty());
        assert!(row.styles.iter().all(|at| election.styles[usize::from(*at)].code == row.code));
        // The first and the last house are in the row; wide rows are looked at in part.
        let (first, last) = row.ends().expect("a row has a house");
        assert!(row.holds(first) && row.holds(last) && row.from <= first && last <= row.to);
        assert!(row.side == StreetSide::All || (first - row.from) + (row.to - last) <= 2);
        for number in (row.from..=row.to).take(3_000).filter(|number| row.holds(*number)) {
            seen.entry((row.street.to_lowercase(), number)).or_default().push(&row.code);
            looked_at += 1;
        }
    }
    for (house, codes) in &seen {
        let parties = codes.iter().map(|code| {
            let style = election.styles.iter().find(|style| style.code == **code);
            style.map(|style| style.party.as_ref().map(|party| party.entries().to_vec()))
        });
        let parties: BTreeSet<_> = parties.collect();
        assert_eq!(parties.len(), codes.len(), "{house:?} leads to {codes:?}");
    }
    looked_at
}

/// Rows that often meet, and often are wrong.
fn rows() -> impl Strategy<Value = String> {
    let street = prop_oneof![6 => "[aA]", 1 => Just("\"A, B\"".to_owned())];
    let number = || prop_oneof![30 => 1..60u32, 1 => 1..1_000_001u32];
    let side =
        prop_oneof![9 => Just("all"), 9 => Just("odd"), 9 => Just("even"), 1 => Just("none")];
    let code = prop_oneof![Just("101-A"), Just("102"), Just("103"), Just("103-L"), Just("104")];
    let wide = prop_oneof![20 => 0..12u32, 1 => number()];
    let row = (street, number(), wide, side, code).prop_map(|(street, from, wide, side, code)| {
        let to = from.saturating_add(wide);
        format!("{street},{from},{to},{side},{code}\n")
    });
    prop::collection::vec(row, 1..8).prop_map(|rows| rows.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_give_an_error_or_sound_streets(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        prop_assert!(Streets::read(&bytes, election()).is_err());
        let after = [HEADER.as_bytes(), &bytes].concat();
        if let Ok(streets) = Streets::read(&after, election()) {
            check(&streets, election());
        }
    }

    #[test]
    fn any_text_of_fields_and_quotes_does(text in r#"([ab]{1,2}|"|,|\n|\r\n|,1,9|,all,102\n|,odd,103\n){0,40}"#) {
        if let Ok(streets) = read(&text) {
            check(&streets, election());
        }
    }

    #[test]
    fn changed_files_never_break_a_rule(
        at in any::<prop::sample::Index>(),
        len in 0..30usize,
        with in prop_oneof!["[ -~\n]{0,6}", Just("\0".to_owned()), Just("\"".to_owned())],
    ) {
        let mut bytes = demo_file("streets.csv");
        let start = at.index(bytes.len());
        let end = bytes.len().min(start + len);
        bytes.splice(start..end, with.bytes());
        if let Ok(streets) = Streets::read(&bytes, election()) {
            check(&streets, election());
        }
    }
}

/// Rows that meet are found out exactly where a slow look at every house finds them.
#[test]
fn houses_in_two_rows_are_found_and_no_others() {
    let mut runner = proptest::test_runner::TestRunner::new(ProptestConfig {
        cases: 4_000,
        failure_persistence: None,
        ..ProptestConfig::default()
    });
    let election = primary();
    let (good, meet) = (std::cell::Cell::new(0), std::cell::Cell::new(0));
    let done = runner.run(&rows(), |rows| {
        match Streets::read(format!("{HEADER}{rows}").as_bytes(), &election) {
            Ok(streets) => {
                check(&streets, &election);
                good.set(good.get() + 1);
            }
            Err(StreetsError::Overlap { line, first_line, number, .. }) => {
                // The two rows alone, each of which holds this house.
                let lines: Vec<&str> = rows.lines().collect();
                let alone = |line: u64| {
                    let row = lines[usize::try_from(line).expect("it fits") - 2];
                    let bytes = format!("{HEADER}{row}\n");
                    Streets::read(bytes.as_bytes(), &election).expect("each alone is good")
                };
                let (one, other) = (alone(first_line), alone(line));
                prop_assert!(first_line < line);
                prop_assert!(one.rows()[0].holds(number) && other.rows()[0].holds(number));
                meet.set(meet.get() + 1);
            }
            Err(_) => {}
        }
        Ok(())
    });
    done.expect("every case holds");
    println!("{} files are good, {} have a house in two rows", good.get(), meet.get());
    assert!(good.get() > 200 && meet.get() > 200, "too few of either");
}
