//! What a mixture is once everything has reacted: what every question asks first.

use crate::chem::titration::Reagent;
use crate::lesson::sums::form::Form;
use crate::lesson::sums::question::Question;

/// A kind of mixture.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A weak acid and its salt.
    AcidBuffer,
    /// A weak base and its salt.
    AlkalineBuffer,
    /// Strong acid is left over.
    ExcessAcid,
    /// Strong alkali is left over.
    ExcessAlkali,
    /// Nothing but the salt.
    OnlySalt,
    /// Nothing but the weak acid.
    OnlyAcid,
    /// Where an acid is to be chosen: the one that suits.
    Suits,
    /// The other one.
    SuitsNot,
}

/// All kinds of mixture, in the order in which they are offered.
pub const KINDS: [Kind; 6] = [
    Kind::AcidBuffer,
    Kind::AlkalineBuffer,
    Kind::ExcessAcid,
    Kind::ExcessAlkali,
    Kind::OnlySalt,
    Kind::OnlyAcid,
];

/// What is offered first with a question: the kinds of mixture, or two acids in an order that
/// the question's seed decides.
pub fn offered(question: &Question) -> Vec<Kind> {
    match (question.problem.form, question.seed % 2) {
        (Form::ChooseAcid, 0) => vec![Kind::Suits, Kind::SuitsNot],
        (Form::ChooseAcid, _) => vec![Kind::SuitsNot, Kind::Suits],
        _ => KINDS.to_vec(),
    }
}

/// The kind of mixture that `question` is about; where an acid is to be chosen, the right one.
pub fn kind(question: &Question) -> Kind {
    let problem = &question.problem;
    match (problem.form, problem.variant.reagent) {
        (Form::Exhausted, Reagent::Acid) => Kind::ExcessAcid,
        (Form::Exhausted, Reagent::Alkali) => Kind::ExcessAlkali,
        (Form::Equivalence, _) => Kind::OnlySalt,
        (Form::WeakAcidAlone, _) => Kind::OnlyAcid,
        (Form::ChooseAcid, _) => Kind::Suits,
        _ if problem.names.alkaline => Kind::AlkalineBuffer,
        _ => Kind::AcidBuffer,
    }
}
