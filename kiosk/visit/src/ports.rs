//! What goes into a visit and what comes out of it.

use alloc::boxed::Box;
use alloc::sync::Arc;
use alloc::vec::Vec;

use evenhand_rules::{BallotState, Millis, Reading, Selections, Style, Waits};

use crate::{LanguageIndex, Phrase, Pressing, Target, View};

/// Everything that a visit starts from.
#[derive(Clone, Debug)]
pub struct Begin {
    /// The ballot style that the voter is entitled to.
    pub style: Arc<Style>,
    /// How many languages the station has, at least 1.
    pub languages: u8,
    /// The language that the first screen is shown in.
    pub first_language: LanguageIndex,
    /// Official, test or demo.
    pub state: BallotState,
    /// How many replacements the voter may ask for (a device's fault never counts).
    pub replacements_max: u8,
    /// How many sheets of paper one ballot is on.
    pub sheets: u8,
    /// How presses are taken at first, as a worker has set it.
    pub pressing: Pressing,
    /// How loud speech is at first, as a worker has set it: 0 to `LOUDNESS_STEPS` - 1.
    pub loudness: u8,
    /// How long the station waits for a press.
    pub waits: Waits,
    /// True where a worker comes in through the station, with a code ([`Event::WorkerHere`] and
    /// [`Input::Worker`]); without one whoever stands there can go back and end the visit.
    pub is_attended: bool,
}

/// What a voter can press, by whatever road it came.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Command {
    /// Focus on the next item (arrow down, Tab).
    Next,
    /// The first of two switches: on to the next item, block or group. With one switch it takes what
    /// has the focus.
    Step,
    /// Focus on the item before.
    Previous,
    /// Take what has the focus (second switch, Enter).
    Choose,
    /// Touch this item: focus on it and take it.
    Pick(Target),
    /// One screen back.
    Back,
    /// One screen on.
    Forward,
    /// Say this screen again.
    Repeat,
    /// Louder by one step.
    Louder,
    /// Softer by one step.
    Softer,
    /// Faster by one step.
    Faster,
    /// Slower by one step.
    Slower,
    /// Open help.
    Help,
    /// Open comfort.
    Comfort,
    /// Show what is above.
    MoreAbove,
    /// Show what is below.
    MoreBelow,
    /// Stop talking; once more: go on from there.
    Pause,
    /// Say the sentence before.
    SentenceBack,
    /// Say the next sentence.
    SentenceOn,
    /// Spell the name that has the focus.
    Spell,
    /// Hide the screen, or show it.
    HideScreen,
    /// Say whether the screen is hidden.
    IsHidden,
    /// A worker wants in.
    Worker,
}

/// What the station answers to a worker who wants in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WorkerSays {
    /// No code was given: the visit stays hidden, and waits.
    NotIn,
    /// The visit goes on where it was.
    GoOn,
    /// The visit is over.
    Stop,
}

/// How a button was pressed, as a proposal for [`Pressing`] is made from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PressShape {
    /// How long it was down.
    pub held: Millis,
    /// How long the same button had been up before; `None` at its first press.
    pub gap: Option<Millis>,
}

/// Why the printer didn't print.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PrintFault {
    /// No paper.
    OutOfPaper,
    /// Paper is stuck.
    Jam,
    /// The printer doesn't answer.
    Offline,
    /// The ballot could not be made ready for the printer.
    NotMade,
}

/// Why the paper could not be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadFault {
    /// The scanner gave no sheet, or not all of them.
    NoSheet,
    /// The sheet couldn't be found or its code couldn't be read.
    Unreadable,
    /// It is another ballot's sheet.
    OtherBallot,
    /// What is printed beside the ovals isn't this ballot's.
    PrintDiffers,
}

/// What comes in.
#[derive(Clone, Debug)]
pub enum Input {
    /// A press.
    Press(Command),
    /// How the last press was made, told when its button is let go.
    Pressed(PressShape),
    /// The moment that was asked for has come.
    Tick,
    /// The last words that were asked for have ended.
    SpeechEnded,
    /// There is no speech.
    SpeechLost,
    /// There is speech again.
    SpeechBack,
    /// The printer is done, or isn't.
    Printed(Result<(), PrintFault>),
    /// The paper as it was read.
    Read(Result<Reading, ReadFault>),
    /// The station answers to [`Event::WorkerHere`].
    Worker(WorkerSays),
    /// The window or its type changed size: show again.
    Resized,
}

/// What the station may be told of a visit: a closed list, never a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Event {
    /// The visit began.
    VisitBegun,
    /// All sheets of a ballot were printed.
    BallotPrinted,
    /// The printer failed.
    PrintFailed(PrintFault),
    /// The paper couldn't be read.
    ReadFailed(ReadFault),
    /// The paper differed from what was asked for.
    PaperDiffered,
    /// The voter asked for another ballot.
    SpoiledByVoter,
    /// A ballot was spoiled because a device failed.
    SpoiledByDevice,
    /// A worker was called.
    WorkerCalled,
    /// A worker wants in: the visit is hidden and silent until the station answers.
    WorkerHere,
    /// Speech was lost.
    SpeechLost,
    /// Speech came back.
    SpeechBack,
    /// The voter accepted the paper.
    VisitFinished,
    /// A worker stopped the visit.
    VisitStopped,
}

/// One thing to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// The words.
    pub phrase: Phrase,
    /// True where a pause comes after.
    pub pause: bool,
}

/// Words to say at once, in place of any that are being said.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Utterance {
    /// In order.
    pub parts: Vec<Part>,
    /// True where [`Listen`] goes on with what was said before these words.
    pub is_aside: bool,
}

/// How to go on with what was said last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Listen {
    /// Fall silent, and keep the place.
    Pause,
    /// Go on at the sentence where the pause came.
    GoOn,
    /// Go back one sentence, and on from there.
    Back,
    /// Go to the next sentence, and on from there.
    On,
}

/// What goes out.
#[derive(Clone, Debug)]
pub enum Output {
    /// Draw this.
    Show(Box<View>),
    /// Say this now, and stop what is being said.
    Say(Utterance),
    /// Stop what is being said.
    Hush,
    /// Go on with what was said last.
    Listen(Listen),
    /// Sound the tone that needs no speech.
    SoundTone,
    /// Print the ballot with these selections.
    Print(Selections),
    /// Read the sheets that were printed.
    ReadSheets,
    /// Tell the station.
    Record(Event),
    /// Send a tick at this time, instead of at the one asked for before.
    WakeAt(Millis),
    /// The visit is over: end the process.
    End,
}
