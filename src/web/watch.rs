//! What the browser tells by itself: media queries, sizes of elements, frames.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use leptos::html::{Canvas, Div};
use leptos::leptos_dom::helpers::{TimeoutHandle, set_timeout_with_handle};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{ResizeObserver, ResizeObserverEntry};

use crate::web::store::react;

/// Whether a media query holds, now and as long as the page is there.
#[inline(never)]
pub fn media(query: &str) -> RwSignal<bool> {
    let holds = RwSignal::new(false);
    if let Ok(Some(list)) = window().match_media(query) {
        holds.set(list.matches());
        let own = list.clone();
        let changed = Closure::<dyn FnMut()>::new(move || {
            // A printer's page is no other screen: what is on this one stays as it is.
            let prints = window().match_media("print").ok().flatten();
            let matches = own.matches();
            if !prints.is_some_and(|list| list.matches()) && matches != holds.get_untracked() {
                holds.set(matches);
            }
        });
        list.set_onchange(Some(changed.as_ref().unchecked_ref()));
        // Whoever asks stays as long as the page.
        changed.forget();
    }
    holds
}

/// Calls `resized` with the width and height of the inside of `node`, in CSS pixels, once it
/// is there and whenever they change.
#[inline(never)]
pub fn on_resize(node: NodeRef<Div>, resized: Box<dyn Fn(f64, f64)>) {
    let seen = Closure::<dyn FnMut(js_sys::Array)>::new(move |entries: js_sys::Array| {
        let rect = entries
            .get(0)
            .unchecked_into::<ResizeObserverEntry>()
            .content_rect();
        resized(rect.width(), rect.height());
    });
    let Ok(observer) = ResizeObserver::new(seen.as_ref().unchecked_ref()) else {
        return;
    };
    let kept = StoredValue::new_local((observer, seen));
    react(Box::new(move || {
        if let Some(element) = node.get() {
            kept.with_value(|(observer, _)| observer.observe(&element));
        }
    }));
    on_cleanup(move || kept.with_value(|(observer, _)| observer.disconnect()));
}

/// Calls `returned` whenever the page is looked at again, and when the browser gives back one of
/// `canvases` that it had lost, which is empty then.
#[inline(never)]
pub fn on_return(canvases: [NodeRef<Canvas>; 3], returned: Box<dyn Fn()>) {
    let seen = Closure::<dyn Fn()>::new(move || {
        if !document().hidden() {
            returned();
        }
    });
    let listener = seen.as_ref().unchecked_ref::<js_sys::Function>().clone();
    let _ = document().add_event_listener_with_callback("visibilitychange", &listener);
    react(Box::new(move || {
        for canvas in canvases.map(|canvas| canvas.get()).into_iter().flatten() {
            let _ = canvas.add_event_listener_with_callback("contextrestored", &listener);
        }
    }));
    // The canvas stays as long as the page.
    seen.forget();
}

/// The longest time that one frame makes up for, in seconds: after a hidden tab the world
/// goes on from where it was.
const LONGEST_FRAME: f64 = 0.05;

/// Frames of something that moves at times and sleeps in between.
#[derive(Clone)]
pub struct Frames(Rc<Rhythm>);

struct Rhythm {
    /// Draws a frame, given the seconds since the last one; returns the seconds until the
    /// next: 0 for at once, infinite for never.
    draw: Box<dyn Fn(f64) -> f64>,
    /// Whether a frame has been asked for.
    asked: Cell<bool>,
    /// When the last frame was, in milliseconds.
    last: Cell<f64>,
    /// Seconds slept through by plan.
    slept: Cell<f64>,
    alarm: RefCell<Option<TimeoutHandle>>,
}

impl Frames {
    /// Frames drawn by `draw`, asleep at first. It gets the seconds since the last frame and
    /// returns those until the next one: 0 for at once, infinite for never.
    pub fn new(draw: Box<dyn Fn(f64) -> f64>) -> Self {
        Self(Rc::new(Rhythm {
            draw,
            asked: Cell::new(false),
            last: Cell::new(0.0),
            slept: Cell::new(0.0),
            alarm: RefCell::default(),
        }))
    }

    /// Draws the next frame, whatever was planned.
    pub fn wake(&self) {
        if let Some(alarm) = self.0.alarm.take() {
            alarm.clear();
        }
        if !self.0.asked.replace(true) {
            self.0.last.set(js_sys::Date::now());
            self.ask();
        }
    }

    fn ask(&self) {
        let own = self.clone();
        request_animation_frame(move || own.frame());
    }

    fn frame(&self) {
        let rhythm = &*self.0;
        let now = js_sys::Date::now();
        let passed = (now - rhythm.last.replace(now)) / 1000.0;
        let until = (rhythm.draw)(passed.clamp(0.0, LONGEST_FRAME) + rhythm.slept.take());
        if until <= 0.0 {
            self.ask();
            return;
        }
        rhythm.asked.set(false);
        if until.is_finite() {
            let seconds = until.clamp(0.02, 60.0);
            let own = self.clone();
            let on_time = move || {
                own.0.slept.set(seconds);
                own.wake();
            };
            let wait = Duration::from_secs_f64(seconds);
            *rhythm.alarm.borrow_mut() = set_timeout_with_handle(on_time, wait).ok();
        }
    }
}
