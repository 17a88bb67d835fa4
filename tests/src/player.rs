//! Plays a whole visit through the real window: sends X events and looks at the screen.
//!
//! A copy of the state machine, measured with the window's own ruler, says what must be on the
//! screen after each press; the window's trace says what is. Where they part, the play stops.
//!
//! Start reading at [`play`]; a [`Player`] is moved press by press.
#![expect(clippy::disallowed_methods, reason = "it waits for frames, and writes what it saw")]

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_app::scene::{PictureSizes, Scene, Screen, Stage as Glass};
use evenhand_app::trace::{SPEECH_BACK, SPEECH_LOST, line};
use evenhand_app::typesetter::Typesetter;
use evenhand_marks::Reader;
use evenhand_rules::{Millis, Selections};
use evenhand_visit::{
    Command, Input, Output, PrintFault, ReadFault, RowKind, ScreenKind, Target, View, Visit,
    WorkerSays,
};

use image::RgbImage;

use crate::display::{Display, Keysym};
use crate::ears::Ears;
use crate::paper::{RESOLUTION, printed, reader, scanned};
use crate::pilot::Pilot;
use crate::reading::{long_words, read_by_eye};

/// The longest wait for a screen to be as it must be. VVSG 2.0 7.2-N (from memory) allows 10 s for
/// anything but a reaction; printing and reading several sheets in a debug build is the slowest.
const WAIT_MAX: Duration = Duration::from_mins(1);

/// How long the focus may take to move where nothing tells that it has.
const FOCUS_MOVES_WITHIN: Duration = Duration::from_millis(150);

/// So many words of a screen are looked for where it is read off the display.
const HEADING_WORDS: usize = 4;

/// By which road the presses come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Road {
    /// Two switches, as the keys 1 and 2.
    Switches,
    /// Arrow down and Enter.
    Keys,
    /// The mouse, by its left button.
    Mouse,
}

/// How a play is set up.
#[derive(Clone, Debug)]
pub struct Setup {
    /// The window's size in pixels.
    pub size: (u16, u16),
    /// Its pixels' width.
    pub pitch: PixelPitch,
    /// The road.
    pub road: Road,
    /// The X display, such as `:7`.
    pub display: String,
    /// The file that the window writes its trace to. An official ballot's window writes none: then
    /// each screen is read off the display.
    pub trace: Option<PathBuf>,
    /// Where the pictures go; `None` takes none.
    pub pictures: Option<PathBuf>,
    /// The file of texts that the speech service was given; where there is one, every screen is
    /// heard item by item, and each text must have come to the service.
    pub spoken: Option<PathBuf>,
    /// How long after a press the player does nothing, so that a benchmark has the machine alone.
    pub pause: Duration,
}

/// One screen of a play.
#[derive(Clone, Debug)]
pub struct Seen {
    /// Its kind.
    pub kind: String,
    /// Its picture's file name, where one was taken.
    pub picture: Option<String>,
    /// Every line that is drawn.
    pub lines: Vec<String>,
    /// Everything that is said on arriving, when heard again, and item by item.
    pub heard: Vec<String>,
    /// Every text that the speech service was given while the screen was there; empty where the
    /// play has no ears.
    pub spoken: Vec<String>,
}

/// What a play brought about.
#[derive(Clone, Debug)]
pub struct Played {
    /// Each screen, once a time that it was come to.
    pub screens: Vec<Seen>,
    /// How many presses were sent.
    pub presses: u32,
    /// The bytes that the state machine's last print must have given.
    pub document: Vec<u8>,
}

/// Looks on while a play goes: called with each screen that is come to.
pub type Watch<'a> = &'a mut dyn FnMut(ScreenKind);

/// Plays press by press.
#[derive(Debug)]
pub struct Player<'a> {
    setup: &'a Setup,
    display: Display,
    prepared: &'a Prepared,
    typesetter: Typesetter,
    reader: Reader,
    sizes: PictureSizes,
    visit: Visit,
    out: Vec<Output>,
    played: Played,
    lines_seen: usize,
    /// The words of the screen that was read off the display last.
    words_seen: Vec<String>,
    /// How often the window has told that speech was lost or came back.
    speech_told: usize,
    ears: Option<Ears>,
    /// What the ears heard since the last note.
    spoken: Vec<String>,
    last_picture: Option<RgbImage>,
    /// What the printer and the reader answer, where they are made to fail.
    printer: Option<PrintFault>,
    scanner: Option<ReadFault>,
}

/// Plays a visit that the window has already begun.
///
/// # Errors
/// A sentence that says on which screen the window and the state machine parted, or what failed.
pub fn play(
    prepared: &Prepared,
    setup: &Setup,
    mut pilot: Pilot,
    watch: Watch<'_>,
) -> Result<Played, String> {
    let mut player = Player::begin(prepared, setup)?;
    let mut view = player.view();
    watch(view.screen);
    player.note(&view)?;
    while let Some(command) = player.next(&mut pilot) {
        player.press(command)?;
        if player.has_ended() {
            return Ok(player.played);
        }
        let now = player.view();
        if is_another(&view, &now) {
            watch(now.screen);
            player.note(&now)?;
        } else {
            // A scan shows its ways back while it is there.
            let lines = player.words_of(&now);
            if let Some(screen) = player.played.screens.last_mut() {
                screen.spoken.append(&mut player.spoken);
                screen.lines.extend(lines);
            }
        }
        view = now;
    }
    match pilot.fault() {
        Some(fault) => Err(fault.to_string()),
        None => Err(format!("the play stopped on {:?}", player.view().screen)),
    }
}

fn glass<'a>(
    prepared: &'a Prepared,
    typesetter: &'a Typesetter,
    setup: &Setup,
    pictures: &'a PictureSizes,
) -> Glass<'a> {
    let side = |pixels: u16| setup.pitch.distance(f32::from(pixels));
    let screen = Screen { width: side(setup.size.0), height: side(setup.size.1) };
    Glass { words: &prepared.words, typesetter, screen, pictures }
}

impl<'a> Player<'a> {
    /// Takes over a visit that the window has just begun, and gives the window the keys.
    ///
    /// # Errors
    /// A sentence that says what the display said, or that the window shows another screen.
    pub fn begin(prepared: &'a Prepared, setup: &'a Setup) -> Result<Self, String> {
        let typesetter = Typesetter::new();
        let sizes = PictureSizes::new();
        let mut out = Vec::new();
        let visit = {
            let glass = glass(prepared, &typesetter, setup, &sizes);
            Visit::begin(prepared.begin.clone(), Millis(0), &glass, &mut out)
        };
        let mut player = Player {
            setup,
            display: Display::open(&setup.display)?,
            prepared,
            typesetter,
            reader: reader(&prepared.ballot, &prepared.style),
            sizes,
            visit,
            out,
            played: Played { screens: Vec::new(), presses: 0, document: Vec::new() },
            lines_seen: 0,
            words_seen: Vec::new(),
            speech_told: 0,
            ears: setup.spoken.clone().map(Ears::open).transpose()?,
            spoken: Vec::new(),
            last_picture: None,
            printer: None,
            scanner: None,
        };
        player.wait_for(&player.view())?;
        player.display.give_keys_to("Evenhand")?;
        Ok(player)
    }

    /// The display that the window is on.
    pub fn display(&self) -> &Display {
        &self.display
    }

    /// What the window shows.
    pub fn view(&self) -> View {
        self.visit.view(&glass(self.prepared, &self.typesetter, self.setup, &self.sizes))
    }

    /// How the window must show this view.
    pub fn scene(&self, view: &View) -> Scene {
        glass(self.prepared, &self.typesetter, self.setup, &self.sizes).scene(view)
    }

    /// Sends a press to the window and waits until the window shows what must come of it, or until
    /// the visit is over. Returns when the press was handed to the display.
    ///
    /// # Errors
    /// A sentence that says on which screen the window and the state machine parted, or what failed.
    pub fn press(&mut self, command: Command) -> Result<Instant, String> {
        self.played.presses += 1;
        let at = self.send(self.setup.road, command)?;
        std::thread::sleep(self.setup.pause);
        self.follow(command)?;
        Ok(at)
    }

    /// Takes the step in the copy that a press has taken in the window, and waits until the window
    /// shows it and the speech service was given its words.
    fn follow(&mut self, command: Command) -> Result<(), String> {
        self.give(Input::Press(command));
        self.answer_devices()?;
        if self.has_ended() {
            return Ok(());
        }
        self.wait_for(&self.view())?;
        let said = self.said(&self.out);
        if let Some(ears) = &mut self.ears {
            self.spoken.append(&mut ears.hear(&said)?);
        }
        Ok(())
    }

    /// What a pilot presses next. By mouse it is a touch: a copy of the visit takes the steps between.
    pub fn next(&self, pilot: &mut Pilot) -> Option<Command> {
        if self.setup.road != Road::Mouse {
            return pilot.next(&self.view());
        }
        let glass = glass(self.prepared, &self.typesetter, self.setup, &self.sizes);
        let mut ghost = self.visit.clone();
        loop {
            let view = ghost.view(&glass);
            let command = pilot.next(&view)?;
            if command == Command::Choose {
                let target = view.focus?;
                if !opens_keys(&view, target) && !is_scanned(target) {
                    return Some(Command::Pick(self.touchable(target)));
                }
            }
            ghost = ghost.handle(Input::Press(command), Millis(0), &glass, &mut Vec::new());
        }
    }

    /// What is touched on the way to a target: where its row is on another page, the button that turns
    /// to it.
    fn touchable(&self, target: Target) -> Target {
        let (Target::Row(row) | Target::Key { row, .. }) = target else { return target };
        let page = self.view().page;
        if row < page.first {
            Target::MoreAbove
        } else if row >= page.first.saturating_add(page.shown) {
            Target::MoreBelow
        } else {
            target
        }
    }

    fn give(&mut self, input: Input) {
        let glass = glass(self.prepared, &self.typesetter, self.setup, &self.sizes);
        self.out.clear();
        self.visit = self.visit.clone().handle(input, Millis(0), &glass, &mut self.out);
    }

    /// Plays the printer and the scanner for the copy, as the window's own do for the window.
    fn answer_devices(&mut self) -> Result<(), String> {
        let asked: Option<Selections> = self.out.iter().find_map(|output| match output {
            Output::Print(selections) => Some(selections.clone()),
            _ => None,
        });
        if let Some(selections) = asked {
            let (ballot, style) = (&self.prepared.ballot, &self.prepared.style);
            if let Some(fault) = self.printer {
                self.give(Input::Printed(Err(fault)));
                return Ok(());
            }
            self.played.document = printed(ballot, style, Some(&selections));
            self.give(Input::Printed(Ok(())));
        }
        if self.out.iter().any(|output| matches!(output, Output::ReadSheets)) {
            if let Some(fault) = self.scanner {
                self.give(Input::Read(Err(fault)));
                return Ok(());
            }
            let pictures = scanned(&self.played.document, RESOLUTION);
            let read = self.reader.read(&pictures).map_err(|refused| format!("{refused:?}"))?;
            self.sizes = read
                .write_in_pictures
                .iter()
                .map(|(contest, option, picture)| ((*contest, *option), picture.dimensions()))
                .collect();
            self.give(Input::Read(Ok(read.reading)));
        }
        Ok(())
    }

    /// What the window's printer and reader are made to answer from now on.
    pub fn expect_devices(&mut self, printer: Option<PrintFault>, scanner: Option<ReadFault>) {
        (self.printer, self.scanner) = (printer, scanner);
    }

    /// A worker presses the worker's key: the window closes.
    ///
    /// # Errors
    /// The display is gone.
    pub fn worker_comes(&mut self) -> Result<(), String> {
        self.display.key(Keysym::WORKER)?;
        self.give(Input::Press(Command::Worker));
        Ok(())
    }

    /// Takes what has the focus, and doesn't wait for what the window shows then: it closes for a
    /// worker, or power is lost.
    ///
    /// # Errors
    /// The road can't send it, or the display is gone.
    pub fn choose_without_waiting(&mut self) -> Result<(), String> {
        self.send(self.setup.road, Command::Choose)?;
        self.give(Input::Press(Command::Choose));
        Ok(())
    }

    /// The station has answered, and the window is there again.
    ///
    /// # Errors
    /// The window shows another screen, or none.
    pub fn is_back(&mut self, says: WorkerSays) -> Result<(), String> {
        self.give(Input::Worker(says));
        self.wait_for(&self.view())?;
        self.display.give_keys_to("Evenhand")
    }

    /// What was played so far.
    pub fn played(&self) -> &Played {
        &self.played
    }

    /// Whether the last press ended the visit.
    pub fn has_ended(&self) -> bool {
        self.out.iter().any(|output| matches!(output, Output::End))
    }

    fn send(&self, road: Road, command: Command) -> Result<Instant, String> {
        let display = &self.display;
        match (road, command) {
            (Road::Switches | Road::Keys, Command::Step) => display.key(Keysym::ONE),
            (Road::Switches, Command::Choose) => display.key(Keysym::TWO),
            (Road::Keys, Command::Next) => display.key(Keysym::DOWN),
            (Road::Keys, Command::Previous) => display.key(Keysym::UP),
            (Road::Keys, Command::Choose) => display.key(Keysym::RETURN),
            (Road::Keys, Command::Forward) => display.key(Keysym::RIGHT),
            (Road::Keys, Command::Louder) => display.key(Keysym::EQUAL),
            (Road::Mouse, Command::Pick(target)) => {
                let scene = self.scene(&self.view());
                let touch = scene.touches.iter().find(|touch| touch.target == target);
                let area = touch.ok_or("there is nothing to touch")?.area;
                #[expect(clippy::cast_possible_truncation, reason = "a screen's pixels")]
                let pixels = |distance| self.setup.pitch.pixels(distance).round() as i16;
                display.click((
                    pixels(area.x.plus(area.width.half())),
                    pixels(area.y.plus(area.height.half())),
                ))
            }
            (road, command) => Err(format!("{road:?} can't send {command:?}")),
        }
    }

    /// Waits until the window shows this view and has drawn it.
    fn wait_for(&mut self, view: &View) -> Result<(), String> {
        let Some(path) = &self.setup.trace else { return self.read_off(view) };
        let mut wanted = line(view);
        let until = Instant::now() + WAIT_MAX;
        loop {
            let trace = std::fs::read_to_string(path).unwrap_or_default();
            let lines: Vec<&str> = trace.lines().collect();
            // A speech service may fail and come back in mid-visit: the copy is told too.
            let told = lines.iter().filter_map(|line| match *line {
                line if line.starts_with(SPEECH_LOST) => Some(Input::SpeechLost),
                SPEECH_BACK => Some(Input::SpeechBack),
                _ => None,
            });
            let told: Vec<Input> = told.skip(self.speech_told).collect();
            for input in told {
                self.speech_told += 1;
                self.give(input);
                wanted = line(&self.view());
            }
            if let [.., shown, "settled"] = lines.as_slice()
                && lines.len() > self.lines_seen
                && *shown == wanted
            {
                self.lines_seen = lines.len();
                return Ok(());
            }
            if Instant::now() > until {
                let last = lines.iter().rev().take(3).rev().copied().collect::<Vec<_>>().join("; ");
                return Err(format!("the window should show \"{wanted}\"; its trace ends: {last}"));
            }
            std::thread::sleep(Duration::from_millis(3));
        }
    }

    /// Waits until tesseract reads this view's first words, which are its heading's, off the display.
    /// Where they are the same as before only the focus has moved, and what is pressed next waits in
    /// the window's own line.
    fn read_off(&mut self, view: &View) -> Result<(), String> {
        let mut words = long_words(&self.words_of(view).join(" "));
        words.truncate(HEADING_WORDS);
        if words == self.words_seen {
            std::thread::sleep(FOCUS_MOVES_WITHIN);
            return Ok(());
        }
        let until = Instant::now() + WAIT_MAX;
        loop {
            let read = long_words(&read_by_eye(&self.display.picture()?)?);
            let found = words.iter().filter(|word| read.contains(word)).count();
            // What stands in a row with the focus or a mark is often not read at all.
            if found * 2 >= words.len() {
                self.words_seen = words;
                return Ok(());
            }
            if Instant::now() > until {
                return Err(format!("the window should show {words:?}; there is {read:?}"));
            }
        }
    }

    /// Notes a screen: its picture, its lines, and all that can be heard on it.
    fn note(&mut self, view: &View) -> Result<(), String> {
        let kind = format!("{:?}", view.screen);
        let number = self.played.screens.len() + 1;
        let picture = match &self.setup.pictures {
            Some(folder) => {
                let name = format!("{number:03}-{}.png", kind.to_lowercase());
                self.steady_picture(&folder.join(&name))?;
                Some(name)
            }
            None => None,
        };
        let mut lines = self.words_of(view);
        let heard = self.heard(view);
        if self.ears.is_some() {
            lines.extend(self.listen(view)?);
        }
        let spoken = std::mem::take(&mut self.spoken);
        self.played.screens.push(Seen { kind, picture, lines, heard, spoken });
        Ok(())
    }

    /// Moves the focus once around the screen, through every key of every row of keys too, so that
    /// each item is said, and hears the whole screen again. The focus ends where it began. Returns the
    /// lines that were shown meanwhile: those of other pages, and of the screen for listening.
    fn listen(&mut self, view: &View) -> Result<Vec<String>, String> {
        let mut lines = Vec::new();
        // Keys go through all items one by one, whatever the visit is played with.
        let road = Road::Keys;
        for _ in view.targets() {
            self.step(road, Command::Next)?;
            let now = self.view();
            lines.extend(self.words_of(&now));
            if now.focus == Some(Target::HearAgain) {
                self.step(road, Command::Choose)?;
                lines.extend(self.words_of(&self.view()));
                self.step(road, Command::Forward)?;
            }
            let keys = match now.focus {
                Some(Target::Row(row)) => match now.rows.get(usize::from(row)).map(|row| &row.kind)
                {
                    Some(RowKind::Keys(keys)) => keys.len(),
                    _ => continue,
                },
                _ => continue,
            };
            self.step(road, Command::Choose)?;
            for _ in 0..keys {
                self.step(road, Command::Next)?;
            }
        }
        Ok(lines)
    }

    fn words_of(&self, view: &View) -> Vec<String> {
        self.scene(view).words().map(str::to_owned).collect()
    }

    fn step(&mut self, road: Road, command: Command) -> Result<(), String> {
        self.send(road, command)?;
        self.follow(command)
    }

    /// Takes pictures until three are the same and show something else than the last screen: a frame
    /// is drawn before the display has it, and on a busy machine that takes a while.
    fn steady_picture(&mut self, path: &Path) -> Result<(), String> {
        let mut same = 0;
        let mut before = None;
        let until = Instant::now() + Duration::from_secs(10);
        while same < 2 && Instant::now() < until {
            std::thread::sleep(Duration::from_millis(30));
            let now = Some(self.display.picture()?);
            same = if now == before && now != self.last_picture { same + 1 } else { 0 };
            before = now;
        }
        let Some(picture) = before.as_ref().filter(|_| same >= 2) else {
            return Err(format!("{}: the screen didn't settle", path.display()));
        };
        picture.save(path).map_err(|error| format!("{}: {error}", path.display()))?;
        self.last_picture = before;
        Ok(())
    }

    /// What is said on arriving, when heard again, and at each item.
    fn heard(&self, view: &View) -> Vec<String> {
        let glass = glass(self.prepared, &self.typesetter, self.setup, &self.sizes);
        let mut heard = self.said(&self.out);
        let mut ghost = self.visit.clone();
        let steps = view.targets().len();
        for command in
            std::iter::once(Command::Repeat).chain(std::iter::repeat_n(Command::Next, steps))
        {
            let mut out = Vec::new();
            ghost = ghost.handle(Input::Press(command), Millis(0), &glass, &mut out);
            heard.extend(self.said(&out));
        }
        for (row, keys) in view.shown_rows().filter_map(|(row, shown)| match &shown.kind {
            RowKind::Keys(keys) => Some((row, keys.len())),
            _ => None,
        }) {
            let mut inside = self.visit.clone();
            // Each letter's name is said when the focus comes to it.
            while inside.view(&glass).focus != Some(Target::Row(row)) {
                inside =
                    inside.handle(Input::Press(Command::Next), Millis(0), &glass, &mut Vec::new());
            }
            let mut out = Vec::new();
            inside = inside.handle(Input::Press(Command::Choose), Millis(0), &glass, &mut out);
            heard.extend(self.said(&out));
            for _ in 1..keys {
                out.clear();
                inside = inside.handle(Input::Press(Command::Next), Millis(0), &glass, &mut out);
                heard.extend(self.said(&out));
            }
        }
        heard
    }

    fn said(&self, out: &[Output]) -> Vec<String> {
        let language = self.view().comfort.language;
        out.iter()
            .filter_map(|output| match output {
                Output::Say(utterance) => Some(utterance),
                _ => None,
            })
            .flat_map(|utterance| &utterance.parts)
            .flat_map(|part| self.prepared.words.heard(&part.phrase, language))
            .map(|heard| heard.text)
            .collect()
    }
}

/// True where a person would say that this is another screen.
fn is_another(before: &View, now: &View) -> bool {
    before.screen != now.screen
        || before.heading != now.heading
        || before.page.first != now.page.first
        || before.comfort != now.comfort
}

/// What only a scan goes to: a touch goes straight to what lies in it.
const fn is_scanned(target: Target) -> bool {
    matches!(target, Target::Block(_) | Target::BackOne(_) | Target::BlockStart(_) | Target::Group)
}

fn opens_keys(view: &View, target: Target) -> bool {
    let Target::Row(row) = target else { return false };
    matches!(view.rows.get(usize::from(row)).map(|row| &row.kind), Some(RowKind::Keys(_)))
}

/// The screens as text: kind, picture, what is read, what is heard.
pub fn transcript(played: &Played) -> String {
    let mut text = String::new();
    for (number, screen) in played.screens.iter().enumerate() {
        let picture = screen.picture.as_deref().unwrap_or("no picture");
        // Writing to a string can't fail.
        writeln!(text, "== {} {} ({picture})", number + 1, screen.kind).unwrap_or_default();
        for line in &screen.lines {
            writeln!(text, "seen: {line}").unwrap_or_default();
        }
        for line in &screen.heard {
            writeln!(text, "said: {line}").unwrap_or_default();
        }
    }
    text
}
