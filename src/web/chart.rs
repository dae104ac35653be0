//! Draws a chart as SVG with plotters.
//!
//! Colors are drawn as stand-ins and then replaced by the theme's own variables, so that a
//! change of theme needs no redrawing and the drawing itself can be tested natively.

use plotters::prelude::*;

use crate::lesson::sig_fig::{Writer, decimals_of};
use crate::scene::chart::{Chart, Line, MarkKind};
use crate::web::page::pixels;

/// Stand-in colors and the tokens they become.
const INK: (RGBColor, &str) = (RGBColor(1, 0, 0), "#010000\"");
const WATER: (RGBColor, &str) = (RGBColor(2, 0, 0), "#020000\"");
const BAND: (RGBColor, &str) = (RGBColor(3, 0, 0), "#030000\"");
const GRID: (RGBColor, &str) = (RGBColor(4, 0, 0), "#040000\"");
const PANEL: (RGBColor, &str) = (RGBColor(5, 0, 0), "#050000\"");
const BASE: (RGBColor, &str) = (RGBColor(6, 0, 0), "#060000\"");

const TOKENS: [(&str, &str); 6] = [
    (INK.1, "var(--ink)\""),
    (WATER.1, "var(--water)\""),
    (BAND.1, "var(--range)\""),
    (GRID.1, "var(--line)\""),
    (PANEL.1, "var(--panel)\""),
    (BASE.1, "var(--base-line)\""),
];

/// Margins around the plot, in pixels, for the tick labels that are written over it.
#[derive(Debug, Clone, Copy)]
pub struct Margins {
    /// Left, for pH labels.
    pub left: f64,
    /// Right.
    pub right: f64,
    /// Top.
    pub top: f64,
    /// Bottom, for amounts.
    pub bottom: f64,
}

/// Room for the labels of this page's charts.
pub const MARGINS: Margins = Margins {
    left: 26.0,
    right: 8.0,
    top: 8.0,
    bottom: 20.0,
};

/// Pixel position of a point of the chart on a picture of this size.
fn place(chart: &Chart, size: (u32, u32), (x, y): (f64, f64)) -> (f64, f64) {
    let m = MARGINS;
    let width = f64::from(size.0) - m.left - m.right;
    let height = f64::from(size.1) - m.top - m.bottom;
    (
        m.left + width * (x - chart.x.low) / (chart.x.high - chart.x.low),
        m.top + height * (chart.y.high - y) / (chart.y.high - chart.y.low),
    )
}

/// Tick labels as SVG text: pH up the side, amounts (without sign, both ways from zero)
/// along the bottom.
pub fn labels(chart: &Chart, size: (u32, u32), writer: Writer) -> String {
    if !has_room(size) {
        return String::new();
    }
    let step = chart
        .x
        .ticks
        .windows(2)
        .map(|t| t[1] - t[0])
        .next()
        .unwrap_or(1.0);
    let decimals = decimals_of(step);
    let bottom = f64::from(size.1) - MARGINS.bottom;
    let side = chart.y.ticks.iter().map(|&t| {
        let (_, y) = place(chart, size, (0.0, t));
        text(MARGINS.left - 6.0, y + 4.0, "end", &writer.fixed(t, 0))
    });
    let below = chart.x.ticks.iter().map(|&t| {
        let (x, _) = place(chart, size, (t, 0.0));
        text(x, bottom + 15.0, "middle", &writer.fixed(t.abs(), decimals))
    });
    side.chain(below).collect()
}

fn text(x: f64, y: f64, anchor: &str, text: &str) -> String {
    format!("<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\">{text}</text>")
}

/// The two points over the curves: water, hollow, and the buffer.
pub fn points(chart: &Chart, size: (u32, u32), here: (f64, f64), water: (f64, f64)) -> String {
    if !has_room(size) {
        return String::new();
    }
    let circle = |(x, y): (f64, f64), class: &str, radius: f64| {
        format!("<circle class=\"{class}\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{radius}\"/>")
    };
    let (here, water) = (place(chart, size, here), place(chart, size, water));
    circle(water, "water-point", 5.0)
        + &circle(here, "now-point", 7.0)
        + &circle(here, "now-dot", 2.0)
}

/// Whether there is room for a plot at all.
fn has_room(size: (u32, u32)) -> bool {
    let m = MARGINS;
    f64::from(size.0) > m.left + m.right + 40.0 && f64::from(size.1) > m.top + m.bottom + 40.0
}

/// plotters works in whole pixels, which makes a curve bumpy; it is given a picture this
/// many times as large, scaled back by the SVG.
const FINE: u32 = 10;

/// The chart without its text, as the inside of an SVG element of `size` pixels; empty if
/// the size leaves no room for a plot.
pub fn draw(chart: &Chart, size: (u32, u32)) -> String {
    if !has_room(size) {
        return String::new();
    }
    let m = MARGINS;
    let mut svg = String::new();
    {
        let fine = (size.0 * FINE, size.1 * FINE);
        let area = SVGBackend::with_string(&mut svg, fine).into_drawing_area();
        let margin = |length: f64| (pixels(length) * FINE).cast_signed();
        let area = area.margin(
            margin(m.top),
            margin(m.bottom),
            margin(m.left),
            margin(m.right),
        );
        // Drawing into a string has no way to fail.
        let _ = draw_on(&area, chart);
    }
    for (stand_in, token) in TOKENS {
        svg = svg.replace(stand_in, token);
    }
    // The page has its own svg element, to which labels are added.
    let inner = svg.split_once('>').map_or("", |(_, rest)| rest);
    let inner = inner.trim_end().trim_end_matches("</svg>");
    format!(
        "<g transform=\"scale({})\">{inner}</g>",
        1.0 / f64::from(FINE)
    )
}

fn draw_on<DB: DrawingBackend>(
    area: &DrawingArea<DB, plotters::coord::Shift>,
    chart: &Chart,
) -> Result<(), DrawingAreaErrorKind<DB::ErrorType>> {
    let (x, y) = (&chart.x, &chart.y);
    let mut plot = ChartBuilder::on(area).build_cartesian_2d(x.low..x.high, y.low..y.high)?;
    let (low, high) = (chart.band.0.max(y.low), chart.band.1.min(y.high));
    plot.draw_series([Rectangle::new(
        [(x.low, low), (x.high, high)],
        BAND.0.filled(),
    )])?;
    let across = |t: f64| PathElement::new([(x.low, t), (x.high, t)], GRID.0.stroke_width(FINE));
    plot.draw_series(y.ticks.iter().map(|&t| across(t)))?;
    if x.low < 0.0 && x.high > 0.0 {
        plot.draw_series([PathElement::new(
            [(0.0, y.low), (0.0, y.high)],
            GRID.0.stroke_width(FINE),
        )])?;
    }
    for series in &chart.series {
        let style = match series.line {
            Line::Buffer => INK.0.stroke_width(3 * FINE),
            Line::Water => WATER.0.stroke_width(2 * FINE),
        };
        plot.draw_series(LineSeries::new(series.points.iter().copied(), style))?;
    }
    for mark in &chart.marks {
        match mark.kind {
            MarkKind::Half => {
                plot.draw_series([Circle::new(
                    mark.at,
                    (5 * FINE).cast_signed(),
                    BASE.0.filled(),
                )])?;
            }
            MarkKind::Equivalence => {
                let half = (5 * FINE).cast_signed();
                let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
                // An outline of its own: the SVG back end gives rectangles hairlines only.
                let outline = [0, 1, 2, 3, 0, 1].map(|i| corners[i]);
                let square = EmptyElement::at(mark.at)
                    + Rectangle::new([corners[0], corners[2]], PANEL.0.filled())
                    + PathElement::new(outline, INK.0.stroke_width(2 * FINE));
                plot.draw_series([square])?;
            }
        }
    }
    Ok(())
}
