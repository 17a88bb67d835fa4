//! One HTTP request and its answer over a stream (RFC 9112), within limits. The stream is used once.

use std::io::{self, Read, Write};

use crate::ServiceError;

/// The longest answer: the attributes of a hundred printers are some 100 kB. Own choice.
pub const ANSWER_BYTES_MAX: usize = 1024 * 1024;
/// The most header lines; CUPS sends about ten.
const HEADERS_MAX: usize = 64;
/// How much is read at once.
const CHUNK: usize = 16 * 1024;

/// Sends `head` and then `document` as one IPP request to `path`, and gives the body of the answer.
pub(crate) fn exchange<S: Read + Write>(
    mut stream: S,
    path: &str,
    head: &[u8],
    document: &[u8],
) -> Result<Vec<u8>, ServiceError> {
    let length = head.len().saturating_add(document.len());
    let mut first = format!(
        "POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/ipp\r\n\
         Content-Length: {length}\r\nConnection: close\r\n\r\n"
    )
    .into_bytes();
    first.extend_from_slice(head);
    stream.write_all(&first)?;
    stream.write_all(document)?;
    stream.flush()?;
    answer(&mut stream)
}

fn answer(stream: &mut impl Read) -> Result<Vec<u8>, ServiceError> {
    let mut read = Vec::new();
    loop {
        let mut headers = [httparse::EMPTY_HEADER; HEADERS_MAX];
        let mut response = httparse::Response::new(&mut headers);
        let parsed = response.parse(&read);
        let parsed = parsed.map_err(|error| ServiceError::NotHttp(error.to_string()))?;
        if let httparse::Status::Complete(end) = parsed {
            let code = response.code.unwrap_or_default();
            if code == 100 {
                // "Go on": the answer itself comes after it.
                read.drain(..end);
                continue;
            }
            if code != 200 {
                return Err(ServiceError::Refused(code));
            }
            let length = Length::of(response.headers)?;
            read.drain(..end);
            return body(stream, read, &length);
        }
        more(stream, &mut read)?;
    }
}

/// How an answer's end is known.
enum Length {
    Bytes(usize),
    Chunks,
    ToTheEnd,
}

impl Length {
    fn of(headers: &[httparse::Header<'_>]) -> Result<Self, ServiceError> {
        let value = |name: &str| {
            let found = headers.iter().find(|header| header.name.eq_ignore_ascii_case(name));
            found.map(|header| String::from_utf8_lossy(header.value).trim().to_owned())
        };
        if value("transfer-encoding").is_some_and(|value| value.eq_ignore_ascii_case("chunked")) {
            return Ok(Self::Chunks);
        }
        let Some(text) = value("content-length") else { return Ok(Self::ToTheEnd) };
        let bytes = text.parse().map_err(|_| ServiceError::NotHttp("content-length".to_owned()))?;
        if bytes > ANSWER_BYTES_MAX { Err(ServiceError::TooLong) } else { Ok(Self::Bytes(bytes)) }
    }
}

fn body(
    stream: &mut impl Read,
    mut read: Vec<u8>,
    length: &Length,
) -> Result<Vec<u8>, ServiceError> {
    match *length {
        Length::Bytes(bytes) => {
            while read.len() < bytes {
                more(stream, &mut read)?;
            }
            read.truncate(bytes);
            Ok(read)
        }
        Length::Chunks => chunks(stream, read),
        Length::ToTheEnd => loop {
            match more(stream, &mut read) {
                Ok(()) => {}
                Err(ServiceError::Silent(error))
                    if error.kind() == io::ErrorKind::UnexpectedEof =>
                {
                    return Ok(read);
                }
                Err(error) => return Err(error),
            }
        },
    }
}

/// A body in chunks, each with its length before it (RFC 9112, 7.1).
fn chunks(stream: &mut impl Read, mut read: Vec<u8>) -> Result<Vec<u8>, ServiceError> {
    let not_chunks = || ServiceError::NotHttp("chunks".to_owned());
    let mut whole = Vec::new();
    loop {
        let size = httparse::parse_chunk_size(&read).map_err(|_| not_chunks())?;
        let httparse::Status::Complete((start, size)) = size else {
            more(stream, &mut read)?;
            continue;
        };
        if size == 0 {
            return Ok(whole);
        }
        let size = usize::try_from(size).map_err(|_| ServiceError::TooLong)?;
        if size.saturating_add(whole.len()) > ANSWER_BYTES_MAX {
            return Err(ServiceError::TooLong);
        }
        let end = start.saturating_add(size);
        let after = end.saturating_add(2);
        while read.len() < after {
            more(stream, &mut read)?;
        }
        whole.extend_from_slice(read.get(start..end).ok_or_else(not_chunks)?);
        if read.get(end..after) != Some(b"\r\n") {
            return Err(not_chunks());
        }
        read.drain(..after);
    }
}

/// Reads on, at least a byte.
fn more(stream: &mut impl Read, read: &mut Vec<u8>) -> Result<(), ServiceError> {
    // The head, the body and a chunk's own length together.
    if read.len() > ANSWER_BYTES_MAX.saturating_add(CHUNK) {
        return Err(ServiceError::TooLong);
    }
    let mut piece = [0; CHUNK];
    let count = loop {
        match stream.read(&mut piece) {
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            other => break other?,
        }
    };
    if count == 0 {
        return Err(io::Error::from(io::ErrorKind::UnexpectedEof).into());
    }
    read.extend_from_slice(piece.get(..count).unwrap_or_default());
    Ok(())
}
