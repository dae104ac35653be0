//! The last addition explained.

use leptos::prelude::*;

use crate::app::words::explanation::explanation;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn Why() -> impl IntoView {
    let text = Store::get().picture_text(|voice, reading, _| explanation(voice, reading));
    view! { <div class="panel why" inner_html=text></div> }
}
