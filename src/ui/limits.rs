//! What the page does not model, and cautions.

use leptos::prelude::*;

use crate::app::words::label;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn Limits() -> impl IntoView {
    let text = Store::get().text(|reading, writer| {
        let note = reading.setup.entry.and_then(|entry| entry.note);
        label::limits(reading.now.ph(), reading.davies, note, writer)
    });
    view! {
        <div class="panel limits" tabindex="0" role="region" aria-label=label::PANELS[3] inner_html=text></div>
    }
}
