//! The page that shows this one in a frame: it is told what is on the bench, and asks for things.

use std::cell::Cell;
use std::time::Duration;

use js_sys::{JsString, Object, Reflect};
use leptos::html::Div;
use leptos::prelude::{NodeRef, set_timeout, untrack};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{MessageEvent, window};

use crate::app::action::Action;
use crate::app::host::asked::{Allowance, Asked, Command, LONGEST_LESSON, Refusal, read};
use crate::app::host::{self, Message, Value};
use crate::web::page;
use crate::web::still;
use crate::web::store::{Store, react};
use crate::web::watch::on_resize;

/// How long a host rests after as many commands as are carried out at once.
const REST: Duration = Duration::from_secs(1);

/// Tells the host something. Any host may read it: there is no secret in these messages, and a
/// frame cannot know by whom it is shown.
fn tell(message: &Message) {
    let Some(Ok(Some(parent))) = window().map(|w| w.parent()) else {
        return;
    };
    let told = Object::new();
    for (name, value) in message {
        let value = match *value {
            Value::Number(number) => number.into(),
            Value::Text(text) => text.into(),
            Value::Flag(flag) => flag.into(),
            Value::None => JsValue::NULL,
        };
        let _ = Reflect::set(&told, &(*name).into(), &value);
    }
    let _ = parent.post_message(&told, "*");
}

/// Whether there is a host to speak with. A course system hears through an interface of its own,
/// and nothing else.
pub fn is_there() -> bool {
    page::is_framed() && !page::is_course()
}

/// Tells the host of a frame how high the page is, now and whenever its `content` changes.
fn tell_height(content: NodeRef<Div>) {
    let report = |_, _| {
        if let Some(place) = page::place() {
            let height = libm::ceil(place.get_bounding_client_rect().height());
            host::height(page::pixels(height)).iter().for_each(tell);
        }
    };
    on_resize(content, Box::new(report));
}

/// Tells the host how the questions went that have ended since `before` had.
pub fn tell_results(store: Store, before: u32) {
    if is_there() {
        let results = store.peek(|state| host::results(state, before));
        results.iter().for_each(tell);
    }
}

/// Speaks with the host of a frame from now on, if it is one to speak with.
pub fn meet(store: Store, content: NodeRef<Div>) {
    tell_height(content);
    if !is_there() {
        return;
    }
    let allowance = Cell::new(Allowance::default());
    let allowance: &'static Cell<_> = Box::leak(Box::new(allowance));
    let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let data = event.data();
        if !from_parent(&event) || part(&data, "type") != Some("evenkeel:do".into()) {
            return;
        }
        let mut taken = allowance.get();
        let answer = taken.take();
        allowance.set(taken);
        if taken.is_begun() {
            set_timeout(move || allowance.set(Allowance::default()), REST);
        }
        let done = match answer {
            Some(Ok(())) => obey(store, &data),
            Some(Err(refusal)) => Err(refusal),
            None => return,
        };
        if let Err(refusal) = done {
            tell(&host::refused(refusal));
        }
    });
    if let Some(window) = window() {
        let listener = heard.as_ref().unchecked_ref();
        let _ = window.add_event_listener_with_callback("message", listener);
    }
    // It listens as long as the page is there.
    heard.forget();
    tell(&host::ready());
    let mut last = Message::new();
    react(Box::new(move || {
        let now = on_bench(store);
        if last != now {
            tell(&now);
            last = now;
        }
    }));
}

fn on_bench(store: Store) -> Message {
    store.read(|state, shown| host::bench(&state.bench, &shown.reading))
}

/// Only the page around the frame may ask for anything: not one that opened it, nor a frame in it
/// or beside it.
fn from_parent(event: &MessageEvent) -> bool {
    let parent = window().and_then(|w| w.parent().ok().flatten());
    event.source().map(JsValue::from) == parent.map(JsValue::from)
}

/// A part of what was sent; of what is no object, and of one that throws, there is none.
fn part(data: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(data, &name.into()).ok()
}

/// The same as a text, if it is one and not too long.
fn text(data: &JsValue, name: &str) -> Option<String> {
    let text: JsString = part(data, name)?.dyn_into().ok()?;
    let short = usize::try_from(text.length()).is_ok_and(|length| length <= LONGEST_LESSON);
    short.then(|| text.into())
}

/// Does what the host asks for.
fn obey(store: Store, data: &JsValue) -> Result<(), Refusal> {
    let number = |name| part(data, name).and_then(|value| value.as_f64());
    let asked = Asked {
        version: number("v"),
        command: text(data, "command"),
        reagent: text(data, "reagent"),
        mol: number("mol"),
        theme: text(data, "theme"),
        lesson: text(data, "lesson"),
    };
    match store.peek(|state| read(&asked, state, page::carries_lesson()))? {
        Command::Act(action) => {
            // What follows is not the learner's doing: it moves neither the focus nor the host.
            still::keep();
            // In place before the canvas reads its colors.
            if let Action::LookChosen(look) = action {
                page::show_in(look);
            }
            store.dispatch(action);
        }
        Command::Open(link) if !page::open_instead(&link) => return Err(Refusal::Fixed),
        Command::Open(_) => {}
        Command::Tell => {
            tell(&untrack(|| on_bench(store)));
        }
    }
    Ok(())
}
