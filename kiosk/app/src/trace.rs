//! A file in which tests see what the window shows: for each shown screen its kind and where the
//! focus is, then `settled` when it has been drawn. It holds no label and no choice, and is to be had
//! in a demo or a test only. `Screens` is the same for a worker's screens.
#![expect(clippy::disallowed_methods, reason = "a test's file")]

use std::fmt::Write as _;
use std::fs::File;
use std::io::{self, Write as _};
use std::path::Path;

use evenhand_duty::Sheet;
use evenhand_speech::Fault;
use evenhand_visit::{Target, View};

/// How the line for lost speech begins; why follows.
pub const SPEECH_LOST: &str = "speech lost";
/// The line for speech that came back.
pub const SPEECH_BACK: &str = "speech back";

/// The file.
#[derive(Debug)]
pub struct Trace {
    file: File,
}

impl Trace {
    /// Writes to a new file at `path`.
    ///
    /// # Errors
    /// The file can't be made.
    pub fn to_file(path: &Path) -> io::Result<Self> {
        Ok(Self { file: File::create(path)? })
    }

    /// Notes a view that is to be drawn.
    ///
    /// # Errors
    /// The file can't be written.
    pub fn shown(&mut self, view: &View) -> io::Result<()> {
        writeln!(self.file, "{}", line(view))
    }

    /// Notes that there is no speech and why (none: the language has no voice): the screens that
    /// follow say so.
    ///
    /// # Errors
    /// The file can't be written.
    pub fn speech_lost(&mut self, fault: Option<Fault>) -> io::Result<()> {
        match fault {
            Some(fault) => writeln!(self.file, "{SPEECH_LOST} {fault:?}"),
            None => writeln!(self.file, "{SPEECH_LOST} NoVoice"),
        }
    }

    /// Notes that there is speech again.
    ///
    /// # Errors
    /// The file can't be written.
    pub fn speech_back(&mut self) -> io::Result<()> {
        writeln!(self.file, "{SPEECH_BACK}")
    }

    /// Notes that the view shown last has been drawn and handed to the display.
    ///
    /// # Errors
    /// The file can't be written.
    pub fn settled(&mut self) -> io::Result<()> {
        writeln!(self.file, "settled")
    }
}

/// A file in which tests see which of a worker's screens is shown, and what can be taken there.
#[derive(Debug)]
pub(crate) struct Screens(Option<File>);

impl Screens {
    /// Writes to a new file at `path`; nothing without one.
    ///
    /// # Errors
    /// The file can't be made.
    pub(crate) fn to_file(path: Option<&Path>) -> io::Result<Self> {
        Ok(Self(path.map(File::create).transpose()?))
    }

    /// Notes a screen as `heading | notice | going on | rows`: ids of messages, no names.
    ///
    /// # Errors
    /// The file can't be written.
    pub(crate) fn shown(&mut self, sheet: &Sheet) -> io::Result<()> {
        let Some(file) = &mut self.0 else { return Ok(()) };
        let rows: Vec<_> = sheet.rows.iter().map(|line| line.message.id()).collect();
        let notice = sheet.notice.as_ref().map_or("-", |(_, line)| line.message.id());
        let forward = sheet.forward.as_ref().map_or("-", |line| line.message.id());
        let heading = sheet.heading.message.id();
        // In one write, so that nobody reads half a line.
        let line = format!("{heading} | {notice} | {forward} | {}\n", rows.join(" "));
        file.write_all(line.as_bytes())
    }
}

/// `shown <kind> <focus> first <row> of <rows>`: kinds and places, no labels.
pub fn line(view: &View) -> String {
    let mut line = format!("shown {:?} ", view.screen);
    let focus = match view.focus {
        Some(Target::Row(row)) => format!("row-{row}"),
        Some(Target::Key { row, key }) => format!("key-{row}-{key}"),
        Some(Target::Block(block)) => format!("block-{block}"),
        Some(Target::BackOne(block)) => format!("back-one-{block}"),
        Some(Target::BlockStart(block)) => format!("block-start-{block}"),
        Some(Target::Group) => "group".to_owned(),
        Some(Target::MoreAbove) => "more-above".to_owned(),
        Some(Target::MoreBelow) => "more-below".to_owned(),
        Some(Target::Forward) => "forward".to_owned(),
        Some(Target::Back) => "back".to_owned(),
        Some(Target::HearAgain) => "hear-again".to_owned(),
        Some(Target::Comfort) => "comfort".to_owned(),
        Some(Target::Help) => "help".to_owned(),
        None => "none".to_owned(),
    };
    line.push_str(&focus);
    let (first, count) = (view.page.first, view.rows.len());
    // Writing to a string can't fail.
    write!(line, " first {first} of {count}").unwrap_or_default();
    line
}
