//! The particle view with its counts, its equation and its controls.

use leptos::prelude::*;

use super::glyph::{Body, Glyph};
use super::why::latest_equation;
use super::world_view::{Controls, WorldView};
use crate::app::action::Action;
use crate::app::picture::Picture;
use crate::app::reading::Reading;
use crate::app::words::label;
use crate::app::words::reservoir;
use crate::lesson::markup::{html, mathml};
use crate::lesson::notation::Writing;
use crate::scene::View;
use crate::web::store::{Store, voice};

/// The section.
#[component]
pub(super) fn Reservoirs() -> impl IntoView {
    let store = Store::get();
    let controls = Controls::new();
    let equation = Memo::new(move |_| {
        store
            .reading
            .with(|r| mathml(&latest_equation(r, Writing::Symbols), false))
    });
    let description = Memo::new(move |_| both(store, reservoir::description));
    let legend = Memo::new(move |_| html(&both(store, reservoir::legend)));
    view! {
        <section class="card reservoirs" aria-label=label::RESERVOIRS>
            <div class="pan-heads digits">
                <Head body=Body::Acid/>
                <Head body=Body::Base/>
            </div>
            <p class="equation" id="equation" inner_html=equation></p>
            <WorldView controls description/>
            <Views controls/>
            <p class="quiet legend digits" id="legend" inner_html=legend></p>
        </section>
    }
}

/// A text written from the reading and the picture together.
fn both(
    store: Store,
    write: fn(&crate::app::words::addition::Voice<'_>, &Reading, &Picture) -> String,
) -> String {
    store.reading.with(|r| {
        store
            .picture
            .with(|p| write(&voice(r, store.writer()), r, p))
    })
}

/// One form: symbol, name, amount and count.
#[component]
fn Head(
    /// `Acid` or `Base`.
    body: Body,
) -> impl IntoView {
    let store = Store::get();
    let acid = body == Body::Acid;
    let title = move || {
        store.reading.with(|r| {
            let names = &r.setup.names;
            html(&if acid {
                reservoir::acid_title(names)
            } else {
                reservoir::base_title(names)
            })
        })
    };
    let name = move || {
        store.reading.with(|r| {
            let names = &r.setup.names;
            if acid {
                names.acid_name.clone()
            } else {
                names.base_name.clone()
            }
        })
    };
    let amount = move || {
        store.reading.with(|r| {
            let amount = if acid {
                r.now.reserves.acid
            } else {
                r.now.reserves.base
            };
            store.writer().amount(amount, r.scale)
        })
    };
    let count = move || {
        store
            .picture
            .with(|p| reservoir::count(p.tally.count(i8::from(acid)), store.writer()))
    };
    view! {
        <div class=if acid { "acid" } else { "base" }>
            <h2><Glyph body/><span inner_html=title></span></h2>
            <span class="amount" id=if acid { "acid-amount" } else { "base-amount" }>{amount}</span>
            <span class="quiet" id=if acid { "acid-count" } else { "base-count" }>{count}</span>
            <span class="quiet name">{name}</span>
        </div>
    }
}

/// Sorted or as mixed, the counters, and the controls of the last addition.
#[component]
fn Views(
    /// What the canvas listens to.
    controls: Controls,
) -> impl IntoView {
    let store = Store::get();
    let view = store.select(|s| s.view);
    let reactions = store.select(|s| s.bench.reactions);
    let nothing = store.select(|s| s.bench.last.is_none());
    let choice = move |value: View, name: &'static str| {
        view! {
            <button
                class="key"
                aria-pressed=move || (view.get() == value).to_string()
                on:click=move |_| store.dispatch(Action::ViewChosen(value))
            >
                {name}
            </button>
        }
    };
    let moving = move || {
        view! {
            <button class="key plain" disabled=nothing on:click=move |_| controls.replay.update(|n| *n += 1)>
                {label::REPLAY}
            </button>
            <button class="key plain" disabled=nothing on:click=move |_| controls.step.update(|n| *n += 1)>
                {label::STEP}
            </button>
        }
    };
    let stills = move || {
        let still = move |before: bool, name: &'static str| {
            view! {
                <button
                    class="key plain"
                    disabled=nothing
                    aria-pressed=move || (controls.before.get() == before).to_string()
                    on:click=move |_| controls.before.set(before)
                >
                    {name}
                </button>
            }
        };
        view! { {still(true, label::BEFORE)} {still(false, label::AFTER)} }
    };
    let passed = move || {
        let counters = controls.counters.get();
        html(
            &store
                .reading
                .with(|r| reservoir::give_and_take(&r.setup.names, counters.given, counters.taken)),
        )
    };
    view! {
        <div class="views">
            {choice(View::Sorted, label::SORTED)}
            {choice(View::Mixed, label::MIXED)}
            {move || if controls.still.get() { stills().into_any() } else { moving().into_any() }}
            <p class="reactions digits">
                {label::REACTIONS} " " <strong id="reactions">{reactions}</strong>
                <br/>
                <span class="quiet" id="give-and-take" inner_html=passed></span>
            </p>
        </div>
    }
}
