//! Adding acid and alkali, and taking it back.

use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

use leptos::ev::MouseEvent;
use leptos::leptos_dom::helpers::{
    IntervalHandle, TimeoutHandle, set_interval_with_handle, set_timeout_with_handle,
};
use leptos::prelude::*;

use super::glyph::{Body, Glyph};
use crate::app::action::Action;
use crate::app::bench::SIZES;
use crate::app::state::BenchEvent;
use crate::app::words;
use crate::chem::titration::Reagent;
use crate::lesson::markup::html;
use crate::web::store::Store;

/// How long a button is held before it pours.
const BEFORE_POURING: Duration = Duration::from_millis(450);

/// Time between two portions of a pour.
const BETWEEN_PORTIONS: Duration = Duration::from_millis(160);

/// The two rows of buttons, and the way back.
#[component]
pub(super) fn Additions() -> impl IntoView {
    let store = Store::get();
    let past = store.select(|s| s.past.is_empty());
    let future = store.select(|s| s.future.is_empty());
    let fresh = store.select(|s| s.bench.acid + s.bench.alkali == 0);
    let full = store.select(|s| s.event == BenchEvent::Full);
    view! {
        <section class="card additions" aria-label="Additions">
            <Reagents reagent=Reagent::Acid title="Add acid · H⁺" body=Body::Hydrogen/>
            <Reagents reagent=Reagent::Alkali title="Add alkali · OH⁻" body=Body::Hydroxide/>
            <div class="back">
                <button class="key plain" disabled=past on:click=move |_| store.dispatch(Action::Undone)>
                    "Undo"
                </button>
                <button class="key plain" disabled=future on:click=move |_| store.dispatch(Action::Redone)>
                    "Redo"
                </button>
                <button class="key plain" disabled=fresh on:click=move |_| store.dispatch(Action::StartedAgain)>
                    "Start again"
                </button>
            </div>
            <p class="warning full" role="alert">{move || full.get().then_some(words::label::FLASK_FULL)}</p>
        </section>
    }
}

#[component]
fn Reagents(
    /// Which reagent.
    reagent: Reagent,
    /// Heading.
    title: &'static str,
    /// Its glyph.
    body: Body,
) -> impl IntoView {
    view! {
        <div>
            <h3><Glyph body/><span inner_html=html(title)></span></h3>
            <div class="sizes">
                {SIZES.map(|steps| view! { <Dose reagent steps/> })}
                <Unit/>
            </div>
        </div>
    }
}

#[component]
fn Unit() -> impl IntoView {
    let store = Store::get();
    view! { <span class="quiet" aria-hidden="true">{move || store.reading.with(|r| r.scale.symbol())}</span> }
}

/// One button. A tap or a key adds once; holding it down pours.
#[component]
fn Dose(
    /// Which reagent.
    reagent: Reagent,
    /// How many steps of the smallest addition.
    steps: u32,
) -> impl IntoView {
    let store = Store::get();
    let amount = move || {
        store.reading.with(|r| {
            store
                .writer()
                .amount_number(r.scale.step.times(steps), r.scale)
        })
    };
    let name = move || {
        let symbol = store.reading.with(|r| r.scale.symbol());
        format!(
            "Add {} {symbol} of {}",
            amount(),
            words::addition::reagent(reagent)
        )
    };
    let pour = Pour::new(move |held| {
        store.dispatch(Action::Added {
            reagent,
            steps,
            held,
        })
    });
    let (press, release, click) = (pour.clone(), pour.clone(), pour);
    let let_go = move || {
        if release.stop() {
            store.dispatch(Action::PourEnded);
        }
    };
    let (up, leave, cancel) = (let_go.clone(), let_go.clone(), let_go);
    view! {
        <button
            class="key digits"
            aria-label=name
            on:pointerdown=move |e| if e.button() == 0 { press.start() }
            on:pointerup=move |_| up()
            on:pointerleave=move |_| leave()
            on:pointercancel=move |_| cancel()
            on:contextmenu=move |e: MouseEvent| e.prevent_default()
            on:click=move |_| click.click()
        >
            {amount}
        </button>
    }
}

/// A press that becomes a pour when it lasts.
#[derive(Clone)]
struct Pour {
    /// Adds one portion; the argument says whether it goes with the portion before.
    portion: Rc<dyn Fn(bool)>,
    waiting: Rc<Cell<Option<TimeoutHandle>>>,
    pouring: Rc<Cell<Option<IntervalHandle>>>,
    /// A pour ends with a click event of its own, which must not add once more.
    poured: Rc<Cell<bool>>,
}

impl Pour {
    fn new(portion: impl Fn(bool) + 'static) -> Self {
        let pour = Self {
            portion: Rc::new(portion),
            waiting: Rc::default(),
            pouring: Rc::default(),
            poured: Rc::default(),
        };
        let own = StoredValue::new_local(pour.clone());
        on_cleanup(move || {
            own.with_value(Self::stop);
        });
        pour
    }

    fn start(&self) {
        self.stop();
        self.poured.set(false);
        let pour = self.clone();
        let begin = move || {
            pour.poured.set(true);
            (pour.portion)(false);
            let portion = Rc::clone(&pour.portion);
            let handle = set_interval_with_handle(move || portion(true), BETWEEN_PORTIONS);
            pour.pouring.set(handle.ok());
        };
        self.waiting
            .set(set_timeout_with_handle(begin, BEFORE_POURING).ok());
    }

    /// Stops waiting and pouring; whether anything was poured.
    fn stop(&self) -> bool {
        if let Some(handle) = self.waiting.take() {
            handle.clear();
        }
        self.pouring.take().map(|handle| handle.clear()).is_some()
    }

    fn click(&self) {
        if !self.poured.replace(false) {
            (self.portion)(false);
        }
    }
}
