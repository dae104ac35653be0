//! Setting up the buffer: which pair, and how it is made.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::recipe::{Field, Method, PAIRS, PairChoice, Problem};
use crate::app::words;
use crate::lesson::markup::html;
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn SetUp() -> impl IntoView {
    let store = Store::get();
    let method = store.select(|s| s.draft.method);
    let own = store.select(|s| matches!(s.draft.pair, PairChoice::OwnAcid | PairChoice::OwnBase));
    let way = move |choice: Method, texts: [&'static str; 2]| {
        let text = move || texts[usize::from(store.select(|s| s.draft.starts_from_base()).get())];
        view! {
            <button
                type="button"
                class="key"
                aria-pressed=move || (method.get() == choice).to_string()
                on:click=move |_| store.dispatch(Action::MethodChosen(choice))
            >
                {text}
            </button>
        }
    };
    view! {
        <div class="panel form">
            <PairSelect/>
            <Show when=move || own.get()><Input field=Field::OwnPka/></Show>
            <fieldset>
                <legend>"How it is made"</legend>
                <div class="choice">
                    {way(Method::TwoSolutions, words::recipe::TWO_SOLUTIONS)}
                    {way(Method::PartNeutralized, words::recipe::PART_NEUTRALIZED)}
                </div>
            </fieldset>
            {move || match method.get() {
                Method::TwoSolutions => view! {
                    <Solution concentration=Field::AcidConcentration volume=Field::AcidVolume/>
                    <Solution concentration=Field::BaseConcentration volume=Field::BaseVolume/>
                }.into_any(),
                Method::PartNeutralized => view! {
                    <Solution concentration=Field::WeakConcentration volume=Field::WeakVolume/>
                    <Solution concentration=Field::StrongConcentration volume=Field::StrongVolume/>
                }.into_any(),
            }}
            <fieldset>
                <legend>"Acid and alkali for the additions"</legend>
                <div class="two"><Input field=Field::Stock/></div>
            </fieldset>
            <p class="caution quiet">{words::label::SAFETY_SHORT}</p>
        </div>
    }
}

#[component]
fn PairSelect() -> impl IntoView {
    let store = Store::get();
    let chosen = store.select(|s| s.draft.pair);
    let options = PAIRS.iter().enumerate().map(|(index, &pair)| {
        let text = words::recipe::pair_option(
            &pair.names(),
            pair.pka().map(|p| p.value()),
            store.writer(),
        );
        view! { <option value=index selected=move || chosen.get() == pair>{text}</option> }
    });
    view! {
        <label>
            "Conjugate pair"
            <select
                id="pair"
                on:change=move |e| {
                    let pair = event_target_value(&e).parse().ok().and_then(|i: usize| PAIRS.get(i));
                    if let Some(&pair) = pair {
                        store.dispatch(Action::PairChosen(pair));
                    }
                }
            >
                {options.collect_view()}
            </select>
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
    let pair = store.select(|s| s.draft.pair);
    let name = move || html(&words::recipe::solution(concentration, &pair.get().names()));
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

/// One field. Its text is set once and then left to the typing; reading it never changes it.
#[component]
fn Input(
    /// Which field.
    field: Field,
) -> impl IntoView {
    let store = Store::get();
    let id = format!("field-{field:?}");
    let hint = format!("{id}-problem");
    let text = store.select(move |s| s.draft.text(field).to_owned());
    let typed = RwSignal::new(text.get_untracked());
    let node = NodeRef::<leptos::html::Input>::new();
    // Undo can bring another recipe back; only then is the text replaced.
    Effect::new(move |_| {
        let text = text.get();
        if let Some(input) = node.get()
            && typed.with_untracked(|t| *t != text)
        {
            input.set_value(&text);
            typed.set(text);
        }
    });
    let problem = store.select(move |s| problem(s, field));
    let message = move || {
        problem
            .get()
            .map(|p| html(&words::recipe::problem(field, p, store.writer())))
    };
    view! {
        <div>
            <label for=id.clone() inner_html=html(words::recipe::field(field))></label>
            <input
                id=id
                node_ref=node
                type="text"
                inputmode="decimal"
                autocomplete="off"
                maxlength="40"
                value=text.get_untracked()
                aria-invalid=move || problem.get().map(|_| "true")
                aria-describedby=hint.clone()
                on:input=move |e| {
                    let text = event_target_value(&e);
                    typed.set(text.clone());
                    store.dispatch(Action::Typed(field, text));
                }
            />
            <p class="warning" id=hint aria-live="polite" inner_html=move || message().unwrap_or_default()></p>
        </div>
    }
}

fn problem(state: &crate::app::state::State, field: Field) -> Option<Problem> {
    let wrong = state.draft.read().err()?;
    wrong
        .into_iter()
        .find(|(f, _)| *f == field)
        .map(|(_, problem)| problem)
}
