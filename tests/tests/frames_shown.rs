//! What is measured on frames drawn without a window holds for the window: in seven combinations of
//! language, letters, palette and screen the real window on a virtual display shows, pixel by pixel,
//! the frame that `kiosk/app/tests/screens` draws and measures.
#![expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "this test starts a display and the station, and looks at what they leave"
)]

#[path = "../../kiosk/app/tests/support/draw.rs"]
mod draw;
#[path = "../../kiosk/app/tests/support/languages.rs"]
mod languages;
#[expect(dead_code, reason = "frames are drawn here and measured elsewhere")]
#[path = "../../kiosk/app/tests/support/pixels.rs"]
mod pixels;

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_app::station_file::StationFile;
use evenhand_tests::display::VirtualDisplay;
use evenhand_tests::open::{Opening, Room, Station, program};
use evenhand_tests::player::{Player, Road, Setup};
use evenhand_tests::stage::demo_folder;
use evenhand_visit::{Command, Message, Palette, ScreenKind, Target, TypeSize};
use image::RgbImage;
use serde_json::Value;

use pixels::Frame;

/// A language, letters, a palette, a screen in pixels and the width of one in nanometres.
type Combination = (&'static str, TypeSize, Palette, (u16, u16), u32);

const COMBINATIONS: [Combination; 7] = [
    ("en", TypeSize::Medium, Palette::DarkOnLight, (1920, 1080), 276_700),
    ("es", TypeSize::Largest, Palette::LightOnDark, (1080, 1920), 276_700),
    ("ar", TypeSize::Large, Palette::YellowOnDark, (1280, 1024), 294_400),
    ("km", TypeSize::Medium, Palette::LowContrast, (1024, 768), 297_600),
    ("zh-Hant", TypeSize::Largest, Palette::DarkOnLight, (3840, 2160), 184_480),
    ("ru", TypeSize::Small, Palette::YellowOnDark, (1080, 1920), 179_900),
    ("bn", TypeSize::Large, Palette::LightOnDark, (1080, 1920), 276_700),
];

/// The demo election, opened in this language.
fn election(room: &Room, language: &str) -> PathBuf {
    let from = languages::in_language(&demo_folder(), language);
    let to = room.path("election");
    fs::create_dir_all(&to).expect("a folder can be made");
    fs::copy(from.join("definition.json"), to.join("definition.json")).expect("a copy");
    let settings = fs::read_to_string(from.join("settings.json")).expect("settings");
    let mut settings: Value = serde_json::from_str(&settings).expect("JSON");
    settings["default_language"] = language.into();
    fs::write(to.join("settings.json"), settings.to_string()).expect("a copy");
    to
}

fn touch(player: &mut Player<'_>, target: Target) {
    player.press(Command::Pick(target)).expect("it is touched, and the window shows what follows");
}

/// Touches the row with these words, turning to its page.
fn row(player: &mut Player<'_>, message: Message) {
    let rows = player.view().rows;
    let row = rows.iter().position(|row| row.label.message == message).expect("the row is there");
    let row = u16::try_from(row).expect("few rows");
    while !player.view().shown_rows().any(|(index, _)| index == row) {
        let below = player.view().page.first < row;
        touch(player, if below { Target::MoreBelow } else { Target::MoreAbove });
    }
    touch(player, Target::Row(row));
}

/// How many pixels of the window differ from the frame as it is drawn without one, by more than one
/// step of a colour's 255.
fn differing(shown: &RgbImage, drawn: &Frame) -> usize {
    let far = |a: u8, b: u8| a.abs_diff(b) > 1;
    let pairs = shown.pixels().zip(drawn.image.pixels());
    pairs.filter(|(a, b)| a.0.iter().zip(&b.0[..3]).any(|(a, b)| far(*a, *b))).count()
}

fn compare(
    renderer: &mut iced::Renderer,
    player: &Player<'_>,
    (language, _, palette, size, pitch): Combination,
    count: &mut usize,
) {
    let view = player.view();
    let shown = player.display().picture().expect("a picture");
    let pitch = PixelPitch::new(pitch).expect("a pitch");
    let size = (u32::from(size.0), u32::from(size.1));
    let drawn = Frame::draw(renderer, &player.scene(&view), (palette, pitch), size);
    let differ = differing(&shown, &drawn);
    if differ > 0
        && let Some(folder) = std::env::var_os("EVENHAND_PICTURES")
    {
        let name =
            |what| Path::new(&folder).join(format!("{language}-{:?}-{what}.png", view.screen));
        shown.save(name("shown")).expect("a picture can be kept");
        drawn.image.save(name("drawn")).expect("a picture can be kept");
    }
    assert_eq!(differ, 0, "{language} {:?}: pixels that differ", view.screen);
    *count += 1;
}

/// Gives how many screens were compared.
fn play(renderer: &mut iced::Renderer, combination: Combination) -> usize {
    let (language, letters, palette, size, pitch) = combination;
    let room = Room::new(&format!("shown-{language}")).expect("a folder can be made");
    let display = VirtualDisplay::start(size).expect("a display can be started");
    let file = room.path("station.json");
    let pitch = PixelPitch::new(pitch).expect("a pitch");
    StationFile::with_pitch(pitch).save(&file).expect("the station file");
    let election = election(&room, language);
    let program = program().expect("the station is built");
    let opening = Opening {
        program: &program,
        display: display.name(),
        size,
        election: &election,
        style: "101-A",
        folder: room.folder(),
        station_file: Some(&file),
    };
    let station = Station::start(&opening).expect("the station starts");
    station.wait_for_window().expect("the window opens");
    let prepared = Prepared::load(&election, Some("101-A"), None).expect("it loads");
    let setup = Setup {
        size,
        pitch,
        road: Road::Mouse,
        display: display.name().to_owned(),
        trace: Some(station.trace()),
        pictures: None,
        spoken: None,
        pause: Duration::ZERO,
    };
    let mut player = Player::begin(&prepared, &setup).expect("the window shows the opening");
    touch(&mut player, Target::Comfort);
    while player.view().comfort.size < letters {
        row(&mut player, Message::ComfortLarger);
    }
    while player.view().comfort.size > letters {
        row(&mut player, Message::ComfortSmaller);
    }
    while player.view().comfort.palette != palette {
        row(&mut player, Message::ComfortColours);
    }
    let mut compared = 0;
    compare(renderer, &player, combination, &mut compared);
    touch(&mut player, Target::Forward);
    compare(renderer, &player, combination, &mut compared);
    touch(&mut player, Target::Row(0));
    // The languages, comfort again, practice, how to vote, two contests with a choice.
    for _ in 0..6 {
        compare(renderer, &player, combination, &mut compared);
        if player.view().screen == ScreenKind::Contest {
            touch(&mut player, Target::Row(0));
            compare(renderer, &player, combination, &mut compared);
        }
        touch(&mut player, Target::Forward);
    }
    touch(&mut player, Target::Help);
    compare(renderer, &player, combination, &mut compared);
    compared
}

#[test]
fn the_window_shows_what_is_measured() {
    let mut renderer = draw::renderer();
    for combination in COMBINATIONS {
        let compared = play(&mut renderer, combination);
        assert!(compared >= 10, "{compared} screens");
    }
}

#[test]
fn a_shifted_or_recoloured_frame_is_found() {
    let shown =
        RgbImage::from_fn(40, 30, |x, _| image::Rgb(if x == 20 { [0; 3] } else { [255; 3] }));
    let frame = |shift: u32, ground: u8| {
        let line = |x: u32| if x == 20 + shift { 0 } else { ground };
        let image =
            image::RgbaImage::from_fn(40, 30, |x, _| image::Rgba([line(x), line(x), line(x), 255]));
        Frame { image, pitch: PixelPitch::USUAL }
    };
    assert_eq!(differing(&shown, &frame(0, 255)), 0);
    assert_eq!(differing(&shown, &frame(1, 255)), 60);
    assert_eq!(differing(&shown, &frame(0, 250)), 39 * 30);
}
