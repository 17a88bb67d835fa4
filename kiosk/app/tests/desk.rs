//! A worker's screens on glasses from 10 to 32 in, in every language that they have: what can be
//! touched is large enough and far enough apart (VVSG 2.0 7.2-I, from memory), and nothing is cut or
//! lies over anything else.

#[path = "../../duty/tests/support/explore.rs"]
mod explore;

use evenhand_app::keys::tested_keys;
use evenhand_app::metrics::PixelPitch;
use evenhand_app::scene::desk::Desk;
use evenhand_app::scene::{Mark, Scene, Screen};
use evenhand_app::typesetter::Typesetter;
use evenhand_duty::{
    Button, Command, Device, Elections, Equipment, Glass, Input, Message, Named, Place, Refusal,
    Sealed, SetUp, Sheet,
};
use evenhand_rules::{Language, Micrometres};
use evenhand_sheet::Rect;
use evenhand_words::WorkerWords;

const TOUCH_LEAST: Micrometres = Micrometres(12_700);
const GAP_LEAST: Micrometres = Micrometres(2_540);

/// Pixels and their width in nanometres: 10.1 in both ways up, 15, 24, 32 in of 4K.
const GLASSES: [((u16, u16), u32); 6] = [
    ((1280, 800), 169_900),
    ((800, 1280), 169_900),
    ((1024, 768), 297_600),
    ((1920, 1080), 276_700),
    ((1080, 1920), 276_700),
    ((3840, 2160), 184_500),
];

/// Devices with long names that were chosen before.
fn equipment() -> Equipment {
    let named = |number: u16| {
        Some(Named { number, name: "Longmaker Professional 4000 Series, Feeder".to_owned() })
    };
    Equipment::new([named(0), named(1), named(2)], 5)
}

/// Every screen of setting up.
fn sheets(pixels: (u16, u16), pitch: u32) -> Vec<Sheet> {
    let mut set_up = SetUp::begin(Glass::new(pixels, pitch), None, equipment());
    let mut shown = vec![set_up.sheet()];
    let forward = Input::Press(Command::Pick(Place::Forward));
    let [a, b, c] = [0, 1, 2].map(Button).map(Input::Switch);
    let steps = [forward, a, b, b, b, c, c, a, b, c, forward];
    for step in steps {
        set_up.handle(step);
        shown.push(set_up.sheet());
    }
    for device in [Device::Printer, Device::Scanner, Device::Headphones] {
        let long = "Longmaker Professional 4000 Series, Automatic Document Feeder";
        let named = |number: u16| Named { number, name: format!("{long}, {number}") };
        for found in [None, Some(Vec::new()), Some((0..6).map(named).collect())] {
            set_up.found(device, found);
            shown.push(set_up.sheet());
        }
        for row in [4, 1] {
            set_up.handle(Input::Press(Command::Pick(Place::Row(row))));
            shown.push(set_up.sheet());
        }
        set_up.handle(forward);
        shown.push(set_up.sheet());
    }
    set_up.handle(Input::Sounded(false));
    shown.push(set_up.sheet());
    for step in [forward, Input::Kept(false), Input::Kept(true)] {
        set_up.handle(step);
        shown.push(set_up.sheet());
    }
    let mut without = SetUp::begin(Glass::new(pixels, pitch), None, equipment());
    without.handle(forward);
    without.handle(Input::Press(Command::Pick(Place::Row(0))));
    for _ in 0..5 {
        shown.push(without.sheet());
        without.handle(forward);
    }
    let mut narrow = SetUp::begin(Glass::new(pixels, 60_000), None, Equipment::none(5));
    narrow.handle(Input::Press(Command::Next));
    shown.push(narrow.sheet());
    shown.extend(elections(pixels, pitch));
    shown
}

/// Every screen on which a sealed election is chosen, and those that change with it.
fn elections(pixels: (u16, u16), pitch: u32) -> Vec<Sheet> {
    let begin = |has_one| {
        let set_up = SetUp::begin(Glass::new(pixels, pitch), None, equipment());
        set_up.with_elections(Elections::looking(has_one))
    };
    let pick = |place| Input::Press(Command::Pick(place));
    let (forward, back) = (pick(Place::Forward), pick(Place::Back));
    let mut shown = vec![begin(true).sheet()];
    let mut set_up = begin(false);
    // 50 letters with no place to break them at: the station shows no more of a file's name.
    let named = |number: u16| Named {
        number,
        name: format!("general_election_november_2027_county_{number}.sealed.tar"),
    };
    for found in [None, Some(Vec::new()), Some((0..6).map(named).collect())] {
        set_up.found_elections(found);
        shown.push(set_up.sheet());
    }
    let sealed = Sealed {
        name: "Consolidated General and Special Municipal Election of Larkfield County".to_owned(),
        date: "2027-05-04".to_owned(),
        signers: (0..6).map(|number| format!("Wilhelmina Featherstone {number}")).collect(),
        digest: (1..=4).map(|line| format!("{line}:  0a0a  4d4d  8888  dddd")).collect(),
        keys_digest: (1..=4).map(|line| format!("{line}:  0a0a  4d4d  8888  dddd")).collect(),
    };
    let refusals = [
        Refusal::Unread,
        Refusal::Damaged,
        Refusal::Changed,
        Refusal::Untrusted,
        Refusal::TooFew,
        Refusal::Unusable,
    ];
    for checked in refusals.map(Err).into_iter().chain([Ok(sealed)]) {
        for step in [back, pick(Place::Row(0))] {
            set_up.handle(step);
        }
        shown.push(set_up.sheet());
        set_up.checked(0, checked);
        shown.push(set_up.sheet());
    }
    for step in [forward, forward, forward, pick(Place::Row(0))] {
        set_up.handle(step);
        shown.push(set_up.sheet());
    }
    for step in [forward, forward, forward, forward, forward, Input::Kept(false), forward] {
        set_up.handle(step);
        shown.push(set_up.sheet());
    }
    set_up.handle(Input::Kept(true));
    shown.push(set_up.sheet());
    shown
}

/// A message within another.
fn message_in(arg: &evenhand_duty::Arg) -> Option<Message> {
    if let evenhand_duty::Arg::Message(message) = arg { Some(*message) } else { None }
}

/// Every screen of a worker's day, one of each look: the longest of those that differ in what is
/// typed or counted only.
fn day() -> Vec<Sheet> {
    let mut looks: std::collections::BTreeMap<String, (usize, Sheet)> =
        std::collections::BTreeMap::new();
    let reached = explore::explore(explore::beginnings()).into_iter().map(|one| one.sheet);
    for sheet in reached.chain([explore::many_workers().sheet()]) {
        let messages = |lines: &[evenhand_duty::Line]| {
            lines.iter().map(|line| line.message).collect::<Vec<_>>()
        };
        let notice = sheet.notice.as_ref().map(|(_, line)| line.message);
        let place = sheet.place.as_ref().map(|line| line.message);
        let lines = sheet.lines.iter().chain([&sheet.heading]);
        let named: Vec<_> =
            lines.flat_map(|line| &line.args).filter_map(|(_, arg)| message_in(arg)).collect();
        let look = format!(
            "{:?} {:?} {:?} {notice:?} {place:?} {named:?} {}",
            sheet.heading.message,
            messages(&sheet.lines),
            messages(&sheet.rows),
            sheet.keys.len(),
        );
        let length = format!("{sheet:?}").len();
        let kept = looks.entry(look).or_insert((length, sheet.clone()));
        if length > kept.0 {
            *kept = (length, sheet);
        }
    }
    looks.into_values().map(|(_, sheet)| with_all_keys(sheet)).collect()
}

/// The first of the numbers of the station's own keys.
const KEYS_FROM: u16 = 100;

/// Where keys are still to be pressed, all that a station has: the exploration goes with two.
fn with_all_keys(mut sheet: Sheet) -> Sheet {
    let all = || (KEYS_FROM..).zip(tested_keys()).map(|(number, _)| Button(number)).collect();
    for (_, arg) in sheet.lines.iter_mut().flat_map(|line| &mut line.args) {
        if let evenhand_duty::Arg::Buttons(keys) = arg {
            *keys = all();
            assert!(keys.len() > 20, "{keys:?}");
        }
    }
    sheet
}

/// The longest names that buttons have.
fn name_of(button: Button) -> String {
    if let Some(key) = button.0.checked_sub(KEYS_FROM).map(usize::from) {
        let key = tested_keys().nth(key).map(evenhand_input::Button::Key);
        return key.map(|key| key.to_string()).unwrap_or_default();
    }
    ["mouse middle", "pad right-shoulder", "key page-down"][usize::from(button.0)].to_owned()
}

fn scene(
    words: &WorkerWords,
    typesetter: &Typesetter,
    at: ((u16, u16), u32),
    sheet: &Sheet,
) -> Scene {
    let pitch = PixelPitch::new(at.1).unwrap_or(PixelPitch::USUAL);
    let ((width, height), distance) = (at.0, |pixels: u16| pitch.distance(f32::from(pixels)));
    let screen = Screen { width: distance(width), height: distance(height) };
    Desk { words, typesetter, screen, pitch, name_of: &name_of }.scene(sheet)
}

const fn overlap(a: Rect, b: Rect) -> bool {
    a.x.0 < b.right().0 && b.x.0 < a.right().0 && a.y.0 < b.bottom().0 && b.y.0 < a.bottom().0
}

/// The distance between two boxes that don't overlap, along the way in which they are farther apart.
fn gap(a: Rect, b: Rect) -> Micrometres {
    let across = b.x.minus(a.right()).0.max(a.x.minus(b.right()).0);
    let down = b.y.minus(a.bottom()).0.max(a.y.minus(b.bottom()).0);
    Micrometres(across.max(down))
}

fn faults(scene: &Scene, screen: (Micrometres, Micrometres)) -> Vec<String> {
    let mut faults = Vec::new();
    let is_inside = |area: Rect| {
        area.x.0 >= 0 && area.y.0 >= 0 && area.right() <= screen.0 && area.bottom() <= screen.1
    };
    let texts: Vec<(Rect, &str)> = scene
        .marks
        .iter()
        .filter_map(|mark| {
            let Mark::Text { area, words, .. } = mark else { return None };
            Some((*area, words.as_str()))
        })
        .collect();
    for (place, (area, words)) in texts.iter().enumerate() {
        if !is_inside(*area) {
            faults.push(format!("cut: {words}"));
        }
        for (other, with) in texts.iter().skip(place + 1) {
            if overlap(*area, *other) {
                faults.push(format!("over one another: {words} / {with}"));
            }
        }
    }
    for (place, touch) in scene.touches.iter().enumerate() {
        if touch.area.width < TOUCH_LEAST || touch.area.height < TOUCH_LEAST {
            faults.push(format!("small: {:?}", touch.target));
        }
        if !is_inside(touch.area) {
            faults.push(format!("outside: {:?}", touch.target));
        }
        for other in scene.touches.iter().skip(place + 1) {
            if gap(touch.area, other.area) < GAP_LEAST {
                faults.push(format!("close: {:?} {:?}", touch.target, other.target));
            }
        }
        for (area, words) in &texts {
            let is_in = area.x >= touch.area.x && area.right() <= touch.area.right();
            if overlap(*area, touch.area) && !is_in {
                faults.push(format!("runs out of {:?}: {words}", touch.target));
            }
        }
    }
    // The box that is matched with a card has square corners and no fill.
    let boxes = scene.marks.iter().filter_map(|mark| {
        let Mark::Box { area, fill: None, corner: Micrometres(0), .. } = mark else { return None };
        (area.width.0 > 85_000).then_some(*area)
    });
    for card in boxes.filter(|area| area.width.0 < 87_000) {
        for (area, words) in &texts {
            if overlap(*area, card) {
                faults.push(format!("over the card: {words}"));
            }
        }
        for touch in scene.touches.iter().filter(|touch| overlap(touch.area, card)) {
            faults.push(format!("over the card: {:?}", touch.target));
        }
    }
    faults
}

#[test]
fn every_worker_screen_holds_on_every_glass() {
    let typesetter = Typesetter::new();
    let mut seen = std::collections::BTreeSet::new();
    let day = day();
    for tag in WorkerWords::shipped_tags() {
        let Ok(words) = WorkerWords::shipped(&Language::new(tag)) else { panic!("{tag}") };
        for at in GLASSES {
            // No polls are opened on a smaller screen: set-up refuses it.
            let is_small = at.1 == GLASSES[0].1;
            let day = day.iter().filter(|_| !is_small);
            for sheet in sheets(at.0, at.1).iter().chain(day) {
                let lines = sheet.lines.iter().chain(&sheet.rows).chain([&sheet.heading]);
                let lines = lines.chain(&sheet.back).chain(&sheet.forward).chain(&sheet.place);
                let lines = lines.chain(sheet.notice.iter().map(|(_, line)| line));
                for line in lines {
                    seen.insert(line.message);
                    seen.extend(line.args.iter().filter_map(|(_, arg)| message_in(arg)));
                }
                let mut scene = scene(&words, &typesetter, at, sheet);
                let pitch = PixelPitch::new(at.1).unwrap_or(PixelPitch::USUAL);
                let screen = (at.0.0, at.0.1);
                let screen =
                    (pitch.distance(f32::from(screen.0)), pitch.distance(f32::from(screen.1)));
                if sheet.grid.is_some() {
                    // Cells to be touched once, edge to edge: they cover the glass and are no
                    // buttons.
                    let covered = |touch: &evenhand_app::scene::Touch| {
                        i64::from(touch.area.width.0) * i64::from(touch.area.height.0)
                    };
                    let cells: i64 = scene.touches.iter().map(covered).sum();
                    assert_eq!(cells, i64::from(screen.0.0) * i64::from(screen.1.0));
                    scene.touches.clear();
                }
                let found = faults(&scene, screen);
                assert!(
                    found.is_empty(),
                    "{tag} {:?} {:?}:\n{}",
                    at.0,
                    sheet.heading.message,
                    found.join("\n")
                );
            }
        }
    }
    let unseen: Vec<_> = Message::ALL
        .iter()
        // On every screen and in no sheet: the band's own word, the word of the colors. On paper
        // only: that a step has passed.
        .filter(|message| {
            let others = [
                Message::WorkerBand,
                Message::ColorsWord,
                Message::TypeSpace,
                Message::OutcomePassed,
            ];
            let is_on_paper = message.id().starts_with("report-");
            !is_on_paper && !others.contains(message) && !seen.contains(*message)
        })
        .collect();
    assert!(unseen.is_empty(), "on no screen: {unseen:?}");
}

#[test]
fn what_is_cut_or_too_small_is_found() {
    let typesetter = Typesetter::new();
    let Ok(words) = WorkerWords::shipped(&Language::new("en")) else { panic!() };
    let at = GLASSES[3];
    let sheet = sheets(at.0, at.1).swap_remove(0);
    let good = scene(&words, &typesetter, at, &sheet);
    let screen = (Micrometres(531_264), Micrometres(298_836));
    assert!(faults(&good, screen).is_empty());
    assert!(!faults(&good, (Micrometres(300_000), screen.1)).is_empty());
    let mut small = good.clone();
    small.touches[0].area.height = Micrometres(9_000);
    assert!(faults(&small, screen).iter().any(|fault| fault.starts_with("small")));
    let mut close = good;
    // The second row beside the first.
    close.touches[2].area.x = close.touches[1].area.right();
    assert!(faults(&close, screen).iter().any(|fault| fault.starts_with("close")));
}
