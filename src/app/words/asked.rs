//! What a question asks for, as a whole and line by line.

use crate::app::words::addition::ion;
use crate::lesson::sig_fig::PhDecimals;
use crate::lesson::sums::entry::{is_recipe, unit_wanted};
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::symbol::{Symbol, Unit};

/// What a line of a question is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineLabel {
    /// Its symbol: "n(HA)".
    pub symbol: String,
    /// The same in words: "propanoic acid after the reaction".
    pub words: String,
    /// The unit that a bare number is taken in; empty for none.
    pub unit: &'static str,
    /// Whether the unit is part of the answer and has to be typed.
    pub unit_wanted: bool,
}

/// Whether the acid of the question is one without a name.
const fn is_unknown(form: Form) -> bool {
    matches!(form, Form::KaFromPh | Form::HalfNeutralized)
}

/// What the line about `symbol` is about.
pub fn line(problem: &Problem, symbol: Symbol) -> LineLabel {
    use Symbol::*;
    let names = &problem.names;
    let strong = ion(problem.variant.reagent);
    let unknown = is_unknown(problem.form);
    let acid = if unknown {
        "the acid HA"
    } else if names.alkaline {
        &[&names.acid_name, " ion"].concat()
    } else {
        &names.acid_name
    };
    let base = if unknown {
        "its ion A⁻"
    } else {
        &names.base_name
    };
    let at_the_end = match problem.form {
        Form::TwoVolumes | Form::SaltMass => " in the mixture",
        Form::RecipeBySalt => " to be dissolved",
        _ => " after the reaction",
    };
    let (before, who, after) = match symbol {
        Ka if names.alkaline => ("constant of the ", acid, ""),
        Ka => ("constant of ", acid, ""),
        AcidStart => ("", acid, " before the reaction"),
        BaseStart => ("", base, " before the reaction"),
        Acid => ("", acid, at_the_end),
        Base => ("", base, at_the_end),
        Strong if is_recipe(problem.form) => ("", strong, " needed"),
        Strong => ("", strong, " added"),
        Excess => ("", strong, " that finds no partner"),
        AcidConcentration | AcidDiluted => ("concentration of ", acid, ""),
        BaseConcentration | BaseDiluted => ("concentration of ", base, ""),
        Hydrogen => ("concentration of ", "hydrogen ions", ""),
        Hydroxide => ("concentration of ", "hydroxide ions", ""),
        Ratio => ("", "base form", " to acid form"),
        Mass => ("", names.base_source.as_str(), " to be weighed"),
        StrongVolume => ("", "sodium hydroxide", " to be added"),
        HalfVolume => ("", "half-way", " to equivalence"),
        Pka => ("of ", acid, ""),
        _ => ("", "", ""),
    };
    LineLabel {
        symbol: symbol.written(names, strong),
        words: [before, who, after].concat(),
        unit: symbol.unit().symbol(),
        unit_wanted: unit_wanted(problem, symbol),
    }
}

/// What is to be worked out.
pub(super) const fn task(problem: &Problem) -> &'static str {
    match problem.form {
        Form::AddedAcid | Form::AddedAlkali if problem.variant.small_addition => {
            "Work out how much of each form there is before and after."
        }
        Form::AddedAcid | Form::AddedAlkali | Form::Exhausted => "Work out the pH now.",
        Form::KaFromPh => "Work out Kₐ of HA.",
        Form::HalfNeutralized => "Work out the volume half-way, pKₐ and Kₐ.",
        Form::Dilution => "Work out both concentrations and the pH now.",
        Form::RecipeBySalt => "Work out the mass of the salt.",
        Form::RecipeByAlkali => "Work out the volume of alkali.",
        Form::ChooseAcid => "Choose the acid that suits, and work out n(A⁻)/n(HA) for it.",
        Form::Concentrations | Form::WeakAcidAlone => "Work out the pH.",
        Form::TwoVolumes
        | Form::AcidWithAlkali
        | Form::BaseWithAcid
        | Form::Equivalence
        | Form::SaltMass => "Work out the pH of the mixture.",
    }
}

/// How exactly.
pub(super) fn exactness(problem: &Problem, decimals: PhDecimals) -> &'static str {
    let answer = problem.answer();
    let figures = problem.sheet.find(answer).map_or(3, |l| l.figures);
    match answer.unit() {
        Unit::Scale => match decimals {
            PhDecimals::Two => " Give the pH to 2 decimal places.",
            PhDecimals::Three => " Give the pH to 3 decimal places.",
        },
        _ if unit_wanted(problem, answer) && figures == 2 => {
            " Give it to 2 significant figures, with its unit."
        }
        _ if unit_wanted(problem, answer) => " Give it to 3 significant figures, with its unit.",
        _ if answer == Symbol::Ka => " Give Kₐ to 2 significant figures.",
        _ if figures == 2 => " Give it to 2 significant figures.",
        _ => " Give 3 significant figures.",
    }
}
