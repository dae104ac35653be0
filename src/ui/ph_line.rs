//! The pH line: 0 to 14 with the useful range, pKa, this buffer and water.

use leptos::prelude::*;

use crate::app::ph_line::{pka, place, useful_range};
use crate::app::words::label;
use crate::web::store::Store;

const TICKS: [u8; 9] = [0, 2, 4, 6, 7, 8, 10, 12, 14];

fn percent(share: f64) -> String {
    format!("{:.2}%", share * 100.0)
}

/// The line and its key.
#[component]
pub(super) fn PhLine() -> impl IntoView {
    let store = Store::get();
    let ticks = TICKS.map(|tick| {
        let left = percent(place(f64::from(tick)));
        view! { <span class="tick digits" style:left=left><span>{tick.to_string()}</span></span> }
    });
    let left = store.text(|r, _| percent(place(useful_range(r)[0])));
    let width = store.text(|r, _| {
        let [low, high] = useful_range(r).map(place);
        percent(high - low)
    });
    let range = store.text(|r, w| {
        let [low, high] = useful_range(r).map(|ph| w.on_ph_scale(ph));
        label::useful_range(&low, &high)
    });
    view! {
        <div class="ph-line" aria-hidden="true">
            <i class="range" style:left=left style:width=width></i>
            <i class="pka" style:left=store.text(|r, _| percent(place(pka(r))))></i>
            <i class="axis"></i>
            {ticks.collect_view()}
            <i class="marker water" style:left=store.text(|r, _| percent(place(r.now.water.value())))>
                <svg viewBox="0 0 18 20"><path d="M2 3h14l-7 14z"/></svg>
            </i>
            <i class="marker now" style:left=store.text(|r, _| percent(place(r.now.ph().value())))>
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
