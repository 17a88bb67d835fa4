//! A voter's whole journey as text: what is pressed in, what is shown and said out.
//!
//! A journey's file has comments (`#`), one `style:` line and one `rows:` line, inputs (`>`), and
//! under each input what came of it. The inputs are written by hand; the rest is made by
//! [`transcript`] and compared.

use std::fmt::Write as _;

use evenhand_rules::{
    ContestReading, Millis, OvalReading, Permille, Reading, Selections, Style, Verdict,
    WriteInReading,
};
use evenhand_visit::{
    Command, Input, Output, Phrase, PrintFault, ReadFault, RowKind, Target, Utterance, View,
};
use evenhand_words::Words;

use crate::pilot::towards;
use crate::stage::{Play, Rows, Stage};

/// The most presses that one `switch to` may take. More than the longest screen has items.
const TURNS_MAX: usize = 120;

/// Plays a journey's inputs and writes the whole file anew.
///
/// # Errors
/// A sentence with the line's number where an input isn't understood or can't be done.
pub fn transcript(stage: &Stage, source: &str) -> Result<String, String> {
    let mut text = String::new();
    let style = header(source, "style:")?;
    let rows = header(source, "rows:")?;
    let mut stand: Option<Stand<'_>> = None;
    for (number, line) in (1..).zip(source.lines()) {
        let at = |fault: String| format!("line {number}: {fault}");
        if let Some(input) = line.strip_prefix("> ") {
            let _ = writeln!(text, "{line}");
            match &mut stand {
                None if input == "begin" => {
                    let new = Stand::new(stage, usize::from(style), Rows(rows));
                    text.push_str(&new.told());
                    stand = Some(new);
                }
                None => return Err(at("the first input is `> begin`".into())),
                Some(stand) => text.push_str(&stand.input(input).map_err(at)?),
            }
        } else if line.starts_with('#') || line.starts_with("style:") || line.starts_with("rows:") {
            let _ = writeln!(text, "{line}");
        }
    }
    stand.ok_or("there is no input".to_owned())?;
    Ok(text)
}

fn header(source: &str, name: &str) -> Result<u16, String> {
    let line = source.lines().find_map(|line| line.strip_prefix(name));
    let number = line.and_then(|line| line.trim().parse().ok());
    number.ok_or(format!("there is no line \"{name} NUMBER\""))
}

/// A visit with the words to tell it in.
struct Stand<'a> {
    play: Play,
    words: Words,
    style: &'a Style,
    /// What was last sent to the printer: what a sheet in the reader would say.
    printed: Option<Selections>,
}

impl<'a> Stand<'a> {
    fn new(stage: &'a Stage, style: usize, rows: Rows) -> Self {
        let sheets = stage.ballot(style).sheet_count();
        Self {
            play: Play::begin(stage.begin(style, sheets), rows),
            words: stage.words(style),
            style: &stage.election.styles[style],
            printed: None,
        }
    }

    fn input(&mut self, input: &str) -> Result<String, String> {
        let (input, times) = match input.rsplit_once(" x") {
            Some((input, times)) if times.parse::<u16>().is_ok() => {
                (input, times.parse::<u16>().unwrap_or(1))
            }
            _ => (input, 1),
        };
        let mut text = String::new();
        for _ in 0..times {
            if let Some(wanted) = input.strip_prefix("switch to key ") {
                text.push_str(&self.key(wanted)?);
            } else if let Some(wanted) = input.strip_prefix("switch to ") {
                text.push_str(&self.switch(wanted)?);
            } else if let Some(wanted) = input.strip_prefix("touch ") {
                let target = self.target(wanted)?;
                self.give(Input::Press(Command::Pick(target)));
                text.push_str(&self.told());
            } else if let Some(at) = input.strip_prefix("at ") {
                // A moment in milliseconds: what follows happens then.
                self.play.now = Millis(at.parse().map_err(|_| format!("{at}: not a moment"))?);
            } else {
                let input = self.plain(input)?;
                self.give(input);
                text.push_str(&self.told());
            }
        }
        Ok(text)
    }

    fn give(&mut self, input: Input) {
        self.play.give(input);
        if let Some(selections) = self.play.asked_to_print() {
            self.printed = Some(selections);
        }
    }

    fn plain(&self, input: &str) -> Result<Input, String> {
        let press = |command| Ok(Input::Press(command));
        match input {
            "next" => press(Command::Next),
            "step" => press(Command::Step),
            "pause" => press(Command::Pause),
            "sentence back" => press(Command::SentenceBack),
            "sentence on" => press(Command::SentenceOn),
            "spell" => press(Command::Spell),
            "hide screen" => press(Command::HideScreen),
            "is hidden" => press(Command::IsHidden),
            "speech ended" => Ok(Input::SpeechEnded),
            "tick" => Ok(Input::Tick),
            "previous" => press(Command::Previous),
            "choose" => press(Command::Choose),
            "back" => press(Command::Back),
            "forward" => press(Command::Forward),
            "repeat" => press(Command::Repeat),
            "louder" => press(Command::Louder),
            "softer" => press(Command::Softer),
            "faster" => press(Command::Faster),
            "slower" => press(Command::Slower),
            "help" => press(Command::Help),
            "comfort" => press(Command::Comfort),
            "more above" => press(Command::MoreAbove),
            "more below" => press(Command::MoreBelow),
            "printed ok" => Ok(Input::Printed(Ok(()))),
            "printed out of paper" => Ok(Input::Printed(Err(PrintFault::OutOfPaper))),
            "printed jam" => Ok(Input::Printed(Err(PrintFault::Jam))),
            "printed offline" => Ok(Input::Printed(Err(PrintFault::Offline))),
            "printed not made" => Ok(Input::Printed(Err(PrintFault::NotMade))),
            "read same" => Ok(Input::Read(Ok(self.reading(false)?))),
            "read altered" => Ok(Input::Read(Ok(self.reading(true)?))),
            "read no sheet" => Ok(Input::Read(Err(ReadFault::NoSheet))),
            "read unreadable" => Ok(Input::Read(Err(ReadFault::Unreadable))),
            "read other ballot" => Ok(Input::Read(Err(ReadFault::OtherBallot))),
            "read print differs" => Ok(Input::Read(Err(ReadFault::PrintDiffers))),
            "speech lost" => Ok(Input::SpeechLost),
            "speech back" => Ok(Input::SpeechBack),
            _ => Err(format!("\"{input}\" isn't an input")),
        }
    }

    /// A reading of what was printed; altered, its first filled oval is empty.
    fn reading(&self, altered: bool) -> Result<Reading, String> {
        let printed = self.printed.as_ref().ok_or("nothing was printed yet")?;
        let mut reading = reading_of(self.style, printed);
        if altered {
            let mut ovals = reading.contests.iter_mut().flat_map(|contest| &mut contest.ovals);
            let first = ovals.find(|oval| oval.verdict == Verdict::Marked);
            first.ok_or("nothing is marked")?.verdict = Verdict::Empty;
        }
        Ok(reading)
    }

    fn seen(&self, phrase: &Phrase) -> String {
        self.words.seen(phrase, self.play.view.comfort.language)
    }

    /// The words of an item, as they are seen.
    fn label(&self, target: Target) -> Option<String> {
        let view = &self.play.view;
        let phrase = match target {
            Target::Row(row) => &view.rows.get(usize::from(row))?.label,
            Target::Key { row, key } => {
                let RowKind::Keys(keys) = &view.rows.get(usize::from(row))?.kind else {
                    return None;
                };
                return keys.get(usize::from(key)).map(char::to_string);
            }
            Target::MoreAbove => view.more_above.as_ref()?,
            Target::MoreBelow => view.more_below.as_ref()?,
            bar => view.bar_label(bar)?,
        };
        Some(self.seen(phrase))
    }

    fn target(&self, words: &str) -> Result<Target, String> {
        let targets = self.play.view.targets();
        let found = targets.iter().find(|target| self.label(**target).as_deref() == Some(words));
        found.copied().ok_or_else(|| {
            let there: Vec<String> = targets.iter().filter_map(|t| self.label(*t)).collect();
            format!("\"{words}\" isn't on the screen; there are: {}", there.join(" | "))
        })
    }

    /// Two switches: on to the item, then choose it. What is heard on the way stands on one line.
    fn switch(&mut self, words: &str) -> Result<String, String> {
        let wanted = self.target(words)?;
        self.turn_to(wanted)
    }

    fn key(&mut self, letter: &str) -> Result<String, String> {
        let letter = if letter == "space" { " " } else { letter };
        let place = (0u16..).zip(&self.play.view.rows).find_map(|(row, there)| {
            let RowKind::Keys(keys) = &there.kind else { return None };
            let key = keys.iter().position(|key| key.to_string() == letter)?;
            Some((row, u16::try_from(key).ok()?))
        });
        let (row, key) = place.ok_or(format!("there is no key {letter}"))?;
        self.turn_to(Target::Key { row, key })
    }

    fn turn_to(&mut self, wanted: Target) -> Result<String, String> {
        let mut heard = Vec::new();
        while self.play.view.focus != Some(wanted) {
            if heard.len() > TURNS_MAX {
                return Err(format!("{wanted:?} was never reached"));
            }
            let command = towards(&self.play.view, wanted).map_err(|fault| fault.to_string())?;
            self.play.press(command);
            let name = if command == Command::Step { "step" } else { "choose" };
            let said = self.play.out.iter().find_map(|output| match output {
                Output::Say(words) => Some(self.said(words, " ")),
                _ => None,
            });
            heard.push(format!("{name}: {}", said.unwrap_or_default()));
        }
        let mut text = String::new();
        for words in heard {
            let _ = writeln!(text, "  {words}");
        }
        let _ = writeln!(text, "  choose:");
        self.give(Input::Press(Command::Choose));
        text.push_str(&self.told());
        Ok(text)
    }

    fn said(&self, words: &Utterance, separator: &str) -> String {
        let language = self.play.view.comfort.language;
        let mut said = Vec::new();
        for part in &words.parts {
            for piece in self.words.heard(&part.phrase, language) {
                let language = piece.language.tag().to_owned();
                let pause = if part.pause { " /" } else { "" };
                said.push(format!("{language}: {}{pause}", piece.text));
            }
        }
        said.join(separator)
    }

    /// What came of the last input, a line each.
    fn told(&self) -> String {
        let mut text = String::new();
        for output in &self.play.out {
            let line = match output {
                Output::Show(view) => shown(view, self),
                Output::Say(words) => self.said(words, "\n    "),
                Output::Hush => "hush".to_owned(),
                Output::Listen(listen) => format!("listen {listen:?}"),
                Output::SoundTone => "tone".to_owned(),
                Output::Print(selections) => printed(self.style, selections),
                Output::ReadSheets => "read sheets".to_owned(),
                Output::Record(event) => format!("record {event:?}"),
                Output::WakeAt(Millis(at)) => format!("wake at {at}"),
                Output::End => "end".to_owned(),
            };
            let _ = writeln!(text, "    {line}");
        }
        text
    }
}

/// A screen in one line: its kind, what has the focus, what it warns of.
fn shown(view: &View, stand: &Stand<'_>) -> String {
    let focus = view.focus.and_then(|target| stand.label(target));
    let focus = focus.map_or(String::from("nothing"), |label| format!("\"{label}\""));
    let hidden = match (view.is_hidden, view.is_covered) {
        (true, _) => ", hidden",
        (false, true) => ", hidden by the voter",
        (false, false) => "",
    };
    let notice = view.notice.as_ref().map_or(String::new(), |notice| {
        format!(", {:?} notice \"{}\"", notice.tone, stand.seen(&notice.phrase))
    });
    format!("[{:?}{hidden}{notice}] focus on {focus}", view.screen)
}

/// What was sent to the printer, by places: `contest.option` or `contest.option=rank`, from 1.
fn printed(style: &Style, selections: &Selections) -> String {
    let ovals: Vec<String> = selections
        .ovals(style)
        .iter()
        .map(|oval| {
            let rank = oval.rank.map_or(String::new(), |rank| format!("={}", rank.0));
            let name = selections.written(oval.contest, oval.option);
            let name = name.map_or(String::new(), |name| format!(" \"{}\"", name.as_str()));
            format!("{}.{}{rank}{name}", oval.contest.0 + 1, oval.option.0 + 1)
        })
        .collect();
    let ovals = if ovals.is_empty() { "nothing".to_owned() } else { ovals.join(", ") };
    format!("print {ovals}")
}

/// What a perfect sheet with these selections would be read as.
pub fn reading_of(style: &Style, selections: &Selections) -> Reading {
    let wanted = selections.ovals(style);
    let mut reading = Reading { contests: Vec::new(), write_ins: Vec::new() };
    for (contest, definition) in style.contests() {
        let ovals = definition.ovals(contest).into_iter().map(|oval| {
            let is_marked = wanted.contains(&oval);
            OvalReading {
                oval,
                darkness: Permille(if is_marked { 1000 } else { 0 }),
                verdict: if is_marked { Verdict::Marked } else { Verdict::Empty },
                margin: Permille(500),
            }
        });
        reading.contests.push(ContestReading { contest, ovals: ovals.collect() });
        for (option, _) in definition.indexed_options() {
            let Some(name) = selections.written(contest, option) else { continue };
            let name = name.as_str().trim();
            let inked = !name.is_empty() && selections.is_marked(contest, option);
            let text = inked.then(|| name.to_owned());
            reading.write_ins.push(WriteInReading { contest, option, inked, text });
        }
    }
    reading
}
