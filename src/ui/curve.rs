//! pH against amount added, as a picture and as a table.

use leptos::html::Div;
use leptos::prelude::*;

use crate::app::graph;
use crate::app::shown::Shown;
use crate::app::words::addition::Voice;
use crate::app::words::explanation::curve_rows;
use crate::app::words::label;
use crate::scene::chart::Chart;
use crate::web::chart::{draw, labels, points};
use crate::web::page::pixels;
use crate::web::store::{Store, memo_text};
use crate::web::watch::on_resize;

/// The panel.
#[component]
pub(super) fn CurvePanel() -> impl IntoView {
    let store = Store::get();
    view! {
        <div class="panel curve">
            <h2>{label::CURVE}</h2>
            <Picture/>
            <p class="quiet ends" aria-hidden="true">
                <span>{store.text(|r, _| label::acid_axis(r.scale.symbol()))}</span>
                <span>{store.text(|r, _| label::alkali_axis(r.scale.symbol()))}</span>
            </p>
            <p class="quiet chart-legend">
                <span class="solid">{label::THIS_BUFFER}</span>
                <span class="dashed">{label::WATER_ALONE}</span>
                {label::CURVE_KEY.map(|(sign, text)| view! { <span data-sign=sign>{text}</span> }.into_any()).collect_view()}
            </p>
            <details>
                <summary>{label::AS_TABLE}</summary>
                <Table/>
            </details>
        </div>
    }
}

/// Counts the curves: it changes when another one is to be drawn or written.
fn serial(store: Store) -> Memo<u32> {
    Memo::new(move |_| store.shown(|s| s.chart_serial))
}

/// The curves, drawn anew only for another buffer or size, with the two points over them.
#[component]
fn Picture() -> impl IntoView {
    let store = Store::get();
    let box_ref = NodeRef::<Div>::new();
    let size = StoredValue::new((0_u32, 0_u32));
    let resized = RwSignal::new(0_u32);
    let measured = move |width, height| {
        size.set_value((pixels(width), pixels(height)));
        resized.update(|n| *n += 1);
    };
    on_resize(box_ref, Box::new(measured));
    let serial = serial(store);
    // The chart with its number.
    let chart = StoredValue::new((None::<u32>, Chart::default()));
    let drawn = memo_text(Box::new(move |_| {
        let serial = serial.get();
        resized.track();
        let size = size.get_value();
        if chart.with_value(|(of, _)| *of != Some(serial)) {
            chart.set_value((Some(serial), store.peek_shown(Shown::chart)));
        }
        chart.with_value(|(_, chart)| draw(chart, size) + &labels(chart, size, store.writer()))
    }));
    let now = memo_text(Box::new(move |_| {
        // The curve comes first, for these are points of it.
        drawn.with(|_| ());
        let size = size.get_value();
        chart.with_value(|(_, chart)| {
            store.shown(|s| {
                let (here, water) = (graph::here(&s.reading), graph::water_here(&s.reading));
                points(chart, size, here, water)
            })
        })
    }));
    // On paper it is as wide as the paper.
    let view_box = memo_text(Box::new(move |_| {
        resized.track();
        let (width, height) = size.get_value();
        format!("0 0 {width} {height}")
    }));
    let name = store.text(|r, w| label::curve_description(&w.ph(r.now.ph()), &w.ph(r.now.water)));
    view! {
        <div class="chart-box" node_ref=box_ref>
            <svg role="img" aria-label=name viewBox=view_box>
                <g aria-hidden="true" inner_html=drawn></g>
                <g aria-hidden="true" id="now-on-curve" inner_html=now></g>
            </svg>
        </div>
    }
}

#[component]
fn Table() -> impl IntoView {
    let store = Store::get();
    let writer = store.writer();
    let serial = serial(store);
    let rows = memo_text(Box::new(move |_| {
        serial.get();
        store.peek_shown(|s| {
            let rows = graph::table(&s.reading, s.range).unwrap_or_default();
            curve_rows(&Voice::of(&s.reading, writer), &rows)
        })
    }));
    view! {
        <div class="scroll" tabindex="0" role="region" aria-label=label::AS_TABLE>
            <table class="figures digits">
                <thead>
                    <tr>
                        <th scope="col">{store.text(|r, _| label::added(r.scale.symbol()))}</th>
                        <th scope="col">{label::PH_ROWS[0]}</th>
                        <th scope="col">{label::WATER_ALONE}</th>
                    </tr>
                </thead>
                <tbody inner_html=rows></tbody>
            </table>
        </div>
    }
}
