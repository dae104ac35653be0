//! Quantities as types, so that an amount cannot be used as a concentration.
//!
//! Inside, everything is mol, dm³ (litres) and mol dm⁻³. Other units exist only at the
//! named constructors and accessors. No value here is ever NaN or infinite, and no
//! amount, volume or concentration is negative: constructors refuse such input and
//! the operators keep finite values finite (they saturate at `f64::MAX`, which no
//! mixture that [`solve`](super::equilibrium::solve) accepts comes near).

use core::fmt;
use core::ops::{Add, Mul};

pub use super::scale::{Celsius, Ph, Pka};

/// Why a number cannot be the quantity asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum QuantityError {
    /// NaN or infinite.
    NotFinite,
    /// Below zero, where the quantity cannot be.
    Negative,
    /// Finite, but outside the range in which the quantity has a meaning here.
    OutOfRange {
        /// Smallest value accepted.
        low: f64,
        /// Largest value accepted.
        high: f64,
    },
    /// An amount divided by no volume at all.
    NoVolume,
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite => f.write_str("not a finite number"),
            Self::Negative => f.write_str("below zero"),
            Self::OutOfRange { low, high } => write!(f, "outside {low} to {high}"),
            Self::NoVolume => f.write_str("no volume"),
        }
    }
}

impl core::error::Error for QuantityError {}

fn non_negative(value: f64) -> Result<f64, QuantityError> {
    if !value.is_finite() {
        Err(QuantityError::NotFinite)
    } else if value < 0.0 {
        Err(QuantityError::Negative)
    } else {
        // Turns −0.0 into 0.0, so that equal quantities are also equal bit for bit.
        Ok(value + 0.0)
    }
}

/// Keeps an overflowing product or sum finite.
fn saturated(value: f64) -> f64 {
    value.min(f64::MAX)
}

macro_rules! non_negative_quantity {
    ($(#[$doc:meta])* $name:ident, $unit:literal,
     $from:ident / $get:ident, $from_small:ident / $get_small:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            #[doc = concat!("From a value in ", $unit, ".")]
            ///
            /// # Errors
            /// [`QuantityError`] if the value is NaN, infinite or negative.
            pub fn $from(value: f64) -> Result<Self, QuantityError> {
                non_negative(value).map(Self)
            }

            #[doc = concat!("From a value in thousandths of ", $unit, ".")]
            ///
            /// # Errors
            /// [`QuantityError`] if the value is NaN, infinite or negative.
            pub fn $from_small(value: f64) -> Result<Self, QuantityError> {
                // Dividing rounds once; multiplying by the inexact 0.001 would round twice.
                non_negative(value / 1000.0).map(Self)
            }

            #[doc = concat!("The value in ", $unit, ".")]
            pub const fn $get(self) -> f64 {
                self.0
            }

            #[doc = concat!("The value in thousandths of ", $unit, ".")]
            pub fn $get_small(self) -> f64 {
                saturated(self.0 * 1000.0)
            }

            /// What is left after taking `other` away, or `None` if there is not enough.
            pub fn checked_sub(self, other: Self) -> Option<Self> {
                (self.0 >= other.0).then(|| Self(self.0 - other.0))
            }

            /// `count` times as much.
            pub fn times(self, count: u32) -> Self {
                Self(saturated(self.0 * f64::from(count)))
            }

            /// A share of it: `factor` is clamped to 0…1, and NaN counts as 0.
            pub fn share(self, factor: f64) -> Self {
                Self(self.0 * if factor.is_nan() { 0.0 } else { factor.clamp(0.0, 1.0) })
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(saturated(self.0 + other.0))
            }
        }

        impl core::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self::ZERO, Add::add)
            }
        }
    };
}

non_negative_quantity!(
    /// Amount of substance, in mol.
    Amount, "mol", from_mol / mol, from_mmol / mmol
);
non_negative_quantity!(
    /// Volume, in dm³ (litres).
    Volume, "dm³", from_dm3 / dm3, from_cm3 / cm3
);
non_negative_quantity!(
    /// Amount-of-substance concentration, in mol dm⁻³.
    Concentration, "mol dm⁻³", from_molar / molar, from_millimolar / millimolar
);

impl Amount {
    /// The concentration of this amount in `volume`.
    ///
    /// # Errors
    /// [`QuantityError::NoVolume`] if the volume is zero or too small to divide by.
    pub fn in_volume(self, volume: Volume) -> Result<Concentration, QuantityError> {
        let value = self.0 / volume.0;
        if value.is_finite() {
            Ok(Concentration(value))
        } else {
            Err(QuantityError::NoVolume)
        }
    }

    /// The volume of a solution of `concentration` that holds this amount.
    ///
    /// # Errors
    /// [`QuantityError::NoVolume`] if the concentration is zero or too small to divide by.
    pub fn at_concentration(self, concentration: Concentration) -> Result<Volume, QuantityError> {
        let value = self.0 / concentration.0;
        if value.is_finite() {
            Ok(Volume(value))
        } else {
            Err(QuantityError::NoVolume)
        }
    }
}

impl Mul<Volume> for Concentration {
    type Output = Amount;
    fn mul(self, volume: Volume) -> Amount {
        Amount(saturated(self.0 * volume.0))
    }
}

/// An amount of strong reagent counted with its sign, in mol: alkali (OH⁻) is positive,
/// acid (H⁺) negative. The horizontal axis of a curve.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct SignedAmount(f64);

impl SignedAmount {
    /// From mol; alkali positive.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] for NaN and infinities.
    pub fn from_mol(value: f64) -> Result<Self, QuantityError> {
        if value.is_finite() {
            Ok(Self(value + 0.0))
        } else {
            Err(QuantityError::NotFinite)
        }
    }

    /// The net of `alkali` over `acid`.
    pub fn net(acid: Amount, alkali: Amount) -> Self {
        Self(alkali.0 - acid.0)
    }

    /// Mol; alkali positive.
    pub const fn mol(self) -> f64 {
        self.0
    }

    /// How much, whichever reagent it is.
    pub fn size(self) -> Amount {
        Amount(self.0.abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn impossible_values_are_refused() {
        assert_eq!(Amount::from_mol(-1e-30), Err(QuantityError::Negative));
        assert_eq!(Volume::from_cm3(f64::NAN), Err(QuantityError::NotFinite));
        assert_eq!(
            Concentration::from_molar(f64::INFINITY),
            Err(QuantityError::NotFinite)
        );
        assert!(matches!(
            Pka::new(51.0),
            Err(QuantityError::OutOfRange { .. })
        ));
        assert!(matches!(
            Celsius::new(60.1),
            Err(QuantityError::OutOfRange { .. })
        ));
        assert_eq!(Ph::new(f64::NAN), Err(QuantityError::NotFinite));
    }

    #[test]
    fn operators_never_leave_the_finite_numbers() {
        let huge = Amount::from_mol(f64::MAX).unwrap();
        assert!((huge + huge).mol().is_finite());
        assert!(huge.times(7).mol().is_finite());
        let dense = Concentration::from_molar(1e300).unwrap();
        assert!((dense * Volume::from_dm3(1e300).unwrap()).mol().is_finite());
        assert_eq!(huge.in_volume(Volume::ZERO), Err(QuantityError::NoVolume));
        assert_eq!(
            Amount::ZERO.in_volume(Volume::ZERO),
            Err(QuantityError::NoVolume)
        );
        assert_eq!(huge.share(f64::NAN), Amount::ZERO);
    }

    #[test]
    fn units_at_the_edge() {
        assert_eq!(Amount::from_mmol(20.0).unwrap().mol(), 0.02);
        assert_eq!(Volume::from_cm3(200.0).unwrap().dm3(), 0.2);
        let n = Concentration::from_molar(0.05).unwrap() * Volume::from_cm3(200.0).unwrap();
        assert!((n.mmol() - 10.0).abs() < 1e-12);
        let v = n
            .at_concentration(Concentration::from_molar(1.0).unwrap())
            .unwrap();
        assert!((v.cm3() - 10.0).abs() < 1e-12);
        assert_eq!(SignedAmount::net(n, Amount::ZERO).mol(), -n.mol());
        assert!(n.checked_sub(n + n).is_none());
    }
}
