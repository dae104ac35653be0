//! Worked answers of an open textbook, with its own constants: ideal model, Kw = 1.0e-14,
//! to one unit of the last printed digit.

use evenkeel::chem::equilibrium::{Conditions, solve};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Concentration, Pka, Volume};
use evenkeel::chem::systems::{AcidSystem, Step};

use crate::published::{Check, Row, check_table, last_digit, rows};

fn cm3(value: f64) -> Volume {
    Volume::from_cm3(value).unwrap()
}

fn molar(value: f64) -> Concentration {
    Concentration::from_molar(value).unwrap()
}

/// The mixtures of the textbook: the neutral form of the weak system in one solution,
/// strong alkali and strong acid in another.
fn textbook_mixture(row: &Row) -> Mixture {
    let half = cm3(500.0);
    let amount = |column| molar(row.number(column)) * cm3(1000.0);
    let constants: Vec<Step> = row
        .text("Ka_list")
        .split_whitespace()
        .map(|ka| -libm::log10(ka.parse().unwrap()))
        .map(|pka| Step {
            pka: Pka::new(pka).unwrap(),
            heat: None,
        })
        .collect();
    let mut weak = Mixture::water(half);
    if !constants.is_empty() {
        let top = row.number("charge_of_fully_protonated_form") as i8;
        let acid = AcidSystem::new(top, &constants).unwrap();
        let neutral = acid.protons() - top as u8;
        weak = weak.with_weak(acid, neutral, amount("weak_total_mol_per_dm3"), Charge::One);
    }
    let strong = Mixture::water(half)
        .with_strong_alkali(amount("strong_cation_mol_per_dm3"), Charge::One)
        .with_strong_acid(amount("strong_anion_mol_per_dm3"), Charge::One);
    weak.mixed_with(&strong)
}

#[test]
fn textbook_answers() {
    let conditions = Conditions::classroom();
    let check = |row: Row| {
        let printed = row.text("published_answer");
        let unit = last_digit(printed);
        let solved = solve(&textbook_mixture(&row), &conditions).unwrap();
        let computed = match row.text("quantity") {
            "pH" => solved.ph().value(),
            "[H3O+] M" => solved.hydrogen().molar(),
            "[OH-] M" => solved.hydroxide().molar(),
            other => panic!("unknown quantity {other}"),
        };
        let reason = (row.text("id") == "T25")
            .then_some("the book neglects ionization and prints sqrt(Kb c), 8 units off");
        // In units of the last printed digit, after rounding to it.
        let (ours, theirs) = (
            libm::round(computed / unit),
            libm::round(row.number("published_answer") / unit),
        );
        row.check(format!("{} {printed}", row.text("id")), ours, theirs)
            .known_failure(reason)
    };
    let checks: Vec<Check> = rows("textbook_examples").into_iter().map(check).collect();
    check_table(
        "textbook answers, units of the last printed digit",
        1.0,
        &checks,
    );
}

#[test]
fn textbook_answer_that_neglects_ionization() {
    let all = rows("textbook_examples");
    let row = all.iter().find(|row| row.text("id") == "T25").unwrap();
    let (printed, concentration) = (
        row.text("published_answer"),
        row.number("weak_total_mol_per_dm3"),
    );
    let kb = 1e-14 / row.text("Ka_list").parse::<f64>().unwrap();
    let short = libm::sqrt(kb * concentration);
    let check = row.check(
        "T25 as sqrt(Kb c)".into(),
        short / last_digit(printed),
        row.number("published_answer") / last_digit(printed),
    );
    check_table("textbook answer by the book's own shortcut", 1.0, &[check]);
}
