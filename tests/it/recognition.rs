//! Every slip of every form, in 2,000 questions each: is its number recognized as that slip?
//! No source: what is checked is that the marking tells the wrong ways apart.

use std::collections::BTreeMap;

use evenkeel::lesson::sums::form::{FORMS, Form, Problem};
use evenkeel::lesson::sums::mark::{Entry, Tolerance, Verdict, mark, score};
use evenkeel::lesson::sums::question::{question, shows};
use evenkeel::lesson::sums::sheet::Otherwise;
use evenkeel::lesson::sums::slip::{Slip, Way, ways};
use evenkeel::lesson::sums::symbol::{Symbol, Unit};

const QUESTIONS: u64 = 2000;

/// A value as a learner would hand it in: a pH to two decimal places, else three figures.
fn handed_in(symbol: Symbol, value: f64) -> f64 {
    let decimals = if symbol.unit() == Unit::Scale {
        2
    } else {
        let exponent = value.abs().log10().floor();
        return format!("{value:.2e}").parse().unwrap_or(exponent);
    };
    format!("{value:.decimals$}").parse().unwrap()
}

fn own_answers(problem: &Problem) -> Vec<Entry> {
    let right = problem.sheet.right();
    let entry = |s: Symbol| Entry::Number(handed_in(s, right.get(s).unwrap()));
    problem.asked().into_iter().map(entry).collect()
}

#[derive(Default, Clone, Copy)]
struct Tally {
    found: u32,
    confused: u32,
    missed: u32,
}

/// Hands in the right lines above the one that shows the slip, and the slip's number there.
fn line_by_line(problem: &Problem, way: &Way) -> Option<(Vec<Entry>, usize)> {
    let (symbol, value) = shows(problem, way)?;
    let place = problem.asked().iter().position(|s| *s == symbol)?;
    let mut entries = own_answers(problem);
    entries.truncate(place);
    entries.push(Entry::Number(handed_in(symbol, value)));
    Some((entries, place))
}

/// Hands in nothing but the slip's answer.
fn answer_only(problem: &Problem, way: &Way) -> Option<(Vec<Entry>, usize)> {
    let values = problem.sheet.values(Otherwise {
        formulas: &way.formulas,
        fixed: &[],
    });
    let asked = problem.asked();
    let place = asked.len() - 1;
    let value = values.get(asked[place])?;
    let right = problem.sheet.right().get(asked[place])?;
    if (value - right).abs() < 1e-9 * right.abs() {
        return None;
    }
    let mut entries = vec![Entry::Blank; place];
    entries.push(Entry::Number(handed_in(asked[place], value)));
    Some((entries, place))
}

#[test]
fn every_slip_is_recognized_and_none_is_taken_for_another() {
    let mut table: BTreeMap<(Form, Slip), Tally> = BTreeMap::new();
    for form in FORMS {
        for seed in 0..QUESTIONS {
            let problem = question(form, seed).problem;
            let full = mark(&problem, &own_answers(&problem), Tolerance::default());
            assert!(
                full.iter().all(|v| *v == Verdict::Right),
                "{form:?} {seed}: {full:?}"
            );
            assert_eq!(score(&full), problem.asked().len());
            for way in ways(&problem) {
                for hand_in in [line_by_line, answer_only] {
                    let Some((entries, place)) = hand_in(&problem, &way) else {
                        continue;
                    };
                    let tally = table.entry((form, way.slip)).or_default();
                    let verdict = &mark(&problem, &entries, Tolerance::default())[place];
                    match verdict {
                        Verdict::Slips(slips) if slips.contains(&way.slip) => tally.found += 1,
                        // Rounding too early is within the band: a note, or nothing to note.
                        Verdict::RoundedEarly | Verdict::Right
                            if way.slip == Slip::EarlyRounding =>
                        {
                            tally.found += 1
                        }
                        Verdict::Slips(_) | Verdict::TwoSlips(..) => tally.confused += 1,
                        _ => tally.missed += 1,
                    }
                }
            }
        }
    }
    println!(
        "{:<18} {:<24} {:>7} {:>8} {:>6}",
        "form", "slip", "found", "confused", "missed"
    );
    let mut bad = Vec::new();
    for (
        (form, slip),
        Tally {
            found,
            confused,
            missed,
        },
    ) in table
    {
        println!(
            "{:<18} {:<24} {found:>7} {confused:>8} {missed:>6}",
            format!("{form:?}"),
            format!("{slip:?}")
        );
        if confused > 0 || f64::from(found) < 0.99 * f64::from(found + missed) {
            bad.push(format!(
                "{form:?} {slip:?}: {found} found, {confused} confused, {missed} missed"
            ));
        }
    }
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}
