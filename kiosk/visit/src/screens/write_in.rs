//! The screens of a write-in: the keyboard, a name left empty, a name already written.

use evenhand_rules::{ContestIndex, OptionIndex, WRITE_IN_CHARACTERS, WriteInText};

use super::{Content, action};
use crate::at::At;
use crate::turn::Act;
use crate::visit::Visit;
use crate::{Arg, Message, Phrase, Row, RowKind, TextRef};

/// How many keys each row has, the rest of the letters in rows of six. Of all alphabetical rows these
/// need the fewest presses to a row and then to a letter: 5.2 a letter on average, where six to a row
/// need 5.4 (computed over English letter frequencies, from memory, for names of 15 letters).
const KEYS_OF_ROWS: [usize; 5] = [7, 6, 5, 8, 4];
const KEYS_OF_OTHER_ROWS: usize = 6;

pub(super) fn write_in(contest: ContestIndex, option: OptionIndex, name: &WriteInText) -> Content {
    let mut screen = Content::titled(Message::WriteInHeading).line(Message::WriteInLine);
    screen.place = Some(Phrase::of(TextRef::Title(contest)));
    screen = screen.phrase(if name.as_str().is_empty() {
        Phrase::new(Message::WriteInNothing)
    } else {
        Phrase::new(Message::WriteInSoFar).with("name", Arg::Written(name.clone()))
    });
    let mut keys = WRITE_IN_CHARACTERS.chars().peekable();
    let mut counts = KEYS_OF_ROWS.into_iter();
    while keys.peek().is_some() {
        let count = counts.next().unwrap_or(KEYS_OF_OTHER_ROWS);
        let row: alloc::vec::Vec<char> = keys.by_ref().take(count).collect();
        let (first, last) = (row.first().copied(), row.last().copied());
        let label = Phrase::new(Message::KeysRow)
            .with("first", Arg::Character(first.unwrap_or(' ')))
            .with("last", Arg::Character(last.unwrap_or(' ')));
        let row = Row { kind: RowKind::Keys(row), label, detail: None, state: None };
        screen = screen.row(row, Act::Nothing);
    }
    screen
        .action(Message::WriteInDelete, Act::DeleteLetter)
        .action(Message::WriteInSpell, Act::Spell)
        .row(action(Phrase::new(Message::WriteInFinish)), Act::FinishName(contest, option))
        .back(Message::BarBack, Act::Leave)
}

pub(super) fn blank(contest: ContestIndex, option: OptionIndex) -> Content {
    Content::titled(Message::BlankHeading)
        .line(Message::BlankLine)
        .action(
            Message::BlankWrite,
            Act::Swap(At::WriteIn { contest, option, name: WriteInText::new() }),
        )
        .action(Message::BlankKeep, Act::KeepBlank(contest, option))
        .action(Message::BlankUndo, Act::UndoWriteIn(contest, option))
        .back(
            Message::BarBack,
            Act::Swap(At::WriteIn { contest, option, name: WriteInText::new() }),
        )
}

pub(super) fn change(visit: &Visit, contest: ContestIndex, option: OptionIndex) -> Content {
    let name = visit.selections.written(contest, option).cloned().unwrap_or_default();
    let mut screen = Content::titled(Message::WriteInChangeHeading);
    screen.place = Some(Phrase::of(TextRef::Title(contest)));
    screen
        .phrase(super::contest::option_phrase(visit, contest, option))
        .action(Message::WriteInEdit, Act::Swap(At::WriteIn { contest, option, name }))
        .action(Message::WriteInUndo, Act::UndoWriteIn(contest, option))
        .back(Message::BarKeep, Act::Leave)
}
