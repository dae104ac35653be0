//! A few hundred solved mixtures as one number, for showing that every platform computes
//! the same to the last bit. Shared by the native and the browser tests.
//!
//! The expected number has no source but this code: it was computed natively, and guards
//! against a difference between platforms or an unnoticed change, not against error.

use evenkeel::chem::buffer::capacity;
use evenkeel::chem::equilibrium::{Conditions, Model, solve};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Celsius, Concentration, SignedAmount, Volume};
use evenkeel::chem::systems::TABLE;
use evenkeel::chem::titration::{Stock, curve};

/// What [`digest`] must return.
pub const EXPECTED: u64 = 0xde6b_286e_b159_ae17;

/// 64-bit FNV-1a over the bits of numbers (Fowler, Noll & Vo; RFC 9923).
struct Fnv(u64);

impl Fnv {
    fn add(&mut self, value: f64) {
        for byte in value.to_bits().to_le_bytes() {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
}

fn amount(mol: f64) -> Amount {
    Amount::from_mol(mol).expect("a positive literal")
}

/// Every listed system, at three states and three concentrations, with strong acid, alkali
/// or salt in turn.
fn mixtures() -> Vec<Mixture> {
    let volume = Volume::from_cm3(200.0).expect("a positive literal");
    let mut all = vec![Mixture::water(volume)];
    for entry in TABLE {
        for (place, share) in [0.0, 0.37, 1.0].into_iter().enumerate() {
            for mol in [0.02, 3e-4, 7e-7] {
                let protons = share * f64::from(entry.system.protons());
                let start = Mixture::water(volume).with_part_protonated(
                    entry.system,
                    protons,
                    amount(mol),
                    Charge::One,
                );
                all.push(match place {
                    0 => start.with_strong_acid(amount(0.3 * mol), Charge::Two),
                    1 => start.with_strong_alkali(amount(0.2 * mol), Charge::One),
                    _ => start.with_neutral_salt(amount(0.01), Charge::One, Charge::Three),
                });
            }
        }
    }
    all
}

/// Solves everything in both models at three temperatures, draws two curves, and returns
/// the digest of all figures and how many they are.
pub fn digest() -> (u64, usize) {
    let mut fnv = Fnv(0xcbf2_9ce4_8422_2325);
    let mut count = 0;
    let mut add = |value: f64| {
        fnv.add(value);
        count += 1;
    };
    let mixtures = mixtures();
    for (i, mixture) in mixtures.iter().enumerate() {
        let temperature = Celsius::new([25.0, 3.5, 58.2][i % 3]).expect("in range");
        for model in [Model::Ideal, Model::Davies] {
            let conditions = Conditions::tabulated(model, temperature);
            let solved = solve(mixture, &conditions).expect("a plain mixture");
            add(solved.ph().value());
            add(solved.ionic_strength());
            solved
                .species()
                .iter()
                .for_each(|form| add(form.concentration.molar()));
            add(capacity(mixture, &conditions)
                .expect("a plain mixture")
                .molar());
        }
    }
    let stock = Stock::new(Concentration::from_molar(1.0).expect("positive")).expect("in range");
    let end = |mol| SignedAmount::from_mol(mol).expect("finite");
    for start in [&mixtures[0], &mixtures[mixtures.len() / 2]] {
        let conditions = Conditions::tabulated(Model::Davies, Celsius::STANDARD);
        let drawn = curve(
            start,
            &conditions,
            &stock,
            (end(-0.03), end(0.03)),
            &[],
            200,
        );
        for point in drawn.expect("a plain mixture") {
            add(point.added.mol());
            add(point.ph.value());
        }
    }
    (fnv.0, count)
}
