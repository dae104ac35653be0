//! What was put together: amounts of weak systems, spectator ions and a volume.
//!
//! A mixture is electrically neutral by construction: every charged form enters with its
//! counter-ions, every H⁺ with its anion, every OH⁻ with its cation. So only totals are
//! stored, and the solver finds which form each system takes.

use super::exact_sum::ExactSum;
use super::quantity::{Amount, Volume};
use super::systems::AcidSystem;

/// Largest charge, of either sign, that a spectator ion can carry.
pub const MAX_SPECTATOR_CHARGE: u8 = 3;

const SPECTATOR_KINDS: usize = 2 * MAX_SPECTATOR_CHARGE as usize + 1;

/// The size of an ion's charge: 1 for Na⁺ and Cl⁻, 2 for Ca²⁺ and SO₄²⁻, 3 at most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Charge {
    /// One elementary charge.
    One,
    /// Two.
    Two,
    /// Three.
    Three,
}

impl Charge {
    const fn size(self) -> u8 {
        match self {
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
        }
    }
}

/// One weak system in a mixture, all its forms counted together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeakPart {
    /// Which system.
    pub system: AcidSystem,
    /// Total amount over all its forms.
    pub total: Amount,
    /// What rounding left out of `total`, mol.
    remainder: f64,
}

impl WeakPart {
    /// What a plain sum of the amounts entered would have lost to rounding, mol.
    pub(super) const fn remainder(&self) -> f64 {
        self.remainder
    }
}

/// Amounts in a volume. Volumes add; mixing is ideal in that respect.
///
/// # Example
/// A buffer by mixing two solutions, and some strong alkali into it:
/// ```
/// use evenkeel::chem::{mixture::{Charge, Mixture}, quantity::{Amount, Volume}, systems};
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let acid = systems::find("propanoic").ok_or("not in the table")?.system;
/// let cm3 = |value| Volume::from_cm3(value);
/// let weak = Mixture::water(cm3(100.0)?)
///     .with_weak(acid, 1, Amount::from_mmol(10.0)?, Charge::One);
/// let salt = Mixture::water(cm3(100.0)?)
///     .with_weak(acid, 0, Amount::from_mmol(10.0)?, Charge::One);
/// let buffer = weak.mixed_with(&salt)
///     .with_strong_alkali(Amount::from_mmol(1.0)?, Charge::One);
/// assert_eq!(buffer.weak().len(), 1);
/// assert_eq!(buffer.volume(), cm3(200.0)?);
/// // Sodium from the salt and from the alkali.
/// assert!((buffer.spectator_charge() - 0.011).abs() < 1e-15);
/// # Ok(())
/// # }
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mixture {
    volume: Volume,
    weak: Vec<WeakPart>,
    /// Mol of spectator ions, by charge from −3 to +3 (the place for 0 stays empty).
    spectators: [Amount; SPECTATOR_KINDS],
    /// Their net charge in mol, summed as things are added rather than from the amounts
    /// above, which are rounded each by itself.
    spectator_charge: ExactSum,
}

impl Mixture {
    /// Pure water.
    pub fn water(volume: Volume) -> Self {
        Self {
            volume,
            ..Self::default()
        }
    }

    /// Adds `amount` of the form of `system` that holds `protons` protons, with as many
    /// counter-ions of size `counter` as keep it neutral: the acid itself, its salt, or a
    /// salt half-way. `protons` beyond what the system can hold counts as all of them.
    pub fn with_weak(
        self,
        system: AcidSystem,
        protons: u8,
        amount: Amount,
        counter: Charge,
    ) -> Self {
        self.with_part_protonated(system, f64::from(protons), amount, counter)
    }

    /// Adds a system that holds `protons` protons per particle on average, for instance
    /// 0.4 for an acid 60 % neutralized. The value is clamped to what the system can hold;
    /// NaN counts as fully protonated.
    pub fn with_part_protonated(
        mut self,
        system: AcidSystem,
        protons: f64,
        amount: Amount,
        counter: Charge,
    ) -> Self {
        let most = system.protons();
        let protons = if protons.is_nan() {
            f64::from(most)
        } else {
            protons.clamp(0.0, f64::from(most))
        };
        // Each whole form brings counter-ions of its own sign, so a part-protonated entry is
        // split between the two forms on either side of it.
        let below = (0..most)
            .rev()
            .find(|&p| f64::from(p) <= protons)
            .unwrap_or(0);
        let upper_share = protons - f64::from(below);
        self.add_counter_ions(system.charge(below + 1), amount.share(upper_share), counter);
        self.add_counter_ions(
            system.charge(below),
            amount.share(1.0 - upper_share),
            counter,
        );
        self.spectator_charge.add_product(amount.mol(), -protons);
        self.spectator_charge
            .add_product(amount.mol(), -f64::from(system.charge(0)));
        self.add_weak(WeakPart {
            system,
            total: amount,
            remainder: 0.0,
        });
        self
    }

    /// Adds strong acid by its amount of H⁺, fully ionized, with anions of the given charge:
    /// 1 mmol of sulfuric acid taken as fully ionized is 2 mmol of H⁺ with `Charge::Two`.
    pub fn with_strong_acid(mut self, hydrogen: Amount, anion: Charge) -> Self {
        self.spectator_charge.add(-hydrogen.mol());
        self.add_spectators(-(anion.size() as i8), part(hydrogen, anion));
        self
    }

    /// Adds strong alkali by its amount of OH⁻, with cations of the given charge.
    pub fn with_strong_alkali(mut self, hydroxide: Amount, cation: Charge) -> Self {
        self.spectator_charge.add(hydroxide.mol());
        self.add_spectators(cation.size() as i8, part(hydroxide, cation));
        self
    }

    /// Adds a salt of strong ions by the amount of charge on either side: 1 mmol of CaCl₂
    /// is 2 mmol of charge with cations `Two`, anions `One`.
    pub fn with_neutral_salt(self, charge: Amount, cation: Charge, anion: Charge) -> Self {
        self.with_strong_alkali(charge, cation)
            .with_strong_acid(charge, anion)
    }

    /// Adds water.
    pub fn with_water(mut self, volume: Volume) -> Self {
        self.volume = self.volume + volume;
        self
    }

    /// Both mixtures in one flask.
    pub fn mixed_with(mut self, other: &Self) -> Self {
        self.volume = self.volume + other.volume;
        for part in &other.weak {
            self.add_weak(*part);
        }
        for (own, more) in self.spectators.iter_mut().zip(other.spectators) {
            *own = *own + more;
        }
        self.spectator_charge.add_sum(&other.spectator_charge);
        self
    }

    /// The weak systems, in the order they came.
    pub fn weak(&self) -> &[WeakPart] {
        &self.weak
    }

    /// The volume.
    pub const fn volume(&self) -> Volume {
        self.volume
    }

    /// Spectator ions present: charge (never 0) and amount.
    pub fn spectators(&self) -> impl Iterator<Item = (i8, Amount)> + '_ {
        let middle = MAX_SPECTATOR_CHARGE as i8;
        (-middle..)
            .zip(self.spectators)
            .filter(|(charge, amount)| *charge != 0 && *amount > Amount::ZERO)
    }

    /// Net charge of all spectator ions, mol. It is the negative of what the weak forms,
    /// H⁺ and OH⁻ must carry together, and the one number through which strong acid and
    /// alkali act on pH.
    pub fn spectator_charge(&self) -> f64 {
        self.spectator_charge.value()
    }

    pub(super) const fn exact_spectator_charge(&self) -> ExactSum {
        self.spectator_charge
    }

    fn add_weak(&mut self, part: WeakPart) {
        match self.weak.iter_mut().find(|own| own.system == part.system) {
            Some(own) => {
                let mut sum = ExactSum::default();
                [
                    own.total.mol(),
                    part.total.mol(),
                    own.remainder,
                    part.remainder,
                ]
                .into_iter()
                .for_each(|term| sum.add(term));
                own.total = own.total + part.total;
                own.remainder = sum.minus(own.total.mol());
            }
            None => self.weak.push(part),
        }
    }

    /// Ions that balance `amount` of a form of charge `form`.
    fn add_counter_ions(&mut self, form: i8, amount: Amount, counter: Charge) {
        let charge = amount.times(u32::from(form.unsigned_abs()));
        let sign = -form.signum();
        self.add_spectators(sign * counter.size() as i8, part(charge, counter));
    }

    fn add_spectators(&mut self, charge: i8, amount: Amount) {
        if charge != 0 {
            let place = usize::from((charge + MAX_SPECTATOR_CHARGE as i8).unsigned_abs());
            self.spectators[place] = self.spectators[place] + amount;
        }
    }
}

/// The amount of ions of size `charge` that carry `total` elementary charges.
fn part(total: Amount, charge: Charge) -> Amount {
    total.share(1.0 / f64::from(charge.size()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chem::quantity::Pka;

    fn mmol(value: f64) -> Amount {
        Amount::from_mmol(value).unwrap()
    }

    fn acid() -> AcidSystem {
        AcidSystem::acid(Pka::new(4.874).unwrap())
    }

    #[test]
    fn the_same_system_is_counted_once() {
        let volume = Volume::from_cm3(100.0).unwrap();
        let one = Mixture::water(volume).with_weak(acid(), 1, mmol(5.0), Charge::One);
        let two = Mixture::water(volume).with_weak(acid(), 0, mmol(3.0), Charge::One);
        let both = one.mixed_with(&two);
        assert_eq!(both.weak().len(), 1);
        assert_eq!(both.weak()[0].total, mmol(5.0) + mmol(3.0));
        assert_eq!(both.volume(), Volume::from_cm3(200.0).unwrap());
        assert_eq!(both.spectators().collect::<Vec<_>>(), [(1, mmol(3.0))]);
    }

    #[test]
    fn counter_ions_balance_every_way_of_entering() {
        let base = Mixture::water(Volume::from_cm3(1.0).unwrap());
        let half = base
            .clone()
            .with_part_protonated(acid(), 0.25, mmol(4.0), Charge::One);
        assert!((half.spectator_charge() - 0.003).abs() < 1e-18);
        let bisalt = base.clone().with_weak(acid(), 0, mmol(4.0), Charge::Two);
        assert_eq!(bisalt.spectators().collect::<Vec<_>>(), [(2, mmol(2.0))]);
        let salt = base
            .clone()
            .with_neutral_salt(mmol(4.0), Charge::Two, Charge::One);
        assert_eq!(salt.spectator_charge(), 0.0);
        let wild = base.with_part_protonated(acid(), f64::NAN, mmol(1.0), Charge::One);
        assert_eq!(wild.spectator_charge(), 0.0);
    }
}
