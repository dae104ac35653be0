//! What the lesson itself has to say: its title, the teacher's prompts, and what of its link
//! could not be used.

use leptos::prelude::*;

use crate::app::words::lesson as words;
use crate::web::store::Store;

/// The card; nothing for the usual page.
#[component]
pub(super) fn Told(
    /// Whether it is open at first.
    open: bool,
) -> impl IntoView {
    let store = Store::get();
    let (title, prompts) = store.peek(|s| (words::heading(&s.plan), s.plan.prompts.clone()));
    let notices = store.peek(|s| words::notices(&s.notices));
    let card = (!title.is_empty()).then(|| {
        let prompts = prompts
            .into_iter()
            .map(|prompt| view! { <li dir="auto">{prompt}</li> }.into_any());
        view! {
            <details class="card told" open=open>
                <summary><bdi>{title}</bdi></summary>
                <ol>{prompts.collect_view()}</ol>
            </details>
        }
        .into_any()
    });
    let warned = (!notices.is_empty()).then(|| {
        let notices = notices
            .into_iter()
            .map(|notice| view! { <li>{notice}</li> }.into_any());
        view! {
            <div class="card warning told" role="alert">
                <p>{words::NOT_AS_WRITTEN}</p>
                <ul>{notices.collect_view()}</ul>
            </div>
        }
        .into_any()
    });
    view! {
        {warned}
        {card}
    }
}
