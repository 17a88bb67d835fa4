//! Listening sentence by sentence, and the question whether more time is needed.

use evenhand_rules::OptionKind;

use super::{Content, action};
use crate::at::At;
use crate::turn::Act;
use crate::visit::{Layer, Visit};
use crate::{Arg, Listen, Message, Phrase, TextRef};

pub(super) fn listen(visit: &Visit) -> Content {
    let pause = if visit.is_paused { Message::ListenGoOn } else { Message::ListenPause };
    let mut screen = Content::titled(Message::ListenHeading)
        .action(Message::ListenOn, Act::Listen(Listen::On))
        .action(Message::ListenBack, Act::Listen(Listen::Back))
        .action(pause, Act::Pause)
        .action(Message::ListenStart, Act::HearFromStart);
    if spelled(visit, visit.layer_below()).is_some() {
        screen = screen.action(Message::ListenSpell, Act::SpellFocused);
    }
    screen
        .action(Message::ListenHidden, Act::TellHidden)
        .forward(Message::BarDone, Act::EndListening)
}

/// The letters of the name that has, or had last, the focus on a screen of a contest.
pub(crate) fn spelled(visit: &Visit, layer: &Layer) -> Option<Arg> {
    let At::Contest { contest, .. } = layer.at else { return None };
    let row = layer.last_row?;
    let definition = visit.begin.style.contest(contest)?;
    let (option, listed) = definition.indexed_options().find(|(option, _)| option.0 == row)?;
    match listed.kind {
        OptionKind::Listed => Some(Arg::SpelledText(TextRef::OptionName(contest, option))),
        OptionKind::WriteIn => {
            let name = visit.selections.written(contest, option)?;
            (!name.is_blank()).then(|| Arg::Spelled(name.clone()))
        }
    }
}

pub(super) fn more_time() -> Content {
    Content::titled(Message::MoreTimeHeading)
        .line(Message::MoreTimeLine)
        .row(action(Phrase::new(Message::MoreTimeYes)), Act::Leave)
}
