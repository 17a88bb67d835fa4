//! A worker sets the station up in the real window: the box is matched, two switches are learned by
//! key and by mouse, the file is kept, and the station takes the switches from it. Of sealed elections
//! on a drive one is refused and one is compared, copied and opened.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "this test starts a display and the station, and looks at what they leave"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::sealed_files::{CheckError, ELECTIONS_MAX, InstallError, Shelf, ShelfError};
use evenhand_definitions::seal::SealError;
use evenhand_tests::display::{Display, Keysym, VirtualDisplay};
use evenhand_tests::open::{Opening, Room, Station, program};
use evenhand_tests::reading::read_by_eye;
use evenhand_tests::sealing;
use evenhand_tests::stage::demo_folder;
use image::RgbImage;

const SIZE: (u16, u16) = (1920, 1080);
/// F5: no key of the station's own table.
const F5: Keysym = Keysym(0xffc2);
const ESCAPE: Keysym = Keysym(0xff1b);
/// Within the bar's place at the right, and a place where nothing is.
const NEXT: (i16, i16) = (1_577, 1_030);
const NOTHING: (i16, i16) = (960, 700);

struct Window(Child);

impl Window {
    fn open(display: &VirtualDisplay, file: &Path, more: &[(&str, &Path)]) -> Self {
        let child = Command::new(program().expect("the station is built"))
            .env("DISPLAY", display.name())
            .args(["set-up", "--window", "1920x1080", "--station-file"])
            .arg(file)
            .args(more.iter().flat_map(|(name, path)| [name.as_ref(), path.as_os_str()]))
            // No device of this machine is asked.
            .args(["--print-service", "/nowhere/print-service"])
            .env("SANE_CONFIG_DIR", "/nowhere")
            .stdout(Stdio::null())
            .spawn()
            .expect("the program starts");
        Self(child)
    }
}

impl Drop for Window {
    fn drop(&mut self) {
        // It may have ended by itself.
        drop(self.0.kill());
        drop(self.0.wait());
    }
}

/// Waits until the display shows something else than `before` and has stood still.
fn changed(display: &Display, before: &RgbImage) -> RgbImage {
    let until = Instant::now() + Duration::from_secs(20);
    let mut last = display.picture().expect("a picture");
    while Instant::now() < until {
        sleep(Duration::from_millis(150));
        let now = display.picture().expect("a picture");
        if now == last && now != *before {
            return now;
        }
        last = now;
    }
    keep(&last, "stuck");
    unreachable!("the screen did not change; it is in EVENHAND_PICTURES/stuck.png if that is set")
}

/// Leaves a picture where `EVENHAND_PICTURES` says.
fn keep(picture: &RgbImage, name: &str) {
    if let Some(folder) = std::env::var_os("EVENHAND_PICTURES") {
        let path = Path::new(&folder).join(format!("set-up-{name}.png"));
        picture.save(path).expect("a picture can be kept");
    }
}

/// The box that is matched with a card, in pixels: the widest run of ink on any line of the right
/// half, and the longest down its first column.
fn card_of(picture: &RgbImage) -> (u32, u32) {
    let is_ink = |x: u32, y: u32| picture.get_pixel(x, y).0.iter().all(|part| *part < 60);
    let (width, height) = picture.dimensions();
    let mut widest = (0, 0, 0);
    // The bar is below; the stripes are above.
    for y in 120..height - 150 {
        let mut start = width / 2;
        for x in width / 2..width {
            if is_ink(x, y) {
                if x + 1 - start > widest.0 {
                    widest = (x + 1 - start, start, y);
                }
            } else {
                start = x + 1;
            }
        }
    }
    let (wide, left, top) = widest;
    let high = (top..height).take_while(|y| is_ink(left, *y)).count();
    (wide, u32::try_from(high).expect("a screen's height"))
}

#[test]
fn a_worker_measures_the_screen_and_teaches_two_switches() {
    let room = Room::new("set-up").expect("a folder can be made");
    let file = room.path("station.json");
    let display = VirtualDisplay::start(SIZE).expect("a display");
    let eyes = Display::open(display.name()).expect("the display answers");
    let empty = eyes.picture().expect("a picture");
    let mut window = Window::open(&display, &file, &[]);
    let mut seen = changed(&eyes, &empty);
    keep(&seen, "card");
    // 85.60 mm at 0.2767 mm a pixel, and 53.98 mm: computed by hand from ISO/IEC 7810.
    assert_eq!(card_of(&seen), (309, 195));
    eyes.give_keys_to("Evenhand worker").expect("the window takes keys");
    for name in ["narrower", "narrower-again"] {
        eyes.key(Keysym::RETURN).expect("a key");
        seen = changed(&eyes, &seen);
        keep(&seen, name);
    }
    assert_eq!(card_of(&seen), (307, 194));
    let steps: [(&str, &dyn Fn() -> Instant); 13] = [
        ("first", &|| eyes.click(NEXT).expect("a click")),
        ("first-heard", &|| eyes.key(F5).expect("a key")),
        ("second", &|| eyes.key(F5).expect("a key")),
        ("second-same", &|| eyes.key(F5).expect("a key")),
        ("second-heard", &|| eyes.click(NOTHING).expect("a click")),
        ("try", &|| eyes.click(NOTHING).expect("a click")),
        ("try-first", &|| eyes.key(F5).expect("a key")),
        ("try-second", &|| eyes.click(NOTHING).expect("a click")),
        ("printer", &|| eyes.click(NEXT).expect("a click")),
        ("scanner", &|| eyes.click(NEXT).expect("a click")),
        ("headphones", &|| eyes.click(NEXT).expect("a click")),
        ("loudness", &|| eyes.click(NEXT).expect("a click")),
        ("keep", &|| eyes.click(NEXT).expect("a click")),
    ];
    for (name, step) in steps {
        step();
        seen = changed(&eyes, &seen);
        keep(&seen, name);
    }
    assert!(!file.exists(), "nothing is kept before the worker says so");
    // Back is possible to the last: Escape, then all of it again.
    for _ in 0..5 {
        eyes.key(ESCAPE).expect("a key");
        seen = changed(&eyes, &seen);
    }
    for (_, step) in steps.get(1..).expect("steps") {
        step();
        seen = changed(&eyes, &seen);
    }
    eyes.key(Keysym::RETURN).expect("a key");
    seen = changed(&eyes, &seen);
    keep(&seen, "kept");
    let written = fs::read_to_string(&file).expect("the file is kept");
    let written: serde_json::Value = serde_json::from_str(&written).expect("it is JSON");
    let expected = serde_json::json!({
        // 85.60 mm over 307 pixels.
        "pixel-pitch-nanometres": 278_827,
        "first-switch": "key f5",
        "second-switch": "mouse left",
    });
    assert_eq!(written, expected);
    eyes.key(Keysym::RETURN).expect("a key");
    let ended = window.0.wait().expect("it ends");
    assert!(ended.success(), "{ended}");
    the_station_takes_them(&room, &display, &eyes, &file);
}

/// F5 moves the focus on, and a click anywhere chooses.
fn the_station_takes_them(room: &Room, display: &VirtualDisplay, eyes: &Display, file: &Path) {
    let program = program().expect("the station is built");
    let election = demo_folder();
    let opening = Opening {
        program: &program,
        display: display.name(),
        size: SIZE,
        election: &election,
        style: "101-A",
        folder: room.folder(),
        station_file: Some(file),
    };
    let station = Station::start(&opening).expect("the station starts");
    station.wait_for_window().expect("the window opens");
    let trace = || fs::read_to_string(station.trace()).unwrap_or_default();
    let shows = |wanted: &str| {
        let until = Instant::now() + Duration::from_secs(20);
        while !trace().contains(wanted) {
            assert!(Instant::now() < until, "{wanted} isn't shown: {}", trace());
            sleep(Duration::from_millis(20));
        }
    };
    eyes.give_keys_to("Evenhand").expect("the window takes keys");
    shows("shown Opening row-0");
    eyes.key(F5).expect("a key");
    shows("shown Opening row-1");
    eyes.click(NOTHING).expect("a click");
    let lines = trace().lines().count();
    let until = Instant::now() + Duration::from_secs(20);
    while trace().lines().count() == lines && Instant::now() < until {
        sleep(Duration::from_millis(20));
    }
    assert!(
        trace().lines().any(|line| !line.contains("Opening") && line != "settled"),
        "{}",
        trace()
    );
}

/// A drive with a sealed election and one of which a byte was changed after it was sealed.
fn drive(room: &Room) -> (PathBuf, PathBuf) {
    let (drive, trust) = (room.path("drive"), room.path("trusted.json"));
    fs::create_dir_all(&drive).expect("a folder can be made");
    fs::write(&trust, sealing::trust(2, 2).write()).expect("a file");
    let good = sealing::sealed(sealing::contents().bytes(), &[1, 2]);
    fs::write(drive.join("a-good.sealed.tar"), &good).expect("a file");
    // Within contents.tar, which follows its own header.
    let mut changed = good;
    changed[512 + sealing::contents().bytes().len() / 2] ^= 1;
    fs::write(drive.join("b-changed.sealed.tar"), changed).expect("a file");
    (drive, trust)
}

/// The digest of a file by GNU sha256sum.
fn sha256sum(file: &Path) -> String {
    let output = Command::new("sha256sum").arg(file).output().expect("sha256sum is there");
    let text = String::from_utf8(output.stdout).expect("digits");
    text.split(' ').next().expect("a digest").to_owned()
}

/// What is read aloud is right, by other programs' digest and reading; a few groups may be misread.
fn shows_digest(file: &Path, shown: &str) {
    let digest = sha256sum(file);
    let groups = digest.as_bytes().chunks(4).map(|group| String::from_utf8_lossy(group));
    let read = groups.filter(|group| shown.contains(&**group)).count();
    assert!(read >= 8, "{read} of 16 groups of {digest} can be read: {shown}");
}

/// Waits until a person could read this on the display, by tesseract; all that could be read.
fn reads(eyes: &Display, wanted: &str) -> String {
    let until = Instant::now() + Duration::from_secs(40);
    loop {
        let picture = eyes.picture().expect("a picture");
        let text = read_by_eye(&picture).expect("tesseract is there");
        if text.contains(wanted) {
            keep(&picture, &wanted.to_lowercase().replace(' ', "-"));
            return text;
        }
        keep(&picture, "stuck");
        assert!(Instant::now() < until, "{wanted} isn't shown: {text}");
        sleep(Duration::from_millis(50));
    }
}

#[test]
fn a_worker_chooses_a_sealed_election_and_a_changed_one_is_refused() {
    let room = Room::new("set-up-election").expect("a folder can be made");
    let (drive, trust) = drive(&room);
    fs::create_dir_all(room.path("own")).expect("a folder can be made");
    let file = room.path("own/station.json");
    let display = VirtualDisplay::start(SIZE).expect("a display");
    let eyes = Display::open(display.name()).expect("the display answers");
    let more = [("--elections", drive.as_path()), ("--trust", trust.as_path())];
    let mut window = Window::open(&display, &file, &more);
    // Tesseract leaves out what stands in boxes: which row is which file, taking it shows.
    let mut list = reads(&eyes, "Choose the election");
    assert!(list.contains("Step 1 of 9"), "{list}");
    while list.contains("Looking") {
        list = reads(&eyes, "Choose the election");
    }
    assert!(!list.contains("could not be") && !list.contains("No sealed"), "{list}");
    eyes.give_keys_to("Evenhand worker").expect("the window takes keys");
    let press = |key| eyes.key(key).expect("a key");
    press(Keysym::DOWN);
    press(Keysym::RETURN);
    let refused = reads(&eyes, "This election cannot be used");
    assert!(refused.contains("changed after it was sealed"), "{refused}");
    press(ESCAPE);
    reads(&eyes, "Choose the election");
    press(Keysym::RETURN);
    let shown = reads(&eyes, "Is it this election");
    shows_digest(&drive.join("a-good.sealed.tar"), &shown);
    for part in ["Sealed by 2 officials", "Official 1", "Official 2", "Day"] {
        assert!(shown.contains(part), "{part}: {shown}");
    }
    // The focus begins at "back", so that pressing once too often takes nothing.
    press(Keysym::RETURN);
    reads(&eyes, "Choose the election");
    press(Keysym::RETURN);
    reads(&eyes, "Is it this election");
    press(Keysym::DOWN);
    press(Keysym::RETURN);
    shows_digest(&trust, &reads(&eyes, "Is it this list of officials"));
    press(Keysym::DOWN);
    press(Keysym::RETURN);
    reads(&eyes, "Measure this screen");
    let mut seen = eyes.picture().expect("a picture");
    for step in [NEXT, F5_TWICE, NOTHING, NOTHING, F5_ONCE, NOTHING, NEXT] {
        match step {
            F5_TWICE => {
                press(F5);
                seen = changed(&eyes, &seen);
                press(F5);
            }
            F5_ONCE => {
                press(F5);
            }
            place => {
                eyes.click(place).expect("a click");
            }
        }
        seen = changed(&eyes, &seen);
    }
    for heading in ["The printer", "The reader", "The headphones", "How loud it begins"] {
        reads(&eyes, heading);
        eyes.click(NEXT).expect("a click");
    }
    reads(&eyes, "Save this");
    assert!(!file.exists(), "nothing is kept before the worker says so");
    press(Keysym::RETURN);
    let saved = reads(&eyes, "Saved");
    assert!(saved.contains("Election: Day"), "{saved}");
    press(Keysym::RETURN);
    let ended = window.0.wait().expect("it ends");
    assert!(ended.success(), "{ended}");
    the_station_has_it(&room, &display, &eyes, &file);
}

/// Steps that are keys, as places that are nowhere.
const F5_ONCE: (i16, i16) = (-1, -1);
const F5_TWICE: (i16, i16) = (-2, -2);

/// The copies lie beside the station's file, and the station opens them without the drive.
fn the_station_has_it(room: &Room, display: &VirtualDisplay, eyes: &Display, file: &Path) {
    let written = fs::read_to_string(file).expect("the file is kept");
    let written: serde_json::Value = serde_json::from_str(&written).expect("it is JSON");
    let named = |field: &str| {
        let name = written.get(field).and_then(serde_json::Value::as_str);
        file.with_file_name(name.unwrap_or_else(|| unreachable!("{field} is in {written}")))
    };
    let good = room.path("drive/a-good.sealed.tar");
    assert_eq!(sha256sum(&named("sealed")), sha256sum(&good));
    assert_eq!(sha256sum(&named("trust")), sha256sum(&room.path("trusted.json")));
    assert_eq!(names_in(&room.path("own")).len(), 3, "nothing else is left");
    fs::remove_dir_all(room.path("drive")).expect("the drive is pulled out");
    fs::remove_file(room.path("trusted.json")).expect("a file");
    let child = Command::new(program().expect("the station is built"))
        .env("DISPLAY", display.name())
        .args(["station", "--once", "--window", "1920x1080", "--station-file"])
        .arg(file)
        .arg("--printer-folder")
        .arg(room.path("tray"))
        .arg("--trace")
        .arg(room.path("trace"))
        .stdout(Stdio::null())
        .spawn()
        .expect("the program starts");
    let station = Window(child);
    let until = Instant::now() + Duration::from_secs(40);
    let trace = || fs::read_to_string(room.path("trace")).unwrap_or_default();
    while !trace().contains("shown Opening") {
        assert!(Instant::now() < until, "the voter's screen doesn't come: {}", trace());
        sleep(Duration::from_millis(20));
    }
    reads(eyes, "Day");
    drop(station);
}

fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let name = |entry: fs::DirEntry| entry.file_name().to_string_lossy().into_owned();
    let mut names: Vec<String> = entries.map(|entry| name(entry.expect("an entry"))).collect();
    names.sort();
    names
}

#[test]
fn only_whole_files_of_sealed_elections_are_listed() {
    let room = Room::new("shelf-list").expect("a folder can be made");
    let (drive, trust) = drive(&room);
    let shelf = Shelf::new(drive.clone(), &trust).expect("the keys are sound");
    let long = format!("{}.sealed.tar", "n".repeat(200));
    for name in ["notes.txt", "c.sealed.tar.bak", &long] {
        fs::write(drive.join(name), "x").expect("a file");
    }
    fs::create_dir(drive.join("d.sealed.tar")).expect("a folder");
    std::os::unix::fs::symlink(&trust, drive.join("e.sealed.tar")).expect("a link");
    let made = Command::new("mkfifo").arg(drive.join("f.sealed.tar")).status();
    assert!(made.expect("mkfifo is there").success());
    let found = shelf.find().expect("it can be read");
    let labels: Vec<&str> = found.iter().map(|(label, _)| label.as_str()).collect();
    let cut = format!("{}…", "n".repeat(49));
    assert_eq!(labels, ["a-good.sealed.tar", "b-changed.sealed.tar", cut.as_str()]);
    for number in 0..ELECTIONS_MAX {
        fs::write(drive.join(format!("{number}.sealed.tar")), "x").expect("a file");
    }
    let error = shelf.find().expect_err("too many");
    assert!(matches!(error, ShelfError::TooMany { .. }), "{error}");
    let gone = Shelf::new(room.path("gone"), &trust).expect("the drive may come later");
    assert!(matches!(gone.find(), Err(ShelfError::Folder { .. })));
    fs::write(&trust, "{}").expect("a file");
    assert!(matches!(Shelf::new(drive.clone(), &trust), Err(ShelfError::Trust { .. })));
    let none = room.path("none.json");
    assert!(matches!(Shelf::new(drive, &none), Err(ShelfError::TrustFile { .. })));
}

#[test]
fn what_isnt_sealed_as_this_station_wants_is_refused() {
    let room = Room::new("shelf-check").expect("a folder can be made");
    let (drive, trust) = drive(&room);
    let shelf = Shelf::new(drive.clone(), &trust).expect("the keys are sound");
    let good = drive.join("a-good.sealed.tar");
    let checked = shelf.check(&good).expect("it is sound");
    assert_eq!((checked.name.as_str(), checked.date.as_str()), ("Day", "2027-05-04"));
    assert_eq!(checked.signers.len(), 2);
    assert_eq!(checked.digest.to_string(), sha256sum(&good));
    let refused = |file: &Path| match shelf.check(file) {
        Err(CheckError::Seal { why, .. }) => why,
        other => panic!("{other:?}"),
    };
    let changed = refused(&drive.join("b-changed.sealed.tar"));
    assert!(matches!(changed, SealError::BadSignature { .. }), "{changed}");
    let contents = sealing::contents();
    let other = drive.join("other.sealed.tar");
    let of = |officials: &[u8]| {
        fs::write(&other, sealing::sealed(contents.bytes(), officials)).expect("a file");
        refused(&other)
    };
    assert!(matches!(of(&[1]), SealError::TooFew { found: 1, .. }));
    assert!(matches!(of(&[1, 3]), SealError::UnknownKey { .. }));
    let whole = fs::read(&good).expect("a file");
    fs::write(&other, &whole[..whole.len() - 512]).expect("a file");
    assert!(matches!(refused(&other), SealError::Archive(_)));
    let gone = shelf.check(&drive.join("gone.sealed.tar"));
    assert!(matches!(gone, Err(CheckError::File { .. })), "{gone:?}");
}

#[test]
fn what_was_compared_is_what_is_copied_or_nothing_is() {
    let room = Room::new("shelf-install").expect("a folder can be made");
    let (drive, trust) = drive(&room);
    let own = room.path("own");
    fs::create_dir(&own).expect("a folder");
    let file = own.join("station.json");
    let shelf = Shelf::new(drive.clone(), &trust).expect("the keys are sound");
    let good = drive.join("a-good.sealed.tar");
    let digest = shelf.check(&good).expect("it is sound").digest;
    // The keys that it was verified with are copied, whatever the drive says by then.
    let keys = fs::read(&trust).expect("a file");
    fs::write(&trust, sealing::trust(1, 3).write()).expect("a file");
    let names = shelf.install(&good, digest, &file).expect("it can be copied");
    assert_eq!(fs::read(names.trust_beside(&file)).expect("a copy"), keys);
    assert_eq!(sha256sum(&names.sealed_beside(&file)), sha256sum(&good));
    let first = names_in(&own);
    assert_eq!(first.len(), 2, "{first:?}");
    // Another election, as truly sealed, in its place since it was compared; one that isn't sound at
    // all; none; and a folder that isn't there: nothing changes.
    let other = evenhand_definitions::seal::Contents::pack(&sealing::files(true)).expect("packed");
    let other = sealing::sealed(other.bytes(), &[1, 2]);
    for bytes in [&other[..], b"x", b""] {
        fs::write(&good, bytes).expect("a file");
        let error = shelf.install(&good, digest, &file).expect_err("it has changed");
        assert!(matches!(error, InstallError::Changed { .. }), "{error}");
        assert_eq!(names_in(&own), first);
    }
    let bad = drive.join("b-changed.sealed.tar");
    let bad_digest = evenhand_definitions::Digest::of(&fs::read(&bad).expect("a file"));
    let error = shelf.install(&bad, bad_digest, &file).expect_err("it doesn't open");
    assert!(matches!(error, InstallError::Copy(_)), "{error}");
    let nowhere = room.path("nowhere/station.json");
    assert!(matches!(shelf.install(&bad, bad_digest, &nowhere), Err(InstallError::File { .. })));
    assert_eq!(names_in(&own), first);
    // The next election takes its place; the keys are the same and stay.
    let next_digest = shelf.check(&good).map(|checked| checked.digest);
    assert!(next_digest.is_err(), "it is empty by now");
    fs::write(&good, &other).expect("a file");
    let next_digest = shelf.check(&good).expect("it is sound").digest;
    let next = shelf.install(&good, next_digest, &file).expect("it can be copied");
    assert_eq!(names_in(&own).len(), 3);
    // Polls that are suspended need the one that was there.
    assert!(names.sealed_beside(&file).exists());
    assert!(next.sealed_beside(&file).exists() && next.trust_beside(&file).exists());
}
