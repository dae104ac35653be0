//! One question at a time: its lines, and what is said about them.

use leptos::ev::{Event, MouseEvent};
use leptos::prelude::*;

use crate::app::desk::DeskAction;
use crate::app::plan::Feedback;
use crate::app::practice::PracticeAction;
use crate::app::progress::LEVELS;
use crate::app::state::State;
use crate::app::task::Stage;
use crate::app::words::{practice as words, summary, task as parts};
use crate::lesson::sums::form::FORMS;
use crate::web::page;
use crate::web::store::Store;

/// Where the focus goes when its button is no longer there: the first open line, or what
/// there is to do once all is done.
const GOES_ON: &str = ".practice .entry:not([hidden]) input, .practice .over:not([hidden]) .key";

/// The page of questions.
#[component]
pub(super) fn Questions() -> impl IntoView {
    let store = Store::get();
    if store.peek(|s| s.desk.practice.task.is_none()) {
        let seed = page::seed();
        store.work(DeskAction::Practised(PracticeAction::Began { seed }));
    }
    let heading = store.state_text(|s| parts::heading(&s.desk.practice));
    let question = store.state_text(|s| parts::question(&s.desk.practice, s.writer()));
    let status = store.state_text(|s| parts::status(&s.desk.practice));
    let solution = store.state_text(|s| parts::solution(&s.desk.practice, s.writer()));
    let summary = store.state_text(|s| summary::heading(&s.desk.practice));
    let finished = store.state_text(|s| summary::questions(&s.desk.practice, s.writer()));
    let over = store.flag(|s| s.desk.practice.set_is_over());
    // A lesson that sets its questions leaves nothing to choose, and one that tells at the end
    // gives no help on the way.
    let is_set = store.flag(|s| s.desk.practice.set.is_set());
    let at_end = store.flag(|s| s.desk.practice.manner.feedback == Feedback::AtTheEnd);
    let check = store.state_text(|s| words::check(s.desk.practice.manner.feedback).to_owned());
    let untold = move || solution.with(String::is_empty);
    // The lines are made anew for each question; typing in them does not.
    let series = store.number(|s| s.desk.practice.number);
    let lines = move || {
        series.get();
        let count = store.peek(|s| s.desk.practice.task.as_ref().map_or(0, |t| t.lines.len()));
        (0..count)
            .map(|place| view! { <Line place/> }.into_any())
            .collect_view()
    };
    let not_at = move |stage: Stage| {
        store.flag(move |s| s.desk.practice.task.as_ref().map(|t| t.stage()) != Some(stage))
    };
    let kinds = move || {
        series.get();
        let choices = store.peek(|s| parts::choices(&s.desk.practice));
        let choices = choices.into_iter().map(|(kind, name)| {
            let name = store.put(name);
            let chosen = store.truth(move |s| parts::is_choice(&s.desk.practice, kind));
            let sort = move |_| {
                store.work(DeskAction::Practised(PracticeAction::Sorted(kind)));
                // To the first line; what was said of the choice stands where the choices were.
                request_animation_frame(|| page::refocus(GOES_ON));
            };
            view! { <button type="button" class="key" aria-pressed=chosen on:click=sort inner_html=name></button> }
                .into_any()
        });
        choices.collect_view()
    };
    let first = store.state_text(|s| parts::first_question(&s.desk.practice).to_owned());
    let next = move |_| {
        do_it(store, PracticeAction::NextAsked);
        request_animation_frame(|| page::go_to("question", "question"));
    };
    // By the click that Enter in a line makes as well: a frame that may not send forms off never
    // hears of a form being handed in.
    let hand_in = move |e: MouseEvent| {
        e.prevent_default();
        do_it(store, PracticeAction::Checked);
    };
    view! {
        <details class="choices" hidden=is_set>
            <summary>{words::CHOICES}</summary>
            <Choose name=words::FORM first=words::AUTO options=FORMS.map(words::form).to_vec() chosen=|s| {
                let form = s.desk.practice.form;
                FORMS.iter().position(|f| Some(*f) == form).map_or(0, |n| n + 1)
            } choose=|n| PracticeAction::FormChosen(n.checked_sub(1).map(|n| FORMS[n]))/>
            <Choose name=words::LEVEL first=words::AUTO options=LEVELS.map(words::level).to_vec() chosen=|s| {
                let level = s.desk.practice.level;
                LEVELS.iter().position(|l| Some(*l) == level).map_or(0, |n| n + 1)
            } choose=|n| PracticeAction::LevelChosen(n.checked_sub(1).map(|n| LEVELS[n]))/>
        </details>
        <h3 id="question" tabindex="-1">{heading}</h3>
        <div class="question" inner_html=question></div>
        <div hidden=not_at(Stage::Sorting)>
            <h3 id="sorting">{first}</h3>
            <div class="kinds" role="group" aria-labelledby="sorting">{kinds}</div>
        </div>
        <form class="lines">
            {lines}
            <div class="back" hidden=not_at(Stage::Lines)>
                <button class="key main" on:click=hand_in>{check}</button>
                <span class="back" hidden=at_end>
                    <Do name=words::SHOW_STEP action=PracticeAction::StepAsked/>
                    <Do name=words::SHOW_LAYOUT action=PracticeAction::LayoutAsked/>
                </span>
            </div>
        </form>
        // One region: the last answer and how all went are one message.
        <div class="over" role="status">
            <p class="stands" inner_html=status></p>
            <p class="whole">{summary}</p>
        </div>
        <div class="working" inner_html=finished></div>
        <div class="over" hidden=not_at(Stage::Over)>
            <div class="back">
                <button type="button" class="key main" hidden=over on:click=next>{words::NEXT}</button>
                <OnTheBench/>
            </div>
            <h3 hidden=untold>{words::LAYOUT}</h3>
            <div class="working" inner_html=solution></div>
        </div>
    }
}

/// Does something in practice; if that took the button away, the focus goes on.
fn do_it(store: Store, action: PracticeAction) {
    store.work(DeskAction::Practised(action));
    request_animation_frame(|| {
        page::refocus(GOES_ON);
        page::show_end(".practice .stands");
    });
}

/// A button that does one thing in practice.
#[component]
fn Do(
    /// What it says.
    name: &'static str,
    /// What it does.
    action: PracticeAction,
) -> impl IntoView {
    let store = Store::get();
    let act = move |_| do_it(store, action.clone());
    view! { <button type="button" class="key plain" on:click=act>{name}</button> }
}

/// Puts the mixture of the question on the bench, where that can be done.
#[component]
fn OnTheBench() -> impl IntoView {
    let store = Store::get();
    let cannot = store.flag(|s| !s.takes_question());
    let put = move |_| {
        store.work(DeskAction::QuestionPutOnBench);
        page::to_top();
    };
    view! {
        <button type="button" class="key plain" hidden=cannot on:click=put>{words::ON_THE_BENCH}</button>
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
            store.work(DeskAction::Practised(choose(usize::from(place))));
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
    let name = store.state_text(move |s| parts::line_name(&s.desk.practice, place));
    let shown = store.state_text(move |s| parts::line_shown(&s.desk.practice, place, s.writer()));
    let formula =
        store.state_text(move |s| parts::line_formula(&s.desk.practice, place, s.writer()));
    let closed = store.flag(move |s| !parts::is_open(&s.desk.practice, place));
    let waiting = store.flag(|s| parts::is_sorting(&s.desk.practice));
    let text = store.typed(move |s| parts::line_text(&s.desk.practice, place));
    let says = store.state_text(move |s| parts::line_says(&s.desk.practice, place, s.writer()));
    let wrong = store.truth(move |s| parts::is_wrong(&s.desk.practice, place));
    let earned = store.flag(move |s| parts::is_earned(&s.desk.practice, place));
    // A number pad may lack the letters of a unit.
    let with_unit = store.peek(|s| parts::has_unit(&s.desk.practice, place));
    let pad = if with_unit { "text" } else { "decimal" };
    let write = move |text: String| {
        store.work(DeskAction::Practised(PracticeAction::Typed { place, text }));
    };
    let own = id.clone();
    let keys = words::KEYS.map(|(types, name)| {
        let id = own.clone();
        let press = move |_| write(page::insert(&id, types));
        view! { <button type="button" class="key" aria-label=name on:click=press>{types}</button> }
            .into_any()
    });
    view! {
        <div class="line" hidden=waiting>
            <label for=id.clone() hidden=closed inner_html=name></label>
            <p class="name" hidden=move || !closed.get() inner_html=name></p>
            <div inner_html=formula></div>
            <div hidden=move || !closed.get() inner_html=shown></div>
            <div class="entry" hidden=closed>
                <input
                    id=id
                    type="text"
                    inputmode=pad
                    autocomplete="off"
                    prop:value=text
                    aria-invalid=wrong
                    aria-describedby=hint.clone()
                    on:input=move |e| write(event_target_value(&e))
                />
                <div class="keys" role="group" aria-label=words::KEYS_NAME>{keys.collect_view()}</div>
            </div>
            <p class="says" class:warning=move || !earned.get() id=hint inner_html=says></p>
        </div>
    }
}
