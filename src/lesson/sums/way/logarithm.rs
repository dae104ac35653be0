//! The wrong ways where a pH is worked out with pKa and the logarithm of the ratio: the same as
//! with [H⁺], in the lines that there are.

use crate::lesson::sums::expression::{Expr, of};
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::sheet::Source;
use crate::lesson::sums::slip::Slip;
use crate::lesson::sums::symbol::Symbol;
use crate::lesson::sums::way::Ways;

impl Ways {
    /// Puts wrong formulas for [H⁺] into the line that follows from it.
    pub(super) fn by_logarithm(&mut self, problem: &Problem) {
        use Symbol::{GivenPh, Hydrogen, Ka, Ph, Pka};
        let from_ph = problem.sheet.find(GivenPh).is_some();
        // Natural logarithms and a lost minus belong to other lines here, and a pH that is given
        // is not turned into [H⁺].
        self.0.retain(|way| {
            let last = way.formulas.iter().any(|(symbol, _)| *symbol == Ph);
            match way.slip {
                Slip::NaturalLogarithm | Slip::MinusDropped => !last,
                Slip::WrongInverse => false,
                _ => true,
            }
        });
        let right = |symbol| match problem.sheet.find(symbol).map(|line| &line.source) {
            Some(Source::Worked(formula)) => formula.clone(),
            _ => of(symbol),
        };
        let hydrogen = if from_ph { of(GivenPh) } else { right(Ph) }.ten_to_minus();
        let ka = of(Pka).ten_to_minus();
        for way in &mut self.0 {
            for (symbol, formula) in &mut way.formulas {
                *formula = formula.with(Hydrogen, &hydrogen);
                if problem.form == Form::KaFromPh {
                    if *symbol == Ka {
                        (*symbol, *formula) = (Pka, formula.clone().minus_log());
                    }
                } else if *symbol != Ka {
                    // What a learner has for pKa counts below it.
                    *formula = formula.with(Ka, &ka);
                }
                if *symbol == Hydrogen {
                    (*symbol, *formula) = (Ph, formula.clone().minus_log());
                }
            }
        }
        let natural = || Expr::Number(std::f64::consts::LN_10);
        if problem.form == Form::KaFromPh {
            let ratio = of(GivenPh) - right(Pka);
            self.add(Slip::NaturalLogarithm, Pka, of(GivenPh) - ratio * natural());
            self.add(
                Slip::WrongInverse,
                Ka,
                (Expr::Number(0.0) - of(Pka)).ten_to_minus(),
            );
            return;
        }
        self.add(Slip::NaturalLogarithm, Pka, right(Pka) * natural());
        self.add(Slip::MinusDropped, Pka, Expr::Number(0.0) - right(Pka));
        if from_ph {
            let natural = (of(Pka) - of(GivenPh)) / natural();
            self.add(
                Slip::NaturalLogarithm,
                Symbol::Ratio,
                natural.ten_to_minus(),
            );
        } else if problem.answer() == Ph {
            let ratio = right(Ph) - of(Pka);
            self.add(Slip::NaturalLogarithm, Ph, of(Pka) + ratio * natural());
        }
    }
}
