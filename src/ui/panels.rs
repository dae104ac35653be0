//! The panels beside (or below) the bench, one open at a time; the curve stays open where
//! there is room.

use leptos::prelude::*;

use super::later::{Later, Part as Fetched};
use super::why::Why;
use crate::app::action::Action;
use crate::app::plan::{Access, Part};
use crate::app::state::{PANELS, Panel};
use crate::app::words::{label, lesson as words};
use crate::web::page;
use crate::web::store::{Store, memo_flag, memo_text};
use crate::web::watch::media;

const CURVE: u32 = Panel::Curve as u32;

/// Tabs, the open panel, and the curve.
#[component]
pub(super) fn Panels() -> impl IntoView {
    let store = Store::get();
    let large = media("(min-width: 60em) and (min-height: 40em)");
    let guided = store.flag(|s| s.desk.guide.step.is_some());
    let room = memo_flag(Box::new(move || large.get() && !guided.get()));
    // Long panels get the curve's place.
    let long = store.flag(|s| matches!(s.panel, Panel::Working | Panel::Practice | Panel::Lesson));
    let chosen = store.number(|s| s.panel as u32);
    // With the curve always there, its tab has nothing to open.
    let open = Memo::new(move |_| match chosen.get() {
        CURVE if room.get() => Panel::Why as u32,
        panel => panel,
    });
    let away = move |panel: Panel, access: Access| {
        let part = panel.part();
        store.flag(move |s| part.is_some_and(|part| s.access(part) == access))
    };
    // Nothing stands in place of a part that is not there.
    let curve_away = store.flag(|s| s.access(Part::Curve) != Access::Open);
    let tab = move |(panel, name): (Panel, &'static str)| {
        let number = panel as u32;
        let current = memo_text(Box::new(move |_| (open.get() == number).to_string()));
        let gone = away(panel, Access::Hidden);
        // In a course page a lesson is taken, not made.
        let foreign = panel == Panel::Lesson && (!cfg!(feature = "teacher") || page::is_framed());
        let hidden = memo_flag(Box::new(move || {
            foreign || gone.get() || number == CURVE && room.get()
        }));
        let show = store.doing(Action::PanelOpened(panel));
        view! {
            <button aria-controls="panel" aria-current=current hidden=hidden on:click=show>
                {name}
            </button>
        }
        .into_any()
    };
    let tabs = PANELS
        .into_iter()
        .zip(label::PANELS)
        .map(tab)
        .collect_view();
    let locked = PANELS.map(|panel| away(panel, Access::Locked));
    let hidden = PANELS.map(|panel| away(panel, Access::Hidden));
    let shown = move || match PANELS[open.get() as usize] {
        panel if locked[panel as usize].get() => {
            let text = store.state_text(|s| words::locked(s.plan.questions.count > 0).to_owned());
            view! { <p class="panel">{text}</p> }.into_any()
        }
        panel if hidden[panel as usize].get() => view! { <Why/> }.into_any(),
        Panel::Why => view! { <Why/> }.into_any(),
        Panel::Curve => view! { <Later part=Fetched::Curve/> }.into_any(),
        Panel::Working => view! { <Later part=Fetched::Working/> }.into_any(),
        Panel::Practice => view! { <Later part=Fetched::Practice/> }.into_any(),
        Panel::SetUp => view! { <Later part=Fetched::SetUp/> }.into_any(),
        Panel::Limits => view! { <Later part=Fetched::Limits/> }.into_any(),
        Panel::Lesson => view! { <Later part=Fetched::Lesson/> }.into_any(),
    };
    let curve = move || {
        let card = || {
            view! { <section class="card curve-card"><Later part=Fetched::Curve/></section> }
                .into_any()
        };
        (room.get() && !long.get() && !curve_away.get()).then(card)
    };
    view! {
        <section class="card">
            <nav class="tabs" aria-label="Panels">{tabs}</nav>
            <div id="panel">{shown}</div>
        </section>
        {curve}
    }
}
