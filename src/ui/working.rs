//! The calculation for what is on the bench.

use leptos::prelude::*;

use crate::app::words::working::working_html;
use crate::app::working::Working as Worked;
use crate::web::store::{Store, WRITER};

/// The panel.
#[component]
pub(super) fn Working() -> impl IntoView {
    let text = Store::get()
        .message(|state, shown, _| working_html(&Worked::of(&state.bench, &shown.reading), WRITER));
    view! { <div class="panel working" tabindex="0" inner_html=text></div> }
}
