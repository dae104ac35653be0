//! The engine against a reference library: the same random mixtures solved by both, in
//! one run.
//!
//! `tests/reference/mixtures.py` draws the mixtures (fixed seed) and
//! `tests/reference/equilibrium.py` solves them in 60-digit arithmetic with mpmath, by its
//! own equations and from exact rational totals, and prints 30 digits. Here each is made again by the steps of its
//! recipe through the public mixing functions, and every figure is compared.
//!
//! Source of the expected figures: the definitions of the two models, evaluated by mpmath
//! (a general-purpose arithmetic library); no published table is involved.

use std::io::Write;
use std::process::{Command, Output, Stdio};

use evenkeel::chem::buffer::capacity;
use evenkeel::chem::equilibrium::{Conditions, Equilibrium, Model, solve};
use evenkeel::chem::quantity::Celsius;

use crate::recipes::{Answer, Case, Document};

/// What is promised is 1e-9; charges that are summed exactly allow a thousandth of it. A
/// plain sum of them is off by up to 7e-10 where salts are dense and water near neutral,
/// and would not pass.
const PH_TOLERANCE: f64 = 1e-12;

/// Relative. An error of 1e-12 in pH is one of 2.3e-12 in a(H⁺), and a form three protons
/// away from the dominant one moves by its cube: 7e-12. Nothing else may add to that.
const CONCENTRATION_TOLERANCE: f64 = 1e-11;

/// Of concentrations below this only the smallness is compared: they are less than one
/// particle in a million cubic meters, and near the smallest normal number the last bits go.
const LEAST_COMPARED: f64 = 1e-30;

/// At least this many mixtures, two models each.
const MIXTURES: usize = 1200;

/// One compared figure: what it is, where, the deviation and the limit.
struct Compared {
    quantity: &'static str,
    place: String,
    deviation: f64,
    tolerance: f64,
}

/// Runs one of the Python programs with `input` on its standard input.
fn python(program: &str, input: &[u8]) -> Vec<u8> {
    let interpreter = std::env::var("EVENKEEL_PYTHON").unwrap_or_else(|_| "python3".into());
    let path = format!("{}/tests/reference/{program}", env!("CARGO_MANIFEST_DIR"));
    let missing = format!(
        "{interpreter} could not run {program}. The reference needs Python 3.9 or newer with \
         the mpmath of tests/reference/requirements.txt: `make test` installs both, or set \
         EVENKEEL_PYTHON to such an interpreter"
    );
    let mut child = Command::new(&interpreter)
        .arg(path)
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("{missing}: {error}"));
    // The programs read all their input before they write, so this cannot block for ever.
    child
        .stdin
        .take()
        .unwrap()
        .write_all(input)
        .unwrap_or_else(|e| panic!("{missing}: {e}"));
    let Output {
        status,
        stdout,
        stderr,
    } = child.wait_with_output().unwrap();
    assert!(
        status.success(),
        "{missing}:\n{}",
        String::from_utf8_lossy(&stderr)
    );
    stdout
}

fn relative(ours: f64, reference: &str) -> f64 {
    let reference: f64 = reference.parse().unwrap();
    if reference.abs() >= LEAST_COMPARED {
        ours / reference - 1.0
    } else if ours.abs() < 2.0 * LEAST_COMPARED {
        0.0
    } else {
        f64::INFINITY
    }
}

#[test]
fn a_vanishing_reference_binds_too() {
    assert_eq!(relative(3e-31, "1e-40"), 0.0);
    assert_eq!(relative(0.0, "0.0"), 0.0);
    for wrong in [1.0, -1.0, 3e-30, f64::NAN] {
        assert!(relative(wrong, "1e-40").abs() > CONCENTRATION_TOLERANCE);
    }
    assert!(relative(0.0, "1e-29").abs() > CONCENTRATION_TOLERANCE);
}

fn check(case: &Case, answer: &Answer) -> Vec<Compared> {
    assert_eq!(case.id, answer.id);
    let model = if case.model == "davies" {
        Model::Davies
    } else {
        Model::Ideal
    };
    let conditions = Conditions {
        model,
        temperature: Celsius::STANDARD,
        pkw: case.pkw,
        debye_huckel_a: case.debye_huckel_a,
    };
    let mixture = case.mixed();
    let place = format!("{} mixture {} ({})", case.model, case.mixture, case.family);
    let solved: Equilibrium =
        solve(&mixture, &conditions).unwrap_or_else(|e| panic!("{place}: {e:?}"));
    let compared = |quantity, deviation: f64, tolerance| Compared {
        quantity,
        place: place.clone(),
        deviation,
        tolerance,
    };
    let ph: f64 = answer.ph.parse().unwrap();
    let near = CONCENTRATION_TOLERANCE;
    let mut all = vec![
        compared("pH", solved.ph().value() - ph, PH_TOLERANCE),
        compared("[H+]", relative(solved.hydrogen().molar(), &answer.h), near),
        compared(
            "[OH-]",
            relative(solved.hydroxide().molar(), &answer.oh),
            near,
        ),
        compared(
            "I",
            relative(solved.ionic_strength(), &answer.ionic_strength),
            near,
        ),
    ];
    for (system, forms) in answer.species.iter().enumerate() {
        // A system that was drawn but never entered is not in the mixture.
        for (lost, form) in forms.iter().enumerate() {
            let protons = (forms.len() - 1 - lost) as u8;
            let ours = solved.form(system, protons).unwrap().concentration.molar();
            all.push(compared("species", relative(ours, form), near));
        }
    }
    if model == Model::Ideal {
        let beta = capacity(&mixture, &conditions).unwrap().molar();
        all.push(compared(
            "beta",
            relative(beta, &answer.buffer_capacity),
            near,
        ));
    }
    all
}

#[test]
fn random_mixtures_against_the_reference_library() {
    let drawn = python("mixtures.py", b"");
    let solved = python("equilibrium.py", &drawn);
    let cases: Document<Case> = serde_json::from_slice(&drawn).unwrap();
    let answers: Document<Answer> = serde_json::from_slice(&solved).unwrap();
    assert_eq!(cases.cases.len(), answers.cases.len());
    assert!(
        cases.cases.len() >= 2 * MIXTURES,
        "only {} cases",
        cases.cases.len()
    );

    let mut all = Vec::new();
    for (case, answer) in cases.cases.iter().zip(&answers.cases) {
        all.extend(check(case, answer));
    }
    let several = answers.cases.iter().filter(|a| a.roots > 1).count();
    println!(
        "reference: {} cases, {several} with more than one ionic strength",
        cases.cases.len()
    );
    for model in ["ideal", "davies"] {
        for quantity in ["pH", "[H+]", "[OH-]", "I", "species", "beta"] {
            let of_it = all
                .iter()
                .filter(|c| c.quantity == quantity && c.place.starts_with(model));
            let count = of_it.clone().count();
            let size = |c: &&Compared| c.deviation.abs();
            if let Some(worst) = of_it.max_by(|a, b| size(a).total_cmp(&size(b))) {
                println!(
                    "  {quantity}, {model}: {count} compared, largest {:+.1e} (asked {:.0e}) at {}",
                    worst.deviation, worst.tolerance, worst.place
                );
            }
        }
    }
    let wrong: Vec<String> = all
        .iter()
        .filter(|c| c.deviation.is_nan() || c.deviation.abs() > c.tolerance)
        .map(|c| format!("{} off by {:+.2e}: {}", c.quantity, c.deviation, c.place))
        .collect();
    assert!(
        wrong.is_empty(),
        "{} figures differ:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}
