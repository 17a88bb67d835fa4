//! The state machine itself: presses and devices' answers in, outputs out.

use alloc::boxed::Box;
use alloc::vec::Vec;

use evenhand_rules::{ContestIndex, Millis, Reading, Selections};

use crate::at::{At, ScreenKind};
use crate::screens::{Content, content};
use crate::turn::{Act, Setting, Turn};
use crate::{
    BallotState, Bar, Begin, Comfort, Command, Event, Input, LanguageIndex, Message, Notice,
    Output, Page, Phrase, PrintFault, ReadFault, Row, RowKind, Ruler, Target, Tone, Utterance,
    View, say,
};

/// How long the opening waits in silence before it says its first words in the next language.
const OPENING_PAUSE: Millis = Millis(1_500);

/// One screen of the stack, with what had the focus and what was scrolled.
#[derive(Clone, Debug)]
pub(crate) struct Layer {
    pub(crate) at: At,
    focus: Option<Target>,
    first: u16,
}

impl Layer {
    const fn new(at: At) -> Self {
        Self { at, focus: None, first: 0 }
    }
}

/// One voter's visit.
///
/// Invariant: `layers` is never empty; the first is the visit's own sequence, the others lie on it.
#[derive(Clone, Debug)]
pub struct Visit {
    pub(crate) begin: Begin,
    pub(crate) comfort: Comfort,
    pub(crate) selections: Selections,
    pub(crate) paper: Option<Reading>,
    pub(crate) spoiled_by_voter: u8,
    speech_works: bool,
    base: Layer,
    over: Vec<Layer>,
}

impl Visit {
    /// Starts a visit: shows the opening and says its first words.
    pub fn begin(begin: Begin, ruler: &dyn Ruler, out: &mut Vec<Output>) -> Self {
        let mut visit = Self {
            comfort: Comfort::fresh(begin.first_language),
            selections: Selections::none(&begin.style),
            paper: None,
            spoiled_by_voter: 0,
            speech_works: true,
            base: Layer::new(At::Opening { turn: 0, repeats: true }),
            over: Vec::with_capacity(4),
            begin,
        };
        out.push(Output::Record(Event::VisitBegun));
        let view = visit.settled_view(ruler);
        out.push(Output::Show(Box::new(view)));
        out.push(Output::Say(say::opening(&visit, visit.comfort.language)));
        visit
    }

    /// Takes one input. The old state is gone; what is to be done is in `out`, in order.
    #[must_use]
    pub fn handle(mut self, input: Input, ruler: &dyn Ruler, out: &mut Vec<Output>) -> Self {
        match input {
            Input::Press(command) => self.press(command, ruler, out),
            Input::SpeechEnded(now) => self.speech_ended(now, out),
            Input::Tick(_) => self.tick(out),
            Input::SpeechLost => self.speech_lost(ruler, out),
            Input::SpeechBack => self.speech_back(ruler, out),
            Input::Printed(result) => self.printed(result, ruler, out),
            Input::Read(result) => self.read(result, ruler, out),
            Input::Resized => {
                let view = self.settled_view(ruler);
                out.push(Output::Show(Box::new(view)));
            }
        }
        self
    }

    /// The screen as it is now.
    pub fn view(&self, ruler: &dyn Ruler) -> View {
        let mut copy = self.clone();
        copy.settled_view(ruler)
    }

    // ---- presses ----

    fn press(&mut self, command: Command, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        if let At::Opening { repeats, .. } = &mut self.top_mut().at {
            *repeats = false;
        }
        let view = self.settled_view(ruler);
        let turn = match command {
            Command::Next => return self.move_focus(&view, 1, ruler, out),
            Command::Previous => return self.move_focus(&view, -1, ruler, out),
            Command::MoreAbove | Command::MoreBelow => {
                return self.turn_page(&view, command == Command::MoreBelow, ruler, out);
            }
            Command::Repeat => return self.repeat(&view, out),
            Command::Choose => match view.focus {
                Some(target) => return self.take_target(target, &view, ruler, out),
                None => Turn::Stayed(Vec::new()),
            },
            Command::Pick(target) => return self.pick(target, &view, ruler, out),
            Command::Back => {
                self.bar_act(false).map_or(Turn::Stayed(Vec::new()), |act| self.act(act, out))
            }
            Command::Forward => {
                self.bar_act(true).map_or(Turn::Stayed(Vec::new()), |act| self.act(act, out))
            }
            // While a worker is called nothing speaks that the worker didn't ask for.
            Command::Louder | Command::Softer | Command::Faster | Command::Slower
                if view.is_hidden =>
            {
                return;
            }
            Command::Louder => self.set(Setting::Louder),
            Command::Softer => self.set(Setting::Softer),
            Command::Faster => self.set(Setting::Faster),
            Command::Slower => self.set(Setting::Slower),
            // The keys offer what the bar offers, so that no screen is opened on itself.
            Command::Help | Command::Comfort if view.bar_label(bar_of(command)).is_none() => {
                Turn::Stayed(Vec::new())
            }
            Command::Help => self.push(At::Help),
            Command::Comfort => self.open_comfort(),
        };
        self.tell(turn, ruler, out);
    }

    fn take_target(
        &mut self,
        target: Target,
        view: &View,
        ruler: &dyn Ruler,
        out: &mut Vec<Output>,
    ) {
        let turn = match target {
            Target::Row(index) => match view.rows.get(usize::from(index)).map(|row| &row.kind) {
                Some(RowKind::Keys(_)) => return self.enter_keys(index, ruler, out),
                _ => self.act(self.row_act(index), out),
            },
            Target::Key { row, key } => match key_at(view, row, key) {
                Some(letter) => {
                    self.top_mut().focus = Some(Target::Row(row));
                    self.act(Act::Key(letter), out)
                }
                None => Turn::Stayed(Vec::new()),
            },
            Target::MoreAbove => return self.turn_page(view, false, ruler, out),
            Target::MoreBelow => return self.turn_page(view, true, ruler, out),
            Target::Forward | Target::Back => match self.bar_act(target == Target::Forward) {
                Some(act) => self.act(act, out),
                None => Turn::Stayed(Vec::new()),
            },
            Target::HearAgain => return self.repeat(view, out),
            Target::Comfort => self.open_comfort(),
            Target::Help => self.push(At::Help),
        };
        self.tell(turn, ruler, out);
    }

    /// A touch: only what is on the screen can be touched.
    fn pick(&mut self, target: Target, view: &View, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let is_there = if let Target::Key { row, key } = target {
            view.shown_rows().any(|(index, _)| index == row) && key_at(view, row, key).is_some()
        } else {
            view.targets().contains(&target)
        };
        if is_there {
            self.top_mut().focus = Some(target);
            self.take_target(target, view, ruler, out);
        }
    }

    fn row_act(&self, index: u16) -> Act {
        let mut rows = content(self, &self.top().at).rows;
        if usize::from(index) < rows.len() {
            rows.swap_remove(usize::from(index)).1
        } else {
            Act::Nothing
        }
    }

    fn enter_keys(&mut self, row: u16, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        self.top_mut().focus = Some(Target::Key { row, key: 0 });
        self.tell_focus(Vec::new(), ruler, out);
    }

    fn move_focus(&mut self, view: &View, step: i8, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let next = match view.focus {
            Some(Target::Key { row, key }) => Some(next_key(view, row, key, step)),
            focus => next_target(&view.targets(), focus, step),
        };
        self.top_mut().focus = next;
        self.tell_focus(Vec::new(), ruler, out);
    }

    fn turn_page(&mut self, view: &View, is_down: bool, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let page = view.page;
        let can = if is_down { page.below > 0 } else { page.above > 0 };
        if !can {
            return self.tell(Turn::Stayed(Vec::new()), ruler, out);
        }
        let pages = Self::page_starts(view, ruler);
        let now = pages.iter().rposition(|first| *first <= page.first).unwrap_or(0);
        let wanted = if is_down { now.saturating_add(1) } else { now.saturating_sub(1) };
        let first = pages.get(wanted).copied().unwrap_or(page.first);
        let layer = self.top_mut();
        (layer.first, layer.focus) = (first, None);
        self.tell(Turn::arrived(), ruler, out);
    }

    fn repeat(&mut self, view: &View, out: &mut Vec<Output>) {
        out.push(Output::Show(Box::new(view.clone())));
        let words = say::again(self, view);
        self.say(words, out);
    }

    fn open_comfort(&mut self) -> Turn {
        if matches!(self.top().at, At::Comfort) {
            return Turn::arrived();
        }
        self.push(At::Comfort)
    }

    // ---- devices ----

    fn speech_ended(&mut self, now: Millis, out: &mut Vec<Output>) {
        if matches!(self.top().at, At::Opening { repeats: true, .. }) {
            out.push(Output::WakeAt(now.after(OPENING_PAUSE)));
        }
    }

    fn tick(&mut self, out: &mut Vec<Output>) {
        let languages = self.begin.languages.max(1);
        let first = self.begin.first_language.0;
        if let At::Opening { turn, repeats: true } = &mut self.top_mut().at {
            *turn = turn.saturating_add(1).checked_rem(languages).unwrap_or(0);
            let index = turn.saturating_add(first).checked_rem(languages).unwrap_or(0);
            let words = say::opening(self, LanguageIndex(index));
            self.say(words, out);
        }
    }

    fn speech_lost(&mut self, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        if self.speech_works {
            self.speech_works = false;
            out.push(Output::SoundTone);
            out.push(Output::Record(Event::SpeechLost));
            out.push(Output::Record(Event::WorkerCalled));
        }
        let view = self.settled_view(ruler);
        out.push(Output::Show(Box::new(view)));
    }

    fn speech_back(&mut self, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        if !self.speech_works {
            self.speech_works = true;
            out.push(Output::Record(Event::SpeechBack));
        }
        self.tell(Turn::arrived(), ruler, out);
    }

    fn printed(
        &mut self,
        result: Result<(), PrintFault>,
        ruler: &dyn Ruler,
        out: &mut Vec<Output>,
    ) {
        if !matches!(self.base.at, At::Printing) {
            return;
        }
        match result {
            Ok(()) => {
                out.push(Output::Record(Event::BallotPrinted));
                out.push(Output::ReadSheets);
                self.base = Layer::new(At::ReadingPaper);
            }
            Err(fault) => {
                out.push(Output::Record(Event::PrintFailed(fault)));
                self.base = Layer::new(At::PrintFault(fault));
            }
        }
        self.tell(Turn::arrived(), ruler, out);
    }

    fn read(
        &mut self,
        result: Result<Reading, ReadFault>,
        ruler: &dyn Ruler,
        out: &mut Vec<Output>,
    ) {
        if !matches!(self.base.at, At::ReadingPaper) {
            return;
        }
        let at = match result {
            Ok(reading) => {
                let agrees = reading.differences(&self.begin.style, &self.selections).is_empty();
                self.paper = Some(reading);
                if agrees {
                    At::CheckPaper
                } else {
                    out.push(Output::Record(Event::PaperDiffered));
                    At::Differs
                }
            }
            Err(fault) => {
                out.push(Output::Record(Event::ReadFailed(fault)));
                At::ReadFault(fault)
            }
        };
        self.base = Layer::new(at);
        self.tell(Turn::arrived(), ruler, out);
    }

    // ---- telling ----

    /// Draws and says what a turn brought about.
    fn tell(&mut self, turn: Turn, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let (news, arrived) = match turn {
            Turn::Arrived(news) => (news, true),
            Turn::Stayed(news) => (news, false),
        };
        let view = self.settled_view(ruler);
        out.push(Output::Show(Box::new(view.clone())));
        let has_last_words = news.iter().any(|phrase| phrase.message == Message::SpeechIsOff);
        let words = if arrived {
            say::arrival(self, &view, news)
        } else if news.is_empty() {
            say::focused(&view, news)
        } else {
            say::news(news)
        };
        if has_last_words {
            // Whoever turns the voice off hears that it is off; then it is.
            out.push(Output::Say(words));
            return;
        }
        self.say(words, out);
    }

    fn tell_focus(&mut self, news: Vec<Phrase>, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let view = self.settled_view(ruler);
        out.push(Output::Show(Box::new(view.clone())));
        let words = say::focused(&view, news);
        self.say(words, out);
    }

    fn say(&self, words: Utterance, out: &mut Vec<Output>) {
        out.push(if self.comfort.speech { Output::Say(words) } else { Output::Hush });
    }

    // ---- the stack ----

    pub(crate) fn top(&self) -> &Layer {
        self.over.last().unwrap_or(&self.base)
    }

    pub(crate) fn top_mut(&mut self) -> &mut Layer {
        self.over.last_mut().unwrap_or(&mut self.base)
    }

    pub(crate) fn is_layered(&self) -> bool {
        !self.over.is_empty()
    }

    /// What lies under the top screen: what "explain this screen" is about.
    pub(crate) fn below_top(&self) -> ScreenKind {
        let below = self.over.len().checked_sub(2).and_then(|index| self.over.get(index));
        below.unwrap_or(&self.base).at.kind()
    }

    pub(crate) fn go(&mut self, at: At) -> Turn {
        self.over.clear();
        self.base = Layer::new(at);
        Turn::arrived()
    }

    pub(crate) fn push(&mut self, at: At) -> Turn {
        self.over.push(Layer::new(at));
        Turn::arrived()
    }

    pub(crate) fn swap(&mut self, at: At) -> Turn {
        *self.top_mut() = Layer::new(at);
        Turn::arrived()
    }

    pub(crate) fn leave(&mut self) -> Turn {
        self.over.pop();
        Turn::arrived()
    }

    // ---- the sequence ----

    pub(crate) const fn opening_again() -> At {
        At::Opening { turn: 0, repeats: false }
    }

    pub(crate) fn first_step(&self) -> At {
        if self.begin.languages > 1 { At::Languages } else { At::Comfort }
    }

    pub(crate) const fn first_contest() -> At {
        At::Contest { contest: ContestIndex(0), from_review: false }
    }

    pub(crate) fn last_contest(&self) -> At {
        let last = self.begin.style.contest_count().saturating_sub(1);
        At::Contest { contest: ContestIndex(last), from_review: false }
    }

    pub(crate) fn before(contest: ContestIndex) -> At {
        match contest.0.checked_sub(1) {
            Some(before) => At::Contest { contest: ContestIndex(before), from_review: false },
            None => At::HowTo,
        }
    }

    pub(crate) fn after(&self, contest: ContestIndex) -> At {
        let after = contest.0.saturating_add(1);
        if after < self.begin.style.contest_count() {
            At::Contest { contest: ContestIndex(after), from_review: false }
        } else {
            At::Review
        }
    }

    pub(crate) fn replacements_left(&self) -> u8 {
        self.begin.replacements_max.saturating_sub(self.spoiled_by_voter)
    }

    pub(crate) fn state_words(&self) -> Option<Phrase> {
        match self.begin.state {
            BallotState::Official => None,
            BallotState::Test => Some(Phrase::new(Message::StateTest)),
            BallotState::Demo => Some(Phrase::new(Message::StateDemo)),
        }
    }

    // ---- the view ----

    /// The view, with the page and the focus brought to where they can be.
    fn settled_view(&mut self, ruler: &dyn Ruler) -> View {
        let content = content(self, &self.top().at);
        let mut view = self.unmeasured(content);
        let wanted = self.top().focus;
        let starts = Self::page_starts(&view, ruler);
        let row = match wanted {
            Some(Target::Row(row) | Target::Key { row, .. }) => Some(row),
            _ => None,
        };
        // A focused row stays in view, also when type or language changes what fits.
        let anchor = row.unwrap_or(self.top().first);
        let first = starts.iter().rev().find(|first| **first <= anchor).copied().unwrap_or(0);
        let count = u16::try_from(view.rows.len()).unwrap_or(u16::MAX);
        let end = starts.iter().find(|start| **start > first).copied().unwrap_or(count);
        view.page = Page {
            first,
            shown: end.saturating_sub(first),
            above: first,
            below: count.saturating_sub(end),
        };
        let more =
            |message, count: u16| (count > 0).then(|| Phrase::new(message).number("count", count));
        view.more_above = more(Message::MoreAbove, view.page.above);
        view.more_below = more(Message::MoreBelow, view.page.below);
        let targets = view.targets();
        let is_there = |target: Target| {
            if let Target::Key { row, key } = target {
                key_at(&view, row, key).is_some()
            } else {
                targets.contains(&target)
            }
        };
        view.focus = wanted.filter(|target| is_there(*target)).or(targets.first().copied());
        let layer = self.top_mut();
        (layer.first, layer.focus) = (first, view.focus);
        view
    }

    fn unmeasured(&self, content: Content) -> View {
        let at = &self.top().at;
        let has_help = at.has_help();
        let place =
            |target, message: Option<Message>| Bar { target, label: message.map(Phrase::new) };
        let always = |message: Message, offered: bool| offered.then_some(message);
        // From everywhere but from itself: the screens on it don't open it once more.
        let mut layers = core::iter::once(&self.base).chain(&self.over);
        let comfort_offered = has_help && !layers.any(|layer| matches!(layer.at, At::Comfort));
        View {
            screen: at.kind(),
            is_hidden: matches!(at, At::Worker(_) | At::ConfirmEnd),
            state: self.begin.state,
            state_words: self.state_words(),
            notice: (!self.speech_works && self.comfort.speech).then(|| Notice {
                tone: Tone::Fault,
                phrase: Phrase::new(Message::NoticeNoSpeech),
            }),
            place: content.place,
            heading: content.heading,
            lines: content.lines,
            rows: content.rows.into_iter().map(|(row, _)| row).collect::<Vec<Row>>(),
            page: Page::default(),
            more_above: None,
            more_below: None,
            bar: [
                place(Target::Back, content.back.map(|(message, _)| message)),
                place(
                    Target::HearAgain,
                    always(Message::BarHearAgain, self.comfort.speech && !matches!(at, At::Ended)),
                ),
                place(Target::Comfort, always(Message::BarComfort, comfort_offered)),
                place(Target::Help, always(Message::BarHelp, has_help)),
                place(Target::Forward, content.forward.map(|(message, _)| message)),
            ],
            focus: None,
            comfort: self.comfort,
        }
    }

    /// The first row of each page, from 0.
    fn page_starts(view: &View, ruler: &dyn Ruler) -> Vec<u16> {
        let count = u16::try_from(view.rows.len()).unwrap_or(u16::MAX);
        let mut starts = alloc::vec![0u16];
        let mut first = 0u16;
        while first < count {
            let fits = ruler.rows_that_fit(view, first).max(1);
            first = first.saturating_add(fits);
            if first < count {
                starts.push(first);
            }
        }
        starts
    }
}

/// The place of the bar that a key stands for.
const fn bar_of(command: Command) -> Target {
    if matches!(command, Command::Help) { Target::Help } else { Target::Comfort }
}

fn key_at(view: &View, row: u16, key: u16) -> Option<char> {
    match &view.rows.get(usize::from(row))?.kind {
        RowKind::Keys(keys) => keys.get(usize::from(key)).copied(),
        RowKind::Oval { .. }
        | RowKind::Ranked { .. }
        | RowKind::Action
        | RowKind::Summary
        | RowKind::Passage
        | RowKind::Picture(..) => None,
    }
}

/// The next key of a row; past its ends the focus goes back to the row itself.
fn next_key(view: &View, row: u16, key: u16, step: i8) -> Target {
    let next = if step < 0 { key.checked_sub(1) } else { key.checked_add(1) };
    match next {
        Some(next) if key_at(view, row, next).is_some() => Target::Key { row, key: next },
        _ => Target::Row(row),
    }
}

fn next_target(targets: &[Target], focus: Option<Target>, step: i8) -> Option<Target> {
    let Some(now) = targets.iter().position(|target| Some(*target) == focus) else {
        return targets.first().copied();
    };
    let next = if step < 0 { now.checked_sub(1) } else { Some(now.saturating_add(1)) };
    match next {
        None => targets.last().copied(),
        Some(next) => targets.get(next).or(targets.first()).copied(),
    }
}
