//! Which calculation a bench calls for: the form of its recipe or of what was added to it,
//! or else one that starts from what is left after all reactions.

use crate::app::bench::Bench;
use crate::app::reading::Reading;
use crate::app::recipe::{Field, Method, Recipe};
use crate::chem::buffer::CompleteReaction;
use crate::chem::quantity::Amount;
use crate::chem::titration::Reagent;
use crate::lesson::read::{figures, number};
use crate::lesson::sums::form::{Datum, Form, PhBy, Problem, Variant};
use crate::lesson::sums::solution::{Note, Solution, Step, Subject};
use crate::lesson::sums::symbol::Symbol;

/// Amounts this much smaller than the pair's are rounding, not chemistry.
const NOTHING: f64 = 1e-9;

/// A bench as a calculation sees it. Amounts in mol, volumes in dm³.
pub(super) struct Seen<'a> {
    pub(super) bench: &'a Bench,
    pub(super) reading: &'a Reading,
    pub(super) start: CompleteReaction,
    pub(super) now: CompleteReaction,
    /// Strong ions that met the pair: what the recipe left over and what was added; alkali
    /// positive.
    pub(super) strong: f64,
    /// Below this an amount is none.
    pub(super) nothing: f64,
    /// Figures of the least exact number of the recipe.
    pub(super) figures: usize,
    /// How the pH of a buffer is worked out.
    pub(super) by: PhBy,
}

impl<'a> Seen<'a> {
    pub(super) fn of(bench: &'a Bench, reading: &'a Reading, by: PhBy) -> Self {
        let [start, now] = [&reading.start, &reading.now].map(|solved| {
            let complete = reading.setup.pair.complete_reaction(&solved.mixture);
            complete.expect("a bench holds its own pair")
        });
        let recipe = &bench.recipe;
        let was_added = bench.has_additions();
        let counting = recipe.fields().into_iter();
        let counting = counting.filter(|f| *f != Field::Stock || was_added);
        let figures = counting.map(|f| figures(recipe.text(f)));
        // Nought is exact.
        let figures = figures.filter(|count| *count > 0);
        Self {
            strong: start.excess_hydroxide.mol() - start.excess_hydrogen.mol()
                + reading.now.added.mol(),
            nothing: NOTHING * (start.acid + start.base).mol(),
            figures: figures.min().unwrap_or(3).clamp(2, 4),
            by,
            bench,
            reading,
            start,
            now,
        }
    }

    pub(super) fn is(&self, amount: Amount) -> bool {
        amount.mol() > self.nothing
    }

    pub(super) fn variant(&self) -> Variant {
        let reagent = if self.strong < 0.0 {
            Reagent::Acid
        } else {
            Reagent::Alkali
        };
        self.variant_of(reagent)
    }

    const fn variant_of(&self, reagent: Reagent) -> Variant {
        Variant {
            by: self.by,
            ..Variant::plain(reagent)
        }
    }

    pub(super) fn ka(&self) -> f64 {
        crate::chem::power::ten_to(-self.reading.setup.pair.pka().value())
    }

    pub(super) fn volume(&self) -> f64 {
        self.reading.now.volume().dm3()
    }

    /// The calculation, and the steps that lead to what it takes as given.
    pub(super) fn problem(&self) -> (Option<Problem>, Vec<Step>) {
        if let Some(symbol) = self.both_ways() {
            let mut steps = self.history();
            steps.push(Step::new(Subject::Mixture, &[Note::BothWays(symbol)]));
            return (None, steps);
        }
        let added = self.bench.has_additions();
        let form = if added {
            self.after_additions()
        } else {
            self.of_recipe()
        };
        match form {
            Some(problem) => (Some(problem), Vec::new()),
            None => (Some(self.of_what_is_left()), self.history()),
        }
    }

    /// A form that is left alone, or beside a strong reagent, although its system has a
    /// further step there: the pair's own step says nothing about it.
    fn both_ways(&self) -> Option<Symbol> {
        let pair = &self.reading.setup.pair;
        let takes = pair.system().step_from(pair.acid_protons() + 1).is_some();
        let gives = pair.system().step_from(pair.base_protons()).is_some();
        if takes && !self.is(self.now.base) {
            Some(Symbol::Acid)
        } else if gives && !self.is(self.now.acid) {
            Some(Symbol::Base)
        } else {
            None
        }
    }

    fn new_problem(
        &self,
        form: Form,
        reagent: Reagent,
        value: impl Fn(Symbol) -> (f64, usize),
    ) -> Problem {
        let variant = self.variant_of(reagent);
        let data: Vec<Datum> = Problem::given(form, variant)
            .into_iter()
            .map(|symbol| {
                let (value, figures) = match symbol {
                    Symbol::Ka => (self.ka(), 3),
                    other => value(other),
                };
                Datum {
                    symbol,
                    value,
                    figures,
                }
            })
            .collect();
        Problem::new(form, variant, self.reading.setup.names.clone(), &data)
    }

    /// The form of a bench to which nothing was added.
    fn of_recipe(&self) -> Option<Problem> {
        let recipe = &self.bench.recipe;
        let (acid, base) = (self.is(self.now.acid), self.is(self.now.base));
        let strong = typed(recipe, Field::StrongConcentration).0;
        match recipe.method {
            Method::TwoSolutions if acid && base => {
                Some(self.new_problem(Form::TwoVolumes, Reagent::Acid, |symbol| {
                    typed(
                        recipe,
                        match symbol {
                            Symbol::AcidStock => Field::AcidConcentration,
                            Symbol::AcidVolume => Field::AcidVolume,
                            Symbol::BaseStock => Field::BaseConcentration,
                            _ => Field::BaseVolume,
                        },
                    )
                }))
            }
            Method::PartNeutralized if strong > 0.0 => {
                let (form, reagent) = if recipe.starts_from_base() {
                    (Form::BaseWithAcid, Reagent::Acid)
                } else {
                    (Form::AcidWithAlkali, Reagent::Alkali)
                };
                let excess = self.is(self.now.excess_hydrogen + self.now.excess_hydroxide);
                let form = match (acid && base, excess) {
                    (true, _) => form,
                    (false, true) => Form::Exhausted,
                    (false, false) => Form::Equivalence,
                };
                Some(self.new_problem(form, reagent, |symbol| match symbol {
                    Symbol::StrongStock => typed(recipe, Field::StrongConcentration),
                    Symbol::StrongVolume => typed(recipe, Field::StrongVolume),
                    Symbol::AcidConcentration if reagent == Reagent::Acid => (0.0, 3),
                    Symbol::BaseConcentration if reagent == Reagent::Alkali => (0.0, 3),
                    Symbol::AcidVolume | Symbol::BaseVolume | Symbol::BufferVolume => {
                        typed(recipe, Field::WeakVolume)
                    }
                    _ => typed(recipe, Field::WeakConcentration),
                }))
            }
            Method::TwoSolutions | Method::PartNeutralized => {
                let reagent = if base { Reagent::Alkali } else { Reagent::Acid };
                let total = (self.now.acid + self.now.base).mol();
                let concentration = (total / self.volume(), self.figures);
                Some(self.new_problem(Form::WeakAcidAlone, reagent, |_| concentration))
            }
        }
    }

    /// The form of a bench to which something was added, if it has one of its own.
    fn after_additions(&self) -> Option<Problem> {
        let (start, now) = (&self.start, &self.now);
        let one_kind = self.bench.acid == 0 || self.bench.alkali == 0;
        let was_excess = self.is(start.excess_hydrogen + start.excess_hydroxide);
        if was_excess || self.strong.abs() <= self.nothing {
            return None;
        }
        let reagent = self.variant().reagent;
        let is_buffer = self.is(now.acid) && self.is(now.base);
        let was_buffer = self.is(start.acid) && self.is(start.base);
        let excess = self.is(now.excess_hydrogen + now.excess_hydroxide);
        let form = match (is_buffer, was_buffer, reagent) {
            (true, true, Reagent::Acid) => Form::AddedAcid,
            (true, true, Reagent::Alkali) => Form::AddedAlkali,
            (true, false, Reagent::Acid) => Form::BaseWithAcid,
            (true, false, Reagent::Alkali) => Form::AcidWithAlkali,
            // From here on the volume counts, and acid and alkali would both add to it.
            (false, ..) if !one_kind => return None,
            (false, ..) if excess => Form::Exhausted,
            (false, true, _) => return None,
            (false, false, _) => Form::Equivalence,
        };
        let volume = self.reading.start.volume().dm3();
        let stock = self.reading.setup.stock.concentration().molar();
        let figures = self.figures;
        Some(self.new_problem(form, reagent, |symbol| match symbol {
            Symbol::StrongStock => typed(&self.bench.recipe, Field::Stock),
            Symbol::StrongVolume => (self.strong.abs() / stock, 3),
            Symbol::AcidVolume | Symbol::BaseVolume | Symbol::BufferVolume => {
                (volume, figures.max(3))
            }
            Symbol::AcidConcentration | Symbol::AcidStock => (start.acid.mol() / volume, figures),
            _ => (start.base.mol() / volume, figures),
        }))
    }

    /// Says first that acid and alkali were both added.
    pub(super) fn say_both_were_added(&self, solution: &mut Solution) {
        let step = self.reading.scale.step;
        let note = Note::AddedBoth {
            acid: step.times(self.bench.acid).mol(),
            alkali: step.times(self.bench.alkali).mol(),
        };
        if let Some(first) = solution.steps.first_mut() {
            first.notes.insert(0, note);
        }
    }
}

/// A typed number in dm³ or mol dm⁻³, with its significant figures.
fn typed(recipe: &Recipe, field: Field) -> (f64, usize) {
    let text = recipe.text(field);
    let value = number(text).unwrap_or(0.0);
    let per_kept = match field {
        Field::AcidVolume | Field::BaseVolume | Field::WeakVolume | Field::StrongVolume => 1000.0,
        _ => 1.0,
    };
    (value / per_kept, figures(text))
}
