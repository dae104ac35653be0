//! The page itself: its address, its theme, whether it is framed, and where it stands.

use crate::app::plan::Look;
use crate::chem::power::whole;
use crate::web::still;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement, HtmlInputElement, Location, SelectionMode, Window, window};

/// What a file of its own carries in its head under `name`; `None` for a hosted page.
fn mark(name: &str) -> Option<String> {
    let document = window()?.document()?;
    let named = ["meta[name=evenkeel-", name, "]"].concat();
    document
        .query_selector(&named)
        .ok()??
        .get_attribute("content")
}

/// The lesson that a file carries, empty for the usual page; `None` for a hosted page.
fn carried() -> Option<String> {
    mark("lesson")
}

/// Whether the page holds its lesson in itself, so that no address changes it.
pub fn carries_lesson() -> bool {
    carried().is_some_and(|text| !text.is_empty())
}

/// Whether the page is a package in a course system.
pub fn is_course() -> bool {
    mark("course").is_some_and(|text| !text.is_empty())
}

/// Whether the page is a file by itself, with nothing beside it.
pub fn is_file() -> bool {
    carried().is_some()
}

/// A part of the page's address; empty where a browser does not tell.
fn location(part: fn(&Location) -> Result<String, JsValue>) -> String {
    let text = window().and_then(|w| part(&w.location()).ok());
    text.unwrap_or_default()
}

/// Query and fragment of the lesson that is opened: the one that a file carries, else the one of
/// the page's address. `None` for the usual page.
pub fn link() -> Option<(String, String)> {
    let link = match carried().filter(|text| !text.is_empty()) {
        Some(text) => match text.split_once('#') {
            Some((query, fragment)) => (query.to_owned(), fragment.to_owned()),
            None => (text, String::new()),
        },
        None => (location(Location::search), location(Location::hash)),
    };
    (link != <(String, String)>::default()).then_some(link)
}

/// Says that the page cannot start; see cannot-start.js.
#[cfg(feature = "later")]
pub fn cannot_start() {
    let Some(window) = window() else { return };
    let say = js_sys::Reflect::get(&window.into(), &"cannotStart".into());
    if let Some(say) = say.ok().and_then(|f| f.dyn_into::<js_sys::Function>().ok()) {
        let _ = say.call0(&JsValue::NULL);
    }
}

/// Whether the page stands in a frame of another page. A frame that may not even ask
/// counts as one.
pub fn is_framed() -> bool {
    let Some(window) = window() else { return false };
    match window.parent() {
        Ok(Some(parent)) => parent != window,
        Ok(None) => false,
        Err(_) => true,
    }
}

/// The root element.
fn root() -> Option<Element> {
    window()?.document()?.document_element()
}

/// Marks the root element with the theme, for the stylesheet.
pub fn show_in(look: Look) {
    let theme = match look {
        Look::System => None,
        Look::Light => Some("light"),
        Look::Dark => Some("dark"),
    };
    let Some(root) = root() else { return };
    let _ = match theme {
        Some(theme) => root.set_attribute(THEME, theme),
        None => root.remove_attribute(THEME),
    };
}

const THEME: &str = "data-theme";

/// Marks the root element with the theme asked for and with being framed, which begins here.
pub fn dress(look: Look) {
    show_in(look);
    if is_framed() {
        still::begin();
        let _ = root().map(|root| root.class_list().add_1("framed"));
    }
}

/// The element that holds the application.
pub fn place() -> Option<HtmlElement> {
    window()?
        .document()?
        .get_element_by_id("app")?
        .dyn_into()
        .ok()
}

/// That element, emptied of its first paint.
pub fn take_place() -> Option<HtmlElement> {
    let place = place()?;
    place.set_inner_html("");
    Some(place)
}

/// The window, where the page may move the focus and scroll.
fn mover() -> Option<Window> {
    window().filter(|_| !still::is_kept())
}

/// Brings the element `part` into sight if it is below it, and puts the focus on `control`.
pub fn go_to(part: &str, control: &str) {
    let Some(window) = mover() else { return };
    let find = |id| window.document()?.get_element_by_id(id);
    let height = window.inner_height().ok().and_then(|h| h.as_f64());
    if let (Some(part), Some(height)) = (find(part), height)
        && part.get_bounding_client_rect().top() > height / 2.0
    {
        part.scroll_into_view();
    }
    focus(control);
}

fn by_id(id: &str) -> Option<HtmlElement> {
    let found = window()?.document()?.get_element_by_id(id);
    found?.dyn_into().ok()
}

/// Puts the focus on the element `id`; whether there is one.
pub fn focus(id: &str) -> bool {
    mover()
        .and_then(|_| by_id(id))
        .is_some_and(|element| element.focus().is_ok())
}

/// Whether the element `id` has the focus.
pub fn has_focus(id: &str) -> bool {
    let active = window()
        .and_then(|w| w.document())
        .and_then(|d| d.active_element());
    active.is_some_and(|element| element.id() == id)
}

/// Puts the focus on the first element that `selector` finds, if nothing has it any more.
pub fn refocus(selector: &str) {
    let Some(document) = mover().and_then(|w| w.document()) else {
        return;
    };
    // What was hidden a moment ago may still seem to have it.
    let lost = document.active_element().is_none_or(|e| {
        e.tag_name() == "BODY" || e.closest("[hidden]").is_ok_and(|hidden| hidden.is_some())
    });
    let found = document.query_selector(selector).ok().flatten();
    if lost && let Some(control) = found.and_then(|e| e.dyn_into::<HtmlElement>().ok()) {
        let _ = control.focus();
    }
}

/// Scrolls so that all above the end of what `selector` finds is in sight, if its end is not.
pub fn show_end(selector: &str) {
    let Some(window) = mover() else { return };
    let found = window
        .document()
        .and_then(|d| d.query_selector(selector).ok().flatten());
    let height = window.inner_height().ok().and_then(|h| h.as_f64());
    if let (Some(found), Some(height)) = (found, height)
        && found.get_bounding_client_rect().bottom() > height
    {
        found.scroll_into_view_with_bool(false);
    }
}

/// Scrolls so that what `selector` finds ends where the screen does, as far as the page goes:
/// then as much as can be of what stands above it is in sight.
pub fn align_end(selector: &str) {
    let document = mover().and_then(|w| w.document());
    if let Some(found) = document.and_then(|d| d.query_selector(selector).ok().flatten()) {
        found.scroll_into_view_with_bool(false);
    }
}

/// Goes to the top of the page.
pub fn to_top() {
    if let Some(window) = mover() {
        window.scroll_to_with_x_and_y(0.0, 0.0);
    }
}

/// The text of the input `id` with `text` put in at its cursor, which then stands behind it.
pub fn insert(id: &str, text: &str) -> String {
    let input = by_id(id).and_then(|e| e.dyn_into::<HtmlInputElement>().ok());
    let Some(input) = input else {
        return text.to_owned();
    };
    let [start, end] = [input.selection_start(), input.selection_end()].map(|at| at.ok().flatten());
    let put = match (start, end) {
        (Some(start), Some(end)) => input.set_range_text_with_start_and_end_and_selection_mode(
            text,
            start,
            end,
            SelectionMode::End,
        ),
        _ => Err(JsValue::NULL),
    };
    if put.is_err() {
        input.set_value(&(input.value() + text));
    }
    let _ = input.focus();
    input.value()
}

/// The address of the page itself, without a lesson.
pub fn address() -> String {
    location(Location::origin) + &location(Location::pathname)
}

/// The page's own address, with its lesson.
pub fn full_address() -> String {
    location(Location::href)
}

/// Opens another lesson in place of this one: `link` is its query and fragment. The address is
/// exchanged before the page loads anew, so that nobody's way back goes through both. Whether it
/// is: a page that its host has written into the frame has no address to exchange.
pub fn open_instead(link: &str) -> bool {
    let Some(window) = window() else { return false };
    let exchanged = window
        .history()
        .and_then(|history| history.replace_state_with_url(&JsValue::NULL, "", Some(link)));
    exchanged.is_ok() && window.location().reload().is_ok()
}

/// Selects the text of the input `id` and puts it on the clipboard; whether it is there. The
/// older way of two: it works in frames too, and asks nobody.
pub fn copy(id: &str) -> bool {
    let input = by_id(id).and_then(|e| e.dyn_into::<HtmlInputElement>().ok());
    let Some(input) = input else { return false };
    let _ = input.focus();
    input.select();
    let document = window().and_then(|w| w.document());
    let html = document.and_then(|d| d.dyn_into::<web_sys::HtmlDocument>().ok());
    html.is_some_and(|d| d.exec_command("copy").unwrap_or(false))
}

/// A seed for a series of questions, from the browser's own source of chance.
pub fn seed() -> u64 {
    let part = || (js_sys::Math::random() * f64::from(u32::MAX)).to_bits();
    part() ^ part().rotate_left(32)
}

/// A length in whole pixels; lengths of elements are small and not negative.
pub fn pixels(length: f64) -> u32 {
    u32::try_from(whole(libm::floor(length))).unwrap_or(0)
}
