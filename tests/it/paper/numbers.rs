//! The numbers on answer sheets: wrong ones, and what a mark is given for.

use evenkeel::app::paper::wrong::{Cause, accepted, wrong_numbers};
use evenkeel::app::plan::{Hundredths, TOLERANCES};
use evenkeel::app::words::slip::written;
use evenkeel::lesson::sums::entry::{Entry, read_line};
use evenkeel::lesson::sums::form::{FORMS, Problem};
use evenkeel::lesson::sums::mark::{Tolerance, Verdict, mark};
use evenkeel::lesson::sums::question::{question, shows};
use evenkeel::lesson::sums::slip::{Slip, ways};
use evenkeel::lesson::sums::symbol::{Symbol, Unit};

use crate::writers::POINT;

/// What marking says of a number as it stands on paper, in one line by itself.
fn says(problem: &Problem, symbol: Symbol, value: f64, tolerance: Tolerance) -> Verdict {
    let text = written(symbol, value, POINT);
    let place = problem.asked().iter().position(|s| *s == symbol).unwrap();
    let mut entries = vec![Entry::Blank; place];
    entries.push(read_line(problem, symbol, &text));
    let marked = mark(problem, &entries, tolerance);
    marked[place].verdict.clone()
}

#[test]
fn wrong_numbers_are_those_that_marking_knows() {
    let default = Tolerance::default();
    let (mut told, mut all) = (0, 0);
    for form in FORMS {
        for seed in 0..60 {
            let problem = question(form, seed).problem;
            let answer = problem.answer();
            let right = written(answer, problem.sheet.right().get(answer).unwrap(), POINT);
            let wrongs = wrong_numbers(&problem, default);
            let is = |slip: Slip, symbol, value| {
                let verdict = says(&problem, symbol, value, default);
                let known = matches!(&verdict, Verdict::Slips(slips) if slips.contains(&slip));
                assert!(known, "{form:?} {seed} {slip:?} {value}: {verdict:?}");
            };
            let mut numbers = Vec::new();
            for wrong in &wrongs {
                let number = wrong.answer.map(|value| written(answer, value, POINT));
                assert_ne!(number.as_ref(), Some(&right), "{form:?} {seed}");
                assert!(
                    !numbers.contains(&number),
                    "{form:?} {seed}: {number:?} twice"
                );
                numbers.push(number);
                for cause in &wrong.causes {
                    let first = cause.first.iter().copied();
                    let answer = wrong.answer.map(|value| (answer, value));
                    assert!(first.len() + answer.iter().len() > 0);
                    for (symbol, value) in first.chain(answer) {
                        is(cause.slip, symbol, value);
                    }
                }
            }
            let sorted = |pair: &[_]| pair[0] < pair[1];
            let values = wrongs.iter().filter_map(|wrong| wrong.answer);
            assert!(
                values.collect::<Vec<_>>().windows(2).all(sorted),
                "{form:?}"
            );
            // Next to none is left out.
            for way in ways(&problem) {
                if way.slip != Slip::EarlyRounding && shows(&problem, &way).is_some() {
                    let has = |cause: &Cause| cause.slip == way.slip;
                    told += usize::from(wrongs.iter().any(|wrong| wrong.causes.iter().any(has)));
                    all += 1;
                }
            }
        }
    }
    println!("{told} of {all} slips are told on paper");
    assert!(told * 100 >= all * 99, "{told} of {all}");
}

#[test]
fn the_range_of_a_mark_is_what_marking_gives_it_for() {
    for form in FORMS {
        for seed in 0..10 {
            let problem = question(form, seed).problem;
            for hundredths in [*TOLERANCES.start(), 3, *TOLERANCES.end()] {
                let tolerance = Hundredths(hundredths).tolerance();
                for symbol in problem.asked() {
                    let right = problem.sheet.right().get(symbol).unwrap();
                    let all = accepted(&problem, symbol, right, tolerance);
                    let (low, high) = (all.low, all.high);
                    let what = format!("{form:?} {seed} {symbol:?} {low} to {high}");
                    assert!(low <= high, "{what}");
                    let next = |value: f64, way: f64| match symbol.unit() {
                        Unit::Scale => value + 0.01 * way,
                        _ => value * (1.0 + 0.0101 * way),
                    };
                    for value in [low, high] {
                        let verdict = says(&problem, symbol, value, tolerance);
                        // A slip's own number has no mark, however close.
                        let slip = matches!(verdict, Verdict::Slips(_));
                        assert!(verdict.earns() || slip, "{what}: {value} {verdict:?}");
                    }
                    let early = ways(&problem);
                    let early = early.iter().filter(|w| w.slip == Slip::EarlyRounding);
                    let early: Vec<f64> = early
                        .filter_map(|way| way.values(&problem).get(symbol))
                        .collect();
                    for value in [next(low, -1.0), next(high, 1.0)] {
                        let verdict = says(&problem, symbol, value, tolerance);
                        // Beside the number of rounding early others count as that one.
                        let near = |early: &f64| (value / early - 1.0).abs() < 0.02;
                        let is_early = verdict == Verdict::RoundedEarly && early.iter().any(near);
                        assert!(!verdict.earns() || is_early, "{what}: {value} {verdict:?}");
                    }
                    if let Some(value) = all.rounded {
                        let verdict = says(&problem, symbol, value, tolerance);
                        assert_eq!(verdict, Verdict::RoundedEarly, "{what}: {value}");
                    }
                }
            }
        }
    }
}
