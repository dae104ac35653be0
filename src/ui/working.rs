//! The calculation for what is on the bench.

use leptos::ev::Event;
use leptos::prelude::*;
use web_sys::Element;

use crate::app::shown::Shown;
use crate::app::state::State;
use crate::app::words::practice::AS_TEXT;
use crate::app::words::working::{working_html, working_plain};
use crate::app::working::Working as Worked;
use crate::web::store::Store;

fn worked(state: &State, shown: &Shown) -> Worked {
    Worked::of(&state.bench, &shown.reading, state.plan.conventions.ph_by)
}

/// The panel.
#[component]
pub(super) fn Working() -> impl IntoView {
    let store = Store::get();
    let text = store.message(|state, shown, _| working_html(&worked(state, shown), state.writer()));
    let plain =
        store.message(|state, shown, _| working_plain(&worked(state, shown), state.writer()));
    // Written once somebody looks.
    let open = RwSignal::new(false);
    let toggle = move |e: Event| {
        let details = event_target::<Element>(&e);
        open.set(details.has_attribute("open"));
    };
    let copied = move || {
        if open.get() {
            plain.get()
        } else {
            String::new()
        }
    };
    view! {
        <div class="panel working">
            <div inner_html=text></div>
            <details on:toggle=toggle>
                <summary>{AS_TEXT}</summary>
                <pre tabindex="0">{copied}</pre>
            </details>
        </div>
    }
}
