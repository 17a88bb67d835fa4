//! An election opened for a test, and one visit played on it with no window and no device.
#![expect(
    clippy::disallowed_methods,
    reason = "tests read the elections that they are pointed at, and where those are from the environment"
)]

use std::path::{Path, PathBuf};
use std::sync::Arc;

use evenhand_definitions::{Opening, StationSettings, load, settings};
use evenhand_rules::{BallotState, Contest, Election, Item, Language, Millis, Selections, Style};
use evenhand_sheet::{Ballot, Edition, compose};
use evenhand_visit::{
    Begin, Command, Input, LanguageIndex, Output, Pressing, Ruler, Switches, View, Visit,
};
use evenhand_words::{PaperWords, Words};

use crate::pilot::Pilot;

/// A screen on which so many rows fit, whatever they say.
#[derive(Clone, Copy, Debug)]
pub struct Rows(pub u16);

impl Ruler for Rows {
    fn rows_that_fit(&self, _view: &View, _first: u16) -> u16 {
        self.0
    }
}

/// The folder of the workspace.
pub fn workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The folder of the demo's election.
pub fn demo_folder() -> PathBuf {
    workspace().join("ballot-definitions").join("quillbrook-county-general-2027")
}

/// An election with its settings and the words of its paper.
#[derive(Debug)]
pub struct Stage {
    /// The election.
    pub election: Arc<Election>,
    /// The office's settings.
    pub settings: StationSettings,
    /// Official, test or demo.
    pub state: BallotState,
    paper: PaperWords,
}

impl Stage {
    /// The demo's election.
    pub fn demo() -> Self {
        let folder = demo_folder();
        let definition = std::fs::read(folder.join("definition.json")).expect("the demo is there");
        let given = std::fs::read(folder.join("settings.json")).expect("its settings are there");
        Self::new(&definition, settings(&given).expect("the demo's settings are sound"))
    }

    /// An election from a definition alone, with no settings of its own.
    pub fn from_definition(path: &Path) -> Self {
        let definition =
            std::fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        Self::new(&definition, StationSettings::default())
    }

    fn new(definition: &[u8], settings: StationSettings) -> Self {
        let loaded = load(definition).expect("the definition loads");
        let state = loaded.ballot_state(Opening::Election);
        let election = Arc::new(loaded.into_election());
        settings.check_against(&election).expect("the settings fit the election");
        let paper = PaperWords::load(&settings.printed_languages).expect("the paper's words load");
        Self { election, settings, state, paper }
    }

    /// The languages that the station offers.
    pub fn languages(&self) -> &[Language] {
        self.settings.offered(&self.election)
    }

    /// The style at this place.
    pub fn style(&self, index: usize) -> Arc<Style> {
        Arc::new(self.election.styles[index].clone())
    }

    /// The ballot of the style at this place, composed for the printed edition.
    pub fn ballot(&self, index: usize) -> Ballot {
        let edition = Edition { languages: &self.settings.printed_languages, wording: &self.paper };
        let place = u16::try_from(index).expect("few styles");
        compose(&self.election, &self.election.styles[index], place, &edition, self.state)
            .expect("the style can be put on paper")
    }

    /// The words of a visit on the style at this place.
    pub fn words(&self, index: usize) -> Words {
        Words::load(self.languages(), Arc::clone(&self.election), self.style(index))
            .expect("the visit's words load")
    }

    /// What a visit on a ballot of one contest alone starts from.
    pub fn begin_with(&self, contest: &Contest) -> Begin {
        let mut begin = self.begin(0, 1);
        let mut style = self.election.styles[0].clone();
        style.items = vec![Item::Contest(Contest { affects: Vec::new(), ..contest.clone() })];
        begin.style = Arc::new(style);
        begin
    }

    /// What a visit on the style at this place starts from.
    pub fn begin(&self, index: usize, sheets: u8) -> Begin {
        let languages = self.languages();
        let first = languages.iter().position(|tag| *tag == self.settings.default_language);
        let first = u8::try_from(first.unwrap_or(0)).expect("few languages");
        Begin {
            style: self.style(index),
            languages: u8::try_from(languages.len()).expect("few languages"),
            first_language: LanguageIndex(first),
            state: self.state,
            replacements_max: self.settings.max_replacements,
            sheets,
            pressing: Pressing::default(),
            loudness: evenhand_visit::LOUDNESS_DEFAULT,
            waits: self.settings.waits,
            is_attended: false,
        }
    }
}

/// A visit under way: the machine, what it put out, and its screen.
#[derive(Clone, Debug)]
pub struct Play {
    visit: Option<Visit>,
    rows: Rows,
    /// What came out of the last input.
    pub out: Vec<Output>,
    /// The screen as it was last shown.
    pub view: View,
    /// The time of the next input.
    pub now: Millis,
}

impl Play {
    /// Starts a visit on a screen of so many rows.
    pub fn begin(begin: Begin, rows: Rows) -> Self {
        let mut out = Vec::new();
        let visit = Visit::begin(begin, Millis(0), &rows, &mut out);
        let view = shown(&out).expect("a visit shows its first screen");
        Self { visit: Some(visit), rows, out, view, now: Millis(0) }
    }

    /// Where the voter is: see [`Visit::place`].
    pub fn place(&self) -> String {
        self.visit.as_ref().map(Visit::place).unwrap_or_default()
    }

    /// Gives the visit one input.
    pub fn give(&mut self, input: Input) {
        self.out.clear();
        let visit = self.visit.take().expect("it is only taken here");
        self.visit = Some(visit.handle(input, self.now, &self.rows, &mut self.out));
        if let Some(view) = shown(&self.out) {
            self.view = view;
        }
    }

    /// Gives the visit one press.
    pub fn press(&mut self, command: Command) {
        self.give(Input::Press(command));
    }

    /// Gives the visit one press of two switches; where it takes one switch only, the station's own
    /// step stands for the first: the words end, and the wait is over.
    pub fn press_or_wait(&mut self, command: Command) {
        // On a worker's screen one switch goes on like the first of two.
        let moves = self.view.comfort.pressing.switches == Switches::One && !self.view.is_hidden;
        if command != Command::Step || !moves {
            return self.press(command);
        }
        let before = self.view.focus;
        self.give(Input::SpeechEnded);
        self.now = self.now.after(self.view.comfort.pressing.scan_time());
        self.give(Input::Tick);
        if self.view.focus == before {
            // It has gone round twice and waits: any press starts it again.
            self.press(Command::Step);
        }
    }

    /// What the last input asked to print.
    pub fn asked_to_print(&self) -> Option<Selections> {
        self.out.iter().find_map(|output| match output {
            Output::Print(selections) => Some(selections.clone()),
            _ => None,
        })
    }

    /// Lets a pilot press until the visit asks to print.
    ///
    /// # Errors
    /// What the pilot says, or a sentence where it had nothing to press before the print.
    pub fn until_print(&mut self, pilot: &mut Pilot) -> Result<Selections, String> {
        loop {
            let Some(command) = pilot.next(&self.view) else {
                return Err(pilot.fault().map_or_else(
                    || format!("nothing to press on {:?}", self.view.screen),
                    ToString::to_string,
                ));
            };
            self.press(command);
            if let Some(selections) = self.asked_to_print() {
                return Ok(selections);
            }
        }
    }

    /// Lets a pilot press until it has nothing more to press.
    ///
    /// # Errors
    /// What the pilot says where it gave up.
    pub fn until_idle(&mut self, pilot: &mut Pilot) -> Result<(), String> {
        while let Some(command) = pilot.next(&self.view) {
            self.press(command);
        }
        pilot.fault().map_or(Ok(()), |fault| Err(fault.to_string()))
    }
}

/// The last screen among outputs.
fn shown(out: &[Output]) -> Option<View> {
    out.iter().rev().find_map(|output| match output {
        Output::Show(view) => Some((**view).clone()),
        _ => None,
    })
}
