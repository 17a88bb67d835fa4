//! The sentences on the paper ballot that aren't the election's own.

use evenhand_rules::{BallotState, Contest, ContestKind, Language, Rank, Rule, Style};
use evenhand_sheet::{
    InstructionStep, InstructionTexts, NextPage, PagePlace, StepPicture, Wording,
};
use fluent::{FluentArgs, FluentValue};

use crate::catalogue::Sense;
use crate::{Catalogue, CatalogueError};

/// Every message of `paper.ftl`.
pub(crate) const IDS: [&str; 22] = [
    "paper-style",
    "paper-how-heading",
    "paper-how-fill",
    "paper-how-write",
    "paper-how-mistake",
    "paper-limit-one",
    "paper-limit-many",
    "paper-limit-any",
    "paper-limit-ranks",
    "paper-limit-measure",
    "paper-affects-party",
    "paper-affects-activation",
    "paper-rank-heading",
    "paper-write-in",
    "paper-continued",
    "paper-turn-over",
    "paper-next-sheet",
    "paper-last",
    "paper-sheet",
    "paper-date",
    "paper-state-test",
    "paper-state-demo",
];

/// The paper's words in the languages that the office prints for hand marking.
#[derive(Debug)]
pub struct PaperWords {
    catalogues: Vec<Catalogue>,
}

impl PaperWords {
    /// The paper's words in these languages.
    ///
    /// # Errors
    /// [`CatalogueError`] where a language has no messages or its messages are wrong.
    pub fn load(languages: &[Language]) -> Result<Self, CatalogueError> {
        let catalogues = languages.iter().map(Catalogue::shipped).collect::<Result<_, _>>()?;
        Ok(Self { catalogues })
    }

    fn words(&self, id: &str, language: &Language, args: &[(&'static str, Value<'_>)]) -> String {
        let mut fluent = FluentArgs::new();
        for (name, value) in args {
            fluent.set(
                *name,
                match value {
                    Value::Number(number) => FluentValue::from(*number),
                    Value::Text(text) => FluentValue::from((*text).to_owned()),
                },
            );
        }
        self.catalogues
            .iter()
            .find(|catalogue| catalogue.language() == language)
            .and_then(|catalogue| catalogue.words(id, &fluent, Sense::Seen))
            .unwrap_or_default()
    }
}

#[derive(Clone, Copy)]
enum Value<'a> {
    Number(u32),
    Text(&'a str),
}

impl Wording for PaperWords {
    fn instructions(&self, language: &Language) -> InstructionTexts {
        let step = |id, picture| InstructionStep { text: self.words(id, language, &[]), picture };
        InstructionTexts {
            title: self.words("paper-how-heading", language, &[]),
            steps: vec![
                step("paper-how-fill", StepPicture::FilledOval),
                step("paper-how-write", StepPicture::None),
                step("paper-how-mistake", StepPicture::None),
            ],
        }
    }

    fn limit(&self, contest: &Contest, language: &Language) -> String {
        let limit = [("limit", Value::Number(u32::from(contest.limit())))];
        let id = match (contest.rule, contest.kind) {
            (Rule::Rank { .. }, _) => "paper-limit-ranks",
            (Rule::Choose { .. }, _) if contest.is_approval => "paper-limit-any",
            (
                Rule::Choose { max: 1 },
                ContestKind::Measure | ContestKind::Retention | ContestKind::Activation,
            ) => "paper-limit-measure",
            (Rule::Choose { max: 1 }, _) => "paper-limit-one",
            (Rule::Choose { .. }, _) => "paper-limit-many",
        };
        self.words(id, language, &limit)
    }

    fn note(&self, style: &Style, contest: &Contest, language: &Language) -> String {
        let titles: Vec<&str> = contest
            .affects
            .iter()
            .filter_map(|at| style.contest(*at))
            .map(|affected| affected.title.shown.in_language(language))
            .collect();
        let count = u32::try_from(titles.len()).unwrap_or(u32::MAX);
        match contest.kind {
            ContestKind::StraightParty if count > 0 => {
                self.words("paper-affects-party", language, &[("count", Value::Number(count))])
            }
            ContestKind::Activation if count > 0 => {
                let separator = self.words("list-separator", language, &[]);
                let titles = titles.join(&separator);
                self.words(
                    "paper-affects-activation",
                    language,
                    &[("contests", Value::Text(&titles))],
                )
            }
            ContestKind::StraightParty
            | ContestKind::Activation
            | ContestKind::Office
            | ContestKind::Measure
            | ContestKind::Retention => String::new(),
        }
    }

    fn write_in(&self, _contest: &Contest, language: &Language) -> String {
        self.words("paper-write-in", language, &[])
    }

    fn rank_heading(&self, rank: Rank, language: &Language) -> String {
        self.words("paper-rank-heading", language, &[("rank", Value::Number(u32::from(rank.0)))])
    }

    fn continued(&self, title: &str, language: &Language) -> String {
        self.words("paper-continued", language, &[("title", Value::Text(title))])
    }

    fn date(&self, iso_date: &str, language: &Language) -> String {
        let mut parts = iso_date.split('-').map(str::parse::<u32>);
        let (Some(Ok(year)), Some(Ok(month)), Some(Ok(day))) =
            (parts.next(), parts.next(), parts.next())
        else {
            return iso_date.to_owned();
        };
        // The year as text: a number would be grouped in some languages.
        let year = year.to_string();
        let args = [
            ("year", Value::Text(&year)),
            ("month", Value::Number(month)),
            ("day", Value::Number(day)),
        ];
        self.words("paper-date", language, &args)
    }

    fn style_code(&self, code: &str, language: &Language) -> String {
        self.words("paper-style", language, &[("style", Value::Text(code))])
    }

    fn page_note(&self, place: PagePlace, language: &Language) -> String {
        let sheet = u32::from(place.sheet);
        let sheets =
            [("sheet", Value::Number(sheet)), ("sheets", Value::Number(u32::from(place.sheets)))];
        let here = self.words("paper-sheet", language, &sheets);
        let next = match place.next {
            NextPage::OtherSide => self.words("paper-turn-over", language, &[]),
            NextPage::NextSheet => {
                let following = [("sheet", Value::Number(sheet.saturating_add(1)))];
                self.words("paper-next-sheet", language, &following)
            }
            NextPage::End => self.words("paper-last", language, &[]),
        };
        format!("{here}. {next}")
    }

    fn stamp(&self, state: BallotState, language: &Language) -> String {
        match state {
            BallotState::Official => String::new(),
            BallotState::Test => self.words("paper-state-test", language, &[]),
            BallotState::Demo => self.words("paper-state-demo", language, &[]),
        }
    }
}
