//! Random mixtures for properties, drawn by proptest from a fixed seed.
//!
//! Concentrations, volumes and additions are log-uniform, some are exactly zero, and some
//! systems have constants that nearly coincide or lie far outside 0 to 14.

use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Pka, Volume};
use evenkeel::chem::systems::{AcidSystem, Step};
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{Config, RngAlgorithm, RngSeed, TestRng, TestRunner};

/// So many cases for `proptest!`, the same ones every time.
pub fn config(cases: u32) -> Config {
    Config {
        cases,
        rng_seed: RngSeed::Fixed(0),
        failure_persistence: None,
        ..Config::default()
    }
}

/// Runs `test` on 500 values; the same ones every time.
pub fn check<S: Strategy>(strategy: &S, test: impl Fn(S::Value) -> Result<(), TestCaseError>) {
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let outcome = TestRunner::new_with_rng(config(500), rng).run(strategy, test);
    assert!(outcome.is_ok(), "{}", outcome.unwrap_err());
}

/// Log-uniform between two powers of ten, and one time in ten exactly zero.
fn log_uniform(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![9 => (low..high).prop_map(libm::exp10), 1 => Just(0.0)]
}

/// One to three constants: apart, nearly equal, or in any order.
fn system() -> impl Strategy<Value = AcidSystem> {
    let pka = -10.0..20.0;
    let near = (pka.clone(), 0.0..1e-3, 1..=3usize)
        .prop_map(|(first, apart, count)| (0..count).map(|i| first + apart * i as f64).collect());
    let apart = prop::collection::vec(pka, 1..=3);
    (prop_oneof![near, apart], 0..=6i8).prop_map(|(pkas, top): (Vec<f64>, i8)| {
        let step = |&pka: &f64| Step {
            pka: Pka::new(pka).unwrap(),
            heat: None,
        };
        let steps: Vec<Step> = pkas.iter().map(step).collect();
        let lowest_top = steps.len() as i8 - 3;
        AcidSystem::new(lowest_top + top % (4 - lowest_top), &steps).unwrap()
    })
}

/// The charge of a spectator ion.
pub fn charge() -> impl Strategy<Value = Charge> {
    select(vec![Charge::One, Charge::Two, Charge::Three])
}

/// Something to put into a dm³ of mixture; numbers are mol.
#[derive(Debug, Clone)]
pub enum Part {
    Weak(AcidSystem, f64, f64, Charge),
    Acid(f64, Charge),
    Alkali(f64, Charge),
    Salt(f64, Charge, Charge),
}

impl Part {
    /// The part alone, in `volume`.
    fn solution(&self, volume: Volume) -> Mixture {
        let amount = |c: f64| Amount::from_mol(c * volume.dm3()).unwrap();
        let water = Mixture::water(volume);
        match *self {
            Self::Weak(system, share, c, counter) => {
                let protons = share * f64::from(system.protons());
                water.with_part_protonated(system, protons, amount(c), counter)
            }
            Self::Acid(c, anion) => water.with_strong_acid(amount(c), anion),
            Self::Alkali(c, cation) => water.with_strong_alkali(amount(c), cation),
            Self::Salt(c, cation, anion) => water.with_neutral_salt(amount(c), cation, anion),
        }
    }
}

/// Solutions of up to 1 mol dm⁻³ to be mixed in equal volumes, of 1e-6 to 1e6 dm³.
pub fn parts() -> impl Strategy<Value = (Vec<Part>, f64)> {
    let concentration = || log_uniform(-9.0, 0.0);
    let share = prop_oneof![Just(0.0), Just(1.0), 0.0..1.0];
    let part = prop_oneof![
        4 => (system(), share, concentration(), charge()).prop_map(|(s, p, c, z)| Part::Weak(s, p, c, z)),
        1 => (concentration(), charge()).prop_map(|(c, z)| Part::Acid(c, z)),
        1 => (concentration(), charge()).prop_map(|(c, z)| Part::Alkali(c, z)),
        1 => (concentration(), charge(), charge()).prop_map(|(c, z, y)| Part::Salt(c, z, y)),
    ];
    (
        prop::collection::vec(part, 0..6),
        (-6.0..6.0).prop_map(libm::exp10),
    )
}

/// Equal volumes of all the parts, and one of water, in one flask.
pub fn mixed<'a>(parts: impl IntoIterator<Item = &'a Part>, volume: f64) -> Mixture {
    let volume = Volume::from_dm3(volume).unwrap();
    let solutions = parts.into_iter().map(|part| part.solution(volume));
    solutions.fold(Mixture::water(volume), |all, solution| {
        all.mixed_with(&solution)
    })
}
