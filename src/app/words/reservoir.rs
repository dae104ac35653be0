//! The particle view in words.

use crate::app::picture::Picture;
use crate::app::reading::Reading;
use crate::app::words::addition::{Voice, ion};
use crate::app::words::step::caption;
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
fn give_and_take(names: &PairNames, times: u32) -> String {
    format!(
        "{} gave H⁺: {times} · {} took it: {times} (really\u{a0}millions\u{a0}a\u{a0}second)",
        names.acid_symbol, names.base_symbol
    )
}

/// What is going on: the step of the last addition that is shown, from 1; with 0 the exchange
/// that never stops, in which one particle gave another its H⁺ so many `times`.
pub fn going_on(reading: &Reading, step: u32, times: u32) -> String {
    let names = &reading.setup.names;
    match reading.change() {
        Some(change) if step > 0 => caption(step, &change, names),
        _ => give_and_take(names, times),
    }
}

/// What one particle is, how few free ions there are, and what is not drawn.
pub fn legend(voice: &Voice<'_>, reading: &Reading, picture: &Picture) -> String {
    let w = voice.writer;
    let unit = Amount::from_mol(picture.unit).map(|unit| w.amount(unit, voice.scale));
    let others = other_forms(picture);
    let others = if others > 0 {
        format!(" Other forms of the same acid: {}.", count(others, w))
    } else {
        String::new()
    };
    format!(
        "One particle is {}.{others} {} {}",
        unit.unwrap_or_default(),
        free_ions(voice, reading, picture),
        not_drawn(reading)
    )
}

/// What is there and not drawn: water, and the ions that only balance charges.
fn not_drawn(reading: &Reading) -> &'static str {
    let mut spectators = reading
        .now
        .mixture
        .spectators()
        .map(|(charge, _)| charge > 0);
    match (spectators.next(), spectators.next()) {
        (None, _) => "Water is not drawn.",
        (Some(true), None) => "Water and Na⁺ are not drawn.",
        (Some(false), None) => "Water and Cl⁻ are not drawn.",
        (Some(_), Some(_)) => "Water, Na⁺ and Cl⁻ are not drawn.",
    }
}

/// Particles in other forms than the pair's two.
fn other_forms(picture: &Picture) -> u32 {
    let pair = picture.tally.count(0) + picture.tally.count(1);
    picture.tally.particles() - pair
}

/// The line on free H⁺ or OH⁻.
pub fn free_ions(voice: &Voice<'_>, reading: &Reading, picture: &Picture) -> String {
    let w = voice.writer;
    let free = reading.free_ion();
    let symbol = ion(free.kind);
    let (drawn, form, other) = match free.kind {
        Reagent::Acid => (
            picture.tally.free_h,
            &voice.names.acid_symbol,
            Reagent::Alkali,
        ),
        Reagent::Alkali => (
            picture.tally.free_oh,
            &voice.names.base_symbol,
            Reagent::Acid,
        ),
    };
    // The picture counts H⁺ less OH⁻; in a very dilute flask water gives a particle of each.
    let balanced = free.other.mol() >= 0.5 * picture.unit;
    let how_much = if drawn > 0 {
        let drawn = count(drawn, w);
        if balanced {
            return format!(
                "Free {symbol}: {drawn} more than free {}. Equal numbers of both are not drawn.",
                ion(other)
            );
        }
        [&w.amount(free.amount, voice.scale), ", ", &drawn].concat()
    } else if balanced {
        ["as many as free ", ion(other), ", not drawn"].concat()
    } else if free.amount.mol() >= picture.unit {
        "about one particle, not drawn".to_owned()
    } else if free.forms_per_ion >= 2.0 {
        let each = w.about(free.forms_per_ion);
        ["too few to draw, about 1 for every ", &each, " ", form].concat()
    } else {
        "less than one particle".to_owned()
    };
    format!("Free {symbol}: {how_much}.")
}

/// The picture for someone who cannot see it.
pub fn description(voice: &Voice<'_>, reading: &Reading, picture: &Picture) -> String {
    let w = voice.writer;
    let names = voice.names;
    let number = |n: u32| w.fixed(f64::from(n), 0);
    let others = match other_forms(picture) {
        0 => String::new(),
        n => format!(", and {} of other forms of the same acid", number(n)),
    };
    format!(
        "Particles: {} of {} and {} of {}{}. {}",
        number(picture.tally.count(1)),
        spoken(&names.acid_symbol),
        number(picture.tally.count(0)),
        spoken(&names.base_symbol),
        others,
        free_ions(voice, reading, picture),
    )
}
