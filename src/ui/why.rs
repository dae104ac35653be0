//! The last addition explained.

use leptos::prelude::*;

use super::later::{Later, Part};
use crate::app::words::explanation::{explanation, nothing_yet};
use crate::app::words::label;
use crate::web::store::Store;

/// The panel. Until something is added, there is little to say; the rest is fetched.
#[component]
pub(super) fn Why() -> impl IntoView {
    let store = Store::get();
    let added = store.flag(|s| s.bench.last.is_some());
    move || {
        if added.get() {
            view! { <Later part=Part::Explained/> }.into_any()
        } else {
            region(store.picture_text(|voice, reading, _| nothing_yet(voice, reading)))
        }
    }
}

/// The last addition.
#[component]
pub(super) fn Explained() -> impl IntoView {
    region(Store::get().picture_text(|voice, reading, _| explanation(voice, reading)))
}

fn region(text: Memo<String>) -> AnyView {
    view! {
        <div class="panel why" tabindex="0" role="region" aria-label=label::PANELS[0] inner_html=text></div>
    }
    .into_any()
}
