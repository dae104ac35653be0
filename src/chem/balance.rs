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
//! **Scale.** The root is sought in u = ln a, of F(u) = ln(P/N), where P collects the
//! positive and N the negative terms of that proton balance. F is close to straight lines
//! over the fourteen decades that a spans, which Newton's method likes.

use super::activity::ActivityCoefficients;
use super::exact_sum::ExactSum;
use super::mixture::Mixture;
use super::power::ten_to;
use super::quantity::Celsius;
use super::root::{Bracket, NoRoot, Sample, newton};
use super::weak_term::{Fractions, WeakTerm};

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

    /// ln a(H⁺) at which the charges balance. `start` is a first guess of it.
    ///
    /// The bracket is proved by its ends: with E the largest negative charge that all
    /// forms and spectators together can carry, at a = γE/V + √Kw the H⁺ alone outweighs E
    /// and the OH⁻; likewise for the other end with the largest positive charge.
    pub(super) fn solve(&self, start: f64) -> Result<f64, NoRoot> {
        let spectators = self.spectators.value();
        let mut most_negative = (-spectators).max(0.0);
        let mut most_positive = spectators.max(0.0);
        for term in &self.weak {
            most_negative += term.amount * (-term.charge(term.steps)).max(0.0);
            most_positive += term.amount * term.charge(0).max(0.0);
        }
        let gamma = self.gamma.of(1);
        let root_kw = libm::sqrt(self.kw);
        let highest = 2.0 * (gamma * most_negative / self.volume + root_kw);
        let lowest = self.kw / (2.0 * (gamma * most_positive / self.volume + root_kw));
        let bracket = Bracket {
            low: libm::log(lowest),
            high: libm::log(highest),
        };
        newton(bracket, start, 1e-9, |u| self.sample(libm::exp(u)))
    }

    /// A first guess for [`Self::solve`]: the short form of the most plentiful system, as
    /// if its protons were all that the spectators leave to it; neutral water without one.
    pub(super) fn first_guess(&self) -> f64 {
        let neutral = 0.5 * libm::log(self.kw);
        let Some(most) = self
            .weak
            .iter()
            .max_by(|a, b| a.amount.total_cmp(&b.amount))
        else {
            return neutral;
        };
        let lost = self.spectators.value() / most.amount + f64::from(most.top_charge);
        if !(0.0..most.steps as f64).contains(&lost) {
            return neutral;
        }
        let step = (0..most.steps)
            .rev()
            .find(|&j| j as f64 <= lost)
            .unwrap_or(0);
        // An all-acid or all-base start is no better known than to a factor of a thousand.
        let base = (lost - step as f64).clamp(1e-3, 1.0 - 1e-3);
        libm::log(most.conditional[step] * (1.0 - base) / base)
    }

    /// Buffer capacity d(alkali)/d(pH) per dm³, mol dm⁻³, at constant γ and volume.
    pub(super) fn capacity(&self, a: f64) -> f64 {
        let (h, oh) = self.free_ions(a);
        let mut sum = h + oh;
        for term in &self.weak {
            let Fractions { alpha, forms, .. } = term.fractions(a);
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

    /// ln(P/N) and its slope in ln a.
    fn sample(&self, a: f64) -> Sample {
        let (h, oh) = self.free_ions(a);
        let (h, oh) = (h * self.volume, oh * self.volume);
        let (mut positive, mut negative) = (h, oh);
        let (mut rise, mut fall) = (h, oh);
        let mut whole = self.spectators;
        for term in &self.weak {
            let Fractions {
                alpha,
                forms,
                dominant,
            } = term.fractions(a);
            term.add_charge(dominant, &mut whole);
            // Mean protons lost, counted from the dominant form, for the slopes.
            let mean: f64 = (0..forms)
                .map(|j| (j as f64 - dominant as f64) * alpha[j])
                .sum();
            for (j, share) in alpha.iter().enumerate().take(forms) {
                let apart = dominant as f64 - j as f64;
                let part = term.amount * share * apart.abs();
                // dαⱼ/d ln a = αⱼ (protons held − mean protons held).
                let slope = part * (apart + mean);
                if j < dominant {
                    positive += part;
                    rise += slope;
                } else {
                    negative += part;
                    fall -= slope;
                }
            }
        }
        let whole = whole.value();
        positive += whole.max(0.0);
        negative += (-whole).max(0.0);
        let difference = positive - negative;
        let value = if difference.abs() < 0.5 * negative {
            libm::log1p(difference / negative)
        } else {
            libm::log(positive / negative)
        };
        Sample {
            value,
            slope: rise / positive + fall / negative,
        }
    }
}
