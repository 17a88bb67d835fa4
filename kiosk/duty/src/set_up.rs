//! Setting up a station: a sealed election is chosen where some are at hand, the screen is measured,
//! the switches are learned, the devices are chosen, all of it is kept.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use crate::elections::{Election, ElectionPick, Elections, Refusal, Sealed};
use crate::equipment::{Device, Equipment, Named, Pick};
use crate::{Arg, Glass, Line, Message, Place, Sheet, Tone};

/// A key, a mouse button or a pad's button, by a number that whoever hears it has given it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Button(pub u16);

/// What a worker does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Command {
    /// The focus goes on by one.
    Next,
    /// The focus goes back by one.
    Previous,
    /// Takes what has the focus.
    Choose,
    /// One screen back.
    Back,
    /// One screen on.
    Forward,
    /// Takes this, as a touch does.
    Pick(Place),
}

/// What happens to the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    /// A command.
    Press(Command),
    /// A button goes down where [`Sheet::takes_switches`] is true.
    Switch(Button),
    /// What was to be kept is kept, or couldn't be.
    Kept(bool),
    /// The screen has so many pixels across and down.
    Pixels(u16, u16),
    /// The sound that was asked for was played, or couldn't be.
    Sounded(bool),
}

/// What is to be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Learned {
    /// The screen.
    pub glass: Glass,
    /// The first and the second switch; `None` where the station's own table stands.
    pub switches: Option<(Button, Button)>,
    /// The numbers of the printer, the scanner and the headphones, where they are chosen.
    pub devices: [Option<u16>; 3],
    /// How loud visits begin.
    pub loudness: u8,
    /// Which election; the one that it has, or none as before, where no step asked for it.
    pub election: Election,
}

/// What the machine wants done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Output {
    /// Keep this, then tell with [`Input::Kept`].
    Keep(Learned),
    /// Look which devices of this kind there are, then tell with [`SetUp::found`].
    Look(Device),
    /// Sound a tone so loud in the headphones of this number, then tell with [`Input::Sounded`].
    Sound(Option<u16>, u8),
    /// Look which sealed elections there are, then tell with [`SetUp::found_elections`].
    LookForElections,
    /// Verify the sealed election of this number, then tell with [`SetUp::checked`].
    Check(u16),
    /// It is over.
    Leave,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum At {
    Elections {
        page: u16,
    },
    Checking {
        number: u16,
    },
    Checked {
        is_good: bool,
    },
    /// The keys that verified it are compared.
    ComparedKeys,
    Card,
    First {
        heard: Option<Button>,
    },
    Second {
        first: Button,
        heard: Option<Button>,
    },
    Try {
        switches: (Button, Button),
        presses: (u32, u32),
    },
    Choose {
        device: Device,
        page: u16,
    },
    Loudness,
    Keep,
    Keeping,
    Kept,
}

/// The pixels of a fine step and of a coarse one.
const STEPS: [u16; 2] = [1, 10];
/// How many steps a worker goes through, beside that of the election.
const STEP_COUNT: u32 = 8;

/// Setting up, where it stands.
#[derive(Clone, Debug)]
pub struct SetUp {
    at: At,
    glass: Glass,
    switches: Option<(Button, Button)>,
    equipment: Equipment,
    /// Where a sealed election is chosen; without it there is no such step.
    elections: Option<Elections>,
    notice: Option<(Tone, Line)>,
    focus: Option<Place>,
}

impl SetUp {
    /// Begins with the screen as it was measured last, or as it is usual, and the switches that were
    /// learned and the equipment that was chosen last, if any.
    pub const fn begin(
        glass: Glass,
        switches: Option<(Button, Button)>,
        equipment: Equipment,
    ) -> Self {
        let focus = Some(Place::Row(0));
        Self { at: At::Card, glass, switches, equipment, elections: None, notice: None, focus }
    }

    /// The same with a first step, in which a sealed election is chosen. They are being looked for:
    /// tell with [`Self::found_elections`].
    #[must_use]
    pub fn with_elections(mut self, elections: Elections) -> Self {
        self.elections = Some(elections);
        self.go(At::Elections { page: 0 });
        self
    }

    /// The sealed elections that were found; `None` where it couldn't be looked.
    pub fn found_elections(&mut self, found: Option<Vec<Named>>) {
        if let Some(elections) = &mut self.elections {
            elections.found(found);
        }
        if matches!(self.at, At::Elections { .. }) {
            self.go(At::Elections { page: 0 });
        }
    }

    /// What verifying the sealed election of this number has shown. Where the worker waits for
    /// another by now, that one is to be verified next.
    pub fn checked(&mut self, number: u16, checked: Result<Sealed, Refusal>) -> Option<Output> {
        let awaited = if let At::Checking { number } = self.at { Some(number) } else { None };
        let is_good = checked.is_ok();
        let elections = self.elections.as_mut()?;
        if elections.checked((number, awaited), checked) {
            self.go(At::Checked { is_good });
            // Pressing once too often takes nothing that wasn't compared.
            self.focus = Some(Place::Back);
            return None;
        }
        awaited.filter(|next| elections.begin_check(*next)).map(Output::Check)
    }

    /// The devices of a kind that were found; `None` where it couldn't be looked.
    pub fn found(&mut self, device: Device, found: Option<Vec<Named>>) {
        self.equipment.found(device, found);
        let is_shown = matches!(self.at, At::Choose { device: shown, .. } if shown == device);
        if is_shown {
            self.go(At::Choose { device, page: 0 });
        }
    }

    /// The screen as it is measured now.
    pub const fn glass(&self) -> Glass {
        self.glass
    }

    /// The digest that a worker has compared of the sealed election that is chosen.
    pub fn chosen_digest(&self) -> Option<&[String]> {
        self.elections.as_ref()?.chosen_digest()
    }

    /// Takes one input.
    pub fn handle(&mut self, input: Input) -> Option<Output> {
        match input {
            Input::Press(command) => self.press(command),
            Input::Switch(button) => {
                self.switch(button);
                None
            }
            Input::Pixels(width, height) => {
                self.glass = self.glass.of_pixels(width, height);
                None
            }
            Input::Sounded(is_sounded) => {
                if self.at == At::Loudness {
                    let silent = (Tone::Fault, Line::new(Message::LoudnessSilent));
                    self.notice = (!is_sounded).then_some(silent);
                }
                None
            }
            Input::Kept(is_kept) => {
                if self.at == At::Keeping && is_kept {
                    self.go(At::Kept);
                } else if self.at == At::Keeping {
                    self.go(At::Keep);
                    self.focus = Some(Place::Forward);
                    self.notice = Some((Tone::Fault, Line::new(Message::KeepFailed)));
                }
                None
            }
        }
    }

    fn press(&mut self, command: Command) -> Option<Output> {
        let place = self.sheet().walk(&mut self.focus, command)?;
        self.take(place)
    }

    fn take(&mut self, place: Place) -> Option<Output> {
        match (self.at, place) {
            (At::Elections { page }, place) => return self.take_election(page, place),
            (At::Checked { is_good: true }, Place::Forward) => {
                self.go(At::ComparedKeys);
                self.focus = Some(Place::Back);
            }
            (At::ComparedKeys, Place::Forward) => {
                self.elections.iter_mut().for_each(Elections::take_shown);
                self.go(At::Card);
            }
            (At::Checking { .. } | At::Checked { .. } | At::ComparedKeys, Place::Back) => {
                self.list_elections();
            }
            (At::Card, Place::Back) if self.elections.is_some() => self.list_elections(),
            (At::Card, Place::Row(row)) => self.resize(row),
            (At::Card, Place::Forward) if self.glass.is_in_range() => {
                self.go(At::First { heard: None });
            }
            (At::First { .. }, Place::Row(0)) => return self.choose(Device::FIRST),
            (At::First { .. }, Place::Back) => self.go(At::Card),
            (At::Second { .. } | At::Try { .. }, Place::Row(_) | Place::Back) => {
                self.go(At::First { heard: None });
            }
            (At::Try { switches, presses: (1.., 1..) }, Place::Forward) => {
                self.switches = Some(switches);
                return self.choose(Device::FIRST);
            }
            (At::Choose { device, page }, place) => return self.take_choice(device, page, place),
            (At::Loudness, place) => return self.take_loudness(place),
            (At::Keep, Place::Back) => self.go(At::Loudness),
            (At::Keep, Place::Forward) => {
                self.go(At::Keeping);
                return Some(Output::Keep(Learned {
                    glass: self.glass,
                    switches: self.switches,
                    devices: self.equipment.numbers(),
                    loudness: self.equipment.loudness(),
                    election: self.elections.as_ref().map_or(Election::Kept, Elections::chosen),
                }));
            }
            (At::Kept, Place::Forward) => return Some(Output::Leave),
            // Not shown here.
            (_, Place::Key(_))
            | (
                At::Checking { .. } | At::Checked { .. } | At::ComparedKeys | At::First { .. },
                Place::Row(_) | Place::Forward,
            )
            | (At::Keeping, _)
            | (At::Card, Place::Back | Place::Forward)
            | (At::Second { .. } | At::Try { .. }, Place::Forward)
            | (At::Keep, Place::Row(_))
            | (At::Kept, Place::Row(_) | Place::Back) => {}
        }
        None
    }

    fn list_elections(&mut self) {
        self.go(At::Elections { page: 0 });
    }

    fn take_election(&mut self, page: u16, place: Place) -> Option<Output> {
        let elections = self.elections.as_mut()?;
        match place {
            Place::Forward => self.go(At::Card),
            Place::Row(row) => match elections.pick(page, row) {
                ElectionPick::Chosen => {}
                ElectionPick::More(page) => self.go(At::Elections { page }),
                ElectionPick::Check(number) => {
                    let begins = elections.begin_check(number);
                    self.go(At::Checking { number });
                    return begins.then_some(Output::Check(number));
                }
                ElectionPick::LookAgain => {
                    let looks = elections.begin_look();
                    self.list_elections();
                    return looks.then_some(Output::LookForElections);
                }
            },
            Place::Back | Place::Key(_) => {}
        }
        None
    }

    /// To the screen on which a device is chosen; it is looked for where that wasn't done yet.
    fn choose(&mut self, device: Device) -> Option<Output> {
        self.go(At::Choose { device, page: 0 });
        self.equipment.begin_look(device, false).then_some(Output::Look(device))
    }

    fn take_choice(&mut self, device: Device, page: u16, place: Place) -> Option<Output> {
        match place {
            Place::Forward => match device.next() {
                Some(next) => return self.choose(next),
                None => self.go(At::Loudness),
            },
            Place::Back => match device.before() {
                Some(before) => return self.choose(before),
                None => self.go(At::First { heard: None }),
            },
            Place::Row(row) => match self.equipment.pick(device, page, row) {
                Pick::Chosen => {}
                Pick::More(page) => self.go(At::Choose { device, page }),
                Pick::LookAgain => {
                    let looks = self.equipment.begin_look(device, true);
                    self.go(At::Choose { device, page: 0 });
                    return looks.then_some(Output::Look(device));
                }
            },
            Place::Key(_) => {}
        }
        None
    }

    fn take_loudness(&mut self, place: Place) -> Option<Output> {
        self.notice = None;
        match place {
            Place::Row(0) => self.equipment.louder(),
            Place::Row(1) => self.equipment.softer(),
            Place::Row(_) => {
                let [_, _, headphones] = self.equipment.numbers();
                return Some(Output::Sound(headphones, self.equipment.loudness()));
            }
            Place::Forward => self.go(At::Keep),
            Place::Back => return self.choose(Device::LAST),
            Place::Key(_) => {}
        }
        None
    }

    fn resize(&mut self, row: u16) {
        let [fine, coarse] = STEPS;
        let card = self.glass.card_width();
        let card = match row {
            0 => card.saturating_sub(fine),
            1 => card.saturating_add(fine),
            2 => card.saturating_sub(coarse),
            _ => card.saturating_add(coarse),
        };
        self.glass = self.glass.with_card(card);
    }

    /// Each switch is pressed twice, so that one that was touched by chance isn't learned.
    fn switch(&mut self, button: Button) {
        self.notice = None;
        match self.at {
            At::First { heard: None } => self.at = At::First { heard: Some(button) },
            At::First { heard: Some(heard) } if heard == button => {
                self.go(At::Second { first: button, heard: None });
            }
            At::First { .. } => {
                self.caution(Message::SwitchOther, button);
                self.at = At::First { heard: Some(button) };
            }
            At::Second { first, .. } if first == button => {
                self.caution(Message::SwitchSame, button);
            }
            At::Second { first, heard: None } => {
                self.at = At::Second { first, heard: Some(button) };
            }
            At::Second { first, heard: Some(heard) } if heard == button => {
                self.go(At::Try { switches: (first, button), presses: (0, 0) });
            }
            At::Second { first, .. } => {
                self.caution(Message::SwitchOther, button);
                self.at = At::Second { first, heard: Some(button) };
            }
            At::Try { switches, presses: (first, second) } => {
                let presses = if button == switches.0 {
                    (first.saturating_add(1), second)
                } else if button == switches.1 {
                    (first, second.saturating_add(1))
                } else {
                    self.caution(Message::TryUnknown, button);
                    (first, second)
                };
                self.at = At::Try { switches, presses };
            }
            At::Elections { .. }
            | At::Checking { .. }
            | At::Checked { .. }
            | At::ComparedKeys
            | At::Card
            | At::Choose { .. }
            | At::Loudness
            | At::Keep
            | At::Keeping
            | At::Kept => {}
        }
    }

    fn caution(&mut self, message: Message, button: Button) {
        let line = Line::new(message).with("button", Arg::Button(button));
        self.notice = Some((Tone::Caution, line));
    }

    fn go(&mut self, at: At) {
        self.at = at;
        self.notice = None;
        self.focus = self.sheet().places().next();
    }

    /// The screen.
    pub fn sheet(&self) -> Sheet {
        let mut sheet = match self.at {
            At::Elections { .. } | At::Checking { .. } | At::Checked { .. } | At::ComparedKeys => {
                self.election()
            }
            At::Card => self.card(),
            At::First { heard } => {
                learning([Message::SwitchFirstHeading, Message::SwitchFirstPress], heard)
            }
            At::Second { heard, .. } => {
                learning([Message::SwitchSecondHeading, Message::SwitchSecondPress], heard)
            }
            At::Try { switches, presses } => trying(switches, presses),
            At::Choose { device, page } => self.equipment.choosing(device, page),
            At::Loudness => self.equipment.loudness_sheet(),
            At::Keep => self.keep(),
            At::Keeping => {
                let mut sheet = Sheet::blank(Message::KeepHeading);
                sheet.lines = vec![Line::new(Message::KeepWait)];
                sheet
            }
            At::Kept => {
                let mut sheet = Sheet::blank(Message::KeptHeading);
                sheet.lines = self.summary();
                sheet.lines.push(Line::new(Message::KeptLine));
                sheet.forward = Some(Line::new(Message::BarDone));
                sheet
            }
        };
        // That of the election comes first, where there is one.
        let more = u32::from(self.elections.is_some());
        sheet.place = self.step().map(|step| {
            let step = step.saturating_add(more);
            let steps = STEP_COUNT.saturating_add(more);
            let line = Line::new(Message::StepPlace).with("step", Arg::Number(step));
            line.with("steps", Arg::Number(steps))
        });
        if sheet.notice.is_none() {
            sheet.notice.clone_from(&self.notice);
        }
        sheet.focus = self.focus;
        sheet
    }

    /// Which step this is, that of the election being 0.
    const fn step(&self) -> Option<u32> {
        match self.at {
            At::Elections { .. } | At::Checking { .. } | At::Checked { .. } | At::ComparedKeys => {
                Some(0)
            }
            At::Card => Some(1),
            At::First { .. } => Some(2),
            At::Second { .. } | At::Try { .. } => Some(3),
            At::Choose { device, .. } => Some(device.step()),
            At::Loudness => Some(7),
            At::Keep | At::Keeping => Some(8),
            At::Kept => None,
        }
    }

    fn election(&self) -> Sheet {
        match (&self.elections, self.at) {
            (Some(elections), At::Checking { number }) => elections.checking(number),
            (Some(elections), At::Checked { .. }) => elections.shown(),
            (Some(elections), At::ComparedKeys) => elections.shown_keys(),
            (Some(elections), At::Elections { page }) => elections.choosing(page),
            // Without elections none of these screens is come to.
            (_, _) => self.card(),
        }
    }

    fn card(&self) -> Sheet {
        let mut sheet = Sheet::blank(Message::CardHeading);
        sheet.lines =
            vec![Line::new(Message::CardHold), Line::new(Message::CardMatch), self.size()];
        sheet.rows = [
            Message::CardNarrower,
            Message::CardWider,
            Message::CardMuchNarrower,
            Message::CardMuchWider,
        ]
        .map(Line::new)
        .into();
        sheet.card = Some((self.glass.card_width(), self.glass.card_height()));
        sheet.back = self.elections.is_some().then(|| Line::new(Message::BarBack));
        if self.glass.is_in_range() {
            sheet.forward = Some(Line::new(Message::BarNext));
        } else {
            let inches = Arg::Tenths(self.glass.tenths_of_inch());
            let line = Line::new(Message::CardOutOfRange).with("inches", inches);
            sheet.notice = Some((Tone::Caution, line));
        }
        sheet
    }

    fn size(&self) -> Line {
        let (width, height) = self.glass.millimetres();
        Line::new(Message::CardSize)
            .with("inches", Arg::Tenths(self.glass.tenths_of_inch()))
            .with("width", Arg::Number(width))
            .with("height", Arg::Number(height))
    }

    fn keep(&self) -> Sheet {
        let mut sheet = Sheet::blank(Message::KeepHeading);
        sheet.lines = self.summary();
        sheet.back = Some(Line::new(Message::BarBack));
        sheet.forward = Some(Line::new(Message::BarSave));
        sheet
    }

    fn summary(&self) -> Vec<Line> {
        let switches = match self.switches {
            Some((first, second)) => Line::new(Message::KeepSwitches)
                .with("first", Arg::Button(first))
                .with("second", Arg::Button(second)),
            None => Line::new(Message::KeepSwitchesUsual),
        };
        let elections = self.elections.as_ref();
        let mut lines: Vec<Line> =
            elections.map(|elections| elections.said(Message::KeepElection)).into_iter().collect();
        lines.extend([self.size(), switches]);
        lines.extend(self.equipment.summary());
        lines
    }
}

fn learning([heading, press]: [Message; 2], heard: Option<Button>) -> Sheet {
    let mut sheet = Sheet::blank(heading);
    sheet.lines = match heard {
        None => vec![Line::new(press), Line::new(Message::SwitchAnyRoad)],
        Some(button) => {
            vec![Line::new(Message::SwitchAgain).with("button", Arg::Button(button))]
        }
    };
    sheet.lines.push(Line::new(Message::SwitchEscape));
    let row = if heading == Message::SwitchFirstHeading {
        Message::SwitchSkip
    } else {
        Message::SwitchRestart
    };
    sheet.rows = vec![Line::new(row)];
    sheet.back = Some(Line::new(Message::BarBack));
    sheet.takes_switches = true;
    sheet
}

fn trying((first, second): (Button, Button), presses: (u32, u32)) -> Sheet {
    let mut sheet = Sheet::blank(Message::TryHeading);
    let count = |message, button, count| {
        Line::new(message).with("button", Arg::Button(button)).with("count", Arg::Number(count))
    };
    sheet.lines = vec![
        Line::new(Message::TryPress),
        count(Message::TryFirst, first, presses.0),
        count(Message::TrySecond, second, presses.1),
        Line::new(Message::SwitchEscape),
    ];
    sheet.rows = vec![Line::new(Message::SwitchRestart)];
    sheet.back = Some(Line::new(Message::BarBack));
    sheet.forward = (presses.0 > 0 && presses.1 > 0).then(|| Line::new(Message::BarNext));
    sheet.takes_switches = true;
    sheet
}

#[cfg(test)]
mod tests {
    use super::*;

    const A: Button = Button(1);
    const B: Button = Button(2);
    const C: Button = Button(3);

    fn begun() -> SetUp {
        SetUp::begin(Glass::new((1920, 1080), 276_700), None, Equipment::none(5))
    }

    /// From the screen of the first device to the one where it is kept.
    const THROUGH: [Input; 4] = [FORWARD; 4];

    fn give(set_up: &mut SetUp, inputs: &[Input]) -> Option<Output> {
        inputs.iter().fold(None, |_, input| set_up.handle(*input))
    }

    const FORWARD: Input = Input::Press(Command::Pick(Place::Forward));

    #[test]
    fn a_whole_set_up_keeps_what_was_measured_and_learned() {
        let mut set_up = begun();
        let wider = Input::Press(Command::Pick(Place::Row(1)));
        let much_narrower = Input::Press(Command::Pick(Place::Row(2)));
        give(&mut set_up, &[wider, wider, much_narrower]);
        assert_eq!(set_up.sheet().card, Some((301, 190)));
        let press = [A, A, B, B].map(Input::Switch);
        give(&mut set_up, &[FORWARD]);
        give(&mut set_up, &press);
        assert_eq!(set_up.sheet().forward, None, "not before both were tried");
        assert_eq!(give(&mut set_up, &[FORWARD]), None);
        give(&mut set_up, &[Input::Switch(A), Input::Switch(B), FORWARD]);
        give(&mut set_up, &THROUGH);
        let kept = give(&mut set_up, &[FORWARD]);
        let glass = Glass::new((1920, 1080), 276_700).with_card(301);
        let learned = Learned {
            glass,
            switches: Some((A, B)),
            devices: [None; 3],
            loudness: 5,
            election: Election::Kept,
        };
        assert_eq!(kept, Some(Output::Keep(learned)));
        give(&mut set_up, &[Input::Kept(false)]);
        assert_eq!(set_up.sheet().notice, Some((Tone::Fault, Line::new(Message::KeepFailed))));
        assert_eq!(give(&mut set_up, &[FORWARD]), kept, "it can be tried again");
        give(&mut set_up, &[Input::Kept(true)]);
        assert_eq!(set_up.sheet().heading.message, Message::KeptHeading);
        assert_eq!(give(&mut set_up, &[FORWARD]), Some(Output::Leave));
    }

    #[test]
    fn a_switch_is_learned_only_when_it_is_pressed_twice() {
        let mut set_up = begun();
        give(&mut set_up, &[FORWARD, Input::Switch(A), Input::Switch(B)]);
        let message = |set_up: &SetUp| set_up.sheet().notice.map(|(_, line)| line.message);
        assert_eq!(message(&set_up), Some(Message::SwitchOther));
        give(&mut set_up, &[Input::Switch(B)]);
        assert_eq!(set_up.sheet().heading.message, Message::SwitchSecondHeading);
        give(&mut set_up, &[Input::Switch(B)]);
        assert_eq!(message(&set_up), Some(Message::SwitchSame));
        give(&mut set_up, &[Input::Switch(C), Input::Switch(C), Input::Switch(A)]);
        assert_eq!(message(&set_up), Some(Message::TryUnknown));
    }

    fn named(number: u16, name: &str) -> Named {
        Named { number, name: name.into() }
    }

    #[test]
    fn devices_are_looked_for_chosen_and_kept() {
        let mut set_up = begun();
        let pick = |row| Input::Press(Command::Pick(Place::Row(row)));
        let looks = give(&mut set_up, &[FORWARD, pick(0)]);
        assert_eq!(looks, Some(Output::Look(Device::Printer)));
        assert_eq!(set_up.sheet().lines.last().unwrap().message, Message::DeviceLooking);
        set_up.found(Device::Printer, Some((0..6).map(|n| named(n, "printer")).collect()));
        // Four on a screen, then the others, then the first again.
        assert_eq!(set_up.sheet().rows.len(), 7);
        give(&mut set_up, &[pick(4)]);
        assert_eq!(set_up.sheet().rows.len(), 5);
        give(&mut set_up, &[pick(1)]);
        let looks = give(&mut set_up, &[FORWARD]);
        assert_eq!(looks, Some(Output::Look(Device::Scanner)));
        set_up.found(Device::Scanner, None);
        assert_eq!(set_up.sheet().lines.last().unwrap().message, Message::DeviceFailed);
        // What comes late or unasked changes no other screen.
        set_up.found(Device::Printer, Some(Vec::new()));
        assert_eq!(set_up.sheet().heading.message, Message::ScannerHeading);
        assert_eq!(give(&mut set_up, &[pick(1)]), Some(Output::Look(Device::Scanner)));
        assert_eq!(give(&mut set_up, &[pick(1)]), None, "one look at a time");
        set_up.found(Device::Scanner, Some(vec![named(9, "scanner")]));
        give(&mut set_up, &[pick(0), FORWARD]);
        set_up.found(Device::Headphones, Some(vec![named(3, "headphones")]));
        give(&mut set_up, &[pick(0), FORWARD, pick(1)]);
        let sound = give(&mut set_up, &[pick(2)]);
        assert_eq!(sound, Some(Output::Sound(Some(3), 4)));
        give(&mut set_up, &[Input::Sounded(false)]);
        let silent = (Tone::Fault, Line::new(Message::LoudnessSilent));
        assert_eq!(set_up.sheet().notice, Some(silent));
        let Some(Output::Keep(kept)) = give(&mut set_up, &[FORWARD, FORWARD]) else { panic!() };
        assert_eq!((kept.devices, kept.loudness), ([Some(5), Some(9), Some(3)], 4));
    }

    #[test]
    fn a_device_can_be_left_out_and_loudness_ends_at_both_ends() {
        let equipment = Equipment::new([Some(named(0, "old")), None, None], 5);
        let mut set_up = SetUp::begin(Glass::new((1920, 1080), 276_700), None, equipment);
        let pick = |row| Input::Press(Command::Pick(Place::Row(row)));
        give(&mut set_up, &[FORWARD, pick(0)]);
        set_up.found(Device::Printer, Some(Vec::new()));
        // What was chosen before stays, though it isn't there now, until somebody says otherwise.
        assert!(set_up.sheet().lines.iter().any(|line| line.message == Message::DeviceNow));
        give(&mut set_up, &[pick(0), FORWARD, FORWARD, FORWARD]);
        for _ in 0..20 {
            give(&mut set_up, &[pick(0)]);
        }
        let Some(Output::Sound(_, loudest)) = give(&mut set_up, &[pick(2)]) else { panic!() };
        for _ in 0..20 {
            give(&mut set_up, &[pick(1)]);
        }
        let Some(Output::Sound(_, softest)) = give(&mut set_up, &[pick(2)]) else { panic!() };
        assert_eq!((softest, loudest), (2, 7));
        let Some(Output::Keep(kept)) = give(&mut set_up, &[FORWARD, FORWARD]) else { panic!() };
        assert_eq!(kept.devices, [None; 3]);
    }

    #[test]
    fn a_screen_out_of_range_cant_be_kept() {
        let mut set_up = SetUp::begin(Glass::new((1024, 768), 180_000), None, Equipment::none(5));
        let sheet = set_up.sheet();
        assert_eq!(sheet.forward, None);
        give(&mut set_up, &[FORWARD, Input::Press(Command::Forward)]);
        assert_eq!(set_up.sheet().heading.message, Message::CardHeading);
    }

    #[test]
    fn keys_alone_reach_every_place_and_leave_every_screen() {
        let mut set_up = begun();
        let places = set_up.sheet().places().count();
        for _ in 0..places {
            give(&mut set_up, &[Input::Press(Command::Next)]);
        }
        assert_eq!(set_up.sheet().focus, Some(Place::Row(0)), "all around");
        let back = [Input::Press(Command::Previous), Input::Press(Command::Choose)];
        give(&mut set_up, &back);
        assert_eq!(set_up.sheet().heading.message, Message::SwitchFirstHeading);
        give(&mut set_up, &[Input::Press(Command::Back)]);
        assert_eq!(set_up.sheet().heading.message, Message::CardHeading);
    }
}
