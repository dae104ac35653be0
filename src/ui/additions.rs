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

/// How far a finger may slip in a tap, in CSS pixels; what slips further the browser judges.
const STAYED: i32 = 10;

/// Within what time a click belongs to the tap before it, in ms.
const OWN_CLICK: f64 = 1000.0;

/// When a tap was over that added, in the time of events. Its click comes after it, on a phone some
/// frames later, when another button may lie there.
type Tapped = StoredValue<f64>;

/// Whether a click is that of the last tap.
fn is_own_click(tapped: Tapped, event: &MouseEvent) -> bool {
    let then = tapped.get_value();
    tapped.set_value(f64::NEG_INFINITY);
    event.time_stamp() - then < OWN_CLICK
}

/// The two rows of buttons, and the way back.
#[component]
pub(super) fn Additions() -> impl IntoView {
    let store = Store::get();
    let tapped = StoredValue::new(f64::NEG_INFINITY);
    let not_added = store.state_text(|s| label::not_added(s.event).to_owned());
    let stock = store.text(|r, w| {
        html(&label::stock(
            &w.concentration(r.setup.stock.concentration()),
        ))
    });
    view! {
        <section class="card additions" aria-label="Additions">
            <Reagents reagent=Reagent::Acid body=Body::Hydrogen tapped/>
            <Reagents reagent=Reagent::Alkali body=Body::Hydroxide tapped/>
            <p class="quiet stock digits" inner_html=stock></p>
            <div class="back">
                <Back name=label::UNDO action=Action::Undone nothing=|s| s.past.is_empty() tapped/>
                <Back name=label::REDO action=Action::Redone nothing=|s| s.future.is_empty() tapped/>
                <Back
                    tapped
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
    /// The last tap.
    tapped: Tapped,
) -> impl IntoView {
    let store = Store::get();
    let back = move |event: MouseEvent| {
        if !is_own_click(tapped, &event) {
            store.dispatch(action.clone());
        }
    };
    view! {
        <button class="key plain" aria-disabled=store.truth(nothing) on:click=back>
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
    /// The last tap.
    tapped: Tapped,
) -> impl IntoView {
    let store = Store::get();
    let title = store.text(move |r, _| html(&label::add_heading(reagent, r.scale.symbol())));
    view! {
        <div>
            <h3><Glyph body/><span inner_html=title></span></h3>
            <div class="sizes">
                {SIZES.map(|steps| view! { <Dose reagent steps tapped/> }.into_any()).collect_view()}
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
    /// The last tap.
    tapped: Tapped,
) -> impl IntoView {
    let store = Store::get();
    let number = store.text(move |r, w| w.amount_number(r.scale.step.times(steps), r.scale));
    let name = store.text(move |r, w| {
        let amount = w.amount(r.scale.step.times(steps), r.scale);
        label::add(&amount, addition::reagent(reagent))
    });
    let pour = Pour::new(tapped, move |press| {
        store.dispatch(Action::Added {
            reagent,
            steps,
            press,
        });
    });
    let (press, release, own, click) = (pour.clone(), pour.clone(), pour.clone(), pour);
    let let_go = move || {
        if own.stop() {
            store.dispatch(Action::PourEnded);
        }
    };
    let (up, leave, cancel) = (let_go.clone(), let_go.clone(), let_go);
    view! {
        <button
            class="key digits"
            aria-label=name
            on:pointerdown=move |e| if e.button() == 0 { press.start(&e); }
            on:pointerup=move |e| {
                if e.button() == 0 { release.tap(&e); }
                up();
            }
            on:pointerleave=move |_| leave()
            on:pointercancel=move |_| cancel()
            on:contextmenu=move |e: MouseEvent| e.prevent_default()
            on:click=move |e: MouseEvent| click.click(&e)
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
    /// Where the press began.
    place: Rc<Cell<(i32, i32)>>,
    tapped: Tapped,
}

impl Pour {
    fn new(tapped: Tapped, portion: impl Fn(Press) + 'static) -> Self {
        let pour = Self {
            portion: Rc::new(portion),
            waiting: Rc::default(),
            pouring: Rc::default(),
            poured: Rc::default(),
            place: Rc::default(),
            tapped,
        };
        let own = StoredValue::new_local(pour.clone());
        on_cleanup(move || {
            own.with_value(Self::stop);
        });
        pour
    }

    fn start(&self, event: &MouseEvent) {
        self.stop();
        self.poured.set(false);
        self.tapped.set_value(f64::NEG_INFINITY);
        self.place.set((event.client_x(), event.client_y()));
        let pour = self.clone();
        let begin = move || {
            pour.poured.set(true);
            pour.waiting.take();
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

    /// The press is over: a tap, if it began here, did not pour and stayed where it was.
    fn tap(&self, event: &MouseEvent) {
        let (x, y) = self.place.get();
        let stayed = (event.client_x() - x)
            .abs()
            .max((event.client_y() - y).abs())
            <= STAYED;
        if let Some(waiting) = self.waiting.take() {
            waiting.clear();
            if stayed {
                self.tapped.set_value(event.time_stamp());
                (self.portion)(Press::Tap);
            }
        }
    }

    /// A click that neither a tap nor a pour has brought about. That of a key has no number; a screen
    /// reader's may, and may come with a tap of its own.
    fn click(&self, event: &MouseEvent) {
        let poured = self.poured.replace(false);
        if !is_own_click(self.tapped, event) && (event.detail() == 0 || !poured) {
            // The press is used up: no release after it, of another button say, is a tap.
            if let Some(waiting) = self.waiting.take() {
                waiting.clear();
            }
            (self.portion)(Press::Tap);
        }
    }
}
