//! A worked solution as data: steps with their reasons, tables and lines, in which every
//! number knows where it came from. The page's words turn it into sentences.

use crate::chem::quantity::Ph;
use crate::chem::titration::Reagent;
use crate::lesson::notation::Equation;
use crate::lesson::sums::expression::Expr;
use crate::lesson::sums::symbol::Symbol;

/// A worked solution.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Solution {
    /// Its steps; the first is step 1.
    pub steps: Vec<Step>,
}

/// One step: reasons first, then what follows from them.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What it is about.
    pub subject: Subject,
    /// Its reasons, in order.
    pub notes: Vec<Note>,
    /// The reaction.
    pub equation: Option<Equation>,
    /// The amounts before and after it.
    pub table: Option<Table>,
    /// The definition that is rearranged: what it defines, and how.
    pub definition: Option<(Symbol, Expr)>,
    /// What is worked out.
    pub lines: Vec<Worked>,
    /// What the result shows.
    pub checks: Vec<Note>,
}

/// What a step is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// Which kind of mixture it is.
    Mixture,
    /// Kₐ from Kb.
    Constant,
    /// Amounts before anything reacts, or of the two forms.
    Amounts,
    /// What reacts with what, and how much is left.
    Reaction,
    /// Concentrations, where they matter.
    Concentrations,
    /// From the expression for Kₐ.
    FromKa,
    /// From the expression for Kb.
    FromKb,
    /// [H⁺] without the expression for Kₐ.
    Hydrogen,
    /// The last line to a pH.
    Ph,
    /// The point of half-neutralization.
    Half,
    /// Amounts and masses or volumes of a recipe.
    Recipe,
    /// Whether the answer makes sense.
    Check,
    /// The short form held against the full balance.
    FullBalance,
}

/// A reason or a check. Numbers are values in the units of [`Symbol`], unrounded.
#[derive(Debug, Clone, PartialEq)]
pub enum Note {
    /// What the general symbols stand for.
    Names,
    /// Both forms are there: a buffer.
    IsBuffer,
    /// A weak acid (`Acid`) or weak base by itself.
    IsAlone(Reagent),
    /// Whether it is a buffer shows after the reaction only.
    FirstReact,
    /// A buffer before the addition; what is added reacts first.
    BufferMeets,
    /// The acid is part-neutralized and makes the buffer.
    MakesBuffer,
    /// Ka = Kw/Kb for a conjugate pair.
    KaFromKb,
    /// Each formula unit of the reagent gives two ions.
    TwoIons,
    /// Dissolving the salt leaves the volume as it is.
    VolumeKept,
    /// The strong reagent is limiting and is used up; its partner is left over.
    ReagentUsedUp,
    /// The partner is limiting and is used up; the strong reagent is left over.
    PartnerUsedUp,
    /// There is no partner at all.
    NoPartner,
    /// Exactly enough: both are used up.
    BothUsedUp,
    /// All of one form has become the other.
    AllTurned,
    /// Both forms share the volume, so it cancels.
    VolumeCancels,
    /// One thing alone decides, so the whole volume counts.
    VolumeCounts,
    /// What is left of the strong reagent decides; Ka is not needed.
    KaNotNeeded,
    /// `[H⁺] = [A⁻]` holds here, and `[HA]` is what was put in.
    HydrogenIsBase,
    /// Why that serves here and not in a buffer.
    NotInBuffer,
    /// The salt decides: its base form (`Alkali`) or acid form takes part with water.
    SaltDecides(Reagent),
    /// `[OH⁻] = [HA]` holds there.
    HydroxideIsAcid,
    /// [H⁺] from [OH⁻] by Kw.
    ByKw,
    /// −log₁₀ of both sides of the expression for Ka leads to the pH and pKa.
    LogarithmOfKa,
    /// All digits are kept up to the last line.
    KeepDigits,
    /// Half of the acid has become its base form: both amounts are equal.
    HalfTurned,
    /// Both concentrations fall by the same factor.
    SameFactor,
    /// The pH that is wanted, turned into [H⁺].
    Backwards,
    /// Each OH⁻ turns one acid form into one base form, so that x/(n − x) is the ratio.
    ShareOfAcid,
    /// There is more, less or as much of the base form; pKₐ and pH.
    BesidePka {
        /// n(base)/n(acid).
        ratio: f64,
        /// pKₐ.
        pka: f64,
        /// The pH found.
        ph: f64,
    },
    /// The addition moved the pH.
    Moved {
        /// pH before, by the short form.
        from: f64,
        /// pH after.
        to: f64,
    },
    /// The pH lies on the side of 7 on which it must lie.
    SideOfSeven(f64),
    /// [H⁺] (or [OH⁻]) as a share of what it comes from.
    Ionized(f64),
    /// Distance of a pH that is wanted from pKₐ.
    WithinRange {
        /// pKₐ.
        pka: f64,
        /// The pH wanted.
        ph: f64,
    },
    /// Diluted so many times: same pH, a smaller reserve.
    SmallerReserve(f64),
    /// Another acid that does not suit.
    OtherAcid {
        /// Its name.
        name: &'static str,
        /// Its pKₐ.
        pka: f64,
        /// n(base)/n(acid) that it would need.
        ratio: f64,
    },
    /// A recipe is a model; cautions.
    Caution,
    /// Acid and alkali were both added, mol; they neutralize each other first.
    AddedBoth {
        /// H⁺ added in all.
        acid: f64,
        /// OH⁻ added in all.
        alkali: f64,
    },
    /// The recipe alone left so much H⁺ or OH⁻ over, mol.
    HadExcess(Reagent, f64),
    /// A form that can both give and take H⁺ is left: no short form fits.
    BothWays(Symbol),
    /// The short form against the full balance.
    Against {
        /// pH by the short form, if there is one.
        short: Option<Ph>,
        /// pH by the full balance.
        full: Ph,
        /// Why they differ where they do.
        because: Because,
    },
}

/// Why a short form and the full balance differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Because {
    /// Free H⁺ or OH⁻ is not small beside the two forms.
    FreeIons,
    /// Much of what was put in reacts with water.
    Ionized,
    /// The water's own ions count.
    Water,
    /// Other steps of the acid count.
    OtherSteps,
    /// The weak pair and water add ions to those of the strong reagent.
    WeakPair,
}

/// Amounts of the strong ion and of both forms, mol, through a reaction.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Columns in the order of the equation.
    pub columns: [Column; 3],
    /// Significant figures of the least exact amount.
    pub figures: usize,
}

/// One species of a table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// [`Symbol::Strong`], [`Symbol::Acid`] or [`Symbol::Base`].
    pub species: Symbol,
    /// Amount before, mol.
    pub start: f64,
    /// Amount after, mol.
    pub end: f64,
}

/// A line that is worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// What it is about.
    pub symbol: Symbol,
    /// How.
    pub formula: Expr,
    /// What goes in, each once.
    pub terms: Vec<Term>,
    /// What comes out, unrounded.
    pub value: f64,
    /// Significant figures (decimal places of a pH) to write it with.
    pub figures: usize,
}

/// A number that goes into a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// Which quantity.
    pub symbol: Symbol,
    /// Its value, unrounded.
    pub value: f64,
    /// Significant figures or decimal places.
    pub figures: usize,
    /// Where it comes from.
    pub origin: Origin,
}

/// Where a number comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// It is stated.
    Given,
    /// A constant that everybody uses.
    Constant,
    /// The step with this number, counted from 1.
    Step(usize),
}

impl Table {
    /// What `reagent` does to the pair: `strong`, `acid` and `base` are amounts before, mol.
    pub fn of(reagent: Reagent, strong: f64, acid: f64, base: f64, figures: usize) -> Self {
        let column = |species, start, change| Column {
            species,
            start,
            end: start + change,
        };
        let (partner, product, kinds) = match reagent {
            Reagent::Acid => (base, acid, (Symbol::Base, Symbol::Acid)),
            Reagent::Alkali => (acid, base, (Symbol::Acid, Symbol::Base)),
        };
        // Amounts that differ in their last bits only are meant to be equal.
        let reacts = if (strong - partner).abs() < 1e-9 * partner {
            partner
        } else {
            strong.min(partner)
        };
        let used = if (strong - reacts).abs() < 1e-9 * strong {
            -strong
        } else {
            -reacts
        };
        Self {
            columns: [
                column(Symbol::Strong, strong, used),
                column(kinds.0, partner, -reacts),
                column(kinds.1, product, reacts),
            ],
            figures,
        }
    }
}
