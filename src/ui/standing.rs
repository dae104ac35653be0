//! How the learner stands, and whether the device keeps it.

use leptos::ev::Event;
use leptos::prelude::*;
use web_sys::HtmlInputElement;

use super::explanations::open;
use crate::app::desk::{DeskAction, Keeping, Page};
use crate::app::practice::PracticeAction;
use crate::app::progress::{Objective, Subject, objectives};
use crate::app::words::objective as words;
use crate::web::keep;
use crate::web::store::Store;

/// The page.
#[component]
pub(super) fn Standing() -> impl IntoView {
    let store = Store::get();
    let rows = objectives().map(|objective| view! { <Row objective/> }.into_any());
    let keeps = store.flag(|s| s.desk.keeping == Keeping::Yes);
    let refused = store.flag(|s| s.desk.keeping != Keeping::Refused);
    let nothing = store.truth(|s| s.desk.practice.results.is_empty());
    let change = move |e: Event| {
        let keeping = match event_target_checked(&e) {
            true if store.peek(|s| keep::write(&s.desk.practice.results)) => Keeping::Yes,
            true => {
                // The box says what is so.
                event_target::<HtmlInputElement>(&e).set_checked(false);
                Keeping::Refused
            }
            false => {
                keep::clear();
                Keeping::No
            }
        };
        store.work(DeskAction::KeepingChanged(keeping));
    };
    let cleared = RwSignal::new(false);
    let clear = move |_| {
        keep::clear();
        store.work(DeskAction::Cleared);
        cleared.set(true);
    };
    let next = store.state_text(|s| words::suggestion(&s.desk.practice.results));
    let follow = move |_| {
        store.work(DeskAction::Practised(PracticeAction::FormChosen(None)));
        store.work(DeskAction::PageOpened(Page::Questions));
    };
    view! {
        <p>{next}</p>
        <div>
            <button type="button" class="key main" on:click=follow>{words::GO}</button>
        </div>
        <p class="quiet">{words::WHAT_IT_MEANS}</p>
        <ul class="standing">{rows.collect_view()}</ul>
        <div class="keeping">
            <label class="clause">
                <input type="checkbox" prop:checked=keeps on:change=change/>
                <span>{words::KEEP}</span>
            </label>
            <p class="quiet">{words::WHAT_IS_KEPT}</p>
            <p class="warning" role="alert" hidden=refused>{words::REFUSED}</p>
            <button type="button" class="key" aria-disabled=nothing on:click=clear>{words::CLEAR}</button>
            <p role="status">{move || if cleared.get() { words::CLEARED } else { "" }}</p>
        </div>
    }
}

/// One objective: how somebody stands, what to do next, and a way to do it.
#[component]
fn Row(
    /// Which.
    objective: Objective,
) -> impl IntoView {
    let store = Store::get();
    let name = words::objective(objective);
    let stands = store.state_text(move |s| words::stands(&s.desk.practice.results, objective));
    let go = move |_| match objective {
        Objective::Sorting => store.work(DeskAction::PageOpened(Page::Questions)),
        Objective::Of(Subject::Sum(form)) => {
            store.work(DeskAction::Practised(PracticeAction::FormChosen(Some(
                form,
            ))));
            store.work(DeskAction::PageOpened(Page::Questions));
        }
        Objective::Of(Subject::Explanation(topic)) => {
            open(store, topic);
            store.work(DeskAction::PageOpened(Page::Explanations));
        }
    };
    view! {
        <li>
            <div>
                <p class="name">{name}</p>
                <p class="quiet" inner_html=stands></p>
            </div>
            <button type="button" class="key" aria-label=[words::GO, ": ", name].concat() on:click=go>{words::GO}</button>
        </li>
    }
}
