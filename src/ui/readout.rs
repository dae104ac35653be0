//! The pH now, what it started from, and water beside it.

use leptos::html::Section;
use leptos::prelude::*;

use super::ph_line::PhLine;
use crate::app::reading::CONDITIONS;
use crate::app::state::Panel;
use crate::app::words::label;
use crate::web::store::{Store, memo_flag};

/// The big number with its facts and its line.
#[component]
pub(super) fn Readout(
    /// For the slim bar, which shows when this is out of sight.
    node_ref: NodeRef<Section>,
) -> impl IntoView {
    let store = Store::get();
    let pka = store.text(|r, w| w.on_ph_scale(r.setup.pair.pka_at(&CONDITIONS)));
    view! {
        <section class="card readout" node_ref=node_ref aria-labelledby="ph-now">
            <div>
                <h2 id="ph-now">{label::PH_NOW}</h2>
                // The status line speaks of it, once an action; this stays silent.
                <output class="digits" id="ph" aria-labelledby="ph-now" aria-live="off">
                    {store.at_once().text(|r, w| w.ph(r.now.ph()))}
                </output>
            </div>
            <dl class="facts digits">
                <dt>{label::AT_THE_START}</dt>
                <dd id="ph-start">{store.text(|r, w| w.ph(r.start.ph()))}</dd>
                <dt>"p"<i>"K"</i><sub>"a"</sub></dt>
                <dd id="pka">{pka}</dd>
                <dt>{label::WATER_ALONE}</dt>
                <dd class="water" id="ph-water">{store.text(|r, w| w.ph(r.now.water))}</dd>
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
    let gone = RwSignal::new(false);
    let listener = window_event_listener(leptos::ev::scroll, move |_| {
        let bottom = readout
            .get_untracked()
            .map(|e| e.get_bounding_client_rect().bottom());
        let is_gone = bottom.is_some_and(|bottom| bottom < 0.0);
        if gone.get_untracked() != is_gone {
            gone.set(is_gone);
        }
    });
    on_cleanup(move || listener.remove());
    // Over a question it would be taken for part of it.
    let practice = store.flag(|s| s.panel == Panel::Practice);
    let hidden = memo_flag(Box::new(move || !gone.get() || practice.get()));
    view! {
        <div class="slim digits" aria-hidden="true" hidden=hidden>
            <span>"pH"</span>
            <strong>{store.at_once().text(|r, w| w.ph(r.now.ph()))}</strong>
            <span class="quiet">{label::WATER_ALONE} " " {store.text(|r, w| w.ph(r.now.water))}</span>
        </div>
    }
}
