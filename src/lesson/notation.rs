//! Symbols, formulas and equations of a pair, as data.
//!
//! Text carries Unicode sub- and superscripts ("H₂PO₄⁻", "mol dm⁻³"). [`runs`] splits it
//! into what stands on the line and what is raised or lowered, for real markup.

use crate::chem::buffer::Pair;
use crate::chem::systems::{Entry, FormName, Naming};
use crate::chem::titration::Reagent;
pub use crate::lesson::equation::{Equation, spoken};
pub use crate::lesson::runs::{Level, Run, runs};
use crate::lesson::superscript::superscript;

/// A charge as a superscript: 0 → "", −1 → "⁻", +2 → "²⁺".
pub fn charge(charge: i8) -> String {
    let size = match charge.unsigned_abs() {
        0 => return String::new(),
        1 => String::new(),
        n => superscript(i32::from(n)),
    };
    format!("{size}{}", if charge < 0 { "⁻" } else { "⁺" })
}

/// A formula from plain characters ("H2PO4", −1 → "H₂PO₄⁻").
pub fn formula(plain: &str, ion_charge: i8) -> String {
    let sub = |c: char| {
        c.to_digit(10)
            .and_then(|d| char::from_u32(0x2080 + d))
            .unwrap_or(c)
    };
    plain
        .chars()
        .map(sub)
        .chain(charge(ion_charge).chars())
        .collect()
}

/// How the two forms of a pair are written in general and in particular.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PairNames {
    /// General symbol of the acid form: HA, BH⁺, HA⁻ …
    pub acid_symbol: String,
    /// General symbol of the base form: A⁻, B, A²⁻ …
    pub base_symbol: String,
    /// Formula of the acid form with its charge; the symbol for a pair of the user's own.
    pub acid_formula: String,
    /// Formula of the base form with its charge.
    pub base_formula: String,
    /// Name of the acid form ("propanoic acid", "ammonium").
    pub acid_name: String,
    /// Name of the base form ("propanoate", "ammonia").
    pub base_name: String,
    /// What is dissolved to get the acid form ("propanoic acid", "ammonium chloride").
    pub acid_source: String,
    /// What is dissolved to get the base form ("sodium propanoate", "ammonia").
    pub base_source: String,
    /// Whether the pair is a weak base B and its cation BH⁺.
    pub alkaline: bool,
}

impl PairNames {
    /// Names of a pair; `entry` is its line in the table, or `None` for an own pair.
    pub fn new(pair: &Pair, entry: Option<&Entry>, naming: Naming) -> Self {
        let (acid_charge, base_charge) = (pair.acid_charge(), pair.base_charge());
        let alkaline = acid_charge == 1;
        let (acid_symbol, base_symbol) = if alkaline {
            ("BH⁺".to_owned(), "B".to_owned())
        } else {
            (
                format!("HA{}", charge(acid_charge)),
                format!("A{}", charge(base_charge)),
            )
        };
        let Some(entry) = entry else {
            return Self {
                acid_name: format!("acid {acid_symbol}"),
                base_name: format!("base {base_symbol}"),
                acid_source: if alkaline {
                    "its chloride BHCl".to_owned()
                } else {
                    "acid HA".to_owned()
                },
                base_source: if alkaline {
                    "weak base B".to_owned()
                } else {
                    "its sodium salt NaA".to_owned()
                },
                acid_formula: acid_symbol.clone(),
                base_formula: base_symbol.clone(),
                acid_symbol,
                base_symbol,
                alkaline,
            };
        };
        let acid = entry.form(pair.acid_protons());
        let base = entry.form(pair.base_protons());
        Self {
            acid_symbol,
            base_symbol,
            acid_formula: formula(acid.formula, acid_charge),
            base_formula: formula(base.formula, base_charge),
            acid_source: bottle(acid, naming, acid_charge),
            base_source: bottle(base, naming, base_charge),
            acid_name: acid.name(naming).to_owned(),
            base_name: base.name(naming).to_owned(),
            alkaline,
        }
    }

    /// The equation of what `reagent` does to the pair, in general symbols or formulas.
    pub fn reaction(&self, reagent: Reagent, with: Writing) -> Equation {
        let (acid, base) = self.forms(with);
        match reagent {
            Reagent::Acid => Equation::forward(&["H⁺", base], &[acid]),
            Reagent::Alkali => Equation::forward(&["OH⁻", acid], &[base, "H₂O"]),
        }
    }

    /// The ionization of the acid form, which never stops.
    pub fn ionization(&self, with: Writing) -> Equation {
        let (acid, base) = self.forms(with);
        Equation {
            reversible: true,
            ..Equation::forward(&[acid], &["H⁺", base])
        }
    }

    fn forms(&self, with: Writing) -> (&str, &str) {
        match with {
            Writing::Symbols => (&self.acid_symbol, &self.base_symbol),
            Writing::Formulas => (&self.acid_formula, &self.base_formula),
        }
    }
}

/// General symbols (HA) or the pair's own formulas (CH₃COOH).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Writing {
    /// HA, A⁻, BH⁺, B.
    Symbols,
    /// The pair's own formulas.
    Formulas,
}

/// What a bottle with this form is labeled: by a name of its own, as the salt with sodium
/// or chloride, or as the neutral substance itself.
fn bottle(form: &FormName, naming: Naming, charge: i8) -> String {
    let name = form.bottle.unwrap_or_else(|| form.name(naming));
    match charge {
        _ if form.bottle.is_some() => name.to_owned(),
        -1 => format!("sodium {name}"),
        -2 => format!("disodium {name}"),
        -3 => format!("trisodium {name}"),
        1 => format!("{name} chloride"),
        _ => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chem::quantity::Pka;
    use crate::chem::systems::{AcidSystem, find};

    fn names(key: &str, protons: u8) -> PairNames {
        let entry = find(key).unwrap();
        PairNames::new(
            &Pair::new(entry.system, protons).unwrap(),
            Some(entry),
            Naming::Systematic,
        )
    }

    #[test]
    fn acidic_alkaline_and_polyprotic_pairs_are_written_right() {
        let propanoic = names("propanoic", 1);
        assert_eq!(propanoic.acid_symbol, "HA");
        assert_eq!(propanoic.base_symbol, "A⁻");
        assert_eq!(propanoic.base_formula, "CH₃CH₂COO⁻");
        assert_eq!(propanoic.base_source, "sodium propanoate");
        let ammonia = names("ammonium", 1);
        assert_eq!(
            (ammonia.acid_symbol.as_str(), ammonia.base_symbol.as_str()),
            ("BH⁺", "B")
        );
        assert_eq!(ammonia.acid_source, "ammonium chloride");
        assert_eq!(ammonia.base_source, "ammonia");
        assert!(ammonia.alkaline);
        let phosphate = names("phosphoric", 2);
        assert_eq!(
            (
                phosphate.acid_symbol.as_str(),
                phosphate.base_symbol.as_str()
            ),
            ("HA⁻", "A²⁻")
        );
        assert_eq!(phosphate.acid_formula, "H₂PO₄⁻");
        assert_eq!(phosphate.base_source, "disodium hydrogenphosphate");
        assert_eq!(names("carbonic", 1).base_source, "sodium carbonate");
        let tris = names("tris", 1);
        assert_eq!(tris.acid_name, "protonated tris");
        assert_eq!(tris.acid_source, "tris hydrochloride");
    }

    #[test]
    fn equations_in_three_writings() {
        let propanoic = names("propanoic", 1);
        let acid = propanoic.reaction(Reagent::Acid, Writing::Symbols);
        assert_eq!(acid.plain(), "H⁺ + A⁻ → HA");
        assert_eq!(acid.spoken(), "H, one plus, plus A, one minus, gives H A");
        let alkali = names("ammonium", 1).reaction(Reagent::Alkali, Writing::Formulas);
        assert_eq!(alkali.plain(), "OH⁻ + NH₄⁺ → NH₃ + H₂O");
        assert_eq!(
            propanoic.ionization(Writing::Symbols).plain(),
            "HA ⇌ H⁺ + A⁻"
        );
        assert_eq!(spoken("HPO₄²⁻"), "H P O 4, two minus");
    }

    #[test]
    fn own_pairs_have_names_too() {
        let pair = Pair::new(AcidSystem::acid(Pka::new(6.0).unwrap()), 1).unwrap();
        assert_eq!(
            PairNames::new(&pair, None, Naming::Systematic).acid_formula,
            "HA"
        );
        let pair = Pair::new(AcidSystem::cationic_acid(Pka::new(9.0).unwrap()), 1).unwrap();
        assert_eq!(
            PairNames::new(&pair, None, Naming::Systematic).base_source,
            "weak base B"
        );
    }

    #[test]
    fn runs_split_at_every_level() {
        let split: Vec<(Level, String)> = runs("H₂PO₄⁻ at 10⁻³")
            .into_iter()
            .map(|r| (r.level, r.text))
            .collect();
        let expected = [
            (Level::Line, "H"),
            (Level::Sub, "2"),
            (Level::Line, "PO"),
            (Level::Sub, "4"),
            (Level::Sup, "−"),
            (Level::Line, " at 10"),
            (Level::Sup, "−3"),
        ];
        assert_eq!(split, expected.map(|(l, t)| (l, t.to_owned())));
    }
}
