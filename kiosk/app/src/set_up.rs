//! Setting up the station in a worker's window: its screen is measured and its switches are learned.
//! No election is open and no voter is there.

use std::io::{self, Write as _};
use std::path::PathBuf;

use evenhand_duty::{Button as Numbered, Command, Glass, Input, Output, SetUp, Sheet};
use evenhand_input::Button;

use crate::devices::channel;
use crate::metrics::PixelPitch;
use crate::station_file::StationFile;
use crate::worker_window::{self, After, Job, Opening, WorkerWindowError, words_in};

/// The task, with what it needs of the outside.
#[derive(Debug)]
struct SettingUp {
    set_up: SetUp,
    /// Every button that was heard; its place is its number.
    buttons: Vec<Button>,
    file: PathBuf,
}

/// Opens the window, and returns when the worker is done.
///
/// # Errors
/// [`WorkerWindowError`].
pub fn run(
    known: Option<StationFile>,
    file: PathBuf,
    language: &str,
    size: Option<(u16, u16)>,
) -> Result<(), WorkerWindowError> {
    let words = words_in(language)?;
    let pitch = known.map_or(PixelPitch::USUAL, |known| known.pitch);
    let pixels = size.unwrap_or((1280, 800));
    let buttons: Vec<Button> =
        known.and_then(|known| known.switches).map_or_else(Vec::new, |(a, b)| vec![a, b]);
    let switches = (!buttons.is_empty()).then_some((Numbered(0), Numbered(1)));
    let set_up = SetUp::begin(Glass::new(pixels, pitch.in_nanometres()), switches);
    let (_, told) = channel();
    let job = SettingUp { set_up, buttons, file };
    worker_window::run(job, told, Opening { words, size, pitch, switches: None })?;
    Ok(())
}

impl SettingUp {
    fn number_of(&mut self, button: Button) -> Numbered {
        let known = self.buttons.iter().position(|known| *known == button);
        let place = known.unwrap_or_else(|| {
            self.buttons.push(button);
            self.buttons.len() - 1
        });
        Numbered(u16::try_from(place).unwrap_or(u16::MAX))
    }

    fn input(&mut self, input: Input) -> After {
        match self.set_up.handle(input) {
            Some(Output::Keep(learned)) => {
                let button = |number: Numbered| self.buttons.get(usize::from(number.0)).copied();
                let switches =
                    learned.switches.and_then(|(first, second)| button(first).zip(button(second)));
                let kept = PixelPitch::new(learned.glass.pitch())
                    .map(|pitch| StationFile { pitch, switches }.save(&self.file));
                if let Some(Err(error)) = &kept {
                    // Where nobody reads it, the screen still says that it failed.
                    writeln!(io::stderr(), "evenhand: {error}").unwrap_or_default();
                }
                self.input(Input::Kept(matches!(kept, Some(Ok(())))))
            }
            Some(Output::Leave) => After::Leave,
            None => After::Show,
        }
    }
}

impl Job for SettingUp {
    type Told = std::convert::Infallible;

    fn sheet(&self) -> Sheet {
        self.set_up.sheet()
    }

    fn name_of(&self, button: Numbered) -> String {
        let button = self.buttons.get(usize::from(button.0));
        button.map(ToString::to_string).unwrap_or_default()
    }

    fn pitch(&self) -> Option<PixelPitch> {
        PixelPitch::new(self.set_up.glass().pitch())
    }

    fn press(&mut self, command: Command) -> After {
        self.input(Input::Press(command))
    }

    fn switch(&mut self, button: Button) -> After {
        let number = self.number_of(button);
        self.input(Input::Switch(number))
    }

    fn pixels(&mut self, width: u16, height: u16) -> After {
        self.input(Input::Pixels(width, height))
    }

    fn told(&mut self, told: Self::Told) -> After {
        match told {}
    }
}
