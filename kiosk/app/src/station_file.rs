//! What a worker has taught this station: the size of its screen's pixels, its two switches, its
//! printer, its scanner, its headphones, how loud visits begin, and the names of its sealed election
//! and of the keys that it trusts, which lie beside the file. A small JSON file with nothing of a
//! voter in it.
#![expect(clippy::disallowed_methods, reason = "the app is the crate that opens files")]

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

use evenhand_event_log::Digest;
use evenhand_input::{Button, Key, NoSuchButton};
use evenhand_printers::{NoSuchQueue, Queue};
use evenhand_scan::{NoSuchScanner, ScannerChoice};
use evenhand_visit::{LOUDNESS_DEFAULT, LOUDNESS_STEPS};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::metrics::PixelPitch;

/// The largest file that is read: ten times what one holds.
const BYTES_MAX: u64 = 16_384;

/// Why the file can't be used or written. What to do stands in each.
#[derive(Debug, Error)]
pub enum StationFileError {
    /// It can't be read or written.
    #[error("{path}: {why}. See that the folder is there and can be written to.")]
    File {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: io::Error,
    },
    /// It is too large to be one.
    #[error("{path}: it is larger than {BYTES_MAX} bytes, so it is no station file. {REMEDY}")]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// It isn't JSON of the right shape.
    #[error("{path}: {why}. {REMEDY}")]
    Shape {
        /// The file.
        path: PathBuf,
        /// What the parser says, with the line.
        why: serde_json::Error,
    },
    /// The pixels can't be so wide.
    #[error("{path}: pixel-pitch-nanometres: {found} isn't between 50000 and 1000000. {REMEDY}")]
    Pitch {
        /// The file.
        path: PathBuf,
        /// What it says.
        found: u32,
    },
    /// A switch isn't a button.
    #[error("{path}: {field}: {why}. {REMEDY}")]
    Button {
        /// The file.
        path: PathBuf,
        /// Which of the two.
        field: &'static str,
        /// What is wrong.
        why: NoSuchButton,
    },
    /// One switch without the other, or twice the same, or a key that leads back.
    #[error(
        "{path}: the two switches must be two different buttons, neither of them Escape. {REMEDY}"
    )]
    Pair {
        /// The file.
        path: PathBuf,
    },
    /// A printer's name that can't be one.
    #[error("{path}: printer: {why}. {REMEDY}")]
    Printer {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        why: NoSuchQueue,
    },
    /// A scanner that can't be one.
    #[error("{path}: scanner: {why}. {REMEDY}")]
    Scanner {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        why: NoSuchScanner,
    },
    /// A name of an output that can't be one.
    #[error(
        "{path}: headphones: it has 1 to {NAME_BYTES_MAX} bytes and no control character. {REMEDY}"
    )]
    Headphones {
        /// The file.
        path: PathBuf,
    },
    /// A loudness that there isn't.
    #[error("{path}: loudness: {found} isn't between 0 and {}. {REMEDY}", LOUDNESS_STEPS - 1)]
    Loudness {
        /// The file.
        path: PathBuf,
        /// What it says.
        found: u8,
    },
    /// A sealed election without its keys or the other way round, or a name that leads elsewhere.
    #[error(
        "{path}: sealed and trust go together, each the name of a file beside this one: 1 to \
         {NAME_BYTES_MAX} letters a to z, digits, points and hyphens, with a letter first. {REMEDY}"
    )]
    Sealed {
        /// The file.
        path: PathBuf,
    },
}

/// The longest name of an output, and of a file beside this one: PulseAudio's own limit is 128 (its `PA_NAME_MAX`, from memory).
const NAME_BYTES_MAX: usize = 128;

/// What to do about a file that can't be used.
const REMEDY: &str = "Set the station up again (evenhand set-up), or remove the file.";

/// What the station knows of its own screen, switches and devices.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StationFile {
    /// The screen's pixels.
    pub pitch: PixelPitch,
    /// The first and the second switch, where they were taught.
    pub switches: Option<(Button, Button)>,
    /// The printer, where one was chosen.
    pub printer: Option<Queue>,
    /// The scanner, where one was chosen.
    pub scanner: Option<ScannerChoice>,
    /// The sound server's name of the headphones' output, where one was chosen.
    pub headphones: Option<String>,
    /// How loud visits begin: a step of `evenhand_visit`.
    pub loudness: u8,
    /// The sealed election, where one was chosen.
    pub sealed: Option<SealedNames>,
}

/// The names of a sealed election and of the trusted keys that it was verified with. Both files lie
/// beside the station's file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SealedNames {
    // Invariant: both are plain names, which lead to no other folder.
    sealed: String,
    trust: String,
}

impl SealedNames {
    /// Two names, where they can be names of files beside the station's.
    pub fn new(sealed: String, trust: String) -> Option<Self> {
        let is_plain = |name: &String| {
            let is_allowed = |byte: u8| {
                byte.is_ascii_lowercase() || byte.is_ascii_digit() || b".-".contains(&byte)
            };
            name.len() <= NAME_BYTES_MAX
                && name.bytes().all(is_allowed)
                && name.bytes().next().is_some_and(|first| first.is_ascii_lowercase())
        };
        ([&sealed, &trust].into_iter().all(is_plain) && sealed != trust)
            .then_some(Self { sealed, trust })
    }

    /// Where the sealed election lies, beside this station's file.
    pub fn sealed_beside(&self, file: &Path) -> PathBuf {
        folder_of(file).join(&self.sealed)
    }

    /// Where the trusted keys lie, beside this station's file.
    pub fn trust_beside(&self, file: &Path) -> PathBuf {
        folder_of(file).join(&self.trust)
    }
}

/// The folder of a file.
pub(crate) fn folder_of(file: &Path) -> &Path {
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty());
    folder.unwrap_or_else(|| Path::new("."))
}

/// A scanner as it is written.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct WrittenScanner {
    device: String,
    #[serde(default)]
    options: BTreeMap<String, String>,
    feeds: bool,
    has_area: bool,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Written {
    pixel_pitch_nanometres: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    first_switch: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    second_switch: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    printer: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    scanner: Option<WrittenScanner>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    headphones: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    loudness: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sealed: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    trust: Option<String>,
}

impl StationFile {
    /// A screen with such pixels, and nothing else taught.
    pub const fn with_pitch(pitch: PixelPitch) -> Self {
        Self {
            pitch,
            switches: None,
            printer: None,
            scanner: None,
            headphones: None,
            loudness: LOUDNESS_DEFAULT,
            sealed: None,
        }
    }

    /// Reads the file; `None` where there is none yet.
    ///
    /// # Errors
    /// [`StationFileError`] says what is wrong and what to do.
    pub fn load(path: &Path) -> Result<Option<Self>, StationFileError> {
        let system = |why| StationFileError::File { path: path.to_owned(), why };
        let file = match File::open(path) {
            Ok(file) => file,
            Err(why) if why.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(why) => return Err(system(why)),
        };
        let mut bytes = Vec::new();
        file.take(BYTES_MAX.saturating_add(1)).read_to_end(&mut bytes).map_err(system)?;
        if u64::try_from(bytes.len()).is_ok_and(|count| count > BYTES_MAX) {
            return Err(StationFileError::TooLarge { path: path.to_owned() });
        }
        Self::from_bytes(path, &bytes).map(Some)
    }

    fn from_bytes(path: &Path, bytes: &[u8]) -> Result<Self, StationFileError> {
        let path = path.to_owned();
        let written: Written = match serde_json::from_slice(bytes) {
            Ok(written) => written,
            Err(why) => return Err(StationFileError::Shape { path, why }),
        };
        let found = written.pixel_pitch_nanometres;
        let Some(pitch) = PixelPitch::new(found) else {
            return Err(StationFileError::Pitch { path, found });
        };
        let button = |field, name: Option<String>| {
            let button = name.map(|name| name.parse::<Button>()).transpose();
            button.map_err(|why| StationFileError::Button { path: path.clone(), field, why })
        };
        let first = button("first-switch", written.first_switch)?;
        let second = button("second-switch", written.second_switch)?;
        let escape = Button::Key(Key::Escape);
        let switches = match (first, second) {
            (None, None) => None,
            (Some(first), Some(second))
                if first != second && ![first, second].contains(&escape) =>
            {
                Some((first, second))
            }
            _ => return Err(StationFileError::Pair { path }),
        };
        let printer = written.printer.map(|name| name.parse()).transpose();
        let printer =
            printer.map_err(|why| StationFileError::Printer { path: path.clone(), why })?;
        let scanner = written.scanner.map(WrittenScanner::checked).transpose();
        let scanner =
            scanner.map_err(|why| StationFileError::Scanner { path: path.clone(), why })?;
        let headphones = written.headphones;
        let is_name = |name: &String| {
            (1..=NAME_BYTES_MAX).contains(&name.len()) && !name.chars().any(char::is_control)
        };
        if !headphones.iter().all(is_name) {
            return Err(StationFileError::Headphones { path });
        }
        let loudness = written.loudness.unwrap_or(LOUDNESS_DEFAULT);
        if loudness >= LOUDNESS_STEPS {
            return Err(StationFileError::Loudness { path, found: loudness });
        }
        let sealed = match (written.sealed, written.trust) {
            (None, None) => None,
            (sealed, trust) => {
                let names = sealed.zip(trust).and_then(|(s, t)| SealedNames::new(s, t));
                Some(names.ok_or(StationFileError::Sealed { path })?)
            }
        };
        Ok(Self { pitch, switches, printer, scanner, headphones, loudness, sealed })
    }

    /// The digest of what the file says: the log notes where it changes.
    ///
    /// # Errors
    /// It can't be written as JSON: a defect.
    pub fn digest(&self) -> Result<Digest, serde_json::Error> {
        Ok(Digest::of(self.text()?.as_bytes()))
    }

    /// What the file says.
    fn text(&self) -> Result<String, serde_json::Error> {
        let name = |button: Button| button.to_string();
        let written = Written {
            pixel_pitch_nanometres: self.pitch.in_nanometres(),
            first_switch: self.switches.map(|(first, _)| name(first)),
            second_switch: self.switches.map(|(_, second)| name(second)),
            printer: self.printer.as_ref().map(ToString::to_string),
            scanner: self.scanner.as_ref().map(WrittenScanner::of),
            headphones: self.headphones.clone(),
            loudness: (self.loudness != LOUDNESS_DEFAULT).then_some(self.loudness),
            sealed: self.sealed.as_ref().map(|names| names.sealed.clone()),
            trust: self.sealed.as_ref().map(|names| names.trust.clone()),
        };
        let mut text = serde_json::to_string_pretty(&written)?;
        text.push('\n');
        Ok(text)
    }

    /// Writes the file anew: whole or not at all, also where the power fails meanwhile.
    ///
    /// # Errors
    /// [`StationFileError::File`].
    pub fn save(&self, path: &Path) -> Result<(), StationFileError> {
        let system = |why| StationFileError::File { path: path.to_owned(), why };
        let text =
            self.text().map_err(|why| StationFileError::Shape { path: path.to_owned(), why })?;
        let beside = path.with_extension("new");
        let mut file = File::create(&beside).map_err(system)?;
        file.write_all(text.as_bytes()).and_then(|()| file.sync_all()).map_err(system)?;
        fs::rename(&beside, path).map_err(system)?;
        // The folder holds the new name only when it is written too.
        File::open(folder_of(path)).and_then(|folder| folder.sync_all()).map_err(system)
    }
}

impl WrittenScanner {
    fn of(choice: &ScannerChoice) -> Self {
        Self {
            device: choice.device().to_owned(),
            options: choice.options().iter().cloned().collect(),
            feeds: choice.feeds(),
            has_area: choice.has_area(),
        }
    }

    fn checked(self) -> Result<ScannerChoice, NoSuchScanner> {
        let options = self.options.into_iter().collect();
        ScannerChoice::new(self.device, options, self.feeds, self.has_area)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(text: &str) -> Result<StationFile, String> {
        StationFile::from_bytes(Path::new("station.json"), text.as_bytes())
            .map_err(|error| error.to_string())
    }

    #[test]
    fn what_is_written_is_read_again() {
        let folder = std::env::temp_dir().join(format!("evenhand-file-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        let path = folder.join("station.json");
        assert!(StationFile::load(&path).unwrap().is_none());
        let switches = Some(("key space".parse().unwrap(), "pad south".parse().unwrap()));
        let pitch = PixelPitch::new(277_022).unwrap();
        for switches in [None, switches] {
            let file = StationFile { switches, ..StationFile::with_pitch(pitch) };
            file.save(&path).unwrap();
            assert_eq!(StationFile::load(&path).unwrap(), Some(file));
        }
        let options = vec![("mode".to_owned(), "Gray".to_owned())];
        let scanner = ScannerChoice::new("a:usb:1".to_owned(), options, true, true).unwrap();
        let full = StationFile {
            printer: Some("ballots".parse().unwrap()),
            scanner: Some(scanner),
            headphones: Some("alsa_output.usb".to_owned()),
            loudness: 4,
            sealed: SealedNames::new("e.sealed.tar".to_owned(), "trust-1.json".to_owned()),
            ..StationFile::with_pitch(pitch)
        };
        assert!(full.sealed.is_some());
        full.save(&path).unwrap();
        assert_eq!(StationFile::load(&path).unwrap(), Some(full));
        fs::write(&path, vec![b' '; 20_000]).unwrap();
        assert!(matches!(StationFile::load(&path), Err(StationFileError::TooLarge { .. })));
        fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn a_sealed_election_lies_beside_the_file_and_nowhere_else() {
        let names = SealedNames::new("e.sealed.tar".to_owned(), "t.json".to_owned()).unwrap();
        assert_eq!(names.sealed_beside(Path::new("a/s.json")), Path::new("a/e.sealed.tar"));
        assert_eq!(names.trust_beside(Path::new("s.json")), Path::new("./t.json"));
        let long = "a".repeat(NAME_BYTES_MAX + 1);
        for bad in ["", "..", ".", "-a", "../e", "/e", "a/b", "a\\b", "E", "e\n", "é", &long] {
            let text = |sealed: &str, trust: &str| {
                serde_json::json!({
                    "pixel-pitch-nanometres": 277_000, "sealed": sealed, "trust": trust,
                })
                .to_string()
            };
            for text in [text(bad, "t.json"), text("e.sealed.tar", bad)] {
                let error = parse(&text).expect_err(&text);
                assert!(error.contains("sealed and trust go together"), "{text}: {error}");
            }
        }
        for alone in ["sealed", "trust"] {
            let error = parse(&format!("{{\"pixel-pitch-nanometres\":277000,\"{alone}\":\"e\"}}"));
            let error = error.unwrap_err();
            assert!(error.contains("go together") && error.contains("evenhand set-up"), "{error}");
        }
        let both = "{\"pixel-pitch-nanometres\":277000,\"sealed\":\"e\",\"trust\":\"e\"}";
        assert!(parse(both).is_err(), "one file can't be both");
    }

    #[test]
    fn a_bad_file_says_what_and_what_to_do() {
        for (text, part) in [
            ("", "line 1"),
            ("[]", "station.json"),
            ("{\"pixel-pitch-nanometres\": 277000, \"colour\": 1}", "colour"),
            ("{\"pixel-pitch-nanometres\": 4}", "4 isn't between"),
            ("{\"pixel-pitch-nanometres\": -1}", "line 1"),
            (
                "{\"pixel-pitch-nanometres\": 277000, \"first-switch\": \"foot\"}",
                "first-switch: \"foot\" names no button",
            ),
            (
                "{\"pixel-pitch-nanometres\": 277000, \"first-switch\": \"key 1\"}",
                "two different buttons",
            ),
            (
                "{\"pixel-pitch-nanometres\": 277000, \"first-switch\": \"key 1\", \"second-switch\": \"key 1\"}",
                "two different buttons",
            ),
            (
                "{\"pixel-pitch-nanometres\": 277000, \"first-switch\": \"key 1\", \"second-switch\": \"key escape\"}",
                "neither of them Escape",
            ),
            ("{\"pixel-pitch-nanometres\": 277000, \"printer\": \"a b\"}", "printer: \"a b\""),
            (
                "{\"pixel-pitch-nanometres\": 277000, \"scanner\": {\"device\": \"a\", \"feeds\": true}}",
                "has-area",
            ),
            (
                "{\"pixel-pitch-nanometres\": 277000, \"scanner\": {\"device\": \"-L\", \"feeds\": true, \"has-area\": true}}",
                "scanner: \"-L\"",
            ),
            (
                "{\"pixel-pitch-nanometres\": 277000, \"scanner\": {\"device\": \"a\", \"feeds\": true, \"has-area\": true, \"options\": {\"output-file\": \"x\"}}}",
                "scanner: \"output-file\"",
            ),
            ("{\"pixel-pitch-nanometres\": 277000, \"headphones\": \"\"}", "headphones: it has 1"),
            ("{\"pixel-pitch-nanometres\": 277000, \"loudness\": 9}", "loudness: 9 isn't"),
        ] {
            let error = parse(text).expect_err(text);
            assert!(error.contains(part) && error.contains("evenhand set-up"), "{text}: {error}");
        }
    }
}
