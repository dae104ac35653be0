//! The last addition explained.

use leptos::prelude::*;

use crate::app::reading::Reading;
use crate::app::words::{addition, label};
use crate::lesson::markup::{html, mathml};
use crate::lesson::notation::{Equation, Writing};
use crate::lesson::sig_fig::{PH_DECIMALS, Writer};
use crate::lesson::why::{Change, Outcome};
use crate::web::store::{Store, voice};

/// The panel.
#[component]
pub(super) fn Why() -> impl IntoView {
    let store = Store::get();
    let w = store.writer();
    view! {
        <div class="panel why">
            {move || store.reading.with(|r| match r.change() {
                Some(change) => explained(r, &change, w).into_any(),
                None => before_anything(r, w).into_any(),
            })}
        </div>
    }
}

/// The equation of what happened last, or of what always happens.
pub(super) fn latest_equation(reading: &Reading, writing: Writing) -> Equation {
    match reading.change() {
        Some(change) if change.outcome() == Outcome::MetExcess => Equation::water(),
        Some(change) => reading.setup.names.reaction(change.reagent, writing),
        None => reading.setup.names.ionization(writing),
    }
}

fn before_anything(reading: &Reading, w: Writer) -> impl IntoView + use<> {
    let equation = mathml(&latest_equation(reading, Writing::Formulas), true);
    let text = addition::nothing_added(
        &voice(reading, w),
        reading.now.reserves.acid,
        reading.now.reserves.base,
    );
    view! {
        <h2 class="headline">{label::NOTHING_YET}</h2>
        <p inner_html=html(&text)></p>
        <div class="block" inner_html=equation></div>
        <p class="quiet" inner_html=html(label::TRY_IT)></p>
    }
}

fn explained(reading: &Reading, change: &Change, w: Writer) -> impl IntoView + use<> {
    let voice = voice(reading, w);
    let headline = html(&voice.headline(change));
    let met = html(&voice.what_met_what(change));
    let equation = mathml(&latest_equation(reading, Writing::Formulas), true);
    let ratio = voice.ratio(change).map(|text| html(&text));
    let water = html(&voice.water(change));
    view! {
        <h2 class="headline" inner_html=headline></h2>
        <p inner_html=met></p>
        <div class="block" inner_html=equation></div>
        <Figures rows=rows(reading, change, w)/>
        {ratio.map(|text| view! { <p class="quiet" inner_html=text></p> })}
        <p class="quiet" inner_html=water></p>
    }
}

/// One line of the table of changes.
struct Row {
    class: &'static str,
    name: String,
    before: String,
    after: String,
    change: String,
}

fn rows(reading: &Reading, change: &Change, w: Writer) -> Vec<Row> {
    let names = &reading.setup.names;
    let scale = reading.scale;
    let amount = |class, symbol: &str, before, after| Row {
        class,
        name: format!("{} / {}", html(symbol), scale.symbol()),
        before: w.amount_number(before, scale),
        after: w.amount_number(after, scale),
        change: w.signed(scale.value(after) - scale.value(before), scale.decimals()),
    };
    let ph = |class, name: &str, before: f64, after: f64| Row {
        class,
        name: name.to_owned(),
        before: w.fixed(before, PH_DECIMALS),
        after: w.fixed(after, PH_DECIMALS),
        change: w.signed(after - before, PH_DECIMALS),
    };
    let (before, after) = (&change.before, &change.after);
    vec![
        amount("acid", &names.acid_symbol, before.acid, after.acid),
        amount("base", &names.base_symbol, before.base, after.base),
        ph(
            "ph-row",
            label::PH_ROWS[0],
            before.ph.value(),
            after.ph.value(),
        ),
        ph(
            "water-row",
            label::PH_ROWS[1],
            before.water.value(),
            after.water.value(),
        ),
    ]
}

/// The amounts and the pH before and after, with the change in each.
#[component]
fn Figures(
    /// Its lines.
    rows: Vec<Row>,
) -> impl IntoView {
    view! {
        <table class="figures digits">
            <caption class="unseen">{label::THIS_ADDITION}</caption>
            <thead>
                <tr><td></td>{label::BEFORE_AFTER_CHANGE.map(|h| view! { <th scope="col">{h}</th> }.into_any()).collect_view()}</tr>
            </thead>
            <tbody>
                {rows.into_iter().map(|row| view! {
                    <tr class=row.class>
                        <th scope="row" inner_html=row.name></th>
                        <td>{row.before}</td>
                        <td>{row.after}</td>
                        <td>{row.change}</td>
                    </tr>
                }).collect_view()}
            </tbody>
        </table>
    }
}
