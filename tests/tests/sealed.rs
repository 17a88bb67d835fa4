//! Sealed elections: what opens, and everything that must not. Hostile files are truly signed, so
//! that what refuses them is what is tested; `sealing.rs` makes them by other means than ours.
//! (The office's program and other programs on its files: `kiosk/office/tests/seal.rs`.)
#![expect(clippy::expect_used, clippy::print_stdout, reason = "a test's helpers may")]

use std::thread;

use evenhand_definitions::limits::{OFFICIALS_MAX, SEALED_FILES_MAX};
use evenhand_definitions::seal::{
    Contents, Official, SealError, SealedElection, Trust, TrustError, Verified, verify,
};
use evenhand_definitions::{Digest, Loaded, Opening, load};
use evenhand_rules::BallotState;
use evenhand_tests::figures;
use evenhand_tests::sealing::{
    Piece, archive, contents, definition, files, list, manifest, message, of_kind, pair, piece,
    public, sealed, signatures, signed, trust,
};
use proptest::prelude::*;
use tar::EntryType;

/// The small election, sealed by officials 1 and 2, by our own means.
fn good() -> Vec<u8> {
    let mut sealed = SealedElection::unsigned(contents());
    let message = sealed.contents().message();
    for number in [2, 1] {
        let pair = pair(number);
        sealed.add(&public(&pair), pair.sign(&message).as_ref()).expect("it may sign");
    }
    sealed.to_bytes().expect("it is small")
}

/// What a station that trusts officials 1 to 3, two of whom must sign, says of a file.
fn refusal(bytes: Vec<u8>) -> String {
    let refused = verify(bytes, &trust(2, 3));
    refused.map(|_| ()).expect_err("it must be refused").to_string()
}

fn state(is_test: bool, opening: Opening) -> BallotState {
    let contents = Contents::pack(&files(is_test)).expect("it can be packed");
    let verified = verify(sealed(contents.bytes(), &[1, 2]), &trust(2, 2)).expect("it is sealed");
    Loaded::from(verified).ballot_state(opening)
}

#[test]
fn what_two_of_three_sealed_opens() {
    let bytes = good();
    // The file that was made by hand is the same.
    assert_eq!(bytes, sealed(contents().bytes(), &[1, 2]));
    let verified: Verified = verify(bytes.clone(), &trust(2, 3)).expect("it is sealed");
    assert_eq!(verified.file_digest(), Digest::of(&bytes));
    let mut signers = verified.signers().to_vec();
    signers.sort();
    assert_eq!(signers, ["Official 1", "Official 2"]);
    assert_eq!(verified.file("definition.json"), Some(definition(false).as_slice()));
    assert_eq!(verified.settings().max_replacements, 1);
    assert_eq!(verified.election(), load(&definition(false)).expect("it loads").election());
    assert_eq!(verified.message(), message(contents().bytes()));
    let read = SealedElection::read(bytes.clone()).expect("it is packed");
    assert_eq!(read.to_bytes().expect("it is small"), bytes);
}

/// Form 1 stays as it is, whatever becomes of the crates that write it: what was sealed last year
/// must open. (The digest is our own, of the first version; Ed25519 signs without chance, RFC 8032.)
#[test]
fn the_form_of_today_is_the_form_of_yesterday() {
    assert_eq!(
        Digest::of(&good()).to_string(),
        "a2d53c372f4e7c5643a065bf1ce01005b8304924d4424b641425298a09697517"
    );
}

#[test]
fn only_a_sealed_election_that_is_no_test_makes_official_ballots() {
    assert_eq!(state(false, Opening::Election), BallotState::Official);
    assert_eq!(state(false, Opening::Test), BallotState::Test);
    assert_eq!(state(true, Opening::Election), BallotState::Test);
    assert_eq!(state(true, Opening::Test), BallotState::Test);
    let unsealed = load(&definition(false)).expect("it loads");
    assert_eq!(unsealed.ballot_state(Opening::Election), BallotState::Demo);
    assert_eq!(unsealed.ballot_state(Opening::Test), BallotState::Demo);
}

#[test]
fn every_single_bit_counts() {
    let good = good();
    let trust = trust(2, 3);
    assert!(verify(good.clone(), &trust).is_ok());
    let bits = good.len() * 8;
    let half = |first: usize| -> Vec<usize> {
        let mut bytes = good.clone();
        let mut accepted = Vec::new();
        for bit in (first..bits).step_by(2) {
            if let Some(byte) = bytes.get_mut(bit / 8) {
                *byte ^= 1 << (bit % 8);
            }
            if verify(bytes.clone(), &trust).is_ok() {
                accepted.push(bit);
            }
            if let Some(byte) = bytes.get_mut(bit / 8) {
                *byte ^= 1 << (bit % 8);
            }
        }
        accepted
    };
    let accepted = thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let mut accepted = half(0);
        accepted.extend(other.join().expect("the other half ends"));
        accepted
    });
    assert_eq!(accepted, Vec::<usize>::new(), "bits whose change was accepted");
    figures::note(
        "changed bits of a sealed election that are refused",
        &format!("{bits} of {bits}"),
    );
    println!("{bits} changed bits, each refused");
}

#[test]
fn every_cut_and_every_addition_is_refused() {
    let good = good();
    let trust = trust(2, 3);
    for len in 0..good.len() {
        let cut = good.get(..len).unwrap_or_default().to_vec();
        assert!(verify(cut, &trust).is_err(), "the first {len} bytes");
    }
    for added in [&[0][..], &[0; 512], &[0; 1024], &[0; 9216], b"\n", &good] {
        for bytes in [[&good, added].concat(), [added, &good].concat()] {
            assert!(verify(bytes, &trust).is_err(), "{} bytes added", added.len());
        }
    }
}

#[test]
fn signatures_must_be_enough_trusted_and_under_this() {
    let contents = contents();
    let contents = contents.bytes();
    let threshold = |officials: &[u8]| verify(sealed(contents, officials), &trust(2, 3));
    assert_eq!(threshold(&[]), Err(SealError::TooFew { found: 0, threshold: 2 }));
    assert_eq!(threshold(&[3]), Err(SealError::TooFew { found: 1, threshold: 2 }));
    for enough in [&[1, 2][..], &[1, 3], &[3, 2], &[1, 2, 3]] {
        assert!(threshold(enough).is_ok(), "{enough:?}");
    }
    let id = |number| public(&pair(number)).id();
    // The same key twice is one official; a key that nobody here knows spoils the rest.
    assert_eq!(threshold(&[1, 1]), Err(SealError::SignedTwice { key: id(1) }));
    assert_eq!(threshold(&[1, 2, 9]), Err(SealError::UnknownKey { key: id(9) }));
    assert_eq!(threshold(&[8, 9]).map(|_| ()), {
        let first = id(8).min(id(9));
        Err(SealError::UnknownKey { key: first })
    });
    let with = |entries: &[String]| {
        let mut entries = entries.to_vec();
        entries.sort();
        let list = list(&entries);
        let pieces = [piece("contents.tar", contents), piece("signatures.json", list.as_bytes())];
        verify(archive(&pieces), &trust(2, 3)).map(|_| ())
    };
    let right = message(contents);
    let sound = [signed(&pair(1), &right), signed(&pair(2), &right)];
    assert_eq!(with(&sound), Ok(()));
    // Two good ones and a bad third; a signature under the bytes without our own sentence; under
    // another election.
    let bare = Digest::of(contents).to_string();
    let other = Contents::pack(&files(true)).expect("it can be packed");
    for wrong in [contents.to_vec(), bare.into_bytes(), other.message(), Vec::new()] {
        let third = signed(&pair(3), &wrong);
        let all = [sound.as_slice(), &[third]].concat();
        let name = "Official 3".to_owned();
        assert_eq!(with(&all), Err(SealError::BadSignature { name }));
    }
    // One official's signature under another's key.
    let swapped = signed(&pair(3), &right).replace(&id(3).to_string(), &id(1).to_string());
    let name = "Official 1".to_owned();
    assert_eq!(with(&[swapped, sound[1].clone()]), Err(SealError::BadSignature { name }));
}

#[test]
fn a_signature_is_added_once_and_only_if_it_is_good() {
    let mut sealed = SealedElection::unsigned(contents());
    let (one, message) = (pair(1), sealed.contents().message());
    let wrong = sealed.add(&public(&pair(2)), one.sign(&message).as_ref());
    assert!(matches!(wrong, Err(SealError::BadSignature { .. })));
    assert!(matches!(sealed.add(&public(&one), b""), Err(SealError::BadSignature { .. })));
    assert_eq!(sealed.add(&public(&one), one.sign(&message).as_ref()), Ok(()));
    let again = sealed.add(&public(&one), one.sign(&message).as_ref());
    assert_eq!(again, Err(SealError::SignedTwice { key: public(&one).id() }));
    assert_eq!(sealed.keys().count(), 1);
    let most = u8::try_from(OFFICIALS_MAX).expect("it is small");
    for number in 2..=most {
        let pair = pair(number);
        assert_eq!(sealed.add(&public(&pair), pair.sign(&message).as_ref()), Ok(()));
    }
    let last = pair(most + 1);
    let many = sealed.add(&public(&last), last.sign(&message).as_ref());
    assert_eq!(many, Err(SealError::TooManySignatures { count: OFFICIALS_MAX + 1 }));
    assert!(verify(sealed.to_bytes().expect("it is small"), &trust(most, most)).is_ok());
}

/// The list of signatures as text must be ours to the last blank.
#[test]
fn other_texts_of_the_same_signatures_are_refused() {
    let contents = contents();
    let contents = contents.bytes();
    let good = signatures(contents, &[1, 2]);
    let with = |text: &str| {
        let pieces = [piece("contents.tar", contents), piece("signatures.json", text.as_bytes())];
        verify(archive(&pieces), &trust(2, 3)).map(|_| ())
    };
    assert_eq!(with(&good), Ok(()));
    let mut entries = [signed(&pair(1), &message(contents)), signed(&pair(2), &message(contents))];
    entries.sort();
    entries.reverse();
    let extra = good.replacen('\n', "\n  \"note\": 1,\n", 1);
    let upper = good.replace("\"key\": \"", "\"key\": \"A");
    for (bad, says) in [
        (good.replace(": ", ":"), "isn't written as Evenhand writes it"),
        (good.trim_end().to_owned(), "isn't written as Evenhand writes it"),
        (format!("{good}\n"), "isn't written as Evenhand writes it"),
        (format!("{good}x"), "trailing characters"),
        (format!("\u{feff}{good}"), "expected value"),
        (good.replace("\"key\"", "\"\\u006bey\""), "isn't written as Evenhand writes it"),
        (list(&entries), "aren't in the order of their keys"),
        (extra, "unknown field"),
        (good.replace("form 1", "form 2"), "must be \"Evenhand signatures, form 1\""),
        (upper, "64 digits"),
        (good.replace("\"signature\": \"", "\"signature\": \"0"), "128 digits"),
        ("null".to_owned(), "invalid type"),
        (String::new(), "EOF"),
        ("[".repeat(900), "expected a string"),
    ] {
        let error = with(&bad).expect_err("it must be refused").to_string();
        assert!(error.starts_with("signatures.json: ") && error.contains(says), "{bad}: {error}");
    }
    let many: Vec<String> = (0..=OFFICIALS_MAX)
        .map(|at| {
            format!(
                "    {{\n      \"key\": \"{at:064x}\",\n      \"signature\": \"{}\"\n    }}",
                "0".repeat(128)
            )
        })
        .collect();
    let error = with(&list(&many));
    assert_eq!(error, Err(SealError::TooManySignatures { count: OFFICIALS_MAX + 1 }));
}

/// The pieces of the small election's contents.
fn inner() -> Vec<Piece> {
    let definition = definition(false);
    let text = manifest(&[("definition.json", &definition)]);
    vec![piece("manifest.json", text.as_bytes()), piece("definition.json", &definition)]
}

/// Entries that no archive of ours has, each with what the refusal says.
fn hostile() -> Vec<(Piece, &'static str)> {
    let mut big = of_kind(EntryType::Regular, "bomb.bin", b"");
    big.0.set_size(0o7_777_777_777);
    big.0.set_cksum();
    let mut huge = of_kind(EntryType::Regular, "bomb.bin", b"");
    // More than octal digits can say: base 256, which GNU tar also takes.
    huge.0.set_size(u64::MAX >> 2);
    huge.0.set_cksum();
    // A regular file as it was before POSIX.
    let mut old = piece("a.bin", b"x");
    old.0.as_old_mut().linkflag = [0];
    old.0.set_cksum();
    let mut owned = piece("a.bin", b"x");
    owned.0.set_mtime(1);
    owned.0.set_cksum();
    let mut sum = piece("a.bin", b"x");
    sum.0.as_old_mut().cksum = *b"0000000\0";
    let mut digits = piece("a.bin", b"x");
    digits.0.as_old_mut().size = *b"00000000009 ";
    digits.0.set_cksum();
    let mut link = of_kind(EntryType::Symlink, "a.bin", b"");
    link.0.as_old_mut().linkname[..11].copy_from_slice(b"/etc/passwd");
    link.0.set_cksum();
    let mut hard = of_kind(EntryType::Link, "a.bin", b"");
    hard.0.as_old_mut().linkname[..13].copy_from_slice(b"manifest.json");
    hard.0.set_cksum();
    let path = "can't be used";
    vec![
        (piece("../a.bin", b"x"), path),
        (piece("sound/../../a.bin", b"x"), path),
        (piece("/etc/a.bin", b"x"), path),
        (piece("./a.bin", b"x"), path),
        (piece(".hidden", b"x"), path),
        (piece("a//b", b"x"), path),
        (piece("A.BIN", b"x"), path),
        (piece("a\\b", b"x"), path),
        (piece("", b"x"), path),
        (piece("-rf", b"x"), path),
        (piece("a/", b""), path),
        (link, "a symbolic link"),
        (hard, "a hard link"),
        (of_kind(EntryType::Directory, "sound", b""), "a folder"),
        (of_kind(EntryType::Char, "a", b""), "a device"),
        (of_kind(EntryType::Block, "a", b""), "a device"),
        (of_kind(EntryType::Fifo, "a", b""), "a pipe"),
        (of_kind(EntryType::Continuous, "a", b""), "an unknown kind"),
        (of_kind(EntryType::XHeader, "a", b"20 path=../../a.bin\n"), "an extended header"),
        (of_kind(EntryType::XGlobalHeader, "a", b"12 mtime=1\n\n"), "an extended header"),
        (of_kind(EntryType::GNULongName, "a", b"../../a.bin\0"), "a long name"),
        (of_kind(EntryType::GNULongLink, "a", b"../../a.bin\0"), "a long name"),
        (of_kind(EntryType::GNUSparse, "a", b""), "a file with holes"),
        (of_kind(EntryType::new(b'Z'), "a", b""), "an unknown kind"),
        (old, "isn't as Evenhand writes it"),
        (owned, "isn't as Evenhand writes it"),
        (sum, "isn't as Evenhand writes it"),
        (digits, "cut short|isn't as Evenhand writes it"),
        (big, "the limit is"),
        (huge, "the limit is"),
    ]
}

fn says(error: &str, expected: &str) -> bool {
    expected.split('|').any(|part| error.contains(part))
}

#[test]
fn hostile_entries_are_refused_inside_and_outside() {
    assert!(verify(sealed(&archive(&inner()), &[1, 2]), &trust(2, 3)).is_ok());
    for (entry, expected) in hostile() {
        let name = String::from_utf8_lossy(&entry.0.path_bytes()).into_owned();
        for place in 0..=2 {
            let mut pieces = inner();
            pieces.insert(place, entry.clone());
            let error = refusal(sealed(&archive(&pieces), &[1, 2]));
            assert!(error.starts_with("contents.tar: "), "{name:?} at {place}: {error}");
            assert!(says(&error, expected), "{name:?} at {place}: {error}");
            let good = contents();
            let list = signatures(good.bytes(), &[1, 2]);
            let mut pieces = vec![
                piece("contents.tar", good.bytes()),
                piece("signatures.json", list.as_bytes()),
            ];
            pieces.insert(place, entry.clone());
            let error = refusal(archive(&pieces));
            let too_many = place == 2 && error.contains("more than 2 files");
            assert!(too_many || says(&error, expected), "{name:?} outside, {place}: {error}");
        }
    }
}

#[test]
fn files_are_those_of_the_manifest_in_its_order() {
    let definition = definition(false);
    let settings: &[u8] = b"{}";
    let both = manifest(&[("definition.json", &definition), ("settings.json", settings)]);
    let one = manifest(&[("definition.json", &definition)]);
    let file = |path: &str, bytes: &[u8]| piece(path, bytes);
    let d = || file("definition.json", &definition);
    let s = || file("settings.json", settings);
    let m = |text: &str| file("manifest.json", text.as_bytes());
    assert!(verify(sealed(&archive(&[m(&both), d(), s()]), &[1, 2]), &trust(2, 3)).is_ok());
    let backwards = manifest(&[("settings.json", settings), ("definition.json", &definition)]);
    let twice = manifest(&[("definition.json", &definition), ("definition.json", &definition)]);
    let longer = both.replace("\"bytes\": 2,", "\"bytes\": 3,");
    let unread = manifest(&[("definition.json", &definition), ("notes.txt", settings)]);
    let no_settings: &[u8] = b"{\"printed_languages\": [\"km\"]}";
    let km = manifest(&[("definition.json", &definition), ("settings.json", no_settings)]);
    for (pieces, says) in [
        (vec![m(&one), d(), s()], "settings.json stands where the manifest has nothing more"),
        (vec![m(&both), d()], "settings.json is in the manifest and not there"),
        (vec![m(&both), s(), d()], "settings.json stands where the manifest has definition.json"),
        (vec![m(&backwards), s(), d()], "the paths aren't in order"),
        (vec![m(&twice), d(), d()], "definition.json is there twice"),
        (vec![m(&twice), d()], "the paths aren't in order, or one is there twice"),
        (vec![m(&one), d(), d()], "definition.json is there twice"),
        (vec![d(), m(&one)], "doesn't begin with manifest.json"),
        (vec![m(&one), m(&one), d()], "manifest.json is there twice"),
        (vec![], "doesn't begin with manifest.json"),
        (vec![m(&both), d(), file("settings.json", b"[]")], "isn't the file that the manifest"),
        (vec![m(&longer), d(), s()], "isn't the file that the manifest lists"),
        (vec![m(&manifest(&[("settings.json", settings)])), s()], "no definition.json"),
        (vec![m(&unread), d(), file("notes.txt", settings)], "a file that no station reads"),
        (vec![m(&km), d(), file("settings.json", no_settings)], "field printed_languages"),
        (vec![m(&both.replace(": ", ":")), d(), s()], "isn't written as Evenhand writes it"),
        (vec![m(&format!("{both} ")), d(), s()], "isn't written as Evenhand writes it"),
        (vec![m(&both.replace("form 1", "form 2")), d(), s()], "Evenhand manifest, form 1"),
        (vec![m(&both.replace("\"bytes\": 2,", "\"bytes\": 2.0,")), d(), s()], "invalid type"),
        (vec![m("{}"), d()], "missing field"),
    ] {
        let error = refusal(sealed(&archive(&pieces), &[1, 2]));
        assert!(error.contains(says), "expected {says}: {error}");
    }
}

#[test]
fn recordings_are_those_of_the_list() {
    let list = br#"{"recordings": [{"text": "Clerk", "language": "en", "file": "en/a.wav", "made": "recorded"}]}"#;
    let mut files = files(false);
    files.insert("sound/list.json".to_owned(), list.to_vec());
    let error = Contents::pack(&files).expect_err("one is missing").to_string();
    assert!(error.contains("sound/en/a.wav is in sound/list.json and not there"), "{error}");
    files.insert("sound/en/a.wav".to_owned(), b"sound".to_vec());
    let packed = Contents::pack(&files).expect("all is there");
    let verified = verify(sealed(packed.bytes(), &[1, 2]), &trust(2, 2)).expect("it is sealed");
    assert_eq!(verified.recording("en/a.wav"), Some(b"sound".as_slice()));
    assert_eq!(verified.recording("list.json"), None);
    assert_eq!(verified.sound().entries().len(), 1);
    files.insert("sound/en/b.wav".to_owned(), b"sound".to_vec());
    let error = Contents::pack(&files).expect_err("one is too many").to_string();
    assert!(error.contains("sound/en/b.wav is a file that no station reads"), "{error}");
}

#[test]
fn too_many_files_are_refused_before_they_are_read() {
    let pieces: Vec<Piece> =
        (0..=SEALED_FILES_MAX + 1).map(|at| piece(&format!("f{at}"), b"")).collect();
    let error = refusal(sealed(&archive(&pieces), &[1, 2]));
    assert!(error.contains("more than 20005 files"), "{error}");
}

#[test]
fn trust_is_in_persons_and_can_be_reached() {
    let written = trust(2, 3).write();
    assert_eq!(Trust::read(&written), Ok(trust(2, 3)));
    let text = String::from_utf8(written).expect("it is text");
    let official =
        |number: u8, name: &str| Official { name: name.to_owned(), key: public(&pair(number)) };
    let of = |threshold, officials| Trust::new(threshold, officials).map(|_| ());
    assert_eq!(of(1, vec![]), Err(TrustError::Count { count: 0 }));
    let many = (0..33).map(|number| official(number, &format!("O {number}"))).collect();
    assert_eq!(of(2, many), Err(TrustError::Count { count: 33 }));
    for threshold in [0, 3] {
        let two = vec![official(1, "A"), official(2, "B")];
        assert_eq!(of(threshold, two), Err(TrustError::Threshold { threshold, officials: 2 }));
    }
    let same_key = of(2, vec![official(1, "Ann"), official(1, "Bo")]);
    let (name, other) = ("Bo".to_owned(), "Ann".to_owned());
    assert_eq!(same_key, Err(TrustError::RepeatedKey { name, other }));
    for name in ["Ann", " ann ", "ANN"] {
        let same_name = of(2, vec![official(1, "Ann"), official(2, name)]);
        assert!(matches!(same_name, Err(TrustError::RepeatedName { .. })), "{name}");
    }
    for name in ["", " ", "A\u{202e}nn", &"a".repeat(201)] {
        let bad = of(1, vec![official(1, name)]);
        assert!(matches!(bad, Err(TrustError::Name { .. })), "{name}");
    }
    for (bad, says) in [
        (text.replace("form 1", "form 2"), "field form"),
        (text.replace("\"threshold\": 2", "\"threshold\": 4"), "4 of 3 officials must sign"),
        (text.replace("\"threshold\": 2", "\"threshold\": 0"), "0 of 3 officials must sign"),
        (text.replace("\"threshold\": 2", "\"threshold\": 256"), "field threshold"),
        (text.replace("\"threshold\": 2,", ""), "missing field"),
        (text.replace("\"threshold\"", "\"treshold\""), "unknown field"),
        (text.replace("\"threshold\": 2", "\"threshold\": 2, \"threshold\": 1"), "duplicate field"),
        (text.replacen("MCowBQYDK2VwAyEA", "MCowBQYDK2VuAyEA", 1), "officials[0].key"),
        (text.replacen("Official 2", "Official 1", 1), "Official 1 is there twice"),
        (format!("{text}{{}}"), "trailing characters"),
        (" ".repeat(70_000), "more than 65536 bytes"),
    ] {
        let error = Trust::read(bad.as_bytes()).expect_err("it must be refused").to_string();
        assert!(error.contains(says), "{bad}: {error}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_bytes_stop_a_door(bytes in prop::collection::vec(any::<u8>(), 0..4096)) {
        prop_assert!(verify(bytes.clone(), &trust(1, 1)).is_err());
        prop_assert!(Contents::read(bytes.clone()).is_err());
        prop_assert!(SealedElection::read(bytes.clone()).is_err());
        prop_assert!(Trust::read(&bytes).is_err());
    }

    /// Spans taken out, doubled and overwritten, then signed anew: nothing panics, and what still
    /// is contents is so bit for bit.
    #[test]
    fn what_is_signed_anew_is_still_held_to_its_form(
        at in 0usize..8000,
        len in 0usize..1100,
        what in 0u8..3,
        fill in any::<u8>(),
    ) {
        let mut bytes = contents().bytes().to_vec();
        let at = at.min(bytes.len());
        let end = (at + len).min(bytes.len());
        let span = bytes.get(at..end).unwrap_or_default().to_vec();
        let new = match what {
            0 => Vec::new(),
            1 => [span.as_slice(), &span].concat(),
            _ => vec![fill; span.len()],
        };
        bytes.splice(at..end, new);
        let is_same = bytes == contents().bytes();
        let refused = verify(sealed(&bytes, &[1, 2]), &trust(2, 3)).is_err();
        prop_assert_eq!(refused, !is_same);
    }
}
