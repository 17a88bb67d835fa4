//! What is said: the same phrases that are shown, in the order in which they are seen, the news
//! first.

use alloc::vec::Vec;

use crate::screens::{content, opening_lines};
use crate::visit::Visit;
use crate::{
    Arg, LanguageIndex, Message, Part, Phrase, Row, RowKind, ScreenKind, Target, Utterance, View,
};

/// Joins phrases to one utterance, with a pause after each group.
fn utterance(groups: Vec<Vec<Phrase>>) -> Utterance {
    let mut parts = Vec::new();
    for group in groups {
        let last = group.len().saturating_sub(1);
        for (index, phrase) in group.into_iter().enumerate() {
            parts.push(Part { phrase, pause: index == last });
        }
    }
    Utterance { parts, is_aside: false }
}

/// News alone. On the screen for listening they leave what is listened to where it is.
pub(crate) fn news(news: Vec<Phrase>, is_aside: bool) -> Utterance {
    Utterance { is_aside, ..utterance(alloc::vec![news]) }
}

/// A screen that has just been heard: its heading, and what has the focus.
pub(crate) fn returned(view: &View) -> Utterance {
    let mut groups = alloc::vec![alloc::vec![view.heading.clone()]];
    groups.extend(view.focus.map(|target| target_phrases(view, target)));
    groups.retain(|group| !group.is_empty());
    utterance(groups)
}

/// A whole screen on arriving: news, notice, place, heading, lines, rows, and what more there is.
pub(crate) fn arrival(visit: &Visit, view: &View, news: Vec<Phrase>) -> Utterance {
    let mut groups = alloc::vec![news];
    if let Some(notice) = &view.notice {
        groups.push(alloc::vec![notice.phrase.clone()]);
    }
    let mut head: Vec<Phrase> = view.place.iter().cloned().collect();
    head.push(view.heading.clone());
    groups.push(head);
    groups.extend(view.lines.iter().map(|line| alloc::vec![line.clone()]));
    let is_continuous = content(visit, &visit.top().at).is_continuous;
    let rows: Vec<(u16, &Row)> = if is_continuous {
        (0u16..).zip(&view.rows).skip(usize::from(view.page.first)).collect()
    } else {
        view.shown_rows().collect()
    };
    groups.extend(rows.into_iter().map(|(index, row)| row_phrases(view, index, row)));
    groups.extend(view.more_above.iter().map(|more| alloc::vec![more.clone()]));
    groups.extend(view.more_below.iter().map(|more| alloc::vec![more.clone()]));
    groups.retain(|group| !group.is_empty());
    utterance(groups)
}

/// All of a screen again: its state ("demo ballot") too.
pub(crate) fn again(visit: &Visit, view: &View) -> Utterance {
    let mut whole = arrival(visit, view, Vec::new());
    if let Some(words) = &view.state_words {
        whole.parts.push(Part { phrase: words.clone(), pause: true });
    }
    if view.is_covered {
        whole.parts.push(Part { phrase: Phrase::new(Message::ScreenIsHidden), pause: true });
    }
    whole
}

/// The opening's first words in one language.
pub(crate) fn opening(visit: &Visit, language: LanguageIndex) -> Utterance {
    let mut lines = opening_lines(visit, language);
    let words = visit.state_words().map(|words| words.in_language(language));
    lines.extend(words);
    utterance(lines.into_iter().map(|line| alloc::vec![line]).collect())
}

/// What has the focus, after any news.
pub(crate) fn focused(view: &View, news: Vec<Phrase>) -> Utterance {
    let target = match view.focus {
        Some(target) => target_phrases(view, target),
        None => Vec::new(),
    };
    let mut groups = alloc::vec![news, target];
    groups.retain(|group| !group.is_empty());
    let is_aside = view.screen == ScreenKind::Listen;
    Utterance { is_aside, ..utterance(groups) }
}

fn target_phrases(view: &View, target: Target) -> Vec<Phrase> {
    match target {
        Target::Row(index) => match view.rows.get(usize::from(index)) {
            Some(row) => row_phrases(view, index, row),
            None => Vec::new(),
        },
        Target::Key { row, key } => view
            .key_at(row, key)
            .map(|letter| Phrase::new(Message::KeyName).with("letter", Arg::Character(letter)))
            .into_iter()
            .collect(),
        Target::Block(block) => block_phrases(view, block),
        Target::BackOne(_) => alloc::vec![Phrase::new(Message::BlockBackOne)],
        Target::BlockStart(_) => alloc::vec![Phrase::new(Message::BlockStart)],
        Target::Group => {
            let labels = view.group().into_iter().filter_map(|target| view.bar_label(target));
            let items = labels.cloned().map(Arg::Phrase).collect();
            alloc::vec![Phrase::new(Message::Group).with("items", Arg::List(items))]
        }
        Target::MoreAbove => view.more_above.iter().cloned().collect(),
        Target::MoreBelow => view.more_below.iter().cloned().collect(),
        Target::Forward | Target::Back | Target::HearAgain | Target::Comfort | Target::Help => {
            view.bar_label(target).cloned().into_iter().collect()
        }
    }
}

/// A block: which rows it has, and the names of the first and the last.
fn block_phrases(view: &View, block: u16) -> Vec<Phrase> {
    let rows = |index: u16| view.rows.get(usize::from(index));
    let Some(block) = view.blocks.get(usize::from(block)) else { return Vec::new() };
    let (Some(first), Some(last)) = (rows(block.first), rows(block.last())) else {
        return Vec::new();
    };
    if block.count == 1 {
        return row_phrases(view, block.first, first);
    }
    let number = |index: u16| u32::from(index).saturating_add(1);
    let words = Phrase::new(Message::BlockRows)
        .number("first", number(block.first))
        .number("last", number(block.last()))
        .with("from", Arg::Phrase(first.label.clone()))
        .with("to", Arg::Phrase(last.label.clone()));
    alloc::vec![words]
}

/// A row: name, small print, state, then where it is among the others of its kind.
fn row_phrases(view: &View, index: u16, row: &Row) -> Vec<Phrase> {
    let mut phrases = alloc::vec![row.label.clone()];
    // State before small print: what a voter most wants to know comes first.
    phrases.extend(row.state.iter().cloned());
    phrases.extend(row.detail.iter().cloned());
    phrases.extend(position(view, index, row));
    phrases
}

fn position(view: &View, index: u16, row: &Row) -> Option<Phrase> {
    let is_option = |row: &Row| matches!(row.kind, RowKind::Oval { .. } | RowKind::Ranked { .. });
    let message = match row.kind {
        RowKind::Oval { .. } | RowKind::Ranked { .. } => Message::OptionPlace,
        RowKind::Summary => return None,
        RowKind::Action | RowKind::Keys(_) | RowKind::Passage | RowKind::Picture(..) => {
            return None;
        }
    };
    let total = view.rows.iter().filter(|row| is_option(row)).count();
    let number = view
        .rows
        .iter()
        .take(usize::from(index).saturating_add(1))
        .filter(|row| is_option(row))
        .count();
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    Some(Phrase::new(message).number("option", count(number)).number("options", count(total)))
}
