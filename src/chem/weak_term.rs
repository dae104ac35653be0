//! One weak system inside a charge balance: its constants and the fractions of its forms.

use super::activity::ActivityCoefficients;
use super::exact_sum::ExactSum;
use super::mixture::WeakPart;
use super::power::ten_to;
use super::quantity::Celsius;
use super::systems::MAX_STEPS;

const FORMS: usize = MAX_STEPS + 1;

/// One weak system, its constants at the temperature in hand.
#[derive(Debug, Clone, Copy)]
pub(super) struct WeakTerm {
    pub(super) amount: f64,
    /// What rounding left out of `amount`.
    remainder: f64,
    pub(super) top_charge: i8,
    pub(super) steps: usize,
    /// Ka of each step at zero ionic strength.
    ka: [f64; MAX_STEPS],
    /// Ka of each step in concentrations of the weak forms and activity of H⁺.
    pub(super) conditional: [f64; MAX_STEPS],
}

/// Fractions of one system's forms; index = protons lost.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fractions {
    pub(super) alpha: [f64; FORMS],
    pub(super) forms: usize,
    pub(super) dominant: usize,
}

impl WeakTerm {
    pub(super) fn new(part: &WeakPart, temperature: Celsius) -> Self {
        let mut ka = [0.0; MAX_STEPS];
        let mut steps = 0;
        for (place, step) in ka.iter_mut().zip(part.system.steps()) {
            *place = ten_to(-step.pka_at(temperature));
            steps += 1;
        }
        Self {
            amount: part.total.mol(),
            remainder: part.remainder(),
            top_charge: part.system.top_charge(),
            steps,
            ka,
            conditional: ka,
        }
    }

    /// Changes the conditional constants to these activity coefficients.
    pub(super) fn set_gamma(&mut self, gamma: &ActivityCoefficients) {
        let mut charge = self.top_charge;
        for j in 0..self.steps {
            let (acid, base) = (gamma.of(charge), gamma.of(charge - 1));
            self.conditional[j] = self.ka[j] * (acid / base);
            charge -= 1;
        }
    }

    pub(super) fn charge(&self, lost: usize) -> f64 {
        f64::from(self.top_charge) - lost as f64
    }

    /// Adds the charge that the system carries if all of it has lost `lost` protons.
    pub(super) fn add_charge(&self, lost: usize, sum: &mut ExactSum) {
        let charge = self.charge(lost);
        // Doubling is exact and tripling is not, so three charges are added as two and one.
        let two = charge.clamp(-2.0, 2.0);
        sum.add(two * self.amount);
        if charge.abs() > 2.0 {
            sum.add((charge - two) * self.amount);
        }
        sum.add(charge * self.remainder);
    }

    pub(super) fn fractions(&self, a: f64) -> Fractions {
        // Weights relative to the fully protonated form. With |pKa| ≤ 50 and a no smaller
        // than 1e-23 (the densest alkali at the largest pKw), three steps stay below 1e220.
        let mut weight = [0.0; FORMS];
        weight[0] = 1.0;
        let mut largest = 1.0;
        let mut dominant = 0;
        let per_a = 1.0 / a;
        for j in 0..self.steps {
            weight[j + 1] = weight[j] * (self.conditional[j] * per_a);
            if weight[j + 1] > largest {
                largest = weight[j + 1];
                dominant = j + 1;
            }
        }
        let total: f64 = weight.iter().take(self.steps + 1).sum();
        let per_total = 1.0 / total;
        for w in &mut weight {
            *w *= per_total;
        }
        Fractions {
            alpha: weight,
            forms: self.steps + 1,
            dominant,
        }
    }
}
