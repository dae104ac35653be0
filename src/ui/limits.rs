//! What the page does not model, and cautions.

use leptos::prelude::*;

use crate::app::words;
use crate::lesson::markup::html;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn Limits() -> impl IntoView {
    let store = Store::get();
    let here = move || {
        store.reading.with(|r| {
            let davies = r.davies.map(|(ph, strength)| words::label::Davies {
                ph,
                ionic_strength: strength,
            });
            html(&words::label::model_here(
                r.now.ph(),
                davies,
                store.writer(),
            ))
        })
    };
    let note = move || {
        store
            .reading
            .with(|r| r.setup.entry.and_then(|e| e.note).map(html))
    };
    view! {
        <div class="panel limits">
            <h2>"What this page leaves out"</h2>
            <ul>{words::label::LIMITS.iter().map(|line| view! { <li inner_html=html(line)></li> }).collect_view()}</ul>
            <p inner_html=here></p>
            {move || note().map(|text| view! { <p inner_html=text></p> })}
            <p class="caution">{words::label::SAFETY}</p>
        </div>
    }
}
