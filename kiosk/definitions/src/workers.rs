//! Who may work at a station, and their codes: `workers.json`, a file of its own.
//!
//! Invariant: a list that is read or made keeps every limit, has no two workers of one name and no
//! two with one salt, and each code's hash took at least [`ITERATIONS_MIN`] rounds. There is no
//! default code and none that opens every station. The codes themselves are nowhere.
//!
//! What it must not know: files, the clock, chance. Salts come in.
//!
//! The file, a format of our own, as the office writes it:
//! ```json
//! { "workers": [ { "name": "Maria Okafor", "role": "lead",
//!     "pbkdf2_hmac_sha256": "64 hex digits", "salt": "32 hex digits", "iterations": 600000 } ] }
//! ```
//!
//! What this holds back: somebody who stands at the station, together with [`Tries`]. Whoever has
//! the file itself can try the million codes of six digits within days on one machine, slow as each
//! is; so the file is kept as the office's keys are, and longer codes are for those who may do more.
//!
//! Start reading at [`Workers`].

mod code;
#[cfg(test)]
mod tests;
mod tries;

use std::num::NonZeroU32;

use ring::pbkdf2::{PBKDF2_HMAC_SHA256, derive, verify};
use serde::{Deserialize, Serialize};
use thiserror::Error;

pub use code::{Code, CodeError};
pub use tries::{Tries, WAIT_FIRST, WAIT_MAX, WRONG_OF_ALL, WRONG_OF_ONE};

use crate::limits::{WORKER_NAME_LEN_MAX, WORKERS_BYTES_MAX, WORKERS_MAX};
use crate::object::short;
use crate::words;

/// The fewest rounds of PBKDF2-HMAC-SHA256 that a code's hash may have taken, and as many as new
/// ones take: OWASP's Password Storage Cheat Sheet says 600,000 (read as quoted by others). About
/// 0.1 seconds a try on the machine that this was written on.
pub const ITERATIONS_MIN: u32 = 600_000;
/// The most rounds: a file with more would let one try take longer than a worker waits.
pub const ITERATIONS_MAX: u32 = 6_000_000;

/// What a worker may do. The event log has the same three.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Role {
    /// A poll worker.
    Worker,
    /// The lead poll worker.
    Lead,
    /// A technician of the election office.
    Technician,
}

/// Somebody who may work at the station.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Worker {
    /// The name, as it stands on a badge.
    pub name: String,
    /// The role.
    pub role: Role,
}

/// Everybody who may work at the station.
#[derive(Clone, Debug, Default)]
pub struct Workers {
    // Invariant: as in this file's header; `hashes` has one for each of `list`, in its order.
    list: Vec<Worker>,
    hashes: Vec<Stored>,
}

/// What is kept of a code.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Stored {
    hash: [u8; 32],
    salt: [u8; 16],
    iterations: NonZeroU32,
}

/// Why a list of workers can't be used.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum WorkersError {
    /// More bytes than the limit.
    #[error(
        "workers.json: the file has more than {WORKERS_BYTES_MAX} bytes. It is for one election's workers only; make it anew."
    )]
    FileTooLong,
    /// Not JSON, or a field that is missing, unknown or of the wrong type.
    #[error(
        "workers.json, line {line}, {field}: {reason}. Make the file with `evenhand-office worker add`."
    )]
    Field {
        /// The line, from 1.
        line: usize,
        /// The field, or `(whole file)`.
        field: String,
        /// What the parser says.
        reason: String,
    },
    /// Nobody.
    #[error(
        "workers.json: it lists nobody, so nobody could open the polls. Add each worker with `evenhand-office worker add`."
    )]
    Nobody,
    /// More workers than the limit.
    #[error(
        "workers.json: there are {count} workers and the limit is {WORKERS_MAX}. Leave out those who don't work with these stations."
    )]
    TooMany {
        /// How many there are.
        count: usize,
    },
    /// A worker is at fault.
    #[error("workers.json, worker {number} ({name}): {fault}")]
    Worker {
        /// The worker, from 1.
        number: usize,
        /// Their name.
        name: String,
        /// What is wrong.
        fault: WorkerFault,
    },
}

/// What is wrong with a worker's entry, and what to do.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum WorkerFault {
    /// The name is empty, too long or holds what can't be shown.
    #[error("the name: {reason}")]
    Name {
        /// What is wrong with it, and what to do.
        reason: String,
    },
    /// The name is there already, but for capitals.
    #[error("worker {first} has the same name. Add what tells the two apart, as on their badges.")]
    SameName {
        /// The other worker, from 1.
        first: usize,
    },
    /// Not hex digits, or not so many.
    #[error(
        "{field} isn't {digits} digits 0 to 9 and a to f. Take the worker out and add them again."
    )]
    Hex {
        /// The field.
        field: &'static str,
        /// How many digits it must have.
        digits: usize,
    },
    /// Too few or too many rounds.
    #[error(
        "iterations is {given} and must be from {ITERATIONS_MIN} to {ITERATIONS_MAX}. Take the worker out and add them again."
    )]
    Iterations {
        /// The number given.
        given: u64,
    },
    /// A salt that another worker has: equal codes would be seen to be equal.
    #[error(
        "worker {first} has the same salt. Don't copy entries: take the worker out and add them again."
    )]
    SameSalt {
        /// The other worker, from 1.
        first: usize,
    },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    workers: Vec<RawWorker>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RawWorker {
    name: String,
    role: Role,
    pbkdf2_hmac_sha256: String,
    salt: String,
    iterations: u64,
}

impl Workers {
    /// Reads `workers.json`.
    ///
    /// # Errors
    /// [`WorkersError`] names the worker, what is wrong and what to do.
    pub fn read(bytes: &[u8]) -> Result<Self, WorkersError> {
        if bytes.len() > WORKERS_BYTES_MAX {
            return Err(WorkersError::FileTooLong);
        }
        let mut deserializer = serde_json::Deserializer::from_slice(bytes);
        let raw: Raw = serde_path_to_error::deserialize(&mut deserializer).map_err(|error| {
            let path = error.path().to_string();
            let field = if path == "." || path == "?" { "(whole file)" } else { &path };
            bad_field(field, error.inner())
        })?;
        deserializer.end().map_err(|error| bad_field("(whole file)", &error))?;
        if raw.workers.is_empty() {
            return Err(WorkersError::Nobody);
        }
        if raw.workers.len() > WORKERS_MAX {
            return Err(WorkersError::TooMany { count: raw.workers.len() });
        }
        let mut workers = Self::default();
        for (number, given) in (1..).zip(&raw.workers) {
            workers.take(given).map_err(|fault| WorkersError::Worker {
                number,
                name: short(&given.name),
                fault,
            })?;
        }
        Ok(workers)
    }

    /// Everybody, in the file's order: a worker's place in it is what the other calls take.
    pub fn list(&self) -> &[Worker] {
        &self.list
    }

    /// The role of the worker at this place; a worker's where nobody is there.
    pub fn role_of(&self, place: usize) -> Role {
        self.list.get(place).map_or(Role::Worker, |worker| worker.role)
    }

    /// Whether this is the code of the worker at this place; false where nobody is there. Takes as
    /// long for a wrong code as for the right one: about 0.1 seconds, so not in the thread that
    /// draws. Ask [`Tries::wait`] first.
    pub fn is_code_of(&self, place: usize, code: &Code) -> bool {
        self.hashes.get(place).is_some_and(|own| {
            verify(PBKDF2_HMAC_SHA256, own.iterations, &own.salt, code.digits(), &own.hash).is_ok()
        })
    }

    /// This list with one more worker, at its end. The salt must come from a source of chance.
    ///
    /// # Errors
    /// [`WorkersError::TooMany`], or what is wrong with the name or the salt.
    pub fn with(
        &self,
        name: &str,
        role: Role,
        code: &Code,
        salt: [u8; 16],
    ) -> Result<Self, WorkersError> {
        self.with_rounds(name, role, code, salt, rounds(ITERATIONS_MIN))
    }

    /// As [`Workers::with`]; the tests of this crate take fewer rounds.
    fn with_rounds(
        &self,
        name: &str,
        role: Role,
        code: &Code,
        salt: [u8; 16],
        iterations: NonZeroU32,
    ) -> Result<Self, WorkersError> {
        let number = self.list.len().saturating_add(1);
        if number > WORKERS_MAX {
            return Err(WorkersError::TooMany { count: number });
        }
        let mut workers = self.clone();
        let hash = hash(code.digits(), &salt, iterations);
        workers
            .add(name, role, Stored { hash, salt, iterations })
            .map_err(|fault| WorkersError::Worker { number, name: short(name), fault })?;
        Ok(workers)
    }

    /// The file's text. [`Workers::read`] takes it back, where anybody is in it.
    #[expect(clippy::expect_used, clippy::missing_panics_doc, reason = "texts and numbers encode")]
    pub fn to_json(&self) -> String {
        let raw = |(worker, own): (&Worker, &Stored)| RawWorker {
            name: worker.name.clone(),
            role: worker.role,
            pbkdf2_hmac_sha256: hex(&own.hash),
            salt: hex(&own.salt),
            iterations: u64::from(own.iterations.get()),
        };
        let raw = Raw { workers: self.list.iter().zip(&self.hashes).map(raw).collect() };
        let mut text = serde_json::to_string_pretty(&raw).expect("a list has no map with odd keys");
        text.push('\n');
        text
    }

    fn take(&mut self, given: &RawWorker) -> Result<(), WorkerFault> {
        let hash = bytes_of(&given.pbkdf2_hmac_sha256)
            .ok_or(WorkerFault::Hex { field: "pbkdf2_hmac_sha256", digits: 64 })?;
        let salt = bytes_of(&given.salt).ok_or(WorkerFault::Hex { field: "salt", digits: 32 })?;
        let iterations = u32::try_from(given.iterations)
            .ok()
            .filter(|rounds| (ITERATIONS_MIN..=ITERATIONS_MAX).contains(rounds))
            .ok_or(WorkerFault::Iterations { given: given.iterations })?;
        self.add(&given.name, given.role, Stored { hash, salt, iterations: rounds(iterations) })
    }

    fn add(&mut self, name: &str, role: Role, hash: Stored) -> Result<(), WorkerFault> {
        let name = words::plain(name, WORKER_NAME_LEN_MAX)
            .map_err(|fault| WorkerFault::Name { reason: fault.to_string() })?;
        let same = |worker: &Worker| worker.name.to_lowercase() == name.to_lowercase();
        if let Some(place) = self.list.iter().position(same) {
            return Err(WorkerFault::SameName { first: place.saturating_add(1) });
        }
        if let Some(place) = self.hashes.iter().position(|own| own.salt == hash.salt) {
            return Err(WorkerFault::SameSalt { first: place.saturating_add(1) });
        }
        self.list.push(Worker { name, role });
        self.hashes.push(hash);
        Ok(())
    }
}

/// PBKDF2-HMAC-SHA256 (RFC 8018, section 5.2), 32 bytes.
fn hash(secret: &[u8], salt: &[u8], iterations: NonZeroU32) -> [u8; 32] {
    let mut out = [0; 32];
    derive(PBKDF2_HMAC_SHA256, iterations, salt, secret, &mut out);
    out
}

fn rounds(iterations: u32) -> NonZeroU32 {
    NonZeroU32::new(iterations).unwrap_or(NonZeroU32::MAX)
}

fn hex(bytes: &[u8]) -> String {
    let digit = |value: u8| char::from_digit(u32::from(value), 16).unwrap_or('0');
    bytes.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}

/// The bytes of small hex digits; nothing where the text is longer, shorter or something else.
fn bytes_of<const N: usize>(text: &str) -> Option<[u8; N]> {
    let is_hex = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
    if text.len() != N.checked_mul(2)? || !text.bytes().all(is_hex) {
        return None;
    }
    let mut out = [0; N];
    for (byte, pair) in out.iter_mut().zip(text.as_bytes().chunks_exact(2)) {
        *byte = u8::from_str_radix(std::str::from_utf8(pair).ok()?, 16).ok()?;
    }
    Some(out)
}

fn bad_field(field: &str, error: &serde_json::Error) -> WorkersError {
    WorkersError::Field {
        line: error.line(),
        field: short(field),
        reason: short(&error.to_string()),
    }
}
