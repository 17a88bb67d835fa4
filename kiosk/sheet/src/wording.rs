//! Every sentence that the sheet prints and that isn't the election's own. The sheet knows none of
//! them: whoever composes brings a [`Wording`].

use alloc::string::String;
use alloc::vec::Vec;

use evenhand_rules::{BallotState, Contest, Language, Rank, Style};

use crate::Side;

/// What the office prints for hand marking: its languages and the sentences that go with them.
///
/// It never depends on the voter at the station, or the sheet would tell who marked it.
#[derive(Clone, Copy)]
pub struct Edition<'a> {
    /// The languages on paper, one or two. The first is set in bold where both stand together.
    pub languages: &'a [Language],
    /// The sentences.
    pub wording: &'a dyn Wording,
}

/// Where a page comes in its ballot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PagePlace {
    /// The sheet, from 1.
    pub sheet: u8,
    /// How many sheets there are.
    pub sheets: u8,
    /// The side.
    pub side: Side,
    /// Where the ballot goes on.
    pub next: NextPage,
}

/// Where a ballot goes on after a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NextPage {
    /// On the other side of this sheet.
    OtherSide,
    /// On another sheet.
    NextSheet,
    /// Nowhere: this is the last page.
    End,
}

/// The instructions at the head of the ballot, in one language.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct InstructionTexts {
    /// A short heading.
    pub title: String,
    /// The steps, in order. Every language of an edition has the same number.
    pub steps: Vec<InstructionStep>,
}

/// One step of the instructions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InstructionStep {
    /// What to do.
    pub text: String,
    /// What is drawn at its left; taken from the edition's first language.
    pub picture: StepPicture,
}

/// A small picture beside an instruction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepPicture {
    /// Nothing.
    None,
    /// An empty oval.
    EmptyOval,
    /// A filled oval.
    FilledOval,
}

/// Words for everything that the sheet prints and that isn't the election's own.
///
/// Each call is for one language. An empty text prints nothing.
pub trait Wording {
    /// The instructions at the head of the first page.
    fn instructions(&self, language: &Language) -> InstructionTexts;
    /// How many may be marked in a contest ("Vote for up to 3").
    fn limit(&self, contest: &Contest, language: &Language) -> String;
    /// What else a voter must know of a contest, such as what a straight-party choice affects.
    fn note(&self, style: &Style, contest: &Contest, language: &Language) -> String;
    /// The label at a write-in line.
    fn write_in(&self, contest: &Contest, language: &Language) -> String;
    /// The heading over a column of ranks ("1st choice").
    fn rank_heading(&self, rank: Rank, language: &Language) -> String;
    /// The title of a contest that goes on in another column, from its own title.
    fn continued(&self, title: &str, language: &Language) -> String;
    /// The day of the election, from ISO 8601.
    fn date(&self, iso_date: &str, language: &Language) -> String;
    /// The line that names the style by its code ("Ballot style 12").
    fn style_code(&self, code: &str, language: &Language) -> String;
    /// The note at the foot of a page: which sheet and side, and where to go on.
    fn page_note(&self, place: PagePlace, language: &Language) -> String;
    /// What stands in the stamp's area, such as "Test ballot"; nothing on an official ballot.
    fn stamp(&self, state: BallotState, language: &Language) -> String;
}
