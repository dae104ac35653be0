//! One conjugate pair: what is left in its reservoirs, and how hard it holds.

use core::ops::RangeInclusive;

use super::balance::Balance;
use super::equilibrium::{Conditions, Equilibrium, Model, SolveError, settle, solve_ph};
use super::mixture::{Charge, Mixture};
use super::quantity::{Amount, Concentration, Ph, Pka, QuantityError, SignedAmount};
use super::systems::{AcidSystem, Step};

/// A conjugate pair: two neighboring forms of one system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    system: AcidSystem,
    acid_protons: u8,
    step: Step,
}

impl Pair {
    /// The pair whose acid form holds `acid_protons` protons; `None` if the system has no
    /// such form or it has no proton to lose.
    pub fn new(system: AcidSystem, acid_protons: u8) -> Option<Self> {
        let step = *system.step_from(acid_protons)?;
        Some(Self {
            system,
            acid_protons,
            step,
        })
    }

    /// The system it belongs to.
    pub const fn system(&self) -> AcidSystem {
        self.system
    }

    /// Protons held by the acid form.
    pub const fn acid_protons(&self) -> u8 {
        self.acid_protons
    }

    /// Protons held by the base form.
    pub const fn base_protons(&self) -> u8 {
        self.acid_protons - 1
    }

    /// Charge of the acid form.
    pub fn acid_charge(&self) -> i8 {
        self.system.charge(self.acid_protons)
    }

    /// Charge of the base form.
    pub fn base_charge(&self) -> i8 {
        self.system.charge(self.base_protons())
    }

    /// pKa of the acid form at 25 °C and zero ionic strength.
    pub const fn pka(&self) -> Pka {
        self.step.pka
    }

    /// pKa at the temperature of `conditions`, zero ionic strength.
    pub fn pka_at(&self, conditions: &Conditions) -> f64 {
        self.step.pka_at(conditions.temperature)
    }

    /// Where the pair holds pH usefully: pKa ± 1 (common practice, no source). At the
    /// edges one form outnumbers the other ten to one and the capacity has fallen to a
    /// third.
    ///
    /// # Errors
    /// [`QuantityError`] if the pKa is so extreme that an edge is no pH.
    pub fn useful_range(
        &self,
        conditions: &Conditions,
    ) -> Result<RangeInclusive<Ph>, QuantityError> {
        let pka = self.pka_at(conditions);
        Ok(Ph::new(pka - 1.0)?..=Ph::new(pka + 1.0)?)
    }

    /// What is left to take up H⁺ and OH⁻ in a solved mixture.
    pub fn reserves(&self, mixture: &Mixture, solved: &Equilibrium) -> Reserves {
        let place = mixture
            .weak()
            .iter()
            .position(|part| part.system == self.system);
        let amount = |protons| {
            place
                .and_then(|p| solved.form(p, protons))
                .map_or(Amount::ZERO, |s| s.amount)
        };
        Reserves {
            acid: amount(self.acid_protons),
            base: amount(self.base_protons()),
        }
    }

    /// The reservoirs by stoichiometry alone, as if every reaction ran to completion: the
    /// "end" row of an amounts table. `None` if the mixture does not hold the system.
    pub fn complete_reaction(&self, mixture: &Mixture) -> Option<CompleteReaction> {
        let landmarks = self.landmarks(mixture)?;
        let (to_acid, to_base) = (landmarks.all_acid.mol(), landmarks.all_base.mol());
        let total = to_base - to_acid;
        let amount = |value: f64| Amount::from_mol(value.clamp(0.0, total)).ok();
        let excess = |value: f64| Amount::from_mol(value.max(0.0)).ok();
        Some(CompleteReaction {
            acid: amount(to_base)?,
            base: amount(-to_acid)?,
            excess_hydrogen: excess(to_acid)?,
            excess_hydroxide: excess(-to_base)?,
        })
    }

    /// Where, counted from `mixture`, the pair is all acid form, half and half, and all base
    /// form by stoichiometry; `None` if the mixture does not hold the system.
    pub fn landmarks(&self, mixture: &Mixture) -> Option<Landmarks> {
        let total = mixture
            .weak()
            .iter()
            .find(|part| part.system == self.system)?
            .total
            .mol();
        let others: f64 = mixture
            .weak()
            .iter()
            .filter(|part| part.system != self.system)
            .map(|part| part.total.mol() * f64::from(part.system.charge(part.system.protons())))
            .sum();
        // Alkali adds positive spectators; all of one form needs as many as balance it.
        let to_reach =
            |charge: i8| -f64::from(charge) * total - others - mixture.spectator_charge();
        let all_acid = to_reach(self.acid_charge());
        let all_base = to_reach(self.base_charge());
        let signed = |value| SignedAmount::from_mol(value).ok();
        Some(Landmarks {
            all_acid: signed(all_acid)?,
            half: signed(0.5 * (all_acid + all_base))?,
            all_base: signed(all_base)?,
        })
    }
}

/// The two reservoirs of a pair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reserves {
    /// Acid form: what can still meet OH⁻.
    pub acid: Amount,
    /// Base form: what can still meet H⁺.
    pub base: Amount,
}

/// A pair's amounts if every reaction ran to completion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompleteReaction {
    /// Acid form.
    pub acid: Amount,
    /// Base form.
    pub base: Amount,
    /// H⁺ for which no base form of the pair is left.
    pub excess_hydrogen: Amount,
    /// OH⁻ for which no acid form of the pair is left.
    pub excess_hydroxide: Amount,
}

/// Points of an addition, as signed amounts of strong reagent from the mixture in hand.
/// Alkali counts positive; a point already passed has the other sign.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landmarks {
    /// Equivalence on the acid side: all of the pair is in its acid form.
    pub all_acid: SignedAmount,
    /// Half-neutralization: equal amounts of both forms.
    pub half: SignedAmount,
    /// Equivalence on the alkaline side: all of the pair is in its base form.
    pub all_base: SignedAmount,
}

/// Buffer capacity β = dn(OH⁻)/(V·dpH): the amount of strong alkali (or acid) for each dm³
/// that moves the pH by one unit, taken at the present pH and volume; in mol dm⁻³.
///
/// Ideal: the exact derivative. Davies: the slope between two small additions, so that
/// activity coefficients move as they would; good to six figures up to an ionic strength of
/// [`DAVIES_LIMIT`](super::activity::DAVIES_LIMIT).
///
/// # Errors
/// As [`solve`](super::equilibrium::solve).
///
/// # Example
/// A quarter of the pair's concentration times ln 10 at pH = pKa, where it is largest:
/// ```
/// use evenkeel::chem::{buffer::capacity, equilibrium::Conditions,
///     mixture::{Charge, Mixture}, quantity::{Amount, Pka, Volume}, systems::AcidSystem};
/// # fn main() -> Result<(), evenkeel::chem::quantity::QuantityError> {
/// let acid = AcidSystem::acid(Pka::new(7.0)?);
/// let half = Mixture::water(Volume::from_dm3(1.0)?)
///     .with_part_protonated(acid, 0.5, Amount::from_mol(0.1)?, Charge::One);
/// let beta = capacity(&half, &Conditions::classroom()).expect("a plain mixture");
/// assert!((beta.molar() - 0.1 / 4.0 * std::f64::consts::LN_10).abs() < 1e-6);
/// # Ok(())
/// # }
/// ```
pub fn capacity(mixture: &Mixture, conditions: &Conditions) -> Result<Concentration, SolveError> {
    let mut balance = Balance::new(mixture, conditions.temperature, conditions.pkw);
    let a = settle(&mut balance, conditions)?;
    let first = balance.capacity(a);
    let value = match conditions.model {
        Model::Ideal => first,
        Model::Davies => {
            // Moves the pH by about 1e-6 to either side. The slopes to both sides differ, since
            // either reagent adds to the ionic strength, so the error is of the order of the
            // step; a pH is good to 1e-14, so the step may be this small.
            let volume = mixture.volume().dm3();
            let part =
                Amount::from_mol(1e-6 * first * volume).map_err(|_| SolveError::NotConverged)?;
            let up = mixture.clone().with_strong_alkali(part, Charge::One);
            let down = mixture.clone().with_strong_acid(part, Charge::One);
            let rise = solve_ph(&up, conditions)?.value() - solve_ph(&down, conditions)?.value();
            2.0 * part.mol() / (volume * rise)
        }
    };
    Concentration::from_molar(value).map_err(|_| SolveError::NotConverged)
}
