//! Explanations, built from clauses and equations.

use leptos::ev::{Event, MouseEvent};
use leptos::prelude::*;

use crate::app::desk::DeskAction;
use crate::app::practice::PracticeAction;
use crate::app::words::{explain as words, objective, practice};
use crate::lesson::explain::{TOPICS, Topic};
use crate::web::page;
use crate::web::store::Store;

/// Where the focus goes once the explanation is complete.
const NEXT: &str = ".practice .over:not([hidden]) .key";

/// The page of explanations.
#[component]
pub(super) fn Explanations() -> impl IntoView {
    let store = Store::get();
    if store.peek(|s| s.desk.practice.explanation.is_none()) {
        open(store, TOPICS[0]);
    }
    let options = TOPICS.map(|topic| {
        let is = store.flag(move |s| words::topic(&s.desk.practice) == topic);
        let name = objective::of_topic(topic);
        view! { <option value=(topic as u8).to_string() prop:selected=is>{name}</option> }
            .into_any()
    });
    let change = move |e: Event| {
        let place = event_target_value(&e).parse::<u8>().map(usize::from);
        if let Some(topic) = place.ok().and_then(|place| TOPICS.get(place)) {
            open(store, *topic);
        }
    };
    let question = store.state_text(|s| words::asked(&s.desk.practice));
    let status = store.state_text(|s| words::stands(&s.desk.practice));
    let whole = store.state_text(|s| words::whole(&s.desk.practice));
    let complete = store.flag(|s| words::is_complete(&s.desk.practice));
    let edition = store.number(|s| words::edition(&s.desk.practice));
    let clauses = move || {
        edition.get();
        let count = store.peek(|s| words::slots_of(&s.desk.practice));
        (0..count)
            .map(|place| view! { <Clause place/> }.into_any())
            .collect_view()
    };
    let next = move |_| {
        open(store, store.peek(|s| words::topic(&s.desk.practice)).next());
        request_animation_frame(|| page::go_to("explain", "explain"));
    };
    // By the click, as lines of questions are handed in.
    let check = move |e: MouseEvent| {
        e.prevent_default();
        store.work(DeskAction::Practised(PracticeAction::ExplanationChecked));
        request_animation_frame(|| page::refocus(NEXT));
    };
    let show = move |_| {
        store.work(DeskAction::Practised(PracticeAction::ExplanationShown));
        request_animation_frame(|| page::refocus(NEXT));
    };
    view! {
        <label>
            {words::WHICH}
            <select on:change=change>{options.collect_view()}</select>
        </label>
        <h3 id="explain" tabindex="-1">{question}</h3>
        <form class="lines">
            {clauses}
            <div class="back" hidden=complete>
                <button class="key main" on:click=check>{practice::CHECK}</button>
                <button type="button" class="key plain" on:click=show>{words::SHOW}</button>
            </div>
        </form>
        <p role="status" class="stands">{status}</p>
        <div class="over" hidden=move || !complete.get()>
            <p class="whole" inner_html=whole></p>
            <button type="button" class="key main" on:click=next>{words::NEXT}</button>
        </div>
    }
}

/// Opens an explanation afresh.
pub(super) fn open(store: Store, topic: Topic) {
    let seed = page::seed();
    store.work(DeskAction::Practised(PracticeAction::ExplanationOpened {
        topic,
        seed,
    }));
}

/// One clause to choose.
#[component]
fn Clause(
    /// Its place.
    place: usize,
) -> impl IntoView {
    let store = Store::get();
    let (heading, choices) = store.peek(|s| words::offered(&s.desk.practice, place));
    let says = store.state_text(move |s| words::says(&s.desk.practice, place));
    let done = store.flag(|s| words::is_complete(&s.desk.practice));
    let choices = choices.into_iter().map(|(choice, text)| {
        let text = store.put(text);
        let is = store.flag(move |s| words::is_chosen(&s.desk.practice, place, choice));
        let choose = store.working(DeskAction::Practised(PracticeAction::ClauseChosen { slot: place, choice }));
        view! {
            <label class="clause">
                <input type="radio" name=format!("clause-{place}") prop:checked=is prop:disabled=done on:change=choose/>
                <span inner_html=text></span>
            </label>
        }
        .into_any()
    });
    view! {
        <fieldset aria-describedby=format!("clause-{place}-says")>
            <legend>{heading}</legend>
            {choices.collect_view()}
            <p class="says" id=format!("clause-{place}-says") inner_html=says></p>
        </fieldset>
    }
}
