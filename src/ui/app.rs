//! The whole page.

use leptos::prelude::*;
use leptos_use::{use_media_query, use_resize_observer};

use super::additions::Additions;
use super::panels::Panels;
use super::readout::{Readout, SlimReadout};
use super::reservoirs::Reservoirs;
use super::status::Status;
use crate::app::action::Action;
use crate::app::picture::Detail;
use crate::app::state::Panel;
use crate::app::words::label;
use crate::lesson::markup::html;
use crate::web::page;
use crate::web::store::Store;

/// The page: masthead, bench, panels.
#[component]
pub fn App() -> impl IntoView {
    let store = Store::provide();
    let wide = use_media_query("(min-width: 700px)");
    Effect::new(move |_| {
        let detail = if wide.get() {
            Detail::Wide
        } else {
            Detail::Phone
        };
        store.dispatch(Action::ScreenMeasured(detail));
    });
    let content = NodeRef::new();
    use_resize_observer(content, |_, _| {
        if let Some(place) = page::place() {
            page::report_height(&place);
        }
    });
    let readout = NodeRef::new();
    view! {
        <div class="page" node_ref=content>
            <header class="masthead">
                <h1>"Evenkeel"</h1>
                <SetUpButton/>
            </header>
            <SlimReadout readout/>
            <main class="bench" aria-label="Bench">
                <Readout node_ref=readout/>
                <Reservoirs/>
                <Additions/>
            </main>
            <Panels/>
            <Status/>
        </div>
    }
}

/// Says what is on the bench, and opens the panel that changes it.
#[component]
fn SetUpButton() -> impl IntoView {
    let store = Store::get();
    let summary = store.text(|r, w| {
        let names = &r.setup.names;
        let volume = w.volume(r.setup.mixture.volume());
        html(&label::on_the_bench(
            &names.acid_source,
            &names.base_source,
            &volume,
        ))
    });
    view! {
        <button class="key plain" on:click=store.doing(Action::PanelOpened(Panel::SetUp))>
            <span class="unseen">{label::SET_UP_PREFIX}</span>
            <span inner_html=summary></span>
        </button>
    }
}
