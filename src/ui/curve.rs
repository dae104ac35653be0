//! pH against amount added, as a picture and as a table.

use leptos::html::Div;
use leptos::prelude::*;
use leptos_use::use_resize_observer;

use crate::app::graph;
use crate::lesson::markup::html;
use crate::scene::chart::Chart;
use crate::web::chart::{Label, draw, labels, place};
use crate::web::store::Store;

/// The panel.
#[component]
pub(super) fn CurvePanel() -> impl IntoView {
    let store = Store::get();
    let unit = move || store.reading.with(|r| r.scale.symbol());
    view! {
        <div class="panel curve">
            <h2>"pH against amount added"</h2>
            <Picture/>
            <p class="quiet chart-legend">
                <span><svg viewBox="0 0 24 12" aria-hidden="true"><path d="M0 6h24" stroke="currentColor" stroke-width="3"/></svg>"this buffer"</span>
                <span><svg viewBox="0 0 24 12" aria-hidden="true"><path d="M0 6h24" stroke="currentColor" stroke-width="2" stroke-dasharray="5 4"/></svg>"water alone"</span>
                <span>"▭ useful range (pKa ± 1)"</span>
                <span>"● half-neutralised"</span>
                <span>"□ equivalence"</span>
                <span>"◎ now"</span>
            </p>
            <details>
                <summary>"The same as a table"</summary>
                <Table/>
            </details>
            <span class="unseen">{move || format!("Amounts in {}.", unit())}</span>
        </div>
    }
}

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
        store
            .chart
            .with(|c| c.as_ref().map(|c| draw(c, size.get())).unwrap_or_default())
    });
    let with_chart = move |f: &dyn Fn(&Chart) -> AnyView| {
        store
            .chart
            .with(|c| c.as_ref().filter(|_| size.get().0 > 100).map(f))
    };
    let name = move || {
        store.reading.with(|r| {
            let w = store.writer();
            format!(
                "Curve of pH against amount added. Now: pH {}, water {}.",
                w.ph(r.now.ph()),
                w.ph(r.now.water)
            )
        })
    };
    let axis_text = move || {
        with_chart(&|chart| {
            let (side, below) = labels(chart, size.get(), store.writer());
            view! {
                {side.into_iter().map(|l| text(l, "end", "middle")).collect_view()}
                {below.into_iter().map(|l| text(l, "middle", "auto")).collect_view()}
            }
            .into_any()
        })
    };
    let points = move || {
        with_chart(&|chart| {
            let (now, water) = store
                .reading
                .with(|r| (graph::here(r), graph::water_here(r)));
            let (x, y) = place(chart, size.get(), now);
            let (water_x, water_y) = place(chart, size.get(), water);
            view! {
                <circle cx=water_x cy=water_y r="5" fill="var(--panel)" stroke="var(--water)" stroke-width="2"/>
                <circle cx=x cy=y r="7" fill="var(--panel)" stroke="var(--ink)" stroke-width="3"/>
                <circle cx=x cy=y r="2" fill="var(--ink)"/>
            }
            .into_any()
        })
    };
    let unit = move || store.reading.with(|r| r.scale.symbol());
    view! {
        <div class="chart-box" node_ref=box_ref>
            <svg role="img" aria-label=name>
                <g inner_html=drawn></g>
                <g class="digits" aria-hidden="true">{axis_text}</g>
                <g id="now-on-curve">{points}</g>
            </svg>
        </div>
        <p class="quiet ends" aria-hidden="true">
            <span>{move || format!("← acid added / {}", unit())}</span>
            <span>{move || format!("alkali added / {} →", unit())}</span>
        </p>
    }
}

fn text(label: Label, anchor: &'static str, baseline: &'static str) -> impl IntoView {
    view! {
        <text x=label.x y=label.y text-anchor=anchor dominant-baseline=baseline>{label.text}</text>
    }
}

#[component]
fn Table() -> impl IntoView {
    let store = Store::get();
    let rows = move || {
        let range = store.range.get();
        store.reading.with(|r| {
            let w = store.writer();
            let decimals = r.scale.decimals();
            graph::table(r, range)
                .unwrap_or_default()
                .into_iter()
                .map(|row| {
                    let added = row.added.mol().signum() * r.scale.value(row.added.size());
                    let what = match added {
                        a if a < 0.0 => format!("{} acid", w.fixed(-a, decimals)),
                        a if a > 0.0 => format!("{} alkali", w.fixed(a, decimals)),
                        _ => "nothing".to_owned(),
                    };
                    view! {
                        <tr><th scope="row">{what}</th><td>{w.fixed(row.ph, 2)}</td><td>{w.fixed(row.water, 2)}</td></tr>
                    }
                })
                .collect_view()
        })
    };
    view! {
        <div class="scroll" tabindex="0" role="region" aria-label="Data table of the curve">
            <table class="figures digits">
                <thead><tr>
                    <th scope="col" inner_html=move || html(&format!("added / {}", store.reading.with(|r| r.scale.symbol())))></th>
                    <th scope="col">"pH"</th>
                    <th scope="col">"water"</th>
                </tr></thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}
