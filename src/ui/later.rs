//! The parts of the page that a browser fetches after the first screen: the panels beside the bench
//! as soon as that is there, the lesson and the teacher's side once somebody turns to them. All that
//! only they need, down to the chemistry of questions, then stays out of the first download.

#![cfg_attr(
    feature = "later",
    allow(
        unsafe_code,
        reason = "written by the macro: it calls into the other part"
    )
)]

use std::pin::Pin;

use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::SplitLoaderError;
#[cfg(feature = "later")]
use leptos::wasm_split::wasm_split;

use super::curve::CurvePanel;
use super::guide::Guide;
#[cfg(feature = "teacher")]
use super::lesson::Lesson;
use super::limits::Limits;
use super::practice::Practice;
use super::set_up::SetUp;
use super::why::Explained;
use super::working::Working;
use crate::app::words::label;
use crate::web::page;

/// What is fetched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// The last addition explained.
    Explained,
    /// pH against amount added.
    Curve,
    /// Setting up the buffer.
    SetUp,
    /// What the page does not model.
    Limits,
    /// The calculation for the bench.
    Working,
    /// Questions, explanations, progress.
    Practice,
    /// The guided start.
    Guide,
    /// The teacher's side.
    Lesson,
}

impl Part {
    /// What takes the focus of whoever waited for it.
    const fn first_control(self) -> &'static str {
        match self {
            Self::Explained | Self::Limits => "#panel .panel",
            Self::Curve => ".curve summary",
            Self::SetUp => "#pair",
            Self::Working | Self::Practice | Self::Lesson => "#panel .key, #panel summary",
            Self::Guide => "#guide-title, .not-arrived .key",
        }
    }
}

/// A part once it is there.
type Arrived = Result<AnyView, SplitLoaderError>;

/// Shows a part once it is there; `owner` is who shows it, nothing if it is no longer asked
/// for. With the feature, calling this fetches it first.
#[cfg_attr(
    feature = "later",
    wasm_split(beside, wasm_split_path = ::leptos::wasm_split, fallible, preload(fetch_beside))
)]
fn beside(part: Part, owner: Owner, arrival: RwSignal<Arrival>) -> Arrived {
    if arrival.is_disposed() {
        return Ok(().into_any());
    }
    Ok(owner.with(|| match part {
        Part::Explained => view! { <Explained/> }.into_any(),
        Part::Curve => view! { <CurvePanel/> }.into_any(),
        Part::SetUp => view! { <SetUp/> }.into_any(),
        Part::Limits => view! { <Limits/> }.into_any(),
        // Those are `lesson` and `teacher`.
        Part::Working | Part::Practice | Part::Guide | Part::Lesson => ().into_any(),
    }))
}

/// The same for the lesson.
#[cfg_attr(
    feature = "later",
    wasm_split(lesson, wasm_split_path = ::leptos::wasm_split, fallible, preload(fetch_lesson))
)]
fn lesson(part: Part, owner: Owner, arrival: RwSignal<Arrival>) -> Arrived {
    if arrival.is_disposed() {
        return Ok(().into_any());
    }
    Ok(owner.with(|| match part {
        Part::Working => view! { <Working/> }.into_any(),
        Part::Practice => view! { <Practice/> }.into_any(),
        Part::Guide => view! { <Guide/> }.into_any(),
        _ => ().into_any(),
    }))
}

/// The same for the teacher's side, which no learner needs.
#[cfg(feature = "teacher")]
#[cfg_attr(
    feature = "later",
    wasm_split(teacher, wasm_split_path = ::leptos::wasm_split, fallible)
)]
fn teacher(owner: Owner, arrival: RwSignal<Arrival>) -> Arrived {
    if arrival.is_disposed() {
        return Ok(().into_any());
    }
    Ok(owner.with(|| view! { <Lesson/> }.into_any()))
}

/// Fetches the panels beside the bench ahead of their use, or the lesson. If they do not arrive,
/// whoever turns to them is told.
pub(super) fn fetch_ahead(whole_lesson: bool) {
    #[cfg(feature = "later")]
    spawn_local(async move {
        drop(if whole_lesson {
            fetch_lesson().await
        } else {
            fetch_beside().await
        });
    });
    #[cfg(not(feature = "later"))]
    let _ = whole_lesson;
}

/// How a part stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Arrival {
    Waiting,
    There,
    Failed,
}

/// A part on its way. Boxed, so that whoever waits is compiled once for all parts.
type Way = Pin<Box<dyn Future<Output = Arrived>>>;

/// Fetches a part and builds it.
#[cfg(feature = "later")]
fn fetched(part: Part, owner: Owner, arrival: RwSignal<Arrival>) -> Way {
    match part {
        Part::Lesson => Box::pin(teacher(owner, arrival)),
        Part::Working | Part::Practice | Part::Guide => Box::pin(lesson(part, owner, arrival)),
        _ => Box::pin(beside(part, owner, arrival)),
    }
}

/// Builds a part.
#[cfg(not(feature = "later"))]
fn fetched(part: Part, owner: Owner, arrival: RwSignal<Arrival>) -> Way {
    let built = match part {
        #[cfg(feature = "teacher")]
        Part::Lesson => teacher(owner, arrival),
        Part::Working | Part::Practice | Part::Guide => lesson(part, owner, arrival),
        _ => beside(part, owner, arrival),
    };
    Box::pin(std::future::ready(built))
}

/// A part of the page that may have to be fetched.
#[component]
pub(super) fn Later(
    /// Which.
    part: Part,
) -> impl IntoView {
    let owner = Owner::current().unwrap_or_default();
    let arrival = RwSignal::new(Arrival::Waiting);
    let arrived = StoredValue::new_local(None);
    let ask = move |owner: Owner, again: bool| {
        spawn_local(async move {
            let answer = fetched(part, owner, arrival).await;
            // Whoever was sent here before there was anything stands at the word about it.
            let sent = part != Part::Curve && page::has_focus("arriving");
            let again = again || sent;
            // Whoever asked may have gone elsewhere by now.
            let stands = match answer {
                Ok(view) => arrived
                    .try_set_value(Some(view))
                    .map_or(Arrival::There, |_| Arrival::Waiting),
                Err(_) => Arrival::Failed,
            };
            arrival.try_set(stands);
            if again {
                request_animation_frame(move || page::refocus(part.first_control()));
            }
        });
    };
    ask(owner.clone(), false);
    move || match arrival.get() {
        Arrival::Waiting => {
            let text = label::ARRIVING;
            view! { <p class="quiet arriving" role="status" id="arriving" tabindex="-1">{text}</p> }
                .into_any()
        }
        Arrival::There => arrived.try_update_value(Option::take).flatten().into_any(),
        Arrival::Failed => {
            let owner = owner.clone();
            let again = move |_| {
                arrival.set(Arrival::Waiting);
                ask(owner.clone(), true);
                request_animation_frame(|| page::refocus("#arriving"));
            };
            view! {
                <div role="alert" class="not-arrived">
                    <p class="warning">{label::NOT_ARRIVED}</p>
                    <button type="button" class="key" on:click=again>{label::TRY_AGAIN}</button>
                </div>
            }
            .into_any()
        }
    }
}
