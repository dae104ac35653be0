//! The bench on one page: as it was at the start, and as it is now.

use crate::app::bench::{Addition, Bench, SIZES};
use crate::app::graph::{self, Range};
use crate::app::picture::{Detail, Picture};
use crate::app::playback::Playback;
use crate::app::reading::Reading;
use crate::chem::titration::Reagent;
use crate::scene::View;
use crate::scene::chart::Chart;
use crate::scene::shape::Scene;
use crate::scene::stage::Stage;

/// The size of a still, in the units of its scene.
pub const STILL: Stage = Stage {
    width: 336.0,
    height: 190.0,
};

/// What is on the page.
#[derive(Debug, Clone)]
pub struct Handout {
    /// The bench, solved; with the example where nothing was added.
    pub reading: Reading,
    /// Its particles at the start.
    pub start: Picture,
    /// Its particles now.
    pub now: Picture,
    /// Whether what was added is an example: nothing was added on the bench itself.
    pub is_example: bool,
    /// Its curve.
    pub chart: Chart,
}

impl Handout {
    /// The handout of a bench. Where nothing was added the second still would be the first once
    /// more; an example is added then, and said to be one.
    pub fn of(bench: &Bench) -> Self {
        let is_example = bench.last.is_none();
        let mut bench = bench.clone();
        if is_example {
            let [.., steps] = SIZES;
            bench = Bench::new(bench.recipe);
            bench.acid = steps;
            bench.last = Some(Addition {
                reagent: Reagent::Acid,
                steps,
            });
        }
        let setup = bench.recipe.read();
        let setup = setup.expect("only a recipe that can be read comes on the bench");
        let reading = Reading::of(&bench, setup)
            .expect("only a mixture that can be solved comes on the bench");
        // Paper is as wide as a phone: particles must not be finer.
        let now = Picture::of(&reading, Detail::Phone);
        let chart = graph::chart(&reading, Range::of(&reading))
            .expect("between two mixtures that can be solved all can");
        Self {
            start: now.at_start(),
            now,
            reading,
            is_example,
            chart,
        }
    }

    /// Both stills, as they are painted.
    pub fn stills(&self) -> [Scene; 2] {
        [&self.start, &self.now].map(|picture| {
            let mut scene = Scene::default();
            Playback::new(picture, STILL, View::Sorted).scene_into(&mut scene);
            scene
        })
    }
}
