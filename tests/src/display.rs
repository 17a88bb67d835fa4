//! An X display as a voter's hands and eyes have it: presses go in as real events (the XTEST
//! extension), pictures come out, and the display itself says when something was drawn (the DAMAGE
//! extension).
//!
//! Start reading at [`Display`]; [`VirtualDisplay`] starts one without a screen.
#![expect(
    clippy::disallowed_methods,
    reason = "it starts Xvfb, waits for events of the display, and looks at the clock for when"
)]

use std::io::{BufRead as _, BufReader};
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex, PoisonError, mpsc};
use std::thread;
use std::time::Instant;

use image::RgbImage;
use x11rb::connection::Connection as _;
use x11rb::protocol::Event;
use x11rb::protocol::damage::{ConnectionExt as _, ReportLevel};
use x11rb::protocol::xproto::{
    AtomEnum, BUTTON_PRESS_EVENT, BUTTON_RELEASE_EVENT, ConnectionExt as _, ImageFormat,
    InputFocus, KEY_PRESS_EVENT, KEY_RELEASE_EVENT, MOTION_NOTIFY_EVENT, Rectangle as XRectangle,
    Window,
};
use x11rb::protocol::xtest::ConnectionExt as _;
use x11rb::rust_connection::RustConnection;

/// A key by its X keysym (keysymdef.h of the X Window System protocol).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Keysym(pub u32);

impl Keysym {
    /// The digit 1, the first switch.
    pub const ONE: Self = Self(0x31);
    /// The digit 2, the second switch.
    pub const TWO: Self = Self(0x32);
    /// Arrow down.
    pub const DOWN: Self = Self(0xff54);
    /// Arrow up.
    pub const UP: Self = Self(0xff52);
    /// Arrow right.
    pub const RIGHT: Self = Self(0xff53);
    /// F10, the worker's key.
    pub const WORKER: Self = Self(0xffc7);
    /// Enter.
    pub const RETURN: Self = Self(0xff0d);
    /// The sign "=", which is louder.
    pub const EQUAL: Self = Self(0x3d);
}

/// A display server without a screen, which ends with this value.
#[derive(Debug)]
pub struct VirtualDisplay {
    server: Child,
    name: String,
}

impl VirtualDisplay {
    /// Starts Xvfb with one screen of this size in pixels.
    ///
    /// # Errors
    /// A sentence that says what failed and what to install.
    pub fn start((width, height): (u16, u16)) -> Result<Self, String> {
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-nolisten", "tcp", "-screen", "0"])
            .arg(format!("{width}x{height}x24"))
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("Xvfb: {error}; install xvfb"))?;
        let mut line = String::new();
        if let Some(output) = server.stdout.take() {
            BufReader::new(output).read_line(&mut line).map_err(|error| error.to_string())?;
        }
        let name = format!(":{}", line.trim());
        if name == ":" { Err("Xvfb gave no display".to_owned()) } else { Ok(Self { server, name }) }
    }

    /// The display's name, such as `:7`.
    pub fn name(&self) -> &str {
        &self.name
    }
}

impl Drop for VirtualDisplay {
    fn drop(&mut self) {
        // It may have ended by itself.
        drop(self.server.kill());
        drop(self.server.wait());
    }
}

/// A connection to a display: hands and eyes.
#[derive(Debug)]
pub struct Display {
    connection: RustConnection,
    name: String,
    root: Window,
    size: (u16, u16),
    /// The first key code, and the keysyms of each code.
    first_code: u8,
    keysyms_per_code: usize,
    keysyms: Vec<u32>,
}

fn told(error: impl std::fmt::Display) -> String {
    format!("the display: {error}")
}

impl Display {
    /// Connects to a display by its name.
    ///
    /// # Errors
    /// A sentence that says what the display said.
    pub fn open(name: &str) -> Result<Self, String> {
        let (connection, screen) = x11rb::connect(Some(name)).map_err(told)?;
        let setup = connection.setup();
        let screen = setup.roots.get(screen).ok_or("the display has no screen")?;
        let (root, size) = (screen.root, (screen.width_in_pixels, screen.height_in_pixels));
        let (first_code, last_code) = (setup.min_keycode, setup.max_keycode);
        let count = last_code - first_code + 1;
        let mapping = connection.get_keyboard_mapping(first_code, count).map_err(told)?;
        let mapping = mapping.reply().map_err(told)?;
        Ok(Self {
            name: name.to_owned(),
            root,
            size,
            first_code,
            keysyms_per_code: usize::from(mapping.keysyms_per_keycode),
            keysyms: mapping.keysyms,
            connection,
        })
    }

    /// Presses a key and lets it go. Returns when it was handed to the display.
    ///
    /// # Errors
    /// The display's keyboard has no such key, or the display is gone.
    pub fn key(&self, key: Keysym) -> Result<Instant, String> {
        let place = self
            .keysyms
            .chunks(self.keysyms_per_code)
            .position(|of_code| of_code.first() == Some(&key.0))
            .ok_or_else(|| format!("the display's keyboard has no key {key:?}"))?;
        let code = u8::try_from(place).map_err(told)? + self.first_code;
        let at = Instant::now();
        self.fake(KEY_PRESS_EVENT, code, (0, 0))?;
        self.fake(KEY_RELEASE_EVENT, code, (0, 0))?;
        Ok(at)
    }

    /// Moves the pointer to a place and clicks its left button there. Returns when it was handed to
    /// the display.
    ///
    /// # Errors
    /// The display is gone.
    pub fn click(&self, place: (i16, i16)) -> Result<Instant, String> {
        self.fake(MOTION_NOTIFY_EVENT, 0, place)?;
        let at = Instant::now();
        self.fake(BUTTON_PRESS_EVENT, 1, (0, 0))?;
        self.fake(BUTTON_RELEASE_EVENT, 1, (0, 0))?;
        Ok(at)
    }

    fn fake(&self, kind: u8, detail: u8, (x, y): (i16, i16)) -> Result<(), String> {
        let sent = self.connection.xtest_fake_input(kind, detail, 0, self.root, x, y, 0);
        // Waits until the display has taken it: what it hasn't read yet when a connection ends is lost.
        sent.map_err(told)?.check().map_err(told)
    }

    /// Gives the keys to the window with this title: with no window manager nobody else does.
    ///
    /// # Errors
    /// There is no such window, or the display is gone.
    pub fn give_keys_to(&self, title: &str) -> Result<(), String> {
        let window =
            self.window(title)?.ok_or_else(|| format!("there is no window \"{title}\""))?;
        let none = x11rb::CURRENT_TIME;
        let given = self.connection.set_input_focus(InputFocus::PARENT, window, none);
        given.map_err(told)?.check().map_err(told)
    }

    /// True where a window with this title is there.
    ///
    /// # Errors
    /// The display is gone.
    pub fn has_window(&self, title: &str) -> Result<bool, String> {
        Ok(self.window(title)?.is_some())
    }

    fn window(&self, title: &str) -> Result<Option<Window>, String> {
        let windows = self.connection.query_tree(self.root).map_err(told)?;
        for window in windows.reply().map_err(told)?.children {
            let name = self
                .connection
                .get_property(false, window, AtomEnum::WM_NAME, AtomEnum::ANY, 0, 64)
                .map_err(told)?;
            // A window may go while we look.
            if name.reply().is_ok_and(|name| name.value == title.as_bytes()) {
                return Ok(Some(window));
            }
        }
        Ok(None)
    }

    /// What the whole display shows now.
    ///
    /// # Errors
    /// The display is gone, or its pixels aren't of 32 bits.
    pub fn picture(&self) -> Result<RgbImage, String> {
        let (width, height) = self.size;
        let pixels = pixels_of(&self.connection, self.root, (0, 0), self.size)?;
        // Blue, green, red, unused: the order of a little-endian display at depth 24.
        let colours = pixels.chunks_exact(4).flat_map(|p| [p[2], p[1], p[0]]).collect();
        RgbImage::from_raw(u32::from(width), u32::from(height), colours)
            .ok_or_else(|| "the display's pixels aren't of 32 bits".to_owned())
    }

    /// Notes from now on each time that what is shown has changed.
    ///
    /// # Errors
    /// The display doesn't know the DAMAGE extension, or is gone.
    pub fn watch(&self) -> Result<Watch, String> {
        let (told_by, _) = x11rb::connect(Some(&self.name)).map_err(told)?;
        told_by.damage_query_version(1, 1).map_err(told)?.reply().map_err(told)?;
        let damage = told_by.generate_id().map_err(told)?;
        let (looks, _) = x11rb::connect(Some(&self.name)).map_err(told)?;
        let root = self.root;
        let mut shown = Shown::all(&looks, root, self.size)?;
        told_by
            .damage_create(damage, root, ReportLevel::RAW_RECTANGLES)
            .map_err(told)?
            .check()
            .map_err(told)?;
        // Both threads end with the display. Looking takes its time, so it isn't done where the
        // time is noted.
        let (noted, to_look_at) = mpsc::channel();
        thread::spawn(move || {
            while let Ok(event) = told_by.wait_for_event() {
                let Event::DamageNotify(event) = event else { continue };
                if noted.send((Instant::now(), event.area)).is_err() {
                    return;
                }
            }
        });
        let changes = Arc::new(Mutex::new(Vec::new()));
        let shared = Arc::clone(&changes);
        thread::spawn(move || {
            for (at, area) in to_look_at {
                match shown.changed(&looks, root, area) {
                    Ok(true) => shared.lock().unwrap_or_else(PoisonError::into_inner).push(at),
                    Ok(false) => {}
                    Err(_) => return,
                }
            }
        });
        Ok(Watch { changes })
    }
}

/// What the display showed when it was last looked at: four bytes a pixel, row by row.
struct Shown {
    pixels: Vec<u8>,
    row: usize,
}

impl Shown {
    fn all(
        connection: &RustConnection,
        root: Window,
        (width, height): (u16, u16),
    ) -> Result<Self, String> {
        let pixels = pixels_of(connection, root, (0, 0), (width, height))?;
        Ok(Self { pixels, row: usize::from(width) * 4 })
    }

    /// Whether an area shows something else now. Only the area is looked at: the display waits while
    /// it hands out pixels, and so would what is measured.
    fn changed(
        &mut self,
        connection: &RustConnection,
        root: Window,
        area: XRectangle,
    ) -> Result<bool, String> {
        let size = (area.width, area.height);
        let now = pixels_of(connection, root, (area.x, area.y), size)?;
        let (x, y) =
            (usize::try_from(area.x).map_err(told)?, usize::try_from(area.y).map_err(told)?);
        let mut is_changed = false;
        for (row, now) in now.chunks_exact(usize::from(area.width) * 4).enumerate() {
            let start = (y + row) * self.row + x * 4;
            let before = self
                .pixels
                .get_mut(start..start + now.len())
                .ok_or("the display's change lies outside the display")?;
            if before != now {
                is_changed = true;
                before.copy_from_slice(now);
            }
        }
        Ok(is_changed)
    }
}

/// What an area of the display shows: four bytes a pixel.
fn pixels_of(
    connection: &RustConnection,
    root: Window,
    (x, y): (i16, i16),
    (width, height): (u16, u16),
) -> Result<Vec<u8>, String> {
    let asked = connection.get_image(ImageFormat::Z_PIXMAP, root, x, y, width, height, u32::MAX);
    Ok(asked.map_err(told)?.reply().map_err(told)?.data)
}

/// When what is shown changed, as the display told it. The same picture drawn again is no change.
#[derive(Debug)]
pub struct Watch {
    changes: Arc<Mutex<Vec<Instant>>>,
}

impl Watch {
    /// When it first changed after `from`.
    pub fn first_after(&self, from: Instant) -> Option<Instant> {
        let changes = self.changes.lock().unwrap_or_else(PoisonError::into_inner);
        changes.iter().copied().find(|at| *at > from)
    }
}
