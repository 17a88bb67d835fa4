//! Tests of the conductor: inputs and times in, actions out. No service, no sound, no clock.

use super::*;
use crate::segment::Pause;

/// A conductor with the time and everything that it did since it was last asked.
struct Stage {
    conductor: Conductor,
    now: Duration,
    actions: Vec<Action>,
}

impl Stage {
    /// At the start, with English and Spanish to warm.
    fn new() -> Self {
        let mut actions = Vec::new();
        let languages = vec!["en".to_owned(), "es".to_owned()];
        let mut recordings = Recordings::default();
        for text in ["Recorded.", "Also recorded."] {
            recordings.add(text, "en", std::sync::Arc::new(|| Err(crate::recorded::Unreadable)));
        }
        recordings.add("Khmer.", "km", std::sync::Arc::new(|| Err(crate::recorded::Unreadable)));
        let pace = Pace::default();
        let conductor = Conductor::new(languages, recordings, pace, Duration::ZERO, &mut actions);
        Self { conductor, now: Duration::ZERO, actions }
    }

    /// With warm voices.
    fn up() -> Self {
        let mut stage = Self::new();
        stage.connect();
        assert_eq!(stage.told(), [VoiceEvent::Ready { languages: vec!["en-us".to_owned()] }]);
        stage
    }

    /// The service answers and every warm-up word ends.
    fn connect(&mut self) {
        self.mouth(Report::Open(vec!["en-us".to_owned()]));
        for _ in 0..2 {
            let ticket = self.conductor.tickets;
            self.mouth(Report::Accepted(ticket));
            self.mouth(Report::Ended(ticket));
        }
    }

    fn input(&mut self, input: Input) {
        self.conductor.handle(self.now, input, &mut self.actions);
    }

    fn mouth(&mut self, report: Report) {
        self.input(Input::Mouth(self.conductor.generation, report));
    }

    fn say(&mut self, text: &str, serial: u64) {
        self.input(Input::Say(vec![Segment::new(text, "en")], Serial(serial)));
    }

    /// Time passes: every deadline on the way is met, and the service answers checks.
    fn wait(&mut self, millis: u64) {
        let end = self.now + Duration::from_millis(millis);
        while let Some(at) = self.conductor.deadline().filter(|at| *at <= end) {
            assert!(at >= self.now, "a deadline in the past would spin");
            self.now = at;
            self.input(Input::Tick);
            if self.actions.last() == Some(&Action::Check) {
                self.mouth(Report::Alive);
            }
        }
        self.now = end;
        self.input(Input::Tick);
    }

    /// What was done since it was last asked, but checks.
    fn done(&mut self) -> Vec<Action> {
        let mut done = std::mem::take(&mut self.actions);
        done.retain(|action| *action != Action::Check);
        done
    }

    fn told(&mut self) -> Vec<VoiceEvent> {
        self.done()
            .into_iter()
            .filter_map(|action| if let Action::Tell(event) = action { Some(event) } else { None })
            .collect()
    }

    /// Texts handed to the service, warm-up words apart, with whether they cut.
    fn spoken(&mut self) -> Vec<(String, bool)> {
        self.done()
            .into_iter()
            .filter_map(|action| {
                if let Action::Speak { segment, silent: false, cut, .. } = action {
                    Some((segment.text, cut))
                } else {
                    None
                }
            })
            .collect()
    }
}

fn texts(texts: &[(&str, bool)]) -> Vec<(String, bool)> {
    texts.iter().map(|(text, cut)| ((*text).to_owned(), *cut)).collect()
}

#[test]
fn the_start_warms_each_language_in_silence_and_then_is_ready() {
    let mut stage = Stage::new();
    assert_eq!(stage.done(), [Action::Close, Action::Open(Generation(1))]);
    stage.mouth(Report::Open(vec!["en-us".to_owned()]));
    for language in ["en", "es"] {
        let ticket = stage.conductor.tickets;
        let segment = Segment::new("a", language);
        let pace = Pace::FASTEST;
        assert_eq!(
            stage.done(),
            [Action::Speak { ticket, segment, pace, silent: true, cut: false }]
        );
        stage.mouth(Report::Accepted(ticket));
        assert_eq!(stage.done(), []);
        stage.mouth(Report::Ended(ticket));
    }
    assert_eq!(stage.told(), [VoiceEvent::Ready { languages: vec!["en-us".to_owned()] }]);
}

#[test]
fn words_said_before_the_voice_is_warm_are_said_then() {
    let mut stage = Stage::new();
    stage.say("old", 1);
    stage.say("new", 2);
    assert_eq!(stage.spoken(), []);
    stage.connect();
    assert_eq!(stage.spoken(), texts(&[("new", false)]));
}

#[test]
fn an_utterance_ends_when_its_last_sound_ends() {
    let mut stage = Stage::up();
    let segments = vec![
        Segment::new("one", "en").then(Pause::Long),
        Segment::new("dos", "es"),
        Segment::new("three", "en"),
    ];
    stage.input(Input::Say(segments, Serial(7)));
    assert_eq!(stage.spoken(), texts(&[("one", false)]));
    let ticket = stage.conductor.tickets;
    stage.mouth(Report::Accepted(ticket));
    stage.mouth(Report::Ended(ticket));
    assert_eq!(stage.spoken(), [], "the pause comes first");
    stage.wait(Pause::Long.millis() - 1);
    assert_eq!(stage.spoken(), []);
    stage.wait(1);
    assert_eq!(stage.spoken(), texts(&[("dos", false)]));
    stage.mouth(Report::Ended(ticket));
    assert_eq!(stage.spoken(), [], "an old ticket's end is no end");
    stage.mouth(Report::Ended(stage.conductor.tickets));
    assert_eq!(stage.spoken(), texts(&[("three", false)]));
    stage.mouth(Report::Ended(stage.conductor.tickets));
    assert_eq!(stage.told(), [VoiceEvent::Ended(Serial(7))]);
    assert_eq!(stage.conductor.current(), None);
}

#[test]
fn new_words_cut_the_old_and_only_they_end() {
    let mut stage = Stage::up();
    stage.say("old", 1);
    let old = stage.conductor.tickets;
    stage.mouth(Report::Accepted(old));
    stage.say("new", 2);
    assert_eq!(stage.spoken(), texts(&[("old", false), ("new", true)]));
    stage.mouth(Report::Cut(old));
    stage.mouth(Report::Ended(old));
    assert_eq!(stage.told(), []);
    stage.mouth(Report::Ended(stage.conductor.tickets));
    assert_eq!(stage.told(), [VoiceEvent::Ended(Serial(2))]);
}

#[test]
fn stop_is_silence_and_no_end() {
    let mut stage = Stage::up();
    stage.say("words", 1);
    stage.mouth(Report::Accepted(stage.conductor.tickets));
    stage.done();
    stage.input(Input::Stop);
    assert_eq!(stage.done(), [Action::Hush]);
    stage.mouth(Report::Cut(stage.conductor.tickets));
    stage.wait(60_000);
    assert_eq!(stage.done(), []);
    stage.input(Input::Stop);
    assert_eq!(stage.done(), [], "nothing to stop");
}

#[test]
fn nothing_to_say_cuts_and_ends_at_once() {
    let mut stage = Stage::up();
    stage.say("old", 1);
    stage.done();
    stage.say("\u{2068}\u{2069}", 2);
    assert_eq!(stage.done(), [Action::Hush, Action::Tell(VoiceEvent::Ended(Serial(2)))]);
}

#[test]
fn an_end_that_never_comes_is_a_fault_and_a_tone() {
    let mut stage = Stage::up();
    stage.say("Maria Okafor, not chosen.", 1);
    stage.mouth(Report::Accepted(stage.conductor.tickets));
    stage.done();
    let limit = length_max(&Segment::new("Maria Okafor, not chosen.", "en"), Pace::default());
    assert!((Duration::from_secs(4)..Duration::from_secs(10)).contains(&limit), "{limit:?}");
    stage.wait(u64::try_from(limit.as_millis()).unwrap());
    let done = stage.done();
    assert_eq!(
        done,
        [Action::Tell(VoiceEvent::Fault(Fault::NeverEnded)), Action::Tone, Action::Hush]
    );
    stage.input(Input::Tone(ToneOutcome::Sounded));
    assert_eq!(stage.told(), [VoiceEvent::Tone(ToneOutcome::Sounded)]);
    // The next try hears its warm-up words end: what was cut off is said again.
    stage.wait(300);
    for _ in 0..2 {
        stage.mouth(Report::Ended(stage.conductor.tickets));
    }
    let done = stage.done();
    assert!(done.contains(&Action::Tell(VoiceEvent::Restored)), "{done:?}");
    assert!(matches!(done.last(), Some(Action::Speak { silent: false, .. })), "{done:?}");
}

#[test]
fn a_dead_service_is_reconnected_and_the_latest_words_said_again() {
    let mut stage = Stage::up();
    stage.say("old", 1);
    stage.mouth(Report::Ended(stage.conductor.tickets));
    stage.say("latest", 2);
    stage.done();
    let dead = stage.conductor.generation;
    stage.mouth(Report::Lost);
    assert_eq!(stage.told(), [VoiceEvent::Fault(Fault::ServiceDied)]);
    // Reports of the dead connection don't count any more.
    stage.input(Input::Mouth(dead, Report::Lost));
    stage.input(Input::Mouth(dead, Report::Ended(stage.conductor.tickets)));
    assert_eq!(stage.told(), []);
    stage.wait(250);
    assert!(matches!(stage.done()[..], [Action::Close, Action::Open(_)]));
    stage.mouth(Report::CannotOpen(Fault::NoService));
    assert_eq!(stage.told(), [], "told once");
    stage.wait(500);
    assert!(matches!(stage.done()[..], [Action::Close, Action::Open(_)]));
    stage.connect();
    let done = stage.done();
    assert!(done.contains(&Action::Tell(VoiceEvent::Restored)));
    assert!(matches!(done.last(), Some(Action::Speak { segment, .. }) if segment.text == "latest"));
}

#[test]
fn words_that_ended_or_were_stopped_are_not_said_again() {
    for stop in [true, false] {
        let mut stage = Stage::up();
        stage.say("words", 1);
        if stop {
            stage.input(Input::Stop);
        } else {
            stage.mouth(Report::Ended(stage.conductor.tickets));
        }
        stage.mouth(Report::Lost);
        stage.wait(250);
        stage.done();
        stage.connect();
        assert_eq!(stage.told(), [VoiceEvent::Restored]);
    }
}

#[test]
fn a_service_that_hangs_is_a_fault_idle_or_asked() {
    let mut stage = Stage::up();
    // Idle: the check isn't answered.
    stage.now += CHECK_EVERY;
    stage.input(Input::Tick);
    assert_eq!(std::mem::take(&mut stage.actions), [Action::Check]);
    stage.now += ANSWER_MAX;
    stage.input(Input::Tick);
    assert_eq!(stage.told(), [VoiceEvent::Fault(Fault::ServiceHung)]);
    // Asked: the text isn't taken, though checks are answered.
    let mut stage = Stage::up();
    stage.say("words", 1);
    stage.wait(2_000);
    assert_eq!(stage.told(), [VoiceEvent::Fault(Fault::ServiceHung)]);
    // It costs a thread a try, so tries end.
    let mut opened = 0;
    for _ in 0..100 {
        stage.wait(10_000);
        opened += stage.done().iter().filter(|a| matches!(a, Action::Open(_))).count();
    }
    assert!((1..=16).contains(&opened), "{opened}");
}

#[test]
fn a_lost_sound_server_is_a_fault_at_once_and_tried_only_when_it_is_back() {
    let mut stage = Stage::up();
    stage.say("words", 1);
    stage.done();
    stage.input(Input::SoundLost);
    let done = stage.done();
    assert_eq!(done[0], Action::Tell(VoiceEvent::Fault(Fault::NoSound)));
    assert_eq!(done[1], Action::Tone);
    stage.input(Input::Tone(ToneOutcome::Unheard));
    assert_eq!(stage.told(), [VoiceEvent::Tone(ToneOutcome::Unheard)]);
    stage.wait(60_000);
    assert_eq!(stage.done(), []);
    stage.input(Input::SoundFound);
    for _ in 0..2 {
        stage.mouth(Report::Ended(stage.conductor.tickets));
    }
    let done = stage.done();
    assert!(done.contains(&Action::Tell(VoiceEvent::Restored)));
    assert!(matches!(done.last(), Some(Action::Speak { segment, .. }) if segment.text == "words"));
}

#[test]
fn a_start_without_sound_is_a_fault_and_recovers() {
    let mut stage = Stage::new();
    stage.input(Input::SoundLost);
    assert_eq!(stage.told(), [VoiceEvent::Fault(Fault::NoSound)]);
    stage.input(Input::Tone(ToneOutcome::Unheard));
    stage.mouth(Report::Open(vec!["en-us".to_owned()]));
    stage.done();
    stage.wait(60_000);
    assert_eq!(stage.done(), []);
    stage.input(Input::SoundFound);
    for _ in 0..2 {
        stage.mouth(Report::Ended(stage.conductor.tickets));
    }
    assert_eq!(stage.told(), [VoiceEvent::Restored]);
}

#[test]
fn every_press_is_answered_by_a_tone_while_there_is_no_speech() {
    let mut stage = Stage::up();
    stage.input(Input::SoundLost);
    stage.input(Input::Tone(ToneOutcome::Sounded));
    stage.done();
    stage.say("one", 1);
    assert_eq!(stage.done(), [Action::Tone]);
    stage.say("two", 2);
    assert_eq!(stage.done(), [], "one tone at a time");
    // A tone that nobody reports on is unheard.
    stage.wait(2_000);
    assert_eq!(stage.told(), [VoiceEvent::Tone(ToneOutcome::Unheard)]);
    stage.say("three", 3);
    assert_eq!(stage.done(), [Action::Tone]);
}

#[test]
fn no_address_is_told_and_not_tried_again() {
    let mut stage = Stage::new();
    stage.mouth(Report::CannotOpen(Fault::NoAddress));
    assert_eq!(stage.told(), [VoiceEvent::Fault(Fault::NoAddress)]);
    stage.wait(60_000);
    assert_eq!(stage.told(), [VoiceEvent::Tone(ToneOutcome::Unheard)]);
}

#[test]
fn a_language_without_a_voice_is_told_and_the_rest_is_said() {
    let mut stage = Stage::up();
    let segments = vec![Segment::new("x", "km"), Segment::new("two", "en")];
    stage.input(Input::Say(segments, Serial(1)));
    stage.done();
    stage.mouth(Report::NoVoice(stage.conductor.tickets));
    let done = stage.done();
    assert_eq!(done[0], Action::Tell(VoiceEvent::NoVoice { language: "km".to_owned() }));
    assert_eq!(done[1], Action::Tone);
    assert!(matches!(&done[2], Action::Speak { segment, .. } if segment.text == "two"));
}

#[test]
fn the_pace_counts_from_the_next_segment_and_the_loudness_at_once() {
    let mut stage = Stage::up();
    stage.input(Input::SetPace(Pace::SLOWEST));
    stage.input(Input::SetLoudness(Loudness::SOFTEST));
    assert_eq!(stage.done(), [Action::Gain(Loudness::SOFTEST)]);
    stage.say("words", 1);
    assert!(matches!(stage.done()[..], [Action::Speak { pace: Pace::SLOWEST, .. }]));
}

#[test]
fn listening_goes_on_after_an_aside_with_what_was_said_before() {
    let mut stage = Stage::up();
    stage.say("One. Two. Three.", 1);
    stage.done();
    for (serial, next) in [(2, "Two."), (3, "Three.")] {
        stage.input(Input::Aside(vec![Segment::new("Pause", "en")], Serial(serial)));
        assert!(
            matches!(&stage.done()[..], [Action::Speak { segment, .. }] if segment.text == "Pause"),
            "an aside is said"
        );
        stage.input(Input::Listen(Listening::SentenceOn));
        let done = stage.done();
        assert!(
            matches!(&done[..], [Action::Speak { segment, .. }] if segment.text.trim() == next),
            "{done:?}"
        );
    }
    // Other words end it: there is nothing to go back to.
    stage.say("New.", 4);
    stage.done();
    stage.input(Input::Listen(Listening::SentenceBack));
    let done = stage.done();
    assert!(matches!(&done[..], [Action::Speak { segment, .. }] if segment.text == "New."));
}

#[test]
fn debug_output_of_actions_holds_no_text() {
    let mut stage = Stage::up();
    stage.say("Zyxwvut", 1);
    assert!(!format!("{:?}", stage.actions).contains("Zyx"));
}

/// A stage that says three sentences, the first of which sounds.
fn three_sentences() -> Stage {
    let mut stage = Stage::up();
    stage.say("One. Two. Three.", 1);
    stage.mouth(Report::Accepted(stage.conductor.tickets));
    assert_eq!(stage.spoken(), texts(&[("One.", false)]));
    stage
}

impl Stage {
    fn listen(&mut self, listening: Listening) {
        self.input(Input::Listen(listening));
    }

    /// The service takes and says what it was given last.
    fn sound_ends(&mut self) {
        let ticket = self.conductor.tickets;
        self.mouth(Report::Accepted(ticket));
        self.mouth(Report::Ended(ticket));
    }
}

#[test]
fn a_pause_is_silence_and_going_on_says_its_sentence_again() {
    let mut stage = three_sentences();
    stage.sound_ends();
    assert_eq!(stage.spoken(), texts(&[("Two.", false)]));
    let cut = stage.conductor.tickets;
    stage.mouth(Report::Accepted(cut));
    stage.listen(Listening::Pause);
    assert_eq!(stage.done(), [Action::Hush]);
    stage.listen(Listening::Pause);
    assert_eq!(stage.done(), [], "already silent");
    // What the service still tells of the old words changes nothing.
    stage.mouth(Report::Cut(cut));
    stage.mouth(Report::Ended(cut));
    stage.wait(600_000);
    assert_eq!(stage.done(), [], "silence is no fault and no end");
    stage.listen(Listening::GoOn);
    assert_eq!(stage.spoken(), texts(&[("Two.", false)]));
    stage.listen(Listening::GoOn);
    assert_eq!(stage.done(), [], "it goes on already");
    stage.sound_ends();
    assert_eq!(stage.spoken(), texts(&[("Three.", false)]));
    stage.sound_ends();
    assert_eq!(stage.told(), [VoiceEvent::Ended(Serial(1))]);
}

#[test]
fn sentences_back_and_on_cut_and_go_on_from_there() {
    let mut stage = three_sentences();
    stage.listen(Listening::SentenceOn);
    assert_eq!(stage.spoken(), texts(&[("Two.", true)]));
    stage.listen(Listening::SentenceOn);
    stage.listen(Listening::SentenceOn);
    assert_eq!(stage.spoken(), texts(&[("Three.", true), ("Three.", true)]), "the last again");
    stage.listen(Listening::SentenceBack);
    stage.listen(Listening::SentenceBack);
    stage.listen(Listening::SentenceBack);
    let first = [("Two.", true), ("One.", true), ("One.", true)];
    assert_eq!(stage.spoken(), texts(&first), "the first again");
    for next in ["Two.", "Three."] {
        stage.sound_ends();
        assert_eq!(stage.spoken(), texts(&[(next, false)]));
    }
    stage.sound_ends();
    assert_eq!(stage.told(), [VoiceEvent::Ended(Serial(1))]);
}

#[test]
fn after_the_end_the_last_sentence_can_be_said_again_and_ends_again() {
    for listening in [Listening::SentenceBack, Listening::SentenceOn] {
        let mut stage = three_sentences();
        for _ in 0..3 {
            stage.sound_ends();
        }
        assert_eq!(stage.told(), [VoiceEvent::Ended(Serial(1))]);
        stage.listen(Listening::Pause);
        stage.listen(Listening::GoOn);
        assert_eq!(stage.done(), [], "nothing sounds, nothing is paused");
        stage.listen(listening);
        assert_eq!(stage.spoken(), texts(&[("Three.", false)]));
        stage.sound_ends();
        assert_eq!(stage.told(), [VoiceEvent::Ended(Serial(1))]);
    }
}

#[test]
fn a_move_while_paused_goes_on_from_there() {
    for (listening, expected) in
        [(Listening::SentenceBack, "One."), (Listening::SentenceOn, "Two.")]
    {
        let mut stage = three_sentences();
        stage.listen(Listening::Pause);
        stage.done();
        stage.listen(listening);
        assert_eq!(stage.spoken(), texts(&[(expected, false)]));
    }
}

#[test]
fn new_words_replace_what_was_paused_and_silence_forgets_it() {
    let mut stage = three_sentences();
    stage.listen(Listening::Pause);
    stage.done();
    stage.say("New.", 2);
    assert_eq!(stage.spoken(), texts(&[("New.", false)]));
    stage.input(Input::Stop);
    stage.done();
    for listening in
        [Listening::Pause, Listening::GoOn, Listening::SentenceBack, Listening::SentenceOn]
    {
        stage.listen(listening);
        assert_eq!(stage.done(), [], "{listening:?}");
    }
}

#[test]
fn what_is_paused_stays_so_through_a_fault_and_is_said_after_it() {
    let mut stage = three_sentences();
    stage.sound_ends();
    stage.listen(Listening::Pause);
    stage.done();
    stage.mouth(Report::Lost);
    assert_eq!(stage.told(), [VoiceEvent::Fault(Fault::ServiceDied)]);
    stage.input(Input::Tone(ToneOutcome::Sounded));
    stage.done();
    stage.listen(Listening::GoOn);
    assert_eq!(stage.done(), [Action::Tone], "no press in silence");
    stage.listen(Listening::Pause);
    stage.wait(250);
    stage.done();
    stage.connect();
    assert_eq!(stage.spoken(), [], "still paused");
    stage.listen(Listening::GoOn);
    assert_eq!(stage.spoken(), texts(&[("Two.", false)]));
}

#[test]
fn a_pause_before_the_voice_is_warm_holds() {
    let mut stage = Stage::new();
    stage.say("One. Two.", 1);
    stage.listen(Listening::Pause);
    stage.connect();
    assert_eq!(stage.spoken(), []);
    stage.listen(Listening::GoOn);
    assert_eq!(stage.spoken(), texts(&[("One.", false)]));
}

#[test]
fn the_silence_between_two_sentences_can_be_paused_and_skipped() {
    for (listening, then, expected) in [
        (Listening::Pause, Listening::GoOn, "Two."),
        (Listening::SentenceOn, Listening::GoOn, "Two."),
        (Listening::SentenceBack, Listening::GoOn, "One."),
    ] {
        let mut stage = Stage::up();
        let segments =
            vec![Segment::new("One.", "en").then(Pause::Long), Segment::new("Two.", "en")];
        stage.input(Input::Say(segments, Serial(1)));
        stage.sound_ends();
        stage.done();
        stage.listen(listening);
        stage.listen(then);
        assert_eq!(stage.spoken(), texts(&[(expected, false)]), "{listening:?}");
    }
}

#[test]
fn a_language_without_a_voice_is_told_once_for_many_sentences() {
    let mut stage = Stage::up();
    let segments = vec![Segment::new("X! Y! Z!", "km")];
    stage.input(Input::Say(segments, Serial(1)));
    let mut told = stage.told();
    for _ in 0..3 {
        stage.mouth(Report::NoVoice(stage.conductor.tickets));
        told.extend(stage.told());
    }
    let no_voice = VoiceEvent::NoVoice { language: "km".to_owned() };
    assert_eq!(told, [no_voice, VoiceEvent::Ended(Serial(1))]);
}

impl Stage {
    fn player(&mut self, played: fn(Ticket) -> Played) {
        self.input(Input::Player(played(self.conductor.tickets)));
    }

    /// What was done, in short; texts for the voice as they are.
    fn short(&mut self) -> Vec<String> {
        let one = |action: Action| match action {
            Action::Speak { segment, cut: false, .. } => segment.text,
            Action::Speak { segment, cut: true, .. } => format!("cut {}", segment.text),
            Action::Play { .. } => "play".to_owned(),
            Action::Halt => "halt".to_owned(),
            Action::Hush => "hush".to_owned(),
            Action::Tell(event) => format!("{event:?}"),
            Action::Tone => "tone".to_owned(),
            Action::Open(_) | Action::Close | Action::Check | Action::Gain(_) => String::new(),
        };
        self.done().into_iter().map(one).collect()
    }
}

#[test]
fn a_recording_is_played_in_its_place_and_its_end_goes_on() {
    let mut stage = Stage::up();
    stage.say("One. Recorded. Three.", 1);
    assert_eq!(stage.short(), ["One."]);
    stage.sound_ends();
    assert_eq!(stage.short(), ["play"]);
    stage.player(Played::Begun);
    // The service's reports are not about it, and an old recording's end isn't its end.
    stage.mouth(Report::Cut(Ticket(0)));
    stage.input(Input::Player(Played::Ended(Ticket(0))));
    stage.wait(100_000);
    assert_eq!(stage.short(), [] as [&str; 0]);
    stage.player(Played::Ended);
    assert_eq!(stage.short(), ["Three."]);
    stage.sound_ends();
    assert_eq!(stage.short(), ["Ended(Serial(1))"]);
}

#[test]
fn a_recording_is_cut_by_new_words_and_by_silence() {
    let mut stage = Stage::up();
    stage.say("Recorded.", 1);
    stage.player(Played::Begun);
    stage.say("Voice.", 2);
    stage.say("Recorded.", 3);
    stage.say("Also recorded.", 4);
    assert_eq!(stage.short(), ["play", "halt", "Voice.", "hush", "play", "play"]);
    stage.input(Input::Stop);
    assert_eq!(stage.short(), ["halt"]);
    stage.player(Played::Ended);
    stage.wait(200_000);
    assert_eq!(stage.short(), [] as [&str; 0], "what was cut has no end");
}

#[test]
fn a_recording_is_paused_and_moved_over_like_a_sentence() {
    let mut stage = Stage::up();
    stage.say("Recorded. Two.", 1);
    stage.player(Played::Begun);
    stage.listen(Listening::Pause);
    assert_eq!(stage.short(), ["play", "halt"]);
    stage.player(Played::Ended);
    stage.wait(200_000);
    assert_eq!(stage.short(), [] as [&str; 0]);
    stage.listen(Listening::GoOn);
    stage.listen(Listening::SentenceOn);
    stage.listen(Listening::SentenceBack);
    assert_eq!(stage.short(), ["play", "halt", "Two.", "hush", "play"]);
}

#[test]
fn a_recording_that_fails_is_said_by_the_voice_or_told() {
    let mut stage = Stage::up();
    stage.say("Recorded. Two.", 1);
    stage.player(Played::Failed);
    assert_eq!(stage.short(), ["play", "Recorded."]);
    stage.input(Input::Say(vec![Segment::new("Khmer.", "km")], Serial(2)));
    stage.player(Played::Failed);
    stage.mouth(Report::NoVoice(stage.conductor.tickets));
    let told = "NoVoice { language: \"km\" }";
    assert_eq!(stage.short(), ["hush", "play", "Khmer.", told, "tone", "Ended(Serial(2))"]);
}

#[test]
fn a_language_without_a_voice_is_heard_by_its_recordings() {
    let mut stage = Stage::up();
    stage.input(Input::Say(vec![Segment::new("Khmer.", "km")], Serial(1)));
    stage.player(Played::Begun);
    stage.player(Played::Ended);
    assert_eq!(stage.short(), ["play", "Ended(Serial(1))"]);
}

#[test]
fn a_recording_that_never_begins_or_ends_is_a_fault_and_is_played_again() {
    for begins in [false, true] {
        let mut stage = Stage::up();
        stage.say("Recorded.", 1);
        if begins {
            stage.player(Played::Begun);
        }
        stage.done();
        stage.wait(if begins { 125_000 } else { 2_000 });
        assert_eq!(stage.short(), ["halt", "Fault(NeverEnded)", "tone", "hush"]);
        stage.wait(300);
        for _ in 0..2 {
            stage.mouth(Report::Ended(stage.conductor.tickets));
        }
        assert!(matches!(stage.done().last(), Some(Action::Play { .. })));
    }
}

#[test]
fn a_lost_service_halts_the_recording_and_plays_it_again() {
    let mut stage = Stage::up();
    stage.say("Recorded.", 1);
    stage.player(Played::Begun);
    stage.done();
    stage.mouth(Report::Lost);
    assert_eq!(stage.short(), ["halt", "Fault(ServiceDied)", "tone", ""]);
    stage.player(Played::Ended);
    stage.wait(250);
    stage.done();
    stage.connect();
    assert!(matches!(stage.done().last(), Some(Action::Play { .. })));
}
