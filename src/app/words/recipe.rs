//! Setting up, in words: fields, choices, and what is wrong with what was typed.

use crate::app::field::MOST_EXCESS;
use crate::app::recipe::{Field, Method, Problem, Recipe, Setup};
use crate::chem::quantity::Volume;
use crate::lesson::markup::html;
use crate::lesson::notation::PairNames;
use crate::lesson::read::ReadError;
use crate::lesson::sig_fig::Writer;

/// Above the list of pairs.
pub const PAIR: &str = "Conjugate pair";

/// Above the two ways of making it.
pub const HOW_IT_IS_MADE: &str = "How it is made";

/// While what is typed, or the pair chosen with it, is not what is on the bench.
const NOT_ON_THE_BENCH: &str = "The bench still shows the last values that could be used.";

/// Above the stock's concentration.
pub const STOCK: &str = "Acid and alkali for the additions";

/// What a recipe makes, in a line; empty for one that cannot be read.
pub fn described(recipe: &Recipe, writer: Writer) -> String {
    let made = |setup: Setup| on_the_bench(&setup, setup.mixture.volume(), writer);
    recipe.read().map(made).unwrap_or_default()
}

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
            writer.on_ph_scale(pka)
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
    let marked = |source, symbol: &str| format!("{} ({symbol})", super::capital(source));
    let [weak, strong] = sources(Method::PartNeutralized, names);
    match concentration {
        Field::AcidConcentration => marked(&names.acid_source, &names.acid_symbol),
        Field::BaseConcentration => marked(&names.base_source, &names.base_symbol),
        Field::WeakConcentration => super::capital(weak),
        _ => super::capital(strong),
    }
}

/// The two solutions that are put together.
fn sources(method: Method, names: &PairNames) -> [&str; 2] {
    match (method, names.alkaline) {
        (Method::TwoSolutions, _) => [&names.acid_source, &names.base_source],
        (Method::PartNeutralized, false) => [&names.acid_source, "sodium hydroxide"],
        (Method::PartNeutralized, true) => [&names.base_source, "hydrochloric acid"],
    }
}

/// What is on the bench, on the button that changes it; `now` is the volume after additions.
pub fn on_the_bench(setup: &Setup, now: Volume, writer: Writer) -> String {
    let [first, second] = sources(setup.method, &setup.names);
    let more = now > setup.mixture.volume();
    format!(
        "{} + {second} · {}{}",
        super::capital(first),
        writer.volume(now),
        if more { " now" } else { "" }
    )
}

/// Markup for `draft` while it is not what the bench holds; empty while it is. For a screen reader
/// with what is wrong: that is one message, and the fields stay silent.
pub fn stale(draft: &Recipe, on_the_bench: &Recipe, writer: Writer) -> String {
    if draft == on_the_bench {
        return String::new();
    }
    let wrong = draft.read().err().unwrap_or_default();
    let wrong: Vec<_> = wrong
        .into_iter()
        .map(|(field, what)| html(&problem(field, what, writer)))
        .collect();
    [
        NOT_ON_THE_BENCH,
        " <span class=\"unseen\">",
        &wrong.join(" "),
        "</span>",
    ]
    .concat()
}

/// What is wrong with a field.
pub fn problem(field: Field, problem: Problem, writer: Writer) -> String {
    let (unit, example) = match field {
        Field::OwnPka => ("", "4.87 or 4,87"),
        Field::AcidVolume | Field::BaseVolume | Field::WeakVolume | Field::StrongVolume => {
            (" cm³", "62.5 or 62,5")
        }
        _ => (" mol dm⁻³", "0.050 or 0,050"),
    };
    match problem {
        Problem::Unreadable(error) => unreadable(error, example),
        Problem::OutOfRange { low, high, or_zero } => {
            out_of_range(low, high, or_zero, unit, writer)
        }
        Problem::NothingOfThePair => NOTHING_OF_THE_PAIR.to_owned(),
        Problem::TooMuchStrong => {
            format!("This is more than {MOST_EXCESS} times what it part-neutralises. Less, please.")
        }
    }
}

/// Why a typed text is not a number.
fn unreadable(error: ReadError, example: &str) -> String {
    let (what, example) = match error {
        ReadError::Empty => ("Type a number here, such as ", example),
        ReadError::TwoMarks => ("One decimal mark only, please: ", example),
        ReadError::NotANumber => ("This is not a number. Try ", example),
        ReadError::TooLarge => ("This number is too large to work with", ""),
    };
    [what, example, "."].concat()
}

/// A number outside what a field accepts; `unit` follows the numbers.
fn out_of_range(low: f64, high: f64, or_zero: bool, unit: &str, writer: Writer) -> String {
    let plain = |value: f64| {
        if value >= 1.0 {
            writer.fixed(value, 0)
        } else {
            writer.significant(value, 1)
        }
    };
    format!(
        "Type {}a number from {} to {}{unit}.",
        if or_zero { "0, or " } else { "" },
        plain(low),
        plain(high)
    )
}

/// Both forms are missing.
const NOTHING_OF_THE_PAIR: &str =
    "One of the two concentrations must be more than 0: without either form there is no pair.";
