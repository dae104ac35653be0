//! One weak system inside a charge balance: its constants and the fractions of its forms.

use super::activity::ActivityCoefficients;
use super::exact_sum::ExactSum;
use super::halley::Sample;
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
}

struct Weights {
    weight: [f64; FORMS],
    total: f64,
    /// The form of the largest.
    dominant: usize,
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
    fn add_charge(&self, lost: usize, sum: &mut ExactSum) {
        let charge = self.charge(lost);
        if charge == 0.0 {
            return;
        }
        // Doubling is exact and tripling is not, so three charges are added as two and one.
        let two = charge.clamp(-2.0, 2.0);
        sum.add(two * self.amount);
        if charge.abs() > 2.0 {
            sum.add((charge - two) * self.amount);
        }
        sum.add(charge * self.remainder);
    }

    /// Fractions of the forms, but for their common divisor.
    fn weights(&self, a: f64) -> Weights {
        // Relative to the fully protonated form. With |pKa| ≤ 50 and a no smaller
        // than 1e-23 (the densest alkali at the largest pKw), three steps stay below 1e220.
        let mut weight = [0.0; FORMS];
        weight[0] = 1.0;
        let (mut current, mut largest, mut total) = (1.0, 1.0, 1.0);
        let mut dominant = 0;
        let per_a = 1.0 / a;
        for (j, ka) in self.conditional.iter().enumerate().take(self.steps) {
            current *= ka * per_a;
            weight[j + 1] = current;
            total += current;
            if current > largest {
                largest = current;
                dominant = j + 1;
            }
        }
        Weights {
            weight,
            total,
            dominant,
        }
    }

    pub(super) fn fractions(&self, a: f64) -> Fractions {
        let Weights { weight, total, .. } = self.weights(a);
        let per_total = 1.0 / total;
        Fractions {
            alpha: weight.map(|w| w * per_total),
            forms: self.steps + 1,
        }
    }

    /// Adds what the system contributes to a proton balance counted from its dominant form,
    /// and its charge in that form.
    pub(super) fn add_to(&self, balance: &mut Sample, whole: &mut ExactSum, a: f64) {
        let Weights {
            weight,
            total,
            dominant,
        } = self.weights(a);
        self.add_charge(dominant, whole);
        // Sums of α·d, α·d² and α·d³ over the forms that hold d protons more than the dominant
        // one, or d fewer.
        let (mut more, mut more_squares, mut fewer, mut fewer_squares) = (0.0, 0.0, 0.0, 0.0);
        let mut cubes = 0.0;
        let (above, below) = weight.split_at(dominant);
        let mut d = 0.0;
        for share in above.iter().rev() {
            d += 1.0;
            more += share * d;
            more_squares += share * d * d;
            cubes += share * d * d * d;
        }
        d = 0.0;
        for share in below.iter().take(self.steps + 1 - dominant).skip(1) {
            d += 1.0;
            fewer += share * d;
            fewer_squares += share * d * d;
            cubes -= share * d * d * d;
        }
        // dα/d ln a = α (protons held − mean protons held); so the mean's slope is the
        // variance, and that one's the third moment about the mean.
        let mean = (more - fewer) / total;
        let amount = self.amount / total;
        let squares = more_squares + fewer_squares;
        balance.positive += amount * more;
        balance.negative += amount * fewer;
        balance.rise += amount * (more_squares - mean * more);
        balance.fall += amount * (fewer_squares + mean * fewer);
        balance.bend += amount * (cubes - mean * (3.0 * squares - 2.0 * mean * (more - fewer)));
    }
}
