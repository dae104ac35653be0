//! One polite message to a screen reader for each addition, once it is done.

use leptos::prelude::*;

use crate::app::words::announcement::announcement;
use crate::web::store::Store;

/// The live region.
#[component]
pub(super) fn Status() -> impl IntoView {
    let message = Store::get().message(|state, shown, before| {
        announcement(
            state,
            &shown.reading,
            before.map(String::as_str),
            state.writer(),
        )
    });
    view! { <p class="unseen" role="status" id="status">{message}</p> }
}
