//! What the page does not model, and cautions.

use leptos::prelude::*;

use crate::app::words::label;
use crate::lesson::markup::html;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn Limits() -> impl IntoView {
    let store = Store::get();
    let here = store.text(|r, w| {
        let davies = r.davies.map(|(ph, strength)| label::Davies {
            ph,
            ionic_strength: strength,
        });
        html(&label::model_here(r.now.ph(), davies, w))
    });
    let note = store.text(|r, _| html(r.setup.entry.and_then(|e| e.note).unwrap_or_default()));
    let line = |text: &&str| {
        let text = html(text);
        view! { <li inner_html=text></li> }.into_any()
    };
    view! {
        <div class="panel limits">
            <h2>{label::LEFT_OUT}</h2>
            <ul>{label::LIMITS.iter().map(line).collect_view()}</ul>
            <p inner_html=here></p>
            <p inner_html=note></p>
            <p class="caution">{label::SAFETY}</p>
        </div>
    }
}
