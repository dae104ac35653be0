//! How the steps of a worked solution are put together.

use crate::chem::power::ten_to;
use crate::chem::titration::Reagent;
use crate::lesson::notation::Writing;
use crate::lesson::sums::expression::{of, rounded};
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::question::Question;
use crate::lesson::sums::sheet::{Line, Source, Values};
use crate::lesson::sums::solution::{Note, Origin, Solution, Step, Subject, Table, Term, Worked};
use crate::lesson::sums::symbol::{Symbol, Unit};

impl Step {
    /// A step without lines.
    pub fn new(subject: Subject, notes: &[Note]) -> Self {
        Self {
            subject,
            notes: notes.to_vec(),
            equation: None,
            table: None,
            definition: None,
            lines: Vec::new(),
            checks: Vec::new(),
        }
    }
}

impl Solution {
    /// The worked solution of a problem. `before` are steps that lead to what its sheet takes
    /// as given.
    pub fn of(problem: &Problem, before: Vec<Step>) -> Self {
        let mut builder = Builder {
            values: problem.sheet.right(),
            steps: before,
            problem,
        };
        builder.through();
        Self {
            steps: builder.steps,
        }
    }

    /// The worked solution of a question.
    pub fn of_question(question: &Question) -> Self {
        let mut solution = Self::of(&question.problem, Vec::new());
        let right = question.problem.sheet.right();
        if let (Some((key, ka)), Some(ph), Some(check)) = (
            question.other,
            right.get(Symbol::GivenPh),
            solution.steps.last_mut(),
        ) {
            let entry = crate::chem::systems::find(key);
            check.checks.push(Note::OtherAcid {
                name: entry.map_or(key, |e| e.form(1).name(e.classroom)),
                pka: -libm::log10(ka.value),
                ratio: ka.value / ten_to(-ph),
            });
        }
        solution
    }
}

pub(super) struct Builder<'a> {
    pub(super) problem: &'a Problem,
    pub(super) values: Values,
    pub(super) steps: Vec<Step>,
}

impl Builder<'_> {
    pub(super) fn get(&self, symbol: Symbol) -> f64 {
        self.values.get(symbol).unwrap_or(0.0)
    }

    /// The lines of the sheet about `symbols`, as far as it works them out and there is
    /// something to work out.
    fn lines(&self, symbols: &[Symbol]) -> Vec<Worked> {
        let found = symbols.iter().filter_map(|&symbol| {
            let line = self.problem.sheet.find(symbol)?;
            let Source::Worked(formula) = &line.source else {
                return None;
            };
            let value = self.values.get(symbol)?;
            let mut terms: Vec<Term> = Vec::new();
            for symbol in formula.symbols() {
                if terms.iter().all(|term| term.symbol != symbol) {
                    terms.extend(self.term(symbol));
                }
            }
            Some(Worked {
                symbol,
                formula: formula.clone(),
                terms,
                value,
                figures: self.figures(line),
            })
        });
        found.filter(|line| line.value != 0.0).collect()
    }

    /// On the way a line is written with figures to spare: three at least, and one more for
    /// an amount or a volume that ends there, such as 11.25 mmol or 212.5 cm³.
    fn figures(&self, line: &Line) -> usize {
        let unit = line.symbol.unit();
        let worked = matches!(line.source, Source::Worked(_));
        if !worked || unit == Unit::Scale || line.symbol == self.problem.answer() {
            return line.figures;
        }
        let figures = line.figures.max(3);
        let value = self.get(line.symbol);
        let ends = |figures| (rounded(value, figures) - value).abs() < 1e-9 * value.abs();
        if matches!(unit, Unit::Mmol | Unit::Cm3) && !ends(figures) && ends(figures + 1) {
            figures + 1
        } else {
            figures
        }
    }

    fn term(&self, symbol: Symbol) -> Option<Term> {
        let line = self.problem.sheet.find(symbol)?;
        let made = |step: &Step| step.lines.iter().any(|line| line.symbol == symbol);
        let origin = match line.source {
            Source::Given(_) => Origin::Given,
            Source::Constant(_) => Origin::Constant,
            // Worked out in this step if in none before it.
            Source::Worked(_) => {
                let place = self.steps.iter().position(made);
                Origin::Step(place.unwrap_or(self.steps.len()) + 1)
            }
        };
        Some(Term {
            symbol,
            value: self.values.get(symbol)?,
            figures: self.figures(line),
            origin,
        })
    }

    pub(super) fn add(
        &mut self,
        subject: Subject,
        notes: &[Note],
        symbols: &[Symbol],
    ) -> &mut Step {
        let mut step = Step {
            lines: self.lines(symbols),
            ..Step::new(subject, notes)
        };
        // Symbols are explained once.
        let told = |step: &Step| step.notes.contains(&Note::Names);
        if self.steps.iter().any(told) {
            step.notes.retain(|note| *note != Note::Names);
        }
        self.steps.push(step);
        self.steps.last_mut().expect("it was just pushed")
    }

    /// Ka = [H⁺][A⁻]/[HA] rearranged, in the problem's own last lines.
    pub(super) fn with_ka(&mut self, notes: &[Note], symbols: &[Symbol]) {
        let step = self.add(Subject::FromKa, notes, symbols);
        let (acid, base) = (Symbol::AcidConcentration, Symbol::BaseConcentration);
        let expression = of(Symbol::Hydrogen) * of(base) / of(acid);
        step.definition = Some((Symbol::Ka, expression));
    }

    pub(super) fn amounts(&mut self, symbols: &[Symbol]) {
        let mut notes = Vec::new();
        if self.problem.variant.ions > 1 {
            notes.push(Note::TwoIons);
        }
        if self.problem.form == Form::SaltMass {
            notes.push(Note::VolumeKept);
        }
        let step = self.add(Subject::Amounts, &notes, symbols);
        // A sheet that starts from amounts has none to work out.
        if step.lines.is_empty() {
            self.steps.pop();
        }
    }

    /// The reaction with its table; `start` are the amounts of strong ion, acid and base form.
    pub(super) fn reaction(&mut self, start: [f64; 3], lines: &[Symbol]) {
        let reagent = self.problem.variant.reagent;
        let [strong, acid, base] = start;
        let partner = match reagent {
            Reagent::Acid => base,
            Reagent::Alkali => acid,
        };
        let note = match strong - partner {
            _ if partner == 0.0 => Note::NoPartner,
            more if more.abs() < 1e-9 * partner => Note::BothUsedUp,
            more if more < 0.0 => Note::ReagentUsedUp,
            _ => Note::PartnerUsedUp,
        };
        let figures = self.problem.sheet.least_figures();
        let equation = self.problem.names.reaction(reagent, Writing::Formulas);
        let reacts = note != Note::NoPartner;
        let step = self.add(Subject::Reaction, &[note], lines);
        if reacts {
            step.equation = Some(equation);
            step.table = Some(Table::of(reagent, strong, acid, base, figures));
        }
    }

    pub(super) fn buffer(&mut self) {
        let cancels = self.problem.sheet.find(Symbol::Acid).is_some();
        let notes: &[Note] = if cancels { &[Note::VolumeCancels] } else { &[] };
        if self.problem.by_logarithm() {
            let notes = [notes, &[Note::LogarithmOfKa, Note::KeepDigits]].concat();
            self.add(Subject::FromKa, &notes, &[Symbol::Pka, Symbol::Ph]);
            return;
        }
        self.with_ka(notes, &[Symbol::Hydrogen]);
        self.add(Subject::Ph, &[Note::KeepDigits], &[Symbol::Ph]);
    }

    /// pH against pKa by which form there is more of.
    pub(super) fn beside_pka(&self, acid: Symbol, base: Symbol, ph: Symbol) -> Note {
        Note::BesidePka {
            ratio: self.get(base) / self.get(acid),
            pka: -libm::log10(self.get(Symbol::Ka)),
            ph: self.get(ph),
        }
    }

    pub(super) fn check(&mut self, checks: Vec<Note>) {
        let mut step = Step::new(Subject::Check, &[]);
        step.checks = checks;
        self.steps.push(step);
    }
}
