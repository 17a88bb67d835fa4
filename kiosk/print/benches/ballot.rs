//! How long a ballot takes from its definition to the printer's bytes.
//!
//! `cargo bench -p evenhand-print` also draws the same lines, rules and ovals with Python's
//! reportlab, in the same run, where python3 has it.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a benchmark measures time, writes a list for another program and prints figures"
)]

#[path = "../../sheet/tests/support/county.rs"]
#[expect(unreachable_pub, reason = "shared by path with tests")]
mod county;

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use evenhand_lettering::Face;
use evenhand_print::{Marks, pdf};
use evenhand_rules::{Election, Micrometres};
use evenhand_sheet::{Ballot, BallotState, Edition, compose};

/// Rounds of the comparison.
const ROUNDS: usize = 100;

fn main() {
    divan::main();
    compare();
}

fn composed(election: &Election, languages: &[evenhand_rules::Language]) -> Ballot {
    let edition = Edition { languages, wording: &county::PlainWording };
    compose(election, &election.styles[0], 0, &edition, BallotState::Test).expect("it composes")
}

fn printed(election: &Election) -> Vec<u8> {
    let ballot = composed(election, &county::english());
    let marks = Marks { ovals: first_options(election), names: vec![] };
    pdf(&ballot, Some(&marks)).expect("it prints")
}

fn first_options(election: &Election) -> Vec<evenhand_rules::OvalId> {
    let contests = election.styles[0].contests();
    contests.filter_map(|(index, contest)| contest.ovals(index).first().copied()).collect()
}

#[divan::bench]
fn compose_sixty_contests(bencher: divan::Bencher<'_, '_>) {
    let election = county::sixty();
    bencher.bench(|| composed(&election, &county::english()));
}

#[divan::bench]
fn compose_and_print_sixty_contests(bencher: divan::Bencher<'_, '_>) {
    let election = county::sixty();
    bencher.bench(|| printed(&election));
}

#[divan::bench]
fn compose_and_print_two_sides_of_every_kind(bencher: divan::Bencher<'_, '_>) {
    let election = county::mixed();
    bencher.bench(|| printed(&election));
}

/// Times both programs on the sixty contests, one after the other.
fn compare() {
    let election = county::sixty();
    let ballot = composed(&election, &county::english());
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            divan::black_box(printed(&election));
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    let (median, p95) = (times[ROUNDS / 2], times[ROUNDS * 95 / 100]);
    let ovals: usize = ballot.pages.iter().map(|page| page.ovals.len()).sum();
    println!();
    println!("60 contests, {ovals} ovals, {} pages:", ballot.pages.len());
    println!("evenhand   median {median:.2} ms, p95 {p95:.2} ms (composing and printing)");
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let list = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("reportlab-list.txt");
    std::fs::write(&list, shapes(&ballot, &root)).expect("the list is written");
    let script = root.join("tests/compare/reportlab_ballot.py");
    let rounds = ROUNDS.to_string();
    let python = std::env::var_os("EVENHAND_PYTHON").unwrap_or_else(|| "python3".into());
    match Command::new(python).arg(script).arg(&list).arg(rounds).output() {
        Ok(output) if output.status.success() => {
            print!("reportlab  {} (drawing alone)", String::from_utf8_lossy(&output.stdout).trim());
            println!();
        }
        Ok(output) => println!("reportlab  failed: {}", String::from_utf8_lossy(&output.stderr)),
        Err(error) => println!("reportlab  skipped: {error}"),
    }
}

/// Every shape of the ballot, as the script reads it.
fn shapes(ballot: &Ballot, root: &Path) -> String {
    let points = |distance: Micrometres| f64::from(distance.0) * 72.0 / 25_400.0;
    let mut list = String::new();
    let fonts = [("Regular", "Next_400Regular"), ("Bold", "Next_700Bold")];
    for (name, file) in fonts {
        let path = root.join(format!("kiosk/lettering/fonts/AtkinsonHyperlegible{file}.ttf"));
        let _ = writeln!(list, "font\t{name}\t{}", path.display());
    }
    for page in &ballot.pages {
        let _ = writeln!(list, "page\t{}\t{}", points(ballot.width), points(ballot.length));
        for rule in &page.rules {
            let area = rule.area;
            let (x, y) = (points(area.x), points(ballot.length.minus(area.bottom())));
            let (width, height) = (points(area.width), points(area.height));
            let _ = writeln!(list, "rule\t{x}\t{y}\t{width}\t{height}");
        }
        for oval in &page.ovals {
            let area = oval.area;
            let (x, y) = (points(area.x), points(ballot.length.minus(area.bottom())));
            let (width, height) = (points(area.width), points(area.height));
            let _ = writeln!(list, "oval\t{x}\t{y}\t{width}\t{height}\t{}", points(oval.stroke));
        }
        for text in &page.texts {
            let font = if text.run.face == Face::BOLD { "Bold" } else { "Regular" };
            let (x, y) = (points(text.origin.x), points(ballot.length.minus(text.origin.y)));
            let size = points(text.run.size);
            let _ = writeln!(list, "text\t{font}\t{size}\t{x}\t{y}\t{}", text.run.text);
        }
    }
    list
}
