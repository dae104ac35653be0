//! The quantities of a calculation by name: how they are written, and in which unit.

use crate::lesson::notation::PairNames;

/// Kw of the classroom at 25 °C in mol² dm⁻⁶, as [`CLASSROOM_PKW`] has it.
///
/// [`CLASSROOM_PKW`]: crate::chem::constants::CLASSROOM_PKW
pub const KW: f64 = 1e-14;

/// A named quantity of a calculation. "Acid" and "base" are the two forms of the pair on
/// the bench or in the question; "strong" is the strong acid or alkali that is added.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Symbol {
    /// Ionization constant of the acid form.
    Ka,
    /// Ionization constant of the base form.
    Kb,
    /// Ionic product of water.
    Kw,
    /// pKa of the acid form.
    Pka,
    /// Concentration of the acid form in the bottle it comes from.
    AcidStock,
    /// Volume taken from that bottle.
    AcidVolume,
    /// Concentration of the base form in the bottle it comes from.
    BaseStock,
    /// Volume taken from that bottle.
    BaseVolume,
    /// Concentration of the strong acid or alkali.
    StrongStock,
    /// Volume of it.
    StrongVolume,
    /// Volume of the buffer before anything is added.
    BufferVolume,
    /// Volume of everything together.
    TotalVolume,
    /// Mass of the salt.
    Mass,
    /// Molar mass of the salt as weighed.
    MolarMass,
    /// Amount of the acid form before the reaction.
    AcidStart,
    /// Amount of the base form before the reaction.
    BaseStart,
    /// Amount of H⁺ or OH⁻ that is added.
    Strong,
    /// Amount of the acid form after the reaction, or in the mixture.
    Acid,
    /// Amount of the base form after the reaction, or in the mixture.
    Base,
    /// Amount of H⁺ or OH⁻ that found no partner.
    Excess,
    /// Concentration of the acid form.
    AcidConcentration,
    /// Concentration of the base form.
    BaseConcentration,
    /// The same after dilution.
    AcidDiluted,
    /// The same after dilution.
    BaseDiluted,
    /// How many times the volume grows.
    Dilution,
    /// Ratio of base form to acid form.
    Ratio,
    /// [H⁺].
    Hydrogen,
    /// [OH⁻].
    Hydroxide,
    /// A pH that is given.
    GivenPh,
    /// The pH that is asked for.
    Ph,
    /// Volume at the equivalence point.
    EquivalenceVolume,
    /// Half of it.
    HalfVolume,
}

/// Units in which quantities are written. Values are kept in mol, dm³, mol dm⁻³ and g.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// A pure number.
    One,
    /// A pH or pKa: no unit, decimal places instead of significant figures.
    Scale,
    /// mol dm⁻³.
    Molar,
    /// mol² dm⁻⁶.
    MolarSquared,
    /// cm³.
    Cm3,
    /// mmol.
    Mmol,
    /// g.
    Gram,
    /// g mol⁻¹.
    GramPerMol,
}

impl Unit {
    /// Its symbol, with a Unicode exponent; empty for a pure number.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::One | Self::Scale => "",
            Self::Molar => "mol dm⁻³",
            Self::MolarSquared => "mol² dm⁻⁶",
            Self::Cm3 => "cm³",
            Self::Mmol => "mmol",
            Self::Gram => "g",
            Self::GramPerMol => "g mol⁻¹",
        }
    }

    /// How many of this unit make one of the unit that values are kept in.
    pub const fn per_kept(self) -> f64 {
        match self {
            Self::Cm3 | Self::Mmol => 1000.0,
            Self::One
            | Self::Scale
            | Self::Molar
            | Self::MolarSquared
            | Self::Gram
            | Self::GramPerMol => 1.0,
        }
    }
}

impl Symbol {
    /// Its unit.
    pub const fn unit(self) -> Unit {
        match self {
            Self::Ka
            | Self::Kb
            | Self::AcidStock
            | Self::BaseStock
            | Self::StrongStock
            | Self::AcidConcentration
            | Self::BaseConcentration
            | Self::AcidDiluted
            | Self::BaseDiluted
            | Self::Hydrogen
            | Self::Hydroxide => Unit::Molar,
            Self::Kw => Unit::MolarSquared,
            Self::Pka | Self::GivenPh | Self::Ph => Unit::Scale,
            Self::AcidVolume
            | Self::BaseVolume
            | Self::StrongVolume
            | Self::BufferVolume
            | Self::TotalVolume
            | Self::EquivalenceVolume
            | Self::HalfVolume => Unit::Cm3,
            Self::Mass => Unit::Gram,
            Self::MolarMass => Unit::GramPerMol,
            Self::AcidStart
            | Self::BaseStart
            | Self::Strong
            | Self::Acid
            | Self::Base
            | Self::Excess => Unit::Mmol,
            Self::Dilution | Self::Ratio => Unit::One,
        }
    }

    /// How it is written, with the pair's symbols: "n(HA)", "[A⁻]", "Kₐ". `strong` is "H⁺"
    /// or "OH⁻". Subscripts other than digits and a stand on the line ("Kw").
    pub fn written(self, names: &PairNames, strong: &str) -> String {
        let (acid, base) = (&names.acid_symbol, &names.base_symbol);
        match self {
            Self::Ka => "Kₐ".to_owned(),
            Self::Kb => "Kb".to_owned(),
            Self::Kw => "Kw".to_owned(),
            Self::Pka => "pKₐ".to_owned(),
            Self::AcidStock => format!("c({acid})"),
            Self::BaseStock => format!("c({base})"),
            Self::StrongStock => format!("c({strong})"),
            Self::AcidVolume => format!("V({acid})"),
            Self::BaseVolume => format!("V({base})"),
            Self::StrongVolume => format!("V({strong})"),
            Self::BufferVolume => "V(buffer)".to_owned(),
            Self::TotalVolume => "V".to_owned(),
            Self::Mass => "m".to_owned(),
            Self::MolarMass => "M".to_owned(),
            Self::AcidStart => format!("n({acid}) at the start"),
            Self::BaseStart => format!("n({base}) at the start"),
            Self::Strong => format!("n({strong})"),
            Self::Acid => format!("n({acid})"),
            Self::Base => format!("n({base})"),
            Self::Excess => format!("n({strong}) left over"),
            Self::AcidConcentration => format!("[{acid}]"),
            Self::BaseConcentration => format!("[{base}]"),
            Self::AcidDiluted => format!("[{acid}] after dilution"),
            Self::BaseDiluted => format!("[{base}] after dilution"),
            Self::Dilution => "times diluted".to_owned(),
            Self::Ratio => format!("n({base})/n({acid})"),
            Self::Hydrogen => "[H⁺]".to_owned(),
            Self::Hydroxide => "[OH⁻]".to_owned(),
            Self::GivenPh | Self::Ph => "pH".to_owned(),
            Self::EquivalenceVolume => "V(equivalence)".to_owned(),
            Self::HalfVolume => "V(half)".to_owned(),
        }
    }
}
