//! The first question of every question, "What is this mixture?", in words.

use crate::app::pair::PairChoice;
use crate::app::words::capital;
use crate::chem::titration::Reagent;
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::kind::Kind;
use crate::lesson::sums::question::Question;
use crate::lesson::sums::symbol::Symbol;

/// The question itself.
pub const WHAT_IS_IT: &str = "What is this mixture, once everything has reacted?";

/// Asked first where an acid is to be chosen.
pub const WHICH_SUITS: &str = "Which of the two acids suits?";

/// Before what it is, once it has to be told.
pub const IT_IS: &str = "It is: ";

/// A choice, as plain text.
pub fn named(kind: Kind, question: &Question) -> String {
    match kind {
        Kind::Suits => capital(&question.problem.names.acid_name),
        Kind::SuitsNot => {
            let other = question.other.map(|(key, _)| PairChoice::Listed(key, 1));
            capital(&other.map(|pair| pair.names().acid_name).unwrap_or_default())
        }
        _ => mixture(kind).to_owned(),
    }
}

const fn mixture(kind: Kind) -> &'static str {
    match kind {
        Kind::AcidBuffer => "A buffer: a weak acid and its salt",
        Kind::AlkalineBuffer => "A buffer: a weak base and its salt",
        Kind::ExcessAcid => "Strong acid left over",
        Kind::ExcessAlkali => "Strong alkali left over",
        Kind::OnlySalt => "Only the salt",
        Kind::OnlyAcid => "Only the weak acid",
        Kind::Suits | Kind::SuitsNot => "",
    }
}

/// What would have to be so for a choice that does not hold, and what to look at; `question` is
/// what it was chosen for.
pub fn would_need(kind: Kind, question: &Question) -> &'static str {
    let problem = &question.problem;
    let given = |symbol| problem.sheet.find(symbol).is_some();
    let strong = given(Symbol::StrongStock).then_some(problem.variant.reagent);
    match (kind, crate::lesson::sums::kind::kind(question)) {
        (Kind::AcidBuffer, Kind::AlkalineBuffer) | (Kind::AlkalineBuffer, Kind::AcidBuffer) => {
            "It is a buffer. But is the substance with its salt a weak acid, or a weak base?"
        }
        (Kind::AcidBuffer, _) => {
            "That needs a weak acid and its salt, both still there at the end. Is each of them?"
        }
        (Kind::AlkalineBuffer, _) => {
            "That needs a weak base and its salt, such as ammonia and ammonium chloride, both still there at the end. Is each of them?"
        }
        (Kind::ExcessAcid, _) if strong != Some(Reagent::Acid) => {
            "That needs a strong acid, such as hydrochloric acid. Was one put in?"
        }
        (Kind::ExcessAcid, _) => {
            "That needs more strong acid than there is base form to take it up. Work out both amounts: which is larger?"
        }
        (Kind::ExcessAlkali, _) if strong != Some(Reagent::Alkali) => {
            "That needs a strong alkali, such as sodium hydroxide. Was one put in?"
        }
        (Kind::ExcessAlkali, _) => {
            "That needs more strong alkali than there is acid form to take it up. Work out both amounts: which is larger?"
        }
        (Kind::OnlySalt, _) => {
            "That needs exactly as much strong acid or alkali as there is weak base or acid. Are the two amounts equal?"
        }
        (Kind::Suits | Kind::SuitsNot, _) => {
            "A buffer holds a pH best close to its pKₐ. What is the pKₐ of each, and which is nearer to the pH that is wanted?"
        }
        (Kind::OnlyAcid, _) => {
            "That needs a weak acid without salt and without alkali. Was anything else put in?"
        }
    }
}

/// Why the right choice is right.
pub const fn because(problem: &Problem) -> &'static str {
    match (problem.form, problem.variant.reagent) {
        (
            Form::Concentrations
            | Form::TwoVolumes
            | Form::SaltMass
            | Form::Dilution
            | Form::KaFromPh
            | Form::RecipeBySalt,
            _,
        ) => "Both forms of the pair are put in, and they do not use each other up.",
        (Form::AcidWithAlkali | Form::RecipeByAlkali, _) => {
            "The alkali is used up: it turns part of the weak acid into its salt. The rest of the acid is still there."
        }
        (Form::BaseWithAcid, _) => {
            "The strong acid is used up: it turns part of the weak base into its salt. The rest of the base is still there."
        }
        (Form::AddedAcid | Form::AddedAlkali, _) => {
            "One form takes up all that is added and turns into the other. Both are still there."
        }
        (Form::Exhausted, Reagent::Acid) => {
            "There is more H⁺ than base form to take it up. The rest stays free and decides the pH."
        }
        (Form::Exhausted, Reagent::Alkali) => {
            "There is more OH⁻ than acid form to take it up. The rest stays free and decides the pH."
        }
        (Form::Equivalence, Reagent::Alkali) => {
            "The amounts are equal: all of the weak acid is now its salt, and no alkali is left over."
        }
        (Form::Equivalence, Reagent::Acid) => {
            "The amounts are equal: all of the weak base is now its salt, and no strong acid is left over."
        }
        (Form::HalfNeutralized, _) => {
            "Half-way to equivalence half of the acid is its salt: both forms, in equal amounts."
        }
        (Form::ChooseAcid, _) => {
            "Its pKₐ is the nearer one to the pH that is wanted, so neither form need be scarce."
        }
        (Form::WeakAcidAlone, _) => {
            "No salt is put in. What A⁻ there is comes from the acid itself, one for each H⁺."
        }
    }
}
