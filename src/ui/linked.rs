//! What only a lesson's link and the page around a frame need: reading the one, speaking with the
//! other. It is fetched before such a page starts, and by no other.

#![cfg_attr(
    feature = "later",
    allow(
        unsafe_code,
        reason = "written by the macro: it calls into the other part"
    )
)]

use leptos::html::Div;
use leptos::prelude::*;
use leptos::wasm_split::SplitLoaderError;
#[cfg(feature = "later")]
use leptos::wasm_split::wasm_split;
// Leptos's own waits for a page that is mounted.
#[cfg(feature = "later")]
use js_sys::futures::spawn_local;

use crate::app::link::{self, Opened};
use crate::lesson::conventions::Exchanges;
use crate::web::host;
#[cfg(feature = "later")]
use crate::web::page;
use crate::web::store::Store;

/// What is done with a lesson once it is read.
pub type Start = fn(Opened, Exchanges);

/// Whether what does it arrived.
type Done = Result<(), SplitLoaderError>;

/// Reads a link.
#[cfg_attr(
    feature = "later",
    wasm_split(linked, wasm_split_path = ::leptos::wasm_split, fallible)
)]
fn read(query: String, fragment: String, start: Start) -> Done {
    let opened = link::read(&query, &fragment);
    let exchanges = opened.plan.conventions.exchanges();
    start(opened, exchanges);
    Ok(())
}

/// Meets the host; `owner` is who wants it.
#[cfg_attr(
    feature = "later",
    wasm_split(linked, wasm_split_path = ::leptos::wasm_split, fallible)
)]
fn speak(owner: Owner, store: Store, content: NodeRef<Div>) -> Done {
    owner.with(|| host::meet(store, content));
    Ok(())
}

/// Starts the page with the lesson of a link; if what reads it does not arrive, says that the page
/// cannot start: it would be another lesson's.
pub fn open((query, fragment): (String, String), start: Start) {
    #[cfg(feature = "later")]
    spawn_local(async move {
        if read(query, fragment, start).await.is_err() {
            page::cannot_start();
        }
    });
    #[cfg(not(feature = "later"))]
    let _ = read(query, fragment, start);
}

/// Speaks with the page around this one.
pub(super) fn meet(store: Store, content: NodeRef<Div>) {
    let owner = Owner::current().unwrap_or_default();
    #[cfg(feature = "later")]
    spawn_local(async move { drop(speak(owner, store, content).await) });
    #[cfg(not(feature = "later"))]
    let _ = speak(owner, store, content);
}
