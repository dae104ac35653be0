//! Reading numbers as people type them.
//!
//! Understood: a decimal point or a decimal comma (a comma is never read as a thousands
//! mark), a leading sign (also the true minus), powers of ten as `e-5`, `×10⁻⁵`, `x10^-5`
//! or `*10^-5`, and spaces anywhere. What was typed is never changed: this only reads it.

use crate::chem::power::decimal;

/// Why a text is not a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadError {
    /// Nothing was typed.
    Empty,
    /// More than one decimal mark: 1.000,5 or 1,000,000.
    TwoMarks,
    /// Something in it is no part of a number.
    NotANumber,
    /// A number, but too large to be held.
    TooLarge,
}

/// Largest number that is held: what is worked out from it, in whichever unit, is still a number.
const LARGEST: f64 = 1e301;

/// Longest text that is looked at. No number anyone types is longer.
const LONGEST: usize = 64;

/// Reads a number.
///
/// # Errors
/// [`ReadError`], naming what is in the way.
pub fn number(text: &str) -> Result<f64, ReadError> {
    if text.chars().count() > LONGEST {
        return Err(ReadError::NotANumber);
    }
    let plain: String = text
        .chars()
        .filter(|c| !c.is_whitespace())
        .map(plain)
        .collect();
    if plain.is_empty() {
        return Err(ReadError::Empty);
    }
    let lower = plain.to_ascii_lowercase();
    let (mantissa, power) = split_power(&lower);
    let (sign, mantissa) = split_sign(mantissa);
    if mantissa.matches(['.', ',']).count() > 1 {
        return Err(ReadError::TwoMarks);
    }
    let (whole, decimals) = mantissa.split_once(['.', ',']).unwrap_or((mantissa, ""));
    let digits = || whole.bytes().chain(decimals.bytes());
    if digits().next().is_none() || !digits().all(|b| b.is_ascii_digit()) {
        return Err(ReadError::NotANumber);
    }
    let mut exponent: i32 = match power {
        None => 0,
        Some(text) => text.parse().map_err(|_| ReadError::NotANumber)?,
    };
    exponent = exponent.saturating_sub(i32::try_from(decimals.len()).unwrap_or(i32::MAX));
    // Digits past the seventeenth do not change the nearest number that can be held by more
    // than its last bit; they only move the decimal mark.
    let mut value: u64 = 0;
    for digit in digits() {
        if value < 10_u64.pow(16) {
            value = 10 * value + u64::from(digit - b'0');
        } else {
            exponent = exponent.saturating_add(1);
        }
    }
    if value == 0 {
        return Ok(0.0);
    }
    let value = sign * decimal(value, exponent);
    if value.abs() <= LARGEST {
        Ok(value)
    } else {
        Err(ReadError::TooLarge)
    }
}

/// The significant figures of a number as typed: its digits from the first that is not zero
/// on. Zeros at the end of a whole number count, as in "100 cm³" of a flask with a mark.
/// Zero itself, and what is no number, has none.
pub fn figures(text: &str) -> usize {
    let plain: String = text.chars().map(plain).collect();
    let lower = plain.to_ascii_lowercase();
    let (mantissa, _) = split_power(&lower);
    let digits = mantissa.chars().filter(char::is_ascii_digit);
    digits.skip_while(|c| *c == '0').count()
}

/// The sign of a number and the rest of it.
fn split_sign(text: &str) -> (f64, &str) {
    match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    }
}

/// A character as its plain counterpart: minus signs, multiplication signs, raised digits.
pub fn plain(c: char) -> char {
    match c {
        '−' | '–' | '⁻' | '‐' | '‑' => '-',
        '⁺' => '+',
        '×' | '·' | '∙' | '*' => 'x',
        '⁰' => '0',
        '¹' => '1',
        '²' => '2',
        '³' => '3',
        '⁴' => '4',
        '⁵' => '5',
        '⁶' => '6',
        '⁷' => '7',
        '⁸' => '8',
        '⁹' => '9',
        other => other,
    }
}

/// Mantissa and the text of a power of ten, where there is one.
fn split_power(text: &str) -> (&str, Option<&str>) {
    for mark in ["x10^", "x10", "e"] {
        if let Some((mantissa, power)) = text.split_once(mark) {
            return (mantissa, Some(power));
        }
    }
    (text, None)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_people_type_them() {
        for (text, value) in [
            ("0.050", 0.05),
            ("0,050", 0.05),
            (" 4.76 ", 4.76),
            (".5", 0.5),
            ("5.", 5.0),
            ("−3,2", -3.2),
            ("+2", 2.0),
            ("1.74e-5", 1.74e-5),
            ("1,74E-5", 1.74e-5),
            ("1.74×10⁻⁵", 1.74e-5),
            ("1.74 x 10^-5", 1.74e-5),
            ("1.74*10^−5", 1.74e-5),
            ("1,000", 1.0),
            ("1 000", 1000.0),
            ("0", 0.0),
        ] {
            assert_eq!(number(text), Ok(value), "{text}");
        }
    }

    #[test]
    fn figures_are_counted_from_the_first_digit_that_is_not_zero() {
        for (text, count) in [
            ("0.050", 2),
            ("0,0500", 3),
            ("100", 3),
            ("1.74×10⁻⁵", 3),
            ("1 000.0", 5),
            ("0.0", 0),
            ("lots", 0),
        ] {
            assert_eq!(figures(text), count, "{text}");
        }
    }

    #[test]
    fn what_is_no_number_says_why() {
        for (text, error) in [
            ("", ReadError::Empty),
            ("   ", ReadError::Empty),
            ("1.000,5", ReadError::TwoMarks),
            ("1,000,000", ReadError::TwoMarks),
            ("abc", ReadError::NotANumber),
            ("5%", ReadError::NotANumber),
            ("--5", ReadError::NotANumber),
            ("1e", ReadError::NotANumber),
            ("1e5.5", ReadError::NotANumber),
            (".", ReadError::NotANumber),
            ("NaN", ReadError::NotANumber),
            ("inf", ReadError::NotANumber),
            ("1e999", ReadError::TooLarge),
            ("-1.1e301", ReadError::TooLarge),
        ] {
            assert_eq!(number(text), Err(error), "{text}");
        }
        assert_eq!(number(&"1".repeat(100)), Err(ReadError::NotANumber));
    }
}
