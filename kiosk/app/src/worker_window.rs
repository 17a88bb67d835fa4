//! A worker's window, whatever its task: keys, touches and pads become commands, and the task's
//! [`Sheet`] is drawn. No voter's choice is ever here.
//!
//! Invariant: what the window does is the same for every task; a `Job` says what follows.

use std::cell::RefCell;
use std::fmt::Debug;
use std::panic::{AssertUnwindSafe, catch_unwind};

use evenhand_duty::{Button as Numbered, Command, Place, Sheet};
use evenhand_input::{Bindings, Button, Key, MouseButton, PadEvent, Pads, Press};
use evenhand_rules::Language;
use evenhand_visit::{Palette, Target};
use evenhand_words::{CatalogueError, WorkerWords};
use iced::{Color, Font, Size, Subscription, Task, keyboard, mouse, theme, window};
use thiserror::Error;

use crate::devices::{Inbox, Report, channel};
use crate::keys;
use crate::metrics::PixelPitch;
use crate::palette;
use crate::pane::{FAMILY, PageFace, Pane, Pictures, ground};
use crate::scene::Scene;
use crate::scene::desk::Desk;
use crate::shapes::Shapes;
use crate::typesetter::Typesetter;
use crate::window::{Faces, Outcome, WindowError, pads, screen_of, settings};

/// A worker's colours.
const PALETTE: Palette = Palette::DarkOnLight;
/// The window's size where the whole screen isn't known yet.
const SIZE_AT_FIRST: (u16, u16) = (1280, 800);

/// Why there is no worker's window.
#[derive(Debug, Error)]
pub enum WorkerWindowError {
    /// The window.
    #[error(transparent)]
    Window(#[from] WindowError),
    /// There are no worker's words in this language.
    #[error("no worker's screens in language {tag:?}: choose one of {offered}")]
    NoSuchLanguage {
        /// What was asked for.
        tag: String,
        /// The languages that there are.
        offered: String,
    },
    /// The words are wrong.
    #[error(transparent)]
    Words(#[from] CatalogueError),
}

/// The words of workers' screens in this language.
///
/// # Errors
/// [`WorkerWindowError`] where there are none.
pub(crate) fn words_in(language: &str) -> Result<WorkerWords, WorkerWindowError> {
    let wanted = Language::new(language);
    if WorkerWords::shipped_tags().all(|tag| tag != wanted.tag()) {
        return Err(WorkerWindowError::NoSuchLanguage {
            tag: language.to_owned(),
            offered: WorkerWords::shipped_tags().collect::<Vec<_>>().join(", "),
        });
    }
    Ok(WorkerWords::shipped(&wanted)?)
}

/// What the window does after its task has taken something.
#[derive(Debug)]
pub(crate) enum After {
    /// Draw the task's screen.
    Show,
    /// The same, and take the keyboard: another window of the station has gone.
    ShowOnTop,
    /// It is over.
    Leave,
    /// It can't go on.
    Fail(WindowError),
}

/// A task that has its screens in a worker's window.
pub(crate) trait Job: Debug + 'static {
    /// What the task's own threads report.
    type Told: Debug + Send + 'static;

    /// The screen.
    fn sheet(&self) -> Sheet;
    /// How a button is called in the station's file.
    fn name_of(&self, button: Numbered) -> String;
    /// Whether pads press here: not while they are a voter's.
    fn takes_pads(&self) -> bool {
        true
    }
    /// The screen's pixels as they are measured now, where the task measures them.
    fn pitch(&self) -> Option<PixelPitch> {
        None
    }
    /// A command.
    fn press(&mut self, command: Command) -> After;
    /// A button where switches are learned or tried, or keys are tested.
    fn switch(&mut self, button: Button) -> After;
    /// A letter or figure is typed.
    fn letter(&mut self, _letter: char) -> After {
        After::Show
    }
    /// The last one is taken away.
    fn delete(&mut self) -> After {
        After::Show
    }
    /// The window has so many pixels.
    fn pixels(&mut self, _width: u16, _height: u16) -> After {
        After::Show
    }
    /// One of the task's own threads reports.
    fn told(&mut self, told: Self::Told) -> After;
}

/// How the window is opened.
#[derive(Debug)]
pub(crate) struct Opening {
    pub(crate) words: WorkerWords,
    /// In pixels; `None` is the full screen.
    pub(crate) size: Option<(u16, u16)>,
    pub(crate) pitch: PixelPitch,
    /// Switches that go on and choose beside the usual keys.
    pub(crate) switches: Option<(Button, Button)>,
}

/// What happens in the window.
#[derive(Debug)]
pub(crate) enum Message<T> {
    /// A device reports.
    Device(Report),
    /// The task's own thread reports.
    Told(T),
    /// A key goes down.
    Key(Key),
    /// A mouse button is let go where nothing can be touched.
    Mouse(MouseButton),
    /// Something on the screen was touched.
    Touched(Target),
    /// The window is there, with this size in pixels.
    Opened(window::Id, Size),
    /// The window has this size now, in pixels.
    Resized(Size),
    /// Somebody closed the window.
    CloseAsked,
}

/// The window.
#[derive(Debug)]
struct WorkerWindow<J: Job> {
    job: J,
    words: WorkerWords,
    typesetter: Typesetter,
    size: Size,
    is_full_screen: bool,
    /// What the screen is laid out with: what is measured now takes effect on the next screen.
    pitch: PixelPitch,
    pictures: Pictures,
    scene: Scene,
    face: PageFace,
    shapes: Shapes,
    faces: Faces,
    bindings: Bindings,
    id: Option<window::Id>,
    inbox: Inbox<Report>,
    told: Inbox<J::Told>,
    _pads: Option<Pads>,
    outcome: Outcome,
}

/// Opens the window, and returns when the task is over.
///
/// # Errors
/// [`WindowError`].
///
/// # Panics
/// Where the toolkit calls for the window twice, which it does not.
pub(crate) fn run<J: Job>(
    job: J,
    told: Inbox<J::Told>,
    opening: Opening,
) -> Result<(), WindowError> {
    let (outcome, size) = (Outcome::default(), opening.size);
    let window = WorkerWindow::new(job, told, opening, outcome.clone())?;
    let window = RefCell::new(Some(window));
    let boot = move || {
        #[expect(clippy::expect_used, reason = "the toolkit boots a program once")]
        let mut window = window.borrow_mut().take().expect("it boots once");
        window.show();
        (window, Task::none())
    };
    let program = iced::application(boot, WorkerWindow::update, WorkerWindow::view)
        .title("Evenhand worker")
        .style(|_: &WorkerWindow<J>, _| style())
        .subscription(WorkerWindow::subscription)
        .window(settings(size))
        .default_font(Font::with_name(FAMILY))
        .scale_factor(|_| 1.0);
    let ran = catch_unwind(AssertUnwindSafe(|| program.run()));
    ran.map_err(|_| WindowError::Toolkit)??;
    outcome.take().map_or(Ok(()), Err)
}

impl<J: Job> WorkerWindow<J> {
    fn new(
        job: J,
        told: Inbox<J::Told>,
        opening: Opening,
        outcome: Outcome,
    ) -> Result<Self, WindowError> {
        let (reports, inbox) = channel();
        let pads = pads(reports)?;
        let pixels = opening.size.unwrap_or(SIZE_AT_FIRST);
        let bindings = Bindings::default().with_learned(opening.switches);
        Ok(Self {
            job,
            words: opening.words,
            typesetter: Typesetter::new(),
            size: Size::new(f32::from(pixels.0), f32::from(pixels.1)),
            is_full_screen: opening.size.is_none(),
            pitch: opening.pitch,
            pictures: Pictures::new(),
            scene: Scene::default(),
            face: PageFace::default(),
            shapes: Shapes::new(),
            faces: Faces::default(),
            bindings,
            id: None,
            inbox,
            told,
            _pads: pads,
            outcome,
        })
    }

    fn update(&mut self, message: Message<J::Told>) -> Task<Message<J::Told>> {
        match message {
            Message::Device(Report::Pad(PadEvent::Button(button, true)))
                if self.job.takes_pads() =>
            {
                self.button(Button::Pad(button))
            }
            // Nothing else reports here.
            Message::Device(_) => Task::none(),
            Message::Told(told) => {
                let after = self.job.told(told);
                self.after(after)
            }
            Message::Key(key) => self.key(key),
            Message::Mouse(button) => self.button(Button::Mouse(button)),
            Message::Touched(target) => match place(target) {
                Some(place) => self.press(Command::Pick(place)),
                None => Task::none(),
            },
            Message::Opened(id, size) => {
                self.id = Some(id);
                self.opened(id, size)
            }
            Message::Resized(size) => self.resized(size),
            Message::CloseAsked => self.after(After::Fail(WindowError::Closed)),
        }
    }

    fn after(&mut self, after: After) -> Task<Message<J::Told>> {
        match after {
            After::Show => {
                self.show();
                Task::none()
            }
            After::ShowOnTop => {
                self.show();
                self.id.map_or_else(Task::none, window::gain_focus)
            }
            After::Leave => iced::exit(),
            After::Fail(error) => {
                self.outcome.fail(error);
                iced::exit()
            }
        }
    }

    /// Where something is typed, the letters that it may hold are typed; where keys are tested each
    /// is itself.
    fn key(&mut self, key: Key) -> Task<Message<J::Told>> {
        let sheet = self.job.sheet();
        if sheet.takes_keys {
            let after = self.job.switch(Button::Key(key));
            return self.after(after);
        }
        let letters = sheet.keys;
        let letter = if let Key::Char(letter) = key {
            Some(letter.to_ascii_uppercase())
        } else {
            (key == Key::Space).then_some(' ')
        };
        if let Some(letter) = letter.filter(|letter| letters.contains(letter)) {
            let after = self.job.letter(letter);
            return self.after(after);
        }
        if key == Key::Backspace && !letters.is_empty() {
            let after = self.job.delete();
            return self.after(after);
        }
        self.button(Button::Key(key))
    }

    /// Where switches are learned or tried every button is one, but for the key that leads back.
    fn button(&mut self, button: Button) -> Task<Message<J::Told>> {
        if self.job.sheet().takes_switches && button != Button::Key(Key::Escape) {
            let after = self.job.switch(button);
            return self.after(after);
        }
        let press = self.bindings.press(button);
        // While a voter is there the switches are theirs, by whatever road they come.
        if matches!(press, Some(Press::FirstSwitch | Press::SecondSwitch)) && !self.job.takes_pads()
        {
            return Task::none();
        }
        let command = match press {
            Some(Press::Next | Press::FirstSwitch) => Command::Next,
            Some(Press::Previous) => Command::Previous,
            Some(Press::Choose | Press::SecondSwitch) => Command::Choose,
            Some(Press::Back) => Command::Back,
            Some(Press::Forward) => Command::Forward,
            Some(_) | None => return Task::none(),
        };
        self.press(command)
    }

    fn press(&mut self, command: Command) -> Task<Message<J::Told>> {
        let after = self.job.press(command);
        self.after(after)
    }

    fn show(&mut self) {
        let sheet = self.job.sheet();
        if sheet.card.is_none()
            && let Some(pitch) = self.job.pitch()
        {
            self.pitch = pitch;
        }
        let job = &self.job;
        let name_of = |number: Numbered| job.name_of(number);
        let desk = Desk {
            words: &self.words,
            typesetter: &self.typesetter,
            screen: screen_of(self.size, self.pitch),
            pitch: self.pitch,
            name_of: &name_of,
        };
        let scene = desk.scene(&sheet);
        self.face = self.face.after(&self.scene, &scene);
        self.scene = scene;
        self.shapes.prepare(&self.scene, palette::colours(PALETTE), self.pitch);
        self.faces.load_for(&self.scene);
    }

    fn opened(&mut self, id: window::Id, size: Size) -> Task<Message<J::Told>> {
        let resized = self.resized(size);
        if !self.is_full_screen {
            return Task::batch([window::gain_focus(id), resized]);
        }
        let size = window::monitor_size(id)
            .then(move |size| size.map_or_else(Task::none, |size| window::resize(id, size)));
        let fill = window::set_mode(id, window::Mode::Fullscreen);
        Task::batch([resized, size.chain(fill)])
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a screen's pixels; casts from float are held to the range"
    )]
    fn resized(&mut self, size: Size) -> Task<Message<J::Told>> {
        self.size = size;
        let after = self.job.pixels(size.width as u16, size.height as u16);
        self.after(after)
    }

    fn view(&self) -> iced::Element<'_, Message<J::Told>> {
        let colours = palette::colours(PALETTE);
        let shown = (&self.pictures, &self.shapes);
        let touched = |target, _| Message::Touched(target);
        Pane::new(&self.scene, colours, self.pitch, shown, touched).on(self.face).into()
    }

    fn subscription(&self) -> Subscription<Message<J::Told>> {
        Subscription::batch([
            self.inbox.subscription().map(Message::Device),
            self.told.subscription().map(Message::Told),
            iced::event::listen_with(window_event),
        ])
    }
}

fn style() -> theme::Style {
    theme::Style { background_color: ground(palette::colours(PALETTE)), text_color: Color::BLACK }
}

/// A touched target as the machine knows it.
const fn place(target: Target) -> Option<Place> {
    match target {
        Target::Row(row) => Some(Place::Row(row)),
        Target::Key { key, .. } => Some(Place::Key(key)),
        Target::Back => Some(Place::Back),
        Target::Forward => Some(Place::Forward),
        Target::Block(_)
        | Target::BackOne(_)
        | Target::BlockStart(_)
        | Target::Group
        | Target::MoreAbove
        | Target::MoreBelow
        | Target::HearAgain
        | Target::Comfort
        | Target::Help => None,
    }
}

/// What the window says. A click that something on the screen took is no switch.
fn window_event<T>(
    event: iced::Event,
    status: iced::event::Status,
    id: window::Id,
) -> Option<Message<T>> {
    match event {
        iced::Event::Keyboard(keyboard::Event::KeyPressed {
            key,
            modifiers,
            repeat: false,
            ..
        }) => keys::key_of(&key, modifiers).map(Message::Key),
        iced::Event::Mouse(mouse::Event::ButtonReleased(button)) => {
            let is_free = status == iced::event::Status::Ignored;
            keys::mouse_button_of(button).filter(|_| is_free).map(Message::Mouse)
        }
        iced::Event::Window(window::Event::Opened { size, .. }) => Some(Message::Opened(id, size)),
        iced::Event::Window(window::Event::Resized(size)) => Some(Message::Resized(size)),
        iced::Event::Window(window::Event::CloseRequested) => Some(Message::CloseAsked),
        iced::Event::Keyboard(_)
        | iced::Event::Mouse(_)
        | iced::Event::Window(_)
        | iced::Event::Touch(_)
        | iced::Event::InputMethod(_) => None,
    }
}
