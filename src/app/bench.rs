//! A recipe and what was added to it: the smallest thing from which the whole bench follows.

use crate::app::recipe::{Recipe, Setup};
use crate::chem::power::{decimal, whole};
use crate::chem::quantity::Amount;
use crate::chem::titration::Reagent;
use crate::lesson::sig_fig::AmountScale;

/// The three sizes of an addition, in steps of the smallest.
pub const SIZES: [u32; 3] = [1, 5, 20];

/// The most that a flask takes of acid and alkali together, in steps: about ten times what
/// the pair holds.
pub const FLASK: u32 = 2000;

/// One press of a button, or one long pour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Addition {
    /// What was added.
    pub reagent: Reagent,
    /// How many steps of the smallest addition.
    pub steps: u32,
}

/// The bench. Additions are counted in whole steps, so that ten times 0.1 is 1.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bench {
    /// The recipe; always one that can be read.
    pub recipe: Recipe,
    /// Steps of acid added since the start.
    pub acid: u32,
    /// Steps of alkali added since the start.
    pub alkali: u32,
    /// The last addition; its "before" is the bench without it.
    pub last: Option<Addition>,
    /// Particle-sized reactions so far: steps of H⁺ or OH⁻ that met a partner.
    pub reactions: u32,
}

impl Bench {
    /// A bench with nothing added yet.
    pub fn new(recipe: Recipe) -> Self {
        Self {
            recipe,
            ..Self::default()
        }
    }

    /// Whether anything was added since the start.
    pub const fn has_additions(&self) -> bool {
        self.acid > 0 || self.alkali > 0
    }

    /// Steps of each reagent before the last addition: acid, alkali.
    pub fn before_last(&self) -> (u32, u32) {
        match self.last {
            Some(Addition {
                reagent: Reagent::Acid,
                steps,
            }) => (self.acid.saturating_sub(steps), self.alkali),
            Some(Addition {
                reagent: Reagent::Alkali,
                steps,
            }) => (self.acid, self.alkali.saturating_sub(steps)),
            None => (self.acid, self.alkali),
        }
    }

    /// Whether the flask still takes `steps` more.
    pub fn has_room(&self, steps: u32) -> bool {
        self.acid.saturating_add(self.alkali).saturating_add(steps) <= FLASK
    }
}

/// The smallest addition that suits a setup: a 1–2–5 amount of which the pair's total
/// makes about 80 to 200.
pub fn step_of(setup: &Setup) -> AmountScale {
    let total: Amount = setup.mixture.weak().iter().map(|part| part.total).sum();
    let ideal = total.mmol() / 200.0;
    // The nudge keeps 20/200 = 0.1 from being taken for a little more than 0.1.
    let ideal = ideal * (1.0 - 1e-9);
    let decade = i32::try_from(whole(libm::floor(libm::log10(ideal)))).unwrap_or(0);
    // As a decimal, so that the step is the very number a person would write.
    let step = [1, 2, 5, 10].map(|m| decimal(m, decade));
    let step = step.into_iter().find(|s| *s >= ideal).unwrap_or(ideal);
    AmountScale {
        step: Amount::from_mmol(step).expect("a total within the recipe's ranges"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::recipe::Field;

    fn step(concentration: &str) -> f64 {
        let mut recipe = Recipe::default();
        recipe.set_text(Field::AcidConcentration, concentration.to_owned());
        recipe.set_text(Field::BaseConcentration, concentration.to_owned());
        step_of(&recipe.read().unwrap()).step.mmol()
    }

    #[test]
    fn steps_suit_the_buffer() {
        assert_eq!(step("0.100"), 0.1);
        assert_eq!(step("0.101"), 0.2);
        assert_eq!(step("0.25"), 0.5);
        assert_eq!(step("0.25001"), 0.5);
        assert_eq!(step("1"), 1.0);
        assert_eq!(step("0.00001"), 0.00001);
        assert_eq!(step("10"), 10.0);
    }
}
