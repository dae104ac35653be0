//! Whether the page keeps its place. To move the focus or to scroll in a frame scrolls the page
//! around it as well, so nothing of the kind happens there until the learner acts in the frame,
//! nor as a consequence of what that page asked for.

use std::sync::atomic::{AtomicBool, Ordering};

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::window;

static STILL: AtomicBool = AtomicBool::new(false);

/// Whatever the learner does in the page begins with one of these; a screen reader's click may
/// come alone.
const ACTS: [&str; 3] = ["pointerdown", "keydown", "click"];

/// Keeps its place until the learner acts.
pub fn keep() {
    STILL.store(true, Ordering::Relaxed);
}

/// Whether it does.
pub fn is_kept() -> bool {
    STILL.load(Ordering::Relaxed)
}

/// Begins to do so, in a frame, and to notice when the learner acts.
pub fn begin() {
    keep();
    let acted = Closure::<dyn Fn()>::new(|| STILL.store(false, Ordering::Relaxed));
    if let Some(window) = window() {
        let listener = acted.as_ref().unchecked_ref();
        for act in ACTS {
            // On its way down, before anything that it causes.
            let _ = window.add_event_listener_with_callback_and_bool(act, listener, true);
        }
    }
    acted.forget();
}
