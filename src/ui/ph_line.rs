//! The pH line: 0 to 14 with the useful range, pKa, this buffer and water.

use leptos::prelude::*;

use crate::app::reading::CONDITIONS;
use crate::lesson::sig_fig::PH_DECIMALS;
use crate::web::store::Store;

const TICKS: [u8; 9] = [0, 2, 4, 6, 7, 8, 10, 12, 14];

/// Share of the line at a pH, in percent; values off the line stay at its end.
fn place(ph: f64) -> String {
    format!("{:.3}%", (ph / 14.0).clamp(0.0, 1.0) * 100.0)
}

/// The line and its key.
#[component]
pub(super) fn PhLine() -> impl IntoView {
    let store = Store::get();
    let w = store.writer();
    let pka = Memo::new(move |_| store.reading.with(|r| r.setup.pair.pka_at(&CONDITIONS)));
    let now = move || place(store.reading.with(|r| r.now.ph().value()));
    let water = move || place(store.reading.with(|r| r.now.water.value()));
    let low = move || place(pka.get() - 1.0);
    let width = move || {
        let share = |ph: f64| (ph / 14.0).clamp(0.0, 1.0);
        format!(
            "{:.3}%",
            (share(pka.get() + 1.0) - share(pka.get() - 1.0)) * 100.0
        )
    };
    let range = move || {
        let fixed = |ph| w.fixed(ph, PH_DECIMALS);
        format!("{} to {}", fixed(pka.get() - 1.0), fixed(pka.get() + 1.0))
    };
    let ticks = TICKS.map(|tick| {
        view! { <span class="tick digits" style:left=place(f64::from(tick))><span>{tick}</span></span> }
    });
    view! {
        <div class="ph-line" aria-hidden="true">
            <i class="range" style:left=low style:width=width></i>
            <i class="pka" style:left=move || place(pka.get())></i>
            <i class="axis"></i>
            {ticks}
            <i class="marker water" style:left=water>
                <svg viewBox="0 0 18 20"><path d="M2 3h14l-7 14z"/></svg>
            </i>
            <i class="marker now" style:left=now>
                <svg viewBox="0 0 18 20"><path d="M1 1h16l-8 19z"/></svg>
            </i>
        </div>
        <p class="quiet ph-legend digits">
            <span data-sign="▼">"this buffer"</span>
            <span data-sign="▽">"water alone"</span>
            <span data-sign="▭">"useful range "{range}</span>
        </p>
    }
}
