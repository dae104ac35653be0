//! The last addition explained, as a finished piece of markup.
//!
//! Nothing in it can be pressed, so it is written here, where it can be tested as text.

use crate::app::reading::Reading;
use crate::app::words::addition::{Voice, nothing_added};
use crate::app::words::difference::difference;
use crate::app::words::label;
use crate::chem::quantity::{Amount, Ph};
use crate::lesson::markup::{html, mathml};
use crate::lesson::notation::{Equation, Writing};
use crate::lesson::why::{Change, Outcome};

/// Below this share of an addition the pair's own reaction is not what happened.
const LEAST: f64 = 0.01;

/// The equation of what happened last, or of what always happens.
pub fn latest_equation(reading: &Reading, writing: Writing) -> Equation {
    let names = &reading.setup.names;
    let Some(change) = reading.change() else {
        return names.ionization(writing);
    };
    let fate = change.fate();
    match change.outcome() {
        Outcome::MetExcess => Equation::water(),
        // Nothing of the pair takes up what arrives; what goes on is what always does.
        Outcome::NothingLeft => names.ionization(writing),
        _ if fate.pair < fate.others().max(LEAST) => names.ionization(writing),
        _ => names.reaction(change.reagent, writing),
    }
}

/// The equation in a line of its own.
fn equation(voice: &Voice<'_>, reading: &Reading) -> String {
    let equation = latest_equation(reading, Writing::Formulas).with(voice.writer.ion);
    let equation = mathml(&equation, true);
    format!("<div class=\"block\">{equation}</div>")
}

/// What stands in place of the explanation before anything is added.
pub fn nothing_yet(voice: &Voice<'_>, reading: &Reading) -> String {
    let held = reading.start.mixture.weak().iter().map(|part| part.total);
    let reserves = reading.start.reserves;
    let others = held
        .sum::<Amount>()
        .checked_sub(reserves.acid + reserves.base);
    [
        heading(label::NOTHING_YET),
        paragraph("", &nothing_added(voice, others.unwrap_or_default())),
        equation(voice, reading),
        paragraph("quiet", label::TRY_IT),
    ]
    .concat()
}

/// The whole explanation.
pub fn explanation(voice: &Voice<'_>, reading: &Reading) -> String {
    let Some(change) = reading.change() else {
        return nothing_yet(voice, reading);
    };
    [
        heading(&voice.headline(&change)),
        paragraph("", &voice.what_met_what(&change)),
        equation(voice, reading),
        figures(voice, &change),
        voice
            .ratio(&change)
            .map(|text| paragraph("quiet", &text))
            .unwrap_or_default(),
    ]
    .concat()
}

fn heading(text: &str) -> String {
    format!("<h2 class=\"headline\">{}</h2>", html(text))
}

fn paragraph(class: &str, text: &str) -> String {
    format!("<p class=\"{class}\">{}</p>", html(text))
}

/// The amounts and the pH before and after, with the change in each.
fn figures(voice: &Voice<'_>, change: &Change) -> String {
    let (w, scale, names) = (voice.writer, voice.scale, voice.names);
    let (before, after) = (&change.before, &change.after);
    let row = |class: &str, name: &str, printed: [String; 2], decimals| {
        let [before, after] = printed;
        format!(
            "<tr class=\"{class}\"><th scope=\"row\">{}</th><td>{before}</td><td>{after}</td><td>{}</td></tr>",
            html(name),
            difference(&before, &after, decimals, w)
        )
    };
    let amount = |class, symbol: &str, before, after| {
        let printed = [before, after].map(|amount| w.amount_number(amount, scale));
        let name = format!("{symbol} / {}", scale.symbol());
        row(class, &name, printed, scale.decimals())
    };
    let ph = |class, name, before: Ph, after: Ph| {
        row(
            class,
            name,
            [before, after].map(|ph| w.ph(ph)),
            w.ph_decimals(),
        )
    };
    let heads = label::BEFORE_AFTER_CHANGE
        .map(|head| format!("<th scope=\"col\">{head}</th>"))
        .concat();
    format!(
        "<table class=\"figures digits\"><caption class=\"unseen\">{}</caption>\
         <thead><tr><td></td>{heads}</tr></thead><tbody>{}{}{}{}</tbody></table>",
        label::THIS_ADDITION,
        amount("acid", &names.acid_symbol, before.acid, after.acid),
        amount("base", &names.base_symbol, before.base, after.base),
        ph("ph-row", label::PH_ROWS[0], before.ph, after.ph),
        ph("water-row", label::PH_ROWS[1], before.water, after.water),
    )
}

/// The rows of the curve's data table.
pub fn curve_rows(voice: &Voice<'_>, rows: &[crate::app::graph::Row]) -> String {
    let (w, scale) = (voice.writer, voice.scale);
    let row = |row: &crate::app::graph::Row| {
        format!(
            "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td></tr>",
            label::row(&w.amount_number(row.added.size(), scale), row.added),
            w.on_ph_scale(row.ph),
            w.on_ph_scale(row.water),
        )
    };
    rows.iter().map(row).collect()
}
