//! Under what conditions a mixture is solved, and by which model.

use super::constants::{CLASSROOM_PKW, debye_huckel_a, pkw};
use super::quantity::Celsius;

/// How activities follow from concentrations.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Model {
    /// Activities equal to concentrations: the classroom's model. At an ionic strength of
    /// 0.01 mol dm⁻³ that already costs about 0.04 pH in a 1:1 buffer of HA and A⁻.
    #[default]
    Ideal,
    /// Davies activity coefficients at the self-consistent ionic strength.
    Davies,
}

/// Under what conditions a mixture is solved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// How activities follow from concentrations.
    pub model: Model,
    /// Temperature; pKa values are corrected to it.
    pub temperature: Celsius,
    /// pK<sub>w</sub> at zero ionic strength, 5 to 20.
    pub pkw: f64,
    /// Debye–Hückel A (log₁₀, kg^½ mol^−½), 0 to 1; the ideal model does not use it.
    pub debye_huckel_a: f64,
}

impl Conditions {
    /// 25 °C, ideal, K<sub>w</sub> = 1.00 × 10⁻¹⁴: what textbooks and examiners use.
    pub const fn classroom() -> Self {
        Self {
            model: Model::Ideal,
            temperature: Celsius::STANDARD,
            pkw: CLASSROOM_PKW,
            debye_huckel_a: 0.5098,
        }
    }

    /// Tabulated constants at `temperature`.
    pub fn tabulated(model: Model, temperature: Celsius) -> Self {
        Self {
            model,
            temperature,
            pkw: pkw(temperature),
            debye_huckel_a: debye_huckel_a(temperature),
        }
    }

    /// Whether both constants are numbers that some water could have, with room to spare.
    pub(super) fn are_usable(&self) -> bool {
        (5.0..=20.0).contains(&self.pkw) && (0.0..=1.0).contains(&self.debye_huckel_a)
    }
}
