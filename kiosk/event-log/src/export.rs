//! The log in the common data format for election event logs, NIST SP 1500-101 (version 1.0, JSON):
//! `ElectionEventLog` and `ElectionEventLogDocumentation`. Types and fields are those of NIST's
//! schema; a test holds both against it.

use serde::Serialize;

use crate::{Content, Disposition, Event, EventType, Kept, Moment, Offset, Report, Severity};

/// Who made the station, as an export names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Maker {
    /// Who makes the program; the election office that builds a station may put itself here.
    pub manufacturer: &'static str,
    /// The model.
    pub model: &'static str,
    /// The program's version.
    pub version: &'static str,
}

impl Maker {
    /// Evenhand in this version.
    pub const EVENHAND: Self = Self {
        manufacturer: "Evenhand project",
        model: "Evenhand",
        version: env!("CARGO_PKG_VERSION"),
    };
}

#[derive(Serialize)]
#[serde(rename_all = "PascalCase")]
struct EventLog {
    #[serde(rename = "@type")]
    class: &'static str,
    details: String,
    device: [DeviceLog; 1],
    #[serde(skip_serializing_if = "Option::is_none")]
    election_id: Option<String>,
    generated_time: String,
}

#[derive(Serialize)]
#[serde(rename_all = "PascalCase")]
struct DeviceLog {
    #[serde(rename = "@type")]
    class: &'static str,
    event: Vec<LoggedEvent>,
    hash_type: &'static str,
    id: String,
    manufacturer: &'static str,
    model: &'static str,
    #[serde(rename = "Type")]
    device_type: &'static str,
    version: &'static str,
}

#[derive(Serialize)]
#[serde(rename_all = "PascalCase")]
struct LoggedEvent {
    #[serde(rename = "@type")]
    class: &'static str,
    description: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    details: Option<String>,
    disposition: &'static str,
    hash: String,
    id: &'static str,
    sequence: String,
    severity: &'static str,
    time_stamp: String,
    #[serde(rename = "Type")]
    event_type: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    user_id: Option<&'static str>,
}

#[derive(Serialize)]
#[serde(rename_all = "PascalCase")]
struct Documentation {
    #[serde(rename = "@type")]
    class: &'static str,
    device_manufacturer: &'static str,
    device_model: &'static str,
    device_version: &'static str,
    event_id_description: Vec<IdDescription>,
    event_type_description: Vec<TypeDescription>,
    generated_date: String,
}

#[derive(Serialize)]
#[serde(rename_all = "PascalCase")]
struct IdDescription {
    #[serde(rename = "@type")]
    class: &'static str,
    description: &'static str,
    id: &'static str,
}

#[derive(Serialize)]
#[serde(rename_all = "PascalCase")]
struct TypeDescription {
    #[serde(rename = "@type")]
    class: &'static str,
    description: &'static str,
    #[serde(rename = "Type")]
    event_type: &'static str,
}

/// The ids that lines have which aren't events of the station.
const HEAD: (&str, &str) = ("log-begun", "The log was begun.");
const CHECKPOINT: (&str, &str) = (
    "checkpoint",
    "The station signed everything up to here; the time is that of the event before.",
);

/// Every line that could be read, as an `ElectionEventLog`. `Details` of the log says what
/// verification found, so that a log which isn't whole can't pass for one that is.
pub fn export(report: &Report, maker: &Maker, generated: Moment) -> String {
    let id = report.station.as_ref().map_or("unknown", |station| station.as_str());
    let device = DeviceLog {
        class: "EventLogging.Device",
        event: report.lines.iter().map(|line| logged(line, report.offset)).collect(),
        hash_type: "sha-256",
        id: id.to_owned(),
        manufacturer: maker.manufacturer,
        model: maker.model,
        device_type: "bmd",
        version: maker.version,
    };
    let log = EventLog {
        class: "EventLogging.ElectionEventLog",
        details: details(report),
        device: [device],
        election_id: election_of(report),
        generated_time: generated.rfc3339(report.offset),
    };
    pretty(&log)
}

/// Every id and type that an export can hold, as an `ElectionEventLogDocumentation`.
pub fn describe(maker: &Maker, generated: Moment) -> String {
    let own = [HEAD, CHECKPOINT];
    let kinds = Event::KINDS.iter().map(|kind| (kind.id, kind.description));
    let ids = own.into_iter().chain(kinds).map(|(id, description)| IdDescription {
        class: "EventLogging.EventIdDescription",
        description,
        id,
    });
    let types = EventType::ALL.iter().map(|event_type| TypeDescription {
        class: "EventLogging.EventTypeDescription",
        description: event_type.description(),
        event_type: event_type.id(),
    });
    pretty(&Documentation {
        class: "EventLogging.ElectionEventLogDocumentation",
        device_manufacturer: maker.manufacturer,
        device_model: maker.model,
        device_version: maker.version,
        event_id_description: ids.collect(),
        event_type_description: types.collect(),
        generated_date: generated.date(Offset::UTC),
    })
}

fn logged(line: &Kept, offset: Offset) -> LoggedEvent {
    let (id, event_type, disposition, severity) = match &line.content {
        Content::Head => (HEAD.0, EventType::Log, Disposition::Success, Severity::Information),
        Content::Checkpoint => {
            (CHECKPOINT.0, EventType::Log, Disposition::Success, Severity::Information)
        }
        Content::Event(event) => {
            (event.kind().id, event.kind().event_type, event.disposition(), event.severity())
        }
    };
    let (data, role) = match &line.content {
        // What it holds, as the log itself has it; nothing where it holds only its id.
        Content::Event(event) => {
            let has_data = event.sentence() != event.kind().description;
            (has_data.then(|| serde_json::to_string(event).unwrap_or_default()), event.role())
        }
        Content::Head | Content::Checkpoint => (None, None),
    };
    LoggedEvent {
        class: "EventLogging.Event",
        description: line.content.sentence(),
        details: data,
        disposition: disposition.id(),
        hash: line.digest.to_string(),
        id,
        sequence: line.number.to_string(),
        severity: severity.id(),
        time_stamp: line.at.rfc3339(offset),
        event_type: event_type.id(),
        user_id: role.map(crate::Role::id),
    }
}

fn details(report: &Report) -> String {
    let mut said = vec![
        "While polls are open, and for all that happens in a visit, times are whole hours, so that they can't put voters in order.".to_owned(),
        "Hash is the digest of the line of the station's own log; each line of it holds the digest of the line before.".to_owned(),
    ];
    let found = report.finding_sentences();
    if found.is_empty() {
        said.push("Verification found nothing.".to_owned());
    } else {
        said.push(format!("VERIFICATION FOUND: {}", found.join(" ")));
    }
    said.extend(report.note_sentences());
    said.join(" ")
}

/// The digest of the election that was accepted last.
fn election_of(report: &Report) -> Option<String> {
    report.lines.iter().rev().find_map(|line| match &line.content {
        Content::Event(Event::ElectionAccepted { digest }) => Some(format!("sha-256:{digest}")),
        Content::Event(_) | Content::Head | Content::Checkpoint => None,
    })
}

#[expect(clippy::expect_used, reason = "texts and lists always encode")]
fn pretty(value: &impl Serialize) -> String {
    let mut text = serde_json::to_string_pretty(value).expect("no map with odd keys");
    text.push('\n');
    text
}
