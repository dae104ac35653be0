//! What can be typed, and what can be wrong with it.

use crate::lesson::read::ReadError;

/// One thing that can be typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Field {
    /// pKa of an own pair.
    OwnPka,
    /// Concentration of the solution of the acid form, mol dm⁻³.
    AcidConcentration,
    /// Its volume, cm³.
    AcidVolume,
    /// Concentration of the solution of the base form, mol dm⁻³.
    BaseConcentration,
    /// Its volume, cm³.
    BaseVolume,
    /// Concentration of the weak acid or base to be part-neutralized, mol dm⁻³.
    WeakConcentration,
    /// Its volume, cm³.
    WeakVolume,
    /// Concentration of the strong reagent that part-neutralizes it, mol dm⁻³.
    StrongConcentration,
    /// Its volume, cm³.
    StrongVolume,
    /// Concentration of the stock that additions come from, mol dm⁻³.
    Stock,
}

impl Field {
    /// Smallest and largest value accepted, and whether zero is accepted as well.
    pub(super) const fn range(self) -> (f64, f64, bool) {
        match self {
            // Outside 0–14 the water's own H⁺ and OH⁻ outweigh any pair.
            Self::OwnPka => (0.0, 14.0, false),
            Self::WeakConcentration => (1e-5, 10.0, false),
            Self::Stock => (0.01, 10.0, false),
            Self::AcidConcentration | Self::BaseConcentration | Self::StrongConcentration => {
                (1e-5, 10.0, true)
            }
            Self::AcidVolume | Self::BaseVolume | Self::WeakVolume | Self::StrongVolume => {
                (1.0, 10_000.0, false)
            }
        }
    }
}

/// How many there are.
pub(super) const FIELD_COUNT: usize = 10;

/// The most strong reagent that part-neutralizes, in multiples of the weak acid or base.
pub const MOST_EXCESS: u32 = 100;

/// What is wrong with a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Problem {
    /// It is not a number.
    Unreadable(ReadError),
    /// A number, but not one that a bench can be made from.
    OutOfRange {
        /// Smallest value accepted.
        low: f64,
        /// Largest value accepted.
        high: f64,
        /// Whether zero is accepted as well.
        or_zero: bool,
    },
    /// Both forms have no amount: there is nothing on the bench.
    NothingOfThePair,
    /// More than [`MOST_EXCESS`] times as much strong reagent as there is of the pair: next
    /// to that the pair would be too few particles to see.
    TooMuchStrong,
}
