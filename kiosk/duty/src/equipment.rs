//! The printer, the scanner and the headphones: which are found, which is chosen, and how loud visits
//! begin. A device is a number and a name, both given by whoever found it.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use crate::{Arg, Line, Message, Sheet};

/// Names on one screen (own choice: with the other rows they fit on the smallest).
const NAMES_MAX: usize = 4;
/// The softest and the loudest that a visit may begin with: 40 dB and 90 dB where the top step is
/// 100 dB (own choice: what is heard, and doesn't hurt).
const LOUDNESS_RANGE: (u8, u8) = (2, 7);

/// A kind of device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Device {
    /// What ballots are printed by.
    Printer,
    /// What reads them.
    Scanner,
    /// Where the voter listens.
    Headphones,
}

/// A device that was found: a number that stays its own, and what the system calls it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// The number.
    pub number: u16,
    /// The name.
    pub name: String,
}

/// What taking a row does.
pub(crate) enum Pick {
    Chosen,
    More(u16),
    LookAgain,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Look {
    NotYet,
    Looking,
    Failed,
    Found(Vec<Named>),
}

/// Everything that is chosen.
#[derive(Clone, Debug)]
pub struct Equipment {
    chosen: [Option<Named>; 3],
    looks: [Look; 3],
    loudness: u8,
}

impl Device {
    pub(crate) const FIRST: Self = Self::Printer;
    pub(crate) const LAST: Self = Self::Headphones;

    pub(crate) const fn next(self) -> Option<Self> {
        match self {
            Self::Printer => Some(Self::Scanner),
            Self::Scanner => Some(Self::Headphones),
            Self::Headphones => None,
        }
    }

    pub(crate) const fn before(self) -> Option<Self> {
        match self {
            Self::Printer => None,
            Self::Scanner => Some(Self::Printer),
            Self::Headphones => Some(Self::Scanner),
        }
    }

    /// Which step of setting up it is chosen in.
    pub(crate) const fn step(self) -> u32 {
        match self {
            Self::Printer => 4,
            Self::Scanner => 5,
            Self::Headphones => 6,
        }
    }

    const fn heading(self) -> Message {
        match self {
            Self::Printer => Message::PrinterHeading,
            Self::Scanner => Message::ScannerHeading,
            Self::Headphones => Message::HeadphonesHeading,
        }
    }

    const fn about(self) -> Message {
        match self {
            Self::Printer => Message::PrinterLine,
            Self::Scanner => Message::ScannerLine,
            Self::Headphones => Message::HeadphonesLine,
        }
    }

    /// What it means that none is chosen.
    const fn none(self) -> Message {
        match self {
            Self::Printer | Self::Scanner => Message::DeviceNone,
            Self::Headphones => Message::HeadphonesUsual,
        }
    }

    const fn place(self) -> usize {
        match self {
            Self::Printer => 0,
            Self::Scanner => 1,
            Self::Headphones => 2,
        }
    }
}

impl Equipment {
    /// Nothing chosen, and visits begin so loud.
    pub const fn none(loudness: u8) -> Self {
        Self::new([None, None, None], loudness)
    }

    /// What was chosen last: printer, scanner, headphones; and how loud visits begin.
    pub const fn new(chosen: [Option<Named>; 3], loudness: u8) -> Self {
        Self { chosen, looks: [Look::NotYet, Look::NotYet, Look::NotYet], loudness }
    }

    pub(crate) fn numbers(&self) -> [Option<u16>; 3] {
        self.chosen.each_ref().map(|chosen| chosen.as_ref().map(|chosen| chosen.number))
    }

    pub(crate) fn loudness(&self) -> u8 {
        self.loudness.clamp(LOUDNESS_RANGE.0, LOUDNESS_RANGE.1)
    }

    pub(crate) fn louder(&mut self) {
        self.loudness = self.loudness().saturating_add(1).min(LOUDNESS_RANGE.1);
    }

    pub(crate) fn softer(&mut self) {
        self.loudness = self.loudness().saturating_sub(1).max(LOUDNESS_RANGE.0);
    }

    fn look(&self, device: Device) -> &Look {
        self.looks.get(device.place()).unwrap_or(&Look::NotYet)
    }

    fn set_look(&mut self, device: Device, look: Look) {
        if let Some(place) = self.looks.get_mut(device.place()) {
            *place = look;
        }
    }

    /// True where it is to be looked: not while that is being done, and anew only when asked.
    pub(crate) fn begin_look(&mut self, device: Device, anew: bool) -> bool {
        let is_begun = match self.look(device) {
            Look::NotYet => true,
            Look::Looking => false,
            Look::Failed | Look::Found(_) => anew,
        };
        if is_begun {
            self.set_look(device, Look::Looking);
        }
        is_begun
    }

    pub(crate) fn found(&mut self, device: Device, found: Option<Vec<Named>>) {
        self.set_look(device, found.map_or(Look::Failed, Look::Found));
    }

    fn names(&self, device: Device) -> &[Named] {
        match self.look(device) {
            Look::Found(names) => names,
            Look::NotYet | Look::Looking | Look::Failed => &[],
        }
    }

    fn skipped(page: u16) -> usize {
        usize::from(page).saturating_mul(NAMES_MAX)
    }

    /// Rows: the names of this page; the others, where there are some; none; look again.
    pub(crate) fn choosing(&self, device: Device, page: u16) -> Sheet {
        let mut sheet = Sheet::blank(device.heading());
        sheet.lines = vec![Line::new(device.about()), self.said(device, Message::DeviceNow)];
        sheet.lines.extend(match self.look(device) {
            Look::NotYet => None,
            Look::Looking => Some(Line::new(Message::DeviceLooking)),
            Look::Failed => Some(Line::new(Message::DeviceFailed)),
            Look::Found(names) => names.is_empty().then(|| Line::new(Message::DeviceNotFound)),
        });
        let names = self.names(device);
        let shown = names.iter().skip(Self::skipped(page)).take(NAMES_MAX);
        sheet.rows = shown.map(|one| plain(&one.name)).collect();
        if names.len() > NAMES_MAX {
            sheet.rows.push(Line::new(Message::DeviceMore));
        }
        sheet.rows.push(Line::new(device.none()));
        sheet.rows.push(Line::new(Message::DeviceLook));
        sheet.back = Some(Line::new(Message::BarBack));
        sheet.forward = Some(Line::new(Message::BarNext));
        sheet
    }

    pub(crate) fn pick(&mut self, device: Device, page: u16, row: u16) -> Pick {
        let names = self.names(device);
        let (count, skipped) = (names.len(), Self::skipped(page));
        let shown = count.saturating_sub(skipped).min(NAMES_MAX);
        let row = usize::from(row);
        let is_more = count > NAMES_MAX;
        if row < shown {
            let chosen = names.get(skipped.saturating_add(row)).cloned();
            self.set_chosen(device, chosen);
            return Pick::Chosen;
        }
        match (row.saturating_sub(shown), is_more) {
            (0, true) => {
                let is_last = skipped.saturating_add(NAMES_MAX) >= count;
                Pick::More(if is_last { 0 } else { page.saturating_add(1) })
            }
            (0, false) | (1, true) => {
                self.set_chosen(device, None);
                Pick::Chosen
            }
            (_, _) => Pick::LookAgain,
        }
    }

    fn set_chosen(&mut self, device: Device, chosen: Option<Named>) {
        if let Some(place) = self.chosen.get_mut(device.place()) {
            *place = chosen;
        }
    }

    /// What is chosen, in this message's words.
    fn said(&self, device: Device, message: Message) -> Line {
        let chosen = self.chosen.get(device.place()).and_then(Option::as_ref);
        let name = match chosen {
            Some(chosen) => Arg::Text(chosen.name.clone()),
            None => Arg::Message(device.none()),
        };
        Line::new(message).with("name", name)
    }

    pub(crate) fn loudness_sheet(&self) -> Sheet {
        let mut sheet = Sheet::blank(Message::LoudnessHeading);
        sheet.lines = vec![Line::new(Message::LoudnessLine), self.loudness_line()];
        sheet.rows = [Message::LoudnessLouder, Message::LoudnessSofter, Message::LoudnessHear]
            .map(Line::new)
            .into();
        sheet.back = Some(Line::new(Message::BarBack));
        sheet.forward = Some(Line::new(Message::BarNext));
        sheet
    }

    /// Counted from 1 within what can be chosen.
    fn loudness_line(&self) -> Line {
        let step = self.loudness().saturating_sub(LOUDNESS_RANGE.0).saturating_add(1);
        let steps = LOUDNESS_RANGE.1.saturating_sub(LOUDNESS_RANGE.0).saturating_add(1);
        Line::new(Message::LoudnessNow)
            .with("step", Arg::Number(step.into()))
            .with("steps", Arg::Number(steps.into()))
    }

    /// A line for each choice.
    pub(crate) fn summary(&self) -> Vec<Line> {
        vec![
            self.said(Device::Printer, Message::KeepPrinter),
            self.said(Device::Scanner, Message::KeepScanner),
            self.said(Device::Headphones, Message::KeepHeadphones),
            self.loudness_line(),
        ]
    }
}

fn plain(name: &str) -> Line {
    Line::new(Message::Plain).with("text", Arg::Text(name.into()))
}
