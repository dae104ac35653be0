//! The working of every kind of bench against its reading.

use evenkeel::app::pair::PairChoice;
use evenkeel::app::recipe::{Field, Method};
use evenkeel::app::words::working::{working_html, working_plain, working_spoken};
use evenkeel::lesson::sums::solution::{Because, Note, Subject};

use super::markup::is_well_formed;
use super::{bench, working};
use crate::short_form::short_form;
use crate::writers::POINT;

/// The first pair of phosphoric acid: its other steps do nothing there, for the quadratic of
/// one step alone, Ka = [H⁺](c(A⁻) + [H⁺])/(c(HA) − [H⁺]) (common practice, no source), gives
/// the pH of the full balance. So it is the free H⁺ that must be named.
#[test]
fn a_step_that_does_not_count_is_not_blamed() {
    let first = PairChoice::Listed("phosphoric", 3);
    let (working, reading) = working(&bench(first, Method::TwoSolutions, &[], 0, 0));
    let ka = libm::exp10(-reading.setup.pair.pka().value());
    let c = 0.05;
    let b = c + ka;
    let h = (-b + libm::sqrt(b * b + 4.0 * ka * c)) / 2.0;
    assert!((reading.now.ph().value() + libm::log10(h)).abs() < 0.001);
    let last = working.solution.steps.last().unwrap();
    let Some(Note::Against { because, .. }) = last.notes.last() else {
        panic!("no verdict");
    };
    assert_eq!(*because, Because::FreeIons);
    // Where they do count they are named: the second step of citric acid lies close to the first.
    let citric = PairChoice::Listed("citric", 3);
    let (working, _) = self::working(&bench(citric, Method::TwoSolutions, &[], 0, 0));
    let last = working.solution.steps.last().unwrap();
    let Some(Note::Against { because, .. }) = last.notes.last() else {
        panic!("no verdict");
    };
    assert_eq!(*because, Because::OtherSteps);
}

/// Every kind of bench: the steps end with the readout's own pH, the sheet is the short form
/// of the amounts, and what is said of it is true.
#[test]
fn every_bench_has_a_working_that_agrees_with_its_reading() {
    let mut seen = 0;
    for &pair in evenkeel::app::recipe::PAIRS {
        for method in [Method::TwoSolutions, Method::PartNeutralized] {
            for strong in ["0", "0.050", "0.100", "0.200", "0.300"] {
                for (acid, alkali) in [
                    (0, 0),
                    (10, 0),
                    (0, 10),
                    (150, 0),
                    (0, 150),
                    (7, 7),
                    (200, 30),
                    (5, 300),
                ] {
                    let texts = [
                        (Field::AcidConcentration, strong),
                        (Field::StrongConcentration, strong),
                    ];
                    let bench = bench(pair, method, &texts, acid, alkali);
                    let (working, reading) = working(&bench);
                    let steps = &working.solution.steps;
                    let last = steps.last().unwrap();
                    assert_eq!(last.subject, Subject::FullBalance);
                    let Some(Note::Against { short, full, .. }) = last.notes.last() else {
                        panic!("{bench:?}: no verdict");
                    };
                    assert_eq!(*full, reading.now.ph());
                    assert_eq!(working.problem.is_some(), short.is_some(), "{bench:?}");
                    let pair = &reading.setup.pair;
                    let complete = pair.complete_reaction(&reading.now.mixture).unwrap();
                    let none = 1e-9 * (complete.acid + complete.base).mol();
                    let is_buffer = complete.acid.mol() > none && complete.base.mol() > none;
                    if is_buffer {
                        let ratio = short_form(pair.pka().value(), complete.acid, complete.base);
                        let short = short.unwrap().value();
                        assert!((short - ratio).abs() < 1e-9, "{bench:?}: {short}");
                    }
                    let excess = complete
                        .excess_hydrogen
                        .mol()
                        .max(complete.excess_hydroxide.mol());
                    if let (true, Some(short)) = (excess > none, short) {
                        let excess = excess / reading.now.volume().dm3();
                        let free = libm::exp10(-(short.value() - 7.0).abs()) * 1e-7;
                        let ion = 1e-14 / free;
                        assert!(
                            (ion / excess - 1.0).abs() < 1e-6,
                            "{bench:?}: {ion} for {excess}"
                        );
                    }
                    for form in [
                        working_html(&working, POINT),
                        working_plain(&working, POINT),
                        working_spoken(&working, POINT),
                    ] {
                        assert!(!form.contains(['@', '~', '|', '$', '#']), "{form}");
                        assert!(!form.contains("NaN") && !form.contains("inf "), "{form}");
                    }
                    is_well_formed(&working_html(&working, POINT));
                    seen += 1;
                }
            }
        }
    }
    assert_eq!(seen, evenkeel::app::recipe::PAIRS.len() * 2 * 5 * 8);
}
