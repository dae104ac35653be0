//! How far each shape reaches, with whatever the painter adds to it, and which is painted first.

use std::cmp::Ordering;

use super::shape::{CORNER, Point, Rect, Shape, Side, arc_point, words_beside};

/// Straight parts that the course of a crossing is taken as.
const BENDS: u8 = 20;

/// Width and height of the largest words in a picture, in CSS pixels. How large they are is known to
/// whoever writes them.
pub type Words = (f64, f64);

/// Half the width of the ground under words, and what blurs at its edge.
const GROUND: f64 = 5.0;

/// Calls `tell` with parts that cover all of the shape.
pub(super) fn parts(shape: &Shape, words: Words, tell: &mut dyn FnMut(Rect)) {
    match *shape {
        // Of the strip there is a line, of a pan there are walls.
        Shape::SolventStrip { rect } => tell(grown(
            Rect {
                height: 0.0,
                ..rect
            },
            2.0,
        )),
        Shape::Pan { rect, .. } => {
            for x in [rect.x, rect.right()] {
                tell(grown(
                    between(Point::new(x, rect.y), Point::new(x, rect.bottom())),
                    2.0,
                ));
            }
            let foot = between(
                Point::new(rect.x, rect.bottom() - CORNER),
                Point::new(rect.right(), rect.bottom()),
            );
            tell(grown(foot, 2.0));
        }
        Shape::Level { rect, .. } => tell(grown(rect, 2.0)),
        Shape::StartMark {
            from, to, labeled, ..
        } => {
            tell(grown(between(from, to), 2.0));
            if labeled {
                tell(written(from, to.x < from.x, words));
            }
        }
        Shape::FreeIons { rect, side } => {
            tell(grown(
                Rect {
                    height: 0.0,
                    ..rect
                },
                2.0,
            ));
            let leftwards = side != Side::Acid;
            let wall = if leftwards { rect.right() } else { rect.x };
            tell(written(Point::new(wall, rect.y), leftwards, words));
        }
        Shape::Path { from, to, peak, .. } => {
            let at = |step: u8| arc_point(from, to, peak, f64::from(step) / f64::from(BENDS));
            for step in 0..BENDS {
                tell(grown(between(at(step), at(step + 1)), 2.0));
            }
        }
        // Seated protons stand out over the rim, and a mark is drawn around it.
        Shape::Particle {
            at, radius, marked, ..
        } => {
            let mark = if marked { 4.0 } else { 1.5 };
            tell(grown(between(at, at), 1.4 * radius + mark));
        }
        Shape::Proton { at, radius, trail } | Shape::Hydroxide { at, radius, trail } => {
            let top = Point::new(at.x, at.y - trail.unwrap_or(0.0));
            tell(grown(between(top, at), radius + 4.0));
        }
        Shape::Water { at, radius } => tell(grown(between(at, at), 1.1 * radius + 2.0)),
    }
}

/// Which of two shapes is painted first, roughly; equal if one may have become the other. Where
/// the order is another, more is painted anew than need be.
pub(super) fn order(one: &Shape, other: &Shape) -> Ordering {
    if let (Shape::Particle { id: a, .. }, Shape::Particle { id: b, .. }) = (one, other) {
        return a.cmp(b);
    }
    let rank = |shape: &Shape| match shape {
        Shape::SolventStrip { .. } => 0,
        Shape::Pan { .. } => 1,
        Shape::Level { .. } => 2,
        Shape::Particle { .. } => 3,
        Shape::Proton { .. } => 4,
        Shape::Hydroxide { .. } => 5,
        Shape::StartMark { .. } => 6,
        Shape::FreeIons { .. } => 7,
        Shape::Path { .. } => 8,
        Shape::Water { .. } => 9,
    };
    rank(one).cmp(&rank(other))
}

fn between(a: Point, b: Point) -> Rect {
    Rect {
        x: a.x.min(b.x),
        y: a.y.min(b.y),
        width: (a.x - b.x).abs(),
        height: (a.y - b.y).abs(),
    }
}

fn grown(rect: Rect, by: f64) -> Rect {
    Rect {
        x: rect.x - by,
        y: rect.y - by,
        width: rect.width + 2.0 * by,
        height: rect.height + 2.0 * by,
    }
}

/// Words above a line that ends at a wall, with the ground under them.
fn written(wall: Point, leftwards: bool, (width, height): Words) -> Rect {
    let near = words_beside(wall, leftwards);
    let far = near.x + if leftwards { -width } else { width };
    grown(between(near, Point::new(far, near.y - height)), GROUND)
}
