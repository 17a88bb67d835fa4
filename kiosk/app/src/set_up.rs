//! A worker's window in which the station is set up: its screen is measured and its switches are
//! learned. No election is open and no voter is there.

use std::cell::RefCell;
use std::io::{self, Write as _};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

use evenhand_duty::{Button as Numbered, Command, Glass, Input, Output, Place, SetUp};
use evenhand_input::{Bindings, Button, Key, PadEvent, Pads, Press};
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
use crate::station_file::StationFile;
use crate::typesetter::Typesetter;
use crate::window::{Faces, Outcome, WindowError, pads, screen_of, settings};

/// A worker's colours.
const PALETTE: Palette = Palette::DarkOnLight;

/// Why the station can't be set up.
#[derive(Debug, Error)]
pub enum SetUpError {
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

/// What happens in the window.
#[derive(Debug)]
pub enum Message {
    /// A device reports.
    Device(Report),
    /// A key goes down.
    Key(Key),
    /// A mouse button is let go where nothing can be touched.
    Mouse(evenhand_input::MouseButton),
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
pub struct SetUpWindow {
    set_up: SetUp,
    /// Every button that was heard; its place is its number.
    buttons: Vec<Button>,
    file: PathBuf,
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
    inbox: Inbox,
    _pads: Option<Pads>,
    outcome: Outcome,
}

/// Opens the window, and returns when the worker is done.
///
/// # Errors
/// [`SetUpError`].
///
/// # Panics
/// Where the toolkit calls for the window twice, which it does not.
pub fn run(
    known: Option<StationFile>,
    file: PathBuf,
    language: &str,
    size: Option<(u16, u16)>,
) -> Result<(), SetUpError> {
    let outcome = Outcome::default();
    let window = SetUpWindow::new(known, file, language, size, outcome.clone())?;
    let window = RefCell::new(Some(window));
    let boot = move || {
        #[expect(clippy::expect_used, reason = "the toolkit boots a program once")]
        let mut window = window.borrow_mut().take().expect("it boots once");
        window.show();
        (window, Task::none())
    };
    let program = iced::application(boot, SetUpWindow::update, SetUpWindow::view)
        .title("Evenhand")
        .style(|_, _| style())
        .subscription(SetUpWindow::subscription)
        .window(settings(size))
        .default_font(Font::with_name(FAMILY))
        .scale_factor(|_| 1.0);
    let ran = catch_unwind(AssertUnwindSafe(|| program.run()));
    ran.map_err(|_| WindowError::Toolkit)?.map_err(WindowError::from)?;
    outcome.take().map_or(Ok(()), |error| Err(error.into()))
}

impl SetUpWindow {
    fn new(
        known: Option<StationFile>,
        file: PathBuf,
        language: &str,
        size: Option<(u16, u16)>,
        outcome: Outcome,
    ) -> Result<Self, SetUpError> {
        let wanted = Language::new(language);
        if WorkerWords::shipped_tags().all(|tag| tag != wanted.tag()) {
            return Err(SetUpError::NoSuchLanguage {
                tag: language.to_owned(),
                offered: WorkerWords::shipped_tags().collect::<Vec<_>>().join(", "),
            });
        }
        let (reports, inbox) = channel();
        let pads = pads(reports).map_err(WindowError::from)?;
        let pitch = known.map_or(PixelPitch::USUAL, |known| known.pitch);
        let pixels = size.unwrap_or((1280, 800));
        let buttons: Vec<Button> =
            known.and_then(|known| known.switches).map_or_else(Vec::new, |(a, b)| vec![a, b]);
        let switches = (!buttons.is_empty()).then_some((Numbered(0), Numbered(1)));
        Ok(Self {
            set_up: SetUp::begin(Glass::new(pixels, pitch.in_nanometres()), switches),
            buttons,
            file,
            words: WorkerWords::shipped(&wanted)?,
            typesetter: Typesetter::new(),
            size: Size::new(f32::from(pixels.0), f32::from(pixels.1)),
            is_full_screen: size.is_none(),
            pitch,
            pictures: Pictures::new(),
            scene: Scene::default(),
            face: PageFace::default(),
            shapes: Shapes::new(),
            faces: Faces::default(),
            bindings: Bindings::default(),
            inbox,
            _pads: pads,
            outcome,
        })
    }

    #[expect(clippy::needless_pass_by_value, reason = "the toolkit's shape of an update")]
    fn update(&mut self, message: Message) -> Task<Message> {
        match message {
            Message::Device(Report::Pad(PadEvent::Button(button, true))) => {
                self.button(Button::Pad(button))
            }
            // Nothing else reports here.
            Message::Device(_) => Task::none(),
            Message::Key(key) => self.button(Button::Key(key)),
            Message::Mouse(button) => self.button(Button::Mouse(button)),
            Message::Touched(target) => match place(target) {
                Some(place) => self.input(Input::Press(Command::Pick(place))),
                None => Task::none(),
            },
            Message::Opened(id, size) => self.opened(id, size),
            Message::Resized(size) => self.resized(size),
            Message::CloseAsked => {
                self.outcome.fail(WindowError::Closed);
                iced::exit()
            }
        }
    }

    /// Where switches are learned every button is one, but for the key that leads back.
    fn button(&mut self, button: Button) -> Task<Message> {
        if self.set_up.sheet().takes_switches && button != Button::Key(Key::Escape) {
            let number = self.number_of(button);
            return self.input(Input::Switch(number));
        }
        let command = match self.bindings.press(button) {
            Some(Press::Next | Press::FirstSwitch) => Command::Next,
            Some(Press::Previous) => Command::Previous,
            Some(Press::Choose | Press::SecondSwitch) => Command::Choose,
            Some(Press::Back) => Command::Back,
            Some(Press::Forward) => Command::Forward,
            Some(_) | None => return Task::none(),
        };
        self.input(Input::Press(command))
    }

    fn number_of(&mut self, button: Button) -> Numbered {
        let known = self.buttons.iter().position(|known| *known == button);
        let place = known.unwrap_or_else(|| {
            self.buttons.push(button);
            self.buttons.len() - 1
        });
        Numbered(u16::try_from(place).unwrap_or(u16::MAX))
    }

    fn input(&mut self, input: Input) -> Task<Message> {
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
            Some(Output::Leave) => iced::exit(),
            None => {
                self.show();
                Task::none()
            }
        }
    }

    fn show(&mut self) {
        let sheet = self.set_up.sheet();
        if sheet.card.is_none()
            && let Some(pitch) = PixelPitch::new(self.set_up.glass().pitch())
        {
            self.pitch = pitch;
        }
        let name_of = |number: Numbered| {
            let button = self.buttons.get(usize::from(number.0));
            button.map(ToString::to_string).unwrap_or_default()
        };
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

    fn opened(&mut self, id: window::Id, size: Size) -> Task<Message> {
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
    fn resized(&mut self, size: Size) -> Task<Message> {
        self.size = size;
        self.input(Input::Pixels(size.width as u16, size.height as u16))
    }

    fn view(&self) -> iced::Element<'_, Message> {
        let colours = palette::colours(PALETTE);
        let shown = (&self.pictures, &self.shapes);
        let touched = |target, _| Message::Touched(target);
        Pane::new(&self.scene, colours, self.pitch, shown, touched).on(self.face).into()
    }

    fn subscription(&self) -> Subscription<Message> {
        Subscription::batch([
            self.inbox.subscription().map(Message::Device),
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
fn window_event(
    event: iced::Event,
    status: iced::event::Status,
    id: window::Id,
) -> Option<Message> {
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
