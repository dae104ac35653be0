//! What the page does not model, and cautions.

use leptos::prelude::*;

use crate::app::state::Panel;
use crate::app::words::label;
use crate::web::page;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn Limits() -> impl IntoView {
    let text = Store::get().text(|reading, writer| {
        let note = reading.setup.entry.and_then(|entry| entry.note);
        label::limits(reading.now.ph(), reading.davies, note, writer)
    });
    view! {
        <div class="panel limits" tabindex="0" role="region" aria-label=label::PANELS[Panel::Limits as usize]>
            <div inner_html=text></div>
            // A lesson's file has no page beside it.
            <p hidden=page::is_file()>
                <a href="privacy.html" target="_blank" rel="noopener">{label::PRIVACY}</a>
            </p>
        </div>
    }
}
