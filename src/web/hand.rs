//! Puts many shapes on a canvas with as few calls as may be: on a slow phone the calls are what a
//! frame costs.

use core::ops::Range;

use web_sys::{CanvasRenderingContext2d, Path2d};

use crate::scene::shape::{Point, Shape, arc_point};
use crate::web::canvas::{Brush, Painter, Surface};
use crate::web::rows::Row;
use crate::web::stamps::{Placed, Stamps};

/// Size of a course's dots, and from one to the next, in CSS pixels.
const DOT: (f64, f64) = (1.5, 6.5);

/// Courses of crossings, as the browser keeps them: they stay while a particle is on its way.
#[derive(Default)]
pub(super) struct Courses(Vec<(Shape, Path2d)>);

impl Courses {
    /// Makes ready for all the courses among these shapes.
    pub(super) fn prepare(&mut self, shapes: &[Shape]) {
        let is_course = |shape: &&Shape| matches!(shape, Shape::Path { .. });
        let mut kept = std::mem::take(&mut self.0);
        for shape in shapes.iter().filter(is_course) {
            let known = kept.iter().position(|(other, _)| other == shape);
            let course = known.map_or_else(
                || Some((*shape, course(shape)?)),
                |at| Some(kept.swap_remove(at)),
            );
            self.0.extend(course);
        }
    }

    fn of(&self, shape: &Shape) -> Option<&Path2d> {
        let course = self.0.iter().find(|(other, _)| other == shape);
        course.map(|(_, path)| path)
    }
}

/// Shapes in paint order, and which of them are copied.
pub(super) struct Pile<'a> {
    shapes: Vec<&'a Shape>,
    stamps: Vec<Option<Placed>>,
    rows: Vec<(Range<usize>, Row)>,
}

impl<'a> Pile<'a> {
    /// Paints all pictures that will be copied: a sheet that changes while it is copied from is
    /// copied as a whole.
    pub(super) fn new(
        shapes: impl Iterator<Item = &'a Shape>,
        surface: &Surface<'_>,
        brush: &Brush<'_>,
        stamps: &mut Stamps,
    ) -> Self {
        let (shapes, placed): (Vec<_>, Vec<_>) = shapes
            .map(|shape| (shape, stamps.of(shape, surface, brush)))
            .unzip();
        let rows = stamps.rows(&placed, surface);
        Self {
            shapes,
            stamps: placed,
            rows,
        }
    }
}

/// Puts shapes on a canvas, by copying or by painting.
pub(super) struct Hand<'a> {
    surface: &'a Surface<'a>,
    painter: Painter<'a>,
    stamps: &'a Stamps,
    courses: &'a Courses,
    /// Whether one unit is one dot of the canvas, as copies go, or one CSS pixel.
    by_dots: bool,
}

impl<'a> Hand<'a> {
    /// A hand at a context that is not scaled.
    pub(super) fn new(
        surface: &'a Surface<'a>,
        context: &'a CanvasRenderingContext2d,
        brush: &'a Brush<'a>,
        stamps: &'a Stamps,
        courses: &'a Courses,
    ) -> Self {
        Self {
            surface,
            painter: Painter::new(context, brush),
            stamps,
            courses,
            by_dots: true,
        }
    }

    /// Puts down those of a pile whose place in it is wanted.
    pub(super) fn put(&mut self, pile: &Pile<'_>, is_wanted: impl Fn(usize) -> bool) {
        let mut rows = pile.rows.iter().peekable();
        let (mut place, mut trails) = (0, 0);
        while let Some(shape) = pile.shapes.get(place) {
            let row = rows.next_if(|(places, _)| places.start == place);
            let end = row.map_or(place + 1, |(places, _)| places.end);
            if (place..end).any(&is_wanted) {
                if place >= trails {
                    trails = place + self.trails(&pile.shapes[place..]);
                }
                self.one(shape, pile.stamps[place], row.map(|(_, row)| *row));
            }
            place = end;
        }
    }

    fn one(&mut self, shape: &Shape, stamp: Option<Placed>, row: Option<Row>) {
        if let Some(first) = stamp {
            self.scale(true);
            let context = self.painter.context;
            match row {
                Some(row) => self.stamps.copy_row(row, first, context),
                None => self.stamps.copy(first, context),
            }
            return;
        }
        self.scale(false);
        match self.courses.of(shape) {
            Some(path) => self.painter.course(shape, path),
            None => self.painter.shape(shape),
        }
    }

    /// Paints the trails of what falls at the beginning of these shapes, under all of it, and tells
    /// how many that are.
    fn trails(&mut self, shapes: &[&Shape]) -> usize {
        let trails: Vec<_> = shapes.iter().map_while(|shape| trail(shape)).collect();
        if !trails.is_empty() {
            self.scale(false);
            self.painter.trails(&trails);
        }
        trails.len()
    }

    fn scale(&mut self, by_dots: bool) {
        if std::mem::replace(&mut self.by_dots, by_dots) != by_dots {
            self.surface.scale(self.painter.context, !by_dots);
        }
    }
}

/// The course of a crossing, as dots to be filled: a dotted line takes a browser that paints
/// without a graphics processor seven times as long.
fn course(shape: &Shape) -> Option<Path2d> {
    let Shape::Path { from, to, peak, .. } = *shape else {
        return None;
    };
    let path = Path2d::new().ok()?;
    let (size, apart) = DOT;
    let (mut before, mut left) = (from, 0.0);
    for i in 1..=20 {
        let next = arc_point(from, to, peak, f64::from(i) / 20.0);
        let length = before.distance_squared(next).sqrt();
        while left < length {
            let at = before.lerp(next, left / length);
            path.rect(at.x - size / 2.0, at.y - size / 2.0, size, size);
            left += apart;
        }
        left -= length;
        before = next;
    }
    Some(path)
}

/// Where the trail of what falls begins above it, and how long it is.
fn trail(shape: &Shape) -> Option<(Point, f64)> {
    match *shape {
        Shape::Proton { at, radius, trail } | Shape::Hydroxide { at, radius, trail } => {
            Some((Point::new(at.x, at.y - radius - 2.0), trail?))
        }
        _ => None,
    }
}
