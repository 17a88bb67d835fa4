//! What an office defines: elections, ballot styles, contests and their options.

use alloc::string::String;
use alloc::vec::Vec;

use crate::{ContestIndex, Language, Name, OptionIndex, OvalId, Rank, Text};

/// What a ballot that is marked here is good for; said on every screen and sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BallotState {
    /// An official ballot of a sealed, opened election.
    Official,
    /// A ballot of a sealed election in test.
    Test,
    /// A ballot of an election that nobody has sealed.
    Demo,
}

/// One election with every style that can be marked here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Election {
    /// The election's name.
    pub name: Text,
    /// The jurisdiction that holds it (SP 1500-20 `Issuer` or the scope's name).
    pub jurisdiction: Text,
    /// The day of the election as ISO 8601 (`2027-05-04`).
    pub date: String,
    /// True where the definition says that this election is a test.
    pub is_test: bool,
    /// First eight bytes of the definition's SHA-256: names the election in the sheet's code.
    pub fingerprint: [u8; 8],
    /// Every language that the whole of the ballot is in, the definition's first language first.
    pub languages: Vec<Language>,
    /// The styles that this station can mark.
    pub styles: Vec<Style>,
    /// The styles that it can't, and why. They are never offered.
    pub refused: Vec<RefusedStyle>,
}

/// A style that is in the definition and can't be marked here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RefusedStyle {
    /// The style's code or place.
    pub style: String,
    /// The contest that is the cause.
    pub contest: String,
    /// The reason in plain English, for the office.
    pub reason: String,
}

/// A ballot style: the contests that one group of voters may vote in, in their order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Style {
    /// The style's own short code (SP 1500-20 `ExternalIdentifier`, else its unit's id).
    pub code: String,
    /// Ids of the units (precincts, splits) that use this style.
    pub units: Vec<String>,
    /// The precinct as voters know it.
    pub precinct: Text,
    /// The party of a closed primary's ballot.
    pub party: Option<Text>,
    /// Headers and contests in ballot order.
    pub items: Vec<Item>,
}

/// A heading over contests, with what is said under it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Header {
    /// The heading.
    pub name: Name,
    /// What is said to voters under it, once, before the first contest.
    pub content: Option<Text>,
}

/// A header or a contest on a ballot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Item {
    /// A heading over the contests that follow.
    Header(Header),
    /// A contest.
    Contest(Contest),
}

impl Style {
    /// The contests in ballot order.
    pub fn contests(&self) -> impl Iterator<Item = (ContestIndex, &Contest)> {
        let contests = self.items.iter().filter_map(|item| match item {
            Item::Contest(contest) => Some(contest),
            Item::Header(_) => None,
        });
        (0u16..).map(ContestIndex).zip(contests)
    }
    /// The contest at this place.
    pub fn contest(&self, at: ContestIndex) -> Option<&Contest> {
        self.contests().nth(usize::from(at.0)).map(|(_, contest)| contest)
    }
    /// How many contests there are.
    pub fn contest_count(&self) -> u16 {
        u16::try_from(self.contests().count()).unwrap_or(u16::MAX)
    }
    /// The header that stands over this contest, if any.
    pub fn header_of(&self, at: ContestIndex) -> Option<&Header> {
        self.header_and_place_of(at).0
    }
    /// The header that this contest is the first one under, if any: its content is said here.
    pub fn header_opened_by(&self, at: ContestIndex) -> Option<&Header> {
        let (header, is_first) = self.header_and_place_of(at);
        header.filter(|_| is_first)
    }
    fn header_and_place_of(&self, at: ContestIndex) -> (Option<&Header>, bool) {
        let mut header = None;
        let mut is_first = false;
        let mut seen = 0u16;
        for item in &self.items {
            match item {
                Item::Header(next) => (header, is_first) = (Some(next), true),
                Item::Contest(_) if seen == at.0 => return (header, is_first),
                Item::Contest(_) => {
                    is_first = false;
                    seen = seen.saturating_add(1);
                }
            }
        }
        (None, false)
    }
    /// Every oval of this style in the order of the paper.
    pub fn ovals(&self) -> Vec<OvalId> {
        self.contests().flat_map(|(index, contest)| contest.ovals(index)).collect()
    }
}

/// What a contest asks for. It decides the wording; [`Rule`] decides what may be marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ContestKind {
    /// One or more people for an office.
    Office,
    /// A question with an answer.
    Measure,
    /// Whether one officer stays.
    Retention,
    /// One party whose people the voter wants wherever the contest allows.
    StraightParty,
    /// A question whose answer decides whether other contests count (a recall).
    Activation,
}

/// How many may be marked, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Up to `max` options, each at most once (n-of-m; approval has `max` = all).
    Choose {
        /// The most that may be chosen; at least 1.
        max: u16,
    },
    /// Ranks 1 to `ranks`, each for one option, each option at most one.
    Rank {
        /// The number of ranks; at least 1.
        ranks: u8,
    },
}

/// A contest as one style shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contest {
    /// The definition's `@id`.
    pub id: String,
    /// The office or the question's title.
    pub title: Name,
    /// A second line under the title.
    pub subtitle: Option<Name>,
    /// What kind of question it is.
    pub kind: ContestKind,
    /// True where any number may be chosen (approval), which is worded otherwise.
    pub is_approval: bool,
    /// What may be marked.
    pub rule: Rule,
    /// A short text of the question, where there is one.
    pub summary: Option<Text>,
    /// The whole text, a paragraph an entry, where there is one.
    pub full_text: Vec<Text>,
    /// The contests whose counting this one affects (straight party, activation).
    pub affects: Vec<ContestIndex>,
    /// The options in this style's order.
    pub options: Vec<ContestOption>,
}

impl Contest {
    /// The option at this place.
    pub fn option(&self, at: OptionIndex) -> Option<&ContestOption> {
        self.options.get(usize::from(at.0))
    }
    /// The options with their places.
    pub fn indexed_options(&self) -> impl Iterator<Item = (OptionIndex, &ContestOption)> {
        (0u16..).map(OptionIndex).zip(&self.options)
    }
    /// The most options that may be marked in this contest.
    pub fn limit(&self) -> u16 {
        match self.rule {
            Rule::Choose { max } => max,
            Rule::Rank { ranks } => u16::from(ranks),
        }
    }
    /// This contest's ovals: option by option, and within an option rank by rank.
    pub fn ovals(&self, contest: ContestIndex) -> Vec<OvalId> {
        let mut ovals = Vec::new();
        for (option, _) in self.indexed_options() {
            match self.rule {
                Rule::Choose { .. } => ovals.push(OvalId { contest, option, rank: None }),
                Rule::Rank { ranks } => ovals.extend((1..=ranks).map(|rank| OvalId {
                    contest,
                    option,
                    rank: Some(Rank(rank)),
                })),
            }
        }
        ovals
    }
}

/// Whether an option is printed with a name or with a line to write one on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OptionKind {
    /// A named candidate, ticket, party or answer.
    Listed,
    /// A line for a name that isn't listed.
    WriteIn,
}

/// One option of a contest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ContestOption {
    /// The definition's `@id`.
    pub id: String,
    /// Listed or a write-in line.
    pub kind: OptionKind,
    /// The people or the answer: one name, or a ticket's names in their order. Empty for write-ins.
    pub names: Vec<Name>,
    /// Party, endorsements or other small print beside the name.
    pub detail: Option<Text>,
}
