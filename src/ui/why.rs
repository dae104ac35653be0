//! The last addition explained.

use leptos::prelude::*;

use crate::app::words::explanation::explanation;
use crate::app::words::label;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn Why() -> impl IntoView {
    let text = Store::get().picture_text(|voice, reading, _| explanation(voice, reading));
    view! {
        <div class="panel why" tabindex="0" role="region" aria-label=label::PANELS[0] inner_html=text></div>
    }
}
