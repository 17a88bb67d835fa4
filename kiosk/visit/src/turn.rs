//! What each taken row does: one named deed an arm.

use alloc::vec::Vec;

use evenhand_rules::{
    Contest, ContestIndex, LowerRanks, OptionIndex, OptionKind, Rank, Refusal, Rule, Selections,
    WriteInText,
};

use crate::at::{At, WorkerReason};
use crate::screens::{
    accept_step, content, contest_count, ignore_step, option_phrase, palette_message, scan_step,
    setting_step, size_message, spelled, switches_message,
};
use crate::visit::{Visit, Way};
use crate::{
    ACCEPT_STEPS, Arg, Event, IGNORE_STEPS, LanguageIndex, Listen, Message, Output, Phrase,
    Pressing, Ruler, SCAN_STEPS, Switches, Target, TypeSize, WorkerSays, say,
};

/// A change of comfort.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Setting {
    Language(LanguageIndex),
    Larger,
    Smaller,
    NextPalette,
    Faster,
    Slower,
    Louder,
    Softer,
    Speech(bool),
    ScreenHidden(bool),
    Switches(Switches),
    ScanFaster,
    ScanSlower,
    AcceptLonger,
    AcceptShorter,
    IgnoreLonger,
    IgnoreShorter,
}

/// What taking an item does.
#[derive(Clone, Debug)]
pub(crate) enum Act {
    /// Nothing: the row is only read.
    Nothing,
    /// Go to another screen of the visit's own sequence.
    Go(At),
    /// Put a screen on top of this one.
    Push(At),
    /// Put another in place of the one on top.
    Swap(At),
    /// Take the top screen away.
    Leave,
    Set(Setting),
    Practise(u8),
    /// Leave the practice question: there may be something to propose.
    EndPractice,
    /// Take presses as was proposed.
    TakeOffer(Pressing),
    HideOrShow,
    /// Go on with what was said.
    Listen(Listen),
    /// Pause, or go on.
    Pause,
    /// Say the screen below once more from its start.
    HearFromStart,
    SpellFocused,
    TellHidden,
    /// Leave what was listened to: only where the voter is now is said.
    EndListening,
    /// Choose, undo or open what an option needs.
    Take(ContestIndex, OptionIndex),
    UndoAtLimit(ContestIndex, OptionIndex),
    Rank(ContestIndex, OptionIndex, Rank),
    MoveRank(ContestIndex, OptionIndex, Rank),
    UndoRank(ContestIndex, OptionIndex),
    UndoRankAnd(ContestIndex, OptionIndex, LowerRanks),
    Key(char),
    DeleteLetter,
    Spell,
    FinishName(ContestIndex, OptionIndex),
    KeepBlank(ContestIndex, OptionIndex),
    UndoWriteIn(ContestIndex, OptionIndex),
    Print,
    ReadAgain,
    Accept,
    SpoilByDevice,
    Spoiled {
        by_voter: bool,
        keep: bool,
    },
    CallWorker(WorkerReason),
    /// A worker wants in.
    WorkerHere,
    Stop,
    Finish,
}

/// What has changed, for the voice: nothing of it is kept.
pub(crate) enum Turn {
    /// The voter is on another screen: say it all, the news first.
    Arrived(Vec<Phrase>),
    /// The same screen: say just the news.
    Stayed(Vec<Phrase>),
    /// The same screen: the voice has its own order.
    Silent,
    /// Back on a screen that has just been heard.
    Returned,
}

impl Turn {
    pub(crate) const fn arrived() -> Self {
        Self::Arrived(Vec::new())
    }
    pub(crate) fn news(phrase: Phrase) -> Self {
        Self::Stayed(alloc::vec![phrase])
    }
}

impl Visit {
    /// Does what the taken item does, and notes whether nothing is left to choose on the screen.
    pub(crate) fn act(&mut self, act: Act, out: &mut Vec<Output>) -> Turn {
        let marks = self.marks();
        let is_answer = matches!(act, Act::Practise(_) | Act::Set(Setting::Language(_)));
        let turn = self.deed(act, out);
        self.top_mut().is_complete = self.is_complete_since(marks, is_answer);
        turn
    }

    /// Whether the act before which there were so many marks leaves nothing more to choose here.
    fn is_complete_since(&self, marks: u32, is_answer: bool) -> bool {
        if let At::Contest { contest, .. } = self.top().at {
            let limit = self.begin.style.contest(contest).map_or(0, Contest::limit);
            return self.marks() > marks && self.selections.count(contest) >= limit;
        }
        let has_answer = matches!(
            self.top().at,
            At::Practice { chosen: Some(_), was_refused: false } | At::Languages
        );
        is_answer && has_answer
    }

    fn deed(&mut self, act: Act, out: &mut Vec<Output>) -> Turn {
        match act {
            Act::Nothing => Turn::Stayed(Vec::new()),
            Act::Go(at) => self.go(at),
            Act::Push(at) => self.push(at),
            Act::Swap(at) => self.swap(at),
            Act::Leave => self.leave(),
            Act::Set(setting) => self.set(setting),
            Act::Practise(answer) => self.practise(answer),
            Act::EndPractice => self.end_practice(),
            Act::TakeOffer(offered) => {
                self.comfort.pressing = offered;
                self.go(At::HowTo)
            }
            Act::HideOrShow => self.hide_or_show(),
            Act::Listen(listen) => self.listen_on(listen, out),
            Act::Pause => {
                self.listen_on(if self.is_paused { Listen::GoOn } else { Listen::Pause }, out)
            }
            // It needs to know what fits on the screen, and is done where that is known.
            Act::HearFromStart => Turn::Stayed(Vec::new()),
            Act::SpellFocused => self.spell_focused(),
            Act::TellHidden => Turn::news(Phrase::new(if self.comfort.is_screen_hidden {
                Message::SaidHidden
            } else {
                Message::SaidShown
            })),
            Act::EndListening => {
                self.leave();
                Turn::Returned
            }
            Act::Take(contest, option) => self.take(contest, option),
            Act::UndoAtLimit(contest, option) => self.undo_at_limit(contest, option),
            Act::Rank(contest, option, rank) => self.rank(contest, option, rank),
            Act::MoveRank(contest, option, rank) => self.move_rank(contest, option, rank),
            Act::UndoRank(contest, option) => self.undo_rank(contest, option),
            Act::UndoRankAnd(contest, option, lower) => self.undo_rank_and(contest, option, lower),
            Act::Key(key) => self.key(key),
            Act::DeleteLetter => self.delete_letter(),
            Act::Spell => self.spell(),
            Act::FinishName(contest, option) => self.finish_name(contest, option),
            Act::KeepBlank(contest, option) => self.keep_name(contest, option, WriteInText::new()),
            Act::UndoWriteIn(contest, option) => self.undo_write_in(contest, option),
            Act::Print => self.print(out),
            Act::ReadAgain => self.read_again(out),
            Act::Accept => self.accept(),
            Act::SpoilByDevice => self.go(At::Spoil { by_voter: false }),
            Act::Spoiled { by_voter, keep } => self.spoiled(by_voter, keep, out),
            Act::CallWorker(reason) => self.call_worker(reason, out),
            Act::WorkerHere => self.worker_here(out),
            Act::Stop => self.stop(out),
            Act::Finish => self.finish(out),
        }
    }

    pub(crate) fn set(&mut self, setting: Setting) -> Turn {
        let is_most = self.comfort.size == self.size_most && self.size_most < TypeSize::Largest;
        if setting == Setting::Larger && is_most {
            return self.refuse(Phrase::new(Message::SizeIsMost));
        }
        let comfort = &mut self.comfort;
        let pressing = &mut comfort.pressing;
        let up = |step: u8, steps: usize| {
            let last = u8::try_from(steps.saturating_sub(1)).unwrap_or(u8::MAX);
            step.saturating_add(1).min(last)
        };
        let pace = crate::PACE_STEPS.saturating_sub(1);
        let loudness = crate::LOUDNESS_STEPS.saturating_sub(1);
        match setting {
            Setting::Language(language) => comfort.language = language,
            Setting::Larger => comfort.size = comfort.size.larger(),
            Setting::Smaller => comfort.size = comfort.size.smaller(),
            Setting::NextPalette => comfort.palette = comfort.palette.next(),
            Setting::Faster => comfort.pace = comfort.pace.saturating_add(1).min(pace),
            Setting::Slower => comfort.pace = comfort.pace.saturating_sub(1),
            Setting::Louder => comfort.loudness = comfort.loudness.saturating_add(1).min(loudness),
            Setting::Softer => comfort.loudness = comfort.loudness.saturating_sub(1),
            Setting::Speech(on) => {
                comfort.speech = on;
                // A voter has the screen or the voice.
                comfort.is_screen_hidden &= on;
            }
            Setting::ScreenHidden(hidden) => comfort.is_screen_hidden = hidden,
            Setting::Switches(switches) => pressing.switches = switches,
            Setting::ScanSlower => pressing.scan = up(pressing.scan, SCAN_STEPS.len()),
            Setting::ScanFaster => pressing.scan = pressing.scan.saturating_sub(1),
            Setting::AcceptLonger => pressing.accept = up(pressing.accept, ACCEPT_STEPS.len()),
            Setting::AcceptShorter => pressing.accept = pressing.accept.saturating_sub(1),
            Setting::IgnoreLonger => pressing.ignore = up(pressing.ignore, IGNORE_STEPS.len()),
            Setting::IgnoreShorter => pressing.ignore = pressing.ignore.saturating_sub(1),
        }
        if let Setting::Speech(on) = setting {
            // There are fewer rows without a voice: the focus stays on the one that turns it on.
            let now = if on { Message::ComfortSpeechOff } else { Message::ComfortSpeechOn };
            let rows = content(self, &self.top().at).rows;
            let place = rows.iter().position(|(row, _)| row.label.message == now);
            if let Some(row) = place.and_then(|place| u16::try_from(place).ok()) {
                self.top_mut().focus = Some(Target::Row(row));
            }
        }
        Turn::news(self.setting_words(setting))
    }

    fn setting_words(&self, setting: Setting) -> Phrase {
        let step = setting_step;
        let comfort = &self.comfort;
        match setting {
            Setting::Language(_) => Phrase::new(Message::LanguageChosen),
            Setting::Larger | Setting::Smaller => Phrase::new(size_message(comfort.size)),
            Setting::NextPalette => Phrase::new(palette_message(comfort.palette)),
            Setting::Faster | Setting::Slower => {
                step(Message::PaceStep, comfort.pace, crate::PACE_STEPS)
            }
            Setting::Louder | Setting::Softer => {
                step(Message::LoudnessStep, comfort.loudness, crate::LOUDNESS_STEPS)
            }
            Setting::Speech(true) => Phrase::new(Message::SpeechIsOn),
            Setting::Speech(false) => Phrase::new(Message::SpeechIsOff),
            Setting::ScreenHidden(true) => Phrase::new(Message::ScreenIsHidden),
            Setting::ScreenHidden(false) => Phrase::new(Message::ScreenIsShown),
            Setting::Switches(switches) => Phrase::new(switches_message(switches)),
            Setting::ScanFaster | Setting::ScanSlower => scan_step(comfort.pressing),
            Setting::AcceptLonger | Setting::AcceptShorter => accept_step(comfort.pressing),
            Setting::IgnoreLonger | Setting::IgnoreShorter => ignore_step(comfort.pressing),
        }
    }

    /// Hides the screen for a voter who listens, or shows it.
    pub(crate) fn hide_or_show(&mut self) -> Turn {
        if self.comfort.is_screen_hidden {
            return self.set(Setting::ScreenHidden(false));
        }
        if !self.comfort.speech || !self.speech_works {
            return self.refuse(Phrase::new(Message::HideNeedsVoice));
        }
        // Touch will do nothing then: whoever has only touch must know before.
        if self.way == Way::Touch && !matches!(self.top().at, At::AskHide) {
            return self.push(At::AskHide);
        }
        if matches!(self.top().at, At::AskHide) {
            self.leave();
            let words = self.set(Setting::ScreenHidden(true));
            return match words {
                Turn::Stayed(news) => Turn::Arrived(news),
                other @ (Turn::Arrived(_) | Turn::Silent | Turn::Returned) => other,
            };
        }
        self.set(Setting::ScreenHidden(true))
    }

    /// Says why nothing was done, and shows it until the next press.
    pub(crate) fn refuse(&mut self, why: Phrase) -> Turn {
        self.refusal = Some(why.clone());
        Turn::news(why)
    }

    fn listen_on(&mut self, listen: Listen, out: &mut Vec<Output>) -> Turn {
        if !self.comfort.speech {
            return Turn::Silent;
        }
        self.is_paused = listen == Listen::Pause;
        out.push(Output::Listen(listen));
        Turn::Silent
    }

    /// The name that has the focus, letter by letter; on the screen for listening, the one below.
    fn spell_focused(&mut self) -> Turn {
        let is_listening = matches!(self.top().at, At::Listen);
        let layer = if is_listening { self.layer_below() } else { self.top() };
        match spelled(self, layer) {
            Some(letters) => {
                Turn::news(Phrase::new(Message::WriteInSpelled).with("letters", letters))
            }
            None => self.refuse(Phrase::new(Message::NothingToSpell)),
        }
    }

    fn end_practice(&mut self) -> Turn {
        let presses = core::mem::take(&mut self.presses);
        match presses.proposal(self.comfort.pressing) {
            Some(offered) => self.go(At::PressOffer { offered }),
            None => self.go(At::HowTo),
        }
    }

    fn practise(&mut self, answer: u8) -> Turn {
        let At::Practice { chosen, was_refused } = &mut self.top_mut().at else {
            return Turn::Stayed(Vec::new());
        };
        let message = match *chosen {
            Some(now) if now == answer => {
                (*chosen, *was_refused) = (None, false);
                Message::PracticeUndone
            }
            Some(_) => {
                *was_refused = true;
                Message::PracticeFull
            }
            None => {
                (*chosen, *was_refused) = (Some(answer), false);
                Message::PracticeChosen
            }
        };
        Turn::news(Phrase::new(message))
    }

    fn take(&mut self, contest: ContestIndex, option: OptionIndex) -> Turn {
        let style = self.begin.style.clone();
        let Some(definition) = style.contest(contest) else { return Turn::Stayed(Vec::new()) };
        let is_write_in =
            definition.option(option).is_some_and(|listed| listed.kind == OptionKind::WriteIn);
        let is_marked = self.selections.is_marked(contest, option);
        let is_full = self.selections.count(contest) >= definition.limit();
        match (definition.rule, is_write_in, is_marked) {
            (Rule::Choose { .. }, false, true) => {
                self.selections.undo(contest, option, LowerRanks::Stay);
                self.counted(contest, self.said_undone(contest, option, None))
            }
            (Rule::Choose { .. }, true, true) => self.push(At::WriteInChange { contest, option }),
            (Rule::Rank { .. }, _, true) => self.push(At::RankChange { contest, option }),
            (_, _, false) if is_full => self.push(At::Limit { contest, wanted: option }),
            (_, true, false) => {
                self.push(At::WriteIn { contest, option, name: WriteInText::new() })
            }
            (Rule::Rank { .. }, false, false) => {
                self.push(At::RankPick { contest, option, name: None })
            }
            (Rule::Choose { .. }, false, false) => self.choose(contest, option),
        }
    }

    fn choose(&mut self, contest: ContestIndex, option: OptionIndex) -> Turn {
        let style = self.begin.style.clone();
        match self.selections.choose(&style, contest, option) {
            Ok(()) => self.counted(contest, self.said_chosen(contest, option)),
            Err(Refusal::LimitReached) => self.push(At::Limit { contest, wanted: option }),
            // No row offers an option that isn't there, so there is nothing to say.
            Err(
                Refusal::RankTaken(_)
                | Refusal::AlreadyRanked(_)
                | Refusal::NoSuchOption
                | Refusal::NameTooLong
                | Refusal::NoSuchCharacter,
            ) => Turn::Stayed(Vec::new()),
        }
    }

    fn said_chosen(&self, contest: ContestIndex, option: OptionIndex) -> Vec<Phrase> {
        let name = option_phrase(self, contest, option);
        alloc::vec![Phrase::new(Message::SaidChosen).with("name", Arg::Phrase(name))]
    }

    fn said_undone(
        &self,
        contest: ContestIndex,
        option: OptionIndex,
        name: Option<Phrase>,
    ) -> Vec<Phrase> {
        let name = name.unwrap_or_else(|| option_phrase(self, contest, option));
        alloc::vec![Phrase::new(Message::SaidUndone).with("name", Arg::Phrase(name))]
    }

    /// News on the same screen, with how many are now marked. On another screen its own lines say
    /// that.
    fn counted(&self, contest: ContestIndex, mut news: Vec<Phrase>) -> Turn {
        news.push(contest_count(self, contest));
        Turn::Stayed(news)
    }

    fn undo_at_limit(&mut self, contest: ContestIndex, option: OptionIndex) -> Turn {
        let rule = self.begin.style.contest(contest).map(|definition| definition.rule);
        if let Some(Rule::Rank { .. }) = rule {
            // What becomes of the ranks below is asked here as anywhere.
            return self.undo_rank(contest, option);
        }
        let name = option_phrase(self, contest, option);
        self.selections.undo(contest, option, LowerRanks::Stay);
        self.leave();
        Turn::Arrived(self.said_undone(contest, option, Some(name)))
    }

    fn rank(&mut self, contest: ContestIndex, option: OptionIndex, rank: Rank) -> Turn {
        let name =
            if let At::RankPick { name, .. } = &mut self.top_mut().at { name.take() } else { None };
        let style = self.begin.style.clone();
        if self.selections.rank(&style, contest, option, rank).is_err() {
            // Only free ranks are offered; were one taken, the voter stays and sees who has it.
            return Turn::arrived();
        }
        if let Some(name) = name {
            // The option was offered as a write-in line, so it is one.
            let written = self.selections.write_in(contest, option, name);
            debug_assert!(written.is_ok(), "only write-in lines are given a name");
        }
        self.leave();
        Turn::Arrived(self.said_ranked(contest, option, rank))
    }

    fn said_ranked(&self, contest: ContestIndex, option: OptionIndex, rank: Rank) -> Vec<Phrase> {
        let name = option_phrase(self, contest, option);
        let said =
            Phrase::new(Message::SaidRanked).number("rank", rank.0).with("name", Arg::Phrase(name));
        alloc::vec![said]
    }

    fn move_rank(&mut self, contest: ContestIndex, option: OptionIndex, rank: Rank) -> Turn {
        let style = self.begin.style.clone();
        let name = self.selections.written(contest, option).cloned();
        let before = self.selections.rank_of(&style, contest, option);
        self.selections.undo(contest, option, LowerRanks::Stay);
        let target =
            if self.selections.at_rank(contest, rank).is_none() { Some(rank) } else { before };
        if let Some(target) = target {
            let moved = self.selections.rank(&style, contest, option, target);
            debug_assert!(moved.is_ok(), "a free rank was chosen");
        }
        if let Some(name) = name {
            let written = self.selections.write_in(contest, option, name);
            debug_assert!(written.is_ok(), "it had a name before");
        }
        self.leave();
        Turn::Arrived(self.said_ranked(contest, option, target.unwrap_or(rank)))
    }

    fn undo_rank(&mut self, contest: ContestIndex, option: OptionIndex) -> Turn {
        let style = self.begin.style.clone();
        let rank = self.selections.rank_of(&style, contest, option);
        let has_lower = style.contest(contest).is_some_and(|definition| {
            definition.indexed_options().any(|(other, _)| {
                self.selections.rank_of(&style, contest, other) > rank && other != option
            })
        });
        if has_lower {
            return self.swap(At::LowerRanks { contest, option });
        }
        self.undo_rank_and(contest, option, LowerRanks::Stay)
    }

    fn undo_rank_and(
        &mut self,
        contest: ContestIndex,
        option: OptionIndex,
        lower: LowerRanks,
    ) -> Turn {
        let name = option_phrase(self, contest, option);
        self.selections.undo(contest, option, lower);
        self.leave();
        Turn::Arrived(self.said_undone(contest, option, Some(name)))
    }

    fn key(&mut self, key: char) -> Turn {
        let At::WriteIn { name, .. } = &mut self.top_mut().at else {
            return Turn::Stayed(Vec::new());
        };
        let said = |message| Phrase::new(message).with("letter", Arg::Character(key));
        match name.push(key) {
            Ok(()) => Turn::news(said(Message::KeyWritten)),
            Err(_) => self.refuse(said(Message::KeyRefused)),
        }
    }

    fn delete_letter(&mut self) -> Turn {
        let At::WriteIn { name, .. } = &mut self.top_mut().at else {
            return Turn::Stayed(Vec::new());
        };
        match name.pop() {
            Some(letter) => Turn::news(
                Phrase::new(Message::WriteInDeleted).with("letter", Arg::Character(letter)),
            ),
            None => self.refuse(Phrase::new(Message::WriteInNoLetter)),
        }
    }

    fn spell(&mut self) -> Turn {
        let At::WriteIn { name, .. } = &self.top().at else { return Turn::Stayed(Vec::new()) };
        Turn::news(if name.as_str().is_empty() {
            Phrase::new(Message::WriteInNothing)
        } else {
            Phrase::new(Message::WriteInSpelled).with("letters", Arg::Spelled(name.clone()))
        })
    }

    fn finish_name(&mut self, contest: ContestIndex, option: OptionIndex) -> Turn {
        let At::WriteIn { name, .. } = &mut self.top_mut().at else {
            return Turn::Stayed(Vec::new());
        };
        if name.is_blank() {
            return self.swap(At::BlankName { contest, option });
        }
        let name = core::mem::take(name);
        self.keep_name(contest, option, name)
    }

    /// Marks a write-in line with this name, which may be empty.
    fn keep_name(&mut self, contest: ContestIndex, option: OptionIndex, name: WriteInText) -> Turn {
        let style = self.begin.style.clone();
        let is_ranked = matches!(style.contest(contest).map(|c| c.rule), Some(Rule::Rank { .. }));
        if is_ranked && !self.selections.is_marked(contest, option) {
            return self.swap(At::RankPick { contest, option, name: Some(name) });
        }
        let written = self.selections.write_in(contest, option, name);
        debug_assert!(written.is_ok(), "only write-in lines come here");
        self.leave();
        if let Some(rank) = self.selections.rank_of(&style, contest, option) {
            return Turn::Arrived(self.said_ranked(contest, option, rank));
        }
        match self.choose(contest, option) {
            Turn::Stayed(_) => Turn::Arrived(self.said_chosen(contest, option)),
            arrived @ (Turn::Arrived(_) | Turn::Silent | Turn::Returned) => arrived,
        }
    }

    fn undo_write_in(&mut self, contest: ContestIndex, option: OptionIndex) -> Turn {
        let name = option_phrase(self, contest, option);
        self.selections.undo(contest, option, LowerRanks::Stay);
        self.leave();
        Turn::Arrived(self.said_undone(contest, option, Some(name)))
    }

    fn print(&mut self, out: &mut Vec<Output>) -> Turn {
        self.paper = None;
        out.push(Output::Print(self.selections.clone()));
        self.go(At::Printing)
    }

    fn read_again(&mut self, out: &mut Vec<Output>) -> Turn {
        self.paper = None;
        out.push(Output::ReadSheets);
        self.go(At::ReadingPaper)
    }

    /// The voter takes the paper as right: nothing is needed any more, so nothing is kept.
    fn accept(&mut self) -> Turn {
        self.forget();
        self.go(At::Done)
    }

    fn spoiled(&mut self, by_voter: bool, keep: bool, out: &mut Vec<Output>) -> Turn {
        out.push(Output::Record(if by_voter {
            self.spoiled_by_voter = self.spoiled_by_voter.saturating_add(1);
            Event::SpoiledByVoter
        } else {
            Event::SpoiledByDevice
        }));
        self.paper = None;
        if keep {
            return self.go(At::Review);
        }
        self.selections = Selections::none(&self.begin.style);
        self.go(Self::first_contest())
    }

    pub(crate) fn call_worker(&mut self, reason: WorkerReason, out: &mut Vec<Output>) -> Turn {
        out.push(Output::Hush);
        out.push(Output::Record(Event::WorkerCalled));
        if matches!(self.top().at, At::Help) {
            self.leave();
        }
        self.push(At::Worker { reason, is_here: false })
    }

    /// A worker wants in: one sentence, which says nothing of a choice, and then silence.
    pub(crate) fn worker_here(&mut self, out: &mut Vec<Output>) -> Turn {
        if let At::Worker { is_here, .. } = &mut self.top_mut().at {
            *is_here = true;
        }
        out.push(Output::Record(Event::WorkerHere));
        self.say(say::news(alloc::vec![Phrase::new(Message::WorkerCame)], false), out);
        Turn::Silent
    }

    /// True while a worker is asked for a code or is in.
    pub(crate) fn has_worker(&self) -> bool {
        matches!(self.top().at, At::Worker { is_here: true, .. })
    }

    /// The worker's key: hides and silences the visit from wherever it is. A printer that prints
    /// goes on, and so does the reader.
    pub(crate) fn worker_key(&mut self, out: &mut Vec<Output>) -> Turn {
        let at = &self.top().at;
        if matches!(at, At::Ended | At::ConfirmEnd) {
            return Turn::Silent;
        }
        if !matches!(at, At::Worker { .. }) {
            // A question that nobody answers isn't where the voter was, and nobody may be there.
            let is_asked = matches!(at, At::MoreTime);
            if is_asked {
                self.leave();
            }
            let reason = if is_asked { WorkerReason::NoPress } else { WorkerReason::Came };
            self.push(At::Worker { reason, is_here: false });
        }
        if self.begin.is_attended { self.worker_here(out) } else { Turn::arrived() }
    }

    /// What the station answers to a worker who wants in.
    pub(crate) fn worker_says(
        &mut self,
        says: WorkerSays,
        ruler: &dyn Ruler,
        out: &mut Vec<Output>,
    ) {
        if !self.has_worker() {
            return;
        }
        match says {
            WorkerSays::NotIn => {
                if let At::Worker { is_here, .. } = &mut self.top_mut().at {
                    *is_here = false;
                }
                self.tell(Turn::arrived(), ruler, out);
            }
            WorkerSays::GoOn => {
                let turn = self.leave();
                self.pressed_now();
                self.tell(turn, ruler, out);
            }
            // The worker's own window is in front: there is nothing to show or to say.
            WorkerSays::Stop => {
                out.push(Output::Hush);
                self.stop(out);
            }
        }
    }

    fn stop(&mut self, out: &mut Vec<Output>) -> Turn {
        self.forget();
        out.push(Output::Record(Event::VisitStopped));
        out.push(Output::End);
        self.go(At::Ended)
    }

    fn finish(&mut self, out: &mut Vec<Output>) -> Turn {
        out.push(Output::Record(Event::VisitFinished));
        out.push(Output::End);
        self.go(At::Ended)
    }

    fn forget(&mut self) {
        self.selections = Selections::none(&self.begin.style);
        self.paper = None;
    }

    /// What "back" and "forward" do on the top screen.
    pub(crate) fn bar_act(&self, is_forward: bool) -> Option<Act> {
        let content = content(self, &self.top().at);
        let end = if is_forward { content.forward } else { content.back };
        end.map(|(_, act)| act)
    }
}
