//! `worker add` and `worker list` as the office runs them: what they print and write, that a code
//! is nowhere in it, and that what is refused changes nothing.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "this test makes files and runs programs"
)]

use std::fs;
use std::os::unix::fs::PermissionsExt as _;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use evenhand_definitions::{Code, Role, Workers};

const PROGRAM: &str = env!("CARGO_BIN_EXE_evenhand-office");

/// A folder of this test's own, removed at the end.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("evenhand-{name}-{}", std::process::id()));
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    fn at(&self, name: &str) -> String {
        self.0.join(name).to_string_lossy().into_owned()
    }

    /// Adds a worker with a code from a file: whether it ended well, and what it printed.
    fn add(&self, name: &str, role: &str, code: &str) -> (bool, String) {
        fs::write(self.at("code"), code).unwrap();
        let (list, code) = (self.at("workers.json"), self.at("code"));
        run(&["add", "--name", name, "--role", role, "--to", &list, "--code-file", &code])
    }

    fn list(&self) -> Workers {
        Workers::read(&fs::read(self.at("workers.json")).unwrap()).unwrap()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

fn run(arguments: &[&str]) -> (bool, String) {
    let output =
        Command::new(PROGRAM).arg("worker").args(arguments).stdin(Stdio::null()).output().unwrap();
    let said = [output.stdout, output.stderr].concat();
    (output.status.success(), String::from_utf8(said).unwrap())
}

#[test]
fn workers_are_added_and_listed() {
    let folder = Folder::new("worker-add");
    let (is_good, said) = folder.add("Ana  Lind", "lead", "482913\n");
    assert!(is_good && said.contains("Added Ana Lind, lead."), "{said}");
    let mode = |name| fs::metadata(folder.at(name)).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode("workers.json"), 0o600);
    fs::set_permissions(folder.at("workers.json"), fs::Permissions::from_mode(0o640)).unwrap();
    let (is_good, said) = folder.add("Bo Reyes", "technician", "482913\r\n");
    assert!(is_good && said.contains("2 worker(s)"), "{said}");
    assert_eq!(mode("workers.json"), 0o640);
    assert_eq!(
        run(&["list", &folder.at("workers.json")]),
        (true, "Ana Lind, lead\nBo Reyes, technician\n".to_owned())
    );
    let list = folder.list();
    assert_eq!(list.list()[1].role, Role::Technician);
    assert!(list.is_code_of(1, &Code::new("482913").unwrap()));
    assert!(!list.is_code_of(1, &Code::new("482914").unwrap()));
    // One code, two salts: that it is the same one can't be seen.
    let text = fs::read_to_string(folder.at("workers.json")).unwrap();
    let hashes: Vec<&str> = text.lines().filter(|line| line.contains("pbkdf2")).collect();
    assert!(hashes.len() == 2 && hashes[0] != hashes[1], "{text}");
    assert!(!text.contains("482913"), "{text}");
    assert!(!fs::exists(folder.at("workers.json.new")).unwrap());
}

#[test]
fn what_is_refused_changes_nothing() {
    let folder = Folder::new("worker-bad");
    assert!(folder.add("Ana", "worker", "482913").0);
    let before = fs::read(folder.at("workers.json")).unwrap();
    for (name, role, code, says) in [
        ("Bo", "worker", "123456", "count up or down"),
        ("Bo", "worker", "000000", "over and over"),
        ("Bo", "worker", "48291", "has 5 digits"),
        ("Bo", "worker", "48 2913", "only the digits"),
        ("Bo", "worker", "482913\n482913", "no text of one line"),
        ("Bo", "boss", "482913", "technician"),
        ("ana", "lead", "482913", "worker 1 has the same name"),
        (" ", "lead", "482913", "the name: the text is empty"),
    ] {
        let (is_good, said) = folder.add(name, role, code);
        assert!(!is_good && said.contains(says), "{name} {role} {code}: {said}");
        assert!(!said.contains("482913") && !said.contains("123456"), "{said}");
        assert_eq!(fs::read(folder.at("workers.json")).unwrap(), before);
        assert!(!fs::exists(folder.at("workers.json.new")).unwrap());
    }
    // Somebody else is writing.
    fs::write(folder.at("workers.json.new"), "").unwrap();
    let (is_good, said) = folder.add("Bo", "lead", "482913");
    assert!(!is_good && said.contains("Where nobody is, remove it."), "{said}");
    assert!(fs::exists(folder.at("workers.json.new")).unwrap());
    fs::remove_file(folder.at("workers.json.new")).unwrap();
    // A list that was damaged isn't written over.
    fs::write(folder.at("workers.json"), "{}").unwrap();
    let (is_good, said) = folder.add("Bo", "lead", "482913");
    assert!(!is_good && said.contains("missing field `workers`"), "{said}");
    assert_eq!(fs::read(folder.at("workers.json")).unwrap(), b"{}");
    let (is_good, said) = run(&["list", &folder.at("gone.json")]);
    assert!(!is_good && said.contains("which `worker add` makes"), "{said}");
    let gone = folder.at("gone/workers.json");
    let code = folder.at("code");
    let (is_good, said) =
        run(&["add", "--name", "Bo", "--role", "lead", "--to", &gone, "--code-file", &code]);
    assert!(!is_good && said.contains("in a folder that can be written"), "{said}");
}

/// At a terminal (Python's pty) the code is asked for twice and isn't shown.
#[test]
fn a_typed_code_is_not_shown() {
    // An answer is typed when the prompt is there and the terminal shows nothing any more.
    let script = "import os,pty,sys,termios,time\n\
        answers=[a.encode()+b'\\n' for a in sys.argv[1].split(',')]\n\
        pid,fd=pty.fork()\n\
        if pid==0: os.execv(sys.argv[2],sys.argv[2:])\n\
        seen=b''; asked=0\n\
        while True:\n\
        \x20   try: more=os.read(fd,4096)\n\
        \x20   except OSError: break\n\
        \x20   if not more: break\n\
        \x20   seen+=more\n\
        \x20   while asked<len(answers) and seen.count(b': ')>asked:\n\
        \x20       while termios.tcgetattr(fd)[3]&termios.ECHO: time.sleep(.001)\n\
        \x20       os.write(fd,answers[asked]); asked+=1\n\
        print(seen.decode())\n\
        sys.exit(os.waitstatus_to_exitcode(os.waitpid(pid,0)[1]))";
    let folder = Folder::new("worker-typed");
    let list = folder.at("workers.json");
    let typed = |codes: &str| {
        let python = std::env::var("EVENHAND_PYTHON").unwrap_or_else(|_| "python3".to_owned());
        let output = Command::new(python)
            .args(["-c", script, codes, PROGRAM])
            .args(["worker", "add", "--name", "Ana", "--role", "lead", "--to", &list])
            .output()
            .unwrap();
        let said = String::from_utf8([output.stdout, output.stderr].concat()).unwrap();
        (output.status.success(), said)
    };
    let (is_good, said) = typed("482913,482914");
    assert!(!is_good && said.contains("the two codes differ"), "{said}");
    let (is_good, said) = typed("654321");
    assert!(!is_good && said.contains("count up or down"), "{said}");
    assert!(!fs::exists(&list).unwrap());
    let (is_good, said) = typed("482913,482913");
    assert!(is_good && said.contains("The same code again: "), "{said}");
    assert!(said.contains("Added Ana, lead.") && !said.contains("482913"), "{said}");
    assert!(folder.list().is_code_of(0, &Code::new("482913").unwrap()));
}
