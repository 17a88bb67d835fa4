//! What the square code on a sheet says, and its modules.
//!
//! The code is a Data Matrix, ISO/IEC 16022, always [`CODE_SIDE`] modules square (16 × 16: 12 data
//! and 12 error correction codewords). It holds [`Payload`] in nine bytes of Base 256 encodation.
//! Nothing in it is the voter's: every sheet of a style carries the same code.

use alloc::vec::Vec;

use datamatrix::data::EncodationType;
use datamatrix::{DataMatrixBuilder, SymbolSize};
use evenhand_rules::Micrometres;

use crate::{Code, Point, Side};

/// Modules along one side of the code, finder included.
pub const CODE_SIDE: u16 = 16;

/// The layout of the nine bytes that this version of Evenhand writes and reads.
const FORMAT: u8 = 1;

/// Which sheet this is: election, style, sheet, side.
///
/// | byte | what |
/// |---|---|
/// | 0 | format in the upper seven bits (1), side in the lowest (0 front, 1 back) |
/// | 1–4 | the first four bytes of the definition's SHA-256 |
/// | 5–6 | the style's place in the definition, high byte first |
/// | 7 | the sheet, from 1 |
/// | 8 | CRC-8 of bytes 0 to 7 (polynomial 0x07, start 0; from memory), so that noise which the error correction turned into another valid word is refused |
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Payload {
    /// First four bytes of [`evenhand_rules::Election::fingerprint`].
    pub election: [u8; 4],
    /// The style's place in [`evenhand_rules::Election::styles`].
    pub style: u16,
    /// The sheet, from 1.
    pub sheet: u8,
    /// Front or back.
    pub side: Side,
}

/// Why bytes are not a [`Payload`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PayloadError {
    /// Not nine bytes.
    #[error("the code holds {0} bytes, not 9")]
    Length(usize),
    /// The check byte doesn't fit the others.
    #[error("the code's check byte is wrong")]
    Check,
    /// A format that this version doesn't know.
    #[error("the code has format {0}, which this version doesn't read")]
    Format(u8),
}

impl Payload {
    /// The nine bytes.
    pub fn encode(self) -> [u8; 9] {
        let side = match self.side {
            Side::Front => 0,
            Side::Back => 1,
        };
        let [e0, e1, e2, e3] = self.election;
        let [s0, s1] = self.style.to_be_bytes();
        let format = (FORMAT << 1) | side;
        let check = crc8(&[format, e0, e1, e2, e3, s0, s1, self.sheet]);
        [format, e0, e1, e2, e3, s0, s1, self.sheet, check]
    }

    /// Reads the bytes that a Data Matrix decoder found.
    ///
    /// # Errors
    /// [`PayloadError`] says in which way the bytes aren't a payload.
    pub fn decode(bytes: &[u8]) -> Result<Self, PayloadError> {
        let Ok([format, e0, e1, e2, e3, s0, s1, sheet, check]) = <[u8; 9]>::try_from(bytes) else {
            return Err(PayloadError::Length(bytes.len()));
        };
        if crc8(&[format, e0, e1, e2, e3, s0, s1, sheet]) != check {
            return Err(PayloadError::Check);
        }
        if format >> 1 != FORMAT {
            return Err(PayloadError::Format(format >> 1));
        }
        let side = if format & 1 == 0 { Side::Front } else { Side::Back };
        let style = u16::from_be_bytes([s0, s1]);
        Ok(Self { election: [e0, e1, e2, e3], style, sheet, side })
    }

    /// The code's modules at this place; `None` never happens for nine bytes, which always fit.
    pub(crate) fn code_at(self, origin: Point, module: Micrometres) -> Option<Code> {
        let symbol = DataMatrixBuilder::new()
            .with_encodation_types(EncodationType::Base256)
            .with_macros(false)
            .with_symbol_list(SymbolSize::Square16)
            .encode(&self.encode())
            .ok()?;
        let modules: Vec<bool> = symbol.bitmap().bits().to_vec();
        Some(Code { origin, module, columns: CODE_SIDE, modules })
    }
}

/// CRC-8 with polynomial x⁸ + x² + x + 1, start 0, no reflection.
fn crc8(bytes: &[u8]) -> u8 {
    bytes.iter().fold(0, |crc, byte| {
        (0..8).fold(crc ^ byte, |crc: u8, _| {
            let shifted = crc << 1;
            if crc & 0x80 == 0 { shifted } else { shifted ^ 0x07 }
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn payload() -> Payload {
        Payload { election: [0xde, 0, 0xff, 7], style: 513, sheet: 2, side: Side::Back }
    }

    #[test]
    fn bytes_round_trip() {
        assert_eq!(Payload::decode(&payload().encode()), Ok(payload()));
    }

    #[test]
    fn the_check_is_the_published_one() {
        // CRC-8 of "123456789" is 0xF4 in the catalogue of parametrised CRC algorithms (CRC-8/SMBUS).
        assert_eq!(crc8(b"123456789"), 0xf4);
    }

    #[test]
    fn every_changed_bit_is_refused() {
        let good = payload().encode();
        for bit in 0..72u32 {
            let mut bytes = good;
            if let Some(byte) = bytes.get_mut(bit as usize / 8) {
                *byte ^= 1 << (bit % 8);
            }
            assert_eq!(Payload::decode(&bytes), Err(PayloadError::Check), "bit {bit}");
        }
    }

    #[test]
    fn other_lengths_and_formats_are_refused() {
        assert_eq!(Payload::decode(&[0; 8]), Err(PayloadError::Length(8)));
        let mut bytes = payload().encode();
        bytes[0] = 0x80;
        bytes[8] = crc8(&bytes[..8]);
        assert_eq!(Payload::decode(&bytes), Err(PayloadError::Format(0x40)));
    }

    #[test]
    fn modules_decode_to_the_bytes() {
        let origin = Point { x: Micrometres(0), y: Micrometres(0) };
        for style in [0, 1, 255, 65_535] {
            let payload = Payload { style, ..payload() };
            let code = payload.code_at(origin, Micrometres(800)).unwrap();
            assert_eq!(code.modules.len(), 256);
            let bytes =
                datamatrix::DataMatrix::decode(&code.modules, usize::from(code.columns)).unwrap();
            assert_eq!(Payload::decode(&bytes), Ok(payload));
        }
    }
}
