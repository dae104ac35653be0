//! Powers of ten and whole numbers, small enough for a page.
//!
//! The library functions for these bring tables of 15 KB that do not compress, a tenth of
//! what the first screen may weigh.

/// 10ˣ: exact for whole x from 0 to 22, correctly rounded for whole x down to −22, and within
/// a few units in the last place elsewhere.
pub fn ten_to(x: f64) -> f64 {
    if x.abs() <= 400.0 {
        // Halves go away from zero; either neighbor would do.
        #[allow(clippy::cast_possible_truncation, reason = "of no more than 400")]
        let whole = (x + 0.5_f64.copysign(x)) as i32;
        // Every power up to 10²² is a whole number that fits, and so is every square on the way.
        let (mut power, mut square, mut left) = (1.0, 10.0, whole.unsigned_abs());
        while left > 0 {
            if left % 2 == 1 {
                power *= square;
            }
            square *= square;
            left /= 2;
        }
        let scale = if whole < 0 { 1.0 / power } else { power };
        let rest = x - f64::from(whole);
        if rest == 0.0 {
            scale
        } else {
            scale * libm::exp(rest * core::f64::consts::LN_10)
        }
    } else {
        // Infinite, zero or NaN, as it should be.
        libm::exp(x * core::f64::consts::LN_10)
    }
}

/// digits × 10^exponent: correctly rounded for digits below 2⁵³ and exponents within ±22,
/// which is everything that people write, and within a few units in the last place elsewhere.
pub fn decimal(digits: u64, exponent: i32) -> f64 {
    let digits = digits as f64;
    if exponent < -300 {
        // In two parts: the whole power would be infinite.
        digits / ten_to(300.0) / ten_to(-300.0 - f64::from(exponent))
    } else if exponent < 0 {
        // One division by an exact power rounds once; a product with 10⁻ⁿ would round twice.
        digits / ten_to(f64::from(-exponent))
    } else {
        digits * ten_to(f64::from(exponent))
    }
}

/// The nearest whole number; values beyond the range stay at its end, and NaN is 0.
#[allow(
    clippy::cast_possible_truncation,
    reason = "rounded first, and the cast saturates"
)]
pub fn whole(value: f64) -> i64 {
    libm::round(value) as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library, which is correctly rounded.
    #[test]
    fn powers_and_decimals_are_those_of_the_standard_library() {
        for n in -22..=22_i32 {
            assert_eq!(
                ten_to(f64::from(n)),
                format!("1e{n}").parse::<f64>().unwrap()
            );
        }
        for (digits, exponent) in [
            (5, -2),
            (174, -7),
            (35, -2),
            (100, -3),
            (123_456_789, -15),
            (7, 22),
        ] {
            let text = format!("{digits}e{exponent}");
            assert_eq!(
                decimal(digits, exponent),
                text.parse::<f64>().unwrap(),
                "{text}"
            );
        }
        // Many decimals of a tiny number are no zero.
        let tiny = decimal(200_000_000_000, -311);
        assert!((tiny / 2e-300 - 1.0).abs() < 1e-12, "{tiny:e}");
        assert_eq!(decimal(1, -800), 0.0);
    }

    #[test]
    fn between_whole_numbers_it_is_as_good_as_the_library() {
        for i in -5000..=5000 {
            let x = f64::from(i) * 0.0101;
            let error = ten_to(x) / libm::exp10(x) - 1.0;
            assert!(error.abs() < 3e-15, "10^{x}: {error:e}");
        }
        assert_eq!(ten_to(f64::INFINITY), f64::INFINITY);
        assert_eq!(ten_to(-500.0), 0.0);
        assert!(ten_to(f64::NAN).is_nan());
        assert_eq!(decimal(1, 400), f64::INFINITY);
        assert_eq!(decimal(1, -400), 0.0);
    }
}
