//! Constants of water and of the activity model, and how pKa moves with temperature.

use super::quantity::{Celsius, Pka};

/// Molar gas constant in J mol⁻¹ K⁻¹: exact since the 2019 revision of the SI.
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// pK<sub>w</sub> as classrooms use it at 25 °C: K<sub>w</sub> = 1.00 × 10⁻¹⁴ mol² dm⁻⁶
/// (common practice, no source).
pub const CLASSROOM_PKW: f64 = 14.0;

/// pK<sub>w</sub> against temperature in °C, every 5 °C.
///
/// Source: Marshall & Franck 1981, J. Phys. Chem. Ref. Data 10, 295, as printed in the
/// CRC Handbook of Chemistry and Physics, 86th ed., 8-79. At zero ionic strength,
/// saturated vapor pressure. (25 °C: K<sub>w</sub> = 1.012 × 10⁻¹⁴.)
const PKW: [f64; 13] = [
    14.938, 14.727, 14.528, 14.340, 14.163, 13.995, 13.836, 13.685, 13.542, 13.405, 13.275, 13.152,
    13.034,
];

/// Debye–Hückel A for log₁₀ γ, in kg^½ mol^−½, against temperature in °C, every 5 °C.
///
/// Source: A = 1.82483 × 10⁶ ρ^½ (εT)^(−3/2) with the density ρ and permittivity ε of the
/// IAPWS formulations (computed). The series of Manov et al. 1943 is lower by 0.0013 at
/// 25 °C, which moves a phosphate standard by 0.001 in pH.
const DEBYE_HUCKEL_A: [f64; 13] = [
    0.4904, 0.4940, 0.4976, 0.5015, 0.5055, 0.5098, 0.5142, 0.5189, 0.5238, 0.5288, 0.5341, 0.5396,
    0.5453,
];

const TABLE_STEP: f64 = 5.0;

/// Linear interpolation in a table that starts at 0 °C; its temperature cannot leave it.
///
/// The error of a straight line between two points is an eighth of the second difference
/// there: about 0.0015 in pK<sub>w</sub> near 0 °C, 0.001 from 30 °C on and less above, and
/// below 0.0001 in A.
fn interpolated(table: &[f64; 13], temperature: Celsius) -> f64 {
    let position = temperature.value() / TABLE_STEP;
    let below = (0..table.len() - 1)
        .rev()
        .find(|&i| i as f64 <= position)
        .unwrap_or(0);
    let share = position - below as f64;
    table[below] + share * (table[below + 1] - table[below])
}

/// pK<sub>w</sub> at zero ionic strength, 0–60 °C.
pub fn pkw(temperature: Celsius) -> f64 {
    interpolated(&PKW, temperature)
}

/// Debye–Hückel A (log₁₀, kg^½ mol^−½), 0–60 °C.
pub fn debye_huckel_a(temperature: Celsius) -> f64 {
    interpolated(&DEBYE_HUCKEL_A, temperature)
}

/// pKa at `temperature` from its value, enthalpy and heat capacity at 25 °C.
///
/// `enthalpy` is ΔH° of ionization in kJ mol⁻¹, `heat_capacity` ΔCp° in J mol⁻¹ K⁻¹, taken
/// as constant over 0–60 °C. At 25 °C the tabulated value comes back untouched.
///
/// Source: van 't Hoff's equation integrated with a constant ΔCp, e.g. Goldberg, Kishore &
/// Lennen 2002, J. Phys. Chem. Ref. Data 31, 231, section 2:
/// ln K(T) = ln K(T₀) − (ΔH°/R)(1/T − 1/T₀) + (ΔCp°/R)(ln(T/T₀) + T₀/T − 1).
pub fn pka_at(pka: Pka, enthalpy: f64, heat_capacity: f64, temperature: Celsius) -> f64 {
    let standard = Celsius::STANDARD.kelvin();
    let t = temperature.kelvin();
    let shift = -(enthalpy * 1000.0 / GAS_CONSTANT) * (1.0 / t - 1.0 / standard)
        + (heat_capacity / GAS_CONSTANT) * (libm::log(t / standard) + standard / t - 1.0);
    pka.value() - shift / core::f64::consts::LN_10
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_hold_at_and_between_their_points() {
        let at = |t: f64| Celsius::new(t).unwrap();
        assert_eq!(pkw(at(0.0)), 14.938);
        assert_eq!(pkw(at(25.0)), 13.995);
        assert_eq!(pkw(at(60.0)), 13.034);
        assert!((pkw(at(22.5)) - 14.079).abs() < 1e-12);
        assert_eq!(debye_huckel_a(at(25.0)), 0.5098);
        assert!((debye_huckel_a(at(57.5)) - 0.54245).abs() < 1e-12);
    }

    #[test]
    fn pka_is_untouched_at_25_degrees() {
        let pka = Pka::new(9.245).unwrap();
        assert_eq!(pka_at(pka, 51.95, 8.0, Celsius::STANDARD), 9.245);
    }
}
