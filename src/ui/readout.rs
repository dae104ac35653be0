//! The pH now, what it started from, and water beside it.

use leptos::html::Section;
use leptos::prelude::*;
use leptos_use::use_element_visibility;

use super::ph_line::PhLine;
use crate::app::reading::CONDITIONS;
use crate::lesson::sig_fig::PH_DECIMALS;
use crate::web::store::Store;

/// The big number with its facts and its line.
#[component]
pub(super) fn Readout(
    /// For the slim bar, which shows when this is out of sight.
    node_ref: NodeRef<Section>,
) -> impl IntoView {
    let store = Store::get();
    let w = store.writer();
    let now = move || store.reading.with(|r| w.ph(r.now.ph()));
    let start = move || store.reading.with(|r| w.ph(r.start.ph()));
    let water = move || store.reading.with(|r| w.ph(r.now.water));
    let pka = move || {
        store
            .reading
            .with(|r| w.fixed(r.setup.pair.pka_at(&CONDITIONS), PH_DECIMALS))
    };
    view! {
        <section class="card readout" node_ref=node_ref aria-labelledby="ph-now">
            <div>
                <h2 id="ph-now">"pH now"</h2>
                <output class="digits" id="ph" aria-labelledby="ph-now">{now}</output>
            </div>
            <dl class="facts digits">
                <dt>"at the start"</dt><dd id="ph-start">{start}</dd>
                <dt>"p"<i>"K"</i><sub>"a"</sub></dt><dd id="pka">{pka}</dd>
                <dt>"water alone"</dt><dd class="water" id="ph-water">{water}</dd>
            </dl>
            <PhLine/>
        </section>
    }
}

/// The pH in a slim bar while the big one is scrolled out of sight on a phone.
#[component]
pub(super) fn SlimReadout(
    /// The big one.
    readout: NodeRef<Section>,
) -> impl IntoView {
    let store = Store::get();
    let w = store.writer();
    let seen = use_element_visibility(readout);
    // Until the observer has spoken once, the readout counts as seen.
    let spoken = RwSignal::new(false);
    Effect::new(move |_| {
        if seen.get() {
            spoken.set(true);
        }
    });
    view! {
        <div class="slim digits" aria-hidden="true" hidden=move || seen.get() || !spoken.get()>
            <span>"pH"</span>
            <strong>{move || store.reading.with(|r| w.ph(r.now.ph()))}</strong>
            <span class="quiet">"water alone "{move || store.reading.with(|r| w.ph(r.now.water))}</span>
        </div>
    }
}
