//! A worker's code, as it was typed.
//!
//! Invariant: 6 to 12 digits, not all the same and no straight run; wiped when it goes, never
//! printed. It must not know whose it is.

use std::fmt;

use thiserror::Error;
use zeroize::Zeroizing;

use crate::limits::{CODE_LEN_MAX, CODE_LEN_MIN};

/// A code that may be somebody's.
#[derive(Clone)]
pub struct Code(
    // Invariant: ASCII digits, CODE_LEN_MIN to CODE_LEN_MAX of them, neither all the same nor a run.
    Zeroizing<Vec<u8>>,
);

/// Why digits can't be a code. None of these repeats what was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum CodeError {
    /// Something other than a digit.
    #[error("a code has only the digits 0 to 9. Leave out everything else, spaces too.")]
    NotDigits,
    /// Too few or too many digits.
    #[error("the code has {digits} digits. Choose one of {CODE_LEN_MIN} to {CODE_LEN_MAX} digits.")]
    Length {
        /// How many there are.
        digits: usize,
    },
    /// One digit over and over.
    #[error("the code is one digit over and over, which is guessed at once. Choose another.")]
    AllSame,
    /// 123456, 654321, 890123 and the like.
    #[error(
        "the code's digits only count up or down, which is guessed at once. Choose another order."
    )]
    Run,
}

impl Code {
    /// Takes a code. The caller wipes the text that it was typed into.
    ///
    /// # Errors
    /// [`CodeError`] says why these can't be a code.
    pub fn new(typed: &str) -> Result<Self, CodeError> {
        if !typed.bytes().all(|byte| byte.is_ascii_digit()) {
            return Err(CodeError::NotDigits);
        }
        let digits = typed.len();
        if !(CODE_LEN_MIN..=CODE_LEN_MAX).contains(&digits) {
            return Err(CodeError::Length { digits });
        }
        if steps_are(typed, 0) {
            return Err(CodeError::AllSame);
        }
        // Up, and down: nine up within ten is one down.
        if steps_are(typed, 1) || steps_are(typed, 9) {
            return Err(CodeError::Run);
        }
        Ok(Self(Zeroizing::new(typed.as_bytes().to_vec())))
    }

    /// The digits, for hashing.
    pub(super) fn digits(&self) -> &[u8] {
        &self.0
    }
}

impl fmt::Debug for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Code")
    }
}

/// True where each digit is `step` above the one before; 0 comes after 9, as on a row of keys.
fn steps_are(digits: &str, step: u8) -> bool {
    digits.bytes().zip(digits.bytes().skip(1)).all(|(one, next)| {
        let above = next.wrapping_sub(b'0').wrapping_add(10).wrapping_sub(one.wrapping_sub(b'0'));
        above % 10 == step
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(typed: &str) -> Option<CodeError> {
        Code::new(typed).err()
    }

    #[test]
    fn what_is_guessed_at_once_is_refused() {
        for typed in ["000000", "1111111", "999999999999"] {
            assert_eq!(fault(typed), Some(CodeError::AllSame), "{typed}");
        }
        for typed in ["123456", "654321", "012345", "0123456789", "890123", "109876", "210987"] {
            assert_eq!(fault(typed), Some(CodeError::Run), "{typed}");
        }
        for typed in ["482913", "123457", "654320", "111112", "224466", "135790", "482913482913"] {
            assert_eq!(fault(typed), None, "{typed}");
        }
    }

    #[test]
    fn only_six_to_twelve_digits_are_taken() {
        for (typed, digits) in [("", 0), ("48291", 5), ("4829134829134", 13)] {
            assert_eq!(fault(typed), Some(CodeError::Length { digits }), "{typed}");
        }
        // The last two are digits, but not 0 to 9.
        for typed in ["48291a", "482 913", "482913\n", "-48291", "٤٨٢٩١٣", "४८२९१३"]
        {
            assert_eq!(fault(typed), Some(CodeError::NotDigits), "{typed}");
        }
    }

    /// Every one of the million shortest codes: 10 are all the same, 20 are runs.
    #[test]
    fn exactly_thirty_of_the_shortest_are_refused() {
        let refused = (0..1_000_000).filter(|number| Code::new(&format!("{number:06}")).is_err());
        assert_eq!(refused.count(), 30);
    }

    #[test]
    fn a_code_is_never_printed() {
        let shown = format!("{:?}", Code::new("482913"));
        assert_eq!(shown, "Ok(Code)");
        let error = format!("{:?} {}", fault("482 913"), CodeError::Length { digits: 5 });
        assert!(!error.contains("482"), "{error}");
    }
}
