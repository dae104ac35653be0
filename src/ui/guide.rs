//! The guided start: one step at a time, beside the bench.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::desk::{DeskAction, Page};
use crate::app::guide::{GuideAction, GuideStep};
use crate::app::prediction::{DIRECTIONS, Direction, SIZES};
use crate::app::state::{Panel, State};
use crate::app::words::guide as words;
use crate::chem::titration::Reagent;
use crate::lesson::markup::html;
use crate::web::page;
use crate::web::store::{Store, react};

/// The button that opens the guide, and what the focus goes to in it.
const START: &str = "guide-start";
const TITLE: &str = "guide-title";

/// Brings the step and the buttons of the bench into sight, and the focus to its title; after
/// the last step there is none.
fn show() {
    page::align_end(".additions");
    if !page::focus(TITLE) {
        page::focus(START);
    }
}

/// The card.
#[component]
pub(super) fn Guide() -> impl IntoView {
    let store = Store::get();
    let news = store.message(|state, shown, _| words::news(state, shown, state.writer()));
    react(Box::new(move || {
        let news = news.get();
        if !news.is_empty() {
            store.work(DeskAction::Guided(GuideAction::Seen(news)));
            // The card has changed its size. In the last step the learner is at a question.
            if store.peek(|s| s.desk.guide.step != Some(GuideStep::Question)) {
                request_animation_frame(|| page::align_end(".additions"));
            }
        }
    }));
    let part = move |part: usize| {
        store.state_text(move |s| {
            let step = s.desk.guide.step;
            step.map_or("", |step| words::step(step)[part]).to_owned()
        })
    };
    let place = store.state_text(|s| s.desk.guide.step.map(words::place).unwrap_or_default());
    let to_do = store.state_text(words::to_do);
    let told = store.state_text(|s| html(s.desk.guide.told()));
    let onward = store.state_text(|s| words::onward(s.desk.guide.step).to_owned());
    let done = store.flag(|s| s.desk.guide.done());
    let not_done = store.flag(|s| !s.desk.guide.done());
    let known = store.flag(|s| s.desk.guide.done() || s.desk.guide.prediction.locked);
    let is_first = store.flag(|s| s.desk.guide.before().is_none());
    let no_question =
        store.flag(|s| s.desk.guide.done() || s.desk.guide.step != Some(GuideStep::Question));
    let not_held = store.flag(|s| !s.desk.guide.holds_additions());
    let not_yet = store.truth(|s| !s.desk.guide.prediction.is_complete());
    let lock = move |_| {
        store.work(DeskAction::Guided(GuideAction::Locked));
        let first = match store.peek(|s| s.desk.guide.predicts()) {
            Some(Reagent::Alkali) => ".additions > div + div .key",
            _ => ".additions .key",
        };
        request_animation_frame(move || {
            page::refocus(first);
            page::align_end(".additions");
        });
    };
    let on = move |_| {
        store.work(DeskAction::Guided(GuideAction::WentOn));
        let over = store.peek(|s| s.desk.guide.step.is_none() && s.panel == Panel::Practice);
        // After the last step the learner is at a question, and stays there.
        if over {
            request_animation_frame(|| page::go_to("panel", "question"));
        } else {
            request_animation_frame(show);
        }
    };
    let back = move |_| {
        if let Some(step) = store.peek(|s| s.desk.guide.before()) {
            store.work(DeskAction::Guided(GuideAction::WentTo(step)));
            request_animation_frame(show);
        }
    };
    let close = move |_| {
        store.work(DeskAction::Guided(GuideAction::Closed));
        request_animation_frame(|| {
            page::focus(START);
        });
    };
    let practice = move |_| {
        store.dispatch(Action::PanelOpened(Panel::Practice));
        store.work(DeskAction::PageOpened(Page::Questions));
        request_animation_frame(|| page::go_to("panel", "question"));
    };
    // The button that opened it hands the focus on.
    request_animation_frame(|| {
        page::align_end(".additions");
        if page::has_focus(START) {
            page::focus(TITLE);
        }
    });
    view! {
        <section class="card guide" aria-labelledby="guide-title">
            <div class="head">
                <h2 id="guide-title" tabindex="-1">{part(0)}</h2>
                <span class="quiet digits">{place}</span>
                <button type="button" class="key plain" aria-label=words::CLOSE on:click=close>"×"</button>
            </div>
            <p hidden=known>{part(1)}</p>
            <p class="todo" hidden=done>{to_do}</p>
            <Prediction/>
            <p class="met" inner_html=told></p>
            <div class="back">
                <button type="button" class="key plain" hidden=is_first on:click=back>{words::BACK}</button>
                <button type="button" class="key plain" hidden=done on:click=on>{words::SKIP}</button>
                <button type="button" class="key main" hidden=not_held aria-disabled=not_yet on:click=lock>
                    {words::LOCK}
                </button>
                <button type="button" class="key main" hidden=no_question on:click=practice>{words::OPEN_PRACTICE}</button>
                <button type="button" class="key main" hidden=not_done on:click=on>{onward}</button>
            </div>
        </section>
    }
}

/// What is expected: which way, how far, locked before anything is added.
#[component]
fn Prediction() -> impl IntoView {
    let store = Store::get();
    let none = store.flag(|s| !s.desk.guide.holds_additions());
    let nowhere = store.flag(|s| s.desk.guide.prediction.direction == Some(Direction::Nowhere));
    let choice = move |name: &'static str,
                       is: Box<dyn Fn(&State) -> bool + Send + Sync>,
                       action| {
        let pressed = store.truth(is);
        let choose = store.working(DeskAction::Guided(action));
        view! { <button type="button" class="key" aria-pressed=pressed on:click=choose>{name}</button> }
            .into_any()
    };
    let ways = DIRECTIONS.map(|way| {
        let is = move |s: &State| s.desk.guide.prediction.direction == Some(way);
        choice(
            words::direction(way),
            Box::new(is),
            GuideAction::DirectionChosen(way),
        )
    });
    let sizes = SIZES.map(|size| {
        let is = move |s: &State| s.desk.guide.prediction.size == Some(size);
        choice(
            words::size(size),
            Box::new(is),
            GuideAction::SizeChosen(size),
        )
    });
    view! {
        <div class="prediction" hidden=none>
            <div role="group" aria-label=words::WHICH_WAY>
                <p class="quiet">{words::WHICH_WAY}</p>
                <div class="choice">{ways.collect_view()}</div>
            </div>
            <div role="group" aria-label=words::HOW_FAR hidden=nowhere>
                <p class="quiet">{words::HOW_FAR}</p>
                <div class="choice">{sizes.collect_view()}</div>
            </div>
        </div>
    }
}
