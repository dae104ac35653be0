//! Worked solutions against an open textbook.

use evenkeel::lesson::sums::form::{Form, Problem, Variant};
use evenkeel::lesson::sums::symbol::Symbol;

use crate::published::{Check, check_table, last_digit, rows};
use crate::sums::{ACID, ALKALI, problem};

/// The book's answers from our sheets, in units of the last printed digit: where a row of the
/// table has one of the forms.
#[test]
fn forms_against_a_textbook() {
    use Symbol::{Hydrogen, Hydroxide, Ph};
    let kb = Variant {
        from_kb: true,
        ..ACID
    };
    let ka_of = |kb: f64| 1e-14 / kb;
    let acetic = |form, variant, values: &[f64]| problem(form, variant, "ethanoic", values);
    let amine = |form, variant, values: &[f64]| problem(form, variant, "ammonium", values);
    let cases = [
        (
            "T01",
            Ph,
            acetic(Form::Concentrations, ACID, &[1.8e-5, 0.10, 0.10]),
        ),
        (
            "T05",
            Hydrogen,
            acetic(Form::Concentrations, ACID, &[1.8e-5, 0.25, 0.030]),
        ),
        (
            "T07",
            Ph,
            amine(Form::Concentrations, kb, &[1.8e-5, 0.40, 0.20]),
        ),
        (
            "T09",
            Ph,
            acetic(
                Form::AddedAcid,
                ACID,
                &[1.80e-5, 0.100, 0.300, 0.200, 0.034, 0.00300],
            ),
        ),
        (
            "T15",
            Ph,
            acetic(
                Form::Equivalence,
                ALKALI,
                &[1.8e-5, 0.100, 0.02500, 0.100, 0.02500],
            ),
        ),
        (
            "T17",
            Ph,
            acetic(
                Form::Exhausted,
                ALKALI,
                &[1.8e-5, 0.100, 0.0, 0.02500, 0.100, 0.03750],
            ),
        ),
        (
            "T19",
            Ph,
            problem(
                Form::AcidWithAlkali,
                ALKALI,
                "methanoic",
                &[1.8e-4, 0.100, 0.0500, 0.200, 0.0150],
            ),
        ),
        (
            "T21",
            Ph,
            problem(
                Form::Exhausted,
                ALKALI,
                "methanoic",
                &[1.8e-4, 0.100, 0.0, 0.0500, 0.200, 0.0300],
            ),
        ),
        (
            "T23",
            Hydroxide,
            amine(Form::WeakAcidAlone, ALKALI, &[ka_of(6.3e-5), 0.25]),
        ),
        (
            "T25",
            Hydroxide,
            amine(Form::WeakAcidAlone, ALKALI, &[ka_of(1.76e-5), 0.0325]),
        ),
        (
            "T27",
            Hydrogen,
            acetic(Form::WeakAcidAlone, ACID, &[4.3e-7, 0.033]),
        ),
    ];
    let all = rows("textbook_examples");
    let check = |(id, symbol, problem): &(&str, Symbol, Problem)| -> Check {
        let row = all.iter().find(|row| row.text("id") == *id).unwrap();
        let printed = row.text("published_answer");
        let unit = last_digit(printed);
        let ours = problem.sheet.right().get(*symbol).unwrap();
        let (ours, theirs) = (
            libm::round(ours / unit),
            libm::round(row.number("published_answer") / unit),
        );
        row.check(format!("{id} {printed} {:?}", problem.form), ours, theirs)
    };
    let checks: Vec<Check> = cases.iter().map(check).collect();
    check_table(
        "forms against textbook answers, units of the last printed digit",
        1.0,
        &checks,
    );
}
