//! One line of a worked solution, as it stands in a question.

use crate::app::words::telling::block;
use crate::app::words::working::pen;
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::form::Problem;
use crate::lesson::sums::solution::Solution;
use crate::lesson::sums::symbol::Symbol;

/// How the line about `symbol` is worked out in a solution: its formula, with its numbers and
/// what comes out if they are to be shown, and then with the lines before it that nobody is
/// asked for. Empty for a line that it lacks.
pub fn worked_line(
    problem: &Problem,
    solution: &Solution,
    symbol: Symbol,
    numbers: bool,
    writer: Writer,
) -> String {
    let lines: Vec<_> = solution.steps.iter().flat_map(|step| &step.lines).collect();
    let Some(place) = lines.iter().position(|line| line.symbol == symbol) else {
        return String::new();
    };
    let asked = problem.asked();
    let unasked = lines[..place].iter().rev();
    let unasked = unasked.take_while(|line| numbers && !asked.contains(&line.symbol));
    let first = place - unasked.count();
    let pen = pen(&problem.names, problem.variant, writer);
    let mut out = String::new();
    for line in &lines[first..=place] {
        let rows = pen.rows(line);
        let mut shown = vec![rows.symbols];
        if numbers {
            shown.extend(rows.values);
            shown.push(rows.result);
        }
        block(&pen, &shown, &mut out);
    }
    out
}
