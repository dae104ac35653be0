//! Changes as they are printed: each is the difference of the values printed beside it.

use crate::chem::power::decimal;
use crate::lesson::sig_fig::Writer;

/// `after` less `before`, both printed with `decimals` decimal places, in units of the last
/// digit. Whole numbers: nothing is rounded a second time.
pub fn in_last_digits(before: &str, after: &str) -> i64 {
    units(after).saturating_sub(units(before))
}

/// The size of that difference, as a number.
pub fn size_of_digits(before: &str, after: &str, decimals: usize) -> f64 {
    value(in_last_digits(before, after), decimals).abs()
}

/// The same as a number with its sign.
pub fn difference(before: &str, after: &str, decimals: usize, writer: Writer) -> String {
    let units = in_last_digits(before, after);
    writer.signed(value(units, decimals), decimals)
}

/// The same without its sign.
pub fn size_of_difference(before: &str, after: &str, decimals: usize, writer: Writer) -> String {
    let units = in_last_digits(before, after);
    writer.fixed(value(units, decimals).abs(), decimals)
}

/// The same, where it is the change of a pH that did move: what does not show in print is
/// "less than" the last digit.
pub fn size_of_move(before: &str, after: &str, decimals: usize, writer: Writer) -> String {
    if in_last_digits(before, after) == 0 {
        return ["less than ", &writer.fixed(value(1, decimals), decimals)].concat();
    }
    size_of_difference(before, after, decimals, writer)
}

/// The same with its sign, where it shows.
pub fn moved_by(before: &str, after: &str, decimals: usize, writer: Writer) -> String {
    if in_last_digits(before, after) == 0 {
        return size_of_move(before, after, decimals, writer);
    }
    difference(before, after, decimals, writer)
}

fn value(units: i64, decimals: usize) -> f64 {
    let exponent = i32::try_from(decimals).unwrap_or(i32::MAX);
    let size = decimal(units.unsigned_abs(), -exponent);
    if units < 0 { -size } else { size }
}

/// The digits of a printed number as a whole number, with its sign.
fn units(text: &str) -> i64 {
    let digits = text.chars().filter_map(|c| c.to_digit(10));
    let size = digits.fold(0_i64, |n, d| n.saturating_mul(10).saturating_add(d.into()));
    if text.starts_with('−') { -size } else { size }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_is_the_difference_of_what_is_printed() {
        let writer = Writer::default();
        // 2.0351 to 1.7449 is a change of −0.2902, and prints as 2.04 to 1.74.
        let (before, after) = (writer.fixed(2.0351, 2), writer.fixed(1.7449, 2));
        assert_eq!(difference(&before, &after, 2, writer), "−0.30");
        assert_eq!(size_of_difference(&before, &after, 2, writer), "0.30");
        assert_eq!(difference("−0.02", "0.11", 2, writer), "+0.13");
        assert_eq!(difference("4.87", "4.87", 2, writer), "0.00");
        assert_eq!(
            difference("9", "12\u{202f}345", 0, writer),
            "+12\u{202f}336"
        );
        assert_eq!(difference("0.3", "0.1", 1, writer), "−0.2");
        assert_eq!(difference("0,3", "0,1", 1, writer), "−0.2");
    }
}
