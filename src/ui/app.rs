//! The whole page.

use leptos::html::Div;
use leptos::prelude::*;

use super::additions::Additions;
use super::later::{Later, Part, fetch_ahead};
use super::linked::meet;
use super::panels::Panels;
use super::readout::{Readout, SlimReadout};
use super::reservoirs::Reservoirs;
use super::status::Status;
use super::told::Told;
use crate::app::action::Action;
use crate::app::link::Opened;
use crate::app::picture::Detail;
use crate::app::plan::{Access, Part as Piece};
use crate::app::state::{Panel, State};
use crate::app::words::{label, recipe};
use crate::lesson::conventions::Exchanges;
use crate::lesson::markup::html;
use crate::web::store::{Store, react};
use crate::web::watch::media;
use crate::web::{host, page};

/// The page: masthead, bench, panels.
#[component]
pub fn App(
    /// The lesson that is opened.
    opened: Opened,
    /// What its conventions put in place of what.
    exchanges: Exchanges,
) -> impl IntoView {
    let store = Store::provide(State::opened(opened), exchanges);
    let wide = media("(min-width: 43.75em)");
    react(Box::new(move || {
        let detail = if wide.get() {
            Detail::Wide
        } else {
            Detail::Phone
        };
        store.dispatch(Action::ScreenMeasured(detail));
    }));
    // Beside the bench where there is room, else between the particles and the buttons.
    let guided = store.flag(|s| s.desk.guide.step.is_some());
    let guide = move |beside: bool| {
        move || {
            let here = guided.get() && wide.get() == beside;
            here.then(|| view! { <Later part=Part::Guide/> }.into_any())
        }
    };
    let begun = store.flag(|s| s.serial > 0);
    fetch_ahead(false);
    react(Box::new(move || {
        if begun.get() {
            fetch_ahead(true);
        }
    }));
    let content = NodeRef::<Div>::new();
    if page::is_framed() {
        // The page around the frame is told whether or not this one is painted.
        meet(store.at_once(), content);
    }
    let readout = NodeRef::new();
    // A teacher's own words: first of all on a phone, where they open on a tap; else by the panels.
    let told = move |beside: bool| {
        move || (wide.get() == beside).then(|| view! { <Told open=beside/> }.into_any())
    };
    view! {
        <div class="page" node_ref=content>
            <header class="masthead">
                <h1>"Evenkeel"</h1>
                <GuideButton/>
                <SetUpButton/>
                {host::is_there().then(|| view! { <FullPage/> }.into_any())}
            </header>
            <SlimReadout readout/>
            {told(false)}
            <main class="bench" aria-label="Bench">
                <Readout node_ref=readout/>
                <Reservoirs/>
                {guide(false)}
                <Additions/>
            </main>
            <aside class="panels" aria-label="Panels">
                {told(true)}
                {guide(true)}
                <Panels/>
            </aside>
            <Status/>
        </div>
    }
}

/// Opens the guided start.
#[component]
fn GuideButton() -> impl IntoView {
    let [short, rest] = label::GUIDE;
    let store = Store::get();
    let start = store.doing(Action::GuideStarted);
    let gone = store.flag(|s| s.access(Piece::Guide) != Access::Open);
    view! {
        <button class="key plain" id="guide-start" hidden=gone on:click=start>
            {short}<span class="more">{rest}</span>
        </button>
    }
}

/// Says what is on the bench, and opens the panel that changes it.
#[component]
fn SetUpButton() -> impl IntoView {
    let store = Store::get();
    let summary = store.text(|r, w| html(&recipe::on_the_bench(&r.setup, r.now.volume(), w)));
    let open = move |_| {
        store.dispatch(Action::PanelOpened(Panel::SetUp));
        request_animation_frame(|| {
            page::go_to("panel", "pair");
            if !page::has_focus("pair") {
                page::focus("arriving");
            }
        });
    };
    // What is on the bench can always be read; changing it is the lesson's to give.
    let fixed = store.flag(|s| s.access(Piece::SetUp) != Access::Open);
    view! {
        <button class="key plain" disabled=fixed on:click=open>
            <span class="unseen">{label::SET_UP_PREFIX}</span>
            <span inner_html=summary></span>
        </button>
    }
}

/// In a frame: the same lesson in a window of its own.
#[component]
fn FullPage() -> impl IntoView {
    let link = Store::get().typed(|_| label::full_page(&page::full_address()));
    view! { <span inner_html=link></span> }
}
