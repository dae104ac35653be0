//! Puts many shapes on a canvas with as few calls as may be: on a slow phone the calls are what a
//! frame costs.

use core::ops::Range;

use web_sys::{CanvasRenderingContext2d, Path2d};

use crate::scene::shape::Shape;
use crate::web::canvas::{Brush, Painter, Surface, course, trail};
use crate::web::rows::Row;
use crate::web::stamps::{Placed, Stamps};

/// Courses of crossings, as the browser keeps them: they stay while a particle is on its way.
#[derive(Default)]
pub(super) struct Courses(Vec<(Shape, Path2d)>);

impl Courses {
    /// Makes ready for all the courses among these shapes.
    pub(super) fn prepare(&mut self, shapes: &[Shape]) {
        let is_course = |shape: &&Shape| matches!(shape, Shape::Path { .. });
        let mut kept = core::mem::take(&mut self.0);
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

/// How the context is set.
#[derive(Clone, Copy, PartialEq)]
enum Pen {
    /// One unit is one CSS pixel.
    Solid,
    /// The same, and lines are dotted.
    Dotted,
    /// One unit is one dot of the canvas: pictures are copied.
    Copying,
}

/// Puts shapes on a canvas, by copying or by painting.
pub(super) struct Hand<'a> {
    surface: &'a Surface<'a>,
    painter: Painter<'a>,
    stamps: &'a Stamps,
    courses: &'a Courses,
    pen: Pen,
}

impl<'a> Hand<'a> {
    /// A hand at a context that is set for copying, with solid lines.
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
            pen: Pen::Copying,
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
            self.take(Pen::Copying);
            let context = self.painter.context;
            match row {
                Some(row) => self.stamps.copy_row(row, first, context),
                None => self.stamps.copy(first, context),
            }
        } else if let Some(path) = self.courses.of(shape) {
            self.take(Pen::Dotted);
            self.painter.course(shape, path);
        } else {
            self.take(Pen::Solid);
            self.painter.shape(shape);
        }
    }

    /// Paints the trails of what falls at the beginning of these shapes, under all of it, and tells
    /// how many that are.
    fn trails(&mut self, shapes: &[&Shape]) -> usize {
        let trails: Vec<_> = shapes.iter().map_while(|shape| trail(shape)).collect();
        if !trails.is_empty() {
            self.take(Pen::Solid);
            self.painter.trails(&trails);
        }
        trails.len()
    }

    fn take(&mut self, pen: Pen) {
        let before = core::mem::replace(&mut self.pen, pen);
        if (before == Pen::Copying) != (pen == Pen::Copying) {
            let context = self.painter.context;
            self.surface.scale(context, pen != Pen::Copying);
        }
        match (before == Pen::Dotted, pen == Pen::Dotted) {
            (false, true) => self.painter.dotted(),
            (true, false) => self.painter.solid(),
            _ => (),
        }
    }
}
