//! What `check` says of an election's recorded sound: good and bad, on the demo's election with
//! Khmer in the place of Spanish, which the usual voice doesn't speak.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "this test makes a folder and runs the program"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// An election's folder that is removed at the end.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../ballot-definitions/quillbrook-county-general-2027");
        let folder = std::env::temp_dir().join(format!("evenhand-{name}-{}", std::process::id()));
        fs::create_dir_all(folder.join("sound/km")).unwrap();
        for file in ["definition.json", "settings.json"] {
            let text = fs::read_to_string(demo.join(file)).unwrap();
            fs::write(folder.join(file), text.replace("\"es\"", "\"km\"")).unwrap();
        }
        Self(folder)
    }

    fn list(&self, entries: &str) {
        let text = format!("{{\"recordings\": [{entries}]}}");
        fs::write(self.0.join("sound/list.json"), text).unwrap();
    }

    /// A program says something into a file of the folder.
    fn speak(&self, file: &str, amplitude: &str) {
        let mut program = Command::new("espeak-ng");
        let path = self.0.join("sound").join(file);
        let arguments = ["-v", "es", "-a", amplitude, "-w"];
        let status = program.args(arguments).arg(path).arg("Elección general").status().unwrap();
        assert!(status.success());
    }

    /// What `check` prints, or its error.
    fn check(&self) -> Result<String, String> {
        self.office("check", &[])
    }

    /// The texts to be recorded, or those that aren't yet.
    fn texts(&self, more: &[&str]) -> Vec<String> {
        let arguments = [&["--language", "km"], more].concat();
        self.office("texts", &arguments).unwrap().lines().map(str::to_owned).collect()
    }

    fn office(&self, task: &str, arguments: &[&str]) -> Result<String, String> {
        let program = env!("CARGO_BIN_EXE_evenhand-office");
        let mut command = Command::new(program);
        let output = command.arg(task).arg(&self.0).args(arguments).output().unwrap();
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        if output.status.success() { Ok(text(&output.stdout)) } else { Err(text(&output.stderr)) }
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

fn entry(text: &str, file: &str, made: &str) -> String {
    format!(r#"{{"text": "{text}", "language": "km", "file": "{file}", "made": "{made}"}}"#)
}

/// The number before a word of a report.
fn number_before(report: &str, word: &str) -> usize {
    let before = report.split(word).next().unwrap();
    before.split_whitespace().next_back().unwrap().parse().unwrap()
}

#[test]
fn without_recordings_every_text_of_a_language_without_a_voice_is_not_heard() {
    let folder = Folder::new("sound-none");
    let report = folder.check().unwrap();
    assert!(report.contains("Sound: 0 recordings"), "{report}");
    assert!(report.contains("Heard in en: of"), "{report}");
    assert!(report.contains("; the synthetic voice says the others."), "{report}");
    assert!(report.contains("Heard in km: of"), "{report}");
    assert!(report.contains("no synthetic voice speaks this language"), "{report}");
    assert!(number_before(&report, " are NOT HEARD") > 200, "{report}");
}

#[test]
fn recordings_are_counted_by_who_made_them() {
    let folder = Folder::new("sound-two");
    let before = number_before(&folder.check().unwrap(), " are NOT HEARD");
    folder.speak("km/a.wav", "75");
    let kept = [
        // The demo's county, and the station's own message in Khmer.
        entry("Condado de Quillbrook", "km/a.wav", "recorded"),
        entry(&message(), "km/a.wav", "generated"),
        entry("no such text", "km/a.wav", "recorded"),
    ];
    folder.list(&kept.join(","));
    let report = folder.check().unwrap();
    assert!(report.contains("Sound: 3 recordings, 1 minutes"), "{report}");
    let says = "are recorded by a person and 1 made by a program (unreviewed)";
    assert!(report.contains(says), "{report}");
    assert!(report.contains("1 recordings are of none of these texts"), "{report}");
    assert_eq!(number_before(&report, " are NOT HEARD"), before - 2);
    let (all, missing) = (folder.texts(&[]), folder.texts(&["--missing"]));
    assert_eq!((all.len(), missing.len()), (before, before - 2));
    assert!(all.contains(&message()) && !missing.contains(&message()));
}

/// With every text of the list recorded nothing is missing, sentences with numbers among them.
#[test]
fn a_language_without_a_voice_is_heard_by_recordings_alone() {
    let folder = Folder::new("sound-whole");
    folder.speak("km/a.wav", "75");
    let texts = folder.texts(&[]);
    let all = texts.iter().map(|text| {
        entry(&text.replace('\\', "\\\\").replace('"', "\\\""), "km/a.wav", "recorded")
    });
    folder.list(&all.collect::<Vec<_>>().join(","));
    assert_eq!(number_before(&folder.check().unwrap(), " are NOT HEARD"), 0);
    assert!(folder.texts(&["--missing"]).is_empty());
}

/// "Back" in Khmer, as the station says it.
fn message() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../locales/km/visit.ftl");
    let text = fs::read_to_string(path).unwrap();
    text.lines().find_map(|line| line.strip_prefix("bar-back = ")).unwrap().to_owned()
}

#[test]
fn a_bad_recording_is_named_with_what_to_do() {
    let folder = Folder::new("sound-bad");
    folder.speak("km/loud.wav", "200");
    folder.speak("km/soft.wav", "8");
    fs::write(folder.0.join("sound/km/words.wav"), "only words").unwrap();
    for (file, says) in [
        (
            "km/loud.wav",
            ["sound/km/loud.wav: its loudest sample is", "Record it again with less gain."],
        ),
        ("km/soft.wav", ["sound/km/soft.wav: its loudness is", "Change its gain."]),
        ("km/words.wav", ["sound/km/words.wav: it can't be decoded", "Save it as wav"]),
        ("km/gone.wav", ["km/gone.wav: ", "what that folder needs"]),
        (
            "../a.wav",
            ["recording 1 (../a.wav): the file's name can't be used", "as in km/title-1.ogg"],
        ),
    ] {
        folder.list(&entry("text", file, "recorded"));
        let error = folder.check().unwrap_err();
        assert!(says.iter().all(|part| error.contains(part)), "{file}: {error}");
    }
}
