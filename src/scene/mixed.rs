//! Where things rest in the mixed view: one box, everything interspersed.

use libm::sqrt;

use super::chance::Chance;
use super::shape::{Point, Rect};
use super::stage::{PLAY, grid};

/// Cells of the box, dealt out to the particles by a seeded shuffle.
#[derive(Debug, Clone)]
pub(super) struct MixedLayout {
    open: Rect,
    columns: usize,
    cell: (f64, f64),
    particle: f64,
    /// The place of each particle, by its number.
    places: Vec<Point>,
    /// The particle in each cell, if any.
    tenants: Vec<Option<usize>>,
    seed: u64,
}

/// Gaps between the particles in which free ions sit.
#[derive(Debug, Clone, Default)]
pub(super) struct Gaps {
    pub sites: Vec<Point>,
    /// Radius at which the ions touch neither particles nor each other.
    pub radius: f64,
}

impl MixedLayout {
    pub fn new(open: Rect, particles: usize, radius: f64, seed: u64) -> MixedLayout {
        let n = particles.max(1);
        let (columns, pitch) = grid(n, (open.width, open.height));
        let rows = n.div_ceil(columns);
        let cell = (open.width / columns as f64, open.height / rows as f64);
        let play = PLAY * (pitch - 2.0 * radius);
        let mut chance = Chance::new(seed, 2);
        let mut cells: Vec<usize> = (0..columns * rows).collect();
        chance.shuffle(&mut cells);
        let mut tenants = vec![None; cells.len()];
        let mut places = Vec::with_capacity(particles);
        for (id, &index) in cells.iter().enumerate().take(particles) {
            let (row, column) = (index / columns, index % columns);
            places.push(Point::new(
                open.x + (column as f64 + 0.5) * cell.0 + play * chance.signed(),
                open.y + (row as f64 + 0.5) * cell.1 + play * chance.signed(),
            ));
            tenants[index] = Some(id);
        }
        MixedLayout {
            open,
            columns,
            cell,
            particle: radius,
            places,
            tenants,
            seed,
        }
    }

    pub fn place(&self, id: usize) -> Point {
        self.places[id]
    }

    /// Places for at least `least` ions, of at most this radius, in a
    /// scattered order. The order does not depend on how many are used.
    pub fn gaps(&self, least: usize, radius: f64) -> Gaps {
        // Generous spacing first; denser until there are enough places.
        let area = self.open.width * self.open.height;
        let mut spacing = sqrt(area / (6 * least.max(1)) as f64).max(2.8 * radius);
        loop {
            let radius = radius.min(0.42 * spacing);
            let mut sites = self.open_points(spacing, radius);
            if sites.len() >= least {
                Chance::new(self.seed, 3).shuffle(&mut sites);
                return Gaps { sites, radius };
            }
            spacing *= 0.9;
        }
    }

    /// The points of a square lattice that leave an ion clear of particles.
    fn open_points(&self, spacing: f64, radius: f64) -> Vec<Point> {
        let clear = self.particle + radius + 0.1 * self.particle.min(radius);
        let mut sites = Vec::new();
        let mut y = self.open.y + spacing / 2.0;
        while y + radius < self.open.bottom() {
            let mut x = self.open.x + spacing / 2.0;
            while x + radius < self.open.right() {
                let point = Point::new(x, y);
                if self
                    .near(point)
                    .all(|p| p.distance_squared(point) > clear * clear)
                {
                    sites.push(point);
                }
                x += spacing;
            }
            y += spacing;
        }
        sites
    }

    /// The particles in the cells around a point. Others are more than half a
    /// cell away from it, more than a particle and an ion reach.
    fn near(&self, point: Point) -> impl Iterator<Item = Point> + '_ {
        let index = |offset: f64, cell: f64| {
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "the point is inside the box, so this is a cell number"
            )]
            let index = (offset / cell) as usize;
            index
        };
        let column = index(point.x - self.open.x, self.cell.0);
        let row = index(point.y - self.open.y, self.cell.1);
        let rows = self.tenants.len() / self.columns;
        (row.saturating_sub(1)..(row + 2).min(rows)).flat_map(move |row| {
            (column.saturating_sub(1)..(column + 2).min(self.columns))
                .filter_map(move |column| self.tenants[row * self.columns + column])
                .map(|id| self.places[id])
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::stage::{Layout, Stage};

    fn layout(n: usize) -> Layout {
        let stage = Stage {
            width: 320.0,
            height: 180.0,
        };
        Layout::new(stage, n, 11)
    }

    #[test]
    fn particles_have_their_own_places_all_over_the_box() {
        for n in [1, 2, 50, 333, 1_000] {
            let layout = layout(n);
            let places: Vec<Point> = (0..n).map(|id| layout.mixed.place(id)).collect();
            for (i, a) in places.iter().enumerate() {
                for b in &places[..i] {
                    let touch = 2.0 * layout.radius;
                    assert!(a.distance_squared(*b) > touch * touch, "{n}");
                }
            }
            if n >= 50 {
                assert!(places.iter().any(|p| p.x < 60.0) && places.iter().any(|p| p.x > 260.0));
            }
        }
    }

    #[test]
    fn gaps_keep_clear_of_particles_and_of_each_other() {
        for (n, ions) in [(1, 1), (200, 40), (200, 1_000), (1_000, 1_000)] {
            let layout = layout(n);
            let gaps = layout.mixed.gaps(ions, layout.hydroxide);
            assert!(gaps.sites.len() >= ions);
            let touch = layout.radius + gaps.radius;
            for (i, a) in gaps.sites.iter().enumerate() {
                for id in 0..n {
                    assert!(a.distance_squared(layout.mixed.place(id)) > touch * touch);
                }
                for b in &gaps.sites[..i] {
                    assert!(a.distance_squared(*b) > 4.0 * gaps.radius * gaps.radius);
                }
            }
        }
    }
}
