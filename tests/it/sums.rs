//! The published worked layouts of the teaching brief's own numbers: every form's right way
//! and its slips. Common practice, no source: the numbers are invented and were worked by
//! hand; the forms' agreement with published examples is checked in `worked.rs`.

use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::notation::PairNames;
use evenkeel::lesson::sums::form::{Datum, Form, Problem, Variant};
use evenkeel::lesson::sums::sheet::Otherwise;
use evenkeel::lesson::sums::slip::{Slip, ways};
use evenkeel::lesson::sums::symbol::{Symbol, Unit};

fn names(key: &str) -> PairNames {
    use evenkeel::chem::{buffer::Pair, systems};
    let entry = systems::find(key).unwrap();
    let pair = Pair::new(entry.system, 1).unwrap();
    PairNames::new(&pair, Some(entry), entry.classroom)
}

pub fn problem(form: Form, variant: Variant, key: &str, values: &[f64]) -> Problem {
    let given = Problem::given(form, variant);
    assert_eq!(given.len(), values.len(), "{form:?}");
    let data: Vec<_> = given
        .into_iter()
        .zip(values)
        .map(|(symbol, &value)| Datum {
            symbol,
            value,
            figures: if symbol.unit() == Unit::Scale { 2 } else { 3 },
        })
        .collect();
    Problem::new(form, variant, names(key), &data)
}

pub const ACID: Variant = Variant::plain(Reagent::Acid);
pub const ALKALI: Variant = Variant::plain(Reagent::Alkali);
pub const KA: f64 = 1.74e-5;

/// The answer, and the answers of some slips, each within half of its last printed digit.
fn check(problem: &Problem, answer: f64, slips: &[(Slip, f64)]) {
    let within = |value: f64, wanted: f64| (value - wanted).abs() <= 0.0051 * wanted.abs().max(1.0);
    let right = problem.sheet.right().get(problem.answer()).unwrap();
    assert!(
        within(right, answer),
        "{:?}: {right} for {answer}",
        problem.form
    );
    let ways = ways(problem);
    for &(slip, wanted) in slips {
        let values: Vec<f64> = ways
            .iter()
            .filter(|way| way.slip == slip)
            .filter_map(|way| {
                let formulas = &way.formulas;
                let otherwise = Otherwise {
                    formulas,
                    fixed: &[],
                };
                problem.sheet.values(otherwise).get(problem.answer())
            })
            .collect();
        assert!(
            values.iter().any(|&value| within(value, wanted)),
            "{:?} {slip:?}: {values:?} for {wanted}",
            problem.form
        );
    }
}

#[test]
fn every_layout_and_its_slips() {
    let q1 = problem(Form::Concentrations, ACID, "ethanoic", &[KA, 0.120, 0.200]);
    check(
        &q1,
        4.98,
        &[
            (Slip::RatioInverted, 4.54),
            (Slip::WeakAcidShortcut, 2.84),
            (Slip::SaltAsAcid, 2.73),
            (Slip::WeakAsStrong, 0.92),
            (Slip::NaturalLogarithm, 11.47),
            (Slip::MinusDropped, -4.98),
            (Slip::NeedlessComplement, 9.02),
            (Slip::ShareOfTotal, 4.56),
        ],
    );
    let q2 = problem(
        Form::TwoVolumes,
        ACID,
        "ethanoic",
        &[KA, 0.150, 0.0400, 0.0800, 0.0600],
    );
    check(
        &q2,
        4.66,
        &[
            (Slip::StockConcentrations, 4.49),
            (Slip::VolumesAsRatio, 4.94),
            (Slip::OneDiluted, 4.88),
            (Slip::OneDiluted, 4.26),
        ],
    );
    let q3 = problem(
        Form::AcidWithAlkali,
        ALKALI,
        "ethanoic",
        &[KA, 0.200, 0.0500, 0.150, 0.0200],
    );
    check(
        &q3,
        4.39,
        &[
            (Slip::StartingAcidKept, 4.24),
            (Slip::StartingAcidAsBase, 4.91),
            (Slip::AlkaliAddedToAcid, 4.12),
            (Slip::HalfAssumed, 4.76),
            (Slip::SaltIgnored, 2.88),
            (Slip::StockConcentrations, 4.63),
            (Slip::EarlyRounding, 4.40),
        ],
    );
    let q4 = problem(
        Form::BaseWithAcid,
        ACID,
        "ammonium",
        &[5.62e-10, 0.160, 0.0500, 0.100, 0.0200],
    );
    check(
        &q4,
        9.73,
        &[(Slip::PohAsPh, 4.27), (Slip::AlkalinePairInverted, 8.77)],
    );
    let kb = Variant {
        from_kb: true,
        ..ACID
    };
    let q4 = problem(
        Form::BaseWithAcid,
        kb,
        "ammonium",
        &[1e-14 / 5.62e-10, 0.160, 0.0500, 0.100, 0.0200],
    );
    check(&q4, 9.73, &[(Slip::KbAsKa, 5.23)]);
    let mut q5 = problem(
        Form::SaltMass,
        ACID,
        "ethanoic",
        &[KA, 2.46, 82.0, 0.180, 0.250],
    );
    q5.other_molar_masses = vec![60.1, 136.1];
    check(
        &q5,
        4.58,
        &[
            (Slip::AmountOverConcentration, 3.98),
            (Slip::AmountOverConcentration, 5.19),
            (Slip::VolumeUnconverted, 1.58),
            (Slip::WrongMolarMass, 4.72),
            (Slip::WrongMolarMass, 4.36),
            (Slip::GramsAsMoles, 6.50),
        ],
    );
    let added = [KA, 0.100, 0.150, 0.100, 0.200, 0.00500];
    let q6 = problem(Form::AddedAcid, ACID, "ethanoic", &added);
    check(
        &q6,
        4.86,
        &[
            (Slip::WrongFormSubtracted, 5.01),
            (Slip::OnlyAcidChanged, 4.89),
            (Slip::OnlyBaseChanged, 4.91),
            (Slip::AddedDirectly, 2.00),
            (Slip::MolesToConcentrations, 4.93),
        ],
    );
    let sulfuric = Variant { ions: 2, ..ACID };
    let q6 = problem(Form::AddedAcid, sulfuric, "ethanoic", &added);
    check(&q6, 4.79, &[(Slip::OneToOneAssumed, 4.86)]);
    check(
        &problem(Form::AddedAlkali, ALKALI, "ethanoic", &added),
        5.01,
        &[],
    );
    let q7 = problem(
        Form::RecipeBySalt,
        ACID,
        "ethanoic",
        &[KA, 5.00, 0.100, 0.250, 82.0],
    );
    check(
        &q7,
        3.57,
        &[
            (Slip::RecipeVolumeForgotten, 14.3),
            (Slip::RatioInverted, 1.18),
        ],
    );
    let q7b = problem(
        Form::RecipeByAlkali,
        ALKALI,
        "ethanoic",
        &[KA, 5.00, 0.200, 0.100, 1.0],
    );
    check(
        &q7b,
        0.0127,
        &[
            (Slip::AlkaliShareForgotten, 0.0348),
            (Slip::RatioInverted, 0.00730),
        ],
    );
    let q8 = problem(Form::Dilution, ACID, "ethanoic", &[KA, 0.120, 0.200, 10.0]);
    check(&q8, 4.98, &[(Slip::DilutionShiftsPh, 5.98)]);
    let exhausted = [KA, 0.100, 0.150, 0.100, 0.200, 0.100];
    let q9 = problem(Form::Exhausted, ACID, "ethanoic", &exhausted);
    check(
        &q9,
        1.60,
        &[
            (Slip::TotalVolumeOmitted, 1.30),
            (Slip::ExhaustionIgnored, 3.98),
        ],
    );
    check(
        &problem(Form::Exhausted, ALKALI, "ethanoic", &exhausted),
        12.70,
        &[],
    );
    let q10 = problem(Form::HalfNeutralized, ALKALI, "ethanoic", &[0.0240, 4.20]);
    check(&q10, 6.3e-5, &[]);
    let q12 = problem(Form::KaFromPh, ACID, "ethanoic", &[0.0500, 0.0400, 3.80]);
    check(&q12, 1.27e-4, &[]);
    let equal = problem(
        Form::Equivalence,
        ALKALI,
        "ethanoic",
        &[KA, 0.200, 0.0500, 0.200, 0.0500],
    );
    check(&equal, 8.88, &[(Slip::NeutralAtEquivalence, 7.0)]);
    assert_eq!(q10.sheet.right().get(Symbol::HalfVolume), Some(0.0120));
}
