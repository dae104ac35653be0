//! Rows of free ions on top of a pile.

use libm::ceil;

use super::shape::{Point, Rect, Side};
use super::stage::{Layout, columns_of};

/// Rows of free ions on top of a pile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct IonRows {
    pan: Rect,
    floor: f64,
    columns: usize,
    stride: usize,
    spacing: f64,
    /// Radius at which they do not overlap.
    pub radius: f64,
    /// How high a row of the pile under them is.
    step: f64,
}

/// Ions stay closer together than need be until this is what they would have.
const CLOSER: f64 = 0.8;

impl Layout {
    /// Places for `ions` free ions of this radius over `pile` particles.
    ///
    /// They are drawn smaller than `radius` only if they would not fit.
    pub fn ion_rows(&self, side: Side, pile: usize, ions: usize, radius: f64) -> IonRows {
        let pan = self.pan(side);
        let floor = self.top_of(side, pile);
        let room = floor - radius;
        let mut spacing = 2.8 * radius;
        let mut columns = columns_of(pan.width, spacing);
        while ions.div_ceil(columns) as f64 * spacing > room {
            spacing *= 0.95;
            columns = columns_of(pan.width, spacing);
        }
        IonRows {
            pan,
            floor,
            columns,
            stride: spreading_stride(columns),
            spacing,
            radius: radius.min(0.42 * spacing),
            step: self.fill_height(self.columns() as f64),
        }
    }
}

impl IonRows {
    /// Whether so many ions may stay in these rows, where `best` would fit them best. Whatever moves
    /// draws the eye, and a pile that gives and takes changes its height all the time: so they stay
    /// up to `highest` rows of the pile above it, and somewhat closer together than need be, or as
    /// close as they are while no height is too much.
    pub fn still_fit(&self, ions: usize, best: &IonRows, highest: f64) -> bool {
        let above = best.floor - self.floor;
        let is_room = self.extent(ions).y >= self.radius;
        let is_close = highest.is_finite() && self.spacing < CLOSER * best.spacing;
        (-1e-9..=highest * self.step + 1e-9).contains(&above) && is_room && !is_close
    }

    /// The part of the pan that this many ions fill.
    pub fn extent(&self, ions: usize) -> Rect {
        let height = ions.div_ceil(self.columns) as f64 * self.spacing;
        Rect {
            y: self.floor - height,
            height,
            ..self.pan
        }
    }

    /// Where the ion with this index rests. Rows fill from the bottom; within
    /// a row each next ion goes far from the last, so that few look spread.
    pub fn site(&self, index: usize) -> Point {
        let (row, nth) = (index / self.columns, index % self.columns);
        let column = nth * self.stride % self.columns;
        let width = self.pan.width / self.columns as f64;
        Point::new(
            self.pan.x + (column as f64 + 0.5) * width,
            self.floor - (row as f64 + 0.5) * self.spacing,
        )
    }
}

/// A step through `columns` that visits each once and spreads the first few:
/// the number nearest the golden section of it that shares no factor with it.
fn spreading_stride(columns: usize) -> usize {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a fraction of a number of columns"
    )]
    let golden = ceil(0.618 * columns as f64) as usize;
    (golden..columns)
        .find(|&stride| greatest_common_divisor(stride, columns) == 1)
        .unwrap_or(1)
}

fn greatest_common_divisor(a: usize, b: usize) -> usize {
    if b == 0 {
        a
    } else {
        greatest_common_divisor(b, a % b)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::stage::Stage;

    #[test]
    fn ion_rows_give_every_ion_its_own_place() {
        let stage = Stage {
            width: 320.0,
            height: 180.0,
        };
        let layout = Layout::new(stage, 200, 5);
        for (pile, ions) in [(0, 1), (0, 1_000), (200, 30), (200, 1_000)] {
            let rows = layout.ion_rows(Side::Base, pile, ions, layout.hydroxide);
            let sites: Vec<Point> = (0..ions).map(|i| rows.site(i)).collect();
            for (i, a) in sites.iter().enumerate() {
                assert!(a.y > 0.0 && a.y < layout.strip.y);
                for b in &sites[..i] {
                    assert!(a.distance_squared(*b) >= 4.0 * rows.radius * rows.radius);
                }
            }
        }
    }

    #[test]
    fn strides_visit_every_column() {
        for columns in 1..200 {
            let stride = spreading_stride(columns);
            let mut seen: Vec<usize> = (0..columns).map(|i| i * stride % columns).collect();
            seen.sort_unstable();
            assert_eq!(seen, (0..columns).collect::<Vec<_>>());
        }
    }
}
