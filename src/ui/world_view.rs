//! The particle world on its canvas.

use std::time::Duration;

use leptos::html::{Canvas, Div};
use leptos::leptos_dom::helpers::{TimeoutHandle, set_timeout_with_handle};
use leptos::prelude::*;
use leptos_use::utils::Pausable;
use leptos_use::{UseRafFnOptions, use_media_query, use_raf_fn_with_options, use_resize_observer};

use crate::app::playback::Playback;
use crate::app::words::label;
use crate::scene::View;
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
    /// How often one particle gave another its H⁺: the exchange that never stops.
    pub(super) given: RwSignal<u32>,
    /// Whether the picture is the one before the last addition.
    pub(super) before: RwSignal<bool>,
    /// Whether the person asks for reduced motion.
    pub(super) still: Signal<bool>,
    request: StoredValue<Option<Request>>,
    requests: RwSignal<u32>,
}

impl Controls {
    pub(super) fn new() -> Self {
        Self {
            given: RwSignal::new(0),
            before: RwSignal::new(false),
            still: use_media_query("(prefers-reduced-motion: reduce)"),
            request: StoredValue::new(None),
            requests: RwSignal::new(0),
        }
    }

    /// Asks the canvas for something.
    pub(super) fn ask(self, request: Request) {
        self.before.set(request == Request::Before);
        self.request.set_value(Some(request));
        self.requests.update(|n| *n += 1);
    }
}

/// What the canvas is painted from.
struct Show {
    playback: Playback,
    stage: Stage,
    scene: Scene,
    palette: Palette,
    alarm: Option<TimeoutHandle>,
}

impl Show {
    fn new(store: Store) -> Self {
        let stage = Stage {
            width: 320.0,
            height: 200.0,
        };
        let playback = store
            .shown
            .with_untracked(|s| Playback::new(&s.picture, stage, store.peek(|state| state.view)));
        Self {
            playback,
            stage,
            scene: Scene::default(),
            palette: Palette::default(),
            alarm: None,
        }
    }

    fn paint(&mut self, canvas: NodeRef<Canvas>, base_charge: i8) {
        let Some(canvas) = canvas.get_untracked() else {
            return;
        };
        let Some(context) = prepare(&canvas, self.stage.width, self.stage.height) else {
            return;
        };
        self.playback.scene_into(&mut self.scene);
        let brush = Brush {
            palette: &self.palette,
            base_charge,
            at_start: label::AT_START,
        };
        paint(&self.scene, &context, &brush);
    }

    fn cancel_alarm(&mut self) {
        if let Some(alarm) = self.alarm.take() {
            alarm.clear();
        }
    }
}

/// The canvas. It sleeps whenever nothing moves.
#[component]
pub(super) fn WorldView(
    /// Requests from the controls around it.
    controls: Controls,
    /// The picture in words.
    description: Memo<String>,
) -> impl IntoView {
    let store = Store::get();
    let box_ref = NodeRef::<Div>::new();
    let canvas = NodeRef::<Canvas>::new();
    let show = StoredValue::new_local(Show::new(store));
    // Set by a frame after which nothing moves; an effect puts the canvas to sleep.
    let at_rest = RwSignal::new(false);
    let resized = RwSignal::new(0_u32);

    let Pausable { pause, resume, .. } = use_raf_fn_with_options(
        move |frame| {
            let base_charge = store
                .shown
                .with_untracked(|s| s.reading.setup.pair.base_charge());
            let (given, moving) = show
                .try_update_value(|show| {
                    show.playback
                        .pass((frame.delta / 1000.0).clamp(0.0, LONGEST_FRAME));
                    show.paint(canvas, base_charge);
                    (
                        show.playback.world().counters().given,
                        show.playback.is_moving(),
                    )
                })
                .unwrap_or_default();
            if controls.given.get_untracked() != given {
                controls.given.set(given);
            }
            if !moving {
                at_rest.set(true);
            }
        },
        UseRafFnOptions::default().immediate(false),
    );
    let wake = move || {
        show.update_value(Show::cancel_alarm);
        at_rest.set(false);
        resume();
    };
    let on_alarm = wake.clone();
    Effect::new(move |_| {
        if !at_rest.get() {
            return;
        }
        pause();
        let seconds = show.with_value(|show| show.playback.until_next_motion());
        if seconds.is_finite() && !controls.still.get_untracked() {
            let wake = on_alarm.clone();
            let seconds = seconds.clamp(0.02, 60.0);
            // Frames make up for little, so the time slept through is given to the world here.
            let on_time = move || {
                show.update_value(|show| show.playback.pass(seconds));
                wake();
            };
            let wait = Duration::from_secs_f64(seconds);
            show.update_value(|show| show.alarm = set_timeout_with_handle(on_time, wait).ok());
        }
    });
    on_cleanup(move || show.update_value(Show::cancel_alarm));

    use_resize_observer(box_ref, move |entries, _| {
        if let Some(entry) = entries.first() {
            let rect = entry.content_rect();
            let (width, height) = (rect.width() - 2.0 * INSET, rect.height() - 2.0 * INSET);
            show.update_value(|show| show.stage = Stage { width, height });
            resized.update(|n| *n += 1);
        }
    });
    let dark = use_media_query("(prefers-color-scheme: dark)");
    let mixed = store.flag(|s| s.view == View::Mixed);
    let changes = store.number(|s| s.serial);
    // Each effect changes one thing about the show and wakes the canvas for it.
    let on = move |change: Box<dyn Fn(&mut Show)>, cause: Box<dyn Fn()>| {
        let wake = wake.clone();
        Effect::new(move |_| {
            cause();
            untrack(|| show.update_value(|show| change(show)));
            wake();
        });
    };
    on(
        Box::new(|show| show.playback.set_stage(show.stage)),
        Box::new(move || resized.track()),
    );
    on(
        Box::new(|show| show.palette = Palette::read().unwrap_or_default()),
        Box::new(move || dark.track()),
    );
    on(
        Box::new(move |show| show.playback.set_still(controls.still.get())),
        Box::new(move || controls.still.track()),
    );
    on(
        Box::new(move |show| {
            show.playback.set_view(if mixed.get() {
                View::Mixed
            } else {
                View::Sorted
            });
        }),
        Box::new(move || mixed.track()),
    );
    on(
        Box::new(move |show| {
            let event = store.peek(|s| s.event);
            store
                .shown
                .with(|s| show.playback.follow(event, &s.picture));
            controls.before.set(false);
        }),
        // The picture also changes with the screen, without any action on the bench.
        Box::new(move || {
            // Read, not only tracked: a memo that nobody reads never changes.
            changes.get();
            store.shown.track();
        }),
    );
    on(
        Box::new(move |show| match controls.request.get_value() {
            Some(Request::Replay | Request::After) => {
                show.playback.replay();
            }
            Some(Request::Step) => {
                show.playback.step_through();
            }
            Some(Request::Before) => show.playback.show_before(),
            None => (),
        }),
        Box::new(move || controls.requests.track()),
    );
    view! {
        <div class="canvas-box" node_ref=box_ref>
            <canvas node_ref=canvas role="img" aria-label=description></canvas>
        </div>
    }
}
