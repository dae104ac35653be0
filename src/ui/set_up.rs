//! Setting up the buffer: which pair, and how it is made.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::recipe::{Field, Method, PAIRS, PairChoice};
use crate::app::state::State;
use crate::app::words::{label, recipe as words};
use crate::lesson::markup::html;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn SetUp() -> impl IntoView {
    let store = Store::get();
    let parted = store.flag(|s| s.draft.method == Method::PartNeutralized);
    let own = store.flag(|s| s.draft.pair.is_own());
    let stale = store.state_text(|s| words::stale(&s.draft, &s.bench.recipe, s.writer()));
    let own_pka = move || {
        own.get()
            .then(|| view! { <Input field=Field::OwnPka/> }.into_any())
    };
    let solutions = move || {
        // Read, not only tracked: a memo that nobody reads never changes.
        parted.get();
        let method = store.peek(|s| s.draft.method);
        method
            .solutions()
            .map(|[concentration, volume]| view! { <Solution concentration volume/> }.into_any())
            .collect_view()
    };
    view! {
        <div class="panel form">
            <p class="warning" id="stale" role="status" inner_html=stale></p>
            <PairSelect/>
            {own_pka}
            <fieldset>
                <legend>{words::HOW_IT_IS_MADE}</legend>
                <div class="choice">
                    <Way method=Method::TwoSolutions/>
                    <Way method=Method::PartNeutralized/>
                </div>
            </fieldset>
            {solutions}
            <fieldset>
                <legend>{words::STOCK}</legend>
                <div class="two"><Input field=Field::Stock/></div>
            </fieldset>
            <p class="caution quiet">{label::SAFETY_SHORT}</p>
        </div>
    }
}

/// One way of making it.
#[component]
fn Way(
    /// Which.
    method: Method,
) -> impl IntoView {
    let store = Store::get();
    let text =
        store.state_text(move |s| words::method(method, s.draft.starts_from_base()).to_owned());
    view! {
        <button
            type="button"
            class="key"
            aria-pressed=store.truth(move |s| s.draft.method == method)
            on:click=store.doing(Action::MethodChosen(method))
        >
            {text}
        </button>
    }
}

#[component]
fn PairSelect() -> impl IntoView {
    let store = Store::get();
    let option = |(index, &pair): (usize, &PairChoice)| {
        let pka = pair.pka().map(|p| p.value());
        let text = words::pair_option(&pair.names(), pka, store.writer());
        let text = store.put(text);
        let chosen = store.flag(move |s| s.draft.pair == pair);
        view! { <option value=index.to_string() prop:selected=chosen>{text}</option> }.into_any()
    };
    let options = PAIRS.iter().enumerate().map(option).collect_view();
    let choose = move |e: leptos::ev::Event| {
        let pair = event_target_value(&e)
            .parse()
            .ok()
            .and_then(|i: usize| PAIRS.get(i));
        if let Some(&pair) = pair {
            store.dispatch(Action::PairChosen(pair));
        }
    };
    view! {
        <label>
            {words::PAIR}
            <select id="pair" on:change=choose>{options}</select>
        </label>
    }
}

/// A solution: its name, concentration and volume.
#[component]
fn Solution(
    /// Field of its concentration.
    concentration: Field,
    /// Field of its volume.
    volume: Field,
) -> impl IntoView {
    let store = Store::get();
    let name =
        store.state_text(move |s| html(&words::solution(concentration, &s.draft.pair.names())));
    view! {
        <fieldset>
            <legend inner_html=name></legend>
            <div class="two">
                <Input field=concentration/>
                <Input field=volume/>
            </div>
        </fieldset>
    }
}

/// One field. Its text is the draft's, which is what was typed: putting the same text in
/// again leaves the caret alone.
#[component]
fn Input(
    /// Which field.
    field: Field,
) -> impl IntoView {
    let store = Store::get();
    let id = format!("field-{field:?}");
    let hint = format!("{id}-problem");
    let text = store.typed(move |s| s.draft.text(field).to_owned());
    let message = store.state_text(move |s| problem(s, field));
    let invalid = store.truth(move |s| !problem(s, field).is_empty());
    let name = store.put(html(words::field(field)));
    let input = move |e: leptos::ev::Event| {
        store.dispatch(Action::Typed(field, event_target_value(&e)));
    };
    view! {
        <div>
            <label for=id.clone() inner_html=name></label>
            <input
                id=id
                type="text"
                inputmode="decimal"
                autocomplete="off"
                prop:value=text
                aria-invalid=invalid
                aria-describedby=hint.clone()
                on:input=input
            />
            <p class="warning" id=hint inner_html=message></p>
        </div>
    }
}

/// What is wrong with a field, as markup; empty if nothing is.
fn problem(state: &State, field: Field) -> String {
    let wrong = state.draft.read().err().unwrap_or_default();
    let own = wrong.into_iter().find(|(f, _)| *f == field);
    own.map_or(String::new(), |(_, problem)| {
        html(&words::problem(field, problem, state.writer()))
    })
}
