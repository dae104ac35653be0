//! From a mixture to its pH and species, by the full charge and mass balance.

use super::activity::{ActivityCoefficients, DAVIES_END, DAVIES_LIMIT};
use super::balance::Balance;
pub use super::conditions::{Conditions, Model};
use super::mixture::Mixture;
use super::quantity::{Amount, Celsius, Concentration, Ph, Volume};
use super::root::{Bracket, NoRoot, secant};

/// The densest solution that is solved, mol dm⁻³. Pure liquids hold less (water itself
/// 55 mol dm⁻³), so anything above is a slip of the pen, not a solution.
pub const DENSEST: f64 = 100.0;

/// The smallest volume that is solved, dm³: a few molecules of water (each takes 3e-26).
pub const LEAST_VOLUME: f64 = 1e-25;

/// The largest volume that is solved, dm³: some thousand times all oceans (1.3e21).
pub const MOST_VOLUME: f64 = 1e25;

/// Relative, of the self-consistent ionic strength.
const STRENGTH_TOLERANCE: f64 = 1e-15;

/// Why a mixture has no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SolveError {
    /// The mixture has no volume, or none that a solution can have: outside
    /// [`LEAST_VOLUME`] to [`MOST_VOLUME`].
    NoVolume,
    /// Something in it would be denser than [`DENSEST`]; the value is in mol dm⁻³.
    TooDense(f64),
    /// No self-consistent ionic strength up to
    /// [`DAVIES_END`] mol dm⁻³.
    BeyondDavies,
    /// A pK<sub>w</sub> or A that no water has; see [`Conditions`].
    Conditions,
    /// The root finder gave up. No mixture is known that does this.
    NotConverged,
}

impl From<NoRoot> for SolveError {
    fn from(error: NoRoot) -> Self {
        match error {
            NoRoot::NoSignChange => Self::BeyondDavies,
            NoRoot::NotConverged => Self::NotConverged,
        }
    }
}

/// What to keep in mind with an answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Warning {
    /// The ionic strength (mol dm⁻³) is past what the Davies equation is good for.
    IonicStrength(f64),
    /// A system without heat of ionization was taken at its 25 °C pKa; its place in the
    /// mixture.
    NoHeat(usize),
}

/// One form of one weak system at equilibrium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Species {
    /// Place of its system in [`Mixture::weak`].
    pub system: usize,
    /// Protons it still holds of those it can lose.
    pub protons: u8,
    /// Its charge.
    pub charge: i8,
    /// How much of it there is.
    pub amount: Amount,
    /// Its concentration.
    pub concentration: Concentration,
}

/// A solved mixture.
#[derive(Debug, Clone, PartialEq)]
pub struct Equilibrium {
    ph: Ph,
    volume: Volume,
    hydrogen: Concentration,
    hydroxide: Concentration,
    ionic_strength: f64,
    gamma: ActivityCoefficients,
    species: Vec<Species>,
    warnings: Vec<Warning>,
}

impl Equilibrium {
    /// pH = −log₁₀ a(H⁺).
    pub const fn ph(&self) -> Ph {
        self.ph
    }

    /// Volume of the mixture.
    pub const fn volume(&self) -> Volume {
        self.volume
    }

    /// [H⁺], which stands for all hydrated protons.
    pub const fn hydrogen(&self) -> Concentration {
        self.hydrogen
    }

    /// [OH⁻].
    pub const fn hydroxide(&self) -> Concentration {
        self.hydroxide
    }

    /// Amount of free H⁺.
    pub fn free_hydrogen(&self) -> Amount {
        self.hydrogen * self.volume
    }

    /// Amount of free OH⁻.
    pub fn free_hydroxide(&self) -> Amount {
        self.hydroxide * self.volume
    }

    /// Every form of every weak system, system by system, fully protonated first.
    pub fn species(&self) -> &[Species] {
        &self.species
    }

    /// The form of the system at `system` in the mixture that holds `protons` protons.
    pub fn form(&self, system: usize, protons: u8) -> Option<&Species> {
        self.species
            .iter()
            .find(|s| s.system == system && s.protons == protons)
    }

    /// Ionic strength over all ions, mol dm⁻³.
    pub const fn ionic_strength(&self) -> f64 {
        self.ionic_strength
    }

    /// Activity coefficients of ions by charge.
    pub const fn activity_coefficients(&self) -> &ActivityCoefficients {
        &self.gamma
    }

    /// What to keep in mind with this answer.
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }
}

/// Solves the charge and mass balance of a well-mixed solution.
///
/// # Accuracy
/// Within 1e-9 pH of the exact root of the chosen model. How far a model is from
/// experiment is a separate matter: see [`Model`] and `tests/data/README.md`.
///
/// # Errors
/// [`SolveError`]; never a guess. Under [`Model::Ideal`] every mixture within the stated
/// volumes and no denser than [`DENSEST`] has an answer.
///
/// # Example
/// 0.100 mol dm⁻³ ethanoic acid, whose pH is 2.88:
/// ```
/// use evenkeel::chem::{equilibrium::{Conditions, solve}, mixture::{Charge, Mixture},
///     quantity::{Amount, Volume}, systems};
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let acid = systems::find("ethanoic").ok_or("not in the table")?.system;
/// let mixture = Mixture::water(Volume::from_cm3(50.0)?)
///     .with_weak(acid, 1, Amount::from_mmol(5.0)?, Charge::One);
/// let solved = solve(&mixture, &Conditions::classroom()).map_err(|e| format!("{e:?}"))?;
/// assert!((solved.ph().value() - 2.88).abs() < 0.005);
/// # Ok(())
/// # }
/// ```
pub fn solve(mixture: &Mixture, conditions: &Conditions) -> Result<Equilibrium, SolveError> {
    let mut balance = Balance::new(mixture, conditions.temperature, conditions.pkw);
    let a = settle(&mut balance, conditions)?;
    let volume = mixture.volume();
    let (hydrogen, hydroxide) = balance.free_ions(a);
    let concentration = |value: f64| {
        Concentration::from_molar(value)
            .expect("fractions of a finite total are finite and not negative")
    };
    let mut species = Vec::with_capacity(2 * mixture.weak().len());
    for (index, (amount, fractions)) in balance.weak_fractions(a).enumerate() {
        let system = mixture.weak()[index].system;
        for (protons, alpha) in (0..=system.protons()).rev().zip(fractions.alpha) {
            let amount = Amount::from_mol(amount * alpha).expect("a share of an amount");
            species.push(Species {
                system: index,
                protons,
                charge: system.charge(protons),
                amount,
                concentration: concentration(amount.mol() / volume.dm3()),
            });
        }
    }
    let ionic_strength = balance.ionic_strength(a);
    Ok(Equilibrium {
        ph: ph_of(a),
        volume,
        hydrogen: concentration(hydrogen),
        hydroxide: concentration(hydroxide),
        ionic_strength,
        gamma: balance.gamma(),
        species,
        warnings: warnings(mixture, conditions, ionic_strength),
    })
}

/// The pH alone, without the species: what a curve needs hundreds of.
///
/// # Errors
/// As [`solve`].
pub fn solve_ph(mixture: &Mixture, conditions: &Conditions) -> Result<Ph, SolveError> {
    let mut balance = Balance::new(mixture, conditions.temperature, conditions.pkw);
    settle(&mut balance, conditions).map(ph_of)
}

pub(super) fn ph_of(a: f64) -> Ph {
    Ph::new(-libm::log(a) / core::f64::consts::LN_10)
        .expect("dense solutions are refused, so pH is small")
}

/// Finds a(H⁺) and leaves `balance` at the activity coefficients that belong to it.
pub(super) fn settle(balance: &mut Balance, conditions: &Conditions) -> Result<f64, SolveError> {
    if !conditions.are_usable() {
        return Err(SolveError::Conditions);
    }
    if !(LEAST_VOLUME..=MOST_VOLUME).contains(&balance.volume()) {
        return Err(SolveError::NoVolume);
    }
    let densest = balance.densest();
    if densest > DENSEST {
        return Err(SolveError::TooDense(densest.min(f64::MAX)));
    }
    let mut a = balance.first_guess();
    if conditions.model == Model::Ideal {
        return Ok(balance.solve(a)?);
    }
    // Ionic strength decides γ, γ decides the ions, the ions decide the ionic strength:
    // the root in I of (I that follows from I) − I, which is ≥ 0 at I = 0.
    let gamma = |strength| ActivityCoefficients::davies(strength, conditions.debye_huckel_a);
    let guess = balance.ionic_strength(a).min(DAVIES_END);
    let mut gap_at = |strength: f64| -> Result<f64, SolveError> {
        balance.set_gamma(gamma(strength));
        a = balance.solve(a)?;
        Ok(balance.ionic_strength(a) - strength)
    };
    let gap = gap_at(guess)?;
    // Where strong ions are nearly all there is, the first guess is already the answer, and
    // a second one would be the same number.
    let strength = if gap.abs() <= 4.0 * f64::EPSILON * guess {
        guess
    } else {
        let bracket = Bracket {
            low: 0.0,
            high: DAVIES_END,
        };
        let second = (guess + gap).min(DAVIES_END);
        secant(bracket, (guess, gap), second, STRENGTH_TOLERANCE, gap_at)?
    };
    balance.set_gamma(gamma(strength));
    Ok(balance.solve(a)?)
}

fn warnings(mixture: &Mixture, conditions: &Conditions, ionic_strength: f64) -> Vec<Warning> {
    let mut warnings = Vec::new();
    if conditions.model == Model::Davies && ionic_strength > DAVIES_LIMIT {
        warnings.push(Warning::IonicStrength(ionic_strength));
    }
    if conditions.temperature != Celsius::STANDARD {
        let without = |(i, part): (usize, &super::mixture::WeakPart)| {
            part.system
                .steps()
                .any(|s| s.heat.is_none())
                .then_some(Warning::NoHeat(i))
        };
        warnings.extend(mixture.weak().iter().enumerate().filter_map(without));
    }
    warnings
}
