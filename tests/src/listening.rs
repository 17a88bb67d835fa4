//! What a voter hears, at the private output of `demo/speech-service`, in answer to presses.
//!
//! To tell new words from the old ones that they cut, a contest has two names: one of vowels only,
//! and one that begins with an "s".
#![expect(
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    reason = "it waits for sound and writes an election for a test; what isn't in the demo's definition must stop it"
)]

#[path = "../../kiosk/speech/tests/support/headphones.rs"]
mod headphones;

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

use evenhand_app::metrics::PixelPitch;
use evenhand_app::prepared::Prepared;
use evenhand_visit::{Command, LOUDNESS_STEPS, LanguageIndex, ScreenKind, Target};
use serde_json::Value;

use self::headphones::{AUDIBLE, Bin, Headphones};
use crate::display::{Keysym, VirtualDisplay};
use crate::open::{Opening, Station};
use crate::pilot::{Pilot, Plan};
use crate::player::{Player, Road, Setup};
use crate::stage::demo_folder;

/// A name of vowels without a gap or an "s", long enough to be cut.
const VOWELS: &str = "Aeoaeuiaoeuia Oeuiaeoaeuiaoeui Aeoaeuiaoeuiaoeui Aeoaeuiaoeuia";
/// A name that begins with an "s".
const OTHER: &str = "Sam Reed";
/// The style whose contest has the two names.
pub const STYLE: &str = "101-A";
/// So long must nothing have sounded before a press from silence.
const SILENCE: Duration = Duration::from_millis(600);
const WAIT_MAX: Duration = Duration::from_secs(5);
/// A sound that is there for more than half of so many milliseconds is speech.
const SPEECH_MS: usize = 60;
/// Old words that were cut are followed by so many milliseconds at least without a sound (seen: 10
/// to 20); the vowels never halt so long.
const GAP_MS: usize = 5;
/// An "s" begins so softly that it is told by its hiss up to so much later.
const SWELLING: Duration = Duration::from_millis(40);
/// An "s" crosses zero more often in a millisecond than any vowel.
const VOWEL_CROSSINGS_MAX: usize = 8;

/// What went wrong, in a sentence.
pub type Failure = Box<dyn Error>;

/// A recorder of the private output.
pub struct Listener(Headphones);

impl Listener {
    /// Begins to record.
    ///
    /// # Errors
    /// There is no recorder (Debian: `pulseaudio-utils`), or no private output.
    pub fn start() -> Result<Self, Failure> {
        Ok(Self(Headphones::put_on()?))
    }

    /// Waits until nothing has sounded for so long.
    ///
    /// # Errors
    /// It never fell silent within 20 s.
    pub fn silence(&self, long: Duration) -> Result<(), Failure> {
        let until = Instant::now() + Duration::from_secs(20);
        while Instant::now() < until {
            let now = Instant::now();
            let from = now.checked_sub(long).unwrap_or(now);
            let has_recorded = self.0.bins().first().is_some_and(|bin| bin.at < from);
            if has_recorded && self.0.last_sound(from, now).is_none() {
                return Ok(());
            }
            sleep(Duration::from_millis(20));
        }
        Err("it never falls silent".into())
    }

    /// Waits for the first sound after this moment.
    ///
    /// # Errors
    /// Nothing sounded within 5 s.
    pub fn onset(&self, from: Instant) -> Result<Instant, Failure> {
        within("a sound", || self.0.onset(from))
    }

    /// Waits for the first sound after this moment that goes on: a voice that was cut in its last
    /// process can leave a click of some milliseconds for the next.
    ///
    /// # Errors
    /// Nothing sounded within 5 s.
    pub fn speech(&self, from: Instant) -> Result<Instant, Failure> {
        within("speech", || {
            let bins = self.0.bins();
            let is_loud = |bin: &&Bin| bin.at > from && bin.peak > AUDIBLE;
            bins.windows(SPEECH_MS)
                .find(|run| {
                    run.first().as_ref().is_some_and(is_loud)
                        && run.iter().filter(is_loud).count() > SPEECH_MS / 2
                })
                .and_then(|run| run.first().map(|bin| bin.at))
        })
    }

    /// The last sound since a moment.
    pub fn last_sound(&self, from: Instant) -> Option<Instant> {
        self.0.last_sound(from, Instant::now())
    }
}

impl std::fmt::Debug for Listener {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Listener")
    }
}

/// Waits 5 s at most until there is something.
///
/// # Errors
/// There was nothing.
pub fn within<T>(what: &str, found: impl Fn() -> Option<T>) -> Result<T, Failure> {
    let until = Instant::now() + WAIT_MAX;
    while Instant::now() < until {
        if let Some(value) = found() {
            return Ok(value);
        }
        sleep(Duration::from_millis(2));
    }
    Err(format!("{what}: not within five seconds").into())
}

/// What followed two presses: the first from silence, the second while its words sounded.
#[derive(Clone, Copy, Debug)]
pub struct Heard {
    /// From the first press to its words.
    pub idle: Duration,
    /// From the second press to its words.
    pub cutting: Duration,
    /// From the second press to the end of the first one's words.
    pub silent: Duration,
}

/// Plays a visit in a language up to the contest of two names, then presses two keys so many times
/// and tells what was heard, leaving out pairs whose second words could not be told from the first.
/// `folder` gets the election and the station's files.
///
/// # Errors
/// A sentence that says what wasn't heard, or where the window and the state machine parted.
pub fn listen(
    program: &Path,
    folder: &Path,
    language: LanguageIndex,
    times: u64,
) -> Result<Vec<Heard>, Failure> {
    let size = (1920, 1080);
    let election = two_names(folder)?;
    let display = VirtualDisplay::start(size)?;
    let display_name = display.name();
    let opening = Opening {
        program,
        display: display_name,
        size,
        election: &election,
        style: STYLE,
        folder,
        station_file: None,
    };
    let station = Station::start(&opening)?;
    station.wait_for_window()?;
    let prepared = Prepared::load(&election, Some(STYLE), None)?;
    let setup = Setup {
        size,
        pitch: PixelPitch::USUAL,
        road: Road::Keys,
        display: display_name.to_owned(),
        trace: Some(station.trace()),
        pictures: None,
        spoken: None,
        pause: Duration::ZERO,
    };
    let mut player = Player::begin(&prepared, &setup)?;
    let mut pilot = Pilot::new(Plan { language: Some(language), contests: None });
    while player.view().screen != ScreenKind::Contest {
        let command = player.next(&mut pilot).ok_or("the visit has no contest")?;
        player.press(command)?;
    }
    // An "s" is softer than vowels: to be told from them it must be well above the noise.
    while player.view().comfort.loudness + 1 < LOUDNESS_STEPS {
        player.press(Command::Louder)?;
    }
    player.press(Command::Next)?;
    if player.view().focus != Some(Target::Row(1)) {
        return Err(format!("the focus is on {:?}", player.view().focus).into());
    }
    let keys = player.display();
    let listener = Listener::start()?;
    let mut heard = Vec::new();
    for press in 0..times {
        listener.silence(SILENCE)?;
        listener.0.forget();
        let at = keys.key(Keysym::UP)?;
        let idle = listener.onset(at)? - at;
        sleep(Duration::from_millis(350 + press * 7 % 60));
        if listener.0.hiss(at).is_some() || gap(&listener.0.bins(), at + idle).is_some() {
            return Err("the vowels hiss or halt: they can't be told from the other name".into());
        }
        let at = keys.key(Keysym::DOWN)?;
        // Where no "s" is found the new words may have come all the same: such a pair is left out,
        // and whoever asked for so many sees that there are fewer.
        let Ok(new) = within("the other name", || listener.0.hiss(at)) else {
            keys.key(Keysym::EQUAL)?;
            continue;
        };
        let (end, onset) = parted(&listener.0.bins(), at, new);
        heard.push(Heard { idle, cutting: onset - at, silent: end - at });
        // It is as loud as it can be: the short answer cuts a long one, and silence comes sooner.
        sleep(Duration::from_millis(100));
        keys.key(Keysym::EQUAL)?;
    }
    Ok(heard)
}

/// When the old words ended and the new ones began, from what was recorded since a press and the
/// moment that the new ones hissed. Between them nothing sounds for a moment. Where there is no such
/// gap, or what follows it isn't just the "s", the old words are taken to have gone on to their last
/// vowel, which is too late rather than too early: the "s" itself swells up like one.
fn parted(bins: &[Bin], at: Instant, hiss: Instant) -> (Instant, Instant) {
    let until = bins.iter().position(|bin| bin.at >= hiss).unwrap_or(bins.len());
    let bins = &bins[..until];
    if let Some((start, end)) = gap(bins, at) {
        let old = bins[..start].iter().rev().find(|bin| bin.at > at && bin.peak > AUDIBLE);
        let new = bins.get(end).map_or(hiss, |bin| bin.at);
        if hiss - new <= SWELLING {
            return (old.map_or(at, |bin| bin.at), new);
        }
    }
    let is_vowel = |bin: &&Bin| bin.peak > AUDIBLE && bin.crossings < VOWEL_CROSSINGS_MAX;
    let last = bins.iter().rev().take_while(|bin| bin.at > at).find(is_vowel);
    (last.map_or(at, |bin| bin.at), hiss)
}

/// The first span of bins after a moment without a sound that is long enough: from its first bin to
/// the one after it.
fn gap(bins: &[Bin], from: Instant) -> Option<(usize, usize)> {
    let after = bins.iter().position(|bin| bin.at > from)?;
    let is_quiet = |bin: &Bin| bin.peak <= AUDIBLE;
    let quiet = |run: &[Bin]| run.iter().all(is_quiet);
    let start = after + bins[after..].windows(GAP_MS).position(quiet)?;
    let long = bins[start..].iter().take_while(|bin| is_quiet(bin)).count();
    Some((start, start + long))
}

/// The demo's election with one contest, whose first two names are the vowels and the other.
fn two_names(folder: &Path) -> Result<PathBuf, Failure> {
    let text = fs::read_to_string(demo_folder().join("definition.json"))?;
    let mut definition: Value = serde_json::from_str(&text)?;
    let election = &mut definition["Election"][0];
    let style = election["BallotStyle"]
        .as_array_mut()
        .and_then(|styles| {
            styles.iter_mut().find(|style| style["ExternalIdentifier"][0]["Value"] == STYLE)
        })
        .ok_or("the demo has the style")?;
    style["OrderedContent"] = serde_json::json!([{
        "@type": "BallotDefinition.OrderedContest",
        "ContestId": "contest-senator",
    }]);
    let contests = election["Contest"].as_array().ok_or("the demo has contests")?;
    let contest = contests
        .iter()
        .find(|contest| contest["@id"] == "contest-senator")
        .ok_or("the demo has the contest")?;
    let candidates: Vec<Value> =
        (0..2).map(|option| contest["ContestOption"][option]["CandidateIds"][0].clone()).collect();
    let listed = election["Candidate"].as_array_mut().ok_or("the demo has candidates")?;
    for (candidate, name) in candidates.iter().zip([VOWELS, OTHER]) {
        let candidate =
            listed.iter_mut().find(|c| c["@id"] == *candidate).ok_or("the candidate is there")?;
        for text in candidate["BallotName"]["Text"].as_array_mut().ok_or("it has a name")? {
            text["Content"] = name.into();
        }
    }
    let folder = folder.join("election");
    fs::create_dir_all(&folder)?;
    fs::write(folder.join("definition.json"), serde_json::to_string(&definition)?)?;
    fs::copy(demo_folder().join("settings.json"), folder.join("settings.json"))?;
    Ok(folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    const VOWEL: (u16, usize) = (9_000, 4);
    const S: (u16, usize) = (6_000, 20);
    const SWELLS: (u16, usize) = (900, 7);
    const QUIET: (u16, usize) = (2, 0);

    /// A bin each millisecond from the press on, and the moments of the press and of the hiss.
    fn recorded(runs: &[((u16, usize), u64)]) -> (Vec<Bin>, Instant, Instant) {
        let press = Instant::now();
        let sounds = runs.iter().flat_map(|&(sound, long)| (0..long).map(move |_| sound));
        let bins: Vec<Bin> = (1..)
            .zip(sounds)
            .map(|(ms, (peak, crossings))| Bin {
                at: press + Duration::from_millis(ms),
                peak,
                crossings,
            })
            .collect();
        let hiss = bins.iter().find(|bin| bin.crossings > 12).map_or(press, |bin| bin.at);
        (bins, press, hiss)
    }

    fn parted_in_ms(runs: &[((u16, usize), u64)]) -> (u128, u128) {
        let (bins, press, hiss) = recorded(runs);
        let (end, onset) = parted(&bins, press, hiss);
        ((end - press).as_millis(), (onset - press).as_millis())
    }

    #[test]
    fn the_gap_parts_old_words_from_a_swelling_s() {
        let runs = [(VOWEL, 40), (QUIET, 12), (SWELLS, 18), (S, 30)];
        assert_eq!(parted_in_ms(&runs), (40, 53));
    }

    #[test]
    fn old_words_that_come_back_are_heard() {
        let runs = [(VOWEL, 30), (QUIET, 12), (VOWEL, 60), (S, 30)];
        assert_eq!(parted_in_ms(&runs), (102, 103));
    }

    #[test]
    fn old_words_that_run_into_the_new_are_heard() {
        assert_eq!(parted_in_ms(&[(VOWEL, 90), (QUIET, 3), (S, 30)]), (90, 94));
    }
}
