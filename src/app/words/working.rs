//! A worked solution in words and formulas: for the screen, as plain text, read aloud.

use crate::app::words::reason::{note, subject};
use crate::app::working::Working;
use crate::chem::power::{decimal, whole};
use crate::lesson::notation::{Equation, PairNames};
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::form::{Form, Problem, Variant};
use crate::lesson::sums::solution::{Column, Note, Origin, Solution, Step, Table, Term};
use crate::lesson::sums::symbol::{Symbol, Unit};
use crate::lesson::sums::written::{Pen, Row};

/// Between a definition and what is made of it.
const REARRANGED: &str = "Rearranged:";

/// What numbers that are given come from.
#[derive(Debug, Clone, Copy)]
enum Place {
    /// A question states them.
    Question,
    /// They are on the bench; with the pair's pKa, and whether it was typed, and whether
    /// anything was added.
    Bench { pka: f64, own: bool, added: bool },
}

/// Everything that is needed to write a solution.
pub(super) struct Telling<'a> {
    pub(super) solution: &'a Solution,
    pub(super) pen: Pen<'a>,
    form: Option<Form>,
    place: Place,
}

/// The working of a bench as HTML: one `<details name="working">` a step.
pub fn working_html(working: &Working, writer: Writer) -> String {
    Telling::of_bench(working, writer).html()
}

/// The same as plain text, for copying, print and tests.
pub fn working_plain(working: &Working, writer: Writer) -> String {
    Telling::of_bench(working, writer).plain()
}

/// The same as it is read aloud.
pub fn working_spoken(working: &Working, writer: Writer) -> String {
    Telling::of_bench(working, writer).spoken()
}

/// The worked solution of a problem as HTML, as [`working_html`] has it.
pub fn solution_html(problem: &Problem, solution: &Solution, writer: Writer) -> String {
    Telling::of_problem(problem, solution, writer).html()
}

/// The same for paper: every step is open, and where its numbers come from is left out.
pub fn solution_laid_out(problem: &Problem, solution: &Solution, writer: Writer) -> String {
    Telling::of_problem(problem, solution, writer).laid_out()
}

/// The same as plain text.
pub fn solution_plain(problem: &Problem, solution: &Solution, writer: Writer) -> String {
    Telling::of_problem(problem, solution, writer).plain()
}

/// The same as it is read aloud.
pub fn solution_spoken(problem: &Problem, solution: &Solution, writer: Writer) -> String {
    Telling::of_problem(problem, solution, writer).spoken()
}

/// What a problem's formulas are written with.
pub(super) const fn pen(names: &PairNames, variant: Variant, writer: Writer) -> Pen<'_> {
    Pen {
        names,
        variant,
        writer,
    }
}

/// What stands in a step, in order; the three writers go through this.
pub(super) enum Part<'a> {
    Sentence(String),
    Equation(&'a Equation),
    Table(&'a Table),
    /// Rows of one line.
    Formula(Vec<Row>),
    Origins(Vec<Term>),
}

impl<'a> Telling<'a> {
    fn of_problem(problem: &'a Problem, solution: &'a Solution, writer: Writer) -> Self {
        Self {
            solution,
            pen: pen(&problem.names, problem.variant, writer),
            form: Some(problem.form),
            place: Place::Question,
        }
    }

    fn of_bench(working: &'a Working, writer: Writer) -> Self {
        Self {
            solution: &working.solution,
            pen: pen(&working.names, working.variant, writer),
            form: working.problem.as_ref().map(|p| p.form),
            place: Place::Bench {
                pka: working.pka,
                own: working.own_pka,
                added: working.added,
            },
        }
    }

    pub(super) fn parts(&self, step: &'a Step) -> Vec<Part<'a>> {
        let mut parts = Vec::new();
        let sentences = |notes: &[Note], parts: &mut Vec<_>| {
            for one in notes {
                let text = note(&self.pen, self.form, one);
                if !text.is_empty() {
                    parts.push(Part::Sentence(text));
                }
            }
        };
        sentences(&step.notes, &mut parts);
        parts.extend(step.equation.as_ref().map(Part::Equation));
        parts.extend(step.table.as_ref().map(Part::Table));
        if let Some((left, formula)) = &step.definition {
            // Ka itself is worked out from what defines it, and needs no second writing.
            let own = step.lines.iter().find(|line| line.symbol == *left);
            if own.is_none_or(|line| line.formula != *formula) {
                let row = self.pen.with_symbols(*left, formula);
                parts.push(Part::Formula(vec![row]));
            }
            if own.is_none() {
                parts.push(Part::Sentence(REARRANGED.to_owned()));
            }
        }
        for line in &step.lines {
            let rows = self.pen.rows(line);
            let mut all = vec![rows.symbols];
            all.extend(rows.values);
            all.push(rows.result);
            parts.push(Part::Formula(all));
        }
        let terms = self.terms(step);
        if !terms.is_empty() {
            parts.push(Part::Origins(terms));
        }
        sentences(&step.checks, &mut parts);
        parts
    }

    /// The numbers that a step takes from elsewhere, each once.
    fn terms(&self, step: &Step) -> Vec<Term> {
        let mut terms: Vec<Term> = Vec::new();
        for term in step.lines.iter().flat_map(|line| &line.terms) {
            let own = step.lines.iter().any(|line| line.symbol == term.symbol);
            if !own && terms.iter().all(|other| other.symbol != term.symbol) {
                terms.push(*term);
            }
        }
        terms
    }

    /// The heading of a step with its results: "Amounts: n(HA) = 6.00 mmol".
    pub(super) fn heading(&self, step: &Step) -> String {
        let mut out = subject(step.subject).to_owned();
        for (i, line) in step.lines.iter().enumerate() {
            out.push_str(if i == 0 { ": " } else { ", " });
            let symbol = self.pen.symbol(line.symbol);
            // The heading "pH" has said it.
            if out.trim_end_matches(": ") != symbol {
                out.push_str(&symbol);
                out.push_str(" = ");
            }
            out.push_str(&self.value(line.symbol, line.value, line.figures));
        }
        out
    }

    pub(super) fn value(&self, symbol: Symbol, value: f64, figures: usize) -> String {
        self.pen.value(symbol, value, figures)
    }

    /// "n(HA), from step 2"
    pub(super) fn origin(&self, term: &Term) -> String {
        let mut out = self.pen.symbol(term.symbol);
        out.push_str(", ");
        match (term.origin, self.place) {
            (Origin::Constant, _) => out.push_str("a constant of water at 25 °C"),
            (Origin::Step(number), _) => {
                out.push_str("from step ");
                out.push_str(&number.to_string());
            }
            (Origin::Given, Place::Question) => out.push_str("given in the question"),
            (Origin::Given, Place::Bench { pka, own, added }) => {
                self.bench_origin(term.symbol, (pka, own, added), &mut out);
            }
        }
        out
    }

    fn bench_origin(&self, symbol: Symbol, (pka, own, added): (f64, bool, bool), out: &mut String) {
        use Symbol::{
            Acid, AcidConcentration, Base, BaseConcentration, Excess, Ka, StrongStock,
            StrongVolume, TotalVolume,
        };
        out.push_str(match symbol {
            Ka => "10^(−pKₐ), with pKₐ = ",
            StrongStock if added => "the bottle that you add from",
            StrongVolume if added => "what you added",
            Acid | Base | Excess => "what is left after the reactions above",
            TotalVolume => "everything in the flask",
            AcidConcentration | BaseConcentration => "what the recipe makes in the flask",
            _ if added || self.form == Some(Form::WeakAcidAlone) => {
                "what the recipe makes in the flask"
            }
            _ => "from the recipe",
        });
        if symbol == Ka {
            out.push_str(&self.pen.writer.fixed(pka, 3));
            out.push_str(if own {
                ", which you typed"
            } else {
                " from the table of acids"
            });
        }
    }

    /// Names of the columns and rows of numbers.
    pub(super) fn cells(&self, table: &Table) -> ([String; 3], [[String; 3]; 3]) {
        let unit = Unit::Mmol.per_kept();
        let least = table
            .columns
            .iter()
            .map(|c| c.start * unit)
            .filter(|v| *v > 0.0)
            .fold(f64::INFINITY, f64::min);
        // All with the decimal places of the least exact digit of the smallest amount.
        let exponent = whole(libm::floor(libm::log10(least)));
        let figures = i64::try_from(table.figures).unwrap_or(3);
        let decimals = usize::try_from(figures - 1 - exponent).unwrap_or(0);
        let end_at = |decimals: usize| {
            table
                .columns
                .iter()
                .flat_map(|c| [c.start, c.end])
                .all(|mol| {
                    let places = i32::try_from(decimals).unwrap_or(0);
                    let shown = mol * unit * decimal(1, places);
                    (shown - libm::round(shown)).abs() < 1e-6
                })
        };
        // Fewer, or one more, where every amount ends there.
        let ends = (1..=decimals + 1).find(|decimals| end_at(*decimals));
        let decimals = ends.unwrap_or(decimals);
        let writer = self.pen.writer;
        let row = |cell: &dyn Fn(&Column) -> String| {
            let [a, b, c] = &table.columns;
            [cell(a), cell(b), cell(c)]
        };
        let name = |c: &Column| match c.species {
            Symbol::Acid => self.pen.names.acid_symbol.clone(),
            Symbol::Base => self.pen.names.base_symbol.clone(),
            _ => self.pen.ion().to_owned(),
        };
        (
            row(&name),
            [
                row(&|c| writer.fixed(c.start * unit, decimals)),
                row(&|c| writer.signed((c.end - c.start) * unit, decimals)),
                row(&|c| writer.fixed(c.end * unit, decimals)),
            ],
        )
    }
}
