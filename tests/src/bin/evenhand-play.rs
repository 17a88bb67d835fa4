//! Plays one visit through a window that is already open, and leaves what it saw in a folder.
//!
//! Used by `demo/run`: start `evenhand station --once --trace FILE …`, then this.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command line of the demo: it writes what it saw and says where"
)]

use std::fs;
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::Duration;

use clap::{Parser, ValueEnum};
use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_rules::{OptionKind, Rule, Style};
use evenhand_tests::pilot::{Mark, Pilot, Plan};
use evenhand_tests::player::{Road, Setup, play, transcript};
use evenhand_visit::LanguageIndex;

/// Plays one visit through the open window.
#[derive(Parser)]
struct Arguments {
    /// The election's folder.
    #[arg(long)]
    election: PathBuf,
    /// The ballot style's code.
    #[arg(long)]
    style: String,
    /// The voter's language.
    #[arg(long, default_value = "en")]
    language: String,
    /// The window's size in pixels.
    #[arg(long, default_value = "1080x1920")]
    window: String,
    /// How the presses come.
    #[arg(long, value_enum, default_value_t = By::Switches)]
    by: By,
    /// The file to which the window writes its trace.
    #[arg(long)]
    trace: PathBuf,
    /// The folder that the pictures and the transcript go to.
    #[arg(long)]
    to: PathBuf,
}

#[derive(Clone, Copy, ValueEnum)]
enum By {
    Switches,
    Keys,
    Mouse,
}

fn main() -> ExitCode {
    match run(&Arguments::parse()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(what) => {
            eprintln!("evenhand-play: {what}");
            ExitCode::FAILURE
        }
    }
}

fn run(arguments: &Arguments) -> Result<(), String> {
    let prepared = Prepared::load(&arguments.election, Some(&arguments.style), None)
        .map_err(|error| error.to_string())?;
    let (width, height) =
        arguments.window.split_once('x').ok_or("write the window's size as 1080x1920")?;
    let side = |text: &str| text.parse::<u16>().map_err(|error| error.to_string());
    let setup = Setup {
        size: (side(width)?, side(height)?),
        pitch: PixelPitch::USUAL,
        road: match arguments.by {
            By::Switches => Road::Switches,
            By::Keys => Road::Keys,
            By::Mouse => Road::Mouse,
        },
        display: std::env::var("DISPLAY").map_err(|_| "there is no DISPLAY")?,
        trace: Some(arguments.trace.clone()),
        pictures: Some(arguments.to.clone()),
        spoken: None,
        pause: Duration::ZERO,
    };
    let language = prepared
        .languages
        .iter()
        .position(|language| language.tag() == arguments.language)
        .and_then(|index| u8::try_from(index).ok())
        .ok_or("the station doesn't offer this language")?;
    let plan = Plan {
        language: Some(LanguageIndex(language)),
        contests: Some(some_of_everything(&prepared.style)),
    };
    let played = play(&prepared, &setup, Pilot::new(plan), &mut |_| {})?;
    let text = transcript(&played);
    let write = |name: &str, bytes: &[u8]| {
        let path = arguments.to.join(name);
        fs::write(&path, bytes).map_err(|error| format!("{}: {error}", path.display()))
    };
    write("screens-and-words.txt", text.as_bytes())?;
    write("asked-for.pdf", &played.document)?;
    println!("{} screens, {} presses", played.screens.len(), played.presses);
    Ok(())
}

/// A vote of some of everything: one, several, one written in, ranks; one contest left empty.
fn some_of_everything(style: &Style) -> Vec<Vec<Mark>> {
    let mut contests = Vec::new();
    let mut has_written = false;
    for (index, contest) in style.contests() {
        let listed: Vec<u16> = contest
            .indexed_options()
            .filter(|(_, option)| option.kind == OptionKind::Listed)
            .map(|(option, _)| option.0)
            .collect();
        let line = contest.indexed_options().find(|(_, option)| option.kind == OptionKind::WriteIn);
        let nth = |n: u16| {
            let at = usize::from(n) % listed.len().max(1);
            listed.get(at).copied().unwrap_or(0)
        };
        let mark = |option, rank| Mark { option, rank, name: None };
        contests.push(match contest.rule {
            // The fourth contest is left empty: an undervote is allowed, and said on the review.
            Rule::Choose { .. } if index.0 == 3 => Vec::new(),
            Rule::Choose { max } if max > 1 => {
                let mut marks = vec![mark(nth(0), None), mark(nth(2), None)];
                if let (false, Some((line, _))) = (has_written, line) {
                    has_written = true;
                    let name = Some("ANA O'NEILL".to_owned());
                    marks.push(Mark { option: line.0, rank: None, name });
                }
                marks
            }
            Rule::Choose { .. } => vec![mark(nth(index.0), None)],
            Rule::Rank { ranks } => {
                (1..=ranks.min(3)).map(|rank| mark(nth(u16::from(rank)), Some(rank))).collect()
            }
        });
    }
    contests
}
