//! JSON that has one text for one value: what the sealed files' own lists are written in.
//!
//! Invariant: [`read`] takes only what [`write`] writes, byte for byte.

use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::object::short;

/// Writes a value with two blanks of indent and a line end.
pub(crate) fn write<T: Serialize>(value: &T) -> Vec<u8> {
    #[expect(clippy::expect_used, reason = "structs of texts and numbers always have a JSON text")]
    let mut text = serde_json::to_vec_pretty(value).expect("no map with odd keys, no own writer");
    text.push(b'\n');
    text
}

/// Reads a value, or says why not.
pub(crate) fn read<T: Serialize + DeserializeOwned>(bytes: &[u8]) -> Result<T, String> {
    let value: T = serde_json::from_slice(bytes).map_err(|error| short(&error.to_string()))?;
    if write(&value) == bytes {
        Ok(value)
    } else {
        Err("it isn't written as Evenhand writes it".to_owned())
    }
}
