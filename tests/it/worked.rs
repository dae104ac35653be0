//! Worked examples of the classroom, whose figures were computed apart from the engine.
//! None has a published source.

use evenkeel::chem::buffer::{Pair, capacity};
use evenkeel::chem::equilibrium::{Conditions, solve};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Concentration, Pka, Volume};
use evenkeel::chem::systems::AcidSystem;
use evenkeel::chem::titration::Stock;

use crate::published::{Check, check_table};

const STATUS: &str = "worked example, machine-checked, no published source";

/// Half a unit of the second decimal, which is printed.
const PRINTED: f64 = 0.005;

fn cm3(value: f64) -> Volume {
    Volume::from_cm3(value).unwrap()
}

fn mmol(value: f64) -> Amount {
    Amount::from_mmol(value).unwrap()
}

fn molar(value: f64) -> Concentration {
    Concentration::from_molar(value).unwrap()
}

/// Ethanoic acid with the Ka that the examples print.
fn ethanoic() -> AcidSystem {
    AcidSystem::acid(Pka::new(-libm::log10(1.74e-5)).unwrap())
}

fn acid(concentration: f64, volume: f64) -> Mixture {
    let volume = cm3(volume);
    Mixture::water(volume).with_weak(ethanoic(), 1, molar(concentration) * volume, Charge::One)
}

fn salt(concentration: f64, volume: f64) -> Mixture {
    let volume = cm3(volume);
    Mixture::water(volume).with_weak(ethanoic(), 0, molar(concentration) * volume, Charge::One)
}

/// `volume` cm³ that is so much of acid and of salt, in mol dm⁻³.
fn buffer(acid: f64, salt: f64, volume: f64) -> Mixture {
    let volume = cm3(volume);
    Mixture::water(volume)
        .with_weak(ethanoic(), 1, molar(acid) * volume, Charge::One)
        .with_weak(ethanoic(), 0, molar(salt) * volume, Charge::One)
}

fn with_stock(start: &Mixture, concentration: f64, acid: f64, alkali: f64) -> Mixture {
    Stock::new(molar(concentration))
        .unwrap()
        .added_to(start, mmol(acid), mmol(alkali))
}

fn ph(mixture: &Mixture) -> f64 {
    solve(mixture, &Conditions::classroom())
        .unwrap()
        .ph()
        .value()
}

fn check(title: &str, rows: &[(&str, Mixture, f64)]) {
    let row = |(place, mixture, printed): &(&str, Mixture, f64)| {
        Check::without_source(place, ph(mixture), *printed, STATUS)
    };
    check_table(
        title,
        PRINTED,
        &rows.iter().map(row).collect::<Vec<Check>>(),
    );
}

#[test]
fn concentrations_and_mixtures() {
    let ammonium = AcidSystem::cationic_acid(Pka::new(-libm::log10(5.62e-10)).unwrap());
    let ammonia = Mixture::water(cm3(50.0)).with_weak(ammonium, 0, mmol(8.0), Charge::One);
    check(
        "worked examples: pH of a buffer",
        &[
            ("0.120 acid, 0.200 salt", buffer(0.12, 0.2, 1000.0), 4.98),
            (
                "two solutions mixed",
                acid(0.15, 40.0).mixed_with(&salt(0.08, 60.0)),
                4.66,
            ),
            (
                "acid part-neutralized",
                with_stock(&acid(0.2, 50.0), 0.15, 0.0, 3.0),
                4.39,
            ),
            (
                "ammonia part-neutralized",
                with_stock(&ammonia, 0.1, 2.0, 0.0),
                9.73,
            ),
            (
                "salt dissolved in acid",
                acid(0.18, 250.0).with_weak(ethanoic(), 0, mmol(30.0), Charge::One),
                4.58,
            ),
            (
                "recipe for pH 5.00",
                acid(0.1, 250.0).with_weak(ethanoic(), 0, mmol(43.5), Charge::One),
                5.00,
            ),
        ],
    );
}

#[test]
fn additions() {
    let start = buffer(0.1, 0.15, 100.0);
    let after = with_stock(&start, 0.2, 1.0, 0.0);
    check(
        "worked examples: 5.00 cm3 of 0.200 mol dm-3 into 100 cm3",
        &[
            ("buffer before", start.clone(), 4.94),
            ("buffer, acid", after.clone(), 4.86),
            ("buffer, alkali", with_stock(&start, 0.2, 0.0, 1.0), 5.01),
            (
                "water, acid",
                with_stock(&Mixture::water(cm3(100.0)), 0.2, 1.0, 0.0),
                2.02,
            ),
            (
                "buffer, 100 cm3 of acid: exhausted",
                with_stock(&start, 0.2, 20.0, 0.0),
                1.60,
            ),
        ],
    );
    let change = Check::without_source("change", ph(&after) - ph(&start), -0.07, STATUS);
    check_table("worked example: the step itself", PRINTED, &[change]);
}

#[test]
fn up_to_and_past_the_end_at_fixed_volume() {
    let start = buffer(0.1, 0.15, 100.0);
    let with = |hydrogen| start.clone().with_strong_acid(mmol(hydrogen), Charge::One);
    check(
        "worked example: H+ into 10 and 15 mmol, fixed volume",
        &[
            ("1 mmol", with(1.0), 4.86),
            ("5 mmol", with(5.0), 4.58),
            ("10 mmol", with(10.0), 4.16),
            ("14 mmol", with(14.0), 3.40),
            ("16 mmol", with(16.0), 1.98),
        ],
    );
}

#[test]
fn dilution() {
    check(
        "worked examples: dilution",
        &[
            (
                "0.120/0.200 tenfold",
                buffer(0.12, 0.2, 100.0).with_water(cm3(900.0)),
                4.98,
            ),
            ("1:1, 0.1 mol dm-3", buffer(0.1, 0.1, 100.0), 4.76),
            ("1:1, 0.001 mol dm-3", buffer(0.001, 0.001, 100.0), 4.77),
            ("1:1, 0.0001 mol dm-3", buffer(0.0001, 0.0001, 100.0), 4.88),
        ],
    );
}

/// Same ratio, ten times the concentration: same pH, ten times the capacity. And the
/// capacity of one pair against its peak: a third one unit away, and two units away on the
/// acid side 7 %, of which free H⁺ is nearly half (the pair alone keeps 3.9 %).
#[test]
fn capacity_is_amount_and_ratio() {
    let conditions = Conditions::classroom();
    let beta = |mixture: &Mixture| capacity(mixture, &conditions).unwrap().molar();
    let (strong, weak) = (buffer(0.3, 0.3, 100.0), buffer(0.03, 0.03, 100.0));
    let tenfold = [
        Check::without_source("pH", ph(&strong) - ph(&weak), 0.0, STATUS),
        Check::without_source(
            "tenth of the capacity",
            beta(&strong) / beta(&weak) / 10.0,
            1.0,
            STATUS,
        ),
    ];
    check_table("worked example: 0.30 and 0.030 mol dm-3", PRINTED, &tenfold);
    let pair = Pair::new(ethanoic(), 1).unwrap();
    // The buffer of the additions, 25 mmol in 100 cm³, brought to a pH by H⁺ or OH⁻.
    let at = |distance: f64| {
        let target = pair.pka().value() + distance;
        let start = buffer(0.1, 0.15, 100.0);
        let (mut low, mut high) = (-0.02, 0.02);
        for _ in 0..60 {
            let middle: f64 = 0.5 * (low + high);
            let part = Amount::from_mol(middle.abs()).unwrap();
            let there = if middle < 0.0 {
                start.clone().with_strong_acid(part, Charge::One)
            } else {
                start.clone().with_strong_alkali(part, Charge::One)
            };
            if ph(&there) < target {
                low = middle;
            } else {
                high = middle;
            }
        }
        let part = Amount::from_mol(low.abs()).unwrap();
        let there = start.clone();
        beta(&if low < 0.0 {
            there.with_strong_acid(part, Charge::One)
        } else {
            there.with_strong_alkali(part, Charge::One)
        })
    };
    let share = [
        Check::without_source("one unit up", at(1.0) / at(0.0), 1.0 / 3.0, STATUS),
        Check::without_source("two units down", at(-2.0) / at(0.0), 0.07, STATUS),
        Check::without_source("two units up", at(2.0) / at(0.0), 0.04, STATUS),
    ];
    check_table(
        "worked example: capacity away from its peak",
        PRINTED,
        &share,
    );
}

/// Where the short form fails: Ka = 10⁻³ and 0.01 mol dm⁻³ of each.
#[test]
fn limits_of_the_short_form() {
    let strong = AcidSystem::acid(Pka::new(3.0).unwrap());
    let mixture = Mixture::water(cm3(1000.0))
        .with_weak(strong, 1, mmol(10.0), Charge::One)
        .with_weak(strong, 0, mmol(10.0), Charge::One);
    check(
        "worked example: short form 3.00, full balance",
        &[("Ka 1e-3, 0.01 each", mixture, 3.07)],
    );
}
