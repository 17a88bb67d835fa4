//! A visit on the demo election without a window: presses in, views and scenes out.

#[path = "languages.rs"]
mod languages;

use std::path::Path;
use std::sync::Arc;

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_app::scene::{PictureSizes, Screen, Stage};
use evenhand_app::typesetter::Typesetter;
use evenhand_rules::{
    ContestIndex, ContestReading, Millis, OvalReading, Permille, Reading, Selections, Style,
    Verdict, WriteInReading,
};
use evenhand_visit::{
    Command, Input, Message, Output, Palette, PressShape, ScreenKind, Target, TypeSize, View, Visit,
};
use evenhand_words::Words;

/// The demo election's folder.
pub(crate) fn demo() -> &'static Path {
    Path::new(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../ballot-definitions/quillbrook-county-general-2027"
    ))
}

/// A visit and what it is drawn with.
pub(crate) struct Walk {
    visit: Option<Visit>,
    pub(crate) style: Arc<Style>,
    words: Words,
    typesetter: Typesetter,
    pub(crate) screen: Screen,
    pub(crate) pictures: PictureSizes,
    /// The time of the next input.
    pub(crate) now: Millis,
    /// Every view that was shown, in order.
    pub(crate) shown: Vec<View>,
    /// Every utterance, in order.
    pub(crate) said: Vec<evenhand_visit::Utterance>,
    /// What was to be printed last.
    pub(crate) printed: Option<Selections>,
}

impl Walk {
    /// Begins a visit on a screen of this many pixels, in this language.
    pub(crate) fn begin(pixels: (f32, f32), language: &str) -> Self {
        let pitch = PixelPitch::USUAL;
        let screen = Screen { width: pitch.distance(pixels.0), height: pitch.distance(pixels.1) };
        Self::begin_on(screen, language)
    }

    /// Begins a visit on a screen of this size.
    pub(crate) fn begin_on(screen: Screen, language: &str) -> Self {
        let folder = languages::in_language(demo(), language);
        let prepared = Prepared::load(&folder, None, Some(language)).unwrap();
        let mut walk = Self {
            visit: None,
            style: prepared.style,
            words: prepared.words,
            typesetter: Typesetter::new(),
            screen,
            pictures: PictureSizes::new(),
            now: Millis(0),
            shown: Vec::new(),
            said: Vec::new(),
            printed: None,
        };
        let mut outputs = Vec::new();
        let visit = Visit::begin(prepared.begin, Millis(0), &walk.stage(), &mut outputs);
        walk.visit = Some(visit);
        walk.take(outputs);
        walk
    }

    pub(crate) fn stage(&self) -> Stage<'_> {
        Stage {
            words: &self.words,
            typesetter: &self.typesetter,
            screen: self.screen,
            pictures: &self.pictures,
        }
    }

    fn take(&mut self, outputs: Vec<Output>) {
        for output in outputs {
            match output {
                Output::Show(view) => self.shown.push(*view),
                Output::Print(selections) => self.printed = Some(selections),
                Output::Say(utterance) => self.said.push(utterance),
                Output::Hush
                | Output::Listen(_)
                | Output::SoundTone
                | Output::ReadSheets
                | Output::Record(_)
                | Output::WakeAt(_)
                | Output::End => {}
            }
        }
    }

    pub(crate) fn input(&mut self, input: Input) {
        let mut outputs = Vec::new();
        let visit = self.visit.take().unwrap();
        let visit = visit.handle(input, self.now, &self.stage(), &mut outputs);
        self.visit = Some(visit);
        self.take(outputs);
    }

    pub(crate) fn press(&mut self, command: Command) -> &mut Self {
        self.input(Input::Press(command));
        self
    }

    pub(crate) fn view(&self) -> &View {
        self.shown.last().unwrap()
    }

    /// Takes a row of the whole list, paging down to it.
    pub(crate) fn row(&mut self, row: u16) -> &mut Self {
        while !self.view().shown_rows().any(|(index, _)| index == row) {
            let below = self.view().page.first < row;
            self.press(if below { Command::MoreBelow } else { Command::MoreAbove });
        }
        self.press(Command::Pick(Target::Row(row)))
    }

    /// Touches the row with these words.
    pub(crate) fn row_of(&mut self, message: Message) -> &mut Self {
        let rows = &self.view().rows;
        let row = rows.iter().position(|row| row.label.message == message).unwrap();
        self.row(u16::try_from(row).unwrap())
    }

    /// Presses forward until this screen.
    pub(crate) fn forward_to(&mut self, kind: ScreenKind) -> &mut Self {
        for _ in 0..200 {
            if self.view().screen == kind {
                return self;
            }
            let forward = self.view().bar_label(Target::Forward).is_some();
            self.press(if forward { Command::Forward } else { Command::Choose });
        }
        panic!("{kind:?} isn't reached");
    }

    /// Sets type and palette on the comfort screen, and goes back to the languages.
    pub(crate) fn comfort(&mut self, size: TypeSize, palette: Palette) -> &mut Self {
        self.forward_to(ScreenKind::Comfort);
        for _ in TypeSize::ALL {
            let now = self.view().comfort.size;
            if now < size {
                self.row(0);
            } else if now > size {
                self.row(1);
            }
        }
        for _ in Palette::ALL {
            if self.view().comfort.palette != palette {
                self.row(2);
            }
        }
        let comfort = self.view().comfort;
        assert_eq!((comfort.size, comfort.palette), (size, palette));
        self.press(Command::Back);
        assert_eq!(self.view().screen, ScreenKind::Languages);
        self
    }

    /// The paper as it would be read if it were right, or with one oval of `wrong` emptied.
    pub(crate) fn reading(&self, wrong: Option<ContestIndex>) -> Reading {
        let selections = self.printed.as_ref().unwrap();
        let marked = selections.ovals(&self.style);
        let mut contests = Vec::new();
        let mut write_ins = Vec::new();
        for (contest, definition) in self.style.contests() {
            let mut spared = wrong == Some(contest);
            let ovals = definition
                .ovals(contest)
                .into_iter()
                .map(|oval| {
                    let is_marked = marked.contains(&oval) && !std::mem::take(&mut spared);
                    let verdict = if is_marked { Verdict::Marked } else { Verdict::Empty };
                    let darkness = Permille(if is_marked { 1000 } else { 0 });
                    OvalReading { oval, darkness, verdict, margin: Permille(400) }
                })
                .collect();
            contests.push(ContestReading { contest, ovals });
            for (option, listed) in definition.indexed_options() {
                if listed.kind == evenhand_rules::OptionKind::WriteIn {
                    let name = selections.written(contest, option).filter(|name| !name.is_blank());
                    write_ins.push(WriteInReading {
                        contest,
                        option,
                        inked: name.is_some(),
                        text: name.map(|name| name.as_str().trim().to_owned()),
                    });
                }
            }
        }
        Reading { contests, write_ins }
    }
}

/// A visit through every kind of screen; gives each view once per visit to it.
pub(crate) fn every_screen(
    pixels: (f32, f32),
    language: &str,
    comfort: (TypeSize, Palette),
) -> Walk {
    through_every_screen(Walk::begin(pixels, language), comfort)
}

/// The same, from the first screen of a visit.
pub(crate) fn through_every_screen(mut walk: Walk, (size, palette): (TypeSize, Palette)) -> Walk {
    walk.press(Command::Choose).comfort(size, palette);
    before_the_first_contest(&mut walk);
    contests(&mut walk);
    paper(&mut walk);
    walk
}

fn before_the_first_contest(walk: &mut Walk) {
    walk.press(Command::Help).row(0).press(Command::Back).row(1);
    walk.row(1).row(0).row(0);
    walk.press(Command::Pick(Target::HearAgain)).press(Command::Forward);
    walk.forward_to(ScreenKind::Comfort);
    walk.row_of(Message::ComfortPresses).row(0).row(0).press(Command::Forward);
    walk.row_of(Message::ComfortHide).row(0).press(Command::HideScreen);
    walk.forward_to(ScreenKind::Practice).row(0).row(1).row(0).row(2);
    // Short and doubled presses: something to offer.
    for held in [600, 40, 500, 50, 700] {
        let gap = Some(Millis(100));
        walk.input(Input::Pressed(PressShape { held: Millis(held), gap }));
    }
    walk.press(Command::Forward);
    assert_eq!(walk.view().screen, ScreenKind::PressOffer);
    walk.row(1);
    walk.input(Input::SpeechEnded);
    walk.now = Millis(300_000);
    walk.input(Input::Tick);
    assert_eq!(walk.view().screen, ScreenKind::MoreTime);
    walk.press(Command::Choose).forward_to(ScreenKind::HowTo);
}

fn contests(walk: &mut Walk) {
    use evenhand_rules::{OptionKind, Rule};
    walk.forward_to(ScreenKind::Contest);
    let count = walk.style.contest_count();
    for contest in (0..count).map(ContestIndex) {
        let definition = walk.style.contest(contest).unwrap().clone();
        let write_in =
            definition.options.iter().position(|option| option.kind == OptionKind::WriteIn);
        let write_in = write_in.and_then(|index| u16::try_from(index).ok());
        match definition.rule {
            Rule::Rank { .. } => rank(walk),
            Rule::Choose { max } => {
                // Leave one contest empty, and one choice of the others where there are many.
                if contest.0 % 5 != 3 {
                    for row in 0..max.min(3).min(u16::try_from(definition.options.len()).unwrap()) {
                        if Some(row) != write_in {
                            walk.row(row);
                        }
                    }
                }
                if let Some(row) = write_in.filter(|_| contest.0 % 2 == 0) {
                    write(walk, row);
                }
            }
        }
        if !definition.full_text.is_empty() {
            walk.row(u16::try_from(definition.options.len()).unwrap());
            while walk.view().more_below.is_some() {
                walk.press(Command::MoreBelow);
            }
            walk.press(Command::Back);
        }
        while walk.view().more_below.is_some() {
            walk.press(Command::MoreBelow);
        }
        walk.press(Command::Forward);
    }
    assert_eq!(walk.view().screen, ScreenKind::Review);
}

fn rank(walk: &mut Walk) {
    walk.row(0).row(0);
    walk.row(1).row(1);
    walk.row(0).row(0).press(Command::Back);
    walk.row(0).press(Command::Back);
}

/// Meets the limit if the contest is full, undoes one, writes "AB" and leaves; once by way of an
/// empty name.
fn write(walk: &mut Walk, row: u16) {
    walk.row(row);
    if walk.view().screen == ScreenKind::Limit {
        walk.row(0).row(row);
    }
    let finish = u16::try_from(walk.view().rows.len()).unwrap() - 1;
    walk.row(finish).row(0);
    for key in [0, 1] {
        while walk.view().page.first > 0 {
            walk.press(Command::MoreAbove);
        }
        walk.press(Command::Pick(Target::Key { row: 0, key }));
    }
    walk.row(finish - 1).row(finish);
    walk.row(row).press(Command::Back);
}

fn paper(walk: &mut Walk) {
    use evenhand_visit::{PrintFault, ReadFault};
    while walk.view().more_below.is_some() {
        walk.press(Command::MoreBelow);
    }
    walk.press(Command::Forward).row(0);
    walk.input(Input::Printed(Err(PrintFault::Jam)));
    walk.row(1);
    walk.input(Input::Printed(Ok(())));
    walk.input(Input::Read(Err(ReadFault::PrintDiffers)));
    walk.row(0);
    let wrong = ContestIndex(0);
    let altered = walk.reading(Some(wrong));
    walk.input(Input::Read(Ok(altered)));
    walk.row(0).row(0);
    walk.press(Command::Forward).row(0);
    walk.input(Input::Printed(Ok(())));
    let right = walk.reading(None);
    for line in right.write_ins.iter().filter(|line| line.inked) {
        walk.pictures.insert((line.contest, line.option), (720, 60));
    }
    walk.input(Input::Read(Ok(right)));
    walk.row(0);
    while walk.view().more_below.is_some() {
        walk.press(Command::MoreBelow);
    }
    walk.press(Command::Back).row(2).press(Command::Back);
    walk.input(Input::SpeechLost);
    walk.input(Input::SpeechBack);
    walk.row(1).row(0);
    assert_eq!(walk.view().screen, ScreenKind::Ended);
}
