//! What a mixture is once everything has reacted: what every question asks first.

use crate::chem::titration::Reagent;
use crate::lesson::sums::form::{Form, Problem};

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
}

/// All kinds, in the order in which they are offered.
pub const KINDS: [Kind; 6] = [
    Kind::AcidBuffer,
    Kind::AlkalineBuffer,
    Kind::ExcessAcid,
    Kind::ExcessAlkali,
    Kind::OnlySalt,
    Kind::OnlyAcid,
];

/// The kind of mixture that `problem` is about, or that it asks to be made.
pub fn kind(problem: &Problem) -> Kind {
    match (problem.form, problem.variant.reagent) {
        (Form::Exhausted, Reagent::Acid) => Kind::ExcessAcid,
        (Form::Exhausted, Reagent::Alkali) => Kind::ExcessAlkali,
        (Form::Equivalence, _) => Kind::OnlySalt,
        (Form::WeakAcidAlone, _) => Kind::OnlyAcid,
        _ if problem.names.alkaline => Kind::AlkalineBuffer,
        _ => Kind::AcidBuffer,
    }
}
