//! Ballot styles: contests in their order, options in that style's order, headers between them.

use std::collections::{BTreeMap, BTreeSet};

use evenhand_rules::{Contest, ContestIndex, Header, Item, Name, RefusedStyle, Style, Text};

use crate::book::{Book, HeaderWords, found, in_list};
use crate::classes::{BallotStyle, OrderedContest, OrderedHeader};
use crate::contest::{Entry, Unsupported};
use crate::error::{DefinitionError, Fault};
use crate::limits::{
    CONTESTS_A_STYLE_MAX, HEADER_DEPTH_MAX, HEADERS_A_STYLE_MAX, NAME_LEN_MAX,
    PARTIES_AN_OPTION_MAX, UNITS_A_STYLE_MAX,
};
use crate::lines::Step;
use crate::object::{Object, short};
use crate::words;

/// Every contest of the file by its id.
pub(crate) type Contests<'a> = BTreeMap<String, Entry<'a>>;

/// A style that can be marked here, or one that can't.
pub(crate) enum Outcome {
    Markable(Style),
    Refused(RefusedStyle),
}

/// Reads one style.
pub(crate) fn style(
    object: Object<'_>,
    book: &Book,
    contests: &Contests<'_>,
) -> Result<Outcome, DefinitionError> {
    let read: BallotStyle = object.read()?;
    let code = code(object, &read)?;
    let precinct = precinct(object, book, &read, &code)?;
    object.hold("PartyIds", "parties", read.party_ids.len(), PARTIES_AN_OPTION_MAX)?;
    let parties = book.parties(object, "PartyIds", &read.party_ids)?;
    let party = (!parties.is_empty()).then(|| words::joined(&parties, ", "));

    let mut order = Order::new(object, book, contests);
    order.take(object, None, 0)?;
    if order.seen.is_empty() {
        return Err(object.fault("OrderedContent", Fault::NoContests));
    }
    if let Some(Unsupported { contest, reason }) = order.refused {
        return Ok(Outcome::Refused(RefusedStyle { style: code, contest, reason }));
    }
    let mut items = order.items;
    set_affects(&mut items, contests);
    Ok(Outcome::Markable(Style { code, units: read.gp_unit_ids, precinct, party, items }))
}

/// The style's code: the office's own (`local-level`) identifier, else its first one, else the
/// first unit's id.
fn code(object: Object<'_>, read: &BallotStyle) -> Result<String, DefinitionError> {
    let given = &read.external_identifier;
    let local = given.iter().position(|code| code.kind == "local-level").unwrap_or(0);
    if let Some(identifier) = given.get(local) {
        let mut steps = in_list("ExternalIdentifier", local).to_vec();
        steps.push(Step::Field("Value".into()));
        return words::plain(&identifier.value, NAME_LEN_MAX)
            .map_err(|fault| object.fault_at(&steps, fault));
    }
    Ok(read.gp_unit_ids.first().cloned().unwrap_or_default())
}

/// The names of the style's units. A style for several says them all: which one the voter lives
/// in isn't known here. A unit without a name goes by the style's code, where the office gave one.
fn precinct(
    object: Object<'_>,
    book: &Book,
    read: &BallotStyle,
    code: &str,
) -> Result<Text, DefinitionError> {
    let field = "GpUnitIds";
    object.hold(field, "units", read.gp_unit_ids.len(), UNITS_A_STYLE_MAX)?;
    object.each_once(field, &read.gp_unit_ids)?;
    let mut names = Vec::new();
    for (index, id) in read.gp_unit_ids.iter().enumerate() {
        let steps = in_list(field, index);
        let name = match book.unit(object, &steps, id)? {
            Some(name) => name.clone(),
            None if read.external_identifier.is_empty() => {
                return Err(object.fault_at(&steps, Fault::NamelessUnit));
            }
            None => Text::new(vec![(book.first.clone(), code.to_owned())]),
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    if names.is_empty() {
        return Err(object.fault(field, Fault::NoUnits));
    }
    Ok(words::joined(&names, ", "))
}

/// The order of one style, while it is read.
struct Order<'b, 'a> {
    style: Object<'a>,
    book: &'b Book,
    contests: &'b Contests<'a>,
    items: Vec<Item>,
    headers: usize,
    seen: BTreeSet<String>,
    refused: Option<Unsupported>,
    /// The header that stands last in `items`: readers take it for that of the next contest.
    standing: Option<Heading>,
}

/// A header in a style's order.
#[derive(Clone, PartialEq)]
struct Heading {
    id: String,
    words: HeaderWords,
}

impl<'b, 'a> Order<'b, 'a> {
    fn new(style: Object<'a>, book: &'b Book, contests: &'b Contests<'a>) -> Self {
        Self {
            style,
            book,
            contests,
            items: Vec::new(),
            headers: 0,
            seen: BTreeSet::new(),
            refused: None,
            standing: None,
        }
    }

    /// Takes in the `OrderedContent` of a style or header. A header with content of its own covers
    /// that; one without (as in NIST's prim-01) covers what follows it on its level.
    fn take(
        &mut self,
        holder: Object<'a>,
        cover: Option<Heading>,
        depth: usize,
    ) -> Result<(), DefinitionError> {
        let mut cover = cover;
        for entry in holder.list("OrderedContent", &["OrderedContest", "OrderedHeader"])? {
            if entry.class() == "OrderedContest" {
                self.contest(entry, cover.as_ref())?;
                continue;
            }
            let heading = self.header(entry)?;
            if !entry.has("OrderedContent") {
                cover = Some(heading);
            } else if depth >= HEADER_DEPTH_MAX {
                return Err(entry.fault_of(Fault::HeadersTooDeep));
            } else {
                self.take(entry, Some(heading), depth.saturating_add(1))?;
            }
        }
        Ok(())
    }

    fn header(&mut self, entry: Object<'a>) -> Result<Heading, DefinitionError> {
        let read: OrderedHeader = entry.read()?;
        let steps = [Step::Field("HeaderId".into())];
        let words = self.book.header(entry, &steps, &read.header_id)?.clone();
        self.headers = self.headers.saturating_add(1);
        self.style.hold("OrderedContent", "headers", self.headers, HEADERS_A_STYLE_MAX)?;
        let heading = Heading { id: read.header_id, words };
        self.stand(&heading);
        Ok(heading)
    }

    fn stand(&mut self, heading: &Heading) {
        let HeaderWords { name, content } = heading.words.clone();
        self.items.push(Item::Header(Header { name: Name::plain(name), content }));
        self.standing = Some(heading.clone());
    }

    fn contest(
        &mut self,
        entry: Object<'a>,
        cover: Option<&Heading>,
    ) -> Result<(), DefinitionError> {
        let read: OrderedContest = entry.read()?;
        let steps = [Step::Field("ContestId".into())];
        let found = found(self.contests, "contest", entry, &steps, &read.contest_id)?;
        if !self.seen.insert(read.contest_id.clone()) {
            let id = short(&read.contest_id);
            return Err(entry.fault("ContestId", Fault::Repeated { id }));
        }
        self.style.hold("OrderedContent", "contests", self.seen.len(), CONTESTS_A_STYLE_MAX)?;
        let contest = match &found.contest {
            Ok(contest) => ordered(contest, entry, &read.ordered_contest_option_ids)?,
            Err(unsupported) => {
                self.refused.get_or_insert(unsupported.clone());
                return Ok(());
            }
        };
        match (cover, &self.standing) {
            (Some(cover), standing) if standing.as_ref() != Some(cover) => self.stand(cover),
            (None, Some(standing)) => {
                let first = &self.book.first;
                self.refused.get_or_insert(Unsupported {
                    contest: format!("{} ({})", contest.title.shown.in_language(first), contest.id),
                    reason: format!(
                        "it stands under no header, right after what the header \"{}\" covers; \
                         readers would take it for a part of that. Give it a header of its own",
                        standing.words.name.in_language(first)
                    ),
                });
            }
            _ => {}
        }
        self.items.push(Item::Contest(contest));
        Ok(())
    }
}

/// The contest with its options as a style orders them: all of them, each once.
fn ordered(
    contest: &Contest,
    entry: Object<'_>,
    order: &[String],
) -> Result<Contest, DefinitionError> {
    let field = "OrderedContestOptionIds";
    if order.is_empty() {
        return Ok(contest.clone());
    }
    entry.each_once(field, order)?;
    let mut options = Vec::new();
    for (index, id) in order.iter().enumerate() {
        let option = contest.options.iter().find(|option| option.id == *id).ok_or_else(|| {
            let fault = Fault::OrderOfAnother { id: short(id), contest: contest.id.clone() };
            entry.fault_at(&in_list(field, index), fault)
        })?;
        options.push(option.clone());
    }
    if let Some(missed) = contest.options.iter().find(|option| !order.contains(&option.id)) {
        return Err(entry.fault(field, Fault::OrderMisses { id: missed.id.clone() }));
    }
    Ok(Contest { options, ..contest.clone() })
}

/// Fills in which contests of this style each one controls.
fn set_affects(items: &mut [Item], contests: &Contests<'_>) {
    let places: BTreeMap<String, ContestIndex> = items
        .iter()
        .filter_map(|item| match item {
            Item::Contest(contest) => Some(contest.id.clone()),
            Item::Header(_) => None,
        })
        .zip((0u16..).map(ContestIndex))
        .collect();
    for item in items {
        let Item::Contest(contest) = item else { continue };
        let Some(entry) = contests.get(&contest.id) else { continue };
        let mut affects: Vec<ContestIndex> =
            entry.controls.iter().filter_map(|id| places.get(id).copied()).collect();
        affects.sort_unstable();
        contest.affects = affects;
    }
}
