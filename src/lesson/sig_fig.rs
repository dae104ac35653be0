//! The one place where numbers are rounded and written.
//!
//! Digits are rounded half up in size (2.5 → 3, −2.5 → −3), as schools teach, and as if
//! the value were the short decimal that a person typed: 0.35 is stored a hair below
//! itself, and still rounds to 0.4. The price is that a value closer than one part in
//! 10¹² below a tie counts as the tie.
//!
//! Text uses the true minus sign and Unicode sub- and superscripts; the page turns those
//! into markup.

use crate::chem::power::decimal;
use crate::chem::quantity::{Amount, Concentration, Ph, Volume};
pub use crate::lesson::amount_scale::AmountScale;
use crate::lesson::hydrogen_ion::HydrogenIon;
use crate::lesson::superscript::superscript;

/// The character between units and tenths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum DecimalMark {
    /// 4.76
    #[default]
    Point,
    /// 4,76
    Comma,
}

/// Decimal places with which a pH is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum PhDecimals {
    /// 4.87
    #[default]
    Two,
    /// 4.874
    Three,
}

/// Writes numbers and equations in one notation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Writer {
    /// The decimal mark.
    pub mark: DecimalMark,
    /// Decimal places of a pH.
    pub ph_decimals: PhDecimals,
    /// Free H⁺ in equations.
    pub ion: HydrogenIon,
}

impl Writer {
    /// `value` with exactly `decimals` decimal places.
    pub fn fixed(self, value: f64, decimals: usize) -> String {
        let text = format!("{:.decimals$}", nudged(value).abs());
        let zero = text.bytes().all(|b| b == b'0' || b == b'.');
        let sign = if value < 0.0 && !zero { "−" } else { "" };
        format!("{sign}{}", self.marked(&grouped(&text)))
    }

    /// `value` with exactly `decimals` decimal places and a sign even if positive; a change
    /// that rounds to nothing has none.
    pub fn signed(self, value: f64, decimals: usize) -> String {
        let text = self.fixed(value, decimals);
        let nothing = !text.bytes().any(|b| (b'1'..=b'9').contains(&b));
        if nothing || text.starts_with('−') {
            text
        } else {
            format!("+{text}")
        }
    }

    /// `value` to `figures` significant figures (at least 1): plain between 0.001 and
    /// 10 000, otherwise as a number between 1 and 10 times a power of ten.
    pub fn significant(self, value: f64, figures: usize) -> String {
        let figures = figures.max(1);
        if value == 0.0 {
            return "0".to_owned();
        }
        let (mantissa, exponent) = scientific(value, figures);
        if (-3..4).contains(&exponent) {
            let decimals = i32::try_from(figures).unwrap_or(i32::MAX) - 1 - exponent;
            if let Ok(decimals) = usize::try_from(decimals) {
                return self.fixed(value, decimals);
            }
        }
        let sign = if value < 0.0 { "−" } else { "" };
        format!(
            "{sign}{}×10{}",
            self.marked(&mantissa),
            superscript(exponent)
        )
    }

    /// Decimal places of a pH or pKa.
    pub const fn ph_decimals(self) -> usize {
        match self.ph_decimals {
            PhDecimals::Two => 2,
            PhDecimals::Three => 3,
        }
    }

    /// A pH, pKa or change of pH.
    pub fn on_ph_scale(self, value: f64) -> String {
        self.fixed(value, self.ph_decimals())
    }

    /// A pH.
    pub fn ph(self, ph: Ph) -> String {
        self.on_ph_scale(ph.value())
    }

    /// An amount in the unit and with the decimal places of `scale`.
    pub fn amount(self, amount: Amount, scale: AmountScale) -> String {
        format!("{} {}", self.amount_number(amount, scale), scale.symbol())
    }

    /// The number alone of [`Self::amount`].
    pub fn amount_number(self, amount: Amount, scale: AmountScale) -> String {
        self.fixed(scale.value(amount), scale.decimals())
    }

    /// A concentration in mol dm⁻³ to three significant figures.
    pub fn concentration(self, concentration: Concentration) -> String {
        format!("{} mol dm⁻³", self.significant(concentration.molar(), 3))
    }

    /// A volume in cm³, to a tenth where it is not whole.
    pub fn volume(self, volume: Volume) -> String {
        let cm3 = volume.cm3();
        let whole = (cm3 - libm::round(cm3)).abs() < 0.05;
        format!("{} cm³", self.fixed(cm3, usize::from(!whole)))
    }

    /// A count "about" which: two significant figures, written out.
    pub fn about(self, value: f64) -> String {
        if value < 10.0 {
            return self.significant(value, 2);
        }
        let (mantissa, exponent) = scientific(value, 2);
        let digits = mantissa.replace('.', "").parse().unwrap_or(10);
        let rounded = decimal(digits, exponent - 1);
        if exponent < 9 {
            self.fixed(rounded, 0)
        } else {
            self.significant(value, 2)
        }
    }

    fn marked(self, text: &str) -> String {
        match self.mark {
            DecimalMark::Point => text.to_owned(),
            DecimalMark::Comma => text.replace('.', ","),
        }
    }
}

/// Decimal places that a step of this size needs: 0.1 → 1, 0.05 → 2, 2 → 0.
pub fn decimals_of(step: f64) -> usize {
    if !step.is_finite() || step <= 0.0 {
        return 0;
    }
    let (_, exponent) = scientific(step, 1);
    usize::try_from(-exponent).unwrap_or(0)
}

/// The value pushed away from zero by one part in 10¹², so that ties round up in size.
fn nudged(value: f64) -> f64 {
    value * (1.0 + 1e-12)
}

/// Mantissa digits ("1.74") and exponent of |value| at `figures` significant figures.
fn scientific(value: f64, figures: usize) -> (String, i32) {
    let text = format!("{:.*e}", figures - 1, nudged(value).abs());
    let (mantissa, exponent) = text.split_once('e').unwrap_or((&text, "0"));
    (mantissa.to_owned(), exponent.parse().unwrap_or(0))
}

/// Digits before the mark in groups of three with narrow spaces, from five digits on.
/// Commas would be read as decimal marks, points likewise.
fn grouped(text: &str) -> String {
    let (whole, rest) = text.split_at(text.find('.').unwrap_or(text.len()));
    if whole.len() < 5 {
        return text.to_owned();
    }
    let mut out = String::new();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            out.push('\u{202f}');
        }
        out.push(digit);
    }
    out + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    const POINT: Writer = Writer {
        mark: DecimalMark::Point,
        ph_decimals: PhDecimals::Two,
        ion: HydrogenIon::Bare,
    };
    const COMMA: Writer = Writer {
        mark: DecimalMark::Comma,
        ..POINT
    };

    #[test]
    fn fixed_places() {
        assert_eq!(POINT.fixed(4.865, 2), "4.87");
        assert_eq!(POINT.fixed(0.35, 1), "0.4");
        assert_eq!(POINT.fixed(2.5, 0), "3");
        assert_eq!(POINT.fixed(-2.5, 0), "−3");
        assert_eq!(POINT.fixed(-0.004, 2), "0.00");
        assert_eq!(COMMA.fixed(4.76, 2), "4,76");
        assert_eq!(POINT.fixed(12345.0, 1), "12\u{202f}345.0");
        assert_eq!(POINT.signed(0.04, 2), "+0.04");
        assert_eq!(POINT.signed(-0.04, 2), "−0.04");
    }

    #[test]
    fn significant_figures() {
        assert_eq!(POINT.significant(1.738e-5, 3), "1.74×10⁻⁵");
        assert_eq!(COMMA.significant(1.738e-5, 3), "1,74×10⁻⁵");
        assert_eq!(POINT.significant(0.05, 3), "0.0500");
        assert_eq!(POINT.significant(0.001, 2), "0.0010");
        assert_eq!(POINT.significant(9.996, 3), "10.0");
        assert_eq!(POINT.significant(9996.0, 3), "1.00×10⁴");
        assert_eq!(POINT.significant(1234.0, 2), "1.2×10³");
        assert_eq!(POINT.significant(-6.02e23, 3), "−6.02×10²³");
        assert_eq!(POINT.significant(0.0, 3), "0");
        assert_eq!(POINT.significant(5.0, 0), "5");
    }

    #[test]
    fn quantities() {
        let mmol = |v| Amount::from_mmol(v).unwrap();
        let scale = |v| AmountScale { step: mmol(v) };
        assert_eq!(POINT.amount(mmol(11.6), scale(0.1)), "11.6 mmol");
        assert_eq!(POINT.amount(mmol(9.999), scale(0.1)), "10.0 mmol");
        assert_eq!(POINT.amount(mmol(120.0), scale(2.0)), "120 mmol");
        assert_eq!(POINT.amount(mmol(0.0125), scale(0.0001)), "12.5 µmol");
        assert_eq!(POINT.amount(mmol(12_500.0), scale(100.0)), "12.5 mol");
        assert_eq!(decimals_of(0.05), 2);
        assert_eq!(decimals_of(f64::NAN), 0);
        assert_eq!(POINT.volume(Volume::from_cm3(200.0).unwrap()), "200 cm³");
        assert_eq!(POINT.volume(Volume::from_cm3(200.5).unwrap()), "200.5 cm³");
        assert_eq!(POINT.about(3741.0), "3700");
        assert_eq!(POINT.about(57_410.0), "57\u{202f}000");
        assert_eq!(POINT.about(3.24), "3.2");
        assert_eq!(POINT.about(4.4e12), "4.4×10¹²");
    }
}
