//! What a lesson's notation makes of sentences and calculations: logarithms are held against the
//! same sheet by [H⁺] and against an open textbook.

mod balanced;

use std::collections::BTreeSet;

use evenkeel::app::guide::STEPS;
use evenkeel::app::words::clauses::clauses;
use evenkeel::app::words::explain::question as asked;
use evenkeel::app::words::guide::step;
use evenkeel::app::words::working::{solution_plain, solution_spoken};
use evenkeel::lesson::conventions::{Conventions, rewritten};
use evenkeel::lesson::explain::TOPICS;
use evenkeel::lesson::hydrogen_ion::HydrogenIon;
use evenkeel::lesson::sig_fig::{PhDecimals, Writer};
use evenkeel::lesson::sums::form::{Datum, FORMS, Form, PhBy, Problem, Variant};
use evenkeel::lesson::sums::mark::{Entry, Tolerance, Verdict, mark};
use evenkeel::lesson::sums::question::question_by;
use evenkeel::lesson::sums::solution::Solution;
use evenkeel::lesson::sums::symbol::Symbol;

use crate::published::{check_table, last_digit, rows};
use crate::sums::{ACID, problem};
use crate::writers::{HYDRATED, POINT};
use balanced::side;

/// The equations in a sentence, each as its two sides.
fn equations_in(text: &str) -> Vec<[Vec<&str>; 2]> {
    let tokens: Vec<&str> = text.split_whitespace().collect();
    let is_arrow = |token: &&str| matches!(*token, "→" | "⇌");
    let mut found = Vec::new();
    for (place, _) in tokens.iter().enumerate().filter(|(_, t)| is_arrow(t)) {
        let trimmed = |token: &&'_ str| token.trim_end_matches([',', '.', ':', ';']).len();
        let mut left = vec![tokens[place - 1]];
        let mut at = place - 1;
        while at >= 2 && tokens[at - 1] == "+" {
            at -= 2;
            left.push(tokens[at]);
        }
        let mut right = vec![&tokens[place + 1][..trimmed(&tokens[place + 1])]];
        let mut at = place + 1;
        while tokens.get(at + 1) == Some(&"+") {
            at += 2;
            right.push(&tokens[at][..trimmed(&tokens[at])]);
        }
        found.push([left, right]);
    }
    found
}

/// Sentences that can stand on the page, with free H⁺ in them or an equation.
fn sentences() -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for topic in TOPICS {
        all.push(asked(topic).to_owned());
        for (text, reason) in clauses(topic).iter().copied().flatten() {
            all.extend([(*text).to_owned(), (*reason).to_owned()]);
        }
    }
    for one in STEPS {
        all.extend(step(one).map(str::to_owned));
    }
    for form in FORMS {
        for seed in 0..20 {
            let question = question_by(form, seed, PhBy::Hydrogen);
            let solution = Solution::of_question(&question);
            let text = solution_plain(&question.problem, &solution, HYDRATED);
            all.extend(text.lines().map(str::to_owned));
        }
    }
    all
}

/// Free H⁺ is H₃O⁺ in clauses, the guide and worked solutions; what is handed on is a proton in
/// either notation, and the snapshot holds every such place of theirs.
#[test]
fn sentences_say_oxonium_for_what_is_free() {
    let conventions = Conventions {
        ion: HydrogenIon::Hydrated,
        ..Conventions::default()
    };
    let exchanges = conventions.exchanges();
    let mut handed_on = BTreeSet::new();
    for sentence in sentences() {
        let text = rewritten(sentence.clone(), &exchanges);
        for [left, right] in equations_in(&text) {
            let sides = [side(left.iter().copied()), side(right.iter().copied())];
            assert_eq!(sides[0], sides[1], "{text}");
        }
        for (at, _) in text.match_indices("H⁺") {
            if text[..at].ends_with(char::is_alphabetic) {
                continue;
            }
            let before: Vec<&str> = text[..at].split(' ').rev().take(3).collect();
            let after: Vec<&str> = text[at..].split(' ').take(2).collect();
            let before: Vec<&str> = before.into_iter().rev().collect();
            handed_on.insert(format!("{}{}", before.join(" "), after.join(" ")));
        }
    }
    let all: Vec<String> = handed_on.into_iter().collect();
    insta::assert_snapshot!("protons_handed_on", all.join("\n"));
    let put = |text: &str| rewritten(text.to_owned(), &exchanges);
    // Sentences that tell of both.
    assert_eq!(
        put("H₃O⁺ is what free H⁺ in water is. The pH counts it."),
        "H₃O⁺ is what free H⁺ in water is. The pH counts it."
    );
    assert_eq!(
        put("How many H⁺ or OH⁻ does one formula unit bring?"),
        "How many H⁺ or OH⁻ does one formula unit bring?"
    );
    assert_eq!(
        put("Each HA that gives up its H⁺ makes one H⁺"),
        "Each HA that gives up its H⁺ makes one H₃O⁺"
    );
    assert_eq!(put("[H⁺] and BH⁺"), "[H₃O⁺] and BH⁺");
    assert_eq!(
        put("the concentration of H, one plus, and of B H, one plus"),
        "the concentration of H 3 O, one plus, and of B H, one plus"
    );
    assert_eq!(
        put("[H<sup>+</sup>] and BH<sup>+</sup>"),
        "[H<sub>3</sub>O<sup>+</sup>] and BH<sup>+</sup>"
    );
}

fn by_logarithm(form: Form, variant: Variant, key: &str, data: &[f64]) -> Problem {
    let by = PhBy::Logarithm;
    problem(form, Variant { by, ..variant }, key, data)
}

/// Both ways through the same data end in the same number.
#[test]
fn the_logarithm_leads_where_hydrogen_does() {
    for form in FORMS {
        for seed in 0..300 {
            let one = question_by(form, seed, PhBy::Hydrogen).problem;
            let given = Problem::given(form, one.variant);
            let datum = |symbol: &Symbol| {
                let line = one.sheet.find(*symbol).unwrap();
                let value = one.sheet.right().get(*symbol).unwrap();
                Datum {
                    symbol: *symbol,
                    value,
                    figures: line.figures,
                }
            };
            let data: Vec<Datum> = given.iter().map(datum).collect();
            let variant = Variant {
                by: PhBy::Logarithm,
                ..one.variant
            };
            let other = Problem::new(form, variant, one.names.clone(), &data);
            assert_eq!(other.answer(), one.answer());
            let answers = [&one, &other].map(|p| p.sheet.right().get(p.answer()).unwrap());
            let apart = (answers[0] - answers[1]).abs();
            assert!(apart < 1e-12 * answers[0].abs().max(1.0), "{form:?} {seed}");
            let hydrogen = other.sheet.find(Symbol::Hydrogen).is_some();
            assert_eq!(
                hydrogen,
                !other.by_logarithm() && one.sheet.find(Symbol::Hydrogen).is_some()
            );
        }
    }
}

/// The book prints the mixture's pH; it has both ways.
#[test]
fn textbook_answers_by_the_logarithm() {
    let all = rows("textbook_examples");
    // Acid form and base form in mol dm⁻³, as the rows describe them.
    let mixtures = [
        ("T01", "ethanoic", 1.8e-5, 0.10, 0.10),
        ("T07", "ammonium", 1e-14 / 1.8e-5, 0.40, 0.20),
    ];
    let checks: Vec<_> = mixtures
        .into_iter()
        .map(|(id, key, ka, acid, base)| {
            let row = all.iter().find(|row| row.text("id") == id).unwrap();
            let problem = by_logarithm(Form::Concentrations, ACID, key, &[ka, acid, base]);
            let ph = problem.sheet.right().get(Symbol::Ph).unwrap();
            let unit = last_digit(row.text("published_answer"));
            let theirs = row.number("published_answer") / unit;
            row.check(id.to_owned(), libm::round(ph / unit), libm::round(theirs))
        })
        .collect();
    check_table(
        "textbook answers by pKa and a logarithm, units of the last printed digit",
        1.0,
        &checks,
    );
}

#[test]
fn solutions_by_the_logarithm_as_text() {
    for form in [
        Form::TwoVolumes,
        Form::AddedAcid,
        Form::KaFromPh,
        Form::RecipeBySalt,
        Form::RecipeByAlkali,
        Form::ChooseAcid,
    ] {
        let seed = (0..).find(|s| {
            !question_by(form, *s, PhBy::Logarithm)
                .problem
                .variant
                .small_addition
        });
        let question = question_by(form, seed.unwrap(), PhBy::Logarithm);
        let solution = Solution::of_question(&question);
        let three = Writer {
            ph_decimals: PhDecimals::Three,
            ..POINT
        };
        let text = solution_plain(&question.problem, &solution, three);
        insta::assert_snapshot!(format!("logarithm_{form:?}"), text);
        let spoken = solution_spoken(&question.problem, &solution, three);
        assert!(spoken.contains("p K a"), "{spoken}");
    }
}

/// A wrong pKa loses its own mark; the pH that follows from it earns its own.
#[test]
fn the_ph_follows_from_the_learners_own_pka() {
    let problem = by_logarithm(
        Form::Concentrations,
        ACID,
        "ethanoic",
        &[1.74e-5, 0.150, 0.120],
    );
    assert_eq!(problem.asked(), [Symbol::Pka, Symbol::Ph]);
    let entries = [5.20, 5.10].map(Entry::Number);
    let marked = mark(&problem, &entries, Tolerance::default());
    assert_eq!(marked[0].verdict, Verdict::Unknown);
    assert_eq!(marked[1].verdict, Verdict::FollowsThrough);
    // Right, and without the step on the way.
    let marked = mark(
        &problem,
        &[Entry::Blank, Entry::Number(4.66)],
        Tolerance::default(),
    );
    assert_eq!(marked[1].verdict, Verdict::Right);
}
