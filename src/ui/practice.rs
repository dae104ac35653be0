//! Practice: one question at a time, its lines, and what is said about them.

use leptos::ev::Event;
use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::practice::PracticeAction;
use crate::app::progress::LEVELS;
use crate::app::state::State;
use crate::app::task::Stage;
use crate::app::words::{kind as kinds, practice as words, task as parts};
use crate::lesson::sums::form::FORMS;
use crate::lesson::sums::kind::KINDS;
use crate::web::page;
use crate::web::store::{Store, WRITER};

/// The panel.
#[component]
pub(super) fn Practice() -> impl IntoView {
    let store = Store::get();
    if store.peek(|s| s.practice.task.is_none()) {
        let seed = page::seed();
        store.dispatch(Action::Practised(PracticeAction::Began { seed }));
    }
    let question = store.state_text(|s| parts::question(&s.practice, WRITER));
    let status = store.state_text(|s| parts::status(&s.practice));
    let solution = store.state_text(|s| parts::solution(&s.practice, WRITER));
    // The lines are made anew for each question; typing in them does not.
    let series = store.number(|s| s.practice.number);
    let lines = move || {
        series.get();
        let count = store.peek(|s| s.practice.task.as_ref().map_or(0, |t| t.lines.len()));
        (0..count)
            .map(|place| view! { <Line place/> }.into_any())
            .collect_view()
    };
    let at = move |stage: Stage| {
        store.flag(move |s| s.practice.task.as_ref().map(|t| t.stage()) != Some(stage))
    };
    view! {
        <div class="panel practice form">
            <details class="choices">
                <summary>{words::FORM}</summary>
                <Choose name=words::FORM first=words::AUTO options=FORMS.map(words::form).to_vec() chosen=|s| {
                    let form = s.practice.form;
                    FORMS.iter().position(|f| Some(*f) == form).map_or(0, |n| n + 1)
                } choose=|n| PracticeAction::FormChosen(n.checked_sub(1).map(|n| FORMS[n]))/>
                <Choose name=words::LEVEL first=words::AUTO options=LEVELS.map(words::level).to_vec() chosen=|s| {
                    let level = s.practice.level;
                    LEVELS.iter().position(|l| Some(*l) == level).map_or(0, |n| n + 1)
                } choose=|n| PracticeAction::LevelChosen(n.checked_sub(1).map(|n| LEVELS[n]))/>
            </details>
            <div class="question" inner_html=question></div>
            <div hidden=at(Stage::Sorting)>
                <h3>{kinds::WHAT_IS_IT}</h3>
                <div class="kinds">
                    {KINDS.map(|kind| {
                        let sort = store.doing(Action::Practised(PracticeAction::Sorted(kind)));
                        view! { <button type="button" class="key" on:click=sort>{kinds::kind(kind)}</button> }.into_any()
                    }).collect_view()}
                </div>
            </div>
            <form class="lines" on:submit=move |e| {
                e.prevent_default();
                store.dispatch(Action::Practised(PracticeAction::Checked));
            }>
                {lines}
                <div class="back" hidden=at(Stage::Lines)>
                    <button class="key">{words::CHECK}</button>
                    <Do name=words::SHOW_STEP action=PracticeAction::StepAsked/>
                    <Do name=words::SHOW_LAYOUT action=PracticeAction::LayoutAsked/>
                </div>
            </form>
            <p role="status" class="stands" inner_html=status></p>
            <div hidden=at(Stage::Over)>
                <div class="back">
                    <Do name=words::NEXT action=PracticeAction::NextAsked/>
                    <OnTheBench/>
                </div>
                <div class="working" inner_html=solution></div>
            </div>
        </div>
    }
}

/// A button that does one thing in practice.
#[component]
fn Do(
    /// What it says.
    name: &'static str,
    /// What it does.
    action: PracticeAction,
) -> impl IntoView {
    let act = Store::get().doing(Action::Practised(action));
    view! { <button type="button" class="key plain" on:click=act>{name}</button> }
}

/// Puts the mixture of the question on the bench, where the bench can make it.
#[component]
fn OnTheBench() -> impl IntoView {
    let store = Store::get();
    let cannot = store.flag(|s| s.practice.recipe().is_none());
    view! {
        <button type="button" class="key plain" hidden=cannot on:click=store.doing(Action::QuestionPutOnBench)>
            {words::ON_THE_BENCH}
        </button>
    }
}

/// A list to choose from.
#[component]
fn Choose(
    /// What is chosen.
    name: &'static str,
    /// The first choice.
    first: &'static str,
    /// The others.
    options: Vec<&'static str>,
    /// Which is chosen now.
    chosen: fn(&State) -> usize,
    /// What choosing one does.
    choose: fn(usize) -> PracticeAction,
) -> impl IntoView {
    let store = Store::get();
    let all = std::iter::once(first).chain(options).enumerate();
    let options = all.map(|(place, text)| {
        let is = store.flag(move |s| chosen(s) == place);
        view! { <option value=place.to_string() prop:selected=is>{text}</option> }.into_any()
    });
    let change = move |e: Event| {
        if let Ok(place) = event_target_value(&e).parse::<u8>() {
            store.dispatch(Action::Practised(choose(usize::from(place))));
        }
    };
    view! {
        <label>
            {name}
            <select on:change=change>{options.collect_view()}</select>
        </label>
    }
}

/// One line: filled in, or to be filled in, with what is said about it.
#[component]
fn Line(
    /// Its place among those asked for.
    place: usize,
) -> impl IntoView {
    let store = Store::get();
    let id = format!("line-{place}");
    let hint = format!("{id}-says");
    let name = store.state_text(move |s| parts::line_name(&s.practice, place));
    let shown = store.state_text(move |s| parts::line_shown(&s.practice, place, WRITER));
    let closed = store.flag(move |s| !parts::is_open(&s.practice, place));
    let waiting = store.flag(|s| {
        s.practice
            .task
            .as_ref()
            .is_none_or(|t| t.stage() == Stage::Sorting)
    });
    let text = store.state_text(move |s| parts::line_text(&s.practice, place));
    let says = store.state_text(move |s| parts::line_says(&s.practice, place, WRITER));
    let wrong = store.truth(move |s| parts::is_wrong(&s.practice, place));
    let write = move |text: String| {
        store.dispatch(Action::Practised(PracticeAction::Typed { place, text }));
    };
    let keys = words::KEYS.map(|(types, name)| {
        let press = move |_| write(text.get_untracked() + types);
        view! { <button type="button" class="key" aria-label=name on:click=press>{types}</button> }
            .into_any()
    });
    view! {
        <div class="line" hidden=waiting>
            <label for=id.clone() inner_html=name></label>
            <output hidden=move || !closed.get() aria-live="off" inner_html=shown></output>
            <div class="entry" hidden=closed>
                <input
                    id=id
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    prop:value=text
                    aria-invalid=wrong
                    aria-describedby=hint.clone()
                    on:input=move |e| write(event_target_value(&e))
                />
                <div class="keys" role="group" aria-label=words::KEYS_NAME>{keys.collect_view()}</div>
            </div>
            <p class="warning" id=hint inner_html=says></p>
        </div>
    }
}
