//! The lists, boxes and lines in which a lesson is set up.

use leptos::ev::Event;
use leptos::prelude::*;

use super::lesson::{act, draft};
use crate::app::link::keys::Coded;
use crate::app::plan::Plan;
use crate::app::planning::PlanAction;
use crate::web::store::Store;

/// What of the draft a list or a box shows, and what choosing does. Boxed, so that there is one
/// compiled list, box and line however many there are.
type Shown<T> = Box<dyn Fn(&Plan) -> T + Send + Sync>;
type Does<T> = Box<dyn Fn(&Plan, T) -> PlanAction>;

/// A list to choose from.
#[inline(never)]
pub(super) fn listed(
    store: Store,
    name: &'static str,
    names: Vec<String>,
    chosen: Shown<usize>,
    does: Does<usize>,
) -> AnyView {
    let place = store.typed(move |s| draft(s, |plan| chosen(plan)).to_string());
    let options = names.into_iter().enumerate().map(|(n, text)| {
        let own = n.to_string();
        let value = own.clone();
        let is = move || place.get() == own;
        view! { <option value=value prop:selected=is>{text}</option> }.into_any()
    });
    let change = move |e: Event| {
        let place = event_target_value(&e).parse::<u8>().map(usize::from);
        let plan = store.peek(|s| s.desk.draft.clone());
        if let (Ok(place), Some(plan)) = (place, plan) {
            act(store, does(&plan, place));
        }
    };
    view! { <label>{name}<select on:change=change>{options.collect_view()}</select></label> }
        .into_any()
}

/// A list of all things of a kind that have codes.
pub(super) fn coded<T: Coded + Copy>(
    store: Store,
    name: &'static str,
    word: fn(T) -> &'static str,
    of: fn(&Plan) -> T,
    does: fn(&Plan, T) -> PlanAction,
) -> AnyView {
    let names = T::CODES.iter().map(|(thing, _)| word(*thing).to_owned());
    let place = |thing: T| T::CODES.iter().position(|(known, _)| *known == thing);
    listed(
        store,
        name,
        names.collect(),
        Box::new(move |plan| place(of(plan)).unwrap_or(0)),
        Box::new(move |plan, n| does(plan, T::CODES[n].0)),
    )
}

/// A box to tick.
#[inline(never)]
pub(super) fn tick(store: Store, name: &'static str, is: Shown<bool>, does: Does<bool>) -> AnyView {
    let checked = store.flag(move |s| draft(s, |plan| is(plan)));
    let change = move |e: Event| {
        let plan = store.peek(|s| s.desk.draft.clone());
        if let Some(plan) = plan {
            act(store, does(&plan, event_target_checked(&e)));
        }
    };
    view! {
        <label class="clause">
            <input type="checkbox" prop:checked=checked on:change=change/>
            <span>{name}</span>
        </label>
    }
    .into_any()
}

/// A line of words, and how long it may be.
#[inline(never)]
pub(super) fn typed(
    store: Store,
    (name, longest): (String, usize),
    text: Shown<String>,
    does: Does<String>,
) -> AnyView {
    let value = store.typed(move |s| draft(s, |plan| text(plan)));
    let write = move |e: Event| {
        let plan = store.peek(|s| s.desk.draft.clone());
        if let Some(plan) = plan {
            act(store, does(&plan, event_target_value(&e)));
        }
    };
    view! {
        <label>
            {name}
            <input type="text" dir="auto" autocomplete="off" maxlength=longest.to_string() prop:value=value on:input=write/>
        </label>
    }
    .into_any()
}
