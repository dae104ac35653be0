//! One polite message to a screen reader for each addition, once it is done.

use leptos::prelude::*;

use crate::app::state::BenchEvent;
use crate::app::words::label;
use crate::web::store::{Store, voice};

/// The live region.
#[component]
pub(super) fn Status() -> impl IntoView {
    let store = Store::get();
    let occasion = store.select(|s| (s.serial, s.pouring, s.event));
    let message = Memo::new(move |before: Option<&String>| {
        let (serial, pouring, event) = occasion.get();
        if serial == 0 {
            return String::new();
        }
        if pouring {
            // Said once the button is let go.
            return before.cloned().unwrap_or_default();
        }
        store.reading.with(|reading| {
            let voice = voice(reading, store.writer());
            let ph = || store.writer().ph(reading.now.ph());
            match (event, reading.change()) {
                (BenchEvent::Full, _) => label::FLASK_FULL.to_owned(),
                (BenchEvent::Added(_), Some(change)) => voice.announcement(&change),
                (BenchEvent::SetUp, _) => label::new_buffer(&ph()),
                (BenchEvent::Jumped | BenchEvent::Added(_), _) => label::ph_is(&ph()),
            }
        })
    });
    view! { <p class="unseen" role="status" id="status">{message}</p> }
}
