//! Where things rest: the two pans of the sorted view.
//!
//! The radius is the largest with which all particles fit into one pan below
//! the headroom, up to a cap; it is the same in both pans, so equal heights
//! are equal counts. With a thousand particles on a stage of 320 × 180 it is
//! about 2.2 px, the smallest meant to be read; still smaller stages go below.

use libm::floor;

use super::chance::Chance;
use super::mixed::MixedLayout;
use super::shape::{Point, Rect, Side};

/// The area for the particles, in CSS pixels. Names and numbers above it are
/// not part of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// Width; taken as at least 60.
    pub width: f64,
    /// Height; taken as at least 60.
    pub height: f64,
}

/// The part of the height, from the top, that piles stay clear of.
const HEADROOM: f64 = 0.14;
/// Between a pan's wall and the cells of its particles, px.
const PADDING: f64 = 1.0;
/// Particle radius over cell size, with room for the unevenness that makes a
/// pile look like particles.
const LOOSE: f64 = 0.42;
/// The same when room is short.
const TIGHT: f64 = 0.48;
/// How far particles may sit from the middle of their cells, over the room
/// that a cell leaves them; neighbors would touch at 0.5.
pub(super) const PLAY: f64 = 0.45;
/// Below this radius, px, particles are packed tightly rather than shrunk.
const SMALL: f64 = 2.2;

/// Sizes and resting places that follow from a stage, a number of particles
/// and a seed.
#[derive(Debug, Clone)]
pub(super) struct Layout {
    pub stage: Stage,
    /// Radius of a particle.
    pub radius: f64,
    /// A proton at its seat or between two particles.
    pub proton: f64,
    pub hydroxide: f64,
    /// Free H⁺ and free OH⁻, larger: they are what makes the pH run away.
    pub free: [f64; 2],
    pub water: f64,
    /// Acid pan, base pan: from the rim to the solvent.
    pub pans: [Rect; 2],
    pub strip: Rect,
    /// Highest y coordinate of a crossing.
    pub peak: f64,
    pub mixed: MixedLayout,
    columns: usize,
    cell: (f64, f64),
    /// How far a particle may sit from the middle of its cell.
    play: f64,
    /// Unevenness of each slot of the acid pan, then of the base pan.
    unevenness: Vec<(f64, f64)>,
}

impl Layout {
    pub fn new(stage: Stage, particles: usize, seed: u64) -> Layout {
        let stage = Stage {
            width: stage.width.max(60.0),
            height: stage.height.max(60.0),
        };
        let Stage { width, height } = stage;
        let strip_height = (0.035 * height).clamp(4.0, 14.0);
        let strip = Rect {
            x: 0.0,
            y: height - strip_height,
            width,
            height: strip_height,
        };
        // Water sinks between the pans, so the gap is as wide as its glyph.
        let gap = (0.025 * width).clamp(8.0, 22.0);
        let pan_width = (width - gap) / 2.0 - 1.0;
        let inner = (pan_width - 2.0 * PADDING, strip.y - HEADROOM * height);

        let largest = (0.055 * (width / 2.0).min(height))
            .min((HEADROOM * height - 4.0) / 2.0)
            .clamp(1.0, 16.0);
        let n = particles.max(1);
        let (mut columns, pitch) = grid(n, inner);
        let cap = largest / LOOSE;
        if pitch > cap {
            columns = columns_of(inner.0, cap);
        }
        let cell = (
            inner.0 / columns as f64,
            (inner.1 / n.div_ceil(columns) as f64).min(cap),
        );
        let pitch = cell.0.min(cell.1);
        let radius = (LOOSE * pitch).max((TIGHT * pitch).min(SMALL)).min(largest);
        let play = PLAY * (pitch - 2.0 * radius);

        let rim = (0.08 * height)
            .max(2.0 * radius + 4.0)
            .min(HEADROOM * height);
        let pan = |x| Rect {
            x,
            y: rim,
            width: pan_width,
            height: strip.y - rim,
        };
        let proton = (0.36 * radius).clamp(1.2, 5.0);
        let mut chance = Chance::new(seed, 1);
        let unevenness = (0..2 * particles)
            .map(|_| (chance.signed(), chance.signed()))
            .collect();
        let open = Rect {
            x: 1.0 + PADDING,
            y: HEADROOM * height,
            width: width - 2.0 - 2.0 * PADDING,
            height: inner.1,
        };
        Layout {
            stage,
            radius,
            proton,
            hydroxide: 1.5 * proton,
            free: [
                (0.7 * radius).clamp(1.8, 9.0),
                (0.8 * radius).clamp(2.0, 10.0),
            ],
            water: (1.7 * proton).min(gap / 2.0 - 1.0),
            pans: [pan(1.0), pan(1.0 + pan_width + gap)],
            strip,
            peak: (rim - radius - 2.0).max(radius),
            mixed: MixedLayout::new(open, particles, radius, seed),
            columns,
            cell,
            play,
            unevenness,
        }
    }

    /// The box of the mixed view: both pans without what parts them.
    pub fn whole_box(&self) -> Rect {
        let [acid, base] = self.pans;
        Rect {
            width: base.right() - acid.x,
            ..acid
        }
    }

    /// The middle of the space between the pans.
    pub fn gap_x(&self) -> f64 {
        (self.pans[0].right() + self.pans[1].x) / 2.0
    }

    pub fn pan(&self, side: Side) -> Rect {
        match side {
            Side::Acid => self.pans[0],
            Side::Base => self.pans[1],
            Side::Both => self.whole_box(),
        }
    }

    /// Where the particle in a slot rests. Slots fill rows from the bottom,
    /// each row from the outer wall inwards.
    pub fn slot(&self, side: Side, index: usize) -> Point {
        let pan = self.pan(side);
        let (row, column) = (index / self.columns, index % self.columns);
        let inwards = (column as f64 + 0.5) * self.cell.0 + PADDING;
        let offset = if side == Side::Base {
            self.unevenness.len() / 2
        } else {
            0
        };
        let (dx, dy) = self
            .unevenness
            .get(offset + index)
            .copied()
            .unwrap_or_default();
        let x = if side == Side::Base {
            pan.right() - inwards
        } else {
            pan.x + inwards
        };
        Point::new(
            x + dx * self.play,
            pan.bottom() - (row as f64 + 0.5) * self.cell.1 + dy * self.play,
        )
    }

    /// The y coordinate above which a pile of this many particles ends.
    pub fn top_of(&self, side: Side, pile: usize) -> f64 {
        self.pan(side).bottom() - pile.div_ceil(self.columns) as f64 * self.cell.1
    }

    /// The number of slots in one row.
    pub fn columns(&self) -> usize {
        self.columns
    }

    /// The height to which this many particles fill a pan. Exactly
    /// proportional, so in a row that is partly filled it lies between the
    /// row's bottom and its top.
    pub fn fill_height(&self, particles: f64) -> f64 {
        particles / self.columns as f64 * self.cell.1
    }
}

/// The number of columns that gives `n` cells the largest size in a space,
/// and that size (the shorter edge of a cell).
pub(super) fn grid(n: usize, (width, height): (f64, f64)) -> (usize, f64) {
    let pitch = |columns: usize| {
        let rows = n.div_ceil(columns);
        (width / columns as f64).min(height / rows as f64)
    };
    let mut best = (1, pitch(1));
    for columns in 2..=n {
        let pitch = pitch(columns);
        if pitch > best.1 {
            best = (columns, pitch);
        }
    }
    best
}

/// How many cells of this size fit side by side; at least one.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a width over a spacing: positive, and a few thousand at most"
)]
pub(super) fn columns_of(width: f64, spacing: f64) -> usize {
    (floor(width / spacing) as usize).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layout(width: f64, height: f64, n: usize) -> Layout {
        Layout::new(Stage { width, height }, n, 5)
    }

    #[test]
    fn all_particles_fit_into_one_pan_below_the_headroom() {
        for (width, height) in [(320.0, 180.0), (640.0, 300.0), (900.0, 420.0)] {
            for n in [1, 2, 7, 40, 199, 200, 1_000] {
                let layout = layout(width, height, n);
                assert!(layout.fill_height(n as f64) <= layout.strip.y - HEADROOM * height + 1e-9);
                for side in [Side::Acid, Side::Base] {
                    let pan = layout.pan(side);
                    for slot in 0..n {
                        let at = layout.slot(side, slot);
                        assert!(
                            at.x - layout.radius >= pan.x && at.x + layout.radius <= pan.right()
                        );
                        assert!(at.y - layout.radius >= HEADROOM * height - 1e-9);
                        assert!(at.y + layout.radius <= pan.bottom());
                    }
                }
            }
        }
    }

    #[test]
    fn a_thousand_particles_on_the_smallest_stage_can_still_be_told_apart() {
        assert!(layout(320.0, 180.0, 1_000).radius >= 2.2);
    }

    #[test]
    fn fill_height_is_proportional_to_the_count() {
        let layout = layout(640.0, 300.0, 200);
        let one = layout.fill_height(1.0);
        for n in 0..=200 {
            assert!((layout.fill_height(f64::from(n)) - f64::from(n) * one).abs() < 1e-9);
        }
        assert!(one > 0.0);
    }
}
