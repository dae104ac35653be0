//! What must hold for every mixture, on mixtures drawn at random from a fixed seed.

use evenkeel::chem::activity::{ActivityCoefficients, DAVIES_LIMIT};
use evenkeel::chem::buffer::capacity;
use evenkeel::chem::equilibrium::{Conditions, DENSEST, Model, SolveError, solve, solve_ph};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Celsius, Pka, Volume};
use evenkeel::chem::systems::AcidSystem;
use proptest::prelude::*;

use crate::draws::{charge, check, mixed, parts};

fn davies() -> Conditions {
    Conditions::tabulated(Model::Davies, Celsius::STANDARD)
}

#[test]
fn every_mixture_has_an_answer_and_its_balances_close() {
    check(&parts(), |(parts, volume)| {
        let mixture = mixed(&parts, volume);
        for conditions in [Conditions::classroom(), davies()] {
            let solved = match solve(&mixture, &conditions) {
                // The Davies equation may have no self-consistent ionic strength.
                Err(SolveError::BeyondDavies) if conditions.model == Model::Davies => continue,
                other => other.map_err(|e| TestCaseError::fail(format!("{e:?}")))?,
            };
            // Mass: the forms of each system are its total.
            for (place, part) in mixture.weak().iter().enumerate() {
                let forms = solved.species().iter().filter(|s| s.system == place);
                let sum: f64 = forms.map(|s| s.amount.mol()).sum();
                let total = part.total.mol();
                prop_assert!((sum - total).abs() <= 1e-12 * total, "mass {sum} {total}");
            }
            // Charge, against the sum of the sizes of its terms.
            let spectators = mixture.spectators().map(|(z, n)| f64::from(z) * n.mol());
            let weak = solved
                .species()
                .iter()
                .map(|s| f64::from(s.charge) * s.amount.mol());
            let water = [solved.free_hydrogen().mol(), -solved.free_hydroxide().mol()];
            let terms: Vec<f64> = spectators.chain(weak).chain(water).collect();
            let (net, size) = (
                terms.iter().sum::<f64>(),
                terms.iter().map(|t| t.abs()).sum::<f64>(),
            );
            prop_assert!(net.abs() <= 1e-12 * size, "charge {net} of {size}");
            // Water's own equilibrium, in activities.
            let gamma = solved.activity_coefficients().of(1);
            let product = solved.hydrogen().molar() * solved.hydroxide().molar() * gamma * gamma;
            let pkw = -libm::log10(product);
            prop_assert!((pkw - conditions.pkw).abs() <= 1e-12, "pKw {pkw}");
            // The coefficients belong to the ionic strength of what is there.
            if conditions.model == Model::Davies {
                let strength = solved.ionic_strength();
                let belonging = ActivityCoefficients::davies(strength, conditions.debye_huckel_a);
                prop_assert!(
                    (gamma / belonging.of(1) - 1.0).abs() < 1e-10,
                    "I {strength}"
                );
            }
            let own = -libm::log10(solved.hydrogen().molar() * gamma);
            prop_assert!((own - solved.ph().value()).abs() <= 1e-12, "pH {own}");
        }
        Ok(())
    });
}

#[test]
fn each_step_keeps_its_constant() {
    check(&parts(), |(parts, volume)| {
        let mixture = mixed(&parts, volume);
        let solved = solve(&mixture, &Conditions::classroom()).unwrap();
        for (place, part) in mixture.weak().iter().enumerate() {
            for (lost, step) in part.system.steps().enumerate() {
                let protons = part.system.protons() - lost as u8;
                let amount = |p| solved.form(place, p).unwrap().amount.mol();
                let (acid, base) = (amount(protons), amount(protons - 1));
                // Below this the last bits of a number go.
                if acid > 1e-290 && base > 1e-290 {
                    let pka = solved.ph().value() + libm::log10(acid) - libm::log10(base);
                    prop_assert!((pka - step.pka.value()).abs() < 1e-11, "pKa {pka} {step:?}");
                }
            }
        }
        Ok(())
    });
}

#[test]
fn the_order_of_mixing_is_irrelevant() {
    check(&parts(), |(parts, volume)| {
        for conditions in [Conditions::classroom(), davies()] {
            let one = solve_ph(&mixed(&parts, volume), &conditions);
            let other = solve_ph(&mixed(parts.iter().rev(), volume), &conditions);
            match (one, other) {
                (Ok(one), Ok(other)) => {
                    prop_assert!(
                        (one.value() - other.value()).abs() <= 1e-12,
                        "{one:?} {other:?}"
                    );
                }
                (one, other) => prop_assert_eq!(one, other),
            }
        }
        Ok(())
    });
}

#[test]
fn strong_acid_never_raises_ph_and_alkali_never_lowers_it() {
    check(
        &(parts(), -12.0..0.5, charge()),
        |((parts, volume), size, ion)| {
            let conditions = Conditions::classroom();
            let mixture = mixed(&parts, volume);
            let amount = Amount::from_mol(libm::exp10(size) * volume).unwrap();
            let ph = |m: &Mixture| solve_ph(m, &conditions).unwrap().value();
            let before = ph(&mixture);
            let acid = ph(&mixture.clone().with_strong_acid(amount, ion));
            let alkali = ph(&mixture.with_strong_alkali(amount, ion));
            // Where the step is smaller than rounding, it may come out as the rounding.
            prop_assert!(acid <= before + 1e-13, "{before} to {acid}");
            prop_assert!(alkali >= before - 1e-13, "{before} to {alkali}");
            Ok(())
        },
    );
}

/// β against the slope between two additions, by the public functions only.
#[test]
fn capacity_is_the_slope_of_the_curve() {
    for (conditions, tolerance) in [(Conditions::classroom(), 1e-6), (davies(), 2e-6)] {
        check(&parts(), |(parts, volume)| {
            let mixture = mixed(&parts, volume);
            // Past the range of the Davies equation its slope may turn too sharply to compare.
            let solved = solve(&mixture, &conditions);
            if solved.is_ok_and(|s| {
                conditions.model == Model::Davies && s.ionic_strength() > DAVIES_LIMIT
            }) {
                return Ok(());
            }
            let beta = match capacity(&mixture, &conditions) {
                Err(SolveError::BeyondDavies) if conditions.model == Model::Davies => return Ok(()),
                other => other.unwrap().molar(),
            };
            // Over two small steps, and from both to none at all: with activities, either
            // reagent adds to the ionic strength, so the error is of the order of the step.
            let slope = |part: f64| {
                let amount = Amount::from_mol(part * beta * mixture.volume().dm3()).unwrap();
                let up = solve_ph(
                    &mixture.clone().with_strong_alkali(amount, Charge::One),
                    &conditions,
                );
                let down = solve_ph(
                    &mixture.clone().with_strong_acid(amount, Charge::One),
                    &conditions,
                );
                Some(2.0 * part * beta / (up.ok()?.value() - down.ok()?.value()))
            };
            let (Some(wide), Some(narrow)) = (slope(2e-4), slope(1e-4)) else {
                return Ok(());
            };
            let limit = 2.0 * narrow - wide;
            prop_assert!(
                (beta / limit - 1.0).abs() <= tolerance,
                "{beta} {limit} {wide}"
            );
            Ok(())
        });
    }
}

#[test]
fn what_cannot_be_solved_says_so() {
    let litre = Volume::from_dm3(1.0).unwrap();
    let huge = Amount::from_mol(f64::MAX).unwrap();
    let acid = AcidSystem::acid(Pka::new(4.8).unwrap());
    for conditions in [Conditions::classroom(), davies()] {
        let error = |mixture: &Mixture| solve(mixture, &conditions).unwrap_err();
        assert_eq!(error(&Mixture::water(Volume::ZERO)), SolveError::NoVolume);
        for volume in [1e-300, 1e-26, 1e26, 1e300] {
            let volume = Volume::from_dm3(volume).unwrap();
            assert_eq!(error(&Mixture::water(volume)), SolveError::NoVolume);
        }
        let dense = |amount: Amount| {
            [
                Mixture::water(litre).with_weak(acid, 1, amount, Charge::One),
                Mixture::water(litre).with_weak(acid, 0, amount, Charge::Three),
                Mixture::water(litre).with_strong_acid(amount, Charge::One),
                Mixture::water(litre).with_neutral_salt(amount, Charge::Two, Charge::Two),
                Mixture::water(litre).with_strong_alkali(amount, Charge::Three),
            ]
        };
        for amount in [huge, Amount::from_mol(DENSEST * 1.01).unwrap()] {
            for mixture in dense(amount) {
                let twice = mixture.clone().mixed_with(&mixture);
                for mixture in [mixture, twice] {
                    assert!(mixture.spectator_charge().is_finite());
                    let error = error(&mixture);
                    let typed =
                        matches!(error, SolveError::TooDense(c) if c.is_finite() && c > DENSEST);
                    assert!(typed, "{error:?} for {mixture:?}");
                }
            }
        }
        for pkw in [f64::NAN, f64::INFINITY, -1.0, 0.0, 400.0] {
            let broken = Conditions { pkw, ..conditions };
            assert_eq!(
                solve(&Mixture::water(litre), &broken).unwrap_err(),
                SolveError::Conditions
            );
        }
    }
    let salty = Mixture::water(litre).with_neutral_salt(
        Amount::from_mol(25.0).unwrap(),
        Charge::One,
        Charge::One,
    );
    assert_eq!(
        solve(&salty, &davies()).unwrap_err(),
        SolveError::BeyondDavies
    );
    assert!(solve(&salty, &Conditions::classroom()).is_ok());
}
