//! Files that a teacher takes away.

use js_sys::futures::JsFuture;
use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Response, Url, window};

/// The file that every lesson's file is made from; it lies beside the page.
const WHOLE: &str = "lesson-file.html";

/// Fetches it; `None` if it does not arrive.
pub async fn whole() -> Option<String> {
    let window = window()?;
    let response = JsFuture::from(window.fetch_with_str(WHOLE)).await.ok()?;
    let response: Response = response.dyn_into().ok()?;
    if !response.ok() {
        return None;
    }
    JsFuture::from(response.text().ok()?)
        .await
        .ok()?
        .as_string()
}

/// Gives the user a file; whether the browser took it.
pub fn save(name: &str, kind: &str, bytes: &[u8]) -> bool {
    let save = || -> Result<(), JsValue> {
        let missing = || JsValue::from("no document");
        let parts = Array::of1(&Uint8Array::from(bytes));
        let options = BlobPropertyBag::new();
        options.set_type(kind);
        let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options)?;
        let address = Url::create_object_url_with_blob(&blob)?;
        let document = window().and_then(|w| w.document()).ok_or_else(missing)?;
        let link: HtmlAnchorElement = document
            .create_element("a")?
            .dyn_into()
            .map_err(|_| missing())?;
        link.set_href(&address);
        link.set_download(name);
        link.click();
        Url::revoke_object_url(&address)
    };
    save().is_ok()
}
