//! The course system that a course package runs in; `course.js` speaks its language.

use js_sys::{Function, Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::window;

use crate::app::carried::{Carried, Report};

/// `window.evenkeelCourse`, where there is a course system.
fn adapter() -> Option<JsValue> {
    let adapter = Reflect::get(&window()?.into(), &"evenkeelCourse".into()).ok()?;
    let connected = Reflect::get(&adapter, &"connected".into()).ok()?;
    (connected == JsValue::TRUE).then_some(adapter)
}

fn call(name: &str, argument: &JsValue) -> Option<JsValue> {
    let adapter = adapter()?;
    let function: Function = Reflect::get(&adapter, &name.into()).ok()?.dyn_into().ok()?;
    function.call1(&adapter, argument).ok()
}

/// What it kept of an earlier visit.
pub fn resume() -> Option<Carried> {
    Carried::read(&call("resume", &JsValue::UNDEFINED)?.as_string()?)
}

/// Tells it how the learner stands. Whether it passed is the teacher's to say.
pub fn report(report: &Report) {
    let told = Object::new();
    let parts = [
        ("score", report.score.map_or(JsValue::NULL, JsValue::from)),
        ("done", report.done.into()),
        ("passed", JsValue::NULL),
        ("state", report.state.as_str().into()),
    ];
    for (name, value) in parts {
        let _ = Reflect::set(&told, &name.into(), &value);
    }
    call("report", &told);
}
