//! A chart as data: axes, curves, bands and marks, in the units of its axes.
//!
//! A painter turns it into a picture, and a table can be written from the same points.

/// An axis with its ticks.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Axis {
    /// Value at the left or bottom end.
    pub low: f64,
    /// Value at the right or top end.
    pub high: f64,
    /// Where ticks stand, in order.
    pub ticks: Vec<f64>,
}

/// Which curve a series is; the painter gives each its own color and stroke.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Line {
    /// The buffer.
    Buffer,
    /// Water with the same additions.
    Water,
}

/// A curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// Which one.
    pub line: Line,
    /// Its points, in order of x.
    pub points: Vec<(f64, f64)>,
}

/// A point with a meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MarkKind {
    /// As much of the acid form as of the base form.
    Half,
    /// All of the pair is in one form.
    Equivalence,
}

/// A marked point of the buffer's curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Its meaning.
    pub kind: MarkKind,
    /// Where it is.
    pub at: (f64, f64),
}

/// A chart of pH against signed amount added.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Chart {
    /// Amount added: acid to the left (negative), alkali to the right.
    pub x: Axis,
    /// pH.
    pub y: Axis,
    /// The useful range of pH.
    pub band: (f64, f64),
    /// Curves, later ones over earlier ones.
    pub series: Vec<Series>,
    /// Half-neutralization and equivalence, where they are on the chart.
    pub marks: Vec<Mark>,
}

impl Axis {
    /// An axis from `low` to `high` with ticks at round numbers, about `count` of them.
    pub fn with_round_ticks(low: f64, high: f64, count: u32) -> Self {
        let step = round_step((high - low) / f64::from(count.max(1)));
        let first = libm::ceil(low / step - 1e-9);
        let ticks = (0..=4 * count)
            .map(|i| (first + f64::from(i)) * step)
            .take_while(|t| *t <= high + 1e-9 * step)
            .collect();
        Self { low, high, ticks }
    }
}

/// The 1–2–5 number next above `step`.
pub fn round_step(step: f64) -> f64 {
    if !step.is_finite() || step <= 0.0 {
        return 1.0;
    }
    let decade = crate::chem::power::ten_to(libm::floor(libm::log10(step)));
    let mantissa = step / decade * (1.0 - 1e-9);
    decade
        * [1.0, 2.0, 5.0]
            .into_iter()
            .find(|m| *m >= mantissa)
            .unwrap_or(10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_inside() {
        let axis = Axis::with_round_ticks(-15.0, 15.0, 6);
        assert_eq!(axis.ticks, [-15.0, -10.0, -5.0, 0.0, 5.0, 10.0, 15.0]);
        let axis = Axis::with_round_ticks(-0.013, 0.028, 6);
        assert_eq!(axis.ticks.len(), 4);
        assert!(axis.ticks.iter().all(|t| (-0.013..=0.028).contains(t)));
        assert_eq!(round_step(f64::NAN), 1.0);
        assert_eq!(round_step(0.2), 0.2);
        assert_eq!(round_step(0.21), 0.5);
        assert_eq!(round_step(6.0), 10.0);
    }
}
