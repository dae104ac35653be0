//! Which parts of a picture differ from the one painted last.
//!
//! The area is cut into tiles, and each tile has a mark that follows from all that reaches into
//! it, in order. Where a mark is another than before, everything that reaches into the tile is
//! painted anew: a frame costs what moves in it, and looks as if all of it had been painted.

use super::extent::parts;
use super::shape::{Rect, Scene, Shape};

/// The tiles of the last picture and of the one before.
#[derive(Debug, Clone, Default)]
pub struct Tiles {
    grid: Grid,
    now: Vec<u64>,
    before: Vec<u64>,
}

#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Grid {
    area: Rect,
    edge: f64,
    columns: usize,
    rows: usize,
}

impl Tiles {
    /// Takes in the next picture, of which `area` is seen, in square tiles of `edge`. What is
    /// painted follows from `key` besides.
    pub fn follow(&mut self, scene: &Scene, area: Rect, edge: f64, key: i8) {
        std::mem::swap(&mut self.now, &mut self.before);
        let grid = Grid::new(area, edge);
        if self.grid != grid {
            self.grid = grid;
            self.before = vec![STALE; grid.columns * grid.rows];
        }
        self.now.clear();
        self.now.resize(self.before.len(), mixed(0, f64::from(key)));
        for shape in &scene.shapes {
            parts(shape, &mut |part, facts| {
                let mark = facts.iter().fold(0, |mark, fact| mixed(mark, *fact));
                for at in grid.under(part) {
                    self.now[at] = (self.now[at] ^ mark).wrapping_mul(MIXER).rotate_left(29);
                }
            });
        }
    }

    /// Lets all of the next picture be painted.
    pub fn forget(&mut self) {
        self.now.fill(STALE);
    }

    /// What is to be painted anew, as rows of tiles: column, row, number of tiles.
    pub fn stale(&self) -> impl Iterator<Item = (usize, usize, usize)> + '_ {
        let Grid { columns, rows, .. } = self.grid;
        (0..rows).flat_map(move |row| {
            let tile = move |column: usize| row * columns + column;
            let mut next = 0;
            std::iter::from_fn(move || {
                let start = (next..columns).find(|&column| self.is_stale(tile(column)))?;
                let end = (start..columns).find(|&column| !self.is_stale(tile(column)));
                next = end.unwrap_or(columns);
                Some((start, row, next - start))
            })
        })
    }

    /// Whether the shape reaches into what is to be painted anew.
    pub fn is_touched(&self, shape: &Shape) -> bool {
        let mut touched = false;
        parts(shape, &mut |part, _| {
            touched = touched || self.grid.under(part).any(|at| self.is_stale(at));
        });
        touched
    }

    fn is_stale(&self, at: usize) -> bool {
        self.now[at] != self.before[at]
    }
}

impl Grid {
    fn new(area: Rect, edge: f64) -> Self {
        Self {
            area,
            edge,
            columns: whole(area.width / edge) + 1,
            rows: whole(area.height / edge) + 1,
        }
    }

    /// The tiles that a part reaches into.
    fn under(self, part: Rect) -> impl Iterator<Item = usize> {
        let span = |from: f64, length: f64, most: usize| {
            let end = if from + length < 0.0 {
                0
            } else {
                whole((from + length) / self.edge) + 1
            };
            whole(from / self.edge)..end.min(most)
        };
        let columns = span(part.x - self.area.x, part.width, self.columns);
        let rows = span(part.y - self.area.y, part.height, self.rows);
        rows.flat_map(move |row| {
            columns
                .clone()
                .map(move |column| row * self.columns + column)
        })
    }
}

/// The mark of a tile that must be painted: no other comes out as this one.
const STALE: u64 = !0;

/// An odd number without a pattern in its bits.
const MIXER: u64 = 0x9E37_79B9_7F4A_7C15;

fn mixed(mark: u64, fact: f64) -> u64 {
    let mark = (mark ^ fact.to_bits()).wrapping_mul(MIXER);
    mark ^ mark >> 32
}

/// The whole part of a length in tiles; nought for what lies before the first.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "as many tiles as a screen holds, and a cast takes what is below nought as nought"
)]
fn whole(tiles: f64) -> usize {
    tiles as usize
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::particles::World;
    use crate::scene::shape::Point;
    use crate::scene::stage::Stage;
    use crate::scene::tally::Amounts;
    use crate::scene::{Reagent, View};

    const AREA: Rect = Rect {
        x: -2.0,
        y: -2.0,
        width: 484.0,
        height: 264.0,
    };

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

    fn stale(tiles: &Tiles) -> usize {
        tiles.stale().map(|(_, _, number)| number).sum()
    }

    #[test]
    fn at_first_and_when_forgotten_all_is_stale_and_then_nothing() {
        let mut tiles = Tiles::default();
        assert_eq!(stale(&tiles), 0, "no area yet");
        let scene = world().scene();
        for _ in 0..2 {
            tiles.follow(&scene, AREA, 16.0, -1);
            assert_eq!(stale(&tiles), 31 * 17);
            assert!(scene.shapes.iter().all(|shape| tiles.is_touched(shape)));
            tiles.follow(&scene, AREA, 16.0, -1);
            assert_eq!(stale(&tiles), 0);
            assert!(!scene.shapes.iter().any(|shape| tiles.is_touched(shape)));
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
            tiles.follow(&scene, AREA, 16.0, -1);
            tiles.follow(&scene, area, edge, key);
            assert_eq!(stale(&tiles), tiles.now.len());
        }
    }

    #[test]
    fn whatever_comes_goes_or_moves_is_painted_where_it_was_and_where_it_is() {
        for view in [View::Sorted, View::Mixed] {
            let (mut tiles, mut world) = (Tiles::default(), world());
            world.set_view(view);
            world.settle();
            let mut before = world.scene();
            tiles.follow(&before, AREA, 16.0, -1);
            world.add(Reagent::Acid, 20, &amounts(80.0, 40.0));
            let mut spared = 0;
            for _ in 0..400 {
                world.step(1.0 / 60.0);
                let scene = world.scene();
                tiles.follow(&scene, AREA, 16.0, -1);
                for (one, other) in [(&before, &scene), (&scene, &before)] {
                    for shape in one
                        .shapes
                        .iter()
                        .filter(|shape| !other.shapes.contains(shape))
                    {
                        let level = matches!(shape, Shape::Level { .. });
                        parts(shape, &mut |part, facts| {
                            // All of a level but its line may stay.
                            if !level || facts.len() == 4 {
                                let mut under = tiles.grid.under(part);
                                assert!(under.all(|at| tiles.is_stale(at)), "{shape:?}");
                            }
                        });
                    }
                }
                spared += usize::from(stale(&tiles) < tiles.now.len() / 4);
                before = scene;
            }
            assert!(
                spared > 300,
                "most is painted anew in {} of 400 frames",
                400 - spared
            );
        }
    }

    #[test]
    fn stale_tiles_are_told_in_rows() {
        let mut tiles = Tiles::default();
        let mut scene = Scene::default();
        let area = Rect {
            x: 0.0,
            y: 0.0,
            width: 90.0,
            height: 25.0,
        };
        tiles.follow(&scene, area, 10.0, 0);
        let drop = |x| Shape::Water {
            at: Point::new(x, 5.0),
            radius: 1.0,
        };
        scene.shapes.extend([drop(15.0), drop(25.0), drop(75.0)]);
        tiles.follow(&scene, area, 10.0, 0);
        assert_eq!(tiles.stale().collect::<Vec<_>>(), [(1, 0, 2), (7, 0, 1)]);
    }
}
