//! The teacher's side: what a class opens.

use leptos::ev::Event;
use leptos::prelude::*;

use super::take_away::TakeAway;
use crate::app::desk::DeskAction;
use crate::app::link::keys::{Coded, code, from_code};
use crate::app::plan::{ACCESSES, MOST_PROMPTS, MOST_QUESTIONS, PARTS, Plan, TOLERANCES};
use crate::app::planning::{PlanAction, USUAL_COUNT};
use crate::app::progress::{LEVELS, Level};
use crate::app::state::State;
use crate::app::words::{practice, recipe, teacher as words};
use crate::lesson::conventions::Conventions;
use crate::lesson::markup::html;
use crate::lesson::sums::form::FORMS;
use crate::web::page;
use crate::web::store::Store;

/// What the draft has.
pub(super) fn draft<T: Default>(state: &State, part: impl FnOnce(&Plan) -> T) -> T {
    state.desk.draft.as_ref().map(part).unwrap_or_default()
}

fn act(store: Store, action: PlanAction) {
    store.work(DeskAction::Planned(action));
}

/// The panel.
#[component]
pub(super) fn Lesson() -> impl IntoView {
    let store = Store::get();
    store.work(DeskAction::PlanBegun);
    let take = move |_| {
        store.work(DeskAction::BenchTaken);
    };
    let bench =
        store.state_text(|s| draft(s, |plan| html(&recipe::described(&plan.recipe, s.writer()))));
    let [on_bench, shows, questions, written, own] = words::SECTIONS;
    let parts = PARTS.map(|part| {
        let choice = Choice {
            name: words::part(part),
            options: ACCESSES
                .map(|a| (words::access(a), PlanAction::AccessChosen(part, a)))
                .to_vec(),
            chosen: Box::new(move |plan| ACCESSES.iter().position(|a| *a == plan.access(part))),
        };
        select(store, choice)
    });
    let prompts = (0..MOST_PROMPTS).map(|place| {
        let text = move |plan: &Plan| plan.prompts.get(place).cloned().unwrap_or_default();
        typed(store, words::prompt(place), text, move |text| {
            PlanAction::PromptTyped(place, text)
        })
    });
    view! {
        <div class="panel form lesson">
            <p>{words::INTRODUCTION}</p>
            <details class="choices" open>
                <summary>{on_bench}</summary>
                <p inner_html=bench></p>
                <div><button type="button" class="key" on:click=take>{words::TAKE_BENCH}</button></div>
            </details>
            <details class="choices">
                <summary>{shows}</summary>
                {tick(store, words::GUIDED, |plan| plan.guided, PlanAction::GuidedChosen)}
                <div class="two">{parts.collect_view()}</div>
            </details>
            <details class="choices"><summary>{questions}</summary><Questions/></details>
            <details class="choices"><summary>{written}</summary><Written/></details>
            <details class="choices">
                <summary>{own}</summary>
                {typed(store, words::TITLE.to_owned(), |plan| plan.title.clone(), PlanAction::TitleTyped)}
                {prompts.collect_view()}
            </details>
            <TakeAway/>
        </div>
    }
}

/// The questions.
#[component]
fn Questions() -> impl IntoView {
    let store = Store::get();
    let forms = FORMS.map(|form| {
        let is = move |plan: &Plan| plan.questions.forms.contains(&form);
        tick(store, practice::form(form), is, move |_| {
            PlanAction::FormSwitched(form)
        })
    });
    let count = store.state_text(|s| draft(s, |plan| plan.questions.count.to_string()));
    let counted = move |e: Event| {
        if let Ok(count) = event_target_value(&e).parse::<u8>() {
            act(store, PlanAction::CountChosen(count));
        }
    };
    let levels = std::iter::once(None)
        .chain(LEVELS.map(Some))
        .collect::<Vec<Option<Level>>>();
    let level = Choice {
        name: words::LEVEL,
        options: levels
            .iter()
            .map(|level| {
                let name = level.map_or(practice::AUTO, practice::level);
                (name, PlanAction::LevelChosen(*level))
            })
            .collect(),
        chosen: Box::new(move |plan| levels.iter().position(|l| *l == plan.questions.level)),
    };
    let same = move |yes: bool| {
        let seed = u32::try_from(page::seed() % 1_000_000).unwrap_or(0);
        PlanAction::SeedChosen(yes.then_some(seed))
    };
    view! {
        <fieldset>
            <legend>{words::FORMS}</legend>
            {forms.collect_view()}
        </fieldset>
        <label>
            {words::COUNT}
            <input type="number" min="0" max=MOST_QUESTIONS.to_string() step="1" value=USUAL_COUNT.to_string() prop:value=count on:change=counted/>
        </label>
        {select(store, level)}
        {coded(store, words::FEEDBACK, words::feedback, |plan| plan.questions.feedback, |_, f| PlanAction::FeedbackChosen(f))}
        {tick(store, words::SAME, |plan| plan.questions.seed.is_some(), same)}
    }
}

/// Notation, marking, light.
#[component]
fn Written() -> impl IntoView {
    let store = Store::get();
    let set = |plan: &Plan, change: &dyn Fn(&mut Conventions)| {
        let mut conventions = plan.conventions;
        change(&mut conventions);
        PlanAction::ConventionsChosen(conventions)
    };
    let tolerance = Choice {
        name: words::TOLERANCE,
        options: Vec::new(),
        chosen: Box::new(|plan| Some(usize::from(plan.tolerance.0 - TOLERANCES.start()))),
    };
    let options = TOLERANCES.map(|n| (words::tolerance(n, '.'), PlanAction::ToleranceChosen(n)));
    view! {
        <div class="two">
            {coded(store, words::CONCENTRATION, words::concentration, |p| p.conventions.concentration, move |p, unit| set(p, &|c| c.concentration = unit))}
            {coded(store, words::VOLUME, words::volume, |p| p.conventions.volume, move |p, unit| set(p, &|c| c.volume = unit))}
            {coded(store, words::NAMES, words::names, |p| p.conventions.names, move |p, names| set(p, &|c| c.names = names))}
            {coded(store, words::MARK, words::mark, |p| p.conventions.mark, move |p, mark| set(p, &|c| c.mark = mark))}
            {listed(store, tolerance.name, options.collect(), tolerance.chosen)}
            {coded(store, words::LOOK, words::look, |p| p.look, |_, look| PlanAction::LookChosen(look))}
        </div>
    }
}

/// A list to choose from.
struct Choice {
    name: &'static str,
    options: Vec<(&'static str, PlanAction)>,
    chosen: Box<dyn Fn(&Plan) -> Option<usize> + Send + Sync>,
}

fn select(store: Store, choice: Choice) -> AnyView {
    let options = choice
        .options
        .into_iter()
        .map(|(name, action)| (name.to_owned(), action));
    listed(store, choice.name, options.collect(), choice.chosen)
}

fn listed(
    store: Store,
    name: &'static str,
    options: Vec<(String, PlanAction)>,
    chosen: Box<dyn Fn(&Plan) -> Option<usize> + Send + Sync>,
) -> AnyView {
    let place = store.typed(move |s| draft(s, |plan| chosen(plan)).unwrap_or(0).to_string());
    let (names, actions): (Vec<_>, Vec<_>) = options.into_iter().unzip();
    let options = names.into_iter().enumerate().map(|(n, text)| {
        let own = n.to_string();
        let is = move || place.get() == own;
        view! { <option value=n.to_string() prop:selected=is>{text}</option> }.into_any()
    });
    let change = move |e: Event| {
        let place = event_target_value(&e).parse::<u8>().map(usize::from);
        if let Some(action) = place.ok().and_then(|n| actions.get(n)) {
            act(store, action.clone());
        }
    };
    view! { <label>{name}<select on:change=change>{options.collect_view()}</select></label> }
        .into_any()
}

/// A list of all things of a kind that have codes.
fn coded<T: Coded + Copy + Default + Send + Sync>(
    store: Store,
    name: &'static str,
    word: fn(T) -> &'static str,
    of: fn(&Plan) -> T,
    action: impl Fn(&Plan, T) -> PlanAction + 'static,
) -> AnyView {
    let options = T::CODES.iter().map(|(thing, code)| {
        let is = store.flag(move |s| code_of(s, of) == *code);
        view! { <option value=*code prop:selected=is>{word(*thing)}</option> }.into_any()
    });
    let change = move |e: Event| {
        let chosen = from_code::<T>(&event_target_value(&e));
        let plan = store.peek(|s| s.desk.draft.clone());
        if let (Some(chosen), Some(plan)) = (chosen, plan) {
            act(store, action(&plan, chosen));
        }
    };
    view! { <label>{name}<select on:change=change>{options.collect_view()}</select></label> }
        .into_any()
}

fn code_of<T: Coded + Default>(state: &State, of: fn(&Plan) -> T) -> &'static str {
    code(draft(state, of))
}

/// A box to tick.
fn tick(
    store: Store,
    name: &'static str,
    is: impl Fn(&Plan) -> bool + Send + Sync + 'static,
    action: impl Fn(bool) -> PlanAction + 'static,
) -> AnyView {
    let checked = store.flag(move |s| draft(s, |plan| is(plan)));
    let change = move |e: Event| act(store, action(event_target_checked(&e)));
    view! {
        <label class="clause">
            <input type="checkbox" prop:checked=checked on:change=change/>
            <span>{name}</span>
        </label>
    }
    .into_any()
}

/// A line of words.
fn typed(
    store: Store,
    name: String,
    text: impl Fn(&Plan) -> String + Send + Sync + 'static,
    action: impl Fn(String) -> PlanAction + 'static,
) -> AnyView {
    let value = store.typed(move |s| draft(s, |plan| text(plan)));
    let write = move |e: Event| act(store, action(event_target_value(&e)));
    view! {
        <label>
            {name}
            <input type="text" autocomplete="off" maxlength="200" prop:value=value on:input=write/>
        </label>
    }
    .into_any()
}
