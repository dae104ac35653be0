//! What `make bench` times of the chemistry, natively (core.rs) and in the browser (timed.rs):
//! the same mixtures and the same curves.

use std::hint::black_box;

use evenkeel::chem::equilibrium::{Conditions, Model, solve, solve_ph};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Celsius, Concentration, SignedAmount, Volume};
use evenkeel::chem::systems;
use evenkeel::chem::titration::{Stock, curve};

/// Points of a curve.
const POINTS: usize = 400;

/// Strong acid (negative) and alkali put to a buffer of 20 mmol, in mmol: far to either side, so
/// that no single lucky mixture is timed.
const PUSHES: [f64; 7] = [-15.0, -9.0, -4.0, 0.0, 4.0, 9.0, 15.0];

/// What is worked out.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Work {
    /// The pH of each mixture, as a root finder gives it.
    Ph,
    /// Every species of each mixture too, as a program for speciation gives them.
    Species,
    /// One curve of the first mixture.
    Curve,
}

/// One thing to time.
pub struct Task {
    pub name: &'static str,
    pub mixtures: Vec<Mixture>,
    pub conditions: Conditions,
    pub work: Work,
}

fn amount(mmol: f64) -> Amount {
    Amount::from_mmol(mmol).expect("a positive literal")
}

fn water() -> Mixture {
    Mixture::water(Volume::from_cm3(200.0).expect("a positive literal"))
}

/// 20 mmol of an acid in 200 cm³, of which each particle holds `protons` on average.
fn buffer(key: &str, protons: f64) -> Mixture {
    let system = systems::find(key).expect("in the table").system;
    water().with_part_protonated(system, protons, amount(20.0), Charge::One)
}

fn pushed(start: &Mixture) -> Vec<Mixture> {
    let push = |mmol: f64| {
        let start = start.clone();
        if mmol < 0.0 {
            start.with_strong_acid(amount(-mmol), Charge::One)
        } else {
            start.with_strong_alkali(amount(mmol), Charge::One)
        }
    };
    PUSHES.into_iter().map(push).collect()
}

/// Everything that is timed, in the order of its numbers.
pub fn tasks() -> Vec<Task> {
    let ideal = Conditions::classroom();
    let davies = Conditions::tabulated(Model::Davies, Celsius::STANDARD);
    let monoprotic = buffer("propanoic", 0.5);
    let citric = buffer("citric", 1.3);
    let phosphoric = buffer("phosphoric", 1.5);
    let task = |name, mixtures, conditions, work| Task {
        name,
        mixtures,
        conditions,
        work,
    };
    let mut tasks = Vec::new();
    for work in [Work::Ph, Work::Species] {
        tasks.push(task("monoprotic, ideal", pushed(&monoprotic), ideal, work));
        tasks.push(task("triprotic, ideal", pushed(&citric), ideal, work));
        tasks.push(task("triprotic, Davies", pushed(&phosphoric), davies, work));
    }
    for (name, mixture, conditions) in [
        ("monoprotic, ideal", monoprotic, ideal),
        ("water, ideal", water(), ideal),
        ("triprotic, Davies", phosphoric, davies),
    ] {
        tasks.push(task(name, vec![mixture], conditions, Work::Curve));
    }
    tasks
}

impl Task {
    /// Does the work `times` over. Returns a pH of it, which no compiler can leave out.
    pub fn run(&self, times: usize) -> f64 {
        let mut last = 0.0;
        for turn in 0..times {
            let mixture = black_box(&self.mixtures[turn % self.mixtures.len()]);
            last = match self.work {
                Work::Curve => self.curve(),
                Work::Ph => solve_ph(mixture, &self.conditions)
                    .expect("a plain mixture")
                    .value(),
                Work::Species => black_box(solve(mixture, &self.conditions))
                    .expect("a plain mixture")
                    .ph()
                    .value(),
            };
        }
        last
    }

    /// The last pH of a curve 15 mmol to either side.
    fn curve(&self) -> f64 {
        let stock = Concentration::from_molar(1.0).expect("positive");
        let stock = Stock::new(stock).expect("in range");
        let end = |mol| SignedAmount::from_mol(mol).expect("finite");
        let range = (end(-0.015), end(0.015));
        let start = black_box(&self.mixtures[0]);
        let points = curve(start, &self.conditions, &stock, range, &[], POINTS);
        let points = black_box(points).expect("a plain mixture");
        points.last().expect("400 points").ph.value()
    }
}
