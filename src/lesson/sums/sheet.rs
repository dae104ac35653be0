//! A calculation as a sheet of lines, each worked out from lines above it.
//!
//! The right way, a wrong way and a learner's own way are the same sheet: a wrong way has
//! another formula in some line, a learner's own value is held fixed in its line, and
//! everything below follows.

use crate::lesson::sums::expression::Expr;
use crate::lesson::sums::symbol::Symbol;

/// Where the value of a line comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// The question or the bench states it.
    Given(f64),
    /// A constant that everybody uses (Kw, 14).
    Constant(f64),
    /// It is worked out.
    Worked(Expr),
}

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is about.
    pub symbol: Symbol,
    /// Where its value comes from.
    pub source: Source,
    /// Significant figures with which it is written; decimal places for a pH or pKa.
    pub figures: usize,
}

/// A calculation.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sheet {
    lines: Vec<Line>,
}

/// What is done differently on a sheet.
#[derive(Debug, Clone, Copy, Default)]
pub struct Otherwise<'a> {
    /// Lines that are worked out by another formula.
    pub formulas: &'a [(Symbol, Expr)],
    /// Lines whose value is held fixed, whatever their formula.
    pub fixed: &'a [(Symbol, f64)],
}

/// The values of a sheet's lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Values(Vec<(Symbol, Option<f64>)>);

impl Values {
    /// The value of a line, if it exists and is a finite number.
    pub fn get(&self, symbol: Symbol) -> Option<f64> {
        let (_, value) = self.0.iter().find(|(s, _)| *s == symbol)?;
        *value
    }
}

impl Sheet {
    /// Adds a value that is given, with the significant figures (decimal places for a pH)
    /// that it is given to.
    #[must_use]
    pub fn given(self, symbol: Symbol, value: f64, figures: usize) -> Self {
        self.line(symbol, Source::Given(value), figures)
    }

    /// Adds a constant.
    #[must_use]
    pub fn constant(self, symbol: Symbol, value: f64, figures: usize) -> Self {
        self.line(symbol, Source::Constant(value), figures)
    }

    /// Adds a line that is worked out, written to the figures that the data allow.
    #[must_use]
    pub fn work(self, symbol: Symbol, formula: Expr) -> Self {
        let figures = match symbol {
            Symbol::Ph | Symbol::Pka => 2,
            _ => self.least_figures(),
        };
        self.line(symbol, Source::Worked(formula), figures)
    }

    fn line(mut self, symbol: Symbol, source: Source, figures: usize) -> Self {
        debug_assert!(self.find(symbol).is_none(), "{symbol:?} stands there twice");
        self.lines.push(Line {
            symbol,
            source,
            figures,
        });
        self
    }

    /// All lines, from the top.
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// The line about `symbol`.
    pub fn find(&self, symbol: Symbol) -> Option<&Line> {
        self.lines.iter().find(|line| line.symbol == symbol)
    }

    /// The significant figures of the least exact datum, two to four.
    pub fn least_figures(&self) -> usize {
        let given = self.lines.iter().filter_map(|line| match line.source {
            // Two decimal places of a pH are two significant figures of [H⁺].
            Source::Given(_) => Some(line.figures),
            Source::Constant(_) | Source::Worked(_) => None,
        });
        given.min().unwrap_or(3).clamp(2, 4)
    }

    /// The values of all lines, unrounded, with what is done `otherwise`.
    pub fn values(&self, otherwise: Otherwise<'_>) -> Values {
        let mut values = Values(Vec::with_capacity(self.lines.len()));
        for line in &self.lines {
            let symbol = line.symbol;
            let fixed = otherwise.fixed.iter().find(|(s, _)| *s == symbol);
            let other = otherwise.formulas.iter().find(|(s, _)| *s == symbol);
            let formula = |expr: &Expr| expr.value(&|s| values.get(s));
            let value = match (fixed, other, &line.source) {
                (Some((_, value)), _, _) => Some(*value),
                (None, Some((_, expr)), _) | (None, None, Source::Worked(expr)) => formula(expr),
                (None, None, Source::Given(value) | Source::Constant(value)) => Some(*value),
            };
            values.0.push((symbol, value));
        }
        values
    }

    /// The values by the right way.
    pub fn right(&self) -> Values {
        self.values(Otherwise::default())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::sums::expression::of;
    use Symbol::{Acid, Base, Hydrogen, Ka, Ph};

    fn buffer() -> Sheet {
        Sheet::default()
            .given(Ka, 1.74e-5, 3)
            .given(Acid, 0.120, 3)
            .given(Base, 0.200, 3)
            .work(Hydrogen, of(Ka) * of(Acid) / of(Base))
            .work(Ph, of(Hydrogen).minus_log())
    }

    #[test]
    fn a_wrong_formula_and_a_fixed_value_are_followed_through() {
        let sheet = buffer();
        let ph = |otherwise| sheet.values(otherwise).get(Ph).unwrap();
        assert!((ph(Otherwise::default()) - 4.98).abs() < 0.005);
        let inverted = [(Hydrogen, of(Ka) * of(Base) / of(Acid))];
        let wrong = Otherwise {
            formulas: &inverted,
            ..Otherwise::default()
        };
        assert!((ph(wrong) - 4.54).abs() < 0.005);
        let own = Otherwise {
            fixed: &[(Hydrogen, 1e-3)],
            formulas: &inverted,
        };
        assert!((ph(own) - 3.0).abs() < 1e-12);
        assert_eq!(sheet.least_figures(), 3);
    }
}
