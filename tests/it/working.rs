//! Worked solutions: as text, against the full balance, against a textbook, and as markup.

use evenkeel::app::bench::Bench;
use evenkeel::app::pair::PairChoice;
use evenkeel::app::reading::Reading;
use evenkeel::app::recipe::{Field, Method, Recipe};
use evenkeel::app::words::worked_line::worked_line;
use evenkeel::app::words::working::{
    solution_html, solution_plain, solution_spoken, working_html, working_plain, working_spoken,
};
use evenkeel::app::working::Working;
use evenkeel::chem::buffer::Pair;
use evenkeel::chem::equilibrium::{Conditions, solve};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Volume};
use evenkeel::chem::systems::AcidSystem;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::hydrogen_ion::HydrogenIon;
use evenkeel::lesson::sig_fig::{DecimalMark, PhDecimals, Writer};
use evenkeel::lesson::sums::form::{FORMS, Form, PhBy, Problem, Variant};
use evenkeel::lesson::sums::question::question;
use evenkeel::lesson::sums::solution::{Because, Note, Origin, Solution, Subject};
use evenkeel::lesson::sums::symbol::Symbol;
use evenkeel::lesson::sums::written::Pen;

use crate::published::{Check, check_table, last_digit, rows};
use crate::sums::{ACID, ALKALI, KA, problem};

const WRITER: Writer = Writer {
    mark: DecimalMark::Point,
    ph_decimals: PhDecimals::Two,
    ion: HydrogenIon::Bare,
};

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
        let text = solution_plain(&problem, &solution, WRITER);
        insta::assert_snapshot!(format!("layout_{name}"), text);
    }
}

#[test]
fn questions_as_text() {
    for form in FORMS {
        let question = question(form, 7);
        let solution = Solution::of_question(&question);
        let text = solution_plain(&question.problem, &solution, WRITER);
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
            let shown = |symbol, numbers| {
                worked_line(&question.problem, &solution, symbol, numbers, WRITER)
            };
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

/// The mixture that a problem is about: its weak system, amounts in mol of acid form, base
/// form and strong reagent, and the volume; and the pH that its answer stands for.
fn mixture(problem: &Problem) -> (Mixture, Pair, f64) {
    use Symbol::*;
    let right = problem.sheet.right();
    let get = |symbol| right.get(symbol).unwrap();
    let ka = evenkeel::chem::quantity::Pka::new(-libm::log10(get(Ka))).unwrap();
    let system = if problem.names.alkaline {
        AcidSystem::cationic_acid(ka)
    } else {
        AcidSystem::acid(ka)
    };
    // Where a question says nothing of the concentration, it is one of a classroom.
    let any = 0.1;
    let (acid, base, strong, volume) = match problem.form {
        Form::Concentrations | Form::KaFromPh => {
            (get(AcidConcentration), get(BaseConcentration), 0.0, 1.0)
        }
        Form::TwoVolumes => (get(Acid), get(Base), 0.0, get(AcidVolume) + get(BaseVolume)),
        Form::AcidWithAlkali => (
            get(AcidStock) * get(AcidVolume),
            0.0,
            get(StrongStock) * get(StrongVolume),
            get(AcidVolume) + get(StrongVolume),
        ),
        Form::BaseWithAcid => (
            0.0,
            get(BaseStock) * get(BaseVolume),
            get(StrongStock) * get(StrongVolume),
            get(BaseVolume) + get(StrongVolume),
        ),
        Form::SaltMass => (
            get(AcidStock) * get(BufferVolume),
            get(Mass) / get(MolarMass),
            0.0,
            get(BufferVolume),
        ),
        Form::AddedAcid | Form::AddedAlkali | Form::Exhausted => (
            get(AcidConcentration) * get(BufferVolume),
            get(BaseConcentration) * get(BufferVolume),
            f64::from(problem.variant.ions) * get(StrongStock) * get(StrongVolume),
            get(BufferVolume) + get(StrongVolume),
        ),
        Form::Equivalence => {
            let strong = get(StrongStock) * get(StrongVolume);
            match problem.variant.reagent {
                Reagent::Alkali => (
                    get(AcidStock) * get(AcidVolume),
                    0.0,
                    strong,
                    get(AcidVolume) + get(StrongVolume),
                ),
                Reagent::Acid => (
                    0.0,
                    get(BaseStock) * get(BaseVolume),
                    strong,
                    get(BaseVolume) + get(StrongVolume),
                ),
            }
        }
        Form::HalfNeutralized => (any, any, 0.0, 1.0),
        Form::ChooseAcid => (any, any * get(Ratio), 0.0, 1.0),
        Form::Dilution => (get(AcidDiluted), get(BaseDiluted), 0.0, 1.0),
        Form::RecipeBySalt => (
            get(AcidStock) * get(BufferVolume),
            get(Mass) / get(MolarMass),
            0.0,
            get(BufferVolume),
        ),
        Form::RecipeByAlkali => (
            get(AcidStock) * get(AcidVolume),
            0.0,
            get(StrongStock) * get(StrongVolume),
            get(AcidVolume) + get(StrongVolume),
        ),
        Form::WeakAcidAlone => match problem.variant.reagent {
            Reagent::Acid => (get(AcidStock), 0.0, 0.0, 1.0),
            Reagent::Alkali => (0.0, get(BaseStock), 0.0, 1.0),
        },
    };
    let amount = |mol: f64| Amount::from_mol(mol).unwrap();
    let mixed = Mixture::water(Volume::from_dm3(volume).unwrap())
        .with_weak(system, 1, amount(acid), Charge::One)
        .with_weak(system, 0, amount(base), Charge::One);
    let mixed = match problem.variant.reagent {
        Reagent::Acid => mixed.with_strong_acid(amount(strong), Charge::One),
        Reagent::Alkali => mixed.with_strong_alkali(amount(strong), Charge::One),
    };
    let ph = right.get(Ph).or(right.get(GivenPh)).unwrap();
    (mixed, Pair::new(system, 1).unwrap(), ph)
}

/// The most by which questions of a form may lie off the full balance, in pH.
fn most(form: Form) -> f64 {
    match form {
        // Numbers in which free H⁺ or OH⁻ is more than 2 % of either form are drawn again:
        // log₁₀(1.02/0.98) = 0.017.
        Form::Concentrations
        | Form::TwoVolumes
        | Form::AcidWithAlkali
        | Form::BaseWithAcid
        | Form::SaltMass
        | Form::AddedAcid
        | Form::AddedAlkali
        | Form::Dilution
        | Form::KaFromPh => 0.018,
        // 0.1 mol dm⁻³ is our own addition to the question, and not screened.
        Form::HalfNeutralized | Form::ChooseAcid => 0.04,
        // Backwards from a pH down to 3, where free H⁺ is 1 mmol dm⁻³.
        Form::RecipeBySalt | Form::RecipeByAlkali => 0.03,
        // √(Ka·c) takes nothing off c; the strongest acid in the thinnest bottle is 8 % ionized.
        Form::WeakAcidAlone | Form::Equivalence => 0.02,
        // What the pair adds to a small excess is no constant: only the bound below holds.
        Form::Exhausted => 0.018,
    }
}

/// The most that what a short form leaves out can move the pH in this very mixture. `acid`
/// and `base` are the concentrations after complete reaction, `excess` that of strong ions
/// left over, `h` and `oh` the solved ones, all in mol dm⁻³.
fn bound([acid, base, excess, h, oh]: [f64; 5], ka: f64) -> f64 {
    let kw = 1e-14;
    let ten = std::f64::consts::LN_10;
    if excess > 0.0 {
        // The pair gives what its own constant allows beside the excess, and no more.
        let given = if h > oh {
            ka * acid / excess
        } else {
            kw / ka * base / excess
        };
        libm::log10(1.0 + (given + kw / excess) / excess)
    } else if acid > 0.0 && base > 0.0 {
        // Both forms change by the free ions, as the ratio does.
        let free = (h - oh).abs();
        libm::log10((1.0 + free / acid.min(base)) / (1.0 - free / acid.min(base)))
    } else {
        // Half of the share that reacts, and half of the share of water's own ions.
        let (ion, other) = if h > oh { (h, oh) } else { (oh, h) };
        1.2 * (ion / (acid + base) + other / ion) / (2.0 * ten)
    }
}

#[test]
fn every_form_against_the_full_balance() {
    let mut wrong = Vec::new();
    for form in FORMS {
        let mut worst: (f64, u64) = (0.0, 0);
        for seed in 0..500 {
            let (mixture, pair, short) = mixture(&question(form, seed).problem);
            let solved = solve(&mixture, &Conditions::classroom()).unwrap();
            let off = short - solved.ph().value();
            if off.abs() > worst.0.abs() {
                worst = (off, seed);
            }
            let complete = pair.complete_reaction(&mixture).unwrap();
            let volume = mixture.volume().dm3();
            let total = (complete.acid + complete.base).mol();
            // Below a billionth of the pair an amount is rounding.
            let concentration = |amount: Amount| {
                let mol = amount.mol();
                if mol > 1e-9 * total {
                    mol / volume
                } else {
                    0.0
                }
            };
            let found = [
                concentration(complete.acid),
                concentration(complete.base),
                concentration(complete.excess_hydrogen + complete.excess_hydroxide),
                solved.hydrogen().molar(),
                solved.hydroxide().molar(),
            ];
            let ka = libm::exp10(-pair.pka().value());
            let bound = bound(found, ka) + 1e-6;
            if off.abs() > bound {
                wrong.push(format!("{form:?} {seed}: {off:+.4}, explained {bound:.4}"));
            }
        }
        println!(
            "{:<18} worst {:+.4} (seed {})",
            format!("{form:?}"),
            worst.0,
            worst.1
        );
        if worst.0.abs() > most(form) {
            wrong.push(format!("{form:?}: {worst:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

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
        let text = working_plain(&working(&bench).0, WRITER);
        insta::assert_snapshot!(format!("bench_{name}"), text);
    }
}

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
                    let by_ratio = evenkeel::chem::buffer::short_form(
                        reading.setup.pair.pka().value(),
                        complete.acid,
                        complete.base,
                    );
                    let none = 1e-9 * (complete.acid + complete.base).mol();
                    let is_buffer = complete.acid.mol() > none && complete.base.mol() > none;
                    if let (true, Some(ratio)) = (is_buffer, by_ratio) {
                        let short = short.unwrap().value();
                        assert!((short - ratio.value()).abs() < 1e-9, "{bench:?}: {short}");
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
                        working_html(&working, WRITER),
                        working_plain(&working, WRITER),
                        working_spoken(&working, WRITER),
                    ] {
                        assert!(!form.contains(['@', '~', '|', '$', '#']), "{form}");
                        assert!(!form.contains("NaN") && !form.contains("inf "), "{form}");
                    }
                    is_well_formed(&working_html(&working, WRITER));
                    seen += 1;
                }
            }
        }
    }
    assert_eq!(seen, evenkeel::app::recipe::PAIRS.len() * 2 * 5 * 8);
}

/// Tags open and close in order, attributes are quoted, and nothing else uses < or &.
fn is_well_formed(html: &str) {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = html;
    while let Some(at) = rest.find('<') {
        assert!(!rest[..at].contains('>'), "a bare > in {}", &rest[..at]);
        let end = rest[at..].find('>').unwrap() + at;
        let tag = &rest[at + 1..end];
        match tag.strip_prefix('/') {
            Some(name) => assert_eq!(open.pop(), Some(name), "in {html}"),
            None => {
                assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
                let name = tag.split(' ').next().unwrap();
                assert!(name.chars().all(|c| c.is_ascii_alphanumeric()), "{tag}");
                open.push(name);
            }
        }
        rest = &rest[end + 1..];
    }
    assert!(open.is_empty(), "left open: {open:?}");
    for entity in html.split('&').skip(1) {
        let known = ["amp;", "lt;", "gt;", "quot;"];
        assert!(known.iter().any(|k| entity.starts_with(k)), "&{entity}");
    }
}

#[test]
fn solutions_are_well_formed_and_escaped() {
    for form in FORMS {
        for seed in 0..20 {
            let question = question(form, seed);
            let solution = Solution::of_question(&question);
            let html = solution_html(&question.problem, &solution, WRITER);
            is_well_formed(&html);
            assert!(!html.contains('₊') && !html.contains('⁺'), "{html}");
            let spoken = solution_spoken(&question.problem, &solution, WRITER);
            assert!(!spoken.contains('<'), "{spoken}");
        }
    }
    // A name that means mischief stays text.
    let mut problem = problem(
        Form::TwoVolumes,
        ACID,
        "ethanoic",
        &[KA, 0.150, 0.0400, 0.0800, 0.0600],
    );
    problem.names.acid_symbol = "<b>&\"x".to_owned();
    problem.names.acid_name = "</p><script>".to_owned();
    let html = solution_html(&problem, &Solution::of(&problem, Vec::new()), WRITER);
    assert!(!html.contains("<b>") && !html.contains("<script>"));
    assert!(html.contains("&lt;b&gt;&amp;&quot;x"));
    is_well_formed(&html);
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
            writer: WRITER,
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
    let html = solution_html(problem, &Solution::of(problem, Vec::new()), WRITER);
    insta::assert_snapshot!("markup", html.replace("</details>", "</details>\n"));
}
