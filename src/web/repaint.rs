//! Paints of a picture only what differs from the one before.

use web_sys::CanvasRenderingContext2d;

use crate::scene::shape::{Scene, Shape};
use crate::scene::tiles::{Tiles, Words};
use crate::web::canvas::{Brush, Painter, Surface};
use crate::web::stamps::{Stamp, Stamps};

/// What is kept from one picture to the next, for a canvas.
#[derive(Default)]
pub struct Kept {
    tiles: Tiles,
    stamps: Stamps,
    words: Option<Words>,
    /// Whether anything is on the upper canvas.
    moving: bool,
}

impl Kept {
    /// Lets all of the next picture be painted anew, in other colors for instance.
    pub fn forget(&mut self) {
        self.stamps.forget();
        self.forget_pictures();
    }

    /// The same with the small pictures as they are.
    fn forget_pictures(&mut self) {
        self.tiles.forget();
        self.words = None;
        self.moving = true;
    }
}

/// Paints `scene` on a canvas that shows what was painted last: only what differs, and small
/// particles by copying.
pub fn paint(scene: &Scene, surface: &Surface<'_>, brush: &Brush<'_>, kept: &mut Kept) {
    kept.stamps.prepare(scene, surface.ratio, brush);
    paint_rest(&scene.shapes, surface, brush, kept);
}

/// The same on two canvases that lie over each other: what moves is on the upper one, so that what
/// rests beside it need not be painted with it.
pub fn paint_in_two(
    scene: &Scene,
    [lower, upper]: [&Surface<'_>; 2],
    brush: &Brush<'_>,
    kept: &mut Kept,
) {
    kept.stamps.prepare(scene, lower.ratio, brush);
    let (rest, moving) = scene.shapes.split_at(scene.moving);
    paint_rest(rest, lower, brush, kept);
    paint_moving(moving, upper, brush, kept);
}

fn paint_rest(shapes: &[Shape], surface: &Surface<'_>, brush: &Brush<'_>, kept: &mut Kept) {
    let Some(context) = surface.fit(|| kept.forget_pictures()) else {
        return;
    };
    let words = *kept
        .words
        .get_or_insert_with(|| Painter::new(&context, brush).words_room());
    let (tiles, stamps) = (&mut kept.tiles, &mut kept.stamps);
    let key = brush.base_charge;
    tiles.follow(shapes, surface.area(), surface.tile(), words, key);
    // All pictures first: a sheet that changes while it is copied from is copied as a whole.
    let touched: Vec<_> = shapes
        .iter()
        .enumerate()
        .filter(|(place, _)| tiles.is_touched(*place))
        .map(|(place, shape)| (place, shape, stamps.of(shape, brush)))
        .collect();
    for &patch in tiles.patches() {
        context.save();
        surface.open(&context, patch);
        let mut hand = Hand::new(surface, &context, brush, stamps);
        for (place, shape, stamp) in &touched {
            if tiles.reaches(*place, patch) {
                hand.put(shape, *stamp);
            }
        }
        context.restore();
    }
}

fn paint_moving(shapes: &[Shape], surface: &Surface<'_>, brush: &Brush<'_>, kept: &mut Kept) {
    let Some(context) = surface.fit(|| ()) else {
        return;
    };
    let was_moving = std::mem::replace(&mut kept.moving, !shapes.is_empty());
    if !was_moving && shapes.is_empty() {
        return;
    }
    let stamps = &mut kept.stamps;
    let shapes: Vec<_> = shapes
        .iter()
        .map(|shape| (shape, stamps.of(shape, brush)))
        .collect();
    context.save();
    surface.wipe(&context);
    let mut hand = Hand::new(surface, &context, brush, stamps);
    for (shape, stamp) in shapes {
        hand.put(shape, stamp);
    }
    context.restore();
}

/// Puts one shape after the other on a canvas, by copying or by painting.
struct Hand<'a> {
    surface: &'a Surface<'a>,
    painter: Painter<'a>,
    stamps: &'a Stamps,
    /// Copies are placed by dots, whatever is painted by CSS pixels.
    by_pixels: bool,
}

impl<'a> Hand<'a> {
    fn new(
        surface: &'a Surface<'a>,
        context: &'a CanvasRenderingContext2d,
        brush: &'a Brush<'a>,
        stamps: &'a Stamps,
    ) -> Self {
        Self {
            surface,
            painter: Painter::new(context, brush),
            stamps,
            by_pixels: false,
        }
    }

    fn put(&mut self, shape: &Shape, stamp: Option<Stamp>) {
        let context = self.painter.context;
        if self.by_pixels == stamp.is_some() {
            self.by_pixels = !self.by_pixels;
            self.surface.scale(context, self.by_pixels);
        }
        match stamp {
            Some(stamp) => self.stamps.copy(stamp, self.surface.dot(stamp.at), context),
            None => self.painter.shape(shape),
        }
    }
}
