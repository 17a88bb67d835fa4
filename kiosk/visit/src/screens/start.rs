//! The screens before the first contest: opening, languages, comfort, practice, how to vote.

use alloc::vec::Vec;

use super::{Content, action, chosen_state};
use crate::at::{At, WorkerReason};
use crate::turn::{Act, Setting};
use crate::visit::Visit;
use crate::{
    LOUDNESS_STEPS, LanguageIndex, Message, PACE_STEPS, Palette, Phrase, Row, RowKind, TextRef,
    TypeSize,
};

pub(super) fn opening(visit: &Visit) -> Content {
    let mut screen = Content::new(Phrase::of(TextRef::ElectionName));
    screen.lines = opening_lines(visit, visit.comfort.language);
    screen
        .action(Message::OpeningBegin, Act::Go(visit.first_step()))
        .action(Message::OpeningNotMine, Act::CallWorker(WorkerReason::NotMyBallot))
}

/// The first words, in one language: they are repeated in each in turn.
pub(crate) fn opening_lines(visit: &Visit, language: LanguageIndex) -> Vec<Phrase> {
    let mut lines = Vec::new();
    lines.push(Phrase::new(Message::OpeningHeading));
    lines.push(Phrase::new(Message::OpeningPrecinct).text("precinct", TextRef::Precinct));
    if visit.begin.style.party.is_some() {
        lines.push(Phrase::new(Message::OpeningParty).text("party", TextRef::Party));
    }
    lines.push(Phrase::new(Message::OpeningHow));
    lines.into_iter().map(|line| line.in_language(language)).collect()
}

pub(super) fn languages(visit: &Visit) -> Content {
    let mut screen = Content::titled(Message::LanguagesHeading);
    for index in (0..visit.begin.languages).map(LanguageIndex) {
        let is_chosen = index == visit.comfort.language;
        let row = Row {
            kind: RowKind::Oval { filled: is_chosen },
            label: Phrase::new(Message::LanguageName).in_language(index),
            detail: None,
            state: Some(chosen_state(is_chosen).in_language(index)),
        };
        screen = screen.row(row, Act::Set(Setting::Language(index)));
    }
    if visit.is_layered() {
        screen.forward(Message::BarDone, Act::Leave)
    } else {
        screen
            .back(Message::BarBack, Act::Go(Visit::opening_again()))
            .forward(Message::BarNext, Act::Go(At::Comfort))
    }
}

pub(super) fn comfort(visit: &Visit) -> Content {
    let now = &visit.comfort;
    let size = Phrase::new(size_message(now.size));
    let pace = setting_step(Message::PaceStep, now.pace, PACE_STEPS);
    let loudness = setting_step(Message::LoudnessStep, now.loudness, LOUDNESS_STEPS);
    let (hide, hidden) = if now.is_screen_hidden {
        (Message::ComfortShow, Message::ScreenIsHidden)
    } else {
        (Message::ComfortHide, Message::ScreenIsShown)
    };
    let with_state = |message, state: &Phrase| Row {
        state: Some(state.clone()),
        ..action(Phrase::new(message))
    };
    let mut screen = Content::titled(Message::ComfortHeading)
        .line(Message::ComfortLine)
        .row(with_state(Message::ComfortLarger, &size), Act::Set(Setting::Larger))
        .row(with_state(Message::ComfortSmaller, &size), Act::Set(Setting::Smaller))
        .row(
            with_state(Message::ComfortColours, &Phrase::new(palette_message(now.palette))),
            Act::Set(Setting::NextPalette),
        );
    screen = if now.speech {
        let on = Phrase::new(Message::SpeechIsOn);
        screen
            .row(with_state(Message::ComfortFaster, &pace), Act::Set(Setting::Faster))
            .row(with_state(Message::ComfortSlower, &pace), Act::Set(Setting::Slower))
            .row(with_state(Message::ComfortLouder, &loudness), Act::Set(Setting::Louder))
            .row(with_state(Message::ComfortSofter, &loudness), Act::Set(Setting::Softer))
            .row(with_state(Message::ComfortSpeechOff, &on), Act::Set(Setting::Speech(false)))
            .row(with_state(hide, &Phrase::new(hidden)), Act::HideOrShow)
    } else {
        let off = Phrase::new(Message::SpeechIsOff);
        screen.row(with_state(Message::ComfortSpeechOn, &off), Act::Set(Setting::Speech(true)))
    };
    screen = screen.action(Message::ComfortPresses, Act::Push(At::Presses));
    if visit.begin.languages > 1 {
        screen = screen.action(Message::ComfortLanguage, Act::Push(At::Languages));
    }
    if visit.is_layered() {
        screen.forward(Message::BarDone, Act::Leave)
    } else {
        let back = if visit.begin.languages > 1 { At::Languages } else { Visit::opening_again() };
        screen
            .back(Message::BarBack, Act::Go(back))
            .forward(Message::BarNext, Act::Go(At::Practice { chosen: None, was_refused: false }))
    }
}

/// Which of so many steps is in force.
pub(crate) fn setting_step(message: Message, now: u8, steps: u8) -> Phrase {
    Phrase::new(message).number("step", now.saturating_add(1)).number("steps", steps)
}

pub(crate) const fn size_message(size: TypeSize) -> Message {
    match size {
        TypeSize::Small => Message::SizeSmall,
        TypeSize::Medium => Message::SizeMedium,
        TypeSize::Large => Message::SizeLarge,
        TypeSize::Largest => Message::SizeLargest,
    }
}

pub(crate) const fn palette_message(palette: Palette) -> Message {
    match palette {
        Palette::DarkOnLight => Message::PaletteDarkOnLight,
        Palette::LightOnDark => Message::PaletteLightOnDark,
        Palette::YellowOnDark => Message::PaletteYellowOnDark,
        Palette::LowContrast => Message::PaletteLowContrast,
    }
}

/// The practice question's answers, in order.
pub(crate) const PRACTICE: [Message; 3] =
    [Message::PracticeFirst, Message::PracticeSecond, Message::PracticeThird];

pub(super) fn practice(chosen: Option<u8>, was_refused: bool) -> Content {
    let mut screen = Content::titled(Message::PracticeHeading).line(Message::PracticeLine);
    screen = screen.phrase(count_chosen(u32::from(chosen.is_some()), 1));
    if was_refused {
        screen = screen.line(Message::PracticeFull);
    }
    for (index, message) in (0u8..).zip(PRACTICE) {
        let is_chosen = chosen == Some(index);
        let row = Row {
            kind: RowKind::Oval { filled: is_chosen },
            label: Phrase::new(message),
            detail: None,
            state: Some(chosen_state(is_chosen)),
        };
        screen = screen.row(row, Act::Practise(index));
    }
    let forward = if chosen.is_some() { Message::BarNext } else { Message::BarSkip };
    screen.back(Message::BarBack, Act::Go(At::Comfort)).forward(forward, Act::EndPractice)
}

/// "You have chosen 1 of 3. You may choose 2 more."
pub(crate) fn count_chosen(chosen: u32, limit: u16) -> Phrase {
    let left = u32::from(limit).saturating_sub(chosen);
    Phrase::new(Message::CountChosen)
        .number("chosen", chosen)
        .number("limit", limit)
        .number("left", left)
}

pub(super) fn how_to() -> Content {
    let mut screen = Content::titled(Message::HowToHeading);
    for message in [
        Message::HowToChoose,
        Message::HowToUndo,
        Message::HowToLeave,
        Message::HowToReview,
        Message::HowToPaper,
    ] {
        screen = screen.passage(Phrase::new(message));
    }
    screen
        .back(Message::BarBack, Act::Go(At::Practice { chosen: None, was_refused: false }))
        .forward(Message::BarNext, Act::Go(Visit::first_contest()))
}
