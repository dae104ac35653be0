//! The pH line: 0 to 14 with the useful range, pKa, this buffer and water.

use leptos::prelude::*;

use crate::app::reading::{CONDITIONS, Reading};
use crate::app::words::label;
use crate::web::store::Store;

const TICKS: [u8; 9] = [0, 2, 4, 6, 7, 8, 10, 12, 14];

/// Share of the line at a pH; values off the line stay at its end.
fn share(ph: f64) -> f64 {
    (ph / 14.0).clamp(0.0, 1.0)
}

fn percent(share: f64) -> String {
    format!("{:.2}%", share * 100.0)
}

fn pka(reading: &Reading) -> f64 {
    reading.setup.pair.pka_at(&CONDITIONS)
}

/// The line and its key.
#[component]
pub(super) fn PhLine() -> impl IntoView {
    let store = Store::get();
    let ticks = TICKS.map(|tick| {
        let place = percent(share(f64::from(tick)));
        view! { <span class="tick digits" style:left=place><span>{tick.to_string()}</span></span> }
    });
    let width = store.text(|r, _| percent(share(pka(r) + 1.0) - share(pka(r) - 1.0)));
    let range = store.text(|r, w| {
        // What of it is on the line.
        let edge = |ph: f64| w.on_ph_scale(ph.clamp(0.0, 14.0));
        label::useful_range(&edge(pka(r) - 1.0), &edge(pka(r) + 1.0))
    });
    view! {
        <div class="ph-line" aria-hidden="true">
            <i class="range" style:left=store.text(|r, _| percent(share(pka(r) - 1.0))) style:width=width></i>
            <i class="pka" style:left=store.text(|r, _| percent(share(pka(r))))></i>
            <i class="axis"></i>
            {ticks.collect_view()}
            <i class="marker water" style:left=store.text(|r, _| percent(share(r.now.water.value())))>
                <svg viewBox="0 0 18 20"><path d="M2 3h14l-7 14z"/></svg>
            </i>
            <i class="marker now" style:left=store.text(|r, _| percent(share(r.now.ph().value())))>
                <svg viewBox="0 0 18 20"><path d="M1 1h16l-8 19z"/></svg>
            </i>
        </div>
        <p class="quiet ph-legend digits">
            <span data-sign="▼">{label::NOW}</span>
            <span data-sign="▽">{label::WATER}</span>
            <span data-sign="┊">"p"<i>"K"</i><sub>"a"</sub></span>
            <span data-sign="▭">{range}</span>
        </p>
    }
}
