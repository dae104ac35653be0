//! Everything that follows from a state and is shown, worked out once for all parts.

use crate::app::graph::{self, Range};
use crate::app::picture::Picture;
use crate::app::reading::Reading;
use crate::app::state::State;
use crate::scene::chart::Chart;

/// What is shown.
#[derive(Debug, Clone)]
pub struct Shown {
    /// The bench, solved.
    pub reading: Reading,
    /// The bench in particles.
    pub picture: Picture,
    /// The range that the curve covers.
    pub range: Range,
    /// Counts the curves so far: an addition moves along a curve, it does not make one. The curve
    /// itself is worked out by whoever draws it.
    pub chart_serial: u32,
}

impl PartialEq for Shown {
    fn eq(&self, other: &Self) -> bool {
        // The curve follows from the reading's setup and the range.
        self.chart_serial == other.chart_serial
            && self.reading == other.reading
            && self.picture == other.picture
    }
}

impl Shown {
    /// What `state` shows; `before` is what was shown last.
    pub fn of(state: &State, before: Option<&Self>) -> Self {
        let setup = state.bench.recipe.read();
        let setup = setup.expect("only a recipe that can be read comes on the bench");
        let reading = Reading::of(&state.bench, setup)
            .expect("only a mixture that can be solved comes on the bench");
        let picture = Picture::of(&reading, state.detail);
        let range = Range::of(&reading);
        let chart_serial = before.map_or(0, |b| {
            let same = b.range == range && b.reading.setup == reading.setup;
            b.chart_serial + u32::from(!same)
        });
        Self {
            reading,
            picture,
            range,
            chart_serial,
        }
    }

    /// The curve. Hundreds of mixtures are solved for it, so it is worked out only for whoever
    /// draws it.
    pub fn chart(&self) -> Chart {
        graph::chart(&self.reading, self.range)
            .expect("between two mixtures that can be solved all can")
    }
}
