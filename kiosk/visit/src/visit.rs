//! The state machine itself: presses and devices' answers in, outputs out.

use alloc::boxed::Box;
use alloc::vec::Vec;

use evenhand_rules::{ContestIndex, Millis, Reading, Selections};

use crate::at::{At, ScreenKind, WorkerReason};
use crate::proposal::Presses;
use crate::scan::{ROWS_WITHOUT_BLOCKS_MAX, blocks};
use crate::screens::{Content, content};
use crate::time::Times;
use crate::turn::{Act, Setting, Turn};
use crate::{
    BallotState, Bar, Begin, Block, Comfort, Command, Event, Input, LOUDNESS_STEPS, Listen,
    Message, Notice, Output, Page, Phrase, PrintFault, ReadFault, Row, Ruler, Switches, Target,
    Tone, TypeSize, Utterance, View, say,
};

/// By what the voter moves: it decides where the focus begins, and whether there are blocks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    Keys,
    Switches,
    Touch,
}

/// One screen of the stack, with what had the focus and what was scrolled.
#[derive(Clone, Debug)]
pub(crate) struct Layer {
    pub(crate) at: At,
    pub(crate) focus: Option<Target>,
    first: u16,
    /// The row that had the focus last, also after the focus has gone on to the bar.
    pub(crate) last_row: Option<u16>,
    /// True right after a choice that leaves nothing more to choose here: the first switch then goes
    /// straight to going on.
    pub(crate) is_complete: bool,
}

impl Layer {
    const fn new(at: At) -> Self {
        Self { at, focus: None, first: 0, last_row: None, is_complete: false }
    }
}

/// One voter's visit.
///
/// Invariant: `layers` is never empty; the first is the visit's own sequence, the others lie on it.
#[derive(Clone, Debug)]
pub struct Visit {
    pub(crate) begin: Begin,
    pub(crate) comfort: Comfort,
    /// The largest letters that the screen can show.
    pub(crate) size_most: TypeSize,
    pub(crate) selections: Selections,
    pub(crate) paper: Option<Reading>,
    pub(crate) spoiled_by_voter: u8,
    pub(crate) speech_works: bool,
    pub(crate) times: Times,
    pub(crate) way: Way,
    /// True where the voter has paused what is being said.
    pub(crate) is_paused: bool,
    /// Why the last press did nothing: shown until the next.
    pub(crate) refusal: Option<Phrase>,
    pub(crate) presses: Presses,
    focused_at: Millis,
    base: Layer,
    over: Vec<Layer>,
}

impl Visit {
    /// Starts a visit: shows the opening and says its first words.
    pub fn begin(begin: Begin, now: Millis, ruler: &dyn Ruler, out: &mut Vec<Output>) -> Self {
        let mut visit = Self {
            comfort: Comfort {
                loudness: begin.loudness.min(LOUDNESS_STEPS - 1),
                ..Comfort::fresh(begin.first_language, begin.pressing)
            },
            size_most: TypeSize::Largest,
            selections: Selections::none(&begin.style),
            paper: None,
            spoiled_by_voter: 0,
            speech_works: true,
            times: Times::starting(now),
            way: Way::Keys,
            is_paused: false,
            refusal: None,
            presses: Presses::default(),
            focused_at: now,
            base: Layer::new(At::Opening { turn: 0, repeats: true }),
            over: Vec::with_capacity(4),
            begin,
        };
        visit.fit_to(ruler);
        out.push(Output::Record(Event::VisitBegun));
        let view = visit.settled_view(ruler);
        out.push(Output::Show(Box::new(view)));
        out.push(Output::Say(say::opening(&visit, visit.comfort.language)));
        visit
    }

    /// Takes one input at its time. The old state is gone; what is to be done is in `out`, in order.
    #[must_use]
    pub fn handle(
        mut self,
        input: Input,
        now: Millis,
        ruler: &dyn Ruler,
        out: &mut Vec<Output>,
    ) -> Self {
        self.times.now = now;
        self.fit_to(ruler);
        let from = out.len();
        match input {
            Input::Press(command) => self.press(command, ruler, out),
            Input::Pressed(shape) => self.pressed(shape),
            Input::SpeechEnded => self.fell_silent(),
            Input::Tick => self.tick(ruler, out),
            Input::SpeechLost => self.speech_lost(ruler, out),
            Input::SpeechBack => self.speech_back(ruler, out),
            Input::Printed(result) => self.printed(result, ruler, out),
            Input::Read(result) => self.read(result, ruler, out),
            Input::Worker(says) => self.worker_says(says, ruler, out),
            Input::Resized => {
                let view = self.settled_view(ruler);
                out.push(Output::Show(Box::new(view)));
            }
        }
        self.keep_time(from, out);
        self
    }

    /// A screen may be another one after it was resized, and hold less.
    fn fit_to(&mut self, ruler: &dyn Ruler) {
        self.size_most = ruler.size_most();
        self.comfort.size = self.comfort.size.min(self.size_most);
    }

    /// The screen as it is now.
    pub fn view(&self, ruler: &dyn Ruler) -> View {
        let mut copy = self.clone();
        copy.settled_view(ruler)
    }

    /// Where the voter is, screen over screen, with what has the focus: as text, without a choice and
    /// without a setting. Two visits of one style at the same place with the same marks and settings
    /// go on alike; a test that explores a visit tells states apart by it.
    pub fn place(&self) -> alloc::string::String {
        let flags = (self.way, self.is_paused, self.speech_works, self.refusal.is_some());
        alloc::format!("{:?} {:?} {flags:?}", self.base, self.over)
    }

    // ---- presses ----

    fn press(&mut self, command: Command, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        if self.has_worker() {
            return;
        }
        if command == Command::Worker {
            let turn = self.worker_key(out);
            return self.tell(turn, ruler, out);
        }
        let starts_again = self.waits_for_start();
        self.note_reaction();
        self.pressed_now();
        self.refusal = None;
        if let At::Opening { repeats, .. } = &mut self.top_mut().at {
            *repeats = false;
        }
        if let Some(turn) = self.answer_more_time() {
            return self.tell(turn, ruler, out);
        }
        let Some(command) = self.meant(command, starts_again) else {
            self.top_mut().focus = None;
            return self.tell_focus(Vec::new(), ruler, out);
        };
        let was_complete = core::mem::take(&mut self.top_mut().is_complete);
        let view = self.settled_view(ruler);
        let turn = match command {
            Command::Next | Command::Previous => {
                let focus = view.moved(view.focus, command == Command::Previous);
                return self.focus_on(focus, ruler, out);
            }
            Command::Step if was_complete && view.bar_label(Target::Forward).is_some() => {
                return self.focus_on(Some(Target::Forward), ruler, out);
            }
            Command::Step => return self.focus_on(view.step(view.focus), ruler, out),
            Command::MoreAbove | Command::MoreBelow => {
                return self.turn_page(&view, command == Command::MoreBelow, ruler, out);
            }
            Command::Repeat => return self.repeat(&view, out),
            Command::Choose => match view.focus {
                Some(target) => return self.take_target(target, &view, ruler, out),
                None => Turn::Stayed(Vec::new()),
            },
            Command::Pick(target) => return self.pick(target, &view, ruler, out),
            Command::Back | Command::Forward => match self.bar_act(command == Command::Forward) {
                Some(act) => self.act(act, out),
                None => Turn::Stayed(Vec::new()),
            },
            Command::Worker => return,
            // While a worker is called nothing speaks that the worker didn't ask for.
            _ if view.is_hidden => return,
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
            Command::Pause => self.act(Act::Pause, out),
            Command::SentenceBack => self.act(Act::Listen(Listen::Back), out),
            Command::SentenceOn => self.act(Act::Listen(Listen::On), out),
            Command::Spell => self.act(Act::SpellFocused, out),
            Command::HideScreen => self.hide_or_show(),
            Command::IsHidden => self.act(Act::TellHidden, out),
        };
        self.tell(turn, ruler, out);
    }

    /// What a command means to this voter; `None` where the press starts the station's own moving
    /// again.
    fn meant(&mut self, command: Command, starts_again: bool) -> Option<Command> {
        // A worker's screen is for a worker's keys and touch: nothing moves there by itself, so one
        // switch goes on and takes nothing.
        let is_worker = matches!(self.top().at, At::Worker { .. } | At::ConfirmEnd);
        let has_one_switch = self.comfort.pressing.switches == Switches::One && !is_worker;
        if starts_again && has_one_switch && matches!(command, Command::Step | Command::Choose) {
            return None;
        }
        if has_one_switch || command == Command::Step {
            self.way = Way::Switches;
        } else if matches!(command, Command::Next | Command::Previous) {
            self.way = Way::Keys;
        } else if matches!(command, Command::Pick(_)) {
            self.way = Way::Touch;
        }
        Some(if has_one_switch && command == Command::Step { Command::Choose } else { command })
    }

    /// How many marks there are in all contests.
    pub(crate) fn marks(&self) -> u32 {
        let contests = self.begin.style.contests();
        contests.map(|(contest, _)| u32::from(self.selections.count(contest))).sum()
    }

    fn take_target(
        &mut self,
        target: Target,
        view: &View,
        ruler: &dyn Ruler,
        out: &mut Vec<Output>,
    ) {
        let row_of = |block: u16| view.blocks.get(usize::from(block)).copied();
        let turn = match target {
            Target::Row(row) if view.key_at(row, 0).is_some() => {
                return self.focus_on(Some(Target::Key { row, key: 0 }), ruler, out);
            }
            Target::Row(row) => {
                let act = self.row_act(row);
                if matches!(act, Act::HearFromStart) {
                    self.leave();
                    return self.listen(ruler, out);
                }
                self.act(act, out)
            }
            Target::Key { row, key } => match view.key_at(row, key) {
                Some(letter) => {
                    // Two switches begin at the first row of keys, keys go on from where they are.
                    let is_scanned = self.way == Way::Switches;
                    self.top_mut().focus = (!is_scanned).then_some(Target::Row(row));
                    self.act(Act::Key(letter), out)
                }
                None => Turn::Stayed(Vec::new()),
            },
            Target::Block(block) | Target::BlockStart(block) => {
                let row = row_of(block).map(|block| Target::Row(block.first));
                return self.focus_on(row, ruler, out);
            }
            Target::BackOne(block) => {
                let row = row_of(block).map(|block| Target::Row(block.last()));
                return self.focus_on(row, ruler, out);
            }
            Target::Group => return self.focus_on(view.group().first().copied(), ruler, out),
            Target::MoreAbove => return self.turn_page(view, false, ruler, out),
            Target::MoreBelow => return self.turn_page(view, true, ruler, out),
            Target::Forward | Target::Back => match self.bar_act(target == Target::Forward) {
                Some(act) => self.act(act, out),
                None => Turn::Stayed(Vec::new()),
            },
            Target::HearAgain => return self.listen(ruler, out),
            Target::Comfort => self.open_comfort(),
            Target::Help => self.push(At::Help),
        };
        self.tell(turn, ruler, out);
    }

    /// A touch: only what is on the screen can be touched, and nothing where it is hidden.
    fn pick(&mut self, target: Target, view: &View, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        if view.is_covered {
            return self.tell(Turn::news(Phrase::new(Message::SaidCovered)), ruler, out);
        }
        let shown = |row: u16| view.shown_rows().find(|(index, _)| *index == row);
        let is_there = match target {
            Target::Key { row, key } => shown(row).is_some() && view.key_at(row, key).is_some(),
            Target::Row(row) => shown(row).is_some_and(|(_, row)| row.kind.takes_focus()),
            Target::MoreAbove => view.more_above.is_some(),
            Target::MoreBelow => view.more_below.is_some(),
            // They are drawn while the scan is there.
            Target::BackOne(block) | Target::BlockStart(block) => {
                let drawn = [Target::BackOne(block), Target::BlockStart(block)];
                view.focus.is_some_and(|focus| drawn.contains(&focus))
            }
            Target::Block(_) | Target::Group => false,
            Target::Forward | Target::Back | Target::HearAgain | Target::Comfort | Target::Help => {
                view.bar_label(target).is_some()
            }
        };
        if is_there {
            self.top_mut().focus = Some(target);
            self.take_target(target, view, ruler, out);
        }
    }

    fn focus_on(&mut self, focus: Option<Target>, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        self.top_mut().focus = focus;
        self.tell_focus(Vec::new(), ruler, out);
    }

    fn note_reaction(&mut self) {
        if matches!(self.top().at, At::Practice { .. }) {
            let after = self.times.now.0.saturating_sub(self.focused_at.0);
            self.presses.reacted(Millis(after));
        }
    }

    fn pressed(&mut self, shape: crate::PressShape) {
        if matches!(self.top().at, At::Practice { .. }) {
            self.presses.shaped(shape);
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
        // Where the page goes with the focus, the focus goes with the page.
        (layer.first, layer.focus) = (first, view.page_follows().then_some(Target::Row(first)));
        self.tell(Turn::arrived(), ruler, out);
    }

    fn repeat(&mut self, view: &View, out: &mut Vec<Output>) {
        out.push(Output::Show(Box::new(view.clone())));
        let words = say::again(self, view);
        self.say(words, out);
    }

    /// Says the screen from its start, and offers to go on sentence by sentence. Where a device works
    /// or a worker was called it is just said: nothing may lie on what comes next.
    fn listen(&mut self, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let below = self.settled_view(ruler);
        if self.waits_for_others() {
            return self.repeat(&below, out);
        }
        let mut words = say::again(self, &below);
        self.push(At::Listen);
        let view = self.settled_view(ruler);
        words.parts.insert(0, crate::Part { phrase: view.heading.clone(), pause: true });
        out.push(Output::Show(Box::new(view)));
        self.say(words, out);
    }

    fn open_comfort(&mut self) -> Turn {
        if matches!(self.top().at, At::Comfort) {
            return Turn::arrived();
        }
        self.push(At::Comfort)
    }

    // ---- devices ----

    fn speech_lost(&mut self, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        if self.speech_works {
            self.speech_works = false;
            out.push(Output::SoundTone);
            out.push(Output::Record(Event::SpeechLost));
            if self.comfort.is_screen_hidden {
                // With neither screen nor voice a voter has nothing. The worker's screen hides it
                // for now; whoever comes back from there sees the screen.
                self.comfort.is_screen_hidden = false;
                if matches!(self.top().at, At::Worker { .. }) {
                    out.push(Output::Record(Event::WorkerCalled));
                } else {
                    self.call_worker(WorkerReason::Device, out);
                }
            } else {
                out.push(Output::Record(Event::WorkerCalled));
            }
        }
        self.times.quiet_since = Some(self.times.now);
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
    pub(crate) fn tell(&mut self, turn: Turn, ruler: &dyn Ruler, out: &mut Vec<Output>) {
        let view = self.settled_view(ruler);
        self.focused_at = self.times.now;
        out.push(Output::Show(Box::new(view.clone())));
        if self.has_worker() {
            return;
        }
        let (news, arrived) = match turn {
            Turn::Arrived(news) => (news, true),
            Turn::Stayed(news) => (news, false),
            Turn::Silent => return,
            Turn::Returned => {
                let words = say::returned(&view);
                return self.say(words, out);
            }
        };
        let has_last_words = news.iter().any(|phrase| phrase.message == Message::SpeechIsOff);
        let words = if arrived {
            say::arrival(self, &view, news)
        } else if news.is_empty() {
            say::focused(&view, news)
        } else {
            say::news(news, matches!(self.top().at, At::Listen))
        };
        if has_last_words {
            // Whoever turns the voice off hears that it is off; then it is.
            out.push(Output::Say(words));
            return;
        }
        self.say(words, out);
    }

    pub(crate) fn tell_focus(
        &mut self,
        news: Vec<Phrase>,
        ruler: &dyn Ruler,
        out: &mut Vec<Output>,
    ) {
        let view = self.settled_view(ruler);
        self.focused_at = self.times.now;
        out.push(Output::Show(Box::new(view.clone())));
        let words = say::focused(&view, news);
        self.say(words, out);
    }

    /// Says this, where the voter wants a voice and no worker is in.
    pub(crate) fn say(&mut self, words: Utterance, out: &mut Vec<Output>) {
        self.is_paused = false;
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
        self.layer_below().at.kind()
    }

    /// What had the focus on the screen under the top one.
    pub(crate) fn layer_below(&self) -> &Layer {
        let below = self.over.len().checked_sub(2).and_then(|index| self.over.get(index));
        below.unwrap_or(&self.base)
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
    pub(crate) fn settled_view(&mut self, ruler: &dyn Ruler) -> View {
        let content = content(self, &self.top().at);
        let mut view = self.unmeasured(content);
        let is_scanned = self.way == Way::Switches;
        let wanted = self.top().focus;
        let starts = Self::page_starts(&view, ruler);
        let count = u16::try_from(view.rows.len()).unwrap_or(u16::MAX);
        if view.has_blocks {
            view.blocks = blocks(&starts, count);
        }
        // A focused row stays in view, also when type or language changes what fits.
        let is_row = |anchor: &u16| *anchor < count;
        let held = anchor(&view, wanted).filter(is_row);
        turn_to(&mut view, held.unwrap_or(self.top().first), &starts);
        let default = if is_scanned { view.step(None) } else { view.targets().first().copied() };
        view.focus = wanted.filter(|target| can_have_focus(&view, *target)).or(default);
        if let Some(row) = anchor(&view, view.focus) {
            turn_to(&mut view, row, &starts);
        }
        let layer = self.top_mut();
        (layer.first, layer.focus) = (view.page.first, view.focus);
        if let Some(Target::Row(row)) = view.focus {
            layer.last_row = Some(row);
        }
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
        let is_hidden = matches!(at, At::Worker { .. } | At::ConfirmEnd);
        // What was refused may name a letter of a written name.
        let refusal = self.refusal.as_ref().filter(|_| !is_hidden);
        let notice = match (refusal, self.speech_works || !self.comfort.speech) {
            (_, false) => {
                Some(Notice { tone: Tone::Fault, phrase: Phrase::new(Message::NoticeNoSpeech) })
            }
            (Some(phrase), true) => Some(Notice { tone: Tone::Caution, phrase: phrase.clone() }),
            (None, true) => None,
        };
        let rows: Vec<Row> = content.rows.into_iter().map(|(row, _)| row).collect();
        let hears_again = !matches!(at, At::Ended | At::Listen | At::MoreTime);
        View {
            screen: at.kind(),
            is_hidden,
            is_away: self.has_worker(),
            is_covered: self.comfort.is_screen_hidden && !is_hidden && !matches!(at, At::Ended),
            state: self.begin.state,
            state_words: self.state_words(),
            notice,
            place: content.place,
            heading: content.heading,
            lines: content.lines,
            // By keys too, so that pages don't change with what is pressed.
            has_blocks: rows.len() > ROWS_WITHOUT_BLOCKS_MAX
                && rows.iter().all(|row| row.kind.takes_focus()),
            blocks: Vec::<Block>::new(),
            rows,
            page: Page::default(),
            more_above: None,
            more_below: None,
            bar: [
                place(Target::Back, content.back.map(|(message, _)| message)),
                place(
                    Target::HearAgain,
                    always(Message::BarHearAgain, self.comfort.speech && hears_again),
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

/// Turns to the page that has this row.
fn turn_to(view: &mut View, row: u16, starts: &[u16]) {
    let count = u16::try_from(view.rows.len()).unwrap_or(u16::MAX);
    let first = starts.iter().rev().find(|first| **first <= row).copied().unwrap_or(0);
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
}

/// The row that must be on the page for this to have the focus.
fn anchor(view: &View, focus: Option<Target>) -> Option<u16> {
    match focus? {
        Target::Row(row) | Target::Key { row, .. } => Some(row),
        Target::Block(block) | Target::BackOne(block) | Target::BlockStart(block) => {
            view.blocks.get(usize::from(block)).map(|block| block.first)
        }
        Target::MoreAbove
        | Target::MoreBelow
        | Target::Group
        | Target::Forward
        | Target::Back
        | Target::HearAgain
        | Target::Comfort
        | Target::Help => None,
    }
}

fn can_have_focus(view: &View, target: Target) -> bool {
    match target {
        Target::Key { row, key } => view.key_at(row, key).is_some(),
        Target::Block(block) | Target::BackOne(block) | Target::BlockStart(block) => {
            view.blocks.get(usize::from(block)).is_some()
        }
        Target::Group => view.has_group(),
        // Touched, they keep the focus while there is more.
        Target::MoreAbove => view.more_above.is_some(),
        Target::MoreBelow => view.more_below.is_some(),
        Target::Row(_)
        | Target::Forward
        | Target::Back
        | Target::HearAgain
        | Target::Comfort
        | Target::Help => view.targets().contains(&target),
    }
}
