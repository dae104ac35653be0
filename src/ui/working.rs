//! The calculation for what is on the bench.

use leptos::prelude::*;

use crate::app::words::practice::AS_TEXT;
use crate::app::words::working::{working_html, working_plain};
use crate::app::working::Working as Worked;
use crate::web::store::{Store, WRITER};

/// The panel.
#[component]
pub(super) fn Working() -> impl IntoView {
    let store = Store::get();
    let text = store
        .message(|state, shown, _| working_html(&Worked::of(&state.bench, &shown.reading), WRITER));
    let plain = store.message(|state, shown, _| {
        working_plain(&Worked::of(&state.bench, &shown.reading), WRITER)
    });
    view! {
        <div class="panel working">
            <div inner_html=text></div>
            <details>
                <summary>{AS_TEXT}</summary>
                <pre tabindex="0">{plain}</pre>
            </details>
        </div>
    }
}
