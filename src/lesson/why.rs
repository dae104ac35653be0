//! What one addition did, as data: which bases took up the H⁺, or which acids gave it to the
//! OH⁻, and what that did to the pH here and in water. The page's words turn it into
//! sentences.
//!
//! Everything follows from solved amounts. By stoichiometry alone a pair would take all of
//! an addition until it is used up, which is wrong for a pair with another step close by and
//! for one whose free H⁺ or OH⁻ is not scarce.

use crate::chem::quantity::{Amount, Ph};
use crate::chem::titration::Reagent;

/// Below this share of a particle a form has run out: it would not round to one.
const NONE: f64 = 0.5;

/// Whether a form has run out.
pub fn has_run_out(form: Amount, particle: Amount) -> bool {
    form < particle.share(NONE)
}

/// Below this share of the pair a form is nearly used up.
const LOW: f64 = 0.05;

/// The H⁺ that a weak system holds, by the step at which it would give it up.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Held {
    /// At the pair's own step.
    pub pair: Amount,
    /// At steps of lower pKa: the acid form's own extra H⁺.
    pub above: Amount,
    /// At steps of higher pKa: what the base form still holds.
    pub below: Amount,
}

/// The state of the bench on one side of an addition: solved amounts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Snapshot {
    /// Acid form.
    pub acid: Amount,
    /// Base form.
    pub base: Amount,
    /// H⁺ held by the forms of the system.
    pub held: Held,
    /// Free H⁺.
    pub hydrogen: Amount,
    /// Free OH⁻.
    pub hydroxide: Amount,
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
    /// The smallest amount that is drawn: one particle at the finest.
    pub particle: Amount,
    /// The bench before it.
    pub before: Snapshot,
    /// The bench after it.
    pub after: Snapshot,
}

/// What became of the H⁺ or OH⁻ that was added, in shares of it. They add up to 1; one can
/// be below 0 where the water of the addition shifts the balance more than its H⁺ does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fate {
    /// H⁺ taken up by the base form, or taken by OH⁻ from the acid form.
    pub pair: f64,
    /// The same at steps of lower pKa.
    pub above: f64,
    /// The same at steps of higher pKa.
    pub below: f64,
    /// Met free ions of the other kind and made water.
    pub water: f64,
    /// Stays free.
    pub free: f64,
}

/// How an addition went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// The form that reacts with it is still there.
    TakenUp,
    /// Less than a twentieth of the pair is still in that form.
    NearlyOut,
    /// Less than half a particle of that form is left.
    RanOut,
    /// Less than half a particle of it was there before.
    NothingLeft,
    /// Half of the addition or more met free ions of the other kind.
    MetExcess,
}

impl Change {
    /// What became of the addition.
    pub fn fate(&self) -> Fate {
        let (before, after) = (&self.before, &self.after);
        // More of it, in shares of the addition.
        let more = |part: fn(&Snapshot) -> Amount| {
            (part(after).mol() - part(before).mol()) / self.amount.mol()
        };
        let (hydrogen, hydroxide) = (more(|s| s.hydrogen), more(|s| s.hydroxide));
        let (sign, water, free) = match self.reagent {
            Reagent::Acid => (1.0, -hydroxide, hydrogen),
            Reagent::Alkali => (-1.0, -hydrogen, hydroxide),
        };
        Fate {
            pair: sign * more(|s| s.held.pair),
            above: sign * more(|s| s.held.above),
            below: sign * more(|s| s.held.below),
            water,
            free,
        }
    }

    /// How it went.
    pub fn outcome(&self) -> Outcome {
        let [before, after] = [&self.before, &self.after].map(|side| self.partner(side));
        let none = |form| has_run_out(form, self.particle);
        if self.fate().water >= 0.5 {
            Outcome::MetExcess
        } else if none(before) {
            Outcome::NothingLeft
        } else if none(after) {
            Outcome::RanOut
        } else if after < (self.after.acid + self.after.base).share(LOW) {
            Outcome::NearlyOut
        } else {
            Outcome::TakenUp
        }
    }

    /// Amount of the form that reacts with what was added.
    pub const fn partner(&self, side: &Snapshot) -> Amount {
        match self.reagent {
            Reagent::Acid => side.base,
            Reagent::Alkali => side.acid,
        }
    }

    /// Amount of the form that it turns into.
    pub const fn product(&self, side: &Snapshot) -> Amount {
        match self.reagent {
            Reagent::Acid => side.acid,
            Reagent::Alkali => side.base,
        }
    }

    /// pH after minus pH before.
    pub fn step(&self) -> f64 {
        self.after.ph.value() - self.before.ph.value()
    }
}

impl Fate {
    /// What the system took at its other steps.
    pub fn others(&self) -> f64 {
        self.above + self.below
    }
}

impl Snapshot {
    /// Ratio of base to acid form, where there is acid form to divide by.
    pub fn ratio(&self) -> Option<f64> {
        let ratio = self.base.mol() / self.acid.mol();
        ratio.is_finite().then_some(ratio)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mmol(value: f64) -> Amount {
        Amount::from_mmol(value).unwrap()
    }

    /// A monoprotic pair, in mmol.
    fn snapshot(acid: f64, base: f64, hydrogen: f64, hydroxide: f64) -> Snapshot {
        Snapshot {
            acid: mmol(acid),
            base: mmol(base),
            held: Held {
                pair: mmol(acid),
                ..Held::default()
            },
            hydrogen: mmol(hydrogen),
            hydroxide: mmol(hydroxide),
            ph: Ph::new(5.0).unwrap(),
            water: Ph::new(7.0).unwrap(),
        }
    }

    fn outcome(
        reagent: Reagent,
        amount: f64,
        before: Snapshot,
        after: Snapshot,
    ) -> (Outcome, [f64; 3]) {
        let change = Change {
            reagent,
            amount: mmol(amount),
            particle: mmol(0.1),
            before,
            after,
        };
        let Fate {
            pair, water, free, ..
        } = change.fate();
        (
            change.outcome(),
            [pair, water, free].map(|n| libm::round(n * 1e9) / 1e9),
        )
    }

    #[test]
    fn every_way_an_addition_can_go() {
        use Reagent::{Acid, Alkali};
        let buffer = snapshot(10.0, 5.0, 0.0, 0.0);
        assert_eq!(
            outcome(Acid, 2.0, buffer, snapshot(12.0, 3.0, 0.0, 0.0)),
            (Outcome::TakenUp, [1.0, 0.0, 0.0])
        );
        assert_eq!(
            outcome(Acid, 5.0, buffer, snapshot(14.5, 0.5, 0.5, 0.0)),
            (Outcome::NearlyOut, [0.9, 0.0, 0.1])
        );
        let spent = snapshot(15.0, 0.0, 5.0, 0.0);
        assert_eq!(
            outcome(Acid, 10.0, buffer, spent),
            (Outcome::RanOut, [0.5, 0.0, 0.5])
        );
        assert_eq!(
            outcome(Acid, 2.0, spent, snapshot(15.0, 0.0, 7.0, 0.0)),
            (Outcome::NothingLeft, [0.0, 0.0, 1.0])
        );
        assert_eq!(
            outcome(Alkali, 2.0, spent, snapshot(15.0, 0.0, 3.0, 0.0)),
            (Outcome::MetExcess, [0.0, 1.0, 0.0])
        );
        assert_eq!(
            outcome(Alkali, 20.0, spent, snapshot(0.0, 15.0, 0.0, 0.0)),
            (Outcome::RanOut, [0.75, 0.25, 0.0])
        );
    }

    #[test]
    fn other_steps_are_told_from_the_pair() {
        let before = snapshot(10.0, 10.0, 0.0, 0.0);
        let mut after = snapshot(10.5, 9.0, 0.0, 0.0);
        after.held.pair = mmol(11.0);
        after.held.above = mmol(0.5);
        let change = Change {
            reagent: Reagent::Acid,
            amount: mmol(1.5),
            particle: mmol(0.1),
            before,
            after,
        };
        let fate = change.fate();
        assert!((fate.pair - 2.0 / 3.0).abs() < 1e-12);
        assert!((fate.others() - 1.0 / 3.0).abs() < 1e-12);
        assert_eq!(change.partner(&after), after.base);
        assert_eq!(change.product(&after), after.acid);
    }
}
