//! The particle view in words.

use crate::app::picture::Picture;
use crate::app::reading::Reading;
use crate::app::words::addition::{Voice, ion};
use crate::chem::quantity::Amount;
use crate::chem::titration::Reagent;
use crate::lesson::notation::{PairNames, spoken};
use crate::lesson::sig_fig::Writer;

/// Heading of the acid form.
pub fn acid_title(names: &PairNames) -> String {
    if names.alkaline {
        format!("Conjugate acid {}", names.acid_symbol)
    } else {
        format!("Weak acid {}", names.acid_symbol)
    }
}

/// Heading of the base form.
pub fn base_title(names: &PairNames) -> String {
    if names.alkaline {
        format!("Weak base {}", names.base_symbol)
    } else {
        format!("Conjugate base {}", names.base_symbol)
    }
}

/// How many particles are drawn.
pub fn count(particles: u32, writer: Writer) -> String {
    let number = writer.fixed(f64::from(particles), 0);
    if particles == 1 {
        format!("{number} particle")
    } else {
        format!("{number} particles")
    }
}

/// The counters of the exchange that never stops.
///
/// Every H⁺ that one gives another takes, so one number says both.
pub fn give_and_take(names: &PairNames, times: u32) -> String {
    format!(
        "{} gave H⁺: {times} · {} took it: {times}",
        names.acid_symbol, names.base_symbol
    )
}

/// What one particle is, how few free ions there are, and what is not drawn.
pub fn legend(voice: &Voice<'_>, reading: &Reading, picture: &Picture) -> String {
    let w = voice.writer;
    let unit = Amount::from_mol(picture.unit).map(|unit| w.amount(unit, voice.scale));
    let unit = unit.unwrap_or_default();
    let spectators = if voice.names.alkaline {
        "Water and Cl⁻"
    } else {
        "Water and Na⁺"
    };
    format!(
        "One particle is {unit}. {} {spectators} are not drawn.",
        free_ions(voice, reading, picture)
    )
}

/// The line on free H⁺ or OH⁻.
pub fn free_ions(voice: &Voice<'_>, reading: &Reading, picture: &Picture) -> String {
    let w = voice.writer;
    let free = reading.free_ion();
    let symbol = ion(free.kind);
    let (drawn, form) = match free.kind {
        Reagent::Acid => (picture.tally.free_h, &voice.names.acid_symbol),
        Reagent::Alkali => (picture.tally.free_oh, &voice.names.base_symbol),
    };
    if drawn > 0 {
        return format!(
            "Free {symbol}: {}, {}.",
            w.amount(free.amount, voice.scale),
            count(drawn, w)
        );
    }
    if free.forms_per_ion >= 2.0 {
        format!(
            "Free {symbol}: too few to draw, about 1 for every {} {form}.",
            w.about(free.forms_per_ion)
        )
    } else {
        format!("Free {symbol}: less than one particle.")
    }
}

/// The picture for someone who cannot see it.
pub fn description(voice: &Voice<'_>, reading: &Reading, picture: &Picture) -> String {
    let w = voice.writer;
    let names = voice.names;
    let number = |n: u32| w.fixed(f64::from(n), 0);
    format!(
        "Particles: {} of {} and {} of {}. {}",
        number(picture.tally.count(1)),
        spoken(&names.acid_symbol),
        number(picture.tally.count(0)),
        spoken(&names.base_symbol),
        free_ions(voice, reading, picture),
    )
}
