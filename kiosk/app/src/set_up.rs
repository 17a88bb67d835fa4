//! Setting up the station in a worker's window: a sealed election is chosen and verified, its screen
//! is measured, its switches are learned and its devices are chosen. No election is open and no voter
//! is there.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};
use std::thread;

use evenhand_definitions::Digest;
use evenhand_definitions::seal::SealError;
use evenhand_duty::{
    Button as Numbered, Command, Device, Election, Elections, Equipment, Glass, Input, Learned,
    Named, Output, Refusal, Sealed, SetUp, Sheet,
};
use evenhand_input::Button;
use evenhand_printers::Queue;
use evenhand_scan::ScannerChoice;
use evenhand_speech::{Loudness, ToneOutcome, outputs, sound_at};
use iced::futures::channel::mpsc::UnboundedSender;
use thiserror::Error;

use crate::devices::channel;
use crate::devices::scanner::ScanProgram;
use crate::devices::service::{service_printers, tell};
use crate::metrics::PixelPitch;
use crate::sealed_files::{CheckError, Checked, Shelf};
use crate::station_file::{SealedNames, StationFile};
use crate::trace::Screens;
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
    /// The sealed elections to choose from; without them that step is left out.
    pub shelf: Option<Shelf>,
    /// Where a test sees which screens are shown.
    pub trace: Option<PathBuf>,
}

/// Why there is no set-up.
#[derive(Debug, Error)]
pub enum SetUpError {
    /// The window.
    #[error(transparent)]
    Window(#[from] WorkerWindowError),
    /// The system refuses a file.
    #[error("the system: {0}")]
    System(#[from] io::Error),
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
    /// The sealed elections' files.
    Elections(Option<Vec<(String, PathBuf)>>),
    /// The sealed election of this number was verified, or is refused.
    Checked(u16, Result<Checked, Refusal>),
    /// All was written, or couldn't be.
    Kept(bool),
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
    elections: Known<PathBuf>,
    /// The digests of those that were verified, by number and as they were shown: another drive may
    /// have another file of the same name.
    digests: BTreeMap<(u16, Vec<String>), Digest>,
    /// What the station's file names now.
    sealed: Option<SealedNames>,
    places: Places,
    trace: Screens,
    told: UnboundedSender<Told>,
}

/// Opens the window, and returns when the worker is done.
///
/// # Errors
/// [`SetUpError`].
pub fn run(
    known: Option<StationFile>,
    places: Places,
    language: &str,
    size: Option<(u16, u16)>,
) -> Result<(), SetUpError> {
    let trace = Screens::to_file(places.trace.as_deref())?;
    let words = words_in(language)?;
    let known = known.unwrap_or(StationFile::with_pitch(PixelPitch::USUAL));
    let pitch = known.pitch;
    let (told, inbox) = channel();
    let pixels = size.unwrap_or((1280, 800));
    let mut job = SettingUp::new(known, (places, trace), pixels, told);
    if job.places.shelf.is_some() {
        job.look_for_elections();
    }
    worker_window::run(job, inbox, Opening { words, size, pitch, switches: None })
        .map_err(WorkerWindowError::from)?;
    Ok(())
}

impl SettingUp {
    fn new(
        known: StationFile,
        (places, trace): (Places, Screens),
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
        let sealed = known.sealed;
        let set_up = match &places.shelf {
            Some(_) => set_up.with_elections(Elections::looking(sealed.is_some())),
            None => set_up,
        };
        let (elections, digests) = (Known::new(), BTreeMap::new());
        Self {
            set_up,
            buttons,
            printers,
            scanners,
            headphones,
            elections,
            digests,
            sealed,
            places,
            trace,
            told,
        }
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
        let output = self.set_up.handle(input);
        self.follow(output)
    }

    /// Does what is wanted, and notes for a test which screen is shown.
    fn follow(&mut self, output: Option<Output>) -> After {
        let after = self.done(output);
        if let Err(error) = self.trace.shown(&self.set_up.sheet()) {
            tell(&error.to_string());
        }
        after
    }

    fn done(&mut self, output: Option<Output>) -> After {
        match output {
            Some(Output::Keep(learned)) => self.keep(learned),
            Some(Output::LookForElections) => self.look_for_elections(),
            Some(Output::Check(number)) => self.check(number),
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

    /// Writes the station's file; before that, on a thread of its own, the sealed election where a
    /// new one was chosen: it may be large, and its drive slow.
    fn keep(&mut self, learned: Learned) -> After {
        let Some(file) = self.file_of(learned) else { return self.input(Input::Kept(false)) };
        let path = self.places.file.clone();
        let Election::Found(number) = learned.election else {
            let is_kept = save(&file, &path);
            return self.input(Input::Kept(is_kept));
        };
        // The one that was compared, whatever was looked at since.
        let shown = self.set_up.chosen_digest().map(<[String]>::to_vec);
        let digest = shown.and_then(|shown| self.digests.get(&(number, shown)).copied());
        let from = at(&self.elections, number).zip(digest).zip(self.places.shelf.clone());
        let Some(((from, digest), shelf)) = from else { return self.input(Input::Kept(false)) };
        let work = move || {
            let installed = shelf.install(&from, digest, &path).map_err(|error| error.to_string());
            let names = told_of(installed);
            Told::Kept(
                names
                    .is_some_and(|names| save(&StationFile { sealed: Some(names), ..file }, &path)),
            )
        };
        self.in_background(work, Told::Kept(false))
    }

    /// What the station's file is to hold; a new sealed election isn't in it yet.
    fn file_of(&self, learned: Learned) -> Option<StationFile> {
        let button = |number: Numbered| self.buttons.get(usize::from(number.0)).copied();
        let switches =
            learned.switches.and_then(|(first, second)| button(first).zip(button(second)));
        let [printer, scanner, headphones] = learned.devices;
        Some(StationFile {
            pitch: PixelPitch::new(learned.glass.pitch())?,
            switches,
            printer: printer.and_then(|number| at(&self.printers, number)),
            scanner: scanner.and_then(|number| at(&self.scanners, number)),
            headphones: headphones.and_then(|number| at(&self.headphones, number)),
            loudness: learned.loudness,
            sealed: match learned.election {
                Election::Kept => self.sealed.clone(),
                Election::None | Election::Found(_) => None,
            },
        })
    }

    fn look_for_elections(&mut self) -> After {
        let shelf = self.places.shelf.clone();
        let look = move || {
            let found = shelf.map_or(Ok(Vec::new()), |shelf| shelf.find());
            Told::Elections(told_of(found.map_err(|error| error.to_string())))
        };
        self.in_background(look, Told::Elections(None))
    }

    /// Verifies a sealed election on a thread of its own.
    fn check(&mut self, number: u16) -> After {
        let file = at(&self.elections, number).zip(self.places.shelf.clone());
        let check = move || {
            let Some((file, shelf)) = file else {
                return Told::Checked(number, Err(Refusal::Unread));
            };
            let checked = shelf.check(&file).inspect_err(|error| tell(&error.to_string()));
            Told::Checked(number, checked.map_err(|error| refusal(&error)))
        };
        self.in_background(check, Told::Checked(number, Err(Refusal::Unread)))
    }

    fn checked(&mut self, number: u16, checked: Result<Checked, Refusal>) -> After {
        let checked = checked.map(|checked| {
            self.digests.insert((number, aloud(checked.digest)), checked.digest);
            Sealed {
                name: checked.name,
                date: checked.date,
                signers: checked.signers,
                digest: aloud(checked.digest),
                keys_digest: aloud(checked.keys_digest),
            }
        });
        let output = self.set_up.checked(number, checked);
        self.follow(output)
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

/// True where the file is written. The copies that it named before stay: polls that are suspended
/// need theirs.
fn save(file: &StationFile, path: &Path) -> bool {
    // Where nobody reads it, the screen still says that it failed.
    told_of(file.save(path).map_err(|error| error.to_string())).is_some()
}

/// What a worker is told of what failed.
const fn refusal(error: &CheckError) -> Refusal {
    match error {
        CheckError::File { .. } => Refusal::Unread,
        CheckError::Settings { .. } => Refusal::Unusable,
        CheckError::Seal { why, .. } => match why {
            SealError::BadSignature { .. } => Refusal::Changed,
            SealError::UnknownKey { .. } => Refusal::Untrusted,
            SealError::TooFew { .. } => Refusal::TooFew,
            SealError::Contents(_) => Refusal::Unusable,
            SealError::TooLong { .. }
            | SealError::Archive(_)
            | SealError::Entries { .. }
            | SealError::Signatures { .. }
            | SealError::TooManySignatures { .. }
            | SealError::SignedTwice { .. } => Refusal::Damaged,
        },
    }
}

/// The digest as the office's program prints it, a line each.
fn aloud(digest: Digest) -> Vec<String> {
    digest.aloud().lines().map(|line| line.trim().to_owned()).collect()
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
            Told::Elections(found) => {
                let found = found.map(|found| numbered(&mut self.elections, found));
                self.set_up.found_elections(found);
                return After::Show;
            }
            Told::Checked(number, checked) => return self.checked(number, checked),
            Told::Kept(is_kept) => return self.input(Input::Kept(is_kept)),
        };
        self.set_up.found(device, found);
        After::Show
    }
}
