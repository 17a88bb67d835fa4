//! The screens of one contest: its options, its limit, its ranks, its full text.

use alloc::vec::Vec;

use evenhand_rules::{
    Contest, ContestIndex, ContestKind, ContestOption, LowerRanks, OptionIndex, OptionKind, Rank,
    Rule, WriteInText,
};

use super::start::count_chosen;
use super::{Content, action, chosen_state, passage};
use crate::at::At;
use crate::turn::Act;
use crate::visit::Visit;
use crate::{Arg, Message, Phrase, Row, RowKind, TextRef};

pub(super) fn contest(visit: &Visit, contest: ContestIndex, from_review: bool) -> Content {
    let mut screen = Content::new(Phrase::of(TextRef::Title(contest)));
    screen.place = Some(place(visit, contest));
    let Some(definition) = visit.begin.style.contest(contest) else { return screen };
    if visit.begin.style.header_of(contest).is_some() {
        screen = screen.phrase(Phrase::of(TextRef::Header(contest)));
    }
    if visit.begin.style.header_opened_by(contest).is_some_and(|header| header.content.is_some()) {
        screen = screen.phrase(Phrase::of(TextRef::HeaderContent(contest)));
    }
    if definition.subtitle.is_some() {
        screen = screen.phrase(Phrase::of(TextRef::Subtitle(contest)));
    }
    if definition.summary.is_some() {
        screen = screen.phrase(Phrase::of(TextRef::Summary(contest)));
    }
    screen = screen.phrase(limit_phrase(definition)).phrase(count(visit, contest, definition));
    if let Some(affects) = affects_phrase(definition) {
        screen = screen.phrase(affects);
    }
    for (option, listed) in definition.indexed_options() {
        let row = option_row(visit, contest, definition, option, listed);
        screen = screen.row(row, Act::Take(contest, option));
    }
    if !definition.full_text.is_empty() {
        screen = screen.action(Message::ReadFullText, Act::Push(At::FullText { contest }));
    }
    if from_review {
        return screen.forward(Message::BarToReview, Act::Go(At::Review));
    }
    screen
        .back(Message::BarBack, Act::Go(Visit::before(contest)))
        .forward(Message::BarNext, Act::Go(visit.after(contest)))
}

/// "Contest 3 of 18".
fn place(visit: &Visit, contest: ContestIndex) -> Phrase {
    Phrase::new(Message::ContestPlace)
        .number("contest", u32::from(contest.0).saturating_add(1))
        .number("contests", visit.begin.style.contest_count())
}

/// How many may be marked, in words.
fn limit_phrase(definition: &Contest) -> Phrase {
    match (definition.rule, definition.kind) {
        (Rule::Rank { ranks }, _) => Phrase::new(Message::LimitRanks).number("limit", ranks),
        (Rule::Choose { .. }, _) if definition.is_approval => Phrase::new(Message::LimitAny),
        (
            Rule::Choose { max: 1 },
            ContestKind::Measure | ContestKind::Retention | ContestKind::Activation,
        ) => Phrase::new(Message::LimitMeasure),
        (Rule::Choose { max: 1 }, _) => Phrase::new(Message::LimitOne),
        (Rule::Choose { max }, _) => Phrase::new(Message::LimitMany).number("limit", max),
    }
}

/// How many are marked and how many are left, in words.
pub(crate) fn count(visit: &Visit, contest: ContestIndex, definition: &Contest) -> Phrase {
    let chosen = u32::from(visit.selections.count(contest));
    match definition.rule {
        Rule::Choose { max } => count_chosen(chosen, max),
        Rule::Rank { ranks } => Phrase::new(Message::CountRanked)
            .number("chosen", chosen)
            .number("limit", ranks)
            .number("left", u32::from(ranks).saturating_sub(chosen)),
    }
}

fn affects_phrase(definition: &Contest) -> Option<Phrase> {
    let count = u32::try_from(definition.affects.len()).ok().filter(|count| *count > 0)?;
    let message = match definition.kind {
        ContestKind::StraightParty => Message::AffectsParty,
        ContestKind::Activation => Message::AffectsActivation,
        ContestKind::Office | ContestKind::Measure | ContestKind::Retention => return None,
    };
    let titles: Vec<Arg> =
        definition.affects.iter().map(|contest| Arg::Text(TextRef::Title(*contest))).collect();
    Some(Phrase::new(message).number("count", count).with("contests", Arg::List(titles)))
}

fn option_row(
    visit: &Visit,
    contest: ContestIndex,
    definition: &Contest,
    option: OptionIndex,
    listed: &ContestOption,
) -> Row {
    let label = option_phrase(visit, contest, option);
    let detail = listed.detail.as_ref().map(|_| Phrase::of(TextRef::OptionDetail(contest, option)));
    match definition.rule {
        Rule::Choose { .. } => {
            let filled = visit.selections.is_marked(contest, option);
            let state = Some(chosen_state(filled));
            Row { kind: RowKind::Oval { filled }, label, detail, state }
        }
        Rule::Rank { ranks } => {
            let rank = visit.selections.rank_of(&visit.begin.style, contest, option);
            let state = match rank {
                Some(rank) => Phrase::new(Message::StateRank).number("rank", rank.0),
                None => Phrase::new(Message::StateNoRank),
            };
            Row { kind: RowKind::Ranked { ranks, rank }, label, detail, state: Some(state) }
        }
    }
}

/// An option's name; for a write-in line, what is written on it.
pub(crate) fn option_phrase(visit: &Visit, contest: ContestIndex, option: OptionIndex) -> Phrase {
    let kind = visit.begin.style.contest(contest).and_then(|c| c.option(option)).map(|o| o.kind);
    match kind {
        Some(OptionKind::WriteIn) => match visit.selections.written(contest, option) {
            Some(name) if !name.is_blank() => {
                Phrase::new(Message::WriteInNamed).with("name", Arg::Written(name.clone()))
            }
            _ if visit.selections.is_marked(contest, option) => Phrase::new(Message::WriteInBlank),
            _ => Phrase::new(Message::WriteInRow),
        },
        Some(OptionKind::Listed) | None => Phrase::of(TextRef::OptionName(contest, option)),
    }
}

pub(super) fn limit(visit: &Visit, contest: ContestIndex, wanted: OptionIndex) -> Content {
    let limit = visit.begin.style.contest(contest).map_or(0, Contest::limit);
    let mut screen = Content::new(Phrase::new(Message::LimitHeading).number("limit", limit))
        .phrase(
            Phrase::new(Message::LimitLine)
                .with("wanted", Arg::Phrase(option_phrase(visit, contest, wanted))),
        );
    screen.place = Some(Phrase::of(TextRef::Title(contest)));
    for chosen in visit.selections.marked(contest) {
        let row = action(
            Phrase::new(Message::UndoOption)
                .with("name", Arg::Phrase(option_phrase(visit, contest, chosen))),
        );
        screen = screen.row(row, Act::UndoAtLimit(contest, chosen));
    }
    screen.back(Message::BarKeep, Act::Leave)
}

/// The ranks of a contest, each with the option that holds it.
fn ranks(visit: &Visit, contest: ContestIndex) -> Vec<(Rank, Option<OptionIndex>)> {
    let count = visit.begin.style.contest(contest).map_or(0, Contest::limit);
    (1..=u8::try_from(count).unwrap_or(u8::MAX))
        .map(Rank)
        .map(|rank| (rank, visit.selections.at_rank(contest, rank)))
        .collect()
}

pub(super) fn rank_pick(
    visit: &Visit,
    contest: ContestIndex,
    option: OptionIndex,
    name: Option<&WriteInText>,
) -> Content {
    let name = match name {
        Some(name) if !name.is_blank() => {
            Phrase::new(Message::WriteInNamed).with("name", Arg::Written(name.clone()))
        }
        _ => option_phrase(visit, contest, option),
    };
    let mut screen =
        Content::new(Phrase::new(Message::RankPickHeading).with("name", Arg::Phrase(name)));
    screen.place = Some(Phrase::of(TextRef::Title(contest)));
    for (rank, holder) in ranks(visit, contest) {
        screen = match holder {
            None => screen.row(
                action(Phrase::new(Message::RankFree).number("rank", rank.0)),
                Act::Rank(contest, option, rank),
            ),
            Some(holder) => screen.row(passage(taken(visit, contest, rank, holder)), Act::Nothing),
        };
    }
    screen.back(Message::BarBack, Act::Leave)
}

fn taken(visit: &Visit, contest: ContestIndex, rank: Rank, holder: OptionIndex) -> Phrase {
    Phrase::new(Message::RankTaken)
        .number("rank", rank.0)
        .with("name", Arg::Phrase(option_phrase(visit, contest, holder)))
}

pub(super) fn rank_change(visit: &Visit, contest: ContestIndex, option: OptionIndex) -> Content {
    let rank = visit.selections.rank_of(&visit.begin.style, contest, option).map_or(0, |r| r.0);
    let mut screen = Content::new(
        Phrase::new(Message::RankChangeHeading)
            .number("rank", rank)
            .with("name", Arg::Phrase(option_phrase(visit, contest, option))),
    );
    screen.place = Some(Phrase::of(TextRef::Title(contest)));
    screen = screen.action(Message::RankUndo, Act::UndoRank(contest, option));
    for (rank, holder) in ranks(visit, contest) {
        if holder.is_none() {
            let row = action(Phrase::new(Message::RankMove).number("rank", rank.0));
            screen = screen.row(row, Act::MoveRank(contest, option, rank));
        }
    }
    if matches!(visit.selections.written(contest, option), Some(name) if !name.is_blank()) {
        let name = visit.selections.written(contest, option).cloned().unwrap_or_default();
        screen =
            screen.action(Message::WriteInEdit, Act::Swap(At::WriteIn { contest, option, name }));
    }
    screen.back(Message::BarKeep, Act::Leave)
}

pub(super) fn lower_ranks(contest: ContestIndex, option: OptionIndex) -> Content {
    Content::titled(Message::LowerHeading)
        .line(Message::LowerLine)
        .action(Message::LowerMoveUp, Act::UndoRankAnd(contest, option, LowerRanks::MoveUp))
        .action(Message::LowerStay, Act::UndoRankAnd(contest, option, LowerRanks::Stay))
        .back(Message::BarKeep, Act::Leave)
}

pub(super) fn full_text(visit: &Visit, contest: ContestIndex) -> Content {
    let mut screen =
        Content::new(Phrase::new(Message::FullTextHeading).text("title", TextRef::Title(contest)));
    let paragraphs =
        visit.begin.style.contest(contest).map_or(0, |definition| definition.full_text.len());
    for paragraph in 0..u16::try_from(paragraphs).unwrap_or(u16::MAX) {
        screen = screen.passage(Phrase::of(TextRef::Paragraph(contest, paragraph)));
    }
    screen.is_continuous = true;
    screen.back(Message::BarBack, Act::Leave)
}
