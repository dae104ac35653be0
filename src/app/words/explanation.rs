//! The last addition explained, as a finished piece of markup.
//!
//! Nothing in it can be pressed, so it is written here, where it can be tested as text.

use crate::app::reading::Reading;
use crate::app::words::addition::{Voice, nothing_added};
use crate::app::words::label;
use crate::lesson::markup::{html, mathml};
use crate::lesson::notation::{Equation, Writing};
use crate::lesson::sig_fig::PH_DECIMALS;
use crate::lesson::why::{Change, Outcome};

/// The equation of what happened last, or of what always happens.
pub fn latest_equation(reading: &Reading, writing: Writing) -> Equation {
    match reading.change() {
        Some(change) if change.outcome() == Outcome::MetExcess => Equation::water(),
        // Nothing takes up what arrives; what goes on is what always does.
        Some(change) if change.outcome() == Outcome::NothingLeft => {
            reading.setup.names.ionization(writing)
        }
        Some(change) => reading.setup.names.reaction(change.reagent, writing),
        None => reading.setup.names.ionization(writing),
    }
}

/// The whole explanation.
pub fn explanation(voice: &Voice<'_>, reading: &Reading) -> String {
    let equation = mathml(&latest_equation(reading, Writing::Formulas), true);
    let equation = format!(
        "<div class=\"block\" tabindex=\"0\" role=\"group\" aria-label=\"{}\">{equation}</div>",
        label::EQUATION
    );
    let Some(change) = reading.change() else {
        let reserves = reading.now.reserves;
        return [
            heading(label::NOTHING_YET),
            paragraph("", &nothing_added(voice, reserves.acid, reserves.base)),
            equation,
            paragraph("quiet", label::TRY_IT),
        ]
        .concat();
    };
    [
        heading(&voice.headline(&change)),
        paragraph("", &voice.what_met_what(&change)),
        equation,
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
    let row = |class: &str, name: &str, cells: [String; 3]| {
        let cells = cells.map(|cell| format!("<td>{cell}</td>")).concat();
        format!(
            "<tr class=\"{class}\"><th scope=\"row\">{}</th>{cells}</tr>",
            html(name)
        )
    };
    let amount = |class, symbol: &str, before, after| {
        let moved = scale.value(after) - scale.value(before);
        let cells = [
            w.amount_number(before, scale),
            w.amount_number(after, scale),
            w.signed(moved, scale.decimals()),
        ];
        row(class, &format!("{symbol} / {}", scale.symbol()), cells)
    };
    let ph = |class, name, before: f64, after: f64| {
        let fixed = |value| w.fixed(value, PH_DECIMALS);
        row(
            class,
            name,
            [
                fixed(before),
                fixed(after),
                w.signed(after - before, PH_DECIMALS),
            ],
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
        ph(
            "ph-row",
            label::PH_ROWS[0],
            before.ph.value(),
            after.ph.value()
        ),
        ph(
            "water-row",
            label::PH_ROWS[1],
            before.water.value(),
            after.water.value()
        ),
    )
}

/// The rows of the curve's data table.
pub fn curve_rows(voice: &Voice<'_>, rows: &[crate::app::graph::Row]) -> String {
    let (w, scale) = (voice.writer, voice.scale);
    let row = |row: &crate::app::graph::Row| {
        format!(
            "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td></tr>",
            label::row(&w.amount_number(row.added.size(), scale), row.added),
            w.fixed(row.ph, PH_DECIMALS),
            w.fixed(row.water, PH_DECIMALS),
        )
    };
    rows.iter().map(row).collect()
}
