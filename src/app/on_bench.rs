//! A question's mixture on the bench.

use crate::app::recipe::{Field, Method, PairChoice, Recipe};
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::question::Question;
use crate::lesson::sums::symbol::Symbol;

/// The question's mixture as a recipe of the bench, where the bench can make it: two
/// solutions mixed, a weak acid or base part-neutralized or just neutralized.
pub fn put_on_bench(question: &Question) -> Option<Recipe> {
    use Symbol::{AcidStock, AcidVolume, BaseStock, BaseVolume, StrongStock, StrongVolume};
    let problem = &question.problem;
    let from_base = problem.names.alkaline;
    let (method, fields) = match problem.form {
        Form::TwoVolumes => (
            Method::TwoSolutions,
            [
                (Field::AcidConcentration, AcidStock),
                (Field::AcidVolume, AcidVolume),
                (Field::BaseConcentration, BaseStock),
                (Field::BaseVolume, BaseVolume),
            ],
        ),
        Form::AcidWithAlkali | Form::BaseWithAcid | Form::Equivalence => (
            Method::PartNeutralized,
            [
                (
                    Field::WeakConcentration,
                    if from_base { BaseStock } else { AcidStock },
                ),
                (
                    Field::WeakVolume,
                    if from_base { BaseVolume } else { AcidVolume },
                ),
                (Field::StrongConcentration, StrongStock),
                (Field::StrongVolume, StrongVolume),
            ],
        ),
        _ => return None,
    };
    let mut recipe = Recipe::default();
    (recipe.pair, recipe.method) = (PairChoice::Listed(question.key, 1), method);
    for (field, symbol) in fields {
        recipe.set_text(field, datum(problem, symbol)?);
    }
    recipe.read().is_ok().then_some(recipe)
}

/// A datum as it is typed.
fn datum(problem: &Problem, symbol: Symbol) -> Option<String> {
    let line = problem.sheet.find(symbol)?;
    let value = problem.sheet.right().get(symbol)? * symbol.unit().per_kept();
    Some(Writer::default().significant(value, line.figures))
}
