//! A learner's results on the device, if they asked for it. A browser may refuse: then
//! nothing is kept, and the page goes on.

use serde::Serialize;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::JsValue;
use web_sys::{Storage, window};

use crate::app::progress::{Kept, Outcome};

/// The one key that the page writes; others on the same host are not ours.
const KEY: &str = "evenkeel.results";

/// The browser's storage; in a closed frame even asking for it throws.
fn storage() -> Option<Storage> {
    window()?.local_storage().ok()?
}

/// What is kept, if anything is and can be read.
pub fn read() -> Option<Vec<Outcome>> {
    let text = storage()?.get_item(KEY).ok()??;
    let value = js_sys::JSON::parse(&text).ok()?;
    let kept: Kept = serde_wasm_bindgen::from_value(value).ok()?;
    kept.results()
}

/// Keeps these results; whether the browser did.
pub fn write(results: &[Outcome]) -> bool {
    let write = || -> Result<bool, JsValue> {
        let kept = Kept::of(results).serialize(&Serializer::json_compatible())?;
        let text = String::from(js_sys::JSON::stringify(&kept)?);
        let Some(storage) = storage() else {
            return Ok(false);
        };
        storage.set_item(KEY, &text)?;
        Ok(true)
    };
    write().unwrap_or(false)
}

/// Deletes what is kept.
pub fn clear() {
    if let Some(storage) = storage() {
        let _ = storage.remove_item(KEY);
    }
}
