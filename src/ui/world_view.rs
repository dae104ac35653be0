//! The particle world on its canvas.

use std::time::Duration;

use leptos::html::{Canvas, Div};
use leptos::leptos_dom::helpers::{TimeoutHandle, set_timeout_with_handle};
use leptos::prelude::*;
use leptos_use::utils::Pausable;
use leptos_use::{UseRafFnOptions, use_media_query, use_raf_fn_with_options, use_resize_observer};

use crate::app::playback::Playback;
use crate::app::words::label;
use crate::scene::particles::Counters;
use crate::scene::shape::Scene;
use crate::scene::stage::Stage;
use crate::web::canvas::{Brush, INSET, Palette, paint, prepare};
use crate::web::store::Store;

/// The longest time that one frame makes up for, in seconds: after a hidden tab the world
/// goes on from where it was.
const LONGEST_FRAME: f64 = 0.05;

/// What the controls around the canvas may ask of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Request {
    /// Show the last addition again.
    Replay,
    /// Go on to its next beat.
    Step,
    /// With reduced motion: show the picture before it.
    Before,
    /// With reduced motion: show the picture after it.
    After,
}

/// The line between the canvas and the controls around it.
#[derive(Clone, Copy)]
pub(super) struct Controls {
    /// Counters of the exchange that never stops.
    pub(super) counters: RwSignal<Counters>,
    /// Whether the picture is the one before the last addition.
    pub(super) before: RwSignal<bool>,
    /// Whether the person asks for reduced motion.
    pub(super) still: Signal<bool>,
    request: RwSignal<Option<Request>>,
}

impl Controls {
    pub(super) fn new() -> Self {
        Self {
            counters: RwSignal::default(),
            before: RwSignal::new(false),
            still: use_media_query("(prefers-reduced-motion: reduce)"),
            request: RwSignal::new(None),
        }
    }

    /// Asks the canvas for something.
    pub(super) fn ask(self, request: Request) {
        self.before.set(request == Request::Before);
        self.request.set(Some(request));
    }
}

/// The canvas. It sleeps whenever nothing moves.
#[component]
pub(super) fn WorldView(
    /// Requests from the controls around it.
    controls: Controls,
    /// The picture in words.
    description: Signal<String>,
) -> impl IntoView {
    let store = Store::get();
    let box_ref = NodeRef::<Div>::new();
    let canvas = NodeRef::<Canvas>::new();
    let stage = RwSignal::new(Stage {
        width: 320.0,
        height: 200.0,
    });
    let playback = StoredValue::new_local(store.picture.with_untracked(|picture| {
        Playback::new(picture, stage.get_untracked(), store.peek(|s| s.view))
    }));
    let scene = StoredValue::new_local(Scene::default());
    let palette = StoredValue::new_local(Palette::default());
    let alarm = StoredValue::new_local(None::<TimeoutHandle>);
    let resume_later = StoredValue::new_local(None::<Box<dyn Fn()>>);

    let draw = move || {
        let Some(canvas) = canvas.get_untracked() else {
            return;
        };
        let Stage { width, height } = stage.get_untracked();
        let Some(context) = prepare(&canvas, width, height) else {
            return;
        };
        let base_charge = store.reading.with_untracked(|r| r.setup.pair.base_charge());
        scene.update_value(|scene| playback.with_value(|p| p.scene_into(scene)));
        palette.with_value(|palette| {
            let brush = Brush {
                palette,
                base_charge,
                at_start: label::AT_START,
            };
            scene.with_value(|scene| paint(scene, &context, &brush));
        });
    };
    let frames = use_raf_fn_with_options(
        move |frame| {
            playback.update_value(|p| p.pass((frame.delta / 1000.0).clamp(0.0, LONGEST_FRAME)));
            draw();
            let counters = playback.with_value(|p| p.world().counters());
            if controls.counters.get_untracked() != counters {
                controls.counters.set(counters);
            }
            if playback.with_value(|p| !p.is_moving()) {
                resume_later.with_value(|sleep| {
                    if let Some(sleep) = sleep {
                        sleep();
                    }
                });
            }
        },
        UseRafFnOptions::default().immediate(false),
    );
    let Pausable { pause, resume, .. } = frames;
    let wake = move || {
        alarm.update_value(|alarm| {
            if let Some(handle) = alarm.take() {
                handle.clear();
            }
        });
        resume();
    };
    let (to_sleep, on_alarm) = (pause.clone(), wake.clone());
    resume_later.set_value(Some(Box::new(move || {
        to_sleep();
        let seconds = playback.with_value(|p| p.until_next_motion());
        if seconds.is_finite() && !controls.still.get_untracked() {
            let wake = on_alarm.clone();
            let wait = Duration::from_secs_f64(seconds.clamp(0.02, 60.0));
            alarm.set_value(set_timeout_with_handle(wake, wait).ok());
        }
    })));
    on_cleanup(pause);

    use_resize_observer(box_ref, move |entries, _| {
        if let Some(entry) = entries.first() {
            let rect = entry.content_rect();
            stage.set(Stage {
                width: rect.width() - 2.0 * INSET,
                height: rect.height() - 2.0 * INSET,
            });
        }
    });
    let dark = use_media_query("(prefers-color-scheme: dark)");
    let event = store.select(|s| (s.serial, s.event));
    let view = store.select(|s| s.view);
    // Each effect changes one thing about the world and wakes the canvas for it.
    let on = move |change: Box<dyn Fn()>| {
        let wake = wake.clone();
        Effect::new(move |_| {
            change();
            wake();
        });
    };
    on(Box::new(move || {
        playback.update_value(|p| p.set_stage(stage.get()))
    }));
    on(Box::new(move || {
        dark.track();
        palette.set_value(Palette::read().unwrap_or_default());
    }));
    on(Box::new(move || {
        playback.update_value(|p| p.set_still(controls.still.get()))
    }));
    on(Box::new(move || {
        playback.update_value(|p| p.set_view(view.get()))
    }));
    on(Box::new(move || {
        let (_, event) = event.get();
        store
            .picture
            .with(|picture| playback.update_value(|p| p.follow(event, picture)));
        controls.before.set(false);
    }));
    on(Box::new(move || {
        let request = controls.request.get();
        playback.update_value(|p| match request {
            Some(Request::Replay | Request::After) => {
                p.replay();
            }
            Some(Request::Step) => {
                p.step_through();
            }
            Some(Request::Before) => p.show_before(),
            None => (),
        });
    }));
    view! {
        <div class="canvas-box" node_ref=box_ref>
            <canvas node_ref=canvas role="img" aria-label=description></canvas>
        </div>
    }
}
