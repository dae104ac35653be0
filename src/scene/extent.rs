//! How far each shape reaches, with whatever the painter adds to it.

use super::shape::{Point, Rect, Shape, Side, arc_point};

/// Straight parts that the course of a crossing is taken as.
const BENDS: u8 = 20;

/// How far words reach from the line that they are written on, up and along it, with the largest
/// letters that somebody may have chosen.
const HIGHEST: f64 = 80.0;
const WIDEST: f64 = 320.0;

/// Calls `tell` with parts that cover all of the shape, and with what decides how it looks there.
pub(super) fn parts(shape: &Shape, tell: &mut dyn FnMut(Rect, &[f64])) {
    match *shape {
        Shape::SolventStrip { rect } => tell(grown(rect, 2.0), &[1.0]),
        Shape::Pan { rect, side } => tell(grown(rect, 2.0), &[2.0, code(side)]),
        Shape::Level { rect, side } => {
            // Below its line it looks the same however high the line is.
            tell(grown(rect, 1.0), &[3.0, code(side)]);
            let height = 0.0;
            let line = Rect { height, ..rect };
            tell(grown(line, 2.0), &[4.0, code(side), rect.y, rect.height]);
        }
        Shape::StartMark {
            from, to, labeled, ..
        } => {
            let facts = [5.0, from.x, from.y, to.x];
            tell(grown(between(from, to), 2.0), &facts);
            if labeled {
                let end = Point::new(
                    if to.x < from.x {
                        from.x - WIDEST
                    } else {
                        from.x + WIDEST
                    },
                    from.y,
                );
                tell(written(between(from, end)), &facts);
            }
        }
        Shape::FreeIons { rect, .. } => tell(written(rect), &[6.0, rect.x, rect.y]),
        Shape::Path {
            from,
            to,
            peak,
            side,
        } => {
            let facts = [7.0, from.x, from.y, to.x, to.y, peak, code(side)];
            let at = |step: u8| arc_point(from, to, peak, f64::from(step) / f64::from(BENDS));
            for step in 0..BENDS {
                tell(grown(between(at(step), at(step + 1)), 2.0), &facts);
            }
        }
        Shape::Particle {
            at,
            radius,
            protons,
            facing,
            marked,
            ..
        } => {
            let marked = f64::from(u8::from(marked));
            let facts = [8.0, at.x, at.y, radius, f64::from(protons), facing, marked];
            // Seated protons stand out over the rim.
            tell(grown(between(at, at), 1.4 * radius + 4.0), &facts);
        }
        Shape::Proton { at, radius, trail } => falling(9.0, at, radius, trail, tell),
        Shape::Hydroxide { at, radius, trail } => falling(10.0, at, radius, trail, tell),
        Shape::Water { at, radius } => {
            tell(
                grown(between(at, at), 1.1 * radius + 2.0),
                &[11.0, at.x, at.y, radius],
            );
        }
    }
}

fn falling(
    kind: f64,
    at: Point,
    radius: f64,
    trail: Option<f64>,
    tell: &mut dyn FnMut(Rect, &[f64]),
) {
    let trail = trail.unwrap_or(0.0);
    let top = Point::new(at.x, at.y - trail);
    tell(
        grown(between(top, at), radius + 4.0),
        &[kind, at.x, at.y, radius, trail],
    );
}

fn code(side: Side) -> f64 {
    f64::from(side as u8)
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

/// The upper edge of `rect` with the words above it, which stay in sight where it is very high.
fn written(rect: Rect) -> Rect {
    let edge = Rect {
        y: rect.y - HIGHEST,
        height: HIGHEST + 20.0,
        ..rect
    };
    grown(edge, 2.0)
}
