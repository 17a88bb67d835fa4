//! The voter's window: one visit, from its opening to its end.
//!
//! Invariant: a choice is in [`Visit`] and in what is drawn and said of it, nowhere else. `update`
//! is a table: each message has one deed.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::fmt;
use std::io::{self, Read, Write as _};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::AtomicU64;
use std::time::Duration;

use evenhand_input::{
    Bindings, Button, HoldOff, Key, MouseButton, MouseRoad, PadEvent, Pads, Shape, Touches,
    press::Press,
};
use evenhand_lettering::{Face, font_bytes};
use evenhand_marks::BallotReading;
use evenhand_rules::Millis;
use evenhand_visit::{
    Begin, Comfort, Command, Event, Input, Output, PressShape, Pressing, PrintFault, ReadFault,
    Target, TypeSize, View, Visit,
};
use evenhand_words::Words;
use iced::advanced::graphics::text::font_system;
use iced::advanced::image::Handle;
use iced::{Color, Font, Size, Subscription, Task, Theme, keyboard, mouse, theme, window};
use thiserror::Error;

use crate::devices::clock::{Clock, Wake};
use crate::devices::paper::{PaperDesk, PaperError, PaperPath};
use crate::devices::voice::{Meaning, Speaker};
use crate::devices::{Inbox, Report, Reports, channel, station};
use crate::events::EventPipe;
use crate::keys;
use crate::metrics::PixelPitch;
use crate::palette;
use crate::pane::{Drawn, FAMILY, PageFace, Pane, Pictures, ground};
use crate::prepared::Prepared;
use crate::scene::{Mark, PictureSizes, Scene, Screen, Stage};
use crate::shapes::Shapes;
use crate::trace::Trace;
use crate::typesetter::Typesetter;

/// The one kind of element that the window has.
pub type Element<'a> = iced::Element<'a, Message>;

/// How long the last screen stays before the process ends. Own choice: its words take 3 seconds.
const LAST_SCREEN: Millis = Millis(4_000);

/// How the window is opened.
#[derive(Debug)]
pub struct Options {
    /// In pixels; `None` is the full screen.
    pub size: Option<(u16, u16)>,
    /// The screen's pixels.
    pub pitch: PixelPitch,
    /// Whether the mouse's buttons are switches.
    pub mouse_road: MouseRoad,
    /// The two switches that a worker has taught the station.
    pub switches: Option<(Button, Button)>,
    /// The sound server's name of the headphones' output.
    pub headphones: Option<String>,
    /// Where the shown screens are noted, in a demo or a test.
    pub trace: Option<Trace>,
}

/// Why there is no window, or why it ended before the visit did.
#[derive(Debug, Error)]
pub enum WindowError {
    /// The display refuses a window.
    #[error("the display refuses a window: {0}")]
    Display(#[from] iced::Error),
    /// The toolkit gave up, as it does where the display doesn't answer.
    #[error(
        "the window's toolkit gave up: see that the display in DISPLAY or WAYLAND_DISPLAY answers"
    )]
    Toolkit,
    /// A thread or a pipe failed.
    #[error("the system: {0}")]
    System(#[from] io::Error),
    /// The voice's thread can't be started.
    #[error(transparent)]
    Voice(#[from] evenhand_speech::StartError),
    /// The reader of sheets can't be made ready.
    #[error(transparent)]
    Paper(#[from] PaperError),
    /// A thread of the window's own has ended: a defect.
    #[error("the thread of {0} has ended")]
    ThreadGone(&'static str),
    /// The station's process ended before the visit did.
    #[error("the station's process has ended, and its visit with it")]
    StationGone,
    /// The screen is too small to vote on.
    #[error(
        "a screen of {width} by {height} mm is too small to vote on: 300 by 190 mm is the least. Use a larger one, or measure it again (evenhand set-up)"
    )]
    TooSmall {
        /// In whole millimetres.
        width: i32,
        /// In whole millimetres.
        height: i32,
    },
    /// The window was closed before the visit was over.
    #[error("the window was closed before the visit was over")]
    Closed,
}

/// What happens in the window.
#[derive(Debug)]
pub enum Message {
    /// A device reports.
    Device(Report),
    /// A key goes down or up.
    Key(Key, bool),
    /// A mouse button goes down or up.
    Mouse(MouseButton, bool),
    /// Something on the screen was touched, for so long.
    Touched(Target, Duration),
    /// The window is there, with this size in pixels.
    Opened(window::Id, Size),
    /// The window's display has this size in pixels, as far as the system knows.
    Measured(window::Id, Option<Size>),
    /// The window has this size now, in pixels.
    Resized(Size),
    /// Another window has the keyboard: nothing is held down any more.
    Unfocused,
    /// Somebody closed the window.
    CloseAsked,
}

/// One visit in its window.
#[derive(Debug)]
pub struct VisitWindow {
    visit: Option<Visit>,
    begin: Option<Begin>,
    words: Words,
    typesetter: Typesetter,
    screen: Screen,
    pitch: PixelPitch,
    pictures: Pictures,
    picture_sizes: PictureSizes,
    scene: Scene,
    face: PageFace,
    shapes: Shapes,
    faces: Faces,
    comfort: Comfort,
    devices: Devices,
    inbox: Inbox<Report>,
    bindings: Bindings,
    hold_off: HoldOff,
    touches: Touches,
    /// In pixels; `None` is the full screen.
    size: Option<(u16, u16)>,
    /// `None` while a worker is in: then the worker's own window is seen.
    id: Option<window::Id>,
    drawn: Option<Drawn>,
    trace: Option<Trace>,
    outcome: Outcome,
}

/// What ties a visit to the station's process.
pub struct StationPipes {
    /// Where events go.
    pub events: EventPipe,
    /// Where its answers come from; it ends when the station does.
    pub station: Box<dyn Read + Send>,
}

impl fmt::Debug for StationPipes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("StationPipes")
    }
}

/// The faces that the toolkit has been given: those of the scripts shown so far, since it keeps a
/// copy of each and two of them are five megabytes long.
#[derive(Debug, Default)]
pub(crate) struct Faces(BTreeSet<Face>);

impl Faces {
    /// Gives the toolkit the faces of a scene.
    pub(crate) fn load_for(&mut self, scene: &Scene) {
        for mark in &scene.marks {
            let Mark::Text { face, .. } = mark else { continue };
            if self.0.insert(*face)
                && let Ok(mut fonts) = font_system().write()
            {
                fonts.load_font(font_bytes(*face).into());
            }
        }
    }
}

/// What a window works with.
#[derive(Debug)]
pub struct Devices {
    /// The headphones.
    pub speaker: Speaker,
    /// The printer and the scanner.
    pub paper: PaperDesk,
    /// The clock.
    pub clock: Clock,
    /// The pads; `None` where the system's list of devices can't be opened.
    pub pads: Option<Pads>,
    /// The way to the station.
    pub events: EventPipe,
}

/// How the window ended; shared with whoever opened it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Outcome(Arc<std::sync::Mutex<Option<WindowError>>>);

impl Outcome {
    pub(crate) fn fail(&self, error: WindowError) {
        if let Ok(mut held) = self.0.lock() {
            held.get_or_insert(error);
        }
    }

    pub(crate) fn take(&self) -> Option<WindowError> {
        self.0.lock().ok().and_then(|mut held| held.take())
    }
}

/// Opens the window for one visit, and returns when the visit is over.
///
/// # Errors
/// [`WindowError`] says why there was no window, or why the visit ended before its time.
///
/// # Panics
/// Where the toolkit calls for the window twice, which it does not.
pub fn run(
    prepared: Prepared,
    path: Box<dyn PaperPath>,
    pipes: StationPipes,
    options: Options,
) -> Result<(), WindowError> {
    let outcome = Outcome::default();
    let window = VisitWindow::new(prepared, path, pipes, options, outcome.clone())?;
    // The toolkit may call this more than once in theory; there is one visit to hand out.
    let window = RefCell::new(Some(window));
    let boot = move || {
        #[expect(clippy::expect_used, reason = "the toolkit boots a program once")]
        let window = window.borrow_mut().take().expect("a visit boots once");
        window.boot()
    };
    // A daemon's window can be closed and opened again while the visit goes on.
    let program = iced::daemon(boot, VisitWindow::update, VisitWindow::view)
        .title("Evenhand")
        .style(VisitWindow::style)
        .subscription(VisitWindow::subscription)
        .default_font(Font::with_name(FAMILY))
        .scale_factor(|_, _| 1.0);
    catch_unwind(AssertUnwindSafe(|| program.run())).map_err(|_| WindowError::Toolkit)??;
    outcome.take().map_or(Ok(()), Err)
}

/// How a window of the station opens: of this size in pixels, or to be made as large as the screen.
pub(crate) fn settings(size: Option<(u16, u16)>) -> window::Settings {
    let (width, height) = size.unwrap_or((1280, 800));
    window::Settings {
        size: Size::new(f32::from(width), f32::from(height)),
        decorations: false,
        exit_on_close_request: false,
        ..window::Settings::default()
    }
}

impl VisitWindow {
    fn new(
        prepared: Prepared,
        path: Box<dyn PaperPath>,
        pipes: StationPipes,
        options: Options,
        outcome: Outcome,
    ) -> Result<Self, WindowError> {
        let (reports, inbox) = channel();
        let bindings = Bindings::new(options.mouse_road).with_learned(options.switches);
        let Prepared { style, ballot, words, languages, begin, recorded } = prepared;
        let drawn = options.trace.is_some().then(|| Drawn {
            view: 0,
            reported: Arc::new(AtomicU64::new(0)),
            reports: reports.clone(),
        });
        station::watch(pipes.station, reports.clone())?;
        let devices = Devices {
            speaker: Speaker::start(&languages, &recorded, options.headphones, reports.clone())?,
            paper: PaperDesk::start(style, ballot, path, reports.clone())?,
            clock: Clock::start(reports.clone())?,
            pads: pads(reports)?,
            events: pipes.events,
        };
        let (width, height) = options.size.unwrap_or((1280, 800));
        let comfort = Comfort::fresh(begin.first_language, begin.pressing);
        let screen = screen_of(Size::new(f32::from(width), f32::from(height)), options.pitch);
        if options.size.is_some() {
            can_vote_on(screen)?;
        }
        Ok(Self {
            visit: None,
            hold_off: hold_off_of(begin.pressing),
            begin: Some(begin),
            words,
            typesetter: Typesetter::new(),
            screen,
            pitch: options.pitch,
            pictures: Pictures::new(),
            picture_sizes: PictureSizes::new(),
            scene: Scene::default(),
            face: PageFace::default(),
            shapes: Shapes::new(),
            faces: Faces::default(),
            comfort,
            devices,
            inbox,
            bindings,
            touches: Touches::default(),
            size: options.size,
            id: None,
            drawn,
            trace: options.trace,
            outcome,
        })
    }

    fn boot(mut self) -> (Self, Task<Message>) {
        let mut outputs = Vec::new();
        if let Some(begin) = self.begin.take() {
            self.visit =
                Some(Visit::begin(begin, self.devices.clock.now(), &self.stage(), &mut outputs));
        }
        let opens = self.open_window();
        let task = self.carry_out(outputs);
        (self, Task::batch([opens, task]))
    }

    fn open_window(&mut self) -> Task<Message> {
        let (id, opens) = window::open(settings(self.size));
        self.id = Some(id);
        opens.discard()
    }

    /// The voter's window is there, or it isn't while a worker is in: nothing of the voter's can be
    /// seen where there is no window.
    fn be_away(&mut self, is_away: bool) -> Task<Message> {
        if is_away == self.id.is_none() {
            return Task::none();
        }
        self.hold_off.forget();
        match self.id.take() {
            Some(id) => window::close(id),
            None => self.open_window(),
        }
    }

    fn stage(&self) -> Stage<'_> {
        Stage {
            words: &self.words,
            typesetter: &self.typesetter,
            screen: self.screen,
            pictures: &self.picture_sizes,
        }
    }

    /// Takes one message.
    fn update(&mut self, message: Message) -> Task<Message> {
        match message {
            Message::Device(report) => self.device(report),
            Message::Key(key, is_down) => self.button(Button::Key(key), is_down),
            Message::Mouse(button, is_down) => self.button(Button::Mouse(button), is_down),
            Message::Touched(target, held) => self.touched(target, held),
            Message::Opened(id, size) => self.opened(id, size),
            Message::Measured(id, size) => self.measured(id, size),
            Message::Resized(size) => self.resized(size),
            Message::Unfocused => self.unfocused(),
            Message::CloseAsked => self.fail(WindowError::Closed),
        }
    }

    fn view(&self, _: window::Id) -> Element<'_> {
        let colours = palette::colours(self.comfort.palette);
        Pane::new(
            &self.scene,
            colours,
            self.pitch,
            (&self.pictures, &self.shapes),
            Message::Touched,
        )
        .on(self.face)
        .reporting(self.drawn.clone())
        .into()
    }

    fn style(&self, _: &Theme) -> theme::Style {
        let colours = palette::colours(self.comfort.palette);
        theme::Style { background_color: ground(colours), text_color: Color::BLACK }
    }

    fn subscription(&self) -> Subscription<Message> {
        Subscription::batch([
            self.inbox.subscription().map(Message::Device),
            iced::event::listen_with(window_event),
        ])
    }

    // ---- what is pressed ----

    fn button(&mut self, button: Button, is_down: bool) -> Task<Message> {
        let Some(press) = self.bindings.press(button) else { return Task::none() };
        let now = self.input_now();
        if !is_down {
            // How a switch was pressed is looked at where the voter practises.
            return match self.hold_off.up(button, now) {
                Some(Shape { held, gap })
                    if matches!(press, Press::FirstSwitch | Press::SecondSwitch) =>
                {
                    let gap = gap.map(|gap| Millis(gap.0));
                    self.input(Input::Pressed(PressShape { held: Millis(held.0), gap }))
                }
                Some(_) | None => Task::none(),
            };
        }
        if self.hold_off.down(button, now) { self.press(press) } else { self.wait_for_press() }
    }

    fn input_now(&self) -> evenhand_input::Millis {
        evenhand_input::Millis(self.devices.clock.now().0)
    }

    /// Where a press must be long, asks to be woken when one is.
    fn wait_for_press(&self) -> Task<Message> {
        match self.hold_off.next_due() {
            Some(due) => {
                let is_there = self.devices.clock.wake_at(Wake::Press, Millis(due.0));
                self.need(is_there, "the clock")
            }
            None => Task::none(),
        }
    }

    /// Takes the presses that are now long enough.
    fn presses_due(&mut self) -> Task<Message> {
        let due = self.hold_off.due(self.input_now());
        let presses: Vec<Press> =
            due.into_iter().filter_map(|button| self.bindings.press(button)).collect();
        let mut tasks: Vec<_> = presses.into_iter().map(|press| self.press(press)).collect();
        tasks.push(self.wait_for_press());
        Task::batch(tasks)
    }

    fn press(&mut self, press: Press) -> Task<Message> {
        self.input(Input::Press(keys::command(press)))
    }

    /// Where the mouse's left button is a switch, a click means its switch and not its place.
    fn touched(&mut self, target: Target, held: Duration) -> Task<Message> {
        let held = evenhand_input::Millis(u64::try_from(held.as_millis()).unwrap_or(u64::MAX));
        let filter = filter_of(self.comfort.pressing);
        let counts = self.touches.counts(held, self.input_now(), filter);
        if self.bindings.is_touch_a_switch() || !counts {
            return Task::none();
        }
        self.input(Input::Press(Command::Pick(target)))
    }

    fn unfocused(&mut self) -> Task<Message> {
        self.hold_off.forget();
        Task::none()
    }

    /// Fills the screen where that is asked for. With no window manager a window keeps its size and
    /// has no keyboard until it does; so its size is set first, from the screen's.
    fn opened(&mut self, id: window::Id, size: Size) -> Task<Message> {
        let resized = self.resized(size);
        if self.size.is_some() {
            return Task::batch([window::gain_focus(id), resized]);
        }
        let size = window::monitor_size(id).map(move |size| Message::Measured(id, size));
        Task::batch([resized, size])
    }

    fn measured(&self, id: window::Id, size: Option<Size>) -> Task<Message> {
        if let Some(Err(error)) = size.map(|size| can_vote_on(screen_of(size, self.pitch))) {
            return self.fail(error);
        }
        let resized = size.map_or_else(Task::none, |size| window::resize(id, size));
        resized.chain(window::set_mode(id, window::Mode::Fullscreen))
    }

    fn resized(&mut self, size: Size) -> Task<Message> {
        let screen = screen_of(size, self.pitch);
        if screen == self.screen {
            return Task::none();
        }
        self.screen = screen;
        self.input(Input::Resized)
    }

    // ---- what devices report ----

    fn device(&mut self, report: Report) -> Task<Message> {
        match report {
            Report::Voice(event) => match self.devices.speaker.meaning(&event) {
                Meaning::Nothing => Task::none(),
                Meaning::Ended => self.input(Input::SpeechEnded),
                Meaning::Lost(fault) => {
                    self.speech(Input::SpeechLost, |trace| trace.speech_lost(fault))
                }
                Meaning::Back => self.speech(Input::SpeechBack, Trace::speech_back),
            },
            Report::Pad(PadEvent::Button(button, is_down)) => {
                self.button(Button::Pad(button), is_down)
            }
            // A pad that is lost can't be told from one that was never there without asking the
            // worker; the station's self-test looks for it.
            Report::Pad(PadEvent::Connected(_) | PadEvent::Lost(_)) => Task::none(),
            Report::Woken(Wake::Visit, _) => self.input(Input::Tick),
            Report::Woken(Wake::Press, _) => self.presses_due(),
            Report::Woken(Wake::Leave, _) => iced::exit(),
            Report::Printed(result) => self.printed(result),
            Report::Read(result) => self.read(result),
            Report::Drawn(number) => self.drawn(number),
            Report::Worker(says) => self.input(Input::Worker(says)),
            Report::StationGone => self.fail(WindowError::StationGone),
            Report::PaperBroken(error) => self.fail(WindowError::Paper(error)),
        }
    }

    fn speech(
        &mut self,
        input: Input,
        note: impl FnOnce(&mut Trace) -> io::Result<()>,
    ) -> Task<Message> {
        if let Some(Err(error)) = self.trace.as_mut().map(note) {
            return self.fail(WindowError::System(error));
        }
        self.input(input)
    }

    fn drawn(&mut self, number: u64) -> Task<Message> {
        let is_latest = self.drawn.as_ref().is_some_and(|drawn| drawn.view == number);
        match self.trace.as_mut().filter(|_| is_latest).map(Trace::settled) {
            Some(Err(error)) => self.fail(WindowError::System(error)),
            Some(Ok(())) | None => Task::none(),
        }
    }

    fn printed(&mut self, result: Result<(), PrintFault>) -> Task<Message> {
        self.input(Input::Printed(result))
    }

    fn read(&mut self, result: Result<Box<BallotReading>, ReadFault>) -> Task<Message> {
        self.pictures.clear();
        self.picture_sizes.clear();
        let reading = result.map(|read| {
            let BallotReading { reading, write_in_pictures } = *read;
            for (contest, option, picture) in write_in_pictures {
                let (width, height) = picture.dimensions();
                let pixels: Vec<u8> = picture
                    .into_raw()
                    .into_iter()
                    .flat_map(|grey| [grey, grey, grey, 255])
                    .collect();
                let handle = Handle::from_rgba(width, height, pixels);
                self.pictures.insert((contest, option), handle);
                self.picture_sizes.insert((contest, option), (width, height));
            }
            reading
        });
        self.input(Input::Read(reading))
    }

    // ---- the visit ----

    fn input(&mut self, input: Input) -> Task<Message> {
        let mut outputs = Vec::new();
        if let Some(visit) = self.visit.take() {
            let now = self.devices.clock.now();
            self.visit = Some(visit.handle(input, now, &self.stage(), &mut outputs));
        }
        self.carry_out(outputs)
    }

    fn carry_out(&mut self, outputs: Vec<Output>) -> Task<Message> {
        let mut tasks = Vec::new();
        for output in outputs {
            tasks.push(match output {
                Output::Show(view) => self.show(&view),
                Output::Say(utterance) => {
                    let is_there = self.devices.speaker.say(&utterance, &self.words, self.comfort);
                    self.need(is_there, "the voice")
                }
                Output::Listen(listen) => {
                    let is_there = self.devices.speaker.listen(listen);
                    self.need(is_there, "the voice")
                }
                Output::Hush => self.need(self.devices.speaker.hush(), "the voice"),
                // The voice sounds the tone itself, at the fault and in place of every utterance.
                Output::SoundTone => Task::none(),
                Output::Print(selections) => {
                    self.need(self.devices.paper.print(selections), "the paper")
                }
                Output::ReadSheets => self.need(self.devices.paper.read(), "the paper"),
                Output::Record(event) => self.record(event),
                Output::WakeAt(at) => {
                    self.need(self.devices.clock.wake_at(Wake::Visit, at), "the clock")
                }
                // Nobody sees the last screen where there is none.
                Output::End if self.id.is_none() => iced::exit(),
                Output::End => {
                    let at = self.devices.clock.now().after(LAST_SCREEN);
                    self.need(self.devices.clock.wake_at(Wake::Leave, at), "the clock")
                }
            });
        }
        Task::batch(tasks)
    }

    fn show(&mut self, view: &View) -> Task<Message> {
        let scene = self.stage().scene(view);
        self.face = self.face.after(&self.scene, &scene);
        self.scene = scene;
        if self.comfort.pressing != view.comfort.pressing {
            let (accept, ignore) = filter_of(view.comfort.pressing);
            self.hold_off.set(accept, ignore);
        }
        self.comfort = view.comfort;
        let colours = palette::colours(self.comfort.palette);
        self.shapes.prepare(&self.scene, colours, self.pitch);
        self.faces.load_for(&self.scene);
        if let (Some(trace), Some(drawn)) = (&mut self.trace, &mut self.drawn) {
            drawn.view += 1;
            if let Err(error) = trace.shown(view) {
                return self.fail(WindowError::System(error));
            }
        }
        let is_there = self.devices.speaker.set(view.comfort);
        Task::batch([self.be_away(view.is_away), self.need(is_there, "the voice")])
    }

    fn record(&mut self, event: Event) -> Task<Message> {
        match self.devices.events.write(event) {
            Ok(()) => Task::none(),
            // With no station to tell, nobody would log what happens here.
            Err(error) => self.fail(WindowError::System(error)),
        }
    }

    fn need(&self, is_there: bool, whose: &'static str) -> Task<Message> {
        if is_there { Task::none() } else { self.fail(WindowError::ThreadGone(whose)) }
    }

    fn fail(&self, error: WindowError) -> Task<Message> {
        self.outcome.fail(error);
        iced::exit()
    }
}

/// What the window says: keys, switches on a mouse, its size.
fn window_event(event: iced::Event, _: iced::event::Status, id: window::Id) -> Option<Message> {
    match event {
        iced::Event::Keyboard(keyboard::Event::KeyPressed {
            key,
            modifiers,
            repeat: false,
            ..
        }) => keys::key_of(&key, modifiers).map(|key| Message::Key(key, true)),
        iced::Event::Keyboard(keyboard::Event::KeyReleased { key, modifiers, .. }) => {
            keys::key_of(&key, modifiers).map(|key| Message::Key(key, false))
        }
        iced::Event::Mouse(mouse::Event::ButtonPressed(button)) => {
            keys::mouse_button_of(button).map(|button| Message::Mouse(button, true))
        }
        iced::Event::Mouse(mouse::Event::ButtonReleased(button)) => {
            keys::mouse_button_of(button).map(|button| Message::Mouse(button, false))
        }
        iced::Event::Window(window::Event::Opened { size, .. }) => Some(Message::Opened(id, size)),
        iced::Event::Window(window::Event::Resized(size)) => Some(Message::Resized(size)),
        iced::Event::Window(window::Event::Unfocused) => Some(Message::Unfocused),
        iced::Event::Window(window::Event::CloseRequested) => Some(Message::CloseAsked),
        iced::Event::Keyboard(_)
        | iced::Event::Mouse(_)
        | iced::Event::Window(_)
        | iced::Event::Touch(_)
        | iced::Event::InputMethod(_) => None,
    }
}

/// Refuses a screen on which a ballot can't be shown whole, and tells the log where letters of every
/// size can't.
fn can_vote_on(screen: Screen) -> Result<(), WindowError> {
    let (width, height) = (screen.width.0 / 1_000, screen.height.0 / 1_000);
    let most = screen.size_most().ok_or(WindowError::TooSmall { width, height })?;
    if most < TypeSize::Largest {
        let told = writeln!(
            io::stderr(),
            "a screen of {width} by {height} mm shows letters of at most the size {most:?}: a standard's four sizes (VVSG 2.0 7.1-G) need 515 by 295 mm"
        );
        // With no standard error there is nobody to tell; the voter is told on the screen.
        told.unwrap_or_default();
    }
    Ok(())
}

pub(crate) fn screen_of(size: Size, pitch: PixelPitch) -> Screen {
    Screen { width: pitch.distance(size.width), height: pitch.distance(size.height) }
}

fn hold_off_of(pressing: Pressing) -> HoldOff {
    let (accept, ignore) = filter_of(pressing);
    HoldOff::new(accept, ignore)
}

fn filter_of(pressing: Pressing) -> (evenhand_input::Millis, evenhand_input::Millis) {
    let millis = |time: Millis| evenhand_input::Millis(time.0);
    (millis(pressing.accept_time()), millis(pressing.ignore_time()))
}

/// Starts the pads. A system without a list of devices has none to read; keys and touch go on.
pub(crate) fn pads(reports: Reports) -> Result<Option<Pads>, io::Error> {
    let (events, received) = crossbeam_channel::unbounded();
    std::thread::Builder::new().name("pad-reports".to_owned()).spawn(move || {
        for event in received {
            if reports.unbounded_send(Report::Pad(event)).is_err() {
                return;
            }
        }
    })?;
    match Pads::start(events) {
        Ok(pads) => Ok(Some(pads)),
        Err(evenhand_input::StartError::Devices(_)) => Ok(None),
        Err(evenhand_input::StartError::Thread(error)) => Err(error),
    }
}
