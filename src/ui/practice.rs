//! Practice: questions, explanations, and how the learner stands.

use leptos::prelude::*;

use super::explanations::Explanations;
use super::questions::Questions;
use super::standing::Standing;
use crate::app::desk::{DeskAction, Keeping, PAGES, Page};
use crate::app::plan::Telling;
use crate::app::practice::PracticeAction;
use crate::app::words::practice as words;
use crate::web::store::{Store, react};
use crate::web::{course, host, keep};

/// The panel.
#[component]
pub(super) fn Practice() -> impl IntoView {
    let store = Store::get();
    if store.peek(|s| !s.desk.restored) {
        store.work(DeskAction::Restored(keep::read()));
        if let Some(carried) = course::resume() {
            store.work(DeskAction::Practised(PracticeAction::Resumed(carried)));
        }
    }
    keep_results(store);
    tell_course(store);
    tell_host(store);
    let told = store.peek(|s| s.plan.telling == Telling::Results) && host::is_there();
    let open = store.number(|s| s.desk.page as u32);
    let pages = PAGES.map(|page| {
        let pressed = store.truth(move |s| s.desk.page == page);
        let show = store.working(DeskAction::PageOpened(page));
        // It would tell what the lesson tells at the end.
        let early = store.flag(move |s| page == Page::Standing && s.desk.practice.tells_later());
        view! {
            <button type="button" class="key" hidden=early aria-pressed=pressed on:click=show>{words::page(page)}</button>
        }
        .into_any()
    });
    let shown = move || match PAGES[open.get() as usize] {
        Page::Questions => view! { <Questions/> }.into_any(),
        Page::Explanations => view! { <Explanations/> }.into_any(),
        Page::Standing => view! { <Standing/> }.into_any(),
    };
    view! {
        <div class="panel practice form">
            <div class="pages" role="group" aria-label=words::PAGES>{pages.collect_view()}</div>
            <p class="quiet" hidden=!told>{words::TOLD}</p>
            {shown}
        </div>
    }
}

/// Writes results to the device when there are new ones, if the learner asked for it.
fn keep_results(store: Store) {
    let results = store.number(|s| s.desk.practice.done);
    let keeps = store.flag(|s| s.desk.keeping == Keeping::Yes);
    react(Box::new(move || {
        results.get();
        if keeps.get() && !store.peek(|s| keep::write(&s.desk.practice.results)) {
            store.work(DeskAction::KeepingChanged(Keeping::Refused));
        }
    }));
}

/// Tells the course system, where there is one, how the lesson's questions went.
fn tell_course(store: Store) {
    let results = store.number(|s| s.desk.practice.done);
    react(Box::new(move || {
        results.get();
        if let Some(report) = store.peek(|s| s.desk.practice.report()) {
            course::report(&report);
        }
    }));
}

/// Tells the page around a frame, where the lesson asks for it, how each question went.
fn tell_host(store: Store) {
    let ended = store.number(|s| s.desk.practice.ended);
    let mut before = store.peek(|s| s.desk.practice.ended);
    react(Box::new(move || {
        let now = ended.get();
        host::tell_results(store, before);
        before = now;
    }));
}
