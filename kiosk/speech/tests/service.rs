//! The voice with a real speech service and sound server, heard through the private output.
//!
//! They run only where `demo/speech-service start` prepared the environment (the tests end and
//! start its daemons); elsewhere each says that it was skipped and passes:
//! `env=$(demo/speech-service start DIR) && eval "$env" && cargo test -p evenhand-speech`.
#![expect(clippy::disallowed_methods, reason = "the tests listen in real time")]
#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test's helpers fail the test"
)]
#![expect(clippy::print_stdout, reason = "a skipped test must say so")]

#[path = "support/headphones.rs"]
mod headphones;
#[path = "support/service.rs"]
mod service;

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread::sleep;
use std::time::{Duration, Instant};

use crossbeam_channel::{Receiver, unbounded};
use evenhand_speech::{
    Config, Fault, Loudness, Pace, Pause, Recordings, Segment, Serial, Sound, ToneOutcome,
    Unreadable, Voice, VoiceEvent, sound_at,
};
use headphones::{AUDIBLE, Headphones};

/// One service, one test at a time.
static SERVICE: Mutex<()> = Mutex::new(());

/// A vowel sound without a gap, long enough to be interrupted, in either language.
const LONG: &str = "aeoaeuiaoeuiaoeuiaeoaeuiaoeuiaeoaeuiaoeuiaoeuiaeoaeuiaoeuia";

struct Rig {
    voice: Voice,
    events: Receiver<VoiceEvent>,
    _alone: MutexGuard<'static, ()>,
}

/// A voice that is ready, or none when there is no service to test with.
fn rig(test: &str) -> Option<Rig> {
    if service::folder().is_none() {
        println!("skipped: {test} (no private speech service; see demo/speech-service)");
        return None;
    }
    let alone = SERVICE.lock().unwrap_or_else(PoisonError::into_inner);
    service::start();
    let (voice, events) = voice();
    let rig = Rig { voice, events, _alone: alone };
    let event = rig.event(10_000);
    assert!(matches!(event, VoiceEvent::Ready { .. }), "{event:?}");
    Some(rig)
}

fn voice() -> (Voice, Receiver<VoiceEvent>) {
    voice_with(Recordings::default())
}

fn voice_with(recordings: Recordings) -> (Voice, Receiver<VoiceEvent>) {
    let (sender, events) = unbounded();
    let config = Config {
        languages: vec!["en".to_owned(), "es".to_owned()],
        pace: Pace::default(),
        loudness: Loudness::LOUDEST,
        sink: Some("evenhand".to_owned()),
        recordings,
    };
    (Voice::start(config, sender).unwrap(), events)
}

impl Rig {
    fn event(&self, millis: u64) -> VoiceEvent {
        self.events.recv_timeout(Duration::from_millis(millis)).expect("an event in time")
    }

    fn say(&self, text: &str, language: &str, serial: u64) {
        self.voice.say(vec![Segment::new(text, language)], Serial(serial)).unwrap();
    }

    /// Waits for this event; tones may come in between.
    fn await_event(&self, wanted: &VoiceEvent, millis: u64) {
        let start = Instant::now();
        while start.elapsed() < Duration::from_millis(millis) {
            match self.events.recv_timeout(Duration::from_millis(millis)) {
                Ok(event) if event == *wanted => return,
                Ok(VoiceEvent::Tone(_)) => {}
                other => panic!("{other:?} instead of {wanted:?}"),
            }
        }
        panic!("no {wanted:?} in {millis} ms");
    }
}

/// What a program says of a text, as a recording: 22,050 samples a second.
fn generated(text: &str) -> Vec<i16> {
    let file = std::env::temp_dir().join(format!("evenhand-generated-{}.wav", std::process::id()));
    let arguments = ["-v", "es", "-s", "110", "-a", "75", "-w"];
    let mut program = std::process::Command::new("espeak-ng");
    let status = program.args(arguments).arg(&file).arg(text).status().expect("espeak-ng runs");
    assert!(status.success());
    let bytes = std::fs::read(&file).expect("it wrote the file");
    std::fs::remove_file(&file).expect("it can be removed");
    // The header of a plain wav file has 44 bytes.
    bytes[44..].chunks_exact(2).map(|b| i16::from_le_bytes([b[0], b[1]])).collect()
}

/// Recordings in Khmer, which has no synthetic voice: what is heard of it is one of them.
fn khmer(texts: &[(&str, &str)]) -> Recordings {
    let mut recordings = Recordings::default();
    for (text, sound) in texts {
        let samples = generated(sound);
        let open = move || {
            let pieces: Vec<Vec<i16>> = samples.chunks(500).map(<[i16]>::to_vec).collect();
            Ok(Sound { rate: 22_050, samples: Box::new(pieces.into_iter().map(Ok)) })
        };
        recordings.add(text, "km", std::sync::Arc::new(open));
    }
    recordings.add("broken", "km", std::sync::Arc::new(|| Err(Unreadable)));
    recordings
}

/// What only these tests ask of a recording.
impl Headphones {
    /// The largest sample since a time.
    fn peak(&self, from: Instant) -> u16 {
        self.bins().iter().filter(|b| b.at > from).map(|b| b.peak).max().unwrap_or(0)
    }

    /// How loud it was altogether since a time: the sum of the bins' peaks.
    fn level(&self, from: Instant) -> f64 {
        self.bins().iter().filter(|b| b.at > from).map(|b| f64::from(b.peak)).sum()
    }

    /// The longest silence between two sounds since a time.
    fn longest_silence(&self, from: Instant) -> Duration {
        let bins = self.bins();
        let loud: Vec<_> =
            bins.iter().filter(|b| b.at > from && b.peak > AUDIBLE).map(|b| b.at).collect();
        loud.windows(2).map(|pair| pair[1] - pair[0]).max().unwrap_or_default()
    }
}

fn heard_within(headphones: &Headphones, from: Instant, millis: u64) -> bool {
    let end = from + Duration::from_millis(millis);
    while Instant::now() < end {
        if headphones.onset(from).is_some() {
            return true;
        }
        sleep(Duration::from_millis(5));
    }
    false
}

#[test]
fn words_are_heard_and_end_when_their_sound_ends() {
    let Some(rig) = rig("words_are_heard_and_end_when_their_sound_ends") else { return };
    let headphones = Headphones::put_on().unwrap();
    for (serial, (language, text)) in
        [("en", "Maria Okafor, not chosen."), ("es", "Opción dos, no elegida.")]
            .into_iter()
            .enumerate()
    {
        let start = Instant::now();
        rig.say(text, language, serial as u64);
        assert_eq!(rig.event(10_000), VoiceEvent::Ended(Serial(serial as u64)));
        let ended = Instant::now();
        sleep(Duration::from_millis(400));
        let onset = headphones.onset(start).expect("sound") - start;
        assert!(onset < Duration::from_millis(500), "{language}: {onset:?}");
        let last = headphones.last_sound(start, Instant::now()).unwrap();
        assert!(last <= ended, "{language}: sound {:?} after its end", last - ended);
        // The voice's own pause at the end of a text is half a second at this pace.
        assert!(ended - last < Duration::from_millis(900), "{language}: {:?}", ended - last);
        let peak = headphones.peak(start);
        assert!((4_000..32_000).contains(&peak), "{language}: loud, unclipped: {peak}");
    }
}

#[test]
fn stop_is_silence() {
    let Some(rig) = rig("stop_is_silence") else { return };
    let headphones = Headphones::put_on().unwrap();
    rig.say(LONG, "es", 1);
    let start = Instant::now();
    assert!(heard_within(&headphones, start, 1_000));
    sleep(Duration::from_millis(600));
    let stop = Instant::now();
    rig.voice.stop().unwrap();
    sleep(Duration::from_secs(1));
    assert!(
        headphones.last_sound(start, stop).is_some_and(|l| stop - l < Duration::from_millis(50))
    );
    let last = headphones.last_sound(stop, Instant::now());
    let after = last.map_or(Duration::ZERO, |last| last - stop);
    assert!(after < Duration::from_millis(250), "{after:?}");
    assert!(rig.events.try_recv().is_err(), "what was cut has no end");
}

#[test]
fn a_pause_is_silence_without_an_end_and_going_on_is_sound() {
    let Some(rig) = rig("a_pause_is_silence_without_an_end_and_going_on_is_sound") else { return };
    let headphones = Headphones::put_on().unwrap();
    rig.say(&format!("Oía. {LONG}. Aún."), "es", 1);
    let start = Instant::now();
    assert!(heard_within(&headphones, start, 1_000));
    sleep(Duration::from_millis(2_500));
    let pause = Instant::now();
    rig.voice.pause().unwrap();
    sleep(Duration::from_secs(4));
    let sounded = headphones.last_sound(start, pause).unwrap();
    assert!(pause - sounded < Duration::from_millis(50), "the second sentence sounds");
    let last = headphones.last_sound(pause, Instant::now()).map_or(pause, |last| last);
    assert!(last - pause < Duration::from_millis(250), "{:?}", last - pause);
    assert!(rig.events.try_recv().is_err(), "neither an end nor a fault");
    let back = Instant::now();
    rig.voice.go_on().unwrap();
    assert!(heard_within(&headphones, back, 1_000), "it goes on");
    // The second sentence is said from its beginning: all of it is longer than what was left.
    assert_eq!(rig.event(30_000), VoiceEvent::Ended(Serial(1)));
    let whole = back.elapsed();
    rig.voice.sentence_back().unwrap();
    let last_only = Instant::now();
    assert_eq!(rig.event(10_000), VoiceEvent::Ended(Serial(1)));
    assert!(last_only.elapsed() < whole / 2, "only the last sentence is said again");
    println!("silent {:?} after the pause; the rest took {whole:?}", last - pause);
}

#[test]
fn a_recording_is_heard_cut_paused_and_ends_like_the_voice() {
    let Some(mut rig) = rig("a_recording_is_heard_cut_paused_and_ends_like_the_voice") else {
        return;
    };
    (rig.voice, rig.events) = voice_with(khmer(&[("short", "oíaeaoía"), ("long", LONG)]));
    let ready = rig.event(10_000);
    assert!(matches!(ready, VoiceEvent::Ready { .. }), "{ready:?}");
    let headphones = Headphones::put_on().unwrap();
    // It ends when its sound ends, as loud as the voice that it was made from.
    let mut levels = Vec::new();
    for (serial, text, language) in [(1, "oíaeaoía", "es"), (2, "short", "km")] {
        headphones.forget();
        let start = Instant::now();
        rig.say(text, language, serial);
        assert_eq!(rig.event(10_000), VoiceEvent::Ended(Serial(serial)));
        sleep(Duration::from_millis(400));
        let onset = headphones.onset(start).expect("sound") - start;
        assert!(onset < Duration::from_millis(500), "{onset:?}");
        levels.push(headphones.level(start));
        println!("{language}: sound after {onset:?}");
    }
    let decibels = 20.0 * (levels[1] / levels[0]).log10();
    assert!(decibels.abs() < 1.5, "the same sound is {decibels:.1} dB louder as a recording");
    // New words cut it.
    rig.say("long", "km", 3);
    assert!(heard_within(&headphones, Instant::now(), 1_000));
    sleep(Duration::from_millis(600));
    let press = Instant::now();
    rig.say(" ", "en", 4);
    assert_eq!(rig.event(1_000), VoiceEvent::Ended(Serial(4)));
    sleep(Duration::from_secs(1));
    let silent = |since: Instant| {
        headphones.last_sound(since, Instant::now()).map_or(Duration::ZERO, |last| last - since)
    };
    assert!(silent(press) < Duration::from_millis(150), "{:?}", silent(press));
    println!("cut after {:?}", silent(press));
    // A pause is silence without an end, and going on is sound.
    rig.say("long", "km", 5);
    assert!(heard_within(&headphones, Instant::now(), 1_000));
    sleep(Duration::from_millis(600));
    let pause = Instant::now();
    rig.voice.pause().unwrap();
    sleep(Duration::from_secs(1));
    assert!(silent(pause) < Duration::from_millis(150), "{:?}", silent(pause));
    assert!(rig.events.try_recv().is_err(), "neither an end nor a fault");
    rig.voice.go_on().unwrap();
    assert!(heard_within(&headphones, Instant::now(), 1_000), "it goes on");
    assert_eq!(rig.event(20_000), VoiceEvent::Ended(Serial(5)));
    // One that can't be opened, and no voice: that is told, and a tone is heard.
    let start = Instant::now();
    rig.say("broken", "km", 6);
    assert_eq!(rig.event(5_000), VoiceEvent::NoVoice { language: "km".to_owned() });
    rig.await_event(&VoiceEvent::Ended(Serial(6)), 5_000);
    assert!(heard_within(&headphones, start, 2_000), "the tone");
}

#[test]
fn new_words_cut_the_old_and_segments_follow_in_order() {
    let Some(rig) = rig("new_words_cut_the_old_and_segments_follow_in_order") else { return };
    let headphones = Headphones::put_on().unwrap();
    let start = Instant::now();
    rig.say(LONG, "es", 1);
    assert!(heard_within(&headphones, start, 1_000));
    sleep(Duration::from_millis(500));
    // The first milliseconds may hold what was left over of the words before.
    let spoken = start + Duration::from_millis(100);
    assert_eq!(headphones.hiss(spoken), None, "only vowels so far");
    let press = Instant::now();
    let segments = vec![Segment::new("siete", "es").then(Pause::Long), Segment::new("a", "en")];
    rig.voice.say(segments, Serial(2)).unwrap();
    assert_eq!(rig.event(10_000), VoiceEvent::Ended(Serial(2)));
    let heard = headphones.hiss(press).expect("new words") - press;
    assert!(heard < Duration::from_millis(500), "{heard:?}");
    // The old text would have gone on for six seconds.
    assert!(press.elapsed() < Duration::from_secs(5), "{:?}", press.elapsed());
    let pause = headphones.longest_silence(press);
    assert!(pause >= Duration::from_millis(300), "the second segment after a pause: {pause:?}");
}

#[test]
fn ten_fast_presses_end_with_the_last() {
    let Some(rig) = rig("ten_fast_presses_end_with_the_last") else { return };
    for serial in 0..10 {
        rig.say("Maria Okafor, not chosen.", if serial % 2 == 0 { "en" } else { "es" }, serial);
        sleep(Duration::from_millis(serial * 4));
    }
    assert_eq!(rig.event(10_000), VoiceEvent::Ended(Serial(9)));
    assert!(rig.events.recv_timeout(Duration::from_millis(300)).is_err());
}

#[test]
fn loudness_steps_are_ten_decibels_at_the_output() {
    let Some(rig) = rig("loudness_steps_are_ten_decibels_at_the_output") else { return };
    let headphones = Headphones::put_on().unwrap();
    let mut levels = Vec::new();
    let mut peak = 0;
    // Below step 4 the recorder's 16 bits don't resolve ten decibels.
    for step in 4..=8 {
        rig.voice.set_loudness(Loudness::from_step(step)).unwrap();
        sleep(Duration::from_millis(100));
        headphones.forget();
        let start = Instant::now();
        rig.say("oíaeaoía", "es", u64::from(step));
        assert_eq!(rig.event(10_000), VoiceEvent::Ended(Serial(u64::from(step))));
        levels.push(headphones.level(start));
        peak = headphones.peak(start);
    }
    for pair in levels.windows(2) {
        let decibels = 20.0 * (pair[1] / pair[0]).log10();
        assert!((9.5..=10.5).contains(&decibels), "{decibels} dB in {levels:?}");
    }
    assert!(peak < 32_000, "the top step clips: {peak}");
    // While words sound, the loudness changes at once.
    rig.voice.set_loudness(Loudness::LOUDEST).unwrap();
    rig.say(LONG, "es", 20);
    assert!(heard_within(&headphones, Instant::now(), 1_000));
    rig.voice.set_loudness(Loudness::SOFTEST).unwrap();
    sleep(Duration::from_millis(400));
    let softened = Instant::now();
    sleep(Duration::from_millis(400));
    assert!(headphones.peak(softened) <= AUDIBLE);
    rig.voice.set_loudness(Loudness::LOUDEST).unwrap();
}

#[test]
fn a_killed_service_is_reconnected_and_the_words_said_again() {
    let Some(rig) = rig("a_killed_service_is_reconnected_and_the_words_said_again") else { return };
    let headphones = Headphones::put_on().unwrap();
    rig.say(LONG, "es", 1);
    assert!(heard_within(&headphones, Instant::now(), 1_000));
    service::signal("speech-dispatcher", "-KILL");
    let killed = Instant::now();
    assert_eq!(rig.event(5_000), VoiceEvent::Fault(Fault::ServiceDied));
    println!("death noticed after {:?}", killed.elapsed());
    assert_eq!(rig.event(5_000), VoiceEvent::Tone(ToneOutcome::Sounded));
    assert!(headphones.onset(killed).is_some(), "the tone is heard");
    service::start();
    rig.await_event(&VoiceEvent::Restored, 15_000);
    println!("restored after {:?}", killed.elapsed());
    assert!(heard_within(&headphones, Instant::now(), 2_000), "said again");
    rig.await_event(&VoiceEvent::Ended(Serial(1)), 30_000);
}

#[test]
fn a_service_that_hangs_is_noticed_and_left_for_a_new_one() {
    let Some(rig) = rig("a_service_that_hangs_is_noticed_and_left_for_a_new_one") else { return };
    service::signal("speech-dispatcher", "-STOP");
    rig.say("words", "en", 1);
    assert_eq!(rig.event(10_000), VoiceEvent::Fault(Fault::ServiceHung));
    service::signal("speech-dispatcher", "-CONT");
    rig.await_event(&VoiceEvent::Restored, 20_000);
    rig.await_event(&VoiceEvent::Ended(Serial(1)), 10_000);
}

#[test]
fn a_lost_sound_server_is_a_fault_and_its_return_is_noticed() {
    let Some(rig) = rig("a_lost_sound_server_is_a_fault_and_its_return_is_noticed") else { return };
    rig.say(LONG, "es", 1);
    sleep(Duration::from_millis(300));
    service::signal("pulseaudio", "-KILL");
    let killed = Instant::now();
    assert_eq!(rig.event(5_000), VoiceEvent::Fault(Fault::NoSound));
    println!("loss noticed after {:?}", killed.elapsed());
    assert_eq!(rig.event(5_000), VoiceEvent::Tone(ToneOutcome::Unheard), "only the screen is left");
    rig.say("words", "en", 2);
    assert_eq!(rig.event(5_000), VoiceEvent::Tone(ToneOutcome::Unheard), "no press in silence");
    service::start();
    rig.await_event(&VoiceEvent::Restored, 20_000);
    let headphones = Headphones::put_on().unwrap();
    rig.await_event(&VoiceEvent::Ended(Serial(2)), 10_000);
    rig.say("words", "en", 3);
    assert!(heard_within(&headphones, Instant::now(), 1_000));
}

/// Loads a module of the sound server; its number comes back.
fn load_sink(arguments: &[&str]) -> String {
    let load = ["load-module", "module-null-sink", "format=float32le", "rate=44100", "channels=1"];
    let output =
        std::process::Command::new("pactl").args(load).args(arguments).output().expect("pactl");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).trim().to_owned()
}

fn unload(module: &str) {
    let status = std::process::Command::new("pactl").args(["unload-module", module]).status();
    assert!(status.expect("pactl").success());
}

/// The module that made the output of this name.
fn module_of(sink: &str) -> String {
    let listed = std::process::Command::new("pactl").args(["list", "short", "modules"]).output();
    let listed = String::from_utf8_lossy(&listed.expect("pactl").stdout).into_owned();
    let wanted = format!("sink_name={sink}");
    let line = listed.lines().find(|line| line.split_whitespace().any(|word| word == wanted));
    line.and_then(|line| line.split_whitespace().next()).expect("it is there").to_owned()
}

/// Another output, which goes with this value; where a test has failed the headphones come back too.
struct Loudspeaker(String);

impl Drop for Loudspeaker {
    fn drop(&mut self) {
        unload(&self.0);
        if std::thread::panicking() {
            load_sink(&["sink_name=evenhand"]);
        }
    }
}

/// Headphones that are pulled out while the machine has another output, such as a loudspeaker: that is
/// told at once, nothing more is heard at the other one, and when they are back the words are said.
#[test]
fn headphones_that_are_pulled_out_are_noticed_and_nothing_goes_elsewhere() {
    let test = "headphones_that_are_pulled_out_are_noticed_and_nothing_goes_elsewhere";
    let Some(rig) = rig(test) else { return };
    let loudspeaker = Loudspeaker(load_sink(&["sink_name=loudspeaker"]));
    let elsewhere = Headphones::at("loudspeaker.monitor").unwrap();
    rig.say(LONG, "es", 1);
    sleep(Duration::from_millis(500));
    unload(&module_of("evenhand"));
    let pulled = Instant::now();
    assert_eq!(rig.event(5_000), VoiceEvent::Fault(Fault::NoSound));
    let noticed = pulled.elapsed();
    println!("headphones pulled out: noticed after {noticed:?}");
    assert!(noticed < Duration::from_secs(1), "{noticed:?}");
    assert_eq!(rig.event(5_000), VoiceEvent::Tone(ToneOutcome::Unheard), "only the screen is left");
    rig.say("words", "en", 2);
    sleep(Duration::from_secs(2));
    let (listened, leaked) = {
        let bins = elsewhere.bins();
        let after = || bins.iter().filter(|bin| bin.at > pulled);
        (after().count(), after().filter(|bin| bin.peak > AUDIBLE).count())
    };
    println!("headphones pulled out: {leaked} of {listened} ms heard at another output");
    assert!(listened > 1_000, "{listened} ms: the recorder of the other output has ended");
    assert_eq!(leaked, 0, "nothing is said at another output");
    // What is listened to there can be heard, once it is chosen.
    let chosen = Instant::now();
    assert_eq!(sound_at(Some("loudspeaker"), Loudness::LOUDEST), ToneOutcome::Sounded);
    assert!(heard_within(&elsewhere, chosen, 2_000), "an output that is chosen is unmuted");
    load_sink(&["sink_name=evenhand"]);
    rig.await_event(&VoiceEvent::Restored, 20_000);
    let headphones = Headphones::put_on().unwrap();
    rig.await_event(&VoiceEvent::Ended(Serial(2)), 10_000);
    rig.say("words", "en", 3);
    assert!(heard_within(&headphones, Instant::now(), 2_000));
    drop(loudspeaker);
}

/// The same where the machine has no other output.
#[test]
fn headphones_that_are_the_only_output_come_back() {
    let Some(rig) = rig("headphones_that_are_the_only_output_come_back") else { return };
    for serial in 0..4 {
        rig.say(LONG, "es", serial);
        sleep(Duration::from_millis(500));
        unload(&module_of("evenhand"));
        assert_eq!(rig.event(5_000), VoiceEvent::Fault(Fault::NoSound));
        sleep(Duration::from_millis(700 * serial));
        let back = Instant::now();
        load_sink(&["sink_name=evenhand"]);
        rig.say("words", "en", 100 + serial);
        rig.await_event(&VoiceEvent::Restored, 20_000);
        println!("headphones put in again: heard after {:?}", back.elapsed());
        let headphones = Headphones::put_on().unwrap();
        rig.await_event(&VoiceEvent::Ended(Serial(100 + serial)), 10_000);
        rig.say("words", "en", 200 + serial);
        assert!(heard_within(&headphones, Instant::now(), 2_000));
        rig.await_event(&VoiceEvent::Ended(Serial(200 + serial)), 10_000);
    }
}

#[test]
fn a_start_without_sound_is_a_fault() {
    let Some(rig) = rig("a_start_without_sound_is_a_fault") else { return };
    service::signal("pulseaudio", "-KILL");
    sleep(Duration::from_millis(200));
    let (second, events) = voice();
    let event = events.recv_timeout(Duration::from_secs(6)).expect("an event");
    assert_eq!(event, VoiceEvent::Fault(Fault::NoSound));
    let event = events.recv_timeout(Duration::from_secs(6)).expect("an event");
    assert_eq!(event, VoiceEvent::Tone(ToneOutcome::Unheard));
    drop(second);
    drop(rig);
}

#[test]
fn a_dropped_voice_leaves_silence() {
    let Some(rig) = rig("a_dropped_voice_leaves_silence") else { return };
    let headphones = Headphones::put_on().unwrap();
    rig.say(LONG, "es", 1);
    assert!(heard_within(&headphones, Instant::now(), 1_000));
    drop(rig.voice);
    let dropped = Instant::now();
    sleep(Duration::from_millis(500));
    let last = headphones.last_sound(dropped, Instant::now()).map(|last| last - dropped);
    assert!(last.is_none_or(|after| after < Duration::from_millis(150)), "{last:?}");
}

/// A client of the service that asked for long words, sounds, and is killed.
fn killed_in_mid_sentence(headphones: &Headphones) {
    let start = Instant::now();
    let mut client =
        std::process::Command::new("spd-say").args(["--wait", "-l", "es", LONG]).spawn().unwrap();
    assert!(heard_within(headphones, start, 2_000));
    client.kill().unwrap();
    client.wait().unwrap();
    let dead = Instant::now();
    sleep(Duration::from_millis(400));
    let goes_on = headphones.last_sound(dead + Duration::from_millis(300), Instant::now());
    assert!(goes_on.is_some(), "the service says on what a dead client asked for");
}

#[test]
fn what_a_dead_client_left_can_be_silenced() {
    let Some(_rig) = rig("what_a_dead_client_left_can_be_silenced") else { return };
    let headphones = Headphones::put_on().unwrap();
    killed_in_mid_sentence(&headphones);
    evenhand_speech::silence().unwrap();
    let told = Instant::now();
    sleep(Duration::from_millis(800));
    let last = headphones.last_sound(told, Instant::now()).map_or(Duration::ZERO, |l| l - told);
    assert!(last < Duration::from_millis(250), "{last:?}");
}

#[test]
fn a_new_voice_is_not_kept_waiting_by_what_a_dead_client_left() {
    let Some(rig) = rig("a_new_voice_is_not_kept_waiting_by_what_a_dead_client_left") else {
        return;
    };
    let headphones = Headphones::put_on().unwrap();
    killed_in_mid_sentence(&headphones);
    let (_next, events) = voice();
    let ready = events.recv_timeout(Duration::from_secs(10)).unwrap();
    assert!(matches!(ready, VoiceEvent::Ready { .. }), "{ready:?}");
    let told = Instant::now();
    sleep(Duration::from_millis(500));
    assert_eq!(headphones.last_sound(told, Instant::now()).map(|l| l - told), None);
    drop(rig);
}
