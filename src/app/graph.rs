//! The curve of a reading: pH against signed amount added, for the buffer and for water.

use crate::app::reading::{CONDITIONS, Reading};
use crate::chem::equilibrium::SolveError;
use crate::chem::mixture::Mixture;
use crate::chem::power::whole;
use crate::chem::quantity::{Amount, SignedAmount};
use crate::chem::titration::curve;
use crate::scene::chart::{Axis, Chart, Line, Mark, MarkKind, Series};

/// Points of each curve.
pub const POINTS: usize = 400;

/// Rows of the data table, one way of writing the same curve.
pub const ROWS: i64 = 25;

/// How far the curve runs past both equivalence points, as a share of the way between them.
const BEYOND: f64 = 0.25;

/// The range of a curve in steps of the smallest addition: past both equivalence points,
/// and as far as the bench has been pushed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Range {
    low: i64,
    high: i64,
}

impl Range {
    /// The range for `reading`. It grows in strides, so that it stays put while additions
    /// move the point along it.
    pub fn of(reading: &Reading) -> Self {
        let step = reading.scale.step.mol();
        let Some(marks) = reading.setup.pair.landmarks(&reading.setup.mixture) else {
            return Self {
                low: -100,
                high: 100,
            };
        };
        let (acid, base) = (marks.all_acid.mol() / step, marks.all_base.mol() / step);
        let stride = (BEYOND * (base - acid)).max(1.0);
        let now = reading.now.added.mol() / step;
        let past = |edge: f64| {
            if edge > 0.0 {
                stride * libm::ceil(edge / stride)
            } else {
                0.0
            }
        };
        let low = acid.min(0.0) - stride - past(acid.min(0.0) - stride - now);
        let high = base.max(0.0) + stride + past(now - base.max(0.0) - stride);
        Self {
            low: whole(libm::floor(low + 1e-6)),
            high: whole(libm::ceil(high - 1e-6)),
        }
    }
}

/// The chart of `reading` over `range`, with amounts in the unit of its scale.
///
/// # Errors
/// [`SolveError`] if some point of a curve has no answer.
pub fn chart(reading: &Reading, range: Range) -> Result<Chart, SolveError> {
    let unit = |added: SignedAmount| added.mol().signum() * reading.scale.value(added.size());
    let marks = reading.setup.pair.landmarks(&reading.setup.mixture);
    let through: Vec<SignedAmount> = marks
        .iter()
        .flat_map(|m| [m.all_acid, m.half, m.all_base])
        .chain([SignedAmount::default()])
        .collect();
    let series = |line, start: &Mixture| -> Result<Series, SolveError> {
        let ends = (steps(reading, range.low), steps(reading, range.high));
        let points = curve(
            start,
            &CONDITIONS,
            &reading.setup.stock,
            ends,
            &through,
            POINTS,
        )?;
        let points = points
            .into_iter()
            .map(|p| (unit(p.added), p.ph.value()))
            .collect();
        Ok(Series { line, points })
    };
    let buffer = series(Line::Buffer, &reading.setup.mixture)?;
    let water = series(Line::Water, &Mixture::water(reading.setup.mixture.volume()))?;
    let on_curve = |x: f64| {
        buffer
            .points
            .iter()
            .find(|p| (p.0 - x).abs() < 1e-9 * (1.0 + x.abs()))
    };
    let mark = |kind, at: SignedAmount| on_curve(unit(at)).map(|&at| Mark { kind, at });
    let marks = marks
        .iter()
        .flat_map(|m| {
            [
                mark(MarkKind::Equivalence, m.all_acid),
                mark(MarkKind::Half, m.half),
                mark(MarkKind::Equivalence, m.all_base),
            ]
        })
        .flatten()
        .collect();
    let pka = reading.setup.pair.pka_at(&CONDITIONS);
    // Curves of strong stocks leave 0–14 by a little: pH −1 in 10 mol dm⁻³ acid.
    let all = buffer.points.iter().chain(&water.points).map(|p| p.1);
    let (lowest, highest) = all.fold((0.0_f64, 14.0_f64), |(l, h), y| (l.min(y), h.max(y)));
    Ok(Chart {
        x: Axis::with_round_ticks(
            unit(steps(reading, range.low)),
            unit(steps(reading, range.high)),
            8,
        ),
        y: Axis::with_round_ticks(libm::floor(lowest), libm::ceil(highest), 7),
        band: (pka - 1.0, pka + 1.0),
        series: vec![water, buffer],
        marks,
    })
}

/// The point of the bench now, in the chart's units.
pub fn here(reading: &Reading) -> (f64, f64) {
    let added = reading.now.added;
    (
        added.mol().signum() * reading.scale.value(added.size()),
        reading.now.ph().value(),
    )
}

/// The same in water.
pub fn water_here(reading: &Reading) -> (f64, f64) {
    (here(reading).0, reading.now.water.value())
}

/// One row of the data table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Signed amount added.
    pub added: SignedAmount,
    /// pH of the buffer.
    pub ph: f64,
    /// pH of water.
    pub water: f64,
}

/// The curve as a table of [`ROWS`] evenly spaced rows.
///
/// # Errors
/// As [`chart`].
pub fn table(reading: &Reading, range: Range) -> Result<Vec<Row>, SolveError> {
    let width = range.high - range.low;
    // Whole steps, so that every row is an amount that can be added on the bench.
    let stride = (width / (ROWS - 1)).max(1);
    let first = range.low.div_euclid(stride) + i64::from(range.low.rem_euclid(stride) != 0);
    let places = (first..)
        .map(|i| i * stride)
        .take_while(|x| *x <= range.high);
    let water = Mixture::water(reading.setup.mixture.volume());
    places
        .map(|place| {
            let added = steps(reading, place);
            let at = |start: &Mixture| {
                let size = added.size();
                let (acid, alkali) = if place < 0 {
                    (size, Amount::ZERO)
                } else {
                    (Amount::ZERO, size)
                };
                let mixture = reading.setup.stock.added_to(start, acid, alkali);
                crate::chem::equilibrium::solve_ph(&mixture, &CONDITIONS).map(|ph| ph.value())
            };
            Ok(Row {
                added,
                ph: at(&reading.setup.mixture)?,
                water: at(&water)?,
            })
        })
        .collect()
}

fn steps(reading: &Reading, count: i64) -> SignedAmount {
    SignedAmount::from_mol(reading.scale.step.mol() * count as f64)
        .expect("a whole number of small steps")
}
