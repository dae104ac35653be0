//! Paper: something is put on the page for the printer alone, and goes once it is printed. The
//! screen stays as it is all the while; style/paper.css sees to that.

use js_sys::Reflect;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlCanvasElement, HtmlElement, window};

/// On the root element while there is something for the printer.
const PRINTING: &str = "printing";

/// What stands at the foot of every page, for the stylesheet.
const FOOT: &str = "--page-foot";

fn root() -> Option<HtmlElement> {
    let root = window()?.document()?.document_element()?;
    root.dyn_into().ok()
}

/// The style for printers, which no screen needs.
fn style() -> Option<Element> {
    let document = window()?.document()?;
    document.query_selector("link[href*='paper']").ok()?
}

/// Asks for that style: a disabled one is not fetched.
pub fn prepare() {
    if let Some(link) = style() {
        let _ = Reflect::set(&link, &"disabled".into(), &JsValue::FALSE);
    }
}

/// Whether it has arrived.
pub fn is_ready() -> bool {
    let sheet = style().and_then(|link| Reflect::get(&link, &"sheet".into()).ok());
    sheet.is_some_and(|sheet| sheet.is_object())
}

/// Puts `markup` on the page for the printer, with `foot` at the foot of every page: plain text
/// without quotation marks.
pub fn lay(markup: &str, foot: &str) -> Option<Element> {
    clear();
    let document = window()?.document()?;
    let paper = document.create_element("div").ok()?;
    paper.set_class_name("paper");
    paper.set_inner_html(markup);
    document.body()?.append_child(&paper).ok()?;
    let root = root()?;
    let foot = ["\"", foot, "\""].concat();
    root.style().set_property(FOOT, &foot).ok()?;
    root.class_list().add_1(PRINTING).ok()?;
    Some(paper)
}

/// The canvas that `selector` finds in what was laid.
pub fn canvas(paper: &Element, selector: &str) -> Option<HtmlCanvasElement> {
    paper.query_selector(selector).ok()??.dyn_into().ok()
}

/// Opens the browser's print window.
pub fn print() {
    // Where it may not, nothing is told: it is known by the print window that did not open.
    let _ = window().map(|w| w.print());
}

/// Takes away what was put there.
pub fn clear() {
    let document = window().and_then(|w| w.document());
    let paper = document.and_then(|d| d.query_selector("body > .paper").ok().flatten());
    if let Some(paper) = paper {
        paper.remove();
    }
    if let Some(root) = root() {
        let _ = root.class_list().remove_1(PRINTING);
        let _ = root.style().remove_property(FOOT);
    }
}
