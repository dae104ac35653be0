//! Which parts of a picture differ from the one painted last.
//!
//! The area is cut into tiles. The shapes of both pictures are paired in the order in which they
//! are painted, equal ones only; whatever has no equal makes the tiles stale that it reaches into,
//! where it was and where it is. Into all other tiles the same shapes reach in the same order, so
//! they look the same: a frame costs what moves in it, and looks as if all of it had been painted.

pub use super::extent::Words;
use super::extent::{order, parts};
pub use super::grid::Span as Patch;
use super::grid::{Grid, Span};
use super::shape::{Rect, Shape};

/// The tiles of a picture, and which of them differ from the picture before.
#[derive(Debug, Clone, Default)]
pub struct Tiles {
    grid: Grid,
    stale: Vec<bool>,
    all_stale: bool,
    key: i8,
    patches: Vec<Patch>,
    /// The picture, and how far each of its shapes reaches.
    shapes: Vec<Shape>,
    spans: Vec<Span>,
    /// Those of the picture before.
    earlier: (Vec<Shape>, Vec<Span>),
}

/// With more patches than this all is painted.
const MOST: usize = 160;

impl Tiles {
    /// Takes in the shapes of the next picture, of which `area` is seen, in square tiles of `edge`,
    /// with words no larger than `words`. What is painted follows from `key` besides.
    pub fn follow(&mut self, shapes: &[Shape], area: Rect, edge: f64, words: Words, key: i8) {
        let grid = Grid::new(area, edge, words);
        let same = self.grid == grid && self.key == key && !self.all_stale;
        (self.grid, self.key) = (grid, key);
        self.patches.clear();
        self.stale.clear();
        self.stale.resize(grid.columns * grid.rows, !same);
        // Most frames: all that moves has a canvas of its own.
        if same && self.shapes == shapes {
            return;
        }
        std::mem::swap(&mut self.earlier.0, &mut self.shapes);
        std::mem::swap(&mut self.earlier.1, &mut self.spans);
        self.shapes.clear();
        self.shapes.extend_from_slice(shapes);
        self.spans.clear();
        if same {
            self.pair();
        } else {
            self.spans.extend(self.shapes.iter().map(|s| grid.reach(s)));
        }
        self.all_stale = false;
        self.find_patches();
    }

    /// Pairs the shapes with those of the picture before.
    fn pair(&mut self) {
        let grid = self.grid;
        let stale = &mut self.stale;
        let mut mark = |part: Rect| grid.under(grid.span(part)).for_each(|at| stale[at] = true);
        let (shapes, spans) = &self.earlier;
        let mut earlier = shapes.iter().zip(spans).peekable();
        for shape in &self.shapes {
            // What would have been painted before this one is no longer there.
            while let Some((gone, _)) = earlier.next_if(|(other, _)| order(other, shape).is_lt()) {
                parts(gone, grid.words, &mut mark);
            }
            let span = match earlier.next_if(|(other, _)| order(other, shape).is_eq()) {
                Some((other, span)) if other == shape => *span,
                other => {
                    for changed in other.map(|(other, _)| other).into_iter().chain([shape]) {
                        parts(changed, grid.words, &mut mark);
                    }
                    grid.reach(shape)
                }
            };
            self.spans.push(span);
        }
        earlier.for_each(|(gone, _)| parts(gone, grid.words, &mut mark));
    }

    /// Lets all of the next picture be painted.
    pub fn forget(&mut self) {
        self.all_stale = true;
    }

    /// What is to be painted anew: rectangles that do not overlap. A browser cuts off what is beside
    /// one rectangle by itself much faster than what is beside many together.
    pub fn patches(&self) -> &[Patch] {
        &self.patches
    }

    fn find_patches(&mut self) {
        let mut left = self.stale.clone();
        while let Some(patch) = self.grid.take_patch(&mut left) {
            if self.patches.len() >= MOST {
                self.stale.fill(true);
                self.patches.clear();
                self.patches.push(self.grid.all());
                return;
            }
            self.patches.push(patch);
        }
    }

    /// Whether the shape at this place of the picture may reach into what is to be painted anew.
    pub fn is_touched(&self, place: usize) -> bool {
        let mut around = self.grid.under(self.spans[place]);
        around.any(|at| self.stale[at])
    }

    /// Whether the shape at this place reaches into this patch.
    pub fn reaches(&self, place: usize, patch: Patch) -> bool {
        if !self.spans[place].overlaps(patch) {
            return false;
        }
        let shape = &self.shapes[place];
        if matches!(shape, Shape::Particle { .. }) {
            return true;
        }
        // Of what is long and thin, each part by itself.
        let mut reached = false;
        parts(shape, self.grid.words, &mut |part| {
            reached = reached || self.grid.span(part).overlaps(patch);
        });
        reached
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::particles::World;
    use crate::scene::shape::{Point, Scene};
    use crate::scene::stage::Stage;
    use crate::scene::tally::Amounts;
    use crate::scene::{Reagent, View};

    const AREA: Rect = Rect {
        x: -2.0,
        y: -2.0,
        width: 484.0,
        height: 264.0,
    };

    const WORDS: Words = (60.0, 14.0);

    fn amounts(acid: f64, base: f64) -> Amounts {
        Amounts {
            lowest: 0,
            forms: vec![base, acid],
            free_h: 0.0,
            free_oh: 0.0,
        }
    }

    fn world() -> World {
        let stage = Stage {
            width: 480.0,
            height: 260.0,
        };
        World::new(7, stage, 1.0, &amounts(60.0, 60.0))
    }

    /// All that is not painted on the ground's own canvas.
    fn above_ground(world: &World) -> Vec<Shape> {
        let scene = world.scene();
        scene.shapes[scene.resting..].to_vec()
    }

    fn stale(tiles: &Tiles) -> usize {
        let patches = tiles.patches().iter();
        patches.map(|patch| tiles.grid.under(*patch).count()).sum()
    }

    #[test]
    fn at_first_and_when_forgotten_all_is_stale_and_then_nothing() {
        let mut tiles = Tiles::default();
        assert_eq!(stale(&tiles), 0, "no area yet");
        let scene = world().scene();
        for _ in 0..2 {
            tiles.follow(&scene.shapes, AREA, 16.0, WORDS, -1);
            assert_eq!(stale(&tiles), 31 * 17);
            assert!((0..scene.shapes.len()).all(|place| tiles.is_touched(place)));
            tiles.follow(&scene.shapes, AREA, 16.0, WORDS, -1);
            assert_eq!(stale(&tiles), 0);
            assert!(!(0..scene.shapes.len()).any(|place| tiles.is_touched(place)));
            tiles.forget();
        }
    }

    #[test]
    fn another_area_edge_or_charge_is_painted_whole() {
        let scene = world().scene();
        let larger = Rect {
            width: 500.0,
            ..AREA
        };
        for (area, edge, key) in [(larger, 16.0, -1), (AREA, 15.0, -1), (AREA, 16.0, 0)] {
            let mut tiles = Tiles::default();
            tiles.follow(&scene.shapes, AREA, 16.0, WORDS, -1);
            tiles.follow(&scene.shapes, area, edge, WORDS, key);
            assert_eq!(stale(&tiles), tiles.stale.len());
        }
    }

    #[test]
    fn whatever_comes_goes_or_moves_is_painted_where_it_was_and_where_it_is() {
        for view in [View::Sorted, View::Mixed] {
            let (mut tiles, mut world) = (Tiles::default(), world());
            world.set_view(view);
            world.settle();
            let mut before = above_ground(&world);
            tiles.follow(&before, AREA, 16.0, WORDS, -1);
            world.add(Reagent::Acid, 20, &amounts(80.0, 40.0));
            let mut spared = 0;
            for _ in 0..400 {
                world.step(1.0 / 60.0);
                let shapes = above_ground(&world);
                tiles.follow(&shapes, AREA, 16.0, WORDS, -1);
                for (one, other) in [(&before, &shapes), (&shapes, &before)] {
                    for shape in one.iter().filter(|shape| !other.contains(shape)) {
                        parts(shape, WORDS, &mut |part| {
                            let mut under = tiles.grid.under(tiles.grid.span(part));
                            assert!(under.all(|at| tiles.stale[at]), "{shape:?}");
                        });
                    }
                }
                spared += usize::from(stale(&tiles) < tiles.stale.len() / 4);
                before = shapes;
            }
            assert!(
                spared > 300,
                "most is painted anew in {} of 400 frames",
                400 - spared
            );
        }
    }

    #[test]
    fn patches_are_all_that_is_stale_and_overlap_nowhere() {
        let (mut tiles, mut world) = (Tiles::default(), world());
        let mut most = 0;
        for step in 0..400 {
            if step % 100 == 0 {
                world.add(Reagent::Acid, 5, &amounts(60.0, 60.0));
            }
            world.step(1.0 / 60.0);
            let shapes = above_ground(&world);
            tiles.follow(&shapes, AREA, 16.0, WORDS, -1);
            let mut times = vec![0; tiles.stale.len()];
            for patch in tiles.patches() {
                tiles.grid.under(*patch).for_each(|at| times[at] += 1);
            }
            let stale = tiles.stale.iter().map(|stale| i32::from(*stale));
            assert!(stale.eq(times.iter().copied()), "step {step}");
            for place in 0..shapes.len() {
                let reached = tiles.patches().iter().any(|p| tiles.reaches(place, *p));
                assert!(tiles.is_touched(place) || !reached, "{place} at {step}");
            }
            most = most.max(tiles.patches().len());
        }
        assert!(most > 5, "at most {most} patches at a time");
    }

    #[test]
    fn too_many_patches_are_all() {
        let mut tiles = Tiles::default();
        let mut scene = Scene::default();
        tiles.follow(&scene.shapes, AREA, 2.0, WORDS, 0);
        let drop = |n: usize| Shape::Water {
            at: Point::new(16.0 * (n % 30) as f64, 16.0 * (n / 30) as f64),
            radius: 1.0,
        };
        scene.shapes.extend((0..MOST / 2).map(drop));
        tiles.follow(&scene.shapes, AREA, 2.0, WORDS, 0);
        assert_eq!(tiles.patches().len(), MOST / 2);
        scene.shapes.extend((MOST / 2..2 * MOST).map(drop));
        scene.shapes.drain(..MOST / 2);
        tiles.follow(&scene.shapes, AREA, 2.0, WORDS, 0);
        assert_eq!(tiles.patches(), [tiles.grid.all()]);
        assert_eq!(stale(&tiles), tiles.stale.len());
    }
}
