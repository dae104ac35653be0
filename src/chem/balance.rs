//! The charge balance of a mixture as a function of pH, at given activity coefficients.
//!
//! Symbols: `a` = activity of H⁺; `V` volume (dm³); `n` amounts (mol); `S` net charge of
//! spectator ions (mol); `γ` activity coefficients; `z` charges; `α` fractions of a system
//! in each form.
//!
//! The balance is  V·a/γ₁ − V·Kw/(a·γ₁) + S + Σ n·z̄(a) = 0,  z̄ = Σ αⱼ zⱼ. Every term
//! rises with `a` (dz̄/d ln a is the variance of the number of protons held), so there is
//! exactly one root.
//!
//! **No cancellation.** For a salt of 2 mol dm⁻³ at pH 7, S and Σ n·z̄ agree to seven
//! figures and their difference decides the pH. So each system is written as its dominant
//! form plus the small shares that differ from it: the whole charges are summed exactly
//! first, and what is left is a proton balance of small terms, each good to the last bits.
//!
//! **Scale.** The root is sought along u = ln a, of P − N, where P collects the positive and N
//! the negative terms of that proton balance; far from the root of ln(P/N), which is close to
//! straight lines over the fourteen decades that a spans. The slopes along u are cheap: they are
//! the moments of the number of protons held.

use super::activity::ActivityCoefficients;
use super::exact_sum::ExactSum;
use super::halley::{Sample, halley};
use super::mixture::Mixture;
use super::power::ten_to;
use super::quantity::Celsius;
use super::root::{Bracket, NoRoot};
use super::weak_term::{Fractions, WeakTerm};

/// Length of Newton's step in ln a below which Halley's is the last: its cube is below the last
/// bit of a.
const TOLERANCE: f64 = 4e-6;

/// A mixture made ready for solving: plain numbers, constants at temperature.
#[derive(Debug, Clone)]
pub(super) struct Balance {
    volume: f64,
    spectators: ExactSum,
    /// Σ z²·n of the spectators, for the ionic strength.
    spectator_strength: f64,
    weak: Vec<WeakTerm>,
    kw: f64,
    gamma: ActivityCoefficients,
}

impl Balance {
    pub(super) fn new(mixture: &Mixture, temperature: Celsius, pkw: f64) -> Self {
        let weak = mixture
            .weak()
            .iter()
            .map(|part| WeakTerm::new(part, temperature))
            .collect();
        Self {
            volume: mixture.volume().dm3(),
            spectators: mixture.exact_spectator_charge(),
            spectator_strength: mixture
                .spectators()
                .map(|(z, n)| f64::from(z) * f64::from(z) * n.mol())
                .sum(),
            weak,
            kw: ten_to(-pkw),
            gamma: ActivityCoefficients::IDEAL,
        }
    }

    pub(super) fn volume(&self) -> f64 {
        self.volume
    }

    pub(super) fn gamma(&self) -> ActivityCoefficients {
        self.gamma
    }

    /// Changes the activity coefficients, and with them the conditional constants.
    pub(super) fn set_gamma(&mut self, gamma: ActivityCoefficients) {
        self.gamma = gamma;
        for term in &mut self.weak {
            term.set_gamma(&gamma);
        }
    }

    /// The same mixture after `alkali` mol of OH⁻ (negative: H⁺) of a strong monovalent
    /// reagent in `volume` dm³ of solution.
    pub(super) fn with_strong(&mut self, alkali: f64, volume: f64) {
        self.spectators.add(alkali);
        self.spectator_strength += alkali.abs();
        self.volume += volume;
    }

    /// Largest analytical concentration of anything dissolved, mol dm⁻³.
    pub(super) fn densest(&self) -> f64 {
        let most = self
            .weak
            .iter()
            .map(|t| t.amount)
            .fold(self.spectator_strength, f64::max);
        most / self.volume
    }

    /// Concentrations (mol dm⁻³) of H⁺ and OH⁻ where the activity of H⁺ is `a`.
    pub(super) fn free_ions(&self, a: f64) -> (f64, f64) {
        let gamma = self.gamma.of(1);
        (a / gamma, self.kw / (a * gamma))
    }

    /// Fractions of each weak system's forms, with the system's amount.
    pub(super) fn weak_fractions(&self, a: f64) -> impl Iterator<Item = (f64, Fractions)> + '_ {
        self.weak
            .iter()
            .map(move |term| (term.amount, term.fractions(a)))
    }

    /// ½ Σ z² c over every ion, at activity `a` of H⁺.
    pub(super) fn ionic_strength(&self, a: f64) -> f64 {
        let (h, oh) = self.free_ions(a);
        let mut sum = self.spectator_strength / self.volume + h + oh;
        for term in &self.weak {
            let fractions = term.fractions(a);
            let squares: f64 = (0..fractions.forms)
                .map(|j| term.charge(j) * term.charge(j) * fractions.alpha[j])
                .sum();
            sum += squares * (term.amount / self.volume);
        }
        0.5 * sum
    }

    /// The activity of H⁺ at which the charges balance. `start` is a first guess of it.
    ///
    /// The bracket is proved by its ends: with E the largest negative charge that all
    /// forms and spectators together can carry, at a = γE/V + √Kw the H⁺ alone outweighs E
    /// and the OH⁻; likewise for the other end with the largest positive charge.
    pub(super) fn solve(&self, start: f64) -> Result<f64, NoRoot> {
        let spectators = self.spectators.value();
        let (mut most_negative, mut most_positive) =
            (at_least_0(-spectators), at_least_0(spectators));
        for term in &self.weak {
            most_negative += term.amount * at_least_0(-term.charge(term.steps));
            most_positive += term.amount * at_least_0(term.charge(0));
        }
        let gamma = self.gamma.of(1);
        let root_kw = self.kw.sqrt();
        let bracket = Bracket {
            low: self.kw / (2.0 * (gamma * most_positive / self.volume + root_kw)),
            high: 2.0 * (gamma * most_negative / self.volume + root_kw),
        };
        halley(bracket, start, TOLERANCE, |a| self.sample(a))
    }

    /// A first guess for [`Self::solve`], so good for one monoprotic system that the solver only
    /// confirms it: the most plentiful system alone, reduced to what a quadratic equation can
    /// say. Near a form with neighbors on both sides those three are all there is; near the
    /// first or last form, those two and one of the ions of water. Without a system, strong acid
    /// or alkali in water.
    pub(super) fn first_guess(&self) -> f64 {
        let strong = self.spectators.value() / self.volume;
        let root_kw = self.kw.sqrt();
        let Some(most) = self
            .weak
            .iter()
            .max_by(|a, b| a.amount.total_cmp(&b.amount))
        else {
            return if strong < 0.0 {
                positive_root(strong, self.kw)
            } else {
                self.kw / positive_root(-strong, self.kw)
            };
        };
        let whole = most.amount / self.volume;
        // Concentration of the protons lost, if none are free; and of those beyond a form's.
        let lost = strong + f64::from(most.top_charge) * whole;
        let beyond = |form: usize| lost - form as f64 * whole;
        let form = (1..=most.steps)
            .rev()
            .find(|&form| beyond(form) > -0.5 * whole)
            .unwrap_or(0);
        if 0 < form && form < most.steps {
            // Relative to the form there is a/K₁ with a proton more and K₂/a with one fewer, and
            // K₂/a − a/K₁ = e (1 + K₂/a + a/K₁).
            let (k1, k2) = (most.conditional[form - 1], most.conditional[form]);
            let e = beyond(form) / whole;
            return positive_root(e * k1 / (1.0 + e), (1.0 - e) / (1.0 + e) * k1 * k2);
        }
        let ka = most.conditional[form.min(most.steps - 1)];
        let base = beyond(form.min(most.steps - 1));
        let acid = whole - base;
        // a = Ka (acid − a)/(base + a), and the same for OH⁻; Kw keeps it right where next to
        // nothing is ionized.
        if ka * acid > root_kw * base {
            positive_root(ka + base, ka * acid + self.kw)
        } else {
            let kb = self.kw / ka;
            self.kw / positive_root(kb + acid, kb * base + self.kw)
        }
    }

    /// Buffer capacity d(alkali)/d(pH) per dm³, mol dm⁻³, at constant γ and volume.
    pub(super) fn capacity(&self, a: f64) -> f64 {
        let (h, oh) = self.free_ions(a);
        let mut sum = h + oh;
        for term in &self.weak {
            let Fractions { alpha, forms } = term.fractions(a);
            let mut variance = 0.0;
            // As a sum over pairs of forms, so that nothing cancels.
            for i in 0..forms {
                for j in 0..i {
                    variance += alpha[i] * alpha[j] * ((i - j) * (i - j)) as f64;
                }
            }
            sum += variance * (term.amount / self.volume);
        }
        core::f64::consts::LN_10 * sum
    }

    /// The proton balance in its two parts, and how they change with ln a.
    fn sample(&self, a: f64) -> Sample {
        let (h, oh) = self.free_ions(a);
        let (h, oh) = (h * self.volume, oh * self.volume);
        let mut sample = Sample {
            positive: h,
            negative: oh,
            rise: h,
            fall: oh,
            bend: h - oh,
        };
        let mut whole = self.spectators;
        for term in &self.weak {
            term.add_to(&mut sample, &mut whole, a);
        }
        let whole = whole.value();
        sample.positive += at_least_0(whole);
        sample.negative += at_least_0(-whole);
        sample
    }
}

/// As `x.max(0.0)`, which is a call of a function in WebAssembly.
fn at_least_0(x: f64) -> f64 {
    if x > 0.0 { x } else { 0.0 }
}

/// The positive root of x² + bx = c for c > 0, without cancellation.
fn positive_root(b: f64, c: f64) -> f64 {
    let root = (b * b + 4.0 * c).sqrt();
    if b > 0.0 {
        2.0 * c / (b + root)
    } else {
        0.5 * (root - b)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chem::mixture::Charge;
    use crate::chem::quantity::{Amount, Volume};
    use crate::chem::systems::TABLE;

    /// Every system of the table at every degree of neutralization, and past both ends: the
    /// guess is within a factor of e, and mostly within the solver's tolerance.
    #[test]
    fn the_first_guess_is_a_good_one() {
        let (mut all, mut at_once) = (0, 0);
        for entry in TABLE {
            let most = f64::from(entry.system.protons());
            for eighth in 0..=(8 * entry.system.protons() + 4) {
                let held = f64::from(eighth) / 8.0 - 0.25;
                let mmol = |value: f64| Amount::from_mmol(value).unwrap();
                let mixture = Mixture::water(Volume::from_cm3(200.0).unwrap())
                    .with_part_protonated(entry.system, held, mmol(20.0), Charge::One)
                    .with_strong_acid(mmol(20.0 * (held - most).max(0.0)), Charge::One)
                    .with_strong_alkali(mmol(20.0 * (-held).max(0.0)), Charge::One);
                let balance = Balance::new(&mixture, Celsius::STANDARD, 14.0);
                let guess = balance.first_guess();
                let apart = libm::log(guess / balance.solve(guess).unwrap()).abs();
                assert!(apart < 1.0, "{} {held}: {apart}", entry.key);
                all += 1;
                at_once += u32::from(apart < TOLERANCE);
            }
        }
        assert!(
            2 * at_once > all,
            "only {at_once} of {all} are within the tolerance"
        );
    }
}
