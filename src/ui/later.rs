//! The part of the page that a browser fetches once somebody turns to it: the lesson. All that
//! only it needs, down to the chemistry of questions, then stays out of the first download.

#![cfg_attr(
    feature = "later",
    allow(
        unsafe_code,
        reason = "written by the macro: it calls into the other part"
    )
)]

use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::SplitLoaderError;
#[cfg(feature = "later")]
use leptos::wasm_split::wasm_split;

use super::guide::Guide;
#[cfg(feature = "teacher")]
use super::lesson::Lesson;
use super::practice::Practice;
use super::working::Working;
use crate::app::words::label;
use crate::web::page;

/// What is fetched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
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
    /// What takes the focus of a button that fetched it once more.
    const fn first_control(self) -> &'static str {
        match self {
            Self::Working | Self::Practice | Self::Lesson => "#panel .key, #panel summary",
            Self::Guide => "#guide-title, .not-arrived .key",
        }
    }
}

/// Shows a part once it is there; `owner` is who shows it, nothing if it is no longer asked
/// for. With the feature, calling this fetches it first.
#[cfg_attr(
    feature = "later",
    wasm_split(lesson, wasm_split_path = ::leptos::wasm_split, fallible, preload(fetch))
)]
fn lesson(
    part: Part,
    owner: Owner,
    arrival: RwSignal<Arrival>,
) -> Result<AnyView, SplitLoaderError> {
    if arrival.is_disposed() {
        return Ok(().into_any());
    }
    Ok(owner.with(|| match part {
        Part::Working => view! { <Working/> }.into_any(),
        Part::Practice => view! { <Practice/> }.into_any(),
        Part::Guide => view! { <Guide/> }.into_any(),
        // That is `teacher`.
        Part::Lesson => ().into_any(),
    }))
}

/// The same for the teacher's side, which no learner needs.
#[cfg(feature = "teacher")]
#[cfg_attr(
    feature = "later",
    wasm_split(teacher, wasm_split_path = ::leptos::wasm_split, fallible)
)]
fn teacher(owner: Owner, arrival: RwSignal<Arrival>) -> Result<AnyView, SplitLoaderError> {
    if arrival.is_disposed() {
        return Ok(().into_any());
    }
    Ok(owner.with(|| view! { <Lesson/> }.into_any()))
}

/// Fetches the lesson ahead of its use. If it does not arrive, whoever turns to it is told.
pub(super) fn fetch_ahead() {
    #[cfg(feature = "later")]
    spawn_local(async { drop(fetch().await) });
}

/// How a part stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Arrival {
    Waiting,
    There,
    Failed,
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
            #[cfg(feature = "later")]
            let answer = match part {
                #[cfg(feature = "teacher")]
                Part::Lesson => teacher(owner, arrival).await,
                _ => lesson(part, owner, arrival).await,
            };
            #[cfg(not(feature = "later"))]
            let answer = match part {
                #[cfg(feature = "teacher")]
                Part::Lesson => teacher(owner, arrival),
                _ => lesson(part, owner, arrival),
            };
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
            view! { <p class="quiet" role="status" id="arriving" tabindex="-1">{text}</p> }
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
