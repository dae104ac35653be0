//! The particle world on its canvas.

use leptos::html::{Canvas, Div};
use leptos::prelude::*;

use crate::app::playback::Playback;
use crate::app::words::label;
use crate::lesson::hydrogen_ion::HydrogenIon;
use crate::scene::View;
use crate::scene::shape::Scene;
use crate::scene::stage::Stage;
use crate::web::canvas::{Brush, INSET, Layer, Palette, Surface};
use crate::web::repaint::{Kept, paint_in_layers};
use crate::web::store::{Store, react};
use crate::web::surface::sharpness;
use crate::web::watch::{Frames, media, on_resize, on_return};

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
    /// Which step of the last addition is shown, from 1; 0 if it is not being stepped through.
    pub(super) step: RwSignal<u32>,
    /// Whether the picture is the one before the last addition.
    pub(super) before: RwSignal<bool>,
    /// Whether the person asks for reduced motion.
    pub(super) still: RwSignal<bool>,
    request: StoredValue<Option<Request>>,
    requests: RwSignal<u32>,
}

impl Controls {
    pub(super) fn new() -> Self {
        Self {
            given: RwSignal::new(0),
            step: RwSignal::new(0),
            before: RwSignal::new(false),
            still: media("(prefers-reduced-motion: reduce)"),
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
    kept: Kept,
    /// The canvases, once they are there, the lowest first.
    layers: Option<[Layer; 3]>,
    palette: Palette,
    ion: HydrogenIon,
}

impl Show {
    fn new(store: Store) -> Self {
        let stage = Stage {
            width: 320.0,
            height: 200.0,
        };
        let playback =
            store.peek_shown(|s| Playback::new(&s.picture, stage, store.peek(|state| state.view)));
        Self {
            playback,
            stage,
            scene: Scene::default(),
            kept: Kept::default(),
            layers: None,
            palette: Palette::default(),
            ion: store.writer().ion,
        }
    }

    fn paint(&mut self, canvases: [NodeRef<Canvas>; 3], base_charge: i8) {
        if self.layers.is_none() {
            let layer = |canvas: NodeRef<Canvas>| Layer::new(canvas.get_untracked()?);
            let [Some(ground), Some(rest), Some(moving)] = canvases.map(layer) else {
                return;
            };
            self.layers = Some([ground, rest, moving]);
        }
        let Some([ground, rest, moving]) = &self.layers else {
            return;
        };
        self.playback.scene_into(&mut self.scene);
        let brush = Brush {
            palette: &self.palette,
            base_charge,
            at_start: label::AT_START,
            free: label::free(self.ion),
        };
        let ratio = sharpness();
        let surface = |layer| Surface {
            layer,
            size: (self.stage.width, self.stage.height),
            ratio,
        };
        let surfaces = [&surface(ground), &surface(rest), &surface(moving)];
        paint_in_layers(&self.scene, surfaces, &brush, &mut self.kept);
    }
}

/// The canvas: one for the pans, over it one for what rests and one for what moves. It sleeps
/// whenever nothing moves.
#[component]
pub(super) fn WorldView(
    /// Requests from the controls around it.
    controls: Controls,
    /// The picture in words.
    description: Memo<String>,
) -> impl IntoView {
    let store = Store::get();
    let box_ref = NodeRef::<Div>::new();
    let canvases = [(); 3].map(|()| NodeRef::<Canvas>::new());
    let show = StoredValue::new_local(Show::new(store));
    let resized = RwSignal::new(0_u32);

    let frames = Frames::new(Box::new(move |seconds| {
        let base_charge = store.peek_shown(|s| s.reading.setup.pair.base_charge());
        // Nothing is painted for a size that nobody has measured yet.
        if resized.get_untracked() == 0 {
            return f64::INFINITY;
        }
        // The frame that shows an addition's pH waits for no particle.
        if store.is_first_frame() {
            show.update_value(|show| show.playback.pass(seconds));
            return 0.0;
        }
        let painted = show.try_update_value(|show| {
            show.playback.pass(seconds);
            show.paint(canvases, base_charge);
            let playback = &show.playback;
            let given = playback.world().counters().given;
            (given, playback.until_next_frame())
        });
        let (given, until) = painted.unwrap_or((0, f64::INFINITY));
        if controls.given.get_untracked() != given {
            controls.given.set(given);
        }
        // What moves on by itself is not being stepped through.
        if until <= 0.0 && controls.step.get_untracked() != 0 {
            controls.step.set(0);
        }
        until
    }));

    let measured = move |width: f64, height: f64| {
        let (width, height) = (width - 2.0 * INSET, height - 2.0 * INSET);
        show.update_value(|show| show.stage = Stage { width, height });
        resized.update(|n| *n += 1);
    };
    on_resize(box_ref, Box::new(measured));
    // While nobody looks at it, a browser may lose what was painted.
    let returned = RwSignal::new(0_u32);
    on_return(canvases, Box::new(move || returned.update(|n| *n += 1)));
    let dark = media("(prefers-color-scheme: dark)");
    let forced = media("(forced-colors: active)");
    let look = store.number(|s| s.look as u32);
    let mixed = store.flag(|s| s.view == View::Mixed);
    let changes = store.number(|s| s.serial);
    // Each effect changes one thing about the show and wakes the canvas for it.
    let on = move |change: Box<dyn Fn(&mut Show)>, cause: Box<dyn Fn()>| {
        let frames = frames.clone();
        react(Box::new(move || {
            cause();
            untrack(|| show.update_value(|show| change(show)));
            frames.wake();
        }));
    };
    on(
        Box::new(|show| show.playback.set_stage(show.stage)),
        Box::new(move || resized.track()),
    );
    on(
        Box::new(|show| {
            show.palette = Palette::read().unwrap_or_default();
            show.kept.forget();
        }),
        Box::new(move || {
            dark.track();
            forced.track();
            returned.track();
            look.get();
        }),
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
            store.shown(|s| show.playback.follow(event, &s.picture));
            controls.before.set(false);
            controls.step.set(0);
        }),
        // The picture also changes with the screen, without any action on the bench.
        Box::new(move || {
            // Read, not only tracked: a memo that nobody reads never changes.
            changes.get();
            store.shown(|_| ());
        }),
    );
    on(
        Box::new(move |show| match controls.request.get_value() {
            Some(Request::Replay | Request::After) => {
                show.playback.replay();
            }
            Some(Request::Step) => {
                let beat = show.playback.step_through();
                controls.step.set(beat.map_or(0, |beat| beat as u32 + 1));
            }
            Some(Request::Before) => show.playback.show_before(),
            None => (),
        }),
        Box::new(move || controls.requests.track()),
    );
    let [ground, rest, moving] = canvases;
    view! {
        <div class="canvas-box" node_ref=box_ref>
            <canvas node_ref=ground role="img" aria-label=description></canvas>
            <canvas node_ref=rest aria-hidden="true"></canvas>
            <canvas node_ref=moving aria-hidden="true"></canvas>
        </div>
    }
}
