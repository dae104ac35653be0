//! What a short form leaves out and the full balance does not.

use crate::app::calculation::Seen;
use crate::app::reading::CONDITIONS;
use crate::chem::equilibrium::solve_ph;
use crate::chem::mixture::{Charge, Mixture};
use crate::chem::quantity::Ph;
use crate::chem::systems::AcidSystem;
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::solution::Because;

impl Seen<'_> {
    /// Whether it is the other steps of the acid that set the full balance apart from
    /// `short`: with this step alone the balance would come out nearer to `short`.
    fn other_steps_count(&self, short: Option<Ph>) -> bool {
        let pair = self.reading.setup.pair;
        if pair.system().protons() < 2 {
            return false;
        }
        let step = pair.system().step_from(pair.acid_protons()).copied();
        let alone = step.and_then(|step| AcidSystem::new(pair.acid_charge(), &[step]).ok());
        let (Some(alone), Some(short)) = (alone, short) else {
            return true;
        };
        let now = &self.now;
        let mixture = Mixture::water(self.reading.now.volume())
            .with_weak(alone, 1, now.acid, Charge::One)
            .with_weak(alone, 0, now.base, Charge::One)
            .with_strong_acid(now.excess_hydrogen, Charge::One)
            .with_strong_alkali(now.excess_hydroxide, Charge::One);
        let full = self.reading.now.ph().value();
        solve_ph(&mixture, &CONDITIONS).map_or(true, |one| {
            (one.value() - full).abs() > 0.5 * (short.value() - full).abs()
        })
    }

    /// What the short form leaves out that counts most here.
    pub(super) fn because(&self, problem: Option<&Problem>, short: Option<Ph>) -> Because {
        if self.other_steps_count(short) {
            return Because::OtherSteps;
        }
        let form = problem.map(|p| p.form);
        match form {
            Some(Form::Exhausted) => Because::WeakPair,
            Some(Form::Equivalence | Form::WeakAcidAlone) => {
                let solved = &self.reading.now.equilibrium;
                let free = solved
                    .free_hydrogen()
                    .mol()
                    .max(solved.free_hydroxide().mol());
                let total = (self.now.acid + self.now.base).mol();
                if free > 0.01 * total {
                    Because::Ionized
                } else {
                    Because::Water
                }
            }
            _ => Because::FreeIons,
        }
    }
}
