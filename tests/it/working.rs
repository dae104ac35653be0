//! Worked solutions: here as text, and where each number comes from.

mod balance;
mod benches;
mod markup;
mod textbook;

use evenkeel::app::bench::Bench;
use evenkeel::app::pair::PairChoice;
use evenkeel::app::reading::Reading;
use evenkeel::app::recipe::{Field, Method, Recipe};
use evenkeel::app::words::worked_line::worked_line;
use evenkeel::app::words::working::{solution_html, solution_plain, working_plain};
use evenkeel::app::working::Working;
use evenkeel::lesson::sums::form::{FORMS, Form, PhBy, Problem, Variant};
use evenkeel::lesson::sums::question::question;
use evenkeel::lesson::sums::solution::{Origin, Solution};
use evenkeel::lesson::sums::symbol::Symbol;
use evenkeel::lesson::sums::written::Pen;

use crate::sums::{ACID, ALKALI, KA, problem};
use crate::writers::POINT;

/// The layouts of a lesson with ethanoic acid, Ka = 1.74×10⁻⁵ mol dm⁻³, and ammonia.
fn layouts() -> Vec<(&'static str, Problem)> {
    let added = [KA, 0.100, 0.150, 0.100, 0.200, 0.00500];
    let twice = Variant { ions: 2, ..ACID };
    let kb = Variant {
        from_kb: true,
        ..ACID
    };
    let of = |form, variant, values: &[f64]| problem(form, variant, "ethanoic", values);
    vec![
        ("01", of(Form::Concentrations, ACID, &[KA, 0.120, 0.200])),
        (
            "02",
            of(Form::TwoVolumes, ACID, &[KA, 0.150, 0.0400, 0.0800, 0.0600]),
        ),
        (
            "03",
            of(
                Form::AcidWithAlkali,
                ALKALI,
                &[KA, 0.200, 0.0500, 0.150, 0.0200],
            ),
        ),
        (
            "04",
            problem(
                Form::BaseWithAcid,
                kb,
                "ammonium",
                &[1.78e-5, 0.160, 0.0500, 0.100, 0.0200],
            ),
        ),
        (
            "05",
            of(Form::SaltMass, ACID, &[KA, 2.46, 82.0, 0.180, 0.250]),
        ),
        ("06_acid", of(Form::AddedAcid, ACID, &added)),
        ("06_two_ions", of(Form::AddedAcid, twice, &added)),
        ("06_alkali", of(Form::AddedAlkali, ALKALI, &added)),
        (
            "07_salt",
            of(Form::RecipeBySalt, ACID, &[KA, 5.00, 0.100, 0.250, 82.0]),
        ),
        (
            "07_alkali",
            of(
                Form::RecipeByAlkali,
                ALKALI,
                &[KA, 5.00, 0.200, 0.100, 1.00],
            ),
        ),
        ("08", of(Form::Dilution, ACID, &[KA, 0.120, 0.200, 10.0])),
        (
            "09",
            of(
                Form::Exhausted,
                ACID,
                &[KA, 0.100, 0.150, 0.100, 0.200, 0.100],
            ),
        ),
        (
            "09_equivalence",
            of(
                Form::Equivalence,
                ALKALI,
                &[KA, 0.200, 0.0500, 0.200, 0.0500],
            ),
        ),
        ("10", of(Form::HalfNeutralized, ALKALI, &[0.0240, 4.20])),
        ("12", of(Form::KaFromPh, ACID, &[0.0500, 0.0400, 3.80])),
        ("alone", of(Form::WeakAcidAlone, ACID, &[KA, 0.100])),
    ]
}

#[test]
fn layouts_as_text() {
    for (name, problem) in layouts() {
        let solution = Solution::of(&problem, Vec::new());
        let text = solution_plain(&problem, &solution, POINT);
        insta::assert_snapshot!(format!("layout_{name}"), text);
    }
}

#[test]
fn questions_as_text() {
    for form in FORMS {
        let question = question(form, 7);
        let solution = Solution::of_question(&question);
        let text = solution_plain(&question.problem, &solution, POINT);
        insta::assert_snapshot!(format!("question_{form:?}"), text);
    }
}

/// Every line of every sheet stands in some step, once, and every number's origin is a step
/// that works it out, or it is given.
#[test]
fn every_number_has_an_origin() {
    for form in FORMS {
        for seed in 0..200 {
            let question = question(form, seed);
            let solution = Solution::of_question(&question);
            let steps = &solution.steps;
            for symbol in question.problem.asked() {
                let count = steps
                    .iter()
                    .flat_map(|step| &step.lines)
                    .filter(|line| line.symbol == symbol)
                    .count();
                assert_eq!(count, 1, "{form:?} {seed} {symbol:?}");
            }
            for (place, step) in steps.iter().enumerate() {
                for (i, line) in step.lines.iter().enumerate() {
                    for term in &line.terms {
                        let right = question.problem.sheet.right().get(term.symbol);
                        assert_eq!(right, Some(term.value), "{form:?} {term:?}");
                        let Origin::Step(number) = term.origin else {
                            continue;
                        };
                        assert!(number <= place + 1, "{form:?} {term:?} comes later");
                        let made = &steps[number - 1].lines;
                        let at = made.iter().position(|l| l.symbol == term.symbol);
                        assert!(
                            at.is_some_and(|at| number <= place || at < i),
                            "{form:?} {seed}: {term:?} is not worked out in step {number}"
                        );
                    }
                }
            }
            // Every line that is asked for can be shown worked, or is a number by itself.
            let shown =
                |symbol, numbers| worked_line(&question.problem, &solution, symbol, numbers, POINT);
            for line in steps.iter().flat_map(|step| &step.lines) {
                let formula = shown(line.symbol, false);
                let whole = shown(line.symbol, true);
                assert!(formula.contains("<math"), "{form:?} {:?}", line.symbol);
                let (head, _) = formula.rsplit_once("</math>").unwrap();
                let math = head.split_once("<math").unwrap().1;
                assert!(whole.contains(math), "{form:?} {:?}", line.symbol);
                assert!(whole.len() > formula.len());
            }
            assert_eq!(shown(Symbol::Kw, true), "");
        }
    }
}

fn bench(
    pair: PairChoice,
    method: Method,
    texts: &[(Field, &str)],
    acid: u32,
    alkali: u32,
) -> Bench {
    let mut recipe = Recipe::default();
    recipe.pair = pair;
    recipe.method = method;
    for (field, text) in texts {
        recipe.set_text(*field, (*text).to_owned());
    }
    Bench {
        acid,
        alkali,
        ..Bench::new(recipe)
    }
}

fn working(bench: &Bench) -> (Working, Reading) {
    let reading = Reading::of(bench, bench.recipe.read().unwrap()).unwrap();
    (Working::of(bench, &reading, PhBy::Hydrogen), reading)
}

const PROPANOIC: PairChoice = PairChoice::Listed("propanoic", 1);

#[test]
fn benches_as_text() {
    use Field::{AcidConcentration, BaseConcentration, StrongConcentration, StrongVolume};
    use Method::{PartNeutralized, TwoSolutions};
    let ammonia = PairChoice::Listed("ammonium", 1);
    let phosphate = PairChoice::Listed("phosphoric", 2);
    let salt_only: &[(Field, &str)] = &[(AcidConcentration, "0")];
    let dilute: &[(Field, &str)] = &[(AcidConcentration, "0.0002"), (BaseConcentration, "0.0002")];
    let equal: &[(Field, &str)] = &[(StrongConcentration, "0.200")];
    let over: &[(Field, &str)] = &[(StrongConcentration, "0.200"), (StrongVolume, "150")];
    for (name, bench) in [
        ("start", bench(PROPANOIC, TwoSolutions, &[], 0, 0)),
        ("acid_added", bench(PROPANOIC, TwoSolutions, &[], 25, 0)),
        ("both_added", bench(PROPANOIC, TwoSolutions, &[], 5, 25)),
        ("used_up", bench(PROPANOIC, TwoSolutions, &[], 100, 0)),
        ("exhausted", bench(PROPANOIC, TwoSolutions, &[], 120, 0)),
        (
            "exhausted_after_both",
            bench(PROPANOIC, TwoSolutions, &[], 5, 125),
        ),
        (
            "part_neutralized",
            bench(ammonia, PartNeutralized, &[], 0, 0),
        ),
        (
            "equivalence",
            bench(PROPANOIC, PartNeutralized, equal, 0, 0),
        ),
        (
            "over_and_back",
            bench(PROPANOIC, PartNeutralized, over, 120, 0),
        ),
        ("salt_only", bench(PROPANOIC, TwoSolutions, salt_only, 0, 0)),
        ("dilute", bench(PROPANOIC, TwoSolutions, dilute, 0, 0)),
        ("phosphate", bench(phosphate, TwoSolutions, &[], 0, 0)),
        (
            "phosphate_used_up",
            bench(phosphate, TwoSolutions, &[], 120, 0),
        ),
    ] {
        let text = working_plain(&working(&bench).0, POINT);
        insta::assert_snapshot!(format!("bench_{name}"), text);
    }
}

#[test]
fn equations_read_aloud() {
    let mut text = String::new();
    for (layout, symbol) in [
        ("02", Symbol::Hydrogen),
        ("09_equivalence", Symbol::Hydroxide),
        ("07_alkali", Symbol::Strong),
    ] {
        let problem = layouts()
            .into_iter()
            .find(|(name, _)| *name == layout)
            .unwrap()
            .1;
        let pen = Pen {
            names: &problem.names,
            variant: problem.variant,
            writer: POINT,
        };
        let solution = Solution::of(&problem, Vec::new());
        let mut lines = solution.steps.iter().flat_map(|step| &step.lines);
        let rows = pen.rows(lines.find(|line| line.symbol == symbol).unwrap());
        for row in [Some(rows.symbols), rows.values, Some(rows.result)]
            .into_iter()
            .flatten()
        {
            text += &format!("{}\n  {}\n", pen.plain(&row), pen.spoken(&row));
        }
    }
    insta::assert_snapshot!("read_aloud", text);
}

#[test]
fn one_solution_as_markup() {
    let problem = &layouts()[1].1;
    let html = solution_html(problem, &Solution::of(problem, Vec::new()), POINT);
    insta::assert_snapshot!("markup", html.replace("</details>", "</details>\n"));
}
