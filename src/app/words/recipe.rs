//! Setting up, in words: fields, choices, and what is wrong with what was typed.

use crate::app::recipe::{Field, Method, Problem};
use crate::lesson::notation::PairNames;
use crate::lesson::read::ReadError;
use crate::lesson::sig_fig::{PH_DECIMALS, Writer};

/// Above the list of pairs.
pub const PAIR: &str = "Conjugate pair";

/// Above the two ways of making it.
pub const HOW_IT_IS_MADE: &str = "How it is made";

/// Above the stock's concentration.
pub const STOCK: &str = "Acid and alkali for the additions";

/// A way of making the buffer.
pub const fn method(method: Method, starts_from_base: bool) -> &'static str {
    match (method, starts_from_base) {
        (Method::TwoSolutions, _) => "Mix two solutions",
        (Method::PartNeutralized, false) => "Part-neutralise the acid with strong alkali",
        (Method::PartNeutralized, true) => "Part-neutralise the base with strong acid",
    }
}

/// A pair in the list of pairs: "propanoic acid and propanoate, pKa 4.87".
pub fn pair_option(names: &PairNames, pka: Option<f64>, writer: Writer) -> String {
    match pka {
        Some(pka) => format!(
            "{} and {}, pKa {}",
            names.acid_name,
            names.base_name,
            writer.fixed(pka, PH_DECIMALS)
        ),
        None if names.alkaline => "a weak base of your own pKa".to_owned(),
        None => "a weak acid of your own pKa".to_owned(),
    }
}

/// What a field asks for.
pub const fn field(field: Field) -> &'static str {
    match field {
        Field::OwnPka => "pKa of the acid form",
        Field::AcidConcentration
        | Field::BaseConcentration
        | Field::WeakConcentration
        | Field::StrongConcentration
        | Field::Stock => "Concentration / mol dm⁻³",
        Field::AcidVolume | Field::BaseVolume | Field::WeakVolume | Field::StrongVolume => {
            "Volume / cm³"
        }
    }
}

/// Which solution a concentration belongs to.
pub fn solution(concentration: Field, names: &PairNames) -> String {
    let (weak, strong) = if names.alkaline {
        (&names.base_source, "Hydrochloric acid")
    } else {
        (&names.acid_source, "Sodium hydroxide")
    };
    match concentration {
        Field::AcidConcentration => {
            format!(
                "{} ({})",
                super::capital(&names.acid_source),
                names.acid_symbol
            )
        }
        Field::BaseConcentration => {
            format!(
                "{} ({})",
                super::capital(&names.base_source),
                names.base_symbol
            )
        }
        Field::WeakConcentration => super::capital(weak),
        _ => strong.to_owned(),
    }
}

/// What is wrong with a field.
pub fn problem(field: Field, problem: Problem, writer: Writer) -> String {
    let unit = match field {
        Field::OwnPka => "",
        Field::AcidVolume | Field::BaseVolume | Field::WeakVolume | Field::StrongVolume => " cm³",
        _ => " mol dm⁻³",
    };
    match problem {
        Problem::Unreadable(error) => unreadable(error).to_owned(),
        Problem::OutOfRange { low, high, or_zero } => {
            out_of_range(low, high, or_zero, unit, writer)
        }
        Problem::NothingOfThePair => NOTHING_OF_THE_PAIR.to_owned(),
    }
}

/// Why a typed text is not a number.
const fn unreadable(error: ReadError) -> &'static str {
    match error {
        ReadError::Empty => "Type a number here.",
        ReadError::TwoMarks => "One decimal mark only, please: 0.050 or 0,050.",
        ReadError::NotANumber => "This is not a number. Try 0.050, 0,050 or 5e-2.",
        ReadError::TooLarge => "This number is too large to work with.",
    }
}

/// A number outside what a field accepts; `unit` follows the numbers.
fn out_of_range(low: f64, high: f64, or_zero: bool, unit: &str, writer: Writer) -> String {
    let plain = |value: f64| {
        let text = writer.significant(value, 1);
        if value >= 1.0 {
            writer.fixed(value, 0)
        } else {
            text
        }
    };
    let zero = if or_zero { "0, or " } else { "" };
    format!(
        "Between {zero}{} and {}{unit}, please.",
        plain(low),
        plain(high)
    )
}

/// Both forms are missing.
const NOTHING_OF_THE_PAIR: &str =
    "One of the two must be more than 0: there is nothing on the bench yet.";
