//! The calculation for what is on the bench: which form it has, its worked solution, and the
//! full balance beside it.

use crate::app::bench::Bench;
use crate::app::calculation::Seen;
use crate::app::reading::Reading;
use crate::chem::quantity::Ph;
use crate::lesson::notation::PairNames;
use crate::lesson::sums::form::{PhBy, Problem, Variant};
use crate::lesson::sums::solution::{Note, Solution, Step, Subject};
use crate::lesson::sums::symbol::Symbol;

/// The calculation for a bench.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// The calculation; `None` where no short form fits.
    pub problem: Option<Problem>,
    /// Its steps, the full balance last.
    pub solution: Solution,
    /// Names of the pair.
    pub names: PairNames,
    /// The strong reagent that counts.
    pub variant: Variant,
    /// pKa of the pair.
    pub pka: f64,
    /// Whether that pKa was typed rather than taken from the table.
    pub own_pka: bool,
    /// Whether anything was added since the start.
    pub added: bool,
}

impl Working {
    /// The calculation for `bench`, of which `reading` is the reading, `by` [H⁺] or a logarithm.
    pub fn of(bench: &Bench, reading: &Reading, by: PhBy) -> Self {
        let seen = Seen::of(bench, reading, by);
        let (problem, before) = seen.problem();
        let variant = problem.as_ref().map_or(seen.variant(), |p| p.variant);
        let mut solution = match &problem {
            Some(problem) => Solution::of(problem, before),
            None => Solution { steps: before },
        };
        let full = reading.now.ph();
        let short = problem
            .as_ref()
            .and_then(|p| p.sheet.right().get(Symbol::Ph))
            .and_then(|value| Ph::new(value).ok());
        let against = Note::Against {
            short,
            full,
            because: seen.because(problem.as_ref(), short),
        };
        solution
            .steps
            .push(Step::new(Subject::FullBalance, &[against]));
        if bench.acid > 0 && bench.alkali > 0 {
            seen.say_both_were_added(&mut solution);
        }
        Self {
            names: reading.setup.names.clone(),
            pka: reading.setup.pair.pka().value(),
            own_pka: reading.setup.entry.is_none(),
            added: bench.has_additions(),
            problem,
            solution,
            variant,
        }
    }
}
