//! An eye that shares no code with the station looks at printed pages: OpenCV finds every oval and
//! its fill, tesseract reads each marked option's name beside its filled oval.
#![expect(clippy::print_stdout, reason = "what was looked at is told, also where all is well")]
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a broken expectation stops the test and says why"
)]

use std::path::Path;

use evenhand_rules::{OptionKind, Selections, Style};
use evenhand_sheet::{Page, Point};
use evenhand_tests::chance::{self, Chance};
use evenhand_tests::paper::{RESOLUTION, printed, python, rasterised, reader};
use evenhand_tests::records::nist_elections;
use evenhand_tests::stage::Stage;
use image::GrayImage;
use serde_json::Value;

/// How near the middle of an oval must be where the sheet says, in pixels.
const NEAR: f64 = 2.0;
/// How much of a name tesseract must read right: 1 less the edit distance by the name's length. Own
/// choice: on these pages whole names are read with one or two letters wrong at most.
const LIKENESS_MIN: f64 = 0.8;

/// One oval that the eye found.
struct SeenOval {
    x: f64,
    y: f64,
    filled: bool,
    text: String,
}

fn look(picture: &GrayImage, name: &str) -> Vec<SeenOval> {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.pgm"));
    picture.save(&path).expect("the page can be written");
    let dpi = RESOLUTION.to_string();
    let arguments = [path.as_path(), Path::new(&dpi), Path::new("eng+spa")];
    let said = python("eye.py", &arguments).unwrap_or_else(|fault| panic!("{fault}"));
    let said: Value = serde_json::from_str(&said).expect("the script prints JSON");
    let list = said["ovals"].as_array().expect("a list of ovals");
    list.iter()
        .map(|oval| SeenOval {
            x: oval["x"].as_f64().expect("a number"),
            y: oval["y"].as_f64().expect("a number"),
            filled: oval["filled"].as_bool().expect("true or false"),
            text: oval["text"].as_str().expect("a text").to_owned(),
        })
        .collect()
}

/// The middle of a pixel is half a pixel in: a point on paper in pixels of the picture.
fn in_pixels(point: Point) -> (f64, f64) {
    let pixels = |um: i32| f64::from(um) * f64::from(RESOLUTION) / 25_400.0 - 0.5;
    (pixels(point.x.0), pixels(point.y.0))
}

/// What one page came to.
#[derive(Default)]
struct Tally {
    ovals: usize,
    filled: usize,
    names: usize,
}

fn check_page(
    (page, style, marked): (&Page, &Style, &Selections),
    seen: &[SeenOval],
    what: &str,
    tally: &mut Tally,
) {
    let expected = page.ovals.len() + page.samples.len();
    assert_eq!(seen.len(), expected, "{what}: ovals found");
    let nearest = |centre: Point| {
        let (x, y) = in_pixels(centre);
        let near = |oval: &&SeenOval| (oval.x - x).abs() <= NEAR && (oval.y - y).abs() <= NEAR;
        let found = seen.iter().find(near);
        found.unwrap_or_else(|| panic!("{what}: no oval at {x:.1}, {y:.1}"))
    };
    for sample in &page.samples {
        assert_eq!(nearest(sample.area.centre()).filled, sample.is_filled, "{what}: a sample");
    }
    let wanted = marked.ovals(style);
    for oval in &page.ovals {
        let found = nearest(oval.area.centre());
        let is_marked = wanted.contains(&oval.id);
        assert_eq!(found.filled, is_marked, "{what}: {:?}", oval.id);
        tally.ovals += 1;
        tally.filled += usize::from(is_marked);
        let contest = style.contest(oval.id.contest).expect("it is on the ballot");
        let option = contest.option(oval.id.option).expect("it is on the ballot");
        if is_marked && option.kind == OptionKind::Listed {
            for name in &option.names {
                let name = &name.shown.entries()[0].1;
                let likeness = likeness_of(name, &found.text);
                assert!(
                    likeness >= LIKENESS_MIN,
                    "{what}: \"{name}\" isn't beside its oval, but \"{}\" ({likeness:.2})",
                    found.text
                );
                tally.names += 1;
            }
            // The same measure must refuse the names that stand beside the other ovals.
            let others = contest.options.iter().filter(|other| other.id != option.id);
            for name in others.filter_map(|other| other.names.first()) {
                let name = &name.shown.entries()[0].1;
                let likeness = likeness_of(name, &found.text);
                assert!(likeness < LIKENESS_MIN, "{what}: \"{name}\" too is in \"{}\"", found.text);
            }
        }
    }
}

/// How much of a name stands in a text: 1 less the least edit distance to any part of the text, by
/// the name's length. Capitals and spaces don't count.
fn likeness_of(name: &str, text: &str) -> f64 {
    let plain = |words: &str| -> Vec<char> {
        words.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
    };
    let (name, text) = (plain(name), plain(text));
    // Sellers' algorithm: the edit distance where the text may have anything before and after.
    let mut row: Vec<usize> = vec![0; text.len() + 1];
    for (index, letter) in name.iter().enumerate() {
        let mut next = vec![index + 1];
        for (at, other) in text.iter().enumerate() {
            let change = row[at] + usize::from(letter != other);
            next.push(change.min(row[at + 1] + 1).min(next[at] + 1));
        }
        row = next;
    }
    let least = row.into_iter().min().unwrap_or(name.len());
    let length = u32::try_from(name.len().max(1)).expect("names are short");
    1.0 - f64::from(u32::try_from(least).expect("names are short")) / f64::from(length)
}

#[test]
fn likeness_tells_names_apart() {
    assert!(likeness_of("Irena Stanczak", "lrena Stanczak  Partido") > 0.9);
    assert!(likeness_of("Irena Stanczak", "Bertrand Ogunleye-Hart") < 0.5);
    assert!(likeness_of("Yes", "No") < 0.5);
    assert!(likeness_of("Jim Doyle", "") < 0.1);
}

fn check_style(stage: &Stage, index: usize, seed: u64, what: &str, tally: &mut Tally) {
    let style = &stage.election.styles[index];
    let ballot = stage.ballot(index);
    let marked = chance::full(style, &mut Chance::new(seed));
    let pictures = rasterised(&printed(&ballot, style, Some(&marked)), RESOLUTION);
    assert_eq!(pictures.len(), ballot.pages.len());
    // The station's own reader sees the same pictures: both eyes must agree on every oval.
    let read = reader(&ballot, style).read(&pictures).expect("the station reads its own print");
    assert_eq!(read.reading.marked().collect::<Vec<_>>(), marked.ovals(style), "{what}: marks");
    for (number, (page, picture)) in ballot.pages.iter().zip(&pictures).enumerate() {
        let what = format!("{what}-page-{}", number + 1);
        let seen = look(picture, &what);
        check_page((page, style, &marked), &seen, &what, tally);
    }
}

#[test]
fn another_eye_agrees_on_every_oval_and_name() {
    let mut tally = Tally::default();
    let demo = Stage::demo();
    check_style(&demo, 0, 71, "demo-first-style", &mut tally);
    check_style(&demo, 2, 72, "demo-third-style", &mut tally);
    let gen_02 = nist_elections("independent eye, third style")
        .and_then(|elections| elections.into_iter().find(|files| files.name == "gen-02"));
    if let Some(files) = gen_02 {
        let stage = Stage::from_definition(&files.definition);
        check_style(&stage, 0, 73, "gen-02-first-style", &mut tally);
    }
    println!("{} ovals, {} filled, {} names", tally.ovals, tally.filled, tally.names);
    assert!(tally.ovals > 200 && tally.names > 50, "too little was looked at");
}
