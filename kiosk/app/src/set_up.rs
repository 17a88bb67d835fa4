//! Setting up the station in a worker's window: its screen is measured, its switches are learned and
//! its devices are chosen. No election is open and no voter is there.

use std::io::{self, Write as _};
use std::path::PathBuf;
use std::thread;

use evenhand_duty::{
    Button as Numbered, Command, Device, Equipment, Glass, Input, Learned, Named, Output, SetUp,
    Sheet,
};
use evenhand_input::Button;
use evenhand_printers::Queue;
use evenhand_scan::ScannerChoice;
use evenhand_speech::{Loudness, ToneOutcome, outputs, sound_at};
use iced::futures::channel::mpsc::UnboundedSender;

use crate::devices::channel;
use crate::devices::scanner::ScanProgram;
use crate::devices::service::{service_printers, tell};
use crate::metrics::PixelPitch;
use crate::station_file::StationFile;
use crate::worker_window::{self, After, Job, Opening, WorkerWindowError, words_in};

/// Where things are found, and where what is learned is kept.
#[derive(Clone, Debug)]
pub struct Places {
    /// The station's file.
    pub file: PathBuf,
    /// The print service's socket.
    pub socket: PathBuf,
    /// What speaks to scanners.
    pub program: ScanProgram,
}

/// What the task's own threads report.
#[derive(Debug)]
pub(crate) enum Told {
    /// The printers, or that it couldn't be looked.
    Printers(Option<Vec<(String, Queue)>>),
    /// The scanners.
    Scanners(Option<Vec<(String, ScannerChoice)>>),
    /// The outputs for headphones.
    Headphones(Option<Vec<(String, String)>>),
    /// The tone was played, or wasn't.
    Sounded(bool),
}

/// Devices of a kind that were ever found, each with its name; its place is its number.
type Known<T> = Vec<(String, T)>;

/// The task, with what it needs of the outside.
#[derive(Debug)]
struct SettingUp {
    set_up: SetUp,
    /// Every button that was heard; its place is its number.
    buttons: Vec<Button>,
    printers: Known<Queue>,
    scanners: Known<ScannerChoice>,
    headphones: Known<String>,
    places: Places,
    told: UnboundedSender<Told>,
}

/// Opens the window, and returns when the worker is done.
///
/// # Errors
/// [`WorkerWindowError`].
pub fn run(
    known: Option<StationFile>,
    places: Places,
    language: &str,
    size: Option<(u16, u16)>,
) -> Result<(), WorkerWindowError> {
    let words = words_in(language)?;
    let known = known.unwrap_or(StationFile::with_pitch(PixelPitch::USUAL));
    let pitch = known.pitch;
    let (told, inbox) = channel();
    let job = SettingUp::new(known, places, size.unwrap_or((1280, 800)), told);
    worker_window::run(job, inbox, Opening { words, size, pitch, switches: None })?;
    Ok(())
}

impl SettingUp {
    fn new(
        known: StationFile,
        places: Places,
        pixels: (u16, u16),
        told: UnboundedSender<Told>,
    ) -> Self {
        let buttons: Vec<Button> = known.switches.map_or_else(Vec::new, |(a, b)| vec![a, b]);
        let switches = (!buttons.is_empty()).then_some((Numbered(0), Numbered(1)));
        let printers: Known<Queue> =
            known.printer.into_iter().map(|queue| (queue.to_string(), queue)).collect();
        let name = |choice: &ScannerChoice| {
            let source = choice.options().iter().find(|(name, _)| name == "source");
            let source = source.map(|(_, source)| format!("{source}, ")).unwrap_or_default();
            format!("{source}{}", choice.device())
        };
        let scanners: Known<ScannerChoice> =
            known.scanner.into_iter().map(|choice| (name(&choice), choice)).collect();
        let headphones: Known<String> =
            known.headphones.into_iter().map(|output| (output.clone(), output)).collect();
        let chosen = [first(&printers), first(&scanners), first(&headphones)];
        let set_up = SetUp::begin(
            Glass::new(pixels, known.pitch.in_nanometres()),
            switches,
            Equipment::new(chosen, known.loudness),
        );
        Self { set_up, buttons, printers, scanners, headphones, places, told }
    }

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
                let kept = self.keep(learned);
                self.input(Input::Kept(kept))
            }
            Some(Output::Look(device)) => self.look(device),
            Some(Output::Sound(headphones, loudness)) => {
                let output = headphones.and_then(|number| at(&self.headphones, number));
                let sound = move || {
                    let played = sound_at(output.as_deref(), Loudness::from_step(loudness));
                    Told::Sounded(played == ToneOutcome::Sounded)
                };
                self.in_background(sound, Told::Sounded(false))
            }
            Some(Output::Leave) => After::Leave,
            None => After::Show,
        }
    }

    /// True where the file is written.
    fn keep(&self, learned: Learned) -> bool {
        let button = |number: Numbered| self.buttons.get(usize::from(number.0)).copied();
        let switches =
            learned.switches.and_then(|(first, second)| button(first).zip(button(second)));
        let [printer, scanner, headphones] = learned.devices;
        let Some(pitch) = PixelPitch::new(learned.glass.pitch()) else { return false };
        let file = StationFile {
            pitch,
            switches,
            printer: printer.and_then(|number| at(&self.printers, number)),
            scanner: scanner.and_then(|number| at(&self.scanners, number)),
            headphones: headphones.and_then(|number| at(&self.headphones, number)),
            loudness: learned.loudness,
        };
        let saved = file.save(&self.places.file);
        if let Err(error) = &saved {
            // Where nobody reads it, the screen still says that it failed.
            writeln!(io::stderr(), "evenhand: {error}").unwrap_or_default();
        }
        saved.is_ok()
    }

    /// Looks on a thread of its own: it can take many seconds.
    fn look(&mut self, device: Device) -> After {
        let Places { socket, program, .. } = self.places.clone();
        match device {
            Device::Printer => {
                let look = move || {
                    let found = service_printers(&socket).map_err(|error| error.to_string());
                    Told::Printers(told_of(found).map(|found| {
                        let about = |about: String, name: &Queue| {
                            if about.is_empty() {
                                name.to_string()
                            } else {
                                format!("{name} ({about})")
                            }
                        };
                        found
                            .into_iter()
                            .map(|one| (about(one.about, &one.queue), one.queue))
                            .collect()
                    }))
                };
                self.in_background(look, Told::Printers(None))
            }
            Device::Scanner => {
                let look = move || {
                    let found = program.scanners().map_err(|error| error.to_string());
                    Told::Scanners(told_of(found))
                };
                self.in_background(look, Told::Scanners(None))
            }
            Device::Headphones => {
                let look = || {
                    let found = outputs().ok_or("the sound server does not answer".to_owned());
                    Told::Headphones(told_of(found).map(|found| {
                        let about = |about: String, name: &String| {
                            if about.is_empty() { name.clone() } else { about }
                        };
                        found
                            .into_iter()
                            .map(|one| (about(one.about, &one.name), one.name))
                            .collect()
                    }))
                };
                self.in_background(look, Told::Headphones(None))
            }
        }
    }

    fn in_background(
        &mut self,
        work: impl FnOnce() -> Told + Send + 'static,
        else_told: Told,
    ) -> After {
        let told = self.told.clone();
        // Where the window has gone nobody is told.
        let work = move || told.unbounded_send(work()).unwrap_or_default();
        match thread::Builder::new().name("set-up".to_owned()).spawn(work) {
            Ok(_) => After::Show,
            Err(error) => {
                tell(&error.to_string());
                self.told(else_told)
            }
        }
    }
}

/// What was found; why not goes to whoever keeps the log.
fn told_of<T>(found: Result<T, String>) -> Option<T> {
    found.inspect_err(|error| tell(error)).ok()
}

fn first<T>(known: &Known<T>) -> Option<Named> {
    known.first().map(|(name, _)| Named { number: 0, name: name.clone() })
}

fn at<T: Clone>(known: &Known<T>, number: u16) -> Option<T> {
    known.get(usize::from(number)).map(|(_, one)| one.clone())
}

/// Gives each device that was found a number of its own, the one that it had before where it was
/// known.
fn numbered<T: PartialEq>(known: &mut Known<T>, found: Vec<(String, T)>) -> Vec<Named> {
    let mut named = Vec::new();
    for (name, one) in found {
        let place = known.iter().position(|(_, known)| *known == one).unwrap_or_else(|| {
            known.push((name.clone(), one));
            known.len() - 1
        });
        named.extend(u16::try_from(place).ok().map(|number| Named { number, name }));
    }
    named
}

impl Job for SettingUp {
    type Told = Told;

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
        let (device, found) = match told {
            Told::Printers(found) => {
                (Device::Printer, found.map(|found| numbered(&mut self.printers, found)))
            }
            Told::Scanners(found) => {
                (Device::Scanner, found.map(|found| numbered(&mut self.scanners, found)))
            }
            Told::Headphones(found) => {
                (Device::Headphones, found.map(|found| numbered(&mut self.headphones, found)))
            }
            Told::Sounded(is_sounded) => return self.input(Input::Sounded(is_sounded)),
        };
        self.set_up.found(device, found);
        After::Show
    }
}
