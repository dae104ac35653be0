//! The wrong numbers that a question is most likely to be answered with: what each usual slip
//! comes to, as somebody writes it down. Only what marking takes for that slip is told.

use crate::app::paper::as_written;
use crate::chem::power::ten_to;
use crate::lesson::sums::form::Problem;
use crate::lesson::sums::mark::{Entry, Marked, Tolerance, Verdict, allowed, mark};
use crate::lesson::sums::question::shows;
use crate::lesson::sums::slip::{Slip, ways};
use crate::lesson::sums::symbol::{Symbol, Unit};

/// A wrong answer with all that leads to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Wrong {
    /// The answer, rounded as it is written down; `None` for slips that show in lines above
    /// and not in the answer.
    pub answer: Option<f64>,
    /// What leads to it.
    pub causes: Vec<Cause>,
}

/// One of the things that lead to a wrong answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// The slip.
    pub slip: Slip,
    /// The first line that it shows in, and what stands there, where that is not the answer: once
    /// for each way to take the slip.
    pub first: Vec<(Symbol, f64)>,
}

/// The wrong numbers of `problem`, smallest answer first, so that one can be looked up.
pub fn wrong_numbers(problem: &Problem, tolerance: Tolerance) -> Vec<Wrong> {
    let answer = problem.answer();
    let mut all: Vec<Wrong> = Vec::new();
    for way in ways(problem) {
        // That number is right, with a note.
        if way.slip == Slip::EarlyRounding {
            continue;
        }
        let told = |symbol: Symbol, value: Option<f64>| {
            let value = as_written(symbol, value?);
            is_told(problem, tolerance, (symbol, value), way.slip).then_some(value)
        };
        let first = shows(problem, &way).filter(|(line, _)| *line != answer);
        let first =
            first.and_then(|(line, value)| told(line, Some(value)).map(|value| (line, value)));
        let ends_in = told(answer, way.values(problem).get(answer));
        if first.is_none() && ends_in.is_none() {
            continue;
        }
        let same = |wrong: &Wrong| match (wrong.answer, ends_in) {
            (Some(a), Some(b)) => (a - b).abs() <= 1e-9 * b.abs(),
            (a, b) => a == b,
        };
        let place = all.iter().position(same).unwrap_or_else(|| {
            all.push(Wrong {
                answer: ends_in,
                causes: Vec::new(),
            });
            all.len() - 1
        });
        let causes = &mut all[place].causes;
        match causes.iter_mut().find(|cause| cause.slip == way.slip) {
            Some(cause) => cause.first.extend(first),
            None => causes.push(Cause {
                slip: way.slip,
                first: first.into_iter().collect(),
            }),
        }
    }
    let place = |wrong: &Wrong| wrong.answer.unwrap_or(f64::INFINITY);
    all.sort_by(|a, b| place(a).total_cmp(&place(b)));
    all
}

/// Whether marking says of this number that the slip leads to it.
fn is_told(
    problem: &Problem,
    tolerance: Tolerance,
    (symbol, value): (Symbol, f64),
    slip: Slip,
) -> bool {
    let asked = problem.asked();
    let entry = |line: &Symbol| match *line == symbol {
        true => Entry::Number(value),
        false => Entry::Blank,
    };
    let entries: Vec<Entry> = asked.iter().map(entry).collect();
    let marked = mark(problem, &entries, tolerance);
    let says =
        |marked: &Marked| matches!(&marked.verdict, Verdict::Slips(slips) if slips.contains(&slip));
    let place = asked.iter().position(|line| *line == symbol);
    place.is_some_and(|place| says(&marked[place]))
}

/// The numbers with which a line has its mark, as somebody writes them down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Accepted {
    /// The least.
    pub low: f64,
    /// The greatest.
    pub high: f64,
    /// One further off, which comes of rounding on the way.
    pub rounded: Option<f64>,
}

/// Those of the line about `symbol`; `right` is what it should be.
pub fn accepted(problem: &Problem, symbol: Symbol, right: f64, tolerance: Tolerance) -> Accepted {
    let off = allowed(problem, symbol, right, tolerance);
    let step = |value: f64| match symbol.unit() {
        Unit::Scale => 0.01,
        _ => ten_to(libm::floor(libm::log10(value.abs())) - 2.0),
    };
    let (low, high) = (right - off, right + off);
    // The nudge keeps a bound that is such a number itself.
    let low = libm::ceil(low / step(low) - 1e-6) * step(low);
    let high = libm::floor(high / step(high) + 1e-6) * step(high);
    let rounding = ways(problem);
    let mut rounding = rounding
        .iter()
        .filter(|way| way.slip == Slip::EarlyRounding);
    let rounded = rounding.find_map(|way| way.values(problem).get(symbol));
    let rounded = rounded.map(|value| as_written(symbol, value));
    Accepted {
        low,
        high,
        rounded: rounded.filter(|value| {
            let inside = 1e-6 * step(*value);
            !(low - inside..=high + inside).contains(value)
        }),
    }
}
