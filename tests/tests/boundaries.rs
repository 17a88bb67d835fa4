//! What each room may import, as data, against what cargo says that it imports. A new edge is a
//! change to this table, and is argued for in DEVELOPERS.md.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "this test asks cargo for the tree, and fails where it can't"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

/// Each crate under `kiosk/` and every crate, ours or not, that it may import.
const MAY_IMPORT: &[(&str, &[&str])] = &[
    ("evenhand-rules", &["zeroize"]),
    ("evenhand-visit", &["evenhand-rules"]),
    ("evenhand-duty", &["evenhand-rules", "zeroize"]),
    (
        "evenhand-words",
        &[
            "evenhand-rules",
            "evenhand-visit",
            "evenhand-duty",
            "evenhand-sheet",
            "fluent",
            "unic-langid",
            "thiserror",
        ],
    ),
    (
        "evenhand-lettering",
        &[
            "evenhand-rules",
            "rustybuzz",
            "icu_segmenter",
            "unicode-bidi",
            "unicode-script",
            "thiserror",
        ],
    ),
    ("evenhand-sheet", &["evenhand-rules", "evenhand-lettering", "datamatrix", "thiserror"]),
    (
        "evenhand-print",
        &[
            "evenhand-rules",
            "evenhand-sheet",
            "evenhand-lettering",
            "printpdf",
            "lopdf",
            "subsetter",
            "flate2",
            "thiserror",
        ],
    ),
    ("evenhand-marks", &["evenhand-rules", "evenhand-sheet", "image", "datamatrix", "thiserror"]),
    ("evenhand-scan", &["image", "hayro", "thiserror"]),
    ("evenhand-printers", &["httparse", "ipp", "thiserror"]),
    (
        "evenhand-definitions",
        &[
            "evenhand-rules",
            "base64ct",
            "csv",
            "ring",
            "serde",
            "serde_json",
            "serde_path_to_error",
            "symphonia",
            "tar",
            "thiserror",
            "zeroize",
        ],
    ),
    ("evenhand-event-log", &["ring", "serde", "serde_json", "thiserror"]),
    (
        "evenhand-speech",
        &[
            "tts",
            "libpulse-binding",
            "libpulse-simple-binding",
            "crossbeam-channel",
            "log",
            "speech-dispatcher",
            "thiserror",
            "unicode-segmentation",
        ],
    ),
    ("evenhand-input", &["gilrs", "crossbeam-channel", "thiserror"]),
    (
        "evenhand-office",
        &[
            "evenhand-rules",
            "evenhand-words",
            "evenhand-sheet",
            "evenhand-print",
            "evenhand-definitions",
            "evenhand-event-log",
            "clap",
            "pkcs8",
            "ring",
            "rpassword",
            "thiserror",
            "zeroize",
        ],
    ),
    (
        "evenhand-app",
        &[
            "evenhand-rules",
            "evenhand-visit",
            "evenhand-duty",
            "evenhand-words",
            "evenhand-lettering",
            "evenhand-sheet",
            "evenhand-print",
            "evenhand-marks",
            "evenhand-scan",
            "evenhand-printers",
            "evenhand-definitions",
            "evenhand-event-log",
            "evenhand-speech",
            "evenhand-input",
            "iced",
            "image",
            "clap",
            "thiserror",
            "crossbeam-channel",
            "ring",
            "rustix",
            "serde",
            "serde_json",
            "tiny-skia",
            "zeroize",
        ],
    ),
];

/// Crates that may be imported by `evenhand-tests` only.
const TOP: [&str; 2] = ["evenhand-app", "evenhand-office"];

type Tree = BTreeMap<String, BTreeSet<String>>;

/// Reads `cargo tree --prefix depth`: a line `0name v…` opens a crate, `1name v…` is an import.
fn parse(tree: &str) -> Tree {
    let mut found = Tree::new();
    let mut open = String::new();
    for line in tree.lines() {
        let Some(name) = line.get(1..).and_then(|rest| rest.split(' ').next()) else { continue };
        if line.starts_with('0') {
            name.clone_into(&mut open);
            found.entry(open.clone()).or_default();
        } else if line.starts_with('1') {
            found.entry(open.clone()).or_default().insert(name.to_owned());
        }
    }
    found
}

/// Every edge that the table doesn't allow, and every room that it doesn't name.
fn trespasses(tree: &Tree) -> Vec<String> {
    let mut found = Vec::new();
    for (room, imports) in tree.iter().filter(|(room, _)| *room != "evenhand-tests") {
        let Some((_, allowed)) = MAY_IMPORT.iter().find(|(name, _)| name == room) else {
            found.push(format!("{room} is not in the table"));
            continue;
        };
        for import in imports {
            if !allowed.contains(&import.as_str()) {
                found.push(format!("{room} imports {import}"));
            }
            if TOP.contains(&import.as_str()) {
                found.push(format!("{room} imports {import}, which nobody may"));
            }
        }
    }
    found
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests/ lies in the workspace")
}

#[test]
fn no_room_imports_what_it_may_not() {
    let output = Command::new(env!("CARGO"))
        .current_dir(root())
        .args(["tree", "--workspace", "--edges", "normal", "--depth", "1"])
        .args(["--no-dedupe", "--prefix", "depth", "--locked", "--offline"])
        .output()
        .expect("cargo runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let tree = parse(&String::from_utf8_lossy(&output.stdout));
    for (room, _) in MAY_IMPORT {
        assert!(tree.contains_key(*room), "the table names {room}, which cargo doesn't know");
    }
    assert_eq!(trespasses(&tree), Vec::<String>::new());
}

#[test]
fn a_false_tree_is_rejected() {
    let false_tree = "0evenhand-visit v0.1.0 (x)\n1evenhand-rules v0.1.0\n1image v0.25.0\n\
                      0evenhand-marks v0.1.0\n1evenhand-print v0.1.0\n0evenhand-attic v0.1.0\n";
    assert_eq!(
        trespasses(&parse(false_tree)),
        [
            "evenhand-attic is not in the table",
            "evenhand-marks imports evenhand-print",
            "evenhand-visit imports image"
        ]
    );
}
