//! Small elections, sealed by other means than those that are tested: keys by `ring`, the outer file
//! and hostile ones by the crate `tar`, the message and the lists written out by hand.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use evenhand_definitions::Digest;
use evenhand_definitions::seal::{Contents, Official, PublicKey, Trust};
use ring::signature::{Ed25519KeyPair, KeyPair as _};
use tar::{EntryType, Header};

/// A file of an archive: its header, finished, and its bytes.
pub type Piece = (Header, Vec<u8>);

/// The key pair of one invented official. The seed is its number, so that failures repeat.
pub fn pair(number: u8) -> Ed25519KeyPair {
    Ed25519KeyPair::from_seed_unchecked(&[number; 32]).expect("a seed has 32 bytes")
}

/// A pair's public key.
pub fn public(pair: &Ed25519KeyPair) -> PublicKey {
    let raw = pair.public_key().as_ref().try_into().expect("a key has 32 bytes");
    PublicKey::from_raw(raw).expect("a made key is a strong one")
}

/// Trust in so many officials, of whom `threshold` must sign: official 1 has the key 1, and so on.
pub fn trust(threshold: u8, officials: u8) -> Trust {
    let official =
        |number| Official { name: format!("Official {number}"), key: public(&pair(number)) };
    Trust::new(threshold, (1..=officials).map(official).collect()).expect("the trust is sound")
}

/// The smallest definition that is an election.
pub fn definition(is_test: bool) -> Vec<u8> {
    let text = |words: &str| {
        format!(
            r#"{{"@type":"BallotDefinition.InternationalizedText","Text":[{{"@type":"BallotDefinition.LanguageString","Language":"en","Content":"{words}"}}]}}"#
        )
    };
    let unit = format!(
        r#"{{"@type":"BallotDefinition.ReportingUnit","@id":"u","Type":"county","Name":{}}}"#,
        text("Fen")
    );
    let contest = format!(
        r#"{{"@type":"BallotDefinition.CandidateContest","@id":"c","Name":"C","BallotTitle":{},"ElectionDistrictId":"u","VoteVariation":"plurality","VotesAllowed":1,"ContestOption":[{{"@type":"BallotDefinition.CandidateOption","@id":"o","IsWriteIn":true}}]}}"#,
        text("Clerk")
    );
    let style = r#"{"@type":"BallotDefinition.BallotStyle","GpUnitIds":["u"],"ExternalIdentifier":[{"@type":"BallotDefinition.ExternalIdentifier","Type":"local-level","Value":"1"}],"OrderedContent":[{"@type":"BallotDefinition.OrderedContest","ContestId":"c"}]}"#;
    let election = format!(
        r#"{{"@type":"BallotDefinition.Election","Name":{},"Type":"general","StartDate":"2027-05-04","EndDate":"2027-05-04","ElectionScopeId":"u","Contest":[{contest}],"BallotStyle":[{style}]}}"#,
        text("Day")
    );
    format!(
        r#"{{"@type":"BallotDefinition.BallotDefinition","Version":"1.0.0","GeneratedDate":"2026-11-01T00:00:00Z","Issuer":"Fen","IssuerAbbreviation":"F","VendorApplicationId":"x","SequenceStart":1,"SequenceEnd":1,"IsTest":{is_test},"GpUnit":[{unit}],"Election":[{election}]}}"#
    )
    .into_bytes()
}

/// The files of a small election.
pub fn files(is_test: bool) -> BTreeMap<String, Vec<u8>> {
    BTreeMap::from([
        ("definition.json".to_owned(), definition(is_test)),
        ("settings.json".to_owned(), b"{\"max_replacements\": 1}".to_vec()),
    ])
}

/// A small election, packed.
pub fn contents() -> Contents {
    Contents::pack(&files(false)).expect("the small election can be packed")
}

/// A plain file.
pub fn piece(path: &str, bytes: &[u8]) -> Piece {
    of_kind(EntryType::Regular, path, bytes)
}

/// An entry of any kind with any path, which the crate itself would refuse.
pub fn of_kind(kind: EntryType, path: &str, bytes: &[u8]) -> Piece {
    let mut header = Header::new_ustar();
    let name = &mut header.as_old_mut().name;
    name[..path.len()].copy_from_slice(path.as_bytes());
    header.set_entry_type(kind);
    header.set_mode(0o644);
    header.set_uid(0);
    header.set_gid(0);
    header.set_size(u64::try_from(bytes.len()).expect("it fits"));
    header.set_cksum();
    (header, bytes.to_vec())
}

/// A tar file of these, ended as POSIX has it.
pub fn archive(pieces: &[Piece]) -> Vec<u8> {
    let mut bytes = Vec::new();
    for (header, content) in pieces {
        bytes.extend_from_slice(header.as_bytes());
        bytes.extend_from_slice(content);
        bytes.resize(bytes.len().next_multiple_of(512), 0);
    }
    bytes.extend_from_slice(&[0; 1024]);
    bytes
}

/// The manifest of these files, written by hand.
pub fn manifest(files: &[(&str, &[u8])]) -> String {
    let entries: Vec<String> = files
        .iter()
        .map(|(path, bytes)| {
            format!(
                "    {{\n      \"path\": \"{path}\",\n      \"bytes\": {},\n      \"sha256\": \"{}\"\n    }}",
                bytes.len(),
                Digest::of(bytes)
            )
        })
        .collect();
    let entries = entries.join(",\n");
    format!("{{\n  \"form\": \"Evenhand manifest, form 1\",\n  \"files\": [\n{entries}\n  ]\n}}\n")
}

/// What is signed of these contents, written by hand.
pub fn message(contents: &[u8]) -> Vec<u8> {
    let (len, digest) = (contents.len(), Digest::of(contents));
    format!("Evenhand sealed election, form 1\ncontents.tar, {len} bytes, SHA-256\n{digest}\n")
        .into_bytes()
}

/// An entry of the list of signatures.
pub fn signed(pair: &Ed25519KeyPair, message: &[u8]) -> String {
    let mut signature = String::new();
    for byte in pair.sign(message).as_ref() {
        write!(signature, "{byte:02x}").expect("a text takes it");
    }
    let key = public(pair).id();
    format!("    {{\n      \"key\": \"{key}\",\n      \"signature\": \"{signature}\"\n    }}")
}

/// The list of signatures of entries as they come.
pub fn list(entries: &[String]) -> String {
    let entries = if entries.is_empty() {
        "[]".to_owned()
    } else {
        format!("[\n{}\n  ]", entries.join(",\n"))
    };
    format!("{{\n  \"form\": \"Evenhand signatures, form 1\",\n  \"signatures\": {entries}\n}}\n")
}

/// The list of signatures of these officials, by number, under these contents, in the keys' order.
pub fn signatures(contents: &[u8], officials: &[u8]) -> String {
    let message = message(contents);
    let mut entries: Vec<String> =
        officials.iter().map(|number| signed(&pair(*number), &message)).collect();
    entries.sort();
    list(&entries)
}

/// Any contents, truly signed by these officials.
pub fn sealed(contents: &[u8], officials: &[u8]) -> Vec<u8> {
    let signatures = signatures(contents, officials);
    archive(&[piece("contents.tar", contents), piece("signatures.json", signatures.as_bytes())])
}
