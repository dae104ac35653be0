//! The particle view with its counts, its equation and its controls.

use leptos::prelude::*;

use super::glyph::{Body, Glyph};
use super::world_view::{Controls, Request, WorldView};
use crate::app::action::Action;
use crate::app::words::explanation::latest_equation;
use crate::app::words::{label, reservoir};
use crate::lesson::markup::{html, mathml};
use crate::lesson::notation::Writing;
use crate::scene::View;
use crate::web::store::{Store, memo_flag, memo_text};

/// The section.
#[component]
pub(super) fn Reservoirs() -> impl IntoView {
    let store = Store::get();
    let controls = Controls::new();
    let equation =
        store.text(|r, w| mathml(&latest_equation(r, Writing::Symbols).with(w.ion), false));
    let legend = store.picture_text(|v, r, p| html(&reservoir::legend(v, r, p)));
    view! {
        <section class="card reservoirs" aria-label=label::RESERVOIRS>
            <div class="pan-heads digits">
                <div class="acid">
                    <h2>
                        <Glyph body=Body::Acid/>
                        <span inner_html=store.text(|r, _| html(&reservoir::acid_title(&r.setup.names)))></span>
                    </h2>
                    <span class="amount" id="acid-amount">
                        {store.text(|r, w| w.amount(r.now.reserves.acid, r.scale))}
                    </span>
                    <span class="quiet" id="acid-count">
                        {store.picture_text(|v, _, p| reservoir::count(p.tally.count(1), v.writer))}
                    </span>
                    <span class="quiet name">{store.text(|r, _| r.setup.names.acid_name.clone())}</span>
                </div>
                <div class="base">
                    <h2>
                        <Glyph body=Body::Base/>
                        <span inner_html=store.text(|r, _| html(&reservoir::base_title(&r.setup.names)))></span>
                    </h2>
                    <span class="amount" id="base-amount">
                        {store.text(|r, w| w.amount(r.now.reserves.base, r.scale))}
                    </span>
                    <span class="quiet" id="base-count">
                        {store.picture_text(|v, _, p| reservoir::count(p.tally.count(0), v.writer))}
                    </span>
                    <span class="quiet name">{store.text(|r, _| r.setup.names.base_name.clone())}</span>
                </div>
            </div>
            <p class="equation" id="equation" inner_html=equation></p>
            <WorldView controls description=store.picture_text(reservoir::description)/>
            <Views controls/>
            <p class="quiet legend digits">
                <span id="legend" inner_html=legend></span>
                " "
                <span hidden=move || controls.still.get()><Glyph body=Body::Water/>" " {label::NEW_WATER}</span>
                <span hidden=move || !controls.still.get()><i class="ring"></i>" " {label::CHANGED}</span>
            </p>
        </section>
    }
}

/// Sorted or as mixed, the counters, and the controls of the last addition.
#[component]
fn Views(
    /// What the canvas listens to.
    controls: Controls,
) -> impl IntoView {
    let store = Store::get();
    let choice = move |value: View, name: &'static str| {
        view! {
            <button
                class="key"
                aria-pressed=store.truth(move |s| s.view == value)
                on:click=store.doing(Action::ViewChosen(value))
            >
                {name}
            </button>
        }
        .into_any()
    };
    let last = move || {
        if controls.still.get() {
            [
                (label::BEFORE, Request::Before),
                (label::AFTER, Request::After),
            ]
        } else {
            [
                (label::REPLAY, Request::Replay),
                (label::STEP, Request::Step),
            ]
        }
        .map(|(name, request)| view! { <LastAddition controls name request/> }.into_any())
        .collect_view()
    };
    let passed = memo_text(Box::new(move |_| {
        let (given, step) = (controls.given.get(), controls.step.get());
        store.shown(|s| html(&reservoir::going_on(&s.reading, step, given)))
    }));
    let stepping = memo_flag(Box::new(move || controls.step.get() > 0));
    view! {
        <div class="views">
            {choice(View::Sorted, label::SORTED)}
            {choice(View::Mixed, label::MIXED)}
            {last}
            <p class="reactions digits">
                <span hidden=stepping>{label::REACTIONS} " " <strong id="reactions">{store.text(|r, w| w.fixed(f64::from(r.reactions), 0))}</strong></span>
                <span class="quiet" id="give-and-take" inner_html=passed></span>
            </p>
        </div>
    }
}

/// A control of the last addition, dead while there is none.
#[component]
fn LastAddition(
    /// Where its request goes.
    controls: Controls,
    /// What it says.
    name: &'static str,
    /// What it asks for.
    request: Request,
) -> impl IntoView {
    let store = Store::get();
    let nothing = store.flag(|s| s.bench.last.is_none());
    let ask = move |_| controls.ask(request);
    match request {
        // These happen and are over.
        Request::Replay | Request::Step => view! {
            <button class="key plain" disabled=nothing on:click=ask>{name}</button>
        }
        .into_any(),
        // These are the two states of the still picture.
        Request::Before | Request::After => {
            let pressed = memo_text(Box::new(move |_| {
                (controls.before.get() == (request == Request::Before)).to_string()
            }));
            view! {
                <button class="key plain" disabled=nothing aria-pressed=pressed on:click=ask>
                    {name}
                </button>
            }
            .into_any()
        }
    }
}
