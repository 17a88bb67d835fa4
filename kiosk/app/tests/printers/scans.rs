//! Scanning through SANE's own program with its backends for tests, and with programs that misbehave.

use std::fs::{self, Permissions};
use std::os::unix::fs::PermissionsExt as _;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use evenhand_app::devices::scanner::ScanProgram;
use evenhand_printers::Paper;
use evenhand_scan::{ScanError, ScannerChoice, SheetPicture};
use image::GrayImage;

use crate::service::{kept_folder, need};

pub(crate) const LETTER: Paper = Paper { width_mil: 8_500, length_mil: 11_000, sides: 1 };

/// The program, with the two backends for tests alone; none where it isn't installed and needn't be.
fn sane() -> Option<ScanProgram> {
    let program = need("scanimage", "sane-utils")?;
    let settings = kept_folder("sane");
    fs::write(settings.join("dll.conf"), "test\npnm\n").unwrap();
    let name = "test.conf";
    fs::copy(Path::new("/etc/sane.d").join(name), settings.join(name)).unwrap();
    Some(ScanProgram { program, settings: Some(settings) })
}

fn choice(device: &str, options: &[(&str, &str)], feeds: bool) -> ScannerChoice {
    let pairs = options.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned()));
    ScannerChoice::new(device.to_owned(), pairs.collect(), feeds, false).unwrap()
}

/// A program of our own in the place of the real one.
pub(crate) fn script(text: &str) -> ScanProgram {
    let program = kept_folder("script").join("program");
    fs::write(&program, format!("#!/bin/sh\n{text}\n")).unwrap();
    fs::set_permissions(&program, Permissions::from_mode(0o700)).unwrap();
    ScanProgram { program, settings: None }
}

/// Nothing of a run is left in the temporary folder.
fn leftovers() -> Vec<PathBuf> {
    let own = format!("evenhand-scan-{}-", std::process::id());
    let all = fs::read_dir(std::env::temp_dir()).unwrap().map(|file| file.unwrap().path());
    let files = all.filter(|path| path.display().to_string().contains(&own));
    // Those that other tests use now hold pipes and no file.
    files
        .flat_map(|folder| fs::read_dir(folder).into_iter().flatten())
        .map(|file| file.unwrap().path())
        .filter(|path| path.is_file())
        .collect()
}

#[test]
fn a_page_comes_pixel_for_pixel() {
    let Some(sane) = sane() else { return };
    let file = kept_folder("page").join("page.pgm");
    let page =
        GrayImage::from_fn(1_700, 2_200, |x, y| image::Luma([(x * 7 + y * 3).to_le_bytes()[0]]));
    fs::write(&file, [b"P5\n1700 2200\n255\n", page.as_raw().as_slice()].concat()).unwrap();
    let choice = choice("pnm:0", &[("filename", file.to_str().unwrap())], false);
    let start = Instant::now();
    let seen = sane.scan(&choice, LETTER).unwrap();
    eprintln!("a letter side in {} ms", start.elapsed().as_millis());
    assert_eq!(seen.len(), 1);
    assert_eq!(seen[0].picture, page);
    assert_eq!(leftovers(), Vec::<PathBuf>::new());
}

#[test]
fn a_feeder_is_read_until_it_is_empty() {
    let Some(sane) = sane() else { return };
    let options = [
        ("source", "Automatic Document Feeder"),
        ("mode", "Gray"),
        ("resolution", "200"),
        ("test-picture", "Grid"),
    ];
    // SANE's backend has ten sheets in its feeder (its own description of `--source`).
    let seen = sane.scan(&choice("test:0", &options, true), LETTER).unwrap();
    assert_eq!(seen.len(), 10);
    // 80 by 100 mm, its default, at 200 dots in an inch.
    let size = |side: &SheetPicture| side.picture.dimensions();
    assert!(seen.iter().all(|side| size(side).0.abs_diff(630) <= 1), "{:?}", seen[0]);
    assert!(seen.iter().all(|side| size(side).1.abs_diff(787) <= 1), "{:?}", seen[0]);
}

#[test]
fn each_of_a_scanners_faults_is_told_as_what_it_is() {
    let Some(sane) = sane() else { return };
    let detail = |device: &str, options: &[(&str, &str)]| match sane
        .scan(&choice(device, options, false), LETTER)
    {
        Err(ScanError::Device { detail }) => detail,
        other => panic!("{other:?}"),
    };
    let returns = |status: &'static str| [("read-return-value", status)];
    assert!(detail("test:0", &returns("SANE_STATUS_JAMMED")).contains("stuck"));
    assert!(detail("test:0", &returns("SANE_STATUS_COVER_OPEN")).contains("cover"));
    assert!(detail("test:0", &returns("SANE_STATUS_IO_ERROR")).contains("does not answer"));
    assert!(detail("test:0", &returns("SANE_STATUS_ACCESS_DENIED")).contains("may not"));
    let empty = script("exit 7").scan(&choice("a:0", &[], true), LETTER);
    assert_eq!(empty.unwrap_err(), ScanError::NoSheets);
    assert!(detail("nosuch:0", &[]).contains("open of device"));
    assert!(detail("pnm:0", &[("filename", "/nowhere/page.pgm")]).contains("sane_start"));
    assert!(!detail("test:0", &[("no-such-option", "1")]).is_empty());
}

#[test]
fn the_system_tells_its_scanners_and_their_sources() {
    let Some(sane) = sane() else { return };
    let found = sane.scanners().unwrap();
    let (name, feeder) =
        found.iter().find(|(name, _)| name.contains("Feeder") && name.contains("test:0")).unwrap();
    assert_eq!(name, "frontend-tester, Automatic Document Feeder, test:0");
    assert!(feeder.feeds() && feeder.has_area());
    let expected =
        [("mode", "Gray"), ("resolution", "200"), ("source", "Automatic Document Feeder")];
    let expected = expected.map(|(name, value)| (name.to_owned(), value.to_owned()));
    assert_eq!(feeder.options(), expected);
    // What is told can be used as it is.
    assert_eq!(sane.scan(feeder, LETTER).unwrap().len(), 10);
    let pages: Vec<_> = found.iter().filter(|(name, _)| name.contains("pnm")).collect();
    assert_eq!(pages.len(), 2);
    assert!(pages.iter().all(|(_, way)| !way.feeds()));
    // A program whose drivers find nothing is an answer too.
    fs::write(sane.settings.as_ref().unwrap().join("dll.conf"), "").unwrap();
    assert_eq!(sane.scanners(), Ok(Vec::new()));
}

/// The option that names the files, as the program is given it.
const PATTERN: &str = "for word; do case $word in --batch=*) to=${word#--batch=};; esac; done\n\
                       name() { printf \"$to.part\" \"$1\"; }";

#[test]
fn a_program_that_misbehaves_is_ended_and_told_of() {
    let one = choice("a:0", &[], false);
    let feeder = choice("a:0", &[], true);
    let missing = ScanProgram { program: "/nowhere/scanimage".into(), settings: None };
    let is_told = |result: Result<Vec<SheetPicture>, ScanError>, part: &str| {
        let error = result.unwrap_err().to_string();
        assert!(error.contains(part), "{part}: {error}");
    };
    is_told(missing.scan(&one, LETTER), "sane-utils");
    assert!(missing.scanners().unwrap_err().to_string().contains("sane-utils"));
    is_told(script("exit 1").scan(&one, LETTER), "without a word");
    is_told(script("echo no >&2; exit 4").scan(&one, LETTER), "(no)");
    is_told(script("kill -9 $$").scan(&one, LETTER), "without a word");
    assert_eq!(script("exit 0").scan(&one, LETTER).unwrap_err(), ScanError::NoSheets);
    let writes = |what: &str| script(&format!("{PATTERN}\n{what}"));
    let rubbish = writes("echo rubbish >\"$(name 1)\"");
    assert_eq!(rubbish.scan(&one, LETTER).unwrap_err(), ScanError::NotAPicture { side: 1 });
    let cut = writes("printf 'P5\\n100 100\\n255\\nabc' >\"$(name 1)\"");
    is_told(cut.scan(&one, LETTER), "broken");
    let huge = writes("printf 'P5\\n99999 99999\\n255\\nabc' >\"$(name 1)\"");
    assert!(matches!(huge.scan(&one, LETTER), Err(ScanError::TooManyPixels { .. })));
    let start = Instant::now();
    let endless = writes("cat /dev/zero >\"$(name 1)\"");
    assert!(matches!(endless.scan(&one, LETTER), Err(ScanError::TooManyBytes { .. })));
    assert!(start.elapsed() < Duration::from_secs(20));
    // More pictures than there are names for: none of them becomes a file.
    let page = "printf 'P5\\n1 1\\n255\\na'";
    let many = writes(&format!("for n in $(seq 1 32); do {page} >\"$(name $n)\"; done"));
    assert_eq!(many.scan(&feeder, LETTER).unwrap().len(), 32);
    // Half a ballot is never handed out.
    let stuck = writes(&format!("{page} >\"$(name 1)\"; exit 6"));
    is_told(stuck.scan(&feeder, LETTER), "stuck");
    let talks = script("yes >&2");
    let until = Instant::now();
    // A program that only talks is left after the time for a side.
    is_told(talks.scan(&one, LETTER), "too long");
    assert!(until.elapsed() < Duration::from_mins(1));
}
