//! `make bench`: figures, never a pass or fail. Compare them within one run only.

use divan::{Bencher, black_box};
use evenkeel::chem::equilibrium::{Conditions, Model, solve};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Celsius, Concentration, SignedAmount, Volume};
use evenkeel::chem::systems;
use evenkeel::chem::titration::{Stock, curve};

fn main() {
    divan::main();
}

/// The starting bench: propanoic acid and sodium propanoate, 10 mmol each in 200 cm³.
fn buffer(key: &str, protons: f64) -> Mixture {
    let system = systems::find(key).expect("in the table").system;
    let amount = Amount::from_mmol(20.0).expect("positive");
    Mixture::water(Volume::from_cm3(200.0).expect("positive")).with_part_protonated(
        system,
        protons,
        amount,
        Charge::One,
    )
}

#[divan::bench]
fn monoprotic_ideal(bencher: Bencher) {
    let mixture = buffer("propanoic", 0.5);
    let conditions = Conditions::classroom();
    bencher.bench(|| solve(black_box(&mixture), &conditions));
}

#[divan::bench]
fn triprotic_ideal(bencher: Bencher) {
    let mixture = buffer("citric", 1.3);
    let conditions = Conditions::classroom();
    bencher.bench(|| solve(black_box(&mixture), &conditions));
}

#[divan::bench]
fn triprotic_davies(bencher: Bencher) {
    let mixture = buffer("phosphoric", 1.5);
    let conditions = Conditions::tabulated(Model::Davies, Celsius::STANDARD);
    bencher.bench(|| solve(black_box(&mixture), &conditions));
}

fn curve_of_400(bencher: Bencher, mixture: &Mixture, conditions: Conditions) {
    let stock = Stock::new(Concentration::from_molar(1.0).expect("positive")).expect("in range");
    let end = |mol| SignedAmount::from_mol(mol).expect("finite");
    let range = (end(-0.015), end(0.015));
    bencher.bench(|| curve(black_box(mixture), &conditions, &stock, range, &[], 400));
}

#[divan::bench]
fn curve_400_monoprotic_ideal(bencher: Bencher) {
    curve_of_400(bencher, &buffer("propanoic", 0.5), Conditions::classroom());
}

#[divan::bench]
fn curve_400_water_ideal(bencher: Bencher) {
    let water = Mixture::water(Volume::from_cm3(200.0).expect("positive"));
    curve_of_400(bencher, &water, Conditions::classroom());
}

#[divan::bench]
fn curve_400_triprotic_davies(bencher: Bencher) {
    let conditions = Conditions::tabulated(Model::Davies, Celsius::STANDARD);
    curve_of_400(bencher, &buffer("phosphoric", 1.5), conditions);
}
