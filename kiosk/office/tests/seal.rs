//! The office's commands for sealed elections, and what other programs say of the files that they
//! make: OpenSSL 3.0 of keys and signatures, GNU tar of the archives, GNU coreutils of the digests.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "this test makes a folder and runs programs"
)]

use std::fs;
use std::os::unix::fs::PermissionsExt as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const PASSPHRASE: &str = "several words that nobody guesses";

/// A folder that is removed at the end.
struct Room(PathBuf);

impl Room {
    fn new(name: &str) -> Self {
        let folder =
            std::env::temp_dir().join(format!("evenhand-seal-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("passphrase"), format!("{PASSPHRASE}\n")).unwrap();
        Self(folder)
    }

    /// Runs a program in the folder.
    fn run(&self, program: &str, arguments: &[&str]) -> Output {
        let mut command = Command::new(program);
        command.current_dir(&self.0).args(arguments);
        command.output().unwrap_or_else(|error| panic!("{program}: {error}"))
    }

    /// What a program prints, where it succeeds.
    fn ask(&self, program: &str, arguments: &[&str]) -> Vec<u8> {
        let output = self.run(program, arguments);
        let error = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{program} {arguments:?}: {error}");
        output.stdout
    }

    fn text(&self, program: &str, arguments: &[&str]) -> String {
        String::from_utf8(self.ask(program, arguments)).unwrap()
    }

    /// What the office's program prints, or its error.
    fn office(&self, arguments: &[&str]) -> Result<String, String> {
        let output = self.run(env!("CARGO_BIN_EXE_evenhand-office"), arguments);
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        if output.status.success() { Ok(text(&output.stdout)) } else { Err(text(&output.stderr)) }
    }

    fn new_key(&self, name: &str, file: &str) -> Result<String, String> {
        let arguments = ["key", "new", "--name", name, "--to", file];
        self.office(&[&arguments[..], &["--passphrase-file", "passphrase"]].concat())
    }

    fn sign(&self, key: &str) -> Result<String, String> {
        self.office(&["sign", "e.sealed.tar", "--key", key, "--passphrase-file", "passphrase"])
    }

    fn inspect(&self) -> Result<String, String> {
        self.office(&["inspect", "e.sealed.tar", "--trust", "trust.json"])
    }

    /// Two keys, their trust file, and the demo's election packed.
    fn packed(&self) {
        self.new_key("Ines Marlow", "ines.key").unwrap();
        self.new_key("Bo Tarn", "bo.key").unwrap();
        let keys = ["--key", "Ines Marlow=ines.pub", "--key", "Bo Tarn=bo.pub"];
        self.office(&[&["trust", "--to", "trust.json"][..], &keys].concat()).unwrap();
        let demo = demo();
        self.office(&["pack", demo.to_str().unwrap(), "--to", "e.sealed.tar"]).unwrap();
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Room {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

fn demo() -> PathBuf {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    root.join("ballot-definitions/quillbrook-county-general-2027").canonicalize().unwrap()
}

/// The bytes of hexadecimal digits.
fn bytes(digits: &str) -> Vec<u8> {
    let pair = |at: usize| u8::from_str_radix(&digits[at..at + 2], 16).unwrap();
    (0..digits.len()).step_by(2).map(pair).collect()
}

/// The texts between two others.
fn between<'t>(text: &'t str, before: &str) -> Vec<&'t str> {
    text.split(before).skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

/// OpenSSL 3.0: the key opens with its passphrase only, is PBES2 as RFC 8018 has it, and has the
/// public key that lies beside it.
#[test]
fn openssl_reads_the_keys() {
    let room = Room::new("keys");
    let said = room.new_key("Ines Marlow", "ines.key").unwrap();
    assert!(said.contains("--key \"Ines Marlow=ines.pub\""), "{said}");
    let opened = ["pkey", "-in", "ines.key", "-passin", "file:passphrase", "-pubout"];
    let public = room.text("openssl", &opened);
    let beside = fs::read_to_string(room.path("ines.pub")).unwrap();
    assert_eq!(beside, format!("Evenhand, public key of Ines Marlow\n{public}"));
    let wrong = ["pkey", "-in", "ines.key", "-passin", "pass:several words", "-noout"];
    assert!(!room.run("openssl", &wrong).status.success());
    let structure = room.text("openssl", &["asn1parse", "-in", "ines.key"]);
    // 0927C0 is 600,000.
    for part in [":PBES2", ":PBKDF2", ":0927C0", ":hmacWithSHA256", ":aes-256-cbc"] {
        assert!(structure.contains(part), "{part}: {structure}");
    }
    let kind = room.text("openssl", &["pkey", "-pubin", "-in", "ines.pub", "-text", "-noout"]);
    assert!(kind.contains("ED25519 Public-Key"), "{kind}");
    let mode = |file| fs::metadata(room.path(file)).unwrap().permissions().mode() & 0o777;
    assert_eq!((mode("ines.key"), mode("ines.pub")), (0o600, 0o644));
    // The key's own digest is that of the public key in DER.
    let der = ["pkey", "-pubin", "-in", "ines.pub", "-outform", "DER", "-out", "ines.der"];
    room.ask("openssl", &der);
    let digest = room.text("sha256sum", &["ines.der"]);
    let groups = digest.as_bytes()[..16].chunks(4).map(String::from_utf8_lossy);
    let first = groups.collect::<Vec<_>>().join("  ");
    assert!(said.contains(&format!("1:  {first}\n")), "{said} {digest}");
}

/// A key that OpenSSL made and encrypted as we do signs as well as ours; a weaker one is refused.
#[test]
fn openssl_makes_keys_that_sign() {
    let room = Room::new("foreign");
    room.packed();
    room.ask("openssl", &["genpkey", "-algorithm", "ed25519", "-out", "plain.key"]);
    room.ask("openssl", &["genpkey", "-algorithm", "x25519", "-out", "other.key"]);
    let encrypt = |from, to, cipher, rounds| {
        let how = ["pkcs8", "-topk8", "-in", from, "-passout", "file:passphrase", "-out", to];
        let with = ["-v2", cipher, "-v2prf", "hmacWithSHA256", "-iter", rounds];
        room.ask("openssl", &[&how[..], &with].concat());
    };
    encrypt("plain.key", "strong.key", "aes-256-cbc", "700000");
    encrypt("plain.key", "weak.key", "aes-256-cbc", "2048");
    encrypt("plain.key", "endless.key", "aes-256-cbc", "10000001");
    encrypt("plain.key", "short.key", "aes-128-cbc", "700000");
    encrypt("other.key", "kex.key", "aes-256-cbc", "700000");
    assert!(room.sign("strong.key").unwrap().contains("1 signature(s) now"));
    for weak in ["weak.key", "endless.key", "short.key"] {
        let error = room.sign(weak).unwrap_err();
        assert!(error.contains("not encrypted as is asked for"), "{weak}: {error}");
    }
    assert!(room.sign("kex.key").unwrap_err().contains("holds no Ed25519 key"));
    assert!(room.sign("plain.key").unwrap_err().contains("it is marked PRIVATE KEY"));
}

/// GNU tar lists and extracts the same files; sha256sum agrees with the manifest; OpenSSL verifies
/// both signatures under the message as it is documented, and no other.
#[test]
fn other_programs_check_a_sealed_election() {
    let room = Room::new("outside");
    room.packed();
    let refused = room.inspect().unwrap_err();
    assert!(refused.starts_with("not sealed: it has 0 of the 2"), "{refused}");
    room.sign("ines.key").unwrap();
    assert!(room.inspect().unwrap_err().contains("it has 1 of the 2"));
    room.sign("bo.key").unwrap();
    let report = room.inspect().unwrap();
    assert!(report.contains("Ines Marlow") && report.contains("Bo Tarn"), "{report}");

    let list = room.text("tar", &["-tvf", "e.sealed.tar"]);
    let lines: Vec<&str> = list.lines().collect();
    assert_eq!(lines.len(), 2, "{list}");
    for (line, name) in lines.iter().zip(["contents.tar", "signatures.json"]) {
        assert!(line.starts_with("-rw-r--r-- 0/0") && line.ends_with(name), "{list}");
    }
    room.ask("tar", &["-xf", "e.sealed.tar"]);
    room.ask("tar", &["-xf", "contents.tar"]);
    for file in ["definition.json", "settings.json"] {
        assert_eq!(fs::read(room.path(file)).unwrap(), fs::read(demo().join(file)).unwrap());
    }
    let manifest = fs::read_to_string(room.path("manifest.json")).unwrap();
    let paths = between(&manifest, "\"path\": \"");
    assert_eq!(paths, ["definition.json", "settings.json", "streets.csv"]);
    for (path, digest) in paths.iter().zip(between(&manifest, "\"sha256\": \"")) {
        let line = room.text("sha256sum", &[path]);
        assert_eq!(line, format!("{digest}  {path}\n"));
        assert!(report.contains(&format!("{digest}  {path} (")), "{report}");
    }

    let contents = fs::read(room.path("contents.tar")).unwrap();
    let digest = room.text("sha256sum", &["contents.tar"]);
    let digest = digest.split(' ').next().unwrap();
    let message = format!(
        "Evenhand sealed election, form 1\ncontents.tar, {} bytes, SHA-256\n{digest}\n",
        contents.len()
    );
    let signatures = fs::read_to_string(room.path("signatures.json")).unwrap();
    let signed: Vec<_> = between(&signatures, "\"signature\": \"");
    assert_eq!(signed.len(), 2);
    let accepts = |key: &str, message: &str, signature: &str| {
        fs::write(room.path("message"), message).unwrap();
        fs::write(room.path("signature"), bytes(signature)).unwrap();
        let how = ["pkeyutl", "-verify", "-pubin", "-inkey", key, "-rawin", "-in", "message"];
        room.run("openssl", &[&how[..], &["-sigfile", "signature"]].concat()).status.success()
    };
    for key in ["ines.pub", "bo.pub"] {
        let good = signed.iter().filter(|signature| accepts(key, &message, signature)).count();
        assert_eq!(good, 1, "{key}");
        let changed = message.replace("form 1", "form 2");
        assert!(!signed.iter().any(|signature| accepts(key, &changed, signature)), "{key}");
    }
}

/// A file that GNU tar packed from the same files differs and is refused, however close.
#[test]
fn a_file_that_another_program_packed_is_refused() {
    let room = Room::new("repacked");
    room.packed();
    room.sign("ines.key").unwrap();
    room.sign("bo.key").unwrap();
    room.inspect().unwrap();
    room.ask("tar", &["-xf", "e.sealed.tar"]);
    let plain = ["--owner=0", "--group=0", "--numeric-owner", "--mtime=@0", "--mode=0644"];
    for form in ["--format=ustar", "--format=gnu", "--format=pax"] {
        let files = ["-cf", "e.sealed.tar", "contents.tar", "signatures.json"];
        room.ask("tar", &[&[form][..], &plain, &files].concat());
        assert!(room.inspect().unwrap_err().starts_with("not sealed: "), "{form}");
    }
}

#[test]
fn a_key_is_made_once_and_opens_with_its_passphrase_only() {
    let room = Room::new("once");
    room.packed();
    let before = fs::read(room.path("ines.key")).unwrap();
    let again = room.new_key("Ines Marlow", "ines.key").unwrap_err();
    assert!(again.contains("no key is ever replaced"), "{again}");
    assert_eq!(fs::read(room.path("ines.key")).unwrap(), before);
    assert!(room.new_key("A\u{202e}", "a.key").unwrap_err().contains("U+202E"));
    assert!(room.new_key("A", "a.pub").unwrap_err().contains("Let it end in .key"));
    for (passphrase, says) in [
        ("short words", "fewer than 12 characters"),
        ("", "fewer than 12 characters"),
        ("two lines of\nwords are too many", "not one line"),
        (&"a".repeat(1025), "passphrase: "),
    ] {
        fs::write(room.path("passphrase"), passphrase).unwrap();
        let error = room.new_key("A", "a.key").unwrap_err();
        assert!(error.contains(says), "{passphrase:?}: {error}");
        assert!(!room.path("a.key").exists() && !room.path("a.pub").exists());
    }
    let file = fs::read(room.path("e.sealed.tar")).unwrap();
    fs::write(room.path("passphrase"), "several other words").unwrap();
    let error = room.sign("ines.key").unwrap_err();
    assert!(error.contains("ines.key doesn't open with this passphrase"), "{error}");
    assert!(room.sign("ines.pub").unwrap_err().contains("it is marked PUBLIC KEY"));
    fs::write(room.path("passphrase"), PASSPHRASE).unwrap();
    assert_eq!(fs::read(room.path("e.sealed.tar")).unwrap(), file);
    room.sign("ines.key").unwrap();
    let error = room.sign("ines.key").unwrap_err();
    assert!(error.contains("has signed already"), "{error}");
    assert!(!room.path("e.sealed.tar.new").exists());
}

#[test]
fn one_who_seals_alone_is_warned_of() {
    let room = Room::new("alone");
    room.new_key("Ines Marlow", "ines.key").unwrap();
    let key = "Ines Marlow=ines.pub";
    let alone = ["trust", "--threshold", "1", "--key", key, "--to", "one.json"];
    let output = room.run(env!("CARGO_BIN_EXE_evenhand-office"), &alone);
    assert!(output.status.success());
    assert!(String::from_utf8_lossy(&output.stderr).contains("WARNING: one person alone"));
    let two = ["trust", "--key", key, "--to", "two.json"];
    assert!(room.office(&two).unwrap_err().contains("2 of 1 officials must sign"));
    let twice = ["trust", "--key", key, "--key", "Bo Tarn=ines.pub", "--to", "two.json"];
    assert!(room.office(&twice).unwrap_err().contains("have the same key"));
    let private = ["trust", "--key", "Ines=ines.key", "--threshold", "1", "--to", "two.json"];
    assert!(room.office(&private).unwrap_err().contains("it is marked ENCRYPTED PRIVATE KEY"));
    assert!(room.office(&["trust", "--key", "ines.pub", "--to", "two.json"]).is_err());
    assert!(!room.path("two.json").exists());
}

/// What doesn't pass `check` isn't packed, and what no station reads is left out by name.
#[test]
fn only_a_sound_election_is_packed() {
    let room = Room::new("pack");
    let folder = room.path("election");
    fs::create_dir_all(folder.join("sound/en")).unwrap();
    for file in ["definition.json", "settings.json"] {
        fs::copy(demo().join(file), folder.join(file)).unwrap();
    }
    fs::write(folder.join("sound/en/notes.txt"), "x").unwrap();
    let said = room.office(&["pack", "election", "--to", "a.sealed.tar"]).unwrap();
    assert!(said.contains("no station reads it: sound/en/notes.txt"), "{said}");
    let entry =
        r#"{"recordings": [{"text": "a", "language": "en", "file": "FILE", "made": "recorded"}]}"#;
    let pack_with = |file: &str| {
        fs::write(folder.join("sound/list.json"), entry.replace("FILE", file)).unwrap();
        room.office(&["pack", "election", "--to", "b.sealed.tar"]).unwrap_err()
    };
    assert!(pack_with("en/gone.wav").contains("en/gone.wav"));
    fs::write(folder.join("sound/en/a.wav"), "only words").unwrap();
    fs::write(folder.join("sound/en/Big.wav"), "only words").unwrap();
    assert!(pack_with("en/a.wav").contains("sound/en/a.wav: it can't be decoded"));
    assert!(pack_with("en/Big.wav").contains("Paths have small letters"));
    fs::write(folder.join("settings.json"), "{}x").unwrap();
    assert!(pack_with("en/a.wav").contains("settings"));
    assert!(!room.path("b.sealed.tar").exists());
}

/// GNU coreutils: the digest of a file is that of sha256sum.
#[test]
fn digests_are_those_of_sha256sum() {
    let room = Room::new("digest");
    fs::write(room.path("program"), vec![7; 3 << 20]).unwrap();
    fs::write(room.path("empty"), "").unwrap();
    let said = room.office(&["digest", "program", "empty"]).unwrap();
    for file in ["program", "empty"] {
        let line = room.text("sha256sum", &[file]);
        let digest = line.split(' ').next().unwrap();
        assert!(said.contains(&format!("{file}\n{digest}\n  1:  ")), "{said}");
    }
    assert!(room.office(&["digest", "gone"]).is_err());
}
