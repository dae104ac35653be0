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
use crate::app::action::{Action, Press};
use crate::app::bench::SIZES;
use crate::app::state::State;
use crate::app::words::{addition, label};
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
    let not_added = store.state_text(|s| label::not_added(s.event).to_owned());
    let stock = store.text(|r, w| {
        html(&label::stock(
            &w.concentration(r.setup.stock.concentration()),
        ))
    });
    view! {
        <section class="card additions" aria-label="Additions">
            <Reagents reagent=Reagent::Acid body=Body::Hydrogen/>
            <Reagents reagent=Reagent::Alkali body=Body::Hydroxide/>
            <p class="quiet stock digits" inner_html=stock></p>
            <div class="back">
                <Back name=label::UNDO action=Action::Undone nothing=|s| s.past.is_empty()/>
                <Back name=label::REDO action=Action::Redone nothing=|s| s.future.is_empty()/>
                <Back
                    name=label::START_AGAIN
                    action=Action::StartedAgain
                    nothing=|s| !s.bench.has_additions()
                />
            </div>
            <p class="warning full">{not_added}</p>
        </section>
    }
}

/// A way back (or forward again), dead while there is none. It keeps the focus that used it
/// up: it is only said to be disabled, and does nothing.
#[component]
fn Back(
    /// What it says.
    name: &'static str,
    /// What it does.
    action: Action,
    /// Whether there is nothing to do.
    nothing: fn(&State) -> bool,
) -> impl IntoView {
    let store = Store::get();
    view! {
        <button class="key plain" aria-disabled=store.truth(nothing) on:click=store.doing(action)>
            {name}
        </button>
    }
}

#[component]
fn Reagents(
    /// Which reagent.
    reagent: Reagent,
    /// Its glyph.
    body: Body,
) -> impl IntoView {
    let store = Store::get();
    let title = store.text(move |r, _| html(&label::add_heading(reagent, r.scale.symbol())));
    view! {
        <div>
            <h3><Glyph body/><span inner_html=title></span></h3>
            <div class="sizes">
                {SIZES.map(|steps| view! { <Dose reagent steps/> }.into_any()).collect_view()}
            </div>
        </div>
    }
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
    let number = store.text(move |r, w| w.amount_number(r.scale.step.times(steps), r.scale));
    let name = store.text(move |r, w| {
        let amount = w.amount(r.scale.step.times(steps), r.scale);
        label::add(&amount, addition::reagent(reagent))
    });
    let pour = Pour::new(move |press| {
        store.dispatch(Action::Added {
            reagent,
            steps,
            press,
        });
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
            on:pointerdown=move |e| if e.button() == 0 { press.start(); }
            on:pointerup=move |_| up()
            on:pointerleave=move |_| leave()
            on:pointercancel=move |_| cancel()
            on:contextmenu=move |e: MouseEvent| e.prevent_default()
            on:click=move |e: MouseEvent| click.click(e.detail() == 0)
        >
            {number}
        </button>
    }
}

/// A press that becomes a pour when it lasts.
#[derive(Clone)]
struct Pour {
    /// Adds one portion.
    portion: Rc<dyn Fn(Press)>,
    waiting: Rc<Cell<Option<TimeoutHandle>>>,
    pouring: Rc<Cell<Option<IntervalHandle>>>,
    /// A pour ends with a click event of its own, which must not add once more.
    poured: Rc<Cell<bool>>,
}

impl Pour {
    fn new(portion: impl Fn(Press) + 'static) -> Self {
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
            (pour.portion)(Press::PourBegun);
            let portion = Rc::clone(&pour.portion);
            let handle =
                set_interval_with_handle(move || portion(Press::PourWentOn), BETWEEN_PORTIONS);
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

    /// `no_pointer`: a key or a screen reader clicked, so it is no pour's own click.
    fn click(&self, no_pointer: bool) {
        if !self.poured.replace(false) || no_pointer {
            (self.portion)(Press::Tap);
        }
    }
}
