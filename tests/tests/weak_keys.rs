//! Weak Ed25519 keys: points of small order, under which a signature can hold for any message. ring
//! takes them; Evenhand refuses each, in a trust file and as a station's key.
//!
//! The points are worked out here by Python's whole numbers from the curve of RFC 8032, section 5.1
//! (its `p`, `d`, `L` and the addition of section 5.1.4), and not taken from a list.
#![expect(clippy::disallowed_methods, reason = "tests run programs")]
#![expect(clippy::expect_used, reason = "a test's helpers may")]

use std::fmt::Write as _;
use std::process::Command;

use evenhand_definitions::seal::{Official, PublicKey, PublicKeyError, SealError, Trust, verify};
use evenhand_event_log as log;
use evenhand_tests::sealing::{contents, list, pair, piece, public};
use ring::signature::{ED25519, UnparsedPublicKey};

/// Every 32 bytes that decode to a point whose multiples are at most eight, as hexadecimal digits:
/// each `y` also as `y + p` where that fits, and each with both bits of `x`.
const SCRIPT: &str = r"
p = 2**255 - 19
d = -121665 * pow(121666, -1, p) % p
L = 2**252 + 27742317777372353535851937790883648493
def add(P, Q):
    (a, b), (c, e) = P, Q
    t = d * a * c * b * e % p
    return (a*e + c*b) * pow(1 + t, -1, p) % p, (b*e + a*c) * pow(1 - t, -1, p) % p
def times(n, P):
    R = (0, 1)
    while n:
        if n & 1: R = add(R, P)
        P, n = add(P, P), n >> 1
    return R
def x_of(y):
    s = (y*y - 1) * pow(d*y*y + 1, -1, p) % p
    x = pow(s, (p + 3) // 8, p)
    if x*x % p != s: x = x * pow(2, (p - 1) // 4, p) % p
    return x if x*x % p == s else None
points, y = set(), 2
while len(points) < 8:
    x = x_of(y)
    if x is not None: points |= {times(n, times(L, (x, y))) for n in range(8)}
    y += 1
assert len(points) == 8 and all(times(8, P) == (0, 1) for P in points)
for v in {v for x, y in points for v in (y, y + p) if v < 2**255}:
    for bit in (0, 2**255): print((v + bit).to_bytes(32, 'little').hex())
";

fn weak() -> Vec<[u8; 32]> {
    let python = std::env::var("EVENHAND_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let output = Command::new(python).args(["-c", SCRIPT]).output().expect("python3 runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8(output.stdout).expect("it is text");
    let byte = |line: &str, at: usize| u8::from_str_radix(&line[2 * at..2 * at + 2], 16);
    let bytes = |line: &str| std::array::from_fn(|at| byte(line, at).expect("it is a digit"));
    let weak: Vec<[u8; 32]> = text.lines().map(bytes).collect();
    // Eight points; `y` is 0, 1, -1 or one of two others, and 0 and 1 can be written twice.
    assert_eq!(weak.len(), 14);
    weak
}

/// A signature that needs no private key: the point and the number are both nothing, so that the
/// equation of RFC 8032, section 5.1.7, holds wherever the hash's multiple of the key is nothing.
fn signature() -> [u8; 64] {
    let mut signature = [0; 64];
    signature[0] = 1;
    signature
}

#[test]
fn weak_keys_are_refused_and_no_others() {
    for raw in weak() {
        assert_eq!(PublicKey::from_raw(raw), Err(PublicKeyError::SmallOrder), "{raw:02x?}");
        assert_eq!(log::PublicKey::from_file(&raw), Err(log::KeyError::Weak), "{raw:02x?}");
        let hex = hex(&raw);
        assert_eq!(hex.parse::<log::PublicKey>(), Err(log::KeyError::Weak), "{hex}");
    }
    // Keys that were made are taken (`public` expects it), and so is every one that is a bit away
    // from a weak one.
    (0..=255).map(|number| public(&pair(number))).for_each(drop);
    let weak = weak();
    for raw in &weak {
        for bit in 0..255 {
            let mut other = *raw;
            other[bit / 8] ^= 1 << (bit % 8);
            assert_eq!(PublicKey::from_raw(other).is_ok(), !weak.contains(&other), "{other:02x?}");
        }
    }
}

/// What ring takes under a weak key isn't taken here: neither the key in a trust file, nor the
/// signature by a key that is trusted.
#[test]
fn a_signature_that_anybody_can_make_is_not_taken() {
    let contents = contents();
    let message = contents.message();
    let taken = |raw: &[u8; 32], message: &[u8]| {
        UnparsedPublicKey::new(&ED25519, raw).verify(message, &signature()).is_ok()
    };
    // The key 1 (the neutral point) takes it under every message, the others under some.
    let mut neutral = [0; 32];
    neutral[0] = 1;
    assert!(taken(&neutral, &message) && taken(&neutral, b"anything"), "ring has changed");
    let taken_by_some = |raw: &[u8; 32]| (0..200_u8).any(|number| taken(raw, &[number]));
    let weak = weak();
    let count = weak.iter().filter(|raw| taken_by_some(raw)).count();
    assert!(count >= 8, "ring takes only {count} of the weak keys: the check may go");

    // A trust file with it.
    let good = Official { name: "Ines".to_owned(), key: public(&pair(1)) };
    let trust = Trust::new(1, vec![good]).expect("it is sound");
    let text = String::from_utf8(trust.write()).expect("it is text");
    let key = String::from(public(&pair(1)));
    for raw in &weak {
        let der = [&public(&pair(1)).to_spki()[..12], raw].concat();
        let weak = text.replace(&key, &base64(&der));
        assert_ne!(weak, text);
        let error = Trust::read(weak.as_bytes()).expect_err("it is refused").to_string();
        assert!(error.contains("officials[0].key: it is a weak Ed25519 key"), "{error}");
    }
    // A signature by it under an election, beside a good trust file.
    let id =
        evenhand_definitions::Digest::of(&[&public(&pair(1)).to_spki()[..12], &neutral].concat());
    let digits = hex(&signature());
    let entry =
        format!("    {{\n      \"key\": \"{id}\",\n      \"signature\": \"{digits}\"\n    }}");
    let file = evenhand_tests::sealing::archive(&[
        piece("contents.tar", contents.bytes()),
        piece("signatures.json", list(&[entry]).as_bytes()),
    ]);
    assert_eq!(verify(file, &trust).map(|_| ()), Err(SealError::UnknownKey { key: id }));
}

/// A log whose checkpoints carry that signature isn't believed, whoever's key is given.
#[test]
fn a_log_that_names_a_weak_key_is_not_whole() {
    let mut neutral = [0; 32];
    neutral[0] = 1;
    let pkcs8 =
        [&[0x30, 0x2e, 2, 1, 0, 0x30, 5, 6, 3, 0x2b, 0x65, 0x70, 4, 0x22, 4, 0x20][..], &[7; 32]];
    let key = log::StationKey::from_pkcs8(&mut pkcs8.concat()).expect("it is a key");
    let public = key.public();
    let head = log::Head {
        station: "Q-07".parse().expect("it is a label"),
        offset: log::Offset::UTC,
        previous: None,
    };
    let (_, file) = log::Log::start(key, head, log::Moment(1_825_154_100));
    let text = String::from_utf8(file).expect("it is text");
    assert!(text.contains(&public.to_string()));
    let forged = text.replace(&public.to_string(), &hex(&neutral));
    let before = log::Digest::of(forged.trim_end().as_bytes());
    let forged = format!(
        "{forged}{{\"n\":1,\"checkpoint\":\"{}\",\"before\":\"{before}\"}}\n",
        hex(&signature())
    );
    // ring takes the signature: what refuses it is ours.
    let signed = log::checkpoint_bytes(0, &before);
    assert!(UnparsedPublicKey::new(&ED25519, &neutral).verify(&signed, &signature()).is_ok());
    for trust in [log::Trust::Itself, log::Trust::Key(log::PublicKey(neutral))] {
        let report = log::verify(forged.as_bytes(), trust, &log::Published::default());
        assert!(!report.faults.is_empty(), "{trust:?}");
        assert_eq!(report.covered, None, "{trust:?}");
    }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        write!(text, "{byte:02x}").expect("a text takes it");
        text
    })
}

/// Base64 (RFC 4648, section 4) of bytes whose number three doesn't divide by two.
fn base64(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let mut whole = [0_u8; 4];
        whole[1..=three.len()].copy_from_slice(three);
        let number = u32::from_be_bytes(whole);
        for place in 0..4 {
            let digit = (number >> (18 - 6 * place)) & 63;
            text.push(if place > three.len() { '=' } else { char::from(DIGITS[digit as usize]) });
        }
    }
    text
}
