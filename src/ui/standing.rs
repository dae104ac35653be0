//! How the learner stands, and whether the device keeps it.

use leptos::ev::Event;
use leptos::prelude::*;
use web_sys::HtmlInputElement;

use super::explanations::open;
use crate::app::desk::{DeskAction, Keeping, Page};
use crate::app::practice::PracticeAction;
use crate::app::progress::{Objective, Subject, objectives};
use crate::app::words::objective as words;
use crate::web::store::Store;
use crate::web::{keep, page};

/// The page.
#[component]
pub(super) fn Standing() -> impl IntoView {
    let store = Store::get();
    let rows = objectives().map(|objective| view! { <Row objective/> }.into_any());
    let keeps = store.flag(|s| s.desk.keeping == Keeping::Yes);
    let refused = store.flag(|s| s.desk.keeping != Keeping::Refused);
    let nothing = store.truth(|s| s.desk.practice.results.is_empty());
    // It stays true only until the next result, or until results are kept once more.
    let is_clear =
        store.flag(|s| s.desk.practice.results.is_empty() && s.desk.keeping != Keeping::Yes);
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
    let asked = RwSignal::new(false);
    let ask = move |_| {
        // Disabled, it still takes the focus, so it has to hold still by itself.
        if store.peek(|s| !s.desk.practice.results.is_empty()) {
            asked.set(true);
            request_animation_frame(|| page::refocus(".keeping .plain"));
        }
    };
    let answer = move |yes: bool| {
        move |_| {
            if yes {
                keep::clear();
                store.work(DeskAction::Cleared);
                cleared.set(true);
            }
            asked.set(false);
            request_animation_frame(|| page::refocus(".keeping .clear"));
        }
    };
    let next = store.state_text(|s| words::suggestion(&s.desk.practice));
    let follow = move |_| {
        store.work(DeskAction::Practised(PracticeAction::FormChosen(None)));
        go_to(store, Page::Questions);
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
            <button type="button" class="key clear" aria-disabled=nothing hidden=asked on:click=ask>{words::CLEAR}</button>
            <div class="back" role="group" aria-labelledby="for-good" hidden=move || !asked.get()>
                <span id="for-good">{words::CLEAR_FOR_GOOD}</span>
                <button type="button" class="key plain" on:click=answer(false)>{words::DO_NOT_CLEAR}</button>
                <button type="button" class="key" on:click=answer(true)>{words::DO_CLEAR}</button>
            </div>
            <p role="status">{move || if cleared.get() && is_clear.get() { words::CLEARED } else { "" }}</p>
        </div>
    }
}

/// Opens a page of practice; the button that did so is gone then, and the focus goes there.
fn go_to(store: Store, page: Page) {
    store.work(DeskAction::PageOpened(page));
    let title = match page {
        Page::Explanations => "explain",
        Page::Questions | Page::Standing => "question",
    };
    request_animation_frame(move || page::go_to(title, title));
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
        Objective::Sorting => go_to(store, Page::Questions),
        Objective::Of(Subject::Sum(form)) => {
            store.work(DeskAction::Practised(PracticeAction::FormChosen(Some(
                form,
            ))));
            go_to(store, Page::Questions);
        }
        Objective::Of(Subject::Explanation(topic)) => {
            open(store, topic);
            go_to(store, Page::Explanations);
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
