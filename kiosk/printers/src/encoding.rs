//! What an answer's bytes must hold to before they are parsed (RFC 8010, 3.1). The parser of the `ipp`
//! crate (8.0.0) panics at a text with a language whose inner lengths reach past its value, and
//! drops nested collections by recursion, as deep as the answer nests them.

use crate::ServiceError;

/// The most collections within one another. CUPS sends two (`media-size` in `media-col`). Own choice.
const COLLECTIONS_MAX: usize = 8;

/// Version, status and number of an answer (RFC 8010, 3.1.1).
const HEADER_BYTES: usize = 8;

const END_OF_ATTRIBUTES: u8 = 0x03;
const BEGIN_COLLECTION: u8 = 0x34;
const TEXT_WITH_LANGUAGE: u8 = 0x35;
const NAME_WITH_LANGUAGE: u8 = 0x36;
const END_COLLECTION: u8 = 0x37;

/// Walks over every attribute of an answer.
///
/// # Errors
/// [`ServiceError::NotIpp`] where a length reaches past what holds it, a collection isn't begun or
/// ended, or too many are within one another.
pub(crate) fn check(answer: &[u8]) -> Result<(), ServiceError> {
    let mut rest = answer.get(HEADER_BYTES..).ok_or_else(|| not_ipp("its header is cut"))?;
    let mut depth = 0_usize;
    loop {
        match byte(&mut rest)? {
            END_OF_ATTRIBUTES if depth == 0 => return Ok(()),
            // Groups begin (RFC 8010, 3.5.1), which nothing does within a collection.
            0x00..=0x0f if depth > 0 => return Err(not_ipp("a collection is not ended")),
            0x00..=0x0f => {}
            tag => {
                field(&mut rest)?;
                let value = field(&mut rest)?;
                depth = depth_after(tag, depth)?;
                if matches!(tag, TEXT_WITH_LANGUAGE | NAME_WITH_LANGUAGE) {
                    with_language(value)?;
                }
            }
        }
    }
}

fn depth_after(tag: u8, depth: usize) -> Result<usize, ServiceError> {
    match tag {
        BEGIN_COLLECTION if depth >= COLLECTIONS_MAX => {
            Err(not_ipp("too many collections are within one another"))
        }
        BEGIN_COLLECTION => Ok(depth.saturating_add(1)),
        END_COLLECTION => {
            depth.checked_sub(1).ok_or_else(|| not_ipp("a collection ends that was not begun"))
        }
        _ => Ok(depth),
    }
}

/// A language and a text, each with its length, and nothing after them (RFC 8010, 3.9).
fn with_language(mut value: &[u8]) -> Result<(), ServiceError> {
    field(&mut value)?;
    field(&mut value)?;
    if value.is_empty() { Ok(()) } else { Err(not_ipp("a text is shorter than its value")) }
}

fn byte(rest: &mut &[u8]) -> Result<u8, ServiceError> {
    let (first, after) = rest.split_first().ok_or_else(|| not_ipp("it is cut"))?;
    *rest = after;
    Ok(*first)
}

/// Bytes with their length before them, two bytes, the high one first.
fn field<'a>(rest: &mut &'a [u8]) -> Result<&'a [u8], ServiceError> {
    let length = u16::from_be_bytes([byte(rest)?, byte(rest)?]);
    let taken = rest.split_at_checked(usize::from(length));
    let (taken, after) = taken.ok_or_else(|| not_ipp("a length reaches past its end"))?;
    *rest = after;
    Ok(taken)
}

fn not_ipp(why: &str) -> ServiceError {
    ServiceError::NotIpp(why.to_owned())
}
