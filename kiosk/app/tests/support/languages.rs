//! The demo election in a language that it doesn't have.

use std::path::{Path, PathBuf};

use serde_json::Value;

/// The demo election with this language beside its own two. Where the demo lacks it, the election's
/// texts are in English: the station's own words are what is looked at.
pub(crate) fn in_language(demo: &Path, tag: &str) -> PathBuf {
    let read = |name| std::fs::read_to_string(demo.join(name)).unwrap();
    let definition: Value = serde_json::from_str(&read("definition.json")).unwrap();
    let mut settings: Value = serde_json::from_str(&read("settings.json")).unwrap();
    if settings["station_languages"].as_array().unwrap().iter().any(|known| known == tag) {
        return demo.to_owned();
    }
    settings["station_languages"].as_array_mut().unwrap().push(tag.into());
    // Cargo names a folder for tests; an example has the system's.
    let rooms = option_env!("CARGO_TARGET_TMPDIR").map_or_else(std::env::temp_dir, PathBuf::from);
    let folder = rooms.join(format!("demo-in-{tag}"));
    std::fs::create_dir_all(&folder).unwrap();
    let definition = with_language(definition, tag).to_string();
    // Tests run beside each other: a file is whole or not there.
    for (name, text) in [("definition.json", definition), ("settings.json", settings.to_string())] {
        let whole = folder.join(name);
        let part = folder.join(format!("{name}-{:?}", std::thread::current().id()));
        std::fs::write(&part, text).unwrap();
        std::fs::rename(&part, &whole).unwrap();
    }
    folder
}

/// A copy of every English text, said to be in this language.
fn with_language(value: Value, tag: &str) -> Value {
    match value {
        Value::Array(items) => {
            let mut items: Vec<Value> =
                items.into_iter().map(|item| with_language(item, tag)).collect();
            let english = items.iter().find(|item| item["Language"] == "en").cloned();
            if let Some(mut copy) = english {
                copy["Language"] = tag.into();
                items.push(copy);
            }
            Value::Array(items)
        }
        Value::Object(fields) => {
            let fields = fields.into_iter().map(|(name, field)| (name, with_language(field, tag)));
            Value::Object(fields.collect())
        }
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => value,
    }
}
