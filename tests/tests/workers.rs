//! Workers' codes against the outside: Python's hashlib computes the stored hash from the code and
//! what the file says, and is itself held to the vectors of RFC 7914, section 11.
//!
//! The rest is tested in the crate (`kiosk/definitions/src/workers/`) and at the command
//! (`kiosk/office/tests/worker.rs`).
#![expect(
    clippy::disallowed_methods,
    reason = "tests read the environment, and run reference programs"
)]
#![expect(clippy::expect_used, clippy::print_stdout, reason = "a test's helpers may")]

use std::io::Write as _;
use std::process::{Command, Stdio};
use std::time::Instant;

use evenhand_definitions::workers::ITERATIONS_MIN;
use evenhand_definitions::{Code, Role, Workers};

/// Reads `workers.json` and prints, for each code given, the places of the workers whose code it is.
/// Before that hashlib must give both vectors of RFC 7914, section 11 (as other projects' tests
/// quote them).
const SCRIPT: &str = "import hashlib,json,sys\n\
    def h(p,s,c,n=32): return hashlib.pbkdf2_hmac('sha256',p,s,c,n).hex()\n\
    assert h(b'passwd',b'salt',1,64)=='55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc49ca9cccf179b645991664b39d77ef317c71b845b1e30bd509112041d3a19783'\n\
    assert h(b'Password',b'NaCl',80000,64)=='4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56a1d425a1225833549adb841b51c9b3176a272bdebba1d078478f62b397f33c8d'\n\
    workers=json.load(sys.stdin)['workers']\n\
    for code in sys.argv[1:]:\n\
    \x20   print(*[n for n,w in enumerate(workers) if h(code.encode(),bytes.fromhex(w['salt']),w['iterations'])==w['pbkdf2_hmac_sha256']])";

fn python(file: &str, codes: &[&str]) -> String {
    let python = std::env::var("EVENHAND_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let mut child = Command::new(python)
        .args(["-c", SCRIPT])
        .args(codes)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 runs");
    child.stdin.take().expect("a pipe").write_all(file.as_bytes()).expect("it reads");
    let output = child.wait_with_output().expect("it ends");
    assert!(output.status.success());
    String::from_utf8(output.stdout).expect("UTF-8")
}

#[test]
fn hashlib_agrees_on_the_stored_hashes() {
    let codes = ["482913", "90817263", "482913482913"];
    let mut list = Workers::default();
    for ((name, digits), salt) in ["Ana", "Bo", "Cy"].into_iter().zip(codes).zip(1..) {
        let code = Code::new(digits).expect("a code");
        list = list.with(name, Role::Lead, &code, [salt; 16]).expect("it is taken");
    }
    let file = list.to_json();
    assert_eq!(python(&file, &codes), "0\n1\n2\n");
    // One digit, one bit of the salt, one round: hashlib no longer agrees, and neither do we.
    assert_eq!(python(&file, &["482914", "00482913"]), "\n\n");
    let changed = file.replacen("\"salt\": \"01", "\"salt\": \"00", 1);
    let more = file.replacen("600000", "600001", 1);
    for changed in [changed, more] {
        assert_ne!(changed, file);
        assert_eq!(python(&changed, &codes[..1]), "\n");
        let list = Workers::read(changed.as_bytes()).expect("it is read");
        assert!(!list.is_code_of(0, &Code::new("482913").expect("a code")));
    }
}

/// A try is slow for whoever guesses and quick enough for whoever knows.
#[test]
fn a_try_takes_its_time() {
    let code = Code::new("482913").expect("a code");
    let list = Workers::default().with("Ana", Role::Lead, &code, [5; 16]).expect("it is taken");
    let begin = Instant::now();
    assert!(list.is_code_of(0, &code));
    let took = begin.elapsed().as_millis();
    println!("a try of {ITERATIONS_MIN} rounds took {took} ms");
    assert!((10..10_000).contains(&took), "{took} ms");
}
