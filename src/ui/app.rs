//! The whole page.

use leptos::prelude::*;

use super::additions::Additions;
use super::later::{Later, Part, fetch_ahead};
use super::panels::Panels;
use super::readout::{Readout, SlimReadout};
use super::reservoirs::Reservoirs;
use super::status::Status;
use crate::app::action::Action;
use crate::app::picture::Detail;
use crate::app::state::Panel;
use crate::app::words::{label, recipe};
use crate::lesson::markup::html;
use crate::web::page;
use crate::web::store::Store;
use crate::web::watch::{media, on_resize};

/// The page: masthead, bench, panels.
#[component]
pub fn App() -> impl IntoView {
    let store = Store::provide();
    let wide = media("(min-width: 700px)");
    Effect::new(move |_| {
        let detail = if wide.get() {
            Detail::Wide
        } else {
            Detail::Phone
        };
        store.dispatch(Action::ScreenMeasured(detail));
    });
    // Beside the bench where there is room, else between the particles and the buttons.
    let guided = store.flag(|s| s.desk.guide.step.is_some());
    let guide = move |beside: bool| {
        move || {
            let here = guided.get() && wide.get() == beside;
            here.then(|| view! { <Later part=Part::Guide/> }.into_any())
        }
    };
    let begun = store.flag(|s| s.serial > 0);
    Effect::new(move |_| {
        if begun.get() {
            fetch_ahead();
        }
    });
    let content = NodeRef::new();
    let report = |_, _| {
        if let Some(place) = page::place() {
            page::report_height(&place);
        }
    };
    on_resize(content, Box::new(report));
    let readout = NodeRef::new();
    view! {
        <div class="page" node_ref=content>
            <header class="masthead">
                <h1>"Evenkeel"</h1>
                <GuideButton/>
                <SetUpButton/>
            </header>
            <SlimReadout readout/>
            <main class="bench" aria-label="Bench">
                <Readout node_ref=readout/>
                <Reservoirs/>
                {guide(false)}
                <Additions/>
            </main>
            <aside class="panels" aria-label="Panels">
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
    let start = Store::get().doing(Action::GuideStarted);
    view! {
        <button class="key plain" id="guide-start" on:click=start>
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
        request_animation_frame(|| page::go_to("panel", "pair"));
    };
    view! {
        <button class="key plain" on:click=open>
            <span class="unseen">{label::SET_UP_PREFIX}</span>
            <span inner_html=summary></span>
        </button>
    }
}
