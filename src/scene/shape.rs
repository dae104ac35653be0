//! The picture as plain data: what to paint, in paint order.
//!
//! Lengths are CSS pixels with the origin at the stage's top left corner,
//! x to the right and y down. Angles are radians from the x axis towards the
//! y axis, so "up" is −π/2. Device pixels, colors and fonts belong to the
//! painter.

use libm::{cos, sin};

/// A point on the stage, in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Distance from the left edge.
    pub x: f64,
    /// Distance from the top edge.
    pub y: f64,
}

impl Point {
    /// The point at `(x, y)`.
    pub const fn new(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    /// The point `length` away in direction `angle`.
    pub fn towards(self, angle: f64, length: f64) -> Point {
        Point::new(self.x + length * cos(angle), self.y + length * sin(angle))
    }

    /// The point a fraction `t` of the way to `end`; 0 is here, 1 is there.
    pub fn lerp(self, end: Point, t: f64) -> Point {
        // This form returns `end` exactly at t = 1, so a finished movement
        // rests where a body placed there at once would rest.
        Point::new(
            self.x * (1.0 - t) + end.x * t,
            self.y * (1.0 - t) + end.y * t,
        )
    }

    /// The square of the distance to `other`.
    pub fn distance_squared(self, other: Point) -> f64 {
        let (dx, dy) = (self.x - other.x, self.y - other.y);
        dx * dx + dy * dy
    }
}

/// An upright rectangle, in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Extent to the right.
    pub width: f64,
    /// Extent downwards.
    pub height: f64,
}

impl Rect {
    /// The right edge.
    pub fn right(&self) -> f64 {
        self.x + self.width
    }

    /// The bottom edge.
    pub fn bottom(&self) -> f64 {
        self.y + self.height
    }
}

/// Which pan something belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// The left pan: forms with one proton or more above the base form.
    Acid,
    /// The right pan: the base form, and forms that lost more protons.
    Base,
    /// The one box of the mixed view.
    Both,
}

impl Side {
    /// The pan in which a particle with `protons` is counted.
    pub fn of(protons: i8) -> Side {
        if protons >= 1 { Side::Acid } else { Side::Base }
    }
}

/// One thing to paint. Later shapes lie over earlier ones.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// The solvent, into which the water made sinks.
    SolventStrip {
        /// Its extent.
        rect: Rect,
    },
    /// A container with walls left, right and below, open at the top.
    Pan {
        /// Its inside.
        rect: Rect,
        /// Whose it is.
        side: Side,
    },
    /// The filled part of a pan; its top edge is the level line. The height
    /// is proportional to the number of particles.
    Level {
        /// The filled part.
        rect: Rect,
        /// Whose it is.
        side: Side,
    },
    /// A dashed mark on a wall at the starting level.
    StartMark {
        /// The end on the wall.
        from: Point,
        /// The end inside the pan.
        to: Point,
        /// Whose it is.
        side: Side,
        /// Whether the words "at start" belong beside this mark: at the
        /// wall towards the other pan.
        labeled: bool,
    },
    /// The place of the free ions in a pan they emptied, to be named.
    FreeIons {
        /// Its extent.
        rect: Rect,
        /// Whose pan it is: free H⁺ lie in the base pan, free OH⁻ in the acid pan.
        side: Side,
    },
    /// The dotted course of a particle that is crossing between the pans;
    /// [`arc_point`] gives its points.
    Path {
        /// Where the particle left.
        from: Point,
        /// Where it will rest.
        to: Point,
        /// The height of the course's highest point (a y coordinate).
        peak: f64,
        /// The pan it is going to.
        side: Side,
    },
    /// One particle of the weak acid–base system.
    Particle {
        /// The same number for the same particle, whatever becomes of it.
        id: u32,
        /// Center.
        at: Point,
        /// Radius of the body.
        radius: f64,
        /// Protons above the pair's base form: 0 is the base form, 1 the
        /// acid form.
        protons: i8,
        /// Direction of seat 0, the gap of the base form: see [`seat`].
        facing: f64,
        /// Changed by the last addition (only set when nothing may travel).
        marked: bool,
    },
    /// A proton that is not seated on a particle.
    Proton {
        /// Center.
        at: Point,
        /// Radius.
        radius: f64,
        /// Length of the trail above it, while it falls in.
        trail: Option<f64>,
    },
    /// A hydroxide ion.
    Hydroxide {
        /// Center.
        at: Point,
        /// Radius.
        radius: f64,
        /// Length of the trail above it, while it falls in.
        trail: Option<f64>,
    },
    /// A water molecule on its way to or from the solvent.
    Water {
        /// Center.
        at: Point,
        /// Radius.
        radius: f64,
    },
}

/// A whole picture. The scale travels with it, so a legend written from it
/// cannot disagree with what is drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scene {
    /// The amount that one particle or free ion stands for, in mol.
    pub unit: f64,
    /// What to paint, in order.
    pub shapes: Vec<Shape>,
    /// From this place on they are particles, ions and marks that rest; before it, what these lie in.
    pub resting: usize,
    /// From this place on they have something ahead of them: a frame later they may look different.
    pub moving: usize,
}

/// The angle between one seat and the next.
const SEAT_STEP: f64 = 2.1;

/// The direction, from the center, of a particle's `nth` seat.
pub fn seat_angle(facing: f64, nth: u8) -> f64 {
    facing + f64::from(nth) * SEAT_STEP
}

/// Where the `nth` proton of a particle sits: on the rim, so that half of it
/// fills the gap.
///
/// A form with `protons` ≥ 1 has seats 0 to `protons` − 1 filled. A form with
/// `protons` ≤ 0 has seats 0 to −`protons` open.
pub fn seat(at: Point, radius: f64, facing: f64, nth: u8) -> Point {
    at.towards(seat_angle(facing, nth), radius)
}

/// The seat that is filled or emptied between the form with `lower` protons
/// and the form with one more.
pub fn seat_between(lower: i8) -> u8 {
    lower.unsigned_abs()
}

/// A point of the course between two resting places over the pans' walls.
///
/// `t` runs from 0 at `from` to 1 at `to`. The course stays near its peak for
/// most of the way, so that it clears the walls wherever it starts.
pub fn arc_point(from: Point, to: Point, peak: f64, t: f64) -> Point {
    let sideways = t * t * (3.0 - 2.0 * t);
    let u = 2.0 * t - 1.0;
    let low = u * u * u * u;
    let ends = from.y * (1.0 - t) + to.y * t;
    Point::new(
        from.x * (1.0 - sideways) + to.x * sideways,
        peak * (1.0 - low) + ends * low,
    )
}

/// Radius of a pan's lower corners, in CSS pixels.
pub const CORNER: f64 = 7.0;

/// Where words begin that stand above a line which ends at a wall: their lower corner towards the
/// wall. They stay in sight where the line is very high.
pub fn words_beside(wall: Point, leftwards: bool) -> Point {
    let aside = if leftwards { -6.0 } else { 6.0 };
    Point::new(wall.x + aside, (wall.y - 3.0).max(14.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arc_starts_and_ends_at_its_ends_and_touches_its_peak() {
        let (from, to) = (Point::new(10.0, 90.0), Point::new(200.0, 140.0));
        assert_eq!(arc_point(from, to, 20.0, 0.0), from);
        assert_eq!(arc_point(from, to, 20.0, 1.0), to);
        let top = arc_point(from, to, 20.0, 0.5);
        assert_eq!(top, Point::new(105.0, 20.0));
    }

    #[test]
    fn each_step_between_forms_uses_the_seat_the_lower_form_has_open() {
        assert_eq!(seat_between(0), 0);
        assert_eq!(seat_between(1), 1);
        assert_eq!(seat_between(-1), 1);
        let at = Point::new(5.0, 5.0);
        assert_eq!(seat(at, 2.0, 0.0, 0), Point::new(7.0, 5.0));
    }

    #[test]
    fn the_acid_pan_counts_forms_with_a_proton_or_more() {
        let sides: Vec<Side> = (-1..=2).map(Side::of).collect();
        assert_eq!(sides, [Side::Base, Side::Base, Side::Acid, Side::Acid]);
    }
}
