//! Curves and landmarks.

use evenkeel::chem::buffer::Pair;
use evenkeel::chem::equilibrium::{Conditions, Model, solve, solve_ph};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Celsius, Concentration, SignedAmount, Volume};
use evenkeel::chem::systems;
use evenkeel::chem::titration::{CurvePoint, Stock, curve};
use proptest::prelude::*;

use crate::draws::{check, mixed, parts};

fn signed(mol: f64) -> SignedAmount {
    SignedAmount::from_mol(mol).unwrap()
}

fn mmol(value: f64) -> Amount {
    Amount::from_mmol(value).unwrap()
}

fn stock(concentration: f64) -> Stock {
    Stock::new(Concentration::from_molar(concentration).unwrap()).unwrap()
}

/// A buffer of one pair in 200 cm³.
pub fn buffer(pair: &Pair, acid: Amount, base: Amount) -> Mixture {
    Mixture::water(Volume::from_cm3(200.0).unwrap())
        .with_weak(pair.system(), pair.acid_protons(), acid, Charge::One)
        .with_weak(pair.system(), pair.base_protons(), base, Charge::One)
}

fn pair(key: &str, acid_protons: u8) -> Pair {
    Pair::new(systems::find(key).unwrap().system, acid_protons).unwrap()
}

/// In order, with both ends and every point asked for, and rising.
fn check_curve(
    drawn: &[CurvePoint],
    ends: (f64, f64),
    through: &[SignedAmount],
) -> Result<(), TestCaseError> {
    let places: Vec<f64> = drawn.iter().map(|p| p.added.mol()).collect();
    prop_assert!(places.is_sorted_by(|a, b| a < b), "not in order");
    prop_assert_eq!((places[0], places[places.len() - 1]), ends);
    for mark in through {
        prop_assert!(
            places.contains(&mark.mol()),
            "{:?} is not on the curve",
            mark
        );
    }
    for two in drawn.windows(2) {
        // Two places may be so close that their pH differ by less than rounding.
        prop_assert!(
            two[1].ph.value() >= two[0].ph.value() - 1e-13,
            "falls at {:?}",
            two
        );
    }
    Ok(())
}

/// The stock is far denser than what is in the flask, so its volume never matters more
/// than what it brings.
#[test]
fn curves_rise_in_order_through_every_point_asked_for() {
    let range = (0.0..1.0f64, 0.0..1.0f64, 0.0..1.0f64, 10..300usize);
    check(
        &(parts(), range),
        |((parts, volume), (low, high, mark, points))| {
            let start = mixed(&parts, volume);
            // The parts share one volume each, so a mixture of five is five times as large.
            let scale = start.volume().dm3();
            let ends = (-low * scale, high * scale);
            let through = [signed(ends.0 + mark * (ends.1 - ends.0))];
            let conditions = Conditions::classroom();
            let drawn = curve(
                &start,
                &conditions,
                &stock(20.0),
                (signed(ends.0), signed(ends.1)),
                &through,
                points,
            )
            .map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
            prop_assert!(
                drawn.len() <= points.max(points / 4 + 5),
                "{} points",
                drawn.len()
            );
            check_curve(&drawn, ends, &through)
        },
    );
}

/// Each point is what solving that addition gives.
#[test]
fn a_curve_agrees_with_solving_each_addition() {
    let start = buffer(&pair("phosphoric", 2), mmol(10.0), mmol(10.0));
    let stock = stock(1.0);
    for model in [Model::Ideal, Model::Davies] {
        let conditions = Conditions::tabulated(model, Celsius::STANDARD);
        let ends = (signed(-0.025), signed(0.025));
        let drawn = curve(&start, &conditions, &stock, ends, &[], 200).unwrap();
        for point in drawn {
            let (acid, alkali) = match point.added.mol() {
                n if n < 0.0 => (point.added.size(), Amount::ZERO),
                _ => (Amount::ZERO, point.added.size()),
            };
            let alone = solve_ph(&stock.added_to(&start, acid, alkali), &conditions).unwrap();
            let off = alone.value() - point.ph.value();
            assert!(off.abs() < 1e-12, "{off} at {point:?}");
        }
    }
}

/// The starting bench and water beside it, as they are drawn: 400 points. On a picture
/// 560 px high for 14 units, 0.2 units are 8 px of a line so steep that it is all height;
/// elsewhere neighbors are far closer.
#[test]
fn the_starting_curve_is_smooth() {
    let propanoic = pair("propanoic", 1);
    let bench = buffer(&propanoic, mmol(10.0), mmol(10.0));
    let marks = propanoic.landmarks(&bench).unwrap();
    let through = [
        marks.all_acid,
        marks.half,
        marks.all_base,
        SignedAmount::default(),
    ];
    let water = Mixture::water(bench.volume());
    for (name, start, asked) in [
        ("bench", &bench, &through[..]),
        ("water", &water, &through[3..]),
    ] {
        let ends = (-0.015, 0.015);
        let range = (signed(ends.0), signed(ends.1));
        let drawn = curve(
            start,
            &Conditions::classroom(),
            &stock(1.0),
            range,
            asked,
            400,
        )
        .unwrap();
        check_curve(&drawn, ends, asked).unwrap();
        assert!(drawn.len() <= 400);
        let gap = |two: &[CurvePoint]| two[1].ph.value() - two[0].ph.value();
        let (largest, place) = drawn
            .windows(2)
            .map(|two| (gap(two), two[0].added.mol()))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .unwrap();
        println!("{name}: largest step {largest:.3} pH, at {place:+.2e} mol");
        assert!(largest <= 0.2, "{name}: {largest} at {place}");
    }
}

#[test]
fn a_range_without_extent_is_one_point() {
    let water = Mixture::water(Volume::from_cm3(100.0).unwrap());
    let zero = SignedAmount::default();
    let drawn = curve(
        &water,
        &Conditions::classroom(),
        &stock(1.0),
        (zero, zero),
        &[zero],
        400,
    );
    let drawn = drawn.unwrap();
    assert_eq!(drawn.len(), 1);
    assert!((drawn[0].ph.value() - 7.0).abs() < 1e-12);
}

/// Stoichiometry: the landmarks lie one total apart, the reaction conserves it, and going
/// to a landmark gets there.
#[test]
fn landmarks_and_complete_reactions() {
    let amounts = (-6.0..0.0, -6.0..0.0, -6.0..0.0, any::<bool>());
    let keys = proptest::sample::select(vec![
        ("propanoic", 1),
        ("ammonium", 1),
        ("phosphoric", 2),
        ("citric", 1),
    ]);
    check(
        &(keys, amounts),
        |((key, protons), (acid, base, strong, is_alkali))| {
            let pair = pair(key, protons);
            let amount = |power: f64| Amount::from_mol(libm::exp10(power)).unwrap();
            let (acid, base, strong) = (amount(acid), amount(base), amount(strong));
            let start = buffer(&pair, acid, base);
            let with = |mixture: Mixture, by: SignedAmount| match by.mol() < 0.0 {
                true => mixture.with_strong_acid(by.size(), Charge::One),
                false => mixture.with_strong_alkali(by.size(), Charge::One),
            };
            let mixture = if is_alkali {
                start.with_strong_alkali(strong, Charge::One)
            } else {
                start.with_strong_acid(strong, Charge::One)
            };
            let total = (acid + base).mol();
            let near = |a: f64, b: f64| (a - b).abs() <= 1e-12 * (total + strong.mol());
            let marks = pair.landmarks(&mixture).unwrap();
            prop_assert!(near(marks.all_base.mol() - marks.all_acid.mol(), total));
            prop_assert!(near(
                marks.all_base.mol() + marks.all_acid.mol(),
                2.0 * marks.half.mol()
            ));

            let done = pair.complete_reaction(&mixture).unwrap();
            prop_assert!(near(done.acid.mol() + done.base.mol(), total));
            let from_base = if is_alkali {
                -strong.mol()
            } else {
                strong.mol()
            };
            let spilled = done.excess_hydrogen.mol() - done.excess_hydroxide.mol();
            prop_assert!(near(acid.mol() + from_base, done.acid.mol() + spilled));
            let none_left = (done.excess_hydrogen == Amount::ZERO || near(done.base.mol(), 0.0))
                && (done.excess_hydroxide == Amount::ZERO || near(done.acid.mol(), 0.0));
            prop_assert!(none_left, "{:?}", done);

            let half = pair
                .complete_reaction(&with(mixture.clone(), marks.half))
                .unwrap();
            prop_assert!(near(half.acid.mol(), half.base.mol()), "{:?}", half);
            let reserves = pair.reserves(
                &mixture,
                &solve(&mixture, &Conditions::classroom()).unwrap(),
            );
            prop_assert!(reserves.acid.mol() + reserves.base.mol() <= total * (1.0 + 1e-12));
            Ok(())
        },
    );
    let absent = pair("ammonium", 1);
    let other = buffer(&pair("propanoic", 1), mmol(1.0), mmol(1.0));
    assert!(absent.landmarks(&other).is_none() && absent.complete_reaction(&other).is_none());
    assert!(Pair::new(absent.system(), 0).is_none() && Pair::new(absent.system(), 2).is_none());
}
