//! What is asked of the print service: a function a question, each over a stream of its own.

use std::io::{Cursor, Read, Write};

use ipp::attribute::{IppAttribute, IppAttributeGroup};
use ipp::model::{DelimiterTag, IppVersion, Operation, StatusCode};
use ipp::parser::{IppParseError, IppParser};
use ipp::reader::IppReader;
use ipp::request::IppRequestResponse;
use ipp::value::IppValue;

use crate::wire::exchange;
use crate::{Paper, Queue, ServiceError, Trouble, encoding};

/// The most printers that are told of. Own choice.
pub const PRINTERS_MAX: usize = 100;

/// The most jobs of ours that are told of: one is usual. Own choice.
pub const JOBS_MAX: i32 = 200;

/// Whose jobs these are, as the service lists them: nobody's name.
const USER: &str = "evenhand";
/// What a job is called in the service's lists and logs: the same for every document.
const TITLE: &str = "sheets";

/// A printer that the service knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printer {
    /// Its name.
    pub queue: Queue,
    /// What the system says of it, such as its make; may be empty.
    pub about: String,
}

/// A job's number at the service.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JobNumber(pub i32);

/// How a job stands (RFC 8011, 5.3.7).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JobState {
    /// It waits or is at work.
    Open,
    /// All of it was given to the printer and the printer's program says that it is done.
    Completed,
    /// It was cancelled.
    Canceled,
    /// The service gave it up.
    Aborted,
}

/// A job as it stands, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Job {
    /// How it stands.
    pub state: JobState,
    /// True where the document itself is refused.
    pub is_refused: bool,
}

/// How a printer stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Condition {
    /// True where it takes no jobs or is stopped.
    pub is_stopped: bool,
    /// True where the service tries to reach it.
    pub is_connecting: bool,
    /// What troubles it, the gravest first, each once.
    pub troubles: Vec<Trouble>,
}

/// The printers that the service knows, by name.
///
/// # Errors
/// [`ServiceError`].
pub fn printers<S: Read + Write>(stream: S) -> Result<Vec<Printer>, ServiceError> {
    let mut request = request(Operation::CupsGetPrinters, None)?;
    add(&mut request, "requested-attributes", keywords(&["printer-name", "printer-info"])?);
    let answer = match ask(stream, "/", &request, &[]) {
        // So says the service where it has none.
        Err(ServiceError::Status(StatusCode::ClientErrorNotFound)) => return Ok(Vec::new()),
        other => other?,
    };
    let mut found: Vec<Printer> = answer
        .attributes()
        .groups_of(DelimiterTag::PrinterAttributes)
        .filter_map(|group| {
            let queue = text(group, "printer-name")?.parse().ok()?;
            let about = text(group, "printer-info").unwrap_or_default();
            let about = about.chars().filter(|letter| !letter.is_control()).collect();
            Some(Printer { queue, about })
        })
        .take(PRINTERS_MAX)
        .collect();
    found.sort_by(|a, b| a.queue.cmp(&b.queue));
    Ok(found)
}

/// How a printer stands.
///
/// # Errors
/// [`ServiceError`].
pub fn condition<S: Read + Write>(stream: S, queue: &Queue) -> Result<Condition, ServiceError> {
    let mut request = request(Operation::GetPrinterAttributes, Some(queue))?;
    let wanted = ["printer-state", "printer-state-reasons", "printer-is-accepting-jobs"];
    add(&mut request, "requested-attributes", keywords(&wanted)?);
    let answer = ask(stream, &queue.path(), &request, &[])?;
    let group = answer.attributes().first_of(DelimiterTag::PrinterAttributes);
    let group = group.ok_or(ServiceError::Lacks("the printer"))?;
    let state = number(group, "printer-state").ok_or(ServiceError::Lacks("printer-state"))?;
    let accepts = group.get("printer-is-accepting-jobs").map(IppAttribute::value);
    let reasons = texts(group, "printer-state-reasons");
    let mut troubles: Vec<Trouble> =
        reasons.iter().filter_map(|reason| Trouble::of(reason)).collect();
    troubles.sort_unstable();
    troubles.dedup();
    Ok(Condition {
        // RFC 8011, 5.4.11: 5 is stopped.
        is_stopped: state == 5 || accepts == Some(&IppValue::Boolean(false)),
        is_connecting: reasons.iter().any(|reason| Trouble::is_connecting(reason)),
        troubles,
    })
}

/// Hands a document to a printer: one copy, in its own size (PWG 5100.13 `print-scaling`), one side
/// or both as it has, no banner page. It isn't printed yet when this returns.
///
/// # Errors
/// [`ServiceError`].
pub fn print<S: Read + Write>(
    stream: S,
    queue: &Queue,
    document: &[u8],
    paper: Paper,
) -> Result<JobNumber, ServiceError> {
    let mut request = request(Operation::PrintJob, Some(queue))?;
    add(&mut request, "job-name", made(IppValue::new_name_without_language(TITLE))?);
    let format = made(IppValue::new_mime_media_type("application/pdf"))?;
    add(&mut request, "document-format", format);
    let mut job = |name: &str, value: IppValue| -> Result<(), ServiceError> {
        let attribute = IppAttribute::with_name(name, value).map_err(|error| defect(&error))?;
        request.attributes_mut().add(DelimiterTag::JobAttributes, attribute);
        Ok(())
    };
    job("copies", IppValue::new_integer(1))?;
    job("number-up", IppValue::new_integer(1))?;
    job("sides", made(IppValue::new_keyword(paper.sides_keyword()))?)?;
    job("media", made(IppValue::new_keyword(paper.media()))?)?;
    job("print-scaling", made(IppValue::new_keyword("none"))?)?;
    job("job-sheets", made(IppValue::new_keyword("none"))?)?;
    let answer = ask(stream, &queue.path(), &request, document)?;
    let group = answer.attributes().first_of(DelimiterTag::JobAttributes);
    let found = group.and_then(|group| number(group, "job-id"));
    found.map(JobNumber).ok_or(ServiceError::Lacks("job-id"))
}

/// How a job stands.
///
/// # Errors
/// [`ServiceError`].
pub fn job<S: Read + Write>(
    stream: S,
    queue: &Queue,
    number_of: JobNumber,
) -> Result<Job, ServiceError> {
    let mut request = request(Operation::GetJobAttributes, Some(queue))?;
    add(&mut request, "job-id", IppValue::new_integer(number_of.0));
    add(&mut request, "requested-attributes", keywords(&["job-state", "job-state-reasons"])?);
    let answer = ask(stream, &queue.path(), &request, &[])?;
    let group = answer.attributes().first_of(DelimiterTag::JobAttributes);
    let group = group.ok_or(ServiceError::Lacks("the job"))?;
    let state = match number(group, "job-state") {
        // RFC 8011, 5.3.7: pending, held, processing, stopped.
        Some(3..=6) => JobState::Open,
        Some(7) => JobState::Canceled,
        Some(8) => JobState::Aborted,
        Some(9) => JobState::Completed,
        Some(_) | None => return Err(ServiceError::Lacks("job-state")),
    };
    let refusals =
        ["document-format-error", "unsupported-document-format", "document-unprintable-error"];
    let reasons = texts(group, "job-state-reasons");
    let is_refused = reasons.iter().any(|reason| refusals.contains(&reason.as_str()));
    Ok(Job { state, is_refused })
}

/// Cancels a job. True where the service did, false where it was over before.
///
/// # Errors
/// [`ServiceError`].
pub fn cancel<S: Read + Write>(
    stream: S,
    queue: &Queue,
    number_of: JobNumber,
) -> Result<bool, ServiceError> {
    let mut request = request(Operation::CancelJob, Some(queue))?;
    add(&mut request, "job-id", IppValue::new_integer(number_of.0));
    match ask(stream, &queue.path(), &request, &[]) {
        Ok(_) => Ok(true),
        Err(ServiceError::Status(
            StatusCode::ClientErrorNotPossible | StatusCode::ClientErrorNotFound,
        )) => Ok(false),
        Err(error) => Err(error),
    }
}

/// Every job of ours at a printer that the service still knows, also those that are done; at most
/// [`JOBS_MAX`].
///
/// # Errors
/// [`ServiceError`].
pub fn jobs<S: Read + Write>(stream: S, queue: &Queue) -> Result<Vec<JobNumber>, ServiceError> {
    let mut request = request(Operation::GetJobs, Some(queue))?;
    add(&mut request, "my-jobs", IppValue::new_boolean(true));
    add(&mut request, "which-jobs", made(IppValue::new_keyword("all"))?);
    add(&mut request, "limit", IppValue::new_integer(JOBS_MAX));
    add(&mut request, "requested-attributes", keywords(&["job-id"])?);
    let answer = ask(stream, &queue.path(), &request, &[])?;
    let groups = answer.attributes().groups_of(DelimiterTag::JobAttributes);
    Ok(groups.filter_map(|group| number(group, "job-id")).map(JobNumber).collect())
}

/// Cancels a job, whether it is over or not, and has the service remove the document that it kept
/// (CUPS's `purge-job`, which its "Implementation of IPP" describes; Cancel-My-Jobs with
/// `purge-jobs` was tried on CUPS 2.4.2 and leaves the documents where they are).
///
/// # Errors
/// [`ServiceError`].
pub fn remove<S: Read + Write>(
    stream: S,
    queue: &Queue,
    number_of: JobNumber,
) -> Result<(), ServiceError> {
    let mut request = request(Operation::CancelJob, Some(queue))?;
    add(&mut request, "job-id", IppValue::new_integer(number_of.0));
    add(&mut request, "purge-job", IppValue::new_boolean(true));
    match ask(stream, &queue.path(), &request, &[]) {
        // What the service doesn't know it doesn't keep.
        Ok(_) | Err(ServiceError::Status(StatusCode::ClientErrorNotFound)) => Ok(()),
        Err(error) => Err(error),
    }
}

fn request(
    operation: Operation,
    queue: Option<&Queue>,
) -> Result<IppRequestResponse, ServiceError> {
    let request = IppRequestResponse::new(IppVersion::v2_0(), operation, None);
    let mut request = request.map_err(|error| defect(&error))?;
    if let Some(queue) = queue {
        let uri = format!("ipp://localhost{}", queue.path());
        add(&mut request, "printer-uri", made(IppValue::new_uri(uri))?);
    }
    let user = made(IppValue::new_name_without_language(USER))?;
    add(&mut request, "requesting-user-name", user);
    Ok(request)
}

fn add(request: &mut IppRequestResponse, name: &'static str, value: IppValue) {
    // A name of ours is short enough.
    if let Ok(attribute) = IppAttribute::with_name(name, value) {
        request.attributes_mut().add(DelimiterTag::OperationAttributes, attribute);
    }
}

fn made(value: Result<IppValue, IppParseError>) -> Result<IppValue, ServiceError> {
    value.map_err(|error| defect(&error))
}

fn defect(error: &IppParseError) -> ServiceError {
    ServiceError::NotMade(error.to_string())
}

fn keywords(names: &[&str]) -> Result<IppValue, ServiceError> {
    let each = names.iter().map(|name| made(IppValue::new_keyword(*name)));
    Ok(IppValue::Array(each.collect::<Result<_, _>>()?))
}

fn ask<S: Read + Write>(
    stream: S,
    path: &str,
    request: &IppRequestResponse,
    document: &[u8],
) -> Result<IppRequestResponse, ServiceError> {
    let body = exchange(stream, path, &request.to_bytes(), document)?;
    encoding::check(&body)?;
    let parser = IppParser::new(IppReader::new(Cursor::new(body)));
    let answer = parser.parse().map_err(|error| ServiceError::NotIpp(error.to_string()))?;
    let status = answer.header().status_code();
    if status.is_success() { Ok(answer) } else { Err(ServiceError::Status(status)) }
}

/// The texts of an attribute, one or several.
fn texts(group: &IppAttributeGroup, name: &str) -> Vec<String> {
    let Some(attribute) = group.get(name) else { return Vec::new() };
    attribute.value().into_iter().map(ToString::to_string).collect()
}

fn text(group: &IppAttributeGroup, name: &str) -> Option<String> {
    texts(group, name).into_iter().next()
}

fn number(group: &IppAttributeGroup, name: &str) -> Option<i32> {
    match group.get(name).map(IppAttribute::value) {
        Some(IppValue::Integer(number) | IppValue::Enum(number)) => Some(*number),
        Some(_) | None => None,
    }
}
