//! The panels beside (or below) the bench, one open at a time; the curve stays open where
//! there is room.

use leptos::prelude::*;
use leptos_use::use_media_query;

use super::curve::CurvePanel;
use super::limits::Limits;
use super::set_up::SetUp;
use super::why::Why;
use crate::app::action::Action;
use crate::app::state::Panel;
use crate::web::store::Store;

const TABS: [(Panel, &str); 4] = [
    (Panel::Why, "Why"),
    (Panel::Curve, "Curve"),
    (Panel::SetUp, "Set up"),
    (Panel::Limits, "Limits"),
];

/// Tabs, the open panel, and the curve.
#[component]
pub(super) fn Panels() -> impl IntoView {
    let store = Store::get();
    let room = use_media_query("(min-width: 960px) and (min-height: 640px)");
    let chosen = store.select(|s| s.panel);
    // With the curve always there, its tab has nothing to open.
    let open = Memo::new(move |_| match chosen.get() {
        Panel::Curve if room.get() => Panel::Why,
        panel => panel,
    });
    let tab = move |(panel, name): (Panel, &'static str)| {
        view! {
            <button
                aria-controls="panel"
                aria-current=move || (open.get() == panel).then_some("true")
                hidden=move || panel == Panel::Curve && room.get()
                on:click=move |_| store.dispatch(Action::PanelOpened(panel))
            >
                {name}
            </button>
        }
    };
    view! {
        <aside class="panels">
            <section class="card">
                <nav class="tabs" aria-label="Panels">{TABS.map(tab)}</nav>
                <div id="panel">
                    {move || match open.get() {
                        Panel::Why => view! { <Why/> }.into_any(),
                        Panel::Curve => view! { <CurvePanel/> }.into_any(),
                        Panel::SetUp => view! { <SetUp/> }.into_any(),
                        Panel::Limits => view! { <Limits/> }.into_any(),
                    }}
                </div>
            </section>
            <Show when=move || room.get()>
                <section class="card curve-card"><CurvePanel/></section>
            </Show>
        </aside>
    }
}
