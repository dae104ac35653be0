//! pH against amount added, as a picture and as a table.

use leptos::html::Div;
use leptos::prelude::*;
use leptos_use::use_resize_observer;

use crate::app::graph;
use crate::app::words::{addition, label};
use crate::chem::titration::Reagent;
use crate::lesson::sig_fig::PH_DECIMALS;
use crate::web::chart::{draw, labels, points};
use crate::web::store::Store;

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
                {label::CURVE_KEY.map(|text| view! { <span>{text}</span> }.into_any()).collect_view()}
            </p>
            <details>
                <summary>{label::AS_TABLE}</summary>
                <Table/>
            </details>
        </div>
    }
}

/// The curves, drawn anew only for another buffer or size, with the two points over them.
#[component]
fn Picture() -> impl IntoView {
    let store = Store::get();
    let box_ref = NodeRef::<Div>::new();
    let size = RwSignal::new((0_u32, 0_u32));
    use_resize_observer(box_ref, move |entries, _| {
        if let Some(entry) = entries.first() {
            let rect = entry.content_rect();
            size.set((rect.width() as u32, rect.height() as u32));
        }
    });
    let drawn = Memo::new(move |_| {
        store.chart.with(|chart| {
            chart.as_ref().map_or(String::new(), |chart| {
                draw(chart, size.get()) + &labels(chart, size.get(), store.writer())
            })
        })
    });
    let now = Memo::new(move |_| {
        let (here, water) = store
            .reading
            .with(|r| (graph::here(r), graph::water_here(r)));
        store.chart.with(|chart| {
            chart.as_ref().map_or(String::new(), |chart| {
                points(chart, size.get(), here, water)
            })
        })
    });
    let name = store.text(|r, w| label::curve_description(&w.ph(r.now.ph()), &w.ph(r.now.water)));
    view! {
        <div class="chart-box" node_ref=box_ref>
            <svg role="img" aria-label=name>
                <g aria-hidden="true" inner_html=drawn></g>
                <g aria-hidden="true" id="now-on-curve" inner_html=now></g>
            </svg>
        </div>
    }
}

#[component]
fn Table() -> impl IntoView {
    let store = Store::get();
    let rows = move || {
        let range = store.range.get();
        let w = store.writer();
        store.reading.with(|r| {
            let row = |row: graph::Row| {
                let added = row.added.mol();
                let reagent = match added {
                    a if a < 0.0 => Some(addition::reagent(Reagent::Acid)),
                    a if a > 0.0 => Some(addition::reagent(Reagent::Alkali)),
                    _ => None,
                };
                let amount = label::row(&w.amount_number(row.added.size(), r.scale), reagent);
                view! {
                    <tr>
                        <th scope="row">{amount}</th>
                        <td>{w.fixed(row.ph, PH_DECIMALS)}</td>
                        <td>{w.fixed(row.water, PH_DECIMALS)}</td>
                    </tr>
                }
                .into_any()
            };
            graph::table(r, range)
                .unwrap_or_default()
                .into_iter()
                .map(row)
                .collect_view()
        })
    };
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
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}
