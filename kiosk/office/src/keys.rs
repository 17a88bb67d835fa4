//! Officials' keys: made, kept in the standard encrypted form, opened to sign.
//!
//! A private key is PKCS #8 (RFC 5958, version 1, with the 32-byte seed of RFC 8410) encrypted with
//! PBES2 (RFC 8018): PBKDF2 with HMAC-SHA-256, and AES-256-CBC. No form of our own: `openssl pkey`
//! reads it. The public key lies beside it as `SubjectPublicKeyInfo`.
//!
//! Invariant: a seed and a passphrase are wiped when they go, and neither is ever printed.

use std::io::{self, Read as _, Write as _};
use std::os::unix::fs::OpenOptionsExt as _;
use std::path::{Path, PathBuf};

use evenhand_definitions::Digest;
use evenhand_definitions::seal::PublicKey;
use pkcs8::der::asn1::OctetStringRef;
use pkcs8::pkcs5::{EncryptionScheme, pbes2};
use pkcs8::{
    AlgorithmIdentifierRef, Document, EncryptedPrivateKeyInfoRef, LineEnding, ObjectIdentifier,
    PrivateKeyInfoRef, SecretDocument,
};
use ring::rand::{SecureRandom as _, SystemRandom};
use ring::signature::{Ed25519KeyPair, KeyPair as _};
use thiserror::Error;
use zeroize::Zeroizing;

/// Ed25519 (RFC 8410, section 3).
const ED25519: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.3.101.112");
/// What stands before the seed: an octet string within the octet string (RFC 8410, section 7).
const SEED_HEAD: [u8; 2] = [0x04, 0x20];
const PRIVATE_LABEL: &str = "ENCRYPTED PRIVATE KEY";
const PUBLIC_LABEL: &str = "PUBLIC KEY";

/// Rounds of PBKDF2: what OWASP's cheat sheet on password storage asks for with SHA-256, as the
/// crate `pkcs5` quotes it.
const ROUNDS: u32 = 600_000;
/// The most rounds of a key from elsewhere: about ten seconds, so that a file can't hold us up.
const ROUNDS_MAX: u32 = 10_000_000;
/// The shortest passphrase, in characters (own choice: NIST SP 800-63B asks for 8, from memory, and
/// whoever has the file can guess without being seen).
const PASSPHRASE_LEN_MIN: usize = 12;
/// The longest passphrase file, in bytes.
const PASSPHRASE_BYTES_MAX: usize = 1024;
/// The longest key file, in bytes: ours have 400.
const KEY_BYTES_MAX: usize = 16 * 1024;

/// Why a key can't be made or opened, and what to do.
#[derive(Debug, Error)]
pub(crate) enum KeyError {
    #[error("{0}: {1}. Name a file that can be read.")]
    Read(PathBuf, io::Error),
    #[error("{0}: {1}. Name a new file in a folder that can be written; no key is ever replaced.")]
    Write(PathBuf, io::Error),
    #[error("the passphrase can't be read: {0}. Type it at a terminal, or use --passphrase-file.")]
    NoTerminal(io::Error),
    #[error(
        "the passphrase has fewer than {PASSPHRASE_LEN_MIN} characters. Use several words that nobody can guess."
    )]
    Short,
    #[error(
        "the passphrase is not one line of UTF-8 of at most {PASSPHRASE_BYTES_MAX} bytes. Write it so."
    )]
    NotALine,
    #[error("the two passphrases differ. Try again.")]
    Differ,
    #[error("the system gave no random bytes. Try again; if it goes on, use another computer.")]
    Random,
    #[error("the key can't be written in its standard form: {0}. This is a fault of Evenhand.")]
    Encode(String),
    #[error("{0} is no public key ({1}). Give the FILE.pub that was made beside the private key.")]
    Public(PathBuf, String),
    #[error("{0} is no encrypted private key ({1}). Give the FILE.key that `key new` made.")]
    Private(PathBuf, String),
    #[error(
        "{0} is not encrypted as is asked for here: PBES2 with PBKDF2, HMAC-SHA-256, from {ROUNDS} to {ROUNDS_MAX} rounds, and AES-256-CBC. Make a new key with `key new`."
    )]
    Encryption(PathBuf),
    #[error("{0} doesn't open with this passphrase. Type it again, or find its owner.")]
    Passphrase(PathBuf),
    #[error("{0} holds no Ed25519 key. Make one with `key new`.")]
    NotEd25519(PathBuf),
}

/// A key pair that may sign.
pub(crate) struct OpenKey(Ed25519KeyPair);

impl OpenKey {
    /// Opens an encrypted private key.
    pub(crate) fn open(path: &Path, passphrase_file: Option<&Path>) -> Result<Self, KeyError> {
        let text = Zeroizing::new(read(path, KEY_BYTES_MAX)?);
        let bad = |why: &dyn ToString| KeyError::Private(path.to_owned(), why.to_string());
        let text = std::str::from_utf8(&text).map_err(|error| bad(&error))?;
        let (label, document) = SecretDocument::from_pem(text).map_err(|error| bad(&error))?;
        if label != PRIVATE_LABEL {
            return Err(bad(&format!("it is marked {label}")));
        }
        let encrypted = EncryptedPrivateKeyInfoRef::try_from(document.as_bytes())
            .map_err(|error| bad(&error))?;
        if !is_strong(&encrypted.encryption_algorithm) {
            return Err(KeyError::Encryption(path.to_owned()));
        }
        let passphrase = match passphrase_file {
            Some(file) => from_file(file)?,
            None => ask(&format!("Passphrase of {}: ", path.display()))?,
        };
        let opened = encrypted
            .decrypt(passphrase.as_bytes())
            .map_err(|_| KeyError::Passphrase(path.to_owned()))?;
        Ed25519KeyPair::from_pkcs8_maybe_unchecked(opened.as_bytes())
            .map(Self)
            .map_err(|_| KeyError::NotEd25519(path.to_owned()))
    }

    /// Its public key.
    pub(crate) fn public(&self) -> Result<PublicKey, KeyError> {
        let raw = self.0.public_key().as_ref().try_into();
        let raw = raw.map_err(|_| KeyError::Encode("its length".to_owned()))?;
        PublicKey::from_raw(raw).map_err(|error| KeyError::Encode(error.to_string()))
    }

    /// A signature under the message.
    pub(crate) fn sign(&self, message: &[u8]) -> Vec<u8> {
        self.0.sign(message).as_ref().to_vec()
    }
}

/// Makes a key pair: the encrypted private key in a new file that only its owner may read, and the
/// public key beside it.
pub(crate) fn make(
    name: &str,
    to: &Path,
    passphrase_file: Option<&Path>,
) -> Result<(PathBuf, PublicKey), KeyError> {
    let public_path = to.with_extension("pub");
    for path in [to, &public_path] {
        if path.exists() {
            let why = io::Error::from(io::ErrorKind::AlreadyExists);
            return Err(KeyError::Write(path.to_owned(), why));
        }
    }
    let passphrase = match passphrase_file {
        Some(file) => from_file(file)?,
        None => ask_twice()?,
    };
    if passphrase.chars().count() < PASSPHRASE_LEN_MIN {
        return Err(KeyError::Short);
    }
    let mut seed = Zeroizing::new([0; 32]);
    fill(seed.as_mut_slice())?;
    let pair = Ed25519KeyPair::from_seed_unchecked(seed.as_slice())
        .map_err(|error| KeyError::Encode(error.to_string()))?;
    let public = OpenKey(pair).public()?;
    let private = encrypted(&seed, &passphrase)?;
    let envelope = Document::try_from(public.to_spki().as_slice())
        .and_then(|document| document.to_pem(PUBLIC_LABEL, LineEnding::LF))
        .map_err(|error| KeyError::Encode(error.to_string()))?;
    // What stands before the first line of dashes says whose it is (RFC 7468, section 2).
    create(to, format!("Evenhand, private key of {name}\n{}", *private).as_bytes(), 0o600)?;
    let public_text = format!("Evenhand, public key of {name}\n{envelope}");
    create(&public_path, public_text.as_bytes(), 0o644)?;
    Ok((public_path, public))
}

/// Reads a public key in PEM.
pub(crate) fn public(path: &Path) -> Result<PublicKey, KeyError> {
    let bad = |why: &dyn ToString| KeyError::Public(path.to_owned(), why.to_string());
    let text = read(path, KEY_BYTES_MAX)?;
    let text = std::str::from_utf8(&text).map_err(|error| bad(&error))?;
    let (label, document) = Document::from_pem(text).map_err(|error| bad(&error))?;
    if label != PUBLIC_LABEL {
        return Err(bad(&format!("it is marked {label}")));
    }
    PublicKey::from_spki(document.as_bytes()).map_err(|error| bad(&error))
}

/// Writes a file that wasn't there before, down to the disk.
pub(crate) fn create(path: &Path, bytes: &[u8], mode: u32) -> Result<(), KeyError> {
    let failed = |error| KeyError::Write(path.to_owned(), error);
    let mut options = std::fs::OpenOptions::new();
    let mut file = options.write(true).create_new(true).mode(mode).open(path).map_err(failed)?;
    file.write_all(bytes).and_then(|()| file.sync_all()).map_err(failed)
}

/// Reads a file of at most so many bytes; what is longer is an error of the system's kind.
pub(crate) fn read(path: &Path, bytes_max: usize) -> Result<Vec<u8>, KeyError> {
    let failed = |error| KeyError::Read(path.to_owned(), error);
    let file = std::fs::File::open(path).map_err(failed)?;
    let mut bytes = Vec::new();
    let most = u64::try_from(bytes_max).unwrap_or(u64::MAX);
    file.take(most.saturating_add(1)).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() > bytes_max {
        return Err(failed(io::Error::from(io::ErrorKind::FileTooLarge)));
    }
    Ok(bytes)
}

/// The digest of a file of whatever length.
pub(crate) fn digest(path: &Path) -> Result<Digest, KeyError> {
    let failed = |error| KeyError::Read(path.to_owned(), error);
    let mut file = std::fs::File::open(path).map_err(failed)?;
    let mut broken = None;
    let pieces = std::iter::from_fn(|| {
        let mut piece = vec![0; 1 << 20];
        match file.read(&mut piece) {
            Ok(0) => None,
            Ok(len) => {
                piece.truncate(len);
                Some(piece)
            }
            Err(error) => {
                broken = Some(error);
                None
            }
        }
    });
    let digest = Digest::of_pieces(pieces);
    broken.map_or(Ok(digest), |error| Err(failed(error)))
}

fn encrypted(seed: &[u8; 32], passphrase: &str) -> Result<Zeroizing<String>, KeyError> {
    let failed = |error: &dyn ToString| KeyError::Encode(error.to_string());
    let (mut salt, mut iv) = ([0; 16], [0; 16]);
    fill(&mut salt)?;
    fill(&mut iv)?;
    let scheme = pbes2::Parameters::generate_pbkdf2_sha256_aes256cbc(ROUNDS, &salt, iv)
        .map_err(|error| failed(&error))?;
    let key = Zeroizing::new([SEED_HEAD.as_slice(), seed].concat());
    let octets = OctetStringRef::new(&key).map_err(|error| failed(&error))?;
    let algorithm = AlgorithmIdentifierRef { oid: ED25519, parameters: None };
    PrivateKeyInfoRef::new(algorithm, octets)
        .encrypt_with_params(scheme, passphrase.as_bytes())
        .map_err(|error| failed(&error))?
        .to_pem(PRIVATE_LABEL, LineEnding::LF)
        .map_err(|error| failed(&error))
}

/// Whether a key is encrypted as strongly as we would, and opens within seconds.
fn is_strong(scheme: &EncryptionScheme) -> bool {
    let EncryptionScheme::Pbes2(parameters) = scheme else { return false };
    let is_aes = matches!(parameters.encryption, pbes2::EncryptionScheme::Aes256Cbc { .. });
    let has_rounds = parameters.kdf.pbkdf2().is_some_and(|kdf| {
        kdf.prf == pbes2::Pbkdf2Prf::HmacWithSha256
            && (ROUNDS..=ROUNDS_MAX).contains(&kdf.iteration_count)
    });
    is_aes && has_rounds
}

fn fill(bytes: &mut [u8]) -> Result<(), KeyError> {
    SystemRandom::new().fill(bytes).map_err(|_| KeyError::Random)
}

fn ask_twice() -> Result<Zeroizing<String>, KeyError> {
    let first = ask(&format!("New passphrase, {PASSPHRASE_LEN_MIN} characters or more: "))?;
    let again = ask("The same again: ")?;
    if *first == *again { Ok(first) } else { Err(KeyError::Differ) }
}

fn ask(question: &str) -> Result<Zeroizing<String>, KeyError> {
    rpassword::prompt_password(question).map(Zeroizing::new).map_err(KeyError::NoTerminal)
}

/// The first line of a file, and nothing may follow it.
fn from_file(path: &Path) -> Result<Zeroizing<String>, KeyError> {
    let bytes = Zeroizing::new(read(path, PASSPHRASE_BYTES_MAX)?);
    let text = std::str::from_utf8(&bytes).map_err(|_| KeyError::NotALine)?;
    let line = text.strip_suffix('\n').unwrap_or(text);
    let line = line.strip_suffix('\r').unwrap_or(line);
    if line.contains(['\n', '\r']) {
        return Err(KeyError::NotALine);
    }
    Ok(Zeroizing::new(line.to_owned()))
}
