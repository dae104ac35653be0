//! Ionic strength and activity coefficients.

use super::power::ten_to;

/// Above this ionic strength (mol dm⁻³) the Davies equation is no longer to be trusted
/// (its usual limit: Stumm & Morgan, *Aquatic Chemistry*, table of activity coefficient
/// equations).
pub const DAVIES_LIMIT: f64 = 0.5;

/// Above this ionic strength (mol dm⁻³) no answer is given at all: the linear term has
/// taken over, and the equation describes nothing.
pub const DAVIES_END: f64 = 20.0;

/// Activity coefficients of ions by the size of their charge, neutral species at 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ActivityCoefficients([f64; 4]);

impl ActivityCoefficients {
    /// Activities equal to concentrations.
    pub const IDEAL: Self = Self([1.0; 4]);

    /// Davies' equation at ionic strength `ionic_strength` (mol dm⁻³) with Debye–Hückel
    /// `a` (log₁₀): log₁₀ γ = −A z² (√I/(1+√I) − 0.3 I).
    ///
    /// Typical error below I = 0.1: 2 %; by I = 0.5: 8 % (Davies 1962).
    ///
    /// Source: Davies 1962, *Ion Association*, p. 41.
    pub fn davies(ionic_strength: f64, a: f64) -> Self {
        let root = ionic_strength.sqrt();
        let one = ten_to(-a * (root / (1.0 + root) - 0.3 * ionic_strength));
        // γ(z) = γ(1)^(z²).
        let two = (one * one) * (one * one);
        Self([1.0, one, two, two * two * one])
    }

    /// γ of an ion of this charge, 0 to ±3.
    pub fn of(&self, charge: i8) -> f64 {
        self.0[usize::from(charge.unsigned_abs().min(3))]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coefficients_by_hand() {
        // I = 0.01, A = 0.509: √I/(1+√I) = 0.1/1.1; log γ₁ = −0.509 (0.090909 − 0.003).
        let gamma = ActivityCoefficients::davies(0.01, 0.509);
        assert!((libm::log10(gamma.of(1)) + 0.509 * (0.1 / 1.1 - 0.003)).abs() < 1e-15);
        assert!((libm::log10(gamma.of(-2)) / libm::log10(gamma.of(1)) - 4.0).abs() < 1e-12);
        assert!((libm::log10(gamma.of(3)) / libm::log10(gamma.of(1)) - 9.0).abs() < 1e-12);
        assert_eq!(gamma.of(0), 1.0);
        assert_eq!(
            ActivityCoefficients::davies(0.0, 0.509),
            ActivityCoefficients::IDEAL
        );
    }
}
