//! Formulas as data, so that one text is evaluated, written and read aloud.

use std::ops::{Add, Div, Mul, Sub};

use crate::chem::power::ten_to;
use crate::lesson::sums::symbol::Symbol;

/// A formula.
#[derive(Debug, Clone, PartialEq)]
pub enum Expr {
    /// A quantity.
    Of(Symbol),
    /// A pure number that belongs to the formula itself.
    Number(f64),
    /// left + right
    Sum(Box<[Expr; 2]>),
    /// left − right
    Difference(Box<[Expr; 2]>),
    /// left × right
    Product(Box<[Expr; 2]>),
    /// upper ÷ lower
    Quotient(Box<[Expr; 2]>),
    /// Square root.
    Root(Box<Expr>),
    /// −log₁₀ of the value in mol dm⁻³ or of a pure number.
    MinusLog(Box<Expr>),
    /// log₁₀ of a pure number.
    Log(Box<Expr>),
    /// 10 to the power of minus the value.
    TenToMinus(Box<Expr>),
    /// Its size without its sign.
    Size(Box<Expr>),
    /// Rounded too early, to so many significant figures. Only wrong ways use it.
    Rounded(Box<Expr>, usize),
}

/// A quantity as a formula.
pub const fn of(symbol: Symbol) -> Expr {
    Expr::Of(symbol)
}

impl Expr {
    /// Square root.
    pub fn root(self) -> Self {
        Self::Root(Box::new(self))
    }

    /// −log₁₀.
    pub fn minus_log(self) -> Self {
        Self::MinusLog(Box::new(self))
    }

    /// log₁₀.
    pub fn log(self) -> Self {
        Self::Log(Box::new(self))
    }

    /// 10 to the power of minus this.
    pub fn ten_to_minus(self) -> Self {
        Self::TenToMinus(Box::new(self))
    }

    /// Its size.
    pub fn size(self) -> Self {
        Self::Size(Box::new(self))
    }

    /// Rounded to `figures` significant figures.
    pub fn rounded(self, figures: usize) -> Self {
        Self::Rounded(Box::new(self), figures)
    }

    /// Its value, where `value_of` gives those of quantities. `None` if a quantity is
    /// unknown or the result is not a finite number.
    pub fn value(&self, value_of: &dyn Fn(Symbol) -> Option<f64>) -> Option<f64> {
        let at = |e: &Expr| e.value(value_of);
        let value = match self {
            Self::Of(symbol) => value_of(*symbol)?,
            Self::Number(value) => *value,
            Self::Sum(pair) => at(&pair[0])? + at(&pair[1])?,
            Self::Difference(pair) => at(&pair[0])? - at(&pair[1])?,
            Self::Product(pair) => at(&pair[0])? * at(&pair[1])?,
            Self::Quotient(pair) => at(&pair[0])? / at(&pair[1])?,
            Self::Root(inner) => at(inner)?.sqrt(),
            Self::MinusLog(inner) => -libm::log10(at(inner)?),
            Self::Log(inner) => libm::log10(at(inner)?),
            Self::TenToMinus(inner) => ten_to(-at(inner)?),
            Self::Size(inner) => at(inner)?.abs(),
            Self::Rounded(inner, figures) => rounded(at(inner)?, *figures),
        };
        value.is_finite().then_some(value)
    }

    /// The same with a formula in place of each `symbol`.
    #[must_use]
    pub fn with(&self, symbol: Symbol, formula: &Self) -> Self {
        let at = |inner: &Self| Box::new(inner.with(symbol, formula));
        let both = |pair: &[Self; 2]| {
            let [left, right] = pair;
            Box::new([left.with(symbol, formula), right.with(symbol, formula)])
        };
        match self {
            Self::Of(own) if *own == symbol => formula.clone(),
            Self::Of(_) | Self::Number(_) => self.clone(),
            Self::Sum(pair) => Self::Sum(both(pair)),
            Self::Difference(pair) => Self::Difference(both(pair)),
            Self::Product(pair) => Self::Product(both(pair)),
            Self::Quotient(pair) => Self::Quotient(both(pair)),
            Self::Root(inner) => Self::Root(at(inner)),
            Self::MinusLog(inner) => Self::MinusLog(at(inner)),
            Self::Log(inner) => Self::Log(at(inner)),
            Self::TenToMinus(inner) => Self::TenToMinus(at(inner)),
            Self::Size(inner) => Self::Size(at(inner)),
            Self::Rounded(inner, figures) => Self::Rounded(at(inner), *figures),
        }
    }

    /// The quantities in it, in reading order, each as often as it stands there.
    pub fn symbols(&self) -> Vec<Symbol> {
        match self {
            Self::Of(symbol) => vec![*symbol],
            Self::Number(_) => Vec::new(),
            Self::Sum(pair)
            | Self::Difference(pair)
            | Self::Product(pair)
            | Self::Quotient(pair) => [pair[0].symbols(), pair[1].symbols()].concat(),
            Self::Root(inner)
            | Self::MinusLog(inner)
            | Self::Log(inner)
            | Self::TenToMinus(inner)
            | Self::Size(inner)
            | Self::Rounded(inner, _) => inner.symbols(),
        }
    }
}

impl Add for Expr {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::Sum(Box::new([self, other]))
    }
}

impl Sub for Expr {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::Difference(Box::new([self, other]))
    }
}

impl Mul for Expr {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::Product(Box::new([self, other]))
    }
}

impl Div for Expr {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        Self::Quotient(Box::new([self, other]))
    }
}

/// A value rounded to significant figures, half up in size. For data before they are given,
/// and for wrong ways; the right way rounds nothing.
pub fn rounded(value: f64, figures: usize) -> f64 {
    if value == 0.0 {
        return value;
    }
    let exponent = libm::floor(libm::log10(value.abs()));
    let unit = ten_to(exponent + 1.0 - f64::from(u8::try_from(figures).unwrap_or(u8::MAX)));
    libm::round(value / unit) * unit
}

#[cfg(test)]
mod tests {
    use super::*;
    use Symbol::{Acid, Base, Hydrogen, Ka};

    fn value(expr: &Expr, known: &[(Symbol, f64)]) -> Option<f64> {
        expr.value(&|symbol| known.iter().find(|(s, _)| *s == symbol).map(|(_, v)| *v))
    }

    #[test]
    fn formulas_are_evaluated() {
        let known = [(Ka, 1.74e-5), (Acid, 0.120), (Base, 0.200)];
        let hydrogen = of(Ka) * of(Acid) / of(Base);
        let h = value(&hydrogen, &known).unwrap();
        assert!((h - 1.044e-5).abs() < 1e-12);
        assert!((value(&hydrogen.clone().minus_log(), &known).unwrap() - 4.981).abs() < 5e-4);
        assert_eq!(hydrogen.symbols(), [Ka, Acid, Base]);
        assert_eq!(value(&of(Hydrogen), &known), None);
        assert_eq!(value(&(of(Acid) / Expr::Number(0.0)), &known), None);
        assert_eq!(value(&(of(Acid) - of(Base)).root(), &known), None);
    }

    #[test]
    fn too_early_rounding() {
        for (from, figures, to) in [(2.333, 2, 2.3), (0.0666, 2, 0.067), (-14.6, 2, -15.0)] {
            assert!((rounded(from, figures) - to).abs() < 1e-12, "{from}");
        }
    }
}
