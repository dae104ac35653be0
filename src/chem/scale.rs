//! Numbers on a scale: pH, pKa and temperature. They may be negative, and do not add up.

use super::quantity::QuantityError;

macro_rules! scale_quantity {
    ($(#[$doc:meta])* $name:ident, $low:literal, $high:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// From its value.
            ///
            /// # Errors
            #[doc = concat!("[`QuantityError`] unless it is finite and within ",
                            stringify!($low), " to ", stringify!($high), ".")]
            pub fn new(value: f64) -> Result<Self, QuantityError> {
                if !value.is_finite() {
                    Err(QuantityError::NotFinite)
                } else if !($low..=$high).contains(&value) {
                    Err(QuantityError::OutOfRange { low: $low, high: $high })
                } else {
                    Ok(Self(value + 0.0))
                }
            }

            /// Its value, a pure number.
            pub const fn value(self) -> f64 {
                self.0
            }
        }
    };
}

scale_quantity!(
    /// pH = −log₁₀ a(H⁺). The range is wide enough for every mixture that can be solved.
    Ph, -50.0, 50.0
);
scale_quantity!(
    /// pKa = −log₁₀ Ka at zero ionic strength, Ka in mol dm⁻³.
    Pka, -50.0, 50.0
);
scale_quantity!(
    /// Temperature in °C, within the range of the tables of constants.
    Celsius, 0.0, 60.0
);

impl Pka {
    /// For tables in the source: `None` outside the range of [`Pka::new`].
    pub(super) const fn tabulated(value: f64) -> Option<Self> {
        if value >= -50.0 && value <= 50.0 {
            Some(Self(value))
        } else {
            None
        }
    }

    /// Ka in mol dm⁻³.
    pub fn ka(self) -> f64 {
        super::power::ten_to(-self.0)
    }
}

impl Celsius {
    /// 25 °C, at which most constants are tabulated.
    pub const STANDARD: Self = Self(25.0);

    /// Thermodynamic temperature in K.
    pub fn kelvin(self) -> f64 {
        self.0 + 273.15
    }
}
