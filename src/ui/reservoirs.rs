//! The particle view with its counts, its equation and its controls.

use leptos::prelude::*;

use super::glyph::{Body, Glyph};
use super::why::latest_equation;
use super::world_view::{Controls, Request, WorldView};
use crate::app::action::Action;
use crate::app::words::{label, reservoir};
use crate::lesson::markup::{html, mathml};
use crate::lesson::notation::Writing;
use crate::scene::View;
use crate::web::store::Store;

/// The section.
#[component]
pub(super) fn Reservoirs() -> impl IntoView {
    let store = Store::get();
    let controls = Controls::new();
    let equation = store.text(|r, _| mathml(&latest_equation(r, Writing::Symbols), false));
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
            <p class="quiet legend digits" id="legend" inner_html=legend></p>
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
                aria-pressed=store.truth(value, |s, value| s.view == value)
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
    let passed = Signal::derive(move || {
        let counters = controls.counters.get();
        store.reading.with(|r| {
            html(&reservoir::give_and_take(
                &r.setup.names,
                counters.given,
                counters.taken,
            ))
        })
    });
    view! {
        <div class="views">
            {choice(View::Sorted, label::SORTED)}
            {choice(View::Mixed, label::MIXED)}
            {last}
            <p class="reactions digits">
                <span>{label::REACTIONS} " " <strong id="reactions">{store.text(|r, w| w.fixed(f64::from(r.reactions), 0))}</strong></span>
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
    // Only the two stills are states; the other two happen and are over.
    let pressed = Memo::new(move |_| match request {
        Request::Replay | Request::Step => None,
        Request::Before => Some(if controls.before.get() {
            "true"
        } else {
            "false"
        }),
        Request::After => Some(if controls.before.get() {
            "false"
        } else {
            "true"
        }),
    });
    view! {
        <button
            class="key plain"
            disabled=store.select(|s| s.bench.last.is_none())
            aria-pressed=pressed
            on:click=move |_| controls.ask(request)
        >
            {name}
        </button>
    }
}
