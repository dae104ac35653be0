//! Formulas laid out as pieces: with symbols, with values, and what comes out.
//!
//! Thin writers turn pieces into plain text and MathML (`writers.rs`) and into what is read
//! aloud (`spoken.rs`).

use crate::chem::titration::Reagent;
use crate::lesson::notation::PairNames;
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::expression::Expr;
use crate::lesson::sums::form::Variant;
use crate::lesson::sums::solution::Worked;
use crate::lesson::sums::symbol::{Symbol, Unit};

/// A part of a formula on paper.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// A quantity by its symbol.
    Symbol(Symbol),
    /// A number and its unit, if it has one.
    Value(String, &'static str),
    /// = + − ×
    Sign(&'static str),
    /// Factors side by side, as `[H⁺][A⁻]`.
    Side(Vec<Symbol>),
    /// Upper over lower.
    Fraction(Row, Row),
    /// Square root.
    Root(Row),
    /// In brackets.
    Brackets(Row),
    /// −log₁₀ of it.
    MinusLog(Row),
    /// log₁₀ of it.
    Log(Row),
    /// 10 to the power of it.
    TenTo(Row),
    /// 10 to the power of minus it.
    TenToMinus(Row),
}

/// Pieces side by side.
pub type Row = Vec<Piece>;

/// A formula with symbols, with values, and what comes out. A row is missing where it would
/// repeat another.
#[derive(Debug, Clone, PartialEq)]
pub struct ThreeRows {
    /// [H⁺] = Kₐ × n(HA)/n(A⁻)
    pub symbols: Row,
    /// = 1.75×10⁻⁵ mol dm⁻³ × 6.00 mmol / 4.80 mmol
    pub values: Option<Row>,
    /// = 2.19×10⁻⁵ mol dm⁻³
    pub result: Row,
}

/// What formulas are written with.
#[derive(Debug, Clone, Copy)]
pub struct Pen<'a> {
    /// Symbols of the pair.
    pub names: &'a PairNames,
    /// Says which strong reagent there is.
    pub variant: Variant,
    /// Notation of numbers.
    pub writer: Writer,
}

/// What is laid out: symbols or values.
type Terms<'a> = &'a dyn Fn(Symbol) -> Piece;

impl Pen<'_> {
    /// A quantity's symbol as plain text.
    pub fn symbol(&self, symbol: Symbol) -> String {
        let reagent = match symbol {
            Symbol::StrongStock | Symbol::StrongVolume => self.reagent(),
            Symbol::Ratio => return "ratio".to_owned(),
            _ => self.ion(),
        };
        symbol.written(self.names, reagent)
    }

    /// H⁺ or OH⁻, whichever the strong reagent brings.
    pub const fn ion(&self) -> &'static str {
        match self.variant.reagent {
            Reagent::Acid => "H⁺",
            Reagent::Alkali => "OH⁻",
        }
    }

    /// Formula of the strong reagent.
    pub const fn reagent(&self) -> &'static str {
        match (self.variant.reagent, self.variant.ions) {
            (Reagent::Acid, 2) => "H₂SO₄",
            (Reagent::Acid, _) => "HCl",
            (Reagent::Alkali, 2) => "Ba(OH)₂",
            (Reagent::Alkali, _) => "NaOH",
        }
    }

    /// A value's number in the unit it is written in.
    pub fn number(&self, symbol: Symbol, value: f64, figures: usize) -> String {
        let unit = symbol.unit();
        let shown = value * unit.per_kept();
        match (unit, symbol) {
            // A pH that is given is written as it is given.
            (Unit::Scale, Symbol::GivenPh) => self.writer.fixed(shown, figures),
            (Unit::Scale, _) => self.writer.on_ph_scale(shown),
            (_, Symbol::Dilution) => self.count(shown),
            _ => self.writer.significant(shown, figures),
        }
    }

    /// A value with its unit as plain text.
    pub fn value(&self, symbol: Symbol, value: f64, figures: usize) -> String {
        joined(&self.number(symbol, value, figures), symbol.unit().symbol())
    }

    /// A number that belongs to a formula, such as the 2 of one half.
    fn count(&self, value: f64) -> String {
        let whole = (value - libm::round(value)).abs() < 1e-9;
        if whole {
            self.writer.fixed(value, 0)
        } else {
            self.writer.significant(value, 3)
        }
    }

    /// A line of a sheet in its three writings.
    pub fn rows(&self, line: &Worked) -> ThreeRows {
        // Grams and g mol⁻¹ make mol; everything else here makes mmol.
        let in_mol = line.formula.symbols().contains(&Symbol::MolarMass);
        let amount = |symbol: Symbol, value: f64, figures: usize| {
            if in_mol && symbol.unit() == Unit::Mmol {
                Piece::Value(self.writer.significant(value, figures), "mol")
            } else {
                let number = self.number(symbol, value, figures);
                Piece::Value(number, symbol.unit().symbol())
            }
        };
        let mut left = vec![Piece::Symbol(line.symbol)];
        if line.symbol == Symbol::Ratio {
            left.push(Piece::Sign("="));
            left.push(Piece::Fraction(
                vec![Piece::Symbol(Symbol::Base)],
                vec![Piece::Symbol(Symbol::Acid)],
            ));
        }
        left.push(Piece::Sign("="));
        let mut symbols = left.clone();
        symbols.extend(self.laid(&line.formula, &Piece::Symbol));
        let alone = matches!(line.formula, Expr::Of(_));
        let values = (!alone).then(|| {
            let mut row = vec![Piece::Sign("=")];
            row.extend(self.laid(&line.formula, &|symbol| {
                let term = line.terms.iter().find(|term| term.symbol == symbol);
                match term {
                    Some(term) => amount(symbol, term.value, term.figures),
                    None => Piece::Symbol(symbol),
                }
            }));
            row
        });
        let mut result = vec![
            Piece::Sign("="),
            amount(line.symbol, line.value, line.figures),
        ];
        if in_mol && line.symbol.unit() == Unit::Mmol {
            let number = self.number(line.symbol, line.value, line.figures);
            result.extend([
                Piece::Sign("="),
                Piece::Value(number, line.symbol.unit().symbol()),
            ]);
        }
        ThreeRows {
            symbols,
            values,
            result,
        }
    }

    /// A formula with its symbols.
    pub fn with_symbols(&self, left: Symbol, formula: &Expr) -> Row {
        let mut row = vec![Piece::Symbol(left), Piece::Sign("=")];
        row.extend(self.laid(formula, &Piece::Symbol));
        row
    }

    fn laid(&self, formula: &Expr, terms: Terms<'_>) -> Row {
        let at = |e: &Expr| self.laid(e, terms);
        let pair = |pair: &[Expr; 2], sign| {
            let mut row = at(&pair[0]);
            row.push(Piece::Sign(sign));
            row.extend(at(&pair[1]));
            row
        };
        match formula {
            Expr::Of(symbol) => vec![terms(*symbol)],
            Expr::Number(value) => vec![Piece::Value(self.count(*value), "")],
            Expr::Sum(both) => pair(both, "+"),
            Expr::Difference(both) => pair(both, "−"),
            Expr::Product(both) => pair(both, "×"),
            Expr::Quotient(both) => self.quotient(&both[0], &both[1], terms),
            Expr::Root(inner) => vec![Piece::Root(at(inner))],
            Expr::MinusLog(inner) => vec![Piece::MinusLog(without_units(at(inner)))],
            Expr::Log(inner) => vec![Piece::Log(at(inner))],
            Expr::TenToMinus(inner) => match &**inner {
                // Minus a difference is the difference the other way round.
                Expr::Difference(both) => {
                    let [less, from] = &**both;
                    let mut power = at(from);
                    power.push(Piece::Sign("−"));
                    power.extend(at(less));
                    vec![Piece::TenTo(power)]
                }
                inner => vec![Piece::TenToMinus(at(inner))],
            },
            // No right way has these.
            Expr::Size(inner) | Expr::Rounded(inner, _) => vec![Piece::Brackets(at(inner))],
        }
    }

    /// Kₐ × n(HA) / n(A⁻) is written as Kₐ times a fraction; [H⁺][A⁻]/[HA] as one fraction.
    fn quotient(&self, upper: &Expr, lower: &Expr, terms: Terms<'_>) -> Row {
        let at = |e: &Expr| self.laid(e, terms);
        let Expr::Product(factors) = upper else {
            return vec![Piece::Fraction(at(upper), at(lower))];
        };
        if let [
            Expr::Of(a @ (Symbol::Hydrogen | Symbol::Hydroxide)),
            Expr::Of(b),
        ] = **factors
        {
            let upper = match terms(a) {
                Piece::Symbol(_) => vec![Piece::Side(vec![a, b])],
                _ => at(upper),
            };
            return vec![Piece::Fraction(upper, at(lower))];
        }
        let mut row = at(&factors[0]);
        row.push(Piece::Sign("×"));
        row.push(Piece::Fraction(at(&factors[1]), at(lower)));
        row
    }
}

/// A number and its unit.
pub(super) fn joined(number: &str, unit: &str) -> String {
    if unit.is_empty() {
        number.to_owned()
    } else {
        [number, " ", unit].concat()
    }
}

/// A logarithm is taken of the number alone.
fn without_units(row: Row) -> Row {
    row.into_iter()
        .map(|piece| match piece {
            Piece::Value(number, _) => Piece::Value(number, ""),
            other => other,
        })
        .collect()
}
