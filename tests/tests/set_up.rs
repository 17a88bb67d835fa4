//! A worker sets the station up in the real window: the box is matched, two switches are learned by
//! key and by mouse, the file is kept, and the station takes the switches from it.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "this test starts a display and the station, and looks at what they leave"
)]

use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_tests::display::{Display, Keysym, VirtualDisplay};
use evenhand_tests::open::{Opening, Room, Station, program};
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
    fn open(display: &VirtualDisplay, file: &Path) -> Self {
        let child = Command::new(program().expect("the station is built"))
            .env("DISPLAY", display.name())
            .args(["set-up", "--window", "1920x1080", "--station-file"])
            .arg(file)
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
    let mut window = Window::open(&display, &file);
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
