//! Lists of workers that are good, bad and hostile. Fewer rounds than a real list has are taken
//! where many codes are tried; a list that says so can't be read.

use proptest::prelude::*;

use super::*;

const FEW: NonZeroU32 = NonZeroU32::new(4).unwrap();

fn code(digits: &str) -> Code {
    Code::new(digits).unwrap()
}

/// Three workers, whose hashes took few rounds.
fn three() -> Workers {
    [
        ("Ana Lind", Role::Worker, "482913"),
        ("Bo Reyes", Role::Lead, "90817263"),
        ("Cy Ott", Role::Technician, "482913482913"),
    ]
    .into_iter()
    .zip(0..)
    .fold(Workers::default(), |list, ((name, role, digits), salt)| {
        list.with_rounds(name, role, &code(digits), [salt; 16], FEW).unwrap()
    })
}

fn entry(name: &str, salt: &str) -> String {
    format!(
        r#"{{"name": "{name}", "role": "lead", "pbkdf2_hmac_sha256": "{}", "salt": "{}", "iterations": 600000}}"#,
        "0a".repeat(32),
        salt.repeat(16)
    )
}

fn read(entries: &str) -> Result<Workers, String> {
    let text = format!("{{\"workers\": [{entries}]}}");
    Workers::read(text.as_bytes()).map_err(|error| error.to_string())
}

/// RFC 7914, section 11, the two vectors of PBKDF2-HMAC-SHA256 (their first 32 of 64 bytes: a block
/// doesn't depend on those after it). Read as other projects' tests quote them, and computed by
/// Python's hashlib as well.
#[test]
fn hashes_are_those_of_the_rfc() {
    for (secret, salt, iterations, expected) in [
        (
            &b"passwd"[..],
            &b"salt"[..],
            1,
            "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc",
        ),
        (
            b"Password",
            b"NaCl",
            80_000,
            "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56",
        ),
    ] {
        assert_eq!(hex(&hash(secret, salt, rounds(iterations))), expected);
    }
}

#[test]
fn a_list_as_the_office_makes_it_is_read_again() {
    let (right, wrong) = (code("482913"), code("482914"));
    let list = Workers::default().with(" Ana\tLind ", Role::Lead, &right, [7; 16]).unwrap();
    let text = list.to_json();
    assert!(!text.contains("482913") && text.contains("600000"), "{text}");
    let list = Workers::read(text.as_bytes()).unwrap();
    assert_eq!(list.list(), [Worker { name: "Ana Lind".to_owned(), role: Role::Lead }]);
    assert!(list.is_code_of(0, &right));
    assert!(!list.is_code_of(0, &wrong));
    assert!(!list.is_code_of(1, &right));
    assert_eq!(list.to_json(), text);
}

#[test]
fn a_code_opens_its_own_workers_place_only() {
    let list = three();
    let codes = ["482913", "90817263", "482913482913"];
    for (place, _) in list.list().iter().enumerate() {
        for (whose, digits) in codes.iter().enumerate() {
            assert_eq!(list.is_code_of(place, &code(digits)), place == whose);
        }
    }
}

/// Every code that differs in one digit, has one more or one less, or two neighbors exchanged.
#[test]
fn every_near_miss_is_refused() {
    let list = three();
    let mut tried = 0;
    for (place, right) in ["482913", "90817263", "482913482913"].into_iter().enumerate() {
        let mut near: Vec<String> = Vec::new();
        for at in 0..right.len() {
            let (before, rest) = right.split_at(at);
            let (own, after) = rest.split_at(1);
            near.push(format!("{before}{after}"));
            for digit in 0..10 {
                near.push(format!("{before}{digit}{rest}"));
                if own != digit.to_string() {
                    near.push(format!("{before}{digit}{after}"));
                }
            }
            let mut next = after.chars();
            if let Some(next) = next.next() {
                near.push(format!("{before}{next}{own}{}", after.get(1..).unwrap_or_default()));
            }
        }
        for digits in near.iter().filter(|digits| *digits != right) {
            // What can't be a code can't be tried.
            let Ok(code) = Code::new(digits) else { continue };
            assert!(!list.is_code_of(place, &code), "{right}: {digits}");
            tried += 1;
        }
    }
    assert!(tried > 400, "only {tried}");
}

#[test]
fn a_bad_entry_is_refused_by_name() {
    let good = entry("Ana", "01");
    assert_eq!(read(&good).map(|list| list.list().len()), Ok(1));
    for (bad, says) in [
        (good.replace("lead", "boss"), "unknown variant"),
        (good.replace("\"role\"", "\"task\""), "unknown field"),
        (good.replace(", \"iterations\": 600000", ""), "missing field `iterations`"),
        (good.replace("600000", "599999"), "iterations is 599999 and must be from 600000"),
        (good.replace("600000", "6000001"), "must be from 600000 to 6000000"),
        (good.replace("600000", "18446744073709551615"), "iterations is 18446744073709551615"),
        (good.replace("600000", "0"), "iterations is 0"),
        (good.replace("600000", "-1"), "invalid value"),
        (good.replace("600000", "6e5"), "invalid type"),
        (good.replacen("0a", "0A", 1), "pbkdf2_hmac_sha256 isn't 64 digits"),
        (good.replacen("0a", "+a", 1), "pbkdf2_hmac_sha256 isn't 64 digits"),
        (good.replacen("0a", "", 1), "pbkdf2_hmac_sha256 isn't 64 digits"),
        (good.replacen("01", "0101", 1), "salt isn't 32 digits"),
        (good.replacen("01", "é", 1), "salt isn't 32 digits"),
        (good.replace("Ana", ""), "the name: the text is empty"),
        (good.replace("Ana", "A\u{202e}na"), "the name:"),
        (good.replace("Ana", &"a".repeat(WORKER_NAME_LEN_MAX + 1)), "the name:"),
        (
            format!("{good}, {}", entry(" ANA ", "02")),
            "worker 2 ( ANA ): worker 1 has the same name",
        ),
        (format!("{good}, {}", entry("Bo", "01")), "worker 2 (Bo): worker 1 has the same salt"),
        (String::new(), "it lists nobody"),
        (format!("{good},"), "line 1"),
    ] {
        let error = read(&bad).unwrap_err();
        assert!(error.contains(says) && error.starts_with("workers.json"), "{bad}: {error}");
    }
    for text in ["", "{", "[]", "{\"workers\": []} x", "{\"workers\": [], \"master\": \"1\"}"] {
        assert!(Workers::read(text.as_bytes()).is_err(), "{text}");
    }
}

#[test]
fn bytes_and_workers_are_limited() {
    let long = vec![b' '; WORKERS_BYTES_MAX + 1];
    assert_eq!(Workers::read(&long).unwrap_err(), WorkersError::FileTooLong);
    // As many of the longest names as may be, in letters of four bytes, still fit.
    let mut list = Workers::default();
    for number in 0..WORKERS_MAX {
        let name = format!("{number:03}{}", "𐐀".repeat(WORKER_NAME_LEN_MAX - 3));
        let salt = u128::try_from(number).unwrap().to_be_bytes();
        list = list.with_rounds(&name, Role::Worker, &code("482913"), salt, FEW).unwrap();
    }
    let text = list.to_json();
    assert!(text.len() < WORKERS_BYTES_MAX, "{}", text.len());
    let one_more = list.with_rounds("x", Role::Lead, &code("482913"), [9; 16], FEW);
    assert_eq!(one_more.unwrap_err(), WorkersError::TooMany { count: WORKERS_MAX + 1 });
    let text = text.replace("\"iterations\": 4", "\"iterations\": 600000");
    assert_eq!(Workers::read(text.as_bytes()).map(|list| list.list().len()), Ok(WORKERS_MAX));
    let more: Vec<String> =
        (0..=WORKERS_MAX).map(|at| entry(&at.to_string(), &format!("{at:02x}"))).collect();
    assert!(read(&more.join(",")).unwrap_err().contains("there are 101 workers"));
}

/// Few rounds are for these tests: what they made isn't taken from a file.
#[test]
fn a_list_of_few_rounds_is_not_read() {
    let error = Workers::read(three().to_json().as_bytes()).unwrap_err();
    assert!(error.to_string().contains("iterations is 4"), "{error}");
}

proptest! {
    #[test]
    fn arbitrary_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..2_000)) {
        let _ = Workers::read(&bytes);
    }

    /// A good file with bytes changed, cut or put in: it is refused, or what was read keeps the
    /// limits and is written and read alike.
    #[test]
    fn damaged_files_are_read_or_refused(
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0_u8..3), 1..6)
    ) {
        let text = format!("{{\"workers\": [{}, {}]}}", entry("Ana", "01"), entry("Bo", "02"));
        let mut bytes = text.into_bytes();
        for (at, byte, what) in changes {
            let at = at.index(bytes.len());
            match what {
                0 => { bytes.remove(at); }
                1 => bytes.insert(at, byte),
                _ => bytes.get_mut(at).into_iter().for_each(|own| *own = byte),
            }
        }
        if let Ok(list) = Workers::read(&bytes) {
            prop_assert!((1..=WORKERS_MAX).contains(&list.list().len()));
            let text = list.to_json();
            prop_assert_eq!(Workers::read(text.as_bytes()).unwrap().to_json(), text);
        }
    }

    /// Whatever is typed: taken as a code only where it is one, and then only the same digits open.
    #[test]
    fn only_the_same_digits_open(typed in "[0-9]{0,14}", other in "[0-9]{6,12}") {
        if let (Ok(one), Ok(two)) = (Code::new(&typed), Code::new(&other)) {
            let list = Workers::default().with_rounds("Ana", Role::Lead, &one, [3; 16], FEW).unwrap();
            prop_assert!(list.is_code_of(0, &one));
            prop_assert_eq!(list.is_code_of(0, &two), typed == other);
        }
    }
}
