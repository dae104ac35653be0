//! The cases of the reference library as it writes them, and their recipes carried out.

use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Pka, Volume};
use evenkeel::chem::systems::{AcidSystem, Step};
use serde::Deserialize;

#[derive(Deserialize)]
pub struct Document<T> {
    pub cases: Vec<T>,
}

#[derive(Deserialize)]
pub struct Case {
    pub id: usize,
    pub mixture: usize,
    pub family: String,
    pub model: String,
    pub pkw: f64,
    pub debye_huckel_a: f64,
    pub weak: Vec<Weak>,
    pub recipe: Vec<Action>,
}

#[derive(Deserialize)]
pub struct Weak {
    pub top_charge: i8,
    pub pka: Vec<f64>,
}

#[derive(Deserialize)]
#[serde(tag = "do", rename_all = "snake_case")]
pub enum Action {
    Water {
        volume_l: f64,
    },
    Weak {
        system: usize,
        protons: f64,
        mol: f64,
        counter_charge: i8,
    },
    StrongAcid {
        mol_h: f64,
        anion_charge: i8,
    },
    StrongAlkali {
        mol_oh: f64,
        cation_charge: i8,
    },
    Salt {
        mol: f64,
        cation_charge: i8,
        anion_charge: i8,
    },
}

#[derive(Deserialize)]
pub struct Answer {
    pub id: usize,
    pub ph: String,
    pub h: String,
    pub oh: String,
    pub ionic_strength: String,
    pub species: Vec<Vec<String>>,
    pub roots: usize,
    pub buffer_capacity: String,
}

fn charge(size: i8) -> Charge {
    match size.unsigned_abs() {
        1 => Charge::One,
        2 => Charge::Two,
        3 => Charge::Three,
        other => panic!("a charge of {other} in a recipe"),
    }
}

fn mol(value: f64) -> Amount {
    Amount::from_mol(value).unwrap()
}

impl Case {
    /// The mixture, made step by step.
    pub fn mixed(&self) -> Mixture {
        let systems: Vec<AcidSystem> = self
            .weak
            .iter()
            .map(|weak| {
                let step = |&pka| Step {
                    pka: Pka::new(pka).unwrap(),
                    heat: None,
                };
                let steps: Vec<Step> = weak.pka.iter().map(step).collect();
                AcidSystem::new(weak.top_charge, &steps).unwrap()
            })
            .collect();
        self.recipe
            .iter()
            .fold(Mixture::default(), |mixture, action| match *action {
                Action::Water { volume_l } => {
                    mixture.with_water(Volume::from_dm3(volume_l).unwrap())
                }
                Action::Weak {
                    system,
                    protons,
                    mol: amount,
                    counter_charge,
                } => mixture.with_part_protonated(
                    systems[system],
                    protons,
                    mol(amount),
                    charge(counter_charge),
                ),
                Action::StrongAcid {
                    mol_h,
                    anion_charge,
                } => mixture.with_strong_acid(mol(mol_h), charge(anion_charge)),
                Action::StrongAlkali {
                    mol_oh,
                    cation_charge,
                } => mixture.with_strong_alkali(mol(mol_oh), charge(cation_charge)),
                Action::Salt {
                    mol: units,
                    cation_charge,
                    anion_charge,
                } => {
                    // One formula unit carries the least common multiple of both charges.
                    let (plus, minus) = (cation_charge.unsigned_abs(), anion_charge.unsigned_abs());
                    let carried = if plus == minus { plus } else { plus * minus };
                    let side = mol(units).times(carried.into());
                    mixture.with_neutral_salt(side, charge(cation_charge), charge(anion_charge))
                }
            })
    }
}
