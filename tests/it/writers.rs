//! The notations in which the tests expect texts.

use evenkeel::lesson::hydrogen_ion::HydrogenIon;
use evenkeel::lesson::sig_fig::{DecimalMark, PhDecimals, Writer};

/// The usual one: 4.76, H⁺.
pub const POINT: Writer = Writer {
    mark: DecimalMark::Point,
    ph_decimals: PhDecimals::Two,
    ion: HydrogenIon::Bare,
};

/// The usual one with H₃O⁺.
pub const HYDRATED: Writer = Writer {
    ion: HydrogenIon::Hydrated,
    ..POINT
};
