//! Everything that the parts show of a bench, solved once. The readout, the particles, the
//! explanation and the curve's point all come from here, so they cannot disagree.

use crate::app::bench::{Addition, Bench, step_of};
use crate::app::recipe::Setup;
use crate::chem::buffer::{Pair, Reserves, capacity};
use crate::chem::equilibrium::{Conditions, Equilibrium, Model, SolveError, solve, solve_ph};
use crate::chem::mixture::Mixture;
use crate::chem::quantity::{Amount, Concentration, Ph, SignedAmount, Volume};
use crate::chem::titration::Reagent;
use crate::lesson::sig_fig::AmountScale;
use crate::lesson::why::{Change, Held, Snapshot};

/// The bench after a certain amount of acid and alkali, solved.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// The mixture.
    pub mixture: Mixture,
    /// Its equilibrium.
    pub equilibrium: Equilibrium,
    /// The pair's two forms.
    pub reserves: Reserves,
    /// pH of the same volume of water after the same additions.
    pub water: Ph,
    /// Net strong reagent added.
    pub added: SignedAmount,
}

/// What there is to read off a bench.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The recipe understood.
    pub setup: Setup,
    /// The smallest addition, and with it the unit of every amount shown.
    pub scale: AmountScale,
    /// Before anything was added.
    pub start: Solved,
    /// Before the last addition; `None` if there was none.
    pub before: Option<Solved>,
    /// Now.
    pub now: Solved,
    /// The last addition.
    pub last: Option<Addition>,
    /// Reactions so far.
    pub reactions: u32,
    /// Buffer capacity now.
    pub capacity: Concentration,
    /// pH now with Davies activity coefficients, and the ionic strength that goes with it.
    pub davies: Option<(Ph, f64)>,
}

/// The bench is the classroom's: ideal, 25 °C, Kw = 1.00 × 10⁻¹⁴.
pub const CONDITIONS: Conditions = Conditions::classroom();

impl Reading {
    /// Reads `bench`; `setup` is its recipe, understood.
    ///
    /// # Errors
    /// [`SolveError`] if some mixture on the way has no answer.
    pub fn of(bench: &Bench, setup: Setup) -> Result<Self, SolveError> {
        let scale = step_of(&setup);
        let start = Solved::of(&setup, scale, 0, 0)?;
        let now = Solved::of(&setup, scale, bench.acid, bench.alkali)?;
        let (acid, alkali) = bench.before_last();
        let before = match bench.last {
            Some(_) => Some(Solved::of(&setup, scale, acid, alkali)?),
            None => None,
        };
        let davies = Conditions {
            model: Model::Davies,
            ..CONDITIONS
        };
        Ok(Self {
            capacity: capacity(&now.mixture, &CONDITIONS)?,
            // Shown beside the ideal value where the Davies equation means something.
            davies: solve(&now.mixture, &davies)
                .ok()
                .filter(|e| e.warnings().is_empty())
                .map(|e| (e.ph(), e.ionic_strength())),
            setup,
            scale,
            start,
            before,
            now,
            last: bench.last,
            reactions: bench.reactions,
        })
    }

    /// The last addition with both its sides.
    pub fn change(&self) -> Option<Change> {
        let (addition, before) = (self.last?, self.before.as_ref()?);
        Some(Change {
            reagent: addition.reagent,
            amount: self.scale.step.times(addition.steps),
            particle: self.scale.step,
            before: before.snapshot(&self.setup.pair),
            after: self.now.snapshot(&self.setup.pair),
        })
    }

    /// The free ion there is more of, and how it compares with the form that makes it.
    pub fn free_ion(&self) -> FreeIon {
        let solved = &self.now.equilibrium;
        let (hydrogen, hydroxide) = (solved.free_hydrogen(), solved.free_hydroxide());
        let (kind, amount, other, source) = if hydrogen >= hydroxide {
            (Reagent::Acid, hydrogen, hydroxide, self.now.reserves.acid)
        } else {
            (Reagent::Alkali, hydroxide, hydrogen, self.now.reserves.base)
        };
        FreeIon {
            kind,
            amount,
            other,
            forms_per_ion: source.mol() / amount.mol(),
        }
    }
}

/// Free H⁺ or OH⁻ in a solution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreeIon {
    /// `Acid` for H⁺, `Alkali` for OH⁻.
    pub kind: Reagent,
    /// How much there is.
    pub amount: Amount,
    /// How much there is of the other one.
    pub other: Amount,
    /// How many acid forms (for H⁺) or base forms (for OH⁻) there are for each.
    pub forms_per_ion: f64,
}

impl Solved {
    fn of(setup: &Setup, scale: AmountScale, acid: u32, alkali: u32) -> Result<Self, SolveError> {
        let (acid, alkali) = (scale.step.times(acid), scale.step.times(alkali));
        let mixture = setup.stock.added_to(&setup.mixture, acid, alkali);
        let equilibrium = solve(&mixture, &CONDITIONS)?;
        let water = setup
            .stock
            .added_to(&Mixture::water(setup.mixture.volume()), acid, alkali);
        Ok(Self {
            reserves: setup.pair.reserves(&mixture, &equilibrium),
            water: solve_ph(&water, &CONDITIONS)?,
            added: SignedAmount::net(acid, alkali),
            mixture,
            equilibrium,
        })
    }

    /// pH of the buffer.
    pub const fn ph(&self) -> Ph {
        self.equilibrium.ph()
    }

    /// Volume in the flask.
    pub const fn volume(&self) -> Volume {
        self.equilibrium.volume()
    }

    fn snapshot(&self, pair: &Pair) -> Snapshot {
        let acid = pair.acid_protons();
        let mut held = Held::default();
        // The bench holds one system, so these are its forms.
        for form in self.equilibrium.species() {
            let own = u8::from(form.protons >= acid);
            let above = form.protons.saturating_sub(acid);
            let add = |to: Amount, count: u8| to + form.amount.times(u32::from(count));
            held = Held {
                pair: add(held.pair, own),
                above: add(held.above, above),
                below: add(held.below, form.protons - own - above),
            };
        }
        Snapshot {
            acid: self.reserves.acid,
            base: self.reserves.base,
            held,
            hydrogen: self.equilibrium.free_hydrogen(),
            hydroxide: self.equilibrium.free_hydroxide(),
            ph: self.ph(),
            water: self.water,
        }
    }
}
