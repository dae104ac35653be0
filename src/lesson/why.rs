//! What one addition did, as data: who met what, how much of it, and what that did to the
//! pH here and in water. The page's words turn it into sentences.

use crate::chem::buffer::CompleteReaction;
use crate::chem::quantity::{Amount, Ph};
use crate::chem::titration::Reagent;

/// The state of the bench on one side of an addition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Snapshot {
    /// Amounts if every reaction had run to completion.
    pub complete: CompleteReaction,
    /// Solved amount of the acid form.
    pub acid: Amount,
    /// Solved amount of the base form.
    pub base: Amount,
    /// pH of the buffer.
    pub ph: Ph,
    /// pH of the same volume of water after the same additions.
    pub water: Ph,
}

/// One addition with both its sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// What was added.
    pub reagent: Reagent,
    /// How much H⁺ or OH⁻ that was.
    pub amount: Amount,
    /// The bench before it.
    pub before: Snapshot,
    /// The bench after it.
    pub after: Snapshot,
}

/// What became of the H⁺ or OH⁻ that was added. The three amounts add up to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fate {
    /// Met free ions of the other kind, left from an earlier excess, and made water.
    pub met_excess: Amount,
    /// Taken up by the reservoir.
    pub taken: Amount,
    /// Found no partner.
    pub left: Amount,
}

/// How an addition went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// The reservoir took all of it.
    TakenUp,
    /// The reservoir took some and ran out.
    RanOut,
    /// The reservoir was empty before; nothing takes it up.
    NothingLeft,
    /// It met an excess of the other kind first.
    MetExcess,
}

impl Change {
    /// What became of the addition, by stoichiometry.
    pub fn fate(&self) -> Fate {
        let before = &self.before.complete;
        let (excess, partner) = match self.reagent {
            Reagent::Acid => (before.excess_hydroxide, before.base),
            Reagent::Alkali => (before.excess_hydrogen, before.acid),
        };
        let (met_excess, rest) = take(self.amount, excess);
        let (taken, left) = take(rest, partner);
        Fate {
            met_excess,
            taken,
            left,
        }
    }

    /// How it went. Amounts below a millionth of the addition are rounding, not chemistry.
    pub fn outcome(&self) -> Outcome {
        let Fate {
            met_excess,
            taken,
            left,
        } = self.fate();
        let counts = |part: Amount| part > self.amount.share(1e-6);
        match (counts(met_excess), counts(taken), counts(left)) {
            (true, _, _) => Outcome::MetExcess,
            (false, true, true) => Outcome::RanOut,
            (false, false, _) => Outcome::NothingLeft,
            (false, true, false) => Outcome::TakenUp,
        }
    }

    /// pH after minus pH before.
    pub fn step(&self) -> f64 {
        self.after.ph.value() - self.before.ph.value()
    }

    /// The same in water.
    pub fn water_step(&self) -> f64 {
        self.after.water.value() - self.before.water.value()
    }
}

impl Snapshot {
    /// Ratio of base to acid form, where there is acid form to divide by.
    pub fn ratio(&self) -> Option<f64> {
        let ratio = self.base.mol() / self.acid.mol();
        ratio.is_finite().then_some(ratio)
    }
}

/// Splits `amount` into what `store` can hold and the rest.
fn take(amount: Amount, store: Amount) -> (Amount, Amount) {
    match amount.checked_sub(store) {
        Some(rest) => (store, rest),
        None => (amount, Amount::ZERO),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mmol(value: f64) -> Amount {
        Amount::from_mmol(value).unwrap()
    }

    fn snapshot(acid: f64, base: f64, hydrogen: f64, hydroxide: f64) -> Snapshot {
        Snapshot {
            complete: CompleteReaction {
                acid: mmol(acid),
                base: mmol(base),
                excess_hydrogen: mmol(hydrogen),
                excess_hydroxide: mmol(hydroxide),
            },
            acid: mmol(acid),
            base: mmol(base),
            ph: Ph::new(5.0).unwrap(),
            water: Ph::new(7.0).unwrap(),
        }
    }

    fn outcome(reagent: Reagent, amount: f64, before: Snapshot) -> (Outcome, [f64; 3]) {
        let change = Change {
            reagent,
            amount: mmol(amount),
            before,
            after: before,
        };
        let Fate {
            met_excess,
            taken,
            left,
        } = change.fate();
        (
            change.outcome(),
            [met_excess, taken, left].map(|n| libm::round(n.mmol() * 1e9) / 1e9),
        )
    }

    #[test]
    fn every_way_an_addition_can_go() {
        let buffer = snapshot(10.0, 1.0, 0.0, 0.0);
        assert_eq!(
            outcome(Reagent::Acid, 0.5, buffer),
            (Outcome::TakenUp, [0.0, 0.5, 0.0])
        );
        assert_eq!(
            outcome(Reagent::Acid, 1.0, buffer),
            (Outcome::TakenUp, [0.0, 1.0, 0.0])
        );
        assert_eq!(
            outcome(Reagent::Acid, 2.0, buffer),
            (Outcome::RanOut, [0.0, 1.0, 1.0])
        );
        let spent = snapshot(11.0, 0.0, 3.0, 0.0);
        assert_eq!(
            outcome(Reagent::Acid, 2.0, spent),
            (Outcome::NothingLeft, [0.0, 0.0, 2.0])
        );
        assert_eq!(
            outcome(Reagent::Alkali, 2.0, spent),
            (Outcome::MetExcess, [2.0, 0.0, 0.0])
        );
        assert_eq!(
            outcome(Reagent::Alkali, 5.0, spent),
            (Outcome::MetExcess, [3.0, 2.0, 0.0])
        );
        let over = snapshot(0.0, 11.0, 0.0, 3.0);
        assert_eq!(
            outcome(Reagent::Acid, 20.0, over),
            (Outcome::MetExcess, [3.0, 11.0, 6.0])
        );
    }
}
