//! Slips: the wrong ways that learners take, as formulas in place of the right ones.
//!
//! Their formulas are in [`way`](crate::lesson::sums::way).

use crate::lesson::sums::expression::Expr;
use crate::lesson::sums::form::Problem;
use crate::lesson::sums::sheet::{Otherwise, Values};
use crate::lesson::sums::symbol::Symbol;
pub use crate::lesson::sums::way::ways;

/// A wrong way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Slip {
    /// The ratio of the two forms is upside down.
    RatioInverted,
    /// [H⁺] = √(Ka·c), which holds for a weak acid alone.
    WeakAcidShortcut,
    /// The same with the salt's concentration.
    SaltAsAcid,
    /// The weak acid taken as fully ionized.
    WeakAsStrong,
    /// The acid's amount from before the reaction is kept.
    StartingAcidKept,
    /// That amount is taken for the base form.
    StartingAcidAsBase,
    /// The alkali is added to the acid's amount instead of taken from it.
    AlkaliAddedToAcid,
    /// pH = pKa, as if half were neutralized.
    HalfAssumed,
    /// What is left of the acid is treated as a weak acid alone.
    SaltIgnored,
    /// Concentrations of the bottles, without amounts.
    StockConcentrations,
    /// Volumes in place of amounts.
    VolumesAsRatio,
    /// Only one of the two is diluted.
    OneDiluted,
    /// An amount over a concentration.
    AmountOverConcentration,
    /// cm³ taken as dm³ in one of the two.
    VolumeUnconverted,
    /// Another molar mass.
    WrongMolarMass,
    /// Ka of the other acid that the question names.
    OtherAcidsConstant,
    /// Grams taken as moles.
    GramsAsMoles,
    /// What is added is taken from the wrong form.
    WrongFormSubtracted,
    /// Only the acid form's amount changes.
    OnlyAcidChanged,
    /// Only the base form's amount changes.
    OnlyBaseChanged,
    /// What is added raises [H⁺] (or [OH⁻]) directly.
    AddedDirectly,
    /// Moles are added to concentrations.
    MolesToConcentrations,
    /// One H⁺ or OH⁻ a formula unit, where it is two.
    OneToOneAssumed,
    /// Natural logarithm.
    NaturalLogarithm,
    /// The minus sign of the logarithm is dropped.
    MinusDropped,
    /// [H⁺] = 10^pH.
    WrongInverse,
    /// Kb in place of Ka.
    KbAsKa,
    /// pOH taken for pH.
    PohAsPh,
    /// 14 − pH where nothing asks for it.
    NeedlessComplement,
    /// The ratio upside down, in an alkaline buffer.
    AlkalinePairInverted,
    /// The base form's share of the total in place of the ratio.
    ShareOfTotal,
    /// Rounded before the last line.
    EarlyRounding,
    /// The share r/(1 + r) is left out of an alkali recipe.
    AlkaliShareForgotten,
    /// The volume of the recipe is left out.
    RecipeVolumeForgotten,
    /// Tenfold dilution taken to add 1 to the pH.
    DilutionShiftsPh,
    /// The excess divided by the volume before the addition.
    TotalVolumeOmitted,
    /// The buffer formula after the reservoir has run out.
    ExhaustionIgnored,
    /// pH 7 at equivalence, as if every salt were neutral.
    NeutralAtEquivalence,
    /// The square root is left out.
    RootForgotten,
}

/// One wrong way through one problem: the lines that it works out differently.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Which slip.
    pub slip: Slip,
    /// The lines and their wrong formulas.
    pub formulas: Vec<(Symbol, Expr)>,
}

impl Way {
    /// What the lines of `problem` come to this way.
    pub fn values(&self, problem: &Problem) -> Values {
        problem.sheet.values(Otherwise {
            formulas: &self.formulas,
            fixed: &[],
        })
    }
}
