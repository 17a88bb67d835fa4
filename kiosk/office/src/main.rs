//! The command line for the election office: says what a definition holds, prints the blank
//! edition that is marked by hand, and seals elections.
//!
//! What it must not know: a visit, a voter, a selection. It uses the same crates as the station and
//! has no window.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command line opens the files that it is told to and prints"
)]

mod election;
mod keys;
mod log;
mod seal;
mod software;
mod worker;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{Parser, Subcommand};
use evenhand_definitions::Coverage;
use evenhand_rules::{BallotState, Item, Language, OptionKind, Style};
use evenhand_sheet::{Edition, compose};
use evenhand_words::{PaperWords, SpokenTexts};

use crate::election::{OfficeError, Opened};

/// The election office's tools for Evenhand. Not certified equipment: election law and officials
/// decide what may be used.
#[derive(Parser)]
#[command(name = "evenhand-office", version)]
struct Arguments {
    #[command(subcommand)]
    task: Task,
}

#[derive(Subcommand)]
enum Task {
    /// Check an election's folder and say what is in it.
    Check {
        /// The folder with definition.json.
        election: PathBuf,
    },
    /// List every text that is heard in one language, a line each, for whoever records them: whole
    /// texts, and the parts of sentences with a number or a name.
    Texts {
        /// The folder with definition.json.
        election: PathBuf,
        /// The language, as a BCP 47 tag.
        #[arg(long)]
        language: String,
        /// Only those that sound/list.json has no recording of.
        #[arg(long)]
        missing: bool,
    },
    /// Make the blank ballot of one style, as it is printed for hand marking.
    Blank {
        /// The folder with definition.json.
        election: PathBuf,
        /// The style's code, as `check` lists it.
        #[arg(long)]
        style: String,
        /// The file to write.
        #[arg(long)]
        to: PathBuf,
    },
    /// Verify, export or show a station's event log.
    Log {
        #[command(subcommand)]
        task: log::LogTask,
    },
    /// Compare a station's programs and its sealed election with the published list. Run a copy of
    /// this program that came another way than what it looks at: a changed one can say anything.
    Compare(software::Compare),
    #[command(flatten)]
    Seal(seal::SealTask),
    /// Make or show the list of those who may work at the stations, with the hashes of their codes.
    Worker {
        #[command(subcommand)]
        task: worker::WorkerTask,
    },
}

fn main() -> ExitCode {
    let done = match Arguments::parse().task {
        Task::Check { election } => check(&election),
        Task::Texts { election, language, missing } => texts(&election, &language, missing),
        Task::Blank { election, style, to } => blank(&election, &style, &to),
        Task::Log { task } => log::run(task).map_err(OfficeError::from),
        Task::Compare(task) => software::compare(&task).map_err(OfficeError::from),
        Task::Seal(task) => seal::run(task).map_err(OfficeError::from),
        Task::Worker { task } => worker::run(task).map_err(OfficeError::from),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn check(folder: &Path) -> Result<(), OfficeError> {
    let opened = Opened::from_folder(folder)?;
    let election = opened.loaded.election();
    let first = &opened.settings.default_language;
    println!("{}, {}", election.name.in_language(first), election.date);
    println!("Not sealed: every screen and sheet says \"demo\".");
    let languages: Vec<&str> = election.languages.iter().map(Language::tag).collect();
    println!("Languages of the whole ballot: {}", languages.join(", "));
    for (index, style) in (0u16..).zip(&election.styles) {
        let ballot = opened.compose(index, style)?;
        println!(
            "Style {}: {}; {} contests, {} ovals, {} write-in lines; {} sheet(s), {} page(s)",
            style.code,
            style.precinct.in_language(first),
            style.contest_count(),
            style.ovals().len(),
            write_in_lines(style),
            ballot.sheet_count(),
            ballot.pages.len(),
        );
    }
    report_streets(&opened);
    report_sound(&opened, folder)?;
    for place in &opened.unshown {
        println!("Neither shown nor printed: {place}");
    }
    for refused in &election.refused {
        println!("Refused: style {}: {}: {}", refused.style, refused.contest, refused.reason);
    }
    Ok(())
}

/// By how many streets workers find ballots, and which ballots they don't find so.
fn report_streets(opened: &Opened) {
    let (streets, election) = (&opened.streets, opened.loaded.election());
    if streets.rows().is_empty() {
        println!("Streets: none. Workers find a ballot by precinct, party or code.");
        return;
    }
    println!("Streets: {}, in {} rows.", streets.street_count(), streets.rows().len());
    for style in streets.styles_without_streets(election) {
        println!("No street leads to style {}: it is found by precinct alone.", style.code);
    }
    let by_hand = streets.rows().iter().filter(|row| row.styles.is_empty()).count();
    if by_hand > 0 {
        println!(
            "{by_hand} rows lead to styles that are refused: their voters mark by hand, and stations don't show these rows."
        );
    }
}

/// What will be heard in each language that voters may choose.
fn report_sound(opened: &Opened, folder: &Path) -> Result<(), OfficeError> {
    let election = opened.loaded.election();
    let seconds = opened.check_recordings(folder)?;
    println!(
        "Sound: {} recordings, {:.0} minutes. Their pace is as it is: the voter's pace changes the synthetic voice only.",
        opened.sound.entries().len(),
        (seconds / 60.0).ceil()
    );
    let mut used = 0;
    for language in opened.settings.offered(election) {
        let spoken = SpokenTexts::of(election, language)?;
        let has_voice = Coverage::has_usual_voice(language);
        let coverage = Coverage::of(&opened.sound, language, &spoken.texts, has_voice);
        used += coverage.recorded + coverage.generated;
        println!("Heard in {coverage}");
    }
    let others = opened.sound.entries().len().saturating_sub(used);
    if others > 0 {
        println!(
            "{others} recordings are of none of these texts: of whole sentences with a number or a name, of a text's part, or of a text that has changed since."
        );
    }
    Ok(())
}

fn texts(folder: &Path, tag: &str, is_missing_only: bool) -> Result<(), OfficeError> {
    let opened = Opened::from_folder(folder)?;
    let language = Language::new(tag);
    for text in SpokenTexts::of(opened.loaded.election(), &language)?.texts {
        if !is_missing_only || opened.sound.find(&text, &language).is_none() {
            println!("{text}");
        }
    }
    Ok(())
}

fn write_in_lines(style: &Style) -> usize {
    let contests = style.items.iter().filter_map(|item| match item {
        Item::Contest(contest) => Some(contest),
        Item::Header(_) => None,
    });
    contests.flat_map(|c| &c.options).filter(|o| o.kind == OptionKind::WriteIn).count()
}

fn blank(folder: &Path, code: &str, to: &Path) -> Result<(), OfficeError> {
    let opened = Opened::from_folder(folder)?;
    let styles = &opened.loaded.election().styles;
    let found = (0u16..).zip(styles).find(|(_, style)| style.code == code);
    let Some((index, style)) = found else {
        return Err(OfficeError::NoSuchStyle {
            wanted: code.to_owned(),
            there: styles.iter().map(|style| style.code.clone()).collect::<Vec<_>>().join(", "),
        });
    };
    let ballot = opened.compose(index, style)?;
    let bytes = evenhand_print::pdf(&ballot, None)
        .map_err(|error| OfficeError::Print(error.to_string()))?;
    std::fs::write(to, &bytes).map_err(|error| OfficeError::Write(to.to_owned(), error))?;
    println!("Wrote {} ({} pages).", to.display(), ballot.pages.len());
    Ok(())
}

impl Opened {
    fn compose(&self, index: u16, style: &Style) -> Result<evenhand_sheet::Ballot, OfficeError> {
        let wording = PaperWords::load(&self.settings.printed_languages)?;
        let edition = Edition { languages: &self.settings.printed_languages, wording: &wording };
        compose(self.loaded.election(), style, index, &edition, BallotState::Demo)
            .map_err(|error| OfficeError::Compose(style.code.clone(), error.to_string()))
    }
}
