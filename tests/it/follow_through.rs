//! Marking on the learner's own earlier numbers. No source: common practice of examiners, as
//! properties of this code.

mod typed;

use evenkeel::lesson::sums::entry::Entry;
use evenkeel::lesson::sums::form::{FORMS, Form, Problem};
use evenkeel::lesson::sums::mark::{Marked, Tolerance, Verdict, mark, score};
use evenkeel::lesson::sums::question::{question, shows};
use evenkeel::lesson::sums::sheet::Otherwise;
use evenkeel::lesson::sums::slip::{Slip, ways};
use evenkeel::lesson::sums::symbol::{Symbol, Unit};
use proptest::prelude::*;
use proptest::sample::select;

use crate::draws::check;

/// The lines worked out by the right way from a wrong value in line `place`.
fn from(problem: &Problem, place: usize, value: f64) -> Option<Vec<(Symbol, f64)>> {
    let asked = problem.asked();
    let values = problem.sheet.values(Otherwise {
        formulas: &[],
        fixed: &[(asked[place], value)],
    });
    let line = |symbol: Symbol| Some((symbol, values.get(symbol)?));
    asked.into_iter().map(line).collect()
}

/// A number with three figures, or two decimal places of a pH.
fn handed_in(symbol: Symbol, value: f64) -> f64 {
    let text = match symbol.unit() {
        Unit::Scale => format!("{value:.2}"),
        _ => format!("{value:.2e}"),
    };
    text.parse().unwrap()
}

fn possible(symbol: Symbol, value: f64) -> bool {
    match symbol {
        Symbol::Ph => (0.0..=14.0).contains(&value),
        _ => symbol.unit() == Unit::Scale || value > 0.0,
    }
}

fn any_question() -> impl Strategy<Value = (Form, u64, usize, f64)> {
    (select(FORMS.to_vec()), 0..500u64, 0..8usize, -0.4..0.4f64)
}

/// One early slip loses its own mark and no other, as long as the rest can be.
#[test]
fn a_wrong_line_loses_its_mark_and_no_other() {
    check(&any_question(), |(form, seed, place, shift)| {
        let problem = question(form, seed).problem;
        let asked = problem.asked();
        let place = place % asked.len();
        let right = problem.sheet.right().get(asked[place]).unwrap();
        let wrong = match asked[place].unit() {
            Unit::Scale => right + shift,
            _ => right * libm::exp10(shift),
        };
        prop_assume!(shift.abs() > 0.05);
        let Some(own) = from(&problem, place, handed_in(asked[place], wrong)) else {
            return Ok(());
        };
        prop_assume!(own[place..].iter().all(|(s, v)| possible(*s, *v)));
        let entries: Vec<Entry> = own
            .iter()
            .map(|(symbol, value)| Entry::Number(handed_in(*symbol, *value)))
            .collect();
        let verdicts = mark(&problem, &entries, Tolerance::default());
        prop_assert!(
            !verdicts[place].verdict.earns(),
            "{form:?} {seed} {place}: {verdicts:?}"
        );
        for (line, verdict) in verdicts.iter().enumerate().filter(|(l, _)| *l != place) {
            prop_assert!(
                verdict.verdict.earns(),
                "{form:?} {seed} line {line}: {verdicts:?}"
            );
        }
        prop_assert_eq!(score(&problem, &verdicts), asked.len() - 1);
        Ok(())
    });
}

/// The same for the slips themselves: the number of a slip in the line where it shows,
/// everything below by the right way from it. Where the wrong way makes the rest
/// impossible (less than nothing), those marks go too.
#[test]
fn a_slip_loses_its_own_line() {
    for form in FORMS {
        for seed in 0..100 {
            let problem = question(form, seed).problem;
            for way in ways(&problem)
                .iter()
                .filter(|w| w.slip != Slip::EarlyRounding)
            {
                let Some((symbol, value)) = shows(&problem, way) else {
                    continue;
                };
                let asked = problem.asked();
                let place = asked.iter().position(|s| *s == symbol).unwrap();
                let Some(own) = from(&problem, place, handed_in(symbol, value)) else {
                    continue;
                };
                let entries: Vec<Entry> = own
                    .iter()
                    .map(|(s, v)| Entry::Number(handed_in(*s, *v)))
                    .collect();
                let verdicts = mark(&problem, &entries, Tolerance::default());
                let context = format!("{form:?} {seed} {:?}: {verdicts:?}", way.slip);
                assert!(!verdicts[place].verdict.earns(), "{context}");
                for (line, (symbol, value)) in own.iter().enumerate().skip(place + 1) {
                    let expected = possible(*symbol, *value);
                    assert_eq!(verdicts[line].verdict.earns(), expected, "{line} {context}");
                }
            }
        }
    }
}

/// A right answer earns the marks of steps left out above it, and no wrong one does. Where a
/// question asks for several things, what is left out is not earned.
#[test]
fn an_answer_alone_earns_the_steps_that_are_left_out() {
    for (form, seed) in FORMS.into_iter().flat_map(|f| [(f, 11), (f, 12), (f, 13)]) {
        let problem = question(form, seed).problem;
        let for_its_own_sake = match form {
            Form::HalfNeutralized | Form::Dilution => 2,
            // Both amounts, before and after; the last is handed in.
            Form::AddedAcid | Form::AddedAlkali if problem.variant.small_addition => 3,
            _ => 0,
        };
        let asked = problem.asked();
        let right = problem.sheet.right().get(problem.answer()).unwrap();
        let mut entries = vec![Entry::Blank; asked.len() - 1];
        entries.push(Entry::Number(handed_in(problem.answer(), right)));
        let verdicts = mark(&problem, &entries, Tolerance::default());
        let earned = asked.len() - for_its_own_sake;
        assert_eq!(score(&problem, &verdicts), earned, "{form:?}");
        entries.pop();
        entries.push(Entry::Number(1.7 * right));
        let verdicts = mark(&problem, &entries, Tolerance::default());
        assert_eq!(score(&problem, &verdicts), 0, "{form:?}");
    }
}

/// Lines that are right, only rounded, and one that follows from them as they stand there: it
/// was rounded early, and nothing above it has to be put right.
#[test]
fn a_line_that_follows_from_right_ones_was_rounded_early() {
    let follows = |verdicts: &[Marked]| {
        let wrong = |m: &&Marked| !matches!(m.verdict, Verdict::Right | Verdict::RoundedEarly);
        let first = verdicts.iter().find(wrong);
        first.is_some_and(|m| m.verdict == Verdict::FollowsThrough)
    };
    check(&any_question(), |(form, seed, place, shift)| {
        let problem = question(form, seed).problem;
        let asked = problem.asked();
        let place = place % asked.len();
        let right = problem.sheet.right().get(asked[place]).unwrap();
        // Within what is accepted.
        let near = match asked[place].unit() {
            Unit::Scale => right + 0.02 * shift,
            _ => right * (1.0 + 0.02 * shift),
        };
        let Some(own) = from(&problem, place, near) else {
            return Ok(());
        };
        let entries: Vec<Entry> = own.iter().map(|(_, value)| Entry::Number(*value)).collect();
        let verdicts = mark(&problem, &entries, Tolerance::default());
        prop_assert!(verdicts[place].verdict.earns(), "{:?}", verdicts);
        prop_assert!(!follows(&verdicts), "{form:?} {seed} {place}: {verdicts:?}");
        Ok(())
    });
}

#[test]
fn the_same_seed_is_the_same_question() {
    for form in FORMS {
        let all: Vec<_> = (0..20).map(|seed| question(form, seed)).collect();
        let again: Vec<_> = (0..20).map(|seed| question(form, seed)).collect();
        assert_eq!(all, again);
        let first = &all[0].problem;
        assert!(all.iter().any(|q| q.problem != *first), "{form:?}");
    }
}
