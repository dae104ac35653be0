//! What a teacher prints: the questions, their answers, the bench.

use leptos::ev::{afterprint, beforeprint};
use leptos::prelude::*;
use web_sys::Element;

use super::glyph::{Body, drawn};
use super::lesson::draft;
use crate::app::desk::DeskAction;
use crate::app::graph;
use crate::app::paper::Sheet;
use crate::app::paper::handout::{Handout, STILL};
use crate::app::plan::{Plan, short_seed};
use crate::app::state::State;
use crate::app::words::paper::handout::{KEY, Pictures, handout};
use crate::app::words::paper::{self as words, Printed, answers::answers, questions};
use crate::app::words::{label, reservoir};
use crate::lesson::conventions::rewritten;
use crate::lesson::markup::html;
use crate::lesson::sig_fig::Writer;
use crate::web::canvas::{Brush, Layer, Palette, Surface};
use crate::web::chart::{draw, labels, points};
use crate::web::repaint::{Kept, paint};
use crate::web::store::Store;
use crate::web::{page, print};

/// What can be printed, as its class in the stylesheet, in the order of its words.
const PARTS: [&str; 3] = ["questions", "answers", "handout"];

/// Dots of a still for each unit of its scene: about 500 to an inch of paper.
const SHARP: f64 = 5.0;

/// The size of the curve, in its own units.
const CURVE: (u32, u32) = (640, 180);

/// The part of the panel.
#[component]
pub(super) fn Paper() -> impl IntoView {
    let store = Store::get();
    let other = move |_| {
        store.work(DeskAction::PaperSeeded(short_seed(page::seed())));
    };
    if store.peek(|s| s.desk.paper.is_none()) {
        other(());
    }
    let fixed = store.flag(|s| draft(s, |plan| plan.questions.seed.is_some()));
    let numbers =
        store.typed(|s| words::numbers(seed(s), draft(s, |p| p.questions.seed.is_some())));
    let said = RwSignal::new("");
    // The browser tells when its print window opens, and when it is closed again.
    let opened = StoredValue::new(false);
    let listeners = [
        window_event_listener(beforeprint, move |_| opened.set_value(true)),
        window_event_listener(afterprint, |_| print::clear()),
    ];
    on_cleanup(move || {
        listeners.into_iter().for_each(|listener| listener.remove());
        print::clear();
    });
    print::prepare();
    let buttons = PARTS.into_iter().zip(words::PARTS).map(|(part, name)| {
        let press = move |_| {
            if !print::is_ready() {
                said.set(words::NOT_READY);
                return;
            }
            said.set("");
            opened.set_value(false);
            if store.peek(|s| lay(s, part)).is_some() {
                print::print();
            }
            // It stays laid: the browser's own command prints it, until the panel is left.
            if !opened.get_value() {
                said.set(words::REFUSED);
            }
        };
        view! { <button type="button" class="key" on:click=press>{name}</button> }.into_any()
    });
    view! {
        <h3>{words::PRINT}</h3>
        <p class="quiet">{words::ABOUT}</p>
        <div class="back">{buttons.collect_view()}</div>
        <p class="quiet">{numbers}</p>
        <div hidden=fixed>
            <button type="button" class="key plain" on:click=move |_| other(())>{words::OTHER_NUMBERS}</button>
        </div>
        <p class="warning" role="status">{said}</p>
    }
}

/// The seed of the questions on paper: the lesson's where it has one.
fn seed(state: &State) -> u32 {
    let own = state.desk.paper.unwrap_or_default();
    draft(state, |plan| plan.questions.seed).unwrap_or(own)
}

/// Puts `part` on the page for the printer.
fn lay(state: &State, part: &str) -> Option<()> {
    let plan = state.desk.draft.as_ref()?;
    let writer = plan.conventions.writer();
    let sheet = || Sheet::of(plan, seed(state));
    match part {
        "handout" => lay_handout(state, plan, writer),
        "answers" => put(part, plan, answers(&sheet(), writer)).map(|_| ()),
        _ => {
            let sheet = sheet();
            let opens = sheet.opens(&page::address(), words::CODE);
            put(part, plan, questions(&sheet, opens.as_ref(), writer)).map(|_| ())
        }
    }
}

/// Puts a printed part on the page, in the conventions of the lesson that is set up.
fn put(part: &str, plan: &Plan, printed: Printed) -> Option<Element> {
    let body = rewritten(printed.body, &plan.conventions.exchanges());
    let markup = ["<div class=\"", part, "\">", &printed.head, &body, "</div>"].concat();
    print::lay(&markup, &printed.foot)
}

fn lay_handout(state: &State, plan: &Plan, writer: Writer) -> Option<()> {
    let shown = Handout::of(&state.bench);
    let names = &shown.reading.setup.names;
    let bodies = [
        (Body::Acid, reservoir::acid_title(names)),
        (Body::Base, reservoir::base_title(names)),
        (Body::Hydrogen, KEY[0].to_owned()),
        (Body::Hydroxide, KEY[1].to_owned()),
    ];
    let key: String = bodies
        .iter()
        .map(|(body, name)| {
            let drawing = drawn(*body);
            let name = html(name);
            format!(
                "<span><svg class=\"glyph\" viewBox=\"0 0 24 24\">{drawing}</svg> {name}</span>"
            )
        })
        .collect();
    let (here, water) = (
        graph::here(&shown.reading),
        graph::water_here(&shown.reading),
    );
    let curve = [
        &format!("<svg viewBox=\"0 0 {} {}\">", CURVE.0, CURVE.1),
        &draw(&shown.chart, CURVE),
        &labels(&shown.chart, CURVE, writer),
        &points(&shown.chart, CURVE, here, water),
        "</svg>",
    ];
    let pictures = Pictures {
        key: &key,
        curve: &curve.concat(),
    };
    let printed = handout(&shown, (plan, &state.bench.recipe), pictures, writer);
    let paper = put("handout", plan, printed)?;
    let palette = Palette::print();
    let brush = Brush {
        palette: &palette,
        base_charge: shown.reading.setup.pair.base_charge(),
        at_start: label::AT_START,
        free: label::free(writer.ion),
    };
    for (scene, place) in shown.stills().iter().zip(["first", "last"]) {
        let canvas = print::canvas(&paper, &format!(".stills figure:{place}-child canvas"))?;
        let surface = Surface {
            layer: &Layer::new(canvas)?,
            size: (STILL.width, STILL.height),
            ratio: SHARP,
        };
        paint(scene, &surface, &brush, &mut Kept::default());
    }
    Some(())
}
