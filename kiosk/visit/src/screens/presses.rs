//! How switches and presses are taken, what suits a voter's own presses, and hiding the screen.

use super::start::setting_step;
use super::{Content, action};
use crate::at::At;
use crate::turn::{Act, Setting};
use crate::visit::Visit;
use crate::{ACCEPT_STEPS, IGNORE_STEPS, Message, Phrase, Pressing, Row, SCAN_STEPS, Switches};

pub(super) fn presses(visit: &Visit) -> Content {
    let now = visit.comfort.pressing;
    let row = |message, state: Phrase| Row { state: Some(state), ..action(Phrase::new(message)) };
    let (other, to) = match now.switches {
        Switches::Two => (Message::OneSwitch, Switches::One),
        Switches::One => (Message::TwoSwitches, Switches::Two),
    };
    let mut screen = Content::titled(Message::PressesHeading).line(Message::PressesLine).row(
        row(other, Phrase::new(switches_message(now.switches))),
        Act::Set(Setting::Switches(to)),
    );
    if now.switches == Switches::One {
        screen = screen
            .row(row(Message::ScanSlower, scan_step(now)), Act::Set(Setting::ScanSlower))
            .row(row(Message::ScanFaster, scan_step(now)), Act::Set(Setting::ScanFaster));
    }
    screen
        .row(row(Message::IgnoreLonger, ignore_step(now)), Act::Set(Setting::IgnoreLonger))
        .row(row(Message::IgnoreShorter, ignore_step(now)), Act::Set(Setting::IgnoreShorter))
        .row(row(Message::AcceptLonger, accept_step(now)), Act::Set(Setting::AcceptLonger))
        .row(row(Message::AcceptShorter, accept_step(now)), Act::Set(Setting::AcceptShorter))
        .forward(Message::BarDone, Act::Leave)
}

pub(crate) const fn switches_message(switches: Switches) -> Message {
    match switches {
        Switches::Two => Message::HasTwoSwitches,
        Switches::One => Message::HasOneSwitch,
    }
}

pub(crate) fn scan_step(now: Pressing) -> Phrase {
    setting_step(Message::ScanStep, now.scan, steps(&SCAN_STEPS))
}

pub(crate) fn accept_step(now: Pressing) -> Phrase {
    setting_step(Message::AcceptStep, now.accept, steps(&ACCEPT_STEPS))
}

pub(crate) fn ignore_step(now: Pressing) -> Phrase {
    setting_step(Message::IgnoreStep, now.ignore, steps(&IGNORE_STEPS))
}

fn steps(list: &[u64]) -> u8 {
    u8::try_from(list.len()).unwrap_or(u8::MAX)
}

/// What the practice question has seen, and what would suit.
pub(super) fn offer(visit: &Visit, offered: Pressing) -> Content {
    let now = visit.comfort.pressing;
    let mut screen = Content::titled(Message::OfferHeading);
    for (differs, message) in [
        (offered.ignore != now.ignore, Message::OfferIgnore),
        (offered.accept != now.accept, Message::OfferAccept),
        (offered.scan != now.scan, Message::OfferScan),
    ] {
        if differs {
            screen = screen.line(message);
        }
    }
    screen
        .action(Message::OfferYes, Act::TakeOffer(offered))
        .action(Message::OfferNo, Act::Go(At::HowTo))
        .back(Message::BarBack, Act::Go(At::Practice { chosen: None, was_refused: false }))
}

pub(super) fn ask_hide() -> Content {
    Content::titled(Message::AskHideHeading)
        .line(Message::AskHideLine)
        .action(Message::AskHideYes, Act::HideOrShow)
        .action(Message::AskHideNo, Act::Leave)
        .back(Message::BarBack, Act::Leave)
}
