//! Recorded sound of an election's folder: what the station reads, refuses and misses.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "this test makes a folder with an election"
)]

use std::fs;
use std::path::{Path, PathBuf};

use evenhand_app::prepared::Prepared;
use evenhand_app::recorded::{Recorded, RecordedError};

/// The demo's election with these recordings; removed at the end.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str, list: &str) -> Self {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../ballot-definitions/quillbrook-county-general-2027");
        let folder = std::env::temp_dir().join(format!("evenhand-{name}-{}", std::process::id()));
        fs::create_dir_all(folder.join("sound")).unwrap();
        for file in ["definition.json", "settings.json"] {
            fs::copy(demo.join(file), folder.join(file)).unwrap();
        }
        fs::write(folder.join("sound/list.json"), list).unwrap();
        Self(folder)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

const ONE: &str = r#"{"recordings": [
    {"text": "Hear again", "language": "en", "file": "again.wav", "made": "generated"}]}"#;

#[test]
fn a_folder_without_sound_has_no_recordings() {
    let none = Recorded::load(Path::new("/no/such/folder")).unwrap();
    none.check().unwrap();
    assert!(!none.for_voice().has_language("en"));
}

#[test]
fn the_voice_gets_what_the_list_names() {
    let folder = Folder::new("recorded-one", ONE);
    let recordings = Recorded::load(&folder.0).unwrap().for_voice();
    assert!(recordings.has_language("en") && !recordings.has_language("es"));
}

#[test]
fn a_missing_or_bad_file_is_found_before_the_first_visit() {
    let folder = Folder::new("recorded-gone", ONE);
    let recorded = Recorded::load(&folder.0).unwrap();
    assert!(matches!(recorded.check(), Err(RecordedError::File { .. })));
    fs::write(folder.0.join("sound/again.wav"), "only words").unwrap();
    let error = recorded.check().unwrap_err().to_string();
    assert!(error.contains("again.wav: it can't be decoded"), "{error}");
}

#[test]
fn a_wrong_list_stops_the_visit_from_being_made_ready() {
    let folder = Folder::new("recorded-list", &ONE.replace("again.wav", "../again.wav"));
    let error = Prepared::load(&folder.0, None, None).unwrap_err().to_string();
    assert!(error.contains("recording 1 (../again.wav)"), "{error}");
}

#[test]
fn a_language_is_missed_where_the_service_has_no_voice_for_it() {
    let folder = Folder::new("recorded-gaps", ONE);
    let prepared = Prepared::load(&folder.0, None, None).unwrap();
    let gaps = |voices: &[&str]| {
        let voices: Vec<String> = voices.iter().map(|&voice| voice.to_owned()).collect();
        let election = prepared.words.election();
        prepared.recorded.gaps(election, &prepared.languages, &voices).unwrap()
    };
    assert_eq!(gaps(&["en-us", "es-419"]), []);
    let [english] = &gaps(&["es"])[..] else { panic!("one gap") };
    assert_eq!((english.language.tag(), english.generated), ("en", 1));
    assert_eq!(english.unrecorded.len() + 1, english.texts);
}
