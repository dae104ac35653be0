//! What stands for what in a link. The codes are part of the format: they are added to, never
//! changed.

use crate::app::pair::{PAIRS, PairChoice};
use crate::app::plan::{Feedback, Look, Part, Telling};
use crate::app::progress::Level;
use crate::app::recipe::{Field, Method};
use crate::chem::power::whole;
use crate::lesson::conventions::{ConcentrationUnit, Names, VolumeUnit};
use crate::lesson::hydrogen_ion::HydrogenIon;
use crate::lesson::read::{number as number_in, plain};
use crate::lesson::sig_fig::{DecimalMark, PhDecimals};
use crate::lesson::sums::form::{Form, PhBy};

/// Something that a code stands for.
pub trait Coded: PartialEq + Sized + 'static {
    /// All of them with their codes.
    const CODES: &'static [(Self, &'static str)];
}

/// The code of something.
pub fn code<T: Coded>(thing: T) -> &'static str {
    let found = T::CODES.iter().find(|(known, _)| *known == thing);
    found.map_or("", |(_, code)| code)
}

/// What a code stands for.
pub fn from_code<T: Coded + Copy>(text: &str) -> Option<T> {
    let found = T::CODES.iter().find(|(_, code)| *code == text);
    found.map(|(thing, _)| *thing)
}

/// How a lesson begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Start {
    /// With the guided start.
    Guided,
    /// Without.
    Free,
}

impl Coded for Start {
    const CODES: &'static [(Self, &'static str)] =
        &[(Self::Guided, "guided"), (Self::Free, "free")];
}

impl Coded for Method {
    const CODES: &'static [(Self, &'static str)] = &[
        (Self::TwoSolutions, "mixed"),
        (Self::PartNeutralized, "part"),
    ];
}

impl Coded for Part {
    const CODES: &'static [(Self, &'static str)] = &[
        (Self::Guide, "guide"),
        (Self::Curve, "curve"),
        (Self::Working, "working"),
        (Self::Practice, "practice"),
        (Self::SetUp, "setup"),
    ];
}

impl Coded for Form {
    const CODES: &'static [(Self, &'static str)] = &[
        (Self::Concentrations, "conc"),
        (Self::TwoVolumes, "mix"),
        (Self::AcidWithAlkali, "alkali"),
        (Self::BaseWithAcid, "acid"),
        (Self::SaltMass, "salt"),
        (Self::AddedAcid, "add-acid"),
        (Self::AddedAlkali, "add-alkali"),
        (Self::Exhausted, "excess"),
        (Self::Equivalence, "equivalence"),
        (Self::HalfNeutralized, "half"),
        (Self::Dilution, "dilution"),
        (Self::KaFromPh, "ka"),
        (Self::RecipeBySalt, "recipe-salt"),
        (Self::RecipeByAlkali, "recipe-alkali"),
        (Self::ChooseAcid, "choose"),
        (Self::WeakAcidAlone, "weak"),
    ];
}

impl Coded for Level {
    const CODES: &'static [(Self, &'static str)] = &[
        (Self::WorkedExample, "example"),
        (Self::MissingSteps, "steps"),
        (Self::Whole, "whole"),
    ];
}

impl Coded for Feedback {
    const CODES: &'static [(Self, &'static str)] =
        &[(Self::AtOnce, "now"), (Self::AtTheEnd, "end")];
}

impl Coded for ConcentrationUnit {
    const CODES: &'static [(Self, &'static str)] = &[
        (Self::MolPerDm3, "dm3"),
        (Self::MolPerLitre, "L"),
        (Self::Molar, "M"),
    ];
}

impl Coded for VolumeUnit {
    const CODES: &'static [(Self, &'static str)] = &[(Self::Cm3, "cm3"), (Self::Millilitre, "mL")];
}

impl Coded for Names {
    const CODES: &'static [(Self, &'static str)] = &[
        (Self::Classroom, "usual"),
        (Self::Systematic, "systematic"),
        (Self::Common, "common"),
    ];
}

impl Coded for DecimalMark {
    const CODES: &'static [(Self, &'static str)] =
        &[(Self::Point, "point"), (Self::Comma, "comma")];
}

impl Coded for PhDecimals {
    const CODES: &'static [(Self, &'static str)] = &[(Self::Two, "2"), (Self::Three, "3")];
}

impl Coded for HydrogenIon {
    const CODES: &'static [(Self, &'static str)] = &[(Self::Bare, "H"), (Self::Hydrated, "H3O")];
}

impl Coded for PhBy {
    const CODES: &'static [(Self, &'static str)] =
        &[(Self::Hydrogen, "h"), (Self::Logarithm, "log")];
}

impl Coded for Look {
    const CODES: &'static [(Self, &'static str)] = &[
        (Self::System, "system"),
        (Self::Light, "light"),
        (Self::Dark, "dark"),
    ];
}

impl Coded for Telling {
    const CODES: &'static [(Self, &'static str)] =
        &[(Self::Bench, "bench"), (Self::Results, "results")];
}

/// The keys of what is typed in setting up.
pub const FIELD_KEYS: [(Field, &str); 10] = [
    (Field::OwnPka, "pka"),
    (Field::AcidConcentration, "ca"),
    (Field::AcidVolume, "va"),
    (Field::BaseConcentration, "cb"),
    (Field::BaseVolume, "vb"),
    (Field::WeakConcentration, "cw"),
    (Field::WeakVolume, "vw"),
    (Field::StrongConcentration, "cs"),
    (Field::StrongVolume, "vs"),
    (Field::Stock, "stock"),
];

/// The code of a pair: its system and the protons of its acid form.
pub fn pair(choice: PairChoice) -> String {
    match choice {
        PairChoice::Listed(key, protons) => {
            let key = key.replace('_', "-");
            [&key, ".", &protons.to_string()].concat()
        }
        PairChoice::OwnAcid => "own-acid".to_owned(),
        PairChoice::OwnBase => "own-base".to_owned(),
    }
}

/// The pair that a code stands for.
pub fn pair_of(code: &str) -> Option<PairChoice> {
    PAIRS.iter().copied().find(|choice| pair(*choice) == code)
}

/// A number as it was typed, in the characters of a link: a point, no blanks, powers as e.
pub fn number(typed: &str) -> String {
    let fit = |c| match plain(c) {
        ',' => Some('.'),
        c if c.is_whitespace() || matches!(c, '^' | '+') => None,
        c => Some(c),
    };
    let text: String = typed.chars().filter_map(fit).collect();
    text.to_ascii_lowercase().replace("x10", "e")
}

/// The nearer of two bounds, as it would be typed.
pub fn nearest_bound(text: &str, low: f64, high: f64) -> String {
    let value = number_in(text).unwrap_or(low);
    let bound = if value > high { high } else { low };
    // Bounds are whole numbers or powers of ten; the standard library's writing of any number
    // would be a tenth of the page.
    if bound == 0.0 || bound >= 1.0 {
        return whole(bound).to_string();
    }
    ["1e", &whole(libm::round(libm::log10(bound))).to_string()].concat()
}

/// A key or value with its %-escapes undone and + read as a blank; what is no escape stays, and
/// bytes that are no text become the sign for that.
pub fn decoded(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        let escape = || {
            let mut ahead = rest.clone();
            let hex = |b: Option<u8>| char::from(b?).to_digit(16);
            let (high, low) = (hex(ahead.next())?, hex(ahead.next())?);
            Some((u8::try_from(16 * high + low).ok()?, ahead))
        };
        match byte {
            b'%' => match escape() {
                Some((value, ahead)) => {
                    bytes.push(value);
                    rest = ahead;
                }
                None => bytes.push(byte),
            },
            b'+' => bytes.push(b' '),
            _ => bytes.push(byte),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}
