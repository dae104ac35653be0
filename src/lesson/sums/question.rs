//! Questions from a seed: the same seed gives the same question on every machine.
//!
//! Numbers are such as a person could be given. A question is drawn again if two wrong ways,
//! or a wrong way and the right one, could not be told apart by their numbers.

use rand_core::{Rng, SeedableRng};
use rand_pcg::Pcg32;

use crate::chem::buffer::Pair;
use crate::chem::quantity::Pka;
use crate::chem::systems::{self, Entry};
use crate::chem::titration::Reagent;
use crate::lesson::notation::PairNames;
use crate::lesson::sums::expression::rounded;
use crate::lesson::sums::form::{Datum, Form, PhBy, Problem, Variant};
use crate::lesson::sums::screen::can_be_told_apart;
pub use crate::lesson::sums::screen::{SAME, place, shows};
use crate::lesson::sums::symbol::{KW, Symbol, Unit};

/// Draws before a form is given up; every form takes far fewer.
const MOST_DRAWS: u32 = 10_000;

/// Concentrations of bottles, mol dm⁻³.
const CONCENTRATIONS: &[f64] = &[
    0.0250, 0.0400, 0.0500, 0.0600, 0.0750, 0.0800, 0.100, 0.120, 0.125, 0.150, 0.160, 0.180,
    0.200, 0.225, 0.240, 0.250, 0.300, 0.320, 0.350, 0.400, 0.450, 0.500,
];

/// Volumes of pipettes, burettes and measuring cylinders, cm³.
const VOLUMES: &[f64] = &[
    10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 75.0, 80.0, 100.0, 120.0, 150.0,
    200.0, 250.0,
];

/// Weak acids for questions, all of them soluble at every concentration asked for: key of the system, salt's molar mass, acid's molar mass, and
/// that of the salt's usual hydrate, g mol⁻¹. Sums of the standard atomic weights (IUPAC
/// 2021, abridged), from memory.
const ACIDS: &[(&str, f64, f64, Option<f64>)] = &[
    ("ethanoic", 82.0, 60.1, Some(136.1)),
    ("methanoic", 68.0, 46.0, None),
    ("propanoic", 96.1, 74.1, None),
    ("lactic", 112.1, 90.1, None),
    ("butanoic", 110.1, 88.1, None),
];

/// Weak bases for questions, by the key of their cation.
const BASES: &[&str] = &["ammonium", "methylammonium"];

/// A question.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The calculation.
    pub problem: Problem,
    /// The seed it was drawn from.
    pub seed: u64,
    /// Key of the pair's system in the table.
    pub key: &'static str,
    /// Another pair's key, where one of two is chosen.
    pub other: Option<(&'static str, Datum)>,
    /// Whether the salt carries water of crystallization.
    pub hydrate: bool,
}

/// The question of `form` that `seed` stands for, worked out with [H⁺].
pub fn question(form: Form, seed: u64) -> Question {
    question_by(form, seed, PhBy::Hydrogen)
}

/// The question of `form` that `seed` stands for where pH is worked out `by` something. The
/// numbers may depend on it, for other ways go wrong and all must be told apart.
pub fn question_by(form: Form, seed: u64, by: PhBy) -> Question {
    let mut draw = Draw {
        generator: Pcg32::seed_from_u64(seed ^ ((form as u64) << 56)),
    };
    // Drawn once: otherwise a kind whose numbers are harder to find would hardly be asked.
    let variant = Variant {
        by,
        ..draw.variant(form)
    };
    let mut last = None;
    for _ in 0..MOST_DRAWS {
        let question = draw.question(form, variant, seed);
        let has_choice = form != Form::ChooseAcid || question.other.is_some();
        if has_choice && can_be_told_apart(&question.problem) {
            return question;
        }
        last = Some(question);
    }
    last.expect("something was drawn")
}

struct Draw {
    generator: Pcg32,
}

impl Draw {
    fn below(&mut self, n: usize) -> usize {
        let n = u64::try_from(n).expect("a short list");
        let word = u64::from(self.generator.next_u32());
        usize::try_from((word * n) >> 32).expect("below n")
    }

    fn one<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }

    fn question(&mut self, form: Form, variant: Variant, seed: u64) -> Question {
        let alkaline = match form {
            Form::BaseWithAcid => true,
            Form::Equivalence => variant.reagent == Reagent::Acid,
            Form::Concentrations | Form::TwoVolumes | Form::AddedAcid | Form::AddedAlkali => {
                self.below(4) == 0
            }
            _ => false,
        };
        let (key, molar) = if alkaline {
            (self.one(BASES), None)
        } else {
            let (key, salt, acid, hydrate) = self.one(ACIDS);
            (key, Some((salt, acid, hydrate)))
        };
        let (entry, ka) = constant(key);
        let hydrate = molar.and_then(|(_, _, h)| h).filter(|_| self.below(2) == 0);
        let target = self.target(ka);
        let mut data = Vec::new();
        for symbol in Problem::given(form, variant) {
            let value = self.value(form, symbol, ka, target, molar, hydrate);
            let figures = match symbol {
                _ if symbol.unit() == Unit::Scale => 2,
                // A molar mass is given to a tenth.
                Symbol::MolarMass if value >= 100.0 => 4,
                _ => 3,
            };
            data.push(Datum {
                symbol,
                value,
                figures,
            });
        }
        let (names, other) = if form == Form::ChooseAcid {
            self.choice(key, ka, target)
        } else {
            (names(entry), None)
        };
        let mut problem = Problem::new(form, variant, names, &data);
        problem.other_ka = other.map(|(_, datum): (_, Datum)| datum.value);
        if let Some((salt, acid, _)) = molar {
            problem.other_molar_masses = match hydrate {
                Some(_) => vec![acid, salt],
                None => vec![acid],
            };
        }
        Question {
            problem,
            seed,
            key,
            other,
            hydrate: hydrate.is_some(),
        }
    }

    fn variant(&mut self, form: Form) -> Variant {
        let either = if self.below(2) == 0 {
            Reagent::Acid
        } else {
            Reagent::Alkali
        };
        let reagent = match form {
            Form::AcidWithAlkali
            | Form::AddedAlkali
            | Form::RecipeByAlkali
            | Form::HalfNeutralized => Reagent::Alkali,
            Form::Exhausted | Form::Equivalence => either,
            _ => Reagent::Acid,
        };
        let added = matches!(form, Form::AddedAcid | Form::AddedAlkali | Form::Exhausted);
        Variant {
            reagent,
            ions: if added && self.below(4) == 0 { 2 } else { 1 },
            from_kb: form == Form::BaseWithAcid && self.below(2) == 0,
            small_addition: matches!(form, Form::AddedAcid | Form::AddedAlkali)
                && self.below(2) == 0,
            by: PhBy::Hydrogen,
        }
    }

    /// A pH within the useful range of the acid.
    fn target(&mut self, ka: f64) -> f64 {
        let pka = -libm::log10(ka);
        let steps = self.one(&[-8, -7, -6, -5, -4, -3, -2, 2, 3, 4, 5, 6, 7, 8]);
        let step = 0.1 * f64::from(steps);
        libm::round((pka + step) * 20.0) / 20.0
    }

    fn value(
        &mut self,
        form: Form,
        symbol: Symbol,
        ka: f64,
        target: f64,
        molar: Option<(f64, f64, Option<f64>)>,
        hydrate: Option<f64>,
    ) -> f64 {
        let salt = molar.map_or(82.0, |(salt, ..)| salt);
        match symbol {
            Symbol::Ka => ka,
            Symbol::Kb => rounded(KW / ka, 3),
            Symbol::GivenPh => target,
            Symbol::MolarMass => hydrate.unwrap_or(salt),
            // Such as a balance shows: two decimal places.
            Symbol::Mass => f64::from(u32::try_from(100 + self.below(900)).unwrap_or(100)) / 100.0,
            Symbol::Dilution => self.one(&[10.0, 10.0, 5.0, 2.0]),
            Symbol::EquivalenceVolume => {
                let tenths = 160 + 2 * self.below(90);
                f64::from(u32::try_from(tenths).unwrap_or(160)) / 10_000.0
            }
            Symbol::StrongStock if form == Form::RecipeByAlkali => self.one(&[0.500, 1.00, 2.00]),
            Symbol::StrongStock => self.one(&[0.0500, 0.100, 0.150, 0.200, 0.250, 0.400, 0.500]),
            Symbol::StrongVolume => {
                self.one(&[5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0]) / 1000.0
            }
            Symbol::BufferVolume => self.one(&[50.0, 75.0, 100.0, 150.0, 200.0, 250.0]) / 1000.0,
            _ => match symbol.unit() {
                Unit::Cm3 => self.one(VOLUMES) / 1000.0,
                _ => self.one(CONCENTRATIONS),
            },
        }
    }

    /// Names of the acid that suits the pH, and another that does not.
    fn choice(
        &mut self,
        key: &'static str,
        ka: f64,
        target: f64,
    ) -> (PairNames, Option<(&'static str, Datum)>) {
        let (entry, _) = constant(key);
        let far: Vec<_> = ACIDS
            .iter()
            .map(|(k, ..)| (*k, constant(k).1))
            .filter(|(_, other)| {
                let distance = (-libm::log10(*other) - target).abs();
                distance > (-libm::log10(ka) - target).abs() + 0.3
            })
            .collect();
        let other = if far.is_empty() {
            None
        } else {
            let (key, value) = self.one(&far);
            Some((
                key,
                Datum {
                    symbol: Symbol::Ka,
                    value,
                    figures: 3,
                },
            ))
        };
        (names(entry), other)
    }
}

/// The table's line for a key and its Ka as it is printed, to three significant figures.
fn constant(key: &str) -> (&'static Entry, f64) {
    let entry = systems::find(key).expect("a test draws every key");
    let pair = Pair::new(entry.system, 1).expect("monoprotic");
    let ka: f64 = Pka::ka(pair.pka());
    (entry, rounded(ka, 3))
}

fn names(entry: &'static Entry) -> PairNames {
    let pair = Pair::new(entry.system, 1).expect("monoprotic");
    PairNames::new(&pair, Some(entry), entry.classroom)
}
