//! Conventions of notation that a lesson may choose, and texts rewritten to them.
//!
//! Every text is written in one notation (mol dm⁻³, cm³, the names that classrooms use most).
//! What a lesson chooses is put in at the edge of the page, in one place, so that no other code
//! has to know. Numbers are not touched: their decimal mark is the writer's.

use crate::chem::systems::{Naming, TABLE};
use crate::lesson::hydrogen_ion::{self, HydrogenIon};
use crate::lesson::sig_fig::{DecimalMark, PhDecimals, Writer};
use crate::lesson::sums::form::PhBy;

/// How concentrations are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum ConcentrationUnit {
    /// mol dm⁻³
    #[default]
    MolPerDm3,
    /// mol L⁻¹
    MolPerLitre,
    /// M
    Molar,
}

/// How volumes are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum VolumeUnit {
    /// cm³, dm³
    #[default]
    Cm3,
    /// mL, L
    Millilitre,
}

/// Which names substances have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum Names {
    /// The one of its two names that classrooms use most, substance by substance.
    #[default]
    Classroom,
    /// Systematic names throughout: 2-hydroxypropanoic acid.
    Systematic,
    /// Common names throughout: acetic acid.
    Common,
}

/// All conventions of a lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub struct Conventions {
    /// Of concentrations.
    pub concentration: ConcentrationUnit,
    /// Of volumes.
    pub volume: VolumeUnit,
    /// Of substances.
    pub names: Names,
    /// Of numbers.
    pub mark: DecimalMark,
    /// Of a pH.
    pub ph_decimals: PhDecimals,
    /// Of free H⁺.
    pub ion: HydrogenIon,
    /// Of the way to a buffer's pH.
    pub ph_by: PhBy,
}

/// A word or unit, and what stands for it.
pub type Exchange = (String, String);

/// What a lesson's conventions put in place of what.
pub type Exchanges = Vec<Exchange>;

impl Conventions {
    /// How numbers and equations are written.
    pub const fn writer(self) -> Writer {
        Writer {
            mark: self.mark,
            ph_decimals: self.ph_decimals,
            ion: self.ion,
        }
    }

    /// What has to be exchanged, longer texts first, in plain text and as markup.
    pub fn exchanges(self) -> Exchanges {
        let mut all = Exchanges::new();
        let mut put = |from: &str, to: &str| {
            if from != to {
                all.push((from.to_owned(), to.to_owned()));
            }
        };
        let (molar, molar_html, squared, squared_html, said) = match self.concentration {
            ConcentrationUnit::MolPerDm3 => ("", "", "", "", ""),
            ConcentrationUnit::MolPerLitre => (
                "mol L⁻¹",
                "mol L<sup>−1</sup>",
                "mol² L⁻²",
                "mol<sup>2</sup> L<sup>−2</sup>",
                "moles per litre",
            ),
            ConcentrationUnit::Molar => ("M", "M", "M²", "M<sup>2</sup>", "molar"),
        };
        if !molar.is_empty() {
            put("mol² dm⁻⁶", squared);
            put("mol<sup>2</sup> dm<sup>−6</sup>", squared_html);
            put("mol dm⁻³", molar);
            put("mol dm<sup>−3</sup>", molar_html);
            put("moles per cubic decimetre", said);
        }
        if self.volume == VolumeUnit::Millilitre {
            put("cm³", "mL");
            put("cm<sup>3</sup>", "mL");
            put("cubic centimetres", "millilitres");
            put("dm³", "L");
            put("dm<sup>3</sup>", "L");
            put("cubic decimetres", "litres");
        }
        let naming = match self.names {
            Names::Classroom => None,
            Names::Systematic => Some(Naming::Systematic),
            Names::Common => Some(Naming::Common),
        };
        for entry in TABLE {
            let Some(naming) = naming else { break };
            for form in entry.forms {
                let (from, to) = (form.name(entry.classroom), form.name(naming));
                put(from, to);
                put(&capital(from), &capital(to));
            }
        }
        if self.ion == HydrogenIon::Hydrated {
            all.extend(hydrogen_ion::exchanges());
        }
        // What a longer text stands for is not what its parts stand for.
        all.sort_by_key(|(from, _)| std::cmp::Reverse(from.len()));
        all
    }
}

/// `text` with its first letter a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}

/// `text` with everything exchanged, each place once.
pub fn rewritten(text: String, exchanges: &[Exchange]) -> String {
    if exchanges.is_empty() {
        return text;
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text.as_str();
    // Inside a word nothing is exchanged: "methanoate" holds "ethanoate".
    let mut in_word = false;
    while let Some(c) = rest.chars().next() {
        let found = exchanges
            .iter()
            .find(|(from, _)| !in_word && rest.starts_with(from.as_str()));
        if let Some((from, to)) = found {
            out.push_str(to);
            rest = &rest[from.len()..];
            in_word = from.ends_with(char::is_alphabetic);
        } else {
            out.push(c);
            rest = &rest[c.len_utf8()..];
            in_word = c.is_alphabetic();
        }
    }
    out
}
